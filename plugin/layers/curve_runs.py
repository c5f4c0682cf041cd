"""Curves of QGIS turned round and strung together, with their true arcs kept."""

from collections.abc import Iterator, Sequence

import numpy as np
from qgis.core import (
    Qgis,
    QgsAbstractGeometry,
    QgsCircularString,
    QgsCompoundCurve,
    QgsCurve,
    QgsGeometry,
    QgsGeometryCollection,
    QgsLineString,
    QgsPoint,
    QgsVertexId,
    QgsWkbTypes,
)

from ..core.lines.join import Run
from ..core.lines.links import Chain
from .lines import LineTable, line_geometry
from .tables import Source


def read_curves(source: Source, table: LineTable) -> list[QgsCurve]:
    """Return the curves of a layer, row for row as `read_lines` has their coordinates."""
    wanted = set(table.ids.tolist())
    found: dict[tuple[int, int], QgsCurve] = {}
    for feature in source.getFeatures():
        if feature.id() in wanted:
            geometry = feature.geometry()  # held, or what it points to is gone
            for number, curve in enumerate(_curves(geometry.constGet())):
                found[feature.id(), number] = curve.clone()
    rows = zip(table.ids.tolist(), table.parts.tolist(), strict=True)
    return [found[row] for row in rows]


def _curves(geometry: QgsAbstractGeometry) -> Iterator[QgsCurve]:
    if isinstance(geometry, QgsGeometryCollection):
        for number in range(geometry.numGeometries()):
            yield from _curves(geometry.geometryN(number))
    elif isinstance(geometry, QgsCurve) and not geometry.isEmpty():
        yield geometry


def single_type(kind: Qgis.WkbType, curves: Sequence[QgsCurve]) -> Qgis.WkbType:
    """Return the geometry type of a layer that takes single parts of those of a layer."""
    single = QgsWkbTypes.singleType(kind)
    if single == Qgis.WkbType.Unknown:
        single = curves[0].wkbType()
    curved = QgsWkbTypes.isCurvedType(single) or any(curve.hasCurvedSegments() for curve in curves)
    flat = Qgis.WkbType.CompoundCurve if curved else Qgis.WkbType.LineString
    if QgsWkbTypes.hasZ(single):
        flat = QgsWkbTypes.addZ(flat)
    return QgsWkbTypes.addM(flat) if QgsWkbTypes.hasM(single) else flat


def arc_ends(curves: Sequence[QgsCurve]) -> np.ndarray:
    """Tell which ends belong to an arc: two for each curve, first and last, (2 k,) bool."""
    found = np.zeros(2 * len(curves), bool)
    for k, curve in enumerate(curves):
        if curve.hasCurvedSegments():
            parts = _components(curve)
            found[2 * k] = isinstance(parts[0], QgsCircularString)
            found[2 * k + 1] = isinstance(parts[-1], QgsCircularString)
    return found


def string_together(curves: Sequence[QgsCurve], chain: Chain, run: Run) -> QgsCurve:
    """Return a chain of curves as one curve.

    Parameters
    ----------
    curves
        All curves of the layer.
    chain
        Which of them, in which order, and which of them are turned round.
    run
        The same chain as core has joined it.
    """
    own = [
        curves[k] if ahead else curves[k].reversed()
        for k, ahead in zip(chain.lines.tolist(), chain.forward.tolist(), strict=True)
    ]
    if not run.joints:
        return own[0].clone()
    if not any(curve.hasCurvedSegments() for curve in own):
        geometry = line_geometry(run.coordinates)
        return geometry.constGet().clone()
    whole = QgsCompoundCurve()
    for number, curve in enumerate(own):
        parts = _components(curve)
        if number or chain.closed:
            _move(parts[0], 0, run.joints[number - 1].points[-1])
        if number < len(run.joints):
            joint = run.joints[number].points
            _move(parts[-1], parts[-1].numPoints() - 1, joint[0])
            if len(joint) > 1:
                parts.append(QgsLineString([_point(row) for row in joint]))
        for part in parts:
            whole.addCurve(part, True)
    return whole


def as_kind(curve: QgsCurve, kind: Qgis.WkbType) -> QgsGeometry:
    """Return a curve as a geometry of a type given by `single_type`."""
    result = curve.clone()
    flat = QgsWkbTypes.flatType(kind)
    if flat == Qgis.WkbType.CompoundCurve and not isinstance(result, QgsCompoundCurve):
        whole = QgsCompoundCurve()
        whole.addCurve(result)
        result = whole
    if result.is3D() and not QgsWkbTypes.hasZ(kind):
        result.dropZValue()
    if result.isMeasure() and not QgsWkbTypes.hasM(kind):
        result.dropMValue()
    return QgsGeometry(result)


def _components(curve: QgsCurve) -> list[QgsCurve]:
    if isinstance(curve, QgsCompoundCurve):
        return [curve.curveAt(n).clone() for n in range(curve.nCurves())]
    return [curve.clone()]


def _move(curve: QgsCurve, vertex: int, row: np.ndarray) -> None:
    moved = curve.moveVertex(QgsVertexId(0, 0, vertex), _point(row))
    assert moved, "every curve has its own ends"


def _point(row: np.ndarray) -> QgsPoint:
    return QgsPoint(*(float(value) for value in row))
