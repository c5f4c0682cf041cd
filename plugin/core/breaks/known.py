"""Found breaks compared with lines that are drawn already, by exact lengths.

A place of one line is *matched* by a segment of another where both hold: it lies within a distance
of the segment, looking square from the segment (beside an outer corner, from its vertex; never past
the end of a line), and both run within an angle of each other. What way a line runs is taken over
twice the distance, so that jogs smaller than the distance do not count as directions.

Distance alone would let the line drawn along the foot of a curb stand for its top as well. So a
line belongs to what it is clearly nearer to: where it lies within the distance of two lines, one of
them `CLEARLY` times nearer than the other, the farther one is not matched by it. Lines that follow
one another are no rivals, and a rivalry shorter than the distance is none.

The places within the distance of a segment are an interval on every other segment, with ends in
closed form (a line against a rectangle and a sector); unions and differences of intervals then
give all lengths. Nothing is sampled.
"""

import itertools
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..lines.bundle import Lines
from ..lines.stations import point_at
from ..progress import Progress, silent
from ..runs import ragged
from ..vectors import cross, dot
from .intervals import Intervals, joined, less, pieces
from .lines import BreakLines

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_ANGLE = 15.0
"""Lines that differ in direction by more, in degrees, do not match."""
CLEARLY = 2.0
"""A line that is so many times nearer than another is the one meant."""
SAME_PLACE = 1e-4
"""Share of the distance within which lines lie on each other, and none of them is nearer."""
ONE_AFTER_ANOTHER = 4.0
"""Parts of one line closer along it than so many distances are no rivals of each other."""
SLACK = 1e-6
"""Share of the distance below which a stretch is rounding."""
_RIVALLED, _MATCHED = 1, 2
_NONE = np.zeros(0, np.int64)
LEAST_COSINE = 0.5
"""Segments that lie more askew than this, jogs of a line that runs along, have no rivals."""


@dataclass(frozen=True)
class Stretches:
    """Lines cut where they begin or cease to be matched, in order along each line.

    Parameters
    ----------
    line : (k,) int
        Line of each stretch.
    start, stop : (k,) float
        Plan distances along the line.
    matched : (k,) bool
        Whether a line of the other set runs there.
    partner : (k,) int
        The other line that matches most of it, -1 for none.
    share : (n,) float
        Matched share of the length of each line, 0 to 1.
    """

    line: Ints
    start: Floats
    stop: Floats
    matched: NDArray[np.bool_]
    partner: Ints
    share: Floats

    def __len__(self) -> int:
        """Return the number of stretches."""
        return len(self.line)

    def total(self, matched: bool) -> float:
        """Return the length of all stretches that are matched, or are not."""
        return float((self.stop - self.start)[self.matched == matched].sum())


def bundled(lines: BreakLines) -> tuple[Lines, Ints]:
    """Return break lines as a bundle, and their numbers; one without plan length is left out."""
    steps = np.diff(lines.coordinates[:, :2], axis=0)
    kept = np.ones(len(lines.coordinates), bool)
    kept[1:] = (steps != 0.0).any(axis=1)  # outlines climb upright faces
    kept[lines.offsets[:-1]] = True
    count = np.add.reduceat(kept.astype(np.int64), lines.offsets[:-1]) if len(lines) else _NONE
    rows = np.flatnonzero(count > 1)
    kept &= np.repeat(count > 1, np.diff(lines.offsets))
    first = np.concatenate(([0], np.cumsum(count[rows])))
    places = lines.coordinates[kept]
    return Lines(places[:, :2].copy(), places[:, 2].copy(), first, lines.closed[rows]), rows


