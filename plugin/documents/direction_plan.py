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
from .plan_marks import SMALL, arrow_head, north_arrow, scale_bar

WIDTH, HEIGHT, MARGIN = 720, 460, 30
ARROW_EVERY = 130.0
"""Pixels between the arrows of a line."""
MOST_NUMBERS = 60
"""With more lines than this their numbers would hide them."""
_LOOKS = {
    "kept": (palette.SLATE, "", 1.8),
    "turned": (palette.OCHRE, "9 4", 2.4),
    "flagged": (palette.BERRY, "2 4", 2.8),
    "reference": (palette.QUIET_TEXT, "", 0.8),
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
    references
        Lines by which the others were turned, drawn thin.
    places
        Where to look on each flagged line, (2,) float or None; as many as lines, or none.
    """

    lines: Sequence[np.ndarray]
    states: Sequence[str]
    unit: LinearUnit
    references: Sequence[np.ndarray] = ()
    places: Sequence[np.ndarray | None] = ()


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

    def pixels(xy: np.ndarray) -> np.ndarray:
        return centre + (xy - middle) * (scale, -scale)

    for xy in plan.references:
        parts += _line(_inside(pixels(xy)), "reference")
    for state in ("kept", "turned", "flagged"):  # what is flagged comes last, on top
        for xy, own in zip(plan.lines, plan.states, strict=True):
            if own == state:
                parts += _line(pixels(xy), state)
    parts += [_cross(pixels(place)) for place in plan.places if place is not None]
    if len(plan.lines) <= MOST_NUMBERS:
        parts += [
            _number(pixels(xy), n, own)
            for n, (xy, own) in enumerate(zip(plan.lines, plan.states, strict=True), 1)
        ]
    corner = WIDTH - 18.0
    parts += [north_arrow(corner), scale_bar(scale, plan.unit, HEIGHT - 10.0), "</svg>"]
    return "".join(parts)


def _inside(pixels: np.ndarray) -> np.ndarray:
    """Return the longest part of a line that lies in the drawing; nothing of it: no vertices."""
    frame = shapely.box(1.0, 1.0, WIDTH - 1.0, HEIGHT - 1.0)
    parts = shapely.get_parts(shapely.intersection(shapely.linestrings(pixels), frame))
    if not len(parts):
        return np.empty((0, 2))
    return shapely.get_coordinates(parts[int(shapely.length(parts).argmax())])


def _cross(place: np.ndarray) -> str:
    x, y = place
    return (
        f'<path d="M{x - 5:.1f},{y - 5:.1f} l10,10 m0,-10 l-10,10" stroke="{palette.BERRY}" '
        'stroke-width="2" fill="none"/>'
    )


def _number(pixels: np.ndarray, number: int, state: str) -> str:
    """Return the number of a line, beside its first vertex and away from the line."""
    away = pixels[0] - pixels[min(1, len(pixels) - 1)]
    x, y = pixels[0] + 11.0 * away / max(float(np.hypot(*away)), 1e-9)
    x, y = float(np.clip(x, 8, WIDTH - 8)), float(np.clip(y + 4, 12, HEIGHT - 4))
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="middle" font-size="12" font-weight="700" '
        f'fill="{_LOOKS[state][0]}" stroke="#fff" stroke-width="3" paint-order="stroke" '
        f'font-family="sans-serif">{number}</text>'
    )


def _line(pixels: np.ndarray, state: str) -> list[str]:
    """Return one line in pixels, with its arrows and the dot at its start."""
    if len(pixels) < 2:
        return []
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
    parts += [
        arrow_head(place, ahead, colour, SMALL)
        for place, ahead in zip(
            point_at(line, which, station), line.segment_directions[segment], strict=True
        )
    ]
    return parts
