"""The surfaces between courses, from the top down."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ...findings import Finding
from ...progress import Progress, part, silent
from ...text import translate
from ...tin import Tin
from ...tolerance import Tolerance
from ..fitness import faults_of_design
from ..ground import Ground, as_it_is, until_daylight
from ..manner import Beyond, Manner
from ..remarks import carried_on
from ..surface import DepthSurface, surface_of_pits
from ..widen import widen
from ..zones import Zones, resolve
from .pits import Pits, pits
from .quantities import CourseQuantities, measure_courses
from .schedule import Section

Ints = NDArray[np.int64]

_TRIES = 3
"""How often the design is carried on, each time twice as far, for sides to come to an end."""

_CROSSED = 1e-3
"""Share of a volume beyond which crossing is more than steps and ledges leave."""


@dataclass(frozen=True, eq=False)
class Interface:
    """The undersides of the courses of one order, and of the last courses of shorter sections.

    Parameters
    ----------
    number : int
        How many courses lie above it.
    surface : DepthSurface
        Its ``zone`` is the row of a pit.
    pits : Pits
        What was dug for it.
    ground : Ground
        What it was dug in.
    """

    number: int
    surface: DepthSurface
    pits: Pits
    ground: Ground

    @property
    def zone(self) -> Ints:
        """Row of the zone each face belongs to, (m,) int, -1 outside all."""
        return np.append(self.pits.zone, -1)[self.surface.zone]

    @property
    def course(self) -> Ints:
        """Order of the course each face is the underside of, (m,) int, 0 outside all."""
        return np.append(self.pits.course, 0)[self.surface.zone]

    @property
    def parent(self) -> Ints:
        """Face of the design that each face lies below, or below whose carried-on plane, (m,)."""
        return self.ground.parent[self.surface.parent]

    @property
    def wanted(self) -> NDArray[np.bool_]:
        """Faces of the result, (m,): not those of a carried-on design where nothing is dug."""
        return (self.surface.zone >= 0) | (self.surface.parent < self.ground.count)


@dataclass(frozen=True, eq=False)
class Stack:
    """All interfaces of a job.

    Parameters
    ----------
    zones : Zones
        The zones, disjoint.
    sections : list of Section
        Section of each.
    interfaces : list of Interface
        From the top down.
    quantities : CourseQuantities
        Figures of each course of each zone.
    findings : list of Finding
        What may be wrong, each thing once.
    """

    zones: Zones
    sections: list[Section]
    interfaces: list[Interface]
    quantities: CourseQuantities
    findings: list[Finding]

    @property
    def largest_move(self) -> float:
        """Greatest distance between zone borders as given and as cut."""
        return max(interface.surface.largest_move for interface in self.interfaces)


def stack_courses(
    tin: Tin,
    zones: Zones,
    sections: Sequence[Section],
    *,
    manner: Manner = Manner(),  # noqa: B008 - frozen
    beyond: Beyond = Beyond.STOP,
    tolerance: Tolerance = Tolerance(),  # noqa: B008 - frozen
    progress: Progress = silent,
) -> Stack:
    """Make the surfaces between the courses of all zones.

    Parameters
    ----------
    tin : Tin
        The design; thicknesses are in the unit of its heights.
    zones : Zones
        Polygons and ids, and the priority that settles overlaps; depths are not looked at.
    sections : sequence of Section
        Section of each zone.
    manner : Manner
        How bottoms end.
    beyond : Beyond
        What happens where floors and sides run past the edge of the design. Carried on, it is
        so once, as far as the lowest interface reaches, and measured with.
    tolerance : Tolerance
        In plan units.
    progress : Progress
        Told the share done.

    Raises
    ------
    ZoneError
        As `resolve`.
    """
    zones = resolve(zones, tolerance)
    dug = [
        pits(zones, sections, number + 1, tolerance.step, manner.z_scale)
        for number in range(max(len(section.courses) for section in sections))
    ]

    def made(ground: Ground) -> list[Interface]:
        return _interfaces(ground, dug, manner, tolerance, part(progress, 0.02, 0.7))

    if beyond is Beyond.CARRY:
        reached = widen(dug[-1].zones, manner, tolerance)
        ground, interfaces = until_daylight(
            tin, reached, manner, tolerance, made, _findings, _TRIES, part(progress, 0.0, 0.02)
        )
    else:
        ground = as_it_is(tin)
        interfaces = made(ground)
    findings = _findings(interfaces) + faults_of_design(tin, tolerance)
    quantities = measure_courses(
        ground.tin, interfaces, sections, manner.z_scale, part(progress, 0.7, 1.0)
    )
    lowest = interfaces[-1].surface
    carried = (lowest.zone >= 0) & (lowest.parent >= ground.count)
    findings += carried_on(lowest.tin, carried, ground.distance) + ground.findings
    findings += _crossings(zones, quantities)
    return Stack(zones, list(sections), interfaces, quantities, findings)


def _interfaces(
    ground: Ground,
    dug: Sequence[Pits],
    manner: Manner,
    tolerance: Tolerance,
    progress: Progress,
) -> list[Interface]:
    made = []
    for number, one in enumerate(dug):
        share = part(progress, number / len(dug), (number + 1) / len(dug))
        surface = surface_of_pits(
            ground.tin, one.zones, tolerance=tolerance, manner=manner, progress=share
        )
        made.append(Interface(number + 1, surface, one, ground))
    return made


def _crossings(zones: Zones, quantities: CourseQuantities) -> list[Finding]:
    """Return the zones in which a surface comes above the one over it."""
    total = float(np.abs(quantities.volumes).sum())
    if quantities.crossed.sum() + quantities.crossed_outside <= _CROSSED * total:
        return []
    found = []
    for row in np.flatnonzero(quantities.crossed > _CROSSED * np.abs(quantities.volumes)):
        zone, course = zones.ids[quantities.zone[row]], quantities.courses[row]
        why = translate(
            "Core",
            "Zone {zone}: at “{course}” a surface comes above the one over it, by a volume of {volume:.3g} cubic units in all, because sides above are flatter than those of a wider floor below: let the batter count from the design, or make the sides below as flat.",
        ).format(zone=zone, course=course.name, volume=quantities.crossed[row])
        found.append(Finding("crossing", why, None, int(zone)))
    if quantities.crossed_outside > _CROSSED * total:
        why = translate(
            "Core",
            "Outside all zones a surface comes above the one over it, by a volume of {volume:.3g} cubic units in all, because sides above are flatter than those of a wider floor below: let the batter count from the design, or make the sides below as flat.",
        ).format(volume=quantities.crossed_outside)
        found.append(Finding("crossing", why))
    return found


def _findings(interfaces: Sequence[Interface]) -> list[Finding]:
    """Return the findings of all interfaces, each thing once."""
    found: dict[tuple[str, int | None], Finding] = {}
    for interface in interfaces:
        dug = interface.surface.zones
        has_pit = set(dug.ids[~shapely.is_empty(dug.polygons)].tolist())
        for finding in interface.surface.findings:
            # One pit of a zone may well be swallowed while another shows.
            if not (finding.code == "covered" and finding.feature in has_pit):
                found.setdefault((finding.code, finding.feature), finding)
    return list(found.values())
