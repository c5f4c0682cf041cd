"""The raster depth surface as a user runs it, in QGIS and through ``qgis_process``."""

import contextlib
import json
import shutil
import subprocess

import numpy as np
import pytest
import shapely
from osgeo import gdal, osr
from qgis.core import (
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingException,
    QgsVectorLayer,
)

from plugin.layers import raster_strips
from tests.commands import link_plugin, qgis_process

from .raster_cases import (
    COLUMNS,
    FEET,
    LEFT,
    METRES,
    ROWS,
    TOP,
    Log,
    layer_of,
    pixels,
    raster,
    saved,
)

ALGORITHM = "undercourse:depth_raster"


def heights(dtype=np.float32, seed=3):
    return np.random.default_rng(seed).uniform(500, 600, (ROWS, COLUMNS)).astype(dtype)


def box(west, south, east, north):
    """A box in units right of and below the upper left corner of the raster."""
    return shapely.box(LEFT + west, TOP - south, LEFT + east, TOP - north)


def zones(*rows, crs=FEET):
    """A layer of (polygon, depth text, depth number, priority)."""
    fields = "field=depth:string&field=number:double&field=priority:integer"
    return layer_of(fields, *rows, crs=crs)


def two_zones(**how):
    return zones(
        (box(10, 80, 60, 20), "0.2 ft", 0.25, 2),
        (box(60, 80, 130, 20), "2 1/2 in", 1.5, 1),
        **how,
    )


@pytest.fixture
def run(provider, tmp_path):
    import processing

    def call(design, layer, feedback=None, **parameters):
        parameters = {"OUTPUT": str(tmp_path / "depth.tif"), **parameters}
        given = {"DESIGN": design, "ZONES": layer, **parameters}
        return processing.run(ALGORITHM, given, context=QgsProcessingContext(), feedback=feedback)

    return call


def left_behind(folder):
    return sorted(path.name for path in folder.iterdir() if path.name.startswith((".", "depth")))


@pytest.mark.parametrize("dtype", [np.float32, np.float64])
def test_each_zone_is_lowered_by_its_depth(run, tmp_path, dtype):
    z = heights(dtype)
    z[50:60, 40:70] = -9999
    design = raster(tmp_path / "design.tif", z)
    results = run(design, two_zones(), DEPTH_FIELD="depth")
    result = gdal.Open(results["OUTPUT"])
    expected = z.astype(np.float64)
    expected[40:160, 20:120] -= 0.2
    expected[40:160, 120:260] -= 2.5 / 12
    expected = expected.astype(dtype)
    expected[50:60, 40:70] = -9999
    assert result.ReadAsArray().tobytes() == expected.tobytes()
    before = gdal.Open(design)
    assert result.GetGeoTransform() == before.GetGeoTransform()
    assert result.GetSpatialRef().IsSame(before.GetSpatialRef())
    assert result.GetRasterBand(1).GetNoDataValue() == -9999
    assert result.GetRasterBand(1).DataType == before.GetRasterBand(1).DataType
    assert result.GetRasterBand(1).GetBlockSize() == [256, 256]
    lowered = 120 * 240 - 10 * 30
    assert results["PIXEL_COUNT"] == lowered
    assert results["PLAN_AREA"] == lowered * 0.25
    assert results["ZONE_COUNT"] == 2
    assert results["EMPTY_ZONES"] == results["CLASH_COUNT"] == 0
    there = expected[expected != -9999]
    assert results["LOWEST"] == there.min()
    assert results["HIGHEST"] == there.max()


def test_the_file_says_convention_and_unit(run, tmp_path):
    design = raster(tmp_path / "design.tif", heights())
    log = Log()
    result = gdal.Open(run(design, two_zones(), log, DEPTH_FIELD="depth")["OUTPUT"])
    notes = result.GetMetadata()
    assert notes["DEPTH_CONVENTION"].startswith("positive is below the design")
    assert notes["DEPTHS"] == "0.200 usft (2.4 in); 0.208 usft (2.5 in)"
    assert notes["VERTICAL_UNIT"] == "US survey foot"
    assert notes["OUTSIDE_ZONES"] == "the design"
    assert result.GetRasterBand(1).GetUnitType() == "US survey foot"
    assert result.GetRasterBand(1).GetDescription()
    assert any("0.200 usft (2.4 in), 12000 pixels" in line for line in log.told)
    assert log.warnings == []


