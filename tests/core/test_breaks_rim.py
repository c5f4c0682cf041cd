"""The outline of a surface as lines of the kind ``edge``."""

import itertools

import numpy as np
import pytest

from plugin.core.breaks import BREAK_KINDS, KINDS, Kind, Search, find_breaks
from plugin.core.tin import Tin

from .breaks_shapes import extruded, moved, rough, shuffled, tin, words

GRADE, ALONG = 0.02, 0.07
PLANE = [(0, 0), (4, 4 * GRADE), (7, 7 * GRADE), (12, 12 * GRADE)]
YS = (0.0, 4.0, 9.0, 15.0)
EDGE = [Kind.EDGE]


def with_hole():
    """Return a tilted plane of 12 by 15 whose middle quad, 3 by 5, is missing."""
    vertices, faces = extruded(PLANE, YS, slope_along=ALONG)
    middle = vertices[faces].mean(axis=1)
    inside = (middle[:, 0] > 4) & (middle[:, 0] < 7) & (middle[:, 1] > 4) & (middle[:, 1] < 9)
    return vertices, faces[~inside]


def edges_of(surface, **more):
    return find_breaks(surface, Search(0.02, kinds=EDGE, **more)).lines


def test_outline_and_hole_are_closed_lines_with_lengths_and_elevations():
    lines = edges_of(tin(*with_hole()))
    assert words(lines) == ["edge", "edge"]
    assert lines.closed.all()
    np.testing.assert_allclose(lines.length, [2 * (12 + 15), 2 * (3 + 5)])
    for number, start in enumerate(((0, 0, 0), (4, 4, 4 * GRADE + 4 * ALONG))):
        line = lines.line(number)
        np.testing.assert_allclose(line[0], start, atol=1e-12)
        np.testing.assert_array_equal(line[0], line[-1])


def test_the_surface_lies_on_the_left():
    lines = edges_of(tin(*with_hole()))
    area = []
    for number in range(2):
        x, y = lines.line(number)[:, :2].T
        area.append((x[:-1] * y[1:] - x[1:] * y[:-1]).sum() / 2)
    np.testing.assert_allclose(area, [12 * 15, -3 * 5])


def test_grade_is_that_into_the_surface_on_one_side_only():
    lines = edges_of(tin(*with_hole()))
    for number in range(2):
        # In from the west +2 %, from the east -2 %, from the south +7 %, from the north -7 %.
        assert lines.grade_left.low[number] == pytest.approx(-ALONG)
        assert lines.grade_left.high[number] == pytest.approx(ALONG)
        assert lines.grade_left.mean[number] == pytest.approx(0, abs=1e-12)
    for values in (lines.grade_right.mean, lines.change.mean, lines.angle, lines.sure):
        assert np.isnan(values).all()


def test_heights_in_another_unit():
    vertices, faces = with_hole()
    vertices[:, 2] /= 0.3048
    assert edges_of(tin(vertices, faces), z_scale=0.3048).grade_left.high[0] == pytest.approx(ALONG)


def test_only_on_request_and_after_the_breaks():
    surface = tin(*extruded([(0, 0), (10, 0.5), (20, 0)]))
    assert words(find_breaks(surface, Search(0.02)).lines) == ["ridge"]
    lines = find_breaks(surface, Search(0.02, kinds=KINDS)).lines
    assert words(lines) == ["ridge", "edge"]
    assert lines.offsets[-1] == len(lines.coordinates)
    np.testing.assert_allclose(lines.line(1)[:, 2].max(), 0.5)
    assert Kind.EDGE not in BREAK_KINDS


def test_a_short_border_is_left_out():
    lines = edges_of(tin(*with_hole()), min_length=20)
    np.testing.assert_allclose(lines.length, [54])
    assert len(lines.edges) == len(lines.coordinates) - 1


def test_pieces_have_outlines_of_their_own():
    vertices, faces = with_hole()
    both = np.vstack((vertices, moved(vertices, shift=(30, 0, 1))))
    lines = edges_of(tin(both, np.vstack((faces, faces + len(vertices)))))
    np.testing.assert_allclose(lines.length, [54, 16, 54, 16])


def test_edges_are_those_with_one_face_and_lie_under_the_line():
    surface = tin(*with_hole())
    lines = edges_of(surface)
    assert sorted(lines.edges) == sorted(surface.quick_edges.boundary)
    step = 0
    for number in range(len(lines)):
        line = lines.line(number)
        for one, other in itertools.pairwise(line):
            ends = surface.vertices[surface.quick_edges.ends[lines.edges[step]]]
            assert {tuple(one), tuple(other)} == {tuple(end) for end in ends}
            step += 1


@pytest.mark.parametrize("seed", range(4))
def test_order_of_faces_and_vertices_has_no_part(seed):
    vertices, faces = rough(8, 1.0, seed)
    keep = np.random.default_rng(seed).random(len(faces)) < 0.8
    one = edges_of(tin(vertices, faces[keep]))
    other = edges_of(Tin.from_arrays(*shuffled(vertices, faces[keep], seed + 10)))
    assert one.coordinates.tobytes() == other.coordinates.tobytes()
    assert (one.offsets == other.offsets).all()
    np.testing.assert_allclose(one.grade_left.mean, other.grade_left.mean, atol=1e-12)


def test_a_wall_counts_along_the_border_not_across_it():
    curb = extruded([(0, 0), (5, 0.1), (5.001, 0.6), (9, 0.7)])
    assert edges_of(tin(*curb)).wall.tolist() == [0]
    kept = extruded([(5, 0.1), (5.001, 0.6), (9, 0.7)])
    assert edges_of(tin(*kept)).wall.tolist() == [15]
