"""Zones against each other and against the design: overlaps, gaps, ground past the design."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from plugin.core.measure.issues import Issues, JobScale, Weight
from plugin.core.measure.zone_check import NamedZones, check_zones, outline_of
from plugin.core.tolerance import Tolerance
from plugin.core.units import METRE

from .tin_shapes import square

METRES = JobScale(METRE, METRE)


def check(*polygons, priority=None, ground=None, gap=0.05, shift=0.0):
    ground = shapely.box(0, 0, 100, 100) if ground is None else ground
    placed = [shapely.transform(one, lambda xy: xy + shift) for one in (*polygons, ground)]
    issues = Issues()
    zones = NamedZones(
        np.array(placed[:-1], dtype=object),
        np.arange(len(polygons)) + 1,
        [chr(ord("a") + k) for k in range(len(polygons))],
        None if priority is None else np.array(priority, float),
    )
    free = check_zones(issues, zones, placed[-1], Tolerance(), METRES, gap)
    return issues, free


def one(issues):
    (only,) = issues.found
    return only


LEFT, RIGHT = shapely.box(0, 0, 50, 100), shapely.box(50, 0, 100, 100)


@given(st.floats(0, 360), st.sampled_from([0.0, 1e7]), st.floats(-0.04, 0.04))
@settings(max_examples=60, deadline=None)
def test_turned_and_moved_zones_are_judged_alike(turn, shift, step):
    """Two neighbours whose border is off by a step: clean, overlap or gap by its sign alone."""
    shapes = LEFT, shapely.box(50 + step, 0, 100, 100), shapely.box(0, 0, 100, 100)
    *zones, ground = (affinity.rotate(shape, turn, origin=(50, 50)) for shape in shapes)
    issues, _ = check(*zones, ground=ground, shift=shift)
    wide = 2e-4  # below this, rounding and the grid for noding decide
    if abs(step) < wide:
        return
    codes = {found.code for found in issues.found}
    assert codes == {"zone_gap" if step > 0 else "zone_overlap"}
    assert sum(found.area for found in issues.found) == pytest.approx(100 * abs(step), rel=0.05)


def test_the_outline_of_a_surface():
    assert outline_of(square()).area == pytest.approx(100)


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_neighbours_that_share_a_border_are_clean(shift):
    issues, free = check(LEFT, RIGHT, shift=shift)
    assert issues.found == []
    assert free == pytest.approx(0, abs=1e-6)


def test_rounding_of_borders_is_clean_too():
    slanted = shapely.Polygon([(0, 0), (33.3, 0), (66.7, 100), (0, 100)])
    rest = shapely.Polygon([(33.3, 0), (100, 0), (100, 100), (66.7, 100), (50, 50 - 1e-9)])
    assert check(slanted, rest)[0].found == []


@pytest.mark.parametrize("shift", [0.0, 1e7])
def test_an_overlap_with_its_ground(shift):
    issues, _ = check(LEFT, shapely.box(48, 0, 100, 100), shift=shift)
    found = one(issues)
    assert (found.code, found.weight) == ("zone_overlap", Weight.ERROR)
    assert found.area == pytest.approx(200, rel=1e-6)
    assert "“a” and “b”" in found.why
    assert 48 <= found.place[0] - shift <= 50


def test_a_priority_settles_an_overlap():
    wide = shapely.box(48, 0, 100, 100)
    found = one(check(LEFT, wide, priority=[2, 1])[0])
    assert found.weight is Weight.NOTE
    assert "“b” wins" in found.why
    assert one(check(LEFT, wide, priority=[1, 1])[0]).weight is Weight.ERROR
    assert one(check(LEFT, wide, priority=[1, np.nan])[0]).weight is Weight.ERROR


def test_a_gap_between_neighbours():
    found = one(check(LEFT, shapely.box(50.03, 0, 100, 100))[0])
    assert found.code == "zone_gap"
    assert found.area == pytest.approx(3.0, rel=1e-2)
    assert "0.03 m wide on average and 100" in found.why
    # A joint wider than asked is meant.
    assert check(LEFT, shapely.box(50.06, 0, 100, 100))[0].found == []
    assert check(LEFT, shapely.box(50.03, 0, 100, 100), gap=0.0)[0].found == []


def test_a_gap_that_closes_like_a_wedge():
    wedge = shapely.Polygon([(50, 0), (100, 0), (100, 100), (50.04, 100)])
    found = one(check(LEFT, wedge)[0])
    assert found.code == "zone_gap"
    assert found.area == pytest.approx(2.0, rel=2e-2)


@pytest.mark.parametrize("angle", [0.5, 1, 2, 5, 10, 20, 45])
def test_a_sharp_corner_between_zones_is_no_gap(angle):
    """Zones that part at an angle are drawn so; only the tip of the wedge is narrow."""
    away = 49 * np.tan(np.radians(angle))
    parting = shapely.Polygon([(50, 0), (100, 0), (100, 49), (50 + away, 49)])
    assert check(LEFT, parting)[0].found == []


def test_a_short_gap_with_open_ends_is_one():
    found = one(check(shapely.box(0, 0, 50, 5), shapely.box(50.03, 0, 100, 5))[0])
    assert (found.code, found.area) == ("zone_gap", pytest.approx(0.15, rel=2e-2))


def test_ground_that_zones_enclose():
    ring = shapely.box(10, 10, 90, 90) - shapely.box(40, 40, 60, 60)
    found = one(check(ring)[0])
    assert (found.code, found.weight) == ("no_zone", Weight.CHECK)
    assert found.area == pytest.approx(400)
    # A slit elsewhere takes nothing from that.
    both = check(ring - shapely.box(20, 20, 20.02, 30))[0]
    assert sorted(x.code for x in both.found) == ["no_zone", "zone_gap"]
    # Nothing of it is missing where the design has a hole there too.
    ground = shapely.box(0, 0, 100, 100) - shapely.box(35, 35, 65, 65)
    assert [x.code for x in check(ring, ground=ground)[0].found] == ["zone_beyond"]


def test_a_zone_past_the_design():
    found = one(check(shapely.box(50, 0, 110, 100))[0])
    assert found.code == "zone_beyond"
    assert found.area == pytest.approx(1000)
    assert "outside" in one(check(shapely.box(200, 0, 210, 10))[0]).why


def test_what_no_zone_covers_is_told():
    assert check(shapely.box(0, 0, 50, 50))[1] == pytest.approx(7500)
