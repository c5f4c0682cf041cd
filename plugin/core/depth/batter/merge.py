"""Undoing what splitting has cut needlessly, and triangulating what is left.

Cells of one face that have the same facet become one ring, and new nodes on straight lines that
nothing ends at any more are dropped. Rings then become triangles, without new nodes.
"""

import numpy as np
import shapely
from numpy.typing import NDArray

from ...tin.cut.pieces import Rings
from ...tin.cut.triangulate import LARGEST, triangulate_rings
from ...tin.weld import hang_together
from .cells import FRAME, PLAN, Cells, spans
from .splits import edge_keys

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_NONE = -1
_TRIES = 3


def triangles_of(cells: Cells, old_nodes: int, straight: float) -> tuple[Ints, Ints, int]:
    """Return the triangles of cells.

    Parameters
    ----------
    cells : Cells
        All cells of some faces, with all nodes on their edges.
    old_nodes : int
        Nodes from this number on may be dropped.
    straight : float
        A node at most so far off the line between its neighbours may be dropped.

    Returns
    -------
    corners : (t, 3) int
        Entries of ``cells``.
    cell : (t,) int
        A cell each triangle is part of.
    failed : int
        Rings without a triangulation; a fan stands for each.
    """
    alone = np.zeros(len(cells), dtype=bool)
    for _ in range(_TRIES):
        rings, group, freed = _merged(cells, alone)
        rings = _without_spare_nodes(rings, cells, freed[freed >= old_nodes], straight)
        entries = rings.nodes
        named = Rings(entries, rings.start, rings.face)
        corners, ring, failed = triangulate_rings(
            named, cells.values[entries, FRAME], cells.sides[entries]
        )
        failed = np.setdiff1d(failed, _empty(rings))
        more, more_ring, failed = _large(rings, cells, failed)
        corners, ring = np.vstack((corners, more)), np.concatenate((ring, more_ring))
        again = np.isin(group, rings.face[failed]) & ~alone
        if not again.any():
            break
        alone |= again
    fans = [_fan(rings.nodes[rings.start[row] : rings.start[row + 1]]) for row in failed]
    owners = [np.full(len(fan), row) for fan, row in zip(fans, failed, strict=True)]
    corners = np.vstack((corners, *fans))
    ring = np.concatenate((ring, *owners)).astype(np.int64)
    return corners, rings.face[ring], len(failed)


def _merged(cells: Cells, alone: Flags) -> tuple[Rings, Ints, Ints]:
    """Unite cells with the same face and facet.

    Returns
    -------
    rings : Rings
        Rings of entries; the "face" of each is one of its cells.
    group : (c,) int
        Cell whose ring each cell has become a part of. Groups that would have holes or pinches
        stay apart.
    freed : (f,) int
        Nodes at which edges have vanished; some of them several times.
    """
    twin = _twins(cells)
    while True:
        group, rings, freed, bad = _united(cells, twin, alone)
        if not bad.any():
            return rings, group, freed
        alone = alone | bad


