"""Depths beside what is asked: tolerances in words, regions, worst places, points, cover."""

import math

import numpy as np
import pytest
import shapely

from plugin.core.errors import LengthTextError
from plugin.core.lines.bundle import Lines
from plugin.core.lines.drape import draped, tin_crossings
from plugin.core.measure.cells import classify, failing_corners
from plugin.core.measure.cover import cover_over
from plugin.core.measure.depth import (
    Asked,
    Verdict,
    failing_parts,
    result_of_ground,
    result_of_points,
)
from plugin.core.measure.limits import Limits, parse_limits
from plugin.core.measure.pair import Pair
from plugin.core.tin import Tin
from plugin.core.tolerance import Tolerance
from plugin.core.units import FOOT, METRE

from .test_measure_volumes import zones_of
from .test_overlay_shapes import close, flat, sheet
from .tin_shapes import square

TOLERANCE = Tolerance()


@pytest.mark.parametrize(
    ("text", "limits"),
    [
        ("0.05", (0.05, 0.05)),
        ("1/2 in", (1 / 24, 1 / 24)),
        ("+/- 0.05 ft", (0.05, 0.05)),
        ("± 15.24 mm", (0.05, 0.05)),
        ("-0 / +0.05", (0.0, 0.05)),
        ("-0/+0.6 in", (0.0, 0.05)),
        ("+0.05 ft, -0.02 ft", (0.02, 0.05)),
        ("-0.3048 / +0.6096 m", (1.0, 2.0)),
        ("-1/2 in / +1 1/2 in", (1 / 24, 0.125)),
        ("−0 / +any", (0.0, math.inf)),
        ("-any / +0", (math.inf, 0.0)),
        (0.1, (0.1, 0.1)),
    ],
)
def test_tolerances_as_people_write_them(text, limits):
    """- is shallower, + is deeper; the unit behind the last counts for one without."""
    read = parse_limits(text, FOOT)
    assert (read.less, read.more) == pytest.approx(limits)


@pytest.mark.parametrize(
    "text", ["", "-0", "-0 / -0.05", "+0.05 / +0.1", "close", "-0 / +-1", "- / +1"]
)
def test_other_texts_are_refused_with_advice(text):
    with pytest.raises(LengthTextError, match=r"-0 / \+0\.05 ft"):
        parse_limits(text, FOOT)


def test_lengths_without_a_unit_are_in_that_of_the_job():
    assert parse_limits("-0 / +0.05", METRE) == Limits(0.0, 0.05)


# --- over ground -------------------------------------------------------------------------------


def asked_for(depths, less, more, slack=1e-6):
    every = [np.array(values, float) for values in (depths, less, more)]
    return Asked(*every, slack)


def checked(design, actual, asked, zones=None, narrow=0.0):
    pair = Pair.of(design, actual, zones, TOLERANCE)
    classes, group = asked.classes()
    sums, shapes = classify(pair, classes, TOLERANCE.snap, less=asked.depths, group=group)
    corners = failing_corners(pair, asked.depths, asked.low, asked.high)
    parts = failing_parts(shapes, corners, asked, narrow)
    return sums, group, shapes, parts


def test_a_bottom_that_climbs_fails_where_it_is_too_shallow():
    """1.0 asked for -0 / +0.5; the depth runs from 0 in the west to 2 in the east (over 10)."""
    asked = asked_for([1.0], [0.0], [0.5])
    sums, group, shapes, parts = checked(square(), square((0, -2, -2, 0)), asked)
    found = result_of_ground(sums, group, parts, np.array([0]), 1e-9)
    assert found.measure == pytest.approx([25, 50, 25], abs=1e-3)
    assert (found.share, found.passes) == (pytest.approx(0.25, abs=1e-4), False)
    assert (found.least, found.mean, found.most) == pytest.approx((-1, 0, 1))
    assert shapes[0, Verdict.PASS].symmetric_difference(shapely.box(5, 0, 7.5, 10)).area < 1e-3
    assert [part.verdict for part in parts] == [Verdict.SHALLOW, Verdict.DEEP]
    assert parts[0].xy[0] == close(0) and parts[0].deviation == close(-1)
    assert parts[1].xy[0] == close(10) and parts[1].deviation == close(1)


