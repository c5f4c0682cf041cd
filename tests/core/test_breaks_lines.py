"""Break lines of whole surfaces: what they are made of and which way they run."""

import numpy as np
import pytest

from plugin.core.breaks import KINDS, Kind, Measure
from plugin.core.errors import UndercourseError

from .breaks_shapes import breaks_of, cone, extruded, moved, rough, tin, words

PLATFORM = [(0, 0), (10, 0), (16, -2), (30, -2)]
ROOF = [(0, 0), (10, 1.0), (20, 0)]


def steps_ascend(line, axis):
    return (np.diff(line[:, axis]) > 0).all()


@pytest.mark.parametrize("slope", [(0.0, 0.0), (0.12, -0.07), (-3.0, 1.0)])
def test_no_break_on_a_plane(slope):
    vertices, faces = rough(20, 0.0, 2)
    vertices[:, 2] = vertices[:, :2] @ slope
    vertices += [1e7, -1e7, 50]
    lines = breaks_of(tin(vertices, faces), 1e-4)
    assert len(lines) == 0
    assert lines.coordinates.shape == (0, 3)
    assert lines.offsets.tolist() == [0]


def test_figures_of_one_line():
    lines = breaks_of(tin(*extruded(ROOF, ys=(0, 4, 9, 15), slope_along=-0.05)), 0.02)
    assert words(lines) == ["ridge"]
    np.testing.assert_allclose(lines.line(0), [(10, y, 1 - 0.05 * y) for y in (0, 4, 9, 15)])
    for spread, value in (
        (lines.change, 0.2),
        (lines.grade_left, -0.1),
        (lines.grade_right, -0.1),
    ):
        for each in (spread.mean, spread.low, spread.high):
            np.testing.assert_allclose(each, [value], rtol=1e-12)
    assert lines.length.tolist() == [15.0]
    np.testing.assert_allclose(lines.z_start - lines.z_end, 0.75)
    assert not lines.closed[0] and lines.wall[0] == 0 and not lines.doubtful[0]
    assert len(lines.edges) == 3


def test_mean_is_weighted_by_length_and_spread_is_kept():
    """A ridge whose sides fall 10 % along 10 units and 14 % along 5."""
    vertices = [(10, 0, 1), (10, 10, 1), (10, 15, 1)]
    vertices += [(0, 5, 0), (0, 12.5, -0.4), (20, 5, 0), (20, 12.5, -0.4)]
    faces = [(0, 1, 3), (1, 4, 3), (1, 2, 4), (0, 5, 1), (1, 5, 6), (1, 6, 2)]
    lines = breaks_of(tin(vertices, faces), 0.15)
    assert words(lines) == ["ridge"]
    expected = {"mean": (10 * 0.10 + 5 * 0.14) / 15, "low": 0.10, "high": 0.14}
    for name, value in expected.items():
        np.testing.assert_allclose(getattr(lines.change, name), 2 * value, rtol=1e-12)
    np.testing.assert_allclose(lines.grade_left.mean, -expected["mean"], rtol=1e-12)
    np.testing.assert_allclose(lines.grade_right.low, -0.14, rtol=1e-12)
    np.testing.assert_allclose(lines.grade_right.high, -0.10, rtol=1e-12)
    angle = 2 * (10 * np.arctan(0.10) + 5 * np.arctan(0.14)) / 15
    np.testing.assert_allclose(lines.angle, angle, rtol=1e-12)


