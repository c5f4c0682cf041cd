"""Sides of zones on a grid: closed forms, an independent definition, and windows."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.zones import Outside, resolve
from plugin.core.tolerance import Tolerance

from .grid_shapes import NODATA, centres, dug, grid_at, lowered, manner_of

PIT = shapely.box(1040.13, 1940.27, 1055.13, 1955.27)
SIDE, DEEP, RATIO = 15.0, 2.0, 1.5
NODED = 2e-5  # borders are noded on a grid of 2^-16, as those cut into a TIN


def plane(grid, slope=(0.0, 0.0), level=50.0):
    x, y = centres(grid)
    return level + slope[0] * (x - 1050) + slope[1] * (y - 1950)


def away(grid, box):
    """Distances past the sides of a box along x and y, and the nearest place in it."""
    x, y = centres(grid)
    west, south, east, north = box.bounds
    near_x, near_y = np.clip(x, west, east), np.clip(y, south, north)
    return np.abs(x - near_x), np.abs(y - near_y), near_x, near_y


@pytest.mark.parametrize("corners", ["mitre", "round"])
@pytest.mark.parametrize("rule", ["level", "design"])
def test_a_square_pit_in_a_level_design(rule, corners):
    """By hand: frustum with mitred corners d (a2 + 2 a n d + 4/3 (n d)2), rounded pi/3 (n d)2."""
    grid = grid_at((240, 240), (0.25, -0.25), left=1020.0, top=1975.0)
    z = plane(grid)
    low, tally = lowered(dug((PIT, DEEP, RATIO)), grid, z, manner_of(rule, corners))
    across, along, _, _ = away(grid, PIT)
    distance = np.maximum(across, along) if corners == "mitre" else np.hypot(across, along)
    assert np.abs(low - np.minimum(z, 48.0 + distance / RATIO)).max() < NODED / RATIO
    run = RATIO * DEEP
    share = 4 / 3 if corners == "mitre" else np.pi / 3
    volume = DEEP * (SIDE**2 + 2 * SIDE * run + share * run**2)
    assert (z - low).sum() * grid.pixel_area == pytest.approx(volume, rel=1e-3)
    outline = PIT.buffer(run, join_style=corners, quad_segs=64)
    wide = shapely.contains_xy(outline, *centres(grid))
    wide &= ~shapely.contains_xy(PIT, *centres(grid))
    assert abs(int(tally.sides[0]) - int(wide.sum())) <= 2
    assert tally.given_up == 0


@pytest.mark.parametrize("slope", [(0.1, 0.0), (0.05, -0.2), (0.3, 0.1), (-0.4, 0.25)])
def test_a_square_pit_in_a_tilted_design(slope):
    """By hand: in a section up a slope g the side runs d / (1 / n - g), down it d / (1 / n + g)."""
    grid = grid_at((200, 300))
    z = plane(grid, slope)
    low, _ = lowered(dug((PIT, DEEP, RATIO)), grid, z, manner_of("level", "mitre"))
    across, along, near_x, near_y = away(grid, PIT)
    x, y = centres(grid)

    def bottom(x, y):
        return 50 - DEEP + slope[0] * (x - 1050) + slope[1] * (y - 1950)

    planes = np.maximum(bottom(near_x, y) + across / RATIO, bottom(x, near_y) + along / RATIO)
    beside = bottom(near_x, near_y) + (across + along) / RATIO
    expected = np.minimum(z, np.where((across > 0) & (along > 0), planes, beside))
    assert np.abs(low - expected).max() < 2 * NODED
    row = int((2000 - 1947) / 0.5)  # a section through the middle of the pit
    changed = np.flatnonzero(z[row] - low[row] > 1e-9)
    west = PIT.bounds[0] - DEEP / (1 / RATIO + slope[0])
    east = PIT.bounds[2] + DEEP / (1 / RATIO - slope[0])
    inside = np.flatnonzero((x[row] > west) & (x[row] < east))
    assert changed[[0, -1]].tolist() == inside[[0, -1]].tolist()


def test_a_trench_across_a_crown():
    """By hand: both sections of a trench across a crowned road are those in a level road."""
    grid = grid_at((160, 200), (0.25, -0.25), left=1025.0, top=1970.0)
    x, y = centres(grid)
    z = 50.0 - 0.02 * np.abs(x - 1050.0)
    trench = shapely.box(1000.0, 1949.03, 1100.0, 1950.53)
    distance = np.maximum(1949.03 - y, y - 1950.53).clip(0)
    for rule in ("level", "design"):
        low, _ = lowered(dug((trench, 1.2, 1.0)), grid, z, manner_of(rule))
        off = np.abs((z - low) - np.maximum(1.2 - distance, 0))
        off[distance == 0] = np.abs((z - low)[distance == 0] - 1.2)
        # Between centres the crown is cut off by a quarter of a pixel times the break at most.
        beside = np.abs(x - 1050) < 0.25
        assert off[~beside].max() < NODED
        assert off[beside].max() < NODED + (0.25 * 0.25 * 0.04 if rule == "level" else 0)


@pytest.mark.parametrize("pixel", [(0.5, -0.5), (0.3, 0.8)])
def test_a_border_along_a_break_is_as_sharp_as_the_break(pixel):
    """By hand: a pit on a flat whose edge is the toe of a bank; bilinear heights are 0.02 off."""
    grid = grid_at((200, 300), pixel, top=2000 if pixel[1] < 0 else 1900)
    x, _ = centres(grid)
    z = 50 + 0.3 * np.maximum(x - 1055.13, 0)
    pit = shapely.box(1030, 1800, 1055.13, 2200)
    low, _ = lowered(dug((pit, 2.0, 1.5)), grid, z, manner_of("level"))
    distance = x - 1055.13
    expected = np.where(distance > 0, np.minimum(z, 48 + distance / 1.5), z)
    assert np.abs(low - expected)[x > 1055.13].max() < NODED


def test_a_batter_runs_in_plan_units_whatever_the_unit_of_heights():
    # Heights in metres, plan in feet: 1.5:1 in the same unit.
    grid = grid_at((120, 120), left=1020.0, top=1975.0)
    z = plane(grid)
    low, _ = lowered(dug((PIT, DEEP, RATIO)), grid, z, manner_of("level", z_scale=1 / 0.3048))
    across, along, _, _ = away(grid, PIT)
    expected = np.minimum(z, 48.0 + np.maximum(across, along) / RATIO * 0.3048)
    assert np.abs(low - expected).max() < NODED


def test_a_raised_zone_falls_off_outside_all_zones_only():
    grid = grid_at((200, 300))
    z = plane(grid)
    pad, pit = shapely.box(1030, 1930, 1050, 1960), shapely.box(1051.2, 1930, 1060, 1960)
    for rule in ("level", "design"):
        low, tally = lowered(dug((pad, -1.0, 2.0), (pit, 0.5, 1.0)), grid, z, manner_of(rule))
        across, along, _, _ = away(grid, pad)
        bank = np.maximum(z, 51.0 - np.maximum(across, along) / 2)
        across, along, _, _ = away(grid, pit)
        side = 49.5 + np.maximum(across, along)
        expected = np.minimum(bank, side)
        # The bottom of the pit is no bank, although the pad is near.
        inside = shapely.intersects_xy(pit, *centres(grid))
        expected[inside] = 49.5
        assert np.abs(low - expected)[~near(grid, pit, pad)].max() < NODED
        # A pixel that is filled by the bank and cut by the side belongs to the side alone.
        beside = ~inside & ~shapely.intersects_xy(pad, *centres(grid))
        cut, filled = ~inside & (side < bank), beside & (side >= bank) & (bank > z)
        assert tally.sides.tolist() == [filled.sum(), cut.sum()]
        assert (cut & beside & (bank > z)).any()


def test_no_side_goes_to_where_it_is_deeper():
    """By hand: past an upright trench in the bottom of a pit there is no side of the pit."""
    grid = grid_at((40, 60), (0.1, -0.1), left=1000.0, top=2000.0)
    z = plane(grid)
    x, _ = centres(grid)
    pit, trench = shapely.box(990, 1900, 1002, 2100), shapely.box(1002, 1900, 1002.5, 2100)
    for rule in ("level", "design"):
        low, _ = lowered(dug((pit, 1.0, 1.0), (trench, 2.0, 0.0)), grid, z, manner_of(rule))
        expected = np.select([x < 1002, x < 1002.5], [49.0, 48.0], 50.0)
        assert np.abs(low - np.where(x < 1002.5, z - 50 + expected, z)).max() < 1e-9


def test_sides_stay_where_the_design_is_left_out():
    grid = grid_at((200, 300))
    z = plane(grid)
    for rule in ("level", "design"):
        kept, _ = lowered(dug((PIT, DEEP, RATIO)), grid, z, manner_of(rule))
        low, tally = lowered(
            dug((PIT, DEEP, RATIO)), grid, z, manner_of(rule), outside=Outside.LEAVE_OUT
        )
        assert np.array_equal(low, np.where(kept < z, kept, NODATA))
        assert tally.highest < 50


def near(grid, *shapes):
    points = shapely.points(*centres(grid))
    borders = shapely.union_all([shape.boundary for shape in shapes])
    return shapely.distance(points, borders) < 1e-4


def test_a_sharp_corner_is_mitred_up_to_its_limit_and_rounded_past_it():
    grid = grid_at((200, 300), top=2000.25)  # a row of centres on the axis
    z = plane(grid)
    for wide, mitred in ((40.0, True), (20.0, False)):  # 1 / sin(20 deg) = 2.9, of 10 deg 5.8
        half = np.radians(wide / 2)
        tip = np.array([1080.0, 1950.0])
        spread = 30 * np.array([[-np.cos(half), np.sin(half)], [-np.cos(half), -np.sin(half)]])
        wedge = shapely.Polygon([tip, *(tip + spread)])
        low, _ = lowered(dug((wedge, 1.0, 2.0)), grid, z, manner_of("design"))
        x, y = centres(grid)
        reach = x[(z - low > 1e-9) & (np.abs(y - 1950) < 0.3)].max() - tip[0]
        expected = 2.0 / np.sin(half) if mitred else 2.0
        assert reach == pytest.approx(expected, abs=0.5)


def test_a_side_ends_where_it_first_meets_the_ground():
    """It never cuts the hill that stands behind the place where it has come out."""
    grid = grid_at((100, 300))
    x, _ = centres(grid)
    z = 50.0 + np.where(np.abs(x - 1100) < 10, 30.0, 0.0)
    pit = shapely.box(1060, 1900, 1070, 2100)
    low, _ = lowered(dug((pit, 2.0, 1.5)), grid, z, manner_of("level"))
    assert (low[:, x[0] > 1073.6] == z[:, x[0] > 1073.6]).all()
    assert (low[:, np.abs(x[0] - 1071.75) < 0.3] < 49.5).all()


def test_a_side_that_meets_nothing_is_given_up_and_counted():
    grid = grid_at((40, 3000))
    x, _ = centres(grid)
    z = 50.0 + 0.8 * (x - 1000)
    pit = shapely.box(1010, 1900, 1020, 2100)
    _, tally = lowered(dug((pit, 2.0, 1.5)), grid, z, manner_of("level"))
    assert tally.given_up > 0


@given(st.integers(0, 10**6), st.sampled_from(["mitre", "round"]))
@settings(max_examples=40, deadline=None)
def test_rule_design_is_its_definition(seed, corners):
    """Reference library: shapely's distance of points from polygons (round corners)."""
    rng = np.random.default_rng(seed)
    grid = grid_at((60, 80))
    z = rng.uniform(40, 60, (60, 80))
    shapes = [star(rng) for _ in range(3)]
    depths = rng.uniform(0.3, 3.0, 3)
    if corners == "round":
        depths *= rng.choice([1, 1, 1, -1], 3)
    zones = dug(*zip(shapes, depths, [1.3] * 3, strict=True))
    zones = resolve(zones_with_priority(zones), Tolerance())
    low, _ = lowered(zones, grid, z, manner_of("design", corners))
    points = shapely.points(*centres(grid))
    distance = np.array([shapely.distance(points, shape) for shape in zones.polygons])
    inside = distance == 0
    base = np.zeros(z.shape)
    for row in range(3):
        base[inside[row]] = depths[row]
    banks = [np.minimum(d + away / 1.3, 0) for d, away in zip(depths, distance, strict=True)]
    raised = np.min(banks, axis=0)
    base = np.where(inside.any(axis=0), base, raised)
    cuts = [d - away / 1.3 for d, away in zip(depths, distance, strict=True) if d > 0]
    expected = np.maximum.reduce([base, *cuts])
    borders = np.array([shapely.distance(points, shape.boundary) for shape in zones.polygons])
    sure = (borders > 1e-4).all(axis=0)
    if (depths < 0).any():
        # The bank of a raised zone may also be stopped by the zones beside it.
        sure &= inside.any(axis=0) | (raised == 0)
    off = np.abs((z - low) - expected)[sure]
    if corners == "round":
        assert off.max(initial=0) < NODED
    else:  # mitres reach farther, never less
        assert ((z - low) - expected)[sure].min(initial=0) > -NODED


