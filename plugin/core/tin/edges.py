"""Edges of a triangulation, found by pairing half-edges.

Half-edge ``3 * f + k`` is side k of face f and runs from its corner k to its corner k + 1. Two
half-edges with the same two ends belong to one edge. They are paired by a hash table that is
filled and read as whole arrays; sorting the ends, the usual way, takes several times as long.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]

# An odd multiplier near 2**64 divided by the golden ratio: it spreads keys that differ in few bits.
_SPREAD = np.uint64(0x9E3779B97F4A7C15)


@dataclass(frozen=True, eq=False)
class Edges:
    """The edges of a triangulation.

    Edges are numbered in the order in which their first half-edge occurs.

    Parameters
    ----------
    ends : (e, 2) int
        Vertices of each edge, the lower one first.
    faces : (e, 2) int
        The face on its left and the face on its right, looking from the lower vertex to the
        higher, -1 where there is none. Where both faces run along the edge in the same
        direction, and at an edge with more than two faces, the first two in face order.
    face_edges : (m, 3) int
        Edge of each side of each face; side k runs from corner k to corner k + 1.
    nonmanifold : (j,) int
        Edges with more than two faces.
    """

    ends: Ints
    faces: Ints
    face_edges: Ints
    nonmanifold: Ints

    @cached_property
    def boundary(self) -> Ints:
        """Edges with one face only, (b,) int."""
        return np.flatnonzero((self.faces < 0).any(axis=1))

    @cached_property
    def neighbours(self) -> Ints:
        """Face across each side of each face, (m, 3) int.

        It is -1 at the boundary, and at edges with more than two faces, where no single face
        lies across.
        """
        pair = self.faces.copy()
        pair[self.nonmanifold] = -1
        sides = pair.take(self.face_edges, axis=0)
        own = np.arange(len(self.face_edges))[:, None]
        across = np.where(sides[..., 0] == own, sides[..., 1], sides[..., 0])
        across.flags.writeable = False
        return across


def pair_half_edges(faces: Ints) -> Edges:
    """Find the edges of triangles.

    Parameters
    ----------
    faces : (m, 3) int
        Vertex indices, each below 2**31; the three of a face differ.

    Returns
    -------
    Edges
        The same for the same faces, whatever the hash does.
    """
    start = np.ascontiguousarray(faces, dtype=np.int64).ravel()
    stop = np.roll(np.asarray(faces, dtype=np.int64), -1, axis=1).ravel()
    low = np.minimum(start, stop)
    high = np.maximum(start, stop)
    key = (low << 32) | high
    first = _first_with_same_key(key, low, high)
    halves = np.arange(len(key))
    leads = first == halves
    leader = np.flatnonzero(leads)
    number = np.cumsum(leads) - 1
    edge = number.take(first)
    count = np.bincount(edge, minlength=len(leader))
    pair = np.full((len(leader), 2), -1, dtype=np.int64)
    # The half-edge that runs from the lower to the higher vertex has its face on the left.
    forward = start < stop
    column = np.where(forward, 0, 1)
    lead_column = column[leader]
    pair[np.arange(len(leader)), lead_column] = leader // 3
    rest = np.flatnonzero(~leads)[::-1]  # backwards, so that the earliest is written last
    pair[edge[rest], 1 - lead_column[edge[rest]]] = rest // 3
    ends = np.stack([low[leader], high[leader]], axis=1)
    edges = Edges(ends, pair, edge.reshape(-1, 3), np.flatnonzero(count > 2))
    for array in (edges.ends, edges.faces, edges.face_edges, edges.nonmanifold):
        array.flags.writeable = False
    return edges


def _first_with_same_key(key: Ints, low: Ints, high: Ints) -> Ints:
    """Return for each half-edge the lowest half-edge with the same key, (3 m,) int."""
    first = np.empty(len(key), dtype=np.int64)
    todo = np.arange(len(key))
    bits = max(int(2 * len(key)).bit_length(), 4)
    salt = 0
    while len(todo):
        k = key[todo]
        slot = ((k.astype(np.uint64) + np.uint64(salt)) * _SPREAD >> np.uint64(64 - bits)).astype(
            np.int64
        )
        table = np.empty(1 << bits, dtype=np.int64)
        # Written backwards, so that the lowest half-edge of a slot stays in it.
        table[slot[::-1]] = todo[::-1]
        owner = table[slot]
        same = key[owner] == k
        first[todo[same]] = owner[same]
        todo = todo[~same]
        bits = max(int(2 * len(todo)).bit_length(), 4)
        salt += 0x5851F42D4C957F2D
        salt &= 0x7FFFFFFFFFFFFFFF
    return first
