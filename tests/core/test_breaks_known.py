"""Found breaks beside drawn lines: exact lengths, and what must not count as drawn."""

import itertools

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.breaks import Kind, Search, find_breaks
from plugin.core.breaks.known import bundled, compare
from plugin.core.lines.bundle import Lines
from plugin.core.tin import Tin

DISTANCE = 0.5


def lines(*coordinates):
    return Lines.from_arrays([np.asarray(each, float) for each in coordinates])


def shares(found, drawn, distance=DISTANCE, **more):
    one, other = compare(lines(*found), lines(*drawn), distance, **more)
    return one.share.tolist(), other.share.tolist()


def test_a_line_drawn_half_the_way():
    found, drawn = compare(lines([(0, 0), (10, 0)]), lines([(2, 0.1), (6, 0.1)]), DISTANCE)
    np.testing.assert_allclose(found.start, [0, 2, 6])
    np.testing.assert_allclose(found.stop, [2, 6, 10])
    assert found.matched.tolist() == [False, True, False]
    assert found.partner.tolist() == [-1, 0, -1]
    assert found.share.tolist() == pytest.approx([0.4])
    assert drawn.share.tolist() == pytest.approx([1])
    assert found.total(matched=False) == pytest.approx(6)
    assert drawn.total(matched=False) == 0


def test_the_direction_a_line_is_drawn_in_has_no_part():
    assert shares([[(0, 0), (10, 0)]], [[(6, 0.1), (2, 0.1)]])[0] == pytest.approx([0.4])


def test_past_the_end_of_a_drawn_line_nothing_is_drawn():
    """No round caps: 0.3 past the end lies within the distance, but not beside the line."""
    assert shares([[(0, 0), (10, 0)]], [[(0, 0), (9.7, 0)]])[0] == pytest.approx([0.97])


@pytest.mark.parametrize(("apart", "share"), [(0.49, 1), (0.51, 0)])
def test_distance(apart, share):
    assert shares([[(0, 0), (10, 0)]], [[(0, apart), (10, apart)]]) == ([share], [share])


@pytest.mark.parametrize(("degrees", "matched"), [(14.9, True), (15.1, False), (90, False)])
def test_angle(degrees, matched):
    turn = np.radians(degrees)
    across = 5 * np.array([np.cos(turn), np.sin(turn)])
    found, drawn = shares([[(-10, 0), (10, 0)]], [[-across, across]])
    reach = 2 * DISTANCE / np.sin(turn)
    assert drawn == pytest.approx([reach / 10 if matched else 0])
    assert (found[0] > 0) is matched


def test_a_line_that_runs_out_of_reach_is_cut_there_exactly():
    # 1 in 10 away from the found line: 0.5 apart, square to the drawn one, at x of the foot.
    slope = np.hypot(10, 1)
    found, _ = compare(lines([(0, 0), (10, 0)]), lines([(0, 0), (10, 1)]), DISTANCE)
    assert found.stop[0] == pytest.approx(DISTANCE * slope)


def test_a_drawn_line_cut_at_every_vertex_covers_without_gaps():
    x = np.linspace(0, 10, 101)
    pieces = [[(a, 0), (b, 0)] for a, b in itertools.pairwise(x)]
    found, drawn = compare(lines([(0, 0.2), (10, 0.2)]), lines(*pieces), DISTANCE)
    assert found.matched.tolist() == [True]
    assert drawn.matched.all()


def test_outer_corners_of_a_drawn_curve_are_covered():
    turn = np.linspace(0, np.pi, 40)
    circle = np.column_stack((np.cos(turn), np.sin(turn)))
    found, drawn = compare(lines(10 * circle), lines(9.6 * circle), DISTANCE)
    # The ends are square to the first and last chord, which lean by half a step.
    lost = 0.4 * np.sin(np.pi / 39 / 2)
    assert found.matched.tolist() == [False, True, False]
    np.testing.assert_allclose((found.stop - found.start)[[0, 2]], lost, rtol=0.01)
    assert drawn.matched.tolist() == [True]


