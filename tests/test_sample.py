"""The sample site: its files say what its figures state, and core finds the stated truths."""

import csv
import itertools
import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree as ET

import numpy as np
import pytest
import shapely
from osgeo import gdal, ogr, osr

from plugin.core.breaks import Kind
from plugin.core.tin import Tin
from plugin.core.units import US_SURVEY_FOOT, parse_length, parse_station
from plugin.layers.ply import read_ply
from sample_project.pellworth import figures as f
from sample_project.pellworth.surface import KINDS, LEAST_CHANGE, build
from tests.core.breaks_shapes import breaks_of

ROOT = Path(__file__).resolve().parent.parent
DATA = ROOT / "sample_project" / "data"
XML = "{http://www.landxml.org/schema/LandXML-1.2}"


@pytest.fixture(scope="module")
def site():
    return build()


@pytest.fixture(scope="module")
def tin(site):
    return Tin.from_arrays(site.vertices, site.faces)


@pytest.fixture(scope="module")
def zone_shapes(site):
    return [shapely.Polygon(zone.rings[0], zone.rings[1:]) for zone in site.zones]


@pytest.fixture(scope="module")
def anywhere(site):
    low, high = site.vertices[:, :2].min(axis=0), site.vertices[:, :2].max(axis=0)
    return np.random.default_rng(7).uniform(low, high, (4000, 2))


# --- the surface follows from the figures -----------------------------------------------------


def test_heights_on_straights_are_the_closed_form(site):
    """Away from arcs and lawns every strip is a plane, so heights follow from the section."""
    rng = np.random.default_rng(1)
    straights = ((0, f.LEG), (f.LEG + f.ARC, f.LEG + f.ARC + f.FRONT), (f.LENGTH - f.LEG, f.LENGTH))
    stations = np.concatenate([rng.uniform(a, b, 400) for a, b in straights])
    left, right = f.section(stations)
    rails = [*left[::-1][1:], *right[1:-1]]  # bank and outer lawn are twisted: their grade varies
    offsets = np.array([rail.offset for rail in rails])
    rises = np.array([rail.rise for rail in rails])
    at = rng.uniform(offsets[0], offsets[-1])
    rise = [np.interp(o, x, r) for o, x, r in zip(at, offsets.T, rises.T, strict=True)]
    xy = f.place(stations, at)
    # Coordinates are rounded to 1e-6; on the face of the curb (450 %) that counts 4.5 times.
    assert site.heights(xy) == pytest.approx(f.crown(stations) + rise, abs=2e-5)


def test_vertices_on_arcs_lie_on_the_true_circles(site):
    centre = f.ground((f.WIDTH - f.RADIUS, f.LEG))
    crown = next(line for line in site.lines if line.name == "crown").points
    stations = f.stations()
    on_arc = (stations >= f.LEG) & (stations <= f.LEG + f.ARC)
    assert on_arc.sum() == f.ARC_CELLS + 1
    radii = np.hypot(*(crown[on_arc, :2] - centre).T)
    assert radii == pytest.approx(f.RADIUS, abs=2e-6)


def test_garden_is_level_with_sides_of_three_to_one(site, tin):
    garden = tin.gradients[site.sections == "rain garden"]
    slopes = np.hypot(*garden.T)
    level, side = slopes < 1e-6, np.abs(slopes - 1 / f.GARDEN_RATIO) < 1e-6
    assert (level | side).all()
    assert level.any() and side.any()


def test_slopes_of_the_sections(site, tin):
    slopes = 100 * np.hypot(*tin.gradients.T)
    for section, low, high in (
        ("planting strip", 3.0, 3.2),  # 3 % to the curb, with the grade of the lane along it
        ("walk", 1.5, 1.6),
        ("lane", 2.0, 2.15),
    ):
        found = slopes[site.sections == section]
        assert low - 1e-3 < found.min() and found.max() < high, section
    lawn_strip = f.along(f.LAWN_GRADES, f.stations())
    assert lawn_strip.min() >= 0.06 and lawn_strip.max() <= 0.09


def test_tin_samples_the_truth(site, tin, anywhere):
    z, _ = tin.sample(anywhere)
    assert z == pytest.approx(site.heights(anywhere), abs=1e-6, nan_ok=True)


def test_surface_is_one_sound_piece(site, tin):
    assert len(tin.edges.nonmanifold) == 0
    assert tin.pieces.max() == 0
    assert tin.plan_area == pytest.approx(shapely.Polygon(site.outline[:, :2]).area, abs=1e-6)


# --- zones ------------------------------------------------------------------------------------


