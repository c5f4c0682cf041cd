"""Tapered offsets in closed form, against constant ones, and where they do not fit."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.corners import JoinStyle
from plugin.core.lines.guide import lay
from plugin.core.lines.parallel import parallels
from plugin.core.lines.requests import Requests
from plugin.core.lines.sides import Basis, Rule
from plugin.core.lines.stationing import Stationing
from plugin.core.lines.taper import Taper, lay_taper

from .lines_shapes import L_SHAPE, SQUARE, lines_of, turned, wander
from .test_lines_arc_corners import path


def tapered(line, distance, offset, side=1):
    taper = Taper(np.array(distance, float), np.array(offset, float))
    return lay_taper(lines_of(line), taper, side, JoinStyle(), 1e-8)


def test_beside_a_straight_line_a_taper_is_straight():
    made, proof = tapered([(0, 0, 5), (100, 0, 7)], [0, 100], [1, 3])
    assert made.lines.xy.tolist() == [[0, -1], [100, -3]]
    assert made.lines.z.tolist() == [5, 7]
    assert made.station.tolist() == [0, 100]
    assert proof.side[0] == 1 and proof.nearer[0] < 1e-12
    assert proof.error[0] < 1e-9


def test_stated_places_become_vertices_and_ends_stay_constant():
    made, proof = tapered([(0, 0, 0), (100, 0, 10)], [20, 50], [1, 4], side=-1)
    assert made.lines.xy.tolist() == [[0, 1], [20, 1], [50, 4], [100, 4]]
    assert made.lines.z == pytest.approx([0, 2, 5, 10])
    assert made.parent.tolist() == [0, 0, 0, -1]
    assert proof.side[0] == -1 and proof.error[0] < 1e-9


@pytest.mark.parametrize("side", [1, -1])
def test_at_a_corner_both_pieces_are_carried_on_to_where_they_meet(side):
    # From 2 to 4 along 40: 3 at the corner (30, 10).
    made, proof = tapered(L_SHAPE, [0, 40], [2, 4], side)
    xy = made.lines.xy
    assert xy[0] == pytest.approx([10, 10 - 2 * side])
    assert xy[-1] == pytest.approx([30 + 4 * side, 30])
    one = shapely.LineString([(10, 10 - 2 * side), (30, 10 - 3 * side)])
    other = shapely.LineString([(30 + 3 * side, 10), (30 + 4 * side, 30)])
    long = [
        shapely.LineString([a, np.array(a) + 5 * (np.array(b) - a)])
        for a, b in (one.coords, other.coords[::-1])
    ]  # noqa: E501
    back = [shapely.LineString([np.array(a) - 5 * (np.array(b) - a), b]) for a, b in (one.coords, other.coords)]  # noqa: E501  # fmt: skip
    meet = shapely.intersection(shapely.union(long[0], back[0]), shapely.union(long[1], back[1]))
    assert shapely.distance(shapely.points(xy[1]), meet) < 1e-9
    assert proof.side[0] == side and proof.nearer[0] < 1e-9


@settings(max_examples=60, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    side=st.sampled_from([1, -1]),
    degrees=st.floats(0, 360),
    shift=st.sampled_from([0.0, 1e7]),
)
def test_a_taper_that_does_not_change_is_the_plain_parallel(seed, side, degrees, shift):
    line = turned(wander(seed, 12, bend=0.15), degrees) + np.array([shift, shift, 0])
    lines = lines_of(line)
    made = tapered(line, [0, lines.lengths[0]], [0.4, 0.4], side)
    plain = parallels(lines, side * 0.4)
    if made is None or len(plain.lines) != 1 or len(plain.lines.xy) != len(made[0].lines.xy):
        return
    assert made[0].lines.xy == pytest.approx(plain.lines.xy, abs=1e-6)


@settings(max_examples=80, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    ends=st.tuples(st.floats(0.1, 1.5), st.floats(0.1, 1.5)),
    side=st.sampled_from([1, -1]),
)
def test_square_to_the_line_the_distance_is_the_stated_one(seed, ends, side):
    line = wander(seed, 8, bend=0.1, step=(6, 12))
    lines = lines_of(line)
    made = tapered(line, [0, lines.lengths[0]], ends, side)
    if made is None or made[1].nearer[0] > 1e-6:
        return
    path = shapely.linestrings(made[0].lines.xy)
    for k, start in enumerate(lines.xy[:-1]):
        way = lines.segment_directions[k]
        middle = start + way * lines.segment_lengths[k] / 2
        out = side * np.array([way[1], -way[0]])
        ray = shapely.linestrings([middle, middle + 5 * out])
        hit = shapely.intersection(ray, path)
        station = lines.stations[k] + lines.segment_lengths[k] / 2
        wanted = np.interp(station, [0, lines.lengths[0]], ends)
        assert shapely.distance(shapely.points(middle), hit) == pytest.approx(wanted, abs=1e-6)


def test_a_ring_with_the_same_offset_at_its_start_and_end_closes():
    made, proof = tapered(SQUARE, [0, 20, 40], [1, 2, 1])
    assert made.lines.closed[0]
    assert made.lines.xy[0].tolist() == made.lines.xy[-1].tolist()
    assert proof.side[0] == 1 and proof.nearer[0] < 1e-9


def test_a_bend_too_tight_is_flagged_and_nothing_is_laid():
    hairpin = lines_of([(0, 0), (50, 0), (50, 3), (0, 3)])
    taper = Taper(np.array([0.0, 103.0]), np.array([1.0, 3.0]))
    wanted = Requests(
        hairpin, np.array([0, 0]), np.array([3.0, 0.5]), [Rule.LEFT] * 2, tapers=[taper, None]
    )
    found = lay(wanted, Basis())
    assert found.pieces.source.tolist() == [1]
    assert [(item.request, item.code) for item in found.flagged] == [(0, "taper")]


def test_tapered_and_plain_requests_keep_their_order():
    lines = lines_of([(0, 0), (100, 0)], [(0, 50), (100, 50)])
    taper = Taper(np.array([0.0, 100.0]), np.array([1.0, 2.0]))
    wanted = Requests(
        lines, np.array([0, 0, 1]), np.array([2.0, 3.0, 4.0]), [Rule.RIGHT] * 3,
        tapers=[taper, None, None],
    )  # fmt: skip
    found = lay(wanted, Basis())
    assert found.pieces.source.tolist() == [0, 1, 2]
    assert found.pieces.lines.xy[found.pieces.lines.line(0)].tolist() == [[0, -1], [100, -2]]
    assert found.pieces.offsets.tolist() == [1.0, 3.0, 4.0]
    assert found.proof.side.tolist() == [1, 1, 1]


@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("end", [30.0, 60.0, 50 + 10 * np.pi, 100.0])
def test_along_a_dense_arc_a_taper_is_a_spiral(side, end):
    """Square to the arc the offset is that stated at its angle; the chords err by their sagitta."""
    lines, arcs = path(("go", 50), ("bend", 20, 90), ("go", 40))
    along = Stationing.of(lines, 0.0, arcs)
    taper = Taper(along.beyond(0, np.array([0.0, end])), np.array([1.0, 3.0]))
    made = lay_taper(lines, taper, side, JoinStyle(), 1e-8)
    assert made is not None
    laid, proof = made
    assert proof.holds(np.array([float(side)]), 1e-6).all()
    to = laid.lines.xy - (50, 20)
    turn = np.arctan2(to[:, 1], to[:, 0]) + np.pi / 2
    on = (turn > 0) & (turn < np.pi / 2) & (to[:, 1] < 0)
    stated = np.interp(50 + 20 * turn[on], [0.0, end], [1.0, 3.0])
    radius = np.hypot(*to[on].T)
    assert side * (radius - 20.0) == pytest.approx(stated, abs=3e-4)
