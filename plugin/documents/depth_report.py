"""The report of a depth surface."""

from collections.abc import Sequence

import numpy as np

from ..core.depth.surface import DepthSurface
from ..core.depth.zones import Outside, Zones
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..layers.crs import JobUnits, describe_crs
from ..layers.surfaces import Surface
from .report import Report
from .zone_plan import MOST_ZONES, draw

_CUBIC_FEET_IN_YARD = 27.0


def write_report(
    path: str,
    surface: DepthSurface,
    zones: Zones,
    outside: Outside,
    depth: float,
    units: JobUnits,
    *,
    design: Surface,
    zones_name: str,
    names: Sequence[str],
) -> None:
    """Write the page.

    Parameters
    ----------
    path
        Where it goes.
    surface, zones
        Result and input.
    outside, depth
        What was done outside all zones, and the depth for all.
    units
        Of the job.
    design, zones_name
        What was used.
    names
        What people call each zone, empty where nothing.
    """
    about = [
        (translate("DepthReport", "Design"), design.name),
        (translate("DepthReport", "Zones"), zones_name),
        (translate("DepthReport", "CRS"), describe_crs(design.crs)),
        (translate("DepthReport", "Plan unit"), units.plan.name),
        (translate("DepthReport", "Unit of heights and depths"), units.vertical.name),
    ]
    report = Report(translate("DepthReport", "Depth surface"), about)
    report.verdict(*_verdict(surface, zones, units), flagged=bool(surface.findings))
    _zone_table(report, surface, zones, names, outside, depth, units)
    if len(zones) <= MOST_ZONES:
        plan = draw(
            zones.polygons,
            zones.ids.tolist(),
            names,
            zones.depths.tolist(),
            surface.tin.extent,
            units.plan,
        )
        report.svg(
            plan,
            translate(
                "DepthReport",
                "The zones as given, cut off at the frame of the surface; darker is deeper.",
            ),
        )
    report.heading(translate("DepthReport", "How it was made"))
    report.bullets(_notes(surface, units))
    if surface.findings:
        report.heading(translate("DepthReport", "To be looked at"))
        report.table(
            (
                translate("DepthReport", "Flag"),
                translate("DepthReport", "Zone"),
                translate("DepthReport", "Why"),
            ),
            [
                (found.code, "" if found.feature is None else found.feature, found.why)
                for found in surface.findings
            ],
        )
    report.write(path)


def _verdict(surface: DepthSurface, zones: Zones, units: JobUnits) -> list[str]:
    quantities = surface.quantities
    below, above = float(quantities.cuts.sum()), float(quantities.fills.sum())
    sentences = [
        translate(
            "DepthReport", "{count} zones over {area}; volume below the design {below}."
        ).format(
            count=len(zones),
            area=area(float(quantities.plan_areas[:-1].sum()), units.plan),
            below=volume(below, units.plan),
        )
    ]
    if above > 0:
        sentences.append(
            translate("DepthReport", "Volume above the design {above}.").format(
                above=volume(above, units.plan)
            )
        )
    if surface.findings:
        sentences.append(
            translate(
                "DepthReport", "{count} things are flagged below: look at them first."
            ).format(count=len(surface.findings))
        )
    else:
        sentences.append(translate("DepthReport", "Nothing was flagged."))
    return sentences


def _zone_table(
    report: Report,
    surface: DepthSurface,
    zones: Zones,
    names: Sequence[str],
    outside: Outside,
    depth: float,
    units: JobUnits,
) -> None:
    report.heading(translate("DepthReport", "Zones"))
    raised = bool(surface.quantities.fills.any())
    head = [
        translate("DepthReport", "Zone"),
        translate("DepthReport", "Depth (+ below the design)"),
        translate("DepthReport", "Plan area"),
        translate("DepthReport", "Area on the slope"),
        translate("DepthReport", "Volume below the design"),
    ]
    if raised:
        head.append(translate("DepthReport", "Volume above it"))
    order = np.argsort(zones.ids, kind="stable")
    rows = [
        (
            f"{zones.ids[row]} {names[row]}".strip(),
            describe_length(float(zones.depths[row]), units.vertical),
            *_figures(surface, row, units.plan, raised),
        )
        for row in order
    ]
    last = len(zones)
    if outside is not Outside.LEAVE_OUT and surface.quantities.plan_areas[last] > 0:
        told = (
            describe_length(depth, units.vertical)
            if outside is Outside.USE_DEPTH
            else translate("DepthReport", "the design itself")
        )
        label = translate("DepthReport", "outside all")
        rows.append((label, told, *_figures(surface, last, units.plan, raised)))
    report.table(
        head,
        rows,
        translate(
            "DepthReport",
            "Zones by feature id. Steps are counted in the plan area and the volumes, not in the area on the slope.",
        ),
        numeric=range(1, len(head)),
    )


def _figures(surface: DepthSurface, row: int, plan: LinearUnit, raised: bool) -> list[str]:
    quantities = surface.quantities
    figures = [
        area(float(quantities.plan_areas[row]), plan),
        area(float(quantities.sloped_areas[row]), plan),
        volume(float(quantities.cuts[row]), plan),
    ]
    if raised:
        figures.append(volume(float(quantities.fills[row]), plan))
    return figures


def _notes(surface: DepthSurface, units: JobUnits) -> Sequence[str]:
    notes = [
        translate(
            "DepthReport",
            "Depths are plumb: measured vertically. Bottoms lie exactly on the planes of the design, moved straight down.",
        ),
        translate(
            "DepthReport", "Zone borders were moved by at most {move} to fit the design."
        ).format(move=_small(surface.largest_move, units.plan)),
        translate(
            "DepthReport",
            "Volumes lie between the design and this surface; existing ground is not considered, and nothing is added for swell.",
        ),
    ]
    if np.isfinite(surface.least_run):
        notes.insert(
            1,
            translate(
                "DepthReport",
                "Steps between depths lie in the deeper zone and run {run} in plan at least: they stand for upright sides, which no ground holds by itself.",
            ).format(run=_small(surface.least_run, units.plan)),
        )
    return notes


def _small(length: float, unit: LinearUnit) -> str:
    return f"{length:.2g} {unit.symbol}"


def area(value: float, plan: LinearUnit) -> str:
    """Return an area with its unit."""
    return f"{value:,.2f} {plan.symbol}²".replace(",", "\u202f")


def volume(value: float, plan: LinearUnit) -> str:
    """Return a volume with its unit, in feet also in cubic yards."""
    text = f"{value:,.2f} {plan.symbol}³"
    if plan.is_feet:
        text += f" ({value / _CUBIC_FEET_IN_YARD:,.2f} yd³)"
    return text.replace(",", "\u202f")
