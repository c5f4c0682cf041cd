"""Zones: what is refused, and who wins where they overlap."""

import numpy as np
import pytest
import shapely

from plugin.core.depth.zones import resolve
from plugin.core.errors import ZoneError
from plugin.core.tolerance import Tolerance

from .cut_shapes import polygons, zones_of

TOLERANCE = Tolerance()
LEFT, RIGHT = shapely.box(0, 0, 2, 1), shapely.box(1.5, 0, 3, 1)


def refusal(zones):
    with pytest.raises(ZoneError) as error:
        resolve(zones, TOLERANCE)
    return str(error.value)


def test_zones_that_touch_pass_unchanged():
    zones = zones_of((shapely.box(0, 0, 1, 1), 0.5), (shapely.box(1, 0, 2, 1), -0.5))
    assert resolve(zones, TOLERANCE).polygons.tolist() == zones.polygons.tolist()


def test_an_overlap_names_both_zones_and_the_place():
    text = refusal(zones_of((LEFT, 1), (RIGHT, 1)))
    assert "Zones 1 and 2 overlap by 0.5" in text and "near 1.750, 0.500" in text


def test_the_lower_priority_number_wins():
    zones = zones_of((LEFT, 1), (RIGHT, 2), priority=np.array([2.0, 1.0]))
    done = resolve(zones, TOLERANCE)
    assert done.polygons[0].equals(shapely.box(0, 0, 1.5, 1))
    assert done.polygons[1].equals(RIGHT)
    assert list(done.ids) == [1, 2]


def test_three_deep_the_most_important_wins():
    shapes = [shapely.box(0, 0, 4, 4), shapely.box(1, 1, 3, 3), shapely.box(2, 2, 5, 5)]
    zones = zones_of(*((shape, 1) for shape in shapes), priority=np.array([3.0, 1.0, 2.0]))
    done = resolve(zones, TOLERANCE).polygons
    assert done[1].equals(shapes[1])
    assert done[2].equals(shapes[2] - shapes[1])
    assert done[0].equals(shapes[0] - shapes[1] - shapes[2])


def test_a_zone_covered_wholly_is_left_empty_in_its_place():
    zones = zones_of((LEFT.buffer(-0.2), 1), (LEFT, 2), priority=np.array([2.0, 1.0]))
    assert [shape.is_empty for shape in resolve(zones, TOLERANCE).polygons] == [True, False]


@pytest.mark.parametrize("priority", [[1, 1], [np.nan, 1], [1, np.nan]])
def test_a_priority_that_settles_nothing_is_refused(priority):
    text = refusal(zones_of((LEFT, 1), (RIGHT, 1), priority=np.array(priority, dtype=float)))
    assert "1 and 2" in text and "priority" in text and "1.750, 0.500" in text


def test_slivers_below_the_node_grid_are_no_overlap():
    near = shapely.box(2 - 0.9 * TOLERANCE.node_grid, 0, 3, 1)
    resolve(zones_of((LEFT, 1), (near, 1)), TOLERANCE)
    far = shapely.box(2 - 1.2 * TOLERANCE.node_grid, 0, 3, 1)
    assert "overlap" in refusal(zones_of((LEFT, 1), (far, 1)))


def test_a_sliver_does_not_hide_a_real_overlap():
    """Both in one intersection: a long sliver, and a square of 0.2."""
    comb = shapely.union(shapely.box(2 - 1e-6, 0, 3, 1), shapely.box(1.8, 0.4, 2, 0.6))
    assert "overlap by 0.04 " in refusal(zones_of((LEFT, 1), (comb, 1)))


@pytest.mark.parametrize("depth", [np.nan, np.inf, None])
def test_a_zone_without_depth_is_named(depth):
    zones = zones_of((LEFT, 1))
    zones.depths[0] = np.nan if depth is None else depth
    assert "Zone 1 has no depth" in refusal(zones)


def test_bad_shapes_are_named():
    bow = shapely.Polygon([(0, 0), (1, 1), (1, 0), (0, 1)])
    text = refusal(zones_of((bow, 1)))
    assert "Zone 1" in text and "Self-intersection[0.5 0.5]" in text
    assert "Zone 1 has no geometry" in refusal(zones_of((shapely.Polygon(), 1)))
    assert "LineString" in refusal(zones_of((shapely.LineString([(0, 0), (1, 1)]), 1)))


def test_no_zones():
    zones = zones_of((LEFT, 1))
    none = type(zones)(polygons(), np.empty(0), np.empty(0, dtype=int))
    assert "no zones" in refusal(none)


def test_zero_and_negative_depths_are_allowed():
    done = resolve(zones_of((LEFT, 0), (shapely.box(5, 5, 6, 6), -1)), TOLERANCE)
    assert list(done.depths) == [0, -1]
