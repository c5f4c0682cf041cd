"""Running sums of figures by label."""

import numpy as np
from numpy.typing import NDArray

from .between import SUMS, Figures
from .difference import Parts

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_MOST_DENSE = 1 << 16


class Ledger:
    """Sums and extremes by key; keys run from 0.

    Few keys have a line each from the start; of many, those that occur are given one.

    Parameters
    ----------
    keys : int
        Number of keys that may occur.
    """

    def __init__(self, keys: int) -> None:
        self._sparse = keys > _MOST_DENSE
        self._keys = np.zeros(0, dtype=np.int64) if self._sparse else np.arange(keys)
        self._line = self._keys.copy()
        self._sums = np.zeros((len(SUMS), len(self._keys)))
        self.least = np.full(len(self._keys), np.inf)
        self.most = np.full(len(self._keys), -np.inf)

    def lines(self, key: Ints) -> Ints:
        """Return the line of each key, opening lines where needed."""
        if not self._sparse:
            return key
        unique, place = np.unique(key, return_inverse=True)
        fresh = np.setdiff1d(unique, self._keys, assume_unique=True)
        if len(fresh):
            keys = np.concatenate((self._keys, fresh))
            lines = np.concatenate((self._line, len(self._line) + np.arange(len(fresh))))
            order = np.argsort(keys)
            self._keys, self._line = keys[order], lines[order]
            room = ((0, len(fresh)),)
            self._sums = np.pad(self._sums, ((0, 0), *room))
            self.least = np.pad(self.least, room, constant_values=np.inf)
            self.most = np.pad(self.most, room, constant_values=-np.inf)
        return self._line[np.searchsorted(self._keys, unique)][place]

    def add(self, line: Ints | None, parts: Parts) -> None:
        """Add the figures of pairs to their lines; all to the only one when there is one."""
        for row, name in enumerate(SUMS):
            values = getattr(parts, name)
            if line is None:
                self._sums[row] += values.sum()
            else:
                self._sums[row] += np.bincount(line, values, self._sums.shape[1])

    def extend(self, line: Ints, least: Floats, most: Floats) -> None:
        """Widen the range of differences of lines."""
        np.minimum.at(self.least, line, least)
        np.maximum.at(self.most, line, most)

    def figures(self, z_scale: float) -> tuple[Ints, Figures]:
        """Return the keys that occurred and their figures."""
        met = np.flatnonzero(self._sums[0, self._line] > 0)
        line = self._line[met]
        area, above, below, cut, fill = self._sums[:, line]
        figures = Figures(
            area, above, below, cut * z_scale, fill * z_scale, self.least[line], self.most[line]
        )
        return self._keys[met], figures
