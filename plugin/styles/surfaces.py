"""Styles of surfaces: meshes, faces, rasters, zones."""

from qgis.core import (
    Qgis,
    QgsCategorizedSymbolRenderer,
    QgsColorRampShader,
    QgsFillSymbol,
    QgsGradientColorRamp,
    QgsGradientStop,
    QgsMarkerSymbol,
    QgsMeshDatasetIndex,
    QgsMeshLayer,
    QgsMeshRendererScalarSettings,
    QgsRasterLayer,
    QgsRasterMinMaxOrigin,
    QgsRendererCategory,
    QgsSingleBandPseudoColorRenderer,
    QgsSingleSymbolRenderer,
    QgsVectorLayer,
)
from qgis.PyQt.QtGui import QColor

from ..core.text import translate
from . import palette
from .lines import add_label

_SAMPLE = 250_000
"""Pixels looked at for the range of colours, so that a county-size raster loads at once."""


def ramp(stops: tuple[tuple[float, str], ...]) -> QgsGradientColorRamp:
    """Return a colour ramp from (share, colour) stops."""
    middle = [QgsGradientStop(share, QColor(colour)) for share, colour in stops[1:-1]]
    return QgsGradientColorRamp(QColor(stops[0][1]), QColor(stops[-1][1]), False, middle)


def style_depth_mesh(layer: QgsMeshLayer, dataset: str = "depth") -> None:
    """Colour by a dataset (by height where there is none of that name), thin edges over it."""
    groups = {
        layer.datasetGroupMetadata(QgsMeshDatasetIndex(index)).name(): index
        for index in layer.datasetGroupsIndexes()
    }
    settings = layer.rendererSettings()
    chosen = groups.get(dataset, next(iter(groups.values()), None))
    if chosen is not None:
        meta = layer.datasetGroupMetadata(QgsMeshDatasetIndex(chosen))
        scalar = settings.scalarSettings(chosen)
        low = meta.minimum()
        high = max(meta.maximum(), low + 1e-6)  # one depth everywhere is the usual case
        shader = QgsColorRampShader(
            low, high, ramp(palette.HEIGHTS), QgsColorRampShader.Type.Interpolated
        )
        shader.classifyColorRamp(7, -1)
        scalar.setColorRampShader(shader)
        scalar.setClassificationMinimumMaximum(low, high)
        # A face has one depth: averaging over its neighbours would show depths nobody asked for.
        scalar.setDataResamplingMethod(
            QgsMeshRendererScalarSettings.DataResamplingMethod.NoResampling
        )
        settings.setScalarSettings(chosen, scalar)
        settings.setActiveScalarDatasetGroup(chosen)
    edges = settings.triangularMeshSettings()
    edges.setEnabled(True)
    edges.setColor(QColor(palette.SLATE))
    edges.setLineWidth(0.05)
    settings.setTriangularMeshSettings(edges)
    layer.setRendererSettings(settings)


def style_mesh(layer: QgsMeshLayer) -> None:
    """Colour by height, thin edges over it."""
    style_depth_mesh(layer, "")


def style_faces(layer: QgsVectorLayer) -> None:
    """Quiet faces with thin outlines."""
    symbol = QgsFillSymbol.createSimple(
        {
            "color": "245,242,234,90",
            "outline_color": palette.SLATE,
            "outline_width": "0.08",
        }
    )
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))


def style_depth_faces(layer: QgsVectorLayer) -> None:
    """Parts told apart by pattern: plain bottoms, hatched batters, solid steps, faint design."""
    looks = {
        "bottom": (translate("Styles", "Bottom"), "#dcd3c0", "solid"),
        "batter": (translate("Styles", "Batter"), palette.OCHRE, "b_diagonal"),
        "step": (translate("Styles", "Step (upright side)"), palette.SLATE, "solid"),
        "design": (translate("Styles", "Design"), palette.MIST, "no"),
    }
    _style_parts(layer, looks)


def style_extended_faces(layer: QgsVectorLayer) -> None:
    """Hatched extension, faint design."""
    looks = {
        "extension": (translate("Styles", "Extension"), palette.OCHRE, "f_diagonal"),
        "design": (translate("Styles", "Design"), palette.MIST, "no"),
    }
    _style_parts(layer, looks)


