"""Check guidelines, also those made elsewhere, against the lines they were laid from."""

from dataclasses import replace
from typing import Any

import numpy as np
from qgis.core import Qgis, QgsProcessingContext, QgsProcessingFeedback

from ..core.errors import LengthTextError, UndercourseError
from ..core.lines.check import Measured, measure
from ..core.lines.match import best_lines
from ..core.lines.sides import NEEDS_REFERENCE, NEEDS_SURFACE, Basis, Rule, judge
from ..core.lines.verdict import UNCLEAR, Asked, Judgement, Names, verdicts
from ..core.lines.words import WINDS
from ..core.text import translate
from ..core.units import METRE, parse_length
from ..layers.crs import require_crs_of_lines, require_same_crs
from ..layers.fields import fields
from ..layers.lines import line_geometry, point_geometry
from ..layers.sampling import sampler
from ..layers.tables import column_texts, column_values, is_null, plain_value, usual_field
from ..styles import style_checked, style_flagged
from .base import UndercourseAlgorithm
from .check_sides_parameters import NONE, STATED, add_parameters
from .check_sides_rows import COLUMNS, PLACE_COLUMNS, Rows
from .line_inputs import read_named_lines, read_reference
from .parameters import about
from .side_rules import lacking_layer, require_areas
from .station_parameters import read_stationing, station_field

_WORDS = {"right": 1, "left": -1}


