"""Whether the depth asked for is there: over ground, and at points."""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
import shapely
from numpy.typing import NDArray

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
        """Return the width of the bars of a histogram: a round share of the tolerances."""
        finite = np.concatenate((self.less, self.more))
        finite = finite[np.isfinite(finite) & (finite > 0)]
        wanted = float(finite.min()) / 2 if len(finite) else 50 * self.slack
        power = 10.0 ** np.floor(np.log10(wanted))
        return float(max(step * power for step in (1, 2, 5) if step * power <= wanted * 1.0001))

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
    shape : shapely.Polygon
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
    shape: shapely.Polygon
    xy: Floats
    deviation: float
    narrow: bool


def failing_parts(
    shapes: NDArray[np.object_],
    corners: tuple[Floats, Floats, Ints],
    asked: Asked,
    narrow: float,
) -> list[Part]:
    """Return the regions that fail, the farthest off first.

    Parameters
    ----------
    shapes : (k, 3) object
        Outline of each zone and `Verdict`.
    corners : (p, 2) float, (p,) float, (p,) int
        Places beyond the limits, the deviation there and the zone.
    asked : Asked
        What is asked for.
    narrow : float
        Mean width (twice the area over the outline) below which a region is a strip.
    """
    xy, deviation, zone = corners
    judged = asked.judged(deviation, zone)
    found = []
    for row, verdict in np.argwhere(shapes != None):  # noqa: E711 - element by element
        if verdict == Verdict.PASS:
            continue
        parts = shapely.get_parts(shapes[row, verdict])
        some = np.flatnonzero((zone == row) & (judged == verdict))
        order = some[np.argsort(-np.abs(deviation[some]), kind="stable")]
        worst = np.full(len(parts), -1, dtype=np.int64)
        if len(order):
            with np.errstate(all="ignore"):  # GEOS leaves floating point flags set
                spots = shapely.points(xy[order])
                pair = shapely.STRtree(parts).query_nearest(spots, all_matches=False)
            at, first = np.unique(pair[1], return_index=True)
            worst[at] = order[pair[0][first]]
        width = 2 * shapely.area(parts) / np.maximum(shapely.length(parts), 1e-12)
        for shape, corner, wide in zip(parts, worst, width, strict=True):
            if corner >= 0:
                found.append(
                    Part(
                        int(row),
                        Verdict(int(verdict)),
                        shape,
                        xy[corner],
                        float(deviation[corner]),
                        bool(wide < narrow),
                    )
                )
    # Of parts that are off the same but for rounding, the western one first.
    return sorted(found, key=lambda part: (-round(abs(part.deviation), 9), *part.xy.tolist()))


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
