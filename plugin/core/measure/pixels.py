"""The ground of a raster by class of a difference: every pixel with data is a prism."""

import numpy as np
import shapely
from numpy.typing import NDArray

from ..depth.grid.spans import ZoneSpans
from ..grid import Grid
from ..outlines import polygons_of_borders
from ..tin.overlay import Figures
from .classes import Book, Classes, Sums

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class Prisms:
    """Takes a difference in strips of rows, from the first to the last.

    A pixel counts with its whole area, for the zone that holds its centre.

    Parameters
    ----------
    grid : Grid
        The raster.
    polygons : (k,) object
        Disjoint zones; none at all for all ground.
    classes : Classes
        The classes.
    less : (k + 1,) float, optional
        Height taken off the difference in each zone, the last outside all.
    group : (c,) or (k + 1, c) int, optional
        Group of each class, in each zone, for outlines; none are made when left out.
    """

    def __init__(
        self,
        grid: Grid,
        polygons: NDArray[np.object_],
        classes: Classes,
        *,
        less: Floats | None = None,
        group: Ints | None = None,
    ) -> None:
        self.grid, self.polygons, self.classes = grid, polygons, classes
        self._zones = len(polygons)
        self._spans = ZoneSpans(polygons, grid) if self._zones else None
        self._less = np.zeros(self._zones + 1) if less is None else less
        self._book = Book(self._zones + 1, len(classes))
        self._missing = np.zeros(self._zones + 1, dtype=np.int64)
        shape = (self._zones + 1, len(classes))
        self._group = None if group is None else np.broadcast_to(group, shape)
        self._above = np.full(grid.columns, -1, dtype=np.int64)
        self._across: list[Ints] = []
        self._down: list[Ints] = []

    def add(self, first_row: int, difference: Floats) -> tuple[Floats, Ints]:
        """Take the next rows, (rows, columns) float, NaN where a surface is missing.

        Returns
        -------
        (rows, columns) float
            The difference less what is taken off it in its zone.
        (rows, columns) int
            Zone of each pixel, the number of zones outside all.
        """
        rows, columns = difference.shape
        zone = np.full((rows, columns), self._zones, dtype=np.int64)
        if self._spans is not None:
            for row, start, stop, owner in self._runs(first_row, rows):
                zone[row, start:stop] = owner
        off = difference - self._less[zone] if self._less.any() else difference
        number = self.classes.of(off.ravel()).reshape(off.shape)
        known = number >= 0
        self._missing += np.bincount(zone[~known], minlength=self._zones + 1)
        area = np.full(np.count_nonzero(known), self.grid.pixel_area)
        height = off[known]
        self._book.add(zone[known], number[known], area, area * height, height, height)
        if self._group is not None:
            groups = int(self._group.max()) + 1
            label = zone * groups + self._group[zone, number]
            self._trace(first_row, np.where(known, label, -1))
        return off, zone

    def _runs(self, first_row: int, rows: int) -> list[tuple[int, int, int, int]]:
        assert self._spans is not None
        spans = self._spans.strip(first_row, rows)
        columns = (spans.row, spans.start, spans.stop, spans.zone)
        return list(zip(*(values.tolist() for values in columns), strict=True))

    def _trace(self, first_row: int, label: Ints) -> None:
        """Note the sides of pixels with another label beyond them."""
        stacked = np.concatenate((self._above[None], label))
        row, column = np.nonzero(stacked[1:] != stacked[:-1])
        self._across.append(
            np.stack((row + first_row, column, stacked[row, column], label[row, column]), axis=1)
        )
        beside = np.pad(label, ((0, 0), (1, 1)), constant_values=-1)
        row, column = np.nonzero(beside[:, 1:] != beside[:, :-1])
        self._down.append(
            np.stack(
                (column, row + first_row, beside[row, column], beside[row, column + 1]), axis=1
            )
        )
        self._above = label[-1].copy()

    def sums(self) -> Sums:
        """Return the figures of each zone (the last is outside all) and class."""
        return self._book.sums()

    def missing(self) -> Floats:
        """Return the plan area of each zone where a surface is missing, (k,) float."""
        pixels = self._missing[: self._zones] * self.grid.pixel_area
        if not self._zones:
            return pixels
        beyond = shapely.difference(self.polygons, shapely.box(*self.grid.extent))
        return pixels + shapely.area(beyond)

    def outlines(self) -> NDArray[np.object_]:
        """Return the outline of each zone and group, (k + 1, g) object; None where none is."""
        assert self._group is not None
        last = np.flatnonzero(self._above >= 0)
        rows, nothing = np.full(len(last), self.grid.rows), np.full(len(last), -1)
        self._across.append(np.stack((rows, last, self._above[last], nothing), axis=1))
        across, down = _joined(np.concatenate(self._across)), _joined(np.concatenate(self._down))
        self._across, self._down = [], []
        turn = self.grid.columns + 1
        first = across[:, 0] * turn + across[:, 1], down[:, 1] * turn + down[:, 0]
        stop = across[:, 0] * turn + across[:, 4], down[:, 4] * turn + down[:, 0]
        corner, ends = np.unique(
            np.stack((np.concatenate(first), np.concatenate(stop)), axis=1), return_inverse=True
        )
        points = np.column_stack((
            self.grid.left + corner % turn * self.grid.width,
            self.grid.top + corner // turn * self.grid.height,
        ))  # fmt: skip
        # Along a row what is above lies left when columns run east and rows run south.
        above, below = np.split(np.concatenate((across[:, 2:4], down[:, [3, 2]])), 2, axis=1)
        if self.grid.width * self.grid.height > 0:
            above, below = below, above
        groups = int(self._group.max()) + 1
        shapes = polygons_of_borders(
            points, ends.reshape(-1, 2), above[:, 0], below[:, 0], (self._zones + 1) * groups
        )
        return shapes.reshape(self._zones + 1, groups)


def _joined(sides: Ints) -> Ints:
    """Join sides that follow one another on a line and part the same; add where each stops.

    Parameters
    ----------
    sides : (s, 4) int
        Line, place on it, and what lies on either side.

    Returns
    -------
    (j, 5) int
        Line, first place, what lies on either side, place after the last.
    """
    order = np.lexsort((sides[:, 1], sides[:, 0]))
    sides = sides[order]
    new = np.ones(len(sides), dtype=bool)
    new[1:] = (sides[1:] - sides[:-1] != (0, 1, 0, 0)).any(axis=1)
    first = np.flatnonzero(new)
    last = np.append(first[1:], len(sides)) - 1 if len(first) else first
    return np.column_stack((sides[first], sides[last, 1] + 1))


def figures_of(sums: Sums, z_scale: float) -> Figures:
    """Return cut and fill of each zone, of the classes 0 below, 1 above and 2 level.

    Parameters
    ----------
    sums : Sums
        Figures by sign.
    z_scale : float
        Plan units in one unit of height.
    """
    below, above, level = sums.volume.T * z_scale
    with np.errstate(all="ignore"):
        least, most = np.fmin.reduce(sums.least, axis=1), np.fmax.reduce(sums.most, axis=1)
    return Figures(
        sums.area.sum(axis=1),
        sums.area[:, 1],
        sums.area[:, 0],
        np.maximum(above, 0.0) + np.maximum(level, 0.0),
        np.maximum(-below, 0.0) + np.maximum(-level, 0.0),
        least,
        most,
    )
