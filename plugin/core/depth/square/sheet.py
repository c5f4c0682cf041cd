"""The zones of a patchwork taken apart at their borders, so that each can move by itself."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from ...tin.weld import hang_together
from ..patchwork import Patchwork
from .borders import Borders
from .mitre import Freedom, Limits, Rows, drop, meet

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_CORNERS_AT_ONCE = 1 << 18
_FACES_AT_ONCE = 1 << 16


@dataclass(eq=False)
class Sheet:
    """Faces that move, with nodes of their own in each zone. Lengths are plan units.

    A node is a point of one zone; a point on a border is a different node on either side. Nodes
    can be joined: the faces between them die, the others take over the node that is left.

    Parameters
    ----------
    plan : (n, 2) float
        Points before the move.
    faces : (m, 3) int
        Points at the corners.
    heights : (m, 3) float
        Heights of the corners before the move, in plan units.
    normals : (m, 3) float
        Unit normals, upwards; zeros where a face has no plane.
    weights : (m, 3) float
        Sine of each angle: needles, whose planes are poorly known, hardly count.
    thickness : (m,) float
        How far the plane of each face moves against its normal.
    floor : (m,) float
        Least width in plan that a face must keep.
    nodes : (m, 3) int
        Node at each corner, now.
    alive : (m,) bool
        Faces that are still there.
    home : (k, 3) float
        Place of each node before the move.
    point : (k,) int
        Point of the patchwork each node began as.
    freedom, along : (k,) int, (k, 2) float
        How each node may move in plan.
    move : (k, 3) float
        How it moves.
    residual : (k,) float
        Largest distance by which it misses a plane of its faces.
    joined : (k,) int
        Node that each node has become part of; itself at first.
    heads : (k,) bool
        Nodes that others have become part of.
    limits : Limits
        When a move is good enough.
    """

    plan: Floats
    faces: Ints
    heights: Floats
    normals: Floats
    weights: Floats
    thickness: Floats
    floor: Floats
    nodes: Ints
    alive: Flags
    home: Floats
    point: Ints
    freedom: Ints
    along: Floats
    move: Floats
    residual: Floats
    joined: Ints
    heads: Flags
    limits: Limits

    @property
    def places(self) -> Floats:
        """Where the nodes are in plan, (k, 2) float."""
        return self.home[:, :2] + self.move[:, :2]

    def touching(self, nodes: Flags) -> Ints:
        """Return the living faces at any of the nodes marked."""
        found = []
        for begin in range(0, len(self.nodes), _FACES_AT_ONCE):
            some = slice(begin, begin + _FACES_AT_ONCE)
            hit = nodes[self.nodes[some]].any(axis=1) & self.alive[some]
            found.append(begin + np.flatnonzero(hit))
        return np.concatenate(found) if found else np.empty(0, dtype=np.int64)

    def stars(self, wanted: Flags) -> tuple[Ints, Ints, Ints]:
        """Return the nodes marked, and the corners (face * 3 + corner) about each of them."""
        faces = self.touching(wanted)
        corner = (3 * faces[:, None] + np.arange(3)).ravel()
        node = self.nodes.ravel()[corner]
        keep = wanted[node]
        corner, node = corner[keep], node[keep]
        order = np.argsort(node, kind="stable")
        corner, node = corner[order], node[order]
        fresh = np.ones(len(node), dtype=bool)
        fresh[1:] = node[1:] != node[:-1]
        first = np.flatnonzero(fresh)
        return node[first], np.append(first, len(node)), corner

    def rows(self, start: Ints, corner: Ints, home: Floats, counts: Flags | None = None) -> Rows:
        """Return the equations of stars about homes (one a star)."""
        face = corner // 3
        normals = self.normals[face]
        off = np.empty((len(corner), 3))
        off[:, :2] = self.plan.take(self.faces.ravel()[corner], axis=0)
        off[:, 2] = self.heights.ravel()[corner]
        off -= np.repeat(home, np.diff(start), axis=0)
        right = np.einsum("ij,ij->i", normals, off) - self.thickness[face]
        weights = self.weights.ravel()[corner]
        if counts is not None:
            weights = np.where(counts, weights, 0.0)
        return Rows(start, normals, right, weights)

    def solve(self, wanted: Flags, without: Flags | None = None) -> None:
        """Find the moves of the nodes marked.

        Parameters
        ----------
        wanted : (k,) bool
            Nodes.
        without : (m,) bool or None
            Faces whose planes do not count at nodes that others have been joined to.
        """
        for nodes, start, corner in self._blocks(wanted):
            counts = None
            if without is not None:
                row = np.repeat(np.arange(len(nodes)), np.diff(start))
                # Nodes that have taken over no others keep all their planes.
                counts = ~(without[corner // 3] & self.heads[nodes][row])
                counts |= (np.bincount(row[counts], minlength=len(nodes)) == 0)[row]
            rows = self.rows(start, corner, self.home[nodes], counts)
            thickness = self.thickness[corner[start[:-1]] // 3]
            self.move[nodes], self.residual[nodes] = meet(
                rows, self.freedom[nodes], self.along[nodes], thickness, self.limits
            )
            lost = nodes[rows.total(rows.weights) == 0.0]  # no face has a plane: go plumb
            self.move[lost, 2] = -thickness[rows.total(rows.weights) == 0.0]
            self.residual[lost] = np.abs(self.move[lost, 2])

    def settle(self, wanted: Flags) -> None:
        """Find the heights of the nodes marked where they are in plan."""
        for nodes, start, corner in self._blocks(wanted):
            rows = self.rows(start, corner, self.home[nodes])
            self.move[nodes, 2], self.residual[nodes] = drop(rows, self.move[nodes, :2])

    def _blocks(self, wanted: Flags) -> list[tuple[Ints, Ints, Ints]]:
        nodes, start, corner = self.stars(wanted)
        if not len(nodes):
            return []
        cuts = np.searchsorted(start, np.arange(0, start[-1] + _CORNERS_AT_ONCE, _CORNERS_AT_ONCE))
        cuts = np.unique(np.append(np.minimum(cuts, len(nodes)), len(nodes)))
        return [
            (nodes[i:j], start[i : j + 1] - start[i], corner[start[i] : start[j]])
            for i, j in pairwise(cuts)
        ]

    def folded(self, faces: Ints, places: Floats) -> Ints:
        """Return those of the faces that are narrower than they may be, or turned over."""
        faces = faces[self.alive[faces]]
        return faces[widths_of(places, self.nodes[faces]) < self.floor[faces]]


def widths_of(places: Floats, nodes: Ints) -> Floats:
    """Return the least heights of triangles in plan, (k,) float, negative where turned over."""
    width = np.empty(len(nodes))
    for begin in range(0, len(nodes), _FACES_AT_ONCE):
        some = slice(begin, begin + _FACES_AT_ONCE)
        width[some] = plan_widths(*(places.take(nodes[some, k], axis=0) for k in range(3)))
    return width


def plan_widths(a: Floats, b: Floats, c: Floats) -> Floats:
    """Return doubled signed plan area over longest side of triangles (k, 2) each."""
    u, v, w = b - a, c - a, c - b
    longest = np.sqrt(
        np.maximum(
            np.maximum(np.einsum("ij,ij->i", u, u), np.einsum("ij,ij->i", v, v)),
            np.einsum("ij,ij->i", w, w),
        )
    )
    return (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / np.maximum(longest, 1e-300)


def spread_out(
    patch: Patchwork,
    borders: Borders,
    moving: Flags,
    thickness: Floats,
    stiff: Flags,
    z_scale: float,
    least: float,
    limits: Limits,
) -> Sheet:
    """Take the moving faces of a patchwork apart at the borders of their zones.

    Parameters
    ----------
    patch : Patchwork
        The patchwork.
    borders : Borders
        Of its zones.
    moving : (m,) bool
        Faces that move.
    thickness : (m,) float
        How far, in plan units.
    stiff : (m,) bool
        Faces whose nodes stay where they are in plan.
    z_scale : float
        Plan units in one unit of height.
    least : float
        Least width of faces that were wider.
    limits : Limits
        See there.
    """
    nodes, point = _nodes(patch, borders, moving)
    count = len(point)
    freedom = np.full(count, Freedom.FREE, dtype=np.int64)
    at_border = np.arange(count) >= len(patch.points)
    straight = borders.straight[point]
    freedom[at_border] = np.where(straight, Freedom.ALONG, Freedom.FIXED)[at_border]
    freedom[nodes[stiff]] = Freedom.FIXED
    heights = patch.heights * z_scale
    home = np.zeros((count, 3))
    home[:, :2] = patch.points[point]
    home[nodes[moving], 2] = heights[moving]
    normals, weights = _planes(patch, z_scale)
    width = widths_of(patch.points, patch.faces)
    # What has no width to begin with (upright faces) may stay so.
    floor = np.where(width > 1e-3 * least, np.minimum(least, 0.5 * width), -1e-3 * least)
    return Sheet(
        plan=patch.points,
        faces=patch.faces,
        heights=heights,
        normals=normals,
        weights=weights,
        thickness=np.where(moving, thickness, 0.0),
        floor=floor,
        nodes=nodes,
        alive=moving.copy(),
        home=home,
        point=point,
        freedom=freedom,
        along=borders.along[point],
        move=np.zeros((count, 3)),
        residual=np.zeros(count),
        joined=np.arange(count),
        heads=np.zeros(count, dtype=bool),
        limits=limits,
    )


def _nodes(patch: Patchwork, borders: Borders, moving: Flags) -> tuple[Ints, Ints]:
    """Number the nodes: inner points as they are, border points anew in each fan of faces.

    Faces that do not move keep the numbers of their points.
    """
    faces, count = patch.faces, len(patch.points)
    at_border = borders.on_border[faces] & moving[:, None]
    corner = np.flatnonzero(at_border.ravel())
    place = np.full(faces.size, -1, dtype=np.int64)
    place[corner] = np.arange(len(corner))
    # Turning about a point, the next face is across the side that begins there.
    is_border = np.zeros(len(borders.edges.ends), dtype=bool)
    is_border[borders.rows] = True
    own = corner // 3, corner % 3
    across = borders.edges.neighbours[own]
    inner = ~is_border[borders.edges.face_edges[own]] & (across >= 0)
    other = across[inner]
    vertex = faces.ravel()[corner[inner]]
    turned = 3 * other + (faces[other] == vertex[:, None]).argmax(axis=1)
    root = hang_together(len(corner), np.flatnonzero(inner), place[turned])
    known, number = np.unique(root, return_inverse=True)
    nodes = faces.copy()
    nodes.ravel()[corner] = count + number.reshape(-1)
    return nodes, np.concatenate((np.arange(count), faces.ravel()[corner[known]]))


def _planes(patch: Patchwork, z_scale: float) -> tuple[Floats, Floats]:
    """Return unit normal of each face and sine of the angle at each corner.

    Pieces of one face of the design take the normal of the largest of them.
    """
    faces = patch.faces
    normals, area = np.empty((len(faces), 3)), np.empty(len(faces))
    weights = np.empty((len(faces), 3))
    for begin in range(0, len(faces), _FACES_AT_ONCE):
        some = slice(begin, begin + _FACES_AT_ONCE)
        corner = np.empty((len(faces[some]), 3, 3))
        corner[..., :2] = patch.points[faces[some]]
        corner[..., 2] = patch.design[some] * z_scale
        side = np.roll(corner, -1, axis=1) - corner
        normal = np.cross(side[:, 0], side[:, 1])
        length = np.sqrt(np.einsum("ikj,ikj->ik", side, side))
        area[some] = np.sqrt(np.einsum("ij,ij->i", normal, normal))
        product = length * np.roll(length, 1, axis=1)
        weights[some] = area[some, None] / np.maximum(product, 1e-300)
        normals[some] = normal / np.maximum(area[some], 1e-300)[:, None]
    parent = patch.parent
    pieces = np.flatnonzero((parent >= 0) & (np.bincount(np.maximum(parent, 0))[parent] > 1))
    largest = np.full(int(parent.max(initial=0)) + 1, -1, dtype=np.int64)
    order = pieces[np.argsort(area[pieces], kind="stable")]
    largest[parent[order]] = order
    normals[pieces] = normals[largest[parent[pieces]]]
    without = ~(np.einsum("ij,ij->i", normals, normals) > 0.5)
    normals[without] = 0.0
    weights[without] = 0.0
    return normals, weights
