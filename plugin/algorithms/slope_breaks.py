"""Find the lines along which the slope of a design changes."""

from typing import Any

import numpy as np
from qgis.core import Qgis, QgsProcessingContext, QgsProcessingFeedback

from ..core.breaks import BreakLines, Found, Kind, Measure, Patches, Search, find_breaks
from ..core.breaks.patches import grow
from ..core.breaks.walls import Walls, walls
from ..core.progress import Progress
from ..core.text import translate
from ..core.units import METRE, parse_length
from ..layers.fields import fields
from ..layers.tables import usual_field
from ..styles import style_breaks, style_compared, style_patches
from .base import UndercourseAlgorithm
from .line_inputs import NamedLines, read_named_lines
from .parameters import about
from .pixel_surface import triangulated
from .slope_known import COMPARISON_COLUMNS, Comparison, Known
from .slope_parameters import add_parameters
from .slope_patches import PATCH_COLUMNS, patch_rows
from .slope_report import Run, report_of
from .slope_rows import COLUMNS, figures, in_plan, kind_labels, rows


class SlopeBreaks(UndercourseAlgorithm):
    """Slope breaks of a TIN as lines with a kind and the grade on both sides."""

    name_id = "slope_breaks"
    group_id = "slope_breaks"

    DESIGN = "DESIGN"
    MIN_CHANGE = "MIN_CHANGE"
    KEEP_CHANGE = "KEEP_CHANGE"
    TOLERANCE = "TOLERANCE"
    SMOOTHING = "SMOOTHING"
    GAP = "GAP"
    MIN_LENGTH = "MIN_LENGTH"
    KINDS = "KINDS"
    MEASURE = "MEASURE"
    KNOWN = "KNOWN"
    KNOWN_DISTANCE = "KNOWN_DISTANCE"
    KNOWN_ANGLE = "KNOWN_ANGLE"
    BREAKS = "BREAKS"
    PATCHES = "PATCHES"
    COMPARISON = "COMPARISON"
    HTML = "HTML"

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
                "With a width over which slopes are taken, faces are first joined to patches that one plane fits nearly as well as two: noise of the heights is averaged out, a break spread over a narrow fillet is found once, at its middle, and a cone or a curve that only bends gives no break. Two to three times the size of the triangles is a good width for surveyed ground; narrower features can be lost, but not a step (the face of a curb, say) that is higher than twice the smallest change times the width: 0.10 m for 2 % over 2.5 m. Zig-zags are straightened, no farther than that width.",
            ),
            translate(
                "SlopeBreaks",
                "Kinds: a ridge falls away on both sides (a crown), a valley rises on both sides (a flowline), a top of slope falls away on one side only, a toe of slope rises on one side only. A side within 0.1 % of level neither rises nor falls, so the rim of a level platform is a top and the rim of a level floor a toe.",
            ),
            translate(
                "SlopeBreaks",
                "A face steeper than 1000 % (a wall, a curb face, a step of a depth surface) has a line along its foot and one along its top, each of which names the other and the height between them. Both are flagged, because their grade towards the wall says little.",
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
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        text = self.text(parameters, self.KNOWN_DISTANCE, context)
        given = not self.is_blank(parameters, self.KNOWN)
        if given and (not text or parse_length(text, METRE) <= 0.0):
            return about(
                self.parameterDefinition(self.KNOWN_DISTANCE),
                translate("SlopeBreaks", "it must be greater than 0."),
            )
        if self.parameterAsInt(parameters, self.SMOOTHING, context) and self._width(
            parameters, context
        ):
            return about(
                self.parameterDefinition(self.SMOOTHING),
                translate(
                    "SlopeBreaks",
                    "slopes are taken over a width already: leave one of the two at 0.",
                ),
            )
        return None

    def _width(self, parameters: dict[str, Any], context: QgsProcessingContext) -> float:
        """Return the width over which slopes are taken, 0 for none; its unit does not matter."""
        return self.length_value(parameters, self.TOLERANCE, context, METRE) or 0.0

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        given = self.layer_surface(parameters, self.DESIGN, context, feedback)
        self.design = triangulated(given)
        self.job = self.units(self.design, parameters, context)
        self.known, self.known_name = self._known(parameters, context, feedback)
        if not self._width(parameters, context) and self.design is not given:
            self.warn(
                feedback,
                translate(
                    "SlopeBreaks",
                    "Pixel by pixel a raster gives many short breaks: take slopes over a width of about three pixels.",
                ),
            )

    def _known(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> tuple[NamedLines | None, str]:
        """Return the lines that are drawn already and the name of their layer."""
        source = self.source(parameters, self.KNOWN, context)
        if source is None:
            return None, ""
        name = usual_field(source, "name")
        label = translate("SlopeBreaks", "Breaklines already drawn")
        lines = read_named_lines(
            source, (), name, self.job.plan, context, feedback, label, self.design.crs
        )
        return lines, source.sourceName()

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        search = self._search(parameters, context)
        found = find_breaks(self.design.data, search, self.progress(feedback, 0.05, 0.7))
        lines, patches = found.lines, found.patches
        page = self.file(parameters, self.HTML, context)
        if patches is None and (page or not self.is_blank(parameters, self.PATCHES)):
            patches = grow(self.design.data, search.least, 0.0, search.z_scale)
        comparison = self._compared(lines, parameters, context, self.progress(feedback, 0.7, 0.8))
        bounds = walls(lines, search.z_scale)
        results = figures(lines)
        if comparison is not None:
            results |= comparison.figures()
        move = found.points[:, :2] - self.design.data.vertices[:, :2]
        results["LARGEST_MOVE"] = float(np.hypot(move[:, 0], move[:, 1]).max(initial=0.0))
        results["PATCH_COUNT"] = 0 if patches is None else len(patches)
        self._tell(lines, results, feedback)
        if comparison is not None:
            feedback.pushInfo(comparison.sentence(self.job.plan))
        told = Run(
            self.design,
            self.job,
            search,
            found,
            bounds,
            patches,
            results,
            comparison,
            self.known_name,
        )
        report = report_of(told) if page else None
        results |= self._written(found, bounds, patches, comparison, parameters, context, feedback)
        if report is not None and page:
            report.write(page)
            results[self.HTML] = page
        return results

    def _search(self, parameters: dict[str, Any], context: QgsProcessingContext) -> Search:
        measure = Measure(self.word(parameters, self.MEASURE, context))
        minimum = self.parameterAsDouble(parameters, self.MIN_CHANGE, context)

        def length(name: str) -> float:
            return self.length_value(parameters, name, context, self.job.plan) or 0.0

        return Search(
            self._threshold(minimum, measure),
            self._keep(parameters, context, measure),
            measure=measure,
            support=length(self.TOLERANCE),
            smoothing=self.parameterAsInt(parameters, self.SMOOTHING, context),
            gap=length(self.GAP),
            kinds=[Kind(word) for word in self.words(parameters, self.KINDS, context)],
            min_length=length(self.MIN_LENGTH),
            z_scale=self.job.vertical.to(self.job.plan),
        )

    def _compared(
        self,
        lines: BreakLines,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        progress: Progress,
    ) -> Comparison | None:
        if self.known is None:
            return None
        distance = self.length_value(parameters, self.KNOWN_DISTANCE, context, self.job.plan)
        angle = self.parameterAsDouble(parameters, self.KNOWN_ANGLE, context)
        return Comparison(lines, Known(self.known, distance or 0.0, angle), progress)

    def _written(
        self,
        found: Found,
        bounds: Walls,
        patches: Patches | None,
        comparison: Comparison | None,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        """Write the layers and return them as results."""
        results: dict[str, Any] = {}
        shares = None if comparison is None else comparison.shares
        lines, crs = found.lines, self.design.crs
        columns = fields(*COLUMNS)
        sink = self.sink(parameters, self.BREAKS, context, columns, Qgis.WkbType.LineStringZ, crs)
        made = rows(lines, bounds, self.job, shares)
        with sink:
            sink.add_many(made, len(lines), self.progress(feedback, 0.8, 0.95))
        self.named_output(context, sink.id, translate("SlopeBreaks", "Slope breaks"), style_breaks)
        results[self.BREAKS] = sink.id
        columns = fields(*PATCH_COLUMNS)
        sink = self.sink(parameters, self.PATCHES, context, columns, Qgis.WkbType.MultiPolygon, crs)
        if sink is not None and patches is not None:
            scale = self.job.vertical.to(self.job.plan)
            with sink:
                sink.add_many(patch_rows(self.design.data, patches, found.points, scale))
            title = translate("SlopeBreaks", "Patches of one slope")
            self.named_output(context, sink.id, title, style_patches)
            results[self.PATCHES] = sink.id
        if comparison is None:
            return results
        columns, kind = fields(*COMPARISON_COLUMNS), Qgis.WkbType.LineString
        if self.known.has_z:
            kind = Qgis.WkbType.LineStringZ
        sink = self.sink(parameters, self.COMPARISON, context, columns, kind, crs)
        if sink is not None:
            with sink:
                sink.add_many(comparison.features())
            title = translate("SlopeBreaks", "Breaks and drawn lines compared")
            self.named_output(context, sink.id, title, style_compared)
            results[self.COMPARISON] = sink.id
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
        results: dict[str, Any],
        feedback: QgsProcessingFeedback,
    ) -> None:
        for kind, label in kind_labels().items():
            if kind == Kind.EDGE and not lines.of_kind(Kind.EDGE).any():
                continue
            feedback.pushInfo(
                translate("SlopeBreaks", "{kind}: {count} lines, {length}").format(
                    kind=label,
                    count=results[f"{kind.upper()}_COUNT"],
                    length=in_plan(results[f"{kind.upper()}_LENGTH"], self.job.plan),
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
        if results["LARGEST_MOVE"] > 0:
            feedback.pushInfo(
                translate(
                    "SlopeBreaks", "Zig-zags were straightened: no vertex moved more than {move}."
                ).format(move=in_plan(results["LARGEST_MOVE"], self.job.plan))
            )
        if results["FLAGGED"]:
            self.warn(
                feedback,
                translate(
                    "SlopeBreaks",
                    "{count} lines are flagged: read their fields “flag” and “why”.",
                ).format(count=results["FLAGGED"]),
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
