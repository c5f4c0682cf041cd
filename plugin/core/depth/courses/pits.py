"""The pits that are dug for the first courses of every section.

The underside of course ``k`` is reached by digging, for each zone, one pit for each of its
courses down to ``k``: its floor as deep as the courses down to it are thick together, carried on
past the zone's edge and closed by sides as that course asks for. The lowest of all these pits is
interface ``k``. Since the pits of interface ``k - 1`` are among them, interfaces cannot cross.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..zones import Zones
from .schedule import Course, Section

Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Pits:
    """Pits, of which a zone may have several.

    Parameters
    ----------
    zones : Zones
        One row a pit: polygon and id of its zone, depth, thickness square to the design, width
        and batter of its own.
    zone : (p,) int
        Row of the zone among those given.
    course : (p,) int
        Order of the course whose underside is its floor.
    """

    zones: Zones
    zone: Ints
    course: Ints


def pits(zones: Zones, sections: Sequence[Section], interface: int) -> Pits:
    """Return the pits of an interface, without those that others of their zone swallow.

    Parameters
    ----------
    zones : Zones
        Disjoint polygons with their ids; their depths, widths and batters are not looked at.
    sections : sequence of Section
        Section of each zone.
    interface : int
        How many courses lie above it.
    """
    rows = [
        (row, course)
        for row, section in enumerate(sections)
        for course in _needed(section.courses[:interface])
    ]
    zone = np.array([row for row, _ in rows], dtype=np.int64)
    depths = [sections[row].depth(course.order) for row, course in rows]
    plumb, square = np.array(depths, dtype=np.float64).reshape(-1, 2).T
    return Pits(
        Zones(
            zones.polygons[zone],
            plumb,
            zones.ids[zone],
            None,
            square,
            np.array([course.widen for _, course in rows], dtype=np.float64),
            np.array([course.batter for _, course in rows], dtype=np.float64),
        ),
        zone,
        np.array([course.order for _, course in rows], dtype=np.int64),
    )


def _needed(courses: Sequence[Course]) -> list[Course]:
    return [
        upper
        for number, upper in enumerate(courses)
        if not any(_swallows(lower, upper) for lower in courses[number + 1 :])
    ]


def _swallows(lower: Course, upper: Course) -> bool:
    """Tell whether the pit of a lower course lies below that of an upper one everywhere.

    Its floor is deeper, so that it does where it reaches as far and the upper sides are upright;
    or where both sides start from the same edge and the upper ones are no flatter.
    """
    if upper.batter == 0:
        return lower.widen >= upper.widen
    return lower.widen == upper.widen and lower.batter >= upper.batter
