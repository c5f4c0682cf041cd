"""Runs of different length, worked on end to end in one array."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import ArrayLike, NDArray

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


def ragged(starts: ArrayLike, counts: Ints) -> tuple[Ints, Ints]:
    """Return the indices ``starts[k] .. starts[k] + counts[k] - 1`` end to end.

    Parameters
    ----------
    starts, counts : (k,) int
        First index of each run, and its length.

    Returns
    -------
    index : (sum of counts,) int
    first : (k + 1,) int
        Where each run starts in ``index``.
    """
    first = np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)
    index = np.arange(first[-1]) + np.repeat(np.asarray(starts) - first[:-1], counts)
    return index, first


def batches(counts: Ints, most: int) -> Iterator[tuple[int, int]]:
    """Cut runs into batches of about ``most`` entries, so that memory stays bounded.

    Yields
    ------
    begin, end : int
        First run of a batch and the one after its last; a run longer than ``most`` stands alone.
    """
    first = np.concatenate([[0], np.cumsum(counts)])
    begin = 0
    while begin < len(counts):
        end = int(np.searchsorted(first, first[begin] + most, "right")) - 1
        end = min(max(end, begin + 1), len(counts))
        yield begin, end
        begin = end
