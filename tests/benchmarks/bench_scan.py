"""A surface of 1,000,000 triangles laid on a grid of 4096 x 4096, beside sampling every centre.

Run: python -m tests.benchmarks.bench_scan [squares along a side] [pixels along a side]

The peers get a part of the rows and triangles of the same surface; their time is per pixel.
Scipy gets the same points but makes triangles of its own, and so does gdal_grid.
"""

import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from plugin.core.grid import Grid
from plugin.core.tin import Tin
from plugin.core.tin.scan import Scan

from .bench_tin_sample import CORNER, surface

STRIP = 256


def timed(work):
    start = time.perf_counter()
    result = work()
    return time.perf_counter() - start, result


def scan_all(tin, grid):
    """All strips, from a surface that knows nothing yet."""
    scan = Scan(Tin(tin.vertices, tin.faces), grid)
    least = np.inf
    for row in range(0, grid.rows, STRIP):
        heights = scan.heights(row, min(STRIP, grid.rows - row))
        least = min(least, float(np.nanmin(heights)))
    return least


def with_scipy(tin, centres):
    from scipy.interpolate import LinearNDInterpolator

    plan = tin.vertices[:, :2] - CORNER
    return LinearNDInterpolator(plan, tin.vertices[:, 2])(centres - CORNER)


def with_gdal_grid(tin, size, pixels):
    with tempfile.TemporaryDirectory() as folder:
        table = Path(folder) / "points.csv"
        np.savetxt(table, tin.vertices, delimiter=",", header="x,y,z", comments="", fmt="%.6f")
        source = Path(folder) / "points.vrt"
        source.write_text(
            f"<OGRVRTDataSource><OGRVRTLayer name='points'><SrcDataSource>{table}</SrcDataSource>"
            "<GeometryField encoding='PointFromColumns' x='x' y='y' z='z'/>"
            "</OGRVRTLayer></OGRVRTDataSource>"
        )
        words = f"gdal_grid -q -l points -a linear:radius=0 -txe {CORNER[0]} {CORNER[0] + size}"
        words += f" -tye {CORNER[1]} {CORNER[1] + size} -outsize {pixels} {pixels}"
        words += f" {source} {folder}/o.tif"
        subprocess.run(words.split(), check=True)


def main():
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 707
    pixels = int(sys.argv[2]) if len(sys.argv) > 2 else 4096
    for mixed in (True, False):
        tin = surface(size, mixed)
        grid = Grid(CORNER[0], CORNER[1] + size, size / pixels, -size / pixels, pixels, pixels)
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        took, _ = timed(lambda tin=tin, grid=grid: scan_all(tin, grid))
        peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        print(
            f"{len(tin.faces)} faces to {pixels} x {pixels}, {'shuffled' if mixed else 'in rows'}:"
            f" {took:.2f} s, memory {before / 1024:.0f} -> {peak / 1024:.0f} MB"
        )
    each = took / pixels**2
    rows = pixels // 16
    centres = grid.centres(pixels // 2, rows)
    sampled, (heights, _) = timed(lambda: tin.sample(centres))
    ours = Scan(tin, grid).heights(pixels // 2, rows).ravel()
    print(f"  Tin.sample: {sampled / len(centres) / each:.1f} x per pixel,", end=" ")
    print(f"largest difference {np.nanmax(np.abs(ours - heights)):.1e}")
    part = size // 4
    small = surface(part, False)
    few = pixels // 4
    cut = Grid(CORNER[0], CORNER[1] + part, part / few, -part / few, few, few)
    ours, _ = timed(lambda: scan_all(small, cut))
    scipy, _ = timed(lambda: with_scipy(small, cut.centres(0, few)))
    print(f"  {len(small.faces)} faces to {few} x {few}: {ours:.3f} s; scipy {scipy / ours:.0f} x,")
    gdal, _ = timed(lambda: with_gdal_grid(small, part, few))
    print(f"  gdal_grid (linear) {gdal / ours:.0f} x")


if __name__ == "__main__":
    main()
