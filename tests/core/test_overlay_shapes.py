"""Two surfaces with volumes known in closed form."""

import numpy as np
import pytest

from plugin.core.tin import Tin
from plugin.core.tin.overlay import integrate

from .tin_shapes import grid_faces, square


def close(value):
    return pytest.approx(value, rel=1e-9, abs=1e-12)


def level(east, north):
    return np.zeros_like(east)


def waves(east, north):
    return np.cos(north)


def sheet(size, step, height, turn=0.0, shift=(0.0, 0.0)):
    """A square sheet of ``size`` cells a side over (0, 0), with heights from a function."""
    y, x = np.divmod(np.arange((size + 1) ** 2), size + 1)
    cos, sin = np.cos(turn), np.sin(turn)
    east = step * (cos * x - sin * y) + shift[0]
    north = step * (sin * x + cos * y) + shift[1]
    return Tin.from_arrays(
        np.column_stack((east, north, height(east, north))), grid_faces(size + 1, size + 1)
    )


def test_two_planes_that_cross():
    """z = x - 4 over 0 <= x <= 10, 10 wide: 6 x 6 / 2 x 10 above, 4 x 4 / 2 x 10 below."""
    total = integrate(square((-4, 6, 6, -4)), square()).total
    assert total.area[0] == close(100)
    assert total.area_above[0] == close(60) and total.area_below[0] == close(40)
    assert total.cut[0] == close(180) and total.fill[0] == close(80)
    assert total.least[0] == close(-4) and total.most[0] == close(6)


def test_a_pyramid_over_many_small_faces():
    """Base 10 x 10, 3 high: 100 x 3 / 3, whatever lies under it."""
    vertices = [(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 5, 3)]
    pyramid = Tin.from_arrays(vertices, [(0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4)])
    ground = sheet(31, 0.5, level, turn=0.3, shift=(-2.0, -4.0))
    found = integrate(pyramid, ground)
    inside = found.total
    assert found.uncovered_upper < 100
    whole = integrate(pyramid, sheet(40, 1.0, level, 0.3, (0.0, -10.0))).total
    assert whole.area[0] == close(100) and whole.cut[0] == close(100)
    assert whole.fill[0] == close(0) and inside.cut[0] < 100


def test_labels_add_up_to_the_total():
    upper = sheet(9, 1.0, lambda x, y: np.sin(x) + 0.2 * y)
    lower = sheet(12, 0.9, waves, turn=0.1, shift=(0.5, -0.6))
    rng = np.random.default_rng(0)
    one = rng.integers(-1, 3, len(upper.faces))
    other = rng.integers(0, 4, len(lower.faces))
    plain, told = integrate(upper, lower), integrate(upper, lower, one, other)
    for name in ("area", "area_above", "area_below", "cut", "fill", "least", "most"):
        expected = getattr(plain.total, name)[0]
        assert getattr(told.total, name)[0] == pytest.approx(expected, rel=1e-12, abs=1e-12)
    by_lower = told.of_lower(np.arange(4))
    assert by_lower.cut.sum() == pytest.approx(plain.total.cut[0], rel=1e-12)
    assert told.of_upper([-1, 0, 1, 2, 99]).area[-1] == 0
    assert np.isnan(told.of_upper([99]).most[0])


def test_nothing_shared():
    far = Tin.from_arrays(square().vertices + np.array((100, 0, 0)), square().faces)
    found = integrate(square(), far)
    assert found.total.area[0] == 0 and np.isnan(found.total.least[0])
    assert found.uncovered_upper == 100 and found.uncovered_lower == 100


def test_labels_of_the_wrong_length_are_refused():
    with pytest.raises(ValueError, match="one label a face"):
        integrate(square(), square(), [0])
