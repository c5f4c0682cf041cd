"""Geometries of guidelines, with the true arcs of their lines."""

from collections.abc import Sequence

import numpy as np
from qgis.core import Qgis, QgsGeometry, QgsMultiCurve, QgsWkbTypes

from ..core.lines.arc_ends import settled
from ..core.lines.arc_parts import Part, with_arcs
from ..core.lines.arc_proof import Curves, chord_error, curve_error, source_curves
from ..core.lines.arcs import Arcs
from ..core.lines.corners import JoinStyle
from ..core.lines.guide import DISTANCE_ERROR, Guidelines
from ..core.lines.parallel import slack_of
from ..core.lines.requests import Requests
from ..layers.lines import curve_geometry, measured_geometry
from .guideline_shapes import Shape


class GuidelineCurves:
    """Makes the geometries of a run, and measures those beside arcs.

    Parameters
    ----------
    requests, laid
        What was wanted, and what was laid.
    arcs
        Arcs of the requests' lines.
    style
        How corners are joined.
    true
        Whether arcs are wanted as arcs.
    has_z
        Whether guidelines have heights.

    Attributes
    ----------
    error
        Largest error of distance beside arcs, plan units.
    chords
        Guidelines, or stretches of them, that stay chords though arcs are wanted.
    """

    def __init__(
        self,
        requests: Requests,
        laid: Guidelines,
        arcs: Arcs,
        style: JoinStyle,
        *,
        true: bool,
        has_z: bool,
    ) -> None:
        self.requests, self.laid, self.arcs, self.style = requests, laid, arcs, style
        self.true, self.has_z = true and len(arcs) > 0, has_z
        self.error, self.chords = 0.0, 0
        self._sources: dict[int, Curves] = {}
        slack = slack_of(requests.lines) if len(arcs) else np.empty(0)
        self._tolerance = np.maximum(DISTANCE_ERROR, 4.0 * slack)

    def kind(self, *, multi: bool) -> Qgis.WkbType:
        """Return the type of the result."""
        if self.true:
            flat = Qgis.WkbType.MultiCurve if multi else Qgis.WkbType.CompoundCurve
        else:
            flat = Qgis.WkbType.MultiLineString if multi else Qgis.WkbType.LineString
        kind = QgsWkbTypes.addM(flat)
        return QgsWkbTypes.addZ(kind) if self.has_z else kind

    def geometry(self, shapes: Sequence[Shape], *, multi: bool) -> QgsGeometry:
        """Return the geometry of the pieces of one guideline."""
        if not self.true:
            for shape in shapes:
                self._see_chords(shape)
            return measured_geometry([self._measured(shape) for shape in shapes], multi=multi)
        curves = [curve_geometry(self._parts(shape), flat=not self.has_z) for shape in shapes]
        if not multi:
            return curves[0]
        whole = QgsMultiCurve()
        for curve in curves:
            whole.addGeometry(curve.constGet().clone())
        return QgsGeometry(whole)

    def _measured(self, shape: Shape) -> np.ndarray:
        """Return the coordinates with the station as M."""
        line = int(self.requests.line[self.laid.pieces.source[shape.piece]])
        return np.column_stack(
            (shape.coordinates, self.requests.stations.running(line, shape.along))
        )

    def _parts(self, shape: Shape) -> list[Part]:
        pieces, rows = self.laid.pieces, self._measured(shape)
        request = int(pieces.source[shape.piece])
        line = int(self.requests.line[request])
        own = pieces.lines.line(shape.piece)
        offset, parent = float(pieces.offsets[shape.piece]), pieces.parent[own]
        first = self.requests.lines.first_segment
        # Straight pieces too: they may end where an arc of their line comes near.
        curved = (self.arcs.of_segment[first[line] : first[line + 1]] >= 0).any()
        if self.requests.taper(request) is not None or not curved:
            return [("line", rows)]
        closed = bool(pieces.lines.closed[shape.piece])
        made = with_arcs(
            rows, parent, self.requests.lines, self.arcs, offset, self.style, closed=closed
        )
        if line not in self._sources:
            self._sources[line] = source_curves(self.requests.lines, self.arcs, line)
        if not closed:
            made = settled(made, self._sources[line], offset, self._tolerance[line] / 4.0)
        error = curve_error(made, self._sources[line], self.arcs, offset)
        if error > self._tolerance[line]:
            self.chords += 1
            self._see_chords(shape)
            return [("line", rows)]
        self.chords += made.chords
        self.error = max(self.error, error)
        return made.parts

    def _see_chords(self, shape: Shape) -> None:
        pieces, own = self.laid.pieces, self.laid.pieces.lines.line(shape.piece)
        if len(self.arcs) and self.requests.taper(int(pieces.source[shape.piece])) is None:
            offset, xy = float(pieces.offsets[shape.piece]), pieces.lines.xy[own]
            found = chord_error(xy, pieces.parent[own], self.requests.lines, self.arcs, offset)
            self.error = max(self.error, found)
