"""The report of cross sections: volumes by each method, why they differ, areas, some plots."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..core.text import translate
from ..core.units import METRE, LinearUnit
from .course_totals import FEET, number, systems
from .report import Report
from .section_plot import LEFT, LOOKS, RIGHT, Scale, View, plot

MOST_ROWS = 400
MOST_PLOTS = 12
WIDTH = 640.0
ZOOM = 1.35
"""A screen is read from farther away than paper."""


@dataclass(frozen=True)
class Method:
    """Volumes by one method, cubic plan units."""

    name: str
    cut: float
    fill: float


@dataclass(frozen=True)
class AreaRow:
    """Areas of one section, plan units."""

    line: str
    station: str
    cut: float
    fill: float
    width: float
    cut_next: float
    fill_next: float


@dataclass(frozen=True)
class Content:
    """What the report says.

    Parameters
    ----------
    about
        Pairs (matter, text) for the head.
    verdict
        Sentences that open it.
    meaning
        What cut and fill are; empty without two surfaces.
    methods, reasons
        Volumes, and why they differ; none without two surfaces.
    areas
        One row for each section.
    flagged
        Line, station and sentence of each section that is to be looked at.
    marks
        Line, station, name, offset and height of each guideline on each section.
    views
        The sections to draw.
    rules
        Sentences on how sections were made.
    surfaces
        Names of the surfaces, for the key to the plots.
    """

    about: Sequence[tuple[str, str]]
    verdict: Sequence[str]
    meaning: str
    methods: Sequence[Method]
    reasons: Sequence[str]
    areas: Sequence[AreaRow]
    flagged: Sequence[tuple[str, str, str]]
    marks: Sequence[tuple[str, str, str, str, str]]
    views: Sequence[View]
    rules: Sequence[str]
    surfaces: Sequence[str]


def sections_report(
    content: Content, plan: LinearUnit, vertical: LinearUnit, exaggeration: float
) -> Report:
    """Build the report."""
    report = Report(translate("Report", "Cross sections"), content.about)
    report.verdict(*content.verdict, flagged=bool(content.flagged))
    if content.methods:
        report.heading(translate("Report", "Volumes"))
        report.paragraph(content.meaning)
        _volumes(report, content.methods, plan)
        for reason in content.reasons:
            report.paragraph(reason)
    if content.flagged:
        report.heading(translate("Report", "To be looked at"))
        report.table(
            (
                translate("Report", "Line"),
                translate("Report", "Station"),
                translate("Report", "Why"),
            ),
            content.flagged[:MOST_ROWS],
            sentences=(2,),
        )
        _rest(report, len(content.flagged))
    if content.areas:
        report.heading(translate("Report", "Areas by station"))
        _areas(report, content.areas, plan)
    _plots(report, content, plan, vertical, exaggeration)
    if content.marks:
        report.heading(translate("Report", "Guidelines on the sections"))
        report.table(
            (
                translate("Report", "Line"),
                translate("Report", "Station"),
                translate("Report", "Guideline"),
                translate("Report", "Offset and side"),
                translate("Report", "Elevation"),
            ),
            content.marks[:MOST_ROWS],
            numeric=(4,),
        )
        _rest(report, len(content.marks))
    report.heading(translate("Report", "How sections are made"))
    report.bullets(content.rules)
    return report


def _rest(report: Report, count: int) -> None:
    if count > MOST_ROWS:
        report.paragraph(
            translate("Report", "The first {most} of {count}; the layer holds all.").format(
                most=MOST_ROWS, count=count
            )
        )


def volume_cells(value: float, plan: LinearUnit) -> tuple[str, str]:
    """Return a volume in cubic yards, of the job's own foot, and in cubic metres."""
    return number(value * cubic_yards(plan), 1), number(value * plan.to(METRE) ** 3, 1)


def cubic_yards(plan: LinearUnit) -> float:
    """Return the cubic yards in a cubic plan unit: 27 cubic feet of the job's own foot each."""
    return plan.to(plan.foot) ** 3 / 27.0


