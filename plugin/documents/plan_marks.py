"""What north-up drawings share: outlines, north arrow, scale bar and heads of arrows."""

from html import escape

import numpy as np
import shapely

from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette

LARGE = (8.0, 5.0, 6.0)
SMALL = (6.0, 4.0, 4.5)
"""How far the head of an arrow reaches ahead, back and to each side, pixels."""


def path_of(shape: shapely.Geometry) -> str:
    """Return the outline of a polygon in pixels, holes too, as the data of an SVG path."""
    rings = shapely.get_rings(shapely.get_parts(shape))
    return " ".join(
        "M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in shapely.get_coordinates(ring)) + " Z"
        for ring in rings
    )


def arrow_head(
    place: np.ndarray, ahead: np.ndarray, colour: str, size: tuple[float, float, float]
) -> str:
    """Return the head of an arrow at a place, both in pixels; ``ahead`` is a unit vector."""
    front, back, side = size
    across = side * np.array([-ahead[1], ahead[0]])
    heel = place - back * ahead
    corners = (place + front * ahead, heel + across, heel - across)
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in corners)
    return f'<polygon points="{points}" fill="{colour}"/>'


def north_arrow(x: float, y: float = 12.0) -> str:
    """Return an arrow that points north, its tip at a place in pixels."""
    letter = escape(translate("Report", "N"))
    return (
        f'<path d="M{x},{y} l6,16 l-6,-4 l-6,4 z" fill="{palette.SLATE}"/>'
        f'<text x="{x}" y="{y + 28}" text-anchor="middle" font-size="11" '
        f'fill="{palette.SLATE}" font-family="sans-serif">{letter}</text>'
    )


def scale_bar(scale: float, unit: LinearUnit | None, y: float) -> str:
    """Return a scale bar at the left, for so many pixels in a plan unit; none without a unit."""
    if unit is None:
        return ""
    base = unit.base
    per_pixel = unit.to(base) / scale
    most = 80 * per_pixel
    power = 10.0 ** np.floor(np.log10(most))
    length = max(step * power for step in (1, 2, 5) if step * power <= most * (1 + 1e-9))
    width = length / per_pixel
    return (
        f'<path d="M10,{y - 4} v4 h{width:.1f} v-4" fill="none" stroke="{palette.SLATE}"/>'
        f'<text x="{14 + width:.1f}" y="{y + 1}" font-size="11" fill="{palette.SLATE}" '
        f'font-family="sans-serif">{length:g} {escape(base.symbol)}</text>'
    )
