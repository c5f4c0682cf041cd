"""The pieces that the ground beyond a border is laid out in, each as if it were alone."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from .border import Border
from .corners import RAY, Corners
from .planes import Strips

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]
Shapes = NDArray[np.object_]


@dataclass(frozen=True, eq=False)
class Points:
    """The vertices of the surface and the new ones about its corners.

    Parameters
    ----------
    xy : (n, 2) float
        Plan positions; those of the surface come first.
    given : int
        How many of them are the surface's.
    at : (b, 9) int
        Number of each place of `Corners`, -1 where there is none.
    ray_after : (b,) int
        Number of the ray for the strip after the corner: another one than for the strip before
        where the border rises upright in the corner, so that the two are not joined.
    """

    xy: Floats
    given: int
    at: Ints
    ray_after: Ints


@dataclass(frozen=True, eq=False)
class Pieces:
    """Strips and fans.

    Parameters
    ----------
    edge : (p,) int
        Edge of the border whose plane the piece lies in.
    nodes : (p, 2) int
        Corners of the border that the piece touches; twice the same for a fan.
    anchor : (p, 2) float
        A point of the border that the piece is attached to.
    measure : (p, 2) float
        Gradient of its distance, which is zero on the border: a strip's is its distance from the
        edge, to which that beyond the end of the edge is added in a fan.
    origin : (p, 2) float
        Where this distance is zero.
    start : (p + 1,) int
        Where the corners of each begin in ``corner``.
    corner : (c,) int
        Corners, counter-clockwise; the first lies on the border.
    shape : (p,) shapely Polygon
        The piece in plan.
    """

    edge: Ints
    nodes: Ints
    anchor: Floats
    measure: Floats
    origin: Floats
    start: Ints
    corner: Ints
    shape: Shapes

    def __len__(self) -> int:
        """Return the number of pieces."""
        return len(self.edge)

    def corners_of(self, piece: int) -> Ints:
        """Return the corners of a piece."""
        return self.corner[self.start[piece] : self.start[piece + 1]]


def points_of(plan: Floats, border: Border, corners: Corners) -> Points:
    """Number the places about the corners.

    Parameters
    ----------
    plan : (n, 2) float
        The vertices of the surface.
    border : Border
        Its border.
    corners : Corners
        Its corners.
    """
    at = np.full(corners.used.shape, -1, dtype=np.int64)
    at[corners.used] = len(plan) + np.arange(int(corners.used.sum()))
    torn = np.flatnonzero(corners.both & (border.start_vertex != border.stop_vertex[border.before]))
    ray_after = at[:, RAY].copy()
    count = len(plan) + int(corners.used.sum())
    ray_after[torn] = count + np.arange(len(torn))
    xy = np.concatenate([plan, corners.places[corners.used], corners.places[torn, RAY]])
    return Points(xy, len(plan), at, ray_after)


def lay_out(
    border: Border, strips: Strips, corners: Corners, points: Points, wanted: Mask
) -> Pieces:
    """Return strips and fans of the wanted edges, each as if it were alone."""
    fans = [
        _fan(border, strips, corners, points, before=True),
        _fan(border, strips, corners, points, before=False),
    ]
    edge = np.flatnonzero(wanted)
    rows = np.arange(len(wanted))
    after_at = points.at.copy()
    after_at[corners.both, RAY] = points.ray_after[corners.both]
    first = points.at[rows, corners.used.argmax(axis=1)]
    last = after_at[rows, 8 - corners.used[:, ::-1].argmax(axis=1)]
    quads = np.column_stack(
        [
            border.stop_vertex[edge],
            border.start_vertex[edge],
            last[edge],
            first[border.after[edge]],
        ]
    )
    shape = shapely.polygons(points.xy[quads])
    start = border.start[edge, :2]
    middle = 0.5 * (start + border.stop[edge, :2])
    whole = [
        (
            edge,
            np.column_stack([edge, border.after[edge]]),
            middle,
            strips.out[edge],
            start,
            np.full(len(edge), 4),
            quads.ravel(),
            shape,
        ),
        *fans,
    ]
    columns = [np.concatenate(parts) for parts in zip(*whole, strict=True)]
    piece, nodes, anchor, measure, origin, count, corner, shapes = columns
    begins = np.concatenate([[0], np.cumsum(count)])
    return Pieces(piece, nodes, anchor, measure, origin, begins, corner, shapes)


def _fan(
    border: Border, strips: Strips, corners: Corners, points: Points, *, before: bool
) -> tuple[NDArray, ...]:
    """Return the fans of the strips before, or after, the corners as columns of `Pieces`."""
    slots = slice(0, RAY + 1) if before else slice(RAY, 9)
    used = corners.used[:, slots] & corners.both[:, None]
    node = np.flatnonzero(used.sum(axis=1) >= 2)
    edge = border.before[node] if before else node
    hub = border.stop_vertex[edge] if before else border.start_vertex[edge]
    at = points.at[node, slots].copy()
    if not before:
        at[:, 0] = points.ray_after[node]
    table = np.column_stack([hub, at])
    taken = np.column_stack([np.ones(len(node), dtype=bool), used[node]])
    place = (border.stop if before else border.start)[edge, :2]
    wide = corners.used[node, 0] | corners.used[node, 8]
    beyond = strips.along[edge] * np.where(wide, 1.0 if before else -1.0, 0.0)[:, None]
    corner, count = table[taken], taken.sum(axis=1)
    shape = _polygons(points.xy[corner], count)
    return (
        edge,
        np.column_stack([node, node]),
        place,
        strips.out[edge] + beyond,
        place,
        count,
        corner,
        shape,
    )


def _polygons(xy: Floats, count: Ints) -> Shapes:
    """Return polygons of the places that follow one another."""
    rings = shapely.linearrings(xy, indices=np.repeat(np.arange(len(count)), count))
    return np.asarray(shapely.polygons(rings), dtype=object).reshape(-1)