def test_jogs_smaller_than_the_distance_are_no_directions():
    x = np.arange(0, 40) / 4
    zig_zag = np.column_stack((x, 0.2 * (np.arange(40) % 2)))
    assert shares([zig_zag], [[(-1, 0.1), (11, 0.1)]])[0] == pytest.approx([1])


def test_the_foot_of_a_curb_does_not_stand_for_its_top():
    foot, top = [(0, 0), (10, 0)], [(0, 0.1), (10, 0.1)]
    assert shares([foot, top], [foot])[0] == pytest.approx([1, 0])
    assert shares([foot, top], [top])[0] == pytest.approx([0, 1])
    assert shares([foot, top], [foot, top])[0] == pytest.approx([1, 1])
    # And the other way: of two drawn lines the one that is a break confirms no other.
    assert shares([foot], [foot, top])[1] == pytest.approx([1, 0])


def test_along_a_curve_the_line_outside_is_no_break_at_its_corners_either():
    turn = np.linspace(0, np.pi, 25)
    circle = np.column_stack((np.cos(turn), np.sin(turn)))
    _, drawn = compare(lines(10 * circle), lines(10 * circle, 10.2 * circle), DISTANCE)
    assert drawn.share.tolist() == [1, 0]


def test_segments_join_without_gaps_however_small_the_distance():
    x = np.cumsum(np.random.default_rng(1).uniform(100, 2000, 1000))
    line = np.column_stack((x, 0.3 * x))
    found, drawn = compare(lines(line), lines(line[::-1]), 1e-5)
    assert found.matched.tolist() == drawn.matched.tolist() == [True]


def test_a_step_of_a_thousandth():
    foot, top = [(0, 0), (10, 0)], [(0, 0.001), (10, 0.001)]
    assert shares([foot, top], [foot])[0] == pytest.approx([1, 0])


def test_lines_shifted_as_a_whole_still_match():
    """0.2 aside, with breaks 0.5 apart: what lies between two breaks is clearly nearer to none."""
    found = [[(0, 0), (10, 0)], [(0, 0.5), (10, 0.5)]]
    drawn = [[(0, 0.2), (10, 0.2)], [(0, 0.7), (10, 0.7)]]
    assert shares(found, drawn) == (pytest.approx([1, 1]), pytest.approx([1, 1]))


def test_lines_drawn_twice_are_both_breaks():
    line = [(0, 0), (10, 0)]
    assert shares([line], [line, line]) == ([1], [1, 1])


def test_a_rival_counts_where_it_is_clearly_nearer_only():
    """The other break comes in from 0.4: from where it is half as far it takes the drawn line."""
    found = [[(0, 0.2), (10, 0.2)], [(0, -0.4), (10, 0)]]
    share, _ = shares(found, [[(0, 0), (10, 0)]])
    # 0.4 - 0.04 x = 0.1 at x = 7.5.
    assert share[0] == pytest.approx(0.75)


def test_closed_lines_go_on_over_their_first_vertex():
    turn = np.linspace(0, 2 * np.pi, 61)
    ring = np.column_stack((np.cos(turn), np.sin(turn)))
    found, drawn = compare(lines(10 * ring), lines(9.7 * ring), DISTANCE)
    assert found.matched.tolist() == drawn.matched.tolist() == [True]
    rolled = 9.7 * np.vstack((ring[20:-1], ring[:21]))
    found, drawn = compare(lines(10 * ring), lines(rolled), DISTANCE)
    assert found.matched.tolist() == drawn.matched.tolist() == [True]


def test_the_partner_is_the_line_that_covers_most():
    found, _ = compare(
        lines([(0, 0), (10, 0)]), lines([(0, 0), (3, 0)], [(3, 0), (10, 0)]), DISTANCE
    )
    assert found.partner.tolist() == [1]


