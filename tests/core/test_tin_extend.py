"""A surface carried on beyond its borders: closed forms."""

import numpy as np
import pytest
import shapely

from plugin.core.errors import Cancelled, SurfaceError
from plugin.core.tin import Tin
from plugin.core.tin.extend import Pick, Rule, extend
from plugin.core.tolerance import Tolerance

from .extend_shapes import checked, codes, plan_of, tilted, tin_of
from .tin_shapes import square


@pytest.mark.parametrize("shift", [0.0, 1e7])
@pytest.mark.parametrize("distance", [0.01, 2.0, 30.0])
def test_a_plane_stays_that_plane(shift, distance):
    plan = shapely.Polygon([(0, 0), (12, 0), (12, 5), (7, 5), (7, 9), (0, 9)])
    given = tin_of(plan)
    moved = Tin.from_arrays(given.vertices + np.array([shift, shift, 0.0]), given.faces)
    found = checked(moved, extend(moved, distance), rounding=1e-9 if not shift else 1e-6)
    x, y, z = found.tin.vertices.T
    assert np.abs(z - tilted(x - shift, y - shift)).max() <= 1e-9 * (12 + 2 * distance)
    # All corners are square: the outline is the mitred one of the six sides.
    full = (12 + 2 * distance) * (9 + 2 * distance) - 5 * 4
    assert found.tin.plan_area == pytest.approx(full, rel=1e-8)
    assert found.disagreement <= 1e-9 * (12 + 2 * distance)
    assert found.findings == []
    assert found.length == pytest.approx(42)


def test_faces_name_the_given_face_they_lie_beyond():
    given = square((0, 1, 3, 2))
    found = checked(given, extend(given, 2.0))
    # Face 0 has the sides y = 0 and x = 10, face 1 the sides y = 10 and x = 0.
    middle = found.tin.vertices[found.tin.faces[found.new]].mean(axis=1)
    beyond_first = middle[:, 0] > middle[:, 1]
    assert np.array_equal(found.source[found.new] == 0, beyond_first)
    z, _ = found.tin.sample([(5, -2), (12, 5), (5, 12), (-2, 5)])
    np.testing.assert_allclose(z, [0.1, 2.2, 2.9, 0.8], atol=1e-12)


def crowned(skew=0.0, length=40.0):
    """A street along y with its crown on x = skew * y, falling 2 % each way and 1 % along it."""

    def height(x, y):
        return 50.0 - 0.02 * np.abs(x - skew * y) - 0.01 * y

    plan = [(-5, 0), (0, 0), (5, 0), (5 + 20, length), (skew * length, length), (-5 - 25, length)]
    vertices = [(x, y, float(height(x, y))) for x, y in plan]
    return Tin.from_arrays(vertices, [(0, 1, 4), (0, 4, 5), (1, 2, 3), (1, 3, 4)]), height


@pytest.mark.parametrize("skew", [0.0, 0.3, -0.5])
def test_the_crown_of_a_street_goes_on(skew):
    given, height = crowned(skew)
    found = checked(given, extend(given, 3.0))
    y = np.array([-2.9, -1.0])
    for off in (0.0, 1.0, -1.0):
        x = skew * y + off
        z, _ = found.tin.sample(np.column_stack([x, y]))
        np.testing.assert_allclose(z, height(x, y), rtol=0, atol=1e-9)


def test_given_grade_rises_outward_and_mitres_meet():
    given = square((4, 4, 4, 4))
    for grade in (0.25, -0.5):
        found = checked(given, extend(given, 2.0, Rule.GRADE, grade=grade))
        x, y = np.meshgrid(np.linspace(-1.9, 11.9, 24), np.linspace(-1.9, 11.9, 24))
        z, _ = found.tin.sample(np.column_stack([x.ravel(), y.ravel()]))
        outside = np.maximum.reduce([-x, x - 10, -y, y - 10, 0 * x]).ravel()
        np.testing.assert_allclose(z, 4 + grade * outside, rtol=0, atol=1e-12)
        assert found.disagreement <= 1e-12


def test_level_is_level_at_right_angles_to_each_edge():
    given = square((0, 1, 3, 2))  # edges rise along themselves
    found = checked(given, extend(given, 2.0, Rule.LEVEL))
    z, _ = found.tin.sample([(3, -1.5), (11.5, 5), (4, 11.5), (-1.5, 7)])
    np.testing.assert_allclose(z, [0.3, 2.0, 2.4, 1.4], atol=1e-12)
    # Two level strips that rise along their edges do not meet in a corner.
    assert codes(found) == ["disagree"]


