"""The outlines of patches as polygons, along the same borders as the break lines."""

import numpy as np
import shapely
from numpy.typing import NDArray

from ..tin import Tin
from .patches import Patches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def outlines(tin: Tin, patches: Patches, points: Floats) -> NDArray[np.object_]:
    """Return the plan outline of each patch, (k,) polygons and multipolygons.

    The outlines share their borders vertex for vertex, and cover the surface without gaps.

    Parameters
    ----------
    tin
        The surface.
    patches
        Its patches.
    points : (n, 3) float
        Places of the vertices, as the break lines have them.

    Returns
    -------
    (k,) object
        None for a patch without plan area (a wall).
    """
    ends, left, right = _borders(tin, patches)
    # GEOS makes rings of lines that meet in their end points, holes and islands included.
    lines = shapely.linestrings(points[ends][:, :, :2])
    polygons = shapely.get_parts(shapely.polygonize(lines))
    patch = _patch_inside(polygons, points, ends, left, right)
    polygons, patch = polygons[patch >= 0], patch[patch >= 0]
    order = np.argsort(patch, kind="stable")
    found, first = np.unique(patch[order], return_index=True)
    result = np.full(len(patches), None, object)
    for number, parts in zip(found, np.split(polygons[order], first[1:]), strict=True):
        result[number] = parts[0] if len(parts) == 1 else shapely.multipolygons(parts)
    return result


def _borders(tin: Tin, patches: Patches) -> tuple[Ints, Ints, Ints]:
    """Return the edges between patches and at the rim, with the patch on each side (-1 none)."""
    faces = tin.edges.faces
    of = np.where(faces >= 0, patches.of_face[faces], -1)
    border = np.flatnonzero(of[:, 0] != of[:, 1])
    ends = tin.edges.ends[border]
    plan = tin.vertices[ends][:, :, :2]
    has_length = (plan[:, 0] != plan[:, 1]).any(axis=1)
    return ends[has_length], of[border[has_length], 0], of[border[has_length], 1]


def _patch_inside(
    polygons: NDArray[np.object_], points: Floats, ends: Ints, left: Ints, right: Ints
) -> Ints:
    """Return the patch that each polygon bounds from outside, -1 for a hole of the surface."""
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
