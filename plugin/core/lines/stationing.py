"""Stations as people call them: distance along a line, counted from a start station.

Inside the package a place on a line is its *distance*, the plan distance from its first vertex. A
*station* is that distance plus the line's start station; only what comes in from people or goes
out to them is a station. Round a closed line stations run from its start station up to its length
more; a distance beyond the end of a ring (a piece that passes the ring's start) wraps. Distances
run along the chords that stand for arcs, stations along the arcs themselves.
"""

from dataclasses import dataclass

import numpy as np

from .arcs import Arcs
from .bundle import Lines

WRAP = 1e-9
"""Share of a ring's length that rounding may carry a distance past its end."""


@dataclass(frozen=True)
class Stationing:
    """The stations of a bundle of lines.

    Parameters
    ----------
    start
        Station of the first vertex of each line, (k,) float.
    length
        Plan length of each line, (k,) float.
    closed
        True for a ring, (k,) bool.
    arcs
        What distances are along the arcs of the lines; None where there are none.
    """

    start: np.ndarray
    length: np.ndarray
    closed: np.ndarray
    arcs: "AlongArcs | None" = None

    @classmethod
    def of(
        cls, lines: Lines, start: np.ndarray | float = 0.0, arcs: Arcs | None = None
    ) -> "Stationing":
        """Count the stations of lines from a start station each, or one for all.

        Parameters
        ----------
        lines
            The lines.
        start
            Station of the first vertex.
        arcs
            The arcs behind their chords.
        """
        begin = np.broadcast_to(np.asarray(start, float), (len(lines),)).copy()
        along = AlongArcs.of(lines, arcs) if arcs is not None and len(arcs) else None
        return cls(begin, lines.lengths, lines.closed, along)

    @property
    def lengths(self) -> np.ndarray:
        """Length of each line as stations count it, (k,) float."""
        every = np.arange(len(self.length))
        return self.length if self.arcs is None else self.arcs.along(every, self.length)

    def station(self, which: np.ndarray | int, distance: np.ndarray | float) -> np.ndarray:
        """Return the station at a distance along line ``which``.

        Parameters
        ----------
        which
            Line of each place, (p,) int or one for all.
        distance
            Plan distance from its first vertex, (p,) float; on a ring it may run past the end.
        """
        length = self.length[which]
        distance = np.asarray(distance, float)
        past = self.closed[which] & ((distance > length * (1.0 + WRAP)) | (distance < 0.0))
        wrapped = np.where(past, np.mod(distance, np.where(past, length, 1.0)), distance)
        return self.start[which] + self._along(which, wrapped)

    def running(self, which: int, distance: np.ndarray) -> np.ndarray:
        """Return stations along one line that run on past the end of a ring."""
        length = float(self.length[which])
        laps = np.floor(distance / (length * (1.0 + WRAP))) if self.closed[which] else 0.0
        own = self._along(which, distance - laps * length)
        return self.start[which] + laps * self.lengths[which] + own

    def distance(self, which: np.ndarray | int, station: np.ndarray | float) -> np.ndarray:
        """Return the distance along line ``which`` of a station; NaN where it is off the line."""
        length = self.lengths[which]
        along = np.asarray(station, float) - self.start[which]
        slack = WRAP * np.maximum(length, 1.0)
        on = (along >= -slack) & (along <= length + slack)
        found = np.clip(along, 0.0, length)
        if self.arcs is not None:
            found = self.arcs.distance(which, found)
        return np.where(on, found, np.nan)

    def beyond(self, which: int, station: np.ndarray) -> np.ndarray:
        """Return distances along one line of stations that may lie off it."""
        along = np.asarray(station, float) - self.start[which]
        within = np.clip(along, 0.0, self.lengths[which])
        on = within if self.arcs is None else self.arcs.distance(which, within)
        return on + along - within

    def _along(self, which: np.ndarray | int, distance: np.ndarray) -> np.ndarray:
        return distance if self.arcs is None else self.arcs.along(which, distance)


@dataclass(frozen=True)
class AlongArcs:
    """Distances along chords and along the arcs behind them, vertex by vertex.

    Between two vertices both grow in the same proportion: with chords a tenth of a millimetre from
    their arc that is right to a ten-millionth of the radius.

    Parameters
    ----------
    chords, arcs
        Distance of each vertex from the start of its line, (n,) float each.
    first
        First vertex of each line, and n at the end, (k + 1,) int.
    """

    chords: np.ndarray
    arcs: np.ndarray
    first: np.ndarray

    @classmethod
    def of(cls, lines: Lines, arcs: Arcs) -> "AlongArcs":
        """Return the distances of the vertices of lines."""
        return cls(lines.stations, arcs.stations(lines), lines.first)

    def along(self, which: np.ndarray | int, distance: np.ndarray) -> np.ndarray:
        """Return distances along the arcs for distances along the chords."""
        return self._between(which, distance, self.chords, self.arcs)

    def distance(self, which: np.ndarray | int, along: np.ndarray) -> np.ndarray:
        """Return distances along the chords for distances along the arcs."""
        return self._between(which, along, self.arcs, self.chords)

    def _between(
        self, which: np.ndarray | int, value: np.ndarray, given: np.ndarray, wanted: np.ndarray
    ) -> np.ndarray:
        line, value = np.broadcast_arrays(np.asarray(which), np.asarray(value, float))
        result = np.array(value)
        for k in np.unique(line).tolist():
            own, rows = line == k, slice(self.first[k], self.first[k + 1])
            result[own] = np.interp(value[own], given[rows], wanted[rows])
        return result
