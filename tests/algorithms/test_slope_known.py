"""Slope breaks beside drawn lines, outer edges and the report, as a user finds them in QGIS."""

import re

import pytest
from qgis.core import (
    QgsFeature,
    QgsGeometry,
    QgsLineString,
    QgsPoint,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
    QgsWkbTypes,
)

from plugin.core.breaks import KINDS
from tests.algorithms.test_slope_breaks import FEET, LENGTH, rows, run, street_mesh

__all__ = ["run"]  # the fixture

EAST, NORTH = 1_500_000, 600_000
CROWN, FLOWLINE, TOP_OF_CURB = 0.0, 13.5, 13.501


def drawn(*lines, kind="LineStringZ", crs=FEET):
    """Return a layer of lines along y at (x, from, to[, name])."""
    layer = QgsVectorLayer(f"{kind}?crs={crs}&field=name:string", "survey", "memory")
    features = []
    for x, start, stop, *name in lines:
        ends = [QgsPoint(EAST + x, NORTH + y, 1.0) for y in (start, stop)]
        feature = QgsFeature(layer.fields())
        feature.setGeometry(QgsGeometry(QgsLineString(ends)))
        feature.setAttributes([*name, None][:1])
        features.append(feature)
    layer.dataProvider().addFeatures(features)
    return layer


def layer_of(made, name):
    found = made[name]
    if isinstance(found, str):
        found = QgsProcessingUtils.mapLayerFromString(found, made["context"])
    return found


def test_breaks_drawn_missing_and_lines_that_are_none(run, tmp_path):
    lines = drawn((CROWN, 0, 120, "crown"), (6.0, 50, 90, "joint"), (CROWN + 0.2, 200, 300))
    made = run(
        street_mesh(tmp_path), KNOWN=lines, KNOWN_DISTANCE="3 in", COMPARISON="TEMPORARY_OUTPUT"
    )
    assert made["EXPLAINED_LENGTH"] == pytest.approx(220)
    assert made["MISSING_LENGTH"] == pytest.approx(11 * LENGTH - 220)
    assert made["NO_BREAK_LENGTH"] == pytest.approx(40)
    (crown,) = [row for row in rows(made["BREAKS"]) if row["kind"] == "ridge"]
    assert crown["drawn"] == pytest.approx(100 * 220 / LENGTH)
    assert {row["drawn"] for row in rows(made["BREAKS"]) if row["kind"] != "ridge"} == {0}
    compared = layer_of(made, "COMPARISON")
    assert compared.wkbType() == QgsWkbTypes.Type.LineStringZ
    found = rows(compared)
    on_crown = [row for row in found if row["line"] == crown["line"]]
    # The crown falls to the north, and runs downhill.
    assert [
        (row["state"], round(row["from_dist"], 6), round(row["to_dist"], 6)) for row in on_crown
    ] == [("both", 0, 120), ("missing", 120, 200), ("both", 200, 300)]
    assert on_crown[0]["drawn_name"] == "crown"
    assert on_crown[0]["drawn_share"] == pytest.approx(100)
    (bare,) = [row for row in found if row["state"] == "no_break"]
    assert (bare["drawn_name"], bare["length"], bare["drawn_share"]) == ("joint", 40, 0)
    assert bare["line"] is None or not bare["line"]


def test_the_flowline_does_not_stand_for_the_top_of_the_curb_face(run, tmp_path):
    """Both lie 0.001 ft apart, far within the distance."""
    made = run(street_mesh(tmp_path), KNOWN=drawn((FLOWLINE, 0, LENGTH)), KNOWN_DISTANCE="0.5 ft")
    shares = {}
    for feature in made["BREAKS"].getFeatures():
        x = round(feature.geometry().vertexAt(0).x() - EAST, 3)
        shares[x] = feature["drawn"]
    assert shares[FLOWLINE] == pytest.approx(100)
    assert shares[TOP_OF_CURB] == 0


def test_lines_that_cross_do_not_count(run, tmp_path):
    across = QgsVectorLayer(f"LineString?crs={FEET}", "across", "memory")
    feature = QgsFeature()
    ends = [QgsPoint(EAST + x, NORTH + 100) for x in (-30, 30)]
    feature.setGeometry(QgsGeometry(QgsLineString(ends)))
    across.dataProvider().addFeatures([feature])
    made = run(
        street_mesh(tmp_path), KNOWN=across, KNOWN_DISTANCE="2 ft", COMPARISON="TEMPORARY_OUTPUT"
    )
    assert made["EXPLAINED_LENGTH"] == 0
    assert made["NO_BREAK_LENGTH"] == pytest.approx(60)
    # Drawn without heights: the comparison has none either.
    assert layer_of(made, "COMPARISON").wkbType() == QgsWkbTypes.Type.LineString


