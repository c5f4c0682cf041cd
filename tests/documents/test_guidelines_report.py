"""The report of guidelines and its sketches."""

import re
import xml.etree.ElementTree as ET

import numpy as np
import pytest
import shapely

from plugin.core.units import FOOT
from plugin.documents.guidelines_report import (
    MOST_SKETCHES,
    Drawing,
    Entry,
    Problem,
    guidelines_report,
)
from plugin.documents.side_sketch import HEIGHT, WIDTH, Sketch, draw

SVG = "{http://www.w3.org/2000/svg}"
LINE = np.array([(1000.0, 500.0), (1200.0, 500.0), (1300.0, 560.0)])


def entry(**changes):
    values = {
        "sentence": "1.00 ft to the RIGHT of 'curb', seen driving east; LEFT driving west",
        "side": "right",
        "offset": "1.000 ft (12.0 in)",
        "compass": "south",
        "there": "right",
        "back": "left",
        "differs": False,
        "evidence": "100 %",
        "reach": "0+00.00 – 3+00.00, 300.00 ft",
    }
    return Entry(**(values | changes))


def points(element):
    return np.array([[float(v) for v in p.split(",")] for p in element.get("points").split()])


def parts(sketch):
    root = ET.fromstring(draw(sketch, 7))
    bands = [e for e in root.iter(SVG + "polygon") if "url" in (e.get("fill") or "")]
    lines = {bool(e.get("stroke-dasharray")): points(e) for e in root.iter(SVG + "polyline")}
    return root, bands, lines


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("drawn", [1, -1])
def test_the_band_lies_on_the_side_of_the_guideline(side, drawn):
    """South is down on the page: right of an eastward line, left of a westward one."""
    _, bands, lines = parts(Sketch(LINE[::drawn], {side: "1 ft"}, FOOT))
    (band,) = bands
    below = shapely.Polygon(points(band)).centroid.y - lines[False][:, 1].mean()
    assert np.sign(below) == side * drawn
    start = points_of_start(Sketch(LINE[::drawn], {side: "1 ft"}, FOOT))
    assert (start[0] < WIDTH / 2) == (drawn == 1)


def points_of_start(sketch):
    root, _, _ = parts(sketch)
    circle = root.find(SVG + "circle")
    return float(circle.get("cx")), float(circle.get("cy"))


def test_a_side_that_is_not_settled_is_not_shaded():
    root, bands, _ = parts(Sketch(LINE, {}, FOOT, flagged=True))
    assert not bands
    assert [e.text for e in root.iter(SVG + "text")].count("?") == 2


@pytest.mark.parametrize(
    "line",
    [
        [(0, 0), (1e-3, 0)],
        [(5e5, 6e6), (5e5, 6.1e6)],
        [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)],
        [(0, 0), (50, 0), (50, 0.5), (0, 0.5)],
    ],
)
def test_any_line_is_drawn_inside_the_picture(line):
    root, _, _ = parts(Sketch(np.array(line, float), {1: "<1> ft"}, FOOT))
    for element in root.iter():
        if element.get("points"):
            xy = points(element)
            assert xy.min() >= 0 and (xy <= (WIDTH, HEIGHT)).all()


def test_the_report_opens_with_the_sentences():
    page = guidelines_report(
        [("CRS", "EPSG:2264")],
        ["1 guideline."],
        [entry(), entry(there="left", back="right", differs=True)],
        [Problem("<walk>", "stations 0+00.00", "It crosses & so on.")],
        ["Lines run both ways."],
        [Drawing(Sketch(LINE, {1: "1 ft"}, FOOT), "curb")] * (MOST_SKETCHES + 2),
    ).html()
    assert page.index("Read out") < page.index("Not settled") < page.index("<svg")
    assert "left, unlike the line" in page
    assert "&lt;walk&gt;" in page and "crosses &amp; so on" in page
    assert page.count("<svg") == MOST_SKETCHES
    assert "The first 30 of 32 lines" in page
    ids = re.findall(r'pattern id="(\w+)"', page)
    assert len(ids) == len(set(ids))


def test_a_run_without_guidelines_says_so():
    page = guidelines_report([], ["0 guidelines."], [], [], [], []).html()
    assert "No guideline was laid." in page
