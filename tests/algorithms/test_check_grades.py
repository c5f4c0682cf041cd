"""Grades checked as a reviewer does it, in QGIS and through ``qgis_process``."""

import json

import numpy as np
import pytest
import shapely
from osgeo import gdal, osr
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCoordinateTransformContext,
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from plugin.layers.meshes import write_ply
from sample_project.pellworth import figures as f
from sample_project.pellworth.surface import build
from tests.algorithms.test_depth_tin import FEET, ORIGIN, Log, box, saved
from tests.algorithms.test_guidelines import rows
from tests.commands import link_plugin, qgis_process
from tests.core.grade_shapes import plane, ramp

ALGORITHM = "undercourse:check_grades"
NORTH = [(50.0, -50.0), (50.0, 150.0)]


def mesh(folder, tin, crs=FEET, name="design.ply"):
    path = folder / name
    write_ply(path, tin, QgsCoordinateReferenceSystem(crs))
    return str(path)


def layer(kind, fields, features, crs=FEET, name="layer"):
    made = QgsVectorLayer(f"{kind}?crs={crs}&{fields}", name, "memory")
    rows_ = []
    for shape, *attributes in features:
        feature = QgsFeature(made.fields())
        feature.setGeometry(QgsGeometry.fromWkt(shape.wkt))
        feature.setAttributes(attributes)
        rows_.append(feature)
    assert made.dataProvider().addFeatures(rows_)[0]
    return made


def line(points, crs=FEET):
    shape = shapely.LineString(np.array(points) + ORIGIN)
    return layer("LineString", "field=name:string", [(shape, "path")], crs)


def two_zones(*attributes, fields="field=rule:string"):
    shapes = (box(10, 10, 40, 80), box(40, 10, 85, 80))
    named = zip(shapes, ("walk <1>", "yard"), attributes, strict=True)
    return layer("Polygon", f"field=name:string&{fields}", [(s, n, a) for s, n, a in named])


