"""The depth surface algorithm as a user runs it, in QGIS and through ``qgis_process``."""

import json
import re

import numpy as np
import pytest
import shapely
from osgeo import gdal
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsCoordinateTransform,
    QgsCoordinateTransformContext,
    QgsFeature,
    QgsGeometry,
    QgsMeshLayer,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProcessingUtils,
    QgsProject,
    QgsVectorFileWriter,
    QgsVectorLayer,
)

from plugin.layers.meshes import dataset_groups, read_ply, write_ply
from plugin.layers.polygons import tin_features
from tests.commands import link_plugin, qgis_process
from tests.core.cut_shapes import sheet
from tests.core.tin_shapes import REAL

ALGORITHM = "undercourse:depth_tin"
FEET = "EPSG:2264"  # US survey feet
METRES = "EPSG:3875"
ORIGIN = (1_500_000.0, 600_000.0)


class Log(QgsProcessingFeedback):
    """Keeps what is said."""

    def __init__(self):
        super().__init__(False)
        self.warnings = []

    def pushWarning(self, warning):
        self.warnings.append(warning)


def slope(plan):
    return 100 + 0.02 * plan[:, 0] - 0.01 * plan[:, 1]


def design():
    return sheet(11, 11, 10.0, 0.1, 1, ORIGIN, slope)


def mesh(folder, crs=FEET):
    path = folder / "design.ply"
    write_ply(path, design(), QgsCoordinateReferenceSystem(crs))
    return str(path)


def box(west, south, east, north):
    return shapely.box(west + ORIGIN[0], south + ORIGIN[1], east + ORIGIN[0], north + ORIGIN[1])


def zones(*rows, crs=FEET):
    """A layer of (polygon, depth text, depth number, priority)."""
    fields = "depth:string&field=number:double&field=priority:integer&field=name:string"
    layer = QgsVectorLayer(f"Polygon?crs={crs}&field={fields}", "zones", "memory")
    features = []
    for shape, *attributes in rows:
        feature = QgsFeature(layer.fields())
        feature.setGeometry(QgsGeometry.fromWkt(shape.wkt))
        feature.setAttributes([*attributes, f"zone <{len(features) + 1}>"])
        features.append(feature)
    assert layer.dataProvider().addFeatures(features)[0]
    return layer


def two_zones():
    return zones(
        (box(12, 12, 41, 70), "0.2 ft", 0.2, 2), (box(41, 12, 77.5, 70), "2 1/2 in", 0.5, 1)
    )


def without_usual_field():
    layer = two_zones()
    assert layer.dataProvider().deleteAttributes([layer.fields().lookupField("depth")])
    layer.updateFields()
    return layer


def saved(layer, folder, name="zones.gpkg"):
    path = folder / name
    options = QgsVectorFileWriter.SaveVectorOptions()
    written = QgsVectorFileWriter.writeAsVectorFormatV3(
        layer, str(path), QgsCoordinateTransformContext(), options
    )
    assert written[0] == QgsVectorFileWriter.WriterError.NoError
    return str(path)


@pytest.fixture
def run(provider, tmp_path):
    import processing

    def call(layer, feedback=None, **parameters):
        given = {"DESIGN": parameters.pop("DESIGN", None) or mesh(tmp_path), "ZONES": layer}
        given |= {"TIN": str(tmp_path / "depth.ply"), **parameters}
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, given, context=context, feedback=feedback)
        if isinstance(results.get("FACES"), str):
            results["FACES"] = QgsProcessingUtils.mapLayerFromString(results["FACES"], context)
        results["context"] = context  # it owns temporary layers
        return results

    return call


def below(path):
    """How far the vertices of a result lie below the plane of the design."""
    found = read_ply(path)
    return slope(found.vertices[:, :2] - ORIGIN) - found.vertices[:, 2], found


def test_depths_by_field_with_units(run):
    results = run(two_zones(), DEPTH_FIELD="depth", FACES="TEMPORARY_OUTPUT")
    depths, found = below(results["TIN"])
    assert np.unique(np.round(depths, 6)) == pytest.approx([0, 0.2, 2.5 / 12], abs=1e-6)
    assert results["ZONE_COUNT"] == 2 and results["FACE_COUNT"] == len(found.faces)
    assert results["PLAN_AREA"] == pytest.approx(65.5 * 58, abs=0.05)
    expected = 0.2 * 29 * 58 + 2.5 / 12 * 36.5 * 58
    assert results["VOLUME_BELOW"] == pytest.approx(expected, rel=1e-3)
    assert results["VOLUME_ABOVE"] == 0 and results["FLAG_COUNT"] == 0
    assert results["LEAST_RUN"] == pytest.approx(0.001, rel=0.3)
    assert results["LARGEST_MOVE"] < 1e-3


