"""Drawings as lists of plain shapes, so that a page on paper and one in HTML show the same.

Lengths are points (1/72 inch) from the upper left corner, y downward; texts stand on their
baseline.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from html import escape

from ..styles import palette

FONTS = ("Source Sans 3", "DejaVu Sans", "Verdana")


@dataclass(frozen=True)
class Stroke:
    """A line through points; ``dash`` holds lengths drawn and left out, empty for a solid one."""

    points: Sequence[tuple[float, float]]
    colour: str = palette.SLATE
    width: float = 0.6
    dash: tuple[float, ...] = ()


@dataclass(frozen=True)
class Area:
    """A filled polygon, with an outline where ``edge`` is a colour."""

    points: Sequence[tuple[float, float]]
    fill: str
    edge: str = ""


@dataclass(frozen=True)
class Label:
    """A text; ``anchor`` says whether it starts, ends or has its middle at x."""

    text: str
    x: float
    y: float
    size: float = 8.0
    anchor: str = "start"
    bold: bool = False
    colour: str = palette.SLATE
    upward: bool = False


Shape = Stroke | Area | Label


@dataclass
class Drawing:
    """Shapes on a ground of some size."""

    width: float
    height: float
    shapes: list[Shape] = field(default_factory=list)

    def add(self, *shapes: Shape) -> None:
        """Put shapes on top of those that are there."""
        self.shapes.extend(shapes)

    def svg(self, title: str, zoom: float = 1.0) -> str:
        """Return the drawing as an ``<svg>`` element, so many times as large."""
        fonts = ", ".join(f"'{name}'" for name in FONTS)
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{zoom * self.width:.0f}" '
            f'height="{zoom * self.height:.0f}" viewBox="0 0 {self.width:.1f} {self.height:.1f}" '
            f'role="img" font-family="{fonts}, sans-serif"><title>{escape(title)}</title>'
            + "".join(_markup(shape) for shape in self.shapes)
            + "</svg>"
        )


def _markup(shape: Shape) -> str:
    if isinstance(shape, Label):
        weight = ' font-weight="700"' if shape.bold else ""
        turned = f' transform="rotate(-90 {shape.x:.1f} {shape.y:.1f})"' if shape.upward else ""
        return (
            f'<text x="{shape.x:.1f}" y="{shape.y:.1f}" font-size="{shape.size:g}" '
            f'text-anchor="{shape.anchor}" fill="{shape.colour}"{weight}{turned}>'
            f"{escape(shape.text)}</text>"
        )
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in shape.points)
    if isinstance(shape, Area):
        edge = f' stroke="{shape.edge}" stroke-width=".4"' if shape.edge else ""
        return f'<polygon points="{points}" fill="{shape.fill}"{edge}/>'
    dash = f' stroke-dasharray="{" ".join(f"{d:g}" for d in shape.dash)}"' if shape.dash else ""
    return (
        f'<polyline points="{points}" fill="none" stroke="{shape.colour}" '
        f'stroke-width="{shape.width:g}" stroke-linejoin="round"{dash}/>'
    )
