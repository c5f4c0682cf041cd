"""The depth surface: closed forms, random cases, a real road."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st

from plugin.core.depth.manner import BatterRule, Corners, Manner
from plugin.core.depth.patchwork import Part
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Outside
from plugin.core.errors import ZoneError
from plugin.core.tin import Tin
from plugin.core.tolerance import Tolerance

from .cut_shapes import depth_faults, random_case, sheet, zones_of
from .depth_shapes import off_the_definition, pit_faults, plain_case, random_ways
from .tin_shapes import REAL, read_real

TOLERANCE = Tolerance()
RUN = TOLERANCE.step


def lowered(tin, zones, outside=Outside.KEEP, depth=0.0, **options):
    surface = depth_surface(tin, zones, outside, depth, TOLERANCE, **options)
    assert depth_faults(tin, zones, outside, depth, surface) == []
    return surface


def slope(plan):
    return 50 + 0.03 * plan[:, 0] - 0.02 * plan[:, 1]


def with_one_over_all(tin, zones):
    west, south, east, north = tin.extent
    shapes = [*zones.polygons, shapely.box(west - 1, south - 1, east, north)]
    pairs = zip(shapes, [*zones.depths, 0.6], strict=True)
    return zones_of(*pairs, priority=np.append(zones.priority, len(shapes)))


def codes(surface):
    return [finding.code for finding in surface.findings]


def test_a_square_pit_under_a_slope():
    """Side a, depth d, step of run r all round inside: d (a^2 + a (a - 2r) + (a - 2r)^2) / 3.

    By the formula of the frustum of a pyramid, its small base at the bottom.
    """
    surface = lowered(
        sheet(11, 11, 1.0, 0.1, height=slope), zones_of((shapely.box(2, 2, 6, 6), 1.5))
    )
    inner = 4 - 2 * RUN
    quantities = surface.quantities
    assert quantities.cuts[0] == pytest.approx(1.5 * (16 + 4 * inner + inner**2) / 3, abs=2e-3)
    assert quantities.plan_areas[0] == pytest.approx(16, abs=1e-3)
    assert quantities.step_areas[0] == pytest.approx(16 - inner**2, rel=0.05)
    factor = np.sqrt(1 + 0.03**2 + 0.02**2)
    flat = quantities.plan_areas[0] - quantities.step_areas[0]
    assert quantities.sloped_areas[0] == pytest.approx(flat * factor)
    assert not quantities.fills.any()
    assert surface.least_run <= RUN + 1e-9


def test_steps_run_what_was_asked_for_where_faces_are_large_enough():
    """A border square across faces of 5 m: all steps run 0.001, so their area is run x length."""
    surface = lowered(sheet(5, 5, 5.0), zones_of((shapely.box(7, -1, 99, 99), 0.4)))
    assert surface.least_run == pytest.approx(RUN, rel=1e-6)
    assert surface.quantities.step_areas[0] == pytest.approx(20 * RUN, rel=1e-6)
    x = surface.tin.vertices[:, 0]
    assert x[(x > 7 - 1e-4) & (x < 8)].min() == pytest.approx(7, abs=1e-4)
    assert "narrow_step" not in codes(surface)


def test_the_shallower_depth_holds_up_to_the_border():
    surface = lowered(
        sheet(11, 11), zones_of((shapely.box(1, 1, 4.5, 9), 0.3), (shapely.box(4.5, 1, 8, 9), 0.8))
    )
    step = surface.part == Part.STEP
    between = surface.tin.vertices[surface.tin.faces[step], 0]
    near = (np.abs(between - 4.5) < 0.1).all(axis=1)
    assert (surface.zone[step][near] == 1).mean() > 0.9  # but for the corners at both ends
    on_border = np.abs(surface.tin.vertices[:, 0] - 4.5) < 1e-4
    inside = on_border & (np.abs(surface.tin.vertices[:, 1] - 5) < 3.9)
    assert surface.depths[inside] == pytest.approx(0.3)


def test_raising_and_lowering_side_by_side():
    surface = lowered(
        sheet(11, 11), zones_of((shapely.box(1, 1, 4, 9), -0.5), (shapely.box(6, 1, 9, 9), 0.5))
    )
    assert surface.quantities.fills[0] == pytest.approx(12, rel=2e-3)
    assert surface.quantities.cuts[1] == pytest.approx(12, rel=2e-3)
    # The raised zone is the shallower one: its step lies outside it, in the design.
    assert surface.quantities.step_areas[0] == 0
    assert surface.quantities.step_areas[2] > 0


def test_outside_kept_left_out_or_lowered():
    tin, zones = sheet(11, 11, height=slope), zones_of((shapely.box(2.2, 2.2, 6, 6), 0.5))
    kept = lowered(tin, zones, Outside.KEEP)
    assert set(kept.part[kept.zone < 0]) == {Part.DESIGN}
    out = lowered(tin, zones, Outside.LEAVE_OUT)
    assert (out.zone == 0).all() and not (out.part == Part.STEP).any()
    assert out.tin.plan_area == pytest.approx(3.8**2, abs=1e-3)
    assert out.quantities.cuts[0] == pytest.approx(0.5 * out.tin.plan_area)
    used = lowered(tin, zones, Outside.USE_DEPTH, 0.5)
    assert used.quantities.cuts.sum() == pytest.approx(50)
    assert (used.part == Part.BOTTOM).all()


def test_nothing_left_is_refused():
    with pytest.raises(ZoneError, match="No zone meets the design"):
        depth_surface(sheet(5, 5), zones_of((shapely.box(50, 50, 60, 60), 1)), Outside.LEAVE_OUT)


def test_depth_zero_everywhere_is_the_design_cut():
    tin = sheet(7, 7)
    surface = lowered(tin, zones_of((shapely.box(1.2, 1.2, 3.4, 3.4), 0)))
    assert not (surface.part == Part.STEP).any()
    assert surface.quantities.cuts.sum() == 0


def test_zones_off_and_past_the_design_are_told():
    surface = lowered(
        sheet(6, 6), zones_of((shapely.box(3, 3, 7, 4), 1), (shapely.box(20, 20, 21, 21), 1))
    )
    found = {finding.feature: finding for finding in surface.findings}
    assert found[1].code == "beyond" and "2 of its 4" in found[1].why
    assert found[2].code == "off_design" and found[2].place == (20.5, 20.5)


def test_a_zone_without_effect_is_told():
    zones = zones_of(
        (shapely.box(2, 2, 3, 3), 1), (shapely.box(1, 1, 4, 4), 2), priority=np.array([2.0, 1.0])
    )
    assert codes(lowered(sheet(6, 6), zones)) == ["covered"]


def test_faults_of_the_design_are_told():
    tin = sheet(6, 6)
    fin = np.vstack((tin.vertices, [(2.3, 2.6, 9.0)]))
    middle = tin.edges.ends[(tin.edges.faces >= 0).all(axis=1)][20]
    crowded = Tin.from_arrays(fin, np.vstack((tin.faces, [(*middle, len(fin) - 1)])))
    surface = depth_surface(crowded, zones_of((shapely.box(-9, -9, 9, 9), 1)))
    assert "crowded_edge" in codes(surface)


def test_narrow_steps_are_flagged():
    """Faces of half a millimetre beside the border leave no room for a step of a millimetre."""
    x = [0.0, 2.0, 2.0005, 5.0]
    vertices = [(a, b, 0.0) for b in (0.0, 4.0) for a in x]
    faces = [(k, k + 1, k + 5) for k in range(3)] + [(k, k + 5, k + 4) for k in range(3)]
    surface = lowered(Tin.from_arrays(vertices, faces), zones_of((shapely.box(2, -1, 9, 9), 1)))
    assert codes(surface).count("narrow_step") == 1
    assert surface.least_run < 5e-4
    assert set(surface.flags) == {"", "narrow_step"}


def test_heights_in_another_unit_scale_volumes_and_slopes():
    """Plan in metres, heights in feet: 1 ft under 4 m2 is 4 x 0.3048 m3."""
    feet = sheet(7, 7, height=lambda plan: plan[:, 0] / 0.3048)
    zones = zones_of((shapely.box(-9, -9, 9, 9), 1.0))
    surface = depth_surface(feet, zones, manner=Manner(z_scale=0.3048))
    assert surface.quantities.cuts[0] == pytest.approx(36 * 0.3048)
    assert surface.quantities.sloped_areas[0] == pytest.approx(36 * np.sqrt(2))


@settings(max_examples=120, deadline=None)
@given(
    st.integers(0, 1 << 40),
    st.sampled_from(list(Outside)),
    st.sampled_from([0.3, 0.5, -1.0]),
)
@example(2539, Outside.KEEP, 0.5)  # a needle whose tip is finer than site coordinates
@example(3789, Outside.KEEP, 0.3)
def test_random_depths_fit_and_lie_on_the_moved_planes(seed, outside, depth):
    tin, zones = random_case(seed)
    if outside is Outside.LEAVE_OUT:
        # Something must be left of the design: a zone over a part of it, however the others lie.
        zones = with_one_over_all(tin, zones)
    surface = depth_surface(tin, zones, outside, depth, TOLERANCE)
    assert depth_faults(tin, zones, outside, depth, surface) == []


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 1 << 40))
def test_random_widths_batters_and_square_thicknesses_fit(seed):
    tin, zones = random_case(seed)
    random = np.random.default_rng(seed)
    zones, manner = random_ways(random, with_one_over_all(tin, zones), square=seed % 2 == 0)
    outside = list(Outside)[random.integers(3)]
    surface = depth_surface(tin, zones, outside, 0.4, TOLERANCE, manner=manner)
    assert pit_faults(tin, surface, outside, 0.4, manner.rule) == []


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 1 << 40))
def test_batters_lessen_the_depth_by_the_distance(seed):
    """The definition of the rule, point by point; chords of cones and the snap allow for 6 mm."""
    tin, zones = plain_case(seed)
    manner = Manner(corners=Corners.ROUND, rule=BatterRule.DESIGN)
    surface = depth_surface(tin, zones, tolerance=TOLERANCE, manner=manner)
    assert pit_faults(tin, surface, Outside.KEEP, rule=manner.rule) == []
    assert off_the_definition(surface, 0.01) < 6e-3


@settings(max_examples=25, deadline=None)
@given(st.integers(0, 1 << 40))
def test_depths_are_those_of_the_design_above_each_vertex(seed):
    """Square thicknesses move vertices, and batters cut into what has moved."""
    tin, zones = plain_case(seed)
    squares = np.random.default_rng(seed).choice([0.0, 0.3], len(zones))
    surface = depth_surface(tin, replace(zones, squares=squares), tolerance=TOLERANCE)
    assert pit_faults(tin, surface, Outside.KEEP) == []
    height, face = tin.sample(surface.tin.vertices)
    below = (height - surface.tin.vertices[:, 2])[face >= 0]
    assert surface.depths[face >= 0] == pytest.approx(below, abs=1e-7)


@pytest.mark.skipif(not REAL.is_dir(), reason="the folder of real files is not here")
def test_a_real_road_0_30_m_down_is_the_road_moved_exactly():
    """buildingSMART Finland InfraModel sample (CC-BY 4.0): 11,959 faces, 22,503.5393 m2."""
    tin = read_real("road_finished")
    west, south, east, north = tin.extent
    zone = shapely.box(west - 1, south - 1, east + 1, north + 1)
    surface = depth_surface(tin, zones_of((zone, 0.30)))
    assert np.array_equal(surface.tin.faces, tin.faces)
    assert np.array_equal(surface.tin.vertices[:, :2], tin.vertices[:, :2])
    assert np.array_equal(surface.tin.vertices[:, 2], tin.vertices[:, 2] - 0.30)
    assert surface.quantities.plan_areas[0] == pytest.approx(22_503.5393, abs=1e-4)
    assert surface.quantities.sloped_areas[0] == pytest.approx(23_389.5815, abs=1e-4)
    assert surface.quantities.cuts[0] == pytest.approx(0.30 * 22_503.5393, abs=1e-3)


@pytest.mark.skipif(not REAL.is_dir(), reason="the folder of real files is not here")
def test_a_real_road_cut_by_stripes():
    tin = read_real("road_finished")
    west, south, east, north = tin.extent
    rise = (north - south) / 8
    stripes = [
        shapely.LineString([(west, south + rise * k), (east, south + rise * (k + 1))]).buffer(7)
        for k in range(8)
    ]
    pairs = [(shape, 0.1 * (k + 1)) for k, shape in enumerate(stripes)]
    zones = zones_of(*pairs, priority=np.arange(8.0))
    surface = lowered(tin, zones)
    assert surface.tin.plan_area == pytest.approx(22_503.5393, abs=1e-4)
