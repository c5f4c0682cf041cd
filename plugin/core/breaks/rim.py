"""The outline of a surface and of its holes as lines of the kind ``edge``.

A border is one closed line. It runs with the surface on its left, so the outline of a piece is
counter-clockwise and that of a hole clockwise, and begins at its smallest vertex (x, then y, z).
"""

import numpy as np
from numpy.typing import NDArray

from ..tin import Tin
from ..tin.boundary import loops
from .change import WALL_GRADE
from .kinds import KINDS, Kind
from .lines import BreakLines, Spread, no_lines, spread

LEAST_WALL = 0.01
"""Share of a border below which walls beside it are the ends of those that it runs across."""

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def rim(tin: Tin, z_scale: float = 1.0, min_length: float = 0.0) -> BreakLines:
    """Return the borders of a surface.

    Parameters
    ----------
    tin
        The surface.
    z_scale
        Plan units in one vertical unit.
    min_length
        Borders that are shorter in plan are left out.

    Returns
    -------
    BreakLines
        Sorted by their first vertices. There is a grade on the left alone; change, angle and
        share beyond doubt are NaN.
    """
    rings = sorted(_from_the_smallest(tin, ring) for ring in loops(tin.faces, tin.quick_edges))
    if not rings:
        return no_lines(tin, np.zeros(0, np.int64))
    nodes = np.concatenate([ring for _, ring in rings])
    offsets = np.cumsum([0] + [len(ring) for _, ring in rings])
    tails, heads = np.delete(nodes, offsets[1:] - 1), np.delete(nodes, offsets[:-1])
    steps = offsets - np.arange(len(offsets))
    edge = _edges_between(tin, tails, heads)
    length, rise, wall = _beside(tin, edge, tails, heads, z_scale)
    whole = np.add.reduceat(length, steps[:-1])
    beside = np.add.reduceat(np.where(wall, length, 0.0), steps[:-1])
    nothing = np.full(len(whole), np.nan)
    lines = BreakLines(
        coordinates=tin.vertices[nodes],
        offsets=offsets,
        edges=edge,
        kind=np.full(len(whole), KINDS.index(Kind.EDGE), np.int8),
        change=Spread(nothing, nothing, nothing),
        grade_left=spread(steps, length, rise),
        grade_right=Spread(nothing, nothing, nothing),
        angle=nothing,
        length=whole,
        closed=np.ones(len(whole), bool),
        wall=np.where(beside > LEAST_WALL * whole, beside, 0.0),
        sure=nothing,
        bridged=np.zeros(len(whole)),
        doubtful=np.zeros(len(whole), bool),
        skipped=np.zeros((0, 3)),
    )
    return lines.take(np.flatnonzero(whole >= min_length))


def _from_the_smallest(tin: Tin, ring: Ints) -> tuple[list[float], list[int]]:
    """Return where a border begins and goes first, and its vertices, the first one repeated."""
    places = tin.vertices[ring]
    after = np.roll(places, -1, axis=0)
    # A border may pass its smallest vertex twice: then the way on decides.
    first = np.lexsort((*after.T[::-1], *places.T[::-1]))[0]
    order = np.roll(ring, -first)
    return [*places[first], *after[first]], [*order.tolist(), int(order[0])]


def _edges_between(tin: Tin, tails: Ints, heads: Ints) -> Ints:
    """Return the border edge between each two vertices."""
    count = len(tin.vertices)
    border = tin.quick_edges.boundary
    ends = tin.quick_edges.ends[border]
    key = ends[:, 0] * count + ends[:, 1]
    order = np.argsort(key)
    wanted = np.minimum(tails, heads) * count + np.maximum(tails, heads)
    return border[order[np.searchsorted(key[order], wanted)]]


def _beside(
    tin: Tin, edge: Ints, tails: Ints, heads: Ints, z_scale: float
) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """Return plan length, grade going into the surface, and whether a wall begins there.

    A border that runs over the end of a curb face has no wall beside it.
    """
    along = tin.vertices[heads, :2] - tin.vertices[tails, :2]
    length = np.hypot(along[:, 0], along[:, 1])
    gradient = tin.gradients[tin.quick_edges.faces[edge].max(axis=1)] * z_scale
    with np.errstate(divide="ignore", invalid="ignore"):
        rise = (gradient[:, 1] * along[:, 0] - gradient[:, 0] * along[:, 1]) / length
    return length, rise, (length > 0) & ~(np.abs(rise) <= WALL_GRADE)
