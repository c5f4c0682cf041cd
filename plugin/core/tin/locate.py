"""Find the face under a point, and the height there.

Each point starts at a face near it (one seed a bin) and walks over the adjacency, across the
side it lies farthest beyond, until it is inside. What a walk cannot reach (past a concave
border, a hole or a fault) is looked up among all faces of the point's bin. Where a point ends
depends on the point alone, not on those asked for with it.
"""

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from .bins import Bins, boxes

if TYPE_CHECKING:
    from .mesh import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 65536
_MOST_STEPS = 48
_PAIRS = 1 << 20


class Locator:
    """Finds faces under points.

    A point belongs to a face when it lies beyond none of its sides by more than the rounding of
    the coordinates; so no point falls between two faces that share an edge. Faces without plan
    area hold no point.

    Parameters
    ----------
    tin : Tin
        The surface; its faces run counter-clockwise.
    """

    def __init__(self, tin: "Tin") -> None:
        self._origin = np.floor(np.array(tin.extent[:2]))
        self._plan = tin.vertices[:, :2] - self._origin
        self._z = np.ascontiguousarray(tin.vertices[:, 2])
        self._faces = tin.faces
        self._across = tin.neighbours
        self._flat = tin.without_plan_area
        self._rounding = tin.rounding
        self._bins = Bins.over(*boxes(self._plan, tin.faces), self._rounding)
        self._seeds = self._seed_faces()

    def faces(self, xy: Floats) -> Ints:
        """Return the face of each point, (k,) int, -1 for none."""
        return self._search(xy)[0]

    def heights(self, xy: Floats) -> tuple[Floats, Ints]:
        """Return height (NaN outside) and face (-1 outside) of each point."""
        face, beyond = self._search(xy)
        z = np.full(len(face), np.nan)
        found = np.flatnonzero(face >= 0)
        share = beyond[found]
        base, second, third = (self._z.take(self._faces[face[found], k]) for k in range(3))
        rise = share[:, 2] * (second - base) + share[:, 0] * (third - base)
        height = base + rise / (share[:, 0] + share[:, 1] + share[:, 2])
        # A point may lie outside by its rounding, which beside a wall is no longer small.
        np.maximum(height, np.minimum(np.minimum(base, second), third), out=height)
        z[found] = np.minimum(height, np.maximum(np.maximum(base, second), third))
        return z, face

    def _seed_faces(self) -> Ints:
        """Choose a face near each bin, (bins,) int; -1 where no face's box comes."""
        bins = self._bins
        seeds = np.full(bins.count, -1, dtype=np.int64)
        solid = np.flatnonzero(~self._flat)
        seeds[bins.middles()[solid]] = solid
        covered = bins.coverage() > 0
        empty = np.flatnonzero(covered & (seeds < 0))
        table = seeds.reshape(bins.shape[::-1])
        # Bins under large faces hold no centre of one: they borrow from a neighbour, in rounds.
        for axis, step in _rounds(max(bins.shape)):
            if len(empty) == 0:
                break
            shifted = np.roll(table, step, axis=axis)
            seeds[empty] = shifted.ravel()[empty]
            empty = empty[seeds[empty] < 0]
        seeds[empty] = solid[0] if len(solid) else -1
        seeds[~covered] = -1
        return seeds

    def _search(self, xy: Floats) -> tuple[Ints, Floats]:
        """Return face and doubled areas beyond its sides for each point."""
        points = np.ascontiguousarray(xy - self._origin)
        face = np.full(len(points), -1, dtype=np.int64)
        shares = np.zeros((len(points), 3))
        cells = self._bins.of_points(points)
        seeds = np.where(cells >= 0, self._seeds[cells], -1)
        lost = []
        for start in range(0, len(points), _BLOCK):
            block = np.arange(start, min(start + _BLOCK, len(points)))
            lost.append(self._walk(points, seeds, block, face, shares))
        stray = np.concatenate(lost) if lost else np.zeros(0, dtype=np.int64)
        if len(stray):
            self._look_up(points, cells, stray, face, shares)
        return face, shares

    def _walk(self, points: Floats, seeds: Ints, block: Ints, face: Ints, shares: Floats) -> Ints:
        """Walk the points of a block home; return those that did not arrive."""
        at = seeds[block]
        block, at = block[at >= 0], at[at >= 0]
        lost = []
        for _ in range(_MOST_STEPS):
            if len(block) == 0:
                break
            area, inside = self._beyond(points.take(block, axis=0), at)
            inside &= ~self._flat.take(at)
            home = np.flatnonzero(inside)
            arrived = block.take(home)
            face[arrived] = at.take(home)
            shares[arrived] = area.T.take(home, axis=0)
            away = np.flatnonzero(~inside)
            first, second, third = area.take(away, axis=1)
            side = np.where(second < first, 1, 0)
            side[third < np.minimum(first, second)] = 2
            following = self._across.ravel().take(3 * at.take(away) + side)
            over = following < 0
            lost.append(block.take(away[over]))
            go = np.flatnonzero(~over)
            block, at = block.take(away.take(go)), following.take(go)
        lost.append(block)
        return np.concatenate(lost)

    def _look_up(
        self, points: Floats, cells: Ints, stray: Ints, face: Ints, shares: Floats
    ) -> None:
        """Try every face in the bin of each stray point; the lowest face that holds it counts."""
        wanted = np.zeros(self._bins.count, dtype=bool)
        wanted[cells[stray]] = True
        near = self._bins.touching(wanted)
        near = near[~self._flat[near]]
        bins, members = self._bins.entries(near)
        kept = wanted[bins]
        bins, members = bins[kept], members[kept]
        first = np.searchsorted(bins, cells[stray], side="left")
        count = np.searchsorted(bins, cells[stray], side="right") - first
        start = 0
        ends = np.cumsum(count)
        while start < len(stray):
            base = ends[start - 1] if start else 0
            stop = max(int(np.searchsorted(ends, base + _PAIRS, side="right")), start + 1)
            some = slice(start, stop)
            point = np.repeat(stray[some], count[some])
            within = np.arange(len(point)) - np.repeat(ends[some] - count[some] - base, count[some])
            candidate = members[np.repeat(first[some], count[some]) + within]
            area, inside = self._beyond(points[point], candidate)
            hit = np.flatnonzero(inside)[::-1]  # the lowest face is written last
            face[point[hit]] = candidate[hit]
            shares[point[hit]] = area.T[hit]
            start = stop

    def _beyond(self, points: Floats, at: Ints) -> tuple[Floats, NDArray[np.bool_]]:
        """Return on which side of the sides of a face a point lies.

        Returns
        -------
        area : (3, k) float
            Doubled area of the point and side 0, 1, 2; positive inside.
        inside : (k,) bool
            The point lies beyond no side by more than the rounding of the coordinates.
        """
        corners = self._faces.take(at, axis=0)
        x, y = np.empty((3, len(at))), np.empty((3, len(at)))
        for k in range(3):
            corner = self._plan.take(corners[:, k], axis=0)
            np.subtract(corner[:, 0], points[:, 0], out=x[k])
            np.subtract(corner[:, 1], points[:, 1], out=y[k])
        area = np.empty((3, len(at)))
        inside = np.ones(len(at), dtype=bool)
        for k, following in ((0, 1), (1, 2), (2, 0)):
            np.subtract(x[k] * y[following], x[following] * y[k], out=area[k])
            slack = np.hypot(x[following] - x[k], y[following] - y[k])
            slack *= -self._rounding
            inside &= area[k] >= slack
        return area, inside


def _rounds(longest: int) -> list[tuple[int, int]]:
    """Return shifts (axis, step) that spread seeds near first, then farther."""
    steps = []
    step = 1
    while step < longest:
        steps += [(0, step), (1, step), (0, -step), (1, -step)]
        step *= 2
    return steps
