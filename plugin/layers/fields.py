"""Fields of results, by name and Python type."""

from qgis.core import QgsField, QgsFields
from qgis.PyQt.QtCore import QMetaType

_TYPES = {
    int: QMetaType.Type.LongLong,
    float: QMetaType.Type.Double,
    str: QMetaType.Type.QString,
    bool: QMetaType.Type.Bool,
}


def fields(*columns: tuple[str, type]) -> QgsFields:
    """Return the fields ``("zone", int), ("depth", float), ("why", str), ...``."""
    result = QgsFields()
    for name, kind in columns:
        result.append(QgsField(name, _TYPES[kind]))
    return result


def joined(first: QgsFields, second: QgsFields) -> QgsFields:
    """Return the fields of ``first`` followed by those of ``second`` whose name is new.

    Names are compared without case, as GeoPackage does.
    """
    result = QgsFields(first)
    taken = {field.name().lower() for field in first}
    for field in second:
        if field.name().lower() not in taken:
            result.append(field)
            taken.add(field.name().lower())
    return result
