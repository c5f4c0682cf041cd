"""What the check of depths reads: the actual surface or points, and what is asked."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsVectorLayer,
)

from ..core.errors import LengthTextError, UndercourseError
from ..core.measure.limits import Limits, parse_limits
from ..core.text import translate
from ..core.units import LinearUnit
from ..layers.crs import JobUnits, require_same_crs
from ..layers.lines import read_points
from ..layers.surfaces import Surface, read_surface
from ..layers.tables import column_lengths, texts_of
from .check_depth_ground import Task
from .measured_zones import MeasuredZones, read_measured_zones

if TYPE_CHECKING:
    from .check_depth import CheckDepth


@dataclass(frozen=True)
class Survey:
    """Surveyed points: name of the layer, feature ids, and x, y, z (NaN without a height)."""

    name: str
    ids: np.ndarray
    xyz: np.ndarray


def read_actual(
    algorithm: "CheckDepth",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    crs: QgsCoordinateReferenceSystem,
    unit: LinearUnit,
) -> Surface | Survey:
    """Read the surface or the points that are to be checked; ``unit`` is that of heights."""
    layer = algorithm.parameterAsLayer(parameters, algorithm.ACTUAL, context)
    if layer is None:
        raise algorithm.cannot_open(parameters, algorithm.ACTUAL)
    if not (isinstance(layer, QgsVectorLayer) and layer.geometryType() == Qgis.GeometryType.Point):
        require_same_crs(crs, layer.crs(), layer.name())
        return Surface(layer.name(), layer.crs(), read_surface(layer, feedback))
    field = algorithm.text(parameters, algorithm.HEIGHT_FIELD, context)
    wanted = [field] if field else []
    table = read_points(layer, wanted, crs=crs, context=context, feedback=feedback)
    xyz = table.coordinates
    if field:
        z = column_lengths(table.columns[field], table.ids, unit, field, np.nan)
        xyz = np.column_stack((xyz[:, :2], z))
    if xyz.shape[1] < 3:
        raise UndercourseError(
            translate(
                "CheckDepth",
                "The points of “{name}” have no heights: choose the field that holds them.",
            ).format(name=layer.name())
        )
    return Survey(layer.name(), table.ids, xyz)


def read_task(
    algorithm: "CheckDepth",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    design: Surface,
    job: JobUnits,
    depth_field: str,
    depth: float | None,
) -> Task:
    """Read what is asked, of each zone or of all ground."""
    measured = read_measured_zones(
        algorithm,
        parameters,
        context,
        feedback,
        crs=design.crs,
        plan=job.plan,
        vertical=job.vertical,
        depth_field=depth_field,
        depth=depth,
    )
    for_all = parse_limits(algorithm.text(parameters, algorithm.TOLERANCE, context), job.vertical)
    limits = [for_all]
    if measured is not None:
        field = algorithm.text(parameters, algorithm.TOLERANCE_FIELD, context)
        limits = _limits(measured, field, for_all, job.vertical)
    return Task(
        design,
        measured,
        measured.zones.depths if measured is not None else np.array([depth]),
        np.array([one.less for one in limits]),
        np.array([one.more for one in limits]),
        job,
        algorithm.length_value(parameters, algorithm.NARROW, context, job.plan) or 0.0,
    )


def _limits(measured: MeasuredZones, field: str, for_all: Limits, unit: LinearUnit) -> list[Limits]:
    texts = texts_of(measured.source, field, measured.zones.ids)
    limits = []
    for text, identifier in zip(texts, measured.zones.ids.tolist(), strict=True):
        try:
            limits.append(parse_limits(text, unit) if text else for_all)
        except LengthTextError as error:
            raise UndercourseError(
                translate("CheckDepth", "Zone {id}, field “{field}”: {why}").format(
                    id=identifier, field=field, why=error
                )
            ) from error
    return limits
