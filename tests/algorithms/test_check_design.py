"""A design checked as a user does it, in QGIS."""

import json

import numpy as np
import pytest
import shapely
from osgeo import gdal
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from plugin.layers.polygons import polygon_geometry
from tests.algorithms.test_guidelines import Log, rows
from tests.commands import ROOT, link_plugin, qgis_process
from tests.core.pond_shapes import channel, channel_water, cone_pit
from tests.core.tin_shapes import grid_faces

ALGORITHM = "undercourse:check_design"
METRES = "EPSG:3875"  # ETRS89 / GK21FIN
FEET = "EPSG:6588"  # NAD83(2011) / Texas South Central, US survey feet
SITE = {METRES: (21_530_000.0, 6_782_000.0), FEET: (2_148_000.0, 13_712_000.0)}
SAMPLE = ROOT / "sample_project" / "data"


def mesh(folder, vertices, faces, crs=METRES, place=None, name="design"):
    path = folder / f"{name}.ply"
    moved = np.array(vertices, float)
    moved[:, :2] += SITE[crs] if place is None else place
    tin = Tin.from_arrays(moved, faces)
    write_ply(str(path), tin, QgsCoordinateReferenceSystem(crs))
    return str(path)


def plain(size=8):
    plan = np.stack(np.meshgrid(np.arange(size), np.arange(size)), axis=-1).reshape(-1, 2) * 5.0
    return np.column_stack((plan, 100 + 0.02 * plan[:, 0])), grid_faces(size, size)


def zones(*shapes, crs=METRES, names=(), fields="name:string"):
    made = QgsVectorLayer(f"Polygon?crs={crs}&field={fields}", "zones", "memory")
    features = []
    for row, shape in enumerate(shapes):
        feature = QgsFeature(made.fields())
        feature.setGeometry(polygon_geometry(shapely.transform(shape, lambda xy: xy + SITE[crs])))
        feature.setAttributes(list(names[row]) if names else [f"zone {row + 1}"])
        features.append(feature)
    assert made.dataProvider().addFeatures(features)[0]
    return made


