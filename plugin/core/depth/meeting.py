"""Where the sides of two edges meet at their corner, of a TIN and on a grid alike."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..vectors import cross, dot, turned

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Pair = tuple[Floats, Floats]

_PARALLEL = 1e-12


@dataclass(frozen=True, eq=False)
class Meeting:
    """The lines from corners in which the planes of two sides meet.

    Parameters
    ----------
    ray : (c, 2) float
        Unit vectors along the lines, outward.
    gain : (c,) float
        Way out from the edge that a unit of way along the ray makes, the lesser of both.
    past : two (c,) float
        Sine of the angle by which the ray lies beyond the perpendicular of the edge before, and
        short of that of the edge after.
    apart : (c,) bool
        Whether the planes differ, so that there is such a line.
    """

    ray: Floats
    gain: Floats
    past: Pair
    apart: Flags

    def mitred(self, limit: float) -> Flags:
        """Tell where an outward corner is mitred: within the perpendiculars and the limit."""
        one, two = self.past
        between = (one >= -_PARALLEL) & (two >= -_PARALLEL) & self.apart
        return between & (self.gain * limit >= 1.0)

    def later(self, end: int) -> Flags:
        """Tell where, at an inward corner, the side before (0) or after (1) ends too early.

        Too early is before the line in which it meets the other.
        """
        return (self.gain > 0) & self.apart & (self.past[end] > _PARALLEL)


def meeting(outs: Pair, gradients: Pair) -> Meeting:
    """Return where the planes of the sides before and after corners meet.

    Parameters
    ----------
    outs : two (c, 2) float
        Unit vectors outward from the edge before and from the edge after.
    gradients : two (c, 2) float
        Gradients of the planes, which agree at the corner.
    """
    difference = gradients[0] - gradients[1]
    size = np.sqrt(dot(difference, difference))
    ray = turned(difference) / np.where(size > 0, size, 1.0)[:, None]
    ray[dot(ray, outs[0] + outs[1]) < 0] *= -1.0
    gain = np.minimum(dot(ray, outs[0]), dot(ray, outs[1]))
    return Meeting(ray, gain, (cross(outs[0], ray), cross(ray, outs[1])), size > 0)
