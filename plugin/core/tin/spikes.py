"""Vertices far off the plane of their neighbours."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .mesh import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SPREAD = 8.0
"""A spike is so many times farther off the plane than its neighbours are."""

STEEP = 0.2
"""Rise over run from the plane, at the mean distance of the neighbours, from which a vertex may
be a spike: a gentler one is a mound or a hollow."""

_FEWEST = 3
_ROUNDS = 8
_FLAT = 1e-3  # of the width of the ring: neighbours nearer to one line have no plane


@dataclass(frozen=True, eq=False)
class Spikes:
    """Vertices that stick out.

    Parameters
    ----------
    vertex : (k,) int
        The vertices, in order.
    off : (k,) float
        How far above (+) or below (-) the plane of its neighbours each is, in units of height.
    spread : (k,) float
        How far its neighbours are off that plane: the middle one of them.
    """

    vertex: Ints
    off: Floats
    spread: Floats


def find_spikes(tin: Tin, limit: float, z_scale: float = 1.0) -> Spikes:
    """Find vertices that are farther off the plane of their neighbours than is likely.

    The plane is the one with the least sum of distances (not of squares), so that another spike
    among the neighbours does not bend it. A vertex is a spike when it is off by more than
    ``limit``, square to the plane, by more than `SPREAD` times as much as most of its
    neighbours, and rises from the plane by more than `STEEP`. Vertices on the border are not
    judged: nothing tells the plane beyond them.

    Parameters
    ----------
    tin : Tin
        The surface.
    limit : float
        In units of height.
    z_scale : float
        Plan units in one unit of height.
    """
    ends = tin.edges.ends
    inner = np.bincount(ends.ravel(), minlength=len(tin.vertices)) >= _FEWEST
    inner[ends[tin.edges.boundary]] = False
    # Against the plane of least squares first, which is quick; it is off by less than twice.
    vertex = np.flatnonzero(inner)
    ring = _Rings.of(tin, vertex)
    off, _, _ = ring.fit(np.ones(len(ring.owner)))
    some = np.abs(off) > 0.5 * limit
    vertex = vertex[some]
    ring = _Rings.of(tin, vertex)
    weight = np.ones(len(ring.owner))
    residual, slope = weight, np.zeros(len(vertex))
    for _ in range(_ROUNDS):
        off, residual, slope = ring.fit(weight)
        weight = 1.0 / np.maximum(np.abs(residual), 1e-3 * limit)
    count = np.bincount(ring.owner, minlength=len(vertex))
    spread = _spread(np.abs(residual), ring.owner, count)
    reach = ring.sums(np.hypot(ring.x, ring.y)) / np.maximum(count, 1)
    size = np.abs(off)
    # Square to the plane: up a wall a hair to the side is much in height.
    aside = size / np.sqrt(1.0 + (slope * z_scale) ** 2)
    bad = (aside > limit) & (size > SPREAD * spread) & (size * z_scale > STEEP * reach)
    return Spikes(vertex[bad], off[bad], spread[bad])


def _spread(residual: Floats, owner: Ints, count: Ints) -> Floats:
    """Return how far the neighbours of each vertex are off, but for the three nearest the plane.

    Three of them fix the plane. Of the others the middle one counts, the smaller of two, so that
    another spike is passed over.
    """
    order = np.lexsort((residual, owner))
    first = np.cumsum(count) - count
    middle = first + np.minimum(3 + np.maximum(count - 4, 0) // 2, count - 1)
    return np.where(count > 3, residual[order][middle], 0.0) if len(count) else np.zeros(0)


@dataclass(frozen=True, eq=False)
class _Rings:
    """The neighbours of vertices, end to end, relative to the vertex."""

    owner: Ints
    x: Floats
    y: Floats
    z: Floats
    count: int

    @classmethod
    def of(cls, tin: Tin, vertex: Ints) -> "_Rings":
        number = np.full(len(tin.vertices), -1, dtype=np.int64)
        number[vertex] = np.arange(len(vertex))
        ends = np.concatenate([tin.edges.ends, tin.edges.ends[:, ::-1]])
        ends = ends[number[ends[:, 0]] >= 0]
        x, y, z = (tin.vertices[ends[:, 1]] - tin.vertices[ends[:, 0]]).T
        return cls(number[ends[:, 0]], x, y, z, len(vertex))

    def sums(self, values: Floats) -> Floats:
        return np.bincount(self.owner, values, self.count).astype(np.float64, copy=False)

    def fit(self, weight: Floats) -> tuple[Floats, Floats, Floats]:
        """Return how far each vertex is off the weighted plane, residuals, and the plane's slope.

        NaN where the neighbours lie on one line.
        """
        x, y, z = self.x, self.y, self.z
        wx, wy = weight * x, weight * y
        s, sx, sy, sz = (self.sums(v) for v in (weight, wx, wy, weight * z))
        mx, my, mz = sx / s, sy / s, sz / s
        xx, xy, yy = (self.sums(v) for v in (wx * x, wx * y, wy * y))
        xz, yz = self.sums(wx * z), self.sums(wy * z)
        xx, xy, yy = xx - sx * mx, xy - sx * my, yy - sy * my
        xz, yz = xz - sx * mz, yz - sy * mz
        det = xx * yy - xy * xy
        det = np.where(det > (_FLAT * (xx + yy)) ** 2, det, np.nan)
        a, b = (xz * yy - yz * xy) / det, (yz * xx - xz * xy) / det
        own = mz - a * mx - b * my
        own_row = own[self.owner]
        residual = z - own_row - a[self.owner] * x - b[self.owner] * y
        return -own, residual, np.hypot(a, b)
