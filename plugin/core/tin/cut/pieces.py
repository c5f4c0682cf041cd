"""The pieces into which chords divide faces, traced for all faces at once.

In each crossed face the parts of its sides and the chords are directed both ways; from every
node the darts are sorted by angle, and each dart is followed by the one that keeps the piece on
its left. Following the darts, the cycles are the pieces.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...runs import ragged

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Rings:
    """Closed rings of nodes, one after the other.

    Parameters
    ----------
    nodes : (r,) int
        Nodes of all rings.
    start : (p + 1,) int
        Where each ring begins; the last entry is the end.
    face : (p,) int
        Face each ring lies in.
    """

    nodes: Ints
    start: Ints
    face: Ints

    @property
    def sizes(self) -> Ints:
        """Number of nodes of each ring, (p,) int."""
        return np.diff(self.start)

    @property
    def owner(self) -> Ints:
        """Ring of each entry of `nodes`, (r,) int."""
        return np.repeat(np.arange(len(self.face)), self.sizes)

    def following(self, values: NDArray) -> NDArray:
        """Return for each entry the value of the next entry of its ring."""
        after = np.roll(values, -1, axis=0)
        after[self.start[1:] - 1] = values[self.start[:-1]]
        return after

    def take(self, rings: Ints) -> "Rings":
        """Return some of the rings."""
        entries, start = ragged(self.start[rings], self.sizes[rings])
        return Rings(self.nodes[entries], start, self.face[rings])


def face_rings(
    corners: Ints, face_edges: Ints, edge_ends: Ints, node_edge: Ints, first_node: int
) -> tuple[Rings, Ints]:
    """Return the outlines of faces with the nodes on their sides.

    Parameters
    ----------
    corners, face_edges : (f, 3) int
        Vertices and edges of the faces.
    edge_ends : (e, 2) int
        Vertices of the edges, lower first.
    node_edge : (i,) int
        Edge of the nodes ``first_node``, ``first_node + 1`` ..., ascending; on an edge they run
        from the lower vertex to the higher.
    first_node : int
        Number of the first node on an edge.

    Returns
    -------
    rings : Rings
        Counter-clockwise as the faces; one a face.
    side : (r,) int
        Side (0, 1, 2) each entry begins or lies on.
    """
    begin = np.searchsorted(node_edge, face_edges.ravel(), side="left")
    count = np.searchsorted(node_edge, face_edges.ravel(), side="right") - begin
    block = count + 1
    where = np.cumsum(block) - block
    owner = np.repeat(np.arange(len(block)), block)
    offset = np.arange(len(owner)) - where[owner]
    forward = edge_ends[face_edges.ravel(), 0] == corners.ravel()
    inner = np.where(forward[owner], offset - 1, count[owner] - offset)
    nodes = np.where(offset == 0, corners.ravel()[owner], first_node + begin[owner] + inner)
    start = np.append(where[::3], len(owner))
    return Rings(nodes, start, np.arange(len(corners))), owner % 3


def trace(
    outlines: Rings, side: Ints, chords: Ints, chord_face: Ints, frame: Floats, corner_frame: Floats
) -> Rings:
    """Trace the pieces of faces that chords divide.

    Parameters
    ----------
    outlines : Rings
        Outline of each face; ring r is face r.
    side : (r,) int
        Side of each entry of the outlines.
    chords, chord_face : (c, 2), (c,) int
        Nodes of the chords, and the outline they lie in.
    frame : (c, 2, 2) float
        Position of both ends of each chord, in a plane frame of its face.
    corner_frame : (f, 3, 2) float
        Position of the corners of each face in its frame.

    Returns
    -------
    Rings
        Pieces run counter-clockwise; islands that nothing joins to the outline also give a
        clockwise ring.
    """
    owner = outlines.owner
    after = outlines.following(outlines.nodes)
    ring_darts = len(owner)
    face = np.concatenate((owner, chord_face, chord_face))
    tail = np.concatenate((outlines.nodes, chords[:, 0], chords[:, 1]))
    head = np.concatenate((after, chords[:, 1], chords[:, 0]))
    twin = np.arange(len(face))
    twin[ring_darts:] = np.roll(twin[ring_darts:], len(chords))

    # The place of a node within its face: (face, node) pairs in order.
    spot, tail_spot, head_spot = _spots(face, tail, head)
    spot_side = np.full(spot, -1, dtype=np.int64)
    spot_side[tail_spot[:ring_darts]] = side
    way = np.vstack((frame[:, 1] - frame[:, 0], frame[:, 0] - frame[:, 1]))
    chord_darts = slice(ring_darts, None)
    angle = np.full(len(face), -np.inf)  # the outline goes first
    angle[chord_darts] = _angles(
        way, spot_side[tail_spot[chord_darts]], corner_frame, face[chord_darts]
    )
    order = np.lexsort((angle, tail_spot))
    rank = np.empty(len(order), dtype=np.int64)
    rank[order] = np.arange(len(order))
    begin = np.searchsorted(tail_spot[order], np.arange(spot))
    final = np.append(begin[1:], len(order)) - 1

    follow = np.empty(len(face), dtype=np.int64)
    follow[:ring_darts] = order[final[head_spot[:ring_darts]]]
    back = rank[twin[chord_darts]]
    first = begin[head_spot[chord_darts]]
    back = np.where(back == first, final[head_spot[chord_darts]], back - 1)
    follow[chord_darts] = order[back]
    return _cycles(follow, tail, face)


def _spots(face: Ints, tail: Ints, head: Ints) -> tuple[int, Ints, Ints]:
    low = int(tail.min(initial=0))
    width = int(tail.max(initial=0)) - low + 1
    key = face * width + (tail - low)
    known, tail_spot = np.unique(key, return_inverse=True)
    return len(known), tail_spot.reshape(-1), np.searchsorted(known, face * width + (head - low))


def _angles(way: Floats, side: Ints, corner_frame: Floats, face: Ints) -> Floats:
    """Return the angle of chords, on the outline measured from the side that begins there."""
    on = side >= 0
    along = np.tile((1.0, 0.0), (len(way), 1))
    along[on] = corner_frame[face[on], (side[on] + 1) % 3] - corner_frame[face[on], side[on]]
    cross = along[:, 0] * way[:, 1] - along[:, 1] * way[:, 0]
    dot = np.einsum("ij,ij->i", along, way)
    angle = np.arctan2(cross, dot)
    # From the outline chords go inwards: a negative angle is rounding about 0 or about pi.
    inward = on & (angle < 0)
    angle[inward] = np.where(angle[inward] > -0.5 * np.pi, 0.0, np.pi)
    return angle


def _cycles(follow: Ints, tail: Ints, face: Ints) -> Rings:
    """Return the cycles of a permutation of darts as rings of their tails."""
    count = len(follow)
    leader = np.arange(count)
    jump = follow
    while True:
        better = np.minimum(leader, leader[jump])
        if (better == leader).all():
            break
        leader, jump = better, jump[jump]
    # Distance to the dart before the leader, by pointer doubling again.
    last = leader[follow] == follow
    jump = np.where(last, np.arange(count), follow)
    steps = np.where(last, 0, 1)
    while True:
        farther = steps[jump]
        if not farther.any():
            break
        steps = steps + farther
        jump = jump[jump]
    order = np.lexsort((-steps, leader))
    fresh = np.ones(count, dtype=bool)
    fresh[1:] = leader[order][1:] != leader[order][:-1]
    first = np.flatnonzero(fresh)
    start = np.append(first, count)
    return Rings(tail[order], start, face[order][first])