def compare(
    found: Lines,
    drawn: Lines,
    distance: float,
    angle: float = MOST_ANGLE,
    progress: Progress = silent,
) -> tuple[Stretches, Stretches]:
    """Tell which found lines are drawn, and which drawn lines are found.

    Parameters
    ----------
    found, drawn
        Two sets of lines; heights have no part in it.
    distance
        Farthest that lines lie apart and still match, > 0.
    angle
        Most that their directions differ by, degrees, below 90.
    progress
        Told the share done.

    Returns
    -------
    found, drawn : Stretches
        The stretches of each set.
    """
    found_way, drawn_way = _ways(found, distance), _ways(drawn, distance)
    tree = shapely.STRtree(drawn.segment_geometries)
    one, other = tree.query(found.segment_geometries, predicate="dwithin", distance=distance)
    progress(0.2)
    along = np.abs(dot(found_way[one], drawn_way[other])) >= np.cos(np.radians(angle))
    one, other = one[along].astype(np.int64), other[along].astype(np.int64)
    on_found = _matched(found, drawn, one, other, distance)
    progress(0.6)
    on_drawn = _matched(drawn, found, other, one, distance)
    progress(1.0)
    return on_found, on_drawn


def _ways(lines: Lines, reach: float) -> Floats:
    """Return the direction of each segment over ``reach`` to both sides of its middle, (s, 2)."""
    own, owner = lines.segment_directions, lines.segment_owner
    middle = lines.stations[lines.segments] + lines.segment_lengths / 2.0
    way = point_at(lines, owner, middle + reach) - point_at(lines, owner, middle - reach)
    size = np.hypot(way[:, 0], way[:, 1])
    plain = (lines.segment_lengths >= 2.0 * reach) | (size <= 1e-9 * reach)
    return np.where(plain[:, None], own, way / np.where(plain, 1.0, size)[:, None])


def _matched(lines: Lines, others: Lines, one: Ints, other: Ints, distance: float) -> Stretches:
    """Return the stretches of ``lines``; rows of ``one``, ``other`` are segments that may match."""
    start, stop = _within(lines, one, others, other, distance)
    slack = SLACK * distance + _rounding(lines, others)
    rows = np.flatnonzero(stop - start > slack)
    near = Intervals(rows, start[rows], stop[rows])
    meant = less(near, _nearer_ones(lines, others, one, other, near, distance))
    every = Intervals(np.arange(len(lines)), np.zeros(len(lines)), lines.lengths)
    covered = _along(lines, one, meant)
    cut, state = pieces(every, _along(lines, one, near), covered, slack=slack)
    cut, state = _without_flicker(cut, state, distance)
    cut, state = joined(cut, np.where(state == _MATCHED, 1, 0))
    length = np.bincount(cut.owner, (cut.stop - cut.start) * state, len(lines))
    partner = _partners(cut, covered, others.segment_owner[other[meant.owner]], len(others))
    return Stretches(
        cut.owner,
        cut.start,
        cut.stop,
        state > 0,
        np.where(state > 0, partner, -1),
        np.minimum(length / lines.lengths, 1.0),
    )


def _rounding(*sets: Lines) -> float:
    """Return what distances along these lines may be off by for rounding."""
    most = max(
        float(values.max(initial=0.0))
        for each in sets
        for values in (np.abs(each.xy), each.lengths)
    )
    return float(16.0 * np.spacing(most))


def _along(lines: Lines, segment: Ints, here: Intervals) -> Intervals:
    """Return intervals of rows, along their segments, as such of the lines."""
    segment = segment[here.owner]
    begin = lines.stations[lines.segments[segment]]
    return Intervals(lines.segment_owner[segment], begin + here.start, begin + here.stop)


def _without_flicker(cut: Intervals, state: Ints, distance: float) -> tuple[Intervals, Ints]:
    """Let pieces shorter than the distance be no rivals, or none, between such as are."""
    for own, around in ((_MATCHED, _RIVALLED), (_RIVALLED, _MATCHED)):
        inside = np.zeros(len(state), bool)
        inside[1:-1] = (state[:-2] == around) & (state[2:] == around)
        inside[1:-1] &= (cut.owner[:-2] == cut.owner[1:-1]) & (cut.owner[2:] == cut.owner[1:-1])
        change = inside & (state == own) & (cut.stop - cut.start < distance)
        cut, state = joined(cut, np.where(change, around, state))
    return cut, state


