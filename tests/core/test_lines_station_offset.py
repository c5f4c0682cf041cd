"""Station and offset of points against closed forms, other code and shapely."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.station_offset import feet_of_points

from .lines_shapes import L_SHAPE, brute_signed, lines_of, wander


def test_right_of_the_line_is_positive():
    # LandXML 1.2, offsetDistance: positive to the right of the line.
    found = feet_of_points(lines_of([(0, 0, 10), (100, 0, 12)]), np.array([(25.0, -3.0), (50, 4)]))
    assert found.distance.tolist() == [25.0, 50.0]
    assert found.offset.tolist() == [3.0, -4.0]
    assert found.z == pytest.approx([10.5, 11.0])
    assert np.isnan(found.other).all()


def test_beyond_an_open_end_there_is_no_side():
    found = feet_of_points(lines_of([(0, 0), (100, 0)]), np.array([(110.0, 1.0), (-5, 0)]))
    assert found.beyond.tolist() == [True, True]
    assert np.isnan(found.offset).all()
    assert found.away == pytest.approx([np.hypot(10, 1), 5.0])


def test_inside_a_bend_a_second_foot_is_told():
    found = feet_of_points(lines_of(L_SHAPE), np.array([(25.0, 15.0), (25, 14), (32, 8)]))
    # On the bisector both legs are as near; off it, or outside the corner, one is.
    assert found.other[0] in (pytest.approx(15.0), pytest.approx(25.0))
    assert np.isnan(found.other[1:]).all()


def test_near_the_centre_of_an_arc_many_feet_are_told():
    turn = np.linspace(0, np.pi, 40)
    arc = lines_of(10 * np.column_stack((np.cos(turn), np.sin(turn))))
    found = feet_of_points(arc, np.array([(0.0, 0.05), (0.0, 8.0)]))
    assert np.isfinite(found.other[0])
    assert np.isnan(found.other[1])


def test_the_nearest_line_or_all_within_reach():
    lines = lines_of([(0, 0), (100, 0)], [(0, 10), (100, 10)], [(0, 90), (100, 90)])
    points = np.array([(50.0, 4.0), (50.0, 400.0)])
    nearest = feet_of_points(lines, points, 50.0)
    assert (nearest.point.tolist(), nearest.line.tolist()) == ([0], [0])
    every = feet_of_points(lines, points, 50.0, every=True)
    assert every.line.tolist() == [0, 1]
    assert every.offset.tolist() == [-4.0, 6.0]
    assert len(feet_of_points(lines, points, every=True).point) == 6


@settings(max_examples=80, deadline=None)
@given(seed=st.integers(0, 10**6), shift=st.sampled_from([0.0, 1e7]), mirror=st.booleans())
def test_against_shapely_and_a_point_by_point_judge(seed, shift, mirror):
    random = np.random.default_rng(seed)
    line = wander(seed, 15)[:, :2] * ((-1, 1) if mirror else (1, 1)) + shift
    points = line[random.integers(0, 15, 30)] + random.normal(0, 3, (30, 2))
    found = feet_of_points(lines_of(line), points)
    path = shapely.linestrings(line)
    assert found.away == pytest.approx(shapely.distance(shapely.points(points), path), abs=1e-7)
    along = shapely.line_locate_point(path, shapely.points(points))
    assert found.distance == pytest.approx(along, abs=1e-6)
    sure = np.isfinite(found.offset) & np.isnan(found.other)
    assert found.offset[sure] == pytest.approx(brute_signed(line, points)[sure], abs=1e-6)
