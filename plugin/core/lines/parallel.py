"""Parallels: lines at a signed offset (right +, left -) that keep the direction of their source.

Most lines need no search at all: every vertex moves along the bisector of its corner, for all
lines at once, and takes elevation and station from the vertex it came from. That result is valid
when no segment turns round and no part comes nearer to the source than the offset. The others go
to `trim`.
"""

from dataclasses import dataclass, replace
from typing import Any

import numpy as np
import shapely

from ..progress import Progress, part, silent
from ..runs import batches, ragged
from .bundle import Lines
from .chain import raw_chain
from .clear import surely_clear
from .corners import Corners, JoinStyle, corners
from .tips import misplaced
from .trim import Lost, Piece, trimmed

CHUNK_VERTICES = 100_000
"""Source vertices worked on at once: bounds the memory of a run with many lines."""


@dataclass(frozen=True)
class Parallels:
    """Pieces of parallels, packed as `Lines`, each traced back to its source.

    Parameters
    ----------
    lines
        The pieces; every piece runs in the direction of its source.
    source
        Source line of each piece, (p,) int, ascending; pieces of one source in order along it.
    offsets
        Signed offset of each piece, right +, (p,) float.
    station
        Station on the source of each vertex, (n,) float, rising along the piece. On a closed
        source it runs on past the length of the ring where a piece passes the ring's start.
    parent
        Source segment (index in the source bundle) that the segment starting at each vertex is
        parallel to, (n,) int; -1 inside a join and at the end of a piece.
    lost
        Stretches of the sources without a parallel.
    clear
        True for a piece that `clear` has proved to keep its distance, (p,) bool.
    """

    lines: Lines
    source: np.ndarray
    offsets: np.ndarray
    station: np.ndarray
    parent: np.ndarray
    lost: list[Lost]
    clear: np.ndarray

    def take(self, which: np.ndarray) -> "Parallels":
        """Return some pieces, by number in the order wanted."""
        if np.array_equal(which, np.arange(len(self.lines))):
            return self
        rows, _ = ragged(self.lines.first[which], self.lines.counts[which])
        return Parallels(
            self.lines.take(which),
            self.source[which],
            self.offsets[which],
            self.station[rows],
            self.parent[rows],
            self.lost,
            self.clear[which],
        )


def slack_of(lines: Lines) -> np.ndarray:
    """Return by how much rounding may bring each parallel nearer, (k,) float.

    It comes from the size of the line's own coordinates: 1e-8 near the origin, 4e-8 at 1e7.
    """
    if not len(lines):
        return np.empty(0)
    size = np.maximum.reduceat(np.abs(lines.xy).max(1), lines.first[:-1])
    return 1e-8 + 16.0 * np.spacing(size)


def parallels(
    lines: Lines,
    offsets: np.ndarray | float,
    style: JoinStyle | None = None,
    progress: Progress = silent,
) -> Parallels:
    """Offset every line.

    Parameters
    ----------
    lines
        The sources.
    offsets
        Signed offset of each line in plan units, right +, (k,) float or one for all; not 0.
    style
        How corners are joined; mitre with limit 2 by default.
    progress
        Told the share done.

    Raises
    ------
    ValueError
        An offset is 0 or not finite.
    """
    style = style or JoinStyle()
    signed = np.broadcast_to(np.asarray(offsets, float), (len(lines),))
    if not np.isfinite(signed).all() or (signed == 0).any():
        raise ValueError("offsets must be finite and not 0")
    parts = []
    for begin, end in batches(lines.counts, CHUNK_VERTICES):
        share = part(progress, begin / len(lines), end / len(lines))
        which = np.arange(begin, end)
        parts.append(_offset(lines.take(which), signed[which], style, begin, lines, share))
    progress(1.0)
    return _together(parts, lines, signed)


@dataclass(frozen=True)
class _Part:
    """Pieces of one chunk, sources numbered in the whole bundle."""

    lines: Lines
    source: np.ndarray
    station: np.ndarray
    parent: np.ndarray
    lost: list[Lost]
    clear: np.ndarray


def _offset(
    lines: Lines,
    offsets: np.ndarray,
    style: JoinStyle,
    base: int,
    whole: Lines,
    progress: Progress,
) -> _Part:
    progress(0.0)
    slack = slack_of(lines)
    corner = corners(lines, offsets, style)
    valid = _straightforward(lines, corner, slack)
    moved = _moved(lines, corner)
    clear = np.zeros(len(lines), bool)
    keep = np.flatnonzero(valid)
    if len(keep):
        clear[keep] = surely_clear(lines, corner, _farthest(lines, corner))[keep]
        # Where nothing is proved, GEOS looks whether any part comes nearer than it may.
        keep = np.flatnonzero(valid & ~clear)
        source = lines.geometries[keep]
        shapely.prepare(source)
        near = shapely.dwithin(
            source, moved.lines.geometries[keep], np.abs(offsets[keep]) - slack[keep]
        )
        valid[keep[near]] = False
        for k in keep[~near]:
            # Only lines that come near to themselves get here: they may have tips astray.
            chain = raw_chain(lines, int(k), float(offsets[k]), corner)
            one = lines.take(np.array([k]))
            valid[k] = not len(misplaced(one, chain, float(offsets[k]), float(slack[k]))[0])
    segment_base = int(whole.first_segment[base])
    pieces: list[tuple[int, Piece]] = []
    lost: list[Lost] = []
    for k in np.flatnonzero(~valid):
        progress(0.5 + 0.5 * k / len(lines))
        own, gone = trimmed(lines, int(k), float(offsets[k]), corner, float(slack[k]))
        shift = segment_base + int(lines.first_segment[k])
        for piece in own:
            parent = np.where(piece.parent >= 0, piece.parent + shift, -1)
            pieces.append((int(k), replace(piece, parent=parent)))
        lost += [Lost(item.line + base, item.start, item.stop, item.joined) for item in gone]
    good = moved.take(np.flatnonzero(valid))
    parent = np.where(good.parent >= 0, good.parent + segment_base, -1)
    made = _merged(replace(good, parent=parent, clear=clear[good.source]), pieces)
    return replace(made, source=made.source + base, lost=lost)


