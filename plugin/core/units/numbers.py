"""Numbers as people write them: decimals, common fractions, typographic signs; read exactly."""

import re
import unicodedata
from fractions import Fraction

from ..errors import LengthTextError
from ..text import translate

LONGEST = 80
"""Longer texts are no single number."""

_REPLACED = str.maketrans(
    {
        **dict.fromkeys("\u2212\u2013\u2014\u2010\u2011\u2012\uff0d", "-"),
        **dict.fromkeys("\u2032\u2019\u2018\u02b9\u00b4\u0060\u02bc", "'"),
        **dict.fromkeys("\u2033\u201d\u201c\u02ba\u201f", '"'),
        **dict.fromkeys("\u00a0\u2009\u202f\u2007\u2002\u2003\u200a\t", " "),
        "\u2044": "/",
        "\u2236": ":",
    }
)

DECIMAL = r"(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:e[+-]?[0-9]{1,2})?"
FRACTION = r"(?:[0-9]+[ -]+)?[0-9]+ ?/ ?[0-9]+"
NUMBER = rf"(?:{FRACTION}|{DECIMAL})"

_WHOLE_AND_FRACTION = re.compile(r"(?:([0-9]+)[ -]+)?([0-9]+) ?/ ?([0-9]+)")


def plain(text: str) -> str:
    """Return the text in plain signs: ``2½”`` becomes ``2 1/2"``; lower case, single spaces.

    Raises
    ------
    LengthTextError
        If it is empty or longer than any number.
    """
    signs = []
    for sign in text:
        decomposed = unicodedata.decomposition(sign)
        if decomposed.startswith("<fraction> ") and decomposed.count(" ") >= 3:
            signs.append(" " + unicodedata.normalize("NFKC", sign) + " ")
        else:
            signs.append(sign)
    cleaned = "".join(signs).translate(_REPLACED).replace("''", '"').lower()
    cleaned = " ".join(cleaned.split())
    if not cleaned:
        raise LengthTextError(
            translate("Core", "A length is missing: write for example 0.2 ft, 2.4 in or 60 mm.")
        )
    if len(cleaned) > LONGEST:
        raise LengthTextError(
            translate("Core", "'{text}...' is too long for one number.").format(text=text[:30])
        )
    return cleaned


def has_fraction(number: str) -> bool:
    """Return whether the number is written with a fraction bar."""
    return "/" in number


def read_number(number: str, text: str) -> Fraction:
    """Return the exact value of an unsigned number that matches `NUMBER`.

    Parameters
    ----------
    number
        The number.
    text
        The whole text, as the user wrote it, for the message.

    Raises
    ------
    LengthTextError
        On a zero denominator, or a whole number with an improper fraction (``2 5/4``).
    """
    match = _WHOLE_AND_FRACTION.fullmatch(number)
    if match is None:
        return Fraction(number)
    whole, above, below = match.groups()
    if int(below) == 0 or (whole is not None and int(above) >= int(below)):
        raise LengthTextError(
            translate(
                "Core", "'{text}' holds no proper fraction: write it like 2 1/2 or as a decimal."
            ).format(text=text)
        )
    return int(whole or 0) + Fraction(int(above), int(below))
