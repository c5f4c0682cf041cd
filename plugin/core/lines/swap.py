"""Where the side that a rule means changes along a line.

Votes at places along the line (see `votes`) tell between which two the side changes; halving the
stretch between them again and again tells where, as near as `CLOSE`. Between a place that votes
for the one side and the next that votes for the other there may be some that do not vote: a short
stretch of them is cut in its middle, a long one at both of its ends, so that it becomes a part of
its own. Where a reference itself crosses the line, the crossing is the place, exactly.
"""

from collections.abc import Callable
from itertools import pairwise

import numpy as np
import shapely

from .bundle import Lines
from .direction import right_normals
from .reference import Reference
from .sides import Basis, Rule, cast_votes
from .stations import cut, locate, point_at
from .votes import Places, places

CLOSE = 1e-4
"""Share of the mean distance between places that a change is found to."""
HALVINGS = 14
LONG = 2.0
"""A stretch that does not vote is long from so many distances between places."""

Vote = Callable[[np.ndarray, np.ndarray], np.ndarray]
"""Votes (right +1, left -1, none 0) at places given by line and distance along it."""


def swaps(lines: Lines, rule: Rule, distance: np.ndarray, basis: Basis) -> list[np.ndarray]:
    """Return where the side changes along each line.

    Parameters
    ----------
    lines
        The lines.
    rule
        How the side is chosen.
    distance
        Offset of each, (k,) float, > 0.
    basis
        What the rule looks at.

    Returns
    -------
    list of (c,) float
        Distances along each line, rising; none at the ends of an open line.
    """
    if rule in (Rule.RIGHT, Rule.LEFT):
        return [np.empty(0)] * len(lines)

    def vote(line: np.ndarray, station: np.ndarray) -> np.ndarray:
        station = np.where(lines.closed[line], station % lines.lengths[line], station)
        segment, _ = locate(lines, line, station)
        normal = right_normals(lines.segment_directions[segment])
        at = Places(line, station, point_at(lines, line, station), normal)
        return cast_votes(rule, lines, at, distance, basis).vote

    at = places(lines)
    first = vote(at.line, at.station)
    told = np.flatnonzero(first != 0)
    one, other, lap = _pairs(lines, at, told)
    change = first[one] != first[other]
    one, other, lap = one[change], other[change], lap[change]
    line = at.line[one]
    low, high = _halved(vote, line, at.station[one], at.station[other] + lap, first[one])
    step = (lines.lengths / np.maximum(np.bincount(at.line, minlength=len(lines)), 1))[line]
    long = high - low > LONG * step
    middle = (low + high) / 2.0
    ends = np.where(long, low, middle), np.where(long, high, middle)
    owner, station = np.tile(line, 2), np.concatenate(ends)
    result = [np.unique(station[owner == k]) for k in range(len(lines))]
    if rule in (Rule.TOWARD, Rule.AWAY) and basis.reference is not None:
        result = [_exact(lines, k, own, basis.reference, at, CLOSE) for k, own in enumerate(result)]
    return [_inside(lines, k, own) for k, own in enumerate(result)]


def _pairs(lines: Lines, at: Places, told: np.ndarray) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return places that vote and the next of the same line that does, over a ring's start too.

    The third is what the distance of the next has to be raised by: the length of the ring there.
    """
    one, other = told[:-1], told[1:]
    same = at.line[one] == at.line[other]
    one, other = one[same], other[same]
    line, first = np.unique(at.line[told], return_index=True)
    last = np.append(first[1:], len(told)) - 1
    ring = lines.closed[line]
    lap = np.concatenate((np.zeros(len(one)), lines.lengths[line[ring]]))
    one = np.concatenate((one, told[last[ring]]))
    other = np.concatenate((other, told[first[ring]]))
    return one, other, lap


def _halved(
    vote: Vote, line: np.ndarray, low: np.ndarray, high: np.ndarray, before: np.ndarray
) -> tuple[np.ndarray, np.ndarray]:
    """Return where ``low``, which votes ``before``, stops doing so, and ``high`` begins."""
    ends = []
    for first_side in (True, False):
        a, b = low.copy(), high.copy()
        for _ in range(HALVINGS):
            middle = (a + b) / 2.0
            told = vote(line, middle)
            stays = told == before if first_side else (told == before) | (told == 0)
            a, b = np.where(stays, middle, a), np.where(stays, b, middle)
        ends.append((a + b) / 2.0)
    return ends[0], np.maximum(ends[0], ends[1])


def _exact(
    lines: Lines, k: int, own: np.ndarray, reference: Reference, at: Places, close: float
) -> np.ndarray:
    """Put changes at the crossings of the reference that they stand for, and add those missed."""
    path = lines.geometries[k]
    edges = [
        shapely.boundary(part) if shapely.get_dimensions(part) == 2 else part
        for part in reference.single[shapely.crosses(reference.single, path)]
    ]
    where = [shapely.get_coordinates(shapely.intersection(path, edge)) for edge in edges]
    if not where or not sum(len(w) for w in where):
        return own
    crossing = shapely.line_locate_point(path, shapely.points(np.concatenate(where)))
    step = float(lines.lengths[k]) / max(int((at.line == k).sum()), 1)
    kept = own.tolist()
    for station in crossing:  # in place of the one change that stands for it
        nearest = min(kept, key=lambda place: abs(place - station), default=np.inf)
        if abs(nearest - station) <= 2.0 * step:
            kept.remove(nearest)
    found = np.unique(np.concatenate((crossing, kept)))
    return found[np.diff(found, prepend=-np.inf) > close * step]


def _inside(lines: Lines, k: int, own: np.ndarray) -> np.ndarray:
    """Return changes that part a line: none at its ends; those of a ring within its length."""
    length = float(lines.lengths[k])
    slack = 1e-6 * length
    if lines.closed[k]:
        own = own % length
        own = np.where(own > length - slack, 0.0, own)
        own = np.unique(own)
        return own[np.diff(own, prepend=-np.inf) > slack]
    return own[(own > slack) & (own < length - slack)]


def parted(lines: Lines, k: int, places_: np.ndarray) -> list[tuple[float, np.ndarray]]:
    """Return the parts of a line between places.

    Parameters
    ----------
    lines, k
        The line.
    places_
        Distances along it, rising.

    Returns
    -------
    list of (float, (n, 3) array)
        Distance at which each part starts, and its x, y, z. A ring is opened at the first place;
        its last part runs over its start.
    """
    length = float(lines.lengths[k])
    if not len(places_):
        return [(0.0, np.column_stack(cut(lines, k, 0.0, length)))]
    if not lines.closed[k]:
        bounds = [0.0, *places_.tolist(), length]
        return [
            (start, np.column_stack(cut(lines, k, start, stop))) for start, stop in pairwise(bounds)
        ]
    result = [
        (start, np.column_stack(cut(lines, k, start, stop)))
        for start, stop in pairwise(places_.tolist())
    ]
    tail = np.column_stack(cut(lines, k, float(places_[-1]), length))
    head = np.column_stack(cut(lines, k, 0.0, float(places_[0])))
    result.append((float(places_[-1]), np.concatenate((tail, head[1:]))))
    return result
