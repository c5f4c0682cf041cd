"""Sums of courses in both systems of units."""

from types import SimpleNamespace

import numpy as np
import pytest

from plugin.core.depth.courses.quantities import CourseQuantities
from plugin.core.depth.courses.schedule import Course
from plugin.core.units import FOOT, METRE, US_SURVEY_FOOT
from plugin.documents.course_totals import FEET, METRIC, NOTHING, Totals, heads, number, systems


def stack(*courses):
    """Courses of 100 in plan, 101 on the slope and 54 in volume."""
    count = len(courses)
    figures = (np.full(count, value) for value in (100.0, 101.0, 54.0))
    zone = np.zeros(count, dtype=np.int64)
    quantities = CourseQuantities(zone, list(courses), *figures, np.zeros(count), 0.0, 0.0)
    return SimpleNamespace(quantities=quantities)


def course(**more):
    return Course(1, "base", 0.5, **more)


def test_feet_yards_and_short_tons():
    """27 cubic feet are a cubic yard; a short ton is 2,000 lb of 0.45359237 kg."""
    made = stack(course(swell=1.25, density=0.45359237 / 0.3048**3))  # 1,000 lb/ft3
    cells = Totals.of(made, [0], FOOT).cells(FEET, FOOT)
    assert cells == ["100.0", "101.0", "54.0", "2.00", "2.50", "27.00"]
    assert len(cells) == len(heads(FEET))


def test_metres_and_tonnes():
    made = stack(course(swell=1.25, density=2.0))
    cells = Totals.of(made, [0], METRE).cells(METRIC, METRE)
    assert cells == ["100.0", "101.0", "54.00", "67.50", "108.00"]
    assert len(cells) == len(heads(METRIC))
    cells = Totals.of(made, [0], METRE).cells(FEET, METRE)
    assert cells[2] == number(54 / 0.3048**3, 1)


def test_the_foot_of_the_job_is_the_one_printed():
    """US survey feet stay what they are: 1200/3937 m."""
    made = stack(course())
    assert Totals.of(made, [0], US_SURVEY_FOOT).cells(FEET, US_SURVEY_FOOT)[0] == "100.0"
    in_metres = Totals.of(made, [0], US_SURVEY_FOOT).cells(METRIC, US_SURVEY_FOOT)
    assert in_metres[2] == number(54 * (1200 / 3937) ** 3, 2)


def test_a_sum_of_which_a_part_is_not_known_is_not_given():
    made = stack(course(swell=1.25), course())
    assert Totals.of(made, [0, 1], FOOT).cells(FEET, FOOT)[4:] == [NOTHING, NOTHING]
    assert Totals.of(made, [0, 1], FOOT).volume == pytest.approx(108)
    assert Totals.of(made, [], FOOT).cells(FEET, FOOT)[4] == NOTHING


def test_the_system_of_the_job_comes_first():
    assert systems(US_SURVEY_FOOT) == (FEET, METRIC) and systems(METRE) == (METRIC, FEET)


def test_numbers():
    assert number(1234567.891, 1) == "1\u202f234\u202f567.9"
    assert number(-0.0001, 2) == "0.00" and number(np.nan, 1) == NOTHING
