"""Single points and the references to them."""

import math

from ...text import translate
from .node import Node
from .numbers import read_numbers
from .place import Place

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

    Nothing is read before a reference needs it. A name that is given to two points in different
    places is no use as a reference.
    """

    def __init__(self) -> None:
        self._written: dict[str, list[tuple[str, Place]]] = {}
        self._forwarded: dict[str, str] = {}

    def add(self, node: Node) -> None:
        """Remember a point element by its name."""
        name = node.get("name")
        if not name:
            return
        if node.text.strip():
            self._written.setdefault(name, []).append((node.text, node.place))
        elif node.get("pntRef"):
            self._forwarded.setdefault(name, node.get("pntRef"))

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
        while name not in self._written and name in self._forwarded and name not in seen:
            seen.add(name)
            name = self._forwarded[name]
        if name not in self._written:
            raise place.error(
                translate(
                    "Core",
                    "pntRef='{name}' names no point of this file that has coordinates: add it or export again.",
                ).format(name=reference)
            )
        (text, first), *others = self._written[name]
        position = position_of(text, first)
        for again, other in others:
            if not _same(position, position_of(again, other)):
                raise place.error(
                    translate(
                        "Core",
                        "pntRef='{name}' may be the point of line {first} or of line {second}: give them different names.",
                    ).format(name=name, first=first.line, second=other.line)
                )
        return position


def _same(one: Position, other: Position) -> bool:
    return all(a == b or (math.isnan(a) and math.isnan(b)) for a, b in zip(one, other, strict=True))
