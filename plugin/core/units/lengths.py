"""Lengths as text: what a foreman, a plan or a table writes, read exactly or refused.

Rules
-----
- No unit means the unit of the job. A fraction must carry a unit: ``2 1/2`` in a job in feet is
  as likely to be inches, and the slip would be twelvefold.
- ``ft`` (and ``'``) is the job's own foot where the job is in feet, and the international foot
  elsewhere; ``in`` is the twelfth part of that foot. A crew whose plans are in US survey feet
  says "ft" for them; the feet differ by 2 parts in a million (0.0002 ft in 100 ft), so on a depth
  the choice cannot be seen, and on a coordinate the job's own foot is the right one. To state
  the other foot, write ``ift`` (international) or ``usft`` (US survey): they always mean just
  that, in every job.
- Commas are never part of a number: ``0,2`` and ``1,000`` mean different things in different
  countries and are refused.
- A hyphen after feet joins (``2'-6"`` is two feet six); a minus stands in front and counts for
  the whole length.
"""

import math
import re
from fractions import Fraction
from typing import NamedTuple, NoReturn

from ..errors import LengthTextError
from ..text import translate
from .linear import INCH, US_SURVEY_INCH, LinearUnit, unit_by_word
from .numbers import DECIMAL, NUMBER, has_fraction, plain, read_number

MOST_LENGTHS = 1000
"""A range that gives more lengths than this is a slip."""

_WORD = r"[a-z][a-z -]*[a-z]\.?|[a-z]\.?|'|\""
_ONE = re.compile(rf"([+-]?) ?({NUMBER}) ?({_WORD})?")
_FEET_INCHES = re.compile(
    rf"([+-]?) ?({DECIMAL}) ?('|(?!e[+-]?[0-9])[a-z](?:[a-z -]*[a-z])?\.?) ?-? ?({NUMBER}) ?(\"|[a-z]+\.?)"
)
_TWO_NUMBERS = re.compile(rf"[+-]? ?{DECIMAL}(?: ?- ?| +){DECIMAL}")
_STEP = re.compile(r"(.+?)\.\.(.+?)\s+step\s+(.+)", re.IGNORECASE)
_GLUED_COMMA = re.compile(r"[0-9],[0-9]")


class _Length(NamedTuple):
    """A length in job units, and the unit it was written in (None = none written)."""

    value: Fraction
    unit: LinearUnit | None


def _refuse(text: str, advice: str) -> NoReturn:
    raise LengthTextError(
        translate("Core", "'{text}' cannot be read as a length: {advice}").format(
            text=text.strip(), advice=advice
        )
    )


def _explain(text: str, cleaned: str) -> NoReturn:
    """Say why the text is no length, and what to write."""
    if "," in cleaned:
        _refuse(
            text,
            translate("Core", "a comma is ambiguous, write a decimal point (0.2)."),
        )
    if _TWO_NUMBERS.fullmatch(cleaned):
        _refuse(
            text,
            translate("Core", "say which number is feet and which is inches (2'-6\")."),
        )
    if not any(sign.isdigit() for sign in cleaned):
        _refuse(text, translate("Core", "there is no number in it, write for example 0.2 ft."))
    _refuse(
        text,
        translate(
            "Core",
            "write one number and its unit, for example 0.2 ft, 2.4 in, 2 1/2 in, 2'-6\" or 60 mm.",
        ),
    )


def _read(text: str | float, job: LinearUnit) -> _Length:
    if isinstance(text, bool) or not isinstance(text, (str, int, float)):
        _refuse(str(text), translate("Core", "write a number and its unit, for example 0.2 ft."))
    if not isinstance(text, str):
        if not math.isfinite(text):
            _refuse(str(text), translate("Core", "it has to be a finite number."))
        return _Length(Fraction(text), None)
    cleaned = plain(text)
    one = _ONE.fullmatch(cleaned)
    if one:
        return _read_one(text, job, *one.groups())
    pair = _FEET_INCHES.fullmatch(cleaned)
    if pair:
        return _read_feet_and_inches(text, job, *pair.groups())
    _explain(text, cleaned)


def _read_one(text: str, job: LinearUnit, sign: str, number: str, word: str | None) -> _Length:
    value = read_number(number, text)
    if word is None:
        if has_fraction(number):
            _refuse(
                text,
                translate("Core", "a fraction needs its unit, write 2 1/2 in or 2 1/2 ft."),
            )
        unit = None
    else:
        unit = unit_by_word(word, job)
        value *= _in_job_units(unit, job)
    return _Length(-value if sign == "-" else value, unit)


def _read_feet_and_inches(
    text: str, job: LinearUnit, sign: str, feet: str, foot_word: str, inches: str, inch_word: str
) -> _Length:
    foot, inch = unit_by_word(foot_word, job), unit_by_word(inch_word, job)
    if not foot.is_feet or not (inch.same_as(INCH) or inch.same_as(US_SURVEY_INCH)):
        _refuse(text, translate("Core", "only feet and inches can be combined (2'-6\")."))
    whole, rest = read_number(feet, text), read_number(inches, text)
    if whole.denominator != 1 or rest >= 12:
        _refuse(
            text,
            translate("Core", "before inches the feet are whole, and inches are less than 12."),
        )
    value = (whole + rest / 12) * _in_job_units(foot, job)
    return _Length(-value if sign == "-" else value, foot)


