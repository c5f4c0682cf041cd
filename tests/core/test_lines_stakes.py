"""Stakes along and beside lines, with places and heights known in closed form."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.bundle import Lines
from plugin.core.lines.stakes import Reason, Wanted, grades_to_next, set_out
from plugin.core.lines.stationing import Stationing

from .lines_shapes import L_SHAPE, brute_signed, lines_of, wander

STRAIGHT = [(1000, 500, 20), (1130, 500, 22.6)]  # 2 % up to the east


def stakes(lines, start=0.0, offsets=(0.0,), **wanted):
    return set_out(lines, Stationing.of(lines, start), Wanted(**wanted), np.array(offsets))


def test_stakes_stand_at_round_stations_and_at_both_ends():
    made = stakes(lines_of(STRAIGHT), start=1210.0, interval=50.0)
    assert made.distance.tolist() == [0.0, 40.0, 90.0, 130.0]
    assert made.xy[:, 0].tolist() == [1000.0, 1040.0, 1090.0, 1130.0]
    assert made.z == pytest.approx([20.0, 20.8, 21.8, 22.6])
    assert made.reason.tolist() == [Reason.START, Reason.INTERVAL, Reason.INTERVAL, Reason.END]


def test_an_end_at_a_round_station_is_one_stake_with_both_reasons():
    made = stakes(lines_of([(0, 0), (100, 0)]), interval=50.0)
    assert made.distance.tolist() == [0.0, 50.0, 100.0]
    assert made.reason[0] == Reason.START | Reason.INTERVAL
    assert made.reason[2] == Reason.END | Reason.INTERVAL


def test_offsets_stand_square_to_the_line_right_positive():
    made = stakes(lines_of(STRAIGHT), offsets=(5.0, -3.0, 0.0))
    assert made.offset.tolist() == [-3.0, 0.0, 5.0] * 2
    # Going east, right is south.
    assert made.xy[:3, 1].tolist() == [503.0, 500.0, 495.0]
    assert made.clear.all()


def test_a_stake_at_a_corner_is_the_offset_away_from_both_sides():
    # The mitred offset example of a general-purpose GIS library, also given by GEOS:
    # (10,10)(30,10)(30,30) 2 to the right turns at (32,8), 2 to the left at (28,12).
    made = stakes(lines_of(L_SHAPE), offsets=(2.0, -2.0), vertices=True)
    corner = made.distance == 20.0
    assert made.xy[corner].tolist() == [pytest.approx([28, 12]), pytest.approx([32, 8])]
    assert made.clear.all()


def test_listed_stations_grade_breaks_and_arc_ends():
    line = [(0, 0, 0), (20, 0, 0.4), (40, 0, 0.8), (70, 0, 3.8)]
    lines = lines_of(line)
    made = stakes(lines, start=100.0, listed=np.array([112.5, 500.0]), grade_break=0.05)
    assert made.distance.tolist() == [0.0, 12.5, 40.0, 70.0]
    assert made.reason.tolist() == [Reason.START, Reason.LISTED, Reason.BREAK, Reason.END]
    arcs = np.array([False, True, False, False])
    assert stakes(lines, arcs=arcs).distance.tolist() == [0.0, 20.0, 70.0]
    assert stakes(lines, vertices=True).distance.tolist() == [0.0, 20.0, 40.0, 70.0]


def test_inside_a_tight_bend_a_stake_is_told_when_another_part_is_nearer():
    hairpin = lines_of([(0, 0), (50, 0), (50, 4), (0, 4)])
    made = stakes(hairpin, interval=10.0, offsets=(-3.0, 3.0))
    inside = made.offset < 0  # left of it lies its own other leg
    assert not made.clear[inside & (made.distance == 10.0)].any()
    assert made.clear[~inside].all()


def test_the_grade_to_the_next_stake_is_that_of_the_plane():
    made = stakes(lines_of(STRAIGHT), interval=25.0, offsets=(0.0, 4.0))
    # An inclined plane: 2 % up to the east, 5 % up to the north.
    height = 20 + 0.02 * (made.xy[:, 0] - 1000) + 0.05 * (made.xy[:, 1] - 500)
    grade = grades_to_next(made, height)
    last = made.distance == 130.0
    assert np.isnan(grade[last]).all()
    assert grade[~last] == pytest.approx(0.02)
    assert grades_to_next(made, height, z_scale=0.5)[~last] == pytest.approx(0.01)


@settings(max_examples=80, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    start=st.floats(-500, 5000),
    interval=st.floats(0.7, 30),
    shift=st.sampled_from([0.0, 1e7]),
)
def test_stations_by_projection_and_offsets_by_other_code(seed, start, interval, shift):
    line = wander(seed, 12) + np.array([shift, shift, 0])
    lines = lines_of(line)
    made = stakes(lines, start=start, interval=interval, offsets=(-0.8, 0.8))
    clear = made.clear
    signed = brute_signed(line[:, :2], made.xy[clear])
    inner = (made.distance > 1e-6) & (made.distance < lines.lengths[0] - 1e-6)
    at_vertex = np.abs(made.distance[:, None] - lines.stations).min(axis=1) < 1e-3
    plain = (inner & ~at_vertex)[clear]
    assert signed[plain] == pytest.approx(made.offset[clear][plain], abs=1e-3)
    along = shapely.line_locate_point(shapely.linestrings(line[:, :2]), shapely.points(made.xy))
    near = np.abs(along - made.distance) < 1e-5
    # Where another part is as near by a hair, the projection may be there.
    away = shapely.distance(shapely.points(made.xy), shapely.linestrings(line[:, :2]))
    tied = np.abs(away - np.abs(made.offset)) <= 1e-3
    assert (near | tied)[clear & inner & ~at_vertex].all()
    rounded = made.reason == Reason.INTERVAL
    ratio = (made.distance[rounded] + start) / interval
    assert ratio == pytest.approx(np.round(ratio), abs=1e-6)


def test_drawn_the_other_way_the_same_stakes_have_the_other_sign():
    line = wander(5, 15)
    one = stakes(lines_of(line), offsets=(-1.0, 1.0), vertices=True)
    other = stakes(lines_of(line[::-1]), offsets=(-1.0, 1.0), vertices=True)
    there = {
        tuple(np.round(xy, 6)): offset for xy, offset in zip(other.xy, other.offset, strict=True)
    }
    for xy, offset in zip(one.xy, one.offset, strict=True):
        assert there[tuple(np.round(xy, 6))] == -offset


def test_round_a_ring_stations_run_to_its_length():
    ring = Lines.from_arrays([np.array([(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)], float)])
    made = stakes(ring, interval=15.0, offsets=(1.0,))
    assert made.distance.tolist() == [0.0, 15.0, 30.0, 40.0]
    # The corner at the start is a corner like the others.
    assert made.xy[0] == pytest.approx([-1.0, -1.0])
    assert made.xy[-1] == pytest.approx([-1.0, -1.0])
