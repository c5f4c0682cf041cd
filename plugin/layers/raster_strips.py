"""Work through a raster in strips: one thread reads, some work, one writes.

GDAL releases the interpreter while it reads and packs, so that the three overlap. At any time
only a few strips are in memory, whatever the size of the raster.
"""

import contextlib
import dataclasses
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor

import numpy as np
from osgeo import gdal

from ..core.errors import SurfaceError
from ..core.place import Place
from ..core.progress import Progress
from ..core.text import translate
from .rasters import RasterSource, RasterTarget, windows, writing

Work = Callable[[Place, np.ndarray], np.ndarray]
"""Makes a strip of the result of one of the source, which comes with its halo."""

_PANEL = 6_144
"""Columns that are worked on at a time: wider rasters are taken in panels."""

_STRIP_BYTES = 64 * 1024 * 1024
_FLOAT32_HOLDS = 2


def stream(
    source: RasterSource,
    target: RasterTarget,
    work: Work,
    progress: Progress,
    halo: int = 0,
    workers: int = 1,
) -> None:
    """Write what ``work`` makes of each strip of a raster.

    A strip is as high as a tile of the source, so that each tile is read once. A raster that is
    very wide is taken in panels, so that memory stays bounded whatever its size.

    Parameters
    ----------
    source, target
        Rasters of one grid.
    work
        Called with each strip, in threads of its own; may change the array, must not keep it,
        and returns what is to be written.
    progress
        Told the share done after each strip.
    halo
        Pixels that each strip gets to see on all sides of it, where there are any.
    workers
        Strips that are worked on at the same time.

    Raises
    ------
    SurfaceError
        The raster cannot be read, or the result not be written. Nothing is left behind then,
        nor when ``progress`` cancels.
    """
    rows = strip_rows(source, halo)
    with contextlib.ExitStack() as stack:
        stack.enter_context(writing(target))
        reader = stack.enter_context(ThreadPoolExecutor(1))
        writer = stack.enter_context(ThreadPoolExecutor(1))
        worker = stack.enter_context(ThreadPoolExecutor(workers))
        stack.callback(source.close)
        written: list[Future[None]] = []
        made: deque[tuple[Place, Future[np.ndarray]]] = deque()
        done, every = 0, source.width * source.height

        def write_next() -> int:
            place, future = made.popleft()
            result = future.result()
            if written:
                written.pop().result()
            written.append(writer.submit(target.write, place.column, place.row, result))
            return int(result.size)

        for place, window in _read_ahead(source, rows, halo, workers, reader):
            made.append((place, worker.submit(work, place, window)))
            if len(made) > workers - 1:
                done += write_next()
            progress(done / every)
        while made:
            done += write_next()
            progress(done / every)
        if written:
            written.pop().result()


