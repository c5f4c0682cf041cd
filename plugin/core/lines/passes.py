"""Passes of a machine over an area: side by side, clipped, in the order they are driven.

Passes are parallels of one line, a straight one by default, at offsets one step apart, where the
step is the working width less the overlap. They reach over the whole area: from the outermost
offset that it has on the left of the line to that on the right. What a pass covers is the strip of
the working width along its part inside the area, cut square at both ends; what no strip covers is
left over.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
import shapely

from .bundle import Lines
from .corners import Join, JoinStyle
from .direction import vector_of
from .parallel import parallels
from .prove import side_of_points
from .stations import cut

MOST_PASSES = 20_000
"""More than this over one area is a slip in a unit."""
SPARE = 1e-3
"""Share of a step that is not worth one pass more: rounding, and the chords of curves."""
NOTHING = 1e-9
"""Share of an area below which what is left over is rounding."""


class Fit(StrEnum):
    """How passes are spread over the width of an area."""

    EVEN = "even"
    FIXED = "fixed"


@dataclass(frozen=True)
class Manner:
    """How an area is driven.

    Parameters
    ----------
    width, overlap
        Working width, and by how much neighbours overlap at least, plan units.
    fit
        Even: the outer passes run along both edges and the others are spread evenly between.
        Fixed: the overlap is kept to from the first edge on, and the last pass overlaps more.
    to_and_fro
        Every other pass is driven the other way.
    from_right
        The first pass is the one farthest to the right of the direction of travel.
    margin
        Length left free at both ends of each pass, to turn.
    """

    width: float
    overlap: float = 0.0
    fit: Fit = Fit.EVEN
    to_and_fro: bool = True
    from_right: bool = False
    margin: float = 0.0


@dataclass(frozen=True)
class Passes:
    """The passes over one area, in the order they are driven.

    Parameters
    ----------
    xy
        Plan coordinates of each piece, in the direction it is driven.
    number : (p,) int
        Number of its pass, from 1; a pass that the area interrupts has several pieces.
    offset : (p,) float
        Signed offset from the line, right +.
    ahead : (p,) bool
        Driven the way the line runs.
    covered, left_over
        What the strips cover of the area, and what not.
    twice
        Area that more than one strip covers.
    """

    xy: list[np.ndarray]
    number: np.ndarray
    offset: np.ndarray
    ahead: np.ndarray
    covered: shapely.Geometry
    left_over: shapely.Geometry
    twice: float

    def __len__(self) -> int:
        """Return the number of pieces."""
        return len(self.xy)


def longest_side(area: shapely.Geometry) -> float:
    """Return the bearing of the longer side of the narrowest rectangle around an area.

    Of the two it is the one from 0 (north) up to 180 degrees.
    """
    box = shapely.oriented_envelope(area)
    corners = shapely.get_coordinates(box)
    sides = np.diff(corners[:3], axis=0)
    dx, dy = sides[np.hypot(*sides.T).argmax()]
    bearing = np.degrees(np.arctan2(dx, dy)) % 180.0
    return float(0.0 if bearing > 180.0 - 1e-9 else bearing)


def straight_line(area: shapely.Geometry, bearing: float) -> np.ndarray:
    """Return a line of that bearing through the middle of an area, longer than it, (2, 2)."""
    low_x, low_y, high_x, high_y = shapely.bounds(area)
    middle = np.array([(low_x + high_x) / 2.0, (low_y + high_y) / 2.0])
    half = np.hypot(high_x - low_x, high_y - low_y) * vector_of(bearing)
    return np.array([middle - half, middle + half])


def plan_passes(area: shapely.Geometry, line: np.ndarray, manner: Manner) -> Passes:
    """Lay the passes over one area.

    Parameters
    ----------
    area
        A polygon or multipolygon.
    line
        The line that passes are parallel to, (n, 2) float; it is carried straight on at both ends.
    manner
        How it is driven.

    Raises
    ------
    ValueError
        The width is not above 0, the overlap is not below it, or there would be more than
        `MOST_PASSES`.
    """
    if not manner.width > 0 or not 0 <= manner.overlap < manner.width:
        raise ValueError("the width must be above 0 and the overlap from 0 up to it")
    # Near the origin overlays lose nothing to the size of coordinates.
    origin = np.floor(shapely.bounds(area)[:2])
    made = _planned(_shifted(area, -origin), np.asarray(line, float)[:, :2] - origin, manner)
    return replace(
        made,
        xy=[xy + origin for xy in made.xy],
        covered=_shifted(made.covered, origin),
        left_over=_shifted(made.left_over, origin),
    )


def _shifted(shape: shapely.Geometry, by: np.ndarray) -> shapely.Geometry:
    return shapely.transform(shape, lambda xy: xy + by)


def _planned(area: shapely.Geometry, line: np.ndarray, manner: Manner) -> Passes:
    long_line = _carried_on(line, area)
    low, high = _reach(long_line, area)
    offsets = _offsets(low, high, manner)
    if manner.from_right:
        offsets = offsets[::-1]
    pieces: list[tuple[np.ndarray, int, float, bool]] = []
    for number, offset in enumerate(offsets.tolist(), 1):
        ahead = not manner.to_and_fro or number % 2 == 1
        own = _pieces(long_line, offset, area, manner.margin)
        pieces += [(xy, number, offset, ahead) for xy in own]
    order = sorted(range(len(pieces)), key=lambda n: (pieces[n][1], n if pieces[n][3] else -n))
    pieces = [pieces[n] for n in order]
    strips = shapely.buffer(
        [shapely.linestrings(p[0]) for p in pieces], manner.width / 2.0, cap_style="flat",
        join_style="mitre",
    )  # fmt: skip
    return _together(area, pieces, strips)


def _together(
    area: shapely.Geometry,
    pieces: list[tuple[np.ndarray, int, float, bool]],
    strips: np.ndarray,
) -> Passes:
    # GEOS divides by 0 on its way through some overlays, and numpy would tell.
    with np.errstate(all="ignore"):
        own = shapely.intersection(strips, area) if len(strips) else np.empty(0, object)
        covered = shapely.union_all(own) if len(own) else shapely.MultiPolygon()
        left = shapely.difference(area, covered)
    least = NOTHING * shapely.area(area)
    parts = [part for part in shapely.get_parts(left) if shapely.area(part) > least]
    twice = float(shapely.area(own).sum() - shapely.area(covered))
    return Passes(
        [xy if ahead else xy[::-1] for xy, _, _, ahead in pieces],
        np.array([p[1] for p in pieces], np.int64),
        np.array([p[2] for p in pieces], float),
        np.array([p[3] for p in pieces], bool),
        covered,
        shapely.MultiPolygon(parts),
        max(twice, 0.0),
    )


def _carried_on(line: np.ndarray, area: shapely.Geometry) -> np.ndarray:
    """Return the line carried straight on past the area at both ends; a ring stays as it is."""
    if np.array_equal(line[0], line[-1]):
        return line
    both = np.concatenate((line, shapely.get_coordinates(area)))
    reach = 2.0 * float(np.hypot(*np.ptp(both, axis=0)))
    first, last = line[0] - line[1], line[-1] - line[-2]
    start = line[0] + first / np.hypot(*first) * reach
    stop = line[-1] + last / np.hypot(*last) * reach
    # Straight on is the same segment: a vertex there would only cost digits.
    return np.concatenate(([start], line[1:-1], [stop]))


def _reach(line: np.ndarray, area: shapely.Geometry) -> tuple[float, float]:
    """Return the least and greatest signed offset of an area from a line, right +."""
    lines = Lines.from_arrays([line])
    rings = shapely.get_coordinates(shapely.boundary(area))
    which = np.zeros(len(rings), np.int64)
    side, _, _ = side_of_points(lines, which, rings)
    signed = side * shapely.distance(shapely.points(rings), lines.geometries[0])
    low, high = float(signed.min()), float(signed.max())
    if shapely.intersects(lines.geometries[0], area):
        return min(low, 0.0), max(high, 0.0)
    # Beside a bend the nearest place of an edge may lie between its corners.
    nearest = float(shapely.distance(lines.geometries[0], area))
    return (nearest, high) if low > 0 else (low, -nearest)


def _offsets(low: float, high: float, manner: Manner) -> np.ndarray:
    """Return the offsets of the passes, from left to right."""
    width, step = manner.width, manner.width - manner.overlap
    room = high - low
    count = max(int(np.ceil((room - width) / step - SPARE)) + 1, 1)
    if count > MOST_PASSES:
        raise ValueError(f"there would be {count} passes")
    if count == 1:
        return np.array([(low + high) / 2.0]) if room <= width else np.array([low + width / 2.0])
    if manner.fit is Fit.EVEN:
        return np.linspace(low + width / 2.0, high - width / 2.0, count)
    laid = np.minimum(width / 2.0 + step * np.arange(count), room - width / 2.0)
    return (high - laid)[::-1] if manner.from_right else low + laid


def _pieces(
    line: np.ndarray, offset: float, area: shapely.Geometry, margin: float
) -> list[np.ndarray]:
    """Return the parts of a parallel inside an area, in the direction of the line."""
    if len(line) == 2:
        way = (line[1] - line[0]) / np.hypot(*(line[1] - line[0]))
        laid = [line + offset * np.array([way[1], -way[0]])]
    elif offset == 0.0:
        laid = [line]
    else:
        made = parallels(Lines.from_arrays([line]), offset, JoinStyle(Join.ROUND)).lines
        laid = [made.xy[made.line(n)] for n in range(len(made))]
    result = []
    for xy in laid:
        path = shapely.linestrings(xy)
        parts = shapely.get_parts(shapely.line_merge(shapely.intersection(path, area)))
        parts = [part for part in parts if shapely.length(part) > 2.0 * margin + 1e-9]
        starts = [shapely.line_locate_point(path, shapely.get_point(part, 0)) for part in parts]
        for n in np.argsort(starts, kind="stable"):
            own = shapely.get_coordinates(parts[n])
            result.append(_shortened(_along(path, own), margin))
    return result


def _along(path: shapely.Geometry, xy: np.ndarray) -> np.ndarray:
    """Return a part of a path in the direction of the path."""
    first, second = shapely.line_locate_point(path, shapely.points(xy[:2]))
    return xy if first < second else xy[::-1]


def _shortened(xy: np.ndarray, margin: float) -> np.ndarray:
    if margin <= 0:
        return xy
    one = Lines.from_arrays([xy])
    return cut(one, 0, margin, float(one.lengths[0]) - margin)[0]
