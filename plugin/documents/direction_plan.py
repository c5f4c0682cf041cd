"""A north-up plan of many lines with the direction of each."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

import numpy as np
import shapely

from ..core.lines.bundle import Lines
from ..core.lines.stations import locate, point_at
from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .side_sketch import north_arrow, scale_bar

WIDTH, HEIGHT, MARGIN = 720, 460, 30
ARROW_EVERY = 130.0
"""Pixels between the arrows of a line."""
_LOOKS = {
    "kept": (palette.SLATE, "", 1.8),
    "turned": (palette.OCHRE, "9 4", 2.4),
    "flagged": (palette.BERRY, "2 4", 2.8),
}


@dataclass(frozen=True)
class DirectionPlan:
    """What to draw.

    Parameters
    ----------
    lines
        Plan coordinates of each line, (n, 2) float.
    states
        ``kept``, ``turned`` or ``flagged``, one for each.
    unit
        Plan unit, for the scale bar.
    """

    lines: Sequence[np.ndarray]
    states: Sequence[str]
    unit: LinearUnit


def draw(plan: DirectionPlan) -> str:
    """Return the plan as an ``<svg>`` element."""
    every = np.concatenate(plan.lines)
    low, high = every.min(0), every.max(0)
    room = np.array([WIDTH - 2.0 * MARGIN, HEIGHT - 2.0 * MARGIN])
    scale = float((room / np.maximum(high - low, 1e-9)).min())
    middle, centre = (low + high) / 2.0, np.array([WIDTH, HEIGHT]) / 2.0
    title = escape(translate("Report", "Plan of the lines and their directions, north up"))
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
            f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img"><title>{title}</title>'
        ),
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>',
    ]
    for state in _LOOKS:  # what is flagged comes last, on top
        for xy, own in zip(plan.lines, plan.states, strict=True):
            if own == state:
                parts += _line(centre + (xy - middle) * (scale, -scale), state)
    corner = WIDTH - 18.0
    parts += [north_arrow(corner), scale_bar(scale, plan.unit, HEIGHT - 10.0), "</svg>"]
    return "".join(parts)


def _line(pixels: np.ndarray, state: str) -> list[str]:
    """Return one line in pixels, with its arrows and the dot at its start."""
    colour, dash, width = _LOOKS[state]
    simple = shapely.get_coordinates(shapely.simplify(shapely.linestrings(pixels), 0.4))
    points = " ".join(f"{x:.1f},{y:.1f}" for x, y in simple)
    pattern = f' stroke-dasharray="{dash}"' if dash else ""
    x, y = pixels[0]
    parts = [
        (
            f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="{width}" '
            f'stroke-linejoin="round"{pattern}/>'
        ),
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3" fill="{colour}"/>',
    ]
    if np.hypot(*np.ptp(pixels, axis=0)) < 4.0:
        return parts
    line = Lines.from_arrays([pixels], 0.05)
    number = max(int(line.lengths[0] // ARROW_EVERY), 1)
    station = (np.arange(number) + 0.55) / number * line.lengths[0]
    which = np.zeros(number, np.int64)
    segment, _ = locate(line, which, station)
    for place, ahead in zip(
        point_at(line, which, station), line.segment_directions[segment], strict=True
    ):
        across = np.array([ahead[1], -ahead[0]])
        corners = [place + 6 * ahead, place - 4 * ahead + 4.5 * across]
        corners.append(place - 4 * ahead - 4.5 * across)
        head = " ".join(f"{x:.1f},{y:.1f}" for x, y in corners)
        parts.append(f'<polygon points="{head}" fill="{colour}"/>')
    return parts
