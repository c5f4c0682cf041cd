"""A surface parameter takes a mesh, polygons with heights, or a raster."""

import numpy as np
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsMeshLayer,
    QgsProcessingFeedback,
    QgsRasterLayer,
    QgsVectorFileWriter,
    QgsVectorLayer,
)

from plugin.core.errors import Cancelled, SurfaceError
from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from plugin.layers.polygons import triangle_geometries
from plugin.layers.surfaces import read_surface

from .shapes import SURVEY_FEET, memory_layer, roof
from .test_rasters import write_raster

TRIANGLE = "PolygonZ ((0 0 1, 4 0 2, 0 4 3, 0 0 1))"


def polygon_layer(kind="PolygonZ", x=0.0):
    """Return the roof as a memory layer of polygons, with its vertices and faces."""
    vertices, faces = roof(x=x)
    texts = [geometry.asWkt(17) for geometry in triangle_geometries(vertices[faces])]
    if kind == "MultiPolygonZ":
        texts = ["MultiPolygonZ (" + ", ".join(text.split(" ", 2)[2] for text in texts) + ")"]
    return memory_layer(kind, texts), vertices, faces


def as_set(tin):
    """Return the faces of a TIN as a set of sets of corners, free of any order."""
    return {frozenset(map(tuple, corners)) for corners in tin.vertices[tin.faces].tolist()}


@pytest.mark.parametrize("kind", ["PolygonZ", "MultiPolygonZ"])
@pytest.mark.parametrize("x", [0.0, 983_000.25, 1e7])
def test_polygons_of_a_memory_layer(qgis_app, kind, x):
    layer, vertices, faces = polygon_layer(kind, x)
    tin = read_surface(layer)
    assert as_set(tin) == as_set(Tin.from_arrays(vertices, faces))
    assert len(tin.vertices) == len(vertices)


@pytest.mark.parametrize("kind", ["PolygonZ", "MultiPolygonZ"])
def test_polygons_of_a_geopackage(qgis_app, tmp_path, kind):
    layer, vertices, faces = polygon_layer(kind)
    options = QgsVectorFileWriter.SaveVectorOptions()
    path = str(tmp_path / "faces.gpkg")
    QgsVectorFileWriter.writeAsVectorFormatV3(layer, path, layer.transformContext(), options)
    tin = read_surface(QgsVectorLayer(path, "faces"))
    assert as_set(tin) == as_set(Tin.from_arrays(vertices, faces))


def test_tin_z_features(qgis_app):
    """A TIN Z must not be turned into a multipolygon by QGIS: that gives nothing."""
    layer = memory_layer(
        "TINZ", ["TIN Z (((0 0 1, 1 0 2, 0 1 3, 0 0 1)),((1 0 2, 1 1 5, 0 1 3, 1 0 2)))"]
    )
    tin = read_surface(layer)
    assert as_set(tin) == {
        frozenset({(0, 0, 1), (1, 0, 2), (0, 1, 3)}),
        frozenset({(1, 0, 2), (1, 1, 5), (0, 1, 3)}),
    }
    assert len(tin.vertices) == 4


def test_planar_polygons_with_a_hole_keep_plane_and_area(qgis_app):
    """The plane z = y, 16 less 1 square units, beside a triangle."""
    layer = memory_layer(
        "PolygonZ",
        [
            "PolygonZ ((0 0 0, 4 0 0, 4 4 4, 0 4 4, 0 0 0),(1 1 1, 2 1 1, 2 2 2, 1 2 2, 1 1 1))",
            "PolygonZ ((9 0 0, 10 0 0, 9 1 1, 9 0 0))",
        ],
    )
    tin = read_surface(layer)
    assert tin.plan_area == pytest.approx(15.5, rel=1e-12)
    np.testing.assert_allclose(tin.gradients, np.tile([0.0, 1.0], (len(tin.faces), 1)), atol=1e-12)


