"""The slope-break algorithm as a user runs it, in QGIS."""

import numpy as np
import pytest
from osgeo import gdal
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsLineString,
    QgsMultiPolygon,
    QgsPoint,
    QgsPolygon,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProcessingUtils,
    QgsVectorFileWriter,
    QgsVectorLayer,
    QgsWkbTypes,
)

from plugin.core.breaks import BREAK_KINDS, KINDS
from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from sample_project.pellworth.surface import LEAST_CHANGE, build
from tests.algorithms.test_guidelines import Log
from tests.core.breaks_shapes import extruded
from tests.core.breaks_sites import planted

FEET = "EPSG:2264"  # US survey feet
HALF = [(0, 0), (12, -0.24), (13.5, -0.33), (13.501, 0.17), (14, 0.17), (19, 0.32), (39, 1.92)]
STREET = [(-x, z) for x, z in HALF[:0:-1]] + HALF
LENGTH = 300.0
ALGORITHM = "undercourse:slope_breaks"


def street():
    vertices, faces = extruded(STREET, np.linspace(0, LENGTH, 31), slope_along=-0.01)
    vertices[:, :2] += [1_500_000, 600_000]
    return vertices, faces


def street_mesh(folder, crs=FEET):
    path = folder / "street.ply"
    write_ply(str(path), Tin.from_arrays(*street()), QgsCoordinateReferenceSystem(crs))
    return str(path)


def street_polygons(multi=False):
    vertices, faces = street()
    kind = "MultiPolygonZ" if multi else "PolygonZ"
    layer = QgsVectorLayer(f"{kind}?crs={FEET}", "street", "memory")
    features = []
    for face in faces:
        ring = QgsLineString([QgsPoint(*vertices[k].tolist()) for k in (*face, face[0])])
        geometry = QgsPolygon(ring)
        if multi:
            several = QgsMultiPolygon()
            several.addGeometry(geometry)
            geometry = several
        feature = QgsFeature()
        feature.setGeometry(geometry)
        features.append(feature)
    layer.dataProvider().addFeatures(features)
    return layer


@pytest.fixture
def run(provider):
    import processing

    def call(design, feedback=None, **parameters):
        parameters = {"DESIGN": design, "BREAKS": "TEMPORARY_OUTPUT", **parameters}
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, parameters, context=context, feedback=feedback)
        if isinstance(results["BREAKS"], str):
            results["BREAKS"] = QgsProcessingUtils.mapLayerFromString(results["BREAKS"], context)
        results["context"] = context  # it owns temporary layers
        return results

    return call


def by_kind(results):
    return {str(k): results[f"{k.upper()}_COUNT"] for k in BREAK_KINDS}


def rows(layer):
    names = layer.fields().names()
    return [dict(zip(names, feature.attributes(), strict=True)) for feature in layer.getFeatures()]


def shapes(layer):
    return sorted(feature.geometry().asWkt(6) for feature in layer.getFeatures())


def test_street_from_a_mesh_file(run, tmp_path):
    results = run(street_mesh(tmp_path))
    layer = results["BREAKS"]
    assert by_kind(results) == {"ridge": 1, "valley": 2, "top": 4, "toe": 4}
    assert results["COUNT"] == layer.featureCount() == 11
    assert results["LENGTH"] == pytest.approx(11 * LENGTH)
    assert results["TOE_LENGTH"] == pytest.approx(4 * LENGTH)
    assert layer.wkbType() == QgsWkbTypes.Type.LineStringZ
    assert layer.crs().authid() == FEET


def test_figures_of_the_crown(run, tmp_path):
    results = run(street_mesh(tmp_path), KINDS=["ridge"])
    (crown,) = rows(results["BREAKS"])
    (feature,) = results["BREAKS"].getFeatures()
    expected = {"change": 4, "change_min": 4, "change_max": 4}
    expected |= dict.fromkeys(("grade_left", "left_min", "left_max"), -2)
    expected |= dict.fromkeys(("grade_right", "right_min", "right_max"), -2)
    expected |= {"length": LENGTH, "z_start": 0, "z_end": -3, "fall": 3}
    for name, value in expected.items():
        assert crown[name] == pytest.approx(value, abs=1e-5), name
    across = np.degrees(2 * np.arctan(0.02 / np.hypot(1, 0.01)))
    assert crown["angle"] == pytest.approx(across, abs=1e-6)
    points = list(feature.geometry().vertices())
    assert len(points) == 31
    assert points[0].z() == pytest.approx(0) and points[-1].z() == pytest.approx(-3)


def test_uphill_is_on_the_left_of_tops_and_toes(run, tmp_path):
    for row in rows(run(street_mesh(tmp_path), KINDS=["top", "toe"])["BREAKS"]):
        assert row["grade_left"] > row["grade_right"]


@pytest.mark.parametrize("multi", [False, True])
def test_polygons_with_heights_give_the_same_lines(run, tmp_path, multi):
    expected = shapes(run(street_mesh(tmp_path))["BREAKS"])
    assert shapes(run(street_polygons(multi))["BREAKS"]) == expected


