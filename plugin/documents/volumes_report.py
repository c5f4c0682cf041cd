"""The report of volumes: cut and fill in words with the layers' names, by zone, in both units."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..core.findings import Finding
from ..core.measure.volumes import Factors, Volumes
from ..core.text import translate
from ..core.tin.overlay import Figures
from ..core.units import METRE, LinearUnit
from ..layers.crs import JobUnits
from .course_totals import METRIC, number, systems
from .region_plan import DOTTED, HATCHED, PLAIN, Region, draw
from .report import Report

MOST_ROWS = 400
_YARD = 27.0


@dataclass(frozen=True)
class Names:
    """What people call the surfaces and the zones."""

    upper: str
    lower: str
    of_zones: Sequence[str] = ()


@dataclass(frozen=True)
class Parts:
    """Everything that the report tells."""

    volumes: Volumes
    factors: Factors
    names: Names
    units: JobUnits
    method: str
    findings: Sequence[Finding]
    shapes: np.ndarray
    zones: Sequence

    @property
    def z_scale(self) -> float:
        """Plan units in one unit of height."""
        return self.units.vertical.to(self.units.plan)


def cubic(value: float, plan: LinearUnit, system: str) -> str:
    """Return a volume in plan units cubed as yd³ or m³, named."""
    if system == METRIC:
        return f"{number(value * plan.to(METRE) ** 3, 2)} m³"
    return f"{number(value * plan.to(plan.foot) ** 3 / _YARD, 2)} yd³"


def square(value: float, plan: LinearUnit, system: str) -> str:
    """Return an area in plan units squared as ft² or m², named."""
    if system == METRIC:
        return f"{number(value * plan.to(METRE) ** 2, 2)} m²"
    return f"{number(value * plan.to(plan.foot) ** 2, 1)} ft²"


def both(value: float, plan: LinearUnit, say=cubic) -> str:
    """Return a volume (or area) in the system of the job, and in the other behind."""
    first, second = systems(plan)
    return f"{say(value, plan, first)} ({say(value, plan, second)})"


def meaning(names: Names) -> str:
    """Say what cut and fill are, so that they cannot be read the wrong way round."""
    return translate(
        "VolumesReport",
        "CUT is where “{upper}” lies above “{lower}”: soil that goes when the ground is brought from “{upper}” down to “{lower}”. FILL is where “{upper}” lies below “{lower}”: soil that must come to bring it up.",
    ).format(upper=names.upper, lower=names.lower)


def sentences(parts: Parts) -> list[str]:
    """Return the verdict."""
    total, plan = parts.volumes.total, parts.units.plan
    cut, fill = float(total.cut[0]), float(total.fill[0])
    told = [
        translate(
            "VolumesReport", "Cut {cut} over {cut_area}; fill {fill} over {fill_area}."
        ).format(
            cut=both(cut, plan),
            cut_area=both(float(total.area_above[0]), plan, square),
            fill=both(fill, plan),
            fill_area=both(float(total.area_below[0]), plan, square),
        ),
        meaning(parts.names),
    ]
    over = parts.factors.balance(cut, fill)
    if parts.factors != Factors():
        text = (
            translate("VolumesReport", "With the fill compacted to {compacted:.3g} of its volume in the bank, {volume} (bank) are left over; loose, at {loose:.3g}, {loose_volume}.")  # noqa: E501
            if over >= 0
            else translate("VolumesReport", "With the fill compacted to {compacted:.3g} of its volume in the bank, {volume} (bank) are lacking; loose, at {loose:.3g}, {loose_volume}.")  # noqa: E501
        )  # fmt: skip
        told.append(
            text.format(
                compacted=parts.factors.compacted,
                loose=parts.factors.loose,
                volume=both(abs(over), plan),
                loose_volume=both(abs(over) * parts.factors.loose, plan),
            )
        )
    else:
        text = (
            translate("VolumesReport", "Cut less fill, in place: {volume} more cut than fill.")
            if over >= 0
            else translate("VolumesReport", "Cut less fill, in place: {volume} more fill than cut.")
        )
        told.append(text.format(volume=both(abs(over), plan)))
    share = parts.volumes.missing_share
    if share > 0:
        told.append(
            translate(
                "VolumesReport",
                "{share:.1f} % of the area of the zones ({area}) lacks one of the surfaces: what lies there is not in these figures.",
            ).format(share=100 * share, area=both(float(parts.volumes.missing.sum()), plan, square))
        )
    return told


def volumes_report(about: Sequence[tuple[str, str]], parts: Parts) -> Report:
    """Build the report."""
    report = Report(translate("VolumesReport", "Volumes between two surfaces"), about)
    flagged = bool(parts.findings) or parts.volumes.missing_share > 0
    report.verdict(*sentences(parts), flagged=flagged)
    report.findings(parts.findings)
    _plan(report, parts)
    for system in systems(parts.units.plan):
        _table(report, parts, system)
    _areas(report, parts)
    if parts.factors != Factors():
        for system in systems(parts.units.plan):
            _soil(report, parts, system)
    report.heading(translate("VolumesReport", "How it was measured"))
    report.paragraph(parts.method)
    report.paragraph(
        translate(
            "VolumesReport",
            "The mean difference is the volume (cut less fill) over the area that both surfaces cover; differences are “{upper}” less “{lower}”, positive where cut is.",
        ).format(upper=parts.names.upper, lower=parts.names.lower)
    )
    return report


def _plan(report: Report, parts: Parts) -> None:
    below, above, level = (list(column) for column in parts.shapes.T)
    svg = draw(
        translate("VolumesReport", "Plan of cut and fill, north up"),
        [
            Region(level, PLAIN, translate("VolumesReport", "level")),
            Region(above, HATCHED, translate("VolumesReport", "cut")),
            Region(below, DOTTED, translate("VolumesReport", "fill")),
        ],
        parts.zones,
        parts.units.plan,
    )
    if svg:
        report.heading(translate("VolumesReport", "Where cut and fill are"))
        caption = translate(
            "VolumesReport",
            "North is up. Hatched: “{upper}” lies above “{lower}” (cut). Dotted: it lies below (fill). Plain: no difference.",
        )
        report.svg(svg, caption.format(upper=parts.names.upper, lower=parts.names.lower))


def rows_of(parts: Parts) -> list[tuple[str, Figures, float]]:
    """Return name, figures (one entry) and area without data of each line of the tables."""
    volumes, zones = parts.volumes, len(parts.names.of_zones)
    each = np.arange(zones + 1)
    made = []
    for row, name in enumerate(parts.names.of_zones[:MOST_ROWS]):
        only = volumes.figures.gathered(np.where(each == row, 0, -1), 1)
        made.append((f"{row + 1} {name}", only, float(volumes.missing[row])))
    missing = float(volumes.missing.sum()) if zones else np.nan
    made.append((translate("VolumesReport", "Total"), volumes.total, missing))
    rest = volumes.figures.gathered(np.where(each == zones, 0, -1), 1)
    if zones and rest.area[0] > 0:
        label = translate("VolumesReport", "Outside the zones (not in the total)")
        made.append((label, rest, np.nan))
    return made


def _table(report: Report, parts: Parts, system: str) -> None:
    """Volumes and differences in a system of units."""
    plan, vertical = parts.units.plan, parts.units.vertical
    metric = system == METRIC
    volume = plan.to(METRE) ** 3 if metric else plan.to(plan.foot) ** 3 / _YARD
    rise = vertical.to(METRE if metric else vertical.foot)
    unit, high = ("m³", "m") if metric else ("yd³", "ft")
    head = _heads(
        (translate("VolumesReport", "Cut"), unit),
        (translate("VolumesReport", "Fill"), unit),
        (translate("VolumesReport", "Cut less fill"), unit),
        (translate("VolumesReport", "Least"), high),
        (translate("VolumesReport", "Mean"), high),
        (translate("VolumesReport", "Greatest"), high),
    )
    rows = []
    for name, one, _ in rows_of(parts):
        mean = one.net[0] / one.area[0] / parts.z_scale if one.area[0] > 0 else np.nan
        volumes = one.cut[0], one.fill[0], one.net[0]
        heights = one.least[0], mean, one.most[0]
        rows.append(
            [
                name,
                *(number(float(value) * volume, 2) for value in volumes),
                *(number(float(value) * rise, 3) for value in heights),
            ]
        )
    report.heading(
        translate("VolumesReport", "Volumes by zone, metric")
        if metric
        else translate("VolumesReport", "Volumes by zone, feet and yards")
    )
    caption = translate("VolumesReport", "Least, mean and greatest difference, + where cut is")
    report.table(head, rows, caption, numeric=range(1, len(head)))


def _areas(report: Report, parts: Parts) -> None:
    """Areas in the job's own system of units."""
    metric = systems(parts.units.plan)[0] == METRIC
    length = parts.units.plan.to(METRE if metric else parts.units.plan.foot)
    unit = "m²" if metric else "ft²"
    head = _heads(
        (translate("VolumesReport", "Both surfaces"), unit),
        (translate("VolumesReport", "Cut"), unit),
        (translate("VolumesReport", "Fill"), unit),
        (translate("VolumesReport", "Level"), unit),
        (translate("VolumesReport", "No data"), unit),
    )
    rows = []
    for name, one, missing in rows_of(parts):
        areas = one.area[0], one.area_above[0], one.area_below[0], one.area_level[0], missing
        rows.append([name, *(number(float(value) * length**2, 1) for value in areas)])
    report.heading(translate("VolumesReport", "Areas by zone"))
    report.table(head, rows, numeric=range(1, len(head)), sentences=(0,))


