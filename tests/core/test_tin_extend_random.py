"""A surface carried on beyond its borders: outlines of any shape, and a real road."""

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from plugin.core.tin import Tin
from plugin.core.tin.extend import Rule, extend

from .extend_shapes import checked, codes, plan_of, tilted, tin_of
from .tin_shapes import REAL, read_real


def star(seed: int):
    """An outline that every ray from its middle leaves once, spiky or round."""
    rng = np.random.default_rng(seed)
    count = rng.integers(3, 40)
    angle = np.sort(rng.uniform(0, 2 * np.pi, count))
    reach = rng.uniform(*[(1, 10), (8, 10), (0.05, 10)][rng.integers(3)], count)
    plan = np.column_stack([reach * np.cos(angle), reach * np.sin(angle)])
    return shapely.Polygon(np.round(plan, 3))


def rough(x, y):
    """A surface whose faces have planes of their own."""
    return np.abs(x) * 0.02 + np.sin(3 * x + 5 * y)


@settings(max_examples=60, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    distance=st.sampled_from([0.01, 0.3, 1.0, 5.0]),
    rule=st.sampled_from(list(Rule)),
    height=st.sampled_from([tilted, rough]),
    shift=st.sampled_from([0.0, 5e6]),
)
def test_any_outline_fits(seed, distance, rule, height, shift):
    plan = star(seed)
    assume(plan.is_valid and plan.area > 1e-3)
    tin = tin_of(plan, height)
    tin = Tin.from_arrays(tin.vertices + np.array([shift, shift, 0.0]), tin.faces)
    found = extend(tin, distance, rule, grade=-0.02)
    checked(tin, found, rounding=1e-9 if not shift else 1e-7)
    if rule is Rule.CARRY and height is tilted and "no_slope" not in codes(found):
        x, y, z = found.tin.vertices.T
        # Faces down to the snap width magnify the rounding of far coordinates.
        assert np.abs(z - tilted(x - shift, y - shift)).max() <= (5e-5 if shift else 1e-7)
    if not codes(found) or codes(found) == ["disagree"]:
        # Nothing was in the way: all within the distance is covered but bits beside the tips
        # of short edges.
        around = shapely.transform(plan.buffer(0.999 * distance), lambda xy: xy + shift)
        origin = np.floor(np.array(found.tin.extent[:2]))
        around = shapely.transform(around, lambda xy: xy - origin)
        missing = shapely.difference(around, plan_of(found.tin)).area
        assert missing <= 1e-6 + 0.02 * (around.area - plan.area)


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), distance=st.sampled_from([0.5, 2.0]))
def test_same_surface_for_faces_in_any_order(seed, distance):
    plan = star(seed)
    assume(plan.is_valid and plan.area > 1e-3)
    tin = tin_of(plan, rough)
    order = np.random.default_rng(seed).permutation(len(tin.faces))
    one, other = extend(tin, distance), extend(Tin(tin.vertices, tin.faces[order]), distance)
    assert other.tin.plan_area == pytest.approx(one.tin.plan_area, rel=1e-6)
    assert other.disagreement == pytest.approx(one.disagreement, rel=1e-6, abs=1e-9)
    assert codes(one) == codes(other)


@pytest.mark.skipif(not REAL.is_dir(), reason="the folder of real files is not there")
@pytest.mark.parametrize("name", ["road_finished", "road_subgrade"])
def test_a_real_road(name):
    tin = read_real(name)
    for distance in (0.3, 1.0, 5.0):
        found = checked(tin, extend(tin, distance))
        assert set(codes(found)) <= {"disagree", "narrow", "no_slope"}
        # Each strip keeps its plane at its edge.
        assert found.length == pytest.approx(plan_of(tin).exterior.length, rel=1e-6)
