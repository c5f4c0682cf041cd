"""A choice whose value is a word while people see its translated label."""

from typing import Any

from qgis.core import (
    NULL,
    Qgis,
    QgsProcessingContext,
    QgsProcessingParameterDefinition,
    QgsProcessingParameterEnum,
)
from qgis.gui import QgsCheckableComboBox, QgsProcessingModelerParameterWidget
from qgis.PyQt.QtCore import Qt
from qgis.PyQt.QtWidgets import QComboBox, QWidget

from ..core.text import translate
from .wrapping import Wrapper


class ChoiceWrapper(Wrapper):
    """Shows a choice as a list of labels; its value is the word, or the list of words."""

    def make_widget(self) -> QWidget:
        definition = self.parameterDefinition()
        words = _words(definition)
        labels = self.options.get("labels") or words
        if definition.allowMultiple():
            self._box = QgsCheckableComboBox()
            self._box.setSeparator("; ")
            self._box.setDefaultText(translate("Gui", "Choose…"))
            for word, label in zip(words, labels, strict=True):
                self._box.addItemWithCheckState(label, Qt.CheckState.Unchecked, word)
            self._box.checkedItemsChanged.connect(lambda _items: self._changed())
        else:
            self._box = QComboBox()
            if definition.flags() & Qgis.ProcessingParameterFlag.Optional:
                self._box.addItem(translate("Gui", "[Not selected]"), None)
            for word, label in zip(words, labels, strict=True):
                self._box.addItem(label, word)
            self._box.currentIndexChanged.connect(lambda _index: self._changed())
        return self._box

    def setWidgetValue(self, value: Any, context: QgsProcessingContext) -> None:
        del context
        definition = self.parameterDefinition()
        words = as_words(value, _words(definition))
        if definition.allowMultiple():
            for row in range(self._box.count()):
                checked = self._box.itemData(row) in words
                self._box.setItemCheckState(
                    row, Qt.CheckState.Checked if checked else Qt.CheckState.Unchecked
                )
            return
        row = self._box.findData(words[0]) if words else self._box.findData(None)
        self._box.setCurrentIndex(max(row, 0))

    def widgetValue(self) -> Any:
        if self.parameterDefinition().allowMultiple():
            return list(self._box.checkedItemsData())
        return self._box.currentData()

    def _changed(self) -> None:
        self.widgetValueHasChanged.emit(self)

    @classmethod
    def for_modeler(
        cls, parameter: QgsProcessingParameterDefinition, dialog: Any, options: dict[str, Any]
    ) -> QgsProcessingModelerParameterWidget:
        widget = super().for_modeler(parameter, dialog, options)
        relabel(widget, dict(zip(_words(parameter), options.get("labels") or [], strict=False)))
        return widget


def as_words(value: Any, words: list[str]) -> list[str]:
    """Return the words of a stored value: a word, a list, words with commas, or numbers."""
    if value is None or value in ("", NULL):
        return []
    items = value if isinstance(value, list | tuple) else str(value).split(",")
    result = []
    for item in items:
        text = str(item).strip()
        if text in words:
            result.append(text)
        elif text.isdecimal() and int(text) < len(words):
            result.append(words[int(text)])
    return result


def relabel(widget: QWidget, labels: dict[str, str]) -> None:
    """Show labels instead of words in QGIS's own choice widgets, whose values stay the words."""
    for box in widget.findChildren(QComboBox):
        for row in range(box.count()):
            if box.itemData(row) in labels and box.itemText(row) == box.itemData(row):
                box.setItemText(row, labels[box.itemData(row)])


def _words(definition: QgsProcessingParameterDefinition) -> list[str]:
    assert isinstance(definition, QgsProcessingParameterEnum)
    return list(definition.options())
