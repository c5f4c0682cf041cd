"""A grid of square bins over the bounding boxes of triangles."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..runs import count_up

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_MOST_ENTRIES_PER_FACE = 12
_BLOCK = 65536


def boxes(plan: Floats, faces: Ints) -> tuple[Floats, Floats]:
    """Return the lower and upper corners of the faces' bounding boxes, two (m, 2) arrays."""
    lower, upper = np.empty((len(faces), 2)), np.empty((len(faces), 2))
    for begin in range(0, len(faces), _BLOCK):
        some = slice(begin, begin + _BLOCK)
        first, second, third = (plan.take(faces[some, k], axis=0) for k in range(3))
        np.minimum(np.minimum(first, second), third, out=lower[some])
        np.maximum(np.maximum(first, second), third, out=upper[some])
    return lower, upper


def _cells(xy: Floats, origin: Floats, cell: float) -> NDArray[np.int32]:
    """Return column and row of points right of and above the origin, (k, 2) int32."""
    place = np.empty((len(xy), 2), dtype=np.int32)
    for begin in range(0, len(xy), _BLOCK):
        some = slice(begin, begin + _BLOCK)
        place[some] = (xy[some] - origin) / cell
    return np.maximum(place, 0, out=place)


@dataclass(frozen=True, eq=False)
class Bins:
    """Which bins the bounding box of each face covers.

    Parameters
    ----------
    origin : (2,) float
        Lower left corner of the grid.
    cell : float
        Side of a bin.
    shape : (int, int)
        Columns and rows.
    low, high : (m, 2) int32
        First and last column and row of each face.
    """

    origin: Floats
    cell: float
    shape: tuple[int, int]
    low: NDArray[np.int32]
    high: NDArray[np.int32]

    @classmethod
    def over(cls, lower: Floats, upper: Floats, margin: float) -> "Bins":
        """Lay bins over boxes; the bins hold about as many boxes as there are bins.

        Long thin triangles lying askew have boxes that cover many small bins, so the bins grow
        until the boxes cover at most 12 bins each on average.

        Parameters
        ----------
        lower, upper : (m, 2) float
            Corners of the boxes.
        margin : float
            The boxes are taken larger by this on each side.
        """
        origin = np.array([lower[:, 0].min(), lower[:, 1].min()]) - margin
        size = np.array([upper[:, 0].max(), upper[:, 1].max()]) + margin - origin
        count = len(lower)
        cell = float(np.sqrt(max(size[0] * size[1], 1e-300) / count))
        cell = max(cell, float(size.max()) / (4.0 * count), 1e-300)
        while True:
            low = _cells(lower, origin + margin, cell)
            high = _cells(upper, origin - margin, cell)
            covered = (high[:, 0] - low[:, 0] + 1) * (high[:, 1] - low[:, 1] + 1)
            if covered.sum() <= _MOST_ENTRIES_PER_FACE * count or cell >= size.max():
                break
            cell *= 1.5
        shape = int(high[:, 0].max()) + 1, int(high[:, 1].max()) + 1
        return cls(origin, cell, shape, low, high)

    @property
    def count(self) -> int:
        """Number of bins."""
        return self.shape[0] * self.shape[1]

    def of_points(self, xy: Floats) -> Ints:
        """Return the bin of each point, (k,) int, -1 outside the grid."""
        number = np.empty(len(xy), dtype=np.int64)
        columns, rows = self.shape
        for begin in range(0, len(xy), _BLOCK):
            some = slice(begin, begin + _BLOCK)
            x = (xy[some, 0] - self.origin[0]) / self.cell
            y = (xy[some, 1] - self.origin[1]) / self.cell
            inside = (x >= 0) & (x < columns) & (y >= 0) & (y < rows)
            x[~inside] = 0.0
            y[~inside] = 0.0
            number[some] = y.astype(np.int64) * columns + x.astype(np.int64)
            number[some][~inside] = -1
        return number

    def middles(self) -> Ints:
        """Return the bin in the middle of each box, (m,) int."""
        column = (self.low[:, 0] + self.high[:, 0]) >> 1
        row = (self.low[:, 1] + self.high[:, 1]) >> 1
        return row.astype(np.int64) * self.shape[0] + column

    def coverage(self, faces: NDArray | slice = slice(None)) -> Ints:
        """Count the boxes over each bin, (bins,) int, by differences and running sums."""
        columns, rows = self.shape
        wide = columns + 1
        low, high = self.low[faces].astype(np.int64), self.high[faces].astype(np.int64) + 1
        left, right = low[:, 0], high[:, 0]
        bottom, top = low[:, 1] * wide, high[:, 1] * wide
        size = wide * (rows + 1)
        change = np.bincount(bottom + left, minlength=size)
        change += np.bincount(top + right, minlength=size)
        change -= np.bincount(bottom + right, minlength=size)
        change -= np.bincount(top + left, minlength=size)
        counts = change.reshape(rows + 1, wide).cumsum(axis=0).cumsum(axis=1)
        return np.ascontiguousarray(counts[:rows, :columns]).ravel()

    def touching(self, wanted: NDArray[np.bool_]) -> Ints:
        """Return the faces whose box covers a wanted bin, in face order.

        Parameters
        ----------
        wanted : (bins,) bool
            The bins asked for.
        """
        columns, rows = self.shape
        sums = np.zeros((rows + 1, columns + 1), dtype=np.int64)
        np.cumsum(wanted.reshape(rows, columns), axis=0, out=sums[1:, 1:])
        np.cumsum(sums[1:, 1:], axis=1, out=sums[1:, 1:])
        # Few boxes have a wanted bin near their middle: only these are looked at closely.
        reach = int((self.high - self.low).max(initial=0)) // 2 + 1
        left, right = (np.clip(np.arange(columns) + k, 0, columns) for k in (-reach, reach + 1))
        below, above = (np.clip(np.arange(rows) + k, 0, rows) for k in (-reach, reach + 1))
        across = sums[:, right] - sums[:, left]
        near = (across[above] != across[below]).ravel()
        some = np.flatnonzero(near.take(self.middles()))
        x0, y0 = self.low[some].T
        x1, y1 = (self.high[some] + 1).T
        return some[(sums[y1, x1] - sums[y0, x1] - sums[y1, x0] + sums[y0, x0]) > 0]

    def entries(self, faces: Ints) -> tuple[Ints, Ints]:
        """List every (bin, face) of these faces, as two arrays sorted by bin, then face."""
        low, high = self.low[faces].astype(np.int64), self.high[faces].astype(np.int64)
        wide = high[:, 0] - low[:, 0] + 1
        count = wide * (high[:, 1] - low[:, 1] + 1)
        row = np.repeat(np.arange(len(faces)), count)
        place = count_up(count)
        width = wide[row]
        bins = (low[row, 1] + place // width) * self.shape[0] + low[row, 0] + place % width
        order = np.argsort(bins, kind="stable")
        return bins[order], faces[row[order]]
