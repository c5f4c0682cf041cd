"""Heights at points, from a TIN or a raster."""

from collections.abc import Callable

import numpy as np

from ..core.tin import Tin
from .rasters import RasterSource

_TILE = 512

Sample = Callable[[np.ndarray], np.ndarray]


def sampler(surface: Tin | RasterSource) -> Sample:
    """Return a function that gives the height at (p, 2) points, NaN where there is none."""
    if isinstance(surface, Tin):
        return lambda xy: surface.sample(xy)[0]
    return lambda xy: raster_heights(surface, xy)


def raster_heights(raster: RasterSource, xy: np.ndarray) -> np.ndarray:
    """Return heights between pixel centres, bilinear, (p,) float.

    In the outer half of the outermost pixels the height is that of the pixel centres at the rim.
    NaN outside the raster and wherever one of the pixels that count has no data.
    """
    t = raster.transform
    determinant = t[1] * t[5] - t[2] * t[4]
    dx, dy = xy[:, 0] - t[0], xy[:, 1] - t[3]
    column = (dx * t[5] - dy * t[2]) / determinant
    row = (dy * t[1] - dx * t[4]) / determinant
    result = np.full(len(xy), np.nan)
    inside = (column >= 0) & (column <= raster.width) & (row >= 0) & (row <= raster.height)
    index = np.flatnonzero(inside)
    if not len(index):
        return result
    column = np.clip(column[index] - 0.5, 0.0, raster.width - 1.0)
    row = np.clip(row[index] - 0.5, 0.0, raster.height - 1.0)
    tile = (row // _TILE).astype(np.int64) * (raster.width // _TILE + 1) + (column // _TILE).astype(
        np.int64
    )
    order = np.argsort(tile, kind="stable")
    starts = np.flatnonzero(np.diff(tile[order], prepend=-1))
    with raster.opened():
        for some in np.split(order, starts[1:]):
            result[index[some]] = _window(raster, column[some], row[some])
    return result


def _window(raster: RasterSource, column: np.ndarray, row: np.ndarray) -> np.ndarray:
    left, top = int(column.min()), int(row.min())
    width = min(int(column.max()) + 2, raster.width) - left
    height = min(int(row.max()) + 2, raster.height) - top
    window = raster.read(left, top, width, height)
    values = window.astype(float)
    values[raster.missing(window)] = np.nan
    i, j = np.floor(column).astype(np.int64) - left, np.floor(row).astype(np.int64) - top
    u, v = column - left - i, row - top - j
    i2, j2 = np.minimum(i + 1, width - 1), np.minimum(j + 1, height - 1)
    corners = (
        (j, i, (1 - u) * (1 - v)),
        (j, i2, u * (1 - v)),
        (j2, i, (1 - u) * v),
        (j2, i2, u * v),
    )
    # A pixel without weight does not count, also when it has no data.
    return sum(np.where(weight > 0, values[r, c] * weight, 0.0) for r, c, weight in corners)
