"""How much soil lies over lines with heights: the least cover, where it is, how long it lacks."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..lines.bundle import Lines

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Cover:
    """Cover over each line.

    Parameters
    ----------
    least : (k,) float
        Least cover; NaN for a line without any height under the surface.
    station : (k,) float
        Distance along the line to where it is.
    xyz : (k, 3) float
        That place, with the height of the line.
    length, lacking, unknown : (k,) float
        Plan length of the line, of the part with less cover than asked, and of the part that
        has no surface or no height.
    """

    least: Floats
    station: Floats
    xyz: Floats
    length: Floats
    lacking: Floats
    unknown: Floats


def cover_over(lines: Lines, origin: Ints, along: Floats, surface: Lines, asked: float) -> Cover:
    """Return the cover over lines.

    The heights of a line are linear between its own vertices, and the surface between the
    further ones, so that the least cover lies at one of them and the part that lacks is exact.

    Parameters
    ----------
    lines : Lines
        The lines, with heights.
    origin, along : (n,) int, (n,) float
        Vertex of ``lines`` that each vertex of ``surface`` was (-1 for a further one), and its
        distance along the line; see `draped`.
    surface : Lines
        The same lines with further vertices and the heights of the surface.
    asked : float
        Cover asked for.
    """
    own = _between(origin, along, lines.z)
    off = surface.z - own
    count = len(lines)
    first = np.append(True, surface.owner[1:] != surface.owner[:-1])
    follows = np.flatnonzero(~first)
    a, b = off[follows - 1], off[follows]
    size = along[follows] - along[follows - 1]
    line = surface.owner[follows]
    known = np.isfinite(a) & np.isfinite(b)
    low, high = np.minimum(a, b), np.maximum(a, b)
    with np.errstate(all="ignore"):
        share = np.clip((asked - low) / np.where(high > low, high - low, 1.0), 0.0, 1.0)
    share = np.where(high <= asked - _SAME, 1.0, np.where(low >= asked - _SAME, 0.0, share))
    lacking = np.bincount(line[known], (share * size)[known], count).astype(np.float64)
    unknown = np.bincount(line[~known], size[~known], count).astype(np.float64)
    least, place = np.full(count, np.nan), np.zeros(count, dtype=np.int64)
    order = np.lexsort((off, surface.owner))
    order = order[np.isfinite(off[order])]
    owners, head = np.unique(surface.owner[order], return_index=True)
    least[owners], place[owners] = off[order[head]], order[head]
    xyz = np.column_stack((surface.xy[place], own[place]))
    xyz[np.isnan(least)] = np.nan
    length = np.bincount(line, size, count).astype(np.float64)
    return Cover(
        least, np.where(np.isnan(least), np.nan, along[place]), xyz, length, lacking, unknown
    )


_SAME = 1e-9


def _between(origin: Ints, along: Floats, heights: Floats) -> Floats:
    """Return the height of the line at each vertex, linear between its own ones."""
    rows = np.arange(len(origin))
    is_own = origin >= 0
    before = np.maximum.accumulate(np.where(is_own, rows, 0))
    after = np.minimum.accumulate(np.where(is_own, rows, len(rows) - 1)[::-1])[::-1]
    low, high = heights[origin[before]], heights[origin[after]]
    span = along[after] - along[before]
    share = np.where(span > 0, (along - along[before]) / np.where(span > 0, span, 1.0), 0.0)
    return np.where(is_own, low, low + share * (high - low))