def test_zones_are_disjoint_and_complete(site, zone_shapes):
    *ground, crossing = zone_shapes
    assert site.zones[-1].section == "crossing"
    assert all(shape.is_valid for shape in zone_shapes)
    tree = shapely.STRtree(ground)
    first, second = tree.query(ground, predicate="overlaps")
    overlaps = [
        shapely.intersection(ground[a], ground[b]).area
        for a, b in zip(first, second, strict=True)
        if a < b
    ]
    assert sum(overlaps) == pytest.approx(0, abs=1e-4)
    outline = shapely.Polygon(site.outline[:, :2])
    assert sum(shape.area for shape in ground) == pytest.approx(outline.area, abs=1e-4)
    lane = next(s for s, z in zip(zone_shapes, site.zones, strict=True) if z.section == "lane")
    assert crossing.difference(lane).area == pytest.approx(0, abs=1e-4)
    assert site.zones[-1].priority < min(zone.priority for zone in site.zones[:-1])


def test_sections_at_points_follow_the_zones(site, zone_shapes, anywhere):
    truth = site.sections_at(anywhere)
    found = np.full(len(anywhere), "", object)
    for zone, shape in zip(site.zones, zone_shapes, strict=True):
        found[shapely.contains_xy(shape, *anywhere.T)] = zone.section
    assert set(truth) == {"", *f.SECTIONS}
    assert (found == truth).all()


# --- breaks -----------------------------------------------------------------------------------


def _edges_on(site, tin, names):
    """Return the edges of the TIN under stated lines, by kind."""
    ends = {(int(a), int(b)): number for number, (a, b) in enumerate(tin.quick_edges.ends)}
    number = {tuple(p): k for k, p in enumerate(site.vertices)}
    found = {}
    for line in site.lines:
        row = [number[tuple(p)] for p in line.points]
        row += row[:1] if line.closed else []
        steps = [(min(a, b), max(a, b)) for a, b in itertools.pairwise(row) if a != b]
        if line.name in names:
            found.setdefault(names[line.name], set()).update(ends[step] for step in steps)
    return found


def test_breaks_are_exactly_the_stated_ones(site, tin):
    """Every stated line is found, whole and with its kind, and nothing else is.

    But for the face of the curb where the lane turns: its 450 % turn along edges 0.1 ft long.
    """
    breaks = breaks_of(tin, LEAST_CHANGE / 100)
    kind = np.repeat(breaks.kind, np.diff(breaks.offsets) - 1)
    found = {word: set(breaks.edges[kind == code]) for code, word in enumerate(Kind)}
    stated = _edges_on(site, tin, KINDS)
    everywhere = set().union(*stated.values())
    for word, edges in stated.items():
        assert edges <= found[word], word
    ends = tin.vertices[tin.quick_edges.ends[sorted(set(breaks.edges) - everywhere)]]
    lengths = np.hypot(*(ends[:, 1, :2] - ends[:, 0, :2]).T)
    assert lengths.max() < 0.25
    faces = tin.quick_edges.faces[sorted(set(breaks.edges) - everywhere)]
    assert (site.sections[faces] == "curb").all()


@pytest.mark.parametrize("kind", ["toe", "ridge"])
def test_break_lengths_by_kind(site, tin, kind):
    # The short turns of the curb's face are left out by their length.
    breaks = breaks_of(tin, LEAST_CHANGE / 100, kinds=[Kind(kind)], min_length=0.25)
    ends = tin.vertices[tin.quick_edges.ends[sorted(_edges_on(site, tin, KINDS)[kind])], :2]
    stated = np.hypot(*(ends[:, 1] - ends[:, 0]).T).sum()
    assert breaks.length.sum() == pytest.approx(stated, rel=1e-12)


# --- files ------------------------------------------------------------------------------------


def _rows(layer_name):
    source = ogr.Open(str(DATA / "pellworth.gpkg"))
    layer = source.GetLayerByName(layer_name)
    rows = []
    for feature in layer:
        geometry = feature.GetGeometryRef()
        ring = geometry.GetGeometryRef(0) if geometry.GetGeometryCount() else geometry
        rows.append((feature.items(), np.array(ring.GetPoints())))
    return rows


def test_files_are_made_again_as_they_are(tmp_path):
    """The figures and the files kept in the repository have not drifted apart."""
    subprocess.run(
        [sys.executable, str(ROOT / "sample_project" / "make_site.py")],
        env={**os.environ, "PELLWORTH_DATA": str(tmp_path)},
        check=True,
        capture_output=True,
    )
    for name in ("pellworth.xml", "schedule.csv"):
        assert (tmp_path / name).read_bytes() == (DATA / name).read_bytes(), name
    # The CRS text in a mesh file depends on the PROJ database; its numbers do not.
    again, kept = (read_ply(folder / "pellworth_design.ply") for folder in (tmp_path, DATA))
    assert (again.vertices == kept.vertices).all() and (again.faces == kept.faces).all()


