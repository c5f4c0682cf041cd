"""Guidelines measured and judged: right ones pass, wrong ones are caught, each for what it is."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.lines.bundle import Lines
from plugin.core.lines.check import measure
from plugin.core.lines.corners import Join, JoinStyle
from plugin.core.lines.match import best_lines
from plugin.core.lines.parallel import parallels
from plugin.core.lines.stationing import Stationing
from plugin.core.lines.verdict import Asked, Names, verdicts
from plugin.core.units import FOOT

from .lines_shapes import L_SHAPE, SQUARE, brute_signed, lines_of, turned, wander


def checked(guidelines, lines, side=1, distance=1.0, tolerance=0.01, line=None, corner=2.0):
    """Return the findings on guidelines, all asked for alike."""
    count = len(guidelines)
    distances = np.full(count, float(distance))
    match = best_lines(guidelines, lines, distances, tolerance)
    line = match.line if line is None else np.full(count, line)
    found = measure(guidelines, lines, np.maximum(line, 0))
    asked = Asked(line, np.full(count, side), distances, tolerance, corner)
    names = Names([f"line {k}" for k in range(len(lines))], Stationing.of(lines, 100.0), FOOT)
    return verdicts(guidelines, asked, found, match, names)


def flags(*arguments, **more):
    return [(f.result, f.flag) for f in checked(*arguments, **more)]


@pytest.mark.parametrize("join", list(Join))
@pytest.mark.parametrize("side", [1, -1])
@pytest.mark.parametrize("line", [L_SHAPE, SQUARE, wander(3)[:, :2]])
def test_what_was_laid_rightly_passes_with_every_join(join, side, line):
    lines = lines_of(line)
    laid = parallels(lines, side * 0.4, JoinStyle(join)).lines
    assert set(flags(laid, lines, side, 0.4)) == {("pass", "")}
    assert set(flags(laid.reversed(), lines, side, 0.4)) == {("pass", "")}
    # The line drawn the other way has its sides swapped.
    assert set(flags(laid, lines.reversed(), -side, 0.4)) == {("pass", "")}


def test_a_mitred_corner_reaches_out_and_is_no_error_of_distance():
    lines = lines_of(L_SHAPE)
    # (10,10)(30,10)(30,30), 2 to the right -> (10,8)(32,8)(32,30): a general-purpose GIS library
    # and GEOS agree.
    found = measure(lines_of([(10, 8), (32, 8), (32, 30)]), lines, np.array([0]))
    assert (found.low[0], found.high[0], found.nearest[0]) == pytest.approx((2.0, 2.0, 2.0))
    assert found.farthest_corner[0] == pytest.approx(2.0 * np.sqrt(2.0), abs=1e-6)
    assert (found.right[0], found.left[0], found.mean[0]) == pytest.approx((1.0, 0.0, 2.0))


def test_the_wrong_side_is_caught():
    lines = lines_of([(0, 0), (100, 0)])
    (finding,) = checked(lines_of([(0, 1), (100, 1)]), lines)
    assert (finding.result, finding.flag) == ("fail", "wrong_side")
    assert finding.why == (
        "All of it lies to the LEFT of 'line 0', where the RIGHT is asked: it was laid on the"
        " wrong side."
    )


def test_a_guideline_that_swaps_half_way_is_caught_with_its_stations():
    lines = lines_of([(0, 0), (100, 0)])
    swapped = lines_of([(0, -1), (60, -1), (60, 1), (100, 1)])
    (finding,) = checked(swapped, lines)
    assert (finding.result, finding.flag) == ("fail", "swaps")
    assert finding.start == pytest.approx(60.0, abs=1.0)
    assert finding.stop == pytest.approx(100.0, abs=1.0)
    assert finding.why.startswith("40% of its length lies to the LEFT of 'line 0', where the RIGHT")
    found = measure(swapped, lines, np.array([0]))
    assert found.left[0] == pytest.approx(41 / 102)
    (finding,) = checked(swapped, lines, side=0)
    assert (finding.result, finding.flag) == ("fail", "swaps")


def test_the_wrong_distance_is_caught_with_its_extremes():
    lines = lines_of([(0, 0), (100, 0)])
    (finding,) = checked(lines_of([(0, -1), (100, -1.25)]), lines)
    assert (finding.result, finding.flag) == ("fail", "distance")
    assert "1.00 ft to 1.25 ft from 'line 0', where 1.00 ft is asked" in finding.why
    assert finding.place[0] > 95
    assert flags(lines_of([(0, -1), (100, -1.25)]), lines, tolerance=0.3) == [("pass", "")]
    # Without a distance asked for only the side counts.
    assert flags(lines_of([(0, -1), (100, -1.25)]), lines, distance=np.nan) == [("pass", "")]


def test_a_guideline_of_another_line_is_told_with_that_line():
    lines = lines_of([(0, 0), (100, 0)], [(0, -8), (100, -8)])
    (finding,) = checked(lines_of([(0, -9), (100, -9)]), lines, line=0)
    assert (finding.result, finding.flag) == ("fail", "wrong_line")
    assert "It fits 'line 1' and not 'line 0'" in finding.why
    assert flags(lines_of([(0, -9), (100, -9)]), lines) == [("pass", "")]


def test_two_lines_that_fit_alike_are_unclear():
    lines = lines_of([(0, 0), (100, 0)], [(100, -2), (0, -2)])
    assert flags(lines_of([(0, -1), (100, -1)]), lines) == [("unclear", "two_lines")]


def test_what_lies_beyond_an_open_end_is_unclear():
    lines = lines_of([(0, 0), (60, 0)])
    assert flags(lines_of([(0, -1), (100, -1)]), lines)[0][1] in ("distance", "beyond")
    assert flags(lines_of([(0, -1), (100, -1)]), lines, distance=np.nan) == [("unclear", "beyond")]


def test_a_corner_farther_out_than_its_limit_is_caught():
    lines = lines_of([(0, 0), (50, 0), (0, 10)])
    laid = parallels(lines, 1.0, JoinStyle(Join.MITRE, 20.0)).lines
    assert flags(laid, lines, corner=20.0) == [("pass", "")]
    assert flags(laid, lines, corner=2.0) == [("fail", "corner")]
    (found,) = checked(laid, lines, corner=2.0)
    assert found.place == pytest.approx(laid.xy[1], abs=1e-9)
    assert found.start == found.stop == pytest.approx(lines.stations[1], abs=1e-6)


@pytest.mark.parametrize("turn", [135, 150, 165])
def test_a_tip_that_was_cut_at_the_limit_passes(turn):
    """Its two ends lie farther out than the limit, up to the root of 1 and its square."""
    way = np.radians(turn)
    lines = lines_of([(0, 0), (50, 0), (50 + 50 * np.cos(way), 50 * np.sin(way))])
    laid = parallels(lines, 1.0, JoinStyle(mitre_limit=2.0)).lines
    cut = (2.0 - np.cos(way / 2)) / np.sin(way / 2)
    found = measure(laid, lines, np.array([0]))
    assert found.farthest_corner[0] == pytest.approx(np.hypot(1.0, cut), abs=1e-6)
    assert found.farthest_corner[0] > 2.01
    assert flags(laid, lines, corner=2.0) == [("pass", "")]


def test_no_line_near_is_unclear():
    lines = lines_of([(0, 0), (100, 0)])
    assert flags(lines_of([(0, -1), (100, -1)]), lines, line=-1) == [("unclear", "no_line")]


@settings(max_examples=60, deadline=None)
@given(
    seed=st.integers(0, 10**6),
    degrees=st.floats(0, 360),
    shift=st.sampled_from([0.0, 1e7]),
    mirror=st.booleans(),
)
def test_measures_turn_and_move_with_the_site(seed, degrees, shift, mirror):
    line = wander(seed, 25)[:, :2]
    rough = line + np.random.default_rng(seed).uniform(-0.5, 0.5, line.shape) + (0.0, -1.0)
    here = measure(lines_of(rough), lines_of(line), np.array([0]))
    flip = np.array([-1.0, 1.0]) if mirror else np.array([1.0, 1.0])
    one, other = (turned(xy * flip, degrees) + shift for xy in (line, rough))
    there = measure(lines_of(other), lines_of(one), np.array([0]))
    sides = ("left", "right") if mirror else ("right", "left")
    for name in ("low", "high", "nearest", "farthest_corner", "unclear"):
        assert getattr(there, name) == pytest.approx(getattr(here, name), abs=1e-5, nan_ok=True)
    assert getattr(there, sides[0]) == pytest.approx(here.right, abs=1e-5)
    assert getattr(there, sides[1]) == pytest.approx(here.left, abs=1e-5)


@pytest.mark.parametrize("seed", range(12))
def test_extremes_and_shares_against_dense_points(seed):
    """Distances by shapely at 40,000 points; sides point by point by other code."""
    line = wander(seed, 20)[:, :2]
    rough = line + np.random.default_rng(seed).uniform(-0.7, 0.7, line.shape) + (0.3, -0.8)
    found = measure(lines_of(rough), lines_of(line), np.array([0]))
    path = shapely.linestrings(rough)
    shares = np.linspace(0, 1, 40_001)
    dense = shapely.line_interpolate_point(path, shares, normalized=True)
    away = shapely.distance(dense, shapely.linestrings(line))
    assert found.nearest[0] == pytest.approx(away.min(), abs=2e-3)
    most = np.nanmax([found.high[0], found.farthest_corner[0]])
    beyond = found.cuts.beyond
    if not beyond.any():
        assert most == pytest.approx(away.max(), abs=0.05)
    some = shapely.get_coordinates(dense[::40])
    right = (brute_signed(line, some) > 0).mean()
    assert found.right[0] == pytest.approx(right, abs=0.03 + found.unclear[0])


def test_many_guidelines_in_one_go_are_measured_as_one_by_one():
    lines = Lines.from_arrays([wander(seed, 20)[:, :2] + 100 * seed for seed in range(5)])
    laid = parallels(lines, 0.3)
    together = measure(laid.lines, lines, laid.source)
    for g in range(len(laid.lines)):
        alone = measure(laid.lines.take(np.array([g])), lines, laid.source[[g]])
        assert together.low[g] == alone.low[0]
        assert together.mean[g] == pytest.approx(alone.mean[0])
