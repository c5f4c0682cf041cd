"""The folder of interfaces: one mesh a surface and a list of what each is, all or nothing."""

import csv
import os
import shutil
import tempfile
from pathlib import Path

import numpy as np
from qgis.core import QgsCoordinateReferenceSystem

from ..core.depth.courses.stack import Interface, Stack
from ..core.errors import UndercourseError
from ..core.text import translate
from ..core.tin import Tin
from ..layers.crs import JobUnits
from ..layers.meshes import write_ply

LIST = "interfaces.csv"
_COLUMNS = (
    "file",
    "interface",
    "section",
    "order",
    "course",
    "thickness",
    "depth_plumb",
    "depth_square",
    "widen",
    "batter",
    "vertical_unit",
    "plan_unit",
)


def file_name(interface: Interface) -> str:
    """Return the name of the mesh of an interface."""
    return f"interface_{interface.number}.ply"


def faces_shown(interface: Interface, *, leave_out: bool) -> np.ndarray:
    """Return the faces that go into results, (m,) bool."""
    return interface.surface.zone >= 0 if leave_out else interface.wanted


def write_folder(
    folder: str,
    stack: Stack,
    crs: QgsCoordinateReferenceSystem,
    units: JobUnits,
    *,
    leave_out: bool,
) -> list[str]:
    """Write the meshes and the list; return the paths of the meshes from the top down.

    All is written beside its place first. Meshes that an older list in the folder names, and
    that are not made anew, are removed: they would pass for part of this job.

    Raises
    ------
    UndercourseError
        The folder cannot be made.
    """
    target = Path(folder)
    if target.exists() and not target.is_dir():
        raise UndercourseError(
            translate(
                "CourseSurfaces", "“{path}” is a file: choose a folder for the surfaces."
            ).format(path=folder)
        )
    is_new = not target.exists()
    target.mkdir(exist_ok=True)
    made = Path(tempfile.mkdtemp(prefix=".part-", dir=target))
    try:
        for interface in stack.interfaces:
            _write_mesh(made / file_name(interface), interface, stack, crs, leave_out=leave_out)
        _write_list(made / LIST, stack, units)
        names = [file_name(interface) for interface in stack.interfaces]
        for name in _listed(target / LIST) - set(names):
            (target / name).unlink(missing_ok=True)
        for name in (*names, LIST):
            os.replace(made / name, target / name)
        is_new = False
    finally:
        shutil.rmtree(made, ignore_errors=True)
        if is_new:
            target.rmdir()
    return [str(target / name) for name in names]


def _write_mesh(
    path: Path,
    interface: Interface,
    stack: Stack,
    crs: QgsCoordinateReferenceSystem,
    *,
    leave_out: bool,
) -> None:
    surface = interface.surface
    shown = faces_shown(interface, leave_out=leave_out)
    faces = surface.tin.faces[shown]
    used, names = np.unique(faces, return_inverse=True)
    ids = np.append(stack.zones.ids, -1)
    values = {
        "depth": surface.depths[faces].mean(axis=1),
        "zone": ids[interface.zone[shown]].astype(float),
        "course": interface.course[shown].astype(float),
        "part": surface.part[shown].astype(float),
    }
    write_ply(path, (surface.tin.vertices[used], names.reshape(-1, 3)), crs, values)


def _write_list(path: Path, stack: Stack, units: JobUnits) -> None:
    sections = {section.name: section for section in stack.sections}.values()
    with path.open("w", newline="", encoding="utf-8") as file:
        table = csv.writer(file, lineterminator="\n")
        table.writerow(_COLUMNS)
        for interface in stack.interfaces:
            for section in sections:
                course = section.courses[min(interface.number, len(section.courses)) - 1]
                plumb, square = section.depth(course.order)
                table.writerow(
                    (
                        file_name(interface),
                        interface.number,
                        section.name,
                        course.order,
                        course.name,
                        f"{course.thickness:.6g}",
                        f"{plumb:.6g}",
                        f"{square:.6g}",
                        f"{course.widen:.6g}",
                        f"{course.batter:.6g}",
                        units.vertical.symbol,
                        units.plan.symbol,
                    )
                )


def _listed(path: Path) -> set[str]:
    """Return the meshes that a list names, as far as we can have made them."""
    if not path.is_file():
        return set()
    try:
        with path.open(newline="", encoding="utf-8") as file:
            named = {row.get("file") or "" for row in csv.DictReader(file)}
    except (OSError, UnicodeDecodeError, csv.Error):
        return set()
    return {
        name
        for name in named
        if Path(name).name == name and name.startswith("interface_") and name.endswith(".ply")
    }


def tin_shown(interface: Interface, *, leave_out: bool) -> Tin:
    """Return the surface as it goes into results, with all its vertices."""
    tin = interface.surface.tin
    return Tin(tin.vertices, tin.faces[faces_shown(interface, leave_out=leave_out)])
