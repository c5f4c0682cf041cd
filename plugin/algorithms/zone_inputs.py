"""Zones with their depths, widenings and batters, from a polygon layer and its fields."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeedback,
)

from ..core.depth.manner import ThicknessRule
from ..core.depth.zones import Zones
from ..core.errors import LengthTextError, ZoneError
from ..core.text import translate
from ..core.units import METRE, LinearUnit, parse_batter, parse_length
from ..layers.polygons import read_polygons
from ..layers.tables import Source, column_lengths, column_numbers, column_values, is_blank


@dataclass(frozen=True)
class Ends:
    """How thick zones are, and how their bottoms end: one value for all, or a field with each.

    Parameters
    ----------
    widen, widen_field
        How far the bottom carries on, in ``plan`` units; the field may name units.
    batter, batter_field
        Run per rise of the sides.
    square, thickness_field
        Whether depths are measured at right angles to the design; the field says ``plumb`` or
        ``square``.
    plan : LinearUnit
        Unit of widths without one.
    """

    widen: float = 0.0
    widen_field: str = ""
    batter: float = 0.0
    batter_field: str = ""
    square: bool = False
    thickness_field: str = ""
    plan: LinearUnit = METRE


def read_zones(
    source: Source,
    depth_field: str,
    depth: float | None,
    priority_field: str,
    *,
    unit: LinearUnit,
    crs: QgsCoordinateReferenceSystem,
    ends: Ends = Ends(),
    context: QgsProcessingContext | None = None,
    feedback: QgsProcessingFeedback | None = None,
) -> Zones:
    """Read zones.

    Parameters
    ----------
    source
        Polygons; brought into the CRS of the design.
    depth_field
        Field with depths: numbers in ``unit``, or lengths as text; empty for none.
    depth
        Depth of zones whose field is blank, or of all without a field; None to refuse those.
    priority_field
        Field with numbers, the lower one wins where zones overlap; empty for none.
    unit
        Vertical unit of the job.
    crs
        CRS of the design.
    ends
        Thickness, widenings and batters.
    context, feedback
        Of the run.

    Raises
    ------
    UndercourseError
        A zone has no depth, or one of its values cannot be read; its id and the field are named.
    """
    fields = (
        depth_field,
        priority_field,
        ends.widen_field,
        ends.batter_field,
        ends.thickness_field,
    )
    wanted = list(dict.fromkeys(name for name in fields if name))
    table = read_polygons(source, wanted, crs=crs, context=context, feedback=feedback)
    ids = table.ids
    zone = translate("Zones", "Zone")
    columns = {"": [None] * len(ids), **table.columns}
    values = columns[depth_field]
    unset = [int(name) for name, value in zip(ids, values, strict=True) if is_blank(value)]
    if unset and depth is None:
        raise ZoneError(
            translate(
                "Zones",
                "Zone {zone} has no depth: fill in its field, or give a depth for all.",
            ).format(zone=unset[0])
        )
    depths = column_lengths(values, ids, unit, depth_field, depth, thing=zone)
    if depth_field and unset and feedback is not None:
        feedback.pushWarning(
            translate(
                "Zones",
                "{count} zones have no depth in their field and got the one for all: {ids}.",
            ).format(count=len(unset), ids=", ".join(str(name) for name in unset[:10]))
        )
    priority = None
    if priority_field:
        priority = column_numbers(columns[priority_field], ids, priority_field, np.nan, thing=zone)

    def each(field: str, read: Callable[[Any], float], for_all: float) -> np.ndarray:
        return column_values(columns[field], ids, read, field, for_all, thing=zone)

    square = each(ends.thickness_field, _is_square, float(ends.square)) > 0
    return Zones(
        table.polygons,
        np.where(square, 0.0, depths),
        ids,
        priority,
        np.where(square, depths, 0.0),
        each(ends.widen_field, lambda value: parse_width(value, ends.plan), ends.widen),
        each(ends.batter_field, parse_batter, ends.batter),
    )


def parse_width(value: str | float, plan: LinearUnit) -> float:
    """Return how far a bottom carries on, in plan units; it can only go outward."""
    width = parse_length(value, plan)
    if width < 0:
        raise LengthTextError(
            translate(
                "Zones",
                "'{value}' is negative, but a bottom can only carry on outward: write 0 or more.",
            ).format(value=value)
        )
    return width


def _is_square(value: Any) -> float:
    word = str(value).strip().lower()
    if word not in list(ThicknessRule):
        raise LengthTextError(
            translate(
                "Zones",
                "'{value}' is no thickness rule: write plumb (measured vertically) or square (at right angles to the design).",
            ).format(value=value)
        )
    return float(word == ThicknessRule.SQUARE)
