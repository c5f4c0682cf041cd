"""Styles of line and point results."""

import math

from qgis.core import (
    Qgis,
    QgsCategorizedSymbolRenderer,
    QgsFillSymbol,
    QgsGraduatedSymbolRenderer,
    QgsLineSymbol,
    QgsMarkerLineSymbolLayer,
    QgsMarkerSymbol,
    QgsPalLayerSettings,
    QgsProperty,
    QgsRendererCategory,
    QgsRendererRange,
    QgsSingleSymbolRenderer,
    QgsSymbolLayer,
    QgsTextBufferSettings,
    QgsTextFormat,
    QgsVectorLayer,
    QgsVectorLayerSimpleLabeling,
)
from qgis.PyQt.QtGui import QColor

from ..core.text import translate
from . import palette


def style_guidelines(layer: QgsVectorLayer) -> None:
    """Dashed ochre, arrow heads the way of the line, ticks towards its line, offset as label."""
    symbol = _line(palette.OCHRE, "dash", 0.6)
    symbol.appendSymbolLayer(_direction(palette.OCHRE, 14.0, 2.0))
    if layer.fields().lookupField("side_line") >= 0:
        symbol.appendSymbolLayer(_ticks(palette.OCHRE_TEXT, 14.0, 2.4))
    _mark_in_profiles(layer, "diamond", palette.OCHRE)
    _show(layer, symbol)
    add_label(layer, ("label", "offset"), palette.OCHRE_TEXT)


def style_reference_lines(layer: QgsVectorLayer) -> None:
    """Solid dark slate, arrow heads the way of the line."""
    symbol = _line(palette.SLATE, "solid", 0.7)
    symbol.appendSymbolLayer(_direction(palette.SLATE, 24.0, 2.2))
    _show(layer, symbol)
    _mark_in_profiles(layer, "circle", palette.SLATE)


def style_oriented_lines(layer: QgsVectorLayer) -> None:
    """Slate as drawn, ochre dashes turned round, berry dots flagged; all with arrow heads."""
    looks = {
        "kept": (translate("Styles", "As drawn"), palette.SLATE, "solid", 0.6),
        "turned": (translate("Styles", "Turned round"), palette.OCHRE, "dash", 0.7),
        "flagged": (translate("Styles", "Flagged"), palette.BERRY, "dot", 1.0),
    }
    categories = []
    for state, (label, colour, pattern, width) in looks.items():
        symbol = _line(colour, pattern, width)
        symbol.appendSymbolLayer(_direction(colour, 16.0, 2.2))
        categories.append(QgsRendererCategory(state, symbol, label))
    state = "CASE WHEN \"flag\" IS NOT NULL THEN 'flagged' WHEN \"flipped\" THEN 'turned' ELSE 'kept' END"  # noqa: E501
    layer.setRenderer(QgsCategorizedSymbolRenderer(state, categories))
    add_label(layer, ("name",), palette.SLATE)


def style_design_lines(layer: QgsVectorLayer) -> None:
    """Thin slate for the lines of a design: breaklines, boundaries, feature lines."""
    _show(layer, _line(palette.SLATE, "solid", 0.35))


def style_alignments(layer: QgsVectorLayer) -> None:
    """Slate dash-dot with ticks that point up-station."""
    symbol = _line(palette.SLATE, "dash dot", 0.6)
    symbol.appendSymbolLayer(_direction(palette.SLATE, 20.0, 2.2))
    _show(layer, symbol)
    add_label(layer, ("name",), palette.SLATE)


def style_points(layer: QgsVectorLayer) -> None:
    """Small slate crosses."""
    symbol = QgsMarkerSymbol.createSimple(
        {"name": "cross2", "color": palette.SLATE, "outline_color": palette.SLATE, "size": "2"}
    )
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))


def style_breaks(layer: QgsVectorLayer) -> None:
    """One colour, pattern and width per kind, in the field ``kind``."""
    labels = {
        "ridge": translate("Styles", "Ridge"),
        "valley": translate("Styles", "Valley"),
        "top": translate("Styles", "Top of slope"),
        "toe": translate("Styles", "Toe of slope"),
        "edge": translate("Styles", "Outer edge"),
    }
    categories = [
        QgsRendererCategory(kind, _line(*palette.BREAK_KINDS[kind]), label)
        for kind, label in labels.items()
    ]
    layer.setRenderer(QgsCategorizedSymbolRenderer("kind", categories))


def style_compared(layer: QgsVectorLayer) -> None:
    """One colour, pattern and width per result, in the field ``state``."""
    labels = {
        "both": translate("Styles", "A break that is drawn"),
        "missing": translate("Styles", "A break that is not drawn"),
        "no_break": translate("Styles", "Drawn, but no break"),
    }
    categories = [
        QgsRendererCategory(state, _line(*palette.COMPARED[state]), label)
        for state, label in labels.items()
    ]
    layer.setRenderer(QgsCategorizedSymbolRenderer("state", categories))


def style_checked(layer: QgsVectorLayer) -> None:
    """One colour, pattern and width per result of a check, and the flag as label."""
    looks = {
        "pass": (translate("Styles", "Pass"), (palette.TEAL, "solid", 0.5)),
        "fail": (translate("Styles", "Fail"), (palette.BERRY, "dot", 1.1)),
        "unclear": (translate("Styles", "Cannot be judged"), (palette.ORANGE, "dash", 0.8)),
    }
    categories = [
        QgsRendererCategory(result, _line(*look), label) for result, (label, look) in looks.items()
    ]
    layer.setRenderer(QgsCategorizedSymbolRenderer("result", categories))
    add_label(layer, ("flag",), palette.BERRY)


