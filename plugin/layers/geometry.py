"""Geometries of QGIS to and from coordinate arrays and shapely.

Both ways go through QGIS's own binary form (ISO WKB), read and written here with numpy; shapely
is handed coordinates only, since its binary form may come from another GEOS than QGIS's.
"""

import struct
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from qgis.core import QgsAbstractGeometry, QgsGeometry, QgsWkbTypes

from ..core.errors import UndercourseError
from ..core.text import translate

_POINT, _LINE, _POLYGON, _TRIANGLE = 1, 2, 3, 17
_COLLECTIONS = frozenset({4, 5, 6, 7, 15, 16})
_OLD_Z = 0x80000000


@dataclass(frozen=True)
class Parts:
    """The coordinates of one geometry.

    Parameters
    ----------
    kind
        ``"point"``, ``"line"`` or ``"polygon"`` (empty text for an empty geometry).
    rings
        One list per part; a point or a line has one array in it, a polygon its shell and holes.
    has_z, has_m
        What the columns after x and y are.
    """

    kind: str
    rings: list[list[np.ndarray]]
    has_z: bool
    has_m: bool


def straight(geometry: QgsGeometry, chord: float) -> QgsGeometry:
    """Return the geometry with arcs as chords that leave them by at most ``chord``."""
    if not QgsWkbTypes.isCurvedType(geometry.wkbType()):
        return geometry
    curved = geometry.constGet().clone()
    rule = QgsAbstractGeometry.SegmentationToleranceType.MaximumDifference
    return QgsGeometry(curved.segmentize(chord, rule))


def read_parts(geometry: QgsGeometry, chord: float = 1e-3) -> Parts:
    """Return the coordinate arrays of a geometry of any kind, collections flattened."""
    if geometry.isNull() or geometry.isEmpty():
        return Parts("", [], has_z=False, has_m=False)
    return parse_wkb(straight(geometry, chord).asWkb().data())


def parse_wkb(blob: bytes) -> Parts:
    """Return the coordinate arrays of a binary geometry without arcs."""
    rings: list[list[np.ndarray]] = []
    kinds: set[int] = set()
    code = _code(blob, 0)
    _parse(blob, 0, rings, kinds)
    kinds.discard(0)
    if len(kinds) > 1:
        raise UndercourseError(
            translate(
                "Layers",
                "A geometry collection mixes points, lines and polygons: split it into one kind per feature.",
            )
        )
    names = {_POINT: "point", _LINE: "line", _POLYGON: "polygon"}
    flag = (code & 0xFFFF) // 1000
    return Parts(
        names[kinds.pop()] if kinds else "",
        rings,
        has_z=flag in {1, 3} or bool(code & _OLD_Z),
        has_m=flag in {2, 3},
    )


def _code(blob: bytes, at: int) -> int:
    return struct.unpack_from("<I" if blob[at] else ">I", blob, at + 1)[0]


def _parse(blob: bytes, at: int, out: list[list[np.ndarray]], kinds: set[int]) -> int:
    """Append the parts of the geometry that starts at a byte; return the byte after it."""
    order = "<" if blob[at] else ">"
    code = _code(blob, at)
    flag = (code & 0xFFFF) // 1000
    width = 2 + (flag in {1, 3} or bool(code & _OLD_Z)) + (flag in {2, 3})
    base = (code & 0xFFFF) % 1000
    at += 5

    def count() -> int:
        return struct.unpack_from(order + "I", blob, at)[0]

    def array(number: int) -> np.ndarray:
        flat = np.frombuffer(blob, order + "f8", number * width, at)
        return flat.reshape(number, width).astype(float)

    if base == _POINT:
        kinds.add(_POINT)
        out.append([array(1)])
        return at + 8 * width
    if base == _LINE:
        kinds.add(_LINE)
        number = count()
        at += 4
        if number:
            out.append([array(number)])
        return at + 8 * width * number
    if base in {_POLYGON, _TRIANGLE}:
        kinds.add(_POLYGON)
        rings = []
        total = count()
        at += 4
        for _ in range(total):
            number = count()
            at += 4
            rings.append(array(number))
            at += 8 * width * number
        if rings:
            out.append(rings)
        return at
    if base in _COLLECTIONS:
        total = count()
        at += 4
        for _ in range(total):
            at = _parse(blob, at, out, kinds)
        return at
    raise UndercourseError(
        translate(
            "Layers", "Geometry kind {code} cannot be read: convert it to a simple kind."
        ).format(code=code)
    )


