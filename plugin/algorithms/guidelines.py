"""Lay lines at an offset, on a side that is stated, proved or flagged."""

from typing import Any

import numpy as np
from qgis.core import Qgis, QgsProcessingContext, QgsProcessingFeedback

from ..core.errors import LengthTextError, UndercourseError
from ..core.lines.corners import Join, JoinStyle
from ..core.lines.direction import Travel, travel_signs
from ..core.lines.guide import lay
from ..core.lines.requests import Requests
from ..core.lines.sides import NEEDS_REFERENCE, NEEDS_SURFACE, Basis, Rule
from ..core.lines.words import WINDS
from ..core.text import translate
from ..core.units import METRE, parse_grade, parse_lengths
from ..layers.crs import require_same_crs
from ..layers.fields import fields
from ..layers.lines import line_geometry
from ..layers.sampling import sampler
from ..layers.tables import usual_field
from ..styles import style_flagged, style_guidelines
from . import guideline_inputs as inputs
from .base import UndercourseAlgorithm
from .feature_expression import values_by_expression
from .guideline_curves import GuidelineCurves
from .guideline_parameters import add_parameters
from .guideline_rows import (
    FLAGGED_COLUMNS,
    GUIDELINE_COLUMNS,
    LENGTH_COLUMN,
    SETTLED,
    Rows,
)
from .guideline_shapes import Heights, shapes
from .guideline_split import split_at_changes
from .guideline_story import report_of, tell
from .guideline_tapers import parse_taper, read_tapers, tapers_of
from .line_inputs import read_named_lines, read_reference, require_one_height
from .parameters import about
from .side_rules import lacking_layer, require_areas
from .station_parameters import read_stationing, station_field


