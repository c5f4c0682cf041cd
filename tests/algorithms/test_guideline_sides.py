"""Sides of guidelines: the story of the trade, sides by expression, lines split at a change."""

import numpy as np
import pytest
from qgis.core import NULL, QgsCoordinateReferenceSystem, QgsProcessingException

from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from tests.algorithms.test_guidelines import CURB, FEET, Log, layer, rows, run, shapes, vertices

__all__ = ["run"]  # the fixture


@pytest.fixture
def crease(tmp_path):
    """A surface with a crease under the curb: 2 % on its north-west, 7 % on its south-east."""
    corners = np.array([(0, 1000), (2000, 3000), (0, 3000), (2000, 1000)], float)
    away = (corners[:, 0] - corners[:, 1] + 1000.0) / np.sqrt(2.0)  # south-east +
    z = 50 + np.where(away > 0, 0.07 * away, -0.02 * away)
    tin = Tin.from_arrays(np.column_stack((corners, z)), np.array([(0, 3, 1), (0, 1, 2)]))
    path = tmp_path / "crease.ply"
    write_ply(str(path), tin, QgsCoordinateReferenceSystem(FEET))
    return str(path)


def test_plus_one_by_sign_changes_sides_and_by_every_rule_it_does_not(run, crease):
    """The story of the trade: "+1 ft" on the same curb, drawn once each way.

    Common practice, no source: offsets are typed with a sign that is + to the right of the line.
    """
    drawn = layer([CURB, CURB[::-1]], attributes=[["a"], ["b"]])
    one, other = rows(run(drawn, SIDE="right", OFFSETS="1 ft")["GUIDELINES"])
    assert (one["signed_offset"], other["signed_offset"]) == (1.0, 1.0)
    assert (one["compass_side"], other["compass_side"]) == ("south-east", "north-west")
    point = shapes("Point", ["Point (1150 2000)"])
    area = shapes("Polygon", ["Polygon ((1000 2000, 1200 2000, 1200 2200, 1000 2000))"])
    outside = shapes("Polygon", ["Polygon ((1000 2000, 1200 2200, 1000 2200, 1000 2000))"])
    for rule, given in {
        "toward": {"REFERENCE": point},
        "away": {"REFERENCE": shapes("Point", ["Point (1000 2200)"])},
        "inside": {"REFERENCE": area},
        "outside": {"REFERENCE": outside},
        "steeper": {"SURFACE": crease},
        "compass": {"COMPASS": "south"},
    }.items():
        one, other = rows(run(drawn, SIDE=rule, OFFSETS="1 ft", **given)["GUIDELINES"])
        assert (one["signed_offset"], other["signed_offset"]) == (1.0, -1.0), rule
        assert one["compass_side"] == other["compass_side"] == "south-east", rule
        # The same guideline, told to the driver the same way round.
        assert one["sentence"].split(" of ")[0] != other["sentence"].split(" of ")[0]
    one, other = rows(run(drawn, SIDE="flatter", SURFACE=crease)["GUIDELINES"])
    assert one["compass_side"] == other["compass_side"] == "north-west"


def test_evidence_names_the_weakest_place(run):
    near = shapes("LineString", ["LineString (1010 2000, 1230 2180)"])
    (row,) = rows(
        run(layer([CURB]), SIDE="toward", REFERENCE=near, START_STATION="1+00")["GUIDELINES"]
    )
    assert row["evidence"] == pytest.approx(100.0)
    assert 100.0 <= row["weakest_station"] <= 100.0 + 200 * np.sqrt(2)
    share = (row["weakest_station"] - 100.0) / (200 * np.sqrt(2))
    assert row["weakest_x"] == pytest.approx(1000 + 200 * share)
    (row,) = rows(run(layer([CURB]), SIDE="right")["GUIDELINES"])
    assert (row["weakest_station"], row["weakest_x"]) == (NULL, NULL)


