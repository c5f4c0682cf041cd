"""Dividing crossed faces along their chords into triangles."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, silent
from . import islands
from .crossings import Crossings
from .frames import Frames, barycentric
from .near import Band
from .pieces import Rings, face_rings, trace
from .triangulate import LARGEST, triangulate_rings

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_AREA_SHARE = 1e-9


@dataclass(frozen=True, eq=False)
class Divided:
    """The crossed faces in pieces.

    Parameters
    ----------
    crossed : (c,) int
        Faces of the band that were divided.
    faces, parent : (t, 3), (t,) int
        Triangles (vertices of the surface and nodes) and the face of the band each lies in.
    nodes : (i, 3) float
        The new nodes; their numbers follow those of the vertices.
    loose : (u,) int
        Faces of the band whose chords were left out because they contradict each other.
    fallbacks : int
        Faces that were divided one at a time.
    """

    crossed: Ints
    faces: Ints
    parent: Ints
    nodes: Floats
    loose: Ints
    fallbacks: int


def divide(crossings: Crossings, band: Band, xyz: Floats, progress: Progress = silent) -> Divided:
    """Divide all faces that have nodes on their sides or chords in them.

    Parameters
    ----------
    crossings : Crossings
        Nodes and chords.
    band : Band
        Faces near the borders.
    xyz : (n, 3) float
        Vertices of the surface.
    progress : Progress
        Told the share done.
    """
    has_node = np.zeros(len(band.edges.ends), dtype=bool)
    has_node[crossings.edge] = True
    marked = has_node[band.edges.face_edges].any(axis=1)
    marked[crossings.chord_face] = True
    crossed = np.flatnonzero(marked)
    number = np.cumsum(marked) - 1
    frames = Frames(xyz, band, crossings)
    outlines, side = face_rings(
        band.corners[crossed],
        band.edges.face_edges[crossed],
        band.edges.ends,
        crossings.edge,
        len(xyz),
    )
    ends = [frames.locate(crossings.chord_face, crossings.chords[:, end])[0] for end in (0, 1)]
    progress(0.15)
    rings = trace(
        outlines,
        side,
        crossings.chords,
        number[crossings.chord_face],
        np.stack(ends, axis=1),
        frames.corners[crossed],
    )
    progress(0.6)
    position, bits = frames.locate(crossed[rings.face[rings.owner]], rings.nodes)
    odd = _odd_faces(rings, position, frames.corners[crossed])
    keep = np.flatnonzero(~odd[rings.face])
    good = rings.take(keep)
    entries = ~odd[rings.face][rings.owner]
    progress(0.75)
    triangles, ring, failed = triangulate_rings(good, position[entries], bits[entries])
    odd[good.face[failed]] = True
    face = good.face[ring]
    whole = ~odd[face]
    faces, parents = [triangles[whole]], [crossed[face[whole]]]
    loose = []
    for row in np.flatnonzero(odd):
        progress(0.95)
        some, settled = _one(row, crossed[row], outlines, crossings, frames)
        faces.append(some)
        parents.append(np.full(len(some), crossed[row]))
        if not settled:
            loose.append(crossed[row])
    return Divided(
        crossed,
        np.concatenate(faces),
        np.concatenate(parents),
        _node_positions(crossings, band, xyz),
        np.array(loose, dtype=np.int64),
        int(odd.sum()),
    )


def _odd_faces(rings: Rings, position: Floats, corners: Floats) -> NDArray[np.bool_]:
    """Tell which faces have pieces that are not simple rings, or that do not fill the face."""
    owner = rings.owner
    after = rings.following(position)
    doubled = position[:, 0] * after[:, 1] - position[:, 1] * after[:, 0]
    area = 0.5 * np.bincount(owner, weights=doubled, minlength=len(rings.face))
    total = np.bincount(rings.face, weights=area, minlength=len(corners))
    first, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    full = 0.5 * (first[:, 0] * other[:, 1] - first[:, 1] * other[:, 0])
    odd = np.abs(total - full) > _AREA_SHARE * full
    odd[rings.face[(area <= 0) | (rings.sizes > LARGEST)]] = True
    width = int(rings.nodes.max(initial=0)) + 1
    key = np.sort(owner * width + rings.nodes)
    twice = key[1:][key[1:] == key[:-1]] // width
    odd[rings.face[twice]] = True
    return odd


def _one(
    row: int, face: int, outlines: Rings, crossings: Crossings, frames: Frames
) -> tuple[Ints, bool]:
    """Divide one face through GEOS."""
    outline = outlines.nodes[outlines.start[row] : outlines.start[row + 1]]
    chords = crossings.chords[crossings.chord_face == face]
    nodes = np.unique(np.concatenate((outline, chords.ravel())))
    position, bits = frames.locate(np.full(len(nodes), face), nodes)
    positions = {
        int(node): (float(x), float(y)) for node, (x, y) in zip(nodes, position, strict=True)
    }
    sides = {int(node): int(bit) for node, bit in zip(nodes, bits, strict=True)}
    return islands.divide(outline, positions, sides, chords)


def _node_positions(crossings: Crossings, band: Band, xyz: Floats) -> Floats:
    """Return x, y, z of the new nodes: on edges between the ends, inside faces on the plane."""
    low, high = (xyz[band.edges.ends[crossings.edge, end]] for end in (0, 1))
    on_edges = low + crossings.share[:, None] * (high - low)
    corners = xyz[band.corners[crossings.inner_face]]
    weights = barycentric(corners[:, :, :2], crossings.inner_xy)
    z = corners[:, 0, 2] + (weights[:, 1:] * (corners[:, 1:, 2] - corners[:, :1, 2])).sum(axis=1)
    return np.vstack((on_edges, np.column_stack((crossings.inner_xy, z))))
