"""Values of parameters, as the algorithms need them."""

from typing import Any

from qgis.core import (
    NULL,
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsMapLayer,
    QgsProcessingAlgorithm,
    QgsProcessingContext,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
)

from ..core.errors import UndercourseError
from ..core.text import translate
from ..core.units import LinearUnit, parse_length, parse_lengths
from ..layers.crs import JobUnits, job_units
from ..layers.surfaces import Surface, read_surface
from .parameters import VERTICAL_UNIT


class Inputs(QgsProcessingAlgorithm):
    """The part of the base that reads parameters."""

    def word(self, parameters: dict[str, Any], name: str, context: QgsProcessingContext) -> str:
        """Return the word of a choice; empty when an optional one is blank."""
        return self.parameterAsEnumString(parameters, name, context) or ""

    def words(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> list[str]:
        """Return the words of a multiple choice."""
        return list(self.parameterAsEnumStrings(parameters, name, context))

    def length_value(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        unit: LinearUnit,
    ) -> float | None:
        """Return a length in ``unit``, which it also has when it names none; None when blank."""
        text = self.text(parameters, name, context)
        return parse_length(text, unit) if text else None

    def length_values(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        unit: LinearUnit,
    ) -> list[float]:
        """Return a list of lengths in ``unit``; empty when blank."""
        text = self.text(parameters, name, context)
        return parse_lengths(text, unit) if text else []

    def text(self, parameters: dict[str, Any], name: str, context: QgsProcessingContext) -> str:
        return (self.parameterAsString(parameters, name, context) or "").strip()

    def layer_surface(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> Surface | None:
        """Read a surface parameter (in `read`); None when an optional one is blank."""
        layer = self.parameterAsLayer(parameters, name, context)
        if layer is None:
            if self.is_blank(parameters, name):
                return None
            raise self.cannot_open(parameters, name)
        kinds = ("tin", "raster")
        accepted = self.parameterDefinition(name).dataTypes()
        if Qgis.ProcessingSourceType.Raster not in accepted:
            kinds = ("tin",)
        elif Qgis.ProcessingSourceType.Mesh not in accepted:
            kinds = ("raster",)
        return Surface(layer.name(), layer.crs(), read_surface(layer, feedback, kinds))

    def source(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> QgsProcessingFeatureSource | None:
        """Return a feature source; None when an optional one is blank."""
        source = self.parameterAsSource(parameters, name, context)
        if source is None and not self.is_blank(parameters, name):
            raise self.cannot_open(parameters, name)
        return source

    def units(
        self,
        of: QgsCoordinateReferenceSystem | QgsMapLayer | QgsProcessingFeatureSource | Surface,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
    ) -> JobUnits:
        """Return the units of the job from the CRS of its design, and VERTICAL_UNIT if any."""
        if isinstance(of, QgsProcessingFeatureSource):
            of = of.sourceCrs()
        elif not isinstance(of, QgsCoordinateReferenceSystem):
            of = of.crs if isinstance(of, Surface) else of.crs()
        has_word = self.parameterDefinition(VERTICAL_UNIT) is not None
        word = self.word(parameters, VERTICAL_UNIT, context) if has_word else ""
        return job_units(of, word or "same")

    def is_blank(self, parameters: dict[str, Any], name: str) -> bool:
        value = parameters.get(name)
        optional = self.parameterDefinition(name).flags() & Qgis.ProcessingParameterFlag.Optional
        return bool(optional) and (value is None or value in ("", NULL))

    def lost_layers(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> UndercourseError | None:
        """Return the error about the first of many layers that cannot be opened, if any."""
        given = parameters.get(name)
        for one in given if isinstance(given, (list, tuple)) else [given]:
            if not self.parameterAsLayerList({name: [one]}, name, context):
                return self.cannot_open({name: one}, name)
        return None

    def cannot_open(self, parameters: dict[str, Any], name: str) -> UndercourseError:
        return UndercourseError(
            translate(
                "Base", "{label}: “{value}” cannot be opened, check the path and the layer name."
            ).format(label=self.parameterDefinition(name).description(), value=parameters.get(name))
        )
