"""Guidelines as a whole: every request becomes guidelines or a reason, never nothing."""

import re

import numpy as np
import pytest
import shapely

from plugin.core.lines.bundle import Lines
from plugin.core.lines.direction import right_normals
from plugin.core.lines.guide import lay
from plugin.core.lines.reference import Reference
from plugin.core.lines.requests import Requests
from plugin.core.lines.sides import Basis, Rule
from plugin.core.units import FOOT

from .lines_shapes import HAIRPIN, LOOP, SQUARE, along, brute_signed, lines_of, wander


def laid(lines, line, distance, rules, basis=None):
    asked = Requests(lines, np.array(line), np.array(distance, float), rules)
    return lay(asked, basis or Basis(), unit=FOOT)


def test_requests_keep_their_own_rule_and_distance():
    lines = lines_of(wander(1, bend=0.1), wander(2, bend=0.1))
    found = laid(lines, [0, 0, 1], [1, 2, 3], [Rule.RIGHT, Rule.LEFT, Rule.RIGHT])
    assert found.pieces.source.tolist() == [0, 1, 2]
    assert found.pieces.offsets.tolist() == [1, -2, 3]
    assert found.proof.error.max() < 1e-6 and not found.proof.nearer.any()


def test_candidates_of_an_open_side_are_both_drawn():
    lines = lines_of([(0, 0), (10, 0)])
    basis = Basis(Reference([shapely.LineString([(5, -5), (5, 5)])]))
    found = laid(lines, [0], [1], [Rule.TOWARD], basis)
    (item,) = found.flagged
    assert item.code == "crosses" and "5.00, 0.00" in item.why
    assert [(side, xy.tolist()) for side, xy in item.shapes] == [
        (1, [[0, -1], [10, -1]]),
        (-1, [[0, 1], [10, 1]]),
    ]
    assert len(found.pieces.lines) == 0


def test_the_source_is_drawn_where_there_is_no_candidate():
    lines = lines_of([(0, 0), (1, 0), (1, 1), (0, 1), (0, 0)])
    basis = Basis(Reference([shapely.LineString([(-5, 0.5), (5, 0.5)])]))
    found = laid(lines, [0], [0.6], [Rule.TOWARD], basis)
    assert {side for side, _ in found.flagged[0].shapes} == {1}


def test_lost_stretches_carry_stations_and_a_sentence():
    found = laid(lines_of(HAIRPIN, LOOP), [0, 1], [0.6, 1], [Rule.LEFT, Rule.RIGHT])
    assert [item.code for item in found.flagged] == ["lost"] * 3
    assert found.lost == 3
    assert "No part of a guideline is 0.60 ft" in found.flagged[0].why
    assert "between stations 0+04.00 and 0+06.00" in found.flagged[1].why
    assert found.flagged[1].shapes[0][1].round(6).tolist() == [[4, 0], [6, 0]]


def test_a_lost_stretch_over_the_start_of_a_ring_is_drawn_through_it():
    ring = [(5, 4), (4, 4), (4, 5), (-9, 5), (-9, -9), (5, -9), (5, 4)]
    found = laid(lines_of(ring), [0], [2], [Rule.LEFT])
    for item in found.flagged:
        assert len(item.shapes[0][1]) >= 2
    assert len(found.pieces.lines) == 1


def test_small_bends_that_hardly_matter_are_not_reported():
    t = np.linspace(-np.pi / 2, 0, 9)
    bend = np.column_stack([np.cos(t), np.sin(t)]) * 0.001
    found = laid(lines_of([(-10, -0.001), *bend, (0.001, 10)]), [0], [1], [Rule.LEFT])
    assert len(found.pieces.lines) == 1
    assert found.flagged == []
    wide = laid(lines_of([(-10, -0.5), *(bend * 500), (0.5, 10)]), [0], [1], [Rule.LEFT])
    assert [item.code for item in wide.flagged] == ["tight_bend"]
    assert "up to 1.207 ft away" in wide.flagged[0].why


