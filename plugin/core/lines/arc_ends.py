"""Loose ends of parallels with arcs: where a piece stops since the line comes near again.

Chords settle that place to within their distance from the arc; here it is moved along the piece to
where it stands the offset away from the arcs themselves.
"""

from dataclasses import replace

import numpy as np

from .arc_parts import Curved, Part
from .arc_proof import Curves, distances_of_points
from .arcs import circle

REACH = 0.1
"""How far an end may move, in offsets."""
STEPS = 60


def settled(made: Curved, source: Curves, offset: float, slack: float) -> Curved:
    """Return a piece whose loose ends stand the offset away from the source.

    Parameters
    ----------
    made
        An open piece.
    source
        Its source line.
    offset
        Signed offset, right +.
    slack
        How much nearer rounding may bring a point.
    """
    parts = list(made.parts)
    for at, towards in ((0, -1), (len(parts) - 1, 1)):
        parts[at] = _settled(parts[at], towards, source, abs(offset) - slack)
    return replace(made, parts=parts)


def _settled(part: Part, towards: int, source: Curves, least: float) -> Part:
    kind, rows = part
    rows = rows if towards > 0 else rows[::-1]
    if distances_of_points(rows[-1:, :2], source)[0] >= least:
        return part
    way = _Way(kind, rows)
    low, high = 0.0, min(REACH * least / way.length, 0.9)
    if distances_of_points(way.at(high)[None], source)[0] < least:
        return part  # not a matter of chords: the proof will see it
    for _ in range(STEPS):
        middle = (low + high) / 2.0
        clear = distances_of_points(way.at(middle)[None], source)[0] >= least
        low, high = (low, middle) if clear else (middle, high)
    rows = way.cut(high)
    return kind, rows if towards > 0 else rows[::-1]


class _Way:
    """The last segment or arc of a piece, walked back from its end."""

    def __init__(self, kind: str, rows: np.ndarray) -> None:
        self.kind, self.rows = kind, rows
        if kind == "line":
            self.length = float(np.hypot(*(rows[-1, :2] - rows[-2, :2])))
            return
        self.centre, self.radius, sense = circle(*rows[:, :2])
        to = rows[[0, 2], :2] - self.centre
        angle = np.arctan2(to[:, 1], to[:, 0])
        self.stop = float(angle[1])
        self.sweep = -sense * float((-sense * (angle[1] - angle[0])) % (2.0 * np.pi))
        self.length = abs(self.sweep) * self.radius

    def at(self, back: float) -> np.ndarray:
        """Return the place a share of the way back from the end."""
        if self.kind == "line":
            return self.rows[-1, :2] + back * (self.rows[-2, :2] - self.rows[-1, :2])
        turned = self.stop - back * self.sweep
        return self.centre + self.radius * np.array([np.cos(turned), np.sin(turned)])

    def cut(self, back: float) -> np.ndarray:
        """Return the rows up to there."""
        rows = self.rows.copy()
        rows[-1, 2:] += back * (rows[-2 if self.kind == "line" else 0, 2:] - rows[-1, 2:])
        rows[-1, :2] = self.at(back)
        if self.kind == "arc":
            rows[1, :2] = self.at((1.0 + back) / 2.0)
            rows[1, 2:] = (rows[0, 2:] + rows[2, 2:]) / 2.0
        return rows
