"""The difference of two surfaces of which at least one is a raster, strip by strip."""

from collections.abc import Iterator

import numpy as np

from ..core.errors import SurfaceError
from ..core.text import translate
from ..core.tin import Tin
from ..core.tin.scan import Scan
from .raster_strips import float_type, require_plain_heights
from .rasters import RasterSource, windows
from .sampling import raster_heights
from .surfaces import Surface

_STRIP_PIXELS = 1 << 21
_SAME = 1e-6
"""Share of a pixel by which two grids may miss each other and still be one."""


class Differences:
    """Upper less lower at the centres of pixels.

    The pixels are those of the raster; of two rasters, those of the finer one (of equally fine
    ones, of that which begins farther west and south), whichever is called upper. A TIN has its
    exact height at the centre. The other raster has its own pixel there where the grids fit, and
    else the height between its centres, bilinear.

    Parameters
    ----------
    upper, lower
        The surfaces.

    Raises
    ------
    SurfaceError
        A raster is rotated or stores no plain heights, or the two have no ground in common.
    """

    def __init__(self, upper: Surface, lower: Surface) -> None:
        for surface in (upper, lower):
            if isinstance(surface.data, RasterSource):
                require_plain_heights(surface.data, surface.name)
        self._upper, self._lower = upper.data, lower.data
        rasters = [data for data in (upper.data, lower.data) if isinstance(data, RasterSource)]
        self.base = min(rasters, key=_rank)
        whole = self.base.grid
        extents = [_extent(data) for data in (upper.data, lower.data)]
        common = (
            *np.max([extent[:2] for extent in extents], axis=0),
            *np.min([extent[2:] for extent in extents], axis=0),
        )
        if not (common[0] < common[2] and common[1] < common[3]):
            raise SurfaceError(
                translate(
                    "Layers",
                    "“{one}” and “{other}” have no ground in common: check that both belong to this site.",
                ).format(one=upper.name, other=lower.name)
            )
        self.grid = whole.aligned(tuple(float(value) for value in common))
        self._scans: dict[int, Scan] = {}

    @property
    def slack(self) -> float:
        """Differences up to this are rounding."""
        return max(_rounding(self._upper), _rounding(self._lower))

    @property
    def fits(self) -> bool:
        """Whether no raster has to be read between the centres of its pixels."""
        return all(
            isinstance(data, Tin) or self._offset(data) is not None
            for data in (self._upper, self._lower)
        )

    def strips(self) -> Iterator[tuple[int, np.ndarray]]:
        """Yield the first row and the difference of some rows, NaN where a surface is missing."""
        rows = max(1, _STRIP_PIXELS // self.grid.columns)
        for row, count in windows(self.grid.rows, rows):
            yield (
                row,
                self._heights(self._upper, row, count) - self._heights(self._lower, row, count),
            )

    def _heights(self, data: Tin | RasterSource, row: int, count: int) -> np.ndarray:
        if isinstance(data, Tin):
            scan = self._scans.setdefault(id(data), Scan(data, self.grid))
            return scan.heights(row, count)
        offset = self._offset(data)
        if offset is None:
            centres = self.grid.centres(row, count)
            return raster_heights(data, centres).reshape(count, self.grid.columns)
        result = np.full((count, self.grid.columns), np.nan)
        left, top = max(offset[0], 0), max(offset[1] + row, 0)
        right = min(offset[0] + self.grid.columns, data.width)
        bottom = min(offset[1] + row + count, data.height)
        if left < right and top < bottom:
            with data.opened():
                window = data.read(left, top, right - left, bottom - top)
            values = window.astype(np.float64)
            values[data.missing(window)] = np.nan
            first, column = top - offset[1] - row, left - offset[0]
            result[first : first + len(values), column : column + values.shape[1]] = values
        return result

    def _offset(self, data: RasterSource) -> tuple[int, int] | None:
        """Return column and row of a raster at the first pixel; None where the grids do not fit."""
        own = data.grid
        column = (self.grid.left - own.left) / own.width
        row = (self.grid.top - own.top) / own.height
        drift = max(
            abs(own.width / self.grid.width - 1) * self.grid.columns,
            abs(own.height / self.grid.height - 1) * self.grid.rows,
            abs(column - round(column)),
            abs(row - round(row)),
        )
        return (round(column), round(row)) if drift <= _SAME else None


def _extent(data: Tin | RasterSource) -> tuple[float, ...]:
    return data.extent if isinstance(data, Tin) else data.grid.extent


def _rank(raster: RasterSource) -> tuple[float, ...]:
    grid = raster.grid
    return grid.pixel_area, *grid.extent


def _rounding(data: Tin | RasterSource) -> float:
    if isinstance(data, Tin):
        return data.rounding + 8.0 * float(np.spacing(np.abs(data.vertices[:, 2]).max()))
    # Heights are below 10 km: what the type of the raster makes of one of 1000.
    return 2.0 * float(np.spacing(np.ones(1, float_type(data)) * 1000)[0])
