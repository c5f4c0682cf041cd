"""Parallels of lines that bend too tightly or cross themselves: what is left, exactly.

Of the raw chain (`chain`) all is cut away that lies nearer to the source than the offset, and all
tips of corners that reach to the other side of another part of the line (`tips`). What remains
keeps its distance and its side everywhere, and knows the source segment it came from. Runs
that meet again, as at the inside of a bend, are joined in a corner.
"""

import math
from dataclasses import dataclass

import numpy as np

from .bundle import Lines
from .chain import Chain, clear_intervals, feet_of, raw_chain
from .corners import Corners
from .stations import elevation_at
from .tips import misplaced

SHORTEST = 0.01
"""Stretches beside the source shorter than this share of the offset are no parallel: where a line
all but doubles back on itself, rounding leaves such bits on either side."""


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
    astray = misplaced(one, chain, offset, slack)
    at, low, high = clear_intervals(one, chain, abs(offset) - slack, astray)
    length = np.hypot(*(chain.stop - chain.start).T)
    # Slivers of a few slacks are rounding, not parallel.
    real = (high - low) * length[at] > 4 * slack
    at, low, high = at[real], low[real], high[real]
    if not len(at):
        return [], [Lost(k, 0.0, float(one.lengths[0]), False)]
    return _assemble(_Runs(one, chain, (at, low, high), slack), k, offset)


