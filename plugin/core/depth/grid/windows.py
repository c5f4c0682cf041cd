"""Windows of a design raster: heights, where there are any, and what is carried on."""

from collections.abc import Callable
from dataclasses import dataclass, field
from threading import Lock

import numpy as np
from numpy.typing import NDArray

from ...grid import Grid
from .carry import carried, fill_in
from .slope import gradient_at
from .spans import missing_pixels

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

Read = Callable[[int, int, int, int], NDArray]
"""Returns a window, given its first column, first row, width and height; it may be changed."""


@dataclass(frozen=True, eq=False)
class Window:
    """Part of a raster.

    Parameters
    ----------
    heights : (rows, columns) float
        Heights.
    missing : (rows, columns) bool, or None
        Pixels without data.
    row, column : int
        Where its first pixel lies in the raster.
    grid : Grid
        The raster.
    """

    heights: NDArray[np.floating]
    missing: Mask | None
    row: int
    column: int
    grid: Grid

    def cells(self, x: Floats, y: Floats) -> tuple[Ints, Ints, Floats, Floats, Mask]:
        """Return between which pixels positions lie.

        Parameters
        ----------
        x, y : (k,) float
            Counted from the grid's first corner.

        Returns
        -------
        row, column : (k,) int
            Upper left one of the four pixels around each, in the window.
        down, across : (k,) float
            Place between them; outside 0 to 1 beyond the outermost centres of the raster.
        inside : (k,) bool
            Whether the four pixels lie in the window and the place at most two pixels outside
            the raster.
        """
        grid = self.grid
        down, across = y / grid.height - 0.5, x / grid.width - 0.5
        near = (down > -2.5) & (down < grid.rows + 1.5)
        near &= (across > -2.5) & (across < grid.columns + 1.5)
        row = np.clip(np.floor(np.where(near, down, 0)), 0, max(grid.rows - 2, 0))
        column = np.clip(np.floor(np.where(near, across, 0)), 0, max(grid.columns - 2, 0))
        down, across = down - row, across - column
        row, column = row.astype(np.int64) - self.row, column.astype(np.int64) - self.column
        rows, columns = self.heights.shape
        inside = near & (row >= 0) & (row < rows - 1) & (column >= 0) & (column < columns - 1)
        return row, column, down, across, inside

    def gradient(self, x: Floats, y: Floats) -> Floats:
        """Return the gradient of the pixel each place lies in, (k, 2) float; 0 without data.

        Parameters
        ----------
        x, y : (k,) float
            Counted from the grid's first corner.
        """
        grid = self.grid
        result = np.zeros((len(x), 2))
        row = np.clip(np.floor(y / grid.height), 0, grid.rows - 1).astype(np.int64) - self.row
        column = np.clip(np.floor(x / grid.width), 0, grid.columns - 1).astype(np.int64)
        column -= self.column
        here = np.arange(len(x))
        if self.missing is not None:
            here = here[~self.missing[row, column]]
        step = (grid.width, grid.height)
        along = gradient_at(self.heights, self.missing, row[here], column[here], step)
        result[here] = np.column_stack(along)
        return result

    def at(self, x: Floats, y: Floats) -> Floats:
        """Return heights between pixel centres, (k,) float.

        Bilinear where all four pixels around have data; else the nearest of them that has, its
        height carried on with its gradient. NaN where none has.

        Parameters
        ----------
        x, y : (k,) float
            Counted from the grid's first corner.
        """
        row, column, down, across, inside = self.cells(x, y)
        result = np.full(len(x), np.nan)
        here = np.flatnonzero(inside)
        row, column, down, across = row[here], column[here], down[here], across[here]
        corners = [(row + i, column + j) for i in (0, 1) for j in (0, 1)]
        weights = [(1 - down) * across, down * (1 - across), down * across]
        # Differences from one corner: equal heights give that height to the last bit.
        first = self.heights[corners[0]].astype(np.float64)
        total = np.zeros(len(here))
        with np.errstate(all="ignore"):  # values of missing pixels may be anything
            for corner, weight in zip(corners[1:], weights, strict=True):
                total += weight * (self.heights[corner] - first)
        result[here] = first + total
        if self.missing is not None:
            gone = np.stack([self.missing[corner] for corner in corners])
            odd = np.flatnonzero(gone.any(axis=0))
            cell = (row[odd], column[odd], down[odd], across[odd])
            result[here[odd]] = self._beside_gaps(gone[:, odd], *cell)
        return result

    def _beside_gaps(
        self, gone: Mask, row: Ints, column: Ints, down: Floats, across: Floats
    ) -> Floats:
        """Return heights at places some of whose four pixels are without data."""
        width, height = self.grid.width, self.grid.height
        away = [np.hypot((down - i) * height, (across - j) * width) for i in (0, 1) for j in (0, 1)]
        distance = np.where(gone, np.inf, np.stack(away))
        best = distance.argmin(axis=0)
        some = np.flatnonzero(np.isfinite(distance.min(axis=0)))
        best, down, across = best[some], down[some], across[some]
        row, column = row[some] + best // 2, column[some] + best % 2
        x, y = gradient_at(self.heights, self.missing, row, column, (width, height))
        result = np.full(gone.shape[1], np.nan)
        result[some] = self.heights[row, column] + (
            x * (across - best % 2) * width + y * (down - best // 2) * height
        )
        return result


@dataclass(frozen=True)
class Design:
    """A design raster that can be read window by window.

    Parameters
    ----------
    read : callable
        Gives a window; see `Read`.
    grid : Grid
        Its place.
    nodata : float or None
        Value of pixels without data; NaN always counts as such.
    dtype : numpy dtype
        Type to work in, float32 or float64.
    carry : int
        Pixels over which heights are carried on where there is no data.
    lock : Lock
        Held while reading: windows may be asked for from several threads.
    """

    read: Read
    grid: Grid
    nodata: float | None
    dtype: np.dtype
    carry: int = 0
    lock: Lock = field(default_factory=Lock, repr=False)

    def window(self, row: int, column: int, rows: int, columns: int) -> Window:
        """Read a window and carry heights on in it; it is cut to the raster."""
        grid = self.grid
        margin = self.carry + 1 if self.carry else 0
        wide = _cut(row - margin, rows + 2 * margin, grid.rows)
        broad = _cut(column - margin, columns + 2 * margin, grid.columns)
        with self.lock:
            heights = self.read(broad[0], wide[0], broad[1] - broad[0], wide[1] - wide[0])
        heights = heights.astype(self.dtype, copy=False)
        missing = missing_pixels(heights, self.nodata)
        if self.carry and missing is not None:
            down, across = np.nonzero(missing)
            step = (grid.width, grid.height)
            values, _ = carried(heights, missing, down, across, self.carry, step)
            fill_in(heights, missing, down, across, values)
        tall, long = _cut(row, rows, grid.rows), _cut(column, columns, grid.columns)
        part = (
            slice(tall[0] - wide[0], tall[1] - wide[0]),
            slice(long[0] - broad[0], long[1] - broad[0]),
        )
        kept = None if missing is None else missing[part]
        return Window(heights[part], kept, tall[0], long[0], grid)


def _cut(first: int, count: int, size: int) -> tuple[int, int]:
    start = min(max(first, 0), size)
    return start, max(start, min(first + count, size))
