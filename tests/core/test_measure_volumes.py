"""Cut and fill by zone, classes of a difference and their outlines, against closed forms."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.zones import Zones
from plugin.core.errors import UndercourseError
from plugin.core.measure.cells import classify
from plugin.core.measure.classes import Classes
from plugin.core.measure.pair import Pair
from plugin.core.measure.volumes import Factors, bands, between_tins, by_sign
from plugin.core.tin import Tin
from plugin.core.tolerance import Tolerance

from .test_overlay_shapes import close, flat, ring, sheet, stacked
from .tin_shapes import random_tin, square

TOLERANCE = Tolerance()
YARD = 27.0  # cubic feet


def zones_of(*polygons):
    count = len(polygons)
    made = np.empty(count, object)
    made[:] = polygons
    return Zones(made, np.zeros(count), np.arange(count))


def measured(upper, lower, zones=None, z_scale=1.0):
    pair = Pair.of(upper, lower, zones, TOLERANCE)
    return between_tins(pair, zones, TOLERANCE, z_scale), pair


def pit(run=1.5, depth=2.0):
    return stacked([ring(15, 0.0), ring(5 + run * depth, 0.0), ring(5, -depth)])


def moved(tin, east, north, up=0.0):
    return Tin.from_arrays(tin.vertices + np.array((east, north, up)), tin.faces)


def test_a_prism_by_zone_in_total_and_outside():
    """2 below over 10 x 10: a zone of 4 x 10, one of 3 x 10, and 3 x 10 outside."""
    zones = zones_of(shapely.box(0, 0, 4, 10), shapely.box(5, 0, 8, 10))
    found, _ = measured(square(), square((-2, -2, -2, -2)), zones)
    assert found.figures.cut == close([80, 60, 60])
    assert found.total.cut[0] == close(140) and found.total.area[0] == close(70)
    assert found.missing == close([0, 0]) and found.missing_share == 0
    assert found.only_upper == close(0) and found.only_lower == close(0)


def test_the_share_of_a_zone_without_data():
    zones = zones_of(shapely.box(6, 0, 16, 10), shapely.box(20, 0, 22, 10))
    found, _ = measured(square((1, 1, 1, 1)), square(), zones)
    assert found.missing == close([60, 20])
    assert found.missing_share == close(80 / 120)
    assert found.total.cut[0] == close(40)


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_a_pit_with_batters_anywhere_and_over_any_ground(shift):
    """A frustum, depth / 3 (bottom + top + sqrt(bottom x top)), split in four by zones."""
    bottom, top, depth = 100.0, 256.0, 2.0
    volume = depth / 3 * (bottom + top + np.sqrt(bottom * top))
    quarter = [shapely.box(x, y, x + 15, y + 15) for x in (5, 20) for y in (5, 20)]
    for ground in (sheet(40, 1.0, flat), sheet(80, 1.0, flat, turn=0.3, shift=(5.0, -20.0))):
        zones = zones_of(*(shapely.affinity.translate(q, shift, shift) for q in quarter))
        found, _ = measured(moved(ground, shift, shift), moved(pit(), shift, shift), zones)
        # At 1e7 a coordinate is known to 2e-9, and a volume to that times the walls' area.
        assert found.figures.cut[:4] == pytest.approx(volume / 4, rel=1e-9 if not shift else 4e-9)
        assert found.total.cut[0] == pytest.approx(volume, rel=1e-9)
        assert found.total.area_above[0] == close(top, 1e-6)


@settings(max_examples=20)
@given(st.integers(0, 10**6))
def test_exchanged_surfaces_change_the_sign_and_nothing_else(seed):
    one, other = random_tin(seed, 30), random_tin(seed + 1, 50)
    box = shapely.box(20.3, 20.7, 60.1, 80.9)
    zones = zones_of(box, shapely.box(60.1, 20.7, 90.2, 80.9))
    there, pair = measured(one, other, zones)
    back, _ = measured(other, one, zones)
    assert there.figures.cut == close(back.figures.fill)
    assert there.figures.fill == close(back.figures.cut)
    assert there.figures.least == close(-back.figures.most)
    whole, _ = measured(one, other)
    gathered = there.figures.gathered(np.zeros(3, int), 1)
    assert gathered.net == close(whole.total.net)
    assert gathered.area == close(whole.total.area)
    # The cells, clipped and added up, say the same as the integrals of the pairs.
    sums, shapes = classify(pair, by_sign(pair), TOLERANCE.snap, group=np.arange(3))
    assert sums.area[:, 1] == close(there.figures.area_above, 1e-8)
    assert sums.volume[:, 1] == close(there.figures.cut, 1e-8)
    assert -sums.volume[:, 0] == close(there.figures.fill, 1e-8)
    for row in range(3):
        for number in (0, 1):
            area = 0.0 if shapes[row, number] is None else shapes[row, number].area
            assert area == pytest.approx(sums.area[row, number], abs=1e-3)


def test_triangles_made_anew_change_nothing():
    """A roof with its ridge on x = 20: of four triangles, and of 800 whose edges keep the ridge."""

    def height(east, north):
        return 6.0 - 0.6 * np.abs(east - 20)

    plan = np.array([(10, 10), (20, 10), (30, 10), (10, 30), (20, 30), (30, 30)], float)
    coarse = Tin.from_arrays(
        np.column_stack((plan, height(*plan.T))), [(0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4)]
    )
    fine = sheet(20, 1.0, height, shift=(10.0, 10.0))
    ground = sheet(13, 3.0, lambda e, n: 0.05 * e + 0.02 * n, turn=0.2)
    one, other = measured(coarse, ground)[0].total, measured(fine, ground)[0].total
    assert one.cut == close(other.cut) and one.fill == close(other.fill)
    assert one.area_above == close(other.area_above)


def test_volumes_of_feet_over_metres_in_plan():
    found, _ = measured(square((1, 1, 1, 1)), square(), z_scale=0.3048)
    assert found.total.cut[0] == close(30.48)


# --- handbook numbers --------------------------------------------------------------------------


def prismoid():
    """End areas 1504 and 2240, middle 1860 over 100: depth and width both linear."""
    # Depth 32 + b t and width 47 + d t with b d = 48 and 32 d + 47 b = 688 (t = 0 .. 1).
    b = (688 - np.sqrt(688**2 - 4 * 47 * 32 * 48)) / (2 * 47)
    d = 48 / b
    half = (47 + d) / 2
    plan = [(0, -23.5), (100, -half), (100, half), (0, 23.5)]
    z = [-32, -32 - b, -32 - b, -32]
    return Tin.from_arrays(np.column_stack((plan, z)), [(0, 1, 2), (0, 2, 3)])


def test_the_prismoid_of_the_handbook():
    """6903.70 yd3 by the prismoidal formula, printed 6904 (engineering handbook, p. 412)."""
    found, _ = measured(sheet(3, 50.0, flat, shift=(-10.0, -75.0)), prismoid())
    assert found.total.cut[0] == close(100 / 6 * (1504 + 4 * 1860 + 2240))
    assert found.total.cut[0] / YARD == pytest.approx(6903.70, abs=5e-3)


def test_the_level_sections_of_vose():
    """Base 20 ft, 1 1/2:1, cuts 0-5-10-15-0 at 50 ft: 52,500 ft3 (Vose 1857, p. 83)."""
    cuts = np.array([0, 5, 10, 15, 0.0])
    x = 50.0 * np.arange(5)
    across = np.stack((-10 - 1.5 * cuts, np.full(5, -10), np.full(5, 10), 10 + 1.5 * cuts), 1)
    z = np.stack((0 * cuts, -cuts, -cuts, 0 * cuts), 1)
    vertices = np.column_stack((np.repeat(x, 4), across.ravel(), z.ravel()))
    faces = []
    for station in range(4):
        for k in range(3):
            a = 4 * station + k
            faces += [(a, a + 4, a + 5), (a, a + 5, a + 1)]
    faces = [
        f for f in faces if abs(np.linalg.det(np.c_[vertices[list(f), :2], np.ones(3)])) > 1e-9
    ]
    found, _ = measured(
        sheet(10, 30.0, flat, shift=(-20.0, -140.0)), Tin.from_arrays(vertices, faces)
    )
    assert found.total.cut[0] == close(52_500)


# --- classes and outlines ----------------------------------------------------------------------


def test_bands_of_a_plane_are_strips():
    """A difference of x / 10 in bands of 0.25: four strips 2.5 wide."""
    pair = Pair.of(square((0, 1, 1, 0)), square(), None, TOLERANCE)
    classes = bands(0.0, 1.0, 0.25, 1e-9)
    sums, shapes = classify(pair, classes, TOLERANCE.snap, group=np.arange(len(classes)))
    assert sums.area[0] == close([0, 25, 25, 25, 25, 0, 0])
    assert sums.volume[0, 1:5] == close(25 * np.array([0.125, 0.375, 0.625, 0.875]))
    assert sums.least[0, 2] == close(0.25) and sums.most[0, 2] == close(0.5)
    assert shapes[0, 2].symmetric_difference(shapely.box(2.5, 0, 5, 10)).area < 1e-6


def test_a_plateau_on_a_limit_is_one_piece():
    """0.5 below everywhere, but for rounding: one band, whatever way the noise falls."""
    east = sheet(20, 0.5, lambda e, n: 0.02 * e + 0.013 * n)
    noise = np.random.default_rng(3).uniform(-1e-8, 1e-8, len(east.vertices))
    below = Tin.from_arrays(east.vertices - np.c_[0 * noise, 0 * noise, 0.5 + noise], east.faces)
    pair = Pair.of(east, below, None, TOLERANCE)
    classes = bands(0.4, 0.6, 0.1, 1e-9)
    sums, shapes = classify(pair, classes, TOLERANCE.snap, group=np.arange(len(classes)))
    assert np.count_nonzero(sums.area) == 1
    (shape,) = [shape for shape in shapes[0] if shape is not None]
    assert classes.edges[np.flatnonzero(sums.area[0])[0] - 1] == pytest.approx(0.5)
    assert shape.geom_type == "Polygon" and shape.area == pytest.approx(100.0)


def test_level_ground_is_neither_cut_nor_fill():
    ground, dug = sheet(40, 1.0, flat), pit()
    pair = Pair.of(ground, dug, None, TOLERANCE)
    sums, shapes = classify(pair, by_sign(pair), TOLERANCE.snap, group=np.arange(3))
    assert sums.area[0] == close([0, 256, 900 - 256], 1e-6)
    assert shapes[0, 0] is None
    assert shapes[0, 1].symmetric_difference(shapely.box(12, 12, 28, 28)).area < 1e-4
    assert len(shapes[0, 2].interiors) == 1


def test_surfaces_with_the_same_plan_have_clean_outlines():
    """Shared edges, where hairlines between cells come from: one polygon a zone and sign."""
    random = np.random.default_rng(5)
    ground = random_tin(7, 400, height=lambda p: np.sin(p[:, 0] / 20))
    z = np.where(ground.vertices[:, 0] < 50, 0.3, -0.4) * random.uniform(
        0.9, 1.1, len(ground.vertices)
    )
    jitter = random.uniform(-1e-10, 1e-10, (len(z), 2))
    other = Tin.from_arrays(ground.vertices - np.c_[jitter, z], ground.faces)
    pair = Pair.of(ground, other, None, TOLERANCE)
    sums, shapes = classify(pair, by_sign(pair), TOLERANCE.snap, group=np.arange(3))
    for number in (0, 1):
        assert shapes[0, number].area == pytest.approx(sums.area[0, number], rel=1e-6)
        assert len(shapely.get_parts(shapes[0, number])) <= 3
    assert shapely.is_valid(shapes[0, :2]).all()


def test_too_many_bands_are_refused():
    with pytest.raises(UndercourseError, match="choose an interval"):
        bands(-100.0, 100.0, 0.01, 1e-9)


def test_limits_belong_to_the_class_above():
    classes = Classes(np.array([0.0, 1.0]), 1e-6)
    assert classes.of(np.array([-1, 0, -1e-7, 0.5, 1 - 1e-7, 2, np.nan])).tolist() == [
        0, 1, 1, 1, 2, 2, -1,
    ]  # fmt: skip


# --- what becomes of the soil ------------------------------------------------------------------


def test_bank_loose_and_compacted():
    """100 bank make 125 loose; a fill of 90 takes 100 bank at 0.9 compacted (common practice)."""
    factors = Factors(1.25, 0.9)
    cut, fill = np.array([100.0]), np.array([90.0])
    assert factors.loose_of_cut(cut)[0] == close(125)
    assert factors.bank_for_fill(fill)[0] == close(100)
    assert factors.loose_for_fill(fill)[0] == close(125)
    assert factors.balance(cut, fill)[0] == close(0)
