"""The report of courses: verdict, typical sections, quantities in both unit systems, schedule."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from ..core.depth.courses.schedule import Course, Schedule, Section
from ..core.depth.courses.stack import Stack
from ..core.depth.manner import BatterRule, Manner
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..layers.crs import JobUnits, describe_crs
from ..layers.surfaces import Surface
from .course_totals import FEET, METRIC, NOTHING, Totals, heads, systems
from .report import Report
from .section_drawing import draw, thickness

MOST_ROWS = 400
"""Of more zones than this the table by zone is left out; the QUANTITIES table has them all."""
MOST_DRAWINGS = 40


@dataclass(frozen=True)
class Names:
    """What people call what went in.

    Parameters
    ----------
    zones, schedule
        Names of the layers.
    of_zones
        Name of each zone, empty where it has none.
    """

    zones: str
    schedule: str
    of_zones: Sequence[str]


def write_report(
    path: str,
    stack: Stack,
    schedule: Schedule,
    units: JobUnits,
    *,
    design: Surface,
    names: Names,
    manner: Manner,
) -> None:
    """Write the page.

    Parameters
    ----------
    path
        Where it goes.
    stack, schedule
        Result and input.
    units
        Of the job.
    design, names
        What was used.
    manner
        How bottoms end.
    """
    about = [
        (translate("CourseReport", "Design"), design.name),
        (translate("CourseReport", "Zones"), names.zones),
        (translate("CourseReport", "Schedule"), names.schedule),
        (translate("CourseReport", "CRS"), describe_crs(design.crs)),
        (translate("CourseReport", "Plan unit"), units.plan.name),
        (translate("CourseReport", "Unit of heights"), units.vertical.name),
    ]
    report = Report(translate("CourseReport", "Courses below the design"), about)
    report.verdict(*_verdict(stack, units), flagged=bool(stack.findings))
    report.findings(stack.findings)
    _by_section(report, stack, units)
    _drawings(report, stack, units)
    _interfaces(report, stack, units)
    _by_zone(report, stack, names, units)
    _schedule(report, schedule, units)
    report.heading(translate("CourseReport", "How it was made"))
    report.bullets(_notes(stack, units, manner))
    report.write(path)


def _used(stack: Stack) -> list[Section]:
    """Return the sections that zones have, each once, in the order of the zones."""
    return list({section.name: section for section in stack.sections}.values())


def _rows(stack: Stack, section: Section, order: int) -> list[int]:
    """Return the rows of the quantities of one course of a section."""
    return [
        row
        for row, (zone, course) in enumerate(
            zip(stack.quantities.zone, stack.quantities.courses, strict=True)
        )
        if course.order == order and stack.sections[zone] is section
    ]


def _verdict(stack: Stack, units: JobUnits) -> list[str]:
    total = Totals.of(stack, np.arange(len(stack.quantities.courses)), units.plan)
    sentences = [
        translate(
            "CourseReport",
            "{interfaces} surfaces below the design for {zones} zones of {sections} sections; {yards} yd³ ({metres} m³) between the design and the lowest.",
        ).format(
            interfaces=len(stack.interfaces),
            zones=len(stack.zones),
            sections=len(_used(stack)),
            yards=total.cells(FEET, units.plan)[3],
            metres=total.cells(METRIC, units.plan)[2],
        )
    ]
    if stack.findings:
        sentences.append(
            translate(
                "CourseReport", "{count} things are flagged below: look at them first."
            ).format(count=len(stack.findings))
        )
    else:
        sentences.append(translate("CourseReport", "Nothing was flagged."))
    return sentences


def _by_section(report: Report, stack: Stack, units: JobUnits) -> None:
    report.heading(translate("CourseReport", "Quantities"))
    names, totals = [], []
    for section in _used(stack):
        for course in section.courses:
            names.append((section.name, f"{course.order} {course.name}"))
            rows = _rows(stack, section, course.order)
            totals.append(Totals.of(stack, rows, units.plan))
    every = Totals.of(stack, np.arange(len(stack.quantities.courses)), units.plan)
    names.append((translate("CourseReport", "all"), ""))
    # Areas of courses that lie over one another do not add up to an area.
    totals.append(replace(every, plan=np.nan, sloped=np.nan))
    head = [
        translate("CourseReport", "Section"),
        translate("CourseReport", "Course"),
    ]
    _twice(report, head, names, totals, units)
    report.paragraph(
        translate(
            "CourseReport",
            "Plan area and area on the slope are those of the underside of the course; its volume lies between that and the surface above it. Widened floors and sides are in the volumes as they are dug: beside a course that is wider than those above it, up to the design. Loose volumes are volume times swell, masses are volume times density in place; a dash stands where the schedule gives none.",
        )
    )


def _twice(
    report: Report,
    head: Sequence[str],
    names: Sequence[Sequence[str]],
    totals: Sequence[Totals],
    units: JobUnits,
) -> None:
    """Add one table in feet and one in metres."""
    captions = {
        FEET: translate("CourseReport", "In feet, yards and short tons."),
        METRIC: translate("CourseReport", "In metres and tonnes."),
    }
    for system in systems(units.plan):
        columns = heads(system)
        rows = [
            (*name, *total.cells(system, units.plan))
            for name, total in zip(names, totals, strict=True)
        ]
        numeric = range(len(head), len(head) + len(columns))
        report.table((*head, *columns), rows, captions[system], numeric=numeric)


def _drawings(report: Report, stack: Stack, units: JobUnits) -> None:
    report.heading(translate("CourseReport", "Typical sections"))
    used = _used(stack)
    for number, section in enumerate(used[:MOST_DRAWINGS], 1):
        report.svg(draw(section, number, units.vertical, units.plan))
    if len(used) > MOST_DRAWINGS:
        report.paragraph(
            translate("CourseReport", "The first {count} of {all} sections are drawn.").format(
                count=MOST_DRAWINGS, all=len(used)
            )
        )


def _interfaces(report: Report, stack: Stack, units: JobUnits) -> None:
    report.heading(translate("CourseReport", "What each surface is"))
    surface = translate("CourseReport", "Surface {number}: below")
    rows = [
        (
            section.name,
            *(
                f"{course.name}, {depth_text(section, course.order, units.vertical)}"
                for course in section.courses
            ),
            *[translate("CourseReport", "as before")]
            * (len(stack.interfaces) - len(section.courses)),
        )
        for section in _used(stack)
    ]
    report.table(
        (
            translate("CourseReport", "Section"),
            *(surface.format(number=interface.number) for interface in stack.interfaces),
        ),
        rows,
        translate(
            "CourseReport",
            "Depths are those of the underside below the design. A section with fewer courses stays at its last one.",
        ),
    )


def depth_text(section: Section, count: int, unit: LinearUnit) -> str:
    """Return how deep the underside of the first courses lies, in words."""
    plumb, square = section.depth(count)
    parts = []
    if plumb > 0:
        parts.append(describe_length(plumb, unit))
    if square > 0:
        parts.append(
            translate("CourseReport", "{thickness} square to the slope").format(
                thickness=describe_length(square, unit)
            )
        )
    return " + ".join(parts)


def _by_zone(report: Report, stack: Stack, layers: Names, units: JobUnits) -> None:
    report.heading(translate("CourseReport", "By zone"))
    if len(stack.quantities.courses) > MOST_ROWS:
        report.paragraph(
            translate(
                "CourseReport",
                "There are {count} courses of zones, too many to print: they are in the table of quantities.",
            ).format(count=len(stack.quantities.courses))
        )
        return
    names, totals = [], []
    found = stack.quantities
    for row, (zone, course) in enumerate(zip(found.zone, found.courses, strict=True)):
        names.append((_called(stack, layers, int(zone)), f"{course.order} {course.name}"))
        totals.append(Totals.of(stack, [row], units.plan))
    head = [translate("CourseReport", "Zone"), translate("CourseReport", "Course")]
    _twice(report, head, names, totals, units)


def _called(stack: Stack, layers: Names, zone: int) -> str:
    """Return id, name and section of a zone, the section only where the name does not say it."""
    name, section = layers.of_zones[zone], stack.sections[zone].name
    said = section.casefold() in name.casefold()
    parts = (str(stack.zones.ids[zone]), name, "" if said else section)
    return " ".join(part for part in parts if part)


def _schedule(report: Report, schedule: Schedule, units: JobUnits) -> None:
    report.heading(translate("CourseReport", "The schedule as read"))
    report.table(
        (
            translate("CourseReport", "Row"),
            translate("CourseReport", "Section"),
            translate("CourseReport", "Order"),
            translate("CourseReport", "Course"),
            translate("CourseReport", "Thickness"),
            translate("CourseReport", "Past the edge"),
            translate("CourseReport", "Sides, run to rise"),
            translate("CourseReport", "Swell"),
            translate("CourseReport", "Density, t/m³"),
            translate("CourseReport", "Note"),
        ),
        _schedule_rows(schedule, units),
        translate("CourseReport", "Rows are counted from 1 below the names of the columns."),
        numeric=(0, 2, 7, 8),
    )


def _schedule_rows(schedule: Schedule, units: JobUnits) -> Iterable[tuple[object, ...]]:
    for section in schedule.sections:
        for course in section.courses:
            yield (
                course.row,
                section.name,
                course.order,
                course.name,
                thickness(course, units.vertical),
                describe_length(course.widen, units.plan) if course.widen else NOTHING,
                _ratio(course),
                NOTHING if course.swell is None else f"{course.swell:g}",
                NOTHING if course.density is None else f"{course.density:.3f}",
                course.note,
            )


def _ratio(course: Course) -> str:
    if course.batter > 0:
        return f"{course.batter:g}:1"
    return translate("CourseReport", "upright")


def _notes(stack: Stack, units: JobUnits, manner: Manner) -> list[str]:
    notes = [
        translate(
            "CourseReport",
            "Each surface is the lowest of what is dug for the courses down to it, so that no surface comes above the one over it.",
        ),
        translate(
            "CourseReport",
            "A thickness is plumb (vertical) unless the schedule says square: at right angles to the design.",
        ),
        translate(
            "CourseReport",
            "The volumes of all courses together are the volume between the design and the lowest surface; existing ground is not considered.",
        ),
        translate(
            "CourseReport", "Zone borders were moved by at most {move} to fit the design."
        ).format(move=f"{stack.largest_move:.2g} {units.plan.symbol}"),
    ]
    if any(course.batter > 0 for course in stack.quantities.courses):
        notes.append(
            translate(
                "CourseReport",
                "The ratio of sloping sides is the true run to rise, counted from the level.",
            )
            if manner.rule is BatterRule.LEVEL
            else translate(
                "CourseReport",
                "The ratio of sloping sides is the run over which the depth below the design becomes one less.",
            )
        )
    least = min(interface.surface.least_run for interface in stack.interfaces)
    if np.isfinite(least):
        notes.append(
            translate(
                "CourseReport",
                "Upright sides run {run} in plan at least; no ground holds them by itself.",
            ).format(run=f"{least:.2g} {units.plan.symbol}")
        )
    return notes
