"""Triangles across a break, where nothing stands on it, belong to one of its two sides."""

import numpy as np
import pytest

from plugin.core.breaks import Search, find_breaks
from plugin.core.breaks.patches import grow
from plugin.core.breaks.seams import unseamed
from plugin.core.tin import Tin

from .breaks_shapes import extruded, shuffled
from .breaks_sites import fragments, planted, recall_precision

WIDTH, CHANGE = 6.0, 0.02


def across(bend, seed=1):
    """Return a crease of 50 % along x = y, over squares of 2 units: triangles cross it anyhow.

    ``bend`` is -1 for a ridge and 1 for a valley.
    """
    vertices, faces = extruded([(x, 0.0) for x in np.arange(0, 41, 2.0)], np.arange(0, 41, 2.0))
    random = np.random.default_rng(seed)
    inner = ((vertices[:, :2] > 0) & (vertices[:, :2] < 40)).all(axis=1)
    vertices[inner, :2] += random.uniform(-0.5, 0.5, (inner.sum(), 2))
    away = (vertices[:, 0] - vertices[:, 1] + 0.7) / np.sqrt(2)
    vertices[:, 2] = bend * 0.25 * np.abs(away)
    return Tin.from_arrays(vertices, faces), away


@pytest.mark.parametrize("bend", [-1, 1])
def test_a_sharp_crease_has_two_sides_and_nothing_between(bend):
    tin, away = across(bend)
    grown = grow(tin, CHANGE, WIDTH)
    left = unseamed(tin, grown, WIDTH, CHANGE)
    assert len(grown) > 20
    areas = left.areas(tin)
    sides = np.argsort(areas)[-2:]
    # What is left over are single triangles at the rim, beside one of the two only.
    assert areas[sides].sum() > 0.99 * areas.sum()
    middle = away[tin.faces].mean(axis=1) > 0
    of = [set(left.of_face[middle == side].tolist()) & set(sides.tolist()) for side in (0, 1)]
    assert len(of[0]) == len(of[1]) == 1 and of[0] != of[1]
    assert 0.85 < left.own.mean() < 1


@pytest.mark.parametrize("height", [0.5, -0.5])
def test_a_step_between_two_planes_is_no_seam(height):
    """The foot of its face lies on the lower plane, its top on the higher one."""
    vertices, faces = extruded([(0, 0), (20, 0), (21, height), (41, height + 0.4)], range(0, 31, 3))
    tin = Tin.from_arrays(vertices, faces)
    grown = grow(tin, CHANGE, WIDTH)
    assert len(grown) == 3
    assert unseamed(tin, grown, WIDTH, CHANGE).of_face.tolist() == grown.of_face.tolist()


def test_a_long_narrow_strip_is_no_seam():
    """A shoulder between a lane and a slope is a strip that somebody drew."""
    profile = [(0, 0), (20, -0.4), (22, -0.6), (42, -6.6)]
    vertices, faces = extruded(profile, range(0, 61, 3))
    tin = Tin.from_arrays(vertices, faces)
    grown = grow(tin, CHANGE, WIDTH)
    assert len(grown) == 3
    assert len(unseamed(tin, grown, WIDTH, CHANGE)) == 3


@pytest.mark.parametrize(("spacing", "width"), [(1.5, 6.0), (2.0, 6.0), (2.0, 8.0)])
@pytest.mark.parametrize("noise", [0.0, 0.02])
def test_a_pond_whose_edges_are_crossed_anywhere_has_whole_lines(spacing, width, noise):
    for seed in (0, 1):
        site = planted(noise, seed, spacing=spacing, on_breaks=False)
        search = Search(CHANGE, 0.015, support=width, gap=3.0, min_length=8.0)
        lines = find_breaks(Tin.from_arrays(site.vertices, site.faces), search).lines
        recall, precision = recall_precision(lines, site.breaks.values(), 3.0)
        assert recall >= 0.99 and precision >= 0.97
        along = fragments(lines, site.breaks, 3.0)
        assert along.min() >= 1 and along.mean() <= 1.2


def test_neither_order_nor_unit_of_height_counts():
    site = planted(0.02, 3, spacing=2.0, on_breaks=False)
    search = {"keep": 0.015, "support": 8.0, "gap": 3.0}
    here = find_breaks(Tin.from_arrays(site.vertices, site.faces), Search(CHANGE, **search)).lines
    order = shuffled(site.vertices, site.faces, 7)
    there = find_breaks(Tin.from_arrays(*order), Search(CHANGE, **search)).lines
    assert there.coordinates.tobytes() == here.coordinates.tobytes()
    quarters = site.vertices * (1, 1, 4)
    tin = Tin.from_arrays(quarters, site.faces)
    scaled = find_breaks(tin, Search(CHANGE, **search, z_scale=0.25)).lines
    np.testing.assert_allclose(scaled.coordinates / (1, 1, 4), here.coordinates, atol=1e-9)
