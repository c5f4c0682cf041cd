"""Edges joined to lines."""

from itertools import pairwise

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.breaks.chains import chain


@st.composite
def networks(draw):
    """Draw unique edges between few nodes, with two labels."""
    nodes = draw(st.integers(2, 12))
    every = [(a, b) for a in range(nodes) for b in range(a + 1, nodes)]
    edges = draw(st.lists(st.sampled_from(every), unique=True, min_size=1, max_size=20))
    turned = [edge[::-1] if draw(st.booleans()) else edge for edge in edges]
    labels = draw(st.lists(st.integers(0, 1), min_size=len(edges), max_size=len(edges)))
    return np.array(turned), np.array(labels), nodes


def walked(ends, chains):
    """Return the node numbers along each line."""
    lines = []
    for start, stop in zip(chains.offsets[:-1], chains.offsets[1:], strict=True):
        steps = [ends[d >> 1][:: -1 if d & 1 else 1] for d in chains.darts[start:stop]]
        for one, two in pairwise(steps):
            assert one[1] == two[0], "the line is torn"
        lines.append([int(steps[0][0]), *(int(step[1]) for step in steps)])
    return lines


def passed(ends, labels, node):
    here = [label for edge, label in zip(ends, labels, strict=True) if node in edge]
    return len(here) == 2 and here[0] == here[1]


def joined(ends, labels, nodes):
    """Return the groups of edges that belong together, by merging one node at a time."""
    group = list(range(len(ends)))
    for node in range(nodes):
        if passed(ends, labels, node):
            one, two = (i for i, edge in enumerate(ends) if node in edge)
            old, new = group[one], group[two]
            group = [new if g == old else g for g in group]
    return {frozenset(i for i, g in enumerate(group) if g == each) for each in set(group)}


@given(networks())
def test_lines_are_the_maximal_ones(network):
    ends, labels, nodes = network
    chains = chain(ends, labels, nodes)
    lines = walked(ends, chains)
    groups = [
        frozenset((chains.darts[a:b] >> 1).tolist())
        for a, b in zip(chains.offsets[:-1], chains.offsets[1:], strict=True)
    ]
    assert sorted(i for group in groups for i in group) == list(range(len(ends)))
    assert len(chains.darts) == len(ends)
    assert set(groups) == joined(ends, labels, nodes)
    assert chains.closed.tolist() == [line[0] == line[-1] for line in lines]
    for line in lines:
        assert all(passed(ends, labels, node) for node in line[1:-1])


@given(networks())
def test_start_and_order(network):
    ends, labels, nodes = network
    chains = chain(ends, labels, nodes)
    lines = walked(ends, chains)
    for line, closed in zip(lines, chains.closed, strict=True):
        if not closed:
            assert line[0] < line[-1]
        else:
            assert line[1] < line[-2]
            if all(passed(ends, labels, node) for node in line):
                assert line[0] == min(line)
    assert lines == sorted(lines)


@given(networks(), st.randoms(use_true_random=False))
def test_numbering_of_edges_plays_no_part(network, random):
    ends, labels, nodes = network
    order = list(range(len(ends)))
    random.shuffle(order)
    mixed = np.array([ends[i][:: random.choice((1, -1))] for i in order])
    expected = walked(ends, chain(ends, labels, nodes))
    assert walked(mixed, chain(mixed, labels[order], nodes)) == expected


def test_stops_at_a_junction_and_where_the_label_changes():
    ends = np.array([(0, 1), (1, 2), (2, 3), (2, 4), (4, 5), (5, 6)])
    labels = np.array([0, 0, 0, 0, 1, 1])
    lines = walked(ends, chain(ends, labels, 7))
    assert lines == [[0, 1, 2], [2, 3], [2, 4], [4, 5, 6]]


def test_two_loops_and_a_loop_held_by_a_junction():
    ends = np.array([(7, 8), (8, 9), (9, 7), (0, 1), (1, 2), (2, 3), (3, 1)])
    chains = chain(ends, np.zeros(7, int), 10)
    assert walked(ends, chains) == [[0, 1], [1, 2, 3, 1], [7, 8, 9, 7]]
    assert chains.closed.tolist() == [False, True, True]


def test_long_line_and_long_loop_in_one():
    count = 5000
    random = np.random.default_rng(0)
    line = np.column_stack((np.arange(count), np.arange(1, count + 1)))
    loop = count + 1 + np.column_stack((np.arange(count), (np.arange(count) + 1) % count))
    ends = random.permutation(np.concatenate((line, loop)))
    lines = walked(ends, chain(ends, np.zeros(len(ends), int), 2 * count + 1))
    assert lines[0] == list(range(count + 1))
    assert lines[1] == [*range(count + 1, 2 * count + 1), count + 1]


def test_nothing_in_nothing_out():
    chains = chain(np.zeros((0, 2), int), np.zeros(0, int), 0)
    assert len(chains.darts) == 0 and chains.offsets.tolist() == [0] and len(chains.closed) == 0
