"""Lowering a surface by a depth per face, with a narrow step where depths differ.

The shallower depth wins at a border: every vertex is lowered by the least depth of its faces,
every edge by the lesser of its two. Where a face is deeper than its side or corner, the step
lies inside that face: its *bottom* is drawn in by the run of the step, and the ring between is
filled with *step* faces. Points on edges are worked out once for each end of an edge, so that the
faces beside it share them; all bottoms lie exactly on the plane of the design less the depth.

Nothing is offset as linework: a step can become narrower than asked for where faces are small,
but it can never cross another, and the surface stays whole and single-valued in plan.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, silent
from ..tin.cut.frames import corner_frames
from ..tin.cut.pieces import Rings
from ..tin.cut.triangulate import triangulate_rings
from ..tin.edges import Edges, pair_half_edges
from .turning import distances_along

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_MOST_SHARE = 1.0 / 3.0  # of an edge or of the way to the incentre that a step may take up
_NARROW = 0.99  # a step below this share of the run asked for is reported
_NONE = -1


@dataclass(frozen=True, eq=False)
class Lowered:
    """A lowered surface.

    Parameters
    ----------
    vertices : (n, 3) float
        The vertices given, lowered, then the new ones.
    faces : (m, 3) int
        Faces without a step in them first, in the order given.
    source : (m,) int
        Face given that each is (part of).
    step : (m,) bool
        Faces of steps.
    depths : (n,) float
        How far each vertex lies below the surface given.
    least_run : float
        Plan run of the narrowest step; infinite without steps.
    narrow : (k, 2) float
        Plan positions of the sides whose step is narrower than asked for.
    narrow_faces : (k,) int
        Faces given that hold these steps.
    """

    vertices: Floats
    faces: Ints
    source: Ints
    step: Flags
    depths: Floats
    least_run: float
    narrow: Floats
    narrow_faces: Ints


def lower(
    vertices: Floats, faces: Ints, depths: Floats, run: float, progress: Progress = silent
) -> Lowered:
    """Lower faces by their depths.

    Parameters
    ----------
    vertices : (n, 3) float
        Positions; plan coordinates best count from nearby.
    faces : (m, 3) int
        Counter-clockwise.
    depths : (m,) float
        Depth of each face, positive downwards.
    run : float
        Plan run of the steps.
    progress : Progress
        Told the share done.
    """
    at_vertex, deepest = _extremes(faces, depths, len(vertices))
    stepped = at_vertex < deepest
    near = np.flatnonzero(stepped[faces].any(axis=1))
    if not len(near):
        lowered = vertices.copy()
        lowered[:, 2] -= np.where(np.isfinite(at_vertex), at_vertex, 0.0)
        return Lowered(
            lowered,
            faces,
            np.arange(len(faces)),
            np.zeros(len(faces), dtype=bool),
            at_vertex,
            np.inf,
            np.empty((0, 2)),
            np.empty(0, dtype=np.int64),
        )
    progress(0.15)
    patch = _Patch(vertices, faces[near], depths[near], at_vertex, run)
    progress(0.5)
    rings, is_step, position, bits, node_xyz, node_depth = patch.pieces()
    progress(0.7)
    triangles, ring, failed = triangulate_rings(rings, position, bits)
    progress(0.9)
    fans, fan_ring = _fans(rings, failed)
    triangles, ring = np.vstack((triangles, fans)), np.concatenate((ring, fan_ring))
    affected = near[patch.affected]
    whole = np.ones(len(faces), dtype=bool)
    whole[affected] = False
    kept = np.flatnonzero(whole)
    all_depths = np.concatenate((np.where(np.isfinite(at_vertex), at_vertex, 0.0), node_depth))
    lowered = np.vstack((vertices, node_xyz))
    lowered[:, 2] -= all_depths
    least, narrow, narrow_faces = patch.runs()
    return Lowered(
        lowered,
        np.vstack((faces[kept], triangles)),
        np.concatenate((kept, affected[rings.face[ring]])),
        np.concatenate((np.zeros(len(kept), dtype=bool), is_step[ring])),
        all_depths,
        least,
        narrow,
        near[narrow_faces],
    )


def _extremes(faces: Ints, depths: Floats, count: int) -> tuple[Floats, Floats]:
    """Return the least and the greatest depth of the faces at each vertex."""
    order = np.argsort(depths, kind="stable")
    least, greatest = np.full(count, np.inf), np.full(count, -np.inf)
    # Of several values for one place numpy keeps the last.
    greatest[faces[order].ravel()] = np.repeat(depths[order], 3)
    order = order[::-1]
    least[faces[order].ravel()] = np.repeat(depths[order], 3)
    return least, greatest


def _fans(rings: Rings, failed: Ints) -> tuple[Ints, Ints]:
    """Triangulate rings without area (in faces without any) from their first node."""
    triangles, owner = [np.empty((0, 3), dtype=np.int64)], [np.empty(0, dtype=np.int64)]
    for ring in failed:
        nodes = rings.nodes[rings.start[ring] : rings.start[ring + 1]]
        middle = nodes[1:-1]
        triangles.append(np.column_stack((np.full(len(middle), nodes[0]), middle, nodes[2:])))
        owner.append(np.full(len(middle), ring))
    return np.vstack(triangles), np.concatenate(owner)


class _Patch:
    """The faces around vertices where depths differ."""

    def __init__(
        self, vertices: Floats, faces: Ints, depths: Floats, at_vertex: Floats, run: float
    ) -> None:
        self.vertices = vertices
        self.faces = faces
        self.depths = depths
        self.run = run
        self.edges = pair_half_edges(faces)
        self.at_corner = at_vertex[faces]
        at_edge = _extremes_of_edges(self.edges, depths)
        self.at_edge = at_edge
        self.at_side = at_edge[self.edges.face_edges]
        self.corner_steps = self.at_corner < depths[:, None]
        self.side_steps = self.at_side < depths[:, None]
        self.affected = np.flatnonzero(self.corner_steps.any(axis=1))
        self.end_has_point = at_edge[:, None] > at_vertex[self.edges.ends]
        self.shares = self._shares_of_ends()

    def _shares_of_ends(self) -> Floats:
        """Return how far along each edge the point near each of its ends lies, (e, 2)."""
        distance = distances_along(
            self.vertices[:, :2], self.faces, self.edges, self.at_edge, self.end_has_point, self.run
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
        node_xyz, node_depth : (i, 3), (i,) float
            New nodes, not yet lowered.
        """
        rows = self.affected
        end_node, inner_node, node_xyz, node_depth = self._nodes()
        forward = self.edges.ends[self.edges.face_edges[rows], 0] == self.faces[rows]
        edge = self.edges.face_edges[rows]
        near_start = end_node[edge, np.where(forward, 0, 1)]  # (f, 3): on side k near corner k
        near_stop = end_node[edge, np.where(forward, 1, 0)]  # on side k near corner k + 1
        corner_steps, side_steps = self.corner_steps[rows], self.side_steps[rows]
        corners, inner = self.faces[rows], inner_node
        before = [2, 0, 1]
        after = [1, 2, 0]
        came = side_steps[:, before]
        # First and last node of the bottom at each corner.
        enter = np.where(came, _NONE, near_stop[:, before])
        leave = np.where(side_steps, _NONE, near_start)
        both = came & side_steps
        enter = np.where(both, inner, enter)
        leave = np.where(both, _NONE, leave)
        enter = np.where(corner_steps, enter, corners)
        leave = np.where(corner_steps, leave, _NONE)
        bottom = np.stack((enter, leave), axis=2).reshape(len(rows), 6)

        face, corner = np.nonzero(corner_steps & ~came & ~side_steps)
        tips = np.column_stack(
            (
                corners[face, corner],
                near_start[face, corner],
                near_stop[face, np.take(before, corner)],
            )
        )
        side_face, side = np.nonzero(side_steps)
        next_side, last_side = np.take(after, side), np.take(before, side)
        far = np.where(
            side_steps[side_face, next_side],
            inner[side_face, next_side],
            near_start[side_face, next_side],
        )
        close = np.where(
            side_steps[side_face, last_side],
            inner[side_face, side],
            near_stop[side_face, last_side],
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
        position, bits = self._positions(rings, end_node)
        return rings, is_step, position, bits, node_xyz, node_depth

    def _nodes(self) -> tuple[Ints, Ints, Floats, Floats]:
        """Number and place the points near the ends of edges and the mitres inside faces."""
        base = len(self.vertices)
        edge, end = np.nonzero(self.end_has_point)
        end_node = np.full(self.end_has_point.shape, _NONE, dtype=np.int64)
        end_node[edge, end] = base + np.arange(len(edge))
        own = self.vertices[self.edges.ends[edge, end]]
        other = self.vertices[self.edges.ends[edge, 1 - end]]
        share = self.shares[edge, end]
        on_edges = own + share[:, None] * (other - own)
        self._end_of_node = (edge, end, share)

        rows = self.affected
        side_steps = self.side_steps[rows]
        face, corner = np.nonzero(side_steps & side_steps[:, [2, 0, 1]])
        inner_node = np.full((len(rows), 3), _NONE, dtype=np.int64)
        inner_node[face, corner] = base + len(edge) + np.arange(len(face))
        weights = self._mitres(rows[face], corner)
        self._inner_weights = weights
        corners = self.vertices[self.faces[rows[face]]]
        start = corners[np.arange(len(face)), corner]
        inside = start + np.einsum("ik,ikj->ij", weights, corners - start[:, None])
        depth = np.concatenate((self.at_edge[edge], self.depths[rows[face]]))
        return end_node, inner_node, np.vstack((on_edges, inside)), depth

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

    def _positions(self, rings: Rings, end_node: Ints) -> tuple[Floats, Ints]:
        """Return frame positions and side bits of all ring entries."""
        rows = self.affected
        frames = corner_frames(self.vertices[self.faces[rows]])
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
            offset = self._node_xyz[node - base, :2] - start
            cross = way[:, 0] * offset[:, 1] - way[:, 1] * offset[:, 0]
            square = cross / np.where(length > 0, length, 1.0)
            # Beyond the end of the side the run is measured to its end.
            along = np.einsum("ij,ij->i", offset, way)
            past = (along < 0) | (along > length**2)
            straight = np.minimum(
                np.hypot(*offset.T), np.hypot(*(self._node_xyz[node - base, :2] - stop).T)
            )
            run = np.minimum(run, np.where(past, straight, square))
        narrow = run < _NARROW * self.run
        return float(run.min()), 0.5 * (start + stop)[narrow], face[narrow]


def _extremes_of_edges(edges: Edges, depths: Floats) -> Floats:
    """Return the least depth of the faces at each edge, (e,) float."""
    order = np.argsort(depths, kind="stable")[::-1]
    least = np.empty(len(edges.ends))
    least[edges.face_edges[order].ravel()] = np.repeat(depths[order], 3)
    return least


def _rings_of(table: Ints, face: Ints) -> Rings:
    """Make rings of the rows of a table; entries of `_NONE` are left out."""
    there = table != _NONE
    start = np.append(0, np.cumsum(there.sum(axis=1)))
    return Rings(table[there], start, face)