def test_depths_and_tolerances_of_zones():
    """Two halves, 0.7 deep: 0.7 -0/+0 passes, 0.6 +0.05 is too deep; nothing asked outside."""
    zones = zones_of(shapely.box(0, 0, 5, 10), shapely.box(5, 0, 9, 10))
    asked = asked_for([0.7, 0.6, 0.0], [0, 0, math.inf], [0, 0.05, math.inf])
    sums, group, _, parts = checked(square(), square((-0.7,) * 4), asked, zones)
    one, other = (result_of_ground(sums, group, parts, np.array([r]), 1e-9) for r in (0, 1))
    assert one.passes and one.share == 1
    assert not other.passes and other.measure == pytest.approx([0, 0, 40], abs=1e-3)
    assert other.least == other.most == pytest.approx(0.1)


def test_a_depth_on_its_limit_passes_despite_rounding():
    noise = np.random.default_rng(2).uniform(-9e-5, 9e-5, 441)
    ground = sheet(20, 0.5, flat)
    dug = Tin.from_arrays(ground.vertices - np.c_[0 * noise, 0 * noise, 0.5 + noise], ground.faces)
    asked = asked_for([0.5], [0.0], [0.0], 1e-4)
    sums, group, _, parts = checked(ground, dug, asked)
    assert parts == []
    assert result_of_ground(sums, group, parts, np.array([0]), 1e-9).passes


def test_each_region_has_its_own_worst_place():
    """Two humps of 0.3 and 0.2 in a bottom 0.5 deep: two regions, the higher hump first."""

    def humps(east, north):
        near = lambda x, y, h: np.maximum(0, h - 0.1 * np.hypot(east - x, north - y))  # noqa: E731
        return near(4, 4, 0.3) + near(15, 15, 0.2) - 0.5

    asked = asked_for([0.5], [0.05], [0.05])
    _, _, _, parts = checked(sheet(4, 5.0, flat), sheet(40, 0.5, humps), asked)
    assert [part.deviation for part in parts] == pytest.approx([-0.3, -0.2])
    assert [tuple(part.xy) for part in parts] == [pytest.approx((4, 4)), pytest.approx((15, 15))]


def test_strips_at_upright_steps_are_set_apart():
    """A step 0.001 wide from 0.5 to 1.0 deep just inside a zone of 1.0 is no failure."""
    xs = np.array([0, 5, 5.001, 10.0])
    z = np.array([-0.5, -0.5, -1.0, -1.0])
    vertices = [(x, y, h) for y in (0, 10) for x, h in zip(xs, z, strict=True)]
    faces = [f for k in range(3) for f in ((k, k + 1, k + 5), (k, k + 5, k + 4))]
    zones = zones_of(shapely.box(5, 0, 10, 10))
    asked = asked_for([1.0, 0.0], [0.0, math.inf], [0.05, math.inf])
    sums, group, _, parts = checked(
        square(), Tin.from_arrays(vertices, faces), asked, zones, narrow=0.02
    )
    found = result_of_ground(sums, group, parts, np.array([0]), 1e-9)
    assert [part.narrow for part in parts] == [True]
    assert found.passes and found.narrow == pytest.approx(0.01, rel=0.01)
    assert found.least == pytest.approx(0.0, abs=1e-6)


def test_the_bars_of_the_histogram_hold_all_ground():
    asked = asked_for([1.0], [0.02], [0.05])
    assert asked.bar() == pytest.approx(0.01)
    sums, *_ = checked(square(), square((0, -2, -2, 0)), asked)
    assert sums.area.sum() == close(100)


