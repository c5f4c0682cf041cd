"""Streaming through a LandXML file: expat, places for error sentences, and the safe subset of XML.

The file is never held in memory. Small elements (a breakline, an alignment, a coordinate-geometry
point) arrive whole, as a `Node`; the two long lists of a surface, ``Pnts`` and ``Faces``, go item
by item into a `Sink`, and regular stretches of them in blocks (see `bulk`).

Elements are known by their local names: files of LandXML 1.0, 1.1, 1.2 and 2.0 and of the
national profiles differ in namespace and prefix only.
"""

from pathlib import Path
from typing import Protocol
from xml.parsers import expat

from ...errors import ExchangeError, UndercourseError
from ...progress import Progress, silent
from ...text import translate
from . import bulk
from .node import Attributes, Node
from .place import Place

CHUNK = 1 << 19
"""Bytes read at a time: a few hundredths of a second of work, so that Cancel is prompt."""


class Sink(Protocol):
    """What takes the items of a long list of one kind of element."""

    tag: str

    def add(self, attributes: Attributes, text: str, line: int) -> None:
        """Take one item."""

    def add_block(self, block: bulk.Block) -> None:
        """Take a regular stretch of items."""


class Reader(Protocol):
    """What the scanner reports to."""

    def opened(self, tag: str, attributes: Attributes, place: Place) -> Sink | None:
        """Note that a container starts; return a sink if it is a long list that is wanted."""

    def closed(self, tag: str) -> None:
        """Note that a container ends."""

    def captured(self, node: Node) -> None:
        """Take a small element, complete."""


