"""Convex cells of faces, as rings of nodes in flat arrays.

Each entry of a ring carries what is linear over its face: plan position, heights, and its place
in the plane of the face. A node on an edge is made once and known by its number on both sides.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...runs import ragged
from ...tin.cut.frames import corner_frames
from .ground import Ground
from .splits import Splits, edge_keys, walked

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

PLAN, LOW, DESIGN, FRAME = slice(0, 2), 2, 3, slice(4, 6)
"""Columns of `Cells.values`: plan position, height of the result, height of the design, place in
the plane of the face."""


@dataclass(eq=False)
class Cells:
    """Cells.

    Parameters
    ----------
    start : (c + 1,) int
        Where the ring of each cell begins; the last entry is the end.
    face : (c,) int
        Face each cell lies in.
    facet : (c,) int
        Facet that is lowest there, -1 for the surface itself.
    node : (r,) int
        Nodes of the rings, counter-clockwise.
    values : (r, 6) float
        See `PLAN` and the others.
    sides : (r,) int
        Bit k is set where an entry lies on side k of the face.
    """

    start: Ints
    face: Ints
    facet: Ints
    node: Ints
    values: Floats
    sides: Ints

    def __len__(self) -> int:
        """Return the number of cells."""
        return len(self.face)

    @property
    def sizes(self) -> Ints:
        """Entries of each ring, (c,) int."""
        return np.diff(self.start)

    @property
    def owner(self) -> Ints:
        """Cell of each entry, (r,) int."""
        return np.repeat(np.arange(len(self.face)), self.sizes)

    @property
    def next(self) -> Ints:
        """Entry that follows each one in its ring, (r,) int."""
        after = np.arange(1, len(self.node) + 1)
        after[self.start[1:] - 1] = self.start[:-1]
        return after

    def take(self, cells: Ints) -> "Cells":
        """Return some of the cells."""
        entries, start = spans(self.start, cells)
        return Cells(
            start,
            self.face[cells],
            self.facet[cells],
            self.node[entries],
            self.values[entries],
            self.sides[entries],
        )

    @staticmethod
    def joined(some: "list[Cells]") -> "Cells":
        """Return cells one after the other."""
        sizes = np.concatenate([one.sizes for one in some])
        return Cells(
            np.append(0, np.cumsum(sizes)),
            np.concatenate([one.face for one in some]),
            np.concatenate([one.facet for one in some]),
            np.concatenate([one.node for one in some]),
            np.concatenate([one.values for one in some]),
            np.concatenate([one.sides for one in some]),
        )


def spans(start: Ints, rows: Ints) -> tuple[Ints, Ints]:
    """Return the entries of some rings one after the other, and where each begins."""
    return ragged(start[rows], start[rows + 1] - start[rows])


def whole_faces(ground: Ground, faces: Ints) -> Cells:
    """Return faces as cells."""
    corners = ground.faces[faces]
    count = len(faces)
    values = np.empty((count, 3, 6))
    values[:, :, PLAN] = ground.xy[corners]
    values[:, :, LOW] = ground.heights[faces]
    values[:, :, DESIGN] = ground.design[faces]
    values[:, :, FRAME] = corner_frames(values[:, :, [0, 1, LOW]])
    return Cells(
        np.arange(0, 3 * count + 1, 3),
        faces,
        np.full(count, -1, dtype=np.int64),
        corners.ravel(),
        values.reshape(-1, 6),
        np.tile([0b101, 0b011, 0b110], count),
    )


@dataclass(frozen=True, eq=False)
class Inserted:
    """What `insert` has done.

    Parameters
    ----------
    place : (r,) int
        Where each old entry has gone.
    at : (i,) int
        The new entries.
    before : (i,) int
        Old entry before each.
    share : (i,) float
        Where each lies from that entry to the old one that followed it.
    """

    place: Ints
    at: Ints
    before: Ints
    share: Floats


def insert(cells: Cells, splits: Splits) -> tuple[Cells, Inserted]:
    """Put nodes into the edges of rings."""
    after = cells.next
    hit, begin, number = splits.between(edge_keys(cells.node, cells.node[after]))
    block = np.ones(len(cells.node), dtype=np.int64)
    block[hit] += number
    place = np.cumsum(block) - block
    if not len(hit):
        return cells, Inserted(place, hit, hit, np.empty(0))
    total = int(block.sum())
    row = np.repeat(hit, number)
    forward = cells.node[row] < cells.node[after[row]]
    which, offset = walked(begin, number, forward)
    share = np.where(forward, splits.share[which], 1.0 - splits.share[which])[:, None]
    at = place[row] + 1 + offset
    node = np.empty(total, dtype=np.int64)
    node[place], node[at] = cells.node, splits.node[which]
    values = np.empty((total, cells.values.shape[1]))
    values[place] = cells.values
    first, last = cells.values[row], cells.values[after[row]]
    between = first + share * (last - first)
    # From the lower node, so that both sides of an edge get the same position to the last bit.
    back = np.flatnonzero(~forward)
    low, high = last[back, PLAN], first[back, PLAN]
    between[back, PLAN] = low + splits.share[which[back]][:, None] * (high - low)
    values[at] = between
    sides = np.empty(total, dtype=np.int64)
    sides[place], sides[at] = cells.sides, cells.sides[row] & cells.sides[after[row]]
    sizes = np.add.reduceat(block, cells.start[:-1])
    start = np.append(0, np.cumsum(sizes))
    made = Cells(start, cells.face, cells.facet, node, values, sides)
    return made, Inserted(place, at, row, share[:, 0])
