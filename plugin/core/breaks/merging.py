"""Parts joined pair by pair, the pair that costs least per length of border first.

Pairs that are each other's best are joined at the same time; what joining costs is worked out
again only where a part has changed. So a few hundred rounds of whole-array steps join millions of
parts, as one pair after the other would.
"""

from typing import Protocol, Self

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks
from ..progress import Progress, silent

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 13


class Model(Protocol):
    """Something fitted to each of k parts that follows for joined parts from theirs."""

    def together(self, one: Ints, other: Ints) -> Self:
        """Return the fits of pairs of parts."""

    def put(self, rows: Ints, parts: Self) -> None:
        """Write fits over the given rows."""

    @property
    def misfit(self) -> Floats:
        """What is left unexplained in each part."""


def join_parts(
    model: Model,
    misfit: Floats,
    pairs: tuple[Ints, Ints, Floats],
    limit: float,
    progress: Progress = silent,
) -> Ints:
    """Join parts as long as that adds less misfit per length of border than a limit.

    Parameters
    ----------
    model
        The fits of the parts; those of joined parts are written over the lower of the two.
    misfit : (k,) float
        What is unexplained in each part alone; changed in place.
    pairs
        Parts that touch, two (p,) int arrays, and the length of their border (p,).
    limit
        Pairs that cost as much are not joined.
    progress
        Told the share done.

    Returns
    -------
    (k,) int
        The lowest part of the set that each part is joined to.
    """
    return _Merging(model, misfit, *pairs).run(limit, progress)


def numbered(root: Ints) -> tuple[Ints, int]:
    """Return numbers without gaps for roots that are the lowest of their set, and their count."""
    number = np.cumsum(root == np.arange(len(root))) - 1
    return number[root], int(number[-1]) + 1 if len(number) else 0


class _Merging:
    """Parts on their way, each pair with its border and what joining costs."""

    def __init__(
        self, model: Model, misfit: Floats, one: Ints, other: Ints, border: Floats
    ) -> None:
        self.model = model
        self.misfit = misfit
        self.root = np.arange(len(misfit))
        self.one, self.other, self.border = self._tidy(one, other, border)
        self.cost = self._costs(self.one, self.other, self.border)
        self.dead = 0

    def run(self, limit: float, progress: Progress) -> Ints:
        """Join pairs until none costs less than ``limit``; return the root of each part."""
        start, first = len(self.root), len(self.one)
        step = np.arange(start)
        changed = np.zeros(start, bool)
        while True:
            joined = self._best(limit)
            if not len(joined):
                return self._roots()
            a, b = self.one[joined], self.other[joined]
            together = self.model.together(a, b)
            self.model.put(a, together)
            self.misfit[a] = together.misfit
            self.root[b] = a
            step[b] = a
            changed[a] = changed[b] = True
            self._renew(step, changed)
            step[b] = b
            changed[a] = changed[b] = False
            progress(max(0.0, 1.0 - len(self.one) / max(first, 1)))

    def _tidy(self, one: Ints, other: Ints, border: Floats) -> tuple[Ints, Ints, Floats]:
        """Return pairs of different parts, the lower first, each pair once."""
        apart = np.flatnonzero(one != other)
        one, other = one.take(apart), other.take(apart)
        key = np.minimum(one, other) << 32
        key |= np.maximum(one, other)
        order = np.argsort(key, kind="stable")
        key = key.take(order)
        first = np.flatnonzero(np.diff(key, prepend=-1))
        total = border.take(apart.take(order))
        total = np.add.reduceat(total, first) if len(first) else total
        key = key.take(first)
        return key >> 32, key & 0xFFFFFFFF, total

    def _costs(self, one: Ints, other: Ints, border: Floats) -> Floats:
        cost = np.empty(len(one))

        def some(begin: int, end: int) -> None:
            i, j = one[begin:end], other[begin:end]
            more = self.model.together(i, j).misfit
            more -= self.misfit.take(i)
            more -= self.misfit.take(j)
            cost[begin:end] = more

        in_blocks(some, len(one), _BLOCK)
        with np.errstate(divide="ignore", invalid="ignore"):
            cost /= border
        return np.where(border > 0, cost, np.inf)

    def _best(self, limit: float) -> Ints:
        """Return the pairs under the limit that are the best of both their parts."""
        pairs = np.flatnonzero(self.cost < limit)
        best = np.full(len(self.root), -1)
        ends = (self.one.take(pairs), self.other.take(pairs))
        for end in ends:
            self._cheapest(best, end, pairs)
        one, other = (best.take(end) for end in ends)
        return pairs[(one == pairs) & (other == pairs)]

    def _cheapest(self, best: Ints, end: Ints, pairs: Ints) -> None:
        """Put the cheapest pair of each part in ``best``, the first of equal ones.

        Everyone writes; those who find a worse one in their place write again. A part has few
        pairs, so few passes settle it, and a sort of all costs takes several times as long.
        """
        cost = self.cost.take(pairs)
        while len(pairs):
            holder = best.take(end)
            held = self.cost.take(holder)
            better = (holder < 0) | (cost < held) | ((cost == held) & (pairs < holder))
            better = np.flatnonzero(better)
            end, pairs, cost = end.take(better), pairs.take(better), cost.take(better)
            best[end] = pairs

    def _renew(self, step: Ints, changed: NDArray[np.bool_]) -> None:
        """Bring the pairs of joined parts up to date."""
        touched = changed.take(self.one)
        touched |= changed.take(self.other)
        rows = np.flatnonzero(touched)
        one, other, border = self._tidy(
            step.take(self.one.take(rows)), step.take(self.other.take(rows)), self.border.take(rows)
        )
        # What is joined leaves fewer pairs: those no longer needed join a part with itself.
        kept, dead = rows[: len(one)], rows[len(one) :]
        self.one[kept], self.other[kept], self.border[kept] = one, other, border
        self.cost[kept] = self._costs(one, other, border)
        self.one[dead], self.other[dead] = 0, 0
        self.cost[dead] = np.inf
        self.dead += len(dead)
        if 4 * self.dead > len(self.one):
            live = np.flatnonzero(self.one != self.other)
            self.one, self.other = self.one.take(live), self.other.take(live)
            self.border, self.cost = self.border.take(live), self.cost.take(live)
            self.dead = 0

    def _roots(self) -> Ints:
        root = self.root
        while True:
            shorter = root[root]
            if (shorter == root).all():
                return root
            root = shorter
