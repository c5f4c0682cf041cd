"""How long layers take to read and write, as ratios to the plainest way in the same process.

Run: ``python tests/benchmarks/bench_layers.py [squares]``.
"""

import os
import sys
import tempfile
import time
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

import numpy as np
from qgis.core import (
    Qgis,
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsMesh,
    QgsMeshLayer,
    QgsProcessingContext,
    QgsProcessingUtils,
    QgsVectorLayer,
)


def timed(action):
    start = time.perf_counter()
    result = action()
    return result, time.perf_counter() - start


def vertex_by_vertex(layer):
    """Read a mesh as the documentation of QGIS shows."""
    mesh = QgsMesh()
    layer.dataProvider().populateMesh(mesh)
    points = [mesh.vertex(index) for index in range(mesh.vertexCount())]
    faces = [mesh.face(index) for index in range(mesh.faceCount())]
    return np.array([(p.x(), p.y(), p.z()) for p in points]), np.array(faces)


def corner_by_corner(layer):
    """Read polygons as the documentation of QGIS shows."""
    return [
        [(point.x(), point.y(), point.z()) for point in feature.geometry().vertices()]
        for feature in layer.getFeatures()
    ]


def main():
    from plugin.layers.fields import fields
    from plugin.layers.meshes import read_mesh, write_ply
    from plugin.layers.polygons import triangle_geometries
    from plugin.layers.sinks import Sink
    from plugin.layers.surfaces import read_surface
    from tests.layers.shapes import SURVEY_FEET, roof

    count = int(sys.argv[1]) if len(sys.argv) > 1 else 300
    vertices, faces = roof(count)
    crs = QgsCoordinateReferenceSystem(SURVEY_FEET)
    print(f"{len(faces)} faces")
    with tempfile.TemporaryDirectory() as folder:
        path = str(Path(folder) / "tin.ply")
        _, wrote = timed(lambda: write_ply(path, (vertices, faces), crs))
        layer = QgsMeshLayer(path, "tin", "mdal")
        _, plain = timed(lambda: vertex_by_vertex(layer))
        _, ours = timed(lambda: read_mesh(layer))
        print(
            f"mesh: write {wrote:.2f} s, read {ours:.2f} s; vertex by vertex {plain / ours:.0f} x"
        )

        columns = fields(("face", int))
        store = str(Path(folder) / "faces.gpkg")

        def write():
            sink, name = QgsProcessingUtils.createFeatureSink(
                store, QgsProcessingContext(), columns, Qgis.WkbType.PolygonZ, crs
            )
            sink = Sink(sink, name, columns, "faces")
            with sink:
                triangles = enumerate(triangle_geometries(vertices[faces]))
                sink.add_many((shape, (row,)) for row, shape in triangles)

        _, wrote = timed(write)
        layer = QgsVectorLayer(store, "faces")
        _, plain = timed(lambda: corner_by_corner(layer))
        tin, ours = timed(lambda: read_surface(layer))
        assert len(tin.faces) == len(faces)
        print(f"faces: write {wrote:.2f} s, read with topology {ours:.2f} s; "
              f"corner by corner, without {plain / ours:.1f} x")  # fmt: skip


if __name__ == "__main__":
    application = QgsApplication([], True)
    application.initQgis()
    main()
    sys.stdout.flush()
    os._exit(0)
