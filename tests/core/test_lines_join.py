"""Pieces joined to lines: every vertex kept, every source traced, nothing bridged in doubt."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.join import level_links, run_of
from plugin.core.lines.links import Chain, link
from plugin.core.lines.orient import Basis, Rule
from plugin.core.lines.oriented import Joining, Pieces, orient_lines

from .lines_shapes import lines_of, turned, wander


def oriented(lines, rule=Rule.LONGEST, basis=None, groups=None, arcs=None, **joining):
    arrays = [np.array(line, float) for line in lines]
    pieces = Pieces(lines_of(*arrays), arrays, list(range(len(arrays))), groups, arcs)
    return orient_lines(pieces, rule, basis or Basis(), Joining(**{"join": True, **joining}))


def ids(chain):
    return [
        f"{'' if ahead else '-'}{k}"
        for k, ahead in zip(chain.lines.tolist(), chain.forward.tolist(), strict=True)
    ]


def test_two_pieces_become_one_line_in_the_direction_of_the_longer_one():
    done = oriented([[(30, 0, 5), (10, 0, 4)], [(0, 0, 3), (10, 0, 4)]], tolerance=0.01)
    assert [ids(chain) for chain in done.chains] == [["0", "-1"]]
    assert done.runs[0].coordinates.tolist() == [[30, 0, 5], [10, 0, 4], [0, 0, 3]]
    assert done.turned == 1


def test_ends_meet_half_way_and_the_largest_move_is_told():
    done = oriented([[(0, 0, 1), (10, 0, 2)], [(10.004, 0.003, 2.002), (30, 0, 3)]], tolerance=0.01)
    (run,) = done.runs
    assert run.coordinates[1] == pytest.approx([10.002, 0.0015, 2.001])
    assert run.moved == pytest.approx(0.0025)


def test_different_heights_are_flagged_and_not_joined():
    done = oriented([[(0, 0, 1), (10, 0, 2)], [(10, 0, 2.5), (30, 0, 3)]], height=0.02)
    assert len(done.chains) == 2
    assert done.directions.code == ["step", "step"]
    assert "2.000" in done.directions.why[0]
    assert "2.500" in done.directions.why[0]
    assert (
        len(oriented([[(0, 0, 1), (10, 0, 2)], [(10, 0, 2.5), (30, 0, 3)]], height=0.6).chains) == 1
    )


def test_a_piece_without_heights_is_not_joined_to_one_that_has_them():
    lines = lines_of([(0, 0, 1), (10, 0, 2)], [(10, 0, np.nan), (30, 0, np.nan)])
    arrays = [np.array([(0, 0, 1), (10, 0, 2)]), np.array([(10, 0, np.nan), (30, 0, np.nan)])]
    links, steps, pairs = level_links(lines, arrays, link(lines, 0.01), 0.02, [7, 9])
    assert (links.mate == -1).all()
    assert pairs.tolist() == [[0, 1]]
    assert "7" in steps[0].why
    assert "none" in steps[0].why


def test_plan_lines_are_joined():
    done = oriented([[(0, 0), (10, 0)], [(30, 0), (10, 0)]])
    assert [run.coordinates.tolist() for run in done.runs] == [[[30, 0], [10, 0], [0, 0]]]


def test_m_stays_with_its_vertex_and_a_jump_is_told():
    done = oriented(
        [[(0, 0, 1, 100), (10, 0, 1, 110)], [(10, 0, 1, 110), (40, 0, 1, 140)]], tolerance=0.01
    )
    assert done.runs[0].coordinates[:, 3].tolist() == [100, 110, 140]
    assert done.runs[0].jumps == 0
    done = oriented([[(0, 0, 1, 0), (10, 0, 1, 10)], [(40, 0, 1, 0), (10, 0, 1, 30)]])
    assert done.runs[0].coordinates[:, 3].tolist() == [0, 30, 0]
    assert done.runs[0].jumps == 1


def test_pieces_round_a_loop_become_a_ring_that_starts_with_the_longest():
    a, b = [(0, 0), (10, 0), (10, 10)], [(0, 0), (0, 30), (10, 30), (10, 10)]
    for rule, start in ((Rule.CLOCKWISE, (0, 0)), (Rule.ANTICLOCKWISE, (10, 10))):
        for lines in ([a, b], [b, a], [a[::-1], b], [b[::-1], a]):
            (run,) = oriented(lines, rule).runs
            assert tuple(run.coordinates[0]) == tuple(run.coordinates[-1]) == start
            assert len(run.coordinates) == 6


def test_a_line_that_all_but_closes_is_welded():
    ring = [(0, 0, 1), (10, 0, 1), (10, 10, 1), (0, 0.002, 1.001)]
    (run,) = oriented([ring], Rule.ANTICLOCKWISE, tolerance=0.01).runs
    assert run.coordinates[0].tolist() == run.coordinates[-1].tolist() == [0, 0.001, 1.0005]


def test_a_fork_is_not_joined_and_is_named():
    lines = [[(-10, 0), (0, 0)], [(0, 0), (10, 1)], [(0, 0), (10, -1)]]
    done = oriented(lines)
    assert len(done.chains) == 3
    assert [finding.code for finding in done.findings] == ["fork"]
    assert done.findings[0].place == (0.0, 0.0)


def test_names_keep_pieces_apart():
    lines = [[(0, 0), (10, 0)], [(10, 0), (30, 0)]]
    assert len(oriented(lines, groups=["curb", "walk"]).chains) == 2
    assert len(oriented(lines, groups=["curb", "curb"]).chains) == 1


def test_ends_on_arcs_stay_and_a_gap_between_two_is_filled():
    lines = [np.array([(0, 0), (10, 0)]), np.array([(10, 0.004), (30, 0)])]
    chain = Chain(np.array([0, 1]), np.array([True, True]), False)
    one = run_of(lines, chain, np.array([False, True, False, False]))
    assert one.coordinates[1].tolist() == [10, 0]
    assert one.moved == pytest.approx(0.004)
    both = run_of(lines, chain, np.array([False, True, True, False]))
    assert both.coordinates.tolist() == [[0, 0], [10, 0], [10, 0.004], [30, 0]]
    assert both.moved == 0.0


def test_a_flagged_line_says_that_its_pieces_were_given_one_direction():
    lines = [[(0, 0), (10, 0)], [(30, 0), (10, 0)]]
    done = oriented(lines, Rule.BEARING, Basis(bearing=0.0))
    assert done.directions.code == ["square"]
    assert "longest piece" in done.directions.why[0]
    assert ids(done.chains[0]) == ["1", "-0"]


def test_equal_pieces_at_odds_are_joined_and_flagged():
    done = oriented([[(0, 0), (10, 0)], [(20, 0), (10, 0)]])
    assert done.directions.code == ["even"]
    assert len(done.chains) == 1


@settings(max_examples=60)
@given(
    seed=st.integers(0, 10_000),
    cuts=st.lists(st.integers(2, 37), max_size=7, unique=True),
    degrees=st.floats(0, 360),
    shift=st.sampled_from([0.0, 1e7]),
    rule=st.sampled_from([Rule.LONGEST, Rule.BEARING, Rule.UPHILL]),
    data=st.data(),
)
def test_a_line_cut_and_turned_at_random_is_restored(seed, cuts, degrees, shift, rule, data):
    line = turned(wander(seed), degrees)
    line[:, :2] += shift
    line[:, 2] = 100.0 + 0.3 * np.arange(len(line))
    line = np.column_stack([line, np.arange(len(line)) * 10.0])
    stops = [0, *sorted(cuts), len(line) - 1]
    parts = [line[a : b + 1] for a, b in pairwise(stops)]
    order = data.draw(st.permutations(range(len(parts))))
    back = data.draw(st.lists(st.booleans(), min_size=len(parts), max_size=len(parts)))
    drawn = [parts[n][::-1] if back[n] else parts[n] for n in order]
    done = oriented(drawn, rule, Basis(bearing=40.0), tolerance=0.001)
    (run,) = done.runs
    same = np.array_equal(run.coordinates, line)
    assert same or np.array_equal(run.coordinates, line[::-1])
    if rule is Rule.UPHILL:  # known from the heights, whatever the drawing
        assert same
        assert done.turned == sum(back)
    row = [order[k] for k in done.chains[0].lines]
    assert row == sorted(row, reverse=not same)


def test_without_joining_every_line_stays_a_line():
    lines = [[(0, 0, 2), (10, 0, 1)], [(30, 0, 0), (10, 0, 1)]]
    done = oriented(lines, Rule.DOWNHILL, join=False)
    assert [ids(chain) for chain in done.chains] == [["0"], ["-1"]]
    assert done.runs[1].coordinates.tolist() == [[10, 0, 1], [30, 0, 0]]
    assert done.turned == 1
