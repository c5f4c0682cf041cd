"""The two long lists of a surface, points and faces, gathered in typed arrays."""

from array import array

import numpy as np
from numpy.typing import NDArray

from ...text import translate
from . import bulk
from .node import Attributes
from .numbers import read_numbers
from .place import Place

LONGEST_ID = 16
"""Digits from which an id is a mistake; shorter ones are exact in a double as well."""


class Column:
    """An array that grows: single values go into a typed buffer, blocks are kept as they come."""

    def __init__(self, typecode: str, dtype: type) -> None:
        self.dtype = dtype
        self._pending = array(typecode)
        self._typecode = typecode
        self._blocks: list[NDArray] = []

    def extend(self, values: tuple) -> None:
        """Append single values."""
        self._pending.extend(values)

    def append_block(self, values: NDArray) -> None:
        """Append an array."""
        self._settle()
        self._blocks.append(np.ascontiguousarray(values, dtype=self.dtype).ravel())

    def finish(self) -> NDArray:
        """Return all values, and let go of the pieces."""
        self._settle()
        blocks, self._blocks = self._blocks, []
        return np.concatenate(blocks) if blocks else np.empty(0, dtype=self.dtype)

    def _settle(self) -> None:
        if self._pending:
            self._blocks.append(np.array(self._pending, dtype=self.dtype))
            self._pending = array(self._typecode)


class PointSink:
    """Takes the ``P`` elements of a surface."""

    tag = "P"

    def __init__(self, place: Place) -> None:
        self.place = Place(place.file, place.path + "/P", place.line)
        self.ids = Column("q", np.int64)
        self.coordinates = Column("d", np.float64)
        self.lines = Column("q", np.int32)
        self.count = 0
        self.references: list[tuple[int, str, int]] = []
        self.commas: int | None = None

    def add(self, attributes: Attributes, text: str, line: int) -> None:
        """Take one point: northing, easting, elevation.

        Raises
        ------
        ExchangeError
            Its id or coordinates cannot be used.
        """
        number = _point_id(attributes.get("id", ""), self.place, line)
        reference = attributes.get("pntRef", "").strip()
        if reference and not text.strip():
            self.references.append((self.count, reference, line))
            xyz = (np.nan, np.nan, np.nan)
        else:
            numbers, commas = read_numbers(text, self.place.at(line), 3)
            if len(numbers) != 3:
                raise self.place.at(line).error(
                    translate(
                        "Core",
                        "point {id} needs northing, easting and elevation, but holds {count} numbers: correct the file.",
                    ).format(id=number, count=len(numbers))
                )
            if commas and self.commas is None:
                self.commas = line
            xyz = (numbers[1], numbers[0], numbers[2])
        self.ids.extend((number,))
        self.coordinates.extend(xyz)
        self.lines.extend((line,))
        self.count += 1

    def add_block(self, block: bulk.Block) -> None:
        """Take a regular stretch of points."""
        self.ids.append_block(block.values[:, 0])
        self.coordinates.append_block(block.values[:, [2, 1, 3]])
        self.lines.append_block(block.lines)
        self.count += len(block.values)


class FaceSink:
    """Takes the ``F`` elements of a surface; neighbours and border marks are not needed."""

    tag = "F"

    def __init__(self, place: Place) -> None:
        self.place = Place(place.file, place.path + "/F", place.line)
        self.corners = Column("q", np.int64)
        self.visible = Column("b", np.bool_)
        self.lines = Column("q", np.int32)
        self.collections = 0

    def add(self, attributes: Attributes, text: str, line: int) -> None:
        """Take one face: the ids of its three points.

        Raises
        ------
        ExchangeError
            It does not hold three ids.
        """
        words = text.split() if "," not in text else text.replace(",", " ").split()
        if len(words) != 3:
            raise self.place.at(line).error(
                translate(
                    "Core",
                    "a face of a TIN needs three point ids, but holds {count}: correct the file.",
                ).format(count=len(words))
            )
        self.corners.extend(tuple(_point_id(word, self.place, line) for word in words))
        self.visible.extend((attributes.get("i", "").strip() not in {"1", "true"},))
        self.lines.extend((line,))

    def add_block(self, block: bulk.Block) -> None:
        """Take a regular stretch of faces."""
        self.corners.append_block(block.values)
        hidden = np.zeros(len(block.values), dtype=bool) if block.hidden is None else block.hidden
        self.visible.append_block(~hidden)
        self.lines.append_block(block.lines)


def _point_id(word: str, place: Place, line: int) -> int:
    """Return a point id. Zero breaks the schema, but says clearly which point is meant."""
    if word.isdigit() and word.isascii() and len(word) < LONGEST_ID:
        return int(word)
    trimmed = word.strip()
    if trimmed != word:
        return _point_id(trimmed, place, line)
    what = (
        translate("Core", "'{word}' is not a point id (a positive whole number): correct the file.")
        if word
        else translate("Core", "this point has no id: correct the file.")
    )
    raise place.at(line).error(what.format(word=word[:40]))
