"""Parallels: shape, distance, side, direction, stations and heights."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from plugin.core.errors import Cancelled
from plugin.core.lines.bundle import Lines
from plugin.core.lines.clear import surely_clear
from plugin.core.lines.corners import Join, JoinStyle, corners
from plugin.core.lines.direction import right_normals
from plugin.core.lines.guide import lay
from plugin.core.lines.parallel import parallels, slack_of
from plugin.core.lines.prove import prove
from plugin.core.lines.requests import Requests
from plugin.core.lines.sides import Basis, Rule
from plugin.core.lines.stations import locate, point_at
from plugin.core.lines.trim import SHORTEST

from .lines_shapes import (
    HAIRPIN,
    L_SHAPE,
    LOOP,
    SQUARE,
    along,
    brute_signed,
    lines_of,
    pieces_of,
    turned,
    wander,
)

JOINS = [JoinStyle(), JoinStyle(mitre_limit=1.5), JoinStyle(Join.ROUND), JoinStyle(Join.BEVEL)]


def only(result):
    (piece,) = pieces_of(result)
    return piece


# A general-purpose GIS library's and GEOS's documented example: 2 left and 2 right of an L, mitred.
@pytest.mark.parametrize(
    ("offset", "expected"), [(-2, [(10, 12), (28, 12), (28, 30)]), (2, [(10, 8), (32, 8), (32, 30)])]
)  # fmt: skip
def test_published_mitred_example(offset, expected):
    xy, _, station = only(parallels(lines_of(L_SHAPE), offset))
    assert xy.tolist() == [list(p) for p in expected]
    assert station.tolist() == [0, 20, 40]


def test_the_same_sign_on_a_line_drawn_the_other_way_is_the_other_side():
    lines = lines_of(L_SHAPE, L_SHAPE[::-1])
    there, back = (piece[0] for piece in pieces_of(parallels(lines, 1.0)))
    assert there[0].tolist() == [10, 9] and back[-1].tolist() == [10, 11]
    same, again = (piece[0] for piece in pieces_of(parallels(lines, np.array([1.0, -1.0]))))
    assert np.abs(same - again[::-1]).max() < 1e-12


def test_heights_and_stations_are_copied_bit_for_bit():
    lines = lines_of(wander(1, bend=0.1))
    _, z, station = only(parallels(lines, 0.2))
    assert z.tobytes() == lines.z.tobytes()
    assert station.tobytes() == lines.stations.tobytes()


@pytest.mark.parametrize("offset", [1.0, -1.0])
@pytest.mark.parametrize("drawn", [1, -1])
def test_rings_are_complete_on_both_sides_with_their_corner_at_the_start(offset, drawn):
    ring = SQUARE[::drawn]
    xy, z, _ = only(parallels(lines_of(ring), offset))
    # Drawn anticlockwise the right of a ring is its outside.
    out = 1.0 if offset * drawn > 0 else -1.0
    assert xy[0].tolist() == xy[-1].tolist() == [-out, -out]
    assert np.abs(xy).max() == 10 + max(out, 0) if out > 0 else xy.max() == 9
    assert len(xy) == 5 and z[0] == z[-1] == 1
    same = shapely.Polygon(shapely.Polygon(ring).buffer(out, join_style="mitre").exterior)
    assert shapely.Polygon(xy).symmetric_difference(same).area < 1e-9


def test_a_ring_narrower_than_twice_the_offset_has_no_inside():
    result = parallels(lines_of(SQUARE), -6.0)
    assert len(result.lines) == 0
    (lost,) = result.lost
    assert (lost.start, lost.stop, lost.joined) == (0.0, 40.0, False)


@pytest.mark.parametrize("start", range(4))
def test_the_start_of_a_ring_changes_nothing_but_the_start(start):
    corners = SQUARE[:-1]
    rolled = [*corners[start:], *corners[:start], corners[start]]
    dented = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 6), (4, 6), (4, 4), (0, 4)]
    for ring in (rolled, [*dented[start:], *dented[:start], dented[start]]):
        for offset in (1.5, -1.5):
            xy, _, station = only(parallels(lines_of(ring), offset))
            base = SQUARE if ring is rolled else [*dented, dented[0]]
            first = only(parallels(lines_of(base), offset))[0]
            assert shapely.Polygon(xy).symmetric_difference(shapely.Polygon(first)).area < 1e-6
            assert (np.diff(station) > -1e-9).all()
            assert station[-1] - station[0] == pytest.approx(shapely.Polygon(base).length)


def test_hairpin():
    xy, _, station = only(parallels(lines_of(HAIRPIN), -0.4))
    assert np.abs(xy - [(0, 0.4), (9.6, 0.4), (9.6, 0.6), (0, 0.6)]).max() < 1e-9
    assert station == pytest.approx([0, 10, 11, 21])
    narrow = parallels(lines_of(HAIRPIN), -0.6)
    assert len(narrow.lines) == 0
    assert [(item.start, item.stop) for item in narrow.lost] == [(0.0, 21.0)]
    assert len(parallels(lines_of(HAIRPIN), 0.6).lines) == 1


def test_crossing_lines_are_trimmed_and_traced():
    result = parallels(lines_of(LOOP), 1.0)
    pieces = pieces_of(result)
    stations = [(round(s[0], 6), round(s[-1], 6)) for _, _, s in pieces]
    assert stations == [(0, 4), (6, 24), (26, 30)]
    assert np.abs(pieces[0][0] - [(0, -1), (4, -1)]).max() < 1e-7
    assert np.abs(pieces[2][0] - [(4, -1), (4, -5)]).max() < 1e-7
    lost = [(round(item.start, 6), round(item.stop, 6), item.joined) for item in result.lost]
    assert lost == [(4, 6, False), (24, 26, False)]


def test_a_bend_tighter_than_the_offset_is_joined_and_reported():
    t = np.linspace(-np.pi / 2, 0, 20)
    bend = np.column_stack([np.cos(t), np.sin(t)]) * 0.5
    result = parallels(lines_of([(-10, -0.5), *bend, (0.5, 10)]), -1.0)
    xy, _, _ = only(result)
    assert np.abs(xy - [(-10, 0.5), (-0.5, 0.5), (-0.5, 10)]).max() < 1e-7
    (lost,) = result.lost
    assert lost.joined
    assert lost.start == pytest.approx(9.5, abs=1e-6)


def test_a_line_that_doubles_back_is_passed_round_its_tip():
    xy, _, _ = only(parallels(lines_of([(0, 0), (5, 0), (0, 0)]), 1.0))
    assert np.abs(xy - [(0, -1), (7, -1), (7, 1), (0, 1)]).max() < 1e-12


@pytest.mark.parametrize(
    ("style", "reach"),
    [
        (JoinStyle(), np.sqrt(2)),
        (JoinStyle(mitre_limit=1.2), 1.2),
        (JoinStyle(Join.BEVEL), 1.0),
        (JoinStyle(Join.ROUND, chord=1e-4), 1.0),
    ],
)
def test_joins_reach_as_far_as_they_say_and_never_nearer(style, reach):
    """Closed forms for a right angle: the mitre's tip at sqrt(2), the others cut or rounded."""
    source = lines_of(L_SHAPE)
    xy, _, _ = only(parallels(source, 1.0, style))
    corner = np.array([30, 10])
    bisector = np.array([1, -1]) / np.sqrt(2)
    farthest = float(((xy - corner) @ bisector).max())
    assert farthest == pytest.approx(reach, abs=2e-4)
    assert shapely.distance(shapely.LineString(xy), source.geometries[0]) >= 1 - 1e-12


