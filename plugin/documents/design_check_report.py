"""The report of a check of a design: the verdict first, then each finding and what to do."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import shapely

from ..core.measure.issues import (
    CODES,
    MOST_OF_A_CODE,
    Issue,
    Issues,
    JobScale,
    Weight,
    code_title,
    what_to_do,
)
from ..core.text import translate
from .issue_plan import draw
from .report import Report

MOST_ROWS = 25
"""So many findings of one code and weight are in the table; the layers hold all."""


@dataclass(frozen=True)
class Facts:
    """What was checked.

    Parameters
    ----------
    design, crs
        Names of the layer and of its CRS.
    scale
        Units.
    area
        Plan area of the design.
    points, faces
        How many it has.
    zones
        Name of the layer with zones; empty without one.
    unzoned
        Plan area of the design in no zone.
    limits
        The limits that were set, each in a few words.
    shallow
        How many ponds were too shallow to be listed.
    """

    design: str
    crs: str
    scale: JobScale
    area: float
    points: int
    faces: int
    zones: str
    unzoned: float
    limits: Sequence[str]
    shallow: int


def design_check_report(
    facts: Facts,
    issues: Issues,
    listed: Sequence[Issue],
    outline: shapely.Geometry,
    zones: Iterable[shapely.Geometry],
) -> Report:
    """Build the report.

    Parameters
    ----------
    facts
        What was checked.
    issues, listed
        What was found, and the same in the order of its numbers.
    outline, zones
        The ground of the design and its zones, for the plan.
    """
    report = Report(translate("Report", "Check of a design"), _about(facts))
    errors, checks, notes = (issues.of_weight(weight) for weight in Weight)
    report.verdict(*_verdict(facts, issues, errors, checks, notes), flagged=bool(errors + checks))
    if errors + checks + notes:
        report.heading(translate("Report", "What was found"))
        report.table(
            (
                translate("Report", "What"),
                translate("Report", "Flag"),
                translate("Report", "Errors"),
                translate("Report", "To check"),
                translate("Report", "Notes"),
            ),
            [
                (code_title(code), code, *(issues.count(code, weight) or "" for weight in Weight))
                for code in CODES
                if issues.count(code)
            ],
            numeric=(2, 3, 4),
        )
    report.svg(
        draw(listed, outline, zones, facts.scale.plan),
        translate(
            "Report",
            "North is up. The numbers are those of the table below and of the layers; thin lines are zones.",
        ),
    )
    for weight, title in (
        (Weight.ERROR, translate("Report", "Errors")),
        (Weight.CHECK, translate("Report", "To check")),
        (Weight.NOTE, translate("Report", "Notes")),
    ):
        _section(report, listed, weight, title)
    report.heading(translate("Report", "What was looked at"))
    report.bullets(_looked_at(facts, issues))
    return report


def _about(facts: Facts) -> list[tuple[str, str]]:
    scale = facts.scale
    about = [
        (translate("Report", "Design"), facts.design),
        (translate("Report", "CRS"), facts.crs),
        (translate("Report", "Plan unit"), scale.plan.name),
        (translate("Report", "Unit of heights"), scale.vertical.name),
        (
            translate("Report", "Size"),
            translate("Report", "{area}; points: {points:,}, faces: {faces:,}").format(
                area=scale.area(facts.area), points=facts.points, faces=facts.faces
            ),
        ),
    ]
    about.append((translate("Report", "Zones"), facts.zones or translate("Report", "none given")))
    return about


def _verdict(facts: Facts, issues: Issues, errors: int, checks: int, notes: int) -> list[str]:
    if errors:
        text = translate(
            "Report",
            "“{design}” is not fit to work from as it is. Errors: {errors}; things to check: {checks}.",
        )
        first = text.format(design=facts.design, errors=errors, checks=checks)
    elif checks:
        text = translate(
            "Report",
            "Nothing in “{design}” is wrong for certain. Things to check before work begins: {checks}.",
        )
        first = text.format(design=facts.design, checks=checks)
    else:
        first = translate("Report", "Nothing was found wrong with “{design}”.").format(
            design=facts.design
        )
    sentences = [first]
    ponds = [one for one in issues.found if one.code == "pond" and one.weight is not Weight.NOTE]
    if ponds:
        scale = facts.scale
        text = translate(
            "Report",
            "It does not drain everywhere: water stands on {area}, {volume} in all, up to {depth} deep (ponds: {count}).",
        )
        sentences.append(
            text.format(
                count=issues.count("pond", Weight.ERROR, Weight.CHECK),
                area=scale.area(sum(one.area or 0.0 for one in ponds)),
                volume=scale.volume(sum(one.volume or 0.0 for one in ponds)),
                depth=scale.depth(max(one.height or 0.0 for one in ponds)),
            )
        )
    if notes:
        sentences.append(translate("Report", "Notes to read: {count}.").format(count=notes))
    return sentences


def _section(report: Report, listed: Sequence[Issue], weight: Weight, title: str) -> None:
    rows = [(number, one) for number, one in enumerate(listed, 1) if one.weight is weight]
    if not rows:
        return
    count = Counter(one.code for _, one in rows)
    seen: Counter[str] = Counter()
    kept = []
    for number, one in rows:
        seen[one.code] += 1
        if seen[one.code] <= MOST_ROWS:
            kept.append((number, one))
    report.heading(title)
    report.table(
        (
            translate("Report", "No."),
            translate("Report", "What"),
            translate("Report", "Why"),
            translate("Report", "What to do"),
            translate("Report", "Where"),
        ),
        [
            (number, code_title(one.code), one.why, what_to_do(one.code, weight), _where(one))
            for number, one in kept
        ],
        numeric=(0,),
        sentences=(2, 3),
    )
    for code, number in count.items():
        if number > MOST_ROWS:
            text = translate("Report", "{what}: the first {most} of {count}; the layers hold all.")
            report.paragraph(text.format(what=code_title(code), most=MOST_ROWS, count=number))


def _where(issue: Issue) -> str:
    return "" if issue.place is None else f"{issue.place[0]:.2f}, {issue.place[1]:.2f}"


def _looked_at(facts: Facts, issues: Issues) -> list[str]:
    said = [
        "; ".join(facts.limits) + ".",
        translate(
            "Report",
            "Water runs off over all borders of the surface, those of holes too; it seeps away nowhere, and no pipe or inlet takes it.",
        ),
    ]
    if facts.shallow:
        said.append(
            translate("Report", "Ponds that are shallower and were passed over: {count}.").format(
                count=facts.shallow
            )
        )
    if facts.zones:
        said.append(
            translate("Report", "Ground of the design in no zone: {area}.").format(
                area=facts.scale.area(facts.unzoned)
            )
        )
    cut = [code_title(code) for (_, code), n in issues.counts.items() if n > MOST_OF_A_CODE]
    if cut:
        said.append(
            translate(
                "Report", "Of these only the first {most} are listed, all are counted: {what}."
            ).format(most=MOST_OF_A_CODE, what=", ".join(cut))
        )
    said.append(
        translate(
            "Report",
            "The surface is compared with nothing else here: heights and places can be wrong in a way that leaves no trace in it.",
        )
    )
    return said
