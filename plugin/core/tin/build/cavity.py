"""Constrained Delaunay triangulations of what lies beside segments, of all of them at once.

A segment put into a triangulation lies over a row of triangles. Taken out they leave two cavities,
one on each side, whose border is the segment and a chain of vertices from its one end to the
other. The triangle on the segment is the one whose circle holds no vertex of the chain: its third
corner is the vertex that sees the segment at the greatest angle (M. V. Anglada, An improved
incremental algorithm for constructing restricted Delaunay triangulations, Computers & Graphics 21,
1997, from memory). Its two other sides are bases of shorter chains, which are worked on in the
next round, together with those of all other cavities.
"""

import numpy as np
from numpy.typing import NDArray

from ...runs import count_up, ragged

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def fill(xy: Floats, bases: Ints, chain: Ints, counts: Ints) -> tuple[Ints, Ints]:
    """Triangulate cavities.

    Parameters
    ----------
    xy : (n, 2) float
        Vertices, near the origin.
    bases : (b, 2) int
        Ends of the base of each cavity, which lies on its left.
    chain : (c,) int
        Vertices between the ends, from the first to the second, cavity after cavity.
    counts : (b,) int
        Number of them for each cavity, at least 1.

    Returns
    -------
    triangles : (c, 3) int
        Counter-clockwise.
    cavity : (c,) int
        The cavity of each.
    """
    triangles, owners = [], []
    owner = np.arange(len(bases))
    while len(bases):
        start = np.cumsum(counts) - counts
        apex = _widest(xy, bases, chain, counts, start)
        corner = chain[start + apex]
        triangles.append(np.column_stack((bases, corner)))
        owners.append(owner)
        # What is left of the corner, and what is right of it; chains of nothing are done.
        left, right = apex, counts - apex - 1
        first = np.concatenate((start, start + apex + 1))
        length = np.concatenate((left, right))
        nearer = np.column_stack((bases[:, 0], corner))
        farther = np.column_stack((corner, bases[:, 1]))
        bases, owner = np.concatenate((nearer, farther)), np.concatenate((owner, owner))
        some = length > 0
        bases, owner, counts = bases[some], owner[some], length[some]
        chain = chain[ragged(first[some], counts)[0]]
    none = np.empty(0, dtype=np.int64)
    if not triangles:
        return none.reshape(0, 3), none
    return np.concatenate(triangles), np.concatenate(owners)


def _widest(xy: Floats, bases: Ints, chain: Ints, counts: Ints, start: Ints) -> Ints:
    """Return which vertex of each chain sees its base at the greatest angle, or the first such."""
    own = np.repeat(np.arange(len(bases)), counts)
    to_first = xy[bases[own, 0]] - xy[chain]
    to_second = xy[bases[own, 1]] - xy[chain]
    cross = to_first[:, 0] * to_second[:, 1] - to_first[:, 1] * to_second[:, 0]
    dot = to_first[:, 0] * to_second[:, 0] + to_first[:, 1] * to_second[:, 1]
    # The cotangent falls as the angle grows. A chain may come back to an end of its base: no angle.
    cotangent = np.full(len(chain), np.inf)
    np.divide(dot, cross, out=cotangent, where=cross > 0)
    least = np.minimum.reduceat(cotangent, start)
    place = np.where(cotangent == least[own], count_up(counts), len(chain))
    return np.asarray(np.minimum.reduceat(place, start), dtype=np.int64)
