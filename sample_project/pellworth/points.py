"""Existing ground, control points and check points of the sample site."""

from dataclasses import dataclass

import numpy as np

from . import figures as f

GROUND_STEP = 20.0
CHECKS = (
    (35.0, 0.0, "crown of the lane"),
    (35.0, -11.1, "back of curb, island side"),
    (78.0, 5.0, "in the crossing"),
    (150.0, 14.0, "planting strip on the arc"),
    (210.0, 12.0, "bus bay, taper"),
    (258.0, 16.0, "bus bay"),
    (258.0, -17.1, "planting-strip break, island side"),
    (258.0, 26.0, "walk behind the bus bay"),
    (300.0, -23.0, "lawn bank"),
    (360.0, 35.0, "lawn, school side"),
    (450.0, -9.75, "gutter"),
    (500.0, 19.0, "walk"),
)
"""Station from the start, offset, what is there."""


@dataclass(frozen=True)
class Point:
    """A point to occupy: control (a monument) or check (on the design)."""

    name: str
    code: str
    position: tuple
    note: str
    station: float = float("nan")
    offset: float = float("nan")


def points(site):
    """Return control points beside the site and check points on the design."""
    found = []
    for number, (u, v, z) in enumerate(((-70.0, -20.0, 511.873), (330.0, 160.0, 515.204)), 1):
        east, north = f.ground((u, v))
        note = "control point, brass disc in concrete"
        found.append(Point(f"CP{number}", "control", (float(east), float(north), z), note))
    where = np.array([f.place(station, offset) for station, offset, _ in CHECKS])
    for number, (xy, z, check) in enumerate(
        zip(where, site.heights(where), CHECKS, strict=True), 1
    ):
        station, offset, note = check
        position = (float(xy[0]), float(xy[1]), round(float(z), f.DECIMALS))
        found.append(Point(f"CK{number}", "check", position, note, station, offset))
    return found


def ground_at(xy):
    """Return the height of the ground before the work at places (k, 2)."""
    vertices, faces, _ = existing_ground()
    height = np.full(len(xy), np.nan)
    for face in faces:
        a, b, c = vertices[face]
        frame = np.stack([b[:2] - a[:2], c[:2] - a[:2]], axis=1)
        share = np.linalg.solve(frame, (xy - a[:2]).T)
        inside = (share >= -1e-9).all(axis=0) & (share.sum(axis=0) <= 1.0 + 1e-9)
        rise = (b[2] - a[2]) * share[0, inside] + (c[2] - a[2]) * share[1, inside]
        height[inside] = a[2] + rise
    return height


def existing_ground():
    """Return vertices, faces and border of the ground before the work: a gentle grid."""
    u = np.arange(-60.0, f.WIDTH + 60.1, GROUND_STEP)
    v = np.arange(-20.0, f.LEG + f.RADIUS + 70.1, GROUND_STEP)
    grid_u, grid_v = np.meshgrid(u, v)
    swell = ((grid_u - 140) / 120) ** 2 * 0.6 - ((grid_v - 60) / 90) ** 2 * 0.4
    z = np.round(511.9 + 0.004 * grid_u + 0.009 * grid_v + swell, f.DECIMALS)
    plan = f.ground(np.stack([grid_u, grid_v], axis=-1))
    vertices = np.concatenate([plan, z[..., None]], axis=-1).reshape(-1, 3)
    index = np.arange(len(vertices)).reshape(grid_u.shape)
    a, b, c, d = index[:-1, :-1], index[:-1, 1:], index[1:, 1:], index[1:, :-1]
    faces = np.concatenate(
        [np.stack([a, b, c], axis=-1).reshape(-1, 3), np.stack([a, c, d], axis=-1).reshape(-1, 3)]
    )
    border = [*index[0], *index[1:, -1], *index[-1, -2::-1], *index[-2:0:-1, 0]]
    return vertices, faces, vertices[border]
