"""The Delaunay triangulation of points in plan, whole to its convex hull.

GEOS triangulates points fast and with exact predicates, but inside a frame of finite size: what
its frame cuts off at the hull is missing (area 0.99994 of the hull of 1,000 random points, GEOS
3.11). So the points are triangulated within a wider box of our own, the hull is put in as
segments, and what lies beyond is dropped.
"""

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import numpy as np
import shapely
from numpy.typing import NDArray

from ...errors import SurfaceError
from ...progress import Progress, part, silent
from ...text import translate
from ..edges import pair_half_edges
from ..weld import hang_together, same_place
from .insert import edge_keys, insert

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

FLAT = 1e-13
"""Faces with less area for the square of their longest side have none but for rounding."""


def delaunay(xy: Floats, near: float, progress: Progress = silent) -> Ints:
    """Triangulate points.

    Parameters
    ----------
    xy : (n, 2) float
        Points, near the origin, no two in one place.
    near : float
        Points no farther than this from the hull count as on it, so that there are no slivers.
    progress : Progress
        Told the share done.

    Returns
    -------
    (m, 3) int
        Counter-clockwise.

    Raises
    ------
    SurfaceError
        The points do not span an area.
    """
    hull = _hull(xy, near)
    low, high = xy.min(axis=0), xy.max(axis=0)
    margin = float((high - low).max())
    corners = np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])
    box = (low + high) / 2 + corners * margin * 1.5
    places = np.concatenate((xy, box))
    faces = _triangles(places, part(progress, 0.0, 0.8))
    faces = insert(places, faces, hull)
    progress(0.9)
    return _inside(faces, hull, len(xy))


def _hull(xy: Floats, near: float) -> Ints:
    """Return the segments of the convex hull, with the points on it as ends, (h, 2) int."""
    flat = SurfaceError(
        translate(
            "Core",
            "The points lie on one line or in one place: a surface needs three that span an area.",
        )
    )
    if len(xy) < 3:
        raise flat
    shape = shapely.convex_hull(shapely.multipoints(xy))
    if shape.geom_type != "Polygon":
        raise flat
    ring = shapely.get_coordinates(shape)
    sides = shapely.linestrings(np.stack((ring[:-1], ring[1:]), axis=1))
    tree = shapely.STRtree(sides)
    some = np.flatnonzero(_near_border(xy, shape, near))
    point, side = tree.query(shapely.points(xy[some]), predicate="dwithin", distance=near)
    # A point near two sides belongs to the first of them: the order around is one.
    point, keep = np.unique(point, return_index=True)
    side = side[keep]
    along = shapely.line_locate_point(sides[side], shapely.points(xy[some[point]]))
    around = some[point[np.lexsort((along, side))]]
    if len(around) < 3:
        raise flat
    return np.column_stack((around, np.roll(around, -1)))


def _near_border(xy: Floats, hull: shapely.Polygon, near: float) -> NDArray[np.bool_]:
    """Tell which points may lie near the border of the hull, quickly: most do not."""
    core = shapely.buffer(hull, -4.0 * near, join_style="mitre")
    if core.is_empty:
        return np.ones(len(xy), dtype=bool)
    shapely.prepare(core)
    return ~np.asarray(shapely.contains_xy(core, xy[:, 0], xy[:, 1]))


def _triangles(places: Floats, progress: Progress) -> Ints:
    """Triangulate by GEOS; its triangles come as coordinates, and go back to numbers exactly."""
    found = _patiently(
        lambda: shapely.delaunay_triangles(shapely.multipoints(places)), progress
    )
    corners = shapely.get_coordinates(shapely.get_parts(found)).reshape(-1, 4, 2)[:, :3]
    first = same_place(np.concatenate((places, corners.reshape(-1, 2))), 0.0)
    faces = first[len(places) :].reshape(-1, 3)
    u = places[faces[:, 1]] - places[faces[:, 0]]
    v = places[faces[:, 2]] - places[faces[:, 0]]
    # All run the same way round; of a face without area rounding could not tell which.
    if (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]).sum() < 0:
        faces = np.ascontiguousarray(faces[:, ::-1])
    return _without_flat(places, faces)


