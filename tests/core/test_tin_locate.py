"""Location and sampling: every point is found, planes are exact, order does not matter."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.tin import Tin, locate
from plugin.core.tin.bins import Bins, boxes

from .tin_shapes import REAL, grid_faces, random_tin, read_real, square

FAR = 10_000_000.0


def plane(xy):
    return 12.0 + 0.03 * xy[:, 0] - 0.02 * xy[:, 1]


def test_corners_sides_and_outside():
    tin = square((0.0, 10.0, 30.0, 20.0))  # z = x + 2 y
    xy = np.array([(0, 0), (10, 10), (5, 5), (5, 0), (2, 7), (-0.001, 5), (5, 10.001), (50, 50)])
    z, face = tin.sample(xy)
    assert z[:5].tolist() == [0, 30, 15, 5, 16]
    assert np.isnan(z[5:]).all()
    assert (face[:5] >= 0).all()
    assert face[5:].tolist() == [-1, -1, -1]


def test_not_a_number_is_outside():
    z, face = square().sample([(np.nan, 1.0), (1.0, np.inf), (1.0, 1.0)])
    assert face.tolist()[:2] == [-1, -1]
    assert z[2] == 0.0


def test_no_points():
    z, face = square().sample(np.zeros((0, 2)))
    assert len(z) == len(face) == 0


@given(st.integers(0, 10**6), st.sampled_from([0.0, FAR]))
@settings(max_examples=40, deadline=None)
def test_every_place_of_the_hull_is_found_and_the_plane_is_exact(seed, shift):
    tin = random_tin(seed, 70, shift, plane)
    rng = np.random.default_rng(seed)
    share = rng.dirichlet((1, 1, 1), len(tin.faces))
    inside = np.einsum("ij,ijk->ik", share, tin.vertices[tin.faces])
    ends = tin.vertices[tin.edges.ends]
    part = rng.random(len(ends))[:, None]
    on_edges = ends[:, 0] + part * (ends[:, 1] - ends[:, 0])
    xy = np.vstack([inside, on_edges, tin.vertices])[:, :2]
    z, face = tin.sample(xy)
    assert (face >= 0).all()
    assert np.abs(z - plane(xy - shift)).max() < 1e-9
    assert np.array_equal(face[: len(inside)], np.arange(len(inside)))


@given(st.integers(0, 10**6))
@settings(max_examples=30, deadline=None)
def test_faces_agree_with_a_search_by_geometry(seed):
    """Reference library: shapely's tree of polygons."""
    tin = random_tin(seed, 60)
    xy = np.random.default_rng(seed + 1).uniform(-10, 110, (300, 2))
    polygons = shapely.polygons(tin.vertices[tin.faces][..., :2])
    point, polygon = shapely.STRtree(polygons).query(shapely.points(xy), predicate="within")
    expected = np.full(len(xy), -1)
    expected[point] = polygon
    assert np.array_equal(tin.locate(xy), expected)


@given(st.integers(0, 10**6), st.randoms(use_true_random=False))
@settings(max_examples=20, deadline=None)
def test_a_point_ends_in_the_same_face_in_any_company(seed, random):
    tin = random_tin(seed, 50)
    ends = tin.vertices[tin.edges.ends]
    xy = np.vstack([tin.vertices[:, :2], ends.mean(axis=1)[:, :2]])
    z, face = tin.sample(xy)
    order = list(range(len(xy)))
    random.shuffle(order)
    z2, face2 = tin.sample(xy[order])
    assert np.array_equal(face2, face[order])
    assert np.array_equal(z2, z[order])
    one = random.choice(order)
    assert tin.locate(xy[[one]])[0] == face[one]


def comb():
    """A plate cut by slits almost from side to side, where walks run into borders."""
    faces = grid_faces(41, 41)
    plan = np.stack(np.meshgrid(np.arange(41.0), np.arange(41.0)), axis=-1).reshape(-1, 2)
    middle = plan[faces].mean(axis=1)
    odd = np.floor(middle[:, 0]) % 4
    slit = ((odd == 1) & (middle[:, 1] > 2)) | ((odd == 3) & (middle[:, 1] < 38))
    vertices = np.column_stack([plan, plane(plan)])
    return Tin.from_arrays(vertices, faces[~slit])


def test_slits_and_holes_lose_nothing(monkeypatch):
    tin = comb()
    xy = np.random.default_rng(2).uniform(0, 40, (4000, 2))
    floor = np.floor(xy[:, 0]) % 4
    slit = ((floor == 1) & (xy[:, 1] > 2)) | ((floor == 3) & (xy[:, 1] < 38))
    face = tin.locate(xy)
    # Within a cell at the end of a slit the diagonal decides: look away from them.
    sure = (np.abs(xy[:, 1] - 2) > 1) & (np.abs(xy[:, 1] - 38) > 1)
    assert np.array_equal((face < 0)[sure], slit[sure])
    # Walks that give up at once leave everything to the look-up: the answer is the same.
    monkeypatch.setattr(locate, "_MOST_STEPS", 0)
    monkeypatch.setattr(locate, "_PAIRS", 100)
    assert np.array_equal(comb().locate(xy), face)


