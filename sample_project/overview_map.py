"""Draw the map of the sample's results: zones, lines to hold, guidelines, slope breaks.

Called by main_job.py: ``overview_map.py results-folder picture.png``.
"""

import base64
import os
import sys
from pathlib import Path

from qgis.core import (
    Qgis,
    QgsApplication,
    QgsCategorizedSymbolRenderer,
    QgsCoordinateReferenceSystem,
    QgsFillSymbol,
    QgsLayoutExporter,
    QgsLayoutItemLabel,
    QgsLayoutItemLegend,
    QgsLayoutItemMap,
    QgsLayoutItemMapOverview,
    QgsLayoutItemPicture,
    QgsLayoutItemScaleBar,
    QgsLayoutMeasurement,
    QgsLayoutPoint,
    QgsLayoutSize,
    QgsLegendStyle,
    QgsPrintLayout,
    QgsProject,
    QgsRectangle,
    QgsRendererCategory,
    QgsVectorLayer,
)
from qgis.PyQt.QtCore import QRectF
from qgis.PyQt.QtGui import QColor

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from sample_project.pellworth import figures as f  # noqa: E402
from sample_project.pellworth import looks  # noqa: E402

PAGE = (340.0, 246.0)
DOTS_PER_INCH = 150
MAP_SCALE, DETAIL_SCALE = 600, 125
BREAK_LINES = {
    "ridge": ("#c2570c", "solid", 0.45, "Ridge, crown"),
    "valley": ("#5a3586", "dash", 0.45, "Valley, flow line"),
    "top": ("#0f6f70", "dash dot", 0.35, "Top of slope"),
    "toe": ("#7d4a2d", "dot", 0.55, "Toe of slope"),
}
NORTH = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 70" stroke="#2f3e4c">'
    '<path d="M20 4 L32 48 L20 40 L8 48 Z" fill="#ffffff" stroke-width="1.6"/>'
    '<path d="M20 4 L32 48 L20 40 Z" fill="#2f3e4c" stroke-width="1.6"/>'
    '<path d="M14 67 L14 54 L26 67 L26 54" fill="none" stroke-width="2.6"/></svg>'
)


def load(source, name):
    layer = QgsVectorLayer(str(source), name, "ogr")
    if not layer.isValid():
        raise SystemExit(f"{source} cannot be loaded")
    QgsProject.instance().addMapLayer(layer, False)
    return layer


def data(name):
    return f"{HERE / 'data' / 'pellworth.gpkg'}|layername={name}"


def zones(label):
    layer = load(data("zones"), "Zones and their depth")
    layer.setRenderer(looks.section_renderer())
    if label:
        looks.label(
            layer,
            '"name" || \'\\n\' || "depth"',
            looks.text_format(7.5),
            Qgis.LabelPlacement.Horizontal,
        )
    return layer


def reference(name, title, colour, pattern, width, arrow_every):
    layer = load(data(name), title)
    layer.setRenderer(looks.line_renderer(colour, pattern, width, arrow_every))
    placement = Qgis.LabelPlacement.Line
    looks.label(layer, f"'{title}'", looks.text_format(7.0, colour), placement, every=110.0)
    return layer


def guidelines(path, title, text, width=0.55):
    layer = load(path, title)
    layer.setRenderer(looks.line_renderer(looks.OCHRE, "dash", width, 24.0))
    if text:
        placement = Qgis.LabelPlacement.Line
        style = looks.text_format(7.5, "#7a4d06", bold=True)
        looks.label(layer, text, style, placement, every=80.0)
    return layer


def breaks(path):
    layer = load(path, "Slope breaks")
    categories = [
        QgsRendererCategory(kind, looks.line_symbol(colour, pattern, width), label)
        for kind, (colour, pattern, width, label) in BREAK_LINES.items()
    ]
    layer.setRenderer(QgsCategorizedSymbolRenderer("kind", categories))
    return layer


