"""Borders of zones that are measured square: plan outlines, neighbours, cracks."""

import numpy as np
import pytest
import shapely

from plugin.core.depth.square import square_off
from plugin.core.depth.zones import Zones
from plugin.core.errors import Cancelled
from plugin.core.tin import Tin

from .cut_shapes import polygons, sheet
from .square_shapes import (
    MANNER,
    TOLERANCE,
    corners,
    distances,
    laid,
    origin_of,
    prism,
    squared,
    surface,
    whole,
    whole_faults,
)

# An uneven ditch: its bottom line moves sideways when it is lowered square to its sides.
DITCH = [(0.0, 10.0), (5.0, 9.9), (12.0, 13.4)]


def mitre(thickness):
    """Where the two sides of `DITCH` meet when moved, (x, z); two lines with slopes g, h."""
    g, h = -0.02, 0.5
    down = thickness * np.array([np.hypot(1, g), np.hypot(1, h)])
    x = (down[0] - down[1]) / (g - h)
    return 5.0 + x, 9.9 - down[0] + g * x


def test_mitre_formula():
    """Checked by distance from both sides."""
    x, z = mitre(0.4)
    for g in (-0.02, 0.5):
        below = 9.9 + g * (x - 5.0) - z
        assert below / np.hypot(1, g) == pytest.approx(0.4, abs=1e-12)


def of_zone(patch, zone, points):
    """Heights of a zone at points on its border or in it."""
    return surface(patch, zone).sample(points)[0]


def test_border_across_a_break_slides():
    tin = prism(DITCH, rows=11)
    zone = shapely.box(2.3, 2.2, 9.6, 7.7)
    before, after, outcome = squared(tin, [zone], [0.4])
    assert whole_faults(before, after) == []
    assert outcome.largest_residual < 1e-12 and outcome.held == 0
    x, z = mitre(0.4)
    for y in (2.2, 5.0, 7.7):
        away = np.hypot(*(after.points - (x, y)).T)
        assert away.min() < TOLERANCE.snap  # the border is noded on a grid
    np.testing.assert_allclose(of_zone(after, 0, [(x, 2.201), (x, 5), (x, 7.699)]), z, atol=1e-9)
    # Outside, the design stands where it stood, now with the slid points on its border.
    np.testing.assert_array_equal(after.heights[after.zone < 0], after.design[after.zone < 0])
    assert np.abs(distances(after, tin)[after.zone == 0] - 0.4).max() < 1e-12


def test_border_along_a_break_stays():
    tin = prism(DITCH, rows=11)
    before, after, outcome = squared(tin, [shapely.box(0.5, 1.5, 5.0, 8.5)], [0.4])
    assert whole_faults(before, after) == []
    assert outcome.largest_move == 0.0 and outcome.largest_residual < 1e-12
    np.testing.assert_array_equal(after.faces, before.faces)
    inside = after.zone == 0
    np.testing.assert_allclose((after.design - after.heights)[inside], 0.4 * np.hypot(1, 0.02))


@pytest.mark.parametrize("squares", [(0.4, 0.15), (0.4, -0.2), (0.4, 0.4), (0.0, 0.3)])
def test_neighbours_of_different_thickness(squares):
    """Each keeps its own mitre line to the border they share, and both have all points."""
    tin = prism(DITCH, rows=11)
    low, high = shapely.box(1.0, 1.0, 9.0, 4.5), shapely.box(1.0, 4.5, 9.0, 8.0)
    before, after, outcome = squared(tin, [low, high], squares)
    assert whole_faults(before, after) == []
    assert outcome.largest_residual < 1e-12
    on_border = []
    for zone, thickness in enumerate(squares):
        inside = after.zone == zone
        assert np.abs(distances(after, tin)[inside] - thickness).max() < 1e-12
        points = np.unique(after.faces[inside])
        on_border.append(points[np.abs(after.points[points, 1] - 4.5) < 1e-4])
        x, z = mitre(thickness)
        assert np.abs(after.points[on_border[-1], 0] - x).min() < 1e-9
        np.testing.assert_allclose(of_zone(after, zone, [(x, 4.5)]), z, atol=1e-9)
    np.testing.assert_array_equal(*on_border)


