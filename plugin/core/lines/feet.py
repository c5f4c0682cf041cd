"""Station and height of a parallel at every place those of the line's point square beside it.

A parallel has its corners where the line has corners, but not square beside them: on the outer
side of a corner its tip lies beyond the segment, on the inner side it lies beside a place before
the corner and one after it. Run from corner to corner, stations and heights would be stretched
along whole segments. So vertices are added: on the outer side at the feet of the corner, with the
station and height of the corner, which then stay the same round its tip; on the inner side where
the stretch begins in which station and height run to the mean of the two places beside the tip.
"""

from dataclasses import replace
from functools import cached_property

import numpy as np

from ..runs import ragged
from ..vectors import cross, dot
from .arcs import Arcs
from .bundle import Lines
from .corners import SOFT
from .parallel import Parallels

ROOM = 1.0 / 3.0
"""Largest share of the way to the next inner corner along which a station runs to that of one."""
EXACT = 1e-9
"""Stations nearer than this to that of a vertex are the vertex's, in plan units."""


def with_feet(lines: Lines, arcs: Arcs, made: Parallels, least: float) -> Parallels:
    """Return parallels with a vertex wherever their station would not be that of the line.

    Between vertices stations and heights run evenly. On the result they are those of the place
    square beside, but for inner corners: there they run to the mean of two places, along no more
    than the offset. Corners that turn by no more than `SOFT`, and those within an arc, stay as
    they are: evenly from vertex to vertex is right along a curve.

    Parameters
    ----------
    lines, arcs
        The sources, which ``made.parent`` counts the segments of.
    made
        The parallels.
    least
        What a station may be off by, in plan units, however small the offset.
    """
    beside = _Beside(lines, arcs, made, least)
    if len(arcs):
        made = beside.made = _radial(beside)
    inner, outer = _Inner(beside, least), _outer_feet(beside, least)
    clear = ~inner.holds(*outer)
    row = np.concatenate((inner.row[inner.new], outer[0][clear]))
    share = np.concatenate((inner.share[inner.new], outer[1][clear]))
    if not len(row):
        return made
    order = np.argsort(row + share, kind="stable")
    row, share = row[order], share[order]
    station, z = beside.at(row, share)
    return _inserted(inner.evened(), row, share, station, z)


