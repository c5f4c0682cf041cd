"""Joining nodes so that faces that the move turns over disappear.

When a surface moves, faces can shrink to nothing: the flat top between two slopes, the bottom of a
narrow ditch. Their planes are then no part of the result. Such a face is taken out by joining two
of its nodes; the node that is left meets the planes that remain around both.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...runs import count_up
from .mitre import Freedom, Rows, meet
from .sheet import Sheet, plan_widths

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_PAIRS_AT_ONCE = 20_000


def join_folds(sheet: Sheet, folds: Ints) -> Ints:
    """Join nodes of folded faces where that leaves fewer of them.

    Where nothing does, nodes that have passed each other are joined all the same: a narrow shape
    may have to lose several faces before what is left of it fits.

    Of the joins that are possible those come first that miss no plane, then those of nodes that
    have passed each other; joins that touch the same node wait for another time.

    Parameters
    ----------
    sheet : Sheet
        Changed in place: nodes, and moves of the nodes that are left and of those around them.
    folds : (f,) int
        Folded faces.

    Returns
    -------
    (k,) int
        Nodes that may have moved; none when nothing could be joined.
    """
    gone, left = _pairs(sheet, folds)
    if not len(gone):
        return gone
    folded = np.zeros(len(sheet.nodes), dtype=bool)
    folded[folds] = True
    flagged = np.zeros(len(sheet.home), dtype=bool)
    flagged[gone] = flagged[left] = True
    stars = _Stars(*sheet.stars(flagged), len(sheet.home))
    places = sheet.places
    for bold in (False, True):
        parts = []
        for begin in range(0, len(gone), _PAIRS_AT_ONCE):
            some = slice(begin, begin + _PAIRS_AT_ONCE)
            parts.append(_judge(sheet, stars, folded, places, gone[some], left[some], bold))
        joins = _Joins.all_of(parts)
        if len(joins.gone):
            break
    if not len(joins.gone):
        return joins.gone
    chosen, touched = joins.apart(len(sheet.home))
    _join(sheet, joins, chosen)
    changed = np.zeros(len(sheet.home), dtype=bool)
    changed[touched] = True
    sheet.solve(changed, folded)
    return touched


@dataclass(frozen=True, eq=False)
class _Stars:
    """Corners about nodes."""

    nodes: Ints
    start: Ints
    corner: Ints
    count: int

    def of(self, nodes: Ints) -> tuple[Ints, Ints]:
        """Return for each corner about the nodes given its row among them, and the corner."""
        place = np.searchsorted(self.nodes, nodes)
        size = self.start[place + 1] - self.start[place]
        row = np.repeat(np.arange(len(nodes)), size)
        within = count_up(size)
        return row, self.corner[self.start[place][row] + within]


@dataclass(frozen=True, eq=False)
class _Joins:
    """Joins that may be made.

    Parameters
    ----------
    gone, left : (k,) int
        The node that goes and the one that stays.
    missed : (k,) float
        Distance by which planes are then missed; zero where it does not matter.
    ratio : (k,) float
        Distance of the nodes after the move over that before, negative when they have passed.
    row, touched : (i,) int
        Nodes whose faces change, and the join they belong to.
    """

    gone: Ints
    left: Ints
    missed: Floats
    ratio: Floats
    row: Ints
    touched: Ints

    @staticmethod
    def all_of(parts: list["_Joins"]) -> "_Joins":
        offset = np.cumsum([0] + [len(p.gone) for p in parts])
        return _Joins(
            np.concatenate([p.gone for p in parts]),
            np.concatenate([p.left for p in parts]),
            np.concatenate([p.missed for p in parts]),
            np.concatenate([p.ratio for p in parts]),
            np.concatenate([p.row + begin for p, begin in zip(parts, offset, strict=False)]),
            np.concatenate([p.touched for p in parts]),
        )

    def apart(self, count: int) -> tuple[Ints, Ints]:
        """Choose the best joins that touch no node twice; return them and the nodes touched."""
        rank = np.empty(len(self.gone), dtype=np.int64)
        rank[np.lexsort((self.left, self.gone, self.ratio, self.missed))] = np.arange(len(rank))
        best = np.full(count, len(rank), dtype=np.int64)
        order = np.argsort(-rank[self.row], kind="stable")  # the lowest rank is written last
        best[self.touched[order]] = rank[self.row[order]]
        beaten = np.zeros(len(rank), dtype=bool)
        beaten[self.row[best[self.touched] != rank[self.row]]] = True
        return np.flatnonzero(~beaten), np.unique(self.touched[~beaten[self.row]])


def _pairs(sheet: Sheet, folds: Ints) -> tuple[Ints, Ints]:
    """Return the pairs of nodes of faces, both ways, of which the first may go."""
    nodes = sheet.nodes[folds]
    one = np.concatenate([nodes[:, k] for k in (0, 1, 2, 1, 2, 0)])
    other = np.concatenate([nodes[:, k] for k in (1, 2, 0, 0, 1, 2)])
    free, bound = sheet.freedom[one], sheet.freedom[other]
    may = (free == Freedom.FREE) | ((free == Freedom.ALONG) & (bound != Freedom.FREE))
    count = len(sheet.home)
    key = np.unique(one[may] * count + other[may])
    return key // count, key % count


def _judge(
    sheet: Sheet,
    stars: _Stars,
    folded: Flags,
    places: Floats,
    gone: Ints,
    left: Ints,
    bold: bool,
) -> _Joins:
    """Return those of the joins that may be made and leave fewer folds.

    When bold, also those of nodes that have passed each other, whatever that folds.
    """
    count = len(gone)
    row, corner, from_gone = _both_stars(stars, gone, left)
    face = corner // 3
    ring = np.column_stack([sheet.nodes[face, (corner + step) % 3] for step in (1, 2)])
    mate = np.where(from_gone, left[row], gone[row])
    between = (ring == mate[:, None]).any(axis=1)
    shared = np.bincount(row[between & from_gone], minlength=count)
    possible = _fits(row, ring, from_gone, gone, left, shared)
    possible &= (sheet.freedom[gone] == Freedom.FREE) == (shared == 2)
    keep = ~between
    possible &= np.bincount(row[keep], minlength=count) > 0
    # Where nothing has moved yet the faces must still fit, so that moves can be taken back.
    swing = keep & from_gone
    home = sheet.home[:, :2]
    width = plan_widths(home[left[row[swing]]], home[ring[swing, 0]], home[ring[swing, 1]])
    bad = width < sheet.floor[face[swing]]
    possible[row[swing][bad]] = False
    # The rest is worked out for these only.
    chosen = np.flatnonzero(possible)
    number = np.full(count, -1, dtype=np.int64)
    number[chosen] = np.arange(len(chosen))
    pick = possible[row]
    row, corner, face, ring, keep = (
        number[row[pick]],
        corner[pick],
        face[pick],
        ring[pick],
        keep[pick],
    )
    between, from_gone = between[pick], from_gone[pick]
    gone, left = gone[chosen], left[chosen]
    if not len(gone):
        none = np.empty(0, dtype=np.int64)
        return _Joins(none, none, np.empty(0), np.empty(0), none, none)
    move, missed = _solve(sheet, row[keep], corner[keep], folded, left)
    place = home[left] + move[:, :2]
    after = plan_widths(place[row[keep]], places[ring[keep, 0]], places[ring[keep, 1]])
    after_folds = np.bincount(row[keep][after < sheet.floor[face[keep]]], minlength=len(gone))
    once = keep | from_gone
    before_folds = np.bincount(row[once & folded[face]], minlength=len(gone))
    apart, now = home[left] - home[gone], places[left] - places[gone]
    square = np.maximum(np.einsum("ij,ij->i", apart, apart), 1e-300)
    ratio = np.einsum("ij,ij->i", apart, now) / square
    good = after_folds < before_folds
    if bold:
        good |= ratio < 0.0
    missed = np.where(missed <= sheet.limits.rough, 0.0, missed)
    number = np.cumsum(good) - 1
    pick = good[row]
    row, ring = row[pick], ring[pick]
    joins = np.arange(int(good.sum()))
    return _Joins(
        gone[good],
        left[good],
        missed[good],
        ratio[good],
        np.concatenate((number[row], number[row], joins, joins)),
        np.concatenate((ring[:, 0], ring[:, 1], gone[good], left[good])),
    )


def _both_stars(stars: _Stars, gone: Ints, left: Ints) -> tuple[Ints, Ints, Flags]:
    row_gone, corner_gone = stars.of(gone)
    row_left, corner_left = stars.of(left)
    row = np.concatenate((row_gone, row_left))
    corner = np.concatenate((corner_gone, corner_left))
    from_gone = np.zeros(len(row), dtype=bool)
    from_gone[: len(row_gone)] = True
    order = np.argsort(row, kind="stable")
    return row[order], corner[order], from_gone[order]


def _fits(row: Ints, ring: Ints, from_gone: Flags, gone: Ints, left: Ints, shared: Ints) -> Flags:
    """Tell which pairs have no neighbours in common but those across their own faces.

    Otherwise the join would fold the mesh upon itself.
    """
    width = int(max(ring.max(), gone.max(), left.max())) + 1
    spread = np.concatenate((row, row))
    key = spread * width + np.concatenate((ring[:, 0], ring[:, 1]))
    own = np.concatenate((from_gone, from_gone))
    common = np.intersect1d(np.unique(key[own]), np.unique(key[~own]), assume_unique=True)
    return np.bincount(common // width, minlength=len(gone)) == shared


def _solve(
    sheet: Sheet, row: Ints, corner: Ints, folded: Flags, left: Ints
) -> tuple[Floats, Floats]:
    """Return the moves of joined nodes, and the distance by which they miss planes.

    Planes of folded faces, which are going to disappear, do not count, if there are others.
    """
    start = np.searchsorted(row, np.arange(len(left) + 1))
    counts = ~folded[corner // 3]
    lost = np.add.reduceat(counts.astype(np.int64), start[:-1]) == 0
    counts |= lost[row]
    rows: Rows = sheet.rows(start, corner, sheet.home[left], counts)
    thickness = sheet.thickness[corner[start[:-1]] // 3]
    return meet(rows, sheet.freedom[left], sheet.along[left], thickness, sheet.limits)


def _join(sheet: Sheet, joins: _Joins, chosen: Ints) -> None:
    gone, left = joins.gone[chosen], joins.left[chosen]
    sheet.joined[gone] = left
    sheet.heads[left] = True
    flagged = np.zeros(len(sheet.home), dtype=bool)
    flagged[gone] = True
    faces = sheet.touching(flagged)
    nodes = sheet.joined[sheet.nodes[faces]]
    sheet.nodes[faces] = nodes
    flat = (nodes == np.roll(nodes, 1, axis=1)).any(axis=1)
    sheet.alive[faces[flat]] = False
