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
_THIN = 0.25  # sine of the angle at corner 0


@dataclass(frozen=True, eq=False)
class Rows:
    """Faces with plan area, one column each.

    In thin faces corner 0 lies opposite the longest side in plan: from there their planes are
    worked out with the least loss by cancellation.

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
        _turn(x[:, some], y[:, some], z[:, some])
    size = (x[1] - x[0]) * (y[2] - y[0])
    size -= (y[1] - y[0]) * (x[2] - x[0])
    return Rows(face, x, y, z, size)


def _turn(x: Floats, y: Floats, z: Floats) -> None:
    """Turn faces counter-clockwise, thin ones so that corner 0 is opposite the longest side.

    In place.
    """
    one = np.stack((x[1] - x[0], y[1] - y[0]))
    two = np.stack((x[2] - x[0], y[2] - y[0]))
    cross = one[0] * two[1] - one[1] * two[0]
    wrong = np.flatnonzero(cross < 0)
    if len(wrong):
        for values in (x, y, z):
            values[1:, wrong] = values[:0:-1, wrong]
        one[:, wrong], two[:, wrong] = two[:, wrong], one[:, wrong]
    first, second = one[0] ** 2 + one[1] ** 2, two[0] ** 2 + two[1] ** 2
    thin = np.flatnonzero(cross**2 < _THIN**2 * first * second)
    if len(thin) == 0:
        return
    third = (two[0, thin] - one[0, thin]) ** 2 + (two[1, thin] - one[1, thin]) ** 2
    opposite = np.stack((third, second[thin], first[thin]))
    longest = opposite.argmax(axis=0)
    place = (np.arange(3)[:, None] + longest) % 3
    for values in (x, y, z):
        values[:, thin] = np.take_along_axis(values[:, thin], place, axis=0)
