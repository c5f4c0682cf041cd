"""How much the slope changes at every edge of a TIN that has a face on both sides.

Let ``n`` be the unit vector in plan at right angles to an edge, pointing to its right, and
``g`` the gradient of a face. Walking across from left to right the grade goes from
``g_left . n`` to ``g_right . n``; their difference (the *algebraic difference in grade* of road
design) is the change. Seen from the edge itself the two sides rise by ``-g_left . n`` and
``g_right . n``, and the change is the sum of these two rises: negative where the surface is
convex, positive where it is concave.

Both faces hold the edge, so their gradients agree along it and ``g_right - g_left`` is parallel
to ``n``: the size of the change is the length of that difference, and edges below a threshold are
passed over without looking at a single vertex.

The angle between the normals of the two faces is measured at right angles to the edge in space.
For an edge that climbs by ``s`` along itself, a side appears there with the slope
``rise / sqrt(1 + s^2)``; hence ``angle = |atan(rise_left / c) + atan(rise_right / c)|`` with
``c = sqrt(1 + s^2)``. It equals the angle between normals that mesh libraries use.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks
from ..progress import Progress, silent
from ..tin import Tin

WALL_GRADE = 10.0
"""Faces steeper than this (1000 %, 84.3 degrees) stand for a wall, kerb face or step."""

SLACK = 1e-6
"""A change may miss the threshold by this much (0.0001 %): rounding of coordinates."""

BLOCK = 1 << 17
"""Edges looked at together: threads wait for each other's turn where blocks are much smaller."""


class Measure(StrEnum):
    """What a threshold for breaks is given in."""

    GRADE = "grade"
    ANGLE = "angle"


@dataclass(frozen=True)
class EdgeChange:
    """The slope change at some edges of a TIN; left and right look from ``ends[0]`` to ``ends[1]``.

    Parameters
    ----------
    edges : (k,) int64
        Ids of the edges in ``Tin.quick_edges``.
    ends : (k, 2) int64
        Their vertices.
    rise_left, rise_right : (k,) float
        Grade going away from the edge, square to it in plan, on each side; positive rises.
        Infinite beside a face without plan area, NaN beside one without any area.
    length : (k,) float
        Length in plan.
    angle : (k,) float
        Angle between the normals of the two faces, radians, 0 to pi.
    wall : (k,) bool
        True where one of the two faces is steeper than `WALL_GRADE`.
    folded : (k,) bool
        True where both faces lie on the same side of the edge: the surface turns back over
        itself there, and a change of slope has no meaning.
    """

    edges: NDArray[np.int64]
    ends: NDArray[np.int64]
    rise_left: NDArray[np.float64]
    rise_right: NDArray[np.float64]
    length: NDArray[np.float64]
    angle: NDArray[np.float64]
    wall: NDArray[np.bool_]
    folded: NDArray[np.bool_]

    @property
    def change(self) -> NDArray[np.float64]:
        """Signed change (k,): negative convex, positive concave, 0 where a wall goes on."""
        return rise_sum(self.rise_left, self.rise_right)

    @property
    def unknown(self) -> NDArray[np.bool_]:
        """Edges whose change cannot be measured (k,): a fold, or a face without any area.

        An upright edge is not among them: it has no length in plan and is never a break.
        """
        return (self.length > 0) & (self.folded | np.isnan(self.change))

    def reaches(self, minimum: float, measure: Measure) -> NDArray[np.bool_]:
        """Tell which edges change by at least ``minimum``, (k,) bool; see `steep_edges`."""
        size = np.abs(self.change) if measure is Measure.GRADE else self.angle
        return (size >= _floor(minimum)) & (self.length > 0) & ~self.folded

    def turned(self, back: NDArray[np.bool_]) -> "EdgeChange":
        """Return the same with the chosen edges looked along from their other end."""
        pairs = {
            "ends": np.where(back[:, None], self.ends[:, ::-1], self.ends),
            "rise_left": np.where(back, self.rise_right, self.rise_left),
            "rise_right": np.where(back, self.rise_left, self.rise_right),
        }
        return EdgeChange(**{**vars(self), **pairs})

    def take(self, chosen: NDArray[np.bool_] | NDArray[np.int64]) -> "EdgeChange":
        """Return the chosen edges alone."""
        return EdgeChange(**{name: values[chosen] for name, values in vars(self).items()})

    def and_also(self, more: "EdgeChange") -> "EdgeChange":
        """Return these edges and then those of another."""
        pairs = {name: (values, getattr(more, name)) for name, values in vars(self).items()}
        return EdgeChange(**{name: np.concatenate(both) for name, both in pairs.items()})