def test_a_gentle_corner_is_rounded_where_its_mitre_leaves_the_arc_by_more_than_the_chord():
    """At 30 degrees the mitre's tip stands 1 / cos 15 = 1.0353 out."""
    gentle = [(0, 0), (10, 0), (10 + 10 * np.cos(np.pi / 6), 10 * np.sin(np.pi / 6))]
    for style, reach in (
        (JoinStyle(Join.ROUND), 1.001),
        (JoinStyle(Join.ROUND, chord=0.1), 1.0353),
    ):
        xy, _, _ = only(parallels(lines_of(gentle), 1.0, style))
        farthest = np.hypot(*(xy[1:-1] - (10, 0)).T).max()
        assert farthest <= reach + 1e-4
        assert (len(xy) == 3) == (style.chord > 0.05)


@pytest.mark.parametrize("side", [1, -1])
def test_arcs_give_concentric_arcs(side):
    t = np.linspace(0, np.pi, 721)
    lines = lines_of(50 * np.column_stack([np.cos(t), np.sin(t)]) + (2e6, 6e6))
    result = parallels(lines, side * 5.0)
    xy, _, _ = only(result)
    radius = np.hypot(*(xy - (2e6, 6e6)).T)
    # Vertices of the mitred chords stand d / cos(half a step) out, 5e-5 here.
    assert np.abs(radius - (50 + side * 5)).max() < 3e-5
    assert prove(lines, result).error.max() < 1e-7


