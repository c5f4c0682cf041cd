"""Styles of what a check of a design finds."""

from qgis.core import (
    QgsCategorizedSymbolRenderer,
    QgsFillSymbol,
    QgsMarkerSymbol,
    QgsRendererCategory,
    QgsVectorLayer,
)

from ..core.text import translate
from . import palette
from .lines import add_label

_WEIGHTS = ("error", "check", "note")


def _labels() -> dict[str, str]:
    return {
        "error": translate("Styles", "Error"),
        "check": translate("Styles", "To check"),
        "note": translate("Styles", "Note"),
    }


def style_issues(layer: QgsVectorLayer) -> None:
    """Filled berry diamonds for errors, ochre triangles to check, small slate rings for notes."""
    looks = {
        "error": ("diamond", palette.BERRY, palette.PAPER, 4.4),
        "check": ("triangle", palette.OCHRE, palette.PAPER, 3.8),
        "note": ("circle", "255,255,255,0", palette.SLATE, 2.6),
    }
    labels = _labels()
    categories = []
    for weight in _WEIGHTS:
        shape, colour, outline, size = looks[weight]
        symbol = QgsMarkerSymbol.createSimple(
            {"name": shape, "color": colour, "outline_color": outline, "size": str(size)}
        )
        categories.append(QgsRendererCategory(weight, symbol, labels[weight]))
    layer.setRenderer(QgsCategorizedSymbolRenderer("weight", categories))
    add_label(layer, ("flag",), palette.BERRY)


def style_issue_areas(layer: QgsVectorLayer) -> None:
    """Level hatching for water, else the hatching of the weight."""
    labels = _labels()
    looks = {
        "pond": (translate("Styles", "Water"), palette.TEAL, "horizontal"),
        "error": (labels["error"], palette.BERRY, "diagonal_x"),
        "check": (labels["check"], palette.OCHRE, "b_diagonal"),
        "note": (labels["note"], palette.SLATE, "f_diagonal"),
    }
    categories = []
    for value, (label, colour, pattern) in looks.items():
        symbol = QgsFillSymbol.createSimple(
            {"color": colour, "style": pattern, "outline_color": colour, "outline_width": "0.4"}
        )
        categories.append(QgsRendererCategory(value, symbol, label))
    kind = "CASE WHEN \"flag\" = 'pond' THEN 'pond' ELSE \"weight\" END"
    layer.setRenderer(QgsCategorizedSymbolRenderer(kind, categories))
