"""The few faces whose pieces have holes, pinches or many corners: one at a time, through GEOS.

A border that lies wholly inside a face leaves an island, which tracing cannot join to the outline.
"""

from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from .pieces import Rings
from .triangulate import LARGEST, triangulate_rings

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_AREA_SHARE = 1e-9


def divide(
    outline: Ints, positions: dict[int, tuple[float, float]], sides: dict[int, int], chords: Ints
) -> tuple[Ints, bool]:
    """Triangulate one face with chords in it.

    Parameters
    ----------
    outline : (r,) int
        Nodes of the outline, counter-clockwise.
    positions : dict
        Plane position of each node of the outline and the chords; distinct.
    sides : dict
        Bit k is set where a node lies on side k of the face (0 inside).
    chords : (c, 2) int
        Nodes of the chords.

    Returns
    -------
    triangles : (t, 3) int
        Nodes; every chord is a side of triangles.
    whole : bool
        False where the chords contradict each other; they are then left out.
    """
    ring = np.array([positions[node] for node in outline])
    area = shapely.Polygon(ring).area
    parts = np.vstack((np.column_stack((outline, np.roll(outline, -1))), chords))
    lines = shapely.linestrings([[positions[a], positions[b]] for a, b in parts])
    polygons = shapely.get_parts(shapely.polygonize(lines))
    node_at = {position: node for node, position in positions.items()}
    if abs(shapely.area(polygons).sum() - area) <= _AREA_SHARE * area:
        found = [_triangulate(polygon, node_at, sides) for polygon in polygons]
        done = [triangles for triangles in found if triangles is not None]
        if len(done) == len(polygons):
            return np.vstack(done), True
    plain = _triangulate(shapely.Polygon(ring), node_at, sides)
    return (np.empty((0, 3), dtype=np.int64) if plain is None else plain), False


def _triangulate(
    polygon: shapely.Polygon,
    node_at: dict[tuple[float, float], int],
    sides: dict[int, int],
) -> Ints | None:
    """Triangulate a polygon whose corners are all known nodes; None if it cannot be done."""
    polygon = shapely.orient_polygons(polygon)
    corners = shapely.get_coordinates(polygon.exterior)[:-1]
    if not len(polygon.interiors) and len(corners) <= LARGEST:
        nodes = np.array([node_at[x, y] for x, y in corners])
        rings = Rings(nodes, np.array([0, len(nodes)]), np.zeros(1, dtype=np.int64))
        bits = np.array([sides[node] for node in nodes])
        triangles, _, failed = triangulate_rings(rings, corners, bits)
        return None if len(failed) else triangles
    pieces = shapely.get_parts(shapely.constrained_delaunay_triangles(polygon))
    corners = shapely.get_coordinates(pieces).reshape(-1, 4, 2)[:, :3]
    nodes = np.array([[node_at[x, y] for x, y in triangle] for triangle in corners])
    turn = _turn(*(corners[:, k] for k in range(3)))
    nodes[turn < 0] = nodes[turn < 0][:, ::-1]
    if not _covers(nodes, np.abs(turn).sum() / 2, polygon, node_at):
        return None
    return _without_flat(nodes, {node: position for position, node in node_at.items()}, sides)


def _covers(
    triangles: Ints,
    area: float,
    polygon: shapely.Polygon,
    node_at: dict[tuple[float, float], int],
) -> bool:
    """Tell whether triangles fill a polygon and have all its sides."""
    if abs(area - polygon.area) > _AREA_SHARE * polygon.area:
        return False
    have = {(int(row[k]), int(row[k - 2])) for row in triangles for k in range(3)}
    for ring in (polygon.exterior, *polygon.interiors):
        nodes = [node_at[x, y] for x, y in shapely.get_coordinates(ring)]
        if any(side not in have for side in pairwise(nodes)):
            return False
    return True


def _turn(a: Floats, b: Floats, c: Floats) -> Floats:
    return (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])


def _without_flat(
    triangles: Ints, positions: dict[int, tuple[float, float]], sides: dict[int, int]
) -> Ints | None:
    """Flip triangles with three nodes on one side of the face into their neighbours."""
    rows = [tuple(int(node) for node in row) for row in triangles]
    for _ in range(4 * len(rows)):
        flat = next((row for row in rows if sides[row[0]] & sides[row[1]] & sides[row[2]]), None)
        if flat is None:
            return np.array(rows)
        long = max(range(3), key=lambda k: _distance(positions, flat[k], flat[(k + 1) % 3]))
        a, b, middle = flat[long], flat[(long + 1) % 3], flat[(long + 2) % 3]
        mate = next((row for row in rows if row != flat and a in row and b in row), None)
        if mate is None:
            return None
        apex = next(node for node in mate if node not in (a, b))
        rows.remove(flat)
        rows.remove(mate)
        rows += [(b, middle, apex), (middle, a, apex)] if _is_left(mate, b, a) else []
    return None


def _is_left(row: tuple[int, ...], start: int, stop: int) -> bool:
    at = row.index(start)
    return row[(at + 1) % 3] == stop


def _distance(positions: dict[int, tuple[float, float]], a: int, b: int) -> float:
    (x1, y1), (x2, y2) = positions[a], positions[b]
    return float(np.hypot(x2 - x1, y2 - y1))