def test_heights_in_another_unit():
    # Plan in metres, heights in feet: a grade of 25 % rises 0.25 m, 0.82 ft, a metre.
    given = square((4, 4, 4, 4))
    found = extend(given, 2.0, Rule.GRADE, grade=0.25, z_scale=0.3048)
    z, _ = found.tin.sample([(5, -1)])
    assert z[0] == pytest.approx(4 + 0.25 / 0.3048)


def test_sharp_corners_are_squared_off_beyond_the_distance():
    plan = shapely.Polygon([(0, 0), (10, 0), (0.5, 0.2)])
    given = tin_of(plan)
    found = checked(given, extend(given, 1.0))
    origin = np.floor(np.array(found.tin.extent[:2]))
    around = shapely.transform(plan.buffer(1.0, quad_segs=32), lambda xy: xy - origin)
    assert plan_of(found.tin).buffer(1e-9).covers(around)
    # No corner goes farther out than the limit.
    assert plan.buffer(2.0 + 1e-9).covers(
        shapely.transform(plan_of(found.tin), lambda xy: xy + origin)
    )


U = [(0, 0), (10, 0), (10, 10), (6, 10), (6, 4), (4.8, 4), (4.8, 10), (0, 10)]


def test_a_bay_is_not_bridged():
    given = tin_of(shapely.Polygon(U))
    found = checked(given, extend(given, 1.0))
    assert codes(found) == ["narrow"]
    assert "1.200 apart" in found.findings[0].why
    x, y = found.findings[0].place
    assert 4.8 < x < 6 and 4 <= y <= 10
    y = np.linspace(4.7, 10.9, 40)
    assert np.isnan(found.tin.sample(np.column_stack([np.full(40, 5.4), y]))[0]).all()
    # Short of the middle by half a step: all else of the bay is filled.
    edge = 0.6 * Tolerance().step
    for x in (5.4 - edge, 5.4 + edge):
        assert not np.isnan(found.tin.sample(np.column_stack([np.full(40, x), y]))[0]).any()


def test_a_bay_wide_enough_is_no_finding():
    wide = [(x + 1.2 if x >= 6 else x, y) for x, y in U]
    found = extend(tin_of(shapely.Polygon(wide)), 1.0)
    checked(tin_of(shapely.Polygon(wide)), found)
    assert found.findings == []
    assert np.isnan(found.tin.sample([(6.0, 8.0)])[0]).all()


def test_parts_of_one_surface_stay_apart():
    plan = shapely.MultiPolygon([shapely.box(0, 0, 4, 4), shapely.box(5, 1, 8, 6)])
    given = tin_of(plan)
    found = checked(given, extend(given, 1.0))
    assert found.tin.pieces.max() == given.pieces.max() == 1
    assert codes(found) == ["narrow"]
    assert "1.000 apart" in found.findings[0].why
    assert found.tin.plan_area == pytest.approx(plan.buffer(1, join_style="mitre").area, abs=0.05)


def test_a_thin_tongue_of_the_surface_is_no_obstacle_to_itself():
    plan = shapely.box(0, 0, 10, 3).union(shapely.box(4, 2, 4.3, 8))
    given = tin_of(plan)
    found = checked(given, extend(given, 1.0))
    assert found.tin.plan_area == pytest.approx(plan.buffer(1, join_style="mitre").area)
    assert found.findings == []


def test_short_edges_round_an_inward_curve_meet_in_the_middle():
    angle = np.linspace(0, np.pi / 2, 10)
    curve = np.column_stack([3.6 - 0.6 * np.sin(angle), 3.6 - 0.6 * np.cos(angle)])
    plan = shapely.Polygon([(0, 0), (10, 0), (10, 3), *curve, (3, 10), (0, 10)])
    given = tin_of(plan)
    found = checked(given, extend(given, 1.5))
    assert found.findings == []
    assert found.tin.plan_area == pytest.approx(120.0)
    x, y, z = found.tin.vertices.T
    np.testing.assert_allclose(z, tilted(x, y), rtol=0, atol=1e-9)


