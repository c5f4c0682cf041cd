"""The report of a run of guidelines: who reads it must not be able to take the wrong side."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..core.text import translate
from .report import Report
from .side_sketch import Sketch, draw

MOST_SKETCHES = 30
MOST_ROWS = 400


@dataclass(frozen=True)
class Entry:
    """One guideline, in words.

    Parameters
    ----------
    sentence
        What a foreman reads out.
    side, offset
        Side of the line, and the offset in two styles.
    compass
        Where it lies.
    there, back
        Side seen by the driver going as told, and on the way back.
    differs
        True when the driver sees it on the other side than the line has it.
    evidence
        Share of the length that supports the side.
    reach
        From which station to which it runs, and how long it is: pieces differ in nothing else.
    """

    sentence: str
    side: str
    offset: str
    compass: str
    there: str
    back: str
    differs: bool
    evidence: str
    reach: str


@dataclass(frozen=True)
class Problem:
    """One flagged line: what it is called, where, why."""

    name: str
    where: str
    why: str


@dataclass(frozen=True)
class Drawing:
    """One sketch with its caption."""

    sketch: Sketch
    caption: str


def guidelines_report(
    about: Sequence[tuple[str, str]],
    verdict: Sequence[str],
    entries: Sequence[Entry],
    problems: Sequence[Problem],
    warnings: Sequence[str],
    drawings: Sequence[Drawing],
) -> Report:
    """Build the report."""
    report = Report(translate("Report", "Guidelines"), about)
    report.verdict(*verdict, flagged=bool(problems or warnings))
    report.heading(translate("Report", "Which side"))
    if entries:
        _entries(report, entries)
    else:
        report.paragraph(translate("Report", "No guideline was laid."))
    if warnings:
        report.heading(translate("Report", "Take care"))
        report.bullets(warnings)
    if problems:
        report.heading(translate("Report", "Not settled: decide these by hand"))
        report.table(
            (
                translate("Report", "Line"),
                translate("Report", "Where"),
                translate("Report", "Why, and what to do"),
            ),
            [(p.name, p.where, p.why) for p in problems[:MOST_ROWS]],
            _capped(len(problems), MOST_ROWS),
        )
    if drawings:
        report.heading(translate("Report", "Sketches"))
        report.paragraph(
            translate(
                "Report",
                "North is up. The dark line is the source; the dot is its first vertex and the arrows its direction. The hatched band lies on the side of the guideline; its width is not to scale.",
            )
        )
        if len(drawings) > MOST_SKETCHES:
            report.paragraph(
                translate(
                    "Report", "The first {most} of {count} lines are drawn; all are in the table."
                ).format(most=MOST_SKETCHES, count=len(drawings))
            )
        for number, drawing in enumerate(drawings[:MOST_SKETCHES]):
            report.svg(draw(drawing.sketch, number), drawing.caption)
    return report


def _entries(report: Report, entries: Sequence[Entry]) -> None:
    differs = translate("Report", "{side}, unlike the line")
    rows = [
        (
            number,
            e.sentence,
            e.side,
            e.compass,
            differs.format(side=e.there) if e.differs else e.there,
            e.back,
            e.offset,
            e.evidence,
            e.reach,
        )
        for number, e in enumerate(entries[:MOST_ROWS], 1)
    ]
    report.table(
        (
            translate("Report", "No."),
            translate("Report", "Read out"),
            translate("Report", "Side of the line"),
            translate("Report", "Lies to the"),
            translate("Report", "Driver sees it"),
            translate("Report", "On the way back"),
            translate("Report", "Offset"),
            translate("Report", "Evidence"),
            translate("Report", "Stations, length"),
        ),
        rows,
        _capped(len(entries), MOST_ROWS),
        numeric=(0,),
        sentences=(1,),
    )


def _capped(count: int, most: int) -> str:
    if count <= most:
        return ""
    return translate("Report", "The first {most} of {count}; the layer holds all.").format(
        most=most, count=count
    )
