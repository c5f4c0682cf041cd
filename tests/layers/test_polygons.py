"""Zones as shapely polygons, and what of them is refused."""

import numpy as np
import pytest
import shapely
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsPointXY,
    QgsProcessingFeedback,
    QgsProject,
)

from plugin.core.errors import UndercourseError
from plugin.layers.geometry import read_parts
from plugin.layers.polygons import polygon_geometry, read_polygons, triangle_geometries

from .shapes import memory_layer

SQUARE = "Polygon ((0 0, 4 0, 4 4, 0 4, 0 0),(1 1, 2 1, 2 2, 1 2, 1 1))"
TWO = "MultiPolygon (((0 0, 1 0, 1 1, 0 0)),((5 5, 9 5, 9 9, 5 5)))"


def test_polygons_ids_and_columns(qgis_app):
    layer = memory_layer(
        "MultiPolygon",
        [SQUARE, None, TWO],
        fields="&field=depth:double&field=name:string",
        rows=[(0.2, "lane"), (0.3, "none"), (0.4, "walk")],
    )
    told = QgsProcessingFeedback()
    table = read_polygons(layer, ["name", "depth"], feedback=told)
    assert table.ids.tolist() == [1, 3]
    assert shapely.area(table.polygons).tolist() == [15.0, 8.5]
    assert table.columns == {"name": ["lane", "walk"], "depth": [0.2, 0.4]}
    assert "1 features have no geometry and were left out: 2" in told.textLog()


def test_heights_of_zones_play_no_part(qgis_app):
    table = read_polygons(memory_layer("PolygonZ", ["PolygonZ ((0 0 9, 4 0 9, 4 4 9, 0 0 9))"]))
    assert not table.polygons[0].has_z


def test_arcs_of_a_zone(qgis_app):
    """A full circle of radius 10: its area is known."""
    text = "CurvePolygon (CircularString (10 0, 0 10, -10 0, 0 -10, 10 0))"
    layer = memory_layer("CurvePolygon", [text])
    table = read_polygons(layer, chord=1e-5)
    assert table.polygons[0].area == pytest.approx(np.pi * 100, rel=1e-5)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("Polygon ((0 0, 4 4, 4 0, 0 4, 0 0))", "Self-intersection.*Fix geometries"),
        ("Polygon ((0 0, 4 4, 0 0))", "fewer than three corners"),
    ],
)
def test_unsound_zones_are_refused_with_their_id(qgis_app, text, why):
    with pytest.raises(UndercourseError, match="“made”, feature 2: .*" + why):
        read_polygons(memory_layer("Polygon", [SQUARE, text]))


def test_an_unknown_field_is_refused(qgis_app):
    layer = memory_layer("Polygon", [], fields="&field=depth:double")
    with pytest.raises(UndercourseError, match="no field “dep”: its fields are depth"):
        read_polygons(layer, ["dep"])


def test_no_zone_at_all(qgis_app):
    table = read_polygons(memory_layer("Polygon", []))
    assert len(table) == 0
    assert table.polygons.shape == (0,)


def test_zones_in_another_crs_are_moved_and_told(qgis_app):
    """Against QGIS's own transformation of each corner."""
    metres, feet = (QgsCoordinateReferenceSystem(f"EPSG:{code}") for code in (32118, 2263))
    corners = [(300_000, 60_000), (300_010, 60_000), (300_010, 60_010), (300_000, 60_000)]
    text = "Polygon ((" + ", ".join(f"{x} {y}" for x, y in corners) + "))"
    told = QgsProcessingFeedback()
    table = read_polygons(memory_layer("Polygon", [text], "EPSG:32118"), crs=feet, feedback=told)
    moving = QgsCoordinateTransform(metres, feet, QgsProject.instance())
    expected = [moving.transform(QgsPointXY(*corner)) for corner in corners]
    np.testing.assert_allclose(
        shapely.get_coordinates(table.polygons[0]),
        [(point.x(), point.y()) for point in expected],
        rtol=0,
        atol=1e-6,
    )
    assert "is in EPSG:32118" in told.textLog()


def test_polygon_geometries(qgis_app):
    shape = shapely.box(0, 0, 4, 4).difference(shapely.box(1, 1, 2, 2))
    flat = polygon_geometry(shape)
    assert flat.area() == 15.0
    assert not flat.constGet().is3D()
    lifted = polygon_geometry(shapely.MultiPolygon([shape, shapely.box(8, 8, 9, 9)]), 7.5)
    assert lifted.area() == 16.0
    heights = {z for part in read_parts(lifted).rings for ring in part for z in ring[:, 2]}
    assert heights == {7.5}


def test_triangles_keep_every_bit_and_their_order(qgis_app):
    triangles = np.random.default_rng(5).normal(1e6, 1e5, (9000, 3, 3))
    geometries = list(triangle_geometries(triangles))
    assert len(geometries) == 9000
    for number in (0, 1, 8191, 8192, 8999):
        ((ring,),) = read_parts(geometries[number]).rings
        np.testing.assert_array_equal(ring, triangles[number][[0, 1, 2, 0]])
