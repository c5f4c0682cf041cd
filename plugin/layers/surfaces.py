"""The surface parameter: a mesh, a polygon layer with heights, or a raster."""

import struct
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsFeatureRequest,
    QgsMapLayer,
    QgsMeshLayer,
    QgsProcessingFeedback,
    QgsRasterLayer,
    QgsVectorLayer,
    QgsWkbTypes,
)

from ..core.errors import Cancelled, SurfaceError
from ..core.text import translate
from ..core.tin import Tin
from ..core.tin.intake import triangles_of_polygons, weld_triangles
from ..core.tolerance import Tolerance
from .crs import crs_unit
from .geometry import polygons_from_rings, read_parts
from .meshes import read_mesh
from .rasters import RasterSource

TIN_KIND, RASTER_KIND = "tin", "raster"
_TRIANGLE_BYTES = 109
_TRIANGLE_HEAD = struct.pack("<BIII", 1, 1003, 1, 4)
"""Start of the binary form of a PolygonZ of one ring of four points."""
_ASK_EVERY = 1024
PLANE_METRES = 1e-3
"""A polygon whose corners leave their plane by more is no planar face."""


@dataclass(frozen=True)
class Surface:
    """A surface that was given as a layer: its name, CRS and content."""

    name: str
    crs: QgsCoordinateReferenceSystem
    data: Tin | RasterSource


def read_surface(
    layer: QgsMapLayer,
    feedback: QgsProcessingFeedback | None = None,
    kinds: Sequence[str] = (TIN_KIND, RASTER_KIND),
) -> Tin | RasterSource:
    """Read the surface of a layer; in the main thread, where layers live.

    Parameters
    ----------
    layer
        Mesh layer; polygon layer with Z: triangles, TIN, or planar polygons; raster layer.
    feedback
        Takes warnings.
    kinds
        What the caller can work with.

    Raises
    ------
    SurfaceError
        The layer holds no surface of these kinds, or the surface is not sound.
    """
    if isinstance(layer, QgsRasterLayer):
        if RASTER_KIND not in kinds:
            raise _wrong(layer, translate("Layers", "is a raster"), kinds)
        return RasterSource.from_layer(layer)
    if TIN_KIND not in kinds:
        raise _wrong(layer, translate("Layers", "is not a raster"), kinds)
    if isinstance(layer, QgsMeshLayer):
        vertices, faces = read_mesh(layer)
        if isinstance(faces, np.ndarray):
            return Tin.from_arrays(vertices, faces)
        rings = [[[vertices[[*face, face[0]]]]] for face in faces]
        return _tin_of_polygons(np.empty((0, 3, 3)), rings, range(len(faces)), 0.0, np.inf)
    if isinstance(layer, QgsVectorLayer):
        return _read_polygons(layer, feedback)
    raise _wrong(layer, translate("Layers", "is no surface"), kinds)


def _read_polygons(layer: QgsVectorLayer, feedback: QgsProcessingFeedback | None) -> Tin:
    """Read the faces of a polygon layer with Z."""
    if layer.geometryType() != Qgis.GeometryType.Polygon:
        raise _wrong(layer, translate("Layers", "is not a polygon layer"), (TIN_KIND,))
    if not QgsWkbTypes.hasZ(layer.wkbType()):
        raise _wrong(layer, translate("Layers", "has no heights (Z) in its polygons"), (TIN_KIND,))
    blobs, ids, rest, rest_ids = _scan(layer, feedback)
    rows = np.frombuffer(b"".join(blobs), "u1").reshape(-1, _TRIANGLE_BYTES)
    corners = rows[:, 13:].copy().view("<f8").reshape(-1, 4, 3)
    _check_heights(layer, corners, ids, feedback)
    if not len(corners) and not rest:
        raise _wrong(layer, translate("Layers", "holds no faces"), (TIN_KIND,))
    metres = crs_unit(layer.crs()).metres
    snap = Tolerance.for_unit(metres).snap
    return _tin_of_polygons(corners[:, :3], rest, rest_ids, snap, PLANE_METRES / metres, feedback)


