"""Stations as people call them: distance along a line, counted from a start station.

Inside the package a place on a line is its *distance*, the plan distance from its first vertex. A
*station* is that distance plus the line's start station; only what comes in from people or goes
out to them is a station. Round a closed line stations run from its start station up to its length
more; a distance beyond the end of a ring (a piece that passes the ring's start) wraps.
"""

from dataclasses import dataclass

import numpy as np

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
    """

    start: np.ndarray
    length: np.ndarray
    closed: np.ndarray

    @classmethod
    def of(cls, lines: Lines, start: np.ndarray | float = 0.0) -> "Stationing":
        """Count the stations of lines from a start station each, or one for all."""
        begin = np.broadcast_to(np.asarray(start, float), (len(lines),)).copy()
        return cls(begin, lines.lengths, lines.closed)

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
        return self.start[which] + wrapped

    def distance(self, which: np.ndarray | int, station: np.ndarray | float) -> np.ndarray:
        """Return the distance along line ``which`` of a station; NaN where it is off the line."""
        length = self.length[which]
        along = np.asarray(station, float) - self.start[which]
        slack = WRAP * np.maximum(length, 1.0)
        on = (along >= -slack) & (along <= length + slack)
        return np.where(on, np.clip(along, 0.0, length), np.nan)
