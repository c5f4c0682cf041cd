"""What a check of grades says of each zone and area, in sentences."""

import math

from ..core.measure.fail_areas import Area
from ..core.measure.grade_check import FAIL, NEAR, PASS, BreakRow, Row
from ..core.measure.grade_rules import Measure
from ..core.measure.grades import FIRST_FAIL, Code, Limit
from ..core.text import translate
from ..core.units import LinearUnit


def percent(value: float, other: float = math.nan) -> str:
    """Return a grade in percent, with as many digits as it takes to tell it from another."""
    digits = 3
    while (
        digits < 9 and value != other and f"{100 * value:.{digits}f}" == f"{100 * other:.{digits}f}"
    ):
        digits += 1
    return f"{100 * value:.{digits}f} %"


def limit_words(limit: Limit) -> str:
    """Return a limit in words, as it was written too where that is not percent."""
    parts = []
    if not math.isnan(limit.low):
        parts.append(translate("CheckGrades", "at least {grade}").format(grade=percent(limit.low)))
    if not math.isnan(limit.high):
        parts.append(translate("CheckGrades", "at most {grade}").format(grade=percent(limit.high)))
    words = ", ".join(parts)
    return f"{words} ({limit.written})" if ":" in limit.written else words


def measure_words(measure: Measure) -> str:
    """Return what is measured, as part of a sentence."""
    return {
        Measure.MAX_SLOPE: translate("CheckGrades", "steepest slope"),
        Measure.ALONG: translate("CheckGrades", "grade along"),
        Measure.ACROSS: translate("CheckGrades", "cross slope"),
        Measure.BREAK: translate("CheckGrades", "change of grade"),
    }[measure]


def verdict_words(verdict: str) -> str:
    """Return what people read for a verdict."""
    return {
        FAIL: translate("CheckGrades", "FAIL"),
        NEAR: translate("CheckGrades", "Near"),
        PASS: translate("CheckGrades", "Pass"),
    }.get(verdict, translate("CheckGrades", "Not checked"))


def of_row(row: Row, zone: str, near: float, unit: LinearUnit) -> str:
    """Return the verdict on a limit of a grade."""
    found, limit = row.figures, row.limit
    what = {"zone": zone, "measure": measure_words(limit.measure), "limit": limit_words(limit)}
    if found.place is None:
        return translate("CheckGrades", "{zone}: the {measure} was not checked, there is nothing to judge it by.").format(**what)  # noqa: E501  # fmt: skip
    x, y = found.place
    flat = not math.isnan(limit.low) and found.worst < limit.low + near
    what |= {
        "worst": percent(found.worst, limit.low if flat else limit.high),
        "x": f"{x:.2f}",
        "y": f"{y:.2f}",
        "share": f"{100 * found.failed / found.checked:.3g}",
        "failed": f"{found.failed:,.1f} sq {unit.symbol}",
        "near": percent(near),
    }
    if row.verdict == FAIL:
        text = translate(
            "CheckGrades",
            "{zone}: FAILS on {share} % of the area checked ({failed}), where the {measure} is not {limit}; worst {worst} near {x}, {y}.",
        )
        if found.just > 0 and found.just >= found.failed * (1 - 1e-9):
            text += " " + translate("CheckGrades", "It misses by no more than {near} anywhere.")
    elif row.verdict == NEAR:
        text = translate(
            "CheckGrades",
            "{zone}: passes, with less than {near} to spare: the {measure} must be {limit}, and is {worst} near {x}, {y}.",
        )
    else:
        text = translate(
            "CheckGrades",
            "{zone}: passes, the {measure} must be {limit}, and the worst is {worst} near {x}, {y}.",
        )
    return text.format(**what)


def of_breaks(row: BreakRow, zone: str, near: float, unit: LinearUnit) -> str:
    """Return the verdict on a limit of the change of grade at gutters."""
    if not len(row.edges):
        return translate(
            "CheckGrades",
            "{zone}: the change of grade was not checked, no gutter line follows an edge of the design there.",
        ).format(zone=zone)
    at = int(row.change.argmax())
    x, y = row.breaks.middles[row.edges[at]].tolist()
    what = {
        "zone": zone,
        "limit": limit_words(row.limit),
        "worst": percent(float(row.change[at]), row.limit.high),
        "x": f"{x:.2f}",
        "y": f"{y:.2f}",
        "length": f"{row.failed:,.2f} {unit.symbol}",
        "whole": f"{row.length():,.2f} {unit.symbol}",
        "near": percent(near),
    }
    if row.verdict == FAIL:
        text = translate(
            "CheckGrades",
            "{zone}: FAILS along {length} of {whole} of gutter, where the change of grade is not {limit}; worst {worst} near {x}, {y}.",
        )
    elif row.verdict == NEAR:
        text = translate(
            "CheckGrades",
            "{zone}: passes, with less than {near} to spare: the change of grade at the gutter must be {limit}, and is {worst} near {x}, {y}.",
        )
    else:
        text = translate(
            "CheckGrades",
            "{zone}: passes, the change of grade at the gutter must be {limit}, and the worst is {worst} near {x}, {y}.",
        )
    return text.format(**what)


def of_area(one: Area, limit: Limit, near: float) -> str:
    """Return why an area is shown."""
    flat = one.flag.endswith("flat")
    bound = limit.low if flat else limit.high
    what = {
        "measure": measure_words(limit.measure),
        "grade": percent(one.worst, bound),
        "limit": limit_words(limit),
        "off": percent(abs(one.worst - bound)),
        "near": percent(near),
    }
    if one.code < FIRST_FAIL:
        text = translate(
            "CheckGrades",
            "The {measure} of {grade} passes, but with {off} to spare, less than {near}: it must be {limit}.",
        )
    else:
        text = translate(
            "CheckGrades", "The {measure} of {grade} misses its limit by {off}: it must be {limit}."
        )
    why = text.format(**what)
    if one.thin:
        why += " " + translate("CheckGrades", "The area is too narrow to count.")
    return why


def of_break(change: float, limit: Limit, code: int) -> str | None:
    """Return why an edge on a gutter fails or nearly does, None where it passes."""
    if code == Code.PASS:
        return None
    what = {
        "grade": percent(change, limit.high),
        "limit": limit_words(limit),
        "off": percent(abs(change - limit.high)),
    }
    if code < FIRST_FAIL:
        text = translate(
            "CheckGrades", "The change of grade of {grade} passes with {off} to spare: it must be {limit}."  # noqa: E501
        )  # fmt: skip
    else:
        text = translate(
            "CheckGrades", "The change of grade of {grade} misses its limit by {off}: it must be {limit}."  # noqa: E501
        )  # fmt: skip
    return text.format(**what)
