"""Regular stretches of surface points or faces, read in blocks.

A long list nearly always repeats one form, ``<P id="1">n e z</P>`` or ``<F>a b c</F>``, with
nothing but its numbers changing. Then the text without its digits is one unit repeated, and each
number stands at the same place in each unit. Both are checked for every byte; only then are the
numbers read all at once. Whatever deviates is left to the XML parser, which also finds the words
for what is wrong with it.
"""

import re
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .numbers import LARGEST

NUMBER = b"0123456789.+-"
"""Bytes of plain numbers. Exponents and NaN are letters, and go the slow way."""

_IS_NUMBER = np.zeros(256, dtype=bool)
_IS_NUMBER[list(NUMBER)] = True
_BLANKED = bytes(code if code in NUMBER else 32 for code in range(256))
# Neighbours and border edges of a face follow from the faces themselves.
_IGNORED = re.compile(rb'[ \t]+(?:n|b)="[0-9 ]*"')
_MARK = re.compile(rb'[ \t]+i="([01])"')
_ITEM = {
    "P": re.compile(rb'<P id="([0-9]+)">\s*([^\s<]+)\s+([^\s<]+)\s+([^\s<]+)\s*</P>\s*'),
    "F": re.compile(rb"<F>\s*([0-9]+)\s+([0-9]+)\s+([0-9]+)\s*</F>\s*"),
}
WIDTH = {"P": 4, "F": 3}
"""Numbers in one item: id, northing, easting, elevation; or three point ids."""


@dataclass
class Block:
    """A stretch of items.

    Parameters
    ----------
    values : (k, w) float for points, int for faces
        ``WIDTH`` numbers an item.
    first_line
        Line of the first item.
    lines_each
        Lines from one item to the next.
    hidden : (k,) bool
        Which faces are marked invisible; None for none.
    """

    values: NDArray
    first_line: int
    lines_each: int
    hidden: NDArray[np.bool_] | None = None

    @property
    def lines(self) -> NDArray[np.int64]:
        """Line of each item, (k,) int."""
        return self.first_line + self.lines_each * np.arange(len(self.values), dtype=np.int64)


def count_lines(data: bytes) -> int:
    """Return the number of line ends as an XML parser counts them."""
    returns = data.count(b"\r")
    return data.count(b"\n") + (returns - data.count(b"\r\n") if returns else 0)


def read_block(data: bytes, tag: str, line: int) -> Block | None:
    """Return the items that make up the data, or None if they are not all of one form.

    Parameters
    ----------
    data
        Whole items with nothing but blanks before, between and after them.
    tag
        ``"P"`` or ``"F"``.
    line
        Line on which the data starts.
    """
    if tag not in _ITEM:
        return None
    start = len(data) - len(data.lstrip())
    first_line = line + count_lines(data[:start])
    body = data[start:].rstrip()
    hidden = None
    if tag == "F" and b'="' in body:
        body = _IGNORED.sub(b"", body)
        body, hidden = _without_marks(body)
    model = _ITEM[tag].match(body)
    if model is None:
        return None
    unit = model[0].translate(None, NUMBER)
    bare = body.translate(None, NUMBER)
    tail = unit[len(unit.rstrip()) :]
    count, left = divmod(len(bare) + len(tail), len(unit))
    if left or bare + tail != unit * count:
        return None
    if not _stand_alike(body, model, len(unit), count):
        return None
    kind = np.float64 if tag == "P" else np.int64
    values = _numbers(body, kind, count, WIDTH[tag])
    if values is None or values[:, 0 if tag == "P" else slice(None)].min() < 0:
        return None
    if tag == "P" and ((values[:, 0] % 1.0).any() or np.abs(values).max() > LARGEST):
        return None
    return Block(values, first_line, count_lines(model[0]), hidden)


def _without_marks(body: bytes) -> tuple[bytes, NDArray[np.bool_] | None]:
    """Return the faces without their visibility, and which of them are invisible."""
    marks = [mark.start() for mark in _MARK.finditer(body) if mark[1] == b"1"]
    if not marks:
        return _MARK.sub(b"", body), None
    codes = np.frombuffer(body, dtype=np.uint8)
    starts = np.flatnonzero((codes[:-1] == ord("<")) & (codes[1:] == ord("F")))
    hidden = np.zeros(len(starts), dtype=bool)
    hidden[np.searchsorted(starts, marks) - 1] = True
    return _MARK.sub(b"", body), hidden


def _stand_alike(body: bytes, model: re.Match[bytes], period: int, count: int) -> bool:
    """Return whether the numbers stand where they stand in the model, in each unit."""
    is_number = _IS_NUMBER[np.frombuffer(body, dtype=np.uint8)]
    starts = is_number.copy()
    starts[1:] &= ~is_number[:-1]
    others_before = np.cumsum(~is_number, dtype=np.int32)[starts]
    groups = range(1, model.re.groups + 1)
    offsets = [len(body[: model.start(group)].translate(None, NUMBER)) for group in groups]
    wanted = np.arange(count, dtype=np.int64)[:, None] * period + np.array(offsets)
    return bool(np.array_equal(others_before, wanted.ravel()))


def _numbers(body: bytes, kind: type, count: int, width: int) -> NDArray | None:
    try:
        values: NDArray = np.fromstring(body.translate(_BLANKED), dtype=kind, sep=" ")
    except (DeprecationWarning, ValueError):
        return None  # such as 1.2.3 or 4-5
    if len(values) != count * width or not np.isfinite(values).all():
        return None
    return values.reshape(count, width)
