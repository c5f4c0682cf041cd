"""Profiles along sections: exact on triangles, one rule on rasters."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from plugin.core.lines.bundle import Lines
from plugin.core.measure.section_lines import sections_at
from plugin.core.measure.sections import grid_places, profiles_at, profiles_of_tin
from plugin.core.tin import Tin

from .section_shapes import lines_of, sections_every
from .tin_shapes import grid_faces, random_tin


def test_a_plane_is_one_straight_profile():
    x, y = np.meshgrid(np.arange(11.0), np.arange(11.0))
    plane = Tin.from_arrays(
        np.column_stack((x.ravel(), y.ravel(), (3 + 0.5 * x - 0.25 * y).ravel())),
        grid_faces(11, 11),
    )
    sections = sections_every(lines_of([(0.3, 5.2), (9.7, 5.2)]), 2.0, 4.0, 3.0)
    profiles = profiles_of_tin(sections, plane)
    for k in range(len(sections)):
        (run,) = profiles.runs(k)
        assert (run[0, 0], run[-1, 0]) == (-4.0, 3.0)
        xy = sections.places(np.full(len(run), k), run[:, 0])
        assert run[:, 1] == pytest.approx(3 + 0.5 * xy[:, 0] - 0.25 * xy[:, 1], rel=1e-12)
    # Travelling east, right is south: y falls as the offset grows.
    assert sections.places(np.array([0]), np.array([1.0]))[0] == pytest.approx((0.3, 4.2))


@pytest.mark.parametrize("shift", [0.0, 1e7])
@given(seed=st.integers(0, 400), bearing=st.floats(0, 360), reach=st.floats(2, 80))
def test_each_piece_is_the_face_cut_by_shapely(shift, seed, bearing, reach):
    """Differential: shapely's own intersection with each face's polygon, and the face's plane."""
    tin = random_tin(seed, shift=shift)
    centre = np.array([(tin.extent[0] + tin.extent[2]) / 2, (tin.extent[1] + tin.extent[3]) / 2])
    step = np.array([np.sin(np.radians(bearing)), np.cos(np.radians(bearing))])
    lines = lines_of([centre - 7.3 * step, centre + 9.1 * step])
    sections = sections_every(lines, 5.0, reach, 0.7 * reach)
    profiles = profiles_of_tin(sections, tin)
    corners = tin.vertices[tin.faces]
    local = corners[:, :, :2] - centre
    polygons = shapely.polygons(shapely.linearrings(local))
    left, right = (end - centre for end in sections.ends)
    for k in range(len(sections)):
        line = shapely.LineString([left[k], right[k]])
        shared = shapely.intersection(polygons, line)
        rows = profiles.rows(k)
        assert (profiles.stop - profiles.start)[rows].sum() == pytest.approx(
            shapely.length(shared).sum(), rel=1e-7, abs=1e-6
        )
        middle = (profiles.start[rows] + profiles.stop[rows]) / 2
        xy = sections.places(np.full(len(middle), k), middle)
        z = (profiles.z_start[rows] + profiles.z_stop[rows]) / 2
        wanted, face = tin.sample(xy)
        there = face >= 0
        assert there.sum() >= len(there) - 2  # a sliver at the border may miss its own middle
        assert z[there] == pytest.approx(wanted[there], rel=1e-6, abs=1e-5)


@given(seed=st.integers(0, 400), at=st.floats(-5, 5))
def test_neighbouring_pieces_share_their_ends_bit_for_bit(seed, at):
    tin = random_tin(seed)
    centre = np.array([(tin.extent[0] + tin.extent[2]) / 2, (tin.extent[1] + tin.extent[3]) / 2])
    lines = lines_of([centre + np.array([at, -3]), centre + np.array([at, 4])])
    sections = sections_every(lines, 2.0, 200.0, 200.0)
    profiles = profiles_of_tin(sections, tin)
    for k in range(len(sections)):
        rows = profiles.rows(k)
        start, stop = profiles.start[rows], profiles.stop[rows]
        z0, z1 = profiles.z_start[rows], profiles.z_stop[rows]
        touching = np.abs(start[1:] - stop[:-1]) < 1e-9
        assert (start[1:] == stop[:-1])[touching].all()
        assert (z0[1:] == z1[:-1])[touching].all()
        # The hull is convex and without holes: one run.
        assert touching.all()


@given(seed=st.integers(0, 200))
def test_a_line_turned_round_mirrors_offsets(seed):
    tin = random_tin(seed)
    x, y = tin.extent[:2]
    there = lines_of([(x + 3, y + 4), (x + 31, y + 23)])
    back = there.reversed()
    length = there.lengths[0]
    places = np.linspace(0, length, 6)
    one = profiles_of_tin(sections_at(there, np.zeros(6, int), places, 12, 9), tin)
    two = profiles_of_tin(sections_at(back, np.zeros(6, int), length - places, 9, 12), tin)
    for k in range(6):
        a, b = one.rows(k), two.rows(k)
        assert one.start[a] == pytest.approx(-two.stop[b][::-1], abs=1e-9)
        assert one.z_start[a] == pytest.approx(two.z_stop[b][::-1], abs=1e-9)