def test_without_drawn_lines_nothing_is_said_of_them(run, tmp_path):
    made = run(street_mesh(tmp_path))
    assert "MISSING_LENGTH" not in made
    assert all(not row["drawn"] for row in rows(made["BREAKS"]))


def test_a_distance_of_nothing_is_refused(run, tmp_path):
    sentence = "Drawn lines match within: it must be greater than 0"
    with pytest.raises(QgsProcessingException, match=sentence):
        run(street_mesh(tmp_path), KNOWN=drawn((CROWN, 0, 9)), KNOWN_DISTANCE="0")


def test_the_dialog_may_ask_for_a_comparison_without_drawn_lines(run, tmp_path):
    """Desktop fills optional outputs in by itself."""
    made = run(street_mesh(tmp_path), COMPARISON="TEMPORARY_OUTPUT", KNOWN_DISTANCE="0")
    assert made["COUNT"] == 11
    assert "COMPARISON" not in made


def test_the_outer_edge_on_request(run, tmp_path):
    made = run(street_mesh(tmp_path), KINDS=["ridge", "edge"])
    assert (made["RIDGE_COUNT"], made["EDGE_COUNT"]) == (1, 1)
    assert made["EDGE_LENGTH"] == pytest.approx(2 * (78 + LENGTH))
    feature = next(f for f in made["BREAKS"].getFeatures() if f["kind"] == "edge")
    assert feature.geometry().constGet().isClosed()
    # From the east over the lawn in: 8 % down; along the street 1 % down to the north.
    assert feature["left_min"] == pytest.approx(-8)
    assert feature["left_max"] == pytest.approx(1)
    empty = ("change", "grade_right", "angle", "confidence", "flag")
    assert all(feature[name] in (None, "") or str(feature[name]) == "NULL" for name in empty)
    assert run(street_mesh(tmp_path))["EDGE_COUNT"] == 0


def test_the_report_tells_thresholds_kinds_lines_and_flags(run, tmp_path):
    page = tmp_path / "breaks.html"
    run(street_mesh(tmp_path), MIN_CHANGE=3, KINDS=[str(k) for k in KINDS], HTML=str(page))
    text = page.read_text(encoding="utf-8")
    words = re.sub(r"<[^>]+>", " ", text)
    assert "11 slope breaks, 3300.00 usft in all, where the slope changes by 3 % or more" in words
    assert "4 lines are flagged" in words
    assert "none: face by face" in words
    for label in ("Ridge, crown", "Valley, flowline", "Top of slope", "Toe of slope"):
        assert label in words
    assert words.count("a wall, a kerb face or a step") == 4
    assert words.count("wall of 0.50 usft") == 4
    assert "5.0 % (5.0 - 5.0)" in words
    assert text.count("<svg") >= 1 and "<script" not in text
    assert "Compared with drawn lines" not in words
    # The design is a file of that name; lines are told by number, the longest first.
    assert "Outer edge" in words and "756.00 usft" in words


def test_the_report_shows_drawn_lines(run, tmp_path):
    page = tmp_path / "breaks.html"
    lines = drawn((CROWN, 0, 120, "a < b"), (6.0, 50, 90, "joint"))
    run(street_mesh(tmp_path), KNOWN=lines, KNOWN_DISTANCE="3 in", HTML=str(page))
    text = page.read_text(encoding="utf-8")
    words = re.sub(r"<[^>]+>", " ", text)
    assert "Of 3300.00 usft of breaks 120.00 usft (3.6 %) are drawn" in words
    assert "of 160.00 usft drawn 40.00 usft (25.0 %) are no break" in words
    assert "0.250 usft (3.0 in) and 15 degrees" in words
    assert "joint" in words and "drawn, but no break" in words


def test_a_report_where_nothing_is_found(run, tmp_path):
    page = tmp_path / "breaks.html"
    run(street_mesh(tmp_path), MIN_CHANGE=99999, HTML=str(page), KNOWN=drawn((CROWN, 0, 120)))
    words = re.sub(r"<[^>]+>", " ", page.read_text(encoding="utf-8"))
    assert "0 slope breaks" in words
    assert "Of 0.00 usft of breaks 0.00 usft (0.0 %) are drawn" in words
