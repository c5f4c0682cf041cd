"""Each fault planted in a sound surface is found, with its place and extent, and nothing else."""

from collections import Counter

import numpy as np
import pytest
import shapely

from plugin.core.measure import issues as listing
from plugin.core.measure.issues import CODES, Issues, JobScale, Weight, code_title, what_to_do
from plugin.core.measure.pond_check import check_ponds
from plugin.core.measure.surface_check import check_surface
from plugin.core.measure.unit_check import (
    Reading,
    foot_issue,
    height_issues,
    place_issue,
    readings,
)
from plugin.core.tin import Tin
from plugin.core.tin.intake import tin_from_faces
from plugin.core.tin.rim import skinny_rim
from plugin.core.tin.spikes import find_spikes
from plugin.core.tolerance import Tolerance
from plugin.core.units import FOOT, METRE, US_SURVEY_FOOT

from .pond_shapes import channel
from .tin_shapes import REAL, grid_faces, random_tin, read_real

METRES = JobScale(METRE, METRE)
SIZE = 12
FAR = 10_000_000.0


def sound(place=(0.0, 0.0)):
    """Return vertices and faces of 11 x 11 cells of 5 m on a plane."""
    plan = np.stack(np.meshgrid(np.arange(SIZE), np.arange(SIZE)), axis=-1).reshape(-1, 2) * 5.0
    z = 100.0 + 0.02 * plan[:, 0] + 0.01 * plan[:, 1]
    return np.column_stack((plan + place, z)), grid_faces(SIZE, SIZE)


def vertex(column, row):
    return row * SIZE + column


def found(vertices, faces, spike=0.3, scale=METRES):
    tin = Tin.from_arrays(vertices, faces)
    issues, joined = check_surface(tin, Tolerance(), scale, spike)
    check_ponds(issues, joined, scale, 0.006)
    issues.take(height_issues(tin, scale))
    return issues


def codes(issues):
    return Counter({code: issues.count(code) for code in CODES if issues.count(code)})


@pytest.mark.parametrize("place", [(0.0, 0.0), (FAR, FAR)])
def test_a_sound_surface_gives_a_clean_sheet(place):
    assert found(*sound(place)).found == []


def test_every_code_has_a_title_and_something_to_do():
    for code in CODES:
        assert code_title(code)
        assert what_to_do(code, Weight.CHECK).endswith(".")


@pytest.mark.parametrize("place", [(0.0, 0.0), (FAR, FAR)])
def test_a_hole_with_its_area(place):
    vertices, faces = sound(place)
    cells = faces.reshape(SIZE - 1, SIZE - 1, 2, 3)
    keep = np.ones(cells.shape[:2], bool)
    keep[4:6, 3:5] = False
    issues = found(vertices, cells[keep].reshape(-1, 3))
    # The vertex in the middle of the hole is left without a face.
    assert codes(issues) == {"hole": 1, "unused_vertex": 1}
    (hole,) = [one for one in issues.found if one.code == "hole"]
    assert hole.area == pytest.approx(100.0)
    assert hole.extent.area == pytest.approx(100.0)
    x, y = hole.place
    assert 15 < x - place[0] < 25
    assert 20 < y - place[1] < 30


def test_a_hole_that_touches_the_border_is_one():
    ring = [(0, 0), (5, 0), (10, 0), (10, 10), (0, 10)]
    ground = shapely.Polygon(ring, [[(5, 0), (7, 4), (3, 4)]])
    cut = shapely.get_parts(shapely.constrained_delaunay_triangles(ground))
    plan = shapely.get_coordinates(cut).reshape(-1, 4, 2)[:, :3]
    corners = np.concatenate([plan, np.ones((len(plan), 3, 1))], axis=2)
    tin = tin_from_faces(corners, 1e-4)
    issues = found(tin.vertices, tin.faces)
    assert codes(issues) == {"hole": 1}
    assert issues.found[0].area == pytest.approx(8.0)


def test_faces_over_one_another_are_one_finding_with_their_ground():
    vertices, faces = sound()
    over = np.array([(11.0, 11.0, 101.0), (19.0, 11.0, 101.0), (11.0, 19.0, 101.0)])
    issues = found(np.vstack([vertices, over]), np.vstack([faces, [144, 145, 146]]))
    assert codes(issues) == {"overlap": 1, "piece": 1}
    (overlap,) = [one for one in issues.found if one.code == "overlap"]
    assert overlap.area == pytest.approx(32.0)
    assert overlap.weight is Weight.ERROR
    assert str(len(faces) + 1) in overlap.why


