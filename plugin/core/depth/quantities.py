"""Areas and volumes between a design and a surface below it, exact for triangles."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..tin import Tin

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Quantities:
    """Figures of each zone; the last entry is what lies outside all.

    Parameters
    ----------
    plan_areas : (k + 1,) float
        Plan area of the result; steps count with the zone they lie in.
    sloped_areas : (k + 1,) float
        Area on the slope, without the steps, which are all but upright.
    step_areas : (k + 1,) float
        Plan area of the steps.
    cuts, fills : (k + 1,) float
        Volume between design and result below and above the design, in cubic plan units;
        neither is negative.
    """

    plan_areas: Floats
    sloped_areas: Floats
    step_areas: Floats
    cuts: Floats
    fills: Floats


def measure(
    tin: Tin,
    depths: Floats,
    zone: Ints,
    step: NDArray[np.bool_],
    zones: int,
    z_scale: float = 1.0,
) -> Quantities:
    """Measure a lowered surface.

    Parameters
    ----------
    tin : Tin
        The surface.
    depths : (n,) float
        Depth of its vertices below the design; between them depth is linear over each face.
    zone : (m,) int
        Zone of each face, -1 outside all.
    step : (m,) bool
        Faces of steps.
    zones : int
        Number of zones.
    z_scale : float
        Plan units in one unit of height.
    """
    row = np.where(zone < 0, zones, zone)
    below, above = prisms(tin.plan_areas, z_scale * depths[tin.faces])
    if z_scale == 1.0:
        sloped = tin.sloped_areas
    else:
        sloped = Tin(tin.vertices * (1.0, 1.0, z_scale), tin.faces).sloped_areas

    def total(values: Floats) -> Floats:
        return np.bincount(row, values, zones + 1).astype(np.float64)

    return Quantities(
        total(tin.plan_areas),
        total(np.where(step, 0.0, sloped)),
        total(np.where(step, tin.plan_areas, 0.0)),
        total(below),
        total(above),
    )


def prisms(areas: Floats, depths: Floats) -> tuple[Floats, Floats]:
    """Return the volume of positive and of negative depth over triangles, each (m,) float.

    Depth is linear over a triangle of area A with depths a <= b <= c at its corners, so that the
    whole volume is A (a + b + c) / 3. Where only c is positive, the positive part is the pyramid
    over the corner cut off where the depth is 0: A c^3 / (3 (c - a) (c - b)); likewise where only
    a is negative.

    Parameters
    ----------
    areas : (m,) float
        Plan areas.
    depths : (m, 3) float
        Depths at the corners.
    """
    first, second, third = depths.T
    least = np.minimum(np.minimum(first, second), third)
    greatest = np.maximum(np.maximum(first, second), third)
    whole = areas * (first + second + third) / 3.0
    below = np.where(least >= 0, whole, 0.0)
    above = np.where(greatest <= 0, -whole, 0.0)
    mixed = np.flatnonzero((least < 0) & (greatest > 0))
    if len(mixed):
        a, b, c = np.sort(depths[mixed], axis=1).T
        one_positive = b <= 0
        lone = np.where(one_positive, c, -a)
        others = np.where(one_positive, (c - a) * (c - b), (b - a) * (c - a))
        tip = areas[mixed] * lone**3 / (3.0 * others)
        below[mixed] = np.where(one_positive, tip, whole[mixed] + tip)
        above[mixed] = np.where(one_positive, tip - whole[mixed], tip)
    return below, above
