"""What lies at the foot of sides, and how far they go.

Feet are taken along every edge at distances of at most one pixel; between two the bottom is
straight. A side that counts from the level is followed outwards, pixel by pixel, from each foot
and around each corner, until it has met what is there: from then on it is no more. One that
counts from the design ends by itself, as its depth does.
"""

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, part
from ...runs import count_up
from ...vectors import dot
from ..manner import BatterRule, Manner
from ..zones import Zones
from .corners import Sectors, sectors_of
from .edges import Edges
from .inner import Labels, at_border
from .rays import Ground, Rays, Where
from .sides import Feet, Sides
from .spans import ZoneSpans
from .windows import Design

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

_MOST_RAYS = 64


class Survey:
    """Finds the feet of sides on a design; all of cuts, or all of raised zones.

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
    banks : Sides, or None
        Sides of raised zones, which those of cuts meet.
    """

    def __init__(
        self,
        design: Design,
        edges: Edges,
        zones: Zones,
        spans: ZoneSpans,
        around: float,
        manner: Manner,
        banks: Sides | None = None,
    ) -> None:
        self.edges, self.zones, self.manner = edges, zones, manner
        self.depths = np.append(zones.depths, around).astype(np.float64)
        self.squares = np.append(zones.squares, 0.0).astype(np.float64)
        self.raised = bool(edges.raised.any())
        # Thickness square to the slope counts as if it were plumb: the bottom may lie lower.
        deep = self.depths + self.squares
        self.labels = Labels(spans, len(zones))
        self.ground = Ground(design, spans, deep, self.raised, banks)

    @property
    def given_up(self) -> int:
        """Feet whose side met nothing within reach."""
        return self.ground.given_up

    def feet(self, rates: Floats, other: float, progress: Progress) -> tuple[Feet, Sectors]:
        """Return the feet of sides, and what lies between them.

        Parameters
        ----------
        rates : (k,) float
            Change of depth (rule ``design``) or of height (rule ``level``) with a unit of plan
            distance, of each edge.
        other : float
            Least depth that sides may have to meet: 0, or less where others are raised.
        progress : Progress
            Told the share done.
        """
        if self.manner.rule is BatterRule.DESIGN:
            return self._by_design(rates, other, progress)
        return self._by_level(rates, progress)

    def _spaced(self, dense: Mask) -> tuple[Ints, Ints, Floats]:
        """Return the first foot of each edge, and edge and place of all feet."""
        edges, pixel = self.edges, self.ground.pixel
        gaps = np.where(dense, np.maximum(1, np.ceil(edges.length / pixel)), 1).astype(np.int64)
        first = np.append(0, np.cumsum(gaps + 1))
        edge = np.repeat(np.arange(len(edges)), gaps + 1)
        share = (np.arange(len(edge)) - first[edge]) / gaps[edge]
        return first, edge, edges.start[edge] + share[:, None] * (edges.stop - edges.start)[edge]

    def _by_level(self, rates: Floats, progress: Progress) -> tuple[Feet, Sectors]:
        edges = self.edges
        first, edge, spots = self._spaced(np.ones(len(edges), dtype=bool))
        zone = edges.zone[edge]
        guess = np.abs((self.depths[zone] + self.squares[zone]) / rates[edge])
        rays = Rays(spots, edges.out[edge], rates[edge], guess)
        rays.met[:] = ~edges.active[edge]
        last = first[edges.before + 1] - 1
        sectors, around, starts = self._stand(rays, zone, last, rates, part(progress, 0.0, 0.8))
        self.ground.follow(rays, part(progress, 0.8, 0.9))
        self.ground.follow(around, part(progress, 0.9, 1.0))
        reach, far = (self._past(some) for some in (rays, around))
        return Feet(first, rays.height, reach, starts, far), sectors

    def _past(self, rays: Rays) -> Floats:
        """Return how far rays go, and a pixel more: that far heights decide."""
        return rays.gone + self.ground.pixel * (rays.gone > 0)

    def _by_design(self, rates: Floats, other: float, progress: Progress) -> tuple[Feet, Sectors]:
        edges = self.edges
        first, edge, spots = self._spaced(self.squares[edges.zone] != 0)
        depth = self._depths(spots, edges.zone[edge], progress)
        corners = np.arange(len(edges.turn))
        sectors = sectors_of(edges, corners, np.zeros((len(corners), 2)), rates, self.manner)
        foot = (first[edges.before + 1] - 1)[sectors.corner]
        far = np.empty((len(sectors), 2))
        for side, way in enumerate((sectors.begin, sectors.end)):
            rate = dot(sectors.gradient, way) + sectors.cone
            far[:, side] = _reach(depth[foot], rate, other)
        reach = np.nan_to_num(_reach(depth, rates[edge], other))
        starts = 2 * np.arange(len(sectors) + 1)
        return Feet(first, depth, reach, starts, np.nan_to_num(far.ravel())), sectors

    def _depths(self, spots: Floats, zone: Ints, progress: Progress) -> Floats:
        """Return the depth of bottoms at places on borders."""
        depth = self.depths[zone]
        slanted = np.flatnonzero(self.squares[zone])
        steep = spots[slanted]

        def find(group: Ints, place: Where) -> None:
            chosen = slanted[group]
            slopes = self.ground.design.window(*place).gradient(*steep[group].T)
            depth[chosen] += self.squares[zone[chosen]] * self._secants(slopes)

        self.ground.in_groups(find, steep, np.full(len(steep), 2.0), progress)
        return depth

    def _secants(self, slopes: Floats) -> Floats:
        secants: Floats = np.sqrt(1.0 + self.manner.z_scale**2 * dot(slopes, slopes))
        return secants

    def _stand(
        self, rays: Rays, zone: Ints, last: Ints, rates: Floats, progress: Progress
    ) -> tuple[Sectors, Rays, Ints]:
        """Find the bottoms rays stand on, and follow them as far as that takes no more reading.

        Returns the sectors of the corners, of which ``last`` are the rays before, and the rays
        around them: those themselves, and the number of the first one of each sector.
        """
        edges, spots = self.edges, rays.spots
        corner_of = np.full(len(spots), -1, dtype=np.int64)
        corner_of[last] = np.arange(len(last))

        def find(chosen: Ints, place: Where) -> tuple[Sectors, tuple[Rays, Ints]]:
            window = self.ground.design.window(*place)
            labels = self.labels.of(window)
            own = zone[chosen]
            heights = at_border(window, labels, own, spots[chosen], rays.way[chosen])
            below = self.depths[own] + self.squares[own]
            slanted = np.flatnonzero(self.squares[own])
            slopes = window.gradient(*spots[chosen[slanted]].T)
            below[slanted] += self.squares[own[slanted]] * (self._secants(slopes) - 1.0)
            rays.height[chosen] = heights - below
            rays.met[chosen] |= np.isnan(heights)
            corners = corner_of[chosen]
            corners = corners[corners >= 0]
            slopes = window.gradient(*spots[last[corners]].T)
            along = np.column_stack(
                [dot(slopes, edges.way[some[corners]]) for some in (edges.before, edges.after)]
            )
            sectors = sectors_of(edges, corners, along, rates, self.manner)
            around, count = self._fans(sectors, rays, last)
            surface = self.ground.lowered(window)
            self.ground.march(rays, chosen[~rays.met[chosen]], window, surface)
            self.ground.march(around, np.flatnonzero(~around.met), window, surface)
            return sectors, (around, count)

        found = self.ground.in_groups(find, spots, self.ground.halo(rays), progress)
        counts = np.concatenate([count for _, (_, count) in found])
        return (
            Sectors.joined([sectors for sectors, _ in found]),
            Rays.joined([around for _, (around, _) in found]),
            np.append(0, np.cumsum(counts)),
        )

    def _fans(self, sectors: Sectors, rays: Rays, last: Ints) -> tuple[Rays, Ints]:
        """Return rays in sectors, about a pixel apart at their ends, and how many each has."""
        width, foot = sectors.width, last[sectors.corner]
        with np.errstate(divide="ignore", invalid="ignore"):
            rate = dot(sectors.gradient, sectors.begin) + sectors.cone
            far = np.nan_to_num(np.abs(rays.guess[foot] * rays.rate[foot] / rate), posinf=0.0)
        count = (
            np.clip(np.ceil(width * far / self.ground.pixel), 1, _MOST_RAYS).astype(np.int64) + 1
        )
        sector = np.repeat(np.arange(len(sectors)), count)
        within = count_up(count)
        turned = within * (width / (count - 1))[sector]
        angle = np.arctan2(sectors.begin[:, 1], sectors.begin[:, 0])[sector] + turned
        way = np.column_stack([np.cos(angle), np.sin(angle)])
        rate = dot(sectors.gradient[sector], way) + sectors.cone[sector]
        foot = foot[sector]
        with np.errstate(divide="ignore", invalid="ignore"):
            guess = np.nan_to_num(np.abs(rays.guess[foot] * rays.rate[foot] / rate))
        around = Rays(rays.spots[foot], way, rate, guess)
        around.height = rays.height[foot]
        around.met = np.isnan(around.height)
        return around, count


def _reach(depths: Floats, rates: Floats, other: float) -> Floats:
    """Return how far sides go whose value is a depth."""
    with np.errstate(divide="ignore"):
        reach: Floats = np.where(depths > 0, depths - other, -depths) / np.abs(rates)
    return reach
