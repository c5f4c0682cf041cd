"""A typical section of courses, drawn: to scale, hatched, labelled and dimensioned.

The zone is cut short on the left; its edge, with what reaches past it, is on the right. Labels
stand in a column of their own and dimensions below the section, so that neither can cover
anything however thin the courses are.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

import shapely

from ..core.depth.courses.schedule import Course, Section
from ..core.depth.manner import ThicknessRule
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..styles import palette
from .drawn_text import fitted, wrapped

WIDTH = 660.0
LABELS, LEFT, EDGE, RIGHT = 10.0, 262.0, 400.0, 648.0
"""Where labels, the section, the zone's edge and the far end of the design are, in pixels."""
TOP = 58.0
LEAST_HEIGHT, MOST_HEIGHT = 150.0, 340.0
THIN = 9.0
"""Pixels that the thinnest course gets as long as the whole stays below `MOST_HEIGHT`."""
LABEL_STEP, LINE = 32.0, 14.0
ROOM = 190.0
"""Pixels past the edge that widenings and batters may take up."""
EXAGGERATIONS = (1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 8.0, 10.0, 15.0, 20.0, 30.0, 50.0, 100.0)
_FONT = "font-family=\"'Source Sans 3','DejaVu Sans',Verdana,sans-serif\""


@dataclass(frozen=True)
class _Scale:
    """Pixels in a vertical unit, and in a plan unit past the edge."""

    up: float
    across: float
    exaggeration: float

    def x(self, past_edge: float) -> float:
        return EDGE + self.across * past_edge

    def y(self, depth: float) -> float:
        return TOP + self.up * depth


def draw(section: Section, number: int, vertical: LinearUnit, plan: LinearUnit) -> str:
    """Return the section as an ``<svg>`` element.

    Parameters
    ----------
    section
        What to draw, as on level ground.
    number
        Keeps the ids of its patterns unique in a page.
    vertical, plan
        Units of thicknesses and of widenings.
    """
    depths = [0.0]
    for course in section.courses:
        depths.append(depths[-1] + course.thickness)
    factor = vertical.to(plan)
    reaches = [
        course.widen + course.batter * depth * factor
        for course, depth in zip(section.courses, depths[1:], strict=True)
    ]
    scale = _scale(section, depths[-1], max(reaches), factor)
    labels, foot = _labels(section, depths, scale, vertical)
    top = max(foot, scale.y(depths[-1])) + 24
    sides, bottom = _sides(section, depths, reaches, scale, top, (vertical, plan))
    bottom = bottom if sides else max(foot, scale.y(depths[-1])) + 16
    note, bottom = _note(scale, max(reaches) > 0, bottom)
    title = escape(translate("CourseReport", "Typical section {name}").format(name=section.name))
    return "".join(
        [
            (
                f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH:.0f}" '
                f'height="{bottom:.0f}" viewBox="0 0 {WIDTH:.0f} {bottom:.0f}" role="img" '
                f"{_FONT}><title>{title}</title>"
            ),
            _patterns(number, len(section.courses)),
            *_bodies(section, depths, reaches, scale, number),
            *_frame(section, depths[-1], max(reaches), scale),
            *labels,
            *sides,
            *note,
            "</svg>",
        ]
    )


def _scale(section: Section, total: float, reach: float, factor: float) -> _Scale:
    thinnest = min(course.thickness for course in section.courses)
    wanted = max(THIN / thinnest, LEAST_HEIGHT / total)
    up = min(wanted, MOST_HEIGHT / total)
    fits = [value for value in EXAGGERATIONS if reach * up / factor / value <= ROOM] or [
        reach * up / factor / ROOM
    ]
    return _Scale(up, up / factor / fits[0], fits[0])


