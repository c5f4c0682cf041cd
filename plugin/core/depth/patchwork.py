"""A surface in the making: faces that fit in plan, each with heights of its own."""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class Part(IntEnum):
    """What a face of a depth surface is."""

    DESIGN = 0
    BOTTOM = 1
    STEP = 2
    BATTER = 3


@dataclass(frozen=True, eq=False)
class Patchwork:
    """Faces that share their points in plan without cracks, each with heights at its corners.

    Heights jump across the border of a zone with upright sides; steps close the jumps at the end.

    Parameters
    ----------
    points : (n, 2) float
        Plan positions, counted from nearby (the caller keeps the origin).
    faces : (m, 3) int
        Counter-clockwise.
    heights : (m, 3) float
        Height of the surface at the corners of each face.
    design : (m, 3) float
        Height of the design there.
    zone : (m,) int
        Row of the zone each face belongs to, -1 outside all.
    parent : (m,) int
        Face of the design each face lies below.
    part : (m,) int
        `Part` of each face.
    """

    points: Floats
    faces: Ints
    heights: Floats
    design: Floats
    zone: Ints
    parent: Ints
    part: Ints
