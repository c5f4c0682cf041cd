"""Sides of pits in closed form. Areas and volumes are worked out by hand; the frustum is

V = h / 3 (A1 + A2 + sqrt(A1 A2)) and the prismoid V = h / 6 (A1 + 4 Am + A2), which is exact for
sections that grow with the square of the depth (Euclid XII; Simpson's rule).
"""

from dataclasses import replace

import numpy as np
import pytest
import shapely
import shapely.affinity

from plugin.core.depth.batter import batter
from plugin.core.depth.manner import BatterRule, Corners, Manner
from plugin.core.depth.patchwork import Part
from plugin.core.tin import Tin
from plugin.core.tolerance import Tolerance

from .batter_shapes import (
    TOLERANCE,
    cut_volume,
    dug,
    heights_at,
    mesh_problems,
    patch_of,
    pits,
    plane,
)
from .cut_shapes import sheet, signed_areas

PIT = shapely.box(15, 15, 25, 25)


def prismoid(height, lower, upper):
    """Volume between two rectangles (width, length), their sides carried from one to the other."""
    middle = (np.array(lower) + upper) / 2
    return height / 6 * (np.prod(lower) + 4 * np.prod(middle) + np.prod(upper))


def outline(patch, zone=0):
    """The ground that a zone takes up with its sides."""
    faces = patch.faces[patch.zone == zone]
    with np.errstate(all="ignore"):
        return shapely.union_all(shapely.polygons(patch.points[faces]), grid_size=1e-9)


def test_a_square_pit_with_mitred_corners_is_a_frustum():
    made, before, outcome = dug(plane(), pits((PIT, 2.0, 1.5)))
    assert mesh_problems(made, before) == []
    lower, upper = 10.0**2, (10 + 2 * 1.5 * 2) ** 2
    assert cut_volume(made) == pytest.approx(2 / 3 * (lower + upper + np.sqrt(lower * upper)))
    assert shapely.equals_exact(
        outline(made).envelope, shapely.box(12, 12, 28, 28), 1e-9, normalize=True
    )
    assert outcome.sides == 4 and outcome.facets == 4 and outcome.findings == []
    assert set(made.part[made.zone == 0]) == {Part.BOTTOM, Part.BATTER}
    # The planes of the design stay coarse: nothing of the rays is left in it.
    assert len(made.faces) <= 30


def test_a_square_pit_with_rounded_corners_has_quarters_of_a_cone():
    tolerance = Tolerance(chord=1e-4)
    made, before, _ = dug(plane(), pits((PIT, 2.0, 1.5)), tolerance, corners=Corners.ROUND)
    assert mesh_problems(made, before) == []
    run = 1.5 * 2
    wanted = 100 * 2 + 4 * 10 * run * 2 / 2 + np.pi * run**2 * 2 / 3
    # The chords lie within the cone, at most 1e-4 of its 3 m at the top.
    assert wanted * (1 - 1e-5) < cut_volume(made) < wanted
    corner = outline(made).bounds
    assert corner == pytest.approx((12, 12, 28, 28))
    assert outline(made).area == pytest.approx(100 + 4 * 10 * run + np.pi * run**2, rel=1e-5)


@pytest.mark.parametrize("rule", list(BatterRule))
def test_a_square_pit_under_a_design_that_rises_along_one_axis(rule):
    """Uphill d / (1/n - g), downhill d / (1/n + g), beside n d; n d all round below the design."""
    n, g, depth = 1.5, 0.2, 2.0
    made, before, _ = dug(plane(slope=(g, 0)), pits((PIT, depth, n)), rule=rule)
    assert mesh_problems(made, before) == []
    up, down = depth / (1 / n - g), depth / (1 / n + g)
    if rule is BatterRule.DESIGN:
        up = down = n * depth
    box = shapely.box(15 - down, 15 - n * depth, 25 + up, 25 + n * depth)
    assert shapely.equals_exact(outline(made).envelope, box, 1e-9, normalize=True)
    assert outline(made).area == pytest.approx(box.area)
    wanted = prismoid(depth, (10, 10), (10 + up + down, 10 + 2 * n * depth))
    assert cut_volume(made) == pytest.approx(wanted)


