"""Ponds: levels, areas and volumes against closed forms and against other ways to fill."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.measure.filling import fill
from plugin.core.measure.ponding import find_ponds
from plugin.core.tin import Tin

from .pond_shapes import bowls, channel, channel_levels, channel_water, cone_pit, flooded
from .tin_shapes import REAL, grid_faces, random_tin, read_real

FAR = 10_000_000.0


def moved(tin, shift=(0.0, 0.0, 0.0), turn=0.0):
    c, s = np.cos(turn), np.sin(turn)
    xyz = tin.vertices @ np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    return Tin.from_arrays(xyz + shift, tin.faces)


def totals(ponds):
    return len(ponds), ponds.area.sum(), ponds.volume.sum()


@pytest.mark.parametrize("sides", [3, 7, 64])
@pytest.mark.parametrize("place", [(0.0, 0.0, 0.0), (FAR, FAR, 500.0)])
def test_a_cone_pit_holds_a_third_of_its_prism(sides, place):
    pit = moved(cone_pit(sides, 10.0, 3.0), place)
    ponds = find_ponds(pit)
    area = sides / 2 * 100.0 * np.sin(2 * np.pi / sides)
    assert len(ponds) == 1
    assert ponds.level[0] == place[2]
    assert ponds.deepest[0] == 0
    assert ponds.area[0] == pytest.approx(area, rel=1e-9)
    assert ponds.volume[0] == pytest.approx(area * 3.0 / 3.0, rel=1e-9)
    assert ponds.outline[0].area == pytest.approx(area, rel=1e-6)
    assert ponds.lows.tolist() == [1]


def test_a_cone_pit_with_a_notch_fills_to_the_notch():
    pit = cone_pit(12, 10.0, 3.0)
    low = pit.vertices.copy()
    low[4, 2] = -1.0
    ponds = find_ponds(Tin.from_arrays(low, pit.faces))
    assert (ponds.level.tolist(), ponds.spill.tolist()) == ([-1.0], [4])


def test_heights_in_another_unit_scale_the_volume_only():
    one, other = find_ponds(cone_pit()), find_ponds(cone_pit(), z_scale=0.3048)
    assert other.volume[0] == pytest.approx(0.3048 * one.volume[0], rel=1e-12)
    assert (other.area[0], other.level[0]) == (one.area[0], one.level[0])


def test_water_in_a_channel_stands_behind_its_sill():
    bottom = np.array([5.0, 3.0, 1.0, 0.0, 2.0, 1.5, 0.5])
    ponds = find_ponds(channel(bottom))
    area, volume = channel_water(bottom[:5], 2.0)
    assert ponds.level.tolist() == [2.0]
    assert ponds.area[0] == pytest.approx(area, rel=1e-12)
    assert ponds.volume[0] == pytest.approx(volume, rel=1e-12)
    assert ponds.outline[0].area == pytest.approx(area, rel=1e-12)


def test_two_pits_that_spill_into_each_other_are_one_pond():
    bottom = np.array([6.0, 0.0, 2.0, 1.0, 4.0, -3.0])
    ponds = find_ponds(channel(bottom))
    area, volume = channel_water(bottom[:5], 4.0)
    assert (ponds.level.tolist(), ponds.lows.tolist()) == ([4.0], [2])
    assert (ponds.area[0], ponds.volume[0]) == pytest.approx((area, volume), rel=1e-12)


def test_a_pit_above_another_keeps_its_own_level():
    bottom = np.array([9.0, 3.0, 5.0, 1.0, 4.0, -3.0])
    ponds = find_ponds(channel(bottom))
    assert sorted(zip(ponds.level.tolist(), ponds.lows.tolist(), strict=True)) == [
        (4.0, 1),
        (5.0, 1),
    ]
    for level, area, volume in zip(ponds.level, ponds.area, ponds.volume, strict=True):
        part = bottom[:3] if level == 5.0 else bottom[2:5]
        assert (area, volume) == pytest.approx(channel_water(part, level), rel=1e-12)


def test_nested_pits_fill_to_the_outermost_rim():
    bottom = np.array([9.0, 2.0, 3.0, 1.0, 5.0, 0.0, 2.5, 1.5, 7.0, -1.0])
    ponds = find_ponds(channel(bottom))
    assert (ponds.level.tolist(), ponds.lows.tolist()) == ([7.0], [4])
    expected = channel_water(bottom[:9], 7.0)
    assert (ponds.area[0], ponds.volume[0]) == pytest.approx(expected, rel=1e-12)


@given(st.lists(st.integers(0, 12), min_size=3, max_size=14))
@settings(max_examples=150, deadline=None)
def test_channels_of_any_bottom_fill_like_their_profile(heights):
    bottom = np.array(heights, float)
    level = channel_levels(bottom)
    tin = channel(bottom)
    assert fill(tin).level[1::3].tolist() == level.tolist()
    area, volume = 0.0, 0.0
    # A reach of one level between dry vertices is one pond.
    edges = np.flatnonzero(level <= bottom)
    for one, two in pairwise(edges):
        if two - one > 1:
            more = channel_water(bottom[one : two + 1], level[one + 1])
            area, volume = area + more[0], volume + more[1]
    ponds = find_ponds(tin)
    assert (ponds.area.sum(), ponds.volume.sum()) == pytest.approx((area, volume), rel=1e-12)


@given(st.integers(0, 10**6), st.sampled_from([0.0, FAR]), st.booleans())
@settings(max_examples=60, deadline=None)
def test_levels_are_those_of_a_queue_over_all_vertices(seed, shift, steps):
    tin = random_tin(seed, 80, shift)
    if steps:  # level ground and equal passes
        xyz = tin.vertices.copy()
        xyz[:, 2] = np.round(xyz[:, 2])
        tin = Tin.from_arrays(xyz, tin.faces)
    filled = fill(tin)
    assert (filled.level == flooded(tin)).all()
    wet = filled.level > tin.vertices[:, 2]
    assert (tin.vertices[filled.spill[wet], 2] == filled.level[wet]).all()


@given(st.integers(0, 10**6))
@settings(max_examples=40, deadline=None)
def test_ponds_are_the_polygons_below_their_level(seed):
    """Reference library: outlines and their areas by shapely, from the level of each face."""
    tin = random_tin(seed, 80)
    ponds = find_ponds(tin)
    level = flooded(tin)
    corner = tin.vertices[tin.faces]
    wet = level[tin.faces] > corner[..., 2]
    water = np.where(wet, level[tin.faces], -np.inf).max(axis=1)
    parts, volume = [], 0.0
    for face in np.flatnonzero(wet.any(axis=1)):
        below = []
        for k in range(3):
            a, b = corner[face, k], corner[face, (k + 1) % 3]
            if a[2] <= water[face]:
                below.append(a)
            if (a[2] < water[face]) != (b[2] < water[face]) and a[2] != b[2]:
                below.append(a + (water[face] - a[2]) / (b[2] - a[2]) * (b - a))
        below = np.array(below)
        shape = shapely.Polygon(below[:, :2])
        parts.append(shape)
        for k in range(1, len(below) - 1):
            three = below[[0, k, k + 1]]
            size = shapely.Polygon(three[:, :2]).area
            volume += size * (water[face] - three[:, 2].mean())
    whole = shapely.union_all(parts) if parts else shapely.Polygon()
    assert ponds.area.sum() == pytest.approx(whole.area, abs=1e-7)
    assert ponds.volume.sum() == pytest.approx(volume, abs=1e-7)
    drawn = shapely.union_all(ponds.outline) if len(ponds) else shapely.Polygon()
    assert drawn.symmetric_difference(whole).area < 1e-6
    for shape, area in zip(ponds.outline, ponds.area, strict=True):
        assert shape.is_valid
        assert shape.area == pytest.approx(area, abs=1e-7)


@given(st.integers(0, 10**6), st.floats(0, 6.28))
@settings(max_examples=25, deadline=None)
def test_place_turn_order_and_splits_change_nothing(seed, turn):
    tin = bowls(seed, 150)
    ponds = find_ponds(tin)
    for other in (moved(tin, (FAR, -FAR, 0.0)), moved(tin, turn=turn)):
        same = find_ponds(other)
        assert (same.level == ponds.level).all()
        assert same.area == pytest.approx(ponds.area, rel=1e-6)
        assert same.volume == pytest.approx(ponds.volume, rel=1e-6)
    rng = np.random.default_rng(seed)
    order = rng.permutation(len(tin.vertices))
    number = np.argsort(order)
    mixed = Tin.from_arrays(tin.vertices[order], rng.permutation(number[tin.faces]))
    assert totals(find_ponds(mixed)) == pytest.approx(totals(ponds), rel=1e-12)
    # Every face split at its middle is the same surface.
    middle = len(tin.vertices) + np.arange(len(tin.faces))
    a, b, c = tin.faces.T
    split = np.concatenate([np.column_stack((p, q, middle)) for p, q in ((a, b), (b, c), (c, a))])
    fine = Tin.from_arrays(
        np.concatenate([tin.vertices, tin.vertices[tin.faces].mean(axis=1)]), split
    )
    count, area, volume = totals(ponds)
    assert totals(find_ponds(fine)) == pytest.approx((count, area, volume), rel=1e-9)


def test_shallow_ponds_are_counted_and_passed_over():
    bottom = np.array([9.0, 3.0, 3.1, 1.0, 4.0, -3.0, -1.0, -1.5, -1.2, -5.0])
    every = find_ponds(channel(bottom))
    deep = find_ponds(channel(bottom), min_depth=1.0)
    assert (len(every), len(deep), deep.shallow) == (3, 2, 1)
    assert set(deep.level) == {4.0, -1.0}


def test_an_island_is_a_hole_in_the_water():
    # A square moat of bottom height 0 about a block of height 5, in ground of 3 that falls away.
    plan = np.stack(np.meshgrid(np.arange(9.0), np.arange(9.0)), axis=-1).reshape(-1, 2)
    far = np.abs(plan - 4).max(axis=1)
    z = np.select([far <= 1, far == 2, far == 3], [5.0, 0.0, 3.0], -1.0)
    ponds = find_ponds(Tin.from_arrays(np.column_stack((plan, z)), grid_faces(9, 9)))
    (shape,) = ponds.outline
    assert ponds.level.tolist() == [3.0]
    assert (shape.geom_type, len(shape.interiors)) == ("Polygon", 1)
    assert not shape.contains(shapely.Point(4, 4))
    assert shape.area == pytest.approx(ponds.area[0], rel=1e-12)


def test_ground_that_falls_to_its_border_holds_no_water():
    for tin in (channel([3.0, 2.0, 1.0]), channel([2.0, 2.0, 2.0])):
        assert len(find_ponds(tin)) == 0


def test_without_any_border_nothing_is_said():
    # A closed tetrahedron has no way out; it is no ground.
    corners = [(0, 0, 0), (4, 0, 1), (0, 4, 2), (1, 1, 3)]
    tin = Tin.from_arrays(corners, [(0, 1, 2), (0, 1, 3), (1, 2, 3), (0, 2, 3)])
    assert len(find_ponds(tin)) == 0


@pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
@pytest.mark.parametrize("name", ["road_finished", "road_subgrade", "road_ground"])
def test_real_surfaces_fill_like_a_queue(name):
    tin = read_real(name)
    assert (fill(tin).level == flooded(tin)).all()
    ponds = find_ponds(tin)
    assert [shape.area for shape in ponds.outline] == pytest.approx(ponds.area, rel=1e-3, abs=1e-6)
