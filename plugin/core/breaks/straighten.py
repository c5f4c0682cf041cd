"""Zig-zags of break lines straightened, vertex by vertex.

Where a break does not follow the edges of the surface (another triangulation, noise, a fillet dealt
out to both sides) its line goes to and fro across it. A vertex of a zig-zag turns the other way
than its neighbours do; it moves to the mean of itself and theirs, weighted 2 : 1 : 1, which takes
an even zig-zag to its middle in one step. Bends and corners turn one way, and stay where they are;
so does everything that leaves the straight way by less than `PLAIN` of the tolerance. No vertex
moves farther than the tolerance, in plan or in height; the way across the line comes first, so
that long teeth are cut off as well as short ones.
"""

import numpy as np
import shapely
from numpy.typing import NDArray

from ..vectors import cross, dot
from .chains import Chains

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

PLAIN = 0.02
"""Share of the tolerance that a line may leave its straight way by without being a zig-zag."""
ROUNDS = 40


def straightened(
    points: Floats, chains: Chains, ends: Ints, tolerance: float, fixed: NDArray[np.bool_]
) -> Floats:
    """Return the places of the nodes with zig-zags straightened.

    Parameters
    ----------
    points : (n, 3) float
        Places of the nodes.
    chains
        Lines through them; what is no inner node of just one line stays.
    ends : (k, 2) int
        Nodes of the edges that the lines are made of.
    tolerance
        Farthest that a node may move, plan units; heights in the same unit.
    fixed : (n,) bool
        Nodes that stay.

    Returns
    -------
    (n, 3) float
    """
    before, node, after = _inner(chains, ends, len(points))
    free = ~fixed[node]
    before, node, after = before[free], node[free], after[free]
    place = points.copy()
    for _ in range(ROUNDS):
        zig = _zig_zag(place[:, :2], before, node, after, tolerance)
        if not zig.any():
            break
        a, b, c = before[zig], node[zig], after[zig]
        # Both neighbours first: the same bits whichever way the line is walked.
        target = ((place[a] + place[c]) + 2.0 * place[b]) / 4.0
        place[b] = points[b] + _no_farther(target - points[b], place[c] - place[a], tolerance)
    return place


def uncrossed(points: Floats, place: Floats, ends: Ints) -> Floats:
    """Put nodes back where moving them has made edges touch that do not share a node.

    Parameters
    ----------
    points, place : (n, 3) float
        Where the nodes were, and where they have been moved.
    ends : (k, 2) int
        Nodes of all edges that must not cross.
    """
    place = place.copy()
    while True:
        moved = (place[:, :2] != points[:, :2]).any(axis=1)
        edges = ends[moved[ends].any(axis=1)]
        lines = shapely.linestrings(place[ends][:, :, :2])
        one, other = shapely.STRtree(lines).query(
            shapely.linestrings(place[edges][:, :, :2]), predicate="intersects"
        )
        a, b = edges[one], ends[other]
        apart = (a[:, :, None] != b[:, None, :]).all(axis=(1, 2))
        back = np.union1d(a[apart], b[apart])
        back = back[moved[back]]
        if not len(back):
            return place
        place[back] = points[back]


def _inner(chains: Chains, ends: Ints, nodes: int) -> tuple[Ints, Ints, Ints]:
    """Return the inner nodes of all lines in order, with the nodes before and after each."""
    tails = np.ascontiguousarray(ends).reshape(-1)
    tail, head = tails[chains.darts], tails[chains.darts ^ 1]
    first, last = chains.offsets[:-1], chains.offsets[1:] - 1
    # Where a closed line happens to start is a node like any other.
    previous = np.arange(-1, len(tail) - 1)
    previous[first] = np.where(chains.closed, last, -1)
    inner = np.flatnonzero(previous >= 0)
    before, node, after = tail[previous[inner]], tail[inner], head[inner]
    # A node where lines meet belongs to none of them alone.
    single = np.bincount(tails, minlength=nodes)[node] == 2
    return before[single], node[single], after[single]


def _zig_zag(
    xy: Floats, before: Ints, node: Ints, after: Ints, tolerance: float
) -> NDArray[np.bool_]:
    """Tell which inner nodes belong to a zig-zag."""
    into, out = xy[node] - xy[before], xy[after] - xy[node]
    chord = xy[after] - xy[before]
    turn = cross(into, out)
    size = np.hypot(chord[:, 0], chord[:, 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        height = np.abs(turn) / size
    bent = ~(height <= PLAIN * tolerance)
    sense = np.zeros(len(xy), np.int8)
    sense[node] = np.where(bent, np.sign(turn), 0)
    behind, ahead = sense[before] * sense[node] < 0, sense[node] * sense[after] < 0
    short_in = np.hypot(into[:, 0], into[:, 1]) < 2.0 * tolerance
    short_out = np.hypot(out[:, 0], out[:, 1]) < 2.0 * tolerance
    # An S-bend turns over once, between long sides; a zig-zag does so again and again.
    middle = np.zeros(len(xy), bool)
    middle[node] = behind & ahead
    return (
        bent
        & (height <= tolerance)
        & (
            (behind & ahead)
            | (behind & (short_in | middle[before]))
            | (ahead & (short_out | middle[after]))
        )
    )


def _no_farther(move: Floats, chord: Floats, most: float) -> Floats:
    """Return moves cut to a length in plan, and in height.

    What a move goes across the chord from neighbour to neighbour counts; along it a vertex slides
    as far as is left, with the height that the line has there.
    """
    size = np.hypot(chord[:, 0], chord[:, 1])
    way = np.divide(
        chord[:, :2], size[:, None], out=np.zeros((len(chord), 2)), where=size[:, None] > 0
    )
    asked = dot(move[:, :2], way)
    across = move[:, :2] - asked[:, None] * way
    aside = np.hypot(across[:, 0], across[:, 1])
    across *= np.minimum(1.0, most / np.maximum(aside, 1e-300))[:, None]
    left = np.sqrt(np.maximum(most * most - aside * aside, 0.0))
    along = np.clip(asked, -left, left)
    climb = np.divide(chord[:, 2], size, out=np.zeros(len(chord)), where=size > 0)
    height = move[:, 2] + (along - asked) * climb
    return np.column_stack((across + along[:, None] * way, np.clip(height, -most, most)))
