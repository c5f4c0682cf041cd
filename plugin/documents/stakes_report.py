"""The report of a run of stakes: a table for each line, made to be printed."""

from collections.abc import Sequence
from dataclasses import astuple, dataclass

from ..core.text import translate
from .report import Report

MOST_ROWS = 500


@dataclass(frozen=True)
class Row:
    """One stake, in words."""

    number: int
    station: str
    side: str
    east: str
    north: str
    design: str
    ground: str
    mark: str
    grade: str
    why: str


@dataclass(frozen=True)
class LineTable:
    """The stakes of one line."""

    name: str
    rows: list[Row]


def stakes_report(
    about: Sequence[tuple[str, str]],
    verdict: Sequence[str],
    tables: Sequence[LineTable],
    flagged: bool,
) -> Report:
    """Build the report."""
    report = Report(translate("Report", "Stake points"), about)
    report.verdict(*verdict, flagged=flagged)
    report.paragraph(
        translate(
            "Report",
            "C is cut: the ground lies above the design by so much. F is fill: it lies below. Sides are those of the line, looking from its first to its last vertex.",
        )
    )
    head = (
        translate("Report", "No."),
        translate("Report", "Station"),
        translate("Report", "Offset and side"),
        translate("Report", "East"),
        translate("Report", "North"),
        translate("Report", "Design"),
        translate("Report", "Ground"),
        translate("Report", "Cut / fill"),
        translate("Report", "Grade to next"),
        translate("Report", "Why flagged"),
    )
    left = MOST_ROWS
    for table in tables:
        if left <= 0:
            break
        report.heading(table.name)
        rows = table.rows[:left]
        left -= len(rows)
        # Columns that are empty all along would only push the others together.
        shown = [
            k for k in range(len(head)) if k in (0, 1, 2) or any(astuple(row)[k] for row in rows)
        ]
        numeric = [n for n, k in enumerate(shown) if k in (0, 3, 4, 5, 6, 7, 8)]
        report.table(
            [head[k] for k in shown],
            [[astuple(row)[k] for k in shown] for row in rows],
            numeric=numeric,
        )
    total = sum(len(table.rows) for table in tables)
    if total > MOST_ROWS:
        report.paragraph(
            translate("Report", "The first {most} of {count}; the layer holds all.").format(
                most=MOST_ROWS, count=total
            )
        )
    return report
