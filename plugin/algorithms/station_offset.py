"""Station and offset of points along lines."""

from collections.abc import Iterator
from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterBoolean,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterFileDestination,
)

from ..core.errors import LineError
from ..core.lines.direction import bearing_of, wind_of
from ..core.lines.station_offset import Feet, feet_of_points
from ..core.lines.words import WINDS
from ..core.text import translate
from ..core.units import METRE, describe_length, format_station, parse_length
from ..layers.crs import require_crs_of_lines, require_same_crs
from ..layers.csv_writing import with_units, write_csv
from ..layers.fields import fields
from ..layers.lines import point_geometry, read_points
from ..layers.sampling import sampler
from ..layers.tables import column_texts, usual_field
from ..styles import style_stakes
from .base import UndercourseAlgorithm
from .line_inputs import read_named_lines, require_one_height
from .parameters import about, name_field
from .station_parameters import add_station_parameters, read_stationing, station_field

COLUMNS = (
    ("point_id", int),
    ("point", str),
    ("source_id", int),
    ("line", str),
    ("station", str),
    ("station_value", float),
    ("side", str),
    ("compass_side", str),
    ("signed_offset", float),
    ("offset", str),
    ("east", float),
    ("north", float),
    ("z", float),
    ("line_z", float),
    ("above_line", float),
    ("surface_z", float),
    ("above_surface", float),
    ("flag", str),
    ("why", str),
)
_PLAN = ("station_value", "signed_offset", "east", "north")
_HEIGHT = ("z", "line_z", "above_line", "surface_z", "above_surface")

PAST = 1e-3
"""A point that lies farther past an end of its line, in metres, is not square to it."""


