"""What pieces leave each other where they get in each other's way, or in the way of the surface.

Every piece has a distance that grows evenly away from the border. Where two overlap, each keeps
what is nearer by its own distance. Neighbours round an inward corner meet there; the sides of a
bay, of a hole, or of two parts of the surface keep a gap, so that nothing joins them.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ...progress import Progress
from .border import Border
from .corners import SLIP, Corners
from .pieces import Pieces

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Shapes = NDArray[np.object_]

_FACING = np.radians(135.0)  # two edges whose directions turn so far inward face each other
_NEAR = 4.0  # distances along the border within which edges count as neighbours
_LEVEL = 1e-9


@dataclass(frozen=True, eq=False)
class Conflicts:
    """Which pieces meet what.

    Parameters
    ----------
    one, other : (k,) int
        Pieces that overlap, each pair once.
    joined : (k,) bool
        Whether they meet as neighbours; else they keep a gap.
    width : (k,) float
        Plan distance of their edges.
    blocked, edge : (j,) int
        Pieces, and the edges of the border in their way.
    beside : (j,) bool
        Whether that edge is a neighbour round a corner.
    clear : (j,) float
        Plan distance of that edge from the piece's own.
    """

    one: Ints
    other: Ints
    joined: Mask
    width: Floats
    blocked: Ints
    edge: Ints
    beside: Mask
    clear: Floats

    def gaps(self, gap: float) -> tuple[Floats, Floats]:
        """Return the gaps that pairs of pieces, and pieces and edges, keep.

        Nothing may eat from a piece's own edge, so that very near things get a smaller one.
        """
        between = np.where(self.joined, 0.0, np.minimum(gap, 0.25 * self.width))
        return between, np.minimum(gap, 0.25 * self.clear)


def find_conflicts(
    border: Border, corners: Corners, pieces: Pieces, wanted: Mask, distance: float
) -> Conflicts:
    """Return where pieces meet other pieces, or edges of the border, that they do not belong to."""
    tree = shapely.STRtree(pieces.shape)
    one, other = tree.query(pieces.shape, predicate="intersects")
    keep = (one < other) & (pieces.edge[one] != pieces.edge[other])
    # Pieces of one corner share a side, unless the corner is open.
    closed = np.where(
        corners.open[pieces.nodes], -1 - np.arange(len(pieces))[:, None], pieces.nodes
    )
    keep &= ~(closed[one][:, :, None] == closed[other][:, None, :]).any(axis=(1, 2))
    one, other = one[keep], other[keep]
    joined = _neighbours(border, corners, wanted, pieces.edge[one], pieces.edge[other], distance)
    lines = border.lines
    width = shapely.distance(lines[pieces.edge[one]], lines[pieces.edge[other]])
    blocked, edge = shapely.STRtree(lines).query(pieces.shape, predicate="intersects")
    nodes = np.where(corners.open[pieces.nodes], -1, pieces.nodes)
    beside = np.column_stack([nodes, np.where(nodes < 0, -1, border.before[nodes])])
    away = (beside[blocked] != edge[:, None]).all(axis=1) & (pieces.edge[blocked] != edge)
    blocked, edge = blocked[away], edge[away]
    near = _neighbours(border, corners, wanted, pieces.edge[blocked], edge, distance)
    clear = shapely.distance(lines[edge], lines[pieces.edge[blocked]])
    return Conflicts(one, other, joined, width, blocked, edge, near, clear)


def _neighbours(
    border: Border, corners: Corners, wanted: Mask, one: Ints, other: Ints, distance: float
) -> Mask:
    """Tell which pairs of edges are neighbours round a corner, with no bay between them."""
    pairs, back = np.unique(
        np.sort(np.column_stack([one, other]), axis=1), axis=0, return_inverse=True
    )
    # Border edges follow one another in their loop.
    length = border.lengths
    run = np.cumsum(length)
    same = border.loop[pairs[:, 0]] == border.loop[pairs[:, 1]]
    first = np.searchsorted(border.loop, border.loop)
    size = np.bincount(border.loop)[border.loop]
    found = same & (
        (border.after[pairs[:, 0]] == pairs[:, 1]) | (border.before[pairs[:, 0]] == pairs[:, 1])
    )
    around = np.bincount(border.loop, length)[border.loop]
    between = run[pairs[:, 1]] - length[pairs[:, 1]] - run[pairs[:, 0]]
    other_way = around[pairs[:, 0]] - between - length[pairs[:, 0]] - length[pairs[:, 1]]
    near = same & ~found & (np.minimum(between, other_way) <= _NEAR * distance)
    for row in np.flatnonzero(near).tolist():
        low, high = pairs[row].tolist()
        if between[row] > other_way[row]:
            low, high = high, low + int(size[low])
        base, count = int(first[pairs[row, 0]]), int(size[pairs[row, 0]])
        edges = base + (np.arange(low, high + 1) - base) % count
        turned = np.concatenate([[0.0], np.cumsum(corners.turn[edges[1:]])])
        inward = (np.maximum.accumulate(turned) - turned).max()
        found[row] = inward < _FACING and turned[-1] < _FACING and bool(wanted[edges].all())
    return found[back.ravel()]


def leave(
    border: Border,
    corners: Corners,
    pieces: Pieces,
    conflicts: Conflicts,
    gap: float,
    grid: float,
    progress: Progress,
) -> tuple[Shapes, Shapes]:
    """Return what is left of each piece, and what is left beside.

    Parameters
    ----------
    border, corners, pieces, conflicts
        As `find_conflicts` takes and gives them.
    gap : float
        How far pieces keep from what they do not join.
    grid : float
        Grid of the results' coordinates, far below any width that matters: on a grid no
        rounding keeps apart what meets, or holds together what is parted.
    progress : Progress
        Told the share done.

    Returns
    -------
    left : (p,) shapely Polygon
        What is left of each piece and hangs together with its edge.
    loose : (f,) shapely Polygon
        Parts of pieces that others have cut off from their edge.
    """
    seen = pieces.shape.copy()
    lines = border.lines
    between, before = conflicts.gaps(gap)
    walls = shapely.buffer(lines[conflicts.edge], before, quad_segs=2)
    touch = np.flatnonzero(conflicts.clear == 0.0)
    walls[touch] = _wedges(
        border, corners, pieces.edge[conflicts.blocked[touch]], conflicts.edge[touch]
    )
    for piece, rows in _grouped(conflicts.blocked):
        wall = shapely.union_all(walls[rows], grid_size=grid)
        rest = shapely.difference(seen[piece], wall, grid_size=grid)
        seen[piece] = _attached(rest, pieces.anchor[piece], grid)
        progress(0.0)
    one = np.concatenate([conflicts.one, conflicts.other])
    other = np.concatenate([conflicts.other, conflicts.one])
    apart = np.concatenate([between, between])
    cutters = _nearer(pieces, seen, one, other, apart, grid)
    left = seen.copy()
    loose = [np.zeros(0, dtype=object)]
    groups = _grouped(one)
    for number, (piece, rows) in enumerate(groups):
        taken = shapely.union_all(_areas(cutters[rows]), grid_size=grid)
        rest = shapely.difference(seen[piece], taken, grid_size=grid)
        left[piece] = _attached(rest, pieces.anchor[piece], grid)
        parts = _areas(rest)
        real = shapely.area(parts) > gap * shapely.length(parts)  # no slivers
        loose.append(parts[real & ~shapely.equals(parts, left[piece])])
        progress(number / len(groups))
    return left, np.concatenate(loose)


def _wedges(border: Border, corners: Corners, own: Ints, edge: Ints) -> Shapes:
    """Return thin triangles before edges that begin where the own edge ends, or end there."""
    follows = border.after[own] == edge
    start, stop = border.start[edge, :2], border.stop[edge, :2]
    hub = np.where(follows[:, None], start, stop)
    far = np.where(follows[:, None], stop, start)
    run = far - hub
    outside = np.pi + corners.turn[np.where(follows, edge, own)]
    angle = np.minimum(SLIP, 0.25 * outside) * np.where(follows, -1.0, 1.0)
    outward = angle[:, None] * np.column_stack([-run[:, 1], run[:, 0]])
    wedges = shapely.polygons(np.stack([hub, far, far + outward], axis=1))
    wedges[~(follows | (border.before[own] == edge))] = shapely.Polygon()
    return wedges


def _nearer(
    pieces: Pieces, seen: Shapes, one: Ints, other: Ints, apart: Floats, grid: float
) -> Shapes:
    """Return the part of other pieces that is theirs and not the first one's, (k,) Polygon."""
    change = pieces.measure[other] - pieces.measure[one]
    size = np.hypot(change[:, 0], change[:, 1])
    low = shapely.bounds(pieces.shape[one])
    middle = 0.5 * (low[:, :2] + low[:, 2:])
    reach = 2.0 * np.hypot(low[:, 2] - low[:, 0], low[:, 3] - low[:, 1])
    value = (pieces.measure[other] * (middle - pieces.origin[other])).sum(axis=1)
    value -= (pieces.measure[one] * (middle - pieces.origin[one])).sum(axis=1)
    even = size < _LEVEL
    wins = (value < -_LEVEL) | ((np.abs(value) <= _LEVEL) & (other < one))
    way = np.where(even[:, None], [1.0, 0.0], change / np.where(even, 1.0, size)[:, None])
    stop = np.where(
        even, np.where(wins, reach, -reach), 0.5 * apart - value / np.where(even, 1.0, size)
    )
    stop = np.clip(stop, -reach, reach)
    side = np.column_stack([-way[:, 1], way[:, 0]])
    back, forth = -reach[:, None] * way, stop[:, None] * way
    wide = reach[:, None] * side
    corners = np.stack([back - wide, forth - wide, forth + wide, back + wide], axis=1)
    half_planes = shapely.polygons(corners + middle[:, None])
    half_planes[stop <= -reach] = shapely.Polygon()
    grown = seen[other]
    some = apart > 0.0
    grown[some] = shapely.buffer(grown[some], apart[some], join_style="mitre")
    return shapely.intersection(grown, half_planes, grid_size=grid)


def _attached(shape: shapely.Geometry, anchor: Floats, grid: float) -> shapely.Geometry:
    """Return the part of a shape that holds a point of its border; an empty one if none does."""
    parts = _areas(shape)
    near = parts[shapely.distance(parts, shapely.points(anchor)) <= 2.0 * grid]
    if len(near) == 0:
        return shapely.Polygon()
    return near[shapely.area(near).argmax()]


def _areas(shapes: Shapes | shapely.Geometry) -> Shapes:
    """Return the polygons in shapes."""
    parts = shapely.get_parts(shapely.get_parts(shapes))
    return parts[shapely.get_dimensions(parts) == 2]


def _grouped(of: Ints) -> list[tuple[int, Ints]]:
    """Return each value with the rows it stands in."""
    if len(of) == 0:
        return []
    order = np.argsort(of, kind="stable")
    values, starts = np.unique(of[order], return_index=True)
    return list(zip(values.tolist(), np.split(order, starts[1:]), strict=True))
