"""Where the side of a rule changes along a line, against places known beforehand."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.bundle import Lines
from plugin.core.lines.reference import Reference
from plugin.core.lines.sides import Basis, Rule, judge
from plugin.core.lines.swap import parted, swaps

from .lines_shapes import SQUARE, lines_of, turned

STRAIGHT = [(0, 0, 1), (100, 0, 2)]


def found(lines, rule, basis, distance=1.0):
    return swaps(lines, rule, np.full(len(lines), distance), basis)


def test_a_reference_that_crosses_changes_the_side_at_the_crossing():
    reference = Reference([shapely.LineString([(0, 5), (37.25, 0), (100, -8.5)])])
    (places,) = found(lines_of(STRAIGHT), Rule.TOWARD, Basis(reference))
    assert places == pytest.approx([37.25], abs=1e-9)


def test_two_references_change_the_side_where_they_are_equally_near():
    near = [shapely.LineString([(0, 4), (50, 4)]), shapely.LineString([(50, -4), (100, -4)])]
    (places,) = found(lines_of(STRAIGHT), Rule.TOWARD, Basis(Reference(near)))
    assert places == pytest.approx([50.0], abs=0.05)


def test_areas_on_both_sides_change_it_at_their_borders():
    areas = Reference([shapely.box(-5, 0, 62.5, 10), shapely.box(62.5, -10, 110, 0)])
    (places,) = found(lines_of(STRAIGHT), Rule.INSIDE, Basis(areas))
    assert places == pytest.approx([62.5], abs=0.01)


def test_ground_that_tips_over_changes_uphill():
    # z = y (x - 40) / 100: the north is higher beyond x = 40, the south before.
    basis = Basis(sample=lambda xy: xy[:, 1] * (xy[:, 0] - 40.0) / 100.0)
    (places,) = found(lines_of(STRAIGHT), Rule.UPHILL, basis)
    # About the place itself the ground is too flat to tell: the middle of that is put.
    assert places == pytest.approx([40.0], abs=0.02)


def test_where_a_long_stretch_does_not_tell_it_is_cut_out():
    # Round a square the northern side faces north or south along its south and north; east and
    # west tell nothing, and become parts of their own.
    (places,) = found(lines_of(SQUARE), Rule.COMPASS, Basis(bearing=0.0))
    assert places == pytest.approx([10.0, 20.0, 30.0, 40.0], abs=0.01)


def test_a_change_close_to_a_crossing_is_one_of_its_own():
    """The reference crosses at 40 from left to right; from 46 on another one is nearer, left."""
    lines = lines_of(STRAIGHT)
    near = [shapely.LineString([(0, 5), (35, 1), (45, -1)]), shapely.LineString([(47, 1), (100, 1)])]  # noqa: E501  # fmt: skip
    basis = Basis(Reference(near))
    (places,) = found(lines, Rule.TOWARD, basis)
    assert places == pytest.approx([40.0, 46.0], abs=0.05)
    parts = Lines.from_arrays([xyz for _, xyz in parted(lines, 0, places)])
    judged = judge(parts, [Rule.TOWARD] * 3, np.ones(3), basis)
    assert (judged.side.tolist(), judged.code) == ([-1, 1, -1], ["", "", ""])


def test_right_and_left_never_change():
    assert [len(p) for p in found(lines_of(STRAIGHT, SQUARE), Rule.RIGHT, Basis())] == [0, 0]


def test_parts_meet_and_make_up_the_line():
    parts = parted(lines_of(STRAIGHT), 0, np.array([25.0, 60.0]))
    assert [start for start, _ in parts] == [0.0, 25.0, 60.0]
    assert [xyz[0, 0] for _, xyz in parts] == [0.0, 25.0, 60.0]
    assert parts[1][1].tolist() == [[25.0, 0.0, 1.25], [60.0, 0.0, 1.6]]
    ring = parted(lines_of(SQUARE), 0, np.array([5.0, 25.0]))
    assert [start for start, _ in ring] == [5.0, 25.0]
    over = ring[1][1]
    assert over[0, :2].tolist() == [5.0, 10.0] and over[-1, :2].tolist() == [5.0, 0.0]
    length = sum(np.hypot(*np.diff(xyz[:, :2], axis=0).T).sum() for _, xyz in ring)
    assert length == pytest.approx(40.0)


@settings(max_examples=60, deadline=None)
@given(
    at=st.floats(8, 92),
    degrees=st.floats(0, 360),
    back=st.booleans(),
    mirror=st.booleans(),
    shift=st.sampled_from([0.0, 2e6]),
)
def test_every_part_of_a_split_line_has_the_side_its_reference_lies_on(
    at, degrees, back, mirror, shift
):
    flip = np.array([1.0, -1.0 if mirror else 1.0])
    line = turned(np.array([(0, 0), (100, 0)]) * flip, degrees) + shift
    other = turned(np.array([(-20, 6), (at, 0), (120, -6)]) * flip, degrees) + shift
    lines = lines_of(line[::-1] if back else line)
    basis = Basis(Reference([shapely.linestrings(other)]))
    (places,) = found(lines, Rule.TOWARD, basis)
    own = 100 - at if back else at
    assert places == pytest.approx([own], abs=1e-5)
    parts = Lines.from_arrays([xyz for _, xyz in parted(lines, 0, places)])
    judged = judge(parts, [Rule.TOWARD] * 2, np.ones(2), basis)
    # The reference lies left at the start. Drawn back, the other end is the start and right is
    # left: that is the same again.
    assert judged.side.tolist() == ([1, -1] if mirror else [-1, 1])
    assert judged.code == ["", ""]  # parts end on the reference, which is no crossing
