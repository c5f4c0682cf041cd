"""Depth surfaces on a grid: zones as spans of pixels, lowered window by window.

A pixel belongs to a zone when its centre lies in it. A centre exactly on a border belongs to
the zone before it in its row (the left one), and on a border along the row to the zone in the
following rows (the lower one): of two zones that share a border exactly one gets it.
``gdal_rasterize`` rounds the same way; only at a border that runs exactly through the centres of
a row may it also give them to the zone above.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ...grid import Grid
from ...runs import count_up

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Spans:
    """Runs of pixels in one row each, sorted by row and column; no two share a pixel.

    Parameters
    ----------
    row : (k,) int
        Row, counted from the first row of the window.
    start, stop : (k,) int
        First column, and the one after the last.
    zone : (k,) int
        Index of the zone.
    """

    row: Ints
    start: Ints
    stop: Ints
    zone: Ints

    def __len__(self) -> int:
        """Return the number of spans."""
        return len(self.row)

    def rest(self, rows: int, columns: int) -> "Spans":
        """Return what these spans leave of a window, as spans of zone -1."""
        turn = columns + 1
        ends = np.arange(rows) * turn
        start = np.sort(np.concatenate([ends, self.row * turn + self.stop]))
        stop = np.sort(np.concatenate([ends + columns, self.row * turn + self.start]))
        real = start < stop
        row = start[real] // turn
        return Spans(row, start[real] - row * turn, stop[real] - row * turn, np.full(len(row), -1))

    def take(self, chosen: NDArray) -> "Spans":
        """Return some of these spans, by number or mask."""
        return Spans(self.row[chosen], self.start[chosen], self.stop[chosen], self.zone[chosen])

    def clip(self, first: int, columns: int) -> "Spans":
        """Return the spans in some columns, counted from the first of them."""
        start = np.clip(self.start - first, 0, columns)
        stop = np.clip(self.stop - first, 0, columns)
        return Spans(self.row, start, stop, self.zone).take(start < stop)


class ZoneSpans:
    """The pixels of zones, for any rows of a grid.

    The crossings of all borders with the centre line of each row are worked out at once, the
    same way whatever rows are asked for together.

    Parameters
    ----------
    polygons : (k,) shapely Polygon or MultiPolygon
        Zones; empty and missing ones have no pixels. Should two cover the same centre by a
        rounding, the one that begins farther left keeps it.
    grid : Grid
        The raster.
    """

    def __init__(self, polygons: NDArray[np.object_], grid: Grid) -> None:
        self.grid = grid
        parts, zone = shapely.get_parts(np.asarray(polygons, dtype=object), return_index=True)
        rings, part = shapely.get_rings(parts, return_index=True)
        corners, ring = shapely.get_coordinates(rings, return_index=True)
        x = (corners[:, 0] - grid.left) / grid.width
        y = (corners[:, 1] - grid.top) / grid.height
        side = np.flatnonzero(ring[1:] == ring[:-1])
        # Every side from its upper to its lower end: shared sides give equal crossings.
        upper = np.where(y[side] < y[side + 1], side, side + 1)
        lower = 2 * side + 1 - upper
        self._x, self._y = x[upper], y[upper]
        self._dx, self._dy = x[lower] - x[upper], y[lower] - y[upper]
        # Rows whose centre r + 0.5 lies at or below the upper end and above the lower one.
        first = np.ceil(np.clip(y[upper] - 0.5, 0, grid.rows)).astype(np.int64)
        last = np.ceil(np.clip(y[lower] - 0.5, 0, grid.rows)).astype(np.int64)
        self._zone = zone.astype(np.int64)[part[ring[side]]]
        kept = np.flatnonzero(first < last)
        self._first, self._last = first[kept], last[kept]
        for name in ("_x", "_y", "_dx", "_dy", "_zone"):
            setattr(self, name, getattr(self, name)[kept])

    def strip(self, first_row: int, rows: int) -> Spans:
        """Return the spans of some rows.

        Parameters
        ----------
        first_row, rows : int
            First row and number of rows; they must lie in the grid.
        """
        near = np.flatnonzero((self._first < first_row + rows) & (self._last > first_row))
        begin = np.maximum(self._first[near], first_row)
        count = np.minimum(self._last[near], first_row + rows) - begin
        side = np.repeat(near, count)
        within = count_up(count)
        row = np.repeat(begin, count) + within
        # Multiplied first: a border at 45 degrees through centres then meets them exactly.
        crossing = (row + 0.5 - self._y[side]) * self._dx[side] / self._dy[side] + self._x[side]
        # A centre c + 0.5 lies right of a crossing when c >= floor(crossing + 0.5).
        columns = self.grid.columns
        column = np.clip(np.floor(crossing + 0.5), 0, columns).astype(np.int64)
        zone = self._zone[side]
        order = np.lexsort((crossing, zone, row))
        start, stop = column[order[0::2]], column[order[1::2]]
        return _disjoint(row[order[0::2]] - first_row, start, stop, zone[order[0::2]], columns)


def _disjoint(row: Ints, start: Ints, stop: Ints, zone: Ints, columns: int) -> Spans:
    """Sort spans by row and column, and cut each where an earlier one still runs."""
    real = np.flatnonzero(start < stop)
    order = real[np.lexsort((zone[real], start[real], row[real]))]
    row, start, stop, zone = row[order], start[order], stop[order], zone[order]
    turn = columns + 1
    reach = np.maximum.accumulate(row * turn + stop)
    start[1:] = np.maximum(row[1:] * turn + start[1:], reach[:-1]) - row[1:] * turn
    left = start < stop
    return Spans(row[left], start[left], stop[left], zone[left])


def lower(
    window: NDArray[np.floating],
    spans: Spans,
    depths: Floats,
    squares: Floats | None = None,
    secants: NDArray[np.floating] | None = None,
) -> None:
    """Lower the pixels of spans, in place.

    Each height becomes height less depth, worked out in double precision and rounded once to
    the type of the window. Pixels without data are lowered like the others: keep them with
    `missing_kept`.

    Parameters
    ----------
    window : (rows, columns) float
        Heights, float32 or float64; C-contiguous.
    spans : Spans
        What to lower.
    depths : (k,) float
        Depth of each zone, positive down; the last one is that of zone -1.
    squares : (k,) float, or None
        Thickness at right angles to the surface that comes on top of it, likewise.
    secants : (rows, columns) float, or None
        What turns such a thickness into a plumb depth, in the type of the window; not needed
        where no span has a thickness. Is used up.
    """
    if squares is not None and secants is not None:
        thick = squares[spans.zone] != 0.0
        _lower_square(window, spans.take(thick), depths, squares, secants)
        spans = spans.take(~thick)
    # One-element arrays instead of numbers make numpy work in float64 without further words,
    # and there may be hundreds of thousands of spans.
    of_span = depths[spans.zone]
    flat = window.reshape(-1)
    base = spans.row * window.shape[1]
    starts, stops = (base + spans.start).tolist(), (base + spans.stop).tolist()
    subtract = np.subtract
    for number, (start, stop) in enumerate(zip(starts, stops, strict=True)):
        part = flat[start:stop]
        subtract(part, of_span[number : number + 1], part)


def _lower_square(
    window: NDArray[np.floating],
    spans: Spans,
    depths: Floats,
    squares: Floats,
    secants: NDArray[np.floating],
) -> None:
    kind = window.dtype.type
    flat, slant = window.reshape(-1), secants.reshape(-1)
    base = spans.row * window.shape[1]
    for start, stop, depth, square in zip(
        (base + spans.start).tolist(),
        (base + spans.stop).tolist(),
        depths[spans.zone].astype(kind),
        squares[spans.zone].astype(kind),
        strict=True,
    ):
        plumb = slant[start:stop]
        np.multiply(plumb, square, out=plumb)
        if depth:
            plumb += depth
        part = flat[start:stop]
        np.subtract(part, plumb, part)


def fill(window: NDArray, spans: Spans, value: float | None) -> None:
    """Set the pixels of spans to a value, in place."""
    for row, start, stop in zip(
        spans.row.tolist(), spans.start.tolist(), spans.stop.tolist(), strict=True
    ):
        window[row, start:stop] = value


def count_pixels(spans: Spans, zones: int, missing: NDArray[np.bool_] | None) -> Ints:
    """Count the pixels with data of each zone.

    Parameters
    ----------
    spans : Spans
        Spans of a window.
    zones : int
        Number of zones.
    missing : (rows, columns) bool, or None
        Pixels without data; None when all have data.

    Returns
    -------
    (zones + 1,) int
        Pixels of each zone, and last those of spans of zone -1.
    """
    length = spans.stop - spans.start
    if missing is not None:
        columns = missing.shape[1]
        so_far = np.zeros(missing.size + 1, dtype=np.int64)
        np.cumsum(missing, dtype=np.int64, out=so_far[1:])
        base = spans.row * columns
        length = length - (so_far[base + spans.stop] - so_far[base + spans.start])
    zone = np.where(spans.zone < 0, zones, spans.zone)
    return np.bincount(zone, length, minlength=zones + 1).astype(np.int64)


def missing_pixels(window: NDArray[np.floating], nodata: float | None) -> NDArray[np.bool_] | None:
    """Return where a window has no data (its nodata value, and NaN); None when nowhere."""
    value = np.nan if nodata is None else float(window.dtype.type(nodata))
    # A minimum that is NaN tells of one; most windows need no more than these two passes.
    lowest = float(window.min(initial=np.inf))
    if not np.isnan(lowest) and not lowest <= value <= float(window.max(initial=-np.inf)):
        return None
    missing = np.isnan(window)
    missing |= window == value
    return missing if missing.any() else None
