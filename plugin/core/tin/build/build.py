"""A surface of points, breaklines and a boundary: a constrained Delaunay triangulation.

Which library does it was measured first. shapely (GEOS) triangulates polygons with constraints
and points without, but not both together. QGIS's own triangulation takes points and breaklines,
but of 7,800 segments of breaklines among 50,000 points it left 123 out without a word, and its
time grows with the square of the points. So GEOS's triangulation of the points, which is exact
and fast, is the start, and the breaklines are put into it here (`insert`), all at once.
"""

from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from ...errors import LineError, SurfaceError
from ...progress import Progress, part, silent
from ...text import translate
from ...tolerance import Tolerance
from ..cut import cut_tin
from ..edges import pair_half_edges
from ..mesh import Tin
from . import remarks
from .account import UsedPoints, count_inside, in_order, inside_of, place_of, uncovered_area
from .delaunay import canonical, delaunay
from .gather import Gathered, find_course, gather, length
from .insert import edge_keys, insert
from .limits import clip, faces_in_rings, within, without_long_edges
from .manner import Boundary, Breaklines, Built, Manner, Points
from .noding import Course, Noded, node
from .places import POINT, RING, Places

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def build_tin(
    points: Points,
    lines: Breaklines,
    boundary: Boundary | None,
    manner: Manner,
    progress: Progress = silent,
) -> Built:
    """Build a surface.

    Parameters
    ----------
    points : Points
        Measured points.
    lines : Breaklines
        Lines that become edges of the surface, all their vertices with them.
    boundary : Boundary, optional
        What lies off it is left out; without one the surface reaches to the convex hull.
    manner : Manner
        Tolerances and options.
    progress : Progress
        Told the share done.

    Raises
    ------
    LineError
        A breakline has no heights and none are to be taken from the surface.
    SurfaceError
        What is left does not span an area.
    """
    lines = _with_heights(points, lines, boundary, manner)
    progress(0.05)
    gathered = gather(points, lines, boundary, manner.snap)
    places, course, place_of_point = find_course(gathered, manner.snap, manner.same_height)
    progress(0.15)
    noded = node(places, course, manner.snap, manner.same_height)
    progress(0.3)
    used = np.flatnonzero(noded.used)
    used = used[np.lexsort((noded.xyz[used, 1], noded.xyz[used, 0]))]
    number = np.full(len(noded.xyz), -1, dtype=np.int64)
    number[used] = np.arange(len(used))
    xyz, pieces = noded.xyz[used], number[noded.ends]
    plan = np.ascontiguousarray(xyz[:, :2])
    whole = delaunay(plan, manner.snap, part(progress, 0.3, 0.6))
    whole = insert(plan, whole, pieces, part(progress, 0.6, 0.8))
    is_ring = course.kind[noded.origin] == RING
    faces = _limited(plan, whole, pieces, pieces[is_ring], gathered, manner)
    clashes = inside_of(gathered.wide, [*places.clashes, *noded.clashes])
    findings = [remarks.about_clash(clash) for clash in clashes] + gathered.findings
    lost = ~np.isin(edge_keys(pieces), edge_keys(pair_half_edges(faces).ends)) & ~is_ring
    for row in np.flatnonzero(lost):
        feature = int(course.feature[noded.origin[row]])
        findings.append(remarks.lost_piece(feature, place_of(plan[pieces[row]].mean(axis=0))))
    honoured = xyz[pieces[~lost & ~is_ring]]
    unused = _unused(places, course, noded)
    used_points = UsedPoints(place_of_point, number, plan, faces)
    findings += used_points.alone(gathered.points)
    tin = _tin(xyz, faces)
    uncovered = 0.0
    if gathered.area is not None:
        honoured, unused = (
            clip(gathered.wide, ends, manner.snap)[0] for ends in (honoured, unused)
        )
        findings = inside_of(gathered.wide, findings)
        if not gathered.has_rings:
            tin = _cut(tin, gathered.area, manner.snap, part(progress, 0.85, 0.95))
        uncovered, place = uncovered_area(tin, gathered.area)
        findings += [remarks.not_covered(uncovered, place)] if uncovered else []
    progress(1.0)
    return Built(
        tin=_back(tin, gathered.origin),
        points=count_inside(gathered.wide, used_points.xy),
        outside=gathered.outside,
        merged=places.merged,
        given=gathered.given,
        inside=gathered.inside,
        honoured=length(honoured),
        crossings=count_inside(gathered.wide, noded.xyz[len(places.xyz) :]),
        conflicts=sum(POINT not in clash.kinds for clash in clashes),
        duplicates=sum(min(clash.kinds) == POINT for clash in clashes),
        dropped=len(whole) - len(faces) if not gathered.has_rings else 0,
        uncovered=uncovered,
        largest_move=places.largest_move,
        unused=unused + np.append(gathered.origin, 0.0),
        findings=in_order(findings, gathered.origin),
    )


