"""Triangles of the pieces: at once where nothing is in the way, else of a common drawing.

What pieces leave each other is worked out piece by piece, so that the lines they meet in agree
but for rounding. Their outlines are therefore noded together on a very fine grid; places that
are known keep their numbers, and the cells of the drawing are cut into triangles.
"""

import numpy as np
import shapely
from numpy.typing import NDArray

from ...runs import count_up
from ..cut.pieces import Rings
from ..cut.triangulate import LARGEST, triangulate_rings
from ..weld import same_place
from .pieces import Pieces, Points

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Shapes = NDArray[np.object_]


def plain_triangles(points: Points, pieces: Pieces, rows: Ints, exact: Mask) -> tuple[Ints, Ints]:
    """Cut pieces that nothing changed into triangles.

    Parameters
    ----------
    points, pieces
        What they are.
    rows : (k,) int
        Which pieces.
    exact : (n,) bool
        Points that lie in the planes of all their pieces.

    Returns
    -------
    triangles : (t, 3) int
        Points, counter-clockwise.
    edge : (t,) int
        Edge of the border each belongs to.
    """
    strip = rows[pieces.nodes[rows, 0] != pieces.nodes[rows, 1]]
    fan = rows[pieces.nodes[rows, 0] == pieces.nodes[rows, 1]]
    quads = pieces.corner[pieces.start[strip][:, None] + np.arange(4)]
    one = (points.xy[quads[:, 0]] - points.xy[quads[:, 2]]) ** 2
    other = (points.xy[quads[:, 1]] - points.xy[quads[:, 3]]) ** 2
    # The triangle at the edge keeps the plane wherever one of the outer corners does.
    third, fourth = exact[quads[:, 2]], exact[quads[:, 3]]
    by_third = np.where(third == fourth, one.sum(axis=1) <= other.sum(axis=1), third)
    turned = np.where(by_third[:, None], quads, np.roll(quads, -1, axis=1))
    halves = np.concatenate([turned[:, [0, 1, 2]], turned[:, [0, 2, 3]]])
    count = pieces.start[fan + 1] - pieces.start[fan] - 2
    owner = np.repeat(fan, count)
    within = count_up(count)
    hub = pieces.start[owner]
    parts = np.stack([hub, hub + within + 1, hub + within + 2], axis=1)
    triangles = np.concatenate([halves, pieces.corner[parts]])
    edge = np.concatenate([pieces.edge[strip], pieces.edge[strip], pieces.edge[owner]])
    return triangles, edge


def drawn_triangles(
    points: Points, pieces: Pieces, rows: Ints, left: Shapes, loose: Shapes, grid: float
) -> tuple[Floats, Ints, Ints]:
    """Cut what is left of pieces into triangles that fit without cracks.

    Parameters
    ----------
    points, pieces
        What they are.
    rows : (k,) int
        Which pieces: those that lost something, and all of their edges and the edges beside.
    left : (p,) shapely Polygon
        What is left of each piece.
    loose : (f,) shapely Polygon
        What else may be covered, by whichever piece lies beside it.
    grid : float
        Grid of the drawing, far below any width that matters.

    Returns
    -------
    xy : (j, 2) float
        Points that are new in the drawing; they follow the known ones.
    triangles : (t, 3) int
        Points, counter-clockwise.
    edge : (t,) int
        Edge of the border each belongs to.
    """
    rows = rows[~shapely.is_empty(left[rows])]
    nothing = np.zeros((0, 2)), np.zeros((0, 3), dtype=np.int64), np.zeros(0, dtype=np.int64)
    if len(rows) == 0:
        return nothing
    outlines = shapely.boundary(np.concatenate([left[rows], loose]))
    cells = shapely.get_parts(shapely.polygonize([shapely.union_all(outlines, grid_size=grid)]))
    piece = _owners(pieces, rows, left, cells)
    if len(loose):
        piece = _adopted(piece, cells, loose)
    cells, piece = cells[piece >= 0], piece[piece >= 0]
    if len(cells) == 0:
        return nothing
    rings, cell = shapely.get_rings(cells, return_index=True)
    node, ring = shapely.get_coordinates(rings, return_index=True)
    known = np.unique(np.concatenate([pieces.corners_of(row) for row in rows.tolist()]))
    merged = same_place(np.concatenate([points.xy[known], node]), 0.75 * grid)[len(known) :]
    fresh = np.unique(merged[merged >= len(known)])
    number = np.concatenate([known, np.full(len(node), -1)])
    number[fresh] = len(points.xy) + np.arange(len(fresh))
    place = np.concatenate([points.xy[known], node])
    cells, piece = _redrawn(place[merged], ring, cell, piece)
    triangles, owner = _cut(cells)
    corner = same_place(
        np.concatenate([place[: len(known)], place[fresh], triangles.reshape(-1, 2)]), 0.0
    )
    ids = np.concatenate([known, number[fresh]])
    taken = ids[corner[len(ids) :]].reshape(-1, 3)
    return place[fresh], taken, pieces.edge[piece[owner]]


def _owners(pieces: Pieces, rows: Ints, left: Shapes, cells: Shapes) -> Ints:
    """Return the piece each cell belongs to, (c,) int, -1 for none."""
    inside = shapely.point_on_surface(cells)
    cell, row = shapely.STRtree(left[rows]).query(inside, predicate="intersects")
    piece = rows[row]
    xy = shapely.get_coordinates(inside)[cell]
    measure = (pieces.measure[piece] * (xy - pieces.origin[piece])).sum(axis=1)
    order = np.lexsort((piece, measure, cell))[::-1]  # the nearest is written last
    owner = np.full(len(cells), -1, dtype=np.int64)
    owner[cell[order]] = piece[order]
    return owner


