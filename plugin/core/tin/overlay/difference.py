"""Volumes between the planes of pairs of faces: Green's integrals, split where planes cross."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..mesh import Tin
from .frame import Pairs, Side, moments

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Heights:
    """How high the plane of the first face lies above that of the second, over each pair.

    Parameters
    ----------
    corners : (3, k) float
        At the corners of the first face.
    base : (k,) float
        At the origin of the frame.
    by_u, by_v : (k,) float
        How it changes with u and v.
    least, most : (k,) float
        Bounds over what the pair shares.
    """

    corners: Floats
    base: Floats
    by_u: Floats
    by_v: Floats
    least: Floats
    most: Floats

    def same(self, level: float) -> NDArray[np.bool_]:
        """Tell where the two planes are nowhere farther apart than a height."""
        return (self.most <= level) & (self.least >= -level)

    def crossed(self, level: float) -> NDArray[np.bool_]:
        """Tell where the difference may change sign and the planes are not the same."""
        return (self.least < 0) & (self.most > 0) & ~self.same(level)


def heights(first: Side, second: Side, pairs: Pairs) -> Heights:
    """Return the difference of the planes of each pair.

    Parameters
    ----------
    first, second : Side
        The surfaces of the first and of the second faces.
    pairs : Pairs
        The pairs.
    """
    one, other = pairs.one, pairs.other
    rows, frames = first.rows, second.rows
    x, y, z = frames.x[0].take(other), frames.y[0].take(other), frames.z[0].take(other)
    x1, y1, z1 = (values.take(other) for values in second.first)
    x2, y2, z2 = (values.take(other) for values in second.second)
    slope_x, slope_y = (values.take(one) for values in first.slopes)
    corners = np.empty((3, len(pairs)))
    for k in range(3):
        rows.z[k].take(one, out=corners[k])
        corners[k] -= z
        corners[k] -= (pairs.u[k] * z1 + pairs.v[k] * z2) / pairs.size
    base = rows.z[0].take(one) - z
    base += slope_x * (x - rows.x[0].take(one))
    base += slope_y * (y - rows.y[0].take(one))
    rise_u = slope_x * x1 + slope_y * y1 - z1
    rise_v = slope_x * x2 + slope_y * y2 - z2
    # What the two share lies in both, so that the corners of either bound it.
    least = np.minimum(rise_u, rise_v)
    np.minimum(least, 0.0, out=least)
    least += base
    np.maximum(least, corners.min(axis=0), out=least)
    most = np.maximum(rise_u, rise_v)
    np.maximum(most, 0.0, out=most)
    most += base
    np.minimum(most, corners.max(axis=0), out=most)
    return Heights(corners, base, rise_u / pairs.size, rise_v / pairs.size, least, most)


def level_of(upper: Tin, lower: Tin) -> float:
    """Return the difference in height below which two surfaces cannot be told apart.

    It is what the rounding of plan coordinates makes of the height of a plane at a slope of 1:1,
    and that of the heights themselves.
    """
    largest = max(float(np.abs(tin.vertices[:, 2]).max()) for tin in (upper, lower))
    return max(upper.rounding, lower.rounding) + 8.0 * float(np.spacing(largest))


@dataclass(frozen=True, eq=False)
class Parts:
    """Plan areas and volumes of pairs, (k,) float each, none negative.

    Parameters
    ----------
    area : (k,) float
        Plan area shared.
    area_above, area_below : (k,) float
        Where the first face lies above and below the second; the rest is level with it.
    cut, fill : (k,) float
        Volume between them there.
    """

    area: Floats
    area_above: Floats
    area_below: Floats
    cut: Floats
    fill: Floats

    def turned(self) -> "Parts":
        """Return the same with the two faces exchanged."""
        return Parts(self.area, self.area_below, self.area_above, self.fill, self.cut)


def split(pairs: Pairs, high: Heights, level: float) -> Parts:
    """Integrate the difference over what each pair shares.

    Where it changes sign, the corner of the first face whose sign is its own is cut off along the
    line where the planes meet, and integrated once more; the other part is the rest.

    Parameters
    ----------
    pairs : Pairs
        The pairs.
    high : Heights
        Their difference.
    level : float
        A pair whose difference is nowhere greater than this, either way, counts as level.
    """
    area, volume = _integral(pairs, high, pairs.u, pairs.v)
    # What rounding makes of hairlines must not change the sign of a volume.
    np.maximum(volume, high.least * area, out=volume)
    np.minimum(volume, high.most * area, out=volume)
    above = np.where(high.least >= 0, area, 0.0)
    cut = np.where(high.least >= 0, volume, 0.0)
    same = high.same(level)
    crossed = np.flatnonzero(high.crossed(level))
    if len(crossed):
        above[crossed], cut[crossed] = _above(pairs, high, crossed, area, volume)
    level_cut = np.maximum(volume, 0.0)
    cut = np.where(same, level_cut, np.maximum(cut, level_cut))
    above[same] = 0.0
    below = area - above
    below[same] = 0.0
    return Parts(area, above, below, cut, cut - volume)


def _integral(pairs: Pairs, high: Heights, u: Floats, v: Floats) -> tuple[Floats, Floats]:
    area, of_u, of_v = moments(u, v, pairs.size)
    half = 0.5 / pairs.size
    np.maximum(area, 0.0, out=area)
    of_u *= high.by_u
    of_v *= high.by_v
    of_u += of_v
    of_u *= 1.0 / 3.0
    volume = area * high.base
    volume += of_u
    volume *= half
    area *= half
    return area, volume


def _above(
    pairs: Pairs, high: Heights, some: Ints, area: Floats, volume: Floats
) -> tuple[Floats, Floats]:
    """Return area and volume where the difference is positive, for pairs where it changes sign."""
    corners = high.corners[:, some]
    positive = corners > 0
    lone_positive = positive.sum(axis=0) == 1
    lone = (positive == lone_positive).argmax(axis=0)
    column = np.arange(len(some))
    following, before = (lone + 1) % 3, (lone + 2) % 3
    height = corners[lone, column]
    chosen = pairs.take(some)
    u, v = np.empty((3, len(some))), np.empty((3, len(some)))
    u[0], v[0] = chosen.u[lone, column], chosen.v[lone, column]
    for row, end in ((1, following), (2, before)):
        share = height / (height - corners[end, column])
        u[row] = u[0] + share * (chosen.u[end, column] - u[0])
        v[row] = v[0] + share * (chosen.v[end, column] - v[0])
    part = Heights(
        corners, high.base[some], high.by_u[some], high.by_v[some], corners[0], corners[0]
    )
    tip_area, tip_volume = _integral(chosen, part, u, v)
    np.minimum(tip_area, area[some], out=tip_area)
    # The tip's volume has the sign of its corner.
    tip_volume = np.where(tip_volume * height > 0, tip_volume, 0.0)
    return (
        np.where(lone_positive, tip_area, area[some] - tip_area),
        np.where(lone_positive, tip_volume, volume[some] - tip_volume),
    )
