"""Plane and second-degree fits that add up, against least squares done otherwise."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.breaks.curved import Curved
from plugin.core.breaks.fits import Fits
from plugin.core.breaks.patches import price


def triangles(seed, count=12):
    random = np.random.default_rng(seed)
    corners = random.uniform(-5, 5, (count, 3, 3))
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    back = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0] < 0
    corners[back] = corners[back][:, ::-1]
    return corners


def dense(corners, steps=60):
    """Points spread evenly over triangles with the area each stands for (midpoint rule)."""
    u, v = np.meshgrid((np.arange(steps) + 0.5) / steps, (np.arange(steps) + 0.5) / steps)
    u, v = u.ravel(), v.ravel()
    fold = u + v > 1
    u, v = np.where(fold, 1 - u, u), np.where(fold, 1 - v, v)
    points = corners[:, :1] + u[:, None] * (corners[:, 1:2] - corners[:, :1])
    points = points + v[:, None] * (corners[:, 2:] - corners[:, :1])
    first, second = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = (first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]) / 2
    weight = np.repeat(area / len(u), len(u))
    return points.reshape(-1, 3), weight


def least_squares(points, weight, columns):
    root = np.sqrt(weight)
    matrix = np.column_stack([points[:, 0] ** i * points[:, 1] ** j for i, j in columns])
    solved = np.linalg.lstsq(matrix * root[:, None], points[:, 2] * root, rcond=None)[0]
    left = points[:, 2] - matrix @ solved
    return solved, float((weight * left * left).sum())


PLANE = ((0, 0), (1, 0), (0, 1))
BENT = (*PLANE, (2, 0), (1, 1), (0, 2))


@settings(max_examples=20, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_a_plane_fitted_to_triangles_is_that_of_dense_points(seed):
    corners = triangles(seed)
    fit = Fits.of_triangles(corners).gathered(np.zeros(len(corners), int), 1)
    solved, misfit = least_squares(*dense(corners), PLANE)
    assert fit.gradients[0] == pytest.approx(solved[1:], rel=2e-3, abs=2e-3)
    assert fit.misfit[0] == pytest.approx(misfit, rel=5e-3)


@settings(max_examples=20, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_a_second_degree_fit_is_that_of_dense_points(seed):
    corners = triangles(seed)
    fit = Curved.of_triangles(corners, np.zeros(len(corners), int), np.zeros((2, 1)))
    _, misfit = least_squares(*dense(corners), BENT)
    assert fit.misfit[0] == pytest.approx(misfit, rel=5e-3)


@settings(max_examples=50, deadline=None)
@given(seed=st.integers(0, 10**6))
def test_fits_of_parts_together_are_the_fit_of_all(seed):
    corners = triangles(seed, 10)
    group = np.arange(10) % 2
    parts = Fits.of_triangles(corners).gathered(group, 2)
    both = parts.together(np.array([0]), np.array([1]))
    whole = Fits.of_triangles(corners).gathered(np.zeros(10, int), 1)
    for name in ("area", "centre", "moments"):
        assert getattr(both, name) == pytest.approx(getattr(whole, name), rel=1e-9, abs=1e-9)
    bent = Curved.of_triangles(corners, group, parts.centre[:2])
    joined = bent.together(np.array([0]), np.array([1]))
    again = Curved.of_triangles(corners, np.zeros(10, int), joined.centre)
    assert joined.plan == pytest.approx(again.plan, rel=1e-8, abs=1e-6)
    assert joined.misfit == pytest.approx(again.misfit, rel=1e-6, abs=1e-6)


def test_the_misfit_of_a_plane_and_of_the_second_degree_beside_a_break():
    """|x| from -1 to 1 over a strip one long: 1/6 for a plane, 1/96 for the second degree."""
    strip = [
        [(-1, 0, 1), (0, 0, 0), (0, 1, 0)], [(-1, 0, 1), (0, 1, 0), (-1, 1, 1)],
        [(0, 0, 0), (1, 0, 1), (1, 1, 1)], [(0, 0, 0), (1, 1, 1), (0, 1, 0)],
    ]  # fmt: skip
    corners = np.array(strip, float)
    whole = Fits.of_triangles(corners).gathered(np.zeros(4, int), 1)
    assert whole.misfit[0] == pytest.approx(1 / 6)
    bent = Curved.of_triangles(corners, np.zeros(4, int), whole.centre[:2])
    assert bent.misfit[0] == pytest.approx(1 / 96, rel=1e-6)
    # Grades of -1 and +1 differ by 2, and both sides are 1 wide.
    assert price(2.0, 1.0) == pytest.approx(1 / 6)


def test_heights_above_given_planes():
    corners = triangles(3, 6)
    fits = Fits.of_triangles(corners)
    plane = Fits.of_triangles(corners[:1])
    points, weight = dense(corners[1:2])
    east, north = plane.gradients[0]
    away = points[:, 2] - plane.centre[2, 0] - east * (points[:, 0] - plane.centre[0, 0])
    away -= north * (points[:, 1] - plane.centre[1, 0])
    found = fits.misfit_from(np.array([1]), plane, np.array([0]))
    assert found[0] == pytest.approx((weight * away * away).sum(), rel=2e-3)
