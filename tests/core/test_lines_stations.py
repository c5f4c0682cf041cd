"""Bundles of lines and stations along them."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.errors import LineError
from plugin.core.lines.bundle import Lines
from plugin.core.lines.stations import cut, elevation_at, locate, point_at, project

from .lines_shapes import SQUARE, lines_of, wander


def test_stations_of_each_line_do_not_depend_on_the_others():
    one, other = wander(1), np.add(wander(2), (1e6, 1e6, 0))
    alone, both = lines_of(other), lines_of(one, other)
    assert both.stations[both.line(1)].tobytes() == alone.stations.tobytes()


def test_closed_lines_are_known():
    lines = lines_of(SQUARE, SQUARE[:4], [(0, 0), (5, 0), (5, 5), (1e-5, 0)])
    assert lines.closed.tolist() == [True, False, True]
    assert np.array_equal(lines.xy[lines.line(2)][0], lines.xy[lines.line(2)][-1])
    assert lines.lengths == pytest.approx([40, 30, 10 + np.hypot(5, 5)])


def test_repeated_vertices_go_and_ends_stay():
    lines = lines_of([(0, 0), (0, 0), (5e-5, 0), (1, 0), (2, 0), (2.00005, 0)])
    assert lines.xy.tolist() == [[0, 0], [1, 0], [2.00005, 0]]


@pytest.mark.parametrize("bad", [[(1, 1), (1, 1)], [(0, 0)], [(0, 0), (1e-6, 0), (2e-6, 0)]])
def test_lines_without_length_are_refused(bad):
    with pytest.raises(LineError, match="Line 1 has no length"):
        lines_of(SQUARE, bad)


def test_coordinates_must_be_finite():
    with pytest.raises(LineError, match="Line 0"):
        lines_of([(0, 0), (np.nan, 1)])


def test_input_is_not_changed():
    line = np.array([(0, 0, 1), (5, 0, 1), (5, 5, 1), (1e-5, 0, 1.0)])
    before = line.copy()
    Lines.from_arrays([line])
    assert np.array_equal(line, before)


def test_reversing_twice_gives_the_same():
    lines = lines_of(wander(1), SQUARE)
    back = lines.reversed()
    assert back.xy[back.line(0)].tolist() == lines.xy[lines.line(0)][::-1].tolist()
    assert np.array_equal(back.reversed().xy, lines.xy)


def test_elevations_at_vertices_are_copied():
    lines = lines_of(wander(3), SQUARE)
    z = elevation_at(lines, lines.owner, lines.stations)
    assert z.tobytes() == np.where(np.arange(len(z)) >= 0, lines.z, 0).tobytes()


def test_a_vertex_has_its_own_elevation_beside_one_without():
    lines = lines_of([(0, 0, 1), (10, 0, np.nan), (20, 0, 3)])
    z = elevation_at(lines, np.zeros(4, int), np.array([0.0, 5.0, 15.0, 20.0]))
    assert z[[0, 3]].tolist() == [1, 3] and np.isnan(z[1:3]).all()


def test_elevations_between_vertices_are_interpolated():
    lines = lines_of(SQUARE)
    assert elevation_at(lines, np.zeros(3, int), np.array([5, 12.5, 35])) == pytest.approx(
        [1.5, 2.25, 2.5]
    )


@settings(max_examples=50, deadline=None)
@given(st.integers(0, 10_000), st.floats(0, 1), st.floats(-1e7, 1e7))
def test_projecting_a_point_of_a_line_gives_its_station(seed, share, shift):
    straight = np.column_stack([np.linspace(0, 90, 31), np.zeros(31), np.zeros(31)])
    straight[:, 1] = 0.2 * np.sin(straight[:, 0] + seed)
    lines = lines_of(wander(seed), np.add(straight, (shift, shift, 0)))
    station = np.array([share * lines.lengths[1]])
    place = point_at(lines, np.array([1]), station)
    assert project(lines, np.array([1]), place) == pytest.approx(station, abs=1e-6)
    segment, distance = locate(lines, np.array([1]), station)
    assert lines.segment_owner[segment] == 1
    assert lines.stations[lines.segments[segment]] + distance == pytest.approx(station, abs=1e-9)


def test_cutting_a_stretch():
    xy, z = cut(lines_of(SQUARE), 0, 5, 25)
    assert xy.tolist() == [[5, 0], [10, 0], [10, 10], [5, 10]]
    assert z.tolist() == [1.5, 2, 3, 3.5]
