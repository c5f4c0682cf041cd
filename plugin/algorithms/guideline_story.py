"""What a run of guidelines says: in the log, and in its report."""

import re
from typing import Any

from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingFeedback

from ..core.lines.mixed import mixed_directions
from ..core.text import translate
from ..core.units import LinearUnit, describe_length, format_station
from ..documents.guidelines_report import Drawing, Entry, Problem, guidelines_report
from ..documents.report import Report
from ..documents.side_sketch import Sketch
from ..layers.crs import describe_crs
from .guideline_rows import FLAGGED_COLUMNS, GUIDELINE_COLUMNS, Row, Rows

MOST_LOGGED = 20
TOUCH_METRES = 0.003
"""Ends of lines nearer than this (0.01 ft) touch."""


def tell(
    rows: Rows,
    good: list[Row],
    flagged: list[Row],
    numbers: dict[str, Any],
    feedback: QgsProcessingFeedback,
) -> list[str]:
    """Log the sentences and what is flagged; return the warnings that the report repeats."""
    for row in good[:MOST_LOGGED]:
        feedback.pushInfo(_named(row, GUIDELINE_COLUMNS)["sentence"])
    if len(good) > MOST_LOGGED:
        feedback.pushInfo(
            translate("Guidelines", "... and {count} more: see the field “sentence”.").format(
                count=len(good) - MOST_LOGGED
            )
        )
    sources = rows.sources
    touch = TOUCH_METRES / rows.unit.metres
    mixed = mixed_directions(sources.lines, sources.names, touch)
    warnings = [finding.why for finding in mixed]
    unclear = sum(
        "travel_unclear" in (_named(row, GUIDELINE_COLUMNS)["flag"] or "") for row in good
    )
    if unclear:
        warnings.append(
            translate(
                "Guidelines",
                "For {count} guidelines the driver's side is not known at that bearing of travel: the line turns too far or runs square to it.",
            ).format(count=unclear)
        )
    for sentence in warnings:
        feedback.pushWarning(sentence)
    for sentence in _left_over(numbers, flagged, rows.unit):
        feedback.pushWarning(sentence)
    if flagged:
        for name, why in list(dict.fromkeys(_reasons(flagged)))[:MOST_LOGGED]:
            feedback.pushWarning(f"{name}: {why}")
    return warnings


def report_of(
    rows: Rows,
    good: list[Row],
    flagged: list[Row],
    numbers: dict[str, Any],
    warnings: list[str],
    crs: QgsCoordinateReferenceSystem,
) -> Report:
    """Return the report of a run."""
    unit = rows.unit
    about = [
        (translate("Guidelines", "CRS"), describe_crs(crs)),
        (translate("Guidelines", "Plan unit"), f"{unit.name} ({unit.symbol})"),
    ]
    if rows.heights.kind != "none" and rows.heights.depth:
        about.append(
            (
                translate("Guidelines", "Depth below the heights"),
                describe_length(rows.heights.depth, rows.vertical),
            )
        )
    sources = {
        "line": translate("Guidelines", "of the lines"),
        "surface": translate("Guidelines", "of the surface"),
        "none": translate("Guidelines", "none, plan only"),
    }
    about.insert(2, (translate("Guidelines", "Heights"), sources[rows.heights.kind]))
    if rows.heights.rise:
        percent = 100.0 * rows.heights.rise * rows.vertical.to(unit)
        way = translate("Guidelines", "rises") if percent > 0 else translate("Guidelines", "falls")
        told = translate("Guidelines", "{way} {percent:g} % away from the line")
        told = told.format(way=way, percent=round(abs(percent), 4))
        about.append((translate("Guidelines", "Cross grade"), told))
    verdict = [
        translate(
            "Guidelines",
            "{count} guidelines, {length} in all. Each was measured against its line: the side holds, and away from corners the distance is right within {error:.6f} {symbol}.",
        ).format(
            count=numbers["GUIDELINE_COUNT"],
            length=f"{numbers['LENGTH']:.2f} {unit.symbol}",
            error=max(numbers["MAX_DISTANCE_ERROR"], 1e-6),
            symbol=unit.symbol,
        ),
        *_left_over(numbers, flagged, unit),
    ]
    entries = [_entry(rows, _named(row, GUIDELINE_COLUMNS)) for row in good]
    problems = [_problem(rows, _named(row, FLAGGED_COLUMNS)) for row in flagged]
    return guidelines_report(
        about, verdict, entries, list(dict.fromkeys(problems)), warnings, _drawings(rows)
    )


