"""Rasters and zone layers for the tests of raster depth surfaces in QGIS."""

import numpy as np
from osgeo import gdal, osr
from qgis.core import (
    QgsFeature,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsVectorFileWriter,
    QgsVectorLayer,
)

FEET = "EPSG:2264"  # US survey feet
METRES = "EPSG:3875"
LEFT, TOP = 1_500_000.0, 600_000.0
COLUMNS, ROWS = 300, 200


class Log(QgsProcessingFeedback):
    """Keeps what is said."""

    def __init__(self, cancel_at=None):
        super().__init__(False)
        self.warnings, self.told, self.cancel_at = [], [], cancel_at
        self.progressChanged.connect(self.watch)

    def pushWarning(self, warning):
        self.warnings.append(warning)

    def pushInfo(self, info):
        self.told.append(info)

    def watch(self, percent):
        if self.cancel_at is not None and percent >= self.cancel_at:
            self.cancel()


def raster(path, z, *, crs=FEET, nodata=-9999.0, pixel=0.5, options=(), transform=None):
    kinds = {"float32": "Float32", "float64": "Float64", "int16": "Int16", "int32": "Int32"}
    dataset = gdal.GetDriverByName("GTiff").Create(
        str(path),
        z.shape[1],
        z.shape[0],
        1,
        gdal.GetDataTypeByName(kinds[z.dtype.name]),
        list(options),
    )
    dataset.SetGeoTransform(transform or (LEFT, pixel, 0, TOP, 0, -pixel))
    if crs:
        spatial = osr.SpatialReference()
        spatial.SetFromUserInput(crs)
        dataset.SetSpatialRef(spatial)
    if nodata is not None:
        dataset.GetRasterBand(1).SetNoDataValue(nodata)
    dataset.GetRasterBand(1).WriteArray(z)
    dataset = None
    return str(path)


def layer_of(fields, *rows, crs=FEET):
    """A memory layer of (polygon, attributes...) rows."""
    layer = QgsVectorLayer(f"Polygon?crs={crs}&{fields}", "zones", "memory")
    features = []
    for shape, *attributes in rows:
        feature = QgsFeature(layer.fields())
        feature.setGeometry(QgsGeometry.fromWkt(shape.wkt))
        feature.setAttributes(attributes)
        features.append(feature)
    assert layer.dataProvider().addFeatures(features)[0]
    return layer


def saved(layer, path):
    options = QgsVectorFileWriter.SaveVectorOptions()
    context = QgsProcessingContext().transformContext()
    written = QgsVectorFileWriter.writeAsVectorFormatV3(layer, str(path), context, options)
    assert written[0] == QgsVectorFileWriter.WriterError.NoError
    return str(path)


def pixels(path):
    return gdal.Open(str(path)).ReadAsArray()


def hills(dtype=np.float32, seed=3):
    """Rolling ground with a centimetre of noise, about 550 high."""
    row, column = np.mgrid[:ROWS, :COLUMNS]
    z = 550 + 3 * np.sin(column / 23) + 2 * np.cos(row / 17 + column / 90)
    return (z + np.random.default_rng(seed).normal(0, 0.01, z.shape)).astype(dtype)
