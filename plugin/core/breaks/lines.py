"""Break lines: edges of one kind joined, given a direction and described.

Direction of a line. ``top`` and ``toe``: the uphill side is on the left, the lower side on the
right. ``ridge`` and ``valley``: downhill. Where a ridge or valley is closed or level from end to
end (within `LEVEL_GRADE` of its length), the lower side is on the right; and where the sides are
alike as well, an open line starts at its end with the smaller x (then y), a closed one runs
counter-clockwise.
"""

from collections.abc import Callable, Collection
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..runs import ragged
from ..tin import Tin
from .change import EdgeChange
from .kinds import KINDS, LEVEL_GRADE, Kind
from .walk import Walk

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

NO_MEAN_BEYOND = 1e6
"""For comparing sides, an upright face counts as this steep."""


@dataclass(frozen=True)
class Spread:
    """Mean (weighted by length), smallest and largest value along each line, three (n,) arrays.

    Infinite values (beside upright faces) are left out; NaN where there is no other.
    """

    mean: Floats
    low: Floats
    high: Floats


@dataclass(frozen=True)
class BreakLines:
    """Slope breaks of a surface as lines.

    Grades are ratios (0.02 is 2 %). A side's grade is taken going away from the line, square to
    it in plan: positive rises, negative falls. Left and right look along the line.

    Parameters
    ----------
    coordinates : (p, 3) float
        Vertices of all lines, one line after the other.
    offsets : (n + 1,) int64
        Line ``i`` holds ``coordinates[offsets[i]:offsets[i + 1]]``; a closed line repeats its
        first vertex.
    edges : (p - n,) int64
        Edge (of ``Tin.quick_edges``) under every segment, in the order of the lines; -1 in a
        bridged gap.
    kind : (n,) int8
        Index into `KINDS`.
    change : Spread
        Size of the slope change, never negative.
    grade_left, grade_right : Spread
        Grade of each side.
    angle : (n,) float
        Mean angle between the normals of the faces on both sides, radians.
    length : (n,) float
        Length in plan.
    closed : (n,) bool
        True for lines that end where they start.
    wall : (n,) float
        Length beside a face steeper than `WALL_GRADE`.
    sure : (n,) float
        Share of the length whose change is beyond doubt: above the threshold that continues a
        line by more than twice its standard error.
    bridged : (n,) float
        Length of the gaps bridged.
    doubtful : (n,) bool
        True where a line ends at an edge that could not be measured and may go on there.
    skipped : (j, 3) float
        Middle points of the edges that could not be measured: more than two faces, faces folded
        over each other, or a face without area.
    """

    coordinates: Floats
    offsets: Ints
    edges: Ints
    kind: NDArray[np.int8]
    change: Spread
    grade_left: Spread
    grade_right: Spread
    angle: Floats
    length: Floats
    closed: NDArray[np.bool_]
    wall: Floats
    sure: Floats
    bridged: Floats
    doubtful: NDArray[np.bool_]
    skipped: Floats

    def __len__(self) -> int:
        """Return the number of lines."""
        return len(self.kind)

    @property
    def z_start(self) -> Floats:
        """Height of the first vertex of each line, (n,)."""
        return self.coordinates[self.offsets[:-1], 2]

    @property
    def z_end(self) -> Floats:
        """Height of the last vertex of each line, (n,)."""
        return self.coordinates[self.offsets[1:] - 1, 2]

    def line(self, number: int) -> Floats:
        """Return the vertices of one line, (v, 3)."""
        return self.coordinates[self.offsets[number] : self.offsets[number + 1]]

    def take(self, which: Ints) -> "BreakLines":
        """Return the given lines, in the given order."""
        rows, offsets = ragged(self.offsets[which], np.diff(self.offsets)[which])
        steps, _ = ragged(
            (self.offsets - np.arange(len(self.offsets)))[which], np.diff(self.offsets)[which] - 1
        )
        own: dict[str, Any] = {"coordinates": self.coordinates[rows], "offsets": offsets}
        own |= {"edges": self.edges[steps], "skipped": self.skipped}
        return BreakLines(**own, **self._each(lambda values: values[which], own))

    def and_also(self, more: "BreakLines") -> "BreakLines":
        """Return these lines and then those of another; what was skipped stays that of these."""
        own: dict[str, Any] = {
            "coordinates": np.concatenate((self.coordinates, more.coordinates)),
            "offsets": np.concatenate((self.offsets, self.offsets[-1] + more.offsets[1:])),
            "edges": np.concatenate((self.edges, more.edges)),
            "skipped": self.skipped,
        }
        return BreakLines(**own, **self._each(lambda *both: np.concatenate(both), own, more))

    def _each(
        self, make: Callable[..., NDArray], done: Collection[str], *more: "BreakLines"
    ) -> dict[str, Any]:
        """Make the new values of all that has one entry for each line."""

        def made(*values: NDArray | Spread) -> NDArray | Spread:
            if isinstance(values[0], Spread):
                names = ("mean", "low", "high")
                return Spread(*(make(*(getattr(v, name) for v in values)) for name in names))
            return make(*values)

        names = [field.name for field in fields(self) if field.name not in done]
        return {name: made(*(getattr(lines, name) for lines in (self, *more))) for name in names}

    def of_kind(self, kind: Kind) -> NDArray[np.bool_]:
        """Tell which lines are of that kind, (n,) bool."""
        return self.kind == KINDS.index(kind)


