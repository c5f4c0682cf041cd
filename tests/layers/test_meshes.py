"""Mesh files: exact doubles, the CRS, values on faces; and what of a mesh layer is read."""

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as some
from qgis.core import QgsCoordinateReferenceSystem, QgsMesh, QgsMeshLayer

from plugin.core.errors import SurfaceError
from plugin.core.tin import Tin
from plugin.layers.meshes import dataset_groups, read_mesh, read_ply, write_ply
from plugin.layers.ply import replacing

from .shapes import SURVEY_FEET, roof


def load(path):
    layer = QgsMeshLayer(str(path), "tin", "mdal")
    assert layer.isValid()
    return layer


def test_qgis_reads_the_very_doubles_and_the_crs(qgis_app, tmp_path):
    vertices, faces = roof()
    vertices += np.random.default_rng(1).normal(0, 1e-7, vertices.shape)
    path = tmp_path / "tin.ply"
    write_ply(path, (vertices, faces), QgsCoordinateReferenceSystem(SURVEY_FEET))
    layer = load(path)
    assert layer.crs().authid() == SURVEY_FEET
    mesh = QgsMesh()
    layer.dataProvider().populateMesh(mesh)
    points = [mesh.vertex(index) for index in range(mesh.vertexCount())]
    found = np.array([(point.x(), point.y(), point.z()) for point in points])
    assert found.tobytes() == vertices.tobytes()
    assert [mesh.face(index) for index in range(mesh.faceCount())] == faces.tolist()


def test_values_of_faces_arrive_as_datasets(qgis_app, tmp_path):
    vertices, faces = roof(2)
    depths = np.linspace(0.2, 0.9, len(faces))
    path = tmp_path / "tin.ply"
    write_ply(path, (vertices, faces), None, {"depth": depths, "zone": np.arange(len(faces))})
    layer = load(path)
    assert {"depth", "zone"} <= dataset_groups(layer).keys()
    assert not layer.crs().isValid()
    found = read_ply(path)
    np.testing.assert_array_equal(found.face_values["depth"], depths)
    np.testing.assert_array_equal(found.face_values["zone"], np.arange(len(faces)))


def test_both_ways_of_reading_agree(qgis_app, tmp_path, monkeypatch):
    vertices, faces = roof()
    path = tmp_path / "tin.ply"
    write_ply(path, Tin.from_arrays(vertices, faces))
    fast = read_mesh(load(path))
    monkeypatch.setattr("plugin.layers.meshes._from_file", lambda _layer: None)
    slow = read_mesh(load(path))
    for one, other in zip(fast, slow, strict=True):
        np.testing.assert_array_equal(one, other)


def test_larger_faces_are_kept_whole(qgis_app, tmp_path):
    """In QGIS's own text form of meshes (2DM)."""
    path = tmp_path / "quads.2dm"
    path.write_text(
        "MESH2D\nND 1 0 0 1\nND 2 1 0 1\nND 3 1 1 2\nND 4 0 1 2\nND 5 2 0 1\n"
        "E4Q 1 1 2 3 4 1\nE3T 2 2 5 3 1\n"
    )
    vertices, faces = read_mesh(load(path))
    assert [list(face) for face in faces] == [[0, 1, 2, 3], [1, 4, 2]]
    np.testing.assert_array_equal(vertices[2], [1, 1, 2])


def test_a_mesh_without_faces_is_refused(qgis_app, tmp_path):
    path = tmp_path / "points.2dm"
    path.write_text("MESH2D\nND 1 0 0 1\nND 2 1 0 1\nE2L 1 1 2 1\n")
    with pytest.raises(SurfaceError, match="“tin” has no faces"):
        read_mesh(load(path))


def test_an_old_file_stays_when_writing_fails(qgis_app, tmp_path):
    path = tmp_path / "tin.ply"
    path.write_bytes(b"old")
    vertices, faces = roof(2)
    with pytest.raises(ValueError, match="broadcast"):
        write_ply(path, (vertices, faces), None, {"depth": np.zeros(3)})
    assert path.read_bytes() == b"old"
    assert [file.name for file in tmp_path.iterdir()] == ["tin.ply"]


def test_nothing_half_written_stays(tmp_path):
    path = tmp_path / "tin.ply"
    path.write_bytes(b"old")
    with pytest.raises(ZeroDivisionError), replacing(path) as partial:
        partial.write_bytes(bytes(1 // len(partial.read_bytes())))
    assert path.read_bytes() == b"old"
    assert [file.name for file in tmp_path.iterdir()] == ["tin.ply"]


def test_no_folder_is_one_sentence(qgis_app, tmp_path):
    with pytest.raises(SurfaceError, match="cannot be written: No such file"):
        write_ply(tmp_path / "none" / "tin.ply", roof(2))


def test_a_result_is_readable_by_others(qgis_app, tmp_path):
    """A temporary file is private to its user; a result is as any new file."""
    write_ply(tmp_path / "tin.ply", roof(2))
    (tmp_path / "plain").write_text("")
    modes = {(tmp_path / name).stat().st_mode for name in ("tin.ply", "plain")}
    assert len(modes) == 1


HEADER = b"ply\nformat binary_little_endian 1.0\nelement vertex 3\nproperty double x\n"


@pytest.mark.parametrize(
    ("content", "why"),
    [
        (b"", "no PLY header"),
        (b"solid cube\n", "no PLY header"),
        (b"ply\nformat ascii 1.0\nelement vertex 0\nend_header\n", "not a binary PLY file"),
        (HEADER + b"end_header\n", "something else than vertices and triangles"),
        (
            HEADER + b"property double y\nproperty double z\nelement face 1\n"
            b"property list uchar uint vertex_indices\nend_header\n" + bytes(80),
            "cut short",
        ),
        (
            HEADER + b"property double y\nproperty double z\nelement face 1\n"
            b"property list uchar uint vertex_indices\nend_header\n"
            + bytes(72)
            + b"\x04"
            + bytes(16),
            "not triangles",
        ),
        (
            HEADER + b"property double y\nproperty double z\nelement face 1\n"
            b"property list uchar uint vertex_indices\nend_header\n"
            + bytes(72)
            + b"\x03"
            + np.array([0, 1, 3], "<u4").tobytes(),
            "vertex that is not there",
        ),
    ],
)
def test_what_is_no_tin_is_refused(tmp_path, content, why):
    path = tmp_path / "bad.ply"
    path.write_bytes(content)
    with pytest.raises(SurfaceError, match=why):
        read_ply(path)


coordinate = some.floats(allow_nan=False, allow_infinity=False, width=64)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(
    vertices=some.lists(some.tuples(*[coordinate] * 3), min_size=3, max_size=9),
    order=some.randoms(use_true_random=False),
)
def test_any_numbers_come_back(tmp_path, vertices, order):
    """The reading is ours too: the test above has QGIS read what we write."""
    array = np.array(vertices)
    faces = np.array([order.sample(range(len(array)), 3) for _ in range(4)])
    write_ply(tmp_path / "any.ply", (array, faces))
    found = read_ply(tmp_path / "any.ply")
    assert found.vertices.tobytes() == array.tobytes()
    np.testing.assert_array_equal(found.faces, faces)
