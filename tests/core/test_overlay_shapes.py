"""Two surfaces with volumes known in closed form."""

import itertools

import numpy as np
import pytest

from plugin.core.tin import Tin
from plugin.core.tin.overlay import integrate

from .tin_shapes import grid_faces, square

YARD = 27.0  # cubic feet


def close(value, absolute=1e-11):
    return pytest.approx(value, rel=1e-9, abs=absolute)


def flat(east, north):
    return np.zeros_like(east)


def waves(east, north):
    return np.cos(north)


def sheet(size, step, height, turn=0.0, shift=(0.0, 0.0)):
    """A square sheet of ``size`` cells a side over (0, 0), with heights from a function."""
    y, x = np.divmod(np.arange((size + 1) ** 2), size + 1)
    cos, sin = np.cos(turn), np.sin(turn)
    east = step * (cos * x - sin * y) + shift[0]
    north = step * (sin * x + cos * y) + shift[1]
    return Tin.from_arrays(
        np.column_stack((east, north, height(east, north))), grid_faces(size + 1, size + 1)
    )


def stacked(rings):
    """A surface of rings of as many points each, one inside the other, and a lid on the last."""
    count = len(rings[0])
    vertices = np.concatenate([*rings, rings[-1].mean(axis=0)[None]])
    at = np.arange(count)
    after = (at + 1) % count
    last = (len(rings) - 1) * count
    faces = [np.stack((last + at, last + after, np.full(count, len(vertices) - 1)), axis=1)]
    for ring in range(len(rings) - 1):
        low, high = ring * count, (ring + 1) * count
        faces.append(np.stack((low + at, low + after, high + after), axis=1))
        faces.append(np.stack((low + at, high + after, high + at), axis=1))
    return Tin.from_arrays(vertices, np.concatenate(faces))


def ring(half, z, centre=(20.0, 20.0)):
    corners = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * half + centre
    return np.column_stack((corners, np.full(4, z)))


GROUNDS = [
    Tin.from_arrays(square().vertices * (10, 10, 1) - (30, 30, 0), square().faces),
    sheet(80, 1.0, flat, turn=0.3, shift=(5.0, -20.0)),
    sheet(40, 1.0, flat),
    sheet(400, 0.25, flat, turn=0.7, shift=(20.0, -25.0)),
]


# --- solids ------------------------------------------------------------------------------------


def test_two_planes_that_cross():
    """z = x - 4 over 0 <= x <= 10, 10 wide: 6 x 6 / 2 x 10 above, 4 x 4 / 2 x 10 below."""
    total = integrate(square((-4, 6, 6, -4)), square()).total
    assert total.area[0] == close(100)
    assert total.area_above[0] == close(60) and total.area_below[0] == close(40)
    assert total.cut[0] == close(180) and total.fill[0] == close(80)
    assert total.least[0] == close(-4) and total.most[0] == close(6)
    assert total.net[0] == close(100) and total.area_level[0] == 0


