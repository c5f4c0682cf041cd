"""Surfaces along cross sections: exact where a triangulated surface is, by a rule on a raster.

A profile of a surface is a row of *pieces*, each straight from one offset to the next. On a TIN a
piece is what one face has of the section; neighbouring faces share the point where the section
crosses their edge bit for bit, because it is worked out from the edge alone. On a raster pieces
end where the section crosses a row or a column of pixel centres.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, silent
from ..runs import batches, count_up, ragged
from ..tin import Tin
from ..tin.bins import Bins, boxes
from .section_lines import Sections

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

TIE = 1e-6
"""A vertex nearer than this to a section lies on it, plan units."""
_PAIRS = 1 << 20


@dataclass(frozen=True, eq=False)
class Profiles:
    """The pieces of a surface along sections, sorted by section and offset, none over another.

    Parameters
    ----------
    section : (p,) int
        Section of each piece.
    start, stop : (p,) float
        Offsets of its ends, ``start`` < ``stop``.
    z_start, z_stop : (p,) float
        Heights there.
    """

    section: Ints
    start: Floats
    stop: Floats
    z_start: Floats
    z_stop: Floats

    def __len__(self) -> int:
        """Return the number of pieces."""
        return len(self.section)

    @cached_property
    def keys(self) -> NDArray[np.complex128]:
        """Section and start as one number that sorts by section first."""
        return key(self.section, self.start)

    def rows(self, section: int) -> slice:
        """Return the pieces of a section."""
        first, last = np.searchsorted(self.section, (section, section + 1))
        return slice(int(first), int(last))

    def piece(self, section: Ints, offset: Floats, *, after: bool = True) -> Ints:
        """Return the piece that goes on from each place, or that comes up to it; -1 without one.

        Parameters
        ----------
        section, offset : (k,) int and float
            The places.
        after : bool
            The piece to the right of the place, rather than the one to its left.
        """
        if not len(self):
            return np.full(len(section), -1)
        wanted = key(section, offset)
        found = np.searchsorted(self.keys, wanted, "right" if after else "left") - 1
        at = np.maximum(found, 0)
        beyond = offset >= self.stop[at] if after else offset > self.stop[at]
        return np.where((found < 0) | (self.section[at] != section) | beyond, -1, found)

    def on_piece(self, piece: Ints, offset: Floats) -> Floats:
        """Return the height of pieces at offsets, those of their ends bit for bit."""
        start, stop = self.start[piece], self.stop[piece]
        first, last = self.z_start[piece], self.z_stop[piece]
        z = first + (offset - start) / (stop - start) * (last - first)
        return np.where(offset == start, first, np.where(offset == stop, last, z))

    def heights(self, section: Ints, offset: Floats, *, after: bool = True) -> Floats:
        """Return the height at each place, NaN where the surface has none, (k,) float.

        Where the surface jumps or ends at the place it is that of the side asked for, as in
        `piece`.
        """
        piece = self.piece(section, offset, after=after)
        z = np.full(len(piece), np.nan)
        there = np.flatnonzero(piece >= 0)
        z[there] = self.on_piece(piece[there], offset[there])
        return z

    def runs(self, section: int) -> list[Floats]:
        """Return the parts of a section's profile without a gap: (n, 2) offset and height each.

        Where the surface jumps, both heights stand at the same offset.
        """
        rows = self.rows(section)
        start, stop = self.start[rows], self.stop[rows]
        z_start, z_stop = self.z_start[rows], self.z_stop[rows]
        found = []
        gaps = np.flatnonzero(start[1:] > stop[:-1]) + 1
        for some in np.split(np.arange(len(start)), gaps) if len(start) else []:
            both = np.empty((2 * len(some), 2))
            both[0::2] = np.column_stack((start[some], z_start[some]))
            both[1::2] = np.column_stack((stop[some], z_stop[some]))
            fresh = np.ones(len(both), bool)
            fresh[1:] = (both[1:] != both[:-1]).any(axis=1)
            found.append(both[fresh])
        return found


def key(section: Ints, offset: Floats) -> NDArray[np.complex128]:
    """Return places as numbers that sort by section, then by offset, without loss."""
    result = np.empty(len(section), np.complex128)
    result.real, result.imag = section, offset
    return result


def profiles_of_tin(
    sections: Sections, tin: Tin, tie: float = TIE, progress: Progress = silent
) -> Profiles:
    """Return what a TIN has along sections, exact at every edge crossed.

    A section along an edge takes the heights of the edge. Faces without plan area give nothing:
    there the profile jumps. Where faces lie over one another the one met first counts.

    Parameters
    ----------
    sections : Sections
        The sections.
    tin : Tin
        The surface.
    tie : float
        A vertex nearer than this to a section lies on it.
    progress : Progress
        Told the share done.
    """
    tie = max(tie, tin.rounding)
    found = [
        _crossed(sections, tin, section, face, tie)
        for section, face in _candidates(sections, tin, 2.0 * tie, progress)
    ]
    return _sorted(sections, [np.concatenate(column) for column in zip(*found, strict=True)])


def _candidates(
    sections: Sections, tin: Tin, margin: float, progress: Progress
) -> Iterator[tuple[Ints, Ints]]:
    """Yield batches of pairs of a section and a face that may have a piece of it."""
    bins = Bins.over(*boxes(tin.vertices[:, :2], tin.faces), margin)
    section, cell = _bins_along(bins, *sections.ends, margin)
    wanted = np.zeros(bins.count, bool)
    wanted[cell] = True
    near = bins.touching(wanted)
    near = near[~tin.without_plan_area[near]]
    cells, faces = bins.entries(near)
    first = np.searchsorted(cells, cell, side="left")
    count = np.searchsorted(cells, cell, side="right") - first
    of_section = np.bincount(section, count, len(sections)).astype(np.int64)
    for begin, end in batches(of_section, _PAIRS):
        progress(begin / max(len(sections), 1))
        low, high = np.searchsorted(section, (begin, end))
        row = np.repeat(section[low:high], count[low:high])
        face = faces[ragged(first[low:high], count[low:high])[0]]
        pair = np.unique(row * len(tin.faces) + face)
        yield pair // len(tin.faces), pair % len(tin.faces)


def _bins_along(bins: Bins, left: Floats, right: Floats, margin: float) -> tuple[Ints, Ints]:
    """Return every bin that a section comes near, as pairs sorted by section."""
    columns, rows = bins.shape
    a, b = (left - bins.origin) / bins.cell, (right - bins.origin) / bins.cell
    slack = margin / bins.cell + 1e-9
    low, high = np.minimum(a[:, 0], b[:, 0]) - slack, np.maximum(a[:, 0], b[:, 0]) + slack
    first = np.clip(np.floor(low), 0, columns).astype(np.int64)
    last = np.clip(np.floor(high), -1, columns - 1).astype(np.int64)
    count = np.maximum(last - first + 1, 0)
    section = np.repeat(np.arange(len(a)), count)
    column = first[section] + count_up(count)
    # The stretch of the section over one column of bins.
    start, step = a[section], (b - a)[section]
    with np.errstate(divide="ignore", invalid="ignore"):
        one = (column - slack - start[:, 0]) / step[:, 0]
        two = (column + 1 + slack - start[:, 0]) / step[:, 0]
    steep = np.abs(step[:, 0]) <= slack
    one, two = np.where(steep, 0.0, one), np.where(steep, 1.0, two)
    y1 = start[:, 1] + np.clip(one, 0.0, 1.0) * step[:, 1]
    y2 = start[:, 1] + np.clip(two, 0.0, 1.0) * step[:, 1]
    bottom = np.clip(np.floor(np.minimum(y1, y2) - slack), 0, rows).astype(np.int64)
    top = np.clip(np.floor(np.maximum(y1, y2) + slack), -1, rows - 1).astype(np.int64)
    tall = np.maximum(top - bottom + 1, 0)
    row = np.repeat(bottom, tall) + count_up(tall)
    return np.repeat(section, tall), row * columns + np.repeat(column, tall)


Columns = tuple[Ints, Floats, Floats, Floats, Floats, Ints]


def _crossed(sections: Sections, tin: Tin, section: Ints, face: Ints, tie: float) -> Columns:
    """Return the pieces of pairs of a section and a face: section, ends, heights, rank.

    A vertex on the section counts as left of it, so that of the two faces at an edge along the
    section one has it; the piece of the other is kept in reserve (rank 1) for an edge of the
    surface.
    """
    foot, right = sections.foot[section], sections.right[section]
    away, along, z = (np.empty((3, len(section))) for _ in range(3))
    for k in range(3):
        corner = tin.vertices.take(tin.faces[face, k], axis=0)
        x, y = corner[:, 0] - foot[:, 0], corner[:, 1] - foot[:, 1]
        along[k] = x * right[:, 0] + y * right[:, 1]
        away[k] = x * right[:, 1] - y * right[:, 0]
        z[k] = corner[:, 2]
    away[np.abs(away) <= tie] = 0.0
    positive = away > 0
    count = positive.sum(axis=0)
    row = np.flatnonzero((count == 1) | (count == 2))
    lone = (positive[:, row] == (count[row] == 1)).argmax(axis=0)
    one = _meet(away, along, z, row, lone, (lone + 1) % 3)
    two = _meet(away, along, z, row, lone, (lone + 2) % 3)
    on = away == 0
    beside = np.flatnonzero((count == 0) & (on.sum(axis=0) == 2))
    third = (~on[:, beside]).argmax(axis=0)
    edge = (third + 1) % 3, (third + 2) % 3
    o1 = np.concatenate((one[0], along[edge[0], beside]))
    z1 = np.concatenate((one[1], z[edge[0], beside]))
    o2 = np.concatenate((two[0], along[edge[1], beside]))
    z2 = np.concatenate((two[1], z[edge[1], beside]))
    rank = np.repeat((0, 1), (len(row), len(beside)))
    swap = o1 > o2
    return (
        section[np.concatenate((row, beside))],
        np.where(swap, o2, o1),
        np.where(swap, o1, o2),
        np.where(swap, z2, z1),
        np.where(swap, z1, z2),
        rank,
    )


def _meet(
    away: Floats, along: Floats, z: Floats, row: Ints, a: Ints, b: Ints
) -> tuple[Floats, Floats]:
    """Return offset and height where the section crosses the sides a-b of faces.

    Always from the corner right of it to the other: both faces at the edge get the same bits.
    """
    turned = away[a, row] <= 0
    a, b = np.where(turned, b, a), np.where(turned, a, b)
    share = away[a, row] / (away[a, row] - away[b, row])
    on = away[b, row] == 0
    offset = along[a, row] + share * (along[b, row] - along[a, row])
    height = z[a, row] + share * (z[b, row] - z[a, row])
    return np.where(on, along[b, row], offset), np.where(on, z[b, row], height)


def _sorted(sections: Sections, pieces: Sequence[NDArray]) -> Profiles:
    """Return pieces in order, cut to the reach of their section and none over another."""
    if not len(pieces):
        return Profiles(np.empty(0, np.int64), *(np.empty(0) for _ in range(4)))
    section, start, stop, z_start, z_stop, rank = pieces
    low, high = -sections.left_reach[section], sections.right_reach[section]
    some = np.flatnonzero((stop > start) & (stop > low) & (start < high))
    section, low, high = section[some], low[some], high[some]
    raw = Profiles(section, start[some], stop[some], z_start[some], z_stop[some])
    order = np.lexsort((rank[some], raw.stop, raw.start, section))
    # The farthest stop of the pieces before: by rank, so that sections stay apart.
    place = np.empty(len(order), np.int64)
    place[np.lexsort((raw.stop, section))] = np.arange(len(order))
    ahead = np.maximum.accumulate(place[order]) if len(order) else place
    by_place = np.empty(len(order), np.int64)
    by_place[place] = np.arange(len(order))
    before = by_place[ahead[:-1]]
    begin = np.maximum(raw.start, low)
    same = section[before] == section[order[1:]]
    taken = np.where(same, raw.stop[before], -np.inf)
    begin[order[1:]] = np.maximum(begin[order[1:]], taken)
    end = np.minimum(raw.stop, high)
    kept = order[begin[order] < end[order]]
    begin, end = begin[kept], end[kept]
    return Profiles(section[kept], begin, end, raw.on_piece(kept, begin), raw.on_piece(kept, end))


def grid_places(
    sections: Sections, transform: tuple[float, ...], width: int, height: int
) -> tuple[Ints, Floats]:
    """Return where sections cross rows and columns of the pixel centres of a raster.

    Parameters
    ----------
    sections : Sections
        The sections.
    transform : six floats
        x = t0 + t1 column + t2 row, y = t3 + t4 column + t5 row, of a pixel's upper left corner.
    width, height : int
        Columns and rows.

    Returns
    -------
    section : (p,) int
    offset : (p,) float
        Sorted; the ends of every section are among them.
    """
    t = transform
    determinant = t[1] * t[5] - t[2] * t[4]
    x, y = sections.foot[:, 0] - t[0], sections.foot[:, 1] - t[3]
    u, v = sections.right.T
    every = np.arange(len(sections))
    found = [(every, -sections.left_reach), (every, sections.right_reach)]
    for base, step, size in (
        ((x * t[5] - y * t[2]) / determinant, (u * t[5] - v * t[2]) / determinant, width),
        ((y * t[1] - x * t[4]) / determinant, (v * t[1] - u * t[4]) / determinant, height),
    ):
        ends = np.sort([base - sections.left_reach * step, base + sections.right_reach * step], 0)
        first = np.maximum(np.ceil(ends[0] - 0.5), 0).astype(np.int64)
        last = np.minimum(np.floor(ends[1] - 0.5), size - 1).astype(np.int64)
        count = np.where(np.abs(step) > 1e-12, np.maximum(last - first + 1, 0), 0)
        section = np.repeat(every, count)
        line = first[section] + count_up(count) + 0.5
        found.append((section, (line - base[section]) / step[section]))
    section = np.concatenate([f[0] for f in found])
    offset = np.concatenate([f[1] for f in found])
    offset = np.clip(offset, -sections.left_reach[section], sections.right_reach[section])
    order = np.lexsort((offset, section))
    section, offset = section[order], offset[order]
    fresh = np.ones(len(order), bool)
    fresh[1:] = (section[1:] != section[:-1]) | (np.diff(offset) > TIE)
    return section[fresh], offset[fresh]


def profiles_at(section: Ints, offset: Floats, z: Floats) -> Profiles:
    """Return the profiles through places in order; none where a height is NaN."""
    with np.errstate(invalid="ignore"):
        joined = (section[1:] == section[:-1]) & np.isfinite(z[1:] + z[:-1])
    a = np.flatnonzero(joined)
    return Profiles(section[a], offset[a], offset[a + 1], z[a], z[a + 1])
