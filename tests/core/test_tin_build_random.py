"""Built surfaces on drawn points and lines: what must hold of every one."""

import numpy as np
import shapely
from hypothesis import given
from hypothesis import strategies as st
from scipy.spatial import Delaunay

from .build_shapes import SNAP, assert_honoured, assert_sound, build, not_delaunay

SIZE = 12
SPOT = st.tuples(st.integers(0, SIZE), st.integers(0, SIZE))
# Few whole numbers: most points lie on lines and in circles with others, and lines over points.
SPOTS = st.lists(SPOT, min_size=3, max_size=40, unique=True)
LINES = st.lists(st.lists(SPOT, min_size=2, max_size=5), max_size=8)


def plane(plan):
    return 5.0 + 0.25 * plan[:, 0] - 0.125 * plan[:, 1]


def laid(spots, turn=0.0, shift=0.0):
    """Return spots on a plane, turned about the origin and moved."""
    plan = np.array(spots, dtype=float).reshape(-1, 2)
    z = plane(plan)
    way = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    return np.column_stack((plan @ way + shift, z))


def proper(lines):
    """Return the lines without vertices repeated one after the other."""
    cleaned = [
        [a for a, b in zip(line, [None, *line[:-1]], strict=True) if a != b] for line in lines
    ]
    return [line for line in cleaned if len(line) > 1]


def spans(spots, lines):
    plan = np.array([*spots, *(spot for line in lines for spot in line)], dtype=float)
    hull = shapely.convex_hull(shapely.multipoints(plan))
    return hull.area if hull.geom_type == "Polygon" else 0.0


@given(SPOTS, LINES, st.sampled_from([0.0, 0.3, 1.234]), st.sampled_from([0.0, 1e7]))
def test_lines_on_a_plane_are_all_honoured_and_the_rest_is_delaunay(spots, lines, turn, shift):
    lines = proper(lines)
    area = spans(spots, lines)
    if not area:
        return
    xyz, given_lines = laid(spots, turn, shift), [laid(line, turn, shift) for line in lines]
    built = build(xyz, given_lines)
    assert not built.findings
    assert np.isclose(built.honoured, built.given)
    assert_sound(built.tin, area)
    # A vertex at a turned place may be off by rounding, and is then one with the other.
    if turn == 0.0:
        assert_honoured(built.tin, given_lines)
        exact = plane(built.tin.vertices[:, :2] - shift)
        assert np.abs(built.tin.vertices[:, 2] - exact).max() < 1e-6
    assert not not_delaunay(built.tin, given_lines)


@given(SPOTS, LINES, st.randoms(use_true_random=False))
def test_nothing_depends_on_the_order_or_on_the_place(spots, lines, random):
    lines = proper(lines)
    if not spans(spots, lines):
        return
    # Heights at random, so that lines disagree here and there.
    heights = {spot: random.choice([0.0, 0.0, 0.0, 1.0]) for line in lines for spot in line}
    own = [[(*spot, heights[spot]) for spot in line] for line in lines]
    points = [(*spot, random.choice([0.0, 1.0])) for spot in spots]
    one = build(points, own)
    random.shuffle(points)
    turned = [line[::-1] if random.random() < 0.5 else line for line in own]
    random.shuffle(turned)
    other = build(points, turned)
    assert one.tin.vertices.tobytes() == other.tin.vertices.tobytes()
    assert one.tin.faces.tobytes() == other.tin.faces.tobytes()
    places = [[(f.code, f.place) for f in built.findings] for built in (one, other)]
    assert sorted(places[0]) == sorted(places[1])
    assert np.isclose(one.honoured, other.honoured)
    far = [[(x + 10_000_000.0, y + 10_000_000.0, z) for x, y, z in rows] for rows in own]
    moved = build([(x + 10_000_000.0, y + 10_000_000.0, z) for x, y, z in points], far)
    assert np.isclose(moved.honoured, one.honoured)
    assert (moved.crossings, moved.conflicts) == (one.crossings, one.conflicts)
    # Where lines cross the rounding of the place counts among vertices that lie in one circle.
    if not one.crossings:
        assert moved.tin.faces.tobytes() == one.tin.faces.tobytes()


