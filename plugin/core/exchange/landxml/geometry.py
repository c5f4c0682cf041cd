"""Coordinate geometry: lines, true arcs, spirals and chains, from ``CoordGeom`` to segments.

``dir`` attributes are never used: real files disagree on their zero and their sense. Everything
follows from points, radii, lengths and ``rot``; what is given twice is compared.
"""

import math

import numpy as np

from ...text import translate
from .lines import POINT_LISTS, read_point_list
from .model import Floats, Segment
from .node import Node
from .notes import Notes
from .numbers import attribute_number, printed_rounding
from .points import Position, Registry
from .spirals import INTEGRALS, lay_out

COMMENTS = frozenset({"Feature", "FieldNote", "DocFileRef", "Property"})
"""Children of ``CoordGeom`` that are no geometry."""

LARGEST_TURN = 100.0
"""Radians of turning from which a spiral is a mistake."""


class GeometryReader:
    """Reads the elements of ``CoordGeom``.

    Parameters
    ----------
    registry
        The named points.
    chord
        Largest distance between a spiral and the chords that stand for it, in the file's unit;
        also the smallest disagreement that is reported.
    notes
        Takes what may be wrong.
    """

    def __init__(self, registry: Registry, chord: float, notes: Notes) -> None:
        self.registry = registry
        self.chord = chord
        self.notes = notes

    def read(self, geometry: Node) -> list[Segment]:
        """Return the segments in order; elements without length are dropped.

        Raises
        ------
        ExchangeError
            An element is of an unknown kind, or does not say enough to be drawn.
        """
        readers = {
            "Line": self._line,
            "Curve": self._curve,
            "Spiral": self._spiral,
            "IrregularLine": self._irregular,
            "Chain": self._chain,
        }
        segments = []
        for node in geometry.children:
            if node.tag in COMMENTS:
                continue
            if node.tag not in readers:
                raise node.place.error(
                    translate(
                        "Core",
                        "this element of a line's geometry is not known, and without it there would be a gap: export the line as lines, curves and spirals.",
                    )
                )
            segment = readers[node.tag](node)
            self._compare("length", node, segment.length)
            if segment.length > 0.0:
                segments.append(segment)
        return segments

    def _point(self, node: Node, tag: str) -> Position:
        child = node.child(tag)
        if child is None:
            raise node.place.error(
                translate("Core", "the {tag} point is missing: add it.").format(tag=tag)
            )
        return self.registry.position(child)

    def _line(self, node: Node) -> Segment:
        return _polyline(np.array([self._point(node, "Start"), self._point(node, "End")]), node)

    def _irregular(self, node: Node) -> Segment:
        rows = [np.array([self._point(node, "Start")])]
        rows += [
            read_point_list(one, self.notes) for one in node.children if one.tag in POINT_LISTS
        ]
        rows.append(np.array([self._point(node, "End")]))
        return _polyline(np.vstack(rows), node)

    def _chain(self, node: Node) -> Segment:
        names = node.text.split()
        if len(names) < 2:
            raise node.place.error(
                translate("Core", "a chain needs the names of two or more points: add them.")
            )
        return _polyline(
            np.array([self.registry.resolve(name, node.place) for name in names]), node
        )

    # Arcs

    def _curve(self, node: Node) -> Segment:
        start, end = self._point(node, "Start"), self._point(node, "End")
        turn = self._turn(node)
        declared = attribute_number(node, "radius")
        if node.child("Center") is not None:
            centre = self._point(node, "Center")[:2]
        else:
            centre = self._centre(node, start, end, turn, declared)
        first = np.subtract(start[:2], centre)
        last = np.subtract(end[:2], centre)
        r1, r2 = math.hypot(*first), math.hypot(*last)
        radius = (r1 + r2) / 2.0
        if radius == 0.0 or abs(r1 - r2) > 0.01 * radius:
            raise node.place.error(
                translate(
                    "Core",
                    "the centre is {first} from the start and {last} from the end, so this is no arc: correct its points.",
                ).format(first=f"{r1:.4f}", last=f"{r2:.4f}")
            )
        if abs(r1 - r2) > 2.0 * self.chord:
            self._note(
                "arc_centre",
                node,
                translate(
                    "Core",
                    "the centre is {first} from the start and {last} from the end; the arc runs through both.",
                ).format(first=f"{r1:.4f}", last=f"{r2:.4f}"),
            )
        if declared is not None and math.isfinite(declared):
            self._compare("radius", node, radius, abs(declared))
        return _arc(start, end, centre, radius, turn, node)

    def _turn(self, node: Node) -> float:
        """Return +1 for a turn to the left (counter-clockwise), -1 to the right."""
        turns = {"ccw": 1.0, "cw": -1.0}
        word = node.get("rot").lower()
        if word not in turns:
            raise node.place.error(
                translate("Core", "rot='{word}' must be cw or ccw: add it.").format(word=word)
            )
        return turns[word]

    def _centre(
        self, node: Node, start: Position, end: Position, turn: float, radius: float | None
    ) -> tuple[float, float]:
        """Return the centre from the radius; the shorter arc unless the length says otherwise."""
        if radius is None or not math.isfinite(radius) or radius == 0.0:
            raise node.place.error(
                translate("Core", "this arc has neither a Center nor a radius: add one.")
            )
        radius = abs(radius)
        dx, dy = end[0] - start[0], end[1] - start[1]
        span = math.hypot(dx, dy)
        if span == 0.0 or span > 2.0 * radius * (1.0 + 1e-6) + self.chord:
            raise node.place.error(
                translate(
                    "Core",
                    "no arc of radius {radius} joins a start and an end that are {span} apart: correct its points or radius.",
                ).format(radius=f"{radius:.4f}", span=f"{span:.4f}")
            )
        height = math.sqrt(max(radius**2 - (span / 2.0) ** 2, 0.0))
        length = attribute_number(node, "length")
        longer = length is not None and length > math.pi * radius
        side = turn * (-1.0 if longer else 1.0)
        middle = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0)
        return middle[0] - side * height * dy / span, middle[1] + side * height * dx / span

    # Spirals

    def _spiral(self, node: Node) -> Segment:
        law = node.get("spiType").lower() or "clothoid"
        if law not in INTEGRALS:
            raise node.place.error(
                translate(
                    "Core",
                    "spirals of type '{type}' are not read ({known} are): export the alignment with one of these, or leave out the alignments.",
                ).format(type=node.get("spiType"), known=", ".join(INTEGRALS))
            )
        length = attribute_number(node, "length")
        if length is None or not 0.0 < length < math.inf:
            raise node.place.error(translate("Core", "a spiral needs its length: add it."))
        turn = self._turn(node)
        bends = [turn * self._curvature(node, name) for name in ("radiusStart", "radiusEnd")]
        if max(abs(bends[0]), abs(bends[1])) * length > LARGEST_TURN:
            raise node.place.error(
                translate("Core", "its radii are too small for its length: correct them.")
            )
        start, end = self._point(node, "Start"), self._point(node, "End")
        distances, points = lay_out(law, length, bends[0], bends[1], self.chord)
        fitted = self._fit(node, points, distances, start, end)
        heights = _between(start[2], end[2], distances)
        return Segment("spiral", fitted, distances, heights, node.place.line)

    def _curvature(self, node: Node, name: str) -> float:
        radius = attribute_number(node, name)
        if radius is None:
            raise node.place.error(
                translate("Core", "{name} is missing: give it, INF for straight.").format(name=name)
            )
        return 0.0 if radius == 0.0 else 1.0 / abs(radius)

    def _fit(
        self, node: Node, points: Floats, distances: Floats, start: Position, end: Position
    ) -> Floats:
        """Turn the spiral onto its chord, and spread what is left of its end over its length."""
        span = np.subtract(end[:2], start[:2])
        size, own = math.hypot(*span), math.hypot(*points[-1])
        if size == 0.0 or own == 0.0:
            raise node.place.error(
                translate("Core", "the spiral ends where it starts: correct its points.")
            )
        x, y = points[-1] / own
        cosine, sine = (x * span[0] + y * span[1]) / size, (x * span[1] - y * span[0]) / size
        turned = points @ np.array([[cosine, sine], [-sine, cosine]])
        turned += np.outer(distances / distances[-1], span - turned[-1])
        fitted = turned + start[:2]
        fitted[0], fitted[-1] = start[:2], end[:2]
        if abs(size - own) > 2.0 * self.chord:
            self._note(
                "spiral_end",
                node,
                translate(
                    "Core",
                    "a spiral of this length and these radii ends {gap} from the End point; it is stretched to it.",
                ).format(gap=f"{abs(size - own):.4f}"),
            )
        corner = node.child("PI")
        if corner is not None:
            ahead = np.subtract(self.registry.position(corner)[:2], start[:2])
            aside = abs(cosine * ahead[1] - sine * ahead[0])
            if aside > 10.0 * self.chord + 1e-4 * math.hypot(*ahead):
                self._note(
                    "spiral_tangent",
                    node,
                    translate(
                        "Core",
                        "the PI lies {gap} beside the direction in which the spiral starts: check rot, the radii and the PI.",
                    ).format(gap=f"{aside:.4f}"),
                )
        return fitted

    # What is given twice

    def _compare(
        self, name: str, node: Node, computed: float, declared: float | None = None
    ) -> None:
        if declared is None:
            declared = attribute_number(node, name)
        if declared is None:
            return
        allowed = self.chord + printed_rounding(node.get(name))
        if not abs(declared - computed) <= allowed:
            self._note(
                f"declared_{name}",
                node,
                translate(
                    "Core",
                    "the file declares {name}={declared}, but the points give {computed}: check rot and the points.",
                ).format(name=name, declared=node.get(name), computed=f"{computed:.6f}"),
            )

    def _note(self, code: str, node: Node, what: str) -> None:
        start = node.child("Start")
        place = self.registry.position(start)[:2] if start is not None else None
        self.notes.add(code, node.place.say(what), place)


