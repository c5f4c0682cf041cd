"""Closed forms through the whole way from zones to quantities: batters, widths, square, carry."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from plugin.core.depth.footprints import footprints
from plugin.core.depth.manner import BatterRule, Beyond, Corners, Manner
from plugin.core.depth.patchwork import Part
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Outside
from plugin.core.tolerance import Tolerance

from .cut_shapes import mesh_faults, sheet, zones_of
from .depth_shapes import pit_faults

RUN = Tolerance().step


def dig(tin, zones, manner=Manner(), outside=Outside.KEEP, beyond=Beyond.STOP):  # noqa: B008
    surface = depth_surface(tin, zones, outside, manner=manner, beyond=beyond)
    if beyond is Beyond.STOP:
        assert pit_faults(tin, surface, outside, rule=manner.rule) == []
        height, face = tin.sample(surface.tin.vertices)
        below = (height - surface.tin.vertices[:, 2])[face >= 0]
        assert surface.depths[face >= 0] == pytest.approx(below, abs=1e-8)
    else:
        assert mesh_faults(tin, surface.tin, surface.parent) == []
    return surface


def with_ends(zones, batter=0.0, width=0.0, square=0.0):
    ones = np.ones(len(zones))
    return replace(zones, batters=batter * ones, widths=width * ones, squares=square * ones)


def top_outline(surface, row=0):
    """Plan outline of bottom, sides and steps of a zone."""
    parts = [footprints(surface, part)[row] for part in (Part.BOTTOM, Part.STEP, Part.BATTER)]
    return shapely.union_all([part for part in parts if part is not None])


def prismatoid(depth, lengths, widths):
    """Volume of a pit whose plan is a rectangle at every depth: Simpson's rule is exact there."""
    (x0, x1), (y0, y1) = lengths, widths
    return depth / 6 * (x0 * y0 + (x0 + x1) * (y0 + y1) + x1 * y1)


@pytest.mark.parametrize("rule", list(BatterRule))
@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_a_square_pit_under_a_level_design_is_a_frustum(rule, shift):
    """Side a, depth d, batter n: the top is a square of a + 2 n d, mitred at the corners."""
    a, d, n = 4.0, 0.8, 1.5
    tin = sheet(13, 13, 1.0, 0.2, origin=(shift, shift), height=lambda plan: 0 * plan[:, 0] + 50)
    square = shapely.box(shift + 4, shift + 4, shift + 4 + a, shift + 4 + a)
    surface = dig(tin, with_ends(zones_of((square, d)), n), Manner(rule=rule))
    top = a + 2 * n * d
    found = surface.quantities
    assert found.cuts[0] == pytest.approx(d / 3 * (a**2 + top**2 + a * top), rel=2e-4)
    assert found.plan_areas[0] == pytest.approx(top**2, rel=1e-4)
    assert found.batter_areas[0] == pytest.approx(top**2 - a**2, rel=2e-4)
    assert found.sloped_batter_areas[0] == pytest.approx(
        (top**2 - a**2) * np.sqrt(1 + 1 / n**2), rel=2e-4
    )
    assert found.step_areas[0] == 0
    wanted = square.buffer(n * d, join_style="mitre")
    assert top_outline(surface).symmetric_difference(wanted).area < 2e-3


def test_rounded_corners_are_cones():
    """Four quarter cones of radius n d and height d at the corners; chords of 1 mm cost little."""
    a, d, n = 4.0, 0.8, 1.5
    tin = sheet(13, 13, height=lambda plan: 0 * plan[:, 0])
    zones = with_ends(zones_of((shapely.box(4, 4, 4 + a, 4 + a), d)), n)
    surface = dig(tin, zones, Manner(corners=Corners.ROUND))
    prisms = a**2 * d + 4 * a * n * d**2 / 2
    assert surface.quantities.cuts[0] == pytest.approx(
        prisms + np.pi * (n * d) ** 2 * d / 3, abs=3e-3
    )


