"""Checked ground, points and lines as rows with attributes."""

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
import shapely
from qgis.core import QgsGeometry

from ..core.measure.depth import Part, Verdict
from ..core.text import translate
from ..core.units import describe_length
from ..documents.depth_check_words import (
    FAIL,
    PASS,
    LineOutcome,
    Outcome,
    limits_text,
    line_sentence,
    sentence,
)
from ..layers.crs import JobUnits
from ..layers.lines import point_geometry
from ..layers.polygons import polygon_geometry
from .check_depth_ground import Ground, Points, Task, why_not_text

GROUND_COLUMNS = (
    ("zone_id", int),
    ("zone", str),
    ("result", str),
    ("kind", str),
    ("depth_asked", float),
    ("tolerance", str),
    ("area", float),
    ("share", float),
)
POINT_COLUMNS = (
    ("point_id", int),
    ("zone_id", int),
    ("zone", str),
    ("result", str),
    ("kind", str),
    ("design", float),
    ("actual", float),
    ("depth_found", float),
    ("depth_asked", float),
    ("deviation", float),
    ("why", str),
)
WORST_COLUMNS = (
    ("zone_id", int),
    ("zone", str),
    ("kind", str),
    ("depth_found", float),
    ("depth_asked", float),
    ("deviation", float),
    ("beyond", float),
    ("area", float),
    ("why", str),
)
SUMMARY_COLUMNS = (
    ("row", str),
    ("zone_id", int),
    ("zone", str),
    ("result", str),
    ("depth_asked", float),
    ("tol_less", float),
    ("tol_more", float),
    ("area", float),
    ("area_zone", float),
    ("area_no_data", float),
    ("area_pass", float),
    ("area_shallow", float),
    ("area_deep", float),
    ("area_strips", float),
    ("points", int),
    ("points_pass", int),
    ("points_shallow", int),
    ("points_deep", int),
    ("share_pass", float),
    ("dev_min", float),
    ("dev_mean", float),
    ("dev_max", float),
    ("cover_min", float),
    ("length", float),
    ("length_short", float),
    ("flag", str),
    ("why", str),
)
KINDS = {Verdict.PASS: "pass", Verdict.SHALLOW: "shallow", Verdict.DEEP: "deep"}


def ground_rows(task: Task, ground: Ground) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each zone and kind, in the order of `GROUND_COLUMNS`."""
    for row, outcome in enumerate(ground.outcomes):
        own = [part for part in ground.parts if part.zone == row]
        pieces = [("pass", PASS, list(shapely.get_parts(ground.shapes[row, Verdict.PASS])))]
        for verdict in (Verdict.SHALLOW, Verdict.DEEP):
            wide = [p.shape for p in own if p.verdict == verdict and not p.narrow]
            pieces.append((KINDS[verdict], FAIL, wide))
        pieces.append(("strip", "not judged", [part.shape for part in own if part.narrow]))
        for kind, result, shapes in pieces:
            kept = [shape for shape in shapes if shape is not None]
            if not kept:
                continue
            kept = list(shapely.get_parts(np.array(kept, dtype=object)))
            area = float(shapely.area(kept).sum())
            checked = outcome.found.checked
            yield (
                polygon_geometry(shapely.multipolygons(kept)),
                [
                    outcome.identifier,
                    outcome.name,
                    result,
                    kind,
                    outcome.depth,
                    limits_text(outcome.less, outcome.more, task.units.vertical),
                    area,
                    100 * area / checked if checked and kind != "strip" else None,
                ],
            )


def point_rows(task: Task, points: Points) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each point, in the order of `POINT_COLUMNS`."""
    for k, identifier in enumerate(points.ids.tolist()):
        zone, verdict = int(points.zone[k]), int(points.verdict[k])
        known = zone >= 0
        asked = float(task.depths[zone]) if known else None
        deviation = float(points.deviation[k]) if known else None
        kind = KINDS[Verdict(verdict)] if known else points.why_not[k]
        result = "unmatched" if not known else PASS if verdict == Verdict.PASS else FAIL
        yield (
            point_geometry(points.xyz[k]),
            [
                identifier,
                task.identifiers[zone] if known else None,
                task.names[zone] if known else None,
                result,
                kind,
                _number(points.design[k]),
                _number(points.xyz[k, 2]),
                asked + deviation if known else None,
                asked,
                deviation,
                why_not_text(points.why_not[k])
                or (off_text(deviation, task.units) if verdict != Verdict.PASS else None),
            ],
        )


