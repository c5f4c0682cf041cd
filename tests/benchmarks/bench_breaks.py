"""Slope breaks of 2,000,000 triangles, from arrays to lines, beside VTK and trimesh.

Run: python -m tests.benchmarks.bench_breaks [squares along a side]

The surface is a pleated sheet: exact creases every 25 squares, corners elsewhere moved at random.
It is given in row order and shuffled (vertices and faces in random order). Times are the best of
three in this process; memory is the growth of the peak in a process of its own.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

from plugin.core.breaks import Measure
from plugin.core.tin import Tin
from tests.core.breaks_shapes import breaks_of

DEGREES = 1.5
RUNS = 3


def pleated(size, mixed):
    random = np.random.default_rng(0)
    y, x = np.divmod(np.arange((size + 1) ** 2), size + 1)
    crease = x % 25 == 0
    east = np.where(crease, x, x + random.uniform(-0.2, 0.2, len(x)))
    north = y + random.uniform(-0.2, 0.2, len(x))
    fold = east / 50
    vertices = np.column_stack((east + 5e5, north + 6e6, 2.0 * np.abs(fold - np.round(fold))))
    a = (np.arange(size)[:, None] * (size + 1) + np.arange(size)).ravel()
    b, c, d = a + 1, a + size + 2, a + size + 1
    faces = np.stack((a, b, c, a, c, d), axis=1).reshape(-1, 3)
    if mixed:
        order = random.permutation(len(vertices))
        place = np.empty_like(order)
        place[order] = np.arange(len(order))
        vertices, faces = vertices[order], place[faces][random.permutation(len(faces))]
    return vertices, faces


def ours(vertices, faces):
    lines = breaks_of(Tin.from_arrays(vertices, faces), np.radians(DEGREES), measure=Measure.ANGLE)
    return len(lines.edges), len(lines)


def vtk_mesh(vertices, faces):
    from vtkmodules.util.numpy_support import numpy_to_vtk, numpy_to_vtkIdTypeArray
    from vtkmodules.vtkCommonCore import vtkPoints
    from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData

    points, cells, mesh = vtkPoints(), vtkCellArray(), vtkPolyData()
    points.SetDataTypeToDouble()
    points.SetData(numpy_to_vtk(vertices, deep=True))
    cells.SetData(3, numpy_to_vtkIdTypeArray(np.ascontiguousarray(faces).ravel(), deep=True))
    mesh.SetPoints(points)
    mesh.SetPolys(cells)
    return mesh


def by_vtk(mesh):
    """Find feature edges alone: loose segments, not joined, without grades or kinds."""
    from vtkmodules.vtkCommonDataModel import vtkPolyData
    from vtkmodules.vtkFiltersCore import vtkFeatureEdges

    fresh = vtkPolyData()  # so that links made by an earlier run are not used again
    fresh.SetPoints(mesh.GetPoints())
    fresh.SetPolys(mesh.GetPolys())
    finder = vtkFeatureEdges()
    finder.SetInputData(fresh)
    finder.SetFeatureAngle(DEGREES)
    for other in ("Boundary", "NonManifold", "Manifold"):
        getattr(finder, other + "EdgesOff")()
    finder.ColoringOff()
    finder.Update()
    return finder.GetOutput().GetNumberOfCells()


def by_trimesh(vertices, faces):
    """Adjacency and angles alone."""
    import trimesh

    mesh = trimesh.Trimesh(vertices, faces, process=False)
    return int((mesh.face_adjacency_angles > np.radians(DEGREES)).sum())


def best(call, *arguments, runs=RUNS):
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        result = call(*arguments)
        times.append(time.perf_counter() - start)
    return min(times), result


def peak_growth(size, mixed):
    code = (
        "from tests.benchmarks.bench_breaks import *;"
        f"v, f = pleated({size}, {mixed});"
        "open('/proc/self/clear_refs', 'w').write('5');"
        "print(peak()); ours(v, f); print(peak())"
    )
    out = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    before, after = map(float, out.stdout.split())
    return after - before


def peak():
    """Return the largest resident size so far, MB (Linux: since the last reset)."""
    status = Path("/proc/self/status").read_text().splitlines()
    return int(next(line for line in status if line.startswith("VmHWM")).split()[1]) / 1024


def main():
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    print(f"{2 * size * size:,} triangles, {os.cpu_count()} cores, numpy {np.__version__}")
    for mixed in (True, False):
        vertices, faces = pleated(size, mixed)
        seconds, (edges, lines) = best(ours, vertices, faces)
        vtk_seconds, vtk_edges = best(by_vtk, vtk_mesh(vertices, faces))
        tri_seconds, tri_edges = best(by_trimesh, vertices, faces, runs=1)
        print("shuffled" if mixed else "row order")
        print(f"  here    {seconds:6.2f} s  {edges:,} edges in {lines:,} lines")
        print(
            f"  vtk     {vtk_seconds:6.2f} s  {vtk_edges:,} edges   x {vtk_seconds / seconds:.2f}"
        )
        print(
            f"  trimesh {tri_seconds:6.2f} s  {tri_edges:,} edges   x {tri_seconds / seconds:.2f}"
        )
        print(f"  peak memory grows by {peak_growth(size, mixed):.0f} MB over the input arrays")


if __name__ == "__main__":
    main()