class CheckSides(UndercourseAlgorithm):
    """Guidelines measured against their lines."""

    name_id = "check_sides"
    group_id = "guidelines"

    LINES = "LINES"
    GUIDELINES = "GUIDELINES"
    OFFSET = "OFFSET"
    OFFSET_FIELD = "OFFSET_FIELD"
    SIDE = "SIDE"
    SIDE_FIELD = "SIDE_FIELD"
    TOLERANCE = "TOLERANCE"
    REFERENCE = "REFERENCE"
    SURFACE = "SURFACE"
    COMPASS = "COMPASS"
    LINE_FIELD = "LINE_FIELD"
    NAME_FIELD = "NAME_FIELD"
    CORNER_LIMIT = "CORNER_LIMIT"
    OUTPUT = "OUTPUT"
    PLACES = "PLACES"
    HTML = "HTML"

    def title(self) -> str:
        return translate("CheckSides", "Check sides")

    def summary(self) -> str:
        return translate(
            "CheckSides",
            "Measures guidelines, made here or elsewhere, against the lines they were laid from, and says which lie on the wrong side, at the wrong distance or beside the wrong line.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "CheckSides",
                "Side and distance are measured all along each guideline, whatever way it is drawn. Left and right are those of the line, looking from its first to its last vertex.",
            ),
            translate(
                "CheckSides",
                "Fail: it lies on the other side, changes sides on the way, keeps another distance, comes nearer than asked anywhere, reaches out too far at a corner, or fits another line than its own. Unclear: a part lies beyond the ends of the line, two lines fit about as well, or no line is near.",
            ),
            translate(
                "CheckSides",
                "Beside a corner a guideline rightly reaches farther out than its offset (a mitre): there the corner limit holds instead of the tolerance.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "CheckSides",
            "check,verify,side,left,right,offset,distance,guideline,wrong side,quality",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        for name, least in ((self.OFFSET, 0.0), (self.TOLERANCE, 0.0)):
            text = self.text(parameters, name, context)
            if text and parse_length(text, METRE) <= least:
                return about(
                    self.parameterDefinition(name),
                    translate("CheckSides", "it must be greater than 0; the side is asked for separately."),  # noqa: E501
                )  # fmt: skip
        word = self.word(parameters, self.SIDE, context)
        if word in set(Rule):
            return lacking_layer(
                Rule(word),
                reference=not self.is_blank(parameters, self.REFERENCE),
                surface=not self.is_blank(parameters, self.SURFACE),
            )
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        source = self.source(parameters, self.LINES, context)
        laid = self.source(parameters, self.GUIDELINES, context)
        self.crs = source.sourceCrs()
        self.job = self.units(self.crs, parameters, context)
        unit = self.job.plan
        require_crs_of_lines(self.crs, laid.sourceCrs(), laid.sourceName())
        name_field = self.text(parameters, self.NAME_FIELD, context)
        self.sources = read_named_lines(
            source,
            station_field(self, parameters, context),
            name_field or usual_field(source, "name"),
            unit,
            context,
            feedback,
            translate("CheckSides", "Lines"),
        )
        self.stationing = read_stationing(self, parameters, context, feedback, self.sources, unit)
        self.columns = {
            "offset": self.text(parameters, self.OFFSET_FIELD, context)
            or usual_field(laid, "signed_offset"),
            "side": self.text(parameters, self.SIDE_FIELD, context)
            or usual_field(laid, "side_line")
            or usual_field(laid, "side"),
            "signed": usual_field(laid, "signed_offset"),
            "line": self.text(parameters, self.LINE_FIELD, context)
            or usual_field(laid, "source_id"),
            "label": usual_field(laid, "label"),
            "end": usual_field(laid, "signed_offset_end"),
        }
        self.laid = read_named_lines(
            laid,
            list(dict.fromkeys(name for name in self.columns.values() if name)),
            usual_field(laid, "name"),
            unit,
            context,
            feedback,
            translate("CheckSides", "Guidelines"),
        )
        if self.columns["label"]:
            labels = column_texts(self.laid.table.columns[self.columns["label"]])
            names = [
                f"{name}, {label}" if label else name
                for name, label in zip(self.laid.names, labels, strict=True)
            ]
            self.laid = replace(self.laid, names=names)
        self.distance = self._distances(parameters, context)
        self.basis = self._basis(parameters, context, feedback)

    def _distances(self, parameters: dict[str, Any], context: QgsProcessingContext) -> np.ndarray:
        """Return the distance asked of each guideline, NaN where none is."""
        unit, table = self.job.plan, self.laid.table
        given = self.length_value(parameters, self.OFFSET, context, unit)
        if given is not None:
            return np.full(len(table), given)
        name = self.columns["offset"]
        if not name:
            return np.full(len(table), np.nan)
        read = column_values(
            table.columns[name],
            table.ids,
            lambda value: parse_length(plain_value(value), unit),
            name,
            np.nan,
        )
        changes = np.zeros(len(table), bool)
        if self.columns["end"]:
            # Along a taper the distance is not one: its side is checked.
            changes = np.array([not is_null(v) for v in table.columns[self.columns["end"]]], bool)
        return np.where(changes | (read == 0.0), np.nan, np.abs(read))

    def _basis(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> Basis | None:
        """Read what the rule for sides looks at; None where no rule is asked."""
        word = self.word(parameters, self.SIDE, context)
        self.rule = Rule(word) if word in set(Rule) else None
        if self.rule is None:
            return None
        reference = ground = None
        if self.rule in NEEDS_REFERENCE:
            label = translate("CheckSides", "Reference")
            source = self.source(parameters, self.REFERENCE, context)
            reference = read_reference(source, self.crs, self.job.plan, context, feedback, label)
            require_areas([self.rule], reference, label)
        if self.rule in NEEDS_SURFACE:
            ground = self.layer_surface(parameters, self.SURFACE, context, feedback)
            require_same_crs(self.crs, ground.crs, ground.name)
        wind = WINDS.index(self.word(parameters, self.COMPASS, context) or "north")
        return Basis(
            reference,
            sampler(ground.data) if ground else None,
            45.0 * wind,
            z_scale=self.job.vertical.to(self.job.plan),
        )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        unit = self.job.plan
        tolerance = self.length_value(parameters, self.TOLERANCE, context, unit) or 0.0
        lines, laid = self.sources.lines, self.laid.lines
        match = best_lines(laid, lines, self.distance, tolerance)
        line = self._own_lines(match.line)
        named = bool(self.columns["line"])
        if named:
            match = match.taken(line)
        found = measure(laid, lines, np.maximum(line, 0), self.progress(feedback, 0.05, 0.8))
        side, doubt = self._sides(parameters, context, line, found)
        limit = self.parameterAsDouble(parameters, self.CORNER_LIMIT, context)
        asked = Asked(line, side, self.distance, tolerance, limit)
        names = Names(self.sources.names, self.stationing, unit)
        judged = [
            self._doubted(finding, doubt.get(g, ""))
            for g, finding in enumerate(verdicts(laid, asked, found, match, names))
        ]
        rows = Rows(self.sources, self.laid, self.stationing, asked, found, judged, unit)
        numbers = rows.numbers()
        rows.tell(feedback)
        results: dict[str, Any] = dict(numbers)
        has_z = self.laid.has_z
        kind = Qgis.WkbType.LineStringZ if has_z else Qgis.WkbType.LineString
        page = self.file(parameters, self.HTML, context)
        sink = self.sink(parameters, self.OUTPUT, context, fields(*COLUMNS), kind, self.crs)
        width = 3 if has_z else 2
        if sink is not None:
            with sink:
                made = (
                    (line_geometry(xyz[:, :width]), rows.attributes(g))
                    for g, xyz in enumerate(self.laid.table.coordinates)
                )
                sink.add_many(made, len(rows), self.progress(feedback, 0.85, 0.95))
            title = translate("CheckSides", "Checked guidelines")
            self.named_output(context, sink.id, title, style_checked)
            results[self.OUTPUT] = sink.id
        sink = self.sink(
            parameters,
            self.PLACES,
            context,
            fields(*PLACE_COLUMNS),
            Qgis.WkbType.Point,
            self.crs,
        )
        if sink is not None:
            with sink:
                for g in rows.not_passed:
                    sink.add(point_geometry(judged[g].place), rows.place(g))
            title = translate("CheckSides", "Places to look at")
            self.named_output(context, sink.id, title, style_flagged)
            results[self.PLACES] = sink.id
        if page:
            rows.report(self.crs, tolerance).write(page)
            results[self.HTML] = page
        return results

    def _own_lines(self, fitting: np.ndarray) -> np.ndarray:
        """Return the line of each guideline: the one it names, else the one it fits best."""
        name = self.columns["line"]
        if not name:
            return fitting
        rows: dict[str, int] = {}
        for k in reversed(range(len(self.sources.names))):
            rows[str(self.sources.table.ids[k])] = k
        for k in reversed(range(len(self.sources.names))):
            rows[self.sources.names[k]] = k
        table = self.laid.table
        line = fitting.copy()
        for g, text in enumerate(column_texts(table.columns[name])):
            if not text:
                continue
            if text not in rows:
                raise UndercourseError(
                    translate(
                        "CheckSides",
                        "Guideline {id}: there is no line called “{name}” or with that id in the lines, mend the field “{field}” or choose another.",
                    ).format(id=table.ids[g], name=text, field=name)
                )
            line[g] = self._part(rows[text], fitting[g])
        return line

    def _part(self, row: int, fitting: int) -> int:
        """Return the part of a feature that fits, where a line has several parts."""
        ids = self.sources.table.ids
        return int(fitting) if fitting >= 0 and ids[fitting] == ids[row] else row

    def _sides(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        line: np.ndarray,
        found: Measured,
    ) -> tuple[np.ndarray, dict[int, str]]:
        """Return the side asked of each guideline, 0 = any, and why some cannot be known."""
        if self.rule is None:
            word = self.word(parameters, self.SIDE, context)
            stated = word == STATED
            assert stated or word == NONE or not word
            return self._stated() if stated else (np.zeros(len(line), np.int64), {})
        assert self.basis is not None
        own = np.maximum(line, 0)
        fallback = np.where(np.isfinite(found.mean), np.abs(found.mean), found.nearest)
        distance = np.where(np.isfinite(self.distance), self.distance, np.maximum(fallback, 1e-6))
        judged = judge(self.sources.lines.take(own), [self.rule] * len(own), distance, self.basis)
        doubt = {g: why for g, why in enumerate(judged.why) if judged.code[g]}
        return np.where([not code for code in judged.code], judged.side, 0), doubt

    def _stated(self) -> tuple[np.ndarray, dict[int, str]]:
        table = self.laid.table
        side = np.zeros(len(table), np.int64)
        if self.columns["side"]:
            texts = column_texts(table.columns[self.columns["side"]])
            side = np.array([_WORDS.get(text.lower(), 0) for text in texts], np.int64)
        if self.columns["signed"]:
            for g, value in enumerate(table.columns[self.columns["signed"]]):
                try:
                    signed = parse_length(plain_value(value), self.job.plan)
                except LengthTextError:
                    continue
                side[g] = side[g] or int(np.sign(signed))
        if not side.any():
            message = translate(
                "CheckSides",
                "No guideline states its side: choose the side asked for, a field with sides, or “Any, but the same all along”.",
            )
            raise UndercourseError(message)
        doubt = {
            int(g): translate("CheckSides", "It does not state its side.")
            for g in np.flatnonzero(side == 0)
        }
        return side, doubt

    def _doubted(self, finding: Judgement, why: str) -> Judgement:
        """Return a finding, unclear where the side asked for cannot be known."""
        if not why or finding.flag:
            return finding
        return Judgement(UNCLEAR, "side", why, finding.start, finding.stop, finding.place)
