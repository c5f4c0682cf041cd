"""What is drawn can be told apart without colour, and colours without hue.

Lightness: CIE L* of sRGB (IEC 61966-2-1; CIE 15), computed here.
"""

import itertools

import numpy as np
import pytest
from qgis.core import (
    QgsCategorizedSymbolRenderer,
    QgsCoordinateReferenceSystem,
    QgsMapRendererSequentialJob,
    QgsMapSettings,
    QgsMeshLayer,
    QgsMeshRendererScalarSettings,
    QgsRasterLayer,
    QgsRectangle,
)
from qgis.PyQt.QtCore import QSize
from qgis.PyQt.QtGui import QColor

from plugin import styles
from plugin.layers.meshes import dataset_groups, write_ply
from plugin.styles import palette
from tests.layers.shapes import SURVEY_FEET, memory_layer, roof
from tests.layers.test_rasters import write_raster


def lightness(colour):
    """Return L* of a colour."""
    parts = np.array([QColor(colour).redF(), QColor(colour).greenF(), QColor(colour).blueF()])
    linear = np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)
    luminance = linear @ [0.2126, 0.7152, 0.0722]
    return 116 * np.cbrt(luminance) - 16 if luminance > 0.008856 else 903.3 * luminance


def test_heights_get_lighter_all_the_way():
    steps = np.diff([lightness(colour) for _, colour in palette.HEIGHTS])
    assert (steps > 10).all()


def test_differences_are_lightest_in_the_middle():
    light = [lightness(colour) for _, colour in palette.DIVERGING]
    assert (np.diff(light[:3]) > 15).all()
    assert (np.diff(light[2:]) < -15).all()


def test_texts_can_be_read_on_paper():
    """A contrast of 4.5 to 1 (WCAG 2.1, 1.4.3) is an L* difference of at least 49."""
    names = ("SLATE", "QUIET_TEXT", "ERROR_TEXT", "BERRY", "OCHRE_TEXT")
    for colour in (getattr(palette, name) for name in names):
        assert lightness("#ffffff") - lightness(colour) > 49


def test_kinds_of_breaks_differ_without_colour(qgis_app):
    layer = memory_layer("LineString", [], fields="&field=kind:string")
    styles.style_breaks(layer)
    renderer = layer.renderer()
    assert isinstance(renderer, QgsCategorizedSymbolRenderer)
    looks = {}
    for category in renderer.categories():
        line = category.symbol().symbolLayer(0)
        looks[category.value()] = (line.penStyle(), line.width())
        assert category.label() != category.value()
    assert looks.keys() == {"ridge", "valley", "top", "toe", "edge"}
    for one, other in itertools.combinations(looks.values(), 2):
        assert one[0] != other[0]


def test_results_of_a_comparison_differ_without_colour(qgis_app):
    layer = memory_layer("LineString", [], fields="&field=state:string")
    styles.style_compared(layer)
    looks = {
        category.value(): category.symbol().symbolLayer(0).penStyle()
        for category in layer.renderer().categories()
    }
    assert looks.keys() == {"both", "missing", "no_break"}
    assert len(set(looks.values())) == 3


def test_steeper_patches_are_darker_and_none_hides_a_break(qgis_app):
    layer = memory_layer("MultiPolygon", [], fields="&field=grade:double")
    styles.style_patches(layer)
    ranges = layer.renderer().ranges()
    assert all(a.upperValue() == b.lowerValue() for a, b in itertools.pairwise(ranges))
    assert ranges[0].lowerValue() == 0 and ranges[-1].upperValue() > 1e6
    light = [lightness(each.symbol().color().name()) for each in ranges]
    assert (np.diff(light) < -3).all()
    darkest = max(lightness(colour) for colour, *_ in palette.BREAK_KINDS.values())
    assert min(light) > darkest + 8
    settings = layer.labeling().settings()
    assert settings.fitInPolygonOnly and settings.isExpression


def test_guidelines_show_their_direction_and_label(qgis_app):
    layer = memory_layer("LineStringZ", [], fields="&field=label:string")
    styles.style_guidelines(layer)
    line, ticks = layer.renderer().symbol().symbolLayers()
    assert line.color() == QColor(palette.OCHRE)
    assert ticks.layerType() == "MarkerLine"
    assert layer.labeling().settings().fieldName == "label"
    assert layer.labelsEnabled()


@pytest.mark.parametrize("kind", ["LineString", "Point"])
def test_flagged_things_carry_their_flag(qgis_app, kind):
    layer = memory_layer(kind, [], fields="&field=flag:string")
    styles.style_flagged(layer)
    assert layer.labeling().settings().fieldName == "flag"


def test_a_layer_without_the_field_has_no_label(qgis_app):
    layer = memory_layer("LineString", [])
    styles.style_guidelines(layer)
    assert not layer.labelsEnabled()


