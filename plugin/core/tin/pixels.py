"""A raster as a triangulated surface: heights at pixel centres, two triangles between four."""

import numpy as np

from ..errors import SurfaceError
from ..text import translate
from .mesh import Tin


def of_pixels(heights: np.ndarray, transform: tuple[float, ...]) -> Tin:
    """Return the surface through the centres of pixels.

    Four neighbouring centres are parted along the diagonal whose ends differ less in height, so
    that a crease along a diagonal is not sawn across; three with heights make one triangle.

    Parameters
    ----------
    heights
        (rows, columns) float, NaN where there is none.
    transform
        The six numbers of an affine transform: x of the outer corner, step in x along a row, step
        in x down a column, then the same for y.

    Raises
    ------
    SurfaceError
        No three neighbouring pixels have heights.
    """
    rows, columns = heights.shape
    row, column = np.mgrid[0:rows, 0:columns] + 0.5
    t = transform
    vertices = np.column_stack((
        (t[0] + column * t[1] + row * t[2]).ravel(),
        (t[3] + column * t[4] + row * t[5]).ravel(),
        heights.astype(np.float64).ravel(),
    ))  # fmt: skip
    corner = (np.arange(rows - 1)[:, None] * columns + np.arange(columns - 1)).ravel()
    a, b, c, d = corner, corner + 1, corner + columns + 1, corner + columns
    known = np.isfinite(vertices[:, 2])
    z = np.where(known, vertices[:, 2], 0.0)
    by_ac = np.abs(z[a] - z[c]) <= np.abs(z[b] - z[d])
    # Where one corner is missing the diagonal that leaves it out is the one.
    by_ac = np.where(~known[b] | ~known[d], True, by_ac) & known[a] & known[c]
    one = np.where(by_ac[:, None], np.column_stack((a, b, c)), np.column_stack((a, b, d)))
    two = np.where(by_ac[:, None], np.column_stack((a, c, d)), np.column_stack((b, c, d)))
    faces = np.concatenate((one, two))
    faces = faces[known[faces].all(axis=1)]
    if not len(faces):
        raise SurfaceError(
            translate("Core", "The raster has no three neighbouring pixels with heights.")
        )
    used = np.zeros(len(vertices), bool)
    used[faces] = True
    number = np.cumsum(used) - 1
    return Tin.from_arrays(vertices[used], number[faces])
