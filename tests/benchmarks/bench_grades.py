"""Time of a check of grades beside face-by-face intersection with shapely.

``python -m tests.benchmarks.bench_grades [thousands of faces]``; prints times and their ratio.
"""

import sys
import time

import numpy as np
import shapely

from plugin.core.lines.bundle import Lines
from plugin.core.measure.grade_check import Asked, check_tin
from plugin.core.measure.grade_rules import Measure
from plugin.core.measure.grades import Limit
from plugin.core.tolerance import Tolerance
from tests.core.cut_shapes import FAR, polygons, sheet


def ground(plan):
    return 100 + np.sin(plan[:, 0] / 40) + np.cos(plan[:, 1] / 30)


def by_intersection(tin, zones, high):
    """Return the failing area of each zone, every face cut by shapely."""
    faces = shapely.polygons(tin.vertices[tin.faces][..., :2])
    steep = np.hypot(*tin.gradients.T) > high
    zone, face = shapely.STRtree(faces).query(zones, predicate="intersects")
    zone, face = zone[steep[face]], face[steep[face]]
    pieces = shapely.intersection(faces[face], zones[zone])
    return np.bincount(zone, shapely.area(pieces), len(zones))


def main(thousands=500):
    side = int(np.sqrt(thousands * 500)) + 1
    tin = sheet(side, side, 1.0, 0.2, 1, FAR, ground)
    _ = tin.gradients
    spots = np.random.default_rng(2).uniform(0.1, 0.9, (40, 2)) * side + FAR
    shapes = [shapely.Point(xy).buffer(side / 25, quad_segs=60) for xy in spots]
    taken = shapely.Polygon()
    for k, shape in enumerate(shapes):
        shapes[k] = shape.difference(taken)
        taken = taken.union(shape)
    zones = polygons(*[shape for shape in shapes if shape.area > 1])
    x = np.linspace(0, side, 400)
    line = Lines.from_arrays([np.column_stack((x, side / 2 + 20 * np.sin(x / 50))) + FAR])
    tolerance = Tolerance.for_unit(1.0)
    high = 0.03
    limits = [Limit(k, Measure.MAX_SLOPE, np.nan, high) for k in range(len(zones))]
    across = [Limit(k, Measure.ACROSS, np.nan, high) for k in range(len(zones))]
    times, totals = {}, {}
    for name, work in {
        "shapely, face by face": lambda: by_intersection(tin, zones, high),
        "max slope": lambda: check_tin(tin, zones, Asked(limits, 0.001), tolerance),
        "across": lambda: check_tin(tin, zones, Asked(across, 0.001, line), tolerance),
    }.items():
        begin = time.perf_counter()
        found = work()
        times[name] = time.perf_counter() - begin
        totals[name] = (
            found if name.startswith("shapely") else [r.figures.failed for r in found.rows]
        )
    worst = np.abs(np.subtract(totals["max slope"], totals["shapely, face by face"])).max()
    print(f"{len(tin.faces):,} faces, {len(zones)} zones; areas agree within {worst:.2g}")
    for name, seconds in times.items():
        print(f"{name:24} {seconds:7.2f} s  {times['shapely, face by face'] / seconds:5.2f} x")


if __name__ == "__main__":
    main(*(int(text) for text in sys.argv[1:]))
