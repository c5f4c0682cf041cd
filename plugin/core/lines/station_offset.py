"""Station and offset of points: the place of a line nearest to each, and how sure it is.

Offsets are positive to the right, as LandXML 1.2 has them ("offsetDistance": positive values are
right of the line in the direction of its stations).
"""

from dataclasses import dataclass

import numpy as np
import shapely

from .bundle import Lines
from .prove import side_of_points
from .stations import elevation_at, point_at

TIE = 0.02
"""Another foot that is no farther than this share more is about as near."""


@dataclass(frozen=True)
class Feet:
    """Points and the line each is seen from, one row a pair.

    Parameters
    ----------
    point, line : (p,) int
        The point, and the line.
    distance : (p,) float
        Distance along the line of its nearest place.
    offset : (p,) float
        Signed offset, right +; NaN where the side is not defined (beyond an open end).
    away : (p,) float
        Distance from the line, without sign.
    foot : (p, 2) float
        The nearest place.
    z : (p,) float
        Height of the line there.
    beyond : (p,) bool
        True for a point beyond an open end.
    other : (p,) float
        Distance along the line of another perpendicular foot about as near; NaN where there is
        none.
    """

    point: np.ndarray
    line: np.ndarray
    distance: np.ndarray
    offset: np.ndarray
    away: np.ndarray
    foot: np.ndarray
    z: np.ndarray
    beyond: np.ndarray
    other: np.ndarray


def feet_of_points(
    lines: Lines, xy: np.ndarray, most: float = np.inf, *, every: bool = False
) -> Feet:
    """Return station and offset of points.

    Parameters
    ----------
    lines
        The lines.
    xy
        Points, (k, 2) float.
    most
        Farthest that a line may lie from a point.
    every
        All lines within that distance, not the nearest alone.

    Returns
    -------
    Feet
        In the order of the points; of several lines the nearest first. Points with no line near
        enough are left out.
    """
    points = shapely.points(xy)
    tree = shapely.STRtree(lines.geometries)
    if every:
        reach = most if np.isfinite(most) else _everything(lines, xy)
        point, line = tree.query(points, predicate="dwithin", distance=reach)
    else:
        point, line = tree.query_nearest(points, all_matches=False)
    away = shapely.distance(points[point], lines.geometries[line])
    near = away <= most
    point, line, away = point[near], line[near], away[near]
    order = np.lexsort((line, away, point))
    point, line, away = point[order], line[order], away[order]
    side, station, beyond = side_of_points(lines, line, xy[point])
    return Feet(
        point,
        line,
        station,
        np.where(beyond, np.nan, side * away),
        away,
        point_at(lines, line, station),
        elevation_at(lines, line, station),
        beyond,
        _other_feet(lines, line, xy[point], station, away),
    )


def _everything(lines: Lines, xy: np.ndarray) -> float:
    both = np.concatenate((lines.xy, xy))
    return float(np.hypot(*np.ptp(both, axis=0))) + 1.0


def _other_feet(
    lines: Lines, line: np.ndarray, xy: np.ndarray, station: np.ndarray, away: np.ndarray
) -> np.ndarray:
    """Return where another foot of a perpendicular is about as near, NaN where none is."""
    a = lines.segments
    tree = shapely.STRtree(lines.segment_geometries)
    reach = away * (1.0 + TIE)
    pair, segment = tree.query(shapely.points(xy), predicate="dwithin", distance=reach)
    own = lines.segment_owner[segment] == line[pair]
    pair, segment = pair[own], segment[own]
    along = ((xy[pair] - lines.xy[a[segment]]) * lines.segment_directions[segment]).sum(axis=1)
    size = lines.segment_lengths[segment]
    # A foot inside a segment is a place where the distance is least; one clamped to a vertex is
    # so only if it is from both sides, and then it is that of the nearest place or no tie.
    inside = (along > 1e-9 * size) & (along < size * (1.0 - 1e-9))
    pair, at = pair[inside], (lines.stations[a[segment]] + along)[inside]
    gap = np.abs(at - station[pair])
    length = lines.lengths[line[pair]]
    gap = np.where(lines.closed[line[pair]], np.minimum(gap, length - gap), gap)
    another = gap > 1e-6 * np.maximum(away[pair], 1e-9)
    other = np.full(len(line), np.nan)
    other[pair[another]] = at[another]
    return other