@pytest.mark.parametrize("ground", GROUNDS)
def test_a_pyramid(ground):
    """Base 10 x 10, 3 high: 100 x 3 / 3, whatever mesh lies under it."""
    pyramid = stacked([ring(5, 0.0)])
    apex = pyramid.vertices.copy()
    apex[-1, 2] = 3.0
    total = integrate(Tin.from_arrays(apex, pyramid.faces), ground).total
    assert total.area[0] == close(100) and total.cut[0] == close(100)
    assert total.fill[0] == 0 and total.most[0] == close(3.0)


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("facets", [3, 12, 360])
def test_a_cone_of_facets(ground, facets):
    """A pyramid over a regular polygon: height / 3 x n / 2 r^2 sin(2 pi / n)."""
    angle = 2 * np.pi * np.arange(facets) / facets
    rim = np.column_stack((20 + 7 * np.cos(angle), 20 + 7 * np.sin(angle), np.zeros(facets)))
    cone = stacked([rim])
    vertices = cone.vertices.copy()
    vertices[-1] = (20.0, 20.0, -4.0)
    total = integrate(ground, Tin.from_arrays(vertices, cone.faces)).total
    base = facets / 2 * 49 * np.sin(2 * np.pi / facets)
    assert total.area[0] == close(base)
    assert total.cut[0] == close(4 / 3 * base)
    assert total.most[0] == close(4.0) and total.least[0] == close(0.0, 1e-9)


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("run", [0.001, 0.5, 1.5, 3.0])
def test_a_pit_with_battered_sides(ground, run):
    """A frustum: depth / 3 (bottom + top + sqrt(bottom x top)); a run of 0.001 is a step."""
    depth = 2.0
    pit = stacked([ring(15, 0.0), ring(5 + run * depth, 0.0), ring(5, -depth)])
    total = integrate(ground, pit).total
    bottom, top = 100.0, (10 + 2 * run * depth) ** 2
    assert total.area[0] == close(900)
    assert total.cut[0] == close(depth / 3 * (bottom + top + np.sqrt(bottom * top)))
    assert total.fill[0] == close(0.0, 1e-9) and total.area_above[0] == close(top, 1e-9)
    assert total.area_level[0] == close(900 - top, 1e-9)


def test_a_tilted_pair_of_planes_has_a_constant_difference():
    """A prism on a slope: plan area x plumb depth, on meshes that have nothing in common."""

    def slope(east, north):
        return 0.31 * east - 0.17 * north

    def lower(east, north):
        return slope(east, north) - 0.71

    one = sheet(33, 1.0, slope)
    other = sheet(70, 1.1, lower, turn=0.4, shift=(-4.0, -34.0))
    total = integrate(one, other).total
    assert total.area[0] == close(33**2) and total.cut[0] == close(0.71 * 33**2)
    assert total.least[0] == close(0.71) and total.most[0] == close(0.71)


# --- handbook examples -------------------------------------------------------------------------


def test_a_prismoid_of_the_handbook():
    """L 100 ft, areas 1504, 1860 in the middle and 2240 ft2: 6903.70 yd3.

    Source: engineering handbook, p. 412 (printed 6904). The prismoid is a wall-sided cut whose
    width and depth change evenly: 100 ft x 15.04 ft at one end; at the other w x 2240 / w with
    w = 137.15 ft, which makes 1860 in the middle.
    """
    wide = (3696 + np.sqrt(3696**2 - 4 * 15.04 * 224000)) / (2 * 15.04)
    plan = np.array([(0, -50), (100, -wide / 2), (100, wide / 2), (0, 50)])
    deep = np.array([15.04, 2240 / wide, 2240 / wide, 15.04])
    assert (100 + wide) / 2 * (15.04 + 2240 / wide) / 2 == pytest.approx(1860)
    pit = Tin.from_arrays(np.column_stack((plan, -deep)), [(0, 1, 2), (0, 2, 3)])
    ground = sheet(40, 5.0, flat, turn=0.2, shift=(0.0, -100.0))
    total = integrate(ground, pit).total
    assert total.cut[0] / YARD == close((1504 + 4 * 1860 + 2240) * 100 / 6 / YARD)
    assert f"{total.cut[0] / YARD:.2f}" == "6903.70"


def vose_cut():
    """A road cut of level sections: base 20 ft, sides 1 1/2:1, cuts 0-5-10-15-0 at 50 ft."""
    depth = np.array([0.0, 5.0, 10.0, 15.0, 0.0])
    station = 50.0 * np.arange(5)
    across = np.stack((-10 - 1.5 * depth, np.full(5, -10.0), np.full(5, 10.0), 10 + 1.5 * depth))
    # Where the cut is 0 the side has no width: its top is the edge of the base.
    height = np.stack((0 * depth, -depth, -depth, 0 * depth))
    vertices = np.column_stack((np.tile(station, 4), across.ravel(), height.ravel()))
    number = np.arange(20).reshape(4, 5)
    faces = []
    for strip, at in itertools.product(range(3), range(4)):
        a, b = number[strip, at], number[strip, at + 1]
        c, d = number[strip + 1, at + 1], number[strip + 1, at]
        faces += [(a, b, c), (a, c, d)]
    return Tin.from_arrays(vertices, faces)


