"""The faces of two surfaces side by side: packed, in spatial order, near one origin."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..bins import boxes
from ..mesh import Tin
from .grid import Boxes

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 15


@dataclass(frozen=True, eq=False)
class Rows:
    """Faces with plan area, one column each.

    Parameters
    ----------
    face : (m,) int
        Number of each face in its surface.
    x, y, z : (3, m) float
        Corners, counter-clockwise; x and y count from the common origin.
    size : (m,) float
        Twice the plan area.
    """

    face: Ints
    x: Floats
    y: Floats
    z: Floats
    size: Floats

    def __len__(self) -> int:
        """Return the number of faces."""
        return len(self.face)


def common_origin(one: Tin, other: Tin) -> Floats:
    """Return a point near both surfaces, (2,) float, in whole numbers.

    Differences from it are exact for coordinates of any size that lie near one another.
    """
    return np.floor(np.maximum(one.extent[:2], other.extent[:2]))


def select(tin: Tin, window: Floats, origin: Floats) -> tuple[Ints, Boxes]:
    """Return the faces with plan area whose boxes meet a window, and their boxes.

    Parameters
    ----------
    tin : Tin
        The surface.
    window : (4,) float
        Smallest x and y, largest x and y, from the origin.
    origin : (2,) float
        Where boxes count from.

    Returns
    -------
    face : (m,) int
        The faces.
    lower, upper : (m, 2) float
        Corners of their boxes.
    """
    lower, upper = boxes(tin.vertices[:, :2] - origin, tin.faces)
    west, south, east, north = window
    meets = ~tin.without_plan_area
    meets &= (lower[:, 0] < east) & (upper[:, 0] > west)
    meets &= (lower[:, 1] < north) & (upper[:, 1] > south)
    if meets.all():
        return np.arange(len(meets)), (lower, upper)
    face = np.flatnonzero(meets)
    return face, (lower.take(face, axis=0), upper.take(face, axis=0))


def pack(tin: Tin, face: Ints, origin: Floats) -> Rows:
    """Pack faces of a surface in the order given."""
    x, y, z = (np.empty((3, len(face))) for _ in range(3))
    px, py = tin.vertices[:, 0] - origin[0], tin.vertices[:, 1] - origin[1]
    pz = np.ascontiguousarray(tin.vertices[:, 2])
    for begin in range(0, len(face), _BLOCK):
        some = slice(begin, begin + _BLOCK)
        corners = tin.faces.take(face[some], axis=0).T
        for values, given in ((x, px), (y, py), (z, pz)):
            values[:, some] = given.take(corners)
    size = (x[1] - x[0]) * (y[2] - y[0])
    size -= (y[1] - y[0]) * (x[2] - x[0])
    clockwise = np.flatnonzero(size < 0)
    for values in (x, y, z):
        values[1:, clockwise] = values[:0:-1, clockwise]
    return Rows(face, x, y, z, np.abs(size, out=size))
