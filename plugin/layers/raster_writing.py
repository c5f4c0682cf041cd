"""Write a raster strip by strip: the next strip is made while the last one is packed."""

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor

import numpy as np

from ..core.progress import Progress
from .rasters import RasterTarget, windows, writing

_STRIP_BYTES = 32 * 1024 * 1024
_TILE = 256


def write_strips(
    target: RasterTarget, make: Callable[[int, int], np.ndarray], progress: Progress
) -> None:
    """Write what ``make`` returns for each strip.

    Parameters
    ----------
    target
        The raster.
    make
        Called with the first row and the number of rows of each strip, from the top down, in
        the calling thread; returns the pixels (rows, columns).
    progress
        Told the share done after each strip.

    Raises
    ------
    SurfaceError
        The result cannot be written. Nothing is left behind then, nor when ``progress`` cancels.
    """
    width, height = target.like.width, target.like.height
    rows = max(1, min(_TILE, _STRIP_BYTES // (8 * width)))
    with writing(target), ThreadPoolExecutor(1) as writer:
        written: Future[None] | None = None
        for row, count in windows(height, rows):
            strip = make(row, count)
            if written is not None:
                written.result()
            written = writer.submit(target.write, 0, row, strip)
            progress((row + count) / height)
        if written is not None:
            written.result()
