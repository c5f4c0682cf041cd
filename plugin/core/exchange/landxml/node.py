"""Small elements of a file, held whole."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from .place import Place

Attributes = dict[str, str]


@dataclass
class Node:
    """One small element, complete with its children."""

    tag: str
    attributes: Attributes
    place: Place
    text: str = ""
    children: list["Node"] = field(default_factory=list)
    pieces: list[str] = field(default_factory=list, repr=False)

    def get(self, name: str) -> str:
        """Return an attribute without surrounding blanks, empty when absent."""
        return self.attributes.get(name, "").strip()

    def child(self, tag: str) -> "Node | None":
        """Return the first child of that name."""
        return next((child for child in self.children if child.tag == tag), None)

    def walk(self) -> Iterator["Node"]:
        """Yield this node and all below it, in document order."""
        yield self
        for child in self.children:
            yield from child.walk()
