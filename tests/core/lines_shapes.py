"""Lines for tests, and judges of sides that share no code with what they judge."""

import numpy as np
import shapely

from plugin.core.lines.bundle import Lines

L_SHAPE = [(10, 10), (30, 10), (30, 30)]
SQUARE = [(0, 0, 1), (10, 0, 2), (10, 10, 3), (0, 10, 4), (0, 0, 1)]  # anticlockwise
HAIRPIN = [(0, 0, 0), (10, 0, 1), (10, 1, 1.1), (0, 1, 2)]
LOOP = [(0, 0), (10, 0), (10, 5), (5, 5), (5, -5)]  # crosses itself at 5, 0


def lines_of(*lines):
    return Lines.from_arrays([np.array(line, float) for line in lines])


def pieces_of(result):
    """Return (xy, z, station) of each piece."""
    return [
        (result.lines.xy[rows], result.lines.z[rows], result.station[rows])
        for rows in map(result.lines.line, range(len(result.lines)))
    ]


def wander(seed, count=40, bend=0.35, step=(0.5, 4.0)):
    """A line that wanders without crossing itself often, with heights."""
    rng = np.random.default_rng(seed)
    heading = np.cumsum(rng.normal(0, bend, count)) * 0.6
    size = rng.uniform(*step, count)
    xy = np.cumsum(np.column_stack([np.cos(heading), np.sin(heading)]) * size[:, None], axis=0)
    return np.column_stack([xy, 100 + np.cumsum(rng.normal(0, 0.1, count))])


def turned(xy, degrees):
    """Return points turned anticlockwise about the origin."""
    c, s = np.cos(np.radians(degrees)), np.sin(np.radians(degrees))
    plan = xy[:, :2] @ np.array([[c, s], [-s, c]])
    return np.column_stack([plan, xy[:, 2:]])


def brute_signed(line, points):
    """Return the signed distance (right +) of points from a polyline, point by point.

    The nearest segment gives the distance. Where the nearest place is a vertex, a point is right
    of a turn to the right when it is right of both segments, of a turn to the left when it is
    right of either.
    """
    line, result = np.asarray(line, float), []
    a, b = line[:-1], line[1:]
    for p in np.asarray(points, float):
        d = b - a
        t = np.clip(((p - a) * d).sum(1) / (d * d).sum(1), 0, 1)
        gap = np.hypot(*(p - (a + t[:, None] * d)).T)
        k = int(gap.argmin())
        right = d[:, 1] * (p - a)[:, 0] - d[:, 0] * (p - a)[:, 1] > 0
        ties = np.flatnonzero(gap <= gap[k] + 1e-9)
        ring = np.array_equal(line[0], line[-1]) and ties.tolist() == [0, len(a) - 1]
        if len(ties) == 2 and (ties[1] - ties[0] == 1 or ring):
            i, j = ties[::-1] if ring else ties
            cross = d[i, 0] * d[j, 1] - d[i, 1] * d[j, 0]
            side = (right[i] and right[j]) if cross < 0 else (right[i] or right[j])
        else:
            side = right[k]
        result.append(gap[k] if side else -gap[k])
    return np.array(result)


def along(xy, count=40):
    """Return points evenly along a polyline."""
    line = shapely.linestrings(xy[:, :2])
    shares = (np.arange(count) + 0.5) / count
    return shapely.get_coordinates(shapely.line_interpolate_point(line, shares, normalized=True))
