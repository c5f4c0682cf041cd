"""Styles of cross sections and of the marks on them."""

from qgis.core import (
    Qgis,
    QgsCategorizedSymbolRenderer,
    QgsLineSymbol,
    QgsMarkerSymbol,
    QgsPalLayerSettings,
    QgsRendererCategory,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
)

from ..core.text import translate
from . import palette
from .lines import add_label


def style_sections(layer: QgsVectorLayer) -> None:
    """Thin slate lines, flagged ones thick dotted berry; the station once for all surfaces."""
    plain = QgsLineSymbol.createSimple({"line_color": palette.SLATE, "line_width": "0.4"})
    flagged = QgsLineSymbol.createSimple(
        {"line_color": palette.BERRY, "line_width": "0.9", "line_style": "dot"}
    )
    categories = [
        QgsRendererCategory("plain", plain, translate("Styles", "Section")),
        QgsRendererCategory("flagged", flagged, translate("Styles", "Flagged")),
    ]
    state = "CASE WHEN \"flag\" IS NOT NULL THEN 'flagged' ELSE 'plain' END"
    layer.setRenderer(QgsCategorizedSymbolRenderer(state, categories))
    add_label(layer, ("station",), palette.SLATE)
    settings = QgsPalLayerSettings(layer.labeling().settings())
    # The lines of all surfaces lie on one another in plan.
    settings.fieldName = 'if("surface" = minimum("surface", "number"), "station", \'\')'
    settings.isExpression = True
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
    elevation = layer.elevationProperties()
    elevation.setClamping(Qgis.AltitudeClamping.Absolute)
    elevation.setBinding(Qgis.AltitudeBinding.Vertex)


def style_section_marks(layer: QgsVectorLayer) -> None:
    """Ochre diamonds for guidelines, small slate squares for borders of zones."""
    looks = {
        "guideline": (translate("Styles", "Guideline"), "diamond", palette.OCHRE, "2.8"),
        "zone_border": (translate("Styles", "Border of a zone"), "square", palette.SLATE, "1.6"),
    }
    categories = [
        QgsRendererCategory(
            kind,
            QgsMarkerSymbol.createSimple(
                {"name": shape, "color": colour, "outline_color": palette.PAPER, "size": size}
            ),
            label,
        )
        for kind, (label, shape, colour, size) in looks.items()
    ]
    layer.setRenderer(QgsCategorizedSymbolRenderer("kind", categories))
    add_label(layer, ("name",), palette.OCHRE_TEXT)
