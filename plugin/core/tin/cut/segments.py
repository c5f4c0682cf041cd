"""Segments that carry the zone on their left and right."""

import numpy as np
from numpy.typing import NDArray

Ints = NDArray[np.int64]


def cancel_doubles(ends: Ints, sides: Ints) -> tuple[Ints, Ints]:
    """Turn segments from the lower to the higher end, unite equal ones, drop those of no use.

    Where borders have fallen onto each other (A|B and B|C), the zone between them has vanished
    and A|C is left. A segment with the same zone on both sides is no border.

    Parameters
    ----------
    ends : (s, 2) int
        Numbers of the two ends.
    sides : (s, 2) int
        Zone on the left and on the right, looking from the first end to the second.

    Returns
    -------
    ends : (t, 2) int
        Distinct, sorted, lower end first.
    sides : (t, 2) int
        The two differ.
    """
    backwards = ends[:, 0] > ends[:, 1]
    ends = np.where(backwards[:, None], ends[:, ::-1], ends)
    sides = np.where(backwards[:, None], sides[:, ::-1], sides)
    proper = (ends[:, 0] != ends[:, 1]) & (sides[:, 0] != sides[:, 1])
    ends, sides = ends[proper], sides[proper]
    order = np.lexsort((sides[:, 1], sides[:, 0], ends[:, 1], ends[:, 0]))
    ends, sides = ends[order], sides[order]
    fresh = np.ones(len(ends), dtype=bool)
    fresh[1:] = (ends[1:] != ends[:-1]).any(axis=1)
    first = np.flatnonzero(fresh)
    count = np.diff(np.append(first, len(ends)))
    united = sides[first].copy()
    for row in np.flatnonzero(count > 1):
        some = slice(first[row], first[row] + count[row])
        united[row] = _outermost(sides[some])
    kept = united[:, 0] != united[:, 1]
    return ends[first][kept], united[kept]


def _outermost(sides: Ints) -> tuple[int, int]:
    """Return what is left of all and right of all of some borders that coincide."""
    left, right = list(sides[:, 0]), list(sides[:, 1])
    for zone in sides[:, 0]:
        if zone in right:
            left.remove(zone)
            right.remove(zone)
    if len(left) != 1:
        # They cancel, or the borders do not form a row of neighbours (they cannot then all have
        # bounded something here).
        return (0, 0) if not left else (min(left), min(right))
    return left[0], right[0]