class _Runs:
    """The kept intervals of one chain: their ends with stations and heights, joined as they meet.

    Plain lists of numbers, since ends are looked at one by one.
    """

    def __init__(
        self,
        one: Lines,
        chain: Chain,
        kept: tuple[np.ndarray, np.ndarray, np.ndarray],
        slack: float,
    ) -> None:
        self.one, self.chain, self.slack = one, chain, slack
        self.at, low, high = kept
        at, step = self.at, chain.stop - chain.start
        begin = chain.start[at] + low[:, None] * step[at]
        end = chain.start[at] + high[:, None] * step[at]
        self.a = np.where((low == 0.0)[:, None], chain.start[at], begin)
        self.b = np.where((high == 1.0)[:, None], chain.stop[at], end)
        zero = np.zeros(len(at), np.int64)
        self.foot_a, self.foot_b = feet_of(one, chain, at, self.a), feet_of(one, chain, at, self.b)
        self.z_a = elevation_at(one, zero, self.foot_a)
        self.z_b = elevation_at(one, zero, self.foot_b)
        # Only what stands square beside a source segment is parallel; a tip of a join is not.
        self.beside = (chain.parent[at] >= 0) & (self.foot_b - self.foot_a > slack)
        self.total = float(one.lengths[0])
        self.ring = bool(one.closed[0])
        goes_on = (
            (high == 1.0)
            & (np.roll(low, -1) == 0.0)
            & chain.linked[at]
            & (np.roll(at, -1) == (at + 1) % len(chain.parent))
        )
        goes_on[-1] &= self.ring
        self.meetings: list[tuple[int, int]] = []
        self.ends = np.flatnonzero(~goes_on)

    def runs(self) -> list[list[int]]:
        """Return the runs of intervals, each starting where the one before ends."""
        count, ends = len(self.at), self.ends.tolist()
        begins = [(end + 1) % count for end in [ends[-1], *ends[:-1]]]
        if not self.ring:
            begins[0] = 0
        result = []
        for begin, end in zip(begins, ends, strict=True):
            tail = [*range(begin, count), *range(end + 1)]
            run = list(range(begin, end + 1)) if begin <= end else tail
            if self.length(run) > 0.0:
                result.append(run)
        return result

    def length(self, run: list[int]) -> float:
        """Return the length of the source beside which a run lies."""
        return float((self.foot_b - self.foot_a)[run][self.beside[run]].sum())

    def join(self, run: list[int], following: list[int], offset: float) -> bool:
        """Join the end of a run with the start of the next one in a corner, if they meet.

        Tips of joins may overshoot the meeting, so all intervals after the last one that is
        parallel to the source come into question; the shortest cut comes first.
        """
        beside = self.beside
        last = max(n for n, k in enumerate(run) if beside[k])
        first = min(n for n, k in enumerate(following) if beside[k])
        itself = run is following  # a ring of one run: neighbours in it meet anyway
        for tail in range(len(run) - 1, last - 1, -1):
            for head in range(first + 1):
                if itself and tail - head <= 1:
                    continue
                i, j = run[tail], following[head]
                place = None if i == j else self._meeting(i, j, offset)
                if place is not None:
                    self.b[i], self.a[j] = place, place
                    self.meetings.append((i, j))
                    del run[tail + 1 :]
                    del following[:head]
                    return True
        return False

    def _meeting(self, i: int, j: int, offset: float) -> tuple[float, float] | None:
        """Return the place where interval ``i`` ends and ``j`` starts, if they meet."""
        (ax, ay), (bx, by) = self.a[i].tolist(), self.b[i].tolist()
        (px, py), (qx, qy) = self.a[j].tolist(), self.b[j].tolist()
        size, other = math.hypot(bx - ax, by - ay), math.hypot(qx - px, qy - py)
        if min(size, other) == 0.0:
            return None
        dx, dy = (bx - ax) / size, (by - ay) / size
        ex, ey = (qx - px) / other, (qy - py) / other
        gx, gy = px - bx, py - by  # from the end of i to the start of j
        cross = dx * ey - dy * ex
        if abs(cross) < 1e-7:
            aside, ahead = dx * gy - dy * gx, gx * dx + gy * dy
            if abs(aside) > 8 * self.slack or dx * ex + dy * ey < 0 or ahead > 1e-3 * abs(offset):
                return None
            # One must take over from the other: neither may lie within it.
            if (px - ax) * dx + (py - ay) * dy < 0 or (qx - bx) * dx + (qy - by) * dy < 0:
                return None
            return (px + bx) / 2.0, (py + by) / 2.0
        over = 4 * self.slack / abs(cross) + 4 * self.slack
        ahead = (gx * ey - gy * ex) / cross  # from the end of i on to the meeting
        behind = (gx * dy - gy * dx) / cross  # from the start of j on to the meeting
        if over - size <= ahead <= over and -over <= behind <= other - over:
            return bx + ahead * dx, by + ahead * dy
        return None

    def settle(self) -> None:
        """Give the meetings their stations and heights: the means of those at the two feet."""
        if not self.meetings:
            return
        i, j = np.array(self.meetings).T
        place = self.b[i]
        feet = [feet_of(self.one, self.chain, self.at[k], place) for k in (i, j)]
        zero = np.zeros(len(i), np.int64)
        z = sum(elevation_at(self.one, zero, foot) for foot in feet) / 2.0
        around = self.total * (self.at[j] < self.at[i])  # over the start of a ring
        station = (feet[0] + feet[1] + around) / 2.0
        self.foot_b[i], self.foot_a[j] = station, station - around
        self.z_b[i], self.z_a[j] = z, z

    def piece(self, rows: list[int], closed: bool) -> Piece:
        """Return intervals that follow each other as one piece."""
        at = self.at[rows]
        # Stations run on past the start of a ring.
        lift = self.total * np.cumsum(np.diff(at, prepend=at[0]) < 0)
        head = rows[0]
        xy = np.vstack([self.a[head], self.b[rows]])
        z = np.concatenate([[self.z_a[head]], self.z_b[rows]])
        station = np.concatenate([[self.foot_a[head]], self.foot_b[rows] + lift])
        if closed:
            xy[-1], z[-1] = xy[0], z[0]
        return Piece(xy, z, station, np.concatenate([self.chain.parent[at], [-1]]), closed)

    def skips(self, i: int, j: int) -> bool:
        """Tell whether a whole source segment lies between two intervals."""
        chain, before, after = self.chain, self.at[i], self.at[j]
        last = chain.parent[before] if chain.parent[before] >= 0 else chain.vertex[before] - 1
        first = chain.parent[after] if chain.parent[after] >= 0 else chain.vertex[after]
        gap = first - last
        return bool((gap % len(self.one.segments) if self.ring else gap) > 1)


