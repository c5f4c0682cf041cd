"""Slope breaks of 2,000,000 triangles, from arrays to lines, beside VTK and trimesh.

Run: python -m tests.benchmarks.bench_breaks [squares along a side]

The surface is a pleated sheet: exact creases every 25 squares, corners elsewhere moved at random.
It is given in row order and shuffled (vertices and faces in random order). All programs start from
the same arrays and are timed turn by turn in this process, best of `RUNS`; memory is the growth of
the peak in a process of its own.

- here: checks, orientation, edges, and whole lines with their kinds and grades on both sides.
- vtk: a copy of the arrays as a mesh, vtkFeatureEdges, and vtkStripper, which joins its segments to
  polylines (none of the rest). vtkFeatureEdges alone is given beside it.
- trimesh: adjacency and angles; no lines.

Then the same sheet with noise of 5 mm: lines face by face after smoothing, and over a width of 3 m,
beside lines face by face.
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
RUNS = 5


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


def by_vtk(vertices, faces):
    """Return the number of segments and polylines, and the seconds of vtkFeatureEdges alone."""
    from vtkmodules.vtkFiltersCore import vtkFeatureEdges, vtkStripper

    mesh = vtk_mesh(vertices, faces)
    start = time.perf_counter()
    finder = vtkFeatureEdges()
    finder.SetInputData(mesh)
    finder.SetFeatureAngle(DEGREES)
    for other in ("Boundary", "NonManifold", "Manifold"):
        getattr(finder, other + "EdgesOff")()
    finder.ColoringOff()
    finder.Update()
    alone = time.perf_counter() - start
    joiner = vtkStripper()
    joiner.SetInputData(finder.GetOutput())
    joiner.SetMaximumLength(10**7)
    joiner.JoinContiguousSegmentsOn()
    joiner.Update()
    return finder.GetOutput().GetNumberOfCells(), joiner.GetOutput().GetNumberOfLines(), alone


def by_trimesh(vertices, faces):
    """Adjacency and angles alone."""
    import trimesh

    mesh = trimesh.Trimesh(vertices, faces, process=False)
    return int((mesh.face_adjacency_angles > np.radians(DEGREES)).sum()), 0


def turn_by_turn(calls, runs=RUNS):
    """Return seconds and results of each call, run by run: a busy machine slows all of them."""
    seconds = {name: [] for name in calls}
    results = {name: [] for name in calls}
    for _ in range(runs):
        for name, call in calls.items():
            start = time.perf_counter()
            results[name].append(call())
            seconds[name].append(time.perf_counter() - start)
    return {name: min(times) for name, times in seconds.items()}, results


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


def beside_others(size, mixed):
    vertices, faces = pleated(size, mixed)
    calls = {
        "here": lambda: ours(vertices, faces),
        "vtk": lambda: by_vtk(vertices, faces),
        "trimesh": lambda: by_trimesh(vertices, faces),
    }
    seconds, results = turn_by_turn(calls)
    seconds["vtkFeatureEdges alone"] = min(alone for _, _, alone in results["vtk"])
    print("shuffled" if mixed else "row order")
    for name, took in seconds.items():
        edges, lines = results[name][0][:2] if name in results else (0, 0)
        found = f"{edges:,} edges in {lines:,} lines" if lines else ""
        print(f"  {name:22} {took:6.2f} s   x {took / seconds['here']:5.2f}  {found}")
    print(f"  peak memory grows by {peak_growth(size, mixed):.0f} MB over the input arrays")


def over_a_width(size):
    vertices, faces = pleated(size, False)
    vertices[:, 2] += np.random.default_rng(1).uniform(-0.005, 0.005, len(vertices))
    calls = {
        "face by face": lambda: breaks_of(Tin.from_arrays(vertices, faces), 0.02),
        "smoothed 5 times": lambda: breaks_of(Tin.from_arrays(vertices, faces), 0.02, smoothing=5),
        "over 3 m": lambda: breaks_of(Tin.from_arrays(vertices, faces), 0.02, support=3.0),
    }
    seconds, results = turn_by_turn(calls, 2)
    print("row order, heights off by up to 5 mm")
    for name, took in seconds.items():
        share = took / seconds["face by face"]
        print(f"  {name:22} {took:6.2f} s   x {share:5.2f}  {len(results[name][0]):,} lines")


def main():
    size = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    print(f"{2 * size * size:,} triangles, {os.cpu_count()} cores, numpy {np.__version__}")
    for mixed in (True, False):
        beside_others(size, mixed)
    over_a_width(size)


if __name__ == "__main__":
    main()
