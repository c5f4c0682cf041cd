"""Bearings, winds, headings and the way a machine drives."""

import numpy as np
import pytest

from plugin.core.lines.direction import (
    Travel,
    bearing_of,
    clockwise,
    headings,
    sense,
    sides_seen,
    travel_signs,
    turn,
    vector_of,
    wind_of,
)
from plugin.core.lines.words import WINDS

from .lines_shapes import SQUARE, lines_of, turned, wander


@pytest.mark.parametrize(
    ("vector", "bearing", "wind"),
    [
        ((0, 1), 0, "north"),
        ((1, 1), 45, "north-east"),
        ((1, 0), 90, "east"),
        ((1, -1), 135, "south-east"),
        ((0, -1), 180, "south"),
        ((-1, -1), 225, "south-west"),
        ((-1, 0), 270, "west"),
        ((-1, 1), 315, "north-west"),
    ],
)
def test_winds_are_clockwise_from_north(vector, bearing, wind):
    assert bearing_of(np.array(vector)) == pytest.approx(bearing)
    assert WINDS[int(wind_of(bearing))] == wind
    assert vector_of(bearing) == pytest.approx(np.array(vector) / np.hypot(*vector))


def test_a_bearing_just_west_of_north_is_north_and_under_360():
    assert wind_of(359.9) == 0
    assert 0 <= bearing_of(np.array([-1e-17, 1.0])) < 360


# Inverse: N 3913.66 E 2207.65 -> N 4692.08 E 5909.33 is 3782.64 ft at 78 07' 28" (college notes
# on surveying computations).
def test_published_inverse():
    start, end = np.array([2207.65, 3913.66]), np.array([5909.33, 4692.08])
    lines = lines_of([start, end])
    assert lines.lengths[0] == pytest.approx(3782.64, abs=0.005)
    assert headings(lines).bearing[0] == pytest.approx(78 + 7 / 60 + 28 / 3600, abs=0.5 / 3600)


def test_a_hook_at_the_end_does_not_turn_a_line():
    lines = lines_of([(0, 0), (100, 0), (100, 3)])
    assert WINDS[headings(lines).wind[0]] == "east"


@pytest.mark.parametrize(
    "line", [SQUARE, [(0, 0), (10, 0), (10, 10), (0, 10)], [(0, 0), (10, 0), (10, 1), (0, 1)]]
)
def test_no_wind_holds_for_a_line_that_turns_too_far(line):
    lines = lines_of(line)
    assert headings(lines).wind.tolist() == [-1]
    assert sides_seen(lines, np.array([1])).wind.tolist() == [-1]


@pytest.mark.parametrize("degrees", range(0, 360, 15))
def test_the_right_side_lies_a_quarter_turn_clockwise(degrees):
    lines = lines_of(np.add(turned(wander(4, bend=0.05), degrees), (2e6, 6e6, 0)))
    ahead, right = headings(lines), sides_seen(lines, np.array([1]))
    left = sides_seen(lines, np.array([-1]))
    assert turn(right.bearing, ahead.bearing + 90) == pytest.approx(0, abs=1e-6)
    assert turn(left.bearing, ahead.bearing - 90) == pytest.approx(0, abs=1e-6)
    assert sides_seen(lines.reversed(), np.array([-1])).bearing == pytest.approx(right.bearing)


def test_clockwise():
    lines = lines_of(SQUARE, SQUARE[::-1], SQUARE[:4])
    assert clockwise(lines).tolist() == [-1, 1, 0]


def test_sense_of_loops_open_and_closed():
    snake = [(0, 0), (9, 0), (9, 1), (0, 1), (0, 2), (9, 2)]
    lines = lines_of(SQUARE[:4], SQUARE[3::-1], SQUARE, snake, [(0, 0), (9, 0), (9, 9)])
    assert sense(lines).tolist() == [-1, 1, -1, 0, 0]


def test_travel():
    lines = lines_of([(0, 0), (0, 9)], [(0, 9), (0, 0)], [(0, 0), (9, 0)], SQUARE)
    assert travel_signs(lines, Travel.ALONG).tolist() == [1, 1, 1, 1]
    assert travel_signs(lines, Travel.AGAINST).tolist() == [-1, -1, -1, -1]
    assert travel_signs(lines, Travel.BEARING, 350).tolist() == [1, -1, 0, 0]
    assert travel_signs(lines, Travel.BEARING, 60).tolist() == [1, -1, 1, 0]
