"""Find the lines along which the slope of a design changes."""

from collections.abc import Iterator
from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsGeometry,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterNumber,
)

from ..core.breaks import KINDS, WALL_GRADE, BreakLines, Kind, Measure, Search, find_breaks
from ..core.text import translate
from ..core.units import LinearUnit
from ..layers.crs import JobUnits
from ..layers.fields import fields
from ..layers.lines import line_geometry
from ..styles import style_breaks
from .base import UndercourseAlgorithm

COLUMNS = (
    ("kind", str),
    ("change", float),
    ("change_min", float),
    ("change_max", float),
    ("grade_left", float),
    ("left_min", float),
    ("left_max", float),
    ("grade_right", float),
    ("right_min", float),
    ("right_max", float),
    ("angle", float),
    ("length", float),
    ("z_start", float),
    ("z_end", float),
    ("fall", float),
    ("flag", str),
    ("why", str),
)


class SlopeBreaks(UndercourseAlgorithm):
    """Slope breaks of a TIN as lines with a kind and the grade on both sides."""

    name_id = "slope_breaks"
    group_id = "slope_breaks"

    DESIGN = "DESIGN"
    MIN_CHANGE = "MIN_CHANGE"
    MIN_LENGTH = "MIN_LENGTH"
    KINDS = "KINDS"
    MEASURE = "MEASURE"
    BREAKS = "BREAKS"
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
                "The slope change is measured at every edge between two faces, square to the edge: it is the grade on one side less the grade on the other, walking straight across (the algebraic difference in grade). Edges of one kind are joined to one line up to the next junction, which is a point where the number of breaks that meet is not two.",
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
            self.surface(self.DESIGN, translate("SlopeBreaks", "Design"), ("tin",)),
            translate(
                "SlopeBreaks",
                "The surface whose breaks are wanted: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.",
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
                "Lines with heights and the fields: kind; change, change_min, change_max (size of the slope change, percent: mean, smallest, largest); grade_left, grade_right and their least and greatest values (percent, + rises away from the line); angle (degrees, mean); length (in plan, CRS unit); z_start, z_end; fall (z_start less z_end, + falls along the line); flag and why for lines to look at. Figures beside an upright face are empty.",
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

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        units = self.units(self.design, parameters, context)
        measure = Measure(self.word(parameters, self.MEASURE, context))
        minimum = self.parameterAsDouble(parameters, self.MIN_CHANGE, context)
        search = Search(
            minimum / 100 if measure is Measure.GRADE else np.radians(minimum),
            measure=measure,
            kinds=[Kind(word) for word in self.words(parameters, self.KINDS, context)],
            min_length=self.length_value(parameters, self.MIN_LENGTH, context, units.plan) or 0.0,
            z_scale=units.vertical.to(units.plan),
        )
        lines = find_breaks(self.design.data, search, self.progress(feedback, 0.05, 0.7)).lines
        results = figures(lines)
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
        return {self.BREAKS: sink.id, **results}

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
                    length=_in_plan(results[f"{kind.upper()}_LENGTH"], units.plan),
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


def kind_labels() -> dict[str, str]:
    """Return the words for kinds and what people see for them."""
    return {
        str(Kind.RIDGE): translate("SlopeBreaks", "Ridge, crown"),
        str(Kind.VALLEY): translate("SlopeBreaks", "Valley, flowline"),
        str(Kind.TOP): translate("SlopeBreaks", "Top of slope"),
        str(Kind.TOE): translate("SlopeBreaks", "Toe of slope"),
    }


def figures(lines: BreakLines) -> dict[str, Any]:
    """Return the numeric results."""
    numbers: dict[str, Any] = {
        SlopeBreaks.COUNT: len(lines),
        SlopeBreaks.LENGTH: float(lines.length.sum()),
        SlopeBreaks.FLAGGED: int(((lines.wall > 0) | lines.doubtful).sum()),
        SlopeBreaks.UNMEASURED: len(lines.skipped),
    }
    for kind in KINDS:
        of_kind = lines.of_kind(kind)
        numbers[f"{kind.upper()}_COUNT"] = int(of_kind.sum())
        numbers[f"{kind.upper()}_LENGTH"] = float(lines.length[of_kind].sum())
    return numbers


def rows(lines: BreakLines, plan: LinearUnit) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each line, in the order of `COLUMNS`."""
    percents = []
    for spread in (lines.change, lines.grade_left, lines.grade_right):
        percents += [100 * spread.mean, 100 * spread.low, 100 * spread.high]
    numbers = np.column_stack(
        [
            *percents,
            np.degrees(lines.angle),
            lines.length,
            lines.z_start,
            lines.z_end,
            lines.z_start - lines.z_end,
        ]
    )
    numbers += 0.0  # no "-0" in tables
    for number, row in enumerate(numbers.tolist()):
        flag, why = _flag(lines, number, plan)
        kind = str(KINDS[lines.kind[number]])
        yield line_geometry(lines.line(number)), [kind, *row, flag, why]


def _flag(lines: BreakLines, number: int, plan: LinearUnit) -> tuple[str | None, str | None]:
    flags, reasons = [], []
    if lines.wall[number] > 0:
        flags.append("wall")
        reasons.append(
            translate(
                "SlopeBreaks",
                "{part} of {whole} lie beside a face steeper than {limit:.0f} %: a wall, a kerb face or a step, whose grade says little.",
            ).format(
                part=_in_plan(lines.wall[number], plan),
                whole=_in_plan(lines.length[number], plan),
                limit=100 * WALL_GRADE,
            )
        )
    if lines.doubtful[number]:
        flags.append("unmeasured")
        reasons.append(
            translate(
                "SlopeBreaks",
                "It ends at an edge that cannot be measured, because more than two faces meet there, faces lie over each other or a face has no area: the line may go on.",
            )
        )
    return ", ".join(flags) or None, " ".join(reasons) or None


def _in_plan(length: float, plan: LinearUnit) -> str:
    return f"{length:.2f} {plan.symbol}"
