"""Square thickness on random, near-degenerate surfaces and zones.

Long run: ``SQUARE_CASES=10000 python -m pytest tests/core/test_square_random.py``.
"""

import os
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.patchwork import lay
from plugin.core.depth.square import square_off
from plugin.core.depth.zones import resolve
from plugin.core.errors import ZoneError
from plugin.core.tin.cut import cut_tin

from .cut_shapes import random_case, sheet
from .square_shapes import MANNER, TOLERANCE, distances, origin_of, squared, whole, whole_faults

CASES = int(os.environ.get("SQUARE_CASES", "60"))


def random_result(seed):
    """A random case cut, laid and squared off."""
    random = np.random.default_rng(seed + 7)
    tin, zones = random_case(seed)
    zones = resolve(zones, TOLERANCE)
    zones = replace(zones, squares=random.choice([0, 0.05, 0.3, -0.2, 1.0], len(zones)))
    cut = cut_tin(tin, zones.polygons, TOLERANCE)
    patch = lay(cut, np.append(zones.depths, 0.0), origin_of(tin))
    outside = float(random.choice([0.0, 0.1]))
    after, outcome = square_off(patch, zones, MANNER, TOLERANCE, outside=outside)
    thickness = np.append(zones.depths, 0.0), np.append(zones.squares, outside)
    return tin, patch, after, outcome, thickness


@pytest.mark.parametrize("block", range(10))
def test_outlines_cracks_and_distances(block):
    wrong = []
    for seed in range(block * CASES // 10, (block + 1) * CASES // 10):
        try:
            tin, before, after, outcome, (depths, squares) = random_result(seed)
        except ZoneError:  # the zones overlap in a way that is refused
            continue
        faults = whole_faults(before, after)
        plumb = replace(after, heights=after.heights + depths[after.zone][:, None])
        off = np.abs(distances(plumb, tin) - squares[after.zone][:, None]).max(axis=1)
        # Needles have no plane to speak of.
        known = tin.sloped_areas[after.parent] > 1e-9
        if (off[known & (outcome.flags == "")] > 1.01 * TOLERANCE.chord).any():
            faults.append("thickness not kept and not said so")
        if (outcome.flags[squares[after.zone] == 0.0] != "").any():
            faults.append("flags where nothing moved")
        if faults:
            wrong.append((seed, faults))
    assert wrong == []


@settings(max_examples=40, deadline=None)
@given(
    st.integers(0, 10**6),
    st.sampled_from([0.05, 0.5, 2.0, -0.05, -0.5, -2.0]),
    st.sampled_from([0.05, 0.5, 3.0]),
)
def test_rough_surfaces_stay_single_valued(seed, thickness, rough):
    """However thick the layer and rough the surface: nothing turns over, no area is lost."""
    random = np.random.default_rng(seed)
    tin = sheet(9, 9, move=0.25, seed=seed, height=lambda xy: rough * random.random(len(xy)))
    before, after, outcome = squared(tin, [whole(tin)], [thickness])
    assert whole_faults(before, after) == []
    off = np.abs(distances(after, tin) - thickness).max(axis=1)
    assert off[outcome.flags == ""].max(initial=0.0) <= 1.01 * outcome.allowed
    assert outcome.largest_residual == pytest.approx(off.max(), rel=1e-6, abs=1e-9)


def test_the_same_input_gives_the_same_bytes():
    one, other = (random_result(11)[2] for _ in range(2))
    for name in ("points", "faces", "heights", "design", "zone", "parent"):
        np.testing.assert_array_equal(getattr(one, name), getattr(other, name))
