"""True arcs: which segments of a line stand for one.

Lines are worked on as chords whose vertices lie on the arcs. This module knows the arcs behind the
chords: their tangents, their lengths, and what becomes of them where lines are cut. `arc_parts`
gives parallels their arcs back.
"""

from dataclasses import dataclass, replace

import numpy as np

from ..runs import ragged
from .bundle import Lines
from .stations import locate


@dataclass(frozen=True)
class Arcs:
    """The arcs in a bundle of lines.

    Parameters
    ----------
    of_segment : (s,) int
        Arc of each segment of the bundle, -1 for a straight one.
    centre : (a, 2) float
        Centre of each arc.
    radius : (a,) float
        Its radius.
    sense : (a,) int
        +1 where it turns to the right, -1 to the left.
    """

    of_segment: np.ndarray
    centre: np.ndarray
    radius: np.ndarray
    sense: np.ndarray

    @classmethod
    def none(cls, lines: Lines) -> "Arcs":
        """Return the arcs of lines that have none."""
        every = np.full(len(lines.segments), -1)
        return cls(every, np.empty((0, 2)), np.empty(0), np.empty(0, np.int64))

    def __len__(self) -> int:
        """Return the number of arcs."""
        return len(self.radius)

    def take(self, lines: Lines, which: np.ndarray) -> "Arcs":
        """Return the arcs of ``lines.take(which)``."""
        rows, _ = ragged(lines.first_segment[which], lines.counts[which] - 1)
        return replace(self, of_segment=self.of_segment[rows])

    def ends(self, lines: Lines) -> np.ndarray:
        """Tell at which vertices of the lines an arc begins or ends, (n,) bool."""
        found = np.zeros(len(lines.xy), bool)
        chord = np.flatnonzero(self.of_segment >= 0)
        arc = self.of_segment[chord]
        line = lines.segment_owner[chord]
        first = (np.diff(arc, prepend=-1) != 0) | (np.diff(line, prepend=-1) != 0)
        last = np.append(first[1:], np.ones(min(len(chord), 1), bool))
        found[lines.segments[chord[first]]] = True
        found[lines.segments[chord[last]] + 1] = True
        return found

    def tangent(self, arc: int, place: np.ndarray) -> np.ndarray:
        """Return the unit direction of an arc at a place on it."""
        to = (place - self.centre[arc]) / np.hypot(*(place - self.centre[arc]))
        return float(self.sense[arc]) * np.array([to[1], -to[0]])

    def directions(self, lines: Lines) -> tuple[np.ndarray, np.ndarray]:
        """Return the unit directions at the start and at the end of each segment, (s, 2) each."""
        chord = np.flatnonzero(self.of_segment >= 0)
        arc = self.of_segment[chord]
        both = []
        for vertex in (lines.segments, lines.segments + 1):
            to = lines.xy[vertex[chord]] - self.centre[arc]
            to *= (self.sense[arc] / np.hypot(to[:, 0], to[:, 1]))[:, None]
            own = lines.segment_directions.copy()
            own[chord] = np.column_stack((to[:, 1], -to[:, 0]))
            both.append(own)
        return both[0], both[1]

    def stations(self, lines: Lines) -> np.ndarray:
        """Return the distance of each vertex from the start of its line along the arcs, (n,)."""
        run = lines.segment_lengths.copy()
        chord = np.flatnonzero(self.of_segment >= 0)
        radius = self.radius[self.of_segment[chord]]
        run[chord] = 2.0 * radius * np.arcsin(np.minimum(run[chord] / (2.0 * radius), 1.0))
        step = np.zeros(len(lines.xy))
        step[lines.segments + 1] = run
        total = np.empty(len(step))
        for k in range(len(lines)):
            rows = lines.line(k)
            total[rows] = np.cumsum(step[rows])
        return total

    def of_parts(self, lines: Lines, parts: Lines, origin: np.ndarray, begin: np.ndarray) -> "Arcs":
        """Return the arcs of parts that have been cut from the lines.

        Parameters
        ----------
        lines, parts
            The lines, and the parts.
        origin : (p,) int
            Line that each part is of.
        begin : (p,) float
            Distance along it at which the part starts.
        """
        row = parts.segment_owner
        middle = parts.stations[parts.segments] + parts.segment_lengths / 2.0
        segment, _ = locate(lines, origin[row], begin[row] + middle)
        return Arcs(self.of_segment[segment], self.centre, self.radius, self.sense)

    def ends_on(self, lines: Lines) -> Lines:
        """Return the lines with their ends on their arcs: one cut from an arc ends on a chord."""
        xy = lines.xy.copy()
        for vertex, segment in (
            (lines.first[:-1], lines.first_segment[:-1]),
            (lines.first[1:] - 1, lines.first_segment[1:] - 1),
        ):
            arc = self.of_segment[segment]
            at, arc = vertex[arc >= 0], arc[arc >= 0]
            to = xy[at] - self.centre[arc]
            size = np.hypot(to[:, 0], to[:, 1])
            xy[at] = self.centre[arc] + (self.radius[arc] / size)[:, None] * to
        return Lines(xy, lines.z, lines.first, lines.closed)


def circle(
    start: np.ndarray, middle: np.ndarray, stop: np.ndarray
) -> tuple[np.ndarray, float, int]:
    """Return centre, radius and sense (+1 to the right) of the arc through three points.

    Equal ends make a full circle with the middle point opposite, as in the simple features
    standard; its sense is to the left then. Points in a line have an infinite radius.
    """
    if np.array_equal(start, stop):
        centre = (start + middle) / 2.0
        return centre, float(np.hypot(*(middle - start)) / 2.0), -1
    a, b = middle - start, stop - start
    twice = 2.0 * (a[0] * b[1] - a[1] * b[0])
    if twice == 0.0:
        return start, np.inf, 1
    aa, bb = a @ a, b @ b
    to = np.array([b[1] * aa - a[1] * bb, a[0] * bb - b[0] * aa]) / twice
    return start + to, float(np.hypot(*to)), -1 if twice > 0 else 1
