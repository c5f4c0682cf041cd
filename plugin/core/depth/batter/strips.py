"""Strips: the facets that stand on the links of an outline.

A strip lies between the rays at right angles to the given border through the ends of a link, on
the plane through the foot. Links in a straight line on a straight foot share one strip.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...vectors import dot, turned
from .facets import NONE, Facets, through
from .outline import Outlines, runs

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_TINY = np.finfo(np.float64).tiny


@dataclass(frozen=True, eq=False)
class Feet:
    """The links of outlines as feet of sides.

    Parameters
    ----------
    ends : (b, 2, 2) float
        Plan positions of both nodes of each link.
    foot : (b, 2) float
        Height of the bottom there, less the design where sides follow it.
    way, out : (b, 2) float
        Unit vectors along the given border and outward.
    after : (b,) int
        The link that follows.
    straight : (b,) bool
        Links that the one after carries on in a straight line.
    side : (b,) bool
        Links with a side.
    slope : (b,) float
        Rise over run of the side.
    bottom : (b, 2) float
        Gradient of the bottom beside the link, less the design where sides follow it.
    """

    ends: Floats
    foot: Floats
    way: Floats
    out: Floats
    after: Ints
    straight: Flags
    side: Flags
    slope: Floats
    bottom: Floats


@dataclass(frozen=True, eq=False)
class Strips:
    """Strips.

    Parameters
    ----------
    facets : Facets
        One each, without neighbours.
    of : (b,) int
        Strip of each link, -1 without a side.
    along : (b, 2) float
        Rise along the border of the bottom at the beginning and at the end of the strip (of the
        link, without a side).
    slanted : (b, 2) bool
        The plane of the strip rises otherwise than that, because a cut has moved its nodes.
    """

    facets: Facets
    of: Ints
    along: Floats
    slanted: NDArray[np.bool_]


_SAME_SLOPE = 1e-10


def strips_of(lines: Outlines, feet: Feet, flat: float, level: float) -> Strips:
    """Return the strips.

    Parameters
    ----------
    lines, feet : Outlines, Feet
        The links.
    flat, level : float
        Deviation in plan and in height up to which a foot is straight.
    """
    run, first, last = _runs(feet, flat, level)
    start, stop = feet.ends[first, 0], feet.ends[last, 1]
    length = dot(stop - start, feet.way[first])
    beside = dot(stop - start, feet.out[first])
    rise = feet.foot[last, 1] - feet.foot[first, 0]
    proper = length > 0
    length = np.where(proper, length, 1.0)
    held = (rise - feet.slope[first] * beside) / length
    along = np.empty((len(run), 2))
    for end, link in enumerate((first, last)):
        along[:, end] = (rise - dot(feet.bottom[link], feet.out[link]) * beside) / length
    along[~proper] = 0.0
    # Nodes off the border by rounding only: short links must not turn that into slope.
    fair = (np.abs(beside) <= flat) & (along[:, 0] == along[:, 1])
    held = np.where(fair, along[:, 0], held)
    rows = np.flatnonzero(feet.side & (first[run] == np.arange(len(run))) & proper[run])
    number = np.full(len(run), NONE, dtype=np.int64)
    number[run[rows]] = np.arange(len(rows))
    begin, end = rows, last[run[rows]]
    way = feet.way[begin]
    gradient = held[run[rows], None] * way + feet.slope[begin, None] * feet.out[begin]
    start, stop = start[run[rows]], stop[run[rows]]
    chord = stop - start
    chord = chord / np.sqrt(np.maximum(dot(chord, chord), _TINY))[:, None]
    nobody = np.full(len(rows), NONE, dtype=np.int64)
    facets = Facets(
        lines.zone[begin],
        begin.astype(np.float64),
        through(start, way),
        through(stop, -way),
        through(start, -turned(chord)),
        through(start, gradient, feet.foot[begin, 0]),
        nobody,
        nobody.copy(),
        np.zeros(len(rows), dtype=bool),
    )
    slanted = (np.abs(along - held[:, None]) > _SAME_SLOPE) & (np.abs(beside) > flat)[:, None]
    return Strips(facets, np.where(feet.side, number[run], NONE), along[run], slanted[run])


def _runs(feet: Feet, flat: float, level: float) -> tuple[Ints, Ints, Ints]:
    """Join links to runs; return the run of each link, and first and last link of each run.

    A run has the number of one of its links.
    """
    after = feet.after
    own = np.arange(len(after))
    joins = feet.side & feet.side[after] & feet.straight & (after != own)
    beside, above = _off(feet, own, after)
    joins &= (beside <= flat) & (above <= level)
    run, first, last = runs(after, joins)
    # Many bends too small to see can add up.
    beside, above = _off(feet, first[run], last[run])
    bent = np.zeros(len(run), dtype=bool)
    bent[run[joins & ((beside > flat) | (above > level))]] = True
    return runs(after, joins & ~bent[run])


def _off(feet: Feet, first: Ints, last: Ints) -> tuple[Floats, Floats]:
    """Return how far the end of each link lies beside and above the line between two others."""
    start, stop = feet.ends[first, 0], feet.ends[last, 1]
    chord = stop - start
    squared = np.maximum(dot(chord, chord), _TINY)
    here = feet.ends[:, 1] - start
    share = dot(here, chord) / squared
    beside = np.abs(chord[:, 0] * here[:, 1] - chord[:, 1] * here[:, 0]) / np.sqrt(squared)
    low, high = feet.foot[first, 0], feet.foot[last, 1]
    return beside, np.abs(feet.foot[:, 1] - low - share * (high - low))
