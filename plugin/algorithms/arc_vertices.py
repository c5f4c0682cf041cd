"""Which vertices of lines as read are ends of true arcs."""

from collections.abc import Sequence

import numpy as np
import shapely
from qgis.core import QgsCircularString, QgsCompoundCurve, QgsCurve

from ..core.lines.bundle import Lines


def arc_vertices(curves: Sequence[QgsCurve], lines: Lines, snap: float) -> np.ndarray:
    """Tell at which vertices an arc begins or ends.

    Parameters
    ----------
    curves
        The curves, row for row as the lines.
    lines
        The same as chords.
    snap
        Ends and vertices nearer than this are one.

    Returns
    -------
    (n,) bool
    """
    found = np.zeros(len(lines.xy), bool)
    for k, curve in enumerate(curves):
        ends = _ends(curve)
        if not len(ends):
            continue
        rows = lines.line(k)
        tree = shapely.STRtree(shapely.points(lines.xy[rows]))
        _, vertex = tree.query(shapely.points(ends), predicate="dwithin", distance=snap)
        found[rows.start + vertex] = True
    return found


def _ends(curve: QgsCurve) -> np.ndarray:
    parts = [curve]
    if isinstance(curve, QgsCompoundCurve):
        parts = [curve.curveAt(n) for n in range(curve.nCurves())]
    ends = []
    for part in parts:
        if isinstance(part, QgsCircularString):
            # Arcs of one string meet at every second of its points.
            ends += [(part.xAt(n), part.yAt(n)) for n in range(0, part.numPoints(), 2)]
    return np.array(ends, float).reshape(-1, 2)
