"""True arcs at corners, on rings, reversed and at random, against GEOS and closed forms."""

import numpy as np
import pytest
import shapely
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from plugin.core.lines.arcs import Arcs
from plugin.core.lines.bundle import Lines
from plugin.core.lines.corners import Join, JoinStyle
from tests.core.test_lines_arcs import laid, line_of, radius_of, shape

SAGITTA = 1e-4


def fine(radius, sweep):
    """How many chords keep an arc within a tenth of a millimetre, as layers are read."""
    return max(int(np.ceil(np.radians(abs(sweep)) / (2 * np.arccos(1 - SAGITTA / radius)))), 2)


def path(*moves, start=(0.0, 0.0), heading=0.0, dense=False):
    """A line from moves: ``("go", length)``, ``("bend", radius, degrees)``, ``("turn", degrees)``.

    Degrees are anticlockwise. With ``dense`` arcs have many times the chords.
    """
    xy, owner, arcs = [np.array(start)], [], []
    for kind, *how in moves:
        if kind == "turn":
            heading += how[0]
            continue
        way = np.array([np.cos(np.radians(heading)), np.sin(np.radians(heading))])
        if kind == "go":
            xy.append(xy[-1] + how[0] * way)
            owner.append(-1)
            continue
        radius, sweep = how
        side = np.sign(sweep)
        centre = xy[-1] + side * radius * np.array([-way[1], way[0]])
        count = fine(radius, sweep) * (30 if dense else 1)
        begin = heading - side * 90.0
        angle = np.radians(begin + sweep * np.arange(1, count + 1) / count)
        xy += list(centre + radius * np.column_stack((np.cos(angle), np.sin(angle))))
        owner += [len(arcs)] * count
        arcs.append((centre, radius, int(-side)))
        heading += sweep
    lines = Lines.from_arrays([np.array(xy)], snap=1e-6)
    assert len(lines.segments) == len(owner)
    return lines, Arcs(
        np.array(owner),
        np.array([a[0] for a in arcs]).reshape(-1, 2),
        np.array([a[1] for a in arcs], float),
        np.array([a[2] for a in arcs], np.int64),
    )


def drawn(parts, count=120):
    """Points along parts, arcs as many points."""
    result = []
    for kind, rows in parts:
        xy = rows[:, :2]
        if kind == "arc":
            a, b = xy[1] - xy[0], xy[2] - xy[0]
            twice = 2 * (a[0] * b[1] - a[1] * b[0])
            to = np.array([b[1] * (a @ a) - a[1] * (b @ b), a[0] * (b @ b) - b[0] * (a @ a)])
            centre = xy[0] + to / twice
            seen = np.arctan2(*(xy - centre).T[::-1])
            sense = np.sign(twice)  # + turns left
            sweep = (sense * (seen[2] - seen[0])) % (2 * np.pi)
            angle = seen[0] + sense * sweep * np.linspace(0, 1, count)
            radius = np.hypot(*(xy[0] - centre))
            xy = centre + radius * np.column_stack((np.cos(angle), np.sin(angle)))
            xy[[0, -1]] = rows[[0, -1], :2]
        result.append(xy)
    whole = np.concatenate(result)
    return whole[np.append(True, np.hypot(*np.diff(whole, axis=0).T) > 1e-9)]


INTO_BEND = (("go", 50), ("turn", 60), ("bend", 20, 60), ("turn", -30), ("go", 40))


def test_where_whole_chords_are_lost_at_an_inner_corner_line_and_arc_still_meet():
    lines, arcs = path(*INTO_BEND)
    (parts,) = laid(lines, arcs, -2.0)  # one piece
    assert shape(parts)[:2] == ["line", "arc"]
    centre = arcs.centre[0]
    meet = parts[0][1][-1, :2]
    # On y = 2 and 18 from the centre, in closed form.
    assert meet == pytest.approx([centre[0] + np.sqrt(18**2 - (2 - centre[1]) ** 2), 2.0], abs=1e-9)


def test_the_tip_of_an_outer_mitre_stands_on_the_arc_s_tangent():
    lines, arcs = path(*INTO_BEND)
    (parts,) = laid(lines, arcs, 2.0)
    tip = parts[0][1][1, :2]
    # The parallels of the line and of the tangent turn by 60 degrees: o tan(30) ahead of the foot.
    assert tip == pytest.approx([50 + 2 * np.tan(np.radians(30)), -2.0], abs=1e-9)
    square = parts[1][1][0, :2]
    assert radius_of(square[None], arcs.centre[0]) == pytest.approx(22.0, abs=1e-9)
    assert np.hypot(*(square - (50, 0))) == pytest.approx(2.0, abs=1e-9)


