"""QGIS layers to and from arrays: the only place that knows both QGIS and core."""