def test_a_spike_up_and_a_spike_down():
    vertices, faces = sound()
    vertices[vertex(5, 5), 2] += 3.0
    vertices[vertex(8, 3), 2] -= 2.0
    issues = found(vertices, faces)
    assert codes(issues) == {"spike": 2, "pond": 1}
    heights = {one.place: one.height for one in issues.found if one.code == "spike"}
    assert heights == {(25.0, 25.0): pytest.approx(3.0), (40.0, 15.0): pytest.approx(-2.0)}
    assert codes(found(vertices, faces, spike=2.5))["spike"] == 1


def test_a_spike_beside_a_spike_is_found_too():
    vertices, faces = sound()
    vertices[[vertex(5, 5), vertex(6, 5)], 2] += (30.0, -30.0)
    spikes = find_spikes(Tin.from_arrays(vertices, faces), 0.3)
    assert spikes.vertex.tolist() == [vertex(5, 5), vertex(6, 5)]


def test_curbs_banks_mounds_and_crowns_are_no_spikes():
    vertices, faces = sound()
    x, y = vertices[:, 0], vertices[:, 1]
    shapes = (
        np.where(x > 25, 2.0, 0.0),
        np.maximum(0, x - 25) / 2,
        -0.1 * np.abs(x - 25),
        6.0 - 0.15 * np.hypot(x - 25, y - 25),
        0.002 * (x - 25) ** 2,
    )
    for z in shapes:
        vertices[:, 2] = z
        assert len(find_spikes(Tin.from_arrays(vertices, faces), 0.3).vertex) == 0


def test_spikes_do_not_depend_on_place_and_unit():
    rng = np.random.default_rng(5)
    tin = random_tin(3, 400, height=lambda plan: 0.05 * plan[:, 0])
    z = tin.vertices[:, 2] + rng.normal(0, 0.02, len(tin.vertices))
    z[rng.choice(len(z), 8, replace=False)] += 2.5
    near = Tin.from_arrays(np.column_stack((tin.vertices[:, :2], z)), tin.faces)
    spikes = find_spikes(near, 0.5)
    assert len(spikes.vertex) >= 5
    far = Tin.from_arrays(np.add(near.vertices, (FAR, FAR, 0)), near.faces)
    feet = Tin.from_arrays(near.vertices * (1, 1, 1 / 0.3048), near.faces)
    assert find_spikes(far, 0.5).vertex.tolist() == spikes.vertex.tolist()
    assert find_spikes(feet, 0.5 / 0.3048, 0.3048).vertex.tolist() == spikes.vertex.tolist()


def test_a_long_skinny_face_at_the_edge_with_what_lies_under_it():
    vertices, faces = sound()
    # The outline bays in by a little along the south; faces bridge the bay.
    vertices[1 : SIZE - 1, 1] += 0.5 * np.sin(np.pi * np.arange(1, SIZE - 1) / (SIZE - 1))
    bridge = [(0, k + 1, k) for k in range(1, SIZE - 1)]
    issues = found(vertices, np.vstack([faces, bridge]))
    assert codes(issues) == {"skinny_rim": 1}
    (rim,) = issues.found
    assert "55.00 m" in rim.why
    assert "(7)" in rim.why
    assert 3 < rim.extent.area < 20


def test_strips_of_a_road_are_not_skinny():
    strip = np.array([(x, y, 0.0) for x in np.arange(0, 200.0, 20.0) for y in (0.0, 0.25)])
    vertices, faces = sound()
    cell = 2 * np.arange(9)
    more = np.concatenate(
        [np.column_stack((cell, cell + 2, cell + 3)), np.column_stack((cell, cell + 3, cell + 1))]
    )
    # Beside short edges of other ground the strip's edges count as long.
    tin = Tin.from_arrays(
        np.vstack([vertices * (0.1, 0.1, 1) + (0, 50, 0), strip]),
        np.vstack([faces, more + len(vertices)]),
    )
    assert skinny_rim(tin).tolist() == []


def test_points_in_one_place_at_one_height():
    vertices, faces = sound()
    twin = vertices[vertex(4, 4)]
    faces = faces.copy()
    some = np.flatnonzero((faces == vertex(4, 4)).any(axis=1))[:2]
    faces[some] = np.where(faces[some] == vertex(4, 4), len(vertices), faces[some])
    issues = found(np.vstack([vertices, twin]), faces)
    assert codes(issues) == {"duplicate_vertex": 1}
    assert issues.found[0].place == (20.0, 20.0)
    assert f"Points {vertex(4, 4) + 1} and {len(vertices) + 1}" in issues.found[0].why