@pytest.mark.parametrize("mirror", [False, True])
@pytest.mark.parametrize("degrees", [0, 90, 200])
@pytest.mark.parametrize("along", [-0.04, 0.0, 0.04])
def test_top_and_toe_keep_the_uphill_side_on_the_left(mirror, degrees, along):
    vertices, faces = extruded(PLATFORM, slope_along=along)
    lines = breaks_of(tin(moved(vertices, degrees, mirror=mirror), faces), 0.02)
    top = np.flatnonzero(lines.of_kind(Kind.TOP))
    toe = np.flatnonzero(lines.of_kind(Kind.TOE))
    assert len(top) == len(toe) == 1
    np.testing.assert_allclose(lines.grade_left.mean[top], 0, atol=1e-9)
    np.testing.assert_allclose(lines.grade_right.mean[top], -1 / 3, rtol=1e-9)
    np.testing.assert_allclose(lines.grade_left.mean[toe], 1 / 3, rtol=1e-9)
    np.testing.assert_allclose(lines.grade_right.mean[toe], 0, atol=1e-9)


def test_left_means_left_of_the_line_as_drawn():
    lines = breaks_of(tin(*extruded(PLATFORM)), 0.02)
    # The ground falls towards +x: with the uphill side on the left the line runs north.
    for number in range(len(lines)):
        assert steps_ascend(lines.line(number), 1)


@pytest.mark.parametrize("section", [ROOF, [(x, -z) for x, z in ROOF]])
@pytest.mark.parametrize("along", [-0.04, 0.04])
def test_ridge_and_valley_run_downhill(section, along):
    lines = breaks_of(tin(*extruded(section, slope_along=along)), 0.02)
    assert len(lines) == 1
    assert lines.z_start[0] > lines.z_end[0]


@pytest.mark.parametrize("mirror", [False, True])
def test_level_ridge_has_its_lower_side_on_the_right(mirror):
    vertices, faces = extruded([(0, 0), (10, 1), (20, -1)])
    lines = breaks_of(tin(moved(vertices, 30, mirror=mirror), faces), 0.02)
    np.testing.assert_allclose(lines.grade_left.mean, -0.1, rtol=1e-9)
    np.testing.assert_allclose(lines.grade_right.mean, -0.2, rtol=1e-9)


def test_level_and_even_ridge_starts_in_the_west():
    vertices, faces = extruded(ROOF)
    for degrees in (20, 160, 250):
        lines = breaks_of(tin(moved(vertices, degrees), faces), 0.02)
        assert steps_ascend(lines.line(0), 0)


def test_loops_stay_closed_and_run_by_rule():
    """A round platform with 2:1 sides on a level floor: two rings."""
    turn = 2 * np.pi * np.arange(24) / 24
    rings = [
        np.column_stack((r * np.cos(turn), r * np.sin(turn), np.full(24, z)))
        for r, z in ((5, 2.0), (9, 0.0), (15, 0.0))
    ]
    vertices = np.vstack([*rings, [(0, 0, 2.0)]])
    i = np.arange(24)
    j = (i + 1) % 24
    faces = [np.column_stack((i, j, np.full(24, 72)))]
    for k in (0, 24):
        faces += [
            np.column_stack((i + k, i + k + 24, j + k)),
            np.column_stack((j + k, i + k + 24, j + k + 24)),
        ]
    # Facets of the cone frustum themselves change by 2 tan(pi/24) / 2 = 13 %: ask for more.
    lines = breaks_of(tin(vertices, np.concatenate(faces)), 0.3)
    assert sorted(words(lines)) == ["toe", "top"]
    assert lines.closed.all()
    for number in range(2):
        line = lines.line(number)
        assert (line[0] == line[-1]).all() and len(line) == 25
        assert tuple(line[0, :2]) == min(map(tuple, line[:, :2]))
        # Uphill is inside, so inside is on the left: counter-clockwise.
        assert (line[:-1, 0] * line[1:, 1] - line[:-1, 1] * line[1:, 0]).sum() > 0


