"""The check of depths over ground and at points: from layers to outcomes."""

from dataclasses import dataclass

import numpy as np

from ..core.measure.depth import (
    SLACK_METRES,
    Asked,
    Part,
    Verdict,
    failing_parts,
    histogram_of_ground,
    histogram_of_points,
    result_of_ground,
    result_of_points,
)
from ..core.measure.volumes import areas_of
from ..core.progress import Progress, part
from ..core.text import translate
from ..core.tin.cut.lookup import zones_at
from ..core.tolerance import Tolerance
from ..documents.depth_check_words import Outcome
from ..layers.comparing import compare
from ..layers.crs import JobUnits
from ..layers.sampling import sampler
from ..layers.surfaces import Surface
from .measured_zones import MeasuredZones


@dataclass(frozen=True, eq=False)
class Task:
    """What is to be checked.

    Parameters
    ----------
    design
        What depths count from.
    measured
        The zones; None for one depth everywhere.
    depths, less, more
        (k,) float of each zone, one entry without zones.
    units
        Of the job.
    narrow
        Failing strips narrower than this are not judged.
    """

    design: Surface
    measured: MeasuredZones | None
    depths: np.ndarray
    less: np.ndarray
    more: np.ndarray
    units: JobUnits
    narrow: float

    @property
    def names(self) -> list[str]:
        """Name of each zone."""
        if self.measured is None:
            return [translate("CheckDepth", "All ground")]
        return self.measured.names

    @property
    def identifiers(self) -> list[int | None]:
        """Feature id of each zone."""
        return [None] if self.measured is None else self.measured.zones.ids.tolist()

    @property
    def asked(self) -> Asked:
        """What is asked in each zone, and nothing of the ground outside all."""
        slack = SLACK_METRES / self.units.vertical.metres
        values = [self.depths, self.less, self.more]
        if self.measured is not None:
            values = [np.append(v, w) for v, w in zip(values, (0.0, np.inf, np.inf), strict=True)]
        return Asked(*values, slack)

    def total_of(self, values: np.ndarray) -> float:
        """Return what is asked of all; NaN where zones differ."""
        return float(values[0]) if (values == values[0]).all() else np.nan


@dataclass(frozen=True, eq=False)
class Ground:
    """What was found over ground."""

    outcomes: list[Outcome]
    total: Outcome
    parts: list[Part]
    shapes: np.ndarray
    pixel: float


def check_ground(task: Task, actual: Surface, progress: Progress) -> Ground:
    """Check a surface."""
    tolerance = Tolerance.for_unit(task.units.plan.metres)
    zones = task.measured.zones if task.measured else None
    comparison = compare(task.design, actual, zones, tolerance, part(progress, 0.0, 0.15))
    asked = task.asked
    volumes = comparison.volumes(1.0, part(progress, 0.15, 0.3))
    classes, group = asked.classes()
    sums, shapes = comparison.classify(
        classes, less=asked.depths, group=group, progress=part(progress, 0.3, 0.65)
    )
    corners = comparison.failing(asked.depths, asked.low, asked.high, part(progress, 0.65, 0.9))
    width = max(shapes.shape[1], 3)
    shapes = np.pad(shapes, ((0, 0), (0, width - shapes.shape[1])), constant_values=None)
    count = len(task.names)
    shapes = shapes[:count]
    parts = failing_parts(shapes, corners, asked, task.narrow)
    progress(0.95)
    areas = areas_of(zones) if zones is not None else np.array([np.nan])
    missing = volumes.missing if zones is not None else np.array([np.nan])

    def outcome(name: str, rows: np.ndarray, identifier: int | None = None) -> Outcome:
        worst: dict[Verdict, Part] = {}
        for one in parts:
            if one.zone in rows and not one.narrow:
                worst.setdefault(one.verdict, one)
        return Outcome(
            name,
            identifier,
            result_of_ground(sums, group, parts, rows, tolerance.snap**2),
            task.total_of(task.depths[rows]),
            task.total_of(task.less[rows]),
            task.total_of(task.more[rows]),
            float(areas[rows].sum()),
            float(missing[rows].sum()),
            histogram_of_ground(sums, classes, asked, rows),
            worst,
        )

    outcomes = [
        outcome(name, np.array([row]), identifier)
        for row, (name, identifier) in enumerate(zip(task.names, task.identifiers, strict=True))
    ]
    total = outcome(translate("CheckDepth", "Total"), np.arange(count))
    return Ground(outcomes, total, parts, shapes, comparison.pixel)


MATCHED, OFF_DESIGN, OFF_ZONES, NO_HEIGHT = "", "off_design", "off_zones", "no_height"


@dataclass(frozen=True, eq=False)
class Points:
    """What was found at points, (p,) each.

    Parameters
    ----------
    ids, xyz
        The points.
    design, deviation
        Height of the design, and depth found less depth asked.
    zone, verdict
        Row of the zone, and `Verdict`; -1 for points that could not be checked.
    why_not
        Code of why not, empty for those that were.
    """

    ids: np.ndarray
    xyz: np.ndarray
    design: np.ndarray
    deviation: np.ndarray
    zone: np.ndarray
    verdict: np.ndarray
    why_not: list[str]
    outcomes: list[Outcome]
    total: Outcome


def check_points(task: Task, ids: np.ndarray, xyz: np.ndarray) -> Points:
    """Check surveyed points."""
    asked = task.asked
    design = sampler(task.design.data)(xyz[:, :2])
    if task.measured is None:
        zone = np.zeros(len(xyz), dtype=np.int64)
    else:
        zone = zones_at(xyz[:, :2], task.measured.zones.polygons)
    codes = np.full(len(xyz), MATCHED, dtype=object)
    codes[zone < 0] = OFF_ZONES
    codes[np.isnan(design)] = OFF_DESIGN
    codes[np.isnan(xyz[:, 2])] = NO_HEIGHT
    good = codes == MATCHED
    zone = np.where(good, zone, -1)
    deviation = np.where(good, design - xyz[:, 2] - asked.depths[zone], np.nan)
    verdict = np.where(good, asked.judged(np.nan_to_num(deviation), zone), -1)

    def outcome(name: str, rows: np.ndarray, identifier: int | None = None) -> Outcome:
        some = np.isin(zone, rows)
        return Outcome(
            name,
            identifier,
            result_of_points(deviation[some], verdict[some]),
            task.total_of(task.depths[rows]),
            task.total_of(task.less[rows]),
            task.total_of(task.more[rows]),
            np.nan,
            np.nan,
            histogram_of_points(deviation[some], asked),
            {},
            points=True,
        )

    outcomes = [
        outcome(name, np.array([row]), identifier)
        for row, (name, identifier) in enumerate(zip(task.names, task.identifiers, strict=True))
    ]
    total = outcome(translate("CheckDepth", "Total"), np.arange(len(task.names)))
    return Points(ids, xyz, design, deviation, zone, verdict, codes.tolist(), outcomes, total)


def why_not_text(code: str) -> str:
    """Return why a point could not be checked."""
    return {
        OFF_DESIGN: translate("CheckDepth", "It lies off the design, or where the design has no data."),  # noqa: E501
        OFF_ZONES: translate("CheckDepth", "It lies in no zone: no depth is asked there."),
        NO_HEIGHT: translate("CheckDepth", "It has no height."),
    }.get(code, "")  # fmt: skip
