"""Pairs taken in order of merit, each end once."""

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


def first_come(one: Ints, other: Ints, count: int) -> Ints:
    """Take pairs in the given order, leaving those of which an end is taken already.

    Parameters
    ----------
    one, other : (j,) int
        Ends of each pair, best pair first; no pair has twice the same.
    count
        Number of ends.

    Returns
    -------
    (i,) int
        Numbers of the pairs taken, ascending.
    """
    taken = [np.zeros(0, np.int64)]
    free = np.ones(count, bool)
    left = np.arange(len(one))
    while len(left):
        a, b = one[left], other[left]
        # Of what is written to one place the last stays: the best pair left of each end.
        best = np.full(count, -1)
        best[np.column_stack((a, b))[::-1].ravel()] = np.repeat(left[::-1], 2)
        # Pairs that are the best of both their ends do not get in each other's way.
        chosen = (best[a] == left) & (best[b] == left)
        taken.append(left[chosen])
        free[a[chosen]] = free[b[chosen]] = False
        left = left[free[a] & free[b]]
    return np.sort(np.concatenate(taken))
