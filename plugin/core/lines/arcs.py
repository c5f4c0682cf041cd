"""True arcs: which segments of a line stand for one, and the arcs of its parallels.

Lines are worked on as chords whose vertices lie on the arcs. What was laid beside the chords of one
arc is given back as one arc about the same centre: its radius is that of the source and the offset,
exactly. Where an arc goes on in its tangent, its parallel ends square to its own end. At the inner
side of a corner it ends where it meets the parallel of the neighbour, in closed form; at the outer
side it ends square to its own end, and the tip of the corner follows.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from .bundle import Lines

TANGENT = 1e-3
"""Turn between an arc and its neighbour up to which it goes on in its tangent, radians."""
FEWEST = 2
"""Chords from which a run is an arc again."""

Rows = np.ndarray


@dataclass(frozen=True)
class Arcs:
    """The arcs in a bundle of lines.

    Parameters
    ----------
    of_segment : (s,) int
        Arc of each segment of the bundle, -1 for a straight one.
    centre : (a, 2) float
        Centre of each arc.
    radius : (a,) float
        Its radius.
    sense : (a,) int
        +1 where it turns to the right, -1 to the left.
    """

    of_segment: np.ndarray
    centre: np.ndarray
    radius: np.ndarray
    sense: np.ndarray

    def __len__(self) -> int:
        """Return the number of arcs."""
        return len(self.radius)

    def ends(self, lines: Lines) -> np.ndarray:
        """Tell at which vertices of the lines an arc begins or ends, (n,) bool."""
        found = np.zeros(len(lines.xy), bool)
        chord = np.flatnonzero(self.of_segment >= 0)
        arc = self.of_segment[chord]
        first = np.diff(arc, prepend=-1) != 0
        last = np.append(first[1:], True)
        found[lines.segments[chord[first]]] = True
        found[lines.segments[chord[last]] + 1] = True
        return found


def circle(
    start: np.ndarray, middle: np.ndarray, stop: np.ndarray
) -> tuple[np.ndarray, float, int]:
    """Return centre, radius and sense (+1 to the right) of the arc through three points.

    Equal ends make a full circle with the middle point opposite, as in the simple features
    standard; its sense is to the left then. Points in a line have an infinite radius.
    """
    if np.array_equal(start, stop):
        centre = (start + middle) / 2.0
        return centre, float(np.hypot(*(middle - start)) / 2.0), -1
    a, b = middle - start, stop - start
    twice = 2.0 * (a[0] * b[1] - a[1] * b[0])
    if twice == 0.0:
        return start, np.inf, 1
    aa, bb = a @ a, b @ b
    to = np.array([b[1] * aa - a[1] * bb, a[0] * bb - b[0] * aa]) / twice
    return start + to, float(np.hypot(*to)), -1 if twice > 0 else 1


Part = tuple[str, np.ndarray]
"""``("line", (n, c))`` or ``("arc", (3, c))``: coordinates in plan first, then others."""


def with_arcs(
    rows: np.ndarray, parent: np.ndarray, lines: Lines, arcs: Arcs, offset: float
) -> list[Part]:
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

    Returns
    -------
    list of Part
        Each starts where the one before ends.
    """
    own = np.where(parent[:-1] >= 0, arcs.of_segment[np.maximum(parent[:-1], 0)], -1)
    runs = _runs(own)
    rows = rows.copy()
    before, after = rows.copy(), rows.copy()  # a vertex may differ as end and as start
    for first, last, arc in runs:
        if arc < 0:
            continue
        radius = arcs.radius[arc] - arcs.sense[arc] * offset
        if radius <= 0 or last - first < FEWEST:
            own[first:last] = -1
            continue
        for at, towards in ((first, -1), (last, 1)):
            other = at if towards > 0 else at - 1
            meets = _neighbour(own, parent, other, lines, arcs, offset)
            chord = int(parent[at - 1] if towards > 0 else parent[at])
            vertex = _end_of_arc(lines, arcs, chord, towards)
            run = _Run(arcs.centre[arc], radius, abs(offset))
            inward = rows[at - towards, :2] - rows[at, :2]
            place, tip = run.end(rows[at, :2], vertex, inward, meets)
            mine, its = (before, after) if towards > 0 else (after, before)
            mine[at, :2] = place
            if not tip:
                its[at, :2] = place
    return _parts(before, after, own, arcs, rows)


def _runs(own: np.ndarray) -> list[tuple[int, int, int]]:
    """Return first and last vertex, and the arc, of runs of equal arcs."""
    starts = np.flatnonzero(np.diff(own, prepend=-2))
    stops = np.append(starts[1:], len(own))
    return [(int(a), int(b), int(own[a])) for a, b in zip(starts, stops, strict=True)]


Meeting = Callable[["_Run", np.ndarray], np.ndarray | None]
"""Where a concentric arc meets its neighbour, nearest to a place; None where it does not."""


