"""Whole tables as rows, whatever their columns: a CSV, a sheet, a table of a database."""

from typing import Any

from qgis.core import QgsFeatureRequest

from .tables import Source, is_null


def read_rows(source: Source) -> list[dict[str, Any]]:
    """Return the values of each row by field name, in the order of the table; None where empty."""
    names = source.fields().names()
    request = QgsFeatureRequest().setFlags(QgsFeatureRequest.Flag.NoGeometry)
    return [
        {
            name: None if is_null(value) else value
            for name, value in zip(names, feature.attributes(), strict=True)
        }
        for feature in source.getFeatures(request)
    ]