@pytest.mark.parametrize("mirror", [False, True])
def test_even_loop_runs_counter_clockwise(mirror):
    """A round dike whose inner and outer sides fall alike."""
    turn = 2 * np.pi * np.arange(16) / 16
    radii = (20 - 5 * np.cos(np.pi / 16), 20.0, 20 + 5 * np.cos(np.pi / 16))
    rings = [
        np.column_stack((r * np.cos(turn), r * np.sin(turn), np.full(16, z)))
        for r, z in zip(radii, (0.0, 2.0, 0.0), strict=True)
    ]
    i = np.arange(16)
    j = (i + 1) % 16
    faces = [
        np.column_stack(corners)
        for k in (0, 16)
        for corners in ((i + k, i + k + 16, j + k), (j + k, i + k + 16, j + k + 16))
    ]
    vertices = moved(np.vstack(rings), 11, mirror=mirror)
    lines = breaks_of(tin(vertices, np.concatenate(faces)), 0.3)
    assert words(lines) == ["ridge"] and lines.closed[0]
    line = lines.line(0)
    assert (line[:-1, 0] * line[1:, 1] - line[:-1, 1] * line[1:, 0]).sum() > 0


def test_lines_end_at_a_junction_where_none_goes_straight_on():
    lines = breaks_of(tin(*cone(5)), 0.02)
    assert len(lines) == 5
    apex = (lines.coordinates == [0, 0, 3]).all(axis=1)
    ends = np.concatenate((lines.offsets[:-1], lines.offsets[1:] - 1))
    assert set(np.flatnonzero(apex)) <= set(ends)


def test_line_is_split_where_its_kind_changes():
    """A spur whose west side turns from falling to rising: ridge, then top."""
    vertices, faces = extruded(ROOF, ys=(0, 5, 10, 15))
    west = (vertices[:, 0] == 0) & (vertices[:, 1] > 7)
    vertices[west, 2] = 1.6
    lines = breaks_of(tin(vertices, faces), 0.02)
    crest = [i for i in range(len(lines)) if np.allclose(lines.line(i)[:, 0], 10)]
    assert sorted(words(lines)[i] for i in crest) == ["ridge", "top"]
    assert sum(lines.length[i] for i in crest) == 15


def test_kinds_and_length_choose_whole_lines():
    surface = tin(*rough(20, 0.6, 8))
    every = breaks_of(surface, 0.05)
    limit = float(np.median(every.length))
    some = breaks_of(surface, 0.05, kinds=[Kind.RIDGE, Kind.TOE], min_length=limit)
    codes = [KINDS.index(Kind.RIDGE), KINDS.index(Kind.TOE)]
    kept = np.flatnonzero(np.isin(every.kind, codes) & (every.length >= limit))
    assert 0 < len(kept) < len(every)
    assert len(some) == len(kept)
    for number, old in enumerate(kept):
        assert (some.line(number) == every.line(old)).all()
    assert (some.change.mean == every.change.mean[kept]).all()


def test_none_of_the_kinds():
    lines = breaks_of(tin(*extruded(ROOF)), 0.02, kinds=[Kind.VALLEY])
    assert len(lines) == 0


def test_every_break_edge_lies_in_one_line():
    surface = tin(*rough(20, 0.6, 8))
    lines = breaks_of(surface, 0.05)
    assert len(np.unique(lines.edges)) == len(lines.edges)
    steps = np.ones(len(lines.coordinates), bool)
    steps[lines.offsets[:-1]] = False
    heads = np.flatnonzero(steps)
    segments = np.stack((lines.coordinates[heads - 1], lines.coordinates[heads]), axis=1)
    edges = surface.vertices[surface.quick_edges.ends[lines.edges]]
    same = (segments == edges).all(axis=(1, 2))
    turned = (segments == edges[:, ::-1]).all(axis=(1, 2))
    assert (same | turned).all()


