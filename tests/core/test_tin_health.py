"""What is wrong with a surface is found, with its place; a sound surface has no findings."""

from collections import Counter

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.tin import Tin, health
from plugin.core.tin.health import examine
from plugin.core.tin.overlaps import overlap_area, overlapping_faces
from plugin.core.tolerance import Tolerance

from .tin_shapes import REAL, grid_faces, random_tin, read_real, square

FAR = 10_000_000.0
TOLERANCE = Tolerance()


def codes(tin):
    return Counter(finding.code for finding in examine(tin, TOLERANCE))


def of_code(tin, code):
    return [finding for finding in examine(tin, TOLERANCE) if finding.code == code]


@given(st.integers(0, 10**6), st.sampled_from([0.0, FAR]))
@settings(max_examples=30, deadline=None)
def test_delaunay_triangles_never_overlap(seed, shift):
    tin = random_tin(seed, 60, shift)
    assert not {"overlap", "crack", "piece", "crowded_edge", "duplicate_vertex"} & set(codes(tin))
    assert abs(overlap_area(tin)) < 1e-6


def test_a_sound_surface_has_no_findings():
    assert examine(square(), TOLERANCE) == []


@pytest.mark.parametrize("shift", [0.0, FAR])
def test_one_face_over_another(shift):
    vertices = np.array([(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (1, 1, 5), (3, 1, 5)])
    vertices = np.add(np.vstack([vertices, [(2, 3, 5)]]), (shift, shift, 0))
    tin = Tin.from_arrays(vertices, [(0, 1, 2), (0, 2, 3), (4, 5, 6)])
    found = of_code(tin, "overlap")
    assert [finding.why.split(" lie")[0] for finding in found] == [
        "Faces 1 and 3",
        "Faces 2 and 3",
    ]
    x, y = found[0].place
    assert 1 <= x - shift <= 3
    assert 1 <= y - shift <= 3
    assert overlap_area(tin) == pytest.approx(2.0, abs=1e-6)
    assert codes(tin)["piece"] == 1


def test_a_folded_face_overlaps_though_the_borders_look_sound():
    # Vertex 3 was dragged across the side 1-2: the two faces lie on the same side of it.
    tin = Tin.from_arrays([(0, 0, 0), (4, 0, 0), (0, 4, 0), (1, 1, 3)], [(0, 1, 2), (2, 1, 3)])
    pairs, _ = overlapping_faces(tin, 1e-4)
    assert pairs.tolist() == [[0, 1]]


def test_a_fold_at_the_outer_border():
    # Both faces lie on the same side of the edge 0-1, and nothing on the other.
    tin = Tin.from_arrays([(0, 0, 0), (4, 0, 0), (0, 4, 0), (4, 4, 3)], [(0, 1, 2), (0, 1, 3)])
    assert overlap_area(tin) == pytest.approx(4.0, abs=1e-12)
    pairs, _ = overlapping_faces(tin, 1e-4)
    assert pairs.tolist() == [[0, 1]]


@given(st.integers(0, 10**6), st.floats(-20, 20), st.floats(-20, 20))
@settings(max_examples=40, deadline=None)
def test_overlaps_are_those_of_the_polygons(seed, dx, dy):
    """Reference library: areas of intersection by shapely."""
    one, other = random_tin(seed, 8), random_tin(seed + 1, 8)
    moved = np.add(other.vertices, (dx, dy, 0))
    tin = Tin.from_arrays(
        np.vstack([one.vertices, moved]), np.vstack([one.faces, other.faces + len(one.vertices)])
    )
    polygons = shapely.polygons(tin.vertices[tin.faces][..., :2])
    first, second = np.triu_indices(len(polygons), 1)
    shared = shapely.intersection(polygons[first], polygons[second])
    area = shapely.area(shared)
    # The width of an overlap decides; leave out those that are hard to call.
    width = np.where(area > 0, 2 * area / np.maximum(shapely.length(shared), 1e-12), 0)
    sure = width > 1e-2
    pairs, _ = overlapping_faces(tin, 1e-4)
    found = {tuple(pair) for pair in pairs.tolist()}
    wanted = set(zip(first[sure].tolist(), second[sure].tolist(), strict=True))
    assert wanted <= found
    touching = set(zip(first[area > 0].tolist(), second[area > 0].tolist(), strict=True))
    assert found <= touching


def test_upright_steep_thin_and_empty_faces():
    vertices = [(0, 0, 0), (1, 0, 0), (1, 1, 0), (0, 1, 0), (1, 0, 2), (1, 1, 2)]
    vertices += [(1.05, 1, 2), (0.5, 0, 0), (0.5, 0.00002, 0)]
    faces = [(0, 1, 2), (0, 2, 3), (1, 4, 5), (2, 1, 5), (2, 6, 1), (0, 7, 8), (0, 7, 1)]
    found = {
        finding.code: finding for finding in examine(Tin.from_arrays(vertices, faces), TOLERANCE)
    }
    assert found["upright"].feature in (3, 4)
    assert found["steep"].feature == 5
    assert found["sliver"].feature == 6
    assert found["no_area"].feature == 7
    assert "face 7" in found["no_area"].why


def test_vertices_in_one_place_and_vertices_without_a_face():
    vertices = [
        (0, 0, 0),
        (10, 0, 0),
        (10, 10, 0),
        (0, 10, 0),
        (0, 0, 0),
        (10, 10, 2e-5),
        (5, 5, 9),
    ]
    tin = Tin.from_arrays(vertices, [(0, 1, 2), (4, 5, 3)])
    assert [f.place for f in of_code(tin, "duplicate_vertex")] == [(0, 0), (10, 10)]
    assert "Vertices 1 and 5" in of_code(tin, "duplicate_vertex")[0].why
    assert [f.place for f in of_code(tin, "unused_vertex")] == [(5, 5)]
    assert codes(tin)["piece"] == 1


def test_three_faces_at_an_edge_are_a_crowd():
    vertices = [(0, 0, 0), (1, 0, 0), (0, 1, 0), (0, -1, 0), (1, 1, 0)]
    tin = Tin.from_arrays(vertices, [(0, 1, 2), (0, 1, 3), (0, 1, 4)])
    (found,) = of_code(tin, "crowded_edge")
    assert found.place == (0.5, 0.0)
    assert codes(tin)["overlap"] == 1
    # Two unit halves of a square, turned to share half of each: a quarter lies twice.
    assert overlap_area(tin) == pytest.approx(0.25, abs=1e-12)
    upper = Tin.from_arrays(
        [*vertices[:3], (1, 1, 0), (0.5, 1, 0)], [(0, 1, 2), (0, 1, 3), (0, 1, 4)]
    )
    union = shapely.union_all(shapely.polygons(upper.vertices[upper.faces][..., :2]))
    assert overlap_area(upper) == pytest.approx(1.5 - union.area, abs=1e-12)


def test_a_corner_on_a_foreign_side_is_a_crack():
    vertices = [(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 0, 0), (5, -5, 0)]
    tin = Tin.from_arrays(vertices, [(0, 1, 2), (0, 2, 3), (0, 5, 4), (4, 5, 1)])
    assert [finding.place for finding in of_code(tin, "crack")] == [(5, 0)]


def test_long_lists_are_cut_and_counted(monkeypatch):
    monkeypatch.setattr(health, "MOST_OF_A_KIND", 3)
    faces = grid_faces(4, 4)
    plan = np.stack(np.meshgrid(np.arange(4.0), np.arange(4.0)), axis=-1).reshape(-1, 2)
    corners = np.column_stack([plan, np.zeros(16)])[faces].reshape(-1, 3)
    found = of_code(Tin.from_arrays(corners, np.arange(54).reshape(-1, 3)), "duplicate_vertex")
    assert len(found) == 4
    assert "38 such places" in found[-1].why


@pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
def test_real_designs_are_sound():
    assert examine(read_real("road_finished"), TOLERANCE) == []
    assert codes(read_real("road_ground")) == {"steep": 2}
