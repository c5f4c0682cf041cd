"""A real road's surface built again of its designers' points and breaklines.

File: buildingSMART Finland, InfraModel sample data, CC BY 4.0; it is not part of the project.
The designers' own triangles are the truth; shares are exact plan areas of an overlay.
"""

from functools import cache

import numpy as np
import pytest
import shapely

from plugin.core.exchange.landxml import read_landxml
from plugin.core.tin.build import Boundary, Breaklines, Manner, Points, build_tin
from plugin.core.tin.overlay import integrate

from ..core.build_shapes import not_delaunay
from ..core.tin_shapes import REAL

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")

MILLIMETRE = 0.001


@cache
def road():
    """The designers' surface, and its breaklines."""
    file = read_landxml(REAL / "road_finished.xml")
    return file.surface().tin, [line.coordinates[:, :3] for line in file.lines]


def built(lines, rings=True, order=None):
    design, _ = road()
    points = design.vertices if order is None else design.vertices[order]
    borders = [design.vertices[[*loop, loop[0]]] for loop in design.boundary_loops()]
    area = shapely.build_area(shapely.multilinestrings([ring[:, :2] for ring in borders]))
    boundary = Boundary(area, borders if rings else (), np.arange(len(borders)))
    given = Breaklines(lines, np.arange(len(lines)))
    return build_tin(Points(points, np.arange(len(points))), given, boundary, Manner())


def share_within(tin):
    """Return the share of the designers' area over which all of a face is within 1 mm."""
    design, _ = road()
    between = integrate(tin, design, level=MILLIMETRE).total
    assert between.area[0] == pytest.approx(design.plan_area, rel=1e-9)
    return between.area_level[0] / design.plan_area, between


@pytest.mark.parametrize("rings", [True, False])
def test_the_designers_surface_comes_out_nearly_everywhere(rings):
    design, lines = road()
    result = built(lines, rings)
    assert not result.findings
    assert result.points == len(design.vertices)
    assert result.honoured == pytest.approx(result.given)
    share, between = share_within(result.tin)
    assert share > 0.999
    assert between.cut[0] + between.fill[0] < 1.0  # m3 on 22,500 m2
    # In a constrained Delaunay triangulation of these points and lines there is no other freedom.
    borders = [design.vertices[[*loop, loop[0]]] for loop in design.boundary_loops()]
    assert not not_delaunay(result.tin, [*lines, *borders])


def test_without_the_breaklines_it_does_not():
    share, between = share_within(built([]).tin)
    assert share < 0.999
    assert between.cut[0] + between.fill[0] > 1.0


def test_the_order_of_points_and_lines_does_not_matter():
    design, lines = road()
    order = np.random.default_rng(1).permutation(len(design.vertices))
    one, other = built(lines), built(lines[::-1], order=order)
    assert one.tin.vertices.tobytes() == other.tin.vertices.tobytes()
    assert one.tin.faces.tobytes() == other.tin.faces.tobytes()
