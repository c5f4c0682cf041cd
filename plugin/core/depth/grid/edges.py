"""Where sides begin: the border edges of zones that lie lower than what is beside them.

Borders are noded as those cut into a TIN are, so that both give the same sides.
"""

from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from ...tin.cut.borders import grid_size, node_borders, zones_beside
from ..zones import Zones

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Mask = NDArray[np.bool_]

_GAP = 5.0  # gaps between zones are closed up to this many times the snap distance


@dataclass(frozen=True, eq=False)
class Edges:
    """Straight pieces of border from which sides go, and the corners where they meet.

    Parameters
    ----------
    start, stop : (k, 2) float
        Ends, counted from the grid's first corner; the zone lies on the left.
    zone : (k,) int
        Zone the side belongs to.
    active : (k,) bool
        Whether a side goes from it; the others only tell what corners look like.
    raised : (k,) bool
        Whether the zone is raised, so that its sides fall.
    before, after : (c,) int
        Edges that meet in a corner, the first ending where the second starts; from one of them
        at least a side goes.
    turn : (c,) float
        Angle between them in radians, positive to the left: around the zone.
    """

    start: Floats
    stop: Floats
    zone: Ints
    active: Mask
    raised: Mask
    before: Ints
    after: Ints
    turn: Floats
    length: Floats = field(init=False)
    way: Floats = field(init=False)
    out: Floats = field(init=False)

    def __post_init__(self) -> None:
        """Work out lengths, and unit vectors along the edges and outwards."""
        step = self.stop - self.start
        length = np.hypot(step[:, 0], step[:, 1])
        way = step / length[:, None]
        object.__setattr__(self, "length", length)
        object.__setattr__(self, "way", way)
        object.__setattr__(self, "out", np.column_stack([way[:, 1], -way[:, 0]]))

    def __len__(self) -> int:
        """Return the number of edges."""
        return len(self.zone)

    def take(self, chosen: Mask) -> "Edges":
        """Return some of the edges, and the corners between two of them."""
        name = np.cumsum(chosen) - 1
        both = chosen[self.before] & chosen[self.after]
        return Edges(
            self.start[chosen],
            self.stop[chosen],
            self.zone[chosen],
            self.active[chosen],
            self.raised[chosen],
            name[self.before[both]],
            name[self.after[both]],
            self.turn[both],
        )


def side_edges(
    zones: Zones, around: float, origin: tuple[float, float], box: shapely.Polygon, snap: float
) -> Edges:
    """Find the edges from which sides go.

    A zone that cuts sends sides to where the ground beside it is higher, another zone's bottom
    included; a zone that raises only to the outside of all zones, where it is lower.

    Parameters
    ----------
    zones : Zones
        Disjoint; depth and square thickness count together.
    around : float
        Depth outside all zones.
    origin : (float, float)
        Plan position the result is counted from.
    box : Polygon
        Zones that do not meet it are left out.
    snap : float
        Snap distance in plan units.
    """
    depths = np.asarray(zones.depths, np.float64) + zones.squares
    batters = np.asarray(zones.batters, np.float64)
    polygons = np.array(zones.polygons, dtype=object)
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        polygons[~shapely.intersects(polygons, box)] = shapely.Polygon()
    sloped = (batters > 0) & ~shapely.is_empty(polygons)
    if not sloped.any():
        none = np.empty(0, dtype=np.int64)
        return _edges(np.empty((0, 2)), none, none, none, depths, none > 0)
    # A whole origin keeps the nodes on one grid wherever a part of the site begins.
    whole = np.floor(origin)
    near = shapely.transform(shapely.force_2d(polygons), lambda points: points - whole)
    points, segments = node_borders(near, grid_size(snap))
    zone = zones_beside(points, segments, near, _GAP * snap).zones
    tail = np.concatenate([segments[:, 0], segments[:, 1]])
    head = np.concatenate([segments[:, 1], segments[:, 0]])
    left = np.concatenate([zone[:, 0], zone[:, 1]])
    right = np.concatenate([zone[:, 1], zone[:, 0]])
    border = np.append(sloped, False)[left] & (left != right)
    tail, head, left, right = tail[border], head[border], left[border], right[border]
    beside = np.append(depths, around)[right]
    cuts = (depths[left] > 0) & (depths[left] > beside)
    raises = (depths[left] < 0) & (depths[left] < beside) & (right < 0)
    return _edges(points + (whole - origin), tail, head, left, depths, cuts | raises)


def _edges(
    points: Floats, tail: Ints, head: Ints, zone: Ints, depths: Floats, active: Mask
) -> Edges:
    """Return the active ones of border edges, with their corners and neighbours."""
    way = points[head] - points[tail]
    ahead = np.arctan2(way[:, 1], way[:, 0])
    back = np.arctan2(-way[:, 1], -way[:, 0])
    # Around each corner of a zone, counter-clockwise: after an edge that arrives comes, across
    # the outside, the edge that leaves.
    count = len(tail)
    corner, owner = np.concatenate([head, tail]), np.concatenate([zone, zone])
    angle = np.concatenate([back, ahead])
    order = np.lexsort((angle, corner, owner))
    first = np.append(True, (np.diff(corner[order]) != 0) | (np.diff(owner[order]) != 0))
    first = np.flatnonzero(first[: 2 * count])
    follow = np.arange(1, 2 * count + 1)
    follow[np.append(first[1:], 2 * count)[: len(first)] - 1] = first
    next_ = order[follow]
    pair = (order < count) & (next_ >= count)
    before, after = order[pair], next_[pair] - count
    turn = np.mod(ahead[after] - back[before], 2 * np.pi) - np.pi
    met = active[before] | active[after]
    before, after, turn = before[met], after[met], turn[met]
    kept = active.copy()
    kept[before] = kept[after] = True
    name = np.cumsum(kept) - 1
    return Edges(
        points[tail[kept]],
        points[head[kept]],
        zone[kept],
        active[kept],
        depths[zone[kept]] < 0,
        name[before],
        name[after],
        turn,
    )
