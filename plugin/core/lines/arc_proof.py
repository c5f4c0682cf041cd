"""Proof that a parallel with true arcs keeps its distance from a line with true arcs.

`prove` measures chords. Here the written curve itself is measured: every arc against the circle
that it stands for, every end of a straight part against the segment it is parallel to, and all
parts against all arcs of the source, in closed form, for anything nearer than the offset.
"""

from dataclasses import dataclass

import numpy as np

from .arc_parts import Curved
from .arcs import Arcs, circle
from .bundle import Lines


@dataclass(frozen=True)
class Curves:
    """Segments and arcs, one row each; a segment is an arc of infinite radius.

    Parameters
    ----------
    start, stop
        Ends, (n, 2) float.
    centre
        Centre, (n, 2) float; of no meaning for a segment.
    radius
        Radius, (n,) float; infinite for a segment.
    middle
        Unit direction from the centre to the middle of the arc, (n, 2) float.
    half
        Half the angle that the arc sweeps, (n,) float.
    """

    start: np.ndarray
    stop: np.ndarray
    centre: np.ndarray
    radius: np.ndarray
    middle: np.ndarray
    half: np.ndarray

    def __len__(self) -> int:
        """Return the number of rows."""
        return len(self.radius)

    @property
    def curved(self) -> np.ndarray:
        """Tell which rows are arcs, (n,) bool."""
        return np.isfinite(self.radius)

    def take(self, which: np.ndarray) -> "Curves":
        """Return some of the rows."""
        fields = (self.start, self.stop, self.centre, self.radius, self.middle, self.half)
        return Curves(*(field[which] for field in fields))

    @classmethod
    def packed(
        cls, segments: list[np.ndarray], arcs: list[tuple[np.ndarray, np.ndarray, float, int]]
    ) -> "Curves":
        """Return segments, (n, 2, 2) each, and arcs: ends (2, 2), centre, radius and sense."""
        straight = np.concatenate([np.empty((0, 2, 2)), *segments])
        ends = np.array([arc[0] for arc in arcs]).reshape(-1, 2, 2)
        centre = np.array([arc[1] for arc in arcs]).reshape(-1, 2)
        radius = np.array([arc[2] for arc in arcs])
        sense = np.array([arc[3] for arc in arcs], float)
        to = ends - centre[:, None]
        angle = np.arctan2(to[..., 1], to[..., 0])
        swept = (-sense * (angle[:, 1] - angle[:, 0])) % (2.0 * np.pi)
        swept = np.where(swept == 0.0, 2.0 * np.pi, swept)
        mid = angle[:, 0] - sense * swept / 2.0
        none = np.zeros((len(straight), 2))
        return cls(
            np.concatenate((straight[:, 0], ends[:, 0])),
            np.concatenate((straight[:, 1], ends[:, 1])),
            np.concatenate((none, centre)),
            np.concatenate((np.full(len(straight), np.inf), radius)),
            np.concatenate((none, np.column_stack((np.cos(mid), np.sin(mid))))),
            np.concatenate((np.zeros(len(straight)), swept / 2.0)),
        )


def source_curves(lines: Lines, arcs: Arcs, k: int) -> Curves:
    """Return line ``k`` of a bundle as segments and arcs."""
    rows = np.arange(lines.first_segment[k], lines.first_segment[k + 1])
    of = arcs.of_segment[rows]
    a = lines.segments[rows]
    straight = of < 0
    segments = np.stack((lines.xy[a[straight]], lines.xy[a[straight] + 1]), axis=1)
    chord = np.flatnonzero(~straight)
    first = chord[np.diff(of[chord], prepend=-1) != 0]
    last = np.append(chord[np.flatnonzero(np.diff(of[chord]) != 0)], chord[-1:])
    found = [
        (
            np.stack((lines.xy[a[i]], lines.xy[a[j] + 1])),
            arcs.centre[of[i]],
            float(arcs.radius[of[i]]),
            int(arcs.sense[of[i]]),
        )
        for i, j in zip(first.tolist(), last.tolist(), strict=True)
    ]
    return Curves.packed([segments], found)


