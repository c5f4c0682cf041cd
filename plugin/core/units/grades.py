"""Grades (rise over run, percent) and ratios H:V (run to rise), read from text.

Rules
-----
- A number without a sign of its own is percent: ``3`` is ``3 %``.
- ``n:1`` is run to rise (H:V), as batters are written: ``3:1`` is 33.3 %.
- ``1:n`` is one up in n along, as accessibility rules write it (``1:48`` is 2.083 %), from
  ``1:5`` on. Steeper ones (``1:2``) are refused: batters are written either way round, and the
  two readings differ fourfold. ``1 in 2`` is never in doubt.
"""

import math
import re
from fractions import Fraction
from typing import NoReturn

from ..errors import LengthTextError
from ..text import translate
from .numbers import NUMBER, has_fraction, plain, read_number

FLATTEST_DOUBT = 5
"""From ``1:5`` on, ``1:n`` can only be meant as rise to run."""

FLATTEST_PERCENT = 10
"""A batter in percent that is flatter than 10:1 is the fall of a surface put in the wrong box."""

FLATTEST_BATTER = 100
"""No side is flatter than 100:1."""

_PERCENT = re.compile(rf"([+-]?) ?({NUMBER}) ?(%|percent|per cent)?")
_DEGREES = re.compile(rf"([+-]?) ?({NUMBER}) ?(?:\u00b0|deg|degrees?)")
_RATIO = re.compile(rf"([+-]?) ?({NUMBER}) ?: ?({NUMBER})(?: ?h ?: ?v)?")
_UPRIGHT = re.compile(r"0(?:\.0*)? ?(?:: ?1(?:\.0*)?)?")
_ONE_IN = re.compile(rf"([+-]?) ?1 in ({NUMBER})")


def _refuse(text: str) -> NoReturn:
    raise LengthTextError(
        translate(
            "Core",
            "'{text}' cannot be read as a grade: write 3 %, 3:1 (run to rise), 1:48 or 1 in 20 (rise to run).",  # noqa: E501
        ).format(text=text.strip())
    )


class _DoubtError(LengthTextError):
    """A text can be read two ways."""


def _doubtful(text: str) -> NoReturn:
    raise _DoubtError(
        translate(
            "Core",
            "'{text}' can be run to rise or rise to run: write it as n:1 (run to rise), as 1 in n, or in percent.",  # noqa: E501
        ).format(text=text.strip())
    )


def _rise_over_run(text: str, run: Fraction, rise: Fraction, *, accept_one_to_n: bool) -> Fraction:
    """Return the slope of a written ratio ``a:b``."""
    if run == 0 or rise == 0:
        _refuse(text)
    if rise == 1:
        return rise / run
    if run != 1 or not accept_one_to_n or rise < FLATTEST_DOUBT:
        _doubtful(text)
    return run / rise


def _slope(text: str, *, accept_one_to_n: bool) -> Fraction:
    """Return the signed rise over run that the text means (a number: percent)."""
    cleaned = plain(text)
    if match := _PERCENT.fullmatch(cleaned):
        sign, number, percent = match.groups()
        if percent is None and has_fraction(number):
            _doubtful(text)
        slope = read_number(number, text) / 100
    elif match := _ONE_IN.fullmatch(cleaned):
        sign, run = match[1], read_number(match[2], text)
        if run == 0:
            _refuse(text)
        slope = 1 / run
    elif match := _RATIO.fullmatch(cleaned):
        sign = match[1]
        first, second = read_number(match[2], text), read_number(match[3], text)
        slope = _rise_over_run(text, first, second, accept_one_to_n=accept_one_to_n)
    elif match := _DEGREES.fullmatch(cleaned):
        sign, degrees = match[1], read_number(match[2], text)
        if degrees >= 90:
            _refuse(text)
        slope = Fraction(math.tan(math.radians(float(degrees))))
    else:
        _refuse(text)
    return -slope if sign == "-" else slope


def _number(value: object) -> float | None:
    """Return a finite number that came as one, None for a text."""
    if isinstance(value, str):
        return None
    if isinstance(value, (int, float)) and not isinstance(value, bool) and math.isfinite(value):
        return float(value)
    _refuse(str(value))


def parse_grade(text: str | float) -> float:
    """Return a written grade in percent.

    Parameters
    ----------
    text
        ``3``, ``-1.5 %``, ``3:1`` (run to rise), ``1:48`` or ``1 in 20`` (rise to run),
        ``18.4 deg``; or a number, taken as percent.

    Returns
    -------
    float
        Rise over run in percent, with the sign written.

    Raises
    ------
    LengthTextError
        If it is no grade or can be read two ways.

    Examples
    --------
    >>> from plugin.core.units import parse_grade
    >>> parse_grade("-4:1"), parse_grade("1 in 20")
    (-25.0, 5.0)
    """
    number = _number(text)
    return number if number is not None else float(_slope(str(text), accept_one_to_n=True) * 100)


def parse_ratio(text: str | float) -> float:
    """Return a written batter as the run for a rise of one (the H of H:V); 0 is upright.

    Parameters
    ----------
    text
        ``3:1``, ``1/2:1``, ``1 in 3``, ``50 %``; or a plain number, taken as the run.

    Raises
    ------
    LengthTextError
        If it is no ratio, is negative, is level (0 %), or is written ``1:n`` (which way round
        cannot be told for a batter).
    """
    number = _number(text)
    if number is None:
        try:
            number = float(plain(str(text)))
        except ValueError as error:
            if isinstance(error, LengthTextError):
                raise
    if number is None:
        slope = _slope(str(text), accept_one_to_n=False)
        if slope <= 0:
            _refuse(str(text))
        return float(1 / slope)
    if number < 0 or not math.isfinite(number):
        _refuse(str(text))
    return number


def parse_batter(text: str | float) -> float:
    """Return the batter of a side as the run for a rise of one; 0 is upright.

    Parameters
    ----------
    text
        As `parse_ratio`; ``0:1`` is upright too.

    Raises
    ------
    LengthTextError
        As `parse_ratio`, in terms of batters; or it is flatter than 100:1, or than 10:1 and in
        percent.

    Examples
    --------
    >>> from plugin.core.units import parse_batter
    >>> parse_batter("1 1/2:1"), parse_batter("3/4:1"), parse_batter(2)
    (1.5, 0.75, 2.0)
    """
    written = str(text).strip()
    cleaned = plain(written) if written else ""
    if cleaned.startswith("-"):
        raise LengthTextError(
            translate(
                "Core",
                "'{text}' is negative, but a side runs outward as it climbs: write run to rise like 1.5:1, or 0 for upright.",  # noqa: E501
            ).format(text=written)
        )
    if _UPRIGHT.fullmatch(cleaned):
        return 0.0
    try:
        run = parse_ratio(text)
    except _DoubtError:
        raise
    except LengthTextError as error:
        raise LengthTextError(
            translate(
                "Core",
                "'{text}' cannot be read as a batter: write run to rise, like 1.5:1, 1 1/2:1 or 1.5, or 0 for upright.",  # noqa: E501
            ).format(text=written)
        ) from error
    if run > (
        FLATTEST_PERCENT if _PERCENT.fullmatch(cleaned) and "%" in cleaned else FLATTEST_BATTER
    ):
        raise LengthTextError(
            translate(
                "Core",
                "'{text}' is a side of {run:g}:1, flatter than any that is dug: write run to rise, like 1.5:1.",  # noqa: E501
            ).format(text=written, run=run)
        )
    return run
