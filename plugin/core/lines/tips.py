"""Tips of corners that reach to where another part of the line is nearer, on its other side.

Square beside a segment a parallel is nearest to that very segment, so its side is known. The tip of
a corner lies farther out than the offset; behind an open end of the line, or between parts of a
line that winds or crosses itself, some other part may be nearer there and see the tip on its
*other* side. Such places have no clear side and are cut from the chain, in closed form: a place q
of a tip belongs to another part when it is nearer to it than to the tip's own vertex V. For a
vertex P of the other part |q - P| < |q - V| is linear in q; for the line through a segment it is
quadratic along a straight tip.
"""

import numpy as np
import shapely

from ..vectors import cross
from .bundle import Lines
from .chain import Chain, Intervals
from .corners import turns
from .direction import right_normals


def misplaced(one: Lines, chain: Chain, offset: float, slack: float) -> Intervals:
    """Return the intervals of a chain that lie on the wrong side of a nearer part of the line.

    Parameters
    ----------
    one, chain
        A source line alone in its bundle, and its chain.
    offset
        Signed offset, right +.
    slack
        Differences of distance up to this are rounding.
    """
    piece, vertex, low, high = _tips(one, chain)
    count = len(one.segments)
    own = one.xy[vertex]
    start = chain.start[piece]
    step = chain.stop[piece] - start
    ends = [start + t[:, None] * step for t in (low, high)]
    reach = np.maximum(*(np.hypot(*(end - own).T) for end in ends))
    box = shapely.box(
        *(np.minimum(*ends) - reach[:, None]).T, *(np.maximum(*ends) + reach[:, None]).T
    )
    margin = 2.0 * slack * abs(offset)
    tip, segment = shapely.STRtree(one.segment_geometries).query(box)
    before = (vertex - 1) % count if one.closed[0] else vertex - 1
    other = (segment != before[tip]) & (segment != vertex[tip])
    tip, segment = tip[other], segment[other]
    found = [
        (tip, *part)
        for part in _by_segments(one, segment, start[tip], step[tip], own[tip], offset, margin)
    ]
    corners = np.arange(count if one.closed[0] else count + 1)
    tip, corner = shapely.STRtree(shapely.points(one.xy[corners])).query(box)
    other = corner != vertex[tip]
    tip, corner = tip[other], corners[corner[other]]
    found.append((tip, *_by_vertices(one, corner, start[tip], step[tip], own[tip], offset, margin)))
    which = np.concatenate([f[0] for f in found])
    begin = np.maximum(np.concatenate([f[1] for f in found]), low[which])
    end = np.minimum(np.concatenate([f[2] for f in found]), high[which])
    real = end > begin
    return piece[which[real]], begin[real], end[real]