def _tin_of_polygons(
    triangles: np.ndarray,
    rings: list[list[list[np.ndarray]]],
    ids: Sequence[int],
    snap: float,
    plane: float,
    feedback: QgsProcessingFeedback | None = None,
) -> Tin:
    """Return the TIN of triangles and of larger faces, welded, and report the weld."""
    if rings:
        more, _ = triangles_of_polygons(polygons_from_rings(rings, 3), list(ids), plane)
        triangles = np.concatenate([triangles, more])
    welded = weld_triangles(triangles, snap)
    if welded.move > 0.0 and feedback is not None:
        feedback.pushInfo(
            translate(
                "Layers", "Corners of neighbouring faces were joined; the largest move was {move}."
            ).format(move=f"{welded.move:.2g}")
        )
    return Tin.from_arrays(welded.vertices, welded.faces)


def _scan(
    layer: QgsVectorLayer, feedback: QgsProcessingFeedback | None
) -> tuple[list[bytes], list[int], list[list[list[np.ndarray]]], list[int]]:
    """Return plain triangles as binary with their feature ids, and rings and ids of the rest."""
    blobs: list[bytes] = []
    ids: list[int] = []
    rest: list[list[list[np.ndarray]]] = []
    rest_ids: list[int] = []
    total = max(layer.featureCount(), 1)
    request = QgsFeatureRequest().setNoAttributes()
    for number, feature in enumerate(layer.getFeatures(request)):
        if feedback is not None and number % _ASK_EVERY == 0:
            if feedback.isCanceled():
                raise Cancelled
            feedback.setProgress(5.0 * number / total)
        geometry = feature.geometry()
        if geometry.isNull() or geometry.isEmpty():
            continue
        blob = geometry.asWkb().data()
        if len(blob) == _TRIANGLE_BYTES and blob[:13] == _TRIANGLE_HEAD:
            blobs.append(blob)
            ids.append(feature.id())
            continue
        parts = read_parts(geometry)
        if not parts.has_z:
            raise _lost_heights(layer, feature.id())
        faces = [[ring[:, :3] for ring in rings] for rings in parts.rings]
        if not all(np.isfinite(ring).all() for rings in faces for ring in rings):
            raise _lost_heights(layer, feature.id())
        if min(len(ring) for rings in faces for ring in rings) < 4:
            raise _few_corners(layer, feature.id())
        rest.append(faces)
        rest_ids.append(feature.id())
    return blobs, ids, rest, rest_ids


def _check_heights(
    layer: QgsVectorLayer,
    corners: np.ndarray,
    ids: Sequence[int],
    feedback: QgsProcessingFeedback | None,
) -> None:
    """Refuse faces whose heights were lost, and warn of those that look so."""
    lost = ~np.isfinite(corners).all(axis=(1, 2))
    if lost.any():
        raise _lost_heights(layer, ids[int(np.argmax(lost))])
    if len(corners) and feedback is not None and not corners[:, :, 2].any():
        feedback.pushWarning(
            translate(
                "Layers",
                "All heights of “{name}” are 0: they may have been lost when the layer was made.",
            ).format(name=layer.name())
        )


def _lost_heights(layer: QgsVectorLayer, feature: int) -> SurfaceError:
    return SurfaceError(
        translate(
            "Layers",
            "“{name}”, feature {id}: a corner has no height; give it its Z or remove the face.",
        ).format(name=layer.name(), id=feature)
    )


def _few_corners(layer: QgsVectorLayer, feature: int) -> SurfaceError:
    return SurfaceError(
        translate(
            "Layers", "“{name}”, feature {id}: a face has fewer than three corners; remove it."
        ).format(name=layer.name(), id=feature)
    )


def _wrong(layer: QgsMapLayer, what: str, kinds: Sequence[str]) -> SurfaceError:
    wanted = {
        (TIN_KIND,): translate(
            "Layers", "a mesh layer, or a polygon layer with heights (triangles or planar faces)"
        ),
        (RASTER_KIND,): translate("Layers", "a raster layer"),
    }.get(
        tuple(kinds),
        translate("Layers", "a mesh layer, a polygon layer with heights, or a raster layer"),
    )
    return SurfaceError(
        translate("Layers", "“{name}” {what}, and this tool needs {wanted}.").format(
            name=layer.name(), what=what, wanted=wanted
        )
    )
