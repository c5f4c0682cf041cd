"""Single points and the references to them."""

import math

from ...text import translate
from .numbers import read_numbers
from .place import Place
from .scan import Node

Position = tuple[float, float, float]


def written_position(node: Node) -> Position | None:
    """Return the position that a point element writes out, None when it writes none.

    Raises
    ------
    ExchangeError
        The text is not two or three numbers.
    """
    if not node.text.strip():
        return None
    return position_of(node.text, node.place)


def position_of(text: str, place: Place) -> Position:
    """Return ``northing easting [elevation]`` as x, y, z; z is NaN when absent.

    Raises
    ------
    ExchangeError
        The text is not two or three numbers.
    """
    numbers, _ = read_numbers(text, place, 3)
    if len(numbers) not in {2, 3}:
        raise place.error(
            translate(
                "Core",
                "a point is northing, easting and perhaps elevation, but here are {count} numbers: correct the file.",
            ).format(count=len(numbers))
        )
    return numbers[1], numbers[0], numbers[2] if len(numbers) == 3 else math.nan


class Registry:
    """The named points of a file, for those that refer to them, also from before.

    A name that is given to two points in different places is no use as a reference.
    """

    def __init__(self) -> None:
        self._positions: dict[str, tuple[Position, int]] = {}
        self._forwarded: dict[str, str] = {}
        self._ambiguous: dict[str, tuple[int, int]] = {}

    def add(self, node: Node) -> None:
        """Remember a point element by its name.

        Raises
        ------
        ExchangeError
            Its text is no position.
        """
        name = node.get("name")
        if not name:
            return
        position = written_position(node)
        if position is None:
            if node.get("pntRef"):
                self._forwarded.setdefault(name, node.get("pntRef"))
            return
        known = self._positions.setdefault(name, (position, node.place.line))
        if not _same(known[0], position):
            self._ambiguous.setdefault(name, (known[1], node.place.line))

    def position(self, node: Node) -> Position:
        """Return where a point element is: its own coordinates, else those it refers to.

        Raises
        ------
        ExchangeError
            It has neither, or the reference leads nowhere or to two places.
        """
        written = written_position(node)
        if written is not None:
            return written
        reference = node.get("pntRef")
        if not reference:
            raise node.place.error(
                translate(
                    "Core", "this point has neither coordinates nor a pntRef: correct the file."
                )
            )
        return self.resolve(reference, node.place)

    def resolve(self, reference: str, place: Place) -> Position:
        """Return the position of the point of that name.

        Raises
        ------
        ExchangeError
            There is none, or there are two in different places.
        """
        name, seen = reference, set()
        while name not in self._positions and name in self._forwarded and name not in seen:
            seen.add(name)
            name = self._forwarded[name]
        if name in self._ambiguous:
            raise place.error(
                translate(
                    "Core",
                    "pntRef='{name}' may be the point of line {first} or of line {second}: give them different names.",
                ).format(name=name, first=self._ambiguous[name][0], second=self._ambiguous[name][1])
            )
        if name not in self._positions:
            raise place.error(
                translate(
                    "Core",
                    "pntRef='{name}' names no point of this file that has coordinates: add it or export again.",
                ).format(name=reference)
            )
        return self._positions[name][0]


def _same(one: Position, other: Position) -> bool:
    return all(a == b or (math.isnan(a) and math.isnan(b)) for a, b in zip(one, other, strict=True))
