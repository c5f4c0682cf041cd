"""Set out stakes along lines and beside them."""

from typing import Any

import numpy as np
from qgis.core import Qgis, QgsProcessingContext, QgsProcessingFeedback

from ..core.errors import UndercourseError
from ..core.lines.stakes import Stakes, Wanted, set_out
from ..core.text import translate
from ..core.units import METRE, parse_length, parse_lengths
from ..layers.crs import require_same_crs
from ..layers.csv_writing import write_csv
from ..layers.fields import fields
from ..layers.lines import point_geometry
from ..layers.sampling import sampler
from ..layers.tables import usual_field
from ..styles import style_stakes
from .base import UndercourseAlgorithm
from .line_inputs import read_named_lines, require_one_height
from .parameters import about
from .stake_parameters import add_parameters
from .stake_rows import COLUMNS, Rows
from .station_parameters import listed_stations, read_stationing, station_field

MOST_STAKES = 1_000_000
"""Points along lines, offsets not counted, beyond which the interval must be a mistake."""


class StakePoints(UndercourseAlgorithm):
    """Stakes with stations, offsets, heights, cut and fill."""

    name_id = "stake_points"
    group_id = "guidelines"

    LINES = "LINES"
    INTERVAL = "INTERVAL"
    AT = "AT"
    STATION_LIST = "STATION_LIST"
    OFFSETS_RIGHT = "OFFSETS_RIGHT"
    OFFSETS_LEFT = "OFFSETS_LEFT"
    ON_LINE = "ON_LINE"
    Z_FROM = "Z_FROM"
    SURFACE = "SURFACE"
    DEPTH = "DEPTH"
    GROUND = "GROUND"
    BREAK_CHANGE = "BREAK_CHANGE"
    NAME_FIELD = "NAME_FIELD"
    OUTPUT = "OUTPUT"
    CSV = "CSV"
    HTML = "HTML"

    def title(self) -> str:
        return translate("StakePoints", "Stake points")

    def summary(self) -> str:
        return translate(
            "StakePoints",
            "Sets out points along lines and at offsets from them, with station, side, design height, ground and cut or fill.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "StakePoints",
                "Points stand at round stations (multiples of the interval counted in stations), at both ends, and where asked at vertices, ends of arcs, breaks of grade and listed stations. Places that coincide are one point.",
            ),
            translate(
                "StakePoints",
                "Cut (C) means that the ground lies above the design there and has to come off; fill (F) that it lies below. Both are measured plumb.",
            ),
            translate(
                "StakePoints",
                "Offsets are written without a sign, to the right and to the left of the line, looking from its first to its last vertex. Run “Orient lines” first where lines run in different directions. At a corner an offset point stands the offset away from both sides.",
            ),
            translate(
                "StakePoints",
                "A point is flagged where another part of the line is nearer than its own place (inside a tight bend), and where a height is missing.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "StakePoints",
            "stake,stake-out,setting out,station,offset,cut,fill,grade stake,survey,points along a line",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        interval = self.text(parameters, self.INTERVAL, context)
        if interval and parse_length(interval, METRE) < 0:
            return self._about(self.INTERVAL, translate("StakePoints", "it must not be negative."))
        for name in (self.OFFSETS_RIGHT, self.OFFSETS_LEFT):
            text = self.text(parameters, name, context)
            if text and min(parse_lengths(text, METRE)) <= 0:
                return self._about(
                    name,
                    translate(
                        "StakePoints",
                        "offsets are written without a minus sign and above 0, since each side has a parameter of its own.",
                    ),
                )
        wants_surface = self.word(parameters, self.Z_FROM, context) == "surface"
        if wants_surface and self.is_blank(parameters, self.SURFACE):
            return translate(
                "StakePoints",
                "Heights from the surface need a surface: choose a layer for Surface.",
            )
        sides = [self.text(parameters, n, context) for n in (self.OFFSETS_RIGHT, self.OFFSETS_LEFT)]
        if not any(sides) and not self.parameterAsBoolean(parameters, self.ON_LINE, context):
            return translate(
                "StakePoints", "There is nothing to set out: write an offset or keep the points on the line."  # noqa: E501
            )  # fmt: skip
        return None

    def _about(self, name: str, why: str) -> str:
        return about(self.parameterDefinition(name), why)

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        source = self.source(parameters, self.LINES, context)
        self.crs = source.sourceCrs()
        self.job = self.units(self.crs, parameters, context)
        unit = self.job.plan
        name_field = self.text(parameters, self.NAME_FIELD, context)
        self.sources = read_named_lines(
            source,
            station_field(self, parameters, context),
            name_field or usual_field(source, "name"),
            unit,
            context,
            feedback,
            translate("StakePoints", "Lines"),
        )
        if self.word(parameters, self.Z_FROM, context) == "line":
            require_one_height(self.sources, unit, translate("StakePoints", "Lines"))
        self.stationing = read_stationing(self, parameters, context, feedback, self.sources, unit)
        interval = self.length_value(parameters, self.INTERVAL, context, unit) or np.inf
        if float(self.stationing.lengths.sum()) / interval > MOST_STAKES:
            why = translate("StakePoints", "there would be more than {most:,} points; check the interval and its unit.")  # noqa: E501  # fmt: skip
            raise UndercourseError(self._about(self.INTERVAL, why.format(most=MOST_STAKES)))
        self.at = set(self.words(parameters, self.AT, context))
        self.listed = listed_stations(
            self, parameters, self.STATION_LIST, context, self.stationing, unit
        )
        self.surface = self.layer_surface(parameters, self.SURFACE, context, feedback)
        self.ground = self.layer_surface(parameters, self.GROUND, context, feedback)
        for surface in (self.surface, self.ground):
            if surface is not None:
                require_same_crs(self.crs, surface.crs, surface.name)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        unit, vertical = self.job.plan, self.job.vertical
        offsets = [0.0] if self.parameterAsBoolean(parameters, self.ON_LINE, context) else []
        offsets += self.length_values(parameters, self.OFFSETS_RIGHT, context, unit)
        offsets += [-o for o in self.length_values(parameters, self.OFFSETS_LEFT, context, unit)]
        change = self.parameterAsDouble(parameters, self.BREAK_CHANGE, context) / 100.0
        wanted = Wanted(
            self.length_value(parameters, self.INTERVAL, context, unit) or 0.0,
            self.listed,
            "vertices" in self.at,
            self.sources.arcs.ends(self.sources.lines) if "arcs" in self.at else None,
            change if "breaks" in self.at else 0.0,
            vertical.to(unit),
        )
        progress = self.progress(feedback, 0.05, 0.6)
        stakes = set_out(
            self.sources.lines,
            self.stationing,
            wanted,
            np.array(offsets),
            1e-4 / unit.metres,
            self.sources.arcs,
        )
        progress(0.3)
        design = self._design(parameters, context, stakes)
        ground = np.full(len(stakes), np.nan)
        if self.ground is not None:
            ground = sampler(self.ground.data)(stakes.xy)
        progress(1.0)
        rows = Rows(self.sources, self.stationing, stakes, design, ground, self.job)
        rows.tell(
            feedback, has_design=bool(np.isfinite(design).any()), has_ground=bool(self.ground)
        )
        results: dict[str, Any] = dict(rows.numbers())
        table, page = (self.file(parameters, name, context) for name in (self.CSV, self.HTML))
        kind = Qgis.WkbType.PointZ if np.isfinite(design).any() else Qgis.WkbType.Point
        sink = self.sink(parameters, self.OUTPUT, context, fields(*COLUMNS), kind, self.crs)
        if sink is not None:
            width = 3 if kind == Qgis.WkbType.PointZ else 2
            places = np.column_stack((stakes.xy, design))[:, :width]
            with sink:
                made = ((point_geometry(xyz), rows.attributes(s)) for s, xyz in enumerate(places))
                sink.add_many(made, len(stakes), self.progress(feedback, 0.6, 0.8))
            self.named_output(context, sink.id, self.title(), style_stakes)
            results[self.OUTPUT] = sink.id
        if table:
            every = (rows.attributes(s) for s in range(len(stakes)))
            write_csv(table, rows.head(), every, len(stakes), self.progress(feedback, 0.8, 0.95))
            results[self.CSV] = table
        if page:
            about_surfaces = [(s.name if s else "") for s in (self.surface, self.ground)]
            rows.report(self.crs, about_surfaces).write(page)
            results[self.HTML] = page
        return results

    def _design(
        self, parameters: dict[str, Any], context: QgsProcessingContext, stakes: Stakes
    ) -> np.ndarray:
        """Return the design height of each stake, NaN where there is none."""
        depth = self.length_value(parameters, self.DEPTH, context, self.job.vertical) or 0.0
        if self.word(parameters, self.Z_FROM, context) == "surface":
            assert self.surface is not None
            return sampler(self.surface.data)(stakes.xy) - depth
        return stakes.z - depth
