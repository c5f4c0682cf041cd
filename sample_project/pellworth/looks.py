"""How the sample's layers are drawn: plain QGIS renderers, so that no plugin is needed to see them.

Every colour is doubled by a label, a pattern or a width: it has to be read by colour-blind people
and on grey prints.
"""

from qgis.core import (
    Qgis,
    QgsCategorizedSymbolRenderer,
    QgsFillSymbol,
    QgsLinePatternFillSymbolLayer,
    QgsLineSymbol,
    QgsMarkerLineSymbolLayer,
    QgsMarkerSymbol,
    QgsPalLayerSettings,
    QgsPointPatternFillSymbolLayer,
    QgsProperty,
    QgsRendererCategory,
    QgsSingleSymbolRenderer,
    QgsTextBufferSettings,
    QgsTextFormat,
    QgsVectorLayerSimpleLabeling,
)
from qgis.PyQt.QtGui import QColor, QFont

INK = "#2f3e4c"
OCHRE = "#b3740f"
PAPER = "#ffffff"

SECTION_FILLS = {
    "lane": ("#aab4bc", None),
    "bus bay": ("#c6cdd2", ("line", 45.0, "#8b97a1")),
    "crossing": ("#e3b877", ("line", 135.0, "#a97a2f")),
    "curb": ("#5f6d79", None),
    "walk": ("#efe6d2", None),
    "planting strip": ("#9dbb84", ("dot", 0.0, "#5e7f49")),
    "lawn": ("#d5e4bf", None),
    "rain garden": ("#8fb8c6", ("line", 0.0, "#4d7f92")),
}


def section_renderer():
    """Return one fill for each section of the schedule."""
    categories = []
    for section, (colour, pattern) in SECTION_FILLS.items():
        symbol = QgsFillSymbol.createSimple(
            {"color": colour, "outline_color": "#4a5863", "outline_width": "0.15"}
        )
        if pattern:
            symbol.appendSymbolLayer(_pattern(*pattern))
        categories.append(QgsRendererCategory(section, symbol, section.capitalize()))
    return QgsCategorizedSymbolRenderer("section", categories)


def _pattern(kind, angle, colour):
    if kind == "line":
        lines = QgsLinePatternFillSymbolLayer()
        lines.setLineAngle(angle)
        lines.setDistance(1.8)
        lines.setSubSymbol(QgsLineSymbol.createSimple({"line_color": colour, "line_width": "0.15"}))
        return lines
    dots = QgsPointPatternFillSymbolLayer()
    dots.setDistanceX(2.0)
    dots.setDistanceY(2.0)
    dots.setSubSymbol(
        QgsMarkerSymbol.createSimple(
            {"name": "circle", "color": colour, "outline_style": "no", "size": "0.5"}
        )
    )
    return dots


def line_symbol(colour, pattern, width, arrow_every=0.0):
    """Return a line; with direction heads every so many millimetres."""
    symbol = QgsLineSymbol.createSimple(
        {
            "line_color": colour,
            "line_style": pattern,
            "line_width": str(width),
            "capstyle": "flat",
            "joinstyle": "round",
        }
    )
    if arrow_every:
        head = QgsMarkerSymbol.createSimple(
            {
                "name": "filled_arrowhead",
                "color": colour,
                "outline_color": colour,
                "size": str(1.2 + 2.2 * width),
            }
        )
        marks = QgsMarkerLineSymbolLayer(True, arrow_every)
        marks.setSubSymbol(head)
        marks.setOffsetAlongLine(arrow_every / 2)
        symbol.appendSymbolLayer(marks)
    return symbol


def line_renderer(colour, pattern, width, arrow_every=0.0):
    return QgsSingleSymbolRenderer(line_symbol(colour, pattern, width, arrow_every))


def point_renderer(name, colour, size):
    return QgsSingleSymbolRenderer(
        QgsMarkerSymbol.createSimple(
            {
                "name": name,
                "color": colour,
                "outline_color": INK,
                "outline_width": "0.3",
                "size": str(size),
            }
        )
    )


def text_format(size, colour=INK, *, bold=False, halo=0.7):
    text = QgsTextFormat()
    font = QFont("DejaVu Sans")
    font.setBold(bold)
    text.setFont(font)
    text.setSize(size)
    text.setColor(QColor(colour))
    buffer = QgsTextBufferSettings()
    buffer.setEnabled(halo > 0)
    buffer.setSize(halo)
    buffer.setColor(QColor(PAPER))
    text.setBuffer(buffer)
    return text


def label(layer, expression, text, placement, *, every=0.0, distance=0.0):
    """Label a layer by an expression; lines above their line."""
    settings = QgsPalLayerSettings()
    settings.fieldName = expression
    settings.isExpression = True
    settings.setFormat(text)
    settings.placement = placement
    if distance:
        settings.dist = distance
    if layer.geometryType() == Qgis.GeometryType.Line:
        line = settings.lineSettings()
        line.setPlacementFlags(
            Qgis.LabelLinePlacementFlag.AboveLine | Qgis.LabelLinePlacementFlag.MapOrientation
        )
        settings.setLineSettings(line)
        if every:
            settings.repeatDistance = every
    elif layer.geometryType() == Qgis.GeometryType.Polygon:
        # One label a zone, also where the zone runs round the whole loop.
        settings.fitInPolygonOnly = False
        properties = settings.dataDefinedProperties()
        properties.setProperty(
            QgsPalLayerSettings.Property.LabelAllParts, QgsProperty.fromValue(False)
        )
        settings.setDataDefinedProperties(properties)
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
    layer.setLabelsEnabled(True)
