"""Alignments: arcs and spirals against closed forms, stations, gaps, declared lengths."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad
from scipy.special import fresnel

from plugin.core.exchange.landxml import spirals
from plugin.core.exchange.landxml.alignments import chords

from .landxml_texts import alignment, codes, landxml, read

E, N = 400000.0, 5000000.0
"""A place of the size of real coordinates."""


def at(x: float, y: float, tag: str) -> str:
    return f"<{tag}>{float(N + y)!r} {float(E + x)!r}</{tag}>"


def curve(start, end, rot, centre=None, attributes="", order="SCE") -> str:
    parts = {"S": at(*start, "Start"), "E": at(*end, "End")}
    parts["C"] = at(*centre, "Center") if centre is not None else ""
    return f'<Curve rot="{rot}" {attributes}>{"".join(parts[key] for key in order)}</Curve>'


def only(tmp_path, elements, attributes="", **options):
    """Read one alignment, and check that nothing about it is reported."""
    file = read(tmp_path, landxml(alignment(elements, attributes)), **options)
    assert codes(file) == []
    return file.alignments[0]


# Arcs


@pytest.mark.parametrize("order", ["SCE", "CSE", "ESC", "ECS"])
@pytest.mark.parametrize("attributes", ["", 'radius="10"', 'radius="10.000" crvType="arc"'])
def test_an_arc_is_true_whatever_the_order_of_its_points(tmp_path, order, attributes):
    text = curve((10, 0), (0, 10), "ccw", (0, 0), attributes, order)
    arc = only(tmp_path, text).segments[0]
    assert arc.kind == "arc" and arc.length == pytest.approx(5 * math.pi, rel=1e-12)
    half = 10 * math.sqrt(0.5)
    assert arc.points[1] == pytest.approx([E + half, N + half], abs=1e-8)
    assert arc.points[0].tolist() == [E + 10, N] and arc.points[2].tolist() == [E, N + 10]


@pytest.mark.parametrize(
    ("rot", "share", "middle"),
    [("ccw", 0.25, (1, 1)), ("cw", 0.75, (-1, -1))],
)
def test_rot_says_which_way_round(tmp_path, rot, share, middle):
    arc = only(tmp_path, curve((10, 0), (0, 10), rot, (0, 0))).segments[0]
    assert arc.length == pytest.approx(20 * math.pi * share, rel=1e-12)
    assert np.sign(arc.points[1] - [E, N]).tolist() == list(middle)


@given(
    st.floats(0, 2 * math.pi),
    st.floats(0.01, 2 * math.pi - 0.01),
    st.floats(5, 5000),
    st.sampled_from(["cw", "ccw"]),
    st.booleans(),
)
def test_any_arc_with_and_without_its_centre(
    tmp_path_factory, start, sweep, radius, rot, given_centre
):
    turn = 1.0 if rot == "ccw" else -1.0
    first = (radius * math.cos(start), radius * math.sin(start))
    end = start + turn * sweep
    last = (radius * math.cos(end), radius * math.sin(end))
    declared = f'radius="{radius!r}" length="{radius * sweep!r}"'
    text = curve(first, last, rot, (0, 0) if given_centre else None, declared)
    file = read(tmp_path_factory.mktemp("arc"), landxml(alignment(text)))
    arc = file.alignments[0].segments[0]
    # Without the centre, half a circle is where the two centres meet: there 1e-9 of rounding in
    # the coordinates is worth the root of it in the centre.
    tolerance = 1e-6 if given_centre or abs(sweep - math.pi) > 0.1 else 0.05
    assert arc.length == pytest.approx(radius * sweep, abs=tolerance * max(radius, 1))
    middle = start + turn * sweep / 2
    wanted = (E + radius * math.cos(middle), N + radius * math.sin(middle))
    assert arc.points[1] == pytest.approx(wanted, abs=tolerance * max(radius, 1))


def test_a_full_circle_has_five_points(tmp_path):
    arc = only(tmp_path, curve((10, 0), (10, 0), "ccw", (0, 0))).segments[0]
    assert arc.length == pytest.approx(20 * math.pi, rel=1e-12)
    assert arc.points[2] == pytest.approx([E - 10, N], abs=1e-9)
    assert arc.points[1] == pytest.approx([E, N + 10], abs=1e-9)


def test_the_wrong_rot_is_seen_by_the_length(tmp_path):
    text = curve((10, 0), (0, 10), "cw", (0, 0), 'length="15.708"')
    file = read(tmp_path, landxml(alignment(text)))
    assert codes(file) == ["declared_length"]
    assert "length=15.708" in file.findings[0].why and "47.123890" in file.findings[0].why
    assert file.findings[0].place == (E + 10, N)


def test_a_radius_that_does_not_fit_is_reported(tmp_path):
    file = read(
        tmp_path, landxml(alignment(curve((10, 0), (0, 10), "ccw", (0, 0), 'radius="10.1"')))
    )
    assert codes(file) == ["declared_radius"]


def test_a_centre_that_is_a_little_off_is_reported_and_used(tmp_path):
    file = read(tmp_path, landxml(alignment(curve((10, 0), (0, 10), "ccw", (0.02, 0)))))
    assert codes(file) == ["arc_centre"]
    assert file.alignments[0].segments[0].points[0].tolist() == [E + 10, N]


# Spirals


def spiral(start, end, rot, attributes, corner=None) -> str:
    points = at(*start, "Start") + (at(*corner, "PI") if corner else "") + at(*end, "End")
    return f'<Spiral rot="{rot}" {attributes}>{points}</Spiral>'


def clothoid(s, length, radius):
    """Position on a clothoid that starts straight along x: Fresnel integrals."""
    scale = math.sqrt(math.pi * radius * length)
    sine, cosine = fresnel(np.asarray(s) / scale)
    return np.column_stack((scale * cosine, scale * sine))


@pytest.mark.parametrize(("length", "radius"), [(60, 300), (120, 90), (400, 50), (15, 2000)])
def test_a_clothoid_follows_the_fresnel_integrals(length, radius):
    s, points = spirals.lay_out("clothoid", length, 0.0, 1.0 / radius, 1e-3)
    assert s[-1] == length
    assert np.abs(points - clothoid(s, length, radius)).max() < 1e-11 * length


@pytest.mark.parametrize("law", spirals.INTEGRALS)
@pytest.mark.parametrize(("start", "end"), [(0.0, 0.02), (0.02, 0.0), (-0.01, 0.015), (0.01, 0.01)])
def test_each_law_against_adaptive_quadrature(law, start, end):
    laws = {
        "clothoid": lambda t: t,
        "bloss": lambda t: 3 * t**2 - 2 * t**3,
        "cosine": lambda t: (1 - math.cos(math.pi * t)) / 2,
        "sinusoid": lambda t: t - math.sin(2 * math.pi * t) / (2 * math.pi),
        "biquadratic": lambda t: 2 * t**2 if t < 0.5 else 1 - 2 * (1 - t) ** 2,
    }
    length = 130.0

    def bend(s):
        return start + (end - start) * laws[law](s / length)

    def direction(s):
        # In two steps: the biquadratic law changes in the middle.
        first = quad(bend, 0, min(s, length / 2), epsabs=1e-14)[0]
        return first + (quad(bend, length / 2, s, epsabs=1e-14)[0] if s > length / 2 else 0.0)

    halves = ((0, length / 2), (length / 2, length))
    wanted = [
        sum(quad(lambda s: f(direction(s)), *half, epsabs=1e-11)[0] for half in halves)  # noqa: B023
        for f in (math.cos, math.sin)
    ]
    _, points = spirals.lay_out(law, length, start, end, 1e-3)
    assert points[-1] == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("chord", [1e-2, 1e-3, 1e-4])
def test_chords_of_a_spiral_stay_within_the_tolerance(chord):
    s, points = spirals.lay_out("clothoid", 200.0, 0.0, 1 / 60.0, chord)
    middles = clothoid((s[1:] + s[:-1]) / 2, 200.0, 60.0)
    a, b = points[:-1], points[1:]
    away = np.abs(np.linalg.det(np.stack((b - a, middles - a), axis=-1))) / np.hypot(*(b - a).T)
    assert away.max() <= chord
    # and no more points than that needs
    assert away.max() > 0.5 * chord or np.diff(s).max() > 0.19 * 60.0


@pytest.mark.parametrize("rot", ["ccw", "cw"])
@pytest.mark.parametrize("bearing", [0.0, 0.7, 2.5, -1.9])
@pytest.mark.parametrize("inward", [True, False])
def test_a_spiral_is_laid_between_its_points(tmp_path, rot, bearing, inward):
    length, radius = 80.0, 120.0
    local = clothoid(np.linspace(0, length, 9), length, radius)
    angle = length / (2 * radius)
    corner = (local[-1, 0] - local[-1, 1] / math.tan(angle), 0.0)
    if rot == "cw":
        local[:, 1] *= -1
    rotation = np.array(
        [[math.cos(bearing), math.sin(bearing)], [-math.sin(bearing), math.cos(bearing)]]
    )
    true, pi = local @ rotation, np.array([corner]) @ rotation
    radii = ("INF", f"{radius}") if inward else (f"{radius}", "INF")
    attributes = (
        f'length="{length}" radiusStart="{radii[0]}" radiusEnd="{radii[1]}" spiType="clothoid"'
    )
    ends = (true[0], true[-1]) if inward else (true[-1], true[0])
    # Run the other way, a turn to the left is a turn to the right.
    way = rot if inward else {"cw": "ccw", "ccw": "cw"}[rot]
    segment = only(
        tmp_path, spiral(tuple(ends[0]), tuple(ends[1]), way, attributes, tuple(pi[0]))
    ).segments[0]
    assert segment.kind == "spiral" and segment.length == length
    s = segment.distances if inward else length - segment.distances
    wanted = clothoid(s, length, radius) * [1, 1 if rot == "ccw" else -1] @ rotation + [E, N]
    assert np.abs(segment.points - wanted).max() < 1e-7  # rounding of coordinates of 5e6


def test_a_spiral_that_does_not_end_at_its_end_is_reported(tmp_path):
    attributes = 'length="80" radiusStart="INF" radiusEnd="120"'
    end = clothoid(80.0, 80.0, 120.0)[0] * 1.01
    file = read(tmp_path, landxml(alignment(spiral((0, 0), tuple(end), "ccw", attributes))))
    assert codes(file) == ["spiral_end"]
    points = file.alignments[0].segments[0].points
    assert points[-1].tolist() == [E + end[0], N + end[1]]
    steps = np.hypot(*np.diff(points, axis=0).T)
    assert steps.max() < 1.03 * steps.min()  # stretched evenly, not by a jump at the end


def test_a_spiral_whose_tangent_is_aside_is_reported(tmp_path):
    attributes = 'length="80" radiusStart="INF" radiusEnd="120"'
    end = tuple(clothoid(80.0, 80.0, 120.0)[0])
    text = spiral((0, 0), end, "cw", attributes, (55, 0))
    assert codes(read(tmp_path, landxml(alignment(text)))) == ["spiral_tangent"]


# Whole alignments

LINE = f"<Line>{at(0, 0, 'Start')}{at(30, 40, 'End')}</Line>"
NEXT = f"<Line>{at(30, 40, 'Start')}{at(30, 90, 'End')}</Line>"


def test_stations_start_where_the_file_says(tmp_path):
    found = only(tmp_path, LINE + NEXT, 'length="100.00" staStart="1200"')
    assert found.station_start == 1200 and found.length == 100 == found.declared_length
    assert len(found.parts) == 1 and [one.length for one in found.segments] == [50, 50]


def test_the_declared_length_is_compared(tmp_path):
    file = read(tmp_path, landxml(alignment(LINE + NEXT, 'length="100.01"')))
    # Two decimals are off by up to 0.005, a millimetre more is allowed.
    assert codes(file) == ["declared_length"] and "100.01" in file.findings[0].why
    assert codes(read(tmp_path, landxml(alignment(LINE + NEXT, 'length="100.00"')))) == []
    quarter = curve((15, 0), (0, 15), "ccw", (0, 0), 'length="23.56"')  # 23.5619
    assert codes(read(tmp_path, landxml(alignment(quarter, 'length="23.56"')))) == []


def test_station_equations_give_the_station_that_people_use(tmp_path):
    more = (
        '<StaEquation staInternal="1270" staBack="1270" staAhead="3000"/>'
        '<StaEquation staInternal="1230" staBack="1230" staAhead="500" staIncrement="decreasing"/>'
    )
    file = read(tmp_path, landxml(alignment(LINE + NEXT, 'staStart="1200"', more)))
    found = file.alignments[0]
    stations = [found.displayed_station(value) for value in (1200, 1229, 1230, 1250, 1270, 1300)]
    assert stations == [1200, 1229, 500, 480, 3000, 3030]


def test_a_gap_starts_a_new_part_and_is_reported(tmp_path):
    away = NEXT.replace(repr(N + 40), repr(N + 41))
    file = read(tmp_path, landxml(alignment(LINE + "\n" + away)))
    assert codes(file) == ["gap"] and "line 5" in file.findings[0].why
    assert "1.0000" in file.findings[0].why and len(file.alignments[0].parts) == 2


def test_a_gap_within_rounding_is_closed(tmp_path):
    near = NEXT.replace(repr(N + 40), repr(N + 40.0004))
    found = only(tmp_path, LINE + near)
    first, second = found.segments
    assert len(found.parts) == 1 and second.points[0].tolist() == first.points[-1].tolist()


def test_irregular_lines_and_chains_are_chains_of_chords(tmp_path):
    irregular = (
        f"<IrregularLine>{at(0, 0, 'Start')}{at(0, 20, 'End')}"
        f"<PntList2D>{N} {E} {N} {E + 10} {N + 20} {E + 10}</PntList2D></IrregularLine>"
    )
    points = f'<CgPoints><CgPoint name="b">{N + 30} {E}</CgPoint><CgPoint name="a">{N + 20} {E}</CgPoint></CgPoints>'
    file = read(tmp_path, landxml(alignment(irregular + "<Chain>a b</Chain>") + points))
    first, second = file.alignments[0].segments
    assert first.points.tolist() == [[E, N], [E + 10, N], [E + 10, N + 20], [E, N + 20]]
    assert first.distances.tolist() == [0, 10, 30, 40]
    assert second.points.tolist() == [[E, N + 20], [E, N + 30]] and codes(file) == []


def test_dir_is_never_used(tmp_path):
    wrong = LINE.replace("<Line>", '<Line dir="271.3">')
    assert only(tmp_path, wrong).segments[0].points[1].tolist() == [E + 30, N + 40]


def test_an_alignment_without_geometry_is_left_out_and_reported(tmp_path):
    file = read(tmp_path, landxml(alignment("")))
    assert codes(file) == ["no_geometry"] and file.alignments == ()


def test_profiles_are_counted(tmp_path):
    more = "<Profile><ProfAlign><PVI>0 10</PVI></ProfAlign><ProfSurf/></Profile>"
    file = read(tmp_path, landxml(alignment(LINE, more=more)))
    assert file.alignments[0].profiles == 1


@given(st.floats(0.5, 1e4), st.floats(0.001, 6.28), st.sampled_from([1e-2, 1e-3]))
def test_chords_of_an_arc_stay_within_the_tolerance(tmp_path_factory, radius, sweep, chord):
    end = (radius * math.cos(sweep), radius * math.sin(sweep))
    text = landxml(alignment(curve((radius, 0), end, "ccw", (0, 0))))
    arc = read(tmp_path_factory.mktemp("arc"), text).alignments[0].segments[0]
    plan = chords(arc, chord)[:, :2] - [E, N]
    middles = (plan[1:] + plan[:-1]) / 2
    assert (radius - np.hypot(*middles.T)).max() <= chord + 1e-8
    assert np.abs(np.hypot(*plan.T) - radius).max() < 1e-8
