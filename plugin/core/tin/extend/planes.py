"""The plane of each strip beyond an edge of the border."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..health import STEEP
from ..mesh import Tin
from .border import Border
from .manner import Rule

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Strips:
    """Directions and planes of the strips, one an edge of the border.

    Parameters
    ----------
    along, out : (b, 2) float
        Unit vectors along the edge and at right angles away from the surface.
    slope : (b, 2) float
        Gradient of the strip, height over plan length.
    unfit : (b,) bool
        Edges whose face has no slope to carry on; their strips are level at right angles.
    """

    along: Floats
    out: Floats
    slope: Floats
    unfit: NDArray[np.bool_]

    def heights(self, border: Border, edge: Ints, xy: Floats) -> Floats:
        """Return the height of the strips of edges at plan positions, (k,) float."""
        # From the nearer end, so that nothing is lost on long edges.
        start, stop = border.start[edge], border.stop[edge]
        one, other = xy - start[:, :2], xy - stop[:, :2]
        nearer = (one**2).sum(axis=1) <= (other**2).sum(axis=1)
        base = np.where(nearer[:, None], start, stop)
        off = np.where(nearer[:, None], one, other)
        return base[:, 2] + (off * self.slope[edge]).sum(axis=1)


def strips_of(
    tin: Tin, border: Border, rule: Rule, grade: float, snap: float, z_scale: float
) -> Strips:
    """Return the strips beyond the edges of a border.

    Parameters
    ----------
    tin : Tin
        The surface.
    border : Border
        Its border.
    rule : Rule
        Which slope the strips have.
    grade : float
        Height over plan length at right angles to the edge, positive rising outward; for
        ``Rule.GRADE``.
    snap : float
        Plan width below which a face tells no slope.
    z_scale : float
        Plan units in a unit of height.
    """
    run = border.stop - border.start
    length = np.hypot(run[:, 0], run[:, 1])
    along = run[:, :2] / length[:, None]
    out = np.column_stack([along[:, 1], -along[:, 0]])
    rise = run[:, 2] / length
    gradient = tin.gradients[border.face]
    across = (gradient * out).sum(axis=1)
    steep = np.hypot(gradient[:, 0], gradient[:, 1]) * z_scale
    thin = 2.0 * tin.plan_areas[border.face] <= snap * length
    with np.errstate(invalid="ignore"):
        unfit = ~np.isfinite(across) | thin | (steep > STEEP)
    outward = np.zeros(len(border))
    if rule is Rule.GRADE:
        outward += grade
    elif rule is Rule.CARRY:
        outward[~unfit] = across[~unfit]
    slope = rise[:, None] * along + outward[:, None] * out
    if rule is Rule.CARRY:
        slope[~unfit] = gradient[~unfit]
    return Strips(along, out, slope, unfit & (rule is Rule.CARRY))
