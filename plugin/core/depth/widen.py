"""Widened zones: the bottom carries on past the edge of its zone, and the deeper one wins.

A plan often stops short of what has to be dug, at the back of a curb for instance, while the
cut must run on past it (common practice, no source).
"""

import math
from dataclasses import replace

import numpy as np
import shapely
from numpy.typing import NDArray

from ..errors import ZoneError
from ..progress import Progress, silent
from ..text import translate
from ..tin.cut.lookup import canonical_rank
from ..tolerance import Tolerance
from .manner import Manner
from .outlines import Shapes, widened
from .overlays import overlay, unite, wide_parts, without_hairlines
from .zones import Zones

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def widen(zones: Zones, manner: Manner, tolerance: Tolerance, progress: Progress = silent) -> Zones:
    """Return the zones widened and disjoint, in the order given.

    Where several widened zones lie over one another, the one with the greatest depth (plumb and
    square thickness together) has the place. Of equally deep ones it is the zone whose own
    polygon it is, else the one with the lower id, else the first by shape, so that the order of
    the features does not matter. Nothing outside all zones stands against a widened one.

    Parameters
    ----------
    zones : Zones
        Disjoint, as `resolve` makes them, or overlapping on purpose, such as one zone several
        times with other depths and widths. Overlaps thinner than the node grid stay.
    manner : Manner
        How outward corners are carried around; see `widened`.
    tolerance : Tolerance
        In plan units.
    progress : Progress
        Told the share done.

    Returns
    -------
    Zones
        A zone that others take wholly is empty and keeps its row; one that is not widened, and
        of which nothing is taken, keeps its polygon bit for bit.

    Raises
    ------
    ZoneError
        A width is negative or no number; the zone is named.
    """
    _check_widths(zones)
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        wide = widened(zones.polygons, zones.widths, manner, tolerance)
        progress(0.3)
        return replace(zones, polygons=_deepest(zones, wide, tolerance, progress))


def _check_widths(zones: Zones) -> None:
    for width, identifier in zip(zones.widths, zones.ids, strict=True):
        if not (math.isfinite(width) and width >= 0):
            raise ZoneError(
                translate(
                    "Core",
                    "Zone {zone} is to be widened by {width}: give 0 or more, a bottom can only carry on outward.",  # noqa: E501
                ).format(zone=identifier, width=f"{width:g}")
            )


def _deepest(zones: Zones, wide: Shapes, tolerance: Tolerance, progress: Progress) -> Shapes:
    """Take from each widened zone what others win."""
    winner, loser, taken = _won(zones, wide, tolerance)
    result = wide.copy()
    if not len(loser):
        return result
    order = np.lexsort((winner, loser))
    loser, taken = loser[order], taken[order]
    rows, start = np.unique(loser, return_index=True)
    for number, (row, begin, stop) in enumerate(
        zip(rows, start, np.append(start[1:], len(loser)), strict=True)
    ):
        cover = unite(taken[begin:stop], tolerance)
        # Borders that are the same but for rounding are made the same, else hairs are left.
        given = shapely.snap(wide[row], cover, tolerance.hairline)
        result[row] = without_hairlines(
            overlay(shapely.difference, given, cover, tolerance), tolerance
        )
        if number % 64 == 0:
            progress(0.4 + 0.6 * number / len(rows))
    return result


def _won(zones: Zones, wide: Shapes, tolerance: Tolerance) -> tuple[Ints, Ints, Shapes]:
    """Return who wins what from whom: places in the order of winning, losing rows, and areas."""
    depth = np.asarray(zones.depths, dtype=np.float64) + zones.squares
    order = np.lexsort((zones.batters, canonical_rank(wide), zones.ids, -depth))
    place = np.empty(len(order), dtype=np.int64)
    place[order] = np.arange(len(order))
    one, other = _overlapping(wide, zones.widths > 0, tolerance)
    first = np.where(place[one] < place[other], one, other)
    second = np.where(place[one] < place[other], other, one)
    tie = depth[first] == depth[second]
    taken = wide[first]
    # Among equally deep ones each keeps what is its own alone.
    own = overlay(
        shapely.difference, zones.polygons[second[tie]], zones.polygons[first[tie]], tolerance
    )
    taken[tie] = overlay(shapely.difference, wide[first[tie]], own, tolerance)
    taken = np.concatenate((taken, own))
    winner = np.concatenate((place[first], place[second[tie]]))
    loser = np.concatenate((second, first[tie]))
    some = ~shapely.is_empty(taken)
    return winner[some], loser[some], taken[some]


def _overlapping(
    wide: Shapes, is_widened: NDArray[np.bool_], tolerance: Tolerance
) -> tuple[Ints, Ints]:
    """Return the pairs of zones that share more than a border."""
    one, other = shapely.STRtree(wide).query(wide, predicate="intersects")
    pair = one < other
    one, other = one[pair], other[pair]
    shared = overlay(shapely.intersection, wide[one], wide[other], tolerance)
    # Zones that are not widened keep the thin overlaps they came with.
    fixed = ~(is_widened[one] | is_widened[other])
    real = shapely.area(shared) > 0.5 * tolerance.hairline * shapely.length(shared)
    real[fixed] = ~shapely.is_empty(wide_parts(shared[fixed], tolerance.node_grid))
    return one[real], other[real]
