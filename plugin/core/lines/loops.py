"""Which way round a line goes, and how clearly.

A ring that does not cross itself goes one way round, by the sign of its area. A ring that does
encloses areas which it goes round once or more, each clockwise or anticlockwise (their winding
numbers): the sense with more area holds, and its share is the evidence. An open line goes round
when it turns by `direction.LOOP_ANGLE` or more in all and is swept by `MIN_SWEEP` or more as seen
from the centroid of the area between it and its chord.
"""

from dataclasses import dataclass

import numpy as np
import shapely

from .bundle import Lines
from .direction import clockwise, sense

MIN_SWEEP = 200.0
"""Degrees; a long line with a small hook at its end is swept by little more than 180."""


@dataclass(frozen=True)
class Loops:
    """How lines go round.

    Parameters
    ----------
    sense
        +1 clockwise, -1 anticlockwise, 0 neither, (k,) int.
    share
        Share of the area (rings) or of the sweep (open lines) that says so, (k,) float.
    turned
        Degrees by which an open line turns in all, clockwise positive, (k,) float; 0 for rings.
    """

    sense: np.ndarray
    share: np.ndarray
    turned: np.ndarray


def loops(lines: Lines) -> Loops:
    """Return how each line of a bundle goes round."""
    count = len(lines)
    share, turned = np.zeros(count), np.zeros(count)
    if not count:
        return Loops(np.zeros(0, np.int64), share, turned)
    around = clockwise(lines)
    share[lines.closed] = 1.0
    crossed = np.flatnonzero(lines.closed & ~shapely.is_simple(lines.geometries))
    for k in crossed.tolist():  # few, if any
        around[k], share[k] = _by_area(lines.xy[lines.line(k)])
    swept, part = _sweep(lines)
    turned = np.where(lines.closed, 0.0, _turned(lines))
    way = sense(lines)
    goes = ~lines.closed & (np.abs(swept) >= MIN_SWEEP) & (np.sign(swept) == way)
    around = np.where(lines.closed, around, np.where(goes, way, 0))
    return Loops(around.astype(np.int64), np.where(lines.closed, share, part * goes), turned)


def _turned(lines: Lines) -> np.ndarray:
    """Return the degrees that each line turns to the right in all, but for a ring's start."""
    direction = lines.segment_directions
    a, b = direction[:-1], direction[1:]
    left = np.arctan2(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0], (a * b).sum(1))
    inner = lines.segment_owner[1:] == lines.segment_owner[:-1]
    total = np.bincount(lines.segment_owner[1:][inner], left[inner], len(lines))
    return -np.degrees(total)


def _sweep(lines: Lines) -> tuple[np.ndarray, np.ndarray]:
    """Return the degrees swept from the centroid, clockwise +, and the share of that sign."""
    first = lines.xy[lines.first[:-1]]
    flat = lines.xy - first[lines.owner]
    owner, count = lines.segment_owner, len(lines)
    p, q = flat[lines.segments], flat[lines.segments + 1]
    cross = p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0]
    area = np.bincount(owner, cross, count)
    flatness = 1e-12 * lines.lengths**2
    known = np.abs(area) > flatness
    safe = np.where(known, 3.0 * area, 1.0)
    centre = np.column_stack(
        [np.bincount(owner, cross * (p[:, n] + q[:, n]), count) / safe for n in (0, 1)]
    )
    p, q = p - centre[owner], q - centre[owner]
    angle = -np.degrees(
        np.arctan2(p[:, 0] * q[:, 1] - p[:, 1] * q[:, 0], p[:, 0] * q[:, 0] + p[:, 1] * q[:, 1])
    )
    swept = np.bincount(owner, angle, count)
    total = np.bincount(owner, np.abs(angle), count)
    agreeing = np.bincount(owner, np.where(angle * swept[owner] > 0, np.abs(angle), 0.0), count)
    share = agreeing / np.where(total > 0, total, 1.0)
    return np.where(known, swept, 0.0), np.where(known, share, 0.0)


def _by_area(xy: np.ndarray) -> tuple[int, float]:
    """Return the sense of a ring that crosses itself, and its share of the enclosed area."""
    local = xy - xy[0]
    faces = shapely.get_parts(shapely.polygonize([shapely.node(shapely.linestrings(local))]))
    area = shapely.area(faces)
    inside = shapely.get_coordinates(shapely.point_on_surface(faces))
    p, q = local[None, :-1] - inside[:, None], local[None, 1:] - inside[:, None]
    angle = np.arctan2(
        p[..., 0] * q[..., 1] - p[..., 1] * q[..., 0], (p * q).sum(-1)
    )  # winding number = sum of the angles seen from inside
    winding = -np.rint(angle.sum(1) / (2.0 * np.pi))
    right = float((area * np.maximum(winding, 0.0)).sum())
    left = float((area * np.maximum(-winding, 0.0)).sum())
    total = right + left
    if total <= 0.0 or right == left:
        return 0, 0.5 if total > 0.0 else 0.0
    return (1 if right > left else -1), max(right, left) / total
