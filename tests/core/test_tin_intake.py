"""Loose triangles and plane polygons become one surface."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.errors import SurfaceError
from plugin.core.tin.intake import tin_from_faces, triangles_of_polygons, weld_triangles
from plugin.core.tin.weld import same_place

from .tin_shapes import random_tin

FAR = 10_000_000.0


def lifted(ring, holes=()):
    """A polygon on the plane z = 3 + x / 10 - y / 5."""

    def up(corners):
        return [(x, y, 3 + x / 10 - y / 5) for x, y in corners]

    return shapely.Polygon(up(ring), [up(hole) for hole in holes])


@given(st.integers(0, 10**6), st.sampled_from([0.0, FAR]))
@settings(max_examples=30, deadline=None)
def test_loose_triangles_come_back_as_the_surface_they_were(seed, shift):
    tin = random_tin(seed, 50, shift)
    again = tin_from_faces(tin.vertices[tin.faces], 0.0)
    assert len(again.edges.ends) == len(tin.edges.ends)
    assert len(again.edges.boundary) == len(tin.edges.boundary)
    assert np.array_equal(again.vertices[again.faces], tin.vertices[tin.faces])


@given(st.integers(0, 10**6))
@settings(max_examples=30, deadline=None)
def test_corners_within_the_snap_distance_are_joined(seed):
    tin = random_tin(seed, 50)
    rng = np.random.default_rng(seed)
    shaken = tin.vertices[tin.faces] + rng.uniform(-2e-5, 2e-5, (len(tin.faces), 3, 3))
    assert len(np.unique(shaken.reshape(-1, 3), axis=0)) == 3 * len(tin.faces)
    welded = weld_triangles(shaken, 1e-4)
    assert len(welded.vertices) == len(tin.vertices)
    assert 0.0 < welded.move <= 1e-4


@given(st.lists(st.tuples(*[st.integers(0, 6)] * 3), max_size=40), st.sampled_from([0.0, 1.0, 1.5]))
@settings(max_examples=100, deadline=None)
def test_welding_agrees_with_all_pairs(points, tolerance):
    points = np.array(points, dtype=float).reshape(-1, 3)
    apart = np.linalg.norm(points[:, None] - points[None], axis=2)
    root = np.arange(len(points))
    for _ in range(len(points)):
        for row in range(len(points)):
            root[row] = root[apart[row] <= tolerance].min()
    assert np.array_equal(same_place(points, tolerance), root)


def test_the_two_zeros_are_one_place():
    others = np.random.default_rng(0).random((500, 3))
    points = np.vstack([[(0.0, 1, 2)], others, [(-0.0, 1, 2)]])
    assert same_place(points, 0.0).tolist() == [*range(501), 0]


def test_rows_that_mix_to_one_number_stay_apart(monkeypatch):
    from plugin.core.tin import weld

    monkeypatch.setattr(weld, "_SPREAD", (0, 0, 0))  # every row mixes to 0
    points = np.array([(1.0, 2, 3), (4, 5, 6), (1, 2, 3), (-0.0, 0, 0), (0, 0, 0), (4, 5, 6)])
    assert same_place(points, 0.0).tolist() == [0, 1, 0, 3, 3, 1]


def test_triangles_that_vanish_are_left_out_and_named():
    triangles = [[(0, 0, 0), (1, 0, 0), (0, 1, 0)], [(0, 0, 0), (1e-6, 0, 0), (0, 1, 0)]]
    welded = weld_triangles(triangles, 1e-4)
    assert welded.source.tolist() == [0]
    assert len(welded.faces) == 1


def test_plane_polygons_with_holes_and_parts():
    hole = [(1, 1), (1, 2), (2, 2), (2, 1)]
    polygons = [
        lifted([(0, 0), (4, 0), (4, 4), (0, 4)], [hole]),
        lifted([(4, 0), (8, 0), (4, 4)]),
        shapely.MultiPolygon([lifted([(10, 0), (11, 0), (11, 1), (10, 1)])]),
        shapely.Polygon(),
        None,
    ]
    triangles, source = triangles_of_polygons(polygons, [7, 8, 9, 10, 11], 1e-6)
    assert np.unique(source).tolist() == [0, 1, 2]
    assert (triangles[..., 2] == 3 + triangles[..., 0] / 10 - triangles[..., 1] / 5).all()
    tin = tin_from_faces(triangles, 0.0)
    assert tin.plan_area == pytest.approx(16 - 1 + 8 + 1, rel=1e-14)
    given_corners = shapely.get_coordinates([p for p in polygons if p], include_z=True)
    assert {tuple(v) for v in tin.vertices} == {tuple(v) for v in given_corners}
    assert np.isnan(tin.sample([(1.5, 1.5)])[0]).all()


@pytest.mark.parametrize(
    ("polygon", "part"),
    [
        (
            shapely.Polygon([(0, 0, 0), (1, 0, 0), (1, 1, 0.1), (0, 1, 0)]),
            "Polygon 42 is not plane",
        ),
        (shapely.Polygon([(0, 0), (1, 0), (1, 1)]), "Polygon 42 has corners without height"),
        (shapely.Polygon([(0, 0, 0), (1, 0, 0), (1, 0, 1), (0, 0, 1)]), "Polygon 42 stands"),
        (
            shapely.Polygon([(0, 0, 0), (4, 0, 0), (0, 4, 0), (5, 4, 0), (9, 9, 0)]),
            "Polygon 42 crosses itself",
        ),
    ],
)
def test_unfit_polygons_are_refused_by_their_id(polygon, part):
    good = lifted([(0, 0), (1, 0), (1, 1)])
    with pytest.raises(SurfaceError, match=part):
        triangles_of_polygons([good, polygon], [41, 42], 1e-3)


def test_slightly_bent_polygons_pass_within_the_tolerance():
    bent = shapely.Polygon([(0, 0, 0), (1, 0, 0), (1, 1, 0.0005), (0, 1, 0)])
    triangles, _ = triangles_of_polygons([bent], [1], 1e-3)
    assert len(triangles) == 2


@pytest.mark.parametrize("value", [np.nan, np.inf])
def test_triangles_without_coordinates_are_refused(value):
    triangles = np.array([[(0.0, 0, 0), (1, 0, 0), (0, 1, 0)]] * 2)
    triangles[1, 2, 1] = value
    with pytest.raises(SurfaceError, match="A corner of face 2"):
        weld_triangles(triangles, 0.0)


def test_no_triangles_are_refused():
    with pytest.raises(SurfaceError, match="no faces"):
        tin_from_faces(np.zeros((0, 3, 3)), 0.0)
    with pytest.raises(SurfaceError, match="no faces"):
        triangles_of_polygons([], [], 1e-3)