def _tips(one: Lines, chain: Chain) -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Return piece, own vertex and share interval of all that lies beyond a foot."""
    joins = np.flatnonzero(chain.parent < 0)
    beside = np.flatnonzero(chain.parent >= 0)
    segment = chain.parent[beside]
    direction = one.segment_directions[segment]
    size = np.maximum(((chain.stop - chain.start)[beside] * direction).sum(1), 1e-300)
    ahead = ((one.xy[segment] - chain.start[beside]) * direction).sum(1) / size
    behind = ((one.xy[segment + 1] - chain.start[beside]) * direction).sum(1) / size
    first, last = ahead > 1e-12, behind < 1.0 - 1e-12
    none, all_ = np.zeros(len(joins)), np.ones(len(joins))
    piece = np.concatenate([joins, beside[first], beside[last]])
    # On a ring the vertex at the end is the one at the start.
    after = segment[last] + 1
    after = after % len(one.segments) if one.closed[0] else after
    vertex = np.concatenate([chain.vertex[joins], segment[first], after])
    low = np.concatenate([none, np.zeros(first.sum()), np.maximum(behind[last], 0.0)])
    high = np.concatenate([all_, np.minimum(ahead[first], 1.0), np.ones(last.sum())])
    return piece, vertex, low, high


def _by_segments(
    one: Lines,
    segment: np.ndarray,
    start: np.ndarray,
    step: np.ndarray,
    own: np.ndarray,
    offset: float,
    margin: float,
) -> list[tuple[np.ndarray, np.ndarray]]:
    """Return the intervals whose foot on a segment is nearer than their own vertex."""
    direction, length = one.segment_directions[segment], one.segment_lengths[segment]
    p, r = start - one.xy[segment], start - own
    u, du = (p * direction).sum(1), (step * direction).sum(1)
    v, dv = cross(direction, p), cross(direction, step)  # left +
    low, high = _both(_below(-u, -du), _below(u - length, du), _below(-v * offset, -dv * offset))
    # v^2 - |q - V|^2 < 0: concave, so true outside its two roots
    a = dv * dv - (step * step).sum(1)
    b = 2.0 * (v * dv - (r * step).sum(1))
    c = v * v - (r * r).sum(1) + margin
    flat = a > -1e-12 * (step * step).sum(1)
    square = b * b - 4.0 * a * c
    root = np.sqrt(np.maximum(square, 0.0))
    safe = np.where(flat, -1.0, a)
    one_root, other_root = (-b + root) / (2 * safe), (-b - root) / (2 * safe)
    always = square <= 0.0
    line_low, line_high = _below(c, b)
    upto = np.where(flat, line_high, np.where(always, np.inf, np.minimum(one_root, other_root)))
    onward = np.where(always, np.inf, np.maximum(one_root, other_root))
    onward = np.where(flat, np.inf, onward)
    begin = np.where(flat, np.maximum(low, line_low), low)
    return [(begin, np.minimum(high, upto)), (np.maximum(low, onward), high)]


def _by_vertices(
    one: Lines,
    corner: np.ndarray,
    start: np.ndarray,
    step: np.ndarray,
    own: np.ndarray,
    offset: float,
    margin: float,
) -> tuple[np.ndarray, np.ndarray]:
    """Return the interval that belongs to a vertex, nearer than to its own, on its other side."""
    into, out = (way[corner] for way in turns(one))
    p, r = start - one.xy[corner], start - own
    nearer = _below((p * p).sum(1) - (r * r).sum(1) + margin, 2.0 * (step * (p - r)).sum(1))
    pseudo = (right_normals(into) + right_normals(out)) * np.sign(offset)
    last = len(one.xy) - 1
    first_end = (corner == 0) & ~one.closed[0]
    last_end = (corner == last) & ~one.closed[0]
    # Ahead of an open end there is no side until a place is more beside it than beyond it, and
    # clearly so: the cut itself must not be in doubt.
    beyond = (last_end * 1.0 - first_end)[:, None] * into * 2.02
    facing = pseudo - beyond
    wrong = _below((p * facing).sum(1), (step * facing).sum(1))
    free = np.full(len(corner), -1.0), np.zeros(len(corner))  # an open end has no segment there
    after = [
        np.where(first_end, f, -(x * into).sum(1)) for f, x in zip(free, (p, step), strict=True)
    ]
    before = [np.where(last_end, f, (x * out).sum(1)) for f, x in zip(free, (p, step), strict=True)]
    return _both(nearer, wrong, _below(*after), _below(*before))


def _below(value: np.ndarray, slope: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return the interval of t where ``value + t slope`` is negative."""
    still = np.abs(slope) < 1e-14
    at = -value / np.where(still, 1.0, slope)
    always, never = still & (value < 0), still & (value >= 0)
    low = np.where((slope > 0) | always, -np.inf, at)
    high = np.where((slope < 0) | always, np.inf, at)
    return np.where(never, np.inf, low), np.where(never, -np.inf, high)


def _both(*intervals: tuple[np.ndarray, np.ndarray]) -> tuple[np.ndarray, np.ndarray]:
    """Return the common part of intervals."""
    low = np.maximum.reduce([interval[0] for interval in intervals])
    return low, np.minimum.reduce([interval[1] for interval in intervals])
