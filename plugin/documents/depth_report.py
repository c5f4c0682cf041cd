"""The report of a depth surface."""

from collections.abc import Sequence

import numpy as np

from ..core.depth.footprints import footprints
from ..core.depth.manner import BatterRule, Corners, Manner
from ..core.depth.patchwork import Part
from ..core.depth.surface import DepthSurface
from ..core.depth.zones import Outside, Zones
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..layers.crs import JobUnits, describe_crs
from ..layers.surfaces import Surface
from . import depth_sketch
from .report import Report
from .zone_plan import MOST_ZONES, draw

_CUBIC_FEET_IN_YARD = 27.0
_MOST_SKETCHES = 6


def write_report(
    path: str,
    surface: DepthSurface,
    zones: Zones,
    outside: Outside,
    depth: float,
    units: JobUnits,
    manner: Manner,
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
        Result, and the zones as given.
    outside, depth
        What was done outside all zones, and the depth for all.
    units
        Of the job.
    manner
        How bottoms end.
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
        _plan(report, surface, zones, names, units)
    report.heading(translate("DepthReport", "How it was made"))
    _sketches(report, zones, names, units, manner)
    report.bullets(_notes(surface, zones, units, manner))
    report.findings(surface.findings)
    report.write(path)


def _plan(
    report: Report, surface: DepthSurface, zones: Zones, names: Sequence[str], units: JobUnits
) -> None:
    carried = [
        polygon if width > 0 else None
        for polygon, width in zip(surface.zones.polygons, zones.widths, strict=True)
    ]
    plan = draw(
        zones.polygons,
        zones.ids.tolist(),
        names,
        (zones.depths + zones.squares).tolist(),
        surface.tin.extent,
        units.plan,
        carried,
        footprints(surface, Part.BATTER).tolist(),
    )
    report.svg(
        plan,
        translate(
            "DepthReport",
            "The zones as given, cut off at the frame of the surface; darker is deeper.",
        ),
    )


def _sketches(
    report: Report, zones: Zones, names: Sequence[str], units: JobUnits, manner: Manner
) -> None:
    """Draw one section for each way in which zones were dug, those with most to explain first."""
    ways: dict[depth_sketch.Dug, list[int]] = {}
    for row in np.argsort(zones.ids, kind="stable").tolist():
        numbers = (zones.depths, zones.squares, zones.widths, zones.batters)
        way = depth_sketch.Dug(*(float(values[row]) for values in numbers), manner.rule)
        ways.setdefault(way, []).append(row)

    def least_plain(item: tuple[depth_sketch.Dug, list[int]]) -> tuple[bool, bool, bool, int]:
        way, rows = item
        return (way.batter == 0, way.width == 0, way.square == 0, -len(rows))

    ordered = sorted(ways.items(), key=least_plain)
    for number, (way, rows) in enumerate(ordered[:_MOST_SKETCHES]):
        called = [f"{zones.ids[row]} {names[row]}".strip() for row in rows[:4]]
        more = " …" if len(rows) > len(called) else ""
        caption = translate("DepthReport", "Zones: {names}. Not to scale.")
        report.svg(
            depth_sketch.draw(way, number, units.vertical, units.plan),
            caption.format(names=", ".join(called) + more),
        )
    if len(ordered) > _MOST_SKETCHES:
        report.paragraph(
            translate(
                "DepthReport", "{count} more ways of digging are not drawn; see the table above."
            ).format(count=len(ordered) - _MOST_SKETCHES)
        )


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
    columns = _Columns(surface, zones, units)
    order = np.argsort(zones.ids, kind="stable").tolist()
    called = {row: f"{zones.ids[row]} {names[row]}".strip() for row in order}
    last = len(zones)
    rest = translate("DepthReport", "outside all")
    with_rest = outside is not Outside.LEAVE_OUT and surface.quantities.plan_areas[last] > 0
    told = [(called[row], _depth(zones, row, units.vertical), *columns.ways(row)) for row in order]
    if with_rest:
        itself = translate("DepthReport", "the design itself")
        used = outside is Outside.USE_DEPTH
        told.append((rest, describe_length(depth, units.vertical) if used else itself, "", ""))
    head = (
        translate("DepthReport", "Zone"),
        translate("DepthReport", "Depth (+ below the design)"),
        translate("DepthReport", "Bottom carried on by"),
        translate("DepthReport", "Side (run per rise)"),
    )
    report.table(
        head, told, translate("DepthReport", "Zones by feature id."), numeric=range(1, len(head))
    )
    report.heading(translate("DepthReport", "Areas and volumes"))
    figures = [(called[row], *columns.figures(row)) for row in order]
    if with_rest:
        figures.append((rest, *columns.figures(last)))
    head = (translate("DepthReport", "Zone"), *columns.head)
    report.table(
        head,
        figures,
        translate(
            "DepthReport",
            "Steps count in the plan area and the volumes, not in the area on the slope; bottoms carried on and batters count with the zone they belong to.",
        ),
        numeric=range(1, len(head)),
    )


def _depth(zones: Zones, row: int, vertical: LinearUnit) -> str:
    depth, square = float(zones.depths[row]), float(zones.squares[row])
    told = [describe_length(depth, vertical)] if depth or not square else []
    if square:
        told.append(
            translate("DepthReport", "{depth} square").format(
                depth=describe_length(square, vertical)
            )
        )
    return " + ".join(told)


class _Columns:
    """What the tables of the zones hold."""

    def __init__(self, surface: DepthSurface, zones: Zones, units: JobUnits) -> None:
        self._zones, self._quantities, self._units = zones, surface.quantities, units
        self._sloping = bool(zones.batters.any())
        self._raised = bool(surface.quantities.fills.any())
        self.head = [
            translate("DepthReport", "Plan area"),
            *([translate("DepthReport", "of it batters")] if self._sloping else []),
            translate("DepthReport", "Area on the slope"),
            *([translate("DepthReport", "of it batters")] if self._sloping else []),
            translate("DepthReport", "Volume below the design"),
            *([translate("DepthReport", "Volume above it")] if self._raised else []),
        ]

    def ways(self, row: int) -> tuple[str, str]:
        """Return how far the bottom of a zone carries on, and its side."""
        width, ratio = float(self._zones.widths[row]), float(self._zones.batters[row])
        return (
            describe_length(width, self._units.plan) if width else "–",
            f"{ratio:g}:1" if ratio else translate("DepthReport", "upright"),
        )

    def figures(self, row: int) -> list[str]:
        """Return areas and volumes of a zone."""
        quantities, plan = self._quantities, self._units.plan
        told = [area(float(quantities.plan_areas[row]), plan)]
        if self._sloping:
            told.append(_if_any(float(quantities.batter_areas[row]), plan))
        told.append(area(float(quantities.sloped_areas[row]), plan))
        if self._sloping:
            told.append(_if_any(float(quantities.sloped_batter_areas[row]), plan))
        told.append(volume(float(quantities.cuts[row]), plan))
        if self._raised:
            told.append(volume(float(quantities.fills[row]), plan))
        return told


def _if_any(value: float, plan: LinearUnit) -> str:
    return area(value, plan) if value else "–"


def _notes(surface: DepthSurface, zones: Zones, units: JobUnits, manner: Manner) -> Sequence[str]:
    notes = []
    if (zones.squares == 0).any():
        notes.append(
            translate(
                "DepthReport",
                "Depths are plumb: measured vertically. Bottoms lie exactly on the planes of the design, moved straight down.",
            )
        )
    if zones.squares.any():
        notes.append(
            translate(
                "DepthReport",
                "A square thickness is measured at right angles to each face of the design: plumb it is thickness × √(1 + slope²). Where more than three planes meet in a point, the bottom takes the nearest point; the largest distance left is {residual}.",
            ).format(residual=_small(surface.largest_residual, units.vertical))
        )
    if np.isfinite(surface.least_run):
        notes.append(
            translate(
                "DepthReport",
                "Steps between depths lie in the deeper zone and run {run} in plan at least: they stand for upright sides, which no ground holds by itself.",
            ).format(run=_small(surface.least_run, units.plan))
        )
    if zones.batters.any():
        notes += _of_batters(manner)
    if surface.carried_area:
        notes.append(
            translate(
                "DepthReport",
                "Past the edge of the design, over {area} in plan, this surface lies below the slope of the design carried on.",
            ).format(area=area(surface.carried_area, units.plan))
        )
    return [
        *notes,
        translate(
            "DepthReport", "Zone borders were moved by at most {move} to fit the design."
        ).format(move=_small(surface.largest_move, units.plan)),
        translate(
            "DepthReport",
            "Volumes lie between the design and this surface; existing ground is not considered, and nothing is added for swell.",
        ),
    ]


def _of_batters(manner: Manner) -> list[str]:
    counted = (
        translate(
            "DepthReport",
            "Batters are run per rise above the horizontal, in the section at right angles to the edge, and end where they meet the design or a neighbour’s surface.",
        )
        if manner.rule is BatterRule.LEVEL
        else translate(
            "DepthReport",
            "Batters are the run over which the depth below the design becomes one less, so that they end where the depth has run out, or at a neighbour’s surface.",
        )
    )
    corners = (
        translate(
            "DepthReport",
            "Around outside corners the batter’s planes are carried on until they meet.",
        )
        if manner.corners is Corners.MITRE
        else translate("DepthReport", "Around outside corners batters are cones.")
    )
    safe = translate(
        "DepthReport",
        "A batter in this file is a shape, not a proof that the ground will stand at it.",
    )
    return [counted, corners, safe]


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
