"""A length as text, which says at once how it is understood."""

from collections.abc import Sequence
from typing import Any

from qgis.core import NULL, QgsCoordinateReferenceSystem, QgsProcessingContext, QgsProject
from qgis.gui import QgsAbstractProcessingParameterWidgetWrapper, QgsProcessingGui
from qgis.PyQt.QtCore import pyqtSignal
from qgis.PyQt.QtWidgets import QLabel, QLineEdit, QVBoxLayout, QWidget

from ..core.errors import UndercourseError
from ..core.text import translate
from ..core.units import FOOT, METRE, LinearUnit, describe_length, parse_length, parse_lengths
from ..layers.crs import job_units
from ..styles import palette
from .wrapping import Wrapper

_LAYERS = ("layer", "mesh", "raster", "source", "vector")
_VERTICAL_UNIT = "VERTICAL_UNIT"
_MOST_SHOWN = 4


class LengthEdit(QWidget):
    """A line of text over a small label that repeats the length in both styles, or the error."""

    changed = pyqtSignal()

    def __init__(self, *, many: bool, compact: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.many = many
        self.unit: LinearUnit | None = None
        self.text = QLineEdit(self)
        self.text.setClearButtonEnabled(not compact)
        self.told = QLabel(self)
        self.told.setWordWrap(True)
        self._compact = compact
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(1)
        layout.addWidget(self.text)
        layout.addWidget(self.told)
        self.setFocusProxy(self.text)
        self.text.textChanged.connect(self._edited)
        self._edited()

    def set_unit(self, unit: LinearUnit | None) -> None:
        """Take a number without a unit to be in ``unit``; None while it is not known."""
        self.unit = unit
        self._tell()

    def _edited(self) -> None:
        self._tell()
        self.changed.emit()

    def _tell(self) -> None:
        try:
            told, colour = reading(self.text.text(), self.unit, many=self.many), palette.QUIET_TEXT
        except UndercourseError as error:
            told, colour = str(error), palette.ERROR_TEXT
        self.told.setText(told)
        self.told.setStyleSheet(f"color: {colour};")
        self.told.setVisible(bool(told) and not self._compact)
        self.text.setToolTip(told)


def reading(text: str, unit: LinearUnit | None, *, many: bool = False) -> str:
    """Return how a text is read: ``= 0.200 ft (2.4 in)``; empty for an empty text.

    Raises
    ------
    UndercourseError
        The text is no length, or no list of lengths.
    """
    if not text.strip():
        return ""
    read = parse_lengths if many else _as_list
    values = read(text, unit or METRE)
    if unit is not None:
        shown = [describe_length(value, unit) for value in values[:_MOST_SHOWN]]
    elif values == read(text, FOOT):
        if many and len(values) > 1:
            told = translate("Gui", "{count} lengths in the unit of the job")
            return told.format(count=len(values))
        return translate("Gui", "in the unit of the job")
    else:
        feet = read(text, FOOT)
        shown = [
            f"{describe_length(foot, FOOT)} = {describe_length(metre, METRE)}"
            for foot, metre in zip(feet[:_MOST_SHOWN], values, strict=False)
        ]
    if len(values) > _MOST_SHOWN:
        shown.append(translate("Gui", "… {count} in all").format(count=len(values)))
    return "= " + "; ".join(shown)


def _as_list(text: str, unit: LinearUnit) -> list[float]:
    return [parse_length(text, unit)]


class LengthWrapper(Wrapper):
    """Puts a `LengthEdit` in dialogs and batch tables; its value is the text."""

    def make_widget(self) -> QWidget:
        compact = self.type() == QgsProcessingGui.WidgetType.Batch
        self._edit = LengthEdit(many=bool(self.options.get("many")), compact=compact)
        self._edit.changed.connect(lambda: self.widgetValueHasChanged.emit(self))
        return self._edit

    def setWidgetValue(self, value: Any, context: QgsProcessingContext) -> None:
        del context
        blank = value is None or value == NULL
        self._edit.text.setText("" if blank else str(value))

    def widgetValue(self) -> Any:
        return self._edit.text.text().strip()

    def postInitialize(
        self, wrappers: Sequence[QgsAbstractProcessingParameterWidgetWrapper]
    ) -> None:
        """Follow the layer that the unit comes from, and the unit of heights."""
        named = {wrapper.parameterDefinition().name(): wrapper for wrapper in wrappers}
        layers = [w for w in wrappers if w.parameterDefinition().type() in _LAYERS]
        self._layer = next(iter(layers), None)
        self._vertical = named.get(_VERTICAL_UNIT)
        for wrapper in (self._layer, self._vertical):
            if wrapper is not None:
                wrapper.widgetValueHasChanged.connect(lambda _wrapper: self._follow())
        self._follow()

    def _follow(self) -> None:
        word = self._vertical.parameterValue() if self._vertical is not None else None
        crs = None if self._layer is None else _crs_of(self._layer.parameterValue())
        try:
            units = None if crs is None else job_units(crs, word or "same")
        except UndercourseError:
            units = None
        if units is None:
            self._edit.set_unit(None)
        else:
            self._edit.set_unit(units.plan if self.options.get("plan") else units.vertical)


def _crs_of(value: Any) -> QgsCoordinateReferenceSystem | None:
    """Return the CRS of a layer in the project; files are not opened for this."""
    source = getattr(value, "source", None)
    if source is not None:
        value = source.staticValue()
    if not value or not isinstance(value, str):
        return getattr(value, "crs", lambda: None)()
    project = QgsProject.instance()
    layer = project.mapLayer(value) or next(iter(project.mapLayersByName(value)), None)
    return None if layer is None else layer.crs()
