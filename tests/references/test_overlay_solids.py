"""Volumes between surfaces beside those trimesh and VTK find for the closed solid between them."""

import numpy as np
import pytest
from scipy.spatial import Delaunay

from plugin.core.tin import Tin
from plugin.core.tin.overlay import integrate

trimesh = pytest.importorskip("trimesh")
pytest.importorskip("vtkmodules")

SIZE = 40.0
AROUND = 24


def over_the_square(seed, count):
    """A random surface over one square; its border is always the same broken line."""
    rng = np.random.default_rng(seed)
    t = SIZE * np.arange(AROUND // 4) / (AROUND // 4)
    side = np.stack((t, np.zeros_like(t)), axis=1)
    border = [side, side[:, ::-1] * (-1, 1) + (SIZE, 0)]
    border += [SIZE - side, side[:, ::-1] * (1, -1) + (0, SIZE)]
    inside = rng.uniform(0.5, SIZE - 0.5, (count, 2))
    plan = np.concatenate((*border, inside))
    # The middle between both surfaces is free to cross; the border stands apart by walls.
    return Tin.from_arrays(
        np.column_stack((plan, rng.uniform(0, 6, len(plan)))), Delaunay(plan).simplices
    )


def closed(upper, lower):
    """Both surfaces and upright walls between their borders, as one closed solid."""
    shift = len(upper.vertices)
    at = np.arange(AROUND)
    after = (at + 1) % AROUND
    walls = [np.stack((at + shift, after + shift, after), 1), np.stack((at + shift, after, at), 1)]
    faces = np.concatenate((upper.faces, lower.faces[:, ::-1] + shift, *walls))
    return np.concatenate((upper.vertices, lower.vertices)), faces


@pytest.mark.parametrize("seed", range(6))
@pytest.mark.parametrize("lift", [0.0, 8.0])
def test_net_volume_is_that_of_the_closed_solid(seed, lift):
    """The signed volume of a closed mesh by the divergence theorem: trimesh's `volume`."""
    upper, lower = over_the_square(seed, 150), over_the_square(seed + 50, 90)
    upper = Tin.from_arrays(upper.vertices + np.array((0, 0, lift)), upper.faces)
    solid = trimesh.Trimesh(*closed(upper, lower), process=False)
    assert solid.is_watertight
    total = integrate(upper, lower).total
    assert total.area[0] == pytest.approx(SIZE**2, rel=1e-12)
    assert total.net[0] == pytest.approx(solid.volume, rel=1e-10, abs=1e-9)
    if lift:
        assert total.fill[0] == pytest.approx(0, abs=1e-12) and total.cut[0] > 0
    else:
        assert total.fill[0] > 100 and total.cut[0] > 100


@pytest.mark.parametrize("seed", range(3))
def test_volume_is_that_of_vtk(seed):
    """vtkMassProperties of the closed solid; its projected sums carry about 1e-6 of the volume."""
    from vtkmodules.util.numpy_support import numpy_to_vtk, numpy_to_vtkIdTypeArray
    from vtkmodules.vtkCommonCore import vtkPoints
    from vtkmodules.vtkCommonDataModel import vtkCellArray, vtkPolyData
    from vtkmodules.vtkFiltersCore import vtkMassProperties

    upper, lower = over_the_square(seed, 150), over_the_square(seed + 50, 90)
    upper = Tin.from_arrays(upper.vertices + np.array((0, 0, 8)), upper.faces)
    vertices, faces = closed(upper, lower)
    points, triangles, mesh = vtkPoints(), vtkCellArray(), vtkPolyData()
    points.SetDataTypeToDouble()
    points.SetData(numpy_to_vtk(vertices, deep=True))
    triangles.SetData(3, numpy_to_vtkIdTypeArray(np.ascontiguousarray(faces).ravel(), deep=True))
    mesh.SetPoints(points)
    mesh.SetPolys(triangles)
    mass = vtkMassProperties()
    mass.SetInputData(mesh)
    mass.Update()
    assert integrate(upper, lower).total.cut[0] == pytest.approx(mass.GetVolume(), rel=1e-6)
