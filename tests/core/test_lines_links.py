"""What goes on in what: chains without branches, whatever the order and the way of drawing."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.links import chains, link

from .lines_shapes import lines_of, turned, wander


def pieces(line, cuts):
    """Cut a line at vertices."""
    stops = [0, *cuts, len(line) - 1]
    return [line[a : b + 1] for a, b in pairwise(stops)]


def paths(lines, links):
    """Return the lines of each chain, the lower-numbered end first, with whether they run along."""
    said = []
    for chain in chains(links):
        ways = [
            tuple(zip(c.lines.tolist(), c.forward.tolist(), strict=True))
            for c in (chain, chain.reversed())
        ]
        said.append(min(ways, key=lambda way: (way[0][0], not way[0][1])))
    return sorted(said)


def test_two_ends_that_meet_go_on_at_any_angle():
    lines = lines_of([(0, 0), (10, 0)], [(4, 4), (10, 0)])  # a sharp turn, drawn towards it
    assert paths(lines, link(lines, 0.01)) == [((0, True), (1, False))]


def test_a_line_that_lies_on_another_does_not_continue_it():
    lines = lines_of([(0, 0), (10, 0)], [(10, 0), (5, 0)])
    links = link(lines, 0.01)
    assert (links.mate == -1).all()
    assert [fork.lines for fork in links.forks] == [(0, 1)]


@pytest.mark.parametrize(
    ("angle", "expected"),
    [(30, [((0, True), (1, True)), ((2, True),)]), (8, [((0, True),), ((1, True),), ((2, True),)])],
)
def test_where_three_meet_the_clearly_straightest_pair_goes_on(angle, expected):
    branch = turned(np.array([(0.0, 0.0), (10.0, 0.0)]), angle)
    lines = lines_of([(-10, 0), (0, 0)], [(0, 0), (10, 0)], branch)
    links = link(lines, 0.01)
    assert paths(lines, links) == expected
    assert bool(links.forks) == (angle == 8)
    if links.forks:
        assert links.forks[0].lines == (0, 1, 2)
        assert links.forks[0].place == (0.0, 0.0)


def test_both_lines_of_a_crossing_go_on():
    lines = lines_of([(-10, 0), (0, 0)], [(0, -10), (0, 0)], [(10, 0), (0, 0)], [(0, 10), (0, 0)])
    assert paths(lines, link(lines, 0.01)) == [((0, True), (2, False)), ((1, True), (3, False))]


def test_only_lines_of_one_group_are_linked():
    lines = lines_of([(0, 0), (10, 0)], [(10, 0), (20, 0)])
    assert (link(lines, 0.01, ["a", "b"]).mate == -1).all()
    assert (link(lines, 0.01, ["a", "a"]).mate >= 0).sum() == 2


def test_the_gap_is_measured_and_a_wider_one_is_not_bridged():
    lines = lines_of([(0, 0), (10, 0)], [(10, 0.03), (20, 0)])
    assert link(lines, 0.04).gap.max() == pytest.approx(0.03)
    assert (link(lines, 0.02).mate == -1).all()


def test_pieces_of_a_ring_make_a_closed_chain_and_one_line_can_close_on_itself():
    lines = lines_of([(0, 0), (10, 0), (10, 10)], [(0, 0), (0, 10), (10, 10)])
    (chain,) = chains(link(lines, 0.01))
    assert chain.closed
    assert sorted(chain.forward.tolist()) == [False, True]
    (alone,) = chains(link(lines_of([(0, 0), (10, 0), (10, 10), (0, 0.01)]), 0.02))
    assert alone.closed


def test_links_can_be_undone():
    lines = lines_of([(0, 0), (10, 0)], [(10, 0), (20, 0)], [(20, 0), (30, 0)])
    links = link(lines, 0.01)
    some = links.without(np.array([1, 0]))
    assert some.mate.tolist() == [-1, -1, -1, 4, 3, -1]


@settings(max_examples=60)
@given(
    seed=st.integers(0, 10_000),
    cuts=st.lists(st.integers(2, 37), min_size=1, max_size=6, unique=True),
    degrees=st.floats(0, 360),
    shift=st.sampled_from([0.0, 1e7]),
    data=st.data(),
)
def test_a_cut_line_is_one_chain_whatever_the_order_way_and_place(seed, cuts, degrees, shift, data):
    line = turned(wander(seed), degrees)
    line[:, :2] += shift
    parts = pieces(line, sorted(cuts))
    order = data.draw(st.permutations(range(len(parts))))
    back = data.draw(st.lists(st.booleans(), min_size=len(parts), max_size=len(parts)))
    drawn = [parts[n][::-1] if back[n] else parts[n] for n in order]
    (chain,) = chains(link(lines_of(*drawn), 0.001))
    row = [order[k] for k in chain.lines]
    ahead = [bool(f) != back[order[k]] for k, f in zip(chain.lines, chain.forward, strict=True)]
    if row[0] > row[-1]:
        row, ahead = row[::-1], [not way for way in ahead[::-1]]
    assert row == list(range(len(parts)))
    assert all(ahead)
