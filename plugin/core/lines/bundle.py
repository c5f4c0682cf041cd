"""Many lines as one set of arrays, so that every step works on all of them at once.

A `Lines` holds the vertices of all its lines end to end. Line ``k`` owns the vertices
``first[k] .. first[k + 1] - 1``; a closed line repeats its first vertex at its end. Neighbouring
vertices are never closer than the snap tolerance, so every segment has a direction.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from ..errors import LineError
from ..runs import ragged
from ..text import translate


@dataclass(frozen=True)
class Lines:
    """A bundle of polylines.

    Parameters
    ----------
    xy
        Plan coordinates of all vertices, (n, 2) float.
    z
        Elevations, (n,) float; NaN where there is none.
    first
        Index of the first vertex of each line, and n at the end, (k + 1,) int.
    closed
        True for a line that ends where it starts, (k,) bool.
    """

    xy: np.ndarray
    z: np.ndarray
    first: np.ndarray
    closed: np.ndarray

    @classmethod
    def from_arrays(cls, coordinates: Sequence[np.ndarray], snap: float = 1e-4) -> "Lines":
        """Pack lines given one by one.

        Parameters
        ----------
        coordinates
            One (n, 2), (n, 3) or (n, 4) array of x, y[, z[, m]] for each line.
        snap
            Vertices nearer than this to the one before are left out. A line that ends within
            ``snap`` of its start is closed.

        Raises
        ------
        LineError
            A coordinate is not finite, or a line has no length.
        """
        rows, closed = [], []
        for number, given in enumerate(coordinates):
            line, ring = _clean(np.asarray(given, float), number, snap)
            rows.append(line)
            closed.append(ring)
        counts = np.array([len(r) for r in rows], np.int64)
        points = np.concatenate(rows) if rows else np.empty((0, 3))
        first = np.concatenate([[0], np.cumsum(counts)]).astype(np.int64)
        xy, z = np.ascontiguousarray(points[:, :2]), np.ascontiguousarray(points[:, 2])
        return cls(xy, z, first, np.array(closed, bool))

    def __len__(self) -> int:
        """Return the number of lines."""
        return len(self.closed)

    @cached_property
    def counts(self) -> np.ndarray:
        """Number of vertices of each line, (k,) int."""
        return np.diff(self.first)

    @cached_property
    def owner(self) -> np.ndarray:
        """Line of each vertex, (n,) int."""
        return np.repeat(np.arange(len(self)), self.counts)

    @cached_property
    def segments(self) -> np.ndarray:
        """Index of the first vertex of every segment, (s,) int; its second is the next vertex."""
        inner = np.ones(len(self.xy), bool)
        inner[self.first[1:] - 1] = False
        return np.flatnonzero(inner)

    @cached_property
    def segment_owner(self) -> np.ndarray:
        """Line of each segment, (s,) int."""
        return self.owner[self.segments]

    @property
    def _steps(self) -> np.ndarray:
        """Vector from the first to the second vertex of each segment, (s, 2) float."""
        inner = np.ones(max(len(self.xy) - 1, 0), bool)
        inner[self.first[1:-1] - 1] = False  # from the end of a line to the start of the next
        return np.diff(self.xy, axis=0)[inner]

    @cached_property
    def segment_lengths(self) -> np.ndarray:
        """Plan length of each segment, (s,) float."""
        step = self._steps
        return np.hypot(step[:, 0], step[:, 1])

    @cached_property
    def segment_directions(self) -> np.ndarray:
        """Unit vector from the first to the second vertex of each segment, (s, 2) float."""
        step = self._steps
        return step / self.segment_lengths[:, None]

    @cached_property
    def first_segment(self) -> np.ndarray:
        """Index of the first segment of each line, and s at the end, (k + 1,) int."""
        return self.first - np.arange(len(self) + 1)

    @cached_property
    def lengths(self) -> np.ndarray:
        """Plan length of each line, (k,) float."""
        if not len(self):
            return np.empty(0)
        return np.add.reduceat(self.segment_lengths, self.first_segment[:-1])

    @cached_property
    def stations(self) -> np.ndarray:
        """Plan distance of each vertex from the start of its line, (n,) float."""
        run = np.zeros(len(self.xy))
        run[self.segments + 1] = self.segment_lengths
        total = np.cumsum(run)
        # Summing line by line, not over all lines, keeps a line's stations independent of others.
        for k in np.flatnonzero(self.first[:-1] > 0):
            a, b = self.first[k], self.first[k + 1]
            total[a:b] = np.cumsum(run[a:b])
        return total

    @cached_property
    def geometries(self) -> np.ndarray:
        """The lines as shapely LineStrings in plan, (k,) object."""
        return shapely.linestrings(self.xy, indices=self.owner)

    @cached_property
    def segment_geometries(self) -> np.ndarray:
        """The segments as shapely LineStrings in plan, (s,) object."""
        ends = np.stack([self.xy[self.segments], self.xy[self.segments + 1]], axis=1)
        return shapely.linestrings(ends)

    def line(self, k: int) -> slice:
        """Return the slice of the vertices of line ``k``."""
        return slice(int(self.first[k]), int(self.first[k + 1]))

    def take(self, which: np.ndarray) -> "Lines":
        """Return a bundle of the given lines, in the given order; a line may come twice."""
        which = np.asarray(which, np.int64)
        if np.array_equal(which, np.arange(len(self))):
            return self  # with all that is known of the lines already
        if len(which) and np.array_equal(which, np.arange(which[0], which[0] + len(which))):
            return self._stretch(int(which[0]), int(which[-1]) + 1)
        index, first = ragged(self.first[which], self.counts[which])
        return Lines(self.xy[index], self.z[index], first, self.closed[which])

    def _stretch(self, begin: int, end: int) -> "Lines":
        """Return lines that follow each other, with what is known of their segments already."""
        rows = slice(self.first[begin], self.first[end])
        first = self.first[begin : end + 1] - self.first[begin]
        part = Lines(self.xy[rows], self.z[rows], first, self.closed[begin:end])
        segments = slice(self.first_segment[begin], self.first_segment[end])
        for name in ("segment_lengths", "segment_directions"):
            if name in self.__dict__:
                part.__dict__[name] = self.__dict__[name][segments]
        return part

    def reversed(self) -> "Lines":
        """Return the same lines drawn the other way."""
        index = (self.first[:-1] + self.first[1:] - 1)[self.owner] - np.arange(len(self.xy))
        return Lines(self.xy[index], self.z[index], self.first, self.closed)


def _clean(line: np.ndarray, number: int, snap: float) -> tuple[np.ndarray, bool]:
    """Return x, y, z of the vertices worth keeping, and whether they make a ring."""
    if line.ndim != 2 or len(line) < 2 or line.shape[1] < 2:
        raise LineError(_no_length(number))
    if not np.isfinite(line[:, :2]).all():
        message = translate("Core", "Line {number} has a vertex without finite coordinates: mend or remove it.")  # fmt: skip # noqa: E501
        raise LineError(message.format(number=number))
    if line.shape[1] == 2:
        line = np.column_stack([line, np.full(len(line), np.nan)])
    line = line[_apart(line[:, :2], snap), :3]
    if len(line) < 2:
        raise LineError(_no_length(number))
    ring = len(line) > 3 and bool(np.hypot(*(line[-1, :2] - line[0, :2])) <= snap)
    if ring:
        line[-1, :2] = line[0, :2]
    return line, ring


def _apart(xy: np.ndarray, snap: float) -> np.ndarray:
    """Return the indices of vertices that are more than ``snap`` from the one kept before."""
    step = np.hypot(*np.diff(xy, axis=0).T)
    if (step > snap).all():
        return np.arange(len(xy))
    keep = [0]
    for i in range(1, len(xy)):
        if np.hypot(*(xy[i] - xy[keep[-1]])) > snap:
            keep.append(i)
    last = len(xy) - 1
    if keep[-1] != last and len(keep) > 1:
        keep[-1] = last  # the end of a line is a point people measured: it stays
    return np.array(keep)


def _no_length(number: int) -> str:
    message = translate("Core", "Line {number} has no length: remove it or draw it again.")
    return message.format(number=number)
