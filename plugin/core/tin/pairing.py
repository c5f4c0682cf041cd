"""Half-edges of a triangulation paired by a table.

Where all faces run the same way round, each edge inside has one half-edge that runs *up*, from its
lower to its higher vertex, and one that runs *down*. They are paired by a table: every half-edge
that runs up writes itself into a place that follows from its ends, and every one that runs down
looks there for its partner. Sorting the ends, the usual way, takes several times as long.

A vertex has eight places for the edges it is the lower end of, so that a surface whose numbers
follow the ground is paired from the cache. Where two edges want one place, the loser tries another
in the next round; what a few rounds leave is sorted, and so is what has no single partner.
"""

import numpy as np
from numpy.typing import NDArray

from ..blocks import in_blocks

Ints = NDArray[np.int64]

_PLACES_BITS = 3
_ROUNDS = 4
_BLOCK = 1 << 16
"""Faces worked on together: threads wait for each other's turn where blocks are much smaller."""
_SOME = 1 << 15
"""Half-edges looked at together after the first round, which leaves fewer of them."""
_SPREAD = 0x1E3779B97F4A7C15
"""An odd number with irregular bits: products with it differ in their highest bits."""


def paired(corners: Ints) -> tuple[Ints, Ints]:
    """Return ``halves`` and ``extra`` of `edges.Edges` for faces (m, 3)."""
    return _Pairing(*_closely_numbered(corners)).run()


def following(half: Ints) -> Ints:
    """Return the half-edge that comes after each in its face."""
    after = half + 1
    face = half // 3
    face *= 3
    face += 3
    # Of the operations that wrap around, this takes a fraction of the time of a remainder.
    after -= 3 * (after == face)
    return after


def _closely_numbered(corners: Ints) -> tuple[Ints, int]:
    """Return the corners, in the same order but without many gaps, and how many there are."""
    count = int(corners.max(initial=-1)) + 1
    if count <= 4 * len(corners):
        return corners, count
    used, number = np.unique(corners, return_inverse=True)
    return number.reshape(-1, 3), len(used)


