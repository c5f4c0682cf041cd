"""Parallels of lines that bend too tightly or cross themselves: what is left, exactly.

Of the raw chain (`chain`) all is cut away that lies nearer to the source than the offset. What
remains keeps its distance everywhere, and each part knows the source segment it came from. Runs
that meet again, as at the inside of a bend, are joined in a corner.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from .bundle import Lines
from .chain import Chain, clear_intervals, feet_of, raw_chain
from .corners import Corners
from .stations import elevation_at


@dataclass(frozen=True)
class Lost:
    """A stretch of a source line beside which no parallel runs.

    Parameters
    ----------
    line
        Index of the source line.
    start, stop
        Stations of the stretch; on a ring ``stop`` may lie before ``start``.
    joined
        True when the parallel goes on from one side of the stretch to the other in one corner.
    """

    line: int
    start: float
    stop: float
    joined: bool


@dataclass(frozen=True)
class Piece:
    """One connected parallel; arrays as in `parallel.Parallels`, for one piece."""

    xy: np.ndarray
    z: np.ndarray
    station: np.ndarray
    parent: np.ndarray
    closed: bool


def trimmed(
    lines: Lines, k: int, offset: float, corner: Corners, slack: float
) -> tuple[list[Piece], list[Lost]]:
    """Return the valid pieces of the parallel of line ``k`` and the stretches without one.

    Parameters
    ----------
    lines, k
        The bundle and the number of the source line in it.
    offset
        Signed offset, right +.
    corner
        Corner points of the whole bundle for the offsets in use.
    slack
        How much nearer than ``|offset|`` rounding may bring a point.
    """
    one = lines.take(np.array([k]))
    chain = raw_chain(lines, k, offset, corner)
    at, low, high = clear_intervals(one, chain, abs(offset) - slack)
    length = np.hypot(*(chain.stop - chain.start).T)
    # Slivers of a few slacks are rounding, not parallel.
    real = (high - low) * length[at] > 4 * slack
    at, low, high = at[real], low[real], high[real]
    if not len(at):
        return [], [Lost(k, 0.0, float(one.lengths[0]), False)]
    return _assemble(one, k, chain, (at, low, high), offset, slack)


@dataclass
class _Corner:
    """Where two runs meet."""

    xy: np.ndarray
    station: float
    z: float


def _assemble(
    one: Lines,
    k: int,
    chain: Chain,
    kept: tuple[np.ndarray, np.ndarray, np.ndarray],
    offset: float,
    slack: float,
) -> tuple[list[Piece], list[Lost]]:
    at, low, high = kept
    step = chain.stop - chain.start
    a = np.where((low == 0.0)[:, None], chain.start[at], chain.start[at] + low[:, None] * step[at])
    b = np.where((high == 1.0)[:, None], chain.stop[at], chain.start[at] + high[:, None] * step[at])
    foot_a, foot_b = feet_of(one, chain, at, a), feet_of(one, chain, at, b)
    zero = np.zeros(len(at), np.int64)
    z_a, z_b = elevation_at(one, zero, foot_a), elevation_at(one, zero, foot_b)
    # Only what stands square beside a source segment is parallel; a bare tip of a join is not.
    beside = (chain.parent[at] >= 0) & (foot_b - foot_a > slack)
    following = np.roll(at, -1)
    goes_on = (
        (high == 1.0)
        & (np.roll(low, -1) == 0.0)
        & chain.linked[at]
        & (following == (at + 1) % len(chain.parent))
    )
    ring = bool(one.closed[0])
    goes_on[-1] &= ring
    ends = np.flatnonzero(~goes_on)
    if not len(ends):  # the whole ring is there
        return [_row([_piece(chain.parent[at], (a, b), (foot_a, foot_b), (z_a, z_b))], True)], []
    begins = np.roll(ends, 1) + 1
    begins[0] = 0 if not ring else (ends[-1] + 1) % len(at)
    runs = []
    for begin, end in zip(begins, ends, strict=True):
        run = np.arange(begin, end + 1) if begin <= end else np.r_[begin : len(at), 0 : end + 1]
        if beside[run].any():
            runs.append(run)
    if not runs:
        return [], [Lost(k, 0.0, float(one.lengths[0]), False)]
    total = float(one.lengths[0])
    lost: list[Lost] = []
    if not ring and foot_a[runs[0][0]] > slack:
        lost.append(Lost(k, 0.0, float(foot_a[runs[0][0]]), False))
    meet: list[_Corner | None] = []
    for number in range(len(runs)):
        after = (number + 1) % len(runs)
        if after == 0 and not ring:
            break
        i, j = runs[number][-1], runs[after][0]
        corner = None
        for tail, head in _tips(runs[number], runs[after], beside):
            corner = _meeting(one, chain, (at, a, b), tail, head, offset, slack)
            if corner is not None:
                runs[number] = _until(runs[number], tail)
                runs[after] = _from(runs[after], head)
                b[tail], a[head] = corner.xy, corner.xy
                break
        meet.append(corner)
        if corner is None or _skips(one, chain, at[i], at[j], ring):
            lost.append(Lost(k, float(foot_b[i]), float(foot_a[j]), corner is not None))
    if not ring:
        meet.append(None)
        if foot_b[runs[-1][-1]] < total - slack:
            lost.append(Lost(k, float(foot_b[runs[-1][-1]]), total, False))
    pieces = _pieces(chain, at, runs, meet, (a, b), (foot_a, foot_b), (z_a, z_b), total)
    return pieces, lost


def _tips(run: np.ndarray, following: np.ndarray, beside: np.ndarray) -> Iterator[tuple[int, int]]:
    """Yield the pairs of intervals at which a run may meet the next one.

    Tips of joins may overshoot the meeting, so all intervals after the last one that is parallel
    to the source come into question; the shortest cut comes first.
    """
    last = np.flatnonzero(beside[run])[-1]
    first = np.flatnonzero(beside[following])[0]
    itself = run is following  # a ring of one run: neighbours in it meet anyway
    for tail in range(len(run) - 1, last - 1, -1):
        for head in range(first + 1):
            if not itself or tail - head > 1:
                yield int(run[tail]), int(following[head])


def _until(run: np.ndarray, tail: int) -> np.ndarray:
    return run[: int(np.flatnonzero(run == tail)[-1]) + 1]


def _from(run: np.ndarray, head: int) -> np.ndarray:
    return run[int(np.flatnonzero(run == head)[0]) :]


def _skips(one: Lines, chain: Chain, i: int, j: int, ring: bool) -> bool:
    """Tell whether a whole source segment lies between two pieces of the chain."""
    count = len(one.segments)
    before = chain.parent[i] if chain.parent[i] >= 0 else chain.vertex[i] - 1
    after = chain.parent[j] if chain.parent[j] >= 0 else chain.vertex[j]
    return bool((after - before) % count > 1 if ring else after - before > 1)


def _meeting(
    one: Lines,
    chain: Chain,
    kept: tuple[np.ndarray, np.ndarray, np.ndarray],
    i: int,
    j: int,
    offset: float,
    slack: float,
) -> _Corner | None:
    """Return the corner where kept interval ``i`` meets the next one ``j``, if they meet."""
    at, a, b = kept
    d, e = chain.stop[at[i]] - chain.start[at[i]], chain.stop[at[j]] - chain.start[at[j]]
    d, e = d / np.hypot(*d), e / np.hypot(*e)
    cross = d[0] * e[1] - d[1] * e[0]
    if abs(cross) < 1e-7:
        gap = a[j] - b[i]
        aside, ahead = d[0] * gap[1] - d[1] * gap[0], float(gap @ d)
        if abs(aside) > 8 * slack or d @ e < 0 or ahead > 1e-3 * abs(offset):
            return None
        # One must take over from the other: neither may lie within it.
        if (a[j] - a[i]) @ d < 0 or (b[j] - b[i]) @ d < 0:
            return None
        place = (a[j] + b[i]) / 2.0
    else:
        gap = a[j] - b[i]
        over = 4 * slack / abs(cross) + 4 * slack
        ahead = (gap[0] * e[1] - gap[1] * e[0]) / cross  # from the end of i on to the meeting
        behind = (gap[0] * d[1] - gap[1] * d[0]) / cross  # from the start of j on to the meeting
        if not over - np.hypot(*(b[i] - a[i])) <= ahead <= over:
            return None
        if not -over <= behind <= np.hypot(*(b[j] - a[j])) - over:
            return None
        place = b[i] + ahead * d
    pair = np.array([place, place])
    feet = feet_of(one, chain, at[[i, j]], pair)
    z = elevation_at(one, np.zeros(2, np.int64), feet)
    if at[j] < at[i]:  # over the start of a ring
        feet[1] += one.lengths[0]
    return _Corner(place, float(feet.mean()), float(z.mean()))


def _pieces(
    chain: Chain,
    at: np.ndarray,
    runs: list[np.ndarray],
    meet: list[_Corner | None],
    ends: tuple[np.ndarray, np.ndarray],
    feet: tuple[np.ndarray, np.ndarray],
    heights: tuple[np.ndarray, np.ndarray],
    total: float,
) -> list[Piece]:
    """Join runs that meet and make a piece of each row of runs."""
    breaks = [n for n, corner in enumerate(meet) if corner is None]
    closed = not breaks
    pieces: list[Piece] = []
    parts: list[Piece] = []
    lift = 0.0  # stations run on past the start of a ring
    for step in range(len(runs)):
        n = (breaks[-1] + 1 + step) % len(runs) if breaks else step
        rows = runs[n]
        before = meet[n - 1] if parts or closed else None
        lifted = lift + total * np.cumsum(np.diff(at[rows], prepend=at[rows[0]]) < 0)
        own = (ends[0][rows], ends[1][rows])
        on = (feet[0][rows] + lifted, feet[1][rows] + lifted)
        up = (heights[0][rows], heights[1][rows])
        part = _piece(chain.parent[at[rows]], own, on, up)
        if before is not None:
            part.xy[0], part.z[0] = before.xy, before.z
            over = total * bool(at[rows[0]] < at[runs[n - 1][-1]])
            part.station[0] = parts[-1].station[-1] if parts else before.station - over
        lift = float(lifted[-1])
        after = meet[n]
        if after is not None:
            part.xy[-1], part.z[-1], part.station[-1] = after.xy, after.z, after.station + lift
            lift += total * bool(at[runs[(n + 1) % len(runs)][0]] < at[rows[-1]])
        parts.append(part)
        if after is None or (closed and step == len(runs) - 1):
            pieces.append(_row(parts, closed))
            parts, lift = [], 0.0
    return pieces


def _row(parts: list[Piece], closed: bool) -> Piece:
    """Return pieces that meet end to start as one piece."""
    *rest, last = parts
    xy = np.concatenate([p.xy[:-1] for p in rest] + [last.xy])
    z = np.concatenate([p.z[:-1] for p in rest] + [last.z])
    station = np.concatenate([p.station[:-1] for p in rest] + [last.station])
    parent = np.concatenate([p.parent[:-1] for p in rest] + [last.parent])
    if closed:
        xy[-1], z[-1] = xy[0], z[0]
    return Piece(xy, z, station, parent, closed)


def _piece(
    parents: np.ndarray,
    ends: tuple[np.ndarray, np.ndarray],
    feet: tuple[np.ndarray, np.ndarray],
    heights: tuple[np.ndarray, np.ndarray],
) -> Piece:
    """Return one run of intervals, each starting where the one before ends, as a piece."""
    xy = np.vstack([ends[0][:1], ends[1]])
    station = np.concatenate([feet[0][:1], feet[1]])
    z = np.concatenate([heights[0][:1], heights[1]])
    return Piece(xy, z, station, np.concatenate([parents, [-1]]), False)