def curve_error(made: Curved, source: Curves, arcs: Arcs, offset: float) -> float:
    """Return by how much a parallel with arcs errs, in plan units.

    Parameters
    ----------
    made
        The parallel as it is written.
    source
        Its source line.
    arcs
        The arcs of the source's bundle.
    offset
        Signed offset, right +.

    Returns
    -------
    float
        The greater of two: how far any arc leaves the circle about its source's centre, and how
        much nearer than the offset any part comes to an arc of the source, or any arc to the
        source.
    """
    error, segments, found = 0.0, [], []
    for (kind, rows), arc in zip(made.parts, made.beside, strict=True):
        xy = rows[:, :2]
        if kind == "line":
            segments.append(np.stack((xy[:-1], xy[1:]), axis=1))
            continue
        radius = float(arcs.radius[arc] - arcs.sense[arc] * offset)
        away = np.hypot(*(xy - arcs.centre[arc]).T)
        error = max(error, float(np.abs(away - radius).max()))
        centre, size, sense = circle(*xy)
        if not np.array_equal(xy[0], xy[2]) and sense != arcs.sense[arc]:
            return np.inf
        found.append((xy[[0, 2]], centre, size, int(arcs.sense[arc])))
    parallel = Curves.packed(segments, found)
    one, other = np.meshgrid(np.arange(len(parallel)), np.arange(len(source)), indexing="ij")
    pair = (parallel.curved[one] | source.curved[other]).ravel()
    least = _distances(parallel.take(one.ravel()[pair]), source.take(other.ravel()[pair]))
    return max(error, abs(offset) - float(least.min(initial=abs(offset))))


def distances_of_points(places: np.ndarray, curves: Curves) -> np.ndarray:
    """Return the distance of each of some points from the nearest of all curves, (p,) float."""
    every = np.arange(len(curves))
    pair = np.repeat(places, len(curves), axis=0), curves.take(np.tile(every, len(places)))
    return _from_points(*pair).reshape(len(places), -1).min(axis=1)


def chord_error(
    xy: np.ndarray, parent: np.ndarray, lines: Lines, arcs: Arcs, offset: float
) -> float:
    """Return by how much chords beside arcs leave the parallels of these, in plan units.

    What reaches past the end of an arc, to the tip of a corner, is not beside it.

    Parameters
    ----------
    xy : (n, 2) float
        A piece of a parallel.
    parent : (n,) int
        Source segment that the segment starting at each vertex is parallel to, -1 in a join.
    lines, arcs
        The sources and their arcs.
    offset
        Signed offset, right +.
    """
    row = np.flatnonzero(parent[:-1] >= 0)
    arc = arcs.of_segment[parent[row]]
    row, arc = row[arc >= 0], arc[arc >= 0]
    radius = arcs.radius[arc] - arcs.sense[arc] * offset
    way, start = lines.segment_directions[parent[row]], lines.xy[lines.segments[parent[row]]]
    length = lines.segment_lengths[parent[row]]
    low, high = (np.clip(((xy[row + n] - start) * way).sum(1), 0.0, length) for n in (0, 1))
    run = ((xy[row + 1] - xy[row]) * way).sum(1)
    first = ((xy[row] - start) * way).sum(1)
    share = ((low + high) / 2.0 - first) / np.where(run == 0.0, 1.0, run)
    middle = xy[row] + share[:, None] * (xy[row + 1] - xy[row])
    away = np.hypot(*(middle - arcs.centre[arc]).T)
    return float(np.abs(away - radius)[high > low].max(initial=0.0))