class Sheet:
    """A page, and the few things that are put on it."""

    def __init__(self, crs):
        self.crs = crs
        self.layout = QgsPrintLayout(QgsProject.instance())
        self.layout.initializeDefaults()
        self.layout.pageCollection().page(0).setPageSize(QgsLayoutSize(*PAGE))

    def _place(self, item, x, y, width, height):
        self.layout.addLayoutItem(item)
        item.attemptSetSceneRect(QRectF(x, y, width, height))
        return item

    def map(self, x, y, width, height, centre, scale, rotation, layers):
        item = QgsLayoutItemMap(self.layout)
        self._place(item, x, y, width, height)
        item.setCrs(self.crs)
        item.setLayers(layers)
        item.setKeepLayerSet(True)
        item.setBackgroundColor(QColor("#fbfaf6"))
        item.setFrameEnabled(True)
        item.setFrameStrokeColor(QColor(looks.INK))
        item.setFrameStrokeWidth(QgsLayoutMeasurement(0.25))
        item.setMapRotation(rotation)
        # Scale by hand: plane lengths in US survey feet, paper in millimetres.
        feet = scale / 1000 * 3937 / 1200
        half = (width * feet / 2, height * feet / 2)
        x, y = centre
        item.setExtent(QgsRectangle(x - half[0], y - half[1], x + half[0], y + half[1]))
        return item

    def mark(self, item, detail, letter):
        """Show in one map where another one lies."""
        shown = QgsLayoutItemMapOverview(letter, item)
        shown.setLinkedMap(detail)
        symbol = QgsFillSymbol.createSimple(
            {"style": "no", "outline_color": "#8a1c4a", "outline_width": "0.5"}
        )
        shown.setFrameSymbol(symbol)
        item.overviews().addOverview(shown)
        # The letter stands at the right end of the frame.
        corner = detail.visibleExtentPolygon()[2]
        extent, rect = item.extent(), item.sceneBoundingRect()
        x = rect.x() + (corner.x() - extent.xMinimum()) / extent.width() * rect.width()
        y = rect.y() + (extent.yMaximum() - corner.y()) / extent.height() * rect.height()
        self.text(x + 1.5, y - 4.0, 5, 5, letter, 10, bold=True)

    def text(self, x, y, width, height, text, size, *, bold=False, align=None):
        item = QgsLayoutItemLabel(self.layout)
        item.setText(text)
        item.setTextFormat(looks.text_format(size, bold=bold, halo=0))
        item.setMode(QgsLayoutItemLabel.Mode.ModeFont)
        item.setMargin(0)
        if align:
            item.setHAlign(align)
        return self._place(item, x, y, width, height)

    def scale_bar(self, linked, x, y, feet, segments):
        item = QgsLayoutItemScaleBar(self.layout)
        item.setLinkedMap(linked)
        item.setStyle("Line Ticks Up")
        item.setUnits(Qgis.DistanceUnit.FeetUSSurvey)
        item.setUnitLabel("US survey ft")
        item.setNumberOfSegments(segments)
        item.setNumberOfSegmentsLeft(0)
        item.setUnitsPerSegment(feet)
        item.setTextFormat(looks.text_format(7, halo=0))
        item.setHeight(2.0)
        item.setBoxContentSpace(0)
        self.layout.addLayoutItem(item)
        item.attemptMove(QgsLayoutPoint(x, y))

    def north(self, x, y, height, rotation):
        item = QgsLayoutItemPicture(self.layout)
        item.setPicturePath("base64:" + base64.b64encode(NORTH.encode()).decode())
        self._place(item, x, y, height * 0.8, height)
        item.setPictureRotation(rotation)

    def legend(self, x, y, layers):
        item = QgsLayoutItemLegend(self.layout)
        item.setAutoUpdateModel(False)
        group = item.model().rootGroup()
        group.clear()
        for layer in layers:
            group.addLayer(layer)
        item.setTitle("")
        for kind, size, bold in (
            (QgsLegendStyle.Style.Subgroup, 8.0, True),
            (QgsLegendStyle.Style.SymbolLabel, 7.5, False),
        ):
            style = item.style(kind)
            style.setTextFormat(looks.text_format(size, bold=bold, halo=0))
            style.setMargin(QgsLegendStyle.Side.Top, 3.2 if bold else 0.75)
            item.setStyle(kind, style)
        item.setSymbolWidth(9)
        item.setSymbolHeight(3.2)
        self.layout.addLayoutItem(item)
        item.attemptMove(QgsLayoutPoint(x, y))
        item.adjustBoxSize()

    def export(self, picture):
        settings = QgsLayoutExporter.ImageExportSettings()
        settings.dpi = DOTS_PER_INCH
        settings.generateWorldFile = False
        done = QgsLayoutExporter(self.layout).exportToImage(str(picture), settings)
        if done != QgsLayoutExporter.ExportResult.Success:
            raise SystemExit(f"{picture} cannot be written")


