"""Borders of polygons as noded segments that know the zone on either side.

Only the borders are noded, on a grid coarser than the snap tolerance; the vertices of the surface
never move. The grid is a power of two, so that noded coordinates are exact in binary wherever the
site lies, and the same for every part of a site that is worked on alone.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ...tolerance import Tolerance
from .segments import cancel_doubles

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

OUTSIDE = -1
_SLIVER_GRIDS = 2.0
_NODING_PASSES = 4


@dataclass(frozen=True, eq=False)
class Borders:
    """Noded borders.

    Parameters
    ----------
    points : (b, 2) float
        Distinct ends of the segments, on the grid.
    segments : (s, 2) int
        Each runs between two points and meets others at points only.
    sides : (s, 2) int
        Zone on the left and on the right, `OUTSIDE` where there is none; the two differ.
    gaps : int
        Gaps (or overlaps) between zones, too thin to be meant, that were closed.
    widest_gap : float
        Mean width of the widest of them.
    """

    points: Floats
    segments: Ints
    sides: Ints
    gaps: int
    widest_gap: float


def grid_size(tolerance: Tolerance) -> float:
    """Return the power of two nearest to the node grid of the tolerances."""
    return float(2.0 ** np.round(np.log2(tolerance.node_grid)))


def node_borders(polygons: NDArray[np.object_], grid: float) -> Borders:
    """Node the borders of disjoint polygons and find the polygon on each side.

    Parameters
    ----------
    polygons : (k,) object
        Polygons or MultiPolygons that overlap at most by slivers narrower than the grid.
    grid : float
        Size of the grid the nodes lie on.

    Returns
    -------
    Borders
        The same for any order of the polygons, but for their numbers.
    """
    lines = shapely.boundary(polygons)
    noded = _node(lines, grid)
    for _ in range(_NODING_PASSES):
        again = _node(noded, grid)
        if shapely.equals_exact(shapely.normalize(again), shapely.normalize(noded)):
            break
        noded = again
    parts = shapely.get_parts(noded)
    parts = parts[shapely.get_dimensions(parts) == 1]
    points, ends = _segments_of(parts, grid)
    if not len(ends):
        empty = np.empty((0, 2), dtype=np.int64)
        return Borders(points, empty, empty, 0, 0.0)
    cells = shapely.get_parts(shapely.polygonize(parts))
    sides, gaps, widest = _sides(points, ends, cells, polygons, grid)
    ends, sides = cancel_doubles(ends, sides)
    return Borders(points, ends, sides, gaps, widest)


def _node(lines: NDArray[np.object_] | shapely.Geometry, grid: float) -> shapely.Geometry:
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        return shapely.union_all(lines, grid_size=grid)


def _segments_of(parts: NDArray[np.object_], grid: float) -> tuple[Floats, Ints]:
    """Return distinct points in order of x, y and the segments between them, (s, 2)."""
    xy, line = shapely.get_coordinates(parts, return_index=True)
    if not len(xy):
        return np.empty((0, 2)), np.empty((0, 2), dtype=np.int64)
    points, number = np.unique(np.round(xy / grid), axis=0, return_inverse=True)
    number = number.reshape(-1)
    follows = line[1:] == line[:-1]
    ends = np.column_stack((number[:-1], number[1:]))[follows]
    ends = np.unique(np.sort(ends[ends[:, 0] != ends[:, 1]], axis=1), axis=0)
    return points * grid, ends


def _sides(
    points: Floats,
    ends: Ints,
    cells: NDArray[np.object_],
    polygons: NDArray[np.object_],
    grid: float,
) -> tuple[Ints, int, float]:
    """Return the zone left and right of each segment, from the cells the segments enclose."""
    cell_left = _cells_beside(points, ends, cells, grid)
    zone = _zone_of_cells(cells, polygons)
    zone_of = np.append(zone, OUTSIDE)  # number -1: outside all cells
    width = 2.0 * shapely.area(cells) / np.maximum(shapely.length(cells), grid)
    thin = np.flatnonzero((zone == OUTSIDE) & (width < _SLIVER_GRIDS * grid))
    if len(thin):
        length = np.hypot(*(points[ends[:, 1]] - points[ends[:, 0]]).T)
        rank = np.append(canonical_rank(polygons), len(polygons))
        for cell in thin:
            here = (cell_left == cell).any(axis=1)
            beside = zone_of[cell_left[here].sum(axis=1) - cell]
            shared = np.bincount(rank[beside], weights=length[here], minlength=len(rank))[:-1]
            if shared.any():
                zone[cell] = np.flatnonzero(rank == shared.argmax())[0]
        zone_of[:-1] = zone
    widest = float(width[thin].max()) if len(thin) else 0.0
    return zone_of[cell_left], len(thin), widest


def _cells_beside(points: Floats, ends: Ints, cells: NDArray[np.object_], grid: float) -> Ints:
    """Return the cell left and right of each segment (lower to higher point), -1 outside."""
    rings, cell = shapely.get_rings(cells, return_index=True)
    outer = np.ones(len(rings), dtype=bool)
    outer[1:] = cell[1:] != cell[:-1]
    backwards = shapely.is_ccw(rings) != outer
    xy, ring = shapely.get_coordinates(rings, return_index=True)
    number = _find_points(points, xy, grid)
    follows = ring[1:] == ring[:-1]
    start, stop = number[:-1][follows], number[1:][follows]
    ring = ring[1:][follows]
    flip = backwards[ring]
    start, stop = np.where(flip, stop, start), np.where(flip, start, stop)
    beside = np.full(ends.shape, -1, dtype=np.int64)
    key = ends[:, 0] * len(points) + ends[:, 1]  # sorted, as the ends are
    row = np.searchsorted(key, np.minimum(start, stop) * len(points) + np.maximum(start, stop))
    beside[row, (start > stop).astype(np.int64)] = cell[ring]
    return beside


def _find_points(points: Floats, xy: Floats, grid: float) -> Ints:
    """Return the number of each position among the points (all are there)."""
    both = np.round(np.vstack((points, xy)) / grid)
    _, number = np.unique(both, axis=0, return_inverse=True)
    return number.reshape(-1)[len(points) :]


def _zone_of_cells(cells: NDArray[np.object_], polygons: NDArray[np.object_]) -> Ints:
    """Return the polygon each cell lies in; of several, the first in canonical order."""
    zone = np.full(len(cells), OUTSIDE, dtype=np.int64)
    spots = shapely.point_on_surface(cells)
    cell, polygon = shapely.STRtree(polygons).query(spots, predicate="intersects")
    rank = canonical_rank(polygons)
    order = np.argsort(-rank[polygon], kind="stable")  # the first in rank is written last
    zone[cell[order]] = polygon[order]
    return zone


def canonical_rank(polygons: NDArray[np.object_]) -> Ints:
    """Return a rank of the polygons that follows from their shapes, not from their order."""
    bounds = shapely.bounds(polygons)
    order = np.lexsort((shapely.length(polygons), shapely.area(polygons), *bounds.T))
    rank = np.empty(len(polygons), dtype=np.int64)
    rank[order] = np.arange(len(polygons))
    return rank
