"""Which line goes on where another one ends.

Every open line has two ends: end ``2 k`` is the first vertex of line ``k`` and end ``2 k + 1`` its
last. Ends within a tolerance of each other touch. Where only two ends meet, the one goes on in the
other, at whatever angle short of turning back on itself. Where more meet, the pair that runs
straightest through goes on, provided that it is clearly straighter than any other choice; such
pairs are taken one after the other, so that both lines of a crossing go on. A place where no choice
is clear is a *fork*: nothing goes on there.

An end goes on in one other end at most, so that linked lines make chains and rings without
branches, and one direction for all lines of a chain always exists.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from .bundle import Lines
from .stations import point_at

STRAIGHT = 45.0
"""Where more than two ends meet, a pair goes on only when it turns by fewer degrees than this."""
CLEARER = 15.0
"""... and every other choice turns by this many degrees more."""
BACK = 170.0
"""Two lines that lie on each other from an end on, and so turn by more than this, do not go on."""
LOOK = 10.0
"""The direction at an end is taken over this many tolerances, so that a slip there is not it."""


@dataclass(frozen=True)
class Fork:
    """A place where ends meet and none clearly goes on.

    Parameters
    ----------
    place
        Plan position (x, y).
    lines
        Lines that are left without a continuation there.
    """

    place: tuple[float, float]
    lines: tuple[int, ...]


@dataclass(frozen=True)
class Links:
    """What goes on in what.

    Parameters
    ----------
    mate
        End in which each end goes on, (2 k,) int; -1 where it goes on in none.
    gap
        Plan distance between the two, (2 k,) float; 0 where there is none.
    forks
        Places where no choice is clear.
    """

    mate: np.ndarray
    gap: np.ndarray
    forks: tuple[Fork, ...]

    def without(self, ends: np.ndarray) -> "Links":
        """Return the links but for those of the given ends."""
        mate = self.mate.copy()
        held = ends[mate[ends] >= 0]
        mate[mate[held]] = -1
        mate[held] = -1
        return Links(mate, np.where(mate >= 0, self.gap, 0.0), self.forks)


@dataclass(frozen=True)
class Chain:
    """Lines that go on in one another.

    Parameters
    ----------
    lines
        The lines in the order in which the chain runs, (p,) int.
    forward
        True for a line that runs as the chain does, (p,) bool.
    closed
        True when the last line goes on in the first one.
    """

    lines: np.ndarray
    forward: np.ndarray
    closed: bool

    def reversed(self) -> "Chain":
        """Return the chain run the other way."""
        return Chain(self.lines[::-1], ~self.forward[::-1], self.closed)

    def starting_with(self, position: int) -> "Chain":
        """Return the same ring of lines started at another one."""
        return Chain(np.roll(self.lines, -position), np.roll(self.forward, -position), self.closed)


def end_places(lines: Lines) -> np.ndarray:
    """Return the plan position of every end, (2 k, 2) float."""
    return lines.xy[np.column_stack([lines.first[:-1], lines.first[1:] - 1]).ravel()]


def link(lines: Lines, tolerance: float, groups: Sequence[object] | None = None) -> Links:
    """Find which line goes on in which.

    Parameters
    ----------
    lines
        The bundle; closed lines have no ends.
    tolerance
        Plan distance within which ends touch.
    groups
        Group of each line; only lines of one group are linked. None: all are of one group.
    """
    count = 2 * len(lines)
    mate, gap = np.full(count, -1, np.int64), np.zeros(count)
    place = end_places(lines)
    one, other = _touching(lines, place, tolerance, groups)
    if not len(one):
        return Links(mate, gap, ())
    node = _nodes(count, one, other)
    crowd = np.bincount(node, minlength=count)
    turn = _turns(lines, tolerance, one, other)
    pair = (crowd[node[one]] == 2) & (turn <= BACK)
    mate[one[pair]], mate[other[pair]] = other[pair], one[pair]
    forks = []
    many = np.flatnonzero(~pair)
    if len(many):
        many = many[np.lexsort((turn[many], node[one[many]]))]
        starts = np.flatnonzero(np.diff(node[one[many]], prepend=-1))
        by_node = np.argsort(node, kind="stable")
        first = np.searchsorted(node[by_node], node[one[many[starts]]])
        for some, begin in zip(np.split(many, starts[1:]), first, strict=True):
            ends = by_node[begin : begin + crowd[node[one[some[0]]]]]
            for a, b in _through(one[some], other[some], turn[some]):
                mate[a], mate[b] = b, a
            left = ends[mate[ends] < 0]
            if len(left) > 1:
                x, y = place[left].mean(0)
                owners = tuple(sorted({int(end) // 2 for end in left}))
                forks.append(Fork((float(x), float(y)), owners))
    linked = np.flatnonzero(mate >= 0)
    gap[linked] = np.hypot(*(place[linked] - place[mate[linked]]).T)
    return Links(mate, gap, tuple(forks))


def chains(links: Links) -> list[Chain]:
    """Follow the links; every line is in one chain, alone where nothing touches it.

    A chain starts with the line that comes first in the bundle among those that can start it, and
    says nothing about which way is the right one.
    """
    mate = links.mate.tolist()
    seen = [False] * (len(mate) // 2)
    found = []
    # Open chains start at an end without a mate; what is left after them are rings.
    starts = [end for end, other in enumerate(mate) if other < 0]
    for start in [*starts, *range(0, len(mate), 2)]:
        if seen[start // 2]:
            continue
        row, forward, end = [], [], start
        while not seen[end // 2]:
            seen[end // 2] = True
            row.append(end // 2)
            forward.append(end % 2 == 0)
            end = mate[end ^ 1]
            if end < 0:
                break
        found.append(Chain(np.array(row, np.int64), np.array(forward, bool), end == start))
    return found


def _touching(
    lines: Lines, place: np.ndarray, tolerance: float, groups: Sequence[object] | None
) -> tuple[np.ndarray, np.ndarray]:
    """Return the pairs of ends of one group that lie within the tolerance, lower end first."""
    points = shapely.points(place)
    one, other = shapely.STRtree(points).query(points, predicate="dwithin", distance=tolerance)
    keep = (one < other) & ~lines.closed[one // 2] & ~lines.closed[other // 2]
    # The ends of one line touch when it all but closes, not because it is short.
    keep &= (one // 2 != other // 2) | (lines.lengths[one // 2] > 4.0 * tolerance)
    if groups is not None:
        numbers: dict[object, int] = {}
        group = np.array([numbers.setdefault(name, len(numbers)) for name in groups], np.int64)
        keep &= group[one // 2] == group[other // 2]
    return one[keep], other[keep]


def _nodes(count: int, one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """Return the lowest end that each end is tied to through pairs, (count,) int."""
    node = np.arange(count)
    while True:
        before = node.copy()
        np.minimum.at(node, one, before[other])
        np.minimum.at(node, other, before[one])
        node = node[node]
        if np.array_equal(node, before):
            return node


def _turns(lines: Lines, tolerance: float, one: np.ndarray, other: np.ndarray) -> np.ndarray:
    """Return the degrees by which the way through each pair of ends turns, 0 to 180."""
    ends = np.union1d(one, other)
    line = ends // 2
    length = lines.lengths[line]
    reach = np.minimum(np.maximum(LOOK * tolerance, 1e-6 * length), 0.5 * length)
    tip = end_places(lines)[ends]
    inner = point_at(lines, line, np.where(ends % 2 == 0, reach, length - reach))
    into = (inner - tip) / np.hypot(*(inner - tip).T)[:, None]
    a, b = into[np.searchsorted(ends, one)], into[np.searchsorted(ends, other)]
    cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    return 180.0 - np.abs(np.degrees(np.arctan2(cross, (a * b).sum(1))))


def _through(one: np.ndarray, other: np.ndarray, turn: np.ndarray) -> list[tuple[int, int]]:
    """Choose the pairs of one place that go on, the straightest first."""
    taken: set[int] = set()
    chosen = []
    for n in np.argsort(turn, kind="stable").tolist():
        a, b = int(one[n]), int(other[n])
        if turn[n] >= STRAIGHT:
            break
        if a in taken or b in taken:
            continue
        rivals = [
            m
            for m in range(len(one))
            if m != n
            and ({int(one[m]), int(other[m])} & {a, b})
            and not ({int(one[m]), int(other[m])} & taken)
        ]
        if all(turn[m] >= turn[n] + CLEARER for m in rivals):
            chosen.append((a, b))
            taken |= {a, b}
        # What is not clear stays free, and so keeps less straight pairs from looking clear.
    return chosen
