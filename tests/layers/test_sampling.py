"""Heights at points of rasters and TINs."""

import numpy as np
import pytest
from osgeo import gdal, osr

from plugin.core.tin import Tin
from plugin.layers.rasters import RasterSource
from plugin.layers.sampling import raster_heights, sampler


def raster(path, values, nodata=None, transform=(1000.0, 2.0, 0.0, 5000.0, 0.0, -2.0)):
    rows, columns = values.shape
    made = gdal.GetDriverByName("GTiff").Create(str(path), columns, rows, 1, gdal.GDT_Float64)
    made.SetGeoTransform(transform)
    reference = osr.SpatialReference()
    reference.ImportFromEPSG(3875)
    made.SetProjection(reference.ExportToWkt())
    if nodata is not None:
        made.GetRasterBand(1).SetNoDataValue(nodata)
    made.GetRasterBand(1).WriteArray(values)
    made.FlushCache()
    return RasterSource.from_path(str(path))


def centres(transform, shape):
    column, row = np.meshgrid(np.arange(shape[1]) + 0.5, np.arange(shape[0]) + 0.5)
    x = transform[0] + column * transform[1] + row * transform[2]
    y = transform[3] + column * transform[4] + row * transform[5]
    return x, y


@pytest.mark.parametrize(
    "transform", [(1000.0, 2.0, 0.0, 5000.0, 0.0, -2.0), (0.0, 1.6, 1.2, 0.0, 1.2, -1.6)]
)
def test_a_plane_is_found_again_between_pixel_centres(tmp_path, transform):
    """Bilinear interpolation is exact on planes, also across the windows that are read."""
    x, y = centres(transform, (700, 600))
    source = raster(tmp_path / "plane.tif", 3 + 0.01 * x - 0.02 * y, None, transform)
    rng = np.random.default_rng(1)
    pixel = rng.uniform(0.5, 599.5, 400), rng.uniform(0.5, 699.5, 400)
    px = transform[0] + pixel[0] * transform[1] + pixel[1] * transform[2]
    py = transform[3] + pixel[0] * transform[4] + pixel[1] * transform[5]
    z = raster_heights(source, np.column_stack([px, py]))
    assert np.abs(z - (3 + 0.01 * px - 0.02 * py)).max() < 1e-9


def test_nothing_is_filled_outside_and_beside_missing_pixels(tmp_path):
    values = np.arange(12.0).reshape(3, 4)
    values[1, 1] = -9999
    source = raster(tmp_path / "hole.tif", values, -9999)
    points = np.array(
        [
            (999.0, 4999.0),  # outside
            (1003.5, 4997.5),  # a missing pixel counts
            (1001.0, 4999.0),  # the centre of the first pixel
            (1000.1, 4999.9),  # outer half of it
            (1005.0, 4999.0),  # centre of the third pixel: the missing one below has no weight
            (1008.0, 4994.0),  # the far corner
        ]
    )
    z = raster_heights(source, points)
    assert np.isnan(z[:2]).all()
    assert z[2:].tolist() == [0.0, 0.0, 2.0, 11.0]


def test_both_kinds_of_surface_give_a_sampler(tmp_path):
    source = raster(tmp_path / "flat.tif", np.full((5, 5), 7.0))
    assert sampler(source)(np.array([(1004.0, 4996.0), (0.0, 0.0)]))[0] == 7
    tin = Tin.from_arrays(np.array([(0, 0, 1), (9, 0, 1), (0, 9, 10.0)]), np.array([(0, 1, 2)]))
    z = sampler(tin)(np.array([(1.0, 2.0), (50.0, 0.0)]))
    assert z[0] == pytest.approx(3) and np.isnan(z[1])
