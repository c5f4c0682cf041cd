"""The drawings of depth reports: plan and sections."""

from xml.etree import ElementTree as ET

import pytest
import shapely

from plugin.core.depth.manner import BatterRule
from plugin.core.units import METRE, US_SURVEY_FOOT
from plugin.documents import depth_sketch, zone_plan
from plugin.documents.depth_sketch import Dug

SVG = "{http://www.w3.org/2000/svg}"


def drawn(dug, unit=US_SURVEY_FOOT):
    root = ET.fromstring(depth_sketch.draw(dug, 3, unit, unit))
    return root, ["".join(text.itertext()) for text in root.iter(f"{SVG}text")]


def points(root, kind):
    return [
        [tuple(map(float, pair.split(","))) for pair in found.get("points").split()]
        for found in root.iter(f"{SVG}{kind}")
    ]


def test_a_section_says_depth_bottom_and_side():
    root, texts = drawn(Dug(0.9, 0.0, 0.75, 1.5, BatterRule.LEVEL))
    assert "0.900 usft (10.8 in) below the design, plumb" in texts
    assert "bottom carried on 0.750 usft (9.0 in) past the edge" in texts
    assert "side 1.5:1, run per rise from level" in texts
    (line,) = points(root, "polyline")
    (x0, y0), (x1, y1) = line[-2:]
    # Drawn at its ratio: run over rise from level is 1.5 (y points down).
    assert (x1 - x0) / (y0 - y1) == pytest.approx(1.5, abs=0.02)
    assert {"a", "b", "c"} <= set(texts)


@pytest.mark.parametrize(
    ("dug", "words"),
    [
        (Dug(0.5, 0, 0, 0, BatterRule.LEVEL), "side upright"),
        (Dug(0, 0.3, 0, 0, BatterRule.LEVEL), "0.300 m (300 mm) square to the slope of the design"),
        (Dug(0.2, 0.3, 0, 2, BatterRule.DESIGN), "and 0.300 m (300 mm) square to its slope"),
        (Dug(0.2, 0.3, 0, 2, BatterRule.DESIGN), "side 2:1, run per depth below the design"),
        (Dug(-0.2, 0, 0, 2, BatterRule.LEVEL), "0.200 m (200 mm) above the design, plumb"),
        (Dug(0, 0, 0, 0, BatterRule.LEVEL), "on the design itself"),
    ],
)
def test_every_way_of_digging_has_its_words(dug, words):
    root, texts = drawn(dug, METRE)
    assert words in texts
    width = float(root.get("width"))
    assert all(0 <= x <= width for line in points(root, "polyline") for x, _ in line)


def test_raised_sides_fall_and_cut_sides_climb():
    for depth, climbs in ((0.5, True), (-0.5, False)):
        root, _ = drawn(Dug(depth, 0, 0, 1.5, BatterRule.LEVEL))
        (line,) = points(root, "polyline")
        assert (line[-1][1] < line[-2][1]) is climbs


def plan(**more):
    square = shapely.box(0, 0, 40, 40)
    frame = (-10.0, -10.0, 50.0, 50.0)
    return zone_plan.draw([square], [1], ["pit"], [0.5], frame, METRE, **more)


def test_a_plan_explains_dashes_and_hatching_only_where_there_are_any():
    plain = plan()
    assert "bottom carried on" not in plain and 'fill="url(#batter)"' not in plain
    square = shapely.box(0, 0, 40, 40)
    rich = plan(bottoms=[square.buffer(3)], batters=[square.buffer(6).difference(square)])
    root = ET.fromstring(rich)
    texts = ["".join(text.itertext()) for text in root.iter(f"{SVG}text")]
    assert {"zone’s edge", "bottom carried on", "batter"} <= set(texts)
    paths = list(root.iter(f"{SVG}path"))
    assert any(path.get("fill") == "url(#batter)" for path in paths)
    assert sum(path.get("stroke-dasharray") == "5 3" for path in paths) == 2