def test_quads_of_a_mesh_become_triangles(qgis_app, tmp_path):
    path = tmp_path / "quads.2dm"
    path.write_text(
        "MESH2D\nND 1 0 0 1\nND 2 1 0 1\nND 3 1 1 2\nND 4 0 1 2\nND 5 2 0 1\n"
        "E4Q 1 1 2 3 4 1\nE3T 2 2 5 3 1\n"
    )
    tin = read_surface(QgsMeshLayer(str(path), "quads", "mdal"))
    assert len(tin.faces) == 3
    assert len(tin.vertices) == 5
    assert tin.plan_area == pytest.approx(1.5)


def test_mesh_file(qgis_app, tmp_path):
    vertices, faces = roof()
    path = tmp_path / "tin.ply"
    write_ply(path, (vertices, faces), QgsCoordinateReferenceSystem(SURVEY_FEET))
    tin = read_surface(QgsMeshLayer(str(path), "tin", "mdal"))
    np.testing.assert_array_equal(tin.vertices, vertices)
    np.testing.assert_array_equal(tin.faces, faces)


def test_raster(qgis_app, tmp_path):
    path = write_raster(tmp_path / "design.tif", np.ones((4, 5), "f4"))
    found = read_surface(QgsRasterLayer(str(path), "design"))
    assert (found.width, found.height) == (5, 4)


def test_nearly_equal_corners_are_joined_and_told(qgis_app):
    near = "PolygonZ ((4 0 2, 4 4 5, 0.00005 4 3, 4 0 2))"
    told = QgsProcessingFeedback()
    tin = read_surface(memory_layer("PolygonZ", [TRIANGLE, near]), told)
    assert len(tin.vertices) == 4
    assert "the largest move was 5e-05" in told.textLog()


@pytest.mark.parametrize(
    ("kind", "texts", "why"),
    [
        ("Polygon", ["Polygon ((0 0, 1 0, 0 1, 0 0))"], "“made” has no heights"),
        ("LineStringZ", [], "“made” is not a polygon layer"),
        ("PolygonZ", [], "“made” holds no faces"),
        ("PolygonZ", [None], "“made” holds no faces"),
        ("PolygonZ", [TRIANGLE, "PolygonZ ((0 0 0, 4 0 0, 4 4 4, 0 4 9, 0 0 0))"],
         "Polygon 2 is not plane"),
    ],
)  # fmt: skip
def test_what_is_no_surface_is_refused(qgis_app, kind, texts, why):
    with pytest.raises(SurfaceError, match=why):
        read_surface(memory_layer(kind, texts))


def test_a_lost_height_is_refused(qgis_app):
    (good,) = triangle_geometries(np.array([[(0, 0, 1), (4, 0, 2), (0, 4, 3)]], dtype=float))
    (bad,) = triangle_geometries(np.array([[(0, 0, np.nan), (4, 0, 2), (0, 4, 3)]]))
    with pytest.raises(SurfaceError, match="“made”, feature 2: a corner has no height"):
        read_surface(memory_layer("PolygonZ", [good, bad]))


def test_the_wrong_kind_is_refused(qgis_app, tmp_path):
    raster = QgsRasterLayer(str(write_raster(tmp_path / "a.tif", np.ones((2, 2), "f4"))), "a")
    with pytest.raises(SurfaceError, match=r"“a” is a raster, and this tool needs a mesh layer"):
        read_surface(raster, None, ("tin",))
    with pytest.raises(SurfaceError, match=r"is not a raster, and this tool needs a raster layer"):
        read_surface(memory_layer("PolygonZ", [TRIANGLE]), None, ("raster",))


def test_heights_that_are_all_zero_are_doubted(qgis_app):
    told = QgsProcessingFeedback()
    read_surface(memory_layer("PolygonZ", ["PolygonZ ((0 0 0, 4 0 0, 0 4 0, 0 0 0))"]), told)
    assert "All heights of “made” are 0" in told.textLog()


def test_reading_stops_on_cancel(qgis_app):
    told = QgsProcessingFeedback()
    told.cancel()
    with pytest.raises(Cancelled):
        read_surface(memory_layer("PolygonZ", [TRIANGLE]), told)
