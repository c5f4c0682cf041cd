"""Surfaces: from the lists of points and faces to arrays that can be relied on."""

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from ...errors import ExchangeError
from ...progress import Progress, part, silent
from ...text import translate
from ...tin import Tin, planes
from .lists import FaceSink, PointSink
from .model import Floats, Ints, SurfaceRecord
from .notes import Notes
from .numbers import printed_rounding
from .place import Place
from .points import Registry

STEEP = 20.0
"""Rise over run from which a face is as good as vertical: no curb is laid steeper."""

AREA_TOLERANCE = 1e-6
"""Share by which a declared area may differ, beside the rounding of its last digit."""


ROWS = 1 << 18
"""Faces worked on at a time."""


@dataclass
class RawSurface:
    """A surface while its file is being read."""

    name: str
    description: str
    place: Place
    wanted: bool
    kind: str = ""
    declared: dict[str, str] = field(default_factory=dict)
    points: PointSink | None = None
    faces: FaceSink | None = None


def build_surface(
    raw: RawSurface,
    registry: Registry,
    leave_out: bool,
    notes: Notes,
    progress: Progress = silent,
) -> SurfaceRecord:
    """Return a surface with its faces resolved and checked.

    Parameters
    ----------
    raw
        What was read.
    registry
        The named points, for points given by reference.
    leave_out
        Whether faces that name missing points are left out, instead of refused.
    notes
        Takes what may be wrong.
    progress
        Called with the share done.

    Raises
    ------
    ExchangeError
        Ids are given twice, or faces name missing points.
    """
    if raw.points is None:
        raw.points = PointSink(raw.place)
    if raw.faces is None:
        raw.faces = FaceSink(raw.place)
    vertices = raw.points.coordinates.finish().reshape(-1, 3)
    for index, reference, line in raw.points.references:
        vertices[index] = _referred(registry, reference, raw.points.place.at(line))
    ids, point_lines = raw.points.ids.finish(), raw.points.lines.finish()
    order = _unique_order(ids, vertices, point_lines, raw.points.place, notes)
    corners = raw.faces.corners.finish().reshape(-1, 3)
    visible, lines = raw.faces.visible.finish(), raw.faces.lines.finish()
    found, bad = _resolve(corners, ids, order, part(progress, 0.2, 0.4))
    faces, left_out = corners, 0
    if bad is not None:
        left_out = _missing(bad, found, lines, raw.faces.place, leave_out, notes)
        faces, visible, lines = faces[found], visible[found], lines[found]
    one, two, three = faces.T
    flat = (one == two) | (two == three) | (three == one)
    if flat.any():
        left_out += int(flat.sum())
        notes.add(
            "flat_face",
            raw.faces.place.at(lines[flat.argmax()]).say(
                translate(
                    "Core",
                    "{count} faces name a point twice, have no area and are left out; this is the first.",
                ).format(count=int(flat.sum()))
            ),
        )
        faces, visible = faces[~flat], visible[~flat]
    _note_lists(raw, notes)
    used = np.zeros(len(vertices), dtype=bool)
    used[faces] = True
    spare = ~used
    spare[order[1:]] &= ids[order][1:] != ids[order][:-1]  # faces use the first of equal ids
    unused, unused_ids = vertices[spare], ids[spare]
    del ids, order, lines, point_lines, spare, corners
    hidden_count = int((~visible).sum())
    if hidden_count:
        faces = faces[visible]
    tin, plan_area, sloped_area = None, 0.0, 0.0
    if len(faces):
        plan_area, sloped_area = _examine(vertices, faces, raw, notes, part(progress, 0.4, 0.8))
        tin = _tin(vertices, faces)
    return SurfaceRecord(
        name=raw.name,
        description=raw.description,
        kind=raw.kind,
        tin=tin,
        plan_area=plan_area,
        sloped_area=sloped_area,
        point_count=len(vertices),
        hidden_count=hidden_count,
        left_out=left_out,
        unused=unused,
        unused_ids=unused_ids,
        line=raw.place.line,
    )


