"""What is said about cross sections: in the log, on the pages, in the report."""

from collections.abc import Sequence

import numpy as np
from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingFeedback

from ..core.lines.words import plain_length
from ..core.text import translate
from ..core.units import describe_length
from ..documents.section_plot import View
from ..documents.section_report import (
    MOST_PLOTS,
    AreaRow,
    Content,
)
from ..documents.section_sheets import Head
from ..documents.volumes_report import Names, both, meaning, square
from ..layers.crs import describe_crs
from .section_reasons import Reasons
from .section_rows import Cut


class Story:
    """Sentences, views and tables of the sections of a run."""

    def __init__(self, cut: Cut, crs: QgsCoordinateReferenceSystem, widths: tuple[float, float]):
        self.cut, self.crs, self.widths = cut, crs, widths

    def numbers(self) -> dict[str, float]:
        """Return the figures of the run."""
        found = self.cut.quantities
        numbers: dict[str, float] = {
            "SECTION_COUNT": len(self.cut.sections),
            "FLAGGED_COUNT": sum(bool(flag) for flag, _ in self.cut.flags),
        }
        if found is not None:
            for name, volumes in (("CUT", found.cut), ("FILL", found.fill)):
                numbers[f"{name}_AVERAGE"] = float(volumes.average.sum())
                numbers[f"{name}_PRISMOIDAL"] = float(volumes.prismoidal.sum())
            if found.exact is not None:
                numbers["CUT_EXACT"], numbers["FILL_EXACT"] = map(float, found.exact[:2])
        return numbers

    def tell(self, feedback: QgsProcessingFeedback) -> None:
        """Log what was made, and what is to be looked at."""
        told = {finding.why for finding in self.cut.findings}
        for sentence in self.verdict():
            if sentence not in told:
                feedback.pushInfo(sentence)
        for finding in self.cut.findings:
            feedback.pushWarning(finding.why)
        flagged = self.numbers()["FLAGGED_COUNT"]
        if flagged:
            feedback.pushWarning(
                translate(
                    "CrossSections",
                    "{count} sections are flagged: read their fields “flag” and “why”.",
                ).format(count=flagged)
            )

    def verdict(self) -> list[str]:
        """Return the sentences that open the report."""
        cut, numbers = self.cut, self.numbers()
        lines = len(np.unique(cut.sections.line))
        text = translate("CrossSections", "{count} sections on one line; surfaces: {surfaces}.") if lines == 1 else translate("CrossSections", "{count} sections on {lines} lines; surfaces: {surfaces}.")  # noqa: E501  # fmt: skip
        said = [text.format(count=len(cut.sections), lines=lines, surfaces=len(cut.names))]
        said += [finding.why for finding in cut.findings]
        if cut.quantities is None or cut.upper is None or cut.lower is None:
            return said
        exact = "CUT_EXACT" in numbers
        kind = "EXACT" if exact else "PRISMOIDAL"
        how = translate("CrossSections", "exact between the surfaces") if exact else translate("CrossSections", "by the prismoidal formula")  # noqa: E501  # fmt: skip
        said.append(
            translate(
                "CrossSections",
                "Cut is {cut} where “{upper}” lies above “{lower}”; fill is {fill} where it lies below ({how}, between the first and the last section).",
            ).format(
                cut=both(numbers[f"CUT_{kind}"], cut.job.plan),
                fill=both(numbers[f"FILL_{kind}"], cut.job.plan),
                upper=cut.names[cut.upper],
                lower=cut.names[cut.lower],
                how=how,
            )
        )
        crossing = sum("crosses" in flag for flag, _ in cut.flags)
        if crossing:
            said.append(
                translate(
                    "CrossSections",
                    "{count} sections cross others on the inside of bends within their width: volumes by end areas count the ground there twice and are wrong by it.",
                ).format(count=crossing)
            )
        other = int(numbers["FLAGGED_COUNT"]) - crossing
        if other > 0:
            text = translate("CrossSections", "{count} more sections are to be looked at.") if crossing else translate("CrossSections", "{count} sections are to be looked at.")  # noqa: E501  # fmt: skip
            said.append(text.format(count=other))
        return said

    # --- plots -------------------------------------------------------------------------------

    def view(self, s: int) -> View:
        """Return what is to be seen of a section."""
        cut = self.cut
        guides = [
            (mark.offset, mark.height, mark.name)
            for mark in cut.marks_of.get(s, [])
            if mark.kind == "guideline"
        ]
        zones = []
        if cut.stretches is not None and cut.zones is not None:
            rows = range(*np.searchsorted(cut.stretches.section, (s, s + 1)))
            zones = [
                (
                    float(cut.stretches.start[r]),
                    float(cut.stretches.stop[r]),
                    cut.zones.names[cut.stretches.zone[r]],
                )
                for r in rows
            ]
        reach = -float(cut.sections.left_reach[s]), float(cut.sections.right_reach[s])
        shaded = cut.quantities is not None
        return View(
            cut.station_text(s),
            self._detail(s),
            [profiles.runs(s) for profiles in cut.profiles],
            cut.upper if shaded else None,
            cut.lower if shaded else None,
            guides,
            zones,
            reach,
        )

    def _detail(self, s: int) -> str:
        cut = self.cut
        parts = [cut.line_name(s)]
        if cut.quantities is not None:
            areas, plan = cut.quantities.areas, cut.job.plan
            parts += [
                translate("CrossSections", "cut {area}").format(
                    area=both(float(areas.cut[s]), plan, square)
                ),
                translate("CrossSections", "fill {area}").format(
                    area=both(float(areas.fill[s]), plan, square)
                ),
            ]
        if cut.flags[s][0]:
            parts.append(translate("CrossSections", "flagged, see the table"))
        return ";  ".join(parts)

    def views(self) -> list[View]:
        """Return all sections."""
        return [self.view(s) for s in range(len(self.cut.sections))]

    def head(self) -> Head:
        """Return what stands on every page."""
        about = [f"{label}: {text}" for label, text in self.about()]
        return Head(
            translate("CrossSections", "Cross sections"),
            about,
            self.cut.names,
            self.cut.quantities is not None,
        )

    def about(self) -> list[tuple[str, str]]:
        """Return layers, CRS and units."""
        cut = self.cut
        plan, vertical = cut.job.plan, cut.job.vertical
        units = f"{plan.name} ({plan.symbol})"
        if not plan.same_as(vertical):
            units += translate("CrossSections", ", heights in {unit}").format(
                unit=f"{vertical.name} ({vertical.symbol})"
            )
        left, right = (plain_length(width, plan) for width in self.widths)
        about = [
            (translate("CrossSections", "Surfaces"), ", ".join(cut.names)),
            (translate("CrossSections", "CRS"), describe_crs(self.crs)),
            (translate("CrossSections", "Units"), units),
            (
                translate("CrossSections", "Width"),
                translate("CrossSections", "{left} left, {right} right").format(
                    left=left, right=right
                ),
            ),
        ]
        if cut.quantities is not None and cut.upper is not None and cut.lower is not None:
            about.insert(
                1,
                (
                    translate("CrossSections", "Cut and fill"),
                    translate(
                        "CrossSections",
                        "cut where “{upper}” lies above “{lower}”, fill where it lies below",
                    ).format(upper=cut.names[cut.upper], lower=cut.names[cut.lower]),
                ),
            )
        return about

    # --- report ------------------------------------------------------------------------------

    def content(self, rasters: bool) -> Content:
        """Return what the report says; ``rasters`` when there are any among the surfaces."""
        cut = self.cut
        flagged = [("", "", finding.why) for finding in cut.findings]
        flagged += [
            (cut.line_name(s), cut.station_text(s), why)
            for s, (_, why) in enumerate(cut.flags)
            if why
        ]
        count = len(cut.sections)
        some = np.unique(np.linspace(0, count - 1, min(count, MOST_PLOTS)).round().astype(int))
        reasons = Reasons(cut, self.numbers())
        return Content(
            self.about(),
            self.verdict(),
            self._meaning(),
            reasons.methods() if cut.quantities is not None else [],
            reasons.reasons(),
            self._areas(),
            flagged,
            self._marks(),
            [self.view(int(s)) for s in some],
            _rules(rasters),
            cut.names,
        )

    def _meaning(self) -> str:
        cut = self.cut
        if cut.upper is None or cut.lower is None:
            return ""
        return meaning(Names(cut.names[cut.upper], cut.names[cut.lower]))

    def _areas(self) -> list[AreaRow]:
        cut, found = self.cut, self.cut.quantities
        if found is None:
            return []
        nxt = dict(zip(found.spans.first.tolist(), range(len(found.spans)), strict=True))
        return [
            AreaRow(
                cut.line_name(s),
                cut.station_text(s),
                float(found.areas.cut[s]),
                float(found.areas.fill[s]),
                float(found.areas.covered[s]),
                float(found.cut.average[nxt[s]]) if s in nxt else np.nan,
                float(found.fill.average[nxt[s]]) if s in nxt else np.nan,
            )
            for s in range(len(cut.sections))
        ]

    def _marks(self) -> Sequence[tuple[str, str, str, str, str]]:
        cut, plan, vertical = self.cut, self.cut.job.plan, self.cut.job.vertical
        rows = []
        decimals = 2 if vertical.is_feet else 3
        for mark in cut.marks:
            if mark.kind != "guideline":
                continue
            side = translate("CrossSections", "right") if mark.offset > 0 else translate("CrossSections", "left")  # noqa: E501  # fmt: skip
            rows.append(
                (
                    cut.line_name(mark.section),
                    cut.station_text(mark.section),
                    mark.name,
                    f"{describe_length(abs(mark.offset), plan)} {side}",
                    f"{mark.height:.{decimals}f}" if np.isfinite(mark.height) else "",
                )
            )
        return rows


def _rules(rasters: bool) -> list[str]:
    rules = [
        translate(
            "CrossSections",
            "Sections are square to the line, radial on its true arcs, and at a vertex on the bisector, where they reach as far as the strip beside both legs does; areas there count times the cosine of half the turn in volumes.",
        ),
        translate(
            "CrossSections",
            "Along a TIN a profile bends exactly where the section crosses an edge. Areas are split exactly where two profiles cross, and count only where both surfaces are.",
        ),
    ]
    if rasters:
        rules.append(
            translate(
                "CrossSections",
                "Along a raster a profile has a height wherever the section crosses a row or a column of pixel centres, and at its ends, interpolated between the centres, and runs straight from one to the next.",
            )
        )
    rules.append(
        translate(
            "CrossSections",
            "Volumes are those in place: nothing is added for swell or taken off for shrinkage.",
        )
    )
    return rules