def no_lines(tin: Tin, unmeasured: Ints) -> BreakLines:
    """Return the result of a surface without breaks."""
    none = np.zeros(0)
    spread = Spread(none, none, none)
    return BreakLines(
        coordinates=np.zeros((0, 3)),
        offsets=np.zeros(1, np.int64),
        edges=np.zeros(0, np.int64),
        kind=np.zeros(0, np.int8),
        change=spread,
        grade_left=spread,
        grade_right=spread,
        angle=none,
        length=none,
        closed=np.zeros(0, bool),
        wall=none,
        sure=none,
        bridged=none,
        doubtful=np.zeros(0, bool),
        skipped=_middles(tin, unmeasured),
    )


def describe(
    tin: Tin,
    points: Floats,
    walk: Walk,
    breaks: EdgeChange,
    kind: NDArray[np.int8],
    sure: NDArray[np.bool_],
    z_scale: float,
    unmeasured: Ints,
) -> BreakLines:
    """Give lines their direction and work out what is known about each.

    Parameters
    ----------
    tin
        The surface.
    points : (v, 3) float
        Places of its vertices on the lines.
    walk
        At least one line.
    breaks
        The measured edges the walk's steps point at.
    kind : (n,) int8
        Kind of each line.
    sure : (k,) bool
        Edges whose change is beyond doubt.
    z_scale
        Plan units in one vertical unit.
    unmeasured : (j,) int64
        Edges that could not be measured.

    Returns
    -------
    BreakLines
        In the order of the walk.
    """
    walk = walk.turned(_against_the_rule(points, walk, kind, z_scale))
    length = walk.total(walk.length)
    loose = np.zeros(len(tin.vertices), bool)
    loose[tin.quick_edges.ends_of(unmeasured)] = True
    nodes, offsets = walk.nodes, walk.node_offsets
    edges = breaks.edges[walk.steps]
    return BreakLines(
        coordinates=points.take(nodes, 0),
        offsets=offsets,
        edges=edges,
        kind=kind,
        change=spread(walk.offsets, walk.length, np.abs(walk.change)),
        grade_left=spread(walk.offsets, walk.length, walk.left),
        grade_right=spread(walk.offsets, walk.length, walk.right),
        angle=walk.total(walk.angle * walk.length) / length,
        length=length,
        closed=walk.closed,
        wall=walk.total(walk.wall),
        sure=walk.total(np.where(sure[walk.steps], walk.length, 0.0)) / length,
        bridged=walk.total(np.where(edges < 0, walk.length, 0.0)),
        doubtful=loose[nodes[offsets[:-1]]] | loose[nodes[offsets[1:] - 1]],
        skipped=_middles(tin, unmeasured),
    )


def _middles(tin: Tin, edges: Ints) -> Floats:
    """Return the middle point of each edge, in the order of their coordinates, (j, 3)."""
    ends = tin.vertices.take(tin.quick_edges.ends_of(edges), 0)
    middles = (ends[:, 0] + ends[:, 1]) / 2
    return middles[np.lexsort(middles.T[::-1])]


def _against_the_rule(
    points: Floats, walk: Walk, kind: NDArray[np.int8], z_scale: float
) -> NDArray[np.bool_]:
    """Tell which lines have to be reversed to run as the module says, (n,) bool."""
    length = walk.total(walk.length)

    def mean(rises: Floats) -> Floats:
        bounded = np.clip(rises, -NO_MEAN_BEYOND, NO_MEAN_BEYOND)
        return walk.total(bounded * walk.length) / length

    lean = mean(walk.right) - mean(walk.left)
    z, closed = points[:, 2], walk.closed
    first, last = walk.tails[walk.offsets[:-1]], walk.heads[walk.offsets[1:] - 1]
    climb = (z[last] - z[first]) * z_scale / length
    clockwise = closed & (_doubled_area(points, walk) < 0)
    one_way = (kind == KINDS.index(Kind.TOP)) | (kind == KINDS.index(Kind.TOE))
    runs = ~one_way & ~closed & (np.abs(climb) > LEVEL_GRADE)
    leans = ~runs & (one_way | (np.abs(lean) > LEVEL_GRADE))
    return np.where(runs, climb > 0, np.where(leans, lean > 0, clockwise))


def _doubled_area(points: Floats, walk: Walk) -> Floats:
    """Return twice the signed plan area under each line when closed, (n,)."""
    origin = np.repeat(points[walk.tails[walk.offsets[:-1]], :2], np.diff(walk.offsets), axis=0)
    tail, head = points[walk.tails, :2] - origin, points[walk.heads, :2] - origin
    return walk.total(tail[:, 0] * head[:, 1] - tail[:, 1] * head[:, 0])


def spread(offsets: Ints, length: Floats, values: Floats) -> Spread:
    """Return mean, smallest and largest value along each line.

    Parameters
    ----------
    offsets : (n + 1,) int
        Line ``i`` holds the steps ``offsets[i] .. offsets[i + 1] - 1``; at least one.
    length, values : (s,) float
        Length in plan, and value, of each step.
    """
    starts = offsets[:-1]
    known = np.isfinite(values)
    weight = np.add.reduceat(np.where(known, length, 0.0), starts)
    none = weight == 0
    total = np.add.reduceat(np.where(known, values * length, 0.0), starts)
    low = np.minimum.reduceat(np.where(known, values, np.inf), starts)
    high = np.maximum.reduceat(np.where(known, values, -np.inf), starts)
    mean = np.divide(total, weight, out=np.full(len(weight), np.nan), where=~none)
    low[none] = high[none] = np.nan
    return Spread(mean, low, high)
