"""Faces as spans: the pixels of one row whose centres lie in a face.

All is reckoned in pixels: whole numbers are centres, rows count along the grid. A row meets a
face in the part between two of its sides; where a side meets a row is worked out from its upper
to its lower end, whichever face asks, so that two faces that share a side part the row at the
very same number.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 15
_ROWS = 1 << 16
_TINY = 1e-200


@dataclass(frozen=True, eq=False)
class FaceSpans:
    """Runs of pixels with heights that change evenly.

    Parameters
    ----------
    row, start, count : (k,) int
        Row of the grid, first column, and number of pixels (at least one).
    first, step : (k,) float
        Height at the first pixel, and what each further one adds.
    face : (k,) int
        Face.
    """

    row: Ints
    start: Ints
    count: Ints
    first: Floats
    step: Floats
    face: Ints


class FaceRows:
    """The faces of a surface by the rows they meet.

    Parameters
    ----------
    place : (n, 2) float
        Column and row of the vertices, whole numbers at centres.
    heights : (n,) float
        Their heights.
    faces : (m, 3) int
        Faces.
    columns, rows : int
        Size of the grid.
    """

    def __init__(
        self, place: Floats, heights: Floats, faces: Ints, columns: int, rows: int
    ) -> None:
        self._place, self._heights, self._faces = place, heights, faces
        self._columns = columns
        begins, ends, members = [], [], []
        for block in range(0, len(faces), _BLOCK):
            corners = place.take(faces[block : block + _BLOCK], axis=0)
            low, high = corners.min(axis=1), corners.max(axis=1)
            begin = np.ceil(np.clip(low[:, 1], 0, rows)).astype(np.int32)
            end = np.ceil(np.clip(high[:, 1], 0, rows)).astype(np.int32)
            met = (begin < end) & (high[:, 0] >= 0) & (low[:, 0] < columns - 1 + 1e-6)
            met &= np.floor(high[:, 0]) > np.floor(low[:, 0])
            near = np.flatnonzero(met)
            begins.append(begin[near])
            ends.append(end[near])
            members.append(near + block)
        begin, end = np.concatenate(begins), np.concatenate(ends)
        order = np.argsort(begin, kind="stable")
        self._begin, self._end = begin[order], end[order]
        self._member = np.concatenate(members)[order]
        self._reach = np.maximum.accumulate(self._end) if len(order) else self._end

    def strip(self, first_row: int, rows: int) -> Iterator[FaceSpans]:
        """Yield the spans of some rows, a limited number at a time."""
        stop_row = first_row + rows
        start = int(np.searchsorted(self._reach, first_row, side="right"))
        stop = int(np.searchsorted(self._begin, stop_row, side="left"))
        near = start + np.flatnonzero(self._end[start:stop] > first_row)
        begin = np.maximum(self._begin[near], first_row).astype(np.int64)
        count = np.minimum(self._end[near], stop_row) - begin
        ends = np.cumsum(count)
        at = 0
        while at < len(near):
            done = ends[at - 1] if at else 0
            until = max(int(np.searchsorted(ends, done + _ROWS, side="right")), at + 1)
            yield self._spans(self._member[near[at:until]], begin[at:until], count[at:until])
            at = until

    def _spans(self, member: Ints, begin: Ints, count: Ints) -> FaceSpans:
        u, v, z = self._sorted_corners(member)
        owner = np.repeat(np.arange(len(member)), count)
        row = np.arange(len(owner)) - (np.cumsum(count) - count - begin).take(owner)
        middle = np.ceil(v[1]).astype(np.int64).take(owner)
        # The side from top to bottom on the one hand; the two others, one after the other.
        long_u, long_z = _meet(u, v, z, owner, row, np.zeros_like(owner), np.full_like(owner, 2))
        lower = (row >= middle).astype(np.int64)
        short_u, short_z = _meet(u, v, z, owner, row, lower, lower + 1)
        swap = long_u > short_u
        left, right = np.where(swap, short_u, long_u), np.where(swap, long_u, short_u)
        left_z, right_z = np.where(swap, short_z, long_z), np.where(swap, long_z, short_z)
        start = np.floor(np.clip(left, -1, self._columns)).astype(np.int64) + 1
        stop = np.floor(np.clip(right, -1, self._columns - 1)).astype(np.int64) + 1
        real = np.flatnonzero(stop > start)
        start, left, left_z = start[real], left[real], left_z[real]
        step = (right_z[real] - left_z) / np.maximum(right[real] - left, _TINY)
        return FaceSpans(
            row[real],
            start,
            stop[real] - start,
            left_z + step * (start - left),
            step,
            member[owner[real]],
        )

    def _sorted_corners(self, member: Ints) -> tuple[Floats, Floats, Floats]:
        """Return column, row and height of the corners of faces, upper first, three (3, k) arrays.

        Corners in one row are sorted by column: nothing hangs on the order the face names them.
        """
        corners = self._faces.take(member, axis=0)
        u, v, z = np.empty((3, 3, len(member)))
        for k in range(3):
            place = self._place.take(corners[:, k], axis=0)
            u[k], v[k] = place[:, 0], place[:, 1]
            z[k] = self._heights.take(corners[:, k])
        for one, other in ((0, 1), (1, 2), (0, 1)):
            wrong = np.flatnonzero(
                (v[one] > v[other]) | ((v[one] == v[other]) & (u[one] > u[other]))
            )
            for values in (u, v, z):
                values[one, wrong], values[other, wrong] = values[other, wrong], values[one, wrong]
        return u, v, z


def _meet(
    u: Floats, v: Floats, z: Floats, owner: Ints, row: Ints, upper: Ints, lower: Ints
) -> tuple[Floats, Floats]:
    """Return column and height where rows meet the side between two of the sorted corners."""
    size = u.shape[1]
    one, other = upper * size + owner, lower * size + owner
    top_u, top_v, top_z = (values.ravel().take(one) for values in (u, v, z))
    fall = v.ravel().take(other) - top_v
    down = row - top_v
    # Multiplied first: a side at 45 degrees through centres then meets them exactly.
    column = down * (u.ravel().take(other) - top_u) / fall + top_u
    height = down * (z.ravel().take(other) - top_z) / fall + top_z
    return column, height
