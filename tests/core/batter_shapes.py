"""Meshes cut by zones for the tests of batters, and what a mesh with sides must fulfil."""

from dataclasses import replace

import numpy as np
import shapely

from plugin.core.depth.batter import batter
from plugin.core.depth.manner import BatterRule, Corners, Manner
from plugin.core.depth.patchwork import Part, Patchwork
from plugin.core.depth.zones import Zones, resolve
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance

from .cut_shapes import polygons, random_case, signed_areas

TOLERANCE = Tolerance()


def pits(*rows):
    """Zones of (polygon, depth, batter) rows, with ids 1, 2, ..."""
    shapes, depths, batters = zip(*rows, strict=True)
    return Zones(
        polygons(*shapes),
        np.array(depths, dtype=float),
        np.arange(1, len(rows) + 1),
        batters=np.array(batters, dtype=float),
    )


def plane(width=40.0, height=40.0, slope=(0.0, 0.0), level=100.0, origin=(0.0, 0.0)):
    """A plane in two faces."""
    plan = np.array([(0, 0), (width, 0), (width, height), (0, height)], dtype=float)
    z = level + plan @ np.asarray(slope, dtype=float)
    return Tin.from_arrays(np.column_stack((plan + origin, z)), [(0, 1, 2), (0, 2, 3)])


def patch_of(tin, zones, tolerance=TOLERANCE):
    """The mesh cut by the zones and lowered plumb, counted from its corner, and the zones there."""
    return lowered_patch(tin, cut_tin(tin, zones.polygons, tolerance), zones)


def lowered_patch(tin, cut, zones):
    """A cut lowered plumb, counted from its corner, and the zones there."""
    origin = corner_of(tin)
    z = cut.tin.vertices[cut.tin.faces, 2]
    depths = np.append(zones.depths, 0.0)[cut.zone]
    patch = Patchwork(
        cut.tin.vertices[:, :2] - origin,
        cut.tin.faces,
        z - depths[:, None],
        z,
        cut.zone,
        cut.parent,
        np.where(cut.zone >= 0, Part.BOTTOM, Part.DESIGN).astype(np.int64),
    )
    moved = shapely.transform(zones.polygons, lambda xy: xy - origin)
    return patch, replace(zones, polygons=moved)


def corner_of(tin):
    """Where the points of a mesh are counted from."""
    return np.floor(tin.vertices[:, :2].min(axis=0))


def dug(tin, zones, tolerance=TOLERANCE, **manner):
    """The mesh with sides, the mesh before, and the outcome."""
    patch, local = patch_of(tin, zones, tolerance)
    made, outcome = batter(patch, local, Manner(**manner), tolerance)
    return made, patch, outcome


def random_pits(seed):
    """A surface, disjoint zones with batters, and a manner."""
    tin, zones = random_case(seed)
    random = np.random.default_rng(seed)
    zones = resolve(zones, TOLERANCE)
    zones = replace(zones, batters=random.choice([0.0, 0.5, 1.5, 3.0], size=len(zones)))
    manner = {
        "corners": random.choice(list(Corners)),
        "rule": random.choice(list(BatterRule)),
        "mitre_limit": float(random.choice([1.5, 4.0, 1e3])),
    }
    return tin, zones, manner


def dug_at_random(seed, **manner):
    """As `dug`; what the manner does not say is left to chance."""
    tin, zones, chance = random_pits(seed)
    return dug(tin, zones, **{**chance, **manner})


def largest_jump(patch):
    """Greatest difference of the heights of two faces at a common corner."""
    node, height = patch.faces.ravel(), patch.heights.ravel()
    order = np.lexsort((height, node))
    head = np.flatnonzero(np.append(True, np.diff(node[order]) > 0))
    height = height[order]
    return (np.maximum.reduceat(height, head) - np.minimum.reduceat(height, head)).max()


def cut_volume(patch):
    """Volume between the design and the surface."""
    areas = signed_areas(patch.points, patch.faces)
    return (areas * (patch.design - patch.heights).mean(axis=1)).sum()


def heights_at(patch, xy, tin=None):
    """Heights of the surface and of the design at points, and the face that holds each."""
    xy = xy if tin is None else xy - corner_of(tin)
    mesh = Tin(np.column_stack((patch.points, np.zeros(len(patch.points)))), patch.faces)
    face = mesh.locate(xy)
    a, b, c = (patch.points[patch.faces[face, k]] for k in range(3))
    u, v, p = b - a, c - a, xy - a
    area = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
    second = (p[:, 0] * v[:, 1] - p[:, 1] * v[:, 0]) / area
    third = (u[:, 0] * p[:, 1] - u[:, 1] * p[:, 0]) / area
    weights = np.column_stack((1 - second - third, second, third))
    return (
        (weights * patch.heights[face]).sum(axis=1),
        (weights * patch.design[face]).sum(axis=1),
        face,
    )


def mesh_problems(patch, before):
    """What is wrong with a mesh made from another one; empty when all is well."""
    problems = []
    areas = signed_areas(patch.points, patch.faces)
    area = signed_areas(before.points, before.faces)
    # The cut itself leaves needles narrower than a micrometre: a bit of one may be nothing.
    needle = 2 * area <= 1e-6 * np.ptp(before.points[before.faces], axis=1).max(axis=1)
    empty = (areas <= 0) & (areas > -1e-15) & np.isin(patch.parent, before.parent[needle])
    wrong = (areas <= 0) & ~empty
    if wrong.any():
        problems.append(f"{wrong.sum()} flipped or empty faces")
    if abs(areas.sum() - area.sum()) > 1e-9 * area.sum():
        problems.append("areas do not add up")
    plain = Tin(np.column_stack((patch.points, np.zeros(len(patch.points)))), patch.faces)
    given = Tin(np.column_stack((before.points, np.zeros(len(before.points)))), before.faces)
    if len(plain.edges.nonmanifold) > len(given.edges.nonmanifold):
        problems.append("edges with more than two faces")
    length, old = (
        np.hypot(*np.diff(t.vertices[t.edges.ends[t.edges.boundary], :2], axis=1)[:, 0].T).sum()
        for t in (plain, given)
    )
    if abs(length - old) > 1e-7 * old:
        problems.append("cracks")
    used = np.unique(patch.faces)
    if len(np.unique(patch.points[used], axis=0)) < len(
        np.unique(before.points[np.unique(before.faces)], axis=0)
    ) + len(used) - len(np.unique(before.faces)):
        problems.append("duplicate points")
    if (patch.heights > patch.design + 1e-9).any() and not (before.heights > before.design).any():
        problems.append("above the design")
    return problems
