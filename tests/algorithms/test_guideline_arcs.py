"""Guidelines beside true arcs are true arcs, as files hold them."""

from pathlib import Path

import numpy as np
import pytest
from qgis.core import QgsCompoundCurve, QgsVectorLayer, QgsWkbTypes

from tests.algorithms.test_guidelines import Log, plane, rows, run, shapes
from tests.core.tin_shapes import REAL

__all__ = ["run"]  # the fixture
STREET = "CompoundCurveZ ((0 0 10, 50 0 11), CircularStringZ (50 0 11, 64.142135623731 5.857864376269 12, 70 20 13), (70 20 13, 70 60 14))"  # noqa: E501  # fmt: skip


def parts(found):
    """Return (is an arc, points) of each component of each feature."""
    result = []
    for feature in found.getFeatures():
        geometry = feature.geometry()
        curve = geometry.constGet()
        assert isinstance(curve, QgsCompoundCurve)
        result.append([
            (own.hasCurvedSegments(), np.array([(p.x(), p.y(), p.z(), p.m()) for p in own.points()]))
            for own in (curve.curveAt(n) for n in range(curve.nCurves()))
        ])  # fmt: skip
    return result


@pytest.mark.parametrize(("side", "radius"), [("right", 21.5), ("left", 18.5)])
def test_an_arc_between_tangents_stays_one(run, tmp_path, side, radius):
    path = tmp_path / "g.gpkg"
    run(shapes("CompoundCurveZ", [STREET]), OFFSETS="1.5", SIDE=side, GUIDELINES=str(path))
    back = QgsVectorLayer(str(path), "back", "ogr")
    assert back.wkbType() == QgsWkbTypes.Type.CompoundCurveZM
    ((first, arc, last),) = parts(back)
    assert [is_arc for is_arc, _ in (first, arc, last)] == [False, True, False]
    assert np.hypot(*(arc[1][:, :2] - (50, 20)).T) == pytest.approx(radius, abs=1e-9)
    assert arc[1][[0, -1], 2].tolist() == [11, 13]
    assert arc[1][:, 3] == pytest.approx([50, 50 + 5 * np.pi, 50 + 10 * np.pi], abs=2e-3)
    assert last[1][-1, :2] == pytest.approx((70 + (1.5 if side == "right" else -1.5), 60))


def test_as_chords_when_asked_for_and_with_heights_of_a_surface(run, tmp_path):
    street = shapes("CompoundCurveZ", [STREET])
    made = run(street, ARCS="chords")["GUIDELINES"]
    assert made.wkbType() == QgsWkbTypes.Type.LineStringZM
    surface = plane(tmp_path)
    made = run(street, Z_FROM="surface", SURFACE=surface)["GUIDELINES"]
    assert made.wkbType() == QgsWkbTypes.Type.LineStringZM


def test_multipart_split_and_taper_work_beside_arcs(run):
    street = shapes("CompoundCurveZ", [STREET])
    made = run(street, PARTS="multi", OFFSETS="1, 2")["GUIDELINES"]
    assert made.wkbType() == QgsWkbTypes.Type.MultiCurveZM
    assert made.featureCount() == 2
    made = run(street, TAPER="1 > 2")["GUIDELINES"]
    assert made.featureCount() == 1
    crossing = shapes("LineString", ["LineString (0 5, 25 0, 60 -10)"])
    made = run(street, SIDE="toward", REFERENCE=crossing, ON_SWAP="split", MIN_SHARE=60)
    assert {row["side_line"] for row in rows(made["GUIDELINES"])} <= {"left", "right"}


def test_a_full_circle_keeps_its_arcs(run):
    circle = shapes("CircularString", ["CircularString (10 0, 0 10, -10 0, 0 -10, 10 0)"])
    made = run(circle, SIDE="right", OFFSETS="2")["GUIDELINES"]  # anticlockwise: right is outside
    (found,) = parts(made)
    assert all(is_arc for is_arc, _ in found)
    for _, xyz in found:
        assert np.hypot(*xyz[:, :2].T) == pytest.approx(12.0, abs=1e-9)


@pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
@pytest.mark.parametrize("side", ["right", "left"])
def test_the_real_alignment_both_ways_written_and_read_back(run, tmp_path, side):
    """LandXML alignment of the InfraModel sample (buildingSMART Finland, CC BY 4.0)."""
    import processing

    source = str(tmp_path / "al.gpkg")
    processing.run(
        "undercourse:read_landxml",
        {"INPUT": str(Path(REAL) / "road_alignment.xml"), "ALIGNMENTS": source},
    )
    path = str(tmp_path / "g.gpkg")
    log = Log()
    run(source, feedback=log, SIDE=side, OFFSETS="3 m", STATIONS="m", GUIDELINES=path)
    (given,) = parts(QgsVectorLayer(source, "al", "ogr"))
    (laid,) = parts(QgsVectorLayer(path, "g", "ogr"))
    arcs, beside = ([xyz for is_arc, xyz in own if is_arc] for own in (given, laid))
    assert len(arcs) == len(beside) > 3
    sign = 1.0 if side == "right" else -1.0
    for arc, other in zip(arcs, beside, strict=True):
        centre, radius = _circle(arc)
        turns_right = _cross(arc) < 0
        expected = radius - sign * 3.0 * (1 if turns_right else -1)
        assert np.hypot(*(other[:, :2] - centre).T) == pytest.approx(expected, abs=1e-5)
        # Stations at both ends of the arc are those of the alignment itself.
        assert other[[0, -1], 3] == pytest.approx(arc[[0, -1], 3], abs=1e-3)


def _cross(arc):
    a, b = arc[1, :2] - arc[0, :2], arc[2, :2] - arc[0, :2]
    return a[0] * b[1] - a[1] * b[0]


def _circle(arc):
    (bx, by), (cx, cy) = arc[1:, :2] - arc[0, :2]
    d = 2 * (bx * cy - by * cx)
    x = (cy * (bx**2 + by**2) - by * (cx**2 + cy**2)) / d
    y = (bx * (cx**2 + cy**2) - cx * (bx**2 + by**2)) / d
    return arc[0, :2] + (x, y), np.hypot(x, y)