@pytest.mark.parametrize("burn", ["Float32", "Float64"])
@pytest.mark.parametrize("pixel", [0.5, 0.3])
def test_the_plain_case_is_that_of_the_gdal_tools(run, tmp_path, burn, pixel):
    """Reference: gdal_rasterize and gdal_calc, bit for bit (depths that both types hold)."""
    rng = np.random.default_rng(11)
    z = heights()
    z[rng.random(z.shape) < 0.05] = -9999
    design = raster(tmp_path / "design.tif", z, pixel=pixel)
    shapes, taken = [], shapely.Polygon()
    for _ in range(12):
        turn = np.sort(rng.uniform(0, 2 * np.pi, 25))
        middle = (LEFT + rng.uniform(0, 300 * pixel), TOP - rng.uniform(0, 200 * pixel))
        ring = np.column_stack([np.cos(turn), np.sin(turn)]) * rng.uniform(5, 25, (25, 1)) * pixel
        shape = shapely.make_valid(shapely.Polygon(ring * 2 + middle)).difference(taken)
        taken = taken.union(shape.buffer(0.01))
        shapes.append(shape)
    # Depths with few binary digits, so that float32 holds them: the tools round them first.
    depths = (rng.integers(-32, 96, len(shapes)) / 32).tolist()
    layer = zones(
        *((part, "", depth, 0) for shape, depth in zip(shapes, depths, strict=True)
          for part in shapely.get_parts(shape) if part.geom_type == "Polygon")
    )  # fmt: skip
    source = saved(layer, tmp_path / "zones.gpkg")
    results = run(design, source, DEPTH_FIELD="number")
    grid = gdal.Open(design)
    left, width, _, top, _, height = grid.GetGeoTransform()
    extent = (left, top + height * grid.RasterYSize, left + width * grid.RasterXSize, top)
    # Newer releases of the tool call their background of 0 missing, unless told otherwise.
    burnt, calculated = tmp_path / "burnt.tif", tmp_path / "calculated.tif"
    subprocess.run(
        ["gdal_rasterize", "-q", "-a", "number", "-init", "0", "-a_nodata", "-1e9", "-ot", burn,
         "-te", *map(str, extent), "-ts", str(grid.RasterXSize), str(grid.RasterYSize), source, str(burnt)],
        check=True,
    )  # fmt: skip
    subprocess.run(
        ["gdal_calc.py", "--quiet", "-A", design, "-B", str(burnt), "--calc", "A-B",
         "--type", "Float32", "--NoDataValue=-9999", "--outfile", str(calculated)],
        check=True,
    )  # fmt: skip
    result = pixels(results["OUTPUT"])
    assert result.tobytes() == pixels(calculated).tobytes()
    assert (result != z).mean() > 0.1


@pytest.mark.parametrize(
    "options",
    [
        (),
        ("BLOCKYSIZE=1",),
        ("BLOCKYSIZE=200",),
        ("TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=64"),
        ("TILED=YES", "BLOCKXSIZE=256", "BLOCKYSIZE=16", "COMPRESS=DEFLATE"),
    ],
)
def test_tiles_and_strips_do_not_matter(run, tmp_path, options, monkeypatch):
    z = heights()
    layer = zones((shapely.Point(LEFT + 70, TOP - 40).buffer(37.3), "", 0.7, 0))
    first = run(raster(tmp_path / "a.tif", z), layer, DEPTH_FIELD="number")
    expected = pixels(first["OUTPUT"])
    monkeypatch.setattr(raster_strips, "_STRIP_BYTES", 30_000)
    other = run(
        raster(tmp_path / "b.tif", z, options=options),
        layer,
        DEPTH_FIELD="number",
        OUTPUT=str(tmp_path / "depth_b.tif"),
    )
    assert pixels(other["OUTPUT"]).tobytes() == expected.tobytes()
    assert {**other, "OUTPUT": 0} == {**first, "OUTPUT": 0}


