"""The convex cells into which two surfaces divide the ground they share."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, silent
from ..mesh import Tin
from .difference import Heights, heights
from .frame import Pairs
from .polygons import Polygons
from .rows import Rows
from .walk import Overlay

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_U, _V, _D, _X, _Y = range(5)


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
            high = heights(ground.upper, ground.slopes, ground.frames, pairs)
            yield _cells(ground, pairs, high, level, width, split=split)
        progress(done)


def level_of(upper: Tin, lower: Tin) -> float:
    """Return the difference in height below which two surfaces cannot be told apart.

    It is what the rounding of plan coordinates makes of the height of a plane at a slope of 1:1,
    and that of the heights themselves.
    """
    largest = max(float(np.abs(tin.vertices[:, 2]).max()) for tin in (upper, lower))
    return max(upper.rounding, lower.rounding) + 8.0 * float(np.spacing(largest))


def extremes(upper: Rows, pairs: Pairs, high: Heights, some: Ints) -> tuple[Floats, Floats]:
    """Return the least and the greatest difference over what pairs share."""
    shared = shared_polygons(upper, pairs, high, some)
    valid = np.arange(shared.values.shape[1]) < shared.count[:, None]
    above = shared.values[..., _D]
    least = np.where(valid, above, np.inf).min(axis=1)
    most = np.where(valid, above, -np.inf).max(axis=1)
    # Rounding beside a steep face; the bounds hold whatever it does.
    met = shared.count > 0
    least[met] = np.maximum(least[met], high.least[some][met])
    most[met] = np.minimum(most[met], high.most[some][met])
    return least, most


def shared_polygons(upper: Rows, pairs: Pairs, high: Heights, some: Ints) -> Polygons:
    """Clip the upper faces of pairs by the lower ones; corners carry u, v, difference, x and y."""
    values = np.empty((len(some), 3, 5))
    one = pairs.one[some]
    for k in range(3):
        values[:, k, _U], values[:, k, _V] = pairs.u[k, some], pairs.v[k, some]
        values[:, k, _D] = high.corners[k, some]
        values[:, k, _X], values[:, k, _Y] = upper.x[k, one], upper.y[k, one]
    shared = Polygons(values, np.full(len(some), 3, dtype=np.int64))
    size = pairs.size[some, None]
    shared = shared.clip(size - shared.values[..., _U] - shared.values[..., _V])
    shared = shared.clip(shared.values[..., _U])
    return shared.clip(shared.values[..., _V])


def _cells(
    ground: Overlay, pairs: Pairs, high: Heights, level: float, width: float, *, split: bool
) -> Cells:
    every = np.arange(len(pairs))
    whole = shared_polygons(ground.upper, pairs, high, every)
    same = (high.most <= level) & (high.least >= -level)
    crossed = (high.least < 0) & (high.most > 0) & ~same
    sign = np.where(same | crossed, 0, np.where(high.least >= 0, 1, -1))
    if not split:
        return _ragged(ground, pairs, [(every, sign, whole)], width)
    plain, some = np.flatnonzero(~crossed), np.flatnonzero(crossed)
    groups = [(plain, sign[plain], Polygons(whole.values[plain], whole.count[plain]))]
    halved = Polygons(whole.values[some], whole.count[some])
    for side in (1, -1):
        part = halved.clip(side * halved.values[..., _D])
        groups.append((some, np.full(len(some), side), part))
    return _ragged(ground, pairs, groups, width)


def _ragged(
    ground: Overlay, pairs: Pairs, groups: list[tuple[Ints, Ints, Polygons]], width: float
) -> Cells:
    """Put polygons one after the other, without repeated corners and hairlines."""
    counts, corners, rows, signs = [], [], [], []
    for some, sign, shared in groups:
        place = np.arange(shared.values.shape[1])
        valid = place < shared.count[:, None]
        before = np.where(place > 0, place - 1, np.maximum(shared.count[:, None] - 1, 0))
        xy = shared.values[..., _X:]
        moved = (xy != np.take_along_axis(xy, before[..., None], axis=1)).any(axis=2)
        valid &= moved
        count = valid.sum(axis=1)
        after = np.where(place + 1 < shared.count[:, None], place + 1, 0)
        side = np.take_along_axis(xy, after[..., None], axis=1) - xy[:, :1]
        cross = (xy - xy[:, :1])[..., 0] * side[..., 1] - (xy - xy[:, :1])[..., 1] * side[..., 0]
        longest = np.hypot(*np.moveaxis(xy - xy[:, :1], 2, 0))
        longest = np.where(place < shared.count[:, None], longest, 0.0).max(axis=1)
        doubled = np.where(place < shared.count[:, None], cross, 0.0).sum(axis=1)
        kept = (count >= 3) & (doubled > width * longest)
        valid &= kept[:, None]
        counts.append(count[kept])
        corners.append(shared.values[valid])
        rows.append(some[kept])
        signs.append(sign[kept])
    count, value, row = np.concatenate(counts), np.concatenate(corners), np.concatenate(rows)
    one, other = pairs.one[row], pairs.other[row]
    own = np.repeat(other, count)
    frames = ground.frames
    lower_z = (
        frames.z[own]
        + (value[:, _U] * frames.z1[own] + value[:, _V] * frames.z2[own]) / frames.size[own]
    )
    return Cells(
        ground.upper.face[one],
        ground.lower.face[other],
        np.concatenate(signs),
        np.concatenate(([0], np.cumsum(count))),
        value[:, _X:] + ground.origin,
        lower_z + value[:, _D],
        lower_z,
    )
