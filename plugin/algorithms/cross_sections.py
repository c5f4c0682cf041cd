"""Cross sections of surfaces along lines, with areas and volumes."""

from typing import Any

import numpy as np
from qgis.core import Qgis, QgsProcessingContext, QgsProcessingFeedback

from ..core.errors import UndercourseError
from ..core.findings import Finding
from ..core.lines.stakes import Reason, Wanted, set_out
from ..core.measure.fitness import overlaps_of
from ..core.measure.section_lines import Sections, meetings, sections_at
from ..core.measure.section_marks import borders_of, crossings, stretches_in
from ..core.measure.section_quantities import Quantities, Strip, quantities
from ..core.measure.sections import Profiles
from ..core.text import translate
from ..core.tin import Tin
from ..core.tolerance import Tolerance
from ..core.units import METRE, parse_length
from ..documents.pdf_pages import A4, LETTER, write_pdf
from ..documents.section_report import sections_report
from ..documents.section_sheets import sheets
from ..layers.csv_writing import write_csv
from ..layers.fields import fields
from ..layers.section_profiles import profiler
from ..layers.tables import usual_field
from ..styles import style_section_marks, style_sections
from .base import UndercourseAlgorithm
from .line_inputs import read_named_lines
from .parameters import about
from .section_columns import AREA_COLUMNS, MARK_COLUMNS, SECTION_COLUMNS
from .section_inputs import read_named_zones, read_stack
from .section_parameters import add_parameters
from .section_rows import Cut
from .section_story import Story
from .station_parameters import listed_stations, read_stationing, station_field

MOST_SECTIONS = 20_000
"""More than this is a slip in the interval."""