def test_a_raster_whose_rows_run_up(run, tmp_path):
    z = heights()
    up = (LEFT, 0.5, 0, TOP - 100, 0, 0.5)
    design = raster(tmp_path / "up.tif", z[::-1].copy(), transform=up)
    turned = pixels(run(design, two_zones(), DEPTH_FIELD="number")["OUTPUT"])
    down = run(
        raster(tmp_path / "down.tif", z),
        two_zones(),
        DEPTH_FIELD="number",
        OUTPUT=str(tmp_path / "depth_2.tif"),
    )
    assert np.array_equal(turned[::-1], pixels(down["OUTPUT"]))


def test_not_a_number_as_nodata(run, tmp_path):
    z = heights()
    z[100:120] = np.nan
    results = run(raster(tmp_path / "d.tif", z, nodata=np.nan), two_zones(), DEPTH_FIELD="number")
    result = gdal.Open(results["OUTPUT"])
    assert np.isnan(result.GetRasterBand(1).GetNoDataValue())
    assert np.array_equal(np.isnan(result.ReadAsArray()), np.isnan(z))
    assert results["PIXEL_COUNT"] == 100 * 240


@pytest.mark.parametrize(("given", "made"), [(np.int16, "Float32"), (np.int32, "Float64")])
def test_whole_numbers_become_floats(run, tmp_path, given, made):
    z = heights().astype(given)
    z[45, 30] = -1
    design = raster(tmp_path / "d.tif", z, nodata=-1)
    result = gdal.Open(run(design, two_zones(), DEPTH_FIELD="number")["OUTPUT"])
    assert gdal.GetDataTypeName(result.GetRasterBand(1).DataType) == made
    low = result.ReadAsArray()
    assert low[45, 30] == -1
    assert low[45, 31] == z[45, 31] - 0.25
    assert low[0, 0] == z[0, 0]


@pytest.mark.parametrize(
    ("word", "outside", "note"),
    [
        ("keep", lambda z: z, "the design"),
        ("leave_out", lambda z: np.full_like(z, -9999), "nodata"),
        ("use_depth", lambda z: z - np.float32(0.5), "0.500 usft (6.0 in)"),
    ],
)
def test_outside_all_zones(run, tmp_path, word, outside, note):
    z = heights()
    design = raster(tmp_path / "d.tif", z, nodata=None)
    results = run(design, two_zones(), DEPTH_FIELD="number", DEPTH="6 in", OUTSIDE=word)
    result = gdal.Open(results["OUTPUT"])
    low = result.ReadAsArray()
    expected = outside(z)
    expected[40:160, 20:120] = z[40:160, 20:120] - np.float32(0.25)
    expected[40:160, 120:260] = z[40:160, 120:260] - np.float32(1.5)
    assert np.array_equal(low, expected)
    assert result.GetMetadata()["OUTSIDE_ZONES"] == note
    nodata = result.GetRasterBand(1).GetNoDataValue()
    assert nodata == (-9999 if word == "leave_out" else None)
    assert results["PIXEL_COUNT"] == (60000 if word == "use_depth" else 120 * 240)


@pytest.mark.parametrize(
    ("crs", "unit", "depth"),
    [
        (FEET, "same", 0.2),
        (FEET, "metre", 0.2 * 1200 / 3937),
        (METRES, "same", 0.06096),
        (METRES, "us_survey_foot", 0.2),
    ],
)
def test_a_depth_with_its_unit_means_the_same_in_every_job(run, tmp_path, crs, unit, depth):
    z = heights(np.float64)
    layer = zones((box(0, 100, 150, 0), "2.4 in", 0.0, 0), crs=crs)
    design = raster(tmp_path / "d.tif", z, crs=crs)
    low = pixels(run(design, layer, DEPTH_FIELD="depth", VERTICAL_UNIT=unit)["OUTPUT"])
    assert np.allclose(z - low, depth, rtol=3e-6, atol=0)


