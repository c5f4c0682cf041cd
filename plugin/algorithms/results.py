"""Destinations of results: feature sinks, files, and how they arrive in the project."""

from pathlib import Path
from typing import Any

from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsFeatureSink,
    QgsFields,
    QgsProcessingContext,
    QgsProcessingUtils,
)

from ..core.errors import UndercourseError
from ..core.text import translate
from ..layers.loading import Style, load_mesh, name_output
from ..layers.sinks import Sink
from .inputs import Inputs


class Results(Inputs):
    """The part of the base that writes results."""

    def sink(
        self,
        parameters: dict[str, Any],
        name: str,
        context: QgsProcessingContext,
        fields: QgsFields,
        kind: Qgis.WkbType,
        crs: QgsCoordinateReferenceSystem,
        *flags: QgsFeatureSink.SinkFlag,
    ) -> Sink | None:
        """Open a feature sink; None when the output was not asked for.

        Everything that can fail is checked before: opening empties an existing file.
        """
        asked = QgsFeatureSink.SinkFlags(*flags)
        sink, identifier = self.parameterAsSink(parameters, name, context, fields, kind, crs, asked)
        label = self.parameterDefinition(name).description()
        if sink is None:
            if self.is_blank(parameters, name):
                return None
            raise self.cannot_write(parameters, name)
        return Sink(sink, identifier, fields, label)

    def file(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> str | None:
        """Return the path of a file destination; None when it was not asked for."""
        if self.is_blank(parameters, name):
            return None
        path = self.parameterAsFileOutput(parameters, name, context)
        if path and not Path(path).parent.is_dir():
            raise self.cannot_write(parameters, name)
        return path or None

    def raster_file(
        self, parameters: dict[str, Any], name: str, context: QgsProcessingContext
    ) -> str:
        """Return the path of a raster destination."""
        path = self.parameterAsOutputLayer(parameters, name, context)
        if not path or not Path(path).parent.is_dir():
            raise self.cannot_write(parameters, name)
        return path

    def cannot_write(self, parameters: dict[str, Any], name: str) -> UndercourseError:
        return UndercourseError(
            translate(
                "Base", "{label}: “{value}” cannot be written, check that its folder exists."
            ).format(label=self.parameterDefinition(name).description(), value=parameters.get(name))
        )

    def named_output(
        self,
        context: QgsProcessingContext,
        destination: str,
        name: str,
        style: Style | None = None,
        group: str = "",
    ) -> None:
        """Name and style a result for when Desktop loads it."""
        name_output(context, destination, name, style, group)

    def load_mesh(
        self,
        parameters: dict[str, Any],
        output: str,
        context: QgsProcessingContext,
        path: str,
        name: str,
        style: Style | None = None,
    ) -> None:
        """Have a written mesh loaded in Desktop, unless it only feeds the next step of a model."""
        value = parameters.get(output)
        between = isinstance(value, str) and value.startswith(
            QgsProcessingUtils.tempFolder(context)
        )
        if not between:
            load_mesh(context, path, output, name, style)