@settings(max_examples=200, deadline=None)
@given(
    seed=st.integers(0, 100_000),
    offset=st.sampled_from([0.1, 0.7, 2.0, 5.0]),
    sign=st.sampled_from([1, -1]),
    style=st.sampled_from(JOINS),
    shift=st.sampled_from([0.0, 1e7]),
    closed=st.booleans(),
)
def test_random_lines(seed, offset, sign, style, shift, closed):
    """Distance, side, direction and completeness, each by other means than the maker's."""
    xyz = wander(seed, count=12, bend=1.2)
    if closed:
        xyz = np.vstack([xyz, xyz[:1]])
    source = lines_of(np.add(xyz, (shift, shift, 0)))
    assume(bool(shapely.is_simple(source.geometries[0])))
    signed = sign * offset
    rule = Rule.RIGHT if sign > 0 else Rule.LEFT
    found = lay(Requests(source, np.zeros(1, int), np.array([offset]), [rule]), Basis(), style)
    result = found.pieces
    assert not [item for item in found.flagged if item.code == "unproved"]
    slack = 10 * float(slack_of(source)[0])
    for xy, _, station in pieces_of(result):
        assert shapely.distance(shapely.LineString(xy), source.geometries[0]) >= offset - slack
        assert (np.diff(station) >= -1e-9).all()
        judged = brute_signed(source.xy - shift, along(xy) - shift)
        assert (np.sign(judged) == sign).all()
    kept = result.lines.segments
    parent = result.parent[kept]
    step = result.lines.xy[kept + 1] - result.lines.xy[kept]
    ahead = (step * source.segment_directions[parent]).sum(1)
    assert (ahead[parent >= 0] > 0).all()  # it runs the way of its source
    # Every place square beside the source that is far enough from all of it is on the parallel,
    # unless a join passes there.
    stations = np.linspace(0, source.lengths[0], 301)[1:-1]
    zero = np.zeros(len(stations), int)
    normal = right_normals(source.segment_directions[locate(source, zero, stations)[0]])
    beside = shapely.points(point_at(source, zero, stations) + signed * normal)
    valid = shapely.distance(beside, source.geometries[0]) >= offset - 1e-9
    if valid.any():
        assert len(result.lines)
        made = shapely.multilinestrings(list(result.lines.geometries))
        allowance = {Join.ROUND: 0.003, Join.BEVEL: offset, Join.MITRE: style.mitre_limit * offset}
        missed = shapely.distance(beside[valid], made)
        assert missed.max() <= allowance[style.kind] + SHORTEST * offset
        assert valid.sum() < 20 or (missed < 1e-6).mean() > 0.5


