"""Polygon layers as shapely polygons, and polygon geometries for results."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsGeometry,
    QgsProcessingContext,
    QgsProcessingFeedback,
)

from ..core.text import translate
from .geometry import from_wkb, multi_wkb, polygon_wkb, polygons_from_rings, read_parts
from .tables import Source
from .vectors import Reading


@dataclass(frozen=True)
class PolygonTable:
    """Polygons in plan with their attributes, one row per feature.

    Parameters
    ----------
    ids : (k,) int
        Feature ids.
    polygons : (k,) object
        shapely polygons and multipolygons.
    columns
        Attribute values by field name.
    """

    ids: np.ndarray
    polygons: np.ndarray
    columns: dict[str, list[Any]]

    def __len__(self) -> int:
        return len(self.ids)


def read_polygons(
    source: Source,
    fields: Sequence[str] = (),
    *,
    crs: QgsCoordinateReferenceSystem | None = None,
    context: QgsProcessingContext | None = None,
    feedback: QgsProcessingFeedback | None = None,
    chord: float = 1e-3,
    name: str = "",
) -> PolygonTable:
    """Read the polygons of a layer or source; arcs become chords within ``chord``.

    Rings that touch themselves at a point are taken apart there.

    Raises
    ------
    UndercourseError
        A feature is no polygon, or crosses itself; its id is named.
    """
    reading = Reading(
        source, fields, crs=crs, context=context, feedback=feedback, name=name, judged=True
    )
    ids: list[int] = []
    rings: list[list[list[np.ndarray]]] = []
    for feature in reading.features():
        parts = read_parts(feature.geometry(), chord)
        if parts.kind != "polygon":
            raise reading.refuse(feature.id(), translate("Layers", "it is not a polygon."))
        if min(len(ring) for part in parts.rings for ring in part) < 4:
            raise reading.refuse(
                feature.id(), translate("Layers", "one of its rings has fewer than three corners.")
            )
        ids.append(feature.id())
        rings.append(parts.rings)
        reading.keep(feature)
    reading.finish()
    polygons = polygons_from_rings(rings)
    _open_touching_rings(polygons)
    for row in np.flatnonzero(~shapely.is_valid(polygons)):
        raise reading.refuse(
            ids[row],
            translate(
                "Layers", "its outline is not valid ({why}): repair it with “Fix geometries”."
            ).format(why=shapely.is_valid_reason(polygons[row])),
        )
    return PolygonTable(np.array(ids, dtype=np.int64), polygons, reading.columns)


def _open_touching_rings(polygons: np.ndarray) -> None:
    """Take rings that touch themselves apart, in place: what they enclose is in no doubt."""
    bad = np.flatnonzero(~shapely.is_valid(polygons))
    touching = [
        row for row in bad if shapely.is_valid_reason(polygons[row]).startswith("Ring Self")
    ]
    for row in touching:
        apart = shapely.make_valid(polygons[row], method="structure", keep_collapsed=False)
        is_area = apart.geom_type in ("Polygon", "MultiPolygon")
        if is_area and np.isclose(apart.area, polygons[row].area, rtol=1e-12, atol=0.0):
            polygons[row] = apart


def polygon_geometry(shape: shapely.Geometry, z: float | None = None) -> QgsGeometry:
    """Return a shapely polygon or multipolygon; its own Z, or ``z`` at every corner."""
    members = [
        polygon_wkb([_ring(ring, z) for ring in (part.exterior, *part.interiors)])
        for part in getattr(shape, "geoms", [shape])
    ]
    if not members:
        return QgsGeometry()
    return from_wkb(multi_wkb(members) if shape.geom_type == "MultiPolygon" else members[0])


def _ring(ring: shapely.LinearRing, z: float | None) -> np.ndarray:
    if z is None:
        return shapely.get_coordinates(ring, include_z=bool(ring.has_z))
    plan = shapely.get_coordinates(ring)
    return np.column_stack((plan, np.full(len(plan), z)))


_TRIANGLE = np.dtype(
    [("order", "u1"), ("code", "<u4"), ("rings", "<u4"), ("points", "<u4"), ("xyz", "<f8", (4, 3))]
)


def triangle_geometries(triangles: np.ndarray) -> Iterator[QgsGeometry]:
    """Yield one PolygonZ per triangle (m, 3, 3)."""
    block = 8192
    for start in range(0, len(triangles), block):
        some = triangles[start : start + block]
        rows = np.zeros(len(some), _TRIANGLE)
        rows["order"], rows["code"], rows["rings"], rows["points"] = 1, 1003, 1, 4
        rows["xyz"][:, :3] = some
        rows["xyz"][:, 3] = some[:, 0]
        blob, size = rows.tobytes(), _TRIANGLE.itemsize
        for at in range(0, len(blob), size):
            yield from_wkb(blob[at : at + size])


def tin_features(tin: Any) -> Iterator[QgsGeometry]:
    """Yield one PolygonZ per face of a TIN, in the order of its faces."""
    yield from triangle_geometries(tin.vertices[tin.faces])