@pytest.mark.parametrize("grade", [0.03, 0.2])
def test_a_square_pit_under_a_tilted_design(grade):
    """Level rule, design rising by g along x: the side uphill runs n d / (1 - n g), the one
    downhill n d / (1 + n g), those along the slope n d; the mitres lie where their planes meet,
    so that the top is a rectangle.
    """
    a, d, n = 4.0, 0.8, 1.5
    tin = sheet(15, 15, height=lambda plan: grade * plan[:, 0])
    surface = dig(tin, with_ends(zones_of((shapely.box(5, 5, 5 + a, 5 + a), d)), n))
    up, down, along = n * d / (1 - n * grade), n * d / (1 + n * grade), n * d
    wanted = shapely.box(5 - down, 5 - along, 5 + a + up, 5 + a + along)
    assert top_outline(surface).symmetric_difference(wanted).area < 4e-3
    volume = prismatoid(d, (a + up + down, a), (a + 2 * along, a))
    assert surface.quantities.cuts[0] == pytest.approx(volume, rel=2e-4)


def test_a_lane_widened_under_a_walk():
    """The cut of the lane carries on 0.75 under the walk, and is as deep there as below the lane.

    Common practice, no source: a road's cut runs on past the back of curb.
    """
    tin = sheet(21, 11, 1.0, height=lambda plan: 0.02 * plan[:, 0])
    lane, walk = shapely.box(3, -1, 10, 99), shapely.box(10, -1, 14, 99)
    zones = zones_of((lane, 1.1), (walk, 0.4))
    surface = dig(tin, replace(zones, widths=np.array([0.75, 0.0])))
    found = surface.quantities
    assert found.plan_areas[:2] == pytest.approx([(7 + 1.5) * 10, (4 - 0.75) * 10], abs=5e-3)
    # Steps of 1 mm: the lane's on both sides, the walk's towards the design.
    steps = 10 * RUN * np.array([1.1 + 0.7, 0.4]) / 2
    plain = np.array([1.1 * (7 + 1.5) * 10, 0.4 * (4 - 0.75) * 10])
    assert found.cuts[:2] == pytest.approx(plain - steps, abs=2e-3)
    bottom = surface.part == Part.BOTTOM
    middle = surface.tin.vertices[surface.tin.faces].mean(axis=1)
    under_walk = bottom & (middle[:, 0] > 10) & (middle[:, 0] < 10.75)
    assert under_walk.any() and (surface.zone[under_walk] == 0).all()


@pytest.mark.parametrize("square", [False, True])
def test_a_trench_across_a_crown(square):
    """A crowned road falls by 2.5 % to both sides; a trench crosses it at right angles.

    Its section is a trapezoid d (w + n d) everywhere, the crown included, since both sides climb
    to the height of the design beside them. Square thickness t is t sqrt(1 + g^2) plumb, and the
    two bottoms meet below the crown.
    """
    g, w, d, n = 0.025, 2.0, 1.2, 1.5
    tin = sheet(17, 13, 1.0, height=lambda plan: -g * np.abs(plan[:, 0] - 8))
    trench = zones_of((shapely.box(-5, 5, 30, 5 + w), 0.0 if square else d))
    zones = with_ends(trench, n, square=d if square else 0.0)
    surface = dig(tin, zones)
    deep = d * np.sqrt(1 + g**2) if square else d
    assert surface.quantities.cuts[0] == pytest.approx(16 * deep * (w + n * deep), rel=2e-4)
    assert surface.depths.max() == pytest.approx(deep, abs=1e-9)
    assert surface.largest_residual < 1e-9


@pytest.mark.parametrize(
    ("thickness", "widths"),
    [(350, (783, 631)), (700, (1566, 1262)), (1200, (2684, 2163)), (2500, (5591, 4507))],
)
def test_layers_square_to_a_slope_have_the_widths_of_a_riprap_table(thickness, widths):
    """A road agency's riprap guide, Table 1: thickness and width in mm on 2:1 and 1.5:1 slopes."""
    for ratio, width in zip((2.0, 1.5), widths, strict=True):
        tin = sheet(9, 9, 5.0, height=lambda plan, n=ratio: plan[:, 0] / n)
        zones = with_ends(zones_of((shapely.box(-1, -1, 99, 99), 0.0)), square=thickness / 1000)
        surface = dig(tin, zones)
        assert np.ptp(surface.depths) < 1e-9
        assert 1000 * ratio * surface.depths.mean() == pytest.approx(width, abs=1)
        # Volume of a layer square to one plane: thickness times sloped area.
        assert surface.quantities.cuts[0] == pytest.approx(tin.sloped_area * thickness / 1000)