def test_a_notch_narrower_than_the_strip():
    plan = shapely.Polygon(
        [(0, 0), (10, 0), (10, 5), (5.2, 5), (5.2, 4.8), (5, 4.8), (5, 5), (0, 5)]
    )
    given = tin_of(plan)
    found = checked(given, extend(given, 1.0))
    assert codes(found) == ["narrow"]
    assert np.isnan(found.tin.sample([(5.1, 5.5)])[0]).all()


def test_holes_are_filled_on_demand_only():
    hole = shapely.Polygon([(4, 4), (7, 4), (5, 6)])
    given = tin_of(shapely.box(0, 0, 10, 10).difference(hole))
    outer = checked(given, extend(given, 1.0))
    assert np.isnan(outer.tin.sample([(5.2, 4.5)])[0]).all()
    assert outer.length == pytest.approx(40)
    both = checked(given, extend(given, 1.0, holes=True))
    # Its inscribed circle has a radius below 1: a triangle is filled to the point inside.
    assert both.tin.plan_area == pytest.approx(144.0)
    assert both.length == pytest.approx(40 + hole.length)


def test_faces_without_a_slope_are_carried_on_level():
    # A wall of 20 to 1 along the border y = 0, then level ground.
    vertices = [(0, 0, 0), (10, 0, 0), (10, 0.1, 2), (0, 0.1, 2), (10, 8, 2), (0, 8, 2)]
    given = Tin.from_arrays(vertices, [(0, 1, 2), (0, 2, 3), (3, 2, 4), (3, 4, 5)])
    found = checked(given, extend(given, 1.0))
    assert "no_slope" in codes(found)
    z, _ = found.tin.sample([(5, -0.5), (5, -0.9), (5, 8.5)])
    np.testing.assert_allclose(z, [0, 0, 2], atol=1e-12)


def test_an_upright_border_face_parts_the_strips_beside_it():
    # Level at 2 left of x = 5, at 0 right of it, and an upright face between.
    vertices = [(0, 0, 2), (5, 0, 2), (5, 8, 2), (0, 8, 2), (5, 0, 0), (10, 0, 0), (10, 8, 0)]
    vertices += [(5, 8, 0)]
    faces = [(0, 1, 2), (0, 2, 3), (4, 5, 6), (4, 6, 7), (1, 4, 7), (1, 7, 2)]
    given = Tin.from_arrays(vertices, faces)
    found = checked(given, extend(given, 1.0))
    z, _ = found.tin.sample([(4.9, -0.5), (5.1, -0.5), (4.9, 8.5), (5.1, 8.5)])
    np.testing.assert_allclose(z, [2, 0, 2, 0], atol=1e-12)
    assert found.tin.plan_area == pytest.approx(120)


def test_an_upright_border_face_where_strips_get_in_each_others_way():
    vertices = [(0, 0, 2), (5, 0, 2), (5, 8, 2), (0, 8, 2), (5, 0, 0), (10, 0, 0), (10, 8, 0)]
    vertices += [(5, 8, 0), (0, -2, 1), (10, -2, 1), (10, -1, 1), (0, -1, 1)]
    faces = [(0, 1, 2), (0, 2, 3), (4, 5, 6), (4, 6, 7), (1, 4, 7), (1, 7, 2)]
    faces += [(8, 9, 10), (8, 10, 11)]
    given = Tin.from_arrays(vertices, faces)
    found = checked(given, extend(given, 1.0))
    # Here the two sides of the wall are blended beyond it, which is told.
    assert codes(found) == ["disagree", "narrow"]
    # Each strip hangs on the vertices of its own side of the wall.
    ends = np.sort(found.tin.edges.ends[found.tin.edges.boundary], axis=1).tolist()
    assert [0, 1] not in ends and [4, 5] not in ends
    z, _ = found.tin.sample([(1.5, -0.01), (8.5, -0.01)])
    np.testing.assert_allclose(z, [2, 0], atol=0.05)


def picked(*lines, distance=0.3):
    return Pick(np.array([shapely.LineString(line) for line in lines], dtype=object), distance)


