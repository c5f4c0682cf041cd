"""Find the lines along which the slope of a design changes."""

from dataclasses import replace
from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterNumber,
)

from ..core.breaks import KINDS, BreakLines, Kind, Measure, Search, find_breaks
from ..core.breaks.patches import grow
from ..core.errors import UndercourseError
from ..core.text import translate
from ..core.tin.pixels import of_pixels
from ..core.units import METRE
from ..layers.crs import JobUnits
from ..layers.fields import fields
from ..layers.rasters import RasterSource
from ..styles import style_breaks, style_patches
from .base import UndercourseAlgorithm
from .slope_patches import PATCH_COLUMNS, patch_rows
from .slope_rows import COLUMNS, figures, in_plan, kind_labels, rows

MOST_PIXELS = 4_000_000
"""Pixels of a raster that are triangulated at once: about 2 GB."""


class SlopeBreaks(UndercourseAlgorithm):
    """Slope breaks of a TIN as lines with a kind and the grade on both sides."""

    name_id = "slope_breaks"
    group_id = "slope_breaks"

    DESIGN = "DESIGN"
    MIN_CHANGE = "MIN_CHANGE"
    KEEP_CHANGE = "KEEP_CHANGE"
    TOLERANCE = "TOLERANCE"
    GAP = "GAP"
    MIN_LENGTH = "MIN_LENGTH"
    KINDS = "KINDS"
    MEASURE = "MEASURE"
    BREAKS = "BREAKS"
    PATCHES = "PATCHES"
    PATCH_COUNT = "PATCH_COUNT"
    LARGEST_MOVE = "LARGEST_MOVE"
    COUNT = "COUNT"
    LENGTH = "LENGTH"
    FLAGGED = "FLAGGED"
    UNMEASURED = "UNMEASURED"

    def title(self) -> str:
        return translate("SlopeBreaks", "Slope breaks")

    def summary(self) -> str:
        return translate(
            "SlopeBreaks",
            "Finds the lines along which the slope of a design changes: crowns, flowlines, tops and toes of slope, with the grade on both sides.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "SlopeBreaks",
                "The slope change is measured at every edge between two faces, square to the edge: it is the grade on one side less the grade on the other, walking straight across (the algebraic difference in grade). Edges are joined to lines that go on through a junction along the straightest way (a turn of up to 30 degrees), and that are split where their kind changes.",
            ),
            translate(
                "SlopeBreaks",
                "With a width over which slopes are taken, faces are first joined to patches that one plane fits nearly as well as two: noise of the heights is averaged out, a break spread over a narrow fillet is found once, at its middle, and a cone or a curve that only bends gives no break. Two to three times the size of the triangles is a good width for surveyed ground; narrower features are lost. Zig-zags are straightened, no farther than that width.",
            ),
            translate(
                "SlopeBreaks",
                "Kinds: a ridge falls away on both sides (a crown), a valley rises on both sides (a flowline), a top of slope falls away on one side only, a toe of slope rises on one side only. A side within 0.1 % of level neither rises nor falls, so the rim of a level platform is a top and the rim of a level floor a toe.",
            ),
            translate(
                "SlopeBreaks",
                "Direction of the lines: at a top and a toe the uphill side is on the left and the lower side on the right. Ridges and valleys run downhill; those that are level or closed have their lower side on the right, and where both sides are alike they start at their western end or run counter-clockwise.",
            ),
            translate(
                "SlopeBreaks",
                "Grades of the sides are in percent, square to the line and going away from it: + rises, - falls. Left and right look from the first to the last vertex. Means are weighted by length.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "SlopeBreaks",
            "break,breakline,crease,grade break,ridge,crown,valley,flowline,top of slope,toe of slope,kerb,curb,TIN,mesh",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            self.surface(self.DESIGN, translate("SlopeBreaks", "Design")),
            translate(
                "SlopeBreaks",
                "The surface whose breaks are wanted: a mesh layer, a polygon layer with heights (triangles or planar faces), or a raster of up to 4 million pixels, which is triangulated between the centres of its pixels. Its CRS must be projected.",
            ),
        )
        self.add(
            QgsProcessingParameterNumber(
                self.MIN_CHANGE,
                translate("SlopeBreaks", "Smallest slope change (percent)"),
                Qgis.ProcessingNumberParameterType.Double,
                2.0,
                False,
                0.001,
            ),
            translate(
                "SlopeBreaks",
                "Breaks whose slope changes by less are left out. In percent of grade: 2 % beside 7 % in the same direction is a change of 5, +2 % beside -2 % a change of 4. In degrees where the change is measured as an angle.",
            ),
        )
        self.add(
            QgsProcessingParameterNumber(
                self.KEEP_CHANGE,
                translate("SlopeBreaks", "Slope change that continues a line (percent)"),
                Qgis.ProcessingNumberParameterType.Double,
                None,
                True,
                0.001,
            ),
            translate(
                "SlopeBreaks",
                "A line that reaches the smallest slope change somewhere goes on while its change is at least this. Blank: the smallest slope change itself.",
            ),
        )
        self.add(
            self.length(
                self.TOLERANCE,
                translate("SlopeBreaks", "Width over which slopes are taken"),
                "0",
                plan=True,
            ),
            translate(
                "SlopeBreaks",
                "0 compares face with face, exactly. Greater: patches of about this width and more are compared, so that noise and fillets do not tear lines apart.",
            ),
        )
        self.add(
            self.length(
                self.GAP, translate("SlopeBreaks", "Longest gap to bridge"), "0", plan=True
            ),
            translate(
                "SlopeBreaks",
                "Ends of lines that run on towards each other, both convex or both concave, are joined over gaps up to this.",
            ),
            advanced=True,
        )
        self.add(
            self.length(self.MIN_LENGTH, translate("SlopeBreaks", "Shortest line"), "0"),
            translate(
                "SlopeBreaks",
                "Lines shorter than this in plan are left out, after edges have been joined. With a unit, or in the unit of the CRS: 5 ft, 1.5 m. 0 keeps all.",
            ),
        )
        self.add(
            self.choice(
                self.KINDS,
                translate("SlopeBreaks", "Kinds"),
                kind_labels(),
                [str(kind) for kind in KINDS],
                multiple=True,
            ),
            translate(
                "SlopeBreaks",
                "Kinds of breaks to keep. The lines of one kind are the same whatever other kinds are kept.",
            ),
        )
        self.add(
            self.choice(
                self.MEASURE,
                translate("SlopeBreaks", "Slope change measured as"),
                {
                    str(Measure.GRADE): translate("SlopeBreaks", "Difference in grade, percent"),
                    str(Measure.ANGLE): translate(
                        "SlopeBreaks", "Angle between the faces, degrees"
                    ),
                },
                str(Measure.GRADE),
            ),
            translate(
                "SlopeBreaks",
                "What the smallest slope change is given in. The angle is the one between the normals of the two faces, as mesh programs measure it.",
            ),
            advanced=True,
        )
        self.add(self.vertical_unit(), advanced=True)
        self.add(
            QgsProcessingParameterFeatureSink(
                self.BREAKS,
                translate("SlopeBreaks", "Slope breaks"),
                QgsProcessing.SourceType.TypeVectorLine,
            ),
            translate(
                "SlopeBreaks",
                "Lines with heights and the fields: kind; change, change_min, change_max (size of the slope change, percent: mean, smallest, largest); grade_left, grade_right and their least and greatest values (percent, + rises away from the line); angle (degrees, mean); length (in plan, CRS unit); z_start, z_end; fall (z_start less z_end, + falls along the line); confidence (percent of the length whose change is beyond doubt, from how uneven the patches are), bridged (length of gaps); flag and why for lines to look at. Figures beside an upright face are empty.",
            ),
        )
        self.add(
            QgsProcessingParameterFeatureSink(
                self.PATCHES,
                translate("SlopeBreaks", "Patches of one slope"),
                QgsProcessing.SourceType.TypeVectorPolygon,
                None,
                True,
            ),
            translate(
                "SlopeBreaks",
                "Areas between breaks that one plane fits, with the fields: patch, grade (percent), fall_bearing (downhill, clockwise from grid north), area, residual (root mean square height from the plane), faces. They cover the design without gaps, but for upright faces. Without a width over which slopes are taken they are the flat parts of the design.",
            ),
        )
        for name, label in self._numbers().items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def _numbers(self) -> dict[str, str]:
        numbers = {
            self.COUNT: translate("SlopeBreaks", "Number of lines"),
            self.LENGTH: translate("SlopeBreaks", "Length of all lines (CRS unit)"),
            self.FLAGGED: translate("SlopeBreaks", "Number of flagged lines"),
            self.UNMEASURED: translate("SlopeBreaks", "Number of edges that cannot be measured"),
            self.PATCH_COUNT: translate("SlopeBreaks", "Number of patches"),
            self.LARGEST_MOVE: translate("SlopeBreaks", "Largest move of a vertex (CRS unit)"),
        }
        for kind, label in kind_labels().items():
            numbers[f"{kind.upper()}_COUNT"] = translate("SlopeBreaks", "{kind}: lines").format(
                kind=label
            )
            numbers[f"{kind.upper()}_LENGTH"] = translate("SlopeBreaks", "{kind}: length").format(
                kind=label
            )
        return numbers

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.design = self.layer_surface(parameters, self.DESIGN, context, feedback)
        source = self.design.data
        if isinstance(source, RasterSource):
            if source.width * source.height > MOST_PIXELS:
                raise UndercourseError(
                    translate(
                        "SlopeBreaks",
                        "The raster has {count:,} pixels, more than {most:,}: clip it, or make its pixels larger.",
                    ).format(count=source.width * source.height, most=MOST_PIXELS)
                )
            with source.opened():
                window = source.read(0, 0, source.width, source.height)
            heights = np.where(source.missing(window), np.nan, window.astype(float))
            self.design = replace(self.design, data=of_pixels(heights, source.transform))
            if not (self.length_value(parameters, self.TOLERANCE, context, METRE) or 0.0):
                self.warn(
                    feedback,
                    translate(
                        "SlopeBreaks",
                        "Pixel by pixel a raster gives many short breaks: take slopes over a width of about three pixels.",
                    ),
                )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        units = self.units(self.design, parameters, context)
        measure = Measure(self.word(parameters, self.MEASURE, context))
        minimum = self.parameterAsDouble(parameters, self.MIN_CHANGE, context)
        z_scale = units.vertical.to(units.plan)
        search = Search(
            self._threshold(minimum, measure),
            self._keep(parameters, context, measure),
            measure=measure,
            support=self.length_value(parameters, self.TOLERANCE, context, units.plan) or 0.0,
            gap=self.length_value(parameters, self.GAP, context, units.plan) or 0.0,
            kinds=[Kind(word) for word in self.words(parameters, self.KINDS, context)],
            min_length=self.length_value(parameters, self.MIN_LENGTH, context, units.plan) or 0.0,
            z_scale=z_scale,
        )
        found = find_breaks(self.design.data, search, self.progress(feedback, 0.05, 0.7))
        lines = found.lines
        patches = found.patches
        if patches is None and not self.is_blank(parameters, self.PATCHES):
            patches = grow(self.design.data, search.least, 0.0, z_scale)
        results = figures(lines)
        move = found.points[:, :2] - self.design.data.vertices[:, :2]
        results[self.LARGEST_MOVE] = float(np.hypot(move[:, 0], move[:, 1]).max(initial=0.0))
        results[self.PATCH_COUNT] = 0 if patches is None else len(patches)
        self._tell(lines, units, results, feedback)
        sink = self.sink(
            parameters,
            self.BREAKS,
            context,
            fields(*COLUMNS),
            Qgis.WkbType.LineStringZ,
            self.design.crs,
        )
        with sink:
            sink.add_many(rows(lines, units.plan), len(lines), self.progress(feedback, 0.7, 1.0))
        self.named_output(context, sink.id, translate("SlopeBreaks", "Slope breaks"), style_breaks)
        results[self.BREAKS] = sink.id
        flat = self.sink(
            parameters,
            self.PATCHES,
            context,
            fields(*PATCH_COLUMNS),
            Qgis.WkbType.MultiPolygon,
            self.design.crs,
        )
        if flat is not None and patches is not None:
            with flat:
                flat.add_many(patch_rows(self.design.data, patches, found.points, z_scale))
            title = translate("SlopeBreaks", "Patches of one slope")
            self.named_output(context, flat.id, title, style_patches)
            results[self.PATCHES] = flat.id
        return results

    def _threshold(self, value: float, measure: Measure) -> float:
        return value / 100 if measure is Measure.GRADE else float(np.radians(value))

    def _keep(
        self, parameters: dict[str, Any], context: QgsProcessingContext, measure: Measure
    ) -> float | None:
        if self.is_blank(parameters, self.KEEP_CHANGE):
            return None
        return self._threshold(
            self.parameterAsDouble(parameters, self.KEEP_CHANGE, context), measure
        )

    def _tell(
        self,
        lines: BreakLines,
        units: JobUnits,
        results: dict[str, Any],
        feedback: QgsProcessingFeedback,
    ) -> None:
        for kind, label in kind_labels().items():
            feedback.pushInfo(
                translate("SlopeBreaks", "{kind}: {count} lines, {length}").format(
                    kind=label,
                    count=results[f"{kind.upper()}_COUNT"],
                    length=in_plan(results[f"{kind.upper()}_LENGTH"], units.plan),
                )
            )
        if not len(lines):
            self.warn(
                feedback,
                translate(
                    "SlopeBreaks",
                    "No slope break was found: lower the smallest slope change or the shortest line.",
                ),
            )
        if results[self.LARGEST_MOVE] > 0:
            feedback.pushInfo(
                translate(
                    "SlopeBreaks", "Zig-zags were straightened: no vertex moved more than {move}."
                ).format(move=in_plan(results[self.LARGEST_MOVE], units.plan))
            )
        if results[self.FLAGGED]:
            self.warn(
                feedback,
                translate(
                    "SlopeBreaks",
                    "{count} lines are flagged: read their fields “flag” and “why”.",
                ).format(count=results[self.FLAGGED]),
            )
        if len(lines.skipped):
            x, y, _ = lines.skipped[0]
            self.warn(
                feedback,
                translate(
                    "SlopeBreaks",
                    "{count} edges cannot be measured, the first at {x:.3f}, {y:.3f}: more than two faces meet there, faces lie over each other, or a face has no area; breaks may be missing there.",
                ).format(count=len(lines.skipped), x=x, y=y),
            )
