"""How each part of a line votes for a side.

A rule looks at places spread evenly along every line. At each place it votes right (+1) or left
(-1), or does not vote and says why not. `sides` counts the votes by length.
"""

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from ..runs import count_up
from .bundle import Lines
from .direction import right_normals, vector_of
from .prove import side_of_points
from .reference import Reference
from .stations import locate, point_at

Sample = Callable[[np.ndarray], np.ndarray]
"""Elevations of a surface at (p, 2) points: (p,) float, NaN where there is no surface."""

FEWEST, MOST = 24, 256
"""Places looked at on each line: two a segment within these limits."""
MIN_GRADE = 0.0025
"""Cross grade below which ground counts as flat (rise over run)."""
CLEARLY = 3.0
"""Where ground rises (or falls) on both sides, one side must do so this many times more."""
TIE = 0.1
"""References on both sides whose distances differ by less than this share are a tie."""
ALONG = float(np.sin(np.radians(22.5)))
"""A wind must lie at least half a wind off the line's own direction."""


class Reason(IntEnum):
    """Why a place does not vote."""

    NONE = 0
    TOUCHES = 1
    TIE = 2
    BEYOND = 3
    BOTH_INSIDE = 4
    BOTH_OUTSIDE = 5
    FLAT = 6
    VALLEY = 7
    RIDGE = 8
    EVEN = 9
    NO_SURFACE = 10
    ALONG_WIND = 11


@dataclass(frozen=True)
class Places:
    """Places along lines: ``line`` (s,), ``station`` (s,), ``xy`` (s, 2), ``normal`` (s, 2).

    The normals point to the right. Places of one line stand for equal lengths of it.
    """

    line: np.ndarray
    station: np.ndarray
    xy: np.ndarray
    normal: np.ndarray


@dataclass(frozen=True)
class Votes:
    """Votes at places: ``vote`` (s,) int, ``reason`` (s,) int, ``strength`` (s,) float >= 0."""

    vote: np.ndarray
    reason: np.ndarray
    strength: np.ndarray


def places(lines: Lines) -> Places:
    """Spread places over all lines."""
    count = np.clip(2 * (lines.counts - 1), FEWEST, MOST)
    line = np.repeat(np.arange(len(lines)), count)
    number = count_up(count)
    station = (number + 0.5) / count[line] * lines.lengths[line]
    segment, _ = locate(lines, line, station)
    normal = right_normals(lines.segment_directions[segment])
    return Places(line, station, point_at(lines, line, station), normal)


def toward(lines: Lines, at: Places, reference: Reference) -> Votes:
    """Vote for the side on which the nearest reference lies.

    Two tests must agree: the side of the nearest reference point from the whole line, and a probe
    square to the line on either side that gets nearer to the reference on the side voted for.
    """
    place, distance = reference.nearest(at.xy)
    side, _, beyond = side_of_points(lines, at.line, place)
    probe = 0.25 * distance[:, None] * at.normal
    right = reference.nearest(at.xy + probe)[1]
    left = reference.nearest(at.xy - probe)[1]
    size = np.maximum(distance, 1e-300)
    gain = (left - right) / (0.5 * size)  # 1 = straight to the right, -1 = straight to the left
    square = np.abs(((place - at.xy) * at.normal).sum(1)) / size
    unclear = np.abs(gain) < 2.0 * TIE
    touches = (distance <= 1e-9 * np.maximum(lines.lengths[at.line], 1.0)) | ((side == 0) & ~beyond)
    # Seen at a flat angle the probes tell little; seen squarely they must tell.
    tie = unclear & (square > 3.0 * TIE)
    vote = np.where(unclear, side, np.sign(gain)).astype(np.int64)
    reason = np.select([touches, beyond, tie], [Reason.TOUCHES, Reason.BEYOND, Reason.TIE], 0)
    return _votes(vote, reason, np.abs(gain))


def inside(at: Places, reference: Reference, distance: np.ndarray) -> Votes:
    """Vote for the side whose candidate, at the offset itself, lies in a reference area."""
    step = distance[at.line, None] * at.normal
    right, left = reference.covers(at.xy + step), reference.covers(at.xy - step)
    vote = right.astype(np.int64) - left.astype(np.int64)
    reason = np.select([right & left, ~right & ~left], [Reason.BOTH_INSIDE, Reason.BOTH_OUTSIDE], 0)
    return _votes(vote, reason, np.ones(len(vote)))


def uphill(at: Places, sample: Sample, distance: np.ndarray, z_scale: float = 1.0) -> Votes:
    """Vote for the side whose candidate, at the offset itself, lies on higher ground."""
    right, left = _rises(at, sample, distance, z_scale)
    missing = ~(np.isfinite(right) & np.isfinite(left))
    right, left = np.where(missing, 0.0, right), np.where(missing, 0.0, left)
    across = (right - left) / (2.0 * distance[at.line])
    more, less = np.maximum(np.abs(right), np.abs(left)), np.minimum(np.abs(right), np.abs(left))
    alike = (np.sign(right) == np.sign(left)) & (more < CLEARLY * less)
    flat = np.abs(across) < MIN_GRADE
    valley, ridge = alike & (right > 0), alike & (right < 0)
    # A rise that hardly differs from level on both sides is flat rather than a valley.
    level = more < MIN_GRADE * distance[at.line]
    reason = np.select(
        [missing, level, valley, ridge, flat],
        [Reason.NO_SURFACE, Reason.FLAT, Reason.VALLEY, Reason.RIDGE, Reason.FLAT],
        0,
    )
    return _votes(np.sign(across).astype(np.int64), reason, np.abs(across))


def steeper(at: Places, sample: Sample, distance: np.ndarray, z_scale: float = 1.0) -> Votes:
    """Vote for the side on which the ground, square to the line, is steeper."""
    right, left = _rises(at, sample, distance, z_scale)
    missing = ~(np.isfinite(right) & np.isfinite(left))
    more = np.where(missing, 0.0, (np.abs(right) - np.abs(left)) / distance[at.line])
    reason = np.select([missing, np.abs(more) < 2 * MIN_GRADE], [Reason.NO_SURFACE, Reason.EVEN], 0)
    return _votes(np.sign(more).astype(np.int64), reason, np.abs(more))


def compass(at: Places, bearing: float) -> Votes:
    """Vote for the side that faces a bearing."""
    facing = (at.normal * vector_of(bearing)).sum(1)
    reason = np.where(np.abs(facing) < ALONG - 1e-9, Reason.ALONG_WIND, Reason.NONE)
    return _votes(np.sign(facing).astype(np.int64), reason, np.abs(facing))


def _rises(
    at: Places, sample: Sample, distance: np.ndarray, z_scale: float
) -> tuple[np.ndarray, np.ndarray]:
    """Return how much the ground rises from the line to its candidates right and left."""
    step = distance[at.line, None] * at.normal
    here, right, left = sample(at.xy), sample(at.xy + step), sample(at.xy - step)
    return (right - here) * z_scale, (left - here) * z_scale


def _votes(vote: np.ndarray, reason: np.ndarray, strength: np.ndarray) -> Votes:
    reason = np.asarray(reason, np.int64)
    silent = reason != Reason.NONE
    return Votes(np.where(silent, 0, vote), reason, np.where(silent, 0.0, strength))
