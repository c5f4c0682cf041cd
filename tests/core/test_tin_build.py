"""Surfaces built of points, breaklines and boundaries: closed forms and what is reported."""

import numpy as np
import pytest

from plugin.core.errors import Cancelled, LineError, SurfaceError
from plugin.core.tin.build import Breaklines, Manner, Points, build_tin

from .build_shapes import (
    assert_honoured,
    assert_sound,
    boundary_of,
    box,
    build,
    edge_set,
    not_delaunay,
    volume,
)

EAVES = [(0, 0, 0), (10, 0, 0), (20, 0, 0), (20, 10, 0), (10, 10, 0), (0, 10, 0)]
RIDGE = [(0, 5, 3), (20, 5, 3)]
CORNERS = box(-50, -50, 50, 50, 0.0)
CROSS = [[(-10, 0, 1), (10, 0, 1)], [(0, -10, 1), (0, 10, 1)]]


def codes(built):
    return [finding.code for finding in built.findings]


def test_a_ridge_given_as_breakline_makes_the_roof_and_its_ends_alone_do_not():
    roof = build(EAVES, [RIDGE])
    assert volume(roof.tin) == pytest.approx(20 * 10 * 3 / 2)
    assert_honoured(roof.tin, [RIDGE])
    assert roof.honoured == roof.given == 20.0
    # The gutter between the middles of the eaves is shorter than the ridge.
    assert volume(build([*EAVES, *RIDGE]).tin) == pytest.approx(200.0)


def test_equal_heights_at_a_crossing_make_one_vertex():
    built = build(CORNERS, CROSS)
    assert built.crossings == 1
    assert (0.0, 0.0, 1.0) in {tuple(v) for v in built.tin.vertices.tolist()}
    assert_honoured(built.tin, CROSS)
    assert not built.findings


def test_different_heights_at_a_crossing_are_reported_and_neither_is_picked():
    second = [(0, -10, 2), (0, 0.5, 2.2), (0, 10, 2)]
    built = build(CORNERS, [CROSS[0], second])
    (finding,) = built.findings
    assert finding.code == "crossing"
    assert finding.place == pytest.approx((0.0, 0.0))
    for word in ("1 and 2", "1.000", "2.190", "1.190 apart"):
        assert word in finding.why
    assert built.conflicts == 1
    assert built.crossings == 0
    left = sorted(map(sorted, built.unused.tolist()))
    assert left == [[[-10, 0, 1], [10, 0, 1]], [[0, -10, 2], [0, 0.5, 2.2]]]
    # The segment of the second that does not meet the first is an edge; both that do are not.
    assert built.honoured == pytest.approx(9.5)
    assert built.given == pytest.approx(40.0)
    plan = {tuple(v[:2]) for v in built.tin.vertices.tolist()}
    assert {(-10, 0), (10, 0), (0, -10), (0, 10)} <= plan
    assert (0.0, 0.0) not in plan


@pytest.mark.parametrize("apart", [0.002, 0.004])
def test_heights_within_the_tolerance_are_one(apart):
    other = [(0, -10, 1 + apart), (0, 10, 1 + apart)]
    built = build(CORNERS, [CROSS[0], other], same_height=0.003)
    assert codes(built) == ([] if apart < 0.003 else ["crossing"])
    assert built.crossings == (apart < 0.003)


@pytest.mark.parametrize(
    ("end", "wrong"), [((0, 0, 1), False), ((0, 5e-5, 1), False), ((0, 0, 1.5), True)]
)
def test_a_line_that_ends_on_another(end, wrong):
    lines = [CROSS[0], [(0, 10, 1), end]]
    built = build(CORNERS, lines)
    assert codes(built) == ["crossing"] * wrong
    if wrong:
        assert built.honoured == 0.0
        assert tuple(end) not in {tuple(v) for v in built.tin.vertices.tolist()}
    else:
        assert_honoured(built.tin, lines)


@pytest.mark.parametrize("wrong", [False, True])
def test_lines_that_share_a_vertex(wrong):
    lines = [[(-10, 0, 1), (0, 0, 1)], [(0, 0, 1 + wrong), (10, 3, 1)], [(5, 5, 0), (9, 9, 0)]]
    built = build(CORNERS, lines)
    assert codes(built) == ["crossing"] * wrong
    assert_honoured(built.tin, lines[2:] if wrong else lines)
    assert ((0, 0) in {tuple(v[:2]) for v in built.tin.vertices.tolist()}) != wrong


def test_lines_along_each_other_and_the_same_line_twice():
    lines = [
        [(-10, 0, 1), (10, 0, 3)],
        [(-5, 0, 1.5), (20, 0, 4)],
        [(10, 0, 3), (-10, 0, 1)],
    ]
    built = build(CORNERS, lines)
    assert not built.findings
    assert_honoured(built.tin, lines)
    assert built.honoured == pytest.approx(20 + 25 + 20)


