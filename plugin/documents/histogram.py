"""A histogram of deviations, with the tolerance marked."""

from html import escape

import numpy as np

from ..core.measure.depth import Histogram
from ..core.text import translate
from ..core.units import LinearUnit
from ..styles import palette

WIDTH, HEIGHT, LEFT, RIGHT, TOP, BOTTOM = 620, 230, 46, 14, 34, 46


def draw(histogram: Histogram, less: float, more: float, unit: LinearUnit) -> str:
    """Return the drawing as an ``<svg>`` element.

    Parameters
    ----------
    histogram
        What is drawn: shares of it, by deviation (found less asked).
    less, more
        How much shallower and deeper passes; infinite for any, NaN where zones differ.
    unit
        Unit of heights.
    """
    limits, total = histogram.limits, histogram.measure.sum()
    share = 100 * histogram.measure / total if total > 0 else histogram.measure
    used = np.flatnonzero(share > 0)
    if not len(used):
        return ""
    marks = [value for value in (-less, more) if np.isfinite(value)]
    first = min([used[0], *(int(np.searchsorted(limits, m)) - 2 for m in marks)])
    last = max([used[-1], *(int(np.searchsorted(limits, m)) + 1 for m in marks)])
    first, last = max(first, 0), min(last, len(share) - 1)
    wide = (WIDTH - LEFT - RIGHT) / (last - first + 1)
    most = max(float(share.max()), 1e-9)
    tall = (HEIGHT - TOP - BOTTOM) / most

    def across(value: float) -> float:
        bar = limits[1] - limits[0]
        return LEFT + (value - limits[first]) / bar * wide

    base = HEIGHT - BOTTOM
    title = escape(translate("DepthCheck", "Histogram of deviations"))
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{HEIGHT}" '
            f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img" font-family="sans-serif">'
            f"<title>{title}</title>"
        )
    ]
    west = across(-less) if np.isfinite(less) else LEFT
    east = across(more) if np.isfinite(more) else WIDTH - RIGHT
    if not (np.isnan(less) or np.isnan(more)):
        parts.append(
            f'<rect x="{west:.1f}" y="{TOP}" width="{max(east - west, 1):.1f}" '
            f'height="{base - TOP}" fill="{palette.PAPER}"/>'
        )
    for bar in range(first, last + 1):
        height = share[bar] * tall
        if share[bar] <= 0:
            continue
        x = LEFT + (bar - first) * wide
        parts.append(
            f'<rect x="{x + 1:.1f}" y="{base - height:.1f}" width="{max(wide - 2, 1):.1f}" '
            f'height="{height:.1f}" fill="#a48cc0" stroke="{palette.PLUM}" stroke-width=".8"/>'
        )
        if share[bar] >= 0.05 * most and wide >= 32:
            text = f"{share[bar]:.1f} %" if wide >= 48 else f"{share[bar]:.0f} %"
            parts.append(_text(x + wide / 2, base - height - 4, text))
    parts.append(
        f'<path d="M{LEFT},{base} H{WIDTH - RIGHT}" stroke="{palette.SLATE}" fill="none"/>'
    )
    every = max(1, -(-(last - first + 1) // 9))
    for edge in range(first, last + 2):
        if (edge - len(limits) // 2) % every == 0:
            x = LEFT + (edge - first) * wide
            parts.append(f'<path d="M{x:.1f},{base} v4" stroke="{palette.SLATE}"/>')
            parts.append(_text(x, base + 16, f"{limits[edge]:+.3g}" if limits[edge] else "0"))
    for mark, label in ((-less, f"-{less:.3g}"), (more, f"+{more:.3g}")):
        if np.isfinite(mark):
            x = across(mark)
            parts.append(
                f'<path d="M{x:.1f},{TOP - 6} V{base}" stroke="{palette.OCHRE}" '
                'stroke-width="1.6" stroke-dasharray="5 3"/>'
            )
            parts.append(_text(x, TOP - 10, label, palette.OCHRE_TEXT))
    parts.append(_text(LEFT, HEIGHT - 8, translate("DepthCheck", "shallower"), anchor="start"))
    parts.append(_text(WIDTH - RIGHT, HEIGHT - 8, translate("DepthCheck", "deeper"), anchor="end"))
    label = translate("DepthCheck", "depth found less depth asked, {unit}")
    parts.append(_text((LEFT + WIDTH) / 2, HEIGHT - 8, label.format(unit=unit.symbol)))
    return "".join([*parts, "</svg>"])


def _text(
    x: float, y: float, text: str, colour: str = palette.QUIET_TEXT, anchor: str = "middle"
) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="11" '
        f'fill="{colour}">{escape(text)}</text>'
    )
