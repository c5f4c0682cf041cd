"""Classes of a difference of heights: below a limit, between two, above the last."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Classes:
    """Classes 0 to e between e limits, and one for what is level.

    A difference on a limit belongs to the class above it.

    Parameters
    ----------
    edges : (e,) float
        Limits, rising.
    slack : float
        A difference nearer to a limit than this lies on it.
    level : bool
        Whether ground whose difference is nowhere more than ``slack`` off 0 has a class of its
        own, number e + 1, so that two surfaces that coincide are neither above nor below.
    """

    edges: Floats
    slack: float
    level: bool = False

    def __len__(self) -> int:
        """Return the number of classes, with the one for what is level."""
        return len(self.edges) + 2

    @property
    def level_class(self) -> int:
        """Number of the class of what is level."""
        return len(self.edges) + 1

    def settled(self, difference: Floats) -> Floats:
        """Return differences with those near a limit put on it."""
        if not len(self.edges):
            return difference
        above = np.searchsorted(self.edges, difference)
        result = difference.copy()
        for near in (np.minimum(above, len(self.edges) - 1), np.maximum(above - 1, 0)):
            limit = self.edges[near]
            np.copyto(result, limit, where=np.abs(difference - limit) <= self.slack)
        return result

    def of(self, difference: Floats) -> Ints:
        """Return the class of each difference, -1 for NaN."""
        result = np.searchsorted(self.edges, self.settled(difference), side="right")
        if self.level:
            result = np.where(np.abs(difference) <= self.slack, self.level_class, result)
        return np.where(np.isnan(difference), -1, result)

    def range_of(self, least: Floats, most: Floats) -> tuple[Ints, Ints]:
        """Return the first and the last class of ranges of differences, already settled."""
        first = np.searchsorted(self.edges, least, side="right")
        last = np.maximum(np.searchsorted(self.edges, most, side="left"), first)
        if self.level:
            same = (np.abs(least) <= self.slack) & (np.abs(most) <= self.slack)
            first = np.where(same, self.level_class, first)
            last = np.where(same, self.level_class, last)
        return first, last


@dataclass(frozen=True, eq=False)
class Sums:
    """Figures by zone and class.

    Parameters
    ----------
    area, volume : (z, c) float
        Plan area, and integral of the difference over it (signed), in plan units squared and
        plan units squared times vertical units.
    least, most : (z, c) float
        Range of the difference, NaN where there is no area.
    """

    area: Floats
    volume: Floats
    least: Floats
    most: Floats

    @property
    def total(self) -> "Sums":
        """All zones together, one row."""
        with np.errstate(all="ignore"):
            least = np.fmin.reduce(self.least, axis=0)[None]
            most = np.fmax.reduce(self.most, axis=0)[None]
        return Sums(self.area.sum(axis=0)[None], self.volume.sum(axis=0)[None], least, most)

    def take(self, rows: Ints | slice) -> "Sums":
        """Return some of the zones."""
        return Sums(self.area[rows], self.volume[rows], self.least[rows], self.most[rows])


class Book:
    """Takes down figures by zone and class.

    Parameters
    ----------
    zones, classes : int
        Numbers of them.
    """

    def __init__(self, zones: int, classes: int) -> None:
        self._shape = zones, classes
        self._sums = np.zeros((2, zones * classes))
        self._least = np.full(zones * classes, np.inf)
        self._most = np.full(zones * classes, -np.inf)

    def add(
        self, zone: Ints, number: Ints, area: Floats, volume: Floats, least: Floats, most: Floats
    ) -> None:
        """Take down figures of pieces of ground, each of one zone and class."""
        key = zone * self._shape[1] + number
        for row, values in enumerate((area, volume)):
            self._sums[row] += np.bincount(key, values, self._sums.shape[1])
        np.minimum.at(self._least, key, least)
        np.maximum.at(self._most, key, most)

    def sums(self) -> Sums:
        """Return what was taken down."""
        area, volume = (values.reshape(self._shape) for values in self._sums)
        met = np.isfinite(self._least)
        least = np.where(met, self._least, np.nan).reshape(self._shape)
        return Sums(area, volume, least, np.where(met, self._most, np.nan).reshape(self._shape))
