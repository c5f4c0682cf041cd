"""A small north-up drawing of a guideline beside its line, and of the place where it goes wrong."""

from collections.abc import Callable
from dataclasses import dataclass
from html import escape

import numpy as np
import shapely

from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .plan_marks import LARGE, arrow_head, north_arrow, scale_bar

WIDTH, HEIGHT, MARGIN = 340, 220, 34


@dataclass(frozen=True)
class CheckSketch:
    """What to draw.

    Parameters
    ----------
    line, guideline
        Both in plan, (n, 2) float.
    place
        Where it goes wrong, (2,) float.
    apart
        How far apart the two lie.
    unit
        Plan unit, for the scale bar.
    """

    line: np.ndarray
    guideline: np.ndarray
    place: np.ndarray
    apart: float
    unit: LinearUnit


def draw(sketch: CheckSketch) -> str:
    """Return the drawing as an ``<svg>`` element.

    It shows the guideline and that part of the line beside it; where the two would run together
    at this scale the middle of the drawing is the place that is wrong, drawn larger.
    """
    window = _window(sketch)
    low, high = window[:2], window[2:]
    room = np.array([WIDTH - 2.0 * MARGIN, HEIGHT - 2.0 * MARGIN])
    scale = float((room / np.maximum(high - low, 1e-9)).min())
    middle = (low + high) / 2.0
    reach = np.array([WIDTH, HEIGHT]) / scale

    def parts(xy: np.ndarray) -> list[str]:
        box = np.concatenate((middle - reach, middle + reach))
        shown = shapely.clip_by_rect(shapely.linestrings(xy), *box)
        return [
            " ".join(f"{x:.1f},{y:.1f}" for x, y in _pixels(shapely.get_coordinates(one)))
            for one in shapely.get_parts(shown)
            if not shapely.is_empty(one)
        ]

    def _pixels(xy: np.ndarray) -> np.ndarray:
        return np.array([WIDTH, HEIGHT]) / 2.0 + (xy - middle) * scale * (1.0, -1.0)

    title = escape(translate("Report", "Sketch of the line and the guideline, north up"))
    made = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
            f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img"><title>{title}</title>'
        ),
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>',
    ]
    for xy, colour, width, dash in (
        (sketch.line, palette.SLATE, 2.4, ""),
        (sketch.guideline, palette.OCHRE, 2.2, ' stroke-dasharray="8 4"'),
    ):
        made += [
            f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="{width}"'
            f'{dash} stroke-linejoin="round"/>'
            for points in parts(xy)
        ]
    made += _arrows(sketch.line, _pixels)
    x, y = _pixels(sketch.place)
    made.append(
        f'<path d="M{x - 7:.1f},{y - 7:.1f} l14,14 m0,-14 l-14,14" stroke="{palette.BERRY}" '
        'stroke-width="3" fill="none"/>'
        f'<circle cx="{x:.1f}" cy="{y:.1f}" r="11" fill="none" stroke="{palette.BERRY}" '
        'stroke-width="1.6"/>'
    )
    made += [north_arrow(WIDTH - 18.0), scale_bar(scale, sketch.unit, HEIGHT - 10.0), "</svg>"]
    return "".join(made)


def _window(sketch: CheckSketch) -> np.ndarray:
    """Return the corner coordinates of what is drawn."""
    guideline = shapely.linestrings(sketch.guideline)
    bounds = shapely.bounds(guideline)
    size = float(np.hypot(*(bounds[2:] - bounds[:2])))
    apart = max(sketch.apart, 1e-3 * size, 1e-9)
    # The two stand so many pixels apart that they are told from each other.
    most = apart * (WIDTH - 2.0 * MARGIN) / 28.0
    if size <= most:
        grown = shapely.bounds(shapely.buffer(guideline, 1.5 * apart))
        return np.asarray(grown, dtype=np.float64)
    return np.concatenate((sketch.place - most / 2.0, sketch.place + most / 2.0))


def _arrows(line: np.ndarray, pixels: Callable[[np.ndarray], np.ndarray]) -> list[str]:
    """Return arrow heads along the line, where the drawing shows it."""
    xy = pixels(line)
    path = shapely.clip_by_rect(shapely.linestrings(xy), 8, 8, WIDTH - 8, HEIGHT - 8)
    made = []
    for one in shapely.get_parts(path):
        if shapely.length(one) < 60:
            continue
        ends = shapely.get_coordinates(
            shapely.line_interpolate_point(one, [0.62, 0.66], normalized=True)
        )
        ahead = (ends[1] - ends[0]) / max(float(np.hypot(*(ends[1] - ends[0]))), 1e-9)
        made.append(arrow_head(ends[1], ahead, palette.SLATE, LARGE))
    return made
