"""Stations, stakes and offsets along true arcs: closed forms, not those of the chords."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.arcs import Arcs
from plugin.core.lines.bundle import Lines
from plugin.core.lines.stakes import Wanted, set_out
from plugin.core.lines.station_offset import feet_of_points
from plugin.core.lines.stationing import Stationing
from plugin.core.lines.swap import parted
from tests.core.test_lines_arc_corners import path, ring

STREET = (("go", 50), ("bend", 20, 90), ("go", 30), ("bend", 300, -10))
LENGTHS = np.cumsum([50, 20 * np.pi / 2, 30, 300 * np.pi / 18])


def test_stations_run_along_the_arcs():
    lines, arcs = path(*STREET)
    along = Stationing.of(lines, 100.0, arcs)
    ends = np.append(np.flatnonzero(arcs.ends(lines)), len(lines.xy) - 1)
    seen = along.station(0, lines.stations[np.unique(ends)])
    assert seen == pytest.approx(100.0 + LENGTHS, abs=1e-9)
    assert along.lengths == pytest.approx([LENGTHS[-1]], abs=1e-9)
    # The chords alone are shorter by a ten-thousandth of a metre each few arcs.
    assert LENGTHS[-1] - lines.lengths[0] > 1e-5


@given(station=st.floats(0.0, float(LENGTHS[-1])))
def test_a_station_and_its_distance_give_each_other(station):
    lines, arcs = path(*STREET)
    along = Stationing.of(lines, 100.0, arcs)
    distance = along.distance(0, 100.0 + station)
    assert along.station(0, distance) == pytest.approx(100.0 + station, abs=1e-9)


def test_round_a_ring_they_run_on_and_wrap():
    lines, arcs = ring(("go", 30), ("bend", 10, 180), ("go", 30), ("bend", 10, 180))
    along = Stationing.of(lines, 5.0, arcs)
    whole = 60 + 20 * np.pi
    assert along.lengths == pytest.approx([whole], abs=1e-9)
    beyond = lines.lengths[0] + 10.0
    assert along.running(0, np.array([beyond])) == pytest.approx([5.0 + whole + 10.0], abs=1e-9)
    assert along.station(0, beyond) == pytest.approx(15.0, abs=1e-9)


@pytest.mark.parametrize("offset", [-7.0, 0.0, 7.0])
def test_stakes_on_an_arc_stand_on_its_radius_at_their_station(offset):
    lines, arcs = path(*STREET)
    stationing = Stationing.of(lines, 0.0, arcs)
    listed = 50 + np.linspace(0.0, 20 * np.pi / 2, 37)
    wanted = Wanted(listed=listed)
    stakes = set_out(lines, stationing, wanted, np.array([offset]), 1e-4, arcs)
    on = np.isin(np.round(stakes.along, 6), np.round(listed, 6))
    assert on.sum() == 37
    angle = -np.pi / 2 + (listed - 50) / 20
    radius = 20 + offset  # the bend turns left: right is outside
    expected = np.array([50, 20]) + radius * np.column_stack((np.cos(angle), np.sin(angle)))
    assert stakes.xy[on] == pytest.approx(expected, abs=2e-6)
    assert stakes.clear[on].all()


def test_stakes_at_round_stations_are_those_of_the_arc():
    lines, arcs = path(*STREET)
    stationing = Stationing.of(lines, 0.0, arcs)
    stakes = set_out(lines, stationing, Wanted(interval=10.0), np.array([0.0]), 1e-4, arcs)
    assert stakes.along[1:-1] == pytest.approx(np.arange(10, LENGTHS[-1], 10), abs=1e-9)


@settings(max_examples=100, deadline=None)
@given(
    station=st.floats(50.5, 50 + 20 * np.pi / 2 - 0.5),
    offset=st.floats(-15, 60).filter(lambda o: abs(o) > 1e-3),
    shift=st.sampled_from([0.0, 2e6]),
)
def test_points_beside_an_arc_have_their_radial_station_and_offset(station, offset, shift):
    lines, arcs = path(*STREET[:2], start=(shift, shift))
    angle = -np.pi / 2 + (station - 50) / 20
    place = shift + np.array([50, 20]) + (20 + offset) * np.array([np.cos(angle), np.sin(angle)])
    feet = feet_of_points(lines, place[None], arcs=arcs)
    along = Stationing.of(lines, 0.0, arcs).station(0, feet.distance)
    assert along == pytest.approx([station], abs=2e-6)
    assert feet.offset == pytest.approx([offset], abs=2e-8 if shift else 1e-10)
    assert np.isnan(feet.other).all()  # an arc has one foot, whatever its chords


def test_a_point_in_the_middle_of_a_circle_has_no_certain_station():
    lines, arcs = ring(("bend", 12, 180), ("bend", 12, 180))
    feet = feet_of_points(lines, np.array([[0.02, 12.0]]), arcs=arcs)
    assert np.isfinite(feet.other).all()


def test_parts_of_a_cut_line_keep_their_arcs_and_stations():
    lines, arcs = path(*STREET)
    made = list(parted(lines, 0, np.array([20.0, 60.0])))
    parts = Lines.from_arrays([xyz for _, xyz in made], 1e-6)
    begin = np.array([begin for begin, _ in made])
    own = arcs.of_parts(lines, parts, np.zeros(3, np.int64), begin)
    start = Stationing.of(lines, 0.0, arcs).station(0, begin)
    along = Stationing.of(parts, start, own)
    assert start[1:] + 0.0 == pytest.approx(along.start[:-1] + along.lengths[:-1], abs=1e-6)
    assert along.start[-1] + along.lengths[-1] == pytest.approx(LENGTHS[-1], abs=1e-6)


def test_lines_without_arcs_have_none():
    lines = Lines.from_arrays([np.array([[0.0, 0], [10, 0]])])
    none = Arcs.none(lines)
    assert len(none) == 0 and not none.ends(lines).any()
    assert Stationing.of(lines, 3.0, none).station(0, 4.0) == 7.0


@pytest.mark.parametrize("shift", [0.0, 6e6])
def test_points_on_a_dense_curve_have_one_station(shift):
    t = np.linspace(0.0, 1.0, 200)
    lines = Lines.from_arrays([np.column_stack((100 * t, 20 * t**3)) + shift])
    middle = (lines.xy[:-1] + lines.xy[1:]) / 2.0
    beside = middle + 4.0 * np.column_stack((-np.diff(lines.xy[:, 1]), np.diff(lines.xy[:, 0])))
    for points in (middle, lines.xy[1:-1], beside):
        assert np.isnan(feet_of_points(lines, points).other).all()
