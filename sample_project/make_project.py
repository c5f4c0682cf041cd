"""Write sample_project/pellworth.qgz: the sample's data, styled, with map themes.

Run with the environment of run.sh after make_site.py. The project holds data/ only, by relative
paths, so that it opens before anything has been computed.
"""

import os
import re
import sys
import zipfile
from pathlib import Path

from qgis.core import (
    Qgis,
    QgsApplication,
    QgsColorRampShader,
    QgsCoordinateReferenceSystem,
    QgsGradientColorRamp,
    QgsGradientStop,
    QgsHillshadeRenderer,
    QgsLayerTreeModel,
    QgsMapThemeCollection,
    QgsMeshDatasetIndex,
    QgsMeshLayer,
    QgsProject,
    QgsProjectMetadata,
    QgsRasterDataProvider,
    QgsRasterLayer,
    QgsRectangle,
    QgsReferencedRectangle,
    QgsSettings,
    QgsVectorLayer,
)
from qgis.PyQt.QtGui import QColor

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from sample_project.pellworth import looks  # noqa: E402
from sample_project.pellworth.figures import EPSG  # noqa: E402

DATA = HERE / "data"
PROJECT = HERE / "pellworth.qgz"
HEIGHTS = ((0.0, "#34234f"), (0.3, "#6b3f7d"), (0.6, "#bf6c6a"), (0.8, "#eba65f"), (1.0, "#f8e7b5"))

VECTORS = (
    # layer of the GeoPackage, name, renderer, label expression, placement
    ("check_points", "Check points", ("cross2", looks.INK, 2.6), '"name"'),
    ("control_points", "Control points", ("triangle", looks.OCHRE, 3.4), '"name"'),
    ("lane_centreline", "Lane centreline", (looks.INK, "dash dot", 0.5, 22.0), ""),
    (
        "planting_strip_break",
        "Planting-strip break",
        ("#7d4a2d", "solid", 0.6, 22.0),
        '"name"',
    ),
    ("walk_edge", "Walk edge", ("#7b6f57", "solid", 0.35, 22.0), '"name"'),
    (
        "back_of_curb",
        "Back of curb",
        (looks.INK, "solid", 0.8, 22.0),
        '"name"',
    ),
)

THEMES = {
    "Design": (
        "Check points",
        "Control points",
        "Lane centreline",
        "Finished grade (mesh)",
        "Finished grade, shaded",
    ),
    "Zones and depths": ("Control points", "Zones"),
    "Lines to hold": (
        "Control points",
        "Lane centreline",
        "Planting-strip break",
        "Walk edge",
        "Back of curb",
        "Finished grade, shaded",
    ),
}


def vector(name, title):
    layer = QgsVectorLayer(f"{DATA / 'pellworth.gpkg'}|layername={name}", title, "ogr")
    if not layer.isValid():
        raise SystemExit(f"{name}: cannot be loaded from {DATA}")
    layer.setReadOnly(False)
    return layer


def lines_and_points():
    for name, title, look, expression in VECTORS:
        layer = vector(name, title)
        is_line = layer.geometryType() == Qgis.GeometryType.Line
        renderer = looks.line_renderer if is_line else looks.point_renderer
        layer.setRenderer(renderer(*look))
        placement = (
            Qgis.LabelPlacement.Curved
            if is_line
            else Qgis.LabelPlacement.OrderedPositionsAroundPoint
        )
        if expression:
            looks.label(layer, expression, looks.text_format(8.5), placement, every=90.0)
        heights = layer.elevationProperties()
        heights.setClamping(Qgis.AltitudeClamping.Absolute)
        heights.setBinding(Qgis.AltitudeBinding.Vertex)
        yield layer


def zones():
    layer = vector("zones", "Zones")
    layer.setRenderer(looks.section_renderer())
    expression = '"name" || \'\\n\' || "depth"'
    looks.label(layer, expression, looks.text_format(8.0), Qgis.LabelPlacement.Horizontal)
    return layer


def mesh():
    layer = QgsMeshLayer(str(DATA / "pellworth_design.ply"), "Finished grade (mesh)", "mdal")
    settings = layer.rendererSettings()
    group = layer.datasetGroupsIndexes()[0]
    meta = layer.datasetGroupMetadata(QgsMeshDatasetIndex(group))
    middle = [QgsGradientStop(share, QColor(colour)) for share, colour in HEIGHTS[1:-1]]
    ramp = QgsGradientColorRamp(QColor(HEIGHTS[0][1]), QColor(HEIGHTS[-1][1]), False, middle)
    shader = QgsColorRampShader(
        meta.minimum(), meta.maximum(), ramp, QgsColorRampShader.Type.Interpolated
    )
    shader.classifyColorRamp(7, -1)
    scalar = settings.scalarSettings(group)
    scalar.setColorRampShader(shader)
    scalar.setClassificationMinimumMaximum(meta.minimum(), meta.maximum())
    scalar.setOpacity(0.75)
    settings.setScalarSettings(group, scalar)
    settings.setActiveScalarDatasetGroup(group)
    edges = settings.nativeMeshSettings()
    edges.setEnabled(True)
    edges.setColor(QColor(47, 62, 76, 60))
    edges.setLineWidth(0.1)
    settings.setNativeMeshSettings(edges)
    layer.setRendererSettings(settings)
    return layer


