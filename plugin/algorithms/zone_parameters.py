"""The parameters of zones with a depth each, as all depth surfaces take them."""

from typing import TYPE_CHECKING, Any

from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
)

from ..core.depth.zones import Outside
from ..core.text import translate

if TYPE_CHECKING:
    from .base import UndercourseAlgorithm

ZONES = "ZONES"
DEPTH = "DEPTH"
DEPTH_FIELD = "DEPTH_FIELD"
OUTSIDE = "OUTSIDE"
PRIORITY_FIELD = "PRIORITY_FIELD"

_USUAL = "depth"


def add_zone_parameters(algorithm: "UndercourseAlgorithm") -> None:
    """Add zones, depths, what happens outside, and priority to an algorithm."""
    algorithm.add(
        QgsProcessingParameterFeatureSource(
            ZONES,
            translate("Zones", "Zones"),
            [QgsProcessing.SourceType.TypeVectorPolygon],
        ),
        translate(
            "Zones",
            "Polygons below which a depth holds. Zones in another CRS are moved to that of the design.",
        ),
    )
    algorithm.add(
        _field(
            DEPTH_FIELD,
            translate("Zones", "Field with the depth of each zone"),
            Qgis.ProcessingFieldParameterDataType.Any,
        ),
        translate(
            "Zones",
            "Positive is below the design, a minus sign raises, 0 stays on it. Numbers are in the unit of the heights; texts may name their unit (0.2 ft, 2 1/2 in, 60 mm). Left blank together with the depth for all, a field called “depth” is used if there is one.",
        ),
    )
    algorithm.add(
        algorithm.length(DEPTH, translate("Zones", "Depth for all"), None, optional=True),
        translate(
            "Zones",
            "Depth of zones that have none in the field, or of all without a field, and of the design outside all zones where that is chosen. Positive is below the design, a minus sign raises. With a unit, or in the unit of the heights: 0.2 ft, 2 1/2 in, 60 mm.",
        ),
    )
    algorithm.add(
        algorithm.choice(
            OUTSIDE,
            translate("Zones", "Outside all zones"),
            {
                str(Outside.KEEP): translate("Zones", "Keep the design"),
                str(Outside.LEAVE_OUT): translate("Zones", "Leave it out"),
                str(Outside.USE_DEPTH): translate("Zones", "Use the depth for all"),
            },
            str(Outside.KEEP),
        ),
        translate(
            "Zones",
            "What becomes of the design where no zone is. Nothing is made where there is no design.",
        ),
    )
    algorithm.add(
        _field(
            PRIORITY_FIELD,
            translate("Zones", "Field with the priority of each zone"),
            Qgis.ProcessingFieldParameterDataType.Numeric,
        ),
        translate(
            "Zones",
            "Where zones overlap, the one with the lower number wins (1 before 2). Without it an overlap stops the run.",
        ),
        advanced=True,
    )


def depth_field(
    algorithm: "UndercourseAlgorithm", parameters: dict[str, Any], context: QgsProcessingContext
) -> str:
    """Return the field with the depths, empty for none.

    With neither a field nor a depth given it is the field called "depth" of the zones, if any.
    """
    field = algorithm.text(parameters, DEPTH_FIELD, context)
    if field or algorithm.text(parameters, DEPTH, context):
        return field
    names = algorithm.source(parameters, ZONES, context).fields()
    found = names.lookupField(_USUAL)
    return names.at(found).name() if found >= 0 else ""


def missing_depth(
    algorithm: "UndercourseAlgorithm", parameters: dict[str, Any], context: QgsProcessingContext
) -> str | None:
    """Return what to say when the parameters give no depth, or None."""
    has_depth = bool(algorithm.text(parameters, DEPTH, context))
    if not has_depth and not depth_field(algorithm, parameters, context):
        return translate(
            "Zones",
            "There is no depth: choose the field with the depth of each zone, or give a depth for all.",
        )
    if not has_depth and algorithm.word(parameters, OUTSIDE, context) == Outside.USE_DEPTH:
        return translate(
            "Zones",
            "Outside all zones the depth for all is to be used, but it is empty: give it.",
        )
    return None


def _field(
    name: str, label: str, kind: Qgis.ProcessingFieldParameterDataType
) -> QgsProcessingParameterField:
    return QgsProcessingParameterField(name, label, None, ZONES, kind, False, True)
