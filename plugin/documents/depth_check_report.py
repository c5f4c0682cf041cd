"""The report of a check of depths: a verdict for each zone, a plan, worst places, histograms."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..core.findings import Finding
from ..core.measure.depth import Part, Verdict
from ..core.text import translate
from ..core.units import LinearUnit, describe_length
from ..layers.crs import JobUnits
from .depth_check_words import (
    FAIL,
    PASS,
    LineOutcome,
    Outcome,
    limits_text,
    line_sentence,
    sentence,
    signed_length,
    state_label,
)
from .histogram import draw as draw_histogram
from .region_plan import DOTTED, HATCHED, PLAIN, Region, draw
from .report import Report

MOST_ROWS, MOST_PLACES, MOST_HISTOGRAMS, MOST_MARKS = 400, 25, 12, 15


@dataclass(frozen=True)
class Checked:
    """Everything that the report tells.

    Parameters
    ----------
    zones
        What was found in each zone; one entry without zones.
    total
        All zones together; None when only lines were checked.
    lines
        What was found over lines.
    parts
        Regions that fail, the farthest off first.
    shapes
        (k, 3) outline of each zone and verdict; None for points.
    outlines
        The zones.
    places
        Points that fail: x, y, label.
    unmatched
        Name and reason of points that could not be checked.
    """

    zones: Sequence[Outcome]
    total: Outcome | None
    lines: Sequence[LineOutcome]
    parts: Sequence[Part]
    shapes: np.ndarray | None
    outlines: Sequence
    places: Sequence[tuple[float, float, str]]
    unmatched: Sequence[tuple[str, str]]
    findings: Sequence[Finding]
    units: JobUnits
    method: str


def verdict(checked: Checked) -> tuple[list[str], bool]:
    """Return the sentences that open the report, and whether all is well."""
    told = []
    states = [zone.state for zone in checked.zones]
    if states:
        told.append(
            translate(
                "DepthCheck",
                "{passed} of {count} zones pass, {failed} fail, {rest} are not or not wholly checked.",
            ).format(
                passed=states.count(PASS),
                count=len(states),
                failed=states.count(FAIL),
                rest=len(states) - states.count(PASS) - states.count(FAIL),
            )
        )
    units = checked.units
    told += [_said(z.name, z.state, sentence(z, units)) for z in checked.zones[:MOST_ROWS]]
    told += [_said(a.name, a.state, line_sentence(a, units)) for a in checked.lines[:MOST_ROWS]]
    if checked.unmatched:
        text = translate(
            "DepthCheck", "{count} points could not be checked; they are listed below."
        )
        told.append(text.format(count=len(checked.unmatched)))
    all_states = [*states, *(line.state for line in checked.lines)]
    clean = all(state == PASS for state in all_states) and not checked.unmatched
    return told, clean and not checked.findings


def _said(name: str, state: str, text: str) -> str:
    return translate("DepthCheck", "{name}: {state}. {text}").format(
        name=name, state=state_label(state), text=text
    )


def depth_check_report(about: Sequence[tuple[str, str]], checked: Checked) -> Report:
    """Build the report."""
    report = Report(translate("DepthCheck", "Check of depths"), about)
    told, clean = verdict(checked)
    report.verdict(*told, flagged=not clean)
    report.findings(checked.findings)
    _plan(report, checked)
    _zones(report, checked)
    _worst(report, checked)
    _histograms(report, checked)
    _lines(report, checked)
    _unmatched(report, checked)
    report.heading(translate("DepthCheck", "How it was checked"))
    report.paragraph(checked.method)
    return report


def _plan(report: Report, checked: Checked) -> None:
    regions = []
    if checked.shapes is not None:
        passed = list(checked.shapes[:, Verdict.PASS])
        shallow, deep = (
            [part.shape for part in checked.parts if part.verdict == one and not part.narrow]
            for one in (Verdict.SHALLOW, Verdict.DEEP)
        )
        regions = [
            Region(passed, PLAIN, translate("DepthCheck", "within tolerance")),
            Region(deep, HATCHED, translate("DepthCheck", "too deep")),
            Region(shallow, DOTTED, translate("DepthCheck", "too shallow")),
        ]
    wide = [part for part in checked.parts if not part.narrow][:MOST_MARKS]
    places = [(*map(float, part.xy), str(n)) for n, part in enumerate(wide, 1)]
    places += list(checked.places)[:MOST_MARKS]
    places += [
        (float(line.xyz[0]), float(line.xyz[1]), line.name)
        for line in checked.lines
        if line.state == FAIL
    ]
    title = translate("DepthCheck", "Plan of what passes and fails, north up")
    svg = draw(title, regions, checked.outlines, checked.units.plan, places)
    if svg:
        report.heading(translate("DepthCheck", "Where"))
        caption = translate(
            "DepthCheck",
            "North is up. Dotted: too shallow. Hatched: too deep. Plain: within tolerance. Bold numbers: zones. Crosses: the worst places.",
        )
        report.svg(svg, caption)


def _zones(report: Report, checked: Checked) -> None:
    if not checked.zones:
        return
    unit = checked.units.vertical
    total = [checked.total] if checked.total is not None and len(checked.zones) > 1 else []
    names = [f"{number} {zone.name}" for number, zone in enumerate(checked.zones[:MOST_ROWS], 1)]
    names += [one.name for one in total]
    shown = [*checked.zones[:MOST_ROWS], *total]
    report.heading(translate("DepthCheck", "By zone"))
    report.table(
        (
            translate("DepthCheck", "Zone"),
            translate("DepthCheck", "Result"),
            translate("DepthCheck", "Asked"),
            translate("DepthCheck", "Tolerance"),
            translate("DepthCheck", "Within, %"),
            translate("DepthCheck", "Shallow, %"),
            translate("DepthCheck", "Deep, %"),
        ),
        [
            (
                name,
                state_label(zone.state),
                describe_length(zone.depth, unit) if np.isfinite(zone.depth) else "–",
                limits_text(zone.less, zone.more, unit),
                *(_percent(zone, verdict) for verdict in Verdict),
            )
            for name, zone in zip(names, shown, strict=True)
        ],
        numeric=range(2, 7),
    )
    report.table(
        (
            translate("DepthCheck", "Zone"),
            translate("DepthCheck", "Shallowest"),
            translate("DepthCheck", "Mean"),
            translate("DepthCheck", "Deepest"),
        ),
        [
            (name, *(_off(v, unit) for v in (one.found.least, one.found.mean, one.found.most)))
            for name, one in zip(names, shown, strict=True)
        ],
        translate(
            "DepthCheck",
            "Deviations, depth found less depth asked: + is deeper, - is shallower",
        ),
        numeric=range(1, 4),
    )


def _percent(zone: Outcome, verdict: Verdict) -> str:
    found = zone.found
    return f"{100 * float(found.measure[verdict]) / found.checked:.1f}" if found.checked else "–"


def _off(value: float, unit: LinearUnit) -> str:
    return signed_length(value, unit) if np.isfinite(value) else "–"


def _worst(report: Report, checked: Checked) -> None:
    wide = [part for part in checked.parts if not part.narrow]
    if not wide:
        return
    unit, plan = checked.units.vertical, checked.units.plan
    labels = {
        Verdict.SHALLOW: translate("DepthCheck", "too shallow"),
        Verdict.DEEP: translate("DepthCheck", "too deep"),
    }
    report.heading(translate("DepthCheck", "Worst places"))
    rows = [
        (
            n,
            checked.zones[part.zone].name,
            labels[part.verdict],
            describe_length(abs(part.deviation), unit),
            f"{part.shape.area:.1f}",
            f"{part.xy[0]:.2f}, {part.xy[1]:.2f}",
        )
        for n, part in enumerate(wide[:MOST_PLACES], 1)
    ]
    report.table(
        (
            translate("DepthCheck", "No."),
            translate("DepthCheck", "Zone"),
            translate("DepthCheck", "What"),
            translate("DepthCheck", "Off by"),
            translate("DepthCheck", "Region, sq {unit}").format(unit=plan.symbol),
            translate("DepthCheck", "Where (x, y)"),
        ),
        rows,
        numeric=(0, 3, 4),
    )
    if len(wide) > MOST_PLACES:
        text = translate("DepthCheck", "The first {most} of {count}; the layer holds all.")
        report.paragraph(text.format(most=MOST_PLACES, count=len(wide)))


def _histograms(report: Report, checked: Checked) -> None:
    if checked.total is None:
        return
    report.heading(translate("DepthCheck", "Histogram"))
    shown = [checked.total]
    if 1 < len(checked.zones) <= MOST_HISTOGRAMS:
        shown += checked.zones
    for one in shown:
        svg = draw_histogram(one.histogram, one.less, one.more, checked.units.vertical)
        if svg:
            report.svg(svg, one.name)
    if checked.shapes is not None:
        text = translate("DepthCheck", "Heights of bars are shares of the area; the outer bars hold all that lies beyond.")  # noqa: E501  # fmt: skip
    else:
        text = translate("DepthCheck", "Heights of bars are shares of the points; the outer bars hold all that lies beyond.")  # noqa: E501  # fmt: skip
    report.paragraph(text)


def _lines(report: Report, checked: Checked) -> None:
    if not checked.lines:
        return
    report.heading(translate("DepthCheck", "Cover over lines"))
    report.table(
        (
            translate("DepthCheck", "Line"),
            translate("DepthCheck", "Result"),
            translate("DepthCheck", "Why"),
        ),
        [
            (line.name, state_label(line.state), line_sentence(line, checked.units))
            for line in checked.lines[:MOST_ROWS]
        ],
        sentences=(2,),
    )


def _unmatched(report: Report, checked: Checked) -> None:
    if not checked.unmatched:
        return
    report.heading(translate("DepthCheck", "Points not checked"))
    head = (translate("DepthCheck", "Point"), translate("DepthCheck", "Why"))
    report.table(head, checked.unmatched[:MOST_ROWS], sentences=(1,))
