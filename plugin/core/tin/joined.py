"""One vertex for each place, so that faces that touch hang together."""

import numpy as np

from .mesh import Tin
from .weld import same_place


def with_one_vertex_a_place(tin: Tin, snap: float) -> Tin:
    """Return the surface with its faces joined where their corners lie in one place (x, y, z).

    Vertices keep their numbers, some are left without a face; faces that this makes into a line
    are gone, so that faces do not keep theirs. The surface itself where nothing is to be joined.

    Parameters
    ----------
    tin : Tin
        The surface.
    snap : float
        Corners at most this far apart become one.
    """
    used = np.zeros(len(tin.vertices), dtype=bool)
    used[tin.faces] = True
    live = np.flatnonzero(used)
    first = np.arange(len(tin.vertices))
    first[live] = live[same_place(tin.vertices[live], snap)]
    if (first == np.arange(len(first))).all():
        return tin
    faces = first[tin.faces]
    sound = (faces != np.roll(faces, 1, axis=1)).all(axis=1)
    return Tin.from_arrays(tin.vertices, faces[sound]) if sound.any() else tin
