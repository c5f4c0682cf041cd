"""The mesh in which sides are cut."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Ground:
    """A mesh with heights per corner.

    Parameters
    ----------
    xy : (n, 2) float
        Plan positions.
    faces : (m, 3) int
        Counter-clockwise.
    heights, design : (m, 3) float
        At the corners of the faces.
    region : (m,) int
        Zone whose bottom each face is, -1 outside all.
    closed : (m,) bool
        Faces that no side may change.
    across : (m, 3) int
        Neighbour across each side, -1 for none.
    follow : bool
        Sides count from the design.
    eps : float
        Plan distance within which a node is on a line.
    noise : float
        Rounding of heights.
    """

    xy: Floats
    faces: Ints
    heights: Floats
    design: Floats
    region: Ints
    closed: Flags
    across: Ints
    follow: bool
    eps: float
    noise: float

    def gradients(self, faces: Ints, values: Floats) -> Floats:
        """Return the gradient of corner values (f, 3) over some faces, 0 where a face is flat."""
        corners = self.xy[self.faces[faces]]
        u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
        a, b = values[:, 1] - values[:, 0], values[:, 2] - values[:, 0]
        doubled = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        longest = np.sqrt(np.maximum((u * u).sum(axis=1), (v * v).sum(axis=1)))
        flat = doubled <= 1e-3 * self.eps * longest
        doubled = np.where(flat, 1.0, doubled)
        result = np.column_stack((a * v[:, 1] - b * u[:, 1], b * u[:, 0] - a * v[:, 0]))
        result /= doubled[:, None]
        result[flat] = 0.0
        return result
