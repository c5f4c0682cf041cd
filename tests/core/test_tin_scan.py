"""A surface on a grid: heights and faces at the centres of pixels."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.grid import Grid
from plugin.core.tin import Tin
from plugin.core.tin.scan import Scan

from .tin_shapes import grid_faces, random_tin, square


def whole(tin, grid, rows=None):
    """Heights and faces of a grid, in strips of so many rows."""
    scan = Scan(tin, grid)
    step = rows or grid.rows
    parts = [
        scan.heights_and_faces(row, min(step, grid.rows - row)) for row in range(0, grid.rows, step)
    ]
    heights, faces = (np.concatenate(part) for part in zip(*parts, strict=True))
    alone = [scan.heights(row, min(step, grid.rows - row)) for row in range(0, grid.rows, step)]
    assert np.array_equal(np.concatenate(alone), heights, equal_nan=True)
    return heights, faces


def test_triangle_by_hand():
    # Corners (0, 0), (4, 0), (0, 4); z = x + 10 y. Pixels of 1: centres at .5, 1.5, ...
    tin = Tin.from_arrays([(0, 0, 0), (4, 0, 4), (0, 4, 40)], [(0, 1, 2)])
    heights, faces = whole(tin, Grid(0, 5, 1, -1, 5, 5))
    n = np.nan
    # Centres with x + y = 4 lie on the border, and belong to the surface.
    expected = [
        [n, n, n, n, n],
        [35.5, n, n, n, n],
        [25.5, 26.5, n, n, n],
        [15.5, 16.5, 17.5, n, n],
        [5.5, 6.5, 7.5, 8.5, n],
    ]
    assert np.array_equal(heights, expected, equal_nan=True)
    assert np.array_equal(faces >= 0, ~np.isnan(expected))


@pytest.mark.parametrize("height", [-0.25, 0.25])
@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_plane_at_centres_not_half_a_pixel_off(shift, height):
    # On a plane of 30 % and -70 % half a pixel would be 0.0375 and 0.0875 off.
    tin = random_tin(1, 200, shift, lambda plan: 0.3 * plan[:, 0] - 0.7 * plan[:, 1] + 50)
    grid = Grid(shift, shift + (100 if height < 0 else 0), 0.25, height, 400, 400)
    heights, _ = whole(tin, grid)
    x, y = (grid.centres(0, 400) - shift).T
    on = ~np.isnan(heights.ravel())
    assert on.mean() > 0.9
    error = np.abs(heights.ravel() - (0.3 * x - 0.7 * y + 50))[on].max()
    assert error <= 1e-9 * 100


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6), rows=st.integers(1, 60), shift=st.sampled_from([0.0, 4e6]))
def test_as_sampled_for_any_strip(seed, rows, shift):
    tin = random_tin(seed, 80, shift)
    grid = Grid(shift - 3, shift + 103, 1.75, -1.625, 61, 66)
    heights, faces = whole(tin, grid, rows)
    sampled, found = tin.sample(grid.centres(0, grid.rows))
    assert np.array_equal(faces.ravel() >= 0, found >= 0)
    np.testing.assert_allclose(heights.ravel(), sampled, rtol=0, atol=1e-6 if shift else 1e-9)
    assert np.array_equal(heights, whole(tin, grid)[0], equal_nan=True)


def test_same_bits_for_faces_and_corners_in_any_order():
    tin = random_tin(5, 300)
    grid = Grid(0, 100, 0.37, -0.41, 270, 243)
    heights, faces = whole(tin, grid)
    rng = np.random.default_rng(2)
    order = rng.permutation(len(tin.faces))
    turned = np.array([np.roll(face, rng.integers(3)) for face in tin.faces[order]])
    vertex = rng.permutation(len(tin.vertices))
    place = np.argsort(vertex)
    other = Tin.from_arrays(tin.vertices[vertex], place[turned])
    again, their_faces = whole(other, grid)
    assert np.array_equal(heights, again, equal_nan=True)
    assert np.array_equal(faces >= 0, their_faces >= 0)
    on = faces >= 0
    assert np.array_equal(faces[on], order[their_faces[on]])


def test_centres_on_vertices_and_sides_have_one_face_each():
    # Every vertex is a centre and every side runs through centres.
    x, y = np.meshgrid(np.arange(9.0), np.arange(9.0))
    z = np.random.default_rng(0).uniform(0, 5, x.size)
    tin = Tin.from_arrays(np.column_stack([x.ravel(), y.ravel(), z]), grid_faces(9, 9))
    heights, faces = whole(tin, Grid(-0.5, 8.5, 1, -1, 9, 9))
    np.testing.assert_allclose(heights[::-1].ravel(), z, rtol=0, atol=1e-15 * 8)
    assert (faces >= 0).all()
    fine, _ = whole(tin, Grid(-0.125, 8.125, 0.25, -0.25, 33, 33))
    sampled, _ = tin.sample(Grid(-0.125, 8.125, 0.25, -0.25, 33, 33).centres(0, 33))
    np.testing.assert_allclose(fine.ravel(), sampled, rtol=0, atol=1e-14)


def test_which_face_has_a_centre_on_a_shared_side():
    # The side x = 2 between a left and a right square, the side y = 2 between two rows of them.
    corners = [(x, y, 0.0) for y in (0, 2, 4) for x in (0, 2, 4)]
    faces = [(0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4), (3, 4, 7), (3, 7, 6), (4, 5, 8), (4, 8, 7)]
    for listed in (faces, faces[::-1]):
        _, found = whole(Tin.from_arrays(corners, listed), Grid(-0.5, 4.5, 1, -1, 5, 5))
        at = {place: listed[found[place]] for place in ((1, 2), (2, 1), (2, 3))}
        assert at[1, 2] in faces[4:6]  # (2, 3) lies between left and right: the left has it
        assert at[2, 1] in faces[0:2]  # (1, 2) lies between upper and lower: the lower has it
        assert at[2, 3] in faces[2:4]


def test_holes_and_what_lies_beyond_stay_empty():
    vertices = [(0, 0, 1), (12, 0, 1), (12, 12, 1), (0, 12, 1)]
    vertices += [(4, 4, 1), (8, 4, 1), (8, 8, 1), (4, 8, 1)]
    faces = [(0, 1, 5), (0, 5, 4), (1, 2, 6), (1, 6, 5), (2, 3, 7), (2, 7, 6), (3, 0, 4), (3, 4, 7)]
    heights, _ = whole(Tin.from_arrays(vertices, faces), Grid(-1, 13, 1, -1, 14, 14))
    assert np.isnan(heights[5:9, 5:9]).all()
    assert np.isnan(heights[[0, -1]]).all()
    assert (heights == 1).sum() == 12 * 12 - 16


def test_all_but_upright_step_keeps_between_its_heights():
    # Level at 10, a step down to 8 within 0.001, whose top and foot lie beside centres.
    for edge in (4.5 - 0.0005, 4.5 - 0.00099, 4.5 - 1e-5, 4.5):
        x = [0.0, edge, edge + 1e-3, 9.0]
        vertices = [(a, b, h) for a, h in zip(x, (10, 10, 8, 8), strict=True) for b in (0, 3.7, 9)]
        faces = grid_faces(3, 4)
        tin = Tin.from_arrays(vertices, faces)
        heights, _ = whole(tin, Grid(0, 9, 1, -1, 9, 9))
        assert (heights[:, :4] == 10).all() and (heights[:, 5:] == 8).all()
        truth = 10 - 2 * (4.5 - edge) / 1e-3
        np.testing.assert_allclose(heights[:, 4], truth, rtol=0, atol=1e-8)


def test_upright_faces_hide_no_centre():
    # A wall whose foot and top are one line in plan, at 45 degrees through centres.
    vertices = [(0, 0, 0), (9, 0, 0), (9, 9, 0), (0, 0, 5), (9, 9, 5), (0, 9, 5), (4, 4, 5)]
    faces = [(0, 1, 2), (3, 6, 5), (6, 4, 5), (0, 2, 6), (0, 6, 3), (2, 4, 6)]
    heights, _ = whole(Tin.from_arrays(vertices, faces), Grid(0, 9, 1, -1, 9, 9))
    assert not np.isnan(heights).any()
    assert ((heights >= 0) & (heights <= 5)).all()


def test_highest_of_faces_over_one_another_for_any_order_and_strip():
    low = [(0, 0, 1), (8, 0, 1), (0, 8, 1)]
    high = [(2.1, 0, 3), (8, 1.1, 3), (1, 7.3, 3)]
    grid = Grid(0, 8, 0.5, -0.5, 16, 16)
    tin = Tin.from_arrays(low + high, [(0, 1, 2), (3, 4, 5)])
    heights, faces = whole(tin, grid)
    upper, _ = whole(Tin.from_arrays(high, [(0, 1, 2)]), grid)
    lower, _ = whole(Tin.from_arrays(low, [(0, 1, 2)]), grid)
    assert np.array_equal(heights, np.fmax(upper, lower), equal_nan=True)
    assert np.array_equal(faces == 1, ~np.isnan(upper))
    for rows in (1, 3):
        turned = whole(Tin.from_arrays(low + high, [(3, 4, 5), (0, 1, 2)]), grid, rows)
        assert np.array_equal(turned[0], heights, equal_nan=True)
    twice = Tin.from_arrays(low + low, [(3, 4, 5), (0, 1, 2)])
    assert set(np.unique(whole(twice, grid)[1])) == {-1, 0}


def test_grid_inside_and_outside_the_surface():
    tin = square((0, 10, 10, 0))
    inner, _ = whole(tin, Grid(4, 6, 0.5, -0.5, 4, 4))
    assert np.array_equal(inner, np.tile([4.25, 4.75, 5.25, 5.75], (4, 1)))
    beyond, faces = whole(tin, Grid(20, 6, 0.5, -0.5, 4, 4))
    assert np.isnan(beyond).all() and (faces == -1).all()


def test_faces_smaller_than_pixels():
    x, y = np.meshgrid(np.linspace(0, 10, 201), np.linspace(0, 10, 201))
    z = np.sin(x) + np.cos(y)
    tin = Tin.from_arrays(np.column_stack([x.ravel(), y.ravel(), z.ravel()]), grid_faces(201, 201))
    grid = Grid(0, 10, 1, -1, 10, 10)
    heights, _ = whole(tin, grid)
    np.testing.assert_allclose(heights.ravel(), tin.sample(grid.centres(0, 10))[0], atol=1e-12)
