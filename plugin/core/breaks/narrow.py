"""Narrow patches between two others that the slope passes through in one sense.

A fillet, a rounded top or the flats of a vertical curve spread one break over several small ones of
the same sense: the grade turns up (or down) at both sides of a patch narrower than the support. A
surveyor draws one line at its middle. So such patches are dealt out to their neighbours, each face
to the border it is nearest to, and what is left is one border with the full change. A curb face or
a ditch with a bottom turns one way at one side and the other way at the other, and stays.
"""

import numpy as np
import shapely
from numpy.typing import NDArray

from ..tin import Tin
from .patches import Patches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

ONE_SENSE = 0.9
"""Share of a patch's change along its borders that must turn the same way."""
BOTH_SIDES = 0.5
"""Greatest share of that change that one side may have more than the opposite one."""


def share_out(tin: Tin, patches: Patches, support: float, least: float) -> Patches:
    """Return the patches without narrow ones of one sense; planes of the others stay.

    Parameters
    ----------
    tin
        The surface.
    patches
        Its patches.
    support
        Patches narrower than this are narrow, plan units.
    least
        Changes of grade below this do not count as borders.
    """
    edges = np.flatnonzero((tin.quick_edges.faces >= 0).all(axis=1))
    of = patches.of_face[tin.quick_edges.faces[edges]]
    parted = of[:, 0] != of[:, 1]
    edges, of = edges[parted], of[parted]
    change, to_right = _changes(tin, patches, edges, of)
    change = np.where(np.abs(change) >= least, change, 0.0)
    narrow = narrower(patches, perimeters(tin, patches), support)
    narrow &= _passed_through(len(patches), of, change, to_right)
    if not narrow.any():
        return patches
    # Only what borders on a patch that stays can take the faces of one that goes.
    outer = (narrow[of[:, 0]] != narrow[of[:, 1]]) & (change != 0)
    outer &= ~(patches.wall[of[:, 0]] | patches.wall[of[:, 1]])
    edges, of = edges[outer], of[outer]
    if not len(edges):
        return patches
    keeper = np.where(narrow[of[:, 0]], of[:, 1], of[:, 0])
    faces = np.flatnonzero(narrow[patches.of_face])
    tree = shapely.STRtree(shapely.linestrings(tin.vertices[tin.quick_edges.ends[edges]][:, :, :2]))
    middles = shapely.points(tin.vertices[tin.faces[faces]][:, :, :2].mean(axis=1))
    face, edge = tree.query_nearest(middles, max_distance=2.0 * support, all_matches=False)
    of_face = patches.of_face.copy()
    of_face[faces[face]] = keeper[edge]
    return patches.dealt(of_face, patches.own & (of_face == patches.of_face))


def _changes(tin: Tin, patches: Patches, edges: Ints, of: Ints) -> tuple[Floats, Floats]:
    """Return the signed change across edges (concave +) and a vector square to the right of each.

    The vectors are as long as the edges in plan.
    """
    ends = tin.vertices[tin.quick_edges.ends[edges]][:, :, :2]
    along = ends[:, 1] - ends[:, 0]
    length = np.hypot(along[:, 0], along[:, 1])
    to_right = np.column_stack((along[:, 1], -along[:, 0]))
    gradients = patches.fits.gradients
    step = gradients[of[:, 1]] - gradients[of[:, 0]]
    with np.errstate(divide="ignore", invalid="ignore"):
        change = (step * to_right).sum(axis=1) / length
    return np.where(length > 0, change, 0.0), to_right


def perimeters(tin: Tin, patches: Patches) -> Floats:
    """Return the plan length of the border of each patch, the outline of the surface too."""
    faces = tin.quick_edges.faces
    of = np.where(faces >= 0, patches.of_face[faces], -1)
    border = of[:, 0] != of[:, 1]
    ends = tin.vertices[tin.quick_edges.ends[border]][:, :, :2]
    length = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    total = np.zeros(len(patches))
    for side in (0, 1):
        real = of[border, side] >= 0
        total += np.bincount(of[border, side][real], length[real], len(patches))
    return total


def narrower(patches: Patches, perimeter: Floats, support: float) -> NDArray[np.bool_]:
    """Tell which patches are narrower than the support: by the rectangle of the same size."""
    quarter = perimeter / 4.0
    width = quarter - np.sqrt(np.maximum(quarter * quarter - patches.fits.area, 0.0))
    return (width < support) & ~patches.wall


def _passed_through(count: int, of: Ints, change: Floats, to_right: Floats) -> NDArray[np.bool_]:
    """Tell which patches the slope passes through in one sense, (k,) bool.

    It turns the same way at (nearly) all of their borders, and does so at opposite sides: a strip
    at the rim of a surface has a break on one side only, which must stay.
    """
    weight = np.hypot(to_right[:, 0], to_right[:, 1]) * np.abs(change)
    up, all_, lean = np.zeros(count), np.zeros(count), np.zeros((2, count))
    for side, outward in ((0, 1.0), (1, -1.0)):
        patch = of[:, side]
        up += np.bincount(patch, np.where(change > 0, weight, 0.0), count)
        all_ += np.bincount(patch, weight, count)
        for axis in (0, 1):
            push = outward * to_right[:, axis] * np.abs(change)
            lean[axis] += np.bincount(patch, push, count)
    one_sense = np.maximum(up, all_ - up) >= ONE_SENSE * all_
    return (all_ > 0) & one_sense & (np.hypot(*lean) <= BOTH_SIDES * all_)
