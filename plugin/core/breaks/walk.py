"""Chains of measured edges on their way to becoming lines: step by step, what lies on each side."""

from dataclasses import dataclass, fields

import numpy as np
from numpy.typing import NDArray

from ..runs import ragged
from .chains import Chains
from .change import EdgeChange, rise_sum
from .kinds import classify, lower_side

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Walk:
    """Steps along edges, line after line.

    Parameters
    ----------
    offsets : (n + 1,) int64
        Line ``i`` holds the steps ``offsets[i] .. offsets[i + 1] - 1``; at least one.
    steps : (s,) int64
        Row of the edge in what was measured.
    tails, heads : (s,) int64
        Vertices that each step goes from and to.
    left, right : (s,) float
        Rise of each side, going away from the line.
    length, angle, wall : (s,) float
        Length in plan, angle between the faces, length beside a wall.
    """

    offsets: Ints
    steps: Ints
    tails: Ints
    heads: Ints
    left: Floats
    right: Floats
    length: Floats
    angle: Floats
    wall: Floats

    @classmethod
    def along(cls, chains: Chains, breaks: EdgeChange) -> "Walk":
        """Lay the measured edges out in the order of the chains."""
        edge = chains.darts >> 1
        back = (chains.darts & 1).astype(bool)
        left, right = breaks.rise_left[edge], breaks.rise_right[edge]
        ends = breaks.ends[edge]
        return cls(
            offsets=chains.offsets,
            steps=edge,
            tails=np.where(back, ends[:, 1], ends[:, 0]),
            heads=np.where(back, ends[:, 0], ends[:, 1]),
            left=np.where(back, right, left),
            right=np.where(back, left, right),
            length=breaks.length[edge],
            angle=breaks.angle[edge],
            wall=np.where(breaks.wall[edge], breaks.length[edge], 0.0),
        )

    def __len__(self) -> int:
        """Return the number of lines."""
        return len(self.offsets) - 1

    @property
    def change(self) -> Floats:
        """Signed change at each step, convex -, (s,)."""
        return rise_sum(self.left, self.right)

    @property
    def closed(self) -> NDArray[np.bool_]:
        """Tell which lines end where they start, (n,)."""
        return self.tails[self.offsets[:-1]] == self.heads[self.offsets[1:] - 1]

    @property
    def nodes(self) -> Ints:
        """Vertices of all lines, one more than steps in each, (s + n,)."""
        first = self.offsets[:-1]
        nodes = np.empty(len(self.steps) + len(self), np.int64)
        begin = first + np.arange(len(self))
        after = np.ones(len(nodes), bool)
        after[begin] = False
        nodes[after] = self.heads
        nodes[begin] = self.tails[first]
        return nodes

    @property
    def node_offsets(self) -> Ints:
        """Where the vertices of each line begin in `nodes`, (n + 1,)."""
        return self.offsets + np.arange(len(self.offsets))

    def total(self, values: Floats) -> Floats:
        """Sum values of the steps of each line, (n,)."""
        return np.add.reduceat(values, self.offsets[:-1]) if len(self) else np.zeros(0)

    def take(self, which: Ints) -> "Walk":
        """Return the given lines."""
        rows, offsets = ragged(self.offsets[which], np.diff(self.offsets)[which])
        return self._laid_out(rows, offsets)

    def turned(self, flip: NDArray[np.bool_]) -> "Walk":
        """Return the same with the chosen lines walked the other way."""
        sizes = np.diff(self.offsets)
        back = np.repeat(flip, sizes)
        mirror = np.repeat(self.offsets[:-1] + self.offsets[1:] - 1, sizes)
        rows = np.arange(len(self.steps))
        way = self._laid_out(np.where(back, mirror - rows, rows), self.offsets)
        for one, other in (("tails", "heads"), ("left", "right")):
            a, b = getattr(way, one), getattr(way, other)
            a[back], b[back] = b[back], a[back]
        return way

    def split_by_kind(self, shortest: float) -> tuple["Walk", NDArray[np.int8]]:
        """Split lines where their kind, or the side that lies lower, really changes.

        Parameters
        ----------
        shortest
            A stretch of another kind that is shorter, in plan, does not split a line.

        Returns
        -------
        walk : Walk
            A closed line that is split begins at a change.
        kind : (n,) int8
            Index into `KINDS` of each line.
        """
        state = _states(self.left, self.right)
        state = _without_short_runs(state, self.offsets, self.length, shortest)
        rows = self._from_a_change(state)
        state = state[rows]
        starts = np.zeros(len(state), bool)
        starts[self.offsets[:-1]] = True
        starts[1:] |= state[1:] != state[:-1]
        first = np.flatnonzero(starts)
        split = self._laid_out(rows, np.append(first, len(state)))
        return split, (state[first] // 3).astype(np.int8)

    def _from_a_change(self, state: Ints) -> Ints:
        """Return the steps with closed lines rolled to begin where their state changes."""
        rows = np.arange(len(state))
        first, last = self.offsets[:-1], self.offsets[1:] - 1
        through = self.closed & (state[first] == state[last])
        owner = np.repeat(np.arange(len(self)), np.diff(self.offsets))
        change = np.flatnonzero(state[1:] != state[:-1]) + 1
        change = change[owner[change] == owner[change - 1]]
        shift = np.zeros(len(self), np.int64)
        # Written backwards, so that the first change of each line stays.
        shift[owner[change[::-1]]] = change[::-1] - first[owner[change[::-1]]]
        shift[~through] = 0
        size = np.diff(self.offsets)[owner]
        return first[owner] + (rows - first[owner] + shift[owner]) % size

    def _laid_out(self, rows: Ints, offsets: Ints) -> "Walk":
        """Return the given steps as lines that begin at the given offsets."""
        own = [field.name for field in fields(self) if field.name != "offsets"]
        return Walk(offsets=offsets, **{name: getattr(self, name)[rows] for name in own})


def _states(left: Floats, right: Floats) -> Ints:
    """Return kind and lower side of each step as one number: 3 kind + side (0 none, 1, 2)."""
    return 3 * classify(left, right).astype(np.int64) + lower_side(left, right)


def _without_short_runs(state: Ints, offsets: Ints, length: Floats, shortest: float) -> Ints:
    """Let runs of one state that are short take the state of their longer neighbour."""
    if shortest <= 0:
        return state
    state = state.copy()
    begins = np.zeros(len(state), bool)
    begins[offsets[:-1]] = True
    while True:
        starts = begins.copy()
        starts[1:] |= state[1:] != state[:-1]
        first = np.flatnonzero(starts)
        size = np.add.reduceat(length, first)
        alone_before, alone_after = begins[first], np.append(begins[first[1:]], True)
        before = np.where(alone_before, -1.0, np.roll(size, 1))
        after = np.where(alone_after, -1.0, np.roll(size, -1))
        longest = np.maximum(before, after)
        # The shortest first: a run between two shorter ones may grow by them.
        change = (size < shortest) & (longest > size)
        change |= (size < shortest) & (longest == size) & (after < size)
        if not change.any():
            return state
        run = np.flatnonzero(change)
        donor = np.where(before[run] >= after[run], run - 1, run + 1)
        new = state[first].copy()
        new[run] = state[first][donor]
        state = np.repeat(new, np.diff(np.append(first, len(state))))