def test_blank_depths_get_the_one_for_all_and_are_told(run, tmp_path):
    z = heights()
    layer = zones((box(0, 100, 75, 0), "1 ft", 0, 0), (box(75, 100, 150, 0), None, 0, 0))
    log = Log()
    results = run(raster(tmp_path / "d.tif", z), layer, log, DEPTH_FIELD="depth", DEPTH="-3")
    low = pixels(results["OUTPUT"])
    assert np.array_equal(low[:, :150], z[:, :150] - np.float32(1))
    assert np.array_equal(low[:, 150:], z[:, 150:] + np.float32(3))
    assert any("1 zones have no depth in their field" in line for line in log.warnings)


def test_overlaps_stop_the_run_or_the_priority_settles_them(run, tmp_path):
    z = heights()
    design = raster(tmp_path / "d.tif", z)
    layer = zones((box(0, 100, 80, 0), "", 1.0, 2), (box(40, 100, 150, 0), "", 2.0, 1))
    with pytest.raises(QgsProcessingException, match="Zones 1 and 2 overlap"):
        run(design, layer, DEPTH_FIELD="number")
    assert left_behind(tmp_path) == []
    low = pixels(run(design, layer, DEPTH_FIELD="number", PRIORITY_FIELD="priority")["OUTPUT"])
    assert np.array_equal(low[:, :80], z[:, :80] - np.float32(1))
    assert np.array_equal(low[:, 80:], z[:, 80:] - np.float32(2))


def test_zones_in_another_crs_are_moved(run, tmp_path):
    from qgis.core import QgsCoordinateReferenceSystem, QgsCoordinateTransform, QgsProject

    z = heights()
    design = raster(tmp_path / "d.tif", z)
    here = two_zones()
    there = QgsCoordinateReferenceSystem("EPSG:4269")
    move = QgsCoordinateTransform(here.crs(), there, QgsProject.instance())
    layer = QgsVectorLayer("Polygon?crs=EPSG:4269&field=number:double", "zones", "memory")
    features = []
    for feature in here.getFeatures():
        moved = QgsFeature(layer.fields())
        shape = QgsGeometry(feature.geometry())
        shape.transform(move)
        moved.setGeometry(shape)
        moved.setAttributes([feature["number"]])
        features.append(moved)
    layer.dataProvider().addFeatures(features)
    low = pixels(run(design, layer, DEPTH_FIELD="number")["OUTPUT"])
    straight = run(design, here, DEPTH_FIELD="number", OUTPUT=str(tmp_path / "depth_2.tif"))
    # All borders run between pixel centres, 0.25 ft away: a transform back and forth is finer.
    assert np.array_equal(low, pixels(straight["OUTPUT"]))


def test_what_may_be_wrong_is_said(run, tmp_path):
    z = heights()
    z[0, 0] = 20.0
    design = raster(tmp_path / "d.tif", z, nodata=19.0)
    layer = zones(
        (box(-5, 10, 10, -5), "", 1.0, 0),  # reaches beyond the raster
        (box(50.3, 50.7, 50.7, 50.3), "", 1.0, 0),  # between four centres
        (box(500, 60, 600, 50), "", 1.0, 0),  # far outside
    )
    log = Log()
    results = run(design, layer, log, DEPTH_FIELD="number")
    assert results["EMPTY_ZONES"] == 2
    assert results["CLASH_COUNT"] == 1
    told = "\n".join(log.warnings)
    assert "2 zones reach beyond the design, where there is no result: 1, 3." in told
    assert "2 zones hold the centre of no pixel with data and changed nothing: 2, 3." in told
    assert f"the first at {LEFT + 0.25:.3f}, {TOP - 0.25:.3f}" in told


def rotated(folder):
    return raster(folder / "d.tif", heights(), transform=(LEFT, 0.5, 0.01, TOP, 0.01, -0.5))


def scaled(folder):
    path = raster(folder / "d.tif", heights())
    dataset = gdal.Open(path, gdal.GA_Update)
    dataset.GetRasterBand(1).SetScale(0.01)
    dataset = None
    return path


