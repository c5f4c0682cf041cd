"""Rasters in windows, checked against GDAL's own reading of whole files."""

import numpy as np
import pytest
from osgeo import gdal, osr
from qgis.core import QgsRasterLayer

from plugin.core.errors import SurfaceError
from plugin.layers.rasters import RasterSource, RasterTarget, small_cache, windows

TRANSFORM = (983_000.0, 0.5, 0.0, 201_000.0, 0.0, -0.5)


def write_raster(path, array, nodata=-9999.0, transform=TRANSFORM, epsg=2263):
    kind = {"f4": gdal.GDT_Float32, "f8": gdal.GDT_Float64, "i2": gdal.GDT_Int16}
    made = gdal.GetDriverByName("GTiff").Create(
        str(path), array.shape[1], array.shape[0], 1, kind[array.dtype.str[1:]]
    )
    made.SetGeoTransform(transform)
    spatial = osr.SpatialReference()
    spatial.ImportFromEPSG(epsg)
    made.SetProjection(spatial.ExportToWkt())
    made.GetRasterBand(1).SetNoDataValue(nodata)
    made.GetRasterBand(1).WriteArray(array)
    made = None
    return path


def names(folder):
    return sorted(file.name for file in folder.iterdir())


@pytest.fixture
def heights():
    array = np.random.default_rng(2).normal(100, 1, (300, 420)).astype("f4")
    array[10:20, 30:40] = -9999.0
    return array


def test_description_and_windows(qgis_app, tmp_path, heights):
    path = write_raster(tmp_path / "design.tif", heights)
    source = RasterSource.from_layer(QgsRasterLayer(str(path), "design"))
    assert (source.width, source.height, source.nodata) == (420, 300, -9999.0)
    assert source.transform == TRANSFORM
    assert source.pixel == (0.5, 0.5)
    assert source.dtype == np.dtype("f4")
    assert source.crs.authid() == "EPSG:2263"
    with source:
        np.testing.assert_array_equal(source.read(30, 5, 17, 40), heights[5:45, 30:47])
        assert source.missing(source.read(0, 0, 420, 300)).sum() == 100


@pytest.mark.parametrize("kind", ["f4", "f8", "i2"])
def test_copy_by_strips_is_the_same_grid(qgis_app, tmp_path, heights, kind):
    array = heights.astype(kind)
    source = RasterSource.from_path(str(write_raster(tmp_path / "a.tif", array)))
    path = tmp_path / "b.tif"
    with small_cache(), source, RasterTarget(path, source) as target:
        for row, count in windows(source.height, 64):
            target.write(0, row, source.read(0, row, source.width, count))
    made = gdal.Open(str(path))
    np.testing.assert_array_equal(made.ReadAsArray(), array)
    assert made.GetGeoTransform() == TRANSFORM
    assert made.GetRasterBand(1).GetNoDataValue() == -9999.0
    assert made.GetRasterBand(1).GetBlockSize() == [256, 256]
    assert made.GetSpatialRef().IsSame(gdal.Open(str(tmp_path / "a.tif")).GetSpatialRef())
    assert made.GetMetadataItem("COMPRESSION", "IMAGE_STRUCTURE") == "DEFLATE"
    assert names(tmp_path) == ["a.tif", "b.tif"]


def test_an_old_file_stays_when_the_run_fails(qgis_app, tmp_path, heights):
    source = RasterSource.from_path(str(write_raster(tmp_path / "a.tif", heights)))
    path = tmp_path / "b.tif"
    path.write_bytes(b"old")
    with pytest.raises(ValueError, match="off edge"), RasterTarget(path, source) as target:
        target.write(0, 290, heights[:64])
    assert path.read_bytes() == b"old"
    assert names(tmp_path) == ["a.tif", "b.tif"]


def test_what_cannot_be_opened_is_one_sentence(qgis_app, tmp_path, heights):
    with pytest.raises(SurfaceError, match=r"“no.tif” cannot be opened"):
        RasterSource.from_path(str(tmp_path / "no.tif"))
    path = write_raster(tmp_path / "a.tif", heights)
    with pytest.raises(SurfaceError, match="has no band 2: it has 1"):
        RasterSource.from_path(str(path), 2)
    source = RasterSource.from_path(str(path))
    with pytest.raises(SurfaceError, match="cannot be written"):
        RasterTarget(tmp_path / "none" / "b.tif", source).__enter__()


def test_a_service_is_refused(qgis_app):
    layer = QgsRasterLayer("type=xyz&url=file:///none/{z}/{x}/{y}.png", "tiles", "wms")
    with pytest.raises(SurfaceError, match=r"“tiles” comes from a service \(wms\)"):
        RasterSource.from_layer(layer)


def test_the_cache_is_as_before_afterwards():
    before = gdal.GetCacheMax()
    with small_cache(32 << 20):
        assert gdal.GetCacheMax() == 32 << 20
    assert gdal.GetCacheMax() == before


def test_strips_cover_every_row_once():
    assert list(windows(10, 4)) == [(0, 4), (4, 4), (8, 2)]
