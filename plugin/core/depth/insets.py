"""Faces around jumps, drawn in: the rings of their bottoms and of the steps beside them."""

import numpy as np
from numpy.typing import NDArray

from ..tin.cut.frames import corner_frames
from ..tin.cut.pieces import Rings
from ..tin.edges import pair_half_edges
from .turning import distances_along

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_MOST_SHARE = 1.0 / 3.0  # of an edge or of the way to the incentre that a step may take up
_NARROW = 0.99  # a step below this share of the run asked for is reported
_NONE = -1


class Insets:
    """The faces around points where heights jump.

    The heights a point has in its faces are sorted into *levels*: numbers that grow with the
    height, the same for heights that count as equal.

    Parameters
    ----------
    vertices : (n, 3) float
        Points with a height; only their plan positions matter.
    faces : (f, 3) int
        All faces at the points where heights jump.
    heights, design : (f, 3) float
        Heights of surface and design at their corners.
    design_at_vertex : (n,) float
        Height of the design at the points.
    run : float
        Plan run of the steps.
    equal : float
        Heights at one point that differ by no more are the same.
    """

    def __init__(
        self,
        vertices: Floats,
        faces: Ints,
        heights: Floats,
        design: Floats,
        design_at_vertex: Floats,
        run: float,
        equal: float,
    ) -> None:
        self.vertices = vertices
        self.faces = faces
        self.heights = heights
        self.design = design
        self.design_at_vertex = design_at_vertex
        self.run = run
        self.edges = pair_half_edges(faces)
        order, level, self.height_of_level = _levels(faces, heights, equal)
        # Of several values for one place numpy keeps the last, which is the highest.
        top = np.zeros(len(vertices), dtype=np.int64)
        top[faces.ravel()[order]] = level.ravel()[order]
        self.vertex = np.unique(faces)
        self.top = self.height_of_level[top[self.vertex]]
        self.edge_level = self._levels_of_edge_ends(order, level)
        ahead = self.faces == self.edges.ends[self.edges.face_edges, 0]
        start = self.edge_level[self.edges.face_edges, np.where(ahead, 0, 1)]
        stop = self.edge_level[self.edges.face_edges, np.where(ahead, 1, 0)]
        self.corner_steps = level < top[faces]
        steps = np.stack((start > level, stop > level[:, [1, 2, 0]]), axis=2)
        # A wedge that begins at a stepped corner steps there too: the edge leaves the plane.
        stepped = np.stack((self.corner_steps, self.corner_steps[:, [1, 2, 0]]), axis=2)
        self.side_steps = steps | (steps.any(axis=2, keepdims=True) & stepped)
        self.affected = np.flatnonzero(self.corner_steps.any(axis=1))
        self.end_has_point = self.edge_level < top[self.edges.ends]
        self.shares = self._shares_of_ends()

    def _levels_of_edge_ends(self, order: Ints, level: Ints) -> Ints:
        """Return the higher level of the faces at each end of each edge, (e, 2) int."""
        beside = np.stack((self.edges.face_edges, self.edges.face_edges[:, [2, 0, 1]]), axis=2)
        last = self.edges.ends[beside, 1] == self.faces[..., None]
        place = (2 * beside + last).reshape(-1, 2)[order]
        at_end = np.zeros(self.edges.ends.size, dtype=np.int64)
        at_end[place.ravel()] = np.repeat(level.ravel()[order], 2)
        return at_end.reshape(-1, 2)

    def _shares_of_ends(self) -> Floats:
        """Return how far along each edge the point near each of its ends lies, (e, 2)."""
        distance = distances_along(
            self.vertices[:, :2],
            self.faces,
            self.edges,
            self.edge_level,
            self.end_has_point,
            self.run,
        )
        ends = self.vertices[self.edges.ends, :2]
        length = np.hypot(*(ends[:, 1] - ends[:, 0]).T)[:, None]
        share = np.full(distance.shape, _MOST_SHARE)
        np.divide(distance, length, out=share, where=length > 0)
        return np.minimum(share, _MOST_SHARE)

    def pieces(self) -> tuple[Rings, Flags, Floats, Ints, Floats, Floats]:
        """Return the rings of bottoms and steps of the affected faces.

        Returns
        -------
        rings : Rings
            Their faces count within `affected`.
        is_step : (p,) bool
            Rings that are steps.
        position, bits : (r, 2), (r,)
            Of each ring entry, in the frame of its face; see `triangulate_rings`.
        node_xyz, node_design : (i, 3), (i,) float
            New nodes, and the height of the design there.
        """
        rows = self.affected
        end_node, inner, node_xyz, node_design = self._nodes()
        edge = self.edges.face_edges[rows]
        forward = self.edges.ends[edge, 0] == self.faces[rows]
        near_start = end_node[edge, np.where(forward, 0, 1)]  # (f, 3): on side k near corner k
        near_stop = end_node[edge, np.where(forward, 1, 0)]  # on side k near corner k + 1
        corner_steps, side_steps = self.corner_steps[rows], self.side_steps[rows]
        corners = self.faces[rows]
        before = np.array([2, 0, 1])
        after = np.array([1, 2, 0])
        came, goes = side_steps[:, before, 1], side_steps[:, :, 0]
        # First and last node of the bottom at each corner.
        enter = np.where(came, np.where(goes, inner, _NONE), near_stop[:, before])
        leave = np.where(goes, _NONE, near_start)
        enter = np.where(corner_steps, enter, corners)
        leave = np.where(corner_steps, leave, _NONE)
        bottom = np.stack((enter, leave), axis=2).reshape(len(rows), 6)

        face, corner = np.nonzero(corner_steps & ~came & ~goes)
        tips = np.column_stack(
            (corners[face, corner], near_start[face, corner], near_stop[face, before[corner]])
        )
        side_face, side = np.nonzero(side_steps.any(axis=2))
        next_side, last_side = after[side], before[side]
        # A wedge has no far or close node at its level end: no edge has a point there.
        far = np.where(
            goes[side_face, next_side],
            inner[side_face, next_side],
            near_start[side_face, next_side],
        )
        close = np.where(
            came[side_face, side], inner[side_face, side], near_stop[side_face, last_side]
        )
        strips = np.column_stack(
            (
                corners[side_face, side],
                near_start[side_face, side],
                near_stop[side_face, side],
                corners[side_face, next_side],
                far,
                close,
            )
        )
        tips = np.hstack((tips, np.full((len(tips), 3), _NONE)))
        table = np.vstack((bottom, tips, strips))
        owner = np.concatenate((np.arange(len(rows)), face, side_face))
        rings = _rings_of(table, owner)
        is_step = np.arange(len(table)) >= len(rows)
        self._strip_ends = (rows[side_face], side, far, close)
        self._node_xyz = node_xyz
        position, bits = self._positions(rings)
        return rings, is_step, position, bits, node_xyz, node_design

    def _nodes(self) -> tuple[Ints, Ints, Floats, Floats]:
        """Number and place the points near the ends of edges and the mitres inside faces."""
        base = len(self.vertices)
        edge, end = np.nonzero(self.end_has_point)
        end_node = np.full(self.end_has_point.shape, _NONE, dtype=np.int64)
        end_node[edge, end] = base + np.arange(len(edge))
        own, other = self.edges.ends[edge, end], self.edges.ends[edge, 1 - end]
        height = self.height_of_level[self.edge_level]
        share = self.shares[edge, end]

        def between(start: Floats, stop: Floats) -> Floats:
            return (start.T + share * (stop - start).T).T

        on_edges = np.column_stack(
            (
                between(self.vertices[own, :2], self.vertices[other, :2]),
                between(height[edge, end], height[edge, 1 - end]),
                between(self.design_at_vertex[own], self.design_at_vertex[other]),
            )
        )
        self._end_of_node = (edge, end, share)

        rows = self.affected
        side_steps = self.side_steps[rows]
        face, corner = np.nonzero(side_steps[:, :, 0] & side_steps[:, [2, 0, 1], 1])
        inner_node = np.full((len(rows), 3), _NONE, dtype=np.int64)
        inner_node[face, corner] = base + len(edge) + np.arange(len(face))
        self._inner_weights = weights = self._mitres(rows[face], corner)
        corners = np.dstack(
            (
                self.vertices[self.faces[rows[face]], :2],
                self.heights[rows[face]],
                self.design[rows[face]],
            )
        )
        start = corners[np.arange(len(face)), corner]
        inside = start + np.einsum("ik,ikj->ij", weights, corners - start[:, None])
        nodes = np.vstack((on_edges, inside))
        return end_node, inner_node, nodes[:, :3], nodes[:, 3]

    def _mitres(self, face: Ints, corner: Ints) -> Floats:
        """Return weights of the corners for the points at the run from both sides of a corner.

        They lie on the way to the incentre, at run / inradius of it.
        """
        plan = self.vertices[self.faces[face], :2]
        opposite = np.stack(
            [np.hypot(*(plan[:, (k + 1) % 3] - plan[:, (k + 2) % 3]).T) for k in range(3)], axis=1
        )
        around = opposite.sum(axis=1)
        u, v = plan[:, 1] - plan[:, 0], plan[:, 2] - plan[:, 0]
        inradius = np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]) / np.where(around > 0, around, 1.0)
        share = np.full(len(face), _MOST_SHARE)
        np.divide(self.run, inradius, out=share, where=inradius > 0)
        share = np.minimum(share, _MOST_SHARE)
        incentre = np.where(
            around[:, None] > 0, opposite / np.where(around > 0, around, 1.0)[:, None], 1.0 / 3.0
        )
        weights = incentre * share[:, None]
        weights[np.arange(len(face)), corner] += 1.0 - share
        return weights

    def _positions(self, rings: Rings) -> tuple[Floats, Ints]:
        """Return frame positions and side bits of all ring entries."""
        rows = self.affected
        solid = np.dstack((self.vertices[self.faces[rows], :2], self.heights[rows]))
        frames = corner_frames(solid)
        owner = rings.face[rings.owner]
        nodes = rings.nodes
        base = len(self.vertices)
        edge, end, share = self._end_of_node
        position = np.zeros((len(nodes), 2))
        bits = np.zeros(len(nodes), dtype=np.int64)
        on_edge = (nodes >= base) & (nodes < base + len(edge))
        point = np.where(on_edge, nodes - base, 0)
        for side in range(3):
            other = (side + 1) % 3
            at = np.flatnonzero(self.faces[rows[owner], side] == nodes)
            position[at] = frames[owner[at], side]
            bits[at] = 1 << side | 1 << (side + 2) % 3
            if not len(edge):
                continue
            at = np.flatnonzero(on_edge & (self.edges.face_edges[rows[owner], side] == edge[point]))
            vertex = self.edges.ends[edge[point[at]], end[point[at]]]
            from_start = self.faces[rows[owner[at]], side] == vertex
            way = np.where(from_start, share[point[at]], 1.0 - share[point[at]])[:, None]
            start, stop = frames[owner[at], side], frames[owner[at], other]
            position[at] = start + way * (stop - start)
            bits[at] = 1 << side
        inside = np.flatnonzero(nodes >= base + len(edge))
        weights = self._inner_weights[nodes[inside] - base - len(edge)]
        position[inside] = np.einsum("ik,ikj->ij", weights, frames[owner[inside]])
        return position, bits

    def runs(self) -> tuple[float, Floats, Ints]:
        """Return the narrowest run of the steps, and where and in which faces it is too small."""
        face, side, far, close = self._strip_ends
        if not len(face):
            return np.inf, np.empty((0, 2)), face
        base = len(self.vertices)
        start = self.vertices[self.faces[face, side], :2]
        stop = self.vertices[self.faces[face, (side + 1) % 3], :2]
        way = stop - start
        length = np.hypot(*way.T)
        run = np.full(len(face), np.inf)
        for node in (far, close):
            there = node != _NONE
            offset = self._node_xyz[np.where(there, node - base, 0), :2] - start
            cross = way[:, 0] * offset[:, 1] - way[:, 1] * offset[:, 0]
            square = cross / np.where(length > 0, length, 1.0)
            # Beyond the end of the side the run is measured to its end.
            along = np.einsum("ij,ij->i", offset, way)
            past = (along < 0) | (along > length**2)
            straight = np.minimum(np.hypot(*offset.T), np.hypot(*(offset - way).T))
            run = np.where(there, np.minimum(run, np.where(past, straight, square)), run)
        narrow = run < _NARROW * self.run
        return float(run.min()), 0.5 * (start + stop)[narrow], face[narrow]


def _levels(faces: Ints, heights: Floats, equal: float) -> tuple[Ints, Ints, Floats]:
    """Sort the heights at each vertex into levels.

    Returns
    -------
    order : (3 f,) int
        All corners, by their level.
    level : (f, 3) int
        Of each corner of each face.
    height : (l,) float
        Of each level, its highest.
    """
    vertex, height = faces.ravel(), heights.ravel()
    order = np.lexsort((height, vertex))
    vertex, height = vertex[order], height[order]
    begins = np.ones(len(order), dtype=bool)
    begins[1:] = (vertex[1:] != vertex[:-1]) | (height[1:] - height[:-1] > equal)
    level = np.empty(len(order), dtype=np.int64)
    level[order] = np.cumsum(begins) - 1
    last = np.append(np.flatnonzero(begins)[1:], len(order)) - 1
    return order, level.reshape(-1, 3), height[last]


def _rings_of(table: Ints, face: Ints) -> Rings:
    """Make rings of the rows of a table; entries of `_NONE` are left out."""
    there = table != _NONE
    start = np.append(0, np.cumsum(there.sum(axis=1)))
    return Rings(table[there], start, face)
