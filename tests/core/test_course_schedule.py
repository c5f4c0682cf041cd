"""Schedules of courses: what is read, what is refused and with which row."""

import numpy as np
import pytest
import shapely

from plugin.core.depth.courses.amounts import SHORT_TON, parse_density, parse_swell
from plugin.core.depth.courses.pits import pits
from plugin.core.depth.courses.schedule import read_schedule
from plugin.core.depth.manner import ThicknessRule
from plugin.core.depth.zones import Zones
from plugin.core.errors import ScheduleError, UndercourseError
from plugin.core.units import FOOT, METRE, US_SURVEY_FOOT


def row(section="lane", order=1, course="base", thickness="0.5", **more):
    return {
        "section": section,
        "order": order,
        "course": course,
        "thickness": thickness,
        **more,
    }


def read(*rows, vertical=FOOT, plan=FOOT):
    return read_schedule(rows, vertical, plan)


def test_rows_become_courses_from_the_top_down():
    """Thicknesses of Godley TX ch. 94: 2 in asphalt on 8 in base are 10 in = 0.8333 ft."""
    schedule = read(
        row("Street", 2, "base", "8 in", widen="1 ft", batter="1.5:1", swell="1.25"),
        row("walk", 1.0, "slab", 0.375, note="broom finish"),
        row("street ", "1", "asphalt", "2 in", density="145 lb/ft3"),
    )
    street, walk = schedule.sections
    assert [course.name for course in street.courses] == ["asphalt", "base"]
    assert street.depth(2) == (pytest.approx(0.8333, abs=5e-5), 0.0)
    assert street.depth(1)[0] == pytest.approx(2 / 12) and street.depth(9) == street.depth(2)
    base = street.courses[1]
    assert (base.widen, base.batter, base.swell, base.row) == (1.0, 1.5, 1.25, 1)
    assert walk.courses[0].note == "broom finish" and schedule.most_courses == 2
    assert not schedule.findings


@pytest.mark.parametrize(("courses", "inches"), [(("2 in", "8 in"), 10), (("4 in", "8 in"), 12)])
def test_published_sections(courses, inches):
    """Godley TX ch. 94: 2 + 8 = 10 in and 4 + 8 = 12 in."""
    (section,) = read(*(row(order=n, thickness=t) for n, t in enumerate(courses, 1))).sections
    assert section.depth(9)[0] * 12 == pytest.approx(inches, abs=1e-12)


def test_a_published_section_of_three_courses():
    """Coshocton OH: 1 1/2 + 1 1/2 + 8 = 11 in = 0.9167 ft."""
    texts = ("1 1/2 in", "1 1/2 in", "8 in")
    (section,) = read(*(row(order=n, thickness=t) for n, t in enumerate(texts, 1))).sections
    assert section.depth(3)[0] == pytest.approx(0.9167, abs=5e-5)


def test_square_and_plumb_thicknesses_are_summed_apart():
    (section,) = read(
        row(rule="plumb", thickness=1),
        row(order=2, thickness=2, rule="Square"),
        row(order=3, thickness=4, thickness_rule="square"),
    ).sections
    assert [section.depth(count) for count in range(4)] == [(0, 0), (1, 0), (1, 2), (1, 6)]
    assert section.courses[1].rule is ThicknessRule.SQUARE


def test_lengths_without_a_unit_are_in_the_units_of_the_job():
    (section,) = read(row(thickness="2", widen="2"), vertical=METRE, plan=US_SURVEY_FOOT).sections
    assert (section.courses[0].thickness, section.courses[0].widen) == (2.0, 2.0)
    (section,) = read(row(thickness="60 mm", widen="1 m"), vertical=METRE).sections
    assert section.courses[0].widen == pytest.approx(1 / 0.3048)


def test_names_of_columns_in_any_case_and_blank_rows():
    given = {"Section ": "a", "ORDER": 1, "Course": None, "Thickness": "1", "id": 7}
    schedule = read(
        {**given, "Section ": None, "ORDER": "", "Thickness": float("nan"), "id": None}, given
    )
    (course,) = schedule.sections[0].courses
    assert course.name == "course 1" and course.row == 2