def test_slightly_bent_border():
    """Points of both sides leave a bend that stays in the outline."""
    tin = prism(DITCH, rows=11)
    bend = [(1.0, 4.5), (5.0, 4.51), (9.0, 4.5)]
    low = shapely.Polygon([(1.0, 1.0), *bend, (9.0, 1.0)])
    high = shapely.Polygon([(1.0, 8.0), *bend, (9.0, 8.0)])
    before, after, outcome = squared(tin, [low, high], [0.4, 0.4])
    assert whole_faults(before, after) == []
    assert outcome.largest_residual < 1e-4
    off = np.abs(distances(after, tin)[after.zone >= 0] - 0.4)
    assert off.max() == pytest.approx(outcome.largest_residual, rel=1e-3)
    for point in bend:
        assert np.hypot(*(after.points[after.faces].reshape(-1, 2) - point).T).min() < 1e-4


def test_hole_in_a_zone():
    tin = prism(DITCH, rows=11)
    zone = shapely.box(1, 1, 11, 9) - shapely.box(3.5, 3.5, 6.5, 6.5)
    before, after, outcome = squared(tin, [zone], [0.4])
    assert whole_faults(before, after) == []
    assert outcome.largest_residual < 1e-12
    x, z = mitre(0.4)
    np.testing.assert_allclose(of_zone(after, 0, [(x, 3.2), (x, 6.8)]), z, atol=1e-9)


def test_slanting_border():
    tin = prism(DITCH, rows=11)
    zone = shapely.Polygon([(2, 2), (9, 3.4), (8, 8), (1.5, 6.1)])
    before, after, outcome = squared(tin, [zone], [0.4])
    assert whole_faults(before, after) == []
    assert outcome.largest_residual < 1e-6
    assert np.abs(distances(after, tin)[after.zone == 0] - 0.4).max() < 1e-6


def test_round_border():
    """Of very many corners: all but straight, so that the points slide along the polyline."""
    tin = prism(DITCH, rows=11)
    zone = shapely.Point(5.0, 5.0).buffer(4.0, quad_segs=400)
    before, after, outcome = squared(tin, [zone], [0.4])
    assert whole_faults(before, after) == []
    assert outcome.largest_residual < TOLERANCE.chord and outcome.held == 0


def test_corner_on_a_break_is_held_and_said_so():
    """A turn of a border stays in plan, where one height cannot be right for both planes."""
    tin = prism(DITCH, rows=11)
    zone = shapely.Polygon([(5.0, 2.0), (9.0, 5.0), (5.0, 8.0), (2.0, 5.0)])
    before, after, outcome = squared(tin, [zone], [0.4])
    assert whole_faults(before, after) == []
    assert outcome.missed == 2 and outcome.held == 0
    inside = after.zone == 0
    off = np.abs(distances(after, tin)[inside] - 0.4).max(axis=1)
    assert off.max() == pytest.approx(outcome.largest_residual)
    np.testing.assert_array_equal(off > outcome.allowed, outcome.flags[inside] == "mitre_residual")
    assert not (outcome.flags[~inside] != "").any()


def test_edge_of_the_design_keeps_its_outline():
    tin = prism(DITCH, rows=11)
    before, after, _ = squared(tin, [whole(tin)], [0.4])
    assert whole_faults(before, after) == []
    x, z = mitre(0.4)
    np.testing.assert_allclose(surface(after).sample([(x, 0.0), (x, 10.0)])[0], z, atol=1e-9)


