"""Stretches of lines with no guideline beside them, or with one that cuts their bend short."""

import numpy as np
import shapely

from ..text import translate
from ..units import LinearUnit, format_station
from .bundle import Lines
from .parallel import Parallels
from .requests import Flagged, Requests
from .stations import cut, locate
from .trim import Lost
from .words import plain_length

SPOTS = 256
"""Into how many steps a stretch is cut to find its place farthest from the guideline."""


def lost_stretches(
    requests: Requests,
    asked: Lines,
    laid: Parallels,
    good: np.ndarray,
    signed: np.ndarray,
    scale: tuple[float, LinearUnit],
) -> list[Flagged]:
    """Return the stretches without a guideline that are worth a look."""
    chord, unit = scale
    pieces_of: dict[int, list[int]] = {}
    for n, source in enumerate(laid.source.tolist()):
        pieces_of.setdefault(source, []).append(n)
    result = []
    for item in laid.lost:
        request = int(good[item.line])
        distance = abs(float(signed[request]))
        xy = _stretch(asked, request, item)
        code = "lost"
        if item.joined:
            if _is_one_corner(requests, request, item) or _rounding(xy) <= chord:
                continue
            size = float(np.hypot(*np.diff(xy, axis=0).T).sum())
            near = shapely.multilinestrings(list(laid.lines.geometries[pieces_of[item.line]]))
            spots = shapely.get_coordinates(
                shapely.segmentize(shapely.linestrings(xy), size / SPOTS)
            )
            farthest = float(shapely.distance(shapely.points(spots), near).max())
            code = "tight_bend"
            text = translate(
                "Core",
                "The line bends more tightly than {distance} between stations {start} and {stop}: the guideline goes on in one corner, up to {farthest} away from the line.",
            )  # noqa: E501
        elif item.stop - item.start >= asked.lengths[request]:
            farthest = 0.0
            text = translate(
                "Core",
                "No part of a guideline is {distance} from the whole line, stations {start} to {stop}: it bends too tightly or comes back too near to itself for that offset.",
            )  # noqa: E501
        else:
            farthest = 0.0
            text = translate(
                "Core",
                "There is no guideline {distance} from the line between stations {start} and {stop}: the line bends too tightly there, crosses itself or comes back too near to itself.",
            )  # noqa: E501
        why = text.format(
            distance=plain_length(distance, unit),
            start=format_station(requests.station(request, item.start), unit),
            stop=format_station(requests.station(request, item.stop), unit),
            farthest=plain_length(farthest, unit),
        )
        result.append(Flagged(request, code, why, item.start, item.stop, [(0, xy)]))
    return result


def _is_one_corner(requests: Requests, request: int, item: Lost) -> bool:
    """Tell whether only chords of arcs are lost, and no whole arc or segment.

    Two arcs, or an arc and a line, that meet at an angle have one inner corner, however many
    chords lie in it.
    """
    if requests.arcs is None or not len(requests.arcs):
        return False
    lines, line = requests.lines, int(requests.line[request])
    ends = np.array([item.start, item.stop]) % (lines.lengths[line] * (1.0 + 1e-12))
    (first, last), _ = locate(lines, np.array([line, line]), ends)
    own = np.arange(lines.first_segment[line], lines.first_segment[line + 1])
    around = np.concatenate((own, own)) if last < first else own
    begin = int(first - own[0])
    stretch = around[begin : begin + int(last - first) % len(own) + 1]
    arc = requests.arcs.of_segment[stretch]
    element = np.where(arc >= 0, arc, -1 - stretch)
    return int(np.count_nonzero(np.diff(element))) <= 1


def _rounding(xy: np.ndarray) -> float:
    """Return how far a stretch leaves the plain corner of its first and last segment.

    Corners are often drawn with a bend of a millimetre: that is no bend to speak of.
    """
    # Stretches may start or end at a vertex, but for rounding.
    xy = xy[np.append(True, np.hypot(*np.diff(xy, axis=0).T) > 1e-6)]
    if len(xy) < 3:
        return 0.0
    a, b = xy[1] - xy[0], xy[-1] - xy[-2]
    cross = a[0] * b[1] - a[1] * b[0]
    if abs(cross) < 1e-9 * np.hypot(*a) * np.hypot(*b):
        return np.inf
    gap = xy[-1] - xy[0]
    corner = xy[0] + (gap[0] * b[1] - gap[1] * b[0]) / cross * a
    plain = shapely.linestrings([xy[0], corner, xy[-1]])
    return float(shapely.distance(shapely.points(xy), plain).max())


def _stretch(asked: Lines, request: int, item: Lost) -> np.ndarray:
    """Return the source between two stations; on a ring over its start where need be."""
    one = asked.take(np.array([request]))  # to look places up along this line only
    if item.stop > item.start:
        return cut(one, 0, item.start, item.stop)[0]
    head, _ = cut(one, 0, item.start, float(one.lengths[0]))
    tail, _ = cut(one, 0, 0.0, item.stop)
    return np.concatenate([head, tail[1:]])