def test_lines_without_plan_length_are_left_out_of_a_bundle():
    """The outline of an upright wall alone, and that of a floor with a wall at its end."""
    wall = np.array([(0, 0, 0), (0, 9, 0), (0, 9, 2), (0, 0, 2)], float)
    floor = np.array([(5, 0, 0), (9, 0, 0), (9, 4, 0), (5, 4, 0), (9, 0, 3), (9, 4, 3)], float)
    faces = [(4, 5, 6), (4, 6, 7), (5, 8, 6), (6, 8, 9)]
    surface = Tin.from_arrays(np.vstack((wall, floor)), [(0, 1, 2), (0, 2, 3), *faces])
    found = find_breaks(surface, Search(0.02, kinds=[Kind.EDGE])).lines
    bundle, rows = bundled(found)
    assert rows.tolist() == [0, 1]
    np.testing.assert_allclose(bundle.lengths, found.length[rows])
    np.testing.assert_allclose(bundle.lengths, [18, 16])
    assert (bundle.segment_lengths > 0).all()
    empty, rows = bundled(find_breaks(surface, Search(0.02, kinds=[Kind.RIDGE])).lines)
    assert (len(empty), len(rows)) == (0, 0)


def test_nothing_drawn_and_nothing_found():
    line = lines([(0, 0), (10, 0)])
    found, drawn = compare(line, lines(), DISTANCE)
    assert (found.share.tolist(), len(drawn)) == ([0], 0)
    found, drawn = compare(lines(), line, DISTANCE)
    assert (len(found), drawn.matched.tolist()) == (0, [False])


@st.composite
def walks(draw):
    """A few lines that wander, with sides longer than the distance."""
    result = []
    for _ in range(draw(st.integers(1, 3))):
        count = draw(st.integers(2, 7))
        step = st.floats(1.2, 4.0)
        turn = draw(st.lists(st.floats(-0.6, 0.6), min_size=count, max_size=count))
        size = draw(st.lists(step, min_size=count, max_size=count))
        way = draw(st.floats(0, 6.28)) + np.cumsum(turn)
        start = [draw(st.floats(-4, 4)), draw(st.floats(-4, 4))]
        move = np.column_stack((np.cos(way), np.sin(way))) * np.array(size)[:, None]
        result.append(np.vstack((start, start + np.cumsum(move, axis=0))))
    return result


@given(walks(), walks(), st.floats(0, 6.28))
def test_places_are_matched_by_their_distance(found, drawn, turn):
    """GEOS, as a reference: distance, and where on the drawn line the nearest place lies."""
    found, drawn = lines(found[0]), lines(drawn[0])
    # Turned and moved as a whole, nothing changes.
    c, s = np.cos(turn), np.sin(turn)
    far = [lines(each.xy @ np.array([[c, s], [-s, c]]) + (1e6, 5e6)) for each in (found, drawn)]
    cut, _ = compare(found, drawn, DISTANCE, angle=89.9999)
    moved, _ = compare(*far, DISTANCE, angle=89.9999)
    assert moved.total(matched=True) == pytest.approx(cut.total(matched=True), abs=1e-3)
    place = np.linspace(0, found.lengths[0], 400)
    points = shapely.line_interpolate_point(found.geometries[0], place)
    away = shapely.distance(points, drawn.geometries[0])
    foot = shapely.line_locate_point(drawn.geometries[0], points)
    margin = 1e-6
    beside = (foot > margin) & (foot < drawn.lengths[0] - margin)
    matched = cut.matched[np.searchsorted(cut.start, place, side="right") - 1]
    clear = np.abs(place[:, None] - np.append(cut.start, cut.stop)).min(axis=1) > margin
    assert matched[clear & beside & (away < DISTANCE - margin)].all()
    assert not matched[clear & (away > DISTANCE + margin)].any()


@given(walks(), walks())
def test_stretches_cover_each_line_and_alternate(found, drawn):
    sets = lines(*found), lines(*drawn)
    for own, cut in zip(sets, compare(*sets, DISTANCE), strict=True):
        for k in range(len(own)):
            mine = np.flatnonzero(cut.line == k)
            assert cut.start[mine[0]] == 0
            assert cut.stop[mine[-1]] == own.lengths[k]
            assert (cut.start[mine[1:]] == cut.stop[mine[:-1]]).all()
            assert (cut.matched[mine[1:]] != cut.matched[mine[:-1]]).all()
            length = ((cut.stop - cut.start) * cut.matched)[mine].sum()
            assert length == pytest.approx(cut.share[k] * own.lengths[k])
        assert ((cut.partner >= 0) == cut.matched).all()
