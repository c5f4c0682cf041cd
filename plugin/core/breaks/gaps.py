"""Small gaps between the ends of lines, bridged where both run on towards each other."""

import numpy as np
import shapely
from numpy.typing import NDArray

from .change import EdgeChange
from .first_come import first_come
from .walk import Walk

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_TURN = 30.0
"""A bridge and the line at each of its ends differ in direction by no more, degrees."""


def bridges(points: Floats, walk: Walk, gap: float) -> EdgeChange | None:
    """Return edges that bridge the gaps between ends of lines; None where there is none.

    Two ends are bridged when they are no farther apart than ``gap``, both lines are convex or both
    concave, and both run on within `MOST_TURN` of the bridge. Nearest ends go first; an end is
    bridged once.

    Parameters
    ----------
    points : (n, 3) float
        Places of the vertices.
    walk
        The lines, open or closed.
    gap
        Longest bridge, plan units.

    Returns
    -------
    EdgeChange
        Edges numbered -1, with the mean of the rises at both ends.
    """
    node, out, left, right, angle = _ends(points, walk)
    xy = points[node, :2]
    one, other = shapely.STRtree(shapely.points(xy)).query(
        shapely.points(xy), predicate="dwithin", distance=gap
    )
    ahead = one < other
    one, other = one[ahead], other[ahead]
    step = xy[other] - xy[one]
    length = np.hypot(step[:, 0], step[:, 1])
    least = np.cos(np.radians(MOST_TURN))
    convex = left + right < 0
    good = (length > 0) & (convex[one] == convex[other])
    good &= (step * out[one]).sum(axis=1) >= least * length
    good &= -(step * out[other]).sum(axis=1) >= least * length
    one, other, length = one[good], other[good], length[good]
    order = np.lexsort((other, one, length))
    chosen = order[first_come(one[order], other[order], len(node))]
    one, other, length = one[chosen], other[chosen], length[chosen]
    if not len(one):
        return None
    # Seen along the bridge the second line is walked inwards: its sides change places.
    return EdgeChange(
        edges=np.full(len(one), -1),
        ends=np.column_stack((node[one], node[other])),
        rise_left=(left[one] + right[other]) / 2.0,
        rise_right=(right[one] + left[other]) / 2.0,
        length=length,
        angle=(angle[one] + angle[other]) / 2.0,
        wall=np.zeros(len(one), bool),
        folded=np.zeros(len(one), bool),
    )


def _ends(points: Floats, walk: Walk) -> tuple[Ints, Floats, Floats, Floats, Floats]:
    """Return node, outward direction, rises left and right looking outward, angle of all ends."""
    open_ = np.flatnonzero(~walk.closed)
    first, last = walk.offsets[:-1][open_], walk.offsets[1:][open_] - 1
    node = np.concatenate((walk.tails[first], walk.heads[last]))
    inner = np.concatenate((walk.heads[first], walk.tails[last]))
    out = points[node, :2] - points[inner, :2]
    out /= np.hypot(out[:, 0], out[:, 1])[:, None]
    left = np.concatenate((walk.right[first], walk.left[last]))
    right = np.concatenate((walk.left[first], walk.right[last]))
    return node, out, left, right, np.concatenate((walk.angle[first], walk.angle[last]))
