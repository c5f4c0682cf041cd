"""Stations counted from a start station, along lines and round rings."""

import numpy as np
import pytest

from plugin.core.lines.bundle import Lines
from plugin.core.lines.stationing import Stationing

LINES = Lines.from_arrays(
    [
        np.array([(0.0, 0.0), (30.0, 40.0)]),
        np.array([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0), (0.0, 0.0)]),
    ]
)


def test_a_station_is_the_start_station_and_the_distance():
    stations = Stationing.of(LINES, np.array([1250.0, 0.0]))
    assert stations.station(0, np.array([0.0, 12.5, 50.0])).tolist() == [1250.0, 1262.5, 1300.0]


def test_round_a_ring_stations_wrap_but_for_its_end():
    stations = Stationing.of(LINES, 100.0)
    which = np.ones(4, int)
    assert stations.station(which, np.array([0.0, 40.0, 45.0, -5.0])) == pytest.approx(
        [100.0, 140.0, 105.0, 135.0]
    )


def test_a_distance_past_an_open_line_does_not_wrap():
    assert Stationing.of(LINES).station(0, 55.0) == 55.0


def test_a_station_off_the_line_has_no_distance():
    stations = Stationing.of(LINES, np.array([1250.0, 0.0]))
    found = stations.distance(0, np.array([1249.0, 1250.0, 1275.0, 1300.0, 1301.0]))
    assert np.array_equal(found, [np.nan, 0.0, 25.0, 50.0, np.nan], equal_nan=True)


def test_distance_undoes_station():
    stations = Stationing.of(LINES, np.array([-37.25, 1e6]))
    along = np.array([0.0, 3.3, 39.9])
    for which in (0, 1):
        assert stations.distance(which, stations.station(which, along)) == pytest.approx(along)
