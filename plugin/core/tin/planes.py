"""Planes of triangles: area in plan, area on the slope, gradient.

All of it is made from differences of coordinates, never from the coordinates themselves, so that
a site at 10,000,000 is as exact as the same site at the origin.
"""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks

Floats = NDArray[np.float64]

BLOCK = 1 << 16
"""Faces worked on together."""
_ABREAST = 1 << 10


def corner_differences(vertices: Floats, faces: NDArray[np.int64]) -> tuple[Floats, Floats]:
    """Return the sides corner 0 -> 1 and corner 0 -> 2 of each face, two (m, 3) arrays."""
    origin = vertices.take(faces[:, 0], axis=0)
    first = vertices.take(faces[:, 1], axis=0)
    second = vertices.take(faces[:, 2], axis=0)
    first -= origin
    second -= origin
    return first, second


def per_face(
    measure: Callable[..., NDArray],
    vertices: Floats,
    faces: NDArray[np.int64],
    result: NDArray,
    *more: float,
) -> NDArray:
    """Fill ``result`` (m, ...) with ``measure(first, second, *more)`` of each face's sides.

    It goes block by block, so that what is gathered for a block stays in the cache: whole arrays
    take four times as long and twice the memory.
    """

    def fill(begin: int, end: int) -> None:
        sides = corner_differences(vertices, faces[begin:end])
        result[begin:end] = measure(*sides, *more)

    in_blocks(fill, len(faces), BLOCK)
    return result


def coordinate_rounding(vertices: Floats) -> float:
    """Return the width within which a plan coordinate cannot be told from its neighbours.

    It is 8 units in the last place of the largest plan coordinate (1.5e-8 at 10,000,000).
    """
    # Many rows side by side: columns are compared several times as fast that way.
    whole = len(vertices) // _ABREAST * _ABREAST
    width = vertices.shape[1]
    parts = vertices[:whole].reshape(-1, width * _ABREAST), vertices[whole:]
    largest = 0.0
    for part in parts:
        for extreme in (part.max(axis=0, initial=0.0), part.min(axis=0, initial=0.0)):
            largest = max(largest, float(np.abs(extreme.reshape(-1, width)[:, :2]).max()))
    return 8.0 * float(np.spacing(largest))


def doubled_plan_areas(first: Floats, second: Floats) -> Floats:
    """Return twice the plan area, positive when counter-clockwise, (m,) float."""
    return first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]


def plan_areas(first: Floats, second: Floats) -> Floats:
    """Return the plan area of each face, never negative, (m,) float."""
    return 0.5 * np.abs(doubled_plan_areas(first, second))


def without_plan_area(first: Floats, second: Floats, rounding: float) -> NDArray[np.bool_]:
    """Tell which faces have no plan area, (m,) bool.

    Rule: the height of the triangle in plan over its longest side is at most ``rounding``. Such
    a face cannot be told from a vertical or a collinear one by its coordinates.
    """
    return _thin(doubled_plan_areas(first, second), first, second, rounding)


def _thin(doubled: Floats, first: Floats, second: Floats, rounding: float) -> NDArray[np.bool_]:
    """Do `without_plan_area` with the areas at hand."""
    size = np.abs(doubled)
    thin = np.zeros(len(size), dtype=bool)
    # No side is longer than 3 times the largest difference, so few faces need a second look.
    longest = 3.0 * max(_largest(first), _largest(second))
    near = np.flatnonzero(~(size > rounding * longest))
    if len(near):
        one, other = first[near], second[near]
        sides = np.maximum(np.maximum(_square(one), _square(other)), _square(other - one))
        thin[near] = size[near] <= rounding * np.sqrt(sides)
    return thin


def _largest(side: Floats) -> float:
    return float(max(-side.min(initial=0.0), side.max(initial=0.0)))


def _square(side: Floats) -> Floats:
    return side[:, 0] ** 2 + side[:, 1] ** 2


def sloped_areas(first: Floats, second: Floats) -> Floats:
    """Return the area of each face on its slope, (m,) float."""
    normal = np.cross(first, second)
    return 0.5 * np.sqrt(np.einsum("ij,ij->i", normal, normal))


def gradients(first: Floats, second: Floats, rounding: float) -> Floats:
    """Return the rise over run of each face along x and y, (m, 2) float.

    Parameters
    ----------
    first, second : (m, 3) float
        Sides of the faces as `corner_differences` gives them.
    rounding
        As for `without_plan_area`; the gradient of faces without plan area is NaN.
    """
    return _slopes(doubled_plan_areas(first, second), first, second, rounding)[0]


def turned_with_gradients(
    vertices: Floats, faces: NDArray[np.int64], rounding: float
) -> tuple[NDArray[np.bool_], Floats]:
    """Turn faces counter-clockwise in place, and say what comes of it at no extra cost.

    Returns
    -------
    without_plan_area : (m,) bool
        Faces that cannot be turned so.
    gradients : (m, 2) float
        Those of all faces.
    """
    thin = np.empty(len(faces), dtype=bool)
    slopes = np.empty((len(faces), 2))

    def turn(begin: int, end: int) -> None:
        some = faces[begin:end]
        sides = corner_differences(vertices, some)
        doubled = doubled_plan_areas(*sides)
        wrong = doubled < 0
        if wrong.any():
            some[wrong, 1:] = some[wrong, :0:-1]
        slopes[begin:end], thin[begin:end] = _slopes(doubled, *sides, rounding)

    in_blocks(turn, len(faces), BLOCK)
    return thin, slopes


def _slopes(
    doubled: Floats, first: Floats, second: Floats, rounding: float
) -> tuple[Floats, NDArray[np.bool_]]:
    """Return gradients, and which faces have no plan area."""
    thin = _thin(doubled, first, second, rounding)
    result = np.empty((len(first), 2))
    with np.errstate(divide="ignore", invalid="ignore"):
        east = first[:, 2] * second[:, 1]
        east -= second[:, 2] * first[:, 1]
        np.divide(east, doubled, out=result[:, 0])
        north = second[:, 2] * first[:, 0]
        north -= first[:, 2] * second[:, 0]
        np.divide(north, doubled, out=result[:, 1])
    result[thin] = np.nan
    return result, thin
