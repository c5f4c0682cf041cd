"""A north-up plan of a design with the places where something was found."""

from collections.abc import Iterable, Sequence
from html import escape

import numpy as np
import shapely

from ..core.measure.issues import Issue, Weight
from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .plan_marks import north_arrow, path_of, scale_bar

WIDTH, HEIGHT, MARGIN, KEY = 760, 480, 30, 30
_ROOM = 16.0  # pixels: a number nearer to an earlier one is left out

_FINEST = 0.3  # pixels
_LOOKS = {Weight.ERROR: palette.BERRY, Weight.CHECK: palette.OCHRE, Weight.NOTE: palette.SLATE}
_LARGE = 9.0  # pixels: smaller extents are hidden by their mark


def draw(
    listed: Sequence[Issue],
    outline: shapely.Geometry,
    zones: Iterable[shapely.Geometry],
    unit: LinearUnit,
) -> str:
    """Return the plan as an ``<svg>`` element.

    Parameters
    ----------
    listed
        What was found; each is marked, by its number in this order where there is room for it.
    outline
        The ground the design covers.
    zones
        Zones, drawn thin.
    unit
        Plan unit, for the scale bar.
    """
    low, high = np.array(shapely.bounds(outline)).reshape(2, 2)
    room = np.array([WIDTH - 2.0 * MARGIN, HEIGHT - 2.0 * MARGIN])
    scale = float((room / np.maximum(high - low, 1e-9)).min())
    middle, centre = (low + high) / 2.0, np.array([WIDTH, HEIGHT]) / 2.0
    frame = shapely.box(2, 2, WIDTH - 2, HEIGHT - 2)

    def pixels(xy: np.ndarray) -> np.ndarray:
        return centre + (xy - middle) * (scale, -scale)

    def path(shape: shapely.Geometry) -> str:
        drawn = shapely.simplify(shapely.transform(shape, pixels), _FINEST)
        if not drawn.is_valid:
            drawn = shapely.make_valid(drawn)
        shown = shapely.intersection(drawn, frame)
        parts = shapely.get_parts(shown)
        flat = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
        return path_of(shapely.MultiPolygon(list(flat)))

    title = escape(translate("Report", "Plan of the design and of what was found, north up"))
    made = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT + KEY}" '
            f'viewBox="0 0 {WIDTH} {HEIGHT + KEY}" role="img"><title>{title}</title>'
        ),
        _patterns(),
        f'<rect width="{WIDTH}" height="{HEIGHT + KEY}" fill="#fff"/>',
        (
            f'<path d="{path(outline)}" fill="{palette.PAPER}" fill-rule="evenodd" '
            f'stroke="{palette.SLATE}" stroke-width="1.2"/>'
        ),
    ]
    made += [
        f'<path d="{path(zone)}" fill="none" stroke="{palette.QUIET_TEXT}" stroke-width=".5"/>'
        for zone in zones
    ]
    for issue in listed:
        if issue.extent is not None and _reach(issue.extent) * scale >= _LARGE:
            made.append(_extent(issue, path(issue.extent)))
    shown = [(number, issue) for number, issue in enumerate(listed, 1) if issue.place is not None]
    spots = pixels(np.array([issue.place for _, issue in shown]).reshape(-1, 2))
    numbered = _with_room(spots)
    # The weightiest last, on top.
    for row in reversed(range(len(shown))):
        number, issue = shown[row]
        if (spots[row] > 0).all() and (spots[row] < (WIDTH, HEIGHT)).all():
            made.append(_mark(spots[row], number if numbered[row] else None, issue.weight))
    made += [north_arrow(WIDTH - 18.0), scale_bar(scale, unit, HEIGHT - 10.0), _key(), "</svg>"]
    return "".join(made)


def _reach(shape: shapely.Geometry) -> float:
    west, south, east, north = shapely.bounds(shape)
    return float(max(east - west, north - south))


def _extent(issue: Issue, data: str) -> str:
    pattern = "water" if issue.code == "pond" else str(issue.weight)
    colour = palette.TEAL if issue.code == "pond" else _LOOKS[issue.weight]
    return (
        f'<path d="{data}" fill="url(#at-{pattern})" fill-rule="evenodd" stroke="{colour}" '
        'stroke-width="1.2"/>'
    )


def _with_room(spots: np.ndarray) -> list[bool]:
    """Tell which numbers have room beside those before them."""
    taken: set[tuple[int, int]] = set()
    result = []
    for column, row in np.floor(spots / _ROOM).astype(int).tolist():
        near = {(column + a, row + b) for a in (-1, 0, 1) for b in (-1, 0, 1)}
        result.append(not near & taken)
        if result[-1]:
            taken.add((column, row))
    return result


def _mark(spot: np.ndarray, number: int | None, weight: Weight) -> str:
    x, y = spot
    mark = _shape(x, y, weight)
    if number is None:
        return mark
    return mark + (
        f'<text x="{x + 8:.1f}" y="{y + 4:.1f}" font-size="12" font-weight="700" '
        f'fill="{palette.SLATE}" stroke="#fff" stroke-width="3" paint-order="stroke" '
        f'font-family="sans-serif">{number}</text>'
    )


def _shape(x: float, y: float, weight: Weight) -> str:
    """Return a diamond for an error, a triangle for a check, a ring for a note."""
    colour = _LOOKS[weight]
    if weight is Weight.ERROR:
        data = f"M{x:.1f},{y - 7:.1f} l7,7 l-7,7 l-7,-7 z"
    elif weight is Weight.CHECK:
        data = f"M{x:.1f},{y - 6:.1f} l6,11 h-12 z"
    else:
        return (
            f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="#fff" stroke="{colour}" '
            'stroke-width="1.6"/>'
        )
    return f'<path d="{data}" fill="{colour}" stroke="#fff" stroke-width="1"/>'


def _patterns() -> str:
    made = []
    for name, colour, turn in (
        ("water", palette.TEAL, 0),
        ("error", palette.BERRY, 30),
        ("check", palette.OCHRE, 45),
        ("note", palette.SLATE, 135),
    ):
        made.append(
            f'<pattern id="at-{name}" width="6" height="6" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({turn})"><line x1="0" y1="1" x2="6" y2="1" '
            f'stroke="{colour}" stroke-width="1.2"/></pattern>'
        )
    return f"<defs>{''.join(made)}</defs>"


def _key() -> str:
    """Explain the marks."""
    labels = (
        (Weight.ERROR, translate("Report", "error")),
        (Weight.CHECK, translate("Report", "to check")),
        (Weight.NOTE, translate("Report", "note")),
    )
    y = HEIGHT + KEY / 2
    made = []
    for place, (weight, label) in enumerate(labels):
        x = MARGIN + 130.0 * place
        made.append(_shape(x, y, weight) + _words(x + 14, y, label))
    x = MARGIN + 130.0 * len(labels)
    made.append(
        f'<rect x="{x - 8}" y="{y - 7}" width="22" height="13" fill="url(#at-water)" '
        f'stroke="{palette.TEAL}"/>' + _words(x + 20, y, translate("Report", "water"))
    )
    return "".join(made)


def _words(x: float, y: float, text: str) -> str:
    return (
        f'<text x="{x}" y="{y + 4}" font-size="12" fill="{palette.QUIET_TEXT}" '
        f'font-family="sans-serif">{escape(text)}</text>'
    )