@pytest.fixture
def run(provider, tmp_path):
    import processing

    def call(design, feedback=None, **parameters):
        given = {"DESIGN": design, "OUTPUT": "TEMPORARY_OUTPUT", "SUMMARY": "TEMPORARY_OUTPUT"}
        given |= parameters
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, given, context=context, feedback=feedback)
        for name in ("OUTPUT", "SUMMARY", "BREAKS"):
            if isinstance(results.get(name), str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context
        return results

    return call


@pytest.fixture
def tilted(tmp_path):
    """A plane that rises 2.5 % due east."""
    return mesh(tmp_path, plane(0.025, 90.0, ORIGIN))


def test_one_limit_for_a_whole_design(run, tilted, tmp_path):
    page = tmp_path / "report.html"
    results = run(tilted, MAX_GRADE="1:48", HTML=str(page))
    assert "Whole design: FAILS on 100 %" in page.read_text(encoding="utf-8")
    (area,) = rows(results["OUTPUT"])
    assert (area["result"], area["flag"], area["measure"]) == ("fail", "steep", "max_slope")
    assert area["grade_max"] == pytest.approx(2.5)
    assert area["limit_max"] == pytest.approx(100 / 48)
    assert area["over"] == pytest.approx(2.5 - 100 / 48)
    assert "misses its limit by 0.417 %" in area["why"]
    (total,) = rows(results["SUMMARY"])
    assert total["result"] == "fail"
    assert total["fail_share"] == pytest.approx(100.0)
    assert total["grade_mean"] == pytest.approx(2.5)
    assert (results["FAIL_COUNT"], results["PASS_COUNT"]) == (1, 0)
    assert results["FAIL_AREA"] == pytest.approx(results["AREA_CHECKED"])


def test_named_rules_by_zone_say_where_they_come_from(run, tilted, tmp_path):
    log, page = Log(), tmp_path / "report.html"
    zones = two_zones("ada_walk_running, ada_walk_cross", "ada_parking")
    results = run(tilted, log, ZONES=zones, RULE_FIELD="rule", LINES=line(NORTH), HTML=str(page))
    found = {(r["zone"], r["rule"]): r for r in rows(results["SUMMARY"])}
    assert {key: r["result"] for key, r in found.items()} == {
        ("walk <1>", "ada_walk_running"): "pass",  # due north the plane is level
        ("walk <1>", "ada_walk_cross"): "fail",
        ("yard", "ada_parking"): "fail",
    }
    cross = found["walk <1>", "ada_walk_cross"]
    assert cross["source"] == "ADA Standards 2010, 403.3"
    assert cross["grade_max"] == pytest.approx(2.5)
    assert cross["area"] == pytest.approx(30 * 70)
    assert found["walk <1>", "ada_walk_running"]["grade_max"] == pytest.approx(0, abs=1e-9)
    assert any(text.startswith("walk <1>: FAILS on 100 %") for text in log.warnings)
    text = page.read_text(encoding="utf-8")
    assert text.index("walk &lt;1&gt;: FAILS") < text.index("<svg")
    assert "ADA Standards 2010, 502.4" in text and "licensed practice" in text
    assert "<1>" not in text and text.count("<svg") == 1
    assert 0 <= results["LARGEST_MOVE"] < 1e-3
    assert {r["zone"] for r in rows(results["OUTPUT"])} == {"walk <1>", "yard"}


def test_fields_with_limits_go_before_the_limit_for_all(run, tilted):
    zones = two_zones("3 %", None, fields="field=most:string")
    results = run(tilted, ZONES=zones, MAX_FIELD="most", MAX_GRADE="1:20", MIN_GRADE="0.5 %")
    found = rows(results["SUMMARY"])
    assert [r["limit_max"] for r in found] == pytest.approx([3.0, 5.0])
    assert [r["limit_min"] for r in found] == pytest.approx([0.5, 0.5])
    assert {r["result"] for r in found} == {"pass"}
    least = two_zones("2.6 %", None, fields="field=least:string")
    results = run(tilted, ZONES=least, MIN_FIELD="least", MIN_GRADE="1 %")
    assert [(r["limit_min"], r["result"]) for r in rows(results["SUMMARY"])] == [
        (pytest.approx(2.6), "fail"),
        (pytest.approx(1.0), "pass"),
    ]
    numbers = two_zones(2.45, 1.0, fields="field=most:double")
    results = run(tilted, ZONES=numbers, MAX_FIELD="most")
    found = rows(results["OUTPUT"])
    assert [(r["result"], r["flag"]) for r in found] == [("fail", "just_steep"), ("fail", "steep")]


def test_a_zone_without_a_limit_is_left_out_and_named(run, tilted):
    log = Log()
    results = run(tilted, log, ZONES=two_zones(None, "ada_parking"), RULE_FIELD="rule")
    assert [r["zone"] for r in rows(results["SUMMARY"])] == ["yard"]
    assert any("1 zones have no limit" in text and "walk <1>" in text for text in log.warnings)


def test_near_misses_are_a_class_of_their_own(run, tmp_path):
    design = mesh(tmp_path, plane(1 / 48, 30.0, ORIGIN))
    results = run(design, MAX_GRADE="1:48")
    (area,) = rows(results["OUTPUT"])
    assert (area["result"], area["flag"]) == ("near", "near_steep")
    assert (results["NEAR_COUNT"], results["FAIL_COUNT"]) == (1, 0)
    assert run(design, MAX_GRADE="1:48", NEAR="0")["OUTPUT"].featureCount() == 0
    assert run(design, MAX_GRADE="2.08 %")["FAIL_COUNT"] == 1


def test_the_change_of_grade_at_a_gutter_by_the_rule_that_ships(run, tmp_path):
    design = mesh(tmp_path, ramp([-0.05, 1 / 12], [4.0, 3.0], origin=ORIGIN))
    results = run(
        design,
        MAX_GRADE="1:12",
        GUTTERS=line([(4, 0), (4, 20)]),
        BREAKS="TEMPORARY_OUTPUT",
    )
    (edge,) = rows(results["BREAKS"])
    assert (edge["result"], edge["rule"]) == ("fail", "prowag_gutter_break")
    assert edge["change"] == pytest.approx(5 + 100 / 12, abs=1e-6)
    assert sorted((edge["grade_left"], edge["grade_right"])) == pytest.approx([5, 100 / 12])
    grade, change = rows(results["SUMMARY"])
    assert grade["result"] == "near"  # 1:12 to the digit
    assert (change["result"], change["measure"]) == ("fail", "break")
    assert change["length_fail"] == pytest.approx(20.0)
    assert change["source"].endswith("R304.5.2")
    assert results["FAIL_LENGTH"] == pytest.approx(20.0)
    given = {"MAX_GRADE": "1:12", "GUTTERS": line([(4, 0), (4, 20)])}
    assert run(design, MAX_CHANGE="14 %", **given)["FAIL_COUNT"] == 0


def test_a_raster_is_judged_pixel_by_pixel(run, tmp_path):
    path = tmp_path / "design.tif"
    spatial = osr.SpatialReference()
    spatial.ImportFromEPSG(2264)
    data = gdal.GetDriverByName("GTiff").Create(str(path), 100, 90, 1, gdal.GDT_Float64)
    data.SetGeoTransform((ORIGIN[0], 1.0, 0, ORIGIN[1] + 90, 0, -1.0))
    data.SetProjection(spatial.ExportToWkt())
    x = np.arange(100) + 0.5
    data.GetRasterBand(1).WriteArray(np.tile(np.where(x < 50, 0.01 * x, 0.03 * x - 1), (90, 1)))
    data = None
    log = Log()
    results = run(str(path), log, ZONES=two_zones("", ""), MAX_GRADE="2.5 %")
    west, east = rows(results["SUMMARY"])
    assert (west["result"], east["result"]) == ("pass", "fail")
    assert west["area_checked"] == pytest.approx(30 * 70)
    # 3 % from the middle on; the pixels at the break see both.
    assert east["fail_area"] == pytest.approx(70 * (85 - 51), abs=71)
    areas = {r["result"]: r for r in rows(results["OUTPUT"])}
    assert areas["fail"]["grade_max"] == pytest.approx(3.0)
    assert areas["near"]["grade_max"] == pytest.approx(2.5)  # the column at the break
    drawn = [feature.geometry().area() for feature in results["OUTPUT"].getFeatures()]
    assert sorted(drawn) == pytest.approx(sorted(r["area"] for r in areas.values()))
    assert any("Horn" in text for text in log.warnings)
    with pytest.raises(QgsProcessingException, match="need a TIN"):
        run(str(path), MAX_GRADE="2 %", GUTTERS=line(NORTH))


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({}, "There is no limit"),
        ({"MAX_GRADE": "steep"}, "Greatest grade: 'steep' cannot be read"),
        ({"MAX_GRADE": "1:2"}, "run to rise or rise to run"),
        ({"MAX_GRADE": "-2 %"}, "is negative"),
        ({"MAX_GRADE": "1 %", "MIN_GRADE": "2 %"}, "is above the greatest"),
        ({"MAX_GRADE": "2 %", "NEAR": "x"}, "Margin for near misses"),
        ({"MAX_GRADE": "2 %", "NARROW": "-1"}, "it cannot be negative"),
        ({"MAX_GRADE": "2 %", "ALONG": "across"}, "need lines"),
        ({"RULE": "ada_walk_cross"}, "need lines"),
        ({"RULE": "no_such"}, "There is no rule “no_such”: the rules are ada_walk_running"),
        ({"RULE": "prowag_gutter_break"}, "needs the gutter lines"),
        ({"MAX_FIELD": "most"}, "field of the zones"),
    ],
)
def test_bad_input_is_refused_in_one_sentence(run, tilted, parameters, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(tilted, **parameters)


def test_a_bad_limit_in_a_field_names_its_zone(run, tilted):
    zones = two_zones("2 %", "two", fields="field=most:string")
    with pytest.raises(QgsProcessingException, match="Zone 2: 'two' cannot be read as a grade"):
        run(tilted, ZONES=zones, MAX_FIELD="most")


def test_rules_of_ones_own(run, tilted, tmp_path):
    file = tmp_path / "town.csv"
    file.write_text("name,measure,min,max,source\nyard,max_slope,1 %,3 %,town code 12.4\n")
    results = run(tilted, RULE="yard", RULES=str(file))
    (row,) = rows(results["SUMMARY"])
    assert (row["result"], row["source"]) == ("pass", "town code 12.4")
    with pytest.raises(
        QgsProcessingException, match="There is no rule “ada_flare”: the rules are yard"
    ):
        run(tilted, RULE="ada_flare", RULES=str(file))


def test_zones_and_lines_in_another_crs_are_moved(run, tilted):
    metres = "EPSG:32617"
    there = QgsCoordinateTransform(
        QgsCoordinateReferenceSystem(FEET),
        QgsCoordinateReferenceSystem(metres),
        QgsCoordinateTransformContext(),
    )

    def moved(source):
        shapes = []
        for feature in source.getFeatures():
            shape = feature.geometry()
            shape.transform(there)
            shapes.append((shapely.from_wkt(shape.asWkt(9)), *feature.attributes()))
        return shapes

    zones = layer(
        "Polygon",
        "field=name:string&field=rule:string",
        moved(two_zones("ada_walk_cross", "ada_walk_running")),
        metres,
    )
    course = layer("LineString", "field=name:string", moved(line(NORTH)), metres)
    results = run(tilted, ZONES=zones, RULE_FIELD="rule", LINES=course)
    cross, running = rows(results["SUMMARY"])
    assert cross["area"] == pytest.approx(30 * 70, rel=1e-5)
    assert (cross["result"], running["result"]) == ("fail", "pass")
    assert cross["grade_max"] == pytest.approx(2.5, rel=1e-6)


def test_the_sample_walk_and_a_tilted_one_through_qgis_process(tmp_path, monkeypatch):
    """The reviewer's question: does the walk stay under 1:48?"""
    crs = f"EPSG:{f.EPSG}"
    profile = link_plugin(tmp_path)
    verdicts = {}
    for name, grade in (("as designed", f.WALK_GRADE), ("tilted", 0.025)):
        monkeypatch.setattr(f, "WALK_GRADE", grade)
        site = build()
        design = mesh(tmp_path, (site.vertices, site.faces), crs, f"{grade}.ply")
        (walk,) = [one for one in site.zones if one.section == "walk"]
        zone = layer(
            "Polygon", "field=name:string", [(shapely.Polygon(*walk.rings[:1]), "Walk")], crs
        )
        (crown,) = [one.points for one in site.lines if one.name == "crown"]
        course = layer("LineString", "field=name:string", [(shapely.LineString(crown), "c")], crs)
        given = {
            "DESIGN": design,
            "ZONES": saved(zone, tmp_path, f"zone{grade}.gpkg"),
            "LINES": saved(course, tmp_path, f"line{grade}.gpkg"),
            "RULE": "ada_walk_cross,ada_walk_running",
            "OUTPUT": str(tmp_path / f"areas{grade}.gpkg"),
            "HTML": str(tmp_path / f"{grade}.html"),
        }
        words = [f"{key}={value}" for key, value in given.items()]
        done = qgis_process(profile, "--json", "run", ALGORITHM, "--", *words)
        assert done.returncode == 0, done.stderr
        results = json.loads(done.stdout)["results"]
        verdicts[name] = (results["PASS_COUNT"], results["FAIL_COUNT"])
    assert verdicts == {"as designed": (2, 0), "tilted": (1, 1)}
    assert "Walk: FAILS on 100 %" in (tmp_path / "0.025.html").read_text(encoding="utf-8")
