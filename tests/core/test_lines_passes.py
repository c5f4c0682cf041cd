"""Passes over areas: counts and areas in closed form, and nothing uncovered unsaid."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from plugin.core.lines.passes import Fit, Manner, longest_side, plan_passes, straight_line

FIELD = shapely.box(0, 0, 100, 30)


def passes(area, bearing=90.0, **manner):
    manner = Manner(**{"width": 10.0, **manner})
    return plan_passes(area, straight_line(area, bearing), manner)


def test_a_field_of_three_widths_takes_three_passes_to_and_fro():
    made = passes(FIELD)
    assert made.number.tolist() == [1, 2, 3]
    assert made.ahead.tolist() == [True, False, True]
    # Going east, the first pass is the one on the left: half a width from the north edge.
    assert [np.round(xy, 9).tolist() for xy in made.xy] == [
        [[0, 25], [100, 25]], [[100, 15], [0, 15]], [[0, 5], [100, 5]]
    ]  # fmt: skip
    assert made.offset == pytest.approx([-10, 0, 10])
    assert shapely.area(made.covered) == pytest.approx(3000)
    assert shapely.is_empty(made.left_over)
    assert made.twice == pytest.approx(0, abs=1e-9)


def test_from_the_right_and_all_one_way():
    made = passes(FIELD, from_right=True, to_and_fro=False)
    assert [np.round(xy[0], 9).tolist() for xy in made.xy] == [[0, 5], [0, 15], [0, 25]]
    assert made.ahead.all()


def test_overlap_adds_passes_and_even_spreads_what_is_left():
    even = passes(FIELD, overlap=1.0)
    assert even.offset == pytest.approx([-10, -10 / 3, 10 / 3, 10])
    assert even.twice == pytest.approx(100 * (40 - 30))
    fixed = passes(FIELD, overlap=1.0, fit=Fit.FIXED)
    assert fixed.offset == pytest.approx([-10, -1, 8, 10])
    assert shapely.is_empty(fixed.left_over)
    right = passes(FIELD, overlap=1.0, fit=Fit.FIXED, from_right=True)
    assert right.offset == pytest.approx([10, 1, -8, -10])


def test_an_area_narrower_than_the_width_takes_one_pass_down_its_middle():
    made = passes(shapely.box(0, 0, 100, 6))
    assert [np.round(xy, 9).tolist() for xy in made.xy] == [[[0, 3], [100, 3]]]


def test_the_longest_side_gives_the_direction():
    assert longest_side(FIELD) == pytest.approx(90.0)
    turned = affinity.rotate(FIELD, 30, origin=(0, 0))  # anticlockwise: to bearing 60
    assert longest_side(turned) == pytest.approx(60.0)


def test_a_hole_interrupts_a_pass_and_its_pieces_keep_the_order_of_driving():
    area = FIELD.difference(shapely.box(40, 10, 60, 20))
    made = passes(area)
    assert made.number.tolist() == [1, 2, 2, 3]
    # The second pass is driven west: the eastern piece first.
    assert np.round(made.xy[1], 9).tolist() == [[100, 15], [60, 15]]
    assert np.round(made.xy[2], 9).tolist() == [[40, 15], [0, 15]]
    assert shapely.area(made.covered) == pytest.approx(2800)


def test_a_margin_stays_free_to_turn_and_is_left_over():
    made = passes(FIELD, margin=4.0)
    assert np.round(made.xy[0], 9).tolist() == [[4, 25], [96, 25]]
    assert shapely.area(made.left_over) == pytest.approx(2 * 4 * 30)


def test_slanted_ends_leave_triangles_over():
    slanted = shapely.Polygon([(0, 0), (100, 0), (110, 10), (10, 10)])
    made = passes(slanted)
    # The strip ends square where the middle of the pass does: a triangle of half the width each.
    assert shapely.area(made.left_over) == pytest.approx(2 * 5 * 5 / 2)
    assert shapely.area(made.covered) + shapely.area(made.left_over) == pytest.approx(1000)


def test_passes_follow_a_curved_line_on_both_sides():
    turn = np.radians(np.linspace(180, 0, 400))
    line = 50 * np.column_stack((np.cos(turn), np.sin(turn)))
    ring = (
        shapely.Point(0, 0)
        .buffer(60, quad_segs=90)
        .difference(shapely.Point(0, 0).buffer(40, quad_segs=90))
    )
    half = ring.intersection(shapely.box(-100, 0, 100, 100))
    made = plan_passes(half, line, Manner(5.0))
    assert made.number.max() == 4
    # Clockwise round the centre its right is inside: radii 57.5 ... 42.5.
    for xy, offset in zip(made.xy, made.offset, strict=True):
        assert np.hypot(*xy.T) == pytest.approx(50 - offset, abs=0.02)
    assert shapely.area(made.covered) / shapely.area(half) > 0.995


@settings(max_examples=60, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    bearing=st.floats(0, 360),
    width=st.floats(2, 25),
    share=st.floats(0, 0.6),
    fit=st.sampled_from(list(Fit)),
    shift=st.sampled_from([0.0, 1e7]),
)
def test_every_place_is_near_a_pass_or_left_over(seed, bearing, width, share, fit, shift):
    random = np.random.default_rng(seed)
    turn = np.sort(random.uniform(0, 2 * np.pi, 12))
    reach = random.uniform(10, 60, 12)
    area = shapely.Polygon(np.column_stack((np.cos(turn), np.sin(turn))) * reach[:, None] + shift)
    hole = shapely.Point(shift, shift).buffer(3)
    area = shapely.make_valid(area).difference(hole)
    if area.is_empty or shapely.area(area) < 1:
        return
    manner = Manner(width, share * width, fit)
    made = plan_passes(area, straight_line(area, bearing), manner)
    total = shapely.area(made.covered) + shapely.area(made.left_over)
    assert total == pytest.approx(shapely.area(area), rel=1e-7)
    low_x, low_y, high_x, high_y = area.bounds
    spots = shapely.points(random.uniform((low_x, low_y), (high_x, high_y), (200, 2)))
    spots = spots[shapely.contains(area, spots)]
    driven = shapely.multilinestrings([shapely.linestrings(xy) for xy in made.xy])
    near = shapely.distance(spots, driven) <= width / 2 + 1e-6
    left = shapely.dwithin(spots, made.left_over, 1e-6)
    assert (near | left).all()
    for xy in made.xy:
        assert shapely.covers(shapely.buffer(area, 1e-6), shapely.linestrings(xy))


@pytest.mark.parametrize("manner", [{"width": 0.0}, {"overlap": 10.0}, {"width": 1e-4}])
def test_what_makes_no_sense_is_refused(manner):
    with pytest.raises(ValueError, match=r"width|passes"):
        passes(FIELD, **manner)
