"""Checked guidelines as rows with attributes, in the log and in the report."""

from typing import Any

import numpy as np
from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingFeedback

from ..core.lines.check import Measured
from ..core.lines.stationing import Stationing
from ..core.lines.verdict import FAIL, PASS, UNCLEAR, Asked, Judgement
from ..core.lines.words import plain_length
from ..core.text import translate
from ..core.units import LinearUnit, describe_length, format_station
from ..documents.check_sides_report import Entry, check_sides_report
from ..documents.check_sketch import CheckSketch
from ..documents.report import Report
from ..layers.crs import describe_crs
from .line_inputs import NamedLines

COLUMNS = (
    ("guideline_id", int),
    ("part", int),
    ("name", str),
    ("line_id", int),
    ("line", str),
    ("result", str),
    ("flag", str),
    ("side_asked", str),
    ("side", str),
    ("offset_asked", float),
    ("offset_min", float),
    ("offset_max", float),
    ("offset_mean", float),
    ("corner_max", float),
    ("wrong_share", float),
    ("station_from", float),
    ("station_to", float),
    ("x", float),
    ("y", float),
    ("why", str),
)
PLACE_COLUMNS = (("guideline_id", int), ("name", str), ("result", str), ("flag", str), ("why", str))
MOST_LOGGED = 20


