"""Slope changes at the borders of patches, measured between the planes of both sides.

Between two patches the change is that of their planes, square to the border as straightened, and
not that of the two faces at it: noise and narrow steps are in the faces, not in the planes. Beside
a wall the face itself is measured.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, part, silent
from ..tin import Tin
from .bends import only_bends
from .chains import chain
from .change import EdgeChange, angle_of_rises, measure_edges
from .fits import XX, XY, YY
from .narrow import share_out
from .patches import Patches, grow, price
from .seams import unseamed
from .settle import settle
from .straighten import straightened, uncrossed

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Borders:
    """What lies between patches.

    Parameters
    ----------
    patches
        The patches.
    edges
        Those of their borders inside the surface where it does more than bend.
    error : (k,) float
        Standard error of the change at each edge, from how uneven both patches are.
    points : (n, 3) float
        Places of the vertices of the surface with zig-zags straightened.
    """

    patches: Patches
    edges: EdgeChange
    error: Floats
    points: Floats


def patch_borders(
    tin: Tin, change: float, support: float, z_scale: float = 1.0, progress: Progress = silent
) -> Borders:
    """Return the patches of a surface and what changes between them.

    Parameters
    ----------
    tin
        The surface.
    change
        Smallest change of grade that parts patches, a ratio.
    support
        Width over which slopes are taken, plan units, > 0.
    z_scale
        Plan units in one vertical unit.
    progress
        Told the share done.
    """
    patches = grow(tin, change, support, z_scale, part(progress, 0.0, 0.8))
    patches = settle(tin, patches, price(change, support), z_scale, part(progress, 0.8, 0.9))
    patches = unseamed(tin, patches, support, change, z_scale)
    patches = share_out(tin, patches, support, change)
    faces = tin.quick_edges.faces
    inner = np.flatnonzero((faces >= 0).all(axis=1))
    of = patches.of_face[faces[inner]]
    border = inner[of[:, 0] != of[:, 1]]
    border = np.setdiff1d(border, tin.quick_edges.nonmanifold, assume_unique=True)
    parting = border[_parting(tin, patches, border, change, z_scale)]
    measured = measure_edges(tin, parting, z_scale, part(progress, 0.9, 1.0))
    points = _straight(tin, border, parting, support, z_scale)
    edges, error = _between_planes(tin, patches, measured, points, z_scale)
    return Borders(patches, edges, error, points)


def _parting(
    tin: Tin, patches: Patches, border: Ints, change: float, z_scale: float
) -> NDArray[np.bool_]:
    """Tell which borders may be breaks at all, whatever their direction, (k,) bool."""
    of = patches.of_face[tin.quick_edges.faces[border]]
    gradients, wall = patches.fits.gradients, patches.wall[of].any(axis=1)
    step = gradients[of[:, 1]] - gradients[of[:, 0]]
    result = wall | (np.hypot(step[:, 0], step[:, 1]) >= change)
    asked = np.flatnonzero(result & ~wall)
    pairs, pair = np.unique(np.sort(of[asked], axis=1), axis=0, return_inverse=True)
    result[asked] = ~only_bends(tin, patches, pairs, z_scale)[pair.ravel()]
    return result


def _straight(tin: Tin, border: Ints, parting: Ints, support: float, z_scale: float) -> Floats:
    """Return the vertices with the zig-zags of parting borders straightened."""
    ends = tin.quick_edges.ends[parting]
    points = tin.vertices * (1.0, 1.0, z_scale)
    rim = np.zeros(len(points), bool)
    rim[tin.quick_edges.ends[tin.quick_edges.boundary]] = True
    lines = chain(ends, np.zeros(len(ends), np.int8), len(points))
    moved = straightened(points, lines, ends, support, rim)
    return uncrossed(points, moved, tin.quick_edges.ends[border]) / (1.0, 1.0, z_scale)


def _between_planes(
    tin: Tin, patches: Patches, measured: EdgeChange, points: Floats, z_scale: float
) -> tuple[EdgeChange, Floats]:
    """Return the edges with the rises of the planes on both sides, and the errors of changes."""
    of = patches.of_face[tin.quick_edges.faces[measured.edges]]
    along = points[measured.ends[:, 1]] - points[measured.ends[:, 0]]
    length = np.hypot(along[:, 0], along[:, 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        square = np.column_stack((along[:, 1], -along[:, 0])) / length[:, None]
        climb = along[:, 2] * z_scale / length
    gradients, spread = patches.fits.gradients, _uncertainty(patches)
    rises, variance = [], np.zeros(len(of))
    for side, sign, own in ((0, -1.0, measured.rise_left), (1, 1.0, measured.rise_right)):
        patch = of[:, side]
        rise = sign * (gradients[patch] * square).sum(axis=1)
        rises.append(np.where(patches.wall[patch], own, rise))
        xx, xy, yy = spread[:, patch]
        u, v = square.T
        variance += np.where(patches.wall[patch], 0.0, u * u * xx + 2 * u * v * xy + v * v * yy)
    edges = replace(
        measured,
        rise_left=rises[0],
        rise_right=rises[1],
        length=length,
        angle=angle_of_rises(rises[0], rises[1], climb),
        wall=patches.wall[of].any(axis=1),
    )
    return edges, np.sqrt(np.maximum(variance, 0.0))


def _uncertainty(patches: Patches) -> Floats:
    """Return the variances xx, xy, yy of the gradient of each patch, (3, k).

    Least squares: with residual variance ``r^2`` and ``n`` heights spread like the patch itself,
    the gradient varies by ``r^2 / (n - 3)`` times the inverse of the mean second moments. A
    triangulation has half as many vertices as faces. Three heights leave no residual to tell
    anything by.
    """
    fits = patches.fits
    heights = np.bincount(patches.of_face, minlength=len(patches)) / 2.0 + 1.0
    xx, xy, yy = (fits.moments[row] for row in (XX, XY, YY))
    determinant = xx * yy - xy * xy
    with np.errstate(divide="ignore", invalid="ignore"):
        factor = fits.residual**2 * fits.area / np.maximum(heights - 3.0, 0.1) / determinant
    factor = np.where(determinant > 0, factor, 0.0)
    return factor * np.stack((yy, -xy, xx))
