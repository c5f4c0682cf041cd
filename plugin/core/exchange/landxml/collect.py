"""Sorting what the scanner finds into surfaces, lines, alignments and points."""

from collections import Counter

from ...text import translate
from ...units import LinearUnit
from .lines import LINE_ELEMENTS, read_data_points, read_lines
from .lists import FaceSink, PointSink
from .model import LineRecord, Part, PointRecord
from .node import Attributes, Node
from .notes import Notes
from .place import Place
from .points import Registry
from .scan import Sink
from .surfaces import RawSurface
from .units import CoordinateSystem, read_coordinate_system, read_units

CAPTURES = frozenset(
    {
        "Units",
        "CoordinateSystem",
        "CgPoint",
        "Breakline",
        "Boundary",
        "Contour",
        "DataPoints",
        "PlanFeature",
        "Alignment",
    }
)
SKIPS = frozenset({"CrossSects", "Superelevation", "ProfSurf"})
NOT_READ = frozenset(
    {"Parcel", "PipeNetwork", "Roadway", "GradeModel", "SurveyHeader", "Watershed", "SurfVolume"}
)
"""Elements that are counted, so that nobody believes they were read."""


class Collector:
    """Takes what the scanner reports.

    Parameters
    ----------
    parts
        What is wanted. What is not wanted is not looked at, so it cannot be wrong either.
    surface
        Name of the only surface that is wanted, blank for all.
    """

    def __init__(self, parts: frozenset[Part], surface: str = "") -> None:
        self.parts = parts
        self.surface = surface.strip()
        self.notes = Notes()
        self.registry = Registry()
        self.version = ""
        self.namespace = ""
        self.unit: LinearUnit | None = None
        self.system = CoordinateSystem()
        self.surfaces: list[RawSurface] = []
        self.lines: list[LineRecord] = []
        self.points: list[PointRecord] = []
        self.single_points: list[Node] = []
        self.alignments: list[Node] = []
        self.features: list[Node] = []
        self.not_read: Counter[str] = Counter()
        self._tags: list[str] = []
        self._current: RawSurface | None = None

    # Containers

    def opened(self, tag: str, attributes: Attributes, place: Place) -> Sink | None:
        """Note a container, and return a sink for the lists of a wanted surface."""
        self._tags.append(tag)
        if len(self._tags) == 1:
            self._root(tag, attributes, place)
        elif tag == "Surface":
            name = attributes.get("name", "").strip()
            wanted = Part.SURFACES in self.parts and self.surface in {"", name}
            self._current = RawSurface(name, attributes.get("desc", ""), place, wanted)
            self.surfaces.append(self._current)
        elif tag in NOT_READ:
            self.not_read[tag] += 1
        elif self._current is not None:
            return self._list(self._current, tag, attributes, place)
        return None

    def closed(self, tag: str) -> None:
        """Note the end of a container."""
        self._tags.pop()
        if tag == "Surface":
            self._current = None

    def _root(self, tag: str, attributes: Attributes, place: Place) -> None:
        if tag != "LandXML":
            raise place.error(
                translate(
                    "Core", "this is not a LandXML file: choose one that starts with LandXML."
                )
            )
        self.version = attributes.get("version", "")
        spaces = {name: value for name, value in attributes.items() if name.startswith("xmlns")}
        self.namespace = spaces.get("xmlns") or next(
            (value for value in spaces.values() if "XMLSchema" not in value), ""
        )

    def _list(
        self, surface: RawSurface, tag: str, attributes: Attributes, place: Place
    ) -> Sink | None:
        if tag == "Definition":
            if surface.kind:
                raise place.error(
                    translate(
                        "Core",
                        "this surface has a second definition, and it is not clear which one counts: keep one.",
                    )
                )
            surface.kind = attributes.get("surfType", "").strip() or "TIN"
            surface.declared = attributes
        if not surface.wanted or surface.kind.lower() == "grid":
            return None
        if tag == "Pnts":
            surface.points = surface.points or PointSink(place)
            return surface.points
        if tag == "Faces":
            surface.faces = surface.faces or FaceSink(place)
            surface.faces.collections += 1
            return surface.faces
        return None

    # Small elements

    def captured(self, node: Node) -> None:
        """Take a small element."""
        if node.tag == "Units":
            self.unit = read_units(node) or self.unit
        elif node.tag == "CoordinateSystem":
            self.system = read_coordinate_system(node)
        elif node.tag == "CgPoint":
            self.registry.add(node)
            if Part.POINTS in self.parts:
                self.single_points.append(node)
        elif node.tag == "Alignment":
            self._remember(node)
            if Part.ALIGNMENTS in self.parts:
                self.alignments.append(node)
        elif node.tag == "PlanFeature":
            self._remember(node)
            if Part.LINES in self.parts:
                self.features.append(node)
        else:
            self._of_surface(node)

    def _remember(self, node: Node) -> None:
        """Remember points that carry a name: others may refer to them."""
        for child in node.walk():
            if child.get("name") and child.tag in {"Start", "End", "Center", "PI", "Location"}:
                self.registry.add(child)

    def _of_surface(self, node: Node) -> None:
        current = self._current
        if current is None or self.surface not in {"", current.name}:
            return
        if node.tag in LINE_ELEMENTS:
            if Part.LINES in self.parts:
                self.lines += read_lines(node, current.name, self.notes)
        elif Part.POINTS in self.parts:
            self.points += read_data_points(node, current.name, self.registry, self.notes)
