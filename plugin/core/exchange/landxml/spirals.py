"""Transition curves, laid out by their curvature.

The curvature of a transition changes from its start to its end by a law of the share t of its
length: k(t) = k0 + (k1 - k0) f(t). Its direction is the integral of that, known in closed form
below, and its position the integral of (cos, sin) of the direction, done by Gauss-Legendre
quadrature on panels so short that the error is at rounding level.

Laws (from memory of the standard literature on railway transitions; the clothoid is tested
against Fresnel integrals, the others against adaptive quadrature of their law):

==================  ==========================================
clothoid            f = t
bloss               f = 3 t^2 - 2 t^3
cosine              f = (1 - cos(pi t)) / 2
sinusoid            f = t - sin(2 pi t) / (2 pi)
biquadratic         f = 2 t^2, from the middle 1 - 2 (1 - t)^2
==================  ==========================================
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_NODES, _WEIGHTS = np.polynomial.legendre.leggauss(10)  # type: ignore[no-untyped-call]
LARGEST_TURN = 0.2
"""Radians of turning in one panel: ten nodes are then exact to rounding."""


def _biquadratic(t: Floats) -> Floats:
    return np.where(t < 0.5, 2.0 * t**3 / 3.0, t - 0.5 + 2.0 * (1.0 - t) ** 3 / 3.0)


INTEGRALS: dict[str, Callable[[Floats], Floats]] = {
    "clothoid": lambda t: t**2 / 2.0,
    "bloss": lambda t: t**3 - t**4 / 2.0,
    "cosine": lambda t: t / 2.0 - np.sin(np.pi * t) / (2.0 * np.pi),
    "sinusoid": lambda t: t**2 / 2.0 + (np.cos(2.0 * np.pi * t) - 1.0) / (4.0 * np.pi**2),
    "biquadratic": _biquadratic,
}
"""Integral of each law f from 0 to t. All end at 1/2."""


def lay_out(
    law: str, length: float, start: float, end: float, chord: float
) -> tuple[Floats, Floats]:
    """Return points on a transition that starts at the origin along the x axis.

    Parameters
    ----------
    law
        A key of `INTEGRALS`.
    length
        Length along the curve.
    start, end
        Curvature there: one over the radius, positive turning left, zero for straight.
    chord
        Largest distance between the curve and the chords between the points.

    Returns
    -------
    distances : (k,) float
        Distance along the curve of each point.
    points : (k, 2) float
        The points.
    """
    largest = max(abs(start), abs(end))
    by_chord = length * np.sqrt(largest / (8.0 * chord))
    # An even number, since the biquadratic law changes in the middle.
    panels = 2 * int(np.ceil(max(by_chord, length * largest / LARGEST_TURN, 2.0) / 2.0))
    distances = np.linspace(0.0, length, panels + 1)
    half = length / panels / 2.0
    inside = (distances[:-1] + half)[:, None] + half * _NODES
    turned = start * inside + (end - start) * length * INTEGRALS[law](inside / length)
    steps = half * np.column_stack((np.cos(turned) @ _WEIGHTS, np.sin(turned) @ _WEIGHTS))
    points = np.zeros((panels + 1, 2))
    np.cumsum(steps, axis=0, out=points[1:])
    return distances, points