def test_names_of_columns_in_the_first_row_of_a_sheet():
    head = dict(zip("abcde", ("Section", "order", "COURSE", "thickness", None), strict=True))
    given = dict(zip("abcde", ("lane", "1", "base", "half", "x"), strict=True))
    with pytest.raises(ScheduleError, match="Row 1 of the schedule"):
        read(head, given)
    schedule = read(head, {**given, "d": "8 in"})
    assert schedule.sections[0].courses[0].thickness == pytest.approx(8 / 12)
    assert not schedule.findings


def test_columns_that_nothing_is_read_from_are_reported():
    (finding,) = read(row(widning="1 ft")).findings
    assert finding.code == "unread_column" and "widning" in finding.why


@pytest.mark.parametrize(
    ("bad", "sentence"),
    [
        ({"thickness": "0"}, "the thickness “0” is not greater than zero"),
        ({"thickness": -0.5}, "the thickness “-0.5” is not greater than zero"),
        ({"thickness": None}, "the thickness is missing"),
        ({"thickness": "half a foot"}, "thickness: 'half a foot' cannot be read as a length"),
        ({"thickness": "2 1/2"}, "a fraction needs its unit"),
        ({"order": None}, "the order is missing"),
        ({"order": "first"}, "the order “first” is no whole number"),
        ({"order": 0}, "the order “0” is no whole number"),
        ({"order": 1.5}, "the order “1.5” is no whole number"),
        ({"widen": "-1 ft"}, "the widening “-1 ft” is negative"),
        ({"batter": "-1"}, "batter: '-1' is negative"),
        ({"batter": "steep"}, "batter: 'steep' cannot be read as a batter"),
        ({"batter": "1:2"}, "batter: '1:2' can be run to rise or rise to run"),
        ({"rule": "normal"}, "the thickness rule “normal” is not known"),
        ({"swell": "25 %"}, "swell: the swell “25 %” is no factor"),
        ({"swell": 25}, "swell: the swell “25” is no factor"),
        ({"swell": 0.8}, "swell: the swell “0.8” is no factor"),
        ({"density": 0}, "density: the density “0”"),
        ({"density": -2}, "density: the density “-2” cannot be read"),
        ({"density": 145}, "145 tonnes per cubic metre, which nothing is"),
        ({"density": "145 stone"}, "the density “145 stone” cannot be read"),
    ],
)
def test_what_cannot_be_read_is_refused_with_its_row_and_section(bad, sentence):
    with pytest.raises(ScheduleError) as refused:
        read(row(order=1), row(**{"order": 2, **bad}))
    assert str(refused.value).startswith("Row 2 of the schedule (section “lane”): ")
    assert sentence in str(refused.value)


def test_orders_given_twice_or_left_out():
    with pytest.raises(ScheduleError, match=r"Rows 1 and 3 .*“lane”.* same order 1"):
        read(row(order=1), row("walk"), row(order=1))
    with pytest.raises(ScheduleError, match=r"Row 2 .*“lane”.* order 3, but no row has 2"):
        read(row(order=1), row(order=3))
    with pytest.raises(ScheduleError, match=r"Row 1 .*order 2, but no row has 1"):
        read(row(order=2))


def test_a_row_without_a_section_and_tables_without_rows_or_columns():
    with pytest.raises(ScheduleError, match="Row 2 of the schedule names no section"):
        read(row(), row(section=" "))
    with pytest.raises(ScheduleError, match="has no rows"):
        read()
    with pytest.raises(ScheduleError, match=r"no column “thickness”.*has section, order, course"):
        read({"section": "a", "order": 1, "course": "b"})


