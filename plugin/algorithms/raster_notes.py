"""What a raster depth surface says of itself; English, since programs read it."""

from typing import Any

import numpy as np

from ..core.depth.grid import CARRY, FARTHEST, Tally
from ..core.depth.manner import BatterRule, Beyond, Corners, Manner
from ..core.depth.zones import Outside, Zones
from ..core.grid import Grid
from ..core.text import translate
from ..core.units import describe_length
from ..layers.crs import JobUnits

_MOST = 50
_CAUTION = (
    "have utilities located before digging; protect excavations; verify on a known point before "
    "automatics are engaged; local codes and the licensed professional in charge take precedence"
)
_RULES = {
    BatterRule.LEVEL: (
        "height of the bottom at the foot of the perpendicular to the border, plus distance / "
        "ratio; that height is taken bilinearly between pixel centres or, where the design breaks "
        "along the border, where both sides carried on meet; the side is followed pixel by pixel "
        f"along its section until it meets the surface, at most {FARTHEST} pixels"
    ),
    BatterRule.DESIGN: "the depth lessens by 1 / ratio of the distance from the border",
}
_CORNERS = {
    Corners.MITRE: "mitred, planes carried on until they meet, up to {limit:g} times the distance",
    Corners.ROUND: "rounded",
}
_BEYOND = {
    Beyond.STOP: "no result without data",
    Beyond.CARRY: (
        "in zones and on sides, a pixel without data gets the height of the nearest pixel with "
        "data carried on with that pixel's gradient (Horn, 3 x 3), over "
        f"at most {CARRY} rows and columns"
    ),
}


def notes(
    zones: Zones,
    outside: Outside,
    depth: float,
    manner: Manner,
    beyond: Beyond,
    job: JobUnits,
) -> dict[str, str]:
    """Return the metadata of the file.

    Parameters
    ----------
    zones
        The zones as read.
    outside, depth
        What is outside all zones.
    manner, beyond
        How bottoms end.
    job
        Units.
    """
    square = zones.squares != 0
    around = {
        Outside.KEEP: "the design",
        Outside.LEAVE_OUT: "nodata",
        Outside.USE_DEPTH: describe_length(depth, job.vertical),
    }
    plumb = zones.depths[~square] if square.any() else zones.depths
    told = {
        "CONTENT": "design lowered by zone depths",
        "DEPTH_CONVENTION": "positive is below the design, measured vertically (plumb)",
        "DEPTHS": _lengths(plumb, job, vertical=True),
        "OUTSIDE_ZONES": around[outside],
        "PIXEL_RULE": "a pixel belongs to the zone that holds its centre",
        "VERTICAL_UNIT": job.vertical.name,
    }
    if not len(plumb):
        del told["DEPTHS"]
    if square.any():
        told["DEPTH_CONVENTION"] = (
            "positive is below the design; plumb depths are measured vertically, square ones at "
            "right angles to the design"
        )
        told["SQUARE_DEPTHS"] = _lengths(zones.squares[square], job, vertical=True)
        told["SQUARE_RULE"] = (
            "plumb = square x sqrt(1 + g^2), g the slope of the design by Horn's 3 x 3 weights at "
            "each pixel, missing neighbours carried on along rows and columns; exact on planes; within one "
            "pixel of a break in slope g is the mean of both sides, and the result lacks the "
            "line in which offset planes would meet"
        )
    if zones.widths.any():
        told["BOTTOMS_CARRIED_ON"] = _lengths(zones.widths[zones.widths > 0], job, vertical=False)
    if zones.batters.any():
        ratios = np.unique(zones.batters[zones.batters > 0])[:_MOST]
        told["BATTERS"] = "; ".join(f"{value:g}:1" for value in ratios)
        told["BATTER_RULE"] = f"run : rise; {_RULES[manner.rule]}; the lowest side wins"
    if zones.batters.any() or zones.widths.any():
        told["CORNERS"] = _CORNERS[manner.corners].format(limit=manner.mitre_limit)
    told["PAST_THE_DESIGN"] = _BEYOND[beyond]
    told["CAUTION"] = _CAUTION
    return told


def _lengths(values: np.ndarray, job: JobUnits, *, vertical: bool) -> str:
    unit = job.vertical if vertical else job.plan
    texts = {describe_length(float(value), unit) for value in np.unique(values)}
    return "; ".join(sorted(texts)[:_MOST])


def numbers() -> dict[str, str]:
    """Return the numeric outputs and what they are."""
    return {
        "ZONE_COUNT": translate("DepthRaster", "Number of zones"),
        "EMPTY_ZONES": translate("DepthRaster", "Zones without a pixel"),
        "PIXEL_COUNT": translate("DepthRaster", "Pixels that have a depth"),
        "PLAN_AREA": translate("DepthRaster", "Plan area of these pixels"),
        "BATTER_PIXELS": translate("DepthRaster", "Pixels on batters"),
        "AREA_BATTER": translate("DepthRaster", "Plan area of the batters"),
        "CARRIED_PIXELS": translate("DepthRaster", "Pixels onto which the design was carried on"),
        "LOWEST": translate("DepthRaster", "Lowest height of the result"),
        "HIGHEST": translate("DepthRaster", "Highest height of the result"),
        "CLASH_COUNT": translate("DepthRaster", "Heights that read as missing"),
        "FLAG_COUNT": translate("DepthRaster", "Things that may be wrong"),
    }


def figures(tally: Tally, grid: Grid, zones: int) -> dict[str, Any]:
    """Return the numeric results, in plan and vertical units."""
    count, sides = int(tally.pixels.sum()), int(tally.sides.sum())
    empty = int((tally.pixels[:-1] == 0).sum())
    some = np.isfinite(tally.lowest)
    return {
        "ZONE_COUNT": zones,
        "EMPTY_ZONES": empty,
        "PIXEL_COUNT": count,
        "PLAN_AREA": count * grid.pixel_area,
        "BATTER_PIXELS": sides,
        "AREA_BATTER": sides * grid.pixel_area,
        "CARRIED_PIXELS": tally.carried,
        "LOWEST": tally.lowest if some else None,
        "HIGHEST": tally.highest if some else None,
        "CLASH_COUNT": tally.clashes,
        "FLAG_COUNT": empty + tally.clashes + tally.given_up + tally.bare,
    }
