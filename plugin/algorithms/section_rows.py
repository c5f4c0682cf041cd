"""Cross sections as rows with attributes, for the layers and tables."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
from qgis.core import QgsGeometry

from ..core.findings import Finding
from ..core.lines.direction import bearing_of
from ..core.lines.stationing import Stationing
from ..core.measure.section_lines import Meetings, Sections
from ..core.measure.section_marks import Borders, Crossings, Stretches
from ..core.measure.section_quantities import Quantities
from ..core.measure.section_table import points_of
from ..core.measure.sections import Profiles
from ..core.units import METRE, format_station
from ..documents.section_report import cubic_yards
from ..layers.crs import JobUnits
from ..layers.csv_writing import with_units
from ..layers.lines import multiline_geometry, point_geometry
from .line_inputs import NamedLines
from .section_flags import flag_of
from .section_inputs import NamedZones


@dataclass(frozen=True)
class Mark:
    """A place on a section that is marked.

    Parameters
    ----------
    section
        The section.
    kind
        ``guideline`` or ``zone_border``.
    name
        What it is called.
    offset
        Where, right +.
    height
        Height of the guideline, or NaN.
    """

    section: int
    kind: str
    name: str
    offset: float
    height: float


@dataclass(frozen=True)
class Cut:
    """Everything that is known of the sections of a run."""

    sources: NamedLines
    stationing: Stationing
    sections: Sections
    job: JobUnits
    names: list[str]
    profiles: list[Profiles]
    meetings: Meetings
    upper: int | None
    lower: int | None
    quantities: Quantities | None
    guides: NamedLines | None
    crossings: Crossings | None
    zones: NamedZones | None
    stretches: Stretches | None
    borders: Borders | None
    findings: list[Finding]

    @cached_property
    def station(self) -> np.ndarray:
        """Station of each section."""
        return self.stationing.station(self.sections.line, self.sections.distance)

    def station_text(self, s: int) -> str:
        """Return the station of a section as text."""
        return format_station(float(self.station[s]), self.job.plan)

    def line_name(self, s: int) -> str:
        """Return what the line of a section is called."""
        return self.sources.names[self.sections.line[s]]

    @cached_property
    def marks(self) -> list[Mark]:
        """All marks, by section and offset."""
        found = []
        if self.crossings is not None and self.guides is not None:
            c = self.crossings
            found += [
                Mark(int(s), "guideline", self.guides.names[k], float(o), float(z))
                for s, k, o, z in zip(c.section, c.line, c.offset, c.z, strict=True)
            ]
        if self.borders is not None and self.zones is not None:
            b, names = self.borders, self.zones.names
            found += [
                Mark(
                    int(s),
                    "zone_border",
                    " | ".join(names[k] if k >= 0 else "–" for k in (one, other)),
                    float(o),
                    np.nan,
                )
                for s, o, one, other in zip(b.section, b.offset, b.before, b.after, strict=True)
            ]
        return sorted(found, key=lambda mark: (mark.section, mark.offset))

    @cached_property
    def marks_of(self) -> dict[int, list[Mark]]:
        """The marks of each section that has any."""
        found: dict[int, list[Mark]] = {}
        for mark in self.marks:
            found.setdefault(mark.section, []).append(mark)
        return found

    @cached_property
    def flags(self) -> list[tuple[str, str]]:
        """Flag and sentence of each section, empty where nothing is to be looked at."""
        return [flag_of(self, s) for s in range(len(self.sections))]

    def section_rows(self) -> Iterator[tuple[QgsGeometry, list[Any]]]:
        """Yield the geometry and attributes of each section and surface."""
        left, right = self.sections.ends
        # Looking up the line, right is 90 degrees clockwise.
        bearing = (bearing_of(self.sections.right) - 90.0) % 360.0
        for s in range(len(self.sections)):
            flag, why = self.flags[s]
            station = self.station_text(s)
            for name, profiles in zip(self.names, self.profiles, strict=True):
                runs = profiles.runs(s)
                if not runs:
                    continue
                every = np.concatenate(runs)
                parts = [
                    np.column_stack(
                        (self.sections.places(np.full(len(run), s), run[:, 0]), run[:, 1])
                    )
                    for run in runs
                ]
                on_line = self._heights(profiles, s, 0.0)
                yield (
                    multiline_geometry(parts),
                    [
                        s + 1,
                        int(self.sources.table.ids[self.sections.line[s]]),
                        self.line_name(s),
                        station,
                        float(self.station[s]),
                        name,
                        f"{self.line_name(s)} {station}",
                        float(every[0, 0]),
                        float(every[-1, 0]),
                        float(every[:, 1].min()),
                        float(every[:, 1].max()),
                        on_line,
                        len(runs) - 1,
                        *(float(v) for v in (*left[s], *right[s])),
                        float(bearing[s]),
                        flag or None,
                        why or None,
                    ],
                )

    def _heights(self, profiles: Profiles, s: int, offset: float) -> float:
        at = np.array([s]), np.array([offset])
        right = float(profiles.heights(*at)[0])
        return right if np.isfinite(right) else float(profiles.heights(*at, after=False)[0])

    def mark_rows(self) -> Iterator[tuple[QgsGeometry, list[Any]]]:
        """Yield the geometry and attributes of each mark."""
        for mark in self.marks:
            s = mark.section
            surface, under = "", np.nan
            for name, profiles in zip(self.names, self.profiles, strict=True):
                under = self._heights(profiles, s, mark.offset)
                if np.isfinite(under):
                    surface = name
                    break
            height = mark.height if np.isfinite(mark.height) else under
            xy = self.sections.places(np.array([s]), np.array([mark.offset]))[0]
            yield (
                point_geometry((*xy, height)),
                [
                    s + 1,
                    self.line_name(s),
                    self.station_text(s),
                    float(self.station[s]),
                    mark.kind,
                    mark.name,
                    mark.offset,
                    "right" if mark.offset > 0 else "left" if mark.offset < 0 else "on line",
                    height,
                    surface or None,
                    under,
                    mark.height - under,
                ],
            )

    def area_rows(self) -> Iterator[list[Any]]:
        """Yield the attributes of each section's areas and volumes."""
        found = self.quantities
        if found is None or self.upper is None or self.lower is None:
            return
        areas, plan = found.areas, self.job.plan
        to_next = dict(zip(found.spans.first.tolist(), range(len(found.spans)), strict=True))
        cubes = cubic_yards(plan), plan.to(METRE) ** 3
        cut = fill = 0.0
        for s in range(len(self.sections)):
            n = to_next.get(s)
            volumes = [np.nan] * 5
            if n is not None:
                volumes = [
                    float(values[n])
                    for values in (
                        found.spans.length,
                        found.cut.average,
                        found.fill.average,
                        found.cut.prismoidal,
                        found.fill.prismoidal,
                    )
                ]
            flag, why = self.flags[s]
            yield [
                s + 1,
                int(self.sources.table.ids[self.sections.line[s]]),
                self.line_name(s),
                self.station_text(s),
                float(self.station[s]),
                self.names[self.upper],
                self.names[self.lower],
                *(
                    float(values[s])
                    for values in (
                        areas.cut,
                        areas.fill,
                        areas.width_cut,
                        areas.width_fill,
                        areas.covered,
                        np.maximum(areas.most, 0.0),
                        np.maximum(-areas.least, 0.0),
                    )
                ),
                *volumes,
                *(value * cube for cube in cubes for value in (cut, fill)),
                plan.symbol,
                flag or None,
                why or None,
            ]
            if n is not None:
                cut, fill = cut + volumes[1], fill + volumes[2]

    def point_head(self) -> list[str]:
        """Return the columns of the table of points."""
        plan, height = self.job.plan.symbol, self.job.vertical.symbol
        names = ["number", "line", "station", "station_value", "offset", "east", "north"]
        units = dict.fromkeys(names[3:], plan) | dict.fromkeys(self.names, height)
        return [*with_units([*names, *self.names], units), "mark"]

    def point_rows(self) -> tuple[int, Iterator[Sequence[Any]]]:
        """Return how many points the sections have, and the rows of their table."""
        marks = self.marks
        section = np.array([mark.section for mark in marks], np.int64)
        offset = np.array([mark.offset for mark in marks], float)
        every = np.arange(len(self.sections))
        points = points_of(
            self.profiles,
            np.concatenate((every, section)),
            np.concatenate((np.zeros(len(every)), offset)),
            1e-6 / self.job.plan.metres,
        )
        xy = self.sections.places(points.section, points.offset)
        said: dict[int, list[str]] = {}
        for mark in marks:
            rows = np.searchsorted(points.section, (mark.section, mark.section + 1))
            near = np.abs(points.offset[rows[0] : rows[1]] - mark.offset)
            said.setdefault(int(rows[0] + np.argmin(near)), []).append(mark.name)

        def rows() -> Iterator[Sequence[Any]]:
            for p in range(len(points)):
                s = int(points.section[p])
                yield (
                    s + 1,
                    self.line_name(s),
                    self.station_text(s),
                    self.station[s],
                    points.offset[p],
                    *xy[p],
                    *points.z[p],
                    ", ".join(said.get(p, [])),
                )

        return len(points), rows()
