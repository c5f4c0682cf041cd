"""Side rules: the same side however a line is drawn, and never a guess."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.prove import side_of_points
from plugin.core.lines.reference import Reference
from plugin.core.lines.sides import Basis, Rule, judge

from .lines_shapes import SQUARE, brute_signed, lines_of, turned, wander

LINE = [(0, 0), (40, 0), (100, 5)]
OPPOSITE = {
    Rule.TOWARD: Rule.AWAY,
    Rule.INSIDE: Rule.OUTSIDE,
    Rule.UPHILL: Rule.DOWNHILL,
    Rule.STEEPER: Rule.FLATTER,
}


def verdict(rule, basis, *lines, distance=1.0):
    packed = lines_of(*lines)
    return judge(packed, [rule] * len(packed), np.full(len(packed), distance), basis)


def to(*wkts):
    return Basis(Reference([shapely.from_wkt(w) for w in wkts]))


def ground(function):
    return Basis(sample=lambda xy: function(xy[:, 0], xy[:, 1]))


def bend(x):
    """Return the ordinate of `LINE` at x."""
    return np.maximum(x - 40, 0) / 12


# From drawing plans: what is north of an eastbound line is on its left.
CASES = [
    (Rule.TOWARD, to("POINT (50 30)"), -1),
    (Rule.TOWARD, to("POINT (50 -30)"), 1),
    (Rule.TOWARD, to("LINESTRING (0 20, 100 25)", "LINESTRING (0 -90, 100 -90)"), -1),
    (Rule.TOWARD, to("POLYGON ((0 -50, 100 -50, 100 -10, 0 -10, 0 -50))"), 1),
    (Rule.INSIDE, to("POLYGON ((0 0, 40 0, 100 5, 100 50, 0 50, 0 0))"), -1),
    (Rule.UPHILL, ground(lambda x, y: 100 + 0.02 * y + 0.1 * x), -1),
    (Rule.UPHILL, ground(lambda x, y: np.where(y > 0.03 * x + 2, 1000.0, 0.06 * y)), -1),
    (Rule.STEEPER, ground(lambda x, y: np.where(y > bend(x), 0.03, 0.09) * (y - bend(x))), 1),
    (Rule.COMPASS, Basis(bearing=0.0), -1),
    (Rule.COMPASS, Basis(bearing=180.0), 1),
    (Rule.COMPASS, Basis(bearing=135.0), 1),
]


@pytest.mark.parametrize(("rule", "basis", "side"), CASES)
def test_each_rule_and_its_opposite_both_ways_drawn(rule, basis, side):
    lines = (LINE, LINE[::-1])
    found = verdict(rule, basis, *lines)
    assert found.code == ["", ""]
    assert found.side.tolist() == [side, -side]
    assert (found.share > 0.95).all()
    if rule in OPPOSITE:
        other = verdict(OPPOSITE[rule], basis, *lines)
        assert other.side.tolist() == [-side, side] and other.code == ["", ""]


def test_right_and_left_go_with_the_line():
    assert verdict(Rule.RIGHT, Basis(), LINE, LINE[::-1]).side.tolist() == [1, 1]
    assert verdict(Rule.LEFT, Basis(), LINE).side.tolist() == [-1]


BOX = "POLYGON ((-50 -50, 150 -50, 150 90, -50 90, -50 -50))"
AMBIGUOUS = [
    ("crosses", Rule.TOWARD, to("LINESTRING (50 -5, 50 9)"), LINE),
    ("crosses", Rule.AWAY, to("POLYGON ((60 -9, 140 -9, 140 60, 60 60, 60 -9))"), LINE),
    ("swaps", Rule.TOWARD, to("LINESTRING (0 9, 40 9)", "LINESTRING (60 -9, 100 -9)"), LINE),
    ("touches", Rule.TOWARD, to("LINESTRING (0 0, 40 0, 100 5)"), LINE),
    ("touches", Rule.TOWARD, to(BOX), LINE),
    ("tie", Rule.TOWARD, to("LINESTRING (0 9, 100 9)", "LINESTRING (0 -9, 100 -9)"), LINE[:2]),
    ("tie", Rule.TOWARD, to("LINESTRING (0 9, 100 9)", "LINESTRING (0 -9.5, 100 -9.5)"), LINE[:2]),
    ("beyond", Rule.TOWARD, to("POINT (170 12)"), LINE),
    ("both_inside", Rule.INSIDE, to(BOX), LINE),
    ("both_outside", Rule.OUTSIDE, to("POINT (0 0)", "POLYGON ((0 9, 9 9, 9 19, 0 9))"), LINE),
    ("flat", Rule.UPHILL, ground(lambda x, _: 0 * x), LINE),
    ("flat", Rule.UPHILL, ground(lambda _, y: 0.001 * y), LINE),
    ("flat", Rule.UPHILL, ground(lambda x, _: 0.2 * x), LINE[:2]),
    ("valley", Rule.UPHILL, ground(lambda _, y: 0.05 * np.abs(y)), LINE[:2]),
    ("ridge", Rule.DOWNHILL, ground(lambda _, y: -0.05 * np.abs(y)), LINE[:2]),
    ("even", Rule.STEEPER, ground(lambda _, y: 0.05 * y), LINE[:2]),
    ("no_surface", Rule.UPHILL, ground(lambda _, y: np.where(y > 0.2, np.nan, y)), LINE[:2]),
    ("no_surface", Rule.UPHILL, ground(lambda x, y: np.where(x > 70, np.nan, y)), LINE),
    ("swaps", Rule.UPHILL, ground(lambda x, y: np.where(x > 50, y, -y)), LINE),
    ("along_wind", Rule.COMPASS, Basis(bearing=90.0), LINE),
    ("turns", Rule.COMPASS, Basis(bearing=0.0), [(0, 0), (30, 0), (30, 30), (0, 30)]),
    ("turns", Rule.COMPASS, Basis(bearing=0.0), SQUARE),
]


@pytest.mark.parametrize(("code", "rule", "basis", "line"), AMBIGUOUS)
def test_what_cannot_be_known_is_said(code, rule, basis, line):
    found = verdict(rule, basis, line, line[::-1])
    assert found.code == [code] * 2
    for why in found.why:
        assert why.endswith(".") and "{" not in why
        assert "say right or left" in why
    assert np.isfinite(found.place).all()


def test_a_valley_with_one_clear_slope_has_an_uphill_side():
    basis = ground(lambda _, y: np.where(y > 0, 0.3 * y, -0.02 * y))
    assert verdict(Rule.UPHILL, basis, LINE[:2]).side.tolist() == [-1]


def test_heights_in_another_unit_than_the_plan():
    feet_up = ground(lambda _, y: 0.006 * y)
    in_metres = Basis(sample=feet_up.sample, z_scale=0.3048)
    assert verdict(Rule.UPHILL, feet_up, LINE[:2]).code == [""]
    assert verdict(Rule.UPHILL, in_metres, LINE[:2]).code == ["flat"]


def test_the_weakest_place_is_where_the_side_changes():
    basis = to("LINESTRING (0 9, 90 9)", "LINESTRING (92 -1, 100 -1)")
    found = verdict(Rule.TOWARD, basis, [(0, 0), (100, 0)])
    assert found.code == ["swaps"]
    assert 85 < found.station[0] <= 100


def test_a_stated_share_decides():
    basis = ground(lambda x, y: np.where(x > 80, np.nan, y))
    line = [(0, 0), (100, 0)]
    assert verdict(Rule.UPHILL, basis, line).code == ["no_surface"]
    lower = Basis(sample=basis.sample, min_share=0.75)
    found = verdict(Rule.UPHILL, lower, line)
    assert found.code == [""] and found.share[0] == pytest.approx(0.8, abs=0.03)


@pytest.mark.parametrize(("far", "code"), [(94.0, ["swaps"]), (99.5, [""])])
def test_a_short_end_on_the_other_side_is_enough_to_flag(far, code):
    """More than 2 % of the length, whatever the stated share."""
    basis = ground(lambda x, y: np.where(x > far, -y, y))
    assert verdict(Rule.UPHILL, basis, [(0, 0), (100, 0)]).code == code


def test_inside_at_the_offset_itself():
    """A strip 3 wide holds a guideline at 1, not one at 5."""
    strip = to("POLYGON ((0 0, 100 0, 100 3, 0 3, 0 0))")
    assert verdict(Rule.INSIDE, strip, [(0, 0), (100, 0)]).code == [""]
    assert verdict(Rule.INSIDE, strip, [(0, 0), (100, 0)], distance=5).code == ["both_outside"]


@pytest.mark.parametrize("drawn", [1, -1])
def test_rings(drawn):
    ring = SQUARE[::drawn]
    inner = to("POINT (5 5)")
    outer = to("POLYGON ((-3 -3, 13 -3, 13 13, -3 13, -3 -3), (0 0, 10 0, 10 10, 0 10, 0 0))")
    for rule, basis, side in (
        (Rule.TOWARD, inner, -1),
        (Rule.INSIDE, outer, 1),
        (Rule.OUTSIDE, to("POLYGON ((0 0, 10 0, 10 10, 0 10, 0 0))"), 1),
    ):
        found = verdict(rule, basis, ring)
        assert found.code == [""] and found.side.tolist() == [side * drawn]


@settings(max_examples=120, deadline=None)
@given(
    seed=st.integers(0, 100_000),
    degrees=st.floats(0, 360),
    mirror=st.booleans(),
    back=st.booleans(),
    shift=st.sampled_from([0.0, 1e7]),
)
def test_sides_turn_with_the_world(seed, degrees, mirror, back, shift):
    """Turned and moved: the same. Mirrored or drawn back: the other side. Codes never change."""
    rng = np.random.default_rng(seed)
    line = wander(seed, count=15, bend=0.25)
    middle = line[7, :2]
    points = middle + rng.normal(0, 12, (2, 2))
    sign = (-1 if mirror else 1) * (-1 if back else 1)

    def world(xy):
        xy = np.asarray(xy, float) * ((1, -1) + (1,) * (np.shape(xy)[1] - 2) if mirror else 1)
        moved = turned(xy, degrees)
        moved[:, :2] += shift
        return moved

    there = lines_of(line)
    here = lines_of(world(line)[:: -1 if back else 1])
    at_there = Basis(Reference(shapely.points(points)))
    at_here = Basis(Reference(shapely.points(world(points)[:, :2])))
    one = judge(there, [Rule.TOWARD], np.ones(1), at_there)
    two = judge(here, [Rule.TOWARD], np.ones(1), at_here)
    assert (two.side * sign).tolist() == one.side.tolist()
    assert two.code == one.code
    assert two.share == pytest.approx(one.share, abs=1e-9)


@settings(max_examples=200, deadline=None)
@given(st.integers(0, 1_000_000))
def test_a_settled_side_is_nearer_to_the_reference(seed):
    """Independent of votes and normals: the guideline's mean distance from the point is less."""
    rng = np.random.default_rng(seed)
    line = wander(seed, count=10, bend=0.4)
    point = line[5, :2] + rng.normal(0, 8, 2)
    packed = lines_of(line)
    found = judge(packed, [Rule.TOWARD], np.ones(1), Basis(Reference([shapely.Point(point)])))
    if found.code == [""]:
        assert np.sign(brute_signed(packed.xy, [point])[0]) == found.side[0]


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 1_000_000), st.booleans())
def test_points_beside_spiky_lines(seed, closed):
    """The pseudo-normal against a plain rule for corners, point by point."""
    rng = np.random.default_rng(seed)
    t = np.sort(rng.uniform(0, 2 * np.pi, 12))
    radius = rng.uniform(2, 9, 12)
    star = np.column_stack([radius * np.cos(t), radius * np.sin(t)])
    line = np.vstack([star, star[:1]]) if closed else star
    lines = lines_of(line)
    points = rng.uniform(-12, 12, (60, 2))
    points = points[shapely.distance(shapely.points(points), lines.geometries[0]) > 1e-6]
    side, _, beyond = side_of_points(lines, np.zeros(len(points), int), points)
    expected = np.sign(brute_signed(lines.xy, points))
    assert (side[~beyond] == expected[~beyond]).all()
    if closed and shapely.Polygon(line).is_valid:
        assert not beyond.any()
        within = shapely.contains_xy(shapely.Polygon(line), *points.T)
        ring = shapely.is_ccw(shapely.LinearRing(line))
        assert ((side == (-1 if ring else 1)) == within).all()


def test_beyond_open_ends_there_is_no_side():
    lines = lines_of([(0, 0), (10, 0)])
    points = np.array([(14, 1), (14, -1), (11, 3), (11, -3), (-4, 1), (5, 2)])
    side, station, beyond = side_of_points(lines, np.zeros(6, int), points)
    assert side.tolist() == [0, 0, -1, 1, 0, -1]
    assert beyond.tolist() == [True, True, False, False, True, False]
    assert station.tolist() == [10, 10, 10, 10, 0, 5]


def test_rules_need_what_they_look_at():
    lines = lines_of(LINE)
    with pytest.raises(ValueError, match="reference"):
        judge(lines, [Rule.TOWARD], np.ones(1), Basis())
    with pytest.raises(ValueError, match="surface"):
        judge(lines, [Rule.UPHILL], np.ones(1), Basis())
