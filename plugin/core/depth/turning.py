"""Turning about vertices, from an edge to the next one that is higher there."""

import numpy as np
from numpy.typing import NDArray

from ..tin.edges import Edges

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_CLEAR_SHARE = 1e-3  # of the run: two points of a step are never nearer to each other


def distances_along(
    xy: Floats, faces: Ints, edges: Edges, level: Ints, wanted: Flags, run: float
) -> Floats:
    """Return where on an edge the foot of a step lies, measured from each end, (e, 2) float.

    From the edge one turns about its end, both ways, to the next edge that is higher there; the
    point is as far along the edge as makes its distance square to the nearer of the two the run.

    Parameters
    ----------
    xy : (n, 2) float
        Plan positions.
    faces : (f, 3) int
        Counter-clockwise.
    edges : Edges
        Of the faces.
    level : (e, 2) int
        Level of each end of each edge, growing with the height.
    wanted : (e, 2) bool
        Ends for which it is wanted; the others are left at the run.
    run : float
        Plan run of the step.
    """
    least_angle = np.full(wanted.shape, 0.5 * np.pi)
    across = edges.neighbours
    half = np.arange(faces.size)
    own_edge = edges.face_edges.ravel()
    for turn in (1, -1):  # counter-clockwise, clockwise
        # Turning counter-clockwise the edge is side k seen from corner k; clockwise it is side
        # k - 1, which arrives there.
        face, corner = half // 3, half % 3
        first = corner if turn == 1 else (corner + 2) % 3
        edge = own_edge[3 * face + first]
        end = (edges.ends[edge, 1] == faces[face, corner]).astype(np.int64)
        active = wanted[edge, end]
        face, corner, edge, end = face[active], corner[active], edge[active], end[active]
        angle = np.zeros(len(face))
        while len(face):
            angle += _corner_angles(xy, faces, face, corner)
            side = (corner + 2) % 3 if turn == 1 else corner
            reached = edges.face_edges[face, side]
            near = (edges.ends[reached, 1] == faces[face, corner]).astype(np.int64)
            higher = level[reached, near] > level[edge, end]
            done = higher & (angle < 0.5 * np.pi)
            np.minimum.at(least_angle, (edge[done], end[done]), angle[done])
            after = across[face, side]
            go = ~higher & (angle < 0.5 * np.pi) & (after >= 0)
            face, corner, edge, end = face[go], corner[go], edge[go], end[go]
            angle, side, after = angle[go], side[go], after[go]
            vertex = faces[face, corner]
            face = after
            at = faces[face] == vertex[:, None]
            corner = at.argmax(axis=1)
    distance = run / np.maximum(np.sin(least_angle), 1e-9)
    return np.maximum(distance, _clear_of_needles(xy, faces, edges, _CLEAR_SHARE * run))


def _clear_of_needles(xy: Floats, faces: Ints, edges: Edges, clear: float) -> Floats:
    """Return how far from each end of an edge its faces are ``clear`` wide, (e, 2) float.

    Points nearer to the tip of a needle would coincide in the last digits of site coordinates.
    """
    distance = np.zeros((len(edges.ends), 2))
    face = np.arange(len(faces))
    for corner in range(3):
        angle = _corner_angles(xy, faces, face, np.full(len(faces), corner))
        far = clear / np.maximum(np.sin(np.minimum(angle, 0.5 * np.pi)), 1e-9)
        for side in (corner, (corner + 2) % 3):
            edge = edges.face_edges[:, side]
            end = (edges.ends[edge, 1] == faces[:, corner]).astype(np.int64)
            np.maximum.at(distance, (edge, end), far)
    return distance


def _corner_angles(xy: Floats, faces: Ints, face: Ints, corner: Ints) -> Floats:
    at = xy[faces[face, corner]]
    u = xy[faces[face, (corner + 1) % 3]] - at
    v = xy[faces[face, (corner + 2) % 3]] - at
    cross = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    return np.abs(np.arctan2(cross, np.einsum("ij,ij->i", u, v)))
