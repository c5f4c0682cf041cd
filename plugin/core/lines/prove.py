"""Proof that a parallel keeps its distance and its side, by other means than those that made it.

Distance, from below: GEOS looks whether any part of a piece comes nearer to its source than it
may. From above: the middle of every segment that claims to be parallel is measured from the source
segment it claims. The two bounds meet, so the distance is the offset.

Side: a piece that never touches its source cannot change sides except round an open end. So points
on the piece are compared with the *pseudo-normal* of the source at their nearest point: the
segment's right normal inside a segment, the sum of both at a vertex. (The normal of the nearest
segment alone is wrong for points beside sharp corners.) The pseudo-normal theorem is Baerentzen and
Aanaes, "Signed distance computation using the angle weighted pseudonormal" (2005); the title is
from memory.
"""

from dataclasses import dataclass

import numpy as np
import shapely

from ..runs import batches
from .bundle import Lines
from .corners import turns
from .direction import right_normals
from .parallel import CHUNK_VERTICES, Parallels, slack_of
from .stations import locate, point_at, project

SAMPLES = 6
"""Points of a piece whose side is looked at, besides the tips of its corners."""
SHARP = 1.02
"""A corner that reaches so many offsets away from the line has a tip."""
FLANK = (0.25, 0.5, 0.75)
"""Where the flanks of a tip are looked at, as shares of their length."""


@dataclass(frozen=True)
class Proof:
    """What was measured on each piece of a parallel.

    Parameters
    ----------
    nearer
        By how much the piece comes nearer to its source than the offset, (p,) float, >= 0.
    error
        Largest difference between the distance and the offset beside the source's segments, (p,)
        float. Corners, which reach farther out, are not in it.
    side
        +1 when every point looked at lies right of the source, -1 left, 0 when they differ, (p,).
    """

    nearer: np.ndarray
    error: np.ndarray
    side: np.ndarray

    def holds(self, offsets: np.ndarray, tolerance: np.ndarray | float) -> np.ndarray:
        """Tell which pieces are proved for their signed offsets, (p,) bool."""
        near = np.maximum(self.nearer, self.error) <= tolerance
        return near & (self.side == np.sign(offsets))


def prove(lines: Lines, result: Parallels, *, thorough: bool = True) -> Proof:
    """Measure every piece of a parallel against its source lines.

    Parameters
    ----------
    lines
        The sources.
    result
        Their parallels.
    thorough
        Let GEOS measure all pieces, also those whose distance is proved in closed form (`clear`).
    """
    pieces = result.lines
    nearer, side = np.zeros(len(pieces)), np.zeros(len(pieces), np.int64)
    error = _error(lines, result) if len(pieces) else np.zeros(0)
    slack = 2 * slack_of(lines)[result.source]
    # Some at a time, since what GEOS builds to measure distances takes most memory.
    for begin, end in batches(pieces.counts, CHUNK_VERTICES):
        rows = np.arange(begin, end)
        source, made = lines.take(result.source[rows]), result.take(rows)
        distance = np.abs(result.offsets[rows])
        asked = np.arange(len(rows)) if thorough else np.flatnonzero(~result.clear[rows])
        nearer[rows[asked]] = _nearer(
            source.geometries[asked],
            made.lines.geometries[asked],
            distance[asked],
            slack[rows[asked]],
        )
        side[rows] = _side(source, made, slack[rows])
    return Proof(nearer, error, side)


def _nearer(
    source: np.ndarray, piece: np.ndarray, distance: np.ndarray, slack: np.ndarray
) -> np.ndarray:
    """Return by how much pieces come nearer than ``distance``, 0 within ``slack``."""
    shapely.prepare(source)
    close = shapely.dwithin(source, piece, distance - slack)
    result = np.zeros(len(piece))
    result[close] = distance[close] - shapely.distance(source[close], piece[close])
    return result


def _error(lines: Lines, result: Parallels) -> np.ndarray:
    pieces = result.lines
    a = pieces.segments
    parent = result.parent[a]
    owner = pieces.segment_owner
    middle = (pieces.xy[a] + pieces.xy[a + 1]) / 2.0
    real = parent >= 0
    start = lines.segments[parent[real]]
    normal = right_normals(lines.segment_directions[parent[real]])
    signed = ((middle[real] - lines.xy[start]) * normal).sum(1)
    difference = np.zeros(len(a))
    difference[real] = np.abs(signed - result.offsets[owner[real]])
    return np.maximum.reduceat(difference, pieces.first_segment[:-1])