def _farthest(lines: Lines, corner: Corners) -> np.ndarray:
    """Return how far the tips of each parallel's corners lie from their vertices, (k,) float."""
    vertex = np.repeat(np.arange(len(lines.xy)), np.diff(corner.first))
    away = corner.points - lines.xy[vertex]
    reach = np.where(corner.outer[vertex], np.hypot(away[:, 0], away[:, 1]), 0.0)
    # Open ends stand at the offset itself, and are there in any case.
    ends = corner.first[lines.first[:-1]]
    reach[ends] = np.maximum(reach[ends], np.hypot(away[ends, 0], away[ends, 1]))
    return np.maximum.reduceat(reach, corner.first[lines.first[:-1]])


def _straightforward(lines: Lines, corner: Corners, slack: np.ndarray) -> np.ndarray:
    """Tell for which lines every offset segment runs the way of its source segment, (k,) bool."""
    a = lines.segments
    begin = corner.points[corner.first[a + 1] - 1]
    end = corner.points[corner.first[a + 1]]
    run = ((end - begin) * lines.segment_directions).sum(1)
    good = np.isfinite(run) & (run > 4 * slack[lines.segment_owner])
    return np.logical_and.reduceat(good, lines.first_segment[:-1])


@dataclass(frozen=True)
class _Moved(_Part):
    """Vertex by vertex parallels, one piece for each line."""

    def take(self, which: np.ndarray) -> _Part:
        """Return the pieces of some of the lines."""
        taken = self.lines.take(which)
        rows = np.isin(self.lines.owner, which)
        return _Part(taken, which, self.station[rows], self.parent[rows], [], self.clear[which])


def _moved(lines: Lines, corner: Corners) -> _Moved:
    count = np.diff(corner.first)
    vertex = np.repeat(np.arange(len(count)), count)
    first = corner.first[lines.first]
    moved = Lines(corner.points, lines.z[vertex], first, lines.closed)
    segment_of = np.full(len(lines.xy), -1)
    segment_of[lines.segments] = np.arange(len(lines.segments))
    parent = np.full(len(vertex), -1)
    parent[corner.first[1:] - 1] = segment_of
    every = np.arange(len(lines))
    clear = np.zeros(len(lines), bool)
    return _Moved(moved, every, lines.stations[vertex], parent, [], clear)


def _merged(good: _Part, pieces: list[tuple[int, Piece]]) -> _Part:
    """Put trimmed pieces in line with the others, in the order of their sources."""
    if not pieces:
        return good
    every = [p for _, p in pieces]
    count = np.concatenate([good.lines.counts, [len(p.xy) for p in every]])
    packed = Lines(
        np.concatenate([good.lines.xy] + [p.xy for p in every]),
        np.concatenate([good.lines.z] + [p.z for p in every]),
        np.concatenate([[0], np.cumsum(count)]).astype(np.int64),
        np.concatenate([good.lines.closed, [p.closed for p in every]]).astype(bool),
    )
    source = np.concatenate([good.source, [k for k, _ in pieces]]).astype(np.int64)
    order = np.argsort(source, kind="stable")
    rows, _ = ragged(packed.first[order], packed.counts[order])
    station = np.concatenate([good.station] + [p.station for p in every])[rows]
    parent = np.concatenate([good.parent] + [p.parent for p in every])[rows]
    clear = np.append(good.clear, np.zeros(len(pieces), bool))[order]
    return _Part(packed.take(order), source[order], station, parent, [], clear)


def _together(parts: list[_Part], lines: Lines, signed: np.ndarray) -> Parallels:
    if not parts:
        empty = np.empty(0, np.int64)
        return Parallels(lines, empty, np.empty(0), np.empty(0), empty, [], np.empty(0, bool))
    return joined(
        [
            Parallels(p.lines, p.source, signed[p.source], p.station, p.parent, p.lost, p.clear)
            for p in parts
        ]
    )


def joined(parts: list[Parallels]) -> Parallels:
    """Return the pieces of several results one after the other.

    The list is emptied, so that large results are not held twice.
    """
    lost = [item for p in parts for item in p.lost]
    shapes = [(p.lines.xy, p.lines.z, p.lines.counts, p.lines.closed) for p in parts]
    others = [(p.source, p.offsets, p.station, p.parent, p.clear) for p in parts]
    parts.clear()
    xy, z, counts, closed = _end_to_end(shapes)
    packed = Lines(xy, z, np.concatenate([[0], np.cumsum(counts)]).astype(np.int64), closed)
    source, offsets, station, parent, clear = _end_to_end(others)
    return Parallels(packed, source, offsets, station, parent, lost, clear)


def _end_to_end(rows: list[Any]) -> list[np.ndarray]:
    """Return each column of arrays as one array, letting go of what has been copied."""
    columns = [list(column) for column in zip(*rows, strict=True)]
    rows.clear()
    return [np.concatenate(columns.pop(0)) for _ in range(len(columns))]
