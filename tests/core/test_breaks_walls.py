"""Near-vertical faces: a pair of lines, along the foot and along the top, and nothing between."""

import numpy as np
import pytest
import shapely

from plugin.core.breaks import BREAK_KINDS, Search, find_breaks
from plugin.core.breaks.walls import walls
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Outside
from plugin.core.tin import Tin
from plugin.core.tin.intake import weld_triangles
from plugin.core.tolerance import Tolerance

from .breaks_shapes import at_x, extruded, moved, shuffled, tin, words
from .cut_shapes import sheet, zones_of

YS = np.linspace(0, 30, 16)
RUN = 0.001
CURB = [(0, 0.2), (8, 0.04), (8 + RUN, 0.54), (14, 0.66)]
RETAINED = [(0, 0), (8, 0), (8 + RUN, 3), (16, 3)]
TRENCH = [(0, 0), (8, 0), (8 + RUN, -1), (10, -1), (10 + RUN, 0), (18, 0)]


def lines_of(surface, **more):
    return find_breaks(surface, Search(0.02, **more)).lines


def island(height=0.5, sides=24, radius=6.0, run=RUN):
    """Return a level round island with an upright curb all about it, on a level floor."""
    turn = 2 * np.pi * np.arange(sides) / sides
    ring = np.column_stack((np.cos(turn), np.sin(turn)))
    circles = [(14.0, 0.0), (radius, 0.0), (radius - run, height)]
    vertices = np.vstack([np.column_stack((r * ring, np.full(sides, z))) for r, z in circles])
    vertices = np.vstack((vertices, [0, 0, height]))
    a = np.arange(sides)
    b = (a + 1) % sides
    faces = [np.column_stack((a + 2 * sides, b + 2 * sides, np.full(sides, 3 * sides)))]
    for inner in (1, 2):
        low, high = (inner - 1) * sides, inner * sides
        faces += [np.column_stack((a + low, b + low, b + high))]
        faces += [np.column_stack((a + low, b + high, a + high))]
    return vertices, np.concatenate(faces)


@pytest.mark.parametrize("support", [0.0, 2.0])
@pytest.mark.parametrize("run", [0.0, RUN])
@pytest.mark.parametrize(
    ("profile", "foot", "kinds", "height"),
    [(CURB, 8, ["valley", "top"], 0.5), (RETAINED, 8, ["toe", "top"], 3.0)],
)
def test_a_wall_is_two_lines_that_know_each_other(profile, foot, kinds, height, run, support):
    vertices, faces = extruded(profile, YS, slope_along=-0.01)
    above = np.isclose(vertices[:, 0], 8 + RUN, atol=1e-9)
    vertices[above, 0] = 8 + run
    lines = lines_of(Tin.from_arrays(vertices, faces), support=support)
    assert words(lines) == kinds
    np.testing.assert_allclose(lines.length, 30)
    np.testing.assert_allclose(lines.wall, 30)
    assert len(lines.skipped) == 0 and not lines.doubtful.any()
    found = walls(lines)
    assert found.foot.tolist() == [True, False]
    assert found.top.tolist() == [False, True]
    assert found.pair.tolist() == [1, 0]
    np.testing.assert_allclose(found.height, height, atol=1e-6)


def test_the_walls_of_a_trench_are_two_pairs():
    lines = lines_of(tin(*extruded(TRENCH, YS)))
    found = walls(lines)
    west, east = (at_x(lines, 8), at_x(lines, 8 + RUN)), (at_x(lines, 10 + RUN), at_x(lines, 10))
    for top, foot in (west, east):
        assert found.top[top] and found.foot[foot]
        assert (found.pair[top], found.pair[foot]) == (foot, top)
        assert found.height[top] == pytest.approx(1)


def test_heights_in_another_unit():
    vertices, faces = extruded(RETAINED, YS)
    vertices[:, 2] /= 0.3048
    lines = lines_of(tin(vertices, faces), z_scale=0.3048)
    found = walls(lines, 0.3048)
    assert found.pair.tolist() == [1, 0]
    np.testing.assert_allclose(found.height, 3 / 0.3048)


@pytest.mark.parametrize("support", [0.0, 2.0])
@pytest.mark.parametrize("run", [0.0, RUN])
def test_round_an_island_both_lines_are_closed_and_nothing_runs_down_the_wall(run, support):
    lines = lines_of(tin(*island(run=run)), support=support)
    assert sorted(words(lines)) == ["toe", "top"]
    assert lines.closed.all()
    found = walls(lines)
    assert found.pair.tolist() == [1, 0]
    np.testing.assert_allclose(found.height, 0.5, atol=1e-9)


