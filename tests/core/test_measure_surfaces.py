"""Surfaces made of two: difference, higher, lower."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.errors import SurfaceError
from plugin.core.measure.surfaces import Shows, combined
from plugin.core.tin import Tin
from plugin.core.tin.overlay import integrate

from .test_overlay_shapes import close, flat, ring, sheet, stacked
from .tin_shapes import random_tin, square

SNAP = 1e-4


def under(tin):
    """Volume below a surface down to 0."""
    low, high = np.array(tin.extent[:2]) - 1, np.array(tin.extent[2:]) + 1
    plan = np.array([low, (high[0], low[1]), high, (low[0], high[1])])
    ground = Tin.from_arrays(np.column_stack((plan, np.zeros(4))), [(0, 1, 2), (0, 2, 3)])
    return float(integrate(tin, ground).total.net[0])


def test_two_planes_that_cross_make_a_ridge_a_valley_and_a_plane():
    rising, falling = square((0, 10, 10, 0)), square((10, 0, 0, 10))
    higher, lower = (
        combined(rising, falling, shows, SNAP) for shows in (Shows.HIGHER, Shows.LOWER)
    )
    spots = np.array([(2, 3), (5, 5), (9, 1.5)], float)
    assert higher.sample(spots)[0] == close([8, 5, 9])
    assert lower.sample(spots)[0] == close([2, 5, 1])
    difference = combined(rising, falling, Shows.DIFFERENCE, SNAP)
    assert difference.sample(spots)[0] == close([-6, 0, 8])
    assert higher.plan_area == close(100)


@settings(max_examples=15)
@given(st.integers(0, 10**6))
def test_volumes_and_areas_follow(seed):
    """Volume under the difference is the net, between the higher and the lower cut and fill."""
    one, other = random_tin(seed, 30), random_tin(seed + 1, 40)
    total = integrate(one, other).total
    made = {shows: combined(one, other, shows, SNAP) for shows in Shows}
    for tin in made.values():
        assert tin.plan_area == pytest.approx(total.area[0], rel=1e-6)
    assert under(made[Shows.DIFFERENCE]) == pytest.approx(total.net[0], abs=1e-2)
    between = under(made[Shows.HIGHER]) - under(made[Shows.LOWER])
    assert between == pytest.approx(total.cut[0] + total.fill[0], rel=1e-5)
    back = combined(other, one, Shows.HIGHER, SNAP)
    assert under(back) == pytest.approx(under(made[Shows.HIGHER]), rel=1e-9)


def test_it_has_no_inner_borders():
    """A pit in the plane: faces share their sides, so that the only border is the rim."""
    pit = stacked([ring(15, 0.0), ring(8, 0.0), ring(5, -2.0)])
    made = combined(sheet(80, 1.0, flat, turn=0.3, shift=(5.0, -20.0)), pit, Shows.DIFFERENCE, SNAP)
    (loop,) = made.boundary_loops()
    assert made.vertices[loop, :2].min() == close(5) and made.vertices[loop, :2].max() == close(35)
    assert made.vertices[:, 2].max() == close(2.0)


def test_holes_and_partial_overlap_stay():
    whole = sheet(10, 1.0, flat)
    holed = Tin.from_arrays(whole.vertices + (3.5, 0, 1), np.delete(whole.faces, [88, 89], axis=0))  # noqa: RUF005
    made = combined(holed, whole, Shows.HIGHER, SNAP)
    assert made.plan_area == close(65 - 1) and len(made.boundary_loops()) == 2


def test_surfaces_apart_are_refused():
    far = Tin.from_arrays(square().vertices + np.array((50, 0, 0)), square().faces)
    with pytest.raises(SurfaceError, match="share no ground"):
        combined(square(), far, Shows.LOWER, SNAP)
