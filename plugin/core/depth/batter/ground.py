"""The mesh in which sides are cut."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from ...tin.edges import pair_half_edges
from ..patchwork import Part, Patchwork

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

END, RIM = -1, -2
"""Across the edge of the mesh, and of the part of it that is looked at, there is no face."""

_EPS_SHARE = 5e-4  # of the snap distance
_EPS_EXTENT = 1e-11
_ROUNDING = 1e-12
_FLAT = 1e-3  # of eps


@dataclass(frozen=True, eq=False)
class Ground:
    """A part of a mesh, with heights per corner. Its nodes keep their numbers.

    Parameters
    ----------
    xy : (n, 2) float
        Plan positions of all nodes of the mesh.
    rows : (m,) int
        Number of each face in the mesh, ascending.
    faces : (m, 3) int
        Counter-clockwise.
    heights, design : (m, 3) float
        At the corners of the faces.
    region : (m,) int
        Zone whose bottom each face is, -1 outside all.
    closed : (m,) bool
        Faces that no side may change.
    across : (m, 3) int
        Neighbour across each side, `END` or `RIM` for none.
    follow : bool
        Sides count from the design.
    eps : float
        Plan distance within which a node is on a line.
    noise : float
        Rounding of heights.
    """

    xy: Floats
    rows: Ints
    faces: Ints
    heights: Floats
    design: Floats
    region: Ints
    closed: Flags
    across: Ints
    follow: bool
    eps: float
    noise: float

    @classmethod
    def part_of(
        cls, patch: Patchwork, near: Flags, follow: bool, outside_only: bool, snap: float
    ) -> "Ground":
        """Return the faces with a corner among some nodes.

        Parameters
        ----------
        patch : Patchwork
            The mesh.
        near : (n,) bool
            The nodes.
        follow : bool
            As above.
        outside_only : bool
            Sides may change nothing in zones.
        snap : float
            Snap distance of the run.
        """
        one, two, three = near[patch.faces].T
        rows = np.flatnonzero(one | two | three)
        faces = patch.faces[rows]
        across = pair_half_edges(faces).neighbours.copy()
        row, side = np.nonzero(across < 0)
        # Faces that are left out have no corner among the nodes.
        rim = ~near[faces[row, side]] & ~near[faces[row, (side + 1) % 3]]
        across[row[rim], side[rim]] = RIM
        region = regions(patch)[rows]
        extent = float(max(np.ptp(column) for column in patch.points.T))
        highest = max(abs(float(patch.heights.max())), abs(float(patch.heights.min())))
        return cls(
            patch.points,
            rows,
            faces,
            patch.heights[rows],
            patch.design[rows],
            region,
            (region >= 0) & outside_only,
            across,
            follow,
            max(_EPS_SHARE * snap, _EPS_EXTENT * extent),
            _ROUNDING * max(extent, highest),
        )

    @cached_property
    def slopes(self) -> Floats:
        """Gradient of the surface over each face, (m, 2) float, 0 where a face is flat."""
        return self.gradients(np.arange(len(self.faces)), self.heights)

    @cached_property
    def rises(self) -> Floats:
        """Gradient of the design over each face, (m, 2) float, 0 where a face is flat."""
        return self.gradients(np.arange(len(self.faces)), self.design)

    def gradients(self, faces: Ints, values: Floats) -> Floats:
        """Return the gradient of corner values (f, 3) over some faces."""
        corners = self.xy[self.faces[faces]]
        u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
        a, b = values[:, 1] - values[:, 0], values[:, 2] - values[:, 0]
        doubled = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        longest = np.sqrt(np.maximum((u * u).sum(axis=1), (v * v).sum(axis=1)))
        flat = doubled <= _FLAT * self.eps * longest
        doubled = np.where(flat, 1.0, doubled)
        result = np.column_stack((a * v[:, 1] - b * u[:, 1], b * u[:, 0] - a * v[:, 0]))
        result /= doubled[:, None]
        result[flat] = 0.0
        return result


def regions(patch: Patchwork) -> Ints:
    """Return the zone whose bottom each face is, (m,) int, -1 for others."""
    return np.where(patch.part == Part.BATTER, -1, patch.zone)