def masked(folder):
    path = raster(folder / "d.tif", heights(), nodata=None)
    dataset = gdal.Open(path, gdal.GA_Update)
    dataset.CreateMaskBand(gdal.GMF_PER_DATASET)
    dataset = None
    return path


def geographic(folder):
    return raster(folder / "d.tif", heights(), crs="EPSG:4269")


def without_crs(folder):
    return raster(folder / "d.tif", heights(), crs=None)


@pytest.mark.parametrize(
    ("make", "part"),
    [
        (rotated, "“d” is rotated"),
        (scaled, "“d” stores its heights scaled"),
        (masked, "“d” marks missing pixels by a mask"),
        (geographic, "is not a projected CRS"),
        (without_crs, "has no coordinate reference system"),
    ],
)
def test_unfit_designs_are_refused_and_older_results_left_alone(run, tmp_path, make, part):
    older = raster(tmp_path / "depth.tif", heights(seed=9))
    before = pixels(older)
    with pytest.raises(QgsProcessingException, match=part):
        run(make(tmp_path), two_zones(), DEPTH_FIELD="number")
    assert np.array_equal(pixels(older), before)
    assert left_behind(tmp_path) == ["depth.tif"]


def test_with_nothing_chosen_a_field_called_depth_is_used(run, tmp_path):
    design = raster(tmp_path / "d.tif", heights())
    chosen = pixels(run(design, two_zones(), DEPTH_FIELD="depth")["OUTPUT"])
    assert np.array_equal(pixels(run(design, two_zones())["OUTPUT"]), chosen)
    layer = two_zones()
    assert layer.dataProvider().deleteAttributes([layer.fields().lookupField("depth")])
    layer.updateFields()
    with pytest.raises(QgsProcessingException, match="There is no depth: choose the field"):
        run(design, layer)


@pytest.mark.parametrize(
    ("parameters", "part"),
    [
        ({"DEPTH_FIELD": "number", "OUTSIDE": "use_depth"}, "the depth for all is to be used"),
        ({"DEPTH": "two"}, "cannot be read as a length"),
        ({"DEPTH": "1", "OUTSIDE": "fill"}, "“fill” is not one of: keep, leave_out, use_depth"),
        ({"DEPTH": "1", "OUTPUT": "depth.png"}, "the result is a GeoTIFF"),
        ({"DEPTH": "1", "OUTPUT": "missing/depth.tif"}, "check that its folder exists"),
        ({"DEPTH": "1", "OUTPUT": "d.tif"}, "is the design itself"),
        ({"DEPTH": "1", "OPTIONS": "COMPRESS=NONSENSE"}, "NONSENSE do not fit"),
        ({"DEPTH": "1", "OPTIONS": "NONSENSE"}, "NONSENSE do not fit"),
    ],
)
def test_unfit_parameters_are_refused_in_a_sentence(run, tmp_path, parameters, part):
    z = heights()
    design = raster(tmp_path / "d.tif", z)
    if "OUTPUT" in parameters:
        parameters = {**parameters, "OUTPUT": str(tmp_path / parameters["OUTPUT"])}
    with pytest.raises(QgsProcessingException, match=part):
        run(design, two_zones(), **parameters)
    assert np.array_equal(pixels(design), z)
    assert left_behind(tmp_path) == []


@pytest.mark.parametrize(
    ("value", "part"),
    [
        ("some", "Zone 2, field “depth”: 'some' cannot be read as a length"),
        (None, "Zone 2 has no depth"),
    ],
)
def test_a_zone_without_a_usable_depth_is_named(run, tmp_path, value, part):
    layer = zones((box(0, 10, 10, 0), "1 ft", 0, 0), (box(20, 10, 30, 0), value, 0, 0))
    with pytest.raises(QgsProcessingException, match=part):
        run(raster(tmp_path / "d.tif", heights()), layer, DEPTH_FIELD="depth")


def test_a_vector_design_is_sent_to_the_other_tool(run, tmp_path):
    layer = QgsVectorLayer(f"PolygonZ?crs={FEET}", "faces", "memory")
    with pytest.raises(QgsProcessingException, match="take “Depth surface"):
        run(layer, two_zones(), DEPTH="1")


