"""True arcs of QGIS curves, as the lines of core know them."""

from collections.abc import Sequence

import numpy as np
import shapely
from qgis.core import QgsCircularString, QgsCompoundCurve, QgsCurve

from ..core.lines.arcs import Arcs, circle
from ..core.lines.bundle import Lines


def read_arcs(curves: Sequence[QgsCurve], lines: Lines, snap: float) -> Arcs:
    """Return the arcs of curves, with the segments of the lines that stand for them.

    Parameters
    ----------
    curves
        The curves, row for row as the lines.
    lines
        The same as chords.
    snap
        Ends of arcs and vertices nearer than this are one.
    """
    of_segment = np.full(len(lines.segments), -1)
    found: list[tuple[np.ndarray, float, int]] = []
    for k, curve in enumerate(curves):
        if not curve.hasCurvedSegments():
            continue
        rows = lines.line(k)
        vertex = 0
        for start, middle, stop in _triples(curve):
            arc = circle(start, middle, stop)
            first = _next(lines.xy[rows], start, vertex, snap)
            last = _next(lines.xy[rows], stop, first + 1, snap)
            if last <= first or not np.isfinite(arc[1]):
                continue
            base = int(lines.first_segment[k])
            of_segment[base + first : base + last] = len(found)
            found.append(arc)
            vertex = last
    return Arcs(
        of_segment,
        np.array([arc[0] for arc in found]).reshape(-1, 2),
        np.array([arc[1] for arc in found]),
        np.array([arc[2] for arc in found], np.int64),
    )


def _triples(curve: QgsCurve) -> list[np.ndarray]:
    """Return start, a point between and stop of each arc, in order, (3, 2) each."""
    parts = [curve]
    if isinstance(curve, QgsCompoundCurve):
        parts = [curve.curveAt(n) for n in range(curve.nCurves())]
    triples = []
    for part in parts:
        if isinstance(part, QgsCircularString):
            xy = np.array([(part.xAt(n), part.yAt(n)) for n in range(part.numPoints())])
            triples += [xy[n : n + 3] for n in range(0, len(xy) - 2, 2)]
    return triples


def _next(xy: np.ndarray, place: np.ndarray, begin: int, snap: float) -> int:
    """Return the first vertex from ``begin`` on at a place, or -1."""
    near = shapely.dwithin(shapely.points(xy[begin:]), shapely.points(place), snap)
    hits = np.flatnonzero(near)
    return begin + int(hits[0]) if len(hits) else -1
