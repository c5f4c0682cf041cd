"""Long skinny faces at the border: what a triangulation leaves where it had no outline."""

import numpy as np
from numpy.typing import NDArray

from .mesh import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

LONG = 5.0
"""A border side is long from so many times the usual (median) length of an edge."""

FLAT = 0.1
"""A face is skinny where both its inner sides meet the border side at a smaller rise over run."""


def skinny_rim(tin: Tin) -> Ints:
    """Return the long skinny faces at the border, sorted, (k,) int.

    Their border side is long, and the corner opposite lies close to it and well between its
    ends, so that the face bridges a bay of the true outline. (The strip faces of a road, as long
    and as thin, have that corner beside an end.) What lies under them comes to the border when
    they are taken away, and is judged in turn.

    Parameters
    ----------
    tin : Tin
        The surface.
    """
    plan = tin.vertices[:, :2]
    ends = plan[tin.edges.ends]
    length = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    long = length > LONG * float(np.median(length))
    corners = plan[tin.faces]
    sides = np.roll(corners, -1, axis=1) - corners
    run = np.hypot(sides[..., 0], sides[..., 1])
    # Corner k + 2 faces side k: how far it lies along and beside it.
    to_apex = np.roll(corners, -2, axis=1) - corners
    with np.errstate(invalid="ignore", divide="ignore"):
        along = (sides * to_apex).sum(axis=2) / run
        beside = np.abs(sides[..., 0] * to_apex[..., 1] - sides[..., 1] * to_apex[..., 0]) / run
        flat = (beside < FLAT * along) & (beside < FLAT * (run - along))
    edge = tin.edges.face_edges
    may = flat & long[edge]
    use = np.bincount(edge.ravel(), minlength=len(length))
    gone = np.zeros(len(tin.faces), dtype=bool)
    while True:
        found = np.flatnonzero((may & (use[edge] == 1)).any(axis=1) & ~gone)
        if not len(found):
            return np.flatnonzero(gone)
        gone[found] = True
        use -= np.bincount(edge[found].ravel(), minlength=len(use))
