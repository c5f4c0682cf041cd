"""Where stakes stand along lines and beside them, and what they say.

Stakes stand at round stations (multiples of an interval), at the ends of a line, and on request at
its vertices, at the ends of its arcs, where its grade breaks, and at listed stations; places that
coincide are one stake with several reasons. A stake at an offset stands square to the line; at a
corner it stands on the bisector, where it is the offset away from both sides (up to `CORNER`
offsets from the corner itself).
"""

from dataclasses import dataclass, field
from enum import IntFlag

import numpy as np
import shapely

from .arcs import Arcs
from .bundle import Lines
from .corners import turns
from .direction import right_normals
from .stationing import Stationing
from .stations import elevation_at, locate, point_at

CORNER = 2.0
"""Farthest that a stake at a corner stands from it, in offsets."""
NEARER = 1e-3
"""Share of an offset by which another part of the line may be nearer: beside the chords of a curve
the next chord often is, by a hair."""


class Reason(IntFlag):
    """Why a stake stands where it does."""

    START = 1
    END = 2
    INTERVAL = 4
    VERTEX = 8
    ARC = 16
    BREAK = 32
    LISTED = 64


@dataclass(frozen=True)
class Wanted:
    """Which stakes are wanted.

    Parameters
    ----------
    interval
        Distance between round stations, plan units; 0 = none.
    listed
        Stations asked for by name.
    vertices
        Whether every vertex gets one.
    arcs
        For each vertex of the bundle whether an arc begins or ends there, (n,) bool; None = no
        stakes there.
    grade_break
        Change of grade along the line that gets a stake, a ratio; 0 = none.
    z_scale
        Plan units in one vertical unit.
    """

    interval: float = 0.0
    listed: np.ndarray = field(default_factory=lambda: np.empty(0))
    vertices: bool = False
    arcs: np.ndarray | None = None
    grade_break: float = 0.0
    z_scale: float = 1.0


@dataclass(frozen=True)
class Stakes:
    """Stakes in order along each line, offsets of one place from left to right.

    Parameters
    ----------
    line : (s,) int
        Line of each.
    distance : (s,) float
        Distance along its chords.
    along : (s,) float
        Distance along the line itself, as stations count it.
    offset : (s,) float
        Signed offset, right +; 0 on the line.
    reason : (s,) int
        `Reason`, several of them added.
    xy : (s, 2) float
        Place in plan.
    z : (s,) float
        Height of the line at the station.
    clear : (s,) bool
        False where another part of the line is nearer than the stake's own place on it.
    """

    line: np.ndarray
    distance: np.ndarray
    along: np.ndarray
    offset: np.ndarray
    reason: np.ndarray
    xy: np.ndarray
    z: np.ndarray
    clear: np.ndarray

    def __len__(self) -> int:
        """Return the number of stakes."""
        return len(self.line)


