"""Coordinate reference systems: units of the job, and what may be used together."""

from dataclasses import dataclass

from osgeo import osr
from qgis.core import Qgis, QgsCoordinateReferenceSystem

from ..core.errors import UndercourseError
from ..core.text import translate
from ..core.units import FOOT, METRE, US_SURVEY_FOOT, LinearUnit, unit_of_metres

osr.UseExceptions()

VERTICAL_WORDS = ("same", "metre", "foot", "us_survey_foot")
_BY_WORD = {"metre": METRE, "foot": FOOT, "us_survey_foot": US_SURVEY_FOOT}


_NOT_PLANE = frozenset({Qgis.CrsType.Geocentric, Qgis.CrsType.Vertical, Qgis.CrsType.Temporal})


@dataclass(frozen=True)
class JobUnits:
    """The units of a job: of plan coordinates and of heights."""

    plan: LinearUnit
    vertical: LinearUnit


def job_units(crs: QgsCoordinateReferenceSystem, vertical_word: str = "same") -> JobUnits:
    """Return the units of a projected CRS.

    ``vertical_word`` is one of `VERTICAL_WORDS`; with ``same`` heights are in the unit of the
    CRS's own vertical part, or else of the plan.

    Raises
    ------
    UndercourseError
        The CRS is invalid, geographic or geocentric, or the word is unknown.
    """
    plan = crs_unit(crs)
    if vertical_word == "same":
        return JobUnits(plan, _declared_vertical(crs) or plan)
    if vertical_word not in _BY_WORD:
        raise UndercourseError(
            translate(
                "Layers", "The vertical unit “{word}” is unknown: use one of {words}."
            ).format(word=vertical_word, words=", ".join(VERTICAL_WORDS))
        )
    return JobUnits(plan, _BY_WORD[vertical_word])


def crs_unit(crs: QgsCoordinateReferenceSystem) -> LinearUnit:
    """Return the plan unit of a projected or local CRS; refuse any other."""
    if not crs.isValid():
        raise UndercourseError(
            translate(
                "Layers",
                "The design has no coordinate reference system: set its projected CRS in the layer properties.",
            )
        )
    plane = crs.horizontalCrs() if crs.horizontalCrs().isValid() else crs
    if plane.isGeographic() or plane.type() in _NOT_PLANE:
        raise UndercourseError(
            translate(
                "Layers",
                "{crs} is not a projected CRS: reproject the data to one in metres or feet.",
            ).format(crs=describe_crs(crs))
        )
    reference = osr.SpatialReference()
    reference.ImportFromWkt(plane.toWkt(Qgis.CrsWktVariant.Preferred))
    return unit_of_metres(reference.GetLinearUnits(), reference.GetLinearUnitsName())


def _declared_vertical(crs: QgsCoordinateReferenceSystem) -> LinearUnit | None:
    vertical = crs.verticalCrs()
    if not vertical.isValid():
        return None
    reference = osr.SpatialReference()
    reference.ImportFromWkt(vertical.toWkt(Qgis.CrsWktVariant.Preferred))
    metres = reference.GetTargetLinearUnits("VERT_CS")
    return unit_of_metres(metres) if metres > 0 else None


def describe_crs(crs: QgsCoordinateReferenceSystem) -> str:
    """Return the name people know a CRS by."""
    return crs.userFriendlyIdentifier() if crs.isValid() else translate("Layers", "no CRS")


def same_plan(one: QgsCoordinateReferenceSystem, other: QgsCoordinateReferenceSystem) -> bool:
    """Tell whether plan coordinates of the two systems are the same numbers."""
    first = one.horizontalCrs() if one.horizontalCrs().isValid() else one
    second = other.horizontalCrs() if other.horizontalCrs().isValid() else other
    return first == second


def require_crs_of_lines(
    crs: QgsCoordinateReferenceSystem, other: QgsCoordinateReferenceSystem, name: str
) -> None:
    """Refuse what is measured from lines in another CRS than theirs."""
    message = translate("Layers", "“{name}” is in {other} and the lines in {crs}: reproject one of the two first.")  # fmt: skip # noqa: E501
    _require(crs, other, name, message)


def require_same_crs(
    crs: QgsCoordinateReferenceSystem, other: QgsCoordinateReferenceSystem, name: str
) -> None:
    """Refuse a second surface in another CRS: moving it would bend its planes."""
    message = translate("Layers", "“{name}” is in {other} and the design in {crs}: bring both into one CRS first, since a surface is never reprojected here.")  # fmt: skip # noqa: E501
    _require(crs, other, name, message)


def _require(
    crs: QgsCoordinateReferenceSystem,
    other: QgsCoordinateReferenceSystem,
    name: str,
    message: str,
) -> None:
    if not same_plan(crs, other):
        told = message.format(name=name, other=describe_crs(other), crs=describe_crs(crs))
        raise UndercourseError(told)
