"""Thickness square to the slope on a grid, and a design carried on where it has no data."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.grid.slope import gradient_at, secants

from .grid_shapes import NODATA, centres, dug, grid_at, lowered, manner_of

ALL = shapely.box(0, 0, 9000, 9000)

RIPRAP = [
    (350, 783, 631),
    (450, 1006, 811),
    (550, 1230, 992),
    (700, 1566, 1262),
    (1000, 2236, 1803),
    (1200, 2684, 2163),
    (1500, 3355, 2704),
    (2000, 4473, 3606),
    (2500, 5591, 4507),
]
"""Thickness in mm, and the width along the level at 2H:1V and 1.5H:1V that is printed beside it:
a road agency's riprap installation guide, table 1 (scribd 560492703)."""


@pytest.mark.parametrize(("thick", "at_two", "at_one_and_a_half"), RIPRAP)
def test_the_riprap_table(thick, at_two, at_one_and_a_half):
    grid = grid_at((20, 30))
    x, _ = centres(grid)
    for ratio, width in ((2.0, at_two), (1.5, at_one_and_a_half)):
        z = 100 + (x - 1000) / ratio
        low, _ = lowered(dug((ALL, 0.0, 0.0), squares=[thick / 1000]), grid, z)
        plumb = 1000 * (z - low)
        assert np.abs(plumb * ratio - width).max() < 1.0
        assert np.allclose(plumb, thick * np.hypot(1, 1 / ratio), rtol=1e-12)


@given(
    st.floats(-2, 2),
    st.floats(-2, 2),
    st.sampled_from([(0.5, -0.5), (0.5, 0.25), (0.3, -0.8)]),
    st.sampled_from([1.0, 0.3048, 3937 / 1200]),
)
@settings(max_examples=40, deadline=None)
def test_a_plane_is_met_exactly_to_its_edges(east, north, pixel, z_scale):
    grid = grid_at((12, 15), pixel)
    x, y = centres(grid)
    z = 50 + east * (x - 1000) + north * (y - 2000)
    z[3:5, 6:8] = NODATA
    z[:, -1] = NODATA
    low, _ = lowered(dug((ALL, 0.1, 0.0), squares=[0.7]), grid, z, manner_of(z_scale=z_scale))
    there = z != NODATA
    expected = 0.1 + 0.7 * np.sqrt(1 + z_scale**2 * (east**2 + north**2))
    assert np.abs((z - low)[there] - expected).max() < 1e-9
    assert (low[~there] == NODATA).all()


def test_across_a_break_the_slope_is_the_mean_of_both_sides():
    """By hand, Horn's weights: a pixel in the bottom of a V with sides g has the slope 0."""
    grid = grid_at((9, 21), (1.0, -1.0))
    x, _ = centres(grid)
    z = 50 + 0.5 * np.abs(x - 1010.5)
    low, _ = lowered(dug((ALL, 0.0, 0.0), squares=[1.0]), grid, z)
    plumb = (z - low)[4]
    assert plumb[10] == 1.0
    assert np.allclose(np.delete(plumb, 10), np.sqrt(1.25), rtol=1e-12)


def test_horn_is_that_of_gdal(tmp_path):
    """Reference: gdaldem slope (Horn), on the fault of matplotlib's sample data or a random one."""
    from osgeo import gdal

    gdal.UseExceptions()
    z = np.random.default_rng(4).normal(0, 5, (40, 50)).cumsum(axis=0).astype(np.float32)
    path = str(tmp_path / "z.tif")
    made = gdal.GetDriverByName("GTiff").Create(path, 50, 40, 1, gdal.GDT_Float32)
    made.SetGeoTransform((0, 3.0, 0, 0, 0, -2.0))
    made.GetRasterBand(1).WriteArray(z)
    made = None
    percent = gdal.DEMProcessing(
        "", path, "slope", format="MEM", slopeFormat="percent", alg="Horn"
    ).ReadAsArray()
    ours = secants(z, None, (3.0, -2.0), 1.0)
    theirs = np.sqrt(1 + (percent / 100) ** 2)
    assert np.allclose(ours[1:-1, 1:-1], theirs[1:-1, 1:-1], rtol=1e-5)


def test_a_pixel_alone_is_level():
    x, y = gradient_at(np.array([[7.0]]), None, np.array([0]), np.array([0]), (1.0, -1.0))
    assert (x[0], y[0]) == (0.0, 0.0)


@pytest.mark.parametrize("rule", ["level", "design"])
def test_a_plane_is_carried_on_exactly(rule):
    grid = grid_at((120, 150))
    x, y = centres(grid)
    full = 50 + 0.3 * (x - 1030) - 0.2 * (y - 1970)
    z = full.copy()
    z[:, 90:] = NODATA
    z[40:46, 60:70] = NODATA
    pit = shapely.box(1020.13, 1955.27, 1052.13, 1985.27)
    zones = dug((pit, 2.0, 1.5), squares=[0.2])
    expected, tally = lowered(zones, grid, full, manner_of(rule))
    low, got = lowered(zones, grid, z, manner_of(rule), carry=40)
    there = low != NODATA
    assert np.abs(low - expected)[there].max() < 1e-9
    # What is carried on is kept in pits and on their sides, and nowhere else.
    assert np.array_equal(there, (z != NODATA) | (expected < full))
    assert got.carried == (there & (z == NODATA)).sum() > 500
    assert got.sides.tolist() == tally.sides.tolist()
    assert got.bare == 0


def test_it_stops_where_it_is_told_to():
    grid = grid_at((20, 60))
    z = np.full((20, 60), 5.0)
    z[:, 20:] = NODATA
    low, tally = lowered(dug((ALL, 1.0, 0.0)), grid, z, carry=7)
    assert (low[:, :27] == 4.0).all()
    assert (low[:, 27:] == NODATA).all()
    assert (tally.carried, tally.bare) == (20 * 7, 20 * 33)
    low, tally = lowered(dug((ALL, 1.0, 0.0)), grid, z)
    assert (low[:, 20:] == NODATA).all()
    assert tally.carried == 0


@pytest.mark.parametrize("turns", [0, 1, 2, 3])
def test_it_is_carried_on_to_all_sides(turns):
    full = np.rot90(50 + 0.5 * np.arange(20.0)[:, None] + np.zeros(30), turns).copy()
    z = full.copy()
    np.rot90(z, -turns)[:7] = NODATA
    low, tally = lowered(dug((ALL, 1.0, 0.0)), grid_at(z.shape), z, carry=9)
    assert np.allclose(low, full - 1.0)
    assert tally.carried == 7 * 30


def test_the_nearest_pixel_tells_how_it_goes_on():
    """By hand: past a V the two sides go on apart from each other."""
    grid = grid_at((21, 30), (1.0, -1.0))
    x, y = centres(grid)
    full = 50 + 0.5 * np.abs(y - 1989.5)
    z = np.where(x > 1020, NODATA, full)
    low, _ = lowered(dug((ALL, 1.0, 0.0)), grid, z, carry=9)
    assert np.allclose(low[:, :29], full[:, :29] - 1.0)
