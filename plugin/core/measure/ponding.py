"""Ponds: where water stands on a surface, how deep, and how much, exact on the triangles.

A face holds water of one pond at most: neighbouring vertices below water have the same level,
and the dry corners of such a face lie at that level or above. So the water on a face is cut off
by one level line, and its area and volume follow in closed form.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..tin import Tin
from ..tin.boundary import rings
from ..tin.weld import hang_together
from .filling import Filled, fill

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Shapes = NDArray[np.object_]


@dataclass(frozen=True, eq=False)
class Ponds:
    """Ponds, in the order of their deepest vertices.

    Parameters
    ----------
    level : (k,) float
        Height of the water, at which it spills; a vertex's own height.
    spill, deepest : (k,) int
        Vertices where it spills and where it is deepest.
    area, volume : (k,) float
        Plan area of the water, and its volume in plan units.
    lows : (k,) int
        Low points that its water covers: more than one where pools run together.
    outline : (k,) object
        The water in plan, with holes where islands stand out of it; None where the surface is
        not sound enough (faces over one another) for an outline.
    shallow : int
        How many more there are that are too shallow.
    """

    level: Floats
    spill: Ints
    deepest: Ints
    area: Floats
    volume: Floats
    lows: Ints
    outline: Shapes
    shallow: int

    def __len__(self) -> int:
        return len(self.level)


def find_ponds(tin: Tin, min_depth: float = 0.0, z_scale: float = 1.0) -> Ponds:
    """Find where water stands on a surface.

    All borders let water off, those of holes too. Nothing seeps away, and no pipe takes it.

    Parameters
    ----------
    tin : Tin
        The surface; vertices in one place must be one, or water runs off between them.
    min_depth : float
        Shallower ponds are left out, in units of height.
    z_scale : float
        Plan units in one unit of height, for volumes.
    """
    filled = fill(tin)
    z = tin.vertices[:, 2]
    wet = (filled.level > z) & np.isfinite(filled.level)
    ends = tin.edges.ends
    joined = ends[wet[ends].all(axis=1)]
    root = hang_together(len(z), joined[:, 0], joined[:, 1])
    under = np.flatnonzero(wet)
    # The deepest vertex of each pond; of level bottoms the one of lowest number.
    order = under[np.lexsort((under, z[under], root[under]))]
    heads = np.ones(len(order), dtype=bool)
    heads[1:] = root[order[1:]] != root[order[:-1]]
    deepest = order[heads]
    total = len(deepest)
    deepest = np.sort(deepest[filled.level[deepest] - z[deepest] >= min_depth])
    pond_of_root = np.full(len(z), -1, dtype=np.int64)
    pond_of_root[root[deepest]] = np.arange(len(deepest))
    pond = np.where(wet, pond_of_root[root], -1)
    area, volume = _amounts(tin, filled, pond, len(deepest))
    low = np.unique(filled.low[pond >= 0])
    return Ponds(
        filled.level[deepest],
        filled.spill[deepest],
        deepest,
        area,
        volume * z_scale,
        np.bincount(pond[low[low >= 0]], minlength=len(deepest)),
        _outlines(tin, filled, pond, len(deepest)),
        total - len(deepest),
    )


def _amounts(tin: Tin, filled: Filled, pond: Ints, count: int) -> tuple[Floats, Floats]:
    """Return area and volume of each pond: of each face the part below its level line."""
    faces = np.flatnonzero((pond[tin.faces] >= 0).any(axis=1))
    corners = tin.faces[faces]
    of_face = pond[corners].max(axis=1)
    level = np.where(pond[corners] >= 0, filled.level[corners], -np.inf).max(axis=1)
    depth = level[:, None] - tin.vertices[corners, 2]
    depth = -np.sort(-depth, axis=1)
    a, b, c = depth.T
    whole = tin.plan_areas[faces]
    wet = (depth > 0).sum(axis=1)
    # One corner below water: a triangle cut off at it.
    cut = [wet == 1, wet == 2]
    with np.errstate(invalid="ignore", divide="ignore", over="ignore"):  # where it is not cut so
        one = whole * (a / (a - b)) * (a / (a - c))
        # Two: the quadrilateral at them, parted into triangles from the deepest corner.
        far, near = a / (a - c), b / (b - c)
        beside, rest = whole * near, whole * far * (1.0 - near)
        area = np.select(cut, [one, beside + rest], whole)
        two = beside * (a + b) / 3.0 + rest * a / 3.0
        volume = np.select(cut, [one * a / 3.0, two], whole * (a + b + c) / 3.0)
    sums = [np.bincount(of_face, amount, count).astype(np.float64) for amount in (area, volume)]
    return sums[0], sums[1]


def _outlines(tin: Tin, filled: Filled, pond: Ints, count: int) -> Shapes:
    """Return the outline of each pond, made of the level lines on the faces at its edge."""
    result = np.full(count, None, dtype=object)
    wet = pond >= 0
    corners = wet[tin.faces]
    side_wet, side_next = corners, np.roll(corners, -1, axis=1)
    # With the faces counter-clockwise, the level line runs from where the face's border leaves
    # the water to where it comes back: the water is on its left.
    leave, enter = side_wet & ~side_next, ~side_wet & side_next
    faces = np.flatnonzero(leave.any(axis=1))
    if not len(faces):
        return result
    side = leave[faces].argmax(axis=1), enter[faces].argmax(axis=1)
    start = tin.edges.face_edges[faces, side[0]]
    stop = tin.edges.face_edges[faces, side[1]]
    row_of_edge = np.full(len(tin.edges.ends), -1, dtype=np.int64)
    row_of_edge[start] = np.arange(len(start))
    ends = tin.edges.ends[start]
    below = np.where(wet[ends[:, 0]], ends[:, 0], ends[:, 1])
    above = np.where(wet[ends[:, 0]], ends[:, 1], ends[:, 0])
    z = tin.vertices[:, 2]
    level = filled.level[below]
    share = ((level - z[below]) / (z[above] - z[below]))[:, None]
    origin = np.floor(np.array(tin.extent[:2]))
    plan = tin.vertices[:, :2] - origin
    place = np.where(share == 1.0, plan[above], plan[below] + share * (plan[above] - plan[below]))
    owner = pond[below]
    found: list[list[Floats]] = [[] for _ in range(count)]
    for ring in rings(row_of_edge[stop]):
        xy = place[ring]
        xy = xy[(xy != np.roll(xy, 1, axis=0)).any(axis=1)]
        if len(xy) >= 3:
            found[int(owner[ring[0]])].append(xy)
    for number, parts in enumerate(found):
        if parts:
            result[number] = _polygon(parts, origin)
    return result


def _polygon(parts: list[Floats], origin: Floats) -> shapely.Geometry:
    """Return the polygon of rings: the one that runs counter-clockwise, less the others."""
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        shapes = [shapely.LinearRing(ring + origin) for ring in parts]
        size = [abs(shapely.Polygon(ring).area) for ring in shapes]
        shell = int(np.argmax(size))
        islands = [ring for k, ring in enumerate(shapes) if k != shell and size[k] > 0.0]
        shape = shapely.Polygon(shapes[shell], islands)
        if not shape.is_valid:
            shape = shapely.make_valid(shape, method="structure", keep_collapsed=False)
    return shape