def off_text(deviation: float, units: JobUnits) -> str:
    """Say how far a depth is off."""
    text = (
        translate("CheckDepth", "{off} shallower than asked.")
        if deviation < 0
        else translate("CheckDepth", "{off} deeper than asked.")
    )
    return text.format(off=describe_length(abs(deviation), units.vertical))


def _worst(task: Task, zone: int, deviation: float, area: float | None) -> list[Any]:
    limit = float(task.more[zone]) if deviation > 0 else float(task.less[zone])
    asked = float(task.depths[zone])
    return [
        task.identifiers[zone],
        task.names[zone],
        KINDS[Verdict.DEEP if deviation > 0 else Verdict.SHALLOW],
        asked + deviation,
        asked,
        deviation,
        abs(deviation) - limit,
        area,
        off_text(deviation, task.units),
    ]


def worst_of_ground(task: Task, parts: Sequence[Part]) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield the worst place of each region that fails, in the order of `WORST_COLUMNS`."""
    for part in parts:
        if not part.narrow:
            yield (
                point_geometry(part.xy),
                _worst(task, part.zone, part.deviation, float(part.shape.area)),
            )


def worst_of_points(task: Task, points: Points) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield the worst point of each zone and kind."""
    for zone in range(len(task.names)):
        for verdict in (Verdict.SHALLOW, Verdict.DEEP):
            some = np.flatnonzero((points.zone == zone) & (points.verdict == verdict))
            if len(some):
                k = some[np.abs(points.deviation[some]).argmax()]
                yield (
                    point_geometry(points.xyz[k, :2]),
                    _worst(task, zone, float(points.deviation[k]), None),
                )


def worst_of_lines(
    lines: Sequence[LineOutcome], units: JobUnits
) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield the place of least cover of each line."""
    for line in lines:
        if np.isfinite(line.least):
            off = line.least - line.asked
            yield (
                point_geometry(line.xyz[:2]),
                [
                    line.identifier,
                    line.name,
                    "cover",
                    line.least,
                    line.asked,
                    off,
                    max(-off, 0.0),
                    None,
                    line_sentence(line, units),
                ],
            )


def summary_row(outcome: Outcome, units: JobUnits, kind: str) -> list[Any]:
    """Return the attributes of a zone or the total, in the order of `SUMMARY_COLUMNS`."""
    found = outcome.found
    counts = [float(value) for value in found.measure]
    if outcome.points:
        areas: list[Any] = [None] * 7
        points: list[Any] = [int(found.checked), *(int(value) for value in counts)]
    else:
        areas = [
            found.checked,
            _number(outcome.area),
            _number(outcome.missing),
            *counts,
            found.narrow,
        ]
        points = [None] * 4
    return [
        kind,
        outcome.identifier,
        outcome.name,
        outcome.state,
        _number(outcome.depth),
        _number(outcome.less),
        _number(outcome.more),
        *areas,
        *points,
        100 * found.share if found.checked else None,
        _number(found.least),
        _number(found.mean),
        _number(found.most),
        None,
        None,
        None,
        None if outcome.state == PASS else outcome.state,
        sentence(outcome, units),
    ]


def line_row(line: LineOutcome, units: JobUnits) -> list[Any]:
    """Return the attributes of a line, likewise."""
    short = line.lacking if np.isfinite(line.least) else None
    return [
        "line",
        line.identifier,
        line.name,
        line.state,
        line.asked,
        *[None] * 17,
        _number(line.least),
        line.length,
        short,
        None if line.state == PASS else line.state,
        line_sentence(line, units),
    ]


def counts_of(outcomes: Sequence[Outcome]) -> dict[str, int]:
    """Return how many zones pass, fail, and are not wholly checked."""
    states = [outcome.state for outcome in outcomes]
    return {
        "PASS_COUNT": states.count(PASS),
        "FAIL_COUNT": states.count(FAIL),
        "UNCHECKED_COUNT": sum(state not in (PASS, FAIL) for state in states),
    }


def _number(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
