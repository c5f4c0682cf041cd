"""One cross section, drawn with a grid, two scales of elevation, zones, guidelines and surfaces.

The same shapes go on paper, where the scale is a round one, and into the report.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..core.text import translate
from ..core.units import FOOT, METRE, LinearUnit
from ..styles import palette
from .drawing import Area, Drawing, Label, Stroke
from .drawn_text import text_width

LOOKS: tuple[tuple[str, float, tuple[float, ...]], ...] = (
    (palette.SLATE, 1.5, ()),
    (palette.ORANGE, 1.6, (7.0, 2.5)),
    (palette.PLUM, 1.4, (7.0, 2.0, 1.5, 2.0)),
    (palette.TEAL, 1.8, (1.8, 2.0)),
    (palette.BROWN, 1.1, (3.5, 2.0)),
    (palette.OCHRE_TEXT, 0.8, ()),
)
"""Colour, width and dashes of each surface in turn; in grey the dashes tell them apart."""
_GRID = "#d5dbdf"
CUT, FILL = "#f3dcc4", "#dcd3e6"
LEFT, RIGHT = 46.0, 42.0
"""Room beside the frame for the elevations."""
_HEAD, _ROW, _STRIP, _FOOT = 30.0, 9.5, 11.0, 27.0
_SMALL = 6.8
MOST_ROWS = 4
"""Rows of names of guidelines; of more that stand close together some go without a name."""


@dataclass(frozen=True)
class View:
    """What is to be seen of one section.

    Parameters
    ----------
    title, detail
        The station, and a line below it.
    runs
        For each surface the parts of its profile, (n, 2) offset and elevation.
    upper, lower
        Surfaces between which cut and fill are shaded; None for none.
    guides
        Offset, elevation (NaN for none) and name of each guideline.
    zones
        Start, stop and name of each stretch in a zone.
    reach
        Offsets at which the section begins and ends.
    """

    title: str
    detail: str
    runs: Sequence[Sequence[np.ndarray]]
    upper: int | None
    lower: int | None
    guides: Sequence[tuple[float, float, str]]
    zones: Sequence[tuple[float, float, str]]
    reach: tuple[float, float]

    def heights(self) -> tuple[float, float]:
        """Return the lowest and the highest elevation, NaN where there is none."""
        every = [run[:, 1] for runs in self.runs for run in runs]
        every += [np.array([z]) for _, z, _ in self.guides if np.isfinite(z)]
        if not every:
            return np.nan, np.nan
        joined = np.concatenate(every)
        return float(joined.min()), float(joined.max())


@dataclass(frozen=True)
class Scale:
    """How large sections are drawn.

    Parameters
    ----------
    across, up
        Points in a plan unit, and in a vertical unit.
    low, high
        Offsets at the left and the right border of all frames.
    plan, vertical
        The units.
    """

    across: float
    up: float
    low: float
    high: float
    plan: LinearUnit
    vertical: LinearUnit

    @property
    def width(self) -> float:
        """Width of a whole plot."""
        return LEFT + RIGHT + self.across * (self.high - self.low)


def nice_step(least: float) -> float:
    """Return the smallest of 1, 2, 5, 10, ... (and their tenths) that is not less."""
    power = 10.0 ** np.floor(np.log10(least))
    return float(next(n * power for n in (1, 2, 5, 10) if n * power >= least * (1 - 1e-9)))


def grid_range(view: View, scale: Scale) -> tuple[float, float, float]:
    """Return the lowest and highest elevation of the frame of a section, and the grid's step."""
    low, high = view.heights()
    if not np.isfinite(low):
        low = high = 0.0
    step = nice_step(14.0 / scale.up)
    bottom = np.floor(low / step - 0.15) * step
    top = np.ceil(high / step + 0.15) * step
    while (top - bottom) * scale.up < 42.0:
        top, bottom = top + step, bottom - step
    return float(bottom), float(top), step