def _tin(vertices: Floats, faces: Ints) -> Tin:
    used = np.zeros(len(vertices), dtype=bool)
    used[faces] = True
    if used.all():
        return Tin.from_arrays(vertices, faces)
    renumbered = np.cumsum(used) - 1
    return Tin.from_arrays(vertices[used], renumbered[faces])


def _referred(registry: Registry, reference: str, place: Place) -> tuple[float, float, float]:
    position = registry.resolve(reference, place)
    if not np.isfinite(position[2]):
        raise place.error(
            translate(
                "Core", "the point '{name}' it refers to has no elevation: give it one."
            ).format(name=reference)
        )
    return position


def _unique_order(
    ids: Ints, vertices: Floats, lines: NDArray, place: Place, notes: Notes
) -> NDArray[np.intp]:
    """Return the order that sorts the ids; an id given twice must be the same place twice."""
    order = np.argsort(ids, kind="stable")
    twice = np.flatnonzero(ids[order][1:] == ids[order][:-1])
    if len(twice) == 0:
        return order
    first, second = order[twice], order[twice + 1]
    differ = (vertices[first] != vertices[second]).any(axis=1)
    if differ.any():
        one, other = int(first[differ.argmax()]), int(second[differ.argmax()])
        raise place.at(lines[other]).error(
            translate(
                "Core",
                "point id {id} was already given to another place in line {line}: correct the file.",
            ).format(id=int(ids[one]), line=int(lines[one]))
        )
    notes.add(
        "repeated_point",
        place.at(lines[second[0]]).say(
            translate(
                "Core", "{count} points are given twice, at the same place; this is the first."
            ).format(count=len(twice))
        ),
    )
    return order


def _resolve(
    corners: Ints, ids: Ints, order: NDArray[np.intp], progress: Progress
) -> tuple[NDArray[np.bool_], str | None]:
    """Put vertex indices in place of ids, in place: this is the largest array there is.

    Returns
    -------
    found : (m,) bool
        Which faces have all three points.
    bad
        The ids of the first that has not, None when all have.
    """
    found = np.ones(len(corners), dtype=bool)
    bad = None
    low = int(ids[order[0]]) if len(ids) else 0
    span = int(ids[order[-1]]) - low + 1 if len(ids) else 0
    table = None
    if span < 4 * len(ids) + 1024:  # a table is faster than a search
        table = np.full(span + 1, -1, dtype=np.int64)
        table[ids[order[::-1]] - low] = order[::-1]
    for start in range(0, len(corners), ROWS):
        rows = corners[start : start + ROWS]
        if table is not None:
            places = np.where((rows >= low) & (rows < low + span), rows - low, span)
            indices = table[places]
        else:
            indices = order[np.searchsorted(ids, rows, sorter=order).clip(max=len(ids) - 1)]
            indices = np.where(ids[indices] == rows, indices, -1)
        complete = (indices >= 0).all(axis=1)
        if bad is None and not complete.all():
            bad = " ".join(str(number) for number in rows[complete.argmin()])
        found[start : start + ROWS] = complete
        rows[:] = indices
        progress(start / len(corners))
    return found, bad


def _missing(
    ids: str, found: NDArray, lines: NDArray, place: Place, leave_out: bool, notes: Notes
) -> int:
    count = int((~found).sum())
    here = place.at(lines[found.argmin()])
    if not leave_out:
        raise here.error(
            translate(
                "Core",
                "face {ids} names a point that the surface does not hold ({count} such faces): correct the file, or have such faces left out.",
            ).format(ids=ids, count=count)
        )
    notes.add(
        "missing_point",
        here.say(
            translate(
                "Core",
                "{count} faces name points that the surface does not hold and are left out, so the surface has holes there; the first is {ids}.",
            ).format(ids=ids, count=count)
        ),
    )
    return count


def _note_lists(raw: RawSurface, notes: Notes) -> None:
    if raw.faces is not None and raw.faces.collections > 1:
        notes.add(
            "several_lists",
            raw.place.say(
                translate("Core", "its faces come in {count} lists, which are read as one.").format(
                    count=raw.faces.collections
                )
            ),
        )
    if raw.points is not None and raw.points.commas is not None:
        notes.add(
            "commas",
            raw.points.place.at(raw.points.commas).say(
                translate(
                    "Core",
                    "commas stand between the coordinates, where LandXML has blanks; they are read as separators.",
                )
            ),
        )


