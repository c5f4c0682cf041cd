"""Ponds of a TIN against a flood of the same ground on a fine grid.

Reference: priority flood on a raster with eight neighbours, Barnes, Lehman and Mulla 2014 (from
memory), written out below; it shares no code with the surface's own way.
"""

import heapq

import numpy as np
import pytest
import shapely

from plugin.core.measure.ponding import find_ponds
from tests.core.pond_shapes import bowls

STEPS = [(a, b) for a in (-1, 0, 1) for b in (-1, 0, 1) if (a, b) != (0, 0)]


def flood(heights):
    rows, columns = heights.shape
    level = np.full(heights.shape, np.inf)
    queue = []
    for row in range(rows):
        for column in range(columns):
            if row in (0, rows - 1) or column in (0, columns - 1):
                level[row, column] = heights[row, column]
                queue.append((heights[row, column], row, column))
    heapq.heapify(queue)
    while queue:
        height, row, column = heapq.heappop(queue)
        for a, b in STEPS:
            r, c = row + a, column + b
            if 0 <= r < rows and 0 <= c < columns and level[r, c] == np.inf:
                level[r, c] = max(height, heights[r, c])
                heapq.heappush(queue, (level[r, c], r, c))
    return level


@pytest.mark.parametrize("seed", range(4))
def test_water_is_that_of_a_fine_grid_within_its_pixels(seed):
    tin = bowls(seed)
    pixel = 0.4
    centres = np.arange(pixel / 2, 100.0, pixel)
    x, y = np.meshgrid(centres, centres)
    z, _ = tin.sample(np.column_stack((x.ravel(), y.ravel())))
    heights = z.reshape(x.shape)
    assert np.isfinite(heights).all()
    depth = flood(heights) - heights
    ponds = find_ponds(tin, 0.05)
    assert len(ponds) >= 3
    place = shapely.points(x.ravel(), y.ravel())
    steepest = np.hypot(*tin.gradients.T).max()
    for shape, area, volume in zip(ponds.outline, ponds.area, ponds.volume, strict=True):
        own = depth.ravel()[shapely.dwithin(shape, place, pixel)]
        # A pass may be met a pixel beside its lowest point, and the shore cuts pixels.
        slip = pixel * steepest
        shore = shape.length * pixel
        assert (own > 0).sum() * pixel**2 == pytest.approx(area, abs=shore + 0.05 * area)
        assert own.sum() * pixel**2 == pytest.approx(volume, abs=slip * (area + shore) * 0.5)
        assert own.sum() * pixel**2 == pytest.approx(volume, rel=0.12, abs=0.05)
