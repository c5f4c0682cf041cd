"""Grades of pixels beside `gdaldem slope` (GDAL's command line, Horn's rule), and of planes."""

import shutil
import subprocess

import numpy as np
import pytest
from osgeo import gdal

from plugin.core.measure.grade_cells import of_grid, of_tin
from plugin.core.tin import Tin

from ..core.grade_shapes import plane

pytestmark = pytest.mark.skipif(
    shutil.which("gdaldem") is None, reason="gdaldem (GDAL's command line) is not installed"
)

NORTH_UP = (500_000.0, 0.5, 0.0, 6_000_000.0, 0.0, -0.5)


def gdaldem(heights, folder, *options):
    source, target = folder / "z.tif", folder / "slope.tif"
    data = gdal.GetDriverByName("GTiff").Create(
        str(source), *heights.shape[::-1], 1, gdal.GDT_Float64
    )
    data.SetGeoTransform(NORTH_UP)
    data.GetRasterBand(1).SetNoDataValue(-9999)
    data.GetRasterBand(1).WriteArray(np.where(np.isnan(heights), -9999, heights))
    data = None
    command = ["gdaldem", "slope", str(source), str(target), "-p", "-q", *options]
    subprocess.run(command, check=True)
    slope = gdal.Open(str(target)).ReadAsArray()
    return np.where(slope == -9999, np.nan, slope)


def ours(heights, transform=NORTH_UP, scale=1.0):
    """Percent by pixel, NaN where there is none."""
    cells = of_grid(heights, transform, None, scale)
    result = np.full(heights.shape, np.nan)
    centres = cells.centres(np.arange(len(cells)))
    column = np.floor((centres[:, 0] - transform[0]) / transform[1]).astype(int)
    row = np.floor((centres[:, 1] - transform[3]) / transform[5]).astype(int)
    result[row, column] = 100 * np.hypot(*cells.gradients.T)
    return result


def exact(heights):
    """Round heights so that their sums stay exact in gdaldem's single precision."""
    assert np.abs(heights).max() < 64
    return np.round(heights * 1024) / 1024


def centres(shape):
    row, column = np.mgrid[0 : shape[0], 0 : shape[1]] + 0.5
    return NORTH_UP[0] + column * NORTH_UP[1], NORTH_UP[3] + row * NORTH_UP[5]


@pytest.mark.parametrize("percent", [100 / 48, 5.0, 100 / 12, 33.3])
def test_a_plane_has_the_grade_it_was_made_with(percent, tmp_path):
    x, y = centres((40, 50))
    heights = (percent / 100) * (0.6 * (x - 500_000) - 0.8 * (y - 6_000_000))
    theirs, mine = gdaldem(heights, tmp_path), ours(heights)
    np.testing.assert_allclose(mine[1:-1, 1:-1], percent, rtol=1e-9)
    # gdaldem reckons in single precision: heights up to 8 are known to 1e-6.
    np.testing.assert_allclose(mine, theirs, atol=5e-4)
    # A TIN of the same plane agrees with both.
    tin = of_tin(plane(percent / 100, 143.13), None)
    np.testing.assert_allclose(100 * np.hypot(*tin.gradients.T), percent, rtol=1e-9)


def test_rough_ground_with_holes(tmp_path):
    rng = np.random.default_rng(5)
    heights = exact(rng.normal(0, 0.2, (80, 90)).cumsum(axis=0).cumsum(axis=1) / 10)
    heights[20:24, 30:41] = np.nan
    heights[60, 10] = np.nan
    theirs, mine = gdaldem(heights, tmp_path), ours(heights)
    assert np.array_equal(np.isnan(theirs), np.isnan(mine))
    assert np.isfinite(mine).sum() > 5000
    np.testing.assert_allclose(mine, theirs, rtol=3e-6)


def test_heights_in_feet_over_metres(tmp_path):
    x, y = centres((12, 12))
    heights = exact(np.sin(x) + np.cos(y / 2))
    theirs = gdaldem(heights, tmp_path, "-s", str(1 / 0.3048))
    np.testing.assert_allclose(ours(heights, scale=0.3048), theirs, rtol=3e-6)


def test_a_turned_raster_has_the_gradient_of_its_ground():
    angle = np.radians(25)
    a, b = 0.5 * np.cos(angle), 0.5 * np.sin(angle)
    transform = (100.0, a, b, 200.0, b, -a)
    row, column = np.mgrid[0:20, 0:30] + 0.5
    x, y = 100 + a * column + b * row, 200 + b * column - a * row
    cells = of_grid(0.03 * x - 0.04 * y, transform, None)
    np.testing.assert_allclose(cells.gradients, np.tile((0.03, -0.04), (18 * 28, 1)), rtol=1e-9)
    np.testing.assert_allclose(cells.areas, 0.25, rtol=1e-12)
    assert isinstance(cells.triangles(np.arange(3))[0], Tin)
