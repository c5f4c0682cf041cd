"""From a surface to its slope breaks."""

from collections.abc import Collection
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..errors import UndercourseError
from ..progress import Progress, part, silent
from ..text import translate
from ..tin import Tin
from .chains import chain
from .change import WALL_GRADE, EdgeChange, Measure, measure_edges, steep_edges
from .gaps import bridges
from .junctions import straight_on
from .kinds import BREAK_KINDS, KINDS, Kind
from .lines import BreakLines, describe, no_lines
from .patches import Patches
from .rim import rim
from .smoothing import smoothed_gradients
from .support import patch_borders
from .walk import Walk

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True)
class Search:
    """What is looked for.

    Parameters
    ----------
    minimum
        Slope change that a line must reach somewhere: a ratio (0.02 is 2 %), or an angle in
        radians, by ``measure``.
    keep
        Slope change down to which the line goes on; None = ``minimum``.
    measure
        What both are given in.
    support
        Width over which slopes are taken, plan units; 0 = face by face.
    gap
        Longest gap that is bridged, plan units.
    kinds
        Kinds to return; with ``edge`` the outline of the surface comes along.
    min_length
        Smallest plan length of a line.
    z_scale
        Plan units in one vertical unit.
    smoothing
        How many times slopes are smoothed before faces are compared; see `smoothing`. Of no use
        with ``support``.
    """

    minimum: float
    keep: float | None = None
    measure: Measure = Measure.GRADE
    support: float = 0.0
    gap: float = 0.0
    kinds: Collection[Kind] = BREAK_KINDS
    min_length: float = 0.0
    z_scale: float = 1.0
    smoothing: int = 0

    @property
    def least(self) -> float:
        """Slope change down to which lines go on."""
        return self.minimum if self.keep is None else min(self.keep, self.minimum)

    def grade(self, change: float) -> float:
        """Return a slope change, given as ``measure`` says, as a ratio."""
        return change if self.measure is Measure.GRADE else float(np.tan(change))

    def check(self) -> None:
        """Refuse thresholds that mean nothing.

        Raises
        ------
        UndercourseError
            One is not above zero, or is an angle of 180 degrees or more.
        """
        angle = self.measure is Measure.ANGLE
        if not self.least > 0 or (angle and self.minimum >= np.pi):
            raise UndercourseError(
                translate(
                    "Core",
                    "The smallest slope change must be above 0 and, as an angle, below 180 degrees.",
                )
            )


@dataclass(frozen=True)
class Found:
    """What was found.

    Parameters
    ----------
    lines
        The breaks.
    patches
        The patches between them; None where slopes were taken face by face.
    points : (n, 3) float
        Places of the surface's vertices, zig-zags of borders straightened.
    """

    lines: BreakLines
    patches: Patches | None
    points: Floats


def find_breaks(tin: Tin, search: Search, progress: Progress = silent) -> Found:
    """Find the lines along which the slope of a surface changes.

    An edge is a break where the slope changes by at least ``keep``: between its two faces (see
    `change`), or with a ``support`` between the planes of the patches on both sides (see
    `support`). Breaks of one sense (convex or concave) are joined to lines that go straight on at
    junctions; lines that nowhere reach ``minimum`` are dropped, and the others are split where
    their kind really changes. ``kinds`` and ``min_length`` choose among whole lines: they do not
    alter the lines that stay.

    Parameters
    ----------
    tin
        The surface.
    search
        What is looked for.
    progress
        Called with the share done.

    Returns
    -------
    Found
        Lines sorted by the smaller end of each (x, then y, then z), after them the outlines; the
        same for any order of the faces or vertices.

    Raises
    ------
    UndercourseError
        A threshold is not above zero, or is an angle of 180 degrees or more.
    """
    search.check()
    edges = _edges(tin, search, part(progress, 0.0, 0.75))
    lines = _lines(tin, edges, search, part(progress, 0.75, 1.0))
    if Kind.EDGE in search.kinds:
        lines = lines.and_also(rim(tin, search.z_scale, search.min_length))
    return Found(lines, edges.patches, edges.points)


@dataclass(frozen=True)
class _Edges:
    """Edges that may be part of a line."""

    breaks: EdgeChange
    sure: NDArray[np.bool_]
    points: Floats
    patches: Patches | None
    unmeasured: Ints