def test_mesh_is_coloured_by_depth(qgis_app, tmp_path):
    vertices, faces = roof(3)
    path = tmp_path / "tin.ply"
    crs = QgsCoordinateReferenceSystem(SURVEY_FEET)
    write_ply(path, (vertices, faces), crs, {"depth": np.linspace(0.2, 1.4, len(faces))})
    layer = QgsMeshLayer(str(path), "tin", "mdal")
    styles.style_depth_mesh(layer)
    settings = layer.rendererSettings()
    group = settings.activeScalarDatasetGroup()
    assert group == dataset_groups(layer)["depth"]
    scalar = settings.scalarSettings(group)
    assert scalar.classificationMinimum() == pytest.approx(0.2)
    assert scalar.classificationMaximum() == pytest.approx(1.4)
    assert len(scalar.colorRampShader().colorRampItemList()) >= 5
    one_depth_a_face = QgsMeshRendererScalarSettings.DataResamplingMethod.NoResampling
    assert scalar.dataResamplingMethod() == one_depth_a_face
    styles.style_mesh(layer)
    assert layer.rendererSettings().activeScalarDatasetGroup() != group


def test_a_level_mesh_and_raster_have_a_style_too(qgis_app, tmp_path):
    """One depth everywhere is the usual case."""
    vertices, faces = roof(2, grade=0.0)
    path = tmp_path / "tin.ply"
    write_ply(path, (vertices, faces), None, {"depth": np.full(len(faces), 0.2)})
    layer = QgsMeshLayer(str(path), "tin", "mdal")
    styles.style_depth_mesh(layer)
    items = (
        layer.rendererSettings()
        .scalarSettings(dataset_groups(layer)["depth"])
        .colorRampShader()
        .colorRampItemList()
    )
    assert items[0].value < items[-1].value
    raster = QgsRasterLayer(str(write_raster(tmp_path / "a.tif", np.ones((4, 4), "f4"))), "a")
    styles.style_raster_surface(raster)
    assert raster.renderer().classificationMax() > raster.renderer().classificationMin()


def test_parts_of_a_depth_surface_differ_without_colour(qgis_app):
    layer = memory_layer("PolygonZ", [], fields="&field=part:string")
    styles.style_depth_faces(layer)
    looks = {}
    for category in layer.renderer().categories():
        fill = category.symbol().symbolLayer(0)
        looks[category.value()] = (fill.brushStyle(), round(lightness(fill.color()) / 10))
        assert category.label()
    assert looks.keys() == {"design", "bottom", "step", "batter"}
    assert len(set(looks.values())) == 4


@pytest.mark.parametrize(("side", "south"), [("left", True), ("right", False)])
def test_the_ticks_of_a_guideline_point_to_its_line(qgis_app, side, south):
    """A guideline drawn east: left of its line it has the line on its right, to the south."""
    layer = memory_layer(
        "LineString", ["LineString (0 0, 100 0)"], fields="&field=side_line:string"
    )
    provider = layer.dataProvider()
    feature = next(layer.getFeatures())
    provider.changeAttributeValues({feature.id(): {layer.fields().indexOf("side_line"): side}})
    styles.style_guidelines(layer)
    symbol = layer.renderer().symbol()
    # The ticks alone, on a white picture.
    for _ in range(symbol.symbolLayerCount() - 1):
        symbol.deleteSymbolLayer(0)
    settings = QgsMapSettings()
    settings.setLayers([layer])
    settings.setDestinationCrs(layer.crs())
    settings.setExtent(QgsRectangle(0, -25, 100, 25))
    settings.setOutputSize(QSize(400, 200))
    settings.setBackgroundColor(QColor("white"))
    job = QgsMapRendererSequentialJob(settings)
    job.start()
    job.waitForFinished()
    image = job.renderedImage()
    dark = np.array([
        [QColor(image.pixel(x, y)).lightness() < 160 for x in range(image.width())]
        for y in range(image.height())
    ])  # fmt: skip
    above, below = dark[:97].sum(), dark[103:].sum()
    assert (below > 5 * max(above, 1)) if south else (above > 5 * max(below, 1))


def test_sections_say_when_they_are_flagged(qgis_app):
    layer = memory_layer("MultiLineStringZ", [], fields="&field=flag:string&field=station:string")
    styles.style_sections(layer)
    categories = layer.renderer().categories()  # held, or their symbols are gone
    plain, flagged = (category.symbol().symbolLayer(0) for category in categories)
    assert plain.penStyle() != flagged.penStyle()
    assert plain.width() < flagged.width()
    marks = memory_layer("PointZ", [], fields="&field=kind:string&field=name:string")
    styles.style_section_marks(marks)
    kinds = marks.renderer().categories()
    assert len({kind.symbol().symbolLayer(0).shape() for kind in kinds}) == 2


@pytest.mark.parametrize(
    ("style", "kinds"),
    [("style_cut_fill", 3), ("style_depth_check", 4)],
)
def test_ground_that_differs_is_told_apart_without_colour(qgis_app, style, kinds):
    layer = memory_layer("Polygon", [], fields="&field=kind:string")
    getattr(styles, style)(layer)
    categories = layer.renderer().categories()
    patterns = {c.symbol().symbolLayer(0).properties()["style"] for c in categories}
    assert len(patterns) == len(categories) == kinds
    assert all(category.label() for category in categories)


def test_points_off_their_depth_differ_without_colour(qgis_app):
    layer = memory_layer("Point", [], fields="&field=kind:string")
    styles.style_depth_check(layer)
    categories = layer.renderer().categories()
    shapes = {c.symbol().symbolLayer(0).properties()["name"] for c in categories}
    assert len(shapes) == len(categories) == 4
