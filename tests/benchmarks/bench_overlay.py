"""Volumes between two surfaces of 500,000 triangles, beside plain overlays.

Run: python -m tests.benchmarks.bench_overlay [squares along a side] [--quick]

The references run in this process on the same input: shapely's tree with one intersection a pair,
on a share of the faces and scaled up (it is linear in them, but for the tree, which is built over
all), and scipy's linear interpolation sampled at 0.25 m, which triangulates the points anew.
Surfaces are given in row order and shuffled (vertices and faces in random order). Memory is the
growth of the peak in a process of its own.
"""

import subprocess
import sys
import time

import numpy as np
import shapely
from scipy.interpolate import LinearNDInterpolator

from plugin.core.tin import Tin
from plugin.core.tin.overlay import cells, integrate

from .bench_breaks import best, peak  # noqa: F401 - peak is called in the other process

ORIGIN = (5e5, 6e6)
SHARE = 0.05
PIXEL = 0.25


def sheet(size, seed, mixed, turn=0.0):
    """Return vertices and faces of a wavy sheet of ``2 size^2`` triangles about 1 m wide."""
    random = np.random.default_rng(seed)
    y, x = np.divmod(np.arange((size + 1) ** 2), size + 1)
    x, y = (axis + random.uniform(-0.2, 0.2, len(x)) - size / 2 for axis in (x, y))
    east, north = np.cos(turn) * x - np.sin(turn) * y, np.sin(turn) * x + np.cos(turn) * y
    z = 3 * np.sin(east / 60 + seed) * np.cos(north / 45) + random.uniform(0, 0.05, len(x))
    vertices = np.column_stack((east + ORIGIN[0], north + ORIGIN[1], z))
    a = (np.arange(size)[:, None] * (size + 1) + np.arange(size)).ravel()
    b, c, d = a + 1, a + size + 2, a + size + 1
    faces = np.stack((a, b, c, a, c, d), axis=1).reshape(-1, 3)
    if mixed:
        order = random.permutation(len(vertices))
        place = np.empty_like(order)
        place[order] = np.arange(len(order))
        vertices, faces = vertices[order], place[faces][random.permutation(len(faces))]
    return vertices, faces


def pair(size, mixed):
    return sheet(size, 1, mixed), sheet(size, 2, mixed, turn=0.03)


def ours(upper, lower):
    return integrate(Tin.from_arrays(*upper), Tin.from_arrays(*lower)).total


def our_cells(upper, lower):
    return sum(len(some) for some in cells(Tin.from_arrays(*upper), Tin.from_arrays(*lower)))


def planes(vertices, faces):
    corners = vertices[faces]
    one, two = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    normal = np.cross(one, two)
    return corners[:, 0], -normal[:, :2] / normal[:, 2:]


def by_intersection(upper, lower):
    """Volume by tree, intersections and centroids, for a share of the upper faces: scaled."""
    start = time.perf_counter()
    one, other = (shapely.polygons(v[f][:, :, :2]) for v, f in (upper, lower))
    tree = shapely.STRtree(other)
    bases = [planes(*surface) for surface in (upper, lower)]
    made = time.perf_counter() - start
    start = time.perf_counter()
    some = np.sort(np.random.default_rng(3).permutation(len(one))[: int(SHARE * len(one))])
    first, second = tree.query(one[some])
    shared = shapely.intersection(one[some][first], other[second])
    area, middle = shapely.area(shared), shapely.get_coordinates(shapely.centroid(shared))
    kept = area > 0
    first, second = some[first[kept]], second[kept]
    heights = [
        base[row, 2] + np.einsum("ij,ij->i", middle - base[row, :2], slope[row])
        for (base, slope), row in zip(bases, (first, second), strict=True)
    ]
    net = float((area[kept] * (heights[0] - heights[1])).sum())
    return made + (time.perf_counter() - start) / SHARE, net, some


def by_sampling(upper, lower):
    (west, south), (east, north) = upper[0][:, :2].min(axis=0), upper[0][:, :2].max(axis=0)
    x = np.arange(west + PIXEL / 2, east, PIXEL)
    functions = [LinearNDInterpolator(v[:, :2] - ORIGIN, v[:, 2]) for v, _ in (upper, lower)]
    net = 0.0
    for y in np.array_split(np.arange(south + PIXEL / 2, north, PIXEL), 50):
        spots = np.stack(np.meshgrid(x, y), axis=-1).reshape(-1, 2) - ORIGIN
        net += np.nansum(functions[0](spots) - functions[1](spots))
    return net * PIXEL**2


def peak_growth(size, mixed):
    code = (
        "from tests.benchmarks.bench_overlay import *;"
        f"a, b = pair({size}, {mixed});"
        "open('/proc/self/clear_refs', 'w').write('5');"
        "print(peak()); ours(a, b); print(peak())"
    )
    out = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    before, after = map(float, out.stdout.split())
    return after - before


def main():
    sizes = [int(word) for word in sys.argv[1:] if word.isdigit()]
    size = sizes[0] if sizes else 500
    print(f"{2 * size * size:,} triangles over {2 * size * size:,}")
    for mixed in (True, False):
        surfaces = pair(size, mixed)
        print("shuffled" if mixed else "row order")
        seconds, total = best(ours, *surfaces)
        print(f"  integrate     {seconds:6.2f} s  net {total.net[0]:.6f}")
        if "--quick" not in sys.argv:
            other, net, some = by_intersection(*surfaces)
            same = ours((surfaces[0][0], surfaces[0][1][some]), surfaces[1]).net[0]
            print(f"  intersection  {other:6.2f} s, scaled up   x {other / seconds:.1f}")
            print(f"                net of its share {net:.6f}, ours {same:.6f}")
            if not mixed:
                other, net = best(by_sampling, *surfaces, runs=1)
                print(f"  sampling      {other:6.2f} s  net {net:.3f}   x {other / seconds:.1f}")
                other, count = best(our_cells, *surfaces, runs=1)
                print(f"  cells         {other:6.2f} s  {count:,}   x {other / seconds:.1f}")
        print(f"  peak grows by {peak_growth(size, mixed):.0f} MB")
    few, _ = best(ours, *pair(max(size // 3, 1), False), runs=3)
    print(f"9 times the triangles: x {seconds / few:.1f} the time")


if __name__ == "__main__":
    start = time.perf_counter()
    main()
    print(f"in all {time.perf_counter() - start:.0f} s")
