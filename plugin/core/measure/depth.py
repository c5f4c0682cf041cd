"""Whether the depth asked for is there: over ground, and at points."""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
import shapely
from numpy.typing import NDArray

from ..tin.weld import hang_together
from .classes import Classes, Sums

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

SLACK_METRES = 2e-4
"""A depth nearer to its limit than this keeps it: what heights to 0.001 ft make of a true one."""
_BARS = 8
"""Bars of the histogram on either side of the depth asked for."""


class Verdict(IntEnum):
    """What became of a depth; also the group of ground of that kind."""

    PASS = 0
    SHALLOW = 1
    DEEP = 2


@dataclass(frozen=True, eq=False)
class Asked:
    """The depth asked for in each zone, and last of the ground outside all.

    Parameters
    ----------
    depths : (k + 1,) float
        Positive below the design, in vertical units.
    less, more : (k + 1,) float
        How much shallower and deeper it may be; infinite for any.
    slack : float
        A depth nearer to a limit than this keeps it.
    """

    depths: Floats
    less: Floats
    more: Floats
    slack: float

    @property
    def low(self) -> Floats:
        """Least deviation that passes, (k + 1,) float."""
        return -self.less - self.slack

    @property
    def high(self) -> Floats:
        """Greatest deviation that passes, (k + 1,) float."""
        return self.more + self.slack

    def judged(self, deviation: Floats, zone: Ints) -> Ints:
        """Return the `Verdict` of deviations (found less asked), (p,) int."""
        shallow, deep = deviation < self.low[zone], deviation > self.high[zone]
        return np.where(shallow, Verdict.SHALLOW, np.where(deep, Verdict.DEEP, Verdict.PASS))

    def bar(self) -> float:
        """Return the width of the bars of a histogram: half the smallest tolerance."""
        finite = np.concatenate((self.less, self.more))
        finite = finite[np.isfinite(finite) & (finite > 0)]
        return float(finite.min()) / 2 if len(finite) else 50 * self.slack

    def bars(self) -> Floats:
        """Return the limits of the bars, open at both ends."""
        finite = np.concatenate((self.less, self.more))
        widest = float(finite[np.isfinite(finite)].max(initial=0.0))
        bar = self.bar()
        count = max(_BARS, int(np.ceil(widest / bar)) + 4)
        return bar * np.arange(-min(count, 40), min(count, 40) + 1)

    def classes(self) -> tuple[Classes, Ints]:
        """Return classes of the deviation, cut at all limits and bars, and the verdict of each.

        Returns
        -------
        classes : Classes
        group : (k + 1, c) int
            `Verdict` of each class in each zone.
        """
        limits = np.concatenate((self.low, self.high, self.bars()))
        edges = np.unique(limits[np.isfinite(limits)])
        # Limits nearer than rounding are one.
        edges = edges[np.append(True, np.diff(edges) > 1e-9)]
        classes = Classes(edges, 1e-9)
        middle = np.empty(len(classes))
        middle[1:-2] = (edges[:-1] + edges[1:]) / 2
        middle[0], middle[-2:] = edges[0] - 1.0, edges[-1] + 1.0
        zone = np.repeat(np.arange(len(self.depths)), len(classes))
        judged = self.judged(np.tile(middle, len(self.depths)), zone)
        return classes, judged.reshape(len(self.depths), len(classes))


@dataclass(frozen=True, eq=False)
class Part:
    """A region that fails, and its worst place.

    Parameters
    ----------
    zone : int
        Row of its zone.
    verdict : Verdict
        `Verdict.SHALLOW` or `Verdict.DEEP`.
    shape : shapely.Polygon or shapely.MultiPolygon
        The region.
    xy : (2,) float
        The worst place in it.
    deviation : float
        Depth found less depth asked there.
    narrow : bool
        Whether it is a strip narrower than what is judged.
    """

    zone: int
    verdict: Verdict
    shape: shapely.Geometry
    xy: Floats
    deviation: float
    narrow: bool


def failing_parts(
    shapes: NDArray[np.object_],
    corners: tuple[Floats, Floats, Ints, Floats],
    asked: Asked,
    narrow: float,
) -> list[Part]:
    """Return the regions that fail, the farthest off first.

    Parameters
    ----------
    shapes : (k, 3) object
        Outline of each zone and `Verdict`.
    corners : (p, 2) float, (p,) float, (p,) int, (p,) float
        Places beyond the limits, the deviation there, the zone, and the width of the ground
        they are on: the worst place of a region lies on a strip only where it is all strips.
    asked : Asked
        What is asked for.
    narrow : float
        A region that is nowhere wider is a strip.
    """
    xy, deviation, zone, wide = corners
    judged = asked.judged(deviation, zone)
    found = []
    for row, verdict in np.argwhere(shapes != None):  # noqa: E711 - element by element
        if verdict == Verdict.PASS:
            continue
        pieces = shapely.get_parts(shapes[row, verdict])
        some = np.flatnonzero((zone == row) & (judged == verdict))
        order = some[np.lexsort((-np.abs(deviation[some]), wide[some] < narrow))]
        if not len(order):  # not to be expected: what fails has a corner beyond its limit
            limit = asked.low if verdict == Verdict.SHALLOW else asked.high
            order, xy = np.array([len(xy)]), np.vstack((xy, pieces[0].point_on_surface().coords[0]))
            deviation = np.append(deviation, limit[row])
        tree = shapely.STRtree(pieces)
        with np.errstate(all="ignore"):  # GEOS leaves floating point flags set
            spots = shapely.points(xy[order])
            corner, piece = tree.query_nearest(spots, all_matches=False)
            # Pieces that touch in a point, as pixels do across a corner, are one region.
            region = hang_together(len(pieces), *tree.query(pieces, predicate="intersects"))
            # A region all of whose corners another one touches takes the nearest of them.
            lone = np.setdiff1d(region, region[piece])
            nearest = shapely.STRtree(spots).query_nearest(pieces[lone], all_matches=False)
        corner, piece = np.append(corner, nearest[1]), np.append(piece, lone[nearest[0]])
        at, first = np.unique(region[piece], return_index=True)
        for one, worst in zip(at, order[corner[first]], strict=True):
            own = pieces[region == one]
            shape = own[0] if len(own) == 1 else shapely.multipolygons(own)
            found.append(
                Part(
                    int(row),
                    Verdict(int(verdict)),
                    shape,
                    xy[worst],
                    float(deviation[worst]),
                    not _holds_disc(own, narrow),
                )
            )
    # Of parts that are off the same but for rounding, the western one first.
    return sorted(found, key=lambda part: (-round(abs(part.deviation), 9), *part.xy.tolist()))


