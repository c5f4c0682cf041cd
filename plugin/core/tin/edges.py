"""Edges of a triangulation.

Half-edge ``3 * f + k`` is side k of face f and runs from its corner k to its corner k + 1;
`pairing` finds which two make an edge.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks
from .pairing import following, paired

Ints = NDArray[np.int64]

_BLOCK = 1 << 16


@dataclass(frozen=True, eq=False)
class Edges:
    """The edges of a triangulation.

    Their numbers have no meaning beyond that the same faces always give the same; see `ordered`.

    Parameters
    ----------
    corners : (m, 3) int
        The faces.
    halves : (e, 2) int
        The half-edge on the left and the one on the right of each edge, looking from the lower
        vertex to the higher, -1 where there is none. Where both faces run along the edge in the
        same direction one is at the left all the same; at an edge with more than two faces these
        are the first and the last in face order.
    extra : (j, 2) int
        Half-edges beyond two, and the edge of each.
    """

    corners: Ints
    halves: Ints
    extra: Ints

    def __len__(self) -> int:
        """Return the number of edges."""
        return len(self.halves)

    def ordered(self) -> "Edges":
        """Return the edges numbered in the order in which their first half-edge occurs."""
        first = self.halves.min(axis=1)
        single = first < 0
        first[single] = self.halves[single].max(axis=1)
        # No half-edge is first twice, so that counting them takes the place of sorting.
        place = np.zeros(self.corners.size, dtype=np.int32)
        place[first] = 1
        number = np.cumsum(place, dtype=np.int32)[first] - 1
        halves = np.empty_like(self.halves)
        halves[number] = self.halves
        extra = np.column_stack((self.extra[:, 0], number[self.extra[:, 1]]))
        return Edges(self.corners, _locked(halves), _locked(extra.astype(np.int64)))

    @cached_property
    def faces(self) -> Ints:
        """The face on the left and the face on the right of each edge, (e, 2) int, -1 none."""
        return _locked(self.halves // 3)

    @cached_property
    def ends(self) -> Ints:
        """Vertices of each edge, the lower one first, (e, 2) int."""
        ends = np.empty((len(self), 2), dtype=np.int64)

        def some(begin: int, end: int) -> None:
            ends[begin:end] = self.ends_of(slice(begin, end))

        in_blocks(some, len(self), _BLOCK)
        return _locked(ends)

    def ends_of(self, edges: Ints | slice) -> Ints:
        """Return the vertices of some edges, the lower one first, (k, 2) int."""
        left, right = self.halves[edges].T
        half = np.where(right >= 0, right, left)
        start, stop = self.corners.ravel().take(half), self.corners.ravel().take(following(half))
        return np.stack((np.minimum(start, stop), np.maximum(start, stop)), axis=1)

    @cached_property
    def face_edges(self) -> Ints:
        """Edge of each side of each face, (m, 3) int; side k runs from corner k to k + 1."""
        edge = np.empty(self.corners.size + 1, dtype=np.int64)  # the last place takes none

        def some(begin: int, end: int) -> None:
            number = np.arange(begin, end)
            for half in self.halves[begin:end].T:
                edge[half] = number

        in_blocks(some, len(self), _BLOCK)
        edge[self.extra[:, 0]] = self.extra[:, 1]
        return _locked(edge[:-1].reshape(-1, 3))

    @cached_property
    def nonmanifold(self) -> Ints:
        """Edges with more than two faces, (j,) int."""
        return _locked(np.unique(self.extra[:, 1]))

    @cached_property
    def boundary(self) -> Ints:
        """Edges with one face only, (b,) int."""
        return np.flatnonzero((self.halves < 0).any(axis=1))

    @cached_property
    def neighbours(self) -> Ints:
        """Face across each side of each face, (m, 3) int.

        It is -1 at the boundary, and at edges with more than two faces, where no single face
        lies across.
        """
        across = np.full(self.corners.size + 1, -1, dtype=np.int64)  # the last place takes none

        def some(begin: int, end: int) -> None:
            left, right = self.halves[begin:end].T
            across[left] = right // 3
            across[right] = left // 3

        in_blocks(some, len(self), _BLOCK)
        across[self.halves[self.nonmanifold]] = -1
        return _locked(across[:-1].reshape(-1, 3))


def pair_half_edges(faces: Ints) -> Edges:
    """Find the edges of triangles, numbered in the order of their first half-edges.

    Parameters
    ----------
    faces : (m, 3) int
        Vertex indices, each below 2**31; the three of a face differ.
    """
    return edges_of(faces).ordered()


def edges_of(faces: Ints) -> Edges:
    """Find the edges of triangles, in whatever order is quickest.

    Parameters
    ----------
    faces : (m, 3) int
        Vertex indices, each below 2**31; the three of a face differ.

    Returns
    -------
    Edges
        The same for the same faces: nothing in it depends on the table.
    """
    corners = np.ascontiguousarray(faces, dtype=np.int64)
    halves, extra = paired(corners)
    return Edges(corners, _locked(halves), _locked(extra))


def _locked(array: Ints) -> Ints:
    array.flags.writeable = False
    return array