def test_cancel_leaves_nothing(run, tmp_path, monkeypatch):
    monkeypatch.setattr(raster_strips, "_STRIP_BYTES", 30_000)
    log = Log(cancel_at=30)
    design = raster(tmp_path / "d.tif", heights())
    with contextlib.suppress(QgsProcessingException):  # whether it raises is QGIS's affair
        run(design, two_zones(), log, DEPTH="1")
    assert log.isCanceled()
    assert left_behind(tmp_path) == []


def test_a_broken_design_leaves_nothing(run, tmp_path):
    options = ("COMPRESS=DEFLATE", "TILED=YES", "BLOCKXSIZE=64", "BLOCKYSIZE=64")
    path = raster(tmp_path / "d.tif", heights(), options=options)
    blob = (tmp_path / "d.tif").read_bytes()
    (tmp_path / "d.tif").write_bytes(blob[: len(blob) // 2])
    with pytest.raises(QgsProcessingException, match=r"depth.tif” could not be made"):
        run(path, two_zones(), DEPTH="1")
    assert left_behind(tmp_path) == []


def test_statistics_of_an_older_file_do_not_outlive_it(run, tmp_path):
    older = raster(tmp_path / "depth.tif", heights(seed=9))
    gdal.Info(older, stats=True)
    (tmp_path / "depth.tif.aux.xml").write_text("<PAMDataset></PAMDataset>")
    run(raster(tmp_path / "d.tif", heights()), two_zones(), DEPTH="1")
    assert left_behind(tmp_path) == ["depth.tif"]


def test_creation_options_are_used(run, tmp_path):
    options = "COMPRESS=ZSTD|TILED=YES|BLOCKXSIZE=128|BLOCKYSIZE=128"
    design = raster(tmp_path / "d.tif", heights())
    result = gdal.Open(run(design, two_zones(), DEPTH="1", OPTIONS=options)["OUTPUT"])
    assert result.GetMetadata("IMAGE_STRUCTURE")["COMPRESSION"] == "ZSTD"
    assert result.GetRasterBand(1).GetBlockSize() == [128, 128]


@pytest.mark.skipif(shutil.which("qgis_process") is None, reason="qgis_process is not here")
def test_on_open_data_through_qgis_process(tmp_path):
    """A DEM of 344 x 403 from matplotlib's sample data (jacksboro_fault_dem.npz)."""
    cbook = pytest.importorskip("matplotlib.cbook")
    with np.load(cbook.get_sample_data("jacksboro_fault_dem.npz", asfileobj=False)) as dem:
        z = np.ascontiguousarray(dem["elevation"])
    design = raster(tmp_path / "dem.tif", z.astype(np.int16), nodata=-32768, pixel=30.0)
    lake = shapely.Point(LEFT + 5000, TOP - 5000).buffer(3000)
    source = saved(zones((lake, "60 mm", 0.0, 0), crs=METRES), tmp_path / "zones.gpkg")
    gdal.Open(design, gdal.GA_Update).SetProjection(metres())
    profile = link_plugin(tmp_path / "profile")
    done = qgis_process(
        profile, "--json", "run", ALGORITHM, "--", f"DESIGN={design}", f"ZONES={source}",
        "DEPTH_FIELD=depth", f"OUTPUT={tmp_path / 'depth.tif'}",
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    low = pixels(tmp_path / "depth.tif")
    column, row = np.meshgrid(np.arange(z.shape[1]), np.arange(z.shape[0]))
    centre = shapely.points(LEFT + 30 * (column + 0.5), TOP - 30 * (row + 0.5))
    inside = shapely.contains(lake, centre)
    assert results["PIXEL_COUNT"] == inside.sum()
    assert results["PLAN_AREA"] == pytest.approx(lake.area, rel=5e-3)
    assert np.array_equal(low, np.where(inside, z - 0.06, z).astype(np.float32))


def metres():
    spatial = osr.SpatialReference()
    spatial.SetFromUserInput(METRES)
    return spatial.ExportToWkt()