def test_lines_along_each_other_at_different_heights_are_reported():
    built = build(CORNERS, [[(-10, 0, 1), (10, 0, 1)], [(-5, 0, 2), (5, 0, 2)]])
    assert set(codes(built)) == {"crossing"}
    assert built.honoured == 0.0


def test_a_closed_loop_is_closed_in_the_surface():
    loop = [*box(-10, -10, 10, 10, 2.0), (-10, -10, 2)]
    built = build([*CORNERS, (0, 0, 5)], [loop])
    assert_honoured(built.tin, [loop])
    assert not not_delaunay(built.tin, [loop])
    # Pyramid of 3 on a frustum from 0 (100 wide) to 2 (20 wide).
    assert built.tin.sample([(0, 0), (0, -30)])[0] == pytest.approx([5.0, 1.0])


def test_a_loop_that_closes_at_another_height_is_reported():
    loop = [*box(-10, -10, 10, 10, 2.0), (-10, -10, 2.5)]
    built = build(CORNERS, [loop])
    assert codes(built) == ["crossing"]
    assert "Breakline 1 meets itself at heights 2.000 and 2.500" in built.findings[0].why
    assert built.honoured == pytest.approx(40.0)


def test_equal_points_are_merged_and_points_that_disagree_are_both_left_out():
    built = build([*CORNERS, (1, 1, 5), (1, 1, 5), (1, 1, 5.001), (2, 2, 7), (2, 2, 8)])
    (finding,) = built.findings
    assert finding.code == "duplicate"
    assert "8 and 9" in finding.why
    assert "7.000 and 8.000, 1.000 apart" in finding.why
    assert (built.merged, built.duplicates, built.points) == (2, 1, 7)
    found = {tuple(v) for v in built.tin.vertices.tolist()}
    assert (1, 1, 5) in found
    assert not [v for v in found if v[:2] == (2, 2)]


def test_points_on_a_line_go_through_it_or_are_reported():
    points = [*CORNERS, (-5, 0, 1), (3, 8e-5, 1.001), (6, -5e-5, 1.5), (0, 2e-4, 9)]
    built = build(points, CROSS[:1])
    (finding,) = built.findings
    assert (finding.code, finding.feature) == ("off_line", 7)
    assert "0.500 off" in finding.why
    found = {tuple(v) for v in built.tin.vertices.tolist()}
    assert {(-5, 0, 1), (3, 8e-5, 1.001), (0, 2e-4, 9)} <= found
    assert (6, -5e-5, 1.5) not in found
    assert built.honoured == pytest.approx(20.0)


def test_a_point_on_a_vertex_of_a_line_gives_way_to_it():
    built = build([*CORNERS, (-10, 0, 4)], CROSS[:1])
    assert codes(built) == ["off_line"]
    assert_honoured(built.tin, CROSS[:1])


def test_points_off_the_boundary_are_left_out_and_counted():
    inside = [(x, y, 0.0) for x in range(0, 11, 2) for y in range(0, 11, 2)]
    built = build([*inside, (30, 5, 99)], boundary=boundary_of(box(0, 0, 10, 10)))
    assert (built.outside, built.points) == (1, 36)
    assert_sound(built.tin, 100.0)
    assert built.uncovered == 0.0
    assert not built.findings


def test_a_boundary_without_heights_cuts_and_does_not_change_the_surface():
    rng = np.random.default_rng(3)
    points = np.column_stack((rng.uniform(0, 100, (200, 2)), rng.uniform(0, 5, 200)))
    hole, island = box(40, 40, 80, 80), box(50, 50, 60, 60)
    boundary = boundary_of(box(10, 10, 90, 90), hole, island)
    built = build(points, [[(20, 5, 1), (30, 85, 2)]], boundary)
    missing = 80 * 80 - 40 * 40 + 10 * 10 - built.uncovered
    assert_sound(built.tin, missing)
    # What is left of the line lies along edges up to the boundary, at its own slope.
    z, _ = built.tin.sample([(20.625, 10.0), (25, 45)])
    assert z == pytest.approx([1.0625, 1.5])
    assert built.inside == pytest.approx(np.hypot(10, 80) * 75 / 80, abs=2e-4)
    assert built.honoured == pytest.approx(built.inside)


def test_a_surface_that_does_not_reach_the_boundary_is_reported():
    built = build(box(2, 0, 10, 10, 1.0), boundary=boundary_of(box(0, 0, 10, 10)))
    assert codes(built) == ["uncovered"]
    assert built.uncovered == pytest.approx(20.0)
    assert 0 < built.findings[0].place[0] < 2


def test_a_boundary_with_heights_is_the_edge_of_the_surface():
    outer, hole = box(0, 0, 20, 20, 1.0), box(8, 8, 12, 12, 3.0)
    built = build([(5, 5, 2), (10, 10, 50)], boundary=boundary_of(outer, hole, heights=True))
    assert_sound(built.tin, 400 - 16)
    assert built.outside == 1
    assert_honoured(built.tin, [[*outer, outer[0]], [*hole, hole[0]]])
    assert len(built.tin.boundary_loops()) == 2


