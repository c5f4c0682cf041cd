"""Splitting faces where facets begin, end, and meet the surface or each other.

Each face begins as one cell with all facets that reach it. In every round each cell is split by
one straight line: by a ray of the middle one of its facets, or, where that facet lies over all of
the cell, by the line in which it meets what is lowest there so far. Facets that are nowhere lowest
drop out. Nodes within a tiny distance of a line count as on it, so that no needles arise.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ...progress import Progress
from .cells import DESIGN, LOW, PLAN, Cells, insert, spans, whole_faces
from .facets import Facets, at
from .flood import Reached
from .ground import Ground
from .splits import Splits, edge_keys

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

_RAY_FIRST, _RAY_LAST, _MEET, _COVER = range(4)


@dataclass(eq=False)
class _State:
    """Cells at work and their pending facets.

    Parameters
    ----------
    cells : Cells
        The cells.
    slope : (c, 2) float
        Gradient of what is lowest in each.
    cell, facet : (p,) int
        Pairs, by cell and along the outlines.
    """

    cells: Cells
    slope: Floats
    cell: Ints
    facet: Ints


@dataclass(frozen=True, eq=False)
class _Choice:
    """The line each cell is split by.

    Parameters
    ----------
    pair : (c,) int
        Chosen pair.
    kind : (c,) int
        Which line.
    off : (r,) float
        Distance of each entry from the line, 0 within tolerance.
    """

    pair: Ints
    kind: Ints
    off: Floats


def split_faces(
    ground: Ground, facets: Facets, reached: Reached, progress: Progress
) -> tuple[list[Cells], Splits, int]:
    """Split faces by facets.

    Returns
    -------
    cells : list of Cells
        All cells, with the facet that is lowest in each.
    splits : Splits
        Nodes on edges; cells done early may lack those made later.
    left : int
        Splits that were not made because a cell was too crooked.
    """
    work = _Splitter(ground, facets)
    return work.run(reached, progress)


class _Splitter:
    def __init__(self, ground: Ground, facets: Facets) -> None:
        self.ground, self.facets = ground, facets
        self.count = len(ground.xy)
        self.crooked = 0
        self.splits: list[Splits] = []
        self.first, self.last, self.plane = (
            np.ascontiguousarray(lines.T) for lines in (facets.first, facets.last, facets.plane)
        )

    def run(self, reached: Reached, progress: Progress) -> tuple[list[Cells], Splits, int]:
        ground = self.ground
        rank = np.empty(len(self.facets), dtype=np.int64)
        rank[np.argsort(self.facets.place, kind="stable")] = np.arange(len(rank))
        order = np.argsort(reached.face * len(rank) + rank[reached.facet])
        face = reached.face[order]
        fresh = np.append(True, face[1:] != face[:-1])[: len(face)]
        faces, cell = face[fresh], np.cumsum(fresh) - 1
        state = _State(
            whole_faces(ground, faces),
            ground.slopes[faces],
            cell,
            reached.facet[order],
        )
        done: list[Cells] = []
        left = 1.0
        while len(state.cell):
            left *= 0.8
            progress(1.0 - left)
            state, choice = self._choose(state)
            state = self._cover(state, choice)
            state = self._divide(state, choice, done)
        return done, self._all_splits(), self.crooked

    def _all_splits(self) -> Splits:
        key = np.concatenate([one.key for one in self.splits] + [np.empty(0, dtype=np.int64)])
        order = np.argsort(key, kind="stable")
        node = np.concatenate([one.node for one in self.splits] + [key[:0]])
        share = np.concatenate([one.share for one in self.splits] + [np.empty(0)])
        return Splits(key[order], node[order], share[order])

    def _plane_slope(self, cell_face: Ints, facet: Ints) -> Floats:
        slope = self.facets.plane[facet, :2]
        if self.ground.follow:
            slope = slope + self.ground.rises[cell_face]
        return slope

    def _choose(self, state: _State) -> tuple[_State, _Choice]:
        """Drop facets that are nowhere lowest; choose a facet and a line for each cell."""
        eps, cells = self.ground.eps, state.cells
        entry, begin = spans(cells.start, state.cell)
        sizes = np.diff(begin)
        row = np.repeat(np.arange(len(sizes)), sizes)
        facet = state.facet[row]
        x, y, low, design = np.ascontiguousarray(cells.values[:, : DESIGN + 1].T).take(
            entry, axis=1
        )

        def over(columns: Floats) -> Floats:
            a, b, c = columns.take(facet, axis=1)
            a *= x
            b *= y
            a += b
            a += c
            return a

        first, last = over(self.first), over(self.last)
        first[np.abs(first) <= eps] = 0.0
        last[np.abs(last) <= eps] = 0.0
        below = over(self.plane) - low
        if self.ground.follow:
            below += design
        steep = self._plane_slope(cells.face[state.cell], state.facet) - state.slope[state.cell]
        steep = np.hypot(*steep.T)
        least = self.ground.noise + eps * steep
        below[np.abs(below) <= least[row]] = 0.0
        lowest = self._lowest(first, last, below, begin)
        head = begin[:-1]
        most_first = np.maximum.reduceat(first, head)
        most_last = np.maximum.reduceat(last, head)
        keep = (most_first > 0) & (most_last > 0) & (lowest < -least)
        rows = np.flatnonzero(keep)
        cell = state.cell[rows]
        start = np.flatnonzero(np.append(True, cell[1:] != cell[:-1])[: len(cell)])
        count = np.diff(np.append(start, len(cell)))
        middle = rows[start + count // 2]
        pair = np.full(len(cells), -1, dtype=np.int64)
        pair[state.cell[middle]] = start + count // 2
        kind = np.full(len(cells), _COVER, dtype=np.int64)
        off = np.zeros(len(cells.node))
        spread, inner = spans(begin, middle)
        first, last, below, inner_head = first[spread], last[spread], below[spread], inner[:-1]
        chosen = np.select(
            [
                np.minimum.reduceat(first, inner_head) < 0,
                np.minimum.reduceat(last, inner_head) < 0,
                np.maximum.reduceat(below, inner_head) > 0,
            ],
            [_RAY_FIRST, _RAY_LAST, _MEET],
            _COVER,
        )
        kind[state.cell[middle]] = chosen
        which = np.repeat(chosen, np.diff(inner))
        scale = np.repeat(np.where(steep[middle] > 0, steep[middle], 1.0), np.diff(inner))
        off[entry[spread]] = np.select(
            [which == _RAY_FIRST, which == _RAY_LAST, which == _MEET],
            [first, last, below / scale],
            0.0,
        )
        return (
            _State(cells, state.slope, cell, state.facet[rows]),
            _Choice(pair, kind, off),
        )

    @staticmethod
    def _lowest(first: Floats, last: Floats, below: Floats, begin: Ints) -> Floats:
        """Return the least of ``below`` over each cell between the rays."""
        after = np.arange(1, len(first) + 1)
        after[begin[1:] - 1] = begin[:-1]
        value = np.where((first >= 0) & (last >= 0), below, np.inf)
        for ray, other in ((first, last), (last, first)):
            crossed = np.flatnonzero(ray * ray[after] < 0)
            to = after[crossed]
            share = ray[crossed] / (ray[crossed] - ray[to])
            beside = other[crossed] + share * (other[to] - other[crossed])
            here = below[crossed] + share * (below[to] - below[crossed])
            value[crossed] = np.minimum(value[crossed], np.where(beside >= 0, here, np.inf))
        return np.minimum.reduceat(value, begin[:-1])

    def _cover(self, state: _State, choice: _Choice) -> _State:
        """Lower cells over all of which their facet is lowest."""
        cells = state.cells
        rows = np.flatnonzero((choice.pair >= 0) & (choice.kind == _COVER))
        facet = state.facet[choice.pair[rows]]
        cells.facet[rows] = facet
        state.slope[rows] = self._plane_slope(cells.face[rows], facet)
        entry, begin = spans(cells.start, rows)
        cells.values[entry, LOW] = self._heights(
            cells.values[entry], np.repeat(facet, np.diff(begin))
        )
        return state

    def _heights(self, values: Floats, facet: Ints) -> Floats:
        height = at(self.facets.plane[facet], values[:, PLAN])
        return height + values[:, DESIGN] if self.ground.follow else height

    def _divide(self, state: _State, choice: _Choice, done: list[Cells]) -> _State:
        """Divide the other cells along their lines; put those without pending facets aside."""
        cells, own_node = self._new_nodes(state.cells, choice)
        cells, made = insert(cells, self.splits[-1])
        off = np.zeros(len(cells.node))
        off[made.place] = choice.off
        after = state.cells.next[made.before]
        start, stop = choice.off[made.before], choice.off[after]
        off[made.at] = start + made.share * (stop - start)
        off[made.at[cells.node[made.at] == own_node[made.before]]] = 0.0
        wanted = (choice.pair >= 0) & (choice.kind != _COVER)
        rows = np.flatnonzero(wanted)
        leave, enter, fit = _ends(cells, off, rows)
        self.crooked += int(np.count_nonzero(~fit))
        rows, leave, enter = rows[fit], leave[fit], enter[fit]
        kind, facet = choice.kind[rows], state.facet[choice.pair[rows]]
        whole = np.ones(len(cells), dtype=bool)
        whole[rows] = False
        others = np.flatnonzero(whole)
        cell, pending = _settle(state, choice, others, rows, kind != _MEET)
        busy = np.zeros(len(others) + 2 * len(rows), dtype=bool)
        busy[cell] = True
        number = np.cumsum(busy) - 1
        stay, front, back = np.split(busy, (len(others), len(others) + len(rows)))
        meets = kind == _MEET
        parts = []
        for wanted in (False, True):
            here = np.flatnonzero(back == wanted)
            lower = _half(cells, rows[here], leave[here], enter[here])
            self._lower(lower, np.flatnonzero(meets[here]), facet[here][meets[here]])
            here = np.flatnonzero(front == wanted)
            upper = _half(cells, rows[here], enter[here], leave[here])
            parts.append([cells.take(others[stay == wanted]), upper, lower])
        done.extend(parts[0])
        slope = state.slope[rows]
        behind = slope.copy()
        behind[meets] = self._plane_slope(cells.face[rows[meets]], facet[meets])
        return _State(
            Cells.joined(parts[1]),
            np.concatenate((state.slope[others[stay]], slope[front], behind[back])),
            number[cell],
            pending,
        )

    def _lower(self, cells: Cells, rows: Ints, facet: Ints) -> None:
        """Lower halves to their facet; the ends of the line they were cut by stay as they are."""
        cells.facet[rows] = facet
        entry, begin = spans(cells.start, rows)
        inner = np.ones(len(entry), dtype=bool)
        inner[begin[:-1]] = inner[begin[1:] - 1] = False
        lowered = np.repeat(facet, np.diff(begin))[inner]
        entry = entry[inner]
        cells.values[entry, LOW] = self._heights(cells.values[entry], lowered)

    def _new_nodes(self, cells: Cells, choice: _Choice) -> tuple[Cells, Ints]:
        """Make nodes where lines cross edges; return the own node of the edge after each entry."""
        after = cells.next
        entry = np.flatnonzero(choice.off * choice.off[after] < 0)
        to = after[entry]
        key = edge_keys(cells.node[entry], cells.node[to])
        share = choice.off[entry] / (choice.off[entry] - choice.off[to])
        share = np.where(cells.node[entry] < cells.node[to], share, 1.0 - share)
        order = np.argsort(key, kind="stable")
        key, share = key[order], share[order]
        if ((key[1:] == key[:-1]) & (share[1:] < share[:-1])).any():
            within = np.lexsort((share, key))
            order, key, share = order[within], key[within], share[within]
        length = np.hypot(*(cells.values[to, PLAN] - cells.values[entry, PLAN])[order].T)
        fresh = np.ones(len(order), dtype=bool)
        fresh[1:] = (key[1:] != key[:-1]) | (
            (share[1:] - share[:-1]) * length[1:] > self.ground.eps
        )
        node = self.count + np.cumsum(fresh) - 1
        own = np.full(len(cells.node), -1, dtype=np.int64)
        own[entry[order]] = node
        self.count += int(np.count_nonzero(fresh))
        self.splits.append(Splits(key[fresh], node[fresh], share[fresh]))
        return cells, own


def _ends(cells: Cells, off: Floats, rows: Ints) -> tuple[Ints, Ints, Flags]:
    """Find where a line leaves and enters the positive part of each of some convex cells.

    Returns
    -------
    leave, enter : (c,) int
        Entries on the line.
    fit : (c,) bool
        There is one of each.
    """
    entry, begin = spans(cells.start, rows)
    sign = np.sign(off[entry]).astype(np.int64)
    size = np.diff(begin)
    owner = np.repeat(np.arange(len(rows)), size)
    clear = np.flatnonzero(sign)
    number = owner[clear]
    follows = np.roll(np.arange(len(clear)), -1)
    last = np.flatnonzero(np.append(number[1:] != number[:-1], True)[: len(number)])
    head = np.append(0, last[:-1] + 1)[: len(last)]
    follows[last] = head
    turns = np.flatnonzero(sign[clear] != sign[clear[follows]])
    origin, target = clear[turns], clear[follows[turns]]
    cell = owner[origin]
    between = (target - origin - 1) % size[cell]
    best = np.full(len(turns), np.inf)
    where = np.full(len(turns), -1, dtype=np.int64)
    for step in range(1, int(between.max(initial=0)) + 1):
        at_step = begin[cell] + (origin - begin[cell] + step) % size[cell]
        better = (step <= between) & (np.abs(off[entry[at_step]]) < best)
        best[better] = np.abs(off[entry[at_step[better]]])
        where[better] = entry[at_step[better]]
    found = np.full((2, len(rows)), -1, dtype=np.int64)
    leaves = sign[origin] > 0
    found[0, cell[leaves]] = where[leaves]
    found[1, cell[~leaves]] = where[~leaves]
    fit = (np.bincount(cell, minlength=len(rows)) == 2) & (found >= 0).all(axis=0)
    return found[0], found[1], fit


def _half(cells: Cells, rows: Ints, begin: Ints, end: Ints) -> Cells:
    """Return the part of each cell from one entry on to another."""
    start, size = cells.start[rows], cells.sizes[rows]
    count = (end - begin) % size + 1
    new_start = np.append(0, np.cumsum(count))
    offset = np.arange(new_start[-1]) - np.repeat(new_start[:-1], count)
    row = np.repeat(np.arange(len(rows)), count)
    entry = start[row] + (begin[row] - start[row] + offset) % size[row]
    return Cells(
        new_start,
        cells.face[rows],
        cells.facet[rows],
        cells.node[entry],
        cells.values[entry],
        cells.sides[entry],
    )


def _settle(
    state: _State, choice: _Choice, others: Ints, rows: Ints, ray: Flags
) -> tuple[Ints, Ints]:
    """Return the pairs of whole cells, then of the halves on either side of the lines.

    The half behind a ray is rid of its facet, and so are both halves where it meets another.
    """
    count = len(state.cells)
    chosen = np.zeros(len(state.cell), dtype=bool)
    chosen[choice.pair[choice.pair >= 0]] = True
    number = np.full((2, count), -1, dtype=np.int64)
    number[0, others] = np.arange(len(others))
    number[0, rows] = len(others) + np.arange(len(rows))
    number[1, rows] = len(others) + len(rows) + np.arange(len(rows))
    stays = np.zeros(count, dtype=bool)
    stays[rows] = ray
    front = np.flatnonzero(~chosen | stays[state.cell])
    back = np.flatnonzero(~chosen & (number[1, state.cell] >= 0))
    cell = np.concatenate((number[0, state.cell[front]], number[1, state.cell[back]]))
    facet = np.concatenate((state.facet[front], state.facet[back]))
    order = np.argsort(cell, kind="stable")
    return cell[order], facet[order]
