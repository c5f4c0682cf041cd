"""Lower a raster by zones, strip by strip, and keep count."""

from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from ...grid import Grid
from ...progress import Progress, silent
from ...tolerance import Tolerance
from ..manner import BatterRule, Manner
from ..zones import Outside, Zones
from .carry import carried
from .edges import Edges, side_edges
from .feet import Survey, even_feet
from .sides import Sides, SideValues
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

_BLOCK = 512


@dataclass(eq=False)
class Lowering:
    """Turns strips of a design raster into strips of its depth surface.

    Strips are independent of each other: however a raster is cut into them, and in whatever
    order they come, the result is the same, as long as each comes with `halo` more rows above
    and below (fewer at the first and the last row).

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
        count = len(self.zones)
        self.tally = Tally(np.zeros(count + 1, dtype=np.int64), np.zeros(count, dtype=np.int64))
        self._spans = ZoneSpans(self.zones.polygons, self.grid)
        self._depths = np.append(self.zones.depths, self.depth).astype(np.float64)
        self._squares = np.append(self.zones.squares, 0.0).astype(np.float64)
        self._cuts: Sides | None = None
        self._raises: Sides | None = None

    @property
    def halo(self) -> int:
        """Rows above and below that a strip needs."""
        if self.carry:
            return self.carry + 1
        return 1 if self._squares.any() else 0

    def survey(self, read: Read, progress: Progress = silent) -> None:
        """Find where the sides of the zones begin, what their feet stand on, how far they go.

        To be called once before the first strip where zones have batters.

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
        for name, part in (
            ("_cuts", edges.take(~edges.raised)),
            ("_raises", edges.take(edges.raised)),
        ):
            if not len(part):
                continue
            self._lay(name, part, design, around, least, progress)

    def _lay(
        self,
        name: str,
        edges: Edges,
        design: Design,
        around: float,
        least: float,
        progress: Progress,
    ) -> None:
        manner = self.manner
        rates = 1.0 / (self.zones.batters[edges.zone] * manner.z_scale)
        by_level = manner.rule is BatterRule.LEVEL
        # A side that counts from the design makes its depth less; that of a raised zone, a
        # depth below zero, more. One that counts from the level changes its height.
        rising = ~edges.raised if by_level else edges.raised
        rates = np.where(rising, rates, -rates)
        if by_level or self._squares[edges.zone].any():
            survey = Survey(design, edges, self.zones, self._spans, around, manner)
            feet, sectors = survey.feet(rates, least, progress)
            self.tally.given_up += survey.given_up
        else:
            feet, sectors = even_feet(edges, self._depths[edges.zone], rates, least, manner)
        setattr(self, name, Sides(edges, feet, sectors, rates, self.grid))

    def strip(self, first_row: int, window: NDArray, above: int = 0, below: int = 0) -> Heights:
        """Return the depth surface of some whole rows, and count them.

        Parameters
        ----------
        first_row : int
            Row of the raster the strip begins with.
        window : (above + rows + below, columns) array
            Heights of the design, with those of the halo; a float array of the result's type is
            changed in place.
        above, below : int
            Rows of the halo: as many as `halo` asks for, or all there are.

        Returns
        -------
        (rows, columns) float
            In pixels without data, the very bits of the window.
        """
        whole = window if window.dtype == self.dtype else window.astype(self.dtype)
        own = slice(above, len(whole) - below)
        heights = whole[own]
        spans = self._spans.strip(first_row, len(heights))
        gaps = missing_pixels(whole, self.nodata)
        missing = None if gaps is None or not gaps[own].any() else gaps[own].copy()
        kept = None if missing is None else heights.copy()
        sides = [
            SideValues.none() if one is None else one.strip(first_row, len(heights))
            for one in (self._raises, self._cuts)
        ]
        slant = None
        if self._squares[spans.zone].any():
            slant = self._secants(whole, gaps, own, spans)
        if self.carry and missing is not None and gaps is not None:
            self._carry_on(whole, gaps, missing, above, spans, sides, slant)
        places = self._places(heights, missing, sides)
        lower(heights, spans, self._depths, self._squares, slant)
        rest = spans.rest(*heights.shape) if self.outside is not Outside.KEEP else None
        if rest is not None and self.outside is Outside.USE_DEPTH:
            lower(heights, rest, self._depths)
        on_side = self._set_sides(heights, spans, places)
        self._finish(first_row, heights, kept, missing, spans, rest, on_side)
        return heights

    def _secants(self, whole: Heights, gaps: Mask | None, own: slice, spans: Spans) -> Heights:
        """Return sqrt(1 + g^2), of the columns at least in which it is needed."""
        step = (self.grid.width, self.grid.height)
        thick = spans.take(self._squares[spans.zone] != 0.0)
        slant = np.empty(whole[own].shape, dtype=whole.dtype)
        for start, stop in _blocks(thick, whole.shape[1]):
            left, right = max(start - 1, 0), min(stop + 1, whole.shape[1])
            missing = None if gaps is None else gaps[:, left:right]
            block = secants(whole[:, left:right], missing, step, self.manner.z_scale)
            slant[:, start:stop] = block[own, start - left : stop - left]
        return slant

    def _carry_on(
        self,
        whole: Heights,
        gaps: Mask,
        missing: Mask,
        above: int,
        spans: Spans,
        sides: list[SideValues],
        slant: Heights | None,
    ) -> None:
        """Give pixels without data in zones and on sides heights, in place."""
        wanted = np.zeros(missing.shape, dtype=bool)
        fill(wanted, spans, True)
        for side in sides:
            wanted.reshape(-1)[side.pixel] = True
        wanted &= missing
        step = (self.grid.width, self.grid.height)
        columns = missing.shape[1]
        heights = whole[above : above + len(missing)]
        found: list[tuple[Ints, Ints, Floats, Floats]] = []
        for start in range(0, columns, _BLOCK):
            row, column = np.nonzero(wanted[:, start : start + _BLOCK])
            if not len(row):
                continue
            left, right = max(start - self.halo, 0), min(start + _BLOCK + self.halo, columns)
            values, squares = carried(
                whole[:, left:right],
                gaps[:, left:right],
                row + above,
                column + start - left,
                self.carry,
                step,
            )
            found.append((row, column + start, values, squares))
        # Only now: what is carried on must not be carried further.
        for row, column, values, squares in found:
            some = ~np.isnan(values)
            place = row[some], column[some]
            heights[place] = values[some]
            missing[place] = False
            if slant is not None:
                slant[place] = np.sqrt(1.0 + self.manner.z_scale**2 * squares[some])

    def _places(
        self, heights: Heights, missing: Mask | None, sides: list[SideValues]
    ) -> list[SideValues]:
        """Return the sides with heights instead of depths, where there is a design."""
        result = []
        for side in sides:
            height = side.value
            if self.manner.rule is BatterRule.DESIGN:
                height = heights.reshape(-1)[side.pixel] - height
            there = ~np.isnan(height)
            if missing is not None:
                there &= ~missing.reshape(-1)[side.pixel]
            result.append(SideValues(side.pixel[there], height[there], side.zone[there]))
        return result

    def _set_sides(self, heights: Heights, spans: Spans, places: list[SideValues]) -> Mask | None:
        """Raise and lower pixels to sides, in place; return which ones lie on one."""
        raises, cuts = places
        if not len(raises.pixel) and not len(cuts.pixel):
            return None
        flat = heights.reshape(-1)
        owner = np.full(flat.shape, -1, dtype=np.int32)
        if len(raises.pixel):
            inside = np.zeros(heights.shape, dtype=bool)
            fill(inside, spans, True)
            _settle(flat, raises.take(~inside.reshape(-1)[raises.pixel]), owner, np.greater)
        _settle(flat, cuts, owner, np.less)
        on_side = owner >= 0
        self.tally.sides += np.bincount(owner[on_side], minlength=len(self.zones))
        return on_side.reshape(heights.shape)

    def _finish(
        self,
        first_row: int,
        heights: Heights,
        kept: Heights | None,
        missing: Mask | None,
        spans: Spans,
        rest: Spans | None,
        on_side: Mask | None,
    ) -> None:
        """Leave out what is to be, put back what has no data, and count."""
        count = len(self.zones)
        if missing is not None and kept is not None and self.carry:
            given = missing_pixels(kept, self.nodata)
            used = ~missing if given is None else given & ~missing
            inside = np.zeros(heights.shape, dtype=bool)
            fill(inside, spans, True)
            self.tally.bare += int((inside & missing).sum())
            if on_side is not None:
                inside |= on_side
            missing |= used & ~inside
            self.tally.carried += int((used & inside).sum())
        pixels = count_pixels(spans, count, missing)
        absent = missing
        if rest is not None and self.outside is Outside.USE_DEPTH:
            pixels += count_pixels(rest, count, missing)
        elif rest is not None:
            gone = np.zeros(heights.shape, dtype=bool)
            fill(gone, rest, True)
            if on_side is not None:
                gone &= ~on_side
            heights[gone] = self.nodata
            absent = gone if missing is None else gone | missing
        if kept is not None:
            np.copyto(heights, kept, where=missing)
        self.tally.pixels += pixels
        self.tally.measure(first_row, heights, absent, self.grid, self.nodata)


