"""Attribute tables, and columns as arrays with the feature named in every error."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from qgis.core import (
    NULL,
    QgsFeatureRequest,
    QgsFeatureSource,
    QgsFields,
    QgsProcessingFeatureSource,
    QgsVectorLayer,
)

from ..core.errors import LengthTextError, UndercourseError
from ..core.text import translate
from ..core.units import LinearUnit, parse_length

Source = QgsFeatureSource | QgsProcessingFeatureSource | QgsVectorLayer


@dataclass(frozen=True)
class Table:
    """Rows without geometry: feature ids and columns by field name."""

    ids: np.ndarray
    columns: dict[str, list[Any]]


def is_null(value: Any) -> bool:
    """Tell whether an attribute is empty, in each of the forms that QGIS gives it."""
    return value is None or value == NULL or (isinstance(value, float) and np.isnan(value))


def is_blank(value: Any) -> bool:
    """Tell whether an attribute is empty, or a text without anything in it."""
    return is_null(value) or (isinstance(value, str) and not value.strip())


def field_indices(fields: QgsFields, names: Sequence[str], layer: str = "") -> list[int]:
    """Return the positions of fields; refuse a name that is not there."""
    found = []
    for name in names:
        index = fields.lookupField(name)
        if index < 0:
            raise UndercourseError(
                translate(
                    "Layers", "“{layer}” has no field “{field}”: its fields are {fields}."
                ).format(layer=layer, field=name, fields=", ".join(fields.names()))
            )
        found.append(index)
    return found


def read_table(source: Source, names: Sequence[str], layer: str = "") -> Table:
    """Return the named columns of a table."""
    indices = field_indices(source.fields(), names, layer)
    request = QgsFeatureRequest().setFlags(QgsFeatureRequest.Flag.NoGeometry)
    request.setSubsetOfAttributes(indices)
    ids: list[int] = []
    columns: dict[str, list[Any]] = {name: [] for name in names}
    for feature in source.getFeatures(request):
        ids.append(feature.id())
        for name, index in zip(names, indices, strict=True):
            columns[name].append(feature.attribute(index))
    return Table(np.array(ids, dtype=np.int64), columns)


def column_lengths(
    values: Sequence[Any], ids: Sequence[int] | np.ndarray, unit: LinearUnit, name: str = ""
) -> np.ndarray:
    """Return lengths (k,) in ``unit``: numbers are in it already, texts may name their unit.

    Raises
    ------
    UndercourseError
        A value is empty or cannot be read; the feature is named.
    """
    result = np.empty(len(values))
    for row, (value, identifier) in enumerate(zip(values, ids, strict=True)):
        _refuse_null(value, identifier, name)
        if isinstance(value, str):
            try:
                result[row] = parse_length(value, unit)
            except LengthTextError as error:
                raise UndercourseError(
                    translate("Layers", "Feature {id}, field “{field}”: {why}").format(
                        id=identifier, field=name, why=error
                    )
                ) from error
        else:
            result[row] = _number(value, identifier, name)
    return result


def column_numbers(
    values: Sequence[Any],
    ids: Sequence[int] | np.ndarray,
    name: str = "",
    null: float | None = None,
) -> np.ndarray:
    """Return numbers (k,); an empty value is ``null``, or an error when that is None."""
    result = np.empty(len(values))
    for row, (value, identifier) in enumerate(zip(values, ids, strict=True)):
        if null is not None and is_null(value):
            result[row] = null
            continue
        _refuse_null(value, identifier, name)
        result[row] = _number(value, identifier, name)
    return result


def column_texts(values: Sequence[Any], null: str = "") -> list[str]:
    """Return texts, stripped; an empty value is ``null``."""
    return [null if is_null(value) else str(value).strip() for value in values]


def _refuse_null(value: Any, identifier: int, name: str) -> None:
    if is_blank(value):
        raise UndercourseError(
            translate(
                "Layers", "Feature {id} has no value in the field “{field}”: fill it in."
            ).format(id=identifier, field=name)
        )


def _number(value: Any, identifier: int, name: str) -> float:
    try:
        number = float(value)
    except (TypeError, ValueError):
        number = np.nan
    if not np.isfinite(number):
        raise UndercourseError(
            translate("Layers", "Feature {id}, field “{field}”: “{value}” is not a number.").format(
                id=identifier, field=name, value=value
            )
        )
    return number
