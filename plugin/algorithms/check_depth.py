"""Check whether the depth asked for below a design is there, zone by zone."""

from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessingContext,
    QgsProcessingFeedback,
)

from ..core.errors import LengthTextError
from ..core.findings import Finding
from ..core.measure.depth import SLACK_METRES, Verdict
from ..core.measure.fitness import overlaps_of
from ..core.measure.limits import parse_limits
from ..core.text import translate
from ..core.tin import Tin
from ..core.tolerance import Tolerance
from ..core.units import METRE, describe_length
from ..documents.depth_check_report import Checked, depth_check_report, verdict
from ..documents.depth_check_words import FAIL, LineOutcome
from ..layers.crs import describe_crs
from ..layers.fields import fields
from ..layers.surfaces import Surface
from ..layers.tables import usual_field
from ..styles import style_depth_check, style_flagged
from .base import UndercourseAlgorithm
from .check_depth_cover import check_cover, read_cover_lines
from .check_depth_ground import Ground, Points, check_ground, check_points, why_not_text
from .check_depth_inputs import read_actual, read_task
from .check_depth_parameters import add_parameters
from .check_depth_rows import (
    GROUND_COLUMNS,
    POINT_COLUMNS,
    SUMMARY_COLUMNS,
    WORST_COLUMNS,
    counts_of,
    ground_rows,
    line_row,
    point_rows,
    summary_row,
    worst_of_ground,
    worst_of_lines,
    worst_of_points,
)
from .measured_zones import NAME_FIELD, PRIORITY_FIELD, ZONES
from .parameters import about

MOST_LOGGED = 30


