"""Designs on grids for the tests of raster depth surfaces, and how they are lowered."""

import itertools
from dataclasses import replace

import numpy as np

from plugin.core.depth.grid import Lowering
from plugin.core.depth.manner import BatterRule, Corners, Manner
from plugin.core.depth.zones import Outside, Zones
from plugin.core.grid import Grid
from plugin.core.place import Place
from plugin.core.tolerance import Tolerance

from .cut_shapes import polygons

NODATA = -9999.0


def grid_at(shape, pixel=(0.5, -0.5), left=1000.0, top=2000.0):
    return Grid(left, top, pixel[0], pixel[1], shape[1], shape[0])


def centres(grid):
    """x and y of the pixel centres, (rows, columns) each."""
    return grid.centres(0, grid.rows).reshape(grid.rows, grid.columns, 2).transpose(2, 0, 1)


def manner_of(rule="design", corners="mitre", z_scale=1.0):
    return Manner(Corners(corners), 4.0, BatterRule(rule), z_scale)


def dug(*rows, squares=None):
    """Zones of (polygon, depth, batter) rows, with ids 1, 2, ..."""
    shapes, depths, batters = zip(*rows, strict=True)
    ids = np.arange(1, len(rows) + 1)
    zones = Zones(polygons(*shapes), np.array(depths, float), ids, batters=np.array(batters, float))
    return zones if squares is None else replace(zones, squares=np.array(squares, float))


def lowered(
    zones,
    grid,
    z,
    manner=None,
    *,
    rows=(),
    columns=(),
    outside=Outside.KEEP,
    depth=0.0,
    carry=0,
    tolerance=None,
):
    """The depth surface, worked out in windows between the rows and columns given."""
    work = Lowering(
        zones,
        grid,
        outside,
        depth,
        NODATA,
        z.dtype,
        manner or manner_of(),
        tolerance or Tolerance(),
        carry,
    )
    work.survey(lambda c, r, width, height: z[r : r + height, c : c + width].copy())
    result = np.empty_like(z)
    edges = [sorted({0, size, *cuts}) for size, cuts in zip(z.shape, (rows, columns), strict=True)]
    for (top, bottom), (left, right) in itertools.product(*map(itertools.pairwise, edges)):
        low, high = max(top - work.halo, 0), min(bottom + work.halo, z.shape[0])
        near, far = max(left - work.halo, 0), min(right + work.halo, z.shape[1])
        place = Place(top, left, top - low, high - bottom, left - near, far - right)
        window = z[low:high, near:far].copy()
        result[top:bottom, left:right] = work.window(place, window)
    return result, work.tally
