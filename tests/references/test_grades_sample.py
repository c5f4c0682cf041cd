"""The stated grades of the sample site: its walk keeps under 1:48, and a tilted one is caught."""

import numpy as np
import pytest
import shapely

from plugin.core.lines.bundle import Lines
from plugin.core.measure.grade_check import EVERYWHERE, FAIL, NEAR, PASS, Asked, check_tin
from plugin.core.measure.grade_rules import Measure
from plugin.core.measure.grades import Limit
from plugin.core.tin import Tin
from plugin.core.tolerance import Tolerance
from plugin.core.units import US_SURVEY_FOOT
from sample_project.pellworth import figures as f
from sample_project.pellworth.surface import build

from ..core.cut_shapes import polygons

NAN = float("nan")
FEET = Tolerance.for_unit(US_SURVEY_FOOT.metres)


def check(site, *limits, gutters=None):
    tin = Tin.from_arrays(site.vertices, site.faces)
    shapes = polygons(*(shapely.Polygon(z.rings[0], z.rings[1:]) for z in site.zones))
    crossing = next(k for k, z in enumerate(site.zones) if z.section == "crossing")
    lane = next(k for k, z in enumerate(site.zones) if z.section == "lane")
    shapes[lane] = shapely.difference(shapes[lane], shapes[crossing])
    crown = next(line.points for line in site.lines if line.name == "crown")
    asked = Asked(
        limits,
        0.001,
        Lines.from_arrays([crown]),
        gutters=None if gutters is None else Lines.from_arrays(gutters),
        within=0.01,
        # The figures of the sample are stated to 1e-6 ft.
        step=1e-6,
    )
    return check_tin(tin, shapes, asked, FEET)


def zone(site, section):
    return next(k for k, one in enumerate(site.zones) if one.section == section)


def walk_row(site, measure=Measure.ACROSS):
    (row,) = check(site, Limit(zone(site, "walk"), measure, NAN, 1 / 48)).rows
    return row


def test_the_walk_stays_under_1_in_48():
    site = build()
    row = walk_row(site)
    assert row.verdict == PASS
    assert not row.areas
    assert row.figures.mean == pytest.approx(f.WALK_GRADE, rel=2e-3)
    shape = site.zones[zone(site, "walk")]
    assert row.figures.checked == pytest.approx(shapely.Polygon(*[shape.rings[0]]).area, rel=1e-6)
    # The steepest slope holds the limit too: the lane's grade along is 0.5 %.
    assert walk_row(site, Measure.MAX_SLOPE).verdict == PASS


def test_a_walk_tilted_to_2_5_percent_is_caught(monkeypatch):
    monkeypatch.setattr(f, "WALK_GRADE", 0.025)
    row = walk_row(build())
    assert row.verdict == FAIL
    assert row.figures.failed == pytest.approx(row.figures.checked)
    (area,) = row.areas
    assert (area.flag, area.thin) == ("steep", False)
    assert area.mean == pytest.approx(0.025, rel=2e-3)


@pytest.mark.parametrize(
    ("grade", "verdict", "flags"),
    [(0.0199, NEAR, {"near_steep"}), (0.0215, FAIL, {"just_steep"})],
)
def test_a_walk_near_the_limit_is_told_apart(monkeypatch, grade, verdict, flags):
    monkeypatch.setattr(f, "WALK_GRADE", grade)
    row = walk_row(build())
    assert row.verdict == verdict
    assert flags <= {area.flag for area in row.areas}


def test_other_sections_have_the_grades_they_were_given():
    site = build()
    wanted = {
        "lane": -f.LANE_GRADE,
        "planting strip": f.STRIP_GRADE,
        "bus bay": -f.LANE_GRADE,
    }
    limits = [Limit(zone(site, name), Measure.ACROSS, NAN, 1.0) for name in wanted]
    found = check(site, *limits).rows
    for row, grade in zip(found, wanted.values(), strict=True):
        assert row.figures.mean == pytest.approx(grade, rel=5e-3)
    lawn = Limit(
        next(k for k, one in enumerate(site.zones) if one.name == "Lawn, school side"),
        Measure.ACROSS,
        min(grade for _, grade in f.LAWN_GRADES),
        max(grade for _, grade in f.LAWN_GRADES),
    )
    (row,) = check(site, lawn).rows
    assert 0.064 < row.figures.least < 0.066
    assert 0.089 < row.figures.greatest < 0.0905
    assert row.figures.failed < 0.2 * row.figures.checked  # where strips twist along the arcs
    garden = Limit(zone(site, "rain garden"), Measure.MAX_SLOPE, NAN, 1 / f.GARDEN_RATIO)
    (row,) = check(site, garden).rows
    assert row.verdict != FAIL  # exactly 3:1
    assert row.figures.greatest == pytest.approx(1 / 3, abs=1e-6)


def test_the_change_of_grade_at_the_lip_of_the_gutter():
    """2 % of the lane to 6 % of the gutter is a change of 4 %; at the curb's foot it is no ramp."""
    site = build()
    lines = {
        name: [line.points for line in site.lines if line.name == name]
        for name in ("gutter lip", "flow line")
    }
    asked = Limit(EVERYWHERE, Measure.BREAK, NAN, 0.133)
    (lip,) = check(site, asked, gutters=lines["gutter lip"]).breaks
    assert lip.verdict == PASS
    # Along the tapers of the bus bay the lip runs askew to the fall.
    assert np.median(lip.change) == pytest.approx(f.LANE_GRADE - f.GUTTER_GRADE, abs=2e-4)
    length = sum(shapely.LineString(xy[:, :2]).length for xy in lines["gutter lip"])
    assert lip.length() == pytest.approx(length, rel=1e-9)
    (foot,) = check(site, asked, gutters=lines["flow line"]).breaks
    assert foot.verdict == FAIL
    assert np.median(foot.change) == pytest.approx(f.FACE_RISE / f.FACE - f.GUTTER_GRADE, rel=1e-3)
