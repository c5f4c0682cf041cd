"""The cut over random, nearly degenerate cases; `long_cut` in benchmarks runs many more."""

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from plugin.core.depth.zones import resolve
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance

from .cut_shapes import cut_faults, polygons, random_case, sheet

SEEDS = st.integers(0, 1 << 40)
TOLERANCE = Tolerance()


@settings(max_examples=120, deadline=None)
@given(SEEDS)
@example(103659)  # a zone looked up in a neck of half a millimetre
@example(101280)  # hairlines of one zone inside another
def test_pieces_fit_fill_and_lie_in_one_zone(seed):
    tin, zones = random_case(seed)
    shapes = resolve(zones, TOLERANCE).polygons
    cut = cut_tin(tin, shapes, TOLERANCE)
    assert cut_faults(tin, cut, shapes) == []
    assert cut.largest_move < 20 * TOLERANCE.snap


@settings(max_examples=25, deadline=None)
@given(SEEDS)
def test_order_of_the_zones_changes_nothing_but_their_numbers(seed):
    tin, zones = random_case(seed)
    shapes = resolve(zones, TOLERANCE).polygons
    order = np.random.default_rng(seed).permutation(len(shapes))
    one = cut_tin(tin, shapes, TOLERANCE)
    other = cut_tin(tin, shapes[order], TOLERANCE)
    assert np.array_equal(one.tin.vertices, other.tin.vertices)
    assert np.array_equal(one.tin.faces, other.tin.faces)
    assert np.array_equal(one.parent, other.parent)
    named = np.where(other.zone < 0, -1, order[other.zone])
    assert np.array_equal(one.zone, named)


@settings(max_examples=25, deadline=None)
@given(SEEDS, st.sampled_from([1024.0, 500_000.0, 8_388_608.0]))
def test_a_site_elsewhere_is_cut_alike(seed, shift):
    """Positions on a grid of 1/1024, so that the shift changes no difference."""
    random = np.random.default_rng(seed)
    tin = sheet(8, 8, 2.0, 0.1, int(random.integers(1 << 30)))
    plan = np.round(tin.vertices[:, :2] * 1024) / 1024
    tin = Tin.from_arrays(np.column_stack((plan, tin.vertices[:, 2])), tin.faces)
    east = np.array((shift, shift, 0.0))
    moved = Tin.from_arrays(tin.vertices + east, tin.faces)
    middle = np.round(random.uniform(3, 10, 2) * 1024) / 1024
    corners = middle + np.round(random.uniform(1, 6, (7, 1)) * 64) / 64 * [
        (1, 0), (0.5, 0.75), (-0.25, 1), (-1, 0.25), (-0.75, -0.75), (0, -1), (0.75, -0.5)
    ]  # fmt: skip
    shape = shapely.Polygon(corners)
    one = cut_tin(tin, polygons(shape), TOLERANCE)
    there = shapely.transform(shape, lambda xy: xy + shift)
    other = cut_tin(moved, polygons(there), TOLERANCE)
    assert np.array_equal(one.tin.faces, other.tin.faces)
    assert np.array_equal(one.zone, other.zone)
    assert one.tin.vertices + east == pytest.approx(other.tin.vertices, abs=2e-9)


@settings(max_examples=25, deadline=None)
@given(SEEDS)
def test_zone_areas_are_those_of_an_independent_overlay(seed):
    """GEOS, face by face: each may differ by what the border has moved along its length."""
    random = np.random.default_rng(seed)
    tin = sheet(10, 10, 1.0, 0.15, int(random.integers(1 << 30)))
    shapes = polygons(
        *(
            shapely.Point(random.uniform(0, 9, 2)).buffer(random.uniform(0.1, 2), quad_segs=3)
            for _ in range(4)
        )
    )
    for row in range(1, len(shapes)):
        shapes[row] = shapes[row].difference(shapely.union_all(shapes[:row]))
    cut = cut_tin(tin, shapes, TOLERANCE)
    faces = shapely.polygons(tin.vertices[tin.faces][:, :, :2])
    for row, shape in enumerate(shapes):
        with np.errstate(all="ignore"):  # GEOS leaves floating point flags set
            overlay = shapely.area(shapely.intersection(faces, shape)).sum()
        ours = cut.tin.plan_areas[cut.zone == row].sum()
        assert ours == pytest.approx(overlay, abs=cut.largest_move * shape.length + 1e-9)
