"""Where a built surface ends: breaklines cut at the boundary, faces beyond it, long edges."""

import numpy as np
import shapely
from numpy.typing import NDArray

from ...runs import count_up
from ..cut.snap import project
from ..edges import pair_half_edges
from .delaunay import parts_between
from .insert import edge_keys

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]


def within(area: shapely.Geometry, xy: Floats) -> Flags:
    """Tell which points lie in an area or on its border."""
    shapely.prepare(area)
    return np.asarray(shapely.intersects_xy(area, xy[:, 0], xy[:, 1]))


def clip(area: shapely.Geometry, ends: Floats, snap: float) -> tuple[Floats, Ints]:
    """Cut segments at the border of an area.

    Parameters
    ----------
    area : shapely Polygon or MultiPolygon
        What is kept.
    ends : (s, 2, 3) float
        Segments with heights; new ends get theirs by the slope of the segment.
    snap : float
        An end nearer than this to one of the segment's is that one, unmoved.

    Returns
    -------
    ends : (k, 2, 3) float
        What is left, in the direction of the segments.
    origin : (k,) int
        Segment each is of.
    """
    shapes = shapely.linestrings(ends[:, :, :2])
    shapely.prepare(area)
    whole = shapely.covers(area, shapes)
    some = np.flatnonzero(~whole & shapely.intersects(area, shapes))
    parts, owner = shapely.get_parts(shapely.intersection(shapes[some], area), return_index=True)
    is_line = (shapely.get_type_id(parts) == 1) & (shapely.length(parts) > snap)
    parts, owner = parts[is_line], some[owner[is_line]]
    count = shapely.get_num_coordinates(parts)
    xy = shapely.get_coordinates(parts)
    pair = count_up(count)[1:] > 0
    pieces = np.stack((xy[:-1], xy[1:]), axis=1)[pair] if len(xy) else np.empty((0, 2, 2))
    owner = np.repeat(owner, np.maximum(count - 1, 0))
    cut = np.stack([_on_segment(pieces[:, end], ends[owner], snap) for end in (0, 1)], axis=1)
    kept = np.flatnonzero(whole)
    return np.concatenate((ends[kept], cut)), np.concatenate((kept, owner))


def _on_segment(xy: Floats, ends: Floats, snap: float) -> Floats:
    """Return points of segments with their heights, (k, 3)."""
    share, _ = project(xy, ends[:, 0, :2], ends[:, 1, :2])
    z = ends[:, 0, 2] + share * (ends[:, 1, 2] - ends[:, 0, 2])
    found = np.column_stack((xy, z))
    for end in (0, 1):
        same = np.hypot(*(xy - ends[:, end, :2]).T) <= snap
        found[same] = ends[same, end]
    return found


def faces_in_rings(xy: Floats, faces: Ints, rings: Ints, area: shapely.Geometry) -> Flags:
    """Tell which faces lie in the area, its border being among the edges.

    The largest face of what hangs together tells for all of it, since slivers along the border
    may lie off the border as given.
    """
    part = parts_between(faces, rings)
    corners = xy[faces]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    order = np.lexsort((u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0], part))
    last = order[np.flatnonzero(np.append(part[order][1:] != part[order][:-1], True))]
    inside = np.zeros(len(faces), dtype=bool)
    inside[part[last]] = within(area, corners[last].mean(axis=1))
    return inside[part]


def without_long_edges(xy: Floats, faces: Ints, kept: Ints, longest: float) -> Ints:
    """Drop faces at the border whose outer edge is too long, until there is none.

    Parameters
    ----------
    xy : (n, 2) float
        Vertices.
    faces : (m, 3) int
        The surface.
    kept : (s, 2) int
        Edges that stay, whatever their length.
    longest : float
        Outer edges may be this long.

    Returns
    -------
    (k, 3) int
        The faces left.
    """
    edges = pair_half_edges(faces)
    fixed = np.isin(edge_keys(edges.ends), edge_keys(kept))
    length = np.hypot(*(xy[edges.ends[:, 0]] - xy[edges.ends[:, 1]]).T)
    there = np.ones(len(faces), dtype=bool)
    while True:
        own = there[edges.faces] & (edges.faces >= 0)
        outer = own.sum(axis=1) == 1
        # A face that is the last beside a kept edge stays.
        last = np.zeros(len(faces), dtype=bool)
        last[edges.faces[fixed & outer][own[fixed & outer]]] = True
        long = outer & ~fixed & (length > longest)
        goes = np.zeros(len(faces), dtype=bool)
        goes[edges.faces[long][own[long]]] = True
        goes &= ~last
        # Nor do both faces of a kept edge go at once.
        both = fixed & own.all(axis=1)
        both[both] = goes[edges.faces[both]].all(axis=1)
        goes[edges.faces[both].max(axis=1)] = False
        if not goes.any():
            return faces[there]
        there &= ~goes
