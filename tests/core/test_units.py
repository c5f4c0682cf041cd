"""Lengths against published values, and by property."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.errors import LengthTextError
from plugin.core.units import (
    FOOT,
    INCH,
    METRE,
    MILLIMETRE,
    US_SURVEY_FOOT,
    YARD,
    describe_length,
    parse_length,
    parse_lengths,
    unit_by_word,
    unit_of_metres,
)

# --- the two feet -----------------------------------------------------------------------------


def test_feet_are_the_published_ones():
    """EPSG 9002 and 9003; Federal Register 2020-21902 (international foot 0.3048 m exactly)."""
    assert FOOT.exact == Fraction(3048, 10000)
    assert US_SURVEY_FOOT.exact == Fraction(1200, 3937)
    assert US_SURVEY_FOOT.metres == pytest.approx(0.304800609601219, abs=5e-16)
    assert not FOOT.same_as(US_SURVEY_FOOT)


def test_feet_against_the_worked_conversion():
    """NGS FAQ: 304,800 m is 1,000,000.000 ft and 999,998.000 ftUS."""
    assert parse_length("304800 m", FOOT) == 1_000_000.0
    assert parse_length("304800 m", US_SURVEY_FOOT) == pytest.approx(999_998.0, abs=5e-4)


@pytest.mark.parametrize(("feet", "moved"), [(2_000_000, 4.0), (6_000_000, 12.0)])
def test_wrong_foot_moves_a_coordinate(feet, moved):
    """NGS FAQ: the wrong foot moves a point by 4.000 / 12.000 ft."""
    assert parse_length(f"{feet} usft", FOOT) - feet == pytest.approx(moved, abs=5e-4)


def test_plain_foot_is_the_foot_of_the_job():
    assert parse_length("0.2 ft", US_SURVEY_FOOT) == 0.2
    assert parse_length("2.4 in", US_SURVEY_FOOT) == 0.2
    assert parse_length("0.2 ft", METRE) == pytest.approx(0.06096, abs=1e-15)
    assert parse_length("0.2'", FOOT) == 0.2


def test_stated_feet_are_kept_apart_in_every_job():
    assert parse_length("1000000 ift", US_SURVEY_FOOT) == pytest.approx(999_998.0, abs=5e-4)
    assert parse_length("1000000 usft", FOOT) == pytest.approx(1_000_002.0, abs=5e-4)
    assert parse_length("3937 usft", METRE) == 1200.0
    assert parse_length("1 ft", METRE) == 0.3048


# --- inches and tenths ------------------------------------------------------------------------

DECIMAL_FEET = [
    (1, 0.0833),
    (2, 0.1667),
    (3, 0.2500),
    (4, 0.3333),
    (5, 0.4167),
    (6, 0.5000),
    (7, 0.5833),
    (8, 0.6667),
    (9, 0.7500),
    (10, 0.8333),
    (11, 0.9167),
]
"""Surveyors' field tables: inches to decimal feet."""


@pytest.mark.parametrize(("inches", "feet"), DECIMAL_FEET)
@pytest.mark.parametrize("job", [FOOT, US_SURVEY_FOOT])
def test_inches_to_decimal_feet(inches, feet, job):
    assert parse_length(f"{inches} in", job) == pytest.approx(feet, abs=5e-5)


@pytest.mark.parametrize(
    ("text", "feet"),
    [
        # Godley TX ch. 94 and Coshocton OH: sections of 2 + 8, 4 + 8 and 1 1/2 + 1 1/2 + 8 in.
        ("10 in", 0.8333),
        ("12 in", 1.0),
        ("11 in", 0.9167),
        # Lawrenceburg IN 155.080: subgrade within 1/2 in.
        ("1/2 in", 0.0417),
        # common practice, no source: topsoil of 2 1/2 in or less is left as 0.2 ft = 2.4 in.
        ("2.4 in", 0.2),
    ],
)
def test_published_thicknesses(text, feet):
    assert parse_length(text, FOOT) == pytest.approx(feet, abs=5e-5)


