"""Carry a surface on beyond its borders."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...errors import SurfaceError
from ...findings import Finding
from ...progress import Progress, part, silent
from ...text import translate
from ...tolerance import Tolerance
from ..mesh import Tin
from .border import Border, along_lines, border_of
from .cells import drawn_triangles, plain_triangles
from .conflicts import Conflicts, find_conflicts, leave
from .corners import RAY, Corners, corners_of
from .heights import heights_of
from .manner import Pick, Rule
from .pieces import Pieces, Points, lay_out, points_of
from .planes import Strips, strips_of
from .remarks import remarks

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

_CUTTING = 1e-5
"""Grid of what pieces leave each other, as a share of the snap tolerance."""


@dataclass(frozen=True, eq=False)
class Extended:
    """A surface carried on beyond its borders.

    Parameters
    ----------
    tin : Tin
        The given vertices and faces, bit for bit, and the new ones after them.
    source : (m,) int
        The given face whose edge each new face lies beyond, -1 for given faces.
    length : float
        Length in plan of the edges that were carried on.
    disagreement : float
        The farthest, vertically, that planes beside each other are apart where they had to be
        blended.
    findings : list of Finding
        ``narrow`` the extension stops short of the middle between two borders; ``disagree``
        planes were blended; ``no_slope`` edges whose face has no slope to carry on are level;
        ``no_room`` edges beyond which there is no room at all; ``no_edge`` a line that no edge
        runs along.
    """

    tin: Tin
    source: Ints
    length: float
    disagreement: float
    findings: list[Finding]

    @property
    def new(self) -> Mask:
        """The new faces, (m,) bool."""
        return self.source >= 0


def extend(
    tin: Tin,
    distance: float,
    rule: Rule = Rule.CARRY,
    *,
    grade: float | None = None,
    pick: Pick | None = None,
    holes: bool = False,
    tolerance: Tolerance | None = None,
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> Extended:
    """Add a strip at right angles beyond each edge of the border.

    Parameters
    ----------
    tin : Tin
        The surface.
    distance : float
        How far, in plan.
    rule : Rule
        ``CARRY``: the plane of the face at the edge goes on; ``GRADE``: at right angles to the
        edge the strip rises by ``grade``; ``LEVEL``: at right angles to the edge it is level.
    grade : float, optional
        Rise over run, positive rising outward, both in the same unit; for ``GRADE`` only.
    pick : Pick, optional
        Lines that say which edges are carried on; otherwise all are.
    holes : bool
        Whether holes are filled from their edges too; with ``pick`` the lines alone decide.
    tolerance : Tolerance, optional
        Tolerances in plan units.
    z_scale : float
        Plan units in one unit of height.
    progress : Progress
        Told the share done; may cancel.

    Returns
    -------
    Extended
        No two faces overlap, no vertex lies on the side of a face. Where two strips meet they
        are parted by the line in which their planes meet, where it runs through the corner, and
        by the bisector else; corners stand out as a mitre up to twice the distance. Borders that
        face each other across less than twice the distance keep a gap of a step
        (``tolerance.step``) between their extensions.

    Raises
    ------
    SurfaceError
        The distance is not positive, the grade is missing, there is no border, or no edge runs
        along the lines.
    """
    tolerance = tolerance or Tolerance()
    if not (np.isfinite(distance) and distance > tolerance.snap):
        raise SurfaceError(
            translate("Core", "The distance to extend by must be greater than zero.")
        )
    if rule is Rule.GRADE and grade is None:
        raise SurfaceError(translate("Core", "The rule “given grade” needs a grade."))
    origin = np.floor(np.array(tin.extent[:2]))
    border = border_of(tin, origin)
    findings: list[Finding] = []
    wanted = _wanted(border, pick, holes, origin, findings)
    slope = 0.0 if grade is None else grade / z_scale
    strips = strips_of(tin, border, rule, slope, tolerance.snap, z_scale)
    agree = tolerance.hairline / z_scale
    corners = corners_of(border, strips, wanted, distance, tolerance.snap, agree)
    points = points_of(tin.vertices[:, :2] - origin, border, corners)
    pieces = lay_out(border, strips, corners, points, wanted)
    progress(0.1)
    conflicts = find_conflicts(border, corners, pieces, wanted, distance)
    xy, triangles, edge = _faces(
        border,
        strips,
        corners,
        points,
        pieces,
        conflicts,
        tolerance,
        part(progress, 0.1, 0.9),
    )
    triangles = _own_vertices(border, xy, triangles, edge)
    stranded = _without_edge(border, wanted, triangles, edge)
    kept = ~stranded[edge]
    triangles, edge = triangles[kept], edge[kept]
    found = heights_of(border, strips, xy, points.given, triangles, edge)
    used = np.unique(triangles[triangles >= points.given])
    vertices = np.column_stack([xy[used] + origin, found.z[used - points.given]])
    number = np.arange(len(xy))
    number[used] = points.given + np.arange(len(used))
    order = np.argsort(edge, kind="stable")
    result = _joined(tin, vertices, number[triangles[order]])
    source = np.concatenate([np.full(len(tin.faces), -1), border.face[edge[order]]])
    apart = np.zeros(len(xy))
    apart[used] = found.apart[used - points.given]
    findings += remarks(
        border,
        strips,
        conflicts,
        pieces,
        wanted,
        stranded,
        xy,
        apart,
        distance,
        origin,
        tolerance,
        z_scale,
    )
    progress(1.0)
    return Extended(
        result,
        source,
        float(border.lengths[wanted & ~stranded].sum()),
        float(apart.max(initial=0.0)),
        findings,
    )


def _wanted(
    border: Border, pick: Pick | None, holes: bool, origin: Floats, findings: list[Finding]
) -> Mask:
    if len(border) == 0:
        raise SurfaceError(translate("Core", "The surface has no border that could be carried on."))
    if pick is None:
        return np.ones(len(border), dtype=bool) if holes else border.outer.copy()
    picked, used = along_lines(border, pick, origin)
    if not picked.any():
        raise SurfaceError(
            translate(
                "Core",
                "No edge of the surface runs along the lines that pick edges: draw them along the border, or allow a greater distance.",
            )
        )
    idle = np.flatnonzero(~used)
    text = translate("Core", "Line {line} runs along no edge of the surface and picked nothing.")
    findings += [Finding("no_edge", text.format(line=row + 1)) for row in idle.tolist()]
    return picked


def _faces(
    border: Border,
    strips: Strips,
    corners: Corners,
    points: Points,
    pieces: Pieces,
    conflicts: Conflicts,
    tolerance: Tolerance,
    progress: Progress,
) -> tuple[Floats, Ints, Ints]:
    """Return all points, the new triangles, and the edge each belongs to."""
    touched = np.zeros(len(pieces), dtype=bool)
    for rows in (conflicts.one, conflicts.other, conflicts.blocked):
        touched[rows] = True
    busy = np.zeros(len(border), dtype=bool)
    busy[pieces.edge[touched]] = True
    drawn = busy | busy[border.before] | busy[border.after]
    rows = np.flatnonzero(drawn[pieces.edge])
    plain = np.flatnonzero(~drawn[pieces.edge])
    exact = _exact(border, strips, corners, points, tolerance.hairline)
    triangles, edge = plain_triangles(points, pieces, plain, exact)
    if len(rows) == 0:
        return points.xy, triangles, edge
    left, loose = leave(
        border,
        corners,
        pieces,
        conflicts,
        tolerance.step,
        _CUTTING * tolerance.snap,
        part(progress, 0.0, 0.7),
    )
    xy, more, of_edge = drawn_triangles(
        points, pieces, rows, left, loose, _grid(conflicts, tolerance)
    )
    return (
        np.concatenate([points.xy, xy]),
        np.concatenate([triangles, more]),
        np.concatenate([edge, of_edge]),
    )


def _grid(conflicts: Conflicts, tolerance: Tolerance) -> float:
    """Return the grid of the drawing: the snap tolerance, or finer where gaps are very narrow."""
    gaps = np.concatenate(conflicts.gaps(tolerance.step))
    least = float(gaps[gaps > 0.0].min(initial=np.inf))
    return max(min(tolerance.snap, 0.1 * least), 1e-3 * tolerance.snap)


def _exact(border: Border, strips: Strips, corners: Corners, points: Points, agree: float) -> Mask:
    """Tell which points the two planes at a corner agree in, (n,) bool."""
    exact = np.ones(len(points.xy), dtype=bool)
    node = np.flatnonzero(corners.both)
    ray = corners.places[node, RAY]
    one = strips.heights(border, border.before[node], ray)
    other = strips.heights(border, node, ray)
    joined = points.at[node, RAY] == points.ray_after[node]
    off = joined & (np.abs(one - other) > agree)
    exact[points.at[node[off], RAY]] = False
    return exact


def _own_vertices(border: Border, xy: Floats, triangles: Ints, edge: Ints) -> Ints:
    """Give triangles the vertices of their own edge where others lie in the same place."""
    result = triangles.copy()
    for own in (border.start_vertex[edge], border.stop_vertex[edge]):
        same = (xy[triangles] == xy[own][:, None]).all(axis=2)
        result = np.where(same, own[:, None], result)
    return result


def _without_edge(border: Border, wanted: Mask, triangles: Ints, edge: Ints) -> Mask:
    """Tell which wanted edges have no triangle that ends at them, (b,) bool."""
    has = np.zeros(len(border), dtype=bool)
    for side in range(3):
        one, other = triangles[:, side], triangles[:, (side + 1) % 3]
        fits = (one == border.stop_vertex[edge]) & (other == border.start_vertex[edge])
        has[edge[fits]] = True
    return wanted & ~has


def _joined(tin: Tin, vertices: Floats, triangles: Ints) -> Tin:
    """Return the surface with more vertices and faces after its own."""
    points = np.concatenate([tin.vertices, vertices])
    faces = np.concatenate([tin.faces, triangles])
    points.flags.writeable = False
    faces.flags.writeable = False
    return Tin(points, faces)
