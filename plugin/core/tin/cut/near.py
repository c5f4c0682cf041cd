"""The part of a surface that lies near borders, found through a grid of marked cells."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ...runs import count_up
from ..edges import Edges, pair_half_edges

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 16
_MOST_CELLS = 1 << 21


@dataclass(frozen=True, eq=False)
class Marks:
    """Grid cells that borders pass through, with a table of sums for fast counting.

    Parameters
    ----------
    corner : (2,) float
        Lower left corner of the surface and the grid.
    far_corner : (2,) float
        Upper right corner of the surface; the last cells reach beyond it.
    cell : float
        Size of a cell.
    marked : (rows, columns) bool
        Cells near a border. Row 0 is the lowest.
    sums : (rows + 1, columns + 1) int
        Number of marked cells below and left of each grid corner.
    """

    corner: Floats
    far_corner: Floats
    cell: float
    marked: NDArray[np.bool_]
    sums: NDArray[np.int32]

    def cells_of(self, values: Floats, axis: int) -> Ints:
        """Return column (axis 0) or row (axis 1) of coordinates, clipped to the grid."""
        most = self.marked.shape[1 - axis] - 1
        at = np.floor((values - self.corner[axis]) / self.cell)
        return np.clip(at, 0, most).astype(np.int64)


@dataclass(frozen=True, eq=False)
class Band:
    """Faces near borders.

    Parameters
    ----------
    faces : (f,) int
        Their numbers in the surface, ascending.
    corners : (f, 3) int
        Their vertices.
    places : (f, 3) int
        Their vertices; of those with the same plan position always the lowest.
    edges : Edges
        Their edges; face numbers in it count within the band.
    edge_places : (e, 2) int
        Places of the ends of the edges.
    boxes : (f, 4) float
        Lowest x, y and highest x, y of the faces.
    """

    faces: Ints
    corners: Ints
    places: Ints
    edges: Edges
    edge_places: Ints
    boxes: Floats


def mark_cells(xy: Floats, faces: int, starts: Floats, stops: Floats, margin: float) -> Marks:
    """Mark the cells of a grid over the surface that segments come near.

    Parameters
    ----------
    xy : (n, 2) float
        Plan positions of the vertices.
    faces : int
        Number of faces; it sets the size of a cell.
    starts, stops : (s, 2) float
        Ends of the segments.
    margin : float
        All that is nearer than this to a segment lies in marked cells.
    """
    low, high = xy.min(axis=0), xy.max(axis=0)
    extent = np.maximum(high - low, 4 * margin)
    cell = max(float(np.sqrt(extent.prod() / min(max(faces, 1 << 12), _MOST_CELLS))), 4 * margin)
    cell = max(cell, float(extent.max()) / (1 << 14))
    columns, rows = (np.floor(extent / cell) + 1).astype(int)
    marked = np.zeros((rows, columns), dtype=bool)
    first, last, _ = _pieces(starts, stops, cell)
    box_low = np.floor((np.minimum(first, last) - margin - low) / cell).astype(np.int64)
    box_high = np.floor((np.maximum(first, last) + margin - low) / cell).astype(np.int64)
    for right in range(3):
        for up in range(3):
            at = box_low + np.array((right, up))
            inside = (at <= box_high).all(axis=1) & (at >= 0).all(axis=1)
            inside &= (at < (columns, rows)).all(axis=1)
            marked[at[inside, 1], at[inside, 0]] = True
    sums = np.zeros((rows + 1, columns + 1), dtype=np.int32)
    np.cumsum(np.cumsum(marked, axis=0, dtype=np.int32), axis=1, out=sums[1:, 1:])
    return Marks(low, high, cell, marked, sums)


def faces_near(xy: Floats, faces: Ints, marks: Marks) -> NDArray[np.bool_]:
    """Tell which faces have a marked cell in their box, (m,) bool."""
    near = np.empty(len(faces), dtype=bool)
    column = marks.cells_of(xy[:, 0], 0).astype(np.int32)
    row = marks.cells_of(xy[:, 1], 1).astype(np.int32)
    for begin in range(0, len(faces), _BLOCK):
        some = faces[begin : begin + _BLOCK]
        x, y = column.take(some), row.take(some)
        left, right = _span(x)
        down, up = _span(y)
        sums = marks.sums
        count = sums[up, right] - sums[down, right] - sums[up, left] + sums[down, left]
        near[begin : begin + _BLOCK] = count > 0
    return near


def _span(cells: NDArray[np.int32]) -> tuple[NDArray[np.int32], NDArray[np.int32]]:
    """Return the first and one past the last cell of each row of three."""
    # Column by column: a reduction along so short an axis takes several times as long.
    a, b, c = cells.T
    return np.minimum(np.minimum(a, b), c), np.maximum(np.maximum(a, b), c) + 1


def band_of(xy: Floats, faces: Ints, near: NDArray[np.bool_]) -> Band:
    """Gather the faces near borders, with their edges."""
    chosen = np.flatnonzero(near)
    corners = faces[chosen]
    edges = pair_half_edges(corners)
    place = _places(xy, corners)
    points = xy[corners]
    boxes = np.hstack((points.min(axis=1), points.max(axis=1)))
    return Band(chosen, corners, place[corners], edges, place[edges.ends], boxes)


def _places(xy: Floats, corners: Ints) -> Ints:
    """Return for each vertex the lowest one in use with the same plan position."""
    place = np.arange(len(xy))
    used = np.unique(corners)
    order = used[np.lexsort((used, xy[used, 1], xy[used, 0]))]
    same = (xy[order[1:]] == xy[order[:-1]]).all(axis=1)
    if same.any():
        first = np.maximum.accumulate(np.where(np.append(False, same), 0, np.arange(len(order))))
        place[order] = order[first]
    return place


class Pairing:
    """Which faces and edges of a band each segment may meet, kept while segments change.

    Parameters
    ----------
    xy : (n, 2) float
        Vertices of the surface.
    band : Band
        Faces near borders.
    longest : float
        Segments longer than this are searched in pieces.
    margin : float
        Things whose boxes are nearer than this are paired.
    """

    def __init__(self, xy: Floats, band: Band, longest: float, margin: float) -> None:
        self._xy = xy
        self._band = band
        self._longest = longest
        self._margin = margin
        self._tree = shapely.STRtree(shapely.box(*band.boxes.T))
        self.faces = np.empty((0, 2), dtype=np.int64)  # face, name of the segment; in order of it
        self.edges = np.empty((0, 2), dtype=np.int64)  # edge, name of the segment; in order of it

    def add(self, names: Ints, starts: Floats, stops: Floats) -> None:
        """Pair segments with new names, each higher than all before."""
        if not len(names):
            return
        band, margin = self._band, self._margin
        first, last, segment = _pieces(starts, stops, self._longest)
        low, high = np.minimum(first, last) - margin, np.maximum(first, last) + margin
        piece, face = self._tree.query(shapely.box(low[:, 0], low[:, 1], high[:, 0], high[:, 1]))
        count = len(band.faces)
        key = np.unique(segment[piece] * count + face)
        segment, face = key // count, key % count
        count = len(band.edges.ends)
        key = np.unique((segment[:, None] * count + band.edges.face_edges[face]).ravel())
        edge_segment, edge = key // count, key % count
        one, other = (self._xy[band.edges.ends[edge, end]] for end in (0, 1))
        low, high = np.minimum(starts, stops) - margin, np.maximum(starts, stops) + margin
        meet = (np.minimum(one, other) <= high[edge_segment]).all(axis=1)
        meet &= (np.maximum(one, other) >= low[edge_segment]).all(axis=1)
        edge, edge_segment = edge[meet], edge_segment[meet]
        self.faces = np.vstack((self.faces, np.column_stack((face, names[segment]))))
        self.edges = np.vstack((self.edges, np.column_stack((edge, names[edge_segment]))))

    def of(self, names: Ints, faces: bool = False) -> tuple[Ints, Ints]:
        """Return (face or edge, row in ``names``) of all pairs of some segments."""
        pairs = self.faces if faces else self.edges
        begin = np.searchsorted(pairs[:, 1], names, side="left")
        count = np.searchsorted(pairs[:, 1], names, side="right") - begin
        row = np.repeat(np.arange(len(names)), count)
        offset = count_up(count)
        return pairs[begin[row] + offset, 0], row


def _pieces(starts: Floats, stops: Floats, longest: float) -> tuple[Floats, Floats, Ints]:
    """Divide segments into pieces no longer than a length; return them and whose they are."""
    length = np.hypot(*(stops - starts).T)
    count = np.maximum(np.ceil(length / longest), 1).astype(np.int64)
    owner = np.repeat(np.arange(len(starts)), count)
    step = count_up(count)
    share = step / count[owner]
    way = (stops - starts)[owner]
    first = starts[owner] + share[:, None] * way
    last = starts[owner] + ((step + 1) / count[owner])[:, None] * way
    return first, last, owner
