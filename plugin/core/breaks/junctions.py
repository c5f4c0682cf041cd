"""Where lines go on at a junction: along the pair of edges that runs straightest through it."""

import numpy as np
from numpy.typing import NDArray

from ..runs import count_up
from .first_come import first_come

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_TURN = 30.0
"""A line turns by no more than this at a junction, degrees."""


def straight_on(
    ends: Ints, labels: NDArray[np.integer], xy: Floats, nodes: int
) -> tuple[Ints, Ints]:
    """Pair the edges that meet at junctions of three or more.

    Of all pairs of one label that turn by at most `MOST_TURN` the straightest is taken first, then
    the straightest of what is left; no edge goes on twice.

    Parameters
    ----------
    ends : (k, 2) int
        Nodes of each edge.
    labels : (k,) int
        Only edges with the same label go on in each other.
    xy : (nodes, 2) float
        Places of the nodes in plan.
    nodes
        Number of nodes.

    Returns
    -------
    one, other : (j,) int
        Darts (see `chains`) that leave the same junction.
    """
    tails = np.ascontiguousarray(ends).reshape(-1)
    degree = np.bincount(tails, minlength=nodes)
    darts = np.flatnonzero(degree[tails] > 2)
    darts = darts[np.argsort(tails[darts], kind="stable")]
    node = tails[darts]
    first = np.flatnonzero(np.diff(node, prepend=-1))
    count = np.diff(np.append(first, len(node)))
    # Every dart with every later one of its node.
    place = count_up(count)
    later = np.repeat(count, count) - place - 1
    a = np.repeat(np.arange(len(darts)), later)
    b = a + 1 + count_up(later)
    one, other = darts[a], darts[b]
    alike = labels[one >> 1] == labels[other >> 1]
    one, other = one[alike], other[alike]
    turn = _turn(tails, xy, one, other)
    straight = turn <= np.radians(MOST_TURN)
    one, other, turn = one[straight], other[straight], turn[straight]
    order = np.lexsort((other, one, turn))
    one, other = one[order], other[order]
    taken = first_come(one, other, len(tails))
    return one[taken], other[taken]


def _turn(tails: Ints, xy: Floats, one: Ints, other: Ints) -> Floats:
    """Return by how much a line turns that comes in against ``one`` and leaves by ``other``."""
    into = xy[tails[one]] - xy[tails[one ^ 1]]
    out = xy[tails[other ^ 1]] - xy[tails[other]]
    twist = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    return np.abs(np.arctan2(twist, (into * out).sum(axis=1)))