def test_points_in_one_place_at_two_heights():
    vertices, faces = sound()
    twin = vertices[vertex(4, 4)] + (0, 0, 0.4)
    issues = found(np.vstack([vertices, twin]), faces)
    assert codes(issues) == {"two_heights": 1, "unused_vertex": 1}
    (torn,) = [one for one in issues.found if one.code == "two_heights"]
    assert torn.height == pytest.approx(0.4)
    assert "0.400 m (400 mm)" in torn.why


def test_a_wall_is_no_tear_but_upright():
    vertices = [(0, 0, 0), (9, 0, 0), (9, 9, 0), (0, 9, 0)]
    vertices += [(9, 0, 3), (9, 9, 3), (18, 0, 3), (18, 9, 3)]
    faces = [(0, 1, 2), (0, 2, 3), (1, 4, 5), (1, 5, 2), (4, 6, 7), (4, 7, 5)]
    issues = found(vertices, faces)
    assert codes(issues) == {"upright": 1}
    assert issues.found[0].height == 3.0
    assert "3.000 m" in issues.found[0].why


def test_steep_faces_that_hang_together_are_one_finding():
    vertices, faces = sound()
    vertices[vertices[:, 0] > 26, 2] += 2.0
    vertices[vertices[:, 0] == 25, 0] += 4.9
    issues = found(vertices, faces)
    assert codes(issues) == {"steep": 1}
    (steep,) = issues.found
    assert steep.extent.area == pytest.approx(0.1 * 55)
    assert f"({2 * (SIZE - 1)}, the first is face" in steep.why


def test_sliver_and_empty_faces():
    vertices, faces = sound()
    more = [(60.0, 0.0, 0.0), (60.0, 40.0, 0.0), (60.00004, 20.0, 0.0)]
    more += [(70.0, 0.0, 0.0), (70.0, 10.0, 1.0), (70.0, 20.0, 2.0)]
    issues = found(
        np.vstack([vertices, more]), np.vstack([faces, [(144, 145, 146), (147, 148, 149)]])
    )
    counted = codes(issues)
    assert (counted["sliver"], counted["no_area"], counted["piece"]) == (1, 1, 2)


def test_points_that_an_edge_joins_are_no_doubles_but_a_sliver_to_note():
    vertices, faces = sound()
    # The edge from 40 to 41 is all but closed: the faces beside it are needles.
    vertices[vertex(5, 3)] = vertices[vertex(4, 3)] + (5e-5, 0, 1e-6)
    issues = found(vertices, faces)
    assert codes(issues) == {"sliver": 1}
    assert issues.found[0].weight is Weight.NOTE


def test_the_edge_of_a_step_is_no_spike():
    """Neighbours at the foot and at the top of a step, 1 mm apart in plan and 1.15 in height."""
    ring = [(0.0189, 0.0058, 0.0), (-0.0013, -0.0004, 0.006), (-0.219, 0.716, 0.004)]
    ring += [(-0.001, -0.0013, 1.156), (0.0003, -0.001, 1.15)]
    ring.sort(key=lambda p: np.arctan2(p[1], p[0]))
    faces = [(0, k + 1, (k + 1) % 5 + 1) for k in range(5)]
    tin = Tin.from_arrays([(0.0, 0.0, 0.0), *ring], faces)
    assert find_spikes(tin, 0.3).vertex.tolist() == []


def test_a_piece_apart_with_its_area():
    vertices, faces = sound()
    apart = np.array([(100.0, 0.0, 99.0), (110.0, 0.0, 99.0), (100.0, 10.0, 99.0)])
    issues = found(np.vstack([vertices, apart]), np.vstack([faces, [144, 145, 146]]))
    assert codes(issues) == {"piece": 1}
    assert issues.found[0].extent.area == pytest.approx(50.0)


def test_an_edge_of_three_faces_and_a_crack():
    vertices, faces = sound()
    fin = np.array([(12.5, 10.0, 108.0)])
    issues = found(
        np.vstack([vertices, fin]), np.vstack([faces, [vertex(2, 2), vertex(3, 2), 144]])
    )
    assert issues.count("crowded_edge") == 1
    vertices = [(0, 0, 0), (10, 0, 0), (10, 10, 0), (0, 10, 0), (5, 0, 0), (5, -5, 0)]
    issues = found(vertices, [(0, 1, 2), (0, 2, 3), (0, 5, 4), (4, 5, 1)])
    assert [one.place for one in issues.found if one.code == "crack"] == [(5, 0)]


