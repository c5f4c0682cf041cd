"""A surface in the making: faces that fit in plan, each with heights of its own."""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from ..tin.cut import CutTin

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

    def take(self, rows: Ints | NDArray[np.bool_]) -> "Patchwork":
        """Return the patchwork of some of the faces."""
        return Patchwork(
            self.points,
            self.faces[rows],
            self.heights[rows],
            self.design[rows],
            self.zone[rows],
            self.parent[rows],
            self.part[rows],
        )


def lay(cut: CutTin, depths: Floats, origin: Floats, *, lower_rest: bool = False) -> Patchwork:
    """Lay each face of a cut design down plumb by the depth of its zone.

    Parameters
    ----------
    cut : CutTin
        The design, each face in one zone.
    depths : (k + 1,) float
        Depth of each zone, positive downwards; the last is that of the faces outside all.
    origin : (2,) float
        Where the points of the patchwork count from.
    lower_rest : bool
        Whether faces outside all zones are bottoms too; otherwise they are the design itself.
    """
    tin = cut.tin
    design = tin.vertices[tin.faces, 2]
    other = Part.BOTTOM if lower_rest else Part.DESIGN
    return Patchwork(
        tin.vertices[:, :2] - origin,
        tin.faces,
        design - np.asarray(depths, dtype=np.float64)[cut.zone][:, None],
        design,
        cut.zone,
        cut.parent,
        np.where(cut.zone < 0, other, Part.BOTTOM),
    )