def style_passes(layer: QgsVectorLayer) -> None:
    """Thin dashed ochre with arrow heads the way it is driven, and the number of the pass."""
    symbol = _line(palette.OCHRE, "dash", 0.4)
    symbol.appendSymbolLayer(_direction(palette.OCHRE_TEXT, 18.0, 2.0))
    _show(layer, symbol)
    add_label(layer, ("pass",), palette.OCHRE_TEXT)


def style_patches(layer: QgsVectorLayer) -> None:
    """Quiet fills, the steeper the darker, and the grade as label where there is room."""
    ranges, low = [], 0.0
    for most, colour in palette.PATCH_SHADES:
        symbol = QgsFillSymbol.createSimple(
            {
                "color": colour,
                "style": "solid",
                "outline_color": palette.QUIET_TEXT,
                "outline_width": "0.08",
            }
        )
        if math.isinf(most):
            label = translate("Styles", "Over {low:g} %").format(low=low)
        else:
            label = translate("Styles", "{low:g} to {high:g} %").format(low=low, high=most)
        ranges.append(QgsRendererRange(low, min(most, 1e9), symbol, label))
        low = most
    layer.setRenderer(QgsGraduatedSymbolRenderer("grade", ranges))
    add_label(layer, ("grade",), palette.SLATE)
    settings = QgsPalLayerSettings(layer.labeling().settings())
    settings.fieldName = "format_number(\"grade\", 1) || ' %'"
    settings.isExpression = True
    # A grade that reaches out of its patch would be read as that of its neighbour.
    settings.fitInPolygonOnly = True
    settings.placement = Qgis.LabelPlacement.Horizontal
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))


def style_left_over(layer: QgsVectorLayer) -> None:
    """Berry hatching."""
    symbol = QgsFillSymbol.createSimple(
        {"color": palette.BERRY, "style": "b_diagonal", "outline_color": palette.BERRY}
    )
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))


def style_flagged(layer: QgsVectorLayer) -> None:
    """Thick dotted berry, with the flag as label."""
    if layer.geometryType() == Qgis.GeometryType.Point:
        symbol = QgsMarkerSymbol.createSimple(
            {"name": "diamond", "color": palette.BERRY, "outline_color": palette.PAPER, "size": "4"}
        )
        layer.setRenderer(QgsSingleSymbolRenderer(symbol))
    else:
        _show(layer, _line(palette.BERRY, "dot", 1.1))
    add_label(layer, ("flag",), palette.BERRY)


def _line(colour: str, pattern: str, width: float) -> QgsLineSymbol:
    return QgsLineSymbol.createSimple(
        {
            "line_color": colour,
            "line_style": pattern,
            "line_width": str(width),
            "capstyle": "round",
            "joinstyle": "round",
        }
    )


def _direction(colour: str, interval: float, size: float) -> QgsMarkerLineSymbolLayer:
    """Return arrow heads along a line."""
    head = QgsMarkerSymbol.createSimple(
        {"name": "arrowhead", "color": colour, "outline_color": colour, "size": str(size)}
    )
    head.symbolLayer(0).setStrokeWidth(0.5)
    ticks = QgsMarkerLineSymbolLayer(True, interval)
    ticks.setSubSymbol(head)
    ticks.setOffsetAlongLine(interval / 2)
    return ticks


def _ticks(colour: str, interval: float, size: float) -> QgsMarkerLineSymbolLayer:
    """Return short strokes square to a guideline, on the side where its source line lies.

    A guideline runs the way of its source: right of it, it has the source on its left.
    """
    stroke = QgsMarkerSymbol.createSimple(
        {"name": "line", "color": colour, "outline_color": colour, "size": str(size)}
    )
    mark = stroke.symbolLayer(0)
    mark.setStrokeWidth(0.4)
    # In the marker's own frame y points to the right of the line.
    towards = f"if(\"side_line\" = 'right', '0,{-size / 2}', '0,{size / 2}')"
    mark.setDataDefinedProperty(QgsSymbolLayer.Property.Offset, QgsProperty.fromExpression(towards))
    ticks = QgsMarkerLineSymbolLayer(True, interval)
    ticks.setSubSymbol(stroke)
    return ticks


def _mark_in_profiles(layer: QgsVectorLayer, shape: str, colour: str) -> None:
    """Mark the place where a line crosses the section of an elevation profile."""
    elevation = layer.elevationProperties()
    elevation.setRespectLayerSymbology(False)
    elevation.setProfileMarkerSymbol(
        QgsMarkerSymbol.createSimple(
            {"name": shape, "color": colour, "outline_color": palette.PAPER, "size": "3.4"}
        )
    )
    elevation.setProfileLineSymbol(_line(colour, "solid", 0.6))


def _show(layer: QgsVectorLayer, symbol: QgsLineSymbol) -> None:
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))


def add_label(layer: QgsVectorLayer, names: tuple[str, ...], colour: str) -> None:
    """Label with the first of the fields that the layer has."""
    name = next((name for name in names if layer.fields().lookupField(name) >= 0), None)
    if name is None:
        return
    text = QgsTextFormat()
    text.setSize(8)
    text.setColor(QColor(colour))
    halo = QgsTextBufferSettings()
    halo.setEnabled(True)
    halo.setSize(0.8)
    halo.setColor(QColor(palette.PAPER))
    text.setBuffer(halo)
    settings = QgsPalLayerSettings()
    settings.fieldName = name
    settings.setFormat(text)
    if layer.geometryType() == Qgis.GeometryType.Line:
        settings.placement = Qgis.LabelPlacement.Line
    layer.setLabeling(QgsVectorLayerSimpleLabeling(settings))
    layer.setLabelsEnabled(True)