class StationOffset(UndercourseAlgorithm):
    """Points seen from lines: station, signed offset, side, height difference."""

    name_id = "station_offset"
    group_id = "guidelines"

    POINTS = "POINTS"
    LINES = "LINES"
    MAX_DISTANCE = "MAX_DISTANCE"
    ALL_LINES = "ALL_LINES"
    SURFACE = "SURFACE"
    NAME_FIELD = "NAME_FIELD"
    POINT_FIELD = "POINT_FIELD"
    OUTPUT = "OUTPUT"
    CSV = "CSV"

    def title(self) -> str:
        return translate("StationOffset", "Station and offset")

    def summary(self) -> str:
        return translate(
            "StationOffset",
            "Tells for points the station on a line, the signed offset and the side, and how far they lie above the line and a surface.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "StationOffset",
                "The offset is measured square to the line at its nearest place: + is right, - is left, looking from the first to the last vertex of the line, as LandXML has it.",
            ),
            translate(
                "StationOffset",
                "A point is flagged where its station is doubtful: another perpendicular of the same line is about as near (inside a bend, near the centre of an arc), or the point lies beyond an open end, where it has no side or is not square to the line.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "StationOffset",
            "station,offset,chainage,survey,points,alignment,as-built,side,perpendicular",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            QgsProcessingParameterFeatureSource(
                self.POINTS,
                translate("StationOffset", "Points"),
                [QgsProcessing.SourceType.TypeVectorPoint],
            ),
            translate("StationOffset", "Points, with or without heights, in the CRS of the lines."),
        )
        self.add(
            QgsProcessingParameterFeatureSource(
                self.LINES,
                translate("StationOffset", "Lines"),
                [QgsProcessing.SourceType.TypeVectorLine],
            ),
            translate("StationOffset", "Lines that the points are seen from, in a projected CRS."),
        )
        self.add(
            self.length(
                self.MAX_DISTANCE,
                translate("StationOffset", "Farthest distance"),
                None,
                optional=True,
                plan=True,
            ),
            translate(
                "StationOffset",
                "Points with no line this near get no station and are flagged. Blank: any distance.",
            ),
        )
        self.add(
            QgsProcessingParameterBoolean(
                self.ALL_LINES, translate("StationOffset", "All lines within that distance"), False
            ),
            translate("StationOffset", "One row for each line near enough, not for the nearest alone."),  # noqa: E501
        )  # fmt: skip
        self.add(
            self.surface(self.SURFACE, translate("StationOffset", "Surface"), optional=True),
            translate("StationOffset", "Surface to compare the heights of the points with."),
        )
        for name, layer, label in (
            (self.NAME_FIELD, self.LINES, translate("StationOffset", "Field with names of lines")),
            (
                self.POINT_FIELD,
                self.POINTS,
                translate("StationOffset", "Field with names of points"),
            ),
        ):
            self.add(name_field(name, label, layer), advanced=True)
        add_station_parameters(self, self.LINES)
        self.add(self.vertical_unit(), advanced=True)
        self._results()

    def _results(self) -> None:
        self.add(
            QgsProcessingParameterFeatureSink(
                self.OUTPUT,
                translate("StationOffset", "Points with stations"),
                QgsProcessing.SourceType.TypeVectorPoint,
            ),
            translate(
                "StationOffset",
                "The points with the fields: point_id, point, source_id, line; station (text), station_value; side, compass_side, signed_offset (+ right, - left), offset (in two styles); east, north, z; line_z and above_line (+ where the point lies above the line); surface_z and above_surface; flag, why.",
            ),
        )
        self.add(
            QgsProcessingParameterFileDestination(
                self.CSV, translate("StationOffset", "Table"), "CSV (*.csv)", None, True
            ),
            translate("StationOffset", "The same as a table; columns of numbers name their unit."),
        )
        for name, label in {
            "POINT_COUNT": translate("StationOffset", "Number of rows"),
            "FLAGGED_COUNT": translate("StationOffset", "Number of flagged rows"),
        }.items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        text = self.text(parameters, self.MAX_DISTANCE, context)
        if text and parse_length(text, METRE) <= 0:
            why = translate("StationOffset", "it must be greater than 0.")
            return about(self.parameterDefinition(self.MAX_DISTANCE), why)
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        source = self.source(parameters, self.LINES, context)
        points = self.source(parameters, self.POINTS, context)
        self.crs = source.sourceCrs()
        self.job = self.units(self.crs, parameters, context)
        unit = self.job.plan
        require_crs_of_lines(self.crs, points.sourceCrs(), points.sourceName())
        self.sources = read_named_lines(
            source,
            station_field(self, parameters, context),
            self.text(parameters, self.NAME_FIELD, context) or usual_field(source, "name"),
            unit,
            context,
            feedback,
            translate("StationOffset", "Lines"),
        )
        try:
            require_one_height(self.sources, unit, translate("StationOffset", "Lines"))
        except LineError as error:  # stations and offsets are right all the same
            self.warn(feedback, str(error))
        self.stationing = read_stationing(self, parameters, context, feedback, self.sources, unit)
        name = self.text(parameters, self.POINT_FIELD, context) or usual_field(points, "name")
        label = translate("StationOffset", "Points")
        self.points = read_points(
            points, [name] if name else [], context=context, feedback=feedback, name=label
        )
        named = column_texts(self.points.columns[name]) if name else [""] * len(self.points)
        self.names = [text or str(one) for text, one in zip(named, self.points.ids, strict=True)]
        self.surface = self.layer_surface(parameters, self.SURFACE, context, feedback)
        if self.surface is not None:
            require_same_crs(self.crs, self.surface.crs, self.surface.name)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        unit = self.job.plan
        most = self.length_value(parameters, self.MAX_DISTANCE, context, unit)
        every = self.parameterAsBoolean(parameters, self.ALL_LINES, context)
        xy = self.points.coordinates[:, :2]
        progress = self.progress(feedback, 0.05, 0.7)
        progress(0.0)
        feet = feet_of_points(
            self.sources.lines,
            xy,
            np.inf if most is None else most,
            every=every,
            arcs=self.sources.arcs,
        )
        self.below = np.full(len(xy), np.nan)
        if self.surface is not None:
            self.below = sampler(self.surface.data)(xy)
        progress(1.0)
        rows = list(self._rows(feet))
        flagged = sum(row[1][-2] is not None for row in rows)
        table = self.file(parameters, self.CSV, context)
        results: dict[str, Any] = {"POINT_COUNT": len(rows), "FLAGGED_COUNT": flagged}
        has_z = self.points.coordinates.shape[1] == 3
        kind = Qgis.WkbType.PointZ if has_z else Qgis.WkbType.Point
        sink = self.sink(parameters, self.OUTPUT, context, fields(*COLUMNS), kind, self.crs)
        if sink is not None:
            with sink:
                made = ((point_geometry(self.points.coordinates[p]), row) for p, row in rows)
                sink.add_many(made, len(rows), self.progress(feedback, 0.7, 0.9))
            title = translate("StationOffset", "Points with stations")
            self.named_output(context, sink.id, title, style_stakes)
            results[self.OUTPUT] = sink.id
        if table:
            plan, height = unit.symbol, self.job.vertical.symbol
            units = dict.fromkeys(_PLAN, plan) | dict.fromkeys(_HEIGHT, height)
            head = with_units((name for name, _ in COLUMNS), units)
            write_csv(table, head, (row for _, row in rows))
            results[self.CSV] = table
        if flagged:
            self.warn(
                feedback,
                translate(
                    "StationOffset", "{count} rows are flagged: read their fields “flag” and “why”."
                ).format(count=flagged),
            )
        return results

    def _rows(self, feet: Feet) -> Iterator[tuple[int, list[Any]]]:
        """Yield the point and the attributes of each row, in the order of the points."""
        starts = np.searchsorted(feet.point, np.arange(len(self.points) + 1))
        for p in range(len(self.points)):
            for row in range(int(starts[p]), int(starts[p + 1])):
                yield p, self._found(feet, p, row)
            if starts[p] == starts[p + 1]:
                yield p, self._missing(p)

    def _found(self, feet: Feet, p: int, row: int) -> list[Any]:
        unit, line = self.job.plan, int(feet.line[row])
        station = float(self.stationing.station(line, feet.distance[row]))
        offset = float(feet.offset[row])
        away = self.points.coordinates[p, :2] - feet.foot[row]
        side = "right" if offset > 0 else "left" if offset < 0 else "on line"
        known = np.isfinite(offset)
        flag, why = None, None
        if not known:
            flag = "beyond"
            why = translate("StationOffset", "The point lies beyond an end of the line, {away} from it, where it has no side.").format(  # noqa: E501
                away=describe_length(float(feet.away[row]), unit)
            )  # fmt: skip
        elif feet.past[row] * unit.metres > PAST:
            flag = "past_end"
            why = translate("StationOffset", "The point lies {past} past an end of the line: the offset is its distance from that end, not square to the line.")  # noqa: E501  # fmt: skip
            why = why.format(past=describe_length(float(feet.past[row]), unit))
        elif np.isfinite(feet.other[row]):
            flag = "two_feet"
            why = translate("StationOffset", "Another perpendicular of the line, at station {station}, is about as near: the station is not certain.").format(  # noqa: E501
                station=format_station(float(self.stationing.station(line, feet.other[row])), unit)
            )  # fmt: skip
        z = self._height(p)
        return [
            *self._point(p),
            int(self.sources.table.ids[line]),
            self.sources.names[line],
            format_station(station, unit),
            station,
            side if known else None,
            WINDS[int(wind_of(bearing_of(away)))] if known and offset else None,
            offset,
            describe_length(float(feet.away[row]), unit),
            *self.points.coordinates[p, :2].tolist(),
            z,
            float(feet.z[row]),
            z - float(feet.z[row]),
            float(self.below[p]),
            z - float(self.below[p]),
            flag,
            why,
        ]

    def _missing(self, p: int) -> list[Any]:
        why = translate("StationOffset", "No line is near enough.")
        z = self._height(p)
        heights = [z, None, None, float(self.below[p]), z - float(self.below[p])]
        blank = [None] * 8
        plan = self.points.coordinates[p, :2].tolist()
        return [*self._point(p), *blank, *plan, *heights, "no_line", why]

    def _point(self, p: int) -> list[Any]:
        return [int(self.points.ids[p]), self.names[p]]

    def _height(self, p: int) -> float:
        row = self.points.coordinates[p]
        return float(row[2]) if len(row) == 3 else np.nan
