"""Faces that lie over one another in plan."""

from typing import TYPE_CHECKING

import numpy as np
import shapely
from numpy.typing import NDArray

from .bins import Bins, boxes

if TYPE_CHECKING:
    from .mesh import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_PAIRS = 1 << 19


def overlap_area(tin: "Tin") -> float:
    """Return by how much the faces' plan areas exceed the plan area they cover.

    All faces run counter-clockwise, so the number of faces over a place is the winding number
    of the borders about it. It is therefore enough to look at the cells into which the borders
    divide the plane, and to ask once for each cell whether there is surface in it.

    Parameters
    ----------
    tin : Tin
        The surface.

    Returns
    -------
    float
        Zero but for rounding when no two faces overlap.
    """
    origin = np.floor(np.array(tin.extent[:2]))
    ends = tin.vertices[tin.edges.ends[_border(tin)], :2] - origin
    lines = shapely.linestrings(ends)
    cells = shapely.get_parts(shapely.polygonize([shapely.union_all(lines)]))
    if len(cells) == 0:
        return tin.plan_area
    inside = shapely.get_coordinates(shapely.point_on_surface(cells))
    covered = tin.locate(inside + origin) >= 0
    return tin.plan_area - float(shapely.area(cells[covered]).sum())


def overlapping_faces(tin: "Tin", depth: float) -> tuple[Ints, Floats]:
    """Find the pairs of faces that overlap in plan.

    Parameters
    ----------
    tin : Tin
        The surface.
    depth : float
        Overlaps not wider than this are passed over; so are faces without plan area.

    Returns
    -------
    pairs : (k, 2) int
        Faces, the lower first, sorted.
    places : (k, 2) float
        A point in or near each overlap.
    """
    nothing = np.zeros((0, 2), dtype=np.int64), np.zeros((0, 2))
    if not _may_overlap(tin):
        return nothing
    origin = np.floor(np.array(tin.extent[:2]))
    plan = tin.vertices[:, :2] - origin
    solid = np.flatnonzero(~tin.without_plan_area)
    faces = tin.faces[solid]
    lower, upper = boxes(plan, faces)
    bins = Bins.over(lower, upper, 0.0)
    cell, member = bins.entries(np.arange(len(faces)))
    last = np.searchsorted(cell, cell, side="right")
    count = last - np.arange(len(cell)) - 1
    stops = np.cumsum(count)
    found, places = [nothing[0]], [nothing[1]]
    start = 0
    while start < len(cell):
        base = stops[start - 1] if start else 0
        stop = max(int(np.searchsorted(stops, base + _PAIRS, side="right")), start + 1)
        row = np.repeat(np.arange(start, stop), count[start:stop])
        within = np.arange(len(row)) - np.repeat(
            stops[start:stop] - count[start:stop] - base, count[start:stop]
        )
        one, other = member[row], member[row + 1 + within]
        bottom = np.maximum(lower[one], lower[other])
        top = np.minimum(upper[one], upper[other])
        near = (top - bottom > depth).all(axis=1)
        # Faces that share several bins are compared in one only.
        near &= bins.of_points(bottom) == cell[row]
        one, other, bottom, top = one[near], other[near], bottom[near], top[near]
        hit = _overlap(plan[faces[one]], plan[faces[other]], depth)
        found.append(np.sort(solid[np.stack([one, other], axis=1)[hit]], axis=1))
        places.append(0.5 * (bottom[hit] + top[hit]) + origin)
        start = stop
    pairs = np.concatenate(found)
    order = np.lexsort((pairs[:, 1], pairs[:, 0]))
    return pairs[order], np.concatenate(places)[order]


def _border(tin: "Tin") -> NDArray[np.bool_]:
    """Edges at which the number of faces over the plan changes, (e,) bool."""
    border = np.zeros(len(tin.edges.ends), dtype=bool)
    border[tin.edges.boundary] = True
    border[tin.edges.nonmanifold] = True
    border[_folds(tin)] = True
    return border


def _folds(tin: "Tin") -> Ints:
    """Edges whose two faces run along them in the same direction: one lies over the other."""
    halves = np.arange(3 * len(tin.faces))
    edge = tin.edges.face_edges.ravel()
    forward = tin.faces.ravel() == tin.edges.ends[edge, 0]
    turn = np.bincount(edge, np.where(forward, 1.0, -1.0), minlength=len(tin.edges.ends))
    uses = np.bincount(edge[halves], minlength=len(tin.edges.ends))
    return np.flatnonzero((uses == 2) & (turn != 0.0))


def _may_overlap(tin: "Tin") -> bool:
    ends = tin.vertices[tin.edges.ends[_border(tin)], :2]
    length = np.hypot(*(ends[:, 1] - ends[:, 0]).T).sum()
    allowed = tin.rounding * float(length) + 1e-12 * tin.plan_area
    return overlap_area(tin) > allowed


def _overlap(one: Floats, other: Floats, depth: float) -> NDArray[np.bool_]:
    """Tell which pairs of counter-clockwise triangles overlap by more than a depth.

    Two convex shapes are apart when a side of one of them has the whole other beyond it.
    """
    apart = np.zeros(len(one), dtype=bool)
    for a, b in ((one, other), (other, one)):
        for k in range(3):
            start, side = a[:, k], a[:, (k + 1) % 3] - a[:, k]
            offset = b - start[:, None]
            beyond = side[:, None, 0] * offset[..., 1] - side[:, None, 1] * offset[..., 0]
            apart |= beyond.max(axis=1) <= depth * np.hypot(side[:, 0], side[:, 1])
    return ~apart
