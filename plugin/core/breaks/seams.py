"""Narrow patches astride a break, dealt out to its two sides.

A triangulation that does not follow a break has triangles across it. Each has a slope of its own,
between those of the two sides and turned by the way it happens to lie, so that a sharp break is
lined with small patches. Their corners tell them from a curb or a ditch: all of them lie on the
lower of the planes of two larger patches beside them (a convex break), or all on the higher (a
concave one). The surface is then well told by these two planes and their crease, and every face
goes to the side of the crease that it is on. The foot of a curb lies on the lower plane and its top
on the higher one: it stays.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..runs import count_up, ragged
from ..tin import Tin
from ..vectors import dot
from .narrow import narrower, perimeters
from .patches import STEP, Patches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SHARE = 0.5
"""Patches narrower than this share of the support, and no longer than it, can be seams."""
LARGER = 2.0
"""The sides of a seam have so many times its area: facets of a cone are no seams in each other."""
MOST_BESIDE = 8
"""A patch with more larger ones beside it is no seam between two of them."""


def unseamed(
    tin: Tin, patches: Patches, support: float, change: float, z_scale: float = 1.0
) -> Patches:
    """Return the patches without seams; planes of the others stay.

    Parameters
    ----------
    tin
        The surface.
    patches
        Its patches.
    support
        Width over which slopes are taken, plan units.
    change
        Smallest change of grade that parts patches, a ratio. Corners lie on a plane when they are
        less than a step away from it, see `patches.STEP`.
    z_scale
        Plan units in one vertical unit.
    """
    narrow = narrower(patches, perimeters(tin, patches), SHARE * support)
    narrow &= patches.fits.area < SHARE * support * support
    of_face, own = patches.of_face.copy(), patches.own.copy()
    small = np.flatnonzero(narrow[of_face])
    touching = tin.quick_edges.faces[np.unique(tin.quick_edges.face_edges[small])]
    touching = touching[(touching >= 0).all(axis=1)]
    while len(small):
        threes = _between(patches, narrow, of_face[touching])
        seams = _measured(tin, patches, (small, of_face[small]), threes, z_scale)
        seams = seams.take(seams.off <= STEP * change * support).best()
        if not len(seams.patch):
            break
        number = np.full(len(patches), -1)
        number[seams.patch] = np.arange(len(seams.patch))
        row = number[of_face[small]]
        going, row = small[row >= 0], row[row >= 0]
        middle = tin.vertices[tin.faces[going]][:, :, :2].mean(axis=1)
        sides = [_height(patches, side[row], middle) for side in (seams.one, seams.other)]
        lower = (sides[0] < sides[1]) == seams.convex[row]
        of_face[going] = np.where(lower, seams.one[row], seams.other[row])
        own[going] = False
        small = small[narrow[of_face[small]]]
    return patches.dealt(of_face, own)


@dataclass(frozen=True)
class _Seams:
    """Narrow patches, each with two larger ones beside it.

    Parameters
    ----------
    patch, one, other : (k,) int
        The patch and its two sides.
    convex : (k,) bool
        Whether the corners lie on the lower plane of the two sides.
    off : (k,) float
        Farthest that a corner lies away from it.
    """

    patch: Ints
    one: Ints
    other: Ints
    convex: NDArray[np.bool_]
    off: Floats

    def take(self, rows: Ints | NDArray[np.bool_]) -> "_Seams":
        """Return the given ones alone."""
        return _Seams(**{name: values[rows] for name, values in vars(self).items()})

    def best(self) -> "_Seams":
        """Return the best two sides of each patch; patches whose sides are dealt out wait."""
        ordered = self.take(np.lexsort((self.off, self.patch)))
        each = ordered.take(np.flatnonzero(np.diff(ordered.patch, prepend=-1)))
        return each.take(~(np.isin(each.one, each.patch) | np.isin(each.other, each.patch)))


def _between(patches: Patches, narrow: NDArray[np.bool_], beside: Ints) -> tuple[Ints, Ints, Ints]:
    """Return every narrow patch with every two larger ones beside it: patch, one, other.

    ``beside`` are the patches at both sides of edges, (e, 2).
    """
    pairs = np.concatenate((beside, beside[:, ::-1]))
    area = patches.fits.area
    fit = narrow[pairs[:, 0]] & ~patches.wall[pairs[:, 1]]
    pairs = pairs[fit & (area[pairs[:, 1]] >= LARGER * area[pairs[:, 0]])]
    key = np.unique(pairs[:, 0] * len(patches) + pairs[:, 1])
    patch, side = np.divmod(key, len(patches))
    count = np.bincount(patch, minlength=len(patches))
    few = count[patch] <= MOST_BESIDE
    patch, side, count = patch[few], side[few], count[(count > 0) & (count <= MOST_BESIDE)]
    later = np.repeat(count, count) - count_up(count) - 1
    first = np.repeat(np.arange(len(patch)), later)
    return patch[first], side[first], side[first + 1 + count_up(later)]


def _measured(
    tin: Tin,
    patches: Patches,
    faces: tuple[Ints, Ints],
    threes: tuple[Ints, Ints, Ints],
    z_scale: float,
) -> _Seams:
    """Return how far the corners of patches lie from the lower or the higher of two planes.

    ``faces`` are the faces of narrow patches, and the patch of each.
    """
    patch, one, other = threes
    corners = np.unique(np.repeat(faces[1], 3) * len(tin.vertices) + tin.faces[faces[0]].ravel())
    owner, vertex = np.divmod(corners, len(tin.vertices))
    start = np.searchsorted(owner, np.arange(len(patches) + 1))
    rows, first = ragged(start[patch], np.diff(start)[patch])
    row = np.repeat(np.arange(len(patch)), np.diff(first))
    place = tin.vertices[vertex[rows]]
    z = (place[:, 2] - patches.origin[2]) * z_scale
    planes = np.stack([_height(patches, side[row], place[:, :2]) for side in (one, other)])
    off = np.stack((np.abs(z - planes.min(axis=0)), np.abs(z - planes.max(axis=0))))
    worst = np.maximum.reduceat(off, first[:-1], axis=1) if len(patch) else np.zeros((2, 0))
    return _Seams(patch, one, other, worst[0] <= worst[1], worst.min(axis=0))


def _height(patches: Patches, rows: Ints, xy: Floats) -> Floats:
    """Return the height of patches' planes at places (k, 2), as their fits count it."""
    centre = patches.fits.centre[:, rows]
    away = xy - patches.origin[:2] - centre[:2].T
    return np.asarray(centre[2] + dot(away, patches.fits.gradients[rows]), dtype=np.float64)