@pytest.mark.parametrize("turn", [0.0, 0.5])
def test_level_sections_of_vose(turn):
    """52,500 ft3 by the prismoidal formula, which is exact for this solid.

    Source: Vose 1857, p. 83 (end areas: 56,250).
    """
    ground = sheet(60, 10.0, flat, turn, shift=(-50.0, -300.0))
    total = integrate(ground, vose_cut()).total
    assert total.cut[0] == close(52500.0)
    assert total.fill[0] == close(0.0, 1e-9)


# --- labels ------------------------------------------------------------------------------------


def labelled(count_one, count_other, cells=18):
    upper = sheet(cells, 9 / cells, lambda x, y: np.sin(x) + 0.2 * y)
    lower = sheet(12, 0.9, waves, turn=0.1, shift=(0.5, -0.6))
    rng = np.random.default_rng(0)
    one = rng.integers(-1, count_one, len(upper.faces))
    other = rng.integers(0, count_other, len(lower.faces))
    return upper, lower, one, other


@pytest.mark.parametrize("many", [1, 10**6])
def test_labels_add_up_to_the_total(many):
    """Also when there are so many that only those that occur have a place."""
    upper, lower, one, other = labelled(40, 50)
    if many > 1:
        upper, lower, one, other = labelled(many, many, 60)
    plain, told = integrate(upper, lower), integrate(upper, lower, one, other)
    for name in ("area", "area_above", "area_below", "cut", "fill", "least", "most"):
        expected = getattr(plain.total, name)[0]
        assert getattr(told.total, name)[0] == pytest.approx(expected, rel=1e-12, abs=1e-12)
    assert (np.diff(told.labels[:, 0]) >= 0).all()
    by_lower = told.of_lower(np.unique(other))
    assert by_lower.cut.sum() == pytest.approx(plain.total.cut[0], rel=1e-12)
    uncovered = told.uncovered_upper_of(np.unique(one)).sum()
    assert uncovered == pytest.approx(plain.uncovered_upper, rel=1e-9)


def test_each_label_is_what_its_faces_alone_give():
    upper, lower, one, other = labelled(3, 4)
    told = integrate(upper, lower, one, other)
    for label in (-1, 0, 2):
        alone = integrate(Tin(upper.vertices, upper.faces[one == label]), lower)
        found = told.of_upper([label])
        assert found.cut[0] == close(alone.total.cut[0])
        assert found.least[0] == close(alone.total.least[0])
        assert told.uncovered_upper_of([label])[0] == close(alone.uncovered_upper)
    under = integrate(upper, Tin(lower.vertices, lower.faces[other == 1])).total
    assert told.of_lower([3, 1]).fill[1] == close(under.fill[0])


def test_labels_that_do_not_occur_have_nothing():
    upper, lower, one, other = labelled(3, 4)
    told = integrate(upper, lower, one, other).of_upper([99, 0])
    assert told.area[0] == 0 and np.isnan(told.most[0])
    assert told.area[1] > 0


def test_volumes_count_in_plan_units():
    heavy = integrate(square((1, 1, 1, 1)), square(), z_scale=0.3048).total
    assert heavy.cut[0] == close(100 * 0.3048) and heavy.most[0] == close(1)


# --- what is not covered -----------------------------------------------------------------------


def test_nothing_shared():
    far = Tin.from_arrays(square().vertices + np.array((100, 0, 0)), square().faces)
    found = integrate(square(), far)
    assert found.total.area[0] == 0 and np.isnan(found.total.least[0])
    assert found.uncovered_upper == 100 and found.uncovered_lower == 100


def test_surfaces_that_only_touch_share_nothing():
    beside = Tin.from_arrays(square().vertices + np.array((10, 0, 0)), square().faces)
    assert integrate(square(), beside).total.area[0] == 0


