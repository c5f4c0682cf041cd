"""Sides that climb from the edges of zones (or fall from raised ones), on rows of a grid.

A pixel lies on the side of an edge when the foot of its perpendicular lies on that edge, and on
the side of a corner when it lies in one of the corner's sectors. No distance is counted in pixels.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...grid import Grid
from ...runs import count_up
from .corners import Sectors
from .edges import Edges
from .quads import Quads

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Heights = NDArray[np.floating]

_SLACK = 1e-7  # of the distance between feet; neighbouring sides leave no gap
_WIDEST = np.pi / 3  # of the pieces a corner is laid out in


@dataclass(frozen=True, eq=False)
class Feet:
    """Values along edges, and reaches there and in sectors, at even distances.

    Parameters
    ----------
    first : (k + 1,) int
        Number of the first value of each edge; it has at least two, at its ends.
    values : (n,) float
        Depth below the design, or height of the bottom.
    reach : (n,) float
        How far the side goes there, in plan units.
    sector_first : (c + 1,) int
        Number of the first direction of each sector, of which it has at least two: along its
        rays, and evenly between.
    sector_reach : (d,) float
        How far the side goes there from the corner.
    """

    first: Ints
    values: Floats
    reach: Floats
    sector_first: Ints
    sector_reach: Floats


@dataclass(frozen=True, eq=False)
class SideValues:
    """What sides say about pixels of a window; a pixel may occur many times.

    Parameters
    ----------
    pixel : (s,) int
        Place in the window, row by row.
    value : (s,) float
        Depth or height, as the feet have it.
    zone : (s,) int
        Zone the side belongs to.
    """

    pixel: Ints
    value: Floats
    zone: Ints

    def take(self, chosen: NDArray) -> "SideValues":
        """Return some of them, by number or mask."""
        return SideValues(self.pixel[chosen], self.value[chosen], self.zone[chosen])

    @classmethod
    def none(cls) -> "SideValues":
        """Return nothing at all."""
        empty = np.empty(0, dtype=np.int64)
        return cls(empty, np.empty(0), empty)


class Sides:
    """Sides laid over a grid.

    Parameters
    ----------
    edges : Edges
        Where they begin, counted from the grid's first corner.
    feet : Feet
        What is at their feet.
    sectors : Sectors
        What lies between them.
    rates : (k,) float
        Change of value with a unit of plan distance, of each edge.
    grid : Grid
        The raster.
    """

    def __init__(
        self, edges: Edges, feet: Feet, sectors: Sectors, rates: Floats, grid: Grid
    ) -> None:
        self.edges, self.feet, self.sectors = edges, feet, sectors
        self.rates, self.grid = rates, grid
        self._edge = np.flatnonzero(edges.active)
        self._strips = Quads(self._rectangles(), grid)
        self._width = sectors.width
        kites, self._sector = self._kites()
        self._corners = Quads(kites, grid)

    def _rectangles(self) -> Floats:
        edge = self._edge
        reach = np.maximum.reduceat(self.feet.reach, self.feet.first[:-1])[edge]
        rim = self.edges.out[edge] * reach[:, None]
        start, stop = self.edges.start[edge], self.edges.stop[edge]
        return np.stack([start, stop, stop + rim, start + rim], axis=1)

    def _kites(self) -> tuple[Floats, Ints]:
        """Return kites that cover the sectors, none wider than sixty degrees."""
        sectors, feet = self.sectors, self.feet
        if not len(sectors):
            return np.empty((0, 4, 2)), np.empty(0, dtype=np.int64)
        reach = np.maximum.reduceat(feet.sector_reach, feet.sector_first[:-1])
        count = np.maximum(np.ceil(self._width / _WIDEST), 1).astype(np.int64)
        sector = np.repeat(np.arange(len(count)), count)
        within = count_up(count)
        wide = (self._width / count)[sector]
        begin = sectors.begin[sector]
        angle = np.arctan2(begin[:, 1], begin[:, 0]) + within * wide
        middle = self.edges.stop[self.edges.before[sectors.corner[sector]]]
        far = reach[sector]
        rim = [(angle, far), (angle + 0.5 * wide, far / np.cos(0.5 * wide)), (angle + wide, far)]
        points = [
            middle + np.column_stack([np.cos(turn), np.sin(turn)]) * size[:, None]
            for turn, size in rim
        ]
        return np.stack([middle, *points], axis=1), sector

    def window(self, row: int, rows: int, column: int, columns: int) -> SideValues:
        """Return what the sides say about a window; the same in whatever window a pixel lies."""
        place = (row, rows, column, columns)
        one, other = self._beside_edges(place), self._at_corners(place)
        return SideValues(
            np.concatenate([one.pixel, other.pixel]),
            np.concatenate([one.value, other.value]),
            np.concatenate([one.zone, other.zone]),
        )

    def _beside_edges(self, place: tuple[int, int, int, int]) -> SideValues:
        first_row, _, first_column, columns = place
        strip, row, start, stop = self._strips.strip(*place)
        edge = self._edge[strip]
        run, column = _expand(start, stop)
        x, y = self.edges.start[edge].T
        y = (first_row + row + 0.5) * self.grid.height - y
        way, out = self.edges.way[edge], self.edges.out[edge]
        across = (column + 0.5) * self.grid.width - x[run]
        t = across * way[run, 0] + (y * way[:, 1])[run]
        s = across * out[run, 0] + (y * out[:, 1])[run]
        long = self.edges.length[edge]
        slack = _SLACK * abs(self.grid.width)
        kept = np.flatnonzero((t >= -slack) & (t <= long[run] + slack) & (s >= -slack))
        t, s, run = t[kept], s[kept], run[kept]
        edge_of = edge[run]
        first = self.feet.first
        gaps = first[1:] - first[:-1] - 1
        at = np.clip(t * (gaps[edge] / long)[run], 0.0, gaps[edge_of])
        below = np.minimum(at.astype(np.int64), gaps[edge_of] - 1)
        share = at - below
        below += first[edge_of]
        reach = np.maximum(self.feet.reach[below], self.feet.reach[below + 1])
        near = np.flatnonzero(s <= reach)
        below, share, s, run = below[near], share[near], s[near], run[near]
        low, high = self.feet.values[below], self.feet.values[below + 1]
        value = low + share * (high - low) + s * self.rates[edge_of[near]]
        pixel = (row * columns - first_column)[run] + column[kept][near]
        return SideValues(pixel, value, self.edges.zone[edge_of[near]])

    def _at_corners(self, place: tuple[int, int, int, int]) -> SideValues:
        first_row, _, first_column, columns = place
        kite, row, start, stop = self._corners.strip(*place)
        run, column = _expand(start, stop)
        sector = self._sector[kite][run]
        before = self.edges.before[self.sectors.corner]
        middle = self.edges.stop[before][sector]
        x = (column + 0.5) * self.grid.width - middle[:, 0]
        y = (first_row + row + 0.5)[run] * self.grid.height - middle[:, 1]
        begin, end = self.sectors.begin[sector], self.sectors.end[sector]
        past, left = begin[:, 0] * y - begin[:, 1] * x, x * end[:, 1] - y * end[:, 0]
        ahead = x * (begin[:, 0] + end[:, 0]) + y * (begin[:, 1] + end[:, 1])
        slack = _SLACK * abs(self.grid.width)
        kept = np.flatnonzero((past >= -slack) & (left >= -slack) & (ahead >= -slack))
        x, y, sector = x[kept], y[kept], sector[kept]
        along = x * begin[kept, 0] + y * begin[kept, 1]
        distance = np.hypot(x, y)
        first = self.feet.sector_first
        gaps = first[sector + 1] - first[sector] - 1
        wide = np.maximum(self._width[sector], np.finfo(np.float64).tiny)
        at = np.arctan2(past[kept], along) / wide * gaps
        below = np.clip(at, 0, gaps - 1).astype(np.int64) + first[sector]
        reach = np.maximum(self.feet.sector_reach[below], self.feet.sector_reach[below + 1])
        near = np.flatnonzero(distance <= reach)
        sector = sector[near]
        slope = self.sectors.gradient[sector]
        value = (
            self.feet.values[self.feet.first[before + 1] - 1][sector]
            + (slope[:, 0] * x[near] + slope[:, 1] * y[near])
            + self.sectors.cone[sector] * distance[near]
        )
        pixel = (row * columns - first_column)[run][kept][near] + column[kept][near]
        return SideValues(pixel, value, self.edges.zone[before[sector]])


def _expand(start: Ints, stop: Ints) -> tuple[Ints, Ints]:
    """Return the run and the column of every pixel of runs."""
    count = stop - start
    run = np.repeat(np.arange(len(count)), count)
    return run, np.repeat(start, count) + count_up(count)


def settle(flat: Heights, values: SideValues, beats: np.ufunc) -> SideValues:
    """Set each pixel to the best that sides say about it, in place, where that beats it.

    Returns the best side of each pixel that was set, the first zone's of equally good ones.
    """
    height = values.value.astype(flat.dtype)
    won = np.flatnonzero(beats(height, flat[values.pixel]))
    pixel, height, zone = values.pixel[won], height[won], values.zone[won]
    left = np.arange(len(pixel))
    while len(left):  # of several values for one pixel numpy keeps one
        flat[pixel[left]] = height[left]
        left = left[beats(height[left], flat[pixel[left]])]
    best = np.flatnonzero(height == flat[pixel])
    best = best[np.argsort(-zone[best], kind="stable")]
    last = np.empty(len(flat), dtype=np.int32)
    number = np.arange(len(best), dtype=np.int32)
    last[pixel[best]] = number
    best = best[last[pixel[best]] == number]
    return SideValues(pixel[best], height[best], zone[best])
