"""The report of a check of grades: the verdict on each zone, a plan, rules, figures."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely

from ..core.text import translate
from ..core.units import LinearUnit
from .region_plan import CROSSED, DASHED, DOTTED, SOLID, Course, Region, draw
from .report import Report

MOST_SENTENCES = 40
MOST_ROWS = 400


@dataclass(frozen=True)
class GradePlan:
    """What the plan shows.

    Parameters
    ----------
    zones
        Outlines, numbered from 1.
    fails, nears
        Areas that fail, and that pass with little to spare.
    breaks, lines
        Edges at gutters that fail, and lines of travel.
    points
        The worst places, x, y and a short label each.
    unit : LinearUnit
        Plan unit.
    """

    zones: Sequence[shapely.Geometry]
    fails: Sequence[shapely.Geometry]
    nears: Sequence[shapely.Geometry]
    breaks: Sequence[shapely.Geometry]
    lines: Sequence[shapely.Geometry]
    points: Sequence[tuple[float, float, str]]
    unit: LinearUnit


@dataclass(frozen=True)
class Entry:
    """The verdict on one limit, in words and figures."""

    zone: str
    measure: str
    limit: str
    verdict: str
    area: str
    checked: str
    failed: str
    share: str
    near: str
    least: str
    greatest: str
    mean: str
    worst: str
    where: str


def grades_report(
    about: Sequence[tuple[str, str]],
    verdict: Sequence[str],
    entries: Sequence[Entry],
    rules: Sequence[tuple[str, str, str, str, str]],
    notes: Sequence[str],
    plan: GradePlan,
    *,
    clean: bool,
) -> Report:
    """Build the report.

    Parameters
    ----------
    about
        What was compared with what.
    verdict
        A sentence for each limit, what fails first.
    entries
        The same in figures.
    rules
        Name, measure, limit, source and note of the rules used.
    notes
        What may be wrong.
    plan
        What the plan shows.
    clean
        Whether nothing fails and nothing was left out.
    """
    report = Report(translate("Report", "Check of grades"), about)
    report.verdict(*verdict[:MOST_SENTENCES], flagged=not clean)
    if len(verdict) > MOST_SENTENCES:
        report.verdict(
            translate(
                "Report", "The first {most} of {count} verdicts; the table holds all."
            ).format(most=MOST_SENTENCES, count=len(verdict))
        )
    report.heading(translate("Report", "Plan"))
    report.svg(
        _drawn(plan),
        translate(
            "Report",
            "North is up. A cross marks the worst place of a verdict that fails or nearly does, with the number of the zone and the grade there.",
        ),
    )
    if rules:
        report.heading(translate("Report", "Rules"))
        report.table(
            (
                translate("Report", "Rule"),
                translate("Report", "Measured"),
                translate("Report", "Limit"),
                translate("Report", "Source"),
                translate("Report", "Note"),
            ),
            rules,
            sentences=(4,),
        )
    report.paragraph(
        translate(
            "Report",
            "This compares a surface with numbers. Which rules apply, their exceptions, local codes and tolerances for construction are for licensed practice and the authority in charge to decide; what was built is for a survey to show.",
        )
    )
    if notes:
        report.heading(translate("Report", "To be looked at"))
        report.bullets(notes)
    report.heading(translate("Report", "Verdicts"))
    zone = translate("Report", "Zone")
    shown = entries[:MOST_ROWS]
    report.table(
        (
            zone,
            translate("Report", "Measured"),
            translate("Report", "Limit"),
            translate("Report", "Verdict"),
            translate("Report", "Worst"),
            translate("Report", "Where"),
        ),
        [(e.zone, e.measure, e.limit, e.verdict, e.worst, e.where) for e in shown],
        numeric=(4,),
    )
    report.heading(translate("Report", "Figures"))
    report.table(
        (
            zone,
            translate("Report", "Area"),
            translate("Report", "Checked"),
            translate("Report", "Fails"),
            translate("Report", "Share"),
            translate("Report", "Near"),
            translate("Report", "Least grade"),
            translate("Report", "Greatest grade"),
            translate("Report", "Mean by area"),
        ),
        [
            (
                *(e.zone, e.area, e.checked, e.failed, e.share, e.near),
                *(e.least, e.greatest, e.mean),
            )
            for e in shown
        ],
        translate("Report", "Grades are sizes, without sign. Areas in sq {unit}, in plan.").format(
            unit=plan.unit.symbol
        ),
        numeric=range(1, 9),
    )
    if len(entries) > MOST_ROWS:
        report.paragraph(
            translate("Report", "The first {most} of {count}; the layer holds all.").format(
                most=MOST_ROWS, count=len(entries)
            )
        )
    return report


def _drawn(plan: GradePlan) -> str:
    return draw(
        translate("Report", "Plan of the grades checked, north up"),
        [
            Region(plan.nears, DOTTED, translate("Report", "passes, little to spare")),
            Region(plan.fails, CROSSED, translate("Report", "fails")),
        ],
        plan.zones,
        plan.unit,
        plan.points,
        [
            Course(plan.lines, DASHED, translate("Report", "line of travel")),
            Course(plan.breaks, SOLID, translate("Report", "change of grade fails")),
        ],
    )
