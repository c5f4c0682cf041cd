"""Products of many plan vectors at once."""

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def dot(one: Floats, other: Floats) -> Floats:
    """Return the scalar products of vectors (k, 2)."""
    return np.asarray(one[:, 0] * other[:, 0] + one[:, 1] * other[:, 1], dtype=np.float64)


def cross(one: Floats, other: Floats) -> Floats:
    """Return the cross products of vectors (k, 2), positive where ``other`` is to the left."""
    return np.asarray(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0], dtype=np.float64)


def turned(way: Floats) -> Floats:
    """Return vectors (k, 2) turned a quarter counter-clockwise."""
    return np.column_stack((-way[:, 1], way[:, 0]))
