"""Which faces each facet reaches before it meets the surface.

From the faces at its foot a facet spreads to the next face wherever it lies below the surface on
the side between the two, and to the facet beside it wherever it does so along their ray. A side
thus ends where it first meets the surface, and never cuts a hill farther off.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress
from .facets import Facets
from .ground import END, Ground

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_SIDES = ((0, 1), (1, 2), (2, 0))


@dataclass(frozen=True, eq=False)
class Reached:
    """Faces in which facets lie below the surface.

    Parameters
    ----------
    face, facet : (p,) int
        Each pair once.
    off : (o,) int
        Rows of the pairs in which a facet leaves the surface before it has met it.
    """

    face: Ints
    facet: Ints
    off: Ints


@dataclass(frozen=True, eq=False)
class Trial:
    """Pairs in which the facet lies below the surface.

    Parameters
    ----------
    rows : (g,) int
        These pairs, ascending.
    sides : (g, 3) bool
        Sides of the face on which it does.
    before, after : (g,) bool
        Whether it does so along its first and its last ray.
    behind, ahead : (g,) bool
        Whether the face lies partly behind the first and ahead of the last ray.
    """

    rows: Ints
    sides: Flags
    before: Flags
    after: Flags
    behind: Flags
    ahead: Flags


def spread(ground: Ground, facets: Facets, face: Ints, facet: Ints, progress: Progress) -> Reached:
    """Spread facets over the ground.

    Parameters
    ----------
    ground : Ground
        The mesh.
    facets : Facets
        All of them.
    face, facet : (s,) int
        Where facets begin.
    progress : Progress
        Told the share done.
    """
    width = len(ground.faces)
    keys = np.unique(facet * width + face)
    known: list[Ints] = []
    leaving = [keys[:0]]
    left = 1.0
    while len(keys):
        facet, face = np.divmod(keys, width)
        trial = examine(ground, facets, face, facet)
        sides, rows = trial.sides, trial.rows
        keys, facet, face = keys[rows], facet[rows], face[rows]
        across = ground.across[face]
        leaving.append(keys[(sides & (across == END)).any(axis=1)])
        row, side = np.nonzero(sides & (across >= 0))
        next_face = across[row, side]
        steps = [facet[row] * width + next_face]
        for moves, across_ray, beside in (
            (trial.after, trial.ahead, facets.after),
            (trial.before, trial.behind, facets.before),
        ):
            goes = moves & (beside[facet] >= 0)
            here = goes & across_ray
            steps.append(beside[facet[here]] * width + face[here])
            # The ray runs along a side.
            there = (goes & ~across_ray)[row]
            steps.append(beside[facet[row[there]]] * width + next_face[there])
        _remember(known, keys)
        keys = np.unique(np.concatenate(steps))
        for some in known:
            keys = keys[~_within(keys, some)]
        left *= 0.8
        progress(1.0 - left)
    everything = np.unique(np.concatenate([*known, leaving[0]]))
    facet, face = np.divmod(everything, width)
    off = np.searchsorted(everything, np.unique(np.concatenate(leaving)))
    return Reached(face, facet, off)


def _remember(known: list[Ints], keys: Ints) -> None:
    """Add keys to sorted arrays, merging those of like size so that they stay few."""
    known.append(keys)
    while len(known) > 1 and 2 * len(known[-1]) > len(known[-2]):
        last = known.pop()
        known[-1] = np.union1d(known[-1], last)


def _within(keys: Ints, some: Ints) -> Flags:
    """Tell which keys are among some sorted ones."""
    if not len(some):
        return np.zeros(len(keys), dtype=bool)
    place = np.minimum(np.searchsorted(some, keys), len(some) - 1)
    return some[place] == keys


def examine(ground: Ground, facets: Facets, face: Ints, facet: Ints) -> Trial:
    """Tell which facets lie below their face somewhere between their rays, and on which sides.

    A linear function over the face, clipped by the rays, is least at a corner between the rays or
    where a ray crosses a side; rays begin at nodes or on sides, so that there is nothing else.
    """
    eps = ground.eps
    rows = np.flatnonzero(~ground.closed[face] & (ground.region[face] != facets.zone[facet]))
    face, facet = face[rows], facet[rows]
    slope = facets.plane[facet, :2] - ground.slopes[face]
    below = -ground.heights[face].T
    if ground.follow:
        below += ground.design[face].T
        slope += ground.rises[face]
    least = -(ground.noise + eps * np.hypot(*slope.T))
    corners = ground.faces[face].T
    x, y = ground.xy[:, 0][corners], ground.xy[:, 1][corners]
    a, b, c = facets.plane.T[:, facet]
    below += a * x + b * y + c
    values = [below]
    for functions in (facets.first, facets.last, facets.front):
        a, b, c = functions.T[:, facet]
        values.append(a * x + b * y + c)
    # Most of them lie wholly beside each other or above.
    may = (below < least).any(axis=0)
    for value in values[1:]:
        may &= (value > eps).any(axis=0)
    may = np.flatnonzero(may)
    rows, least = rows[may], least[may]
    below, first, last, front = (value[:, may] for value in values)
    first[np.abs(first) <= eps] = 0.0
    last[np.abs(last) <= eps] = 0.0
    inside = (first >= 0) & (last >= 0) & (front >= -eps)
    deep = inside & (below < least)
    widest = [np.where(inside, value, -np.inf).max(axis=0) for value in (first, last, front)]
    touches = [(deep & (ray == 0)).any(axis=0) for ray in (first, last)]
    sides = np.empty((3, len(rows)), dtype=bool)
    for k, (i, j) in enumerate(_SIDES):
        sides[k] = deep[i] | deep[j]
        for own, (ray, other) in enumerate(((first, last), (last, first))):
            at = np.flatnonzero(ray[i] * ray[j] < 0)
            share = ray[i, at] / (ray[i, at] - ray[j, at])
            beside, ahead, height = (
                value[i, at] + share * (value[j, at] - value[i, at])
                for value in (other, front, below)
            )
            on = (beside >= -eps) & (ahead >= -eps)
            at, beside, ahead = at[on], beside[on], ahead[on]
            low = at[height[on] < least[at]]
            sides[k, low] = True
            touches[own][low] = True
            widest[1 - own][at] = np.maximum(widest[1 - own][at], beside)
            widest[2][at] = np.maximum(widest[2][at], ahead)
    good = np.flatnonzero(sides.any(axis=0) & (np.minimum.reduce(widest) > eps))
    past = [(ray[:, good] < 0).any(axis=0) for ray in (first, last)]
    return Trial(rows[good], sides.T[good], touches[0][good], touches[1][good], *past)
