"""What the guidelines algorithm reads: lines, offsets, sides, references and the surface."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
)

from ..core.errors import LengthTextError, LineError, UndercourseError
from ..core.lines.bundle import Lines
from ..core.lines.reference import Reference
from ..core.lines.sides import Rule
from ..core.text import translate
from ..core.units import LinearUnit, parse_lengths
from ..layers.geometry import to_shapely
from ..layers.lines import LineTable, read_lines
from ..layers.tables import column_texts, is_blank
from ..layers.vectors import Reading


@dataclass(frozen=True)
class Sources:
    """The source lines with what people call them.

    Parameters
    ----------
    table
        The lines as read.
    lines
        The same as core has them, row for row.
    names
        Name of each row.
    has_z
        Whether the layer has heights.
    """

    table: LineTable
    lines: Lines
    names: list[str]
    has_z: bool


def read_sources(
    source: QgsProcessingFeatureSource,
    fields: Sequence[str],
    name_field: str,
    unit: LinearUnit,
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    label: str,
) -> Sources:
    """Read the lines, refuse those without length, and name every one."""
    # A tenth of a millimetre between an arc and its chords keeps the offset within its own 1 mm.
    chord, snap = 1e-4 / unit.metres, 1e-4 / unit.metres
    wanted = [*fields, *([name_field] if name_field else [])]
    table = read_lines(
        source,
        list(dict.fromkeys(wanted)),
        crs=source.sourceCrs(),
        context=context,
        feedback=feedback,
        chord=chord,
        name=label,
    )
    if not len(table):
        raise LineError(
            translate("Guidelines", "{label}: there is no line in it.").format(label=label)
        )
    for row, xyz in enumerate(table.coordinates):
        # Checked here, where the feature has its id.
        plan = np.asarray(xyz)[:, :2]
        if not np.isfinite(plan).all() or np.hypot(*np.ptp(plan, axis=0)) <= snap:
            raise LineError(
                translate(
                    "Guidelines",
                    "{label}, feature {id}: the line has no length or no finite coordinates, remove it or draw it again.",
                ).format(label=label, id=table.ids[row])
            )
    lines = Lines.from_arrays(table.coordinates, snap)
    has_z = any(xyz.shape[1] > 2 for xyz in table.coordinates) and bool(np.isfinite(lines.z).any())
    if has_z and not lines.z[np.isfinite(lines.z)].any() and feedback is not None:
        feedback.pushWarning(
            translate(
                "Guidelines",
                "{label}: all heights are 0, they may have been lost when the layer was made.",
            ).format(label=label)
        )
    given = column_texts(table.columns[name_field]) if name_field else [""] * len(table)
    names = [
        name or translate("Guidelines", "line {id}").format(id=identifier)
        for name, identifier in zip(given, table.ids, strict=True)
    ]
    return Sources(table, lines, names, has_z)


def offsets_of(
    values: Sequence[Any] | None, ids: np.ndarray, default: list[float], unit: LinearUnit, name: str
) -> list[list[float]]:
    """Return the offsets of each line: its own where it has some, else those of the run."""
    if values is None:
        return [default] * len(ids)
    result = []
    for value, identifier in zip(values, ids, strict=True):
        if is_blank(value):
            own = default
        else:
            try:
                own = parse_lengths(value if isinstance(value, str) else float(value), unit)
            except LengthTextError as error:
                raise _field_error(identifier, name, str(error)) from error
        problem = offsets_problem(own)
        if problem:
            raise _field_error(identifier, name, problem)
        result.append(own)
    return result


def offsets_problem(offsets: list[float]) -> str | None:
    """Say what keeps offsets from being used, or None."""
    if not offsets:
        return translate("Guidelines", "there is no offset, write one such as 1 ft.")
    if min(offsets) < 0:
        return translate(
            "Guidelines",
            "offsets are written without a minus sign, since the side is said by the parameter “Side” (right, left, toward ...).",
        )
    if min(offsets) == 0 or not np.isfinite(offsets).all():
        return translate("Guidelines", "an offset of 0 has no side, write one greater than 0.")
    return None


def rules_of(values: Sequence[Any] | None, ids: np.ndarray, default: Rule, name: str) -> list[Rule]:
    """Return the rule of each line: its own where it has one, else that of the run."""
    if values is None:
        return [default] * len(ids)
    rules = []
    for text, identifier in zip(column_texts(values), ids, strict=True):
        word = text.lower()
        if word and word not in set(Rule):
            raise _field_error(
                identifier,
                name,
                translate("Guidelines", "“{word}” is not one of: {words}.").format(
                    word=text, words=", ".join(Rule)
                ),
            )
        rules.append(Rule(word) if word else default)
    return rules


def read_reference(
    source: QgsProcessingFeatureSource,
    crs: QgsCoordinateReferenceSystem,
    unit: LinearUnit,
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    label: str,
) -> Reference:
    """Read points, lines and polygons in the CRS of the lines."""
    reading = Reading(source, (), crs=crs, context=context, feedback=feedback, name=label)
    chord = 1e-3 / unit.metres
    reference = Reference([to_shapely(f.geometry(), chord) for f in reading.features()])
    reading.finish()
    if not len(reference):
        raise UndercourseError(
            translate("Guidelines", "{label}: there is no geometry in it.").format(label=label)
        )
    return reference


def _field_error(identifier: int, name: str, why: str) -> UndercourseError:
    return UndercourseError(
        translate("Guidelines", "Feature {id}, field “{field}”: {why}").format(
            id=identifier, field=name, why=why
        )
    )
