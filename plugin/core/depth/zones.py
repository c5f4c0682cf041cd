"""Zones: the polygons below which a depth holds, made fit for cutting.

A zone is one polygon (or multipolygon) feature with a depth. Zones must not overlap: either the
input says so, or a priority settles who wins.
"""

import math
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np
import shapely

from ..errors import ZoneError
from ..findings import Finding
from ..text import translate
from ..tolerance import Tolerance
from .joining import Joined, join_borders
from .overlays import overlay, unite, wide_parts


class Outside(StrEnum):
    """What happens to the design outside all zones."""

    KEEP = "keep"
    LEAVE_OUT = "leave_out"
    USE_DEPTH = "use_depth"


@dataclass(frozen=True)
class Settling:
    """What was done to zones so that they fit together.

    Parameters
    ----------
    joined
        Number of zones whose borders were led along a neighbour's.
    largest_move
        Greatest distance a border moved, in plan units.
    place
        Where, or None.
    """

    joined: int = 0
    largest_move: float = 0.0
    place: tuple[float, float] | None = None


@dataclass(frozen=True)
class Zones:
    """Polygons with a depth each.

    Parameters
    ----------
    polygons
        (k,) object array of shapely Polygon or MultiPolygon; Z is ignored.
    depths
        (k,) float, positive below the design, in vertical units.
    ids
        (k,) int, feature ids, used in messages and results.
    priority
        (k,) float or None. Where zones overlap the **lower** number wins (1 before 2).
    squares
        (k,) float, thickness at right angles to the design, in vertical units; it comes on top
        of the plumb depth. None for none.
    widths
        (k,) float, how far the bottom carries on past the edge, in plan units. None for none.
    batters
        (k,) float, run per rise of the sides; 0 is upright. None for all upright.
    settling
        What `resolve` has done to them, None before: after it, empty polygons are zones that
        others cover.
    """

    polygons: np.ndarray
    depths: np.ndarray
    ids: np.ndarray
    priority: np.ndarray | None = None
    squares: np.ndarray = None  # type: ignore[assignment]
    widths: np.ndarray = None  # type: ignore[assignment]
    batters: np.ndarray = None  # type: ignore[assignment]
    settling: "Settling | None" = None

    def __post_init__(self) -> None:
        """Fill in what was left out."""
        for name in ("squares", "widths", "batters"):
            if getattr(self, name) is None:
                object.__setattr__(self, name, np.zeros(len(self.polygons)))

    @property
    def largest_move(self) -> float:
        """Greatest distance a border moved when neighbours were joined, in plan units."""
        return 0.0 if self.settling is None else self.settling.largest_move

    def __len__(self) -> int:
        """Return the number of zones."""
        return len(self.polygons)


def resolve(zones: Zones, tolerance: Tolerance) -> Zones:
    """Return the zones checked and disjoint, in the order given.

    First, borders of neighbours nearer than ``tolerance.join`` are drawn together. What still
    overlaps counts when a part of it is wider on average than that and than the node grid (its
    area is more than half its perimeter times the width); thinner ones are left to the zone that
    wins, or vanish when the borders are noded. A
    zone that another one covers wholly becomes empty and keeps its place in the order; settled
    zones may be given again.

    Parameters
    ----------
    zones
        The zones as read.
    tolerance
        Tolerances in plan units.

    Raises
    ------
    ZoneError
        There is no zone; a zone is empty, invalid or has no depth; two zones overlap and no
        priority, or the same one, is given. The message names the features and a place.
    """
    polygons = _checked(zones)
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        return _disjoint(zones, polygons, tolerance)


def snapped(zones: Zones) -> list[Finding]:
    """Return what there is to say about borders that `resolve` has drawn together."""
    done = zones.settling
    if done is None or done.place is None:
        return []
    why = translate(
        "Core",
        "Zones drawn onto the border of a neighbour that they nearly met: {count}, by {move:.2g} at most, near {x:.3f}, {y:.3f}: let the zones share their borders.",
    ).format(count=done.joined, move=done.largest_move, x=done.place[0], y=done.place[1])
    return [Finding("snapped", why, done.place)]


def _disjoint(zones: Zones, polygons: np.ndarray, tolerance: Tolerance) -> Zones:
    drawn = join_borders(polygons, tolerance.join)
    polygons = drawn.polygons
    first, second = shapely.STRtree(polygons).query(polygons)
    pair = first < second
    first, second = first[pair], second[pair]
    shared = overlay(shapely.intersection, polygons[first], polygons[second], tolerance)
    wide = wide_parts(shared, tolerance.node_grid)
    real = ~shapely.is_empty(wide)
    first, second, wide = first[real], second[real], wide[real]
    meant = ~shapely.is_empty(wide_parts(wide, max(tolerance.node_grid, tolerance.join)))
    for a, b, place in zip(first[meant], second[meant], wide[meant], strict=True):
        _demand_priority(zones, a, b, place)
    place = _order_of_winning(zones, polygons)
    wins = place[first] < place[second]
    winner, loser = np.where(wins, first, second), np.where(wins, second, first)
    left = _subtract(polygons, place, winner, loser, tolerance)
    return replace(zones, polygons=left, settling=_settling(zones, drawn, tolerance))