@pytest.mark.parametrize("join", list(Join))
def test_two_arcs_at_an_outer_corner_have_the_corner_between_them(join):
    lines, arcs = path(("bend", 20, 40), ("turn", 70), ("bend", 15, 40))
    (parts,) = laid(lines, arcs, 2.0, JoinStyle(join))
    assert shape(parts) == ["arc", "line", "arc"]
    corner = parts[1][1][:, :2]
    away = np.hypot(*(corner - lines.xy[fine(20, 40)]).T)
    assert away[[0, -1]] == pytest.approx(2.0, abs=1e-9)
    if join == Join.MITRE:
        assert away[1] == pytest.approx(2.0 / np.cos(np.radians(35)), abs=1e-9)
    else:
        assert away.min() > 2.0 - 1e-9 and away.max() < 2.0 / np.cos(np.radians(35))


def reversed_arcs(lines, arcs):
    """The same line drawn the other way."""
    return lines.reversed(), Arcs(arcs.of_segment[::-1], arcs.centre, arcs.radius, -arcs.sense)


moves = st.lists(
    st.one_of(
        st.tuples(st.just("go"), st.floats(8, 40)),
        st.tuples(
            st.just("bend"),
            st.floats(6, 60),
            st.floats(15, 110).flatmap(lambda d: st.sampled_from([d, -d])),
        ),
        st.tuples(st.just("turn"), st.floats(5, 100).flatmap(lambda d: st.sampled_from([d, -d]))),
        st.tuples(st.just("turn"), st.floats(-1e-5, 1e-5)),
    ),
    min_size=2,
    max_size=6,
).filter(lambda own: any(m[0] == "bend" for m in own) and own[-1][0] != "turn")


@settings(max_examples=50, deadline=None)
@given(
    moves=moves,
    offset=st.floats(0.2, 4.0).flatmap(lambda o: st.sampled_from([o, -o])),
    join=st.sampled_from(list(Join)),
    shift=st.sampled_from([0.0, 2e6]),
    heading=st.floats(0, 360),
)
def test_at_random_every_piece_keeps_its_distance_from_the_true_line(
    moves, offset, join, shift, heading
):
    lines, arcs = path(*moves, start=(shift, shift / 3), heading=heading)
    dense, _ = path(*moves, start=(shift, shift / 3), heading=heading, dense=True)
    shapely.prepare(dense.geometries)
    pieces = laid(lines, arcs, offset, JoinStyle(join))  # proved in there by our own means
    for parts in pieces:
        away = shapely.distance(shapely.points(drawn(parts)), dense.geometries[0])
        assert away.min() >= abs(offset) - 1e-6
        for kind, rows in parts:
            if kind == "arc":
                own = shapely.distance(shapely.points(drawn([(kind, rows)])), dense.geometries[0])
                assert own.max() <= abs(offset) + 1e-6
    # Drawn the other way round, with the sign turned, the same places.
    back = laid(*reversed_arcs(lines, arcs), -offset, JoinStyle(join))
    assert len(back) == len(pieces)
    for parts, other in zip(pieces, back[::-1], strict=True):
        assert shape(parts) == shape(other)[::-1]
        for (_, rows), (_, again) in zip(parts, other[::-1], strict=True):
            assert rows[:, :2] == pytest.approx(again[::-1, :2], abs=2e-6)


def test_a_line_that_meets_an_arc_between_two_of_its_chords_ends_there():
    """The tip between the chords is all that is left of the one before."""
    first, radius, sweep, offset = 36.65840013221418, 54.79433762779622, 95.11470117706077, 1.2239504998439967  # noqa: E501  # fmt: skip
    lines, arcs = path(("go", first), ("turn", -55.0), ("bend", radius, sweep), ("go", 10))
    (parts,) = laid(lines, arcs, offset)
    assert len(parts[0][1]) == 2 and parts[0][1][:, 1] == pytest.approx(-offset, abs=1e-9)


@settings(max_examples=40, deadline=None)
@given(
    first=st.floats(8, 40),
    radius=st.floats(10, 60),
    sweep=st.floats(20, 100),
    left=st.booleans(),
    turn=st.floats(-60, 60),
    offset=st.floats(0.3, 3.0).flatmap(lambda o: st.sampled_from([o, -o])),
)
@example(first=29.0, radius=11.0, sweep=61.0, left=True, turn=-25.0, offset=3.0)
def test_the_same_line_as_geos_draws_beside_dense_chords(first, radius, sweep, left, turn, offset):
    # Turns of less than the tangent's tolerance are none; the distance errs by half its square.
    assume(turn == 0.0 or abs(turn) > 0.02)
    own = (("go", first), ("turn", turn), ("bend", radius, sweep if left else -sweep), ("go", 10))
    lines, arcs = path(*own)
    dense, _ = path(*own, dense=True)
    pieces = laid(lines, arcs, offset)
    theirs = shapely.offset_curve(dense.geometries[0], -offset, join_style="mitre", mitre_limit=2.0)
    ours = shapely.multilinestrings([shapely.linestrings(drawn(parts)) for parts in pieces])
    # GEOS may come nearer than the offset and leave stubs at ends: its line lies about ours, and
    # ours lies on its own wherever it has one.
    gap = shapely.distance(shapely.points(np.concatenate([drawn(p) for p in pieces])), theirs)
    assert np.quantile(gap, 0.9) <= 2e-3
    assert ours.length == pytest.approx(theirs.length, rel=2e-2)


