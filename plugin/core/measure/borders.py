"""Outlines of what cells of one label cover together."""

from collections.abc import Callable

import numpy as np
import shapely
from numpy.typing import NDArray

from ..runs import count_up

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SPREAD = (0x9E3779B97F4A7C15, 0xC2B2AE3D27D4EB4F, 0x165667B19E3779F9, 0xD6E8FEB86659FD93)


class Borders:
    """Gathers the sides of cells and drops those with the same label on both sides.

    Where cells fit but for rounding, nearly all sides go this way; the few left are noded,
    closed to polygons, and each polygon is asked for its label anew, so that no hairline
    between cells can turn a region inside out.

    Parameters
    ----------
    grid : float
        Places nearer than this are one; far above the rounding of coordinates, far below what
        can be staked.
    """

    def __init__(self, grid: float) -> None:
        self._grid = grid
        self._ends = np.zeros((0, 4), dtype=np.int64)
        self._label = np.zeros(0, dtype=np.int64)
        self._more: list[tuple[Ints, Ints]] = []

    def add(self, xy: Floats, count: Ints, label: Ints) -> None:
        """Add cells.

        Parameters
        ----------
        xy : (sum of counts, 2) float
            Their corners, counter-clockwise, counted from nearby.
        count : (k,) int
            Corners of each cell; cells with fewer than three are passed over.
        label : (k,) int
            Label of each.
        """
        place = np.round(xy / self._grid).astype(np.int64)
        within = count_up(count)
        last = within == np.repeat(count, count) - 1
        following = np.arange(len(place)) + 1
        following[last] -= count[count > 0]
        ends = np.concatenate((place, place[following]), axis=1)
        kept = np.repeat(count >= 3, count) & (ends[:, :2] != ends[:, 2:]).any(axis=1)
        self._more.append(_left(ends[kept], np.repeat(label, count)[kept]))
        if sum(len(some) for some, _ in self._more) > 4 * len(self._ends) + (1 << 18):
            self._settle()

    def _settle(self) -> None:
        ends = np.concatenate([self._ends, *(some for some, _ in self._more)])
        label = np.concatenate([self._label, *(some for _, some in self._more)])
        self._ends, self._label = _left(ends, label)
        self._more = []

    def outlines(
        self, label_of: Callable[[Floats], Ints], labels: int, origin: Floats
    ) -> NDArray[np.object_]:
        """Return the outline of each label, (labels,) object; None where it has no ground.

        Parameters
        ----------
        label_of : callable
            Gives the label of the ground at (p, 2) places, -1 for none.
        labels : int
            Their number.
        origin : (2,) float
            Where places count from.
        """
        self._settle()
        result = np.full(labels, None, dtype=object)
        # Without its direction a side between two labels would be there twice.
        turned = self._ends[:, [2, 3, 0, 1]]
        lower = (self._ends[:, 0] < turned[:, 0]) | (
            (self._ends[:, 0] == turned[:, 0]) & (self._ends[:, 1] < turned[:, 1])
        )
        ends = np.unique(np.where(lower[:, None], self._ends, turned), axis=0)
        if not len(ends):
            return result
        with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
            lines = shapely.linestrings((ends * self._grid).reshape(-1, 2, 2))
            # The lines are closed rings less what cancels, so that nothing dangles; a node beside
            # a line by less than the grid leaves a hairline, which is asked for its label too.
            noded = shapely.union_all(lines)
            parts = shapely.get_parts(shapely.polygonize([noded]))
            if not len(parts):
                return result
            label = label_of(shapely.get_coordinates(shapely.point_on_surface(parts)))
            order = np.argsort(label, kind="stable")
            order = order[label[order] >= 0]
            starts = np.flatnonzero(np.diff(label[order], prepend=-1))
            for some in np.split(order, starts[1:]) if len(order) else ():
                whole = shapely.coverage_union_all(parts[some])
                moved = shapely.transform(whole, lambda xy: xy + origin)
                result[label[some[0]]] = shapely.normalize(moved)
        return result


def _left(ends: Ints, label: Ints) -> tuple[Ints, Ints]:
    """Return the sides that no side of the same label runs against."""
    if not len(ends):
        return ends, label
    forward = (ends[:, 0] < ends[:, 2]) | ((ends[:, 0] == ends[:, 2]) & (ends[:, 1] < ends[:, 3]))
    low = np.where(forward[:, None], ends[:, :2], ends[:, 2:])
    high = np.where(forward[:, None], ends[:, 2:], ends[:, :2])
    # Sides are told apart by one mixed number: that two of them share it is not to be expected.
    key = (label.astype(np.uint64) + np.uint64(1)) * np.uint64(_SPREAD[3])
    for column, spread in zip((*low.T, *high.T), _SPREAD, strict=True):
        key ^= (column.astype(np.uint64) + key) * np.uint64(spread)
        key ^= key >> np.uint64(29)
        key *= np.uint64(_SPREAD[0])
    order = np.argsort(key, kind="stable")
    first = np.append(True, key[order][1:] != key[order][:-1])
    group = np.cumsum(first) - 1
    runs = np.bincount(group, np.where(forward, 1, -1)[order])
    kept = order[first][runs != 0]
    return ends[kept], label[kept]
