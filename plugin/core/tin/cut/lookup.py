"""Which polygon a place lies in."""

import numpy as np
import shapely
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

OUTSIDE = -1

_CORNERS = 5
"""Places asked about around a point. No two of five lie opposite each other, so that a hairline
through the point, which noding has closed, meets one or two of them at most."""


def canonical_rank(polygons: NDArray[np.object_]) -> Ints:
    """Return a rank of the polygons that follows from their shapes, not from their order."""
    bounds = shapely.bounds(polygons)
    order = np.lexsort((shapely.length(polygons), shapely.area(polygons), *bounds.T))
    rank = np.empty(len(polygons), dtype=np.int64)
    rank[order] = np.arange(len(polygons))
    return rank


def zones_at(points: Floats, polygons: NDArray[np.object_]) -> Ints:
    """Return the polygon that holds each point, (k,) int; of several the first in rank."""
    zone = np.full(len(points), OUTSIDE, dtype=np.int64)
    if not len(points):
        return zone
    order = np.argsort(points[:, 0], kind="stable")
    x, y = points[order, 0], points[order, 1]
    bounds = shapely.bounds(polygons)
    shapely.prepare(polygons)
    for number in np.argsort(-canonical_rank(polygons)):
        xmin, ymin, xmax, ymax = bounds[number]
        begin, stop = np.searchsorted(x, xmin, "left"), np.searchsorted(x, xmax, "right")
        some = begin + np.flatnonzero((y[begin:stop] >= ymin) & (y[begin:stop] <= ymax))
        if len(some):
            inside = shapely.intersects_xy(polygons[number], x[some], y[some])
            zone[order[some[inside]]] = number
    return zone


def zones_around(points: Floats, clear: Floats, polygons: NDArray[np.object_]) -> Ints:
    """Return the polygon that holds most of the places around each point, (k,) int.

    Parameters
    ----------
    points : (k, 2) float
        Points with one zone around them, but for hairlines.
    clear : (k,) float
        How far around each there is nothing else.
    polygons : (z,) object
        The zones.
    """
    angle = 0.3 + 2 * np.pi * np.arange(_CORNERS) / _CORNERS
    off = np.column_stack((np.cos(angle), np.sin(angle)))
    places = points[:, None] + 0.5 * clear[:, None, None] * off
    told = zones_at(places.reshape(-1, 2), polygons).reshape(-1, _CORNERS)
    votes = (told[:, :, None] == told[:, None, :]).sum(axis=2)
    # Of equal votes the first in rank.
    rank = np.append(canonical_rank(polygons), len(polygons))
    best = (votes * (len(rank) + 1) - rank[told]).argmax(axis=1)
    return told[np.arange(len(points)), best]
