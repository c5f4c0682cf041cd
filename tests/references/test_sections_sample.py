"""Cross sections of the sample's design beside the stated geometry of its lane.

The truth is the closed form of the sample's own cross section (offset and rise of each rail), which
no surface and no section has gone through.
"""

import numpy as np
import pytest

from plugin.core.lines.arcs import Arcs, circle
from plugin.core.lines.bundle import Lines
from plugin.core.lines.stationing import Stationing
from plugin.core.measure.section_lines import sections_at
from plugin.core.measure.sections import profiles_of_tin
from plugin.core.tin import Tin
from sample_project.pellworth import figures as f
from sample_project.pellworth.surface import build


@pytest.fixture(scope="module")
def lane():
    """The centre line as chords between its stated stations, with its two arcs."""
    stations = f.stations()
    xy = f.place(stations, 0.0)
    lines = Lines.from_arrays([xy], 1e-6)
    middle = (stations[1:] + stations[:-1]) / 2
    of_segment = np.full(len(middle), -1)
    found = []
    for first in (f.LEG, f.LEG + f.ARC + f.FRONT):
        on = (middle > first) & (middle < first + f.ARC)
        of_segment[on] = len(found)
        found.append(circle(*f.place(first + f.ARC * np.array([0.0, 0.5, 1.0]), 0.0)))
    arcs = Arcs(
        of_segment,
        np.array([arc[0] for arc in found]),
        np.array([arc[1] for arc in found]),
        np.array([arc[2] for arc in found]),
    )
    return lines, arcs, stations


def test_rails_of_the_lane_lie_where_they_are_stated(lane):
    lines, arcs, stations = lane
    site = build()
    tin = Tin.from_arrays(site.vertices, site.faces)
    along = Stationing.of(lines, 0.0, arcs)
    distance = along.distance(np.zeros(len(stations), int), stations)
    sections = sections_at(lines, np.zeros(len(stations), int), distance, 25.0, 25.0, arcs)
    profiles = profiles_of_tin(sections, tin)
    every = np.arange(len(stations))
    compared = 0
    for side in f.section(stations):
        for rail in side:
            near = np.abs(rail.offset) < 25.0
            k, offset = every[near], rail.offset[near]
            # Their places, which are radial on the arcs, too.
            assert sections.places(k, offset) == pytest.approx(
                f.place(stations[near], offset), abs=1e-5
            )
            z = profiles.heights(k, offset)
            z = np.where(np.isfinite(z), z, profiles.heights(k, offset, after=False))
            wanted = f.crown(stations[near]) + rail.rise[near]
            # A curb's face is 0.1 ft wide for half a foot of rise: 2e-6 of place are 1e-5 of rise.
            assert z == pytest.approx(wanted, abs=5e-5), rail.name
            compared += len(k)
    assert compared > 500


def test_a_profile_bends_at_the_rails_and_nowhere_else(lane):
    """On the straight leg every face runs from rail to rail: what bends between is a diagonal."""
    lines, arcs, _ = lane
    site = build()
    tin = Tin.from_arrays(site.vertices, site.faces)
    at = np.array([30.0, 61.7])
    profiles = profiles_of_tin(sections_at(lines, np.zeros(2, int), at, 15.0, 15.0, arcs), tin)
    rails = np.concatenate([rail.offset for side in f.section(at) for rail in side])
    for k in range(2):
        (run,) = profiles.runs(k)
        grade = np.diff(run[:, 1]) / np.diff(run[:, 0])
        bends = run[1:-1, 0][np.abs(np.diff(grade)) > 1e-4]
        assert len(bends) > 4
        assert (np.abs(bends[:, None] - rails).min(axis=1) < 1e-4).all()
