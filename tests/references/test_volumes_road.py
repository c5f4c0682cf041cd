"""A real road: finished grade, subgrade and ground, against other ways to the same figures."""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from matplotlib.tri import LinearTriInterpolator, Triangulation

from plugin.core.measure.cells import classify
from plugin.core.measure.classes import Classes
from plugin.core.measure.pair import Pair
from plugin.core.measure.volumes import between_tins
from plugin.core.tin.overlay import cells
from plugin.core.tolerance import Tolerance
from tests.core.tin_shapes import REAL, read_real

pytestmark = pytest.mark.skipif(not REAL.is_dir(), reason="the folder of real files is not here")
TOLERANCE = Tolerance()
PIXEL = 0.25
WIDE = {"0.00": 4250.5, "0.71": 4583.8, "0.78-0.79": 4662.8}  # square metres


@pytest.fixture(scope="module")
def road():
    return {name: read_real(f"road_{name}") for name in ("finished", "subgrade", "ground")}


def measured(upper, lower):
    return between_tins(Pair.of(upper, lower, None, TOLERANCE), None, TOLERANCE).total


def heights(tin, xy, origin):
    """Heights by matplotlib, NaN off the surface."""
    plan = tin.vertices - (*origin, 0.0)
    mesh = Triangulation(plan[:, 0], plan[:, 1], tin.faces[~tin.without_plan_area])
    return LinearTriInterpolator(mesh, plan[:, 2])(*(xy - origin).T).filled(np.nan)


def planes(tin):
    corners = tin.vertices[tin.faces]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    return corners[:, 0], -normal[:, :2] / normal[:, 2:]


def test_subgrade_depths_by_area(road):
    """The road lies 0.78 to 0.79 and 0.71 m above its subgrade, what is not built 0.00."""
    pair = Pair.of(road["finished"], road["subgrade"], None, TOLERANCE)
    edges = np.array([-0.005, 0.005, 0.705, 0.715, 0.775, 0.795])
    sums, _ = classify(pair, Classes(edges, 1e-6), TOLERANCE.snap)
    area = dict(zip(("0.00", "0.71", "0.78-0.79"), sums.area[0, [1, 3, 5]], strict=True))
    whole = sums.area.sum()
    print(", ".join(f"{k} m: {v:.1f} m2, {100 * v / whole:.1f} %" for k, v in area.items()))
    assert area["0.00"] == pytest.approx(WIDE["0.00"], abs=0.5)
    assert area["0.71"] == pytest.approx(WIDE["0.71"], abs=0.5)
    assert area["0.78-0.79"] == pytest.approx(WIDE["0.78-0.79"], abs=0.5)
    # Heights at random places on the same faces, by matplotlib, find the same shares.
    random = np.random.default_rng(2)
    low, high = np.array(pair.upper.extent[:2]), np.array(pair.upper.extent[2:])
    spots = random.uniform(low, high, (200_000, 2))
    off = np.subtract(*(heights(road[name], spots, low) for name in ("finished", "subgrade")))
    known = np.isfinite(off)
    for (name, part), (least, most) in zip(
        area.items(), ((-0.005, 0.005), (0.705, 0.715), (0.775, 0.795)), strict=True
    ):
        share = np.mean((off[known] >= least) & (off[known] < most))
        assert part / whole == pytest.approx(share, abs=4 * np.sqrt(0.2 * 0.8 / known.sum())), name


