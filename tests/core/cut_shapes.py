"""Surfaces and zones for the cut, random and nearly degenerate, and what a cut must fulfil."""

import numpy as np
import shapely
import shapely.affinity
from scipy.spatial import Delaunay

from plugin.core.depth.patchwork import Part
from plugin.core.depth.zones import Outside, Zones
from plugin.core.tin import Tin
from plugin.core.tin.cut.lookup import zones_around

from .tin_shapes import grid_faces

FAR = np.array([500_000.0, 10_000_000.0])


def polygons(*shapes):
    """An object array, which numpy does not make of polygons by itself."""
    array = np.empty(len(shapes), dtype=object)
    array[:] = shapes
    return array


def zones_of(*pairs, priority=None):
    """Zones of (polygon, depth) pairs, with ids 1, 2, ..."""
    shapes, depths = zip(*pairs, strict=True)
    ids = np.arange(1, len(pairs) + 1)
    return Zones(polygons(*shapes), np.array(depths, dtype=float), ids, priority)


def sheet(columns=9, rows=9, size=1.0, move=0.0, seed=0, origin=(0.0, 0.0), height=None):
    """A grid of squares in two faces each; vertices moved at random by a share of the size."""
    random = np.random.default_rng(seed)
    row, column = np.divmod(np.arange(columns * rows), columns)
    plan = np.column_stack((column, row)) * size
    plan = plan + random.uniform(-move, move, plan.shape) * size
    z = random.uniform(0, 1, len(plan)) if height is None else height(plan)
    return Tin.from_arrays(np.column_stack((plan + origin, z)), grid_faces(columns, rows))


def strips(random, count, origin):
    """A grid whose columns are as narrow as 1 mm: nearly upright faces."""
    x = np.append(0, np.cumsum(random.choice([1e-3, 0.02, 0.5, 2.0], size=count)))
    plan = np.column_stack([axis.ravel() for axis in np.meshgrid(x, np.arange(count + 1.0))])
    z = random.uniform(0, 1, len(plan))
    faces = grid_faces(len(x), count + 1)
    return Tin.from_arrays(np.column_stack((plan + origin, z)), faces)


def scattered(random, count, origin):
    """Delaunay triangles of random points, with holes and skinny faces at the hull."""
    plan = random.uniform(0, count, (int(random.integers(4, 40)), 2))
    faces = Delaunay(plan).simplices
    keep = random.random(len(faces)) > 0.1
    faces = faces[keep] if keep.any() else faces
    z = random.uniform(0, 3, len(plan))
    return Tin.from_arrays(np.column_stack((plan + origin, z)), faces)


def random_surface(random):
    origin = FAR + random.random(2) if random.random() < 0.5 else np.zeros(2)
    count = int(random.integers(2, 12))
    seed = int(random.integers(1 << 30))
    kind = random.integers(4)
    if kind < 2:
        return sheet(count + 1, count + 1, 1.0, 0.15 * kind, seed, origin)
    return strips(random, count, origin) if kind == 2 else scattered(random, count, origin)


def near_things(random, tin, count):
    """Points 1e-12 to 1e-2 beside vertices and edges of a surface, on them, or anywhere."""
    plan, ends = tin.vertices[:, :2], tin.edges.ends
    found = []
    for _ in range(count):
        off = 10 ** random.uniform(-12, -2) * random.normal(size=2) * (random.random() < 0.8)
        kind = random.integers(4)
        if kind == 0:
            place = plan[random.integers(len(plan))]
        elif kind == 1:
            a, b = plan[ends[random.integers(len(ends))]]
            place = a + random.choice([random.random(), 1e-4 * random.random(), 0.5]) * (b - a)
        else:
            place = random.uniform(plan.min(axis=0) - 1, plan.max(axis=0) + 1)
        found.append(place + off)
    return np.array(found)


