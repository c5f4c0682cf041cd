"""Convex four-sided pieces laid over a grid: which pixels they may hold."""

import numpy as np
from numpy.typing import NDArray

from ...grid import Grid
from ...runs import count_up

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SLACK = 1e-6  # of a pixel; none is missed by a rounding


class Quads:
    """Pixels near convex pieces, for any rows of a grid.

    Parameters
    ----------
    corners : (k, 4, 2) float
        Corners in turn, counted from the grid's first corner, in plan units.
    grid : Grid
        The raster.
    """

    def __init__(self, corners: Floats, grid: Grid) -> None:
        self._x = corners[:, :, 0] / grid.width
        self._y = corners[:, :, 1] / grid.height
        low, high = self._y.min(axis=1, initial=np.inf), self._y.max(axis=1, initial=-np.inf)
        first = np.ceil(np.clip(low - 0.5 - _SLACK, 0, grid.rows))
        last = np.floor(np.clip(high - 0.5 + _SLACK, -1, grid.rows - 1)) + 1
        self._first, self._last = first.astype(np.int64), last.astype(np.int64)

    def strip(
        self, first_row: int, rows: int, first_column: int, columns: int
    ) -> tuple[Ints, Ints, Ints, Ints]:
        """Return runs of pixels that hold every centre in the pieces, and few beside.

        Parameters
        ----------
        first_row, rows, first_column, columns : int
            The window to look at.

        Returns
        -------
        piece, row, start, stop : (s,) int
            Piece of each run, its row, its first column, and the one after its last, counted from
            the first row of the window and the first column of the grid. Runs of different
            pieces may overlap.
        """
        near = np.flatnonzero((self._first < first_row + rows) & (self._last > first_row))
        begin = np.maximum(self._first[near], first_row)
        count = np.minimum(self._last[near], first_row + rows) - begin
        piece = np.repeat(near, count)
        row = np.repeat(begin, count) + count_up(count)
        centre = row + 0.5
        left = np.full(len(piece), np.inf)
        right = np.full(len(piece), -np.inf)
        for here in range(4):
            x, y = self._x[piece, here], self._y[piece, here]
            dx = self._x[piece, here - 1] - x
            dy = self._y[piece, here - 1] - y
            met = (np.minimum(y, y + dy) - _SLACK <= centre) & (
                centre <= np.maximum(y, y + dy) + _SLACK
            )
            level = np.abs(dy) < _SLACK
            share = np.clip((centre - y) / np.where(level, 1.0, dy), 0.0, 1.0)
            at = x + np.where(level, 0.0, share) * dx
            left = np.where(met, np.minimum(left, at), left)
            right = np.where(met, np.maximum(right, at), right)
            at = np.where(level, x + dx, at)
            left = np.where(met, np.minimum(left, at), left)
            right = np.where(met, np.maximum(right, at), right)
        last = first_column + columns
        start = np.clip(np.ceil(left - 0.5 - _SLACK), first_column, last)
        stop = np.clip(np.floor(right - 0.5 + _SLACK) + 1, first_column, last)
        real = start < stop
        return (
            piece[real],
            row[real] - first_row,
            start[real].astype(np.int64),
            stop[real].astype(np.int64),
        )