def _assemble(runs: _Runs, k: int, offset: float) -> tuple[list[Piece], list[Lost]]:
    """Join the runs of line ``k`` that meet, and list what is lost between them."""
    if not len(runs.ends):  # the whole ring is there
        return [runs.piece(list(range(len(runs.at))), True)], []
    rows, total = runs.runs(), runs.total
    if not rows:
        return [], [Lost(k, 0.0, total, False)]
    joints = _joints(runs, rows, offset)
    kept = _long_enough(runs, rows, joints, offset)
    if not kept:
        return [], [Lost(k, 0.0, total, False)]
    if len(kept) < len(rows):  # what is left may meet where a short run was in the way
        following = kept[1:] + kept[:1]
        known = {
            place: joints[n]
            for place, (n, m) in enumerate(zip(kept, following, strict=True))
            if m == (n + 1) % len(rows) and n < len(joints)
        }
        rows = [rows[n] for n in kept]
        joints = _joints(runs, rows, offset, known)
    lost: list[Lost] = []
    if not runs.ring and runs.foot_a[rows[0][0]] > runs.slack:
        lost.append(Lost(k, 0.0, float(runs.foot_a[rows[0][0]]), False))
    for joint in joints:
        if not joint.joined or joint.skips:
            stop = joint.stop % total if joint.stop < 0 else joint.stop
            lost.append(Lost(k, joint.start, stop, joint.joined))
    joined = [joint.joined for joint in joints]
    if not runs.ring:
        joined.append(False)
        if runs.foot_b[rows[-1][-1]] < total - runs.slack:
            lost.append(Lost(k, float(runs.foot_b[rows[-1][-1]]), total, False))
    runs.settle()
    return _groups(runs, rows, joined), lost


@dataclass(frozen=True)
class _Joint:
    """Between two runs: whether they meet, and the stations and whole segments between them."""

    joined: bool
    start: float
    stop: float
    skips: bool


def _joints(
    runs: _Runs, rows: list[list[int]], offset: float, known: dict[int, _Joint] | None = None
) -> list[_Joint]:
    """Join each run with the next where they meet; on a ring the last one with the first."""
    result = []
    for number, run in enumerate(rows if runs.ring else rows[:-1]):
        if known and number in known:
            result.append(known[number])
            continue
        following = rows[(number + 1) % len(rows)]
        i, j = run[-1], following[0]
        start, stop = float(runs.foot_b[i]), float(runs.foot_a[j])
        meets = runs.join(run, following, offset)
        result.append(_Joint(meets, start, stop, runs.skips(i, j)))
    return result


def _long_enough(
    runs: _Runs, rows: list[list[int]], joints: list[_Joint], offset: float
) -> list[int]:
    """Return which runs belong to a piece that is no mere bit."""
    count = len(rows)
    group, number = np.zeros(count, np.int64), 0
    for n in range(1, count):
        number += not joints[n - 1].joined
        group[n] = number
    if runs.ring and joints[-1].joined:
        group[group == number] = 0
    size = np.bincount(group, [runs.length(run) for run in rows])
    return np.flatnonzero(size[group] > SHORTEST * abs(offset)).tolist()


def _groups(runs: _Runs, rows: list[list[int]], joined: list[bool]) -> list[Piece]:
    """Make a piece of each row of joined runs."""
    closed = all(joined)
    first = 0 if closed else len(joined) - joined[::-1].index(False)
    pieces: list[Piece] = []
    group: list[int] = []
    for step in range(len(rows)):
        n = (first + step) % len(rows)
        group += rows[n]
        if not joined[n] or (closed and step == len(rows) - 1):
            pieces.append(runs.piece(group, closed))
            group = []
    return pieces
