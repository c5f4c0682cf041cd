"""One vertex for each place, so that faces that touch hang together."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .mesh import Tin
from .weld import same_place

Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Joined:
    """A surface with one vertex for each place.

    Parameters
    ----------
    tin : Tin
        The surface; vertices keep their numbers, some are left without a face.
    source : (m,) int
        Face of the given surface that each face is; those that joining made into a line are gone.
    plan, solid : (n,) int
        Lowest vertex in the same place as each vertex, in plan and in space; of vertices without
        usable coordinates each is its own.
    """

    tin: Tin
    source: Ints
    plan: Ints
    solid: Ints


def with_one_vertex_a_place(tin: Tin, snap: float) -> Joined:
    """Return the surface with its faces joined where their corners lie in one place.

    Parameters
    ----------
    tin : Tin
        The surface.
    snap : float
        Vertices at most this far apart are in one place.
    """
    xyz = tin.vertices
    every = np.arange(len(xyz))
    known = np.flatnonzero(np.isfinite(xyz).all(axis=1))
    plan, solid = every.copy(), every.copy()
    plan[known] = known[same_place(xyz[known, :2], snap)]
    # Whatever is in one place in space is so in plan, where hardly any two are.
    several = np.flatnonzero(np.bincount(plan, minlength=len(xyz))[plan] > 1)
    solid[several] = several[same_place(xyz[several], snap)]
    used = np.zeros(len(xyz), dtype=bool)
    used[tin.faces] = True
    if (solid[used] == every[used]).all():
        return Joined(tin, np.arange(len(tin.faces)), plan, solid)
    faces = solid[tin.faces]
    sound = np.flatnonzero((faces != np.roll(faces, 1, axis=1)).all(axis=1))
    if not len(sound):
        return Joined(tin, np.arange(len(tin.faces)), plan, solid)
    return Joined(Tin.from_arrays(xyz, faces[sound]), sound, plan, solid)
