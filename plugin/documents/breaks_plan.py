"""A north-up plan of slope breaks over their patches, or of breaks beside drawn lines."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape

import numpy as np
import shapely

from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .drawn_text import text_width
from .plan_marks import north_arrow, scale_bar

WIDTH, MOST_HEIGHT, LEAST_HEIGHT, MARGIN = 900.0, 560.0, 220.0, 26.0
MOST_LINES = 4000
"""Of more lines than this the longest are drawn."""
MOST_PATCHES = 3000
"""Of more patches than this none are drawn: their outlines would hide the breaks."""
MOST_SHADE = 0.12
"""Patches at this grade and steeper have the darkest shade."""
CLOSE = 9.0
"""Lines nearer than this on the average, in pixels, cannot be told apart: a detail is added."""
DETAIL = 10.0
"""A detail shows the plan so many times larger."""
_LIGHT, _DARK = (248, 246, 241), (205, 207, 206)
_FINEST = 0.3  # pixels
_PIXELS = 2.9  # pixels in a millimetre of the styles' widths
_DASHES = {"solid": "", "dash": "9 4", "dash dot": "10 3 2 3", "dot": "2 3"}
_DASHES["dash dot dot"] = "9 3 2 2 2 3"
_Seen = Callable[[shapely.Geometry], shapely.Geometry]
"""What of a shape is seen, in pixels."""


@dataclass(frozen=True)
class BreaksPlan:
    """What to draw.

    Parameters
    ----------
    lines
        Plan coordinates of each line, (n, 2) float.
    looks
        What each is: a key of `palette.BREAK_KINDS` or `palette.COMPARED`.
    labels
        What people read for the looks that occur, in the order of the legend.
    numbers
        Number to write beside each line, 0 for none; as many as lines, or none.
    unit
        Plan unit, for the scale bar.
    patches
        Outlines of patches, None for those without.
    grades
        Grade of each patch, a ratio.
    title
        What the plan shows.
    """

    lines: Sequence[np.ndarray]
    looks: Sequence[str]
    labels: dict[str, str]
    numbers: Sequence[int]
    unit: LinearUnit
    patches: Sequence[shapely.Geometry | None]
    grades: Sequence[float]
    title: str


def extent_of(plan: BreaksPlan) -> tuple[float, float, float, float]:
    """Return smallest x, y and largest x, y of all that is drawn."""
    every = [np.concatenate(plan.lines)] if plan.lines else []
    shapes = [shape for shape in plan.patches if shape is not None]
    if shapes:
        every.append(np.reshape(shapely.total_bounds(shapes), (2, 2)))
    points = np.concatenate(every)
    (west, south), (east, north) = points.min(0), points.max(0)
    return float(west), float(south), float(east), float(north)


def detail_of(plan: BreaksPlan) -> tuple[float, float, float, float] | None:
    """Return the frame of a detail; None where the plan itself is clear.

    It lies about the longest break that is not drawn, else about the longest break.
    """
    scale = _scale(*extent_of(plan))
    chosen = _longest(plan)
    shapes = [shapely.linestrings(plan.lines[n]) for n in chosen]
    # Every line has a strip of its own: the area near lines divided by their length.
    near = shapely.union_all(shapely.buffer(shapes, CLOSE / scale, quad_segs=2))
    if shapely.area(near) * scale >= CLOSE * shapely.length(shapes).sum():
        return None
    wanted = [n for n in chosen if plan.looks[n] == "missing"]
    wanted += [n for n in chosen if plan.looks[n] != "edge"]
    middle = shapely.line_interpolate_point(
        shapely.linestrings(plan.lines[(wanted or chosen)[0]]), 0.5, normalized=True
    )
    x, y = shapely.get_coordinates(middle)[0]
    half = (WIDTH - 2 * MARGIN) / scale / DETAIL / 2
    return x - half, y - 0.5 * half, x + half, y + 0.5 * half


def _longest(plan: BreaksPlan) -> list[int]:
    """Return the lines that are drawn, the longest first."""
    lengths = np.array([np.hypot(*np.diff(xy, axis=0).T).sum() for xy in plan.lines])
    return np.argsort(-lengths, kind="stable")[:MOST_LINES].tolist()


def draw(
    plan: BreaksPlan,
    extent: tuple[float, float, float, float],
    frame: tuple[float, float, float, float] | None = None,
) -> str:
    """Return the plan as an ``<svg>`` element.

    Parameters
    ----------
    plan
        What to draw.
    extent
        Smallest x, y and largest x, y that the drawing shows.
    frame
        The same of a detail, whose place is marked.
    """
    west, south, east, north = extent
    scale = _scale(*extent)
    height = float(np.clip((north - south) * scale + 2 * MARGIN, LEAST_HEIGHT, MOST_HEIGHT))
    middle = np.array([(west + east) / 2.0, (south + north) / 2.0])
    centre = np.array([WIDTH, height]) / 2.0
    window = shapely.box(*(middle - centre / scale), *(middle + centre / scale))

    def pixels(xy: np.ndarray) -> np.ndarray:
        return centre + (xy - middle) * (scale, -scale)

    def seen(shape: shapely.Geometry) -> shapely.Geometry:
        if not shapely.covers(window, shape):
            shape = shapely.intersection(shape, window)
        return shapely.simplify(shapely.transform(shape, pixels), _FINEST)

    whole = height + _legend_height(plan)
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}" height="{whole:.0f}" '
            f'viewBox="0 0 {WIDTH:.0f} {whole:.0f}" role="img"><title>{escape(plan.title)}</title>'
        ),
        f'<rect width="{WIDTH:.0f}" height="{whole:.0f}" fill="#fff"/>',
    ]
    words: list[str] = []
    if len(plan.patches) <= MOST_PATCHES:
        for shape, grade in zip(plan.patches, plan.grades, strict=True):
            if shape is not None and shapely.intersects(shape, window):
                made, word = _patch(seen(shape), grade)
                parts.append(made)
                words.append(word)
    parts += _lines(plan, window, seen)
    if frame is not None:
        (x0, y1), (x1, y0) = pixels(np.reshape(frame, (2, 2)))
        parts.append(
            f'<rect x="{x0:.1f}" y="{y0:.1f}" width="{x1 - x0:.1f}" height="{y1 - y0:.1f}" '
            f'fill="none" stroke="{palette.SLATE}" stroke-width="1.6"/>'
        )
    words += _numbers(plan, window, seen)
    marks = [
        f'<rect x="2" y="{height - 22:.1f}" width="132" height="20" fill="#fff" opacity=".8"/>',
        f'<rect x="{WIDTH - 28:.0f}" y="2" width="24" height="44" fill="#fff" opacity=".8"/>',
        north_arrow(WIDTH - 16.0),
        scale_bar(scale, plan.unit, height - 8.0),
    ]
    return "".join([*parts, *words, *marks, _legend(plan, height), "</svg>"])


def _scale(west: float, south: float, east: float, north: float) -> float:
    across, up = max(east - west, 1e-9), max(north - south, 1e-9)
    return min((WIDTH - 2 * MARGIN) / across, (MOST_HEIGHT - 2 * MARGIN) / up)


def look(word: str) -> tuple[str, str, float]:
    """Return colour, dashes and width in pixels of a look."""
    colour, pattern, width = (palette.BREAK_KINDS | palette.COMPARED)[word]
    return colour, _DASHES[pattern], width * _PIXELS


def _stroke(word: str) -> str:
    colour, dashes, width = look(word)
    pattern = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'fill="none" stroke="{colour}" stroke-width="{width:.1f}"{pattern}'


def _lines(plan: BreaksPlan, window: shapely.Geometry, seen: _Seen) -> list[str]:
    """Return the lines, the longest ones where there are too many, each look as one path."""
    chosen = sorted(_longest(plan))
    shapes = [shapely.linestrings(plan.lines[n]) for n in chosen]
    paths: dict[str, list[str]] = {word: [] for word in plan.labels}
    for n, shape in zip(chosen, shapes, strict=True):
        if not shapely.intersects(shape, window):
            continue
        for part in shapely.get_parts(seen(shape)):
            points = shapely.get_coordinates(part)
            if len(points) > 1:
                text = " L".join(f"{x:.1f},{y:.1f}" for x, y in points)
                paths[plan.looks[n]].append(f"M{text}")
    return [
        f'<path d="{" ".join(path)}" {_stroke(word)} stroke-linejoin="round"/>'
        for word, path in paths.items()
        if path
    ]


def _patch(shape: shapely.Geometry, grade: float) -> tuple[str, str]:
    """Return a patch, the steeper the darker, and its grade where there is room for it."""
    share = float(np.clip(grade / MOST_SHADE, 0.0, 1.0))
    mixed = [round(a + share * (b - a)) for a, b in zip(_LIGHT, _DARK, strict=True)]
    rings = shapely.get_rings(
        [p for p in shapely.get_parts(shape) if p.geom_type == "Polygon" and not p.is_empty]
    )
    if not len(rings):
        return "", ""
    path = " ".join(
        "M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in shapely.get_coordinates(ring)) + "Z"
        for ring in rings
    )
    made = (
        f'<path d="{path}" fill="rgb({mixed[0]},{mixed[1]},{mixed[2]})" fill-rule="evenodd" '
        'stroke="none"/>'
    )
    text = f"{100 * grade:.1f} %"
    room = text_width(text, 10.5)
    west, south, east, north = shapely.bounds(shape)
    if min(east - west, north - south) < 16.0:
        return made, ""
    parts = shapely.get_parts(shape)
    largest = parts[int(shapely.area(parts).argmax())]
    spot = shapely.maximum_inscribed_circle(largest, tolerance=1.0)
    if 2 * shapely.length(spot) < max(0.75 * room, 15.0):
        return made, ""
    x, y = shapely.get_coordinates(spot)[0]
    return made, _word(x, y, text, palette.QUIET_TEXT)


def _numbers(plan: BreaksPlan, window: shapely.Geometry, seen: _Seen) -> list[str]:
    """Return the numbers of lines, each at the middle of its longest part that is seen."""
    made: list[str] = []
    taken = np.empty((0, 2))
    for xy, number in zip(plan.lines, plan.numbers, strict=False):
        if not number:
            continue
        shape = shapely.linestrings(xy)
        if not shapely.intersects(shape, window):
            continue
        parts = shapely.get_parts(seen(shape))
        part = parts[int(shapely.length(parts).argmax())]
        if shapely.length(part) < 40.0:
            continue
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            spot = shapely.line_interpolate_point(part, share, normalized=True)
            place = shapely.get_coordinates(spot)
            if (np.abs(taken - place) < (22.0, 14.0)).all(axis=1).any():
                continue
            taken = np.concatenate((taken, place))
            x, y = place[0]
            made.append(_word(x, y, str(number), palette.SLATE, weight=700))
            break
    return made


def _word(x: float, y: float, text: str, colour: str, weight: int = 400) -> str:
    return (
        f'<text x="{x:.1f}" y="{y + 3.6:.1f}" text-anchor="middle" font-size="10.5" '
        f'font-weight="{weight}" font-family="sans-serif" fill="{colour}" stroke="#fff" '
        f'stroke-width="3" paint-order="stroke">{escape(text)}</text>'
    )


def _legend_rows(plan: BreaksPlan) -> list[list[tuple[str, str, float]]]:
    """Return the entries (look, label, x) of the legend, row by row."""
    entries = list(plan.labels.items())
    if any(shape is not None for shape in plan.patches) and len(plan.patches) <= MOST_PATCHES:
        entries.append(("", translate("Report", "patches: the darker, the steeper")))
    rows: list[list[tuple[str, str, float]]] = [[]]
    x = MARGIN
    for word, label in entries:
        width = 58.0 + text_width(label, 12)
        if rows[-1] and x + width > WIDTH - MARGIN:
            rows.append([])
            x = MARGIN
        rows[-1].append((word, label, x))
        x += width
    return rows


def _legend_height(plan: BreaksPlan) -> float:
    return 12.0 + 20.0 * len(_legend_rows(plan))


def _legend(plan: BreaksPlan, top: float) -> str:
    made = [
        f'<path d="M0,{top:.1f} H{WIDTH:.0f}" stroke="{palette.MIST}" stroke-width="1"/>',
    ]
    for row, entries in enumerate(_legend_rows(plan)):
        y = top + 17.0 + 20.0 * row
        for word, label, x in entries:
            if word:
                made.append(f'<path d="M{x:.1f},{y:.1f} h34" {_stroke(word)}/>')
            else:
                light, dark = (f"rgb({r},{g},{b})" for r, g, b in (_LIGHT, _DARK))
                box = f'y="{y - 6:.1f}" width="17" height="12" stroke="{palette.MIST}"'
                made.append(f'<rect x="{x:.1f}" {box} fill="{light}"/>')
                made.append(f'<rect x="{x + 17:.1f}" {box} fill="{dark}"/>')
            made.append(
                f'<text x="{x + 40:.1f}" y="{y + 4:.1f}" font-size="12" font-family="sans-serif" '
                f'fill="{palette.SLATE}">{escape(label)}</text>'
            )
    return "".join(made)
