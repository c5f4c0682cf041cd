"""Heights and faces of a surface at the centres of the pixels of a grid."""

from collections.abc import Iterator
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ...grid import Grid
from ..mesh import Tin
from .border import BorderCentres, Side
from .spans import FaceRows, FaceSpans

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_PIXELS = 1 << 18


class Scan:
    """A surface laid on a grid, strip by strip.

    The height of a pixel is that of the surface at the pixel's *centre*. Which face a centre
    belongs to: the one it lies in; on a side along which two faces meet, the face in the columns
    before it (the left one), and where the side runs along the row the face in the following
    rows (the lower one); on the border of the surface, the face there. Where faces lie over one
    another, the highest (of equally high ones the first). A pixel depends on nothing but its
    centre and the surface: strips of any height give the same bits, and so do faces, and corners
    of faces, in any order.

    Heights are worked out between the points where a row meets the sides of a face, in double
    precision, and lie within the heights of these sides: the error is that of the coordinates
    themselves, also on faces that are all but upright.

    Parameters
    ----------
    tin : Tin
        The surface.
    grid : Grid
        The raster.
    """

    def __init__(self, tin: Tin, grid: Grid) -> None:
        self.tin, self.grid = tin, grid
        self._place = grid.pixels(tin.vertices)
        self._heights = np.ascontiguousarray(tin.vertices[:, 2])
        self._rows = FaceRows(self._place, self._heights, tin.faces, grid.columns, grid.rows)

    def heights(self, first_row: int, rows: int) -> Floats:
        """Return the heights of some whole rows, (rows, columns) float, NaN off the surface.

        Parameters
        ----------
        first_row, rows : int
            First row and number of rows; they must lie in the grid.
        """
        return self._strip(first_row, rows, None)

    def heights_and_faces(self, first_row: int, rows: int) -> tuple[Floats, Ints]:
        """Return heights, and the face each was read from (-1 off the surface), likewise."""
        faces = np.full((rows, self.grid.columns), -1, dtype=np.int64)
        return self._strip(first_row, rows, faces), faces

    def _strip(self, first_row: int, rows: int, faces: Ints | None) -> Floats:
        heights = np.full((rows, self.grid.columns), np.nan)
        flat = heights.reshape(-1)
        of_face = None if faces is None else faces.reshape(-1)
        written = 0
        for spans in self._rows.strip(first_row, rows):
            for pixel, height, face in _pixels(
                spans, first_row, self.grid.columns, faces is not None
            ):
                flat[pixel] = height
                written += len(pixel)
                if of_face is not None:
                    of_face[pixel] = face
        if written != flat.size - int(np.count_nonzero(np.isnan(flat))):
            self._settle(first_row, rows, flat, of_face)
        self._close(first_row, rows, flat, of_face)
        return heights

    def _settle(self, first_row: int, rows: int, flat: Floats, of_face: Ints | None) -> None:
        """Give each pixel the highest of the faces over it, and the first of these."""
        columns = self.grid.columns
        for spans in self._rows.strip(first_row, rows):
            for pixel, height, _ in _pixels(spans, first_row, columns, False):
                np.fmax.at(flat, pixel, height)
        if of_face is None:
            return
        of_face[:] = -1
        free = np.iinfo(np.int64).max
        for spans in self._rows.strip(first_row, rows):
            for pixel, height, face in _pixels(spans, first_row, columns, True):
                top = np.flatnonzero(height == flat[pixel])
                on = pixel[top]
                of_face[on] = np.where(of_face[on] < 0, free, of_face[on])
                np.minimum.at(of_face, on, face[top])

    def _close(self, first_row: int, rows: int, flat: Floats, of_face: Ints | None) -> None:
        """Add the centres on the border that no span holds."""
        row, column, height, face = self._border.strip(first_row, rows)
        pixel = (row - first_row) * self.grid.columns + column
        # Of several sides that end in a centre the highest and, among these, the first face is
        # written last.
        free = np.flatnonzero(np.isnan(flat[pixel]))
        order = free[np.lexsort((-face[free], height[free]))]
        flat[pixel[order]] = height[order]
        if of_face is not None:
            of_face[pixel[order]] = face[order]

    @cached_property
    def _border(self) -> BorderCentres:
        edges, grid = self.tin.edges, self.grid
        border = edges.boundary
        ends = edges.ends[border]
        sides = Side(self._place[ends], self._heights[ends], edges.faces[border].max(axis=1))
        pixel = abs(grid.width), abs(grid.height)
        # Beside the coordinates' own rounding, that of their turning into pixels.
        slack = self.tin.rounding + 4.0 * max(
            size * float(np.spacing(float(count)))
            for size, count in zip(pixel, (grid.columns, grid.rows), strict=True)
        )
        return BorderCentres(sides, pixel, slack, grid.columns, grid.rows)


def _pixels(
    spans: FaceSpans, first_row: int, columns: int, faces: bool
) -> Iterator[tuple[Ints, Floats, Ints]]:
    """Yield number in the strip, height and (if wanted) face of pixels, some at a time."""
    ends = np.cumsum(spans.count)
    base = (spans.row - first_row) * columns + spans.start
    at = 0
    while at < len(ends):
        done = ends[at - 1] if at else 0
        until = max(int(np.searchsorted(ends, done + _PIXELS, side="right")), at + 1)
        some = slice(at, until)
        count = spans.count[some]
        owner = np.repeat(np.arange(len(count)), count)
        within = np.arange(len(owner)) - (ends[some] - count - done).take(owner)
        height = within * spans.step[some].take(owner)
        height += spans.first[some].take(owner)
        face = spans.face[some].take(owner) if faces else owner
        within += base[some].take(owner)
        yield within, height, face
        at = until