def _settle(flat: Heights, values: SideValues, owner: NDArray[np.int32], beats: np.ufunc) -> None:
    """Set each pixel to the best that sides say about it, in place, where that beats it."""
    height = values.value.astype(flat.dtype)
    won = np.flatnonzero(beats(height, flat[values.pixel]))
    pixel, height, zone = values.pixel[won], height[won], values.zone[won]
    left = np.arange(len(pixel))
    while len(left):  # of several values for one pixel numpy keeps one
        flat[pixel[left]] = height[left]
        left = left[beats(height[left], flat[pixel[left]])]
    best = np.flatnonzero(height == flat[pixel])
    # Of equally good ones numpy keeps the last: that of the first zone.
    best = best[np.argsort(-zone[best], kind="stable")]
    owner[pixel[best]] = zone[best]


def _blocks(spans: Spans, columns: int) -> list[tuple[int, int]]:
    """Return blocks of columns that hold spans."""
    number = np.arange(0, columns, _BLOCK)
    touched = np.zeros(len(number) + 1, dtype=np.int64)
    np.add.at(touched, spans.start // _BLOCK, 1)
    np.add.at(touched, (spans.stop - 1) // _BLOCK + 1, -1)
    held = np.cumsum(touched)[:-1] > 0
    return [(int(n), int(min(n + _BLOCK, columns))) for n in number[held]]
