"""Small drawn sections that explain how a zone was dug: depth, bottom carried on, side."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from html import escape

from ..core.depth.manner import BatterRule
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..styles import palette

WIDTH, HEIGHT = 372.0, 172.0
LEFT, EDGE, RIGHT = 14.0, 150.0, 358.0
"""Where the zone is cut short, where its edge is, and the end of the design, in pixels."""
FALL = 0.1  # of the design drawn, so that plumb and square can be told apart
CARRIED, DEEP, ROOM = 38.0, 52.0, 150.0
"""Pixels of a bottom carried on, of a depth, and that a side may run."""
_FONT = "font-family=\"'Source Sans 3','DejaVu Sans',Verdana,sans-serif\""
_LINE = 15.0


@dataclass(frozen=True)
class Dug:
    """How some zones were dug.

    Parameters
    ----------
    depth, square
        Plumb depth and thickness at right angles to the design, in vertical units.
    width
        How far the bottom carries on past the edge, in plan units.
    batter
        Run per rise of its sides, 0 upright.
    rule
        What the batter counts from.
    """

    depth: float
    square: float
    width: float
    batter: float
    rule: BatterRule

    def words(self, vertical: LinearUnit, plan: LinearUnit) -> list[tuple[str, str]]:
        """Return what there is to say, each with the letter that marks it in the drawing."""
        pairs = []
        if self.depth:
            text = (
                translate("DepthReport", "{depth} below the design, plumb")
                if self.depth > 0
                else translate("DepthReport", "{depth} above the design, plumb")
            )
            pairs.append(("a", text.format(depth=describe_length(abs(self.depth), vertical))))
        if self.square:
            text = (
                translate("DepthReport", "and {depth} square to its slope")
                if self.depth
                else translate("DepthReport", "{depth} square to the slope of the design")
            )
            letter = "" if self.depth else "a"
            pairs.append((letter, text.format(depth=describe_length(self.square, vertical))))
        if not pairs:
            pairs.append(("", translate("DepthReport", "on the design itself")))
        if self.width:
            carried = translate("DepthReport", "bottom carried on {width} past the edge")
            pairs.append(("b", carried.format(width=describe_length(self.width, plan))))
        if self.batter:
            side = (
                translate("DepthReport", "side {ratio}:1, run per rise from level")
                if self.rule is BatterRule.LEVEL
                else translate("DepthReport", "side {ratio}:1, run per depth below the design")
            )
            pairs.append(("c", side.format(ratio=f"{self.batter:g}")))
        elif self.depth or self.square:
            pairs.append(("c", translate("DepthReport", "side upright")))
        return pairs


def draw(dug: Dug, number: int, vertical: LinearUnit, plan: LinearUnit) -> str:
    """Return the section as an ``<svg>`` element; ``number`` keeps its pattern's id unique."""
    words = dug.words(vertical, plan)
    height = HEIGHT + _LINE * len(words)
    up = dug.depth + dug.square < 0
    top = 112.0 if up else 52.0
    deep = _deep(dug) * (-1.0 if up else 1.0)
    if not (dug.depth or dug.square):
        deep = 0.0
    foot = EDGE + (CARRIED if dug.width else 0.0)
    head = _head(dug, foot, deep)

    def design(x: float) -> float:
        return top + FALL * (x - LEFT)

    ends = [(LEFT, design(LEFT)), (LEFT, design(LEFT) + deep), (foot, design(foot) + deep)]
    body = [*ends, (head, design(head))]
    title = escape(translate("DepthReport", "Section: how the zone is dug, not to scale"))
    pattern = f"dug{number}"
    parts = [
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}" height="{height:.0f}" '
            f'viewBox="0 0 {WIDTH:.0f} {height:.0f}" role="img"><title>{title}</title>'
        ),
        (
            f'<defs><pattern id="{pattern}" width="7" height="7" patternUnits="userSpaceOnUse" '
            'patternTransform="rotate(45)">'
            f'<line x1="0" y1="0" x2="0" y2="7" stroke="{palette.QUIET_TEXT}" stroke-width="1"/>'
            "</pattern></defs>"
        ),
        f'<rect width="{WIDTH:.0f}" height="{height:.0f}" fill="#fff"/>',
        f'<polygon points="{_points(body)}" fill="url(#{pattern})"/>',
        (
            f'<polyline points="{_points(body[1:])}" fill="none" stroke="{palette.PLUM}" '
            'stroke-width="2.6" stroke-linejoin="round"/>'
        ),
        (
            f'<line x1="{LEFT}" y1="{design(LEFT):.1f}" x2="{RIGHT}" y2="{design(RIGHT):.1f}" '
            f'stroke="{palette.SLATE}" stroke-width="1.6" stroke-dasharray="7 3"/>'
        ),
        _edge_of_zone(design(EDGE), deep),
        _text(RIGHT, design(RIGHT) - 6, translate("DepthReport", "design"), "end"),
    ]
    if deep:
        parts += _marks(dug, design, deep, foot, head)
    y = HEIGHT - 6
    for letter, text in words:
        parts.append(_text(LEFT + 14, y, text, "start"))
        parts.append(_letter(LEFT + 4, y, letter))
        y += _LINE
    return "".join([*parts, "</svg>"])


