"""The part of a mesh that sides can reach, found without the edges of the rest."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_MIX = 2654435761
_BITS = (1 << 40) - 1
_MOST_CELLS = 2048


def outline_nodes(faces: Ints, region: Ints, wanted: Flags, count: int) -> Ints:
    """Return the nodes on the outlines of some zones.

    Around a node inside a zone each neighbour is once the next and once the one before: their
    difference, summed over the faces, is 0.

    Parameters
    ----------
    faces : (m, 3) int
        Counter-clockwise.
    region : (m,) int
        Zone of each face, -1 outside all.
    wanted : (k,) bool
        The zones.
    count : int
        Number of nodes.
    """
    inside = np.flatnonzero(np.append(wanted, False)[region])
    corners, zone = faces[inside], region[inside]
    name = ((np.arange(count) * _MIX) & _BITS).astype(np.float64)  # sums of whole numbers are exact
    sums = np.zeros(count)
    for k in range(3):
        turn = name[corners[:, (k + 1) % 3]] - name[corners[:, k - 1]]
        sums += np.bincount(corners[:, k], turn, count)
    label = np.full(count, -1, dtype=np.int64)
    label[corners.ravel()] = np.repeat(zone, 3)
    shared = label[corners] != zone[:, None]
    on = sums != 0
    on[corners[shared]] = True
    return np.flatnonzero(on)


def nodes_near(xy: Floats, nodes: Ints, distance: float) -> Flags:
    """Tell which nodes lie within a distance of some of them, and a little farther."""
    x, y = xy.T
    low = x.min(), y.min()
    cell = max(distance, float(max(x.max() - low[0], y.max() - low[1])) / _MOST_CELLS)
    column, row = (
        ((axis - least) / cell).astype(np.int64) for axis, least in ((x, low[0]), (y, low[1]))
    )
    marked = np.zeros((int(row.max()) + 3, int(column.max()) + 3), dtype=bool)
    for down in range(3):
        for right in range(3):
            marked[row[nodes] + down, column[nodes] + right] = True
    return marked[row + 1, column + 1]
