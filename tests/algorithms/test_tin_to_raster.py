"""A TIN on a raster as a user runs it, in QGIS and through ``qgis_process``."""

import json

import numpy as np
import pytest
from osgeo import gdal
from qgis.core import QgsCoordinateReferenceSystem, QgsProcessingException, QgsRectangle

from plugin.layers.meshes import write_ply
from tests.commands import link_plugin, qgis_process

ALGORITHM = "undercourse:tin_to_raster"
FEET = "EPSG:2264"
LEFT, BOTTOM = 1_500_000.0, 600_000.0


def plane(x, y):
    return 500 + 0.3 * (x - LEFT) - 0.7 * (y - BOTTOM)


@pytest.fixture
def design(tmp_path):
    """A plane 20 x 10 with a corner cut off."""
    plan = np.array([(0, 0), (20, 0), (20, 10), (5, 10), (0, 6.0)]) + np.array([LEFT, BOTTOM])
    vertices = np.column_stack([plan, plane(*plan.T)])
    path = tmp_path / "design.ply"
    faces = np.array([(0, 1, 2), (0, 2, 3), (0, 3, 4)])
    write_ply(path, (vertices, faces), QgsCoordinateReferenceSystem(FEET))
    return str(path)


def run(qgis_processing, **parameters):
    import processing

    return processing.run(ALGORITHM, parameters)


def opened(path):
    dataset = gdal.Open(path)
    band = dataset.GetRasterBand(1)
    return dataset, band, band.ReadAsArray()


def test_plane_at_pixel_centres_rounded_once(provider, qgis_processing, design, tmp_path):
    path = str(tmp_path / "o.tif")
    result = run(qgis_processing, DESIGN=design, PIXEL="0.5", OUTPUT=path)
    dataset, band, z = opened(path)
    assert dataset.GetGeoTransform() == (LEFT, 0.5, 0, BOTTOM + 10, 0, -0.5)
    assert z.dtype == np.float32 and z.shape == (20, 40)
    x, y = LEFT + 0.25 + 0.5 * np.arange(40), BOTTOM + 9.75 - 0.5 * np.arange(20)
    truth = plane(x[None, :], y[:, None])
    missing = z == band.GetNoDataValue()
    # The cut-off corner: beyond the line from (0, 6) to (5, 10).
    beyond = (y[:, None] - BOTTOM) - 6 > 0.8 * (x[None, :] - LEFT)
    assert np.array_equal(missing, beyond)
    assert np.abs(z - truth)[~missing].max() <= np.spacing(np.float32(512)) / 2
    assert result["PIXEL_COUNT"] == (~missing).sum()
    assert result["COVERED_AREA"] == (~missing).sum() / 4
    assert result["LOWEST"] == pytest.approx(truth[~missing].min(), abs=1e-9)
    assert (result["COLUMNS"], result["ROWS"]) == (40, 20)
    notes = dataset.GetMetadata()
    assert notes["VERTICAL_UNIT"] == "US survey foot" and "centre" in notes["PIXEL_RULE"]
    assert band.GetUnitType() == "US survey foot" and band.GetBlockSize() == [256, 256]


def test_float64_pixel_with_a_unit_and_extent_snapped_outward(
    provider, qgis_processing, design, tmp_path
):
    path = str(tmp_path / "o.tif")
    asked = QgsRectangle(LEFT + 2.1, BOTTOM + 1.1, LEFT + 5.9, BOTTOM + 3.9)
    run(qgis_processing, DESIGN=design, PIXEL="6 in", EXTENT=asked, TYPE="float64", OUTPUT=path)
    dataset, _, z = opened(path)
    left, pixel, _, top, _, down = dataset.GetGeoTransform()
    # The inch of a job in US survey feet is the survey one: 6 in is half a foot to the last digit.
    assert pixel == -down == 0.5
    assert (left, top) == (LEFT + 2, BOTTOM + 4)
    assert z.dtype == np.float64 and z.shape == (6, 8)
    x, y = left + pixel * (np.arange(8) + 0.5), top + down * (np.arange(6) + 0.5)
    np.testing.assert_allclose(z, plane(x[None], y[:, None]), rtol=0, atol=1e-9 * 20)


