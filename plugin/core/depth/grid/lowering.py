"""Lower a raster by zones, window by window, and keep count."""

from dataclasses import dataclass, field
from threading import Lock

import numpy as np
import shapely
from numpy.typing import NDArray

from ...grid import Grid
from ...place import Place
from ...progress import Progress, part, silent
from ...tolerance import Tolerance
from ..manner import BatterRule, Manner
from ..zones import Outside, Zones
from .carry import carried
from .edges import Edges, side_edges
from .feet import Survey
from .sides import Sides, SideValues, settle
from .slope import secants
from .spans import Spans, ZoneSpans, count_pixels, fill, lower, missing_pixels
from .tally import Tally
from .windows import Design, Read

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Heights = NDArray[np.floating]

CARRY = 128
"""Rows and columns over which a design is carried on at most."""

_BLOCK = 1024


@dataclass(eq=False)
class Lowering:
    """Turns windows of a design raster into windows of its depth surface.

    Windows are independent of each other: however a raster is cut into them, and in whatever
    order and threads they come, the result is the same, as long as each comes with `halo` more
    pixels on all sides (fewer at the edges of the raster).

    Parameters
    ----------
    zones : Zones
        Disjoint zones, as `resolve` and `widen` give them.
    grid : Grid
        The raster.
    outside : Outside
        What becomes of pixels in no zone.
    depth : float
        Depth of those pixels with ``Outside.USE_DEPTH``.
    nodata : float or None
        Value of pixels without data; NaN always counts as such. Must be given with
        ``Outside.LEAVE_OUT``.
    dtype : numpy dtype
        Type of the result, float32 or float64.
    manner : Manner
        How bottoms end.
    tolerance : Tolerance
        Its snap distance is used where zones have batters.
    carry : int
        Pixels over which the design is carried on where it has no data; 0 to leave such pixels.
    """

    zones: Zones
    grid: Grid
    outside: Outside
    depth: float
    nodata: float | None
    dtype: np.dtype
    manner: Manner = Manner()  # noqa: RUF009 - frozen
    tolerance: Tolerance = Tolerance()  # noqa: RUF009 - frozen
    carry: int = 0
    tally: Tally = field(init=False)

    def __post_init__(self) -> None:
        """Lay the zones over the grid."""
        if self.outside is Outside.LEAVE_OUT and self.nodata is None:
            raise ValueError("leaving out needs a nodata value")
        self.tally = Tally.empty(len(self.zones))
        self._lock = Lock()
        self._spans = ZoneSpans(self.zones.polygons, self.grid)
        self._depths = np.append(self.zones.depths, self.depth).astype(np.float64)
        self._squares = np.append(self.zones.squares, 0.0).astype(np.float64)
        self._cuts: Sides | None = None
        self._raises: Sides | None = None

    @property
    def halo(self) -> int:
        """Pixels that a window needs on all sides of it."""
        if self.carry:
            return self.carry + 1
        return 1 if self._squares.any() else 0

    @property
    def is_laborious(self) -> bool:
        """Whether there is more to do than to lower spans of pixels."""
        return bool(self.carry or self._squares.any() or self.zones.batters.any())

    def survey(self, read: Read, progress: Progress = silent) -> None:
        """Find where the sides of the zones begin, what their feet stand on, how far they go.

        To be called once before the first window, where zones have batters.

        Parameters
        ----------
        read : callable
            Gives a window of the design, from its first column, first row, width and height.
        progress : Progress
            Told the share done.
        """
        around = self.depth if self.outside is Outside.USE_DEPTH else 0.0
        grid = self.grid
        right = grid.left + grid.columns * grid.width
        bottom = grid.top + grid.rows * grid.height
        box = shapely.box(*np.sort([[grid.left, grid.top], [right, bottom]], axis=0).ravel())
        edges = side_edges(self.zones, around, (grid.left, grid.top), box, self.tolerance.snap)
        design = Design(read, grid, self.nodata, self.dtype, self.carry)
        depths = np.append(self._depths[:-1] + self._squares[:-1], around)
        least = min(0.0, float(depths.min(initial=0.0)))
        banks, rest = edges.take(edges.raised), edges.take(~edges.raised)
        if len(banks):
            self._raises = self._laid(banks, design, around, least, part(progress, 0.0, 0.5))
        if len(rest):
            self._cuts = self._laid(rest, design, around, least, part(progress, 0.5, 1.0))

    def _laid(
        self,
        edges: Edges,
        design: Design,
        around: float,
        least: float,
        progress: Progress,
    ) -> Sides:
        manner = self.manner
        rates = 1.0 / (self.zones.batters[edges.zone] * manner.z_scale)
        by_level = manner.rule is BatterRule.LEVEL
        # A side that counts from the design makes its depth less; that of a raised zone, a
        # depth below zero, more. One that counts from the level changes its height.
        rising = ~edges.raised if by_level else edges.raised
        rates = np.where(rising, rates, -rates)
        survey = Survey(design, edges, self.zones, self._spans, around, manner, self._raises)
        feet, sectors = survey.feet(rates, least, progress)
        self.tally.given_up += survey.given_up
        return Sides(edges, feet, sectors, rates, self.grid)

    def window(self, place: Place, window: NDArray) -> Heights:
        """Return the depth surface of a window, and count it.

        Parameters
        ----------
        place : Place
            Where the window lies, and what of it is halo: as much as `halo` asks for, or all
            there is.
        window : (rows, columns) array
            Heights of the design, with those of the halo; a float array of the result's type
            may be changed in place.

        Returns
        -------
        (rows, columns) float
            Without the halo. In pixels without data, the very bits of the window.
        """
        whole = window if window.dtype == self.dtype else window.astype(self.dtype)
        own = place.own(whole.shape)
        heights = np.ascontiguousarray(whole[own])
        rows, columns = heights.shape
        spans = self._spans.strip(place.row, rows).clip(place.column, columns)
        gaps = missing_pixels(whole, self.nodata)
        missing = None if gaps is None or not gaps[own].any() else gaps[own].copy()
        kept = None if missing is None else heights.copy()
        sides = [
            None if one is None else one.window(place.row, rows, place.column, columns)
            for one in (self._raises, self._cuts)
        ]
        slant = None
        if self._squares[spans.zone].any():
            slant = self._secants(whole, gaps, place, spans)
        if self.carry and missing is not None and gaps is not None:
            self._carry_on(whole, gaps, place, heights, missing, spans, sides, slant)
        raises, cuts = (self._as_heights(heights, missing, side) for side in sides)
        lower(heights, spans, self._depths, self._squares, slant)
        rest = spans.rest(rows, columns) if self.outside is not Outside.KEEP else None
        if rest is not None and self.outside is Outside.USE_DEPTH:
            lower(heights, rest, self._depths)
        tally = Tally.empty(len(self.zones))
        on_side = self._set_sides(heights, spans, raises, cuts, tally)
        self._finish(place, heights, kept, missing, spans, rest, on_side, tally)
        with self._lock:
            self.tally.add(tally)
        return heights

    def _secants(self, whole: Heights, gaps: Mask | None, place: Place, spans: Spans) -> Heights:
        """Return sqrt(1 + g^2), of the columns at least in which it is needed."""
        step = (self.grid.width, self.grid.height)
        thick = spans.take(self._squares[spans.zone] != 0.0)
        slant = np.empty(place.size(whole.shape), dtype=whole.dtype)
        rows, columns = slant.shape
        for start, stop in _blocks(thick, columns):
            part = (place.above, place.above + rows, place.left + start, place.left + stop)
            secants(whole, gaps, step, self.manner.z_scale, part, slant[:, start:stop])
        return slant

    def _carry_on(
        self,
        whole: Heights,
        gaps: Mask,
        place: Place,
        heights: Heights,
        missing: Mask,
        spans: Spans,
        sides: list[SideValues | None],
        slant: Heights | None,
    ) -> None:
        """Give pixels without data in zones and on sides heights, in place."""
        wanted = np.zeros(missing.shape, dtype=bool)
        fill(wanted, spans, True)
        for side in sides:
            if side is not None:
                wanted.reshape(-1)[side.pixel] = True
        wanted &= missing
        found: list[tuple[Ints, Ints, Floats, Floats]] = []
        for start in range(0, missing.shape[1], _BLOCK):
            row, column = np.nonzero(wanted[:, start : start + _BLOCK])
            if not len(row):
                continue
            first = place.left + start
            near = slice(max(first - self.halo, 0), first + _BLOCK + self.halo)
            values, squares = carried(
                whole[:, near],
                gaps[:, near],
                row + place.above,
                column + first - near.start,
                self.carry,
                (self.grid.width, self.grid.height),
            )
            found.append((row, column + start, values, squares))
        # Only now: what is carried on must not be carried further.
        for row, column, values, squares in found:
            some = ~np.isnan(values)
            at = row[some], column[some]
            heights[at] = values[some]
            missing[at] = False
            if slant is not None:
                slant[at] = np.sqrt(1.0 + self.manner.z_scale**2 * squares[some])

    def _as_heights(
        self, heights: Heights, missing: Mask | None, side: SideValues | None
    ) -> SideValues:
        """Return the sides with heights instead of depths, where there is a design."""
        if side is None:
            return SideValues.none()
        height = side.value
        if self.manner.rule is BatterRule.DESIGN:
            height = heights.reshape(-1)[side.pixel] - height
        there = ~np.isnan(height)
        if missing is not None:
            there &= ~missing.reshape(-1)[side.pixel]
        return SideValues(side.pixel[there], height[there], side.zone[there])

    def _set_sides(
        self,
        heights: Heights,
        spans: Spans,
        raises: SideValues,
        cuts: SideValues,
        tally: Tally,
    ) -> Ints:
        """Raise and lower pixels to sides, in place; return which ones lie on one."""
        flat = heights.reshape(-1)
        if len(raises.pixel):
            inside = np.zeros(heights.shape, dtype=bool)
            fill(inside, spans, True)
            outer = raises.take(~inside.reshape(-1)[raises.pixel])
            raises = settle(flat, outer, np.greater)
        cuts = settle(flat, cuts, np.less)
        raises = raises.take(raises.value == flat[raises.pixel])
        zone = np.concatenate([raises.zone, cuts.zone])
        tally.sides += np.bincount(zone, minlength=len(self.zones))
        return np.concatenate([raises.pixel, cuts.pixel])

    def _finish(
        self,
        place: Place,
        heights: Heights,
        kept: Heights | None,
        missing: Mask | None,
        spans: Spans,
        rest: Spans | None,
        on_side: Ints,
        tally: Tally,
    ) -> None:
        """Leave out what is to be, put back what has no data, and count."""
        count = len(self.zones)
        if missing is not None and kept is not None and self.carry:
            given = missing_pixels(kept, self.nodata)
            used = ~missing if given is None else given & ~missing
            inside = np.zeros(heights.shape, dtype=bool)
            fill(inside, spans, True)
            tally.bare += int((inside & missing).sum())
            inside.reshape(-1)[on_side] = True
            missing |= used & ~inside
            tally.carried += int((used & inside).sum())
        pixels = count_pixels(spans, count, missing)
        absent = missing
        if rest is not None and self.outside is Outside.USE_DEPTH:
            pixels += count_pixels(rest, count, missing)
        elif rest is not None:
            gone = np.zeros(heights.shape, dtype=bool)
            fill(gone, rest, True)
            gone.reshape(-1)[on_side] = False
            heights[gone] = self.nodata
            absent = gone if missing is None else gone | missing
        if kept is not None:
            np.copyto(heights, kept, where=missing)
        tally.pixels += pixels
        tally.measure(place, heights, absent, self.nodata)


def _blocks(spans: Spans, columns: int) -> list[tuple[int, int]]:
    """Return blocks of columns that hold spans."""
    number = np.arange(0, columns, _BLOCK)
    touched = np.zeros(len(number) + 1, dtype=np.int64)
    np.add.at(touched, spans.start // _BLOCK, 1)
    np.add.at(touched, (spans.stop - 1) // _BLOCK + 1, -1)
    held = np.cumsum(touched)[:-1] > 0
    return [(int(n), int(min(n + _BLOCK, columns))) for n in number[held]]
