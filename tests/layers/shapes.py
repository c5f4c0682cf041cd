"""Layers and surfaces that several tests use."""

import numpy as np
from qgis.core import QgsFeature, QgsGeometry, QgsVectorLayer

SURVEY_FEET = "EPSG:2263"
"""New York Long Island (ftUS)."""


def memory_layer(kind, texts, crs=SURVEY_FEET, fields="", rows=()):
    """Return a memory layer of a kind such as ``PolygonZ`` from WKT or geometries."""
    layer = QgsVectorLayer(f"{kind}?crs={crs}{fields}", "made", "memory")
    assert layer.isValid()
    features = []
    for number, text in enumerate(texts):
        feature = QgsFeature(layer.fields())
        if text is not None:
            geometry = QgsGeometry.fromWkt(text) if isinstance(text, str) else text
            assert not geometry.isNull(), text
            feature.setGeometry(geometry)
        if rows:
            feature.setAttributes(list(rows[number]))
        features.append(feature)
    assert layer.dataProvider().addFeatures(features)[0]
    return layer


def roof(count=12, x=983_000.0, y=201_000.0, crown=5.0, grade=0.02):
    """Return vertices and faces of a roof of unit squares, its ridge along y at ``x + crown``."""
    column, row = np.meshgrid(np.arange(count + 1.0), np.arange(count + 1.0))
    height = 100.0 - np.abs(column - crown) * grade
    vertices = np.column_stack([(column + x).ravel(), (row + y).ravel(), height.ravel()])
    corner = np.arange((count + 1) ** 2).reshape(count + 1, count + 1)
    a, b = corner[:-1, :-1].ravel(), corner[:-1, 1:].ravel()
    c, d = corner[1:, 1:].ravel(), corner[1:, :-1].ravel()
    return vertices, np.vstack([np.column_stack([a, b, c]), np.column_stack([a, c, d])])