def _within(
    lines: Lines, one: Ints, others: Lines, other: Ints, distance: float
) -> tuple[Floats, Floats]:
    """Return where each segment lies within the distance of another, as distances along it."""
    p, u, size = _segments(lines, one)
    q, v, width = _segments(others, other)
    # Along the segment p + t u, in the frame of the other one: x = x0 + t c, y = y0 + t s.
    x0, c, y0, s = dot(v, p - q), dot(v, u), cross(v, p - q), cross(v, u)
    low, high = _both(_between(x0, c, 0.0, width), _between(y0, s, -distance, distance))
    before, after = _follow(others)
    for joint, following, ahead in (
        (q, before[other], -1.0),
        (q + width[:, None] * v, after[other], 1.0),
    ):
        # Points whose nearest place on the other line is the vertex it turns at.
        there, away = others.segment_directions[following], p - joint
        sector = _disc(away, u, distance)
        sector = _both(sector, _between(ahead * dot(v, away), ahead * c, 0.0, np.inf))
        facing = _between(ahead * dot(there, away), ahead * dot(there, u), -np.inf, 0.0)
        start, stop = _both(sector, facing)
        good, alone = (following >= 0) & (stop > start), high <= low
        low = np.where(good, np.where(alone, start, np.minimum(low, start)), low)
        high = np.where(good, np.where(alone, stop, np.maximum(high, stop)), high)
    return np.maximum(low, 0.0), np.minimum(high, size)


def _segments(lines: Lines, which: Ints) -> tuple[Floats, Floats, Floats]:
    """Return start, direction and length of segments."""
    start = lines.xy[lines.segments[which]]
    return start, lines.segment_directions[which], lines.segment_lengths[which]


def _follow(lines: Lines) -> tuple[Ints, Ints]:
    """Return the segment before and the one after each in its line, -1 for none."""
    count = len(lines.segments)
    before, after = np.arange(count) - 1, np.arange(count) + 1
    first, last = lines.first_segment[:-1], lines.first_segment[1:] - 1
    before[first] = np.where(lines.closed, last, -1)
    after[last] = np.where(lines.closed, first, -1)
    return before, after


def _between(
    at: Floats, slope: Floats, low: Floats | float, high: Floats | float
) -> tuple[Floats, Floats]:
    """Return the range of t in which ``low <= at + t slope <= high``."""
    with np.errstate(divide="ignore", invalid="ignore"):
        one, other = (low - at) / slope, (high - at) / slope
    inside = (at >= low) & (at <= high)
    still = slope == 0.0
    start = np.where(still, np.where(inside, -np.inf, np.inf), np.minimum(one, other))
    stop = np.where(still, np.where(inside, np.inf, -np.inf), np.maximum(one, other))
    return start, stop


