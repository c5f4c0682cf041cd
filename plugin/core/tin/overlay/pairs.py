"""Which faces of two surfaces may lie over one another: bins, without duplicates.

Each box is entered in every bin it covers. Two boxes that overlap share a block of bins; the pair
is taken in the bin that holds the lower left corner of their overlap only. That bin is the first
column of one of the two boxes, and the first row of one of them. So the entries of a bin are kept
in four classes in this order:

    first column | first column and row | first row | neither

and an upper face is paired with one unbroken range of them: with all where it has its own first
column and row, with the first two classes where it has its first row only, with the middle two
where it has its first column only, with the second class alone where it has neither.

A bin with many small faces of both surfaces gets a grid of its own.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .grid import GUARDS, Boxes, Grid, within

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Block = tuple[Ints, Ints, float]

_BLOCK_FACES = 4096
_BLOCK_PAIRS = 1 << 15
_CROWD = 256
_ZOOMS = 8
_WORTHWHILE = 16
# Class of an entry by (first row, first column), and the classes an upper entry is paired with.
_CLASS = np.array([[3, 0], [2, 1]])
_FROM = np.array([[1, 1], [0, 0]])
_UNTIL = np.array([[2, 3], [2, 4]])


@dataclass(frozen=True, eq=False)
class Spans:
    """The bins that boxes cover.

    Parameters
    ----------
    grid : Grid
        The bins.
    column, row, last_column, last_row : (m,) int
        First and last bin of each box; -1 for a first one left of or below the grid.
    """

    grid: Grid
    column: Ints
    row: Ints
    last_column: Ints
    last_row: Ints

    @classmethod
    def over(cls, grid: Grid, boxes: Boxes) -> "Spans":
        """Return the bins of boxes that lie in a grid."""
        return cls(grid, *grid.place(boxes[0]), *grid.place(boxes[1]))

    def zoomed(self, number: int, some: Ints, grid: Grid, boxes: Boxes) -> "Spans":
        """Return the bins of some of the boxes in a grid that fills one bin of this one.

        Which boxes begin and end in the bin is taken from here, so that no pair is lost or met
        twice for rounding.
        """
        row, column = divmod(number, self.grid.columns)
        inner = Spans.over(grid, boxes)
        return Spans(
            grid,
            np.where(self.column[some] == column, inner.column, -1),
            np.where(self.row[some] == row, inner.row, -1),
            np.where(self.last_column[some] == column, inner.last_column, grid.columns - 1),
            np.where(self.last_row[some] == row, inner.last_row, grid.rows - 1),
        )

    def entries(self, begin: int, end: int) -> tuple[Ints, Ints, Ints, Ints]:
        """List the bins that boxes ``begin`` to ``end`` cover.

        Returns
        -------
        box, bin : (k,) int
            Box and bin of each entry.
        first_row, first_column : (k,) int
            1 where the bin lies in the first row, the first column of the box.
        """
        some = slice(begin, end)
        left, bottom = np.maximum(self.column[some], 0), np.maximum(self.row[some], 0)
        wide = (self.last_column[some] - left + 1).astype(np.int64)
        count = wide * (self.last_row[some] - bottom + 1)
        own = np.repeat(np.arange(len(count)), count)
        place = np.arange(len(own)) - (np.cumsum(count) - count).take(own)
        wide = wide.take(own)
        up = place // wide
        column = place - up * wide + left.take(own)
        row = up + bottom.take(own)
        own += begin
        first_row = (row == self.row.take(own)).view(np.int8)
        first_column = (column == self.column.take(own)).view(np.int8)
        return own, row * self.grid.columns + column, first_row, first_column


def candidates(grid: Grid, upper: Boxes, lower: Boxes) -> Iterator[Block]:
    """Yield the pairs of boxes that may overlap, each pair once, in blocks.

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
    done : float
        Share of the upper boxes dealt with when this block is.
    """
    yield from _in_grid(Spans.over(grid, upper), Spans.over(grid, lower), upper, lower, _ZOOMS)


def _in_grid(one: Spans, other: Spans, upper: Boxes, lower: Boxes, zooms: int) -> Iterator[Block]:
    grid = one.grid
    box, number, first_row, first_column = other.entries(0, len(lower[0]))
    key = 4 * number + _CLASS[first_row, first_column]
    member = box[np.argsort(key, kind="stable")]
    starts = np.zeros(4 * grid.columns * grid.rows + 1, dtype=np.int64)
    np.cumsum(np.bincount(key, minlength=len(starts) - 1), out=starts[1:])
    del box, number, first_row, first_column, key
    crowded = _crowded(one, starts, upper) if zooms > 0 else None
    begins, ends = grid.codes(upper)[0], grid.codes(lower)[1]
    put_off: list[tuple[Ints, Ints]] = []
    total = len(upper[0])
    for begin in range(0, total, _BLOCK_FACES):
        stop = min(begin + _BLOCK_FACES, total)
        box, number, first_row, first_column = one.entries(begin, stop)
        start = starts[4 * number + _FROM[first_row, first_column]]
        count = starts[4 * number + _UNTIL[first_row, first_column]] - start
        if crowded is not None:
            dense = np.flatnonzero(crowded[number])
            put_off.append((number[dense], box[dense]))
            count[dense] = 0
        for first, second in _expanded(box, start, count, member):
            apart = (ends.take(second) - begins.take(first)) & GUARDS
            near = np.flatnonzero(apart == GUARDS)
            yield first.take(near), second.take(near), begin / total
        yield box[:0], box[:0], stop / total
    if put_off:
        numbers, boxes = (np.concatenate(parts) for parts in zip(*put_off, strict=True))
        for bin_number, some in _grouped(numbers, boxes):
            others = np.sort(member[starts[4 * bin_number] : starts[4 * bin_number + 4]])
            yield from _in_bin(bin_number, (one, other), (some, others), (upper, lower), zooms - 1)


def _expanded(box: Ints, start: Ints, count: Ints, member: Ints) -> Iterator[tuple[Ints, Ints]]:
    """Write out pairs of entries with ranges of members, so many at a time."""
    stops = np.cumsum(count)
    at = 0
    while at < len(box):
        base = stops[at - 1] if at else 0
        stop = max(int(np.searchsorted(stops, base + _BLOCK_PAIRS, side="right")), at + 1)
        some = slice(at, stop)
        entry = np.repeat(np.arange(at, stop), count[some])
        shift = start[some] - (stops[some] - count[some] - base)
        place = shift.take(entry - at)
        place += np.arange(len(place))
        yield box.take(entry), member.take(place)
        at = stop


def _crowded(one: Spans, starts: Ints, upper: Boxes) -> NDArray[np.bool_] | None:
    """Tell which bins hold many faces of both surfaces, (bins,) bool, or None when none does."""
    below = np.diff(starts[::4]) > _CROWD
    if not below.any():
        return None
    above = np.zeros(len(below), dtype=np.int64)
    for begin in range(0, len(upper[0]), _BLOCK_FACES):
        number = one.entries(begin, min(begin + _BLOCK_FACES, len(upper[0])))[1]
        above += np.bincount(number[below[number]], minlength=len(below))
    dense = below & (above > _CROWD)
    return dense if dense.any() else None


def _grouped(numbers: Ints, boxes: Ints) -> Iterator[tuple[int, Ints]]:
    order = np.argsort(numbers, kind="stable")
    names, first = np.unique(numbers[order], return_index=True)
    for name, group in zip(names, np.split(boxes[order], first[1:]), strict=True):
        yield int(name), group


def _in_bin(
    number: int,
    spans: tuple[Spans, Spans],
    rows: tuple[Ints, Ints],
    boxes: tuple[Boxes, Boxes],
    zooms: int,
) -> Iterator[Block]:
    """Yield the pairs that one bin holds, by a grid of its own."""
    window = spans[0].grid.window(number)
    upper, lower = (
        within((box[0].take(row, axis=0), box[1].take(row, axis=0)), window)
        for box, row in zip(boxes, rows, strict=True)
    )
    grid = Grid.over(upper, lower)
    if grid.columns * grid.rows < _WORTHWHILE:
        zooms = 0
    one, other = (
        span.zoomed(number, row, grid, box)
        for span, row, box in zip(spans, rows, (upper, lower), strict=True)
    )
    for first, second, _ in _in_grid(one, other, upper, lower, zooms):
        yield rows[0].take(first), rows[1].take(second), 1.0
