"""Named limits of grades, read from a small table that says where each comes from."""

import csv
import io
import math
from dataclasses import dataclass
from enum import StrEnum

from ..errors import LengthTextError, UndercourseError
from ..text import translate
from ..units import parse_grade

COLUMNS = ("name", "measure", "min", "max", "source", "note")


class Measure(StrEnum):
    """Which grade is measured; each by its size, without sign."""

    MAX_SLOPE = "max_slope"
    ALONG = "along"
    ACROSS = "across"
    BREAK = "break"


@dataclass(frozen=True)
class Rule:
    """A limit with a name.

    Parameters
    ----------
    name
        What zones call it.
    measure : Measure
        What is measured.
    low, high
        Least and greatest grade, rise over run; NaN for none.
    written
        The limit as the rule writes it.
    source
        Document and section it comes from.
    note
        Anything else to know.
    """

    name: str
    measure: Measure
    low: float
    high: float
    written: str
    source: str
    note: str = ""


def read_rules(text: str, file: str) -> dict[str, Rule]:
    """Read rules from a table of comma or semicolon separated values.

    The first line names the columns: ``name``, ``measure`` (max_slope, along, across or break),
    ``min`` and ``max`` (one may be blank; ``1:48``, ``2 %``), ``source``, and ``note`` if wanted.

    Parameters
    ----------
    text
        The table.
    file
        What it is called, for messages.

    Raises
    ------
    UndercourseError
        A column is missing or a line cannot be used; file and line are named.
    """
    text = text.removeprefix("\ufeff")
    head = text.split("\n", 1)[0]
    mark = ";" if head.count(";") > head.count(",") else ","
    table = csv.DictReader(io.StringIO(text), delimiter=mark, skipinitialspace=True)
    names = [(name or "").strip().lower() for name in table.fieldnames or ()]
    table.fieldnames = names
    for column in COLUMNS[:-1]:
        if column not in names:
            raise UndercourseError(
                translate(
                    "Core",
                    "The rule file “{file}” has no column “{column}”: its first line must name {columns}.",
                ).format(file=file, column=column, columns=", ".join(COLUMNS))
            )
    rules: dict[str, Rule] = {}
    for row in table:
        values = {name: (row.get(name) or "").strip() for name in COLUMNS}
        if not any(values.values()):
            continue
        try:
            rule = _rule(values)
            if rule.name in rules:
                raise LengthTextError(
                    translate("Core", "the name “{name}” stands twice.").format(name=rule.name)
                )
        except LengthTextError as error:
            raise UndercourseError(
                translate("Core", "The rule file “{file}”, line {line}: {why}").format(
                    file=file, line=table.line_num, why=error
                )
            ) from error
        rules[rule.name] = rule
    if not rules:
        raise UndercourseError(
            translate("Core", "The rule file “{file}” holds no rule.").format(file=file)
        )
    return rules


def _rule(values: dict[str, str]) -> Rule:
    if not values["name"]:
        raise LengthTextError(translate("Core", "the rule has no name."))
    if values["measure"] not in list(Measure):
        raise LengthTextError(
            translate("Core", "“{value}” is no measure: write one of {words}.").format(
                value=values["measure"], words=", ".join(Measure)
            )
        )
    low, high = parse_limits(values["min"], values["max"])
    if values["measure"] == Measure.BREAK and math.isnan(high):
        raise LengthTextError(
            translate("Core", "a change of grade has a greatest value, not a least: fill in max.")
        )
    both = [text for text in (values["min"], values["max"]) if text]
    return Rule(
        values["name"],
        Measure(values["measure"]),
        low,
        high,
        " - ".join(both),
        values["source"],
        values["note"],
    )


def parse_limits(least: str | float, most: str | float) -> tuple[float, float]:
    """Return the least and the greatest grade as rise over run, NaN for a blank one.

    Raises
    ------
    LengthTextError
        Both are blank, one cannot be read or is negative, or the least is above the greatest.
    """
    low, high = _slope(least), _slope(most)
    if math.isnan(low) and math.isnan(high):
        raise LengthTextError(
            translate("Core", "there is neither a least nor a greatest grade: give one of them.")
        )
    if low > high:
        raise LengthTextError(
            translate(
                "Core",
                "the least grade {least} is above the greatest {most}: change one of them.",
            ).format(least=least, most=most)
        )
    return low, high


def _slope(text: str | float) -> float:
    if isinstance(text, str) and not text.strip():
        return math.nan
    if isinstance(text, float) and math.isnan(text):
        return text
    percent = parse_grade(text)
    if percent < 0:
        raise LengthTextError(
            translate(
                "Core", "'{text}' is negative, but grades are judged by their size: write it without a sign."  # noqa: E501
            ).format(text=text)
        )  # fmt: skip
    return percent / 100.0
