"""What is said about sides."""

import pytest

from plugin.core.lines.words import bearing_text, faces, plain_length, sentence, short_label, ways
from plugin.core.units import FOOT, METRE, US_SURVEY_FOOT

from .lines_shapes import SQUARE, lines_of

SNAKE = [(0, 0), (9, 0), (9, 1), (0, 1), (0, 2), (9, 2)]  # turns left and right by turns


def test_the_sentence_for_the_foreman():
    lines = lines_of([(0, 0), (50, 50)])
    way = ways(lines)
    assert sentence("back of curb", 1, 1.0, FOOT, way.along[0], way.against[0]) == (
        "1.00 ft to the RIGHT of 'back of curb', seen driving north-east; LEFT driving south-west"
    )
    assert sentence("walk", -1, -0.3, METRE, way.against[0], way.along[0]) == (
        "0.30 m to the LEFT of 'walk', seen driving south-west; RIGHT driving north-east"
    )


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (1, FOOT, "1.00 ft"),
        (0.75, US_SURVEY_FOOT, "0.75 ft"),
        (0.125, FOOT, "0.125 ft"),
        (-0.5, METRE, "0.50 m"),
        (1 / 3, FOOT, "0.333 ft"),
    ],
)
def test_lengths_to_be_read_out(value, unit, text):
    assert plain_length(value, unit) == text
    assert short_label(-1, value, unit) == f"L {text}"


def test_ways_of_rings_and_of_winding_lines():
    way = ways(lines_of(SQUARE, SQUARE[::-1], SQUARE[:4], SNAKE))
    last = "from its first to its last vertex"
    assert way.along == ["anticlockwise", "clockwise", "anticlockwise", last]
    last = "from its last to its first vertex"
    assert way.against == ["clockwise", "anticlockwise", "clockwise", last]


def test_where_a_side_lies():
    assert faces(3, 0, 1) == "south-east"
    assert faces(-1, 1, 1) == "inside"  # right of a clockwise ring
    assert faces(-1, -1, 1) == "outside"
    assert faces(-1, -1, -1) == "inside"
    assert faces(-1, 0, 1) == "varies"


def test_bearings_in_text():
    assert bearing_text(45.04) == "045.0°"
    assert bearing_text(359.99) == "000.0°"
    assert bearing_text(float("nan")) == ""
