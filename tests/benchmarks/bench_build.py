"""A surface of 100,000 points and breaklines, beside triangulations that know points only.

Run: python -m tests.benchmarks.bench_build [points] [--qgis]

The references run in this process on the same points and line vertices, without the lines: GEOS
(through shapely) and scipy (Qhull). With ``--qgis`` QGIS's own triangulation runs too, with the
lines; its time grows with the square of the points, and how many segments it lost is printed.
"""

import sys
import time
from itertools import pairwise

import numpy as np
import shapely
from scipy.spatial import Delaunay

from plugin.core.tin.build import Breaklines, Manner, Points, build_tin
from plugin.core.tin.build.insert import edge_keys
from plugin.core.tin.edges import pair_half_edges

ORIGIN = (5e5, 6e6)
PER_LINE = 100


def site(count, seed=1):
    """Return points about 1 m apart and winding lines, a fifth as many line vertices as points."""
    rng = np.random.default_rng(seed)
    size = count**0.5
    plan = rng.random((count, 2)) * size + ORIGIN
    lines = []
    number = count // 5 // PER_LINE
    for k in range(number):
        x = np.linspace(0.05, 0.95, PER_LINE) * size
        y = (k + 0.5) / number * size + 0.2 * size / number * np.sin(x / 9)
        lines.append(np.column_stack((x + ORIGIN[0], y + ORIGIN[1], height(x, y))))
    return np.column_stack((plan, height(*(plan - ORIGIN).T))), lines


def height(x, y):
    return 100 + 2 * np.sin(x / 40) * np.cos(y / 30)


def timed(work, times=3):
    took = []
    for _ in range(times):
        start = time.perf_counter()
        result = work()
        took.append(time.perf_counter() - start)
    return result, min(took)


def qgis_triangulation(points, lines):
    """Return the faces of QGIS's triangulation, and its vertices."""
    from qgis.analysis import QgsMeshTriangulation
    from qgis.core import (
        QgsCoordinateReferenceSystem,
        QgsCoordinateTransform,
        QgsFeature,
        QgsFeedback,
        QgsGeometry,
        QgsLineString,
        QgsPoint,
        QgsVectorLayer,
    )

    def layer(kind, shapes):
        made = QgsVectorLayer(f"{kind}?crs=EPSG:3067", "", "memory")
        features = []
        for shape in shapes:
            feature = QgsFeature()
            feature.setGeometry(QgsGeometry(shape))
            features.append(feature)
        made.dataProvider().addFeatures(features)
        return made

    spots = layer("PointZ", (QgsPoint(*xyz) for xyz in points.tolist()))
    ways = layer("LineStringZ", (QgsLineString([QgsPoint(*p) for p in w.tolist()]) for w in lines))
    start = time.perf_counter()
    work = QgsMeshTriangulation()
    work.setCrs(QgsCoordinateReferenceSystem("EPSG:3067"))
    feedback, same = QgsFeedback(), QgsCoordinateTransform()
    work.addVertices(spots.getFeatures(), -1, same, feedback, len(points))
    work.addBreakLines(ways.getFeatures(), -1, same, feedback, len(lines))
    mesh = work.triangulatedMesh(feedback)
    took = time.perf_counter() - start
    vertices = [(mesh.vertex(k).x(), mesh.vertex(k).y()) for k in range(mesh.vertexCount())]
    return vertices, np.array([list(mesh.face(k)) for k in range(mesh.faceCount())]), took


def lost(vertices, faces, lines):
    """Return how many segments of lines are no edges."""
    number = {vertex: k for k, vertex in enumerate(vertices)}
    chains = [[number.get((x, y), -1) for x, y, _ in line.tolist()] for line in lines]
    ends = np.array([pair for c in chains for pair in pairwise(c)])
    there = np.isin(edge_keys(ends), edge_keys(pair_half_edges(faces).ends))
    return int((~there | (ends < 0).any(axis=1)).sum()), len(ends)


def main():
    sizes = [word for word in sys.argv[1:] if word.isdigit()]
    points, lines = site(int(sizes[0]) if sizes else 100_000)
    given = Points(points, np.arange(len(points)))
    ways = Breaklines(lines, np.arange(len(lines)))
    every = np.concatenate((points, *lines))[:, :2]
    built, ours = timed(lambda: build_tin(given, ways, None, Manner()))
    _, without = timed(lambda: build_tin(given, Breaklines(), None, Manner()))
    _, geos = timed(lambda: shapely.delaunay_triangles(shapely.multipoints(every)))
    _, qhull = timed(lambda: Delaunay(every - every.min(axis=0)))
    print(f"{len(points)} points, {len(lines)} lines, {sum(map(len, lines))} line vertices")
    print(f"{len(built.tin.faces)} faces, {built.honoured:.1f} of {built.given:.1f} m honoured")
    vertices = [tuple(xy) for xy in built.tin.vertices[:, :2].tolist()]
    some = lost(vertices, built.tin.faces, lines)
    print("segments led through a point within the snap distance: {} of {}".format(*some))
    print(f"build_tin with lines {ours:.2f} s, points alone {without:.2f} s")
    for name, took in (("GEOS, points alone", geos), ("scipy, points alone", qhull)):
        print(f"{name} {took:.2f} s: build_tin takes {ours / took:.2f} times as long")
    if "--qgis" in sys.argv:
        found, faces, took = qgis_triangulation(points, lines)
        print(f"QGIS with lines {took:.2f} s: build_tin takes {ours / took:.2f} times as long")
        print("segments QGIS lost: {} of {}".format(*lost(found, faces, lines)))


if __name__ == "__main__":
    main()
