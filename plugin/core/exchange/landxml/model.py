"""What a LandXML file holds, as plain arrays and texts.

Coordinates are x = easting, y = northing, z = elevation, in the file's own linear unit.
"""

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from ...errors import ExchangeError
from ...findings import Finding
from ...text import translate
from ...tin import Tin
from ...units import LinearUnit
from .units import CoordinateSystem

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


class Part(StrEnum):
    """The kinds of things that can be read, each alone."""

    SURFACES = "surfaces"
    LINES = "lines"
    ALIGNMENTS = "alignments"
    POINTS = "points"


@dataclass(frozen=True, eq=False)
class SurfaceRecord:
    """A surface: the points and the visible faces of its definition.

    Parameters
    ----------
    name, description
        As in the file.
    kind
        ``"TIN"``, ``"grid"`` or ``""`` when the file holds only source data.
    tin
        The visible faces and the points they use, None when there are none.
    plan_area, sloped_area
        Its areas.
    point_count
        Points in the file, also those that no face uses.
    hidden_count
        Faces marked invisible: part of the triangulation, not of the surface.
    left_out
        Faces that were not read, see the findings.
    unused : (k, 3) float
        Points in no face, visible or not.
    unused_ids : (k,) int
        Their ids in the file.
    line
        Line on which it starts.
    """

    name: str
    description: str
    kind: str
    tin: Tin | None
    plan_area: float
    sloped_area: float
    point_count: int
    hidden_count: int
    left_out: int
    unused: Floats
    unused_ids: Ints
    line: int


@dataclass(frozen=True, eq=False)
class LineRecord:
    """A breakline, boundary, contour or plan feature.

    Parameters
    ----------
    kind
        ``"breakline"``, ``"boundary"``, ``"contour"`` or ``"feature"``.
    name, type, code, description
        As in the file; the type is that of a breakline or boundary (``standard``, ``outer`` ...).
    surface
        Name of the surface it belongs to, empty for plan features.
    coordinates : (n, 3) float
        z is NaN where the file gives none.
    line
        Line of the file.
    """

    kind: str
    name: str
    type: str
    code: str
    description: str
    surface: str
    coordinates: Floats
    line: int

    @property
    def has_heights(self) -> bool:
        """Whether every vertex has an elevation."""
        return bool(np.isfinite(self.coordinates[:, 2]).all())


@dataclass(frozen=True, eq=False)
class PointRecord:
    """A single point.

    Parameters
    ----------
    kind
        ``"point"`` (coordinate geometry), ``"data"`` (a surface was made from it) or
        ``"unused"`` (a surface holds it and no face uses it).
    name, code, description
        As in the file.
    xyz
        z is NaN where the file gives none.
    line
        Line of the file, 0 when not known.
    """

    kind: str
    name: str
    code: str
    description: str
    xyz: tuple[float, float, float]
    line: int


@dataclass(frozen=True, eq=False)
class Segment:
    """One element of an alignment or plan feature.

    Parameters
    ----------
    kind
        ``"line"`` (any chain of chords), ``"arc"`` or ``"spiral"`` (dense points on it).
    points : (k, 2) float
        For an arc an odd number of points on it: start, middle, end, or five for a full circle.
    distances : (k,) float
        True distance of each point from the start of the segment.
    heights : (k,) float
        z, NaN where the file gives none.
    line
        Line of the file.
    centre
        Centre of an arc.
    turn
        +1 for an arc to the left (counter-clockwise), -1 to the right, 0 for other kinds.
    """

    kind: str
    points: Floats
    distances: Floats
    heights: Floats
    line: int
    centre: tuple[float, float] = (math.nan, math.nan)
    turn: float = 0.0

    @property
    def length(self) -> float:
        """True length: of the arc or spiral itself, not of chords."""
        return float(self.distances[-1])


@dataclass(frozen=True)
class StationEquation:
    """A place where the stations that people use jump.

    Parameters
    ----------
    internal
        Distance from the start of the alignment plus its start station.
    back, ahead
        Station just before and just after.
    increasing
        Whether stations grow from here on.
    """

    internal: float
    back: float
    ahead: float
    increasing: bool = True


@dataclass(frozen=True, eq=False)
class AlignmentRecord:
    """An alignment in plan.

    Parameters
    ----------
    name, description, state
        As in the file.
    station_start
        Station of its first point.
    parts
        Segments that join end to end; more than one part where the file leaves gaps.
    declared_length
        As in the file, None when absent.
    equations
        In order of the internal station.
    profiles
        Number of vertical profiles that the file holds beside it.
    line
        Line of the file.
    """

    name: str
    description: str
    state: str
    station_start: float
    parts: tuple[tuple[Segment, ...], ...]
    declared_length: float | None
    equations: tuple[StationEquation, ...]
    profiles: int
    line: int

    @property
    def segments(self) -> tuple[Segment, ...]:
        """All segments in order."""
        return tuple(segment for part in self.parts for segment in part)

    @property
    def length(self) -> float:
        """Sum of the true lengths."""
        return sum(segment.length for segment in self.segments)

    def displayed_station(self, internal: float) -> float:
        """Return the station that people use at an internal station."""
        station = internal
        for equation in self.equations:
            if internal >= equation.internal:
                step = internal - equation.internal
                station = equation.ahead + (step if equation.increasing else -step)
        return station


@dataclass(frozen=True, eq=False)
class LandXmlFile:
    """Everything that was read from one file.

    Parameters
    ----------
    name
        Name of the file.
    version, namespace
        As the root element says.
    unit
        Linear unit, None when the file does not say.
    system
        Coordinate system, as it stands there.
    surfaces, lines, alignments, points
        What was read of each.
    not_read
        Element name -> how many of it the file holds that were not read.
    findings
        Everything that may be wrong.
    """

    name: str
    version: str
    namespace: str
    unit: LinearUnit | None
    system: CoordinateSystem
    surfaces: tuple[SurfaceRecord, ...]
    lines: tuple[LineRecord, ...]
    alignments: tuple[AlignmentRecord, ...]
    points: tuple[PointRecord, ...]
    not_read: dict[str, int]
    findings: tuple[Finding, ...]

    def surface(self, name: str = "") -> SurfaceRecord | None:
        """Return the surface of that name; for a blank name the only one, None if there is none.

        Raises
        ------
        ExchangeError
            There is no such surface, or several to choose from.
        """
        names = ", ".join(f"'{surface.name}'" for surface in self.surfaces)
        if name.strip():
            named = [one for one in self.surfaces if one.name.strip() == name.strip()]
            if len(named) == 1:
                return named[0]
            if named:
                raise ExchangeError(
                    translate(
                        "Core",
                        "{file} holds {count} surfaces called '{name}' (lines {lines}): rename them in the file.",
                    ).format(
                        file=self.name,
                        count=len(named),
                        name=name.strip(),
                        lines=", ".join(str(one.line) for one in named),
                    )
                )
            raise ExchangeError(
                translate(
                    "Core", "{file} holds no surface called '{name}'; it holds: {names}."
                ).format(file=self.name, name=name.strip(), names=names or "-")
            )
        if len(self.surfaces) > 1:
            raise ExchangeError(
                translate(
                    "Core",
                    "{file} holds {count} surfaces; say which one to read by its name: {names}.",
                ).format(file=self.name, count=len(self.surfaces), names=names)
            )
        return self.surfaces[0] if self.surfaces else None
