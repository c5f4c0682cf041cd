"""Neighbouring zones whose borders nearly meet, drawn together.

Zones drawn by hand, or brought over from another system, leave gaps and overlaps where they are
meant to share a border. Zone by zone, the largest first, borders nearer than a given distance to
those of a zone before it are led along them.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..runs import count_up
from .overlays import mended

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Shapes = NDArray[np.object_]

_PASSES = 3
_ROUNDING = 8 * np.finfo(np.float64).eps
_FEW = 20_000  # pairs of points and segments: fewer are gone through without a tree
_LEAST_LEFT = 0.5  # share of a zone that joining must leave


@dataclass(frozen=True, eq=False)
class Joined:
    """Zones drawn together.

    Parameters
    ----------
    polygons : (k,) object
        Those that needed no joining are the ones given.
    moved : float
        Greatest distance any border moved.
    count : int
        Number of zones whose borders moved.
    place : (2,) float or None
        Where the greatest move was.
    """

    polygons: Shapes
    moved: float = 0.0
    count: int = 0
    place: Floats | None = None


def join_borders(polygons: Shapes, reach: float) -> Joined:
    """Lead borders of polygons along those of their neighbours that are nearer than a distance.

    Parameters
    ----------
    polygons : (k,) object
        Valid Polygons or MultiPolygons; empty ones stay.
    reach : float
        What is nearer than that is meant to be the same; 0 joins nothing.

    Returns
    -------
    Joined
        The same whatever the order of the polygons. A corner beside the neighbour's border goes
        to its nearest corner if that is near enough, else onto its edge; corners of the
        neighbour are taken into the edges that pass them. A polygon that would lose half of
        itself, or fold beyond mending, stays as it is.
    """
    result = polygons.copy()
    rank = _by_size(polygons)
    row_of = np.argsort(rank)
    moved, place = 0.0, None
    touched: set[int] = set()
    for _ in range(_PASSES if reach > 0 else 0):
        one, other = _nearly_meet(result, reach)
        if not len(one):
            break
        changed = False
        first = np.where(rank[one] < rank[other], one, other)
        second = np.where(rank[one] < rank[other], other, one)
        order = np.argsort(rank[second], kind="stable")
        first, second = first[order], second[order]
        _, start = np.unique(rank[second], return_index=True)
        for begin, stop in zip(start, np.append(start[1:], len(second)), strict=True):
            row = int(second[begin])
            firm = np.unique(rank[first[begin:stop]])
            drawn = _led_along(result[row], result[row_of[firm]], reach)
            if drawn is None:
                continue
            result[row], far, where = drawn
            touched.add(row)
            changed = True
            if far > moved:
                moved, place = far, where
        if not changed:
            break
    return Joined(result, moved, len(touched), place)


def _by_size(polygons: Shapes) -> Ints:
    """Return the rank of the polygons from large to small, then by where they lie."""
    order = np.lexsort((*shapely.bounds(polygons).T, -shapely.area(polygons)))
    rank = np.empty(len(order), dtype=np.int64)
    rank[order] = np.arange(len(order))
    return rank


def _rounding(xy: Floats) -> float:
    return float(_ROUNDING * np.abs(xy).max(initial=0.0))


def _segments(polygons: Shapes) -> tuple[Floats, Floats, Ints]:
    """Return starts and stops (s, 2) of the edges of polygons, and the polygon of each."""
    parts, owner = shapely.get_parts(polygons, return_index=True)
    rings, part = shapely.get_rings(parts, return_index=True)
    xy, ring = shapely.get_coordinates(rings, return_index=True)
    follows = ring[1:] == ring[:-1]
    return xy[:-1][follows], xy[1:][follows], owner[part[ring[1:][follows]]]


def _nearly_meet(polygons: Shapes, reach: float) -> tuple[Ints, Ints]:
    """Return the pairs of polygons of which a corner of one is near, but not at, the other's."""
    start, stop, owner = _segments(polygons)
    if not len(start):
        return np.empty(0, dtype=np.int64), np.empty(0, dtype=np.int64)
    packed = np.ascontiguousarray(start).view([("x", np.float64), ("y", np.float64)]).ravel()
    points, name = np.unique(packed, return_inverse=True)
    xy = points.view(np.float64).reshape(-1, 2)
    tree = shapely.STRtree(shapely.linestrings(np.stack((start, stop), axis=1)))
    point, segment = tree.query(shapely.points(xy), predicate="dwithin", distance=reach)
    count = len(polygons)
    key = point * count + owner[segment]
    own = np.isin(key, name.reshape(-1) * count + owner)
    point, segment, key = point[~own], segment[~own], key[~own]
    _, distance = _project(xy[point], start[segment], stop[segment])
    ends = np.stack((start[segment], stop[segment])) - xy[point]
    beside = np.hypot(*np.moveaxis(ends, -1, 0)).min(axis=0) <= reach
    order = np.lexsort((distance, key))
    first = np.append(True, key[order][1:] != key[order][:-1])[: len(key)]
    nearest = order[first]
    apart = distance[nearest] > _rounding(xy)
    # Corners that slide on the other's border towards a corner of it count as well.
    loose = np.union1d(key[nearest][apart], key[beside])
    corner, other = loose // count, loose % count
    # Every polygon that has the corner.
    by_name = np.argsort(name.reshape(-1), kind="stable")
    low = np.searchsorted(name.reshape(-1)[by_name], corner, "left")
    high = np.searchsorted(name.reshape(-1)[by_name], corner, "right")
    size = high - low
    within = count_up(size)
    one, other = owner[by_name[np.repeat(low, size) + within]], np.repeat(other, size)
    pairs = np.unique(np.sort(np.column_stack((one, other)), axis=1), axis=0)
    pairs = pairs[pairs[:, 0] != pairs[:, 1]]
    return pairs[:, 0], pairs[:, 1]


