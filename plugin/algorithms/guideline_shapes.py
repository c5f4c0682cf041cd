"""Guidelines in space: pieces with their heights, and the station beside each vertex."""

from dataclasses import dataclass

import numpy as np

from ..core.lines.bundle import Lines
from ..core.lines.drape import draped, stretches
from ..core.lines.guide import Guidelines
from ..core.tin import Tin
from ..layers.rasters import RasterSource
from ..layers.sampling import sampler
from .drape_lines import bends_of


@dataclass(frozen=True)
class Heights:
    """Where heights come from.

    Parameters
    ----------
    kind
        line, surface or none.
    depth
        What they are lowered by.
    surface
        For surface.
    rise
        For line: rise per plan unit away from the line, in the unit of heights; - falls.
    """

    kind: str
    depth: float = 0.0
    surface: Tin | RasterSource | None = None
    rise: float = 0.0


@dataclass(frozen=True)
class Shape:
    """A stretch of one guideline.

    Parameters
    ----------
    piece
        Number of the piece it is of.
    coordinates
        (n, 2) or (n, 3).
    along
        Distance along the source beside each vertex, (n,), rising; round a closed source it runs
        on past the source's length.
    good
        False where heights are wanted and missing.
    """

    piece: int
    coordinates: np.ndarray
    along: np.ndarray
    good: bool

    @property
    def start(self) -> float:
        """Distance along the source at its first vertex."""
        return float(self.along[0])

    @property
    def stop(self) -> float:
        """Distance along the source at its last vertex."""
        return float(self.along[-1])


def shapes(laid: Guidelines, heights: Heights, snap: float) -> list[Shape]:
    """Return the pieces with their heights, cut where heights are missing."""
    lines, station = laid.pieces.lines, laid.pieces.station
    if not len(lines):
        return []
    if heights.kind == "none":
        return [_shape(lines, station, k, None) for k in range(len(lines))]
    if heights.kind == "line":
        away = np.abs(laid.pieces.offsets)[lines.owner]
        z = lines.z - heights.depth + heights.rise * away
        return [_shape(lines, station, k, z) for k in range(len(lines))]
    surface = heights.surface
    assert surface is not None
    fuller, origin, along = draped(lines, bends_of(lines, surface, snap), sampler(surface))
    own = np.where(origin >= 0, station[np.maximum(origin, 0)], np.nan)
    new = np.flatnonzero(origin < 0)
    for k in np.unique(fuller.owner[new]):
        rows, fill = lines.line(int(k)), new[fuller.owner[new] == k]
        own[fill] = np.interp(along[fill], lines.stations[rows], station[rows])
    z = fuller.z - heights.depth
    result = []
    for k, first, last, good in stretches(fuller, np.isfinite(z)):
        rows = slice(first, last + 1)
        columns = (fuller.xy[rows], z[rows]) if good else (fuller.xy[rows],)
        result.append(Shape(k, np.column_stack(columns), own[rows], good))
    return result


def _shape(lines: Lines, station: np.ndarray, k: int, z: np.ndarray | None) -> Shape:
    rows = lines.line(k)
    good = z is None or bool(np.isfinite(z[rows]).all())
    xy = lines.xy[rows]
    coordinates = np.column_stack([xy, z[rows]]) if z is not None and good else xy
    return Shape(k, coordinates, station[rows], good)
