"""A surface on a grid beside scipy's interpolation over the same Delaunay triangles, and VTK's
probe of the same faces."""

import numpy as np
import pytest

from plugin.core.grid import Grid
from plugin.core.tin import Tin
from plugin.core.tin.scan import Scan

scipy_interpolate = pytest.importorskip("scipy.interpolate", reason="scipy is not installed")
scipy_spatial = pytest.importorskip("scipy.spatial", reason="scipy is not installed")


def case(seed):
    rng = np.random.default_rng(seed)
    plan = rng.uniform(0, 100, (500, 2))
    mesh = scipy_spatial.Delaunay(plan)
    z = rng.uniform(0, 20, 500)
    return plan, z, mesh, Grid(-2.3, 101.9, 0.61, -0.53, 170, 196)


@pytest.mark.parametrize("seed", range(3))
def test_heights_as_scipy(seed):
    plan, z, mesh, grid = case(seed)
    heights = Scan(Tin.from_arrays(np.column_stack([plan, z]), mesh.simplices), grid).heights(
        0, 196
    )
    theirs = scipy_interpolate.LinearNDInterpolator(mesh, z)(grid.centres(0, 196))
    assert np.array_equal(np.isnan(heights.ravel()), np.isnan(theirs))
    np.testing.assert_allclose(heights.ravel(), theirs, rtol=0, atol=1e-9)


def test_heights_as_vtk():
    vtk = pytest.importorskip("vtk", reason="vtk is not installed")
    from vtk.util.numpy_support import numpy_to_vtk, vtk_to_numpy

    plan, z, mesh, grid = case(7)
    points = vtk.vtkPoints()
    points.SetData(numpy_to_vtk(np.column_stack([plan, np.zeros(len(plan))]), deep=True))
    cells = vtk.vtkCellArray()
    for face in mesh.simplices.tolist():
        cells.InsertNextCell(3, face)
    surface = vtk.vtkPolyData()
    surface.SetPoints(points)
    surface.SetPolys(cells)
    values = numpy_to_vtk(z, deep=True)
    values.SetName("z")
    surface.GetPointData().AddArray(values)
    asked = vtk.vtkPoints()
    centres = grid.centres(0, 196)
    asked.SetData(numpy_to_vtk(np.column_stack([centres, np.zeros(len(centres))]), deep=True))
    where = vtk.vtkPolyData()
    where.SetPoints(asked)
    probe = vtk.vtkProbeFilter()
    probe.SetInputData(where)
    probe.SetSourceData(surface)
    probe.SetTolerance(1e-9)
    probe.ComputeToleranceOff()
    probe.Update()
    valid = vtk_to_numpy(probe.GetOutput().GetPointData().GetArray("vtkValidPointMask")) == 1
    theirs = vtk_to_numpy(probe.GetOutput().GetPointData().GetArray("z"))
    heights = Scan(Tin.from_arrays(np.column_stack([plan, z]), mesh.simplices), grid).heights(
        0, 196
    )
    ours = heights.ravel()
    # VTK finds no cell for a few centres in slivers, where scipy agrees with us.
    assert not np.isnan(ours[valid]).any()
    assert (~valid & ~np.isnan(ours)).mean() < 0.002
    both = valid & ~np.isnan(ours)
    np.testing.assert_allclose(ours[both], theirs[both], rtol=0, atol=1e-6)
