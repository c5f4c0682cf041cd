"""Random ways to dig, and what a depth surface must fulfil whatever was asked for."""

from dataclasses import replace

import numpy as np
import shapely

from plugin.core.depth.manner import BatterRule, Corners, Manner
from plugin.core.depth.patchwork import Part
from plugin.core.depth.zones import Outside

from .cut_shapes import border_length, heights_off_planes, mesh_faults, rounding, sheet, zones_of

JOINED = 1e-8
"""Nodes of sides nearer than this (a ten-thousandth of the snap distance) may become one, so that
the outline of a surface, and a plane at right angles to it, may be off by as much."""


def random_ways(random, zones, square=False):
    """Give some zones a width, a batter and, if asked for, a thickness square to the slope."""
    count = len(zones)

    def some(values, share):
        return np.where(random.random(count) < share, random.choice(values, count), 0.0)

    widths = some([0.05, 0.3, 1.0, 1e-3], 0.4)
    batters = some([0.25, 1.0, 1.5, 3.0], 0.6)
    squares = some([0.2, 0.6], 0.5) if square else np.zeros(count)
    corners, rule = (list(kind)[random.integers(2)] for kind in (Corners, BatterRule))
    manner = Manner(corners=corners, rule=rule)
    return replace(zones, widths=widths, batters=batters, squares=squares), manner


def volume_under(tin):
    """Integral of the heights, counted from a fixed height so that little is lost in digits."""
    return (tin.plan_areas * tin.vertices[tin.faces, 2].mean(axis=1)).sum()


def pit_faults(tin, surface, outside, depth=0.0, rule=BatterRule.LEVEL):
    """What is wrong with a surface of which nothing was carried on; empty when all is well."""
    result, zones = surface.tin, surface.zones
    faults = mesh_faults(tin, result, surface.parent)
    whole = outside is not Outside.LEAVE_OUT
    if whole:
        allowed = 1e-9 * tin.plan_area + rounding(tin) + JOINED * border_length(tin)
        if abs(result.plan_area - tin.plan_area) > allowed:
            faults.append("areas do not add up")
        if abs(border_length(result) - border_length(tin)) > 1e-7 * border_length(tin):
            faults.append("cracks")
        told = surface.quantities.cuts.sum() - surface.quantities.fills.sum()
        between = volume_under(tin) - volume_under(result)
        highest = max(np.abs(surface.depths).max(), np.ptp(tin.vertices[:, 2]), 1.0)
        if abs(told - between) > allowed * highest:
            faults.append(f"volume {told} is not {between}")
    elsewhere = depth if outside is Outside.USE_DEPTH else 0.0
    wanted = np.append(zones.depths, elsewhere)[surface.zone][:, None]
    off, square, known = heights_off_planes(tin, result, surface.parent)
    allowed = max(1e-9 * max(np.ptp(tin.vertices[:, :2]), np.abs(tin.vertices).max()), JOINED)
    plumb = np.append(zones.squares, 0.0)[surface.zone] == 0
    bottom = known & plumb & np.isin(surface.part, (Part.BOTTOM, Part.DESIGN))
    if (np.abs((off - wanted) / square)[bottom] > allowed).any():
        faults.append("bottoms off the plane of the design less the depth")
    deepest = max(float(zones.depths.max()), elsewhere, 0.0)
    if (
        rule is BatterRule.DESIGN
        and not zones.squares.any()
        and surface.depths.max() > deepest + 1e-7
    ):
        faults.append("deeper than anything asked for")
    if any(finding.code == "unsure" for finding in surface.findings):
        faults.append("contradicting borders")
    return faults


def depths_by_distance(points, zones, elsewhere=0.0):
    """Plumb depth at points where batters lessen it by 1 per run, round about corners.

    The definition, point by point: the depth of the zone a point is in, or outside all the
    greatest raise that reaches it; then the greatest of that and of what all cuts leave there.
    """
    distance = np.array([shapely.distance(polygon, points) for polygon in zones.polygons])
    distance[np.isnan(distance)] = np.inf
    inside = (distance == 0) & ~shapely.is_empty(zones.polygons)[:, None]
    base = np.full(len(points), elsewhere)
    with np.errstate(divide="ignore", invalid="ignore"):
        lost = np.where(distance == 0, 0.0, distance / zones.batters[:, None])
    for row in np.flatnonzero(zones.depths < 0):
        base = np.minimum(base, np.minimum(zones.depths[row] + lost[row], 0.0))
    for row in range(len(zones)):
        base[inside[row]] = zones.depths[row]
    for row in np.flatnonzero(zones.depths > 0):
        base = np.maximum(base, zones.depths[row] - lost[row])
    return base


def incentres(tin, rows):
    """Middle and radius of the circles in some faces."""
    corners = tin.vertices[tin.faces[rows], :2]
    sides = np.stack(
        [np.hypot(*(corners[:, k - 2] - corners[:, k - 1]).T) for k in range(3)], axis=1
    )
    around = sides.sum(axis=1)
    weights = sides / around[:, None]
    return np.einsum("ik,ikj->ij", weights, corners), 2 * tin.plan_areas[rows] / around, weights


def off_the_definition(surface, least, elsewhere=0.0):
    """Greatest difference of plumb depths from `depths_by_distance`, over faces not too narrow."""
    rows = np.flatnonzero(surface.part != Part.STEP)
    spots, radius, weights = incentres(surface.tin, rows)
    wide = radius > least
    told = (surface.depths[surface.tin.faces[rows]] * weights).sum(axis=1)[wide]
    wanted = depths_by_distance(shapely.points(spots[wide]), surface.zones, elsewhere)
    return float(np.abs(told - wanted).max(initial=0.0))


def plain_case(seed):
    """Bumpy sheets, and zones well inside with one batter that overlap as they like, by priority.

    One batter for all: of two, the flatter one would end where it meets the neighbour's bottom,
    while the definition by distances lets it come up again behind that neighbour.
    """
    random = np.random.default_rng(seed)
    size = int(random.integers(8, 16))
    tin = sheet(size + 1, size + 1, 1.0, 0.2 * random.integers(2), int(random.integers(99)))
    made = []
    for _ in range(int(random.integers(1, 5))):
        spots = random.uniform(2, size - 2, (int(random.integers(3, 6)), 2))
        around = np.argsort(np.arctan2(*(spots - spots.mean(axis=0)).T[::-1]))
        shape = shapely.Polygon(spots[around])
        if shape.is_valid and shape.area > 0.2:
            made.append(shape)
    made = made or [shapely.box(3, 3, 5, 6)]
    depths = random.choice([0.3, 0.7, 1.1, -0.5], len(made))
    zones = zones_of(*zip(made, depths, strict=True), priority=np.arange(len(made), dtype=float))
    batters = np.full(len(made), random.choice([0.25, 1.0, 1.5]))
    return tin, replace(zones, batters=batters, widths=random.choice([0.0, 0.4], len(made)))
