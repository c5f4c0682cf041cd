"""What a cut hands back."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..mesh import Tin

Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class CutTin:
    """A surface whose faces each lie in one zone.

    Parameters
    ----------
    tin : Tin
        The pieces. Its first vertices are those of the design, unmoved.
    zone : (m,) int
        Zone of each face, -1 outside all.
    parent : (m,) int
        Face of the design each face is (part of).
    largest_move : float
        Greatest plan distance between the borders as given and as cut.
    closed_gaps, widest_gap : int, float
        Gaps between zones too thin to be meant, given to a neighbour; mean width of the widest.
    loose : (u,) int
        Faces of the design in which borders contradict each other after snapping: they are whole
        and fit their neighbours, but a border through them may be missing.
    doubtful : (d,) int
        Faces of the result whose zone the borders around them do not agree about.
    fallbacks : int
        Faces that were divided one at a time.
    """

    tin: Tin
    zone: Ints
    parent: Ints
    largest_move: float
    closed_gaps: int
    widest_gap: float
    loose: Ints
    doubtful: Ints
    fallbacks: int
