"""The CRS and the unit of a LandXML file, against the CRS of the results."""

from qgis.core import QgsCoordinateReferenceSystem

from ..core.errors import ExchangeError
from ..core.exchange.landxml import LandXmlFile
from ..core.text import translate
from ..core.units import LinearUnit
from .crs import describe_crs, job_units, same_plan
from .landxml import Scale


def choose_crs(
    file: LandXmlFile, given: QgsCoordinateReferenceSystem | None
) -> QgsCoordinateReferenceSystem:
    """Return the CRS that the user gives, else that of the file's EPSG code.

    Raises
    ------
    ExchangeError
        Neither is there.
    """
    if given is not None:
        return given
    stated = stated_crs(file)
    if stated is None:
        raise ExchangeError(
            translate(
                "Layers",
                "{file} states no EPSG code that is known (its coordinate system is called “{name}”, code “{code}”): choose the CRS.",
            ).format(
                file=file.name,
                name=file.system.name or file.system.description,
                code=file.system.epsg,
            )
        )
    return stated


def stated_crs(file: LandXmlFile) -> QgsCoordinateReferenceSystem | None:
    """Return the CRS of the EPSG code in the file, None when it is missing or unknown."""
    if not (file.system.epsg.isascii() and file.system.epsg.isdigit()):
        return None
    crs = QgsCoordinateReferenceSystem.fromEpsgId(int(file.system.epsg))
    return crs if crs.isValid() else None


def choose_scale(
    file: LandXmlFile, crs: QgsCoordinateReferenceSystem, rule: str
) -> tuple[Scale, list[str]]:
    """Return the factors from the file's unit to those of the CRS, and what to tell the user.

    Parameters
    ----------
    rule
        ``refuse`` a difference, ``convert`` the coordinates, or ``keep`` the numbers.

    Raises
    ------
    UndercourseError
        The CRS is not projected, or the units differ and the rule is ``refuse``.
    """
    units = job_units(crs)
    remarks = []
    stated = stated_crs(file)
    if stated is not None and not same_plan(stated, crs):
        remarks.append(
            translate(
                "Layers", "{file} states {stated}, and is read as {crs} as you asked for."
            ).format(file=file.name, stated=describe_crs(stated), crs=describe_crs(crs))
        )
    unit = file.unit
    if unit is None or (unit.same_as(units.plan) and unit.same_as(units.vertical)):
        return Scale(1.0, 1.0, units.plan), remarks
    other = units.plan if not unit.same_as(units.plan) else units.vertical
    if rule == "refuse":
        raise ExchangeError(
            translate(
                "Layers",
                "{file} is in {unit} and {crs} in {other}, which would move its points by up to {move} {symbol}: find out which is true, then choose to convert or to keep the numbers.",
            ).format(
                file=file.name,
                unit=_described(unit),
                crs=describe_crs(crs),
                other=_described(other),
                move=f"{_largest(file) * abs(unit.to(other) - 1.0):,.3f}",
                symbol=other.symbol,
            )
        )
    if rule == "keep":
        remarks.append(
            translate(
                "Layers",
                "{file} is in {unit} by its own words; its numbers are taken as {other} as you asked for.",
            ).format(file=file.name, unit=_described(unit), other=_described(other))
        )
        return Scale(1.0, 1.0, units.plan), remarks
    scale = Scale(unit.to(units.plan), unit.to(units.vertical), units.plan)
    remarks.append(
        translate(
            "Layers",
            "{file} is in {unit}; plan coordinates are multiplied by {plan} and heights by {vertical} to be in the units of {crs}.",
        ).format(
            file=file.name,
            unit=_described(unit),
            plan=f"{scale.plan:.12g}",
            vertical=f"{scale.vertical:.12g}",
            crs=describe_crs(crs),
        )
    )
    return scale, remarks


def _described(unit: LinearUnit) -> str:
    if unit.is_feet:
        exact = unit.exact
        size = "0.3048 m" if exact.denominator != 3937 else "1200/3937 m"
        return translate("Layers", "{name} ({size})").format(name=unit.name, size=size)
    return unit.name


def _largest(file: LandXmlFile) -> float:
    """Return the largest plan coordinate of the file, without its sign."""
    found = [0.0]
    tins = [one.tin for one in file.surfaces if one.tin is not None]
    found += [float(abs(tin.vertices[:, :2]).max()) for tin in tins]
    found += [float(abs(line.coordinates[:, :2]).max()) for line in file.lines]
    found += [float(abs(s.points).max()) for one in file.alignments for s in one.segments]
    found += [max(abs(point.xyz[0]), abs(point.xyz[1])) for point in file.points]
    return max(found)
