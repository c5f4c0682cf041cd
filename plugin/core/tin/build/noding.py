"""Breaklines made to meet in shared vertices only, each place at one height.

Where a line passes a vertex or a point within the snap distance it goes through it; where lines
cross there is a vertex. If the heights there differ none is picked: the segments of both lines
that meet there stay out of the surface, as does a vertex that lies there, and the work starts
again without them, so that the result does not depend on what was looked at first. Afterwards no
vertex lies nearer to a segment than the snap distance, but for its ends: which side of a segment
a vertex lies on is certain in floating point. Vertices lie twice the snap distance apart, so that
a segment led through one of three that lie close together is not led back through the others.
"""

from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from ...errors import LineError
from ...text import translate
from ..cut.snap import project
from ..weld import same_place
from .places import LINE, POINT, RING, Clash, Places

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

APART = 2.0
"""Places nearer to each other than this many times the snap distance are one."""
_MOST_ROUNDS = 60


@dataclass(frozen=True, eq=False)
class Course:
    """Segments as given.

    Parameters
    ----------
    ends : (s, 2) int
        Places.
    feature, kind : (s,) int
        Id of the feature, and `RING` or `LINE`.
    """

    ends: Ints
    feature: Ints
    kind: Ints


@dataclass(eq=False)
class Noded:
    """Lines that meet in vertices only.

    Parameters
    ----------
    xyz : (p, 3) float
        The places, then the vertices where lines cross.
    used : (p,) bool
        Which of them are vertices of the surface.
    ends : (k, 2) int
        Pieces of segments.
    origin : (k,) int
        Segment each is of.
    crossings : int
        Vertices where lines cross.
    clashes : list of Clash
        Where heights differ: lines with lines, and points beside lines.
    """

    xyz: Floats
    used: Flags
    ends: Ints
    origin: Ints
    crossings: int = 0
    clashes: list[Clash] = field(default_factory=list)


@dataclass(eq=False)
class _State:
    xyz: Floats
    kind: Ints
    feature: Ints
    used: Flags
    ends: Ints
    origin: Ints


def node(places: Places, course: Course, snap: float, same_height: float) -> Noded:
    """Node the segments; see the module.

    Parameters
    ----------
    places : Places
        Disputed ones take no part, nor do the lines through them.
    course : Course
        The segments.
    snap, same_height : float
        As for `find_places`.

    Raises
    ------
    LineError
        The lines lie so close to each other that this comes to no end.
    """
    shut = places.disputed & (places.kind != RING)
    # Where a line and a ring disagree the ring stays and the line does not.
    active = (course.kind == RING) | ~places.disputed[course.ends].any(axis=1)
    clashes: list[Clash] = []
    while True:
        noder = _Noder(places, course, shut, active, snap, same_height)
        noder.run()
        if not noder.dropped:
            break
        clashes += noder.clashes
        active[list(noder.dropped)] = False
        shut |= noder.shut
    state = noder.state
    clashes += noder.beside
    crossings = len(state.xyz) - len(places.xyz)
    unique = list(dict.fromkeys(clashes))
    return Noded(state.xyz, state.used, state.ends, state.origin, crossings, unique)