@pytest.mark.parametrize("place", [0.0, 2.0, 4.0])
def test_a_section_along_edges_is_whole_also_at_the_rim(place):
    """Along an edge, and along the border on either side of the surface, nothing comes twice."""
    x, y = np.meshgrid(np.arange(5.0), np.arange(5.0))
    tin = Tin.from_arrays(
        np.column_stack((x.ravel(), y.ravel(), (x * y).ravel())), grid_faces(5, 5)
    )
    for way in ([(0.0, 2.0), (4.0, 2.0)], [(4.0, 2.0), (0.0, 2.0)]):
        lines = lines_of(way)
        distance = place if way[0][0] == 0 else 4.0 - place
        sections = sections_at(lines, np.zeros(1, int), np.array([distance]), 3.0, 3.0)
        (run,) = profiles_of_tin(sections, tin).runs(0)
        assert run[[0, -1], 0] == pytest.approx((-2, 2))
        xy = sections.places(np.zeros(len(run), int), run[:, 0])
        assert run[:, 1] == pytest.approx(place * xy[:, 1])


def test_a_hole_is_a_gap_and_a_wall_is_a_jump():
    points = [(x, y, z) for x in (0, 10) for y, z in ((0, 0), (2, 0), (5, 1), (8, 1))]
    faces = [(0, 4, 5), (0, 5, 1), (2, 6, 7), (2, 7, 3)]
    holed = Tin.from_arrays(points, faces)
    sections = sections_every(lines_of([(1, 4), (9, 4)]), 0.0, 10, 10)
    profiles = profiles_of_tin(sections, holed)
    runs = profiles.runs(0)
    assert [run[[0, -1], 0].tolist() for run in runs] == [[-4.0, -1.0], [2.0, 4.0]]
    at = np.array([-2.0, 0.0, 3.0])
    assert profiles.heights(np.zeros(3, int), at)[[0, 2]].tolist() == [1.0, 0.0]
    assert np.isnan(profiles.heights(np.zeros(3, int), at)[1])
    walled = [(x, y, z) for x in (0, 10) for y, z in ((0, 0), (4, 0), (4, 3), (8, 3))]
    band = [(0, 4, 5), (0, 5, 1), (1, 5, 6), (1, 6, 2), (2, 6, 7), (2, 7, 3)]
    step = profiles_of_tin(sections, Tin.from_arrays(walled, band))
    (run,) = step.runs(0)
    jump = np.flatnonzero(np.diff(run[:, 0]) == 0)
    assert run[[0, *jump, *(jump + 1), -1]].tolist() == [[-4, 3], [0, 3], [0, 0], [4, 0]]
    zero = np.zeros(1, int)
    assert step.heights(zero, np.zeros(1), after=False)[0] == 3.0
    assert step.heights(zero, np.zeros(1), after=True)[0] == 0.0


def test_faces_over_one_another_do_not_count_twice():
    points = [(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (0, 3, 5), (10, 3, 5), (10, 7, 5)]
    tin = Tin.from_arrays(points, [(0, 1, 2), (0, 2, 3), (4, 5, 6)])
    sections = sections_every(lines_of([(1, 5), (9, 5)]), 2.0, 5, 5)
    profiles = profiles_of_tin(sections, tin)
    for k in range(len(sections)):
        rows = profiles.rows(k)
        assert (profiles.stop - profiles.start)[rows].sum() == pytest.approx(10.0)


def test_many_sections_at_once_are_each_alone():
    tin = random_tin(5, count=300)
    x0, y0, x1, y1 = tin.extent
    rng = np.random.default_rng(1)
    lines = Lines.from_arrays([rng.uniform((x0, y0), (x1, y1), (2, 2)) for _ in range(20)], 1e-6)
    sections = sections_every(lines, 3.0, 15, 25)
    together = profiles_of_tin(sections, tin)
    for k in range(0, len(sections), 7):
        alone = profiles_of_tin(sections.take(np.array([k])), tin)
        rows = together.rows(k)
        assert together.start[rows].tolist() == alone.start.tolist()
        assert together.z_stop[rows].tolist() == alone.z_stop.tolist()


@given(turn=st.floats(0, 360), pixel=st.floats(0.3, 3))
def test_rasters_bend_where_pixel_centres_are_crossed(turn, pixel):
    """Between places the section crosses no row and no column of centres."""
    transform = (100.0, pixel, 0.0, 200.0, 0.0, -pixel)
    way = np.array([np.cos(np.radians(turn)), np.sin(np.radians(turn))])
    middle = np.array([100 + 15 * pixel, 200 - 10 * pixel])
    lines = lines_of([middle - way, middle + way])
    sections = sections_every(lines, 1.0, 12.0, 9.0)
    section, offset = grid_places(sections, transform, 30, 20)
    xy = sections.places(section, offset)
    column = (xy[:, 0] - 100) / pixel - 0.5
    row = (200 - xy[:, 1]) / pixel - 0.5
    inside = (column > 1e-6) & (column < 29 - 1e-6) & (row > 1e-6) & (row < 19 - 1e-6)
    whole = np.minimum(np.abs(column - np.round(column)), np.abs(row - np.round(row))) < 1e-6
    ends = (offset == -sections.left_reach[section]) | (offset == sections.right_reach[section])
    assert (whole | ends | ~inside).all()
    same = (section[1:] == section[:-1]) & inside[1:] & inside[:-1]
    for values in (column, row):
        low, high = np.minimum(values[1:], values[:-1]), np.maximum(values[1:], values[:-1])
        crossed = np.floor(high - 1e-6) >= np.ceil(low + 1e-6)
        assert not (crossed & same).any()


def test_places_without_height_leave_a_gap():
    section = np.zeros(5, int)
    offset = np.arange(5.0)
    profiles = profiles_at(section, offset, np.array([1, 2, np.nan, 4, 5.0]))
    assert [run.tolist() for run in profiles.runs(0)] == [[[0, 1], [1, 2]], [[3, 4], [4, 5]]]
