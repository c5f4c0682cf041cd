"""Give lines one direction, and join the pieces that touch."""

from typing import Any

import shapely
from qgis.core import QgsFeatureSink, QgsProcessingContext, QgsProcessingFeedback

from ..core.errors import LineError
from ..core.lines.bundle import Lines
from ..core.lines.heading_votes import Track
from ..core.lines.orient import Basis, Rule
from ..core.lines.oriented import Joining, Pieces, orient_lines
from ..core.text import translate
from ..core.units import METRE, parse_length
from ..layers.crs import require_same_crs
from ..layers.curve_runs import arc_ends, as_kind, read_curves, single_type, string_together
from ..layers.sampling import sampler
from ..layers.tables import column_texts, usual_field
from ..styles import style_oriented_lines
from .base import UndercourseAlgorithm
from .line_inputs import read_named_lines, read_reference
from .orient_parameters import add_parameters, rule_labels
from .orient_rows import Rows
from .orient_story import report_of, tell
from .parameters import about


class OrientLines(UndercourseAlgorithm):
    """Lines that all run the way a rule says."""

    name_id = "orient_lines"
    group_id = "guidelines"

    LINES = "LINES"
    RULE = "RULE"
    REFERENCE = "REFERENCE"
    BEARING = "BEARING"
    SURFACE = "SURFACE"
    JOIN = "JOIN"
    TOLERANCE = "TOLERANCE"
    HEIGHT_TOLERANCE = "HEIGHT_TOLERANCE"
    NAME_FIELD = "NAME_FIELD"
    WITHIN_NAME = "WITHIN_NAME"
    MIN_SHARE = "MIN_SHARE"
    OUTPUT = "OUTPUT"
    HTML = "HTML"

    def title(self) -> str:
        return translate("OrientLines", "Orient lines")

    def summary(self) -> str:
        return translate(
            "OrientLines",
            "Turns lines round so that all of them run one way by a stated rule, and joins the pieces that touch; what cannot be decided stays as it is and is flagged.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "OrientLines",
                "Right and left of a line, its stations, and the way in which a machine is led along it all follow from the direction in which it is drawn. Run this first, and later steps mean the same side on every line.",
            ),
            translate(
                "OrientLines",
                "A rule is tried on many stretches of each line. At least half of its length must tell a direction, and the stated share of that must agree; otherwise the line keeps its direction and gets a flag, a reason and a place to look at.",
            ),
            translate(
                "OrientLines",
                "Every vertex keeps its height and its M when a line is turned, so that M falls along a line that was turned; stations of later steps are counted anew from the first vertex. True arcs stay true arcs.",
            ),
            translate(
                "OrientLines",
                "Pieces are joined where two ends meet, and where more meet only along the clearly straightest way through. Rings of pieces become closed lines that start with their longest piece. A joined line lists its pieces, those turned round with a minus; it keeps the attributes in which all of its pieces agree.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "OrientLines",
            "direction,reverse,flip,turn round,join,merge,chain,stationing,clockwise,downhill,bearing,curb,kerb",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        rule = self._rule(parameters, context)
        if rule is Rule.UP_STATION and self.is_blank(parameters, self.REFERENCE):
            return translate(
                "OrientLines",
                "The rule “{rule}” needs lines to go by: choose a layer for Reference.",
            ).format(rule=rule_labels()[rule])
        for name in (self.TOLERANCE, self.HEIGHT_TOLERANCE):
            text = self.text(parameters, name, context)
            if text and parse_length(text, METRE) < 0.0:
                return about(
                    self.parameterDefinition(name),
                    translate("OrientLines", "it is less than 0, write 0 or more."),
                )
        return None

    def _rule(self, parameters: dict[str, Any], context: QgsProcessingContext) -> Rule:
        return Rule(self.word(parameters, self.RULE, context) or Rule.LONGEST)

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
        self.rule = self._rule(parameters, context)
        self.names_from = self.text(parameters, self.NAME_FIELD, context) or usual_field(
            source, "name"
        )
        self.fields = source.fields()
        self.sources = read_named_lines(
            source,
            self.fields.names(),
            self.names_from,
            unit,
            context,
            feedback,
            translate("OrientLines", "Lines"),
        )
        self.curves = read_curves(source, self.sources.table)
        self.kind = single_type(source.wkbType(), self.curves)
        self.track = self._track(parameters, context, feedback)
        self.ground = None
        if self.rule in (Rule.DOWNHILL, Rule.UPHILL):
            self.ground = self.layer_surface(parameters, self.SURFACE, context, feedback)
            if self.ground is not None:
                require_same_crs(self.crs, self.ground.crs, self.ground.name)
            elif not self.sources.has_z:
                raise LineError(
                    translate(
                        "OrientLines",
                        "The lines have no heights, so that none of them falls or rises: choose a layer for Surface.",
                    )
                )

    def _track(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> Track | None:
        """Read the references of the rule that needs them."""
        if self.rule is not Rule.UP_STATION:
            return None
        source = self.source(parameters, self.REFERENCE, context)
        label = translate("OrientLines", "Reference")
        found = read_reference(source, self.crs, self.job.plan, context, feedback, label).single
        snap = 1e-4 / self.job.plan.metres
        found = found[(shapely.get_dimensions(found) == 1) & (shapely.length(found) > snap)]
        if not len(found):
            raise LineError(
                translate("OrientLines", "{label}: there is no line with a length in it.").format(
                    label=label
                )
            )
        return Track(Lines.from_arrays([shapely.get_coordinates(line) for line in found], snap))

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        unit, vertical = self.job.plan, self.job.vertical
        table = self.sources.table
        groups = None
        if self.names_from and self.parameterAsBoolean(parameters, self.WITHIN_NAME, context):
            groups = column_texts(table.columns[self.names_from])
        pieces = Pieces(
            self.sources.lines,
            table.coordinates,
            table.ids.tolist(),
            groups,
            arc_ends(self.curves),
        )
        basis = Basis(
            self.track,
            self.parameterAsDouble(parameters, self.BEARING, context),
            sampler(self.ground.data) if self.ground else None,
            vertical.to(unit),
            self.parameterAsDouble(parameters, self.MIN_SHARE, context) / 100.0,
        )
        joining = Joining(
            self.parameterAsBoolean(parameters, self.JOIN, context),
            self.length_value(parameters, self.TOLERANCE, context, unit) or 0.0,
            self.length_value(parameters, self.HEIGHT_TOLERANCE, context, vertical) or 0.0,
            1e-4 / unit.metres,
        )
        progress = self.progress(feedback, 0.05, 0.8)
        done = orient_lines(pieces, self.rule, basis, joining, progress)
        track = self.track.lines if self.track else None
        drawn = [track.xy[track.line(k)] for k in range(len(track))] if track else []
        rows = Rows(self.sources, self.fields, done, self.rule, joining.join, unit, drawn)
        numbers = rows.numbers()
        tell(rows, numbers, feedback)
        page = self.file(parameters, self.HTML, context)
        results: dict[str, Any] = dict(numbers)
        sink = self.sink(
            parameters,
            self.OUTPUT,
            context,
            rows.fields,
            self.kind,
            self.crs,
            QgsFeatureSink.SinkFlag.RegeneratePrimaryKey,
        )
        if sink is not None:
            with sink:
                made = (
                    (
                        as_kind(string_together(self.curves, chain, run), self.kind),
                        rows.attributes(n),
                    )
                    for n, (chain, run) in enumerate(zip(done.chains, done.runs, strict=True))
                )
                sink.add_many(made, len(done.chains), self.progress(feedback, 0.8, 0.95))
            self.named_output(
                context, sink.id, translate("OrientLines", "Oriented lines"), style_oriented_lines
            )
            results[self.OUTPUT] = sink.id
        if page:
            report_of(rows, numbers, self.crs).write(page)
            results[self.HTML] = page
        return results
