"""Stretches of border along which nodes may slide, measured by chainage."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Chains:
    """Polylines of border points, one after the other.

    Parameters
    ----------
    point : (c,) int
        Points of all chains, both ends of each included.
    start : (k + 1,) int
        Where each chain begins; the last entry is the end.
    chainage : (c,) float
        Distance along the chains. It goes on from chain to chain with gaps between, so that a
        chainage says which chain it is on.
    plan : (c, 2) float
        Plan positions of the points.
    place : (n,) int
        Where each point is an inner one of a chain; -1 where it is none.
    """

    point: Ints
    start: Ints
    chainage: Floats
    plan: Floats
    place: Ints

    @property
    def inner(self) -> Ints:
        """Places of the points that are not ends of a chain."""
        inner = np.ones(len(self.point), dtype=bool)
        inner[self.start[:-1]] = False
        inner[self.start[1:] - 1] = False
        return np.flatnonzero(inner)

    @property
    def row(self) -> Ints:
        """Chain of each entry of `point`."""
        return np.repeat(np.arange(len(self.start) - 1), np.diff(self.start))

    def slid(self, point: Ints, distance: Floats) -> Floats:
        """Return the chainage of inner points moved on by distances, kept on their chains."""
        place = self.place[point]
        row = np.searchsorted(self.start, place, side="right") - 1
        first, last = self.chainage[self.start[row]], self.chainage[self.start[row + 1] - 1]
        return np.clip(self.chainage[place] + distance, first, last)

    def at(self, chainage: Floats) -> Floats:
        """Return plan positions (k, 2) of chainages on chains."""
        if not len(self.chainage):
            return np.empty((0, 2))
        return np.column_stack(
            [np.interp(chainage, self.chainage, self.plan[:, axis]) for axis in (0, 1)]
        )


def walk(points: Floats, beside: Ints) -> Chains:
    """Follow straight border points from one that is not straight to the next.

    Of a ring of straight points the last becomes both ends: of what a cut has made the points
    within faces, which have no need to slide, come last. Borders are short beside the
    surface, so a plain walk is quick enough here.

    Parameters
    ----------
    points : (n, 2) float
        Plan positions.
    beside : (n, 2) int
        The two points next to a straight one, -1 for the others.
    """
    straight = np.flatnonzero(beside[:, 0] >= 0)
    row = np.full(len(points), -1, dtype=np.int64)
    row[straight] = np.arange(len(straight))
    name, near, member = (
        straight.tolist(),
        beside[straight].tolist(),
        row[beside[straight]].tolist(),
    )
    seen = [False] * len(name)
    chains: list[list[int]] = []
    begins = [(k, side) for k, pair in enumerate(member) for side in (0, 1) if pair[side] < 0]
    for first, side in begins:
        if not seen[first]:
            chain = [near[first][side]]
            _follow(first, chain, name, near, member, seen)
            chains.append(chain)
    for first in reversed(range(len(name))):
        if not seen[first]:
            seen[first] = True
            chain = [name[first]]
            _follow(member[first][0], chain, name, near, member, seen)
            chains.append(chain)
    start = np.cumsum([0] + [len(chain) for chain in chains])
    point = np.array([p for chain in chains for p in chain], dtype=np.int64)
    plan = points[point]
    length = np.zeros(len(point))
    length[1:] = np.hypot(*(plan[1:] - plan[:-1]).T)
    # Between chains there is a gap wider than any two points that could be joined.
    length[start[:-1]] = 1.0 + np.ptp(points, axis=0).max(initial=0.0) * 1e-3
    place = np.full(len(points), -1, dtype=np.int64)
    chained = Chains(point, start, np.cumsum(length), plan, place)
    place[point[chained.inner]] = chained.inner
    return chained


def _follow(
    at: int,
    chain: list[int],
    name: list[int],
    near: list[list[int]],
    member: list[list[int]],
    seen: list[bool],
) -> None:
    """Walk on to the first point that is not straight, or has been seen, and end there."""
    while at >= 0 and not seen[at]:
        seen[at] = True
        came = chain[-1]
        chain.append(name[at])
        side = 1 if near[at][0] == came else 0
        stop, at = near[at][side], member[at][side]
    chain.append(stop)