def _edges(tin: Tin, search: Search, progress: Progress) -> _Edges:
    least, measure, z_scale = search.least, search.measure, search.z_scale
    crowded = tin.quick_edges.nonmanifold
    if search.support > 0:
        grade = search.grade(least)
        borders = patch_borders(tin, grade, search.support, z_scale, progress)
        found, patches, points = borders.edges, borders.patches, borders.points
        sure = np.abs(found.change) - 2.0 * borders.error >= grade
    else:
        slopes = tin.gradients
        if search.smoothing > 0:
            share, progress = part(progress, 0.0, 0.6), part(progress, 0.6, 1.0)
            change = search.grade(search.minimum)
            slopes = smoothed_gradients(tin, change, search.smoothing, z_scale, share)
        share = part(progress, 0.0, 0.6)
        candidates = steep_edges(tin, least, measure, z_scale, share, slopes)
        candidates = np.setdiff1d(candidates, crowded, assume_unique=True)
        found = measure_edges(tin, candidates, z_scale, part(progress, 0.6, 1.0), slopes)
        found = found.take(~_inside_a_wall(tin, found, z_scale))
        patches, points = None, tin.vertices
        sure = np.ones(len(found.edges), bool)
    unmeasured = np.concatenate((crowded, found.edges[found.unknown]))
    kept = found.reaches(least, measure)
    return _Edges(found.take(kept), sure[kept], points, patches, unmeasured)


def _inside_a_wall(tin: Tin, edges: EdgeChange, z_scale: float) -> NDArray[np.bool_]:
    """Tell which edges lie between two faces of one wall, (k,) bool.

    A wall has two lines, along its top and its foot. What runs down it where it turns is shorter
    in plan than anybody could draw, and at the diagonals of its faces, a few hundredths of an inch
    wide, grades differ by rounding: one side rises there and the other falls.
    """
    asked = np.flatnonzero(edges.wall)
    gradient = tin.gradients[tin.quick_edges.halves[edges.edges[asked]] // 3] * z_scale
    both = ~(np.hypot(gradient[:, :, 0], gradient[:, :, 1]) <= WALL_GRADE).any(axis=1)
    height = np.abs(np.diff(tin.vertices[edges.ends[asked], 2], axis=1)[:, 0]) * z_scale
    down = height > WALL_GRADE * edges.length[asked]
    onward = np.sign(edges.rise_left[asked]) * np.sign(edges.rise_right[asked]) < 0
    inside = np.zeros(len(edges.edges), bool)
    inside[asked] = both & (down | onward)
    return inside


def _lines(tin: Tin, edges: _Edges, search: Search, progress: Progress) -> BreakLines:
    """Return the edges as lines that reach the threshold and are wanted."""
    if not len(edges.breaks.edges):
        return no_lines(tin, edges.unmeasured)
    walk, breaks = _joined(tin, edges.breaks, edges.points)
    sure = edges.sure
    if search.gap > 0:
        more = bridges(edges.points, walk, search.gap)
        if more is not None:
            walk, breaks = _joined(tin, breaks.and_also(more), edges.points)
            sure = np.append(sure, np.zeros(len(more.edges), bool))
    progress(0.4)
    strong = breaks.reaches(search.minimum, search.measure) & (breaks.edges >= 0)
    reached = walk.total(strong[walk.steps].astype(float)) > 0
    walk, kind = walk.take(np.flatnonzero(reached)).split_by_kind(search.support)
    wanted = np.array([each in search.kinds for each in KINDS])
    kept = wanted[kind] & (walk.total(walk.length) >= search.min_length)
    if not kept.any():
        return no_lines(tin, edges.unmeasured)
    walk, kind = walk.take(np.flatnonzero(kept)), kind[kept]
    progress(0.6)
    lines = describe(tin, edges.points, walk, breaks, kind, sure, search.z_scale, edges.unmeasured)
    progress(1.0)
    return lines


def _joined(tin: Tin, breaks: EdgeChange, points: Floats) -> tuple[Walk, EdgeChange]:
    """Return lines of one sense through the edges, and the edges as they run in them."""
    numbers, nodes = _numbered_by_place(tin, breaks.ends)
    # Edges run from the smaller to the larger node from here on, whatever the vertex numbers.
    breaks = breaks.turned(numbers[:, 0] > numbers[:, 1])
    numbers = np.sort(numbers, axis=1)
    sense = (breaks.change > 0).astype(np.int8)
    onward = straight_on(numbers, sense, points[nodes, :2], len(nodes))
    return Walk.along(chain(numbers, sense, len(nodes), onward), breaks), breaks


def _numbered_by_place(tin: Tin, ends: Ints) -> tuple[Ints, Ints]:
    """Return the ends as numbers that follow the order of x, y and z, and the vertices in it."""
    used = np.zeros(len(tin.vertices), bool)
    used[ends] = True
    nodes = np.flatnonzero(used)
    x, y, z = tin.vertices.take(nodes, 0).T
    nodes = nodes[np.lexsort((z, y, x))]
    number = np.empty(len(used), np.int64)
    number[nodes] = np.arange(len(nodes))
    return number[ends], nodes
