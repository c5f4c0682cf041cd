"""Patches: parts of a surface with one slope each, grown until only real breaks part them.

Every face starts as a patch of its own. Neighbours are joined as long as one plane does nearly as
well for both as two planes do: joining them must add less misfit (the integral of the squared
height difference from the plane, see `fits`) than a price per length of their common border. The
pair with the smallest ratio of misfit to border goes first, and pairs that are each other's best
are joined at the same time. Planes are fitted to whole patches, so that patches cannot drift away
from face to face. This is the piecewise-linear model of Mumford and Shah, "Optimal approximations
by piecewise smooth functions" (1989), minimised by merging as in Koepfler, Lopez and Morel, "A
multiscale algorithm for image segmentation by variational method" (1994); titles from memory.

The price follows from what a break is. Two strips of width ``w`` beside a border across which the
grade changes by ``c`` fit a single plane with a misfit of ``c^2 w^3 / 24`` per length. At that
price two patches stay apart when their grades differ by ``c`` and both are ``w`` wide, and narrower
ones when they differ by more. Noise of the heights, and a curve that bends by less than ``c``
within ``w``, cost less and part nothing. The face of a curb is too narrow to cost anything either:
faces that stand up as a step are not joined to what they stand on (see `_steps`).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks
from ..progress import Progress, part, silent
from ..tin import Tin
from ..tin.weld import hang_together
from .change import WALL_GRADE
from .fits import Fits
from .merging import join_parts, numbered

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 14

SAME_SLOPE = 1e-7
"""Faces whose gradients differ by less lie in one plane."""
STEP = 2.0
"""A narrow face that rises by so many times ``change * support`` out of the next is a step."""
NARROW = 16.0
"""Faces so many times narrower than the support are narrow."""


@dataclass(frozen=True)
class Patches:
    """The patches of a surface.

    Parameters
    ----------
    of_face : (m,) int
        Patch of each face. Patches are numbered by their first face in the order of place.
    fits : Fits
        Plane of each patch as it was grown, heights in plan units, about ``origin``.
    wall : (k,) bool
        Patches of faces too steep to have a place in plan; their planes mean nothing.
    origin : (3,) float
        What the centroids are counted from.
    own : (m,) bool
        False for faces that were dealt to a patch whose plane was fitted without them.
    """

    of_face: Ints
    fits: Fits
    wall: NDArray[np.bool_]
    origin: Floats
    own: NDArray[np.bool_]

    def __len__(self) -> int:
        """Return the number of patches."""
        return len(self.wall)

    def dealt(self, of_face: Ints, own: NDArray[np.bool_]) -> "Patches":
        """Return the patches with other faces and the planes they have; empty ones are left out."""
        used = np.unique(of_face)
        number = np.full(len(self), -1)
        number[used] = np.arange(len(used))
        return Patches(number[of_face], self.fits.take(used), self.wall[used], self.origin, own)

    def areas(self, tin: Tin) -> Floats:
        """Return the plan area of the faces of each patch, (k,) float."""
        return np.bincount(self.of_face, tin.plan_areas, len(self)).astype(np.float64)


def price(change: float, support: float) -> float:
    """Return the misfit per length of border at which a break of that change begins.

    Parameters
    ----------
    change
        Change of grade, a ratio.
    support
        Width over which slopes are taken, plan units.
    """
    return change * change * support**3 / 24.0


def grow(
    tin: Tin,
    change: float,
    support: float,
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> Patches:
    """Return the patches of a surface.

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

    Returns
    -------
    Patches
        The same for any order of faces and vertices.
    """
    order = _in_order(tin, z_scale)
    place = order.place
    progress(0.1)
    pairs, border = _neighbours(tin, order)
    gradients = tin.gradients.take(place, 0) * z_scale
    steep = ~(np.hypot(gradients[:, 0], gradients[:, 1]) <= WALL_GRADE)
    difference = gradients.take(pairs[0], 0) - gradients.take(pairs[1], 0)
    size = np.hypot(difference[:, 0], difference[:, 1])
    step = _steps(tin.plan_areas, place, pairs, border, size, change, support)
    same = size < SAME_SLOPE
    same = np.where(steep[pairs[0]] | steep[pairs[1]], steep[pairs[0]] & steep[pairs[1]], same)
    root = hang_together(len(place), pairs[0][same], pairs[1][same])
    label, count = numbered(root)
    progress(0.2)
    wall = np.zeros(count, bool)
    wall[label[steep]] = True
    fits = Fits.of_triangles(order.corners).gathered(label, count)
    one, other = label.take(pairs[0]), label.take(pairs[1])
    open_ = ~(wall[one] | wall[other] | step)
    touching = one[open_], other[open_], border[open_]
    limit = price(change, support)
    root = join_parts(fits, fits.misfit, touching, limit, part(progress, 0.2, 1.0))
    final, count = numbered(root)
    kept = np.flatnonzero(root == np.arange(len(root)))
    of_face = np.empty(len(place), np.int64)
    of_face[place] = final.take(label)
    return Patches(of_face, fits.take(kept), wall[kept], order.origin, np.ones(len(of_face), bool))


def _steps(
    areas: Floats,
    place: Ints,
    pairs: tuple[Ints, Ints],
    border: Floats,
    differ: Floats,
    change: float,
    width: float,
) -> NDArray[np.bool_]:
    """Tell which pairs of faces are never joined because one stands up from the other, (p,) bool.

    By the price alone a face as narrow as ``b`` stays apart if it rises by ``c w sqrt(w / b)`` out
    of the plane of the other: the narrower it is, the higher it has to be, and over a width of 8 ft
    the face of a curb would be lost. A narrow one is a step from ``STEP c w`` on.
    """
    step = np.zeros(len(differ), bool)
    # Both of what follows ask for as much, and few pairs differ by it.
    asked = np.flatnonzero(differ > STEP * NARROW * change)
    one, other = (areas.take(place.take(pair.take(asked))) for pair in pairs)
    doubled, border = 2.0 * np.minimum(one, other), border.take(asked)
    step[asked] = doubled * differ.take(asked) >= STEP * change * width * border
    step[asked] &= doubled * NARROW < width * border
    return step


@dataclass(frozen=True)
class _Order:
    """Faces and their corners in an order that only their place decides.

    Each face starts at its smallest corner, so that sums do not depend on where it started.

    Parameters
    ----------
    place : (m,) int
        The faces from west to east.
    first : (m,) int
        Corner that each of them starts at.
    corners : (m, 3, 3) float
        Their corners from there on, less ``origin``.
    origin : (3,) float
    """

    place: Ints
    first: Ints
    corners: Floats
    origin: Floats


def _in_order(tin: Tin, z_scale: float) -> _Order:
    origin = np.floor(tin.vertices.mean(axis=0))
    local = tin.vertices - origin
    local[:, 2] *= z_scale
    plan = np.ascontiguousarray(local.T[:2])
    first = np.empty(len(tin.faces), np.int64)
    middle = np.empty((3, len(tin.faces)))

    def some(begin: int, end: int) -> None:
        faces = tin.faces[begin:end]
        corners = np.ascontiguousarray(faces.T)
        x, y = plan[0].take(corners), plan[1].take(corners)
        first[begin:end] = np.where(x == x.min(axis=0), y, np.inf).argmin(axis=0)
        turned = _turned(faces, first[begin:end])
        total = local.take(turned[:, 0], axis=0)
        total += local.take(turned[:, 1], axis=0)
        total += local.take(turned[:, 2], axis=0)
        middle[:, begin:end] = total.T

    in_blocks(some, len(first), _BLOCK)
    place = _sorted_places(middle)
    first = first.take(place)
    return _Order(place, first, local.take(_turned(tin.faces.take(place, 0), first), 0), origin)


def _turned(sides: Ints, first: Ints) -> Ints:
    """Return the three values of each face beginning with the given one, (m, 3) int."""
    begin = 3 * np.arange(len(sides))
    return sides.ravel().take(begin[:, None] + (first[:, None] + (0, 1, 2)) % 3)


def _sorted_places(middle: Floats) -> Ints:
    """Return the order by x, then y, then z of (3, m) places."""
    order = np.argsort(middle[0], kind="stable")
    x = middle[0].take(order)
    same = x[1:] == x[:-1]
    if same.any():
        tied = np.flatnonzero(np.append(same, False) | np.append(False, same))
        order[tied] = order[tied][np.lexsort(middle[::-1, order[tied]])]
    return order


def _neighbours(tin: Tin, order: _Order) -> tuple[tuple[Ints, Ints], Floats]:
    """Return the pairs of faces (in the order of place) that share an edge, and its length."""
    rank = np.empty(len(order.place), np.int64)
    rank[order.place] = np.arange(len(rank))
    across = _turned(tin.quick_edges.neighbours.take(order.place, 0), order.first)
    other = np.where(across >= 0, rank.take(across), -1)
    # The lower of two speaks for both.
    low, side = np.nonzero(other > np.arange(len(rank))[:, None])
    along = order.corners[low, (side + 1) % 3, :2] - order.corners[low, side, :2]
    return (low, other[low, side]), np.hypot(along[:, 0], along[:, 1])
