"""How each stretch of a line votes for the direction in which the line should run.

A stretch votes +1 where the line, as it is drawn, runs the way that is asked for, -1 where it runs
the other way; or it does not vote and says why not. `orient` counts the votes by length.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
import shapely

from ..progress import Progress, silent
from ..runs import batches, count_up
from .bundle import Lines
from .direction import vector_of
from .stations import point_at

Sample = Callable[[np.ndarray], np.ndarray]
"""Elevations of a surface at (p, 2) points: (p,) float, NaN where there is no surface."""

FEWEST, MOST = 24, 64
"""Stretches that a line is cut into: two a segment within these limits."""
SQUARE = float(np.sin(np.radians(22.5)))
"""A stretch that lies within 22.5 degrees of square to a direction does not vote."""
MIN_FALL = 0.0005
"""Grade along the line below which a stretch counts as level (rise over run)."""
TIE = 0.1
"""A reference farther away by less than this share is about as near."""
_AT_ONCE = 4096
_BINS = 64


class Reason(IntEnum):
    """Why a stretch does not vote."""

    NONE = 0
    SQUARE = 1
    BEYOND = 2
    TIE = 3
    LEVEL = 4
    NO_SURFACE = 5
    NO_HEIGHT = 6


@dataclass(frozen=True)
class Stretches:
    """Votes of stretches.

    Parameters
    ----------
    line, length
        Line of each stretch, (s,) int, and its plan length, (s,) float.
    middle
        Plan position of its middle, (s, 2) float.
    vote
        +1, -1 or 0, (s,) int.
    reason
        `Reason` where the vote is 0, (s,) int.
    """

    line: np.ndarray
    length: np.ndarray
    middle: np.ndarray
    vote: np.ndarray
    reason: np.ndarray


class Track:
    """Reference lines along which stations are compared.

    Parameters
    ----------
    lines
        The references; up-station is from first to last vertex.
    """

    def __init__(self, lines: Lines) -> None:
        self.lines = lines
        self._tree = shapely.STRtree(lines.segment_geometries)
        # For each direction, whether any reference runs against it anywhere.
        used = np.unique(_bin(lines.segment_directions))
        apart = np.abs((np.arange(_BINS)[:, None] - used + _BINS // 2) % _BINS - _BINS // 2)
        reach = (0.5 - np.arcsin(SQUARE) / np.pi) * _BINS / 2.0 + 1.0
        self._opposed = (apart >= _BINS / 2.0 - reach).any(1)

    def feet(self, xy: np.ndarray) -> "Feet":
        """Return the nearest places of the references to points, (p, 2) float."""
        lines = self.lines
        segment = self._tree.query_nearest(shapely.points(xy), all_matches=False)[1]
        begin, size = lines.segments[segment], lines.segment_lengths[segment]
        along = ((xy - lines.xy[begin]) * lines.segment_directions[segment]).sum(1)
        along = np.clip(along, 0.0, size)
        owner = lines.segment_owner[segment]
        station = lines.stations[begin] + along
        length, ring = lines.lengths[owner], lines.closed[owner]
        slack = 1e-9 * length
        # Where the foot is a vertex the direction there is that of both its segments.
        low, high = along <= slack, along >= size - slack
        first, last = lines.first_segment[owner], lines.first_segment[owner + 1] - 1
        before = np.where(segment > first, segment - 1, np.where(ring, last, segment))
        after = np.where(segment < last, segment + 1, np.where(ring, first, segment))
        mean = lines.segment_directions[segment] + np.where(
            low[:, None],
            lines.segment_directions[before],
            np.where(high[:, None], lines.segment_directions[after], 0.0),
        )
        mean /= np.maximum(np.hypot(mean[:, 0], mean[:, 1]), 1e-12)[:, None]
        tip = np.where(station <= slack, -1, np.where(station >= length - slack, 1, 0))
        foot = lines.xy[begin] + along[:, None] * lines.segment_directions[segment]
        distance = np.hypot(*(xy - foot).T)
        return Feet(owner, station, mean, np.where(ring, 0, tip), distance)

    def runs_against(self, xy: np.ndarray, way: np.ndarray, distance: np.ndarray) -> np.ndarray:
        """Tell where a reference that is about as near as the nearest one runs against ``way``."""
        found = np.zeros(len(xy), bool)
        asked = np.flatnonzero(self._opposed[_bin(way)])
        for begin in range(0, len(asked), _AT_ONCE):
            rows = asked[begin : begin + _AT_ONCE]
            reach = distance[rows] * (1.0 + TIE)
            at, segment = self._tree.query(
                shapely.points(xy[rows]), predicate="dwithin", distance=reach
            )
            facing = (self.lines.segment_directions[segment] * way[rows][at]).sum(1)
            found[rows[at[facing <= -SQUARE]]] = True
        return found


def _bin(directions: np.ndarray) -> np.ndarray:
    """Return the number of the sector of the circle in which each direction lies."""
    turns = np.arctan2(directions[:, 1], directions[:, 0]) / (2.0 * np.pi)
    return np.floor(turns * _BINS).astype(np.int64) % _BINS


@dataclass(frozen=True)
class Feet:
    """Nearest places on references.

    Parameters
    ----------
    line, station
        Reference of each foot, (p,) int, and the station on it, (p,) float.
    direction
        Unit vector up-station there, (p, 2) float.
    tip
        -1 at the first vertex of an open reference, 1 at its last, 0 between, (p,) int.
    distance
        Distance of the point from it, (p,) float.
    """

    line: np.ndarray
    station: np.ndarray
    direction: np.ndarray
    tip: np.ndarray
    distance: np.ndarray


def up_station(lines: Lines, track: Track, progress: Progress = silent) -> Stretches:
    """Vote for running up-station along the nearest reference.

    The stations of the feet of both ends of a stretch are compared. Where the feet lie on
    different references, or both at one vertex, the direction of the reference at the foot of the
    middle tells.
    """
    parts = []
    for begin, end in batches(_numbers(lines), 20_000):
        parts.append(_up_station(lines.take(np.arange(begin, end)), track, begin))
        progress(end / len(lines))
    return _joined(parts)


def _up_station(lines: Lines, track: Track, shift: int) -> Stretches:
    line, length, ends, middle = _cut(lines)
    a, b = ends
    chord = b - a
    way = chord / np.maximum(np.hypot(chord[:, 0], chord[:, 1]), 1e-12)[:, None]
    low, mid = track.feet(a), track.feet(middle)
    # A stretch ends where the next one of its line starts.
    final = np.flatnonzero(np.diff(line, append=-1))
    last = track.feet(b[final])

    def after(column: str) -> np.ndarray:
        values = np.roll(getattr(low, column), -1)
        values[final] = getattr(last, column)
        return values

    rise = after("station") - low.station
    around, ring = track.lines.lengths[low.line], track.lines.closed[low.line]
    rise = np.where(ring, (rise + around / 2.0) % around - around / 2.0, rise)
    facing = (way * mid.direction).sum(1)
    same = (low.line == after("line")) & (np.abs(rise) >= SQUARE * length - 1e-9 * length)
    tells = np.abs(facing) >= SQUARE - 1e-9
    vote = np.where(same, np.sign(rise), np.where(tells, np.sign(facing), 0)).astype(np.int64)
    beyond = (low.line == after("line")) & (low.tip == after("tip")) & (low.tip != 0)
    # A jump from one leg of a bend to the other: the stations say one thing, the ground another.
    jump = same & tells & (np.sign(rise) != np.sign(facing))
    tie = jump | track.runs_against(middle, way * vote[:, None], mid.distance)
    reason = np.select([beyond, tie, vote == 0], [Reason.BEYOND, Reason.TIE, Reason.SQUARE], 0)
    return _stretches(line + shift, length, middle, vote, reason)


def bearing(lines: Lines, degrees: float) -> Stretches:
    """Vote for running within 67.5 degrees of a bearing; every segment is a stretch."""
    facing = lines.segment_directions @ vector_of(degrees)
    square = np.abs(facing) < SQUARE - 1e-9
    vote = np.sign(facing).astype(np.int64)
    return _segments(lines, vote, np.where(square, Reason.SQUARE, 0))


def downhill(lines: Lines, sample: Sample | None, z_scale: float = 1.0) -> Stretches:
    """Vote for running downhill on a surface, or by the heights of the lines themselves.

    Parameters
    ----------
    lines
        The bundle.
    sample
        Heights of the surface; None takes those of the lines.
    z_scale
        Plan units in one unit of height.
    """
    if sample is None:
        first = lines.segments
        fall = lines.z[first] - lines.z[first + 1]
        vote, reason = _fall(fall * z_scale, lines.segment_lengths, Reason.NO_HEIGHT)
        return _segments(lines, vote, reason)
    line, length, (a, b), middle = _cut(lines)
    fall = sample(a) - sample(b)
    vote, reason = _fall(fall * z_scale, length, Reason.NO_SURFACE)
    return _stretches(line, length, middle, vote, reason)


def total_fall(lines: Lines, sample: Sample | None) -> np.ndarray:
    """Return the height of the first vertex of each line less that of its last, (k,) float."""
    ends = np.column_stack([lines.first[:-1], lines.first[1:] - 1])
    height = lines.z[ends] if sample is None else sample(lines.xy[ends.ravel()]).reshape(-1, 2)
    return height[:, 0] - height[:, 1]


def _fall(fall: np.ndarray, length: np.ndarray, missing: Reason) -> tuple[np.ndarray, np.ndarray]:
    gone = ~np.isfinite(fall)
    fall = np.where(gone, 0.0, fall)
    level = np.abs(fall) < MIN_FALL * length
    return np.sign(fall).astype(np.int64), np.select([gone, level], [missing, Reason.LEVEL], 0)


def _numbers(lines: Lines) -> np.ndarray:
    return np.clip(2 * (lines.counts - 1), FEWEST, MOST)


def _cut(
    lines: Lines,
) -> tuple[np.ndarray, np.ndarray, tuple[np.ndarray, np.ndarray], np.ndarray]:
    """Cut every line into stretches of equal length: line, length, both ends, middle."""
    count = _numbers(lines)
    line = np.repeat(np.arange(len(lines)), count)
    size = lines.lengths[line] / count[line]
    low = count_up(count) * size
    ends = point_at(lines, line, low), point_at(lines, line, low + size)
    return line, size, ends, point_at(lines, line, low + 0.5 * size)


def _segments(lines: Lines, vote: np.ndarray, reason: np.ndarray) -> Stretches:
    middle = 0.5 * (lines.xy[lines.segments] + lines.xy[lines.segments + 1])
    return _stretches(lines.segment_owner, lines.segment_lengths, middle, vote, reason)


def _stretches(
    line: np.ndarray, length: np.ndarray, middle: np.ndarray, vote: np.ndarray, reason: np.ndarray
) -> Stretches:
    reason = np.asarray(reason, np.int64)
    return Stretches(line, length, middle, np.where(reason == Reason.NONE, vote, 0), reason)


def _joined(parts: list[Stretches]) -> Stretches:
    names = ("line", "length", "middle", "vote", "reason")
    return Stretches(*(np.concatenate([getattr(part, name) for part in parts]) for name in names))