def test_a_hole_is_not_covered():
    whole = stacked([ring(15, 1.0), ring(5, 1.0)])
    pierced = Tin(whole.vertices, whole.faces[4:])
    found = integrate(pierced, GROUNDS[1])
    assert found.total.area[0] == close(800) and found.total.cut[0] == close(800)
    assert found.uncovered_upper == close(0, 1e-9)
    assert integrate(whole, pierced).uncovered_upper == close(100)


def test_several_pieces():
    first = square((1, 1, 1, 1))
    second = first.vertices + np.array((20, 5, 1))
    both = Tin.from_arrays(
        np.concatenate((first.vertices, second)), np.concatenate((first.faces, first.faces + 4))
    )
    found = integrate(both, GROUNDS[0])
    assert found.total.area[0] == close(200) and found.total.cut[0] == close(300)


def test_upright_faces_count_for_nothing():
    """A wall between two terraces has no plan area and no volume above it."""
    vertices = [(0, 0, 1), (5, 0, 1), (5, 10, 1), (0, 10, 1)]
    vertices += [(5, 0, 3), (10, 0, 3), (10, 10, 3), (5, 10, 3)]
    faces = [(0, 1, 2), (0, 2, 3), (4, 5, 6), (4, 6, 7), (1, 4, 7), (1, 7, 2)]
    terraces = Tin.from_arrays(vertices, faces)
    assert terraces.without_plan_area.sum() == 2
    found = integrate(terraces, GROUNDS[1])
    shared = integrate(square(), GROUNDS[1]).total.area[0]
    assert found.total.area[0] == close(shared)
    exact = integrate(terraces, square()).total
    assert exact.cut[0] == close(50 + 150) and (exact.least[0], exact.most[0]) == (1, 3)


def test_faces_that_run_clockwise_are_turned():
    pyramid = stacked([ring(5, 2.0)])
    backwards = Tin(pyramid.vertices, pyramid.faces[:, ::-1])
    for pair in ((backwards, GROUNDS[1]), (GROUNDS[1], backwards)):
        total = integrate(*pair).total
        assert total.area[0] == close(100) and abs(total.net[0]) == close(200)


@pytest.mark.parametrize("turn", [0.0, 0.4, 2.1])
@pytest.mark.parametrize("first", [0, 1, 2])
def test_steep_needles_keep_their_planes(turn, first):
    """Strips 0.001 wide, 10 long and 700:1 steep, cut up differently above and below."""

    def needles(cuts, lift):
        x = np.repeat(np.linspace(0, 0.01, 11), cuts)
        y = np.tile(np.linspace(0, 10, cuts), 11)
        z = 700 * x + 0.1 * y + lift
        spun = np.column_stack((np.cos(turn) * x - np.sin(turn) * y, np.sin(turn) * x))
        spun[:, 1] += np.cos(turn) * y
        faces = np.roll(grid_faces(cuts, 11), first, axis=1)[:, ::-1]
        return Tin.from_arrays(np.column_stack((spun, z)), faces)

    total = integrate(needles(2, 0.5), needles(4, 0.0)).total
    assert total.area[0] == pytest.approx(0.1, rel=1e-10)
    assert total.cut[0] == pytest.approx(0.05, rel=1e-9)
    # 700 times the rounding of the coordinates themselves.
    assert total.least[0] == pytest.approx(0.5, abs=3e-12)
    assert total.most[0] == pytest.approx(0.5, abs=3e-12)


def test_labels_of_the_wrong_length_are_refused():
    with pytest.raises(ValueError, match="one label a face"):
        integrate(square(), square(), [0])


def test_progress_reaches_the_end_and_may_cancel():
    told = []
    integrate(GROUNDS[3], GROUNDS[1], progress=told.append)
    assert told == sorted(told) and told[-1] == 1.0 and len(told) > 10

    def stop(share):
        raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt):
        integrate(GROUNDS[3], GROUNDS[1], progress=stop)
