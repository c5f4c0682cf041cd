"""Polygons from borders that know what lies left and right of them."""

import numpy as np
import shapely
from numpy.typing import NDArray

from .tin import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def polygons_of_borders(
    points: Floats, ends: Ints, left: Ints, right: Ints, regions: int
) -> NDArray[np.object_]:
    """Return the outline of each region, (regions,) polygons and multipolygons.

    The outlines share their borders vertex for vertex.

    Parameters
    ----------
    points : (n, 2 or more) float
        Places; x and y count.
    ends : (b, 2) int
        Ends of each border. Borders meet in their ends only.
    left, right : (b,) int
        Region on each side of it, -1 for none.
    regions : int
        Number of regions.

    Returns
    -------
    (regions,) object
        None for a region without borders.
    """
    result = np.full(regions, None, object)
    # GEOS makes rings of lines that meet in their end points, holes and islands included.
    lines = shapely.linestrings(points[ends][:, :, :2])
    polygons = shapely.get_parts(shapely.polygonize(lines))
    if not len(polygons):
        return result
    region = _region_inside(polygons, points, ends, left, right)
    polygons, region = polygons[region >= 0], region[region >= 0]
    order = np.argsort(region, kind="stable")
    found, first = np.unique(region[order], return_index=True)
    for number, parts in zip(found, np.split(polygons[order], first[1:]), strict=True):
        result[number] = parts[0] if len(parts) == 1 else shapely.multipolygons(parts)
    return result


def outlines_of_faces(tin: Tin, of_face: Ints, points: Floats, regions: int) -> NDArray[np.object_]:
    """Return the plan outline of each region of faces, (regions,) polygons and multipolygons.

    Parameters
    ----------
    tin : Tin
        A surface.
    of_face : (m,) int
        Region of each face, -1 for none.
    points : (n, 2 or more) float
        Places of its vertices; x and y count.
    regions : int
        Number of regions.

    Returns
    -------
    (regions,) object
        None for a region without plan area.
    """
    faces = tin.edges.faces
    of = np.where(faces >= 0, of_face[faces], -1)
    border = np.flatnonzero(of[:, 0] != of[:, 1])
    ends = tin.edges.ends[border]
    plan = tin.vertices[ends][:, :, :2]
    has_length = (plan[:, 0] != plan[:, 1]).any(axis=1)
    left, right = of[border[has_length]].T
    return polygons_of_borders(points, ends[has_length], left, right, regions)


def _region_inside(
    polygons: NDArray[np.object_], points: Floats, ends: Ints, left: Ints, right: Ints
) -> Ints:
    """Return the region that each polygon bounds from outside, -1 for a hole."""
    outer = shapely.get_exterior_ring(polygons)
    start = shapely.get_coordinates(shapely.get_point(outer, 0))
    stop = shapely.get_coordinates(shapely.get_point(outer, 1))
    used = np.unique(ends)
    vertex = used[_rows(points[used, :2], np.concatenate((start, stop)))]
    a, b = vertex[: len(start)], vertex[len(start) :]
    key = ends[:, 0] * len(points) + ends[:, 1]
    order = np.argsort(key)
    wanted = np.minimum(a, b) * len(points) + np.maximum(a, b)
    edge = order[np.searchsorted(key[order], wanted)]
    # A ring that runs counter-clockwise has its inside on the left of its first side.
    on_left = shapely.is_ccw(outer) == (a == ends[edge, 0])
    return np.where(on_left, left[edge], right[edge])


def _rows(table: Floats, wanted: Floats) -> Ints:
    """Return the row of ``table`` that equals each wanted place; all of them occur."""
    _, inverse = np.unique(np.concatenate((table, wanted)), axis=0, return_inverse=True)
    inverse = inverse.ravel()
    row = np.empty(inverse.max() + 1, np.int64)
    row[inverse[: len(table)]] = np.arange(len(table))
    return row[inverse[len(table) :]]