@given(st.integers(0, 10_000), st.floats(0.0, 6.3))
def test_turning_the_site_turns_the_surface(seed, turn):
    rng = np.random.default_rng(seed)
    plan, ends = rng.uniform(0, 100, (40, 2)), rng.uniform(0, 100, (5, 3, 2))
    way = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])

    def faces(matrix):
        built = build(
            np.column_stack((plan @ matrix, plane(plan))),
            [np.column_stack((line @ matrix, plane(line))) for line in ends],
        )
        corners = (built.tin.vertices[built.tin.faces, :2] @ matrix.T).round(5) + 0.0  # -0.0 is 0.0
        return {frozenset(map(tuple, face)) for face in corners.tolist()}

    assert faces(np.eye(2)) == faces(way)


@given(st.integers(0, 10_000))
def test_without_lines_it_is_the_triangulation_of_scipy(seed):
    rng = np.random.default_rng(seed)
    plan = rng.uniform(0, 100, (60, 2))
    built = build(np.column_stack((plan, rng.uniform(0, 5, 60))))
    order = np.lexsort((plan[:, 1], plan[:, 0]))
    ours = {tuple(sorted(face)) for face in built.tin.faces.tolist()}
    theirs = {tuple(sorted(face)) for face in Delaunay(plan[order]).simplices.tolist()}
    assert ours == theirs


@given(st.integers(0, 10_000), st.integers(2, 9))
def test_every_crossing_at_different_heights_is_reported_and_no_other(seed, count):
    rng = np.random.default_rng(seed)
    ends = rng.uniform(0, 100, (count, 2, 2))
    level = rng.integers(0, 2, count).astype(float)
    lines = [np.column_stack((pair, [z, z])) for pair, z in zip(ends, level, strict=True)]
    built = build([(-1, -1, 0), (101, -1, 0), (101, 101, 0), (-1, 101, 0)], lines)
    shapes = shapely.linestrings(ends)
    crosses = shapely.crosses(shapes[:, None], shapes[None])
    bad = crosses & (level[:, None] != level[None])
    assert built.conflicts == bad.sum() // 2
    kept = ~bad.any(axis=1)
    assert np.isclose(built.honoured, shapely.length(shapes[kept]).sum())
    assert built.crossings == (crosses & kept[:, None] & kept[None]).sum() // 2
    assert_honoured(built.tin, [lines[row] for row in np.flatnonzero(kept)])


@given(st.integers(0, 10_000), st.sampled_from([1e-9, 1e-6, 3e-5, 9e-5, 1.1e-4, 2.1e-4, 3e-4]))
def test_lines_and_points_a_hair_apart(seed, hair):
    """Friendly data hide what goes wrong here: all vertices lie near other lines."""
    rng = np.random.default_rng(seed)
    ends = rng.integers(0, 6, (6, 2, 2)) * 10.0
    ends = ends[(ends[:, 0] != ends[:, 1]).any(axis=1)]
    lines = [pair + rng.uniform(-hair, hair, (2, 2)) for pair in ends]
    along = [pair[0] + share * (pair[1] - pair[0]) for pair in ends for share in (0.25, 0.5)]
    points = np.array(along) + rng.uniform(-hair, hair, (len(along), 2))
    frame = np.array([(-5, -5), (65, -5), (65, 65), (-5, 65)], dtype=float)
    plan = np.concatenate((frame, points))
    built = build(
        np.column_stack((plan, np.zeros(len(plan)))),
        [np.column_stack((line, np.zeros(len(line)))) for line in lines],
    )
    assert_sound(built.tin, 70.0 * 70.0)
    assert not built.findings
    assert built.honoured > built.given - 12 * SNAP
