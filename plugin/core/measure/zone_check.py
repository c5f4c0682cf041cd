"""What is wrong with the zones of a design: overlaps, gaps, ground past the design."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from ..depth.overlays import mended, overlay, unite, wide_parts
from ..text import translate
from ..tin import Tin
from ..tolerance import Tolerance
from .issues import Issue, Issues, JobScale, Weight, point_on

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Shapes = NDArray[np.object_]

_WEDGE = 1.5  # mean widths: an end so wide is that of a wedge
_LONG_WEDGE = 200.0  # gaps: a shorter wedge opens by 0.3 degrees or more, which is meant


@dataclass(frozen=True, eq=False)
class NamedZones:
    """Zones as they were drawn.

    Parameters
    ----------
    polygons : (k,) object
        Valid shapely polygons.
    ids : (k,) int
        Feature ids.
    names : sequence of str
        What people call each.
    priority : (k,) float, optional
        Where two overlap the lower number wins; NaN where none is given.
    """

    polygons: Shapes
    ids: Ints
    names: Sequence[str]
    priority: Floats | None = None


def outline_of(tin: Tin) -> shapely.Geometry:
    """Return the ground a surface covers in plan; holes are left out of it."""
    border = tin.vertices[tin.edges.ends[tin.edges.boundary], :2]
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        area = shapely.build_area(shapely.multilinestrings(shapely.linestrings(border)))
        return mended(area)


def check_zones(
    issues: Issues,
    zones: NamedZones,
    outline: shapely.Geometry,
    tolerance: Tolerance,
    scale: JobScale,
    gap: float,
) -> float:
    """Look for overlaps and gaps of zones, and for zones past the design.

    Parameters
    ----------
    issues : Issues
        Takes what is found.
    zones : NamedZones
        The zones.
    outline : shapely geometry
        The ground the design covers.
    tolerance : Tolerance
        What is thinner than ``node_grid`` is rounding.
    scale : JobScale
        The units.
    gap : float
        Zones up to this far apart are meant to meet.

    Returns
    -------
    float
        Plan area of the design in no zone.
    """
    # Near the origin, where the coordinates leave room for thin shapes.
    origin = np.floor(shapely.bounds(outline)[:2])
    near = NamedZones(
        shapely.transform(zones.polygons, lambda xy: xy - origin),
        zones.ids,
        zones.names,
        zones.priority,
    )
    ground = shapely.transform(outline, lambda xy: xy - origin)
    local = Issues()
    with np.errstate(all="ignore"):  # GEOS leaves floating point flags set where it recovers
        _overlaps(local, near, tolerance, scale)
        whole = unite(near.polygons, tolerance)
        _gaps(local, near, whole, ground, tolerance, scale, gap)
        _beyond(local, near, ground, tolerance, scale)
        free = float(overlay(shapely.difference, ground, whole, tolerance).area)
    issues.take(_moved(issue, origin) for issue in local.found)
    return free


def _moved(issue: Issue, origin: Floats) -> Issue:
    extent = shapely.transform(issue.extent, lambda xy: xy + origin)
    return Issue(
        issue.code,
        issue.why,
        point_on(extent),
        issue.weight,
        extent,
        issue.feature,
        issue.area,
    )


def _parts(shape: shapely.Geometry, grid: float) -> list[shapely.Polygon]:
    """Return the polygons of a shape that are wider than the grid on average."""
    parts = shapely.get_parts(wide_parts(np.array([shape], dtype=object), grid)[0])
    return list(parts[~shapely.is_empty(parts)])


def _width(shape: shapely.Geometry) -> float:
    """Return the mean width of a long shape."""
    return 2.0 * float(shape.area) / float(shape.length)


def _overlaps(issues: Issues, zones: NamedZones, tolerance: Tolerance, scale: JobScale) -> None:
    polygons = zones.polygons
    first, second = shapely.STRtree(polygons).query(polygons, predicate="intersects")
    pair = first < second
    first, second = first[pair], second[pair]
    shared = overlay(shapely.intersection, polygons[first], polygons[second], tolerance)
    torn = translate(
        "Core",
        "Zones “{one}” and “{other}” overlap on {area}, {width} wide on average: no priority says which wins.",
    )
    settled = translate(
        "Core", "Zones “{one}” and “{other}” overlap on {area}: “{winner}” wins by its priority."
    )
    for a, b, shape in zip(first.tolist(), second.tolist(), shared, strict=True):
        winner = _winner(zones.priority, a, b)
        for part in _parts(shape, tolerance.node_grid):
            why = (torn if winner is None else settled).format(
                one=zones.names[a],
                other=zones.names[b],
                area=scale.area(part.area),
                width=scale.length(_width(part)),
                winner=zones.names[a if winner is None else winner],
            )
            weight = Weight.ERROR if winner is None else Weight.NOTE
            issues.take(
                [Issue("zone_overlap", why, None, weight, part, int(zones.ids[a]), part.area)]
            )


def _winner(priority: Floats | None, a: int, b: int) -> int | None:
    if priority is None or priority[a] == priority[b] or np.isnan(priority[[a, b]]).any():
        return None
    return a if priority[a] < priority[b] else b


def _gaps(
    issues: Issues,
    zones: NamedZones,
    whole: shapely.Geometry,
    ground: shapely.Geometry,
    tolerance: Tolerance,
    scale: JobScale,
    gap: float,
) -> None:
    """Find slits between zones that should meet, and ground that zones enclose."""
    narrow = translate(
        "Core",
        "Zones “{one}” and “{other}” leave a gap of {area} between them, {width} wide on average and {length} long.",
    )
    alone = translate(
        "Core",
        "Zone “{one}” leaves a slit of {area}, {width} wide on average and {length} long.",
    )
    wide = translate("Core", "Zones enclose {area} of the design that no zone covers.")
    tree = shapely.STRtree(zones.polygons)
    slits = _slits(whole, ground, tolerance, gap)
    for part in slits:
        beside = np.sort(tree.query(part, predicate="dwithin", distance=tolerance.snap))
        names = [zones.names[k] for k in beside]
        text = narrow if len(names) > 1 else alone
        why = text.format(
            one=names[0] if names else "",
            other=names[1] if len(names) > 1 else "",
            area=scale.area(part.area),
            width=scale.length(_width(part)),
            length=scale.length(0.5 * part.length),
        )
        identifier = int(zones.ids[beside[0]]) if len(beside) else None
        issues.take([Issue("zone_gap", why, None, Weight.CHECK, part, identifier, part.area)])
    taken = shapely.union_all(slits) if slits else None
    for part in _parts(_enclosed(whole, ground), tolerance.node_grid):
        if taken is not None and taken.intersection(part).area > 0.5 * part.area:
            continue
        why = wide.format(area=scale.area(part.area))
        issues.take([Issue("no_zone", why, None, Weight.CHECK, part, None, part.area)])


def _slits(
    whole: shapely.Geometry, ground: shapely.Geometry, tolerance: Tolerance, gap: float
) -> list[shapely.Polygon]:
    """Return what closes when the zones grow by half a gap and shrink again."""
    if gap <= 0:
        return []
    corner = {"join_style": "mitre", "mitre_limit": 5.0}
    grown = shapely.buffer(whole, 0.5 * gap, **corner)
    closed = shapely.buffer(grown, -0.5 * gap, **corner)
    filled = shapely.intersection(shapely.difference(closed, whole), ground)
    # Hairs along the borders are rounding.
    hair = 0.5 * tolerance.node_grid
    filled = shapely.buffer(shapely.buffer(filled, -hair, **corner), hair, **corner)
    border = shapely.buffer(whole.boundary, 2.0 * hair)
    found = []
    for part in _parts(filled, tolerance.node_grid):
        # Zones that part at a sharp corner leave a wedge, open where it is no gap any more.
        mouths = shapely.get_parts(shapely.line_merge(part.boundary.difference(border)))
        mouth = float(shapely.length(mouths).max(initial=0.0))
        if mouth < _WEDGE * _width(part) or 0.5 * part.length >= _LONG_WEDGE * gap:
            found.append(part)
    return found


def _enclosed(whole: shapely.Geometry, ground: shapely.Geometry) -> shapely.Geometry:
    rings = [ring for part in shapely.get_parts(whole) for ring in part.interiors]
    if not rings:
        return shapely.Polygon()
    inside = shapely.difference(shapely.union_all(shapely.polygons(rings)), whole)
    return shapely.intersection(inside, ground)


def _beyond(
    issues: Issues,
    zones: NamedZones,
    ground: shapely.Geometry,
    tolerance: Tolerance,
    scale: JobScale,
) -> None:
    text = translate(
        "Core", "Zone “{name}” reaches past the design on {area}, {width} wide on average."
    )
    away = translate("Core", "Zone “{name}” lies outside the design.")
    shapely.prepare(ground)
    past = np.flatnonzero(~shapely.covers(ground, zones.polygons))
    left = overlay(
        shapely.difference, zones.polygons[past], np.array([ground] * len(past)), tolerance
    )
    for row, shape in zip(past.tolist(), left, strict=True):
        whole = shape.area >= zones.polygons[row].area * (1 - 1e-9)
        for part in _parts(shape, tolerance.node_grid):
            why = (away if whole else text).format(
                name=zones.names[row], area=scale.area(part.area), width=scale.length(_width(part))
            )
            issues.take(
                [
                    Issue(
                        "zone_beyond", why, None, Weight.CHECK, part, int(zones.ids[row]), part.area
                    )
                ]
            )
