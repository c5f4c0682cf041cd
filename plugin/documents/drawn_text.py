"""How much room a text takes in a drawing, and texts made to fit.

Widths are those of DejaVu Sans, the widest of the fonts that the reports ask for, rounded up by
class of sign (from its metrics, from memory): where a narrower font is used there is more room.
"""

from html import escape
from unicodedata import east_asian_width

_NARROW, _WIDE = set("iljI.,:;|!'`()[] /"), set("mwMWO@%&—…")


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return an upper estimate of the width of a text in pixels."""
    return sum(_share(sign) for sign in text) * size * (1.12 if bold else 1.0)


def _share(sign: str) -> float:
    if sign in _NARROW:
        return 0.40
    if sign in _WIDE or east_asian_width(sign) in "WF":
        return 1.0
    return 0.76 if sign.isupper() else 0.64


def fitted(text: str, room: float, size: float, *, bold: bool = False) -> tuple[str, str]:
    """Return the text, escaped and cut with … where it is too long, and the whole if it was cut."""
    if text_width(text, size, bold=bold) <= room:
        return escape(text), ""
    kept = text
    while kept and text_width(kept + "…", size, bold=bold) > room:
        kept = kept[:-1]
    return escape(kept.rstrip() + "…"), text


def wrapped(text: str, room: float, size: float) -> list[str]:
    """Return the lines of a text broken at spaces; a word longer than a line is cut."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else ""
        if lines and text_width(longer, size) <= room:
            lines[-1] = longer
        elif text_width(word, size) <= room:
            lines.append(word)
        else:
            kept = word
            while text_width(kept + "…", size) > room:
                kept = kept[:-1]
            lines.append(kept + "…")
    return lines or [""]
