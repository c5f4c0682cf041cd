"""Where cross sections stand: square to a line, radial on its true arcs, on the bisector at a bend.

A section is a straight stretch of ground through a place of a line, its *foot*. Places on it are
told by their *offset* from the foot, + to the right of the line and - to the left. At a corner of
the line the section stands on the bisector and reaches as far as the strip beside both legs does,
so that it is longer than the width by 1 / cos(half the turn); `Sections.square` is that cosine.
"""

from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from ..lines.arcs import Arcs
from ..lines.bundle import Lines
from ..lines.stakes import CORNER, foot_and_right

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

LEAST_SQUARE = (1.0 + 1e-9) / CORNER
"""At a turn as sharp as this, or sharper (120 degrees), a section reaches no farther."""


@dataclass(frozen=True, eq=False)
class Sections:
    """Cross sections of lines.

    Parameters
    ----------
    line : (s,) int
        Line of each.
    distance : (s,) float
        Distance of its foot along the line.
    foot : (s, 2) float
        The foot in plan; on a true arc, not on its chord.
    right : (s, 2) float
        Unit vector along the section, to the right of the line.
    left_reach, right_reach : (s,) float
        How far it reaches from the foot, not negative.
    square : (s,) float
        Cosine of the angle between the section and one that is square to the line: 1 but at a
        corner.
    """

    line: Ints
    distance: Floats
    foot: Floats
    right: Floats
    left_reach: Floats
    right_reach: Floats
    square: Floats

    def __len__(self) -> int:
        """Return the number of sections."""
        return len(self.line)

    def places(self, section: Ints, offset: Floats) -> Floats:
        """Return the plan positions of offsets, (p, 2) float."""
        return self.foot[section] + offset[:, None] * self.right[section]

    def offsets(self, section: Ints, xy: Floats) -> Floats:
        """Return the offsets of plan positions, (p,) float."""
        return ((xy - self.foot[section]) * self.right[section]).sum(axis=1)

    @cached_property
    def ends(self) -> tuple[Floats, Floats]:
        """Left and right end of each section, two (s, 2) arrays."""
        every = np.arange(len(self))
        return self.places(every, -self.left_reach), self.places(every, self.right_reach)

    def geometries(self, origin: Floats) -> NDArray[np.object_]:
        """Return the sections as shapely lines from left to right, less an origin."""
        left, right = self.ends
        return shapely.linestrings(np.stack((left - origin, right - origin), axis=1))

    def moved(self, step: Floats) -> "Sections":
        """Return the same sections each moved by a vector, (s, 2) float."""
        return replace(self, foot=self.foot + step)

    def take(self, some: Ints) -> "Sections":
        """Return some of the sections."""
        return Sections(
            self.line[some],
            self.distance[some],
            self.foot[some],
            self.right[some],
            self.left_reach[some],
            self.right_reach[some],
            self.square[some],
        )


def sections_at(
    lines: Lines,
    line: Ints,
    distance: Floats,
    left: float,
    right: float,
    arcs: Arcs | None = None,
    snap: float = 1e-4,
) -> Sections:
    """Return the sections at places of lines.

    Parameters
    ----------
    lines : Lines
        The lines.
    line, distance : (s,) int and float
        Line of each section, and its distance along it.
    left, right : float
        How far the strip reaches to either side, square to the line.
    arcs : Arcs, optional
        True arcs that chords of the lines stand for.
    snap : float
        A place nearer than this to a vertex is at it.
    """
    foot, right_of = foot_and_right(lines, line, distance, snap, arcs or Arcs.none(lines))
    reach = np.hypot(right_of[:, 0], right_of[:, 1])
    square = 1.0 / reach
    square[square > 1.0 - 1e-12] = 1.0
    return Sections(
        np.asarray(line, np.int64),
        np.asarray(distance, float),
        foot,
        right_of / reach[:, None],
        left / square,
        right / square,
        square,
    )


@dataclass(frozen=True, eq=False)
class Meetings:
    """Pairs of sections of one line that cross each other.

    Parameters
    ----------
    one, other : (c,) int
        The two sections, each pair once, ``one`` before ``other``.
    offset_one, offset_other : (c,) float
        Offset of the crossing on either.
    """

    one: Ints
    other: Ints
    offset_one: Floats
    offset_other: Floats

    def of(self, section: int) -> tuple[Ints, Floats, Floats]:
        """Return the sections that one crosses, and the offsets on it and on them where it does."""
        ahead, behind = self.one == section, self.other == section
        return (
            np.concatenate((self.other[ahead], self.one[behind])),
            np.concatenate((self.offset_one[ahead], self.offset_other[behind])),
            np.concatenate((self.offset_other[ahead], self.offset_one[behind])),
        )


def meetings(sections: Sections) -> Meetings:
    """Find sections of one line that cross each other: the ground there belongs to both.

    Sections that lie on one another, as the last of a ring on its first, do not cross.
    """
    origin = sections.foot[0] if len(sections) else np.zeros(2)
    shapes = sections.geometries(origin)
    one, other = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    kept = (one < other) & (sections.line[one] == sections.line[other])
    one, other = one[kept], other[kept]
    a, b, step = sections.right[one], sections.right[other], sections.foot[other]
    step = step - sections.foot[one]
    cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    clear = np.abs(cross) > 1e-9  # the same place, or one stretch of road behind the other
    cross = np.where(clear, cross, 1.0)
    first = (step[:, 0] * b[:, 1] - step[:, 1] * b[:, 0]) / cross
    second = (step[:, 0] * a[:, 1] - step[:, 1] * a[:, 0]) / cross
    some = np.flatnonzero(clear)
    return Meetings(one[some], other[some], first[some], second[some])
