"""Geometries of guidelines, with the true arcs of their lines."""

from collections.abc import Sequence

import numpy as np
from qgis.core import Qgis, QgsGeometry, QgsMultiCurve, QgsWkbTypes

from ..core.lines.arcs import Arcs, with_arcs
from ..core.lines.bundle import Lines
from ..core.lines.guide import Guidelines, Requests
from ..layers.lines import curve_geometry, measured_geometry
from .guideline_shapes import Shape


class Curves:
    """Makes the geometries of a run.

    Parameters
    ----------
    arcs
        Arcs of the requests' lines; None where none are wanted or there.
    requests, laid
        What was wanted, and what was laid.
    has_z
        Whether guidelines have heights.
    """

    def __init__(
        self, arcs: Arcs | None, requests: Requests, laid: Guidelines, *, has_z: bool
    ) -> None:
        self.arcs = arcs if arcs is not None and len(arcs) else None
        self.requests, self.laid, self.has_z = requests, laid, has_z

    def kind(self, *, multi: bool) -> Qgis.WkbType:
        """Return the type of the result."""
        if self.arcs is None:
            flat = Qgis.WkbType.MultiLineString if multi else Qgis.WkbType.LineString
        else:
            flat = Qgis.WkbType.MultiCurve if multi else Qgis.WkbType.CompoundCurve
        kind = QgsWkbTypes.addM(flat)
        return QgsWkbTypes.addZ(kind) if self.has_z else kind

    def geometry(self, shapes: Sequence[Shape], start: float, *, multi: bool) -> QgsGeometry:
        """Return the geometry of the pieces of one guideline, their stations from ``start`` on."""
        if self.arcs is None:
            return measured_geometry([s.measured(start) for s in shapes], multi=multi)
        curves = [self._curve(shape, start) for shape in shapes]
        if not multi:
            return curves[0]
        whole = QgsMultiCurve()
        for curve in curves:
            whole.addGeometry(curve.constGet().clone())
        return QgsGeometry(whole)

    def _curve(self, shape: Shape, start: float) -> QgsGeometry:
        assert self.arcs is not None
        pieces, rows = self.laid.pieces, shape.measured(start)
        request = int(pieces.source[shape.piece])
        if self.requests.taper(request) is not None:
            return curve_geometry([("line", rows)], flat=not self.has_z)
        own = pieces.lines.line(shape.piece)
        offset = float(pieces.offsets[shape.piece])
        parts = with_arcs(rows, pieces.parent[own], self.requests.lines, self.arcs, offset)
        return curve_geometry(parts, flat=not self.has_z)


def arcs_of_rows(arcs: Arcs, before: Lines, after: Lines, origin: np.ndarray, split: frozenset[int]) -> Arcs:  # noqa: E501  # fmt: skip
    """Return the arcs where lines have been replaced by their parts, which stay chords."""
    of_segment = np.full(len(after.segments), -1)
    for row, k in enumerate(origin.tolist()):
        if row not in split:
            a, b = before.first_segment[k], before.first_segment[k + 1]
            of_segment[after.first_segment[row] : after.first_segment[row + 1]] = arcs.of_segment[
                a:b
            ]
    return Arcs(of_segment, arcs.centre, arcs.radius, arcs.sense)
