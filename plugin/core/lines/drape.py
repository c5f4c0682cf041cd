"""Heights of plan lines on a surface, with a vertex wherever the surface changes its plane."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely

from ..progress import Progress, silent
from ..runs import count_up
from ..tin import Tin
from .bundle import Lines
from .stations import locate, point_at

BLOCK = 200_000
"""Edges looked at in one go."""


def tin_crossings(
    lines: Lines, tin: Tin, snap: float = 1e-4, progress: Progress = silent
) -> tuple[np.ndarray, np.ndarray]:
    """Find where lines cross the edges of a TIN.

    Returns
    -------
    line : (c,) int
    station : (c,) float
        Sorted by line and station, none nearer than ``snap`` to the one before or to a vertex.
    """
    ends = tin.edges.ends
    a, b = tin.vertices[ends[:, 0], :2], tin.vertices[ends[:, 1], :2]
    low, high = lines.xy.min(0) - snap, lines.xy.max(0) + snap
    near = np.flatnonzero((np.maximum(a, b) >= low).all(1) & (np.minimum(a, b) <= high).all(1))
    first = lines.segments
    tree = shapely.STRtree(lines.segment_geometries)
    owner, station = [], []
    for begin in range(0, len(near), BLOCK):
        progress(begin / len(near))
        some = near[begin : begin + BLOCK]
        boxes = shapely.box(*np.minimum(a[some], b[some]).T, *np.maximum(a[some], b[some]).T)
        edge, segment = tree.query(boxes)
        edge = some[edge]
        along = _meeting(lines, segment, a[edge], b[edge])
        hit = np.isfinite(along)
        owner.append(lines.segment_owner[segment[hit]])
        station.append(lines.stations[first[segment[hit]]] + along[hit])
    if not owner:
        return np.empty(0, np.int64), np.empty(0)
    return _distinct(lines, np.concatenate(owner), np.concatenate(station), snap)


def steps(lines: Lines, longest: float, snap: float = 1e-4) -> tuple[np.ndarray, np.ndarray]:
    """Return places that leave no stretch longer than ``longest`` without a vertex."""
    count = np.ceil(lines.segment_lengths / longest - 1e-9).astype(np.int64) - 1
    count = np.maximum(count, 0)
    number = 1 + count_up(count)
    segment = np.repeat(np.arange(len(count)), count)
    share = number / (count[segment] + 1)
    station = lines.stations[lines.segments[segment]] + share * lines.segment_lengths[segment]
    return _distinct(lines, lines.segment_owner[segment], station, snap)


def _meeting(lines: Lines, segment: np.ndarray, a: np.ndarray, b: np.ndarray) -> np.ndarray:
    """Return how far along its segment each pair crosses, NaN where it does not."""
    start = lines.xy[lines.segments[segment]]
    d, e, gap = lines.segment_directions[segment], b - a, a - start
    cross = d[:, 0] * e[:, 1] - d[:, 1] * e[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        along = (gap[:, 0] * e[:, 1] - gap[:, 1] * e[:, 0]) / cross
        share = (gap[:, 0] * d[:, 1] - gap[:, 1] * d[:, 0]) / cross
    size = lines.segment_lengths[segment]
    hit = (along > 0) & (along < size) & (share >= -1e-9) & (share <= 1 + 1e-9)
    return np.where(hit, along, np.nan)


def _distinct(
    lines: Lines, owner: np.ndarray, station: np.ndarray, snap: float
) -> tuple[np.ndarray, np.ndarray]:
    order = np.lexsort((station, owner))
    owner, station = owner[order], station[order]
    fresh = np.ones(len(owner), bool)
    fresh[1:] = (np.diff(station) > snap) | (np.diff(owner) > 0)
    owner, station = owner[fresh], station[fresh]
    segment, along = locate(lines, owner, station)
    inside = (along > snap) & (along < lines.segment_lengths[segment] - snap)
    return owner[inside], station[inside]


def with_vertices(
    lines: Lines, owner: np.ndarray, station: np.ndarray
) -> tuple[Lines, np.ndarray, np.ndarray]:
    """Insert vertices at places.

    Returns
    -------
    lines : Lines
        The same lines with more vertices; those that were there stay bit for bit.
    origin : (n,) int
        Vertex each one was, -1 for a new one.
    along : (n,) float
        Station of each vertex on its line.
    """
    xy = np.concatenate([lines.xy, point_at(lines, owner, station)])
    line = np.concatenate([lines.owner, owner])
    along = np.concatenate([lines.stations, station])
    origin = np.concatenate([np.arange(len(lines.xy)), np.full(len(owner), -1)])
    order = np.lexsort((along, line))
    count = lines.counts + np.bincount(owner, minlength=len(lines))
    first = np.concatenate([[0], np.cumsum(count)]).astype(np.int64)
    new = Lines(xy[order], np.full(len(order), np.nan), first, lines.closed)
    return new, origin[order], along[order]


def draped(
    lines: Lines,
    places: tuple[np.ndarray, np.ndarray],
    sample: Callable[[np.ndarray], np.ndarray],
) -> tuple[Lines, np.ndarray, np.ndarray]:
    """Return lines with more vertices and the heights of a surface.

    Parameters
    ----------
    lines
        Plan lines.
    places
        Line and station of further vertices, as `tin_crossings` and `steps` give them.
    sample
        Elevations at (p, 2) points, NaN where there is no surface.

    Returns
    -------
    lines, origin, along
        As `with_vertices`; heights are NaN where there is no surface.
    """
    fuller, origin, along = with_vertices(lines, *places)
    return replace(fuller, z=sample(fuller.xy)), origin, along


def stretches(lines: Lines, good: np.ndarray) -> list[tuple[int, int, int, bool]]:
    """Cut lines into stretches with and without a property of their vertices.

    A segment is good when both its vertices are.

    Parameters
    ----------
    lines
        The bundle.
    good
        (n,) bool.

    Returns
    -------
    list of (line, first vertex, last vertex, good)
    """
    result = []
    for k in range(len(lines)):
        rows = lines.line(k)
        both = good[rows.start : rows.stop - 1] & good[rows.start + 1 : rows.stop]
        cuts = np.flatnonzero(both[1:] != both[:-1]) + 1
        bounds = np.concatenate([[0], cuts, [len(both)]])
        result += [
            (k, rows.start + int(p), rows.start + int(q), bool(both[p]))
            for p, q in pairwise(bounds)
        ]
    return result
