"""Cutting a surface by zones so that each face lies in one of them, without cracks.

Every piece keeps the plane of the face it was cut from, neighbours share vertices by number, and
the vertices of the surface stay where they are.
"""

import numpy as np
import shapely
from numpy.typing import NDArray

from ...progress import Progress, part, silent
from ...tolerance import Tolerance
from ..mesh import Tin
from .borders import Sides, grid_size, node_borders, zones_beside
from .crossings import Crossings, cross
from .divide import Divided, divide
from .label import label_faces, zones_of_cells
from .lookup import OUTSIDE, zones_at
from .near import Band, Marks, Pairing, band_of, faces_near, mark_cells
from .result import CutTin
from .snap import NONE, Linework, snap

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_CELLS_AT_ONCE = 8.0
_GAP = 5.0  # gaps between zones are closed up to this many times the snap distance
_REACH = 16.0  # snapping moves borders by less than this many times the snap distance


def cut_tin(
    tin: Tin,
    polygons: NDArray[np.object_],
    tolerance: Tolerance,
    progress: Progress = silent,
) -> CutTin:
    """Cut a surface along the borders of disjoint polygons.

    Parameters
    ----------
    tin : Tin
        The design.
    polygons : (k,) object
        Disjoint Polygons or MultiPolygons, e.g. of `resolve`; empty ones are no zone.
    tolerance : Tolerance
        Its snap distance is used.
    progress : Progress
        Told the share done.

    Returns
    -------
    CutTin
        The same, but for zone numbers, whatever the order of the polygons.
    """
    origin = np.floor(tin.vertices[:, :2].min(axis=0))
    xyz = tin.vertices.copy()
    xyz[:, :2] -= origin
    xy = np.ascontiguousarray(xyz[:, :2])
    local = shapely.transform(shapely.force_2d(polygons), lambda points: points - origin)
    snap_distance = tolerance.snap
    grid = grid_size(snap_distance)
    reach = _REACH * snap_distance
    progress(0.02)
    points, segments = node_borders(_on_design(local, xy, reach), grid)
    on_design = _on_box(points[segments], xy, reach)
    ends = points[segments[on_design]]
    progress(0.15)
    if not len(ends):
        inside = zones_at(xy[tin.faces[:1]].mean(axis=1), local)
        return _uncut(tin, np.full(len(tin.faces), inside[0]))
    marks = mark_cells(xy, len(tin.faces), ends[:, 0], ends[:, 1], reach)
    near = faces_near(xy, tin.faces, marks)
    zone = _zones_away(tin, xy, near, marks, local)
    progress(0.3)
    if not near.any():
        return _uncut(tin, zone)
    band = band_of(xy, tin.faces, near)
    line = _linework(points, segments)
    pairing = Pairing(xy, band, _CELLS_AT_ONCE * marks.cell, reach)
    pairing.add(line.names[on_design], ends[:, 0], ends[:, 1])
    progress(0.45)
    snap(line, xy, band, pairing, snap_distance)
    sides = zones_beside(line.xy, line.segments, local, _GAP * snap_distance)
    progress(0.55)
    keep = sides.zones[:, 0] != sides.zones[:, 1]
    line.segments, line.names = line.segments[keep], line.names[keep]
    crossings = cross(line, sides.zones[keep], xy, band, pairing, snap_distance)
    progress(0.65)
    divided = divide(crossings, band, xyz, part(progress, 0.65, 0.85))
    progress(0.85)
    return _assemble(
        tin, origin, local, sides, line, crossings, band, divided, zone, _GAP * snap_distance
    )


def _on_design(polygons: NDArray[np.object_], xy: Floats, reach: float) -> NDArray[np.object_]:
    """Empty the polygons that lie off the design, so that noding does not see them."""
    low, high = xy.min(axis=0) - reach, xy.max(axis=0) + reach
    bounds = shapely.bounds(polygons)
    with np.errstate(invalid="ignore"):
        off = ~((bounds[:, :2] <= high).all(axis=1) & (bounds[:, 2:] >= low).all(axis=1))
    kept = polygons.copy()
    kept[off] = shapely.Polygon()
    return kept


def _on_box(ends: Floats, xy: Floats, reach: float) -> NDArray[np.bool_]:
    """Tell which segments may meet the design."""
    low, high = xy.min(axis=0) - reach, xy.max(axis=0) + reach
    return (ends.min(axis=1) <= high).all(axis=1) & (ends.max(axis=1) >= low).all(axis=1)


