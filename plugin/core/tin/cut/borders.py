"""Borders of polygons as noded segments, and the zones on either side of them.

Only the borders are noded, on a grid finer than the snap distance, so that a border drawn along
the surface's own edges still finds them; the vertices of the surface never move. The grid is a
power of two, so that noded coordinates are exact in binary wherever the site lies, and the same
for every part of a site that is worked on alone.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from .lookup import OUTSIDE, canonical_rank, zones_around

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_NODING_PASSES = 4
_NECK = 0.2  # of the mean width of a cell


@dataclass(frozen=True, eq=False)
class Sides:
    """What lies beside border segments.

    Parameters
    ----------
    zones : (s, 2) int
        Zone on the left and on the right of each segment, looking from its first end to its
        second; `OUTSIDE` where there is none, or where the segment encloses nothing.
    closed : int
        Slits (gaps, overlaps, parts of zones) too thin to be meant, given to a neighbour.
    widest : float
        Mean width of the widest of them.
    """

    zones: Ints
    closed: int
    widest: float


def grid_size(snap_distance: float) -> float:
    """Return the grid to node on: a power of two, at most a quarter of the snap distance."""
    return float(2.0 ** np.floor(np.log2(0.25 * snap_distance)))


def node_borders(polygons: NDArray[np.object_], grid: float) -> tuple[Floats, Ints]:
    """Node the borders of polygons.

    Parameters
    ----------
    polygons : (k,) object
        Polygons or MultiPolygons.
    grid : float
        Size of the grid the nodes lie on.

    Returns
    -------
    points : (b, 2) float
        Distinct ends of the segments, in order of x and y.
    segments : (s, 2) int
        Each runs between two points, the lower number first, and meets others at points only.
    """
    noded = _node(shapely.boundary(polygons), grid)
    for _ in range(_NODING_PASSES):
        again = _node(noded, grid)
        if shapely.equals_exact(shapely.normalize(again), shapely.normalize(noded)):
            break
        noded = again
    parts = shapely.get_parts(noded)
    parts = parts[shapely.get_dimensions(parts) == 1]
    xy, line = shapely.get_coordinates(parts, return_index=True)
    if not len(xy):
        return np.empty((0, 2)), np.empty((0, 2), dtype=np.int64)
    points, number = np.unique(np.round(xy / grid), axis=0, return_inverse=True)
    number = number.reshape(-1)
    follows = line[1:] == line[:-1]
    ends = np.column_stack((number[:-1], number[1:]))[follows]
    ends = np.unique(np.sort(ends[ends[:, 0] != ends[:, 1]], axis=1), axis=0)
    return points * grid, ends


def _node(lines: NDArray[np.object_] | shapely.Geometry, grid: float) -> shapely.Geometry:
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        return shapely.union_all(lines, grid_size=grid)


def zones_beside(
    points: Floats, segments: Ints, polygons: NDArray[np.object_], thin: float
) -> Sides:
    """Find the zone on each side of segments that cross nowhere.

    The cells they enclose are each looked up around a point well inside. Those narrower than
    ``thin`` on average, of which a point tells nothing after snapping, go to the neighbour with
    the longest shared border.

    Parameters
    ----------
    points : (b, 2) float
        Positions; distinct where used.
    segments : (s, 2) int
        Distinct pairs of points, the lower number first.
    polygons : (k,) object
        The zones, disjoint but for slits.
    thin : float
        Width of slits.
    """
    lines = shapely.linestrings(points[segments])
    cells = shapely.get_parts(shapely.polygonize(lines))
    beside = _cells_beside(points, segments, cells)
    width = 2.0 * shapely.area(cells) / np.maximum(shapely.length(cells), thin)
    spots, clear = _inner_spots(cells, width)
    zone = zones_around(spots, clear, polygons)
    slits = np.flatnonzero(width < thin)
    slits = slits[clear[slits] < 0.5 * thin]
    before = zone[slits]
    length = np.hypot(*(points[segments[:, 1]] - points[segments[:, 0]]).T)
    _fill(zone, slits, beside, length, canonical_rank(polygons))
    changed = zone[slits] != before
    widest = float(width[slits[changed]].max()) if changed.any() else 0.0
    return Sides(np.append(zone, OUTSIDE)[beside], int(changed.sum()), widest)


def _inner_spots(cells: NDArray[np.object_], width: Floats) -> tuple[Floats, Floats]:
    """Return a point well inside each cell, and its distance from the outline.

    The point GEOS gives at once may lie in a narrow neck; where it does, the middle of the
    largest circle in the cell is taken.
    """
    spots = shapely.point_on_surface(cells)
    clear = shapely.distance(spots, shapely.boundary(cells))
    for cell in np.flatnonzero(clear < _NECK * width):
        radius = shapely.maximum_inscribed_circle(cells[cell], tolerance=0.1 * width[cell])
        spots[cell], clear[cell] = shapely.get_point(radius, 0), shapely.length(radius)
    return shapely.get_coordinates(spots), clear


def _fill(zone: Ints, slits: Ints, beside: Ints, length: Floats, rank: Ints) -> None:
    """Give slits the zone of a neighbour that is none, in place, from those inwards."""
    if not len(slits):
        return
    by_rank = np.argsort(rank)
    order = np.argsort(beside.ravel(), kind="stable")
    sorted_cells = beside.ravel()[order]
    waiting = set(slits.tolist())
    while waiting:
        settled = {}
        for cell in sorted(waiting):
            some = order[
                np.searchsorted(sorted_cells, cell) : np.searchsorted(sorted_cells, cell, "right")
            ]
            other = beside[some // 2, 1 - some % 2]
            firm = np.array([neighbour not in waiting for neighbour in other.tolist()], dtype=bool)
            if not firm.any():
                continue
            zones = np.where(other[firm] < 0, OUTSIDE, zone[other[firm]])
            place = np.where(zones == OUTSIDE, len(rank), rank[zones])
            shared = np.bincount(place, weights=length[some[firm] // 2], minlength=len(rank) + 1)
            # The outside only where nothing else is beside the slit.
            best = int(shared[:-1].argmax())
            settled[cell] = by_rank[best] if shared[best] > 0 else OUTSIDE
        if not settled:
            return
        for cell, chosen in settled.items():
            zone[cell] = chosen
        waiting -= settled.keys()


def _cells_beside(points: Floats, ends: Ints, cells: NDArray[np.object_]) -> Ints:
    """Return the cell left and right of each segment (lower to higher point), -1 outside."""
    rings, cell = shapely.get_rings(cells, return_index=True)
    outer = np.ones(len(rings), dtype=bool)
    outer[1:] = cell[1:] != cell[:-1]
    backwards = shapely.is_ccw(rings) != outer
    xy, ring = shapely.get_coordinates(rings, return_index=True)
    number = _find_points(points, xy)
    follows = ring[1:] == ring[:-1]
    start, stop = number[:-1][follows], number[1:][follows]
    ring = ring[1:][follows]
    flip = backwards[ring]
    start, stop = np.where(flip, stop, start), np.where(flip, start, stop)
    beside = np.full(ends.shape, -1, dtype=np.int64)
    key = ends[:, 0] * len(points) + ends[:, 1]
    order = np.argsort(key)
    wanted = np.minimum(start, stop) * len(points) + np.maximum(start, stop)
    row = order[np.searchsorted(key[order], wanted)]
    beside[row, (start > stop).astype(np.int64)] = cell[ring]
    return beside


def _find_points(points: Floats, xy: Floats) -> Ints:
    """Return the number of each position among the points (all are there)."""
    _, first, number = np.unique(
        np.vstack((points, xy)), axis=0, return_index=True, return_inverse=True
    )
    return first[number.reshape(-1)[len(points) :]]
