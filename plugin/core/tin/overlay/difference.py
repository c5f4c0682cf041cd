"""Volumes between the planes of pairs of faces: Green's integrals, split where planes cross."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .frame import Frames, Pairs, Slopes, moments
from .rows import Rows

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Heights:
    """How high the upper plane lies above the lower one, over each pair.

    Parameters
    ----------
    corners : (3, k) float
        At the corners of the upper face.
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


def heights(upper: Rows, slopes: Slopes, frames: Frames, pairs: Pairs) -> Heights:
    """Return the difference of the planes of each pair."""
    one, other = pairs.one, pairs.other
    x, y, z = frames.x.take(other), frames.y.take(other), frames.z.take(other)
    z1, z2 = frames.z1.take(other), frames.z2.take(other)
    slope_x, slope_y = slopes.x.take(one), slopes.y.take(one)
    corners = np.empty((3, len(pairs)))
    for k in range(3):
        upper.z[k].take(one, out=corners[k])
        corners[k] -= z
        corners[k] -= (pairs.u[k] * z1 + pairs.v[k] * z2) / pairs.size
    base = upper.z[0].take(one) - z
    base += slope_x * (x - upper.x[0].take(one))
    base += slope_y * (y - upper.y[0].take(one))
    rise_u = slope_x * frames.x1.take(other) + slope_y * frames.y1.take(other) - z1
    rise_v = slope_x * frames.x2.take(other) + slope_y * frames.y2.take(other) - z2
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


@dataclass(frozen=True, eq=False)
class Parts:
    """Plan areas and volumes of pairs, (k,) float each, none negative.

    Parameters
    ----------
    area : (k,) float
        Plan area shared.
    area_above, area_below : (k,) float
        Where the upper surface lies above and below the lower one; the rest is level with it.
    cut, fill : (k,) float
        Volume between them there.
    """

    area: Floats
    area_above: Floats
    area_below: Floats
    cut: Floats
    fill: Floats


def split(pairs: Pairs, high: Heights, level: float) -> Parts:
    """Integrate the difference over what each pair shares.

    Where it changes sign, the corner of the upper face whose sign is its own is cut off along the
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
    above = np.where(high.least >= 0, area, 0.0)
    cut = np.where(high.least >= 0, volume, 0.0)
    same = (high.most <= level) & (high.least >= -level)
    crossed = np.flatnonzero((high.least < 0) & (high.most > 0) & ~same)
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
    return (
        np.where(lone_positive, tip_area, area[some] - tip_area),
        np.where(lone_positive, tip_volume, volume[some] - tip_volume),
    )
