"""The raw chain of a parallel: every source segment moved square to itself, with its joins.

It crosses itself and comes too near to the source wherever the line bends tightly;
`clear_intervals` finds, in closed form, what lies far enough away. A point is nearer than ``r`` to
a segment when it lies in the segment's capsule (a rectangle with two half discs); a capsule is
convex, so it takes one interval out of each straight piece.
"""

from dataclasses import dataclass

import numpy as np
import shapely

from .bundle import Lines
from .corners import Corners
from .direction import right_normals

Intervals = tuple[np.ndarray, np.ndarray, np.ndarray]
"""Pieces of a chain, (i,) int, and the low and the high end of a share of each, (i,) float."""


@dataclass(frozen=True)
class Chain:
    """Straight pieces in the order of the source line.

    Parameters
    ----------
    start, stop
        Ends of each piece, (c, 2) float.
    parent
        Source segment, counted within the line, (c,) int; -1 in a join.
    vertex
        Source vertex at or before the piece, counted within the line, (c,) int.
    linked
        True when the piece ends where the next one starts, (c,) bool.
    """

    start: np.ndarray
    stop: np.ndarray
    parent: np.ndarray
    vertex: np.ndarray
    linked: np.ndarray


def raw_chain(lines: Lines, k: int, offset: float, corner: Corners) -> Chain:
    """Return the chain of line ``k`` of a bundle for a signed offset and the bundle's corners."""
    rows = lines.line(k)
    xy = lines.xy[rows]
    count = len(xy) - 1
    normals = right_normals(
        lines.segment_directions[lines.first_segment[k] : lines.first_segment[k + 1]]
    )
    outer = corner.outer[rows].copy()
    first = corner.first[rows.start : rows.stop + 1]
    ring = bool(lines.closed[k])
    if not ring:
        outer[[0, -1]] = False
    begin = xy[:-1] + offset * normals
    end = xy[1:] + offset * normals
    # An outer corner continues its two offset segments to its own first and last point.
    last_point = corner.points[first[1:] - 1]
    first_point = corner.points[first[:-1]]
    begin = np.where(outer[:-1, None], last_point[:-1], begin)
    end = np.where(outer[1:, None], first_point[1:], end)
    # Joins: between the points of each outer corner (on a ring the last vertex repeats the first).
    fill = np.where(outer, np.diff(first) - 1, 0)
    fill[-1] = 0
    size = fill[:-1] + 1
    head = np.cumsum(size) - size  # where the pieces of vertex i and segment i start
    total = int(size.sum())
    start, stop = np.empty((total, 2)), np.empty((total, 2))
    parent, vertex = np.full(total, -1), np.repeat(np.arange(count), size)
    own = head + fill[:-1]
    start[own], stop[own], parent[own] = begin, end, np.arange(count)
    joins = np.flatnonzero(parent < 0)
    point = first[vertex[joins]] + joins - head[vertex[joins]]
    start[joins], stop[joins] = corner.points[point], corner.points[point + 1]
    linked = np.ones(total, bool)
    after = np.concatenate([outer[1:-1], [outer[0] and ring]])
    linked[own] = after
    return Chain(start, stop, parent, vertex, linked)


def feet_of(one: Lines, chain: Chain, at: np.ndarray, xy: np.ndarray) -> np.ndarray:
    """Return the station of the foot of points on pieces ``at`` of the chain."""
    segment = chain.parent[at]
    join = segment < 0
    s = np.where(join, 0, segment)
    along = ((xy - one.xy[s]) * one.segment_directions[s]).sum(1)
    on = one.stations[s] + np.clip(along, 0.0, one.segment_lengths[s])
    on = np.where(along >= one.segment_lengths[s], one.stations[s + 1], on)
    return np.where(join, one.stations[chain.vertex[at]], on)


