"""The change of grade across lines of a design, such as the bottom of a gutter."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..breaks.change import measure_edges
from ..lines.bundle import Lines
from ..tin import Tin
from ..vectors import dot
from .grade_cells import Cells
from .grades import classify
from .tangents import tangents

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_SAME_WAY = float(np.cos(np.radians(30.0)))


@dataclass(frozen=True, eq=False)
class GutterBreaks:
    """Edges of a surface on given lines, and how much the grade changes across each.

    Parameters
    ----------
    ends : (k, 2, 3) float
        The edges.
    line : (k,) int
        Line that each follows.
    rise_left, rise_right : (k,) float
        Grade going away from the edge on each side, square to it; positive rises.
    change : (k,) float
        Size of the change: the algebraic difference of the grades, walking straight across.
    length : (k,) float
        In plan.
    rounding : (k,) float
        Most that the change can be off for rounded coordinates.
    followed : (l,) float
        Share of each line that follows edges.
    """

    ends: Floats
    line: Ints
    rise_left: Floats
    rise_right: Floats
    change: Floats
    length: Floats
    rounding: Floats
    followed: Floats

    def codes(self, high: float, near: float) -> Ints:
        """Return how each stands to the greatest change allowed, (k,) `Code`."""
        return classify(self.change, float("nan"), high, near, self.rounding)

    def within(self, polygon: shapely.Geometry, distance: float) -> NDArray[np.bool_]:
        """Tell which edges have their middle in a polygon, or that near to it, (k,) bool."""
        shapely.prepare(polygon)
        return np.asarray(shapely.dwithin(shapely.points(self.middles), polygon, distance))

    @property
    def middles(self) -> Floats:
        """Middle of each edge in plan, (k, 2) float."""
        return np.asarray(self.ends[:, :, :2].mean(axis=1))


def gutter_breaks(
    tin: Tin, cells: Cells, lines: Lines, within: float, z_scale: float = 1.0
) -> GutterBreaks:
    """Measure the change of grade at the edges that follow lines.

    Parameters
    ----------
    tin : Tin
        The surface.
    cells : Cells
        Its faces, not cut by zones.
    lines : Lines
        The lines.
    within : float
        An edge follows a line when its ends and its middle are no farther away, in plan.
    z_scale : float
        Plan units in one unit of height.
    """
    geometries = lines.geometries
    tree = shapely.STRtree(geometries)
    on = np.zeros(len(tin.vertices), bool)
    points = shapely.points(tin.vertices[:, :2])
    on[tree.query(points, predicate="dwithin", distance=within)[0]] = True
    ends = tin.quick_edges.ends
    edge = np.flatnonzero(on[ends].all(axis=1) & (tin.quick_edges.faces >= 0).all(axis=1))
    plan = tin.vertices[ends[edge]][:, :, :2]
    way = plan[:, 1] - plan[:, 0]
    length = np.hypot(way[:, 0], way[:, 1])
    edge, plan, way, length = (x[length > 0] for x in (edge, plan, way, length))
    if len(edge):
        at = tangents(lines, plan.mean(axis=1))
        alike = np.abs(dot(way / length[:, None], at.direction)) >= _SAME_WAY
        follows = alike & (at.away <= within)
        edge, line = edge[follows], at.line[follows]
    else:
        line = np.zeros(0, np.int64)
    found = measure_edges(tin, edge, z_scale)
    known = ~found.unknown
    found, line, edge = found.take(known), line[known], edge[known]
    followed = np.bincount(line, found.length, len(lines)) / lines.lengths
    return GutterBreaks(
        tin.vertices[found.ends],
        line,
        found.rise_left,
        found.rise_right,
        np.abs(found.change),
        found.length,
        cells.rounding[tin.quick_edges.faces[edge]].sum(axis=1),
        followed,
    )
