"""Surfaces to carry on, and what must hold for every one that has been."""

import numpy as np
import shapely

from plugin.core.tin import Tin
from plugin.core.tin.extend import Extended
from plugin.core.tin.intake import tin_from_faces


def tilted(x, y):
    """A plane of 10 % and 5 %."""
    return 100.0 + 0.1 * x + 0.05 * y


def tin_of(polygon, height=tilted) -> Tin:
    """Triangles of a polygon."""
    triangles = shapely.get_parts(shapely.constrained_delaunay_triangles(polygon))
    xy = shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3]
    return tin_from_faces(np.dstack([xy, height(xy[..., 0], xy[..., 1])]), 0.0)


def plan_of(tin: Tin, faces=slice(None)):
    """The faces in plan, united."""
    origin = np.floor(np.array(tin.extent[:2]))
    return shapely.union_all(shapely.polygons(tin.vertices[tin.faces[faces], :2] - origin))


def checked(given: Tin, extended: Extended, *, rounding=1e-9) -> Extended:
    """Check what holds for every extension: what was given is there, and it fits in plan."""
    tin = extended.tin
    assert np.array_equal(tin.vertices[: len(given.vertices)], given.vertices)
    assert np.array_equal(tin.faces[: len(given.faces)], given.faces)
    assert np.array_equal(extended.new, np.arange(len(tin.faces)) >= len(given.faces))
    assert np.isfinite(tin.vertices).all()
    corners = tin.vertices[tin.faces[extended.new], :2]
    one, other = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    assert (one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0] > 0).all()
    assert len(tin.edges.nonmanifold) == len(given.edges.nonmanifold)
    covered = plan_of(tin).area
    assert abs(tin.plan_area - covered) <= rounding * covered
    assert t_junctions(tin) == t_junctions(given)
    return extended


def t_junctions(tin: Tin) -> int:
    """Count the vertices that lie on a border edge without being its end."""
    origin = np.floor(np.array(tin.extent[:2]))
    ends = tin.edges.ends[tin.edges.boundary]
    lines = shapely.linestrings(tin.vertices[ends, :2] - origin)
    used = np.unique(tin.faces)
    points = shapely.points(tin.vertices[used, :2] - origin)
    point, line = shapely.STRtree(lines).query(points, predicate="dwithin", distance=1e-6)
    place = tin.vertices[used[point], :2]
    at_end = (tin.vertices[ends[line], :2] == place[:, None]).all(axis=2).any(axis=1)
    return int((~at_end).sum())


def codes(extended: Extended) -> list[str]:
    """The kinds of findings."""
    return sorted({finding.code for finding in extended.findings})
