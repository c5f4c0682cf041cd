"""Convex polygons clipped by half-planes, many at once, their corners in order."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Polygons:
    """Polygons whose corners carry values.

    Parameters
    ----------
    values : (k, c, a) float
        Values of each corner; corners beyond the count mean nothing.
    count : (k,) int
        Corners of each polygon.
    """

    values: Floats
    count: Ints

    @property
    def valid(self) -> NDArray[np.bool_]:
        """Which corners mean something, (k, c) bool."""
        return np.arange(self.values.shape[1]) < self.count[:, None]

    @property
    def following(self) -> Ints:
        """Number of the corner after each corner, (k, c) int."""
        place = np.arange(self.values.shape[1])
        return np.where(place + 1 < self.count[:, None], place + 1, 0)

    def clip(self, side: Floats) -> "Polygons":
        """Keep the part where a function is not negative.

        Parameters
        ----------
        side : (k, c) float
            The function at the corners; it is linear over each polygon, as their values are.

        Returns
        -------
        Polygons
            In the same order; nothing is left of some.
        """
        polygons, _, width = self.values.shape
        valid, following = self.valid, self.following
        after = np.take_along_axis(side, following, axis=1)
        inside = valid & (side >= 0)
        crossing = valid & ((side >= 0) != (after >= 0))
        stays = inside.astype(np.int64)
        emitted = stays + crossing
        end = np.cumsum(emitted, axis=1)
        count = end[:, -1]
        result = np.zeros((polygons, max(int(count.max(initial=0)), 1), width))
        row, column = np.nonzero(inside)
        result[row, (end - emitted)[row, column]] = self.values[row, column]
        row, column = np.nonzero(crossing)
        one, two = side[row, column], after[row, column]
        start = self.values[row, column]
        stop = self.values[row, following[row, column]]
        share = (one / (one - two))[:, None]
        result[row, end[row, column] - 1] = start + share * (stop - start)
        return Polygons(result, count)
