"""Station and offset of points: the place of a line nearest to each, and how sure it is.

Offsets are positive to the right, as LandXML 1.2 has them ("offsetDistance": positive values are
right of the line in the direction of its stations).
"""

from dataclasses import dataclass

import numpy as np
import shapely

from ..vectors import dot
from .arcs import Arcs
from .bundle import Lines
from .corners import turns
from .prove import side_of_points
from .stations import elevation_at, locate, point_at

TIE = 0.02
"""Another foot that is no farther than this share more is about as near."""
ALIKE = 2e-3
"""Feet nearer to each other than this share of the offset give the same station to anyone: beside
a dense curve the perpendiculars of neighbouring chords do."""


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
    past : (p,) float
        How far a point lies past an open end, along the direction of the line there; else 0.
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
    past: np.ndarray
    other: np.ndarray


def feet_of_points(
    lines: Lines,
    xy: np.ndarray,
    most: float = np.inf,
    *,
    every: bool = False,
    arcs: Arcs | None = None,
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
    arcs
        The arcs of the lines.

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
    foot, offset = point_at(lines, line, station), np.where(beyond, np.nan, side * away)
    of_segment = np.full(len(lines.segments), -1)
    if arcs is not None and len(arcs):
        of_segment = arcs.of_segment
        _on_arcs(lines, arcs, line, xy[point], (station, offset, away, foot))
    return Feet(
        point,
        line,
        station,
        offset,
        away,
        foot,
        elevation_at(lines, line, station),
        beyond,
        _past(lines, line, xy[point], station, arcs),
        _other_feet(lines, line, xy[point], station, away, of_segment),
    )


def _past(
    lines: Lines, line: np.ndarray, xy: np.ndarray, station: np.ndarray, arcs: Arcs | None
) -> np.ndarray:
    """Return how far points lie past the open end that is nearest to them."""
    first, last = lines.first[line], lines.first[line + 1] - 1
    into, out = turns(lines, arcs)
    slack = 1e-9 * lines.lengths[line]
    before = dot(lines.xy[first] - xy, out[first])
    after = dot(xy - lines.xy[last], into[last])
    past = np.where(station <= slack, before, 0.0)
    past = np.where(station >= lines.lengths[line] - slack, after, past)
    return np.where(lines.closed[line], 0.0, np.maximum(past, 0.0))


def _on_arcs(
    lines: Lines,
    arcs: Arcs,
    line: np.ndarray,
    xy: np.ndarray,
    seen: tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray],
) -> None:
    """Put feet on the arcs that chords stand for: station, offset, away and foot, in place."""
    station, offset, away, foot = seen
    segment, _ = locate(lines, line, station)
    arc = arcs.of_segment[segment]
    on = np.flatnonzero(arc >= 0)
    arc, own = arc[on], segment[on]
    centre, sense, begin = arcs.centre[arc], arcs.sense[arc], lines.segments[own]

    def heading(places: np.ndarray) -> np.ndarray:
        to = places - centre
        return np.arctan2(to[:, 1], to[:, 0])

    start = heading(lines.xy[begin])
    turned, whole = (
        (-sense * (heading(places) - start) + np.pi) % (2.0 * np.pi) - np.pi
        for places in (xy[on], lines.xy[begin + 1])
    )
    share = turned / whole
    # A hair beyond its chord a foot is on the next one; at the end of the arc it stays there.
    before, after = (_same_arc(lines, arcs, own, step) for step in (-1, 1))
    free = ((share >= 0.0) | before) & ((share <= 1.0) | after) & (share > -1.0) & (share < 2.0)
    on, own, share = on[free], own[free], share[free]
    centre, radius, sense = centre[free], arcs.radius[arc[free]], sense[free]
    to = xy[on] - centre
    reach = np.hypot(to[:, 0], to[:, 1])
    offset[on] = np.where(np.isfinite(offset[on]), sense * (radius - reach), np.nan)
    away[on] = np.abs(radius - reach)
    foot[on] = centre + (radius / np.maximum(reach, 1e-300))[:, None] * to
    station[on] = lines.stations[lines.segments[own]] + share * lines.segment_lengths[own]


def _same_arc(lines: Lines, arcs: Arcs, segment: np.ndarray, step: int) -> np.ndarray:
    """Tell whether the segment before or after each is of the same line and arc."""
    other = np.clip(segment + step, 0, len(lines.segments) - 1)
    same = lines.segment_owner[other] == lines.segment_owner[segment]
    return same & (arcs.of_segment[other] == arcs.of_segment[segment]) & (other != segment)


def _everything(lines: Lines, xy: np.ndarray) -> float:
    both = np.concatenate((lines.xy, xy))
    return float(np.hypot(*np.ptp(both, axis=0))) + 1.0


def _other_feet(
    lines: Lines,
    line: np.ndarray,
    xy: np.ndarray,
    station: np.ndarray,
    away: np.ndarray,
    of_segment: np.ndarray,
) -> np.ndarray:
    """Return where another foot of a perpendicular is about as near, NaN where none is.

    An arc has one foot, whatever its chords: another one on the same arc is none, unless it stands
    about as near across the centre.
    """
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
    another = gap > np.maximum(ALIKE * away[pair], 1e-5)
    arc, nearest = of_segment[segment[inside]], of_segment[locate(lines, line, station)[0]][pair]
    another &= (arc < 0) | (arc != nearest) | (gap > away[pair])
    other = np.full(len(line), np.nan)
    other[pair[another]] = at[another]
    return other
