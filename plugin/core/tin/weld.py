"""Make one vertex of points that lie in the same place."""

import numpy as np
from numpy.typing import NDArray

from ..runs import count_up

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SPREAD = (0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9)


def same_place(points: Floats, tolerance: float) -> Ints:
    """Return for each point the lowest point of its place, (n,) int.

    Points within the tolerance of each other are in one place, and so are those that a row of
    such points joins.

    Parameters
    ----------
    points : (n, d) float
        Two or three coordinates each; finite.
    tolerance : float
        Distance; 0 welds equal coordinates only.
    """
    first = _equal_rows(points)
    if tolerance <= 0.0 or len(points) == 0:
        return first
    alone = np.flatnonzero(first == np.arange(len(points)))
    one, other = _near_pairs(points[alone], tolerance)
    return alone[hang_together(len(alone), one, other)][np.searchsorted(alone, first)]


def hang_together(count: int, one: Ints, other: Ints) -> Ints:
    """Return the lowest member of each member's connected set, (count,) int.

    Every link hangs the higher of two roots under the lower, then all paths are shortened; a
    few rounds settle millions of links.

    Parameters
    ----------
    count : int
        Number of members.
    one, other : (k,) int
        The members each link joins.
    """
    root = np.arange(count)
    while True:
        a, b = root[one], root[other]
        apart = np.flatnonzero(a != b)
        if len(apart) == 0:
            return root
        one, other, a, b = one[apart], other[apart], a[apart], b[apart]
        root[np.maximum(a, b)] = np.minimum(a, b)
        while True:
            shorter = root[root]
            if (shorter == root).all():
                break
            root = shorter


def _equal_rows(points: Floats) -> Ints:
    """Return the lowest row with the same numbers, (n,) int.

    Rows are sorted by one mixed number; only where different rows mix to the same number
    (hardly ever) are they sorted column by column.
    """
    bits = (points + 0.0).view(np.uint64)  # adding 0 makes -0.0 and 0.0 the same
    mixed = np.zeros(len(points), dtype=np.uint64)
    for column, spread in zip(bits.T, _SPREAD, strict=False):
        mixed ^= column * np.uint64(spread)
        mixed ^= mixed >> np.uint64(29)
        mixed *= np.uint64(_SPREAD[0])
    order = np.argsort(mixed, kind="stable")
    ordered = points[order]
    equal = (ordered[1:] == ordered[:-1]).all(axis=1)
    if ((mixed[order][1:] == mixed[order][:-1]) & ~equal).any():
        order = np.lexsort(points.T)
        ordered = points[order]
        equal = (ordered[1:] == ordered[:-1]).all(axis=1)
    heads = np.concatenate([[True], ~equal])[: len(points)]
    first = np.empty(len(points), dtype=np.int64)
    first[order] = order[heads][np.cumsum(heads) - 1]
    return first


def _near_pairs(points: Floats, tolerance: float) -> tuple[Ints, Ints]:
    """Return the pairs of points within the tolerance, each once."""
    low = points[:, :2].min(axis=0)
    cell = np.floor((points[:, :2] - low) / tolerance).astype(np.int64)
    rows = int(cell[:, 1].max()) + 3
    # On a very large site this wraps around; far cells that then meet fail the distance test.
    key = cell[:, 0] * rows + cell[:, 1]
    order = np.argsort(key, kind="stable")
    ordered = key[order]
    ones, others = [], []
    # Each cell against itself and the half of its neighbours that follow it.
    for step in (0, 1, rows - 1, rows, rows + 1):
        first = np.searchsorted(ordered, ordered + step, side="left")
        last = np.searchsorted(ordered, ordered + step, side="right")
        if step == 0:
            first = np.arange(len(ordered)) + 1
        count = last - first
        one = np.repeat(np.arange(len(ordered)), count)
        within = count_up(count)
        other = np.repeat(first, count) + within
        apart = points[order[one]] - points[order[other]]
        near = np.einsum("ij,ij->i", apart, apart) <= tolerance * tolerance
        ones.append(order[one[near]])
        others.append(order[other[near]])
    return np.concatenate(ones), np.concatenate(others)
