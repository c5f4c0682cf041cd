"""Guidelines measured against their lines, whoever laid them.

Along a stretch of a guideline whose nearest place on the line is on one straight segment the
distance changes linearly, and where it is one vertex it is convex: so its extremes lie where the
nearest part changes. A guideline is cut there: at its own vertices, at the perpendiculars that
stand on both ends of every segment of the line, at the feet of the line's vertices, and where it
crosses the line. What is left is where two far-apart parts of the line are equally near; even
steps between the cuts bound what may be missed there by half a step. Pieces whose nearest place is
an inner vertex stand about a corner, where a mitre rightly reaches farther out: they are told
apart.
"""

from dataclasses import dataclass

import numpy as np
import shapely

from ..progress import Progress, silent
from ..runs import count_up
from ..vectors import cross
from .bundle import Lines
from .prove import side_of_points
from .stations import locate, point_at

STEPS = 64
"""Even steps along each guideline, besides the cuts."""


@dataclass(frozen=True)
class Measured:
    """What was measured on each guideline, its line, and where it is worst.

    Distances carry a sign: right of the line +, left -. Shares are of the guideline's length.

    Parameters
    ----------
    low, high : (g,) float
        Smallest and largest distance, without sign, corners left out; NaN where all is corner.
    nearest : (g,) float
        Smallest distance anywhere, corners too.
    farthest_corner : (g,) float
        Largest distance about corners, 0 where there is none.
    mean : (g,) float
        Mean signed distance beside the line's segments, by length.
    right, left, unclear : (g,) float
        Shares that lie right, left, and on the line or beyond its open ends.
    cuts
        The pieces that all this was measured on.
    """

    low: np.ndarray
    high: np.ndarray
    nearest: np.ndarray
    farthest_corner: np.ndarray
    mean: np.ndarray
    right: np.ndarray
    left: np.ndarray
    unclear: np.ndarray
    cuts: "Cuts"


@dataclass(frozen=True)
class Cuts:
    """Short pieces of guidelines, in order along each.

    Parameters
    ----------
    owner : (c,) int
        Guideline of each piece.
    length : (c,) float
        Its length.
    start, stop, middle : (c, 2) float
        Places on it.
    distance : (c, 3) float
        Distance from the line at start, middle and stop.
    side : (c,) int
        Side of the middle: right +1, left -1, 0 on the line or beyond an open end.
    station : (c,) float
        Distance along the line of the place nearest to the middle.
    corner : (c,) bool
        True where that place is an inner vertex.
    beyond : (c,) bool
        True where the middle lies beyond an open end.
    """

    owner: np.ndarray
    length: np.ndarray
    start: np.ndarray
    stop: np.ndarray
    middle: np.ndarray
    distance: np.ndarray
    side: np.ndarray
    station: np.ndarray
    corner: np.ndarray
    beyond: np.ndarray


def measure(
    guidelines: Lines, lines: Lines, which: np.ndarray, progress: Progress = silent
) -> Measured:
    """Measure guidelines against the line of each.

    Parameters
    ----------
    guidelines
        What was laid.
    lines
        The lines it should have been laid from.
    which
        Line of each guideline, (g,) int.
    progress
        Told the share done.
    """
    which = np.asarray(which, np.int64)
    cuts = _cut(guidelines, lines, which, progress)
    count = len(guidelines)
    total = np.bincount(cuts.owner, cuts.length, count)

    def share(chosen: np.ndarray) -> np.ndarray:
        return np.bincount(cuts.owner, np.where(chosen, cuts.length, 0.0), count) / total

    beside = ~cuts.corner & ~cuts.beyond
    low, high = np.full(count, np.inf), np.full(count, -np.inf)
    np.minimum.at(low, cuts.owner[beside], cuts.distance[beside].min(axis=1))
    np.maximum.at(high, cuts.owner[beside], cuts.distance[beside].max(axis=1))
    nearest, corner = np.full(count, np.inf), np.zeros(count)
    np.minimum.at(nearest, cuts.owner, cuts.distance.min(axis=1))
    np.maximum.at(corner, cuts.owner[cuts.corner], cuts.distance[cuts.corner].max(axis=1))
    weight = np.where(beside, cuts.length, 0.0)
    # Simpson's rule is exact for what changes linearly along a piece, and nearly so elsewhere.
    signed = cuts.side * (cuts.distance * (1 / 6, 4 / 6, 1 / 6)).sum(axis=1)
    known = np.bincount(cuts.owner, weight, count)
    with np.errstate(divide="ignore", invalid="ignore"):
        mean = np.bincount(cuts.owner, weight * signed, count) / known
    none = known == 0
    low[none] = high[none] = np.nan
    right, left = share(cuts.side > 0), share(cuts.side < 0)
    return Measured(low, high, nearest, corner, mean, right, left, share(cuts.side == 0), cuts)


