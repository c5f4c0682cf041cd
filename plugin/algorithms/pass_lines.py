"""Lay the passes of a machine over zones."""

from typing import Any

import numpy as np
import shapely
from qgis.core import Qgis, QgsProcessingContext, QgsProcessingFeedback

from ..core.errors import LengthTextError, UndercourseError
from ..core.lines.passes import MOST_PASSES, Fit, Manner, longest_side, plan_passes, straight_line
from ..core.text import translate
from ..core.units import parse_length
from ..layers.crs import require_same_crs
from ..layers.fields import fields
from ..layers.lines import line_geometry
from ..layers.polygons import polygon_geometry, read_polygons
from ..layers.sampling import sampler
from ..layers.tables import column_texts, usual_field
from ..styles import style_left_over, style_passes
from .base import UndercourseAlgorithm
from .drape_lines import drape
from .line_inputs import read_named_lines
from .parameters import about
from .pass_parameters import add_parameters
from .pass_rows import COLUMNS, LEFT_COLUMNS, Rows, Zone


class PassLines(UndercourseAlgorithm):
    """Parallel passes over zones, in the order they are driven."""

    name_id = "pass_lines"
    group_id = "guidelines"

    ZONES = "ZONES"
    WIDTH = "WIDTH"
    OVERLAP = "OVERLAP"
    ALONG = "ALONG"
    BEARING = "BEARING"
    FIT = "FIT"
    TRAVEL = "TRAVEL"
    START_SIDE = "START_SIDE"
    END_MARGIN = "END_MARGIN"
    SURFACE = "SURFACE"
    DEPTH = "DEPTH"
    NAME_FIELD = "NAME_FIELD"
    OUTPUT = "OUTPUT"
    LEFT_OVER = "LEFT_OVER"
    HTML = "HTML"

    def title(self) -> str:
        return translate("PassLines", "Pass lines")

    def summary(self) -> str:
        return translate(
            "PassLines",
            "Lays parallel passes of a working width over zones, in the order they are driven, and says what they cover and what is left over.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "PassLines",
                "Passes run parallel to a line or to a bearing; without either, along the longer side of the narrowest rectangle around each zone. They are clipped to the zone: where it is interrupted, a pass has several pieces.",
            ),
            translate(
                "PassLines",
                "A pass covers the strip of the working width along its part inside the zone, cut square at both ends. What no strip covers is left over: triangles at slanted edges, corners of bends, the margin to turn.",
            ),
            translate(
                "PassLines",
                "Sides are seen in the direction in which the first pass is driven. Between the pieces of one pass the machine crosses ground outside the zone.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "PassLines", "pass,swath,strip,coverage,parallel,working width,overlap,to and fro,roller,grader,mowing"  # noqa: E501
        ).split(",")  # fmt: skip

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        if self.text(parameters, self.WIDTH, context):
            return None
        definition = self.parameterDefinition(self.WIDTH)
        return about(definition, translate("PassLines", "write a width, such as 8 ft."))

    def _about(self, name: str, why: str) -> UndercourseError:
        return UndercourseError(about(self.parameterDefinition(name), why))

    def _manner(self, parameters: dict[str, Any], context: QgsProcessingContext) -> Manner:
        unit = self.job.plan
        width = self.length_value(parameters, self.WIDTH, context, unit) or 0.0
        if width <= 0:
            raise self._about(self.WIDTH, translate("PassLines", "it must be greater than 0."))
        overlap = self._overlap(self.text(parameters, self.OVERLAP, context), width)
        if not 0 <= overlap < width:
            raise self._about(
                self.OVERLAP, translate("PassLines", "it must be from 0 up to less than the width.")
            )
        margin = self.length_value(parameters, self.END_MARGIN, context, unit) or 0.0
        if margin < 0:
            raise self._about(self.END_MARGIN, translate("PassLines", "it must not be negative."))
        return Manner(
            width,
            overlap,
            Fit(self.word(parameters, self.FIT, context) or Fit.EVEN),
            self.word(parameters, self.TRAVEL, context) != "one_way",
            self.word(parameters, self.START_SIDE, context) == "right",
            margin,
        )

    def _overlap(self, text: str, width: float) -> float:
        """Return an overlap given as a length or as a share of the width in percent."""
        if not text.endswith("%"):
            return parse_length(text, self.job.plan) if text else 0.0
        try:
            return width * float(text[:-1].strip().replace(",", ".")) / 100.0
        except ValueError as error:
            why = translate("PassLines", "“{text}” is no percentage: write it like 10 %.")
            raise self._about(self.OVERLAP, why.format(text=text)) from error

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        source = self.source(parameters, self.ZONES, context)
        self.crs = source.sourceCrs()
        self.job = self.units(self.crs, parameters, context)
        unit = self.job.plan
        try:
            self.manner = self._manner(parameters, context)
        except LengthTextError as error:
            raise UndercourseError(str(error)) from error
        name = self.text(parameters, self.NAME_FIELD, context) or usual_field(source, "name")
        self.zones = read_polygons(
            source,
            [name] if name else [],
            context=context,
            feedback=feedback,
            chord=1e-3 / unit.metres,
            name=translate("PassLines", "Zones"),
        )
        if not len(self.zones):
            raise self._about(self.ZONES, translate("PassLines", "there is no zone in it."))
        given = column_texts(self.zones.columns[name]) if name else [""] * len(self.zones)
        self.names = [
            text or translate("PassLines", "zone {id}").format(id=one)
            for text, one in zip(given, self.zones.ids, strict=True)
        ]
        self.along = None
        lines = self.source(parameters, self.ALONG, context)
        if lines is not None:
            require_same_crs(self.crs, lines.sourceCrs(), lines.sourceName())
            label = translate("PassLines", "Along")
            self.along = read_named_lines(lines, [], "", unit, context, feedback, label).lines
        self.surface = self.layer_surface(parameters, self.SURFACE, context, feedback)
        if self.surface is not None:
            require_same_crs(self.crs, self.surface.crs, self.surface.name)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        bearing = None
        if not self.is_blank(parameters, self.BEARING):
            bearing = self.parameterAsDouble(parameters, self.BEARING, context)
        progress = self.progress(feedback, 0.05, 0.7)
        planned: list[Zone] = []
        for row, area in enumerate(self.zones.polygons):
            progress(row / len(self.zones))
            line = self._line(area, bearing)
            try:
                passes = plan_passes(area, line, self.manner)
            except ValueError as error:
                why = translate(
                    "PassLines",
                    "Zone {id}: there would be more than {most:,} passes; check the width and its unit.",
                )  # noqa: E501
                raise UndercourseError(
                    why.format(id=self.zones.ids[row], most=MOST_PASSES)
                ) from error
            planned.append(Zone(int(self.zones.ids[row]), self.names[row], area, passes))
        rows = Rows(planned, self.manner, self.job)
        depth = self.length_value(parameters, self.DEPTH, context, self.job.vertical) or 0.0
        shapes = self._shapes(rows, depth)
        results: dict[str, Any] = dict(rows.numbers())
        rows.tell(feedback)
        kind = Qgis.WkbType.LineString if self.surface is None else Qgis.WkbType.LineStringZ
        page = self.file(parameters, self.HTML, context)
        sink = self.sink(parameters, self.OUTPUT, context, fields(*COLUMNS), kind, self.crs)
        if sink is not None:
            with sink:
                made = ((line_geometry(xyz), rows.attributes(n)) for n, xyz in shapes)
                sink.add_many(made, len(shapes), self.progress(feedback, 0.75, 0.95))
            self.named_output(context, sink.id, self.title(), style_passes)
            results[self.OUTPUT] = sink.id
        sink = self.sink(
            parameters,
            self.LEFT_OVER,
            context,
            fields(*LEFT_COLUMNS),
            Qgis.WkbType.Polygon,
            self.crs,
        )
        if sink is not None:
            with sink:
                for zone in planned:
                    for part in shapely.get_parts(zone.passes.left_over):
                        sink.add(
                            polygon_geometry(part),
                            [zone.identifier, zone.name, float(shapely.area(part))],
                        )
            title = translate("PassLines", "Left over")
            self.named_output(context, sink.id, title, style_left_over)
            results[self.LEFT_OVER] = sink.id
        if page:
            rows.report(self.crs).write(page)
            results[self.HTML] = page
        return results

    def _line(self, area: shapely.Geometry, bearing: float | None) -> np.ndarray:
        """Return the line that the passes of a zone are parallel to."""
        if self.along is not None:
            nearest = int(shapely.distance(self.along.geometries, area).argmin())
            return self.along.xy[self.along.line(nearest)]
        return straight_line(area, longest_side(area) if bearing is None else bearing)

    def _shapes(self, rows: Rows, depth: float) -> list[tuple[int, np.ndarray]]:
        """Return the pieces with heights of the surface, cut where it has none."""
        if self.surface is None:
            return list(enumerate(rows.xy))
        snap = 1e-4 / self.job.plan.metres
        made = drape(rows.xy, self.surface.data, sampler(self.surface.data), depth, snap)
        rows.without_heights = made.missing
        return made.pieces