def _bodies(
    section: Section,
    depths: Sequence[float],
    reaches: Sequence[float],
    scale: _Scale,
    number: int,
) -> list[str]:
    """Draw what is dug for each course, and the course in it, from the top down."""
    parts = []
    above = shapely.Polygon()
    for order, (course, reach) in enumerate(zip(section.courses, reaches, strict=True), 1):
        floor = scale.y(depths[order])
        pit = shapely.Polygon(
            [
                (LEFT, TOP),
                (LEFT, floor),
                (scale.x(course.widen), floor),
                (scale.x(reach), TOP),
            ]
        )
        dug = pit.difference(above)
        band = shapely.box(LEFT, scale.y(depths[order - 1]), RIGHT, floor)
        laid = dug.intersection(band)
        beside = dug.difference(band)
        above = above.union(pit)
        if beside.area > 0.5:
            parts.append(_path(beside, f"url(#beside{number})", 0.8))
        parts.append(_path(laid, f"url(#course{number}_{order})", 1.2))
    return parts


def _frame(section: Section, total: float, reach: float, scale: _Scale) -> list[str]:
    """Draw the design beside the zone, the zone's edge, and the line where it is cut short."""
    ground, bottom = scale.x(reach), scale.y(total)
    middle = (TOP + bottom) / 2
    cut = f"M{LEFT},{TOP - 10} V{middle - 8:.1f} l-5,4 l10,8 l-5,4 V{bottom + 8:.1f}"
    design = escape(translate("CourseReport", "design"))
    beside = escape(translate("CourseReport", "design beside the zone"))
    edge = escape(translate("CourseReport", "edge of the zone"))
    name, whole = fitted(section.name, RIGHT - LABELS, 13, bold=True)
    return [
        f'<path d="{cut}" fill="none" stroke="{palette.SLATE}" stroke-width="1"/>',
        (
            f'<path d="M{LEFT},{TOP} H{EDGE}" fill="none" stroke="{palette.SLATE}" '
            'stroke-width="2.6"/>'
        ),
        (
            f'<path d="M{min(ground, RIGHT):.1f},{TOP} H{RIGHT}" fill="none" '
            f'stroke="{palette.SLATE}" stroke-width="2.6"/>'
        ),
        (
            f'<path d="M{EDGE},{TOP - 16} V{bottom + 12:.1f}" fill="none" '
            f'stroke="{palette.SLATE}" stroke-width="1" stroke-dasharray="9 3 2 3"/>'
        ),
        _text(name, LABELS, 16, 13, weight=700, whole=whole),
        _text(design, LEFT + 6, TOP - 8, 11),
        _text(edge, EDGE, TOP - 24, 11, anchor="middle"),
        _text(beside, RIGHT, TOP - 8, 11, anchor="end"),
    ]


def _labels(
    section: Section, depths: Sequence[float], scale: _Scale, unit: LinearUnit
) -> tuple[list[str], float]:
    """Write name and thickness of each course in a column, with a leader to it."""
    middles = [(scale.y(upper) + scale.y(lower)) / 2 for upper, lower in itertools.pairwise(depths)]
    parts = []
    places = _spread(middles)
    for course, middle, place in zip(section.courses, middles, places, strict=True):
        name, whole = fitted(f"{course.order}  {course.name}", LEFT - 34 - LABELS, 12, bold=True)
        parts.append(_text(name, LABELS, place - 3, 12, weight=700, whole=whole))
        told, all_of_it = fitted(_short(course, unit), LEFT - 34 - LABELS, 11)
        parts.append(_text(told, LABELS, place + 11, 11, whole=all_of_it))
        parts.append(
            f'<path d="M{LEFT - 28},{place:.1f} L{LEFT - 10},{middle:.1f} H{LEFT + 12}" '
            f'fill="none" stroke="{palette.SLATE}" stroke-width=".9"/>'
            f'<circle cx="{LEFT + 12}" cy="{middle:.1f}" r="2.6" fill="{palette.SLATE}" '
            'stroke="#fff" stroke-width="1"/>'
        )
    total = describe_length(depths[-1], unit)
    last = max(places[-1] + LABEL_STEP, scale.y(depths[-1]) + 6)
    text = translate("CourseReport", "in all {depth}").format(depth=total)
    parts.append(
        f'<path d="M{LABELS},{last - 13:.1f} H{LEFT - 34}" stroke="{palette.SLATE}"/>'
        + _text(escape(text), LABELS, last + 2, 11, weight=700)
    )
    return parts, last + 6