def plot_height(view: View, scale: Scale) -> float:
    """Return the height of the plot of a section."""
    bottom, top, _ = grid_range(view, scale)
    rows = len(_rows_of(view, scale))
    strips = len(_strips_of(view))
    return _HEAD + rows * _ROW + strips * _STRIP + (top - bottom) * scale.up + _FOOT


def plot(view: View, scale: Scale) -> Drawing:
    """Draw a section."""
    bottom, top, step = grid_range(view, scale)
    drawing = Drawing(scale.width, plot_height(view, scale))
    rows = _rows_of(view, scale)
    strips = _strips_of(view)
    strip = _STRIP * len(strips)
    roof = _HEAD + len(rows) * _ROW + strip
    frame = _Frame(scale, bottom, top, step, roof, roof + (top - bottom) * scale.up)
    drawing.add(
        Label(view.title, LEFT, 12.0, 10.5, bold=True),
        Label(view.detail, LEFT, 23.5, 7.4, colour=palette.QUIET_TEXT),
    )
    _bodies(drawing, view, frame)
    _grid(drawing, frame)
    _zones(drawing, strips, frame)
    _guides(drawing, view, frame, rows, strip)
    for number, runs in enumerate(view.runs):
        colour, width, dash = LOOKS[number % len(LOOKS)]
        for run in runs:
            drawing.add(Stroke(frame.points(run), colour, width, dash))
    return drawing


@dataclass(frozen=True)
class _Frame:
    """The frame of a plot: its scale, elevations and place."""

    scale: Scale
    bottom: float
    top: float
    step: float
    roof: float
    floor: float

    def x(self, offset: float) -> float:
        return LEFT + self.scale.across * (offset - self.scale.low)

    def y(self, height: float) -> float:
        return self.floor - self.scale.up * (height - self.bottom)

    def points(self, run: np.ndarray) -> list[tuple[float, float]]:
        """Return a run as points of the drawing, without those nearer than a hair."""
        xy = np.column_stack(
            (
                LEFT + self.scale.across * (run[:, 0] - self.scale.low),
                self.floor - self.scale.up * (run[:, 1] - self.bottom),
            )
        )
        kept = [0]
        for k in range(1, len(xy)):
            if np.abs(xy[k] - xy[kept[-1]]).max() > 0.05 or k == len(xy) - 1:
                kept.append(k)
        return [(float(x), float(y)) for x, y in xy[kept]]


def _grid(drawing: Drawing, frame: _Frame) -> None:
    """Draw grid, frame, centre line and both axes."""
    scale = frame.scale
    left, right = frame.x(scale.low), frame.x(scale.high)
    across = nice_step(24.0 / scale.across)
    offsets = np.arange(np.ceil(scale.low / across), np.floor(scale.high / across) + 1) * across
    count = round((frame.top - frame.bottom) / frame.step)
    heights = frame.bottom + np.arange(count + 1) * frame.step
    for offset in offsets:
        x = frame.x(offset)
        drawing.add(Stroke([(x, frame.roof), (x, frame.floor)], _GRID, 0.4))
        if offset:
            drawing.add(Label(_offset(offset), x, frame.floor + 9.0, 7.0, "middle"))
    decimals = max(0, int(np.ceil(-np.log10(frame.step) - 1e-9)))
    for height in heights:
        y = frame.y(height)
        drawing.add(
            Stroke([(left, y), (right, y)], _GRID, 0.4),
            Label(f"{height:.{decimals}f}", left - 4.0, y + 2.5, 7.0, "end"),
        )
    _other_axis(drawing, frame, right)
    corners = [(left, frame.roof), (right, frame.roof), (right, frame.floor), (left, frame.floor)]
    drawing.add(Stroke([*corners, corners[0]], palette.SLATE, 0.6))
    zero = frame.x(0.0)
    drawing.add(
        Stroke([(zero, frame.roof), (zero, frame.floor)], palette.SLATE, 0.6, (9, 2, 2, 2)),
        Label("0", zero, frame.floor + 9.0, 7.0, "middle", bold=True),
    )
    middle = (frame.roof + frame.floor) / 2
    drawing.add(
        Label(
            translate("SectionPlot", "Offset ({unit}): – left, + right").format(
                unit=scale.plan.symbol
            ),
            (left + right) / 2,
            frame.floor + 19.0,
            7.0,
            "middle",
        ),
        Label(
            translate("SectionPlot", "Elev. ({unit})").format(unit=scale.vertical.symbol),
            10.0,
            middle,
            7.0,
            "middle",
            upward=True,
        ),
    )