def _united(cells: Cells, twin: Ints, alone: Flags) -> tuple[Ints, Rings, Ints, Flags]:
    owner = cells.owner
    paired = twin >= 0
    other = owner[twin]
    inner = paired & (cells.face[owner] == cells.face[other])
    inner &= cells.facet[owner] == cells.facet[other]
    inner &= ~alone[owner] & ~alone[other]
    rows = np.flatnonzero(inner)
    group = hang_together(len(cells), owner[rows], other[rows])
    follow = cells.next
    while True:
        through = np.flatnonzero(inner[follow] & ~inner)
        if not len(through):
            break
        follow[through] = cells.next[twin[follow[through]]]
    merged = (np.bincount(group, minlength=len(cells)) > 1)[group]
    outer = np.flatnonzero(~inner & merged[owner])
    number = np.full(len(follow), _NONE, dtype=np.int64)
    number[outer] = np.arange(len(outer))
    loop, place = _loops(number[follow[outer]])
    order = np.argsort(loop * len(outer) + place)
    entries = outer[order]
    head = np.flatnonzero(np.append(True, np.diff(loop[order]) != 0)[: len(order)])
    face = group[owner[entries[head]]]
    bad = np.bincount(face, minlength=len(cells)) > 1
    width = int(cells.node.max(initial=0)) + 1
    key = np.sort(loop * width + cells.node[outer])
    pinched = outer[key[1:][key[1:] == key[:-1]] // width]
    bad[group[owner[pinched]]] = True
    rest, start = spans(cells.start, np.flatnonzero(~merged))
    rings = Rings(
        np.concatenate((entries, rest)),
        np.concatenate((head, len(entries) + start)),
        np.concatenate((face, np.flatnonzero(~merged))),
    )
    return group, rings, cells.node[rows], bad[group] & merged


def _loops(follow: Ints) -> tuple[Ints, Ints]:
    """Return the lowest member of the cycle of each element, and its place from there."""
    count = len(follow)
    loop, jump = np.arange(count), follow
    while True:
        lower = np.minimum(loop, loop[jump])
        if (lower == loop).all():
            break
        loop, jump = lower, jump[jump]
    last = loop[follow] == follow
    steps, jump = np.where(last, 0, 1), np.where(last, np.arange(count), follow)
    while True:
        farther = steps[jump]
        if not farther.any():
            break
        steps, jump = steps + farther, jump[jump]
    return loop, count - 1 - steps


def _twins(cells: Cells) -> Ints:
    """Return the entry whose edge is that of each entry seen from the other side, -1 if none."""
    key = edge_keys(cells.node, cells.node[cells.next])
    order = np.argsort(key, kind="stable")
    ordered = key[order]
    same = ordered[1:] == ordered[:-1]
    crowd = np.zeros(len(key), dtype=bool)
    crowd[1:-1] = same[1:] & same[:-1]
    first = np.flatnonzero(same & ~crowd[:-1] & ~crowd[1:])
    twin = np.full(len(key), _NONE, dtype=np.int64)
    twin[order[first]], twin[order[first + 1]] = order[first + 1], order[first]
    return twin


def _without_spare_nodes(rings: Rings, cells: Cells, nodes: Ints, straight: float) -> Rings:
    """Drop those of some nodes that have two edges in one line."""
    if not len(nodes):
        return rings
    entries, owner = rings.nodes, rings.owner
    node = cells.node[entries]
    asked = np.zeros(int(cells.node.max()) + 1, dtype=bool)
    asked[nodes] = True
    new = np.flatnonzero(asked[node])
    name = node[new] - int(nodes.min())
    size, start = rings.sizes[owner[new]], rings.start[owner[new]]
    after = start + (new - start + 1) % size
    before = start + (new - start - 1) % size
    one, other = node[before], node[after]
    low, high = np.minimum(one, other), np.maximum(one, other)
    near, here, far = (cells.values[entries[at], PLAN] for at in (before, new, after))
    chord, off = far - near, here - near
    beside = np.abs(chord[:, 0] * off[:, 1] - chord[:, 1] * off[:, 0])
    bent = beside > straight * np.hypot(*chord.T)
    # Each node tells the neighbours that one of its entries has; the others must have the same.
    told = np.empty((2, int(name.max(initial=-1)) + 1), dtype=np.int64)
    told[0, name], told[1, name] = low, high
    ends = np.zeros(told.shape[1], dtype=bool)
    ends[name[bent | (low != told[0, name]) | (high != told[1, name])]] = True
    kept = np.ones(len(entries), dtype=bool)
    kept[new[~ends[name]]] = False
    sizes = np.bincount(owner[kept], minlength=len(rings.face))
    return Rings(entries[kept], np.append(0, np.cumsum(sizes)), rings.face)


def _empty(rings: Rings) -> Ints:
    return np.flatnonzero(rings.sizes < 3)


def _large(rings: Rings, cells: Cells, failed: Ints) -> tuple[Ints, Ints, Ints]:
    """Triangulate rings of very many nodes one at a time."""
    triangles, owners, left = [np.empty((0, 3), dtype=np.int64)], [np.empty(0, np.int64)], []
    for row in failed:
        entries = rings.nodes[rings.start[row] : rings.start[row + 1]]
        made = _by_delaunay(entries, cells) if len(entries) > LARGEST else None
        if made is None:
            left.append(row)
        else:
            triangles.append(made)
            owners.append(np.full(len(made), row))
    return np.vstack(triangles), np.concatenate(owners), np.array(left, dtype=np.int64)


def _by_delaunay(entries: Ints, cells: Cells) -> Ints | None:
    """Triangulate a ring by the constrained Delaunay triangulation in the plane of its face."""
    spots = cells.values[entries, FRAME]
    polygon = shapely.Polygon(spots)
    if not polygon.is_valid:
        return None
    parts = shapely.get_parts(shapely.constrained_delaunay_triangles(polygon))
    corners = shapely.get_coordinates(shapely.get_exterior_ring(parts)).reshape(-1, 4, 2)[:, :3]
    order = np.lexsort(spots.T[::-1])
    spots = np.ascontiguousarray(spots[order])
    names = spots.view([("x", float), ("y", float)]).reshape(-1)
    wanted = np.ascontiguousarray(corners.reshape(-1, 2)).view(names.dtype).reshape(-1)
    found = np.minimum(np.searchsorted(names, wanted), len(names) - 1)
    local = order[found].reshape(-1, 3)
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    turned = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0] < 0
    local[turned] = local[turned, ::-1]
    plan = cells.values[entries, PLAN][local]
    u, v = plan[:, 1] - plan[:, 0], plan[:, 2] - plan[:, 0]
    good = (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0] > 0).all()
    exact = (names[found] == wanted).all() and len(local) == len(entries) - 2
    return entries[local] if good and exact else None


def _fan(entries: Ints) -> Ints:
    """Triangulate a ring without area from its first node."""
    middle = entries[1:-1]
    return np.column_stack((np.full(len(middle), entries[0]), middle, entries[2:]))
