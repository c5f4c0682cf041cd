"""Ponds as issues: where a design, or a surface below it, cannot drain."""

from collections.abc import Iterator

import numpy as np
import shapely
from numpy.typing import NDArray

from ..text import translate
from ..tin import Tin
from .issues import Issue, Issues, JobScale, Weight
from .ponding import Ponds, find_ponds

Floats = NDArray[np.float64]
Shapes = NDArray[np.object_]

MEANT = 0.99
"""Water is meant to stand where so great a share of it lies in a zone for water."""


def check_ponds(
    issues: Issues,
    tin: Tin,
    scale: JobScale,
    min_depth: float,
    water: shapely.Geometry | None = None,
) -> Ponds:
    """Find where water stands.

    Parameters
    ----------
    issues : Issues
        Takes an issue for each pond: a note where water is meant to stand.
    tin : Tin
        The surface, with one vertex for each place.
    scale : JobScale
        The units.
    min_depth : float
        Shallower ponds are passed over, in units of height.
    water : shapely Polygon or MultiPolygon, optional
        Where water is meant to stand.
    """
    ponds = find_ponds(tin, min_depth, scale.z_scale)
    share = _shares(ponds, tin, water)
    meant = share >= MEANT
    order = np.argsort(-ponds.volume, kind="stable")
    for weight, kind in ((Weight.CHECK, ~meant), (Weight.NOTE, meant)):
        rows = order[kind[order]]
        issues.add(_told(rows, ponds, tin, scale, share, weight), "pond", weight, len(rows))
    return ponds


def _shares(ponds: Ponds, tin: Tin, water: shapely.Geometry | None) -> Floats:
    """Return the share of each pond where water is meant to stand; of its deepest point else."""
    share = np.zeros(len(ponds))
    if water is None or not len(ponds):
        return share
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        for row, shape in enumerate(ponds.outline):
            if shape is None:
                spot = shapely.Point(tin.vertices[ponds.deepest[row], :2])
                share[row] = float(water.intersects(spot))
            elif water.intersects(shape):
                share[row] = water.intersection(shape).area / shape.area
    return share


def _told(
    rows: NDArray[np.int64],
    ponds: Ponds,
    tin: Tin,
    scale: JobScale,
    share: Floats,
    weight: Weight,
) -> Iterator[Issue]:
    plain = translate(
        "Core",
        "Water stands up to {depth} deep on {area}, {volume}, before it spills at {level} near {x:.2f}, {y:.2f}.",
    )
    several = translate("Core", "It covers {count} low points.")
    beyond = translate("Core", "{part} of it reach past the zones meant to hold water.")
    meant = translate("Core", "It is meant to stand there.")
    for row in rows.tolist():
        x, y, low = tin.vertices[ponds.deepest[row]].tolist()
        out_x, out_y, _ = tin.vertices[ponds.spill[row]].tolist()
        area, volume, level = (float(v[row]) for v in (ponds.area, ponds.volume, ponds.level))
        text = [
            plain.format(
                depth=scale.depth(level - low),
                area=scale.area(area),
                volume=scale.volume(volume),
                level=scale.height(level),
                x=out_x,
                y=out_y,
            )
        ]
        if ponds.lows[row] > 1:
            text.append(several.format(count=int(ponds.lows[row])))
        if weight is Weight.NOTE:
            text.append(meant)
        elif share[row] > 0:
            text.append(beyond.format(part=scale.area((1.0 - share[row]) * area)))
        yield Issue(
            "pond",
            " ".join(text),
            (x, y),
            weight,
            ponds.outline[row],
            int(ponds.deepest[row]) + 1,
            area,
            volume,
            level - low,
            level,
        )
