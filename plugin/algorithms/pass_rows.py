"""Passes as rows with attributes, in the log and in the report."""

from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingFeedback

from ..core.lines.direction import bearing_of, wind_of
from ..core.lines.passes import Manner, Passes
from ..core.lines.words import WINDS, wind_word
from ..core.text import translate
from ..core.units import describe_length
from ..documents.pass_plan import PassPlan
from ..documents.passes_report import Entry, passes_report
from ..documents.report import Report
from ..layers.crs import JobUnits, describe_crs

COLUMNS = (
    ("zone_id", int),
    ("zone", str),
    ("order", int),
    ("pass", int),
    ("piece", int),
    ("travel", str),
    ("bearing", float),
    ("ahead", bool),
    ("signed_offset", float),
    ("width", float),
    ("length", float),
)
LEFT_COLUMNS = (("zone_id", int), ("zone", str), ("area", float))
MOST_LOGGED = 20


@dataclass(frozen=True)
class Zone:
    """One zone and its passes."""

    identifier: int
    name: str
    area: shapely.Geometry
    passes: Passes


class Rows:
    """Turns passes into attributes, sentences and a report."""

    def __init__(self, zones: list[Zone], manner: Manner, job: JobUnits) -> None:
        self.zones, self.manner, self.job = zones, manner, job
        self.xy = [xy for zone in zones for xy in zone.passes.xy]
        self.zone = np.repeat(np.arange(len(zones)), [len(zone.passes) for zone in zones])
        self.first = np.cumsum([0] + [len(zone.passes) for zone in zones])
        self.without_heights = 0

    def attributes(self, n: int) -> list[Any]:
        """Return the attributes of a piece, in the order of `COLUMNS`."""
        zone = self.zones[self.zone[n]]
        own = int(n - self.first[self.zone[n]])
        passes, xy = zone.passes, self.xy[n]
        same = np.flatnonzero(passes.number == passes.number[own])
        bearing = float(bearing_of(xy[-1] - xy[0]))
        return [
            zone.identifier,
            zone.name,
            own + 1,
            int(passes.number[own]),
            int(np.flatnonzero(same == own)[0]) + 1,
            WINDS[int(wind_of(bearing))],
            bearing,
            bool(passes.ahead[own]),
            float(passes.offset[own]),
            self.manner.width,
            float(np.hypot(*np.diff(xy, axis=0).T).sum()),
        ]

    def numbers(self) -> dict[str, float]:
        """Return the figures of the run."""
        passes = [zone.passes for zone in self.zones]
        return {
            "PASS_COUNT": int(sum(len(np.unique(p.number)) for p in passes)),
            "LENGTH": float(sum(np.hypot(*np.diff(xy, axis=0).T).sum() for xy in self.xy)),
            "AREA": float(sum(shapely.area(zone.area) for zone in self.zones)),
            "COVERED": float(sum(shapely.area(p.covered) for p in passes)),
            "LEFT_OVER_AREA": float(sum(shapely.area(p.left_over) for p in passes)),
            "TWICE": float(sum(p.twice for p in passes)),
        }

    def _sentence(self, zone: Zone) -> str:
        area, unit = float(shapely.area(zone.area)), self.job.plan
        return translate(
            "PassLines",
            "{zone}: {count} passes, {covered:.1f} % of {area:,.1f} sq {unit} covered, {left:,.1f} sq {unit} left over.",
        ).format(
            zone=zone.name,
            count=len(np.unique(zone.passes.number)),
            covered=100.0 * float(shapely.area(zone.passes.covered)) / max(area, 1e-300),
            area=area,
            unit=unit.symbol,
            left=float(shapely.area(zone.passes.left_over)),
        )

    def tell(self, feedback: QgsProcessingFeedback) -> None:
        """Log the figures of each zone, and what is missing."""
        for zone in self.zones[:MOST_LOGGED]:
            feedback.pushInfo(self._sentence(zone))
        bare = [zone.name for zone in self.zones if not len(zone.passes)]
        if bare:
            feedback.pushWarning(
                translate(
                    "PassLines", "There is no pass in {zones}: the margin to turn takes all of it."
                ).format(zones=", ".join(bare[:MOST_LOGGED]))
            )
        if self.without_heights:
            feedback.pushWarning(
                translate(
                    "PassLines",
                    "{count} stretches have no height of the surface and are left out of the lines.",
                ).format(count=self.without_heights)
            )

    def report(self, crs: QgsCoordinateReferenceSystem) -> Report:
        """Return the report."""
        unit, manner = self.job.plan, self.manner
        about = [
            (translate("PassLines", "CRS"), describe_crs(crs)),
            (translate("PassLines", "Working width"), describe_length(manner.width, unit)),
            (translate("PassLines", "Overlap"), describe_length(manner.overlap, unit)),
        ]
        numbers = self.numbers()
        verdict = [
            translate(
                "PassLines",
                "{count} passes over {zones} zones: {covered:.1f} % covered, {left:,.1f} sq {unit} left over.",
            ).format(
                count=numbers["PASS_COUNT"],
                zones=len(self.zones),
                covered=100.0 * numbers["COVERED"] / max(numbers["AREA"], 1e-300),
                left=numbers["LEFT_OVER_AREA"],
                unit=unit.symbol,
            )
        ]
        entries = [
            Entry(
                zone.name,
                str(len(np.unique(zone.passes.number))),
                self._travel(zone),
                f"{sum(np.hypot(*np.diff(xy, axis=0).T).sum() for xy in zone.passes.xy):,.1f}",
                f"{shapely.area(zone.area):,.1f}",
                f"{shapely.area(zone.passes.covered):,.1f}",
                f"{shapely.area(zone.passes.left_over):,.1f}",
                f"{zone.passes.twice:,.1f}",
                PassPlan(zone.area, zone.passes, manner.width, unit),
            )
            for zone in self.zones
        ]
        left = numbers["LEFT_OVER_AREA"] > 1e-3 * numbers["AREA"]
        return passes_report(about, verdict, entries, unit.symbol, left)

    def _travel(self, zone: Zone) -> str:
        if not len(zone.passes):
            return ""
        first = zone.passes.xy[0]
        wind = int(wind_of(bearing_of(first[-1] - first[0])))
        if not self.manner.to_and_fro or zone.passes.number.max() == 1:
            return wind_word(wind)
        both = translate("PassLines", "{there}, then {back}")
        return both.format(there=wind_word(wind), back=wind_word(wind + 4))
