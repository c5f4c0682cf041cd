"""Overlays of polygons that survive borders which all but coincide."""

from collections.abc import Callable
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from ..tolerance import Tolerance

Floats = NDArray[np.float64]
Shapes = NDArray[np.object_]

_FINE_SHARE = 0.05


def overlay(operation: Callable[..., Any], one: Any, other: Any, tolerance: Tolerance) -> Any:
    """Overlay exactly; where borders all but coincide and GEOS gives up, on a fine grid."""
    try:
        return operation(one, other)
    except shapely.GEOSException:
        if isinstance(one, np.ndarray):  # one by one, so that the others stay exact
            done = np.empty(len(one), dtype=object)
            done[:] = [
                overlay(operation, *pair, tolerance) for pair in zip(one, other, strict=True)
            ]
            return done
        grid = _FINE_SHARE * tolerance.node_grid
        return operation(_on_grid(one, grid), _on_grid(other, grid), grid_size=grid)


def unite(shapes: Shapes, tolerance: Tolerance) -> shapely.Geometry:
    """Unite shapes exactly; where GEOS gives up or loses one of them, on a fine grid."""
    if len(shapes) == 1:
        return shapes[0]
    try:
        whole = shapely.union_all(shapes)
    except shapely.GEOSException:
        whole = None
    if whole is not None and _holds(whole, shapes, tolerance.hairline):
        return whole
    grid = _FINE_SHARE * tolerance.node_grid
    return shapely.union_all([_on_grid(shape, grid) for shape in shapes], grid_size=grid)


def _holds(whole: shapely.Geometry, shapes: Shapes, reach: float) -> bool:
    """Tell whether no corner of some shapes is missing in their union, as happens in GEOS 3.11."""
    if whole.area < shapely.area(shapes).max() * (1 - 1e-9):
        return False
    inside = shapely.point_on_surface(shapes[~shapely.is_empty(shapes)])
    corners = np.unique(shapely.get_coordinates(shapes), axis=0)
    shapely.prepare(whole)
    return bool(
        shapely.intersects(whole, inside).all()
        and shapely.dwithin(whole, shapely.points(corners), reach).all()
    )


def mended(shape: shapely.Geometry) -> shapely.Geometry:
    """Return what a shape that crosses itself encloses, polygons only; rounding may stay."""
    if shape.is_valid:
        return shape
    try:
        made = shapely.make_valid(shape, method="structure", keep_collapsed=False)
    except shapely.GEOSException:
        made = shapely.make_valid(shape)
    parts = shapely.get_parts(shapely.get_parts(made))
    parts = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(list(parts))


def _on_grid(shape: shapely.Geometry, grid: float) -> shapely.Geometry:
    return shapely.set_precision(mended(shape), grid)


def wide_parts(shared: np.ndarray, grid: float) -> np.ndarray:
    """Keep of each geometry the polygons that are wider than the grid on average."""
    parts, owner = shapely.get_parts(shared, return_index=True)
    nested, inner = shapely.get_parts(parts, return_index=True)
    owner = owner[inner]
    keep = shapely.area(nested) > 0.5 * grid * shapely.length(nested)
    kept = np.full(len(shared), shapely.Polygon(), dtype=object)
    for row in np.unique(owner[keep]):
        chosen = nested[keep & (owner == row)]
        kept[row] = chosen[0] if len(chosen) == 1 else shapely.MultiPolygon(list(chosen))
    return kept


def without_hairlines(shape: shapely.Geometry, tolerance: Tolerance) -> shapely.Geometry:
    """Return a shape without parts, holes, spikes and slits too thin to be meant.

    Such are left by overlays where two borders are the same but for rounding.
    """
    hair = tolerance.hairline
    kept = []
    for part in shapely.get_parts(shape):
        if part.geom_type != "Polygon" or _is_hair(part, hair):
            continue
        rings = [part.exterior, *part.interiors]
        solid = [rings[0], *(ring for ring in rings[1:] if not _is_hair(ring, hair))]
        smooth = [_without_spikes(ring, hair) for ring in solid]
        if len(solid) < len(rings) or any(a is not b for a, b in zip(smooth, solid, strict=True)):
            smooth = [ring for ring in smooth if ring is not None]
            cleaned = shapely.Polygon(smooth[0], smooth[1:]) if smooth else shapely.Polygon()
            part = cleaned if cleaned.is_valid else part  # noqa: PLW2901
        if not part.is_empty:
            kept.append(part)
    if not kept:
        return shapely.Polygon()
    return kept[0] if len(kept) == 1 else shapely.MultiPolygon(kept)


def _is_hair(shape: shapely.Geometry, hair: float) -> bool:
    area = shapely.area(shapely.Polygon(shape) if shape.geom_type == "LinearRing" else shape)
    return bool(area <= 0.5 * hair * shape.length)


def _without_spikes(ring: shapely.LinearRing, hair: float) -> shapely.LinearRing | None:
    """Return the ring without corners it runs to and back from on one line; itself if none."""
    xy = shapely.get_coordinates(ring)[:-1]
    if not _is_spike(np.roll(xy, 1, axis=0), xy, np.roll(xy, -1, axis=0), hair).any():
        return ring
    points = list(xy)
    at, unchanged = 0, 0
    while unchanged < len(points) >= 3:
        count = len(points)
        before, here, after = points[at - 1], points[at % count], points[(at + 1) % count]
        if _is_spike(before[None], here[None], after[None], hair)[0]:
            del points[at]
            at, unchanged = max(at - 1, 0), 0
            at = at % max(len(points), 1)
        else:
            at, unchanged = (at + 1) % count, unchanged + 1
    return shapely.LinearRing(points) if len(points) >= 3 else None


def _is_spike(before: Floats, here: Floats, after: Floats, hair: float) -> NDArray[np.bool_]:
    """Tell whether three corners lie on one line, the middle one at an end of it."""
    one, two, across = before - here, after - here, after - before
    doubled = np.abs(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0])
    lengths = np.hypot(*np.stack((one, two, across)).transpose(2, 0, 1))
    longest = lengths.max(axis=0)
    return (doubled <= hair * longest) & (lengths[2] < longest)
