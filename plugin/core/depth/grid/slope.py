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

_AROUND = ((-1, 0), (1, 0), (0, -1), (0, 1), (-1, -1), (-1, 1), (1, -1), (1, 1))
"""Steps down and across to the neighbours, sides before corners."""


def gradient(block: Array, step: tuple[float, float]) -> tuple[Array, Array]:
    """Return the gradient of all pixels but the outermost.

    Parameters
    ----------
    block : (rows + 2, columns + 2) float
        Heights, all with data.
    step : (float, float)
        Step from column to column and from row to row, as `Grid` has them.

    Returns
    -------
    along_x, along_y : (rows, columns) float
        Change of height with a unit of x and of y, in the type of the block.
    """
    # Differences first: those of near heights are exact, so that float32 suffices.
    across = block[:, 2:] - block[:, :-2]
    down = block[2:] - block[:-2]
    kind = block.dtype.type
    along_x = across[:-2] + across[2:]
    across[1:-1] *= kind(2)
    along_x += across[1:-1]
    along_x *= kind(1 / (8 * step[0]))
    along_y = down[:, :-2] + down[:, 2:]
    down[:, 1:-1] *= kind(2)
    along_y += down[:, 1:-1]
    along_y *= kind(1 / (8 * step[1]))
    return along_x, along_y


def secant(block: Array, step: tuple[float, float], z_scale: float) -> Array:
    """Return sqrt(1 + g^2) of all pixels but the outermost, g being the slope.

    Parameters
    ----------
    block : (rows + 2, columns + 2) float
        Heights, all with data.
    step : (float, float)
        Step from column to column and from row to row, in plan units.
    z_scale : float
        Plan units in one unit of height.
    """
    x, y = gradient(block, (step[0] / z_scale, step[1] / z_scale))
    np.multiply(x, x, x)
    np.multiply(y, y, y)
    x += y
    x += block.dtype.type(1)
    return np.sqrt(x, x)


def secants(
    window: Array, missing: Mask | None, step: tuple[float, float], z_scale: float
) -> Array:
    """Return sqrt(1 + g^2) of all pixels of a window, those at its edges as at edges of data.

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

    Returns
    -------
    (rows, columns) float
        In the type of the window.
    """
    result = np.empty_like(window)
    odd = np.ones(window.shape, dtype=bool)
    if min(window.shape) > 2:
        with np.errstate(all="ignore"):  # values of missing pixels may be anything
            result[1:-1, 1:-1] = secant(window, step, z_scale)
        odd[1:-1, 1:-1] = False
    if missing is not None:
        odd |= beside(missing)
        odd &= ~missing
    row, column = np.nonzero(odd)
    scaled = (step[0] / z_scale, step[1] / z_scale)
    x, y = gradient_at(window, missing, row, column, scaled)
    result[row, column] = np.sqrt(1.0 + x * x + y * y)
    return result


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

    A missing neighbour is carried on straight through the pixel from the one opposite; a corner
    without one opposite from the two sides beside it; a side without one opposite counts as
    level. So planes are met exactly wherever a pixel has a neighbour along its row and another
    along its column.

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
        here, opposite = rise[down, across], -rise[-down, -across]
        spare = filled[down, 0] + filled[0, across] if down and across else 0.0
        alone = np.where(np.isnan(opposite), spare, opposite)
        filled[down, across] = np.where(np.isnan(here), alone, here)
    result = []
    for turned, length in ((False, step[0]), (True, step[1])):
        total = np.zeros(len(row))
        for side, weight in ((-1, 1.0), (0, 2.0), (1, 1.0)):
            ahead, behind = ((1, side), (-1, side)) if turned else ((side, 1), (side, -1))
            total += weight * (filled[ahead] - filled[behind])
        result.append(total / (8.0 * length))
    return result[0], result[1]