def test_a_trench_across_a_crown():
    """Sides follow the crown; at the ends, where the road falls away, they meet it sooner."""
    x = [0.0, 20.0, 40.0]
    plan = np.array([(a, b) for b in (0.0, 40.0) for a in x])
    fall, depth, n = 0.02, 1.2, 1.0
    vertices = np.column_stack((plan, 50 - fall * np.abs(plan[:, 0] - 20)))
    road = Tin.from_arrays(vertices, [(0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4)])
    made, before, _ = dug(road, pits((shapely.box(10, 18, 30, 22), depth, n)))
    assert mesh_problems(made, before) == []
    end = depth / (1 / n + fall)
    wanted = prismoid(depth, (20, 4), (20 + 2 * end, 4 + 2 * n * depth))
    assert cut_volume(made) == pytest.approx(wanted)
    spots = np.array([(20.0, 22.5), (15.0, 17.4), (20.0, 23.3)])
    height, _, _ = heights_at(made, spots)
    assert height == pytest.approx([50 - 1.2 + 0.5, 50 - 0.1 - 1.2 + 0.6, 50.0])


def test_an_inward_corner_is_shared_by_its_two_sides():
    """Offset by r an L of area A and outline P covers A + P r + (5 - 1) r^2."""
    shape = shapely.Polygon([(10, 10), (26, 10), (26, 16), (16, 16), (16, 28), (10, 28)])
    depth, n = 1.5, 2.0
    made, before, _ = dug(plane(), pits((shape, depth, n)))
    assert mesh_problems(made, before) == []
    wanted = shape.area * depth + shape.length * n * depth**2 / 2 + 4 * n**2 * depth**3 / 3
    assert cut_volume(made) == pytest.approx(wanted)


def test_an_island_keeps_the_pyramid_between_its_sides():
    """An island of 4 x 4 in a pit 3 deep, sides 1:1: a pyramid 2 high is left of it."""
    shape = shapely.box(8, 8, 32, 32).difference(shapely.box(18, 18, 22, 22))
    made, before, _ = dug(plane(), pits((shape, 3.0, 1.0)))
    assert mesh_problems(made, before) == []
    around = prismoid(3.0, (24, 24), (30, 30))
    assert cut_volume(made) == pytest.approx(around - 4 * 4 * 2 / 3)
    height, _, _ = heights_at(made, np.array([(20.0, 20.0)]))
    assert height == pytest.approx([100 - 1.0])


def test_a_ridge_between_two_pits_is_cut_down_to_where_their_sides_meet():
    one, other = shapely.box(8, 10, 18, 30), shapely.box(20, 10, 30, 30)
    made, before, _ = dug(plane(), pits((one, 2.0, 1.0), (other, 3.0, 1.0)))
    assert mesh_problems(made, before) == []
    # From 98 and from 97, both 1:1, 2 apart: they meet 0.5 from the first.
    spots = np.array([(18.5, 20.0), (18.25, 20.0), (19.0, 20.0)])
    height, _, face = heights_at(made, spots + np.array((0, 1e-3)))
    assert height == pytest.approx([98.5, 98.25, 98.0])
    assert made.zone[face[1]] == 0 and made.zone[face[2]] == 1


def test_the_side_of_a_lane_climbs_into_the_walk_beside_it():
    """Lane 1.0 deep, sides 1.5:1, beside a walk 0.3 deep with upright sides."""
    lane, walk = shapely.box(10, 5, 20, 35), shapely.box(20, 5, 24, 35)
    made, before, _ = dug(plane(), pits((lane, 1.0, 1.5), (walk, 0.3, 0.0)))
    assert mesh_problems(made, before) == []
    run = 1.5 * 0.7
    spots = np.column_stack((20 + run * np.array([0.25, 0.5, 0.999, 1.001, 2]), np.full(5, 19.7)))
    height, _, face = heights_at(made, spots)
    assert height == pytest.approx([99 + 0.175, 99 + 0.35, 99 + 0.6993, 99.7, 99.7])
    assert list(made.zone[face]) == [0, 0, 0, 1, 1]
    area = signed_areas(made.points, made.faces)
    inside = shapely.contains(walk, shapely.points(made.points[made.faces].mean(axis=1)))
    taken = inside & (made.zone == 0)
    assert area[taken].sum() == pytest.approx(30 * run)
    assert (area * (made.design - made.heights).mean(axis=1))[taken].sum() == pytest.approx(
        30 * run * (1.0 + 0.3) / 2
    )


