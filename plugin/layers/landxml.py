"""Records of a LandXML file as features."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import numpy as np
from qgis.core import QgsGeometry

from ..core.exchange.landxml import AlignmentRecord, LandXmlFile, Segment, SurfaceRecord
from ..core.text import translate
from ..core.tin import Tin
from ..core.units import LinearUnit, format_station
from .fields import fields
from .lines import curve_geometry, line_geometry, point_geometry
from .polygons import tin_features

Row = tuple[QgsGeometry | None, list[Any]]

FACE_FIELDS = fields(("face", int), ("plan_area", float), ("area", float), ("grade", float))
LINE_FIELDS = fields(
    ("kind", str),
    ("name", str),
    ("type", str),
    ("code", str),
    ("description", str),
    ("surface", str),
    ("file_line", int),
    ("flag", str),
    ("why", str),
)
ALIGNMENT_FIELDS = fields(
    ("name", str),
    ("description", str),
    ("state", str),
    ("part", int),
    ("sta_start", float),
    ("sta_end", float),
    ("from_sta", str),
    ("to_sta", str),
    ("length", float),
    ("declared", float),
    ("equations", str),
    ("file_line", int),
    ("flag", str),
    ("why", str),
)
POINT_FIELDS = fields(
    ("kind", str), ("name", str), ("code", str), ("description", str), ("file_line", int)
)


@dataclass(frozen=True)
class Scale:
    """Factors from the unit of a file to that of the CRS, and the unit of the results.

    Parameters
    ----------
    plan, vertical
        Factors of x and y, and of z.
    unit
        Unit of the plan coordinates of the results.
    """

    plan: float
    vertical: float
    unit: LinearUnit

    @property
    def is_one(self) -> bool:
        """Whether nothing changes."""
        return self.plan == 1.0 and self.vertical == 1.0

    def apply(self, coordinates: np.ndarray) -> np.ndarray:
        """Return coordinates (k, 2) or (k, 3) in the unit of the results."""
        if self.is_one:
            return coordinates
        return coordinates * np.array([self.plan, self.plan, self.vertical])[: coordinates.shape[1]]

    def tin(self, tin: Tin) -> Tin:
        """Return a surface in the unit of the results."""
        return tin if self.is_one else Tin.from_arrays(self.apply(tin.vertices), tin.faces)

    def areas(self, surface: SurfaceRecord | None, tin: Tin | None) -> tuple[float, float]:
        """Return plan and sloped area of a surface (``tin`` in the unit of the results)."""
        if surface is None or tin is None:
            return 0.0, 0.0
        if self.is_one:
            return surface.plan_area, surface.sloped_area
        return tin.plan_area, tin.sloped_area


def face_rows(tin: Tin | None) -> Iterator[Row]:
    """Return one triangle a row, with its areas and its grade in percent."""
    if tin is None:
        return
    grades = 100.0 * np.hypot(tin.gradients[:, 0], tin.gradients[:, 1])
    values = zip(
        tin_features(tin),
        tin.plan_areas.tolist(),
        tin.sloped_areas.tolist(),
        grades.tolist(),
        strict=True,
    )
    for number, (geometry, plan, sloped, grade) in enumerate(values, 1):
        yield geometry, [number, plan, sloped, grade]


def line_rows(file: LandXmlFile, scale: Scale) -> Iterator[Row]:
    """Return the breaklines, boundaries, contours and features."""
    why = translate("Layers", "The file gives no elevation for some of its points.")
    for line in file.lines:
        flag = "" if line.has_heights else "no_height"
        yield (
            line_geometry(scale.apply(line.coordinates)),
            [
                line.kind,
                line.name,
                line.type,
                line.code,
                line.description,
                line.surface,
                line.line,
                flag,
                why if flag else "",
            ],
        )


def alignment_rows(file: LandXmlFile, scale: Scale) -> Iterator[Row]:
    """Return the alignments, one row for each part that joins end to end; M is the station."""
    for alignment in file.alignments:
        flag, why = _alignment_flag(alignment, scale)
        station = alignment.station_start * scale.plan
        declared = alignment.declared_length
        for number, part in enumerate(alignment.parts, 1):
            length = sum(segment.length for segment in part) * scale.plan
            yield (
                _curve(part, station, scale.plan),
                [
                    alignment.name,
                    alignment.description,
                    alignment.state,
                    number,
                    station,
                    station + length,
                    _displayed(alignment, station, scale),
                    _displayed(alignment, station + length, scale),
                    length,
                    None if declared is None else declared * scale.plan,
                    _equations(alignment, scale),
                    alignment.line,
                    flag,
                    why,
                ],
            )
            station += length


def point_rows(file: LandXmlFile, scale: Scale) -> Iterator[Row]:
    """Return the single points."""
    for point in file.points:
        yield (
            point_geometry(scale.apply(np.array([point.xyz]))[0]),
            [point.kind, point.name, point.code, point.description, point.line],
        )


def _curve(part: tuple[Segment, ...], station: float, factor: float) -> QgsGeometry:
    pieces = []
    for segment in part:
        rows = np.full((len(segment.points), 4), np.nan)
        rows[:, :2] = segment.points * factor
        rows[:, 3] = station + segment.distances * factor
        pieces.append(("arc" if segment.kind == "arc" else "line", rows))
        station = float(rows[-1, 3])
    geometry = curve_geometry(pieces)
    geometry.get().dropZValue()  # the plan of an alignment has no heights
    return geometry


def _displayed(alignment: AlignmentRecord, station: float, scale: Scale) -> str:
    return format_station(
        alignment.displayed_station(station / scale.plan) * scale.plan, scale.unit
    )


def _equations(alignment: AlignmentRecord, scale: Scale) -> str:
    def text(value: float) -> str:
        return format_station(value * scale.plan, scale.unit)

    return "; ".join(
        translate("Layers", "{back} back = {ahead} ahead").format(
            back=text(equation.back), ahead=text(equation.ahead)
        )
        for equation in alignment.equations
    )


def _alignment_flag(alignment: AlignmentRecord, scale: Scale) -> tuple[str, str]:
    if len(alignment.parts) > 1:
        return "gap", translate("Layers", "The file leaves gaps between its elements.")
    declared = alignment.declared_length
    if declared is not None and not math.isclose(
        declared, alignment.length, rel_tol=1e-6, abs_tol=0.005
    ):
        return "length", translate(
            "Layers", "The file declares a length of {declared}, and the elements have {length}."
        ).format(
            declared=f"{declared * scale.plan:.4f}", length=f"{alignment.length * scale.plan:.4f}"
        )
    return "", ""