class Rows:
    """Turns what was judged into attributes, sentences and a report."""

    def __init__(
        self,
        sources: NamedLines,
        laid: NamedLines,
        stationing: Stationing,
        asked: Asked,
        found: Measured,
        judged: list[Judgement],
        unit: LinearUnit,
    ) -> None:
        self.sources, self.laid, self.stationing = sources, laid, stationing
        self.asked, self.found, self.judged, self.unit = asked, found, judged, unit

    def __len__(self) -> int:
        return len(self.judged)

    @property
    def not_passed(self) -> list[int]:
        """The guidelines that fail or are unclear."""
        return [g for g, finding in enumerate(self.judged) if finding.result != PASS]

    def numbers(self) -> dict[str, int]:
        """Return the counts."""
        results = [finding.result for finding in self.judged]
        return {
            "PASS_COUNT": results.count(PASS),
            "FAIL_COUNT": results.count(FAIL),
            "UNCLEAR_COUNT": results.count(UNCLEAR),
        }

    def attributes(self, g: int) -> list[Any]:
        """Return the attributes of a guideline, in the order of `COLUMNS`."""
        finding, found, line = self.judged[g], self.found, int(self.asked.line[g])
        known = line >= 0
        return [
            int(self.laid.table.ids[g]),
            int(self.laid.table.parts[g]),
            self.laid.names[g],
            int(self.sources.table.ids[line]) if known else None,
            self.sources.names[line] if known else None,
            finding.result,
            finding.flag or None,
            side_word(int(self.asked.side[g])) or None,
            self.side(g) or None,
            _number(self.asked.distance[g]),
            *(
                _number(values[g]) if known else None
                for values in (found.low, found.high, found.mean, found.farthest_corner)
            ),
            100.0 * self.wrong(g) if known else None,
            self.station(g, finding.start),
            self.station(g, finding.stop),
            float(finding.place[0]),
            float(finding.place[1]),
            finding.why or None,
        ]

    def place(self, g: int) -> list[Any]:
        """Return the attributes of the place to look at."""
        finding = self.judged[g]
        identifier = int(self.laid.table.ids[g])
        return [identifier, self.laid.names[g], finding.result, finding.flag, finding.why]

    def side(self, g: int) -> str:
        """Return the side a guideline was found on."""
        right, left = self.found.right[g], self.found.left[g]
        if self.asked.line[g] < 0 or not (right or left):
            return ""
        if min(right, left) > 1e-9:
            return "both"
        return side_word(1 if right else -1)

    def wrong(self, g: int) -> float:
        """Return the share on the wrong side."""
        side = self.asked.side[g]
        both = min(self.found.right[g], self.found.left[g])
        return float(self.found.left[g] if side > 0 else self.found.right[g] if side < 0 else both)

    def station(self, g: int, distance: float) -> float | None:
        line = int(self.asked.line[g])
        if line < 0 or not np.isfinite(distance):
            return None
        return float(self.stationing.station(line, distance))

    def sentences(self) -> tuple[list[str], bool]:
        """Return the verdict, and whether all is well."""
        numbers = self.numbers()
        clean = numbers["PASS_COUNT"] == len(self)
        if clean:
            text = translate("CheckSides", "All {count} guidelines lie where they should.")
            return [text.format(count=len(self))], True
        text = translate(
            "CheckSides",
            "{fail} of {count} guidelines fail, {unclear} cannot be judged, {passed} pass. Do not use those that fail before they are mended.",
        )
        return [
            text.format(
                fail=numbers["FAIL_COUNT"],
                count=len(self),
                unclear=numbers["UNCLEAR_COUNT"],
                passed=numbers["PASS_COUNT"],
            )
        ], False

    def tell(self, feedback: QgsProcessingFeedback) -> None:
        """Log the verdict, and what is wrong."""
        verdict, clean = self.sentences()
        for sentence in verdict:
            (feedback.pushInfo if clean else feedback.pushWarning)(sentence)
        for g in self.not_passed[:MOST_LOGGED]:
            feedback.pushWarning(f"{self.laid.names[g]}: {self.judged[g].why}")

    def report(self, crs: QgsCoordinateReferenceSystem, tolerance: float) -> Report:
        """Return the report."""
        about = [
            (translate("CheckSides", "CRS"), describe_crs(crs)),
            (translate("CheckSides", "Plan unit"), f"{self.unit.name} ({self.unit.symbol})"),
            (translate("CheckSides", "Tolerance"), describe_length(tolerance, self.unit)),
        ]
        verdict, clean = self.sentences()
        entries = [self._entry(g) for g in range(len(self))]
        return check_sides_report(about, verdict, entries, clean)

    def _entry(self, g: int) -> Entry:
        finding, found, line = self.judged[g], self.found, int(self.asked.line[g])
        labels = {
            PASS: translate("CheckSides", "Pass"),
            FAIL: translate("CheckSides", "FAIL"),
            UNCLEAR: translate("CheckSides", "Unclear"),
        }
        asked = [shown_side(side_word(int(self.asked.side[g])))]
        if np.isfinite(self.asked.distance[g]):
            asked.append(plain_length(float(self.asked.distance[g]), self.unit))
        measured = [shown_side(self.side(g))]
        if line >= 0 and np.isfinite(found.low[g]):
            low, high = (plain_length(float(v[g]), self.unit) for v in (found.low, found.high))
            measured.append(low if low == high else f"{low} - {high}")
        station = self.station(g, finding.start)
        where = f"{finding.place[0]:.2f}, {finding.place[1]:.2f}"
        if station is not None:
            where = f"{format_station(station, self.unit)}; {where}"
        sketch = None
        if finding.why and line >= 0:
            own, laid = self.sources.lines, self.laid.lines
            apart = float(np.nanmax([found.high[g], found.farthest_corner[g]]))
            sketch = CheckSketch(
                own.xy[own.line(line)], laid.xy[laid.line(g)], finding.place, apart, self.unit
            )
        return Entry(
            self.laid.names[g],
            self.sources.names[line] if line >= 0 else "",
            labels[finding.result],
            " ".join(part for part in asked if part),
            " ".join(part for part in measured if part),
            f"{100.0 * self.wrong(g):.0f} %" if line >= 0 else "",
            where,
            finding.why,
            sketch,
        )


def side_word(side: int) -> str:
    """Return the script word of a side, empty for none."""
    return {1: "right", -1: "left"}.get(side, "")


def shown_side(word: str) -> str:
    """Return what people read for the word of a side."""
    return {
        "right": translate("CheckSides", "right"),
        "left": translate("CheckSides", "left"),
        "both": translate("CheckSides", "both sides"),
    }.get(word, "")


def _number(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None