def random_polygons(random, tin):
    """Up to ten polygons: beside vertices and edges, near-coincident, neighbours, with holes."""
    plan = tin.vertices[:, :2]
    low, high = plan.min(axis=0), plan.max(axis=0)
    made = []
    for _ in range(int(random.integers(1, 11))):
        kind = random.integers(6)
        if kind < 3 or not made:
            points = near_things(random, tin, int(random.integers(3, 9)))
            middle = points.mean(axis=0)
            around = np.argsort(np.arctan2(*(points - middle).T[::-1]))
            shape = shapely.Polygon(points[around])
        elif kind == 3:
            twin = made[int(random.integers(len(made)))]
            off = 10 ** random.uniform(-12, -2) * random.normal(size=2)
            shape = shapely.affinity.translate(twin, *off)
            shape = shapely.affinity.rotate(shape, 10 ** random.uniform(-12, -3))
        elif kind == 4:
            gap = 10 ** random.uniform(-12, -2) * (random.random() < 0.7)
            twin = made[int(random.integers(len(made)))]
            shape = shapely.box(*low, *high).difference(twin.buffer(gap))
        else:
            middle = shapely.Point(near_things(random, tin, 1)[0])
            corners = int(random.integers(1, 8))
            shape = middle.buffer(10 ** random.uniform(-3, 0.5), quad_segs=corners)
            if random.random() < 0.5:
                shape = shape.difference(shape.buffer(-0.3 * random.random()))
        parts = shapely.get_parts(shapely.make_valid(shape))
        parts = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
        shape = parts[0] if len(parts) == 1 else shapely.MultiPolygon(list(parts))
        if shape.area > 1e-9 and shape.is_valid:
            made.append(shape)
    return made or [shapely.box(*low, *(low + high) / 2)]


def random_case(seed):
    """A surface and zones with depths and priorities."""
    random = np.random.default_rng(seed)
    tin = random_surface(random)
    made = random_polygons(random, tin)
    depths = random.choice([0.0, 0.3, 0.3, 0.7, -0.2, 1.1], size=len(made))
    priority = random.permutation(len(made)).astype(float)
    return tin, Zones(polygons(*made), depths, np.arange(len(made)), priority)


def local(tin, of):
    return of.vertices[:, :2] - np.floor(tin.vertices[:, :2].min(axis=0))


def signed_areas(plan, faces):
    a, b, c = (plan[faces[:, k]] for k in range(3))
    u, v = b - a, c - a
    return 0.5 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])


def rounding(tin):
    """What rounding of coordinates may change an area by."""
    span = np.ptp(tin.vertices[:, :2], axis=0).sum()
    return 8 * np.finfo(float).eps * np.abs(tin.vertices[:, :2]).max() * span


def border_length(tin):
    ends = tin.edges.ends[tin.edges.boundary]
    return np.hypot(*(tin.vertices[ends[:, 1], :2] - tin.vertices[ends[:, 0], :2]).T).sum()


def heights_off_planes(tin, result, parent):
    """Distance below the plane of the parent of each corner of each face, (m, 3), and slopes."""
    gradients = tin.gradients[parent]
    known = np.isfinite(gradients).all(axis=1)
    gradients = np.where(known[:, None], gradients, 0.0)
    plan = local(tin, result)
    corner = tin.faces[parent, 0]
    off = plan[result.faces] - local(tin, tin)[corner][:, None]
    plane = tin.vertices[corner, 2][:, None] + np.einsum("ikj,ij->ik", off, gradients)
    square = np.sqrt(1 + (gradients**2).sum(axis=1))[:, None]
    return plane - result.vertices[result.faces, 2], square, known


def mesh_faults(tin, result, parent):
    """What is wrong with a surface made from another one, in a few words each."""
    faults = []
    areas = signed_areas(local(tin, result), result.faces)
    fresh = np.bincount(parent, minlength=len(tin.faces))[parent] > 1
    if (areas[fresh & ~tin.without_plan_area[parent]] <= 0).any():
        faults.append("flipped or empty faces")
    if len(result.edges.nonmanifold) > len(tin.edges.nonmanifold):
        faults.append("edges with more than two faces")
    used = np.unique(result.faces)
    if len(np.unique(result.vertices[used], axis=0)) < len(used):
        faults.append("duplicate vertices")
    return faults