def test_ground_to_finished_beside_general_polygon_clipping(road):
    """Shapely's tree and intersections, split by the line where the planes meet."""
    upper, lower = road["ground"], road["finished"]
    one, other = (shapely.polygons(t.vertices[t.faces][..., :2]) for t in (upper, lower))
    first, second = shapely.STRtree(other).query(one)
    shared = shapely.intersection(one[first], other[second])
    kept = shapely.area(shared) > 0
    shared, first, second = shared[kept], first[kept], second[kept]
    (p, g), (q, h) = (planes(t) for t in (upper, lower))

    def difference(xy, row):
        a = p[first[row], 2] + ((xy - p[first[row], :2]) * g[first[row]]).sum(1)
        b = q[second[row], 2] + ((xy - q[second[row], :2]) * h[second[row]]).sum(1)
        return a - b

    cut = fill = 0.0
    xy, row = shapely.get_coordinates(shared, return_index=True)
    off = difference(xy, row)
    least, most = np.full(len(shared), np.inf), np.full(len(shared), -np.inf)
    np.minimum.at(least, row, off)
    np.maximum.at(most, row, off)
    middle = shapely.get_coordinates(shapely.centroid(shared))
    volume = shapely.area(shared) * difference(middle, np.arange(len(shared)))
    cut += volume[least >= 0].sum()
    fill -= volume[most <= 0].sum()
    for k in np.flatnonzero((least < 0) & (most > 0)):
        # The half-plane where the difference is positive, as a large quadrilateral.
        slope = g[first[k]] - h[second[k]]
        size = np.hypot(*slope)
        along = np.array([-slope[1], slope[0]]) / size
        at = difference(middle[k : k + 1], np.array([k]))[0]
        foot = middle[k] - slope / size * (at / size)
        far = 1e3
        half = shapely.Polygon(
            [foot - far * along, foot + far * along,
             foot + far * along + far * slope / size, foot - far * along + far * slope / size]
        )  # fmt: skip
        upside = shapely.intersection(shared[k], half)
        part = 0.0
        if upside.area > 0:
            spot = shapely.get_coordinates(shapely.centroid(upside))
            part = upside.area * difference(spot, np.array([k]))[0]
        cut += part
        fill += part - volume[k]
    found = measured(upper, lower)
    print(f"cut {found.cut[0]:.4f} ({cut:.4f}), fill {found.fill[0]:.4f} ({fill:.4f}) m3")
    assert found.cut[0] == pytest.approx(cut, rel=1e-6)
    assert found.fill[0] == pytest.approx(fill, rel=1e-6)


def test_ground_to_finished_beside_a_raster_difference(road):
    """Heights at the centres of 0.25 m pixels, by matplotlib on the same faces."""
    upper, lower = road["ground"], road["finished"]
    west, south = np.maximum(upper.extent[:2], lower.extent[:2])
    east, north = np.minimum(upper.extent[2:], lower.extent[2:])
    x = np.arange(west + PIXEL / 2, east, PIXEL)
    y = np.arange(south + PIXEL / 2, north, PIXEL)
    spots = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2)
    off = heights(upper, spots, (west, south)) - heights(lower, spots, (west, south))
    cut = np.nansum(np.maximum(off, 0)) * PIXEL**2
    fill = np.nansum(np.maximum(-off, 0)) * PIXEL**2
    found = measured(upper, lower)
    print(f"cut {found.cut[0]:.2f} ({cut:.2f}), fill {found.fill[0]:.2f} ({fill:.2f}) m3")
    assert found.cut[0] == pytest.approx(cut, rel=5e-3)
    assert found.fill[0] == pytest.approx(fill, rel=5e-3)


def prisms(cell, upper_z, lower_z):
    """Closed prisms over convex cells as one mesh: tops, bottoms and sides in triangles."""
    corner = np.arange(len(cell.xy))
    size = np.diff(cell.offsets)
    head = np.repeat(cell.offsets[:-1], size)
    after = np.where(corner - head + 1 < np.repeat(size, size), corner + 1, head)
    count = len(corner)
    low, high = corner + count, after + count  # the same corners at the bottom
    fan = (corner != head) & (after != head)
    top = np.column_stack((head, corner, after))[fan]
    faces = [top, top[:, ::-1] + count]
    faces += [np.column_stack((corner, low, high)), np.column_stack((corner, high, after))]
    vertices = np.vstack((np.column_stack((cell.xy, upper_z)), np.column_stack((cell.xy, lower_z))))
    return vertices, np.concatenate(faces)


def test_ground_to_finished_as_prisms_measured_by_trimesh(road):
    """Each cell of the two surfaces as a closed prism, its volume by trimesh."""
    import trimesh

    upper, lower = road["ground"], road["finished"]
    volume = {1: 0.0, -1: 0.0}
    origin = np.array(upper.extent[:2])
    for block in cells(upper, lower):
        whole = np.diff(block.offsets)
        for sign in volume:
            some = np.flatnonzero(block.sign == sign)
            rows = np.isin(np.repeat(np.arange(len(whole)), whole), some)
            offsets = np.concatenate(([0], np.cumsum(whole[some])))
            part = replace(block, offsets=offsets, xy=block.xy[rows] - origin)
            heights_ = block.upper_z[rows] - 100.0, block.lower_z[rows] - 100.0
            solid = trimesh.Trimesh(*prisms(part, *heights_), process=False)
            volume[sign] += sign * solid.volume
    found = measured(upper, lower)
    print(f"cut {found.cut[0]:.4f} ({volume[1]:.4f}), fill {found.fill[0]:.4f} ({volume[-1]:.4f})")
    assert found.cut[0] == pytest.approx(volume[1], rel=1e-6)
    assert found.fill[0] == pytest.approx(volume[-1], rel=1e-6)
