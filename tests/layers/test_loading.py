"""Results are ready for QGIS's elevation profile."""

import numpy as np
from qgis.core import Qgis, QgsRasterLayer

from plugin.layers.loading import heights_in_profiles

from .shapes import memory_layer
from .test_rasters import write_raster


def test_rasters_show_in_profiles(qgis_app, tmp_path):
    layer = QgsRasterLayer(str(write_raster(tmp_path / "a.tif", np.ones((4, 4), "f4"))), "a")
    assert not layer.elevationProperties().isEnabled()
    heights_in_profiles(layer)
    assert layer.elevationProperties().isEnabled()
    surface = Qgis.RasterElevationMode.RepresentsElevationSurface
    assert layer.elevationProperties().mode() == surface


def test_lines_with_heights_stand_at_their_own(qgis_app):
    layer = memory_layer("LineStringZ", [])
    layer.elevationProperties().setClamping(Qgis.AltitudeClamping.Terrain)
    heights_in_profiles(layer)
    assert layer.elevationProperties().clamping() == Qgis.AltitudeClamping.Absolute


def test_flat_lines_stay_on_the_terrain(qgis_app):
    layer = memory_layer("LineString", [])
    before = layer.elevationProperties().clamping()
    heights_in_profiles(layer)
    assert layer.elevationProperties().clamping() == before
