"""Line and point layers as coordinate arrays, and their geometries for results."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsCircularString,
    QgsCompoundCurve,
    QgsCoordinateReferenceSystem,
    QgsGeometry,
    QgsLineString,
    QgsPoint,
    QgsProcessingContext,
    QgsProcessingFeedback,
)

from ..core.text import translate
from .geometry import Parts, from_wkb, line_wkb, multi_wkb, read_parts
from .tables import Source
from .vectors import Reading


@dataclass(frozen=True)
class LineTable:
    """Lines with their attributes, one row per part of a feature.

    Parameters
    ----------
    ids : (k,) int
        Feature ids; the parts of a feature share one.
    parts : (k,) int
        Number of the part in its feature, from 0.
    coordinates
        One (n, 2) x y, (n, 3) x y z, or (n, 4) x y z m array per row (z NaN where there is
        only m). Arcs are chords within the tolerance asked for.
    closed : (k,) bool
        Whether the last vertex is the first.
    columns
        Attribute values by field name, one per row.
    """

    ids: np.ndarray
    parts: np.ndarray
    coordinates: list[np.ndarray]
    closed: np.ndarray
    columns: dict[str, list[Any]]

    def __len__(self) -> int:
        return len(self.ids)


def read_lines(
    source: Source,
    fields: Sequence[str] = (),
    *,
    crs: QgsCoordinateReferenceSystem | None = None,
    context: QgsProcessingContext | None = None,
    feedback: QgsProcessingFeedback | None = None,
    chord: float = 1e-3,
    name: str = "",
) -> LineTable:
    """Read the lines of a layer or source, each part a row.

    Repeated vertices stay as they are; a part whose vertices are all one point is refused.

    Raises
    ------
    UndercourseError
        A feature is no line or has no length; its id is named.
    """
    reading = Reading(source, fields, crs=crs, context=context, feedback=feedback, name=name)
    ids: list[int] = []
    numbers: list[int] = []
    coordinates: list[np.ndarray] = []
    for feature in reading.features():
        parts = read_parts(feature.geometry(), chord)
        if parts.kind != "line":
            raise reading.refuse(feature.id(), translate("Layers", "it is not a line."))
        for number, (array,) in enumerate(parts.rings):
            if len(array) < 2 or not np.any(array[:, :2] != array[0, :2]):
                raise reading.refuse(feature.id(), translate("Layers", "the line has no length."))
            ids.append(feature.id())
            numbers.append(number)
            coordinates.append(_columns(array, parts))
            reading.keep(feature)
    reading.finish()
    closed = [bool(np.array_equal(line[0, :2], line[-1, :2])) for line in coordinates]
    return LineTable(
        np.array(ids, dtype=np.int64),
        np.array(numbers, dtype=np.int64),
        coordinates,
        np.array(closed, dtype=bool),
        reading.columns,
    )


def _columns(array: np.ndarray, parts: Parts) -> np.ndarray:
    if parts.has_m and not parts.has_z:
        return np.column_stack((array[:, :2], np.full(len(array), np.nan), array[:, 2]))
    return array


@dataclass(frozen=True)
class PointTable:
    """Points with their attributes, one row per point: (k, 2) or (k, 3) coordinates."""

    ids: np.ndarray
    coordinates: np.ndarray
    columns: dict[str, list[Any]]

    def __len__(self) -> int:
        return len(self.ids)


def read_points(
    source: Source,
    fields: Sequence[str] = (),
    *,
    crs: QgsCoordinateReferenceSystem | None = None,
    context: QgsProcessingContext | None = None,
    feedback: QgsProcessingFeedback | None = None,
    name: str = "",
) -> PointTable:
    """Read the points of a layer or source; multipoints give several rows."""
    reading = Reading(source, fields, crs=crs, context=context, feedback=feedback, name=name)
    ids: list[int] = []
    rows: list[np.ndarray] = []
    has_z = True
    for feature in reading.features():
        parts = read_parts(feature.geometry())
        if parts.kind != "point":
            raise reading.refuse(feature.id(), translate("Layers", "it is not a point."))
        has_z = has_z and parts.has_z
        for (array,) in parts.rings:
            ids.append(feature.id())
            rows.append(array[0, :3] if parts.has_z else array[0, :2])
            reading.keep(feature)
    reading.finish()
    width = 3 if has_z and rows else 2
    xyz = np.array([row[:width] for row in rows]).reshape(len(rows), width)
    return PointTable(np.array(ids, dtype=np.int64), xyz, reading.columns)


def measured_geometry(lines: Sequence[np.ndarray], *, multi: bool = False) -> QgsGeometry:
    """Return lines with M from (n, 3) x y m or (n, 4) x y z m; one of them, or a multipart."""
    blobs = [line_wkb(np.asarray(line, dtype=float), flat=line.shape[1] == 3) for line in lines]
    return from_wkb(multi_wkb(blobs) if multi else blobs[0])


def line_geometry(coordinates: np.ndarray, *, multi: bool = False) -> QgsGeometry:
    """Return a line from (n, 2) x y, (n, 3) x y z or (n, 4) x y z m."""
    blob = line_wkb(np.asarray(coordinates, dtype=float))
    return from_wkb(multi_wkb([blob]) if multi else blob)


def multiline_geometry(lines: Sequence[np.ndarray]) -> QgsGeometry:
    """Return one multipart line from arrays as in `line_geometry`."""
    return from_wkb(multi_wkb([line_wkb(np.asarray(line, dtype=float)) for line in lines]))


def point_geometry(xyz: Sequence[float]) -> QgsGeometry:
    """Return a point from x y or x y z; a z that is NaN stays so, and is not lost as 0."""
    kind = Qgis.WkbType.PointZ if len(xyz) == 3 else Qgis.WkbType.Point
    return QgsGeometry(QgsPoint(*(float(value) for value in xyz), wkbType=kind))


def curve_geometry(
    segments: Sequence[tuple[str, np.ndarray]], *, flat: bool = False
) -> QgsGeometry:
    """Return a compound curve with true arcs.

    Parameters
    ----------
    segments
        ``("line", (n, 2|3|4))`` or ``("arc", (3, 2|3|4))`` with start, a point between, end;
        each starts where the one before ends.
    flat
        Three columns are x, y and m.
    """
    curve = QgsCompoundCurve()
    for kind, xyz in segments:
        points = [_curve_point(row, flat=flat) for row in xyz]
        if kind == "arc":
            part = QgsCircularString()
            part.setPoints(points)
        else:
            part = QgsLineString(points)
        curve.addCurve(part)
    return QgsGeometry(curve)


def _curve_point(row: np.ndarray, *, flat: bool) -> QgsPoint:
    values = [float(value) for value in row]
    if flat and len(values) == 3:
        return QgsPoint(values[0], values[1], m=values[2], wkbType=Qgis.WkbType.PointM)
    return QgsPoint(*values)
