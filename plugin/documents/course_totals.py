"""Sums over courses, said in feet and in metres."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..core.depth.courses.amounts import SHORT_TON
from ..core.depth.courses.stack import Stack
from ..core.text import translate
from ..core.units import METRE, LinearUnit

NOTHING = "–"
"""Stands where there is nothing to say."""
_YARD = 27.0
FEET, METRIC = "feet", "metric"


@dataclass(frozen=True)
class Totals:
    """Sums over some courses, in plan units; NaN where the schedule gives nothing to sum."""

    plan: float
    sloped: float
    volume: float
    loose: float
    tonnes: float

    @classmethod
    def of(cls, stack: Stack, rows: Sequence[int] | np.ndarray, plan: LinearUnit) -> "Totals":
        found = stack.quantities
        rows = np.asarray(rows, dtype=np.int64)
        loose, tonnes = found.loose()[rows], found.tonnes(plan.metres)[rows]
        return cls(
            float(found.plan_areas[rows].sum()),
            float(found.sloped_areas[rows].sum()),
            float(found.volumes[rows].sum()),
            _sum(loose),
            _sum(tonnes),
        )

    def cells(self, system: str, plan: LinearUnit) -> list[str]:
        """Return the cells that `heads` names."""
        if system == METRIC:
            length = plan.to(METRE)
            loose, mass, volumes = length**3, 1.0, [number(self.volume * length**3, 2)]
        else:
            length = plan.to(plan.foot)
            loose, mass = length**3 / _YARD, 1 / SHORT_TON
            volumes = [number(self.volume * length**3, 1), number(self.volume * loose, 2)]
        return [
            number(self.plan * length**2, 1),
            number(self.sloped * length**2, 1),
            *volumes,
            number(self.loose * loose, 2),
            number(self.tonnes * mass, 2),
        ]


def systems(plan: LinearUnit) -> tuple[str, str]:
    """Return both systems of units, that of the job first."""
    return (FEET, METRIC) if plan.base.is_feet else (METRIC, FEET)


def _sum(values: np.ndarray) -> float:
    """Add up; NaN where a part is not known, since the rest would pass for the whole."""
    return float(values.sum()) if len(values) else np.nan


def number(value: float, decimals: int) -> str:
    """Return a number with thin spaces between thousands; a dash where there is none."""
    if not np.isfinite(value):
        return NOTHING
    text = f"{value:,.{decimals}f}".replace(",", "\u202f")
    return text.lstrip("-") if float(f"{value:.{decimals}f}") == 0 else text


def heads(system: str) -> list[str]:
    """Return the heads of the columns of a system of units."""
    if system == METRIC:
        return [
            translate("CourseReport", "Plan area, m²"),
            translate("CourseReport", "On the slope, m²"),
            translate("CourseReport", "Volume, m³"),
            translate("CourseReport", "Loose, m³"),
            translate("CourseReport", "Tonnes"),
        ]
    return [
        translate("CourseReport", "Plan area, ft²"),
        translate("CourseReport", "On the slope, ft²"),
        translate("CourseReport", "Volume, ft³"),
        translate("CourseReport", "Volume, yd³"),
        translate("CourseReport", "Loose, yd³"),
        translate("CourseReport", "Short tons"),
    ]
