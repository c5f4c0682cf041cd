"""The parts of a surface that have one grade each: faces of a TIN, or pixels of a raster.

Each carries how far its grade may be off because coordinates are rounded, so that a judgement can
leave exactly that much and no more.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..tin import Tin
from ..tin.cut import CutTin
from ..tin.cut.lookup import zones_at
from ..tin.planes import per_face, plan_areas

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_DIAGONAL = float(np.sqrt(2.0))


@dataclass(frozen=True, eq=False)
class Cells:
    """Parts of a surface with one gradient each.

    Parameters
    ----------
    vertices : (n, 2) float
        Corners of all.
    corners : (m, 3) or (m, 4) int
        Corners of each, in order round it.
    gradients : (m, 2) float
        Rise over run along x and y; NaN where a face stands upright.
    rounding : (m,) float
        Most that the size of the gradient can be off for rounded coordinates.
    areas : (m,) float
        Plan areas.
    zone : (m,) int
        Zone of each, -1 outside all.
    """

    vertices: Floats
    corners: Ints
    gradients: Floats
    rounding: Floats
    areas: Floats
    zone: Ints

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self.areas)

    def centres(self, chosen: Ints) -> Floats:
        """Return the centres of some, (k, 2) float."""
        return np.asarray(self.vertices[self.corners[chosen]].mean(axis=1))

    def triangles(self, chosen: Ints) -> tuple[Tin, Ints]:
        """Return some as a flat surface, and the place in ``chosen`` of each of its faces."""
        corners = self.corners[chosen]
        used, number = np.unique(corners, return_inverse=True)
        corners = number.reshape(corners.shape)
        row = np.arange(len(chosen))
        faces = corners[:, :3]
        if corners.shape[1] == 4:
            faces, row = np.concatenate((faces, corners[:, (0, 2, 3)])), np.tile(row, 2)
        plan = self.vertices[used]
        return Tin(np.column_stack((plan, np.zeros(len(plan)))), faces), row


def of_tin(tin: Tin, cut: CutTin | None, z_scale: float = 1.0, step: float = 0.0) -> Cells:
    """Return the faces of a surface, each piece with the grade of the face it was cut from.

    A vertex off by ``d`` in height turns the gradient of a face by ``d`` times the length of the
    side across over twice the area; one off in plan by ``e`` counts as one off in height by the
    slope times ``e``. Three such vertices give at most ``(d + |g| e) perimeter / (2 area)``.

    Parameters
    ----------
    tin : Tin
        The surface.
    cut : CutTin or None
        The same cut by zones; None to take all as zone 0.
    z_scale : float
        Plan units in one unit of height.
    step : float
        Coordinates are rounded to multiples of this, in plan units; 0 for that of the numbers
        themselves.
    """
    gradients = tin.gradients * z_scale
    slope = np.hypot(gradients[:, 0], gradients[:, 1])
    in_plan = max(tin.rounding / 8.0, 0.5 * step)
    used = tin.vertices[np.unique(tin.faces), 2]
    largest = float(np.abs(used).max(initial=0.0))
    in_height = max(float(np.spacing(largest)) * z_scale, 0.5 * step)
    spread = per_face(_spread, tin.vertices, tin.faces, np.empty(len(tin.faces)))
    rounding = (in_height + slope * _DIAGONAL * in_plan) * spread
    if cut is None:
        whole = np.zeros(len(tin.faces), np.int64)
        return Cells(tin.vertices[:, :2], tin.faces, gradients, rounding, tin.plan_areas, whole)
    pieces, parent = cut.tin, cut.parent
    return Cells(
        pieces.vertices[:, :2],
        pieces.faces,
        gradients[parent],
        rounding[parent],
        pieces.plan_areas,
        cut.zone,
    )


def _spread(first: Floats, second: Floats) -> Floats:
    """Return the perimeter over twice the area of each face in plan, (m,) float."""
    sides = [np.hypot(s[:, 0], s[:, 1]) for s in (first, second, second - first)]
    with np.errstate(divide="ignore"):
        return np.asarray(sum(sides) / (2.0 * plan_areas(first, second)))


def of_grid(
    heights: Floats,
    transform: tuple[float, ...],
    polygons: NDArray[np.object_] | None,
    z_scale: float = 1.0,
    height_rounding: float = 0.0,
) -> Cells:
    """Return the pixels of a raster that have a grade.

    The gradient of a pixel is that of Horn (1981): differences across the eight neighbours, those
    straight across counting twice. A pixel has one when it and all eight have heights, and it
    belongs to the zone that holds its centre.

    Parameters
    ----------
    heights : (rows, columns) float
        NaN where there is none.
    transform : 6 float
        x of the outer corner, step in x along a row, step in x down a column; the same for y.
    polygons : (k,) object or None
        The zones; None to take all as zone 0.
    z_scale : float
        Plan units in one unit of height.
    height_rounding : float
        Most that a height is off, in its own unit.
    """
    t = transform
    rows, columns = heights.shape
    empty = np.zeros((0, 2))
    if min(rows, columns) < 3:
        none = np.zeros(0, np.int64)
        return Cells(empty, np.zeros((0, 4), np.int64), empty, np.zeros(0), np.zeros(0), none)
    z = heights * z_scale
    to_right, to_below = z[:, 2:] - z[:, :-2], z[2:] - z[:-2]
    by_column = (to_right[:-2] + 2.0 * to_right[1:-1] + to_right[2:]) / 8.0
    by_row = (to_below[:, :-2] + 2.0 * to_below[:, 1:-1] + to_below[:, 2:]) / 8.0
    row, column = np.nonzero(np.isfinite(by_column + by_row + z[1:-1, 1:-1]))
    zone = np.zeros(len(row), np.int64)
    if polygons is not None:
        across, down = column + 1.5, row + 1.5
        x = t[0] + across * t[1] + down * t[2]
        y = t[3] + across * t[4] + down * t[5]
        zone = zones_at(np.column_stack((x, y)), polygons)
        inside = zone >= 0
        row, column, zone = row[inside], column[inside], zone[inside]
    dc, dr = by_column[row, column], by_row[row, column]
    # dz/dcolumn = gx t1 + gy t4, dz/drow = gx t2 + gy t5.
    determinant = t[1] * t[5] - t[2] * t[4]
    gradients = np.column_stack((dc * t[5] - dr * t[4], dr * t[1] - dc * t[2])) / determinant
    row, column = row + 1, column + 1
    line, place = np.mgrid[0 : rows + 1, 0 : columns + 1]
    vertices = np.column_stack((
        (t[0] + place * t[1] + line * t[2]).ravel(),
        (t[3] + place * t[4] + line * t[5]).ravel(),
    ))  # fmt: skip
    corner = row * (columns + 1) + column
    below = corner + columns + 1
    corners = np.column_stack((corner, below, below + 1, corner + 1))
    if determinant > 0:  # rows that run up: counter-clockwise is the other way round
        corners = corners[:, ::-1]
    # Weights of one direction add up to 1 in size, the inverse of the steps turns them into grade.
    size = np.linalg.norm(np.array([[t[5], -t[4]], [-t[2], t[1]]]) / determinant, 2)
    error = _DIAGONAL * height_rounding * z_scale * size
    area = np.full(len(corner), abs(determinant))
    return Cells(vertices, corners, gradients, np.full(len(corner), error), area, zone)
