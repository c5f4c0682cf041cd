"""Break lines: edges of one kind joined, given a direction and described.

Direction of a line. ``top`` and ``toe``: the uphill side is on the left, the lower side on the
right. ``ridge`` and ``valley``: downhill. Where a ridge or valley is closed or level from end to
end (within `LEVEL_GRADE` of its length), the lower side is on the right; and where the sides are
alike as well, an open line starts at its end with the smaller x (then y), a closed one runs
counter-clockwise.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..tin import Tin
from .chains import Chains
from .change import EdgeChange, rise_sum
from .kinds import KINDS, LEVEL_GRADE, Kind

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
        Edge of the TIN under every segment, in the order of the lines.
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
        doubtful=np.zeros(0, bool),
        skipped=_middles(tin, unmeasured),
    )


@dataclass
class Walk:
    """Chains on their way to becoming lines: per step what lies left and right of the walk."""

    nodes: Ints
    steps: Ints
    offsets: Ints
    left: Floats
    right: Floats
    length: Floats
    angle: Floats
    wall: Floats

    @classmethod
    def along(cls, chains: Chains, breaks: EdgeChange) -> "Walk":
        """Lay the measured edges out in the order of the chains."""
        edge = chains.darts >> 1
        back = (chains.darts & 1).astype(bool)
        rises = np.column_stack((breaks.rise_left[edge], breaks.rise_right[edge]))
        rises[back] = rises[back][:, ::-1]
        heads = breaks.ends[edge, 1 - back.astype(np.int64)]
        tails = breaks.ends[edge, back.astype(np.int64)]
        count = len(chains.offsets) - 1
        nodes = np.empty(len(edge) + count, np.int64)
        begin = chains.offsets[:-1] + np.arange(count)
        after = np.ones(len(nodes), bool)
        after[begin] = False
        nodes[after] = heads
        nodes[begin] = tails[chains.offsets[:-1]]
        return cls(
            nodes,
            edge,
            chains.offsets,
            rises[:, 0].copy(),
            rises[:, 1].copy(),
            breaks.length[edge],
            breaks.angle[edge],
            np.where(breaks.wall[edge], breaks.length[edge], 0.0),
        )

    @property
    def node_offsets(self) -> Ints:
        """Where the vertices of each line begin: one more a line than steps."""
        return self.offsets + np.arange(len(self.offsets))

    def total(self, values: Floats) -> Floats:
        """Sum the values of the steps of each line."""
        return np.add.reduceat(values, self.offsets[:-1])

    def turn(self, flip: NDArray[np.bool_]) -> None:
        """Reverse the chosen lines, in place."""
        order = _reversing(self.offsets, flip)
        for name in ("steps", "left", "right", "length", "angle", "wall"):
            setattr(self, name, getattr(self, name)[order])
        swap = np.repeat(flip, np.diff(self.offsets))
        self.left[swap], self.right[swap] = self.right[swap], self.left[swap]
        self.nodes = self.nodes[_reversing(self.node_offsets, flip)]


def describe(
    tin: Tin,
    walk: Walk,
    breaks: EdgeChange,
    kind: NDArray[np.int8],
    closed: NDArray[np.bool_],
    z_scale: float,
    unmeasured: Ints,
) -> BreakLines:
    """Give lines their direction and work out what is known about each.

    Parameters
    ----------
    tin
        The surface.
    walk
        At least one chain; turned in place.
    breaks
        The measured edges the walk's steps point at.
    kind : (n,) int8
        Kind of each line.
    closed : (n,) bool
        True for closed lines.
    z_scale
        Plan units in one vertical unit.
    unmeasured : (j,) int64
        Edges that could not be measured.

    Returns
    -------
    BreakLines
        In the order of the walk.
    """
    walk.turn(_against_the_rule(tin, walk, kind, closed, z_scale))
    change = np.abs(rise_sum(walk.left, walk.right))
    length = walk.total(walk.length)
    loose = np.zeros(len(tin.vertices), bool)
    loose[tin.edges.ends.take(unmeasured, 0)] = True
    first, last = walk.node_offsets[:-1], walk.node_offsets[1:] - 1
    return BreakLines(
        coordinates=tin.vertices.take(walk.nodes, 0),
        offsets=walk.node_offsets,
        edges=breaks.edges[walk.steps],
        kind=kind,
        change=_spread(walk, change),
        grade_left=_spread(walk, walk.left),
        grade_right=_spread(walk, walk.right),
        angle=walk.total(walk.angle * walk.length) / length,
        length=length,
        closed=closed,
        wall=walk.total(walk.wall),
        doubtful=loose[walk.nodes[first]] | loose[walk.nodes[last]],
        skipped=_middles(tin, unmeasured),
    )


def _middles(tin: Tin, edges: Ints) -> Floats:
    """Return the middle point of each edge, in the order of their coordinates, (j, 3)."""
    ends = tin.vertices.take(tin.edges.ends.take(edges, 0), 0)
    middles = (ends[:, 0] + ends[:, 1]) / 2
    return middles[np.lexsort(middles.T[::-1])]


def _against_the_rule(
    tin: Tin, walk: Walk, kind: NDArray[np.int8], closed: NDArray[np.bool_], z_scale: float
) -> NDArray[np.bool_]:
    """Tell which lines have to be reversed to run as the module says, (n,) bool."""
    length = walk.total(walk.length)

    def mean(rises: Floats) -> Floats:
        bounded = np.clip(rises, -NO_MEAN_BEYOND, NO_MEAN_BEYOND)
        return walk.total(bounded * walk.length) / length

    lean = mean(walk.right) - mean(walk.left)
    first, last = walk.node_offsets[:-1], walk.node_offsets[1:] - 1
    z = tin.vertices[:, 2]
    climb = (z[walk.nodes[last]] - z[walk.nodes[first]]) * z_scale / length
    clockwise = closed & (_doubled_area(tin, walk) < 0)
    one_way = (kind == KINDS.index(Kind.TOP)) | (kind == KINDS.index(Kind.TOE))
    runs = ~one_way & ~closed & (np.abs(climb) > LEVEL_GRADE)
    leans = ~runs & (one_way | (np.abs(lean) > LEVEL_GRADE))
    return np.where(runs, climb > 0, np.where(leans, lean > 0, clockwise))


def _doubled_area(tin: Tin, walk: Walk) -> Floats:
    """Return twice the signed plan area under each line when closed, (n,)."""
    plan = tin.vertices.take(walk.nodes, 0)[:, :2]
    plan -= np.repeat(plan[walk.node_offsets[:-1]], np.diff(walk.node_offsets), axis=0)
    cross = plan[:-1, 0] * plan[1:, 1] - plan[:-1, 1] * plan[1:, 0]
    # A line starts at its own origin: the product across two lines is zero.
    return np.add.reduceat(np.append(cross, 0.0), walk.node_offsets[:-1])


def _spread(walk: Walk, values: Floats) -> Spread:
    known = np.isfinite(values)
    weight = walk.total(np.where(known, walk.length, 0.0))
    none = weight == 0
    total = walk.total(np.where(known, values * walk.length, 0.0))
    starts = walk.offsets[:-1]
    low = np.minimum.reduceat(np.where(known, values, np.inf), starts)
    high = np.maximum.reduceat(np.where(known, values, -np.inf), starts)
    mean = np.divide(total, weight, out=np.full(len(weight), np.nan), where=~none)
    low[none] = high[none] = np.nan
    return Spread(mean, low, high)


def _reversing(offsets: Ints, flip: NDArray[np.bool_]) -> Ints:
    """Return the order that reverses the chosen runs ``offsets[i]:offsets[i + 1]``."""
    sizes = np.diff(offsets)
    mirror = np.repeat(offsets[:-1] + offsets[1:] - 1, sizes)
    order = np.arange(offsets[-1])
    return np.where(np.repeat(flip, sizes), mirror - order, order)
