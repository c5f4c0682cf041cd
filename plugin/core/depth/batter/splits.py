"""Nodes on edges, found by the two ends of the edge."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ...runs import count_up, ragged

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_WIDTH = 1 << 31
_SPREAD = np.uint64(0x9E3779B97F4A7C15)
_SALT = 0x5851F42D4C957F2D
_ROOM = 2  # slots are at least so many powers of 2 more than keys


def edge_keys(one: Ints, other: Ints) -> Ints:
    """Return a number for each edge: lower node times 2**31 and the higher one."""
    low = np.minimum(one, other)
    low *= _WIDTH
    low += np.maximum(one, other)
    return low


@dataclass(eq=False)
class Splits:
    """Nodes on edges.

    Parameters
    ----------
    key : (s,) int
        Number of the edge (see `edge_keys`), ascending.
    node : (s,) int
        On one edge they run from its lower node to its higher one.
    share : (s,) float
        Place on the edge, from the lower node.
    """

    key: Ints
    node: Ints
    share: Floats

    @cached_property
    def _heads(self) -> Ints:
        """Where the nodes of each edge begin, and the end."""
        fresh = np.append(True, self.key[1:] != self.key[:-1])[: len(self.key)]
        return np.append(np.flatnonzero(fresh), len(self.key))

    @cached_property
    def _tables(self) -> list[tuple[NDArray[np.int32], int, int]]:
        """Tables of edges by a hash of their key; those that find their slot taken go on."""
        tables = []
        todo = np.arange(len(self._heads) - 1)
        salt = 0
        while len(todo):
            bits = max(len(todo).bit_length() + _ROOM, 4)
            slot = _slots(self.key[self._heads[todo]], bits, salt)
            table = np.full(1 << bits, -1, dtype=np.int32)
            table[slot[::-1]] = todo[::-1]
            tables.append((table, bits, salt))
            todo = todo[table[slot] != todo]
            salt = (salt + _SALT) % (1 << 64)
        return tables

    def between(self, key: Ints) -> tuple[Ints, Ints, Ints]:
        """Find nodes on edges.

        Returns
        -------
        row : (h,) int
            Edges that have any, ascending.
        begin, count : (h,) int
            Their first one, and how many there are.
        """
        row, edge = np.empty(0, dtype=np.int64), np.empty(0, dtype=np.int64)
        left = None
        for table, bits, salt in self._tables:
            asked = key if left is None else key[left]
            found = table[_slots(asked, bits, salt)]
            # Where a slot is free no edge of this key can be in a later table either.
            some = np.flatnonzero(found >= 0)
            hit = self.key[self._heads[found[some]]] == asked[some]
            place = some if left is None else left[some]
            row = np.concatenate((row, place[hit]))
            edge = np.concatenate((edge, found[some[hit]]))
            left = place[~hit]
        order = np.argsort(row)
        row, edge = row[order], edge[order]
        begin = self._heads[edge]
        return row, begin, self._heads[edge + 1] - begin

    def whole(self) -> "Splits":
        """Return for each edge all nodes on it, those on its parts included."""
        heads = self._heads[:-1]
        keys, size = self.key[heads], np.diff(self._heads)
        # Chains from the lower node of each edge to the higher one.
        chain = np.repeat(np.arange(len(keys)), size + 2)
        start = np.cumsum(size + 2) - (size + 2)
        node, share = np.empty(len(chain), dtype=np.int64), np.zeros(len(chain))
        inner = np.ones(len(chain), dtype=bool)
        inner[start] = inner[start + size + 1] = False
        node[start], node[start + size + 1], node[inner] = keys // _WIDTH, keys % _WIDTH, self.node
        share[start + size + 1], share[inner] = 1.0, self.share
        links = np.flatnonzero(chain[1:] == chain[:-1])
        while True:
            row, begin, count = self.between(edge_keys(node[links], node[links + 1]))
            if not len(row):
                break
            link = links[row]
            into = np.repeat(link, count)
            done = np.cumsum(count) - count
            forward = np.repeat(node[link] < node[link + 1], count)
            which, _ = walked(begin, count, forward)
            part = np.where(forward, self.share[which], 1.0 - self.share[which])
            low, high = share[into], share[into + 1]
            node = np.insert(node, into + 1, self.node[which])
            share = np.insert(share, into + 1, low + part * (high - low))
            chain = np.insert(chain, into + 1, chain[into])
            # Only the new parts can have been split again.
            links, _ = ragged(link + done, count + 1)
        inner = np.zeros(len(chain), dtype=bool)
        inner[1:-1] = (chain[1:-1] == chain[:-2]) & (chain[1:-1] == chain[2:])
        return Splits(keys[chain[inner]], node[inner], share[inner])


def walked(begin: Ints, count: Ints, forward: NDArray[np.bool_]) -> tuple[Ints, Ints]:
    """Return the nodes on some edges in the order in which each edge is walked.

    Parameters
    ----------
    begin, count : (h,) int
        Their first one, and how many there are, of `Splits.between`.
    forward : (sum of counts,) bool
        Whether the edge is walked from its lower node.

    Returns
    -------
    which, offset : (sum of counts,) int
        Their numbers, and how many come before each on its edge.
    """
    offset = count_up(count)
    which = np.repeat(begin, count)
    which += np.where(forward, offset, np.repeat(count - 1, count) - offset)
    return which, offset


def _slots(key: Ints, bits: int, salt: int) -> Ints:
    """Deal each key a slot below 2**bits."""
    mixed = key.view(np.uint64) + np.uint64(salt)
    mixed ^= mixed >> np.uint64(31)
    mixed *= _SPREAD
    mixed >>= np.uint64(64 - bits)
    return mixed.view(np.int64)
