"""Where sections stand, and where they cross each other."""

import numpy as np
import pytest

from plugin.core.lines.arcs import Arcs
from plugin.core.lines.bundle import Lines
from plugin.core.measure.section_lines import meetings, sections_at

from .section_shapes import lines_of, sections_every

HALF = np.sqrt(0.5)


def test_square_to_a_straight_and_on_the_bisector_of_a_corner():
    lines = lines_of([(0, 0), (10, 0), (10, 10)])  # east, then a left turn to the north
    sections = sections_at(lines, np.zeros(3, int), np.array([4.0, 10.0, 15.0]), 2.0, 3.0)
    assert sections.right == pytest.approx(np.array([(0, -1), (HALF, -HALF), (1, 0)]))
    # At the corner it reaches as far as the strip does: 3 to the right of either leg.
    left, right = sections.ends
    assert right[1] == pytest.approx((13, -3))
    assert left[1] == pytest.approx((8, 2))
    assert sections.square == pytest.approx([1, HALF, 1])


def arc_line(radius=50.0, count=400):
    """A quarter circle that turns to the right, from (0, 0) north-bound round (radius, 0)."""
    angle = np.pi - np.linspace(0, np.pi / 2, count + 1)
    xy = np.column_stack((radius + radius * np.cos(angle), radius * np.sin(angle)))
    xy[0] = 0.0
    before = [(0.0, -20.0)]
    lines = Lines.from_arrays([np.concatenate((before, xy))], 1e-6)
    owner = np.zeros(count + 1, int)
    owner[0] = -1
    return lines, Arcs(owner, np.array([[radius, 0.0]]), np.array([radius]), np.array([1]))


def test_sections_of_true_arcs_are_radial():
    lines, arcs = arc_line()
    distance = np.array([10.0, 20.0, 37.123, 60.0, lines.lengths[0]])
    sections = sections_at(lines, np.zeros(5, int), distance, 5.0, 8.0, arcs)
    radial = np.array([50.0, 0.0]) - sections.foot[2:]
    radial /= np.hypot(*radial.T)[:, None]
    assert sections.right[2:] == pytest.approx(radial, abs=1e-12)
    assert np.hypot(*(sections.foot[2:] - (50.0, 0.0)).T) == pytest.approx(50.0, rel=1e-12)
    # Where the straight goes over into the arc both say the same: no bend, though chords turn.
    assert sections.right[1] == pytest.approx((1, 0), abs=1e-12)
    assert sections.square.tolist() == [1.0] * 5
    # On chords alone the section at the tangent point would lean.
    bare = sections_at(lines, np.zeros(1, int), np.array([20.0]), 5.0, 8.0)
    assert abs(bare.right[0, 1]) > 1e-4


def test_sections_that_cross_inside_a_bend_are_found():
    lines = lines_of([(0, 0), (100, 0), (100, 100)])
    sections = sections_every(lines, 10.0, 15.0, 15.0)
    found = meetings(sections)
    pairs = {
        (sections.distance[a], sections.distance[b])
        for a, b in zip(found.one, found.other, strict=True)
    }
    assert (90.0, 110.0) in pairs  # they meet at (90, 10), 10 to the left of both
    assert (80.0, 120.0) not in pairs  # 20 off, past the width
    row = [
        k for k in range(len(found.one))
        if (sections.distance[found.one[k]], sections.distance[found.other[k]]) == (90.0, 110.0)
    ]  # fmt: skip
    assert found.offset_one[row[0]] == pytest.approx(-10.0)
    assert found.offset_other[row[0]] == pytest.approx(-10.0)
    assert (found.one < found.other).all() and len(pairs) == len(found.one)
    # All on the inside (left) of the bend.
    assert (np.concatenate((found.offset_one, found.offset_other)) < 0).all()
    assert len(meetings(sections_every(lines, 10.0, 1.0, 15.0)).one) == 0


def test_a_ring_closes_without_crossing_itself():
    angle = np.linspace(0.3, 0.3 + 2 * np.pi, 73)
    ring = np.column_stack((40 * np.cos(angle), 40 * np.sin(angle))) + np.array([6e6, 2e6])
    ring[-1] = ring[0]
    lines = lines_of(ring)
    assert lines.closed[0]
    sections = sections_every(lines, 10.0, 15.0, 15.0)
    assert len(meetings(sections).one) == 0
    assert sections.right[0] == pytest.approx(sections.right[-1])


def test_sections_of_different_lines_may_cross():
    lines = lines_of([(0, 0), (50, 0)], [(25, -20), (25, 20)])
    assert len(meetings(sections_every(lines, 10.0, 15.0, 15.0)).one) == 0