def _project(point: Floats, start: Floats, stop: Floats) -> tuple[Floats, Floats]:
    """Return the nearest places on segments, and how far they are."""
    way = stop - start
    length2 = (way**2).sum(axis=-1)
    share = ((point - start) * way).sum(axis=-1) / np.where(length2 > 0, length2, 1.0)
    place = start + np.clip(share, 0.0, 1.0)[..., None] * way
    return place, np.hypot(*np.moveaxis(place - point, -1, 0))


def _led_along(
    polygon: shapely.Geometry, firm: Shapes, reach: float
) -> tuple[shapely.Geometry, float, Floats] | None:
    """Lead a polygon along others; None where there is nothing to do."""
    start, stop, _ = _segments(firm)
    low, high = _box(polygon, reach)
    some = (np.minimum(start, stop) <= high).all(axis=1) & (np.maximum(start, stop) >= low).all(
        axis=1
    )
    start, stop = start[some], stop[some]
    if not len(start):
        return None
    corners = np.unique(np.vstack((start, stop)), axis=0)
    rounding = _rounding(np.vstack((corners, shapely.get_coordinates(polygon))))
    far, where, parts = 0.0, None, []
    for part in shapely.get_parts(polygon):
        rings = []
        for ring in shapely.get_rings(part):
            led, move, spot = _ring_along(
                shapely.get_coordinates(ring)[:-1], start, stop, corners, reach, rounding
            )
            if len(led) >= 3:
                rings.append(led)
            elif not rings:
                break  # the part has closed up
            if move > far:
                far, where = move, spot
        if rings:
            parts.append(shapely.Polygon(rings[0], rings[1:]))
    if where is None:
        return None
    whole = parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)
    whole = mended(whole)
    # Rounding may cross again what was mended.
    if not whole.is_valid or whole.area < _LEAST_LEFT * polygon.area:
        return None
    return whole, far, where


def _box(polygon: shapely.Geometry, reach: float) -> tuple[Floats, Floats]:
    bounds = np.array(polygon.bounds)
    return bounds[:2] - reach, bounds[2:] + reach


def _ring_along(
    ring: Floats, start: Floats, stop: Floats, corners: Floats, reach: float, rounding: float
) -> tuple[Floats, float, Floats | None]:
    """Move the corners of a ring, and take those of others in; how far it went, and where."""
    onto, edge_far = _nearest_on(start, stop, ring, reach)
    corner, corner_far = _nearest_on(corners, corners, ring, reach)
    off = (edge_far > rounding) & (edge_far <= reach)
    moved = np.where(off[:, None], onto, ring)
    moved = np.where((corner_far <= reach)[:, None], corner, moved)
    move = np.hypot(*(moved - ring).T)
    most, spot = float(move.max()), moved[move.argmax()]
    ring = moved[(moved != np.roll(moved, -1, axis=0)).any(axis=1)]
    if len(ring) >= 3:
        # Corners of the others that the edges now pass.
        loose = corners[~_are_among(corners, ring)]
        after = np.roll(ring, -1, axis=0)
        edge, far = _nearest_edge(ring, after, loose, reach)
        taken = (far > rounding) & (far <= reach)
        loose, edge, far = loose[taken], edge[taken], far[taken]
        if len(far):
            share = ((loose - ring[edge]) * (after[edge] - ring[edge])).sum(axis=1)
            order = np.lexsort((share, edge))
            ring = np.insert(ring, edge[order] + 1, loose[order], axis=0)
            if far.max() > most:
                most, spot = float(far.max()), loose[far.argmax()]
    return ring, most, (spot if most > 0 else None)


def _are_among(points: Floats, others: Floats) -> NDArray[np.bool_]:
    kind = [("x", np.float64), ("y", np.float64)]
    one, other = (np.ascontiguousarray(a).view(kind).ravel() for a in (points, others))
    return np.isin(one, other)


def _nearest_on(start: Floats, stop: Floats, points: Floats, reach: float) -> tuple[Floats, Floats]:
    """Return the nearest place on segments to each point, and how far it is."""
    edge, far = _nearest_edge(start, stop, points, reach)
    place, _ = _project(points, start[edge], stop[edge])
    return place, far


def _nearest_edge(start: Floats, stop: Floats, points: Floats, reach: float) -> tuple[Ints, Floats]:
    """Return the nearest segment to each point, the first of equal ones, and how far it is.

    Farther than the reach it may be any, at an infinite distance.
    """
    if len(start) * len(points) <= _FEW:
        _, distance = _project(points[:, None], start[None], stop[None])
        edge = distance.argmin(axis=1)
        return edge, distance[np.arange(len(points)), edge]
    edge = np.zeros(len(points), dtype=np.int64)
    far = np.full(len(points), np.inf)
    tree = shapely.STRtree(shapely.linestrings(np.stack((start, stop), axis=1)))
    point, found = tree.query(shapely.points(points), predicate="dwithin", distance=reach)
    _, distance = _project(points[point], start[found], stop[found])
    order = np.lexsort((found, distance, point))[::-1]  # the first is written last
    edge[point[order]] = found[order]
    far[point[order]] = distance[order]
    return edge, far
