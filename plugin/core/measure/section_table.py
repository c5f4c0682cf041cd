"""Every point of every section with the height of each surface, for tables."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .sections import Profiles, key

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Points:
    """Points of sections, sorted by section and offset.

    Parameters
    ----------
    section : (p,) int
        Section of each.
    offset : (p,) float
        Its offset; twice where a surface jumps.
    z : (p, k) float
        Height of each surface, NaN where there is none.
    """

    section: Ints
    offset: Floats
    z: Floats

    def __len__(self) -> int:
        """Return the number of points."""
        return len(self.section)


def points_of(
    profiles: Sequence[Profiles], section: Ints, offset: Floats, tie: float = 1e-6
) -> Points:
    """Return the places where a piece of any profile begins or ends, and given ones.

    Parameters
    ----------
    profiles : sequence of Profiles
        The surfaces along the same sections.
    section, offset : (m,) int and float
        More places.
    tie : float
        Places of one section nearer than this to each other are one.
    """
    ends = [key(p.section, at) for p in profiles for at in (p.start, p.stop)]
    place = np.unique(np.concatenate([key(section, offset), *ends]))
    fresh = np.ones(len(place), bool)
    fresh[1:] = (np.diff(place.real) > 0) | (np.diff(place.imag) > tie)
    # Of places that are one, ends of pieces and given places lie within the tie of the first.
    first = np.flatnonzero(fresh)
    last = np.append(first[1:] - 1, len(place) - 1)
    row = place.real[first].astype(np.int64)
    low, high = place.imag[first], place.imag[last]
    before = np.column_stack([p.heights(row, low, after=False) for p in profiles])
    after = np.column_stack([p.heights(row, high) for p in profiles])
    before, after = (
        np.where(np.isfinite(before), before, after),
        np.where(np.isfinite(after), after, before),
    )
    jump = (np.abs(after - before) > tie).any(axis=1)
    order = np.argsort(np.concatenate((np.arange(len(row)), np.flatnonzero(jump))), kind="stable")
    return Points(
        np.concatenate((row, row[jump]))[order],
        np.concatenate((low, low[jump]))[order],
        np.concatenate((before, after[jump]))[order],
    )