def _in_job_units(unit: LinearUnit, job: LinearUnit) -> Fraction:
    return Fraction(1) if unit.same_as(job) else unit.exact / job.exact


def parse_length(text: str | float, job_unit: LinearUnit) -> float:
    r"""Return a written length in the unit of the job.

    Parameters
    ----------
    text
        ``0.2``, ``0.2 ft``, ``2.4 in``, ``2 1/2 in``, ``2'-6"``, ``60 mm``, ``0.06 m``,
        ``0.2 usft``, ``-2½″``; or a number, taken in job units. The rules are at the head of
        this module.
    job_unit
        Unit of the result, and of a number without one.

    Returns
    -------
    float
        The double nearest to the exact value: ``2.4 in`` is 0.2 in a job in feet.

    Raises
    ------
    LengthTextError
        If the text is no length or can mean two; the sentence says what to write instead.

    Examples
    --------
    >>> from plugin.core.units import FOOT, parse_length
    >>> parse_length("2 2/5 in", FOOT)
    0.2
    >>> parse_length('-2\'-6"', FOOT)
    -2.5
    """
    return float(_read(text, job_unit).value)


def parse_lengths(text: str | float, job_unit: LinearUnit) -> list[float]:
    """Return a written list of lengths in the unit of the job, in the order written.

    Parameters
    ----------
    text
        Lengths separated by semicolons or by commas followed by a space (``1, 2, 3``), each of
        them a length or a range ``1..5 step 1``, which holds its first length and every step
        up to its last one.
    job_unit
        Unit of the result, and of lengths without one.

    Raises
    ------
    LengthTextError
        If a part is no length; if a comma stands between two digits (``1,5`` can be one number
        or two); if only some parts carry a unit, and it is not the job's; if a range has no
        positive step or more than 1000 lengths.
    """
    if not isinstance(text, str):
        return [parse_length(text, job_unit)]
    if _GLUED_COMMA.search(text):
        _refuse(
            text,
            translate(
                "Core",
                "a comma between two digits can be a decimal sign, write 1.5 or separate by '; '.",
            ),
        )
    lengths: list[_Length] = []
    written: list[_Length] = []
    for item in text.replace(";", ",").split(","):
        if ".." in item:
            ends_and_step = _read_range(item, job_unit)
            written += ends_and_step
            lengths += _steps(item, *ends_and_step)
        else:
            one = _read(item, job_unit)
            written.append(one)
            lengths.append(one)
    foreign = [one.unit for one in written if one.unit and not one.unit.same_as(job_unit)]
    if foreign and any(one.unit is None for one in written):
        _refuse(
            text,
            translate("Core", "only some of its lengths carry a unit, write it after each."),
        )
    return [float(one.value) for one in lengths]


def _read_range(item: str, job: LinearUnit) -> list[_Length]:
    match = _STEP.fullmatch(item.strip())
    if match is None:
        _refuse(item, translate("Core", "write a range with its step, like 1..5 step 1."))
    return [_read(part, job) for part in match.groups()]


def _steps(item: str, first: _Length, last: _Length, step: _Length) -> list[_Length]:
    if step.value <= 0:
        _refuse(item, translate("Core", "the step of a range has to be greater than zero."))
    way = last.value - first.value
    count = int(abs(way) / step.value) + 1
    if count > MOST_LENGTHS:
        _refuse(
            item,
            translate("Core", "it gives more than 1000 lengths, take a larger step."),
        )
    signed = step.value if way >= 0 else -step.value
    return [_Length(first.value + k * signed, first.unit) for k in range(count)]


def describe_length(value: float, unit: LinearUnit) -> str:
    """Return a length in two styles, so that tenths of a foot are not taken for inches.

    Parameters
    ----------
    value
        The length.
    unit
        Its unit. Inches and yards are printed in feet, metric units in metres.

    Returns
    -------
    str
        ``"0.200 ft (2.4 in)"``, ``"0.200 usft (2.4 in)"`` or ``"0.060 m (60 mm)"``.
    """
    base = unit.base
    number = value * unit.to(base)
    if base.is_feet:
        return f"{_fixed(number, 3)} {base.symbol} ({_short(number * 12, 2, 1)} in)"
    return f"{_fixed(number, 3)} m ({_short(number * 1000, 1, 0)} mm)"


def _fixed(number: float, decimals: int) -> str:
    """Return the number with that many decimals, and never ``-0.000``."""
    text = f"{number:.{decimals}f}"
    return text.lstrip("-") if float(text) == 0 else text


def _short(number: float, most: int, least: int) -> str:
    """Return the number with up to ``most`` decimals, without needless zeros past ``least``."""
    whole, _, decimals = _fixed(number, most).partition(".")
    decimals = decimals[:least] + decimals[least:].rstrip("0")
    return f"{whole}.{decimals}" if decimals else whole
