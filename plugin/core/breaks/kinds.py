"""What a slope break is called, from the way the ground goes on either side of it.

The *rise* of a side is the grade met when walking away from the edge at right angles to it in
plan: positive goes up, negative goes down. With the rises of both sides

===========  ==========================  =======================================
kind         shape                       sides
===========  ==========================  =======================================
``ridge``    convex (sum of rises < 0)   falls on both
``top``      convex                      falls on one side only: top of a slope
``valley``   concave (sum of rises > 0)  rises on both
``toe``      concave                     rises on one side only: toe of a slope
===========  ==========================  =======================================

A side within `LEVEL_GRADE` of zero is level: it neither rises nor falls. So the rim of a level
platform is a ``top`` and the rim of a level floor a ``toe``. At a ``top`` the steeper side lies
below the edge, or its upper side is the flatter one; at a ``toe`` the steeper side lies above.
"""

from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

LEVEL_GRADE = 1e-3
"""A side that rises or falls less than this (0.1 %) counts as level."""


class Kind(StrEnum):
    """Kind of a line; the position in `KINDS` is its code in arrays.

    All but ``edge``, the outline of the surface, are slope breaks.
    """

    RIDGE = "ridge"
    VALLEY = "valley"
    TOP = "top"
    TOE = "toe"
    EDGE = "edge"


KINDS: tuple[Kind, ...] = tuple(Kind)
BREAK_KINDS: tuple[Kind, ...] = (Kind.RIDGE, Kind.VALLEY, Kind.TOP, Kind.TOE)


def classify(
    rise_left: NDArray[np.float64],
    rise_right: NDArray[np.float64],
    level: float = LEVEL_GRADE,
) -> NDArray[np.int8]:
    """Return the kind of each break.

    Parameters
    ----------
    rise_left, rise_right : (k,) float
        Grade going away from the edge on each side; infinite beside an upright face.
    level
        Largest absolute rise that counts as level.

    Returns
    -------
    (k,) int8
        Index into `KINDS`; -1 where there is no change or it is not known (NaN).
    """
    # An upright face that goes on across the edge has rises +inf and -inf: no change, kind -1.
    with np.errstate(invalid="ignore"):
        change = rise_left + rise_right
    both_fall = (rise_left < -level) & (rise_right < -level)
    both_rise = (rise_left > level) & (rise_right > level)
    kind = np.full(len(change), -1, np.int8)
    kind[change < 0] = KINDS.index(Kind.TOP)
    kind[change > 0] = KINDS.index(Kind.TOE)
    kind[both_fall] = KINDS.index(Kind.RIDGE)
    kind[both_rise] = KINDS.index(Kind.VALLEY)
    return kind


def lower_side(
    rise_left: NDArray[np.float64],
    rise_right: NDArray[np.float64],
    level: float = LEVEL_GRADE,
) -> NDArray[np.int64]:
    """Return which side of a ``top`` or ``toe`` lies lower: 1 left, 2 right; 0 at other kinds.

    Where both sides are nearly level the one that falls more, or rises less, is the lower.
    """
    both = (rise_left < -level) & (rise_right < -level)
    both |= (rise_left > level) & (rise_right > level)
    side = np.where(rise_left < rise_right, 1, 2)
    return np.where(both, 0, side).astype(np.int64)