def main(out, picture):
    crs = QgsCoordinateReferenceSystem.fromEpsgId(f.EPSG)
    QgsProject.instance().setCrs(crs)
    QgsProject.instance().setEllipsoid("NONE")
    line_pairs = (
        ("planting_strip_break", "Planting-strip break", "#7d4a2d", "solid", 0.5, 36.0),
        ("back_of_curb", "Back of curb", looks.INK, "solid", 0.7, 36.0),
    )
    references = [reference(*pair) for pair in line_pairs]
    centreline = reference("lane_centreline", "Lane centreline", looks.INK, "dash dot", 0.4, 36.0)
    files = [out / "guidelines_strip.gpkg", out / "guidelines_curb.gpkg"]
    near = [
        guidelines(path, "Guideline, arrow in its direction", GUIDELINE_LABEL) for path in files
    ]
    far = [guidelines(path, "Guideline", "", 0.35) for path in files]
    found = breaks(out / "breaks.gpkg")
    labelled, quiet = zones(label=True), zones(label=False)

    sheet = Sheet(crs)
    sheet.text(8, 7, 240, 10, "Pellworth drop-off loop", 19, bold=True)
    sheet.text(8, 17, 300, 6, "Depth below finished grade, guidelines and slope breaks", 10.5)
    middle = f.ground((f.WIDTH / 2, 76.0))
    overview = sheet.map(8, 25, 228, 150, middle, MAP_SCALE, 0, [*far, found, labelled])
    sheet.scale_bar(overview, 13, 164, 25, 4)
    sheet.north(222, 28, 14, 0)
    turned = 17.0  # so that the lane lies level in the details
    for x, letter, title, station, across in (
        (8, "A", "Planting strip on the island side", 226.0, -16.0),
        (174, "B", "Bus bay and walk on the school side", 258.0, 25.0),
    ):
        layers = [*near, *references, centreline, quiet]
        centre = f.place(station, across)
        detail = sheet.map(x, 189, 158, 48, centre, DETAIL_SCALE, turned, layers)
        sheet.text(x, 182, 90, 5, f"{letter}   {title}", 9, bold=True)
        sheet.scale_bar(detail, x + 84, 180, 5, 3)
        sheet.north(x + 148, 177.5, 11, turned)
        sheet.mark(overview, detail, letter)
    sheet.legend(240, 24, [labelled, found, *references, centreline, near[0]])
    sheet.text(242, 150, 92, 26, STATEMENT, 7.5)
    sheet.export(picture)


GUIDELINE_LABEL = (
    "format_number(abs(\"signed_offset\"), 2) || ' ft '"
    " || if(\"rule\" = 'away', 'away from', \"rule\") || ' the lane'"
)
STATEMENT = (
    "US survey feet (1200/3937 m); EPSG:6588; an invented site.\n"
    "Depths are plumb, positive below finished grade.\n"
    "Guidelines are laid by rule, toward or away from the lane, whichever way a line was drawn.\n\n"
    "Before machines are steered by these: locate buried utilities, protect every excavation,"
    " check height and side on a known point."
)

if __name__ == "__main__":
    application = QgsApplication([], True)
    application.initQgis()
    main(Path(sys.argv[1]), Path(sys.argv[2]))
    sys.stdout.flush()
    os._exit(0)  # QGIS crashes when layouts outlive it
