"""Wrong variants of the sample: each fault put into it is found, and the rest stays as it was."""

import numpy as np
import pytest
from qgis.core import QgsCoordinateReferenceSystem, QgsFeatureRequest, QgsVectorLayer

from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from plugin.layers.ply import read_ply
from tests.algorithms.test_check_design import FEET, SAMPLE, rows, run  # noqa: F401

pytestmark = pytest.mark.skipif(not SAMPLE.is_dir(), reason="the sample is not built")
AS_IT_IS = {"pond": 1, "zone_overlap": 1, "feet": 1}


def codes(results):
    found = {}
    for row in rows(results["ISSUES"]):
        found[row["flag"]] = found.get(row["flag"], 0) + 1
    return found


def sample_zones():
    """Return a copy of the zones that can be edited."""
    path = f"{SAMPLE / 'pellworth.gpkg'}|layername=zones"
    source = QgsVectorLayer(path, "zones", "ogr")
    return source.materialize(QgsFeatureRequest())


@pytest.fixture
def surface():
    read = read_ply(str(SAMPLE / "pellworth_design.ply"))
    return Tin.from_arrays(read.vertices, read.faces)


def inner(tin, wanted):
    """Return a vertex clear of the border, nearest to a place given as shares of the extent."""
    xmin, ymin, xmax, ymax = tin.extent
    place = np.array([xmin, ymin]) + wanted * np.array([xmax - xmin, ymax - ymin])
    away = np.hypot(*(tin.vertices[:, :2] - place).T)
    border = np.zeros(len(away), bool)
    border[tin.edges.ends[tin.edges.boundary]] = True
    away[tin.edges.ends[border[tin.edges.ends].any(axis=1)]] = np.inf
    return int(away.argmin())


def hole(xyz, faces, at):
    return xyz, faces[(faces != at).all(axis=1)]


def bust(xyz, faces, at):
    xyz[at, 2] = 0.0
    return xyz, faces


def doubled(xyz, faces, at):
    return xyz, np.vstack([faces, faces[(faces == at).any(axis=1)]])


def torn(xyz, faces, at):
    some = np.flatnonzero((faces == at).any(axis=1))[:2]
    faces[some] = np.where(faces[some] == at, len(xyz), faces[some])
    return np.vstack([xyz, xyz[at] + (0, 0, 0.5)]), faces


def metres(xyz, faces, _at):
    return np.column_stack((xyz[:, :2] * (1200 / 3937), xyz[:, 2])), faces


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (hole, "hole"),
        (bust, "spike"),
        (doubled, "overlap"),
        (torn, "two_heights"),
        (metres, "plan_unit"),
    ],
)
def test_a_wrong_variant_of_the_surface(run, tmp_path, surface, change, code):  # noqa: F811
    at = inner(surface, np.array([0.25, 0.75]))
    xyz, faces = change(surface.vertices.copy(), surface.faces.copy(), at)
    path = str(tmp_path / "wrong.ply")
    write_ply(path, Tin.from_arrays(xyz, faces), QgsCoordinateReferenceSystem(FEET))
    assert code not in AS_IT_IS
    found = codes(run(path))
    assert found[code] == 1
    assert run(path)["COUNT"] > run(str(SAMPLE / "pellworth_design.ply"))["COUNT"]


@pytest.mark.parametrize(
    ("move", "code"),
    [((0.05, 0.0), "zone_gap"), ((3.0, 0.0), "zone_overlap"), ((400.0, 0.0), "zone_beyond")],
)
def test_a_zone_that_was_moved(run, move, code):  # noqa: F811
    layer = sample_zones()
    (walk,) = [f for f in layer.getFeatures() if f["name"] == "Walk"]
    geometry = walk.geometry()
    geometry.translate(*move)
    assert layer.dataProvider().changeGeometryValues({walk.id(): geometry})
    before = codes(run(str(SAMPLE / "pellworth_design.ply"), ZONES=sample_zones()))
    assert before == AS_IT_IS
    found = codes(run(str(SAMPLE / "pellworth_design.ply"), ZONES=layer))
    assert found.get(code, 0) > before.get(code, 0)
