"""From a surface to its slope breaks."""

from collections.abc import Collection

import numpy as np
from numpy.typing import NDArray

from ..errors import UndercourseError
from ..progress import Progress, part, silent
from ..text import translate
from ..tin import Tin
from .chains import Chains, chain
from .change import EdgeChange, Measure, measure_edges, steep_edges
from .kinds import KINDS, Kind, classify
from .lines import BreakLines, Walk, describe, no_lines


def find_breaks(
    tin: Tin,
    minimum: float,
    *,
    measure: Measure = Measure.GRADE,
    kinds: Collection[Kind] = KINDS,
    min_length: float = 0.0,
    z_scale: float = 1.0,
    progress: Progress = silent,
) -> BreakLines:
    """Find the lines along which the slope of a surface changes.

    An edge between two faces is a break where the slope changes by at least ``minimum`` (see
    `change`). Breaks of one kind are joined to lines that end at junctions, that is at vertices
    where the number of breaks of any kind is not two, and where the kind changes. ``kinds`` and
    ``min_length`` choose among whole lines: they do not alter the lines that stay.

    Parameters
    ----------
    tin
        The surface.
    minimum
        Smallest slope change: a ratio (0.02 is 2 %), or an angle in radians, by ``measure``.
    measure
        What ``minimum`` is given in.
    kinds
        Kinds to return.
    min_length
        Smallest plan length of a line.
    z_scale
        Plan units in one vertical unit.
    progress
        Called with the share done.

    Returns
    -------
    BreakLines
        Sorted by the smaller end of each line (x, then y, then z); the same for any order of the
        faces or vertices.

    Raises
    ------
    UndercourseError
        ``minimum`` is not above zero, or is an angle of 180 degrees or more.
    """
    if not minimum > 0 or (measure is Measure.ANGLE and minimum >= np.pi):
        raise UndercourseError(
            translate(
                "Core",
                "The smallest slope change must be above 0 and, as an angle, below 180 degrees.",
            )
        )
    candidates = steep_edges(tin, minimum, measure, z_scale, part(progress, 0.0, 0.4))
    candidates = np.setdiff1d(candidates, tin.edges.nonmanifold, assume_unique=True)
    breaks = measure_edges(tin, candidates, z_scale, part(progress, 0.4, 0.7))
    unmeasured = np.concatenate((tin.edges.nonmanifold, breaks.edges[breaks.unknown]))
    breaks = breaks.take(breaks.reaches(minimum, measure))
    if not len(breaks.edges):
        return no_lines(tin, unmeasured)
    numbers, count = _numbered_by_place(tin, breaks.ends)
    progress(0.75)
    # Edges run from the smaller to the larger node from here on, whatever the vertex numbers.
    breaks = breaks.turned(numbers[:, 0] > numbers[:, 1])
    kind = classify(breaks.rise_left, breaks.rise_right)
    chains = chain(np.sort(numbers, axis=1), kind, count)
    progress(0.85)
    chains, kind = _chosen(chains, kind, breaks, kinds, min_length)
    if not len(chains.closed):
        return no_lines(tin, unmeasured)
    walk = Walk.along(chains, breaks)
    progress(0.9)
    lines = describe(tin, walk, breaks, kind, chains.closed, z_scale, unmeasured)
    progress(1.0)
    return lines


def _numbered_by_place(tin: Tin, ends: NDArray[np.int64]) -> tuple[NDArray[np.int64], int]:
    """Return the ends as numbers that follow the order of x, y and z, and how many there are."""
    used = np.zeros(len(tin.vertices), bool)
    used[ends] = True
    nodes = np.flatnonzero(used)
    x, y, z = tin.vertices.take(nodes, 0).T
    number = np.empty(len(used), np.int64)
    number[nodes[np.lexsort((z, y, x))]] = np.arange(len(nodes))
    return number[ends], len(nodes)


def _chosen(
    chains: Chains,
    kind: NDArray[np.int8],
    breaks: EdgeChange,
    kinds: Collection[Kind],
    min_length: float,
) -> tuple[Chains, NDArray[np.int8]]:
    """Return the chains of the wanted kinds and length, and the kind of each."""
    starts = chains.offsets[:-1]
    line_kind = kind[chains.darts[starts] >> 1]
    wanted = np.array([each in kinds for each in KINDS])
    length = np.add.reduceat(breaks.length[chains.darts >> 1], starts)
    kept = wanted[line_kind] & (length >= min_length)
    sizes = np.diff(chains.offsets)
    return (
        Chains(
            chains.darts[np.repeat(kept, sizes)],
            np.concatenate(([0], np.cumsum(sizes[kept]))),
            chains.closed[kept],
        ),
        line_kind[kept],
    )
