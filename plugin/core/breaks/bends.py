"""Borders of patches where the surface only bends.

A cone, a warped lane or a vertical curve has no break, yet its slope changes from patch to patch. A
surface of the second degree follows a bend but no break: beside a sharp change of grade its misfit
is one sixteenth of that of a plane (for ``|x|`` from -1 to 1 it is 1/96 against 1/6). So for each
pair of neighbours two misfits are compared: that of the second degree to the surface itself, less
what the planes of the two leave (noise), and that to these two planes instead of the surface, which
have a break by construction. At a break both are about the same; where the surface bends, the first
is a small part of the second.
"""

import numpy as np
from numpy.typing import NDArray

from ..tin import Tin
from .curved import Curved
from .patches import Patches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

AS_MUCH = 0.5
"""Share of the misfit beside a break from which a border is one."""


def only_bends(tin: Tin, patches: Patches, pairs: Ints, z_scale: float = 1.0) -> NDArray[np.bool_]:
    """Tell between which neighbouring patches the surface bends without a break.

    Parameters
    ----------
    tin
        The surface.
    patches
        Its patches.
    pairs : (p, 2) int
        Neighbours; none of them a wall.
    z_scale
        Plan units in one vertical unit.

    Returns
    -------
    (p,) bool
    """
    asked = np.unique(pairs)
    number = np.full(len(patches), -1)
    number[asked] = np.arange(len(asked))
    # A fillet that was dealt to both sides would make their break look like a bend.
    faces = np.flatnonzero((number[patches.of_face] >= 0) & patches.own)
    faces = faces[np.argsort(number[patches.of_face[faces]], kind="stable")]
    corners = (tin.vertices - patches.origin).take(tin.faces[faces], axis=0)
    corners[:, :, 2] *= z_scale
    planes = patches.fits.take(asked)
    group = number[patches.of_face[faces]]
    surface = Curved.of_triangles(corners, group, planes.centre[:2])
    broken = surface.with_planes(planes.centre[2], planes.gradients)
    one, other = number[pairs].T
    noise = planes.misfit[one] + planes.misfit[other]
    bent = surface.together(one, other).misfit - noise
    return bent < AS_MUCH * broken.together(one, other).misfit
