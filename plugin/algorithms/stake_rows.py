"""Stakes as rows with attributes, in the log, the table and the report."""

from typing import Any

import numpy as np
from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingFeedback

from ..core.lines.direction import bearing_of, right_normals, wind_of
from ..core.lines.stakes import Reason, Stakes, grades_to_next
from ..core.lines.stationing import Stationing
from ..core.lines.stations import locate
from ..core.lines.words import WINDS, plain_length, wind_word
from ..core.text import translate
from ..core.units import LinearUnit, describe_length, format_station
from ..documents.report import Report
from ..documents.stakes_report import LineTable, Row, stakes_report
from ..layers.crs import JobUnits, describe_crs
from ..layers.csv_writing import with_units
from .line_inputs import NamedLines

COLUMNS = (
    ("number", int),
    ("source_id", int),
    ("line", str),
    ("station", str),
    ("station_value", float),
    ("reason", str),
    ("side", str),
    ("compass_side", str),
    ("signed_offset", float),
    ("offset", str),
    ("east", float),
    ("north", float),
    ("design", float),
    ("ground", float),
    ("cut_fill", float),
    ("mark", str),
    ("grade_next", float),
    ("next_distance", float),
    ("flag", str),
    ("why", str),
)
_PLAN = ("station_value", "signed_offset", "east", "north", "next_distance")
_HEIGHT = ("design", "ground", "cut_fill")
EVEN = 1e-3
"""Cut or fill below this is none, metres."""