def _order_of_winning(zones: Zones, polygons: np.ndarray) -> np.ndarray:
    """Return the place of each zone: by priority, then the larger first, then by position."""
    priority = zones.priority
    if priority is None:
        priority = np.zeros(len(polygons))
    bounds = shapely.bounds(polygons)
    order = np.lexsort((*bounds.T, -shapely.area(polygons), priority))
    place = np.empty(len(order), dtype=np.int64)
    place[order] = np.arange(len(order))
    return place


def _settling(zones: Zones, drawn: Joined, tolerance: Tolerance) -> Settling:
    """Say what joining did, but for rounding."""
    before = zones.settling or Settling()
    if drawn.place is None or drawn.moved <= max(before.largest_move, tolerance.hairline):
        return before
    x, y = drawn.place.tolist()
    return Settling(drawn.count, drawn.moved, (x, y))


def _checked(zones: Zones) -> np.ndarray:
    if not len(zones):
        raise ZoneError(
            translate("Core", "There are no zones: give at least one polygon with a depth.")
        )
    polygons = shapely.force_2d(np.asarray(zones.polygons, dtype=object))
    for polygon, depth, identifier in zip(polygons, zones.depths, zones.ids, strict=True):
        if polygon is None or (polygon.is_empty and zones.settling is None):
            raise ZoneError(
                translate("Core", "Zone {zone} has no geometry: draw it or delete it.").format(
                    zone=identifier
                )
            )
        if polygon.geom_type not in ("Polygon", "MultiPolygon"):
            raise ZoneError(
                translate("Core", "Zone {zone} is not a polygon but a {kind}.").format(
                    zone=identifier, kind=polygon.geom_type
                )
            )
        if depth is None or not math.isfinite(depth):
            raise ZoneError(
                translate(
                    "Core",
                    "Zone {zone} has no depth: fill in the depth field or give a depth for all.",
                ).format(zone=identifier)
            )
    bad = np.flatnonzero(~shapely.is_valid(polygons))
    if len(bad):
        reason = shapely.is_valid_reason(polygons[bad[0]])
        raise ZoneError(
            translate(
                "Core",
                "Zone {zone} is not a valid polygon ({reason}): mend its outline, then run again.",
            ).format(zone=zones.ids[bad[0]], reason=reason)
        )
    return polygons


def _demand_priority(zones: Zones, a: int, b: int, place: shapely.Geometry) -> None:
    spot = shapely.point_on_surface(place)
    values = {
        "first": zones.ids[a],
        "second": zones.ids[b],
        "x": f"{spot.x:.3f}",
        "y": f"{spot.y:.3f}",
        "area": f"{place.area:.4g}",
    }
    if zones.priority is None:
        raise ZoneError(
            translate(
                "Core",
                "Zones {first} and {second} overlap by {area} square units near {x}, {y}: trim one of them, or give a priority field (the lower number wins).",
            ).format(**values)
        )
    one, other = zones.priority[a], zones.priority[b]
    if not (math.isfinite(one) and math.isfinite(other)):
        raise ZoneError(
            translate(
                "Core",
                "Zones {first} and {second} overlap near {x}, {y} and one of them has no priority: fill in the priority field (the lower number wins).",
            ).format(**values)
        )
    if one == other:
        raise ZoneError(
            translate(
                "Core",
                "Zones {first} and {second} overlap near {x}, {y} and have the same priority {priority}: give one of them a lower number to let it win.",
            ).format(priority=f"{one:g}", **values)
        )


def _subtract(
    polygons: np.ndarray,
    place: np.ndarray,
    winner: np.ndarray,
    loser: np.ndarray,
    tolerance: Tolerance,
) -> np.ndarray:
    """Take from each zone what the more important ones cover."""
    result = polygons.copy()
    # One canonical order of the winners: the result must not depend on the feature order.
    order = np.lexsort((place[winner], loser))
    winner, loser = winner[order], loser[order]
    for zone in np.unique(loser):
        begin, stop = np.searchsorted(loser, (zone, zone + 1))
        cover = shapely.normalize(polygons[winner[begin:stop]])
        whole = unite(cover, tolerance)
        left = overlay(shapely.difference, polygons[zone], whole, tolerance)
        parts = shapely.get_parts(left)
        parts = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
        result[zone] = parts[0] if len(parts) == 1 else shapely.MultiPolygon(list(parts))
    return result