def _without_flat(places: Floats, faces: Ints) -> Ints:
    """Return faces without those that have no area: points in a row, as exact predicates see them.

    The corner in the middle of such a face lies on the side between the others. It is joined to
    what lies across that side instead.
    """
    touched = np.zeros(len(faces), dtype=bool)
    while True:
        side = places[np.roll(faces, -1, axis=1)] - places[faces]
        size = (side**2).sum(axis=2)
        u, v = side[:, 0], -side[:, 2]
        doubled = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        flat = doubled <= FLAT * size.max(axis=1)
        if not flat.any():
            return _legal(places, faces, np.flatnonzero(touched))
        one = np.flatnonzero(flat)
        longest = size[one].argmax(axis=1)
        other = pair_half_edges(faces).neighbours[one, longest]
        fits = (other >= 0) & ~flat[other]
        one, longest, other = one[fits], longest[fits], other[fits]
        other, first = np.unique(other, return_index=True)
        if not len(other):
            return faces
        one, longest = one[first], longest[first]
        start, stop = faces[one, longest], faces[one, (longest + 1) % 3]
        middle = faces[one, (longest + 2) % 3]
        row = faces[other]
        tip = row[(row != start[:, None]) & (row != stop[:, None])]
        faces[one] = np.column_stack((stop, middle, tip))
        faces[other] = np.column_stack((middle, start, tip))
        touched[one] = touched[other] = True


def _legal(places: Floats, faces: Ints, touched: Ints) -> Ints:
    """Return faces with edges turned until those about the touched ones are Delaunay again."""
    while len(touched):
        face = np.repeat(touched, 3)
        side = np.tile(np.arange(3), len(touched))
        other = pair_half_edges(faces).neighbours[face, side]
        face, side, other = (values[other >= 0] for values in (face, side, other))
        a, b, c = (faces[face, (side + k) % 3] for k in range(3))
        row = faces[other]
        d = row[(row != a[:, None]) & (row != b[:, None])]
        wrong = _inside_circle(*(places[corner] for corner in (a, b, c, d)))
        # Turned at once are edges that share no face; each edge is seen from one or both sides.
        owner = np.full(len(faces), len(face))
        for own in (face, other):
            np.minimum.at(owner, own[wrong], np.flatnonzero(wrong))
        number = np.arange(len(face))
        now = wrong & (owner[face] == number) & (owner[other] == number)
        faces[face[now]] = np.column_stack((c, a, d))[now]
        faces[other[now]] = np.column_stack((d, b, c))[now]
        touched = np.unique(np.concatenate((face[wrong], other[wrong])))
    return faces


def _inside_circle(a: Floats, b: Floats, c: Floats, d: Floats) -> NDArray[np.bool_]:
    """Tell whether d lies within the circle through a, b, c (counter-clockwise), and clearly so."""
    u, v, w = a - d, b - d, c - d
    uu, vv, ww = ((side**2).sum(axis=1) for side in (u, v, w))
    determinant = (
        uu * (v[:, 0] * w[:, 1] - v[:, 1] * w[:, 0])
        - vv * (u[:, 0] * w[:, 1] - u[:, 1] * w[:, 0])
        + ww * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    )
    return np.asarray(determinant > 1e-10 * np.maximum.reduce((uu, vv, ww)) ** 2)


def _patiently(work: Callable[[], shapely.Geometry], progress: Progress) -> shapely.Geometry:
    """Do a long piece of work of GEOS, which cannot be stopped, so that the user can cancel."""
    pool = ThreadPoolExecutor(1)
    coming = pool.submit(work)
    pool.shutdown(wait=False)
    while True:
        try:
            return coming.result(timeout=0.2)
        except TimeoutError:
            progress(0.5)


def canonical(faces: Ints) -> Ints:
    """Return faces in an order that follows from their vertices alone, the lowest corner first."""
    turn = faces.argmin(axis=1)[:, None]
    faces = np.take_along_axis(faces, (turn + np.arange(3)) % 3, axis=1)
    # No other face has the side from the first corner to the second.
    return faces[np.argsort((faces[:, 0] << 32) | faces[:, 1])]


def _inside(faces: Ints, hull: Ints, count: int) -> Ints:
    """Drop what hangs together with the corners of the box without crossing the hull."""
    part = parts_between(faces, hull)
    beyond = np.zeros(len(faces), dtype=bool)
    beyond[part[(faces >= count).any(axis=1)]] = True
    return faces[~beyond[part]]


def parts_between(faces: Ints, segments: Ints) -> Ints:
    """Return the lowest face of the part each face is in, parts being cut by the segments."""
    edges = pair_half_edges(faces)
    shut = np.isin(edge_keys(edges.ends), edge_keys(segments))
    joined = edges.faces[~shut & (edges.faces >= 0).all(axis=1)]
    return hang_together(len(faces), joined[:, 0], joined[:, 1])
