"""Figures and rows of courses, as their algorithm hands them out."""

from collections.abc import Iterator, Sequence
from typing import Any

import numpy as np
from qgis.core import QgsGeometry

from ..core.depth.courses.quantities import CourseQuantities
from ..core.depth.courses.stack import Stack
from ..core.depth.patchwork import Part
from ..core.units import METRE, YARD, LinearUnit
from ..layers.polygons import tin_features
from .course_files import faces_shown, tin_shown

FACE_COLUMNS = (
    ("interface", int),
    ("zone", int),
    ("name", str),
    ("section", str),
    ("course", str),
    ("depth", float),
    ("part", str),
    ("parent", int),
    ("flag", str),
    ("why", str),
)
QUANTITY_COLUMNS = (
    ("zone", int),
    ("name", str),
    ("section", str),
    ("order", int),
    ("course", str),
    ("plan_area", float),
    ("sloped_area", float),
    ("volume", float),
    ("loose_volume", float),
    ("plan_unit", str),
    ("volume_yd3", float),
    ("volume_m3", float),
    ("loose_yd3", float),
    ("loose_m3", float),
    ("tonnes", float),
)


def figures(stack: Stack, plan: LinearUnit) -> dict[str, Any]:
    """Return the numeric results, in plan units."""
    found = stack.quantities
    last = stack.interfaces[-1]
    return {
        "ZONE_COUNT": len(stack.zones),
        "SECTION_COUNT": len({section.name for section in stack.sections}),
        "INTERFACE_COUNT": len(stack.interfaces),
        "FACE_COUNT": sum(int(interface.wanted.sum()) for interface in stack.interfaces),
        "PLAN_AREA": float(last.surface.tin.plan_areas[last.zone >= 0].sum()),
        "VOLUME": float(found.volumes.sum()),
        "LOOSE_VOLUME": _known(found.loose()),
        "TONNES": _known(found.tonnes(plan.metres)),
        "LARGEST_MOVE": stack.largest_move,
        "FLAG_COUNT": len(stack.findings),
    }


def _known(values: np.ndarray) -> float | None:
    """Return the sum of what is known; None when nothing is."""
    known = values[np.isfinite(values)]
    return float(known.sum()) if len(known) else None


def quantity_rows(
    stack: Stack, names: Sequence[str], plan: LinearUnit
) -> Iterator[tuple[None, list[Any]]]:
    """Yield the attributes of each course of each zone, in the order of `QUANTITY_COLUMNS`."""
    found: CourseQuantities = stack.quantities
    yards = plan.to(YARD if not plan.is_feet else plan.foot) ** 3 / (27 if plan.is_feet else 1)
    metres = plan.to(METRE) ** 3
    loose = found.loose()
    columns = zip(
        found.zone.tolist(),
        found.courses,
        found.plan_areas.tolist(),
        found.sloped_areas.tolist(),
        found.volumes.tolist(),
        loose.tolist(),
        found.tonnes(plan.metres).tolist(),
        strict=True,
    )
    for zone, course, plan_area, sloped_area, volume, loose_volume, tonnes in columns:
        yield (
            None,
            [
                int(stack.zones.ids[zone]),
                names[zone] or None,
                stack.sections[zone].name,
                course.order,
                course.name,
                plan_area,
                sloped_area,
                volume,
                loose_volume,
                plan.symbol,
                volume * yards,
                volume * metres,
                loose_volume * yards,
                loose_volume * metres,
                tonnes,
            ],
        )


def face_rows(
    stack: Stack, names: Sequence[str], *, leave_out: bool
) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield geometry and attributes of the faces of all interfaces, by `FACE_COLUMNS`."""
    ids = [*stack.zones.ids.tolist(), None]
    called = [*(name or None for name in names), None]
    words = {int(part): part.name.lower() for part in Part}
    for interface in stack.interfaces:
        surface, shown = interface.surface, faces_shown(interface, leave_out=leave_out)
        why = {finding.code: finding.why for finding in surface.findings}
        columns = zip(
            tin_features(tin_shown(interface, leave_out=leave_out)),
            interface.zone[shown].tolist(),
            interface.course[shown].tolist(),
            surface.depths[surface.tin.faces[shown]].mean(axis=1).tolist(),
            surface.part[shown].tolist(),
            interface.parent[shown].tolist(),
            surface.flags[shown].tolist(),
            strict=True,
        )
        for geometry, zone, order, depth, part, parent, flag in columns:
            section = stack.sections[zone] if zone >= 0 else None
            yield (
                geometry,
                [
                    interface.number,
                    ids[zone],
                    called[zone],
                    section.name if section else None,
                    section.courses[order - 1].name if section else None,
                    depth,
                    words[part],
                    parent + 1,
                    flag or None,
                    why.get(flag),
                ],
            )


def face_count(stack: Stack, *, leave_out: bool) -> int:
    """Return how many faces `face_rows` yields."""
    return sum(
        int(faces_shown(interface, leave_out=leave_out).sum()) for interface in stack.interfaces
    )
