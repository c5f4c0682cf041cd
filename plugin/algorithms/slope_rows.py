"""Slope breaks as rows with attributes, and the figures of a run."""

from collections.abc import Iterator
from typing import Any

import numpy as np
from qgis.core import QgsGeometry

from ..core.breaks import KINDS, WALL_GRADE, BreakLines, Kind
from ..core.breaks.walls import Walls
from ..core.text import translate
from ..core.units import LinearUnit
from ..layers.crs import JobUnits
from ..layers.lines import line_geometry

COLUMNS = (
    ("line", int),
    ("kind", str),
    ("change", float),
    ("change_min", float),
    ("change_max", float),
    ("grade_left", float),
    ("left_min", float),
    ("left_max", float),
    ("grade_right", float),
    ("right_min", float),
    ("right_max", float),
    ("angle", float),
    ("length", float),
    ("z_start", float),
    ("z_end", float),
    ("fall", float),
    ("confidence", float),
    ("bridged", float),
    ("drawn", float),
    ("wall_pair", int),
    ("wall_height", float),
    ("flag", str),
    ("why", str),
)


def kind_labels() -> dict[str, str]:
    """Return the words for kinds and what people see for them."""
    return {
        str(Kind.RIDGE): translate("SlopeBreaks", "Ridge, crown"),
        str(Kind.VALLEY): translate("SlopeBreaks", "Valley, flowline"),
        str(Kind.TOP): translate("SlopeBreaks", "Top of slope"),
        str(Kind.TOE): translate("SlopeBreaks", "Toe of slope"),
        str(Kind.EDGE): translate("SlopeBreaks", "Outer edge"),
    }


def figures(lines: BreakLines) -> dict[str, Any]:
    """Return the numeric results."""
    numbers: dict[str, Any] = {
        "COUNT": len(lines),
        "LENGTH": float(lines.length.sum()),
        "FLAGGED": int(((lines.wall > 0) | lines.doubtful).sum()),
        "UNMEASURED": len(lines.skipped),
    }
    for kind in KINDS:
        of_kind = lines.of_kind(kind)
        numbers[f"{kind.upper()}_COUNT"] = int(of_kind.sum())
        numbers[f"{kind.upper()}_LENGTH"] = float(lines.length[of_kind].sum())
    return numbers


def rows(
    lines: BreakLines, bounds: Walls, job: JobUnits, drawn: np.ndarray | None = None
) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of each line, in the order of `COLUMNS`.

    ``bounds`` tells which of them bound walls, ``drawn`` the share of each that is drawn already,
    where that was asked for.
    """
    percents = []
    for spread in (lines.change, lines.grade_left, lines.grade_right):
        percents += [100 * spread.mean, 100 * spread.low, 100 * spread.high]
    numbers = np.column_stack(
        [
            *percents,
            np.degrees(lines.angle),
            lines.length,
            lines.z_start,
            lines.z_end,
            lines.z_start - lines.z_end,
            100 * lines.sure,
            lines.bridged,
            np.full(len(lines), np.nan) if drawn is None else 100 * drawn,
        ]
    )
    numbers += 0.0  # no "-0" in tables
    for number, row in enumerate(numbers.tolist()):
        flag, why = flag_of(lines, bounds, number, job)
        kind = str(KINDS[lines.kind[number]])
        pair = int(bounds.pair[number]) + 1 or None
        wall = [pair, float(bounds.height[number])]
        yield line_geometry(lines.line(number)), [number + 1, kind, *row, *wall, flag, why]


def flag_of(
    lines: BreakLines, bounds: Walls, number: int, job: JobUnits
) -> tuple[str | None, str | None]:
    """Return the flag of a line and why it has it."""
    plan = job.plan
    flags, reasons = [], []
    if lines.wall[number] > 0:
        flags.append("wall")
        reasons.append(
            translate(
                "SlopeBreaks",
                "{part} of {whole} lie beside a face steeper than {limit:.0f} %: a wall, a kerb face or a step, whose grade says little.",
            ).format(
                part=in_plan(lines.wall[number], plan),
                whole=in_plan(lines.length[number], plan),
                limit=100 * WALL_GRADE,
            )
        )
    if bounds.pair[number] >= 0:
        if bounds.foot[number]:
            text = translate(
                "SlopeBreaks", "It is the foot: line {line} is the top, {height} higher."
            )
        else:
            text = translate(
                "SlopeBreaks", "It is the top: line {line} is the foot, {height} lower."
            )
        height = f"{bounds.height[number]:.2f} {job.vertical.symbol}"
        reasons.append(text.format(line=bounds.pair[number] + 1, height=height))
    if lines.doubtful[number]:
        flags.append("unmeasured")
        reasons.append(
            translate(
                "SlopeBreaks",
                "It ends at an edge that cannot be measured, because more than two faces meet there, faces lie over each other or a face has no area: the line may go on.",
            )
        )
    return ", ".join(flags) or None, " ".join(reasons) or None


def in_plan(length: float, plan: LinearUnit) -> str:
    """Return a plan length with its unit."""
    return f"{length:.2f} {plan.symbol}"
