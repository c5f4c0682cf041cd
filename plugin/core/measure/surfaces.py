"""Surfaces that follow from two others: their difference, the higher of both, the lower of both."""

from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from ..errors import SurfaceError
from ..progress import Progress, silent
from ..runs import count_up
from ..text import translate
from ..tin import Tin
from ..tin.intake import weld_triangles
from ..tin.overlay import Cells, cells
from .cells import GRID

Floats = NDArray[np.float64]


class Shows(StrEnum):
    """What a surface made of two shows."""

    DIFFERENCE = "difference"
    HIGHER = "higher"
    LOWER = "lower"


def combined(upper: Tin, lower: Tin, shows: Shows, snap: float, progress: Progress = silent) -> Tin:
    """Return the surface of the difference, or of the higher or lower of two surfaces.

    It covers the ground that both share, and bends wherever one of them bends and where they
    cross: it is exact but for the rounding of its vertices.

    Parameters
    ----------
    upper, lower : Tin
        The surfaces.
    shows : Shows
        What is made of the two heights.
    snap : float
        Two places nearer than this are one.
    progress : Progress
        Told the share done.

    Raises
    ------
    SurfaceError
        The two share no ground.
    """
    found = [
        _triangles(block, shows) for block in cells(upper, lower, progress=progress) if len(block)
    ]
    if not found:
        raise SurfaceError(
            translate("Core", "The two surfaces share no ground: check that both belong here.")
        )
    welded = weld_triangles(np.concatenate(found), GRID * snap)
    return Tin.from_arrays(welded.vertices, welded.faces)


def _triangles(block: Cells, shows: Shows) -> Floats:
    """Return the cells as fans of triangles, (m, 3, 3) float."""
    if shows == Shows.DIFFERENCE:
        z = block.upper_z - block.lower_z
    elif shows == Shows.HIGHER:
        z = np.maximum(block.upper_z, block.lower_z)
    else:
        z = np.minimum(block.upper_z, block.lower_z)
    corners = np.column_stack((block.xy, z))
    count = np.diff(block.offsets) - 2
    first = np.repeat(block.offsets[:-1], count)
    second = first + 1 + count_up(count)
    return corners[np.column_stack((first, second, second + 1))]
