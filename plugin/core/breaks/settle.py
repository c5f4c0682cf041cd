"""Borders of patches settled face by face.

Growing joins whole patches, so single faces beside a border may have gone to the wrong side. A
face moves to a neighbouring patch where that lowers what growing minimises: the misfit of the face
from the plane plus the price of its borders. Moves that do not touch are made together until none
is left; every move lowers the total, so this ends. Planes stay those of the grown patches.
"""

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, silent
from ..tin import Tin
from .fits import Fits
from .patches import Patches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST_ROUNDS = 50
"""Noise takes three or four rounds; more help nothing."""


def settle(
    tin: Tin, patches: Patches, price: float, z_scale: float = 1.0, progress: Progress = silent
) -> Patches:
    """Return the patches with the faces at their borders where they fit best.

    Parameters
    ----------
    tin
        The surface.
    patches
        Its patches, as grown.
    price
        Misfit per length of border, as they were grown.
    z_scale
        Plan units in one vertical unit.
    progress
        Told the share done.
    """
    of_face = patches.of_face.copy()
    planes = patches.fits
    ends = tin.vertices.take(tin.quick_edges.ends, 0)[:, :, :2]
    lengths = np.hypot(*(ends[:, 1] - ends[:, 0]).T)
    across = tin.quick_edges.neighbours
    gain = np.zeros(len(of_face))
    for number in range(MOST_ROUNDS):
        progress(number / MOST_ROUNDS)
        face = _beside_borders(of_face, across, patches.wall)
        near = across[face]
        beside = np.where(near >= 0, of_face[near], -1)
        border = price * lengths[tin.quick_edges.face_edges[face]]
        parts = _faces(tin, face, patches.origin, z_scale)
        target, better = _best_moves(of_face[face], beside, border, parts, planes, patches.wall)
        gain[face] = better
        rival = np.where(near >= 0, gain[near], 0.0)
        # Of two neighbours with the same gain, which symmetric shapes have, the lower goes first.
        first = (better[:, None] > rival) | ((better[:, None] == rival) & (face[:, None] < near))
        move = (better > 0) & first.all(axis=1)
        gain[face] = 0.0
        if not move.any():
            break
        of_face[face[move]] = target[move]
    return patches.dealt(of_face, patches.own)


def _beside_borders(of_face: Ints, across: Ints, wall: NDArray[np.bool_]) -> Ints:
    """Return the faces that have a neighbour in another patch; walls stay where they are."""
    other = (of_face[across] != of_face[:, None]) & (across >= 0)
    return np.flatnonzero(other.any(axis=1) & ~wall[of_face])


def _faces(tin: Tin, face: Ints, origin: Floats, z_scale: float) -> Fits:
    corners = tin.vertices[tin.faces[face]] - origin
    corners[:, :, 2] *= z_scale
    return Fits.of_triangles(corners)


def _best_moves(
    own: Ints,
    beside: Ints,
    border: Floats,
    parts: Fits,
    planes: Fits,
    wall: NDArray[np.bool_],
) -> tuple[Ints, Floats]:
    """Return for each face the patch it should be in and how much that gains (0: none)."""
    rows = np.arange(len(own))

    def cost(patch: Ints) -> Floats:
        paid = np.where((beside >= 0) & (beside != patch[:, None]), border, 0.0).sum(axis=1)
        return parts.misfit_from(rows, planes, patch) + paid

    now = cost(own)
    target, gained = own.copy(), np.zeros(len(own))
    for side in range(3):
        other = beside[:, side]
        real = (other >= 0) & (other != own) & ~wall[other]
        gain = now - cost(np.where(real, other, own))
        # Gains that are rounding would make faces wander.
        better = real & (gain > gained + 1e-12 * now)
        target[better], gained[better] = other[better], gain[better]
    return target, gained
