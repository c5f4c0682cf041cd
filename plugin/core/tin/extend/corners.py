"""Where strips meet: the corners of a border, seen from outside.

At each vertex of the border the strip before it ends and the strip after it begins. They are
parted by a *ray* from the vertex: the bisector, or the line in which the planes of the two strips
meet, where that runs outward through the corner. At an outward corner each strip is carried on
round the corner as far as the ray by a *fan* of triangles about the vertex; the outline there is
a mitre, and past its limit squared off at right angles to the bisector, so that everything
within the distance is covered.

Where a strip would come to a point before the distance, because its rays meet, its inward corners
are left *open*: both strips go on at right angles there, and what each keeps is settled later.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .border import Border
from .planes import Strips

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

MITRE_LIMIT = 2.0
"""A mitre goes at most so many times the distance out from its corner."""
SLIP = 5e-3
"""Angle by which a strip keeps off the edge that begins where its own ends."""
_WIDE = np.radians(10.0)  # outward turns from here on have fans
_SKEW = np.radians(45.0)  # how far the line of two planes may leave the bisector
_WIDEST = np.radians(120.0)  # how far a fan may go round its corner
_SHARPEST = 2.0 * np.arccos(1.0 / MITRE_LIMIT)


@dataclass(frozen=True, eq=False)
class Corners:
    """The corner at the start of each edge of the border, between it and the edge before.

    Parameters
    ----------
    both : (b,) bool
        Whether the strips before and after meet in a ray.
    open : (b,) bool
        Whether they overlap, or one overlaps the edge beside it.
    turn : (b,) float
        Angle from the edge before to this one, positive at an outward corner.
    places : (b, 9, 2) float
        Outline about the corner, in this order: foot of the strip before (0), up to three points
        of its fan (1-3), the ray (4), up to three of the fan after (5-7), foot of the strip
        after (8).
    used : (b, 9) bool
        Which of them there are. The first one used is where the strip before ends, the last one
        where the strip after begins; the ray itself is used wherever both strips are wanted.
    """

    both: Mask
    open: Mask
    turn: Floats
    places: Floats
    used: Mask


RAY = 4


def corners_of(
    border: Border, strips: Strips, wanted: Mask, distance: float, least: float, agree: float
) -> Corners:
    """Lay out the corners.

    Parameters
    ----------
    border : Border
        The border.
    strips : Strips
        Its strips.
    wanted : (b,) bool
        Edges that are carried on.
    distance : float
        How far.
    least : float
        Places of an outline nearer than this to each other are one.
    agree : float
        Heights at the end of a bisector that differ by no more agree.
    """
    before = border.before
    turn = _turns(strips.along[before], strips.along)
    both = wanted & wanted[before]
    skew = _skews(border, strips, turn, distance, agree, least)
    skew[~both] = 0.0
    is_open = np.zeros(len(turn), dtype=bool)
    while True:
        corners = _laid_out(border, strips, wanted, is_open, turn, skew, distance)
        crossed = _inverted(border, strips, corners, wanted)
        either = crossed | crossed[before]
        bent = either & (skew != 0.0)
        inward = either & (turn < 0.0) & ~is_open & (wanted | wanted[before])
        if bent.any():
            skew[bent] = 0.0
        elif inward.any():
            is_open |= inward
        else:
            return corners


def strip_feet(border: Border, corners: Corners) -> tuple[Floats, Floats]:
    """Return where the outer side of each strip begins and ends, two (b, 2) arrays."""
    rows = np.arange(len(corners.turn))
    last = 8 - corners.used[:, ::-1].argmax(axis=1)
    first = corners.used.argmax(axis=1)
    begin = corners.places[rows, last]
    end = corners.places[rows, first][border.after]
    return begin, end


def _inverted(border: Border, strips: Strips, corners: Corners, wanted: Mask) -> Mask:
    """Tell which strips come to a point before the distance, (b,) bool."""
    begin, end = strip_feet(border, corners)
    forth = ((end - begin) * strips.along).sum(axis=1)
    return wanted & (forth <= 1e-9 * border.lengths)


def _turns(one: Floats, other: Floats) -> Floats:
    cross = one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0]
    return np.arctan2(cross, (one * other).sum(axis=1))


def _turned(vectors: Floats, angle: Floats) -> Floats:
    """Return vectors turned counter-clockwise."""
    cosine, sine = np.cos(angle), np.sin(angle)
    return np.column_stack(
        [
            vectors[:, 0] * cosine - vectors[:, 1] * sine,
            vectors[:, 0] * sine + vectors[:, 1] * cosine,
        ]
    )


def _skews(
    border: Border, strips: Strips, turn: Floats, distance: float, agree: float, least: float
) -> Floats:
    """Return the angle from the bisector to the line in which two planes meet; 0 for no use."""
    before = border.before
    change = strips.slope - strips.slope[before]
    bisector = _turned(strips.out[before], 0.5 * turn)
    reach = np.minimum(1.0 / np.maximum(np.cos(0.5 * turn), 1e-3), MITRE_LIMIT) * distance
    apart = np.abs((change * bisector).sum(axis=1)) * reach
    meeting = np.column_stack([-change[:, 1], change[:, 0]])
    side = (meeting * bisector).sum(axis=1)
    meeting[side < 0.0] *= -1.0
    skew = _turns(bisector, meeting)
    outside = 0.5 * (np.pi + turn)  # from the bisector to either edge
    allowed = np.minimum(np.maximum(0.5 * np.abs(turn), _SKEW), 0.9 * outside)
    allowed = np.minimum(allowed, _WIDEST - 0.5 * turn)
    # The ray must not run all but along the outline.
    fits = (np.abs(skew) <= allowed) & (np.abs(skew) - 0.5 * turn <= np.radians(75.0))
    joined = border.start_vertex == border.stop_vertex[before]
    skew = np.where((apart > agree) & fits & joined, skew, 0.0)
    # No slivers beside the other rays of the corner.
    wide, squared = turn > _WIDE, turn > _SHARPEST
    for share, there in ((0.5, wide), (-0.5, wide), (0.25, squared), (-0.25, squared)):
        close = there & (np.abs(skew - share * turn) * reach <= least)
        skew = np.where(close, share * turn, skew)
    skew[np.abs(skew) * reach <= least] = 0.0
    return skew


def _laid_out(
    border: Border,
    strips: Strips,
    wanted: Mask,
    is_open: Mask,
    turn: Floats,
    skew: Floats,
    distance: float,
) -> Corners:
    before = border.before
    count = len(turn)
    both = wanted & wanted[before] & ~is_open
    half = 0.5 * turn
    out_before, out_after = strips.out[before], strips.out
    places = np.zeros((count, 9, 2))
    used = np.zeros((count, 9), dtype=bool)
    wide = both & (turn > _WIDE)
    squared = wide & (turn > _SHARPEST)

    def at(angle: Floats, far: Floats) -> Floats:
        """Place at an angle from the outward direction of the strip before."""
        return _turned(out_before, angle) * far[:, None]

    even = np.full(count, distance)
    cosine_half = np.maximum(np.cos(half), 1e-9)
    tip = at(half, distance / cosine_half)
    quarter = distance / np.cos(0.25 * turn)
    one, other = at(0.25 * turn, quarter), at(0.75 * turn, quarter)
    # The ray ends on the outline of the strip it is turned towards.
    lean = np.where(skew >= 0.0, skew - half, skew + half)
    lean = np.where(squared & (np.abs(skew) <= 0.25 * turn), skew, lean)
    ray = at(half + skew, distance / np.maximum(np.cos(lean), 1e-9))
    places[:, 0] = at(np.zeros(count), even)
    places[:, 8] = out_after * distance
    places[:, 4] = ray
    for slot, place in ((1, tip), (2, one), (3, other), (5, tip), (6, one), (7, other)):
        places[:, slot] = place
    used[:, RAY] = both
    used[:, 0] = wide & (skew > -half)
    used[:, 8] = wide & (skew < half)
    used[:, 1] = both & ~squared & (skew > 0.0)
    used[:, 5] = both & ~squared & (skew < 0.0)
    used[:, 2] = squared & (skew > -0.25 * turn)
    used[:, 3] = squared & (skew > 0.25 * turn)
    used[:, 6] = squared & (skew < -0.25 * turn)
    used[:, 7] = squared & (skew < 0.25 * turn)
    # At the end of a chain a strip stops at right angles, or beside the next edge.
    outside = np.pi + turn
    slip = np.minimum(SLIP, 0.25 * outside)
    lean = np.where(is_open, 0.0, np.minimum(outside - slip - 0.5 * np.pi, 0.0))
    far = distance / np.maximum(np.cos(lean), 1e-9)
    ends = wanted[before] & ~both
    begins = wanted & ~both
    places[ends, 0] = at(lean, far)[ends]
    used[ends, 0] = True
    places[begins, 8] = (_turned(out_after, -lean) * far[:, None])[begins]
    used[begins, 8] = True
    return Corners(both, is_open, turn, places + border.start[:, None, :2], used)
