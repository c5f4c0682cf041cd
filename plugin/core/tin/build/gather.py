"""What a surface is built of, near the origin.

A boundary with heights holds all that counts: points and pieces of lines off it are left out. One
without heights cuts the finished surface, so that faces across it need what lies beyond.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ...errors import SurfaceError
from ...findings import Finding
from ...text import translate
from . import remarks
from .limits import clip, within
from .manner import Boundary, Breaklines, Points
from .noding import APART, Course
from .places import LINE, POINT, RING, Given, Places, find_places, order_of

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Gathered:
    """Points and segments near the origin.

    Parameters
    ----------
    origin : (2,) float
        What was taken from plan coordinates.
    points : Points
        With heights.
    ends : (s, 2, 3) float
        Segments, those of rings first.
    kind, feature : (s,) int
        `RING` or `LINE`, and the id.
    area, wide : shapely geometry or None
        What the surface covers, and that with half the snap distance around it: what lies on the
        boundary lies on neither side of it.
    outside : int
        Points off the boundary.
    given, inside : float
        Plan length of the breaklines, and of what lies within the boundary.
    findings : list of Finding
        Places near the origin.
    """

    origin: Floats
    points: Points
    ends: Floats
    kind: Ints
    feature: Ints
    area: shapely.Geometry | None
    wide: shapely.Geometry | None
    outside: int
    given: float
    inside: float
    findings: list[Finding]

    @property
    def has_rings(self) -> bool:
        """Whether the boundary has heights."""
        return bool((self.kind == RING).any())


def gather(points: Points, lines: Breaklines, boundary: Boundary | None, snap: float) -> Gathered:
    """Move everything near the origin, and leave out what lies off a boundary with heights.

    Parameters
    ----------
    points, lines, boundary
        As given to `build_tin`; lines have heights, or NaN where none could be found.
    snap : float
        What lies off the boundary by no more than half of it is on it.

    Raises
    ------
    SurfaceError
        There is nothing to build of.
    """
    rows = [*lines.lines, *(boundary.rings if boundary is not None else ())]
    plan = np.concatenate([points.xyz[:, :2], *(row[:, :2] for row in rows)])
    if not len(plan):
        raise SurfaceError(
            translate("Core", "There is neither a point nor a breakline to build of.")
        )
    origin = _origin(plan)
    shift = np.append(origin, 0.0)
    xyz, ids = points.xyz - shift, points.ids
    findings = []
    known = np.isfinite(xyz).all(axis=1)
    for row in np.flatnonzero(~known):
        x, y = xyz[row, :2].tolist()
        findings.append(remarks.point_without_height(int(ids[row]), (x, y)))
    ends, feature = _segments([line[:, :3] - shift for line in lines.lines], lines.ids)
    ends, feature = _with_heights(ends, feature, findings)
    given = inside = length(ends)
    on, area, wide = np.ones(len(xyz), dtype=bool), None, None
    rings, ring_ids = np.empty((0, 2, 3)), np.empty(0, dtype=np.int64)
    if boundary is not None:
        area = _moved(boundary.area, origin)
        wide = shapely.buffer(area, 0.5 * snap, join_style="mitre")
        on = within(wide, xyz[:, :2])
        kept, origin_of = clip(wide, ends, snap)
        inside = length(kept)
        rings, ring_ids = _segments([ring[:, :3] - shift for ring in boundary.rings], boundary.ids)
        if len(rings):
            ends, feature = kept, feature[origin_of]
    outside = int((known & ~on).sum())
    known &= on | (len(rings) == 0)
    kind = np.concatenate((np.full(len(rings), RING), np.full(len(ends), LINE)))
    return Gathered(
        origin,
        Points(xyz[known], ids[known]),
        np.concatenate((rings, ends)),
        kind,
        np.concatenate((ring_ids, feature)),
        area,
        wide,
        outside,
        given,
        inside,
        findings,
    )


def _origin(plan: Floats) -> Floats:
    """Return whole numbers that can be taken from all coordinates, and added again, exactly.

    A difference is exact where coordinates are greater than the extent. Where they are not they
    are near the origin as they are.
    """
    low = plan.min(axis=0)
    far = np.abs(plan).min(axis=0) >= np.ptp(plan, axis=0)
    return np.asarray(np.where(far, np.floor(low), 0.0), dtype=np.float64)


def _moved(shape: shapely.Geometry, origin: Floats) -> shapely.Geometry:
    """Return a shape in plan, less the origin."""
    return shapely.transform(shapely.force_2d(shape), lambda xy: xy - origin)


def _segments(lines: list[Floats], ids: Ints) -> tuple[Floats, Ints]:
    if not lines:
        return np.empty((0, 2, 3)), np.empty(0, dtype=np.int64)
    ends = np.concatenate([np.stack((line[:-1], line[1:]), axis=1) for line in lines])
    return ends, np.repeat(ids, [len(line) - 1 for line in lines])


def _with_heights(ends: Floats, feature: Ints, findings: list[Finding]) -> tuple[Floats, Ints]:
    """Leave out the segments whose ends have no height, and say so."""
    known = np.isfinite(ends).all(axis=2)
    for row, end in zip(*np.nonzero(~known), strict=True):
        x, y = ends[row, end, :2].tolist()
        told = remarks.line_off_surface(int(feature[row]), (x, y))
        if told not in findings[-2:]:
            findings.append(told)
    both = known.all(axis=1)
    return ends[both], feature[both]


def length(ends: Floats) -> float:
    """Return the plan length of segments (s, 2, 3)."""
    return float(np.hypot(*(ends[:, 1, :2] - ends[:, 0, :2]).T).sum())


def find_course(gathered: Gathered, snap: float, same_height: float) -> tuple[Places, Course, Ints]:
    """Return the places of all vertices, the segments between them, and which points hold.

    Returns
    -------
    places : Places
        Of ends of segments and of points.
    course : Course
        In an order that follows from where they are.
    place_of_point : (k,) int
        Place of each point that agrees with it about the height, -1 for the others.
    """
    count = 2 * len(gathered.ends)
    xyz = np.concatenate((gathered.ends.reshape(-1, 3), gathered.points.xyz))
    kind = np.concatenate((np.repeat(gathered.kind, 2), np.full(len(gathered.points.xyz), POINT)))
    feature = np.concatenate((np.repeat(gathered.feature, 2), gathered.points.ids))
    order = order_of(xyz, kind, feature)
    places = find_places(Given(xyz[order], kind[order], feature[order]), APART * snap, same_height)
    place = np.empty(len(xyz), dtype=np.int64)
    place[order] = places.of
    ends = np.sort(place[:count].reshape(-1, 2), axis=1)
    row = np.lexsort((gathered.feature, ends[:, 1], ends[:, 0], gathered.kind))
    course = Course(ends[row], gathered.feature[row], gathered.kind[row])
    of_point = place[count:]
    agrees = np.abs(xyz[count:, 2] - places.xyz[of_point, 2]) <= same_height
    return places, course, np.where(agrees, of_point, -1)
