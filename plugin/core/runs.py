"""Runs of different length, worked on end to end in one array."""

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


def count_up(counts: Ints) -> Ints:
    """Return 0, 1, ... count - 1 for each count, one after the other.

    Beside ``np.repeat(..., counts)`` it is the number of each entry within its own run.

    Parameters
    ----------
    counts : (k,) int
        Lengths of the runs; 0 is allowed.

    Returns
    -------
    (sum of counts,) int
    """
    return np.arange(counts.sum()) - np.repeat(np.cumsum(counts) - counts, counts)