def _side(source: Lines, made: Parallels, slack: np.ndarray) -> np.ndarray:
    """Return the side of its source on which all samples of each piece lie, 0 = on both.

    Samples are spread evenly, and more of them stand where a corner reaches out: its tip may lie
    farther from the line than some other part of the line is, on that part's other side. Where
    both are equally near, within rounding, the part that the piece runs beside counts: tips are
    cut just there.
    """
    pieces = made.lines
    share = (np.arange(SAMPLES) + 0.5) / SAMPLES
    which = np.repeat(np.arange(len(pieces)), SAMPLES)
    segment, along = locate(pieces, which, np.tile(share, len(pieces)) * pieces.lengths[which])
    start = pieces.segments[segment]
    samples = [_between(made, start, start + 1, along / pieces.segment_lengths[segment])]
    samples += _tips(source, made)
    points = np.vstack([sample[0] for sample in samples])
    which = np.concatenate([sample[1] for sample in samples])
    own = np.concatenate([sample[2] for sample in samples])
    own %= np.where(source.closed, source.lengths, np.inf)[which]
    seen, station, _ = side_of_points(source, which, points)
    odd = np.flatnonzero(seen != np.sign(made.offsets)[which])
    part, spot = which[odd], points[odd]
    near = np.hypot(*(spot - point_at(source, part, station[odd])).T)
    beside = np.hypot(*(spot - point_at(source, part, own[odd])).T)
    tied = beside <= near + 4.0 * slack[part]
    seen[odd[tied]] = _side_at(source, part[tied], spot[tied], own[odd[tied]])[0]
    least, most = np.full(len(pieces), 2), np.full(len(pieces), -2)
    np.minimum.at(least, which, seen)
    np.maximum.at(most, which, seen)
    return np.where(least == most, least, 0)


def _between(
    made: Parallels, v: np.ndarray, w: np.ndarray, share: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return points on the way from vertices v to w: position, piece, station beside them."""
    xy, station = made.lines.xy, made.station
    points = xy[v] + share[:, None] * (xy[w] - xy[v])
    return points, made.lines.owner[v], station[v] + share * (station[w] - station[v])


def _tips(source: Lines, made: Parallels) -> list[tuple[np.ndarray, np.ndarray, np.ndarray]]:
    """Return samples about the tips of corners, as `_between` does."""
    pieces, owner = made.lines, made.lines.owner
    station = made.station % np.where(source.closed, source.lengths, np.inf)[owner]
    reach = np.hypot(*(pieces.xy - point_at(source, owner, station)).T)
    distance = np.abs(made.offsets)[owner]
    tip = np.flatnonzero(reach > SHARP * distance)
    spread = np.sqrt(np.maximum(reach**2 - distance**2, 0.0))[tip]
    samples = [_between(made, tip, tip, np.zeros(len(tip)))]
    for step in (-1, 1):
        other = np.clip(tip + step, 0, len(owner) - 1)
        size = np.hypot(*(pieces.xy[other] - pieces.xy[tip]).T)
        real = (owner[other] == owner[tip]) & (size > 0)
        v, w = tip[real], other[real]
        flank = np.minimum(spread[real] / size[real], 1.0)
        samples += [_between(made, v, w, share * flank) for share in FLANK]
    return samples


def side_of_points(
    lines: Lines, which: np.ndarray, xy: np.ndarray
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Tell on which side of a line each point lies.

    Parameters
    ----------
    lines
        The bundle.
    which
        The line for each point, (p,) int.
    xy
        The points, (p, 2) float.

    Returns
    -------
    side : (p,) int
        +1 right, -1 left, 0 on the line or where an open end leaves it undefined: within 45
        degrees of straight on beyond the end.
    station : (p,) float
        Station of the nearest point of the line.
    beyond : (p,) bool
        True where the side is undefined because the point lies beyond an open end.
    """
    which = np.asarray(which, np.int64)
    station = project(lines, which, xy)
    side, beyond = _side_at(lines, which, xy, station)
    return side, station, beyond


def _side_at(
    lines: Lines, which: np.ndarray, xy: np.ndarray, station: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return side and beyond as `side_of_points`, as seen from given stations."""
    segment, along = locate(lines, which, station)
    foot = point_at(lines, which, station)
    to = xy - foot
    reach = np.hypot(to[:, 0], to[:, 1])
    snap = 1e-9 * np.maximum(lines.lengths[which], 1.0)
    vertex = lines.segments[segment] + (along > lines.segment_lengths[segment] / 2.0)
    gap = np.minimum(along, lines.segment_lengths[segment] - along)
    at_vertex = gap <= 1e-7 * np.maximum(lines.segment_lengths[segment], 1.0)
    into, out = turns(lines)
    pseudo = right_normals(into[vertex]) + right_normals(out[vertex])
    # At a vertex where the line doubles back there is no sum: the tip itself decides.
    normal = np.where(at_vertex[:, None], pseudo, right_normals(lines.segment_directions[segment]))
    across = (to * normal).sum(1)
    side = np.where(reach <= snap, 0, np.sign(across)).astype(np.int64)
    tip = np.zeros(len(lines.xy), np.int64)
    open_ = ~lines.closed
    tip[lines.first[:-1][open_]], tip[lines.first[1:][open_] - 1] = -1, 1
    ahead = (to * into[vertex]).sum(1) * tip[vertex]
    beyond = at_vertex & (tip[vertex] != 0) & (reach > snap) & (ahead > np.abs(across) / 2.0)
    return np.where(beyond, 0, side), beyond