def test_a_seam_of_double_points_lets_no_water_through():
    bottom = [9.0, 2.0, 5.0, 1.0]
    tin = channel(bottom)
    loose = tin.vertices[tin.faces].reshape(-1, 3)
    torn = Tin.from_arrays(loose, np.arange(len(loose)).reshape(-1, 3))
    issues, joined = check_surface(torn, Tolerance(), METRES, 0.3)
    assert issues.count("duplicate_vertex") > 5
    assert issues.count("piece") == 0
    ponds = check_ponds(issues, joined, METRES, 0.006)
    assert ponds.level.tolist() == [5.0]


def test_ponds_meant_are_notes_and_those_that_reach_past_are_not():
    tin = channel([9.0, 2.0, 5.0, 1.0])
    water = check_ponds(Issues(), tin, METRES, 0.0).outline[0]
    for zone, weight in ((water.buffer(0.1), Weight.NOTE), (water.buffer(-1), Weight.CHECK)):
        issues = Issues()
        check_ponds(issues, tin, METRES, 0.0, zone)
        (pond,) = issues.found
        assert pond.weight is weight
        assert ("reach past" in pond.why) == (weight is Weight.CHECK)
        assert pond.level == 5.0
        assert "spills at 5.000 m" in pond.why


def test_long_lists_are_cut_and_counted(monkeypatch):
    monkeypatch.setattr(listing, "MOST_OF_A_CODE", 3)
    vertices, faces = sound()
    corners = vertices[faces].reshape(-1, 3)
    issues = found(corners, np.arange(len(corners)).reshape(-1, 3))
    assert issues.count("duplicate_vertex") == len(corners) - SIZE**2
    assert len([one for one in issues.found if one.code == "duplicate_vertex"]) == 3


def test_heights_in_feet_on_a_plan_in_metres():
    # Banks of 4:1, as roads have them; in feet they would be 0.8:1.
    banks = channel([0.0, 1.0, 0.0], width=10.0)
    assert list(height_issues(banks, METRES)) == []
    feet = Tin.from_arrays(banks.vertices * (1, 1, 1 / 0.3048), banks.faces)
    (issue,) = height_issues(feet, METRES)
    assert issue.code == "height_unit"
    assert list(height_issues(feet, JobScale(METRE, FOOT))) == []
    # Whatever the relief of the whole: many small banks beside each other.
    banks = channel([0.0, 3.0] * 40, width=1.0)
    assert list(height_issues(banks, METRES)) == []
    (issue,) = height_issues(Tin.from_arrays(banks.vertices * (1, 1, 2), banks.faces), METRES)
    assert issue.code == "height_unit"


def test_heights_that_were_lost():
    vertices, faces = sound()
    vertices[:, 2] = 0
    (issue,) = found(vertices, faces).found
    assert (issue.code, issue.weight) == ("no_heights", Weight.ERROR)


def test_the_other_foot_shifts_by_two_parts_in_a_million():
    """Source: EPSG 9002 and 9003; 0.3048 m against 1200/3937 m."""
    vertices, faces = sound((3_000_000.0, 4_000_000.0))
    tin = Tin.from_arrays(vertices, faces)
    issue = foot_issue(tin, JobScale(US_SURVEY_FOOT, US_SURVEY_FOOT))
    assert issue.weight is Weight.NOTE
    # 5 million feet off the origin: 10 feet.
    assert "10.00 usft off (6.00 in easting, 8.00 in northing)" in issue.why
    assert "US survey feet" in foot_issue(tin, JobScale(FOOT, FOOT)).why
    assert foot_issue(tin, METRES) is None


def test_misread_places_are_named():
    feet = JobScale(US_SURVEY_FOOT, US_SURVEY_FOOT)
    assert place_issue(True, None, feet, "X", (0, 0)) is None
    assert place_issue(None, None, feet, "X", (0, 0)) is None
    said = {
        reading: place_issue(False, reading, feet, "X", (0, 0)).code
        for reading in (None, *readings(US_SURVEY_FOOT))
    }
    assert said[None] == "outside_crs"
    assert said[Reading(US_SURVEY_FOOT, swapped=True)] == "axes"
    assert said[Reading(METRE, swapped=False)] == "plan_unit"
    # The other foot cannot be told by the place.
    assert not any(r.unit.same_as(FOOT) for r in readings(US_SURVEY_FOOT))


@pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
def test_real_designs_have_no_errors():
    """What stands here was looked at: ditches without their culverts, one bridged bay."""
    expected = {"road_finished": {"skinny_rim": 1, "pond": 11}, "road_subgrade": {"pond": 13}}
    for name, counts in expected.items():
        tin = read_real(name)
        assert codes(found(tin.vertices, tin.faces)) == counts