@dataclass(frozen=True)
class _Run:
    """One concentric arc: its centre, its radius, and the size of the offset."""

    centre: np.ndarray
    radius: float
    size: float

    def end(
        self,
        laid: np.ndarray,
        vertex: np.ndarray | None,
        inward: np.ndarray,
        meets: Meeting | None,
    ) -> tuple[np.ndarray, bool]:
        """Return where the arc ends, and whether what was laid is the tip of a corner beyond it.

        Parameters
        ----------
        laid
            Vertex of the piece at the end of the run.
        vertex
            End of the source's arc, None where the run ends before it.
        inward
            Direction from there into the run.
        meets
            How to find where it meets the parallel of its neighbour; None beside a join or at
            the end of the piece.
        """
        if vertex is not None:
            square = self.on_circle(vertex)
            off = square - laid
            if np.hypot(off[0], off[1]) <= 4.0 * TANGENT * self.size:
                return square, False  # it goes on in its tangent, or ends with its source
            if off @ inward > 0.0:
                return square, True
        found = meets(self, laid) if meets else None
        if found is None or np.hypot(*(found - laid)) > 0.1 * self.size:
            return self.on_circle(laid), False
        return found, False

    def on_circle(self, place: np.ndarray) -> np.ndarray:
        """Return the point of the circle in the direction of a place."""
        to = place - self.centre
        return self.centre + self.radius * to / np.hypot(to[0], to[1])


def _end_of_arc(lines: Lines, arcs: Arcs, chord: int, towards: int) -> np.ndarray | None:
    """Return the end of a chord that is an end of its arc; None inside the arc."""
    arc, other = arcs.of_segment[chord], chord + towards
    inside = 0 <= other < len(arcs.of_segment) and arcs.of_segment[other] == arc
    return None if inside else lines.xy[lines.segments[chord] + (1 if towards > 0 else 0)]


def _neighbour(
    own: np.ndarray, parent: np.ndarray, other: int, lines: Lines, arcs: Arcs, offset: float
) -> Meeting | None:
    """Return how to find where a run meets the parallel of what comes before or after it."""
    if not 0 <= other < len(own) or parent[other] < 0:
        return None
    if own[other] >= 0:
        arc = int(own[other])
        return lambda run, near: _circles(run.centre, run.radius, arcs, arc, offset, near)
    segment = int(parent[other])
    return lambda run, near: _line_circle(lines, segment, offset, run.centre, run.radius, near)


def _line_circle(
    lines: Lines, segment: int, offset: float, centre: np.ndarray, radius: float, near: np.ndarray
) -> np.ndarray | None:
    """Return where the parallel of a straight segment meets a circle, nearest to a place."""
    way = lines.segment_directions[segment]
    start = lines.xy[lines.segments[segment]] + offset * np.array([way[1], -way[0]])
    along = (centre - start) @ way
    foot = start + along * way
    gap = np.hypot(*(foot - centre))
    if gap > radius:
        return None
    reach = np.sqrt(max(radius * radius - gap * gap, 0.0))
    both = [foot - reach * way, foot + reach * way]
    return min(both, key=lambda place: float(np.hypot(*(place - near))))


def _circles(
    centre: np.ndarray, radius: float, arcs: Arcs, arc: int, offset: float, near: np.ndarray
) -> np.ndarray | None:
    """Return where two concentric arcs meet, nearest to a place."""
    other, size = arcs.centre[arc], arcs.radius[arc] - arcs.sense[arc] * offset
    to = other - centre
    gap = float(np.hypot(*to))
    if gap == 0 or size <= 0 or gap > radius + size or gap < abs(radius - size):
        return None
    along = (gap * gap + radius * radius - size * size) / (2.0 * gap)
    reach = np.sqrt(max(radius * radius - along * along, 0.0))
    unit = to / gap
    square = np.array([-unit[1], unit[0]])
    both = [centre + along * unit + s * reach * square for s in (1.0, -1.0)]
    return min(both, key=lambda place: float(np.hypot(*(place - near))))


def _parts(
    before: np.ndarray, after: np.ndarray, own: np.ndarray, arcs: Arcs, rows: np.ndarray
) -> list[Part]:
    """Return the parts of a piece whose vertices have been put where arcs end."""
    parts: list[Part] = []
    for first, last, arc in _runs(own):
        if arc >= 0:
            start, stop = after[first], before[last]
            parts.append(("arc", _three(start, stop, arcs, arc, rows[first : last + 1])))
            continue
        line = rows[first : last + 1].copy()
        line[0], line[-1] = after[first], before[last]
        if first and own[first - 1] >= 0 and not np.array_equal(before[first], line[0]):
            line = np.concatenate((before[first : first + 1], line))
        if last < len(own) and own[last] >= 0 and not np.array_equal(after[last], line[-1]):
            line = np.concatenate((line, after[last : last + 1]))
        parts.append(("line", line))
    return parts


def _three(
    start: np.ndarray, stop: np.ndarray, arcs: Arcs, arc: int, run: np.ndarray
) -> np.ndarray:
    """Return start, a point half way round, and stop of an arc."""
    centre, sense = arcs.centre[arc], arcs.sense[arc]
    one, other = start[:2] - centre, stop[:2] - centre
    radius = (np.hypot(*one) + np.hypot(*other)) / 2.0
    angle = np.arctan2(one[1], one[0])
    sweep = (np.arctan2(other[1], other[0]) - angle) * -sense % (2.0 * np.pi) or 2.0 * np.pi
    half = angle - sense * sweep / 2.0
    place = centre + radius * np.array([np.cos(half), np.sin(half)])
    share = np.linspace(0.0, 1.0, len(run))
    rest = [np.interp(0.5, share, column) for column in run[:, 2:].T]
    return np.stack((start, np.concatenate((place, rest)), stop))
