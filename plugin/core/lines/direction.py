"""Bearings, winds, and which way a line runs as a whole.

A bearing is counted clockwise from grid north in degrees, 0 <= bearing < 360. The eight winds
are N, NE, E, SE, S, SW, W, NW (index 0 to 7), each 45 degrees wide.
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from .bundle import Lines

WIND_STEP = 45.0
HOLD_ANGLE = 67.5
"""A part of a line agrees with a wind while it points within this many degrees of it: beyond
1 1/2 winds nobody would still call the direction by that name."""
HOLD_SHARE = 0.8
"""Share of a line's length that must agree with a wind before the line is given its name."""

SQUARE = 1.0
"""A line so near to square to a bearing, in degrees, runs neither way."""

LOOP_ANGLE = 135.0
"""An open line that turns by so many degrees in all runs round something."""


class Travel(StrEnum):
    """Which way the machine drives a line."""

    ALONG = "along"
    AGAINST = "against"
    BEARING = "bearing"
    NEAREST = "nearest"


@dataclass(frozen=True)
class Heading:
    """The direction of each line as a whole.

    Parameters
    ----------
    bearing
        Bearing of the length-weighted mean direction, (k,) float; NaN when there is none.
    wind
        Index of the wind, (k,) int; -1 where the line turns so far that no wind holds.
    share
        Share of the length that points within `HOLD_ANGLE` of that wind, (k,) float.
    """

    bearing: np.ndarray
    wind: np.ndarray
    share: np.ndarray


def bearing_of(vector: np.ndarray) -> np.ndarray:
    """Return the bearing of each vector (dx, dy), (k,) float in 0..360."""
    vector = np.asarray(vector, float)
    degrees = np.degrees(np.arctan2(vector[..., 0], vector[..., 1])) % 360.0
    return np.where(degrees >= 360.0, 0.0, degrees)


def vector_of(bearing: np.ndarray | float) -> np.ndarray:
    """Return the unit vector (dx, dy) of each bearing, (..., 2) float."""
    angle = np.radians(bearing)
    return np.stack([np.sin(angle), np.cos(angle)], axis=-1)


def wind_of(bearing: np.ndarray | float) -> np.ndarray:
    """Return the index of the wind nearest to each bearing (half way goes clockwise)."""
    return np.floor((np.asarray(bearing, float) % 360.0) / WIND_STEP + 0.5).astype(np.int64) % 8


def turn(bearing: np.ndarray, other: np.ndarray | float) -> np.ndarray:
    """Return the angle between bearings, 0 to 180 degrees."""
    return np.abs((np.asarray(bearing, float) - other + 180.0) % 360.0 - 180.0)


def right_normals(directions: np.ndarray) -> np.ndarray:
    """Return the unit vectors square to the right of unit vectors, (s, 2) float."""
    return np.column_stack([directions[:, 1], -directions[:, 0]])


def headings(lines: Lines) -> Heading:
    """Return the direction of each line from its first to its last vertex.

    The mean of the segment directions weighted by their lengths is the chord of the line, so one
    short hook at an end does not turn it; a closed line has none.
    """
    step = lines.xy[lines.first[1:] - 1] - lines.xy[lines.first[:-1]]
    return _hold(lines, lines.segment_directions, step)


def sides_seen(lines: Lines, side: np.ndarray) -> Heading:
    """Return the direction in which the given side of each line lies.

    Parameters
    ----------
    lines
        The bundle.
    side
        +1 = right, -1 = left of each line, (k,) int.
    """
    normals = right_normals(lines.segment_directions) * side[lines.segment_owner][:, None]
    step = lines.xy[lines.first[1:] - 1] - lines.xy[lines.first[:-1]]
    across = np.column_stack([step[:, 1], -step[:, 0]]) * side[:, None]
    return _hold(lines, normals, across)


def _hold(lines: Lines, vectors: np.ndarray, mean: np.ndarray) -> Heading:
    size = np.hypot(mean[:, 0], mean[:, 1])
    known = (size > 1e-6 * lines.lengths) & ~lines.closed
    bearing = np.where(known, bearing_of(mean), np.nan)
    wind = np.where(known, wind_of(np.where(known, bearing, 0.0)), -1)
    towards = vector_of(np.where(wind < 0, 0, wind) * WIND_STEP)[lines.segment_owner]
    # The small allowance keeps lines drawn exactly half way between two winds.
    holds = (vectors * towards).sum(1) >= np.cos(np.radians(HOLD_ANGLE)) - 1e-9
    weight = lines.segment_lengths * holds
    share = np.zeros(len(lines))
    if len(lines):
        share = np.add.reduceat(weight, lines.first_segment[:-1]) / lines.lengths
    share = np.where(known, np.minimum(share, 1.0), 0.0)
    return Heading(bearing, np.where(share >= HOLD_SHARE, wind, -1), share)


def clockwise(lines: Lines) -> np.ndarray:
    """Return +1 for a closed line drawn clockwise, -1 for anticlockwise, 0 for an open one."""
    a = lines.segments
    origin = lines.xy[lines.first[:-1]][lines.segment_owner]
    p, q = lines.xy[a] - origin, lines.xy[a + 1] - origin
    cross = p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]
    if not len(lines):
        return np.zeros(0, np.int64)
    area = np.add.reduceat(cross, lines.first_segment[:-1])
    return np.where(lines.closed, -np.sign(area), 0).astype(np.int64)


def sense(lines: Lines) -> np.ndarray:
    """Return +1 for a line that runs clockwise, -1 anticlockwise, 0 neither, (k,) int.

    Closed lines do; open ones when they turn by `LOOP_ANGLE` or more in all to one side.
    """
    if not len(lines):
        return np.zeros(0, np.int64)
    direction = lines.segment_directions
    a, b = direction[:-1], direction[1:]
    turned = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(1))
    inner = lines.segment_owner[1:] == lines.segment_owner[:-1]
    total = np.bincount(lines.segment_owner[1:][inner], turned[inner], len(lines))
    loops = np.where(np.abs(total) >= np.radians(LOOP_ANGLE), -np.sign(total), 0)
    return np.where(lines.closed, clockwise(lines), loops).astype(np.int64)


def travel_signs(lines: Lines, travel: Travel, bearing: float = 0.0) -> np.ndarray:
    """Tell whether the machine drives each line along (+1) or against (-1) its direction.

    With `Travel.BEARING` the machine drives at that bearing; 0 = the line does not run that way: it
    is closed, turns too far, or lies within 22.5 degrees of square to the bearing. With
    `Travel.NEAREST` it drives the nearer of the line's two ways; 0 = neither is: the line is
    closed, or within `SQUARE` of square to the bearing.
    """
    if travel is Travel.ALONG:
        return np.ones(len(lines), np.int64)
    if travel is Travel.AGAINST:
        return -np.ones(len(lines), np.int64)
    heading = headings(lines)
    known = np.isfinite(heading.bearing)
    angle = turn(np.where(known, heading.bearing, 0.0), bearing)
    if travel is Travel.NEAREST:
        clear = known & (np.abs(angle - 90.0) > SQUARE)
        return np.where(clear, np.where(angle < 90.0, 1, -1), 0)
    known = known & (heading.wind >= 0)
    sign = np.where(angle <= HOLD_ANGLE, 1, np.where(angle >= 180.0 - HOLD_ANGLE, -1, 0))
    return np.where(known, sign, 0)
