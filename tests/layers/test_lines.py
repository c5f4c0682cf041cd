"""Lines and points as arrays, and back."""

import numpy as np
import pytest
from qgis.core import Qgis, QgsProcessingFeedback

from plugin.core.errors import UndercourseError
from plugin.layers.lines import (
    curve_geometry,
    line_geometry,
    multiline_geometry,
    point_geometry,
    read_lines,
    read_points,
)

from .shapes import memory_layer


def test_each_part_is_a_row(qgis_app):
    layer = memory_layer(
        "MultiLineStringZ",
        ["MultiLineStringZ ((0 0 1, 1 0 2),(3 3 3, 4 4 4, 3 3 3))", None,
         "MultiLineStringZ ((9 9 9, 8 8 8))"],
        fields="&field=name:string",
        rows=[("kerb",), ("none",), ("walk",)],
    )  # fmt: skip
    told = QgsProcessingFeedback()
    table = read_lines(layer, ["name"], feedback=told)
    assert table.ids.tolist() == [1, 1, 3]
    assert table.parts.tolist() == [0, 1, 0]
    assert table.closed.tolist() == [False, True, False]
    assert table.columns == {"name": ["kerb", "kerb", "walk"]}
    np.testing.assert_array_equal(table.coordinates[2], [[9, 9, 9], [8, 8, 8]])
    assert "left out: 2" in told.textLog()


@pytest.mark.parametrize(
    ("kind", "text", "line"),
    [
        ("LineString", "LineString (0 1, 2 3)", [[0, 1], [2, 3]]),
        ("LineStringM", "LineStringM (0 1 7, 2 3 8)", [[0, 1, np.nan, 7], [2, 3, np.nan, 8]]),
        ("LineStringZM", "LineStringZM (0 1 5 7, 2 3 6 8)", [[0, 1, 5, 7], [2, 3, 6, 8]]),
    ],
)
def test_columns_are_x_y_z_m(qgis_app, kind, text, line):
    (found,) = read_lines(memory_layer(kind, [text])).coordinates
    np.testing.assert_array_equal(found, line)


def test_the_direction_is_kept(qgis_app):
    (found,) = read_lines(memory_layer("LineString", ["LineString (10 0, 0 0)"])).coordinates
    np.testing.assert_array_equal(found, [[10, 0], [0, 0]])


def test_a_line_without_length_is_refused(qgis_app):
    layer = memory_layer("LineString", ["LineString (0 0, 1 0)", "LineString (5 5, 5 5)"])
    with pytest.raises(UndercourseError, match="“made”, feature 2: the line has no length"):
        read_lines(layer)


def test_points_with_and_without_heights(qgis_app):
    table = read_points(memory_layer("MultiPointZ", ["MultiPointZ ((1 2 3),(4 5 6))"]))
    np.testing.assert_array_equal(table.coordinates, [[1, 2, 3], [4, 5, 6]])
    assert table.ids.tolist() == [1, 1]
    flat = read_points(memory_layer("Point", ["Point (1 2)"]))
    np.testing.assert_array_equal(flat.coordinates, [[1, 2]])
    assert read_points(memory_layer("Point", [])).coordinates.shape == (0, 2)


@pytest.mark.parametrize(
    ("columns", "kind"),
    [
        (2, Qgis.WkbType.LineString),
        (3, Qgis.WkbType.LineStringZ),
        (4, Qgis.WkbType.LineStringZM),
    ],
)
def test_line_geometries(qgis_app, columns, kind):
    line = np.arange(3.0 * columns).reshape(3, columns)
    geometry = line_geometry(line)
    assert geometry.wkbType() == kind
    (found,) = read_lines(memory_layer(kind.name, [geometry])).coordinates
    np.testing.assert_array_equal(found, line)
    assert line_geometry(line, multi=True).isMultipart()


def test_multipart_line(qgis_app):
    geometry = multiline_geometry([np.zeros((2, 2)), np.ones((3, 2))])
    assert geometry.wkbType() == Qgis.WkbType.MultiLineString
    assert geometry.constGet().numGeometries() == 2


def test_curves_stay_true_arcs(qgis_app):
    """A straight of 10 and a quarter circle of radius 10: 10 + 5 pi long."""
    half = 10 * np.sqrt(0.5)
    geometry = curve_geometry(
        [
            ("line", np.array([(-10.0, 0, 1), (0, 0, 2)])),
            ("arc", np.array([(0, 0, 2), (half, 10 - half, 3), (10, 10, 4)])),
        ]
    )
    assert geometry.wkbType() == Qgis.WkbType.CompoundCurveZ
    assert geometry.length() == pytest.approx(10 + 5 * np.pi, rel=1e-12)


def test_point_geometry(qgis_app):
    assert point_geometry((1, 2, 3)).asWkt() == "Point Z (1 2 3)"
    assert point_geometry((1, 2)).asWkt() == "Point (1 2)"
