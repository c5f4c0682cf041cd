"""The places of points and line vertices: one for all that lie close together.

A place has one height or, where what lies there disagrees about it, none: no one of two heights
is picked.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..weld import same_place

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

RING, LINE, POINT = 0, 1, 2
"""What a vertex belongs to. The lower says more: a boundary is never given up, and a line is
stated as a line while a point beside it may be a slip."""


@dataclass(frozen=True, eq=False)
class Given:
    """All vertices, of rings, lines and points, sorted so that nothing depends on their order.

    Parameters
    ----------
    xyz : (n, 3) float
        Finite, near the origin.
    kind : (n,) int
        `RING`, `LINE` or `POINT`.
    feature : (n,) int
        Id of the feature.
    """

    xyz: Floats
    kind: Ints
    feature: Ints


@dataclass(frozen=True)
class Clash:
    """Two heights in one place.

    Parameters
    ----------
    place : (float, float)
        Where.
    heights : (float, float)
        The lowest and the highest.
    features : (int, int)
        The features they are of.
    kinds : (int, int)
        What these are: `RING`, `LINE` or `POINT`.
    """

    place: tuple[float, float]
    heights: tuple[float, float]
    features: tuple[int, int]
    kinds: tuple[int, int]


@dataclass(eq=False)
class Places:
    """The places.

    Parameters
    ----------
    xyz : (p, 3) float
        Position, that of the vertex which says most (`RING` before `LINE` before `POINT`).
    kind, feature : (p,) int
        Of that vertex.
    disputed : (p,) bool
        Places at which lines, rings or, where there are none, points disagree about the height.
    of : (n,) int
        Place of each vertex.
    clashes : list of Clash
        One for each place at which vertices disagree.
    merged : int
        Points that are one with another point or vertex.
    largest_move : float
        Greatest plan distance from a vertex to its place.
    """

    xyz: Floats
    kind: Ints
    feature: Ints
    disputed: Flags
    of: Ints
    clashes: list[Clash]
    merged: int
    largest_move: float


def order_of(xyz: Floats, kind: Ints, feature: Ints) -> Ints:
    """Return an order of vertices that follows from what and where they are."""
    return np.lexsort((feature, xyz[:, 2], xyz[:, 1], xyz[:, 0], kind))


def find_places(given: Given, reach: float, same_height: float) -> Places:
    """Unite vertices that lie close to each other.

    Parameters
    ----------
    given : Given
        In the order of `order_of`.
    reach : float
        Plan distance up to which they are one.
    same_height : float
        Heights that differ by no more are one.
    """
    first = same_place(given.xyz[:, :2], reach)
    heads, of = np.unique(first, return_inverse=True)
    of = of.reshape(-1)
    move = np.hypot(*(given.xyz[:, :2] - given.xyz[first, :2]).T)
    z, is_point, kind = given.xyz[:, 2], given.kind == POINT, given.kind[heads]
    # Where there is a line, points beside it say nothing about its height.
    counts = ~is_point | (kind[of] == POINT)
    low, high = np.full(len(heads), np.inf), np.full(len(heads), -np.inf)
    np.minimum.at(low, of[counts], z[counts])
    np.maximum.at(high, of[counts], z[counts])
    disputed = high - low > same_height
    off = ~counts & ~disputed[of] & (np.abs(z - z[heads][of]) > same_height)
    clashes = []
    order = np.argsort(of, kind="stable")
    begin = np.searchsorted(of[order], np.arange(len(heads) + 1))
    for place in np.flatnonzero(disputed):
        rows = order[begin[place] : begin[place + 1]]
        clashes.append(_clash(given, heads[place], rows[counts[rows]]))
    clashes += [
        _clash(given, heads[of[row]], np.array([heads[of[row]], row]))
        for row in np.flatnonzero(off)
    ]
    own = is_point & ~disputed[of] & ~off
    return Places(
        given.xyz[heads].copy(),
        kind,
        given.feature[heads],
        disputed,
        of,
        clashes,
        int((own & (first != np.arange(len(first)))).sum()),
        float(move.max(initial=0.0)),
    )


def _clash(given: Given, head: int, rows: Ints) -> Clash:
    z = given.xyz[rows, 2]
    low, high = rows[z.argmin()], rows[z.argmax()]
    return Clash(
        (float(given.xyz[head, 0]), float(given.xyz[head, 1])),
        (float(z.min()), float(z.max())),
        (int(given.feature[low]), int(given.feature[high])),
        (int(given.kind[low]), int(given.kind[high])),
    )
