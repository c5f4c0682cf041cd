"""Heights of the points beyond a border."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .border import Border
from .planes import Strips

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Heights:
    """Heights of new points.

    Parameters
    ----------
    z : (j,) float
        Height of each: that of the planes it lies in, their mean where they disagree.
    apart : (j,) float
        How far these planes are apart there.
    """

    z: Floats
    apart: Floats


def heights_of(
    border: Border, strips: Strips, xy: Floats, given: int, triangles: Ints, edge: Ints
) -> Heights:
    """Return the heights of the points after the given ones.

    Parameters
    ----------
    border, strips
        The border and its strips.
    xy : (n + j, 2) float
        All points; the first ``given`` belong to the surface.
    given : int
        How many of them have heights already.
    triangles : (t, 3) int
        New triangles.
    edge : (t,) int
        Edge of the border whose plane each has.
    """
    count = len(xy) - given
    point, owner = triangles.ravel() - given, np.repeat(edge, 3)
    new = point >= 0
    key = np.unique(point[new] * len(border) + owner[new])
    point, owner = key // len(border), key % len(border)
    height = strips.heights(border, owner, xy[given + point])
    # Differences from the first height lose nothing to the size of the heights.
    first = np.full(count, np.nan)
    first[point[::-1]] = height[::-1]
    off = height - first[point]
    share = np.bincount(point, off, minlength=count) / np.maximum(
        np.bincount(point, minlength=count), 1
    )
    low, high = np.zeros(count), np.zeros(count)
    np.minimum.at(low, point, off)
    np.maximum.at(high, point, off)
    return Heights(first + share, high - low)
