"""Cut and fill between two surfaces, in total and by zone, and what becomes of the soil."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..depth.zones import Zones
from ..errors import UndercourseError
from ..progress import Progress, silent
from ..text import translate
from ..tin.overlay import Figures, integrate, level_of
from ..tolerance import Tolerance
from .classes import Classes
from .pair import Pair

Floats = NDArray[np.float64]

MOST_BANDS = 400
"""Bands of difference that a run will make at most: more are a slip of the interval."""


@dataclass(frozen=True)
class Factors:
    """How soil changes its volume; bank is how it lies in place before it is moved.

    Parameters
    ----------
    loose : float
        Loose volume of one bank volume, as it lies on a truck.
    compacted : float
        Compacted volume of one bank volume, as it lies in a fill.
    """

    loose: float = 1.0
    compacted: float = 1.0

    def loose_of_cut(self, cut: Floats) -> Floats:
        """Return the loose volume of what is cut (a bank volume)."""
        return cut * self.loose

    def bank_for_fill(self, fill: Floats) -> Floats:
        """Return the bank volume that a fill (a compacted volume) takes."""
        return fill / self.compacted

    def loose_for_fill(self, fill: Floats) -> Floats:
        """Return the loose volume that a fill takes."""
        return fill / self.compacted * self.loose

    def balance(self, cut: Floats, fill: Floats) -> Floats:
        """Return the bank volume that is over; negative where some is lacking."""
        return cut - self.bank_for_fill(fill)


@dataclass(frozen=True, eq=False)
class Volumes:
    """What lies between an upper and a lower surface.

    Parameters
    ----------
    figures : Figures
        Of each zone, and last of the ground outside all zones (all ground without zones).
    zone_areas : (k,) float
        Plan area of the zones.
    missing : (k,) float
        Plan area of each zone where one of the surfaces is missing.
    only_upper, only_lower : float
        Plan area that one surface covers and the other does not; NaN where that is not known.
    level : float
        Differences up to this counted as level.
    """

    figures: Figures
    zone_areas: Floats
    missing: Floats
    only_upper: float
    only_lower: float
    level: float

    @property
    def total(self) -> Figures:
        """The zones together (all ground without zones), one entry."""
        zones = len(self.zone_areas)
        rows = np.where(np.arange(zones + 1) < max(zones, 1), 0, -1)
        return self.figures.gathered(rows, 1)

    @property
    def missing_share(self) -> float:
        """Share of the zones where a surface is missing; NaN without zones."""
        whole = float(self.zone_areas.sum())
        return float(self.missing.sum()) / whole if whole > 0 else np.nan


def between_tins(
    pair: Pair,
    zones: Zones | None,
    tolerance: Tolerance,
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> Volumes:
    """Measure what lies between two TINs, exactly.

    Parameters
    ----------
    pair : Pair
        The surfaces, cut along the zones.
    zones : Zones, optional
        The zones.
    tolerance : Tolerance
        By its snap distance the borders of zones may have moved.
    z_scale : float
        Plan units in one unit of height.
    progress : Progress
        Told the share done.
    """
    rows = np.arange(pair.zones + 1)
    found = integrate(pair.upper, pair.lower, *pair.labels, z_scale, progress)
    figures = found.of_upper(rows) if pair.cut_upper else found.of_lower(rows)
    return Volumes(
        figures,
        areas_of(zones),
        missing_area(figures.area, zones, tolerance),
        found.uncovered_upper,
        found.uncovered_lower,
        found.level,
    )


def areas_of(zones: Zones | None) -> Floats:
    """Return the plan areas of zones."""
    return np.zeros(0) if zones is None else shapely.area(zones.polygons)


def missing_area(area: Floats, zones: Zones | None, tolerance: Tolerance) -> Floats:
    """Return the plan area of zones that is not among areas measured, (k,) float.

    Parameters
    ----------
    area : (k + 1,) float
        Area measured in each zone.
    zones : Zones, optional
        The zones.
    tolerance : Tolerance
        What a border's move by the snap distance explains is not missing.
    """
    if zones is None:
        return np.zeros(0)
    less = areas_of(zones) - area[: len(zones)]
    return np.where(less > tolerance.snap * shapely.length(zones.polygons), less, 0.0)


def by_sign(pair: Pair) -> Classes:
    """Return the classes 0 below, 1 above and 2 level."""
    return Classes(np.zeros(1), level_of(pair.upper, pair.lower), level=True)


def bands(least: float, most: float, interval: float, slack: float) -> Classes:
    """Return the classes of a difference between multiples of an interval.

    Raises
    ------
    UndercourseError
        There would be more than `MOST_BANDS`.
    """
    first, last = np.floor(least / interval), np.ceil(most / interval)
    if not last - first <= MOST_BANDS:
        raise UndercourseError(
            translate(
                "Core",
                "Differences from {least:.3f} to {most:.3f} in bands of {interval:.3g} are {count:.0f} bands: choose an interval that makes {limit} at most.",
            ).format(
                least=least,
                most=most,
                interval=interval,
                count=last - first,
                limit=MOST_BANDS,
            )
        )
    edges = interval * np.arange(first, last + 1)
    return Classes(edges, max(slack, 1e-6 * interval))