def test_zones_are_given_their_sections():
    schedule = read(row("Bus  bay"), row("walk"))
    found = schedule.of_zones(["walk", "bus bay ", "WALK"], [4, 5, 6])
    assert [section.name for section in found] == ["walk", "Bus  bay", "walk"]
    assert not schedule.unused(found)
    (finding,) = schedule.unused(found[:1])
    assert finding.code == "unused_section" and "schedule: Bus  bay." in finding.why
    with pytest.raises(ScheduleError, match=r"Zone 5 is of the section “lawn”.*Bus  bay, walk"):
        schedule.of_zones(["walk", "lawn"], [4, 5])
    with pytest.raises(ScheduleError, match="Zone 4 names no section"):
        schedule.of_zones([""], [4])


def test_densities():
    """EPSG 9002 (foot) and the pound of 0.45359237 kg; a short ton is 2,000 of them."""
    assert parse_density("145 lb/ft3") == pytest.approx(145 * 0.45359237 / 0.3048**3 / 1000)
    assert parse_density("2350 kg/m³") == parse_density(2.35) == parse_density("2.35 t/m3")
    assert pytest.approx(2000 * 0.45359237 / 1000) == SHORT_TON
    assert parse_swell("1.25") == 1.25 and parse_swell(1) == 1.0
    with pytest.raises(UndercourseError):
        parse_swell("nan")


# --- pits ----------------------------------------------------------------------------------


def zones(count=1):
    boxes = [shapely.box(10 * n, 0, 10 * n + 10, 10) for n in range(count)]
    shapes = np.empty(count, dtype=object)
    shapes[:] = boxes
    return Zones(shapes, np.zeros(count), np.arange(count) + 7)


def test_one_pit_a_zone_where_the_lowest_course_swallows_the_others():
    schedule = read(
        row(thickness=1), row(order=2, thickness=2, widen=0.5), row("walk", thickness=0.25)
    )
    sections = schedule.of_zones(["lane", "walk"], [7, 8])
    first, second = pits(zones(2), sections, 1), pits(zones(2), sections, 2)
    assert first.zones.depths.tolist() == [1, 0.25] and first.course.tolist() == [1, 1]
    assert second.zones.depths.tolist() == [3, 0.25] and second.course.tolist() == [2, 1]
    assert second.zones.widths.tolist() == [0.5, 0] and second.zones.ids.tolist() == [7, 8]


def found_pits(*courses):
    """Course, width and depth of each pit of the lowest interface, from the lowest up."""
    plan = read(*(row(order=n, **course) for n, course in enumerate(courses, 1)))
    found = pits(zones(), list(plan.sections), len(courses), 0.001)
    assert found.zones.ids.tolist() == [7] * len(found.zone)
    dug = found.zones
    return list(zip(found.course.tolist(), dug.widths.tolist(), dug.depths.tolist(), strict=True))


def test_floors_that_reach_past_those_below_stay():
    assert found_pits({"widen": 1}, {"widen": 0.25}) == [(2, 0.25, 1.0), (1, 1.0, 0.5)]
    assert found_pits({"widen": 0.25}, {"widen": 0.25}) == [(2, 0.25, 1.0)]


def test_sides_flatter_than_those_below_go_on_from_a_ledge():
    assert found_pits({"batter": 1}, {"batter": 2}) == [(2, 0.0, 1.0)]
    assert found_pits({"batter": 1}, {"batter": 1, "widen": 0.1}) == [(2, 0.1, 1.0)]
    floor, ledge = found_pits({"batter": 2}, {"batter": 1})
    assert floor == (2, 0.0, 1.0)
    assert ledge == (1, 0.001, pytest.approx(0.5 - 0.001 / 2))
    _, ledge = found_pits({"batter": 2}, {"widen": 0.1})
    assert ledge == (1, pytest.approx(0.101), pytest.approx(0.5 - 0.101 / 2))
    # Its side has come up to the design before the edge of the floor below.
    assert found_pits({"batter": 2}, {"widen": 1.1}) == [(2, 1.1, 1.0)]


def test_ledges_count_in_units_of_height():
    plan = read(row(batter=2), row(order=2))
    found = pits(zones(), list(plan.sections), 2, 0.001, z_scale=1 / 0.3048).zones
    assert found.depths[1] == pytest.approx(0.5 - 0.001 / 2 * 0.3048)
