"""Extending a surface as a user does it, in QGIS and through ``qgis_process``."""

import json

import numpy as np
import pytest
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsProcessingException,
    QgsVectorLayer,
)

from plugin.core.tin import Tin
from plugin.layers.meshes import read_ply, write_ply
from tests.commands import link_plugin, qgis_process

ALGORITHM = "undercourse:extend_surface"
FEET = "EPSG:2264"  # US survey feet
LEFT, BOTTOM = 1_500_000.0, 600_000.0


@pytest.fixture
def design(tmp_path):
    """A square of 10 that rises by 10 % to the east, in two faces."""
    x, y = np.array([(0, 0), (10, 0), (10, 10), (0, 10)]).T
    vertices = np.column_stack([x + LEFT, y + BOTTOM, 500 + 0.1 * x])
    path = tmp_path / "design.ply"
    faces = np.array([(0, 1, 2), (0, 2, 3)])
    write_ply(path, (vertices, faces), QgsCoordinateReferenceSystem(FEET))
    return str(path)


def lines(*parts):
    layer = QgsVectorLayer(f"LineString?crs={FEET}", "lines", "memory")
    for part in parts:
        text = ", ".join(f"{LEFT + x} {BOTTOM + y}" for x, y in part)
        feature = QgsFeature()
        feature.setGeometry(QgsGeometry.fromWkt(f"LINESTRING({text})"))
        layer.dataProvider().addFeature(feature)
    return layer


def run(design, path, **parameters):
    import processing

    return processing.run(ALGORITHM, {"DESIGN": design, "TIN": str(path), **parameters})


def height(path, x, y):
    read = read_ply(path)
    tin = Tin.from_arrays(read.vertices, read.faces)
    return float(tin.sample([(LEFT + x, BOTTOM + y)])[0][0])


def test_slope_carried_on(provider, qgis_processing, design, tmp_path):
    path = tmp_path / "e.ply"
    result = run(design, path, DISTANCE="2 ft", FACES="TEMPORARY_OUTPUT")
    assert result["NEW_AREA"] == pytest.approx(14**2 - 100)
    assert result["LENGTH"] == pytest.approx(40)
    assert result["DISAGREEMENT"] == pytest.approx(0, abs=1e-9)
    assert result["FLAG_COUNT"] == 0
    assert height(path, 11.5, 5) == pytest.approx(501.15)
    read = read_ply(path)
    assert np.array_equal(read.faces[:2], read_ply(design).faces)
    assert np.array_equal(read.vertices[:4], read_ply(design).vertices)
    assert read.face_values["part"].tolist() == [0, 0] + [1] * result["NEW_FACES"]
    faces = list(result["FACES"].getFeatures())
    assert len(faces) == result["FACE_COUNT"]
    words = [feature["part"] for feature in faces]
    assert words == ["design"] * 2 + ["extension"] * result["NEW_FACES"]
    assert {feature["face"] for feature in faces} == {1, 2}
    assert sum(feature.geometry().area() for feature in faces[2:]) == pytest.approx(
        result["NEW_AREA"]
    )


def test_given_grade_rises_outward(provider, qgis_processing, design, tmp_path):
    path = tmp_path / "e.ply"
    run(design, path, DISTANCE="2", RULE="grade", GRADE="4:1", VERTICAL_UNIT="metre")
    # 4:1 is 25 %: heights are in metres here, plan in feet.
    rise = 0.25 * 1200 / 3937
    assert height(path, 5, -1) == pytest.approx(500.5 + rise)
    assert height(path, 11, 5) == pytest.approx(501 + rise)
    run(design, path, DISTANCE="2", RULE="grade", GRADE="-2 %")
    assert height(path, 11, 5) == pytest.approx(501 - 0.02)
    run(design, path, DISTANCE="2", RULE="level")
    assert height(path, 11, 5) == pytest.approx(501)


def test_edges_picked_by_lines(provider, qgis_processing, design, tmp_path):
    path = tmp_path / "e.ply"
    east = lines([(10.2, -3), (10.1, 13)])
    result = run(design, path, DISTANCE="2", EDGES=east)
    assert result["LENGTH"] == pytest.approx(10)
    assert result["NEW_AREA"] == pytest.approx(20)
    with pytest.raises(QgsProcessingException, match="No edge of the surface runs along"):
        run(design, path, DISTANCE="2", EDGES=east, WITHIN="0.1")


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"DISTANCE": "0"}, "greater than zero"),
        ({"DISTANCE": "-1 ft"}, "greater than zero"),
        ({"DISTANCE": "far"}, "far"),
        ({"RULE": "grade"}, "Give the grade"),
        ({"GRADE": "2"}, "leave the grade blank"),
        ({"RULE": "grade", "GRADE": "1:2"}, "Grade: '1:2'"),
        ({"RULE": "steep"}, "“steep” is not one of"),
    ],
)
def test_refusals_leave_an_old_result_alone(
    provider, qgis_processing, design, tmp_path, given, said
):
    path = tmp_path / "e.ply"
    path.write_bytes(b"an old result")
    with pytest.raises(QgsProcessingException, match=said):
        run(design, path, **{"DISTANCE": "1", **given})
    assert path.read_bytes() == b"an old result"


def test_a_raster_is_refused(provider, qgis_processing, design, tmp_path):
    import processing

    raster = str(tmp_path / "r.tif")
    processing.run("undercourse:tin_to_raster", {"DESIGN": design, "PIXEL": "1", "OUTPUT": raster})
    with pytest.raises(QgsProcessingException, match="is a raster"):
        run(raster, tmp_path / "e.ply", DISTANCE="1")


def test_through_qgis_process(design, tmp_path):
    profile = link_plugin(tmp_path)
    path = tmp_path / "e.ply"
    words = [f"DESIGN={design}", "DISTANCE=2", f"TIN={path}", f"FACES={tmp_path / 'f.gpkg'}"]
    done = qgis_process(profile, "run", ALGORITHM, "--json", "--", *words)
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert results["NEW_AREA"] == pytest.approx(14**2 - 100)
    assert height(path, -1, 5) == pytest.approx(499.9)
    assert QgsVectorLayer(str(tmp_path / "f.gpkg")).featureCount() == results["FACE_COUNT"]