def test_length_is_read_with_its_unit(run, tmp_path):
    mesh = street_mesh(tmp_path)
    metres = LENGTH * 1200 / 3937
    assert run(mesh, MIN_LENGTH=f"{metres - 0.001:.4f} m")["COUNT"] == 11
    assert run(mesh, MIN_LENGTH=f"{metres + 0.001:.4f} m")["COUNT"] == 0
    assert run(mesh, MIN_LENGTH="299.99")["COUNT"] == 11
    assert run(mesh, MIN_LENGTH="300.01")["COUNT"] == 0


def test_threshold_in_percent_and_in_degrees(run, tmp_path):
    mesh = street_mesh(tmp_path)
    # The lip of the gutter changes by 4 %, as the crown does; walk and lawn by 3 and 5 %.
    assert by_kind(run(mesh, MIN_CHANGE=3.99))["ridge"] == 1
    assert by_kind(run(mesh, MIN_CHANGE=4.01))["ridge"] == 0
    degrees = float(np.degrees(2 * np.arctan(0.02 / np.hypot(1, 0.01))))
    assert by_kind(run(mesh, MIN_CHANGE=degrees - 0.01, MEASURE="angle"))["ridge"] == 1
    assert by_kind(run(mesh, MIN_CHANGE=degrees + 0.01, MEASURE="angle"))["ridge"] == 0


def test_heights_in_metres_over_feet(run, tmp_path):
    results = run(street_mesh(tmp_path), KINDS=["ridge"], VERTICAL_UNIT="metre")
    (crown,) = rows(results["BREAKS"])
    assert crown["change"] == pytest.approx(4 * 3937 / 1200, rel=1e-6)
    assert crown["fall"] == pytest.approx(3)


def test_curb_faces_are_flagged_with_a_reason(run, tmp_path):
    results = run(street_mesh(tmp_path))
    flagged = [row for row in rows(results["BREAKS"]) if row["flag"]]
    assert len(flagged) == results["FLAGGED"] == 4
    assert {row["flag"] for row in flagged} == {"wall"}
    assert all("300.00 usft of 300.00 usft" in row["why"] for row in flagged)
    assert {row["kind"] for row in flagged} == {"valley", "top"}
    by_number = {row["line"]: row for row in rows(results["BREAKS"])}
    for row in flagged:
        other = by_number[row["wall_pair"]]
        assert other["wall_pair"] == row["line"] and other["kind"] != row["kind"]
        assert row["wall_height"] == pytest.approx(0.5, abs=1e-5)
        end = "top, 0.50 usft higher" if row["kind"] == "valley" else "foot, 0.50 usft lower"
        assert f"line {other['line']} is the {end}" in row["why"]
    assert (
        sum(row["wall_pair"] in (None, 0) or not row["wall_pair"] for row in by_number.values())
        == 7
    )


def test_edges_that_cannot_be_measured_are_told(run):
    layer = street_polygons()
    vertices, faces = street()
    fin = [vertices[faces[0][k]].tolist() for k in (0, 1)]
    ring = [*fin, [fin[0][0] + 3.3, fin[0][1] + 2.2, 50.0], fin[0]]
    feature = QgsFeature()
    feature.setGeometry(QgsPolygon(QgsLineString([QgsPoint(*point) for point in ring])))
    # The first side of face 0 may be a border; fins on its three sides cover them all.
    extra = [feature]
    for a, b in ((1, 2), (2, 0)):
        start, stop = vertices[faces[0][a]].tolist(), vertices[faces[0][b]].tolist()
        top = [start[0] + 3.3, start[1] + 2.2, 60.0]
        other = QgsFeature()
        other.setGeometry(
            QgsPolygon(QgsLineString([QgsPoint(*point) for point in (start, stop, top, start)]))
        )
        extra.append(other)
    layer.dataProvider().addFeatures(extra)
    feedback = QgsProcessingFeedback()
    results = run(layer, feedback)
    assert results["UNMEASURED"] >= 2
    assert f"{results['UNMEASURED']} edges cannot be measured" in feedback.textLog()


def test_nothing_found_is_said(run, tmp_path):
    feedback = QgsProcessingFeedback()
    results = run(street_mesh(tmp_path), feedback, MIN_CHANGE=99999)
    assert results["COUNT"] == 0
    assert "No slope break was found" in feedback.textLog()


def test_sample_has_the_breaks_it_states(run, tmp_path):
    """Every stated crown, flow line, rim ... of the sample lies on found lines of its kind."""
    site = build()
    path = tmp_path / "site.ply"
    tin = Tin.from_arrays(site.vertices, site.faces)
    write_ply(str(path), tin, QgsCoordinateReferenceSystem(FEET))
    results = run(str(path), MIN_CHANGE=LEAST_CHANGE, KINDS=["ridge"])
    crown = next(line for line in site.lines if line.name == "crown").points
    found = {
        (point.x(), point.y(), point.z())
        for feature in results["BREAKS"].getFeatures()
        for point in feature.geometry().vertices()
    }
    assert {tuple(point) for point in crown.tolist()} <= found


