"""Where snapped borders meet the edges of a surface, and the chords they draw through its faces.

A crossing is worked out once for each edge and segment, from the lower to the higher vertex of
the edge, and both faces beside the edge refer to it by its number: that, and not equal
coordinates, is why the pieces fit together.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...runs import count_up
from .near import Band, Pairing
from .segments import cancel_doubles
from .snap import NONE, Linework, turn

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_MERGE_SHARE = 0.25  # crossings on an edge nearer than this share of the snap distance are one


@dataclass(frozen=True, eq=False)
class Crossings:
    """New nodes, chords and borders along edges.

    Node numbers count on after the vertices of the surface: first the nodes on edges, in order
    of edge and share, then those inside faces.

    Parameters
    ----------
    edge : (i,) int
        Edge of the band of each node on an edge, ascending.
    share : (i,) float
        Where on the edge, ascending within it.
    inner_face : (j,) int
        Face of the band of each node inside a face.
    inner_xy : (j, 2) float
        Their positions.
    chords, chord_sides, chord_face : (c, 2), (c, 2), (c,) int
        Nodes, zones left and right, and face of the band of each border inside a face.
    along, along_sides : (a, 2), (a, 2) int
        The same for borders that run along (part of) an edge, node to next node.
    loose : (u,) int
        Faces in which borders do not end as they should; the cut may be wrong there.
    """

    edge: Ints
    share: Floats
    inner_face: Ints
    inner_xy: Floats
    chords: Ints
    chord_sides: Ints
    chord_face: Ints
    along: Ints
    along_sides: Ints
    loose: Ints


@dataclass(frozen=True, eq=False)
class _Events:
    """Places where a segment enters, leaves, begins or ends in a face."""

    face: Ints
    segment: Ints
    node: Ints
    sides: Ints  # bit k: the node is on side k of the face
    way: Floats  # 0 at the start of the segment, 1 at its end


def cross(
    line: Linework,
    zones: Ints,
    xy: Floats,
    band: Band,
    pairing: Pairing,
    snap_distance: float,
) -> Crossings:
    """Find all nodes and chords.

    Parameters
    ----------
    line : Linework
        Borders after snapping.
    zones : (s, 2) int
        Zone on the left and right of each segment.
    xy : (n, 2) float
        Vertices of the surface in plan.
    band : Band
        Faces near the borders.
    pairing : Pairing
        Which of them each segment may meet.
    snap_distance : float
        The tolerance.
    """
    edge_pairs = pairing.of(line.names)
    face_pairs = pairing.of(line.names, faces=True)
    crossed_edge, crossed_segment, share, way = _proper_crossings(line, xy, band, *edge_pairs)
    on_edge = np.unique(line.segments)
    on_edge = on_edge[line.edge[on_edge] != NONE]
    edge, edge_share, crossing_node, point_node = _edge_nodes(
        xy, band, crossed_edge, share, on_edge, line, snap_distance
    )
    node_of_point = np.full(len(line.xy), NONE, dtype=np.int64)
    node_of_point[on_edge] = len(xy) + point_node
    inner_face, inner_point, inner_events = _ends_inside(
        line, xy, band, *face_pairs, 0.5 * snap_distance
    )
    inner_base = len(xy) + len(edge)
    events = _joined(
        _events_at_crossings(band, crossed_edge, crossed_segment, len(xy) + crossing_node, way),
        _events_at_corners(line, band, *face_pairs),
        _events_on_sides(line, band, *face_pairs, node_of_point),
        _Events(
            inner_events.face,
            inner_events.segment,
            inner_events.node + inner_base,
            inner_events.sides,
            inner_events.way,
        ),
    )
    chords, chord_sides, chord_face, along_pairs, along_sides, loose = _draw(events, zones)
    along, along_sides = _along_edges(along_pairs, along_sides, band, edge, len(xy))
    return Crossings(
        edge,
        edge_share,
        inner_face,
        line.xy[inner_point],
        chords,
        chord_sides,
        chord_face,
        along,
        along_sides,
        loose,
    )


def _proper_crossings(
    line: Linework, xy: Floats, band: Band, edge: Ints, segment: Ints
) -> tuple[Ints, Ints, Floats, Floats]:
    """Return edge, segment, share of the edge and of the segment of each crossing."""
    lower, upper = xy[band.edges.ends[edge, 0]], xy[band.edges.ends[edge, 1]]
    side_of_end = []
    for end in (0, 1):
        point = line.segments[segment, end]
        value = turn(lower, upper, line.xy[point])
        side_of_end.append(_known_side(value, line, band, edge, point))
    a, b = side_of_end
    some = np.flatnonzero(a * b < 0)
    edge, segment, a, b = edge[some], segment[some], a[some], b[some]
    start, stop = line.xy[line.segments[segment, 0]], line.xy[line.segments[segment, 1]]
    low = turn(start, stop, lower[some])
    high = turn(start, stop, upper[some])
    for end in (0, 1):
        vertex = line.vertex[line.segments[segment, end]]
        low[vertex == band.edge_places[edge, 0]] = 0.0
        high[vertex == band.edge_places[edge, 1]] = 0.0
    proper = low * high < 0
    edge, segment, a, b = edge[proper], segment[proper], a[proper], b[proper]
    low, high = low[proper], high[proper]
    return edge, segment, low / (low - high), a / (a - b)


def _known_side(value: Floats, line: Linework, band: Band, edge: Ints, point: Ints) -> Floats:
    """Replace signs that follow from what the point is known to lie on.

    Rounding could tell otherwise in faces thinner than it, and in vertical ones.
    """
    vertex, on = line.vertex[point], line.edge[point]
    known = np.flatnonzero((vertex != NONE) | (on != NONE))
    side = value.copy()
    some_edge, vertex, on = edge[known], vertex[known], on[known]
    value = side[known]
    least = np.maximum(np.abs(value), np.finfo(np.float64).tiny)
    for face, sign in zip(band.edges.faces[some_edge].T, (1.0, -1.0), strict=True):
        there = face >= 0
        beside = (band.places[face] == vertex[:, None]).any(axis=1) & (vertex != NONE)
        beside |= (band.edges.face_edges[face] == on[:, None]).any(axis=1) & (on != NONE)
        value = np.where(there & beside, sign * least, value)
    zero = on == some_edge
    zero |= (band.edge_places[some_edge] == vertex[:, None]).any(axis=1) & (vertex != NONE)
    value[zero] = 0.0
    side[known] = value
    return side


def _edge_nodes(
    xy: Floats,
    band: Band,
    crossed: Ints,
    share: Floats,
    on_edge: Ints,
    line: Linework,
    snap_distance: float,
) -> tuple[Ints, Floats, Ints, Ints]:
    """Number the nodes on edges; crossings that all but coincide become one.

    Returns
    -------
    edge, share : (i,)
        Of each node.
    crossing_node, point_node : (c,), (p,) int
        Node of each crossing and of each border point on an edge.
    """
    edge = np.concatenate((line.edge[on_edge], crossed))
    share = np.concatenate((line.share[on_edge], share))
    drawn = np.zeros(len(edge), dtype=np.int64)
    drawn[len(on_edge) :] = 1  # border points come first and stay where they are
    order = np.lexsort((drawn, share, edge))
    edge, share, drawn = edge[order], share[order], drawn[order]
    length = np.hypot(*(xy[band.edges.ends[edge, 1]] - xy[band.edges.ends[edge, 0]]).T)
    fresh = np.ones(len(edge), dtype=bool)
    gap = np.diff(share) * length[1:]
    fresh[1:] = (edge[1:] != edge[:-1]) | (gap > _MERGE_SHARE * snap_distance)
    node = np.cumsum(fresh) - 1
    first = np.flatnonzero(fresh)
    node_share = share[first].copy()
    points = drawn == 0
    node_share[node[points]] = share[points]
    number = np.empty(len(order), dtype=np.int64)
    number[order] = node
    return edge[first], node_share, number[len(on_edge) :], number[: len(on_edge)]


def _ends_inside(
    line: Linework, xy: Floats, band: Band, face: Ints, segment: Ints, clear: float
) -> tuple[Ints, Ints, _Events]:
    """Find border points that lie inside faces, off all their sides."""
    end = np.repeat((0, 1), len(face))
    face, segment = np.tile(face, 2), np.tile(segment, 2)
    point = line.segments[segment, end]
    inside = ~_touches(line, band, face, point)
    for side in range(3):
        a, b = xy[band.corners[face, side]], xy[band.corners[face, (side + 1) % 3]]
        inside &= turn(a, b, line.xy[point]) > clear * np.hypot(*(b - a).T)
    face, segment, end, point = face[inside], segment[inside], end[inside], point[inside]
    both, node = np.unique(np.column_stack((face, point)), axis=0, return_inverse=True)
    node = node.reshape(-1)
    none = np.zeros(len(face), dtype=np.int64)
    events = _Events(face, segment, node, none, end.astype(np.float64))
    return both[:, 0], both[:, 1], events


def _touches(line: Linework, band: Band, face: Ints, point: Ints) -> NDArray[np.bool_]:
    vertex, on = line.vertex[point], line.edge[point]
    at = (band.places[face] == vertex[:, None]).any(axis=1) & (vertex != NONE)
    return at | ((band.edges.face_edges[face] == on[:, None]).any(axis=1) & (on != NONE))


def _events_at_crossings(band: Band, edge: Ints, segment: Ints, node: Ints, way: Floats) -> _Events:
    """Each crossing is an event in every face beside the edge."""
    edges = band.edges.face_edges.ravel()
    half = np.argsort(edges, kind="stable")
    count = np.bincount(edges, minlength=len(band.edges.ends))
    start = np.cumsum(count) - count
    times = count[edge]
    row = np.repeat(np.arange(len(edge)), times)
    offset = count_up(times)
    half = half[start[edge][row] + offset]
    return _Events(half // 3, segment[row], node[row], 1 << (half % 3), way[row])


def _events_at_corners(line: Linework, band: Band, face: Ints, segment: Ints) -> _Events:
    found = []
    for end in (0, 1):
        vertex = line.vertex[line.segments[segment, end]]
        for corner in range(3):
            at = np.flatnonzero((band.places[face, corner] == vertex) & (vertex != NONE))
            sides = np.full(len(at), 1 << corner | 1 << (corner + 2) % 3)
            way = np.full(len(at), float(end))
            found.append(_Events(face[at], segment[at], band.corners[face[at], corner], sides, way))
    return _joined(*found)


def _events_on_sides(
    line: Linework, band: Band, face: Ints, segment: Ints, node_of_point: Ints
) -> _Events:
    found = []
    for end in (0, 1):
        point = line.segments[segment, end]
        on = line.edge[point]
        for side in range(3):
            at = np.flatnonzero((band.edges.face_edges[face, side] == on) & (on != NONE))
            sides = np.full(len(at), 1 << side)
            way = np.full(len(at), float(end))
            found.append(_Events(face[at], segment[at], node_of_point[point[at]], sides, way))
    return _joined(*found)


def _joined(*parts: _Events) -> _Events:
    return _Events(
        np.concatenate([part.face for part in parts]),
        np.concatenate([part.segment for part in parts]),
        np.concatenate([part.node for part in parts]),
        np.concatenate([part.sides for part in parts]),
        np.concatenate([part.way for part in parts]),
    )


def _draw(events: _Events, zones_beside: Ints) -> tuple[Ints, Ints, Ints, Ints, Ints, Ints]:
    """Join the two events of a segment in a face to a chord, or to a run along a side."""
    order = np.lexsort((events.node, events.way, events.segment, events.face))
    face, segment = events.face[order], events.segment[order]
    node, sides = events.node[order], events.sides[order]
    fresh = np.ones(len(order) + 1, dtype=bool)
    fresh[1:-1] = (face[1:] != face[:-1]) | (segment[1:] != segment[:-1])
    bounds = np.flatnonzero(fresh)
    first, last = bounds[:-1], bounds[1:] - 1
    n1, n2, s1, s2 = node[first], node[last], sides[first], sides[last]
    count = last - first + 1
    shared = (s1 & s2) != 0
    two = (n1 != n2) & (count >= 2)
    chord = two & ~shared
    along = two & shared
    # One event alone: fine where the segment only touches the side; more than two, or one in the
    # middle of the segment, cannot be. (Coincident corners of vertical faces do no harm.)
    lone = (count == 1) & ((s1 == 0) | _between(events.way[order][first]))
    loose = np.unique(face[first[lone | (chord & (count > 2))]])
    ends = np.column_stack((n1, n2))
    zones = zones_beside[segment[first]]
    chords, chord_sides = cancel_doubles(ends[chord], zones[chord])
    chord_face = _face_of(ends[chord], face[first[chord]], chords)
    return chords, chord_sides, chord_face, ends[along], zones[along], loose


def _between(way: Floats) -> NDArray[np.bool_]:
    return (way > 0) & (way < 1)


def _face_of(ends: Ints, face: Ints, wanted: Ints) -> Ints:
    low, high = ends.min(axis=1), ends.max(axis=1)
    width = int(high.max(initial=0)) + 1
    key, first = np.unique(low * width + high, return_index=True)
    return face[first][np.searchsorted(key, wanted[:, 0] * width + wanted[:, 1])]


def _along_edges(
    pairs: Ints, zones: Ints, band: Band, edge: Ints, vertices: int
) -> tuple[Ints, Ints]:
    """Divide runs along an edge at the nodes on it; both faces beside it have reported them."""
    backwards = pairs[:, 0] > pairs[:, 1]
    pairs = np.where(backwards[:, None], pairs[:, ::-1], pairs)
    zones = np.where(backwards[:, None], zones[:, ::-1], zones)
    both = np.unique(np.hstack((pairs, zones)), axis=0)
    pairs, zones = both[:, :2], both[:, 2:]
    if not len(pairs) or not len(edge):
        return cancel_doubles(pairs, zones)
    new = pairs >= vertices
    index = np.clip(pairs - vertices, 0, len(edge) - 1)
    on = np.where(new[:, 0], edge[index[:, 0]], NONE)
    on = np.where(new[:, 1], edge[index[:, 1]], on)
    whole = np.flatnonzero(on == NONE)  # from vertex to vertex
    if len(whole):
        low, high = pairs[whole].T
        width = vertices + 1
        key = band.edges.ends[:, 0] * width + band.edges.ends[:, 1]
        order = np.argsort(key)
        row = np.searchsorted(key[order], low * width + high)
        row = order[np.minimum(row, len(order) - 1)]
        on[whole] = np.where(key[row] == low * width + high, row, NONE)
    begin = np.searchsorted(edge, on, side="left")
    stop = np.searchsorted(edge, on, side="right")
    begin, stop = np.where(on == NONE, 0, begin), np.where(on == NONE, 0, stop)
    # Positions along the edge: the lower vertex, the nodes, the higher vertex.
    at = np.empty(pairs.shape, dtype=np.int64)
    for end in (0, 1):
        lower = pairs[:, end] == band.edges.ends[on, 0]
        at[:, end] = np.where(
            new[:, end], pairs[:, end] - vertices, np.where(lower, begin - 1, stop)
        )
    swap = at[:, 0] > at[:, 1]
    pairs = np.where(swap[:, None], pairs[:, ::-1], pairs)
    zones = np.where(swap[:, None], zones[:, ::-1], zones)
    at = np.where(swap[:, None], at[:, ::-1], at)
    steps = np.maximum(at[:, 1] - at[:, 0], 1)
    row = np.repeat(np.arange(len(pairs)), steps)
    offset = count_up(steps)
    start = np.where(offset == 0, pairs[row, 0], vertices + at[row, 0] + offset)
    final = offset == steps[row] - 1
    end_node = np.where(final, pairs[row, 1], vertices + at[row, 0] + offset + 1)
    return cancel_doubles(np.column_stack((start, end_node)), zones[row])