def test_landxml_holds_the_surface(site):
    tree = ET.parse(DATA / "pellworth.xml")
    root = tree.getroot()
    assert root.find(f"{XML}Units/{XML}Imperial").get("linearUnit") == "USSurveyFoot"
    surfaces = {each.get("name"): each for each in root.iter(f"{XML}Surface")}
    assert set(surfaces) == {"Finished grade", "Existing ground"}
    definition = surfaces["Finished grade"].find(f"{XML}Definition")
    points = [[float(v) for v in p.text.split()] for p in definition.iter(f"{XML}P")]
    faces = [[int(v) for v in face.text.split()] for face in definition.iter(f"{XML}F")]
    assert (np.array(points)[:, [1, 0, 2]] == site.vertices).all()
    assert (np.array(faces) - 1 == site.faces).all()
    declared = float(definition.get("area2DSurf"))
    assert declared == pytest.approx(shapely.Polygon(site.outline[:, :2]).area, abs=1e-4)


def test_landxml_alignment_is_the_stated_one():
    root = ET.parse(DATA / "pellworth.xml").getroot()
    alignment = root.find(f".//{XML}Alignment")
    elements = list(alignment.find(f"{XML}CoordGeom"))
    assert [each.tag.removeprefix(XML) for each in elements] == ["Line", "Curve"] * 2 + ["Line"]
    assert all(each.get("rot") == "ccw" for each in elements[1::2])
    lengths = [float(each.get("length")) for each in elements]
    assert sum(lengths) == pytest.approx(f.LENGTH, abs=5e-6)
    for each in elements[1::2]:
        start, centre, end = (
            np.array(each.find(f"{XML}{tag}").text.split(), float)
            for tag in ("Start", "Center", "End")
        )
        for point in (start, end):
            assert np.hypot(*(point - centre)) == pytest.approx(f.RADIUS, abs=2e-6)


def test_crs_is_in_us_survey_feet():
    system = osr.SpatialReference()
    system.ImportFromEPSG(f.EPSG)
    # EPSG 9003: 1200/3937 m
    assert system.GetLinearUnits() == pytest.approx(US_SURVEY_FOOT.metres, abs=1e-14)
    source = ogr.Open(str(DATA / "pellworth.gpkg"))
    names = [source.GetLayer(k).GetName() for k in range(source.GetLayerCount())]
    for name in names:
        assert source.GetLayerByName(name).GetSpatialRef().IsSame(system), name
    raster = gdal.Open(str(DATA / "pellworth_design.tif"))
    assert raster.GetSpatialRef().IsSame(system)


def test_raster_is_exact_at_pixel_centres(site):
    raster = gdal.Open(str(DATA / "pellworth_design.tif"))
    left, width, _, top, _, height = raster.GetGeoTransform()
    grid = raster.ReadAsArray()
    rows, columns = np.indices(grid.shape)[:, ::7, ::5].reshape(2, -1)
    xy = np.stack([left + (columns + 0.5) * width, top + (rows + 0.5) * height], axis=1)
    z = np.where(grid[rows, columns] == -9999, np.nan, grid[rows, columns])
    # float32 at 512 ft resolves 6e-5 / 2
    assert z == pytest.approx(site.heights(xy), abs=3.1e-5, nan_ok=True)


def test_zones_layer_holds_the_zones(site):
    rows = _rows("zones")
    assert [row["name"] for row, _ in rows] == [zone.name for zone in site.zones]
    for (row, ring), zone in zip(rows, site.zones, strict=True):
        assert (row["section"], row["depth"]) == (zone.section, zone.depth)
        assert (row["priority"], row["rule"]) == (zone.priority, zone.rule)
        assert (ring[:-1, :2] == zone.rings[0]).all()


def test_lines_layers_lie_on_the_design_and_run_both_ways(site):
    stations = {"lane_centreline": 1, "back_of_curb": 2, "planting_strip_break": 2, "walk_edge": 2}
    ways = []
    for layer, count in stations.items():
        rows = _rows(layer)
        assert len(rows) == count
        for _, points in rows:
            assert site.heights(points[:, :2]) == pytest.approx(points[:, 2], abs=1e-5)
            ways.append(np.hypot(*(points[0, :2] - f.place(0.0, 0.0))) < 50)
    assert any(ways) and not all(ways)


def test_check_points_lie_on_the_design(site):
    rows = _rows("check_points")
    assert len(rows) == 12
    for row, points in rows:
        station = parse_station(row["station"], US_SURVEY_FOOT) - f.START_STATION
        assert points[0, :2] == pytest.approx(f.place(station, row["offset"]), abs=1e-5)
        assert site.heights(points[:, :2])[0] == pytest.approx(row["height"], abs=1e-6)
    assert len(_rows("control_points")) == 2


def test_schedule_adds_up_to_the_depths():
    total = dict.fromkeys(f.SECTIONS, Fraction(0))
    with (DATA / "schedule.csv").open(newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            thickness = parse_length(row["thickness"], US_SURVEY_FOOT)
            total[row["section"]] += Fraction(thickness).limit_denominator(10_000)
    for section, depth in f.SECTIONS.items():
        assert float(total[section]) == pytest.approx(parse_length(depth, US_SURVEY_FOOT)), section
