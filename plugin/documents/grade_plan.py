"""A north-up plan of a check of grades: zones, what fails, what nearly does, the worst places."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

import numpy as np
import shapely

from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .drawn_text import text_width
from .plan_marks import north_arrow, scale_bar

WIDTH, MOST_HEIGHT, MARGIN = 760.0, 560.0, 18.0
_KEY_HEIGHT = 26.0
_FINEST = 0.3  # pixels
_LEAST_ROOM = 4.0  # pixels a zone must be wide for its number to be drawn
MOST_NAMES = 60
MOST_PLACES = 60
_FAIL = f'fill="url(#fails)" stroke="{palette.BERRY}" stroke-width="1.2"'
_NEAR = f'fill="url(#near)" stroke="{palette.OCHRE}" stroke-width=".8" stroke-dasharray="3 2"'
_ZONE = f'fill="{palette.PAPER}" stroke="{palette.SLATE}" stroke-width=".8"'
_LINE = f'fill="none" stroke="{palette.SLATE}" stroke-width="1.4" stroke-dasharray="9 4"'
_BREAK = f'fill="none" stroke="{palette.BERRY}" stroke-width="3.2"'
_PATTERNS = (
    '<defs><pattern id="fails" width="6" height="6" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)">'
    f'<rect width="6" height="6" fill="#f3d5e2"/><line x1="0" y1="0" x2="0" y2="6" '
    f'stroke="{palette.BERRY}" stroke-width="2.4"/></pattern>'
    '<pattern id="near" width="6" height="6" patternUnits="userSpaceOnUse">'
    f'<rect width="6" height="6" fill="#f6e6c8"/><circle cx="3" cy="3" r="1.1" '
    f'fill="{palette.OCHRE}"/></pattern></defs>'
)


@dataclass(frozen=True)
class GradePlan:
    """What the plan shows.

    Parameters
    ----------
    zones, numbers, names
        Polygons, the numbers of their verdicts, and what they are called; without zones the
        extent alone is drawn.
    fails, nears
        Areas that fail, and that pass with little to spare.
    breaks
        Edges at gutters that fail.
    lines
        Lines of travel.
    places
        Number and position of the worst places.
    extent
        Smallest x, y and largest x, y of the surface.
    unit : LinearUnit
        Plan unit.
    """

    zones: Sequence[shapely.Geometry]
    numbers: Sequence[str]
    names: Sequence[str]
    fails: Sequence[shapely.Geometry]
    nears: Sequence[shapely.Geometry]
    breaks: Sequence[shapely.Geometry]
    lines: Sequence[shapely.Geometry]
    places: Sequence[tuple[int, tuple[float, float]]]
    extent: tuple[float, float, float, float]
    unit: LinearUnit


def draw(plan: GradePlan) -> str:
    """Return the plan as an ``<svg>`` element."""
    west, south, east, north = plan.extent
    across, up = max(east - west, 1e-9), max(north - south, 1e-9)
    scale = min((WIDTH - 2 * MARGIN) / across, (MOST_HEIGHT - 2 * MARGIN) / up)
    height = up * scale + 2 * MARGIN
    frame = shapely.box(west, south, east, north)

    def pixels(xy: np.ndarray) -> np.ndarray:
        return np.column_stack(
            (MARGIN + (xy[:, 0] - west) * scale, MARGIN + (north - xy[:, 1]) * scale)
        )

    def drawn(shape: shapely.Geometry) -> shapely.Geometry:
        return shapely.transform(shapely.intersection(shape, frame), pixels)

    def paths(shapes: Sequence[shapely.Geometry], look: str) -> list[str]:
        data = (_path(drawn(shape)) for shape in shapes)
        return [f'<path d="{d}" fill-rule="evenodd" {look}/>' for d in data if d]

    zones = plan.zones or [frame]
    parts = paths(zones, _ZONE) + paths(plan.nears, _NEAR) + paths(plan.fails, _FAIL)
    parts += paths(plan.lines, _LINE) + paths(plan.breaks, _BREAK)
    if plan.zones and len(plan.zones) <= MOST_NAMES:
        labels = zip(plan.zones, plan.numbers, plan.names, strict=True)
        parts += [_name(drawn(zone), number, name) for zone, number, name in labels]
    for number, place in plan.places[:MOST_PLACES]:
        x, y = pixels(np.array([place]))[0]
        parts.append(_cross(x, y, number))
    base = height + 16
    total = height + 22 + _KEY_HEIGHT
    title = escape(translate("Report", "Plan of the grades checked, north up"))
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}" height="{total:.0f}" '
        f'viewBox="0 0 {WIDTH:.0f} {total:.0f}" role="img" font-family="sans-serif">'
        f"<title>{title}</title>{_PATTERNS}"
        + "".join(parts)
        + north_arrow(WIDTH - 16)
        + scale_bar(scale, plan.unit, base)
        + _key(plan, total - 9)
        + "</svg>"
    )


def _name(shape: shapely.Geometry, number: str, name: str) -> str:
    """Label a zone where it is widest: number and name, or the number where it is narrow."""
    areas = [p for p in shapely.get_parts(shape) if p.geom_type == "Polygon" and p.area > 0]
    if not areas:
        return ""
    spot = shapely.maximum_inscribed_circle(max(areas, key=shapely.area), tolerance=1.0)
    room = 2 * spot.length
    if room < _LEAST_ROOM:
        return ""
    whole = f"{number} {name}".strip()
    text = whole if room >= text_width(whole, 11) else number
    x, y = shapely.get_coordinates(spot)[0]
    return (
        f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle" font-size="11" '
        f'paint-order="stroke" stroke="#fff" stroke-width="3" fill="{palette.SLATE}">'
        f"{escape(text)}</text>"
    )


def _cross(x: float, y: float, number: int) -> str:
    return (
        f'<path d="M{x - 5:.1f},{y - 5:.1f} l10,10 m0,-10 l-10,10" stroke="#fff" '
        f'stroke-width="4"/><path d="M{x - 5:.1f},{y - 5:.1f} l10,10 m0,-10 l-10,10" '
        f'stroke="{palette.SLATE}" stroke-width="1.8"/>'
        f'<text x="{x + 8:.1f}" y="{y - 4:.1f}" font-size="12" font-weight="bold" '
        f'paint-order="stroke" stroke="#fff" stroke-width="3" fill="{palette.ERROR_TEXT}">'
        f"{number}</text>"
    )


def _key(plan: GradePlan, y: float) -> str:
    """Explain the looks that occur."""
    samples = [
        (plan.fails, _FAIL, translate("Report", "fails")),
        (plan.nears, _NEAR, translate("Report", "passes, little to spare")),
        (plan.breaks, _BREAK, translate("Report", "change of grade fails")),
        (plan.lines, _LINE, translate("Report", "line of travel")),
    ]
    parts, x = [], MARGIN
    for shown, look, text in samples:
        if not shown:
            continue
        flat = 'fill="none"' in look
        mark = f"M{x},{y - 4} h26" if flat else f"M{x},{y - 10} h26 v11 h-26 z"
        parts.append(
            f'<path d="{mark}" {look}/><text x="{x + 32}" y="{y}" font-size="12" '
            f'fill="{palette.QUIET_TEXT}">{escape(text)}</text>'
        )
        x += 50 + text_width(text, 12)
    return "".join(parts)


def _path(shape: shapely.Geometry) -> str:
    """Return the rings and lines of a shape as path data, as fine as a screen shows."""
    small = shapely.simplify(shape, _FINEST)
    parts = []
    for part in shapely.get_parts(small):
        if part.is_empty:
            continue
        closed = part.geom_type == "Polygon"
        rings = shapely.get_rings(part) if closed else [part]
        for ring in rings:
            xy = shapely.get_coordinates(ring)
            text = "M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in xy)
            parts.append(text + " Z" if closed else text)
    return " ".join(parts)