def _deep(dug: Dug) -> float:
    """Return the pixels of the depth: less where the side is so flat that it needs the room."""
    return min(DEEP, max(ROOM / dug.batter, 14.0)) if dug.batter else DEEP


def _head(dug: Dug, foot: float, deep: float) -> float:
    """Return where the side meets the design; flat ones are cut short."""
    if not dug.batter or not deep:
        return foot
    if dug.rule is BatterRule.LEVEL:
        # The design falls away from the foot: a cut's side meets it sooner, a fill's later.
        slope = 1.0 / dug.batter + (FALL if deep > 0 else -FALL)
        run = abs(deep) / slope if slope > 0 else ROOM
    else:
        run = abs(deep) * dug.batter
    return min(foot + run, RIGHT - 8)


def _marks(
    dug: Dug, design: Callable[[float], float], deep: float, foot: float, head: float
) -> list[str]:
    """Return the arrows of the depth, of the bottom carried on, and the letters."""
    x = LEFT + 40
    square = bool(dug.square)
    dx = -deep * FALL / (1 + FALL**2) if square else 0.0
    dy = deep / (1 + FALL**2) if square else deep
    parts = [
        (
            f'<line x1="{x}" y1="{design(x):.1f}" x2="{x + dx:.1f}" y2="{design(x) + dy:.1f}" '
            f'stroke="{palette.SLATE}" stroke-width="1.2"/>'
        ),
        _dot(x, design(x)),
        _dot(x + dx, design(x) + dy),
        _letter(x + 10, design(x) + 0.5 * dy + 4, "a"),
    ]
    if dug.width:
        y = max(design(foot), design(foot) + deep) + 12
        parts += [
            (
                f'<path d="M{EDGE},{y - 4:.1f} v8 M{EDGE},{y:.1f} H{foot} M{foot},{y - 4:.1f} v8" '
                f'stroke="{palette.SLATE}" stroke-width="1.2" fill="none"/>'
            ),
            _letter(0.5 * (EDGE + foot), y + 14, "b"),
        ]
    middle = 0.5 * (foot + head)
    height = 0.5 * (design(foot) + deep + design(head))
    parts.append(_letter(middle + 12, height + (4 if deep < 0 else 10), "c"))
    return parts


def _edge_of_zone(y: float, deep: float) -> str:
    low, high = min(y, y + deep) - 30, max(y, y + deep) + 4
    label = translate("DepthReport", "zone’s edge")
    return (
        f'<line x1="{EDGE}" y1="{low:.1f}" x2="{EDGE}" y2="{high:.1f}" stroke="{palette.SLATE}" '
        f'stroke-width="1" stroke-dasharray="2 3"/>'
    ) + _text(EDGE - 5, low + 9, label, "end")


def _points(places: Sequence[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in places)


def _dot(x: float, y: float) -> str:
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2.2" fill="{palette.SLATE}"/>'


def _letter(x: float, y: float, text: str) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="middle" font-size="13" font-weight="700" '
        f'paint-order="stroke" stroke="#fff" stroke-width="3" fill="{palette.SLATE}" '
        f"{_FONT}>{escape(text)}</text>"
    )


def _text(x: float, y: float, text: str, anchor: str) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="11.5" '
        f'paint-order="stroke" stroke="#fff" stroke-width="3" fill="{palette.SLATE}" '
        f"{_FONT}>{escape(text)}</text>"
    )
