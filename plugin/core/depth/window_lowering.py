"""Lower a raster by zones, strip by strip, and keep count."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from .window import Grid, ZoneSpans, count_pixels, fill, lower, missing_pixels
from .zones import Outside, Zones

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(eq=False)
class Tally:
    """What the strips so far amount to.

    Parameters
    ----------
    pixels : (k + 1,) int
        Pixels with data of each zone, and last those outside all zones that were lowered.
    lowest, highest : float
        Of the result; infinite as long as there is no pixel with data.
    clashes : int
        Heights that came out as the nodata value and so read as missing.
    clash : (float, float) or None
        Centre of the first of them.
    """

    pixels: Ints
    lowest: float = np.inf
    highest: float = -np.inf
    clashes: int = 0
    clash: tuple[float, float] | None = None


@dataclass(eq=False)
class Lowering:
    """Turns strips of a design raster into strips of its depth surface.

    Strips are independent of each other: however a raster is cut into them, and in whatever
    order they come, the result is the same.

    Parameters
    ----------
    zones : Zones
        Disjoint zones, as `resolve` gives them.
    grid : Grid
        The raster.
    outside : Outside
        What becomes of pixels in no zone.
    depth : float
        Depth of those pixels with ``Outside.USE_DEPTH``.
    nodata : float or None
        Value of pixels without data; NaN always counts as such. Must be given with
        ``Outside.LEAVE_OUT``.
    dtype : numpy dtype
        Type of the result, float32 or float64.
    """

    zones: Zones
    grid: Grid
    outside: Outside
    depth: float
    nodata: float | None
    dtype: np.dtype
    tally: Tally = field(init=False)

    def __post_init__(self) -> None:
        """Lay the zones over the grid."""
        if self.outside is Outside.LEAVE_OUT and self.nodata is None:
            raise ValueError("leaving out needs a nodata value")
        self.tally = Tally(np.zeros(len(self.zones) + 1, dtype=np.int64))
        self._spans = ZoneSpans(self.zones.polygons, self.grid)
        self._depths = np.append(self.zones.depths, self.depth).astype(np.float64)

    def strip(self, first_row: int, window: NDArray) -> NDArray[np.floating]:
        """Return the depth surface of some whole rows, and count them.

        Parameters
        ----------
        first_row : int
            Row of the raster the window begins with.
        window : (rows, columns) array
            Heights of the design; a float array of the result's type is changed in place.

        Returns
        -------
        (rows, columns) float
            In pixels without data, the very bits of the window.
        """
        heights = window if window.dtype == self.dtype else window.astype(self.dtype)
        rows, columns = heights.shape
        spans = self._spans.strip(first_row, rows)
        missing = missing_pixels(heights, self.nodata)
        kept = None if missing is None else heights.copy()
        lower(heights, spans, self._depths)
        pixels = count_pixels(spans, len(self.zones), missing)
        absent = missing
        if self.outside is not Outside.KEEP:
            rest = spans.rest(rows, columns)
            if self.outside is Outside.USE_DEPTH:
                lower(heights, rest, self._depths)
                pixels += count_pixels(rest, len(self.zones), missing)
            else:
                fill(heights, rest, self.nodata)
                absent = np.zeros(heights.shape, bool) if missing is None else missing.copy()
                fill(absent, rest, True)
        if kept is not None:
            np.copyto(heights, kept, where=missing)
        self.tally.pixels += pixels
        self._measure(first_row, heights, absent)
        return heights

    def _measure(
        self, first_row: int, heights: NDArray[np.floating], absent: NDArray[np.bool_] | None
    ) -> None:
        """Note lowest and highest, and heights that read as missing."""
        lowest, highest = _range(heights, absent)
        self.tally.lowest = min(self.tally.lowest, lowest)
        self.tally.highest = max(self.tally.highest, highest)
        if self.nodata is None:
            return
        nodata = self.dtype.type(self.nodata)
        if not lowest <= nodata <= highest:
            return
        clash = heights == nodata
        if absent is not None:
            clash &= ~absent
        rows, columns = np.nonzero(clash)
        if len(rows) and self.tally.clash is None:
            self.tally.clash = (
                self.grid.left + (float(columns[0]) + 0.5) * self.grid.width,
                self.grid.top + (first_row + float(rows[0]) + 0.5) * self.grid.height,
            )
        self.tally.clashes += len(rows)


def _range(heights: NDArray[np.floating], absent: NDArray[np.bool_] | None) -> tuple[float, float]:
    if absent is None:
        return float(heights.min()), float(heights.max())
    there = ~absent
    return (
        float(heights.min(where=there, initial=np.inf)),
        float(heights.max(where=there, initial=-np.inf)),
    )
