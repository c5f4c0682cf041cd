"""Checked grades as rows with attributes, in the log and in the report."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

import numpy as np
from qgis.core import QgsGeometry, QgsProcessingFeedback

from ..core.findings import Finding
from ..core.measure.fail_areas import FLAGS, Area
from ..core.measure.grade_check import (
    EVERYWHERE,
    FAIL,
    NEAR,
    PASS,
    UNCHECKED,
    BreakRow,
    GradeCheck,
    Row,
)
from ..core.measure.grades import FIRST_FAIL, Code, margin
from ..core.text import translate
from ..layers.lines import line_geometry
from ..layers.polygons import polygon_geometry
from .check_grades_story import of_area, of_break, of_breaks, of_row

if TYPE_CHECKING:
    from .check_grades import CheckGrades

AREA_COLUMNS = (
    ("zone_id", int),
    ("zone", str),
    ("rule", str),
    ("measure", str),
    ("result", str),
    ("flag", str),
    ("grade_min", float),
    ("grade_max", float),
    ("grade_mean", float),
    ("limit_min", float),
    ("limit_max", float),
    ("over", float),
    ("area", float),
    ("width", float),
    ("x", float),
    ("y", float),
    ("why", str),
)
BREAK_COLUMNS = (
    ("zone_id", int),
    ("zone", str),
    ("line", str),
    ("rule", str),
    ("result", str),
    ("flag", str),
    ("change", float),
    ("grade_left", float),
    ("grade_right", float),
    ("limit_max", float),
    ("over", float),
    ("length", float),
    ("why", str),
)
SUMMARY_COLUMNS = (
    ("zone_id", int),
    ("zone", str),
    ("rule", str),
    ("source", str),
    ("measure", str),
    ("limit_min", float),
    ("limit_max", float),
    ("result", str),
    ("area", float),
    ("area_checked", float),
    ("fail_area", float),
    ("fail_share", float),
    ("just_area", float),
    ("near_area", float),
    ("thin_area", float),
    ("grade_min", float),
    ("grade_max", float),
    ("grade_mean", float),
    ("worst", float),
    ("x", float),
    ("y", float),
    ("length_checked", float),
    ("length_fail", float),
    ("verdict", str),
)
MOST_LOGGED = 20


class Rows:
    """Turns a check into attributes, sentences and a report."""

    def __init__(
        self, algorithm: "CheckGrades", found: GradeCheck, findings: list[Finding]
    ) -> None:
        self.algorithm, self.found = algorithm, found
        ids = None if algorithm.zones is None else algorithm.zones.ids
        self.ids = ids
        self.findings = findings
        self.verdicts = [one.verdict for one in (*found.rows, *found.breaks)]

    def zone(self, number: int) -> tuple[int | None, str]:
        """Return the id and the name of a zone."""
        if number == EVERYWHERE:
            return None, translate("CheckGrades", "All gutters")
        identifier = None if self.ids is None else int(self.ids[number])
        return identifier, self.algorithm.names[number]

    def numbers(self) -> dict[str, float]:
        """Return the counts and totals."""
        rows, breaks = self.found.rows, self.found.breaks
        checked: dict[int, float] = {}
        for row in rows:
            zone = row.limit.zone
            checked[zone] = max(checked.get(zone, 0.0), row.figures.checked)
        return {
            "PASS_COUNT": self.verdicts.count(PASS),
            "NEAR_COUNT": self.verdicts.count(NEAR),
            "FAIL_COUNT": self.verdicts.count(FAIL),
            "UNCHECKED_COUNT": self.verdicts.count(UNCHECKED),
            "AREA_CHECKED": sum(checked.values()),
            "FAIL_AREA": sum(row.figures.failed for row in rows),
            "FAIL_LENGTH": sum(one.failed for one in breaks),
            "LARGEST_MOVE": self.largest_move,
        }

    @property
    def largest_move(self) -> float:
        """Greatest distance that a border of a zone moved, when joined to another or cut in."""
        zones = self.algorithm.zones
        joined = 0.0 if zones is None else zones.largest_move
        return max(joined, self.found.largest_move)

    def sentences(self) -> list[tuple[str, str]]:
        """Return the verdict and its sentence for each limit."""
        unit = self.algorithm.job.plan
        near = self.algorithm.asked.near
        told = [of_row(row, self.zone(row.limit.zone)[1], near, unit) for row in self.found.rows]
        told += [
            of_breaks(one, self.zone(one.limit.zone)[1], near, unit) for one in self.found.breaks
        ]
        return list(zip(self.verdicts, told, strict=True))

    def tell(self, feedback: QgsProcessingFeedback) -> None:
        """Log the verdicts, what fails first, and what may be wrong."""
        order = (FAIL, UNCHECKED, NEAR, PASS)
        told = sorted(self.sentences(), key=lambda one: order.index(one[0]))
        for verdict, sentence in told[:MOST_LOGGED]:
            (feedback.pushWarning if verdict in order[:2] else feedback.pushInfo)(sentence)
        for finding in self.findings[:MOST_LOGGED]:
            feedback.pushWarning(self.about(finding))

    def about(self, finding: Finding) -> str:
        """Return a finding with the name of its zone."""
        if finding.feature is None or self.ids is None:
            return finding.why
        name = self.zone(finding.feature)[1]
        return translate("CheckGrades", "{zone}: {why}").format(zone=name, why=finding.why)

    def areas(self) -> Iterator[tuple[QgsGeometry, list[Any]]]:
        """Yield what fails or nearly does, in the order of `AREA_COLUMNS`."""
        for row in self.found.rows:
            for one in row.areas:
                yield polygon_geometry(one.shape), self._area(row, one)

    def _area(self, row: Row, one: Area) -> list[Any]:
        limit = row.limit
        identifier, name = self.zone(limit.zone)
        result = "thin" if one.thin else FAIL if one.fails else NEAR
        over = float(margin(np.array([one.worst]), limit)[0])
        return [
            identifier,
            name,
            limit.rule or None,
            str(limit.measure),
            result,
            one.flag,
            *(100.0 * value for value in (one.least, one.greatest, one.mean)),
            *(100.0 * value for value in (limit.low, limit.high, over)),
            one.area,
            one.width,
            *one.place,
            of_area(one, limit, self.algorithm.asked.near),
        ]

    def breaks(self) -> Iterator[tuple[QgsGeometry, list[Any]]]:
        """Yield the edges on gutters, in the order of `BREAK_COLUMNS`."""
        for row in self.found.breaks:
            for edge, code in zip(row.edges, row.code, strict=True):
                yield line_geometry(row.breaks.ends[edge]), self._break(row, int(edge), int(code))

    def _break(self, row: BreakRow, edge: int, code: int) -> list[Any]:
        identifier, name = self.zone(row.limit.zone)
        change = float(row.breaks.change[edge])
        return [
            identifier,
            name,
            self.algorithm.gutter_names[int(row.breaks.line[edge])],
            row.limit.rule or None,
            FAIL if code >= FIRST_FAIL else NEAR if code else PASS,
            FLAGS.get(Code(code)),
            100.0 * change,
            100.0 * float(row.breaks.rise_left[edge]),
            100.0 * float(row.breaks.rise_right[edge]),
            100.0 * row.limit.high,
            100.0 * (change - row.limit.high),
            float(row.breaks.length[edge]),
            of_break(change, row.limit, code),
        ]

    def summary(self) -> Iterator[tuple[None, list[Any]]]:
        """Yield one row for each limit, in the order of `SUMMARY_COLUMNS`."""
        sentences = self.sentences()
        count = len(self.found.rows)
        for row, (verdict, sentence) in zip(self.found.rows, sentences[:count], strict=True):
            f = row.figures
            place = f.place or (None, None)
            share = 100.0 * f.failed / f.checked if f.checked > 0 else None
            yield (
                None,
                [
                    *self._head(row.limit, verdict),
                    row.zone_area,
                    f.checked,
                    f.failed,
                    share,
                    f.just,
                    f.near,
                    row.thin,
                    *(100.0 * value for value in (f.least, f.greatest, f.mean, f.worst)),
                    *place,
                    None,
                    None,
                    sentence,
                ],
            )
        for one, (verdict, sentence) in zip(self.found.breaks, sentences[count:], strict=True):
            change = one.change
            known = len(change) > 0
            least, most = (float(change.min()), float(change.max())) if known else (None, None)
            x, y = one.breaks.middles[one.edges[change.argmax()]] if known else (None, None)
            percent = [None if value is None else 100.0 * value for value in (least, most)]
            yield (
                None,
                [
                    *self._head(one.limit, verdict),
                    *[None] * 7,
                    *percent,
                    None,
                    percent[1],
                    x,
                    y,
                    one.length(),
                    one.failed,
                    sentence,
                ],
            )

    def _head(self, limit: Any, verdict: str) -> list[Any]:
        rule = self.algorithm.rules.used.get(limit.rule)
        return [
            *self.zone(limit.zone),
            limit.rule or None,
            rule.source if rule else None,
            str(limit.measure),
            100.0 * limit.low,
            100.0 * limit.high,
            verdict,
        ]
