"""TINs as binary PLY files, which QGIS loads as meshes: exact doubles, CRS kept."""

import contextlib
import os
import re
import tempfile
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from ..core.errors import SurfaceError
from ..core.text import translate

_TYPES = {
    **dict.fromkeys(("char", "int8"), "i1"),
    **dict.fromkeys(("uchar", "uint8"), "u1"),
    **dict.fromkeys(("short", "int16"), "i2"),
    **dict.fromkeys(("ushort", "uint16"), "u2"),
    **dict.fromkeys(("int", "int32"), "i4"),
    **dict.fromkeys(("uint", "uint32"), "u4"),
    **dict.fromkeys(("float", "float32"), "f4"),
    **dict.fromkeys(("double", "float64"), "f8"),
}
_ORDERS = {"binary_little_endian": "<", "binary_big_endian": ">"}
_LONGEST_HEADER = 1 << 20


@dataclass(frozen=True)
class Ply:
    """What a PLY file of triangles holds.

    Parameters
    ----------
    vertices : (n, 3) float
        x, y, z.
    faces : (m, 3) int
        Vertex indices from 0, winding as in the file.
    crs_wkt
        CRS as text, empty when the file has none.
    face_values
        One (m,) array per property of the faces.
    """

    vertices: np.ndarray
    faces: np.ndarray
    crs_wkt: str
    face_values: dict[str, np.ndarray]


@contextlib.contextmanager
def replacing(path: str | os.PathLike[str]) -> Iterator[Path]:
    """Give a path to write to; it takes the place of ``path`` when the block ends well.

    Raises
    ------
    SurfaceError
        The folder does not exist or cannot be written to.
    """
    target = Path(path)
    try:
        handle, name = tempfile.mkstemp(
            prefix=f".{target.stem}-", suffix=target.suffix, dir=target.parent
        )
        os.close(handle)
    except OSError as error:
        raise SurfaceError(
            translate("Layers", "“{path}” cannot be written: {why}.").format(
                path=target, why=error.strerror or error
            )
        ) from error
    partial = Path(name)
    try:
        yield partial
        # mkstemp makes a private file; results get what the user's umask gives any new file.
        mask = os.umask(0)
        os.umask(mask)
        partial.chmod(0o666 & ~mask)
        os.replace(partial, target)
    finally:
        partial.unlink(missing_ok=True)


def write_arrays(
    path: str | os.PathLike[str],
    vertices: np.ndarray,
    faces: np.ndarray,
    crs_wkt: str = "",
    face_values: Mapping[str, np.ndarray] | None = None,
) -> None:
    """Write triangles; ``face_values`` become datasets on faces, named by plain words."""
    values = dict(face_values or {})
    header = ["ply", "format binary_little_endian 1.0"]
    if crs_wkt:
        header.append("comment crs: " + " ".join(crs_wkt.split()))
    header += [f"element vertex {len(vertices)}", *(f"property double {axis}" for axis in "xyz")]
    header += [f"element face {len(faces)}", "property list uchar uint vertex_indices"]
    header += [f"property double {name}" for name in values]
    layout = [("n", "u1"), ("corners", "<u4", (3,)), *((name, "<f8") for name in values)]
    rows = np.empty(len(faces), np.dtype(layout))
    rows["n"], rows["corners"] = 3, faces
    for name, column in values.items():
        rows[name] = column
    with replacing(path) as partial, partial.open("wb") as file:
        file.write(("\n".join(header) + "\nend_header\n").encode("utf-8"))
        file.write(np.ascontiguousarray(vertices, "<f8").tobytes())
        file.write(rows.tobytes())


def read_ply(path: str | os.PathLike[str]) -> Ply:
    """Read a binary PLY file of triangles.

    Raises
    ------
    SurfaceError
        The file is not one, is cut short, or a face points at a vertex that is not there.
    """
    blob = Path(path).read_bytes()
    stop = blob.find(b"end_header", 0, _LONGEST_HEADER)
    if not blob.startswith(b"ply") or stop < 0:
        raise _unfit(path, translate("Layers", "it has no PLY header"))
    start = blob.index(b"\n", stop) + 1
    lines = blob[:stop].decode("utf-8", "replace").splitlines()
    order = _ORDERS.get(lines[1].split()[1] if len(lines) > 1 else "")
    if order is None:
        raise _unfit(path, translate("Layers", "it is not a binary PLY file"))
    elements = _elements(lines, order)
    if elements is None or [name for name, *_ in elements[:2]] != ["vertex", "face"]:
        raise _unfit(
            path, translate("Layers", "it holds something else than vertices and triangles")
        )
    (_, count, layout), (_, number, face_layout) = elements[:2]
    vertex_type, face_type = np.dtype(layout), np.dtype(face_layout)
    end = start + count * vertex_type.itemsize
    if len(blob) < end + number * face_type.itemsize:
        raise _unfit(path, translate("Layers", "it is cut short, or its faces are not triangles"))
    points = np.frombuffer(blob, vertex_type, count, start)
    rows = np.frombuffer(blob, face_type, number, end)
    if not {"x", "y", "z"} <= set(vertex_type.names or ()) or not np.all(rows["n"] == 3):
        raise _unfit(path, translate("Layers", "its faces are not triangles with x, y, z"))
    faces = rows["corners"].astype(np.int64)
    if number and (faces.min() < 0 or faces.max() >= count):
        raise _unfit(path, translate("Layers", "a face points at a vertex that is not there"))
    crs = next((line for line in lines if re.match(r"comment crs:", line)), "")
    return Ply(
        np.column_stack([points[axis].astype(float) for axis in "xyz"]),
        faces,
        crs.partition("crs:")[2].strip(),
        {
            name: rows[name].astype(float)
            for name in face_type.names or ()
            if name not in {"n", "corners"}
        },
    )


def _elements(lines: list[str], order: str) -> list[tuple[str, int, list[tuple]]] | None:
    """Return (name, count, record layout) per element; None for an unknown property."""
    result: list[tuple[str, int, list[tuple]]] = []
    for line in lines:
        words = line.split()
        if words[:1] == ["element"] and len(words) == 3:
            result.append((words[1], int(words[2]), []))
        elif words[:2] == ["property", "list"] and len(words) == 5 and result:
            if result[-1][0] != "face" or not {words[2], words[3]} <= _TYPES.keys():
                return None
            result[-1][2].append(("n", order + _TYPES[words[2]]))
            result[-1][2].append(("corners", order + _TYPES[words[3]], (3,)))
        elif words[:1] == ["property"] and len(words) == 3 and result:
            if words[1] not in _TYPES:
                return None
            result[-1][2].append((words[2], order + _TYPES[words[1]]))
    return result


def _unfit(path: str | os.PathLike[str], why: str) -> SurfaceError:
    return SurfaceError(
        translate("Layers", "“{path}” cannot be read as a TIN: {why}.").format(path=path, why=why)
    )
