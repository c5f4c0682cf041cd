"""The report of a check of grades, put together from its rows."""

import math
from typing import TYPE_CHECKING

import numpy as np
import shapely

from ..core.measure.grade_check import EVERYWHERE, FAIL, NEAR, UNCHECKED
from ..core.measure.grades import FIRST_FAIL
from ..core.outlines import outlines_of_faces
from ..core.text import translate
from ..core.tin import Tin
from ..documents.grades_report import Entry, GradePlan, grades_report
from ..documents.report import Report
from ..layers.crs import describe_crs
from ..layers.rasters import RasterSource
from .check_grades_story import limit_words, measure_words, percent, verdict_words

MOST_POINTS = 60

if TYPE_CHECKING:
    from .check_grades_rows import Rows


def grades_page(rows: "Rows") -> Report:
    """Return the report."""
    to = rows.algorithm
    entries = _entries(rows)
    rules = [
        (rule.name, measure_words(rule.measure), _limit_of(rows, rule.name), rule.source, rule.note)
        for rule in to.rules.used.values()
    ]
    sentences = [
        text
        for verdict in (FAIL, UNCHECKED, NEAR, "pass")
        for v, text in rows.sentences()
        if v == verdict
    ]
    clean = not {FAIL, UNCHECKED} & set(rows.verdicts)
    notes = [rows.about(finding) for finding in rows.findings]
    return grades_report(_about(rows), sentences, entries, rules, notes, _plan(rows), clean=clean)


def _about(rows: "Rows") -> list[tuple[str, str]]:
    to = rows.algorithm
    unit, vertical = to.job.plan, to.job.vertical
    kind = (
        translate("CheckGrades", "TIN, face by face")
        if isinstance(to.design.data, Tin)
        else translate("CheckGrades", "raster, pixel by pixel (Horn's rule)")
    )
    return [
        (translate("CheckGrades", "Design"), f"{to.design.name} ({kind})"),
        (translate("CheckGrades", "Zones"), to.layer_names[to.ZONES]),
        (translate("CheckGrades", "Lines of travel"), to.layer_names[to.LINES]),
        (translate("CheckGrades", "Gutter lines"), to.layer_names[to.GUTTERS]),
        (translate("CheckGrades", "CRS"), describe_crs(to.design.crs)),
        (
            translate("CheckGrades", "Units"),
            translate("CheckGrades", "plan {plan}, heights {vertical}").format(
                plan=unit.name, vertical=vertical.name
            ),
        ),
        (translate("CheckGrades", "Margin for near misses"), percent(to.asked.near)),
        (
            translate("CheckGrades", "Largest move of a zone border"),
            f"{rows.largest_move:.2g} {unit.symbol}",
        ),
        (
            translate("CheckGrades", "Forgiven"),
            translate("CheckGrades", "rounding of coordinates to {step} {unit}").format(
                step=f"{to.asked.step:g}", unit=unit.symbol
            )
            if to.asked.step
            else translate("CheckGrades", "nothing but the last digit of the numbers themselves"),
        ),
    ]


def _limit_of(rows: "Rows", name: str) -> str:
    return next(
        (limit_words(limit) for limit in rows.algorithm.asked.limits if limit.rule == name), ""
    )


def _entries(rows: "Rows") -> list[Entry]:
    entries = []
    for row in rows.found.rows:
        f = row.figures
        failed = f"{100 * f.failed / f.checked:.3g} %" if f.checked > 0 else ""
        x, y = f.place or (math.nan, math.nan)
        entries.append(
            Entry(
                _zone(rows, row.limit.zone),
                measure_words(row.limit.measure),
                _asked(row.limit),
                verdict_words(row.verdict),
                f"{row.zone_area:,.1f}",
                f"{f.checked:,.1f}",
                f"{f.failed:,.2f}",
                failed,
                f"{f.near:,.2f}",
                *(_grade(v) for v in (f.least, f.greatest, f.mean, f.worst)),
                f"{x:.2f}, {y:.2f}" if f.place else "",
            )
        )
    for one in rows.found.breaks:
        known = len(one.edges) > 0
        most = float(one.change.max()) if known else math.nan
        least = float(one.change.min()) if known else math.nan
        whole, failed_length = one.length(), one.failed
        where = ""
        if known:
            x, y = one.breaks.middles[one.edges[int(one.change.argmax())]]
            where = f"{x:.2f}, {y:.2f}"
        entries.append(
            Entry(
                _zone(rows, one.limit.zone),
                measure_words(one.limit.measure),
                _asked(one.limit),
                verdict_words(one.verdict),
                "",
                translate("CheckGrades", "{length} long").format(length=f"{whole:,.1f}"),
                translate("CheckGrades", "{length} long").format(length=f"{failed_length:,.2f}"),
                f"{100 * failed_length / whole:.3g} %" if whole > 0 else "",
                "",
                _grade(least),
                _grade(most),
                "",
                _grade(most),
                where,
            )
        )
    return entries


def _asked(limit) -> str:
    words = limit_words(limit)
    return f"{words}; {limit.rule}" if limit.rule else words


def _grade(value: float) -> str:
    return "" if math.isnan(value) else percent(value)


def _zone(rows: "Rows", zone: int) -> str:
    """Return a zone by its number in the plan and its name."""
    name = rows.zone(zone)[1]
    return name if zone == EVERYWHERE else f"{zone + 1} {name}"


def _outline(design: Tin | RasterSource) -> shapely.Geometry:
    """Return the outline of a surface that is one zone."""
    if isinstance(design, Tin):
        (shape,) = outlines_of_faces(
            design, np.zeros(len(design.faces), np.int64), design.vertices, 1
        )
        return shapely.Polygon() if shape is None else shape
    t = design.transform
    corners = np.array(
        [(0, 0), (design.width, 0), (design.width, design.height), (0, design.height)]
    )
    x = t[0] + corners @ (t[1], t[2])
    y = t[3] + corners @ (t[4], t[5])
    return shapely.Polygon(np.column_stack((x, y)))


def _plan(rows: "Rows") -> GradePlan:
    to, found = rows.algorithm, rows.found
    fails, nears, bad = [], [], []
    points: list[tuple[float, float, str]] = []

    def mark(zone: int, place: tuple[float, float], grade: float) -> None:
        number = "" if zone == EVERYWHERE else f"{zone + 1}: "
        points.append((*place, f"{number}{100 * grade:.2f} %"))

    for row in found.rows:
        fails += [one.shape for one in row.areas if one.fails]
        nears += [one.shape for one in row.areas if not (one.fails or one.thin)]
        if row.verdict in (FAIL, NEAR) and row.figures.place:
            mark(row.limit.zone, row.figures.place, row.figures.worst)
    for one in found.breaks:
        wrong = one.edges[one.code >= FIRST_FAIL]
        bad += list(shapely.linestrings(one.breaks.ends[wrong][:, :, :2]))
        if len(wrong):
            at = int(one.change.argmax())
            x, y = np.asarray(one.breaks.middles[one.edges[at]]).tolist()
            mark(one.limit.zone, (x, y), float(one.change[at]))
    zones = [_outline(to.design.data)] if to.zones is None else list(to.zones.polygons)
    lines = [] if to.asked.lines is None else list(to.asked.lines.geometries)
    return GradePlan(zones, fails, nears, bad, lines, points[:MOST_POINTS], to.job.plan)
