"""A north-up plan of a built surface: its faces, the breaklines, the places to look at."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape

import numpy as np
import shapely

from ..core.findings import Finding
from ..core.text import translate
from ..core.tin import Tin
from ..core.units import LinearUnit
from ..styles import palette
from .plan_marks import north_arrow, scale_bar

WIDTH, MOST_HEIGHT, MARGIN, FOOT, ARROW = 720.0, 560.0, 24.0, 26.0, 24.0
MOST_EDGES = 6000
"""Of more edges than this only the border is drawn: they would be a grey area."""
MOST_MARKS = 200
MOST_NUMBERS = 40
_FINEST = 0.4  # pixels


@dataclass(frozen=True)
class BuildPlan:
    """What to draw.

    Parameters
    ----------
    tin
        The surface.
    lines
        The breaklines as given, (n, 2) float each.
    unused
        Segments of them that were left out, (u, 2, 2) float.
    findings
        What may be wrong; those with a place are marked by their number.
    unit
        Plan unit, for the scale bar.
    """

    tin: Tin
    lines: Sequence[np.ndarray]
    unused: np.ndarray
    findings: Sequence[Finding]
    unit: LinearUnit


def draw(plan: BuildPlan) -> str:
    """Return the plan as an ``<svg>`` element."""
    west, south, east, north = plan.tin.extent
    across, up = max(east - west, 1e-9), max(north - south, 1e-9)
    scale = min((WIDTH - 2 * MARGIN - ARROW) / across, (MOST_HEIGHT - 2 * MARGIN) / up)
    height = up * scale + 2 * MARGIN + FOOT
    left = (WIDTH - ARROW - across * scale) / 2

    def pixels(xy: np.ndarray) -> np.ndarray:
        return np.column_stack(
            (left + (xy[:, 0] - west) * scale, MARGIN + (north - xy[:, 1]) * scale)
        )

    title = escape(translate("Report", "Plan of the surface, north up"))
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}" height="{height:.0f}" '
            f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" role="img"><title>{title}</title>'
        ),
        f'<rect width="{WIDTH:.0f}" height="{height:.0f}" fill="#fff"/>',
    ]
    border = _path(
        [pixels(plan.tin.vertices[[*loop, loop[0]], :2]) for loop in plan.tin.boundary_loops()]
    )
    parts.append(f'<path d="{border}" fill="{palette.PAPER}" fill-rule="evenodd"/>')
    ends = plan.tin.edges.ends
    if len(ends) <= MOST_EDGES:
        corners = pixels(plan.tin.vertices[ends.ravel(), :2]).reshape(-1, 2, 2)
        parts.append(
            f'<path d="{_path(corners)}" fill="none" stroke="{palette.MIST}" stroke-width=".6"/>'
        )
    parts.append(
        f'<path d="{border}" fill="none" stroke="{palette.QUIET_TEXT}" stroke-width="1" '
        'stroke-dasharray="5 3"/>'
    )
    frame = shapely.box(0.0, 0.0, WIDTH, height - FOOT)
    looks = (
        (plan.lines, f'stroke="{palette.SLATE}" stroke-width="1.5"'),
        (plan.unused, 'stroke="#fff" stroke-width="3"'),
        (plan.unused, f'stroke="{palette.BERRY}" stroke-width="2.4" stroke-dasharray="2 4"'),
    )
    for lines, look in looks:
        path = _path(_seen([pixels(line) for line in lines], frame))
        parts.append(f'<path d="{path}" fill="none" {look}/>')
    parts += _marks(plan.findings, pixels)
    parts += [north_arrow(WIDTH - 18.0), scale_bar(scale, plan.unit, height - 8.0), "</svg>"]
    return "".join(parts)


def _seen(lines: Sequence[np.ndarray], frame: shapely.Polygon) -> list[np.ndarray]:
    """Return what of lines lies in the drawing, without vertices nobody could see."""
    shapes = np.array([shapely.linestrings(line) for line in lines], dtype=object)
    kept = shapely.simplify(shapely.get_parts(shapely.intersection(shapes, frame)), _FINEST)
    return [shapely.get_coordinates(one) for one in kept if one.geom_type == "LineString"]


def _path(lines: Sequence[np.ndarray]) -> str:
    return " ".join("M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in line.tolist()) for line in lines)


def _marks(findings: Sequence[Finding], pixels: Callable[[np.ndarray], np.ndarray]) -> list[str]:
    """Return a cross, and a number, for each place."""
    placed = [(n, f.place) for n, f in enumerate(findings, 1) if f.place is not None][:MOST_MARKS]
    parts = []
    for number, place in placed:
        x, y = pixels(np.array([place]))[0]
        parts.append(
            f'<path d="M{x - 5:.1f},{y - 5:.1f} l10,10 m0,-10 l-10,10" stroke="{palette.BERRY}" '
            'stroke-width="2" fill="none"/>'
        )
        if len(placed) <= MOST_NUMBERS:
            parts.append(
                f'<text x="{x + 7:.1f}" y="{y - 5:.1f}" font-size="12" font-weight="700" '
                f'fill="{palette.BERRY}" stroke="#fff" stroke-width="3" paint-order="stroke" '
                f'font-family="sans-serif">{number}</text>'
            )
    return parts