def clear_intervals(
    one: Lines, chain: Chain, reach: float, also: Intervals | None = None
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the intervals of the chain that are not nearer than ``reach`` to the source.

    Parameters
    ----------
    one, chain
        A source line alone in its bundle, and its chain.
    reach
        Distance to keep.
    also
        Further intervals to leave out: piece, low and high share.

    Returns
    -------
    at : (i,) int
        Piece of the chain, ascending.
    low, high : (i,) float
        Shares 0..1 along it.
    """
    box_low = np.minimum(chain.start, chain.stop) - reach
    box_high = np.maximum(chain.start, chain.stop) + reach
    boxes = shapely.box(*box_low.T, *box_high.T)
    piece, segment = shapely.STRtree(one.segment_geometries).query(boxes)
    low, high = _capsule(one, chain, piece, segment, reach)
    hit = high > low
    piece, low, high = piece[hit], low[hit], high[hit]
    if also is not None:
        piece, low, high = (np.append(*pair) for pair in zip((piece, low, high), also, strict=True))
    # Sweep each piece: a gap opens where an interval starts beyond all ends before it. Pieces lie
    # two apart on one axis so that one running maximum serves all of them.
    total = len(chain.parent)
    piece = np.concatenate([piece, np.arange(total), np.arange(total)])
    low = np.concatenate([low, np.full(total, -0.5), np.ones(total)])
    high = np.concatenate([high, np.zeros(total), np.full(total, 1.5)])
    order = np.lexsort((low, piece))
    piece, low, high = piece[order], low[order], high[order]
    done = np.maximum.accumulate(high + 2.0 * piece) - 2.0 * piece
    same = piece[1:] == piece[:-1]
    gap = np.flatnonzero(same & (low[1:] > done[:-1]))
    return piece[gap], np.maximum(done[gap], 0.0), np.minimum(low[gap + 1], 1.0)


def _capsule(
    one: Lines, chain: Chain, piece: np.ndarray, segment: np.ndarray, reach: float
) -> tuple[np.ndarray, np.ndarray]:
    """Return the share interval of each piece inside the capsule of each segment (empty: 1, 0)."""
    direction = one.segment_directions[segment]
    length = one.segment_lengths[segment]
    p = chain.start[piece] - one.xy[:-1][segment]
    d = chain.stop[piece] - chain.start[piece]
    u, v = (p * direction).sum(1), p[:, 1] * direction[:, 0] - p[:, 0] * direction[:, 1]
    du, dv = (d * direction).sum(1), d[:, 1] * direction[:, 0] - d[:, 0] * direction[:, 1]
    low_u, high_u = _slab(u, du, 0.0, length)
    low_v, high_v = _slab(v, dv, -reach, reach)
    low, high = np.maximum(low_u, low_v), np.minimum(high_u, high_v)
    none = high <= low
    low, high = np.where(none, 1.0, low), np.where(none, 0.0, high)
    a = np.maximum(du * du + dv * dv, 1e-300)
    for centre in (0.0, length):
        b = du * (u - centre) + dv * v
        # b^2 - a c, written so that nothing large cancels
        square = a * reach * reach - (du * v - dv * (u - centre)) ** 2
        root = np.sqrt(np.maximum(square, 0.0))
        inside = square > 0
        low = np.where(inside, np.minimum(low, (-b - root) / a), low)
        high = np.where(inside, np.maximum(high, (-b + root) / a), high)
    low, high = np.maximum(low, 0.0), np.minimum(high, 1.0)
    none = high <= low
    return np.where(none, 1.0, low), np.where(none, 0.0, high)


def _slab(
    x: np.ndarray, dx: np.ndarray, low: np.ndarray | float, high: np.ndarray | float
) -> tuple[np.ndarray, np.ndarray]:
    """Return the interval of t where ``low < x + t dx < high``."""
    still = np.abs(dx) < 1e-14
    safe = np.where(still, 1.0, dx)
    a, b = (low - x) / safe, (high - x) / safe
    inside = (x > low) & (x < high)
    start = np.where(still, np.where(inside, -np.inf, np.inf), np.minimum(a, b))
    stop = np.where(still, np.where(inside, np.inf, -np.inf), np.maximum(a, b))
    return start, stop
