"""What a surface is built of, and how."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from ...findings import Finding
from ..mesh import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Manner:
    """How a surface is built.

    Parameters
    ----------
    snap
        Plan distance up to which a vertex lies on a line; twice that, and two vertices are one.
    same_height
        Heights of one place that differ by no more are one.
    longest_edge
        Faces at the border with a longer outer edge are dropped; infinite keeps the hull.
    drape
        Whether breaklines without heights take them from the surface of the rest.
    """

    snap: float = 1e-4
    same_height: float = 0.003
    longest_edge: float = np.inf
    drape: bool = False


@dataclass(frozen=True, eq=False)
class Points:
    """Measured points: (k, 3) coordinates, height NaN where there is none, and (k,) ids."""

    xyz: Floats = field(default_factory=lambda: np.empty((0, 3)))
    ids: Ints = field(default_factory=lambda: np.empty(0, dtype=np.int64))

    def take(self, some: NDArray) -> "Points":
        """Return some of the points."""
        return Points(self.xyz[some], self.ids[some])


@dataclass(frozen=True, eq=False)
class Breaklines:
    """Lines the surface has edges along: (n, 3) coordinates of each, and (k,) ids."""

    lines: Sequence[Floats] = ()
    ids: Ints = field(default_factory=lambda: np.empty(0, dtype=np.int64))

    def take(self, some: Sequence[int]) -> "Breaklines":
        """Return some of the lines."""
        return Breaklines([self.lines[row] for row in some], self.ids[list(some)])


@dataclass(frozen=True, eq=False)
class Boundary:
    """Where the surface ends.

    Parameters
    ----------
    area : shapely Polygon or MultiPolygon
        What it covers, in plan.
    rings : sequence of (n, 3) float
        Closed borders with heights, which become edges of the surface, and what lies off them
        counts for nothing. None where the boundary has no heights and only cuts the surface.
    ids : (r,) int
        Feature of each ring.
    """

    area: shapely.Geometry
    rings: Sequence[Floats] = ()
    ids: Ints = field(default_factory=lambda: np.empty(0, dtype=np.int64))


@dataclass(frozen=True, eq=False)
class Built:
    """A surface, and what became of what it was built of.

    Parameters
    ----------
    tin : Tin
        The surface; the same bytes whatever the order of points and lines.
    points, outside, merged : int
        Points in the surface; left out off the boundary; one with another point or line vertex.
    given, inside, honoured : float
        Plan length of the breaklines: as given, within the boundary, and along edges of the
        surface.
    crossings : int
        Crossings of breaklines at one height, which became vertices.
    conflicts : int
        Places where breaklines disagree about the height.
    duplicates : int
        Places where points disagree about the height.
    dropped : int
        Faces dropped at the border for their long edges.
    uncovered : float
        Plan area within the boundary that has no surface.
    largest_move : float
        Greatest plan distance from a given vertex to the one it is united with.
    unused : (u, 2, 3) float
        Segments of breaklines that are left out because they disagree with others.
    findings : list of Finding
        What may be wrong.
    """

    tin: Tin
    points: int
    outside: int
    merged: int
    given: float
    inside: float
    honoured: float
    crossings: int
    conflicts: int
    duplicates: int
    dropped: int
    uncovered: float
    largest_move: float
    unused: Floats
    findings: list[Finding]
