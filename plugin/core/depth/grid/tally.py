"""What the windows of a depth raster amount to."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...place import Place

Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Heights = NDArray[np.floating]


@dataclass(eq=False)
class Tally:
    """What the windows so far amount to.

    Parameters
    ----------
    pixels : (k + 1,) int
        Pixels with data of each zone, and last those outside all zones that were lowered.
    sides : (k,) int
        Pixels on the sides of each zone.
    carried : int
        Pixels without data of their own, onto which the design was carried on.
    bare : int
        Pixels in zones that have no data all the same.
    lowest, highest : float
        Of the result; infinite as long as there is no pixel with data.
    clashes : int
        Heights that came out as the nodata value and so read as missing.
    clash : (int, int) or None
        Row and column of the first of them.
    given_up : int
        Feet whose side met nothing within reach.
    """

    pixels: Ints
    sides: Ints
    carried: int = 0
    bare: int = 0
    lowest: float = np.inf
    highest: float = -np.inf
    clashes: int = 0
    clash: tuple[int, int] | None = None
    given_up: int = 0

    def measure(
        self,
        place: Place,
        heights: Heights,
        absent: Mask | None,
        nodata: float | None,
    ) -> None:
        """Note lowest and highest of a window, and heights that read as missing.

        Parameters
        ----------
        place : Place
            Where it lies.
        heights : (rows, columns) float
            The result.
        absent : (rows, columns) bool, or None
            Its pixels without data.
        nodata : float or None
            Value of pixels without data.
        """
        lowest, highest = _range(heights, absent)
        self.lowest, self.highest = min(self.lowest, lowest), max(self.highest, highest)
        if nodata is None:
            return
        value = heights.dtype.type(nodata)
        if not lowest <= value <= highest:
            return
        clash = heights == value
        if absent is not None:
            clash &= ~absent
        rows, columns = np.nonzero(clash)
        if len(rows):
            self.clash = place.row + int(rows[0]), place.column + int(columns[0])
        self.clashes += len(rows)

    def add(self, other: "Tally") -> None:
        """Add what another window amounts to; their order does not matter."""
        self.pixels = self.pixels + other.pixels
        self.sides = self.sides + other.sides
        self.carried += other.carried
        self.bare += other.bare
        self.lowest = min(self.lowest, other.lowest)
        self.highest = max(self.highest, other.highest)
        self.clashes += other.clashes
        self.given_up += other.given_up
        places = [place for place in (self.clash, other.clash) if place is not None]
        self.clash = min(places, default=None)

    @classmethod
    def empty(cls, zones: int) -> "Tally":
        """Return that of nothing, for a number of zones."""
        return cls(np.zeros(zones + 1, dtype=np.int64), np.zeros(zones, dtype=np.int64))


def _range(heights: Heights, absent: Mask | None) -> tuple[float, float]:
    if absent is None:
        return float(heights.min()), float(heights.max())
    there = ~absent
    return (
        float(heights.min(where=there, initial=np.inf)),
        float(heights.max(where=there, initial=-np.inf)),
    )
