"""The report of passes over zones."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..core.text import translate
from .pass_plan import PassPlan, draw
from .report import Report

MOST_PLANS = 12


@dataclass(frozen=True)
class Entry:
    """One zone, in words and figures, and its plan."""

    zone: str
    passes: str
    travel: str
    length: str
    area: str
    covered: str
    left: str
    twice: str
    plan: PassPlan


def passes_report(
    about: Sequence[tuple[str, str]],
    verdict: Sequence[str],
    entries: Sequence[Entry],
    symbol: str,
    flagged: bool,
) -> Report:
    """Build the report; ``symbol`` is that of the plan unit."""
    report = Report(translate("Report", "Pass lines"), about)
    report.verdict(*verdict, flagged=flagged)
    report.heading(translate("Report", "Zones"))
    report.table(
        (
            translate("Report", "Zone"),
            translate("Report", "Passes"),
            translate("Report", "Driven to the"),
            translate("Report", "Length"),
            translate("Report", "Area"),
            translate("Report", "Covered"),
            translate("Report", "Left over"),
            translate("Report", "Covered twice"),
        ),
        [
            (e.zone, e.passes, e.travel, e.length, e.area, e.covered, e.left, e.twice)
            for e in entries
        ],
        translate("Report", "Lengths in {unit}, areas in sq {unit}").format(unit=symbol),
        numeric=(1, 3, 4, 5, 6, 7),
    )
    report.heading(translate("Report", "Plan"))
    for entry in entries[:MOST_PLANS]:
        report.svg(draw(entry.plan), entry.zone)
    report.paragraph(
        translate(
            "Report",
            "North is up. Dashed with arrows: the passes, numbered in the order they are driven. Grey: what they cover. Dark: what is left over.",
        )
    )
    return report
