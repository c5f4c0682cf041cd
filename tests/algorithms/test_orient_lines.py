"""Lines oriented and joined as a user does it, in QGIS."""

import json

import numpy as np
import pytest
from qgis.core import (
    NULL,
    Qgis,
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorFileWriter,
    QgsVectorLayer,
)

from tests.algorithms.test_guidelines import FEET, Log, layer, plane, rows, shapes
from tests.commands import link_plugin, qgis_process

ALGORITHM = "undercourse:orient_lines"
EAST = [(2000, 1000, 10), (2050, 1000, 9), (2100, 1000, 8.5)]
ARC = "CompoundCurveZ (CircularStringZ (0 0 1, 5 5 1, 10 0 2), (10 0 2, 30 0 3))"


@pytest.fixture
def run(provider):
    import processing

    def call(lines, feedback=None, **parameters):
        parameters = {"LINES": lines, "OUTPUT": "TEMPORARY_OUTPUT", **parameters}
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, parameters, context=context, feedback=feedback)
        out = results["OUTPUT"]
        if isinstance(out, str):
            out = QgsProcessingUtils.mapLayerFromString(out, context)
        results["found"] = out
        results["context"] = context  # it owns temporary layers
        return results

    return call


def texts(found):
    return [f.geometry().asWkt(3) for f in found.getFeatures()]


def vertices(found):
    return [[(v.x(), v.y(), v.z()) for v in f.geometry().vertices()] for f in found.getFeatures()]


def test_lines_turn_to_run_up_station_and_keep_their_attributes_and_heights(run):
    road = layer([[(1900, 1010), (2300, 1010)]], "LineString")
    log = Log()
    lines = layer(
        [EAST, EAST[::-1]],
        fields="name:string&field=flag:integer",
        attributes=[["curb", 7], ["walk", 8]],
    )
    results = run(lines, log, RULE="up_station", REFERENCE=road)
    assert vertices(results["found"]) == [EAST, EAST]
    one, other = rows(results["found"])
    assert (one["name"], one["flag_in"], one["flipped"]) == ("curb", 7, False)
    assert (other["name"], other["flag_in"], other["flipped"]) == ("walk", 8, True)
    assert one["flag"] == other["flag"] == NULL
    assert other["source_ids"] == f"-{other['source_id']}"
    assert (other["evidence"], other["runs"]) == (pytest.approx(100.0), "east")
    assert (results["LINE_COUNT"], results["FLIPPED_COUNT"], results["FLAGGED_COUNT"]) == (2, 1, 0)
    assert "1 of 2 lines were turned round." in log.infos
    assert not log.warnings


def test_what_cannot_be_known_stays_as_drawn_is_flagged_and_counted(run):
    log = Log()
    results = run(layer([EAST[::-1]], attributes=[["curb"]]), log, RULE="bearing", BEARING=0)
    (row,) = rows(results["found"])
    assert vertices(results["found"]) == [EAST[::-1]]
    assert (row["flipped"], row["flag"]) == (False, "square")
    assert results["FLAGGED_COUNT"] == 1
    assert any(text.startswith("curb: ") for text in log.warnings)
    assert any("Lines whose direction is not known: 1." in text for text in log.warnings)


@pytest.mark.parametrize("surface", [False, True])
def test_downhill_by_own_heights_or_on_a_surface(run, tmp_path, surface):
    given = {"SURFACE": plane(tmp_path, slope=(0.03, 0.0))} if surface else {}
    results = run(layer([EAST, EAST[::-1]]), RULE="downhill", **given)
    expected = EAST[::-1] if surface else EAST  # the plane rises to the east, the line falls
    assert vertices(results["found"]) == [expected, expected]


def test_clockwise_and_longest(run):
    ring = [(0, 0), (10, 0), (10, 10), (0, 0)]
    results = run(layer([ring], "LineString"), RULE="clockwise")
    assert texts(results["found"]) == ["LineString (0 0, 10 10, 10 0, 0 0)"]
    parts = [[(0, 0), (10, 0)], [(40, 0), (10, 0)]]
    results = run(layer(parts, "LineString"))
    assert texts(results["found"]) == ["LineString (10 0, 0 0)", "LineString (40 0, 10 0)"]


def test_true_arcs_stay_arcs_when_they_are_turned(run):
    lines = shapes("CompoundCurveZ", [ARC])
    results = run(lines, RULE="bearing", BEARING=270)
    assert results["found"].wkbType() == Qgis.WkbType.CompoundCurveZ
    (text,) = texts(results["found"])
    assert text.startswith("CompoundCurve Z ((30 0 3, 10 0 2),CircularString Z (10 0 2, ")
    assert text.endswith("0 0 1))")
    before = next(lines.getFeatures()).geometry().constGet().length()
    after = next(results["found"].getFeatures()).geometry().constGet().length()
    assert after == pytest.approx(before, abs=1e-12)


