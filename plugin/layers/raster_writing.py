"""Write a raster strip by strip: the next strip is made while the last one is packed."""

import contextlib
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path

import numpy as np

from ..core.errors import SurfaceError
from ..core.progress import Progress
from ..core.text import translate
from .rasters import RasterTarget, small_cache, windows

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
    with contextlib.ExitStack() as stack:
        stack.enter_context(small_cache())
        stack.enter_context(_plain_errors(target.path))
        stack.enter_context(target)
        writer = stack.enter_context(ThreadPoolExecutor(1))
        written: Future[None] | None = None
        for row, count in windows(height, rows):
            strip = make(row, count)
            if written is not None:
                written.result()
            written = writer.submit(target.write, 0, row, strip)
            progress((row + count) / height)
        if written is not None:
            written.result()
    for suffix in (".aux.xml", ".ovr"):  # of a file of that name that is no more
        Path(f"{target.path}{suffix}").unlink(missing_ok=True)


@contextlib.contextmanager
def _plain_errors(path: Path):
    """Turn GDAL's errors into one sentence."""
    try:
        yield
    except RuntimeError as error:
        raise SurfaceError(
            translate("Layers", "“{path}” could not be made: {why}.").format(
                path=path, why=str(error).rstrip(".")
            )
        ) from error
