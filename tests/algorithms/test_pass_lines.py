"""Passes over zones as a user lays them, in QGIS."""

import pytest
from qgis.core import (
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from tests.algorithms.test_guidelines import FEET, Log, layer, plane, rows

FIELD = "POLYGON ((2000 1000, 2100 1000, 2100 1030, 2000 1030, 2000 1000))"


@pytest.fixture
def run(provider):
    import processing

    def call(zones, feedback=None, **parameters):
        context = QgsProcessingContext()
        given = {"ZONES": zones, "WIDTH": "10", "LEFT_OVER": "TEMPORARY_OUTPUT", **parameters}
        given["OUTPUT"] = "TEMPORARY_OUTPUT"
        results = processing.run(
            "undercourse:pass_lines", given, context=context, feedback=feedback
        )
        for name in ("OUTPUT", "LEFT_OVER"):
            if isinstance(results[name], str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context
        return results

    return call


def zones(*wkt):
    made = QgsVectorLayer(f"Polygon?crs={FEET}&field=name:string", "zones", "memory")
    features = []
    for number, text in enumerate(wkt):
        feature = QgsFeature(made.fields())
        feature.setGeometry(QgsGeometry.fromWkt(text))
        feature.setAttributes([f"zone {number}"])
        features.append(feature)
    assert made.dataProvider().addFeatures(features)[0]
    return made


def test_passes_to_and_fro_with_their_figures(run):
    log = Log()
    made = run(zones(FIELD), log)
    found = rows(made["OUTPUT"])
    assert [(r["order"], r["pass"], r["travel"], r["ahead"]) for r in found] == [
        (1, 1, "east", True), (2, 2, "west", False), (3, 3, "east", True)
    ]  # fmt: skip
    assert [r["signed_offset"] for r in found] == pytest.approx([-10, 0, 10])
    assert [r["length"] for r in found] == pytest.approx([100, 100, 100])
    figures = [made[name] for name in ("PASS_COUNT", "LENGTH", "AREA", "COVERED", "LEFT_OVER_AREA")]
    assert figures == pytest.approx([3, 300, 3000, 3000, 0])
    assert made["LEFT_OVER"].featureCount() == 0
    assert any("zone 0: 3 passes, 100.0 % of 3,000.0 sq usft covered" in t for t in log.infos)


def test_bearing_overlap_in_percent_and_start_on_the_right(run):
    made = run(zones(FIELD), BEARING=0, OVERLAP="20 %", START_SIDE="right", FIT="fixed")
    found = rows(made["OUTPUT"])
    assert len(found) == 13  # 90 left after the first pass, by steps of 8
    first = next(made["OUTPUT"].getFeatures()).geometry().asPolyline()
    assert (first[0].x(), first[0].y()) == pytest.approx((2095, 1000))
    assert found[0]["travel"] == "north"


def test_along_a_line_and_on_a_surface(run, tmp_path):
    surface = plane(tmp_path, slope=(0.02, 0.0), z=0.0)
    line = layer([[(2000, 1015), (2100, 1015)]], "LineString")
    made = run(zones(FIELD), ALONG=line, SURFACE=surface, DEPTH="0.5")
    heights = [
        (v.x(), v.z()) for f in made["OUTPUT"].getFeatures() for v in f.geometry().vertices()
    ]
    assert len(heights) >= 6
    assert [z for _, z in heights] == pytest.approx([0.02 * x - 0.5 for x, _ in heights])


def test_what_is_left_over_comes_as_areas_and_is_drawn(run, tmp_path):
    page = tmp_path / "p.html"
    slanted = "POLYGON ((2000 1000, 2100 1000, 2110 1010, 2010 1010, 2000 1000))"
    made = run(zones(slanted), BEARING=90, HTML=str(page))
    assert sorted(r["area"] for r in rows(made["LEFT_OVER"])) == pytest.approx([12.5, 12.5])
    text = page.read_text(encoding="utf-8")
    assert "<svg" in text and "Before you dig" in text


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({"WIDTH": "0"}, "Working width: it must be greater than 0"),
        ({"WIDTH": ""}, "WIDTH"),
        ({"OVERLAP": "10"}, "less than the width"),
        ({"OVERLAP": "x %"}, "is no percentage"),
        ({"END_MARGIN": "-1"}, "must not be negative"),
        ({"WIDTH": "0.001 mm"}, "Zone 1: there would be more than 20,000 passes; check the width"),
    ],
)
def test_bad_input_is_refused_in_one_sentence(run, parameters, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(zones(FIELD), **parameters)


def test_a_margin_that_takes_all_is_told(run):
    log = Log()
    made = run(zones(FIELD), log, END_MARGIN="60")
    assert made["PASS_COUNT"] == 0
    assert any("There is no pass in zone 0" in text for text in log.warnings)
