"""What a break is called."""

import numpy as np
import pytest

from plugin.core.breaks import KINDS, classify

from .breaks_shapes import at_x, breaks_of, cone, extruded, moved, tin, words

# Grade before and after the break at x = 10, walking towards +x, and the word for it.
CASES = [
    (0.05, -0.05, "ridge"),
    (0.002, -0.05, "ridge"),
    (-0.05, 0.05, "valley"),
    (-0.3, 0.002, "valley"),
    (-0.02, -0.09, "top"),
    (0.09, 0.02, "top"),
    (-0.09, -0.02, "toe"),
    (0.02, 0.09, "toe"),
    # A level side: rim of a platform, rim of a floor.
    (0.0, -0.33, "top"),
    (0.33, 0.0, "top"),
    (0.0, 0.33, "toe"),
    (-0.33, 0.0, "toe"),
    (0.0009, -0.05, "top"),
    (-0.0009, 0.05, "toe"),
]


def profile(before, after):
    return [(0, 0), (10, 10 * before), (20, 10 * (before + after))]


@pytest.mark.parametrize(("before", "after", "word"), CASES)
@pytest.mark.parametrize("mirror", [False, True])
@pytest.mark.parametrize(("degrees", "shift"), [(0, 0), (37, 0), (180, 1e7), (271, -1e7)])
def test_kind_by_grades(before, after, word, mirror, degrees, shift):
    vertices, faces = extruded(profile(before, after), slope_along=0.01)
    vertices = moved(vertices, degrees, (shift, shift, 100), mirror)
    lines = breaks_of(tin(vertices, faces), 0.02)
    assert words(lines) == [word]
    np.testing.assert_allclose(lines.change.mean, abs(after - before), atol=1e-7)


def test_no_change_and_unknown_change_have_no_kind():
    left = np.array([0.02, np.inf, np.nan])
    right = np.array([-0.02, -np.inf, 0.1])
    assert classify(left, right).tolist() == [-1, -1, -1]


def test_endless_rises():
    left = np.array([np.inf, -np.inf, np.inf, -np.inf])
    right = np.array([0.02, 0.02, -0.02, -0.02])
    found = [str(KINDS[code]) for code in classify(left, right)]
    assert found == ["valley", "top", "toe", "ridge"]


@pytest.mark.parametrize(("height", "word"), [(3.0, "ridge"), (-3.0, "valley")])
def test_pyramid_and_its_mould(height, word):
    lines = breaks_of(tin(*cone(4, height=height)), 0.02)
    # Each line runs straight on across the apex.
    assert words(lines) == [word] * 2
    assert (lines.length == 20).all()


def test_trench():
    """Level ground, 2:1 sides, level floor: top, toe, toe, top."""
    section = [(0, 0), (10, 0), (14, -2), (17, -2), (21, 0), (31, 0)]
    lines = breaks_of(tin(*extruded(section)), 0.02)
    found = {x: words(lines)[at_x(lines, x)] for x in (10, 14, 17, 21)}
    assert found == {10: "top", 14: "toe", 17: "toe", 21: "top"}
    assert len(lines) == 4
    np.testing.assert_allclose(lines.change.mean, 0.5, rtol=1e-12)


def test_crowned_street_with_kerbs_strip_and_lawn():
    """One side: lane 2 % down, gutter 6 % down, kerb face, kerb top level, strip up, lawn up."""
    half = [(0, 0), (12, -0.24), (13.5, -0.33), (13.501, 0.17), (14, 0.17), (19, 0.32), (39, 1.92)]
    section = [(-x, z) for x, z in half[:0:-1]] + half
    lines = breaks_of(tin(*extruded(section, slope_along=-0.01)), 0.02)
    kinds = words(lines)
    found = {x: kinds[at_x(lines, x)] for x, _ in section[1:-1]}
    expected = {12: "top", 13.5: "valley", 13.501: "top", 14: "toe", 19: "toe"}
    assert found == {0: "ridge", **expected, **{-x: word for x, word in expected.items()}}
    assert len(lines) == 11
    crown, lawn = at_x(lines, 0), at_x(lines, 19)
    np.testing.assert_allclose(lines.change.mean[crown], 0.04, rtol=1e-9)
    np.testing.assert_allclose(lines.change.mean[lawn], 0.08 - 0.03, rtol=1e-9)
    wall = {x for x in found if lines.wall[at_x(lines, x)] > 0}
    assert wall == {-13.501, -13.5, 13.5, 13.501}
