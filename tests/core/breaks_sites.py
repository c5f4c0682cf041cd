"""Sites with planted slope breaks, triangulated in several ways, with and without noise.

A street with a crown falls to a flowline, a planting strip of 2 % rises to a lawn of 7 %, and in
the lawn lies a pond with sides of 3:1, its floor parallel to the lawn. All of it climbs by 1 %
along the street. Units are feet. The pond's edges and the edge of the lawn can be rounded.
"""

from dataclasses import dataclass

import numpy as np
import shapely

CROWN, FLOWLINE, LAWN_EDGE, WIDTH, LENGTH = 15.0, 30.0, 45.0, 120.0, 120.0
POND, RIM, FLOOR, DEPTH = np.array([84.0, 60.0]), 24.0, 15.0, 3.0


@dataclass(frozen=True)
class Site:
    """A triangulated site and its planted breaks (plan lines, name by name)."""

    vertices: np.ndarray
    faces: np.ndarray
    breaks: dict


def heights(x, y, fillet=0.0):
    """Return the design height, its edges rounded over a width of ``fillet``."""
    section = 0.01 * y + 5.0 + 0.02 * x
    section -= 0.04 * np.maximum(x - CROWN, 0)
    section += 0.04 * np.maximum(x - FLOWLINE, 0)
    section += 0.05 * _bend(x - LAWN_EDGE, fillet)
    radius = np.hypot(x - POND[0], y - POND[1])
    side = DEPTH / (RIM - FLOOR)
    return section - side * (_bend(RIM - radius, fillet) - _bend(FLOOR - radius, fillet))


def _bend(distance, fillet):
    """Return max(distance, 0) with its corner rounded to a parabola of that width."""
    if fillet <= 0:
        return np.maximum(distance, 0)
    share = np.clip(distance / fillet + 0.5, 0, 1)
    return np.where(share < 1, fillet * share * share / 2, np.maximum(distance, 0))


def planted(noise=0.0, seed=0, spacing=3.0, fillet=0.0, on_breaks=True):
    """Return a site of random triangles about ``spacing`` wide.

    Parameters
    ----------
    noise
        Heights are off by up to so much, evenly spread to both sides.
    on_breaks
        Whether points stand on the breaks themselves; otherwise edges cross them anywhere.
    """
    random = np.random.default_rng(seed)
    y = np.arange(0, LENGTH + spacing / 2, spacing)
    x = np.arange(0, WIDTH + spacing / 2, spacing)
    grid = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    inner = (grid > 0).all(axis=1) & (grid < (WIDTH, LENGTH)).all(axis=1)
    grid[inner] += random.uniform(-0.3, 0.3, (inner.sum(), 2)) * spacing
    fixed = []
    if on_breaks:
        lines = [(CROWN, y), (FLOWLINE, y), (LAWN_EDGE, y)]
        fixed += [np.column_stack((np.full(len(y), at), y)) for at, y in lines]
        for radius in (RIM, FLOOR):
            count = int(2 * np.pi * radius / spacing)
            turn = 2 * np.pi * np.arange(count) / count
            fixed.append(POND + radius * np.column_stack((np.cos(turn), np.sin(turn))))
        fixed = np.concatenate(fixed)
        free = shapely.distance(shapely.points(grid), shapely.multipoints(fixed)) > spacing / 2
        grid = np.concatenate((grid[free], fixed))
    return _triangulated(grid, heights(*grid.T, fillet), noise, random)


def _triangulated(plan, z, noise, random):
    triangles = shapely.delaunay_triangles(shapely.multipoints(plan))
    corners = shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3]
    table, inverse = np.unique(
        np.concatenate((plan, corners.reshape(-1, 2))), axis=0, return_inverse=True
    )
    inverse = inverse.ravel()
    row = np.empty(len(table), int)
    row[inverse[: len(plan)]] = np.arange(len(plan))
    faces = row[inverse[len(plan) :]].reshape(-1, 3)
    z = z + random.uniform(-noise, noise, len(z))
    return Site(np.column_stack((plan, z)), faces, truth())


def truth():
    """Return the planted lines in plan."""
    ring = [shapely.Point(POND).buffer(r, quad_segs=64).exterior for r in (RIM, FLOOR)]
    return {
        "crown": shapely.LineString([(CROWN, 0), (CROWN, LENGTH)]),
        "flowline": shapely.LineString([(FLOWLINE, 0), (FLOWLINE, LENGTH)]),
        "edge of lawn": shapely.LineString([(LAWN_EDGE, 0), (LAWN_EDGE, LENGTH)]),
        "pond rim": ring[0],
        "pond floor": ring[1],
    }


def recall_precision(lines, breaks, tolerance):
    """Return the shares of planted and of found length that lie within a distance of the other."""
    plan = [shapely.LineString(lines.line(k)[:, :2]) for k in range(len(lines))]
    found, planted_ = shapely.multilinestrings(plan), shapely.MultiLineString(list(breaks))
    near = shapely.length(shapely.intersection(planted_, shapely.buffer(found, tolerance)))
    right = shapely.length(shapely.intersection(found, shapely.buffer(planted_, tolerance)))
    return near / shapely.length(planted_), right / max(shapely.length(found), 1e-9)
