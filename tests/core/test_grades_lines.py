"""Directions of the nearest line, and changes of grade across lines."""

import numpy as np
import pytest
import shapely

from plugin.core.measure.grade_check import EVERYWHERE, FAIL, NEAR, PASS, UNCHECKED
from plugin.core.measure.grade_rules import Measure
from plugin.core.measure.tangents import tangents
from plugin.core.tin import Tin
from plugin.core.vectors import dot

from .cut_shapes import polygons, sheet
from .grade_shapes import checked, limit, lines, plane, ramp, turned
from .tin_shapes import grid_faces

FAR = np.array([500_000.0, 10_000_000.0])


@pytest.mark.parametrize("origin", [np.zeros(2), FAR])
def test_direction_beside_round_and_past_a_line(origin):
    bent = lines(np.array([(0, 0), (10, 0), (10, 10)]) + origin)
    asked = np.array([(5, 3), (5, -3), (13, 5), (11, -1), (12, -1), (10, 0), (9.9, 0), (10, 14)])
    found = tangents(bent, asked + origin)
    half = np.sqrt(0.5)
    expected = [(1, 0), (1, 0), (0, 1), (half, half), None, (half, half), (1, 0), (0, 1)]
    for way, truth in zip(found.direction, expected, strict=True):
        assert truth is None or way == pytest.approx(truth, abs=1e-7)
    assert found.direction[4] == pytest.approx(np.array([1, 2]) / np.sqrt(5), abs=1e-7)
    assert found.away == pytest.approx([3, 3, 3, np.sqrt(2), np.sqrt(5), 0, 0, 4], abs=1e-7)
    assert found.beyond.tolist() == [False] * 7 + [True]


def test_a_ring_has_no_ends():
    ring = lines([(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)])
    found = tangents(ring, np.array([(-1.0, -1.0), (0.0, 0.0)]))
    assert found.direction == pytest.approx(np.full((2, 2), np.sqrt(0.5)) * (1, -1), abs=1e-12)
    assert not found.beyond.any()


def test_directions_along_an_arc_are_those_of_the_arc():
    angle = np.linspace(0, np.pi / 2, 400)
    arc = lines(100 * np.column_stack((np.cos(angle), np.sin(angle))))
    rng = np.random.default_rng(2)
    at = rng.uniform(0.1, 1.4, 500)
    points = rng.uniform(60, 140, 500)[:, None] * np.column_stack((np.cos(at), np.sin(at)))
    truth = np.column_stack((-np.sin(at), np.cos(at)))
    # Chords of a quarter degree: their direction is off by half of that at most.
    assert np.arccos(np.minimum(dot(tangents(arc, points).direction, truth), 1)).max() < 0.002


def test_a_helical_ramp_has_its_grade_along_and_its_cross_slope_across():
    """A ramp round a circle: 6 % along its middle line, 2 % inwards, in closed form."""
    angle, radius = np.meshgrid(np.linspace(0, 3, 301), np.linspace(18, 22, 9))
    plan = np.column_stack(((radius * np.cos(angle)).ravel(), (radius * np.sin(angle)).ravel()))
    z = 0.06 * 20 * angle.ravel() + 0.02 * (radius.ravel() - 18)
    tin = sheet(301, 9)
    tin = type(tin).from_arrays(np.column_stack((plan, z)), tin.faces)
    middle = np.linspace(0, 3, 2000)
    course = lines(20 * np.column_stack((np.cos(middle), np.sin(middle))))
    along, across = checked(
        tin,
        limit(Measure.ALONG, 0.06 * 20 / 19),
        limit(Measure.ACROSS, 0.0201),
        lines=course,
    ).rows
    # Along a circle of radius r the same rise is spread over r / 20 of the length.
    assert along.figures.greatest == pytest.approx(0.06 * 20 / 18, rel=0.02)
    assert along.figures.least == pytest.approx(0.06 * 20 / 22, rel=0.02)
    # The faces are chords: across, the inner ones take up some of the grade along.
    assert across.figures.mean == pytest.approx(0.02, rel=0.02)
    assert along.figures.failed / along.figures.checked == pytest.approx(0.25, abs=0.13)


def test_a_verdict_that_hangs_on_the_place_of_the_line_is_told():
    tin = plane(0.05, 0.0, size=3)
    course = lines([(5.0, -40.0), (5.0, 10.0), (60.0, 10.0)])
    check = checked(tin, limit(Measure.ALONG, 0.03), lines=course)
    assert check.rows[0].figures.doubtful > 0
    assert "doubtful" in {finding.code for finding in check.findings}
    straight = checked(tin, limit(Measure.ALONG, 0.03), lines=lines([(5, -400), (5, 400)]))
    assert not straight.findings


