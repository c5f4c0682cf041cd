"""Figures of what lies between two surfaces, gathered by the labels of their faces."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SUMS = ("area", "area_above", "area_below", "cut", "fill")


@dataclass(frozen=True, eq=False)
class Figures:
    """Figures of one or more places, (k,) float each.

    Parameters
    ----------
    area : (k,) float
        Plan area that both surfaces cover.
    area_above, area_below : (k,) float
        Plan area where the upper surface lies above and below the lower one. The rest of
        ``area`` is level: there the two cannot be told apart.
    cut, fill : (k,) float
        Volume between them where the upper surface lies above, and where it lies below; in cubic
        plan units, neither negative.
    least, most : (k,) float
        Smallest and greatest difference upper - lower in vertical units, NaN where ``area`` is 0.
    """

    area: Floats
    area_above: Floats
    area_below: Floats
    cut: Floats
    fill: Floats
    least: Floats
    most: Floats

    def __len__(self) -> int:
        """Return the number of places."""
        return len(self.area)

    @property
    def area_level(self) -> Floats:
        """Plan area where the two surfaces cannot be told apart."""
        return np.maximum(self.area - self.area_above - self.area_below, 0.0)

    @property
    def net(self) -> Floats:
        """Cut less fill."""
        return self.cut - self.fill

    def gathered(self, group: Ints, groups: int) -> "Figures":
        """Return the figures of groups of places.

        Parameters
        ----------
        group : (k,) int
            Group of each place, -1 for none.
        groups : int
            Their number.
        """
        some = np.flatnonzero(group >= 0)
        to = group[some]
        area, above, below, cut, fill = (
            np.bincount(to, getattr(self, name)[some], groups).astype(np.float64) for name in SUMS
        )
        least, most = np.full(groups, np.nan), np.full(groups, np.nan)
        np.fmin.at(least, to, self.least[some])
        np.fmax.at(most, to, self.most[some])
        return Figures(area, above, below, cut, fill, least, most)


@dataclass(frozen=True, eq=False)
class Between:
    """What lies between two surfaces.

    Parameters
    ----------
    labels : (k, 2) int
        Label of the upper and of the lower face, each combination that occurs, sorted. -1 where
        faces have none.
    figures : Figures
        Figures of each combination.
    upper_areas, lower_areas : dict of int to float
        Plan area of the faces of each label of the upper and the lower surface, overlaid or not.
    level : float
        Differences up to this counted as level.
    """

    labels: Ints
    figures: Figures
    upper_areas: dict[int, float]
    lower_areas: dict[int, float]
    level: float

    @property
    def total(self) -> Figures:
        """Figures of all, one entry."""
        return self.figures.gathered(np.zeros(len(self.labels), dtype=np.int64), 1)

    def of_upper(self, labels: ArrayLike) -> Figures:
        """Return the figures of labels of the upper surface, zero for one that does not occur."""
        return self._of(0, labels)

    def of_lower(self, labels: ArrayLike) -> Figures:
        """Return the figures of labels of the lower surface, zero for one that does not occur."""
        return self._of(1, labels)

    def _of(self, column: int, labels: ArrayLike) -> Figures:
        wanted = np.asarray(labels, dtype=np.int64).ravel()
        order = np.argsort(wanted, kind="stable")
        found = np.searchsorted(wanted[order], self.labels[:, column])
        found = np.minimum(found, len(wanted) - 1)
        group = np.where(wanted[order][found] == self.labels[:, column], order[found], -1)
        return self.figures.gathered(group, len(wanted))

    @property
    def uncovered_upper(self) -> float:
        """Plan area of the upper surface with no lower surface under it."""
        return max(sum(self.upper_areas.values()) - float(self.total.area[0]), 0.0)

    @property
    def uncovered_lower(self) -> float:
        """Plan area of the lower surface with no upper surface over it."""
        return max(sum(self.lower_areas.values()) - float(self.total.area[0]), 0.0)

    def uncovered_upper_of(self, labels: ArrayLike) -> Floats:
        """Return the plan area of labels of the upper surface with no lower surface under it."""
        return _less(self.upper_areas, labels, self.of_upper(labels).area)


def _less(areas: dict[int, float], labels: ArrayLike, covered: Floats) -> Floats:
    wanted = np.asarray(labels, dtype=np.int64).ravel()
    whole = np.array([areas.get(int(label), 0.0) for label in wanted], dtype=np.float64)
    return np.maximum(whole - covered, 0.0)
