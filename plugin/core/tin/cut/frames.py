"""Plane coordinates within single faces.

Pieces are traced and triangulated in the plane of their own face, not in plan, so that steep
faces, which are slivers in plan, are as good as any. A frame keeps the sense of the plan, and
nodes on a side lie exactly between its ends.
"""

import numpy as np
from numpy.typing import NDArray

from .crossings import Crossings
from .near import Band

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_FLAT = 1e-6  # height over longest side below which a face has no plane to speak of


class Frames:
    """Positions of nodes in the frames of faces of a band.

    Parameters
    ----------
    xyz : (n, 3) float
        Vertices of the surface.
    band : Band
        Faces near the borders.
    crossings : Crossings
        The nodes.
    """

    def __init__(self, xyz: Floats, band: Band, crossings: Crossings) -> None:
        self._first = len(xyz)
        self._band = band
        self._crossings = crossings
        self._xy = xyz[:, :2]
        self.corners = corner_frames(xyz[band.corners])

    def locate(self, face: Ints, node: Ints) -> tuple[Floats, Ints]:
        """Return position (k, 2) and side bits (k,) of nodes in the frames of their faces."""
        crossings, band = self._crossings, self._band
        position = np.zeros((len(node), 2))
        bits = np.zeros(len(node), dtype=np.int64)
        on_edge = node - self._first
        has_edge = (on_edge >= 0) & (on_edge < len(crossings.edge))
        inside = np.flatnonzero(on_edge >= len(crossings.edge))
        index = np.where(has_edge, on_edge, 0)
        edge = np.full(len(node), -1, dtype=np.int64)
        edge[has_edge] = crossings.edge[index[has_edge]]
        for side in range(3):
            a, b = side, (side + 1) % 3
            corner = np.flatnonzero(band.corners[face, side] == node)
            position[corner] = self.corners[face[corner], side]
            bits[corner] = 1 << side | 1 << (side + 2) % 3
            at = np.flatnonzero(has_edge & (band.edges.face_edges[face, side] == edge))
            share = crossings.share[on_edge[at]]
            forward = band.edges.ends[edge[at], 0] == band.corners[face[at], a]
            share = np.where(forward, share, 1.0 - share)[:, None]
            start, stop = self.corners[face[at], a], self.corners[face[at], b]
            position[at] = start + share * (stop - start)
            bits[at] = 1 << side
        point = crossings.inner_xy[on_edge[inside] - len(crossings.edge)]
        weights = barycentric(self._xy[band.corners[face[inside]]], point)
        position[inside] = np.einsum("ik,ikj->ij", weights, self.corners[face[inside]])
        return position, bits


def barycentric(triangles: Floats, points: Floats) -> Floats:
    """Return the weights (k, 3) of the corners (k, 3, 2) that give points (k, 2)."""
    a, b, c = triangles[:, 0], triangles[:, 1] - triangles[:, 0], triangles[:, 2] - triangles[:, 0]
    p = points - a
    area = b[:, 0] * c[:, 1] - b[:, 1] * c[:, 0]
    second = (p[:, 0] * c[:, 1] - p[:, 1] * c[:, 0]) / area
    third = (b[:, 0] * p[:, 1] - b[:, 1] * p[:, 0]) / area
    return np.column_stack((1.0 - second - third, second, third))


def corner_frames(corners: Floats) -> Floats:
    """Lay faces (f, 3, 3) into their own planes, first side along x, (f, 3, 2)."""
    first = corners[:, 1] - corners[:, 0]
    other = corners[:, 2] - corners[:, 0]
    normal = np.cross(first, other)
    doubled = np.sqrt(np.einsum("ij,ij->i", normal, normal))
    length = np.sqrt(np.einsum("ij,ij->i", first, first))
    longest2 = np.maximum(length**2, np.einsum("ij,ij->i", other, other))
    flat = doubled <= _FLAT * longest2
    safe = np.where(flat, 1.0, length)
    frame = np.zeros((len(corners), 3, 2))
    frame[:, 1, 0] = length
    frame[:, 2, 0] = np.einsum("ij,ij->i", first, other) / safe
    frame[:, 2, 1] = doubled / safe
    size = np.sqrt(np.maximum(longest2, np.finfo(np.float64).tiny))
    # Without a plane any triangle will do: its nodes lie on its sides.
    frame[flat] = np.array([[0.0, 0.0], [1.0, 0.0], [0.5, 0.75]]) * size[flat, None, None]
    return frame