def cut_faults(tin, cut, shapes, labels=True):
    """What is wrong with a cut; empty when all is well."""
    result = cut.tin
    faults = mesh_faults(tin, result, cut.parent)
    if not np.array_equal(result.vertices[: len(tin.vertices)], tin.vertices):
        faults.append("vertices of the design moved")
    new = np.arange(len(tin.vertices), len(result.vertices))
    if not np.isin(new, result.faces).all():
        faults.append("unused vertices")
    areas = signed_areas(local(tin, result), result.faces)
    sums = np.bincount(cut.parent, weights=areas, minlength=len(tin.faces))
    allowed = 1e-9 * tin.plan_area + rounding(tin)
    if (np.abs(sums - tin.plan_areas) > allowed).any():
        faults.append("pieces do not fill their face")
    if abs(result.plan_area - tin.plan_area) > allowed:
        faults.append("areas do not add up")
    # A crack or a T-junction is border where there was none.
    if abs(border_length(result) - border_length(tin)) > 1e-7 * border_length(tin):
        faults.append("cracks")
    off, square, known = heights_off_planes(tin, result, cut.parent)
    extent = max(np.ptp(tin.vertices[:, :2]), np.abs(tin.vertices).max())
    if (np.abs(off / square)[known] > 1e-9 * extent).any():
        faults.append("faces off their plane")
    if len(cut.loose) or len(cut.doubtful):
        faults.append("contradicting borders")
    if labels and not labels_agree(tin, cut, shapes):
        faults.append("wrong zones")
    return faults


def labels_agree(tin, cut, shapes):
    """Tell whether all faces wide enough to tell lie in their zone, by their incentre."""
    corners = cut.tin.vertices[cut.tin.faces, :2]
    sides = np.stack(
        [np.hypot(*(corners[:, k - 2] - corners[:, k - 1]).T) for k in range(3)], axis=1
    )
    around = sides.sum(axis=1)
    radius = 2 * cut.tin.plan_areas / around
    wide = radius > 2e-3 + 4 * cut.largest_move
    spots = np.einsum("ik,ikj->ij", sides[wide], corners[wide]) / around[wide][:, None]
    return np.array_equal(zones_around(spots, radius[wide], shapes), cut.zone[wide])


def depth_faults(tin, zones, outside, depth, surface):
    """What is wrong with a depth surface; empty when all is well."""
    result = surface.tin
    faults = mesh_faults(tin, result, surface.parent)
    if outside is not Outside.LEAVE_OUT:
        if abs(result.plan_area - tin.plan_area) > 1e-9 * tin.plan_area + rounding(tin):
            faults.append("areas do not add up")
        if abs(border_length(result) - border_length(tin)) > 1e-7 * border_length(tin):
            faults.append("cracks")
    elsewhere = depth if outside is Outside.USE_DEPTH else 0.0
    wanted = np.append(zones.depths, elsewhere)[surface.zone][:, None]
    off, square, known = heights_off_planes(tin, result, surface.parent)
    allowed = 1e-9 * max(np.ptp(tin.vertices[:, :2]), np.abs(tin.vertices).max())
    bottom = known & (surface.part != Part.STEP)
    if (np.abs((off - wanted) / square)[bottom] > allowed).any():
        faults.append("bottoms off the plane of the design less the depth")
    if (np.abs(off - surface.depths[result.faces]) / square > allowed)[known].any():
        faults.append("depths of vertices are not those of the surface")
    if (surface.depths[result.faces] > wanted + 1e-12).any():
        faults.append("deeper than its zone")
    volume = (result.plan_areas * surface.depths[result.faces].mean(axis=1)).sum()
    told = surface.quantities.cuts.sum() - surface.quantities.fills.sum()
    if abs(volume - told) > 1e-9 * max(1.0, abs(volume)):
        faults.append("volume")
    if any(finding.code == "unsure" for finding in surface.findings):
        faults.append("contradicting borders")
    return faults
