"""Models that come with the plugin, under stable ids and with the widgets of their steps."""

import re
from collections.abc import Iterator
from pathlib import Path

from qgis.core import (
    Qgis,
    QgsProcessingModelAlgorithm,
    QgsProcessingModelChildParameterSource,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterEnum,
)
from qgis.PyQt.QtGui import QIcon

from .parameters import choice_labels, is_length

_ICON = Path(__file__).parent.parent / "icons" / "undercourse.svg"


class BundledModel(QgsProcessingModelAlgorithm):
    """A model whose id is the name of its file; people see the name that stands in it."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.path = path
        self.loaded = self.fromFile(str(path))
        for own, step in self._handed_on():
            _dress(own, step)

    def _handed_on(
        self,
    ) -> Iterator[tuple[QgsProcessingParameterDefinition, QgsProcessingParameterDefinition]]:
        """Yield each input of the model with the parameter of the step that takes it."""
        for child in self.childAlgorithms().values():
            algorithm = child.algorithm()
            for name, sources in child.parameterSources().items() if algorithm else ():
                for source in sources:
                    own = self.parameterDefinition(_input(source))
                    step = algorithm.parameterDefinition(name)
                    if own is not None and step is not None:
                        yield own, step

    def createInstance(self) -> "BundledModel":
        return BundledModel(self.path)

    def name(self) -> str:
        return self.path.stem

    def displayName(self) -> str:
        return super().name()

    def svgIconPath(self) -> str:
        return str(_ICON)

    def icon(self) -> QIcon:
        return QIcon(str(_ICON))


def _input(source: QgsProcessingModelChildParameterSource) -> str:
    """Return the one input of the model that a value comes from, empty for none."""
    if source.source() == Qgis.ProcessingModelChildParameterSource.ModelParameter:
        return source.parameterName()
    if source.source() == Qgis.ProcessingModelChildParameterSource.Expression:
        named = set(re.findall(r"@(\w+)", source.expression()))
        return named.pop() if len(named) == 1 else ""
    return ""


def _dress(own: QgsProcessingParameterDefinition, step: QgsProcessingParameterDefinition) -> None:
    """Give an input of a model the widget of the parameter that it is handed on to.

    A model file cannot hold it, since it names neither the package nor the user's language.
    """
    if own.type() != step.type():
        return
    metadata = step.metadata()
    if isinstance(own, QgsProcessingParameterEnum):
        labels = choice_labels(step)
        if not labels or not set(own.options()) <= labels.keys():
            return
        shown = [labels[word] for word in own.options()]
        metadata["widget_wrapper"] = {**metadata["widget_wrapper"], "labels": shown}
    elif not is_length(step):
        return
    own.setMetadata(metadata)
