"""Sides over random, nearly degenerate cases; `long_batter` in benchmarks runs many more."""

from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.manner import BatterRule
from plugin.core.depth.patchwork import Part

from .batter_shapes import dug_at_random, mesh_problems

SEEDS = st.integers(0, 1 << 40)


@settings(max_examples=100, deadline=None)
@given(SEEDS)
def test_meshes_with_sides_fit_and_fill(seed):
    made, before, outcome = dug_at_random(seed)
    assert mesh_problems(made, before) == []
    assert outcome.crooked == 0


@settings(max_examples=40, deadline=None)
@given(SEEDS)
def test_sides_that_follow_the_design_never_leave_the_depths_of_their_zones(seed):
    """Rule `design`: depths lie between the greatest raise and the greatest depth."""
    made, before, _ = dug_at_random(seed, rule=BatterRule.DESIGN)
    below, given_depths = made.design - made.heights, before.design - before.heights
    slack = 1.5e-7  # nodes within 5e-8 of a line are on it, and sides are as steep as 1:2
    assert below.max() <= max(given_depths.max(), 0.0) + slack
    assert below.min() >= min(given_depths.min(), 0.0) - slack
    assert (below[made.part == Part.BATTER] != 0.0).any() or not (made.part == Part.BATTER).any()