def _holds_disc(pieces: NDArray[np.object_], width: float) -> bool:
    """Tell whether a disc of that diameter fits into one of some polygons."""
    # An outline of length L around an area A leaves room for a disc of radius A / L.
    if (2 * shapely.area(pieces) >= width * shapely.length(pieces)).any():
        return True
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set
        return not shapely.is_empty(shapely.buffer(pieces, -width / 2)).all()


@dataclass(frozen=True, eq=False)
class ZoneResult:
    """What the check found in one zone, or in all.

    Parameters
    ----------
    measure : (3,) float
        Area (or number of points) of each `Verdict`.
    narrow : float
        Area of strips too narrow to be judged, in none of them.
    least, mean, most : float
        Deviation, NaN where nothing was checked.
    """

    measure: Floats
    narrow: float
    least: float
    mean: float
    most: float

    @property
    def checked(self) -> float:
        """Area (or number of points) judged."""
        return float(self.measure.sum())

    @property
    def share(self) -> float:
        """Share within tolerance; NaN where nothing was checked."""
        return float(self.measure[Verdict.PASS]) / self.checked if self.checked else np.nan

    @property
    def passes(self) -> bool:
        """Whether something was checked and nothing fails."""
        return self.checked > 0 and not self.measure[1:].any()


def result_of_ground(
    sums: Sums, group: Ints, parts: list[Part], rows: Ints, bar: float
) -> ZoneResult:
    """Return what was found over the ground of some zones.

    Parameters
    ----------
    sums : Sums
        Figures by zone and class.
    group : (k + 1, c) int
        `Verdict` of each class in each zone.
    parts : list of Part
        The regions that fail.
    rows : (r,) int
        The zones.
    bar : float
        Area below which nothing counts: rounding.
    """
    chosen = set(rows.tolist())
    own = [part for part in parts if part.zone in chosen]
    strips = np.zeros(3)
    for part in own:
        strips[part.verdict] += part.shape.area if part.narrow else 0.0
    area = np.zeros(3)
    for row in rows:
        area += np.bincount(group[row], sums.area[row], 3)
    judged = np.maximum(area - strips, 0.0)
    wide = {part.verdict for part in own if not part.narrow}
    for verdict in (Verdict.SHALLOW, Verdict.DEEP):
        if verdict not in wide:
            judged[verdict] = 0.0
    passing = group[rows] == Verdict.PASS
    there = passing & (sums.area[rows] > bar)
    off = [part.deviation for part in own if not part.narrow]
    least = np.concatenate((sums.least[rows][there], off))
    most = np.concatenate((sums.most[rows][there], off))
    total = sums.area[rows].sum()
    mean = sums.volume[rows].sum() / total if total > 0 else np.nan
    return ZoneResult(
        judged,
        float(strips.sum()),
        float(least.min()) if len(least) else np.nan,
        float(mean),
        float(most.max()) if len(most) else np.nan,
    )


def result_of_points(deviation: Floats, judged: Ints) -> ZoneResult:
    """Return what was found at points of some zones."""
    if not len(deviation):
        return ZoneResult(np.zeros(3), 0.0, np.nan, np.nan, np.nan)
    return ZoneResult(
        np.bincount(judged, minlength=3).astype(np.float64),
        0.0,
        float(deviation.min()),
        float(deviation.mean()),
        float(deviation.max()),
    )


@dataclass(frozen=True, eq=False)
class Histogram:
    """How much ground (or how many points) deviates by how much.

    Parameters
    ----------
    limits : (b + 1,) float
        Limits of the bars; the first and the last bar also hold what lies beyond.
    measure : (b,) float
        Area or number of points in each bar.
    """

    limits: Floats
    measure: Floats


def histogram_of_ground(sums: Sums, classes: Classes, asked: Asked, rows: Ints) -> Histogram:
    """Return the histogram of the ground of some zones."""
    edges = classes.edges
    middle = np.concatenate(([edges[0] - 1], (edges[:-1] + edges[1:]) / 2, [edges[-1] + 1]))
    area = sums.area[rows].sum(axis=0)[: len(middle)]
    return _barred(middle, area, asked.bars())


def histogram_of_points(deviation: Floats, asked: Asked) -> Histogram:
    """Return the histogram of points."""
    # A deviation on a limit, but for rounding, belongs to the bar above it.
    return _barred(deviation + 1e-9, np.ones(len(deviation)), asked.bars())


def _barred(values: Floats, weight: Floats, limits: Floats) -> Histogram:
    bar = np.clip(np.searchsorted(limits, values, side="right") - 1, 0, len(limits) - 2)
    return Histogram(limits, np.bincount(bar, weight, len(limits) - 1).astype(np.float64))