def test_only_edges_along_a_line():
    given = square((0, 0, 0, 0))
    line = [(-3, 10.1), (13, 9.9)]
    found = checked(given, extend(given, 2.0, pick=picked(line)))
    assert found.length == 10
    assert found.tin.plan_area == pytest.approx(120)
    assert np.isnan(found.tin.sample([(5, -1), (11, 5), (-1, 11)])[0]).all()
    crossing = [(-3, 0.0), (0.0, 0.05), (0.1, 13.0)]
    found = checked(given, extend(given, 2.0, pick=picked(line, crossing, [(3, 3), (4, 3)])))
    assert found.length == 20  # the sides y = 10 and x = 0 with the corner between them
    assert found.tin.plan_area == pytest.approx(100 + 20 + 20 + 4)
    assert [finding.code for finding in found.findings] == ["no_edge"]
    assert "Line 3" in found.findings[0].why


def test_a_line_does_not_pick_the_short_edges_it_crosses():
    given = tin_of(shapely.box(0, 0, 10, 0.4))
    found = checked(given, extend(given, 1.0, pick=picked([(-3, 0.2), (13, 0.2)])))
    assert found.length == pytest.approx(20)
    around = shapely.LineString([(-1, -1), (11, -1), (11, 1.4), (-1, 1.4), (-1, -1)])
    every = extend(given, 1.0, pick=picked(around.coords, distance=1.1))
    assert every.length == pytest.approx(20.8)


def test_picked_edges_beside_an_inward_corner_stay_off_the_other_edge():
    for turn in ((6.0, 9.0), (4.2, 9.0), (4.2, 5.0)):  # outside angles beyond and below 90 degrees
        plan = shapely.Polygon([(0, 0), (10, 0), (10, 3), (3, 3), turn, (0, 9)])
        given = tin_of(plan)
        found = checked(given, extend(given, 2.0, pick=picked([(2, 3), (11, 3)])))
        assert found.length == 7
        z, _ = found.tin.sample([(8, 4)])
        assert z[0] == pytest.approx(tilted(8, 4))


def test_lines_that_pick_nothing_are_refused():
    with pytest.raises(SurfaceError, match="No edge of the surface runs along"):
        extend(square(), 1.0, pick=picked([(5, -3), (5, 13)]))
    with pytest.raises(SurfaceError, match="No edge"):
        extend(square(), 1.0, pick=picked())


@pytest.mark.parametrize("distance", [0.0, -1.0, float("nan"), float("inf")])
def test_a_distance_must_be_positive(distance):
    with pytest.raises(SurfaceError, match="greater than zero"):
        extend(square(), distance)


def test_a_given_grade_must_be_given():
    with pytest.raises(SurfaceError, match="needs a grade"):
        extend(square(), 1.0, Rule.GRADE)


def test_a_surface_without_a_border_is_refused():
    closed = [(0, 0, 0), (4, 0, 0), (0, 4, 0), (1, 1, 3)]
    tin = Tin.from_arrays(closed, [(0, 1, 2), (0, 1, 3), (1, 2, 3), (2, 0, 3)])
    with pytest.raises(SurfaceError, match="no border"):
        extend(tin, 1.0)


def test_planes_that_do_not_meet_are_blended_and_told():
    # Two faces side by side along y = 0 whose planes meet in a line along that border.
    vertices = [(-5, 0, 0), (0, 0, 0), (5, 0, 0), (0, 5, 1), (-5, 5, -0.5), (5, 5, 2)]
    faces = [(0, 1, 3), (0, 3, 4), (1, 2, 5), (1, 5, 3)]
    given = Tin.from_arrays(vertices, faces)
    found = checked(given, extend(given, 1.0))
    assert "disagree" in codes(found)
    left, right = given.gradients[0], given.gradients[2]
    apart = abs((left - right)[1])
    z, _ = found.tin.sample([(0, -1 + 1e-12)])
    assert z[0] == pytest.approx(-(left + right)[1] / 2, abs=1e-6)
    assert found.disagreement >= apart - 1e-12
    # The triangle at an edge keeps the plane as long as one outer corner does.
    z, _ = found.tin.sample([(-2.5, -0.01), (2.5, -0.01)])
    base = np.array([-2.5 * left[0] - 0.01 * left[1], 2.5 * right[0] - 0.01 * right[1]])
    np.testing.assert_allclose(z, base, rtol=0, atol=1e-12)


def test_cancelling():
    def stop(_):
        raise Cancelled

    with pytest.raises(Cancelled):
        extend(square(), 1.0, progress=stop)
