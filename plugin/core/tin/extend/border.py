"""The border of a surface as chains of edges, and which of them are carried on."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..mesh import Tin
from .manner import Pick

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

_ALONG = 0.7
"""Share of its length that an edge must gain along a line to run along it."""
_SAMPLES = 9


@dataclass(frozen=True, eq=False)
class Border:
    """Edges with one face, the surface on their left.

    Upright ones, which plan does not show, are passed over.

    Parameters
    ----------
    start, stop : (b, 3) float
        Ends, x and y counted from an origin nearby.
    start_vertex, stop_vertex : (b,) int
        Their vertices.
    before, after : (b,) int
        The edges before and after on the border.
    face : (b,) int
        Face of each edge.
    loop : (b,) int
        Border each edge belongs to.
    outer : (b,) bool
        Whether that border runs around the surface, not around a hole.
    """

    start: Floats
    stop: Floats
    start_vertex: Ints
    stop_vertex: Ints
    before: Ints
    after: Ints
    face: Ints
    loop: Ints
    outer: Mask

    def __len__(self) -> int:
        """Return the number of edges."""
        return len(self.face)

    @property
    def lines(self) -> NDArray[np.object_]:
        """The edges in plan, (b,) shapely LineString."""
        return shapely.linestrings(np.stack([self.start[:, :2], self.stop[:, :2]], axis=1))

    @property
    def lengths(self) -> Floats:
        """Plan length of each edge, (b,) float."""
        run = self.stop[:, :2] - self.start[:, :2]
        return np.hypot(run[:, 0], run[:, 1])


def border_of(tin: Tin, origin: Floats) -> Border:
    """Return the border of a surface.

    Parameters
    ----------
    tin : Tin
        The surface.
    origin : (2,) float
        Where plan coordinates count from.
    """
    loops = tin.boundary_loops()
    start = np.concatenate([*loops, np.zeros(0, dtype=np.int64)])
    sizes = np.array([len(loop) for loop in loops], dtype=np.int64)
    loop = np.repeat(np.arange(len(loops)), sizes)
    first = np.repeat(np.cumsum(sizes) - sizes, sizes)
    place = np.arange(len(start)) - first
    size = sizes[loop]
    stop = start[first + (place + 1) % size]
    local = tin.vertices.copy()
    local[:, :2] -= origin
    one, other = local[start, :2], local[stop, :2]
    doubled = np.bincount(
        loop, one[:, 0] * other[:, 1] - other[:, 0] * one[:, 1], minlength=len(loops)
    )
    run = other - one
    real = np.flatnonzero(np.hypot(run[:, 0], run[:, 1]) > tin.rounding)
    real_sizes = np.bincount(loop[real], minlength=len(loops))[loop[real]]
    begin = np.searchsorted(loop[real], loop[real])
    at = np.arange(len(real)) - begin
    return Border(
        local[start[real]],
        local[stop[real]],
        start[real],
        stop[real],
        begin + (at - 1) % real_sizes,
        begin + (at + 1) % real_sizes,
        _faces_of(tin, start[real], stop[real]),
        loop[real],
        (doubled > 0.0)[loop[real]],
    )


def _faces_of(tin: Tin, start: Ints, stop: Ints) -> Ints:
    edges = tin.edges
    ends = edges.ends[edges.boundary]
    key = ends[:, 0] << 32 | ends[:, 1]
    order = np.argsort(key)
    wanted = np.minimum(start, stop) << 32 | np.maximum(start, stop)
    found = edges.boundary[order[np.searchsorted(key[order], wanted)]]
    return edges.faces[found].max(axis=1)


def along_lines(border: Border, pick: Pick, origin: Floats) -> tuple[Mask, Mask]:
    """Tell which edges run along a line, and which lines an edge runs along.

    Every point of the edge lies within the distance of the line, and the edge gains most of its
    length along it, so that the end of a road does not go with a line that crosses it.
    """
    lines = np.asarray(pick.lines, dtype=object)
    used = np.zeros(len(lines), dtype=bool)
    picked = np.zeros(len(border), dtype=bool)
    if len(lines) == 0 or len(border) == 0:
        return picked, used
    lines = shapely.transform(lines, lambda xy: xy - origin)
    tree = shapely.STRtree(border.lines)
    line, edge = tree.query(lines, predicate="dwithin", distance=pick.distance)
    share = np.linspace(0.0, 1.0, _SAMPLES)[:, None, None]
    start, stop = border.start[edge, :2], border.stop[edge, :2]
    points = shapely.points(start + share * (stop - start))
    near = (shapely.distance(lines[line], points) <= pick.distance).all(axis=0)
    gained = np.abs(
        shapely.line_locate_point(lines[line], points[-1])
        - shapely.line_locate_point(lines[line], points[0])
    )
    # On a closed line the way from end to end may be the other one.
    round_trip = shapely.length(lines[line]) - gained
    closed = shapely.is_closed(lines[line])
    gained = np.where(closed, np.minimum(gained, round_trip), gained)
    fits = near & (gained >= _ALONG * border.lengths[edge])
    picked[edge[fits]] = True
    used[line[fits]] = True
    return picked, used
