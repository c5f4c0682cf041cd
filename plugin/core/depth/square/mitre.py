"""The point that lies at given distances from several planes, for many points at once.

Plane k has the unit normal n_k and is to be passed at the signed distance r_k from the point's
home, so that ``n_k . x = r_k`` for the move x = (d, h) of plan and height. For each plan move the
height of least squares follows at once; what is left are two unknowns in plan, which are found
one after the other along the directions in which the planes differ most and least. The shortest
plan move that meets the planes is taken: none where one plane will do, one at right angles to the
line in which two planes meet, two unknowns where there are more.
"""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_UPRIGHT = 1e-8  # mean squared rise of the normals below which planes give no height
_PARALLEL = 1e-24  # squared difference of normals that is rounding


class Freedom(IntEnum):
    """How a point may move in plan."""

    FREE = 0
    ALONG = 1
    """Along one direction."""
    FIXED = 2


@dataclass(frozen=True)
class Limits:
    """When a move is good enough, and when too far.

    Parameters
    ----------
    exact : float
        Planes missed by no more are met.
    rough : float
        Planes missed by no more are met well enough to keep a point near.
    reach : float
        Plan move, in thicknesses, beyond which a point is not drawn out to meet more planes.
    """

    exact: float
    rough: float
    reach: float


@dataclass(frozen=True, eq=False)
class Rows:
    """Equations of points, those of one point one after the other.

    Parameters
    ----------
    start : (k + 1,) int
        Where the equations of each point begin; each has at least one.
    normals : (i, 3) float
        Unit normals; zeros for a plane that is not known.
    right : (i,) float
        Distances.
    weights : (i,) float
        Zero for equations that do not count, in the sums or in the residual.
    """

    start: Ints
    normals: Floats
    right: Floats
    weights: Floats

    def total(self, values: Floats) -> Floats:
        """Sum over the equations of each point."""
        return np.add.reduceat(values, self.start[:-1])

    def largest(self, missed: Floats) -> Floats:
        """Return the largest absolute value among the equations of each point that count."""
        size = np.where(self.weights > 0.0, np.abs(missed), 0.0)
        return np.maximum.reduceat(size, self.start[:-1])

    def spread(self, values: Floats) -> Floats:
        """Repeat the value of each point for its equations."""
        return np.repeat(values, np.diff(self.start), axis=0)


class _Heights:
    """The height that follows from a plan move, and the equations without it."""

    def __init__(self, rows: Rows) -> None:
        rise, weight = rows.normals[:, 2], rows.weights
        lean = weight * rise
        squares = rows.total(lean * rise)
        upright = squares <= _UPRIGHT * rows.total(weight)
        safe = np.where(upright, 1.0, squares)
        self.at_home = np.where(upright, 0.0, rows.total(lean * rows.right) / safe)
        self.slope = np.column_stack(
            [
                np.where(upright, 0.0, rows.total(lean * rows.normals[:, axis]) / safe)
                for axis in (0, 1)
            ]
        )
        self.across = rows.normals[:, :2] - rise[:, None] * rows.spread(self.slope)
        self.missed = rows.right - rise * rows.spread(self.at_home)

    def heights(self, plan: Floats) -> Floats:
        return self.at_home - np.einsum("ij,ij->i", self.slope, plan)


def drop(rows: Rows, plan: Floats) -> tuple[Floats, Floats]:
    """Return the height move of points whose plan moves are given, and how far planes are missed.

    Parameters
    ----------
    rows : Rows
        Equations of k points.
    plan : (k, 2) float
        Plan moves.

    Returns
    -------
    height : (k,) float
    residual : (k,) float
        Largest distance by which a plane is missed.
    """
    free = _Heights(rows)
    missed = free.missed - np.einsum("ij,ij->i", free.across, rows.spread(plan))
    return free.heights(plan), rows.largest(missed)


def meet(
    rows: Rows, freedom: Ints, along: Floats, thickness: Floats, limits: Limits
) -> tuple[Floats, Floats]:
    """Return the moves that bring points to their distances from planes.

    Parameters
    ----------
    rows : Rows
        Equations of k points.
    freedom : (k,) int
        `Freedom` of each point.
    along : (k, 2) float
        Unit direction of the points that move along one.
    thickness : (k,) float
        Scale of the moves.
    limits : Limits
        See there.

    Returns
    -------
    move : (k, 3) float
        In plan and height.
    residual : (k,) float
        Largest distance by which a plane is missed.
    """
    free = _Heights(rows)
    across, weight = free.across, rows.weights
    xx, xy, yy = (
        rows.total(weight * across[:, a] * across[:, b]) for a, b in ((0, 0), (0, 1), (1, 1))
    )
    angle = 0.5 * np.arctan2(2.0 * xy, xx - yy)
    major = np.column_stack((np.cos(angle), np.sin(angle)))
    line = freedom == Freedom.ALONG
    major[line] = along[line]
    minor = np.column_stack((-major[:, 1], major[:, 0]))
    one = np.einsum("ij,ij->i", across, rows.spread(major))
    two = np.einsum("ij,ij->i", across, rows.spread(minor))
    noise = _PARALLEL * rows.total(weight)
    first = _Unknown(rows, one, noise)
    second = _Unknown(rows, two, noise)

    at_home = free.missed
    step = first.solve(at_home)
    on_line = at_home - one * rows.spread(step)
    both_first, both_second = step, second.solve(on_line)
    exact = on_line - two * rows.spread(both_second)
    for _ in range(2):  # the two directions are only nearly independent
        more = first.solve(exact)
        both_first = both_first + more
        exact = exact - one * rows.spread(more)
        more = second.solve(exact)
        both_second = both_second + more
        exact = exact - two * rows.spread(more)

    missed = np.column_stack([rows.largest(left) for left in (at_home, on_line, exact)])
    far = limits.reach * np.abs(thickness)
    rank = np.minimum((missed > limits.exact).argmin(axis=1), 2)
    rank[(missed > limits.exact).all(axis=1)] = 2
    wanted = (missed[:, 2] <= limits.exact) & (missed[:, 1] > limits.rough)
    wild = (np.hypot(both_first, both_second) > far) & ~wanted
    rank[(rank == 2) & wild] = 1
    rank[line] = np.minimum(rank[line], 1)
    wild = (np.abs(step) > far) & ~((missed[:, 1] <= limits.exact) & (missed[:, 0] > limits.rough))
    rank[(rank == 1) & wild & line] = 0
    rank[freedom == Freedom.FIXED] = 0
    plan = np.where(rank > 0, np.where(rank > 1, both_first, step), 0.0)[:, None] * major
    plan += np.where(rank > 1, both_second, 0.0)[:, None] * minor
    residual = missed[np.arange(len(rank)), rank]
    return np.column_stack((plan, free.heights(plan))), residual


class _Unknown:
    """Least squares for one unknown a point."""

    def __init__(self, rows: Rows, factor: Floats, noise: Floats) -> None:
        self._rows = rows
        self._weighted = rows.weights * factor
        squares = rows.total(self._weighted * factor)
        self._share = np.where(squares > noise, 1.0, 0.0) / np.maximum(squares, noise + 1e-300)

    def solve(self, missed: Floats) -> Floats:
        return self._rows.total(self._weighted * missed) * self._share
