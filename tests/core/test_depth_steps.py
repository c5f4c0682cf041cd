"""Steps between heights that jump: closed forms, and random patchworks."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.patchwork import Patchwork
from plugin.core.depth.steps import stand
from plugin.core.tin import Tin

RUN = 1e-3


def patchwork(points, faces, heights, design=None):
    points, faces = np.asarray(points, dtype=float), np.asarray(faces)
    heights = np.asarray(heights, dtype=float)
    rows = np.arange(len(faces))
    flat = np.zeros((len(faces), 3)) if design is None else design
    return Patchwork(points, faces, heights, flat, np.zeros_like(rows), rows, np.ones_like(rows))


def grid(size, random, jitter=0.2):
    """Points and faces of a grid of squares of 1, its inner points moved about."""
    y, x = np.divmod(np.arange((size + 1) ** 2), size + 1)
    inner = (x > 0) & (x < size) & (y > 0) & (y < size)
    moved = random.uniform(-jitter, jitter, (len(x), 2)) * inner[:, None]
    a = (np.arange(size)[:, None] * (size + 1) + np.arange(size)).ravel()
    b, c, d = a + 1, a + size + 2, a + size + 1
    return np.column_stack((x, y)) + moved, np.stack((a, b, c, a, c, d), axis=1).reshape(-1, 3)


def faults(patch, stood):
    """What is wrong with a patchwork made whole; empty when all is well."""
    found = []
    before = Tin.from_arrays(np.column_stack((patch.points, 0 * patch.points[:, 0])), patch.faces)
    corners = stood.vertices[stood.faces]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    areas = 0.5 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    if (areas <= 0).any():
        found.append("flipped or empty faces")
    sums = np.bincount(stood.source, areas, len(patch.faces))
    if not np.allclose(sums, before.plan_areas, rtol=1e-9):
        found.append("pieces do not fill their face")
    after = Tin.from_arrays(stood.vertices, stood.faces)
    if len(after.edges.nonmanifold):
        found.append("edges with more than two faces")

    def border(tin):
        ends = tin.vertices[tin.edges.ends[tin.edges.boundary], :2]
        return np.hypot(*(ends[:, 1] - ends[:, 0]).T).sum()

    if not np.isclose(border(after), border(before), rtol=1e-9):
        found.append("cracks")
    top = np.full(len(patch.points), -np.inf)
    np.maximum.at(top, patch.faces, patch.heights)
    if not np.array_equal(stood.vertices[: len(top), 2], top):
        found.append("vertices are not at the highest of their faces")
    weights = _weights(patch.points[patch.faces[stood.source]], corners[..., :2])
    plane = np.einsum("fkj,fj->fk", weights, patch.heights[stood.source])
    off = corners[..., 2] - plane
    if (np.abs(off[~stood.step]) > 1e-9).any():
        found.append("bottoms off the planes of their faces")
    if (off < -1e-9).any():
        found.append("steps below the faces they lie in")
    return found


def _weights(triangles, points):
    a = triangles[:, :1]
    b, c = triangles[:, 1:2] - a, triangles[:, 2:3] - a
    p = points - a
    area = b[..., 0] * c[..., 1] - b[..., 1] * c[..., 0]
    second = (p[..., 0] * c[..., 1] - p[..., 1] * c[..., 0]) / area
    third = (b[..., 0] * p[..., 1] - b[..., 1] * p[..., 0]) / area
    return np.stack((1 - second - third, second, third), axis=-1)


def test_a_wedge_is_as_wide_as_the_run_where_it_is_deep_and_ends_where_it_is_level():
    """Two triangles about a diagonal, one tilted about its lower end: half a run times length."""
    patch = patchwork(
        [(0, 0), (4, 0), (4, 4), (0, 4)], [(0, 1, 2), (0, 2, 3)], [(0, 0, 0), (0, -1, 0)]
    )
    stood = stand(patch, RUN)
    assert faults(patch, stood) == []
    tin = Tin.from_arrays(stood.vertices, stood.faces)
    assert stood.step.sum() == 1 and (stood.source[stood.step] == 1).all()
    # The foot lies on the side 2-3, at the run from the diagonal: its height is half the run
    # times the length of the diagonal.
    assert tin.plan_areas[stood.step].sum() == pytest.approx(0.5 * RUN * 4 * np.sqrt(2))
    assert stood.least_run == pytest.approx(RUN)


def test_faces_that_cross_along_an_edge_both_step_down_from_it():
    patch = patchwork(
        [(0, 0), (4, 0), (4, 4), (0, 4)], [(0, 1, 2), (0, 2, 3)], [(1, 0, 0), (0, 1, 0)]
    )
    stood = stand(patch, RUN)
    assert faults(patch, stood) == []
    assert sorted(stood.source[stood.step]) == [0, 1]
    assert stood.vertices[[0, 2], 2] == pytest.approx([1, 1])


def test_heights_that_count_as_equal_make_no_step():
    patch = patchwork(
        [(0, 0), (4, 0), (4, 4), (0, 4)],
        [(0, 1, 2), (0, 2, 3)],
        [(0, 0, 1e-11), (1e-11, 0, 0)],
    )
    assert not stand(patch, RUN, equal=1e-10).step.any()
    assert stand(patch, RUN).step.any()


def test_heights_that_count_as_equal_make_no_step_beside_a_real_one():
    """Around the middle of a square three faces are level but for rounding, the fourth is low."""
    points = [(0, 0), (4, 0), (4, 4), (0, 4), (2, 2)]
    faces = [(0, 1, 4), (1, 2, 4), (2, 3, 4), (3, 0, 4)]
    level = np.zeros((4, 3))
    level[3] = -1
    rough = level + np.array([0, 1e-11, -1e-11, 0])[:, None]
    plain = stand(patchwork(points, faces, level), RUN)
    stood = stand(patchwork(points, faces, rough), RUN, equal=1e-10)
    assert np.array_equal(stood.source, plain.source) and np.array_equal(stood.step, plain.step)


def test_the_height_of_the_design_is_known_at_new_points():
    """The design is a plane: its height at every vertex is that of the plane there."""
    random = np.random.default_rng(3)
    points, faces = grid(4, random)
    plane = 2 + 0.3 * points[:, 0] - 0.2 * points[:, 1]
    depths = random.choice([0.0, 0.4, 0.9], len(faces))
    patch = patchwork(points, faces, plane[faces] - depths[:, None], plane[faces])
    stood = stand(patch, RUN, 1e-12)
    assert stood.step.any() and faults(patch, stood) == []
    there = 2 + 0.3 * stood.vertices[:, 0] - 0.2 * stood.vertices[:, 1]
    assert stood.design == pytest.approx(there, abs=1e-12)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**32 - 1))
def test_random_heights_at_every_corner_stand_without_cracks(seed):
    """Corner heights of each face are drawn from few values: all kinds of wedges meet."""
    random = np.random.default_rng(seed)
    points, faces = grid(int(random.integers(1, 6)), random)
    values = random.choice([0.0, -0.5, -1.0, 1.0], int(random.integers(2, 5)), replace=False)
    heights = random.choice(values, (len(faces), 3))
    calm = random.random(len(faces)) < random.random()
    heights[calm] = values[0]
    patch = patchwork(points, faces, heights)
    assert faults(patch, stand(patch, random.choice([1e-3, 0.02, 0.5]))) == []


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_depths_per_face_give_the_least_depth_at_vertices(shift):
    random = np.random.default_rng(5)
    points, faces = grid(6, random)
    surface = random.uniform(0, 3, len(points))[faces] + shift
    depths = random.choice([0.0, 0.3, -0.4, 0.8], len(faces))
    patch = patchwork(points, faces, surface - depths[:, None], surface)
    stood = stand(patch, RUN, 1e-9)
    least = np.full(len(points), np.inf)
    np.minimum.at(least, faces, np.repeat(depths, 3).reshape(-1, 3))
    below = stood.design[: len(points)] - stood.vertices[: len(points), 2]
    assert below == pytest.approx(least, abs=1e-8)
