"""Pixels as prisms: sums, zones, missing data, outlines."""

import numpy as np
import pytest
import shapely

from plugin.core.grid import Grid
from plugin.core.measure.classes import Classes
from plugin.core.measure.pixels import Prisms, figures_of

from .test_overlay_shapes import close

GRID = Grid(1000.0, 2000.0, 0.5, -0.5, 40, 30)  # 20 x 15
SIGN = Classes(np.zeros(1), 1e-9, level=True)


def polygons(*shapes):
    made = np.empty(len(shapes), object)
    made[:] = shapes
    return made


def taken(difference, zones=(), rows=7, classes=SIGN, grid=GRID, **more):
    prisms = Prisms(grid, polygons(*zones), classes, group=np.arange(len(classes)), **more)
    for row in range(0, grid.rows, rows):
        prisms.add(row, difference[row : row + rows])
    return prisms


def test_prisms_by_zone_with_missing_pixels():
    difference = np.full((30, 40), 2.0)
    difference[:, 20:] = -1.0
    difference[:5] = np.nan  # the northern 2.5
    west, out = shapely.box(1000, 1985, 1004, 2000), shapely.box(1015, 1990, 1025, 1995)
    prisms = taken(difference, (west, out))
    figures = figures_of(prisms.sums(), 1.0)
    assert figures.area == close([4 * 12.5, 25.0, 250 - 75])
    assert figures.cut == close([100, 0, 6 * 12.5 * 2])
    assert figures.fill == close([0, 25, 125 - 25])
    assert prisms.missing() == close([10.0, 25.0])
    assert figures.least[2] == -1 and figures.most[2] == 2


@pytest.mark.parametrize("rows", [1, 7, 30])
@pytest.mark.parametrize("up", [False, True])
def test_outlines_are_those_of_the_pixels_whatever_the_strips(rows, up):
    random = np.random.default_rng(1)
    grid = Grid(1000.0, 1985.0, 0.5, 0.5, 40, 30) if up else GRID
    difference = random.integers(-1, 2, (30, 40)).astype(float)
    difference[random.random((30, 40)) < 0.1] = np.nan
    zones = (shapely.box(1003, 1987, 1011, 1996),)
    prisms = taken(difference, zones, rows, grid=grid)
    shapes, sums = prisms.outlines(), prisms.sums()
    centres = shapely.points(grid.centres(0, 30))
    inside = shapely.contains(zones[0], centres).reshape(30, 40)
    for zone, place in ((0, inside), (1, ~inside)):
        for number, value in ((0, -1), (1, 1), (2, 0)):
            wanted = (place & (difference == value)).ravel()
            shape = shapes[zone, number]
            assert shapely.is_valid(shape)
            assert shape.area == close(sums.area[zone, number])
            assert (shapely.contains(shape, centres) == wanted).all()


def test_a_height_taken_off_by_zone():
    """0.8 below, 0.75 asked for in the zone: 0.05 more than asked, 0.8 elsewhere."""
    zones = (shapely.box(1000, 1985, 1010, 2000),)
    prisms = taken(np.full((30, 40), 0.8), zones, less=np.array([0.75, 0.0]))
    sums = prisms.sums()
    assert sums.volume[:, 1] == close([0.05 * 150, 0.8 * 150])


def test_limits_of_classes_on_pixels():
    classes = Classes(np.array([-0.1, 0.1]), 1e-9)
    difference = np.repeat([-0.2, 0.0, 0.1, 0.3], 10)[None].repeat(30, axis=0)
    prisms = taken(difference, classes=classes)
    assert prisms.sums().area[0] == close([75, 75, 150, 0])
