"""Depths checked as a reviewer does it, in QGIS and through ``qgis_process``."""

import json

import numpy as np
import pytest
from qgis.core import (
    NULL,
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from plugin.core.tin import Tin
from plugin.layers.lines import point_geometry
from plugin.layers.meshes import write_ply
from tests.algorithms.test_depth_tin import FEET, ORIGIN, Log, box, saved, zones
from tests.algorithms.test_volumes_between import heights_of, rows, surface
from tests.commands import link_plugin, qgis_process

ALGORITHM = "undercourse:check_depth"


@pytest.fixture
def run(provider):
    import processing

    def call(feedback=None, **parameters):
        given = dict.fromkeys(("OUTPUT", "WORST", "SUMMARY"), "TEMPORARY_OUTPUT")
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, given | parameters, context=context, feedback=feedback)
        for name in ("OUTPUT", "WORST", "SUMMARY"):
            if isinstance(results.get(name), str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context
        return results

    return call


def site(folder):
    """A level design at 10, and a bottom 0.5 below it in the west that climbs to 0.3."""
    return {
        "DESIGN": surface(folder, "design", (10.0,) * 4),
        "ACTUAL": surface(folder, "bottom", (9.5, 9.7, 9.7, 9.5)),
    }


def points(*places, crs=FEET, height=None):
    """A layer of (x, y, z); z None leaves the height out."""
    layer = QgsVectorLayer(f"PointZ?crs={crs}&field=level:string", "shots", "memory")
    for x, y, z in places:
        feature = QgsFeature(layer.fields())
        height_or_none = np.nan if z is None else z
        feature.setGeometry(point_geometry((x + ORIGIN[0], y + ORIGIN[1], height_or_none)))
        feature.setAttributes([height])
        assert layer.dataProvider().addFeature(feature)
    return layer


def lines(*given):
    layer = QgsVectorLayer(f"LineStringZ?crs={FEET}&field=name:string", "pipes", "memory")
    for name, *vertices in given:
        feature = QgsFeature(layer.fields())
        text = ", ".join(f"{x + ORIGIN[0]!r} {y + ORIGIN[1]!r} {z!r}" for x, y, z in vertices)
        feature.setGeometry(QgsGeometry.fromWkt(f"LINESTRING Z ({text})"))
        feature.setAttributes([name])
        assert layer.dataProvider().addFeature(feature)
    return layer


def test_ground_is_divided_exactly_where_the_depth_crosses_its_limits(run, tmp_path):
    """0.5 to 0.3 over 100: 0.4 -0.04/+0.05 passes from x = 25 to 70."""
    log = Log()
    found = run(log, **site(tmp_path), DEPTH="0.4 ft", TOLERANCE="-0.04 / +0.05 ft")
    kinds = {row["kind"]: row for row in rows(found["OUTPUT"])}
    # The slack of 0.2 mm lets the limits reach 0.33 farther each.
    slack = 2e-4 * 3937 / 1200 / 0.002
    assert kinds["deep"]["area"] == pytest.approx(80 * (25 - slack), rel=1e-6)
    assert kinds["pass"]["area"] == pytest.approx(80 * (45 + 2 * slack), rel=1e-6)
    assert kinds["shallow"]["area"] == pytest.approx(80 * (30 - slack), rel=1e-6)
    assert {k: r["result"] for k, r in kinds.items()} == {
        "pass": "pass", "shallow": "fail", "deep": "fail",
    }  # fmt: skip
    assert found["PASS_SHARE"] == pytest.approx(45 + 2 * slack, rel=1e-6)
    assert (found["PASS_COUNT"], found["FAIL_COUNT"], found["UNCHECKED_COUNT"]) == (0, 1, 0)
    worst = rows(found["WORST"])
    assert [(w["kind"], w["deviation"]) for w in worst] == [
        ("deep", pytest.approx(0.1)), ("shallow", pytest.approx(-0.1)),
    ]  # fmt: skip
    assert [w["beyond"] for w in worst] == pytest.approx([0.05, 0.06])
    assert [f.geometry().asPoint().x() - ORIGIN[0] for f in found["WORST"].getFeatures()] == (
        pytest.approx([0, 100])
    )
    zone, total = rows(found["SUMMARY"])
    assert zone["result"] == total["result"] == "fail"
    assert (zone["dev_min"], zone["dev_mean"], zone["dev_max"]) == pytest.approx((-0.1, 0, 0.1))
    assert log.warnings[0].startswith("0 of 1 zones pass, 1 fail")


def test_zones_with_their_own_depth_and_tolerance(run, tmp_path):
    layer = zones((box(0, 0, 20, 80), "0.45 ft", 0, 1), (box(20, 0, 100, 80), "0.4 ft", 0, 1))
    layer.dataProvider().changeAttributeValues({1: {3: "-0 / +0.05"}, 2: {3: ""}})
    parameters = site(tmp_path) | {"ZONES": layer, "TOLERANCE_FIELD": "name"}
    found = run(**parameters, TOLERANCE="-any / +0.07", NAME_FIELD="depth")
    one, other, total = rows(found["SUMMARY"])
    assert (one["zone"], one["result"], one["share_pass"]) == ("0.45 ft", "pass", 100)
    assert (one["depth_asked"], one["tol_less"], one["tol_more"]) == pytest.approx((0.45, 0, 0.05))
    assert (other["result"], other["tol_less"]) == ("pass", NULL)
    assert total["area"] == pytest.approx(8000)
    assert (found["PASS_COUNT"], found["FAIL_COUNT"]) == (2, 0)


def test_a_zone_without_data_is_no_pass(run, tmp_path):
    layer = zones((box(0, 0, 120, 80), "0.4 ft", 0, 1), (box(200, 0, 220, 80), "0.4 ft", 0, 1))
    found = run(**site(tmp_path), ZONES=layer, TOLERANCE="0.2")
    one, other, total = rows(found["SUMMARY"])
    assert [row["result"] for row in (one, other, total)] == [
        "incomplete", "unchecked", "incomplete",
    ]  # fmt: skip
    assert "16.7 % of the zone" in one["why"]
    assert (found["PASS_COUNT"], found["UNCHECKED_COUNT"]) == (0, 2)


def test_upright_steps_at_the_border_are_told_but_do_not_fail(run, tmp_path):
    path = tmp_path / "stepped.ply"
    xs, z = np.array([0, 50, 50.001, 100]), np.array([9.8, 9.8, 9.5, 9.5])
    plan = [(x, y) for y in (0, 80) for x in xs]
    faces = [f for k in range(3) for f in ((k, k + 1, k + 5), (k, k + 5, k + 4))]
    tin = Tin.from_arrays(np.column_stack((np.array(plan) + ORIGIN, np.tile(z, 2))), faces)
    write_ply(path, tin, QgsCoordinateReferenceSystem(FEET))
    layer = zones((box(50, 0, 100, 80), "0.5 ft", 0, 1))
    given = site(tmp_path) | {"ACTUAL": str(path), "ZONES": layer, "TOLERANCE": "0.02"}
    found = run(**given)
    assert found["PASS_COUNT"] == 1
    assert {row["kind"] for row in rows(found["OUTPUT"])} == {"pass", "strip"}
    assert "Strips beside upright steps" in rows(found["SUMMARY"])[0]["why"]
    assert run(**given, NARROW="0")["FAIL_COUNT"] == 1


def test_a_raster_is_checked_pixel_by_pixel(run, tmp_path):
    def bottom(x, y):
        return 9.5 + 0.002 * x + 0 * y

    given = {"DESIGN": site(tmp_path)["DESIGN"], "ACTUAL": heights_of(bottom, tmp_path, "bottom")}
    found = run(**given, DEPTH="0.4", TOLERANCE="-0.04 / +0.05")
    areas = {row["kind"]: row["area"] for row in rows(found["OUTPUT"])}
    assert areas == pytest.approx({"deep": 80 * 24.5, "pass": 80 * 46, "shallow": 80 * 29.5})
    worst = rows(found["WORST"])[0]
    assert abs(worst["deviation"]) == pytest.approx(0.0995, abs=1e-6)


def test_points_get_residual_zone_and_verdict_and_the_rest_is_listed(run, tmp_path):
    layer = zones((box(0, 0, 50, 80), "0.5 ft", 0, 1))
    shots = points(
        (10, 10, 9.5), (20, 10, 9.52), (30, 10, 9.3), (70, 10, 9.5), (300, 1, 9), (40, 9, None)
    )
    page = tmp_path / "page.html"
    found = run(
        DESIGN=site(tmp_path)["DESIGN"], ACTUAL=shots, ZONES=layer,
        TOLERANCE="-0 / +0.05", HTML=str(page),
    )  # fmt: skip
    table = rows(found["OUTPUT"])
    assert [(row["result"], row["kind"]) for row in table] == [
        ("pass", "pass"),
        ("fail", "shallow"),
        ("fail", "deep"),
        ("unmatched", "off_zones"),
        ("unmatched", "off_design"),
        ("unmatched", "no_height"),
    ]
    assert [row["deviation"] for row in table[:3]] == pytest.approx([0, -0.02, 0.2])
    assert table[0]["zone"] == "zone <1>" and table[3]["zone"] == NULL
    assert "lies in no zone" in table[3]["why"] and "has no height" in table[5]["why"]
    zone = rows(found["SUMMARY"])[0]
    counts = [zone[f"points{tail}"] for tail in ("", "_pass", "_shallow", "_deep")]
    assert counts == [3, 1, 1, 1]
    assert found["UNMATCHED_COUNT"] == 3
    text = page.read_text()
    assert "Points not checked" in text and "It has no height." in text
    assert [w["deviation"] for w in rows(found["WORST"])] == pytest.approx([-0.02, 0.2])


def test_heights_of_points_from_a_field_with_units(run, tmp_path):
    shots = points((10, 10, 0.0), height="2.8956 m")  # 9.5 survey feet and 0.0000 190
    found = run(
        DESIGN=site(tmp_path)["DESIGN"], ACTUAL=shots, HEIGHT_FIELD="level", DEPTH="0.5",
        TOLERANCE="0.001",
    )  # fmt: skip
    (row,) = rows(found["OUTPUT"])
    assert row["result"] == "pass" and row["actual"] == pytest.approx(2.8956 * 3937 / 1200)


def test_least_cover_over_a_pipe_and_where(run, tmp_path):
    """The design falls 2 in 100 to the east, the pipe 1 in 100: least cover at its east end."""
    design = surface(tmp_path, "design", (10.0, 8.0, 8.0, 10.0))
    pipes = lines(("short", (0, 40, 6.5), (100, 40, 5.5)), ("deep", (0, 20, 4.0), (100, 20, 3.0)))
    found = run(DESIGN=design, LINES=pipes, COVER="3 ft")
    assert found["LEAST_COVER"] == pytest.approx(2.5)
    assert found["LINE_FAIL_COUNT"] == 1
    first, second = rows(found["SUMMARY"])
    assert (first["row"], first["result"], second["result"]) == ("line", "fail", "pass")
    assert first["cover_min"] == pytest.approx(2.5)
    assert first["length_short"] == pytest.approx(50)
    place = next(found["WORST"].getFeatures())
    assert place["kind"] == "cover"
    assert place.geometry().asPoint().x() - ORIGIN[0] == pytest.approx(100)


def test_the_report_gives_a_verdict_for_each_zone_and_draws(run, tmp_path):
    page = tmp_path / "page.html"
    layer = zones((box(0, 0, 20, 80), "0.45 ft", 0, 1), (box(20, 0, 100, 80), "0.4 ft", 0, 1))
    run(**site(tmp_path), ZONES=layer, TOLERANCE="-0 / +0.06 ft", HTML=str(page))
    text = page.read_text()
    assert "1 of 2 zones pass, 1 fail" in text
    assert "zone &lt;1&gt;: PASS." in text and "zone &lt;2&gt;: FAIL." in text
    assert "too shallow, up to 0.100 usft (1.2 in) less than asked" in text
    assert text.count("<svg") >= 4  # a plan, and histograms of both zones and all
    assert "Have underground utilities" in text and "<script" not in text


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({"ACTUAL": None}, "nothing to check"),
        ({}, "no depth to check against"),
        ({"DEPTH": "0.4", "TOLERANCE": "-0"}, "is no tolerance"),
        ({"DEPTH": "0.4", "ACTUAL": "flat"}, "have no heights"),
    ],
)
def test_mistakes_are_one_sentence(run, tmp_path, parameters, sentence):
    given = site(tmp_path) | parameters
    if given["ACTUAL"] == "flat":
        given["ACTUAL"] = QgsVectorLayer(f"Point?crs={FEET}", "flat", "memory")
        feature = QgsFeature()
        feature.setGeometry(QgsGeometry.fromWkt(f"POINT ({ORIGIN[0]} {ORIGIN[1]})"))
        given["ACTUAL"].dataProvider().addFeature(feature)
    with pytest.raises(QgsProcessingException, match=sentence):
        run(**given)


def test_a_bad_tolerance_names_its_zone(run, tmp_path):
    layer = zones((box(0, 0, 20, 80), "0.45 ft", 0, 1))
    with pytest.raises(QgsProcessingException, match=r"Zone 1, field “name”: .*no tolerance"):
        run(**site(tmp_path), ZONES=layer, TOLERANCE_FIELD="name")


def test_the_command_line_runs_it(tmp_path):
    profile = link_plugin(tmp_path / "qgis")
    layer = saved(zones((box(0, 0, 20, 80), "0.45 ft", 0, 1)), tmp_path)
    given = site(tmp_path) | {"ZONES": layer, "TOLERANCE": "-0 / +0.06 ft"}
    given |= {"OUTPUT": str(tmp_path / "out.gpkg"), "HTML": str(tmp_path / "page.html")}
    words = [f"{name}={value}" for name, value in given.items()]
    done = qgis_process(profile, "--json", "run", ALGORITHM, "--", *words)
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["results"]["PASS_COUNT"] == 1
    assert QgsVectorLayer(given["OUTPUT"], "out").featureCount() == 1
