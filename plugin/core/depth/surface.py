"""The depth surface: what is dug below a design, zone by zone.

The way there is a row of stages, each in a module of its own: overlaps are settled (`zones`),
bottoms widened (`widen`), the design carried on where they run past it (`carry_on`), cut along
their borders (`tin.cut`), its pieces laid down plumb (`patchwork`) or moved square to their own
slope (`square`), batters raised from their edges (`batter`), upright jumps closed by steps
(`steps`), and all of it measured (`quantities`).
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding
from ..progress import Progress, part, silent
from ..tin import Tin
from ..tolerance import Tolerance
from .fitness import faults_of_design
from .ground import as_it_is
from .manner import Beyond, Manner
from .needles import doubled_areas, without_needles
from .patchwork import Part
from .quantities import Quantities, measure, volumes
from .remarks import carried_on, remarks
from .stages import Laid, dig, dig_past_the_edge
from .steps import Standing, stand
from .widen import widen
from .zones import Outside, Zones, resolve

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FLAGS = ("", "carried", "narrow_step", "off_thickness", "unsure")
"""Codes of findings that faces are concerned by."""

_EQUAL = 1e-10  # of the extent: heights at one point that differ by no more are the same


@dataclass(frozen=True, eq=False)
class DepthSurface:
    """A surface some depth below a design.

    Parameters
    ----------
    tin : Tin
        The surface.
    zone : (m,) int
        Row of the zone each face belongs to, -1 outside all.
    parent : (m,) int
        Face of the design each face lies below.
    part : (m,) int
        `Part` of each face.
    depths : (n,) float
        Depth of each vertex below the design, plumb.
    flag : (m,) int
        Which of `FLAGS` each face is concerned by, mostly none.
    quantities : Quantities
        Figures of the zones, and of the rest.
    zones : Zones
        The zones as dug: disjoint and widened.
    largest_move : float
        Greatest distance between the zone borders as given and as cut.
    least_run : float
        Plan run of the narrowest step; infinite when there is none.
    largest_residual : float
        Greatest distance from the thickness asked for at right angles, where no point has it
        from all faces around.
    carried_area : float
        Plan area of the surface past the edge of the design.
    findings : list of Finding
        Places where the input or the result may be wrong.
    """

    tin: Tin
    zone: Ints
    parent: Ints
    part: Ints
    depths: Floats
    flag: NDArray[np.int8]
    quantities: Quantities
    zones: Zones
    largest_move: float
    least_run: float
    largest_residual: float
    carried_area: float
    findings: list[Finding]

    @property
    def flags(self) -> NDArray[np.str_]:
        """Code of the finding each face is concerned by, mostly empty, (m,) str."""
        return np.array(FLAGS)[self.flag]


def depth_surface(
    tin: Tin,
    zones: Zones,
    outside: Outside = Outside.KEEP,
    outside_depth: float = 0.0,
    tolerance: Tolerance = Tolerance(),  # noqa: B008 - frozen
    *,
    manner: Manner = Manner(),  # noqa: B008 - frozen
    beyond: Beyond = Beyond.STOP,
    progress: Progress = silent,
) -> DepthSurface:
    """Lower a design by the depth of each zone.

    Every face of the result belongs to one zone. Bottoms lie exactly on the planes of the
    design, moved down; where depths differ the deeper zone climbs on a batter, or holds the
    step, a face that runs ``tolerance.step`` in plan.

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
    manner : Manner
        How bottoms end, and the unit of heights.
    beyond : Beyond
        What happens where pits and their sides run past the edge of the design.
    progress : Progress
        Told the share done.

    Raises
    ------
    ZoneError
        As `resolve`; or no zone meets the design and the rest is left out.
    """
    settled = resolve(zones, tolerance)
    progress(0.02)
    faults = faults_of_design(tin, tolerance)
    progress(0.1)
    surface = surface_of_pits(
        tin,
        settled,
        outside,
        outside_depth,
        tolerance,
        manner=manner,
        beyond=beyond,
        progress=part(progress, 0.1, 1.0),
    )
    return replace(surface, findings=surface.findings + faults)


def surface_of_pits(
    tin: Tin,
    pits: Zones,
    outside: Outside = Outside.KEEP,
    outside_depth: float = 0.0,
    tolerance: Tolerance = Tolerance(),  # noqa: B008 - frozen
    *,
    manner: Manner = Manner(),  # noqa: B008 - frozen
    beyond: Beyond = Beyond.STOP,
    progress: Progress = silent,
) -> DepthSurface:
    """Lower a design by pits that may lie over one another: the deepest wins.

    Parameters
    ----------
    pits : Zones
        As `depth_surface`, but overlaps are meant; an id may occur several times. Whether the
        design is sound is not looked at (see `faults_of_design`).

    Returns
    -------
    DepthSurface
        Its zones are the rows of the pits.
    """
    dug = widen(pits, manner, tolerance, part(progress, 0.0, 0.05))
    way = (dug, outside, outside_depth, manner, tolerance, part(progress, 0.05, 0.7))
    laid = dig(as_it_is(tin), *way) if beyond is Beyond.STOP else dig_past_the_edge(tin, *way)
    west, south, east, north = tin.extent
    equal = _EQUAL * max(east - west, north - south)
    stood = stand(laid.patchwork, tolerance.step, equal, part(progress, 0.7, 0.85))
    progress(0.85)
    return _finished(tin, dug, laid, stood, tolerance, manner, part(progress, 0.85, 1.0))


def _finished(
    tin: Tin,
    dug: Zones,
    laid: Laid,
    stood: Standing,
    tolerance: Tolerance,
    manner: Manner,
    progress: Progress,
) -> DepthSurface:
    """Make the surface of what stands, measure it, and say what is to be looked at."""
    cut, patchwork = laid.cut, laid.patchwork
    ground = laid.ground
    surface, names, rows = _surface(stood, laid)
    source, step = stood.source[rows], stood.step[rows]
    zone, parent = patchwork.zone[source], patchwork.parent[source]
    parts = np.where(step, Part.STEP, patchwork.part[source])
    shifted = laid.shifted[source]
    depths = _depths(ground.tin, surface, stood.design[names], shifted)
    row = np.where(zone < 0, len(dug), zone)
    over = Tin(cut.tin.vertices, cut.tin.faces[np.append(dug.squares != 0.0, False)[cut.zone]])
    progress(0.2)
    between = volumes(
        over, surface, depths, row, len(dug) + 1, shifted, manner.z_scale, part(progress, 0.2, 0.7)
    )
    progress(0.7)
    quantities = measure(surface, between, zone, parts, len(dug), manner.z_scale)
    flag = np.zeros(len(rows), dtype=np.int8)
    carried = parent >= ground.count
    flag[carried] = FLAGS.index("carried")
    flag[step & np.isin(source, stood.narrow_faces)] = FLAGS.index("narrow_step")
    flag[_at(stood, laid.missed)[rows]] = FLAGS.index("off_thickness")
    unsure = np.union1d(cut.loose, cut.parent[cut.doubtful])
    flag[np.isin(parent, unsure)] = FLAGS.index("unsure")
    progress(1.0)
    return DepthSurface(
        surface,
        zone,
        ground.parent[parent],
        parts,
        depths,
        flag,
        quantities,
        dug,
        max(cut.largest_move, dug.largest_move),
        stood.least_run,
        laid.largest_residual,
        float(surface.plan_areas[carried].sum()),
        [
            *remarks(tin, ground.tin, cut, dug, stood, laid.origin, tolerance),
            *carried_on(surface, carried, ground.distance),
            *laid.findings,
        ],
    )


def _depths(tin: Tin, surface: Tin, design: Floats, shifted: NDArray[np.bool_]) -> Floats:
    """Return the depth of each vertex; what has moved from its face of the design is looked up."""
    if shifted.any():
        fixed = np.zeros(len(surface.vertices), dtype=bool)
        fixed[surface.faces[~shifted]] = True
        rows = np.flatnonzero(~fixed)
        height, face = tin.sample(surface.vertices[rows])
        design = design.copy()
        design[rows[face >= 0]] = height[face >= 0]
    return design - surface.vertices[:, 2]


def _at(stood: Standing, places: Floats) -> NDArray[np.bool_]:
    """Tell which faces have a corner at one of some places."""
    if not len(places):
        return np.zeros(len(stood.faces), dtype=bool)
    wanted = set(map(tuple, places.tolist()))
    corners = stood.vertices[:, :2]
    near = np.flatnonzero(np.isin(corners[:, 0], places[:, 0]))
    hit = np.zeros(len(corners), dtype=bool)
    hit[[row for row in near.tolist() if tuple(corners[row].tolist()) in wanted]] = True
    return hit[stood.faces].any(axis=1)


def _surface(stood: Standing, laid: Laid) -> tuple[Tin, Ints, Ints]:
    """Return the surface on the site, without unused vertices and needles.

    Vertices that have not moved in plan keep their coordinates there to the last bit.

    Returns
    -------
    surface : Tin
    names : (n,) int
        Number of each of its vertices before.
    rows : (m,) int
        Number of the face each of its faces is (part of) before.
    """
    given = laid.cut.tin.vertices
    vertices = stood.vertices.copy()
    vertices[:, :2] += laid.origin
    still = (stood.vertices[: len(given), :2] == given[:, :2] - laid.origin).all(axis=1)
    vertices[: len(given), :2][still] = given[still, :2]
    tin = laid.ground.tin
    faces, rows = stood.faces, np.arange(len(stood.faces))
    flat = np.flatnonzero(~(doubled_areas(vertices[:, :2], faces) > 0.0))
    if len(flat):
        parent = laid.patchwork.parent[stood.source]
        pieces = np.bincount(parent, minlength=len(tin.faces))[parent[flat]]
        flat = flat[(pieces > 1) & ~tin.without_plan_area[parent[flat]]]
        faces, rows = without_needles(vertices[:, :2], faces, flat)
    used = np.zeros(len(vertices), dtype=bool)
    used[faces] = True
    number = np.cumsum(used) - 1
    vertices = vertices[used]
    faces = number[faces]
    for array in (vertices, faces):
        array.flags.writeable = False
    return Tin(vertices, faces), np.flatnonzero(used), rows
