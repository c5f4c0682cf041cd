"""The place of a raster."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class Grid:
    """Place of a raster whose rows run along x.

    Parameters
    ----------
    left, top : float
        Outer corner of the first pixel.
    width, height : float
        Step from column to column and from row to row; ``height`` is negative when rows run
        down, as they usually do.
    columns, rows : int
        Size.
    """

    left: float
    top: float
    width: float
    height: float
    columns: int
    rows: int

    @property
    def pixel_area(self) -> float:
        """Plan area of a pixel."""
        return abs(self.width * self.height)

    def centres(self, first_row: int, rows: int) -> Floats:
        """Return the centres of the pixels of some whole rows, (rows * columns, 2) float."""
        x = self.left + (np.arange(self.columns) + 0.5) * self.width
        y = self.top + (np.arange(first_row, first_row + rows) + 0.5) * self.height
        return np.column_stack([np.tile(x, rows), np.repeat(y, self.columns)])

    def pixels(self, xy: Floats) -> Floats:
        """Return points in columns and rows, whole numbers at the centres of pixels, (k, 2) float.

        Coordinates are subtracted before they are divided, so that a site far from the origin
        loses nothing.
        """
        place = np.empty((len(xy), 2))
        np.subtract(xy[:, 0], self.left, out=place[:, 0])
        np.subtract(xy[:, 1], self.top, out=place[:, 1])
        place[:, 0] /= self.width
        place[:, 1] /= self.height
        place -= 0.5
        return place
