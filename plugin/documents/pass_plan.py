"""A north-up plan of the passes over one zone."""

from dataclasses import dataclass
from html import escape

import numpy as np
import shapely

from ..core.lines.passes import Passes
from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .plan_marks import SMALL, arrow_head, north_arrow, scale_bar

WIDTH, HEIGHT, MARGIN = 560, 380, 30
MOST_NUMBERS = 40


@dataclass(frozen=True)
class PassPlan:
    """What to draw: a zone, its passes, their width and the plan unit."""

    area: shapely.Geometry
    passes: Passes
    width: float
    unit: LinearUnit


def draw(plan: PassPlan) -> str:
    """Return the drawing as an ``<svg>`` element."""
    low_x, low_y, high_x, high_y = shapely.bounds(plan.area)
    room = np.array([WIDTH - 2.0 * MARGIN, HEIGHT - 2.0 * MARGIN])
    size = np.maximum([high_x - low_x, high_y - low_y], 1e-9)
    scale = float((room / size).min())
    middle = np.array([(low_x + high_x) / 2.0, (low_y + high_y) / 2.0])

    def pixels(xy: np.ndarray) -> np.ndarray:
        return np.array([WIDTH, HEIGHT]) / 2.0 + (xy[:, :2] - middle) * scale * (1.0, -1.0)

    def path(shape: shapely.Geometry) -> str:
        parts = []
        for polygon in shapely.get_parts(shape):
            for ring in (polygon.exterior, *polygon.interiors):
                points = pixels(shapely.get_coordinates(ring))
                parts.append("M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in points) + "Z")
        return " ".join(parts)

    title = escape(translate("Report", "Plan of the passes, north up"))
    made = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
            f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img"><title>{title}</title>'
        ),
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>',
        f'<path d="{path(plan.area)}" fill="{palette.PAPER}" stroke="none" fill-rule="evenodd"/>',
    ]
    if not shapely.is_empty(plan.passes.left_over):
        made.append(
            f'<path d="{path(plan.passes.left_over)}" fill="{palette.BERRY}" fill-opacity=".55" '
            'fill-rule="evenodd"/>'
        )
    strip = float(np.clip(plan.width * scale * 0.86, 1.0, 40.0))
    for xy in plan.passes.xy:
        points = " ".join(f"{x:.1f},{y:.1f}" for x, y in pixels(xy))
        made.append(
            f'<polyline points="{points}" fill="none" stroke="{palette.MIST}" '
            f'stroke-width="{strip:.1f}" stroke-linejoin="round"/>'
        )
    made.append(
        f'<path d="{path(plan.area)}" fill="none" stroke="{palette.SLATE}" stroke-width="1.6"/>'
    )
    shown: set[int] = set()
    few = len(np.unique(plan.passes.number)) <= MOST_NUMBERS
    for xy, number in zip(plan.passes.xy, plan.passes.number.tolist(), strict=True):
        line = pixels(xy)
        points = " ".join(f"{x:.1f},{y:.1f}" for x, y in line)
        made.append(
            f'<polyline points="{points}" fill="none" stroke="{palette.OCHRE}" '
            'stroke-width="1.6" stroke-dasharray="8 4"/>'
        )
        made += _arrow(line)
        if few and number not in shown:
            shown.add(number)
            made.append(_number(line, number))
    made += [north_arrow(WIDTH - 16.0), scale_bar(scale, plan.unit, HEIGHT - 8.0), "</svg>"]
    return "".join(made)


def _arrow(line: np.ndarray) -> list[str]:
    path = shapely.linestrings(line)
    length = float(shapely.length(path))
    if length < 30:
        return []
    at = [max(0.7 * length - 2.0, 0.0), 0.7 * length]
    one, tip = shapely.get_coordinates(shapely.line_interpolate_point(path, at))
    ahead = (tip - one) / max(float(np.hypot(*(tip - one))), 1e-9)
    return [arrow_head(tip, ahead, palette.OCHRE_TEXT, SMALL)]


def _number(line: np.ndarray, number: int) -> str:
    """Return the number of a pass near its start, on the line."""
    path = shapely.linestrings(line)
    x, y = shapely.get_coordinates(
        shapely.line_interpolate_point(path, min(14.0, float(shapely.length(path)) / 2.0))
    )[0]
    return (
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="8" fill="#fff" stroke="{palette.SLATE}"/>'
        f'<text x="{x:.1f}" y="{y + 3.8:.1f}" text-anchor="middle" font-size="10.5" '
        f'font-family="sans-serif" fill="{palette.SLATE}">{number}</text>'
    )
