"""Directions by rule: the same however a line is drawn, and never a guess."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.bundle import Lines
from plugin.core.lines.heading_votes import Track
from plugin.core.lines.links import link
from plugin.core.lines.loops import loops
from plugin.core.lines.orient import Basis, Rule, orient
from plugin.core.lines.parallel import parallels

from .lines_shapes import SQUARE, lines_of, turned, wander

EAST = [(0, 0), (60, 0), (100, 10)]
ROAD = [(0, 0), (100, 0), (200, 60)]


def by_reference(line, *references, **given_basis):
    return orient(
        lines_of(line), Rule.UP_STATION, Basis(Track(lines_of(*references)), **given_basis)
    )


def by(rule, *lines, **basis):
    packed = lines_of(*lines)
    links = link(packed, 0.01) if rule is Rule.LONGEST else None
    return orient(packed, rule, Basis(**basis), links)


def arc(radius, start, stop, count=60):
    """Vertices on a circle, angles anticlockwise from east."""
    angle = np.radians(np.linspace(start, stop, count))
    return np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])


# --- along a reference -------------------------------------------------------------------------


def test_a_line_beside_the_reference_runs_as_it_does():
    line = [(10, 5), (98, 5), (150, 38)]
    assert by_reference(line, ROAD).turn.tolist() == [1]
    found = by_reference(line[::-1], ROAD)
    assert found.turn.tolist() == [-1]
    assert found.share[0] > 0.99
    assert found.code == [""]


@pytest.mark.parametrize("radius", [5.0, 40.0, 49.0, 60.0, 200.0])
def test_concentric_arcs_follow_the_arc(radius):
    road = arc(50.0, 0, 150)
    assert by_reference(arc(radius, 10, 140), road).turn.tolist() == [1]
    assert by_reference(arc(radius, 140, 10), road).turn.tolist() == [-1]


def test_a_ring_beside_a_ring_may_start_anywhere():
    road = arc(50.0, 0, 360)
    for start in (0, 100, 200, 355):
        ring = arc(60.0, start, start + 360)
        assert by_reference(ring, road).turn.tolist() == [1]
        assert by_reference(ring[::-1], road).turn.tolist() == [-1]


@pytest.mark.parametrize(
    ("line", "references", "code"),
    [
        ([(50, 2), (50, 40)], [ROAD], "square"),
        ([(-90, 3), (-5, 3)], [ROAD], "beyond"),
        ([(10, 5), (60, 5), (62, 8), (60, 11), (10, 11)], [ROAD], "mixed"),
        ([(10, 5), (90, 5)], [[(0, 0), (100, 0)], [(100, 10), (0, 10)]], "tie"),
    ],
)
def test_what_a_reference_cannot_tell_is_flagged_and_stays(line, references, code):
    for drawn in (line, line[::-1]):
        found = by_reference(drawn, *references)
        assert found.turn.tolist() == [0]
        assert found.code == [code]
        assert found.why[0]


def test_the_place_where_to_split_is_where_the_line_turns_back():
    line = [(10, 5), (90, 5), (92, 8), (90, 11), (60, 11)]
    for drawn in (line, line[::-1]):
        place = by_reference(drawn, ROAD).place[0]
        assert np.hypot(*(place - (91.5, 8))) < 5.0
    ridge = [(0, 0, 5), (40, 0, 5.6), (70, 0, 6), (100, 0, 5.2)]
    for drawn in (ridge, ridge[::-1]):
        assert by(Rule.DOWNHILL, drawn).place[0].tolist() == [70.0, 0.0]


def test_a_line_that_only_passes_the_end_of_the_reference_is_still_told():
    assert by_reference([(-20, 3), (60, 3)], ROAD).turn.tolist() == [1]


# --- by a bearing ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bearing", "turn", "code"),
    [(90, 1, ""), (60, 1, ""), (270, -1, ""), (0, 0, "square"), (170, 0, "square")],
)
def test_bearing(bearing, turn, code):
    found = by(Rule.BEARING, EAST, bearing=bearing)
    assert (found.turn.tolist(), found.code) == ([turn], [code])


def test_a_closed_line_has_no_bearing_and_a_hairpin_has_two():
    found = by(Rule.BEARING, SQUARE, [(0, 0), (50, 0), (50, 1), (5, 1)], bearing=90.0)
    assert found.turn.tolist() == [0, 0]
    assert found.code == ["closed", "mixed"]


# --- the way round -----------------------------------------------------------------------------


def test_rings_and_open_lines_that_go_round():
    square = [p[:2] for p in SQUARE]  # anticlockwise
    bend = arc(30.0, 0, 200)  # anticlockwise
    found = by(Rule.CLOCKWISE, square, square[::-1], bend, bend[::-1])
    assert found.turn.tolist() == [-1, 1, -1, 1]
    assert by(Rule.ANTICLOCKWISE, square, bend).turn.tolist() == [1, 1]


def test_what_does_not_go_round_is_flagged():
    eight = [(0, 0), (10, 10), (20, 0), (20, 10), (10, 0), (0, 10), (0, 0)]
    hook = [(0, 0), (100, 0), (100, 1), (98, 1)]
    found = by(Rule.CLOCKWISE, EAST, eight, hook, [(0, 0), (10, 0), (10, 10)])
    assert found.turn.tolist() == [0, 0, 0, 0]
    assert found.code == ["no_loop", "crosses", "no_loop", "no_loop"]


def test_a_ring_with_a_small_twist_goes_round_by_most_of_its_area():
    # A square of 10 x 10 with a triangle of 1 x 1 / 2 hung on by a crossing: 100 to 0.25.
    ring = [(0, 0), (10, 0), (10, 9), (10.5, 10), (10.5, 9), (10, 10), (0, 10), (0, 0)]
    found = loops(lines_of(ring))
    assert found.sense.tolist() == [-1]
    assert 0.99 < found.share[0] < 1.0


@settings(max_examples=40)
@given(seed=st.integers(0, 5000), degrees=st.floats(0, 360), count=st.integers(5, 60))
def test_star_shaped_rings_go_the_way_shapely_says(seed, degrees, count):
    rng = np.random.default_rng(seed)
    angle = np.sort(rng.uniform(0, 2 * np.pi, count))
    if np.diff(angle).min() < 1e-3:
        return
    radius = rng.uniform(5, 50, count)
    ring = np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])
    ring = turned(np.vstack([ring, ring[:1]]), degrees) + 1e6
    for drawn in (ring, ring[::-1]):
        around = shapely.is_ccw(shapely.linearrings(drawn))  # an independent engine
        assert by(Rule.ANTICLOCKWISE, drawn).turn.tolist() == [1 if around else -1]


# --- up and down -------------------------------------------------------------------------------


def test_downhill_by_the_heights_of_the_line_and_on_a_surface():
    line = [(0, 0, 10), (50, 0, 9), (100, 0, 8.7)]
    assert by(Rule.DOWNHILL, line, line[::-1]).turn.tolist() == [1, -1]
    assert by(Rule.UPHILL, line, line[::-1]).turn.tolist() == [-1, 1]
    ground = {"sample": lambda xy: 0.02 * xy[:, 0]}  # rises to the east, unlike the line
    assert by(Rule.DOWNHILL, line, line[::-1], **ground).turn.tolist() == [-1, 1]


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ([(0, 0, 5), (100, 0, 5.01)], "level"),
        ([(0, 0, 5), (50, 0, 6), (100, 0, 5.2)], "mixed"),
        ([(0, 0), (100, 0)], "no_height"),
        (SQUARE, "closed"),
        # Falls along most of its length, and jumps up more at the end.
        ([(0, 0, 5), (90, 0, 4), (100, 0, 9)], "mixed"),
    ],
)
def test_what_does_not_fall_is_flagged_and_stays(line, code):
    for rule in (Rule.DOWNHILL, Rule.UPHILL):
        for drawn in (line, line[::-1]):
            found = by(rule, drawn)
            assert found.turn.tolist() == [0]
            assert found.code == [code]


def test_beside_the_surface_there_is_no_downhill():
    found = by(Rule.DOWNHILL, EAST, sample=lambda xy: np.full(len(xy), np.nan))
    assert found.code == ["no_surface"]


# --- as the longest neighbour ------------------------------------------------------------------


def test_the_longest_piece_of_a_chain_turns_the_others():
    a, b, c = [(0, 0), (10, 0)], [(60, 5), (10, 0)], [(60, 5), (75, 5)]
    found = by(Rule.LONGEST, a, b, c)
    assert found.turn.tolist() == [-1, 1, -1]
    assert found.share.tolist() == pytest.approx([50.249 / 75.249] * 3, abs=1e-3)


def test_equally_long_pieces_that_run_against_each_other_leave_a_chain_as_it_is():
    found = by(Rule.LONGEST, [(0, 0), (10, 0)], [(20, 0), (10, 0)])
    assert found.turn.tolist() == [0, 0]
    assert found.code == ["even", "even"]
    assert by(Rule.LONGEST, [(0, 0), (10, 0)], [(10, 0), (20, 0)]).turn.tolist() == [1, 1]


def test_a_ring_of_pieces_always_has_one_direction():
    # Three pieces round a square, drawn at odds with each other.
    a, b, c = [(0, 0), (10, 0), (10, 10)], [(0, 10), (10, 10)], [(0, 10), (0, 0)]
    assert by(Rule.LONGEST, a, b, c).turn.tolist() == [1, -1, 1]


# --- however they are drawn --------------------------------------------------------------------


@settings(max_examples=60)
@given(
    seed=st.integers(0, 100_000),
    degrees=st.floats(0, 360),
    shift=st.sampled_from([0.0, 1e7]),
    back=st.lists(st.booleans(), min_size=6, max_size=6),
    order=st.permutations(range(6)),
    rule=st.sampled_from([rule for rule in Rule if rule is not Rule.LONGEST]),
)
def test_drawing_order_and_place_change_nothing(seed, degrees, shift, back, order, rule):
    shapes = [wander(seed + n, count=20) for n in range(5)] + [np.array(SQUARE, float)]
    road = wander(seed + 7, count=30, bend=0.1)

    def placed(line):
        moved = turned(line, degrees)
        moved[:, :2] += shift
        return moved

    def ground(xy):
        flat = turned(xy - shift, -degrees)
        return 0.03 * flat[:, 0] + np.sin(flat[:, 1] / 20.0)

    surface = seed % 2 == 0

    def found(lines, place, sample, bearing):
        basis = Basis(Track(lines_of(place(road))), bearing, sample if surface else None)
        return orient(lines_of(*lines), rule, basis)

    plain = found(
        shapes,
        np.copy,
        lambda xy: 0.03 * xy[:, 0] + np.sin(xy[:, 1] / 20.0),
        40.0,
    )
    drawn = [placed(shapes[n])[:: -1 if back[n] else 1] for n in order]
    other = found(drawn, placed, ground, (40.0 - degrees) % 360.0)
    for row, n in enumerate(order):
        # A share within rounding of its limit may fall on either side of it.
        limit = 0.8 if rule in (Rule.CLOCKWISE, Rule.ANTICLOCKWISE) else None
        assert other.share[row] == pytest.approx(plain.share[n], abs=0.06)
        if limit is None and (plain.code[n] or other.code[row]):
            continue
        expected = plain.turn[n] * (-1 if back[n] else 1)
        assert other.turn[row] == expected


@settings(max_examples=40)
@given(
    seed=st.integers(0, 10_000),
    offset=st.floats(0.5, 30.0),
    side=st.sampled_from([1, -1]),
    shift=st.sampled_from([0.0, 1e7]),
)
def test_parallels_of_a_reference_are_turned_to_run_as_it_does(seed, offset, side, shift):
    road = wander(seed, count=40, bend=0.08)[:, :2] + shift
    beside = parallels(lines_of(road), side * offset)
    for k in range(len(beside.lines)):
        line = beside.lines.xy[beside.lines.line(k)]
        if beside.lines.lengths[k] < 5.0:
            continue
        ahead, back = by_reference(line, road), by_reference(line[::-1], road)
        assert ahead.turn[0] in (0, 1)
        assert back.turn[0] == -ahead.turn[0]
        assert not (ahead.turn[0] == 0 and not ahead.code[0])


def test_many_lines_are_decided_as_each_alone():
    road = lines_of(wander(1, count=60, bend=0.1))
    shapes = [wander(n, count=15) for n in range(40)]
    basis = Basis(Track(road))
    together = orient(lines_of(*shapes), Rule.UP_STATION, basis)
    for n, shape in enumerate(shapes):
        alone = orient(lines_of(shape), Rule.UP_STATION, basis)
        assert together.turn[n] == alone.turn[0]
        assert together.code[n] == alone.code[0]
    assert len(orient(Lines.from_arrays([]), Rule.CLOCKWISE, basis).turn) == 0


def test_a_long_run_can_be_cancelled():
    class StoppedError(Exception):
        pass

    def stop(_):
        raise StoppedError

    shapes = [wander(n, count=40) for n in range(3)]
    with pytest.raises(StoppedError):
        orient(
            lines_of(*shapes),
            Rule.UP_STATION,
            Basis(Track(lines_of(ROAD))),
            progress=stop,
        )
