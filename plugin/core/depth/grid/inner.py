"""Heights at the border of a zone.

Zones are mostly drawn along breaks of the design. There a height taken bilinearly between the
pixels around lies on neither side: up to an eighth of a pixel times the change of grade off. So
both sides are carried on to the border from pixels of their own; where they meet there, that is
the height.
"""

import threading

import numpy as np
from numpy.typing import NDArray

from .spans import ZoneSpans
from .windows import Window

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_PLACES = ((1.0, 0.0), (1.5, 0.0), (1.0, 1.0), (1.0, -1.0))
"""Pixels away from the border, and along it, where four pixels of one side are looked for."""

_MEET = 0.5
"""Two sides meet when they differ by less than this share of how far off they are from what lies
between the pixels."""


class Labels:
    """Zones of the pixels of windows; each thread keeps its memory from one to the next.

    Parameters
    ----------
    spans : ZoneSpans
        Pixels of the zones.
    zones : int
        How many there are.
    """

    def __init__(self, spans: ZoneSpans, zones: int) -> None:
        self._spans = spans
        self._type = np.int16 if zones < np.iinfo(np.int16).max else np.int32
        self._kept = threading.local()

    def of(self, window: Window) -> NDArray[np.signedinteger]:
        """Return the zone of each pixel, -1 outside all; it holds until the next window."""
        rows, columns = window.heights.shape
        kept = getattr(self._kept, "memory", None)
        if kept is None or len(kept) < rows * columns:
            kept = self._kept.memory = np.empty(rows * columns, dtype=self._type)
        labels = kept[: rows * columns]
        labels.fill(-1)
        found = self._spans.strip(window.row, rows).clip(window.column, columns)
        base = found.row * columns
        for start, stop, zone in zip(
            (base + found.start).tolist(),
            (base + found.stop).tolist(),
            found.zone.tolist(),
            strict=True,
        ):
            labels[start:stop] = zone
        return labels.reshape(rows, columns)


def at_border(
    window: Window, labels: NDArray[np.signedinteger], zone: Ints, spots: Floats, out: Floats
) -> Floats:
    """Return heights of the design at borders, (k,) float; NaN where there are no data.

    Parameters
    ----------
    window : Window
        The design.
    labels : (rows, columns) int
        Zone of its pixels.
    zone : (k,) int
        Zone of each place.
    spots : (k, 2) float
        Places on borders, counted from the grid's first corner.
    out : (k, 2) float
        Unit vectors out of the zone.
    """
    between = window.at(spots[:, 0], spots[:, 1])
    inner = _carried(window, labels, zone, spots, -out, own=True)
    outer = _carried(window, labels, zone, spots, out, own=False)
    with np.errstate(invalid="ignore"):  # NaN where a side has no four pixels
        met = np.abs(inner - outer) <= _MEET * np.abs(0.5 * (inner + outer) - between)
    return np.where(met, 0.5 * (inner + outer), between)


def _carried(
    window: Window,
    labels: NDArray[np.signedinteger],
    zone: Ints,
    spots: Floats,
    way: Floats,
    *,
    own: bool,
) -> Floats:
    """Return heights at borders as four pixels on one side say, NaN where there are none."""
    grid = window.grid
    pixel = max(abs(grid.width), abs(grid.height))
    heights = np.full(len(spots), np.nan)
    left = np.arange(len(spots))
    for away, along in _PLACES:
        if not len(left):
            break
        side = np.column_stack([-way[left, 1], way[left, 0]])
        place = spots[left] + pixel * (away * way[left] + along * side)
        row, column, down, across, good = window.cells(place[:, 0], place[:, 1])
        row, column = np.where(good, row, 0), np.where(good, column, 0)
        corners = [(row + i, column + j) for i in (0, 1) for j in (0, 1)]
        for corner in corners:
            good &= (labels[corner] == zone[left]) == own
            if window.missing is not None:
                good &= ~window.missing[corner]
        some = np.flatnonzero(good)
        chosen, back = left[some], (spots[left] - place)[some]
        down = down[some] + back[:, 1] / grid.height
        across = across[some] + back[:, 0] / grid.width
        first, right, below, last = (
            window.heights[corner[0][some], corner[1][some]].astype(np.float64)
            for corner in corners
        )
        heights[chosen] = (
            first
            + across * (right - first)
            + down * (below - first)
            + across * down * (last - below - right + first)
        )
        left = np.delete(left, some)
    return heights
