"""What lies at the foot of sides, and how far they go.

Feet are taken along every edge at distances of at most one pixel; between two the bottom is
straight. A side that counts its ratio from the level is followed outwards, pixel by pixel, from
each foot and around each corner, until it has met what is there: from then on it is no more.
"""

from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, part
from ..manner import BatterRule, Manner
from ..zones import Zones
from .corners import Sectors, dot, sectors_of
from .edges import Edges
from .sides import Feet
from .spans import ZoneSpans, lower
from .windows import Design, Window

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Result = TypeVar("Result")

FARTHEST = 1024
"""Pixels after which a side that has met nothing is given up."""

_WORKERS = 2
_BAND = 256
_PIXELS_AT_ONCE = 3_000_000
_MOST_RAYS = 64
_EXTRA = 3.0  # pixels read beyond what a side needs over level ground


@dataclass(eq=False)
class _Rays:
    """Ways outwards, each from a foot or a corner."""

    spots: Floats
    way: Floats
    rate: Floats
    raised: Mask
    guess: Floats
    height: Floats = field(init=False)
    gone: Floats = field(init=False)
    met: Mask = field(init=False)

    def __post_init__(self) -> None:
        self.height = np.full(len(self.spots), np.nan)
        self.gone = np.zeros(len(self.spots))
        self.met = np.zeros(len(self.spots), dtype=bool)

    @staticmethod
    def joined(some: "list[_Rays]") -> "_Rays":
        """Return rays one after the other."""
        result = _Rays(
            *(
                np.concatenate([getattr(one, name) for one in some])
                for name in ("spots", "way", "rate", "raised", "guess")
            )
        )
        for name in ("height", "gone", "met"):
            setattr(result, name, np.concatenate([getattr(one, name) for one in some]))
        return result


def even_feet(
    edges: Edges, depths: Floats, rates: Floats, other: float, manner: Manner
) -> tuple[Feet, Sectors]:
    """Return the feet of sides whose depth is the same all along their edge.

    Parameters
    ----------
    edges : Edges
        Where the sides begin.
    depths : (k,) float
        Depth of each edge's zone.
    rates : (k,) float
        Change of depth with a unit of plan distance.
    other : float
        Least depth that sides may have to meet: 0, or less where others are raised.
    manner : Manner
        Its corners count.

    Returns
    -------
    feet : Feet
        Two for each edge.
    sectors : Sectors
        What lies between them.
    """
    first, reach = 2 * np.arange(len(edges) + 1), _level_reach(depths, rates, other)
    corners = np.arange(len(edges.turn))
    sectors = sectors_of(edges, corners, np.zeros((len(corners), 2)), rates, manner)
    far = _reach_of_sectors(sectors, depths[edges.before], other)
    starts = 2 * np.arange(len(sectors) + 1)
    return Feet(first, np.repeat(depths, 2), np.repeat(reach, 2), starts, far), sectors


def _level_reach(depths: Floats, rates: Floats, other: float) -> Floats:
    """Return how far sides go whose value is a depth."""
    return np.where(depths > 0, depths - other, -depths) / np.abs(rates)


def _reach_of_sectors(sectors: Sectors, depths: Floats, other: float) -> Floats:
    """Return how far depths go along both rays of sectors, (2 c,) float."""
    reach = np.empty((len(sectors), 2))
    for side, way in enumerate((sectors.begin, sectors.end)):
        rates = dot(sectors.gradient, way) + sectors.cone
        with np.errstate(divide="ignore"):
            reach[:, side] = _level_reach(depths[sectors.corner], rates, other)
    return reach.ravel()