def set_out(
    lines: Lines,
    stationing: Stationing,
    wanted: Wanted,
    offsets: np.ndarray,
    snap: float = 1e-4,
    arcs: Arcs | None = None,
) -> Stakes:
    """Return the stakes of lines.

    Parameters
    ----------
    lines
        The lines.
    stationing
        Their stations.
    wanted
        Which stakes are wanted.
    offsets
        Signed offsets, right +, (o,) float; 0 is the line itself.
    snap
        Places nearer than this along a line are one.
    arcs
        The arcs of the lines.
    """
    line, distance, reason = _along(lines, stationing, wanted, snap)
    offsets = np.unique(np.asarray(offsets, float))
    count = len(offsets)
    line, distance, reason = (np.repeat(a, count) for a in (line, distance, reason))
    offset = np.tile(offsets, len(line) // max(count, 1))
    foot, outward = foot_and_right(lines, line, distance, snap, arcs or Arcs.none(lines))
    xy = foot + offset[:, None] * outward
    away = shapely.distance(shapely.points(xy), lines.geometries[line])
    clear = away >= np.abs(offset) * (1.0 - NEARER) - snap
    along = stationing.station(line, distance) - stationing.start[line]
    z = elevation_at(lines, line, distance)
    return Stakes(line, distance, along, offset, reason, xy, z, clear)


def grades_to_next(stakes: Stakes, height: np.ndarray, z_scale: float = 1.0) -> np.ndarray:
    """Return the grade from each stake to the next of its line and offset, NaN at the last.

    Parameters
    ----------
    stakes
        The stakes.
    height : (s,) float
        Design height of each.
    z_scale
        Plan units in one vertical unit.

    Returns
    -------
    (s,) float
        Rise over the distance along the line, a ratio.
    """
    order = np.lexsort((stakes.distance, stakes.offset, stakes.line))
    here, there = order[:-1], order[1:]
    same = (stakes.line[here] == stakes.line[there]) & (stakes.offset[here] == stakes.offset[there])
    here, there = here[same], there[same]
    grade = np.full(len(stakes), np.nan)
    run = stakes.along[there] - stakes.along[here]
    grade[here] = (height[there] - height[here]) * z_scale / run
    return grade


def _along(
    lines: Lines, stationing: Stationing, wanted: Wanted, snap: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return line, distance and reason of the places along lines, in order."""
    every = np.arange(len(lines))
    found = [(every, np.zeros(len(lines)), Reason.START), (every, lines.lengths, Reason.END)]
    if wanted.interval > 0:
        found += [
            (np.full(len(own), k), own, Reason.INTERVAL)
            for k in every
            for own in [_round_stations(stationing, int(k), wanted.interval)]
        ]
    for station in np.atleast_1d(wanted.listed):
        own = stationing.distance(every, float(station))
        on = np.isfinite(own)
        found.append((every[on], own[on], Reason.LISTED))
    for chosen, why in (
        (np.ones(len(lines.xy), bool) if wanted.vertices else None, Reason.VERTEX),
        (wanted.arcs, Reason.ARC),
        (_breaks(lines, wanted) if wanted.grade_break > 0 else None, Reason.BREAK),
    ):
        if chosen is not None:
            found.append((lines.owner[chosen], lines.stations[chosen], why))
    line = np.concatenate([f[0] for f in found]).astype(np.int64)
    distance = np.concatenate([f[1] for f in found])
    reason = np.concatenate([np.full(len(f[0]), int(f[2])) for f in found])
    order = np.lexsort((-reason, distance, line))
    return _merged(line[order], distance[order], reason[order], snap)


def _round_stations(stationing: Stationing, k: int, interval: float) -> np.ndarray:
    """Return the distances at which a line has stations that are multiples of the interval."""
    start, length = float(stationing.start[k]), float(stationing.lengths[k])
    first, last = np.ceil(start / interval - 1e-9), np.floor((start + length) / interval + 1e-9)
    within = np.clip(np.arange(first, last + 1) * interval, start, start + length)
    return stationing.distance(k, within)


def _breaks(lines: Lines, wanted: Wanted) -> np.ndarray:
    """Tell at which vertices the grade along the line breaks, (n,) bool."""
    a = lines.segments
    grade = (lines.z[a + 1] - lines.z[a]) * wanted.z_scale / lines.segment_lengths
    found = np.zeros(len(lines.xy), bool)
    inner = lines.segment_owner[1:] == lines.segment_owner[:-1]
    with np.errstate(invalid="ignore"):
        steep = np.abs(np.diff(grade)) >= wanted.grade_break * (1.0 - 1e-9)
    found[a[1:]] = inner & steep
    return found


def _merged(
    line: np.ndarray, distance: np.ndarray, reason: np.ndarray, snap: float
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Make one of places that coincide; ends and vertices keep their exact place."""
    apart = np.ones(len(line), bool)
    apart[1:] = (line[1:] != line[:-1]) | (np.diff(distance) > snap)
    first = np.flatnonzero(apart)
    group = np.cumsum(apart) - 1
    total = np.bitwise_or.reduceat(reason, first) if len(first) else reason
    exact = (reason & int(Reason.START | Reason.END | Reason.VERTEX | Reason.ARC)) > 0
    place = distance[first].copy()
    place[group[exact]] = distance[exact]
    return line[first], place, total


def foot_and_right(
    lines: Lines, line: np.ndarray, distance: np.ndarray, snap: float, arcs: Arcs
) -> tuple[np.ndarray, np.ndarray]:
    """Return places on lines, and how far to the right of each an offset of 1 reaches.

    Parameters
    ----------
    lines
        The lines.
    line, distance
        Line of each place, and its distance along the chords, (p,) int and float.
    snap
        A place nearer than this to a vertex is at it.
    arcs
        The arcs of the lines.

    Returns
    -------
    foot : (p, 2) float
        The place; on the arc, not on its chord.
    right : (p, 2) float
        Square to the line; at a corner on the bisector and longer than 1, up to `CORNER`.
    """
    segment, along = locate(lines, line, distance)
    foot = point_at(lines, line, distance)
    normal = right_normals(lines.segment_directions[segment])
    arc = arcs.of_segment[segment]
    on = np.flatnonzero(arc >= 0)
    to = foot[on] - arcs.centre[arc[on]]
    to /= np.hypot(to[:, 0], to[:, 1])[:, None]
    foot[on] = arcs.centre[arc[on]] + arcs.radius[arc[on], None] * to
    normal[on] = -arcs.sense[arc[on], None] * to
    near_end = lines.segment_lengths[segment] - along <= snap
    vertex = lines.segments[segment] + near_end
    at = near_end | (along <= snap)
    into, out = turns(lines, arcs)
    pair = right_normals(into[vertex]) + right_normals(out[vertex])
    square = (pair**2).sum(axis=1)
    # The sum of two unit normals, scaled so that both sides of the corner are one offset away.
    with np.errstate(divide="ignore", invalid="ignore"):
        mitre = 2.0 * pair / square[:, None]
    size = np.hypot(mitre[:, 0], mitre[:, 1])
    mitre *= np.minimum(1.0, CORNER / np.maximum(size, 1e-300))[:, None]
    usable = at & (square > 1e-12)
    return foot, np.where(usable[:, None], mitre, normal)
