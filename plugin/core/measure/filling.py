"""How high water rises on a surface before it runs off over the border.

The filled level of a vertex is the lowest height that must be climbed on some way from it to the
border. On a triangulated surface such a way may follow edges, and the highest point of an edge is
one of its ends; so the level is the height of a vertex, and vertices and edges are all that
matters. Every vertex drains to its lowest neighbour, down to a low point or the border; the
basins so made are joined over their lowest passes, many at once, as in Boruvka's way to a
smallest spanning tree (O. Boruvka, 1926).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..tin import Tin
from ..tin.weld import hang_together

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

OUTSIDE = 0
"""Number of the basin of what drains over the border."""


@dataclass(frozen=True, eq=False)
class Filled:
    """Water levels.

    Parameters
    ----------
    level : (n,) float
        Filled level of each vertex: its own height where it drains, infinite where there is no
        way to the border.
    spill : (n,) int
        Vertex over which its water leaves; itself where it drains, -1 where there is no way.
    low : (n,) int
        Low point each vertex drains to along lowest neighbours; -1 for the border.
    """

    level: Floats
    spill: Ints
    low: Ints


def fill(tin: Tin) -> Filled:
    """Fill a surface with water up to where it spills.

    Parameters
    ----------
    tin : Tin
        The surface; every edge with one face only is border, that of a hole too.

    Returns
    -------
    Filled
        Levels are heights of vertices, without any rounding.
    """
    z = tin.vertices[:, 2]
    ends = tin.edges.ends
    basin, low = _basins(tin)
    lowest_way = _levels(z, ends, basin, len(low) + 1)
    spill = lowest_way[basin]
    level = np.where(spill >= 0, z[spill], np.inf)
    level[basin == OUTSIDE] = -np.inf
    dry = ~(level > z)
    level[dry] = z[dry]
    spill = np.where(dry, np.arange(len(z)), spill)
    return Filled(level, spill, np.concatenate([[-1], low])[basin])


def _basins(tin: Tin) -> tuple[Ints, Ints]:
    """Return the basin of each vertex, and the lowest vertex of each basin but the outside."""
    z = tin.vertices[:, 2]
    count = len(z)
    ends = tin.edges.ends
    # Heights as ranks, so that level ground drains too: ties go to the lower number.
    order = np.lexsort((np.arange(count), z))
    rank = np.empty(count, dtype=np.int64)
    rank[order] = np.arange(count)
    # The lowest neighbour, or itself at a low point.
    lowest = rank.copy()
    np.minimum.at(lowest, ends[:, 0], rank[ends[:, 1]])
    np.minimum.at(lowest, ends[:, 1], rank[ends[:, 0]])
    down = order[lowest]
    outlet = np.zeros(count, dtype=bool)
    outlet[ends[tin.edges.boundary]] = True
    used = np.zeros(count, dtype=bool)
    used[ends] = True
    down[outlet] = np.flatnonzero(outlet)
    while True:
        further = down[down]
        if (further == down).all():
            break
        down = further
    pit = np.flatnonzero((down == np.arange(count)) & ~outlet & used)
    number = np.zeros(count, dtype=np.int64)
    number[pit] = np.arange(len(pit)) + 1
    return number[down], pit


def _levels(z: Floats, ends: Ints, basin: Ints, count: int) -> Ints:
    """Return the vertex over which each basin spills, (count,) int; -1 for none.

    In each round every basin but the outside is hung on to the neighbour across its lowest pass
    p. Its level is the higher of p and the level of what it is hung to: a way out must cross p at
    least, and a way back costs no more. Where two are hung on to each other they are one.
    """
    one, two = basin[ends[:, 0]], basin[ends[:, 1]]
    apart = one != two
    one, two, sides = one[apart], two[apart], ends[apart]
    over = np.where(z[sides[:, 0]] >= z[sides[:, 1]], sides[:, 0], sides[:, 1])
    # Passes in order of height, so that the first of a basin is its lowest.
    order = np.lexsort((over, z[over]))
    one, two, over = one[order], two[order], over[order]
    rounds: list[tuple[Ints, Ints]] = []
    while True:
        first = np.full(count, len(over), dtype=np.int64)
        places = np.arange(len(over))[::-1]
        # Written backwards: the lowest pass stays.
        first[one[::-1]] = places
        low = np.full(count, len(over), dtype=np.int64)
        low[two[::-1]] = places
        first = np.minimum(first, low)
        first[OUTSIDE] = len(over)
        own = np.flatnonzero(first < len(over))
        if not len(own):
            break
        at = first[own]
        root = hang_together(count, one[at], two[at])
        kept = root == np.arange(count)
        number = (np.cumsum(kept) - 1)[root]
        spill = np.full(count, -1, dtype=np.int64)
        spill[own] = over[at]
        rounds.append((number, spill))
        count = int(kept.sum())
        one, two = number[one], number[two]
        apart = one != two
        one, two, over = one[apart], two[apart], over[apart]
    result = np.full(count, -1, dtype=np.int64)
    reached = np.zeros(count, dtype=bool)
    reached[OUTSIDE] = True
    for number, spill in reversed(rounds):
        result, reached = result[number], reached[number]
        # Compared by height; -1 counts as lower than everything.
        higher = (spill >= 0) & ((result < 0) | (z[spill] > z[result]))
        result = np.where(higher, spill, result)
    result[~reached] = -1
    return result
