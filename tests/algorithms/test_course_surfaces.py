"""Course surfaces as a user runs them, in QGIS and through ``qgis_process``."""

import csv
import json
import re

import numpy as np
import pytest
from osgeo import gdal, ogr
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsMeshLayer,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from plugin.layers.meshes import dataset_groups, read_ply, write_ply
from tests.commands import ROOT, link_plugin, qgis_process
from tests.core.cut_shapes import sheet

from .test_depth_tin import FEET, METRES, ORIGIN, Log, box, saved, slope

ALGORITHM = "undercourse:course_surfaces"
SAMPLE = ROOT / "sample_project" / "data"
COLUMNS = ("section", "order", "course", "thickness", "widen", "swell", "density")
LANE_AND_WALK = (
    ("lane", 1, "asphalt <&>", "2 in", None, None, "145 lb/ft3"),
    ("lane", 2, "base", "8 in", "1 ft", "1.25", None),
    ("walk", 1, "slab", "0.375 ft", None, None, None),
)


def zones(*rows, crs=FEET, field="section"):
    """A layer of (polygon, section, priority)."""
    uri = f"Polygon?crs={crs}&field={field}:string&field=priority:integer&field=name:string"
    layer = QgsVectorLayer(uri, "zones", "memory")
    features = []
    for shape, *attributes in rows:
        feature = QgsFeature(layer.fields())
        feature.setGeometry(QgsGeometry.fromWkt(shape.wkt))
        feature.setAttributes([*attributes, f"zone <{len(features) + 1}>"])
        features.append(feature)
    assert layer.dataProvider().addFeatures(features)[0]
    return layer


def two_zones(**more):
    return zones((box(12, 12, 40, 70), "Lane", 1), (box(40, 12, 46, 70), "walk", 2), **more)


def table(folder, rows=LANE_AND_WALK, columns=COLUMNS, name="schedule.csv"):
    path = folder / name
    with path.open("w", newline="", encoding="utf-8") as file:
        csv.writer(file).writerows([columns, *rows])
    return str(path)


def design(folder, crs=FEET):
    path = folder / "design.ply"
    tin = sheet(11, 11, 10.0, 0.1, 1, ORIGIN, slope)
    write_ply(path, tin, QgsCoordinateReferenceSystem(crs))
    return str(path)


