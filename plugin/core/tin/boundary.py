"""What hangs together: pieces of a surface, its borders, and faces turned the same way."""

import numpy as np
from numpy.typing import NDArray

from .edges import Edges, pair_half_edges
from .weld import hang_together

Ints = NDArray[np.int64]


def pieces(edges: Edges) -> Ints:
    """Number the connected pieces, (m,) int; faces that share an edge are in one piece."""
    count = len(edges.face_edges)
    own = np.repeat(np.arange(count), 3)
    other = edges.faces.max(axis=1).take(edges.face_edges.ravel())
    root = hang_together(count, own, other)
    number = np.cumsum(root == np.arange(count)) - 1
    return number[root]


def turn_flat_faces(faces: Ints, flat: NDArray[np.bool_]) -> None:
    """Turn faces without plan area so that they run against their neighbours, in place.

    Parameters
    ----------
    faces : (m, 3) int
        Faces; those not in ``flat`` already run counter-clockwise.
    flat : (m,) bool
        Faces whose direction the plan does not tell.
    """
    edges = pair_half_edges(faces)
    across = edges.neighbours
    settled = ~flat
    open_faces = np.flatnonzero(flat)
    while len(open_faces):
        near = across[open_faces]
        known = (near >= 0) & settled[near]
        ready = known.any(axis=1)
        if not ready.any():
            break
        turned = open_faces[ready]
        side = known[ready].argmax(axis=1)
        rows = np.arange(len(turned))
        start = faces[turned, side]
        mate = faces[near[ready][rows, side]]
        mate_side = (mate == start[:, None]).argmax(axis=1)
        # Against each other: where this face leaves the shared edge's vertex, that one arrives.
        along = mate[rows, (mate_side + 1) % 3] == faces[turned, (side + 1) % 3]
        swap = turned[along]
        faces[swap, 1:] = faces[swap, :0:-1]
        settled[turned] = True
        open_faces = open_faces[~ready]


def loops(faces: Ints, edges: Edges) -> list[Ints]:
    """Return the borders as vertex indices, surface on the left, first vertex not repeated."""
    single = np.zeros(len(edges.ends), dtype=bool)
    single[edges.boundary] = True
    halves = np.flatnonzero(single.take(edges.face_edges.ravel()))
    if len(halves) == 0:
        return []
    follow = _next_on_border(halves, single, faces, edges)
    start = faces.ravel()[halves]
    return [start[ring] for ring in rings(follow)]


def _next_on_border(halves: Ints, single: NDArray[np.bool_], faces: Ints, edges: Edges) -> Ints:
    """Return for each border half-edge the place in ``halves`` of the one that follows it.

    The follower is found by turning about the end vertex from face to face until the border is
    met again, so that parts of the surface that touch in a vertex keep their own borders.
    """
    side_edges = edges.face_edges.ravel()
    across = edges.neighbours
    place = np.full(len(side_edges), -1, dtype=np.int64)
    place[halves] = np.arange(len(halves))
    follow = np.full(len(halves), -1, dtype=np.int64)
    at = np.arange(len(halves))
    half = _next_in_face(halves)
    for _ in range(int(np.bincount(faces.ravel()).max()) + 1):
        done = single[side_edges[half]]
        follow[at[done]] = place[half[done]]
        at, half = at[~done], half[~done]
        face = across.ravel()[half]
        go = face >= 0
        at, half, face = at[go], half[go], face[go]
        if len(at) == 0:
            break
        side = (edges.face_edges[face] == side_edges[half][:, None]).argmax(axis=1)
        half = _next_in_face(3 * face + side)
    return follow


def _next_in_face(half: Ints) -> Ints:
    return half + np.where(half % 3 == 2, -2, 1)


def rings(follow: Ints) -> list[Ints]:
    """Split a successor table into its closed rings, each from its lowest member.

    Borders are short beside the surface, so a plain walk is quick enough here.

    Parameters
    ----------
    follow : (k,) int
        Successor of each member, -1 for none; members that lie on no closed ring are left out.
    """
    chain = follow.tolist()
    seen = [False] * len(chain)
    found = []
    for first in range(len(chain)):
        ring: list[int] = []
        member = first
        while member >= 0 and not seen[member]:
            seen[member] = True
            ring.append(member)
            member = chain[member]
        if ring and member == first:
            found.append(np.array(ring, dtype=np.int64))
    return found