def test_grid_of_a_template_to_the_last_digit(provider, qgis_processing, design, tmp_path):
    place = (LEFT - 0.123456789, 0.7, 0, BOTTOM + 9.87654321, 0, -0.3)
    template = gdal.GetDriverByName("GTiff").Create(str(tmp_path / "t.tif"), 13, 17)
    template.SetGeoTransform(place)
    template.SetProjection(QgsCoordinateReferenceSystem(FEET).toWkt())
    template = None
    path = str(tmp_path / "o.tif")
    given = {"DESIGN": design, "TEMPLATE": str(tmp_path / "t.tif"), "OUTPUT": path}
    run(qgis_processing, **given)
    dataset, _, z = opened(path)
    assert dataset.GetGeoTransform() == place and z.shape == (17, 13)
    asked = QgsRectangle(LEFT + 2.1, BOTTOM + 1.1, LEFT + 5.9, BOTTOM + 3.9)
    run(qgis_processing, EXTENT=asked, **given)
    left, pixel, _, top, _, down = gdal.Open(path).GetGeoTransform()
    assert (pixel, down) == (0.7, -0.3)
    assert (left - place[0]) / 0.7 == pytest.approx(3, abs=1e-6)
    assert (top - place[3]) / 0.3 == pytest.approx(-19, abs=1e-6)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({}, "Give the pixel size, or a template raster"),
        ({"PIXEL": "0"}, "greater than zero"),
        ({"PIXEL": "-1 ft"}, "greater than zero"),
        ({"PIXEL": "1e-6"}, "larger pixel size"),
        ({"PIXEL": "three"}, "three"),
        ({"PIXEL": "1", "EXTENT": "0,10,0,10 [EPSG:2264]"}, "would not touch the surface"),
    ],
)
def test_refusals_leave_an_old_result_alone(
    provider, qgis_processing, design, tmp_path, given, said
):
    path = tmp_path / "o.tif"
    path.write_bytes(b"an old result")
    with pytest.raises(QgsProcessingException, match=said):
        run(qgis_processing, DESIGN=design, OUTPUT=str(path), **given)
    assert path.read_bytes() == b"an old result"


def test_a_template_beside_a_pixel_size_or_rotated_or_elsewhere(
    provider, qgis_processing, design, tmp_path
):
    made = str(tmp_path / "t.tif")
    run(qgis_processing, DESIGN=design, PIXEL="1", OUTPUT=made)
    given = {"DESIGN": design, "TEMPLATE": made}
    with pytest.raises(QgsProcessingException, match="both given"):
        run(qgis_processing, PIXEL="1", OUTPUT=str(tmp_path / "o.tif"), **given)
    with pytest.raises(QgsProcessingException, match="template itself"):
        run(qgis_processing, OUTPUT=made, **given)
    gdal.Open(made, gdal.GA_Update).SetGeoTransform((LEFT, 1, 0.1, BOTTOM + 10, 0, -1))
    with pytest.raises(QgsProcessingException, match="is rotated"):
        run(qgis_processing, OUTPUT=str(tmp_path / "o.tif"), **given)
    gdal.Open(made, gdal.GA_Update).SetProjection(QgsCoordinateReferenceSystem("EPSG:3875").toWkt())
    with pytest.raises(QgsProcessingException, match="never reprojected"):
        run(qgis_processing, OUTPUT=str(tmp_path / "o.tif"), **given)


def test_through_qgis_process(design, tmp_path):
    profile = link_plugin(tmp_path)
    path = str(tmp_path / "o.tif")
    done = qgis_process(
        profile, "run", ALGORITHM, "--json", "--", f"DESIGN={design}", "PIXEL=1", f"OUTPUT={path}"
    )
    assert done.returncode == 0, done.stderr
    assert json.loads(done.stdout)["results"]["PIXEL_COUNT"] == (opened(path)[2] > 0).sum() == 190