@pytest.mark.parametrize(
    ("crs", "sentence"),
    [("EPSG:4326", "metres or feet"), ("", "no coordinate reference system")],
)
def test_crs_that_cannot_hold_grades_is_refused(run, tmp_path, crs, sentence):
    design = street_mesh(tmp_path, crs)
    with pytest.raises(QgsProcessingException, match=sentence):
        run(design)


def test_a_raster_is_triangulated_and_a_width_is_advised(run, tmp_path, monkeypatch):
    path = str(tmp_path / "grid.tif")
    raster = gdal.GetDriverByName("GTiff").Create(path, 40, 30, 1, gdal.GDT_Float32)
    raster.SetProjection(QgsCoordinateReferenceSystem(FEET).toWkt())
    raster.SetGeoTransform((1_500_000, 1, 0, 600_000, 0, -1))
    # A valley at the centres of the twentieth column of pixels.
    heights = np.tile(0.05 * np.abs(np.arange(40) - 19), (30, 1))
    raster.GetRasterBand(1).WriteArray(heights.astype(np.float32))
    raster = None
    log = Log()
    results = run(path, feedback=log)
    assert by_kind(results) == {"ridge": 0, "valley": 1, "top": 0, "toe": 0}
    assert results["LENGTH"] == pytest.approx(29)
    (valley,) = results["BREAKS"].getFeatures()
    assert {round(v.x() - 1_500_000, 6) for v in valley.geometry().vertices()} == {19.5}
    assert any("about three pixels" in text for text in log.warnings)
    log = Log()
    run(path, feedback=log, TOLERANCE="3 ft")
    assert not log.warnings
    monkeypatch.setattr("plugin.algorithms.pixel_surface.MOST_PIXELS", 1000)
    with pytest.raises(QgsProcessingException, match="1,200 pixels, more than 1,000: clip it"):
        run(path)


def test_failed_run_leaves_an_older_result_alone(run, tmp_path):
    target = str(tmp_path / "breaks.gpkg")
    run(street_mesh(tmp_path), BREAKS=target)
    with pytest.raises(QgsProcessingException):
        run(street_mesh(tmp_path), BREAKS=target, MIN_CHANGE=180, MEASURE="angle")
    assert QgsVectorLayer(target, "old", "ogr").featureCount() == 11


def test_cancel_leaves_no_result(run, tmp_path):
    class Cancelling(QgsProcessingFeedback):
        def setProgress(self, progress):
            self.cancel()

    target = tmp_path / "breaks.gpkg"
    with pytest.raises(KeyError):  # no output is returned
        run(street_mesh(tmp_path), Cancelling(), BREAKS=str(target))
    assert not target.exists()


def test_length_that_is_none_is_refused_before_the_run(run, tmp_path):
    with pytest.raises(QgsProcessingException, match="Shortest line: 'short' cannot be read"):
        run(street_mesh(tmp_path), MIN_LENGTH="short")


def test_smoothing_takes_out_noise_and_is_told_in_the_report(run, tmp_path):
    site = planted(0.005, 0, spacing=1.0)
    path, page = str(tmp_path / "noisy.ply"), tmp_path / "report.html"
    crs = QgsCoordinateReferenceSystem("EPSG:3875")
    write_ply(path, Tin.from_arrays(site.vertices, site.faces), crs)
    given = {"MIN_CHANGE": 2, "KEEP_CHANGE": 1.5, "GAP": "3 m", "MIN_LENGTH": "3 m"}
    plain = run(path, **given)
    smooth = run(path, **given, SMOOTHING=5, HTML=str(page))
    assert smooth["COUNT"] < plain["COUNT"] / 2
    assert "Smoothing passes, face by face" in page.read_text(encoding="utf-8")
    with pytest.raises(QgsProcessingException, match="slopes are taken over a width already"):
        run(path, **given, SMOOTHING=5, TOLERANCE="3 m")
    with pytest.raises(QgsProcessingException, match="'wide' cannot be read"):
        run(path, **given, SMOOTHING=5, TOLERANCE="wide")


def test_every_parameter_has_help_and_every_kind_a_style(provider):
    algorithm = provider.algorithm("slope_breaks")
    assert all(parameter.help() for parameter in algorithm.parameterDefinitions())
    help_page = algorithm.shortHelpString()
    assert "uphill side is on the left" in help_page and "algebraic difference" in help_page
    from plugin.styles import style_breaks

    layer = QgsVectorLayer("LineStringZ?field=kind:string", "x", "memory")
    style_breaks(layer)
    styled = {category.value() for category in layer.renderer().categories()}
    assert styled == {str(kind) for kind in KINDS}


def test_gpkg_design(run, tmp_path):
    path = str(tmp_path / "faces.gpkg")
    options = QgsVectorFileWriter.SaveVectorOptions()
    context = QgsProcessingContext().transformContext()
    QgsVectorFileWriter.writeAsVectorFormatV3(street_polygons(), path, context, options)
    assert run(path)["COUNT"] == 11