def ring(*own):
    """A closed path and its arcs."""
    lines, arcs = path(*own)
    assert np.hypot(*(lines.xy[-1] - lines.xy[0])) < 1e-9
    xy = lines.xy.copy()
    xy[-1] = xy[0]
    return Lines.from_arrays([xy], snap=1e-6), arcs


RINGS = {
    "stadium": (("go", 30), ("bend", 10, 180), ("go", 30), ("bend", 10, 180)),
    "half disc": (("go", 40), ("turn", 90), ("bend", 20, 180), ("turn", 90)),
    "half disc from its arc": (("bend", 20, 180), ("turn", 90), ("go", 40), ("turn", 90)),
    "lens": (("bend", 30, 80), ("turn", 100), ("bend", 30, 80), ("turn", 100)),
    "circle": (("bend", 12, 180), ("bend", 12, 180)),
    "eaten disc": (
        ("go", 20), ("turn", 90), ("go", 20), ("turn", 90), ("go", 5), ("turn", 90),
        ("bend", 5, -180), ("turn", 90), ("go", 5), ("turn", 90), ("go", 20), ("turn", 90),
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", RINGS)
@pytest.mark.parametrize("offset", [1.5, -1.5])
def test_rings_are_the_outlines_of_all_places_that_near(name, offset):
    """GEOS: the union of the buffers of single chords, which it does not simplify like a ring."""
    lines, arcs = ring(*RINGS[name])
    assert lines.closed[0]
    (parts,) = laid(lines, arcs, offset, JoinStyle(Join.ROUND, chord=1e-5))
    assert parts[0][1][0, :2].tolist() == parts[-1][1][-1, :2].tolist()
    assert "arc" in shape(parts)
    ours = shapely.polygons(drawn(parts, 1000))
    near = shapely.union_all(shapely.buffer(lines.segment_geometries, abs(offset), quad_segs=80))
    area = shapely.polygons(lines.xy)
    theirs = shapely.union(area, near) if offset > 0 else shapely.difference(area, near)
    assert ours.is_valid
    assert ours.symmetric_difference(theirs).area <= 2e-4 * ours.length


@pytest.mark.parametrize("name", RINGS)
@pytest.mark.parametrize("offset", [1.5, -1.5])
def test_joins_of_rings_only_differ_at_outer_corners(name, offset):
    lines, arcs = ring(*RINGS[name])
    round_, mitre, bevel = (
        shapely.polygons(drawn(laid(lines, arcs, offset, JoinStyle(join))[0], 1000))
        for join in (Join.ROUND, Join.MITRE, Join.BEVEL)
    )
    grown = 1.0 if offset > 0 else -1.0
    assert grown * (mitre.area - bevel.area) >= -1e-9
    assert grown * (bevel.area - round_.area) >= -1e-2
    corners = {"stadium": 0, "circle": 0, "half disc": 2, "half disc from its arc": 2, "lens": 2}
    if name in corners and offset > 0:
        # Half the corner's kite less its sector: o^2 (tan(t/2) - t/2), for turns of 90 or 100.
        turn = np.radians(100 if name == "lens" else 90)
        extra = corners[name] * offset**2 * (np.tan(turn / 2) - turn / 2)
        assert mitre.area - round_.area == pytest.approx(extra, abs=2e-2)


def test_a_ring_starts_at_its_corner():
    lines, arcs = ring(*RINGS["half disc"])
    (parts,) = laid(lines, arcs, 1.5)
    assert parts[0][1][0, :2] == pytest.approx((-1.5, -1.5), abs=1e-9)
    lines, arcs = ring(*RINGS["half disc from its arc"])
    (parts,) = laid(lines, arcs, 1.5)
    away = np.hypot(*(parts[0][1][0, :2] - lines.xy[0]))
    assert away == pytest.approx(1.5 * np.sqrt(2), abs=1e-9)


def test_what_the_offset_leaves_of_an_arc_too_short_for_one_is_told():
    lines, arcs = line_of(("line", [(0, 0), (50, 0)]), ("arc", (50, 2), 2.0, -90, 90))
    (parts,) = laid(lines, arcs, -3.0)
    assert "arc" not in shape(parts)