class _Beside:
    """Rows of parallels with the segments that they run beside.

    Attributes
    ----------
    rows
        The rows that run beside a segment, (r,) int.
    segment, first, length
        Segment that each is parallel to, its first vertex and its length, (r,).
    begin, end
        How far along the segment each begins and ends, (r,) float; outside 0 .. ``length`` at the
        tips of outer corners.
    head, tail
        Whether each begins and ends elsewhere than between two chords of one arc, (r,) bool.
    allowed
        What the stations of each may be off by: as at a soft corner, (r,) float.
    """

    def __init__(self, lines: Lines, arcs: Arcs, made: Parallels, least: float) -> None:
        self.lines, self.arcs, self.made = lines, arcs, made
        self.rows = np.flatnonzero(made.parent >= 0)
        self._number = np.cumsum(made.parent >= 0) - 1
        self.segment = made.parent[self.rows]
        self.first = lines.segments[self.segment]
        self.length = lines.segment_lengths[self.segment]
        self.begin, self.end = self._along(self.rows), self._along(self.rows + 1)
        size = np.abs(made.offsets)[made.lines.owner]
        self._allowed = np.maximum(least, size * np.tan(SOFT / 2.0))
        self.allowed = self._allowed[self.rows]
        self.head = self.tail = np.ones(len(self.rows), bool)
        if len(arcs):
            arc = np.where(made.parent >= 0, arcs.of_segment[np.maximum(made.parent, 0)], -1)
            within = (arc >= 0) & (arc == np.roll(arc, 1))
            self.head, self.tail = ~within[self.rows], ~within[self.rows + 1]

    # What follows from stations is worked out when they are settled, see `_radial`.

    @cached_property
    def late(self) -> np.ndarray:
        """How far the station at the end of each is beyond that of the place square beside it."""
        station = self.made.station[self.rows + 1]
        return station - self.station(np.arange(len(self.rows)), self.end, station)

    @cached_property
    def early(self) -> np.ndarray:
        """How far the station at the beginning of each is short of that of the place beside it."""
        station = self.made.station[self.rows]
        return self.station(np.arange(len(self.rows)), self.begin, station) - station

    @cached_property
    def tip(self) -> np.ndarray:
        """Vertex with the station of an outer corner, for every row of the parallels, (n,) int.

        For a row round the tip of an outer corner that ends or begins at an inner one; else -1.
        """
        made, count = self.made, len(self.made.station)
        step = np.append(np.diff(made.station), 0.0)
        final = np.zeros(count, bool)
        final[made.lines.first[1:] - 1] = True
        uneven = (made.parent < 0) & ~final & (step > self._allowed)
        late, early = uneven.copy(), uneven.copy()
        late[self.rows], early[self.rows] = self.late > self.allowed, self.early > self.allowed
        late[final] = early[final] = False
        row, ring = np.arange(count), made.lines.closed
        behind, ahead = np.roll(late, 1), np.roll(early, -1)
        head, tail = made.lines.first[:-1][ring], made.lines.first[1:][ring] - 2
        behind[head], ahead[tail] = late[tail], early[head]
        return np.where(uneven, np.where(~behind, row, np.where(~ahead, row + 1, -1)), -1)

    def _along(self, row: np.ndarray) -> np.ndarray:
        """Return how far along its segment each place lies; beside an arc, by its angle."""
        lines, arcs, xy = self.lines, self.arcs, self.made.lines.xy[row]
        origin = lines.xy[self.first]
        along = dot(xy - origin, lines.segment_directions[self.segment])
        if len(arcs):
            curved = np.flatnonzero(arcs.of_segment[self.segment] >= 0)
            arc, length = arcs.of_segment[self.segment[curved]], self.length[curved]
            first, to = origin[curved] - arcs.centre[arc], xy[curved] - arcs.centre[arc]
            angle = np.arctan2(-arcs.sense[arc] * cross(first, to), dot(first, to))
            whole = 2.0 * np.arcsin(np.minimum(length / (2.0 * arcs.radius[arc]), 1.0))
            along[curved] = angle / whole * length
        return along

    def station(self, which: np.ndarray, along: np.ndarray, near: np.ndarray) -> np.ndarray:
        """Return stations along the segments of some rows, counted round a ring as ``near`` is.

        Beyond the ends of a segment a place is square beside the corner there.
        """
        along = np.clip(along, 0.0, self.length[which])
        station = self.lines.stations[self.first[which]] + along
        if not self.lines.closed.any():
            return station
        owner = self.lines.segment_owner[self.segment[which]]
        total, ring = self.lines.lengths[owner], self.lines.closed[owner]
        return station + np.where(ring, np.round((near - station) / total), 0.0) * total

    def at(self, row: np.ndarray, share: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        """Return station and height a share of the way along some rows, as the line has them."""
        made, lines = self.made, self.lines
        station = made.station[row] + share * (made.station[row + 1] - made.station[row])
        z = made.lines.z[row] + share * (made.lines.z[row + 1] - made.lines.z[row])
        own = np.flatnonzero(made.parent[row] >= 0)
        which = self._number[row[own]]
        along = self.begin[which] + share[own] * (self.end[which] - self.begin[which])
        station[own] = self.station(which, along, station[own])
        first, part = self.first[which], np.clip(along / self.length[which], 0.0, 1.0)
        z[own] = lines.z[first] + part * (lines.z[first + 1] - lines.z[first])
        tip = self.tip[row]
        level = tip >= 0
        station[level], z[level] = made.station[tip[level]], made.lines.z[tip[level]]
        return station, z


def _radial(beside: _Beside) -> Parallels:
    """Return parallels that end or meet square to arcs, where they do so beside a chord."""
    made, arcs, every = beside.made, beside.arcs, np.arange(len(beside.rows))
    curved = arcs.of_segment[beside.segment] >= 0
    total, count = np.zeros((2, len(made.station)))
    free = np.zeros(len(count), bool)
    for row, along in ((beside.rows, beside.begin), (beside.rows + 1, beside.end)):
        known = made.station[row]
        total[row] += beside.station(every, along, known)
        count[row] += 1.0
        ends = (beside.station(every, end, known) for end in (np.zeros(len(row)), beside.length))
        free[row] |= curved & (np.minimum(*(np.abs(end - known) for end in ends)) >= EXACT)
    # Where a ring starts and ends is one corner.
    ring = made.lines.closed
    free[made.lines.first[:-1][ring]] = free[made.lines.first[1:][ring] - 1] = False
    return replace(made, station=np.where(free, total / np.maximum(count, 1.0), made.station))


def _outer_feet(beside: _Beside, least: float) -> tuple[np.ndarray, np.ndarray]:
    """Return the rows on which feet of outer corners lie, and the share of the way along each."""
    begin, end, length = beside.begin, beside.end, beside.length
    ahead = np.flatnonzero(beside.head & (begin < -beside.allowed) & (end > least))
    behind = np.flatnonzero(
        beside.tail & (end > length + beside.allowed) & (begin < length - least)
    )
    which = np.concatenate((ahead, behind))
    place = np.concatenate((np.zeros(len(ahead)), length[behind]))
    return beside.rows[which], (place - begin[which]) / (end[which] - begin[which])


class _Inner:
    """Inner corners, and the stretches along which station and height run to those of the corner.

    Attributes
    ----------
    corner
        The vertex, twice: for the stretch before it and for the one after it.
    row, share
        Row, and share of the way along it, at the other end of each stretch.
    new
        Whether there is no vertex there yet.
    """

    def __init__(self, beside: _Beside, least: float) -> None:
        self.beside, made = beside, beside.made
        out = np.flatnonzero(beside.tail & (beside.late > beside.allowed))
        into = np.flatnonzero(beside.head & (beside.early > beside.allowed))
        row = np.flatnonzero(beside.tip >= 0)
        before = beside.tip[row] == row
        until, since = row[before], row[~before]
        corner = np.concatenate((beside.rows[out] + 1, until + 1, beside.rows[into], since))
        sense = np.repeat((-1, 1), (len(out) + len(until), len(into) + len(since)))
        step = (made.station[part + 1] - made.station[part] for part in (until, since))
        most = (beside.late[out], next(step), beside.early[into], next(step))
        reach = self._reach(corner, sense, np.concatenate(most))
        wide = reach > least
        self.corner, sense, reach = corner[wide], sense[wide], reach[wide]
        self.place = self.along[self.corner] + sense * reach
        start = self.walk[self.corner] - self.along[self.corner]
        self.row = np.searchsorted(self.walk, self.place + start, "right") - 1
        before, after = self.along[self.row], self.along[self.row + 1]
        share = (self.place - before) / (after - before)
        share = np.where(self.place - before <= least, 0.0, share)
        self.share = np.where(after - self.place <= least, 1.0, share)
        # A vertex that is all but there stands for the place.
        ends = [self.share == 0.0, self.share == 1.0]
        self.place = np.select(ends, [before, after], self.place)
        self.new = (self.share > 0.0) & (self.share < 1.0)

    def _reach(self, corner: np.ndarray, sense: np.ndarray, most: np.ndarray) -> np.ndarray:
        """Return along how much of the way behind (-1) or ahead (+1) stations run to a corner's."""
        lines = self.beside.made.lines
        self.along = lines.stations
        # One rising axis over all pieces serves to find places; their measures are each piece's.
        start = np.concatenate([[0.0], np.cumsum(lines.lengths + 1.0)[:-1]])
        self.walk = self.along + start[lines.owner]
        knot = np.zeros(len(self.walk), bool)
        knot[lines.first[:-1]] = knot[lines.first[1:] - 1] = knot[corner] = True
        knots = np.flatnonzero(knot)
        other = knots[np.searchsorted(knots, corner) + sense]
        way = np.abs(self.along[other] - self.along[corner])
        size = np.abs(self.beside.made.offsets)[lines.owner[corner]]
        return np.minimum.reduce([most, size, ROOM * way])

    def holds(self, row: np.ndarray, share: np.ndarray) -> np.ndarray:
        """Tell which places lie in one of the stretches."""
        step = self.along[row + 1] - self.along[row]
        place = self.walk[row] + share * step
        start = self.walk[self.corner] - self.along[self.corner]
        ends = np.sort(np.stack((self.place + start, self.walk[self.corner])), axis=0)
        order = np.argsort(ends[0], kind="stable")
        low, high = ends[0, order], ends[1, order]
        n = np.searchsorted(low, place, "right") - 1
        return (n >= 0) & (place < high[np.maximum(n, 0)]) if len(low) else np.zeros(len(row), bool)

    def evened(self) -> Parallels:
        """Return the parallels, with stations and heights that run evenly along the stretches."""
        made = self.beside.made
        before = self.row < self.corner
        low = np.where(before, self.row + (self.share > 0.0), self.corner + 1)
        high = np.where(before, self.corner, self.row + 1)
        some = np.flatnonzero(high > low)
        if not len(some):
            return made
        count = (high - low)[some]
        vertex, _ = ragged(low[some], count)
        run = np.repeat(np.arange(len(some)), count)
        corner, place = self.corner[some][run], self.place[some][run]
        share = (self.along[vertex] - place) / (self.along[corner] - place)
        share = np.clip(share, 0.0, 1.0)
        known = self.beside.at(self.row[some], self.share[some])
        result = made.station.copy(), made.lines.z.copy()
        for value, end in zip(result, known, strict=True):
            value[vertex] = end[run] + share * (value[corner] - end[run])
        return replace(made, station=result[0], lines=replace(made.lines, z=result[1]))


def _inserted(
    made: Parallels, row: np.ndarray, share: np.ndarray, station: np.ndarray, z: np.ndarray
) -> Parallels:
    """Return parallels with a vertex a share of the way along each of some rows, in order."""
    lines, after = made.lines, row + 1
    place = lines.xy[row] + share[:, None] * (lines.xy[after] - lines.xy[row])
    count = len(lines.xy)
    new = after + np.arange(len(row))
    kept = np.ones(count + len(row), bool)
    kept[new] = False
    kept = np.flatnonzero(kept)

    def merged(own: np.ndarray, added: np.ndarray) -> np.ndarray:
        whole = np.empty((len(kept) + len(new), *own.shape[1:]), own.dtype)
        whole[kept], whole[new] = own, added
        return whole

    first = lines.first + np.searchsorted(after, lines.first)
    return replace(
        made,
        lines=Lines(merged(lines.xy, place), merged(lines.z, z), first, lines.closed),
        station=merged(made.station, station),
        parent=merged(made.parent, made.parent[row]),
    )