def _uncut(tin: Tin, zone: Ints) -> CutTin:
    none = np.empty(0, dtype=np.int64)
    return CutTin(tin, zone, np.arange(len(tin.faces)), 0.0, 0, 0.0, none, none, 0)


def _zones_away(
    tin: Tin, xy: Floats, near: NDArray[np.bool_], marks: Marks, polygons: NDArray[np.object_]
) -> Ints:
    """Return the zone of the faces away from borders, (m,) int; near ones are `OUTSIDE` yet."""
    cells = zones_of_cells(marks, polygons)
    zone = np.full(len(tin.faces), OUTSIDE, dtype=np.int64)
    corner = tin.faces[~near, 0]
    zone[~near] = cells[marks.cells_of(xy[corner, 1], 1), marks.cells_of(xy[corner, 0], 0)]
    return zone


def _linework(points: Floats, segments: Ints) -> Linework:
    count = len(points)
    return Linework(
        points.copy(),
        np.full(count, NONE, dtype=np.int64),
        np.full(count, NONE, dtype=np.int64),
        np.zeros(count),
        segments,
        np.arange(len(segments)),
        len(segments),
    )


def _assemble(
    tin: Tin,
    origin: Floats,
    polygons: NDArray[np.object_],
    sides: Sides,
    line: Linework,
    crossings: Crossings,
    band: Band,
    divided: Divided,
    zone: Ints,
    thin: float,
) -> CutTin:
    """Put whole faces and pieces together, label those near borders, drop unused nodes."""
    whole = np.ones(len(tin.faces), dtype=bool)
    whole[band.faces[divided.crossed]] = False
    in_band = np.zeros(len(tin.faces), dtype=bool)
    in_band[band.faces] = True
    kept = np.flatnonzero(whole)
    kept_near = np.flatnonzero(in_band[kept])
    near_faces = np.vstack((tin.faces[kept[kept_near]], divided.faces))
    local = np.vstack((tin.vertices[:, :2] - origin, divided.nodes[:, :2]))
    edges = np.vstack((crossings.chords, crossings.along))
    beside = np.vstack((crossings.chord_sides, crossings.along_sides))
    near_zone, doubtful = label_faces(near_faces, local, edges, beside, polygons, thin)
    zone_kept = zone[kept]
    zone_kept[kept_near] = near_zone[: len(kept_near)]
    doubtful = np.where(
        doubtful < len(kept_near),
        kept_near[np.minimum(doubtful, max(len(kept_near) - 1, 0))] if len(kept_near) else 0,
        doubtful - len(kept_near) + len(kept),
    )
    nodes = divided.nodes.copy()
    nodes[:, :2] += origin
    # Ends of borders that have cancelled each other belong to no face.
    count = len(tin.vertices)
    used = np.zeros(count + len(nodes), dtype=bool)
    used[divided.faces] = True
    used[:count] = True
    number = np.cumsum(used) - 1
    vertices = np.vstack((tin.vertices, nodes[used[count:]]))
    faces = np.vstack((tin.faces[kept], number[divided.faces]))
    for array in (vertices, faces):
        array.flags.writeable = False
    return CutTin(
        Tin(vertices, faces),
        np.concatenate((zone_kept, near_zone[len(kept_near) :])),
        np.concatenate((kept, band.faces[divided.parent])),
        _largest_move(polygons, line),
        sides.closed,
        sides.widest,
        band.faces[np.union1d(divided.loose, crossings.loose)],
        doubtful,
        divided.fallbacks,
    )


def _largest_move(polygons: NDArray[np.object_], line: Linework) -> float:
    """Return the greatest distance of a point of the cut borders from the borders as given."""
    outlines = shapely.boundary(polygons)
    xy, owner = shapely.get_coordinates(shapely.get_parts(outlines), return_index=True)
    follows = owner[1:] == owner[:-1]
    given = shapely.linestrings(np.stack((xy[:-1], xy[1:]), axis=1)[follows])
    points = shapely.points(line.xy[np.unique(line.segments)])
    if not len(points) or not len(given):
        return 0.0
    _, distance = shapely.STRtree(given).query_nearest(
        points, return_distance=True, all_matches=False
    )
    return float(distance.max())
