"""Putting zones together again: the nodes of either side of a border in the faces of both."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...runs import count_up
from .borders import Borders
from .chains import Chains
from .sheet import Sheet

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_FAR = 1e-12  # of the extent: points of a chain that lie farther off a straight line bend it


@dataclass(frozen=True, eq=False)
class Seams:
    """The points of chains once the nodes of both sides lie on them.

    Parameters
    ----------
    point : (s,) int
        Point of each stop, chain by chain in the order of the chainage; new ones are numbered
        from the count of the old on.
    chainage : (s,) float
        Where on the chains.
    row : (s,) int
        Chain of each stop.
    new : (j, 2) float
        Plan positions of the new points.
    node, stop : (i,) int
        Nodes on chains, ascending, and the stop each lies at (any of several at the ends).
    side_key : (l,) int
        Sides of faces on chains, as first node times count of nodes plus second, ascending.
    side_stops : (l, 2) int
        The stops at the two ends of these.
    """

    point: Ints
    chainage: Floats
    row: Ints
    new: Floats
    node: Ints
    stop: Ints
    side_key: Ints
    side_stops: Ints


def find_seams(
    sheet: Sheet, first: Ints, borders: Borders, faces: Ints, chainage: Floats, least: float
) -> Seams:
    """Merge the nodes of both sides of every chain.

    Parameters
    ----------
    sheet : Sheet
        Its nodes are in place.
    first : (m, 3) int
        Nodes of the corners before any were joined.
    borders : Borders
        With the chains.
    faces : (m, 3) int
        Points of the corners.
    chainage : (k,) float
        Of the nodes that slide.
    least : float
        Nodes nearer than this become one point.
    """
    chains = borders.chains
    count = len(borders.on_border)
    sides = [_side(sheet, first, borders, faces, chainage, which) for which in (0, 1)]
    place = np.concatenate([side.place for side in sides])
    at = np.concatenate([side.chainage for side in sides])
    # A node that has not moved is the point it was; ends and bends stay whether used or not.
    still = chains.chainage[place] == at
    keeps = np.concatenate((np.flatnonzero(_bends(chains)), place[still]))
    chainages = np.concatenate((chains.chainage[keeps], at[~still]))
    old = np.concatenate((chains.point[keeps], np.full(int((~still).sum()), -1)))
    order = np.lexsort((-old, chainages))
    chainages, old = chainages[order], old[order]
    fresh = np.ones(len(order), dtype=bool)
    fresh[1:] = chainages[1:] - chainages[:-1] > least
    # Two old points are never made one.
    fresh[1:] |= (old[1:] >= 0) & (old[:-1] >= 0) & (old[1:] != old[:-1])
    cluster = np.cumsum(fresh) - 1
    point = np.full(int(fresh.sum()), -1, dtype=np.int64)
    point[cluster[old >= 0]] = old[old >= 0]
    where = chainages[fresh]
    where[cluster[old >= 0]] = chainages[old >= 0]
    is_new = point < 0
    point[is_new] = count + np.arange(int(is_new.sum()))
    row = np.searchsorted(chains.chainage[chains.start[:-1]], where, side="right") - 1
    # Where each node of a side has gone: to the cluster that its chainage fell into.
    heads = chainages[fresh]
    keys, stops, nodes, node_stops = [], [], [], []
    for side in sides:
        stop = np.searchsorted(heads, side.chainage, side="right") - 1
        on = np.flatnonzero(side.chain[1:] == side.chain[:-1])
        keys.append(side.node[on] * len(sheet.home) + side.node[on + 1])
        stops.append(np.column_stack((stop[on], stop[on + 1])))
        keys.append(side.node[on + 1] * len(sheet.home) + side.node[on])
        stops.append(np.column_stack((stop[on + 1], stop[on])))
        nodes.append(side.node)
        node_stops.append(stop)
    key, pair = np.concatenate(keys), np.concatenate(stops)
    order = np.argsort(key, kind="stable")
    node, stop = np.concatenate(nodes), np.concatenate(node_stops)
    node, index = np.unique(node, return_index=True)
    return Seams(
        point, where, row, chains.at(where[is_new]), node, stop[index], key[order], pair[order]
    )


@dataclass(frozen=True, eq=False)
class _Side:
    """Nodes of one side of all chains that are left, in order.

    Parameters
    ----------
    node, chain : (i,) int
        Node and its chain.
    place : (i,) int
        Its place among the points of the chains when it has not moved.
    chainage : (i,) float
        Where it lies.
    """

    node: Ints
    chain: Ints
    place: Ints
    chainage: Floats


def _side(
    sheet: Sheet, first: Ints, borders: Borders, faces: Ints, slid: Floats, which: int
) -> _Side:
    """Return the nodes on the left (0) or right (1) of chains, looking along them."""
    chains = borders.chains
    row = chains.row
    link = np.flatnonzero(row[1:] == row[:-1])  # from this place to the next
    one, other = chains.point[link], chains.point[link + 1]
    border_ends = borders.edges.ends[borders.rows]
    scale = len(borders.on_border)
    known = border_ends[:, 0] * scale + border_ends[:, 1]
    order = np.argsort(known)
    wanted = np.minimum(one, other) * scale + np.maximum(one, other)
    edge = borders.rows[order[np.searchsorted(known[order], wanted)]]
    face = borders.edges.faces[edge, np.where(one < other, which, 1 - which)]
    there = face >= 0
    link, one, other, face = link[there], one[there], other[there], face[there]
    corners = faces[face]
    rows = np.arange(len(face))
    node_one = first[face][rows, (corners == one[:, None]).argmax(axis=1)]
    node_other = first[face][rows, (corners == other[:, None]).argmax(axis=1)]
    place = np.concatenate((link, link + 1))
    node = np.concatenate((node_one, node_other))
    place, index = np.unique(place, return_index=True)
    node = _heads(sheet.joined, node[index])
    chain = row[place]
    # Rows of places that became one node.
    begins = np.ones(len(node), dtype=bool)
    begins[1:] = (node[1:] != node[:-1]) | (chain[1:] != chain[:-1])
    head = np.flatnonzero(begins)
    starts, stops = chains.start[:-1][chain[head]], chains.start[1:][chain[head]] - 1
    ends = np.ones(len(node), dtype=bool)
    ends[:-1] = begins[1:]
    last = np.flatnonzero(ends)
    at = slid[node[head]]
    inner = ~np.isnan(at)
    # Nodes that do not slide lie at an end, or where they always were.
    own = np.where(
        place[head] == starts, starts, np.where(place[last] == stops, stops, place[head])
    )
    home = chains.place[np.minimum(sheet.point[node[head]], len(chains.place) - 1)]
    own = np.where(inner, home, own)
    at = np.where(inner, at, chains.chainage[own])
    return _Side(node[head], chain[head], own, at)


def _heads(joined: Ints, node: Ints) -> Ints:
    while True:
        further = joined[node]
        if (further == node).all():
            return node
        node = further


def _bends(chains: Chains) -> Flags:
    """Tell which places of chains have to stay: ends, and points that are not quite straight."""
    keep = np.ones(len(chains.point), dtype=bool)
    inner = chains.inner
    if not len(inner):
        return keep
    before, here, after = (chains.plan[inner + step] for step in (-1, 0, 1))
    chord, off = after - before, here - before
    length = np.hypot(chord[:, 0], chord[:, 1])
    away = np.abs(chord[:, 0] * off[:, 1] - chord[:, 1] * off[:, 0]) / length
    extent = float(np.ptp(chains.plan, axis=0).max())
    keep[inner] = away > _FAR * extent
    return keep


@dataclass(eq=False)
class Pieces:
    """Faces in the making.

    Parameters
    ----------
    points : (f, 3) int
        Points of the corners.
    heights : (f, 3) float
        Heights of the corners, in plan units.
    source : (f,) int
        Face each comes from.
    stops : (f, 3, 2) int
        For each side the stops at its ends, -1 where it is on no chain or done with.
    """

    points: Ints
    heights: Floats
    source: Ints
    stops: Ints

    def take(self, rows: Ints | Flags) -> "Pieces":
        """Return some of the faces."""
        return Pieces(self.points[rows], self.heights[rows], self.source[rows], self.stops[rows])


def insert_stops(pieces: Pieces, seams: Seams, plan: Floats, normals: Floats, far: float) -> Pieces:
    """Divide faces at the stops on their sides, as fans from the corner across.

    Parameters
    ----------
    pieces : Pieces
        Faces with their corners in place.
    seams : Seams
        The stops.
    plan : (n, 2) float
        Plan positions of all points, new ones included.
    normals : (m, 3) float
        Unit normals of the source faces.
    far : float
        Stops farther off the straight side take the height of the plane there.
    """
    done = []
    for _ in range(3):
        between = np.abs(pieces.stops[..., 1] - pieces.stops[..., 0]) - 1
        between[pieces.stops[..., 0] < 0] = 0
        open_faces = (between > 0).any(axis=1)
        done.append(pieces.take(~open_faces))
        pieces = pieces.take(open_faces)
        if not len(pieces.points):
            break
        side = (between[open_faces] > 0).argmax(axis=1)
        pieces = _fan(pieces, side, seams, plan, normals, far)
    done.append(pieces)
    return Pieces(
        np.concatenate([p.points for p in done]),
        np.concatenate([p.heights for p in done]),
        np.concatenate([p.source for p in done]),
        np.concatenate([p.stops for p in done]),
    )


def _fan(
    pieces: Pieces, side: Ints, seams: Seams, plan: Floats, normals: Floats, far: float
) -> Pieces:
    """Divide each face by lines from the corner across to the stops on one side."""
    rows = np.arange(len(side))
    a, b, c = side, (side + 1) % 3, (side + 2) % 3
    begin, end = pieces.stops[rows, side].T
    step = np.sign(end - begin)
    size = np.abs(end - begin)  # parts of the side
    owner = np.repeat(rows, size)
    part = count_up(size)
    first, last = part == 0, part == size[owner] - 1
    stop = begin[owner] + step[owner] * part
    points = np.column_stack(
        (seams.point[stop], seams.point[stop + step[owner]], pieces.points[owner, c[owner]])
    )
    points[first, 0] = pieces.points[rows, a]
    points[last, 1] = pieces.points[rows, b]
    low, high, apex = (pieces.heights[rows, k] for k in (a, b, c))
    start_plan, stop_plan = plan[pieces.points[rows, a]], plan[pieces.points[rows, b]]
    way = stop_plan - start_plan
    square = np.maximum(np.einsum("ij,ij->i", way, way), 1e-300)
    heights = np.empty((len(owner), 3))
    for k in (0, 1):
        off = plan[points[:, k]] - start_plan[owner]
        share = np.einsum("ij,ij->i", off, way[owner]) / square[owner]
        heights[:, k] = low[owner] + share * (high - low)[owner]
        off -= share[:, None] * way[owner]
        normal = normals[pieces.source[owner]]
        bent = (np.abs(off).max(axis=1) > far) & (normal[:, 2] > 1e-3)
        heights[bent, k] -= np.einsum("ij,ij->i", normal[bent, :2], off[bent]) / normal[bent, 2]
    heights[first, 0], heights[last, 1] = low, high
    heights[:, 2] = apex[owner]
    stops = np.full((len(owner), 3, 2), -1, dtype=np.int64)
    stops[last, 1] = pieces.stops[rows, b]
    stops[first, 2] = pieces.stops[rows, c]
    return Pieces(points, heights, pieces.source[owner], stops)