def test_arcs_are_joined_as_arcs(run):
    more = "CompoundCurveZ ((60 10 4, 30.004 0 3))"
    results = run(shapes("CompoundCurveZ", [ARC, more]), JOIN=True, TOLERANCE="0.01")
    (found,) = results["found"].getFeatures()
    curve = found.geometry().constGet()
    assert curve.hasCurvedSegments()
    assert curve.nCurves() == 2
    assert curve.curveAt(0).wkbType() == Qgis.WkbType.CircularStringZ
    # The arc piece is longer, so it sets the direction; half the gap on either side.
    assert curve.curveAt(1).asWkt(3) == "LineString Z (10 0 2, 30.002 0 3, 60 10 4)"
    assert results["LARGEST_MOVE"] == pytest.approx(0.002)
    assert results["JOINED_COUNT"] == 2


def test_the_end_of_an_arc_does_not_move(run):
    arcs = [
        "CompoundCurveZ (CircularStringZ (0 0 1, 5 5 1, 10 0 1))",
        "CompoundCurveZ (CircularStringZ (10 0.004 1, 15 -5 1, 20 0 1))",
    ]
    results = run(shapes("CompoundCurveZ", arcs), JOIN=True, TOLERANCE="0.01", RULE="bearing",
                  BEARING=90)  # fmt: skip
    (found,) = results["found"].getFeatures()
    curve = found.geometry().constGet()
    assert [curve.curveAt(n).numPoints() for n in range(curve.nCurves())] == [3, 2, 3]
    assert curve.curveAt(1).asWkt(3) == "LineString Z (10 0 1, 10 0.004 1)"
    assert results["LARGEST_MOVE"] == 0.0


def test_joined_pieces_keep_what_they_agree_on_and_list_themselves(run):
    lines = layer(
        [EAST, [(2200, 1000, 8), (2100, 1000, 8.5)]],
        fields="name:string&field=lot:integer&field=crew:string",
        attributes=[["curb", 1, "a"], ["curb", 2, "a"]],
    )
    results = run(lines, RULE="downhill", JOIN=True)
    (row,) = rows(results["found"])
    assert vertices(results["found"]) == [[*EAST, (2200, 1000, 8)]]
    assert (row["name"], row["lot"], row["crew"]) == ("curb", NULL, "a")
    assert (row["pieces"], row["pieces_turned"], row["flipped"]) == (2, 1, True)
    assert row["source_ids"] == "1, -2"
    assert (results["JOINED_COUNT"], results["JOINED_LINES"], results["FLIPPED_COUNT"]) == (2, 1, 1)


def test_pieces_of_other_names_are_joined_only_when_asked_for(run):
    lines = layer([EAST, [(2100, 1000, 8.5), (2200, 1000, 8)]], attributes=[["curb"], ["walk"]])
    assert run(lines, JOIN=True)["found"].featureCount() == 2
    assert run(lines, JOIN=True, WITHIN_NAME=False)["found"].featureCount() == 1


def test_different_heights_are_flagged_and_not_joined(run):
    log = Log()
    lines = layer([EAST, [(2100, 1000, 9.5), (2200, 1000, 8)]])
    results = run(lines, log, JOIN=True)
    assert [row["flag"] for row in rows(results["found"])] == ["step", "step"]
    assert results["NOT_JOINED_COUNT"] == 1
    assert any("different heights (8.500 and 9.500)" in text for text in log.warnings)
    assert run(lines, JOIN=True, HEIGHT_TOLERANCE="1.1 ft")["found"].featureCount() == 1


def test_parts_become_lines_of_their_own_and_m_stays_with_its_vertex(run, tmp_path):
    text = "MultiLineStringZM ((0 0 1 100, 50 0 1 150), (90 5 1 240, 60 5 1 210))"
    path = tmp_path / "m.gpkg"
    made = shapes("MultiLineStringZM", [text])
    options = QgsVectorFileWriter.SaveVectorOptions()
    context = QgsProcessingContext().transformContext()
    QgsVectorFileWriter.writeAsVectorFormatV3(made, str(path), context, options)
    out = tmp_path / "out.gpkg"
    run(str(path), RULE="bearing", BEARING=90, OUTPUT=str(out))
    found = QgsVectorLayer(str(out), "out", "ogr")
    assert texts(found) == [
        "LineString ZM (0 0 1 100, 50 0 1 150)",
        "LineString ZM (60 5 1 210, 90 5 1 240)",
    ]
    assert [(r["source_id"], r["part"], r["flipped"]) for r in rows(found)] == [
        (1, 0, False),
        (1, 1, True),
    ]


