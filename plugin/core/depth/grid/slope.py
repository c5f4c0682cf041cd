"""How steep a grid surface is, and how much deeper than thick a layer square to it goes.

The gradient is Horn's: differences over the 3 x 3 neighbourhood weighted 1, 2, 1 (B. K. P. Horn,
"Hill shading and the reflectance map", Proc. IEEE 69 (1981), p. 14-47), exact on planes. Across
a break in slope it is the mean of both sides, up to one pixel from the break.
"""

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.floating]
Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

_ROWS, _COLUMNS = 32, 1024  # of blocks that stay in the processor's cache

_AROUND = ((-1, 0), (1, 0), (0, -1), (0, 1), (-1, -1), (-1, 1), (1, -1), (1, 1))
"""Steps down and across to the neighbours, sides before corners."""


def secants(
    window: Array,
    missing: Mask | None,
    step: tuple[float, float],
    z_scale: float,
    part: tuple[int, int, int, int] | None = None,
    out: Array | None = None,
) -> Array:
    """Return sqrt(1 + g^2) of the pixels of a window, g being the slope.

    Pixels at the edges of the window count as those at edges of data.

    Parameters
    ----------
    window : (rows, columns) float
        Heights.
    missing : (rows, columns) bool, or None
        Pixels without data, whose result means nothing.
    step : (float, float)
        Step from column to column and from row to row, in plan units.
    z_scale : float
        Plan units in one unit of height.
    part : (int, int, int, int), or None
        First row, row after the last, first column, column after the last of what to return;
        the whole window when None.
    out : array, or None
        Where to put it.

    Returns
    -------
    array
        In the type of the window.
    """
    top, bottom, left, right = part or (0, window.shape[0], 0, window.shape[1])
    if out is None:
        out = np.empty((bottom - top, right - left), dtype=window.dtype)
    scaled = (step[0] / z_scale, step[1] / z_scale)
    inner = (max(top, 1), min(bottom, window.shape[0] - 1))
    wide = (max(left, 1), min(right, window.shape[1] - 1))
    scratch = np.empty((4, (_ROWS + 2) * (_COLUMNS + 2)), dtype=window.dtype)
    with np.errstate(all="ignore"):  # values of missing pixels may be anything
        for row in range(*inner, _ROWS):
            last = min(row + _ROWS, inner[1])
            for column in range(*wide, _COLUMNS):
                end = min(column + _COLUMNS, wide[1])
                block = window[row - 1 : last + 1, column - 1 : end + 1]
                here = out[row - top : last - top, column - left : end - left]
                _secant(block, scaled, here, scratch)
    near = (slice(max(top - 1, 0), bottom + 1), slice(max(left - 1, 0), right + 1))
    has_gaps = missing is not None and bool(missing[near].any())
    if not has_gaps and inner == (top, bottom) and wide == (left, right):
        return out
    odd = np.zeros(out.shape, dtype=bool)
    odd[: inner[0] - top] = odd[inner[1] - top :] = True
    odd[:, : wide[0] - left] = odd[:, wide[1] - left :] = True
    if has_gaps and missing is not None:
        gaps = beside(missing[near])[top - near[0].start :, left - near[1].start :]
        odd |= gaps[: bottom - top, : right - left]
        odd &= ~missing[top:bottom, left:right]
    down, across = np.nonzero(odd)
    x, y = gradient_at(window, missing, down + top, across + left, scaled)
    out[down, across] = np.sqrt(1.0 + x * x + y * y)
    return out


