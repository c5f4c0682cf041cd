"""Styles of stakes."""

from qgis.core import (
    Qgis,
    QgsCategorizedSymbolRenderer,
    QgsMarkerSymbol,
    QgsPalLayerSettings,
    QgsRendererCategory,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
)

from ..core.text import translate
from . import palette
from .lines import add_label


def style_stakes(layer: QgsVectorLayer) -> None:
    """Slate points on the line, ochre ones beside it by shape, labelled with station and mark."""
    looks = {
        "on line": (translate("Styles", "On the line"), "circle", palette.SLATE, "2.2"),
        "right": (translate("Styles", "Right of the line"), "triangle", palette.OCHRE, "2.8"),
        "left": (translate("Styles", "Left of the line"), "square", palette.PLUM, "2.2"),
    }
    categories = []
    for side, (label, shape, colour, size) in looks.items():
        symbol = QgsMarkerSymbol.createSimple(
            {"name": shape, "color": colour, "outline_color": palette.PAPER, "size": size}
        )
        categories.append(QgsRendererCategory(side, symbol, label))
    layer.setRenderer(QgsCategorizedSymbolRenderer("side", categories))
    add_label(layer, ("station",), palette.SLATE)
    settings = QgsPalLayerSettings(layer.labeling().settings())
    settings.fieldName = 'concat("station", \'\n\' || "mark")'
    settings.isExpression = True
    settings.placement = Qgis.LabelPlacement.OrderedPositionsAroundPoint
    settings.dist = 1.2
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
