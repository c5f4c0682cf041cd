"""Slopes smoothed face by face: noise goes, breaks stay, planes are left alone."""

import numpy as np
import pytest

from plugin.core.breaks import Search, find_breaks
from plugin.core.breaks.smoothing import smoothed_gradients
from plugin.core.tin import Tin

from .breaks_sites import fragments, planted, recall_precision
from .tin_shapes import grid_faces


def sheet(rise, size=20, noise=0.0):
    """A square sheet of triangles of one unit; ``rise`` gives the height at x."""
    x, y = np.meshgrid(np.arange(size + 1.0), np.arange(size + 1.0))
    z = rise(x) + np.random.default_rng(0).uniform(-noise, noise, x.shape)
    return Tin.from_arrays(
        np.column_stack((x.ravel(), y.ravel(), z.ravel())), grid_faces(size + 1, size + 1)
    )


def test_a_plane_keeps_its_slope():
    tin = sheet(lambda x: 0.03 * x)
    assert smoothed_gradients(tin, 0.02, 5) == pytest.approx(tin.gradients, abs=1e-12)


def test_a_break_of_several_changes_keeps_its_change_and_one_as_small_as_it_fades():
    def change(step):
        tin = sheet(lambda x: step * np.maximum(x - 10.0, 0.0))
        slopes = smoothed_gradients(tin, 0.02, 5)
        middle = tin.vertices[tin.faces, 0].mean(axis=1)
        return slopes[middle > 10, 0].min() - slopes[middle < 10, 0].max()

    assert change(0.10) == pytest.approx(0.10, abs=1e-5)  # exp(-25 / 2) is mixed
    assert 0.03 < change(0.05) < 0.05
    assert change(0.02) < 0.015


def test_noise_is_averaged_out():
    tin = sheet(lambda x: 0.03 * x, noise=0.005)
    spread = [np.std(g[:, 0]) for g in (tin.gradients, smoothed_gradients(tin, 0.02, 5))]
    assert spread[1] < 0.4 * spread[0]


def test_upright_faces_take_no_part_and_keep_having_no_slope():
    vertices = [
        (0, 0, 0),
        (4, 0, 0),
        (4, 4, 0),
        (0, 4, 0),
        (4, 0, 2),
        (4, 4, 2),
        (8, 0, 2),
        (8, 4, 2),
    ]
    faces = [(0, 1, 2), (0, 2, 3), (1, 4, 5), (1, 5, 2), (4, 6, 7), (4, 7, 5)]
    tin = Tin.from_arrays(np.array(vertices, float), np.array(faces))
    slopes = smoothed_gradients(tin, 0.02, 3)
    assert np.array_equal(np.isnan(slopes), np.isnan(tin.gradients)) and np.isnan(slopes).any()
    assert np.nanmax(np.abs(slopes)) == 0.0


def test_heights_in_another_unit_are_smoothed_alike():
    """Heights in feet over metres: what counts is the slope."""
    tin = sheet(lambda x: 0.03 * np.abs(x - 10.0), noise=0.004)
    feet = Tin.from_arrays(tin.vertices * (1.0, 1.0, 1 / 0.3048), tin.faces)
    own = smoothed_gradients(feet, 0.02, 4, 0.3048) * 0.3048
    assert own == pytest.approx(smoothed_gradients(tin, 0.02, 4), abs=1e-12)


def test_the_order_of_faces_does_not_matter():
    tin = sheet(lambda x: 0.03 * np.abs(x - 10.0), noise=0.004)
    order = np.random.default_rng(1).permutation(len(tin.faces))
    other = Tin.from_arrays(tin.vertices, tin.faces[order])
    assert smoothed_gradients(other, 0.02, 3) == pytest.approx(
        smoothed_gradients(tin, 0.02, 3)[order], abs=1e-14
    )


@pytest.mark.parametrize("normal", [False, True])
def test_five_millimetres_of_noise_on_triangles_of_a_metre(normal):
    """What is lost are arcs shorter than 8 m, the shortest line asked for, as without noise."""
    shares, pieces = [], []
    for seed in (0, 1):
        site = planted(0.005, seed, spacing=1.0, normal=normal)
        tin = Tin.from_arrays(site.vertices, site.faces)
        lines = find_breaks(tin, Search(0.02, 0.015, smoothing=5, gap=3.0, min_length=8.0)).lines
        shares.append(recall_precision(lines, site.breaks.values(), 1.0))
        pieces.append(fragments(lines, site.breaks, 1.0))
        raw = find_breaks(tin, Search(0.02, 0.015, gap=3.0, min_length=8.0)).lines
        assert recall_precision(raw, site.breaks.values(), 1.0)[1] < 0.9
    recall, precision = np.mean(shares, axis=0)
    assert recall >= 0.985 and precision >= 0.97
    assert np.mean(pieces) <= (1.5 if normal else 1.2)