def test_rounding_of_a_thin_face_makes_no_line_along_its_diagonals():
    """The top of a step 0.001 wide, moved by millionths: its faces differ by whole percents."""
    vertices, faces = extruded([(0, 0), (8, 0), (8 + RUN, 0.5), (16, 0.5)], YS)
    top = np.isclose(vertices[:, 0], 8 + RUN)
    vertices[top, 0] += np.random.default_rng(2).uniform(-1e-6, 1e-6, top.sum())
    lines = lines_of(tin(vertices, faces))
    assert words(lines) == ["toe", "top"]
    np.testing.assert_allclose(lines.length, 30, atol=1e-6)


def test_a_crest_between_two_steep_faces_is_still_a_ridge():
    """A fin, 1100 % up and down: steep on both sides, but its crest does not run down a wall."""
    lines = lines_of(tin(*extruded([(0, 0), (1, 11), (2, 0)], YS)))
    assert words(lines) == ["ridge"]
    assert walls(lines).pair.tolist() == [-1]


def test_a_bank_is_no_wall():
    found = walls(lines_of(tin(*extruded([(0, 0), (8, 0), (10, 1), (16, 1)], YS))))
    assert not (found.top | found.foot).any()
    assert np.isnan(found.height).all()


def test_without_the_line_at_the_foot_the_top_has_no_pair():
    kinds = [kind for kind in BREAK_KINDS if kind != "toe"]
    lines = lines_of(tin(*extruded(RETAINED, YS)), kinds=kinds)
    assert words(lines) == ["top"]
    assert walls(lines).pair.tolist() == [-1]


def test_pieces_holes_and_vertices_given_twice():
    """Two pieces, one with a hole beside the curb, as loose triangles that share no vertex."""
    vertices, faces = extruded(CURB, YS)
    middle = vertices[faces].mean(axis=1)
    hole = (middle[:, 0] > 8.1) & (middle[:, 1] > 10) & (middle[:, 1] < 14)
    faces = faces[~hole]
    both = np.concatenate((vertices[faces], moved(vertices, shift=(40, 5, 2))[faces]))
    welded = weld_triangles(both, 1e-4)
    lines = lines_of(Tin.from_arrays(welded.vertices, welded.faces))
    # Beside the hole the wall has no top: no surface lies there.
    assert sorted(words(lines)) == ["top", "top", "top", "top", "valley", "valley"]
    found = walls(lines)
    for foot in np.flatnonzero(found.foot):
        assert lines.length[foot] == pytest.approx(30)
        assert found.height[foot] == pytest.approx(0.5, abs=1e-6)
        tops = np.flatnonzero(found.top & (found.pair == foot))
        assert lines.length[tops].sum() == pytest.approx(26)
    assert len(lines.skipped) == 0


@pytest.mark.parametrize("support", [0.0, 1.0])
@pytest.mark.parametrize("shift", [0.0, 1e6])
@pytest.mark.parametrize(
    ("slope", "kinds"), [(0.0, ["toe", "top"]), (0.03, ["ridge", "toe", "top", "valley"])]
)
def test_the_steps_of_a_depth_surface(slope, kinds, support, shift):
    """A round zone 0.5 below a plane: the rim and the foot of its step, and no more.

    On a slope the lower half of the rim is a ridge, and the lower half of the foot a valley: the
    ground falls away from the one, and the bottom rises from the other.
    """
    plane = sheet(21, 21, 1.0, 0.2, height=lambda plan: slope * (plan[:, 0] - plan[:, 1]))
    vertices = np.add(plane.vertices, (shift, 5 * shift, 0.0))
    # A number of sides that shares no direction with the grid.
    zone = shapely.Point(10.3 + shift, 9.6 + 5 * shift).buffer(6.0, quad_segs=7)
    zones = zones_of((zone, 0.5))
    design = Tin.from_arrays(vertices, plane.faces)
    lines = lines_of(
        depth_surface(design, zones, Outside.KEEP, 0.0, Tolerance()).tin, support=support
    )
    assert sorted(words(lines)) == kinds
    found = walls(lines)
    for chosen in (found.top, found.foot):
        assert lines.length[chosen].sum() == pytest.approx(shapely.length(zone), rel=2e-3)
    np.testing.assert_allclose(found.height, 0.5, atol=2e-3)
    for number, pair in enumerate(found.pair):
        assert found.pair[pair] == number
        assert found.top[number] == found.foot[pair]


@pytest.mark.parametrize("seed", range(3))
def test_order_has_no_part(seed):
    one = lines_of(tin(*island()))
    other = lines_of(tin(*shuffled(*island(), seed)))
    assert one.coordinates.tobytes() == other.coordinates.tobytes()
    assert walls(one).pair.tolist() == walls(other).pair.tolist()