def _left_over(numbers: dict[str, Any], flagged: list[Row], unit: LinearUnit) -> list[str]:
    """Return the sentences on what did not become a guideline."""
    told = []
    if numbers["FLAGGED_COUNT"]:
        told.append(
            translate(
                "Guidelines",
                "{count} sides are not settled, and no guideline was laid there: decide them before work starts.",
            ).format(count=numbers["FLAGGED_COUNT"])
        )
    if numbers["LOST_COUNT"]:
        told.append(
            translate(
                "Guidelines",
                "{count} stretches have no guideline beside them, or one that cuts a corner: look at them before work starts.",
            ).format(count=numbers["LOST_COUNT"])
        )
    codes = [_named(row, FLAGGED_COLUMNS)["flag"] for row in flagged]
    bare = codes.count("no_surface") + codes.count("no_height")
    if bare:
        sentence = translate("Guidelines", "{count} stretches have no heights, and no guideline was laid there.")  # noqa: E501  # fmt: skip
        told.append(sentence.format(count=bare))
    if numbers["CHORD_COUNT"]:
        told.append(
            translate(
                "Guidelines",
                "{count} stretches beside arcs stay chords, within {error} of the arc: there is no room for an arc, or its distance could not be proved.",
            ).format(
                count=numbers["CHORD_COUNT"],
                error=describe_length(numbers["MAX_DISTANCE_ERROR"], unit),
            )
        )
    return told


def _named(row: Row, columns: tuple[tuple[str, type], ...]) -> dict[str, Any]:
    return {name: value for (name, _), value in zip(columns, row[1], strict=True)}


def _entry(rows: Rows, row: dict[str, Any]) -> Entry:
    sides = side_words()
    unknown = translate("Guidelines", "not known")
    there, back = unknown, ""
    if row["side_driver"] is not None:
        there, back = sides[row["side_driver"]], sides[row["side_driver_back"]]
    return Entry(
        sentence=row["sentence"],
        side=sides[row["side_line"]],
        offset=_unbroken(row["offset"]),
        compass=row["compass_side"],
        there=there,
        back=back,
        differs=row["side_driver"] is not None and row["side_driver"] != row["side_line"],
        evidence=_evidence(row, rows.unit),
        reach=_unbroken(f"{_span(rows, row)}, {row['length']:.2f} {rows.unit.symbol}"),
    )


def _span(rows: Rows, row: dict[str, Any]) -> str:
    return "{}\N{NO-BREAK SPACE}– {}".format(
        format_station(row["station_from"], rows.unit), format_station(row["station_to"], rows.unit)
    )


def _unbroken(text: str) -> str:
    """Return a text that does not break between a number and its unit."""
    return re.sub(r"(?<=\d) (?=[a-z])", "\N{NO-BREAK SPACE}", text)


def side_words() -> dict[str, str]:
    """Return the words of the field ``side`` and what people read for them."""
    return {
        "right": translate("Guidelines", "right"),
        "left": translate("Guidelines", "left"),
    }


def _problem(rows: Rows, row: dict[str, Any]) -> Problem:
    span = _span(rows, row)
    offset = row["signed_offset"]
    name = row["name"]
    if offset is not None and row["kind"] != "candidate":
        name = f"{name}, {side_words()[row['side']]} {describe_length(abs(offset), rows.unit)}"
    elif offset is not None:
        name = f"{name}, {describe_length(abs(offset), rows.unit)}"
    where = translate("Guidelines", "stations {span}; look at {x:.2f}, {y:.2f}").format(
        span=span, x=row["weakest_x"], y=row["weakest_y"]
    )
    return Problem(name, where, row["why"])


def _reasons(flagged: list[Row]) -> list[tuple[str, str]]:
    named = [_named(row, FLAGGED_COLUMNS) for row in flagged]
    return [(row["name"], row["why"]) for row in named]


def _drawings(rows: Rows) -> list[Drawing]:
    """Return one drawing per source line, those without a settled side first."""
    sides: dict[int, dict[int, list[float]]] = {}
    pieces, requests = rows.laid.pieces, rows.requests
    for request, signed in zip(pieces.source.tolist(), pieces.offsets.tolist(), strict=True):
        own = sides.setdefault(int(requests.line[request]), {})
        values = own.setdefault(1 if signed > 0 else -1, [])
        if abs(signed) not in values:
            values.append(abs(signed))
    settled = [not code for code in rows.laid.verdicts.code]
    open_lines = {int(requests.line[r]) for r, good in enumerate(settled) if not good}
    drawings = []
    lines = rows.sources.lines
    for line in sorted(range(len(lines)), key=lambda k: (k not in open_lines, k)):
        own = sides.get(line, {})
        if not own and line not in open_lines:
            continue
        labels = {side: _label(rows, side, values) for side, values in own.items()}
        flagged = line in open_lines and not own
        caption = rows.sources.names[line]
        if flagged:
            caption += translate("Guidelines", ": side not settled")
        for side in own:
            way = rows.compass_side(line, side)
            caption += f": {labels[side]} ({way})"
        drawings.append(
            Drawing(Sketch(lines.xy[lines.line(line)], labels, rows.unit, flagged), caption)
        )
    return drawings


def _label(rows: Rows, side: int, values: list[float]) -> str:
    base = rows.unit.base
    text = ", ".join(f"{value * rows.unit.to(base):.6g}" for value in sorted(values)[:4])
    if len(values) > 4:
        text += " ..."
    return f"{side_words()['right' if side > 0 else 'left']} {text} {base.symbol}"


def _evidence(row: dict[str, Any], unit: LinearUnit) -> str:
    """Return the share that supports the side, and the station where the least does."""
    share = f"{row['evidence']:.0f} %"
    if row["weakest_station"] is None:
        return share
    return translate("Guidelines", "{share}, least at {station}").format(
        share=share, station=format_station(row["weakest_station"], unit)
    )