def _examine(
    vertices: Floats, faces: Ints, raw: RawSurface, notes: Notes, progress: Progress
) -> tuple[float, float]:
    """Look at the visible faces, compare their areas with the declared ones, return the areas.

    Raises
    ------
    ExchangeError
        They have no extent in plan.
    """
    rounding = planes.coordinate_rounding(vertices)
    plan, sloped, flats, steeps = [], [], 0, 0
    flat_place = steep_place = None
    for start in range(0, len(faces), ROWS):
        rows = faces[start : start + ROWS]
        sides = planes.corner_differences(vertices, rows)
        plan.append(0.5 * float(np.abs(planes.doubled_plan_areas(*sides)).sum()))
        sloped.append(float(planes.sloped_areas(*sides).sum()))
        flat = planes.without_plan_area(*sides, rounding)
        with np.errstate(invalid="ignore"):
            steep = np.hypot(*planes.gradients(*sides, rounding).T) > STEEP
        flats, steeps = flats + int(flat.sum()), steeps + int(steep.sum())
        if flat_place is None and flat.any():
            flat_place = _middle(vertices, rows[flat.argmax()])
        if steep_place is None and steep.any():
            steep_place = _middle(vertices, rows[steep.argmax()])
        progress(start / len(faces))
    if flats == len(faces):
        raise raw.place.error(
            translate(
                "Core",
                "all its faces are vertical or lie on one line or in one point, so there is no surface to work with: export it again.",
            )
        )
    if flats:
        notes.add(
            "vertical_face",
            raw.place.say(
                translate(
                    "Core",
                    "{count} faces are vertical or without area; they are kept, and have no slope.",
                ).format(count=flats)
            ),
            flat_place,
        )
    if steeps:
        notes.add(
            "steep_face",
            raw.place.say(
                translate(
                    "Core",
                    "{count} faces are nearly vertical (over {percent} percent): check whether they are walls or wrong points.",
                ).format(count=steeps, percent=int(STEEP * 100))
            ),
            steep_place,
        )
    areas = math.fsum(plan), math.fsum(sloped)
    for attribute, area in zip(("area2DSurf", "area3DSurf"), areas, strict=True):
        _compare_area(attribute, area, raw, notes)
    return areas


def _middle(vertices: Floats, face: Ints) -> tuple[float, float]:
    x, y = vertices[face, :2].mean(axis=0)
    return float(x), float(y)


def _compare_area(attribute: str, area: float, raw: RawSurface, notes: Notes) -> None:
    word = raw.declared.get(attribute, "").strip()
    if not word:
        return
    try:
        declared, rounding = float(word), printed_rounding(word)
    except ValueError:
        declared, rounding = np.nan, 0.0
    if not abs(declared - area) <= rounding + AREA_TOLERANCE * area:
        notes.add(
            "declared_area",
            raw.place.say(
                translate(
                    "Core",
                    "the file declares {attribute}={declared}, but the visible faces have {area}: check that the surface is complete.",
                ).format(attribute=attribute, declared=word, area=f"{area:.4f}")
            ),
        )


def no_tin_reason(record: SurfaceRecord, file: str) -> ExchangeError | None:
    """Return why a surface cannot be had as a TIN, None when it can."""
    if record.kind.lower() == "grid":
        return ExchangeError(
            translate(
                "Core",
                "{file}, line {line}: surface '{name}' is a grid surface, and only TIN surfaces are read: export it as a TIN, or leave out the TIN and the faces.",
            ).format(file=file, line=record.line, name=record.name)
        )
    if record.tin is None:
        return ExchangeError(
            translate(
                "Core",
                "{file}, line {line}: surface '{name}' holds no visible faces: export it with its triangles, or leave out the TIN and the faces.",
            ).format(file=file, line=record.line, name=record.name)
        )
    return None
