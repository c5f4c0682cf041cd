"""What a run of orienting lines says: in the log, and in its report."""

from typing import Any

from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingFeedback

from ..core.text import translate
from ..documents.direction_plan import DirectionPlan
from ..documents.orient_report import Entry, orient_report
from ..documents.report import Report
from ..layers.crs import describe_crs
from .orient_parameters import rule_labels
from .orient_rows import Rows

MOST_LOGGED = 20
_PLACED = frozenset({"mixed", "square", "beyond", "tie", "level", "no_surface", "no_height"})


def tell(rows: Rows, numbers: dict[str, Any], feedback: QgsProcessingFeedback) -> None:
    """Log what was turned, joined and flagged."""
    for sentence in _done(rows, numbers):
        feedback.pushInfo(sentence)
    for sentence in _doubts(rows, numbers):
        feedback.pushWarning(sentence)
    why = rows.done.directions.why
    flagged = [f"{rows.name(n)}: {why[n]}" for n in range(len(rows)) if why[n]]
    places = [finding.why for finding in rows.done.findings if finding.code != "step"]
    for sentence in list(dict.fromkeys([*flagged, *places]))[:MOST_LOGGED]:
        feedback.pushWarning(sentence)


def report_of(rows: Rows, numbers: dict[str, Any], crs: QgsCoordinateReferenceSystem) -> Report:
    """Return the report of a run."""
    unit = rows.unit
    about = [
        (translate("OrientLines", "Direction"), rule_labels()[rows.rule]),
        (translate("OrientLines", "CRS"), describe_crs(crs)),
        (translate("OrientLines", "Plan unit"), f"{unit.name} ({unit.symbol})"),
    ]
    done, found = rows.done, rows.done.directions
    entries = [
        Entry(
            name=rows.name(n),
            lines=rows.attributes(n)[-9],
            runs=rows.runs[n],
            turned=_turned_word(rows, n),
            evidence=f"{100.0 * found.share[n]:.0f} %",
            length=f"{done.lines.lengths[n]:.2f} {unit.symbol}",
            why=found.why[n],
        )
        for n in range(len(rows))
    ]
    plan = DirectionPlan(
        [done.lines.xy[done.lines.line(n)] for n in range(len(rows))],
        [
            "flagged" if found.code[n] else "turned" if rows.turned(n) else "kept"
            for n in range(len(rows))
        ],
        unit,
        rows.references,
        [found.place[n] if found.code[n] in _PLACED else None for n in range(len(rows))],
    )
    places = [finding.why for finding in done.findings if finding.code != "step"]
    return orient_report(about, _done(rows, numbers), _doubts(rows, numbers), entries, places, plan)


def _done(rows: Rows, numbers: dict[str, Any]) -> list[str]:
    told = [
        translate("OrientLines", "{count} of {total} lines were turned round.").format(
            count=numbers["FLIPPED_COUNT"], total=numbers["LINE_COUNT"]
        )
    ]
    if numbers["JOINED_COUNT"]:
        unit = rows.unit
        told.append(
            translate(
                "OrientLines",
                "Pieces joined: {pieces}; lines made of them: {lines}; largest move of an end: {move:.4f} {symbol}.",
            ).format(
                pieces=numbers["JOINED_COUNT"],
                lines=numbers["JOINED_LINES"],
                move=numbers["LARGEST_MOVE"],
                symbol=unit.symbol,
            )
        )
    return told


def _doubts(rows: Rows, numbers: dict[str, Any]) -> list[str]:
    """Return the sentences on what is to be looked at."""
    told = []
    steps = sum(code == "step" for code in rows.done.directions.code)
    unknown = numbers["FLAGGED_COUNT"] - steps
    if unknown:
        told.append(
            translate(
                "OrientLines",
                "Lines whose direction is not known: {count}. They are flagged; decide their direction by hand before work starts.",
            ).format(count=unknown)
        )
    if steps:
        told.append(
            translate(
                "OrientLines",
                "Lines that meet another one at a different height, and were not joined there: {count}.",
            ).format(count=steps)
        )
    jumps = sum(run.jumps for run in rows.done.runs)
    if jumps:
        told.append(
            translate(
                "OrientLines",
                "Joints where the M of the pieces do not agree: {count}. M is no station along these lines; count stations from a start station.",
            ).format(count=jumps)
        )
    return told


def _turned_word(rows: Rows, row: int) -> str:
    turned, pieces = rows.turned(row), len(rows.done.chains[row].lines)
    if pieces > 1:
        return translate("OrientLines", "{count} of {total}").format(count=turned, total=pieces)
    return translate("OrientLines", "turned") if turned else translate("OrientLines", "as drawn")