@pytest.mark.parametrize("seed", range(40))
def test_turned_mirrored_and_moved_lines_give_turned_mirrored_and_moved_parallels(seed):
    xyz = wander(seed, count=30, bend=0.8)
    expected = parallels(lines_of(xyz), 1.5)
    for degrees in (37.0, 180.0):
        other = parallels(lines_of(turned(xyz, degrees)), 1.5)
        assert np.abs(turned(expected.lines.xy, degrees) - other.lines.xy).max() < 1e-6
    mirrored = parallels(lines_of(xyz * (1, -1, 1)), -1.5)
    assert np.abs(expected.lines.xy * (1, -1) - mirrored.lines.xy).max() < 1e-6
    moved = parallels(lines_of(np.add(xyz, (1e7, -1e7, 0))), 1.5)
    # Coordinates of 1e7 are known to 2e-9; trimmed ends lie where lines meet at a flat angle.
    assert np.abs(np.add(expected.lines.xy, (1e7, -1e7)) - moved.lines.xy).max() < 1e-4
    back = parallels(lines_of(xyz[::-1]), -1.5)
    assert len(back.lines) == len(expected.lines)
    made = shapely.multilinestrings(list(expected.lines.geometries))
    assert (
        shapely.hausdorff_distance(made, shapely.multilinestrings(list(back.lines.geometries)))
        < 1e-4
    )  # noqa: E501


@pytest.mark.parametrize("offset", [0.5, -0.5, 2.0, -2.0])
def test_against_geos_where_it_gives_one_piece(offset):
    """GEOS offset curve (positive left there), mitre joins, on lines that do not bend tightly."""
    compared = 0
    lines = Lines.from_arrays([wander(seed, count=25, bend=0.15) for seed in range(500)])
    result = parallels(lines, offset, JoinStyle(mitre_limit=5.0))
    other = shapely.offset_curve(lines.geometries, -offset, join_style="mitre", mitre_limit=5.0)
    for k in range(len(lines)):
        mine = np.flatnonzero(result.source == k)
        same = shapely.get_type_id(other[k]) == 1 and len(mine) == 1
        if not same or shapely.get_num_coordinates(other[k]) != lines.counts[k]:
            continue
        if lines.counts[k] != result.lines.counts[mine[0]]:
            continue
        compared += 1
        gap = shapely.hausdorff_distance(result.lines.geometries[mine[0]], other[k])
        assert gap < 1e-6, k
    assert compared > 300


def test_many_lines_at_once_give_what_each_gives_alone():
    coordinates = [wander(seed, bend=0.9) for seed in range(60)]
    together = parallels(Lines.from_arrays(coordinates), 2.0)
    for k, xyz in enumerate(coordinates):
        alone = parallels(lines_of(xyz), 2.0)
        rows = np.isin(together.lines.owner, np.flatnonzero(together.source == k))
        assert together.lines.xy[rows].tobytes() == alone.lines.xy.tobytes()
        assert together.station[rows].tobytes() == alone.station.tobytes()


def test_chunks_change_nothing(monkeypatch):
    lines = Lines.from_arrays([wander(seed, bend=0.9) for seed in range(30)])
    whole = parallels(lines, 2.0)
    monkeypatch.setattr("plugin.core.lines.parallel.CHUNK_VERTICES", 90)
    parts = parallels(lines, 2.0)
    for name in ("source", "station", "parent", "offsets"):
        assert getattr(whole, name).tobytes() == getattr(parts, name).tobytes()
    assert whole.lines.xy.tobytes() == parts.lines.xy.tobytes()
    assert whole.lost == parts.lost


def test_a_cancelled_run_stops():
    def progress(share):
        if share > 0.3:
            raise Cancelled

    with pytest.raises(Cancelled):
        parallels(Lines.from_arrays([HAIRPIN] * 50), -0.4, progress=progress)


@pytest.mark.parametrize("offset", [0.0, np.nan, np.inf])
def test_offsets_without_a_side_are_refused(offset):
    with pytest.raises(ValueError, match="not 0"):
        parallels(lines_of(L_SHAPE), offset)


def test_the_proof_sees_a_wrong_side_and_a_wrong_distance():
    lines = lines_of(wander(3, bend=0.1))
    result = parallels(lines, 1.0)
    assert prove(lines, result).holds(result.offsets, 1e-6).all()
    other = replace(result, offsets=-result.offsets)
    wrong = prove(lines, other)
    assert wrong.side.tolist() == [1] and not wrong.holds(other.offsets, 1e-6).any()
    wide = replace(result, offsets=result.offsets * 1.001)
    assert prove(lines, wide).nearer[0] == pytest.approx(0.001, rel=0.01)