def test_sides_by_expression_go_before_the_field(run):
    drawn = layer([CURB] * 3, fields="name:string", attributes=[["left"], ["x"], ["y"]])
    text = "if(\"name\" = 'x', 'left', if(\"name\" = 'y', 'right', NULL))"
    made = rows(run(drawn, SIDE="right", SIDE_EXPRESSION=text)["GUIDELINES"])
    assert [row["side_line"] for row in made] == ["right", "left", "right"]
    assert [row["rule"] for row in made] == ["right", "left", "right"]


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("if(", "Expression for sides: "),
        ("'up'", "Expression for sides, feature 1: “up” is not one of: right, left"),
        ("to_int('x')", "Expression for sides, feature 1: "),
    ],
)
def test_a_bad_expression_is_told_with_the_feature(run, text, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(layer([CURB]), SIDE_EXPRESSION=text)


def test_a_line_whose_reference_crosses_is_split_there_and_each_part_proved(run):
    crossing = shapes("LineString", ["LineString (1000 2110, 1100 2100, 1200 2090)"])
    # The curb runs north-east through (1100, 2100), where the reference crosses it.
    flagged = run(layer([CURB]), SIDE="toward", REFERENCE=crossing)
    assert (flagged["GUIDELINE_COUNT"], flagged["FLAGGED_COUNT"]) == (0, 1)
    log = Log()
    made = run(
        layer([CURB], attributes=[["curb"]]),
        feedback=log,
        SIDE="toward",
        REFERENCE=crossing,
        ON_SWAP="split",
        START_STATION="5+00",
        OFFSETS="1, 2",
    )
    found = rows(made["GUIDELINES"])
    half = 100 * np.sqrt(2)
    assert [(r["side_line"], r["signed_offset"]) for r in found] == [
        ("left", -1.0), ("right", 1.0), ("left", -2.0), ("right", 2.0)
    ]  # fmt: skip
    assert [(r["station_from"], r["station_to"]) for r in found[:2]] == [
        pytest.approx((500, 500 + half)), pytest.approx((500 + half, 500 + 2 * half))
    ]  # fmt: skip
    assert all(r["flag"] == "split" for r in found)
    assert "from station 5+00.00 to 6+41.42" in found[0]["why"]
    assert made["FLAGGED_COUNT"] == 0
    for xyz, row in zip(vertices(made["GUIDELINES"]), found, strict=True):
        side = (xyz[:, 0] - xyz[:, 1] + 1000) / np.sqrt(2)  # right of the curb +
        assert side == pytest.approx(row["signed_offset"])


def test_without_a_change_splitting_changes_nothing(run):
    near = shapes("LineString", ["LineString (1010 2000, 1230 2180)"])
    for choice in ("flag", "split"):
        made = run(layer([CURB]), SIDE="toward", REFERENCE=near, ON_SWAP=choice)
        (row,) = rows(made["GUIDELINES"])
        assert (row["flag"], row["side_line"]) == (NULL, "right")


def test_the_nearer_of_two_ways_is_found_where_a_bearing_is_too_strict(run):
    drawn = layer([CURB], attributes=[["curb"]])
    (row,) = rows(run(drawn, TRAVEL="bearing", BEARING=125)["GUIDELINES"])
    assert row["flag"] == "travel_unclear"  # 80 degrees off the line's 45
    (row,) = rows(run(drawn, TRAVEL="nearest", BEARING=125)["GUIDELINES"])
    assert (row["flag"], row["travel"], row["side_driver"]) == (NULL, "north-east", "right")
    (row,) = rows(run(drawn, TRAVEL="nearest", BEARING=145)["GUIDELINES"])
    assert (row["travel"], row["side_driver"]) == ("south-west", "left")
    (row,) = rows(run(drawn, TRAVEL="nearest", BEARING=135)["GUIDELINES"])
    assert row["flag"] == "travel_unclear"


@pytest.mark.parametrize("side", ["inside", "outside"])
def test_inside_of_points_is_refused(run, side):
    points = shapes("Point", ["Point (1050 2060)"])
    with pytest.raises(QgsProcessingException, match=r"Reference: the side .* needs polygons"):
        run(layer([CURB]), SIDE=side, REFERENCE=points)
