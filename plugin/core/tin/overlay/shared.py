"""The polygons that pairs of faces share, and the range of the difference over them."""

import numpy as np
from numpy.typing import NDArray

from .difference import Heights
from .frame import Pairs
from .polygons import Polygons
from .walk import Overlay

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

U, V, D, X, Y = range(5)
"""What a corner carries: its place in the frame, the difference of the planes, x and y."""


def shared_polygons(ground: Overlay, pairs: Pairs, high: Heights, some: Ints) -> Polygons:
    """Clip the first faces of some of the pairs by the second ones.

    Parameters
    ----------
    ground : Overlay
        The surfaces.
    pairs : Pairs
        Pairs of their faces.
    high : Heights
        Their difference.
    some : (k,) int
        The pairs asked for.
    """
    rows = ground.first(pairs).rows
    values = np.empty((len(some), 3, 5))
    one = pairs.one[some]
    for k in range(3):
        values[:, k, U], values[:, k, V] = pairs.u[k, some], pairs.v[k, some]
        values[:, k, D] = high.corners[k, some]
        values[:, k, X], values[:, k, Y] = rows.x[k, one], rows.y[k, one]
    shared = Polygons(values, np.full(len(some), 3, dtype=np.int64))
    size = pairs.size[some, None]
    shared = shared.clip(size - shared.values[..., U] - shared.values[..., V])
    shared = shared.clip(shared.values[..., U])
    return shared.clip(shared.values[..., V])


def extremes(ground: Overlay, pairs: Pairs, high: Heights, some: Ints) -> tuple[Floats, Floats]:
    """Return the least and the greatest difference upper - lower over what pairs share."""
    shared = shared_polygons(ground, pairs, high, some)
    above = shared.values[..., D]
    least = np.where(shared.valid, above, np.inf).min(axis=1)
    most = np.where(shared.valid, above, -np.inf).max(axis=1)
    # Beside a steep face rounding may reach past the bounds, which hold whatever it does.
    met = shared.count > 0
    least[met] = np.maximum(least[met], high.least[some][met])
    most[met] = np.minimum(most[met], high.most[some][met])
    return (-most, -least) if pairs.swapped else (least, most)