def _spread(middles: Sequence[float]) -> list[float]:
    """Return places `LABEL_STEP` apart or more, as near to the middles as that allows."""
    places: list[float] = []
    for middle in middles:
        places.append(max(middle, places[-1] + LABEL_STEP if places else TOP + 4))
    # Labels pushed down by those above them move back up as one, half of the way.
    slack = min((places[-1] - middles[-1]) / 2, places[0] - (TOP - 30))
    return [place - max(slack, 0.0) for place in places]


def thickness(course: Course, unit: LinearUnit) -> str:
    """Return the thickness of a course in two styles; plumb ones need no word."""
    text = describe_length(course.thickness, unit)
    if course.rule is ThicknessRule.SQUARE:
        return translate("CourseReport", "{thickness} square to the slope").format(thickness=text)
    return text


def _short(course: Course, unit: LinearUnit) -> str:
    """Return the thickness as the column of labels has room for it."""
    text = describe_length(course.thickness, unit)
    if course.rule is ThicknessRule.SQUARE:
        return translate("CourseReport", "{thickness} square").format(thickness=text)
    return text


def _sides(
    section: Section,
    depths: Sequence[float],
    reaches: Sequence[float],
    scale: _Scale,
    top: float,
    units: tuple[LinearUnit, LinearUnit],
) -> tuple[list[str], float]:
    """Dimension what reaches past the edge below the section, a row for each course.

    The words stand left of the edge, where no line runs.
    """
    parts: list[str] = []
    y = top
    for order, (course, reach) in enumerate(zip(section.courses, reaches, strict=True), 1):
        if reach <= 0:
            continue
        foot, end = scale.x(course.widen), scale.x(reach)
        floor = scale.y(depths[order])
        down = f"M{foot:.1f},{floor:.1f} V{y + 4:.1f}"
        if course.batter > 0:
            down += f" M{end:.1f},{TOP} V{y + 4:.1f}"
        parts.append(
            f'<path d="{down}" fill="none" stroke="{palette.QUIET_TEXT}" stroke-width=".6" '
            'stroke-dasharray="2 2"/>'
        )
        ticks = " ".join(f"M{x - 3:.1f},{y + 3:.1f} l6,-6" for x in sorted({EDGE, foot, end}))
        parts.append(
            f'<path d="M{EDGE},{y:.1f} H{end:.1f} {ticks}" fill="none" '
            f'stroke="{palette.SLATE}" stroke-width="1"/>'
        )
        lines = wrapped(_told(course, depths[order], *units), EDGE - 10 - LABELS, 11)
        for number, line in enumerate(lines):
            parts.append(_text(escape(line), EDGE - 8, y + 4 + number * LINE, 11, anchor="end"))
        y += LINE * len(lines) + 10
    if y > top:
        parts.append(
            f'<path d="M{EDGE},{scale.y(depths[-1]):.1f} V{y - 14:.1f}" fill="none" '
            f'stroke="{palette.QUIET_TEXT}" stroke-width=".6" stroke-dasharray="2 2"/>'
        )
    return parts, y - 8


def _told(course: Course, depth: float, vertical: LinearUnit, plan: LinearUnit) -> str:
    """Say how far a floor reaches past the edge, and how its sides climb."""
    words = []
    if course.widen > 0:
        words.append(
            translate("CourseReport", "{width} past the edge").format(
                width=describe_length(course.widen, plan)
            )
        )
    if course.batter > 0:
        run = course.batter * depth * vertical.to(plan)
        words.append(
            translate("CourseReport", "sides {ratio}:1 (run to rise), {run} out").format(
                ratio=f"{course.batter:g}", run=describe_length(run, plan)
            )
        )
    name = translate("CourseReport", "{course}: {words}")
    return name.format(course=course.name, words=", ".join(words))


