"""Signs that a design was read in another unit, or from another place, than it was made in."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from ..text import translate
from ..tin import Tin
from ..units import FOOT, METRE, MILLIMETRE, US_SURVEY_FOOT, LinearUnit
from .issues import Issue, JobScale, Weight

STEEP_ON_AVERAGE = 0.5
"""Mean rise over run from which heights look as if they were in a smaller unit than the plan."""

MOST_RELIEF = 0.3
"""Relief over the extent from which they look so too."""


@dataclass(frozen=True)
class Reading:
    """Another way to read plan coordinates.

    Parameters
    ----------
    unit : LinearUnit
        Unit the coordinates may be in.
    swapped : bool
        Whether the first of them may be the northing.
    """

    unit: LinearUnit
    swapped: bool


def readings(unit: LinearUnit) -> list[Reading]:
    """Return the ways in which coordinates are misread, the likelier first."""
    units = [u for u in (METRE, FOOT, US_SURVEY_FOOT, MILLIMETRE) if not u.same_as(unit)]
    plain = [Reading(other, swapped=False) for other in units]
    # The two feet are too near to be told apart by the place.
    if unit.is_feet:
        plain = [one for one in plain if not one.unit.is_feet]
    return [Reading(unit, swapped=True), *plain, *(Reading(r.unit, swapped=True) for r in plain)]


def place_issue(
    fits: bool | None,
    reading: Reading | None,
    scale: JobScale,
    crs: str,
    place: tuple[float, float],
) -> Issue | None:
    """Return what there is to say about where the design lies.

    Parameters
    ----------
    fits : bool or None
        Whether it lies where the CRS is made for; None when nothing says where that is.
    reading : Reading or None
        The first way to read the coordinates by which it would lie there.
    scale : JobScale
        The units.
    crs : str
        Name of the CRS.
    place : (float, float)
        Middle of the design.
    """
    if fits is None or fits:
        return None
    if reading is None:
        why = translate("Core", "The design lies outside the area that {crs} is made for.")
        return Issue("outside_crs", why.format(crs=crs), place, Weight.ERROR)
    if reading.swapped and reading.unit.same_as(scale.plan):
        why = translate(
            "Core",
            "The design lies outside the area that {crs} is made for, and inside it with easting and northing exchanged.",
        )
        return Issue("axes", why.format(crs=crs), place, Weight.ERROR)
    why = translate(
        "Core",
        "The design lies outside the area that {crs} is made for, and inside it if its coordinates are in {other} and not in {unit}.",
    )
    if reading.swapped:
        why = translate(
            "Core",
            "The design lies outside the area that {crs} is made for, and inside it if its coordinates are in {other} and not in {unit}, with easting and northing exchanged.",
        )
    text = why.format(crs=crs, other=unit_name(reading.unit), unit=unit_name(scale.plan))
    return Issue("plan_unit", text, place, Weight.ERROR)


def height_issues(tin: Tin, scale: JobScale) -> Iterator[Issue]:
    """Yield what the heights say about their unit.

    A design whose faces rise by more than a half on average, or whose relief is a third of its
    extent, has heights that look too large for its plan: feet on a plan in metres make every
    slope 3.28 times as steep.
    """
    xmin, ymin, xmax, ymax = tin.extent
    place = 0.5 * (xmin + xmax), 0.5 * (ymin + ymax)
    z = tin.vertices[tin.faces, 2]
    relief = float(z.max() - z.min())
    if not z.any():
        yield Issue(
            "no_heights", translate("Core", "All heights are 0."), place, Weight.ERROR, height=0.0
        )
        return
    extent = max(float(np.hypot(xmax - xmin, ymax - ymin)), 1e-300)
    solid = ~tin.without_plan_area
    slope = np.hypot(*tin.gradients[solid].T) * scale.z_scale
    area = tin.plan_areas[solid]
    mean = float((slope * area).sum() / max(float(area.sum()), 1e-300))
    if mean > STEEP_ON_AVERAGE or relief * scale.z_scale > MOST_RELIEF * extent:
        text = translate(
            "Core",
            "The heights look too large for the plan: faces rise {slope:.0f} % on average, and the relief is {relief} on {extent}; heights may be in a smaller unit than {unit} (feet on a plan in metres make slopes 3.28 times as steep).",
        ).format(
            slope=100 * mean,
            relief=scale.depth(relief),
            extent=scale.length(extent),
            unit=unit_name(scale.vertical),
        )
        yield Issue("height_unit", text, place, height=relief)


def foot_issue(tin: Tin, scale: JobScale) -> Issue | None:
    """Return how far the design would be off with the other foot; None where none is used.

    The US survey foot (1200/3937 m) is two parts in a million longer than the international foot
    (0.3048 m); on coordinates of millions of feet that is feet, on a depth it is nothing.
    """
    if not scale.plan.is_feet:
        return None
    own, other = scale.plan, FOOT if scale.plan.same_as(US_SURVEY_FOOT) else US_SURVEY_FOOT
    xmin, ymin, xmax, ymax = tin.extent
    place = 0.5 * (xmin + xmax), 0.5 * (ymin + ymax)
    part = abs(float(other.exact / own.exact) - 1.0)
    shift = part * float(np.hypot(*place))
    text = translate(
        "Core",
        "Coordinates are in {unit}; were they made in {other}, the design would lie {shift:.2f} {symbol} off ({x:.2f} in easting, {y:.2f} in northing).",
    ).format(
        unit=unit_name(own),
        other=unit_name(other),
        shift=shift,
        symbol=own.symbol,
        x=part * abs(place[0]),
        y=part * abs(place[1]),
    )
    return Issue("feet", text, place, Weight.NOTE, height=None)


def unit_name(unit: LinearUnit) -> str:
    """Return what people call a unit, many of it, in the user's language."""
    known = {
        METRE.name: translate("Core", "metres"),
        MILLIMETRE.name: translate("Core", "millimetres"),
        FOOT.name: translate("Core", "international feet"),
        US_SURVEY_FOOT.name: translate("Core", "US survey feet"),
    }
    return known.get(unit.name, unit.name)