class _Noder:
    """One attempt, with the segments that are active."""

    def __init__(
        self,
        places: Places,
        course: Course,
        shut: Flags,
        active: Flags,
        snap: float,
        same_height: float,
    ) -> None:
        some = np.flatnonzero(active & (course.ends[:, 0] != course.ends[:, 1]))
        self.state = _State(places.xyz, places.kind, places.feature, ~shut, course.ends[some], some)
        self.course, self.snap, self.same_height = course, snap, same_height
        self.given = len(places.xyz)
        self.shut = np.zeros(self.given, dtype=bool)
        self.dropped: set[int] = set()
        self.clashes: list[Clash] = []
        self.beside: list[Clash] = []

    def run(self) -> None:
        """Node until nothing changes, or until something has to be dropped."""
        for _ in range(_MOST_ROUNDS):
            changed = self._through_vertices()
            if not changed and not self.dropped:
                changed = self._where_they_cross()
            if self.dropped or not changed:
                return
        raise LineError(
            translate(
                "Core",
                "The breaklines lie so close to each other that they cannot be told apart: choose a smaller snap distance.",
            )
        )

    def _shapes(self) -> NDArray[np.object_]:
        return np.asarray(shapely.linestrings(self.state.xyz[self.state.ends][:, :, :2]))

    def _height(self, piece: Ints, share: Floats) -> Floats:
        z = self.state.xyz[self.state.ends[piece], 2]
        return np.asarray(z[:, 0] + share * (z[:, 1] - z[:, 0]), dtype=np.float64)

    def _through_vertices(self) -> bool:
        """Lead pieces through the vertices and points they pass within the snap distance."""
        state = self.state
        if not len(state.ends):
            return False
        live = np.flatnonzero(state.used)
        tree = shapely.STRtree(shapely.points(state.xyz[live, :2]))
        piece, place = tree.query(self._shapes(), predicate="dwithin", distance=self.snap)
        place = live[place]
        apart = (state.ends[piece] != place[:, None]).all(axis=1)
        piece, place = piece[apart], place[apart]
        if not len(piece):
            return False
        start, stop = (state.xyz[state.ends[piece, end], :2] for end in (0, 1))
        share, _ = project(state.xyz[place, :2], start, stop)
        own = self._height(piece, share)
        differs = np.abs(own - state.xyz[place, 2]) > self.same_height
        is_node = np.zeros(len(state.used), dtype=bool)
        is_node[state.ends] = True
        is_point = (state.kind[place] == POINT) & ~is_node[place]
        for row in np.flatnonzero(differs & ~is_point):
            self._clash(int(place[row]), int(piece[row]), float(own[row]))
        if self.dropped:
            return True
        self._leave_out(place, piece, own, differs & is_point)
        keep = state.used[place]
        self._split(piece[keep], share[keep], place[keep])
        return bool(len(piece))

    def _leave_out(self, place: Ints, piece: Ints, own: Floats, rows: Flags) -> None:
        """Leave out points beside a line that are of another height."""
        state = self.state
        for row in np.flatnonzero(rows):
            at = int(place[row])
            if state.used[at]:
                state.used[at] = False
                self.beside.append(self._of(at, int(piece[row]), float(own[row])))

    def _of(self, place: int, piece: int, own: float) -> Clash:
        state, segment = self.state, int(self.state.origin[piece])
        x, y, z = (float(value) for value in state.xyz[place])
        one = (own, int(self.course.feature[segment]), int(self.course.kind[segment]))
        other = (z, int(state.feature[place]), int(state.kind[place]))
        (low, low_id, low_kind), (high, high_id, high_kind) = sorted((one, other))
        return Clash((x, y), (low, high), (low_id, high_id), (low_kind, high_kind))

    def _clash(self, place: int, piece: int, own: float) -> None:
        """Drop what meets at a place at different heights."""
        state = self.state
        around = state.origin[(state.ends == place).any(axis=1)].tolist()
        around.append(int(state.origin[piece]))
        lines = [segment for segment in around if self.course.kind[segment] != RING]
        if not lines:
            return  # rings alone: they stay, and meet at the height of the vertex
        self.clashes.append(self._of(place, piece, own))
        self.dropped.update(lines)
        if state.kind[place] == LINE and place < self.given:
            self.shut[place] = True

    def _split(self, piece: Ints, share: Floats, place: Ints) -> None:
        """Cut pieces at places on them."""
        state = self.state
        whole = np.ones(len(state.ends), dtype=bool)
        whole[piece] = False
        cut = np.flatnonzero(~whole)
        number = np.concatenate((cut, piece, cut))
        at = np.concatenate((state.ends[cut, 0], place, state.ends[cut, 1]))
        along = np.concatenate((np.full(len(cut), -1.0), share, np.full(len(cut), 2.0)))
        order = np.lexsort((at, along, number))
        number, at = number[order], at[order]
        same = number[1:] == number[:-1]
        ends = np.column_stack((at[:-1], at[1:]))[same]
        origin = state.origin[number[:-1][same]]
        proper = ends[:, 0] != ends[:, 1]
        state.ends = np.concatenate((state.ends[whole], ends[proper]))
        state.origin = np.concatenate((state.origin[whole], origin[proper]))

    def _where_they_cross(self) -> bool:
        """Put a vertex where two pieces cross at one height."""
        state = self.state
        if not len(state.ends):
            return False
        shapes = self._shapes()
        one, other = shapely.STRtree(shapes).query(shapes, predicate="intersects")
        ends = state.ends
        free = (one < other) & (ends[one][:, :, None] != ends[other][:, None, :]).all(axis=(1, 2))
        one, other = one[free], other[free]
        if not len(one):
            return False
        a, b = state.xyz[ends[one, 0], :2], state.xyz[ends[one, 1], :2]
        c, d = state.xyz[ends[other, 0], :2], state.xyz[ends[other, 1], :2]
        u, v, w = b - a, d - c, c - a
        bottom = u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0]
        share = (w[:, 0] * v[:, 1] - w[:, 1] * v[:, 0]) / bottom
        other_share = (w[:, 0] * u[:, 1] - w[:, 1] * u[:, 0]) / bottom
        z, other_z = self._height(one, share), self._height(other, other_share)
        xyz = np.column_stack((a + share[:, None] * u, 0.5 * (z + other_z)))
        for row in np.flatnonzero(np.abs(z - other_z) > self.same_height):
            pair = (int(state.origin[one[row]]), int(state.origin[other[row]]))
            self._crossing_clash(xyz[row], pair, (float(z[row]), float(other_z[row])))
        if self.dropped:
            return True
        self._add_crossings(xyz, one, share, other, other_share)
        return True

    def _crossing_clash(
        self, xyz: Floats, pair: tuple[int, int], heights: tuple[float, float]
    ) -> None:
        lines = [segment for segment in pair if self.course.kind[segment] != RING]
        if not lines:
            return
        both = sorted(
            (z, int(self.course.feature[segment]), int(self.course.kind[segment]))
            for z, segment in zip(heights, pair, strict=True)
        )
        (low, low_id, low_kind), (high, high_id, high_kind) = both
        place = (float(xyz[0]), float(xyz[1]))
        self.clashes.append(Clash(place, (low, high), (low_id, high_id), (low_kind, high_kind)))
        self.dropped.update(lines)

    def _add_crossings(
        self, xyz: Floats, one: Ints, share: Floats, other: Ints, other_share: Floats
    ) -> None:
        state = self.state
        order = np.lexsort((xyz[:, 2], xyz[:, 1], xyz[:, 0]))
        xyz, one, other = xyz[order], one[order], other[order]
        share, other_share = share[order], other_share[order]
        heads, of = np.unique(
            same_place(xyz[:, :2], APART * self.snap), return_inverse=True
        )
        of = of.reshape(-1)
        place = self._known(xyz[heads], one[heads])
        for row in np.flatnonzero(place[of] >= 0):
            at = int(place[of[row]])
            if abs(xyz[row, 2] - state.xyz[at, 2]) > self.same_height:
                self._clash(at, int(one[row]), float(xyz[row, 2]))
                self._clash(at, int(other[row]), float(xyz[row, 2]))
        if self.dropped:
            return
        fresh = np.flatnonzero(place < 0)
        place[fresh] = len(state.xyz) + np.arange(len(fresh))
        features = self.course.feature[state.origin[one[heads[fresh]]]]
        state.xyz = np.concatenate((state.xyz, xyz[heads[fresh]]))
        state.kind = np.concatenate((state.kind, np.full(len(fresh), LINE)))
        state.feature = np.concatenate((state.feature, features))
        state.used = np.concatenate((state.used, np.ones(len(fresh), dtype=bool)))
        self._split(
            np.concatenate((one, other)),
            np.concatenate((share, other_share)),
            np.concatenate((place[of], place[of])),
        )

    def _known(self, xyz: Floats, piece: Ints) -> Ints:
        """Return the place each crossing falls on, -1 for none.

        A point there that is of another height than the piece is left out.
        """
        state = self.state
        live = np.flatnonzero(state.used)
        tree = shapely.STRtree(shapely.points(state.xyz[live, :2]))
        rows, near = tree.query_nearest(
            shapely.points(xyz[:, :2]), max_distance=APART * self.snap, all_matches=False
        )
        at = live[near]
        nodes = np.zeros(len(state.used), dtype=bool)
        nodes[state.ends] = True
        differs = np.abs(state.xyz[at, 2] - xyz[rows, 2]) > self.same_height
        loose = differs & (state.kind[at] == POINT) & ~nodes[at]
        for row, point in zip(rows[loose], at[loose], strict=True):
            state.used[point] = False
            self.beside.append(self._of(int(point), int(piece[row]), float(xyz[row, 2])))
        known = np.full(len(xyz), -1, dtype=np.int64)
        known[rows[~loose]] = at[~loose]
        return known
