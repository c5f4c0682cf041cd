"""Pairs of faces seen from the frame of the second one, and the area and moments they share.

The frame puts the corners of the second face at (0, 0), (D, 0) and (0, D), where D is twice its
plan area:

    u = p x e2,  v = e1 x p,  w = D - u - v        (e1, e2: sides from corner 0; p: the point)

u, v and w are twice the areas of the triangles a point makes with its sides; inside the
face all three are positive. A corner that both faces share gets exact zeros.

What the first face shares with it is found by clipping its three sides, as directed
segments, with w >= 0, u >= 0 and v >= 0, and summing Green's integrals over what is left. The
outline is closed again along w = 0 by one segment from exit to entry. Along u = 0 and v = 0
nothing needs to be closed: these lines pass through the origin, where the integrals

    area = sum (a x b) / 2,   moment of u = sum (a x b) (a.u + b.u) / 6

of a segment a -> b vanish. A triangle leaves the half-plane w >= 0 at most once, as the sign of
w is asked once a corner; so the outline is always closed, however its sides coincide.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from .rows import Rows

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_TINY = 1e-200  # keeps segments along a line from dividing by zero; lost in any other length


class Side:
    """One of the two surfaces: its faces, and what is worked out of them when first needed."""

    def __init__(self, rows: Rows) -> None:
        self.rows = rows

    @cached_property
    def first(self) -> Floats:
        """Sides corner 0 -> 1 of the faces in x, y and z, (3, m) float."""
        rows = self.rows
        return np.stack([values[1] - values[0] for values in (rows.x, rows.y, rows.z)])

    @cached_property
    def second(self) -> Floats:
        """Sides corner 0 -> 2 of the faces in x, y and z, (3, m) float."""
        rows = self.rows
        return np.stack([values[2] - values[0] for values in (rows.x, rows.y, rows.z)])

    @cached_property
    def slopes(self) -> Floats:
        """Rise over run of the faces along x and y, (2, m) float."""
        x, y, z = self.rows.x, self.rows.y, self.rows.z
        z1, z2 = z[1] - z[0], z[2] - z[0]
        along_x = z1 * (y[2] - y[0]) - z2 * (y[1] - y[0])
        along_y = z2 * (x[1] - x[0]) - z1 * (x[2] - x[0])
        return np.stack((along_x, along_y)) / self.rows.size


@dataclass(frozen=True, eq=False)
class Pairs:
    """Faces that share plan area.

    Parameters
    ----------
    one, other : (k,) int
        Rows of the first face and of the second, from whose frame the pair is seen.
    u, v : (3, k) float
        Corners of the first face in the frame of the second.
    size : (k,) float
        Twice the plan area of the second face.
    swapped : bool
        The first face is of the lower surface, the second of the upper; else the other way.
    """

    one: Ints
    other: Ints
    u: Floats
    v: Floats
    size: Floats
    swapped: bool = False

    def __len__(self) -> int:
        """Return the number of pairs."""
        return len(self.one)

    @property
    def upper(self) -> Ints:
        """Rows of the faces of the upper surface."""
        return self.other if self.swapped else self.one

    @property
    def lower(self) -> Ints:
        """Rows of the faces of the lower surface."""
        return self.one if self.swapped else self.other

    def take(self, some: Ints) -> "Pairs":
        """Return some of the pairs."""
        return Pairs(
            self.one.take(some),
            self.other.take(some),
            self.u.take(some, axis=1),
            self.v.take(some, axis=1),
            self.size.take(some),
            self.swapped,
        )


def meet(first: Side, second: Side, one: Ints, other: Ints) -> Pairs:
    """Keep the pairs of faces that share plan area.

    Two triangles do not when a side of one of them has the whole other one beyond it, or on it.

    Parameters
    ----------
    first, second : Side
        The surfaces.
    one, other : (k,) int
        Rows of their faces.
    """
    rows = first.rows
    size = second.rows.size.take(other)
    x, y = second.rows.x[0].take(other), second.rows.y[0].take(other)
    x1, y1 = second.first[0].take(other), second.first[1].take(other)
    x2, y2 = second.second[0].take(other), second.second[1].take(other)
    u, v = np.empty((3, len(one))), np.empty((3, len(one)))
    for k in range(3):
        dx = rows.x[k].take(one) - x
        dy = rows.y[k].take(one) - y
        np.subtract(dx * y2, dy * x2, out=u[k])
        np.subtract(x1 * dy, y1 * dx, out=v[k])
    kept = u.max(axis=0) > 0
    kept &= v.max(axis=0) > 0
    kept &= (u + v).min(axis=0) < size
    for k in range(3):
        au, av, bu, bv = u[k], v[k], u[k - 2], v[k - 2]
        at_origin = au * bv - av * bu
        along = np.maximum(0.0, np.maximum(-size * (bv - av), size * (bu - au)))
        kept &= at_origin + along > 0
    return Pairs(one, other, u, v, size).take(np.flatnonzero(kept))


def moments(u: Floats, v: Floats, size: Floats) -> tuple[Floats, Floats, Floats]:
    """Return what triangles share with the face of their frame.

    Parameters
    ----------
    u, v : (3, k) float
        Corners, counter-clockwise.
    size : (k,) float
        Twice the plan area of the face.

    Returns
    -------
    area, of_u, of_v : (k,) float
        Twice the area, six times the first moments, all in the frame.
    """
    start_u, start_v, stop_u, stop_v, kept = _within_hypotenuse(u, v, size)
    _within_axis(start_u, start_v, stop_u, stop_v)
    _within_axis(start_v, start_u, stop_v, stop_u)
    cross = start_u * stop_v
    cross -= start_v * stop_u
    cross[:3] *= kept
    start_u += stop_u
    start_u *= cross
    start_v += stop_v
    start_v *= cross
    return cross.sum(axis=0), start_u.sum(axis=0), start_v.sum(axis=0)


def _within_hypotenuse(u: Floats, v: Floats, size: Floats) -> tuple[Floats, ...]:
    """Clip the sides of triangles by w >= 0; the fourth segment closes the outline.

    Returns
    -------
    start_u, start_v, stop_u, stop_v : (4, k) float
        Ends of the segments.
    kept : (3, k) float
        0 for sides that lie outside as a whole, whose ends mean nothing; 1 for the others.
    """
    w = size - u
    w -= v
    inside = (w >= 0).astype(np.float64)
    outside = 1.0 - inside
    distance = np.abs(w)
    beyond = np.minimum(w, 0.0)
    start_u, start_v, stop_u, stop_v = (np.empty((4, u.shape[1])) for _ in range(4))
    for end in (start_u, start_v, stop_u, stop_v):
        end[3] = 0.0
    kept = np.empty_like(u)
    for k, following in ((0, 1), (1, 2), (2, 0)):
        whole = distance[k] + distance[following]
        whole += _TINY
        for value, start, stop in ((u, start_u, stop_u), (v, start_v, stop_v)):
            slope = value[following] - value[k]
            slope /= whole
            np.multiply(beyond[k], slope, out=start[k])
            np.subtract(value[k], start[k], out=start[k])
            np.multiply(beyond[following], slope, out=stop[k])
            stop[k] += value[following]
        exits = inside[k] * outside[following]
        enters = outside[k] * inside[following]
        start_u[3] += exits * stop_u[k]
        start_v[3] += exits * stop_v[k]
        stop_u[3] += enters * start_u[k]
        stop_v[3] += enters * start_v[k]
        np.maximum(inside[k], inside[following], out=kept[k])
    return start_u, start_v, stop_u, stop_v, kept


def _within_axis(start: Floats, start_along: Floats, stop: Floats, stop_along: Floats) -> None:
    """Clip segments where the first coordinate is negative, in place.

    What is clipped is laid on the axis, where it counts for nothing: also segments that lie
    outside as a whole.
    """
    slope = stop_along - start_along
    whole = np.abs(start)
    whole += np.abs(stop)
    whole += _TINY
    slope /= whole
    np.minimum(start, 0.0, out=whole)
    start -= whole
    whole *= slope
    start_along -= whole
    np.minimum(stop, 0.0, out=whole)
    stop -= whole
    whole *= slope
    stop_along += whole