def test_thickness_square_to_two_planes_meets_in_a_mitre():
    """Below a valley of two 2:1 slopes both layers keep t: the bottom lies t sqrt(1 + g^2) down."""
    tin = sheet(13, 13, height=lambda plan: 0.5 * np.abs(plan[:, 0] - 6))
    surface = dig(tin, with_ends(zones_of((shapely.box(2, 2, 10, 10), 0.0)), square=0.4))
    bottom = surface.tin.faces[surface.part == Part.BOTTOM]
    assert surface.depths[bottom].max() == pytest.approx(0.4 * np.sqrt(1.25))
    assert surface.largest_residual < 1e-9 and surface.findings == []


@pytest.mark.parametrize("outside", list(Outside))
def test_a_pit_past_the_edge_of_the_design(outside):
    """With the slope carried on the pit is whole: (8 + 2 n d) (4 + 2 n d) at the top."""
    tin = sheet(11, 11, height=lambda plan: 50 + 0.03 * plan[:, 0] - 0.02 * plan[:, 1])
    zones = with_ends(zones_of((shapely.box(6, 3, 13, 6), 0.8)), 1.5, 0.5)
    surface = dig(tin, zones, Manner(rule=BatterRule.DESIGN), outside, Beyond.CARRY)
    found = surface.quantities
    assert found.bottom_areas[0] == pytest.approx(32, abs=1e-3)
    if outside is not Outside.USE_DEPTH:
        assert found.plan_areas[0] == pytest.approx(10.4 * 6.4, abs=1e-3)
        assert found.cuts[0] == pytest.approx(prismatoid(0.8, (10.4, 8.0), (6.4, 4.0)), rel=2e-4)
    # Nothing is left of the extension but the pit.
    past = surface.tin.vertices[surface.tin.faces].mean(axis=1)[:, 0] > 10
    assert (surface.zone[past] == 0).all() and (surface.flags[past] == "carried").all()
    assert surface.carried_area == pytest.approx(surface.tin.plan_areas[past].sum())
    assert surface.parent.max() < len(tin.faces)
    assert [finding.code for finding in surface.findings] == ["carried"]
    assert "by up to" in surface.findings[0].why


def test_an_upright_pit_past_the_edge_is_whole():
    tin = sheet(11, 11, height=lambda plan: 0.03 * plan[:, 0])
    surface = dig(tin, zones_of((shapely.box(6, 3, 13, 6), 0.8)), beyond=Beyond.CARRY)
    assert top_outline(surface).symmetric_difference(shapely.box(6, 3, 13, 6)).area < 1e-3
    assert surface.carried_area == pytest.approx(9, abs=1e-3)


def test_stopping_at_the_edge_tells_of_it():
    tin = sheet(11, 11)
    zones = with_ends(zones_of((shapely.box(6, 3, 13, 6), 0.8)), 1.5)
    codes = {finding.code for finding in dig(tin, zones).findings}
    assert {"beyond", "open_edge"} <= codes
    assert dig(tin, zones).carried_area == 0


def test_a_side_with_much_to_climb_gets_the_room_it_needs():
    """The design rises by 0.6 towards its edge; a side of 1.5:1 gains 0.0667 a unit on it only."""
    tin = sheet(11, 11, height=lambda plan: 0.6 * plan[:, 0])
    zones = with_ends(zones_of((shapely.box(4, 4, 6, 6), 0.5)), 1.5)
    surface = dig(tin, zones, beyond=Beyond.CARRY)
    assert "no_daylight" not in [finding.code for finding in surface.findings]
    # It runs n d / (1 - n g) = 7.5 past the edge of the bottom at 6.
    assert surface.tin.vertices[:, 0].max() == pytest.approx(13.5, abs=1e-3)


def test_raised_zones_have_sides_that_fall():
    """A bank of 0.5 with batter 2 on level ground: the frustum of a pyramid, upside down."""
    tin = sheet(13, 13, height=lambda plan: 0 * plan[:, 0])
    surface = dig(tin, with_ends(zones_of((shapely.box(4, 4, 8, 8), -0.5)), 2.0))
    found = surface.quantities
    assert found.fills[0] == pytest.approx(0.5 / 3 * (16 + 36 + 24), rel=2e-4)
    assert found.cuts.sum() == pytest.approx(0, abs=1e-9)