def style_cut_fill(layer: QgsVectorLayer) -> None:
    """Hatched cut, dotted fill, plain level ground."""
    looks = {
        "cut": (translate("Styles", "Cut"), palette.ORANGE, "b_diagonal"),
        "fill": (translate("Styles", "Fill"), palette.PLUM, "dense6"),
        "level": (translate("Styles", "Level"), palette.PAPER, "solid"),
    }
    _style_parts(layer, looks, "kind")


def style_checked_areas(layer: QgsVectorLayer) -> None:
    """Hatched what fails, dotted what nearly does, faint what is too narrow to count."""
    looks = {
        "fail": (translate("Styles", "Fail"), palette.BERRY, "b_diagonal"),
        "near": (translate("Styles", "Passes, with little to spare"), palette.OCHRE, "dense6"),
        "thin": (translate("Styles", "Fails, too narrow to count"), palette.MIST, "solid"),
    }
    _style_parts(layer, looks, "result")
    add_label(layer, ("flag",), palette.ERROR_TEXT)


def style_depth_check(layer: QgsVectorLayer) -> None:
    """Too shallow dotted, too deep hatched, the rest quiet; points by sign and size."""
    looks = {
        "pass": (translate("Styles", "Within tolerance"), palette.MIST, "solid"),
        "shallow": (translate("Styles", "Too shallow"), palette.PLUM, "dense5"),
        "deep": (translate("Styles", "Too deep"), palette.ORANGE, "b_diagonal"),
        "strip": (translate("Styles", "Strip, not judged"), palette.SLATE, "no"),
    }
    if layer.geometryType() == Qgis.GeometryType.Polygon:
        _style_parts(layer, looks, "kind")
        return
    signs = {"pass": ("circle", 2.0), "shallow": ("triangle", 3.6), "deep": ("diamond", 3.6)}
    categories = []
    for value, (shape, size) in signs.items():
        label, colour, _ = looks[value]
        symbol = QgsMarkerSymbol.createSimple(
            {"name": shape, "color": colour, "size": str(size), "outline_color": palette.SLATE}
        )
        categories.append(QgsRendererCategory(value, symbol, label))
    other = QgsMarkerSymbol.createSimple(
        {"name": "cross2", "color": palette.BERRY, "outline_color": palette.BERRY, "size": "2.6"}
    )
    categories.append(QgsRendererCategory(None, other, translate("Styles", "Not checked")))
    layer.setRenderer(QgsCategorizedSymbolRenderer("kind", categories))


def _style_parts(
    layer: QgsVectorLayer, looks: dict[str, tuple[str, str, str]], field: str = "part"
) -> None:
    """Give each value of a field its label, colour and pattern."""
    categories = []
    for value, (label, colour, pattern) in looks.items():
        symbol = QgsFillSymbol.createSimple(
            {
                "color": colour,
                "style": pattern,
                "outline_color": palette.SLATE,
                "outline_width": "0.05",
            }
        )
        categories.append(QgsRendererCategory(value, symbol, label))
    layer.setRenderer(QgsCategorizedSymbolRenderer(field, categories))


def style_zones(layer: QgsVectorLayer) -> None:
    """Hatched, outlined, labelled by depth or name."""
    symbol = QgsFillSymbol.createSimple(
        {
            "color": palette.MIST,
            "style": "b_diagonal",
            "outline_color": palette.SLATE,
            "outline_width": "0.4",
        }
    )
    layer.setRenderer(QgsSingleSymbolRenderer(symbol))
    add_label(layer, ("depth", "name", "zone"), palette.SLATE)


def style_raster_surface(layer: QgsRasterLayer) -> None:
    """Colour by height, over the range of a sample of the band."""
    provider = layer.dataProvider()
    stats = provider.bandStatistics(bandNo=1, sampleSize=_SAMPLE)
    renderer = QgsSingleBandPseudoColorRenderer(provider, 1)
    renderer.setClassificationMin(stats.minimumValue)
    renderer.setClassificationMax(max(stats.maximumValue, stats.minimumValue + 1e-6))
    renderer.createShader(ramp(palette.HEIGHTS), QgsColorRampShader.Type.Interpolated)
    origin = QgsRasterMinMaxOrigin()
    origin.setLimits(QgsRasterMinMaxOrigin.Limits.MinMax)
    origin.setStatAccuracy(QgsRasterMinMaxOrigin.StatAccuracy.Estimated)
    renderer.setMinMaxOrigin(origin)
    layer.setRenderer(renderer)