def _adopted(piece: Ints, cells: Shapes, loose: Shapes) -> Ints:
    """Return the owners with those of loose cells: the owner beside along the longest side."""
    piece = piece.copy()
    orphans = np.flatnonzero(piece < 0)
    inside = shapely.point_on_surface(cells[orphans])
    found = np.unique(shapely.STRtree(loose).query(inside, predicate="intersects")[0])
    free = np.zeros(len(cells), dtype=bool)
    free[orphans[found]] = True
    one, other, length = _sides(cells)
    while True:
        ready = free[one] & (piece[one] < 0) & (piece[other] >= 0)
        if not ready.any():
            return piece
        key, back = np.unique(
            np.column_stack([one[ready], piece[other[ready]]]), axis=0, return_inverse=True
        )
        shared = np.bincount(back.ravel(), length[ready])
        order = np.lexsort((-key[:, 1], shared))  # the longest, and the first piece, come last
        piece[key[order, 0]] = key[order, 1]


def _sides(cells: Shapes) -> tuple[Ints, Ints, Floats]:
    """Return the pairs of cells that share a side, both ways round, and the length of the side."""
    rings, cell = shapely.get_rings(cells, return_index=True)
    node, ring = shapely.get_coordinates(rings, return_index=True)
    number = same_place(node, 0.0)
    start = np.flatnonzero(ring[1:] == ring[:-1])
    ends = np.sort(np.column_stack([number[start], number[start + 1]]), axis=1)
    owner = cell[ring[start]]
    order = np.lexsort((ends[:, 1], ends[:, 0]))
    same = np.flatnonzero((ends[order[1:]] == ends[order[:-1]]).all(axis=1))
    one, other = owner[order[same]], owner[order[same + 1]]
    run = node[start[order[same]] + 1] - node[start[order[same]]]
    length = np.hypot(run[:, 0], run[:, 1])
    return (
        np.concatenate([one, other]),
        np.concatenate([other, one]),
        np.concatenate([length, length]),
    )


def _redrawn(xy: Floats, ring: Ints, cell: Ints, piece: Ints) -> tuple[Shapes, Ints]:
    """Return the cells with their corners moved back to where they are known to be."""
    fresh = np.ones(len(xy), dtype=bool)
    fresh[1:] = (xy[1:] != xy[:-1]).any(axis=1) | (ring[1:] != ring[:-1])
    xy, ring = xy[fresh], ring[fresh]
    sound = np.bincount(ring, minlength=len(cell)) >= 4
    keep = sound[ring]
    rings = shapely.linearrings(xy[keep], indices=(np.cumsum(sound) - 1)[ring[keep]])
    # The first ring of a cell is its outer one; with that gone the cell is.
    of_cell = cell[sound]
    polygons = np.asarray(shapely.polygons(rings), dtype=object)
    first = np.unique(of_cell, return_index=True)[1]
    for start, stop in zip(first.tolist(), [*first[1:].tolist(), len(rings)], strict=True):
        if stop - start > 1:
            polygons[start] = shapely.polygons(rings[start], holes=rings[start + 1 : stop])
    cells, owner = polygons[first], piece[of_cell[first]]
    good = shapely.is_valid(cells)
    return cells[good], owner[good]


def _cut(cells: Shapes) -> tuple[Floats, Ints]:
    """Return triangles (t, 3, 2), counter-clockwise, and the cell of each."""
    cells = shapely.orient_polygons(cells, exterior_cw=False)
    size = shapely.get_num_coordinates(cells) - 1
    plain = np.flatnonzero((shapely.get_num_interior_rings(cells) == 0) & (size <= LARGEST))
    start = np.concatenate([[0], np.cumsum(size[plain])])
    corner, ring = shapely.get_coordinates(cells[plain], return_index=True)
    last = np.append(ring[1:] != ring[:-1], True)[: len(ring)]
    corner = corner[~last]
    rings = Rings(np.arange(len(corner)), start, np.arange(len(plain)))
    nodes, owner, failed = triangulate_rings(rings, corner, None)
    others = np.setdiff1d(np.arange(len(cells)), np.delete(plain, failed))
    found, of = [corner[nodes]], [plain[owner]]
    for cell in others.tolist():
        more = _delaunay(cells[cell])
        found.append(more)
        of.append(np.full(len(more), cell))
    return np.concatenate(found), np.concatenate(of)


def _delaunay(cell: shapely.Polygon) -> Floats:
    """Return the triangles of one cell, (t, 3, 2); none where rounding has spoilt it."""
    try:
        parts = shapely.get_parts(shapely.constrained_delaunay_triangles(cell))
    except shapely.GEOSException:
        return np.zeros((0, 3, 2))
    xy = shapely.get_coordinates(parts).reshape(-1, 4, 2)[:, :3]
    one, other = xy[:, 1] - xy[:, 0], xy[:, 2] - xy[:, 0]
    doubled = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    xy[doubled < 0.0, 1:] = xy[doubled < 0.0, :0:-1].copy()
    return xy[np.abs(doubled) > 0.0]
