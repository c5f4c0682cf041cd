"""The faces of two surfaces side by side: packed, in spatial order, near one origin."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..bins import boxes
from ..mesh import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Rows:
    """Faces with plan area, one column each.

    Corner 0 lies opposite the longest side in plan: planes are worked out from there with the
    least loss by cancellation, also those of slivers.

    Parameters
    ----------
    face : (m,) int
        Number of each face in its surface.
    x, y, z : (3, m) float
        Corners, counter-clockwise; x and y count from the common origin.
    """

    face: Ints
    x: Floats
    y: Floats
    z: Floats

    def __len__(self) -> int:
        """Return the number of faces."""
        return len(self.face)


def common_origin(one: Tin, other: Tin) -> Floats:
    """Return a point near both surfaces, (2,) float, in whole numbers.

    Differences from it are exact for coordinates of any size that lie near one another.
    """
    return np.floor(np.maximum(one.extent[:2], other.extent[:2]))


def select(
    tin: Tin, window: tuple[float, float, float, float], origin: Floats
) -> tuple[Ints, Floats, Floats]:
    """Return the faces with plan area whose boxes meet a window, and their boxes.

    Parameters
    ----------
    tin : Tin
        The surface.
    window : (4,) float
        Smallest x and y, largest x and y.
    origin : (2,) float
        Where the boxes count from.

    Returns
    -------
    face : (m,) int
        The faces.
    lower, upper : (m, 2) float
        Corners of their boxes, from the origin.
    """
    lower, upper = boxes(tin.vertices[:, :2] - origin, tin.faces)
    west, south = window[:2] - origin
    east, north = window[2:] - origin
    meets = ~tin.without_plan_area
    meets &= (lower[:, 0] < east) & (upper[:, 0] > west)
    meets &= (lower[:, 1] < north) & (upper[:, 1] > south)
    if meets.all():
        return np.arange(len(meets)), lower, upper
    face = np.flatnonzero(meets)
    return face, lower[face], upper[face]


def pack(tin: Tin, face: Ints, origin: Floats) -> Rows:
    """Pack faces of a surface in the order given."""
    corners = tin.faces.take(face, axis=0).T
    x, y, z = (np.empty((3, len(face))) for _ in range(3))
    px, py = tin.vertices[:, 0] - origin[0], tin.vertices[:, 1] - origin[1]
    pz = np.ascontiguousarray(tin.vertices[:, 2])
    for k in range(3):
        px.take(corners[k], out=x[k])
        py.take(corners[k], out=y[k])
        pz.take(corners[k], out=z[k])
    # Squared length of the side opposite corner k, and the corners turned so that 0 has the most.
    side = [(x[k - 2] - x[k - 1]) ** 2 + (y[k - 2] - y[k - 1]) ** 2 for k in range(3)]
    longest = np.where(side[1] > side[0], 1, 0)
    longest[side[2] > np.maximum(side[0], side[1])] = 2
    for turn in (1, 2):
        some = np.flatnonzero(longest == turn)
        for values in (x, y, z):
            values[:, some] = np.roll(values[:, some], -turn, axis=0)
    return Rows(face, x, y, z)
