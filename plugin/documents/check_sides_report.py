"""The report of a check of guidelines: the verdict first, then what is wrong and where."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..core.text import translate
from .check_sketch import CheckSketch, draw
from .report import Report

MOST_ROWS = 400
MOST_SKETCHES = 24


@dataclass(frozen=True)
class Entry:
    """One guideline, in words.

    Parameters
    ----------
    name, line
        What the guideline and its line are called.
    result
        The verdict.
    asked, found
        Side and distance asked for, and found.
    wrong
        Share of its length on the wrong side.
    where, why
        Where to look, and what is wrong; empty for a guideline that passes.
    sketch
        The place that is wrong.
    """

    name: str
    line: str
    result: str
    asked: str
    found: str
    wrong: str
    where: str
    why: str
    sketch: CheckSketch | None


def check_sides_report(
    about: Sequence[tuple[str, str]],
    verdict: Sequence[str],
    entries: Sequence[Entry],
    clean: bool,
) -> Report:
    """Build the report; ``clean`` when every guideline passes."""
    report = Report(translate("Report", "Check of guidelines"), about)
    report.verdict(*verdict, flagged=not clean)
    wrong = [(number, entry) for number, entry in enumerate(entries, 1) if entry.why]
    if wrong:
        report.heading(translate("Report", "What is wrong, or cannot be known"))
        report.table(
            (
                translate("Report", "No."),
                translate("Report", "Guideline"),
                translate("Report", "Result"),
                translate("Report", "Why"),
                translate("Report", "Where"),
            ),
            [(number, e.name, e.result, e.why, e.where) for number, e in wrong[:MOST_ROWS]],
            numeric=(0,),
            sentences=(3,),
        )
        for number, entry in wrong[:MOST_SKETCHES]:
            if entry.sketch is not None:
                caption = translate("Report", "No. {number}: {name}. {result}").format(
                    number=number, name=entry.name, result=entry.result
                )
                report.svg(draw(entry.sketch), caption)
        report.paragraph(
            translate(
                "Report",
                "North is up. Solid with arrows: the line. Dashed: the guideline. The cross marks the place that is wrong.",
            )
        )
    report.heading(translate("Report", "All guidelines"))
    report.table(
        (
            translate("Report", "No."),
            translate("Report", "Guideline"),
            translate("Report", "Line"),
            translate("Report", "Result"),
            translate("Report", "Asked for"),
            translate("Report", "Measured"),
            translate("Report", "On the wrong side"),
        ),
        [
            (number, e.name, e.line, e.result, e.asked, e.found, e.wrong)
            for number, e in enumerate(entries[:MOST_ROWS], 1)
        ],
        numeric=(0, 6),
    )
    if len(entries) > MOST_ROWS:
        report.paragraph(
            translate("Report", "The first {most} of {count}; the layer holds all.").format(
                most=MOST_ROWS, count=len(entries)
            )
        )
    return report
