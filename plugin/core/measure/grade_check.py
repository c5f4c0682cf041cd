"""A whole check of grades: surface, zones, lines and limits in, a verdict on each limit out."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from ..findings import Finding
from ..lines.bundle import Lines
from ..progress import Progress, part, silent
from ..tin import Tin
from ..tin.cut import cut_tin
from ..tin.cut.remarks import of_cut
from ..tolerance import Tolerance
from .fail_areas import Area, fail_areas
from .grade_cells import Cells, of_grid, of_tin
from .grade_remarks import of_breaks, of_parts, of_thin
from .grade_rules import Measure
from .grades import FIRST_FAIL, LITTLE, Code, Figures, Limit, figures, judge, without
from .gutter_breaks import GutterBreaks, gutter_breaks

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

PASS, NEAR, FAIL, UNCHECKED = "pass", "near", "fail", "unchecked"

EVERYWHERE = -1
"""Zone of a limit that holds wherever there is one of the gutters."""

_ENOUGH = 0.99
"""Share of a gutter that must follow edges."""


@dataclass(frozen=True, eq=False)
class Asked:
    """What is to be checked.

    Parameters
    ----------
    limits : sequence of Limit
        Limits by zone.
    near : float
        Margin, rise over run.
    lines : Lines or None
        Lines that along and across are measured by.
    reach : float
        Farthest that a part may lie from them.
    narrow : float
        Areas of a smaller mean width do not count.
    gutters : Lines or None
        Lines across which the change of grade is checked.
    within : float
        How near an edge of the surface must follow them.
    step : float
        What coordinates are rounded to, in plan units; 0 for the digits of the numbers.
    z_scale : float
        Plan units in one unit of height.
    """

    limits: Sequence[Limit]
    near: float
    lines: Lines | None = None
    reach: float = np.inf
    narrow: float = 0.0
    gutters: Lines | None = None
    within: float = 0.0
    step: float = 0.0
    z_scale: float = 1.0


@dataclass(frozen=True, eq=False)
class Row:
    """The verdict on one limit.

    Parameters
    ----------
    limit : Limit
        The limit.
    zone_area : float
        Plan area of the zone.
    figures : Figures
        What was found, without the thin areas.
    areas : list of Area
        What fails or nearly does, thin areas too.
    """

    limit: Limit
    zone_area: float
    figures: Figures
    areas: list[Area]

    @property
    def thin(self) -> float:
        """Plan area that fails but is too narrow to count."""
        return sum(one.area for one in self.areas if one.thin and one.code >= FIRST_FAIL)

    @property
    def verdict(self) -> str:
        """``fail``, ``near``, ``pass``, or ``unchecked`` where nothing could be checked."""
        if not self.figures.checked > 0:
            return UNCHECKED
        if any(one.fails for one in self.areas):
            return FAIL
        return NEAR if any(not one.thin for one in self.areas) else PASS


@dataclass(frozen=True, eq=False)
class BreakRow:
    """The verdict on the change of grade along gutters.

    Parameters
    ----------
    limit : Limit
        The limit.
    edges : (k,) int
        Edges of the `GutterBreaks` it holds for.
    code : (k,) int
        How each stands to it, `Code`.
    breaks : GutterBreaks
        The edges.
    """

    limit: Limit
    edges: Ints
    code: Ints
    breaks: GutterBreaks

    @property
    def change(self) -> Floats:
        """Change of each, (k,) float."""
        return self.breaks.change[self.edges]

    def length(self, *codes: Code) -> float:
        """Return the length of the edges with these codes, of all without any."""
        size = self.breaks.length[self.edges]
        return float(size[np.isin(self.code, codes)].sum() if codes else size.sum())

    @property
    def failed(self) -> float:
        """Length that fails."""
        return self.length(Code.STEEP, *LITTLE)

    @property
    def verdict(self) -> str:
        """As `Row.verdict`."""
        if not len(self.edges):
            return UNCHECKED
        if (self.code >= FIRST_FAIL).any():
            return FAIL
        return NEAR if self.code.any() else PASS


@dataclass(frozen=True, eq=False)
class GradeCheck:
    """What came out of a check.

    Parameters
    ----------
    rows : list of Row
        One for each limit of a grade.
    breaks : list of BreakRow
        One for each limit of a change of grade.
    findings : list of Finding
        What may be wrong; ``feature`` is the number of the zone.
    largest_move : float
        Greatest distance that the border of a zone was moved when the surface was cut.
    """

    rows: list[Row]
    breaks: list[BreakRow]
    findings: list[Finding] = field(default_factory=list)
    largest_move: float = 0.0


def check_tin(
    tin: Tin,
    polygons: NDArray[np.object_] | None,
    asked: Asked,
    tolerance: Tolerance,
    progress: Progress = silent,
) -> GradeCheck:
    """Check the faces of a surface, cut by the zones.

    Parameters
    ----------
    tin : Tin
        The surface.
    polygons : (k,) object or None
        Disjoint zones, of `resolve`; None to take the whole surface as zone 0.
    asked : Asked
        The limits.
    tolerance : Tolerance
        Tolerances in plan units.
    progress : Progress
        Told the share done.
    """
    cut = None
    if polygons is not None:
        cut = cut_tin(tin, polygons, tolerance, part(progress, 0.0, 0.5))
    cells = of_tin(tin, cut, asked.z_scale, asked.step)
    breaks: list[BreakRow] = []
    findings: list[Finding] = []
    if asked.gutters is not None:
        whole = of_tin(tin, None, asked.z_scale, asked.step)
        found = gutter_breaks(tin, whole, asked.gutters, asked.within, asked.z_scale)
        breaks = [
            _break_row(found, limit, polygons, asked)
            for limit in asked.limits
            if limit.measure is Measure.BREAK
        ]
        findings = of_breaks(found, _ENOUGH)
    size = tin.plan_area
    rows, more = _rows(cells, polygons, size, 2 * tolerance.snap, asked, part(progress, 0.5, 1.0))
    if cut is None:
        return GradeCheck(rows, breaks, more + findings)
    return GradeCheck(rows, breaks, more + findings + of_cut(tin, cut), cut.largest_move)


def check_grid(
    heights: Floats,
    transform: tuple[float, ...],
    polygons: NDArray[np.object_] | None,
    asked: Asked,
    height_rounding: float,
    progress: Progress = silent,
) -> GradeCheck:
    """Check the pixels of a raster; see `of_grid` for the rule.

    Parameters
    ----------
    heights : (rows, columns) float
        NaN where there is none.
    transform : 6 float
        Place of the pixels.
    polygons : (k,) object or None
        Disjoint zones; None to take the whole raster as zone 0.
    asked : Asked
        The limits; gutters are not looked at.
    height_rounding : float
        Most that a height is off for rounding, in its own unit.
    progress : Progress
        Told the share done.
    """
    error = max(height_rounding, 0.5 * asked.step / asked.z_scale)
    cells = of_grid(heights, transform, polygons, asked.z_scale, error)
    progress(0.4)
    size, pixel = float(cells.areas.sum()), _pixel(transform)
    rows, findings = _rows(cells, polygons, size, pixel, asked, part(progress, 0.4, 1.0))
    return GradeCheck(rows, [], findings)


def _rows(
    cells: Cells,
    polygons: NDArray[np.object_] | None,
    size: float,
    blur: float,
    asked: Asked,
    progress: Progress,
) -> tuple[list[Row], list[Finding]]:
    """Return the verdicts and what may be wrong; borders of zones are known within ``blur``."""
    limits = [limit for limit in asked.limits if limit.measure is not Measure.BREAK]
    judged = judge(cells, limits, asked.near, asked.lines, asked.reach, part(progress, 0.0, 0.5))
    rows, findings = [], []
    for number, one in enumerate(judged):
        progress(0.5 + 0.5 * number / len(judged))
        areas = fail_areas(cells, one, asked.narrow)
        left_out = [area.rows for area in areas if area.thin]
        kept = without(one, np.concatenate(left_out)) if left_out else one
        found = figures(cells, kept)
        zone_area, slack = size, 1e-9 * size
        if polygons is not None:
            shape = polygons[one.limit.zone]
            zone_area, slack = float(shape.area), blur * float(shapely.length(shape))
        row = Row(one.limit, zone_area, found, areas)
        rows.append(row)
        covered = float(cells.areas[one.cells].sum()) + found.far
        findings += of_parts(row.limit, found, zone_area, covered, slack)
        findings += of_thin(row.limit, areas)
    return rows, findings


def _break_row(
    breaks: GutterBreaks, limit: Limit, polygons: NDArray[np.object_] | None, asked: Asked
) -> BreakRow:
    edges = np.arange(len(breaks.length))
    if polygons is not None and limit.zone != EVERYWHERE:
        edges = np.flatnonzero(breaks.within(polygons[limit.zone], asked.within))
    return BreakRow(limit, edges, breaks.codes(limit.high, asked.near)[edges], breaks)


def _pixel(transform: tuple[float, ...]) -> float:
    """Return the sum of the two sides of a pixel: its diagonal is no longer."""
    _, a, b, _, c, d = transform
    return float(np.hypot(a, c) + np.hypot(b, d))
