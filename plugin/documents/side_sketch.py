"""A small north-up drawing of a line: its direction, and the side where its guideline lies."""

from dataclasses import dataclass, field
from html import escape

import numpy as np
import shapely

from ..core.lines.bundle import Lines
from ..core.lines.corners import Join, JoinStyle
from ..core.lines.parallel import parallels
from ..core.lines.stations import cut, locate, point_at
from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .plan_marks import LARGE, arrow_head, north_arrow, scale_bar

WIDTH, HEIGHT, MARGIN, BAND = 300, 210, 38, 15.0
"""Size of the drawing, and the width of the band that stands for a side, in pixels."""


@dataclass(frozen=True)
class Sketch:
    """What to draw.

    Parameters
    ----------
    xy
        The source line in plan, (n, 2) float.
    sides
        Label of each side that carries a guideline: +1 right, -1 left.
    unit
        Plan unit, for the scale bar.
    flagged
        True when the side is not settled: both candidates are drawn, neither is shaded.
    """

    xy: np.ndarray
    sides: dict[int, str] = field(default_factory=dict)
    unit: LinearUnit | None = None
    flagged: bool = False


def draw(sketch: Sketch, number: int) -> str:
    """Return the drawing as an ``<svg>`` element; ``number`` keeps its pattern's id unique."""
    low, high = sketch.xy.min(0), sketch.xy.max(0)
    room = np.array([WIDTH - 2.0 * MARGIN, HEIGHT - 2.0 * MARGIN])
    scale = float((room / np.maximum(high - low, 1e-9)).min())
    middle = (low + high) / 2.0
    centre = np.array([WIDTH, HEIGHT]) / 2.0
    # North-up pixels: y still points up, so that right and left stay what they are.
    flat = (sketch.xy - middle) * scale
    ring = np.array_equal(sketch.xy[0], sketch.xy[-1])
    simple = shapely.get_coordinates(shapely.simplify(shapely.linestrings(flat), 0.6))
    line = Lines.from_arrays([simple if len(simple) > 3 or not ring else flat], 0.3)

    def path(xy: np.ndarray) -> str:
        points = centre + xy * (1.0, -1.0)
        return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)

    title = escape(translate("Report", "Sketch of the line and its side, north up"))
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
            f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img"><title>{title}</title>'
        ),
        (
            f'<defs><pattern id="side{number}" width="5" height="5" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate(45)"><rect width="5" height="5" fill="{palette.PAPER}"/>'
            f'<line x1="0" y1="0" x2="0" y2="5" stroke="{palette.OCHRE}" stroke-width="1.8" '
            'stroke-opacity=".8"/></pattern></defs>'
        ),
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="#fff"/>',
    ]
    colour = palette.BERRY if sketch.flagged else palette.OCHRE
    dash = "2 4" if sketch.flagged else "8 4"
    labels = []
    for side in (1, -1) if sketch.flagged else sorted(sketch.sides):
        for band, edge in _bands(line, side):
            if not sketch.flagged:
                parts.append(f'<polygon points="{path(band)}" fill="url(#side{number})"/>')
            parts.append(
                f'<polyline points="{path(edge)}" fill="none" stroke="{colour}" '
                f'stroke-width="2" stroke-dasharray="{dash}"/>'
            )
        text = sketch.sides.get(side, "?")
        labels.append(_label(line, side, text, centre, colour))
    parts.append(
        f'<polyline points="{path(line.xy)}" fill="none" stroke="{palette.SLATE}" '
        'stroke-width="2.4" stroke-linejoin="round"/>'
    )
    parts += [_arrow(line, share, centre) for share in _shares(line)]
    x, y = centre + line.xy[0] * (1.0, -1.0)
    parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{palette.SLATE}"/>')
    parts += [
        *labels,
        north_arrow(WIDTH - 18.0),
        scale_bar(scale, sketch.unit, HEIGHT - 10.0),
        "</svg>",
    ]
    return "".join(parts)


def _bands(line: Lines, side: int) -> list[tuple[np.ndarray, np.ndarray]]:
    """Return the band beside a line, and its far edge, piece by piece."""
    beside = parallels(line, side * BAND, JoinStyle(Join.ROUND, chord=0.5))
    bands = []
    for n in range(len(beside.lines)):
        rows = beside.lines.line(n)
        edge, station = beside.lines.xy[rows], beside.station[rows]
        start, stop = max(float(station[0]), 0.0), min(float(station[-1]), float(line.lengths[0]))
        near = line.xy if beside.lines.closed[n] else cut(line, 0, start, max(stop, start))[0]
        bands.append((np.concatenate([near, edge[::-1]]), edge))
    return bands


def _shares(line: Lines) -> tuple[float, ...]:
    return (0.3, 0.72) if line.lengths[0] > 90 else (0.6,)


def _heading(line: Lines, share: float) -> tuple[np.ndarray, np.ndarray]:
    station = np.array([share * line.lengths[0]])
    first = np.zeros(1, np.int64)
    segment, _ = locate(line, first, station)
    return point_at(line, first, station)[0], line.segment_directions[segment[0]]


def _arrow(line: Lines, share: float, centre: np.ndarray) -> str:
    place, ahead = _heading(line, share)
    return arrow_head(centre + place * (1.0, -1.0), ahead * (1.0, -1.0), palette.SLATE, LARGE)


def _label(line: Lines, side: int, text: str, centre: np.ndarray, colour: str) -> str:
    longest = int(line.segment_lengths.argmax())
    middle = line.stations[line.segments[longest]] + line.segment_lengths[longest] / 2.0
    place, ahead = _heading(line, float(middle / line.lengths[0]))
    across = np.array([ahead[1], -ahead[0]]) * side
    x, y = centre + (place + across * (BAND + 6)) * (1.0, -1.0)
    anchor = "middle" if abs(across[0]) < 0.5 else "start" if across[0] > 0 else "end"
    y += 4 - 6 * across[1] + (4 if across[1] < 0 else 0)
    size = 7.0 * len(text) * {"middle": 0.5}.get(anchor, 1.0)
    x = float(
        np.clip(x, size if anchor != "start" else 2, WIDTH - (size if anchor != "end" else 2))
    )
    return (
        f'<text x="{x:.1f}" y="{float(np.clip(y, 12, HEIGHT - 6)):.1f}" text-anchor="{anchor}" '
        f'font-size="12" font-weight="700" fill="{colour}" stroke="#fff" stroke-width="3" '
        f'paint-order="stroke" font-family="sans-serif">{escape(text)}</text>'
    )
