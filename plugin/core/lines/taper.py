"""Tapers: parallels whose offset changes along the line.

Between two stated places the offset changes linearly with the distance along the line. So a
straight piece of the line has a straight piece beside it, from the offset at its start to that at
its end, and at every station the two are the stated offset apart, square to the line. At a corner
the two pieces beside it are carried on to where they meet; on the outer side of a sharp one they
are cut at the mitre limit. Where a piece would run backwards, or a part comes nearer to another
part of the line than stated, nothing is laid.
"""

from dataclasses import dataclass, replace

import numpy as np

from ..vectors import dot
from .bundle import Lines
from .corners import SOFT, JoinStyle, turns
from .direction import right_normals
from .drape import with_vertices
from .parallel import Parallels
from .prove import Proof, side_of_points
from .stations import elevation_at, point_at

SAMPLES = np.array([0.02, 0.2, 0.35, 0.5, 0.65, 0.8, 0.98])
"""Shares of each piece at which its distance is measured."""
FAR = 0.25
"""Pieces beside chords are not parallel to these, and meet far from a corner that hardly turns.
Where that is more than this share of a chord, the point stands on the bisector, at the offset."""


@dataclass(frozen=True)
class Taper:
    """An offset that changes along a line.

    Parameters
    ----------
    distance : (b,) float
        Distances along the line, rising.
    offset : (b,) float
        Offset at each, > 0; before the first and after the last it stays the same.
    """

    distance: np.ndarray
    offset: np.ndarray

    def at(self, distance: np.ndarray) -> np.ndarray:
        """Return the offset at each distance along the line."""
        return np.interp(distance, self.distance, self.offset)

    @property
    def steepest(self) -> float:
        """Largest change of the offset for each unit along the line."""
        return float(np.abs(np.diff(self.offset) / np.diff(self.distance)).max(initial=0.0))

    @property
    def most(self) -> float:
        """Largest offset."""
        return float(self.offset.max())


def lay_taper(
    one: Lines, taper: Taper, side: int, style: JoinStyle, slack: float
) -> tuple[Parallels, Proof] | None:
    """Return the tapered parallel of a line, and what was measured on it; None where none fits.

    Parameters
    ----------
    one
        A line alone in its bundle.
    taper
        Its offsets; on a closed line the same at its start and its end.
    side
        Right +1, left -1.
    style
        How corners are joined: by mitres up to their limit, whatever the join.
    slack
        What rounding may do to a distance.
    """
    taper = _at_bends(one, taper)
    inner = taper.distance[(taper.distance > 0) & (taper.distance < one.lengths[0])]
    # A stated place that is a vertex needs none more.
    inner = inner[np.abs(one.stations[:, None] - inner).min(axis=0, initial=np.inf) > 1e-6]
    line, origin, _ = with_vertices(one, np.zeros(len(inner), np.int64), inner)
    # Near the origin, corners that hardly turn lose nothing to the size of coordinates.
    corner = np.floor(line.xy[0])
    line = replace(line, xy=line.xy - corner)
    offset = side * taper.at(line.stations)
    points, vertex, bent = _points(line, offset, style)
    own = np.flatnonzero(vertex[1:] != vertex[:-1])
    step = points[own + 1] - points[own]
    if not np.isfinite(points).all() or (dot(step, line.segment_directions) <= slack).any():
        return None
    counts = np.array([0, len(points)])
    z = elevation_at(one, np.zeros(len(line.xy), np.int64), line.stations)
    piece = Lines(points + corner, z[vertex], counts, one.closed.copy())
    # Segments of the line with the stated places as vertices lie on those of the line as given.
    was = np.maximum.accumulate(np.where(origin >= 0, origin, -1))[line.segments]
    parent = np.full(len(points), -1)
    parent[own] = np.minimum(was, len(one.segments) - 1)
    station = line.stations[vertex]
    laid = Parallels(
        piece,
        np.zeros(1, np.int64),
        np.array([offset[0]]),
        station,
        parent,
        [],
        np.zeros(1, bool),
    )
    off = np.zeros(len(one.xy))
    off[origin[origin >= 0]] = bent[origin >= 0]
    return laid, _measured(one, piece, taper, off)


def _at_bends(one: Lines, taper: Taper) -> Taper:
    """Return a taper whose stated places stand at vertices of dense curves that are very near.

    Between such a place and the vertex the inside of the curve has no room for a piece. They move
    by no more than twice what the corner takes up, a fraction of a chord.
    """
    cosine, takes = _taken(one, taper)
    takes = np.where(cosine > np.cos(SOFT), takes, 0.0)
    nearest = np.abs(one.stations[:, None] - taper.distance).argmin(axis=0)
    gap = np.abs(one.stations[nearest] - taper.distance)
    moved = np.where(gap <= 2.0 * takes[nearest], one.stations[nearest], taper.distance)
    return Taper(moved, taper.offset) if (np.diff(moved) > 0).all() else taper


