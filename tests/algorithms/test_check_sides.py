"""Guidelines checked as a reviewer does it, in QGIS."""

import pytest
from qgis.core import NULL, QgsProcessingContext, QgsProcessingException, QgsProcessingUtils

from tests.algorithms.test_guidelines import Log, layer, rows

ALGORITHM = "undercourse:check_sides"
CURB = [(2000, 1000, 10), (2100, 1000, 9)]
WALK = [(2000, 1020, 10), (2100, 1020, 9)]
STATED = "source_id:integer&field=name:string&field=signed_offset:double"


@pytest.fixture
def run(provider):
    import processing

    def call(lines, guidelines, feedback=None, algorithm=ALGORITHM, **parameters):
        given = {"LINES": lines, "GUIDELINES": guidelines, **parameters}
        for name in ("OUTPUT", "PLACES") if algorithm == ALGORITHM else ("GUIDELINES",):
            given[name] = "TEMPORARY_OUTPUT"
        context = QgsProcessingContext()
        results = processing.run(algorithm, given, context=context, feedback=feedback)
        for name, value in results.items():
            if name in ("OUTPUT", "PLACES", "GUIDELINES") and isinstance(value, str):
                results[name] = QgsProcessingUtils.mapLayerFromString(value, context)
        results["context"] = context
        return results

    return call


def beside(offset, y=1000.0):
    """Return a line beside the curb; to the right is south."""
    return [(2000, y - offset, 10), (2100, y - offset, 9)]


def judged(results):
    return [(row["result"], row["flag"] or "") for row in rows(results["OUTPUT"])]


@pytest.mark.parametrize("side", ["right", "left"])
@pytest.mark.parametrize("join", ["mitre", "round", "bevel"])
def test_what_the_plugin_laid_passes_by_its_own_fields(run, side, join):
    bent = layer([[*CURB, (2150, 1060, 8)], WALK], attributes=[["curb"], ["walk"]])
    laid = run(bent, None, algorithm="undercourse:guidelines", OFFSETS="1, 2", SIDE=side, JOIN=join)
    results = run(bent, laid["GUIDELINES"])
    assert judged(results) == [("pass", "")] * 4
    assert (results["PASS_COUNT"], results["FAIL_COUNT"], results["UNCLEAR_COUNT"]) == (4, 0, 0)
    assert results["PLACES"].featureCount() == 0


def test_each_mistake_is_caught_for_what_it_is(run):
    log = Log()
    wrong = layer(
        [beside(1), beside(-1), beside(1.4), beside(1, 1020), [*beside(1)[:1], *beside(-1)[1:]]],
        fields=STATED,
        attributes=[[1, name, 1.0] for name in "abcde"],
    )
    lines = layer([CURB, WALK], attributes=[["curb"], ["walk"]])
    results = run(lines, wrong, log)
    assert judged(results) == [
        ("pass", ""),
        ("fail", "wrong_side"),
        ("fail", "distance"),
        ("fail", "wrong_line"),
        ("fail", "swaps"),
    ]
    found = rows(results["OUTPUT"])
    assert (found[1]["side_asked"], found[1]["side"], found[1]["wrong_share"]) == (
        "right", "left", pytest.approx(100.0)
    )  # fmt: skip
    assert (found[2]["offset_min"], found[2]["offset_max"]) == pytest.approx((1.4, 1.4))
    assert "fits 'walk' and not 'curb'" in found[3]["why"]
    assert found[4]["side"] == "both"
    assert found[4]["wrong_share"] == pytest.approx(50.0)
    assert results["FAIL_COUNT"] == 4
    places = rows(results["PLACES"])
    assert [place["guideline_id"] for place in places] == [2, 3, 4, 5]
    assert any(text.startswith("4 of 5 guidelines fail") for text in log.warnings)


def test_a_guideline_made_elsewhere_is_checked_by_an_offset_and_a_side_rule(run):
    lines = layer([CURB, WALK], attributes=[["curb"], ["walk"]])
    plain = layer([beside(1), beside(-1)[::-1]], "LineStringZ", fields="note:string")
    results = run(lines, plain, OFFSET="1 ft", SIDE="compass", COMPASS="south")
    assert judged(results) == [("pass", ""), ("fail", "wrong_side")]
    assert [row["line"] for row in rows(results["OUTPUT"])] == ["curb", "curb"]
    # The side of the rule does not depend on the way the line is drawn; right and left do.
    back = layer([CURB[::-1], WALK], attributes=[["curb"], ["walk"]])
    assert judged(run(back, plain, OFFSET="1", SIDE="compass", COMPASS="south")) == judged(results)
    assert judged(run(back, plain, OFFSET="1", SIDE="right")) == [
        ("fail", "wrong_side"),
        ("pass", ""),
    ]


def test_any_side_passes_as_long_as_it_is_one(run):
    lines = layer([CURB])
    plain = layer([beside(-3), [*beside(2)[:1], *beside(-2)[1:]]], fields="note:string")
    results = run(lines, plain, SIDE="none")
    assert judged(results) == [("pass", ""), ("fail", "swaps")]
    assert rows(results["OUTPUT"])[0]["offset_asked"] == NULL


def test_a_rule_that_cannot_be_settled_leaves_it_unclear(run):
    plain = layer([beside(1)], fields="note:string")
    results = run(layer([CURB]), plain, SIDE="compass", COMPASS="east")
    assert judged(results) == [("unclear", "side")]
    assert "runs along that wind" in rows(results["OUTPUT"])[0]["why"]


def test_stations_count_from_the_start_station(run):
    bad = layer([beside(-1)], fields=STATED, attributes=[[1, "a", 1.0]])
    (row,) = rows(run(layer([CURB]), bad, START_STATION="10+00")["OUTPUT"])
    assert 1000 <= row["station_from"] < 1010
    assert 1090 < row["station_to"] <= 1100


@pytest.mark.parametrize(
    ("fields", "attributes", "parameters", "sentence"),
    [
        ("note:string", ["x"], {}, "No guideline states its side"),
        (STATED, [7, "a", 1.0], {}, "Guideline 1: there is no line called “7”"),
        (STATED, [1, "a", 1.0], {"SIDE": "toward"}, "needs a reference"),
        (STATED, [1, "a", 1.0], {"OFFSET": "-1"}, "it must be greater than 0"),
        ("signed_offset:string", ["abc"], {"SIDE": "right"}, "field “signed_offset”"),
    ],
)
def test_bad_input_is_refused_in_one_sentence(run, fields, attributes, parameters, sentence):
    plain = layer([beside(1)], fields=fields, attributes=[attributes])
    with pytest.raises(QgsProcessingException, match=sentence):
        run(layer([CURB]), plain, **parameters)


def test_the_report_opens_with_the_verdict_and_draws_what_is_wrong(run, tmp_path):
    page = tmp_path / "check.html"
    bad = layer([beside(1), beside(-1)], fields=STATED, attributes=[[1, "<a>", 1.0], [1, "b", 1.0]])
    run(layer([CURB], attributes=[["curb & gutter"]]), bad, HTML=str(page))
    text = page.read_text(encoding="utf-8")
    assert text.index("1 of 2 guidelines fail") < text.index("What is wrong")
    assert "&lt;a&gt;" in text and "<a>" not in text
    assert text.count("<svg") == 1
    assert "Before you dig" in text
