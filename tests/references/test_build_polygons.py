"""Built surfaces beside GEOS's own constrained Delaunay triangulation of polygons.

shapely.constrained_delaunay_triangles knows polygons without points inside only; there both must
find the same triangles, since that triangulation is unique where no four vertices lie in a circle.
"""

import numpy as np
import pytest
import shapely

from ..core.build_shapes import boundary_of, build


def star(seed, count):
    """A polygon that turns in and out, all vertices seen from its middle."""
    rng = np.random.default_rng(seed)
    angle = np.sort(rng.uniform(0, 2 * np.pi, count))
    angle = 2 * np.pi * (np.arange(count) + rng.uniform(0, 0.9, count)) / count
    reach = rng.uniform(5, 50, count)
    return np.column_stack((reach * np.cos(angle), reach * np.sin(angle), rng.uniform(0, 5, count)))


def triangles(corners):
    """Return triangles as sets of corners, whatever their order."""
    return {frozenset(map(tuple, triangle)) for triangle in corners.tolist()}


@pytest.mark.parametrize("count", [5, 12, 60, 400])
@pytest.mark.parametrize("seed", range(5))
def test_the_triangles_of_a_polygon(seed, count):
    ring = star(seed, count)
    built = build(lines=[ring[:2]], boundary=boundary_of(ring, heights=True))
    theirs = shapely.constrained_delaunay_triangles(shapely.polygons(ring[:, :2]))
    corners = shapely.get_coordinates(shapely.get_parts(theirs)).reshape(-1, 4, 2)[:, :3]
    assert triangles(built.tin.vertices[built.tin.faces, :2]) == triangles(corners)
    assert len(built.tin.faces) == count - 2