def to_shapely(geometry: QgsGeometry, chord: float = 1e-3) -> shapely.Geometry:
    """Return the plan of a geometry in shapely; multipart where it has several parts."""
    parts = read_parts(geometry, chord)
    if parts.kind == "polygon":
        return polygons_from_rings([parts.rings])[0]
    flat = [part[0][:, :2] for part in parts.rings]
    if parts.kind == "line":
        lines = [shapely.LineString(xy) for xy in flat]
        return lines[0] if len(lines) == 1 else shapely.MultiLineString(lines)
    if parts.kind == "point":
        return shapely.Point(flat[0][0]) if len(flat) == 1 else shapely.MultiPoint(np.vstack(flat))
    return shapely.GeometryCollection()


def polygons_from_rings(features: Sequence[list[list[np.ndarray]]], width: int = 2) -> np.ndarray:
    """Return one shapely polygon or multipolygon per list of parts, with Z for ``width`` 3.

    A ring needs at least three corners; ValueError otherwise.
    """
    rings = [ring[:, :width] for parts in features for part in parts for ring in part]
    counts = [len(part) for parts in features for part in parts]
    owners = np.repeat(np.arange(len(features)), [len(parts) for parts in features])
    result = np.full(len(features), shapely.Polygon(), dtype=object)
    if not rings:
        return result
    if min(map(len, rings)) < 4:
        message = "a ring has fewer than three corners"
        raise ValueError(message)
    lengths = [len(ring) for ring in rings]
    linear = shapely.linearrings(
        np.vstack(rings), indices=np.repeat(np.arange(len(rings)), lengths)
    )
    polygons = shapely.polygons(linear, indices=np.repeat(np.arange(len(counts)), counts))
    single = np.bincount(owners, minlength=len(features))[owners] == 1
    result[owners[single]] = polygons[single]
    if not single.all():
        several, local = np.unique(owners[~single], return_inverse=True)
        result[several] = shapely.multipolygons(polygons[~single], indices=local)
    return result


def from_shapely(shape: shapely.Geometry) -> QgsGeometry:
    """Return a shapely geometry (with its Z where it has one) as a QGIS geometry."""
    has_z = bool(shape.has_z)
    result = QgsGeometry()
    if shape.is_empty:
        return result
    result.fromWkb(_pack_shape(shape, has_z))
    return result


def _pack_shape(shape: shapely.Geometry, has_z: bool) -> bytes:
    code = 1000 if has_z else 0
    kind = shape.geom_type
    if kind == "Point":
        return _head(_POINT + code) + _pack(shape, has_z)
    if kind in {"LineString", "LinearRing"}:
        return _head(_LINE + code) + _counted(shape, has_z)
    if kind == "Polygon":
        rings = [shape.exterior, *shape.interiors]
        body = b"".join(_counted(ring, has_z) for ring in rings)
        return _head(_POLYGON + code, len(rings)) + body
    number = {"MultiPoint": 4, "MultiLineString": 5, "MultiPolygon": 6, "GeometryCollection": 7}
    body = b"".join(_pack_shape(part, has_z) for part in shape.geoms)
    return _head(number[kind] + code, len(shape.geoms)) + body


def _head(code: int, *counts: int) -> bytes:
    return struct.pack("<BI" + "I" * len(counts), 1, code, *counts)


def _pack(shape: shapely.Geometry, has_z: bool) -> bytes:
    return shapely.get_coordinates(shape, include_z=has_z).astype("<f8").tobytes()


def _counted(shape: shapely.Geometry, has_z: bool) -> bytes:
    return struct.pack("<I", shapely.get_num_coordinates(shape)) + _pack(shape, has_z)


def line_wkb(coordinates: np.ndarray, *, flat: bool = False) -> bytes:
    """Return the binary form of one line; columns x y, x y z, or x y z m.

    ``flat`` says that three columns are x y m.
    """
    columns = coordinates.shape[1]
    code = {2: 0, 3: 2000 if flat else 1000, 4: 3000}[columns]
    data = np.ascontiguousarray(coordinates, "<f8").tobytes()
    return _head(_LINE + code, len(coordinates)) + data


def polygon_wkb(rings: Sequence[np.ndarray]) -> bytes:
    """Return the binary form of one polygon from closed rings of (n, 2) or (n, 3)."""
    code = {2: 0, 3: 1000}[rings[0].shape[1]]
    body = b"".join(
        struct.pack("<I", len(ring)) + np.ascontiguousarray(ring, "<f8").tobytes() for ring in rings
    )
    return _head(_POLYGON + code, len(rings)) + body


def multi_wkb(members: Sequence[bytes]) -> bytes:
    """Return the multipart of binary lines, polygons or points of one kind."""
    code = _code(members[0], 0)
    return _head(code + 3, len(members)) + b"".join(members)


def from_wkb(blob: bytes) -> QgsGeometry:
    """Return the QGIS geometry of a binary form."""
    geometry = QgsGeometry()
    geometry.fromWkb(blob)
    return geometry