class CrossSections(UndercourseAlgorithm):
    """Sections with profiles, marks, areas, volumes and plots."""

    name_id = "cross_sections"
    group_id = "checks"

    LINES = "LINES"
    INTERVAL = "INTERVAL"
    STATION_LIST = "STATION_LIST"
    WIDTH = "WIDTH"
    WIDTH_LEFT = "WIDTH_LEFT"
    WIDTH_RIGHT = "WIDTH_RIGHT"
    SURFACES = "SURFACES"
    UPPER = "UPPER"
    LOWER = "LOWER"
    GUIDELINES = "GUIDELINES"
    ZONES = "ZONES"
    SCALE = "SCALE"
    NAME_FIELD = "NAME_FIELD"
    GUIDE_NAME_FIELD = "GUIDE_NAME_FIELD"
    ZONE_NAME_FIELD = "ZONE_NAME_FIELD"
    PAPER = "PAPER"
    SECTIONS = "SECTIONS"
    MARKS = "MARKS"
    AREAS = "AREAS"
    CSV = "CSV"
    PDF = "PDF"
    HTML = "HTML"

    def title(self) -> str:
        return translate("CrossSections", "Cross sections")

    def summary(self) -> str:
        return translate(
            "CrossSections",
            "Cuts sections across lines through any number of surfaces: profiles, plots, areas of cut and fill, and volumes by end areas, by the prismoidal formula and exactly.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "CrossSections",
                "Sections stand square to the line, radial on true arcs, and on the bisector at a vertex, and look from its first to its last vertex. Offsets are + to the right and - to the left. Profiles of TINs are exact at every edge that a section crosses.",
            ),
            translate(
                "CrossSections",
                "Cut is where the upper surface (usually the ground) lies above the lower one (usually the design), fill where it lies below. Areas count only where both surfaces are, and are split exactly where they cross.",
            ),
            translate(
                "CrossSections",
                "Volumes by average end areas and by the prismoidal formula stand beside the exact volume of the same strip of ground where both surfaces are TINs; the report says why they differ. Nothing is added for swell.",
            ),
            translate(
                "CrossSections",
                "A section is flagged where it crosses another one on the inside of a bend within its width (volumes by end areas count ground twice there), where the line turns sharply, and where a surface is missing.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "CrossSections",
            "cross section,profile,station,end area,prismoidal,cut,fill,volume,earthwork,alignment,plot",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_parameters(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        for name in (self.INTERVAL, self.WIDTH, self.WIDTH_LEFT, self.WIDTH_RIGHT):
            text = self.text(parameters, name, context)
            if text and parse_length(text, METRE) < 0:
                return self._about(
                    name, translate("CrossSections", "it must not be negative, write it without a sign.")  # noqa: E501
                )  # fmt: skip
        if not sum(self._widths(parameters, context, METRE)):
            return self._about(
                self.WIDTH, translate("CrossSections", "a section needs a width on one side at least.")  # noqa: E501
            )  # fmt: skip
        return None

    def _about(self, name: str, why: str) -> str:
        return about(self.parameterDefinition(name), why)

    def _widths(self, parameters, context, unit) -> tuple[float, float]:
        """Return the widths to the left and to the right."""
        both = self.length_value(parameters, self.WIDTH, context, unit) or 0.0
        sides = (
            self.length_value(parameters, name, context, unit)
            for name in (self.WIDTH_LEFT, self.WIDTH_RIGHT)
        )
        left, right = (both if side is None else side for side in sides)
        return left, right

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
        self.snap = 1e-4 / unit.metres
        self.sources = read_named_lines(
            source,
            station_field(self, parameters, context),
            self.text(parameters, self.NAME_FIELD, context) or usual_field(source, "name"),
            unit,
            context,
            feedback,
            translate("CrossSections", "Lines"),
        )
        self.arcs = self.sources.arcs
        self.stationing = read_stationing(self, parameters, context, feedback, self.sources, unit)
        left, right = self._widths(parameters, context, unit)
        self.strip = Strip(self.sources.lines, left, right, self.arcs, self.snap)
        self.sections = self._sections(parameters, context)
        self.stack = read_stack(
            self,
            parameters,
            context,
            feedback,
            self.crs,
            (self.SURFACES, self.UPPER, self.LOWER),
        )
        more = self.crs, unit, context, feedback
        guides = self.source(parameters, self.GUIDELINES, context)
        self.guides = None
        if guides is not None:
            field = self.text(parameters, self.GUIDE_NAME_FIELD, context)
            self.guides = read_named_lines(
                guides,
                (),
                field or usual_field(guides, "name"),
                unit,
                context,
                feedback,
                translate("CrossSections", "Guidelines"),
                self.crs,
            )
        self.zones = read_named_zones(
            self.source(parameters, self.ZONES, context),
            self.text(parameters, self.ZONE_NAME_FIELD, context),
            *more,
        )

    def _sections(self, parameters: dict[str, Any], context: QgsProcessingContext) -> Sections:
        """Return the sections asked for."""
        lines = self.sources.lines
        interval = self.length_value(parameters, self.INTERVAL, context, self.job.plan) or 0.0
        listed = listed_stations(
            self, parameters, self.STATION_LIST, context, self.stationing, self.job.plan
        )
        count = len(listed) + (float(lines.lengths.sum()) / interval if interval else 0.0)
        if count > MOST_SECTIONS:
            raise UndercourseError(
                self._about(
                    self.INTERVAL,
                    translate(
                        "CrossSections",
                        "it gives {count} sections, more than {most}: take a longer one.",
                    ).format(count=round(count), most=MOST_SECTIONS),
                )
            )
        wanted = Wanted(interval, listed)
        stakes = set_out(lines, self.stationing, wanted, np.zeros(1), self.snap, self.arcs)
        kept = np.ones(len(stakes), bool)
        if not interval and len(listed):
            kept = (stakes.reason & int(Reason.LISTED)) > 0
        strip = self.strip
        return sections_at(
            lines,
            stakes.line[kept],
            stakes.distance[kept],
            strip.left,
            strip.right,
            self.arcs,
            self.snap,
        )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        cut = self._cut(feedback)
        exaggeration = self.parameterAsDouble(parameters, self.SCALE, context)
        plan, vertical = self.job.plan, self.job.vertical
        story = Story(cut, self.crs, (self.strip.left, self.strip.right))
        story.tell(feedback)
        results: dict[str, Any] = dict(story.numbers())
        table, plots, page = (
            self.file(parameters, name, context) for name in (self.CSV, self.PDF, self.HTML)
        )
        columns = fields(*SECTION_COLUMNS)
        kind = Qgis.WkbType.MultiLineStringZ
        sink = self.sink(parameters, self.SECTIONS, context, columns, kind, self.crs)
        if sink is not None:
            with sink:
                sink.add_many(cut.section_rows())
            self.named_output(context, sink.id, self.title(), style_sections)
            results[self.SECTIONS] = sink.id
        columns = fields(*MARK_COLUMNS)
        sink = self.sink(parameters, self.MARKS, context, columns, Qgis.WkbType.PointZ, self.crs)
        if sink is not None:
            with sink:
                sink.add_many(cut.mark_rows())
            name = translate("CrossSections", "Marks on sections")
            self.named_output(context, sink.id, name, style_section_marks)
            results[self.MARKS] = sink.id
        columns = fields(*AREA_COLUMNS)
        sink = self.sink(
            parameters, self.AREAS, context, columns, Qgis.WkbType.NoGeometry, self.crs
        )
        if sink is not None:
            with sink:
                sink.add_many((None, row) for row in cut.area_rows())
            self.named_output(context, sink.id, translate("CrossSections", "Areas of sections"))
            results[self.AREAS] = sink.id
        if table:
            count, rows = cut.point_rows()
            write_csv(table, cut.point_head(), rows, count, self.progress(feedback, 0.7, 0.8))
            results[self.CSV] = table
        if plots:
            word = self.word(parameters, self.PAPER, context)
            feet = plan.base.is_feet
            paper = {"letter": LETTER, "a4": A4}.get(word, LETTER if feet else A4)
            pages = sheets(story.views(), story.head(), paper, plan, vertical, exaggeration)
            write_pdf(plots, self.title(), pages, self.progress(feedback, 0.8, 0.97))
            results[self.PDF] = plots
        if page:
            rasters = any(not isinstance(one.data, Tin) for one in self.stack.surfaces)
            content = story.content(rasters)
            sections_report(content, plan, vertical, exaggeration).write(page)
            results[self.HTML] = page
        return results

    def _cut(self, feedback: QgsProcessingFeedback) -> Cut:
        """Return the sections with all that lies on them."""
        surfaces = self.stack.surfaces
        metres = self.job.plan.metres
        profiles: list[Profiles] = []
        for number, surface in enumerate(surfaces):
            share = 0.5 / len(surfaces)
            progress = self.progress(feedback, 0.05 + share * number, 0.05 + share * (number + 1))
            profiles.append(profiler(surface.data, metres, progress)(self.sections))
            progress(1.0)
        strip, stack = self.strip, self.stack
        found: Quantities | None = None
        if stack.upper is not None and stack.lower is not None:
            found = self._quantities(profiles, stack.upper, stack.lower, feedback)
        guides, zones = self.guides, self.zones
        lines = self.sources.lines
        stretches = None
        if zones:
            stretches = stretches_in(self.sections, zones.polygons, lines, strip.snap)
        return Cut(
            self.sources,
            self.stationing,
            self.sections,
            self.job,
            stack.names,
            profiles,
            meetings(self.sections),
            stack.upper,
            stack.lower,
            found,
            guides,
            crossings(self.sections, guides.lines, strip.snap) if guides else None,
            zones,
            stretches,
            borders_of(stretches, self.sections, strip.snap) if stretches else None,
            self._faults(),
        )

    def _faults(self) -> list[Finding]:
        """Return what makes surfaces unfit to be measured."""
        tolerance = Tolerance.for_unit(self.job.plan.metres)
        return [
            finding
            for surface, name in zip(self.stack.surfaces, self.stack.names, strict=True)
            if isinstance(surface.data, Tin)
            for finding in overlaps_of(surface.data, name, tolerance)
        ]

    def _quantities(
        self, profiles: list[Profiles], upper: int, lower: int, feedback: QgsProcessingFeedback
    ) -> Quantities:
        one, other = (self.stack.surfaces[k].data for k in (upper, lower))
        progress = self.progress(feedback, 0.55, 0.7)
        make = [profiler(data, self.job.plan.metres) for data in (one, other)]
        tins = (one, other) if isinstance(one, Tin) and isinstance(other, Tin) else None
        return quantities(
            self.sections,
            self.strip,
            (profiles[upper], profiles[lower]),
            (make[0], make[1]),
            tins,
            self.job.vertical.to(self.job.plan),
            progress,
        )
