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
from .ground import Ground

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
class _Trial:
    """What a facet does in a face."""

    good: Flags
    sides: Flags
    before: Flags
    after: Flags


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
        good = trial.good
        keys, facet, face = keys[good], facet[good], face[good]
        sides = trial.sides[good]
        across = ground.across[face]
        leaving.append(keys[(sides & (across < 0)).any(axis=1)])
        row, side = np.nonzero(sides & (across >= 0))
        next_face = across[row, side]
        steps = [facet[row] * width + next_face]
        for moves, beside in (
            (trial.after[good], facets.after),
            (trial.before[good], facets.before),
        ):
            goes = moves & (beside[facet] >= 0)
            steps.append(beside[facet[goes]] * width + face[goes])
            also = goes[row]
            steps.append(beside[facet[row[also]]] * width + next_face[also])
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


def examine(ground: Ground, facets: Facets, face: Ints, facet: Ints) -> _Trial:
    """Tell which facets lie below their face somewhere between their rays, and on which sides.

    A linear function over the face, clipped by the rays, is least at a corner between the rays or
    where a ray crosses a side; rays begin at nodes or on sides, so that there is nothing else.
    """
    eps = ground.eps
    corners = ground.xy[ground.faces[face]]
    x, y = corners[:, :, 0], corners[:, :, 1]

    def over(functions: Floats) -> Floats:
        a, b, c = functions[facet].T[:, :, None]
        return a * x + b * y + c

    first, last, front = over(facets.first), over(facets.last), over(facets.front)
    first[np.abs(first) <= eps] = 0.0
    last[np.abs(last) <= eps] = 0.0
    surface = ground.heights[face]
    below = over(facets.plane) - surface
    slope = facets.plane[facet, :2] - ground.gradients(face, surface)
    if ground.follow:
        below += ground.design[face]
        slope += ground.gradients(face, ground.design[face])
    least = -(ground.noise + eps * np.hypot(*slope.T))[:, None]
    inside = (first >= 0) & (last >= 0) & (front >= -eps)
    deep = inside & (below < least)
    widest = np.stack([np.where(inside, f, -np.inf).max(axis=1) for f in (first, last, front)])
    sides = np.empty((len(face), 3), dtype=bool)
    touch_first = (deep & (first == 0)).any(axis=1)
    touch_last = (deep & (last == 0)).any(axis=1)
    for k, (i, j) in enumerate(_SIDES):
        sides[:, k] = deep[:, i] | deep[:, j]
        for ray, other, touch in ((first, last, touch_first), (last, first, touch_last)):
            crossed = ray[:, i] * ray[:, j] < 0
            share = np.where(crossed, ray[:, i], 0.0)
            share = share / np.where(crossed, ray[:, i] - ray[:, j], 1.0)
            there = [
                values[:, i] + share * (values[:, j] - values[:, i])
                for values in (other, front, below)
            ]
            on = crossed & (there[0] >= -eps) & (there[1] >= -eps)
            low = on & (there[2] < least[:, 0])
            sides[:, k] |= low
            np.logical_or(touch, low, out=touch)
            widths = (0.0, there[0]) if ray is first else (there[0], 0.0)
            for row, width in zip((0, 1, 2), (*widths, there[1]), strict=True):
                np.maximum(widest[row], np.where(on, width, -np.inf), out=widest[row])
    good = sides.any(axis=1) & (widest > eps).all(axis=0)
    good &= ~ground.closed[face] & (ground.region[face] != facets.zone[facet])
    return _Trial(good, sides, touch_first, touch_last)
