"""Edges of a triangulation, found by pairing half-edges.

Half-edge ``3 * f + k`` is side k of face f and runs from its corner k to its corner k + 1. Two
half-edges with the same two ends belong to one edge. They are paired by a hash table that is
filled and read as whole arrays; sorting the ends, the usual way, takes several times as long.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]
Numbers = NDArray[np.signedinteger[Any]]

# An odd multiplier near 2**64 divided by the golden ratio: it spreads keys that differ in few bits.
_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_SALT = 0x5851F42D4C957F2D
_BLOCK = 1 << 16


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
        direction one is at the left all the same; at an edge with more than two faces these are
        the first and the last in face order.
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
        # Two faces less the own one is the other one; none counts as -1, which comes out as -1.
        both = self.faces[:, 0] + self.faces[:, 1]
        across = both.take(self.face_edges)
        across -= np.arange(len(across))[:, None]
        if len(self.nonmanifold):
            shut = np.zeros(len(self.ends), dtype=bool)
            shut[self.nonmanifold] = True
            across[shut[self.face_edges]] = -1
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
        The same for the same faces: nothing in it depends on the hash.
    """
    corners = np.ascontiguousarray(faces, dtype=np.int64)
    key = _keys(corners)
    return _numbered(corners.ravel(), key, _partners(key))


def _keys(faces: Ints) -> Ints:
    """Return lower end << 32 | higher end of each half-edge, (3 m,) int."""
    key = np.empty(faces.shape, dtype=np.int64)
    for begin in range(0, len(faces), _BLOCK):
        some = slice(begin, begin + _BLOCK)
        for side, following in ((0, 1), (1, 2), (2, 0)):
            start, stop = faces[some, side], faces[some, following]
            low = np.minimum(start, stop)
            low <<= 32
            low |= np.maximum(start, stop)
            key[some, side] = low
    return key.ravel()


def _partners(key: Ints) -> Numbers:
    """Pair the half-edges with equal keys.

    Each half-edge writes its number into the slot of its key and reads back who has the slot.
    If that one has the same key, the two are of one edge; if not, all half-edges of the key go
    to the next, smaller round, where slots are dealt anew.

    Returns
    -------
    partner : (3 m,) int
        At the lowest half-edge of each edge, its highest (itself at the border); -1 elsewhere.
    """
    count = len(key)
    width: type[np.signedinteger[Any]] = np.int32 if count < 2**31 - 1 else np.int64
    partner = np.full(count + 1, -1, dtype=width)  # the last place takes what is to be dropped
    todo = np.arange(count, dtype=width)
    keys = key
    salt = 0
    while len(todo):
        bits = max(len(todo).bit_length(), 4)
        table = np.empty(1 << bits, dtype=width)
        blocks = [slice(at, at + _BLOCK) for at in range(0, len(todo), _BLOCK)]
        # Written backwards, so that the lowest half-edge of a slot stays in it.
        for some in reversed(blocks):
            table[_slots(keys[some], bits, salt)[::-1]] = todo[some][::-1]
        losers = []
        for some in blocks:
            owner = table.take(_slots(keys[some], bits, salt))
            lost = np.flatnonzero(key.take(owner) != keys[some])
            owner[lost] = count
            # The owner writes itself first, the highest half-edge of its key last.
            partner[owner] = todo[some]
            losers.append(todo[some].take(lost))
        todo = np.concatenate(losers)
        keys = key.take(todo)
        salt = (salt + _SALT) % (1 << 64)
    return partner[:count]


def _numbered(start: Ints, key: Ints, partner: Numbers) -> Edges:
    """Number the edges by their lowest half-edge and lay their faces left and right of them.

    In blocks, because whole temporary arrays cost more than the work on them.
    """
    total = int(np.count_nonzero(partner >= 0))
    ends = np.empty((total, 2), dtype=np.int64)
    pair = np.empty((total, 2), dtype=np.int64)
    edge_of = np.empty(len(key), dtype=np.int64)
    base = 0
    border = 0
    for begin in range(0, len(key), _BLOCK):
        lowest = np.flatnonzero(partner[begin : begin + _BLOCK] >= 0)
        lowest += begin
        stop = base + len(lowest)
        number = np.arange(base, stop)
        highest = partner.take(lowest)
        edge_of[lowest] = number
        edge_of[highest] = number
        lowest_key = key.take(lowest)
        low = np.right_shift(lowest_key, 32, out=ends[base:stop, 0])
        np.bitwise_and(lowest_key, 0xFFFFFFFF, out=ends[base:stop, 1])
        own, other = lowest // 3, highest // 3
        single = lowest == highest
        other[single] = -1
        border += int(np.count_nonzero(single))
        # The half-edge that runs from the lower to the higher vertex has its face on the left.
        forward = start.take(lowest) == low
        pair[base:stop, 0] = np.where(forward, own, other)
        pair[base:stop, 1] = np.where(forward, other, own)
        base = stop
    crowded = np.zeros(0, dtype=np.int64)
    if 2 * total - border != len(key):
        crowded = _number_extras(key, partner, edge_of)
    edges = Edges(ends, pair, edge_of.reshape(-1, 3), crowded)
    for array in (edges.ends, edges.faces, edges.face_edges, edges.nonmanifold):
        array.flags.writeable = False
    return edges


def _number_extras(key: Ints, partner: Numbers, edge_of: Ints) -> Ints:
    """Give the half-edges between lowest and highest their edge; return the edges that have any."""
    known = partner >= 0
    known[partner[known]] = True
    extra = np.flatnonzero(~known)
    crowded = np.unique(key[extra])
    place = np.minimum(np.searchsorted(crowded, key), len(crowded) - 1)
    lowest = np.flatnonzero((partner >= 0) & (crowded[place] == key))
    edge_of_key = np.empty(len(crowded), dtype=np.int64)
    edge_of_key[place[lowest]] = edge_of[lowest]
    edge_of[extra] = edge_of_key[place[extra]]
    return np.sort(edge_of_key)


def _slots(key: Ints, bits: int, salt: int) -> Ints:
    """Deal each key a slot below 2**bits."""
    mixed = key.view(np.uint64) + np.uint64(salt)
    mixed *= _SPREAD
    mixed >>= np.uint64(64 - bits)
    return mixed.view(np.int64)
