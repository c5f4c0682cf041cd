"""Large arrays worked on block by block, blocks side by side on the cores there are.

What is gathered for a block stays in the cache of its core; whole temporary arrays cost more than
the work on them. numpy lets go of the interpreter while it works, so threads are enough.
"""

import os
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from typing import TypeVar

from .progress import Progress, silent

Result = TypeVar("Result")

MOST_THREADS = 4
"""More would wait for memory."""


def in_blocks(
    work: Callable[[int, int], Result], count: int, size: int, progress: Progress = silent
) -> list[Result]:
    """Do work for ranges that together make ``0 .. count - 1``.

    Parameters
    ----------
    work
        Called with the first index of a block and the one after its last, from several threads:
        blocks must not depend on each other.
    count
        Number of indices.
    size
        Indices in a block.
    progress
        Told the share done, by the calling thread; what it raises ends the work.

    Returns
    -------
    list
        What ``work`` returned, in the order of the blocks.
    """
    begins = range(0, count, size)
    # A few blocks are done before threads have started.
    threads = min(len(begins) // 4, os.cpu_count() or 1, MOST_THREADS)
    pool = ThreadPoolExecutor(threads) if threads > 1 else None
    do = pool.map if pool else map
    results = []
    try:
        for result in do(lambda begin: work(begin, min(begin + size, count)), begins):
            results.append(result)
            progress(len(results) / len(begins))
    finally:
        if pool:
            pool.shutdown(cancel_futures=True)
    return results
