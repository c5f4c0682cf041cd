"""Centres that lie on the border of a surface.

Spans leave out one end of each row, so that of two neighbours exactly one has a centre on their
common side. At the border there is no neighbour: what lies on it belongs to the surface all the
same, within the rounding of the coordinates, as it does for `Tin.locate`.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Side:
    """Sides of faces in pixels.

    Parameters
    ----------
    ends : (k, 2, 2) float
        Column and row of both ends.
    heights : (k, 2) float
        Their heights.
    face : (k,) int
        Face of each.
    """

    ends: Floats
    heights: Floats
    face: Ints


class BorderCentres:
    """Finds the centres on the border, strip by strip.

    Parameters
    ----------
    sides : Side
        The border.
    pixel : (float, float)
        Size of a pixel.
    slack : float
        How far, in plan, a centre may lie off the border and still be on it.
    columns, rows : int
        Size of the grid.
    """

    def __init__(
        self, sides: Side, pixel: tuple[float, float], slack: float, columns: int, rows: int
    ) -> None:
        self._sides, self._columns = sides, columns
        self._pixel = np.array(pixel)
        self._slack = slack
        low, high = sides.ends.min(axis=1), sides.ends.max(axis=1)
        reach = slack / self._pixel
        # Centres that the box of a side holds; hardly any side of a fine surface has one.
        self._first = np.ceil(np.maximum(low - reach, 0.0)).astype(np.int64)
        last = np.floor(np.minimum(high + reach, [columns - 1.0, rows - 1.0]))
        self._last = last.astype(np.int64)
        self._any = np.flatnonzero((self._first <= self._last).all(axis=1))

    def strip(self, first_row: int, rows: int) -> tuple[Ints, Ints, Floats, Ints]:
        """Return row, column, height and face of the centres on the border in some rows."""
        some = self._any
        first, last = self._first[some], self._last[some]
        top = np.maximum(first[:, 1], first_row)
        bottom = np.minimum(last[:, 1], first_row + rows - 1)
        near = np.flatnonzero(top <= bottom)
        some, top, bottom = some[near], top[near], bottom[near]
        left, right = first[near, 0], last[near, 0]
        run = np.abs(self._sides.ends[some, 1] - self._sides.ends[some, 0])
        steep = run[:, 1] >= run[:, 0]
        found = [
            self._along(some[steep], top[steep], bottom[steep], 1),
            self._along(some[~steep], left[~steep], right[~steep], 0),
        ]
        row, column, height, face = (np.concatenate(parts) for parts in zip(*found, strict=True))
        here = (row >= first_row) & (row < first_row + rows)
        here &= (column >= 0) & (column < self._columns)
        return row[here], column[here], height[here], face[here]

    def _along(self, some: Ints, begin: Ints, end: Ints, axis: int) -> tuple[Ints, ...]:
        """Look at one centre a row (axis 1) or a column (axis 0): the one nearest the side."""
        count = end - begin + 1
        owner = np.repeat(np.arange(len(some)), count)
        at = np.arange(len(owner)) - (np.cumsum(count) - count - begin).take(owner)
        side = some[owner]
        start, stop = self._sides.ends[side, 0], self._sides.ends[side, 1]
        run = stop - start
        share = np.clip((at - start[:, axis]) / np.where(run[:, axis], run[:, axis], 1.0), 0.0, 1.0)
        other = 1 - axis
        across = np.rint(start[:, other] + share * run[:, other])
        centre = np.empty((len(owner), 2))
        centre[:, axis], centre[:, other] = at, across
        off = (centre - start) * self._pixel
        way = run * self._pixel
        squared = np.maximum(way[:, 0] ** 2 + way[:, 1] ** 2, 1e-300)
        share = np.clip((off[:, 0] * way[:, 0] + off[:, 1] * way[:, 1]) / squared, 0.0, 1.0)
        away = off - share[:, None] * way
        on = np.flatnonzero(np.hypot(away[:, 0], away[:, 1]) <= self._slack)
        low, high = self._sides.heights[side[on], 0], self._sides.heights[side[on], 1]
        place = centre[on].astype(np.int64)
        return place[:, 1], place[:, 0], low + share[on] * (high - low), self._sides.face[side[on]]
