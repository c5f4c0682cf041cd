"""Moving 1,000,000 triangles square to themselves, beside one shapely call on the same triangles.

Run: python -m tests.benchmarks.bench_square [squares along a side] [--quick]

The reference makes a polygon of each triangle and takes its area: the least that work with one
object a face could cost. The cut is given too, because every square depth comes after one.
"""

import sys
import time

import numpy as np
import shapely

from plugin.core.depth.manner import Manner
from plugin.core.depth.patchwork import lay
from plugin.core.depth.square import square_off
from plugin.core.depth.zones import Zones
from plugin.core.tin import Tin
from plugin.core.tin.cut import cut_tin
from plugin.core.tolerance import Tolerance

from .bench_breaks import best
from .bench_cut import ZONES, blobs, sheet


def main():
    sizes = [int(word) for word in sys.argv[1:] if word.isdigit()]
    size = sizes[0] if sizes else 707
    runs = 1 if "--quick" in sys.argv else 3
    tin = Tin.from_arrays(*sheet(size, mixed=False))
    tolerance = Tolerance()
    everything = np.empty(1, dtype=object)
    everything[0] = shapely.box(*tin.extent).buffer(10.0)
    reference, _ = best(polygon_areas, tin, runs=runs)
    print(f"{len(tin.faces)} triangles; polygons and their areas (shapely): {reference:.2f} s")
    for name, shapes in (("one zone", everything), (f"{ZONES} zones", blobs(size))):
        began = time.perf_counter()
        cut = cut_tin(tin, shapes, tolerance)
        cutting = time.perf_counter() - began
        count = len(shapes)
        patch = lay(cut, np.zeros(count + 1), np.floor(tin.vertices[:, :2].min(axis=0)))
        zones = Zones(shapes, np.zeros(count), np.arange(count), None, np.full(count, 0.3))
        took, (_, outcome) = best(square_off, patch, zones, Manner(), tolerance, runs=runs)
        print(
            f"{name}: cut {cutting:.2f} s, square {took:.2f} s = {took / reference:.2f} x shapely;"
            f" residual {outcome.largest_residual:.4f}, missed {outcome.missed},"
            f" trimmed {outcome.trimmed}, held {outcome.held}"
        )


def polygon_areas(tin):
    triangles = tin.vertices[:, :2][tin.faces[:, [0, 1, 2, 0]]]
    return shapely.area(shapely.polygons(triangles)).sum()


if __name__ == "__main__":
    main()