class Scanner:
    """One pass over one file.

    Parameters
    ----------
    path
        The file.
    reader
        What is reported to.
    captures
        Names of the elements that are handed over whole.
    skips
        Names of elements inside those that are left out with all they hold.
    in_blocks
        Whether regular stretches of long lists may be read in blocks. The result is the same.
    """

    def __init__(
        self,
        path: Path,
        reader: Reader,
        captures: frozenset[str],
        skips: frozenset[str] = frozenset(),
        in_blocks: bool = True,
    ) -> None:
        self.path = path
        self.reader = reader
        self.captures = captures
        self.skips = skips
        self.in_blocks = in_blocks
        self.labels: list[str] = []
        self._tags: list[str] = []
        self._nodes: list[Node] = []
        self._skipped = 0
        self._sink: Sink | None = None
        self._sink_depth = 0
        self._item: tuple[Attributes, int] | None = None
        self._pieces: list[str] = []
        self._sink_from = 0
        self._marked = False
        self._lines = 1
        self._fed = 0
        self._parser = self._new_parser()

    def run(self, progress: Progress = silent) -> None:
        """Read the file from end to end.

        Raises
        ------
        ExchangeError
            The file cannot be opened, is not well-formed XML or declares entities.
        """
        try:
            size = max(self.path.stat().st_size, 1)
            with self.path.open("rb") as stream:
                done, rest = 0, b""
                while data := stream.read(CHUNK):
                    done += len(data)
                    rest = self._feed(rest + data)
                    progress(min(done / size, 1.0))
                self._parse(rest, final=True)
        except OSError as error:
            raise ExchangeError(
                translate("Core", "{file} cannot be read ({reason}): check the path.").format(
                    file=self.path, reason=error.strerror or error
                )
            ) from error

    def place(self, label: str = "", line: int | None = None) -> Place:
        """Return the current place, or that of a child called ``label``."""
        labels = [*self.labels, label] if label else self.labels
        where = self._parser.CurrentLineNumber if line is None else line
        return Place(self.path.name, "/".join(labels), where)

    # Feeding: everything goes through expat, except stretches that a block can stand for. For
    # those expat gets the same number of line ends, so that its line numbers stay true.

    def _feed(self, data: bytes) -> bytes:
        """Parse as much of the data as ends in whole elements; return what is left."""
        if b"\0" in data[:4] or data[:2] in {b"\xff\xfe", b"\xfe\xff"}:
            self.in_blocks = False  # UTF-16: a character is not a byte
        end = _last_end(data)
        data, rest = data[:end], data[end:]
        sink = self._sink
        if sink is not None and self.in_blocks and not self._marked:
            data = self._feed_blocks(sink, data)
        self._sink_from = 0
        self._parse(data)
        # A comment, CDATA section or instruction may hide what looks like items, and may go on
        # in the next stretch: no blocks from here to the end of the list.
        tail = data[self._sink_from :]
        self._marked = self._marked or b"<!" in tail or b"<?" in tail
        return rest

    def _feed_blocks(self, sink: Sink, data: bytes) -> bytes:
        """Read what can be read in blocks; return the data that follows."""
        if len(self._tags) != self._sink_depth:
            return data
        limit = data.find(b"</" + self._tags[-1].encode())
        closing = b"</" + sink.tag.encode() + b">"
        end = data.rfind(closing, 0, limit if limit >= 0 else len(data)) + len(closing)
        if end < len(closing):
            return data
        block = bulk.read_block(data[:end], sink.tag, self._lines)
        if block is None:
            return data
        sink.add_block(block)
        self._parse(b"\n" * bulk.count_lines(data[:end]))
        return data[end:]

    def _parse(self, data: bytes, final: bool = False) -> None:
        try:
            self._parser.Parse(data, final)
        except expat.ExpatError as error:
            raise ExchangeError(
                translate(
                    "Core",
                    "{file}, line {line}, column {column}: this is not well-formed XML ({reason}); the file may be cut short: export it again.",
                ).format(
                    file=self.path.name,
                    line=error.lineno,
                    column=error.offset + 1,
                    reason=expat.ErrorString(error.code),
                )
            ) from error
        except UndercourseError:
            raise
        except (LookupError, ValueError) as error:
            raise ExchangeError(
                translate(
                    "Core",
                    "{file} is in a character encoding that cannot be read ({reason}): save it as UTF-8.",
                ).format(file=self.path.name, reason=error)
            ) from error
        self._lines += bulk.count_lines(data)
        self._fed += len(data)

    def _new_parser(self) -> expat.XMLParserType:
        parser = expat.ParserCreate()
        parser.buffer_text = True
        if hasattr(parser, "SetReparseDeferralEnabled"):  # every event at once, for the blocks
            parser.SetReparseDeferralEnabled(False)
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._text
        # LandXML is defined by a schema. A document type is of no use to it, and entities in one
        # are the classic way to make a small file explode or read other files.
        parser.StartDoctypeDeclHandler = self._refuse_doctype
        parser.EntityDeclHandler = self._refuse_entity
        parser.ExternalEntityRefHandler = self._refuse_external
        return parser

    def _refuse_doctype(self, name: str, *_: object) -> None:
        raise self.place(f"<!DOCTYPE {name}>").error(
            translate(
                "Core",
                "a document type declaration is not allowed in LandXML, as it can hide harmful entities: remove it.",
            )
        )

    def _refuse_entity(self, name: str, *_: object) -> None:
        raise self.place(f"<!ENTITY {name}>").error(
            translate("Core", "an entity declaration is not allowed in LandXML: remove it.")
        )

    def _refuse_external(self, context: str, *_: object) -> int:
        raise self.place(f"&{context};").error(
            translate("Core", "a reference to another file is not followed: remove it.")
        )

    # Elements

    def _start(self, name: str, attributes: Attributes) -> None:
        tag = name.rpartition(":")[2]
        self._tags.append(tag)
        if self._skipped:
            self._skipped += 1
            return
        if self._sink is not None:
            if tag == self._sink.tag and len(self._tags) == self._sink_depth + 1:
                self._item = (attributes, self._parser.CurrentLineNumber)
                self._pieces = []
            return
        if self._nodes and tag in self.skips:
            self._skipped = 1
            self._nodes[-1].children.append(Node(tag, attributes, self.place(tag)))
            return
        title = attributes.get("name", "")
        label = f'{tag} "{title}"' if title else tag
        if self._nodes or tag in self.captures:
            node = Node(tag, attributes, self.place(label))
            if self._nodes:
                self._nodes[-1].children.append(node)
            self._nodes.append(node)
            self.labels.append(label)
            return
        self.labels.append(label)
        self._sink = self.reader.opened(tag, attributes, self.place())
        if self._sink is not None:
            self._sink_depth = len(self._tags)
            self._sink_from = self._parser.CurrentByteIndex - self._fed
            self._marked = False

    def _end(self, name: str) -> None:
        tag = self._tags.pop()
        if self._skipped:
            self._skipped -= 1
        elif self._sink is not None and len(self._tags) >= self._sink_depth:
            if self._item is not None and len(self._tags) == self._sink_depth:
                attributes, line = self._item
                self._sink.add(attributes, "".join(self._pieces), line)
                self._item = None
        elif self._nodes:
            node = self._nodes.pop()
            node.text = "".join(node.pieces)
            node.pieces.clear()
            self.labels.pop()
            if not self._nodes:
                self.reader.captured(node)
        else:
            self._sink = None
            self.labels.pop()
            self.reader.closed(tag)

    def _text(self, data: str) -> None:
        if self._item is not None:
            self._pieces.append(data)
        elif self._nodes and not self._skipped:
            self._nodes[-1].pieces.append(data)


def _last_end(data: bytes) -> int:
    """Return where the last end tag stops (or the last tag of any kind, or 0)."""
    closing = data.rfind(b"</")
    while closing >= 0:
        end = data.find(b">", closing) + 1
        if end:
            return end
        closing = data.rfind(b"</", 0, closing)
    return data.rfind(b">") + 1
