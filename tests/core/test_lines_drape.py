"""Heights of guidelines on a surface."""

import numpy as np
import pytest

from plugin.core.lines.drape import draped, steps, stretches, tin_crossings
from plugin.core.tin import Tin

from .lines_shapes import SQUARE, lines_of, turned, wander


def roof(x=50.0, shift=0.0):
    """Two planes that meet in a ridge at ``x``, as four triangles; z is known in closed form."""
    xy = np.array([(0, 0), (x, 0), (100, 0), (0, 80), (x, 80), (100, 80)], float)
    z = 10 - 0.1 * np.abs(xy[:, 0] - x)
    faces = [(0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4)]
    return Tin.from_arrays(np.column_stack([xy + shift, z]), np.array(faces))


@pytest.mark.parametrize("shift", [0.0, 5e6])
def test_a_draped_line_follows_every_face(shift):
    lines = lines_of(np.add([(5, 40), (95, 41)], shift))
    tin = roof(shift=shift)
    fuller, origin, along = draped(lines, tin_crossings(lines, tin), lambda xy: tin.sample(xy)[0])
    assert np.abs(fuller.z - (10 - 0.1 * np.abs(fuller.xy[:, 0] - shift - 50))).max() < 1e-6
    assert (np.abs(fuller.xy[:, 0] - shift - 50) < 1e-6).sum() == 1  # a vertex on the ridge
    assert len(fuller.xy) == 5  # two diagonals and the ridge are crossed
    assert origin[[0, -1]].tolist() == [0, 1] and (origin[1:-1] == -1).all()
    assert (np.diff(along) > 0).all()


def test_between_vertices_a_draped_line_lies_on_the_surface():
    rng = np.random.default_rng(5)
    grid = np.stack(np.meshgrid(np.arange(0, 60.0, 6), np.arange(0, 60.0, 6)), -1).reshape(-1, 2)
    quads = [(i, i + 1, i + 11, i + 10) for i in range(89) if i % 10 != 9]
    faces = [f for a, b, c, d in quads for f in ((a, b, c), (a, c, d))]
    tin = Tin.from_arrays(np.column_stack([grid, rng.normal(0, 2, 100)]), np.array(faces))
    line = wander(6, count=15, bend=0.2)[:, :2]
    line = 5 + 44 * (line - line.min(0)) / np.ptp(line, axis=0).max()
    lines = lines_of(line)
    fuller, _, _ = draped(lines, tin_crossings(lines, tin), lambda xy: tin.sample(xy)[0])
    for share in (0.25, 0.5, 0.75):
        xyz = np.column_stack([fuller.xy, fuller.z])
        between = xyz[:-1] + share * np.diff(xyz, axis=0)
        assert np.abs(tin.sample(between[:, :2])[0] - between[:, 2]).max() < 1e-3


@pytest.mark.parametrize("degrees", [0, 13, 29, 71])
def test_vertices_on_the_rim_have_a_height(degrees):
    """Far from the origin and turned, rounding puts some of them just off the surface."""
    home = roof()
    plan = np.add(turned(home.vertices, degrees), (5e6, 3e6, 0.0))
    tin = Tin.from_arrays(plan, home.faces)
    across = np.column_stack([np.full(40, -20.0), np.linspace(2, 78, 40)])
    lines = lines_of(
        *[np.add(turned(np.array([a, a * (-6, 1)]), degrees), (5e6, 3e6)) for a in across]
    )
    fuller, _, _ = draped(lines, tin_crossings(lines, tin), lambda xy: tin.sample(xy)[0])
    parts = stretches(fuller, np.isfinite(fuller.z))
    assert [good for _, _, _, good in parts] == [False, True, False] * 40
    for _, first, last, good in parts:
        if good:
            ends = turned(fuller.xy[[first, last]] - (5e6, 3e6), -degrees)
            assert ends[:, 0] == pytest.approx([0, 100], abs=1e-6)


def test_steps_leave_no_stretch_too_long():
    lines = lines_of([(0, 0), (10, 0), (10, 1)], SQUARE)
    owner, station = steps(lines, 3.0)
    assert station[owner == 0] == pytest.approx([2.5, 5, 7.5])
    assert len(owner) == 3 + 4 * 3


def test_lines_beside_the_surface_are_left_without_heights():
    lines = lines_of([(200, 0), (300, 0)])
    owner, _ = tin_crossings(lines, roof())
    assert len(owner) == 0
