"""The direction of the nearest line at any place in plan.

Where the nearest point of a line lies within a segment, the direction is that of the segment.
Round the outside of a corner the nearest point is the corner itself for a whole sector: there the
direction is square to the way to it, so that it turns evenly from one segment to the next, as
along an arc. Past an open end the direction of the end goes on.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..lines.bundle import Lines
from ..progress import Progress, silent
from ..tin.planes import coordinate_rounding
from ..vectors import dot, turned

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 16


@dataclass(frozen=True, eq=False)
class Tangents:
    """Direction of the nearest line at some places.

    Parameters
    ----------
    direction : (k, 2) float
        Unit vectors along the line.
    away : (k,) float
        Distance from it.
    beyond : (k,) bool
        True past an open end of the line.
    line : (k,) int
        The line.
    """

    direction: Floats
    away: Floats
    beyond: NDArray[np.bool_]
    line: Ints


def tangents(lines: Lines, xy: Floats, progress: Progress = silent) -> Tangents:
    """Return the direction of the nearest line at each place.

    Parameters
    ----------
    lines : Lines
        At least one line.
    xy : (k, 2) float
        Places.
    progress : Progress
        Told the share done.
    """
    origin = np.floor(lines.xy.mean(axis=0))
    rounding = coordinate_rounding(np.concatenate((lines.xy, xy)))
    plan, points = lines.xy - origin, xy - origin
    tree = shapely.STRtree(shapely.linestrings(plan[lines.segments[:, None] + (0, 1)]))
    segment = np.empty(len(points), np.int64)
    for begin in range(0, len(points), _BLOCK):
        progress(begin / len(points))
        some = slice(begin, begin + _BLOCK)
        segment[some] = tree.query_nearest(shapely.points(points[some]), all_matches=False)[1]
    way, length = lines.segment_directions[segment], lines.segment_lengths[segment]
    start = plan[lines.segments[segment]]
    along = dot(points - start, way)
    foot = start + np.clip(along, 0.0, length)[:, None] * way
    off = points - foot
    away = np.hypot(off[:, 0], off[:, 1])
    step = (along >= length).astype(np.int64) - (along <= 0)
    other = _beside(lines, segment, step)
    at_end = (step != 0) & (other < 0)
    beyond = at_end & ((along < -rounding) | (along > length + rounding))
    corner = np.flatnonzero((step != 0) & (other >= 0))
    direction = way.copy()
    round_corner = turned(off[corner])
    flip = np.where(dot(round_corner, way[corner]) < 0, -1.0, 1.0)
    on_it = away[corner] <= rounding
    both = way[corner] + lines.segment_directions[other[corner]]
    chosen = np.where(on_it[:, None], both, flip[:, None] * round_corner)
    size = np.hypot(chosen[:, 0], chosen[:, 1])
    turns_back = size == 0.0  # a line that runs back over itself
    chosen[turns_back], size[turns_back] = way[corner[turns_back]], 1.0
    direction[corner] = chosen / size[:, None]
    return Tangents(direction, away, beyond, lines.segment_owner[segment])


def _beside(lines: Lines, segment: Ints, step: Ints) -> Ints:
    """Return the segment before (-1) or after (+1) each on its line, -1 at an open end."""
    owner = lines.segment_owner[segment]
    first, after = lines.first_segment[owner], lines.first_segment[owner + 1]
    other = segment + step
    round_it = first + (other - first) % (after - first)
    inside = (other >= first) & (other < after)
    return np.where(inside | lines.closed[owner], round_it, -1)
