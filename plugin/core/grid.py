"""The place of a raster."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Extent = tuple[float, float, float, float]

_SLACK = 1e-6
"""Share of a pixel by which an extent may miss a border of pixels and still end there."""


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

    @classmethod
    def covering(cls, extent: Extent, pixel: float) -> "Grid":
        """Return the grid of square pixels over an extent whose borders are multiples of a pixel.

        Parameters
        ----------
        extent : (float, float, float, float)
            Smallest x, smallest y, largest x, largest y.
        pixel : float
            Side of a pixel, positive.
        """
        return cls(0.0, 0.0, pixel, -pixel, 0, 0).aligned(extent)

    def aligned(self, extent: Extent) -> "Grid":
        """Return the grid over an extent whose pixels lie in line with those of this one."""
        xmin, ymin, xmax, ymax = extent
        across = sorted([(xmin - self.left) / self.width, (xmax - self.left) / self.width])
        down = sorted([(ymin - self.top) / self.height, (ymax - self.top) / self.height])
        left, top = np.floor(across[0] + _SLACK), np.floor(down[0] + _SLACK)
        columns = max(int(np.ceil(across[1] - _SLACK) - left), 1)
        rows = max(int(np.ceil(down[1] - _SLACK) - top), 1)
        return Grid(
            self.left + float(left) * self.width,
            self.top + float(top) * self.height,
            self.width,
            self.height,
            columns,
            rows,
        )

    @property
    def extent(self) -> Extent:
        """Smallest x, smallest y, largest x and largest y."""
        right = self.left + self.columns * self.width
        bottom = self.top + self.rows * self.height
        return (
            min(self.left, right),
            min(self.top, bottom),
            max(self.left, right),
            max(self.top, bottom),
        )

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
