"""The report of a run of orienting lines."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..core.text import translate
from .direction_plan import DirectionPlan, draw
from .report import Report

MOST_ROWS = 400


@dataclass(frozen=True)
class Entry:
    """One line of the result, in words.

    Parameters
    ----------
    name, lines
        What people call it, and the ids of the lines it is made of.
    runs
        The way it runs now.
    turned
        Whether it was turned round.
    evidence, length
        Share of the length that says so; length of the line.
    why
        Why it is flagged; empty where it is not.
    """

    name: str
    lines: str
    runs: str
    turned: str
    evidence: str
    length: str
    why: str


def orient_report(
    about: Sequence[tuple[str, str]],
    verdict: Sequence[str],
    doubts: Sequence[str],
    entries: Sequence[Entry],
    places: Sequence[str],
    plan: DirectionPlan,
) -> Report:
    """Build the report."""
    report = Report(translate("Report", "Directions of lines"), about)
    report.verdict(*verdict, *doubts, flagged=bool(doubts))
    flagged = [(number, entry) for number, entry in enumerate(entries, 1) if entry.why]
    if flagged or places:
        report.heading(translate("Report", "Not settled: look at these"))
    if flagged:
        report.table(
            (
                translate("Report", "No."),
                translate("Report", "Line"),
                translate("Report", "Ids"),
                translate("Report", "Why, and what to do"),
            ),
            [(number, e.name, e.lines, e.why) for number, e in flagged[:MOST_ROWS]],
            _capped(len(flagged)),
            numeric=(0,),
            sentences=(3,),
        )
    if places:
        report.bullets(places[:MOST_ROWS])
    report.heading(translate("Report", "Plan"))
    report.svg(
        draw(plan),
        translate(
            "Report",
            "North is up. Arrows show the direction that lines have now; a dot is the first vertex, with the number of the line. Solid: as drawn. Dashed: turned round. Dotted: flagged, with a cross where to look. Thin: reference.",
        ),
    )
    report.heading(translate("Report", "Lines"))
    report.table(
        (
            translate("Report", "No."),
            translate("Report", "Line"),
            translate("Report", "Ids"),
            translate("Report", "Runs now"),
            translate("Report", "Turned round"),
            translate("Report", "Evidence"),
            translate("Report", "Length"),
        ),
        [
            (number, e.name, e.lines, e.runs, e.turned, e.evidence, e.length)
            for number, e in enumerate(entries[:MOST_ROWS], 1)
        ],
        _capped(len(entries)),
        numeric=(0, 5, 6),
    )
    return report


def _capped(count: int) -> str:
    if count <= MOST_ROWS:
        return ""
    return translate("Report", "The first {most} of {count}; the layer holds all.").format(
        most=MOST_ROWS, count=count
    )