# --- texts ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "feet"),
    [
        ("0.2", 0.2),
        (".2", 0.2),
        ("  0.2 FT. ", 0.2),
        ("-0.2", -0.2),
        ("\u22120.2 ft", -0.2),
        ("+0.2 ft", 0.2),
        ("2 1/2 in", 2.5 / 12),
        ("2-1/2 in", 2.5 / 12),
        ("2\u00bd\u2033", 2.5 / 12),
        ("2\u00a01\u20442 in", 2.5 / 12),
        ("-\u00bd in", -0.5 / 12),
        ("2'-6\"", 2.5),
        ("2' 6\"", 2.5),
        ("2'6\"", 2.5),
        ("2\u2032-6\u2033", 2.5),
        ("2\u2019 6\u201d", 2.5),
        ("2 ft 6 in", 2.5),
        ("2 feet 6 1/2 inches", 2.5 + 0.5 / 12),
        ("-2'-6\"", -2.5),
        ("6''", 0.5),
        ("30.48 cm", 1.0),
        ("1 yd", 3.0),
        ("1e-05", 1e-05),
        (0.2, 0.2),
        (-3, -3.0),
    ],
)
def test_lengths_in_feet(text, feet):
    assert parse_length(text, FOOT) == feet


@pytest.mark.parametrize(
    ("text", "metres"),
    [("60 mm", 0.06), ("0.06 m", 0.06), ("6 cm", 0.06), ("60", 60.0), ("1 in", 0.0254)],
)
def test_lengths_in_metres(text, metres):
    assert parse_length(text, METRE) == metres


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("", "missing"),
        ("   ", "missing"),
        ("0,2", "comma"),
        ("1,000 ft", "comma"),
        ("2 1/2", "fraction needs its unit"),
        ("\u00bd", "fraction needs its unit"),
        ("2-6", "which number is feet"),
        ("5 6", "which number is feet"),
        ("junk", "no number"),
        ("nan", "no number"),
        ("inf", "no number"),
        ("ft", "no number"),
        ("3 furlongs", "furlongs"),
        ("1/0 in", "fraction"),
        ("2 5/4 in", "fraction"),
        ("2'-14\"", "less than 12"),
        ("2.5' 6\"", "whole"),
        ("2 m 6 in", "feet and inches"),
        ("1 m 20 cm", "feet and inches"),
        ("5 ft 6", "one number and its unit"),
        ("2'--6\"", "one number and its unit"),
        ("--2", "one number and its unit"),
        ("1e400 ft", "one number and its unit"),
        ("0.2 ft" * 20, "too long"),
        (math.nan, "finite"),
        (True, "number and its unit"),
        (None, "number and its unit"),
    ],
)
def test_refused_with_advice(text, advice):
    with pytest.raises(LengthTextError) as caught:
        parse_length(text, FOOT)
    message = str(caught.value)
    assert advice in message
    assert "\n" not in message


def test_refusal_repeats_the_text():
    with pytest.raises(LengthTextError, match="0,2"):
        parse_length("0,2", FOOT)


@given(st.text(max_size=12))
def test_any_text_is_a_finite_length_or_refused(text):
    try:
        value = parse_length(text, US_SURVEY_FOOT)
    except LengthTextError:
        return
    assert math.isfinite(value)


@given(
    st.integers(-(10**9), 10**9),
    st.integers(0, 6),
    st.sampled_from([("mm", MILLIMETRE), ("m", METRE), ("usft", US_SURVEY_FOOT), ("ift", FOOT)]),
    st.sampled_from([FOOT, US_SURVEY_FOOT, METRE]),
)
def test_read_value_is_the_nearest_double(digits, decimals, written, job):
    word, unit = written
    number = Fraction(digits, 10**decimals)
    text = f"{'-' if digits < 0 else ''}{abs(digits) // 10**decimals}"
    if decimals:
        text += f".{abs(digits) % 10**decimals:0{decimals}d}"
    assert parse_length(f"{text} {word}", job) == float(number * unit.exact / job.exact)


@given(st.integers(0, 500), st.integers(0, 11), st.integers(0, 15), st.booleans())
def test_feet_and_inches_round_trip(feet, inches, sixteenths, negative):
    text = f"{'-' if negative else ''}{feet}'-{inches} {sixteenths}/16\""
    exact = feet + Fraction(inches * 16 + sixteenths, 192)
    assert parse_length(text, FOOT) == float(-exact if negative else exact)


