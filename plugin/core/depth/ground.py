"""The design, carried on as far as what is dug below it reaches past its edge."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeVar

import numpy as np
import shapely
from numpy.typing import NDArray

from ..findings import Finding
from ..progress import Progress, silent
from ..tin import Tin
from ..tin.extend import Pick, extend
from ..tolerance import Tolerance
from .manner import Manner
from .zones import Zones

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Shapes = NDArray[np.object_]
Dug = TypeVar("Dug")

_SLOPING = 1.5  # sides run so much farther than over level ground, to begin with
_MARGIN = 10.0  # of the run of a step: so much farther the design goes on than what is dug


@dataclass(frozen=True, eq=False)
class Ground:
    """A design, perhaps with more around it.

    Parameters
    ----------
    tin : Tin
        The design's own vertices and faces first.
    parent : (m,) int
        Face of the design that each face is, or carries on.
    distance : float
        How far it was carried on; 0 when it was not.
    count : int
        Number of faces of the design itself.
    findings : list of Finding
        Where it could not be carried on as asked.
    """

    tin: Tin
    parent: Ints
    distance: float
    count: int
    findings: list[Finding] = field(default_factory=list)


def as_it_is(tin: Tin) -> Ground:
    """Return the design as it is."""
    return Ground(tin, np.arange(len(tin.faces)), 0.0, len(tin.faces))


def carry_on(
    tin: Tin,
    pits: Zones,
    manner: Manner,
    tolerance: Tolerance,
    farther: float = 1.0,
    progress: Progress = silent,
) -> Ground:
    """Carry a design on with its slope, wherever pits or their sides reach past its edge.

    Pits that do not meet the design, or lie apart from it, ask for nothing.

    Parameters
    ----------
    tin : Tin
        The design.
    pits : Zones
        Disjoint, with the widths already taken into account.
    manner : Manner
        For the unit of heights.
    tolerance : Tolerance
        In plan units.
    farther : float
        Sides are taken to run so much farther than over gently sloping ground.
    progress : Progress
        Told the share done.
    """
    border = tin.vertices[tin.edges.ends[tin.edges.boundary], :2]
    lines = shapely.linestrings(border)
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        outline = shapely.build_area(shapely.multilinestrings(lines))
        over = _past(outline, _reached(pits, manner, farther), tolerance)
    progress(0.3)
    if not len(over):
        return as_it_is(tin)
    corners = shapely.points(shapely.get_coordinates(over))
    shapely.prepare(outline)
    distance = float(shapely.distance(outline, corners).max()) + _MARGIN * tolerance.step
    _, near = shapely.STRtree(lines).query(over, predicate="dwithin", distance=distance)
    picked = Pick(lines[np.unique(near)], tolerance.snap)
    made = extend(
        tin, distance, pick=picked, holes=True, tolerance=tolerance, z_scale=manner.z_scale
    )
    progress(1.0)
    own = np.arange(len(made.source))
    parent = np.where(made.source < 0, own, made.source)
    return Ground(made.tin, parent, distance, len(tin.faces), made.findings)


def until_daylight(
    tin: Tin,
    pits: Zones,
    manner: Manner,
    tolerance: Tolerance,
    dig: Callable[[Ground], Dug],
    said: Callable[[Dug], list[Finding]],
    tries: int,
    progress: Progress = silent,
) -> tuple[Ground, Dug]:
    """Carry a design on and dig; where a side has not come to an end, again with twice the room.

    Parameters
    ----------
    tin, pits, manner, tolerance
        As `carry_on`.
    dig : callable
        Digs in the ground it is given.
    said : callable
        Returns the findings of what was dug.
    tries : int
        How often at the most.
    progress : Progress
        Told the share of the carrying on that is done.
    """
    farther = 1.0
    while True:
        ground = carry_on(tin, pits, manner, tolerance, farther, progress)
        dug = dig(ground)
        tries -= 1
        if tries < 1 or not any(finding.code == "no_daylight" for finding in said(dug)):
            return ground, dug
        farther *= 2.0


def _reached(pits: Zones, manner: Manner, farther: float) -> Shapes:
    """Return the pits with their sides, roughly."""
    drop = np.abs(np.asarray(pits.depths) + np.asarray(pits.squares)) * manner.z_scale
    run = _SLOPING * farther * drop * pits.batters
    reached = pits.polygons.copy()
    sloping = np.flatnonzero(run > 0)
    reached[sloping] = shapely.buffer(
        pits.polygons[sloping], run[sloping], join_style="mitre", mitre_limit=2.0
    )
    return reached


def _past(outline: shapely.Geometry, reached: Shapes, tolerance: Tolerance) -> Shapes:
    """Return what lies beside the design and is not just a hair of it, as single polygons."""
    shapely.prepare(outline)
    some = reached[shapely.intersects(outline, reached) & ~shapely.covers(outline, reached)]
    parts = shapely.get_parts(shapely.difference(some, outline))
    parts = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
    wide = shapely.area(parts) > 0.5 * tolerance.node_grid * shapely.length(parts)
    return parts[wide & shapely.dwithin(outline, parts, tolerance.snap)]