def test_the_farthest_place_of_a_tight_bend_may_lie_between_vertices():
    source = lines_of(wander(125, count=14, bend=1.0, step=(2, 12)))
    found = laid(source, [0], [4.0], [Rule.RIGHT])
    near = shapely.multilinestrings(list(found.pieces.lines.geometries))
    between = []
    for item in (item for item in found.flagged if item.code == "tight_bend"):
        told = float(re.search(r"up to ([\d.]+) ft", item.why)[1])
        corners = shapely.points(item.shapes[0][1])
        dense = shapely.segmentize(shapely.linestrings(item.shapes[0][1]), 0.001)
        spots = shapely.points(shapely.get_coordinates(dense))
        assert told == pytest.approx(shapely.distance(spots, near).max(), abs=0.005)
        between.append(told - shapely.distance(corners, near).max())
    assert max(between) > 0.03


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_a_lost_stretch_may_start_at_a_vertex(shift):
    """A notch as deep as wide: the offset of half its width just loses its bottom."""
    notch = [(0, 0), (10, 0), (10, -2), (14, -2), (14, 0), (24, 0)]
    found = laid(lines_of(np.add(notch, shift)), [0, 0], [2, 2.5], [Rule.LEFT] * 2)
    assert len(found.pieces.lines) >= 2
    assert all("nan" not in item.why for item in found.flagged)


def test_rings_and_nothing():
    found = laid(lines_of(SQUARE), [0], [1], [Rule.LEFT])
    assert found.pieces.lines.closed.tolist() == [True]
    assert len(laid(lines_of(SQUARE), [], [], []).pieces.lines) == 0


def test_tips_that_reach_across_another_part_of_the_line_are_cut():
    """On lines that cross themselves a mitre can end where another part's left is nearer."""
    rng = np.random.default_rng(0)
    heading = np.cumsum(rng.normal(0, 0.6, (60, 120)), axis=1)
    step = np.stack([np.cos(heading), np.sin(heading)], -1) * rng.uniform(1, 4, (60, 120, 1))
    lines = lines_of(*np.cumsum(step, axis=1))
    found = laid(lines, np.arange(60), np.full(60, 5.0), [Rule.RIGHT] * 60)
    assert {item.code for item in found.flagged} <= {"lost", "tight_bend"}
    assert found.proof.holds(found.pieces.offsets, 1e-6).all()
    for n, source in enumerate(found.pieces.source[:80].tolist()):
        rows = found.pieces.lines.line(n)
        judged = brute_signed(lines.xy[lines.line(source)], along(found.pieces.lines.xy[rows]))
        assert (judged > 0).all()


def test_a_tip_behind_the_open_end_of_a_simple_line_is_cut():
    """The mitre at 10, 0 reaches past the end at 9, 6, whose left it would be."""
    line = [(0, 0), (10, 0), (0, 1), (0, 20), (16, 20), (16, 0.5), (15.5, 0.5)]
    found = laid(lines_of(line), [0], [3], [Rule.RIGHT])
    assert found.proof.holds(found.pieces.offsets, 1e-6).all()
    for n in range(len(found.pieces.lines)):
        xy = found.pieces.lines.xy[found.pieces.lines.line(n)]
        assert (brute_signed(line, along(xy, 200)) > 0).all()


def test_batches_change_nothing(monkeypatch):
    """Settled, open and tightly bent lines, each with its own number, as laid all at once."""
    lines = Lines.from_arrays([wander(seed, bend=0.7) for seed in range(20)])
    basis = Basis(Reference([shapely.LineString([(0, -500), (0, 500)])]))
    number, distance = np.repeat(np.arange(20), 2), np.tile([0.5, 3.0], 20)
    rules = [Rule.RIGHT, Rule.TOWARD, Rule.LEFT, Rule.AWAY] * 10
    whole = laid(lines, number, distance, rules, basis)
    monkeypatch.setattr("plugin.core.lines.guide.CHUNK_VERTICES", 70)
    parts = laid(lines, number, distance, rules, basis)
    assert {item.code for item in whole.flagged} >= {"crosses", "lost"}
    assert repr(whole.flagged) == repr(parts.flagged)
    assert whole.lost == parts.lost and whole.pieces.lost == parts.pieces.lost
    assert {item.line for item in whole.pieces.lost} <= set(range(40))
    for name in ("source", "offsets", "station", "parent"):
        assert getattr(whole.pieces, name).tobytes() == getattr(parts.pieces, name).tobytes()
    assert whole.pieces.lines.xy.tobytes() == parts.pieces.lines.xy.tobytes()
    # Parents are segments of the lines asked for: square beside them the pieces lie.
    own = parts.pieces
    v = np.flatnonzero(own.parent >= 0)
    normal = right_normals(lines.segment_directions[own.parent[v]])
    middle = (own.lines.xy[v] + own.lines.xy[v + 1]) / 2
    gap = ((middle - lines.xy[lines.segments[own.parent[v]]]) * normal).sum(1)
    assert np.abs(gap - own.offsets[own.lines.owner[v]]).max() < 1e-6
    assert whole.verdicts.why == parts.verdicts.why
    assert whole.verdicts.station.tobytes() == parts.verdicts.station.tobytes()
    assert whole.proof.side.tolist() == parts.proof.side.tolist()
