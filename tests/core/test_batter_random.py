"""Sides over random, nearly degenerate cases; `long_batter` in benchmarks runs many more."""

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.patchwork import Part

from .batter_shapes import TOLERANCE, dug_at_random, mesh_problems

SEEDS = st.integers(0, 1 << 40)


@settings(max_examples=100, deadline=None)
@given(SEEDS)
def test_meshes_with_sides_fit_and_fill(seed):
    made, before, outcome = dug_at_random(seed)
    assert mesh_problems(made, before) == []
    assert outcome.crooked == 0


@settings(max_examples=40, deadline=None)
@given(SEEDS)
def test_sides_only_lower_around_pits_and_only_raise_around_fills(seed):
    """Faces of sides lie below what was there where their zone cuts, above where it raises."""
    made, before, _ = dug_at_random(seed)
    side = made.part == Part.BATTER
    ground = before.heights[before.part == Part.DESIGN]
    slack = 1e-9 * max(np.ptp(before.points), np.abs(ground).max(initial=1.0))
    below = made.design - made.heights
    deepest = max((before.design - before.heights).max(initial=0.0), 0.0)
    highest = min((before.design - before.heights).min(initial=0.0), 0.0)
    assert (below[~side] <= deepest + slack).all() and (below >= highest - slack).all()


@settings(max_examples=25, deadline=None)
@given(SEEDS)
def test_heights_agree_wherever_the_surface_did_not_jump_before(seed):
    """Sides close no new cracks in height: they jump at borders of zones alone."""
    made, _, _ = dug_at_random(seed, upright=False)
    side = np.flatnonzero(made.part == Part.BATTER)
    node, height = made.faces[side].ravel(), made.heights[side].ravel()
    order = np.lexsort((height, node))
    gap = np.diff(height[order])[np.diff(node[order]) == 0]
    clear = gap[gap > 0]
    assert (clear > TOLERANCE.snap * 1e-6).all()
