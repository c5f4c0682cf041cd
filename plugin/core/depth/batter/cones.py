"""The facets of cones: as many as their reach needs.

A coarse facet lies below its cone, so that it reaches at least as far; then its chords replace it.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...runs import count_up
from .corners import Fans
from .facets import NONE, Facets, facets_about
from .flood import Reached, examine
from .ground import Ground

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SECTOR = np.pi / 3
_MOST = 4096


@dataclass(frozen=True, eq=False)
class Sectors:
    """Facets of cones.

    Parameters
    ----------
    facets : Facets
        All facets, those of cones at the end.
    fan : (k,) int
        Cone of each facet, -1 for others.
    """

    facets: Facets
    fan: Ints


def coarse(facets: Facets, fans: Fans) -> Sectors:
    """Add few facets for each cone, each below it."""
    count = np.maximum(np.ceil(fans.angle / _SECTOR).astype(np.int64), 1)
    return _with_sectors(facets, fans, count, inside=False)


def fine(
    ground: Ground, sectors: Sectors, reached: Reached, fans: Fans, plain: Facets, chord: float
) -> tuple[Sectors, Reached]:
    """Replace the coarse facets by chords of the cones.

    Parameters
    ----------
    ground, sectors, reached : Ground, Sectors, Reached
        The coarse facets and the faces they reach.
    fans : Fans
        The cones.
    plain : Facets
        The facets that are not of cones.
    chord : float
        How far a chord may lie within its arc where the cone meets the surface.
    """
    of = sectors.fan[reached.facet]
    conic = np.flatnonzero(of >= 0)
    radius = np.zeros(len(fans))
    np.maximum.at(radius, of[conic], _radii(ground, sectors, reached, fans, conic))
    step = np.full(len(fans), _SECTOR)
    wide = radius > chord
    step[wide] = np.minimum(2.0 * np.arccos(1.0 - chord / radius[wide]), _SECTOR)
    count = np.clip(np.ceil(fans.angle / step - 1e-9).astype(np.int64), 1, _MOST)
    made = _with_sectors(plain, fans, count, inside=True)
    first = len(plain) + np.cumsum(count) - count
    pair = np.unique(of[conic] * len(ground.faces) + reached.face[conic])
    fan, face = np.divmod(pair, len(ground.faces))
    row = np.repeat(np.arange(len(fan)), count[fan])
    offset = count_up(count[fan])
    facet, face = first[fan[row]] + offset, face[row]
    good = examine(ground, made.facets, face, facet).rows
    others = np.flatnonzero(of < 0)
    off = np.searchsorted(others, reached.off[of[reached.off] < 0])
    return made, Reached(
        np.concatenate((reached.face[others], face[good])),
        np.concatenate((reached.facet[others], facet[good])),
        off,
    )


def _radii(ground: Ground, sectors: Sectors, reached: Reached, fans: Fans, rows: Ints) -> Floats:
    """Return how far from its apex each facet meets the surface, in some pairs."""
    face, facet = reached.face[rows], reached.facet[rows]
    apex = fans.apex[sectors.fan[facet]]
    corners = ground.xy[ground.faces[face]] - apex[:, None]
    surface = ground.heights[face] - (ground.design[face] if ground.follow else 0.0)
    slope = ground.gradients(face, surface)
    level = surface[:, 0] - np.einsum("ij,ij->i", slope, corners[:, 0])
    level -= fans.height[sectors.fan[facet]]
    rise = fans.slope[sectors.fan[facet]]
    # Along the steepest way of the surface away from the apex; no farther than the face.
    gain = rise[:, None] - np.einsum("ij,ikj->ik", slope, _units(corners))
    with np.errstate(divide="ignore", invalid="ignore"):
        meets = np.where(gain > 0, level[:, None] / gain, np.inf)
    farthest = np.sqrt((corners**2).sum(axis=2)).max(axis=1)
    return np.clip(meets.max(axis=1), 0.0, farthest)


def _units(vectors: Floats) -> Floats:
    length = np.sqrt((vectors**2).sum(axis=2, keepdims=True))
    return vectors / np.where(length > 0, length, 1.0)


def _with_sectors(plain: Facets, fans: Fans, count: Ints, inside: bool) -> Sectors:
    """Add facets that divide cones evenly, as chords or as planes that touch them."""
    fan = np.repeat(np.arange(len(fans)), count)
    offset = count_up(count)
    step = (fans.angle / count)[fan]
    start = np.arctan2(fans.begin[fan, 1], fans.begin[fan, 0])
    rays = np.stack(
        [
            _directions(start + (offset + k) * step, fans.begin[fan], (offset + k) == 0)
            for k in (0, 1)
        ],
        axis=1,
    )
    middle = _directions(start + (offset + 0.5) * step, fans.begin[fan], False)
    rise = fans.slope[fan] / (np.cos(0.5 * step) if inside else 1.0)
    made = facets_about(
        fans.zone[fan],
        fans.place[fan] + 0.4 * offset / count[fan],
        fans.apex[fan],
        fans.height[fan],
        rays,
        rise[:, None] * middle,
    )
    number = len(plain) + np.arange(len(fan))
    facets = Facets.joined(plain, made)
    first, last = offset == 0, offset == count[fan] - 1
    facets.before[number] = np.where(first, fans.before[fan], number - 1)
    facets.after[number] = np.where(last, fans.after[fan], number + 1)
    for ends, beside, back in (
        (first, fans.before, facets.after),
        (last, fans.after, facets.before),
    ):
        at = np.flatnonzero(ends)
        at = at[beside[fan[at]] >= 0]
        back[beside[fan[at]]] = number[at]
    return Sectors(facets, np.concatenate((np.full(len(plain), NONE), fan)))


def _directions(angle: Floats, begin: Floats, at_begin: NDArray[np.bool_] | bool) -> Floats:
    way = np.column_stack((np.cos(angle), np.sin(angle)))
    return np.where(np.reshape(at_begin, (-1, 1)), begin, way)
