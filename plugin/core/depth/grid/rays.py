"""Ways followed over a design until they meet what is there."""

from collections import deque
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress
from .sides import Sides, settle
from .spans import ZoneSpans, fill, lower
from .windows import Design, Window

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Result = TypeVar("Result")
Where = tuple[int, int, int, int]
"""First row, first column, rows and columns of a window."""

FARTHEST = 1024
"""Pixels after which a side that has met nothing is given up."""

_WORKERS = 2
_BAND = 256
_PIXELS_AT_ONCE = 3_000_000
_EXTRA = 6.0  # pixels read beyond what a side needs over level ground


@dataclass(eq=False)
class Rays:
    """Ways outwards, each from a foot or a corner, all rising or all falling.

    Parameters
    ----------
    spots : (k, 2) float
        Where they begin, counted from the grid's first corner.
    way : (k, 2) float
        Unit vectors.
    rate : (k,) float
        Rise with a unit of way.
    guess : (k,) float
        How far they may go.
    height : (k,) float
        Where they begin; NaN where there is nothing to begin on.
    gone : (k,) float
        How far they have been followed.
    met : (k,) bool
        Whether there is no more to follow.
    """

    spots: Floats
    way: Floats
    rate: Floats
    guess: Floats
    height: Floats = field(init=False)
    gone: Floats = field(init=False)
    met: Mask = field(init=False)

    def __post_init__(self) -> None:
        """Begin with nothing known."""
        self.height = np.full(len(self.spots), np.nan)
        self.gone = np.zeros(len(self.spots))
        self.met = np.zeros(len(self.spots), dtype=bool)

    @staticmethod
    def joined(some: "list[Rays]") -> "Rays":
        """Return rays one after the other."""
        names = ("spots", "way", "rate", "guess")
        result = Rays(*(np.concatenate([getattr(one, name) for one in some]) for name in names))
        for name in ("height", "gone", "met"):
            setattr(result, name, np.concatenate([getattr(one, name) for one in some]))
        return result


class Ground:
    """A design with its zones lowered, over which rays are followed.

    Parameters
    ----------
    design : Design
        The raster.
    spans : ZoneSpans
        Pixels of the zones.
    depths : (k + 1,) float
        How far they are lowered, and last what is outside.
    raised : bool
        Whether it is for the sides of raised zones: those fall, and end at every zone.
    banks : Sides, or None
        Sides of raised zones, with heights for values.
    """

    def __init__(
        self,
        design: Design,
        spans: ZoneSpans,
        depths: Floats,
        raised: bool,
        banks: Sides | None = None,
    ) -> None:
        self.design, self.spans, self.depths, self.raised = design, spans, depths, raised
        self.banks = banks
        self.pixel = min(abs(design.grid.width), abs(design.grid.height))
        self.given_up = 0

    def follow(self, rays: Rays, progress: Progress) -> None:
        """Follow rays outwards until each has met the surface, or the end of the data."""
        spots = rays.spots
        halo = self.halo(rays)
        while not rays.met.all():
            left = np.flatnonzero(~rays.met)

            def march(group: Ints, place: Where, left: Ints = left) -> None:
                window = self.design.window(*place)
                self.march(rays, left[group], window, self.lowered(window))

            self.in_groups(march, spots[left], halo[left], progress)
            left = np.flatnonzero(~rays.met)
            spent = left[(rays.gone[left] >= FARTHEST * self.pixel) | (halo[left] > FARTHEST)]
            rays.met[spent] = True
            self.given_up += len(spent)
            halo = (3.0 * halo).clip(0.0, FARTHEST + _EXTRA)

    def halo(self, rays: Rays) -> Floats:
        """Return pixels to read around the foot of each ray at first."""
        far = np.nan_to_num(1.5 * rays.guess / self.pixel)
        near: Floats = np.minimum(np.maximum(far, 1.0), 64.0) + _EXTRA
        return near

    def march(
        self, rays: Rays, chosen: Ints, window: Window, surface: NDArray[np.floating]
    ) -> None:
        """Follow rays as far as a window goes."""
        grid, most = self.design.grid, FARTHEST * self.pixel
        rows, columns = surface.shape
        scale = np.array([1.0 / grid.width, 1.0 / grid.height])
        first = rays.spots[chosen] * scale - (window.column + 0.5, window.row + 0.5)
        step = rays.way[chosen] * scale
        height, rate, gone = rays.height[chosen], rays.rate[chosen], rays.gone[chosen]
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
            if self.raised:
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

    def lowered(self, window: Window) -> NDArray[np.floating]:
        """Return the heights of a window, its zones lowered in place."""
        surface = np.ascontiguousarray(window.heights)
        rows, columns = surface.shape
        spans = self.spans.strip(window.row, rows).clip(window.column, columns)
        if self.raised:
            fill(surface, spans, np.inf)
        else:
            lower(surface, spans, self.depths)
        if self.depths[-1]:
            lower(surface, spans.rest(rows, columns), self.depths)
        if self.banks is not None:
            inside = np.zeros(surface.shape, dtype=bool)
            fill(inside, spans, True)
            found = self.banks.window(window.row, rows, window.column, columns)
            outer = ~inside.reshape(-1)[found.pixel] & ~np.isnan(found.value)
            settle(surface.reshape(-1), found.take(outer), np.greater)
        return surface

    def in_groups(
        self,
        work: Callable[[Ints, Where], Result],
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

    def _groups(self, spots: Floats, halo: Floats) -> Iterator[tuple[float, Ints, Where]]:
        if not len(spots):
            return
        grid = self.design.grid
        row = np.clip(np.floor(spots[:, 1] / grid.height), 0, grid.rows - 1).astype(np.int64)
        column = np.clip(np.floor(spots[:, 0] / grid.width), 0, grid.columns - 1).astype(np.int64)
        most = int(np.ceil(halo.max()))
        broad = max(_BAND, _PIXELS_AT_ONCE // (_BAND + 2 * most) - 2 * most)
        key = row // _BAND * (grid.columns // broad + 1) + column // broad
        order = np.argsort(key, kind="stable")
        starts = np.flatnonzero(np.append(True, np.diff(key[order]) != 0))
        stops = np.append(starts[1:], len(order))
        for number, (start, stop) in enumerate(zip(starts, stops, strict=True)):
            chosen = order[start:stop]
            reach = int(np.ceil(halo[chosen].max())) + 1
            low, high = row[chosen].min() - reach, row[chosen].max() + reach + 1
            left, right = column[chosen].min() - reach, column[chosen].max() + reach + 1
            place = (int(low), int(left), int(high - low), int(right - left))
            yield number / len(starts), chosen, place