def test_lines_with_m_but_without_heights_keep_it(run):
    made = shapes("LineStringM", ["LineStringM (0 0 5, 9 0 14)", "LineStringM (20 0 3, 9 0 14)"])
    results = run(made, RULE="bearing", BEARING=90)
    assert texts(results["found"]) == [
        "LineString M (0 0 5, 9 0 14)",
        "LineString M (9 0 14, 20 0 3)",
    ]
    results = run(made, RULE="bearing", BEARING=90, JOIN=True)
    assert texts(results["found"]) == ["LineString M (0 0 5, 9 0 14, 20 0 3)"]


def test_a_run_on_its_own_result_turns_nothing_more(run):
    road = layer([[(1900, 1010), (2300, 1010)]], "LineString")
    first = run(layer([EAST, EAST[::-1]]), RULE="up_station", REFERENCE=road)
    second = run(first["found"], RULE="up_station", REFERENCE=road)
    assert (first["FLIPPED_COUNT"], second["FLIPPED_COUNT"]) == (1, 0)
    assert [row["flipped_in"] for row in rows(second["found"])] == [False, True]


@pytest.mark.parametrize(
    ("parameters", "part"),
    [
        ({"RULE": "up_station"}, "needs lines to go by"),
        ({"RULE": "north"}, "is not one of"),
        ({"TOLERANCE": "some"}, "Ends touch within"),
        ({"TOLERANCE": "-1 ft", "JOIN": True}, "less than 0"),
    ],
)
def test_what_is_missing_or_wrong_is_said_in_one_sentence(run, parameters, part):
    with pytest.raises(QgsProcessingException) as caught:
        run(layer([EAST]), **parameters)
    assert part in str(caught.value)


def test_plan_lines_have_no_downhill(run):
    with pytest.raises(QgsProcessingException) as caught:
        run(layer([[(0, 0), (10, 0)]], "LineString"), RULE="downhill")
    assert "choose a layer for Surface" in str(caught.value)


def test_a_refused_run_leaves_an_older_result_alone(run, tmp_path):
    out = tmp_path / "out.gpkg"
    run(layer([EAST]), OUTPUT=str(out))
    before = out.read_bytes()
    with pytest.raises(QgsProcessingException):
        run(layer([[(0, 0), (10, 0)]], "LineString"), RULE="downhill", OUTPUT=str(out))
    assert out.read_bytes() == before


def test_through_the_command_line_with_its_report(tmp_path):
    made = layer(
        [EAST, EAST[::-1], [(2200, 1000, 3), (2300, 1040, 3)]],
        attributes=[["curb"], ["walk <b>"], ["level"]],
    )
    path = tmp_path / "lines.gpkg"
    options = QgsVectorFileWriter.SaveVectorOptions()
    context = QgsProcessingContext().transformContext()
    QgsVectorFileWriter.writeAsVectorFormatV3(made, str(path), context, options)
    out, page = tmp_path / "out.gpkg", tmp_path / "report.html"
    done = qgis_process(
        link_plugin(tmp_path / "profile"),
        "--json",
        "run",
        ALGORITHM,
        "--",
        f"LINES={path}",
        "RULE=downhill",
        f"OUTPUT={out}",
        f"HTML={page}",
    )
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert (results["FLIPPED_COUNT"], results["FLAGGED_COUNT"]) == (1, 1)
    found = QgsVectorLayer(str(out), "out", "ogr")
    assert vertices(found)[:2] == [EAST, EAST]
    text = page.read_text(encoding="utf-8")
    assert "1 of 3 lines were turned round." in text
    assert "walk &lt;b&gt;" in text
    assert "The line is level" in text
    assert "<svg" in text
    assert "locate" in text.lower()  # the usual cautions
    assert np.isfinite([v for line in vertices(found) for p in line for v in p]).all()


def test_features_without_geometry_are_left_out_and_told(run):
    lines = layer([EAST, EAST[::-1]], attributes=[["a"], ["b"]])
    empty = QgsFeature(lines.fields())
    empty.setGeometry(QgsGeometry())
    lines.dataProvider().addFeatures([empty])
    log = Log()
    results = run(lines, log, RULE="bearing", BEARING=90)
    assert results["found"].featureCount() == 2
    assert results["found"].crs().authid() == FEET
    assert any("no geometry" in text for text in log.warnings)
