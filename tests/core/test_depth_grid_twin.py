"""The depth surface of a TIN and that of its raster are one at the centres of pixels.

Where they may differ: centres on the steps that stand for upright sides, and those nearer to a
border than the cut has moved it; on batters by as much as that move, over the ratio; round
corners (and those past the limit of mitres) by the chord tolerance, over the ratio, since the TIN
has facets for cones.
"""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from plugin.core.depth.patchwork import Part
from plugin.core.depth.surface import depth_surface
from plugin.core.depth.widen import widen
from plugin.core.depth.zones import Outside, resolve
from plugin.core.grid import Grid
from plugin.core.tin.scan import Scan
from plugin.core.tolerance import Tolerance

from .cut_shapes import sheet
from .grid_shapes import NODATA, centres, dug, lowered, manner_of
from .tin_shapes import REAL, read_real

TOLERANCE = Tolerance()


def both(tin, zones, grid, manner, outside=Outside.KEEP, tolerance=TOLERANCE, slack=0.0):
    """Heights of the raster and of the design; pixels that differ from the TIN, far and near.

    Those on a step, or where a border was moved, are the exceptions that are allowed for.
    """
    surface = depth_surface(tin, zones, outside, 0.25, tolerance, manner=manner)
    truth, face = Scan(surface.tin, grid).heights_and_faces(0, grid.rows)
    design = Scan(tin, grid).heights(0, grid.rows)
    z = np.where(np.isnan(design), NODATA, design).astype(np.float32)
    wide = widen(resolve(zones, tolerance), manner, tolerance)
    low, _ = lowered(
        wide, grid, z, manner, outside=outside, depth=0.25, rows=[7], tolerance=tolerance
    )
    assert np.array_equal(np.isnan(truth), low == NODATA)
    ratio = min((n for n in zones.batters if n > 0), default=np.inf)
    rounding = 0.5 * (np.spacing(np.abs(z)) + np.spacing(np.abs(low))).astype(np.float64)
    moved = surface.largest_move + 2.0**-15 + tolerance.chord
    off = np.abs(low - np.nan_to_num(truth, nan=NODATA)) > rounding + 1e-9 + slack + moved / ratio
    x, y = centres(grid)
    lines = shapely.union_all(shapely.boundary(wide.polygons))
    distance = shapely.distance(shapely.points(x[off], y[off]), lines)
    near = (distance <= surface.largest_move) | (surface.part[face[off]] == Part.STEP)
    return low, z, int((~near).sum()), int(near.sum())


def rolling(plan):
    x, y = plan.T
    return 60 + 2 * np.sin(0.4 * x) + 1.5 * np.cos(0.3 * y + 0.1 * x)


def over(tin, pixel=0.13):
    west, south, east, north = tin.extent
    columns, rows = int((east - west) / pixel) + 2, int((north - south) / pixel) + 2
    return Grid(west - 0.04, north + 0.03, pixel, -pixel, columns, rows)


@given(
    st.integers(0, 10**6),
    st.sampled_from(["mitre", "round"]),
    st.sampled_from(["keep", "use_depth"]),
)
@settings(max_examples=15, deadline=None)
def test_plumb_widened_and_battered_by_the_design(seed, corners, outside):
    rng = np.random.default_rng(seed)
    tin = sheet(13, 12, 1.0, 0.3, seed, height=rolling)
    ratio = rng.choice([0.0, 1.5])
    rows = []
    for middle in ((3.8, 3.6), (7.9, 5.7), (4.6, 7.3)):
        turn = np.linspace(0, 2 * np.pi, 9, endpoint=False) + rng.uniform(0, 0.4, 9)
        ring = np.column_stack([np.cos(turn), np.sin(turn)]) * rng.uniform(1.2, 2, (9, 1))
        rows.append((shapely.Polygon(ring + middle), rng.uniform(0.3, 1.0), ratio))
    zones = replace(dug(*rows), widths=rng.choice([0.0, 0.3], 3), priority=np.arange(3.0))
    low, z, far, near = both(tin, zones, over(tin), manner_of("design", corners), Outside(outside))
    assert far == 0
    assert near < 0.01 * low.size
    assert (np.abs(low - z) > 0.01).mean() > 0.1


@pytest.mark.parametrize("corners", ["mitre", "round"])
@pytest.mark.parametrize("slope", [(0.0, 0.0), (0.15, -0.1), (0.3, 0.2)])
def test_by_the_level_on_planes(slope, corners):
    tin = sheet(12, 12, 1.0, 0.3, 3, height=lambda plan: 60 + plan @ np.array(slope))
    el = shapely.Polygon([(4, 4), (8, 4.5), (8, 6), (6, 6.2), (6.2, 8), (4, 8)])
    zones = dug((el, 0.7, 1.5), (shapely.box(8, 4.5, 8.9, 6), 0.4, 1.0))
    zones = replace(zones, priority=np.arange(2.0))
    low, z, far, _ = both(tin, zones, over(tin), manner_of("level", corners), slack=2e-5)
    # Heights of single precision are no plane: feet and gradients carry their rounding on.
    assert far == 0
    assert (np.abs(low - z) > 0.01).mean() > 0.1


@pytest.mark.parametrize("slope", [(0.0, 0.0), (0.5, -0.3)])
def test_square_on_planes(slope):
    tin = sheet(12, 12, 1.0, 0.3, 3, height=lambda plan: 60 + plan @ np.array(slope))
    zones = dug((shapely.box(3, 3, 8, 9), 0.0, 0.0), squares=[0.6])
    low, z, far, _ = both(tin, zones, over(tin), manner_of(), slack=2e-5)
    assert far == 0
    plumb = 0.6 * np.sqrt(1 + slope[0] ** 2 + slope[1] ** 2)
    assert np.isclose((z - low).max(), plumb, atol=1e-4)


@pytest.mark.skipif(not REAL.is_dir(), reason="the folder of real files is not here")
def test_a_real_road_widened_and_battered():
    """buildingSMART Finland InfraModel sample (CC-BY 4.0): 11,959 faces."""
    tin = read_real("road_finished")
    west, south, east, north = tin.extent
    faces = shapely.polygons(tin.vertices[tin.faces][:, :, :2])
    outline = max(shapely.get_parts(shapely.union_all(faces)), key=shapely.area)
    inner = outline.buffer(-2.5, join_style="mitre")
    core = outline.buffer(-5.0, join_style="mitre")
    half = shapely.box(west, south, 0.5 * (west + east), north)
    zones = dug(
        (core.intersection(half), 0.71, 1.0),
        (core.difference(half), 0.785, 1.5),
        (inner.difference(core), 0.3, 1.5),
    )
    zones = replace(zones, widths=np.array([0.0, 0.0, 0.3]), priority=np.arange(3.0))
    grid = Grid(
        np.floor(west) + 0.1,
        np.ceil(north) + 0.2,
        0.5,
        -0.5,
        int((east - west) / 0.5) + 2,
        int((north - south) / 0.5) + 2,
    )
    low, z, far, near = both(tin, zones, grid, manner_of("design"))
    assert far == 0
    assert (np.abs(low - z) > 0.01).sum() > 60_000
    assert near < 100