class Rows:
    """Turns stakes into attributes, sentences and a report."""

    def __init__(
        self,
        sources: NamedLines,
        stationing: Stationing,
        stakes: Stakes,
        design: np.ndarray,
        ground: np.ndarray,
        job: JobUnits,
    ) -> None:
        self.sources, self.stakes, self.job = sources, stakes, job
        self.design, self.ground = design, ground
        self.station = stationing.station(stakes.line, stakes.distance)
        self.cut = ground - design
        scale = job.vertical.to(job.plan)
        self.grade = grades_to_next(stakes, design, scale)
        self.next = self._to_next()
        segment, _ = locate(sources.lines, stakes.line, stakes.distance)
        normal = right_normals(sources.lines.segment_directions[segment])
        self.wind = wind_of(bearing_of(normal * np.sign(stakes.offset)[:, None]))

    def _to_next(self) -> np.ndarray:
        one = grades_to_next(self.stakes, self.stakes.along)
        # The distance "rises" by itself: what is missing tells the last stake of each row.
        order = np.lexsort((self.stakes.distance, self.stakes.offset, self.stakes.line))
        gap = np.full(len(order), np.nan)
        gap[order[:-1]] = np.diff(self.stakes.along[order])
        return np.where(np.isfinite(one), gap, np.nan)

    def attributes(self, s: int) -> list[Any]:
        """Return the attributes of a stake, in the order of `COLUMNS`."""
        stakes, unit = self.stakes, self.job.plan
        offset = float(stakes.offset[s])
        flag, why = self.flag(s)
        return [
            s + 1,
            int(self.sources.table.ids[stakes.line[s]]),
            self.sources.names[stakes.line[s]],
            format_station(float(self.station[s]), unit),
            float(self.station[s]),
            ", ".join(word.name.lower() for word in Reason if stakes.reason[s] & word),
            "right" if offset > 0 else "left" if offset < 0 else "on line",
            WINDS[self.wind[s]] if offset else None,
            offset,
            describe_length(abs(offset), unit),
            float(stakes.xy[s, 0]),
            float(stakes.xy[s, 1]),
            float(self.design[s]),
            float(self.ground[s]),
            float(self.cut[s]),
            mark(float(self.cut[s]), self.job.vertical) or None,
            100.0 * float(self.grade[s]),
            float(self.next[s]),
            flag or None,
            why or None,
        ]

    def flag(self, s: int) -> tuple[str, str]:
        """Return why a stake is to be looked at."""
        flags, reasons = [], []
        if not self.stakes.clear[s]:
            flags.append("nearer_part")
            reasons.append(
                translate(
                    "StakePoints",
                    "Another part of the line is nearer than the offset: the point stands inside a tight bend.",
                )
            )
        for name, values, asked, text in (
            ("no_design", self.design, np.isfinite(self.design).any(), translate("StakePoints", "There is no design height here.")),  # noqa: E501
            ("no_ground", self.ground, np.isfinite(self.ground).any(), translate("StakePoints", "There is no ground here.")),  # noqa: E501
        ):  # fmt: skip
            if asked and not np.isfinite(values[s]):
                flags.append(name)
                reasons.append(text)
        return ", ".join(flags), " ".join(reasons)

    def head(self) -> list[str]:
        """Return the column names of the table, with units."""
        plan, height = self.job.plan.symbol, self.job.vertical.symbol
        units = dict.fromkeys(_PLAN, plan) | dict.fromkeys(_HEIGHT, height)
        units["grade_next"] = "percent"
        return with_units((name for name, _ in COLUMNS), units)

    def numbers(self) -> dict[str, float]:
        """Return the figures of the run."""
        known = self.cut[np.isfinite(self.cut)]
        flagged = sum(bool(self.flag(s)[0]) for s in range(len(self.stakes)))
        return {
            "STAKE_COUNT": len(self.stakes),
            "CUT_MAX": float(max(known.max(initial=0.0), 0.0)),
            "FILL_MAX": float(max(-known.min(initial=0.0), 0.0)) + 0.0,
            "FLAGGED_COUNT": flagged,
        }

    def tell(self, feedback: QgsProcessingFeedback, *, has_design: bool, has_ground: bool) -> None:
        """Log what was made, and what is missing."""
        for sentence in self._verdict():
            feedback.pushInfo(sentence)
        if not has_design:
            feedback.pushWarning(
                translate(
                    "StakePoints",
                    "The points have no design heights: the lines have none, so take them from a surface.",
                )
            )
        flagged = self.numbers()["FLAGGED_COUNT"]
        if flagged and (has_design or has_ground):
            feedback.pushWarning(
                translate(
                    "StakePoints", "{count} points are flagged: read their fields “flag” and “why”."
                ).format(count=flagged)
            )

    def _verdict(self) -> list[str]:
        numbers, unit = self.numbers(), self.job.vertical
        lines = len(np.unique(self.stakes.line))
        said = [
            translate("StakePoints", "{count} points on {lines} lines.").format(
                count=len(self.stakes), lines=lines
            )
        ]
        if np.isfinite(self.cut).any():
            said.append(
                translate(
                    "StakePoints",
                    "Largest cut {cut}, largest fill {fill}: cut is where the ground lies above the design.",
                ).format(
                    cut=describe_length(numbers["CUT_MAX"], unit),
                    fill=describe_length(numbers["FILL_MAX"], unit),
                )
            )
        return said

    def report(self, crs: QgsCoordinateReferenceSystem, surfaces: list[str]) -> Report:
        """Return the report; ``surfaces`` are the names of design and ground."""
        unit, vertical = self.job.plan, self.job.vertical
        about = [
            (translate("StakePoints", "CRS"), describe_crs(crs)),
            (translate("StakePoints", "Plan unit"), f"{unit.name} ({unit.symbol})"),
            (translate("StakePoints", "Unit of heights"), f"{vertical.name} ({vertical.symbol})"),
        ]
        labels = translate("StakePoints", "Design"), translate("StakePoints", "Ground")
        about += [(label, name) for label, name in zip(labels, surfaces, strict=True) if name]
        tables = [
            LineTable(self.sources.names[k], [self._row(int(s)) for s in rows])
            for k in np.unique(self.stakes.line)
            for rows in [np.flatnonzero(self.stakes.line == k)]
        ]
        flagged = self.numbers()["FLAGGED_COUNT"]
        verdict = self._verdict()
        if flagged:
            told = translate("StakePoints", "{count} points are flagged: the last column says why.")
            verdict.append(told.format(count=flagged))
        return stakes_report(about, verdict, tables, bool(flagged))

    def _row(self, s: int) -> Row:
        offset, unit = float(self.stakes.offset[s]), self.job.plan
        side = translate("StakePoints", "on the line")
        if offset:
            word = translate("StakePoints", "right") if offset > 0 else translate("StakePoints", "left")  # noqa: E501  # fmt: skip
            # Broken in one place only, so that the table keeps its width on paper.
            side = f"{plain_length(offset, unit)} {word}".replace(" ", "\N{NO-BREAK SPACE}")
            side += f" ({wind_word(int(self.wind[s]))})"
        decimals = 2 if self.job.vertical.is_feet else 3
        return Row(
            s + 1,
            format_station(float(self.station[s]), unit),
            side,
            f"{self.stakes.xy[s, 0]:.{decimals}f}",
            f"{self.stakes.xy[s, 1]:.{decimals}f}",
            *(
                f"{v[s]:.{decimals}f}" if np.isfinite(v[s]) else ""
                for v in (self.design, self.ground)
            ),
            mark(float(self.cut[s]), self.job.vertical),
            f"{100 * self.grade[s]:+.2f} %" if np.isfinite(self.grade[s]) else "",
            self.flag(s)[1],
        )


def mark(cut: float, unit: LinearUnit) -> str:
    """Return what stands on a stake: C or F with feet and tenths, or metres and hundredths.

    Common practice, no source: cut and fill are marked C and F, in feet to the tenth.
    """
    if not np.isfinite(cut):
        return ""
    base = unit.base
    value = cut * unit.to(base)
    decimals = 1 if base.is_feet else 2
    if abs(cut) * unit.metres < EVEN or round(abs(value), decimals) == 0.0:
        return translate("StakePoints", "on grade") if abs(cut) * unit.metres < EVEN else _marked(value, decimals + 1)  # noqa: E501  # fmt: skip
    return _marked(value, decimals)


def _marked(value: float, decimals: int) -> str:
    letter = translate("StakePoints", "C") if value > 0 else translate("StakePoints", "F")
    return f"{letter} {abs(value):.{decimals}f}"
