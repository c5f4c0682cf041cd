"""Sites with planted slope breaks, triangulated in several ways, with and without noise.

A street with a crown falls to a flowline, a planting strip of 2 % rises to a lawn of 7 %, and in
the lawn lies a pond with sides of 3:1, its floor parallel to the lawn. All of it climbs by 1 %
along the street. Units are feet. The pond's edges and the edge of the lawn can be rounded, and a
curb can stand at the flowline.
"""

from dataclasses import dataclass

import numpy as np
import shapely

from plugin.core.tin import Tin

CROWN, FLOWLINE, LAWN_EDGE, WIDTH, LENGTH = 15.0, 30.0, 45.0, 120.0, 120.0
POND, RIM, FLOOR, DEPTH = np.array([84.0, 60.0]), 24.0, 15.0, 3.0
CURB, FACE = 0.5, 0.1
"""Height of the curb and width of its face: 500 %, a slope and no wall."""
LAWN = np.array([0.07, 0.01])
"""Gradient of the lawn and of the pond's floor."""


@dataclass(frozen=True)
class Site:
    """A triangulated site and its planted breaks (plan lines, name by name)."""

    vertices: np.ndarray
    faces: np.ndarray
    breaks: dict


def heights(x, y, fillet=0.0, curb=False):
    """Return the design height, its edges rounded over a width of ``fillet``."""
    section = 0.01 * y + 5.0 + 0.02 * x
    section -= 0.04 * np.maximum(x - CROWN, 0)
    section += 0.04 * np.maximum(x - FLOWLINE, 0)
    section += 0.05 * _bend(x - LAWN_EDGE, fillet)
    if curb:
        section += CURB * np.clip((x - FLOWLINE) / FACE, 0, 1)
    radius = np.hypot(x - POND[0], y - POND[1])
    side = DEPTH / (RIM - FLOOR)
    return section - side * (_bend(RIM - radius, fillet) - _bend(FLOOR - radius, fillet))


def _bend(distance, fillet):
    """Return max(distance, 0) with its corner rounded to a parabola of that width."""
    if fillet <= 0:
        return np.maximum(distance, 0)
    share = np.clip(distance / fillet + 0.5, 0, 1)
    return np.where(share < 1, fillet * share * share / 2, np.maximum(distance, 0))


def planted(noise=0.0, seed=0, spacing=3.0, fillet=0.0, on_breaks=True, curb=False, normal=False):
    """Return a site of random triangles about ``spacing`` wide.

    Parameters
    ----------
    noise
        Heights are off by up to so much, evenly spread to both sides.
    on_breaks
        Whether points stand on the breaks themselves; otherwise edges cross them anywhere.
    curb
        Whether a curb stands at the flowline; its points stand on it.
    normal
        Whether the noise is normal instead, with ``noise`` its standard deviation.
    """
    random = np.random.default_rng(seed)
    y = np.arange(0, LENGTH + spacing / 2, spacing)
    x = np.arange(0, WIDTH + spacing / 2, spacing)
    grid = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    inner = (grid > 0).all(axis=1) & (grid < (WIDTH, LENGTH)).all(axis=1)
    grid[inner] += random.uniform(-0.3, 0.3, (inner.sum(), 2)) * spacing
    if on_breaks:
        straight = [CROWN, FLOWLINE, LAWN_EDGE] + [FLOWLINE + FACE] * curb
        fixed = [np.column_stack((np.full(len(y), at), y)) for at in straight]
        for radius in (RIM, FLOOR):
            count = int(2 * np.pi * radius / spacing)
            turn = 2 * np.pi * np.arange(count) / count
            fixed.append(POND + radius * np.column_stack((np.cos(turn), np.sin(turn))))
        fixed = np.concatenate(fixed)
        free = shapely.distance(shapely.points(grid), shapely.multipoints(fixed)) > spacing / 2
        grid = np.concatenate((grid[free], fixed))
    vertices = np.column_stack((grid, heights(*grid.T, fillet, curb)))
    faces = _triangles(grid)
    count = len(grid)
    off = random.normal(0, noise, count) if normal else random.uniform(-noise, noise, count)
    vertices[:, 2] += off
    return Site(vertices, faces, truth(curb))