def test_faces_carry_zone_depth_part_and_parent(run):
    results = run(two_zones(), DEPTH_FIELD="number", FACES="TEMPORARY_OUTPUT")
    faces = results["FACES"]
    assert faces.featureCount() == results["FACE_COUNT"]
    rows = [feature.attributeMap() for feature in faces.getFeatures()]
    assert {row["part"] for row in rows} == {"design", "bottom", "step"}
    depth_of_zone = {1: 0.2, 2: 0.5}
    for row in rows:
        if row["part"] == "bottom":
            assert row["depth"] == depth_of_zone[row["zone"]]
            assert row["name"] == f"zone <{row['zone']}>"
        elif row["part"] == "design":
            assert row["depth"] == 0 and not row["zone"]
        else:
            assert 0 < row["depth"] < depth_of_zone[row["zone"]]
    assert {row["parent"] for row in rows} == set(range(1, 201))
    area = sum(feature.geometry().area() for feature in faces.getFeatures())
    assert area == pytest.approx(design().plan_area, rel=1e-9)


def test_the_mesh_loads_with_crs_and_datasets(run):
    results = run(two_zones(), DEPTH_FIELD="depth")
    layer = QgsMeshLayer(results["TIN"], "depth", "mdal")
    assert layer.isValid() and layer.crs().authid() == FEET
    assert {"depth", "zone", "part"} <= set(dataset_groups(layer))


def test_one_depth_for_all_zones_and_outside(run):
    results = run(two_zones(), DEPTH="1 ft", OUTSIDE="use_depth")
    depths, _ = below(results["TIN"])
    assert depths == pytest.approx(1.0, abs=1e-8)
    # US survey feet: a plain number means the same, metres do not.
    results = run(two_zones(), DEPTH="0.3048006096 m", OUTSIDE="use_depth")
    assert below(results["TIN"])[0] == pytest.approx(1.0, abs=1e-8)


def test_outside_left_out(run):
    results = run(two_zones(), DEPTH_FIELD="number", OUTSIDE="leave_out")
    depths, found = below(results["TIN"])
    assert depths.min() == pytest.approx(0.2)
    plan = found.vertices[:, :2] - ORIGIN
    assert plan.min(axis=0) == pytest.approx([12, 12], abs=1e-3)


def test_a_polygon_design_gives_the_same(run, tmp_path):
    layer = QgsVectorLayer(f"PolygonZ?crs={FEET}", "design", "memory")
    features = []
    for geometry in tin_features(design()):
        feature = QgsFeature()
        feature.setGeometry(geometry)
        features.append(feature)
    layer.dataProvider().addFeatures(features)
    one = run(two_zones(), DESIGN=layer, DEPTH_FIELD="number", TIN=str(tmp_path / "one.ply"))
    other = run(two_zones(), DEPTH_FIELD="number")
    for name in ("PLAN_AREA", "SLOPED_AREA", "VOLUME_BELOW", "FACE_COUNT"):
        assert one[name] == pytest.approx(other[name])


def test_zones_in_another_crs_are_moved_and_told(run):
    layer = two_zones()
    other = QgsVectorLayer("Polygon?crs=EPSG:4326&field=depth:string", "zones", "memory")
    there = QgsCoordinateTransform(layer.crs(), other.crs(), QgsProject.instance())
    features = []
    for feature in layer.getFeatures():
        geometry = feature.geometry()
        geometry.transform(there)
        moved = QgsFeature(other.fields())
        moved.setGeometry(geometry)
        moved.setAttributes([feature["depth"]])
        features.append(moved)
    other.dataProvider().addFeatures(features)
    log = Log()
    results = run(other, log, DEPTH_FIELD="depth")
    assert any("was moved to" in warning for warning in log.warnings)
    assert results["PLAN_AREA"] == pytest.approx(65.5 * 58, rel=1e-4)


