"""The cut in cases that can be told by hand."""

import numpy as np
import pytest
import shapely

from plugin.core.errors import Cancelled
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance

from .cut_shapes import cut_faults, polygons, sheet
from .tin_shapes import square

TOLERANCE = Tolerance()


def cut_by(tin, *shapes):
    shapes = polygons(*shapes)
    cut = cut_tin(tin, shapes, TOLERANCE)
    assert cut_faults(tin, cut, shapes) == []
    return cut


def area_of(cut, zone):
    return cut.tin.plan_areas[cut.zone == zone].sum()


def test_a_zone_inside_one_face_leaves_an_island():
    cut = cut_by(square(), shapely.box(6, 2, 7, 3))
    assert area_of(cut, 0) == pytest.approx(1.0)
    assert cut.fallbacks == 1
    assert set(cut.parent[cut.zone == 0]) == {0}


def test_an_island_with_many_corners_goes_through_geos():
    circle = shapely.Point(7, 3).buffer(1.5, quad_segs=40)
    cut = cut_by(square((0, 1, 3, 1)), circle)
    # An inscribed polygon of 160 corners, noded on a grid of a fraction of the snap distance.
    assert area_of(cut, 0) == pytest.approx(circle.area, abs=1e-3)


def test_zones_with_holes_and_parts():
    ring = shapely.box(1, 1, 7, 7).difference(shapely.box(2, 2, 4, 4))
    parts = shapely.MultiPolygon([shapely.box(2.5, 2.5, 3, 3), shapely.box(8, 8, 9, 9.5)])
    cut = cut_by(sheet(11, 11), ring, parts)
    assert area_of(cut, 0) == pytest.approx(32.0)
    assert area_of(cut, 1) == pytest.approx(1.75)


def test_zones_that_touch_share_their_border():
    cut = cut_by(sheet(11, 11), shapely.box(1.3, 1.3, 4.7, 4.7), shapely.box(4.7, 1.3, 8.1, 4.7))
    edges = cut.tin.edges
    pairs = cut.zone[edges.faces[(edges.faces >= 0).all(axis=1)]]
    between = (np.sort(pairs, axis=1) == (0, 1)).all(axis=1)
    ends = cut.tin.vertices[edges.ends[(edges.faces >= 0).all(axis=1)][between]]
    assert np.abs(ends[:, :, 0] - 4.7).max() < TOLERANCE.snap
    assert np.hypot(*(ends[:, 1] - ends[:, 0]).T[:2]).sum() == pytest.approx(3.4, abs=1e-4)


def test_a_zone_that_runs_past_the_design():
    cut = cut_by(sheet(6, 6), shapely.box(3.5, -100, 100, 100))
    assert area_of(cut, 0) == pytest.approx(7.5)


def test_a_zone_over_all_of_the_design_cuts_nothing():
    tin = sheet(6, 6)
    cut = cut_by(tin, shapely.box(-1, -1, 9, 9))
    assert np.array_equal(cut.tin.faces, tin.faces)
    assert (cut.zone == 0).all()


def test_a_zone_off_the_design_cuts_nothing():
    cut = cut_by(sheet(6, 6), shapely.box(50, 50, 60, 60))
    assert (cut.zone == -1).all() and len(cut.zone) == 50


def test_a_border_on_edges_and_through_vertices_adds_no_vertex():
    tin = sheet(6, 6)
    on_edges = cut_by(tin, shapely.box(1, 1, 4, 4))
    assert len(on_edges.tin.vertices) == len(tin.vertices)
    diamond = shapely.Polygon([(0, 2), (2, 0), (4, 2), (2, 4)])
    through = cut_by(tin, diamond)
    assert area_of(through, 0) == pytest.approx(8.0)
    # The flat diagonals of the squares cross it half-way, its own run through vertices.
    shares = through.tin.vertices[len(tin.vertices) :, :2] * 2
    assert shares == pytest.approx(np.round(shares))


@pytest.mark.parametrize("off", [1e-12, 1e-8, 5e-5, 9e-5])
def test_a_border_beside_an_edge_within_the_snap_distance_moves_onto_it(off):
    tin = sheet(6, 6)
    cut = cut_by(tin, shapely.box(1 + off, 1, 4, 4 - off))
    assert len(cut.tin.vertices) == len(tin.vertices)
    assert cut.largest_move <= 1.5 * TOLERANCE.snap


def test_nearly_upright_faces_are_kept_and_cut():
    """A wall of 0.5 over 1 mm, crossed by a border."""
    x = [0.0, 2.0, 2.001, 5.0]
    vertices = [(a, b, 0.5 * (a > 2)) for b in (0.0, 4.0) for a in x]
    faces = [(k, k + 1, k + 5) for k in range(3)] + [(k, k + 5, k + 4) for k in range(3)]
    tin = Tin.from_arrays(vertices, faces)
    cut = cut_by(tin, shapely.box(1, 1.1, 4, 3.3))
    wall = np.isin(cut.parent, [1, 4])
    assert cut.tin.plan_areas[wall].sum() == pytest.approx(0.004, abs=1e-9)
    assert cut.tin.plan_areas[wall & (cut.zone == 0)].sum() == pytest.approx(0.0022, abs=1e-6)


def test_a_vertical_wall_is_crossed_without_a_crack():
    """Lower and upper edge of the wall are one line in plan."""
    vertices = [
        (0, 0, 0),
        (2, 0, 0),
        (2, 0, 1),
        (5, 0, 1),
        (0, 4, 0),
        (2, 4, 0),
        (2, 4, 1),
        (5, 4, 1),
    ]
    faces = [(0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6)]
    tin = Tin.from_arrays(vertices, faces)
    cut = cut_by(tin, shapely.box(1, 1.1, 4, 3.3))
    assert area_of(cut, 0) == pytest.approx(6.6, abs=1e-4)
    assert cut.tin.sloped_area == pytest.approx(tin.sloped_area)


def test_slits_between_zones_are_closed_and_told():
    tin = sheet(11, 11)
    around = shapely.box(0.5, 0.5, 9, 9) - shapely.box(1, 1, 8, 8)
    shapes = polygons(shapely.box(1, 1, 4.5, 8), shapely.box(4.5003, 1, 8, 8), around)
    cut = cut_tin(tin, shapes, TOLERANCE)
    assert cut.closed_gaps == 1
    assert cut.widest_gap == pytest.approx(3e-4, rel=0.2)
    plan = cut.tin.vertices[cut.tin.faces, :2].mean(axis=1)
    inside = (plan > (1, 1)).all(axis=1) & (plan < (8, 8)).all(axis=1)
    assert (cut.zone[inside] >= 0).all()


def test_no_zone_at_all():
    cut = cut_by(sheet(4, 4), shapely.Polygon())
    assert (cut.zone == -1).all()


def test_the_design_is_not_written_to():
    tin = sheet(6, 6, 1.0, 0.1)
    before = tin.vertices.copy(), tin.faces.copy()
    cut_by(tin, shapely.box(1.2, 1.2, 3.3, 3.3))
    assert np.array_equal(before[0], tin.vertices) and np.array_equal(before[1], tin.faces)


def test_cancelling_stops_it():
    def stop(share):
        if share > 0.2:
            raise Cancelled

    with pytest.raises(Cancelled):
        cut_tin(sheet(6, 6), polygons(shapely.box(1.2, 1.2, 3.3, 3.3)), TOLERANCE, stop)
