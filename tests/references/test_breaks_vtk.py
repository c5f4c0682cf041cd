"""Break edges against VTK (vtkFeatureEdges) and trimesh, edge for edge."""

import re
from pathlib import Path

import numpy as np
import pytest
import trimesh
from vtkmodules.util.numpy_support import numpy_to_vtk, numpy_to_vtkIdTypeArray, vtk_to_numpy
from vtkmodules.vtkCommonCore import vtkPoints
from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
from vtkmodules.vtkFiltersCore import vtkFeatureEdges

from plugin.core.breaks import Measure
from plugin.core.tin import Tin
from tests.core.breaks_shapes import breaks_of, rough, shuffled

ROAD = Path(__file__).parents[3] / "shared" / "real" / "road_finished.xml"

# Edges with a dihedral angle over so many degrees, as counted by an independent program.
ROAD_EDGES = {1: 5361, 5: 3375, 15: 3257}


def feature_edges(tin, degrees):
    """Return the edges vtkFeatureEdges calls features, as sorted vertex pairs."""
    points = vtkPoints()
    points.SetDataTypeToDouble()
    # A whole number as origin: the subtraction is exact, and points can be told by bytes.
    local = tin.vertices - np.floor(tin.vertices.mean(axis=0))
    points.SetData(numpy_to_vtk(local, deep=True))
    cells = vtkCellArray()
    cells.SetData(3, numpy_to_vtkIdTypeArray(np.ascontiguousarray(tin.faces).ravel(), deep=True))
    mesh = vtkPolyData()
    mesh.SetPoints(points)
    mesh.SetPolys(cells)
    finder = vtkFeatureEdges()
    finder.SetInputData(mesh)
    finder.SetFeatureAngle(degrees)
    finder.SetOutputPointsPrecision(1)
    for other in ("Boundary", "NonManifold", "Manifold"):
        getattr(finder, other + "EdgesOff")()
    finder.ColoringOff()
    finder.Update()
    found = finder.GetOutput()
    places = vtk_to_numpy(found.GetPoints().GetData())
    lines = vtk_to_numpy(found.GetLines().GetConnectivityArray()).reshape(-1, 2)
    number = {place.tobytes(): i for i, place in enumerate(local)}
    ids = np.array([number[place.tobytes()] for place in places])
    return {tuple(sorted(pair)) for pair in ids[lines].tolist()}


def our_edges(tin, degrees):
    lines = breaks_of(tin, np.radians(degrees), measure=Measure.ANGLE)
    return set(map(tuple, tin.quick_edges.ends[lines.edges].tolist()))


def read_road():
    """Read points and visible faces with two patterns, independently of our own reader."""
    text = ROAD.read_text(encoding="iso-8859-1")
    points = re.findall(r'<P id="(\d+)"[^>]*>([^<]*)</P>', text)
    row = {number: i for i, (number, _) in enumerate(points)}
    vertices = np.array([[float(word) for word in words.split()] for _, words in points])
    faces = re.findall(r'<F(?![^>]*i="1")[^>]*>([^<]*)</F>', text)
    faces = [[row[number] for number in words.split()] for words in faces]
    return Tin.from_arrays(vertices[:, [1, 0, 2]], faces)


@pytest.mark.parametrize("degrees", [1, 5, 15])
@pytest.mark.parametrize("seed", [1, 2])
def test_random_tin_against_vtk(degrees, seed):
    tin = Tin.from_arrays(*shuffled(*rough(60, 0.15, seed), seed))
    expected = feature_edges(tin, degrees)
    assert 0 < len(expected) < len(tin.quick_edges.ends)
    assert our_edges(tin, degrees) == expected


@pytest.mark.skipif(not ROAD.exists(), reason="the real road is not beside the project")
@pytest.mark.parametrize(("degrees", "count"), ROAD_EDGES.items())
def test_real_road_against_vtk(degrees, count):
    tin = read_road()
    expected = feature_edges(tin, degrees)
    assert len(expected) == count
    assert our_edges(tin, degrees) == expected


def test_angles_against_trimesh():
    tin = Tin.from_arrays(*rough(40, 0.5, 3))
    mesh = trimesh.Trimesh(tin.vertices, tin.faces, process=False)
    angle = {
        tuple(sorted(pair)): value
        for pair, value in zip(
            mesh.face_adjacency_edges.tolist(), mesh.face_adjacency_angles, strict=True
        )
    }
    lines = breaks_of(tin, 1e-4, measure=Measure.ANGLE)
    for number in range(len(lines)):
        edges = lines.edges[lines.offsets[number] - number : lines.offsets[number + 1] - number - 1]
        ends = tin.quick_edges.ends[edges]
        ours = lines.angle[number]
        length = np.hypot(*(tin.vertices[ends[:, 1], :2] - tin.vertices[ends[:, 0], :2]).T)
        theirs = np.average([angle[tuple(pair)] for pair in ends.tolist()], weights=length)
        # trimesh takes an arc cosine, which knows small angles to 1e-8 only.
        np.testing.assert_allclose(ours, theirs, atol=1e-8)
