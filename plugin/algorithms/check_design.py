"""Check whether a design, and the zones to be used with it, are fit to work from."""

from typing import Any

import numpy as np
import shapely
from qgis.core import Qgis, QgsProcessingContext, QgsProcessingFeedback

from ..core.measure.issues import CODES, Issues, JobScale, Weight, code_title
from ..core.measure.pond_check import check_ponds
from ..core.measure.surface_check import check_surface
from ..core.measure.unit_check import foot_issue, height_issues, place_issue, readings
from ..core.measure.zone_check import NamedZones, check_zones, outline_of
from ..core.text import translate
from ..core.tin import Tin
from ..core.tolerance import Tolerance
from ..core.units import METRE, describe_length, parse_length
from ..documents.design_check_report import Facts, design_check_report
from ..layers.crs import describe_crs
from ..layers.crs_place import AreaOfUse
from ..layers.fields import fields
from ..layers.polygons import read_polygons
from ..layers.tables import column_numbers, column_texts, usual_field
from ..styles import style_issue_areas, style_issues
from .base import UndercourseAlgorithm
from .check_design_parameters import add_parameters
from .check_design_rows import COLUMNS, areas, figures, points
from .feature_expression import values_by_expression
from .parameters import about
from .pixel_surface import triangulated


class CheckDesign(UndercourseAlgorithm):
    """What is wrong with a design, where, and what to do about it."""

    name_id = "check_design"
    group_id = "design_intake"

    DESIGN = "DESIGN"
    ZONES = "ZONES"
    WATER = "WATER"
    NAME_FIELD = "NAME_FIELD"
    PRIORITY_FIELD = "PRIORITY_FIELD"
    MIN_POND = "MIN_POND"
    SPIKE = "SPIKE"
    ZONE_GAP = "ZONE_GAP"
    ISSUES = "ISSUES"
    AREAS = "AREAS"
    HTML = "HTML"

    def title(self) -> str:
        return translate("CheckDesign", "Check a design")

    def summary(self) -> str:
        return translate(
            "CheckDesign",
            "Looks for what is wrong with a surface and its zones before work begins: doubtful points, faces over one another, holes, spikes, ponds, gaps between zones, wrong units, each with its place and what to do.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "CheckDesign",
                "Points: two in one place, at one height or at two; spikes; points without a face. Faces: over one another, without area, slivers, upright or steeper than 10 to 1, long and skinny at the edge. The whole: holes and their area, isolated pieces, edges of more than two faces, cracks.",
            ),
            translate(
                "CheckDesign",
                "Ponds: water rises in every low point until it spills, over the lowest pass of the triangles; where pools run together they are one. Level, depth, area and volume are exact on the triangles. A depth surface that cannot drain is found so too.",
            ),
            translate(
                "CheckDesign",
                "Zones: overlaps that no priority settles, gaps and slits between neighbours, ground that zones enclose, zones past the design.",
            ),
            translate(
                "CheckDesign",
                "Units: whether the design lies in the area its CRS is made for, and if not, whether it would in feet or metres or with easting and northing exchanged; heights that look too large for the plan; in feet, how far the other foot would shift the design (a note).",
            ),
            translate(
                "CheckDesign",
                "A finding is an error, or something to check that may be meant. A surface without findings can still be wrong: it is compared with nothing else here.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "CheckDesign",
            "check,quality,intake,duplicate,overlap,hole,spike,sliver,pond,puddle,drainage,low point,depression,zones,gap,units,feet",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        for name in (self.MIN_POND, self.SPIKE, self.ZONE_GAP):
            value = parse_length(self.text(parameters, name, context), METRE)
            if value < 0 or (name == self.SPIKE and value == 0):
                return about(
                    self.parameterDefinition(name),
                    translate("CheckDesign", "it cannot be negative, nor can a spike be 0."),
                )
        if self.is_blank(parameters, self.ZONES) and self.text(parameters, self.WATER, context):
            return about(
                self.parameterDefinition(self.WATER),
                translate("CheckDesign", "it asks for zones, but none are given."),
            )
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.design = triangulated(self.layer_surface(parameters, self.DESIGN, context, feedback))
        self.job = self.units(self.design, parameters, context)
        self.zones: NamedZones | None = None
        self.water = None
        source = self.source(parameters, self.ZONES, context)
        if source is None:
            return
        name_field = self.text(parameters, self.NAME_FIELD, context) or usual_field(source, "name")
        priority_field = self.text(parameters, self.PRIORITY_FIELD, context)
        priority_field = priority_field or usual_field(source, "priority")
        table = read_polygons(
            source,
            list(dict.fromkeys(name for name in (name_field, priority_field) if name)),
            crs=self.design.crs,
            context=context,
            feedback=feedback,
        )
        if not len(table):
            return
        names = column_texts(table.columns[name_field]) if name_field else [""] * len(table)
        priority = None
        if priority_field:
            column = table.columns[priority_field]
            priority = column_numbers(column, table.ids, priority_field, np.nan)
        self.zones = NamedZones(
            table.polygons,
            table.ids,
            [name or str(one) for name, one in zip(names, table.ids, strict=True)],
            priority,
        )
        self.zone_layer = source.sourceName()
        text = self.text(parameters, self.WATER, context)
        if text:
            scope = self.createExpressionContext(parameters, context, source)
            label = self.parameterDefinition(self.WATER).description()
            said = values_by_expression(source, text, scope, label)
            wet = [bool(said.get(int(one))) for one in table.ids]
            if any(wet):
                self.water = shapely.union_all(table.polygons[wet])
            else:
                self.warn(
                    feedback,
                    translate("CheckDesign", "No zone is meant to hold water: “{text}”.").format(
                        text=text
                    ),
                )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        progress = self.progress(feedback, 0.05, 0.9)
        tin: Tin = self.design.data
        scale = JobScale(self.job.plan, self.job.vertical)
        tolerance = Tolerance.for_unit(scale.plan.metres)
        vertical = scale.vertical
        spike = self.length_value(parameters, self.SPIKE, context, vertical) or 0.0
        min_pond = self.length_value(parameters, self.MIN_POND, context, vertical) or 0.0
        gap = self.length_value(parameters, self.ZONE_GAP, context, scale.plan) or 0.0
        issues, joined = check_surface(
            tin, tolerance, scale, spike, lambda share: progress(0.6 * share)
        )
        ponds = check_ponds(issues, joined, scale, min_pond, self.water)
        progress(0.8)
        outline = outline_of(joined)
        unzoned = 0.0
        if self.zones is not None:
            unzoned = check_zones(issues, self.zones, outline, tolerance, scale, gap)
        progress(0.95)
        self._units(issues, tin, scale)
        listed = list(issues.in_order())
        results = figures(issues, unzoned)
        self._tell(issues, feedback)
        facts = Facts(
            self.design.name,
            describe_crs(self.design.crs),
            scale,
            tin.plan_area,
            len(tin.vertices),
            len(tin.faces),
            self.zone_layer if self.zones is not None else "",
            unzoned,
            [
                translate("CheckDesign", "Ponds from {depth}").format(
                    depth=describe_length(min_pond, vertical)
                ),
                translate("CheckDesign", "spikes from {height}").format(
                    height=describe_length(spike, vertical)
                ),
                translate("CheckDesign", "gaps between zones up to {width}").format(
                    width=describe_length(gap, scale.plan)
                ),
            ],
            ponds.shallow,
        )
        page = self.file(parameters, self.HTML, context)
        crs = self.design.crs
        kind = Qgis.WkbType.Point
        sink = self.sink(parameters, self.ISSUES, context, fields(*COLUMNS), kind, crs)
        if sink is not None:
            with sink:
                sink.add_many(points(listed))
            title = translate("CheckDesign", "Findings")
            self.named_output(context, sink.id, title, style_issues)
            results[self.ISSUES] = sink.id
        kind = Qgis.WkbType.MultiPolygon
        sink = self.sink(parameters, self.AREAS, context, fields(*COLUMNS), kind, crs)
        if sink is not None:
            with sink:
                sink.add_many(areas(listed))
            title = translate("CheckDesign", "Ground they cover")
            self.named_output(context, sink.id, title, style_issue_areas)
            results[self.AREAS] = sink.id
        if page:
            zones = self.zones.polygons if self.zones is not None else []
            design_check_report(facts, issues, listed, outline, zones).write(page)
            results[self.HTML] = page
        return results

    def _units(self, issues: Issues, tin: Tin, scale: JobScale) -> None:
        xmin, ymin, xmax, ymax = tin.extent
        place = 0.5 * (xmin + xmax), 0.5 * (ymin + ymax)
        area = AreaOfUse(self.design.crs, scale.plan)
        fits = area.holds(*place) if area.known else None
        reading = None
        if fits is False:
            reading = area.first_that_fits(*place, readings(scale.plan))
        where = place_issue(fits, reading, scale, describe_crs(self.design.crs), place)
        issues.take(one for one in (where, foot_issue(tin, scale)) if one is not None)
        issues.take(height_issues(tin, scale))

    def _tell(self, issues: Issues, feedback: QgsProcessingFeedback) -> None:
        said = {
            Weight.ERROR: translate("CheckDesign", "Error: {what}: {count}"),
            Weight.CHECK: translate("CheckDesign", "To check: {what}: {count}"),
            Weight.NOTE: translate("CheckDesign", "Note: {what}: {count}"),
        }
        for weight, text in said.items():
            for code in CODES:
                count = issues.count(code, weight)
                if count:
                    sentence = text.format(what=code_title(code), count=count)
                    if weight is Weight.NOTE:
                        feedback.pushInfo(sentence)
                    else:
                        self.warn(feedback, sentence)
        if not issues.of_weight(Weight.ERROR, Weight.CHECK):
            feedback.pushInfo(translate("CheckDesign", "Nothing is wrong with the design itself."))
