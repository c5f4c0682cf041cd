"""Check the grades of a design against limits, zone by zone."""

from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessingContext,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
)

from ..core.depth.zones import resolve, snapped
from ..core.errors import UndercourseError
from ..core.findings import Finding
from ..core.lines.bundle import Lines
from ..core.measure.grade_check import Asked, GradeCheck, check_grid, check_tin
from ..core.measure.grade_rules import Measure
from ..core.text import translate
from ..core.tin import Tin
from ..core.units import METRE, parse_grade, parse_length
from ..layers.fields import fields
from ..layers.lines import read_lines
from ..layers.rasters import RasterSource
from ..layers.tables import texts_of, usual_field
from ..styles import style_checked, style_checked_areas
from .base import UndercourseAlgorithm
from .check_grades_limits import Limits, Zoned, fault_of_limits
from .check_grades_page import grades_page
from .check_grades_parameters import add_parameters
from .check_grades_rows import AREA_COLUMNS, BREAK_COLUMNS, SUMMARY_COLUMNS, Rows
from .parameters import about
from .zone_inputs import read_zones
from .zone_parameters import PRIORITY_FIELD
from .zone_values import read_tolerance

MOST_PIXELS = 8_000_000
"""Pixels of a raster that are checked at once: about 3.5 GB."""