@pytest.fixture
def run(provider, tmp_path):
    import processing

    def call(layer, feedback=None, **parameters):
        given = {"DESIGN": parameters.pop("DESIGN", None) or design(tmp_path), "ZONES": layer}
        given |= {"SCHEDULE": parameters.pop("SCHEDULE", None) or table(tmp_path)}
        given |= {"FOLDER": str(tmp_path / "courses"), **parameters}
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, given, context=context, feedback=feedback)
        for name in ("FACES", "QUANTITIES"):
            if isinstance(results.get(name), str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context  # it owns temporary layers
        return results

    return call


def below(path):
    """How far the vertices of a surface lie below the plane of the design."""
    found = read_ply(path)
    return slope(found.vertices[:, :2] - ORIGIN) - found.vertices[:, 2], found


def rows_of(layer):
    return [feature.attributeMap() for feature in layer.getFeatures()]


def test_one_mesh_a_surface_and_a_list_of_what_each_is(run, tmp_path):
    results = run(two_zones())
    folder = tmp_path / "courses"
    assert sorted(path.name for path in folder.iterdir()) == [
        "interface_1.ply",
        "interface_2.ply",
        "interfaces.csv",
    ]
    depths, _ = below(folder / "interface_1.ply")
    assert np.unique(np.round(depths, 6)) == pytest.approx([0, 2 / 12, 0.375], abs=1e-6)
    depths, found = below(results["LOWEST"])
    assert np.unique(np.round(depths, 6)) == pytest.approx([0, 0.375, 10 / 12], abs=1e-6)
    assert {"depth", "zone", "course", "part"} <= set(found.face_values)
    with (folder / "interfaces.csv").open(encoding="utf-8") as file:
        listed = [
            (row["file"], row["section"], row["course"], row["depth_plumb"])
            for row in csv.DictReader(file)
        ]
    assert listed == [
        ("interface_1.ply", "lane", "asphalt <&>", "0.166667"),
        ("interface_1.ply", "walk", "slab", "0.375"),
        ("interface_2.ply", "lane", "base", "0.833333"),
        ("interface_2.ply", "walk", "slab", "0.375"),
    ]
    assert results["INTERFACE_COUNT"] == 2 and results["SECTION_COUNT"] == 2
    assert results["ZONE_COUNT"] == 2 and results["FLAG_COUNT"] == 0


def test_surfaces_load_with_crs_and_datasets(run, tmp_path):
    run(two_zones())
    layer = QgsMeshLayer(str(tmp_path / "courses" / "interface_2.ply"), "2", "mdal")
    assert layer.isValid() and layer.crs().authid() == FEET
    assert {"depth", "zone", "course", "part"} <= set(dataset_groups(layer))


def test_surfaces_arrive_named_and_grouped_from_the_top_down(run, tmp_path):
    results = run(two_zones())
    waiting = results["context"].layersToLoadOnCompletion()
    meshes = [waiting[path] for path in sorted(waiting) if path.endswith(".ply")]
    assert [mesh.name for mesh in meshes] == ["1 below asphalt <&>, slab", "2 below base"]
    assert [mesh.layerSortKey for mesh in meshes] == [2, 1]  # the greatest goes on top
    assert {mesh.groupName for mesh in meshes} == {"Courses below design"}


def test_quantities_and_faces(run):
    results = run(two_zones(), QUANTITIES="TEMPORARY_OUTPUT", FACES="TEMPORARY_OUTPUT")
    rows = rows_of(results["QUANTITIES"])
    told = [(row["zone"], row["section"], row["order"], row["course"]) for row in rows]
    assert told == [
        (1, "lane", 1, "asphalt <&>"),
        (1, "lane", 2, "base"),
        (2, "walk", 1, "slab"),
    ]
    asphalt, base, slab = rows
    assert asphalt["plan_area"] == pytest.approx(28 * 58, rel=1e-6)
    assert asphalt["volume"] == pytest.approx(28 * 58 * 2 / 12, rel=1e-3)
    # The base reaches 1 ft past the lane: 0.4583 below the walk, to the design elsewhere.
    strip = (10 / 12 - 0.375) * 58 + 10 / 12 * (58 + 2 * 30)
    assert base["volume"] == pytest.approx(28 * 58 * 8 / 12 + strip, rel=1e-3)
    assert base["plan_area"] == pytest.approx(30 * 60, rel=1e-6)
    assert slab["volume"] == pytest.approx(6 * 58 * 0.375, rel=1e-3)
    assert sum(row["volume"] for row in rows) == pytest.approx(results["VOLUME"], rel=1e-12)
    # US survey feet: 1200/3937 m; 27 cubic feet are a cubic yard.
    cubic = (1200 / 3937) ** 3
    assert base["volume_m3"] == pytest.approx(base["volume"] * cubic, rel=1e-12)
    assert base["volume_yd3"] == pytest.approx(base["volume"] / 27, rel=1e-12)
    assert base["loose_volume"] == pytest.approx(1.25 * base["volume"]) and not base["tonnes"]
    assert base["loose_m3"] == pytest.approx(1.25 * base["volume_m3"])
    density = 145 * 0.45359237 / 0.3048**3 / 1000
    assert asphalt["tonnes"] == pytest.approx(asphalt["volume_m3"] * density, rel=1e-12)
    assert results["TONNES"] == asphalt["tonnes"] and asphalt["plan_unit"] == "usft"
    faces = rows_of(results["FACES"])
    assert len(faces) == results["FACE_COUNT"]
    floors = {
        (row["interface"], row["section"], row["course"], round(row["depth"], 4))
        for row in faces
        if row["part"] == "bottom"
    }
    assert floors == {
        (1, "lane", "asphalt <&>", 0.1667),
        (1, "walk", "slab", 0.375),
        (2, "lane", "base", 0.8333),
        (2, "walk", "slab", 0.375),
    }


def test_outside_left_out(run, tmp_path):
    kept = run(two_zones())
    results = run(two_zones(), OUTSIDE="leave_out", FOLDER=str(tmp_path / "only"))
    _, found = below(results["LOWEST"])
    plan = found.vertices[:, :2] - ORIGIN
    assert plan.min(axis=0) == pytest.approx([11, 11], abs=1e-3)
    assert plan.max(axis=0) == pytest.approx([46, 71], abs=1e-3)
    assert (np.unique(found.faces) == np.arange(len(found.vertices))).all()
    assert results["VOLUME"] == pytest.approx(kept["VOLUME"], rel=1e-12)


def test_past_the_edge_of_the_design(run, tmp_path):
    layer = zones((box(60, 20, 108, 70), "lane", 1))
    path = table(tmp_path, LANE_AND_WALK[:2])
    page = tmp_path / "report.html"
    results = run(
        layer, SCHEDULE=path, BEYOND="carry", OUTSIDE="leave_out", HTML=str(page), FACES="memory:"
    )
    depths, found = below(results["LOWEST"])
    assert (found.vertices[:, 0] - ORIGIN[0]).max() == pytest.approx(109, abs=1e-3)
    assert depths.max() == pytest.approx(10 / 12, abs=1e-6)
    assert results["VOLUME"] == pytest.approx(50 * 52 * 10 / 12, rel=1e-3)
    assert {row["parent"] for row in rows_of(results["FACES"])} <= set(range(1, 201))
    assert "carried" in page.read_text(encoding="utf-8") and results["FLAG_COUNT"] >= 1
    stopped = run(layer, SCHEDULE=path)
    assert stopped["VOLUME"] < 0.9 * results["VOLUME"]


@pytest.mark.parametrize("typed", ["YES", "NO"])
@pytest.mark.parametrize(
    ("name", "driver"), [("s.xlsx", "XLSX"), ("s.ods", "ODS"), ("s.gpkg", "GPKG")]
)
def test_sheets_and_tables_read_the_same(run, tmp_path, name, driver, typed):
    """With cells as numbers, or all as text, where a sheet's first row is not known as its head."""
    if gdal.GetDriverByName(driver) is None:
        pytest.skip(f"this GDAL has no {driver}")
    path = tmp_path / name
    given = gdal.OpenEx(table(tmp_path), open_options=[f"AUTODETECT_TYPE={typed}"])
    done = gdal.VectorTranslate(str(path), given, format=driver)
    assert done is not None
    del done
    results = run(two_zones(), SCHEDULE=str(path))
    assert (results["INTERFACE_COUNT"], results["FLAG_COUNT"]) == (2, 0)
    assert results["TONNES"] > 0


def test_numbers_without_units_are_in_the_unit_of_the_heights(run, tmp_path):
    path = table(tmp_path, [("lane", 1, "x", 0.5), ("walk", 1, "y", 0.25)], COLUMNS[:4])
    results = run(two_zones(), SCHEDULE=path)
    assert results["VOLUME"] == pytest.approx(58 * (28 * 0.5 + 6 * 0.25), rel=1e-3)


def test_another_field_with_the_sections(run):
    layer = two_zones(field="build_up")
    with pytest.raises(QgsProcessingException, match="none called “section”"):
        run(layer)
    results = run(layer, SECTION_FIELD="build_up")
    assert results["SECTION_COUNT"] == 2


def test_columns_that_nothing_is_read_from_are_warned_about(run, tmp_path):
    rows = [(*row, "1 ft") for row in LANE_AND_WALK]
    log = Log()
    results = run(two_zones(), log, SCHEDULE=table(tmp_path, rows, (*COLUMNS, "widning")))
    assert results["FLAG_COUNT"] == 1
    assert any("widning" in warning for warning in log.warnings)


def test_the_report_is_escaped_and_holds_both_systems_of_units(run, tmp_path):
    page = tmp_path / "report.html"
    rows = [(*row, "note </td>") for row in LANE_AND_WALK]
    run(two_zones(), SCHEDULE=table(tmp_path, rows, (*COLUMNS, "note")), HTML=str(page))
    text = page.read_text(encoding="utf-8")
    assert "asphalt &lt;&amp;&gt;" in text and "zone &lt;1&gt;" in text
    assert "note &lt;/td&gt;" in text
    assert "asphalt <" not in text and "zone <" not in text and "note </td>" not in text
    assert "Volume, yd³" in text and "Volume, m³" in text
    assert "0.167 usft (2.0 in)" in text and "2 surfaces below the design" in text
    assert text.count("<svg") == 2 and "Have underground utilities located" in text
    ids = re.findall(r'pattern id="(\w+)"', text)
    assert len(ids) == len(set(ids))
    assert "Nothing was flagged" in text and "verdict flagged" not in text


def test_a_metric_job_says_metres_first(run, tmp_path):
    page = tmp_path / "report.html"
    rows = [("lane", 1, "x", "150 mm"), ("walk", 1, "y", "0.1")]
    path = table(tmp_path, rows, COLUMNS[:4])
    run(
        two_zones(crs=METRES),
        SCHEDULE=path,
        DESIGN=design(tmp_path, METRES),
        HTML=str(page),
    )
    text = page.read_text(encoding="utf-8")
    assert "0.150 m (150 mm)" in text
    assert text.index("Volume, m³") < text.index("Volume, yd³")


def test_surfaces_of_an_earlier_run_do_not_stay_among_new_ones(run, tmp_path):
    folder = tmp_path / "courses"
    run(two_zones())
    (folder / "interface_7.ply").write_bytes(b"of somebody else")
    one = [("lane", 1, "x", "1 ft"), ("walk", 1, "y", "1 ft")]
    run(two_zones(), SCHEDULE=table(tmp_path, one, COLUMNS[:4]))
    assert sorted(path.name for path in folder.iterdir()) == [
        "interface_1.ply",
        "interface_7.ply",
        "interfaces.csv",
    ]


# --- from the command line -----------------------------------------------------------------


@pytest.fixture(scope="module")
def profile(tmp_path_factory):
    return link_plugin(tmp_path_factory.mktemp("profile") / "qgis")


@pytest.mark.parametrize(
    ("layer", "rows", "more", "sentence"),
    [
        (two_zones, LANE_AND_WALK[:2], {}, "Zone 2 is of the section “walk”"),
        (
            two_zones,
            [*LANE_AND_WALK[:2], ("walk", 1, "slab", "0 in", None, None, None)],
            {},
            "Row 3 of the schedule (section “walk”): the thickness “0 in” is not greater",
        ),
        (two_zones, [("lane", 2, "base", "8 in", None, None, None)], {}, "no row has 1"),
        (
            lambda: zones((box(12, 12, 40, 70), "lane", 1), (box(30, 12, 46, 70), "walk", 2)),
            LANE_AND_WALK,
            {},
            "Zones 1 and 2 overlap",
        ),
        (two_zones, LANE_AND_WALK, {"DESIGN": "raster.tif"}, "is a raster"),
        (two_zones, LANE_AND_WALK, {"FOLDER": "design.ply"}, "is a file"),
    ],
)
def test_a_failed_run_says_why_and_leaves_older_results_alone(
    profile, tmp_path, layer, rows, more, sentence
):
    folder = tmp_path / "courses"
    folder.mkdir()
    older = {
        name: tmp_path / name
        for name in ("courses/interface_1.ply", "courses/interfaces.csv", "report.html", "q.gpkg")
    }
    for path in older.values():
        path.write_bytes(b"older result")
    gdal.GetDriverByName("GTiff").Create(str(tmp_path / "raster.tif"), 4, 4).SetProjection(
        QgsCoordinateReferenceSystem(FEET).toWkt()
    )
    words = {
        "DESIGN": design(tmp_path),
        "ZONES": saved(layer(), tmp_path),
        "SCHEDULE": table(tmp_path, rows),
        "FOLDER": str(folder),
        "HTML": str(older["report.html"]),
        "QUANTITIES": str(older["q.gpkg"]),
    } | {name: str(tmp_path / value) for name, value in more.items()}
    arguments = [f"{name}={value}" for name, value in words.items()]
    done = qgis_process(profile, "run", ALGORITHM, "--", *arguments)
    assert done.returncode == 1
    assert sentence in done.stderr and "Traceback" not in done.stderr
    assert {path.read_bytes() for path in older.values()} == {b"older result"}
    assert sorted(path.name for path in folder.iterdir()) == ["interface_1.ply", "interfaces.csv"]


def test_the_sample_through_qgis_process(profile, tmp_path):
    words = {
        "DESIGN": SAMPLE / "pellworth_design.ply",
        "ZONES": f"{SAMPLE / 'pellworth.gpkg'}|layername=zones",
        "SCHEDULE": SAMPLE / "schedule.csv",
        "PRIORITY_FIELD": "priority",
        "FOLDER": tmp_path / "courses",
        "QUANTITIES": tmp_path / "quantities.gpkg",
        "HTML": tmp_path / "report.html",
    }
    arguments = [f"{name}={value}" for name, value in words.items()]
    done = qgis_process(profile, "--json", "run", ALGORITHM, "--", *arguments)
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert results["INTERFACE_COUNT"] == 3 and results["SECTION_COUNT"] == 8
    source = ogr.Open(str(tmp_path / "quantities.gpkg"))
    volumes = [row.GetField("volume") for row in source.GetLayer(0)]
    assert sum(volumes) == pytest.approx(results["VOLUME"], rel=1e-9)
    assert (tmp_path / "report.html").read_text(encoding="utf-8").count("<svg") == 8
