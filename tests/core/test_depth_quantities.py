"""Volumes of prisms under triangles with linear depth."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.depth.quantities import prisms

DEPTH = st.floats(-2, 2, allow_nan=False).map(lambda value: round(value, 3))


def one(area, *depths):
    below, above = prisms(np.array([area]), np.array([depths]))
    return below[0], above[0]


def test_all_below_or_all_above():
    assert one(6.0, 1, 2, 3) == pytest.approx((12, 0))
    assert one(6.0, -1, -2, -3) == pytest.approx((0, 12))
    assert one(6.0, 0, 0, 0) == (0, 0)


def test_a_sign_change_by_hand():
    """Depths -1, 1, 1: the corner cut off is a quarter of the area and 1 high: A / 4 / 3."""
    below, above = one(12.0, -1, 1, 1)
    assert above == pytest.approx(1.0)
    assert below - above == pytest.approx(12.0 * 1 / 3)
    assert one(12.0, 1, -1, -1) == pytest.approx((1.0, 5.0))


@given(st.tuples(DEPTH, DEPTH, DEPTH))
def test_both_parts_against_fine_sums(depths):
    """Means over the centres of 40 x 40 equal triangles."""
    n = 40
    i, j = np.meshgrid(np.arange(n), np.arange(n))
    up = (i + j < n)[..., None] * np.ones(2)
    down = (i + j < n - 1)[..., None] * np.ones(2)
    centres = [np.dstack((i + 1 / 3, j + 1 / 3)) / n, np.dstack((i + 2 / 3, j + 2 / 3)) / n]
    total = np.zeros(2)
    a, b, c = depths
    for place, there in zip(centres, (up, down), strict=True):
        depth = a + (b - a) * place[..., 0] + (c - a) * place[..., 1]
        total += (
            (np.maximum(depth, 0) * there[..., 0]).sum(),
            (np.maximum(-depth, 0) * there[..., 0]).sum(),
        )
    assert one(1.0, *depths) == pytest.approx(total / n**2, abs=2e-3)