@pytest.mark.parametrize("bend", [0.02, 0.1, 0.3])
@pytest.mark.parametrize("offset", [1.0, -8.0])
def test_the_closed_form_proof_never_claims_too_much(bend, offset):
    """What it proves, GEOS measures; and it proves most of what bends gently."""
    lines = Lines.from_arrays([wander(seed, 150, bend, (1, 3)) for seed in range(300)])
    style = JoinStyle(mitre_limit=4.0)
    corner = corners(lines, np.full(300, offset), style)
    forward = np.array([k for k in range(300) if forwards(lines, corner, k)], int)
    proved = surely_clear(lines, corner, np.full(300, abs(offset) - 1e-8))[forward]
    measured = [
        shapely.distance(shapely.LineString(points_of(lines, corner, k)), lines.geometries[k])
        for k in forward[proved]
    ]
    assert min(measured, default=np.inf) >= abs(offset) - 1e-8
    if bend < 0.05:
        assert proved.mean() > 0.9


def points_of(lines, corner, k):
    rows = lines.line(k)
    return corner.points[corner.first[rows.start] : corner.first[rows.stop]]


def forwards(lines, corner, k):
    rows = lines.line(k)
    begin = corner.points[corner.first[rows.start + 1 : rows.stop] - 1]
    end = corner.points[corner.first[rows.start + 1 : rows.stop]]
    ahead = lines.segment_directions[lines.first_segment[k] : lines.first_segment[k + 1]]
    return bool((((end - begin) * ahead).sum(1) > 0).all())


def fine(line, count):
    """Return a line with every straight cut into ``count`` segments."""
    line = np.asarray(line, float)
    share = np.arange(count) / count
    rows = [a + share[:, None] * (b - a) for a, b in pairwise(line)]
    return np.vstack([*rows, line[-1:]])


@pytest.mark.parametrize("count", [1, 16])
def test_a_tip_that_would_lie_left_of_an_open_end_is_cut(count):
    """Nothing comes too near here: the tip at 3.46, -2 alone lies on the wrong side of the end."""
    up = (20 * np.cos(2 * np.pi / 3), 40 * np.sin(2 * np.pi / 3))
    line = fine([(-20, 0), (0, 0), up, (-60, 34), (-60, -40), (5, -40), (5, -3.5)], count)
    lines = lines_of(line)
    result = parallels(lines, 2.0)
    assert prove(lines, result).holds(result.offsets, 1e-6).all()
    for xy, _, _ in pieces_of(result):
        assert (brute_signed(line, along(xy, 400)) > 0).all()
    without = parallels(lines_of(line[: 4 * count + 1]), 2.0)
    assert len(without.lines) == 1 and len(result.lines) == 2


@pytest.mark.parametrize("back", [False, True])
def test_windings_of_a_spiral_keep_apart(back):
    """Inner windings come near to outer ones, and with the line drawn back the other way round."""
    turns_of = [(0, 0), (60, 0), (60, 60), (0, 60), (0, 3), (57, 3), (57, 57), (3, 57), (3, 6)]
    line = fine(turns_of, 20)[:: -1 if back else 1]
    lines = lines_of(line)
    for offset in (2.0, -2.0):
        result = parallels(lines, offset)
        for xy, _, _ in pieces_of(result):
            apart = shapely.distance(shapely.LineString(xy), lines.geometries[0])
            assert apart >= 2 - 1e-7


def test_the_tip_of_a_gentle_corner_behind_an_open_end_is_cut():
    """An 80 degree corner reaches 2.61 out; the end stands 2.21 from its tip, its left to it."""
    out = (30 * np.cos(np.radians(80)), 30 * np.sin(np.radians(80)))
    loop = [(-10, 60), (-50, 75), (-95, 40), (-95, -20), (-60, -70), (-20, -95), (3.2, -60)]
    line = fine([(-20, 0), (0, 0), out, *loop, (3.2, -3.6)], 16)
    result = parallels(lines_of(line), 2.0)
    assert len(result.lines) == 2
    for xy, _, _ in pieces_of(result):
        assert (brute_signed(line, along(xy, 600)) > 0).all()
