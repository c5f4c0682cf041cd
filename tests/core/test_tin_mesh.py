"""The surface: orientation, areas, planes, borders, pieces."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.errors import SurfaceError
from plugin.core.tin import Tin

from .tin_shapes import REAL, grid_faces, random_tin, read_real, square

FAR = 10_000_000.0

needs_real_files = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")


def test_closed_form_of_a_plane():
    # 3 across, 4 up on a rise of 10 %: slope area = plan area x sqrt(1 + 0.1^2).
    tin = Tin.from_arrays([(0, 0, 1), (3, 0, 1.3), (0, 4, 1)], [(2, 1, 0)])
    assert tin.plan_area == 6.0
    assert tin.sloped_area == pytest.approx(6.0 * np.sqrt(1.01), rel=1e-15)
    assert tin.gradients[0] == pytest.approx([0.1, 0.0], abs=1e-16)
    assert tin.extent == (0.0, 0.0, 3.0, 4.0)


@pytest.mark.parametrize(
    ("run", "rise", "secant"),
    [(1, 1, 1.41421), (2, 1, 1.11803), (3, 1, 1.05409), (4, 1, 1.03078), (20, 1, 1.00125)],
)
def test_sloped_area_follows_the_secant_table(run, rise, secant):
    """Identity sec(a) = sqrt(1 + (rise/run)^2), as printed in slope tables."""
    z = 10.0 * rise / run
    tin = square((0.0, z, z, 0.0))
    assert tin.sloped_area / tin.plan_area == pytest.approx(secant, abs=5e-6)


@given(st.integers(0, 10**6), st.integers(4, 60))
@settings(max_examples=40, deadline=None)
def test_faces_are_turned_counter_clockwise(seed, count):
    tin = random_tin(seed, count)
    corners = tin.vertices[tin.faces][..., :2]
    assert (shapely.is_ccw(shapely.linearrings(corners))).all()


@given(st.integers(0, 10**6))
@settings(max_examples=30, deadline=None)
def test_a_far_site_has_the_same_planes(seed):
    near, far = random_tin(seed), random_tin(seed, shift=FAR)
    assert np.array_equal(near.faces, far.faces)
    assert np.array_equal(near.plan_areas, far.plan_areas)
    assert np.array_equal(near.sloped_areas, far.sloped_areas)
    assert np.array_equal(near.gradients, far.gradients, equal_nan=True)


@given(st.integers(0, 10**6))
@settings(max_examples=30, deadline=None)
def test_area_is_that_of_the_hull(seed):
    tin = random_tin(seed, 40)
    hull = shapely.MultiPoint(tin.vertices[:, :2]).convex_hull
    assert tin.plan_area == pytest.approx(hull.area, rel=1e-12)
    (loop,) = tin.boundary_loops()
    ring = shapely.Polygon(tin.vertices[loop, :2])
    assert ring.exterior.is_ccw
    assert ring.area == pytest.approx(hull.area, rel=1e-12)
    assert len(loop) == len(tin.edges.boundary)


def test_gradient_is_empty_without_plan_area():
    # A wall of 2 m between two level squares: its faces have an area, but no slope.
    vertices = [(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0), (1, 0, 2), (1, 1, 2), (2, 0, 2)]
    vertices = [*vertices, (2, 1, 2)]
    faces = [(0, 1, 2), (0, 2, 3), (1, 4, 5), (2, 1, 5), (4, 6, 7), (4, 7, 5)]
    for shift in (0.0, FAR):
        for wall in (faces[2], faces[2][::-1]):
            for other in (faces[3], faces[3][::-1]):
                tin = Tin.from_arrays(
                    np.add(vertices, (shift, shift, 0)), [*faces[:2], wall, other, *faces[4:]]
                )
                assert tin.without_plan_area.tolist() == [False, False, True, True, False, False]
                assert np.isnan(tin.gradients[2:4]).all()
                assert np.isfinite(tin.gradients[[0, 1, 4, 5]]).all()
                assert tin.plan_area == 2.0
                assert tin.sloped_area == pytest.approx(4.0, rel=1e-14)
                # However the wall was given, it runs against its neighbours: one border.
                (loop,) = tin.boundary_loops()
                assert sorted(loop.tolist()) == list(range(8))


def test_walls_of_several_faces_are_turned_one_after_the_other():
    # A wall of four rows above a level square: only its lowest faces touch one with a direction.
    x, z = np.meshgrid([0.0, 1.0], np.arange(5.0))
    wall = np.column_stack([x.ravel(), np.zeros(10), z.ravel()])
    faces = []
    for row in range(4):
        a, b, c, d = 2 * row, 2 * row + 1, 2 * row + 3, 2 * row + 2
        faces += [(a, b, c), (a, c, d)]
    rng = np.random.default_rng(4)
    for _ in range(10):
        mixed = [face if rng.random() < 0.5 else face[::-1] for face in faces]
        tin = Tin.from_arrays([*wall, (0.5, -1, 0)], [*mixed, (0, 10, 1)])
        (loop,) = tin.boundary_loops()
        assert len(loop) == 11
        halves = tin.faces.ravel(), np.roll(tin.faces, -1, axis=1).ravel()
        assert len(set(zip(*(half.tolist() for half in halves), strict=True))) == 27


def test_a_collinear_face_at_a_far_site_has_no_gradient():
    # 0.3, 0.6, 0.9 are not on one line once rounded at 1e7, but must count as such.
    vertices = [(FAR + 0.1 * k, FAR + 0.3 * k, z) for k, z in ((1, 0.0), (2, 1.0), (3, 0.5))]
    tin = Tin.from_arrays(vertices, [(0, 1, 2)])
    assert np.isnan(tin.gradients).all()


def test_borders_of_a_plate_with_a_hole_and_an_island():
    faces = grid_faces(5, 5)
    plan = np.stack(np.meshgrid(np.arange(5.0), np.arange(5.0)), axis=-1).reshape(-1, 2)
    middle = plan[faces].mean(axis=1)
    hole = ((middle > 1) & (middle < 3)).all(axis=1)
    island = np.array([[25, 26, 27]])
    vertices = np.column_stack([np.vstack([plan, [(10, 0), (11, 0), (10, 1)]]), np.zeros(28)])
    tin = Tin.from_arrays(vertices, np.vstack([faces[~hole], island]))
    loops = tin.boundary_loops()
    areas = [shapely.Polygon(vertices[loop, :2]).area for loop in loops]
    turns = [shapely.LinearRing(vertices[loop, :2]).is_ccw for loop in loops]
    assert sorted(zip(areas, turns, strict=True)) == [(0.5, True), (4.0, False), (16.0, True)]
    assert np.unique(tin.pieces).tolist() == [0, 1]
    assert tin.pieces[-1] == 1
    assert (tin.pieces[:-1] == 0).all()


def test_parts_that_touch_in_a_vertex_keep_their_borders():
    vertices = [(0, 0, 0), (1, 0, 0), (0, 1, 0), (-1, 0, 0), (0, -1, 0)]
    tin = Tin.from_arrays(vertices, [(0, 1, 2), (0, 3, 4)])
    assert sorted(len(loop) for loop in tin.boundary_loops()) == [3, 3]
    assert tin.pieces.tolist() == [0, 1]


@pytest.mark.parametrize(
    ("vertices", "faces", "part"),
    [
        ([(0, 0, 0), (1, 0, 0), (0, 1, 0)], [(0, 1, 2), (0, 1, 3)], "Face 2 points at a vertex"),
        ([(0, 0, 0), (1, 0, 0), (0, 1, 0)], [(0, 1, -1)], "Face 1 points at a vertex"),
        ([(0, 0, 0), (1, 0, 0), (0, 1, 0)], [(0, 1, 1)], "Face 1 names the same vertex twice"),
        ([(0, 0, 0), (1, 0, np.nan), (0, 1, 0)], [(0, 1, 2)], "A corner of face 1"),
        ([(0, 0, 0), (1, np.inf, 0), (0, 1, 0)], [(0, 1, 2)], "A corner of face 1"),
        ([(0, 0, 0)], [], "no faces"),
        ([(0, 0), (1, 0), (0, 1)], [(0, 1, 2)], "three coordinates"),
    ],
)
def test_bad_arrays_are_refused_with_a_place(vertices, faces, part):
    with pytest.raises(SurfaceError, match=part):
        Tin.from_arrays(vertices, faces)


@needs_real_files
@pytest.mark.parametrize(
    ("name", "points", "faces", "plan", "sloped"),
    [
        ("road_finished", 6547, 11959, 22503.5393, 23389.5815),
        ("road_subgrade", 4997, 8881, 22249.8854, 22779.7827),
        ("road_ground", 19872, 36067, 69488.6133, 70602.8982),
    ],
)
def test_real_surfaces_have_their_stated_figures(name, points, faces, plan, sloped):
    """Figures computed independently: README of the InfraModel sample files (CC-BY 4.0)."""
    tin = read_real(name)
    assert (len(tin.vertices), len(tin.faces)) == (points, faces)
    assert round(tin.plan_area, 4) == plan
    assert round(tin.sloped_area, 4) == sloped


@needs_real_files
def test_real_surface_has_its_stated_edges():
    """1,133 boundary edges; 5,361 / 3,375 / 3,257 edges over 1 / 5 / 15 degrees (README)."""
    tin = read_real("road_finished")
    assert len(tin.edges.boundary) == 1133
    inner = tin.edges.faces[(tin.edges.faces >= 0).all(axis=1)]
    normals = np.column_stack([-tin.gradients, np.ones(len(tin.faces))])
    normals /= np.linalg.norm(normals, axis=1)[:, None]
    cosine = np.einsum("ij,ij->i", normals[inner[:, 0]], normals[inner[:, 1]])
    angle = np.degrees(np.arccos(np.clip(cosine, -1, 1)))
    assert [(angle > limit).sum() for limit in (1, 5, 15)] == [5361, 3375, 3257]
