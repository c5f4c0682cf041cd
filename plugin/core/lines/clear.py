"""A cheap proof that a parallel nowhere comes too near to its source.

Take a stretch of a line whose directions all lie within a right angle, and whose parallel runs
forward everywhere. The parallels at all smaller offsets run forward too, so they fill the strip
between the two like contour lines, never nearer to each other than their offsets differ: no part
of that stretch's parallel is nearer to that stretch than the offset. (A straight way that leaves
the strip through one of its square ends cannot come back to the stretch, which lies ahead of it.)

So lines are cut into blocks, and a block's parallel need only be compared with those blocks that
the line reaches after turning more than a right angle; for these, boxes mostly suffice.
"""

import numpy as np

from ..runs import count_up
from .bundle import Lines
from .corners import Corners

PER_BLOCK, MOST_BLOCKS = 8, 24
"""Segments of a block, and blocks of a line, at most."""


def surely_clear(lines: Lines, corner: Corners, reach: np.ndarray) -> np.ndarray:
    """Tell which parallels are proved to keep away from their source.

    Parameters
    ----------
    lines
        The sources.
    corner
        Points of the parallels, which must run forward beside every segment.
    reach
        Distance to keep, (k,) float.

    Returns
    -------
    (k,) bool
        False only means that nothing was proved.
    """
    segments = np.diff(lines.first_segment)
    count = np.clip(segments // PER_BLOCK, 1, MOST_BLOCKS)
    line = np.repeat(np.arange(len(lines)), count)
    number = count_up(count)
    begin = lines.first_segment[line] + number * segments[line] // count[line]
    start, stop = lines.first_segment[:-1][line], lines.first_segment[1:][line]
    end = np.append(begin[1:], lines.first_segment[-1])
    highest, lowest = _headings(lines, begin, end, start, stop)
    # Vertices of the block, and the points of its parallel with the corners at both ends.
    a, b = lines.segments[begin], lines.segments[end - 1] + 1
    source = _boxes(lines.xy, a, b + 1)
    beside = _boxes(corner.points, corner.first[a], corner.first[b + 1])
    clear = np.ones(len(lines), bool)
    top, bottom = highest.copy(), lowest.copy()
    for lag in range(int(count.max(initial=0))):
        here = np.flatnonzero(line[lag:] == line[: len(line) - lag])
        there = here + lag
        top, bottom = np.maximum(top[here], highest[there]), np.minimum(bottom[here], lowest[there])
        bent = np.flatnonzero(top - bottom > np.pi / 2 - 1e-9)
        i, j = here[bent], there[bent]
        near = _near(beside, source, i, j, reach[line[i]])
        near |= _near(beside, source, j, i, reach[line[i]])
        clear[line[i[near]]] = False
        # Blocks that have no partner at the next lag fall away there; keep the arrays aligned.
        full_top, full_bottom = np.full(len(line), -np.inf), np.full(len(line), np.inf)
        full_top[here], full_bottom[here] = top, bottom
        top, bottom = full_top, full_bottom
    return clear


def _headings(
    lines: Lines, begin: np.ndarray, end: np.ndarray, start: np.ndarray, stop: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return the greatest and least heading of each block and of the segments next to it.

    Headings run on without jumps along a line, in radians.
    """
    direction = lines.segment_directions
    angle = np.arctan2(direction[:, 1], direction[:, 0])
    turn = (np.diff(angle, prepend=angle[:1]) + np.pi) % (2 * np.pi) - np.pi
    heading = np.cumsum(turn)
    after, before = np.minimum(end, stop - 1), np.maximum(begin - 1, start)
    ends = heading[after], heading[before]
    high = np.maximum.reduceat(heading, begin)
    low = np.minimum.reduceat(heading, begin)
    return np.maximum(high, np.maximum(*ends)), np.minimum(low, np.minimum(*ends))


def _boxes(xy: np.ndarray, first: np.ndarray, end: np.ndarray) -> np.ndarray:
    """Return xmin, ymin, xmax, ymax of the rows ``first .. end - 1``, which may overlap."""
    bounds = np.column_stack([first, end]).ravel()
    # An end beyond the last row cannot be given to reduceat: one more row stands in for it.
    padded = np.vstack([xy, xy[-1:]])
    low = np.minimum.reduceat(padded, bounds)[::2]
    high = np.maximum.reduceat(padded, bounds)[::2]
    return np.hstack([low, high])


def _near(
    one: np.ndarray, other: np.ndarray, i: np.ndarray, j: np.ndarray, reach: np.ndarray
) -> np.ndarray:
    """Tell which boxes lie nearer to each other than ``reach``, (p,) bool."""
    with np.errstate(invalid="ignore"):  # parallels that do not exist are far away in vain
        gap = np.maximum(one[i, :2] - other[j, 2:], other[j, :2] - one[i, 2:])
        gap = np.maximum(gap, 0.0)
        return ~(np.hypot(gap[:, 0], gap[:, 1]) >= reach)
