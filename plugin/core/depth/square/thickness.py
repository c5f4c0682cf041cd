"""Thickness measured at right angles to a slope, in plumb depth."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def square_depth(
    gradient_x: ArrayLike, gradient_y: ArrayLike, thickness: ArrayLike, z_scale: float = 1.0
) -> NDArray[np.float64]:
    """Return the plumb depth of a thickness at right angles to a plane.

    It is t sec(a) = t sqrt(1 + g^2), with a the angle and g the rise over run of the slope.

    Parameters
    ----------
    gradient_x, gradient_y : array
        Rise over run, in units of height per unit of plan.
    thickness : array
        In units of height.
    z_scale : float
        Plan units in one unit of height.

    Returns
    -------
    array
        In units of height.
    """
    x, y = np.asarray(gradient_x, dtype=np.float64), np.asarray(gradient_y, dtype=np.float64)
    return np.asarray(thickness) * np.sqrt(1.0 + z_scale**2 * (x * x + y * y))