def rise_sum(left: NDArray[np.float64], right: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return ``left + right``, with 0 for two opposite infinities (a wall that goes on)."""
    with np.errstate(invalid="ignore"):
        total = left + right
    total[np.isinf(left) & np.isinf(right) & (left != right)] = 0.0
    return total


def steep_edges(
    tin: Tin,
    minimum: float,
    measure: Measure = Measure.GRADE,
    z_scale: float = 1.0,
    progress: Progress = silent,
    gradients: NDArray[np.float64] | None = None,
) -> NDArray[np.int64]:
    """Return the ids of the edges with two faces whose slope changes by at least ``minimum``.

    Edges beside a face without plan area come along: `measure_edges` has to decide on them. The
    change itself is worked out only where the gradients differ by enough.

    Parameters
    ----------
    tin
        The surface.
    minimum
        Grade as a ratio (0.02 is 2 %), or an angle in radians, by ``measure``.
    measure
        What ``minimum`` is given in.
    z_scale
        Plan units in one vertical unit.
    progress
        Called once per block of edges.
    gradients
        Slopes of the faces, where they are others than the surface's own.

    Returns
    -------
    (k,) int64
        Ascending.
    """
    halves = tin.quick_edges.halves
    gradients = tin.gradients if gradients is None else gradients
    least = _floor(minimum)
    # The angle between planes whose gradients differ by d is at most 2 atan(d / 2).
    step = least if measure is Measure.GRADE else 2.0 * float(np.tan(least / 2.0))
    squared = (step / z_scale) ** 2

    def steep(begin: int, end: int) -> NDArray[np.int64]:
        left, right = (halves[begin:end] // 3).T
        # Face -1 reads the last row, and is left out below.
        d = gradients.take(left, 0)
        d -= gradients.take(right, 0)
        d *= d
        size = d[:, 0] + d[:, 1]
        edges = np.flatnonzero(~(size < squared))
        edges = edges[(left[edges] >= 0) & (right[edges] >= 0)]
        if measure is Measure.ANGLE:
            g, h = gradients[left[edges]] * z_scale, gradients[right[edges]] * z_scale
            edges = edges[~(_normal_angle(g, h) < least)]
        return edges + begin

    found = in_blocks(steep, len(halves), BLOCK, progress)
    return np.concatenate(found) if found else np.zeros(0, np.int64)


def measure_edges(
    tin: Tin,
    edges: NDArray[np.int64],
    z_scale: float = 1.0,
    progress: Progress = silent,
    gradients: NDArray[np.float64] | None = None,
) -> EdgeChange:
    """Measure the slope change at the given edges, all of which must have two faces.

    Parameters
    ----------
    tin
        The surface.
    edges : (k,) int64
        Edge ids.
    z_scale
        Plan units in one vertical unit.
    progress
        Called once per block of edges.
    gradients
        Slopes of the faces, where they are others than the surface's own.

    Returns
    -------
    EdgeChange
        In the order of ``edges``.
    """
    count = len(edges)
    gradients = tin.gradients if gradients is None else gradients
    result = EdgeChange(
        edges=edges,
        ends=tin.quick_edges.ends_of(edges),
        rise_left=np.empty(count),
        rise_right=np.empty(count),
        length=np.empty(count),
        angle=np.empty(count),
        wall=np.empty(count, bool),
        folded=np.empty(count, bool),
    )
    for start in range(0, count, BLOCK):
        progress(start / count)
        part = slice(start, start + BLOCK)
        _measure_block(tin, gradients, z_scale, result, part)
    return result


def angle_of_rises(
    left: NDArray[np.float64], right: NDArray[np.float64], climb: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the angle between the normals of two sides with these rises, radians, (k,).

    ``climb`` is the grade along the edge itself.
    """
    in_space = np.sqrt(1.0 + climb * climb)
    return np.abs(np.arctan(left / in_space) + np.arctan(right / in_space))


def _floor(minimum: float) -> float:
    """Return the smallest change that counts; never zero, however small the threshold."""
    return minimum - min(SLACK, minimum / 2)


def _measure_block(
    tin: Tin, gradients: NDArray[np.float64], z_scale: float, result: EdgeChange, part: slice
) -> None:
    """Fill one block of ``result``."""
    ends = result.ends[part]
    faces = tin.quick_edges.halves.take(result.edges[part], 0) // 3
    first = tin.vertices.take(ends[:, 0], 0)
    along = tin.vertices.take(ends[:, 1], 0) - first
    length = np.hypot(along[:, 0], along[:, 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        # An edge without length in plan has no square direction: everything there is NaN.
        to_right = np.column_stack((along[:, 1], -along[:, 0])) / length[:, None]
        climb = along[:, 2] * z_scale / length
    rises, steep = [], np.zeros(len(ends), bool)
    for side, sign in ((0, -1.0), (1, 1.0)):
        gradient = gradients.take(faces[:, side], 0) * z_scale
        rise = sign * (gradient[:, 0] * to_right[:, 0] + gradient[:, 1] * to_right[:, 1])
        size = np.hypot(gradient[:, 0], gradient[:, 1])
        upright = np.flatnonzero(np.isnan(size))
        rise[upright] = _upright_rise(tin, ends[upright], faces[upright, side])
        steep |= ~(size <= WALL_GRADE)
        rises.append(rise)
    result.rise_left[part], result.rise_right[part] = rises
    result.length[part] = length
    result.wall[part] = steep
    result.folded[part] = ~(
        _runs_along(tin, ends, faces[:, 0]) & ~_runs_along(tin, ends, faces[:, 1])
    )
    result.angle[part] = angle_of_rises(rises[0], rises[1], climb)


def _runs_along(tin: Tin, ends: NDArray[np.int64], faces: NDArray[np.int64]) -> NDArray[np.bool_]:
    """Tell which faces go round from the first to the second end of their edge, (k,) bool."""
    corners = tin.faces.take(faces, 0)
    first, second = ends[:, 0], ends[:, 1]
    runs = (corners[:, 0] == first) & (corners[:, 1] == second)
    runs |= (corners[:, 1] == first) & (corners[:, 2] == second)
    runs |= (corners[:, 2] == first) & (corners[:, 0] == second)
    return runs


def _upright_rise(
    tin: Tin, ends: NDArray[np.int64], faces: NDArray[np.int64]
) -> NDArray[np.float64]:
    """Return +inf where an upright face stands above its edge, -inf below, NaN without area."""
    corners = tin.faces.take(faces, 0)
    # The corner that is not on the edge: the sum of the three less the two ends.
    apex = tin.vertices.take(corners.sum(1) - ends.sum(1), 0)
    first = tin.vertices.take(ends[:, 0], 0)
    along = tin.vertices.take(ends[:, 1], 0) - first
    squared = along[:, 0] ** 2 + along[:, 1] ** 2
    to_apex = apex - first
    with np.errstate(divide="ignore", invalid="ignore"):
        share = (to_apex[:, 0] * along[:, 0] + to_apex[:, 1] * along[:, 1]) / squared
        above = to_apex[:, 2] - share * along[:, 2]
    known = np.abs(above) > 1e-9 * (np.sqrt(squared) + np.abs(along[:, 2]))
    return np.where(known, np.copysign(np.inf, above), np.nan)


def _normal_angle(g: NDArray[np.float64], h: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the angle between the upward normals of faces with gradients ``g`` and ``h``."""
    across = (h - g) ** 2
    twist = g[:, 0] * h[:, 1] - g[:, 1] * h[:, 0]
    cosine = 1.0 + g[:, 0] * h[:, 0] + g[:, 1] * h[:, 1]
    return np.arctan2(np.sqrt(across[:, 0] + across[:, 1] + twist * twist), cosine)
