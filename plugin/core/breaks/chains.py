"""Edges joined to the longest lines.

Every edge is two *darts*, one in each direction: dart ``2 i`` goes from the first to the second
end of edge ``i``, dart ``2 i + 1`` back. A node is passed where exactly two edges meet and carry
the same label, and at a junction of more by the pairs of edges that go straightest on (see
`junctions`). The dart that follows a dart is then known, and *pointer doubling* (let every
pointer jump to where its target points) finds the end of every line in as many rounds as the
longest line has binary digits, without a loop over lines.

Nodes must be numbered in an order that has a meaning (here: by coordinates), because ties are
settled by node numbers: an open line starts at its smaller end, a closed one at its smallest node
towards the smaller neighbour. Then the numbering of edges has no part in the result.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

_Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Chains:
    """Lines made of edges.

    Parameters
    ----------
    darts : (s,) int64
        Darts line after line, head to tail: ``dart >> 1`` is the edge, ``dart & 1`` tells that
        it is walked backwards.
    offsets : (c + 1,) int64
        Line ``i`` holds ``darts[offsets[i]:offsets[i + 1]]``; at least one.
    closed : (c,) bool
        True where a line ends at the node where it starts.
    """

    darts: _Ints
    offsets: _Ints
    closed: NDArray[np.bool_]


def chain(
    ends: _Ints,
    labels: NDArray[np.integer],
    nodes: int,
    onward: tuple[_Ints, _Ints] | None = None,
) -> Chains:
    """Join edges to maximal lines.

    Parameters
    ----------
    ends : (k, 2) int64
        Node numbers of every edge, two different ones; no two edges with the same ends.
    labels : (k,) int
        Edges are joined only where their labels are equal.
    nodes
        Number of nodes.
    onward
        Pairs of darts that leave the same junction, two (j,) int arrays: lines go on from one to
        the other. No dart comes twice.

    Returns
    -------
    Chains
        Every edge lies in exactly one line. Lines are sorted by their first, then their second
        node.
    """
    if not len(ends):
        return Chains(np.zeros(0, np.int64), np.zeros(1, np.int64), np.zeros(0, bool))
    tails = np.ascontiguousarray(ends).reshape(-1)
    darts = np.arange(len(tails), dtype=np.int64)
    heads = tails[darts ^ 1]
    follower = _followers(tails, heads, np.asarray(labels), nodes)
    if onward is not None:
        one, other = onward
        follower[one ^ 1], follower[other ^ 1] = other, one
    last, steps = _run_to_end(follower)
    loops = np.flatnonzero(follower[last] != last)
    if len(loops):
        _cut_loops(follower, tails, loops)
        last[loops], steps[loops] = _restricted(follower, loops)
    return _collect(tails, heads, follower, last, steps)


def _followers(tails: _Ints, heads: _Ints, labels: NDArray[np.integer], nodes: int) -> _Ints:
    """Return the dart after each dart, itself at the end of a line."""
    darts = np.arange(len(tails), dtype=np.int64)
    degree = np.bincount(tails, minlength=nodes)
    one = np.full(nodes, -1, np.int64)
    other = np.full(nodes, -1, np.int64)
    one[tails] = darts
    other[tails[::-1]] = darts[::-1]
    passed = (degree == 2) & (labels[one >> 1] == labels[other >> 1])
    # Of the two darts that leave the node one is this dart turned round; take the other one.
    onward = one[heads] ^ other[heads] ^ (darts ^ 1)
    return np.where(passed[heads], onward, darts)


def _run_to_end(follower: _Ints) -> tuple[_Ints, _Ints]:
    """Return the last dart reached from each dart and the number of steps to it.

    Darts on a loop reach no end: their values mean nothing and they stand out by
    ``follower[last] != last``.
    """
    at = follower.copy()
    steps = (at != np.arange(len(at))).astype(np.int64)
    ended = follower == np.arange(len(at))
    moving = np.flatnonzero(~ended[at])
    for _ in range(len(at).bit_length()):
        if not len(moving):
            break
        reached = at[moving]
        steps[moving] += steps[reached]
        at[moving] = at[reached]
        moving = moving[~ended[at[moving]]]
    return at, steps


def _restricted(follower: _Ints, darts: _Ints) -> tuple[_Ints, _Ints]:
    """Do `_run_to_end` for some darts that are closed under ``follower``."""
    local = np.empty(len(follower), np.int64)
    local[darts] = np.arange(len(darts))
    last, steps = _run_to_end(local[follower[darts]])
    return darts[last], steps


def _cut_loops(follower: _Ints, tails: _Ints, loops: _Ints) -> None:
    """Make an end in every loop, before the dart that leaves its smallest node."""
    local = np.empty(len(follower), np.int64)
    local[loops] = np.arange(len(loops))
    after = local[follower[loops]]
    smallest = tails[loops]
    jump = after.copy()
    for _ in range(len(loops).bit_length()):
        smallest = np.minimum(smallest, smallest[jump])
        jump = jump[jump]
    cut = loops[tails[loops[after]] == smallest]
    follower[cut] = cut


def _collect(tails: _Ints, heads: _Ints, follower: _Ints, last: _Ints, steps: _Ints) -> Chains:
    """Keep one direction of each line and lay its darts out in order."""
    darts = np.arange(len(tails), dtype=np.int64)
    stops = np.flatnonzero(follower == darts)
    # The last dart turned round is the first dart of the same line walked the other way: both
    # directions are there, and `first[stop]` is found by way of the partner.
    starts = np.empty(len(stops), np.int64)
    followed = np.zeros(len(tails), bool)
    followed[follower[follower != darts]] = True
    heads_of_lines = np.flatnonzero(~followed)
    number = np.empty(len(tails), np.int64)
    number[stops] = np.arange(len(stops))
    starts[number[last[heads_of_lines]]] = heads_of_lines
    first, second = tails[starts], heads[starts]
    end, before = heads[stops], tails[stops]
    kept = (first < end) | ((first == end) & (second < before))
    # A line of one edge has first == before: its two ends differ, so the first test decides.
    order = np.flatnonzero(kept)
    order = order[np.lexsort((second[order], first[order]))]
    lengths = steps[starts[order]] + 1
    offsets = np.concatenate(([0], np.cumsum(lengths)))
    rank = np.full(len(stops), -1, np.int64)
    rank[order] = np.arange(len(order))
    line = rank[number[last]]
    mine = np.flatnonzero(line >= 0)
    laid = np.empty(offsets[-1], np.int64)
    laid[offsets[line[mine] + 1] - 1 - steps[mine]] = mine
    return Chains(laid, offsets, first[order] == end[order])
