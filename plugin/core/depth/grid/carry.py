"""Carrying a design on where it has no data.

A pixel without data gets the height of the nearest pixel that has some, carried on with the
gradient of that pixel: a plane goes on exactly as it is. Nothing is carried farther than a
stated number of rows and columns, so that a window with such a margin gives what the whole
raster gives.
"""

import numpy as np
from numpy.typing import NDArray

from .slope import gradient_at

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]


def carried(
    window: NDArray[np.floating],
    missing: Mask,
    row: Ints,
    column: Ints,
    reach: int,
    step: tuple[float, float],
) -> tuple[Floats, Floats]:
    """Return heights for pixels without data, and how steep the design is carried on there.

    Parameters
    ----------
    window : (rows, columns) float
        Heights.
    missing : (rows, columns) bool
        Pixels without data.
    row, column : (k,) int
        The pixels to find heights for.
    reach : int
        How many rows and columns away data may lie.
    step : (float, float)
        Step from column to column and from row to row, in plan units.

    Returns
    -------
    heights : (k,) float
        NaN where there is no data within reach.
    squares : (k,) float
        Square of the slope, in units of height by plan units.
    """
    source_row, source_column = _nearest(missing, row, column, reach, step)
    found = np.flatnonzero(source_row >= 0)
    values, squares = np.full(len(row), np.nan), np.zeros(len(row))
    if not len(found):
        return values, squares
    place = source_row[found] * window.shape[1] + source_column[found]
    source, number = np.unique(place, return_inverse=True)
    source_row, source_column = np.divmod(source, window.shape[1])
    x, y = gradient_at(window, missing, source_row, source_column, step)
    across = (column[found] - source_column[number]) * step[0]
    down = (row[found] - source_row[number]) * step[1]
    values[found] = window[source_row, source_column][number] + (
        x[number] * across + y[number] * down
    )
    squares[found] = (x * x + y * y)[number]
    return values, squares


def fill_in(
    window: NDArray[np.floating], missing: Mask, row: Ints, column: Ints, values: Floats
) -> None:
    """Give pixels without data the heights that were found for them, in place."""
    found = np.flatnonzero(~np.isnan(values))
    row, column = row[found], column[found]
    window[row, column] = values[found]
    missing[row, column] = False


def _nearest(
    missing: Mask, row: Ints, column: Ints, reach: int, step: tuple[float, float]
) -> tuple[Ints, Ints]:
    """Return the nearest pixel with data of each pixel, -1 where there is none within reach.

    Of equally near ones the same is taken whatever the window.
    """
    up = _rows_to_data(missing, reach)
    down = _rows_to_data(missing[::-1], reach)[::-1]
    rows_away = np.where(up <= down, -up, down)
    width, height = abs(step[0]), abs(step[1])
    best = np.full(len(row), np.inf)
    best_row = np.full(len(row), -1, dtype=np.int64)
    best_column = best_row.copy()
    open_ = np.arange(len(row))
    columns = missing.shape[1]
    for away in range(reach + 1):
        open_ = open_[(away * width) ** 2 < best[open_]]
        if not len(open_):
            break
        for side in (-away, away) if away else (0,):
            other = column[open_] + side
            inside = open_[(other >= 0) & (other < columns)]
            there = column[inside] + side
            rows = rows_away[row[inside], there].astype(np.int64)
            square = (away * width) ** 2 + (rows * height) ** 2
            better = (np.abs(rows) <= reach) & (square < best[inside])
            chosen = inside[better]
            best[chosen] = square[better]
            best_row[chosen] = row[chosen] + rows[better]
            best_column[chosen] = there[better]
    return best_row, best_column


def _rows_to_data(missing: Mask, reach: int) -> NDArray[np.int16]:
    """Return how many rows above the next pixel with data lies; more than ``reach`` for far."""
    result = np.empty(missing.shape, dtype=np.int16)
    far = np.int16(reach + 1)
    before = np.full(missing.shape[1], far, dtype=np.int16)
    for number, gaps in enumerate(missing):
        before = np.where(gaps, np.minimum(before + np.int16(1), far), np.int16(0))
        result[number] = before
    return result
