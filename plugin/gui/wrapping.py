"""Where a parameter widget is going to stand, and what is the same for each of ours."""

from typing import Any

from qgis.core import QgsProcessingParameterDefinition
from qgis.gui import (
    QgsAbstractProcessingParameterWidgetWrapper,
    QgsGui,
    QgsProcessingGui,
    QgsProcessingModelerParameterWidget,
)
from qgis.PyQt.QtWidgets import QVBoxLayout, QWidget

_MODELER = "ModelerParametersDialog"
_BATCH = "BatchAlgorithmDialog"


def in_modeler(dialog: Any) -> bool:
    """Tell whether a widget is for a step of a model."""
    return type(dialog).__name__ == _MODELER


def widget_type(dialog: Any) -> QgsProcessingGui.WidgetType:
    """Return the kind of widget that a dialog needs."""
    if type(dialog).__name__ == _BATCH:
        return QgsProcessingGui.WidgetType.Batch
    return QgsProcessingGui.WidgetType.Standard


def modeler_widget(
    parameter: QgsProcessingParameterDefinition, dialog: Any
) -> QgsProcessingModelerParameterWidget:
    """Return QGIS's own widget for a step, which can also take a model input or a result."""
    return QgsGui.processingGuiRegistry().createModelerParameterWidget(
        dialog.model, dialog.childId, parameter, dialog.context
    )


class Wrapper(QgsAbstractProcessingParameterWidgetWrapper):
    """Base of our widget wrappers in dialogs and batch tables.

    QGIS calls the class with ``(parameter, dialog, row, column, **metadata)``.
    """

    def __new__(
        cls, parameter: QgsProcessingParameterDefinition, dialog: Any, *_: Any, **options: Any
    ) -> Any:
        if in_modeler(dialog):
            return cls.for_modeler(parameter, dialog, options)
        return super().__new__(cls)

    def __init__(
        self, parameter: QgsProcessingParameterDefinition, dialog: Any, *_: Any, **options: Any
    ) -> None:
        super().__init__(parameter, widget_type(dialog))
        self.options = options

    def createWidget(self) -> QWidget:
        """Return the widget of `make_widget` in a holder.

        QGIS takes over what is returned here, and Python's object for it is of no use any more;
        those for what is inside live on.
        """
        holder = QWidget()
        layout = QVBoxLayout(holder)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.make_widget())
        holder.setToolTip(self.parameterDefinition().toolTip())
        # QGIS makes a second Python object for the holder; memory is corrupted if this one dies
        # before it.
        self._holder = holder
        return holder

    def make_widget(self) -> QWidget:
        """Return the widget that people see."""
        raise NotImplementedError

    @classmethod
    def for_modeler(
        cls, parameter: QgsProcessingParameterDefinition, dialog: Any, options: dict[str, Any]
    ) -> QgsProcessingModelerParameterWidget:
        """Return the widget for a step of a model."""
        del options
        return modeler_widget(parameter, dialog)
