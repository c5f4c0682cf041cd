"""The report of a search for slope breaks: what was found, where, and what to look at."""

from collections.abc import Sequence
from dataclasses import dataclass

from ..core.text import translate
from .breaks_plan import BreaksPlan, detail_of, draw, extent_of
from .report import Report

MOST_ROWS = 60
LARGEST = 12
"""Patches that are listed."""


@dataclass(frozen=True)
class LineEntry:
    """One line, in words; the fields are the columns of the table after its number."""

    number: int
    kind: str
    length: str
    change: str
    grades: str
    elevations: str
    drawn: str


@dataclass(frozen=True)
class KnownSection:
    """How drawn lines compare.

    Parameters
    ----------
    sentences
        The result, and what counted as the same.
    kinds
        Rows of the table by kind: kind, length, drawn, not drawn, share.
    lines
        Rows of the table of drawn lines that are no break all along: name, length, share.
    plan
        Where they agree and where not.
    """

    sentences: Sequence[str]
    kinds: Sequence[Sequence[str]]
    lines: Sequence[Sequence[str]]
    plan: BreaksPlan


@dataclass(frozen=True)
class BreaksStory:
    """What the report tells.

    Parameters
    ----------
    verdict, clean
        Sentences that open it; ``clean`` when there is nothing to look at.
    kinds
        Rows of the table by kind: kind, lines, length, mean change, largest change.
    walls
        Whether some lines lie beside walls.
    lines, line_count
        The longest lines, the longest first (no more than `MOST_ROWS` are listed), and how many
        there are.
    flagged, flagged_count
        Rows of those to look at: number, kind, flag, why; and how many there are.
    patches, patch_count, patch_sentence
        Rows of the largest patches: grade, downhill, area, residual; how many there are, and what
        they are together.
    plan
        None where there is no line.
    known
        None where no drawn lines were given.
    """

    verdict: Sequence[str]
    clean: bool
    kinds: Sequence[Sequence[str]]
    walls: bool
    lines: Sequence[LineEntry]
    line_count: int
    flagged: Sequence[Sequence[str]]
    flagged_count: int
    patches: Sequence[Sequence[str]]
    patch_count: int
    patch_sentence: str
    plan: BreaksPlan | None
    known: KnownSection | None


def breaks_report(about: Sequence[tuple[str, str]], story: BreaksStory) -> Report:
    """Build the report."""
    report = Report(translate("Report", "Slope breaks"), about)
    report.verdict(*story.verdict, flagged=not story.clean)
    report.heading(translate("Report", "By kind"))
    report.table(
        (
            translate("Report", "Kind"),
            translate("Report", "Lines"),
            translate("Report", "Length"),
            translate("Report", "Mean change"),
            translate("Report", "Largest change"),
        ),
        story.kinds,
        numeric=(1, 2, 3, 4),
    )
    if story.walls:
        report.paragraph(
            translate("Report", "The changes leave out lines beside walls, curb faces and steps.")
        )
    if story.plan is not None:
        caption = translate(
            "Report", "North is up. Numbers are those of the longest lines in the table."
        )
        _figures(report, story.plan, caption)
    if story.known is not None:
        _known(report, story.known)
    if story.flagged:
        report.heading(translate("Report", "To be looked at"))
        report.table(
            (
                translate("Report", "No."),
                translate("Report", "Kind"),
                translate("Report", "Flag"),
                translate("Report", "Why"),
            ),
            story.flagged,
            numeric=(0,),
            sentences=(3,),
        )
        _more(report, story.flagged_count, len(story.flagged))
    if story.lines:
        _lines(report, story)
    if story.patches:
        report.heading(translate("Report", "Patches of one slope"))
        report.paragraph(story.patch_sentence)
        report.table(
            (
                translate("Report", "Grade"),
                translate("Report", "Downhill"),
                translate("Report", "Area"),
                translate("Report", "Off its plane"),
            ),
            story.patches,
            translate("Report", "The largest patches"),
            numeric=(0, 1, 2, 3),
        )
        _more(report, story.patch_count, len(story.patches))
    return report


def _lines(report: Report, story: BreaksStory) -> None:
    report.heading(translate("Report", "The longest lines"))
    report.paragraph(
        translate(
            "Report",
            "Grades go away from the line, square to it: + rises, - falls. Left and right look from its first to its last vertex.",
        )
    )
    head = (
        translate("Report", "No."),
        translate("Report", "Kind"),
        translate("Report", "Length"),
        translate("Report", "Change, mean (least - greatest)"),
        translate("Report", "Grade left, right"),
        translate("Report", "Elevation, start - end"),
        translate("Report", "Drawn"),
    )
    rows = [
        (e.number, e.kind, e.length, e.change, e.grades, e.elevations, e.drawn) for e in story.lines
    ]
    count = 6 if story.known is None else 7
    report.table(head[:count], [row[:count] for row in rows], numeric=(0, 2, 3, 4, 5, 6))
    _more(report, story.line_count, len(story.lines))


def _known(report: Report, known: KnownSection) -> None:
    report.heading(translate("Report", "Compared with drawn lines"))
    for sentence in known.sentences:
        report.paragraph(sentence)
    report.table(
        (
            translate("Report", "Kind"),
            translate("Report", "Length"),
            translate("Report", "Drawn"),
            translate("Report", "Not drawn"),
            translate("Report", "Share drawn"),
        ),
        known.kinds,
        numeric=(1, 2, 3, 4),
    )
    if known.plan.lines:
        _figures(report, known.plan, translate("Report", "Breaks and drawn lines. North is up."))
    if known.lines:
        report.table(
            (
                translate("Report", "Drawn line"),
                translate("Report", "Length"),
                translate("Report", "No break"),
                translate("Report", "Share that is a break"),
            ),
            known.lines[:MOST_ROWS],
            translate("Report", "Drawn lines that are no break, or not all along"),
            numeric=(1, 2, 3),
        )
        _more(report, len(known.lines), MOST_ROWS)


def _figures(report: Report, plan: BreaksPlan, caption: str) -> None:
    """Draw the plan, and a detail of it where lines lie too close to be told apart."""
    detail = detail_of(plan)
    report.svg(draw(plan, extent_of(plan), detail), caption)
    if detail is not None:
        report.svg(draw(plan, detail), translate("Report", "The part in the frame, larger."))


def _more(report: Report, count: int, most: int) -> None:
    if count > most:
        report.paragraph(
            translate("Report", "{more} more are not listed; the layer holds all.").format(
                more=count - most
            )
        )
