"""Cutting 1,000,000 triangles by 50 zones with 8,000 border segments, beside plain overlays.

Run: python -m tests.benchmarks.bench_cut [squares along a side] [--quick]

The references are shapely's tree with one intersection a piece and its triangulation, and noded
linework with polygonize; both run in this process on the same input. They make pieces only: they
label nothing, share no vertices, and leave cracks. The surface is given in row order and shuffled
(vertices and faces in random order). Memory is the growth of the peak in a process of its own.
"""

import subprocess
import sys
import time

import numpy as np
import shapely

from plugin.core.depth.surface import depth_surface
from plugin.core.depth.zones import Zones
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance

from .bench_breaks import best, peak  # noqa: F401 - peak is called in the other process

ZONES = 50
CORNERS = 160
ORIGIN = (5e5, 6e6)


def sheet(size, mixed):
    """Return vertices and faces of a wavy sheet of ``2 size^2`` triangles about 1 m wide."""
    random = np.random.default_rng(1)
    y, x = np.divmod(np.arange((size + 1) ** 2), size + 1)
    east, north = (axis + random.uniform(-0.15, 0.15, len(x)) for axis in (x, y))
    z = 3 * np.sin(east / 60) * np.cos(north / 45) + random.uniform(0, 0.05, len(x))
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


def blobs(size):
    """Return wavy rings of zones, ``CORNERS`` corners each, that do not meet."""
    zones = np.empty(ZONES, dtype=object)
    across = int(np.ceil(np.sqrt(ZONES)))
    pitch = size / across
    angle = np.linspace(0, 2 * np.pi, CORNERS, endpoint=False)
    for number in range(ZONES):
        row, column = divmod(number, across)
        radius = pitch * (0.36 + 0.08 * np.sin(5 * angle + number))
        x = ORIGIN[0] + (column + 0.5) * pitch + radius * np.cos(angle)
        y = ORIGIN[1] + (row + 0.5) * pitch + radius * np.sin(angle)
        zones[number] = shapely.Polygon(np.column_stack((x, y)))
    return zones


def ours(vertices, faces, zones):
    return len(cut_tin(Tin.from_arrays(vertices, faces), zones, Tolerance()).zone)


def with_steps(vertices, faces, zones):
    given = Zones(zones, np.linspace(0.2, 0.9, len(zones)), np.arange(len(zones)))
    return len(depth_surface(Tin.from_arrays(vertices, faces), given).zone)


def by_intersection(vertices, faces, zones):
    """Tree, intersection and difference of the faces on borders, triangulation of the pieces."""
    triangles = shapely.polygons(vertices[faces][:, :, :2])
    lines = shapely.boundary(zones)
    on_border = np.unique(shapely.STRtree(triangles).query(lines, predicate="intersects")[1])
    zone, face = shapely.STRtree(triangles[on_border]).query(zones, predicate="intersects")
    some = triangles[on_border]
    inside = shapely.intersection(some[face], zones[zone])
    covered = np.full(len(some), shapely.Polygon(), dtype=object)
    covered[face] = zones[zone]
    pieces = np.concatenate((inside, shapely.difference(some, covered)))
    parts = shapely.get_parts(pieces)
    parts = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
    made = shapely.get_parts(shapely.constrained_delaunay_triangles(parts))
    whole = np.delete(triangles, on_border)
    spots = shapely.centroid(whole)
    shapely.STRtree(zones).query(spots, predicate="within")
    return len(whole) + len(made)


def by_linework(vertices, faces, zones):
    """All edges near borders noded with the borders, polygonized, triangulated."""
    triangles = shapely.polygons(vertices[faces][:, :, :2])
    lines = shapely.boundary(zones)
    on_border = np.unique(shapely.STRtree(triangles).query(lines, predicate="intersects")[1])
    noded = shapely.unary_union(np.concatenate((shapely.boundary(triangles[on_border]), lines)))
    pieces = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    made = shapely.get_parts(shapely.constrained_delaunay_triangles(pieces))
    spots = shapely.centroid(np.concatenate((np.delete(triangles, on_border), made)))
    shapely.STRtree(zones).query(spots, predicate="within")
    return len(spots)


def peak_growth(size, mixed, call):
    code = (
        "from tests.benchmarks.bench_cut import *;"
        f"v, f = sheet({size}, {mixed}); z = blobs({size});"
        "open('/proc/self/clear_refs', 'w').write('5');"
        f"print(peak()); {call}(v, f, z); print(peak())"
    )
    out = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    before, after = map(float, out.stdout.split())
    return after - before


def main():
    sizes = [int(word) for word in sys.argv[1:] if word.isdigit()]
    size = sizes[0] if sizes else 708
    zones = blobs(size)
    print(f"{2 * size * size:,} triangles, {ZONES} zones, {ZONES * CORNERS:,} border segments")
    for mixed in (True, False):
        vertices, faces = sheet(size, mixed)
        print("shuffled" if mixed else "row order")
        seconds, count = best(ours, vertices, faces, zones)
        print(f"  cut             {seconds:6.2f} s  {count:,} faces")
        whole, count = best(with_steps, vertices, faces, zones, runs=1)
        print(f"  depth surface   {whole:6.2f} s  {count:,} faces")
        if "--quick" not in sys.argv:
            for name, call in (("intersection", by_intersection), ("linework", by_linework)):
                other, count = best(call, vertices, faces, zones, runs=1)
                print(f"  {name:15} {other:6.2f} s  {count:,} pieces   x {other / seconds:.1f}")
        for call in ("ours", "with_steps"):
            print(f"  peak of {call} grows by {peak_growth(size, mixed, call):.0f} MB")
    few, _ = best(ours, *sheet(size, False), zones, runs=2)
    less = max(int(size / np.sqrt(10)), 1)
    shift = shapely.transform(zones, lambda xy: (xy - ORIGIN) * (less / size) + ORIGIN)
    small, _ = best(ours, *sheet(less, False), shift, runs=2)
    print(f"10 times the triangles, as many zones and segments: x {few / small:.2f} the time")


if __name__ == "__main__":
    start = time.perf_counter()
    main()
    print(f"in all {time.perf_counter() - start:.0f} s")