def _triangles(plan):
    triangles = shapely.delaunay_triangles(shapely.multipoints(plan))
    corners = shapely.get_coordinates(triangles).reshape(-1, 4, 2)[:, :3]
    table, inverse = np.unique(
        np.concatenate((plan, corners.reshape(-1, 2))), axis=0, return_inverse=True
    )
    inverse = inverse.ravel()
    row = np.empty(len(table), int)
    row[inverse[: len(plan)]] = np.arange(len(plan))
    return row[inverse[len(plan) :]].reshape(-1, 3)


def retriangulated(site, seed=0):
    """Return the same points in other triangles: diagonals swapped at random, not on breaks.

    Every second diagonal or so; none that would leave a sliver.
    """
    edges = Tin.from_arrays(site.vertices, site.faces).quick_edges
    xy, faces = site.vertices[:, :2], site.faces.copy()
    lines = np.array(list(site.breaks.values()))
    on = shapely.distance(shapely.points(xy), lines[:, None]) < 0.01
    drawn = on[:, edges.ends].all(axis=2).any(axis=0)

    def doubled(*corners):
        (ax, ay), (bx, by), (cx, cy) = xy[list(corners)]
        return (bx - ax) * (cy - ay) - (by - ay) * (cx - ax)

    done = np.zeros(len(faces), bool)
    for edge in np.random.default_rng(seed).permutation(len(edges.ends)):
        pair = edges.faces[edge]
        if drawn[edge] or (pair < 0).any() or done[pair].any():
            continue
        a, b = edges.ends[edge]
        c, d = faces[pair].sum(axis=1) - a - b
        sides = doubled(c, d, a), doubled(c, d, b)
        if sides[0] * sides[1] < 0 and min(np.abs(sides)) > 0.15 * np.abs(sides).sum():
            faces[pair] = ((c, d, a), (d, c, b)) if sides[0] > 0 else ((d, c, a), (c, d, b))
            done[pair] = True
    return Site(site.vertices, faces, site.breaks)


def truth(curb=False):
    """Return the planted lines in plan."""
    ring = [shapely.Point(POND).buffer(r, quad_segs=64).exterior for r in (RIM, FLOOR)]
    top = {"top of curb": _straight(FLOWLINE + FACE)} if curb else {}
    return {
        "crown": _straight(CROWN),
        "flowline": _straight(FLOWLINE),
        **top,
        "edge of lawn": _straight(LAWN_EDGE),
        "pond rim": ring[0],
        "pond floor": ring[1],
    }


def _straight(x):
    return shapely.LineString([(x, 0), (x, LENGTH)])


def of_one_kind(breaks):
    """Return the planted lines cut where their kind changes.

    The pond's rim is a ridge where the lawn falls away from it and a top where the lawn rises; its
    floor meets the sides in a valley there and in a toe here.
    """
    lines = [line for line in breaks.values() if not line.is_ring]
    uphill = np.arctan2(*LAWN[::-1])
    for radius in (RIM, FLOOR):
        for middle in (uphill, uphill + np.pi):
            turn = middle + np.linspace(-np.pi / 2, np.pi / 2, 65)
            lines.append(
                shapely.LineString(POND + radius * np.column_stack((np.cos(turn), np.sin(turn))))
            )
    return np.array(lines)


def fragments(lines, breaks, tolerance):
    """Return how many of the found lines lie along each planted line of one kind, (n,) int.

    A found line that keeps within the tolerance of planted ones over half of its length belongs
    to the one that it is nearest to on average.
    """
    planted_ = of_one_kind(breaks)
    count = np.zeros(len(planted_), int)
    for number in range(len(lines)):
        plan = shapely.LineString(lines.line(number)[:, :2])
        places = shapely.line_interpolate_point(plan, (np.arange(100) + 0.5) / 100, normalized=True)
        away = shapely.distance(places, planted_[:, None])
        if (away.min(axis=0) <= tolerance).mean() >= 0.5:
            count[away.mean(axis=1).argmin()] += 1
    return count


def recall_precision(lines, breaks, tolerance):
    """Return the shares of planted and of found length that lie within a distance of the other."""
    plan = [shapely.LineString(lines.line(k)[:, :2]) for k in range(len(lines))]
    found, planted_ = shapely.multilinestrings(plan), shapely.MultiLineString(list(breaks))
    near = shapely.length(shapely.intersection(planted_, shapely.buffer(found, tolerance)))
    right = shapely.length(shapely.intersection(found, shapely.buffer(planted_, tolerance)))
    return near / shapely.length(planted_), right / max(shapely.length(found), 1e-9)