def _heads(*columns: tuple[str, str]) -> list[str]:
    return [translate("VolumesReport", "Zone"), *(f"{text}, {unit}" for text, unit in columns)]


def _soil(report: Report, parts: Parts, system: str) -> None:
    plan, factors = parts.units.plan, parts.factors
    length = plan.to(METRE) ** 3 if system == METRIC else plan.to(plan.foot) ** 3 / _YARD
    head = (
        translate("VolumesReport", "Zone"),
        translate("VolumesReport", "Cut, bank"),
        translate("VolumesReport", "Cut, loose"),
        translate("VolumesReport", "Fill, compacted"),
        translate("VolumesReport", "Bank for the fill"),
        translate("VolumesReport", "Loose for the fill"),
        translate("VolumesReport", "Balance, bank"),
    )
    rows = []
    for name, one, _ in rows_of(parts):
        cut, fill = float(one.cut[0]), float(one.fill[0])
        values = (
            cut,
            factors.loose_of_cut(cut),
            fill,
            factors.bank_for_fill(fill),
            factors.loose_for_fill(fill),
            factors.balance(cut, fill),
        )
        rows.append([name, *(number(value * length, 2) for value in values)])
    report.heading(
        translate("VolumesReport", "Bank, loose and compacted, m³")
        if system == METRIC
        else translate("VolumesReport", "Bank, loose and compacted, yd³")
    )
    caption = translate("VolumesReport", "Balance: + is left over, - is lacking")
    report.table(head, rows, caption, numeric=range(1, 7))