def test_a_wall_holds_no_point():
    vertices = [(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0), (1, 0, 2), (1, 1, 2), (2, 0, 2)]
    tin = Tin.from_arrays(
        [*vertices, (2, 1, 2)],
        [(0, 1, 2), (0, 2, 3), (1, 4, 5), (2, 1, 5), (4, 6, 7), (4, 7, 5)],
    )
    z, face = tin.sample([(0.5, 0.5), (1.5, 0.5), (1.0, 0.5), (0.999, 0.5), (1.001, 0.5)])
    assert z[[0, 3]].tolist() == [0, 0]
    assert z[[1, 4]].tolist() == [2, 2]
    assert z[2] in (0.0, 2.0)
    assert not np.isin(face, (2, 3)).any()


def test_beside_a_face_that_is_almost_upright_heights_stay_those_of_its_corners():
    # At 1e7 its plan width is 20 units in the last place; points beyond it by a few still count.
    step = np.spacing(FAR)
    tin = Tin.from_arrays([(FAR, 0, 0.0), (FAR + 20 * step, 0, 2.0), (FAR, 10, 0.0)], [(0, 1, 2)])
    assert not tin.without_plan_area.any()
    xy = np.column_stack([FAR + np.arange(-6, 27) * step, np.full(33, 0.001)])
    z, face = tin.sample(xy)
    assert (face == 0).sum() > 30
    assert np.nanmin(z) == 0.0
    assert np.nanmax(z) == 2.0


def test_slivers_that_lie_askew_do_not_flood_the_bins():
    turn = np.pi / 4 + np.linspace(0, 0.01, 2001)
    rim = 1e4 * np.column_stack([np.cos(turn), np.sin(turn), np.zeros(2001)])
    number = np.arange(1, 2001)
    faces = np.column_stack([np.zeros(2000, int), number, number + 1])
    tin = Tin.from_arrays(np.vstack([[(0, 0, 0)], rim]), faces)
    bins = tin._locator._bins
    cells = (bins.high - bins.low + 1).prod(axis=1)
    assert cells.sum() <= 12 * 2000 or max(bins.shape) <= 2
    middle = tin.vertices[tin.faces].mean(axis=1)
    assert np.array_equal(tin.locate(middle), np.arange(2000))


def test_large_and_tiny_faces_together():
    # One face 1e6 times as long as the others: bins must neither explode nor lose it.
    tin = Tin.from_arrays(
        [(0, 0, 0), (1e6, 0, 0), (0, 1e6, 0), (-1, 0, 0), (0, -1, 0)],
        [(0, 1, 2), (0, 2, 3), (0, 3, 4), (0, 4, 1)],
    )
    xy = [(1e5, 1e5), (-0.2, 0.2), (-0.2, -0.2), (0.2, -0.2), (4.9e5, 5e5), (0.0, 9e5)]
    assert (tin.locate(xy) >= 0).all()


@pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
def test_every_face_of_a_real_road_is_found_from_its_middle():
    """Finished less subgrade: median 0.323 m at the face centres (README, CC-BY 4.0 files)."""
    finished, subgrade = read_real("road_finished"), read_real("road_subgrade")
    middle = finished.vertices[finished.faces].mean(axis=1)
    z, face = finished.sample(middle)
    assert np.array_equal(face, np.arange(len(face)))
    assert np.abs(z - middle[:, 2]).max() < 1e-7
    below, _ = subgrade.sample(middle)
    both = np.isfinite(below)
    assert both.sum() == 11638
    assert np.median(middle[both, 2] - below[both]) == pytest.approx(0.323, abs=5e-4)


@pytest.mark.parametrize("seed", range(12))
def test_bins_name_every_face_over_a_wanted_bin(seed):
    random = np.random.default_rng(seed)
    tin = random_tin(seed, int(random.integers(4, 300)))
    bins = Bins.over(*boxes(tin.vertices[:, :2], tin.faces), 1e-9)
    wanted = random.random(bins.count) < random.choice([0.002, 0.02, 0.3])
    table = wanted.reshape(bins.shape[::-1])
    expected = [
        face
        for face, ((left, low), (right, high)) in enumerate(zip(bins.low, bins.high, strict=True))
        if table[low : high + 1, left : right + 1].any()
    ]
    assert bins.touching(wanted).tolist() == expected
