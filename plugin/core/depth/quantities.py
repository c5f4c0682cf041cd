"""Areas and volumes between a design and a surface below it, exact for triangles."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..tin import Tin
from .patchwork import Part

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Quantities:
    """Figures of each zone; the last entry is what lies outside all.

    Parameters
    ----------
    plan_areas : (k + 1,) float
        Plan area of the result: bottoms, batters and steps.
    sloped_areas : (k + 1,) float
        Area on the slope of bottoms and batters, without the steps, which are all but upright.
    step_areas, batter_areas : (k + 1,) float
        Plan area of the steps, and of the batters.
    sloped_batter_areas : (k + 1,) float
        Area of the batters on their slope.
    cuts, fills : (k + 1,) float
        Volume between design and result below and above the design, in cubic plan units;
        neither is negative.
    """

    plan_areas: Floats
    sloped_areas: Floats
    step_areas: Floats
    batter_areas: Floats
    sloped_batter_areas: Floats
    cuts: Floats
    fills: Floats

    @property
    def bottom_areas(self) -> Floats:
        """Plan area of the bottoms, (k + 1,) float."""
        return self.plan_areas - self.step_areas - self.batter_areas


def measure(
    tin: Tin,
    volumes: tuple[Floats, Floats],
    zone: Ints,
    parts: Ints,
    zones: int,
    z_scale: float = 1.0,
) -> Quantities:
    """Measure a depth surface.

    Parameters
    ----------
    tin : Tin
        The surface.
    volumes : (m,), (m,) float
        Volume below and above the design over each face, e.g. of `prisms`.
    zone : (m,) int
        Zone of each face, -1 outside all.
    parts : (m,) int
        `Part` of each face.
    zones : int
        Number of zones.
    z_scale : float
        Plan units in one unit of height.
    """
    row = np.where(zone < 0, zones, zone)
    if z_scale == 1.0:
        sloped = tin.sloped_areas
    else:
        sloped = Tin(tin.vertices * (1.0, 1.0, z_scale), tin.faces).sloped_areas

    def total(values: Floats, part: Part | None = None) -> Floats:
        if part is None:
            return np.bincount(row, values, zones + 1).astype(np.float64)
        some = np.flatnonzero(parts == part)
        return np.bincount(row[some], values[some], zones + 1).astype(np.float64)

    below, above = volumes
    return Quantities(
        total(tin.plan_areas),
        total(np.where(parts == Part.STEP, 0.0, sloped)),
        total(tin.plan_areas, Part.STEP),
        total(tin.plan_areas, Part.BATTER),
        total(sloped, Part.BATTER),
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
