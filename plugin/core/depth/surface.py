"""The depth surface: a design cut by zones and lowered plumb below each of them."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..errors import ZoneError
from ..findings import Finding
from ..progress import Progress, part, silent
from ..text import translate
from ..tin import Tin
from ..tin.cut import cut_tin
from ..tolerance import Tolerance
from .patchwork import Part, lay
from .quantities import Quantities, measure
from .remarks import remarks
from .steps import Standing, stand
from .zones import Outside, Zones, resolve

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_EQUAL = 1e-10  # of the extent: heights at one point that differ by no more are the same


@dataclass(frozen=True, eq=False)
class DepthSurface:
    """A surface some depth below a design.

    Parameters
    ----------
    tin : Tin
        The surface.
    zone : (m,) int
        Row of the zone each face lies in, -1 outside all.
    parent : (m,) int
        Face of the design each face lies below.
    part : (m,) int
        `Part` of each face.
    depths : (n,) float
        Depth of each vertex below the design.
    flags : (m,) str
        Code of the finding each face is concerned by, mostly empty.
    quantities : Quantities
        Figures of the zones, and of the rest.
    largest_move : float
        Greatest distance between the zone borders as given and as cut.
    least_run : float
        Plan run of the narrowest step; infinite when there is none.
    findings : list of Finding
        Places where the input or the result may be wrong.
    """

    tin: Tin
    zone: Ints
    parent: Ints
    part: Ints
    depths: Floats
    flags: NDArray[np.str_]
    quantities: Quantities
    largest_move: float
    least_run: float
    findings: list[Finding]


def depth_surface(
    tin: Tin,
    zones: Zones,
    outside: Outside = Outside.KEEP,
    outside_depth: float = 0.0,
    tolerance: Tolerance = Tolerance(),  # noqa: B008 - frozen
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> DepthSurface:
    """Lower a design by the depth of each zone.

    Every face of the result lies in one zone. Where depths differ the deeper zone holds the
    step, a face that runs ``tolerance.step`` in plan; all other faces lie exactly on the planes
    of the design, moved down.

    Parameters
    ----------
    tin : Tin
        The design; depths are in the unit of its heights.
    zones : Zones
        Overlaps are refused or settled as `resolve` says.
    outside : Outside
        Keep the design outside all zones, leave it out, or lower it by ``outside_depth``.
    outside_depth : float
        Used with `Outside.USE_DEPTH` only.
    tolerance : Tolerance
        In plan units.
    z_scale : float
        Plan units in one unit of height, for areas on the slope and volumes.
    progress : Progress
        Told the share done.

    Raises
    ------
    ZoneError
        As `resolve`; or no zone meets the design and the rest is left out.
    """
    zones = resolve(zones, tolerance)
    cut = cut_tin(tin, zones.polygons, tolerance, part(progress, 0.02, 0.6))
    elsewhere = outside_depth if outside is Outside.USE_DEPTH else 0.0
    depth_of_zone = np.append(np.asarray(zones.depths, dtype=np.float64), elsewhere)
    origin = np.floor(tin.vertices[:, :2].min(axis=0))
    laid = lay(cut, depth_of_zone, origin, lower_rest=outside is Outside.USE_DEPTH)
    if outside is Outside.LEAVE_OUT:
        laid = laid.take(laid.zone >= 0)
        if not len(laid.faces):
            raise ZoneError(
                translate(
                    "Core",
                    "No zone meets the design, so that nothing is left of it: check that both have the same coordinate reference system.",
                )
            )
    west, south, east, north = tin.extent
    equal = _EQUAL * max(east - west, north - south)
    stood = stand(laid, tolerance.step, equal, part(progress, 0.6, 0.85))
    progress(0.85)
    zone = laid.zone[stood.source]
    parts = np.where(stood.step, Part.STEP, laid.part[stood.source])
    surface, names = _surface(stood, origin, cut.tin.vertices)
    depths = stood.design[names] - surface.vertices[:, 2]
    quantities = measure(surface, depths, zone, stood.step, len(zones), z_scale)
    parent = laid.parent[stood.source]
    flags = np.where(stood.step & np.isin(stood.source, stood.narrow_faces), "narrow_step", "")
    unsure = np.union1d(cut.loose, cut.parent[cut.doubtful])
    flags = np.where(np.isin(parent, unsure), "unsure", flags)
    progress(0.95)
    return DepthSurface(
        surface,
        zone,
        parent,
        parts,
        depths,
        flags,
        quantities,
        cut.largest_move,
        stood.least_run,
        remarks(tin, cut, zones, quantities, stood, origin, tolerance),
    )


def _surface(stood: Standing, origin: Floats, given: Floats) -> tuple[Tin, Ints]:
    """Return the surface without unused vertices, and the number of each of its vertices before.

    Vertices of the design keep their plan coordinates to the last bit.
    """
    used = np.zeros(len(stood.vertices), dtype=bool)
    used[stood.faces] = True
    number = np.cumsum(used) - 1
    vertices = stood.vertices.copy()
    vertices[:, :2] += origin
    vertices[: len(given), :2] = given[:, :2]
    vertices = vertices[used]
    faces = number[stood.faces]
    for array in (vertices, faces):
        array.flags.writeable = False
    return Tin(vertices, faces), np.flatnonzero(used)
