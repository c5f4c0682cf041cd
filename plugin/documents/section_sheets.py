"""Pages with plots of cross sections: a head with scale and legend, plots, cautions."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette
from .cautions import cautions
from .drawing import Area, Drawing, Label, Shape, Stroke
from .drawn_text import text_width, wrapped
from .section_plot import CUT, FILL, LOOKS, Scale, View, plot, plot_height

MARGIN = 36.0
_GAP = 12.0
_SMALL = 6.4
FEET_STEPS = (1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 300, 400, 500)
"""Feet in an inch of paper."""
METRIC_STEPS = (10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 1500, 2000)
"""Metres in a metre of paper."""


@dataclass(frozen=True)
class Head:
    """What stands on the head of every page.

    Parameters
    ----------
    title
        What the pages are.
    about
        Lines with layers, CRS and units.
    surfaces
        Names of the surfaces, in the order of the plots.
    shaded
        Whether cut and fill are shaded.
    """

    title: str
    about: Sequence[str]
    surfaces: Sequence[str]
    shaded: bool


def ratios(unit: LinearUnit) -> list[float]:
    """Return the scales that pages may have, as plan lengths over lengths on paper."""
    if unit.base.is_feet:
        return [12.0 * step for step in FEET_STEPS]
    return [float(step) for step in METRIC_STEPS]


def page_scale(
    views: Sequence[View],
    page: tuple[float, float],
    plan: LinearUnit,
    vertical: LinearUnit,
    exaggeration: float,
    room: float,
) -> tuple[Scale, float]:
    """Return the largest round scale at which every section fits a page, and its ratio.

    Parameters
    ----------
    views
        The sections.
    page
        Width and height of a page, points.
    plan, vertical
        The units.
    exaggeration
        How many times larger heights are drawn.
    room
        Height that a page has for plots, points.
    """
    low = min(view.reach[0] for view in views)
    high = max(view.reach[1] for view in views)
    per_metre = 72.0 / 0.0254
    found = None
    allowed = ratios(plan)
    for ratio in [*allowed, *(allowed[-1] * 2.0**n for n in range(1, 20))]:
        across = per_metre * plan.metres / ratio
        up = per_metre * vertical.metres / ratio * exaggeration
        scale = Scale(across, up, low, high, plan, vertical)
        if scale.width > page[0] - 2 * MARGIN:
            continue
        found = scale, ratio
        if max(plot_height(view, scale) for view in views) <= room:
            break
    assert found is not None
    return found


def scale_text(ratio: float, exaggeration: float, plan: LinearUnit) -> str:
    """Say the scale of the pages, and that heights have another one where they do."""
    text = translate("SectionPlot", "Widths 1:{ratio}").format(ratio=f"{ratio:g}")
    if plan.base.is_feet:
        text += translate("SectionPlot", " (1 in = {feet} ft)").format(feet=f"{ratio / 12:g}")
    tall = ratio / exaggeration
    if exaggeration == 1.0:
        return text + translate("SectionPlot", ", heights the same.")
    text += translate("SectionPlot", ", heights 1:{ratio}").format(ratio=f"{tall:.4g}")
    if plan.base.is_feet:
        text += translate("SectionPlot", " (1 in = {feet} ft)").format(feet=f"{tall / 12:.4g}")
    return text + translate("SectionPlot", ": drawn {times} times as high as wide.").format(
        times=f"{exaggeration:g}"
    )


def sheets(
    views: Sequence[View],
    head: Head,
    page: tuple[float, float],
    plan: LinearUnit,
    vertical: LinearUnit,
    exaggeration: float,
    today: date | None = None,
) -> list[Drawing]:
    """Return the pages, as many plots on each as fit, one below the other."""
    day = (today or date.today()).isoformat()
    care = _care(page)
    top = _head(head, "", page, day)[1] + 8.0
    bottom = page[1] - MARGIN - 10.0 - len(care) * 8.0
    scale, ratio = page_scale(views, page, plan, vertical, exaggeration, bottom - top)
    text = scale_text(ratio, exaggeration, plan)
    pages: list[Drawing] = []
    columns = max(int((page[0] - 2 * MARGIN + _GAP) // (scale.width + _GAP)), 1)
    y, row, tall = np.inf, [], 0.0
    for view in views:
        drawing = plot(view, scale)
        if len(row) == columns:
            y, row, tall = y + tall + _GAP, [], 0.0
        if y + drawing.height > bottom and (not pages or y > top or row):
            pages.append(Drawing(*page))
            y, row, tall = top, [], 0.0
        x = MARGIN + len(row) * (scale.width + _GAP)
        pages[-1].add(*(moved(shape, x, y) for shape in drawing.shapes))
        row.append(view)
        tall = max(tall, drawing.height)
    for number, sheet in enumerate(pages, 1):
        sheet.add(*_head(head, text, page, day)[0], *_foot(care, page, number, len(pages)))
    return pages


def moved(shape: Shape, x: float, y: float) -> Shape:
    """Return a shape in another place."""
    if isinstance(shape, Label):
        return replace(shape, x=shape.x + x, y=shape.y + y)
    return replace(shape, points=[(px + x, py + y) for px, py in shape.points])


def _head(head: Head, scale: str, page: tuple[float, float], day: str) -> tuple[list[Shape], float]:
    """Return the head of a page, and where it ends."""
    width = page[0] - 2 * MARGIN
    y = MARGIN + 10.0
    shapes: list[Shape] = [
        Label(head.title, MARGIN, y, 13.0, bold=True),
        Label(day, page[0] - MARGIN, y, 8.0, "end"),
    ]
    y += 3.0
    for text in head.about:
        for line in wrapped(text, width, 7.4):
            y += 10.0
            shapes.append(Label(line, MARGIN, y, 7.4, colour=palette.QUIET_TEXT))
    y += 11.0
    shapes.append(Label(scale, MARGIN, y, 7.8, bold=True))
    legend, y = _legend(head, page, y + 12.0)
    y += 6.0
    line = Stroke([(MARGIN, y), (page[0] - MARGIN, y)], palette.SLATE, 1.0)
    return [*shapes, *legend, line], y


def _legend(head: Head, page: tuple[float, float], y: float) -> tuple[list[Shape], float]:
    """Return the key to the lines, and the height at which its last row stands."""
    shapes: list[Shape] = []
    x = MARGIN
    entries: list[tuple[str, Shape]] = [
        (name, Stroke([(0.0, -2.5), (26.0, -2.5)], *LOOKS[k % len(LOOKS)]))
        for k, name in enumerate(head.surfaces)
    ]
    if head.shaded:
        box = [(0.0, -6.0), (14.0, -6.0), (14.0, 1.0), (0.0, 1.0)]
        entries += [
            (translate("SectionPlot", "cut"), Area(box, CUT, palette.QUIET_TEXT)),
            (translate("SectionPlot", "fill"), Area(box, FILL, palette.QUIET_TEXT)),
        ]
    for name, sign in entries:
        lead = 30.0 if isinstance(sign, Stroke) else 18.0
        text = wrapped(name, page[0] - 2 * MARGIN - lead, 7.4)[0]
        size = lead + text_width(text, 7.4) + 14.0
        if x + size > page[0] - MARGIN + 14.0 and x > MARGIN:
            x, y = MARGIN, y + 10.5
        shapes += [moved(sign, x, y), Label(text, x + lead, y, 7.4)]
        x += size
    return shapes, y


def _care(page: tuple[float, float]) -> list[str]:
    return wrapped(" ".join(cautions()), page[0] - 2 * MARGIN, _SMALL)


def _foot(care: Sequence[str], page: tuple[float, float], number: int, count: int) -> list[Shape]:
    """Return the foot of a page: cautions and its number."""
    y = page[1] - MARGIN - len(care) * 8.0
    shapes: list[Shape] = [
        Stroke([(MARGIN, y - 8.0), (page[0] - MARGIN, y - 8.0)], palette.QUIET_TEXT, 0.4)
    ]
    for line in care:
        shapes.append(Label(line, MARGIN, y, _SMALL, colour=palette.QUIET_TEXT))
        y += 8.0
    text = translate("SectionPlot", "Page {number} of {count}").format(number=number, count=count)
    shapes.append(Label(text, page[0] - MARGIN, y + 3.0, 7.4, "end"))
    return shapes
