"""Borders snapped onto the vertices and edges of a surface, until nothing moves any more.

After it every border point is a vertex, a point of an edge, or farther than the snap tolerance
from both; every border segment passes through a vertex or farther than the tolerance from it.
Which side of what a point lies on can then be told with certainty in floating point.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from .near import Band, Pairing

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

NONE = -1
_MOST_ROUNDS = 60


@dataclass(eq=False)
class Linework:
    """Border segments while they are snapped.

    Parameters
    ----------
    xy : (b, 2) float
        Positions of the border points.
    vertex : (b,) int
        Vertex of the surface (its place, see `Band`) each point has become, or `NONE`.
    edge : (b,) int
        Edge of the band each point lies on, or `NONE`; not set where it is a vertex.
    share : (b,) float
        Where on that edge, 0 at its lower vertex and 1 at the higher.
    segments : (s, 2) int
        Points of the segments, distinct pairs, the lower number first.
    names : (s,) int
        Names of the segments in the pairing; a new course has a new name.
    next_name : int
        Lowest name not used yet.
    rounds : int
        Rounds it took until nothing moved.
    settled : bool
        False when things still moved after the last round allowed.
    """

    xy: Floats
    vertex: Ints
    edge: Ints
    share: Floats
    segments: Ints
    names: Ints
    next_name: int
    rounds: int = 0
    settled: bool = False


def snap(
    line: Linework, xy: Floats, band: Band, pairing: Pairing, snap_distance: float
) -> Linework:
    """Snap the borders in place; see the module.

    Parameters
    ----------
    line : Linework
        Fresh from the noding: no vertices, no edges.
    xy : (n, 2) float
        Vertices of the surface in plan.
    band : Band
        Faces and edges near the borders.
    pairing : Pairing
        Holds the segments of the linework, and is given the new ones.
    snap_distance : float
        The tolerance.
    """
    for _ in range(_MOST_ROUNDS):
        line.rounds += 1
        edge, segment = pairing.of(line.names)
        moved = _to_vertices(line, xy, band, segment, edge, snap_distance)
        moved |= _together(line, snap_distance)
        moved |= _to_edges(line, xy, band, segment, edge, snap_distance)
        moved |= _through_vertices(line, xy, band, segment, edge, snap_distance)
        moved |= _through_points(line, snap_distance)
        moved |= _where_they_cross(line)
        fresh = _tidy(line)
        ends = line.xy[line.segments[fresh]]
        pairing.add(line.names[fresh], ends[:, 0], ends[:, 1])
        if not moved:
            line.settled = True
            break
    return line


def project(point: Floats, start: Floats, stop: Floats) -> tuple[Floats, Floats]:
    """Return share and distance of the nearest place of segments to points, each (k,)."""
    way = stop - start
    length2 = np.einsum("ij,ij->i", way, way)
    share = np.einsum("ij,ij->i", point - start, way) / np.where(length2 > 0, length2, 1.0)
    share = np.clip(share, 0.0, 1.0)
    return share, np.hypot(*(start + share[:, None] * way - point).T)


def _nearest(owner: Ints, distance: Floats, tie: Ints) -> Ints:
    """Return rows, one an owner: the one of least distance, then of least tie."""
    order = np.lexsort((tie, distance, owner))
    fresh = np.ones(len(order), dtype=bool)
    fresh[1:] = owner[order][1:] != owner[order][:-1]
    return order[fresh]


def _to_vertices(
    line: Linework, xy: Floats, band: Band, segment: Ints, edge: Ints, reach: float
) -> bool:
    point = np.concatenate([line.segments[segment, end] for end in (0, 0, 1, 1)])
    vertex = np.concatenate([band.edge_places[edge, end] for end in (0, 1, 0, 1)])
    free = line.vertex[point] == NONE
    point, vertex = point[free], vertex[free]
    distance = np.hypot(*(xy[vertex] - line.xy[point]).T)
    close = distance <= reach
    point, vertex, distance = point[close], vertex[close], distance[close]
    row = _nearest(point, distance, vertex)
    point, vertex = point[row], vertex[row]
    line.vertex[point] = vertex
    line.edge[point] = NONE
    line.xy[point] = xy[vertex]
    return bool(len(point))


def _together(line: Linework, reach: float) -> bool:
    """Unite border points that are one vertex, or nearer than the tolerance to each other."""
    used = np.unique(line.segments)
    tree = shapely.STRtree(shapely.points(line.xy[used]))
    one, other = tree.query(tree.geometries, predicate="dwithin", distance=reach)
    one, other = used[one[one < other]], used[other[one < other]]
    # Two vertices of the surface stay two, however near.
    may = (line.vertex[one] == NONE) | (line.vertex[other] == NONE)
    may |= line.vertex[one] == line.vertex[other]
    if not may.any():
        return False
    one, other = one[may], other[may]
    # The one that is fixed more firmly stays, then the one with the lower x, y.
    firm = 2 * (line.vertex != NONE) + (line.edge != NONE)
    rank = np.empty(len(line.xy), dtype=np.int64)
    rank[np.lexsort((line.xy[:, 1], line.xy[:, 0], -firm))] = np.arange(len(line.xy))
    swap = rank[one] > rank[other]
    keep, drop = np.where(swap, other, one), np.where(swap, one, other)
    row = _nearest(drop, rank[keep].astype(np.float64), keep)
    into = np.arange(len(line.xy))
    into[drop[row]] = keep[row]
    while (into != into[into]).any():
        into = into[into]
    line.segments = into[line.segments]
    return True


def _to_edges(
    line: Linework, xy: Floats, band: Band, segment: Ints, edge: Ints, reach: float
) -> bool:
    point = np.concatenate([line.segments[segment, end] for end in (0, 1)])
    edge = np.concatenate((edge, edge))
    free = (line.vertex[point] == NONE) & (line.edge[point] == NONE)
    point, edge = point[free], edge[free]
    start, stop = xy[band.edges.ends[edge, 0]], xy[band.edges.ends[edge, 1]]
    share, distance = project(line.xy[point], start, stop)
    close = distance <= reach
    point, edge, share, distance = point[close], edge[close], share[close], distance[close]
    row = _nearest(point, distance, edge)
    point, edge, share = point[row], edge[row], share[row]
    start, stop = xy[band.edges.ends[edge, 0]], xy[band.edges.ends[edge, 1]]
    line.edge[point] = edge
    line.share[point] = share
    line.xy[point] = start + share[:, None] * (stop - start)
    return bool(len(point))


def _through_vertices(
    line: Linework, xy: Floats, band: Band, segment: Ints, edge: Ints, reach: float
) -> bool:
    """Lead segments through the vertices they pass nearer than the tolerance."""
    segment = np.concatenate((segment, segment))
    vertex = np.concatenate((band.edge_places[edge, 0], band.edge_places[edge, 1]))
    a, b = line.segments[segment, 0], line.segments[segment, 1]
    share, distance = project(xy[vertex], line.xy[a], line.xy[b])
    hit = (distance <= reach) & (line.vertex[a] != vertex) & (line.vertex[b] != vertex) & (a != b)
    if not hit.any():
        return False
    key = np.unique(np.column_stack((segment[hit], vertex[hit])), axis=0)
    segment, vertex = key[:, 0], key[:, 1]
    a, b = line.segments[segment, 0], line.segments[segment, 1]
    share, _ = project(xy[vertex], line.xy[a], line.xy[b])
    _lead_through(line, segment, _points_at(line, xy, vertex), share)
    return True


def _points_at(line: Linework, xy: Floats, vertex: Ints) -> Ints:
    """Return the border point at each vertex, made where there is none."""
    fixed = np.flatnonzero(line.vertex != NONE)
    known, first = np.unique(line.vertex[fixed], return_index=True)
    fresh = np.setdiff1d(vertex, known)
    count = len(line.xy)
    line.xy = np.vstack((line.xy, xy[fresh]))
    line.vertex = np.concatenate((line.vertex, fresh))
    line.edge = np.concatenate((line.edge, np.full(len(fresh), NONE)))
    line.share = np.concatenate((line.share, np.zeros(len(fresh))))
    names = np.concatenate((known, fresh))
    points = np.concatenate((fixed[first], count + np.arange(len(fresh))))
    order = np.argsort(names)
    return points[order][np.searchsorted(names[order], vertex)]


def _through_points(line: Linework, reach: float) -> bool:
    """Lead segments through the border points they pass nearer than the tolerance."""
    proper = line.segments[:, 0] != line.segments[:, 1]
    used = np.unique(line.segments)
    ends = line.xy[line.segments]
    tree = shapely.STRtree(shapely.linestrings(ends))
    point, segment = tree.query(shapely.points(line.xy[used]), predicate="dwithin", distance=reach)
    point = used[point]
    a, b = line.segments[segment, 0], line.segments[segment, 1]
    other = (point != a) & (point != b) & proper[segment]
    # Points that are one vertex with an end are that end; they are united in the next round.
    for end in (a, b):
        other &= (line.vertex[point] == NONE) | (line.vertex[point] != line.vertex[end])
    point, segment = point[other], segment[other]
    if not len(point):
        return False
    share, _ = project(line.xy[point], ends[segment, 0], ends[segment, 1])
    _lead_through(line, segment, point, share)
    return True


def _where_they_cross(line: Linework) -> bool:
    """Give segments that snapping has led across each other a common point there."""
    ends = line.xy[line.segments]
    one, other = shapely.STRtree(shapely.linestrings(ends)).query(
        shapely.box(*ends.min(axis=1).T, *ends.max(axis=1).T)
    )
    apart = one < other
    one, other = one[apart], other[apart]
    joined = (line.segments[one][:, :, None] == line.segments[other][:, None, :]).any(axis=(1, 2))
    one, other = one[~joined], other[~joined]
    a, b, c, d = ends[one, 0], ends[one, 1], ends[other, 0], ends[other, 1]
    c_side, d_side = turn(a, b, c), turn(a, b, d)
    cross = (turn(c, d, a) * turn(c, d, b) < 0) & (c_side * d_side < 0)
    if not cross.any():
        return False
    one, other, c, d = one[cross], other[cross], c[cross], d[cross]
    c_side, d_side = c_side[cross], d_side[cross]
    share = c_side / (c_side - d_side)
    place = c + share[:, None] * (d - c)
    point = len(line.xy) + np.arange(len(place))
    line.xy = np.vstack((line.xy, place))
    none = np.full(len(place), NONE)
    line.vertex = np.concatenate((line.vertex, none))
    line.edge = np.concatenate((line.edge, none))
    line.share = np.concatenate((line.share, np.zeros(len(place))))
    segment, point = np.concatenate((one, other)), np.concatenate((point, point))
    way, _ = project(line.xy[point], line.xy[line.segments[segment, 0]], ends[segment, 1])
    _lead_through(line, segment, point, way)
    return True


def turn(a: Floats, b: Floats, p: Floats) -> Floats:
    """Return twice the area of a, b, p: positive where p is on the left of a -> b."""
    return (b[:, 0] - a[:, 0]) * (p[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (p[:, 0] - a[:, 0])


def _lead_through(line: Linework, segment: Ints, point: Ints, share: Floats) -> None:
    """Replace segments by chains through the points given, in order of their share."""
    order = np.lexsort((point, share, segment))
    segment, point = segment[order], point[order]
    count = np.bincount(segment, minlength=len(line.segments))
    owner = np.repeat(np.arange(len(count)), count + 1)
    start = np.empty(len(owner), dtype=np.int64)
    stop = np.empty(len(owner), dtype=np.int64)
    first = np.cumsum(count + 1) - (count + 1)
    within = np.ones(len(owner), dtype=bool)
    within[first] = False
    start[first] = line.segments[:, 0]
    start[within] = point
    last = first + count
    within[:] = True
    within[last] = False
    stop[last] = line.segments[:, 1]
    stop[within] = point
    line.segments = np.column_stack((start, stop))
    names = line.names[owner]
    names[count[owner] > 0] = NONE
    line.names = names


def _tidy(line: Linework) -> Ints:
    """Unite segments that have fallen onto each other; name and return the new ones."""
    lower = np.sort(line.segments, axis=1)
    order = np.lexsort((-line.names, lower[:, 1], lower[:, 0]))
    lower, names = lower[order], line.names[order]
    first = lower[:, 0] != lower[:, 1]
    first[1:] &= (lower[1:] != lower[:-1]).any(axis=1)
    # Of doubles the one that has a name.
    line.segments, line.names = lower[first], names[first]
    fresh = np.flatnonzero(line.names == NONE)
    line.names[fresh] = line.next_name + np.arange(len(fresh))
    line.next_name += len(fresh)
    return fresh
