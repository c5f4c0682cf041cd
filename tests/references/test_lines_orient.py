"""A real road's alignment (LandXML, buildingSMART Finland, CC-BY 4.0), cut, turned and restored.

The judges here are the alignment itself, GEOS's ``line_merge``, and ``is_ccw``.
"""

from itertools import pairwise

import numpy as np
import pytest
import shapely

from plugin.core.exchange.landxml import read_landxml
from plugin.core.exchange.landxml.alignments import chords
from plugin.core.lines.bundle import Lines
from plugin.core.lines.heading_votes import Track
from plugin.core.lines.orient import Basis, Rule, orient
from plugin.core.lines.oriented import Joining, Pieces, orient_lines

from ..core.lines_shapes import lines_of
from ..core.tin_shapes import REAL

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")


@pytest.fixture(scope="module")
def road():
    (alignment,) = read_landxml(REAL / "road_alignment.xml").alignments
    parts = [chords(segment, 1e-4)[:, :2] for segment in alignment.segments]
    return np.concatenate([parts[0][:1], *(part[1:] for part in parts)])


def shuffled(line, seed):
    """Cut a line at vertices, turn pieces at random, and shuffle them."""
    rng = np.random.default_rng(seed)
    cuts = np.sort(rng.choice(np.arange(1, len(line) - 1), 12, replace=False))
    stops = [0, *cuts.tolist(), len(line) - 1]
    parts = [line[a : b + 1] for a, b in pairwise(stops)]
    back = rng.random(len(parts)) < 0.5
    order = rng.permutation(len(parts))
    return [parts[n][::-1] if back[n] else parts[n] for n in order], int(back.sum())


def done(lines, rule, basis, join):
    pieces = Pieces(lines_of(*lines), lines, list(range(len(lines))))
    return orient_lines(pieces, rule, basis, Joining(join=join, tolerance=0.001))


@pytest.mark.parametrize("seed", range(8))
def test_pieces_turned_at_random_are_restored_by_the_alignment(road, seed):
    parts, turned = shuffled(road, seed)
    basis = Basis(Track(Lines.from_arrays([road])))
    result = done(parts, Rule.UP_STATION, basis, join=False)
    assert not any(result.directions.code)
    assert result.turned == turned
    (run,) = done(parts, Rule.UP_STATION, basis, join=True).runs
    assert np.array_equal(run.coordinates, road)
    merged = shapely.line_merge(shapely.multilinestrings([shapely.linestrings(p) for p in parts]))
    assert shapely.equals(merged, shapely.linestrings(run.coordinates))


@pytest.mark.parametrize("offset", [-25.0, -3.5, 3.5, 25.0])
def test_parallels_of_the_road_are_turned_by_it(road, offset):
    # GEOS's own parallel, cut to pieces that are at least as long as a lane is wide.
    beside = shapely.get_parts(shapely.offset_curve(shapely.linestrings(road), -offset))
    long = [shapely.get_coordinates(line) for line in beside if line.length > 10.0]
    track = Track(Lines.from_arrays([road]))
    for line in long:
        ahead = orient(lines_of(line), Rule.UP_STATION, Basis(track))
        back = orient(lines_of(line[::-1]), Rule.UP_STATION, Basis(track))
        assert ahead.turn[0] == -back.turn[0] != 0
        # Independent: GEOS's own stations of both ends along the road.
        low, high = shapely.line_locate_point(
            shapely.linestrings(road), shapely.points(line[[0, -1]])
        )
        assert ahead.turn[0] == (1 if high > low else -1)


def test_breaklines_of_the_finished_road_run_up_station_or_are_flagged(road):
    lines = [
        line.coordinates
        for line in read_landxml(REAL / "road_finished.xml").lines
        if len(line.coordinates) > 1
    ]
    track = Track(Lines.from_arrays([road]))
    found = orient(lines_of(*lines), Rule.UP_STATION, Basis(track))
    line = shapely.linestrings(road)
    assert (found.turn != 0).sum() > 0.5 * len(lines)
    for xyz, turn in zip(lines, found.turn.tolist(), strict=True):
        low, high = shapely.line_locate_point(line, shapely.points(xyz[[0, -1], :2]))
        if turn:
            assert (high - low) * turn > 0
