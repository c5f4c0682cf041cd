"""The strip of ground between the first and the last section of each line, and what lies in it."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..lines.arcs import Arcs
from ..lines.bundle import Lines
from ..progress import Progress, part, silent
from ..runs import count_up
from ..tin import Tin
from ..tin.overlay import Between, cells, integrate
from .section_lines import Sections, sections_at

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Ground:
    """The ground between the first and the last section of a line.

    Parameters
    ----------
    shape : shapely.Geometry
        Polygon or MultiPolygon, where it folds counted once.
    twice : float
        What sweeping along the line covers more often than once, in plan area: the inside of
        tight bends, and stretches nearer to each other than they are wide.
    """

    shape: shapely.Geometry
    twice: float


def strips(
    sections: Sections,
    lines: Lines,
    left: float,
    right: float,
    arcs: Arcs | None = None,
    snap: float = 1e-4,
) -> dict[int, Ground]:
    """Return the ground between the first and the last section of each line.

    It reaches to either side as far as the sections do.

    Parameters
    ----------
    sections : Sections
        The sections, in order along each line.
    lines, left, right, arcs, snap
        As they were given to `sections_at`.

    Returns
    -------
    dict of int to Ground
        By line, for lines with two sections or more.
    """
    found = {}
    for k in np.unique(sections.line):
        own = sections.distance[sections.line == k]
        if len(own) < 2:
            continue
        vertices = lines.stations[lines.line(int(k))]
        inner = vertices[(vertices > own[0] + snap) & (vertices < own[-1] - snap)]
        places = np.unique(np.concatenate((own, inner)))
        fresh = np.concatenate(([True], np.diff(places) > snap))
        row = sections_at(
            lines, np.full(int(fresh.sum()), k), places[fresh], left, right, arcs, snap
        )
        found[int(k)] = _swept(row, snap)
    return found


def _swept(row: Sections, snap: float) -> Ground:
    """Return the union of the quadrilaterals between neighbouring sections."""
    a, b = row.ends
    origin = row.foot[0]
    a, b = a - origin, b - origin
    if np.hypot(*(row.foot[-1] - row.foot[0])) <= snap:
        a[-1], b[-1] = a[0], b[0]  # a ring closes without a hairline
    rings = np.stack((a[:-1], b[:-1], b[1:], a[1:]), axis=1)
    quads = shapely.polygons(shapely.linearrings(rings))
    quads = shapely.make_valid(quads, method="structure", keep_collapsed=False)
    whole = shapely.union_all(quads)
    twice = float(shapely.area(quads).sum()) - float(whole.area)
    if twice <= snap * float(whole.length):
        twice = 0.0  # rounding
    return Ground(shapely.transform(whole, lambda xy: xy + origin), twice)


def within(
    upper: Tin,
    lower: Tin,
    ground: shapely.Geometry,
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> Between | None:
    """Measure what lies between two surfaces over some ground, exactly.

    Parameters
    ----------
    upper, lower : Tin
        The surfaces.
    ground : shapely.Geometry
        Polygon or MultiPolygon.
    z_scale : float
        Plan units in one unit of height.
    progress : Progress
        Told the share done.

    Returns
    -------
    Between or None
        None where the upper surface does not reach the ground.
    """
    flat = _flat(ground)
    if flat is None:
        return None
    corners = [
        _fan(block.offsets, np.column_stack((block.xy, block.upper_z)))
        for block in cells(upper, flat, split=False, progress=part(progress, 0.0, 0.5))
        if len(block)
    ]
    if not corners or not sum(len(triangles) for triangles in corners):
        return None
    return integrate(
        _soup(np.concatenate(corners)), lower, z_scale=z_scale, progress=part(progress, 0.5, 1.0)
    )


def _flat(ground: shapely.Geometry) -> Tin | None:
    """Return the ground as triangles at height 0."""
    origin = shapely.get_coordinates(ground)[0] if not shapely.is_empty(ground) else np.zeros(2)
    local = shapely.transform(ground, lambda xy: xy - origin)
    pieces = shapely.get_parts(shapely.constrained_delaunay_triangles(local))
    plan = shapely.get_coordinates(pieces).reshape(-1, 4, 2)[:, :3] + origin
    if not len(plan):
        return None
    return _soup(np.concatenate((plan, np.zeros((len(plan), 3, 1))), axis=2))


def _fan(first: Ints, corners: Floats) -> Floats:
    """Return the triangles of convex polygons given as in `Cells`, (t, 3, 3) float."""
    count = np.diff(first) - 2
    head = np.repeat(first[:-1], count)
    step = head + count_up(count)
    return np.stack((corners[head], corners[step + 1], corners[step + 2]), axis=1)


def _soup(triangles: Floats) -> Tin:
    return Tin.from_arrays(triangles.reshape(-1, 3), np.arange(3 * len(triangles)).reshape(-1, 3))
