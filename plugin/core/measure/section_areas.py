"""Areas between two profiles of each cross section, split exactly where they cross."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .sections import Profiles, key

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class SectionAreas:
    """What lies between two surfaces on each section.

    Parameters
    ----------
    cut, fill : (s,) float
        Area where the upper surface lies above the lower one, and where it lies below; in square
        plan units, neither negative.
    width_cut, width_fill : (s,) float
        Width of either.
    covered : (s,) float
        Width over which both surfaces are there.
    gaps : (s,) float
        Width between the first and the last place with both where one is missing.
    first, last : (s,) float
        Offsets of these places, NaN where there are none.
    least, most : (s,) float
        Smallest and greatest difference upper - lower, vertical units; NaN without any.
    """

    cut: Floats
    fill: Floats
    width_cut: Floats
    width_fill: Floats
    covered: Floats
    gaps: Floats
    first: Floats
    last: Floats
    least: Floats
    most: Floats


def areas_between(
    upper: Profiles, lower: Profiles, sections: int, z_scale: float = 1.0
) -> SectionAreas:
    """Measure what lies between two surfaces on each section, over what both cover.

    Between two neighbouring ends of pieces both profiles are straight, so that the area is that
    of a trapezoid, or of two triangles where they cross.

    Parameters
    ----------
    upper, lower : Profiles
        The surfaces along the same sections.
    sections : int
        Number of sections.
    z_scale : float
        Plan units in one vertical unit.
    """
    ends = [key(p.section, at) for p in (upper, lower) for at in (p.start, p.stop)]
    place = np.unique(np.concatenate(ends))
    section, begin, end = place.real[:-1].astype(np.int64), place.imag[:-1], place.imag[1:]
    within = np.flatnonzero(place.real[1:] == place.real[:-1])
    section, begin, end = section[within], begin[within], end[within]
    one, other = upper.piece(section, begin), lower.piece(section, begin)
    both = np.flatnonzero((one >= 0) & (other >= 0))
    section, begin, end = section[both], begin[both], end[both]
    one, other = one[both], other[both]
    d0 = upper.on_piece(one, begin) - lower.on_piece(other, begin)
    d1 = upper.on_piece(one, end) - lower.on_piece(other, end)
    width = end - begin
    size = np.abs(d0) + np.abs(d1)
    crossing = np.sign(d0) * np.sign(d1) < 0
    # Share of the stretch on which the difference has the sign that it starts with.
    with np.errstate(divide="ignore", invalid="ignore"):
        share = np.where(crossing, np.abs(d0) / size, 1.0)
    lead = np.where(crossing, np.abs(d0) * share, size) * width / 2.0
    rest = np.where(crossing, np.abs(d1) * (1.0 - share), 0.0) * width / 2.0
    above = np.where(d0 == 0, d1, d0) > 0
    level = size == 0

    def total(values: Floats) -> Floats:
        return np.bincount(section, values, sections).astype(np.float64)

    first, last = np.full(sections, np.nan), np.full(sections, np.nan)
    least, most = np.full(sections, np.nan), np.full(sections, np.nan)
    np.fmin.at(first, section, begin)
    np.fmax.at(last, section, end)
    np.fmin.at(least, section, np.minimum(d0, d1))
    np.fmax.at(most, section, np.maximum(d0, d1))
    covered = total(width)
    gaps = np.where(np.isfinite(first), last - first - covered, 0.0)
    own, left = width * share, width * (1.0 - share)
    return SectionAreas(
        total(np.where(above, lead, rest)) * z_scale,
        total(np.where(above, rest, lead)) * z_scale,
        total(np.where(level, 0.0, np.where(above, own, left))),
        total(np.where(level, 0.0, np.where(above, left, own))),
        covered,
        np.where(gaps > 1e-9 * np.maximum(covered, 1e-300), gaps, 0.0),
        first,
        last,
        least,
        most,
    )
