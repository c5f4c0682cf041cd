"""Cross sections as a user cuts them, in QGIS and through ``qgis_process``."""

import csv
import json
import shutil
from pathlib import Path

import numpy as np
import pytest
from osgeo import gdal, ogr, osr
from qgis.core import (
    NULL,
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingUtils,
    QgsRasterLayer,
)

from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from tests.algorithms.test_guidelines import FEET, METRES, Log, layer, rows, shapes
from tests.commands import ROOT, link_plugin, qgis_process
from tests.core.section_shapes import trench

LINE = [(1000, 2000, 0), (1200, 2000, 0)]
SAMPLE = ROOT / "sample_project" / "data"


def saved(tin: Tin, folder: Path, name: str, crs=FEET) -> str:
    path = folder / f"{name}.ply"
    write_ply(str(path), tin, QgsCoordinateReferenceSystem(crs))
    return str(path)


@pytest.fixture
def vose(tmp_path):
    """Ground and cutting of Vose's example, 5, 10 and 15 ft deep."""
    ground, bottom = trench(np.arange(5) * 50.0, [0, 5, 10, 15, 0], 20, 1.5, (1000, 2000, 400))
    return [saved(ground, tmp_path, "ground"), saved(bottom, tmp_path, "grade")]


@pytest.fixture
def cut(provider):
    import processing

    def call(feedback=None, **parameters):
        context = QgsProcessingContext()
        given = {
            "LINES": layer([LINE], attributes=[["axis"]]),
            "INTERVAL": "50",
            "WIDTH": "60",
            "SECTIONS": "TEMPORARY_OUTPUT",
            "MARKS": "TEMPORARY_OUTPUT",
            "AREAS": "TEMPORARY_OUTPUT",
            **parameters,
        }
        results = processing.run(
            "undercourse:cross_sections", given, context=context, feedback=feedback
        )
        for name in ("SECTIONS", "MARKS", "AREAS"):
            if isinstance(results.get(name), str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context
        return results

    return call


def test_areas_and_volumes_of_vose(cut, vose):
    """Vose, Handbook of railroad construction, 1857, p. 83: 56,250 ft3 by end areas, 52,500 by the
    prismoidal formula, which is exact here."""
    log = Log()
    made = cut(log, SURFACES=vose)
    assert made["SECTION_COUNT"] == 5
    assert made["CUT_AVERAGE"] == pytest.approx(56_250, rel=1e-7)
    assert made["CUT_PRISMOIDAL"] == pytest.approx(52_500, rel=1e-7)
    assert made["CUT_EXACT"] == pytest.approx(52_500, rel=1e-7)
    assert made["FILL_EXACT"] == pytest.approx(0, abs=1e-6)
    found = rows(made["AREAS"])
    assert [row["cut_area"] for row in found] == pytest.approx([0, 137.5, 350, 637.5, 0], abs=1e-5)
    assert [row["station"] for row in found][:2] == ["0+00.00", "0+50.00"]
    assert (found[0]["upper"], found[0]["lower"]) == ("ground", "grade")
    assert found[3]["cut_most"] == pytest.approx(15.0)
    assert found[-1]["next_distance"] == NULL
    assert found[-1]["cut_sum_yd3"] == pytest.approx(56_250 / 27, rel=1e-7)
    # US survey feet.
    assert found[-1]["cut_sum_m3"] == pytest.approx(56_250 * (1200 / 3937) ** 3, rel=1e-7)
    assert any("where “ground” lies above “grade”" in text for text in log.infos)


def test_upper_and_lower_may_be_chosen(cut, vose):
    made = cut(SURFACES=vose, UPPER=vose[1], LOWER=vose[0])
    assert made["FILL_AVERAGE"] == pytest.approx(56_250, rel=1e-7)
    assert made["CUT_AVERAGE"] == pytest.approx(0, abs=1e-6)
    alone = cut(SURFACES=vose[:1], LOWER=vose[1])
    assert alone["CUT_EXACT"] == pytest.approx(52_500, rel=1e-7)
    assert {row["surface"] for row in rows(alone["SECTIONS"])} == {"ground", "grade"}
    with pytest.raises(QgsProcessingException, match="are the same layer"):
        cut(SURFACES=vose, UPPER=vose[0], LOWER=vose[0])


def test_one_surface_has_profiles_and_no_areas(cut, vose):
    made = cut(SURFACES=vose[:1])
    assert made["AREAS"].featureCount() == 0
    assert "CUT_AVERAGE" not in made
    assert made["SECTIONS"].featureCount() == 5


def test_profiles_are_lines_with_heights_from_left_to_right(cut, vose):
    made = cut(SURFACES=vose, START_STATION="10+00", WIDTH_RIGHT="45")
    found = {(r["station"], r["surface"]): r for r in rows(made["SECTIONS"])}
    row = found["11+50.00", "grade"]
    assert (row["offset_left"], row["offset_right"]) == pytest.approx((-32.5, 32.5))
    assert (row["height_min"], row["height_max"]) == pytest.approx((385, 400))
    assert row["height_on_line"] == pytest.approx(385)
    assert (row["left_north"], row["right_north"]) == pytest.approx((2060, 1955))
    assert row["bearing"] == pytest.approx(90.0)  # looks east
    assert (row["line"], row["title"], row["flag"]) == ("axis", "axis 11+50.00", NULL)
    shape = next(
        f.geometry()
        for f in made["SECTIONS"].getFeatures()
        if (f["station"], f["surface"]) == ("11+50.00", "grade")
    )
    xyz = np.array([[v.x(), v.y(), v.z()] for v in shape.vertices()])
    assert xyz[0] == pytest.approx((1150, 2032.5, 400))
    assert xyz[-1] == pytest.approx((1150, 1967.5, 400))


def test_marks_of_guidelines_and_zones(cut, vose, tmp_path):
    made = cut(
        SURFACES=vose,
        GUIDELINES=layer([[(990, 1990, 395), (1210, 1990, 395)]], attributes=[["edge"]]),
        ZONES=shapes("Polygon", ["Polygon ((990 1980, 1210 1980, 1210 2003, 990 2003, 990 1980))"]),
        CSV=str(tmp_path / "points.csv"),
        STATION_LIST="0+75",
        INTERVAL="",
    )
    assert made["SECTION_COUNT"] == 1
    found = rows(made["MARKS"])
    assert [(r["kind"], r["name"]) for r in found] == [
        ("zone_border", "– | zone 1"),
        ("guideline", "edge"),
        ("zone_border", "zone 1 | –"),
    ]
    assert [r["signed_offset"] for r in found] == pytest.approx([-3, 10, 20])
    assert [r["side"] for r in found] == ["left", "right", "right"]
    edge = found[1]
    assert (edge["height"], edge["surface"], edge["difference"]) == (395, "ground", -5)
    with (tmp_path / "points.csv").open(encoding="utf-8", newline="") as file:
        table = list(csv.DictReader(file))
    marked = [row for row in table if row["mark"]]
    assert [float(row["offset_usft"]) for row in marked] == pytest.approx([-3, 10, 20])
    assert float(marked[1]["ground_usft"]) == 400.0
    # Bottom at 0+75: 7.5 below.
    assert float(marked[1]["grade_usft"]) == pytest.approx(392.5)
    offsets = [float(row["offset_usft"]) for row in table]
    assert offsets == sorted(offsets) and (offsets[0], offsets[-1]) == (-60, 60)
    assert any(row["grade_usft"] == "" for row in table)


def test_sections_that_cross_inside_a_bend_are_flagged(cut, vose, tmp_path):
    log = Log()
    bent = layer([[(1010, 1940, 0), (1100, 1940, 0), (1100, 2060, 0)]], attributes=[["bend"]])
    page = tmp_path / "report.html"
    made = cut(log, LINES=bent, SURFACES=vose, INTERVAL="10", WIDTH="25", HTML=str(page))
    flagged = [r for r in rows(made["AREAS"]) if r["flag"] != NULL and "crosses" in r["flag"]]
    assert flagged and all("inside of a bend" in r["why"] for r in flagged)
    assert all("to the left" in r["why"] for r in flagged)
    assert made["FLAGGED_COUNT"] >= len(flagged)
    assert any("are flagged" in text for text in log.warnings)
    text = page.read_text(encoding="utf-8")
    assert "count the ground there twice" in text


def test_a_surface_with_faces_over_one_another_is_told(cut, vose, tmp_path):
    """Three faces of which the last lies over the first: its ground counts twice."""
    points = [(1000, 1900, 0), (1200, 1900, 0), (1200, 2100, 0), (1000, 2100, 0), (1150, 1920, 9)]
    double = saved(Tin.from_arrays(points, [(0, 1, 2), (0, 2, 3), (0, 1, 4)]), tmp_path, "double")
    log = Log()
    page = tmp_path / "report.html"
    cut(log, SURFACES=[vose[0], double], HTML=str(page))
    assert any("“double” has" in text and "over one another" in text for text in log.warnings)
    assert "“double” has" in page.read_text(encoding="utf-8")


def raster(folder, name, height, pixel=2.0, crs=FEET):
    """A raster over the example whose heights are a function of x and y."""
    path = str(folder / f"{name}.tif")
    columns, lines = 130, 90
    made = gdal.GetDriverByName("GTiff").Create(path, columns, lines, 1, gdal.GDT_Float64)
    made.SetGeoTransform((970.0, pixel, 0, 2090.0, 0, -pixel))
    spatial = osr.SpatialReference()
    spatial.ImportFromWkt(QgsCoordinateReferenceSystem(crs).toWkt())
    made.SetProjection(spatial.ExportToWkt())
    x = 970 + (np.arange(columns) + 0.5) * pixel
    y = 2090 - (np.arange(lines) + 0.5) * pixel
    made.GetRasterBand(1).WriteArray(height(*np.meshgrid(x, y)))
    made.FlushCache()
    return path


def test_rasters_among_the_surfaces(cut, vose, tmp_path):
    """A plane in a raster is a plane on the sections; no exact volume with a raster."""
    path = raster(tmp_path, "flown", lambda x, y: 400 + 0.02 * (x - 1000) + 0.1 * (y - 2000))
    page = tmp_path / "report.html"
    made = cut(SURFACES=[path, vose[0]], WIDTH="30", HTML=str(page))
    found = [r for r in rows(made["SECTIONS"]) if r["surface"] == "flown"]
    assert [r["height_min"] for r in found] == pytest.approx([397, 398, 399, 400, 401])
    assert [r["height_on_line"] for r in found] == pytest.approx([400, 401, 402, 403, 404])
    # Net area: 60 wide times the mean height above the ground.
    areas = rows(made["AREAS"])
    assert [r["cut_area"] - r["fill_area"] for r in areas] == pytest.approx([0, 60, 120, 180, 240])
    assert "CUT_EXACT" not in made
    text = page.read_text(encoding="utf-8")
    assert "row or a column of pixel centres" in text and "needs two TINs" in text
    assert QgsRasterLayer(path).isValid()


def test_heights_in_another_unit_than_the_plan(cut, vose):
    """Plan in US survey feet, heights in metres: areas and volumes are in plan units."""
    made = cut(SURFACES=vose, VERTICAL_UNIT="metre")
    assert made["CUT_AVERAGE"] == pytest.approx(56_250 * 3937 / 1200, rel=1e-7)


def test_arcs_are_cut_radially(cut, tmp_path):
    """A half circle of radius 100 about (1100, 2000): sections point at the centre."""
    curve = shapes(
        "CompoundCurve", ["CompoundCurve (CircularString (1000 2000, 1100 2100, 1200 2000))"]
    )
    ground, _ = trench([0, 200], [1, 1], 20, 1.5, (1000, 2000, 400), half=300.0)
    made = cut(LINES=curve, SURFACES=[saved(ground, tmp_path, "ground")], WIDTH="20")
    for row in rows(made["SECTIONS"]):
        left = np.array([row["left_east"] - 1100, row["left_north"] - 2000])
        right = np.array([row["right_east"] - 1100, row["right_north"] - 2000])
        assert np.hypot(*left) == pytest.approx(120, abs=1e-6)
        assert np.hypot(*right) == pytest.approx(80, abs=1e-6)
        assert left[0] * right[1] - left[1] * right[0] == pytest.approx(0, abs=1e-4)


@pytest.mark.parametrize(
    ("more", "sentence"),
    [
        ({"WIDTH": "-3"}, "Width to each side: it must not be negative"),
        ({"WIDTH": "0"}, "a section needs a width on one side"),
        ({"STATION_LIST": "9+00"}, "no line has a station 9\\+00"),
        ({"STATION_LIST": "9+0"}, "is not a station"),
        ({"INTERVAL": "0.001"}, "take a longer one"),
    ],
)
def test_refusals_say_what_to_do(cut, vose, more, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        cut(SURFACES=vose, **more)


def test_a_surface_in_another_crs_is_refused(cut, vose, tmp_path):
    other = saved(trench([0, 200], [1, 1], 20, 1.5)[0], tmp_path, "other", METRES)
    with pytest.raises(QgsProcessingException, match="is never reprojected here"):
        cut(SURFACES=[vose[0], other])


def test_plots_and_report(cut, vose, tmp_path):
    pdf, page = tmp_path / "plots.pdf", tmp_path / "report.html"
    made = cut(SURFACES=vose, SCALE=2.0, PDF=str(pdf), HTML=str(page))
    assert made["PDF"] == str(pdf)
    assert pdf.read_bytes()[:5] == b"%PDF-"
    text = page.read_text(encoding="utf-8")
    assert text.count("<svg") == 5
    text = text.replace("\u202f", " ")
    assert "2 083.3" in text  # 56,250 ft3 in yd3
    assert "1 944.4" in text  # 52,500 ft3
    assert "Heights are drawn 2 times as large as widths" in text
    assert "with a shorter interval the two come together" in text
    assert "<script" not in text


@pytest.mark.skipif(shutil.which("qgis_process") is None, reason="qgis_process is not here")
def test_the_sample_through_qgis_process(tmp_path):
    profile = link_plugin(tmp_path / "profile")
    data = SAMPLE / "pellworth.gpkg"
    words = [
        f"LINES={data}|layername=lane_centreline",
        "INTERVAL=50",
        "WIDTH=30",
        f"SURFACES={SAMPLE / 'pellworth_design.ply'}",
        f"SURFACES={SAMPLE / 'pellworth_design.tif'}",
        f"GUIDELINES={data}|layername=back_of_curb",
        f"ZONES={data}|layername=zones",
        f"SECTIONS={tmp_path / 'sections.gpkg'}",
        f"MARKS={tmp_path / 'marks.gpkg'}",
        f"AREAS={tmp_path / 'areas.gpkg'}",
        f"CSV={tmp_path / 'points.csv'}",
        f"PDF={tmp_path / 'plots.pdf'}",
        f"HTML={tmp_path / 'report.html'}",
    ]
    done = qgis_process(profile, "--json", "run", "undercourse:cross_sections", "--", *words)
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert results["SECTION_COUNT"] == 12
    # The raster of 1 ft is that of the mesh: what lies between is rounding at curbs.
    assert results["CUT_AVERAGE"] < 515 * 60 * 0.02
    source = ogr.Open(str(tmp_path / "marks.gpkg"))
    marks = source.GetLayer(0)
    kinds = {row.GetField("kind") for row in marks}
    assert kinds == {"guideline", "zone_border"}
    curbs = [
        row.GetField("signed_offset")
        for row in marks
        if row.GetField("kind") == "guideline" and row.GetField("station") == "0+50.00"
    ]
    assert sorted(curbs) == pytest.approx([-11.1, 11.1], abs=1e-3)
    assert (tmp_path / "plots.pdf").stat().st_size > 20_000


@pytest.mark.skipif(shutil.which("qgis_process") is None, reason="qgis_process is not here")
def test_a_failed_run_leaves_older_results_alone(tmp_path):
    profile = link_plugin(tmp_path / "profile")
    older = {n: tmp_path / n for n in ("sections.gpkg", "points.csv", "plots.pdf", "report.html")}
    for path in older.values():
        path.write_bytes(b"older result")
    words = [
        f"LINES={SAMPLE / 'pellworth.gpkg'}|layername=lane_centreline",
        f"SURFACES={SAMPLE / 'pellworth_design.ply'}",
        f"SURFACES={SAMPLE / 'missing.ply'}",
        *(
            f"{n}={tmp_path / f}"
            for n, f in zip(("SECTIONS", "CSV", "PDF", "HTML"), older, strict=True)
        ),
    ]
    done = qgis_process(profile, "run", "undercourse:cross_sections", "--", *words)
    assert done.returncode == 1
    assert "missing.ply” cannot be opened" in done.stderr and "Traceback" not in done.stderr
    assert {path.read_bytes() for path in older.values()} == {b"older result"}
