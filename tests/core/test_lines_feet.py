"""Stations and heights of parallels are those of the line's place square beside them."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.arcs import Arcs
from plugin.core.lines.bundle import Lines
from plugin.core.lines.corners import SOFT, Join, JoinStyle
from plugin.core.lines.feet import with_feet
from plugin.core.lines.parallel import parallels
from plugin.core.lines.stations import elevation_at, project

from .lines_shapes import wander

RIGHT_ANGLE = [(0, 0, 1), (40, 0, 2), (40, 40, 3)]
SAMPLES = 401


def beside(points, offset, join=Join.MITRE, at=(0.0, 0.0)):
    """The source, and what is laid beside it, stations and heights included."""
    points = np.array(points, float)
    points[:, :2] += at
    lines = Lines.from_arrays([points])
    made = parallels(lines, offset, JoinStyle(join))
    return lines, with_feet(lines, Arcs.none(lines), made, 1e-3)


def read(made, piece, place):
    """Station and height at places along a piece, as one reads them off the written line."""
    rows = made.lines.line(piece)
    along = made.lines.stations[rows]
    return np.interp(place, along, made.station[rows]), np.interp(place, along, made.lines.z[rows])


@pytest.mark.parametrize("join", Join)
def test_outside_a_right_angle_station_and_height_are_those_of_the_line(join):
    _, made = beside(RIGHT_ANGLE, 3.0, join)
    for place in (0.0, 5.0, 20.0, 40.0):
        station, z = read(made, 0, place)
        assert (station, z) == pytest.approx((place, 1 + place / 40), abs=1e-9)
    end = made.lines.lengths[0]
    assert read(made, 0, end - 20.0) == pytest.approx((60.0, 2.5), abs=1e-9)
    assert read(made, 0, end / 2) == pytest.approx((40.0, 2.0), abs=1e-9)  # the tip


def test_inside_a_right_angle_the_two_feet_are_reconciled_within_the_offset():
    _, made = beside(RIGHT_ANGLE, -3.0)
    for place in (0.0, 20.0, 34.0):
        assert read(made, 0, place) == pytest.approx((place, 1 + place / 40), abs=1e-9)
    assert read(made, 0, 37.0) == pytest.approx((40.0, 2.0), abs=1e-9)  # mean of 37 and 43
    for place in (40.0, 60.0, 74.0):
        station = place + 6.0
        assert read(made, 0, place) == pytest.approx((station, 1 + station / 40), abs=1e-9)


@pytest.mark.parametrize("way", [1, -1])
def test_round_the_tip_of_an_outer_corner_beside_an_inner_one_they_stay_level(way):
    """Tips of a zigzag meet: along the offset they run to the mean, beyond it they are level."""
    zigzag = [(0, 0, 0), (6, 10.4, 1), (9.4, -5.3, 2), (10.8, 9.3, 5), (11.5, -5, 7)][::way]
    lines, made = beside(zigzag, -3.0 * way, Join.BEVEL)
    corner = lines.stations[3 if way > 0 else 1]
    tip = np.abs(made.station - corner) < 1e-9
    first = made.lines.stations[tip].min() if way > 0 else made.lines.stations[tip].max()
    # Where the two tips meet the station is the mean; the next 3 ft run on to that of the corner.
    meet = made.lines.stations[~tip & (np.abs(made.station - corner) < 16)]
    nearest = meet[np.abs(meet - first).argmin()]
    assert abs(nearest - first) == pytest.approx(3.0, abs=1e-9)
    assert made.lines.z[tip] == pytest.approx(5.0, abs=1e-12)


def test_a_ring_that_starts_where_two_tips_meet_is_level_round_both_beyond_the_offset():
    ring = [(9.49, -0.69, 0), (19.42, -4.8, 1), (4.07, -10.16, 2), (-16.4, -18.59, 3)]
    ring += [(-15.63, -14.79, 4), (-14.2, 19.09, 5), (-5.39, 20.29, 6), (23.25, 4.89, 7), ring[0]]
    lines, made = beside(ring, -8.0, Join.BEVEL)
    assert made.lines.closed.tolist() == [True]
    for place, corner in ((8.0, 1), (made.lines.lengths[0] - 8.0, 7)):
        assert read(made, 0, place) == pytest.approx((lines.stations[corner], corner), abs=1e-9)


@pytest.mark.parametrize("offset", [-1.0, 1.0])
def test_round_a_ring_stations_run_on_and_meet_its_length(offset):
    ring = [(0, 0, 1), (10, 0, 2), (10, 10, 3), (0, 10, 4), (0, 0, 1)]
    _, made = beside(ring, offset)
    assert made.station[[0, -1]].tolist() == [0.0, 40.0] and made.lines.closed.all()
    assert (np.diff(made.station) >= 0).all()
    assert np.array_equal(made.lines.xy[0], made.lines.xy[-1])
    assert made.lines.z[[0, -1]].tolist() == [1.0, 1.0]
    side = 10 + 2 * offset
    for n in range(4):  # the middle of each side
        assert read(made, 0, (n + 0.5) * side)[0] == pytest.approx(5 + 10 * n)


def test_a_dense_curve_gets_no_more_vertices():
    turn = np.linspace(0, np.pi, 181)
    curve = np.column_stack((50 * np.cos(turn), 50 * np.sin(turn), turn))
    for offset in (-5.0, 5.0):
        lines, made = beside(curve, offset)
        assert len(made.lines.xy) == len(lines.xy)


def test_a_short_side_between_inner_corners_keeps_its_middle():
    _, made = beside([(0, 20, 5), (0, 0, 3), (8, 0, 2), (8, 20, 0)], -3.0)
    assert read(made, 0, made.lines.lengths[0] / 2) == pytest.approx((24.0, 2.5), abs=1e-9)
    assert (np.diff(made.station) > 0).all()


@settings(max_examples=150, deadline=None)
@given(
    st.integers(0, 10_000),
    st.floats(0.1, 1.2),
    st.sampled_from([-4.0, -1.0, 1.0, 4.0]),
    st.sampled_from(list(Join)),
    st.sampled_from([(0.0, 0.0), (2.1e6, 6.4e5)]),
)
def test_everywhere_but_at_inner_corners(seed, bend, offset, join, at):
    xy = wander(seed, count=14, step=(3.0, 24.0), bend=bend)[:, :2]
    points = np.column_stack((xy, np.random.default_rng(seed).normal(0, 1, len(xy)).cumsum()))
    lines, made = beside(points, offset, join, at)
    steepest = np.abs(np.diff(lines.z) / lines.segment_lengths).max()
    for piece in range(len(made.lines)):
        rows = made.lines.line(piece)
        place = np.linspace(0.0, made.lines.lengths[piece], SAMPLES)
        station, z = read(made, piece, place)
        spot = shapely.get_coordinates(
            shapely.line_interpolate_point(made.lines.geometries[piece], place)
        )
        foot = project(lines, np.zeros(SAMPLES, int), spot)
        allowed = max(1e-3, abs(offset) * np.tan(SOFT / 2)) + 1e-6
        # Inner corners: as near to one part of the line as to another.
        corner = project(lines, np.zeros(rows.stop - rows.start, int), made.lines.xy[rows])
        inner = made.lines.stations[rows][np.abs(corner - made.station[rows]) > allowed / 2]
        gap = np.abs(place[:, None] - inner).min(axis=1, initial=np.inf)
        apart = (np.abs(foot - station) <= allowed) | (gap <= abs(offset) * (1 + 1e-9))
        assert apart.all()
        own = elevation_at(lines, np.zeros(SAMPLES, int), station)
        clear = gap > abs(offset)
        assert np.abs(own - z)[clear].max(initial=0.0) <= 2 * allowed * steepest + 1e-9


def test_at_an_inner_corner_with_a_dense_curve_no_height_jumps():
    """The station runs to the mean over several chords, not within the first of them."""
    turn = np.linspace(0, np.pi / 2, 91)
    curve = np.column_stack((50 - 20 * np.cos(turn), 20 * np.sin(turn)))  # leaves at a right angle
    points = np.vstack(([(0, 0)], curve))
    points = np.column_stack((points, np.linspace(0, 1, len(points))))
    _, made = beside(points, -3.0)
    size = np.hypot(*np.diff(made.lines.xy, axis=0).T)
    assert (np.diff(made.station) <= 2.5 * size).all()
    assert (np.diff(made.station) >= 0).all()
