"""Grades judged against limits: at a limit, a hair on either side, and whatever way all lies."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.measure.grade_check import FAIL, NEAR, PASS, UNCHECKED
from plugin.core.measure.grade_rules import Measure
from plugin.core.measure.grades import Code, classify
from plugin.core.tin import Tin

from .cut_shapes import polygons, sheet
from .grade_shapes import NAN, checked, limit, line, lines, plane, verdict

ORIGINS = [(0.0, 0.0), (500_000.0, 10_000_000.0)]
LIMITS = [1 / 20, 1 / 48, 1 / 12, 1 / 10]


@pytest.mark.parametrize("origin", ORIGINS)
@pytest.mark.parametrize("high", LIMITS)
@pytest.mark.parametrize("bearing", [90.0, 17.0, 203.5])
def test_a_plane_at_its_limit_passes_and_a_hair_above_fails(high, origin, bearing):
    asked = limit(high=high)
    assert verdict(plane(high, bearing, origin), asked) == (NEAR, ["near_steep"])
    assert verdict(plane(high, bearing, origin), asked, near=0.0) == (PASS, [])
    # A millionth of the grade is 1e-8: far below any grade that is built, far above rounding.
    above, below = high * (1 + 1e-6), high * (1 - 1e-6)
    assert verdict(plane(above, bearing, origin), asked) == (FAIL, ["just_steep"])
    assert verdict(plane(above, bearing, origin), asked, near=0.0) == (FAIL, ["steep"])
    assert verdict(plane(below, bearing, origin), asked, near=0.0) == (PASS, [])


@pytest.mark.parametrize("origin", ORIGINS)
def test_a_least_grade_is_judged_the_same_way(origin):
    asked = limit(low=0.01)
    assert verdict(plane(0.01, 40.0, origin), asked, near=0.0) == (PASS, [])
    assert verdict(plane(0.01 * (1 - 1e-6), 40.0, origin), asked) == (FAIL, ["just_flat"])
    assert verdict(plane(0.005, 40.0, origin), asked) == (FAIL, ["flat"])
    assert verdict(plane(0.0105, 40.0, origin), asked) == (NEAR, ["near_flat"])
    assert verdict(plane(0.0111, 40.0, origin), asked) == (PASS, [])


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        (1.98, (PASS, [])),
        (2.0, (NEAR, ["near_steep"])),
        (100 / 48, (NEAR, ["near_steep"])),
        (2.0834, (FAIL, ["just_steep"])),
        (2.1, (FAIL, ["just_steep"])),
        (2.2, (FAIL, ["steep"])),
    ],
)
def test_two_percent_is_not_one_in_48_is_not_2_1_percent(percent, expected):
    assert verdict(plane(percent / 100), limit(high=1 / 48)) == expected


def test_classes_on_both_sides_of_both_limits():
    grade = np.array([0.001, 0.0095, 0.0105, 0.015, 0.0195, 0.0205, 0.03])
    assert classify(grade, 0.01, 0.02, 0.001, 0.0).tolist() == [
        Code.FLAT,
        Code.JUST_FLAT,
        Code.NEAR_FLAT,
        Code.PASS,
        Code.NEAR_STEEP,
        Code.JUST_STEEP,
        Code.STEEP,
    ]
    assert classify(grade, NAN, NAN, 0.001, 0.0).tolist() == [Code.PASS] * 7
    # Where the limits leave less room than the margin, a fail is still a fail.
    tight = classify(np.array([0.009, 0.0102, 0.0106]), 0.01, 0.0104, 0.001, 0.0)
    assert (tight >= Code.JUST_STEEP).tolist() == [True, False, True]


@given(
    slope=st.floats(1e-4, 0.5),
    bearing=st.floats(0, 360),
    course=st.floats(0, 360),
    share=st.floats(0.5, 1.5),
)
def test_planes_are_measured_as_they_were_made(slope, bearing, course, share):
    tin = plane(slope, bearing, size=4)
    turn = np.radians(bearing - course)
    truth = {
        Measure.MAX_SLOPE: slope,
        Measure.ALONG: slope * abs(np.cos(turn)),
        Measure.ACROSS: slope * abs(np.sin(turn)),
    }
    for measure, grade in truth.items():
        asked = limit(measure, grade * share)
        (row,) = checked(tin, asked, lines=line(course), near=0.0).rows
        found = row.figures
        assert found.least == pytest.approx(grade, abs=1e-12)
        assert found.greatest == pytest.approx(grade, abs=1e-12)
        assert found.mean == pytest.approx(grade, abs=1e-12)
        if abs(grade * share - grade) > 1e-12:
            assert row.verdict == (FAIL if share < 1 else PASS)
            assert found.failed == pytest.approx(tin.plan_area if share < 1 else 0.0)


def everything(tin, zones, course, z=1.0):
    rows = checked(
        tin,
        limit(Measure.MAX_SLOPE, 0.05, zone=0),
        limit(Measure.ALONG, 0.03, 0.01, zone=0),
        limit(Measure.ACROSS, 0.03, zone=1),
        zones=zones,
        lines=course,
        z_scale=z,
    ).rows
    named = ("checked", "failed", "just", "near", "least", "greatest", "mean", "worst")
    return np.array([[getattr(row.figures, name) for name in named] for row in rows]), rows


def rolling(plan):
    return 100 + 0.3 * np.sin(plan[:, 0] / 9) + 0.4 * np.cos(plan[:, 1] / 7)


def test_results_do_not_depend_on_place_direction_or_order():
    tin = sheet(15, 15, 3.0, 0.2, 3, (0, 0), rolling)
    zones = [shapely.Polygon([(3, 3), (30, 5), (28, 33), (6, 30)]), shapely.box(31, 4, 40.5, 38.2)]
    course = np.array([(-5.0, 8.0), (20.0, 12.0), (55.0, 30.0)])
    truth, rows = everything(tin, polygons(*zones), lines(course))
    assert (truth[:, 1] > 0).all() and (truth[:, 1] < truth[:, 0]).all()
    angle = np.radians(33.0)
    turn = np.array([[np.cos(angle), -np.sin(angle)], [np.sin(angle), np.cos(angle)]])
    for move in ([0.0, 0.0], [500_000.0, 10_000_000.0]):

        def moved(xy, move=move):
            return xy @ turn.T + move

        other = Tin.from_arrays(
            np.column_stack((moved(tin.vertices[:, :2]), tin.vertices[:, 2])), tin.faces[::-1]
        )
        shapes = [shapely.transform(zone, moved) for zone in zones]
        found, others = everything(other, polygons(*shapes), lines(moved(course)[::-1]))
        np.testing.assert_allclose(found, truth, rtol=1e-5, atol=1e-6)
        for one, two in zip(rows, others, strict=True):
            assert len(one.areas) == len(two.areas)
            place = moved(np.array([one.figures.place]))[0]
            np.testing.assert_allclose(two.figures.place, place, atol=1e-3)
    # Heights in feet over a plan in metres are the same ground.
    high = tin.vertices * (1, 1, 1 / 0.3048)
    feet, _ = everything(Tin.from_arrays(high, tin.faces), polygons(*zones), lines(course), 0.3048)
    np.testing.assert_allclose(feet, truth, rtol=1e-9)


def test_zones_cut_faces_and_areas_are_exact():
    """Two faces, half of a square each; a zone that cuts both."""
    tin = Tin.from_arrays([(0, 0, 0), (10, 0, 0), (10, 10, 1), (0, 10, 0)], [(0, 1, 2), (0, 2, 3)])
    zone = shapely.box(2, 2, 8, 7)
    # East of the diagonal the ground rises north, west of it east, both at 10 %.
    along = limit(Measure.ALONG, 0.05)
    check = checked(tin, along, zones=polygons(zone), lines=lines([(5, -90), (5, 90)]))
    (row,) = check.rows
    east = shapely.Polygon([(0, 0), (10, 0), (10, 10)]).intersection(zone).area
    assert row.figures.checked == pytest.approx(30.0, rel=1e-12)
    assert row.figures.failed == pytest.approx(east, rel=1e-12)
    assert row.figures.mean == pytest.approx(0.1 * east / 30, rel=1e-9)
    (area,) = row.areas
    expected = shapely.Polygon([(2, 2), (8, 2), (8, 7), (7, 7)])
    assert area.shape.symmetric_difference(expected).area < 1e-9
    assert (area.flag, area.area) == ("steep", pytest.approx(east))
    assert not check.findings


def test_areas_that_touch_in_a_point_alone_stay_two():
    """A chequered sheet: cells of 10 % at opposite corners of a level crossing."""
    tin = sheet(4, 4, 1.0, 0.0, 0, (0, 0), lambda p: np.where(p[:, 0] >= 3, 0.3, 0.0))
    (row,) = checked(tin, limit(high=0.1)).rows
    assert len(row.areas) == 1
    assert row.areas[0].shape.equals(shapely.box(2, 0, 3, 3))
    gap = shapely.box(2.2, 1, 3, 2)
    zone = shapely.box(0, 0, 3, 3).difference(gap)
    assert len(checked(tin, limit(high=0.1), zones=polygons(zone)).rows[0].areas) == 1
    zone = shapely.box(0, 0, 3, 3).difference(shapely.box(1.5, 1, 3, 2))
    assert len(checked(tin, limit(high=0.1), zones=polygons(zone)).rows[0].areas) == 2


def test_a_sliver_beside_a_zone_is_told_but_does_not_fail_it():
    steep = sheet(3, 3, 10.0, 0.0, 0, (0, 0), lambda p: np.maximum(p[:, 0] - 10, 0) * 4.5)
    zone = polygons(shapely.box(1, 1, 10.004, 19))
    check = checked(steep, limit(high=1 / 48), zones=zone, narrow=0.005)
    (row,), findings = check.rows, check.findings
    assert row.verdict == PASS
    assert row.thin == pytest.approx(0.004 * 18, rel=0.01)
    assert row.figures.greatest == 0.0
    assert [one.code for one in findings] == ["thin"]
    (strict,) = checked(steep, limit(high=1 / 48), zones=zone, narrow=0.001).rows
    assert strict.verdict == FAIL


def test_what_cannot_be_judged_is_said():
    tin = plane(0.01)
    off = polygons(shapely.box(150, 150, 160, 160), shapely.box(50, 50, 150, 60))
    check = checked(tin, limit(high=0.02, zone=0), limit(high=0.02, zone=1), zones=off)
    assert [row.verdict for row in check.rows] == [UNCHECKED, PASS]
    assert {(f.code, f.feature) for f in check.findings} == {("no_data", 0), ("no_data", 1)}
    # A vertical face has no grade.
    wall = [(0, 0, 0), (10, 0, 0), (10, 10, 0), (10, 0, 3), (10, 10, 3)]
    upright = Tin.from_arrays(wall, [(0, 1, 2), (1, 3, 4), (1, 4, 2)])
    check = checked(upright, limit(high=0.02))
    assert check.rows[0].verdict == PASS
    assert [(f.code, "2 faces" in f.why) for f in check.findings] == [("upright", True)]


def test_lines_out_of_reach_leave_faces_unchecked():
    tin = plane(0.01)
    course = lines([(0.0, 0.0), (100.0, 0.0)])
    check = checked(tin, limit(Measure.ALONG, 0.02), lines=course, reach=30.0)
    (row,) = check.rows
    assert 0 < row.figures.far < tin.plan_area
    assert row.figures.far + row.figures.checked == pytest.approx(tin.plan_area)
    assert "far" in {f.code for f in check.findings}


def test_rounded_coordinates_are_forgiven_what_they_can_be_off_and_no_more():
    """A plane at 1:48 written with three decimals, as many files are."""
    exact = plane(1 / 48, 25.0, seed=4)
    written = Tin.from_arrays(np.round(exact.vertices, 3), exact.faces)
    assert verdict(written, limit(high=1 / 48))[0] == FAIL
    assert verdict(written, limit(high=1 / 48), step=0.001) == (NEAR, ["near_steep"])
    over = plane(1 / 48 + 0.001, 25.0, seed=4)
    assert verdict(over, limit(high=1 / 48), step=0.001)[0] == FAIL


def test_pieces_keep_the_grade_of_their_face():
    """Slivers cut from a plane by a zone are as exact as the plane."""
    tin = plane(1 / 48, 31.0, (500_000.0, 10_000_000.0))
    x, y = tin.vertices[60, :2]
    zones = polygons(shapely.Point(x, y).buffer(23.456, quad_segs=300))
    assert verdict(tin, limit(high=1 / 48), zones=zones, near=0.0) == (PASS, [])


def test_what_the_cut_has_to_say_is_handed_on():
    """A slit of 0.3 mm between two zones is closed, and told."""
    around = shapely.box(5, 5, 95, 95) - shapely.box(10, 10, 90, 90)
    zones = polygons(shapely.box(10, 10, 50, 90), shapely.box(50.0003, 10, 90, 90), around)
    asked = [limit(high=0.02, zone=zone) for zone in range(3)]
    check = checked(sheet(11, 11, 10.0), *asked, zones=zones)
    assert [finding.code for finding in check.findings] == ["gap"]
    assert sum(row.figures.checked for row in check.rows) == pytest.approx(90 * 90, rel=1e-6)
