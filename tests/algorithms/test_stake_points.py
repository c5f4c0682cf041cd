"""Stakes set out as a surveyor does it, in QGIS."""

import csv

import numpy as np
import pytest
from qgis.core import (
    NULL,
    QgsFeature,
    QgsGeometry,
    QgsPoint,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from tests.algorithms.test_guidelines import FEET, Log, layer, plane, rows, shapes

CURB = [(2000, 1000, 10), (2100, 1000, 12)]  # 2 % up to the east


def runner(algorithm):
    import processing

    def call(feedback=None, **parameters):
        context = QgsProcessingContext()
        given = {"OUTPUT": "TEMPORARY_OUTPUT", **parameters}
        results = processing.run(algorithm, given, context=context, feedback=feedback)
        if isinstance(results["OUTPUT"], str):
            results["OUTPUT"] = QgsProcessingUtils.mapLayerFromString(results["OUTPUT"], context)
        results["context"] = context
        return results

    return call


@pytest.fixture
def stake(provider):
    return runner("undercourse:stake_points")


@pytest.fixture
def station(provider):
    return runner("undercourse:station_offset")


def test_stations_sides_heights_cut_and_fill(stake, tmp_path):
    # The ground: an inclined plane through z = 11 at x = 2000, 1 % down to the east.
    ground = plane(tmp_path, slope=(-0.01, 0.0), z=31.0)
    made = stake(
        LINES=layer([CURB], attributes=[["back of curb"]]),
        INTERVAL="50",
        START_STATION="10+00",
        OFFSETS_RIGHT="3 ft",
        GROUND=ground,
    )
    found = rows(made["OUTPUT"])
    assert [(r["station"], r["side"], r["signed_offset"]) for r in found] == [
        ("10+00.00", "on line", 0.0),
        ("10+00.00", "right", 3.0),
        ("10+50.00", "on line", 0.0),
        ("10+50.00", "right", 3.0),
        ("11+00.00", "on line", 0.0),
        ("11+00.00", "right", 3.0),
    ]
    right = found[1]
    assert (right["compass_side"], right["north"]) == ("south", 997.0)
    assert right["design"] == 10.0  # the height of the line, whose stake is set back
    assert [r["cut_fill"] for r in found[::2]] == pytest.approx([1.0, -0.5, -2.0])
    assert [r["mark"] for r in found[::2]] == ["C 1.0", "F 0.5", "F 2.0"]
    assert [r["grade_next"] for r in found[::2]] == [pytest.approx(2.0), pytest.approx(2.0), NULL]
    assert found[0]["next_distance"] == pytest.approx(50.0)
    assert (made["STAKE_COUNT"], made["FLAGGED_COUNT"]) == (6, 0)
    assert (made["CUT_MAX"], made["FILL_MAX"]) == pytest.approx((1.0, 2.0))
    assert {f.geometry().constGet().z() for f in made["OUTPUT"].getFeatures()} == {10, 11, 12}


def test_a_vertical_plane_gives_the_same_cut_everywhere(stake, tmp_path):
    """Design and ground one above the other: the cut is their distance, whatever their slope."""
    for name in ("design", "ground"):
        (tmp_path / name).mkdir()
    design = plane(tmp_path / "design", slope=(0.03, 0.02), z=10.0)
    ground = plane(tmp_path / "ground", slope=(0.03, 0.02), z=12.25)
    made = stake(
        LINES=layer([CURB]), INTERVAL="7", OFFSETS_LEFT="1, 4", Z_FROM="surface", SURFACE=design,
        GROUND=ground, DEPTH="0.6 ft",
    )  # fmt: skip
    cuts = [r["cut_fill"] for r in rows(made["OUTPUT"])]
    assert len(cuts) == 3 * 16
    assert cuts == pytest.approx([2.85] * len(cuts), abs=1e-6)
    assert {r["mark"] for r in rows(made["OUTPUT"])} <= {"C 2.8", "C 2.9"}


def test_the_line_drawn_the_other_way_has_the_other_side_and_the_same_cut(stake, tmp_path):
    ground = plane(tmp_path, slope=(-0.01, 0.02), z=11.0)
    one = stake(LINES=layer([CURB]), INTERVAL="50", OFFSETS_RIGHT="3", ON_LINE=False, GROUND=ground)
    other = stake(
        LINES=layer([CURB[::-1]]), INTERVAL="50", OFFSETS_LEFT="3", ON_LINE=False, GROUND=ground
    )
    key = lambda made: {  # noqa: E731
        (r["east"], r["north"]): (round(r["cut_fill"], 9), r["compass_side"])
        for r in rows(made["OUTPUT"])
    }
    assert key(one) == key(other)
    assert {r["side"] for r in rows(other["OUTPUT"])} == {"left"}


def test_true_arcs_vertices_and_listed_stations(stake):
    curve = shapes("CompoundCurve", ["CompoundCurve ((2000 1000, 2010 1000), CircularString (2010 1000, 2017.0710678 1002.9289322, 2020 1010), (2020 1010, 2020 1030))"])  # noqa: E501  # fmt: skip
    made = stake(LINES=curve, INTERVAL="0", AT=["arcs"], STATION_LIST="0+05, 0+40")
    found = rows(made["OUTPUT"])
    assert [r["reason"] for r in found] == ["start", "listed", "arc", "arc", "listed", "end"]
    quarter = np.pi / 2 * 10
    assert [r["station_value"] for r in found] == pytest.approx(
        [0, 5, 10, 10 + quarter, 40, 30 + quarter], abs=2e-3
    )


def test_missing_heights_are_flagged_and_never_zero(stake, tmp_path):
    log = Log()
    far = [(2000, 1000), (9000, 1000)]
    design = plane(tmp_path, slope=(0.0, 0.0), z=5.0)
    lines = layer([far], "LineString")
    made = stake(log, LINES=lines, INTERVAL="3500", Z_FROM="surface", SURFACE=design)
    found = rows(made["OUTPUT"])
    assert [r["flag"] for r in found] == [NULL, "no_design", "no_design"]
    assert found[1]["design"] == NULL
    assert any("2 points are flagged" in text for text in log.warnings)
    page = tmp_path / "s.html"
    stake(LINES=lines, INTERVAL="3500", Z_FROM="surface", SURFACE=design, HTML=str(page))
    assert "2 points are flagged: the last column says why." in page.read_text(encoding="utf-8")


UPRIGHT = [(0, 0, 1), (10, 0, 2), (10, 0, 5), (20, 0, 3)]


def test_two_heights_at_one_place_are_refused_where_they_count(stake, station):
    lines = layer([UPRIGHT])
    with pytest.raises(QgsProcessingException, match="feature 1: it has two heights at one place"):
        stake(LINES=lines, INTERVAL="5")
    log = Log()
    made = station(log, POINTS=points((5, 1, 0)), LINES=lines)
    assert rows(made["OUTPUT"])[0]["signed_offset"] == -1
    assert any("2.000 and 5.000 at 10.00, 0.00" in text for text in log.warnings)


def test_no_ground_above_the_design_is_no_fill_of_minus_nothing(stake):
    made = stake(LINES=layer([CURB]), INTERVAL="50")
    assert (str(made["CUT_MAX"]), str(made["FILL_MAX"])) == ("0.0", "0.0")


def test_points_in_another_crs_are_refused_by_their_name(station):
    other = QgsVectorLayer("PointZ?crs=EPSG:4326", "gps", "memory")
    with pytest.raises(QgsProcessingException, match=r"gps.* is in EPSG:4326.* and the lines in"):
        station(POINTS=other, LINES=layer([CURB]))


def test_table_and_report(stake, tmp_path):
    table, page = tmp_path / "s.csv", tmp_path / "s.html"
    stake(
        LINES=layer([CURB], attributes=[["a <b>"]]), INTERVAL="50", CSV=str(table), HTML=str(page)
    )
    with table.open(encoding="utf-8", newline="") as file:
        found = list(csv.DictReader(file))
    assert len(found) == 3
    assert found[1]["station"] == "0+50.00"
    assert found[1]["design_usft"] == "11"
    stake(LINES=layer([CURB]), INTERVAL="50", OFFSETS_RIGHT="2", HTML=str(tmp_path / "o.html"))
    # Offset and side break in one place at most, or the last columns leave the paper.
    side = "2.00\N{NO-BREAK SPACE}ft\N{NO-BREAK SPACE}right (south)"
    assert side in (tmp_path / "o.html").read_text(encoding="utf-8")
    text = page.read_text(encoding="utf-8")
    assert "a &lt;b&gt;" in text and "0+50.00" in text and "Before you dig" in text


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({"OFFSETS_RIGHT": "-1"}, "without a minus sign"),
        ({"Z_FROM": "surface"}, "need a surface"),
        ({"ON_LINE": False}, "nothing to set out"),
        ({"STATION_LIST": "9+00"}, "no line has a station 9\\+00"),
        ({"STATION_LIST": "abc"}, "is not a station"),
        ({"INTERVAL": "-5"}, "must not be negative"),
        ({"INTERVAL": "1e-6"}, "more than 1,000,000 points"),
    ],
)
def test_bad_input_is_refused_in_one_sentence(stake, parameters, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        stake(LINES=layer([CURB]), **parameters)


def points(*xyz):
    made = QgsVectorLayer(f"PointZ?crs={FEET}&field=name:string", "points", "memory")
    features = []
    for number, row in enumerate(xyz):
        feature = QgsFeature(made.fields())
        feature.setGeometry(QgsGeometry(QgsPoint(*row)))
        feature.setAttributes([f"p{number}"])
        features.append(feature)
    assert made.dataProvider().addFeatures(features)[0]
    return made


def test_station_and_offset_of_points(station, tmp_path):
    surface = plane(tmp_path, slope=(0.0, 0.0), z=10.0)
    table = tmp_path / "t.csv"
    log = Log()
    made = station(
        log,
        POINTS=points((2025, 996, 11.5), (2060, 1004, 11), (2120, 1001, 9), (2050, 1500, 9)),
        LINES=layer([CURB], attributes=[["curb"]]),
        SURFACE=surface,
        START_STATION="1+00",
        MAX_DISTANCE="100 ft",
        CSV=str(table),
    )
    one, two, three, four = rows(made["OUTPUT"])
    # LandXML 1.2, offsetDistance: positive to the right.
    assert (one["station"], one["side"], one["signed_offset"]) == ("1+25.00", "right", 4.0)
    assert (one["compass_side"], one["line"], one["point"]) == ("south", "curb", "p0")
    assert (one["line_z"], one["above_line"]) == pytest.approx((10.5, 1.0))
    assert (one["surface_z"], one["above_surface"]) == pytest.approx((10.0, 1.5))
    assert (two["station"], two["side"], two["signed_offset"]) == ("1+60.00", "left", -4.0)
    assert (three["flag"], three["side"], three["signed_offset"]) == ("beyond", NULL, NULL)
    assert (four["flag"], four["line"]) == ("no_line", NULL)
    assert (made["POINT_COUNT"], made["FLAGGED_COUNT"]) == (4, 2)
    assert any("2 rows are flagged" in text for text in log.warnings)
    with table.open(encoding="utf-8", newline="") as file:
        assert [row["signed_offset_usft"] for row in csv.DictReader(file)] == ["4", "-4", "", ""]


def test_a_point_past_an_end_is_told_not_to_be_square(station):
    made = station(POINTS=points((2101, 995, 0), (2100, 995, 0), (1998, 1005, 0)), LINES=layer([CURB]))  # noqa: E501  # fmt: skip
    one, two, three = rows(made["OUTPUT"])
    assert (one["flag"], two["flag"], three["flag"]) == ("past_end", NULL, "past_end")
    assert "1.000 usft (12.0 in) past an end" in one["why"] and "2.000 usft" in three["why"]
    assert (one["side"], three["side"]) == ("right", "left")
    assert one["signed_offset"] == pytest.approx(np.hypot(1, 5))


def test_what_was_staked_has_the_station_and_offset_it_was_staked_with(stake, station):
    lines = layer([CURB, [(2000, 1100, 9), (2030, 1150, 8), (2090, 1160, 8)]])
    made = stake(LINES=lines, INTERVAL="9", OFFSETS_RIGHT="2", OFFSETS_LEFT="1.5", AT=[])
    seen = station(POINTS=made["OUTPUT"], LINES=lines, START_STATION="0")
    staked = {r["number"]: r for r in rows(made["OUTPUT"])}
    for row in rows(seen["OUTPUT"]):
        own = staked[row["point_id"]]
        if row["flag"] == "beyond" or own["reason"] != "interval":
            continue  # an end has no side, and about a corner the nearest place is the corner
        assert row["signed_offset"] == pytest.approx(own["signed_offset"], abs=1e-6)
        assert row["station_value"] == pytest.approx(own["station_value"], abs=1e-5)


def test_all_lines_within_a_distance(station):
    lines = layer([CURB, [(2000, 1010, 1), (2100, 1010, 1)]], attributes=[["a"], ["b"]])
    made = station(POINTS=points((2050, 1004, 0)), LINES=lines, ALL_LINES=True, MAX_DISTANCE="50")
    assert [(r["line"], r["signed_offset"]) for r in rows(made["OUTPUT"])] == [("a", -4), ("b", 6)]
    with pytest.raises(QgsProcessingException, match="greater than 0"):
        station(POINTS=points((0, 0, 0)), LINES=lines, MAX_DISTANCE="0")
