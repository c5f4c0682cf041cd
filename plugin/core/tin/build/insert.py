"""Segments put into a triangulation as edges of it, many at once.

Each segment walks from triangle to triangle to its other end. Those that walk over triangles of
their own are put in together (see `cavity`), the others wait for the next round. A triangulation
that was (constrained) Delaunay is constrained Delaunay afterwards.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...errors import SurfaceError
from ...progress import Progress, silent
from ...runs import count_up
from ...text import translate
from ..edges import pair_half_edges
from .cavity import fill

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SPREAD = np.uint64(0x9E3779B97F4A7C15)


def edge_keys(ends: Ints) -> Ints:
    """Return one number for each pair of vertices, whatever their order, (k,) int."""
    low, high = np.minimum(ends[:, 0], ends[:, 1]), np.maximum(ends[:, 0], ends[:, 1])
    return np.asarray((low << 32) | high, dtype=np.int64)


def insert(xy: Floats, faces: Ints, segments: Ints, progress: Progress = silent) -> Ints:
    """Return the triangulation with the segments among its edges.

    Parameters
    ----------
    xy : (n, 2) float
        Vertices, near the origin.
    faces : (m, 3) int
        Counter-clockwise; they cover a convex area.
    segments : (s, 2) int
        Ends. Segments meet each other and vertices at their ends only.
    progress : Progress
        Told the share done.

    Returns
    -------
    (m, 3) int
        The same for the same segments in whatever order.
    """
    faces = faces.copy()
    segments = np.unique(np.sort(segments, axis=1), axis=0)
    total = max(len(segments), 1)
    while True:
        edges = pair_half_edges(faces)
        segments = segments[~np.isin(edge_keys(segments), edge_keys(edges.ends))]
        progress(1.0 - len(segments) / total)
        if not len(segments):
            return faces
        walk = _walk(xy, faces, edges.neighbours, segments)
        alone = _alone(walk, segments, len(faces))
        if not alone.any():
            raise _stuck()
        _replace(xy, faces, segments, walk, alone)
        segments = segments[~alone]


@dataclass(frozen=True, eq=False)
class _Walk:
    """What segments walk over: ``face`` of ``face_of`` segment, ``vertex`` beside it, in order."""

    face: Ints
    face_of: Ints
    vertex: Ints
    vertex_of: Ints
    left: NDArray[np.bool_]


def _stuck() -> SurfaceError:
    return SurfaceError(
        translate(
            "Core",
            "A breakline cannot be put into the surface: its vertices lie too close to other lines, choose a greater snap distance.",
        )
    )


def _side(xy: Floats, a: Ints, b: Ints, p: Ints) -> Floats:
    """Return twice the area of the triangles a, b, p: positive where p is to the left."""
    u, v = xy[b] - xy[a], xy[p] - xy[a]
    return np.asarray(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0], dtype=np.float64)


def _walk(xy: Floats, faces: Ints, across: Ints, segments: Ints) -> _Walk:
    """Walk every segment from its first to its second end."""
    number, face, side = _departures(xy, faces, segments)
    goal = segments[number, 1]
    right = faces[face, side]
    left = faces[face, (side + 1) % 3]
    over: list[Ints] = [face]
    over_of: list[Ints] = [number]
    beside, beside_of = [right, left], [number, number]
    is_left = [np.zeros(len(number), dtype=bool), np.ones(len(number), dtype=bool)]
    for _ in range(len(faces)):
        face, before = across[face, side], face
        if (face < 0).any():
            raise _stuck()
        # The side just crossed runs the other way round in the next face: left to right.
        entry = (faces[face] == left[:, None]).argmax(axis=1)
        if (across[face, entry] != before).any():
            raise _stuck()
        tip = faces[face, (entry + 2) % 3]
        over.append(face)
        over_of.append(number)
        there = tip == goal
        on = ~there
        number, goal, face, entry = number[on], goal[on], face[on], entry[on]
        left, right, tip = left[on], right[on], tip[on]
        if not len(number):
            break
        to_left = _side(xy, segments[number, 0], goal, tip) > 0
        beside.append(tip)
        beside_of.append(number)
        is_left.append(to_left)
        # Leave through right -> tip where the tip is to the left, else through tip -> left.
        side = np.where(to_left, (entry + 1) % 3, (entry + 2) % 3)
        left, right = np.where(to_left, tip, left), np.where(to_left, right, tip)
    return _Walk(
        np.concatenate(over),
        np.concatenate(over_of),
        np.concatenate(beside),
        np.concatenate(beside_of),
        np.concatenate(is_left),
    )


def _departures(xy: Floats, faces: Ints, segments: Ints) -> tuple[Ints, Ints, Ints]:
    """Return segment, face and its side through which each segment leaves its first vertex."""
    wanted = np.zeros(len(xy), dtype=bool)
    wanted[segments[:, 0]] = True
    half = np.flatnonzero(wanted[faces.ravel()])
    at = faces.ravel()[half]
    order = np.argsort(at, kind="stable")
    half, at = half[order], at[order]
    first = np.searchsorted(at, segments[:, 0], "left")
    count = np.searchsorted(at, segments[:, 0], "right") - first
    number = np.repeat(np.arange(len(segments)), count)
    half = half[np.repeat(first, count) + count_up(count)]
    face, corner = half // 3, half % 3
    start, goal = segments[number].T
    right, left = faces[face, (corner + 1) % 3], faces[face, (corner + 2) % 3]
    ahead = (_side(xy, start, goal, left) > 0) & (_side(xy, start, goal, right) < 0)
    number, face, side = number[ahead], face[ahead], (corner[ahead] + 1) % 3
    if len(number) != len(segments):
        raise _stuck()
    return number, face, side


def _alone(walk: _Walk, segments: Ints, count: int) -> NDArray[np.bool_]:
    """Choose segments that share no face; every other one shares a face with one of these.

    Ranks are dealt by a hash of the ends, so that a row of segments that lie over each other two
    by two does not take a round for each.
    """
    mixed = edge_keys(segments).view(np.uint64) * _SPREAD
    rank = np.empty(len(segments), dtype=np.int64)
    rank[np.argsort(mixed, kind="stable")] = np.arange(len(segments))
    owner = np.full(count, len(segments), dtype=np.int64)
    np.minimum.at(owner, walk.face, rank[walk.face_of])
    alone = np.ones(len(segments), dtype=bool)
    alone[walk.face_of[owner[walk.face] != rank[walk.face_of]]] = False
    return alone


def _replace(
    xy: Floats, faces: Ints, segments: Ints, walk: _Walk, alone: NDArray[np.bool_]
) -> None:
    """Put the segments in ``alone`` into the faces, in place; as many come as go."""
    bases, chains, counts, owners = [], [], [], []
    for to_left in (True, False):
        row = np.flatnonzero(alone[walk.vertex_of] & (walk.left == to_left))
        if not to_left:
            row = row[::-1]  # on the right the chain runs from the second end to the first
        row = row[np.argsort(walk.vertex_of[row], kind="stable")]
        owner, count = np.unique(walk.vertex_of[row], return_counts=True)
        bases.append(segments[owner] if to_left else segments[owner, ::-1])
        chains.append(walk.vertex[row])
        counts.append(count)
        owners.append(owner)
    triangles, cavity = fill(
        xy, np.concatenate(bases), np.concatenate(chains), np.concatenate(counts)
    )
    segment = np.concatenate(owners)[cavity]
    gone = np.flatnonzero(alone[walk.face_of])
    gone = gone[np.argsort(walk.face_of[gone], kind="stable")]
    faces[walk.face[gone]] = triangles[np.argsort(segment, kind="stable")]