def _volumes(report: Report, methods: Sequence[Method], plan: LinearUnit) -> None:
    rows = [
        (
            method.name,
            *volume_cells(method.cut, plan),
            *volume_cells(method.fill, plan),
            *volume_cells(method.cut - method.fill, plan),
        )
        for method in methods
    ]
    report.table(
        (
            translate("Report", "Method"),
            translate("Report", "Cut, yd³"),
            translate("Report", "Cut, m³"),
            translate("Report", "Fill, yd³"),
            translate("Report", "Fill, m³"),
            translate("Report", "Cut less fill, yd³"),
            translate("Report", "Cut less fill, m³"),
        ),
        rows,
        numeric=range(1, 7),
    )


def _areas(report: Report, areas: Sequence[AreaRow], plan: LinearUnit) -> None:
    feet = systems(plan)[0] == FEET
    unit = plan.foot if feet else METRE
    cube = cubic_yards(plan) if feet else plan.to(METRE) ** 3
    square, length = plan.to(unit) ** 2, plan.to(unit)
    names = ("ft²", "ft", "yd³") if feet else ("m²", "m", "m³")
    lines = len({row.line for row in areas}) > 1
    head = [
        translate("Report", "Station"),
        translate("Report", "Cut, {unit}").format(unit=names[0]),
        translate("Report", "Fill, {unit}").format(unit=names[0]),
        translate("Report", "Width with both, {unit}").format(unit=names[1]),
        translate("Report", "Cut to the next, {unit}").format(unit=names[2]),
        translate("Report", "Fill to the next, {unit}").format(unit=names[2]),
    ]
    rows = [
        [
            row.station,
            number(row.cut * square, 2),
            number(row.fill * square, 2),
            number(row.width * length, 2),
            number(row.cut_next * cube, 2),
            number(row.fill_next * cube, 2),
        ]
        for row in areas[:MOST_ROWS]
    ]
    if lines:
        head.insert(0, translate("Report", "Line"))
        rows = [[area.line, *row] for area, row in zip(areas, rows, strict=False)]
    report.table(head, rows, numeric=range(len(head) - 5, len(head)))
    _rest(report, len(areas))


def _plots(
    report: Report, content: Content, plan: LinearUnit, vertical: LinearUnit, exaggeration: float
) -> None:
    """Draw some of the sections, evenly spread."""
    views = content.views
    if not views:
        return
    report.heading(translate("Report", "Sections"))
    low = min(view.reach[0] for view in views)
    high = max(view.reach[1] for view in views)
    across = (WIDTH - LEFT - RIGHT) / (high - low)
    up = across * vertical.to(plan) * exaggeration
    # A tall section is drawn smaller, so that it is seen whole.
    tallest = max((b - a for a, b in (view.heights() for view in views) if b >= a), default=0.0)
    shrink = min(1.0, 420.0 / max(tallest * up, 1.0))
    scale = Scale(across * shrink, up * shrink, low, high, plan, vertical)
    report.paragraph(
        translate(
            "Report",
            "Heights are drawn {times} times as large as widths. Sections look along the line, left of it on the left; the dash-dot line at 0 is the line. Cut is shaded ochre, fill violet.",
        ).format(times=f"{exaggeration:g}")
    )
    key = [f"{name}: {_look(k)}" for k, name in enumerate(content.surfaces)]
    report.bullets(key)
    for view in views:
        report.svg(plot(view, scale).svg(view.title, ZOOM))


def _look(number: int) -> str:
    """Say in words how a surface is drawn."""
    return (
        translate("Report", "solid slate line"),
        translate("Report", "dashed orange line"),
        translate("Report", "dash-dot violet line"),
        translate("Report", "dotted teal line"),
        translate("Report", "short brown dashes"),
        translate("Report", "thin ochre line"),
    )[number % len(LOOKS)]
