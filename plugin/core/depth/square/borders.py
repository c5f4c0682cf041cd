"""Borders of zones in a patchwork, and which of their points lie on a straight stretch."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...tin.edges import Edges, pair_half_edges
from .chains import Chains, walk

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_BEND = 0.01  # radians: what bends less is straight
_SHORT = 0.01  # of the snap distance: sides of upright faces
_KINK = 0.3  # radians: the bend that snapping may leave between points near each other


@dataclass(frozen=True, eq=False)
class Borders:
    """Where zones end.

    Parameters
    ----------
    edges : Edges
        Of the faces.
    rows : (b,) int
        Edges on borders: the face across has another zone, or there is none.
    on_border : (n,) bool
        Points on borders.
    straight : (n,) bool
        Points at which two border edges, no more, run straight on.
    along : (n, 2) float
        Unit direction of the border there, the way `chains` run.
    chains : Chains
        The stretches between points that are not straight.
    """

    edges: Edges
    rows: Ints
    on_border: Flags
    straight: Flags
    along: Floats
    chains: Chains


def find_borders(points: Floats, faces: Ints, zone: Ints, moving: Flags, snap: float) -> Borders:
    """Find the borders of zones.

    Parameters
    ----------
    points : (n, 2) float
        Plan positions.
    faces : (m, 3) int
        Point indices.
    zone : (m,) int
        Zone of each face.
    moving : (m,) bool
        Faces that will move; away from them no point counts as straight.
    snap : float
        A point that lies no farther from the straight line between its neighbours is on it,
        unless the border turns there.
    """
    edges = pair_half_edges(faces)
    left, right = edges.faces.T
    border = (left < 0) | (right < 0) | (zone[left] != zone[right])
    border[edges.nonmanifold] = True
    rows = np.flatnonzero(border)
    ends = edges.ends[rows]
    degree = np.bincount(ends.ravel(), minlength=len(points))
    concerned = np.zeros(len(points), dtype=bool)
    concerned[faces[moving]] = True
    twofold = (degree == 2) & concerned
    if len(edges.nonmanifold):
        twofold[edges.ends[edges.nonmanifold]] = False
    here = np.concatenate((ends[:, 0], ends[:, 1]))
    there = np.concatenate((ends[:, 1], ends[:, 0]))
    pick = twofold[here]
    here, there = here[pick], there[pick]
    order = np.lexsort((there, here))
    point = here[order][::2]
    one, other = there[order][::2], there[order][1::2]
    straight = _straight(points[one], points[point], points[other], snap)
    beside = np.full((len(points), 2), -1, dtype=np.int64)
    beside[point[straight], 0], beside[point[straight], 1] = one[straight], other[straight]
    chains = walk(points, beside)
    inner = chains.inner
    way = points[chains.point[inner + 1]] - points[chains.point[inner - 1]]
    along = np.zeros((len(points), 2))
    along[chains.point[inner]] = way / np.hypot(way[:, 0], way[:, 1])[:, None]
    is_straight = np.zeros(len(points), dtype=bool)
    is_straight[chains.point[inner]] = True
    return Borders(edges, rows, degree > 0, is_straight, along, chains)


def _straight(one: Floats, middle: Floats, other: Floats, snap: float) -> Flags:
    first, second, chord = middle - one, other - middle, other - one
    cross = np.abs(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0])
    ahead = np.einsum("ij,ij->i", first, second)
    length = np.hypot(chord[:, 0], chord[:, 1])
    turn = np.arctan2(cross, ahead)
    long = np.minimum(np.hypot(*first.T), np.hypot(*second.T)) > _SHORT * snap
    return long & ((turn <= _BEND) | ((turn <= _KINK) & (cross <= snap * length)))