def _polyline(rows: Floats, node: Node) -> Segment:
    """Return a chain of chords; a point that repeats the one before it in plan is dropped."""
    steps = np.hypot(*np.diff(rows[:, :2], axis=0).T)
    keep = np.concatenate(([True], steps > 0.0))
    distances = np.concatenate(([0.0], np.cumsum(steps)))[keep]
    return Segment("line", rows[keep, :2], distances, rows[keep, 2], node.place.line)


def _arc(
    start: Position, end: Position, centre: tuple, radius: float, turn: float, node: Node
) -> Segment:
    a1 = math.atan2(start[1] - centre[1], start[0] - centre[0])
    a2 = math.atan2(end[1] - centre[1], end[0] - centre[0])
    sweep = (turn * (a2 - a1)) % (2.0 * math.pi)
    circle = start[:2] == end[:2]
    if circle:
        sweep = 2.0 * math.pi
    shares = np.linspace(0.0, 1.0, 5 if circle else 3)
    angles = a1 + turn * sweep * shares
    points = np.column_stack(
        (centre[0] + radius * np.cos(angles), centre[1] + radius * np.sin(angles))
    )
    points[0], points[-1] = start[:2], end[:2]
    distances = radius * sweep * shares
    heights = _between(start[2], end[2], distances)
    line = node.place.line
    return Segment("arc", points, distances, heights, line, (centre[0], centre[1]), turn)


def _between(first: float, last: float, distances: Floats) -> Floats:
    if distances[-1] == 0.0:
        return np.full(len(distances), first)
    return first + (last - first) * distances / distances[-1]