def _distances(one: Curves, other: Curves) -> np.ndarray:
    """Return the distance between the curves of each pair, (p,) float.

    Two curves are nearest at an end of one of them, where the line through a centre is square to
    both, or where they cross.
    """
    least = np.full(len(one), np.inf)
    for a, b in ((one, other), (other, one)):
        for place in (a.start, a.stop, *_square_places(a, b)):
            least = np.fmin(least, _from_points(place, b))
    for place in _crossings(one, other):
        apart = np.fmax(_from_points(place, one), _from_points(place, other))
        least = np.where(apart < 1e-9 * (1.0 + np.abs(place).max(axis=1, initial=0.0)), 0.0, least)
    return least


def _square_places(a: Curves, b: Curves) -> list[np.ndarray]:
    """Return the places of arcs ``a`` that the line through both centres, or square, goes through.

    NaN where there is none.
    """
    centre = np.where(b.curved[:, None], b.centre, _feet(a.centre, b))
    to = centre - a.centre
    size = np.hypot(to[:, 0], to[:, 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        unit = to / size[:, None]
    places = []
    for side in (1.0, -1.0):
        on = a.curved & (np.arccos(np.clip(side * (unit * a.middle).sum(1), -1.0, 1.0)) <= a.half)
        place = a.centre + side * np.where(on, a.radius, np.nan)[:, None] * unit
        places.append(place)
    return places


def _feet(place: np.ndarray, b: Curves) -> np.ndarray:
    """Return the feet of perpendiculars from places on the lines through the ends of ``b``."""
    way = b.stop - b.start
    square = np.maximum((way * way).sum(1), 1e-300)
    return b.start + (((place - b.start) * way).sum(1) / square)[:, None] * way


def _from_points(place: np.ndarray, b: Curves) -> np.ndarray:
    """Return the distance of each place from its curve, (p,) float; NaN for a place of NaN."""
    way = b.stop - b.start
    square = np.maximum((way * way).sum(1), 1e-300)
    share = np.clip(((place - b.start) * way).sum(1) / square, 0.0, 1.0)
    straight = np.hypot(*(place - b.start - share[:, None] * way).T)
    to = place - b.centre
    away = np.hypot(to[:, 0], to[:, 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        turn = np.arccos(np.clip((to * b.middle).sum(1) / away, -1.0, 1.0))
    ends = np.minimum(np.hypot(*(place - b.start).T), np.hypot(*(place - b.stop).T))
    within = (turn <= b.half) | (b.half >= np.pi)
    with np.errstate(invalid="ignore"):
        round_ = np.where(within, np.abs(away - b.radius), ends)
    return np.where(b.curved, round_, straight)


def _crossings(one: Curves, other: Curves) -> list[np.ndarray]:
    """Return the places where the circles, or circle and line, of each pair cross; NaN if none."""
    swap = (one.curved < other.curved)[:, None]
    centre = np.where(swap, other.centre, one.centre)
    radius = np.where(swap[:, 0], other.radius, one.radius)
    far = np.where(swap, one.centre, other.centre)
    size = np.where(swap[:, 0], one.radius, other.radius)
    line = Curves(*(np.where(swap if f.ndim > 1 else swap[:, 0], f, g) for f, g in _fields(one, other)))  # noqa: E501  # fmt: skip
    both = one.curved & other.curved
    to = np.where(both[:, None], far, _feet(centre, line)) - centre
    gap = np.hypot(to[:, 0], to[:, 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        along = np.where(both, (gap + (radius - size) * (radius + size) / gap) / 2.0, gap)
        reach = np.sqrt((radius - along) * (radius + along))
        unit = to / gap[:, None]
    way = line.stop - line.start
    with np.errstate(divide="ignore", invalid="ignore"):
        along_line = way / np.hypot(way[:, 0], way[:, 1])[:, None]
    across = np.where(both[:, None], np.column_stack((-unit[:, 1], unit[:, 0])), along_line)
    foot = centre + np.where(both[:, None], along[:, None] * unit, to)
    return [foot + side * reach[:, None] * across for side in (1.0, -1.0)]


def _fields(one: Curves, other: Curves) -> list[tuple[np.ndarray, np.ndarray]]:
    names = ("start", "stop", "centre", "radius", "middle", "half")
    return [(getattr(one, name), getattr(other, name)) for name in names]
