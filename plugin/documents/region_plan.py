"""A north-up plan of regions of a few kinds, told apart by pattern as well as by colour."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

import numpy as np
import shapely

from ..core.units import LinearUnit
from ..styles import palette
from .drawn_text import text_width
from .plan_marks import north_arrow, scale_bar
from .zone_plan import MOST_ZONES

WIDTH, MOST_HEIGHT, MARGIN, FOOT = 660.0, 480.0, 18.0, 46.0
_FINEST, _LEAST = 0.4, 0.6  # pixels, square pixels
_ROOM = 11.0  # pixels a zone must be wide for its number to be drawn
HATCHED, DOTTED, PLAIN, CROSSED = "hatched", "dotted", "plain", "crossed"
_INKS = {
    HATCHED: (palette.ORANGE, "#f6d3b0"),
    DOTTED: (palette.PLUM, "#d9cde8"),
    CROSSED: (palette.BERRY, "#f3d3e2"),
    PLAIN: (palette.MIST, palette.PAPER),
}
_MARKS = {
    HATCHED: '<path d="M0,7 L7,0" stroke="{ink}" stroke-width="1.2"/>',
    DOTTED: '<circle cx="3.5" cy="3.5" r="1.3" fill="{ink}"/>',
    CROSSED: '<path d="M0,0 L7,7 M0,7 L7,0" stroke="{ink}" stroke-width="1"/>',
    PLAIN: "",
}


@dataclass(frozen=True)
class Region:
    """Regions of one kind.

    Parameters
    ----------
    shapes
        Polygons, None for nothing.
    look
        `HATCHED`, `DOTTED`, `CROSSED` or `PLAIN`.
    label
        What the key calls them.
    """

    shapes: Sequence[shapely.Geometry | None]
    look: str
    label: str


SOLID, DASHED = "solid", "dashed"
_STROKES = {
    SOLID: f'stroke="{palette.BERRY}" stroke-width="3"',
    DASHED: f'stroke="{palette.SLATE}" stroke-width="1.4" stroke-dasharray="9 4"',
}


@dataclass(frozen=True)
class Course:
    """Lines of one kind.

    Parameters
    ----------
    shapes
        Lines.
    look
        `SOLID` or `DASHED`.
    label
        What the key calls them.
    """

    shapes: Sequence[shapely.Geometry]
    look: str
    label: str


def draw(
    title: str,
    regions: Sequence[Region],
    zones: Sequence[shapely.Geometry],
    unit: LinearUnit,
    points: Sequence[tuple[float, float, str]] = (),
    courses: Sequence[Course] = (),
) -> str:
    """Return the plan as an ``<svg>`` element.

    Parameters
    ----------
    title
        What is drawn.
    regions
        The regions, the first at the bottom.
    zones
        Outlines, numbered from 1; only as long as they are few enough to be told apart.
    unit
        Plan unit, for the scale bar.
    points
        Places with a short label each.
    courses
        Lines over the regions; what lies outside these and the zones is cut off.
    """
    shapes = [s for region in regions for s in region.shapes if s is not None and not s.is_empty]
    bounds = shapely.bounds(np.array([*shapes, *zones], dtype=object))
    if not len(bounds) or not np.isfinite(bounds).any():
        return ""
    (west, south), (east, north) = (
        np.nanmin(bounds[:, :2], axis=0),
        np.nanmax(bounds[:, 2:], axis=0),
    )
    across, up = max(east - west, 1e-9), max(north - south, 1e-9)
    scale = min((WIDTH - 2 * MARGIN) / across, (MOST_HEIGHT - 2 * MARGIN) / up)
    left = (WIDTH - across * scale) / 2
    height = up * scale + 2 * MARGIN + FOOT

    def pixels(xy: np.ndarray) -> np.ndarray:
        return np.column_stack(
            (left + (xy[:, 0] - west) * scale, MARGIN + (north - xy[:, 1]) * scale)
        )

    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}" height="{height:.0f}" '
            f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" role="img" font-family="sans-serif">'
            f"<title>{escape(title)}</title>"
        ),
        _patterns(),
    ]
    for region in regions:
        path = " ".join(_path(s, pixels) for s in region.shapes if s is not None)
        if path.strip():
            parts.append(f'<path d="{path}" {_fill(region.look)}/>')
    words = []
    if len(zones) <= MOST_ZONES:
        for number, zone in enumerate(zones, 1):
            if zone.is_empty:
                continue
            parts.append(
                f'<path d="{_path(zone, pixels)}" fill="none" stroke="{palette.SLATE}" '
                'stroke-width="1.2"/>'
            )
            words.append(_number(zone, number, pixels))
    frame = shapely.box(west, south, east, north)
    for course in courses:
        seen = shapely.intersection(np.array(course.shapes, dtype=object), frame)
        path = " ".join(_line_path(shape, pixels) for shape in seen)
        parts.append(f'<path d="{path}" fill="none" {_STROKES[course.look]}/>')
    words += [_point(pixels(np.array([[x, y]]))[0], text) for x, y, text in points]
    key = _key(regions, courses, height - FOOT + 16)
    bar = scale_bar(scale, unit, height - 8)
    return "".join([*parts, *words, key, bar, north_arrow(WIDTH - 16), "</svg>"])


def _fill(look: str) -> str:
    ink, _ = _INKS[look]
    return f'fill="url(#{look})" fill-rule="evenodd" stroke="{ink}" stroke-width=".5"'


def _patterns() -> str:
    made = []
    for look, mark in _MARKS.items():
        ink, paper = _INKS[look]
        made.append(
            f'<pattern id="{look}" width="7" height="7" patternUnits="userSpaceOnUse">'
            f'<rect width="7" height="7" fill="{paper}"/>{mark.format(ink=ink)}</pattern>'
        )
    return f"<defs>{''.join(made)}</defs>"


def _path(shape: shapely.Geometry, pixels) -> str:
    with np.errstate(all="ignore"):
        drawn = shapely.get_parts(shapely.simplify(shapely.transform(shape, pixels), _FINEST))
    drawn = drawn[shapely.area(drawn) > _LEAST]
    rings = shapely.get_rings(drawn)
    return " ".join(
        "M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in shapely.get_coordinates(ring)) + " Z"
        for ring in rings
    )


def _line_path(shape: shapely.Geometry, pixels) -> str:
    drawn = shapely.get_parts(shapely.simplify(shapely.transform(shape, pixels), _FINEST))
    return " ".join(
        "M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in shapely.get_coordinates(line))
        for line in drawn[shapely.length(drawn) > 0]
    )


def _number(zone: shapely.Geometry, number: int, pixels) -> str:
    flat = shapely.get_parts(shapely.transform(zone, pixels))
    largest = flat[int(shapely.area(flat).argmax())]
    spot = shapely.maximum_inscribed_circle(largest, tolerance=1.0)
    if 2 * spot.length < _ROOM:
        return ""
    x, y = shapely.get_coordinates(spot)[0]
    return (
        f'<text x="{x:.1f}" y="{y + 4:.1f}" text-anchor="middle" font-size="12" '
        f'font-weight="600" paint-order="stroke" stroke="#fff" stroke-width="3" '
        f'fill="{palette.SLATE}">{number}</text>'
    )


def _point(place: np.ndarray, text: str) -> str:
    x, y = place
    fits = x + 6 + text_width(text, 11) < WIDTH
    start, anchor = (x + 6, "start") if fits else (x - 6, "end")
    return (
        f'<path d="M{x - 4:.1f},{y - 4:.1f} l8,8 m0,-8 l-8,8" stroke="{palette.SLATE}" '
        f'stroke-width="1.8"/><text x="{start:.1f}" y="{y - 5:.1f}" font-size="11" '
        f'text-anchor="{anchor}" '
        f'paint-order="stroke" stroke="#fff" stroke-width="3" fill="{palette.SLATE}">'
        f"{escape(text)}</text>"
    )


def _key(regions: Sequence[Region], courses: Sequence[Course], y: float) -> str:
    parts, x = [], MARGIN - 8
    for one in (*regions, *courses):
        if all(s is None or s.is_empty for s in one.shapes):
            continue
        mark = f'<path d="M{x:.1f},{y - 4:.1f} h24" {_STROKES.get(one.look, "")}/>'
        if isinstance(one, Region):
            box = f'x="{x:.1f}" y="{y - 10:.1f}" width="24" height="12"'
            mark = f"<rect {box} {_fill(one.look)}/>"
        parts.append(
            f'{mark}<text x="{x + 30:.1f}" y="{y:.1f}" font-size="12" '
            f'fill="{palette.QUIET_TEXT}">{escape(one.label)}</text>'
        )
        x += 30 + text_width(one.label, 12) + 18
    return "".join(parts)
