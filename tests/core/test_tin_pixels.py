"""Rasters as triangulated surfaces."""

import numpy as np
import pytest

from plugin.core.breaks import KINDS, Kind, Search, find_breaks
from plugin.core.errors import SurfaceError
from plugin.core.tin.pixels import of_pixels

NORTH_UP = (1000.0, 2.0, 0.0, 500.0, 0.0, -2.0)


def test_heights_stand_at_the_centres_of_pixels():
    tin = of_pixels(np.array([[1.0, 2.0], [3.0, 4.0]]), NORTH_UP)
    assert sorted(map(tuple, tin.vertices.tolist())) == [
        (1001, 497, 3), (1001, 499, 1), (1003, 497, 4), (1003, 499, 2)
    ]  # fmt: skip
    assert tin.plan_area == pytest.approx(4.0)
    assert len(tin.faces) == 2


def test_a_plane_stays_a_plane_also_in_a_turned_raster():
    rows, columns = np.mgrid[0:7, 0:9] + 0.5
    turned = (100.0, 1.5, 0.5, 50.0, 0.5, -1.5)
    x = turned[0] + columns * turned[1] + rows * turned[2]
    y = turned[3] + columns * turned[4] + rows * turned[5]
    tin = of_pixels(0.02 * x - 0.03 * y, turned)
    assert tin.gradients == pytest.approx(np.tile((0.02, -0.03), (len(tin.faces), 1)))


def test_missing_pixels_leave_holes_and_three_make_a_triangle():
    heights = np.zeros((3, 3))
    heights[1, 1] = np.nan
    assert of_pixels(heights, NORTH_UP).plan_area == pytest.approx(4 * 2.0)
    with pytest.raises(SurfaceError, match="no three neighbouring pixels"):
        of_pixels(np.array([[1.0, np.nan], [np.nan, 1.0]]), NORTH_UP)


def test_a_crease_along_a_diagonal_of_pixels_is_one_line():
    rows, columns = np.mgrid[0:20, 0:20]
    tin = of_pixels(-0.1 * np.abs(rows - columns).astype(float), NORTH_UP)
    lines = find_breaks(tin, Search(0.02)).lines
    assert [KINDS[kind] for kind in lines.kind] == [Kind.RIDGE]
    assert lines.length[0] == pytest.approx(19 * np.hypot(2, 2))


def test_breaks_of_a_noisy_raster_over_a_width():
    _, columns = np.mgrid[0:60, 0:60]
    x = 0.5 * columns
    heights = np.where(x < 15, 0.02 * x, 0.3 + 0.07 * (x - 15))
    heights = heights + np.random.default_rng(1).uniform(-0.004, 0.004, heights.shape)
    tin = of_pixels(heights, (0.0, 0.5, 0.0, 30.0, 0.0, -0.5))
    lines = find_breaks(tin, Search(0.02, 0.015, support=3.0, gap=1.5, min_length=3.0)).lines
    assert len(lines) == 1
    assert KINDS[lines.kind[0]] is Kind.TOE
    assert np.abs(lines.line(0)[:, 0] - 15.25).max() < 0.8
    assert lines.change.mean[0] == pytest.approx(0.05, abs=0.003)
