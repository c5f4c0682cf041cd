"""Slope change at single edges, against closed forms."""

import numpy as np
import pytest

from plugin.core.breaks import Measure, measure_edges, steep_edges

from .breaks_shapes import breaks_of, cone, extruded, rough, tin

LEFT, RIGHT = 0.03, -0.085
RIDGE = [(0, 0), (10, 10 * LEFT), (20, 10 * LEFT + 10 * RIGHT)]


def measured(surface):
    inner = np.flatnonzero((surface.quick_edges.faces >= 0).all(axis=1))
    return measure_edges(surface, inner)


def on_line(surface, changes, x):
    return np.isclose(surface.vertices[changes.ends, 0], x).all(axis=1)


def test_change_is_the_algebraic_difference_in_grade():
    surface = tin(*extruded(RIDGE, slope_along=0.07))
    changes = measured(surface)
    crest = on_line(surface, changes, 10)
    assert crest.sum() == 3
    np.testing.assert_allclose(changes.change[crest], RIGHT - LEFT, atol=1e-12)
    np.testing.assert_allclose(changes.change[~crest], 0, atol=1e-12)


def test_rises_go_away_from_the_edge_on_the_named_side():
    surface = tin(*extruded(RIDGE))
    changes = measured(surface)
    changes = changes.take(on_line(surface, changes, 10))
    # Vertices are numbered along y, so every edge looks north: its right is the +x side.
    np.testing.assert_allclose(changes.rise_left, -LEFT, atol=1e-12)
    np.testing.assert_allclose(changes.rise_right, RIGHT, atol=1e-12)


def test_angle_is_the_one_between_face_normals():
    surface = tin(*rough(12, 3.0, 5))
    changes = measured(surface)
    g = surface.gradients[surface.quick_edges.faces[changes.edges]]
    normals = np.concatenate((-g, np.ones((*g.shape[:2], 1))), axis=2)
    normals /= np.linalg.norm(normals, axis=2, keepdims=True)
    cosine = (normals[:, 0] * normals[:, 1]).sum(axis=1)
    np.testing.assert_allclose(np.cos(changes.angle), cosine, atol=1e-12)


@pytest.mark.parametrize("facets", [3, 4, 5, 12, 100])
def test_cone(facets):
    radius, height = 10.0, 3.0
    surface = tin(*cone(facets, radius, height))
    changes = measured(surface)
    assert len(changes.edges) == facets
    # A facet's gradient, h / (r cos(pi/n)), makes the angle pi/n with the edge.
    expected = -2 * height / radius * np.tan(np.pi / facets)
    np.testing.assert_allclose(changes.change, expected, rtol=1e-10)


def test_edge_at_the_threshold_counts_and_one_below_does_not():
    surface = tin(*extruded(RIDGE))
    change = LEFT - RIGHT
    assert len(steep_edges(surface, change)) == 3
    assert len(steep_edges(surface, change * 1.0001)) == 0
    angle = np.arctan(LEFT) - np.arctan(RIGHT)
    assert len(steep_edges(surface, angle, Measure.ANGLE)) == 3
    assert len(steep_edges(surface, angle * 1.0001, Measure.ANGLE)) == 0


@pytest.mark.parametrize("measure", list(Measure))
def test_quick_choice_is_the_measured_one(measure):
    surface = tin(*rough(15, 2.0, 3))
    changes = measured(surface)
    size = np.abs(changes.change) if measure is Measure.GRADE else changes.angle
    limit = np.median(size)
    quick = steep_edges(surface, limit, measure)
    assert set(quick) == set(changes.edges[size >= limit])
    assert 0 < len(quick) < len(size)


# Largest break in grade without a vertical curve, miles per hour: percent. Source: GDOT Design
# Policy Manual, table 4.7 (2007).
LARGEST_BREAK = {
    20: 1.20,
    25: 1.10,
    30: 1.00,
    35: 0.90,
    40: 0.80,
    45: 0.70,
    50: 0.60,
    55: 0.50,
    60: 0.40,
    65: 0.30,
    70: 0.20,
}


@pytest.mark.parametrize(("speed", "percent"), LARGEST_BREAK.items())
@pytest.mark.parametrize("east", [0.0, 1e7])
def test_grade_break_table_as_thresholds(speed, percent, east):
    """A break of the tabled size is found at its own threshold, one 0.01 % smaller is not."""
    for change, expected in ((percent, 3), (percent - 0.01, 0)):
        grade_in, grade_out = 0.02, 0.02 - change / 100
        profile = [(0, 0), (50, 50 * grade_in), (100, 50 * grade_in + 50 * grade_out)]
        vertices, faces = extruded(profile)
        lines = breaks_of(tin(vertices + np.array([east, east, 0]), faces), percent / 100)
        assert len(lines.edges) == expected, f"{change} % at {speed} mph"


@pytest.mark.parametrize("unit", [0.3048, 1 / 0.3048])
@pytest.mark.parametrize("measure", list(Measure))
def test_heights_in_another_unit(unit, measure):
    """Heights in feet over metres, or the other way: all is that of the site in one unit."""
    vertices, faces = extruded(RIDGE, slope_along=0.4)
    expected = breaks_of(tin(vertices, faces), 0.1, measure=measure)
    vertices[:, 2] /= unit
    found = breaks_of(tin(vertices, faces), 0.1, measure=measure, z_scale=unit)
    assert len(found) == 1
    np.testing.assert_allclose(found.change.mean, LEFT - RIGHT, rtol=1e-9)
    np.testing.assert_allclose(found.angle, expected.angle, rtol=1e-9)
    assert len(breaks_of(tin(vertices, faces), 0.12, measure=measure, z_scale=unit)) == 0


def test_upright_face_is_an_endless_rise_and_goes_on_over_its_diagonal():
    """A floor, a vertical wall of two triangles and a terrace above."""
    vertices = np.array(
        [(0, 0, 0), (0, 5, 0), (3, 0, 0), (3, 5, 0), (3, 0, 2), (3, 5, 2), (8, 0, 2), (8, 5, 2)],
        float,
    )
    faces = [(0, 2, 1), (1, 2, 3), (2, 4, 3), (3, 4, 5), (4, 6, 5), (5, 6, 7)]
    surface = tin(vertices, faces)
    changes = measured(surface)
    low = np.isclose(vertices[changes.ends][:, :, 2], 0).all(axis=1) & on_line(surface, changes, 3)
    high = np.isclose(vertices[changes.ends][:, :, 2], 2).all(axis=1) & on_line(surface, changes, 3)
    between = on_line(surface, changes, 3) & ~low & ~high
    assert (low.sum(), high.sum(), between.sum()) == (1, 1, 1)
    assert changes.change[low][0] == np.inf
    assert changes.change[high][0] == -np.inf
    assert changes.change[between][0] == 0
    np.testing.assert_allclose(changes.angle[low | high], np.pi / 2, atol=1e-12)
    assert changes.wall[low | high | between].all()
    assert not changes.wall[~(low | high | between)].any()