def test_upright_part_of_a_line_is_left_out_of_its_figures():
    """A valley along x = 0: its east side rises 10 % along 10 units, then stands upright."""
    vertices = [(0, 0, 0), (0, 10, 0), (0, 15, 0), (-5, 7, 0.5), (10, 5, 1), (0, 12.5, 1)]
    faces = [(0, 1, 3), (1, 2, 3), (0, 4, 1), (1, 5, 2)]
    lines = breaks_of(tin(vertices, faces), 0.02)
    assert words(lines) == ["valley"]
    assert lines.wall.tolist() == [5.0]
    assert lines.length.tolist() == [15.0]
    for spread, value in ((lines.grade_right, 0.1), (lines.grade_left, 0.1)):
        np.testing.assert_allclose([spread.mean, spread.low, spread.high], value, rtol=1e-12)
    np.testing.assert_allclose(lines.change.high, 0.2, rtol=1e-12)


def test_upright_kerb_gives_a_wall_pair_without_figures():
    vertices = np.array(
        [(0, 0, 0), (0, 5, 0), (3, 0, 0), (3, 5, 0), (3, 0, 2), (3, 5, 2), (8, 0, 2), (8, 5, 2)],
        float,
    )
    faces = [(0, 2, 1), (1, 2, 3), (2, 4, 3), (3, 4, 5), (4, 6, 5), (5, 6, 7)]
    lines = breaks_of(tin(vertices, faces), 0.02)
    assert sorted(words(lines)) == ["toe", "top"]
    assert (lines.wall == 5).all()
    assert np.isnan(lines.change.mean).all()
    top = int(np.flatnonzero(lines.of_kind(Kind.TOP))[0])
    assert lines.z_start[top] == 2
    # Uphill on the left all the same: the upper level lies at +x, so the line runs south.
    assert not steps_ascend(lines.line(top), 1)


def test_edge_with_three_faces_is_left_out_and_its_neighbours_flagged():
    vertices, faces = extruded(ROOF, ys=(0, 5, 10, 15))
    fin = np.array([(10.0, 7.0, 9.0)])
    crest = [np.flatnonzero((vertices[:, :2] == (10, y)).all(axis=1))[0] for y in (5, 10)]
    vertices = np.vstack((vertices, fin))
    faces = np.vstack((faces, [(*crest, len(vertices) - 1)]))
    lines = breaks_of(tin(vertices, faces), 0.02)
    np.testing.assert_allclose(lines.skipped, [(10, 7.5, 1)])
    crest_lines = [i for i in range(len(lines)) if np.allclose(lines.line(i)[:, 0], 10)]
    assert [lines.length[i] for i in crest_lines] == [5, 5]
    assert lines.doubtful[crest_lines].all()


def test_fold_is_no_break_and_is_reported():
    """Two faces on the same side of their edge: no slope change can be meant there."""
    vertices = np.array([(0, 0, 0), (0, 10, 0), (6, 5, 0), (5, 4, 3)], float)
    lines = breaks_of(tin(vertices, [(0, 2, 1), (0, 3, 1)]), 0.02)
    assert len(lines) == 0
    np.testing.assert_allclose(lines.skipped, [(0, 5, 0)])


def test_face_without_any_area_is_reported():
    vertices = np.array([(0, 0, 0), (0, 10, 0), (-5, 5, 1), (0, 5, 0)], float)
    lines = breaks_of(tin(vertices, [(0, 1, 2), (0, 3, 1)]), 0.02)
    assert len(lines) == 0
    np.testing.assert_allclose(lines.skipped, [(0, 5, 0)])


@pytest.mark.parametrize(
    ("minimum", "measure"),
    [(0.0, Measure.GRADE), (-0.02, Measure.GRADE), (np.nan, Measure.GRADE), (4.0, Measure.ANGLE)],
)
def test_senseless_threshold_is_refused(minimum, measure):
    with pytest.raises(UndercourseError, match="above 0"):
        breaks_of(tin(*extruded(ROOF)), minimum, measure=measure)


def test_progress_grows_to_one():
    seen = []
    breaks_of(tin(*rough(20, 0.6, 8)), 0.05, progress=seen.append)
    assert seen == sorted(seen) and seen[-1] == 1.0