def _note(scale: _Scale, has_sides: bool, top: float) -> tuple[list[str], float]:
    """State the scale."""
    if not has_sides:
        text = translate(
            "CourseReport", "Heights to scale, the width of the zone cut short; sides upright."
        )
    elif scale.exaggeration == 1.0:
        text = translate(
            "CourseReport",
            "Heights and what is past the edge to one scale, the width of the zone cut short.",
        )
    else:
        text = translate(
            "CourseReport",
            "Heights {times} times as large as what is past the edge, the width of the zone cut short.",
        ).format(times=f"{scale.exaggeration:.3g}")
    parts = []
    for line in wrapped(text, WIDTH - 2 * LABELS, 11):
        top += LINE
        parts.append(_text(escape(line), LABELS, top, 11, quiet=True))
    return parts, top + 10


def _text(
    text: str,
    x: float,
    y: float,
    size: int,
    *,
    weight: int = 400,
    anchor: str = "start",
    quiet: bool = False,
    whole: str = "",
) -> str:
    """Return a text element; ``text`` is escaped already, ``whole`` is shown on hovering."""
    colour = palette.QUIET_TEXT if quiet else palette.SLATE
    title = f"<title>{escape(whole)}</title>" if whole else ""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" font-weight="{weight}" '
        f'text-anchor="{anchor}" fill="{colour}">{title}{text}</text>'
    )


def _path(shape: shapely.Geometry, fill: str, width: float) -> str:
    parts = shapely.get_parts(shape)
    rings = shapely.get_rings(parts[shapely.area(parts) > 0])
    lines = " ".join(
        "M" + " L".join(f"{x:.1f},{y:.1f}" for x, y in shapely.get_coordinates(ring)) + " Z"
        for ring in rings
    )
    return (
        f'<path d="{lines}" fill="{fill}" fill-rule="evenodd" stroke="{palette.SLATE}" '
        f'stroke-width="{width}" stroke-linejoin="round"/>'
    )


_HATCHES = (
    # Ground colour, size of the cell, strokes in it; they differ in lightness and direction.
    ("#8d959c", 6, "M0,6 L6,0 M-1,1 L1,-1 M5,7 L7,5"),
    ("#cfd4d8", 8, "M0,0 L8,8 M-1,7 L1,9 M7,-1 L9,1"),
    ("#eceae4", 10, "M2,3 h.1 M7,1 h.1 M5,6 h.1 M1,8 h.1 M8,9 h.1"),
    ("#b4bcc2", 8, "M0,4 H8"),
    ("#f6f5f1", 9, "M0,9 L9,0 M0,0 L9,9"),
    ("#a3abb1", 10, "M0,2.5 H10 M0,7.5 H10 M3,2.5 V7.5 M8,7.5 V10 M8,0 V2.5"),
)


def _patterns(number: int, courses: int) -> str:
    parts = ["<defs>"]
    for order in range(1, courses + 1):
        ground, size, lines = _HATCHES[(order - 1) % len(_HATCHES)]
        heavy = 2.0 if ".1" in lines else 0.9
        parts.append(
            f'<pattern id="course{number}_{order}" width="{size}" height="{size}" '
            f'patternUnits="userSpaceOnUse"><rect width="{size}" height="{size}" '
            f'fill="{ground}"/><path d="{lines}" stroke="{palette.SLATE}" '
            f'stroke-width="{heavy}" stroke-linecap="round" fill="none" stroke-opacity=".75"/>'
            "</pattern>"
        )
    parts.append(
        f'<pattern id="beside{number}" width="12" height="12" patternUnits="userSpaceOnUse">'
        f'<rect width="12" height="12" fill="#fff"/><path d="M2,10 l3,-3 M8,5 l3,-3" '
        f'stroke="{palette.QUIET_TEXT}" stroke-width=".7" stroke-opacity=".6"/></pattern></defs>'
    )
    return "".join(parts)
