"""Make a surface of loose triangles or of plane polygons."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray

from ..errors import SurfaceError
from ..text import translate
from .mesh import Tin
from .weld import same_place

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Welded:
    """Triangles that share their vertices.

    Parameters
    ----------
    vertices : (n, 3) float
        Vertices, in the order in which the triangles name them.
    faces : (m, 3) int
        Vertex indices.
    source : (m,) int
        The triangle each face was; those that welding made into a line or a point are gone.
    move : float
        The farthest a corner was moved.
    """

    vertices: Floats
    faces: Ints
    source: Ints
    move: float


def weld_triangles(triangles: ArrayLike, snap: float) -> Welded:
    """Give triangles common vertices where their corners lie in the same place.

    Parameters
    ----------
    triangles : (m, 3, 3) float
        x, y, z of the three corners of each.
    snap : float
        Corners (x, y, z) at most this far apart become one, that of the earlier triangle; 0
        welds equal corners only.

    Raises
    ------
    SurfaceError
        There is no triangle, or a coordinate is not a finite number.
    """
    corners = np.ascontiguousarray(triangles, dtype=np.float64)
    if corners.size == 0:
        raise SurfaceError(translate("Core", "The surface has no faces."))
    points = corners.reshape(-1, 3)
    bad = ~np.isfinite(points).all(axis=1)
    if bad.any():
        raise SurfaceError(
            translate(
                "Core",
                "A corner of face {face} has no usable coordinates: repair the surface.",
            ).format(face=int(bad.argmax()) // 3 + 1)
        )
    first = same_place(points, snap)
    kept = first == np.arange(len(points))
    faces = (np.cumsum(kept) - 1)[first].reshape(-1, 3)
    sound = (faces != np.roll(faces, 1, axis=1)).all(axis=1)
    shift = points - points[first]
    move = float(np.sqrt(np.einsum("ij,ij->i", shift, shift).max()))
    return Welded(points[kept], faces[sound], np.flatnonzero(sound), move)


def tin_from_faces(triangles: ArrayLike, snap: float) -> Tin:
    """Return the surface of loose triangles; see `weld_triangles`.

    Raises
    ------
    SurfaceError
        As `weld_triangles` and `Tin.from_arrays`.
    """
    welded = weld_triangles(triangles, snap)
    return Tin.from_arrays(welded.vertices, welded.faces)


def triangles_of_polygons(
    polygons: ArrayLike, ids: ArrayLike, tolerance: float
) -> tuple[Floats, Ints]:
    """Cut plane polygons with heights into triangles.

    Parameters
    ----------
    polygons : (k,) shapely Polygon or MultiPolygon
        Polygons with Z; missing and empty ones are left out.
    ids : (k,) int
        Feature ids, for messages.
    tolerance : float
        The farthest, vertically, that a corner may lie off the plane of its polygon.

    Returns
    -------
    triangles : (m, 3, 3) float
        Corners, with the very coordinates of the polygons.
    polygon : (m,) int
        Index of the polygon each triangle comes from.

    Raises
    ------
    SurfaceError
        A polygon has no heights, is not plane, or crosses itself.
    """
    geometries = np.asarray(polygons, dtype=object)
    names = np.asarray(ids)
    parts, owner = shapely.get_parts(geometries, return_index=True)
    full = ~shapely.is_empty(parts)
    parts, owner = parts[full], owner[full].astype(np.int64)
    if len(parts) == 0:
        raise SurfaceError(translate("Core", "The surface has no faces."))
    _need_heights(parts, owner, names)
    simple = (shapely.get_num_interior_rings(parts) == 0) & (
        shapely.get_num_coordinates(parts) == 4
    )
    easy = shapely.get_coordinates(parts[simple], include_z=True).reshape(-1, 4, 3)[:, :3]
    triangles, owners = [easy], [owner[simple]]
    hard = np.flatnonzero(~simple)
    if len(hard):
        _need_planes(parts[hard], owner[hard], names, tolerance)
        corners, part = _triangulate(parts[hard], owner[hard], names)
        triangles.append(corners)
        owners.append(owner[hard][part])
    source = np.concatenate(owners)
    order = np.argsort(source, kind="stable")
    return np.concatenate(triangles)[order], source[order]


def _need_heights(parts: NDArray, owner: Ints, names: NDArray) -> None:
    coordinates, part = shapely.get_coordinates(parts, include_z=True, return_index=True)
    bad = ~np.isfinite(coordinates[:, 2])
    if bad.any():
        raise SurfaceError(
            translate(
                "Core",
                "Polygon {id} has corners without height: a surface needs polygons with Z.",
            ).format(id=names[owner[part[bad.argmax()]]])
        )


def _need_planes(parts: NDArray, owner: Ints, names: NDArray, tolerance: float) -> None:
    """Refuse polygons that are not plane; the plane is that of Newell's normal."""
    coordinates, part = shapely.get_coordinates(parts, include_z=True, return_index=True)
    count = np.bincount(part, minlength=len(parts))
    start = np.cumsum(count) - count
    local = coordinates - coordinates[start][part]
    # The exterior ring comes first, and its normal tells the plane; a hole only adds to it.
    following = np.roll(local, -1, axis=0)
    within = np.ones(len(part), dtype=bool)
    rings, ring_part = shapely.get_rings(parts, return_index=True)
    ring_ends = np.cumsum(shapely.get_num_coordinates(rings)) - 1
    within[ring_ends] = False
    exterior = np.zeros(len(rings), dtype=bool)
    exterior[np.searchsorted(ring_part, np.arange(len(parts)))] = True
    within &= np.repeat(exterior, shapely.get_num_coordinates(rings))
    products = np.where(within[:, None], np.cross(local, following), 0.0)
    normal = np.stack(
        [np.bincount(part, products[:, k], minlength=len(parts)) for k in range(3)], axis=1
    )
    size = np.sqrt(np.einsum("ij,ij->i", normal, normal))
    upright = np.abs(normal[:, 2]) <= 1e-9 * size
    if upright.any():
        raise SurfaceError(
            translate(
                "Core", "Polygon {id} stands upright or has no area: split it into triangles."
            ).format(id=names[owner[upright.argmax()]])
        )
    slope = -normal[:, :2] / normal[:, 2:]
    off = np.abs(local[:, 2] - np.einsum("ij,ij->i", local[:, :2], slope[part]))
    farthest = np.zeros(len(parts))
    np.maximum.at(farthest, part, off)
    bent = farthest > tolerance
    if bent.any():
        worst = int(bent.argmax())
        raise SurfaceError(
            translate(
                "Core",
                "Polygon {id} is not plane (a corner lies {off} off): split it into triangles.",
            ).format(id=names[owner[worst]], off=f"{farthest[worst]:.4f}")
        )


def _triangulate(parts: NDArray, owner: Ints, names: NDArray) -> tuple[Floats, Ints]:
    """Cut polygons into triangles; heights come back from the corners they belong to."""
    bad = ~shapely.is_valid(parts)
    if bad.any():
        raise SurfaceError(
            translate(
                "Core", "Polygon {id} crosses itself: repair it before it can be a surface."
            ).format(id=names[owner[bad.argmax()]])
        )
    cut = shapely.constrained_delaunay_triangles(parts)
    pieces, part = shapely.get_parts(cut, return_index=True)
    plan = shapely.get_coordinates(pieces).reshape(-1, 4, 2)[:, :3].reshape(-1, 2)
    given, of_part = shapely.get_coordinates(parts, include_z=True, return_index=True)
    # One table of (polygon, x, y): equal rows are the same corner.
    wanted = np.column_stack([np.repeat(part, 3).astype(np.float64), plan])
    known = np.column_stack([of_part.astype(np.float64), given[:, :2]])
    first = same_place(np.concatenate([known, wanted]), 0.0)[len(known) :]
    return given[first].reshape(-1, 3, 3), part.astype(np.int64)
