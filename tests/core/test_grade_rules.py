"""The rule file: what ships, and what is refused."""

import math
from pathlib import Path

import pytest

from plugin.core.errors import LengthTextError, UndercourseError
from plugin.core.measure.grade_rules import Measure, parse_limits, read_rules

SHIPPED = Path(__file__).parents[2] / "plugin" / "rules" / "grades.csv"
ADA, PROWAG = "ADA Standards 2010, ", "PROWAG (36 CFR 1190, 2023), "
HEAD = "name,measure,min,max,source,note\n"


def test_the_rules_that_ship_state_the_published_limits_with_their_sections():
    """Limits and sections: 2010 ADA Standards, and PROWAG (36 CFR 1190, 2023), as published."""
    expected = {
        "ada_walk_running": (Measure.ALONG, 1 / 20, ADA + "403.3"),
        "ada_walk_cross": (Measure.ACROSS, 1 / 48, ADA + "403.3"),
        "ada_ramp_running": (Measure.ALONG, 1 / 12, ADA + "405.2"),
        "ada_ramp_cross": (Measure.ACROSS, 1 / 48, ADA + "405.3"),
        "ada_counter_slope": (Measure.ALONG, 1 / 20, ADA + "406.2"),
        "ada_flare": (Measure.MAX_SLOPE, 1 / 10, ADA + "406.3"),
        "ada_parking": (Measure.MAX_SLOPE, 1 / 48, ADA + "502.4"),
        "prowag_route_grade": (Measure.ALONG, 1 / 20, PROWAG + "R302.4.1"),
        "prowag_route_cross": (Measure.ACROSS, 1 / 48, PROWAG + "R302"),
        "prowag_ramp_running": (Measure.ALONG, 1 / 12, PROWAG + "R304.2.1"),
        "prowag_gutter_break": (Measure.BREAK, 0.133, PROWAG + "R304.5.2"),
    }
    rules = read_rules(SHIPPED.read_text(encoding="utf-8"), SHIPPED.name)
    assert {
        n: (r.measure, pytest.approx(r.high, rel=1e-15), r.source) for n, r in rules.items()
    } == expected  # noqa: E501
    assert all(math.isnan(rule.low) and rule.note for rule in rules.values())


def test_a_file_of_ones_own_as_a_spreadsheet_writes_it():
    text = "\ufeffMax;Name;Measure;Min;Source\n1:48;walk;across;0,5 %;town code 12\n\n2 %;yard;max_slope;1:200;us\n"  # noqa: E501
    with pytest.raises(UndercourseError, match="line 2"):
        read_rules(text, "own.csv")
    rules = read_rules(text.replace("0,5 %", "0.5 %"), "own.csv")
    assert list(rules) == ["walk", "yard"]
    assert (rules["walk"].low, rules["walk"].written) == (0.005, "0.5 % - 1:48")
    assert rules["yard"].low == 0.005


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("name,measure,max,source\nx,along,1:20,s\n", "no column “min”"),
        (HEAD, "holds no rule"),
        (HEAD + "x,sideways,,1:20,s,\n", "line 2: “sideways” is no measure"),
        (HEAD + "x,along,,,s,\n", "line 2: there is neither"),
        (HEAD + "x,along,,steep,s,\n", "line 2: 'steep' cannot be read as a grade"),
        (HEAD + "x,along,3 %,2 %,s,\n", "least grade 3 % is above the greatest 2 %"),
        (HEAD + "x,along,,-2 %,s,\n", "is negative"),
        (HEAD + "x,break,2 %,,s,\n", "a change of grade has a greatest value"),
        (HEAD + ",along,,2 %,s,\n", "line 2: the rule has no name"),
        (HEAD + "x,along,,2 %,s,\nx,along,,2 %,s,\n", "line 3: the name “x” stands twice"),
        (HEAD + "x,along,,1:2,s,\n", "can be run to rise or rise to run"),
    ],
)
def test_what_is_wrong_with_a_file_is_said_with_its_line(text, sentence):
    with pytest.raises(UndercourseError, match=sentence) as caught:
        read_rules(text, "own.csv")
    assert "own.csv" in str(caught.value)


def test_limits_as_people_write_them():
    assert parse_limits("", "1:48") == (pytest.approx(math.nan, nan_ok=True), pytest.approx(1 / 48))
    assert parse_limits("1 in 200", 2.0) == (0.005, 0.02)
    assert parse_limits("0", "") == (0.0, pytest.approx(math.nan, nan_ok=True))
    with pytest.raises(LengthTextError):
        parse_limits("", "")
