"""Two surfaces over the same ground, and the zones they are looked at in."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..depth.zones import Zones
from ..progress import Progress, silent
from ..tin import Tin
from ..tin.cut import cut_tin
from ..tolerance import Tolerance

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Pair:
    """Two surfaces, one of which is cut along the borders of zones.

    It is the smaller one, whichever of the two is called upper: exchanged, the same pieces are
    measured, and figures change nothing but their sign.

    Parameters
    ----------
    upper, lower : Tin
        The surfaces.
    zone : (m,) int
        Row of the zone of each face of the cut one; the number of zones outside all.
    zones : int
        Number of zones.
    cut_upper : bool
        Whether it is the upper one that is cut.
    """

    upper: Tin
    lower: Tin
    zone: Ints
    zones: int
    cut_upper: bool

    @classmethod
    def of(
        cls,
        upper: Tin,
        lower: Tin,
        zones: Zones | None,
        tolerance: Tolerance,
        progress: Progress = silent,
    ) -> "Pair":
        """Cut the smaller surface along the borders of disjoint zones; no zones are all ground."""
        cut_upper = _rank(upper) <= _rank(lower)
        smaller = upper if cut_upper else lower
        if zones is None:
            return cls(upper, lower, np.zeros(len(smaller.faces), np.int64), 0, cut_upper)
        done = cut_tin(smaller, zones.polygons, tolerance, progress)
        zone = np.where(done.zone < 0, len(zones), done.zone)
        if cut_upper:
            return cls(done.tin, lower, zone, len(zones), cut_upper)
        return cls(upper, done.tin, zone, len(zones), cut_upper)

    @property
    def labels(self) -> tuple[Ints | None, Ints | None]:
        """Zone of the faces of the upper and of the lower surface; None for the one not cut."""
        return (self.zone, None) if self.cut_upper else (None, self.zone)

    def zone_of(self, upper: Ints, lower: Ints) -> Ints:
        """Return the zone of pairs of an upper and a lower face."""
        return self.zone[upper if self.cut_upper else lower]

    def at(self, xy: Floats) -> tuple[Floats, Ints]:
        """Return difference (NaN where a surface is missing) and zone (-1) at points."""
        (upper, one), (lower, other) = self.upper.sample(xy), self.lower.sample(xy)
        known = (one >= 0) & (other >= 0)
        zone = np.where(known, self.zone_of(one, other), -1)
        return np.where(known, upper - lower, np.nan), zone


def _rank(tin: Tin) -> tuple[float, ...]:
    """Return what tells surfaces apart whatever they are called."""
    return len(tin.faces), len(tin.vertices), *tin.extent, float(tin.vertices[:, 2].sum())