def zones_with_priority(zones):
    return replace(zones, priority=np.arange(float(len(zones))))


def star(rng, middle=None):
    turn = np.sort(rng.uniform(0, 2 * np.pi, rng.integers(4, 14)))
    size = rng.uniform(3, 9) * rng.uniform(0.4, 1, len(turn))
    middle = middle or (1000 + rng.uniform(5, 35), 2000 - rng.uniform(5, 25))
    ring = np.column_stack([np.cos(turn), np.sin(turn)]) * size[:, None] + middle
    return max(shapely.get_parts(shapely.make_valid(shapely.Polygon(ring))), key=shapely.area)


@given(
    st.integers(0, 10**6),
    st.lists(st.integers(1, 59), max_size=5),
    st.lists(st.integers(1, 79), max_size=3),
    st.sampled_from(["level", "design"]),
    st.sampled_from(["mitre", "round"]),
    st.sampled_from(list(Outside)),
    st.sampled_from([0, 5]),
    st.sampled_from([(0.5, -0.5), (0.5, 0.4), (0.3, -0.8)]),
)
@settings(max_examples=60, deadline=None)
def test_windows_do_not_matter(seed, rows, columns, rule, corners, outside, carry, pixel):
    """A raster cut in windows anyhow joins bit for bit, and counts the same."""
    rng = np.random.default_rng(seed)
    grid = grid_at((60, 80), pixel, top=2000 if pixel[1] < 0 else 1970)
    x, y = centres(grid)
    z = 50 + 0.2 * (x - 1020) - 0.1 * (y - 1985) + rng.normal(0, 0.05, (60, 80))
    z = z.astype(rng.choice([np.float32, np.float64]))
    if rng.random() < 0.7:
        z[rng.integers(40) :, rng.integers(60) :] = NODATA
        z[rng.random((60, 80)) < 0.02] = NODATA
    depths = rng.uniform(-1, 2, 3)
    batters = rng.choice([0.0, 1.0, 2.5], 3)
    zones = dug(*zip([star(rng) for _ in range(3)], depths, batters, strict=True),
                squares=rng.choice([0.0, 0.6], 3))  # fmt: skip
    zones = resolve(zones_with_priority(zones), Tolerance())
    how = {"outside": outside, "depth": 0.3, "carry": carry}
    whole, tally = lowered(zones, grid, z, manner_of(rule, corners), **how)
    parts, tally_of_parts = lowered(
        zones, grid, z, manner_of(rule, corners), rows=rows, columns=columns, **how
    )
    assert whole.tobytes() == parts.tobytes()
    for name in ("pixels", "sides"):
        assert np.array_equal(getattr(tally, name), getattr(tally_of_parts, name))
    for name in ("carried", "bare", "lowest", "highest", "clashes", "clash"):
        assert getattr(tally, name) == getattr(tally_of_parts, name)
