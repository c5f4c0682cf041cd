"""Cones of some facets on level ground, against closed forms.

A facet of a cone over a regular polygon of ``n`` corners (radius r, height h) has the gradient
``h / (r cos(pi/n))``. That is the change at the rim, on level ground; across a radial edge the
grade changes by ``2 h/r tan(pi/n)``. With fewer than six facets the radial edges change by more
than the rim does, with more by less.

Over a width ``w`` two facets beside each other are joined where one plane fits both for less than
the price of their border. A plane takes up the part of the ridge that grows evenly from the tip;
what is left is ``c^2 b(s)^3 / 24`` per length for a change ``c`` and facets ``b(s)`` wide, which
over the facet of base ``a`` is ``c^2 a^3 r / 96``. The price is ``m^2 w^3 / 24`` per length, ``m``
the smallest change wanted. So radial edges are breaks up to ``w = a (c / 2 m)^(2/3)``.
"""

import numpy as np
import pytest

from .breaks_shapes import breaks_of, tin

RADIUS, OUTER = 10.0, 40.0
LEAST = 0.02


def hill(facets, height, rings):
    """Return a cone on level ground, its facets cut in ``rings`` level with each other."""
    turn = 2 * np.pi * np.arange(facets) / facets
    radii = np.append(RADIUS * (np.arange(rings) + 1) / rings, OUTER)
    levels = np.append(height * (1 - radii[:-1] / RADIUS), 0.0)
    circles = [
        np.column_stack((r * np.cos(turn), r * np.sin(turn), np.full(facets, z)))
        for r, z in zip(radii, levels, strict=True)
    ]
    i = np.arange(facets)
    j = (i + 1) % facets
    faces = [np.column_stack((i, j, np.full(facets, (rings + 1) * facets)))]
    for inner in range(rings):
        a, b = inner * facets, (inner + 1) * facets
        faces += [np.column_stack((i + a, i + b, j + a)), np.column_stack((j + a, i + b, j + b))]
    return tin(np.vstack([*circles, [(0, 0, height)]]), np.concatenate(faces))


def rim_and_others(lines):
    """Return the numbers of the lines along the rim, and of the others."""
    away = [np.hypot(*lines.line(n)[:, :2].T).min() for n in range(len(lines))]
    on = np.array(away) > 0.9 * RADIUS
    return np.flatnonzero(on), np.flatnonzero(~on)


def base(facets):
    return 2 * RADIUS * np.sin(np.pi / facets)


@pytest.mark.parametrize("rings", [1, 5])
@pytest.mark.parametrize("height", [3.0, 0.6])
@pytest.mark.parametrize("facets", [6, 8, 12, 16, 24, 48])
def test_face_by_face_a_cone_has_its_radial_edges_as_far_as_they_change(facets, height, rings):
    surface = hill(facets, height, rings)
    radial = 2 * height / RADIUS * np.tan(np.pi / facets)
    rim_change = height / RADIUS / np.cos(np.pi / facets)
    lines = breaks_of(surface, 0.999 * radial)
    rim, others = rim_and_others(lines)
    # Each radial edge goes straight on across the tip.
    np.testing.assert_allclose(lines.length[others], np.full(facets // 2, 2 * RADIUS))
    np.testing.assert_allclose(lines.change.mean[others], radial)
    np.testing.assert_allclose(lines.change.mean[rim], rim_change)
    assert lines.length[rim].sum() == pytest.approx(facets * base(facets))
    # Six facets change by the same at their radial edges and at the rim.
    lines = breaks_of(surface, 1.001 * radial)
    rim, others = rim_and_others(lines)
    assert len(others) == 0
    total = facets * base(facets) if facets > 6 else 0.0
    assert lines.length[rim].sum() == pytest.approx(total)


@pytest.mark.parametrize("rings", [1, 5])
@pytest.mark.parametrize(
    ("facets", "height"), [(16, 3.0), (24, 3.0), (32, 3.0), (48, 3.0), (12, 0.6), (16, 0.6)]
)
def test_over_a_width_radial_edges_go_and_the_rim_stays(facets, height, rings):
    surface = hill(facets, height, rings)
    radial = 2 * height / RADIUS * np.tan(np.pi / facets)
    width = base(facets) * (radial / (2 * LEAST)) ** (2 / 3)
    for share, stay in ((0.9, True), (1.1, False)):
        lines = breaks_of(surface, LEAST, support=share * width)
        rim, others = rim_and_others(lines)
        if stay:
            # Facets nearer to the tip than the width is wide may be joined before.
            far = [np.hypot(*lines.line(n)[:, :2].T).max() for n in others]
            assert sum(length > 0.99 * RADIUS for length in far) >= facets / 2
        else:
            assert len(others) == 0
        assert lines.length[rim].sum() == pytest.approx(facets * base(facets), rel=0.01)
        np.testing.assert_allclose(lines.change.mean[rim], height / RADIUS, rtol=0.04)