class _Pairing:
    """Half-edges of faces on their way to pairs.

    ``taken`` tells which half-edges need no partner any more (one place more takes what is to be
    dropped); half-edges that run down never need to be found.
    """

    def __init__(self, corners: Ints, vertices: int) -> None:
        self.corners = corners
        self.vertices = max(vertices, 1)
        self.after = following(np.arange(3 * min(_BLOCK, len(corners))))
        count = corners.size
        self.table = np.zeros(self.vertices << _PLACES_BITS, dtype=np.int64)
        self.taken = np.empty(count + 1, dtype=bool)
        # Room for as many edges as could be: memory that is never written to is never used.
        self.room = np.empty((count, 2), dtype=np.int64)

    def run(self) -> tuple[Ints, Ints]:
        """Return ``halves`` and ``extra`` of `edges.Edges`."""
        halves, missed = self._pair_all()
        up, alone, doubtful = self._sifted(self._open(), 0)
        for salt in range(1, _ROUNDS + 1):
            if not len(up) or not len(missed):
                break
            self._write_again(up, salt)
            missed = self._pair_again(halves, missed, salt)
            up, more_alone, more_doubtful = self._sifted(up[~self.taken[up]], salt)
            alone = np.concatenate((alone, more_alone))
            doubtful = np.concatenate((doubtful, more_doubtful))
        doubtful = np.concatenate((doubtful, self._taken_twice(halves, missed)))
        rest, more_doubtful = self._pair_rest(halves, missed, up)
        alone = np.sort(np.concatenate((alone, rest)))
        self.room[len(halves) : len(halves) + len(alone)] = np.stack(
            (alone, np.full_like(alone, -1)), 1
        )
        halves = self.room[: len(halves) + len(alone)]
        return self._with_crowds(halves, np.concatenate((doubtful, more_doubtful)))

    def _pair_all(self) -> tuple[Ints, Ints]:
        """Do the first round: all half-edges that run down, with their partners or -1.

        Returns
        -------
        halves : (d, 2) int
            In the order of the half-edges that run down, which stand on the right.
        missed : (k,) int
            Rows without a partner.
        """
        counts = in_blocks(self._write, len(self.corners), _BLOCK)
        self.taken[-1] = True
        first = np.concatenate(([0], np.cumsum(counts, dtype=np.int64)))
        halves = self.room[: first[-1]]

        def look_up(begin: int, end: int) -> Ints:
            start, stop = self._starts_and_stops(begin, end)
            down = np.flatnonzero(start > stop)
            partner = self._look_up(stop.take(down), start.take(down), 0)
            self.taken[partner] = True
            down += 3 * begin
            at = first[begin // _BLOCK]
            halves[at : at + len(down), 0] = partner
            halves[at : at + len(down), 1] = down
            return np.flatnonzero(partner < 0) + at

        return halves, _end_to_end(in_blocks(look_up, len(self.corners), _BLOCK))

    def _write(self, begin: int, end: int) -> int:
        """Write what runs up in a block of faces into the table; return how many run down."""
        start, stop = self._starts_and_stops(begin, end)
        is_up = start < stop
        np.logical_not(is_up, out=self.taken[3 * begin : 3 * end])
        up = np.flatnonzero(is_up)
        low, high = start.take(up), stop.take(up)
        place = _place(low, high, 0)
        up += 3 * begin
        high <<= 32
        high |= up
        # Threads may write to one place at a time: whoever is last stays, whole.
        self.table[place] = high
        return len(start) - len(up)

    def _write_again(self, up: Ints, salt: int) -> None:
        """Write half-edges that run up into the places of another round."""

        def write(begin: int, end: int) -> None:
            low, high = self._ends(up[begin:end])
            self.table[_place(low, high, salt)] = high << 32 | up[begin:end]

        in_blocks(write, len(up), _SOME)

    def _pair_again(self, halves: Ints, missed: Ints, salt: int) -> Ints:
        """Pair rows without a partner in another round; return those that still have none."""

        def look_up(begin: int, end: int) -> Ints:
            rows = missed[begin:end]
            high, low = self._ends(halves[rows, 1])
            partner = self._look_up(low, high, salt)
            halves[rows, 0] = partner
            self.taken[partner] = True
            return rows[partner < 0]

        return _end_to_end(in_blocks(look_up, len(missed), _SOME))

    def _open(self) -> Ints:
        """Return the half-edges that still need a partner."""

        def some(begin: int, end: int) -> Ints:
            return np.flatnonzero(~self.taken[begin:end]) + begin

        return _end_to_end(in_blocks(some, self.corners.size, 3 * _BLOCK))

    def _look_up(self, low: Ints, high: Ints, salt: int) -> Ints:
        """Return the half-edges in the table that run from ``low`` to ``high``, -1 for none."""
        entry = self.table.take(_place(low, high, salt))
        found = entry & 0xFFFFFFFF
        # The place tells the lower vertex; an empty one has 0 as the higher, which is none.
        entry >>= 32
        found[entry != high] = -1
        return found

    def _sifted(self, up: Ints, salt: int) -> tuple[Ints, Ints, Ints]:
        """Part the open half-edges after a round.

        Returns
        -------
        lost, alone, doubtful : (k,) int
            Those that another edge has taken the place of; those that have it, and no partner;
            those whose place is held by another one with the same ends.
        """
        holder = _end_to_end(
            in_blocks(lambda a, b: self._look_up(*self._ends(up[a:b]), salt), len(up), _SOME)
        )
        lost, alone = holder < 0, holder == up
        return up[lost], up[alone], up[~(lost | alone)]

    def _taken_twice(self, halves: Ints, missed: Ints) -> Ints:
        """Return the half-edges that several others have for a partner."""
        with_partner = len(halves) - len(missed)
        if np.count_nonzero(self.taken[:-1]) == len(halves) + with_partner:
            return np.zeros(0, np.int64)
        return np.flatnonzero(np.bincount(halves[:, 0] + 1)[1:] > 1)

    def _pair_rest(self, halves: Ints, missed: Ints, up: Ints) -> tuple[Ints, Ints]:
        """Pair what the rounds have left by sorting, in place.

        Returns
        -------
        alone, doubtful : (k,) int
            Half-edges that run up without a partner; those with the same ends as several others.
        """
        row = np.concatenate((np.full(len(up), -1), missed))
        half = np.concatenate((up, halves[missed, 1]))
        key = self._keys(half)
        order = np.lexsort((row, key))
        row, half, key = row[order], half[order], key[order]
        same = key[1:] == key[:-1]
        before, after = np.append(False, same)[: len(key)], np.append(same, False)[: len(key)]
        # One that runs up, then one that runs down, and no third.
        pair = np.flatnonzero(~before[:-1] & (row[:-1] < 0) & (row[1:] >= 0) & same & ~after[1:])
        halves[row[pair + 1], 0] = half[pair]
        doubtful = before | after
        doubtful[pair] = doubtful[pair + 1] = False
        return half[~before & ~after & (row < 0)], half[doubtful]

    def _with_crowds(self, halves: Ints, doubtful: Ints) -> tuple[Ints, Ints]:
        """Number the edges of doubtful half-edges anew: last, in the order of their ends.

        Returns
        -------
        halves, extra
            As in `edges.Edges`.
        """
        if not len(doubtful):
            return halves, np.zeros((0, 2), np.int64)
        half = self._with_same_ends(doubtful)
        key = self._keys(half)
        order = np.lexsort((half, key))
        half, key = half[order], key[order]
        among = np.zeros(len(self.taken), dtype=bool)
        among[half] = True
        halves = halves[~among[halves].any(axis=1)]
        first = np.flatnonzero(np.diff(key, prepend=-1))
        last = np.append(first[1:], len(key)) - 1
        low, high = self._ends(half[first])
        pair = np.column_stack((half[first], half[last]))
        pair[low > high] = pair[low > high, ::-1]
        edge = np.cumsum(np.diff(key, prepend=-1) != 0) - 1 + len(halves)
        between = np.ones(len(half), dtype=bool)
        between[first] = between[last] = False
        return np.concatenate((halves, pair)), np.column_stack((half, edge))[between]

    def _with_same_ends(self, half: Ints) -> Ints:
        """Return all half-edges between the ends of the given ones."""
        vertex = np.zeros(self.vertices, dtype=bool)
        vertex[np.concatenate(self._ends(half))] = True
        marked = vertex[self.corners]
        near = np.flatnonzero((marked & marked[:, [1, 2, 0]]).ravel())
        return near[np.isin(self._keys(near), self._keys(half))]

    def _starts_and_stops(self, begin: int, end: int) -> tuple[Ints, Ints]:
        """Return the vertices that the half-edges of a block of faces run from and to."""
        start = self.corners[begin:end].ravel()
        return start, start.take(self.after[: len(start)])

    def _ends(self, half: Ints) -> tuple[Ints, Ints]:
        """Return the vertices that some half-edges run from and to."""
        corner = self.corners.ravel()
        return corner.take(half), corner.take(following(half))

    def _keys(self, half: Ints) -> Ints:
        """Return lower end << 32 | higher end of half-edges."""
        one, other = self._ends(half)
        return np.minimum(one, other) << 32 | np.maximum(one, other)


def _end_to_end(parts: list[Ints]) -> Ints:
    return np.concatenate(parts) if parts else np.zeros(0, np.int64)


def _place(low: Ints, high: Ints, salt: int) -> Ints:
    """Return the place of each edge in the table: one of those of its lower end."""
    mixed = high * (_SPREAD + 2 * salt)
    # Not a sum: with that, edges that differ by the same steps, as in a grid, would meet again.
    mixed *= low | 1
    choice = mixed.view(np.uint64)
    choice >>= np.uint64(64 - _PLACES_BITS)
    place = low << _PLACES_BITS
    place |= choice.view(np.int64)
    return place
