"""Grades, ratios and stations against published values, and by property."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import LengthTextError
from plugin.core.units import (
    FOOT,
    METRE,
    US_SURVEY_FOOT,
    format_station,
    parse_batter,
    parse_grade,
    parse_ratio,
    parse_station,
)

# --- grades and ratios ------------------------------------------------------------------------

SLOPES = [
    ("1/2:1", 200.0, 63.435, 2.23607),
    ("3/4:1", 133.333, 53.130, 1.66667),
    ("1:1", 100.0, 45.0, 1.41421),
    ("1.5:1", 66.667, 33.690, 1.20185),
    ("2:1", 50.0, 26.565, 1.11803),
    ("3:1", 33.333, 18.435, 1.05409),
    ("4:1", 25.0, 14.036, 1.03078),
    ("6:1", 16.667, 9.462, 1.01379),
    ("12:1", 8.333, 4.764, 1.00347),
    ("20:1", 5.0, 2.862, 1.00125),
    ("48:1", 2.083, 1.193, 1.00022),
]
"""Ratio H:V, percent, degrees, secant: identities, computed."""


@pytest.mark.parametrize(("ratio", "percent", "degrees", "secant"), SLOPES)
def test_slope_table(ratio, percent, degrees, secant):
    grade = parse_grade(ratio)
    assert grade == pytest.approx(percent, abs=5e-4)
    half_digit = 100 * math.radians(0.0005) * secant**2
    assert parse_grade(f"{degrees} deg") == pytest.approx(grade, abs=1.01 * half_digit)
    assert math.hypot(1, grade / 100) == pytest.approx(secant, abs=5e-6)
    assert 100 / parse_ratio(ratio) == pytest.approx(percent, abs=5e-4)
    assert parse_grade(f"-{ratio}") == -grade


@pytest.mark.parametrize(
    ("text", "percent"),
    [
        ("1:48", 2.0833),  # ADA 2010, 403.3 and 502.4: cross slope 1:48 = 2.083 %
        ("1:20", 5.0),  # ADA 2010, 403.3: running slope
        ("1:12", 8.3333),  # ADA 2010, 405.2: ramps
        ("1:10", 10.0),  # ADA 2010, 406.3: flares
        ("1 in 20", 5.0),
        ("13.3 %", 13.3),  # PROWAG R304.5.2: change of grade at the gutter
        ("-1.5%", -1.5),
        ("3", 3.0),
        (2.5, 2.5),
        ("1 in 2", 50.0),
    ],
)
def test_grades(text, percent):
    assert parse_grade(text) == pytest.approx(percent, abs=5e-5)


def test_cross_slope_limit_is_not_two_percent():
    """ADA 2010, 403.3: 1:48 is neither 2 % nor 2.1 %."""
    assert 2.0 < parse_grade("1:48") < 2.1


@pytest.mark.parametrize(
    ("text", "run"),
    [
        ("3/4:1", 0.75),  # OSHA 29 CFR 1926 Subpart P, App. B, Table B-1: Type A
        ("1:1", 1.0),  # the same: Type B
        ("1 1/2:1", 1.5),  # the same: Type C
        ("0", 0.0),
        ("2", 2.0),
        (3, 3.0),
        ("1 in 3", 3.0),
        ("50 %", 2.0),
    ],
)
def test_batters(text, run):
    assert parse_ratio(text) == pytest.approx(run, abs=1e-12)


@pytest.mark.parametrize("text", ["1:2", "2:3", "1/20", "1:4.9"])
def test_ratios_with_two_readings_are_refused(text):
    for read in (parse_grade, parse_ratio):
        with pytest.raises(LengthTextError, match="run to rise or rise to run"):
            read(text)


@pytest.mark.parametrize("text", ["", "steep", "3:0", "0:1", "3::1", "95 deg", "3,5 %", math.inf])
def test_grades_refused(text):
    for read in (parse_grade, parse_ratio):
        with pytest.raises(LengthTextError):
            read(text)


@pytest.mark.parametrize("text", ["-2:1", "-1", -0.5, "0 %", "1:48", "nan"])
def test_batters_refused(text):
    with pytest.raises(LengthTextError):
        parse_ratio(text)


# --- stations ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (1250, FOOT, "12+50.00"),
        (1250, US_SURVEY_FOOT, "12+50.00"),
        (1250, METRE, "1+250.000"),
        (0, FOOT, "0+00.00"),
        (-50, FOOT, "-0+50.00"),
        (1299.999, FOOT, "13+00.00"),
        (999.9999, METRE, "1+000.000"),
        (-1e-9, METRE, "0+000.000"),
    ],
)
def test_stations_printed(value, unit, text):
    assert format_station(value, unit) == text


@pytest.mark.parametrize("text", ["12+5", "1+250.000", "12+50+1", "x", "", "12+", "+50.00+"])
def test_stations_refused_in_feet(text):
    with pytest.raises(LengthTextError):
        parse_station(text, FOOT)


@given(st.floats(-1e7, 1e7), st.sampled_from([FOOT, US_SURVEY_FOOT, METRE]))
def test_stations_round_trip(value, unit):
    read = parse_station(format_station(value, unit), unit)
    assert read == pytest.approx(value, abs=0.0051 if unit.is_feet else 0.00051)
    assert parse_station(value, unit) == value


@pytest.mark.parametrize(
    ("text", "run"),
    [
        ("1.5:1", 1.5),
        ("1 1/2:1", 1.5),
        ("1½:1", 1.5),
        ("3/4:1", 0.75),
        ("1.5", 1.5),
        (2, 2.0),
        (0, 0.0),
        ("0", 0.0),
        ("0:1", 0.0),
        ("50 %", 2.0),
        ("1 in 3", 3.0),
        (" 2 : 1 ", 2.0),
    ],
)
def test_batters_of_sides_read(text, run):
    assert parse_batter(text) == pytest.approx(run, abs=1e-15)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("-2:1", "is negative"),
        (-1, "is negative"),
        ("1:2", "run to rise or rise to run"),
        ("3/4", "run to rise or rise to run"),
        ("2 %", "a side of 50:1"),
        ("200", "a side of 200:1"),
        ("steep", "cannot be read as a batter"),
        ("", "cannot be read as a batter"),
        (float("nan"), "cannot be read as a batter"),
    ],
)
def test_batters_refused_in_words(text, said):
    with pytest.raises(LengthTextError, match=said):
        parse_batter(text)