def test_overlap_settled_by_priority(run):
    layer = zones((box(12, 12, 50, 70), "", 0.2, 2), (box(41, 12, 77, 70), "", 0.5, 1))
    with pytest.raises(QgsProcessingException, match="Zones 1 and 2 overlap"):
        run(layer, DEPTH_FIELD="number")
    results = run(layer, DEPTH_FIELD="number", PRIORITY_FIELD="priority")
    expected = 0.2 * 29 * 58 + 0.5 * 36 * 58
    assert results["VOLUME_BELOW"] == pytest.approx(expected, rel=1e-3)


def test_a_blank_field_takes_the_depth_for_all_or_is_refused(run):
    layer = zones((box(12, 12, 41, 70), "0.2", 0.2, 1), (box(50, 12, 77, 70), None, None, 1))
    with pytest.raises(QgsProcessingException, match="Zone 2 has no depth"):
        run(layer, DEPTH_FIELD="number")
    log = Log()
    results = run(layer, log, DEPTH_FIELD="number", DEPTH="0.5")
    assert any("got the one for all: 2" in warning for warning in log.warnings)
    assert results["VOLUME_BELOW"] == pytest.approx(58 * (0.2 * 29 + 0.5 * 27), rel=1e-3)


def test_with_nothing_chosen_a_field_called_depth_is_used(run):
    chosen = run(two_zones(), DEPTH_FIELD="depth")
    assert run(two_zones())["VOLUME_BELOW"] == chosen["VOLUME_BELOW"]
    for_all = run(two_zones(), DEPTH="1")
    assert for_all["VOLUME_BELOW"] > 2 * chosen["VOLUME_BELOW"]
    with pytest.raises(QgsProcessingException, match="There is no depth"):
        run(without_usual_field())


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({"DEPTH": "deep"}, "deep"),
        ({"DEPTH_FIELD": "nothing"}, "nothing"),
        ({"DEPTH_FIELD": "number", "OUTSIDE": "use_depth"}, "give it"),
        ({"DEPTH_FIELD": "number", "OUTSIDE": "elsewhere"}, "elsewhere"),
        ({"DEPTH": "1", "TIN": "/no/such/folder/depth.ply"}, "cannot be written"),
        ({"DEPTH": "1", "HTML": "/no/such/folder/depth.html"}, "cannot be written"),
    ],
)
def test_parameters_that_cannot_be_are_refused_in_words(run, parameters, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(two_zones(), **parameters)


def test_a_geographic_design_is_refused(run, tmp_path):
    with pytest.raises(QgsProcessingException, match="not a projected CRS"):
        run(two_zones(), DESIGN=mesh(tmp_path, "EPSG:4326"), DEPTH="1")


def test_a_raster_design_is_pointed_to_the_raster_tool(run, tmp_path):
    path = tmp_path / "design.tif"
    raster = gdal.GetDriverByName("GTiff").Create(str(path), 4, 4, 1, gdal.GDT_Float32)
    raster.SetGeoTransform((0, 1, 0, 0, 0, -1))
    del raster
    with pytest.raises(QgsProcessingException, match=re.escape("Depth surface (raster)")):
        run(two_zones(), DESIGN=str(path), DEPTH="1")


def test_the_report_says_depths_in_both_styles_and_the_cautions(run, tmp_path):
    page = tmp_path / "report.html"
    run(two_zones(), DEPTH_FIELD="depth", HTML=str(page))
    text = page.read_text(encoding="utf-8")
    assert "0.200 usft (2.4 in)" in text and "0.208 usft (2.5 in)" in text
    assert "yd³" in text and "US survey foot" in text
    assert "underground utilities" in text and "Positive is below the design" in text
    assert "Nothing was flagged" in text and "<script" not in text
    assert text.count("zone &lt;1&gt;") == 4 and "zone <1>" not in text
    past = zones((box(-50, 12, 41, 70), "60 mm", 0, 1))
    run(past, DEPTH_FIELD="depth", HTML=str(page))
    text = page.read_text(encoding="utf-8")
    assert "runs past the design" in text and "verdict flagged" in text


def test_a_metric_report_says_metres_and_millimetres(run, tmp_path):
    page = tmp_path / "report.html"
    layer = zones((box(12, 12, 41, 70), "60 mm", 0, 1), crs=METRES)
    design_path = mesh(tmp_path, METRES)
    run(layer, DESIGN=design_path, DEPTH_FIELD="depth", HTML=str(page))
    text = page.read_text(encoding="utf-8")
    assert "0.060 m (60 mm)" in text and "yd³" not in text


def test_flags_reach_the_log_and_the_count(run):
    log = Log()
    results = run(zones((box(-50, 12, 41, 70), "1", 1, 1)), log, DEPTH_FIELD="number")
    assert results["FLAG_COUNT"] == 1
    assert any("Zone 1 runs past the design" in warning for warning in log.warnings)


# --- from the command line -------------------------------------------------------------------


@pytest.fixture(scope="module")
def profile(tmp_path_factory):
    return link_plugin(tmp_path_factory.mktemp("profile") / "qgis")


@pytest.fixture
def command(profile, tmp_path):
    def call(layer, **parameters):
        words = {"DESIGN": mesh(tmp_path), "ZONES": saved(layer, tmp_path)}
        words |= {"TIN": str(tmp_path / "depth.ply"), **parameters}
        arguments = [f"{name}={value}" for name, value in words.items()]
        return qgis_process(profile, "--json", "run", ALGORITHM, "--", *arguments)

    return call


def test_qgis_process_writes_all_outputs(command, tmp_path):
    faces, page = tmp_path / "faces.gpkg", tmp_path / "report.html"
    done = command(two_zones(), DEPTH_FIELD="depth", FACES=str(faces), HTML=str(page))
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert results["ZONE_COUNT"] == 2 and page.is_file()
    layer = QgsVectorLayer(str(faces), "faces")
    assert layer.featureCount() == results["FACE_COUNT"]
    assert below(results["TIN"])[0].max() == pytest.approx(2.5 / 12, abs=1e-6)


@pytest.mark.parametrize(
    ("layer", "parameters", "sentence"),
    [
        (
            lambda: zones((box(12, 12, 50, 70), "1", 1, 1), (box(41, 12, 77, 70), "1", 1, 1)),
            {"DEPTH_FIELD": "depth"},
            "Zones 1 and 2 overlap by 522 square units",
        ),
        (
            lambda: zones((box(12, 12, 50, 70), "1 furlong", 1, 1)),
            {"DEPTH_FIELD": "depth"},
            "Zone 1",
        ),
        (without_usual_field, {}, "There is no depth"),
        (
            lambda: zones((box(500, 500, 600, 600), "1", 1, 1)),
            {"DEPTH": "1", "OUTSIDE": "leave_out"},
            "No zone meets the design",
        ),
    ],
)
def test_a_failed_run_says_why_and_leaves_older_results_alone(
    command, tmp_path, layer, parameters, sentence
):
    older = {name: tmp_path / name for name in ("depth.ply", "faces.gpkg", "report.html")}
    saved(two_zones(), tmp_path, "faces.gpkg")
    for name in ("depth.ply", "report.html"):
        older[name].write_bytes(b"older result")
    before = {name: path.read_bytes() for name, path in older.items()}
    done = command(
        layer(), **parameters, FACES=str(older["faces.gpkg"]), HTML=str(older["report.html"])
    )
    assert done.returncode == 1
    assert sentence in done.stderr and "Traceback" not in done.stderr
    assert {name: path.read_bytes() for name, path in older.items()} == before
    assert not [path for path in tmp_path.iterdir() if "part" in path.name or "tmp" in path.name]


@pytest.mark.skipif(not REAL.is_dir(), reason="the folder of real files is not here")
def test_a_real_road_from_landxml_to_0_30_m_below_it(profile, tmp_path):
    """buildingSMART Finland InfraModel sample (CC-BY 4.0): 22,503.5393 m2 in plan."""
    road, result = tmp_path / "road.ply", tmp_path / "depth.ply"
    source = f"INPUT={REAL / 'road_finished.xml'}"
    done = qgis_process(
        profile, "run", "undercourse:read_landxml", "--", source, f"CRS={METRES}", f"TIN={road}"
    )
    assert done.returncode == 0, done.stderr
    given = read_ply(road)
    low, high = given.vertices[:, :2].min(axis=0) - 1, given.vertices[:, :2].max(axis=0) + 1
    zone = saved(zones((shapely.box(*low, *high), "", 0, 0), crs=METRES), tmp_path)
    words = [f"DESIGN={road}", f"ZONES={zone}", "DEPTH=0.30 m", f"TIN={result}"]
    done = qgis_process(profile, "--json", "run", ALGORITHM, "--", *words)
    assert done.returncode == 0, done.stderr
    found = read_ply(result)
    assert np.array_equal(found.faces, given.faces)
    assert np.array_equal(found.vertices, given.vertices - (0, 0, 0.30))
    assert json.loads(done.stdout)["results"]["PLAN_AREA"] == pytest.approx(22_503.5393, abs=1e-4)
