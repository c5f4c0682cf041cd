"""Patchworks to be squared off, and what the result must fulfil."""

import numpy as np
import shapely

from plugin.core.depth.manner import Manner
from plugin.core.depth.patchwork import lay
from plugin.core.depth.square import square_off
from plugin.core.depth.zones import Zones
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tin.edges import pair_half_edges
from plugin.core.tolerance import Tolerance

from .cut_shapes import polygons, signed_areas
from .tin_shapes import grid_faces

MANNER, TOLERANCE = Manner(), Tolerance()


def prism(profile, length=10.0, rows=6):
    """A profile of (x, z) points drawn out along y."""
    x, z = np.asarray(profile, dtype=float).T
    y = np.repeat(np.linspace(0.0, length, rows), len(x))
    vertices = np.column_stack((np.tile(x, rows), y, np.tile(z, rows)))
    return Tin.from_arrays(vertices, grid_faces(len(x), rows))


def fan(rim, apex):
    """Triangles from an apex to a closed rim."""
    count = len(rim)
    around = np.arange(count)
    faces = np.column_stack((np.full(count, count), around, (around + 1) % count))
    return Tin.from_arrays(np.vstack((rim, apex)), faces)


def whole(tin, margin=1.0):
    """A zone over all of a surface, its border well outside."""
    west, south, east, north = tin.extent
    return shapely.box(west - margin, south - margin, east + margin, north + margin)


def laid(tin, shapes, depths=None, tolerance=TOLERANCE):
    """Cut a surface and lay it down plumb."""
    shapes = polygons(*shapes)
    depths = np.zeros(len(shapes)) if depths is None else np.asarray(depths, dtype=float)
    cut = cut_tin(tin, shapes, tolerance)
    return lay(cut, np.append(depths, 0.0), origin_of(tin))


def squared(tin, shapes, squares, depths=None, manner=MANNER, tolerance=TOLERANCE, **more):
    """Square off zones of a surface: patchwork before, after, and the outcome."""
    patch = laid(tin, shapes, depths, tolerance)
    depths = np.zeros(len(shapes)) if depths is None else np.asarray(depths, dtype=float)
    zones = Zones(polygons(*shapes), depths, np.arange(1, len(shapes) + 1))
    zones = Zones(zones.polygons, depths, zones.ids, None, np.asarray(squares, dtype=float))
    after, outcome = square_off(patch, zones, manner, tolerance, **more)
    return patch, after, outcome


def surface(patch, zone=None):
    """A surface of (one zone of) a patchwork, whose heights do not jump."""
    faces = patch if zone is None else patch.take(patch.zone == zone)
    height = np.zeros(len(faces.points))
    height[faces.faces] = faces.heights
    assert np.abs(height[faces.faces] - faces.heights).max() < 1e-9
    return Tin.from_arrays(np.column_stack((faces.points, height)), faces.faces)


def corners(patch):
    """Corners of the faces, (m, 3, 3)."""
    return np.concatenate((patch.points[patch.faces], patch.heights[..., None]), axis=2)


def origin_of(tin):
    """Where the points of a patchwork below a surface count from."""
    return np.floor(tin.vertices[:, :2].min(axis=0))


def distances(patch, tin, scale=1.0):
    """Distance, at right angles, of each corner below the plane of its face of the design."""
    stretch = np.array([1.0, 1.0, scale])
    vertices = (tin.vertices - np.append(origin_of(tin), 0.0)) * stretch
    a, b, c = (vertices[tin.faces[patch.parent, k]] for k in range(3))
    normal = np.cross(b - a, c - a)
    normal /= np.sqrt((normal**2).sum(axis=1))[:, None]
    return -np.einsum("ikj,ij->ik", corners(patch) * stretch - a[:, None], normal)


def whole_faults(before, after):
    """What is wrong in plan with a patchwork made of another one, in a few words each."""
    faults = []
    old, new = (signed_areas(patch.points, patch.faces) for patch in (before, after))
    total = old.sum()
    for zone in np.unique(before.zone):
        was, now = old[before.zone == zone].sum(), new[after.zone == zone].sum()
        if abs(was - now) > 1e-9 * max(was, 1e-3 * total) + 1e-12 * total:
            faults.append(f"area of zone {zone}: {was} became {now}")
    if (new < -1e-12 * total).any():
        faults.append("faces turned over")
    edges = [pair_half_edges(patch.faces) for patch in (before, after)]
    if len(edges[1].nonmanifold) > len(edges[0].nonmanifold):
        faults.append("edges with more than two faces")
    # A crack or a T-junction is border where there was none.
    lengths = []
    for patch, of in zip((before, after), edges, strict=True):
        ends = patch.points[of.ends[of.boundary]]
        lengths.append(np.hypot(*(ends[:, 1] - ends[:, 0]).T).sum())
    if abs(lengths[0] - lengths[1]) > 1e-7 * lengths[0]:
        faults.append("cracks")
    if not (np.isfinite(after.heights).all() and np.isfinite(after.design).all()):
        faults.append("heights that are no numbers")
    return faults