class CheckGrades(UndercourseAlgorithm):
    """Grades of a design against limits."""

    name_id = "check_grades"
    group_id = "checks"

    DESIGN = "DESIGN"
    ZONES = "ZONES"
    LINES = "LINES"
    RULE = "RULE"
    RULE_FIELD = "RULE_FIELD"
    ALONG = "ALONG"
    MIN_GRADE = "MIN_GRADE"
    MAX_GRADE = "MAX_GRADE"
    MIN_FIELD = "MIN_FIELD"
    MAX_FIELD = "MAX_FIELD"
    NEAR = "NEAR"
    GUTTERS = "GUTTERS"
    MAX_CHANGE = "MAX_CHANGE"
    GUTTER_WIDTH = "GUTTER_WIDTH"
    REACH = "REACH"
    NARROW = "NARROW"
    ROUNDING = "ROUNDING"
    RULES = "RULES"
    NAME_FIELD = "NAME_FIELD"
    OUTPUT = "OUTPUT"
    BREAKS = "BREAKS"
    SUMMARY = "SUMMARY"
    HTML = "HTML"

    def title(self) -> str:
        return translate("CheckGrades", "Check grades")

    def summary(self) -> str:
        return translate(
            "CheckGrades",
            "Judges the grades of a design zone by zone, at their steepest or along and across lines, against limits of your own or named rules with their source, and shows what fails and what nearly does.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "CheckGrades",
                "A TIN is judged face by face, exactly: zones cut its faces, and each piece keeps the grade of its face. A raster is judged pixel by pixel: the grade of a pixel is that of Horn's rule over its eight neighbours, a pixel without all of them is not judged, and it belongs to the zone that holds its centre. A grade fails when it misses its limit by more than the coordinates can be off for rounding: 1:48 passes a limit of 1:48, 2.1 % does not.",
            ),
            translate(
                "CheckGrades",
                "Along and across, the grade of a face is resolved along and square to the nearest line at its centre, and judged by its size. Round the outside of a corner of the line the direction turns evenly. Where the verdict hangs on which place of a line is meant, the area is told.",
            ),
            translate(
                "CheckGrades",
                "The rules that come with the plugin state limits of the 2010 ADA Standards and of PROWAG (36 CFR 1190) with their sections. They are an aid: which of them apply, exceptions, and local codes are for licensed practice to decide, and what was built is for a survey to show.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "CheckGrades",
            "check,verify,grade,slope,cross slope,running slope,ADA,PROWAG,accessibility,compliance,ramp,walk,gutter,counter slope,percent,drainage",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        for name in (self.REACH, self.NARROW, self.ROUNDING, self.GUTTER_WIDTH):
            text = self.text(parameters, name, context)
            if text and parse_length(text, METRE) < 0:
                return about(
                    self.parameterDefinition(name),
                    translate("CheckGrades", "it cannot be negative."),
                )
        if self.is_blank(parameters, self.ZONES):
            for name in (self.RULE_FIELD, self.MIN_FIELD, self.MAX_FIELD):
                if self.text(parameters, name, context):
                    return about(
                        self.parameterDefinition(name),
                        translate("CheckGrades", "it is a field of the zones, but there are none: choose the zones."),  # noqa: E501
                    )  # fmt: skip
        return fault_of_limits(self, parameters, context)

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.layer_names: dict[str, str] = {}
        self.design = self.layer_surface(parameters, self.DESIGN, context, feedback)
        self.job = self.units(self.design, parameters, context)
        self.tolerance = read_tolerance(self, parameters, context, self.job)
        zoned = self._read_zones(parameters, context, feedback)
        self.rules = Limits(self, parameters, context)
        limits = self.rules.of_zones(zoned, feedback)
        lines, _ = self._read_lines(parameters, self.LINES, context, feedback)
        gutters, self.gutter_names = self._read_lines(parameters, self.GUTTERS, context, feedback)
        breaks = [limit for limit in limits if limit.measure is Measure.BREAK]
        if gutters is not None and not breaks:
            limits.append(self.rules.of_gutters())
        self._demand_lines(limits, lines, gutters)
        unit = self.job.plan
        length = {
            name: self.length_value(parameters, name, context, unit)
            for name in (self.REACH, self.NARROW, self.ROUNDING, self.GUTTER_WIDTH)
        }
        reach = length[self.REACH]
        self.asked = Asked(
            limits,
            parse_grade(self.text(parameters, self.NEAR, context) or 0.0) / 100.0,
            lines,
            np.inf if reach is None else reach,
            length[self.NARROW] or 0.0,
            gutters,
            length[self.GUTTER_WIDTH] or self.tolerance.snap,
            length[self.ROUNDING] or 0.0,
            self.job.vertical.to(unit),
        )

    def _read_zones(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> Zoned | None:
        """Read the zones and make them disjoint; None without any."""
        source = self.source(parameters, self.ZONES, context)
        self._remember(self.ZONES, source)
        self.zones, self.names = None, [translate("CheckGrades", "Whole design")]
        if source is None:
            return None
        zones = read_zones(
            source,
            "",
            0.0,
            self.text(parameters, PRIORITY_FIELD, context),
            unit=self.job.vertical,
            crs=self.design.crs,
            context=context,
            feedback=feedback,
        )
        self.zones = resolve(zones, self.tolerance)
        field = self.text(parameters, self.NAME_FIELD, context) or usual_field(source, "name")
        named = texts_of(source, field, zones.ids)
        self.names = [
            name or translate("CheckGrades", "zone {id}").format(id=identifier)
            for name, identifier in zip(named, zones.ids, strict=True)
        ]
        return Zoned(source, zones.ids, self.names)

    def _remember(self, name: str, source: QgsProcessingFeatureSource | None) -> None:
        """Keep what a layer is called, for the report."""
        none = translate("CheckGrades", "none")
        self.layer_names[name] = none if source is None else source.sourceName()

    def _read_lines(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> tuple[Lines | None, list[str]]:
        source = self.source(parameters, name, context)
        self._remember(name, source)
        if source is None:
            return None, []
        label = self.parameterDefinition(name).description()
        # A tenth of a millimetre between an arc and its chords: directions hold within 0.3 degrees
        # on a curb return, grades across within hundredths of the grade along.
        small = 1e-4 / self.job.plan.metres
        table = read_lines(
            source,
            crs=self.design.crs,
            context=context,
            feedback=feedback,
            chord=small,
            name=label,
        )
        if not len(table):
            raise UndercourseError(
                translate("CheckGrades", "{label}: there is no line in it.").format(label=label)
            )
        called = texts_of(source, usual_field(source, "name"), table.ids)
        names = [
            text or translate("CheckGrades", "line {id}").format(id=identifier)
            for text, identifier in zip(called, table.ids, strict=True)
        ]
        return Lines.from_arrays(table.coordinates, small), names

    def _demand_lines(self, limits: list, lines: Lines | None, gutters: Lines | None) -> None:
        measures = {limit.measure for limit in limits}
        if lines is None and measures & {Measure.ALONG, Measure.ACROSS}:
            raise UndercourseError(
                translate(
                    "CheckGrades",
                    "Grades along or across need lines: choose the lines of travel, or judge the steepest slope.",
                )
            )
        if Measure.BREAK not in measures:
            return
        if gutters is None:
            raise UndercourseError(
                translate(
                    "CheckGrades",
                    "A rule for changes of grade needs the gutter lines: choose them, or take the rule away.",
                )
            )
        if isinstance(self.design.data, RasterSource):
            raise UndercourseError(
                translate(
                    "CheckGrades",
                    "Changes of grade at gutters need a TIN, since a raster has no edges: choose the TIN of the design, or leave the gutter lines out.",
                )
            )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        page = self.file(parameters, self.HTML, context)
        found = self._checked(feedback)
        findings = list(found.findings)
        if self.zones is not None:
            findings += snapped(self.zones)
        rows = Rows(self, found, findings)
        results: dict[str, Any] = dict(rows.numbers())
        rows.tell(feedback)
        crs = self.design.crs
        kind = Qgis.WkbType.MultiPolygon
        sink = self.sink(parameters, self.OUTPUT, context, fields(*AREA_COLUMNS), kind, crs)
        if sink is not None:
            with sink:
                sink.add_many(rows.areas())
            title = translate("CheckGrades", "Grades that fail or nearly fail")
            self.named_output(context, sink.id, title, style_checked_areas)
            results[self.OUTPUT] = sink.id
        kind = Qgis.WkbType.LineStringZ
        sink = self.sink(parameters, self.BREAKS, context, fields(*BREAK_COLUMNS), kind, crs)
        if sink is not None:
            with sink:
                sink.add_many(rows.breaks())
            title = translate("CheckGrades", "Changes of grade at gutters")
            self.named_output(context, sink.id, title, style_checked)
            results[self.BREAKS] = sink.id
        kind = Qgis.WkbType.NoGeometry
        sink = self.sink(parameters, self.SUMMARY, context, fields(*SUMMARY_COLUMNS), kind, crs)
        if sink is not None:
            with sink:
                sink.add_many(rows.summary())
            self.named_output(context, sink.id, translate("CheckGrades", "Grades by zone"))
            results[self.SUMMARY] = sink.id
        if page:
            grades_page(rows).write(page)
            results[self.HTML] = page
        return results

    def _checked(self, feedback: QgsProcessingFeedback) -> GradeCheck:
        progress = self.progress(feedback, 0.05, 0.9)
        polygons = None if self.zones is None else self.zones.polygons
        data = self.design.data
        if isinstance(data, Tin):
            return check_tin(data, polygons, self.asked, self.tolerance, progress)
        if data.width * data.height > MOST_PIXELS:
            raise UndercourseError(
                translate(
                    "CheckGrades",
                    "The raster has {count:,} pixels, more than {most:,}: clip it, or make its pixels larger.",
                ).format(count=data.width * data.height, most=MOST_PIXELS)
            )
        with data.opened():
            window = data.read(0, 0, data.width, data.height)
        heights = np.where(data.missing(window), np.nan, window.astype(float))
        largest = float(np.nanmax(np.abs(heights))) if np.isfinite(heights).any() else 0.0
        last_digit = 1.0
        if window.dtype.kind == "f":
            last_digit = float(np.spacing(window.dtype.type(largest)))
        found = check_grid(heights, data.transform, polygons, self.asked, last_digit, progress)
        why = translate(
            "CheckGrades",
            "Judged pixel by pixel (Horn's rule): what is narrower than about three pixels, such as a curb, is smoothed over. Take the TIN where there is one.",
        )
        found.findings.append(Finding("raster", why))
        return found
