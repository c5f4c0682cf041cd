"""Plan lines laid on a surface: with its heights, and a vertex wherever it bends."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from ..core.lines.bundle import Lines
from ..core.lines.drape import draped, steps, stretches, tin_crossings
from ..core.tin import Tin
from ..layers.rasters import RasterSource


@dataclass(frozen=True)
class Draped:
    """What lies on the surface.

    Parameters
    ----------
    pieces
        Number of the line, and (n, 3) coordinates, of each stretch with heights.
    missing
        Number of stretches without.
    """

    pieces: list[tuple[int, np.ndarray]]
    missing: int


def drape(
    lines: Sequence[np.ndarray],
    surface: Tin | RasterSource,
    sample: Callable[[np.ndarray], np.ndarray],
    depth: float,
    snap: float,
) -> Draped:
    """Lay plan lines on a surface, less a depth; they are cut where it has no height."""
    if not len(lines):
        return Draped([], 0)
    plan = Lines.from_arrays(lines, snap)
    fuller, _, _ = draped(plan, bends_of(plan, surface, snap), sample)
    z = fuller.z - depth
    pieces, missing = [], 0
    for k, first, last, good in stretches(fuller, np.isfinite(z)):
        rows = slice(first, last + 1)
        if good:
            pieces.append((k, np.column_stack((fuller.xy[rows], z[rows]))))
        else:
            missing += 1
    return Draped(pieces, missing)


def bends_of(
    lines: Lines, surface: Tin | RasterSource, snap: float
) -> tuple[np.ndarray, np.ndarray]:
    """Return where lines need a vertex to follow a surface: line and distance along it.

    On a TIN where they cross an edge, on a raster at every pixel.
    """
    if isinstance(surface, Tin):
        return tin_crossings(lines, surface, snap)
    return steps(lines, max(min(surface.pixel), snap), snap)
