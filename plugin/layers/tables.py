"""Attribute tables, and columns as arrays with the feature named in every error."""

from collections.abc import Callable, Sequence
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


def usual_field(source: Source, name: str) -> str:
    """Return the field of a name, whatever its capitals; empty where there is none."""
    found = source.fields().lookupField(name)
    return source.fields().at(found).name() if found >= 0 else ""


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


def column_values(
    values: Sequence[Any],
    ids: Sequence[int] | np.ndarray,
    read: Callable[[Any], float],
    field: str = "",
    null: float | None = None,
    *,
    thing: str = "",
) -> np.ndarray:
    """Return a column as numbers (k,).

    Parameters
    ----------
    values, ids
        Attributes, and the feature each belongs to.
    read
        Makes a number of one that is not empty; what is wrong with it is a `LengthTextError`.
    field
        Name of the field, for messages.
    null
        Taken for empty values; None refuses them.
    thing
        What a feature is called in messages, instead of feature.

    Raises
    ------
    UndercourseError
        A value is empty or cannot be read; the feature and the field are named.
    """
    thing = thing or translate("Layers", "Feature")
    result = np.empty(len(values))
    for row, (value, identifier) in enumerate(zip(values, ids, strict=True)):
        if is_blank(value):
            if null is None:
                raise UndercourseError(
                    translate(
                        "Layers", "{thing} {id} has no value in the field “{field}”: fill it in."
                    ).format(thing=thing, id=identifier, field=field)
                )
            result[row] = null
            continue
        try:
            result[row] = read(value)
        except LengthTextError as error:
            raise UndercourseError(
                translate("Layers", "{thing} {id}, field “{field}”: {why}").format(
                    thing=thing, id=identifier, field=field, why=error
                )
            ) from error
    return result


def column_lengths(
    values: Sequence[Any],
    ids: Sequence[int] | np.ndarray,
    unit: LinearUnit,
    field: str = "",
    null: float | None = None,
    *,
    thing: str = "",
) -> np.ndarray:
    """Return lengths (k,) in ``unit``: numbers are in it already, texts may name their unit.

    Otherwise as `column_values`.
    """
    return column_values(
        values, ids, lambda value: parse_length(plain_value(value), unit), field, null, thing=thing
    )


def column_numbers(
    values: Sequence[Any],
    ids: Sequence[int] | np.ndarray,
    field: str = "",
    null: float | None = None,
    *,
    thing: str = "",
) -> np.ndarray:
    """Return finite numbers (k,), from texts too. Otherwise as `column_values`."""
    return column_values(values, ids, _number, field, null, thing=thing)


def column_texts(values: Sequence[Any], null: str = "") -> list[str]:
    """Return texts, stripped; an empty value is ``null``."""
    return [null if is_null(value) else str(value).strip() for value in values]


def texts_of(source: Source, field: str, ids: Sequence[int] | np.ndarray) -> list[str]:
    """Return the text of a field for each feature id, empty where there is none or no field."""
    if not field:
        return [""] * len(ids)
    table = read_table(source, [field], source.sourceName())
    known = dict(zip(table.ids.tolist(), column_texts(table.columns[field]), strict=True))
    return [known.get(int(one), "") for one in ids]


def plain_value(value: Any) -> str | float:
    """Return a number that QGIS hands over in another type as a number."""
    return value if isinstance(value, (str, int, float)) else _number(value)


def _number(value: Any) -> float:
    try:
        number = float(value)
    except (TypeError, ValueError):
        number = np.nan
    if not np.isfinite(number):
        raise LengthTextError(translate("Layers", "“{value}” is not a number.").format(value=value))
    return number
