"""Cross sections through a large TIN beside shapely's tree and intersection in the same process.

``python -m tests.benchmarks.bench_sections [faces] [sections]``: prints seconds, the ratio, and how
far the covered widths of the two differ.
"""

import resource
import sys
import time

import numpy as np
import shapely

from plugin.core.lines.bundle import Lines
from plugin.core.measure.section_lines import sections_at
from plugin.core.measure.sections import profiles_of_tin
from plugin.core.tin import Tin
from tests.core.tin_shapes import grid_faces


def site(faces: int) -> Tin:
    """Return a wavy sheet of unit triangles in shuffled order at state-plane coordinates."""
    side = int(np.sqrt(faces / 2)) + 1
    rng = np.random.default_rng(1)
    y, x = np.divmod(np.arange(side * side), side)
    plan = np.column_stack((x, y)) + rng.uniform(-0.3, 0.3, (side * side, 2))
    z = 3 * np.sin(plan[:, 0] / 40) + plan[:, 1] / 50
    order = rng.permutation(len(plan))
    back = np.empty_like(order)
    back[order] = np.arange(len(order))
    triangles = back[grid_faces(side, side)]
    rng.shuffle(triangles)
    points = np.column_stack((plan + np.array([6e6, 2e6]), z))
    return Tin.from_arrays(points[order], triangles)


def main() -> None:
    """Time both."""
    faces = int(sys.argv[1]) if len(sys.argv) > 1 else 500_000
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 200
    tin = site(faces)
    west, south, east, north = tin.extent
    corners = [(west + 60, south + 60), (east - 60, north - 60)]
    lines = Lines.from_arrays([np.array(corners)])
    places = np.linspace(0, lines.lengths[0], count)
    sections = sections_at(lines, np.zeros(count, int), places, 50.0, 50.0)

    began = time.perf_counter()
    profiles = profiles_of_tin(sections, tin)
    own = time.perf_counter() - began

    began = time.perf_counter()
    origin = np.array([west, south])
    polygons = shapely.polygons(tin.vertices[tin.faces][:, :, :2] - origin)
    tree = shapely.STRtree(polygons)
    shapes = sections.geometries(origin)
    section, face = tree.query(shapes, predicate="intersects")
    parts = shapely.intersection(shapes[section], polygons[face])
    width = np.bincount(section, shapely.length(parts), count)
    other = time.perf_counter() - began

    covered = np.bincount(profiles.section, profiles.stop - profiles.start, count)
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{len(tin.faces)} faces, {count} sections, {len(profiles)} pieces")
    print(f"own {own:.2f} s, shapely {other:.2f} s: {other / own:.1f} x")
    print(f"widths differ by at most {np.abs(covered - width).max():.1e}; peak {peak:.0f} MB")


if __name__ == "__main__":
    main()
