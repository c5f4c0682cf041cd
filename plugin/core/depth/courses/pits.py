"""The pits that are dug for the first courses of every section.

The underside of course ``k`` is reached by digging, for each zone, one pit for each of its
courses down to ``k``: its floor as deep as the courses down to it are thick together, carried on
past the zone's edge and closed by sides as that course asks for. The lowest of all these pits is
interface ``k``. Since the pits of interface ``k - 1`` are among them, interfaces cannot cross.

The floor of an upper course counts only where it reaches past the floors below it. Where just its
side does, because it is flatter than the sides below, the pit becomes a *ledge*: a floor as
narrow as a step, beside the floors below, as deep as the side is there, from which the side goes
on. That is exact where sides count from the design; where they count from the level, the side is
shifted by the fall of the design over the way from its own edge to the ledge.
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


@dataclass(frozen=True)
class _Pit:
    """The pit of a course: its width, and by how much a ledge lies above the course's floor."""

    course: Course
    width: float
    less: float = 0.0


def pits(
    zones: Zones,
    sections: Sequence[Section],
    interface: int,
    step: float = 1e-3,
    z_scale: float = 1.0,
) -> Pits:
    """Return the pits of an interface, without those that others of their zone swallow.

    Parameters
    ----------
    zones : Zones
        Disjoint polygons with their ids; their depths, widths and batters are not looked at.
    sections : sequence of Section
        Section of each zone.
    interface : int
        How many courses lie above it.
    step : float
        Width of a ledge, in plan units.
    z_scale : float
        Plan units in one unit of height.
    """
    rows = [
        (row, pit)
        for row, section in enumerate(sections)
        for pit in _needed(section, interface, step, z_scale)
    ]
    zone = np.array([row for row, _ in rows], dtype=np.int64)
    depths = [sections[row].depth(pit.course.order) for row, pit in rows]
    plumb, square = np.array(depths, dtype=np.float64).reshape(-1, 2).T
    return Pits(
        Zones(
            zones.polygons[zone],
            plumb - [pit.less for _, pit in rows],
            zones.ids[zone],
            None,
            square.copy(),
            np.array([pit.width for _, pit in rows], dtype=np.float64),
            np.array([pit.course.batter for _, pit in rows], dtype=np.float64),
            zones.settling,
        ),
        zone,
        np.array([pit.course.order for _, pit in rows], dtype=np.int64),
    )


def _needed(section: Section, count: int, step: float, z_scale: float) -> list[_Pit]:
    """Return the pits of the first courses, from the lowest up, that show anywhere."""
    kept: list[_Pit] = []
    reach = -1.0
    for course in reversed(section.courses[:count]):
        if course.widen > reach:
            kept.append(_Pit(course, course.widen))
            reach = course.widen
        elif course.batter > 0 and not any(_side_below(pit.course, course) for pit in kept):
            reach += step
            less = (reach - course.widen) / (course.batter * z_scale)
            if less < sum(section.depth(course.order)):
                kept.append(_Pit(course, reach, less))
    return kept


def _side_below(lower: Course, upper: Course) -> bool:
    """Tell whether the side of a lower course stays below that of an upper one all the way.

    It starts deeper, so that it does where it starts as far out and climbs no steeper.
    """
    return lower.widen >= upper.widen and lower.batter >= upper.batter
