"""True arcs of parallels: concentric, exact, and meeting their neighbours in closed form."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.arc_ends import settled
from plugin.core.lines.arc_parts import with_arcs
from plugin.core.lines.arc_proof import curve_error, source_curves
from plugin.core.lines.arcs import Arcs, circle
from plugin.core.lines.bundle import Lines
from plugin.core.lines.corners import JoinStyle
from plugin.core.lines.parallel import parallels


def chords(centre, radius, start, stop, count=200):
    """Points of an arc from one angle to another, degrees anticlockwise from east."""
    turn = np.radians(np.linspace(start, stop, count + 1))
    return np.array(centre) + radius * np.column_stack((np.cos(turn), np.sin(turn)))


def line_of(*parts):
    """Return a line and its arcs from ``("line", xy)`` and ``("arc", centre, radius, a, b)``."""
    xy, owner, arcs = [], [], []
    for part in parts:
        own = np.array(part[1], float) if part[0] == "line" else chords(*part[1:])
        owner += [len(arcs) if part[0] == "arc" else -1] * (len(own) - 1)
        if part[0] == "arc":
            arcs.append((np.array(part[1], float), part[2], 1 if part[4] < part[3] else -1))
        xy.append(own if not xy else own[1:])
    lines = Lines.from_arrays([np.concatenate(xy)])
    assert len(lines.segments) == len(owner)
    return lines, Arcs(
        np.array(owner),
        np.array([a[0] for a in arcs]),
        np.array([a[1] for a in arcs]),
        np.array([a[2] for a in arcs]),
    )


def laid(lines, arcs, offset, style=None):
    """Return the parts of each piece, every one proved to keep its distance."""
    style = style or JoinStyle()
    made = parallels(lines, offset, style)
    found = []
    for n, rows in enumerate(map(made.lines.line, range(len(made.lines)))):
        coordinates = np.column_stack((made.lines.xy[rows], made.station[rows]))
        closed = bool(made.lines.closed[n])
        own = with_arcs(coordinates, made.parent[rows], lines, arcs, offset, style, closed=closed)
        slack = 1e-8 + 64 * np.spacing(np.abs(lines.xy).max())
        source = source_curves(lines, arcs, int(made.source[n]))
        if not closed:
            own = settled(own, source, offset, slack / 4.0)
        assert curve_error(own, source, arcs, offset) <= slack
        for one, other in pairwise(own.parts):
            assert one[1][-1].tolist() == other[1][0].tolist()
        found.append(own.parts)
    return found


def shape(parts):
    return [kind for kind, _ in parts]


def radius_of(rows, centre):
    return np.hypot(*(rows[:, :2] - centre).T)


def test_the_circle_through_three_points():
    centre, radius, sense = circle(np.array([5.0, 0]), np.array([0, 5.0]), np.array([-5.0, 0]))
    assert centre == pytest.approx([0, 0])
    assert (radius, sense) == (pytest.approx(5.0), -1)
    _, radius, sense = circle(np.array([-5.0, 0]), np.array([0, 5.0]), np.array([5.0, 0]))
    assert (radius, sense) == (pytest.approx(5.0), 1)
    assert circle(np.array([0.0, 0]), np.array([1.0, 0]), np.array([2.0, 0]))[1] == np.inf
    centre, radius, _ = circle(np.array([3.0, 0]), np.array([-1.0, 0]), np.array([3.0, 0]))
    assert (centre.tolist(), radius) == ([1.0, 0.0], 2.0)


@pytest.mark.parametrize("offset", [2.0, -2.0])
@pytest.mark.parametrize("way", [(0, 90), (90, 0)])
def test_an_arc_has_a_concentric_arc_of_the_radius_and_the_offset(offset, way):
    lines, arcs = line_of(("arc", (100, 50), 20.0, *way))
    (parts,) = laid(lines, arcs, offset)
    assert shape(parts) == ["arc"]
    # Going anticlockwise, right is outside.
    expected = 20.0 + offset * (1 if way == (0, 90) else -1)
    assert radius_of(parts[0][1], (100, 50)) == pytest.approx(expected, abs=1e-9)
    start, _, stop = parts[0][1][:, :2] - (100, 50)
    angle = np.degrees(np.arctan2([start[1], stop[1]], [start[0], stop[0]]))
    assert angle == pytest.approx(way, abs=1e-9)


@pytest.mark.parametrize("offset", [1.5, -1.5])
def test_between_tangents_an_arc_stays_between_tangents(offset):
    lines, arcs = line_of(
        ("line", [(0, 0), (50, 0)]), ("arc", (50, 20), 20.0, -90, 0), ("line", [(70, 20), (70, 60)])
    )
    (parts,) = laid(lines, arcs, offset)
    assert shape(parts) == ["line", "arc", "line"]
    first, arc, last = (rows for _, rows in parts)
    assert first[:, :2] == pytest.approx(np.array([(0, -offset), (50, -offset)]), abs=1e-9)
    assert radius_of(arc, (50, 20)) == pytest.approx(20 + offset, abs=1e-9)
    assert last[:, :2] == pytest.approx(np.array([(70 + offset, 20), (70 + offset, 60)]), abs=1e-9)
    assert arc[0].tolist() == first[-1].tolist() and arc[-1].tolist() == last[0].tolist()


@pytest.mark.parametrize("offset", [1.0, -1.0])
def test_an_s_curve_keeps_both_arcs(offset):
    lines, arcs = line_of(("arc", (0, 10), 10.0, -90, -30), ("arc", (17.320508075688775, 0), 10.0, 150, 90))  # noqa: E501  # fmt: skip
    (parts,) = laid(lines, arcs, offset)
    assert shape(parts) == ["arc", "arc"]
    assert radius_of(parts[0][1], (0, 10)) == pytest.approx(10 + offset, abs=1e-9)
    assert radius_of(parts[1][1], (17.320508075688775, 0)) == pytest.approx(10 - offset, abs=1e-9)
    assert parts[0][1][-1, :2] == pytest.approx(parts[1][1][0, :2], abs=1e-9)


def test_on_the_inner_side_of_a_corner_line_and_arc_meet_in_closed_form():
    # East along y = 0 to (50, 0), then an arc about (50, 20) that starts northward... from its
    # lowest point turned by 60 degrees: the corner turns left, inner side is left.
    lines, arcs = line_of(
        ("line", [(0, 0), (50, 0)]), ("arc", (50 - 20 * np.cos(np.radians(-30)), 10), 20.0, -30, 60)
    )
    (parts,) = laid(lines, arcs, -2.0)
    # Two arcs, since the station does not run evenly along the first.
    assert shape(parts) == ["line", "arc", "arc"]
    meet = parts[0][1][-1, :2]
    centre = np.array([50 - 20 * np.cos(np.radians(-30)), 10])
    assert meet[1] == pytest.approx(2.0, abs=1e-12)
    assert np.hypot(*(meet - centre)) == pytest.approx(18.0, abs=1e-9)
    assert parts[1][1][0].tolist() == parts[0][1][-1].tolist()


def test_on_the_outer_side_the_arc_ends_square_and_the_tip_follows():
    lines, arcs = line_of(
        ("line", [(0, 0), (50, 0)]), ("arc", (50 - 20 * np.cos(np.radians(-30)), 10), 20.0, -30, 60)
    )
    (parts,) = laid(lines, arcs, 2.0)
    assert shape(parts) == ["line", "arc"]
    centre = np.array([50 - 20 * np.cos(np.radians(-30)), 10])
    square = centre + 22.0 * (np.array([50, 0]) - centre) / 20.0
    assert parts[1][1][0, :2] == pytest.approx(square, abs=1e-9)
    assert radius_of(parts[1][1], centre) == pytest.approx(22.0, abs=1e-9)
    assert parts[0][1][-1, :2] == pytest.approx(square, abs=1e-9)
    # From the parallel of the line by the tip to the start of the arc.
    assert parts[0][1][0, 1] == -2.0 and len(parts[0][1]) == 3


def test_an_offset_beyond_the_radius_leaves_no_arc():
    lines, arcs = line_of(
        ("line", [(0, 0), (50, 0)]), ("arc", (50, 2), 2.0, -90, 90), ("line", [(50, 4), (0, 4)])
    )
    for parts in laid(lines, arcs, -3.0):
        assert "arc" not in shape(parts)


@settings(max_examples=80, deadline=None)
@given(
    sweep=st.floats(10, 170),
    radius=st.floats(8, 200),
    offset=st.floats(-3, 3).filter(lambda o: abs(o) > 0.05),
    degrees=st.floats(0, 360),
    shift=st.sampled_from([0.0, 1e7]),
    left=st.booleans(),
)
def test_wherever_it_lies_and_however_it_turns(sweep, radius, offset, degrees, shift, left):
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    turn = np.array([[c, s], [-s, c]])
    flip = np.array([1.0, 1.0 if left else -1.0])
    run = chords((0, radius), radius, -90, -90 + sweep, 300)
    end = run[-1] + 30 * np.array([np.cos(np.radians(sweep)), np.sin(np.radians(sweep))])
    xy = np.concatenate(([(-30.0, 0.0)], run, [end])) * flip @ turn + shift
    lines = Lines.from_arrays([xy])
    centre = np.array([0, radius]) * flip @ turn + shift
    owner = np.full(len(xy) - 1, 0)
    owner[[0, -1]] = -1
    arcs = Arcs(owner, centre[None], np.array([radius]), np.array([-1 if left else 1]))
    (parts,) = laid(lines, arcs, offset)
    assert shape(parts) == ["line", "arc", "line"]
    expected = radius + offset * (1 if left else -1)
    slack = 1e-9 if shift == 0 else 2e-8
    assert radius_of(parts[1][1], centre) == pytest.approx(expected, abs=slack)
    for one, other in pairwise(parts):
        assert one[1][-1].tolist() == other[1][0].tolist()
    # Straight parts stand the offset away, exactly.
    line = parts[0][1][:, :2]
    way = (xy[1] - xy[0]) / np.hypot(*(xy[1] - xy[0]))
    signed = (line - xy[0]) @ np.array([way[1], -way[0]])
    assert signed == pytest.approx(offset, abs=1e-6)