def _taken(one: Lines, taper: Taper) -> tuple[np.ndarray, np.ndarray]:
    """Return the cosine of the turn at each vertex, and how much of the line its corner takes."""
    into, out = turns(one)
    cosine = np.clip((into * out).sum(axis=1), -1.0, 1.0)
    return cosine, taper.most * np.sqrt((1.0 - cosine) / np.maximum(1.0 + cosine, 1e-12))


def _points(
    line: Lines, offset: np.ndarray, style: JoinStyle
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return the points beside each vertex in order, the vertex of each, and how far it is off.

    Off the bisector, at a corner that hardly turns; infinite where it was put there.
    """
    normal, ring = right_normals(line.segment_directions), bool(line.closed[0])
    begin = line.xy[:-1] + offset[:-1, None] * normal
    end = line.xy[1:] + offset[1:, None] * normal
    way = end - begin
    way /= np.maximum(np.hypot(way[:, 0], way[:, 1]), 1e-300)[:, None]
    points, vertex, bent = [], [], np.zeros(len(line.xy))
    last = len(line.xy) - 1
    for v in range(last + 1):
        if not ring and v in (0, last):
            own = [begin[0] if v == 0 else end[-1]]
        else:
            before, after = (v - 1) % last, v % last
            own = _corner(
                line.xy[v], offset[v], end[before], way[before], begin[after], way[after], style
            )
            pair = normal[before] + normal[after]
            square = float(pair @ pair)  # 2 + 2 cos of the turn
            if square > 2.0 + 2.0 * np.cos(SOFT):
                middle = line.xy[v] + 2.0 * offset[v] / square * pair
                near = min(line.segment_lengths[before], line.segment_lengths[after])
                off = np.hypot(*(own[0] - middle))
                own, bent[v] = ([middle], np.inf) if off > FAR * near else (own, off)
            # A ring ends with the first point of the corner that it starts with.
            own = own[:1] if v == last else own
        points += own
        vertex += [v] * len(own)
    return np.array(points), np.array(vertex, np.int64), bent


def _corner(
    place: np.ndarray,
    offset: float,
    end: np.ndarray,
    into: np.ndarray,
    begin: np.ndarray,
    out: np.ndarray,
    style: JoinStyle,
) -> list[np.ndarray]:
    """Return the point where two pieces meet beside a corner, or the two it is cut at."""
    sine = float(into[0] * out[1] - into[1] * out[0])
    cosine = float(into @ out)
    angle = abs(np.arctan2(sine, cosine))
    if angle < 1e-9:
        return [(end + begin) / 2.0]
    gap = begin - end
    along = (gap[0] * out[1] - gap[1] * out[0]) / sine if sine else np.inf
    meet = end + along * into
    outer = np.sign(offset) * sine > 0 or angle > np.pi - 1e-9
    if not outer or np.hypot(*(meet - place)) <= style.mitre_limit * abs(offset):
        return [meet]
    cut = abs(offset) * (style.mitre_limit - np.cos(angle / 2)) / np.sin(angle / 2)
    return [end + cut * into, begin - cut * out]


def _measured(one: Lines, piece: Lines, taper: Taper, off: np.ndarray) -> Proof:
    """Measure a tapered parallel against the offsets stated at the stations beside it.

    ``off`` is how far the points of the line's vertices are off their bisectors (`_points`).
    """
    step = piece.xy[1:] - piece.xy[:-1]
    spots = (piece.xy[:-1, None] + SAMPLES[:, None] * step[:, None]).reshape(-1, 2)
    spots = np.concatenate((spots, piece.xy))
    which = np.zeros(len(spots), np.int64)
    seen, station, beyond = side_of_points(one, which, spots)
    foot = point_at(one, which, station)
    away = np.hypot(*(spots - foot).T)
    stated = taper.at(station)
    # About a corner the two pieces beside it meet a little off its bisector, since they are not
    # parallel to the line: by the slope of the taper times the stretch that the corner takes up.
    _, takes = _taken(one, taper)
    takes += np.where(np.isfinite(off), off, 0.0)
    gap = np.abs(one.stations[:, None] - station)
    corner = gap <= 2.0 * takes[:, None] + 1e-9 * one.lengths[0]
    allowed = np.where(corner, takes[:, None], 0.0).max(axis=0) * taper.steepest
    segment = np.clip(
        np.searchsorted(one.stations, station, side="right") - 1, 0, len(one.segments) - 1
    )
    # Along a dense curve the stretch between two bisectors is longer, or shorter, than its chord.
    soft = np.where(off == np.inf, takes, 0.0) * taper.steepest
    curve = np.maximum(soft[segment], soft[segment + 1])
    allowed = np.maximum(allowed, curve)
    along = dot(spots - foot, one.segment_directions[segment])
    plain = ~corner.any(axis=0) & ~beyond & (np.abs(along) <= 1e-9 * np.maximum(away, 1.0))
    error = np.maximum(np.abs(away - stated) - curve, 0.0)[plain].max(initial=0.0)
    nearer = np.maximum(stated - away - allowed, 0.0)[~beyond].max(initial=0.0)
    sides = np.unique(seen[~beyond & (away > 1e-9)])
    found = int(sides[0]) if len(sides) == 1 else 0
    return Proof(np.array([nearer]), np.array([error]), np.array([found]))