def test_raised_zones_slope_down_outside_all_zones():
    pad, pit = shapely.box(5, 5, 15, 15), shapely.box(16, 5, 26, 15)
    made, before, _ = dug(plane(), pits((pad, -1.0, 2.0)))
    assert mesh_problems(made, before) == []
    assert -cut_volume(made) == pytest.approx(1 / 3 * (100 + 14**2 + np.sqrt(100 * 14**2)))
    both, before, _ = dug(plane(), pits((pad, -1.0, 2.0), (pit, 1.0, 0.0)))
    assert mesh_problems(both, before) == []
    inside = shapely.contains(pit, shapely.points(both.points[both.faces].mean(axis=1)))
    assert (both.heights[inside] == 99.0).all()
    height, _, face = heights_at(both, np.array([(15.5, 10.0)]))
    assert height == pytest.approx([100.75]) and both.zone[face] == [0]


def test_a_pit_beside_a_raised_zone_cuts_its_slope():
    pad, pit = shapely.box(5, 5, 15, 15), shapely.box(18, 5, 28, 15)
    made, before, _ = dug(plane(), pits((pad, -1.0, 2.0), (pit, 1.0, 2.0)))
    assert mesh_problems(made, before) == []
    # Down from 101 at x = 15 and up from 99 at x = 18: they meet where both are 99.75 + ...
    height, _, _ = heights_at(made, np.array([(15.5, 10.2), (17.5, 10.2), (16.5, 10.2)]))
    assert height == pytest.approx([100.25, 99.25, 99.75])


def test_a_side_ends_where_it_first_meets_the_surface():
    """A hill farther off, steeper than the side, is not cut."""
    x = np.array([0.0, 30.0, 36.0, 40.0])
    plan = np.array([(a, b) for b in (0.0, 40.0) for a in x])
    vertices = np.column_stack((plan, np.tile((100.0, 100.0, 112.0, 112.0), 2)))
    faces = [(k, k + 1, k + 5) for k in range(3)] + [(k, k + 5, k + 4) for k in range(3)]
    made, before, _ = dug(Tin.from_arrays(vertices, faces), pits((PIT, 2.0, 1.5)))
    assert mesh_problems(made, before) == []
    assert cut_volume(made) == pytest.approx(prismoid(2, (10, 10), (16, 16)))
    assert outline(made).bounds == pytest.approx((12, 12, 28, 28))


def test_a_mitre_past_its_limit_is_rounded():
    """A corner of 30 degrees mitres to 1 / sin(15) = 3.86 times the run."""
    tip = np.array((20 + 10 * np.cos(np.pi / 12), 20 + 10 * np.sin(np.pi / 12)))
    shape = shapely.Polygon([(20, 20), (tip[0], 40 - tip[1]), tuple(tip)])
    reach = {}
    for limit in (4.0, 3.8):
        made, before, _ = dug(plane(), pits((shape, 1.0, 1.0)), mitre_limit=limit)
        assert mesh_problems(made, before) == []
        reach[limit] = 20 - outline(made).bounds[0]
    assert reach[4.0] == pytest.approx(1 / np.sin(np.pi / 12), rel=1e-3)
    assert reach[3.8] == pytest.approx(1.0, rel=2e-3)


def test_the_edge_of_the_design_is_told():
    made, before, outcome = dug(plane(), pits((shapely.box(30, 10, 50, 30), 1.0, 1.5)))
    assert mesh_problems(made, before) == []
    found = outcome.findings
    assert [(one.code, one.feature) for one in found] == [("open_edge", 1)]
    assert found[0].place == pytest.approx((40, 20)) and "over 20 of its outline" in found[0].why
    # Along that edge the sides go on to it.
    assert cut_volume(made) == pytest.approx(
        10 * 20 + 20 * 1.5 / 2 + 2 * (10 * 1.5 / 2) + 2 * 1.5**2 / 3
    )


@pytest.mark.parametrize("rise", [1 / 1.5, 0.9])
def test_a_side_that_never_meets_the_surface_is_told(rise):
    """The ground rises as steeply as the side, or steeper."""
    made, before, outcome = dug(plane(slope=(rise, 0)), pits((PIT, 1.0, 1.5)))
    assert mesh_problems(made, before) == []
    assert [(one.code, one.feature) for one in outcome.findings] == [("no_daylight", 1)]
    assert outline(made).bounds[2] == pytest.approx(40)


def test_upright_zones_and_the_design_stay_as_they_are():
    patch, zones = patch_of(plane(), pits((PIT, 2.0, 0.0), (shapely.box(1, 1, 4, 4), 0.0, 2.0)))
    made, outcome = batter(patch, zones, Manner(), TOLERANCE)
    assert made is patch and outcome.sides == 0