# --- lists ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1", [1.0]),
        ("1, 2, 3", [1.0, 2.0, 3.0]),
        ("1;2.5; -3", [1.0, 2.5, -3.0]),
        ("1..5 step 1", [1.0, 2.0, 3.0, 4.0, 5.0]),
        ("5..1 step 2", [5.0, 3.0, 1.0]),
        ("0.1..0.5 step 0.1", [0.1, 0.2, 0.3, 0.4, 0.5]),
        ("1..4 step 2", [1.0, 3.0]),
        ("-1..1 step 1", [-1.0, 0.0, 1.0]),
        ("6 in, 1..2 ft step 6 in", None),
        ("6 in, 1 ft..2 ft step 6 in", [0.5, 1.0, 1.5, 2.0]),
        (2, [2.0]),
    ],
)
def test_lists(text, expected):
    if expected is None:
        with pytest.raises(LengthTextError, match="only some"):
            parse_lengths(text, FOOT)
    else:
        assert parse_lengths(text, FOOT) == expected


@pytest.mark.parametrize(
    ("text", "advice"),
    [
        ("1,2", "comma between two digits"),
        ("1, 2,5", "comma between two digits"),
        ("1, , 2", "missing"),
        ("1 m, 2", "only some"),
        ("1..5", "step"),
        ("1..5 step 0", "greater than zero"),
        ("1..5 step -1", "greater than zero"),
        ("0..1e6 step 0.1", "1000"),
    ],
)
def test_lists_refused(text, advice):
    with pytest.raises(LengthTextError, match=advice):
        parse_lengths(text, FOOT)


def test_units_of_the_job_may_stand_on_some_lengths_only():
    assert parse_lengths("1 ft, 2", US_SURVEY_FOOT) == [1.0, 2.0]


# --- telling a length -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.2, FOOT, "0.200 ft (2.4 in)"),
        (0.2, US_SURVEY_FOOT, "0.200 usft (2.4 in)"),
        (0.06, METRE, "0.060 m (60 mm)"),
        (60, MILLIMETRE, "0.060 m (60 mm)"),
        (2.4, INCH, "0.200 ft (2.4 in)"),
        (1, YARD, "3.000 ft (36.0 in)"),
        (-0.0625, FOOT, "-0.062 ft (-0.75 in)"),
        (0.0125, METRE, "0.013 m (12.5 mm)"),
        (-1e-9, FOOT, "0.000 ft (0.0 in)"),
    ],
)
def test_described(value, unit, text):
    assert describe_length(value, unit) == text


@given(
    st.floats(-1e6, 1e6),
    st.sampled_from([FOOT, US_SURVEY_FOOT, METRE]),
)
def test_description_reads_back_in_both_styles(value, unit):
    first, _, second = describe_length(value, unit).rstrip(")").partition(" (")
    assert parse_length(first, unit) == pytest.approx(value, abs=5.1e-4)
    assert parse_length(second, unit) == pytest.approx(value, abs=5.1e-4)


# --- units ------------------------------------------------------------------------------------


def test_units_found_by_word_and_factor():
    assert unit_by_word("Feet") is FOOT
    assert unit_by_word("ft", US_SURVEY_FOOT) is US_SURVEY_FOOT
    assert unit_by_word("ift", US_SURVEY_FOOT) is FOOT
    assert unit_of_metres(0.30480060960121924) is US_SURVEY_FOOT
    assert unit_of_metres(0.3048) is FOOT
    # EPSG 9005, Clarke's foot: a third foot stays itself.
    clarke = unit_of_metres(0.3047972654, "Clarke's foot")
    assert clarke.name == "Clarke's foot"
    assert not clarke.is_feet


@pytest.mark.parametrize("metres", [0.0, -1.0, math.nan, math.inf])
def test_no_unit_of_that_size(metres):
    with pytest.raises(LengthTextError):
        unit_of_metres(metres)


def test_unknown_word_lists_the_known_ones():
    with pytest.raises(LengthTextError, match="US survey foot"):
        unit_by_word("furlong")
