"""What a check of depths found, in sentences."""

from dataclasses import dataclass

import numpy as np

from ..core.lines.words import plain_length
from ..core.measure.depth import Histogram, Part, Verdict, ZoneResult
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..layers.crs import JobUnits
from .volumes_report import both, square

PASS, FAIL, INCOMPLETE, UNCHECKED = "pass", "fail", "incomplete", "unchecked"
_NEGLIGIBLE = 1e-4
"""Share of a zone without data that is not worth a word."""
_DUST = 1e-6
"""Share of what was checked that strips may have before they are worth one."""


@dataclass(frozen=True, eq=False)
class Outcome:
    """What was found in a zone, or in all.

    Parameters
    ----------
    name
        What people call it.
    identifier
        Feature id, None for the total and without zones.
    found
        The figures.
    depth, less, more
        What was asked; NaN where zones differ.
    area, missing
        Plan area of the zone, and of its part without data; NaN where that is not known.
    histogram
        Of the deviations.
    worst
        Its worst regions, shallow and deep, as far as there are any.
    points
        Whether points were checked, and no ground.
    """

    name: str
    identifier: int | None
    found: ZoneResult
    depth: float
    less: float
    more: float
    area: float
    missing: float
    histogram: Histogram
    worst: dict[Verdict, Part]
    points: bool = False

    @property
    def missing_share(self) -> float:
        """Share of the zone without data; 0 where that is not known."""
        return self.missing / self.area if self.area > 0 and np.isfinite(self.missing) else 0.0

    @property
    def state(self) -> str:
        """`PASS`, `FAIL`, `INCOMPLETE` (passes where there is data) or `UNCHECKED`."""
        if self.found.measure[1:].any():
            return FAIL
        if not self.found.checked:
            return UNCHECKED
        return INCOMPLETE if self.missing_share > _NEGLIGIBLE else PASS


def state_label(state: str) -> str:
    """Return what people read for a state."""
    return {
        PASS: translate("DepthCheck", "PASS"),
        FAIL: translate("DepthCheck", "FAIL"),
        INCOMPLETE: translate("DepthCheck", "INCOMPLETE"),
        UNCHECKED: translate("DepthCheck", "NOT CHECKED"),
    }[state]


def limits_text(less: float, more: float, unit: LinearUnit) -> str:
    """Return a tolerance as it is written: - shallower, + deeper."""
    if np.isnan(less) or np.isnan(more):
        return translate("DepthCheck", "by zone")
    base = unit.base
    short, deep = (
        translate("DepthCheck", "any") if np.isinf(value) else f"{value * unit.to(base):.4g}"
        for value in (less, more)
    )
    return f"-{short} / +{deep} {base.symbol}"


def amount(value: float, units: JobUnits, *, points: bool) -> str:
    """Return an area in both systems, or a number of points."""
    if points:
        if value == 1:
            return translate("DepthCheck", "1 point")
        return translate("DepthCheck", "{count:.0f} points").format(count=value)
    return both(value, units.plan, square)


def sentence(outcome: Outcome, units: JobUnits) -> str:
    """Return the verdict on a zone."""
    found, unit, points = outcome.found, units.vertical, outcome.points
    if outcome.state == UNCHECKED:
        if outcome.found.narrow:
            return translate("DepthCheck", "Nothing but narrow strips could be compared.")
        return translate("DepthCheck", "Nothing to compare: no data of both here.")
    told = []
    whole = amount(found.checked, units, points=points)
    if outcome.state == FAIL:
        text = (
            translate("DepthCheck", "{share:.1f} % of {whole} within tolerance.")
            if found.share
            else translate("DepthCheck", "Nothing of {whole} within tolerance.")
        )
        told.append(text.format(share=100 * found.share, whole=whole))
        for verdict, text in (
            (Verdict.SHALLOW, translate("DepthCheck", "{part} too shallow, up to {off} less than asked.")),  # noqa: E501
            (Verdict.DEEP, translate("DepthCheck", "{part} too deep, up to {off} more than asked.")),  # noqa: E501
        ):  # fmt: skip
            if found.measure[verdict]:
                off = -found.least if verdict == Verdict.SHALLOW else found.most
                told.append(
                    text.format(
                        part=amount(float(found.measure[verdict]), units, points=points),
                        off=describe_length(off, unit),
                    )
                )
    else:
        text = translate("DepthCheck", "All of {whole} within tolerance: {least} to {most} off the depth asked.")  # noqa: E501  # fmt: skip
        told.append(
            text.format(
                whole=whole,
                least=signed_length(found.least, unit),
                most=signed_length(found.most, unit),
            )
        )
    if outcome.missing_share > _NEGLIGIBLE:
        text = translate("DepthCheck", "{share:.1f} % of the zone ({area}) has no data and was not checked.")  # noqa: E501  # fmt: skip
        area = both(outcome.missing, units.plan, square)
        told.append(text.format(share=100 * outcome.missing_share, area=area))
    if found.narrow:
        text = translate(
            "DepthCheck", "Strips beside upright steps, {area} in all, were not judged."
        )
        told.append(text.format(area=both(found.narrow, units.plan, square)))
    return " ".join(told)


def signed_length(value: float, unit: LinearUnit) -> str:
    """Return a deviation in both styles, with its sign unless it is nothing."""
    text = describe_length(value, unit)
    return text if value < 0 or float(text.split()[0]) == 0 else f"+{text}"


@dataclass(frozen=True, eq=False)
class LineOutcome:
    """What was found over a line that needs cover.

    Parameters
    ----------
    name, identifier
        Of the line.
    asked, least
        Cover asked for, and the least found; NaN where there is none.
    station
        Distance along the line to the least cover.
    xyz
        That place on the line.
    length, lacking, unknown
        Plan length, that with too little cover, and that without data.
    """

    name: str
    identifier: int
    asked: float
    least: float
    station: float
    xyz: np.ndarray
    length: float
    lacking: float
    unknown: float
    slack: float

    @property
    def state(self) -> str:
        """`PASS`, `FAIL`, `INCOMPLETE` or `UNCHECKED`."""
        if np.isnan(self.least):
            return UNCHECKED
        if self.least < self.asked - self.slack:
            return FAIL
        return INCOMPLETE if self.unknown > _NEGLIGIBLE * self.length else PASS


def line_sentence(line: LineOutcome, units: JobUnits) -> str:
    """Return the verdict on a line."""
    if line.state == UNCHECKED:
        return translate("DepthCheck", "No cover is known: the line has no heights, or does not lie under the design.")  # noqa: E501  # fmt: skip
    told = [
        translate(
            "DepthCheck",
            "Least cover {least}, {asked} asked, at {station} from its start, near {x:.2f}, {y:.2f}.",
        ).format(
            least=describe_length(line.least, units.vertical),
            asked=describe_length(line.asked, units.vertical),
            station=plain_length(line.station, units.plan),
            x=line.xyz[0],
            y=line.xyz[1],
        )
    ]
    if line.state == FAIL:
        text = translate("DepthCheck", "{length} of {whole} have too little cover.")
        told.append(
            text.format(
                length=plain_length(line.lacking, units.plan),
                whole=plain_length(line.length, units.plan),
            )
        )
    if line.unknown > _NEGLIGIBLE * line.length:
        text = translate("DepthCheck", "{length} have no data and were not checked.")
        told.append(text.format(length=plain_length(line.unknown, units.plan)))
    return " ".join(told)
