"""Parts of a surface that fail, or nearly do, joined to areas."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..outlines import outlines_of_faces
from ..tin import Tin
from .grade_cells import Cells
from .grades import FIRST_FAIL, Code, Judged, margin, worst

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_AGREE = 1e-6
"""Share by which the area of an outline may differ from that of its parts."""

_GROUPS = (
    (Code.JUST_STEEP, Code.STEEP),
    (Code.JUST_FLAT, Code.FLAT),
    (Code.NEAR_STEEP,),
    (Code.NEAR_FLAT,),
)
FLAGS = {
    Code.NEAR_STEEP: "near_steep",
    Code.NEAR_FLAT: "near_flat",
    Code.JUST_STEEP: "just_steep",
    Code.STEEP: "steep",
    Code.JUST_FLAT: "just_flat",
    Code.FLAT: "flat",
}


@dataclass(frozen=True, eq=False)
class Area:
    """Parts that hang together and stand to a limit in one way.

    Parameters
    ----------
    rows : (r,) int
        Their places in `Judged`.
    code : Code
        Of the worst part.
    thin : bool
        True where the area is narrower than what counts.
    shape
        Outline, shapely MultiPolygon.
    area, width : float
        Plan area, and mean width (twice the area over the perimeter).
    least, greatest, mean : float
        Grades in it; the mean by area.
    worst : float
        The grade that is worst.
    place : (float, float)
        Where.
    """

    rows: Ints
    code: Code
    thin: bool
    shape: shapely.MultiPolygon
    area: float
    width: float
    least: float
    greatest: float
    mean: float
    worst: float
    place: tuple[float, float]

    @property
    def fails(self) -> bool:
        """Whether it fails; a thin one is told, but does not count."""
        return self.code >= FIRST_FAIL and not self.thin

    @property
    def flag(self) -> str:
        """Short word for what is wrong."""
        return FLAGS[self.code]


def fail_areas(cells: Cells, judged: Judged, narrow: float) -> list[Area]:
    """Return what fails or nearly does, as areas; the largest first.

    Parameters
    ----------
    cells : Cells
        The surface.
    judged : Judged
        What was found under one limit.
    narrow : float
        Areas of a smaller mean width are thin.
    """
    found = []
    for group in _GROUPS:
        rows = np.flatnonzero(np.isin(judged.code, group))
        if len(rows):
            found += _areas(cells, judged, rows, narrow)
    # A place in the order that does not hang on that of the faces.
    return sorted(found, key=lambda one: (-one.code, -one.area, one.place))


def _areas(cells: Cells, judged: Judged, rows: Ints, narrow: float) -> list[Area]:
    own = judged.cells[rows]
    flat, row = cells.triangles(own)
    pieces = flat.pieces
    piece = np.empty(len(own), np.int64)
    piece[row] = pieces
    order = np.argsort(piece, kind="stable")
    outlines = _outlines(flat, cells.vertices[cells.corners[own[0], 0]])
    found = []
    for mine in np.split(order, np.flatnonzero(np.diff(piece[order])) + 1):
        area, grade = cells.areas[own[mine]], judged.grade[rows[mine]]
        total = float(area.sum())
        shape = outlines[piece[mine[0]]]
        if shape is None or abs(shape.area - total) > _AGREE * total:
            # Faces that lie over one another have no borders that close.
            shape = shapely.union_all(shapely.polygons(cells.vertices[cells.corners[own[mine]]]))
        parts = [p for p in shapely.get_parts(shape) if p.geom_type == "Polygon"]
        width = 2.0 * total / max(float(shapely.length(shape)), 1e-300)
        at = worst(cells, own[mine], margin(grade, judged.limit))
        x, y = cells.centres(own[mine[[at]]])[0].tolist()
        found.append(
            Area(
                rows[mine],
                Code(int(judged.code[rows[mine]].max())),
                width < narrow,
                shapely.MultiPolygon(parts),
                total,
                width,
                float(grade.min()),
                float(grade.max()),
                float((grade * area).sum() / total) if total > 0 else float(grade.mean()),
                float(grade[at]),
                (x, y),
            )
        )
    return found


def _outlines(flat: Tin, origin: Floats) -> NDArray[np.object_]:
    """Return the outline of each piece; worked out near the origin, handed back in place."""
    near = flat.vertices[:, :2] - origin
    count = int(flat.pieces.max()) + 1
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        outlines = outlines_of_faces(flat, flat.pieces, near, count)
    return np.asarray(shapely.transform(outlines, lambda xy: xy + origin))
