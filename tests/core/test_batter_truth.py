"""Sides against brute force: heights worked out point by point from distances and feet."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.manner import BatterRule, Corners
from plugin.core.tin.cut import cut_tin

from .batter_shapes import TOLERANCE, dug, heights_at, largest_jump, mesh_problems, pits, plane
from .cut_shapes import sheet

SEEDS = st.integers(0, 1 << 40)


def rough(random, count=20, size=2.0, relief=0.3):
    """A random surface, gentle enough for each side to meet it once."""
    return sheet(
        count, count, size, 0.2, int(random.integers(1 << 30)), height=lambda plan: (
            100 + relief * np.sin(plan[:, 0] / 4) + random.uniform(0, 0.1, len(plan))
        )
    )  # fmt: skip


def star(random, middle, least, most, corners, grid=0.125):
    """A polygon around a point, its corners on the grid of noding."""
    angle = np.sort(random.uniform(0, 2 * np.pi, corners))
    radius = random.uniform(least, most, corners)
    points = middle + radius[:, None] * np.column_stack((np.cos(angle), np.sin(angle)))
    shape = shapely.Polygon(np.round(points / grid) * grid)
    return (
        shape if shape.is_valid and shape.area > 0.5 else shapely.box(*(middle - 1), *(middle + 1))
    )


def hull(random, middle, least, most, corners):
    return shapely.convex_hull(star(random, middle, least, most, corners))


def feet(polygon, points):
    """Yield rows of points, their feet on edges or their outward corners, and the distances."""
    polygon = shapely.orient_polygons(polygon)
    for ring in (polygon.exterior, *polygon.interiors):
        corners = shapely.get_coordinates(ring)
        ways = np.diff(corners, axis=0) / np.hypot(*np.diff(corners, axis=0).T)[:, None]
        for k, (start, stop, way) in enumerate(zip(corners[:-1], corners[1:], ways, strict=True)):
            out, following = np.array((way[1], -way[0])), ways[(k + 1) % len(ways)]
            along, beside = (points - start) @ way, (points - start) @ out
            on = np.flatnonzero((along >= 0) & ((points - stop) @ way <= 0) & (beside > 0))
            yield on, start + along[on, None] * way, beside[on]
            if way[0] * following[1] - way[1] * following[0] > 0:
                off = points - stop
                near = np.flatnonzero((off @ way >= 0) & (off @ following <= 0))
                yield near, np.tile(stop, (len(near), 1)), np.hypot(*off[near].T)


def points_on(tin, random, count=400):
    west, south, east, north = tin.extent
    return random.uniform((west + 1, south + 1), (east - 1, north - 1), (count, 2))


def no_nearer_than(points, zones, distance):
    """Leave out points beside borders, which the cut may move a little."""
    away = [shapely.distance(shapely.boundary(z), shapely.points(points)) for z in zones.polygons]
    return points[np.min(away, axis=0) > distance]


@settings(max_examples=20, deadline=None)
@given(SEEDS)
def test_depth_below_the_design_lessens_with_the_distance_from_the_zone(seed):
    """Rule `design`, round: depth = most of (depth - distance / n) over the zones."""
    random = np.random.default_rng(seed)
    tin = rough(random, relief=2.0)
    middles = ((10, 10), (26, 12), (18, 27))
    run = random.choice([0.5, 1.0, 2.0, 5.0])
    rows = [
        (star(random, np.array(middle), 1, 7, int(random.integers(3, 9))), depth, run)
        for middle, depth in zip(middles, random.uniform(0.2, 2.0, 3), strict=True)
    ]
    made = rows[:1]
    for shape, depth, batter in rows[1:]:
        taken = shapely.union_all([one for one, _, _ in made])
        made.append((shape.difference(taken), depth, batter))
    zones = pits(*made)
    patch, before, _ = dug(tin, zones, rule=BatterRule.DESIGN, corners=Corners.ROUND)
    assert mesh_problems(patch, before) == []
    # With a side on every edge nothing is left of the steps there were.
    assert largest_jump(before) > 0.1 and largest_jump(patch) < 1e-9 * 100
    points = no_nearer_than(points_on(tin, random), zones, 1e-3)
    height, design, _ = heights_at(patch, points, tin)
    wanted = np.zeros(len(points))
    for shape, depth, batter in made:
        away = shapely.distance(shape, shapely.points(points))
        wanted = np.maximum(wanted, np.where(away == 0, depth, depth - away / batter))
    # The chords of cones, and corners made by the difference of zones off the grid of noding.
    assert design - height == pytest.approx(wanted, abs=(TOLERANCE.chord + 3e-4) / run)


@settings(max_examples=25, deadline=None)
@given(SEEDS)
def test_sides_run_the_ratio_above_the_level_of_their_foot(seed):
    """Rule `level`, round: height of the bottom at the foot, and distance / n."""
    random = np.random.default_rng(seed)
    tin = rough(random)
    run = random.choice([0.5, 1.0, 2.0])
    depth = random.uniform(0.2, 2.0)
    shape = star(random, np.array((19.0, 19.0)), 2, 12, int(random.integers(3, 9)))
    if random.random() < 0.5 and shape.buffer(-3).area > 1:
        spot = shape.buffer(-3).representative_point()
        inner = star(random, np.array((spot.x, spot.y)), 1, 2.5, 5)
        shape = shape.difference(inner)
    if shape.geom_type != "Polygon":
        return
    zones = pits((shape, depth, run))
    patch, before, outcome = dug(tin, zones, corners=Corners.ROUND)
    assert mesh_problems(patch, before) == []
    # On uneven feet sections of neighbouring edges may differ a little at inward corners.
    assert largest_jump(before) > 0.1 and largest_jump(patch) < 0.01
    points = no_nearer_than(points_on(tin, random), zones, 1e-3)
    points = points[~shapely.contains(shape, shapely.points(points))]
    height, design, _ = heights_at(patch, points, tin)
    wanted = design.copy()
    for row, foot, away in feet(shape, points):
        bottom = tin.sample(foot)[0] - depth
        wanted[row] = np.minimum(wanted[row], bottom + away / run)
    # The chords of cones lie within them; nothing else differs, but for what the cut has moved,
    # and, where the foot is uneven, strips that go on to the line where they meet the next one.
    moved = 3 * cut_tin(tin, zones.polygons, TOLERANCE).largest_move / run + 1e-9 * 40
    off = height - wanted
    assert ((off > -moved) & (off < TOLERANCE.chord / run + moved)).mean() > 0.98
    assert np.abs(off).max() < 0.01
    assert outcome.crooked == 0


@settings(max_examples=60, deadline=None)
@given(SEEDS)
def test_mitred_sides_of_a_convex_pit_are_the_upper_one_of_their_planes(seed):
    """Rule `level` under a tilted plane: exact to 1e-9 of the extent."""
    random = np.random.default_rng(seed)
    slope = random.uniform(-0.05, 0.05, 2)
    tin = plane(slope=slope)
    depth, run = random.uniform(0.5, 3), random.choice([0.5, 1.0, 1.5])
    shape = hull(random, np.array((20.0, 20.0)), 4, 9, 5)
    zones = pits((shape, depth, run))
    patch, before, _ = dug(tin, zones, corners=Corners.MITRE, mitre_limit=1e3)
    assert mesh_problems(patch, before) == []
    ring = shapely.get_coordinates(shapely.orient_polygons(shape).exterior)
    ways = np.diff(ring, axis=0) / np.hypot(*np.diff(ring, axis=0).T)[:, None]
    turns = [a[0] * b[1] - a[1] * b[0] for a, b in pairwise([*ways, ways[0]])]
    if min(turns) < 0.2:
        return  # the planes may meet beside the corner, which is then rounded
    points = points_on(tin, random)
    points = points[~shapely.intersects(shape.buffer(1e-6), shapely.points(points))]
    height, design, _ = heights_at(patch, points, tin)
    side = np.full(len(points), -np.inf)
    for start, way in zip(ring[:-1], ways, strict=True):
        off = points - start
        foot = 100 + start @ slope - depth
        rise = foot + (off @ way) * (way @ slope) + off @ (way[1], -way[0]) / run
        side = np.maximum(side, rise)
    assert np.abs(height - np.minimum(design, side)).max() < 1e-9 * 40