def test_upright_face():
    """A wall moves sideways by the thickness and stays upright (a step of two level planes).

    Where it ends at the edge of the design it is held.
    """
    tin = prism([(0.0, 2.0), (4.0, 2.0), (4.0, 1.0), (9.0, 1.0)])
    assert tin.without_plan_area.any()
    before, after, outcome = squared(tin, [whole(tin)], [0.25])
    assert whole_faults(before, after) == []
    # The upper level is on the left, so the ground lies there and the wall moves into it.
    upright = corners(after)[tin.without_plan_area[after.parent]].reshape(-1, 3)
    inner = (upright[:, 1] > 0.1) & (upright[:, 1] < 9.9)
    np.testing.assert_allclose(upright[inner, 0], 3.75, atol=1e-9)
    np.testing.assert_allclose(np.unique(upright[inner, 2].round(9)), [0.75, 1.75])
    np.testing.assert_allclose(upright[~inner, 0], 4.0)
    assert outcome.missed == 4 and outcome.held == 0


def test_design_under_moved_points():
    """Heights of the design at corners are those of the design at their place in plan."""
    random = np.random.default_rng(3)
    tin = sheet(12, 12, move=0.2, seed=1, height=lambda xy: random.uniform(0, 0.5, len(xy)))
    _, after, outcome = squared(tin, [shapely.box(2.2, 2.7, 8.1, 8.9)], [0.3])
    assert outcome.largest_move > 0.05
    origin = origin_of(tin)
    z, face = tin.sample((after.points[after.faces] + origin).reshape(-1, 2))
    assert (face >= 0).all()
    np.testing.assert_allclose(after.design.ravel(), z, atol=1e-9)


def test_nothing_to_move():
    patch = laid(prism(DITCH), [shapely.box(1, 1, 9, 8)], [0.5])
    zones = Zones(polygons(shapely.box(1, 1, 9, 8)), np.array([0.5]), np.array([1]))
    after, outcome = square_off(patch, zones, MANNER, TOLERANCE)
    assert after is patch
    assert outcome.findings() == [] and len(outcome.flags) == len(patch.faces)


def test_outside_can_be_measured_square_too():
    tin = prism(DITCH)
    before, after, _ = squared(tin, [shapely.box(1, 1, 9, 8)], [0.0], outside=0.2)
    assert whole_faults(before, after) == []
    off = distances(after, tin)
    np.testing.assert_allclose(off[after.zone == 0], 0.0, atol=1e-12)
    assert np.abs(off[after.zone < 0] - 0.2).max() < 1e-12


def test_cancelling():
    def stop(share):
        raise Cancelled

    with pytest.raises(Cancelled):
        squared(prism(DITCH), [shapely.box(1, 1, 9, 8)], [0.3], progress=stop)


def test_the_same_wherever_the_site_lies():
    """Turned and moved designs give the same surface turned and moved."""
    random = np.random.default_rng(8)
    tin = sheet(10, 10, move=0.2, seed=4, height=lambda xy: random.uniform(0, 0.4, len(xy)))
    zone = shapely.Polygon([(1.3, 1.2), (8.2, 2.1), (7.4, 8.1), (2.2, 7.3)])
    _, after, outcome = squared(tin, [zone], [0.2])
    turn = np.array([[0.6, 0.8], [-0.8, 0.6]])
    shift = np.array([4096.0, -1024.0])
    turned = Tin.from_arrays(
        np.column_stack((tin.vertices[:, :2] @ turn + shift, tin.vertices[:, 2])), tin.faces
    )
    moved = shapely.transform(zone, lambda xy: xy @ turn + shift)
    _, other, elsewhere = squared(turned, [moved], [0.2])
    places = random.uniform(1, 9, (900, 2))
    places = places[shapely.contains_xy(zone.buffer(-0.05), places)]
    here = of_zone(after, 0, places - origin_of(tin))
    there = of_zone(other, 0, places @ turn + shift - origin_of(turned))
    np.testing.assert_allclose(here, there, atol=2e-4)  # borders are noded on a grid
    assert outcome.largest_residual == pytest.approx(elsewhere.largest_residual, rel=0.05)
