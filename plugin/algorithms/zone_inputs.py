"""Zones with a depth each, from a polygon layer and its fields."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeedback,
)

from ..core.depth.zones import Zones
from ..core.errors import LengthTextError, ZoneError
from ..core.text import translate
from ..core.units import LinearUnit, parse_length
from ..layers.polygons import read_polygons
from ..layers.tables import Source, is_blank


def read_zones(
    source: Source,
    depth_field: str,
    depth: float | None,
    priority_field: str,
    *,
    unit: LinearUnit,
    crs: QgsCoordinateReferenceSystem,
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
    context, feedback
        Of the run.

    Raises
    ------
    ZoneError
        A zone has no depth, or its depth or priority cannot be read; its id is named.
    """
    wanted = [name for name in (depth_field, priority_field) if name]
    table = read_polygons(source, wanted, crs=crs, context=context, feedback=feedback)
    ids = table.ids
    blank = [None] * len(ids)
    values = table.columns[depth_field] if depth_field else blank
    depths = _depths(values, ids, depth, unit)
    priority = None
    if priority_field:
        priority = _priorities(table.columns[priority_field], ids)
    unset = [int(name) for name, value in zip(ids, values, strict=True) if is_blank(value)]
    if depth_field and unset and feedback is not None:
        feedback.pushWarning(
            translate(
                "Zones",
                "{count} zones have no depth in their field and got the one for all: {ids}.",
            ).format(count=len(unset), ids=", ".join(str(name) for name in unset[:10]))
        )
    return Zones(table.polygons, depths, ids, priority)


def _depths(
    values: Sequence[Any], ids: np.ndarray, depth: float | None, unit: LinearUnit
) -> np.ndarray:
    depths = np.empty(len(ids))
    for row, value in enumerate(values):
        if is_blank(value):
            if depth is None:
                raise ZoneError(
                    translate(
                        "Zones",
                        "Zone {zone} has no depth: fill in its field, or give a depth for all.",
                    ).format(zone=ids[row])
                )
            depths[row] = depth
            continue
        try:
            depths[row] = parse_length(value, unit)
        except LengthTextError as error:
            raise ZoneError(
                translate("Zones", "Zone {zone}: {why}").format(zone=ids[row], why=error)
            ) from error
    return depths


def _priorities(values: Sequence[Any], ids: np.ndarray) -> np.ndarray:
    priorities = np.full(len(ids), np.nan)
    for row, value in enumerate(values):
        if is_blank(value):
            continue
        try:
            priorities[row] = float(value)
        except (TypeError, ValueError) as error:
            raise ZoneError(
                translate("Zones", "Zone {zone}: the priority “{value}” is not a number.").format(
                    zone=ids[row], value=value
                )
            ) from error
    return priorities