def shaded():
    layer = QgsRasterLayer(str(DATA / "pellworth_design.tif"), "Finished grade, shaded", "gdal")
    renderer = QgsHillshadeRenderer(layer.dataProvider(), 1, 315.0, 40.0)
    renderer.setZFactor(4.0)
    layer.setRenderer(renderer)
    # Shade the pixels of the file and smooth the picture, not the other way round.
    layer.setResamplingStage(Qgis.RasterResamplingStage.Provider)
    provider = layer.dataProvider()
    provider.enableProviderResampling(True)
    provider.setZoomedInResamplingMethod(QgsRasterDataProvider.ResamplingMethod.Cubic)
    heights = layer.elevationProperties()
    heights.setEnabled(True)
    heights.setMode(Qgis.RasterElevationMode.RepresentsElevationSurface)
    return layer


def add_themes(project):
    root = project.layerTreeRoot()
    model = QgsLayerTreeModel(root)
    for theme in (*THEMES, "Zones and depths"):  # the last one shows at first
        for node in root.findLayers():
            node.setItemVisibilityChecked(node.name() in THEMES[theme])
            node.setExpanded(node.name() == "Zones")
        state = QgsMapThemeCollection.createThemeFromCurrentState(root, model)
        if theme in project.mapThemeCollection().mapThemes():
            project.mapThemeCollection().update(theme, state)
        else:
            project.mapThemeCollection().insert(theme, state)


def pack_again(path):
    """Take out of the project file what belongs to this machine and moment, and pack it again."""
    with zipfile.ZipFile(path) as packed:
        members = {name: packed.read(name) for name in sorted(packed.namelist())}
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in members.items():
            if name.endswith(".qgs"):
                text = content.decode("utf-8").replace(f"{HERE}/", "./")
                content = re.sub(r' saveDateTime="[^"]*"', "", text).encode("utf-8")  # noqa: PLW2901
            entry = zipfile.ZipInfo(name, (2026, 3, 2, 9, 0, 0))
            packed.writestr(entry, content, zipfile.ZIP_DEFLATED)


def main():
    project = QgsProject.instance()
    project.clear()
    crs = QgsCoordinateReferenceSystem.fromEpsgId(EPSG)
    project.setCrs(crs)
    project.setTitle("Pellworth drop-off loop")
    project.setFilePathStorage(Qgis.FilePathType.Relative)
    project.setDistanceUnits(Qgis.DistanceUnit.FeetUSSurvey)
    project.setAreaUnits(Qgis.AreaUnit.SquareFeet)
    project.setEllipsoid("NONE")  # plane lengths, as plans and machines have them
    metadata = QgsProjectMetadata()
    metadata.setTitle("Pellworth drop-off loop")
    metadata.setAbstract(
        "Sample site of the Undercourse plugin: an invented drop-off loop. Lengths and heights in"
        " US survey feet. Its place on the map means nothing."
    )
    project.setMetadata(metadata)
    layers = [*lines_and_points(), zones(), mesh(), shaded()]
    for layer in layers:
        # QGIS replaces ids of less than ten characters when it opens a project.
        layer.setId("pellworth_" + re.sub(r"\W+", "_", layer.name().lower()))
    project.addMapLayers(layers[::-1])
    order = [title for _, title, *_ in VECTORS]
    order += ["Zones", "Finished grade (mesh)", "Finished grade, shaded"]
    root = project.layerTreeRoot()
    for title in order[::-1]:
        node = next(n for n in root.findLayers() if n.name() == title)
        root.insertChildNode(0, node.clone())
        root.removeChildNode(node)
    add_themes(project)
    extent = QgsRectangle()
    for name in ("Zones", "Control points"):
        extent.combineExtentWith(project.mapLayersByName(name)[0].extent())
    extent.scale(1.05)
    project.viewSettings().setDefaultViewExtent(QgsReferencedRectangle(extent, crs))
    project.viewSettings().setPresetFullExtent(QgsReferencedRectangle(extent, crs))
    if not project.write(str(PROJECT)):
        raise SystemExit(f"{PROJECT} cannot be written: {project.error()}")
    pack_again(PROJECT)
    print(f"{PROJECT}: {len(project.mapLayers())} layers, themes {', '.join(THEMES)}")


if __name__ == "__main__":
    # Qt writes attributes in an order drawn by lot, unless told not to.
    if os.environ.get("QT_HASH_SEED") != "0":
        os.execve(sys.executable, [sys.executable, __file__], {**os.environ, "QT_HASH_SEED": "0"})
    application = QgsApplication([], True)
    application.initQgis()
    QgsSettings().setValue("core/projects/anonymize_saved_projects", True)
    QgsSettings().setValue("projects/anonymize_saved_projects", True)
    main()
    sys.stdout.flush()
    os._exit(0)  # QGIS crashes when layers outlive it