def _both(one: tuple[Floats, Floats], other: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    return np.maximum(one[0], other[0]), np.minimum(one[1], other[1])


def _disc(away: Floats, u: Floats, radius: float) -> tuple[Floats, Floats]:
    """Return the range of t in which ``away + t u`` is no longer than the radius."""
    middle, off = -dot(away, u), cross(u, away)
    reach = radius * radius - off * off
    half = np.sqrt(np.maximum(reach, 0.0))
    none = reach < 0
    return np.where(none, np.inf, middle - half), np.where(none, -np.inf, middle + half)


def _nearer_ones(
    lines: Lines, others: Lines, one: Ints, other: Ints, here: Intervals, distance: float
) -> Intervals:
    """Return where another line is clearly nearer to the segment that would match.

    Parameters
    ----------
    lines, others, one, other, distance
        As in `_matched`.
    here
        Of the rows of ``one``, ``other``: where segment ``one`` lies within the distance.

    Returns
    -------
    Intervals
        Of the same rows: distances along segment ``one``.
    """
    p, u, _ = _segments(lines, one)
    q, v, _ = _segments(others, other)
    x0, c, y0, s = dot(v, p - q), dot(v, u), cross(v, p - q), cross(v, u)
    rows = here.owner
    sides = x0[rows] + c[rows] * np.stack((here.start, here.stop))
    begin, end = np.zeros(len(one)), np.zeros(len(one))
    begin[rows], end[rows] = sides.min(axis=0), sides.max(axis=0)
    rows = rows[np.abs(c[rows]) >= LEAST_COSINE]
    a, b = _overlapping(other[rows], begin[rows], end[rows])
    a, b = np.concatenate((rows[a], rows[b])), np.concatenate((rows[b], rows[a]))
    rival = ~_one_after_another(lines, one[a], one[b], distance)
    a, b = a[rival], b[rival]
    # Offset of segment `one` from segment `other`, at the distance x along it: k + x m.
    m = s / np.where(c == 0.0, 1.0, c)
    k = y0 - x0 * m
    low, high = np.maximum(begin[a], begin[b]), np.minimum(end[a], end[b])
    cuts = [low, high]
    for sign in (1.0, -1.0):
        with np.errstate(divide="ignore", invalid="ignore"):
            root = -(CLEARLY * k[b] - sign * k[a]) / (CLEARLY * m[b] - sign * m[a])
        cuts.append(np.clip(np.where(np.isfinite(root), root, low), low, high))
    steps = np.sort(np.stack(cuts), axis=0)
    owner, start, stop = [], [], []
    for first, last in itertools.pairwise(steps):
        middle = (first + last) / 2.0
        mine, theirs = np.abs(k[a] + middle * m[a]), np.abs(k[b] + middle * m[b])
        nearer = (last > first) & (CLEARLY * theirs < mine) & (mine > SAME_PLACE * distance)
        row = a[nearer]
        t = (np.stack((first, last))[:, nearer] - x0[row]) / c[row]
        owner.append(row)
        start.append(t.min(axis=0))
        stop.append(t.max(axis=0))
    return Intervals(np.concatenate(owner), np.concatenate(start), np.concatenate(stop))


def _overlapping(group: Ints, start: Floats, stop: Floats) -> tuple[Ints, Ints]:
    """Return the pairs of intervals of one group that overlap, each pair once."""
    if not len(group):
        return group, group
    order = np.lexsort((start, group))
    # All groups on one rising axis; what its rounding lets through is told apart afterwards.
    lowest = float(start.min())
    reach = float(stop.max()) - lowest + 1.0
    key = group[order] * reach + (start[order] - lowest)
    end = np.searchsorted(key, group[order] * reach + (stop[order] - lowest), side="left")
    place = np.arange(len(order))
    later = np.maximum(end - place - 1, 0)
    second, _ = ragged(place + 1, later)
    one, other = order[np.repeat(place, later)], order[second]
    real = (group[one] == group[other]) & (
        np.maximum(start[one], start[other]) < np.minimum(stop[one], stop[other])
    )
    return one[real], other[real]


def _one_after_another(lines: Lines, one: Ints, other: Ints, distance: float) -> NDArray[np.bool_]:
    """Tell which segments lie in one line and not far apart along it."""
    owner = lines.segment_owner[one]
    middle = lines.stations[lines.segments] + lines.segment_lengths / 2.0
    gap = np.abs(middle[one] - middle[other])
    gap -= (lines.segment_lengths[one] + lines.segment_lengths[other]) / 2.0
    round_ = lines.lengths[owner] - np.abs(middle[one] - middle[other])
    round_ -= (lines.segment_lengths[one] + lines.segment_lengths[other]) / 2.0
    gap = np.where(lines.closed[owner], np.minimum(gap, round_), gap)
    return (owner == lines.segment_owner[other]) & (gap < ONE_AFTER_ANOTHER * distance)


def _partners(cut: Intervals, covered: Intervals, partner: Ints, count: int) -> Ints:
    """Return for each piece the partner that covers most of it, -1 for none."""
    result = np.full(len(cut.owner), -1, np.int64)
    if not len(covered.owner):
        return result
    reach = float(cut.stop.max()) + 1.0
    middle = (covered.start + covered.stop) / 2.0
    key = cut.owner * reach + cut.start
    piece = np.searchsorted(key, covered.owner * reach + middle, side="right") - 1
    pair, where = np.unique(piece * count + partner, return_inverse=True)
    length = np.bincount(where.ravel(), covered.stop - covered.start)
    order = np.lexsort((-pair, length))
    result[pair[order] // count] = pair[order] % count  # the longest is written last
    return result
