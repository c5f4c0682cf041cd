"""Geometries to arrays and back, against QGIS's own text form."""

import numpy as np
import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from qgis.core import QgsGeometry

from plugin.core.errors import UndercourseError
from plugin.layers.geometry import (
    from_shapely,
    from_wkb,
    line_wkb,
    polygons_from_rings,
    read_parts,
    to_shapely,
)

KINDS = [
    ("Point (1 2)", "point", 1, False, False),
    ("PointZ (1 2 3)", "point", 1, True, False),
    ("MultiPointZM ((1 2 3 4),(5 6 7 8))", "point", 2, True, True),
    ("LineStringM (0 0 5, 1 0 6)", "line", 1, False, True),
    ("LineStringZM (0 0 1 5, 1 0 2 6)", "line", 1, True, True),
    ("MultiLineStringZ ((0 0 1, 1 0 2),(3 3 3, 4 4 4))", "line", 2, True, False),
    ("Polygon ((0 0, 1 0, 0 1, 0 0))", "polygon", 1, False, False),
    ("MultiPolygonZ (((0 0 1, 1 0 2, 0 1 3, 0 0 1)),((5 5 1,6 5 1,6 6 1,5 5 1)))",
     "polygon", 2, True, False),
    ("TIN Z (((0 0 1, 1 0 2, 0 1 3, 0 0 1)),((1 0 2, 1 1 5, 0 1 3, 1 0 2)))",
     "polygon", 2, True, False),
    ("PolyhedralSurface Z (((0 0 1, 1 0 2, 0 1 3, 0 0 1)))", "polygon", 1, True, False),
    ("Triangle Z ((0 0 1, 1 0 2, 0 1 3, 0 0 1))", "polygon", 1, True, False),
    ("GeometryCollection (LineString (0 0, 1 1), LineString (2 2, 3 3))", "line", 2, False, False),
]  # fmt: skip


@pytest.mark.parametrize(("text", "kind", "count", "has_z", "has_m"), KINDS)
def test_every_kind(qgis_app, text, kind, count, has_z, has_m):
    parts = read_parts(QgsGeometry.fromWkt(text))
    assert (parts.kind, len(parts.rings), parts.has_z, parts.has_m) == (kind, count, has_z, has_m)
    assert {ring.shape[1] for part in parts.rings for ring in part} == {2 + has_z + has_m}
    numbers = [float(x) for x in text.translate(str.maketrans("(),", "   ")).split() if _is(x)]
    found = np.concatenate([ring.ravel() for part in parts.rings for ring in part])
    np.testing.assert_array_equal(found, numbers)


def _is(word):
    try:
        float(word)
    except ValueError:
        return False
    return True


def test_empty_and_null(qgis_app):
    for geometry in (QgsGeometry(), QgsGeometry.fromWkt("Polygon EMPTY")):
        assert read_parts(geometry).rings == []


def test_mixed_collection_is_refused(qgis_app):
    with pytest.raises(UndercourseError, match="mixes points, lines and polygons"):
        read_parts(QgsGeometry.fromWkt("GeometryCollection (Point (1 2), LineString (0 0, 1 1))"))


@pytest.mark.parametrize("chord", [0.1, 1e-3, 1e-5])
def test_arcs_stay_within_the_chord_tolerance(qgis_app, chord):
    """Points of the arc of radius 50 about (50, 0): a circle is known without any code."""
    arc = QgsGeometry.fromWkt("CircularStringZ (0 0 1, 50 50 2, 100 0 3)")
    ((line,),) = read_parts(arc, chord).rings
    np.testing.assert_allclose(np.hypot(line[:, 0] - 50, line[:, 1]), 50.0, rtol=1e-12)
    middles = (line[1:, :2] + line[:-1, :2]) / 2
    sagitta = 50.0 - np.hypot(middles[:, 0] - 50, middles[:, 1])
    assert 0.2 * chord < sagitta.max() <= chord * (1 + 1e-6)
    np.testing.assert_array_equal(line[[0, -1]], [[0, 0, 1], [100, 0, 3]])


SHAPES = [
    shapely.Point(1, 2, 3),
    shapely.LineString([(0, 0), (1, 2), (5, 5)]),
    shapely.MultiLineString([[(0, 0, 1), (1, 2, 2)], [(5, 5, 3), (6, 6, 4)]]),
    shapely.box(0, 0, 9, 9).difference(shapely.box(2, 2, 3, 3)),
    shapely.MultiPolygon(
        [shapely.box(0, 0, 1, 1), shapely.box(5, 5, 9, 9).difference(shapely.box(6, 6, 7, 7))]
    ),
]


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.geom_type)
def test_shapely_there_and_back(qgis_app, shape):
    geometry = from_shapely(shape)
    assert geometry.constGet().is3D() == shape.has_z
    assert to_shapely(geometry).equals_exact(shapely.force_2d(shape), 0.0)
    np.testing.assert_array_equal(
        np.vstack([ring for part in read_parts(geometry).rings for ring in part]),
        shapely.get_coordinates(shape, include_z=shape.has_z),
    )


def test_polygons_of_many_features_at_once():
    square, hole = _ring(0, 4), _ring(1, 2)
    far = _ring(10, 12)
    one, several, none = polygons_from_rings([[[square, hole]], [[square], [far]], []])
    assert one.area == 16 - 1
    assert len(one.interiors) == 1
    assert several.geom_type == "MultiPolygon"
    assert several.area == 16 + 4
    assert none.is_empty


def _ring(low, high):
    return np.array([(low, low), (high, low), (high, high), (low, high), (low, low)], dtype=float)


finite = some.floats(allow_nan=False, allow_infinity=False, width=64)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(rows=some.lists(some.tuples(finite, finite, finite), min_size=2, max_size=9))
def test_any_line_keeps_every_bit(qgis_app, rows):
    line = np.array(rows)
    geometry = from_wkb(line_wkb(line))
    ((found,),) = read_parts(geometry).rings
    assert found.tobytes() == line.tobytes()
