"""Triangulating many small rings at once, without new nodes.

For each ring the triangulation of least *harmonic index* is found by dynamic programming: the sum
over its triangles of the squared sides divided by the area. Its minimum is the Delaunay
triangulation, and triangles of no or negative area cost infinitely much, so nodes in a straight
line and reflex corners need no special care: if all triangles that keep the order of the ring
are positive, they cover the ring once.
"""

import numpy as np
from numpy.typing import NDArray

from .pieces import Rings

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

LARGEST = 40
_MOST_ENTRIES = 1 << 21


def triangulate_rings(rings: Rings, frame: Floats, side: Ints | None) -> tuple[Ints, Ints, Ints]:
    """Triangulate rings of at most `LARGEST` nodes.

    Parameters
    ----------
    rings : Rings
        Simple, counter-clockwise.
    frame : (r, 2) float
        Position of each entry of ``rings.nodes``.
    side : (r,) int or None
        Bit k is set where an entry lies on side k of the face around it: three nodes of one side
        never make a triangle, whatever rounding makes of their area.

    Returns
    -------
    triangles : (t, 3) int
        Nodes.
    ring : (t,) int
        Ring of each triangle.
    failed : (u,) int
        Rings that cannot be triangulated so; they have no triangles.
    """
    sizes = rings.sizes
    triangles, owners, failed = [], [], []
    for size in np.unique(sizes):
        group = np.flatnonzero(sizes == size)
        if size < 3 or size > LARGEST:
            failed.append(group)
            continue
        chunk = max(_MOST_ENTRIES // int(size) ** 2, 1)
        for begin in range(0, len(group), chunk):
            some = group[begin : begin + chunk]
            at = rings.start[some][:, None] + np.arange(size)
            local, good = _best(frame[at], None if side is None else side[at])
            nodes = np.take_along_axis(
                rings.nodes[at][good], local[good].reshape(len(local[good]), -1), axis=1
            )
            triangles.append(nodes.reshape(-1, 3))
            owners.append(np.repeat(some[good], size - 2))
            failed.append(some[~good])
    return (
        np.concatenate([*triangles, np.empty((0, 3), dtype=np.int64)]),
        np.concatenate([*owners, np.empty(0, dtype=np.int64)]),
        np.concatenate([*failed, np.empty(0, dtype=np.int64)]),
    )


def _best(points: Floats, side: Ints | None) -> tuple[Ints, NDArray[np.bool_]]:
    """Return the corners (b, k - 2, 3) of the best triangles, and which rings have any."""
    count, size = points.shape[:2]
    if size == 3:
        local = np.broadcast_to(np.arange(3), (count, 1, 3))
        return local, np.isfinite(_index(points, side, 0, np.array([1]), 2)[:, 0])
    cost = np.full((count, size, size), np.inf)
    choice = np.zeros((count, size, size), dtype=np.int8)
    ring = np.arange(size - 1)
    cost[:, ring, ring + 1] = 0.0
    for width in range(2, size):
        for i in range(size - width):
            j = i + width
            middle = np.arange(i + 1, j)
            total = cost[:, i, middle] + cost[:, middle, j]
            total += _index(points, side, i, middle, j)
            best = total.argmin(axis=1)
            choice[:, i, j] = best + i + 1
            cost[:, i, j] = np.take_along_axis(total, best[:, None], axis=1)[:, 0]
    good = np.isfinite(cost[:, 0, size - 1])
    return _read_back(choice), good


def _index(points: Floats, side: Ints | None, i: int, middle: Ints, j: int) -> Floats:
    """Harmonic index of the triangles i, m, j; infinite where they are not positive."""
    a, b, m = points[:, i, None], points[:, j, None], points[:, middle]
    u, v = m - a, b - a
    area = u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]
    w = b - m
    squares = (u * u).sum(axis=-1) + (v * v).sum(axis=-1) + (w * w).sum(axis=-1)
    bad = ~(area > 0)
    if side is not None:
        bad |= (side[:, i, None] & side[:, j, None] & side[:, middle]) != 0
    index = squares / np.where(bad, 1.0, area)
    index[bad] = np.inf
    return index


def _read_back(choice: NDArray[np.int8]) -> Ints:
    """Follow the choices from the whole ring down to single triangles."""
    count, size = choice.shape[:2]
    row = np.arange(count)
    active = np.zeros((count, size, size), dtype=bool)
    active[:, 0, size - 1] = True
    triangles = np.zeros((count, size - 2, 3), dtype=np.int64)
    filled = np.zeros(count, dtype=np.int64)
    for width in range(size - 1, 1, -1):
        for i in range(size - width):
            j = i + width
            here = row[active[:, i, j]]
            if not len(here):
                continue
            m = choice[here, i, j].astype(np.int64)
            triangles[here, filled[here], 0] = i
            triangles[here, filled[here], 1] = m
            triangles[here, filled[here], 2] = j
            filled[here] += 1
            active[here, i, m] = True
            active[here, m, j] = True
    return triangles