class CheckDepth(UndercourseAlgorithm):
    """Depths beside what is asked for."""

    name_id = "check_depth"
    group_id = "checks"

    DESIGN = "DESIGN"
    ACTUAL = "ACTUAL"
    HEIGHT_FIELD = "HEIGHT_FIELD"
    ZONES = ZONES
    NAME_FIELD = NAME_FIELD
    PRIORITY_FIELD = PRIORITY_FIELD
    DEPTH = "DEPTH"
    DEPTH_FIELD = "DEPTH_FIELD"
    TOLERANCE = "TOLERANCE"
    TOLERANCE_FIELD = "TOLERANCE_FIELD"
    LINES = "LINES"
    COVER = "COVER"
    NARROW = "NARROW"
    OUTPUT = "OUTPUT"
    WORST = "WORST"
    SUMMARY = "SUMMARY"
    HTML = "HTML"

    def title(self) -> str:
        return translate("CheckDepth", "Check depths")

    def summary(self) -> str:
        return translate(
            "CheckDepth",
            "Compares a surface or surveyed points with the depth asked for below the design, zone by zone, and says where it is too shallow or too deep, by how much, and whether each zone passes.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "CheckDepth",
                "Depth is measured vertically, design less actual, positive below the design. The deviation is depth found less depth asked: + is deeper, - is shallower. The tolerance may differ for the two: -0 / +0.05 ft lets nothing be shallower.",
            ),
            translate(
                "CheckDepth",
                "Two TINs are compared exactly: areas that pass and fail end where the depth crosses its limit, and the worst place of each region is the very point. With a raster, each pixel counts with the depth at its centre. Points are compared one by one; those that cannot be are listed with the reason.",
            ),
            translate(
                "CheckDepth",
                "A zone passes when everything in it was compared and lies within tolerance. Where a part has no data it is incomplete, not a pass.",
            ),
            translate(
                "CheckDepth",
                "Over lines with heights (a pipe) it gives the least cover below the design, where it is, and how long the cover is too little.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "CheckDepth",
            "depth,check,tolerance,as-built,topsoil,subgrade,cover,pipe,pass,fail,residual,points,review",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        blank = {
            name: self.is_blank(parameters, name)
            for name in (self.ACTUAL, self.LINES, self.ZONES, self.DEPTH, self.COVER)
        }
        if blank[self.ACTUAL] and blank[self.LINES]:
            return translate(
                "CheckDepth",
                "There is nothing to check: choose the actual surface or points, or lines that need cover.",
            )
        if not blank[self.LINES] and blank[self.COVER] and blank[self.DEPTH]:
            return translate(
                "CheckDepth", "Give the cover asked for over the lines, or a depth asked for."
            )
        if not blank[self.ACTUAL] and blank[self.DEPTH] and not self._depth_field(parameters, context):  # noqa: E501  # fmt: skip
            return translate(
                "CheckDepth",
                "There is no depth to check against: give a depth asked for, or zones with a field of depths.",
            )
        try:
            parse_limits(self.text(parameters, self.TOLERANCE, context), METRE)
        except LengthTextError as error:
            return about(self.parameterDefinition(self.TOLERANCE), str(error))
        return None

    def _depth_field(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str:
        field = self.text(parameters, self.DEPTH_FIELD, context)
        source = self.source(parameters, self.ZONES, context)
        if source is None or field or self.text(parameters, self.DEPTH, context):
            return field if source is not None else ""
        return usual_field(source, "depth")

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.design = self.layer_surface(parameters, self.DESIGN, context, feedback)
        self.job = self.units(self.design, parameters, context)
        depth = self.length_value(parameters, self.DEPTH, context, self.job.vertical)
        given = (self, parameters, context, feedback)
        self.actual = self.task = None
        if not self.is_blank(parameters, self.ACTUAL):
            self.actual = read_actual(*given, self.design.crs, self.job.vertical)
            field = self._depth_field(parameters, context)
            self.task = read_task(*given, self.design, self.job, field, depth)
        cover = self.length_value(parameters, self.COVER, context, self.job.vertical)
        asked = cover if cover is not None else depth
        self.lines = read_cover_lines(*given, self.design.crs, self.job, asked)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        page = self.file(parameters, self.HTML, context)
        findings = self._faults()
        progress = self.progress(feedback, 0.05, 0.8)
        ground = points = None
        if isinstance(self.actual, Surface):
            ground = check_ground(self.task, self.actual, progress)
        elif self.actual is not None:
            points = check_points(self.task, self.actual.ids, self.actual.xyz)
        lines = []
        if self.lines is not None:
            progress = self.progress(feedback, 0.8, 0.9)
            lines = check_cover(self.lines, self.design, self.job, progress)
        checked = self._checked(ground, points, lines, findings)
        told, clean = verdict(checked)
        for number, text in enumerate(told[:MOST_LOGGED]):
            (feedback.pushInfo if clean or number else feedback.pushWarning)(text)
        for finding in findings:
            self.warn(feedback, finding.why)
        results: dict[str, Any] = self._numbers(checked, ground)
        results |= self._write(parameters, context, ground, points, checked)
        if page:
            depth_check_report(self._about(), checked).write(page)
            results[self.HTML] = page
        return results

    def _faults(self) -> list[Finding]:
        tolerance = Tolerance.for_unit(self.job.plan.metres)
        found = list(self.task.measured.findings) if self.task and self.task.measured else []
        for surface in (self.design, self.actual):
            if isinstance(surface, Surface) and isinstance(surface.data, Tin):
                found += overlaps_of(surface.data, surface.name, tolerance)
        return found

    def _checked(
        self,
        ground: Ground | None,
        points: Points | None,
        lines: list[LineOutcome],
        findings: list[Finding],
    ) -> Checked:
        found = ground or points
        zones = self.task.measured.zones if self.task and self.task.measured else None
        places, unmatched = [], []
        if points is not None:
            failing = np.flatnonzero(points.verdict > Verdict.PASS)
            failing = failing[np.argsort(-np.abs(points.deviation[failing]), kind="stable")]
            places = [(*points.xyz[k, :2].tolist(), f"{points.deviation[k]:+.2f}") for k in failing]
            unmatched = [
                (str(one), why_not_text(code))
                for one, code in zip(points.ids.tolist(), points.why_not, strict=True)
                if code
            ]
        return Checked(
            found.outcomes if found else [],
            found.total if found else None,
            lines,
            ground.parts if ground else [],
            ground.shapes if ground else None,
            list(zones.polygons) if zones is not None else [],
            places,
            unmatched,
            findings,
            self.job,
            self._method(ground),
        )

    def _numbers(self, checked: Checked, ground: Ground | None) -> dict[str, Any]:
        total = checked.total
        measure = total.found.measure if ground else np.zeros(3)
        covers = [line.least for line in checked.lines if np.isfinite(line.least)]
        results: dict[str, Any] = dict(counts_of(checked.zones))
        if total is not None and total.found.checked:
            results["PASS_SHARE"] = 100 * total.found.share
        results |= {
            "SHALLOW_AREA": float(measure[Verdict.SHALLOW]),
            "DEEP_AREA": float(measure[Verdict.DEEP]),
            "UNMATCHED_COUNT": len(checked.unmatched),
            "LINE_FAIL_COUNT": sum(line.state == FAIL for line in checked.lines),
        }
        if covers:
            results["LEAST_COVER"] = min(covers)
        return results

    def _write(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        ground: Ground | None,
        points: Points | None,
        checked: Checked,
    ) -> dict[str, Any]:
        results: dict[str, Any] = {}
        worst = [*worst_of_lines(checked.lines, self.job)]
        outputs = []
        if ground is not None:
            rows = ground_rows(self.task, ground)
            kind = Qgis.WkbType.MultiPolygon
            outputs.append((self.OUTPUT, GROUND_COLUMNS, kind, rows, style_depth_check))
            worst = [*worst_of_ground(self.task, ground.parts), *worst]
        elif points is not None:
            rows = point_rows(self.task, points)
            kind = Qgis.WkbType.PointZ
            outputs.append((self.OUTPUT, POINT_COLUMNS, kind, rows, style_depth_check))
            worst = [*worst_of_points(self.task, points), *worst]
        table = [(None, summary_row(zone, self.job, "zone")) for zone in checked.zones]
        if checked.total is not None:
            table.append((None, summary_row(checked.total, self.job, "total")))
        table += [(None, line_row(line, self.job)) for line in checked.lines]
        outputs.append((self.WORST, WORST_COLUMNS, Qgis.WkbType.Point, worst, style_flagged))
        outputs.append((self.SUMMARY, SUMMARY_COLUMNS, Qgis.WkbType.NoGeometry, table, None))
        titles = {
            self.OUTPUT: translate("CheckDepth", "Checked depths, {name}"),
            self.WORST: translate("CheckDepth", "Worst places, {name}"),
            self.SUMMARY: translate("CheckDepth", "Depths by zone, {name}"),
        }
        for name, columns, kind, rows, style in outputs:
            sink = self.sink(parameters, name, context, fields(*columns), kind, self.design.crs)
            if sink is None:
                continue
            with sink:
                sink.add_many(rows)
            self.named_output(context, sink.id, titles[name].format(name=self._what()), style)
            results[name] = sink.id
        return results

    def _what(self) -> str:
        """Return the name of what is checked."""
        return self.lines.layer if self.actual is None else self.actual.name

    def _method(self, ground: Ground | None) -> str:
        slack = describe_length(SLACK_METRES / self.job.vertical.metres, self.job.vertical)
        told = [
            translate(
                "CheckDepth",
                "Depth found is the height of the design less that of what was checked, vertically. A depth within {slack} of a limit keeps it.",
            ).format(slack=slack)
        ]
        if ground is not None:
            if ground.pixel:
                text = translate("CheckDepth", "Compared in pixels {pixel} wide, by the depth at their centres.")  # noqa: E501  # fmt: skip
                told.append(text.format(pixel=describe_length(ground.pixel, self.job.plan)))
            else:
                told.append(
                    translate(
                        "CheckDepth",
                        "Both surfaces are TINs: areas were cut where the depth crosses its limits, exactly, and the worst places are corners of the cells of both.",
                    )
                )
            if self.task.narrow:
                text = translate("CheckDepth", "Failing strips nowhere wider than {width} were not judged.")  # noqa: E501  # fmt: skip
                told.append(text.format(width=describe_length(self.task.narrow, self.job.plan)))
        return " ".join(told)

    def _about(self) -> list[tuple[str, str]]:
        made = [(translate("CheckDepth", "Design"), self.design.name)]
        if isinstance(self.actual, Surface):
            made.append((translate("CheckDepth", "Actual surface"), self.actual.name))
        elif self.actual is not None:
            made.append((translate("CheckDepth", "Actual points"), self.actual.name))
        if self.task is not None and self.task.measured is not None:
            made.append((translate("CheckDepth", "Zones"), self.task.measured.layer))
        if self.lines is not None:
            made.append((translate("CheckDepth", "Lines"), self.lines.layer))
        return [
            *made,
            (translate("CheckDepth", "CRS"), describe_crs(self.design.crs)),
            (translate("CheckDepth", "Plan unit"), self.job.plan.name),
            (translate("CheckDepth", "Unit of heights"), self.job.vertical.name),
        ]