def test_faces_past_the_end_of_a_line_are_told():
    check = checked(plane(0.01), limit(Measure.ALONG, 0.05), lines=lines([(0, 50), (40, 50)]))
    (finding,) = check.findings
    assert finding.code == "beyond"
    assert check.rows[0].figures.beyond > 0


GUTTER = [(4.0, -5.0), (4.0, 25.0)]


@pytest.mark.parametrize("turn", [0.0, 11.0, 33.0, 71.3, 123.0, 164.0, 201.0, 250.0])
@pytest.mark.parametrize("origin", [(0.0, 0.0), (500_000.0, 10_000_000.0)])
@pytest.mark.parametrize(
    ("down", "up", "expected"),
    [
        (0.05, 1 / 12, (FAIL, Measure.BREAK)),  # 5 % and 1:12 make 13.33 %
        (0.133 - 1 / 12, 1 / 12, (NEAR, Measure.BREAK)),  # 13.3 % to the digit
        (0.04, 1 / 12, (PASS, Measure.BREAK)),
    ],
)
def test_change_of_grade_at_a_gutter(down, up, expected, origin, turn):
    """A road that falls to the gutter and a ramp that climbs out of it (R304.5.2: 13.3 %)."""
    tin = ramp([-down, up], [4.0, 3.0], origin=origin, turn=turn)
    gutter = lines(turned(GUTTER, turn, origin))
    asked = limit(Measure.BREAK, 0.133, zone=EVERYWHERE)
    (row,) = checked(tin, asked, gutters=gutter, within=0.01).breaks
    assert (row.verdict, row.limit.measure) == expected
    assert row.change == pytest.approx([down + up], abs=1e-8)
    # The road lies west of the gutter before all is turned: on the left of an edge to the north.
    ends = row.breaks.ends[0, :, :2]
    north = dot((ends[1] - ends[0])[None], turned([(0.0, 1.0)], turn))[0] > 0
    rises = (row.breaks.rise_left[0], row.breaks.rise_right[0])
    assert rises == pytest.approx((down, up) if north else (up, down), abs=1e-8)
    assert row.length() == pytest.approx(20.0)
    assert row.failed == pytest.approx(20.0 if row.verdict == FAIL else 0.0)


def test_only_edges_on_the_line_count_and_a_line_beside_is_told():
    tin = ramp([-0.2, 0.2, -0.2], [4.0, 3.0, 3.0])
    asked = limit(Measure.BREAK, 0.133, zone=EVERYWHERE)
    check = checked(tin, asked, gutters=lines(GUTTER), within=0.01)
    assert len(check.breaks[0].edges) == 1
    assert [finding.code for finding in check.findings] == ["off_edges"]  # it is longer
    beside = lines([(4.1, 0.0), (4.1, 20.0)])
    check = checked(tin, asked, gutters=beside, within=0.01)
    assert check.breaks[0].verdict == UNCHECKED
    assert check.findings[0].code == "off_edges"
    on_it = checked(tin, asked, gutters=lines([(4.0, 0.0), (4.0, 20.0)]), within=0.01)
    assert not on_it.findings


def test_short_edges_across_the_line_do_not_count():
    """The bottom of the gutter drawn as a strip 6 mm wide: its rungs lie on the line too."""
    x, y = np.meshgrid([0.0, 4.0, 4.006, 8.0], [0.0, 10.0, 20.0, 30.0])
    plan = np.column_stack((x.ravel(), y.ravel()))
    tin = Tin.from_arrays(np.column_stack((plan, np.abs(plan[:, 0] - 4.003))), grid_faces(4, 4))
    asked = limit(Measure.BREAK, 0.133, zone=EVERYWHERE)
    gutter = lines([(4.003, 0.0), (4.003, 30.0)])
    (row,) = checked(tin, asked, gutters=gutter, within=0.01).breaks
    way = np.abs(row.breaks.ends[:, 1, :2] - row.breaks.ends[:, 0, :2])
    assert len(way) >= 6
    assert (way[:, 1] > 9).all()


def test_a_rule_of_a_zone_looks_at_the_gutter_there_alone():
    tin = sheet(7, 5, 2.0, 0.0, 0, (0, 0), lambda p: np.abs(p[:, 0] - 6.0) * 0.1)
    zones = polygons(shapely.box(6.0, 0.5, 10.0, 3.9))
    asked = limit(Measure.BREAK, 0.133)
    check = checked(tin, asked, zones=zones, gutters=lines([(6.0, 0.0), (6.0, 8.0)]), within=0.01)
    (row,) = check.breaks
    # Edges from 0 to 2 and from 2 to 4 have their middles beside the zone.
    assert row.length() == pytest.approx(4.0)
    assert row.change == pytest.approx([0.2, 0.2])
    assert row.verdict == FAIL