def _secant(block: Array, step: tuple[float, float], out: Array, scratch: Array) -> None:
    """Put sqrt(1 + g^2) of all pixels of a block but the outermost into ``out``.

    Rows are laid one after the other, so that sums run over the whole block at once; what they
    say where a row ends is not used.
    """
    # Differences first: those of near heights are exact, so that float32 suffices.
    kind = block.dtype.type
    rows, wide = block.shape
    size = rows * wide
    flat, across, pairs, slope = (part[:size] for part in scratch)
    flat.reshape(rows, wide)[:] = block
    inner = size - 2 * wide - 2  # the first inner pixel lies at wide + 1
    np.subtract(flat[2:], flat[:-2], out=across[: size - 2])
    # 1, 2, 1 are two sums of neighbours.
    np.add(across[: -wide - 2], across[wide:-2], out=pairs[: size - wide - 2])
    x = slope[:inner]
    np.add(pairs[:inner], pairs[wide : wide + inner], out=x)
    np.multiply(x, kind(1 / (8 * step[0])), out=x)
    np.multiply(x, x, out=x)
    down = across[: size - 2 * wide]
    np.subtract(flat[2 * wide :], flat[: -2 * wide], out=down)
    np.add(down[:-1], down[1:], out=pairs[: len(down) - 1])
    y = across[:inner]
    np.add(pairs[:inner], pairs[1 : inner + 1], out=y)
    np.multiply(y, kind(1 / (8 * step[1])), out=y)
    np.multiply(y, y, out=y)
    np.add(x, y, out=x)
    np.add(x, kind(1), out=x)
    np.sqrt(slope[: (rows - 2) * wide].reshape(rows - 2, wide)[:, :-2], out=out)


def beside(missing: Mask) -> Mask:
    """Return the pixels that are missing or have one of the eight neighbours missing."""
    wide = missing.copy()
    wide[:, 1:] |= missing[:, :-1]
    wide[:, :-1] |= missing[:, 1:]
    result = wide.copy()
    result[1:] |= wide[:-1]
    result[:-1] |= wide[1:]
    return result


def gradient_at(
    window: Array, missing: Mask | None, row: Ints, column: Ints, step: tuple[float, float]
) -> tuple[Floats, Floats]:
    """Return the gradient of some pixels, whether or not all their neighbours have data.

    A missing neighbour is carried on straight along its row or column of the 3 x 3 pixels (the
    mean where both can be); a corner for which neither can be, from the corner opposite or from
    the two sides beside it; a side without one opposite counts as level. So planes are met
    exactly wherever a pixel has a neighbour along its row and another along its column, and a
    ridge that runs into the edge of the data goes straight on.

    Parameters
    ----------
    window : (rows, columns) float
        Heights.
    missing : (rows, columns) bool, or None
        Pixels without data.
    row, column : (k,) int
        Pixels with data.
    step : (float, float)
        Step from column to column and from row to row.

    Returns
    -------
    along_x, along_y : (k,) float
        Change of height with a unit of x and of y.
    """
    rows, columns = window.shape
    middle = window[row, column].astype(np.float64)
    rise = {}
    for down, across in _AROUND:
        r, c = row + down, column + across
        there = (r >= 0) & (r < rows) & (c >= 0) & (c < columns)
        r, c = np.where(there, r, row), np.where(there, c, column)
        if missing is not None:
            there &= ~missing[r, c]
        rise[down, across] = np.where(there, window[r, c] - middle, np.nan)
    filled: dict[tuple[int, int], Floats] = {}
    for down, across in _AROUND:
        if down and across:
            along_row = 2 * rise[down, 0] - rise[down, -across]
            along_column = 2 * rise[0, across] - rise[-down, across]
            guesses = [
                0.5 * (along_row + along_column),
                along_row,
                along_column,
                -rise[-down, -across],
                filled[down, 0] + filled[0, across],
            ]
        else:
            guesses = [-rise[-down, -across], np.zeros(len(row))]
        value = rise[down, across]
        for guess in guesses:
            value = np.where(np.isnan(value), guess, value)
        filled[down, across] = value
    result = []
    for turned, length in ((False, step[0]), (True, step[1])):
        total = np.zeros(len(row))
        for side, weight in ((-1, 1.0), (0, 2.0), (1, 1.0)):
            ahead, behind = ((1, side), (-1, side)) if turned else ((side, 1), (side, -1))
            total += weight * (filled[ahead] - filled[behind])
        result.append(total / (8.0 * length))
    return result[0], result[1]
