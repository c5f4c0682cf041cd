"""The convex cells into which two surfaces divide the ground they share."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, silent
from ..mesh import Tin
from .difference import level_of
from .frame import Pairs, Side
from .polygons import Polygons
from .shared import D, U, V, X, shared_polygons
from .walk import Overlay

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Cells:
    """Convex polygons in plan, each with one plane of either surface over it.

    The corners of cell i are ``offsets[i]`` to ``offsets[i + 1]``, counter-clockwise, the first
    not repeated.

    Parameters
    ----------
    upper, lower : (k,) int
        Faces of the two surfaces.
    sign : (k,) int
        1 where the upper surface lies above, -1 where it lies below, 0 where it is level or, in
        a cell not split, both.
    offsets : (k + 1,) int
        First corner of each cell.
    xy : (c, 2) float
        Corners in plan.
    upper_z, lower_z : (c,) float
        Heights of the two surfaces there.
    """

    upper: Ints
    lower: Ints
    sign: Ints
    offsets: Ints
    xy: Floats
    upper_z: Floats
    lower_z: Floats

    def __len__(self) -> int:
        """Return the number of cells."""
        return len(self.upper)


def cells(
    upper: Tin,
    lower: Tin,
    *,
    split: bool = True,
    level: float | None = None,
    progress: Progress = silent,
) -> Iterator[Cells]:
    """Yield the cells of two surfaces in blocks, so that memory stays bounded.

    Parameters
    ----------
    upper, lower : Tin
        The surfaces.
    split : bool
        Divide cells along the line where the surfaces cross.
    level : float, optional
        Differences up to this count as level; `level_of` the two when left out.
    progress : Progress
        Told the share done.

    Yields
    ------
    Cells
        Cells narrower than the rounding of the coordinates are left out.
    """
    ground = Overlay(upper, lower)
    level = level_of(upper, lower) if level is None else level
    width = max(upper.rounding, lower.rounding)
    for pairs, done in ground.pairs():
        if len(pairs):
            yield _cells(ground, pairs, level, width, split=split)
        progress(done)


def _cells(ground: Overlay, pairs: Pairs, level: float, width: float, *, split: bool) -> Cells:
    high = ground.heights(pairs)
    every = np.arange(len(pairs))
    whole = shared_polygons(ground, pairs, high, every)
    same, crossed = high.same(level), high.crossed(level)
    sign = np.where(same | crossed, 0, np.where(high.least >= 0, 1, -1))
    if not split:
        return _ragged(ground, pairs, [(every, sign, whole)], width)
    plain, some = np.flatnonzero(~crossed), np.flatnonzero(crossed)
    groups = [(plain, sign[plain], Polygons(whole.values[plain], whole.count[plain]))]
    halved = Polygons(whole.values[some], whole.count[some])
    for side in (1, -1):
        part = halved.clip(side * halved.values[..., D])
        groups.append((some, np.full(len(some), side), part))
    return _ragged(ground, pairs, groups, width)


def _ragged(
    ground: Overlay, pairs: Pairs, groups: list[tuple[Ints, Ints, Polygons]], width: float
) -> Cells:
    """Put polygons one after the other, without repeated corners and hairlines."""
    counts, corners, rows, signs = [], [], [], []
    for some, sign, polygons in groups:
        valid = polygons.valid
        xy = polygons.values[..., X:]
        shift = xy - xy[:, :1]
        following = polygons.following[..., None]
        valid &= (xy != np.take_along_axis(xy, following, axis=1)).any(axis=2)
        side = np.take_along_axis(shift, following, axis=1)
        cross = shift[..., 0] * side[..., 1] - shift[..., 1] * side[..., 0]
        doubled = np.where(valid, cross, 0.0).sum(axis=1)
        longest = np.where(valid, np.hypot(shift[..., 0], shift[..., 1]), 0.0).max(axis=1)
        valid[doubled <= width * longest] = False
        count = valid.sum(axis=1)
        kept = count >= 3
        counts.append(count[kept])
        corners.append(polygons.values[valid & kept[:, None]])
        rows.append(some[kept])
        signs.append(sign[kept])
    count, value, row = np.concatenate(counts), np.concatenate(corners), np.concatenate(rows)
    second_z = _heights(ground.second(pairs), pairs, np.repeat(row, count), value)
    heights = second_z + value[:, D], second_z
    sign = np.concatenate(signs)
    if pairs.swapped:
        heights, sign = heights[::-1], -sign
    return Cells(
        ground.upper.rows.face[pairs.upper[row]],
        ground.lower.rows.face[pairs.lower[row]],
        sign,
        np.concatenate(([0], np.cumsum(count))),
        value[:, X:] + ground.origin,
        *heights,
    )


def _heights(side: Side, pairs: Pairs, pair: Ints, value: Floats) -> Floats:
    """Return the height of the second face at corners that carry their place in its frame."""
    face = pairs.other[pair]
    rise = value[:, U] * side.first[2, face] + value[:, V] * side.second[2, face]
    return side.rows.z[0, face] + rise / side.rows.size[face]
