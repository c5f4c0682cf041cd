"""Grades judged against limits, part by part of a surface.

A grade is the size of the gradient (max slope), or of its part along or square to the nearest
line. It fails when it misses a limit by more than coordinates can be off for rounding; nothing
else is forgiven, so that 1:48 passes a limit of 1:48 and 2.1 % does not. Apart from that a margin
tells what passes with little to spare (near) and what fails by little (just) from the rest.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from ..lines.bundle import Lines
from ..progress import Progress, part, silent
from ..vectors import cross, dot
from .grade_cells import Cells
from .grade_rules import Measure
from .tangents import Tangents, tangents

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_DIGITS = 8.0 * float(np.finfo(np.float64).eps)
"""Share of a grade that rounding of the arithmetic itself may take."""


class Code(IntEnum):
    """How a grade stands to its limits."""

    PASS = 0
    NEAR_STEEP = 1
    NEAR_FLAT = 2
    JUST_STEEP = 3
    STEEP = 4
    JUST_FLAT = 5
    FLAT = 6


FIRST_FAIL = Code.JUST_STEEP
"""This code and all above it fail."""

LITTLE = (Code.JUST_STEEP, Code.JUST_FLAT)


@dataclass(frozen=True)
class Limit:
    """What is asked of a zone.

    Parameters
    ----------
    zone
        Number of the zone.
    measure : Measure
        What is measured.
    low, high
        Least and greatest grade, rise over run; NaN for none.
    rule
        Name of the rule it comes from, empty for none.
    written
        The limit as it was written.
    """

    zone: int
    measure: Measure
    low: float
    high: float
    rule: str = ""
    written: str = ""


@dataclass(frozen=True, eq=False)
class Judged:
    """The parts of a zone under one limit.

    Parameters
    ----------
    limit : Limit
        The limit.
    cells : (k,) int
        Parts of the zone that have a grade and lie near enough to a line.
    grade : (k,) float
        Their grades.
    code : (k,) int
        How each stands to the limit, `Code`.
    doubtful : (k,) bool
        True where the line turns beside a part so far that it passes at one corner and fails at
        another.
    beyond : (k,) bool
        True past an open end of the line.
    upright : (u,) int
        Parts without a grade.
    far : (f,) int
        Parts too far from any line.
    """

    limit: Limit
    cells: Ints
    grade: Floats
    code: Ints
    doubtful: NDArray[np.bool_]
    beyond: NDArray[np.bool_]
    upright: Ints
    far: Ints


@dataclass(frozen=True)
class Figures:
    """What was found under one limit; grades as rise over run, NaN where nothing was checked.

    Parameters
    ----------
    checked, failed, just, near
        Plan area checked; of it failing, failing by no more than the margin, and passing with
        less than the margin to spare.
    doubtful, beyond, far
        Plan area whose verdict hangs on which place of the line is meant, that lies past the end
        of a line, and that was not checked because no line is near.
    upright
        Number of upright parts.
    least, greatest, mean
        Grades; the mean by area.
    worst, place
        The grade that misses its limit by most, or comes nearest to it, and where.
    """

    checked: float
    failed: float
    just: float
    near: float
    doubtful: float
    beyond: float
    far: float
    upright: int
    least: float = math.nan
    greatest: float = math.nan
    mean: float = math.nan
    worst: float = math.nan
    place: tuple[float, float] | None = None


def classify(
    grade: Floats, low: float, high: float, near: float, rounding: Floats | float
) -> NDArray[np.int64]:
    """Return the `Code` of each grade, (k,) int.

    Parameters
    ----------
    grade : (k,) float
        Sizes of grades.
    low, high : float
        Limits; NaN for none.
    near : float
        The margin.
    rounding : (k,) float
        What may be forgiven.
    """
    code = np.full(len(grade), int(Code.PASS), np.int64)
    slack = rounding + _DIGITS * grade
    sides = (
        (grade - high, Code.NEAR_STEEP, Code.JUST_STEEP, Code.STEEP),
        (low - grade, Code.NEAR_FLAT, Code.JUST_FLAT, Code.FLAT),
    )
    for over, nearly, just, full in sides:
        code[(over > slack - near) & (code < nearly)] = nearly
        code[over > slack] = just
        code[over > slack + near] = full
    return code


def judge(
    cells: Cells,
    limits: Sequence[Limit],
    near: float,
    lines: Lines | None = None,
    reach: float = np.inf,
    progress: Progress = silent,
) -> list[Judged]:
    """Judge the parts of each zone.

    Parameters
    ----------
    cells : Cells
        The surface.
    limits : sequence of Limit
        What is asked; a zone may come several times. Those of `Measure.BREAK` are not for here.
    near : float
        Margin, rise over run.
    lines : Lines or None
        What along and across are measured by.
    reach : float
        Parts whose centre is farther from any line are not checked along and across.
    progress : Progress
        Told the share done.

    Returns
    -------
    list of Judged
        In the order of the limits.
    """
    order = np.argsort(cells.zone, kind="stable")
    zone = cells.zone[order]
    known: dict[int, tuple[Tangents, NDArray[np.float64]]] = {}
    result = []
    for number, limit in enumerate(limits):
        progress(number / len(limits))
        begin, stop = np.searchsorted(zone, (limit.zone, limit.zone + 1))
        own = order[begin:stop]
        flat = np.isnan(cells.gradients[own, 0])
        own, upright = own[~flat], own[flat]
        if limit.measure is Measure.MAX_SLOPE:
            result.append(_judged(cells, limit, near, own, upright))
            continue
        assert lines is not None
        if limit.zone not in known:
            share = part(progress, number / len(limits), (number + 1) / len(limits))
            known[limit.zone] = _directions(cells, own, lines, share)
        ways, corner_ways = known[limit.zone]
        close = ways.away <= reach
        result.append(
            _judged(
                cells,
                limit,
                near,
                own[close],
                upright,
                own[~close],
                ways.direction[close],
                corner_ways[close],
                ways.beyond[close],
            )
        )
    return result


def _directions(
    cells: Cells, own: Ints, lines: Lines, progress: Progress
) -> tuple[Tangents, Floats]:
    """Return the direction of the nearest line at centres (k) and at corners (k, 3 or 4, 2)."""
    corners = cells.corners[own]
    used, number = np.unique(corners, return_inverse=True)
    at_corners = tangents(lines, cells.vertices[used], part(progress, 0.0, 0.4)).direction
    at_centres = tangents(lines, cells.centres(own), part(progress, 0.4, 1.0))
    return at_centres, at_corners[number.reshape(corners.shape)]


def _judged(
    cells: Cells,
    limit: Limit,
    near: float,
    own: Ints,
    upright: Ints,
    far: Ints | None = None,
    way: Floats | None = None,
    corner_ways: Floats | None = None,
    beyond: NDArray[np.bool_] | None = None,
) -> Judged:
    none = np.zeros(len(own), bool)
    gradient, rounding = cells.gradients[own], cells.rounding[own]

    def code_of(grade: Floats) -> Ints:
        return classify(grade, limit.low, limit.high, near, rounding)

    grade = _grade(gradient, limit.measure, way)
    code, doubtful = code_of(grade), none.copy()
    if corner_ways is not None:
        for k in range(corner_ways.shape[1]):
            other = code_of(_grade(gradient, limit.measure, corner_ways[:, k]))
            doubtful |= (other >= FIRST_FAIL) != (code >= FIRST_FAIL)
    return Judged(
        limit,
        own,
        grade,
        code,
        doubtful,
        none if beyond is None else beyond,
        upright,
        np.zeros(0, np.int64) if far is None else far,
    )


def _grade(gradient: Floats, measure: Measure, way: Floats | None) -> Floats:
    """Return the size of the grade in the direction measured, (k,) float."""
    if way is None:
        return np.asarray(np.hypot(gradient[:, 0], gradient[:, 1]))
    product = dot if measure is Measure.ALONG else cross
    return np.abs(product(gradient, way))


def without(judged: Judged, rows: Ints) -> Judged:
    """Return the same without some of the parts, given by their places in it."""
    keep = np.ones(len(judged.cells), bool)
    keep[rows] = False
    each = ("cells", "grade", "code", "doubtful", "beyond")
    return replace(judged, **{name: getattr(judged, name)[keep] for name in each})


def margin(grade: Floats, limit: Limit) -> Floats:
    """Return by how much each grade misses its limits, negative with that much to spare."""
    over = np.stack((grade - limit.high, limit.low - grade))
    return np.asarray(np.where(np.isnan(over), -np.inf, over).max(axis=0))


def figures(cells: Cells, judged: Judged) -> Figures:
    """Return what was found under one limit."""
    area = cells.areas[judged.cells]

    def total(chosen: NDArray[np.bool_]) -> float:
        return float(area[chosen].sum())

    checked = float(area.sum())
    fails = judged.code >= FIRST_FAIL
    grade = judged.grade
    found = Figures(
        checked,
        total(fails),
        total(np.isin(judged.code, LITTLE)),
        total((judged.code > Code.PASS) & ~fails),
        total(judged.doubtful),
        total(judged.beyond),
        float(cells.areas[judged.far].sum()),
        len(judged.upright),
    )
    if checked <= 0.0:
        return found
    row = worst(cells, judged.cells, margin(grade, judged.limit))
    x, y = cells.centres(judged.cells[[row]])[0].tolist()
    return replace(
        found,
        least=float(grade.min()),
        greatest=float(grade.max()),
        mean=float((grade * area).sum() / checked),
        worst=float(grade[row]),
        place=(x, y),
    )


def worst(cells: Cells, own: Ints, miss: Floats) -> int:
    """Return the place in ``own`` of the worst part; of equal ones, but for rounding, the largest.

    Parameters
    ----------
    cells : Cells
        The surface.
    own : (k,) int
        Parts to choose from, at least one.
    miss : (k,) float
        By how much each misses its limit.
    """
    slack = cells.rounding[own]
    alike = np.flatnonzero(miss >= (miss - slack).max() - _DIGITS)
    centres = cells.centres(own[alike])
    order = np.lexsort((centres[:, 1], centres[:, 0], -cells.areas[own[alike]]))
    return int(alike[order[0]])
