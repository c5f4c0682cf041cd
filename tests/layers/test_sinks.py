"""Features written, with failures noticed and nothing half-written left."""

import numpy as np
import pytest
from qgis.core import (
    NULL,
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsFeatureSink,
    QgsProcessingContext,
    QgsProcessingUtils,
    QgsVectorLayer,
)

from plugin.core.errors import UndercourseError
from plugin.core.progress import Progress
from plugin.layers.fields import fields, joined
from plugin.layers.lines import line_geometry
from plugin.layers.sinks import Sink

from .shapes import SURVEY_FEET

COLUMNS = fields(("zone", int), ("depth", float), ("why", str), ("ok", bool))
LINE = np.array([(0.0, 0.0, 1.0), (1.0, 0.0, 2.0)])


def open_sink(path):
    sink, identifier = QgsProcessingUtils.createFeatureSink(
        str(path),
        QgsProcessingContext(),
        COLUMNS,
        Qgis.WkbType.LineStringZ,
        QgsCoordinateReferenceSystem(SURVEY_FEET),
    )
    return Sink(sink, identifier, COLUMNS, "Lines")


@pytest.mark.parametrize("count", [0, 1, 4001])
def test_rows_arrive_with_their_heights(qgis_app, tmp_path, count):
    path = tmp_path / "lines.gpkg"
    with open_sink(path) as sink:
        sink.add_many((line_geometry(LINE + k), (k, 0.5, "", True)) for k in range(count))
    assert sink.count == count
    layer = QgsVectorLayer(f"{path}|layername=lines", "lines")
    assert layer.isValid()
    assert layer.featureCount() == count
    for feature in layer.getFeatures():
        assert feature.geometry().constGet().pointN(0).z() == 1.0 + feature["zone"]


def test_numbers_of_numpy_and_missing_values(qgis_app, tmp_path):
    path = tmp_path / "lines.gpkg"
    with open_sink(path) as sink:
        sink.add(line_geometry(LINE), (np.int64(7), np.float64(0.25), None, np.bool_(True)))
        sink.add(None, (np.int32(8), np.nan, "x", False))
    rows = [list(f.attributes())[1:] for f in QgsVectorLayer(str(path), "l").getFeatures()]
    assert rows == [[7, 0.25, NULL, True], [8, NULL, "x", False]]


def test_nothing_half_written_stays(qgis_app, tmp_path):
    path = tmp_path / "lines.gpkg"
    rows = [(line_geometry(LINE), (1, 0.5, "", True)), "not a row"]
    with pytest.raises(ValueError, match="unpack"), open_sink(path) as sink:
        sink.add_many(rows)
    assert [file.name for file in tmp_path.iterdir()] == []


class Refusing(QgsFeatureSink):
    def addFeatures(self, features, flags=None):
        return False

    def lastError(self):
        return "disk full"


def test_a_refused_feature_is_an_error(qgis_app):
    with pytest.raises(UndercourseError, match="“Lines” cannot be written: disk full"):  # noqa: SIM117
        with Sink(Refusing(), "memory", COLUMNS, "Lines") as sink:
            sink.add(line_geometry(LINE), (1, 0.5, "", True))


def test_progress_is_told(qgis_app, tmp_path):
    told = []
    progress: Progress = told.append
    with open_sink(tmp_path / "lines.gpkg") as sink:
        rows = ((line_geometry(LINE), (k, 0.5, "", True)) for k in range(1500))
        sink.add_many(rows, 1500, progress)
    assert told == [0.0, 1 / 3, 2 / 3]


def test_fields_are_joined_without_doubles():
    both = joined(fields(("zone", int), ("Depth", float)), fields(("depth", str), ("name", str)))
    assert both.names() == ["zone", "Depth", "name"]
