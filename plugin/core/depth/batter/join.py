"""Making one node of new nodes that lie all but in one place.

Where a line cuts a face near a very sharp corner it crosses both sides of it nearer to each other
than coordinates of a site can tell. The needle between the two nodes vanishes with them.
"""

import numpy as np
from numpy.typing import NDArray

from ...tin.weld import hang_together
from .cells import PLAN, Cells

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


def join_near(cells: Cells, old_nodes: int, tiny: float) -> tuple[Cells, Ints]:
    """Join new nodes at the ends of edges shorter than ``tiny``.

    Returns
    -------
    cells : Cells
        Without those that have vanished.
    joined : (j,) int
        Nodes that stand for several.
    """
    after, new = cells.next, cells.node >= old_nodes
    rows = np.flatnonzero(new & new[after])
    step = np.abs(cells.values[after[rows], PLAN] - cells.values[rows, PLAN])
    rows = rows[(step[:, 0] < tiny) & (step[:, 1] < tiny)]
    if not len(rows):
        return cells, rows
    one, other = cells.node[rows] - old_nodes, cells.node[after[rows]] - old_nodes
    count = int(cells.node.max()) + 1 - old_nodes
    while True:
        root = old_nodes + hang_together(count, one, other)
        node = cells.node.copy()
        node[new] = root[node[new] - old_nodes]
        kept, pinched = _rings(cells, node)
        if not len(pinched):
            break
        # A ring would touch itself there: those nodes stay apart.
        stays = ~np.isin(root[one], pinched)
        one, other = one[stays], other[stays]
    moved = np.flatnonzero(node != cells.node)
    place = np.zeros((count, 2))
    at_root = np.flatnonzero(new & (node == cells.node))
    place[node[at_root] - old_nodes] = cells.values[at_root, PLAN]
    values = cells.values.copy()
    values[moved, PLAN] = place[node[moved] - old_nodes]
    sizes = np.bincount(cells.owner[kept], minlength=len(cells))
    whole = Cells(
        np.append(0, np.cumsum(sizes)),
        cells.face,
        cells.facet,
        node[kept],
        values[kept],
        cells.sides[kept],
    )
    return whole.take(np.flatnonzero(sizes > 2)), np.unique(node[moved])


def _rings(cells: Cells, node: Ints) -> tuple[Flags, Ints]:
    """Tell which entries stay when nodes of one name follow each other, and who comes twice."""
    kept = node != node[cells.next]
    owner = cells.owner
    entries = np.flatnonzero(kept)
    size = np.bincount(owner[entries], minlength=len(cells))
    entries = entries[size[owner[entries]] > 2]
    width = int(node.max()) + 1
    key = np.sort(owner[entries] * width + node[entries])
    return kept, np.unique(key[1:][key[1:] == key[:-1]] % width)
