"""Needles that site coordinates turn over are taken out without a gap."""

import numpy as np

from plugin.core.depth.needles import doubled_areas, without_needles
from plugin.core.tin import Tin

SQUARE = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]


def whole(xy, faces, area):
    """Whether faces are a surface that covers an area once."""
    xyz = np.column_stack((xy, np.zeros(len(xy))))
    tin = Tin(xyz, np.asarray(faces))
    areas = doubled_areas(np.asarray(xy), tin.faces)
    return (
        (areas > 0).all() and np.isclose(areas.sum(), 2 * area) and not len(tin.edges.nonmanifold)
    )


def test_the_face_across_the_longest_side_takes_the_middle_corner_over():
    xy = np.array([*SQUARE, (2.0, 2.0)])  # on the diagonal
    faces = np.array([(0, 1, 4), (1, 2, 4), (0, 4, 2), (0, 2, 3)])
    left, rows = without_needles(xy, faces, np.array([2]))
    assert whole(xy, left, 16) and len(left) == 4
    assert sorted(rows) == [0, 1, 3, 3]


def test_a_needle_at_the_border_is_left_out():
    xy = np.array([*SQUARE[:3], (2.0, 2.0)])
    faces = np.array([(0, 1, 3), (1, 2, 3), (0, 3, 2)])
    left, rows = without_needles(xy, faces, np.array([2]))
    assert whole(xy, left, 8) and list(rows) == [0, 1]


def test_corners_in_one_place_become_one():
    xy = np.array([*SQUARE, (2.0, 2.0), (2.0, 2.0)])
    faces = np.array([(0, 1, 4), (1, 2, 5), (2, 3, 5), (3, 0, 4), (1, 5, 4), (3, 4, 5)])
    left, rows = without_needles(xy, faces, np.array([4, 5]))
    assert whole(xy, left, 16) and list(rows) == [0, 1, 2, 3] and 5 not in left


def test_faces_that_are_well_are_left_alone():
    xy, faces = np.array(SQUARE), np.array([(0, 1, 2), (0, 2, 3)])
    left, rows = without_needles(xy, faces, np.array([], dtype=int))
    assert np.array_equal(left, faces) and list(rows) == [0, 1]
