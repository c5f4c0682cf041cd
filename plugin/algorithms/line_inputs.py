"""Lines and references as the algorithms on lines read them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsProcessingContext,
    QgsProcessingFeatureSource,
    QgsProcessingFeedback,
    QgsWkbTypes,
)

from ..core.errors import LineError, UndercourseError
from ..core.lines.arcs import Arcs
from ..core.lines.bundle import Lines
from ..core.lines.reference import Reference
from ..core.text import translate
from ..core.units import LinearUnit
from ..layers.arc_reading import read_arcs
from ..layers.curve_runs import read_curves
from ..layers.geometry import to_shapely
from ..layers.lines import LineTable, read_lines
from ..layers.tables import column_texts
from ..layers.vectors import Reading


@dataclass(frozen=True)
class NamedLines:
    """Lines with what people call them.

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
    arcs
        The true arcs that chords of the lines stand for.
    """

    table: LineTable
    lines: Lines
    names: list[str]
    has_z: bool
    arcs: Arcs


def read_named_lines(
    source: QgsProcessingFeatureSource,
    fields: Sequence[str],
    name_field: str,
    unit: LinearUnit,
    context: QgsProcessingContext,
    feedback: QgsProcessingFeedback,
    label: str,
    crs: QgsCoordinateReferenceSystem | None = None,
) -> NamedLines:
    """Read the lines, refuse those without length, and name every one.

    They come in ``crs``; without one in their own.
    """
    # A tenth of a millimetre between an arc and its chords keeps the offset within its own 1 mm.
    chord, snap = 1e-4 / unit.metres, 1e-4 / unit.metres
    wanted = [*fields, *([name_field] if name_field else [])]
    table = read_lines(
        source,
        list(dict.fromkeys(wanted)),
        crs=crs or source.sourceCrs(),
        context=context,
        feedback=feedback,
        chord=chord,
        name=label,
    )
    if not len(table):
        raise LineError(translate("Base", "{label}: there is no line in it.").format(label=label))
    for row, xyz in enumerate(table.coordinates):
        # Checked here, where the feature has its id.
        plan = np.asarray(xyz)[:, :2]
        if not np.isfinite(plan).all() or np.hypot(*np.ptp(plan, axis=0)) <= snap:
            raise LineError(
                translate(
                    "Base",
                    "{label}, feature {id}: the line has no length or no finite coordinates, remove it or draw it again.",
                ).format(label=label, id=table.ids[row])
            )
    lines = Lines.from_arrays(table.coordinates, snap)
    has_z = any(xyz.shape[1] > 2 for xyz in table.coordinates) and bool(np.isfinite(lines.z).any())
    if has_z and not lines.z[np.isfinite(lines.z)].any() and feedback is not None:
        feedback.pushWarning(
            translate(
                "Base",
                "{label}: all heights are 0, they may have been lost when the layer was made.",
            ).format(label=label)
        )
    given = column_texts(table.columns[name_field]) if name_field else [""] * len(table)
    names = [
        name or translate("Base", "line {id}").format(id=identifier)
        for name, identifier in zip(given, table.ids, strict=True)
    ]
    return NamedLines(table, lines, names, has_z, _arcs(source, table, lines, snap))


def require_one_height(sources: NamedLines, unit: LinearUnit, label: str) -> None:
    """Refuse lines that stand upright somewhere, where their heights are used.

    Raises
    ------
    LineError
        Two vertices are one in plan and differ in height by more than a millimetre; the feature
        and the place are named.
    """
    snap = 1e-4 / unit.metres
    for row, xyz in enumerate(sources.table.coordinates if sources.has_z else []):
        step = np.abs(np.diff(xyz[:, :3], axis=0))
        found = np.flatnonzero((np.hypot(step[:, 0], step[:, 1]) <= snap) & (step[:, 2] > 10 * snap))  # noqa: E501  # fmt: skip
        if len(found):
            x, y, low = xyz[found[0], :3]
            message = translate("Base", "{label}, feature {id}: it has two heights at one place, {low:.3f} and {high:.3f} at {x:.2f}, {y:.2f}. Move one of the two vertices, or take no heights from the lines.")  # noqa: E501  # fmt: skip
            high = xyz[found[0] + 1, 2]
            named = {"label": label, "id": sources.table.ids[row]}
            raise LineError(message.format(**named, low=low, high=high, x=x, y=y))


def _arcs(source: QgsProcessingFeatureSource, table: LineTable, lines: Lines, snap: float) -> Arcs:
    kind = source.wkbType()
    plain = QgsWkbTypes.isSingleType(kind) or QgsWkbTypes.isMultiType(kind)
    if plain and not QgsWkbTypes.isCurvedType(kind):
        return Arcs.none(lines)  # no need to read the layer again
    return read_arcs(read_curves(source, table), lines, snap)


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
            translate("Base", "{label}: there is no geometry in it.").format(label=label)
        )
    return reference
