"""Which faces of two surfaces may lie over one another: a grid of bins, without duplicates.

Each box is entered in every bin it covers. Two boxes that overlap share a block of bins; the pair
is taken in the bin that holds the lower left corner of their overlap only. That bin is the first
column of one of the two boxes, and the first row of one of them. So the entries of a bin are kept
in four classes in this order:

    first column | first column and row | first row | neither

and an upper face is paired with one unbroken range of them: with all where it has its own first
column and row, with the first two classes where it has its first row only, with the middle two
where it has its first column only, with the second class alone where it has neither.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_MOST_ENTRIES = 6
_MOST_BINS = 8
_BLOCK_FACES = 4096
_BLOCK_PAIRS = 1 << 15
_FIELD = (1 << 15) - 1
_GUARDS = np.uint64(0x8000800080008000)
# Class of an entry by (first row, first column), and the classes an upper entry is paired with.
_CLASS = np.array([[3, 0], [2, 1]])
_FROM = np.array([[1, 1], [0, 0]])
_UNTIL = np.array([[2, 3], [2, 4]])


def _typical_side(lower: Floats, upper: Floats) -> float:
    """Return the median of the longer sides of boxes, from at most some thousands of them."""
    some = slice(None, None, max(len(lower) // 4096, 1))
    return float(np.median((upper[some] - lower[some]).max(axis=1)))


def _covered(lower: Floats, upper: Floats, cell: float) -> float:
    """Estimate how many bins boxes cover together."""
    across = (upper[:, 0] - lower[:, 0]) / cell + 1.0
    return float(across @ ((upper[:, 1] - lower[:, 1]) / cell + 1.0))


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
    def over(cls, *boxes: tuple[Floats, Floats]) -> "Grid":
        """Lay bins over boxes; they grow until a box covers six of them on average.

        Parameters
        ----------
        *boxes : pair of (m, 2) float
            Lower and upper corners of the boxes of each surface.
        """
        low = np.min([lower.min(axis=0) for lower, _ in boxes], axis=0)
        high = np.max([upper.max(axis=0) for _, upper in boxes], axis=0)
        west, south = low
        width, height = high - low
        count = max(len(lower) for lower, _ in boxes)
        cell = min(_typical_side(lower, upper) for lower, upper in boxes)
        cell = max(cell, float(np.sqrt(width * height / (_MOST_BINS * count))))
        cell = max(cell, float(max(width, height)) / (_MOST_BINS * count + 1000), 1e-300)
        while cell < max(width, height):
            covered = sum(_covered(lower, upper, cell) for lower, upper in boxes)
            if covered < _MOST_ENTRIES * sum(len(lower) for lower, _ in boxes):
                break
            cell *= 1.3
        return cls(west, south, cell, int(width / cell) + 1, int(height / cell) + 1)

    def place(self, corner: Floats) -> tuple[Ints, Ints]:
        """Return column and row of points, two (m,) int32."""
        column = ((corner[:, 0] - self.west) / self.cell).astype(np.int32)
        row = ((corner[:, 1] - self.south) / self.cell).astype(np.int32)
        return np.clip(column, 0, self.columns - 1), np.clip(row, 0, self.rows - 1)

    def order(self, lower: Floats) -> Ints:
        """Return an order of boxes by their first bin, row after row, (m,) int."""
        column, row = self.place(lower)
        return np.argsort(row * np.int64(self.columns) + column, kind="stable")

    def codes(self, lower: Floats, upper: Floats) -> tuple[NDArray, NDArray]:
        """Return each box as two numbers that tell boxes apart in one subtraction.

        Each number holds four fields of 15 bits and a guard bit: where the box begins in x and y,
        and, counted backwards, where it ends; the other number where it ends and, backwards,
        begins. Taking the first number of one box from the second of another leaves all guards
        standing where both overlap, within what 15 bits tell apart.

        Returns
        -------
        begins, ends : (m,) uint64
        """
        scale = (_FIELD - 1) / (self.cell * max(self.columns, self.rows))
        begins, ends = np.zeros(len(lower), np.uint64), np.full(len(lower), _GUARDS)
        for axis, start in ((0, self.west), (1, self.south)):
            first = np.clip((lower[:, axis] - start) * scale, 0, _FIELD - 1).astype(np.uint64)
            last = np.clip((upper[:, axis] - start) * scale + 1.0, 0, _FIELD).astype(np.uint64)
            for field, values in ((first, ends), (last, begins)):
                values += (np.uint64(_FIELD) - field) << np.uint64(32 * axis)
            for field, values in ((first, begins), (last, ends)):
                values += field << np.uint64(32 * axis + 16)
        return begins, ends


class Spans:
    """The bins that boxes cover.

    Parameters
    ----------
    grid : Grid
        The bins.
    lower, upper : (m, 2) float
        Corners of the boxes.
    """

    def __init__(self, grid: Grid, lower: Floats, upper: Floats) -> None:
        self._columns = grid.columns
        self._column, self._row = grid.place(lower)
        last_column, last_row = grid.place(upper)
        self._wide = last_column - self._column + 1
        self.count = self._wide * (last_row - self._row + 1)

    def entries(self, begin: int, end: int) -> tuple[Ints, Ints, Ints, Ints]:
        """List the bins that boxes ``begin`` to ``end`` cover.

        Returns
        -------
        box, bin : (k,) int
            Box and bin of each entry.
        first_row, first_column : (k,) int
            1 where the bin lies in the first row, the first column of the box.
        """
        count = self.count[begin:end]
        box = np.repeat(np.arange(begin, end), count)
        within = np.arange(len(box)) - np.repeat(np.cumsum(count) - count, count)
        wide = self._wide[box]
        up = within // wide
        right = within - up * wide
        number = (self._row[box] + up) * np.int64(self._columns) + self._column[box] + right
        return box, number, (up == 0).astype(np.int8), (right == 0).astype(np.int8)


def candidates(
    grid: Grid, upper: tuple[Floats, Floats], lower: tuple[Floats, Floats]
) -> Iterator[tuple[Ints, Ints, int]]:
    """Yield the pairs of boxes that share bins, each pair once, in blocks.

    Parameters
    ----------
    grid : Grid
        The bins.
    upper, lower : pair of (m, 2) float
        Lower and upper corners of the boxes of the two surfaces.

    Yields
    ------
    one, other : (k,) int
        Rows of the upper and the lower boxes.
    done : int
        Upper boxes dealt with when this block is.
    """
    spans = Spans(grid, *lower)
    box, number, first_row, first_column = spans.entries(0, len(lower[0]))
    key = 4 * number + _CLASS[first_row, first_column]
    member = box[np.argsort(key, kind="stable")]
    starts = np.zeros(4 * grid.columns * grid.rows + 1, dtype=np.int64)
    np.cumsum(np.bincount(key, minlength=len(starts) - 1), out=starts[1:])
    del spans, box, number, first_row, first_column, key
    spans = Spans(grid, *upper)
    begins, ends = grid.codes(*upper)[0], grid.codes(*lower)[1]
    for begin in range(0, len(upper[0]), _BLOCK_FACES):
        end = min(begin + _BLOCK_FACES, len(upper[0]))
        box, number, first_row, first_column = spans.entries(begin, end)
        start = starts[4 * number + _FROM[first_row, first_column]]
        count = starts[4 * number + _UNTIL[first_row, first_column]] - start
        stops = np.cumsum(count)
        at = 0
        while at < len(box):
            base = stops[at - 1] if at else 0
            stop = max(int(np.searchsorted(stops, base + _BLOCK_PAIRS, side="right")), at + 1)
            some = slice(at, stop)
            entry = np.repeat(np.arange(at, stop), count[some])
            one = box.take(entry)
            shift = start[some] - (stops[some] - count[some] - base)
            place = shift.take(entry - at)
            place += np.arange(len(place))
            other = member.take(place)
            near = ends.take(other) - begins.take(one) & _GUARDS == _GUARDS
            near = np.flatnonzero(near)
            at = stop
            yield one.take(near), other.take(near), end if at == len(box) else begin