class Survey:
    """Finds the feet of sides on a design.

    Parameters
    ----------
    design : Design
        The raster.
    edges : Edges
        Where the sides begin.
    zones : Zones
        The zones.
    spans : ZoneSpans
        Their pixels.
    around : float
        Depth outside all zones.
    manner : Manner
        Rule, corners, scale.
    """

    def __init__(
        self,
        design: Design,
        edges: Edges,
        zones: Zones,
        spans: ZoneSpans,
        around: float,
        manner: Manner,
    ) -> None:
        self.design, self.edges, self.zones, self.spans = design, edges, zones, spans
        self.manner = manner
        self.pixel = min(abs(design.grid.width), abs(design.grid.height))
        self.depths = np.append(zones.depths, around).astype(np.float64)
        self.squares = np.append(zones.squares, 0.0).astype(np.float64)
        self.given_up = 0

    def feet(self, rates: Floats, other: float, progress: Progress) -> tuple[Feet, Sectors]:
        """Return the feet of sides, and what lies between them.

        Parameters
        ----------
        rates : (k,) float
            Change of depth (rule ``design``) or of height (rule ``level``) with a unit of plan
            distance, of each edge.
        other : float
            As for `even_feet`.
        progress : Progress
            Told the share done.
        """
        edges = self.edges
        gaps = np.maximum(1, np.ceil(edges.length / self.pixel)).astype(np.int64)
        first = np.append(0, np.cumsum(gaps + 1))
        edge = np.repeat(np.arange(len(edges)), gaps + 1)
        share = (np.arange(len(edge)) - first[edge]) / gaps[edge]
        spots = edges.start[edge] + share[:, None] * (edges.stop - edges.start)[edge]
        by_design = self.manner.rule is BatterRule.DESIGN
        zone = edges.zone[edge]
        guess = np.abs((self.depths[zone] + self.squares[zone]) / rates[edge])
        rays = _Rays(spots, edges.out[edge], rates[edge], edges.raised[edge], guess)
        last = first[edges.before + 1] - 1
        if by_design:
            depth = self._depths(rays, zone, progress)
            corners = np.arange(len(last))
            sectors = sectors_of(edges, corners, np.zeros((len(last), 2)), rates, self.manner)
            reach = np.nan_to_num(_level_reach(depth, rates[edge], other))
            far = np.nan_to_num(_reach_of_sectors(sectors, depth[last], other))
            return Feet(first, depth, reach, 2 * np.arange(len(sectors) + 1), far), sectors
        rays.met[:] = ~edges.active[edge]
        sectors, around, starts = self._stand(rays, zone, last, rates, part(progress, 0.0, 0.8))
        self._follow(rays, part(progress, 0.8, 0.9))
        self._follow(around, part(progress, 0.9, 1.0))
        reach, far = (some.gone + self.pixel * (some.gone > 0) for some in (rays, around))
        return Feet(first, rays.height, reach, starts, far), sectors

    def _depths(self, rays: _Rays, zone: Ints, progress: Progress) -> Floats:
        """Return the depth of the bottoms that rays stand on."""
        depth = self.depths[zone]
        slanted = np.flatnonzero(self.squares[zone])
        spots = rays.spots[slanted]

        def find(group: Ints, place: tuple[int, int, int, int]) -> None:
            chosen = slanted[group]
            slopes = self.design.window(*place).gradient(*spots[group].T)
            depth[chosen] += self.squares[zone[chosen]] * self._secants(slopes)

        self._in_groups(find, spots, np.full(len(spots), 2.0), progress)
        return depth

    def _secants(self, slopes: Floats) -> Floats:
        secants: Floats = np.sqrt(1.0 + self.manner.z_scale**2 * dot(slopes, slopes))
        return secants

    def _stand(
        self, rays: _Rays, zone: Ints, last: Ints, rates: Floats, progress: Progress
    ) -> tuple[Sectors, _Rays, Ints]:
        """Find the bottoms rays stand on, and follow them as far as that takes no more reading.

        Returns the sectors of the corners, of which ``last`` are the rays before, and the rays
        around them: those themselves, and the number of the first one of each sector.
        """
        edges, spots = self.edges, rays.spots
        corner_of = np.full(len(spots), -1, dtype=np.int64)
        corner_of[last] = np.arange(len(last))

        def find(
            chosen: Ints, place: tuple[int, int, int, int]
        ) -> tuple[Sectors, tuple[_Rays, Ints]]:
            window = self.design.window(*place)
            below, thick = self.depths[zone[chosen]], self.squares[zone[chosen]]
            slanted = np.flatnonzero(thick)
            slopes = window.gradient(*spots[chosen[slanted]].T)
            below[slanted] += thick[slanted] * self._secants(slopes)
            rays.height[chosen] = window.at(*spots[chosen].T) - below
            rays.met[chosen] |= np.isnan(rays.height[chosen])
            corners = corner_of[chosen]
            corners = corners[corners >= 0]
            slopes = window.gradient(*spots[last[corners]].T)
            along = np.column_stack(
                [dot(slopes, edges.way[some[corners]]) for some in (edges.before, edges.after)]
            )
            sectors = sectors_of(edges, corners, along, rates, self.manner)
            around, count = self._fans(sectors, rays, last)
            surface = self._lowered(window)
            self._march(rays, chosen[~rays.met[chosen]], window, surface)
            self._march(around, np.flatnonzero(~around.met), window, surface)
            return sectors, (around, count)

        found = self._in_groups(find, spots, self._halo(rays), progress)
        counts = np.concatenate([count for _, (_, count) in found])
        return (
            Sectors.joined([sectors for sectors, _ in found]),
            _Rays.joined([around for _, (around, _) in found]),
            np.append(0, np.cumsum(counts)),
        )

    def _fans(self, sectors: Sectors, rays: _Rays, last: Ints) -> tuple[_Rays, Ints]:
        """Return rays in sectors, about a pixel apart at their ends, and how many each has."""
        width, foot = sectors.width, last[sectors.corner]
        with np.errstate(divide="ignore", invalid="ignore"):
            rate = dot(sectors.gradient, sectors.begin) + sectors.cone
            far = np.nan_to_num(np.abs(rays.guess[foot] * rays.rate[foot] / rate), posinf=0.0)
        count = np.clip(np.ceil(width * far / self.pixel), 1, _MOST_RAYS).astype(np.int64) + 1
        sector = np.repeat(np.arange(len(sectors)), count)
        within = np.arange(len(sector)) - np.repeat(np.cumsum(count) - count, count)
        turned = within * (width / (count - 1))[sector]
        angle = np.arctan2(sectors.begin[:, 1], sectors.begin[:, 0])[sector] + turned
        way = np.column_stack([np.cos(angle), np.sin(angle)])
        rate = dot(sectors.gradient[sector], way) + sectors.cone[sector]
        foot = foot[sector]
        with np.errstate(divide="ignore", invalid="ignore"):
            guess = np.nan_to_num(np.abs(rays.guess[foot] * rays.rate[foot] / rate))
        around = _Rays(rays.spots[foot], way, rate, rays.raised[foot], guess)
        around.height = rays.height[foot]
        around.met = np.isnan(around.height)
        return around, count

    def _follow(self, rays: _Rays, progress: Progress) -> None:
        """Follow rays outwards until each has met the surface, or the end of the data."""
        spots = rays.spots
        halo = self._halo(rays)
        while not rays.met.all():
            left = np.flatnonzero(~rays.met)

            def march(group: Ints, place: tuple[int, int, int, int], left: Ints = left) -> None:
                window = self.design.window(*place)
                self._march(rays, left[group], window, self._lowered(window))

            self._in_groups(march, spots[left], halo[left], progress)
            left = np.flatnonzero(~rays.met)
            spent = left[(rays.gone[left] >= FARTHEST * self.pixel) | (halo[left] > FARTHEST)]
            rays.met[spent] = True
            self.given_up += len(spent)
            halo = (3.0 * halo).clip(0.0, FARTHEST + _EXTRA)

    def _halo(self, rays: _Rays) -> Floats:
        """Return pixels to read around the foot of each ray at first."""
        far = np.nan_to_num(1.5 * rays.guess / self.pixel)
        near: Floats = np.minimum(np.maximum(far, 1.0), 64.0) + _EXTRA
        return near

    def _march(
        self, rays: _Rays, chosen: Ints, window: Window, surface: NDArray[np.floating]
    ) -> None:
        """Follow rays as far as a window goes."""
        grid, most = self.design.grid, FARTHEST * self.pixel
        rows, columns = surface.shape
        scale = np.array([1.0 / grid.width, 1.0 / grid.height])
        first = rays.spots[chosen] * scale - (window.column + 0.5, window.row + 0.5)
        step = rays.way[chosen] * scale
        height, rate, gone = rays.height[chosen], rays.rate[chosen], rays.gone[chosen]
        raised = bool(len(chosen)) and bool(rays.raised[chosen[0]])
        flat = surface.reshape(-1)
        gaps = None if window.missing is None else np.ascontiguousarray(window.missing).reshape(-1)
        while len(chosen):
            gone = gone + self.pixel
            place = np.floor(first + step * gone[:, None]).astype(np.int64)
            column, row = place[:, 0], place[:, 1]
            inside = (row >= 0) & (row < rows - 1) & (column >= 0) & (column < columns - 1)
            if not inside.all():
                out = np.flatnonzero(~inside)
                at_row, at_column = row[out] + window.row, column[out] + window.column
                beyond = (at_row < 0) | (at_row >= grid.rows - 1)
                beyond |= (at_column < 0) | (at_column >= grid.columns - 1)
                ended = chosen[out[beyond]]
                rays.gone[ended], rays.met[ended] = gone[out[beyond]], True
                rays.gone[chosen[out[~beyond]]] = gone[out[~beyond]] - self.pixel
                kept = np.flatnonzero(inside)
                row, column, chosen = row[kept], column[kept], chosen[kept]
                first, step, gone = first[kept], step[kept], gone[kept]
                height, rate = height[kept], rate[kept]
            corner = row * columns + column
            around = (corner, corner + 1, corner + columns, corner + (columns + 1))
            one, two, three, four = (flat[at] for at in around)
            line = height + gone * rate
            if raised:
                met = line <= np.minimum(np.minimum(one, two), np.minimum(three, four))
            else:
                met = line >= np.maximum(np.maximum(one, two), np.maximum(three, four))
            if gaps is not None:
                for at in around:
                    met |= gaps[at]
            done = met | (gone >= most)
            if done.any():
                rays.gone[chosen[done]], rays.met[chosen[done]] = gone[done], met[done]
                kept = np.flatnonzero(~done)
                chosen, first, step, gone = chosen[kept], first[kept], step[kept], gone[kept]
                height, rate = height[kept], rate[kept]

    def _lowered(self, window: Window) -> NDArray[np.floating]:
        """Return the heights of a window, its zones lowered in place."""
        surface = np.ascontiguousarray(window.heights)
        rows, columns = surface.shape
        spans = self.spans.strip(window.row, rows).clip(window.column, columns)
        # Thickness square to the slope counts as if it were plumb: the bottom may lie lower.
        lower(surface, spans, self.depths + self.squares)
        if self.depths[-1]:
            lower(surface, spans.rest(rows, columns), self.depths)
        return surface

    def _in_groups(
        self,
        work: Callable[[Ints, tuple[int, int, int, int]], Result],
        spots: Floats,
        halo: Floats,
        progress: Progress,
    ) -> list[Result]:
        """Call for places that lie together, and the window that holds them with their halo."""
        results = []
        with ThreadPoolExecutor(_WORKERS) as pool:
            waiting: deque[Future[Result]] = deque()
            for share, chosen, place in self._groups(spots, halo):
                waiting.append(pool.submit(work, chosen, place))
                if len(waiting) > _WORKERS:
                    results.append(waiting.popleft().result())
                progress(share)
            results += [future.result() for future in waiting]
        return results

    def _groups(
        self, spots: Floats, halo: Floats
    ) -> Iterator[tuple[float, Ints, tuple[int, int, int, int]]]:
        grid = self.design.grid
        row = np.clip(np.floor(spots[:, 1] / grid.height), 0, grid.rows - 1).astype(np.int64)
        column = np.clip(np.floor(spots[:, 0] / grid.width), 0, grid.columns - 1).astype(np.int64)
        most = int(np.ceil(halo.max(initial=0)))
        broad = max(_BAND, _PIXELS_AT_ONCE // (_BAND + 2 * most) - 2 * most)
        key = row // _BAND * (grid.columns // broad + 1) + column // broad
        order = np.argsort(key, kind="stable")
        starts = np.flatnonzero(np.append(True, np.diff(key[order]) != 0))[: len(key)]
        stops = np.append(starts[1:], len(order))
        for number, (start, stop) in enumerate(zip(starts, stops, strict=True)):
            chosen = order[start:stop]
            reach = int(np.ceil(halo[chosen].max())) + 1
            low, high = row[chosen].min() - reach, row[chosen].max() + reach + 1
            left, right = column[chosen].min() - reach, column[chosen].max() + reach + 1
            place = (int(low), int(left), int(high - low), int(right - left))
            yield number / len(starts), chosen, place
