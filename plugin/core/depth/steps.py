"""Closing the jumps of a patchwork with narrow steps, so that it becomes a surface.

The shallower side wins at a border: every vertex takes the highest of the heights its faces have
there, every end of an edge the higher of its two. Where a face is lower than its side or corner,
the step lies inside that face: its *bottom* is drawn in by the run of the step, and the ring
between is filled with *step* faces. Points on edges are worked out once for each end of an edge,
so that the faces beside it share them; all bottoms lie exactly on the planes of their faces.

Where two faces beside an edge are level at one end and differ at the other, the step between them
is a wedge that begins at the level end.

Nothing is offset as linework: a step can become narrower than asked for where faces are small,
but it can never cross another, and the surface stays whole and single-valued in plan.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, silent
from ..tin.cut.pieces import Rings
from ..tin.cut.triangulate import triangulate_rings
from .insets import Insets
from .patchwork import Patchwork

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Standing:
    """A patchwork made whole.

    Parameters
    ----------
    vertices : (n, 3) float
        The points given with their heights, then the new ones.
    faces : (m, 3) int
        Faces without a step in them first, in the order given.
    source : (m,) int
        Face given that each is (part of).
    step : (m,) bool
        Faces of steps.
    design : (n,) float
        Height of the design at each vertex.
    least_run : float
        Plan run of the narrowest step; infinite without steps.
    narrow : (k, 2) float
        Plan positions of the sides whose step is narrower than asked for.
    narrow_faces : (k,) int
        Faces given that hold these steps.
    """

    vertices: Floats
    faces: Ints
    source: Ints
    step: Flags
    design: Floats
    least_run: float
    narrow: Floats
    narrow_faces: Ints


def stand(
    patchwork: Patchwork, run: float, equal: float = 0.0, progress: Progress = silent
) -> Standing:
    """Close the jumps of a patchwork.

    Parameters
    ----------
    patchwork : Patchwork
        Its points best count from nearby.
    run : float
        Plan run of the steps.
    equal : float
        Heights at one point that differ by no more are the same.
    progress : Progress
        Told the share done.
    """
    points, faces, heights = patchwork.points, patchwork.faces, patchwork.heights
    at_vertex, design = np.zeros(len(points)), np.zeros(len(points))
    # Of several values for one place numpy keeps the last.
    at_vertex[faces] = heights
    design[faces] = patchwork.design
    jumps = np.zeros(len(points), dtype=bool)
    jumps[faces[np.abs(heights - at_vertex[faces]) > 0.5 * equal]] = True
    near = np.flatnonzero(jumps[faces].any(axis=1))
    whole = np.column_stack((points, at_vertex))
    if not len(near):
        return _unstepped(whole, faces, design)
    progress(0.15)
    insets = Insets(whole, faces[near], heights[near], patchwork.design[near], design, run, equal)
    progress(0.5)
    top = jumps[insets.vertex]
    whole[insets.vertex[top], 2] = insets.top[top]
    rings, is_step, position, bits, node_xyz, node_design = insets.pieces()
    progress(0.7)
    triangles, ring, failed = triangulate_rings(rings, position, bits)
    progress(0.9)
    fans, fan_ring = _fans(rings, failed)
    triangles, ring = np.vstack((triangles, fans)), np.concatenate((ring, fan_ring))
    affected = near[insets.affected]
    unstepped = np.ones(len(faces), dtype=bool)
    unstepped[affected] = False
    kept = np.flatnonzero(unstepped)
    least, narrow, narrow_faces = insets.runs()
    return Standing(
        np.vstack((whole, node_xyz)),
        np.vstack((faces[kept], triangles)),
        np.concatenate((kept, affected[rings.face[ring]])),
        np.concatenate((np.zeros(len(kept), dtype=bool), is_step[ring])),
        np.concatenate((design, node_design)),
        least,
        narrow,
        near[narrow_faces],
    )


def _unstepped(vertices: Floats, faces: Ints, design: Floats) -> Standing:
    return Standing(
        vertices,
        faces,
        np.arange(len(faces)),
        np.zeros(len(faces), dtype=bool),
        design,
        np.inf,
        np.empty((0, 2)),
        np.empty(0, dtype=np.int64),
    )


def _fans(rings: Rings, failed: Ints) -> tuple[Ints, Ints]:
    """Triangulate rings without area (in faces without any) from their first node."""
    triangles, owner = [np.empty((0, 3), dtype=np.int64)], [np.empty(0, dtype=np.int64)]
    for ring in failed:
        nodes = rings.nodes[rings.start[ring] : rings.start[ring + 1]]
        middle = nodes[1:-1]
        triangles.append(np.column_stack((np.full(len(middle), nodes[0]), middle, nodes[2:])))
        owner.append(np.full(len(middle), ring))
    return np.vstack(triangles), np.concatenate(owner)
