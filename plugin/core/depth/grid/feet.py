"""What lies at the foot of sides, and how far they go.

Feet are taken along every edge at distances of at most one pixel; between two the bottom is
straight. A side that counts its ratio from the level is followed outwards, pixel by pixel, from
each foot and around each corner, until it has met what is there: from then on it is no more.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress
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

FARTHEST = 1024
"""Pixels after which a side that has met nothing is given up."""

_BAND = 256
_PIXELS_AT_ONCE = 4_000_000
_MOST_RAYS = 64
_EXTRA = 3  # pixels read beyond what a side needs over level ground


@dataclass(eq=False)
class _Rays:
    """Ways outwards, each from a foot or a corner."""

    spots: Floats
    way: Floats
    height: Floats
    rate: Floats
    raised: Mask
    guess: Floats
    gone: Floats = field(init=False)
    met: Mask = field(init=False)

    def __post_init__(self) -> None:
        self.gone = np.zeros(len(self.spots))
        self.met = np.isnan(self.height)


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
    sectors = sectors_of(edges, np.zeros((len(edges.turn), 2)), rates, manner)
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
        depth, bottom = self._bottoms(spots, edges.zone[edge], progress)
        by_design = self.manner.rule is BatterRule.DESIGN
        last = first[edges.before + 1] - 1
        along = np.zeros((len(last), 2))
        if not by_design:
            slopes = self._gradients(spots[last], progress)
            along[:, 0] = dot(slopes, edges.way[edges.before])
            along[:, 1] = dot(slopes, edges.way[edges.after])
        sectors = sectors_of(edges, along, rates, self.manner)
        guess = _level_reach(depth, rates[edge], other if by_design else 0.0)
        if by_design:
            far = _reach_of_sectors(sectors, depth[last], other)
            starts = 2 * np.arange(len(sectors) + 1)
            return Feet(first, depth, np.nan_to_num(guess), starts, np.nan_to_num(far)), sectors
        beside = _Rays(spots, edges.out[edge], bottom, rates[edge], edges.raised[edge], guess)
        beside.met |= ~edges.active[edge]
        around, starts = self._fans(sectors, spots[last], bottom[last], depth[last])
        self._follow(beside, progress)
        self._follow(around, progress)
        margins = (np.where(rays.gone > 0, self.pixel, 0.0) for rays in (beside, around))
        reach, far = (
            rays.gone + margin for rays, margin in zip((beside, around), margins, strict=True)
        )
        return Feet(first, bottom, reach, starts, far), sectors

    def _fans(
        self, sectors: Sectors, spots: Floats, bottom: Floats, depth: Floats
    ) -> tuple[_Rays, Ints]:
        """Return rays in sectors, about a pixel apart at their ends on level ground."""
        corner, width = sectors.corner, sectors.width
        with np.errstate(divide="ignore"):
            far = np.abs(depth[corner] / (dot(sectors.gradient, sectors.begin) + sectors.cone))
        steps = np.ceil(width * np.nan_to_num(far, posinf=0.0) / self.pixel)
        steps = np.clip(steps, 1, _MOST_RAYS).astype(np.int64)
        starts = np.append(0, np.cumsum(steps + 1))
        sector = np.repeat(np.arange(len(sectors)), steps + 1)
        turned = (np.arange(len(sector)) - starts[sector]) * (width / steps)[sector]
        angle = np.arctan2(sectors.begin[:, 1], sectors.begin[:, 0])[sector] + turned
        way = np.column_stack([np.cos(angle), np.sin(angle)])
        rate = dot(sectors.gradient[sector], way) + sectors.cone[sector]
        corner = corner[sector]
        with np.errstate(divide="ignore"):
            guess = np.abs(depth[corner] / rate)
        raised = self.edges.raised[self.edges.before[corner]]
        return _Rays(spots[corner], way, bottom[corner], rate, raised, guess), starts

    def _bottoms(self, spots: Floats, zone: Ints, progress: Progress) -> tuple[Floats, Floats]:
        """Return depth and height of the bottom of zones at places."""
        depth, bottom = np.full(len(spots), np.nan), np.full(len(spots), np.nan)
        thick = self.squares[zone]
        for chosen, place in self._groups(spots, np.full(len(spots), 2.0, np.float64), progress):
            window = self.design.window(*place)
            square = bool(thick[chosen].any())
            layers = [window.secants(self.manner.z_scale)] if square else []
            found = window.at(spots[chosen, 0], spots[chosen, 1], layers)
            below = self.depths[zone[chosen]]
            depth[chosen] = below + thick[chosen] * found[1] if square else below
            bottom[chosen] = found[0] - depth[chosen]
        return depth, bottom

    def _gradients(self, spots: Floats, progress: Progress) -> Floats:
        """Return the gradient of the design at places."""
        result = np.zeros((len(spots), 2))
        for chosen, place in self._groups(spots, np.full(len(spots), 2.0), progress):
            window = self.design.window(*place)
            result[chosen] = window.gradient(spots[chosen, 0], spots[chosen, 1])
        return result

    def _follow(self, rays: _Rays, progress: Progress) -> None:
        """Follow rays outwards until each has met the surface, or the end of the data."""
        spots = rays.spots
        halo = np.clip(np.nan_to_num(1.5 * rays.guess / self.pixel), 1.0, 64.0) + float(_EXTRA)
        while not rays.met.all():
            left = np.flatnonzero(~rays.met)
            for group, place in self._groups(spots[left], halo[left], progress):
                self._march(rays, left[group], self.design.window(*place))
            left = np.flatnonzero(~rays.met)
            spent = left[(rays.gone[left] >= FARTHEST * self.pixel) | (halo[left] > FARTHEST)]
            rays.met[spent] = True
            self.given_up += len(spent)
            halo = np.minimum(halo * 3, FARTHEST + _EXTRA)

    def _march(self, rays: _Rays, chosen: Ints, window: Window) -> None:
        surface = self._lowered(window)
        while len(chosen):
            gone = rays.gone[chosen] + self.pixel
            x, y = (rays.spots[chosen] + rays.way[chosen] * gone[:, None]).T
            row, column, _, _, inside = window.cells(x, y)
            grid = window.grid
            beyond = (x / grid.width < 0) | (x / grid.width > grid.columns)
            beyond |= (y / grid.height < 0) | (y / grid.height > grid.rows)
            rays.gone[chosen[beyond]] = gone[beyond]
            rays.met[chosen[beyond]] = True
            going = np.flatnonzero(inside & ~beyond)
            chosen, gone, row, column = chosen[going], gone[going], row[going], column[going]
            rays.gone[chosen] = gone
            corners = [(row + i, column + j) for i in (0, 1) for j in (0, 1)]
            ground = np.stack([surface[corner] for corner in corners])
            height = rays.height[chosen] + gone * rays.rate[chosen]
            raised = rays.raised[chosen]
            met = np.where(raised, height <= ground.min(axis=0), height >= ground.max(axis=0))
            if window.missing is not None:
                for corner in corners:
                    met |= window.missing[corner]
            rays.met[chosen] = met
            chosen = chosen[~met & (gone < FARTHEST * self.pixel)]

    def _lowered(self, window: Window) -> NDArray[np.floating]:
        """Return the heights of a window, its zones lowered."""
        surface = window.heights.copy()
        rows, columns = surface.shape
        spans = self.spans.strip(window.row, rows).clip(window.column, columns)
        # Thickness square to the slope counts as if it were plumb: the bottom may lie lower.
        lower(surface, spans, self.depths + self.squares)
        if self.depths[-1]:
            lower(surface, spans.rest(rows, columns), self.depths)
        return surface

    def _groups(
        self, spots: Floats, halo: Floats, progress: Progress
    ) -> Iterator[tuple[Ints, tuple[int, int, int, int]]]:
        """Yield places that lie together, and the window that holds them with their halo."""
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
            progress(number / len(starts))
            chosen = order[start:stop]
            reach = int(np.ceil(halo[chosen].max())) + 1
            low, high = row[chosen].min() - reach, row[chosen].max() + reach + 1
            left, right = column[chosen].min() - reach, column[chosen].max() + reach + 1
            yield chosen, (int(low), int(left), int(high - low), int(right - left))
