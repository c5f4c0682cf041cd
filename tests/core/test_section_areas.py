"""Areas on sections, volumes from them, and the exact volume of the same strip."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.bundle import Lines
from plugin.core.measure.endareas import average_end_area, prismoidal
from plugin.core.measure.section_areas import areas_between
from plugin.core.measure.sections import profiles_of_tin
from plugin.core.measure.strip import strips
from plugin.core.tin import Tin

from .section_shapes import lines_of, measured, sections_every, trench
from .test_section_lines import arc_line
from .tin_shapes import grid_faces, random_tin

FOOT3_IN_YARD3 = 27.0


def plane(z, by_x=0.0, by_y=0.0):
    """A sheet 400 wide about the origin, with height z there, and rises along x and y."""
    x, y = (values.ravel() for values in np.meshgrid([-200.0, 200.0], [-200.0, 200.0]))
    return Tin.from_arrays(np.column_stack((x, y, z + by_x * x + by_y * y)), grid_faces(2, 2))


def test_prismoid_of_a_handbook():
    """L 100 ft, A 1504, 1860, 2240 ft2 (an engineering handbook, p. 412): printed 6904 yd3 by the
    prismoidal formula; 6933.33 yd3 by average end areas."""
    by_formula = prismoidal(100.0, 1504.0, 1860.0, 2240.0) / FOOT3_IN_YARD3
    assert by_formula == pytest.approx(6903.70, abs=0.005)
    assert average_end_area(100.0, 1504.0, 2240.0) / FOOT3_IN_YARD3 == pytest.approx(
        6933.33, abs=0.005
    )


@pytest.mark.parametrize("shift", [(0.0, 0.0, 0.0), (6e6, 2e6, 300.0), (1e7, 1e7, 0.0)])
def test_level_sections_of_vose(shift):
    """Vose, Handbook of railroad construction, 1857, p. 83: base 20 ft, sides 1 1/2:1, cuts 0, 5,
    10, 15, 0 at 50 ft: 56,250 ft3 by end areas (printed 56,200), 52,500 by the prismoidal formula.

    As bodies: every side is a plane, and so the exact volume is the prismoidal one.
    """
    stations = np.arange(5) * 50.0
    ground, bottom = trench(stations, [0, 5, 10, 15, 0], 20.0, 1.5, shift)
    x, y = shift[:2]
    lines = lines_of([(x, y), (x + 200, y)])
    sections = sections_every(lines, 50.0, 60.0, 60.0)
    areas, cut, fill, exact = measured(lines, sections, ground, bottom, 60.0, 60.0)
    assert areas.cut == pytest.approx([0, 137.5, 350, 637.5, 0], rel=1e-7, abs=1e-6)
    tight = 1e-9 if x == 0 else 1e-7
    assert cut.average.sum() == pytest.approx(56_250.0, rel=tight)
    assert cut.prismoidal.sum() == pytest.approx(52_500.0, rel=tight)
    assert float(exact.total.cut[0]) == pytest.approx(52_500.0, rel=tight)
    assert fill.average.sum() == pytest.approx(0.0, abs=1e-6)


def test_a_plane_over_a_plane():
    upper, lower = plane(5.0, 0.1), plane(2.0, 0.1)
    lines = lines_of([(-50, 0), (50, 0)])
    sections = sections_every(lines, 20.0, 8.0, 4.0)
    areas, cut, _, exact = measured(lines, sections, upper, lower, 8.0, 4.0)
    assert areas.cut == pytest.approx(36.0)
    assert areas.width_cut == pytest.approx(12.0)
    assert (areas.least[0], areas.most[0]) == pytest.approx((3.0, 3.0))
    assert cut.average.sum() == pytest.approx(3600.0, rel=1e-12)
    assert float(exact.total.cut[0]) == pytest.approx(3600.0, rel=1e-12)


def test_a_wedge_is_exact_by_end_areas():
    """The area grows in proportion to the distance."""
    upper, lower = plane(4.0, 0.02), plane(0.0)
    lines = lines_of([(-200, 3), (190, 3)])
    sections = sections_every(lines, 37.0, 10.0, 10.0)
    _, cut, _, exact = measured(lines, sections, upper, lower, 10.0, 10.0)
    wanted = 0.02 * 390 / 2 * 390 * 20
    assert cut.average.sum() == pytest.approx(wanted, rel=1e-12)
    assert cut.prismoidal.sum() == pytest.approx(wanted, rel=1e-12)
    assert float(exact.total.cut[0]) == pytest.approx(wanted, rel=1e-12)


def test_a_channel_has_the_area_of_its_triangle():
    """V channel, 4:1 sides, 2 deep: 16 square units, whatever the station."""
    ground, bottom = trench([0, 100], [2, 2], 1e-9, 4.0)
    sections = sections_every(lines_of([(0, 0), (100, 0)]), 25.0, 30.0, 30.0)
    areas = areas_between(
        profiles_of_tin(sections, ground), profiles_of_tin(sections, bottom), len(sections)
    )
    assert areas.cut == pytest.approx(16.0, rel=1e-7)
    assert areas.width_cut == pytest.approx(16.0, rel=1e-7)


def test_surfaces_that_cross_inside_a_section_are_split_there():
    """z = 0 and z = 0.3 (o - 1): cut left of offset 1, fill right of it, triangles each."""
    lower, upper = plane(-0.3, 0.0, -0.3), plane(0.0)
    sections = sections_every(lines_of([(0, 0), (50, 0)]), 0.0, 6.0, 9.0)
    areas = areas_between(
        profiles_of_tin(sections, upper), profiles_of_tin(sections, lower), len(sections), 2.0
    )
    assert areas.cut == pytest.approx(2.0 * 0.3 * 7 * 7 / 2)
    assert areas.fill == pytest.approx(2.0 * 0.3 * 8 * 8 / 2)
    assert (areas.width_cut[0], areas.width_fill[0]) == pytest.approx((7.0, 8.0))


@settings(max_examples=30)
@given(seed=st.integers(0, 300))
def test_cut_and_fill_change_places_with_the_surfaces(seed):
    one, other = random_tin(seed), random_tin(seed + 1000)
    lines = lines_of([(20, 30), (80, 75)])
    sections = sections_every(lines, 9.0, 18.0, 25.0)
    a, b = profiles_of_tin(sections, one), profiles_of_tin(sections, other)
    there, back = areas_between(a, b, len(sections)), areas_between(b, a, len(sections))
    assert there.cut == pytest.approx(back.fill, rel=1e-12)
    assert there.width_fill == pytest.approx(back.width_cut, rel=1e-12)
    # Against a sum over many narrow stretches of the sampled heights.
    for k in range(0, len(sections), 3):
        edges = np.linspace(-18, 25, 4_001)
        o = (edges[1:] + edges[:-1]) / 2
        xy = sections.places(np.full(len(o), k), o)
        gap = one.sample(xy)[0] - other.sample(xy)[0]
        there_too = np.isfinite(gap)
        width = edges[1] - edges[0]
        assert there.covered[k] == pytest.approx(there_too.sum() * width, abs=5 * width)
        net = np.nansum(gap) * width
        assert there.cut[k] - there.fill[k] == pytest.approx(net, rel=1e-3, abs=0.05)
        assert there.cut[k] == pytest.approx(np.nansum(np.maximum(gap, 0)) * width, abs=0.06)


def test_a_surface_that_is_missing_in_between_is_told():
    points = [(x, y, 0) for x in (0, 10) for y in (-4, -2, 1, 4)]
    holed = Tin.from_arrays(points, [(0, 4, 5), (0, 5, 1), (2, 6, 7), (2, 7, 3)])
    whole = plane(1.0)
    sections = sections_every(lines_of([(1, 0), (9, 0)]), 0.0, 3.0, 3.0)
    areas = areas_between(
        profiles_of_tin(sections, whole), profiles_of_tin(sections, holed), len(sections)
    )
    assert areas.covered == pytest.approx(3.0)
    assert areas.gaps == pytest.approx(3.0)
    assert areas.cut == pytest.approx(3.0)
    off = sections_every(lines_of([(500, 0), (520, 0)]), 0.0, 3.0, 3.0)
    none = areas_between(profiles_of_tin(off, whole), profiles_of_tin(off, holed), len(off))
    assert none.covered.tolist() == [0, 0]
    assert np.isnan(none.first).all()


def test_a_prism_round_a_corner_keeps_its_volume():
    """The section on the bisector is longer than square; times the cosine it counts right."""
    upper, lower = plane(2.0), plane(0.0)
    lines = lines_of([(0, 0), (100, 0), (100, 100)])
    sections = sections_every(lines, 0.0, 5.0, 5.0, listed=[50, 100, 150])
    areas, cut, _, exact = measured(lines, sections, upper, lower, 5.0, 5.0)
    corner = np.flatnonzero(sections.distance == 100)[0]
    assert areas.cut[corner] == pytest.approx(20 * np.sqrt(2))
    assert cut.average.sum() == pytest.approx(4000.0, rel=1e-12)
    assert float(exact.total.cut[0]) == pytest.approx(4000.0, rel=1e-12)


def test_on_an_arc_end_areas_are_off_by_where_the_ground_lies():
    """Pappus: a body turned about a centre has the volume of its area times the way of its
    centroid. A strip all to the right of a curve to the right lies nearer to the centre, so that
    end areas, which go along the line, give more than is there."""
    lines, arcs = arc_line()
    upper, lower = plane(2.0), plane(0.0)
    start = 20.0
    sections = sections_every(lines, 0.0, 0.0, 10.0, arcs, listed=[start])
    keep = sections.take(np.flatnonzero(sections.distance >= start - 1e-9))
    _, cut, _, exact = measured(lines, keep, upper, lower, 0.0, 10.0, arcs)
    turned = np.pi / 2
    assert cut.average.sum() == pytest.approx(20 * 50 * turned, rel=1e-5)
    assert float(exact.total.cut[0]) == pytest.approx(20 * 45 * turned, rel=1e-5)


def test_ground_inside_a_tight_bend_counts_once_in_the_strip():
    lines = lines_of([(0, 0), (30, 0), (30, 30)])
    sections = sections_every(lines, 5.0, 20.0, 2.0)
    ground = strips(sections, lines, 20.0, 2.0)[0]
    assert ground.shape.is_valid
    # An L of two 30-long legs, 20 to the left and 2 to the right, mitred outside.
    assert ground.shape.area == pytest.approx(32 * 22 + 10 * 22, rel=1e-12)
    # Up to the last sections before the corner each leg sweeps over the other's ground: (10, 5) to
    # (25, 20) at least.
    assert ground.twice > 15 * 15
    wide = strips(sections_every(lines, 5.0, 2.0, 20.0), lines, 2.0, 20.0)[0]
    assert wide.twice == 0.0
    # Legs 12 apart, 10 wide to either side: a band 8 wide belongs to both.
    hairpin = lines_of([(0, 0), (50, 0), (50, 12), (0, 12)])
    folded = strips(sections_every(hairpin, 0.0, 10.0, 0.0), hairpin, 10.0, 0.0)[0]
    assert folded.twice == pytest.approx(8 * 40, rel=0.1)


def test_the_strip_of_a_ring_is_a_ring():
    angle = np.linspace(0, 2 * np.pi, 361)
    ring = np.column_stack((40 * np.cos(angle), 40 * np.sin(angle)))
    ring[-1] = ring[0]
    lines = lines_of(ring)
    strip = strips(sections_every(lines, 25.0, 5.0, 5.0), lines, 5.0, 5.0)[0].shape
    assert len(strip.interiors) == 1
    assert strip.area == pytest.approx(np.pi * (45**2 - 35**2), rel=1e-3)


@settings(max_examples=25)
@given(seed=st.integers(0, 60), turn=st.floats(0, 360))
def test_dense_sections_come_near_the_exact_volume(seed, turn):
    one, other = random_tin(seed), random_tin(seed + 500)
    way = np.array([np.cos(np.radians(turn)), np.sin(np.radians(turn))])
    middle = np.array([50.0, 50.0])
    lines = lines_of([middle - 25 * way, middle + 25 * way])
    sections = sections_every(lines, 0.25, 10.0, 15.0)
    _, cut, fill, exact = measured(lines, sections, one, other, 10.0, 15.0)
    total = exact.total
    size = float(total.cut[0] + total.fill[0]) + 1.0
    assert cut.prismoidal.sum() == pytest.approx(float(total.cut[0]), abs=2e-3 * size)
    assert fill.average.sum() == pytest.approx(float(total.fill[0]), abs=2e-3 * size)


def test_a_line_reversed_has_the_same_volumes():
    one, other = random_tin(3), random_tin(4)
    lines = Lines.from_arrays([np.array([(20.0, 20), (55, 30), (80, 70)])])
    back = lines.reversed()
    a = measured(lines, sections_every(lines, 0, 8, 5, listed=[10, 40]), one, other, 8, 5)
    length = float(lines.lengths[0])
    turned = sections_every(back, 0, 5, 8, listed=[length - 10, length - 40])
    b = measured(back, turned, one, other, 5, 8)
    assert a[1].average.sum() == pytest.approx(b[1].average.sum(), rel=1e-9)
    assert a[2].prismoidal.sum() == pytest.approx(b[2].prismoidal.sum(), rel=1e-9)
    assert float(a[3].total.cut[0]) == pytest.approx(float(b[3].total.cut[0]), rel=1e-9)
