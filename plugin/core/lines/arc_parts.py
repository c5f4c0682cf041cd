"""Parallels with true arcs: what was laid beside the chords of an arc becomes one arc again.

Its centre is that of the source, its radius that of the source and the offset, exactly. Where an
arc goes on in its tangent, its parallel ends square to its own end. At the inner side of a corner
the parallels of both neighbours end where they meet, in closed form; at the outer side an arc ends
square to its own end, and the corner is laid on its tangent there, not on its last chord.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from ..vectors import dot
from .arcs import Arcs
from .bundle import Lines
from .corners import JoinStyle, corner_points
from .meet import Circle, Course, Straight, meet

TANGENT = 3e-4
"""Turn between an arc and its neighbour up to which it goes on in its tangent, radians: the
distance errs by half its square."""
JOIN = -2
"""Run of a join; -1 is one of straight segments, and others are arcs."""
SAME = 1e-9
"""Difference of heights and stations up to which they are the same."""

Part = tuple[str, np.ndarray]
"""``("line", (n, c))`` or ``("arc", (3, c))``: coordinates in plan first, then others."""


@dataclass(frozen=True)
class Curved:
    """A piece of a parallel with its arcs.

    Parameters
    ----------
    parts
        Each starts where the one before ends.
    beside
        Arc of the source that each part is parallel to, -1 for straight parts.
    chords
        How many stretches beside arcs stay chords, since rounding has left them without length.
    """

    parts: list[Part]
    beside: list[int]
    chords: int


def with_arcs(
    rows: np.ndarray,
    parent: np.ndarray,
    lines: Lines,
    arcs: Arcs,
    offset: float,
    style: JoinStyle,
    *,
    closed: bool = False,
) -> Curved:
    """Return a piece of a parallel with its true arcs.

    Parameters
    ----------
    rows : (n, c) float
        The piece: x, y and what else goes with each vertex (height, station).
    parent : (n,) int
        Source segment that the segment starting at each vertex is parallel to, -1 in a join.
    lines, arcs
        The sources and their arcs.
    offset
        Signed offset, right +.
    style
        How corners are joined.
    closed
        Whether the piece is a ring.
    """
    return _Piece(rows, parent, lines, arcs, offset, style, closed).curved()


@dataclass(frozen=True)
class _Run:
    """Rows ``first .. last`` beside one arc, or beside straight segments."""

    first: int
    last: int
    key: int


class _Piece:
    """One piece, taken apart into runs and put together again at exact junctions."""

    def __init__(
        self,
        rows: np.ndarray,
        parent: np.ndarray,
        lines: Lines,
        arcs: Arcs,
        offset: float,
        style: JoinStyle,
        closed: bool,
    ) -> None:
        self.lines, self.arcs, self.offset, self.style = lines, arcs, offset, style
        self.closed = closed
        self.rows, self.parent = _without_feet(rows, parent, lines, arcs)
        # A station may be off by as much as a chord is; heights, the other columns, by less.
        self.tolerance = np.append(np.full(rows.shape[1] - 3, 0.1 * style.chord), style.chord)
        # What the station of a ring goes on by where it passes its start.
        self.over = self.rows[-1, 2:] - self.rows[0, 2:]
        parent = self.parent
        own = arcs.of_segment[np.maximum(parent[:-1], 0)]
        radius = np.array([self.radius(arc) for arc in range(len(arcs))])
        fits = (own >= 0) & (radius[np.maximum(own, 0)] > 0.0)
        key = np.where(parent[:-1] < 0, JOIN, np.where(fits, own, -1))
        starts = np.flatnonzero(np.diff(key, prepend=JOIN - 1) != 0)
        stops = np.append(starts[1:], len(key))
        every = [_Run(int(a), int(b), int(key[a])) for a, b in zip(starts, stops, strict=True)]
        self.runs = [run for run in every if run.key != JOIN]
        self.shrunk = int((np.diff((own >= 0) & ~fits & (parent[:-1] >= 0), prepend=False) > 0).sum())  # noqa: E501  # fmt: skip

    def radius(self, arc: int) -> float:
        """Return the radius of the parallel of an arc."""
        return float(self.arcs.radius[arc] - self.arcs.sense[arc] * self.offset)

    def curved(self) -> Curved:
        """Return the piece with its arcs."""
        if not self.runs:
            return Curved([("line", self.rows)], [-1], self.shrunk)
        runs = self.runs
        between = [self._junction(a, b) for a, b in pairwise(runs)]
        head, tail = self._ends()
        parts = _Parts()
        start = head[-1]
        parts.line(head)
        for number, run in enumerate(runs):
            after = between[number] if number < len(between) else tail
            if run.key < 0:
                own = self.rows[run.first : run.last + 1].copy()
                own[0], own[-1] = start, after[0]
                parts.line(own)
            else:
                for part, begin, end in self._even(run, start, after[0]):
                    parts.arc(self._three(part, begin, end), run.key, begin, end)
            parts.line(after)
            start = after[-1]
        return Curved(parts.parts, parts.beside, parts.chords + self.shrunk)

    def _ends(self) -> tuple[np.ndarray, np.ndarray]:
        """Return the rows before the first run and after the last one."""
        first, last = self.runs[0], self.runs[-1]
        if not self.closed:
            before = self._loose(first, -1)[::-1]
            return before, self._loose(last, 1)
        corner = self._junction(last, first)
        early = corner[:, -1] < self.rows[last.last, -1] - self.over[-1] / 2.0
        corner[early, 2:] += self.over
        # A ring starts at the first point of its corner; an arc before it ends square, first.
        start = 1 if last.key >= 0 and len(corner) > 1 else 0
        tail, head = corner[: start + 1].copy(), corner[start:].copy()
        head[:, 2:] -= self.over
        return head, tail

    def _loose(self, run: _Run, towards: int) -> np.ndarray:
        """Return the rows from the end of a run to the end of the piece, where no other follows."""
        at = run.last if towards > 0 else run.first
        rest = self.rows[at:] if towards > 0 else self.rows[: at + 1][::-1]
        if run.key < 0:
            return rest
        segment = int(self.parent[at - 1] if towards > 0 else self.parent[at])
        course, laid = self.course(segment), self.rows[at, :2]
        end = self._arc_end(segment, towards)
        if end is not None:
            square = course.nearest(end)
            if self._is_open_end(segment, towards):
                return self.row(at, square)[None]
            off, inward = square - laid, self.rows[at - towards, :2] - laid
            if off @ inward > 0.0 or len(rest) > 1:
                return np.vstack((self.row(at, square), rest))  # the tip of a corner beyond it
        return self.row(at, course.nearest(laid))[None]

    def _junction(self, one: _Run, other: _Run) -> np.ndarray:
        """Return the rows from the end of one run to the start of the next, both included."""
        at, on = one.last, other.first
        around = on < at  # over the start of a ring
        laid = self.rows[at : on + 1]
        if around:
            laid = np.vstack((self.rows[at:], self.rows[1 : on + 1]))
            laid[len(self.rows) - at :, 2:] += self.over
        if one.key < 0 and other.key < 0:
            return laid
        a, b = int(self.parent[at - 1]), int(self.parent[on])
        first, second = self.course(a), self.course(b)
        if self._follows(a, b):
            vertex = self.lines.xy[self.lines.segments[a] + 1]
            into, out = self._direction(a, vertex), self._direction(b, vertex)
            turn = into[0] * out[1] - into[1] * out[0]
            if abs(turn) <= TANGENT and into @ out > 0.0:
                course = first if one.key >= 0 else second
                return self.row(at, course.nearest(vertex))[None]
            if turn * self.offset > 0.0 or (into @ out < 0.0 and len(laid) > 1):
                places = [*self._corner(vertex, into, out)]
                places[:0] = [first.nearest(vertex)] if one.key >= 0 else []
                places += [second.nearest(vertex)] if other.key >= 0 else []
                return self._round(laid, np.array(places))
        elif len(laid) > 1:  # a corner whose tip has been cut, and what it meets
            head = self._loose_end(one, 1, first)
            foot = self._loose_end(other, -1, second)
            return np.vstack((head, laid[1:-1], foot))
        found = meet(first, second, laid[0, :2])
        if found is not None and np.hypot(*(found - laid[0, :2])) <= 0.1 * abs(self.offset):
            return self.row(at, found)[None]
        return np.array([self.row(at, first.nearest(laid[0, :2])), self.row(on, second.nearest(laid[-1, :2]))])  # noqa: E501  # fmt: skip

    def _round(self, laid: np.ndarray, places: np.ndarray) -> np.ndarray:
        """Return the places round a corner, with heights and stations as on the laid way round."""
        if len(laid) == 1:
            return np.column_stack((places, np.tile(laid[0, 2:], (len(places), 1))))
        known, share = (_shares(xy) for xy in (laid[:, :2], places))
        at = _knots(known, laid[:, 2:], self.tolerance)[1:-1]
        every = np.sort(np.concatenate((share, known[at])))
        columns = [np.interp(every, share, own) for own in places.T]
        columns += [np.interp(every, known, own) for own in laid[:, 2:].T]
        return np.column_stack(columns)

    def _loose_end(self, run: _Run, towards: int, course: Course) -> np.ndarray:
        at = run.last if towards > 0 else run.first
        laid = self.rows[at]
        square = course.nearest(laid[:2])
        if run.key < 0 or np.hypot(*(square - laid[:2])) <= self.style.chord:
            return self.row(at, square)[None]
        pair = np.vstack((self.row(at, square), laid))
        return pair if towards > 0 else pair[::-1]

    def _corner(self, vertex: np.ndarray, into: np.ndarray, out: np.ndarray) -> np.ndarray:
        signed = np.array([self.offset])
        points, _, _ = corner_points(vertex[None], into[None], out[None], signed, self.style)
        return points

    def course(self, segment: int) -> Course:
        """Return what the parallel of a segment, or of its arc, lies on."""
        arc = int(self.arcs.of_segment[segment])
        if arc >= 0 and self.radius(arc) > 0.0:
            return Circle(self.arcs.centre[arc], self.radius(arc))
        way = self.lines.segment_directions[segment]
        start = self.lines.xy[self.lines.segments[segment]]
        return Straight(start + self.offset * np.array([way[1], -way[0]]), way)

    def _direction(self, segment: int, vertex: np.ndarray) -> np.ndarray:
        arc = int(self.arcs.of_segment[segment])
        if arc >= 0:
            return self.arcs.tangent(arc, vertex)
        return self.lines.segment_directions[segment]

    def _follows(self, segment: int, other: int) -> bool:
        """Tell whether one segment of the source comes right after another."""
        line = int(self.lines.segment_owner[segment])
        if segment + 1 < self.lines.first_segment[line + 1]:
            return other == segment + 1
        return bool(self.lines.closed[line]) and other == self.lines.first_segment[line]

    def _arc_end(self, segment: int, towards: int) -> np.ndarray | None:
        """Return the vertex of a segment that is the end of its arc; None inside the arc."""
        of, other = self.arcs.of_segment, segment + towards
        first = self.lines.first_segment
        line = self.lines.segment_owner[segment]
        if first[line] <= other < first[line + 1] and of[other] == of[segment]:
            return None
        return self.lines.xy[self.lines.segments[segment] + (1 if towards > 0 else 0)]

    def _is_open_end(self, segment: int, towards: int) -> bool:
        """Tell whether an open line ends with a segment."""
        line = int(self.lines.segment_owner[segment])
        first, after = self.lines.first_segment[line], self.lines.first_segment[line + 1]
        return not self.lines.closed[line] and segment == (after - 1 if towards > 0 else first)

    def row(self, at: int, place: np.ndarray) -> np.ndarray:
        """Return a place with what else goes with a vertex."""
        return np.concatenate((place, self.rows[at, 2:]))

    def _even(
        self, run: _Run, start: np.ndarray, stop: np.ndarray
    ) -> Iterator[tuple[_Run, np.ndarray, np.ndarray]]:
        """Return the stretches of an arc along which heights and stations run evenly."""
        course = Circle(self.arcs.centre[run.key], self.radius(run.key))
        own = self.rows[run.first : run.last + 1].copy()
        own[0], own[-1] = start, stop
        heading = np.unwrap(np.arctan2(*(own[:, 1::-1] - course.centre[::-1]).T))
        at = _knots(heading, own[:, 2:], self.tolerance)
        places = [self.row(run.first + n, course.nearest(own[n, :2])) for n in at[1:-1]]
        ends = [start, *places, stop]
        for (a, b), (begin, end) in zip(pairwise(at), pairwise(ends), strict=True):
            yield _Run(run.first + a, run.first + b, run.key), begin, end

    def _three(self, run: _Run, start: np.ndarray, stop: np.ndarray) -> np.ndarray | None:
        """Return start, a point half way round, and stop of an arc; None if it has no length."""
        centre, sense = self.arcs.centre[run.key], float(self.arcs.sense[run.key])
        own = self.rows[run.first : run.last + 1]

        def angle(places: np.ndarray) -> np.ndarray:
            """Return angles run through since the middle of what was laid."""
            to = places[..., :2] - centre
            seen = -sense * (np.arctan2(to[..., 1], to[..., 0]) - middle)
            return (seen + np.pi) % (2.0 * np.pi) - np.pi

        middle = 0.0
        heading = np.unwrap(np.arctan2(*(own[:, 1::-1] - centre[::-1]).T))
        middle = (heading[0] + heading[-1]) / 2.0
        if abs(heading[-1] - heading[0]) > 1.9 * np.pi:  # a full circle, or all but one
            low, high = -np.pi, np.pi
        else:
            low, high = float(angle(start)), float(angle(stop))
        if high - low <= 0.0:
            return None
        half = (low + high) / 2.0
        turned = middle - sense * half
        place = centre + self.radius(run.key) * np.array([np.cos(turned), np.sin(turned)])
        rest = (start[2:] + stop[2:]) / 2.0
        return np.stack((start, np.concatenate((place, rest)), stop))


def _without_feet(
    rows: np.ndarray, parent: np.ndarray, lines: Lines, arcs: Arcs
) -> tuple[np.ndarray, np.ndarray]:
    """Return a piece without the feet of outer corners beside arcs.

    An arc ends square to its own end, with the station of the corner: that is its foot. What is
    left of a corner where the rest beside its arc was cut away is not beside the arc.
    """
    if not len(arcs):
        return rows, parent
    beside = (parent[:-1] >= 0) & (arcs.of_segment[np.maximum(parent[:-1], 0)] >= 0)
    row = np.flatnonzero(beside)
    chord = parent[row]
    way, origin = lines.segment_directions[chord], lines.xy[lines.segments[chord]]
    ends = [dot(rows[row + n, :2] - origin, way) for n in (0, 1)]
    length, least = lines.segment_lengths[chord], 1e-6 * lines.segment_lengths[chord]
    # Between two chords of one arc what lies beyond their ends is beside the arc all the same.
    of = np.concatenate(([-1], arcs.of_segment, [-1]))
    first, last = of[chord] != of[chord + 1], of[chord + 2] != of[chord + 1]
    before = first & (np.maximum(*ends) <= least)
    parent = parent.copy()
    parent[row[before | last & (np.minimum(*ends) >= length - least)]] = -1
    beside = (parent[:-1] >= 0) & beside
    foot = np.zeros(len(rows), bool)
    like = (np.abs(rows[1:, 2:] - rows[:-1, 2:]) <= SAME).all(axis=1)
    foot[1:-1] = (parent[1:-1] == parent[:-2]) & beside[1:] & (like[1:] | like[:-1])
    return rows[~foot], parent[~foot]


def _shares(xy: np.ndarray) -> np.ndarray:
    """Return how much of the whole way lies before each vertex."""
    way = np.append(0.0, np.hypot(*np.diff(xy, axis=0).T).cumsum())
    return way / max(float(way[-1]), 1e-300)


def _knots(place: np.ndarray, values: np.ndarray, tolerance: np.ndarray) -> list[int]:
    """Return between which rows values run evenly with the place, each to its tolerance."""
    share = (place - place[0]) / (place[-1] - place[0]) if place[-1] != place[0] else 0.0 * place
    off = np.abs(values - values[0] - share[:, None] * (values[-1] - values[0])) / tolerance
    off = off.max(axis=1)
    n, last = int(off.argmax()), len(place) - 1
    if off[n] <= 1.0 or n in (0, last):
        return [0, last]
    after = _knots(place[n:], values[n:], tolerance)
    return _knots(place[: n + 1], values[: n + 1], tolerance) + [n + m for m in after[1:]]


class _Parts:
    """Parts in the making: neighbouring lines become one, and nothing without length stays."""

    def __init__(self) -> None:
        self.parts: list[Part] = []
        self.beside: list[int] = []
        self.chords = 0

    def line(self, rows: np.ndarray) -> None:
        """Add vertices of a line, which start where the part before ends."""
        if self.parts and self.parts[-1][0] == "line":
            rows = np.vstack((self.parts.pop()[1], rows))
            self.beside.pop()
        moves = np.append(True, (np.diff(rows[:, :2], axis=0) != 0.0).any(axis=1))
        rows = rows[moves]
        if len(rows) > 1:
            self.parts.append(("line", rows))
            self.beside.append(-1)

    def arc(self, rows: np.ndarray | None, arc: int, start: np.ndarray, stop: np.ndarray) -> None:
        """Add an arc, or what stands for one without length."""
        if rows is None:
            self.chords += 1
            self.line(np.stack((start, stop)))
            return
        self.parts.append(("arc", rows))
        self.beside.append(arc)
