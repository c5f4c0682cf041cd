"""The corners of a parallel: which points stand for each vertex of the source.

Written for a line with unit directions ``a`` into a vertex and ``b`` out of it, right normals
``m`` and ``n`` of these, and a signed offset ``o`` (right +). The turn is the angle between ``a``
and ``b``. On the *inner* side of the turn the parallel has one point, where the two offset
segments meet: ``p + o (m + n) / (1 + a.b)``. On the *outer* side it depends on the join, and no
join comes nearer to the source than ``|o|``:

mitre   the same point; beyond the mitre limit the tip is cut square to the bisector
bevel   the tip is cut at the offset distance itself
round   a polygon *around* the arc: its chords touch the arc, so that the arc's radius is kept
"""

from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from .arcs import Arcs
from .bundle import Lines
from .direction import right_normals

SOFT = np.radians(2.0)
"""Turn up to which a corner may be one of a dense curve."""


class Join(StrEnum):
    """How a parallel goes round the outside of a corner."""

    MITRE = "mitre"
    ROUND = "round"
    BEVEL = "bevel"


@dataclass(frozen=True)
class JoinStyle:
    """A join with its limits.

    Parameters
    ----------
    kind
        The join.
    mitre_limit
        Largest distance of a mitre's tip from the corner, in offsets (>= 1).
    chord
        Largest distance between a round join and its arc; a corner whose mitre is nearer to the
        arc than this is a plain mitre whatever the join, so that dense arcs stay as they are.
    """

    kind: Join = Join.MITRE
    mitre_limit: float = 2.0
    chord: float = 1e-3


@dataclass(frozen=True)
class Corners:
    """The points of the parallels, vertex by vertex of the sources.

    Parameters
    ----------
    points
        (m, 2) float, in the order of the vertices; not finite where two inner offset segments
        are parallel and do not meet.
    first
        Index in ``points`` of the first point of each vertex, and m at the end, (n + 1,) int.
    outer
        True where the vertex lies on the outer side of its turn, (n,) bool.
    """

    points: np.ndarray
    first: np.ndarray
    outer: np.ndarray


def turns(lines: Lines, arcs: Arcs | None = None) -> tuple[np.ndarray, np.ndarray]:
    """Return the directions into and out of each vertex, (n, 2) float each.

    At an open end both are the direction of the only segment there. With ``arcs`` the directions
    at their chords are those of the arcs themselves.
    """
    begin = end = lines.segment_directions
    if arcs is not None and len(arcs):
        begin, end = arcs.directions(lines)
    into, out = np.empty_like(lines.xy), np.empty_like(lines.xy)
    into[lines.segments + 1] = end
    out[lines.segments] = begin
    start, last = lines.first[:-1], lines.first[1:] - 1
    ring = lines.closed[:, None]
    into[start] = np.where(ring, into[last], out[start])
    out[last] = np.where(ring, out[start], into[last])
    return into, out


def corners(lines: Lines, offsets: np.ndarray, style: JoinStyle) -> Corners:
    """Compute the corner points of a parallel to each line.

    Parameters
    ----------
    lines
        The sources.
    offsets
        Signed offset of each line, right +, (k,) float, none of them 0.
    style
        The join.
    """
    into, out = turns(lines)
    # A ring ends with the first point of the corner that it starts with.
    again = lines.first[1:][lines.closed] - 1
    points, count, outer = corner_points(lines.xy, into, out, offsets[lines.owner], style, again)
    first = np.concatenate([[0], np.cumsum(count)]).astype(np.int64)
    rings = np.flatnonzero(lines.closed)
    points[first[lines.first[rings + 1] - 1]] = points[first[lines.first[rings]]]
    return Corners(points, first, outer)


def corner_points(
    xy: np.ndarray,
    into: np.ndarray,
    out: np.ndarray,
    offset: np.ndarray,
    style: JoinStyle,
    single: np.ndarray | None = None,
) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Compute the points of corners.

    Parameters
    ----------
    xy : (n, 2) float
        The corners.
    into, out : (n, 2) float
        Unit directions into and out of each.
    offset : (n,) float
        Signed offsets, right +, none of them 0.
    style
        The join.
    single : (r,) int, optional
        Corners of which only the first point is wanted.

    Returns
    -------
    points : (m, 2) float
        The points, corner by corner.
    count : (n,) int
        How many each corner has.
    outer : (n,) bool
        Whether the offset lies on the outer side of the turn.
    """
    o, m, n = offset, right_normals(into), right_normals(out)
    cosine = (into * out).sum(1)
    sine = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    angle = np.abs(np.arctan2(sine, cosine))
    # A line that doubles back on itself has its turn outside on both sides.
    outer = (np.sign(o) * sine > 0) | (angle > np.pi - 1e-9)
    with np.errstate(divide="ignore", invalid="ignore"):
        mitre = xy + o[:, None] * (m + n) / (1.0 + cosine)[:, None]
        excess = np.abs(o) * (1.0 / np.cos(angle / 2) - 1.0)
    plain = ~outer | (excess <= style.chord)
    count = np.ones(len(xy), np.int64)
    cut = np.zeros(len(xy))  # distance along the offset segments from the normal to the cut
    if style.kind is Join.ROUND:
        size = np.maximum(np.abs(o), 1e-300)
        step = 2.0 * np.arccos(size / (size + style.chord))
        count = np.where(plain, 1, np.maximum(np.ceil(angle / step - 1e-9), 2)).astype(np.int64)
    else:
        limit = style.mitre_limit if style.kind is Join.MITRE else 1.0
        with np.errstate(divide="ignore", invalid="ignore"):
            over = ~plain & (np.cos(angle / 2) * limit < 1.0)
            cut = np.abs(o) * (limit - np.cos(angle / 2)) / np.sin(angle / 2)
        count = np.where(over, 2, 1)
    if single is not None:
        count[single] = 1
    vertex = np.repeat(np.arange(len(count)), count)
    points = mitre[vertex]
    many = np.flatnonzero(count[vertex] > 1)
    if len(many):
        v = vertex[many]
        place = many - (np.cumsum(count) - count)[v]
        if style.kind is Join.ROUND:
            points[many] = _around(xy[v], o[v], m[v], sine[v], angle[v], place, count[v])
        else:
            before = xy[v] + o[v, None] * m[v] + cut[v, None] * into[v]
            after = xy[v] + o[v, None] * n[v] - cut[v, None] * out[v]
            points[many] = np.where((place == 0)[:, None], before, after)
    return points, count, outer


def _around(
    centre: np.ndarray,
    offset: np.ndarray,
    normal: np.ndarray,
    sine: np.ndarray,
    angle: np.ndarray,
    place: np.ndarray,
    count: np.ndarray,
) -> np.ndarray:
    """Return points of the polygon around an arc: its chords touch the arc."""
    half = angle / count / 2.0
    # Turning left (sine > 0) turns the normal anticlockwise. A full U-turn goes round its tip.
    sense = np.where(angle > np.pi - 1e-9, np.sign(offset), np.sign(sine))
    phi = sense * half * (2 * place + 1)
    c, s = np.cos(phi), np.sin(phi)
    spun = np.column_stack(
        [c * normal[:, 0] - s * normal[:, 1], s * normal[:, 0] + c * normal[:, 1]]
    )
    return centre + (offset / np.cos(half))[:, None] * spun