def test_points_are_counted_by_verdict():
    asked = asked_for([0.5], [0.0], [0.05])
    deviation = np.array([0.0, 0.05, -0.01, 0.2])
    judged = asked.judged(deviation, np.zeros(4, int))
    assert judged.tolist() == [Verdict.PASS, Verdict.PASS, Verdict.SHALLOW, Verdict.DEEP]
    found = result_of_points(deviation, judged)
    assert found.measure.tolist() == [2, 1, 1] and found.share == 0.5


# --- over lines --------------------------------------------------------------------------------


def covered(coordinates, tin, asked):
    lines = Lines.from_arrays([np.array(line, float) for line in coordinates])
    surface, origin, along = draped(lines, tin_crossings(lines, tin), lambda xy: tin.sample(xy)[0])
    return cover_over(lines, origin, along, surface, asked)


def test_the_least_cover_over_a_pipe_lies_in_the_valley():
    """Ground z = |x - 50| / 10, a level pipe at -2: least cover 2 at x = 50, < 3 for 20."""
    xs = np.array([0, 50, 100.0])
    vertices = [(x, y, abs(x - 50) / 10) for y in (-10, 10) for x in xs]
    tin = Tin.from_arrays(vertices, [(0, 1, 4), (0, 4, 3), (1, 2, 5), (1, 5, 4)])
    found = covered([[(10, 0, -2), (90, 0, -2)], [(0, 5, -4), (120, 5, -4)]], tin, 3.0)
    assert found.least == pytest.approx([2.0, 4.0])
    assert found.station == pytest.approx([40.0, 50.0])
    assert found.xyz[0] == pytest.approx((50, 0, -2))
    assert found.lacking == pytest.approx([20.0, 0.0])
    assert found.length == pytest.approx([80.0, 120.0])
    assert found.unknown == pytest.approx([0.0, 20.0])


def test_a_pipe_that_falls_with_the_ground_keeps_its_cover():
    tin = square((10, 9, 9, 10))
    found = covered([[(1, 1, 6.9), (5, 1, 6.5), (9, 9, 6.1)]], tin, 3.0)
    assert found.least == pytest.approx([3.0]) and found.lacking == pytest.approx([0.0])


def test_a_line_off_the_surface_has_no_cover():
    found = covered([[(20, 0, 1), (30, 0, 1)]], square(), 1.0)
    assert np.isnan(found.least[0]) and found.unknown[0] == pytest.approx(10)


def test_a_hump_is_not_taken_for_a_strip_because_a_strip_hangs_on_it():
    """A strip 0.001 wide and 10 long, and on its end a triangle 0.4 deep: the whole fails."""
    xs = np.array([0, 5, 5.001, 10.0])
    z = np.array([-0.5, -0.5, -1.0, -1.0])
    vertices = [(x, y, h) for y in (0, 10) for x, h in zip(xs, z, strict=True)]
    vertices[6] = (5.001, 10, -0.6)
    faces = [f for k in range(3) for f in ((k, k + 1, k + 5), (k, k + 5, k + 4))]
    zones = zones_of(shapely.box(5, 0, 10, 10))
    asked = asked_for([1.0, 0.0], [0.0, math.inf], [0.05, math.inf])
    *_, parts = checked(square(), Tin.from_arrays(vertices, faces), asked, zones, narrow=0.02)
    (part,) = parts
    assert not part.narrow
    # The worst place on ground that is no step.
    assert part.deviation == pytest.approx(-0.4) and tuple(part.xy) == pytest.approx((5.001, 10))


def test_a_region_without_a_corner_is_told_all_the_same():
    asked = asked_for([1.0], [0.0], [0.05])
    shapes = np.full((1, 3), None, object)
    shapes[0, Verdict.DEEP] = shapely.box(0, 0, 1, 1)
    nothing = np.zeros((0, 2)), np.zeros(0), np.zeros(0, int), np.zeros(0)
    (part,) = failing_parts(shapes, nothing, asked, 0.01)
    assert part.deviation == pytest.approx(0.05, abs=1e-5) and not part.narrow
