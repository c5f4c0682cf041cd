"""The outlines of patches as polygons, along the same borders as the break lines."""

import numpy as np
from numpy.typing import NDArray

from ..outlines import outlines_of_faces
from ..tin import Tin
from .patches import Patches

Floats = NDArray[np.float64]


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
    return outlines_of_faces(tin, patches.of_face, points, len(patches))
