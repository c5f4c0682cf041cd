"""Areas and volumes of courses, exact for triangles."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress, part, silent
from ...tin import Tin
from ...tin.overlay import integrate
from ..patchwork import Part
from ..quantities import sloped_areas
from ..surface import DepthSurface
from .schedule import Course, Section

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class _Interface(Protocol):
    """What is measured: a surface, whose underside its faces are, and which of them count."""

    @property
    def surface(self) -> DepthSurface: ...
    @property
    def zone(self) -> Ints: ...
    @property
    def course(self) -> Ints: ...
    @property
    def wanted(self) -> NDArray[np.bool_]: ...


@dataclass(frozen=True, eq=False)
class CourseQuantities:
    """Figures of each course of each zone, zone by zone and from the top down.

    Parameters
    ----------
    zone : (q,) int
        Row of the zone.
    courses : list of Course
        The course.
    plan_areas : (q,) float
        Plan area of the underside: floor, sides and steps.
    sloped_areas : (q,) float
        Area of floor and sides on the slope, without the steps, which are all but upright.
    volumes : (q,) float
        Between the interface above and the one below, in cubic plan units. Where the pit of a
        course reaches past those above it, this goes up to the design.
    crossed : (q,) float
        Volume where the interface below comes above the one over it; counted as negative in the
        volume. It is 0 but for rounding and for steps that had to run less than others.
    crossed_outside : float
        The same where the interface below is the design.
    unassigned : float
        Volume that belongs to no course; 0 but for rounding.
    """

    zone: Ints
    courses: list[Course]
    plan_areas: Floats
    sloped_areas: Floats
    volumes: Floats
    crossed: Floats
    crossed_outside: float
    unassigned: float

    def loose(self) -> Floats:
        """Return the loose volumes, (q,) float; NaN where the schedule gives no swell."""
        return self.volumes * [_or_nan(course.swell) for course in self.courses]

    def tonnes(self, metres: float) -> Floats:
        """Return the masses, (q,) float; NaN where the schedule gives no density.

        Parameters
        ----------
        metres : float
            Metres in a plan unit.
        """
        return self.volumes * metres**3 * [_or_nan(course.density) for course in self.courses]


def _or_nan(value: float | None) -> float:
    return np.nan if value is None else value


def measure_courses(
    design: Tin,
    interfaces: Sequence[_Interface],
    sections: Sequence[Section],
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> CourseQuantities:
    """Measure all courses.

    A volume belongs to the course on whose underside it stands. The volumes of all courses
    together are the volume between the design and the lowest interface.

    Parameters
    ----------
    design : Tin
        Interface 0.
    interfaces : sequence
        From the top down.
    sections : sequence of Section
        Section of each zone.
    z_scale : float
        Plan units in one unit of height.
    progress : Progress
        Told the share done.
    """
    counts = np.array([len(section.courses) for section in sections])
    first = np.cumsum(counts) - counts
    total = int(counts.sum())
    plan, sloped, volumes = np.zeros(total), np.zeros(total), np.zeros(total + 1)
    crossed = np.zeros(total + 1)
    above = design
    for number, interface in enumerate(interfaces, 1):
        surface, zone, course = interface.surface, interface.zone, interface.course
        row = np.where(zone < 0, total, first[zone] + course - 1)
        below = surface.tin
        share = part(progress, (number - 1) / len(interfaces), number / len(interfaces))
        # Where a carried-on design is not dug it has nothing to say, not even with its faults.
        shown = interface.wanted
        result = below if shown.all() else Tin(below.vertices, below.faces[shown])
        found = integrate(above, result, None, row[shown], z_scale, share)
        label = found.labels[:, 1]
        volumes += np.bincount(label, found.figures.net, total + 1)
        crossed += np.bincount(label, found.figures.fill, total + 1)
        here = course == number
        plan += np.bincount(row[here], below.plan_areas[here], total + 1)[:total]
        flat = here & (surface.part != Part.STEP)
        sloped += np.bincount(row[flat], sloped_areas(below, z_scale)[flat], total + 1)[:total]
        above = below
    return CourseQuantities(
        np.repeat(np.arange(len(counts)), counts),
        [course for section in sections for course in section.courses],
        plan,
        sloped,
        volumes[:total],
        crossed[:total],
        float(crossed[total]),
        float(volumes[total]),
    )