def _other_axis(drawing: Drawing, frame: _Frame, right: float) -> None:
    """Write elevations in metres beside those in feet, or the other way round."""
    scale = frame.scale
    other = METRE if scale.vertical.base.is_feet else FOOT
    factor = scale.vertical.to(other)
    low, high = frame.bottom * factor, frame.top * factor
    step = nice_step(14.0 / scale.up * factor)
    decimals = max(0, int(np.ceil(-np.log10(step) - 1e-9)))
    for height in np.arange(np.ceil(low / step - 1e-9), np.floor(high / step + 1e-9) + 1) * step:
        y = frame.y(height / factor)
        drawing.add(
            Stroke([(right, y), (right + 3.0, y)], palette.QUIET_TEXT, 0.5),
            Label(f"{height:.{decimals}f}", right + 5.0, y + 2.5, 6.4, colour=palette.QUIET_TEXT),
        )
    drawing.add(
        Label(
            f"({other.symbol})",
            right + RIGHT - 6.0,
            (frame.roof + frame.floor) / 2,
            6.4,
            "middle",
            colour=palette.QUIET_TEXT,
            upward=True,
        )
    )


def _offset(value: float) -> str:
    return f"{value:+g}".replace("-", "–")


def _strips_of(view: View) -> list[list[tuple[float, float, str]]]:
    """Put the zones in one strip, or in as many as keep those over one another apart."""
    strips: list[list[tuple[float, float, str]]] = []
    for zone in sorted(view.zones):
        free = next((k for k, row in enumerate(strips) if zone[0] >= row[-1][1] - 1e-3), None)
        if free is None:
            strips.append([zone])
        else:
            strips[free].append(zone)
    return strips


def _zones(
    drawing: Drawing, strips: Sequence[Sequence[tuple[float, float, str]]], frame: _Frame
) -> None:
    """Name the zones above the frame, between ticks at their borders."""
    for number, row in enumerate(strips):
        floor = frame.roof - number * _STRIP
        for start, stop, name in row:
            left, right = frame.x(start), frame.x(stop)
            for x in (left, right):
                drawing.add(
                    Stroke([(x, floor - _STRIP), (x, floor)], palette.QUIET_TEXT, 0.5),
                    Stroke([(x, floor), (x, frame.floor)], palette.QUIET_TEXT, 0.4, (1.2, 2.4)),
                )
            text = _fitting(name, right - left - 3.0)
            if text:
                drawing.add(Label(text, (left + right) / 2, floor - 3.2, _SMALL, "middle"))


def _fitting(text: str, room: float) -> str:
    """Return a text, cut with … where it is too long; nothing where three signs have no room."""
    if text_width(text, _SMALL) <= room:
        return text
    while len(text) > 2 and text_width(text + "…", _SMALL) > room:
        text = text[:-1]
    return text.rstrip() + "…" if len(text) > 2 else ""


