"""Numbers in the text of elements and attributes: strict, and with a place in every error."""

import math
import re

from ...text import translate
from .node import Node
from .place import Place

_PLAIN = re.compile(r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?")

LARGEST = 1e15
"""No coordinate is larger, and products of larger ones would overflow or be noise."""


def read_numbers(text: str, place: Place, dimension: int) -> tuple[list[float], bool]:
    """Return the numbers of a text, and whether commas stood between them.

    The schema separates numbers by blanks. Commas are read where they can only be separators
    (``1.5, 2.5, 3.5`` or ``1,2,3``); where they may be decimal commas the text is refused.

    Parameters
    ----------
    text
        Text of an element.
    place
        Where it stands.
    dimension
        Numbers that belong together, 2 or 3.

    Raises
    ------
    ExchangeError
        A word is no finite number, or a comma may be a decimal comma.
    """
    words = text.split()
    commas = "," in text
    if commas:
        words = _without_commas(words, place, dimension)
    return [read_number(word, place) for word in words], commas


def read_number(word: str, place: Place) -> float:
    """Return the finite number that a word is.

    Raises
    ------
    ExchangeError
        It is not one.
    """
    value = float(word) if _PLAIN.fullmatch(word) else math.nan
    if not math.isfinite(value):
        raise place.error(
            translate(
                "Core", "'{word}' is not a finite number: correct it or export again."
            ).format(word=word[:40])
        )
    if abs(value) > LARGEST:
        raise place.error(
            translate("Core", "'{word}' is too large for a coordinate: correct it.").format(
                word=word[:40]
            )
        )
    return value


def _without_commas(words: list[str], place: Place, dimension: int) -> list[str]:
    trailing = [word.rstrip(",") for word in words if word != ","]
    if not any("," in word for word in trailing):
        return trailing
    split = [word.strip(",").split(",") for word in words if word != ","]
    # "1,2,3 4,5,6": no number has two decimal commas. Of a pair "1,2" nobody can tell.
    if dimension == 3 and all(len(numbers) == 3 for numbers in split):
        return [number for numbers in split for number in numbers]
    raise place.error(
        translate(
            "Core",
            "the commas may be decimal commas or separators, and LandXML wants decimal points and blanks: export the file again.",
        )
    )


def attribute_number(node: Node, name: str) -> float | None:
    """Return an attribute as a number, None when it is absent, infinity for ``INF``.

    Raises
    ------
    ExchangeError
        It is there and is not a number.
    """
    word = node.get(name)
    if not word:
        return None
    if word.upper() in {"INF", "+INF", "INFINITY", "INFINITE"}:
        return math.inf
    if not _PLAIN.fullmatch(word) or not math.isfinite(float(word)):
        raise node.place.error(
            translate("Core", "{name}='{word}' is not a number: correct it.").format(
                name=name, word=word[:40]
            )
        )
    return float(word)


def printed_rounding(word: str) -> float:
    """Return half a unit of the last digit printed: how far the number may be from the truth."""
    mantissa, _, exponent = word.strip().lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    return 0.5 * 10.0 ** (int(exponent or 0) - decimals)
