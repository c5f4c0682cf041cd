"""Walls, curb faces and steps: the line along the foot and the line along the top as a pair.

A face steeper than `WALL_GRADE` has two lines: a concave one at its foot and a convex one at its
top. In plan they lie no farther apart than its height over that grade, so each finds the other as
the nearest line of the other kind within that distance.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from .change import WALL_GRADE
from .kinds import KINDS, Kind
from .lines import BreakLines

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOSTLY = 0.5
"""A line is the foot or the top of a wall when more than this share of it lies beside one."""
_CONVEX = [KINDS.index(kind) for kind in (Kind.RIDGE, Kind.TOP)]


@dataclass(frozen=True)
class Walls:
    """What lines have to do with walls.

    Parameters
    ----------
    top, foot : (n,) bool
        Lines along the top, and along the foot of a wall.
    pair : (n,) int
        The line along the other end of the wall (along most of it), -1 for none.
    height : (n,) float
        Mean height of the wall above or below the line where that other line is, in the unit of
        the heights; NaN without a pair.
    """

    top: NDArray[np.bool_]
    foot: NDArray[np.bool_]
    pair: Ints
    height: Floats


def walls(lines: BreakLines, z_scale: float = 1.0) -> Walls:
    """Return which lines bound walls, and which bound the same one.

    Parameters
    ----------
    lines
        The lines; a pair is found among them alone.
    z_scale
        Plan units in one vertical unit.
    """
    beside = (lines.wall > MOSTLY * lines.length) & (lines.kind != KINDS.index(Kind.EDGE))
    convex = np.isin(lines.kind, _CONVEX)
    top, foot = beside & convex, beside & ~convex
    pair, height = np.full(len(lines), -1), np.full(len(lines), np.nan)
    if top.any() and foot.any():
        tops, feet = _Segments.of(lines, top), _Segments.of(lines, foot)
        for own, others in ((tops, feet), (feet, tops)):
            _find_pairs(own, others, z_scale, pair, height)
    return Walls(top, foot, pair, height)


@dataclass(frozen=True)
class _Segments:
    """Segments of some lines: line of each, and its two ends (s, 2, 3)."""

    line: Ints
    ends: Floats

    @classmethod
    def of(cls, lines: BreakLines, chosen: NDArray[np.bool_]) -> "_Segments":
        count = np.diff(lines.offsets)
        owner = np.repeat(np.arange(len(lines)), count)
        first = np.flatnonzero((owner[1:] == owner[:-1]) & chosen[owner[1:]])
        ends = np.stack((lines.coordinates[first], lines.coordinates[first + 1]), axis=1)
        return cls(owner[first], ends)

    @property
    def lengths(self) -> Floats:
        """Plan lengths, (s,)."""
        step = self.ends[:, 1] - self.ends[:, 0]
        return np.hypot(step[:, 0], step[:, 1])


def _find_pairs(
    own: _Segments, others: _Segments, z_scale: float, pair: Ints, height: Floats
) -> None:
    """Write the pair and the height of each line of ``own``."""
    middle = own.ends.mean(axis=1)
    tree = shapely.STRtree(shapely.linestrings(others.ends[:, :, :2]))
    near = tree.query_nearest(shapely.points(middle[:, :2]), all_matches=True)
    one, other = near
    start, step = others.ends[other, 0], others.ends[other, 1] - others.ends[other, 0]
    away = middle[one] - start
    size = np.maximum(step[:, 0] ** 2 + step[:, 1] ** 2, 1e-300)
    share = np.clip((away[:, 0] * step[:, 0] + away[:, 1] * step[:, 1]) / size, 0.0, 1.0)
    apart = away - share[:, None] * step
    rise = np.abs(apart[:, 2])
    # Grades of faces are rounded by their tiny run: a tenth more than the steepest is allowed.
    good = np.hypot(apart[:, 0], apart[:, 1]) * WALL_GRADE <= 1.1 * rise * z_scale
    one, other, rise = one[good], other[good], rise[good]
    weight = own.lengths[one]
    count = int(others.line.max()) + 1
    key, row = np.unique(own.line[one] * count + others.line[other], return_inverse=True)
    total = np.bincount(row.ravel(), weight, len(key))
    mean = np.bincount(row.ravel(), weight * rise, len(key)) / np.maximum(total, 1e-300)
    order = np.lexsort((-key, total))  # the longest, and of equals the first, is written last
    pair[key[order] // count] = key[order] % count
    height[key[order] // count] = mean[order]
