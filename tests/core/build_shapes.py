"""What the tests of built surfaces share: short ways to build, and what must hold of any result."""

from itertools import pairwise

import numpy as np
import shapely

from plugin.core.tin.build import Boundary, Breaklines, Manner, Points, build_tin
from plugin.core.tin.edges import pair_half_edges

SNAP = 1e-4


def build(points=(), lines=(), boundary=None, **manner):
    """Build of plain lists; ids count from 1."""
    xyz = np.array(points, dtype=float).reshape(-1, 3)
    arrays = [np.array(line, dtype=float) for line in lines]
    return build_tin(
        Points(xyz, np.arange(1, len(xyz) + 1)),
        Breaklines(arrays, np.arange(1, len(arrays) + 1)),
        boundary,
        Manner(**manner),
    )


def boundary_of(*rings, heights=False):
    """Return a boundary of closed rings; those within others are holes."""
    closed = [np.array([*ring, ring[0]], dtype=float) for ring in rings]
    area = shapely.build_area(shapely.multilinestrings([ring[:, :2] for ring in closed]))
    return Boundary(area, closed if heights else (), np.arange(1, len(closed) + 1))


def box(x0, y0, x1, y1, z=None):
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    return corners if z is None else [(*corner, z) for corner in corners]


def edge_set(tin):
    return {tuple(pair) for pair in pair_half_edges(tin.faces).ends.tolist()}


def volume(tin):
    return float((tin.plan_areas * tin.vertices[tin.faces, 2].mean(axis=1)).sum())


def chains(tin, line):
    """Return the vertices along each segment of a line, by number."""
    plan = shapely.points(tin.vertices[:, :2])
    found = []
    for start, stop in pairwise(line):
        segment = shapely.linestrings([start[:2], stop[:2]])
        on = np.flatnonzero(shapely.dwithin(plan, segment, SNAP))
        found.append(on[np.argsort(shapely.line_locate_point(segment, plan[on]), kind="stable")])
    return found


def assert_honoured(tin, lines):
    """Every vertex of every line is one of the surface, exactly, and edges join them."""
    known = {tuple(vertex) for vertex in tin.vertices.tolist()}
    edges = edge_set(tin)
    for line in (np.asarray(line, dtype=float) for line in lines):
        assert {tuple(vertex) for vertex in line.tolist()} <= known
        for chain, start, stop in zip(chains(tin, line), line[:-1], line[1:], strict=True):
            assert tuple(tin.vertices[chain[0]]) == tuple(start)
            assert tuple(tin.vertices[chain[-1]]) == tuple(stop)
            pairs = np.sort(np.column_stack((chain[:-1], chain[1:])), axis=1).tolist()
            assert {tuple(pair) for pair in pairs} <= edges


def not_delaunay(tin, lines=()):
    """Return the edges that are on no line and have a vertex in the circle of a face beside."""
    fixed = {
        tuple(sorted(pair))
        for line in lines
        for chain in chains(tin, line)
        for pair in pairwise(chain.tolist())
    }
    edges = pair_half_edges(tin.faces)
    inner = np.flatnonzero((edges.faces >= 0).all(axis=1))
    tips = []
    for side in (0, 1):
        corners = tin.faces[edges.faces[inner, side]]
        own = (corners[:, :, None] == edges.ends[inner][:, None, :]).any(axis=2)
        tips.append(corners[~own])
    xy = tin.vertices[:, :2]
    a, b = xy[edges.ends[inner, 0]], xy[edges.ends[inner, 1]]
    angles = [_angle(a, xy[tip], b) for tip in tips]
    # Opposite angles of a quadrilateral in one circle add up to half a turn (Euclid III.22).
    bad = inner[angles[0] + angles[1] > np.pi + 1e-7]
    return [pair for pair in map(tuple, edges.ends[bad].tolist()) if pair not in fixed]


def _angle(a, tip, b):
    u, v = a - tip, b - tip
    return np.arctan2(np.abs(u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]), (u * v).sum(axis=1))


def assert_sound(tin, area):
    """Faces are counter-clockwise, overlap nowhere and cover the area."""
    corners = tin.vertices[tin.faces, :2]
    u, v = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    doubled = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    assert (doubled > 0).all()
    assert len(tin.edges.nonmanifold) == 0
    assert np.isclose(doubled.sum() / 2, area, rtol=1e-9, atol=1e-3)