@pytest.fixture
def run(provider):
    import processing

    def call(design, feedback=None, **parameters):
        given = {"DESIGN": design, "ISSUES": "TEMPORARY_OUTPUT", "AREAS": "TEMPORARY_OUTPUT"}
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, given | parameters, context=context, feedback=feedback)
        for name in ("ISSUES", "AREAS"):
            if isinstance(results[name], str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context
        return results

    return call


def flags(results):
    return [(row["weight"], row["flag"]) for row in rows(results["ISSUES"])]


def test_a_clean_design_gives_a_clean_sheet(run, tmp_path):
    page = tmp_path / "report.html"
    log = Log()
    results = run(mesh(tmp_path, *plain()), log, HTML=str(page))
    assert flags(results) == []
    assert results["COUNT"] == results["NOTE_COUNT"] == 0
    assert not log.warnings
    text = page.read_text(encoding="utf-8")
    assert "Nothing was found wrong with “design”." in text
    assert 'class="verdict"' in text


def test_a_pond_with_its_figures_as_point_and_as_ground(run, tmp_path):
    bottom = np.array([3.0, 1.0, 2.0, 0.5])
    tin = channel(bottom, width=60.0)
    results = run(mesh(tmp_path, tin.vertices, tin.faces))
    area, volume = channel_water(bottom[:3], 2.0)
    (point,), (ground,) = rows(results["ISSUES"]), rows(results["AREAS"])
    assert (point["flag"], point["weight"]) == ("pond", "check")
    assert (point["level"], point["height"]) == (2.0, 1.0)
    assert (point["area"], point["volume"]) == pytest.approx((area, volume), rel=1e-9)
    assert ground == point
    (shape,) = results["AREAS"].getFeatures()
    assert shape.geometry().area() == pytest.approx(area, rel=1e-6)
    assert results["POND_COUNT"] == 1
    assert results["POND_VOLUME"] == pytest.approx(volume)
    assert run(mesh(tmp_path, tin.vertices, tin.faces), MIN_POND="10 ft")["COUNT"] == 0


def test_water_may_be_meant_to_stand(run, tmp_path):
    pit = cone_pit(16, 10.0, 1.0)
    design = mesh(tmp_path, pit.vertices, pit.faces)
    layer = zones(
        shapely.Point(0, 0).buffer(11), shapely.box(12, -2, 14, 2), names=[["Garden"], ["x"]]
    )
    results = run(design, ZONES=layer, WATER="\"name\" = 'Garden'")
    assert ("note", "pond") in flags(results)
    assert results["POND_COUNT"] == 0
    assert run(design, ZONES=layer)["POND_COUNT"] == 1
    log = Log()
    assert run(design, log, ZONES=layer, WATER="\"name\" = 'Lake'")["POND_COUNT"] == 1
    assert any("No zone is meant to hold water" in text for text in log.warnings)


def test_faults_of_points_and_faces_by_their_codes(run, tmp_path):
    vertices, faces = plain()
    vertices[27, 2] += 4.0
    more = np.array([(2.0, 2.0, 103.0), (8.0, 2.0, 103.0), (2.0, 8.0, 103.0), (50.0, 50.0, 100.0)])
    results = run(mesh(tmp_path, np.vstack([vertices, more]), np.vstack([faces, [64, 65, 66]])))
    assert flags(results) == [
        ("error", "overlap"),
        ("check", "spike"),
        ("check", "piece"),
        ("note", "unused_vertex"),
    ]
    assert (results["ERROR_COUNT"], results["CHECK_COUNT"], results["NOTE_COUNT"]) == (1, 2, 1)
    assert [results[f"{code}_COUNT"] for code in ("OVERLAP", "SPIKE", "PIECE", "HOLE")] == [
        1,
        1,
        1,
        0,
    ]
    assert results["UNUSED_VERTEX_COUNT"] == 1
    assert [row["number"] for row in rows(results["ISSUES"])] == [1, 2, 3, 4]


def test_zones_with_names_and_priorities(run, tmp_path):
    design = mesh(tmp_path, *plain())
    shapes = shapely.box(0, 0, 20, 35), shapely.box(19, 0, 36, 35)
    results = run(design, ZONES=zones(*shapes, names=[["Lane"], ["Walk"]]))
    assert flags(results) == [("error", "zone_overlap"), ("check", "zone_beyond")]
    overlap, beyond = rows(results["ISSUES"])
    assert "“Lane” and “Walk” overlap on 35.0 m²" in overlap["why"]
    assert (beyond["feature"], beyond["area"]) == (2, pytest.approx(35.0, rel=1e-6))
    ranked = zones(
        *shapes, names=[["Lane", 1], ["Walk", 2]], fields="name:string&field=priority:integer"
    )
    assert flags(run(design, ZONES=ranked)) == [("check", "zone_beyond"), ("note", "zone_overlap")]
    part = run(design, ZONES=zones(shapely.box(0, 0, 35, 20)))
    assert part["UNZONED_AREA"] == pytest.approx(35 * 15, rel=1e-6)


@pytest.mark.parametrize(
    ("crs", "change", "flag", "words"),
    [
        (
            METRES,
            lambda xy: xy / 0.3048,
            "plan_unit",
            "if its coordinates are in international feet",
        ),
        (FEET, lambda xy: xy * 0.3048, "plan_unit", "in metres and not in US survey feet"),
        (METRES, lambda xy: xy[::-1], "axes", "easting and northing exchanged"),
        (METRES, lambda xy: xy + 5_000_000, "outside_crs", "outside the area that"),
    ],
)
def test_a_design_in_another_place_than_its_crs(run, tmp_path, crs, change, flag, words):
    vertices, faces = plain()
    place = change(np.array(SITE[crs]))
    results = run(mesh(tmp_path, vertices, faces, crs, place))
    (row,) = [row for row in rows(results["ISSUES"]) if row["flag"] != "feet"]
    assert (row["flag"], row["weight"]) == (flag, "error")
    assert words in row["why"]
    assert run(mesh(tmp_path, vertices, faces, crs))["COUNT"] == 0


def test_heights_in_another_unit_are_named_or_set_right(run, tmp_path):
    banks = channel([0.0, 1.0, 0.0], width=10.0)
    feet = mesh(tmp_path, banks.vertices / (1, 1, 0.3048), banks.faces)
    assert run(feet)["HEIGHT_UNIT_COUNT"] == 1
    assert run(feet, VERTICAL_UNIT="foot")["HEIGHT_UNIT_COUNT"] == 0


def test_a_raster_is_checked_as_its_pixels_stand(run, tmp_path):
    path = str(tmp_path / "pit.tif")
    heights = np.full((12, 12), 10.0) + 0.01 * np.arange(12)
    heights[5:7, 5:7] = 9.8
    raster = gdal.GetDriverByName("GTiff").Create(path, 12, 12, 1, gdal.GDT_Float64)
    raster.SetGeoTransform((SITE[METRES][0], 1, 0, SITE[METRES][1], 0, -1))
    raster.SetProjection(QgsCoordinateReferenceSystem(METRES).toWkt())
    raster.GetRasterBand(1).WriteArray(heights)
    raster = None
    results = run(path)
    (pond,) = rows(results["ISSUES"])
    assert (pond["flag"], pond["level"]) == ("pond", pytest.approx(10.04))


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({"MIN_POND": "-1"}, "Shallowest pond: it cannot be negative"),
        ({"SPIKE": "0"}, "Smallest spike: it cannot be negative, nor can a spike be 0"),
        ({"WATER": "true"}, "Zones meant to hold water: it asks for zones, but none are given"),
        ({"SPIKE": "high"}, "Smallest spike: 'high' cannot be read as a length"),
    ],
)
def test_bad_parameters_are_refused_in_one_sentence(run, tmp_path, parameters, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(mesh(tmp_path, *plain()), **parameters)


def test_an_expression_that_cannot_be_read(run, tmp_path):
    layer = zones(shapely.box(0, 0, 35, 35))
    with pytest.raises(QgsProcessingException, match="Zones meant to hold water: "):
        run(mesh(tmp_path, *plain()), ZONES=layer, WATER="if(")


def test_the_report_escapes_names_and_tells_what_to_do(run, tmp_path):
    page = tmp_path / "report.html"
    shapes = shapely.box(0, 0, 20, 35), shapely.box(19, 0, 35, 35)
    layer = zones(*shapes, names=[["<Lane>"], ["Walk & more"]])
    run(mesh(tmp_path, *plain()), ZONES=layer, HTML=str(page))
    text = page.read_text(encoding="utf-8")
    assert text.index("is not fit to work from as it is") < text.index("What was found")
    assert "&lt;Lane&gt;" in text
    assert "<Lane>" not in text
    assert "Trim one of the zones" in text
    assert text.count("<svg") == 1
    assert "Before you dig" in text
    assert "<script" not in text


@pytest.mark.skipif(not SAMPLE.is_dir(), reason="the sample is not built")
def test_the_sample_holds_water_in_its_garden_and_nothing_else(run):
    """Truth: the garden lies in a lawn that falls to it, level at the edge of the plan.

    No way leads out of it below that edge, so the lawn about it stands in water as well.
    """
    given = {"ZONES": f"{SAMPLE / 'pellworth.gpkg'}|layername=zones"}
    design = str(SAMPLE / "pellworth_design.ply")
    results = run(design, WATER="\"section\" ilike 'rain garden'", **given)
    assert flags(results) == [("check", "pond"), ("note", "zone_overlap"), ("note", "feet")]
    pond = rows(results["ISSUES"])[0]
    assert "reach past the zones meant to hold water" in pond["why"]
    lawn = "\"name\" in ('Rain garden', 'Lawn, island')"
    assert run(design, WATER=lawn, **given)["COUNT"] == 0


@pytest.mark.skipif(not SAMPLE.is_dir(), reason="the sample is not built")
def test_through_the_real_qgis_process(tmp_path):
    profile = link_plugin(tmp_path / "profile")
    done = qgis_process(
        profile,
        "--json",
        "run",
        ALGORITHM,
        "--",
        f"DESIGN={SAMPLE / 'pellworth_design.ply'}",
        f"ZONES={SAMPLE / 'pellworth.gpkg'}|layername=zones",
        f"ISSUES={tmp_path / 'issues.gpkg'}",
        f"AREAS={tmp_path / 'areas.gpkg'}",
        f"HTML={tmp_path / 'report.html'}",
    )
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert (results["COUNT"], results["POND_COUNT"]) == (1, 1)
    areas = QgsVectorLayer(str(tmp_path / "areas.gpkg"), "areas", "ogr")
    assert {feature["flag"] for feature in areas.getFeatures()} == {"pond", "zone_overlap"}
    assert all(isinstance(f.geometry(), QgsGeometry) for f in areas.getFeatures())
    assert (tmp_path / "report.html").is_file()