class Guidelines(UndercourseAlgorithm):
    """Parallels of lines on a side that cannot be mistaken."""

    name_id = "guidelines"
    group_id = "guidelines"

    LINES = "LINES"
    OFFSETS = "OFFSETS"
    OFFSET_FIELD = "OFFSET_FIELD"
    TAPER = "TAPER"
    TAPER_FIELD = "TAPER_FIELD"
    TAPER_TABLE = "TAPER_TABLE"
    SIDE = "SIDE"
    SIDE_FIELD = "SIDE_FIELD"
    SIDE_EXPRESSION = "SIDE_EXPRESSION"
    ON_SWAP = "ON_SWAP"
    REFERENCE = "REFERENCE"
    SURFACE = "SURFACE"
    COMPASS = "COMPASS"
    TRAVEL = "TRAVEL"
    BEARING = "BEARING"
    Z_FROM = "Z_FROM"
    DEPTH = "DEPTH"
    CROSS_GRADE = "CROSS_GRADE"
    PARTS = "PARTS"
    ARCS = "ARCS"
    JOIN = "JOIN"
    MITRE_LIMIT = "MITRE_LIMIT"
    NAME_FIELD = "NAME_FIELD"
    MIN_SHARE = "MIN_SHARE"
    GUIDELINES = "GUIDELINES"
    FLAGGED = "FLAGGED"
    HTML = "HTML"

    def title(self) -> str:
        return translate("Guidelines", "Guidelines")

    def summary(self) -> str:
        return translate(
            "Guidelines",
            "Lays lines at an offset from lines, on a side that is said in words, proved along the line, and flagged where it cannot be known.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "Guidelines",
                "Right and left are seen looking from the first to the last vertex of a line, so they change when the line is drawn the other way. The other rules (toward, inside, uphill, compass ...) look at the ground, and give the same side however the line is drawn.",
            ),
            translate(
                "Guidelines",
                "A rule is tested at many places along each line. Where they do not agree (the side changes along the line, the reference crosses it, two references are equally near, the ground is flat, the surface is missing) no side is chosen: both candidates go to the flagged lines, with the reason.",
            ),
            translate(
                "Guidelines",
                "Guidelines run in the direction of their source. They never come nearer to it than the offset, at corners neither. Where a line bends too tightly, crosses itself or comes back too near to itself, the stretch without a guideline is listed with its stations.",
            ),
            translate(
                "Guidelines",
                "Each guideline says the side of the line, the compass side, and the side that the driver sees in the direction of travel and on the way back. Read the sentence out, and compare it with the ground, before a machine follows the line.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "Guidelines",
            "offset,parallel,line,side,left,right,curb,kerb,edge,guide line,uphill,toward,setback,stake-out",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        text = self.text(parameters, self.OFFSETS, context)
        label = translate("Guidelines", "Offsets")
        if text:
            problem = inputs.offsets_problem(parse_lengths(text, METRE))
            if problem:
                return translate("Base", "{label}: {why}").format(label=label, why=problem)
        elif all(
            self.is_blank(parameters, name)
            for name in (self.OFFSET_FIELD, self.TAPER, self.TAPER_FIELD, self.TAPER_TABLE)
        ):
            return translate(
                "Guidelines",
                "Offsets: write at least one, such as 1 ft, or choose a field with offsets.",
            )
        taper = self.text(parameters, self.TAPER, context)
        try:
            # Stations are read in the unit of the lines, which is not known yet.
            if taper and ":" not in taper:
                parse_taper(taper, METRE)
        except LengthTextError as error:
            return about(self.parameterDefinition(self.TAPER), str(error))
        grade = self.text(parameters, self.CROSS_GRADE, context)
        try:
            parse_grade(grade or "0")
        except LengthTextError as error:
            return about(self.parameterDefinition(self.CROSS_GRADE), str(error))
        return self._lacking(self._rule(parameters, context), parameters, context)

    def _lacking(
        self, rule: Rule, parameters: dict[str, Any], context: QgsProcessingContext
    ) -> str | None:
        """Say which input a rule or the heights lack."""
        surface = not self.is_blank(parameters, self.SURFACE)
        reference = not self.is_blank(parameters, self.REFERENCE)
        lacking = lacking_layer(rule, reference=reference, surface=surface)
        from_surface = self.word(parameters, self.Z_FROM, context) == "surface"
        if lacking is None and from_surface and not surface:
            return translate(
                "Guidelines", "Heights from the surface need a surface: choose a layer for Surface."
            )
        return lacking

    def _rule(self, parameters: dict[str, Any], context: QgsProcessingContext) -> Rule:
        return Rule(self.word(parameters, self.SIDE, context) or Rule.RIGHT)

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
        label = translate("Guidelines", "Lines")
        offset_field = self.text(parameters, self.OFFSET_FIELD, context)
        side_field = self.text(parameters, self.SIDE_FIELD, context)
        name_field = self.text(parameters, self.NAME_FIELD, context)
        name_field = name_field or usual_field(source, "name")
        taper_field = self.text(parameters, self.TAPER_FIELD, context)
        wanted = [name for name in (offset_field, side_field, taper_field) if name]
        wanted += station_field(self, parameters, context)
        self.sources = read_named_lines(source, wanted, name_field, unit, context, feedback, label)
        if self.word(parameters, self.Z_FROM, context) == "line":
            require_one_height(self.sources, unit, label)
        columns, ids = self.sources.table.columns, self.sources.table.ids
        offsets = inputs.offsets_of(
            columns.get(offset_field),
            ids,
            self.length_values(parameters, self.OFFSETS, context, unit),
            unit,
            offset_field,
        )
        text = self.text(parameters, self.SIDE_EXPRESSION, context)
        scope = self.createExpressionContext(parameters, context, source)
        label = self.parameterDefinition(self.SIDE_EXPRESSION).description()
        expressed = values_by_expression(source, text, scope, label) if text else None
        rules = inputs.rules_of(
            columns.get(side_field), ids, self._rule(parameters, context), side_field, expressed
        )
        for rule in sorted(set(rules)):
            problem = self._lacking(rule, parameters, context)
            if problem:
                raise UndercourseError(problem)
        lines = self.sources.lines
        stations = read_stationing(self, parameters, context, feedback, self.sources, unit)
        text = self.text(parameters, self.TAPER, context)
        try:
            usual = [parse_taper(text, unit) if text else None] * len(ids)
        except LengthTextError as error:
            definition = self.parameterDefinition(self.TAPER)
            raise UndercourseError(about(definition, str(error))) from error
        if not self.is_blank(parameters, self.TAPER_TABLE):
            table = self.source(parameters, self.TAPER_TABLE, context)
            listed = read_tapers(table, self.sources.names, unit)
            usual = [own or given for own, given in zip(listed, usual, strict=True)]
        tapers = tapers_of(columns.get(taper_field), ids, usual, unit, taper_field, stations)
        offsets = [
            own if taper is None else [taper.most]
            for own, taper in zip(offsets, tapers, strict=True)
        ]
        line = np.repeat(np.arange(len(ids)), [len(own) for own in offsets])
        distance = np.array([value for own in offsets for value in own])
        self.requests = Requests(
            lines,
            line,
            distance,
            [rules[k] for k in line],
            stations,
            [tapers[k] for k in line],
            self.sources.arcs,
        )
        self.reference = None
        if set(rules) & NEEDS_REFERENCE:
            reference = self.source(parameters, self.REFERENCE, context)
            label = translate("Guidelines", "Reference")
            self.reference = read_reference(reference, self.crs, unit, context, feedback, label)
            require_areas(rules, self.reference, label)
        self.ground = None
        from_surface = self.word(parameters, self.Z_FROM, context) == "surface"
        if from_surface or set(rules) & NEEDS_SURFACE:
            self.ground = self.layer_surface(parameters, self.SURFACE, context, feedback)
            require_same_crs(self.crs, self.ground.crs, self.ground.name)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        unit = self.job.plan
        chord, snap = 1e-3 / unit.metres, 1e-4 / unit.metres
        heights = self._heights(parameters, context, feedback)
        wind = WINDS.index(self.word(parameters, self.COMPASS, context) or "north")
        basis = Basis(
            self.reference,
            sampler(self.ground.data) if self.ground else None,
            45.0 * wind,
            self.parameterAsDouble(parameters, self.MIN_SHARE, context) / 100.0,
            z_scale=self.job.vertical.to(unit),
        )
        style = JoinStyle(
            Join(self.word(parameters, self.JOIN, context) or Join.MITRE),
            self.parameterAsDouble(parameters, self.MITRE_LIMIT, context),
            chord,
        )
        parts: frozenset[int] = frozenset()
        if self.word(parameters, self.ON_SWAP, context) == "split":
            progress = self.progress(feedback, 0.02, 0.1)
            done = split_at_changes(self.sources, self.requests, basis, snap, progress)
            self.sources, self.requests, parts = done.sources, done.requests, done.parts
        laid = lay(self.requests, basis, style, unit, self.progress(feedback, 0.1, 0.7))
        travel = travel_signs(
            self.sources.lines,
            Travel(self.word(parameters, self.TRAVEL, context) or Travel.ALONG),
            self.parameterAsDouble(parameters, self.BEARING, context),
        )
        rows = Rows(self.sources, self.requests, laid, travel, heights, self.job, parts)
        found = shapes(laid, heights, snap)
        good, flagged = rows.guidelines(found), rows.flagged(found)
        curves = GuidelineCurves(
            self.requests,
            laid,
            self.sources.arcs,
            style,
            true=heights.kind != "surface"
            and self.word(parameters, self.ARCS, context) != "chords",
            has_z=heights.kind != "none",
        )
        multi = self.word(parameters, self.PARTS, context) == "multi"
        alone = [([s], own) for s, (_, own) in zip([s for s in found if s.good], good, strict=True)]
        whole = rows.gathered(found, good) if multi else alone
        laid_out = [(curves.geometry(parts, multi=multi), own) for parts, own in whole]
        for geometry, own in laid_out if curves.true else []:
            own[LENGTH_COLUMN] = geometry.length()
        error = max(laid.proof.error.max(initial=0.0), laid.proof.nearer.max(initial=0.0))
        numbers = {
            "GUIDELINE_COUNT": len(good),
            "FLAGGED_COUNT": sum(item.code not in SETTLED for item in laid.flagged),
            "LOST_COUNT": laid.lost,
            "LENGTH": float(sum(own[LENGTH_COLUMN] for _, own in laid_out)),
            "MAX_DISTANCE_ERROR": float(max(error, curves.error)),
            "CHORD_COUNT": curves.chords,
        }
        warnings = tell(rows, good, flagged, numbers, feedback)
        progress = self.progress(feedback, 0.75, 0.95)
        results: dict[str, Any] = dict(numbers)
        page = self.file(parameters, self.HTML, context)
        kind = curves.kind(multi=multi)
        bare = [(line_geometry(xy), own) for xy, own in flagged]
        for output, columns, content, wkb, named, look in (
            (self.GUIDELINES, GUIDELINE_COLUMNS, laid_out, kind, self.title(), style_guidelines),
            (
                self.FLAGGED,
                FLAGGED_COLUMNS,
                bare,
                Qgis.WkbType.LineString,
                translate("Guidelines", "Flagged lines"),
                style_flagged,
            ),
        ):
            sink = self.sink(parameters, output, context, fields(*columns), wkb, self.crs)
            if sink is None:
                continue
            with sink:
                sink.add_many(content, len(content), progress)
            self.named_output(context, sink.id, named, look)
            results[output] = sink.id
        if page:
            report_of(rows, good, flagged, numbers, warnings, self.crs).write(page)
            results[self.HTML] = page
        return results

    def _heights(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> Heights:
        kind = self.word(parameters, self.Z_FROM, context) or "line"
        depth = self.length_value(parameters, self.DEPTH, context, self.job.vertical) or 0.0
        if kind == "line" and not self.sources.has_z:
            self.warn(
                feedback,
                translate(
                    "Guidelines",
                    "The lines have no heights, so the guidelines are plan lines: take heights from a surface if a machine needs them.",
                ),
            )
            kind = "none"
        if kind == "none" and depth:
            self.warn(
                feedback,
                translate("Guidelines", "The depth has no effect on guidelines without heights."),
            )
        text = self.text(parameters, self.CROSS_GRADE, context)
        grade = parse_grade(text) / 100.0 if text else 0.0
        if grade and kind != "line":
            self.warn(
                feedback,
                translate(
                    "Guidelines",
                    "The cross grade has no effect: it counts from the heights of the line, which are not used.",
                ),
            )
            grade = 0.0
        # Rise in the unit of heights for each unit in plan.
        rise = grade / self.job.vertical.to(self.job.plan)
        return Heights(kind, depth, self.ground.data if self.ground else None, rise)