def test_a_deeper_zone_beside_has_the_side():
    """Two depths side by side: the shallower one has no side towards the deeper one."""
    one, other = shapely.box(10, 10, 20, 30), shapely.box(20, 10, 30, 30)
    made, before, _ = dug(plane(), pits((one, 1.0, 1.0), (other, 2.0, 1.0)))
    assert mesh_problems(made, before) == []
    height, _, _ = heights_at(made, np.array([(25.0, 20.3), (19.5, 20.3), (18.5, 20.3)]))
    assert height == pytest.approx([98.0, 98.5, 99.0])


def test_heights_in_another_unit():
    """Plan in metres, heights in feet: 6 ft deep at 1.5:1 runs 1.5 x 6 x 0.3048 m."""
    made, before, _ = dug(plane(), pits((PIT, 6.0, 1.5)), z_scale=0.3048)
    assert mesh_problems(made, before) == []
    run = 1.5 * 6 * 0.3048
    assert outline(made).bounds == pytest.approx((15 - run, 15 - run, 25 + run, 25 + run))


@pytest.mark.parametrize("corners", list(Corners))
@pytest.mark.parametrize("rule", list(BatterRule))
def test_sides_do_not_depend_on_the_place_the_order_or_the_quarter(rule, corners):
    random = np.random.default_rng(5)
    tin = sheet(21, 21, 2.0, 0.2, 3, height=lambda plan: 9 + random.uniform(0, 0.3, len(plan)))
    plan = np.round(tin.vertices[:, :2] * 1024) / 1024
    tin = Tin.from_arrays(np.column_stack((plan, tin.vertices[:, 2])), tin.faces)
    rows = [
        (shapely.Polygon([(8, 8), (17, 10), (15, 19), (11, 12)]), 1.0, 1.5),
        (shapely.box(18, 12, 25, 20), 0.6, 2.0),
        (shapely.Point(26, 28).buffer(4, quad_segs=4), 1.5, 0.5),
    ]
    manner = {"rule": rule, "corners": corners}
    made, before, _ = dug(tin, pits(*rows), **manner)
    assert mesh_problems(made, before) == []
    spots = random.uniform(2, 38, (500, 2))
    height, _, _ = heights_at(made, spots, tin)

    back, _, _ = dug(tin, pits(*rows[::-1]), **manner)
    assert heights_at(back, spots, tin)[0] == pytest.approx(height, abs=1e-9)

    east = np.array((8_388_608.0, 4_194_304.0))
    there = Tin.from_arrays(tin.vertices + np.append(east, 0.0), tin.faces)
    moved = [(shapely.affinity.translate(shape, *east), *more) for shape, *more in rows]
    far, _, _ = dug(there, pits(*moved), **manner)
    assert heights_at(far, spots + east, there)[0] == pytest.approx(height, abs=2e-8)

    quarter = np.array([(0.0, 1.0), (-1.0, 0.0)])
    turned = Tin.from_arrays(
        np.column_stack((tin.vertices[:, :2] @ quarter, tin.vertices[:, 2])), tin.faces
    )
    rotated = [(shapely.transform(shape, lambda xy: xy @ quarter), *more) for shape, *more in rows]
    across, _, _ = dug(turned, pits(*rotated), **manner)
    assert heights_at(across, spots @ quarter, turned)[0] == pytest.approx(height, abs=1e-4)


class StoppedError(Exception):
    pass


def test_it_can_be_stopped_and_tells_how_far_it_is():
    told = []
    patch, zones = patch_of(sheet(9, 9, 2.0), pits((shapely.box(4, 4, 9, 9), 1.0, 1.0)))
    batter(patch, zones, Manner(), TOLERANCE, progress=told.append)
    assert told == sorted(told) and told[-1] == 1.0 and len(told) > 5

    def stop(share):
        if share > 0.6:
            raise StoppedError

    with pytest.raises(StoppedError):
        batter(patch, zones, Manner(), TOLERANCE, progress=stop)


def test_what_was_given_is_not_changed():
    patch, zones = patch_of(plane(), pits((PIT, 2.0, 1.5)))
    copy = replace(patch, heights=patch.heights.copy(), zone=patch.zone.copy())
    batter(patch, zones, Manner(), TOLERANCE)
    assert np.array_equal(copy.heights, patch.heights)
    assert np.array_equal(copy.zone, patch.zone)
