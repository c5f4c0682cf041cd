"""Lines of one name that run in different directions."""

import numpy as np
import pytest

from plugin.core.lines.mixed import mixed_directions

from .lines_shapes import SQUARE, lines_of, turned, wander

EAST = [(0, 0), (100, 0)]
FAR_WEST = [(500, 300), (420, 316)]


def found(*lines, names=None):
    return mixed_directions(lines_of(*lines), names or ["curb"] * len(lines), 0.01)


@pytest.mark.parametrize(
    ("other", "place"),
    [
        ([(180, 10), (100, 0)], (100, 0)),  # end to end
        ([(80, 12), (10, 12)], (45, 12)),  # side by side
        (FAR_WEST, (460, 308)),  # by bearing
        ([(100, 0), (0, 0)], (50, 0)),  # drawn twice
    ],
)
def test_the_shorter_line_against_the_others_is_named_with_its_place(other, place):
    (finding,) = found(EAST, other)
    assert finding.code == "runs_against"
    if other[0] != (100, 0):  # there both are equally long
        assert finding.feature == 1
    assert finding.place == pytest.approx(place)
    assert "“curb”" in finding.why
    assert "1 of 2" in finding.why


@pytest.mark.parametrize(
    "other", [[(100, 0), (180, 10)], [(10, 12), (80, 12)], FAR_WEST[::-1], [(0, 200), (0, 300)]]
)
def test_lines_that_agree_or_cannot_be_compared_are_not_named(other):
    assert not found(EAST, other)


def test_lines_of_other_names_do_not_count():
    assert not found(EAST, EAST[::-1], names=["curb", "walk"])


def test_pieces_of_a_loop_that_follow_each_other_are_one_direction():
    east, back = [(0, 0), (100, 0), (100, 20)], [(100, 20), (0, 20)]
    assert not found(east, back)  # though their bearings are opposite
    (finding,) = found(east, back[::-1])
    assert finding.place == pytest.approx((100, 20))


def test_rings_are_compared_by_the_way_round():
    inner = [(3, 3), (7, 3), (7, 7), (3, 7), (3, 3)]
    ring = [p[:2] for p in SQUARE]
    assert not found(ring, inner)
    assert found(ring, inner[::-1])


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_pieces_of_a_wandering_line_turned_at_random_are_found(shift):
    line = turned(wander(3, count=60), 33)[:, :2] + shift
    parts = [line[:20], line[19:50], line[49:]]
    assert not found(*parts)
    (finding,) = found(parts[0], parts[1], parts[2][::-1])
    assert finding.feature == 2
    assert np.abs(np.array(finding.place) - line[49]).max() < 1e-6