def strip_rows(source: RasterSource, halo: int = 0) -> int:
    """Return the height of strips: one tile, or several where the blocks are flat."""
    tile = min(max(source.block[1], 1), source.height)
    wide = min(source.width, _PANEL + 2 * halo)
    most = max(1, _STRIP_BYTES // (wide * max(source.dtype.itemsize, 4)))
    tiles = max(1, min(256, most) // tile)
    return tile * max(tiles, -(-halo // tile))


def _panels(source: RasterSource) -> Iterator[tuple[int, int]]:
    """Yield first column and number of columns of panels, whole tiles wide."""
    tile = max(source.block[0], 256)
    # Rows that lie whole on the disk would have to be read again for every panel.
    wide = _PANEL if tile >= source.width else max(_PANEL // tile, 1) * tile
    return windows(source.width, wide)


def _read_ahead(
    source: RasterSource, rows: int, halo: int, workers: int, reader: ThreadPoolExecutor
) -> Iterator[tuple[Place, np.ndarray]]:
    for column, columns in _panels(source):
        left = min(halo, column)
        right = min(halo, source.width - column - columns)
        for place, window in _read_panel(
            source, rows, halo, column - left, left + columns + right, workers, reader
        ):
            yield dataclasses.replace(place, column=column, left=left, right=right), window


def _read_panel(
    source: RasterSource,
    rows: int,
    halo: int,
    first: int,
    columns: int,
    workers: int,
    reader: ThreadPoolExecutor,
) -> Iterator[tuple[Place, np.ndarray]]:
    strips = list(windows(source.height, rows))
    # One is read, some are worked on and one is written at a time, and with a halo the next
    # must be there; new arrays would cost more than the work on them.
    ahead = 2 if halo else 1
    number_of_buffers = min(ahead + workers + 1, len(strips) + 1)
    buffers = [np.empty((rows + 2 * halo, columns), source.dtype) for _ in range(number_of_buffers)]

    def read(number: int) -> Future[np.ndarray]:
        row, count = strips[number]
        into = buffers[number % len(buffers)][halo : halo + count]
        return reader.submit(source.read, first, row, columns, count, into)

    waiting = [read(number) for number in range(min(ahead, len(strips)))]
    last = np.empty((0, columns), source.dtype)
    for number, (row, count) in enumerate(strips):
        waiting.pop(0).result()
        buffer = buffers[number % len(buffers)]
        below = 0
        if halo and waiting:
            following = waiting[0].result()
            below = min(halo, len(following))
            buffer[halo + count : halo + count + below] = following[:below]
        if number + ahead < len(strips):
            waiting.append(read(number + ahead))
        above = len(last)
        buffer[halo - above : halo] = last
        # The strip is changed while it is worked on.
        last = buffer[count : halo + count].copy()
        yield Place(row, above=above, below=below), buffer[halo - above : halo + count + below]


def require_plain_heights(source: RasterSource, name: str) -> None:
    """Refuse rasters whose pixels are no heights as they stand.

    Raises
    ------
    SurfaceError
        The rows do not run along x, the heights are stored scaled, or missing pixels are
        marked by a mask instead of a nodata value.
    """
    if source.is_rotated:
        raise SurfaceError(
            translate(
                "Layers",
                "The raster “{name}” is rotated: warp it to an unrotated grid first (gdalwarp).",
            ).format(name=name)
        )
    dataset = gdal.OpenEx(source.uri, gdal.OF_RASTER, open_options=list(source.open_options))
    band = dataset.GetRasterBand(source.band)
    if (band.GetScale() or 1.0) != 1.0 or (band.GetOffset() or 0.0) != 0.0:
        raise SurfaceError(
            translate(
                "Layers",
                "The raster “{name}” stores its heights scaled: unscale it first (gdal_translate -unscale).",
            ).format(name=name)
        )
    if band.GetMaskFlags() & gdal.GMF_PER_DATASET:
        raise SurfaceError(
            translate(
                "Layers",
                "The raster “{name}” marks missing pixels by a mask: give it a nodata value first (gdal_translate -mask none -a_nodata).",
            ).format(name=name)
        )


def require_options(options: Sequence[str]) -> None:
    """Refuse creation options that the GeoTIFF driver would ignore or fail on.

    Raises
    ------
    SurfaceError
        With what the driver says.
    """
    said: list[str] = []
    path = "/vsimem/undercourse_options.tif"
    gdal.PushErrorHandler(lambda _kind, _number, message: said.append(message))
    try:
        gdal.GetDriverByName("GTiff").Create(path, 16, 16, 1, gdal.GDT_Float32, list(options))
    except RuntimeError as error:
        said.append(str(error))
    finally:
        gdal.PopErrorHandler()
        with contextlib.suppress(RuntimeError):
            gdal.Unlink(path)
    if said:
        raise SurfaceError(
            translate("Layers", "The creation options {options} do not fit: {why}.").format(
                options="|".join(options), why=said[0].rstrip(".")
            )
        )


def band_count(source: RasterSource) -> int:
    """Return how many bands the file of a raster has."""
    dataset = gdal.OpenEx(source.uri, gdal.OF_RASTER, open_options=list(source.open_options))
    return int(dataset.RasterCount)


def float_type(source: RasterSource) -> np.dtype:
    """Return the type for heights: that of the raster, or one that holds its whole numbers.

    8 and 16 bit whole numbers become float32, longer ones float64.
    """
    if source.dtype.kind == "f":
        return np.dtype(np.float32) if source.dtype.itemsize < 4 else source.dtype
    return np.dtype(np.float32 if source.dtype.itemsize <= _FLOAT32_HOLDS else np.float64)