def _with_heights(
    points: Points, lines: Breaklines, boundary: Boundary | None, manner: Manner
) -> Breaklines:
    """Give lines without heights those of the surface of the rest, NaN where it does not reach."""
    bare = [row for row, line in enumerate(lines.lines) if not np.isfinite(line).all()]
    if not bare:
        return lines
    if not manner.drape:
        raise LineError(
            translate(
                "Core",
                "Breakline {id} has vertices without height: give them heights, or have them taken from the surface.",
            ).format(id=lines.ids[bare[0]])
        )
    rest = [row for row in range(len(lines.lines)) if row not in set(bare)]
    if boundary is not None and boundary.rings:
        points = points.take(within(boundary.area, points.xyz[:, :2]))
    first = build_tin(points, lines.take(rest), None, replace(manner, drape=False)).tin
    filled = list(lines.lines)
    for row in bare:
        line = lines.lines[row].copy()
        empty = ~np.isfinite(line[:, 2])
        line[empty, 2] = first.sample(line[empty, :2])[0]
        filled[row] = line
    return Breaklines(filled, lines.ids)


def _limited(
    plan: Floats, faces: Ints, pieces: Ints, rings: Ints, gathered: Gathered, manner: Manner
) -> Ints:
    """Return the faces within rings, or those left when long edges at the border are dropped."""
    if gathered.has_rings:
        faces = faces[faces_in_rings(plan, faces, rings, gathered.area)]
    if np.isfinite(manner.longest_edge):
        faces = without_long_edges(plan, faces, pieces, manner.longest_edge)
    if not len(faces):
        raise SurfaceError(
            translate(
                "Core",
                "Nothing is left of the surface: the longest edge allowed is too short, or the boundary holds no points.",
            )
        )
    return faces


def _unused(places: Places, course: Course, noded: Noded) -> Floats:
    """Return the segments of breaklines that were left out, (u, 2, 3)."""
    left = np.ones(len(course.ends), dtype=bool)
    left[noded.origin] = False
    left &= course.ends[:, 0] != course.ends[:, 1]
    return np.asarray(places.xyz[course.ends[left]])


def _tin(xyz: Floats, faces: Ints) -> Tin:
    """Return the surface of the vertices that have a face, in an order of its own."""
    used, compact = np.unique(faces, return_inverse=True)
    return Tin.from_arrays(xyz[used], canonical(compact.reshape(-1, 3)))


def _back(tin: Tin, origin: Floats) -> Tin:
    return Tin.from_arrays(tin.vertices + np.append(origin, 0.0), tin.faces)


def _cut(tin: Tin, area: shapely.Geometry, snap: float, progress: Progress) -> Tin:
    """Cut the surface at a boundary without heights, along its own planes."""
    cut = cut_tin(tin, np.array([area], dtype=object), Tolerance(snap=snap), progress)
    inside = cut.zone >= 0
    if not inside.any():
        raise SurfaceError(translate("Core", "The boundary lies off the points: nothing is left."))
    return _tin(cut.tin.vertices, cut.tin.faces[inside])
