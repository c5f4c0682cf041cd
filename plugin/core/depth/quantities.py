"""Areas and volumes between a design and a surface below it, exact for triangles."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..progress import Progress, silent
from ..tin import Tin
from ..tin.overlay import integrate
from .patchwork import Part

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_BLOCK = 1 << 16


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
    volumes : (k + 1,), (k + 1,) float
        Volume below and above the design of each zone and of the rest, of `volumes`.
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
    sloped = sloped_areas(tin, z_scale)

    def total(values: Floats, part: Part | None = None) -> Floats:
        some = slice(None) if part is None else np.flatnonzero(parts == part)
        return _sums(values[some], row[some], zones + 1)

    below, above = volumes
    return Quantities(
        total(tin.plan_areas),
        total(np.where(parts == Part.STEP, 0.0, sloped)),
        total(tin.plan_areas, Part.STEP),
        total(tin.plan_areas, Part.BATTER),
        total(sloped, Part.BATTER),
        below,
        above,
    )


def volumes(
    design: Tin,
    surface: Tin,
    depths: Floats,
    row: Ints,
    rows: int,
    shifted: NDArray[np.bool_],
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> tuple[Floats, Floats]:
    """Return the volumes below and above the design, each (rows,) float.

    Parameters
    ----------
    design : Tin
        The design over the shifted faces; not looked at without any.
    surface : Tin
        The result.
    depths : (n,) float
        Depth of its vertices below the design.
    row, rows : (m,) int, int
        What each face counts with, and of how many.
    shifted : (m,) bool
        Faces that do not lie within a single face of the design: there the two surfaces are laid
        over one another. Over the others depth is linear.
    z_scale : float
        Plan units in one unit of height.
    progress : Progress
        Told the share done.
    """
    corners = depths[surface.faces]
    corners *= z_scale
    below, above = prisms(surface.plan_areas, corners)
    del corners
    if not shifted.any():
        return _sums(below, row, rows), _sums(above, row, rows)
    level = np.flatnonzero(~shifted)
    found = [_sums(volume[level], row[level], rows) for volume in (below, above)]
    some = Tin(surface.vertices, surface.faces[shifted])
    between = integrate(design, some, None, row[shifted], z_scale, progress).of_lower(
        np.arange(rows)
    )
    return found[0] + between.cut, found[1] + between.fill


def sloped_areas(tin: Tin, z_scale: float) -> Floats:
    """Return the area of each face on its slope, (m,) float, in square plan units."""
    if z_scale == 1.0:
        return tin.sloped_areas
    return Tin(tin.vertices * (1.0, 1.0, z_scale), tin.faces).sloped_areas


def _sums(values: Floats, row: Ints, rows: int) -> Floats:
    return np.bincount(row, values, rows).astype(np.float64)


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
    below, above = np.empty(len(areas)), np.empty(len(areas))
    for begin in range(0, len(areas), _BLOCK):
        some = slice(begin, begin + _BLOCK)
        below[some], above[some] = _prisms(areas[some], depths[some])
    return below, above


def _prisms(areas: Floats, depths: Floats) -> tuple[Floats, Floats]:
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