def test_a_line_over_a_boundary_with_heights_must_meet_it_at_its_height():
    ring = boundary_of(box(0, 0, 20, 20, 1.0), heights=True)
    good = build(lines=[[(-5, 10, 1), (10, 10, 1)]], boundary=ring)
    assert not good.findings
    assert good.honoured == good.inside == pytest.approx(10.0, abs=2e-4)
    bad = build(lines=[[(-5, 10, 2), (10, 10, 2)]], boundary=ring)
    assert codes(bad) == ["boundary"]
    assert bad.honoured == 0.0
    assert_sound(bad.tin, 400.0)


def test_a_vertex_that_misses_the_boundary_by_less_than_the_snap_distance_is_on_it():
    ring = boundary_of(box(0, 0, 20, 20, 1.0), heights=True)
    line = [(10, 10, 1), (20.00007, 10, 1)]
    built = build(lines=[line], boundary=ring)
    assert not built.findings
    assert_honoured(built.tin, [line])


def test_lines_without_heights_are_refused_or_take_them_from_the_surface():
    points = [(x, y, 0.1 * x) for x in range(0, 21, 5) for y in range(0, 21, 5)]
    line = [(2, 3, np.nan), (17, 11, np.nan)]
    with pytest.raises(LineError, match=r"Breakline 1 has vertices without height"):
        build(points, [line])
    built = build(points, [line], drape=True)
    assert_honoured(built.tin, [[(2, 3, 0.2), (17, 11, 1.7)]])
    off = build(points, [[*line, (40, 11, np.nan)]], drape=True)
    assert codes(off) == ["no_height"]
    assert off.honoured == pytest.approx(17.0)


def test_points_without_heights_are_reported():
    built = build([*CORNERS, (1, 1, np.nan)])
    assert codes(built) == ["no_height"]
    assert built.points == 4


def test_long_edges_at_the_border_are_dropped_but_no_breakline():
    # An L of points a unit apart: its notch is filled by long faces.
    points = [(x, y, 0.0) for x in range(11) for y in range(11) if x <= 3 or y <= 3]
    assert build(points).tin.plan_area == pytest.approx(100 - 49 / 2)
    built = build(points, longest_edge=1.2)
    assert built.tin.plan_area == pytest.approx(100 - 49)
    assert built.dropped > 0
    far = build([*points, (6, 6, 0)], longest_edge=1.2)
    assert codes(far) == ["alone"]
    line = [(3, 10, 0), (10, 3, 0)]
    assert_honoured(build(points, [line], longest_edge=1.2).tin, [line])
    # A line that stands free: the last faces beside it stay, however long their edges.
    free = [(5, 7, 0), (7, 5, 0)]
    assert_honoured(build(points, [free], longest_edge=1.2).tin, [free])


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_a_turned_grid_is_whole_and_without_slivers_at_its_rim(shift):
    y, x = np.divmod(np.arange(900), 30)
    turn = 0.3
    plan = np.column_stack(
        (np.cos(turn) * x - np.sin(turn) * y, np.sin(turn) * x + np.cos(turn) * y)
    )
    built = build(np.column_stack((plan + shift, 0.02 * x)))
    assert_sound(built.tin, 29 * 29)
    assert len(built.tin.faces) == 2 * 29 * 29
    assert built.tin.plan_areas.min() > 0.4


@pytest.mark.parametrize(
    "points", [[], [(0, 0, 0)], [(0, 0, 0), (1, 1, 1), (2, 2, 5), (3, 3, 1)], [(1, 1, 0)] * 5]
)
def test_what_spans_no_area_is_refused(points):
    with pytest.raises(SurfaceError, match=r"\.$"):
        build(points)


def test_three_lines_through_one_place_meet_in_one_vertex():
    ways = [0.3, 1.1, 2.0, 2.9]
    lines = [[(-9 * np.cos(w), -9 * np.sin(w), 1), (9 * np.cos(w), 9 * np.sin(w), 1)] for w in ways]
    built = build(CORNERS, lines)
    assert built.crossings == 1
    assert_honoured(built.tin, lines)
    centre = [row for row, v in enumerate(built.tin.vertices) if abs(v[0]) + abs(v[1]) < 1e-3]
    assert len([pair for pair in edge_set(built.tin) if centre[0] in pair]) == 8


@pytest.mark.parametrize("share", [0.05, 0.3, 0.7, 0.9])
def test_it_stops_when_asked_to(share):
    def stop(done):
        if done >= share:
            raise Cancelled

    rng = np.random.default_rng(0)
    points = Points(rng.uniform(0, 100, (500, 3)), np.arange(500))
    lines = Breaklines([np.array(RIDGE, dtype=float)], np.array([1]))
    with pytest.raises(Cancelled):
        build_tin(points, lines, boundary_of(box(1, 1, 99, 99)), Manner(), stop)