def _rows_of(view: View, scale: Scale) -> list[list[tuple[float, float, str]]]:
    """Put the names of guidelines in as few rows as keep them apart, the lowest row first."""
    rows: list[list[tuple[float, float, str]]] = []
    ends: list[float] = []
    for guide in sorted(view.guides):
        half = text_width(guide[2], _SMALL) / 2 + 2.0
        x = _inside(scale.across * (guide[0] - scale.low), half, scale)
        row = next((k for k, end in enumerate(ends) if x - half >= end), len(rows))
        if row == MOST_ROWS:
            continue
        if row == len(rows):
            rows.append([])
            ends.append(0.0)
        rows[row].append(guide)
        ends[row] = x + half
    return rows


def _inside(x: float, half: float, scale: Scale) -> float:
    """Return where the middle of a text stands so that it is not clipped at the plot's sides."""
    most = scale.across * (scale.high - scale.low) + RIGHT
    return min(max(x, half - LEFT), max(most - half, half - LEFT))


def _guides(
    drawing: Drawing,
    view: View,
    frame: _Frame,
    rows: Sequence[Sequence[tuple[float, float, str]]],
    strip: float,
) -> None:
    """Mark where guidelines cross: a dashed line, a diamond at their height, the name above."""
    for offset, height, _ in view.guides:
        x = frame.x(offset)
        drawing.add(Stroke([(x, frame.roof), (x, frame.floor)], palette.OCHRE, 0.7, (3.0, 2.0)))
        if np.isfinite(height):
            y = frame.y(height)
            corners = [(x, y - 3.2), (x + 3.2, y), (x, y + 3.2), (x - 3.2, y)]
            drawing.add(Area(corners, palette.OCHRE, palette.PAPER))
    for number, row in enumerate(rows):
        y = frame.roof - strip - 3.0 - number * _ROW
        for offset, _, name in row:
            half = text_width(name, _SMALL) / 2
            x = LEFT + _inside(frame.x(offset) - LEFT, half, frame.scale)
            drawing.add(
                Stroke([(frame.x(offset), y + 2.0), (frame.x(offset), frame.roof)], palette.OCHRE),
                Label(name, x, y, _SMALL, "middle", colour=palette.OCHRE_TEXT),
            )


def _bodies(drawing: Drawing, view: View, frame: _Frame) -> None:
    """Shade what lies between the upper and the lower surface."""
    if view.upper is None or view.lower is None:
        return
    for one in view.runs[view.upper]:
        for other in view.runs[view.lower]:
            low, high = max(one[0, 0], other[0, 0]), min(one[-1, 0], other[-1, 0])
            if high <= low:
                continue
            at = np.unique(np.concatenate((one[:, 0], other[:, 0], [low, high])))
            at = at[(at >= low) & (at <= high)]
            upper, lower = (np.interp(at, run[:, 0], run[:, 1]) for run in (one, other))
            for fill, sign in ((CUT, 1.0), (FILL, -1.0)):
                _shade(drawing, frame, at, lower, sign * (upper - lower), fill, sign)


def _shade(
    drawing: Drawing,
    frame: _Frame,
    at: np.ndarray,
    base: np.ndarray,
    gap: np.ndarray,
    fill: str,
    sign: float,
) -> None:
    """Shade where a gap is positive, one polygon for each stretch."""
    change = np.flatnonzero(gap[1:] * gap[:-1] < 0)
    share = gap[change] / (gap[change] - gap[change + 1])
    zero = at[change] + share * np.diff(at)[change]
    every = np.sort(np.concatenate((at, zero)))
    floor = np.interp(every, at, base)
    size = np.maximum(np.interp(every, at, gap), 0.0)
    open_ = (size[1:] > 0) | (size[:-1] > 0)
    edges = np.flatnonzero(np.diff(np.concatenate(([False], open_, [False])).astype(int)))
    for begin, end in zip(edges[::2], edges[1::2], strict=True):
        some = slice(begin, end + 1)
        there = np.column_stack((every[some], floor[some] + sign * size[some]))
        back = np.column_stack((every[some], floor[some]))[::-1]
        drawing.add(Area(frame.points(np.concatenate((there, back))), fill))