def _cut(guidelines: Lines, lines: Lines, which: np.ndarray, progress: Progress) -> Cuts:
    owner, at = _places(guidelines, lines, which, progress)
    place = point_at(guidelines, owner, at)
    line = which[owner]
    first = owner[1:] == owner[:-1]
    gap = np.where(first, at[1:] - at[:-1], 0.0)
    real = np.flatnonzero(first & (gap > 1e-9 * np.maximum(guidelines.lengths[owner[1:]], 1.0)))
    own, length = owner[real], gap[real]
    middle = point_at(guidelines, own, (at[real] + at[real + 1]) / 2.0)
    nearest = shapely.distance(shapely.points(place), lines.geometries[line])
    side, station, beyond = side_of_points(lines, line[real], middle)
    distance = np.hypot(*(middle - point_at(lines, line[real], station)).T)
    progress(0.9)
    return Cuts(
        own,
        length,
        place[real],
        place[real + 1],
        middle,
        np.column_stack((nearest[real], distance, nearest[real + 1])),
        side,
        station,
        _at_inner_vertex(lines, line[real], station) & ~beyond,
        beyond,
    )


def _places(
    guidelines: Lines, lines: Lines, which: np.ndarray, progress: Progress
) -> tuple[np.ndarray, np.ndarray]:
    """Return where each guideline is cut: its number and the distance along it, in order."""
    count = np.full(len(guidelines), STEPS + 1)
    owner = np.repeat(np.arange(len(guidelines)), count)
    even = count_up(count) / STEPS * guidelines.lengths[owner]
    found = [(guidelines.owner, guidelines.stations), (owner, even)]
    reach = _reach(guidelines, lines, which)
    for g in range(len(guidelines)):
        progress(0.8 * g / len(guidelines))
        own = _crossings(guidelines, g, lines, int(which[g]), float(reach[g]))
        found.append((np.full(len(own), g), own))
    owner = np.concatenate([f[0] for f in found])
    at = np.concatenate([f[1] for f in found])
    order = np.lexsort((at, owner))
    return owner[order], at[order]


def _reach(guidelines: Lines, lines: Lines, which: np.ndarray) -> np.ndarray:
    """Return the largest distance of a vertex of each guideline from its line, (g,) float."""
    away = shapely.distance(
        shapely.points(guidelines.xy), lines.geometries[which][guidelines.owner]
    )
    return np.maximum.reduceat(away, guidelines.first[:-1])


def _crossings(guidelines: Lines, g: int, lines: Lines, k: int, reach: float) -> np.ndarray:
    """Return where a guideline meets its line, its perpendiculars and the feet of its vertices."""
    rows = slice(guidelines.first_segment[g], guidelines.first_segment[g + 1])
    a = guidelines.xy[guidelines.segments[rows]]
    way, size = guidelines.segment_directions[rows], guidelines.segment_lengths[rows]
    base = guidelines.stations[guidelines.segments[rows]]
    own = slice(lines.first_segment[k], lines.first_segment[k + 1])
    start = lines.xy[lines.segments[own]]
    stop = lines.xy[lines.segments[own] + 1]
    tree = shapely.STRtree(shapely.linestrings(np.stack((a, a + way * size[:, None]), axis=1)))
    segment, piece = tree.query(
        shapely.linestrings(np.stack((start, stop), axis=1)),
        predicate="dwithin",
        distance=1.5 * reach + 1e-9,
    )
    direction = lines.segment_directions[own][segment]
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = cross(start[segment] - a[piece], direction) / cross(way[piece], direction)
    inside = (crossing > 0) & (crossing < size[piece])
    found = [base[piece[inside]] + crossing[inside]]
    for foot in (start[segment], stop[segment]):
        to = foot - a[piece]
        # On the perpendicular through the foot, and at the foot's own foot on the guideline.
        slope = (way[piece] * direction).sum(axis=1)
        with np.errstate(divide="ignore", invalid="ignore"):
            along = (to * direction).sum(axis=1) / slope
        for t in (along, (to * way[piece]).sum(axis=1)):
            inside = (t > 0) & (t < size[piece])
            found.append(base[piece[inside]] + t[inside])
    return np.unique(np.concatenate(found))


def _at_inner_vertex(lines: Lines, which: np.ndarray, station: np.ndarray) -> np.ndarray:
    """Tell which stations are those of a vertex that is no open end, (p,) bool."""
    segment, along = locate(lines, which, station)
    length = lines.segment_lengths[segment]
    slack = 1e-7 * np.maximum(length, 1.0)
    at_start, at_stop = along <= slack, length - along <= slack
    first = segment == lines.first_segment[which]
    last = segment == lines.first_segment[which + 1] - 1
    tip = ~lines.closed[which] & ((at_start & first) | (at_stop & last))
    return (at_start | at_stop) & ~tip
