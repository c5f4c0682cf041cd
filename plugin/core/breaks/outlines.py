"""The outlines of patches as polygons, along the same borders as the break lines."""

import numpy as np
from numpy.typing import NDArray

from ..outlines import polygons_of_borders
from ..tin import Tin
from .patches import Patches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def outlines(tin: Tin, patches: Patches, points: Floats) -> NDArray[np.object_]:
    """Return the plan outline of each patch, (k,) polygons and multipolygons.

    The outlines share their borders vertex for vertex, and cover the surface without gaps.

    Parameters
    ----------
    tin
        The surface.
    patches
        Its patches.
    points : (n, 3) float
        Places of the vertices, as the break lines have them.

    Returns
    -------
    (k,) object
        None for a patch without plan area (a wall).
    """
    ends, left, right = _borders(tin, patches)
    return polygons_of_borders(points, ends, left, right, len(patches))


def _borders(tin: Tin, patches: Patches) -> tuple[Ints, Ints, Ints]:
    """Return the edges between patches and at the rim, with the patch on each side (-1 none)."""
    faces = tin.edges.faces
    of = np.where(faces >= 0, patches.of_face[faces], -1)
    border = np.flatnonzero(of[:, 0] != of[:, 1])
    ends = tin.edges.ends[border]
    plan = tin.vertices[ends][:, :, :2]
    has_length = (plan[:, 0] != plan[:, 1]).any(axis=1)
    return ends[has_length], of[border[has_length], 0], of[border[has_length], 1]
