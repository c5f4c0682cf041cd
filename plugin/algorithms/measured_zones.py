"""Zones that something is measured in: optional polygons with names."""

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
)

from ..core.depth.zones import Zones, resolve, snapped
from ..core.findings import Finding
from ..core.text import translate
from ..core.tolerance import Tolerance
from ..core.units import LinearUnit
from ..layers.tables import Source, texts_of, usual_field
from .parameters import name_field
from .zone_inputs import read_zones

if TYPE_CHECKING:
    from .base import UndercourseAlgorithm

ZONES, NAME_FIELD, PRIORITY_FIELD = "ZONES", "NAME_FIELD", "PRIORITY_FIELD"


@dataclass(frozen=True)
class MeasuredZones:
    """Zones made disjoint, in the order of their layer.

    Parameters
    ----------
    layer
        Name of the layer.
    zones
        The zones.
    names
        What people call each: its name, or its feature id.
    findings
        What was done to fit them together.
    source
        The layer, for further fields.
    """

    layer: str
    zones: Zones
    names: list[str]
    findings: list[Finding]
    source: Source


def add_zones(algorithm: "UndercourseAlgorithm", help_text: str) -> None:
    """Add the zones and the field with their names."""
    algorithm.add(
        QgsProcessingParameterFeatureSource(
            ZONES,
            translate("Measure", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
            None,
            True,
        ),
        help_text,
    )
    label = translate("Measure", "Field with names of the zones")
    algorithm.add(name_field(NAME_FIELD, label, ZONES))


def add_priority(algorithm: "UndercourseAlgorithm") -> None:
    """Add the field that settles overlaps."""
    algorithm.add(
        QgsProcessingParameterField(
            PRIORITY_FIELD,
            translate("Measure", "Field with priorities of the zones"),
            None,
            ZONES,
            optional=True,
        ),
        translate(
            "Measure",
            "Where zones overlap the lower number wins, so that no ground counts twice. Without it, zones that overlap are refused.",
        ),
        advanced=True,
    )


def read_measured_zones(
    algorithm: "UndercourseAlgorithm",
    parameters: dict[str, Any],
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    *,
    crs: QgsCoordinateReferenceSystem,
    plan: LinearUnit,
    vertical: LinearUnit,
    depth_field: str = "",
    depth: float | None = 0.0,
) -> MeasuredZones | None:
    """Read the zones, with their depths where there is a field; None where none are given."""
    source = algorithm.source(parameters, ZONES, context)
    if source is None:
        return None
    given = read_zones(
        source,
        depth_field,
        depth,
        algorithm.text(parameters, PRIORITY_FIELD, context),
        unit=vertical,
        crs=crs,
        context=context,
        feedback=feedback,
    )
    zones = resolve(given, Tolerance.for_unit(plan.metres))
    field = algorithm.text(parameters, NAME_FIELD, context) or usual_field(source, "name")
    texts = texts_of(source, field, zones.ids) if field else [""] * len(zones)
    names = [text or str(one) for text, one in zip(texts, zones.ids.tolist(), strict=True)]
    return MeasuredZones(source.sourceName(), zones, names, snapped(zones), source)
