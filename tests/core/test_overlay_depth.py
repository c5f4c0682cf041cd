"""Overlays of a design and the depth surfaces below it, beside the depths of their own vertices."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import shapely

from plugin.core.depth.quantities import prisms
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Outside, Zones
from plugin.core.exchange.landxml import read_landxml
from plugin.core.tin import Tin
from plugin.core.tin.overlay import integrate
from plugin.core.tolerance import Tolerance
from plugin.core.units import US_SURVEY_FOOT, parse_length
from sample_project.pellworth.surface import build

from .tin_shapes import REAL, read_real

DATA = Path(__file__).parents[2] / "sample_project" / "data"
FEET = Tolerance.for_unit(US_SURVEY_FOOT.metres)


def expected_by_depths(dug, zones):
    """Cut and fill of each zone from the depths at the vertices, face by face."""
    below, above = prisms(dug.tin.plan_areas, dug.depths[dug.tin.faces])
    row = np.where(dug.zone < 0, zones, dug.zone)
    return np.bincount(row, below, zones + 1), np.bincount(row, above, zones + 1)


def assert_agrees(design, dug, zones):
    cut, fill = expected_by_depths(dug, zones)
    found = integrate(design, dug.tin, None, dug.zone)
    by_zone = found.of_lower([*range(zones), -1])
    assert by_zone.cut == pytest.approx(cut, rel=1e-9, abs=1e-6)
    assert by_zone.fill == pytest.approx(fill, rel=1e-9, abs=1e-6)
    assert by_zone.cut.sum() == pytest.approx(found.total.cut[0], rel=1e-12)
    areas = np.bincount(np.where(dug.zone < 0, zones, dug.zone), dug.tin.plan_areas, zones + 1)
    assert by_zone.area == pytest.approx(areas, rel=1e-9, abs=1e-6)
    assert found.uncovered_lower == pytest.approx(0.0, abs=1e-6)
    return found, by_zone


@pytest.fixture(scope="module")
def sample():
    """The sample's design and its zones as the plan writes them, in US survey feet."""
    site = build()
    tin = read_landxml(DATA / "pellworth.xml").surface("Finished grade").tin
    shapes = np.array([shapely.Polygon(zone.rings[0], zone.rings[1:]) for zone in site.zones])
    depths = [parse_length(zone.depth, US_SURVEY_FOOT) for zone in site.zones]
    priority = np.array([zone.priority for zone in site.zones], dtype=float)
    return tin, Zones(shapes, np.array(depths), np.arange(len(shapes)), priority)


@pytest.mark.parametrize("outside", list(Outside))
def test_all_zones_of_the_sample(sample, outside):
    """Steps of 0.001 ft, zones that overlap, faces that lie on those of the design."""
    tin, zones = sample
    dug = depth_surface(tin, zones, outside, 0.3, FEET)
    found, by_zone = assert_agrees(tin, dug, len(zones))
    dug_out = by_zone.area > 0
    assert (by_zone.cut[:-1][dug_out[:-1]] > 0).all()
    assert by_zone.most[:-1] == pytest.approx(zones.depths, abs=1e-9)
    if outside is Outside.KEEP:
        rest = by_zone.area[-1]
        assert by_zone.area_level[-1] == pytest.approx(rest, abs=0.01 * rest)
        assert found.uncovered_upper == pytest.approx(0, abs=1e-5)


def test_the_design_beside_the_zones_is_not_covered(sample):
    tin, zones = sample
    few = Zones(zones.polygons[:4], zones.depths[:4], zones.ids[:4], zones.priority[:4])
    dug = depth_surface(tin, few, Outside.LEAVE_OUT, tolerance=FEET)
    found, _ = assert_agrees(tin, dug, 4)
    left = tin.plan_area - dug.tin.plan_area
    assert left > 1000
    assert found.uncovered_upper == pytest.approx(left, rel=1e-9)


def test_sides_and_widened_bottoms_of_the_sample(sample):
    tin, zones = sample
    count = len(zones)
    shaped = replace(zones, widths=np.full(count, 0.5), batters=np.where(zones.depths > 1, 1.5, 0))
    assert_agrees(tin, depth_surface(tin, shaped, tolerance=FEET), count)


def test_zones_that_raise(sample):
    tin, zones = sample
    depths = np.where(np.arange(len(zones)) % 2, -1, 1) * zones.depths
    dug = depth_surface(tin, replace(zones, depths=depths), tolerance=FEET)
    found, _ = assert_agrees(tin, dug, len(zones))
    assert found.total.fill[0] > 100 and found.total.cut[0] > 100


def test_depth_is_the_volume_over_the_area(sample):
    """With one depth throughout, cut is depth x plan area, whatever the surface."""
    tin, _ = sample
    lowered = Tin.from_arrays(tin.vertices - np.array((0, 0, 0.85)), tin.faces)
    total = integrate(tin, lowered).total
    assert total.area[0] == pytest.approx(tin.plan_area, rel=1e-12)
    assert total.cut[0] == pytest.approx(0.85 * tin.plan_area, rel=1e-11)
    assert total.least[0] == pytest.approx(0.85) and total.most[0] == pytest.approx(0.85)


# --- real files: buildingSMART Finland, InfraModel sample data, CC BY 4.0 -----------------------

real = pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")


@real
@pytest.mark.parametrize(
    "names",
    [
        ("road_finished", "road_subgrade"),
        ("road_ground", "road_finished"),
        ("road_subgrade", "road_ground"),
    ],
)
def test_real_surfaces_beside_intersections(names):
    upper, lower = map(read_real, names)
    one, other = (shapely.polygons(tin.vertices[tin.faces][..., :2]) for tin in (upper, lower))
    first, second = shapely.STRtree(other).query(one)
    shared = shapely.intersection(one[first], other[second])
    area = shapely.area(shared)
    middle = shapely.get_coordinates(shapely.centroid(shared[area > 0]))
    heights = []
    for tin, face in ((upper, first[area > 0]), (lower, second[area > 0])):
        corner = tin.vertices[tin.faces[face, 0]]
        step = middle - corner[:, :2]
        heights.append(corner[:, 2] + np.einsum("ij,ij->i", step, tin.gradients[face]))
    net = float((area[area > 0] * (heights[0] - heights[1])).sum())
    found = integrate(upper, lower)
    assert found.total.area[0] == pytest.approx(area.sum(), rel=1e-9)
    assert found.total.net[0] == pytest.approx(net, rel=1e-7)
    other_way = integrate(lower, upper).total
    assert other_way.net[0] == pytest.approx(-found.total.net[0], rel=1e-11)
    assert other_way.cut[0] == pytest.approx(found.total.fill[0], rel=1e-9, abs=1e-9)
