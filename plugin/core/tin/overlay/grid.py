"""A grid of bins over the boxes of the faces of two surfaces."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Boxes = tuple[Floats, Floats]
"""Lower and upper corners, two (m, 2) arrays."""

_MOST_ENTRIES = 6
_MOST_BINS = 8
_SAMPLE = 4096
_FIELD = np.uint64((1 << 15) - 1)
GUARDS = np.uint64(0x8000800080008000)


@dataclass(frozen=True, eq=False)
class Grid:
    """Square bins.

    Parameters
    ----------
    west, south : float
        Lower left corner.
    cell : float
        Side of a bin.
    columns, rows : int
        Their number.
    """

    west: float
    south: float
    cell: float
    columns: int
    rows: int

    @classmethod
    def over(cls, one: Boxes, other: Boxes) -> "Grid":
        """Lay bins over boxes; they grow until a box covers six of them on average."""
        west, south = np.minimum(one[0].min(axis=0), other[0].min(axis=0))
        east, north = np.maximum(one[1].max(axis=0), other[1].max(axis=0))
        width, height = float(east - west), float(north - south)
        most = _MOST_BINS * max(len(one[0]), len(other[0]))
        cell = min(_typical_side(one), _typical_side(other))
        cell = max(cell, (width * height / most) ** 0.5, max(width, height) / (most + 1000), 1e-300)
        while cell < max(width, height):
            covered = _covered(one, cell) + _covered(other, cell)
            if covered < _MOST_ENTRIES * (len(one[0]) + len(other[0])):
                break
            cell *= 1.3
        return cls(west, south, cell, int(width / cell) + 1, int(height / cell) + 1)

    def place(self, corner: Floats) -> tuple[Ints, Ints]:
        """Return column and row of points, two (m,) int32; of the nearest bin when outside."""
        column = np.clip((corner[:, 0] - self.west) / self.cell, 0, self.columns - 1)
        row = np.clip((corner[:, 1] - self.south) / self.cell, 0, self.rows - 1)
        return column.astype(np.int32), row.astype(np.int32)

    def window(self, number: int) -> tuple[float, float, float, float]:
        """Return smallest x and y, largest x and y of a bin."""
        row, column = divmod(number, self.columns)
        west, south = self.west + column * self.cell, self.south + row * self.cell
        return west, south, west + self.cell, south + self.cell

    def order(self, lower: Floats) -> Ints:
        """Return an order of boxes by their first bin, row after row, (m,) int."""
        column, row = self.place(lower)
        return np.argsort(row * np.int64(self.columns) + column, kind="stable")

    def codes(self, boxes: Boxes) -> tuple[NDArray, NDArray]:
        """Return each box as two numbers that tell boxes apart in one subtraction.

        Each number holds four fields of 15 bits and a guard bit: the first where the box begins
        in x and y and, counted backwards, where it ends; the second where it ends and, backwards,
        begins. Taking the first number of one box from the second of another leaves all guards
        standing where both overlap or all but do: as near as 15 bits tell.

        Returns
        -------
        begins, ends : (m,) uint64
        """
        scale = int(_FIELD) / (self.cell * max(self.columns, self.rows))
        begins, ends = np.zeros(len(boxes[0]), np.uint64), np.full(len(boxes[0]), GUARDS)
        for axis, start in ((0, self.west), (1, self.south)):
            first, last = (
                np.clip((corner[:, axis] - start) * scale, 0, int(_FIELD)).astype(np.uint64)
                for corner in boxes
            )
            forward, backward = np.uint64(32 * axis + 16), np.uint64(32 * axis)
            begins += (first << forward) + ((_FIELD - last) << backward)
            ends += (last << forward) + ((_FIELD - first) << backward)
        return begins, ends


def _typical_side(boxes: Boxes) -> float:
    """Return the median of the longer sides of boxes, from some thousands of them at most."""
    lower, upper = boxes
    some = slice(None, None, max(len(lower) // _SAMPLE, 1))
    return float(np.median((upper[some] - lower[some]).max(axis=1)))


def within(boxes: Boxes, window: tuple[float, float, float, float]) -> Boxes:
    """Return the parts of boxes within a window."""
    lower, upper = (np.clip(corner, window[:2], window[2:]) for corner in boxes)
    return lower, upper


def _covered(boxes: Boxes, cell: float) -> float:
    """Estimate how many bins boxes cover together."""
    lower, upper = boxes
    across = (upper[:, 0] - lower[:, 0]) / cell + 1.0
    return float(across @ ((upper[:, 1] - lower[:, 1]) / cell + 1.0))
