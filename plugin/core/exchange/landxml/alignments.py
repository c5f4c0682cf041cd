"""Alignments with their stations, and plan features, from coordinate geometry."""

import math

import numpy as np

from ...text import translate
from .geometry import GeometryReader
from .lines import feature_code
from .model import AlignmentRecord, Floats, LineRecord, Segment, StationEquation
from .node import Node
from .notes import Notes
from .numbers import attribute_number, printed_rounding


def read_alignment(node: Node, reader: GeometryReader, notes: Notes) -> AlignmentRecord | None:
    """Return an alignment, None when the file gives no coordinate geometry for it.

    Raises
    ------
    ExchangeError
        Its geometry or its stations cannot be read.
    """
    geometries = [child for child in node.children if child.tag == "CoordGeom"]
    segments = [segment for geometry in geometries for segment in reader.read(geometry)]
    if not segments:
        notes.add(
            "no_geometry",
            node.place.say(
                translate(
                    "Core",
                    "this alignment has no lines, curves or spirals and is left out: export it with its geometry.",
                )
            ),
        )
        return None
    start = attribute_number(node, "staStart")
    record = AlignmentRecord(
        name=node.get("name"),
        description=node.get("desc"),
        state=node.get("state"),
        station_start=start if start is not None and math.isfinite(start) else 0.0,
        parts=tuple(_joined(segments, reader.chord, node, notes)),
        declared_length=attribute_number(node, "length"),
        equations=_equations(node),
        profiles=sum(child.tag == "ProfAlign" for child in node.walk()),
        line=node.place.line,
    )
    _compare_length(record, node, reader.chord, notes)
    return record


def read_feature(node: Node, reader: GeometryReader, notes: Notes) -> list[LineRecord]:
    """Return the lines of a ``PlanFeature``: arcs as chords, one line for each connected part.

    Raises
    ------
    ExchangeError
        Its geometry cannot be read.
    """
    code, description = feature_code(node)
    records = []
    for geometry in (child for child in node.children if child.tag == "CoordGeom"):
        for part in _joined(reader.read(geometry), reader.chord, node, notes):
            rows = [chords(segment, reader.chord) for segment in part]
            coordinates = np.vstack([rows[0], *(row[1:] for row in rows[1:])])
            records.append(
                LineRecord(
                    "feature",
                    node.get("name"),
                    "",
                    code,
                    description or node.get("desc"),
                    "",
                    coordinates,
                    node.place.line,
                )
            )
    return records


def chords(segment: Segment, chord: float) -> Floats:
    """Return a segment as points (k, 3); chords of an arc stay within ``chord`` of it."""
    if segment.kind != "arc":
        return np.column_stack((segment.points, segment.heights))
    away = segment.points[0] - segment.centre
    radius = math.hypot(*away)
    step = 2.0 * math.acos(max(1.0 - chord / radius, 0.0))
    sweep = segment.length / radius
    shares = np.linspace(0.0, 1.0, max(math.ceil(sweep / step), 2) + 1)
    angles = math.atan2(away[1], away[0]) + segment.turn * sweep * shares
    plan = segment.centre + radius * np.column_stack((np.cos(angles), np.sin(angles)))
    plan[0], plan[-1] = segment.points[0], segment.points[-1]
    heights = np.interp(shares * segment.length, segment.distances, segment.heights)
    return np.column_stack((plan, heights))


def _joined(
    segments: list[Segment], chord: float, node: Node, notes: Notes
) -> list[tuple[Segment, ...]]:
    """Return the segments in parts that join end to end.

    A step of no more than ``chord`` between two elements is rounding in the file, and is closed by
    moving the start of the next element; a larger one is reported and starts a new part.
    """
    parts: list[list[Segment]] = []
    for segment in segments:
        before = parts[-1][-1].points[-1] if parts else None
        gap = math.inf if before is None else math.dist(before, segment.points[0])
        if gap <= chord:
            if gap > 0.0:
                segment.points[0] = before
            parts[-1].append(segment)
            continue
        if before is not None:
            place = node.place.at(segment.line)
            notes.add(
                "gap",
                place.say(
                    translate(
                        "Core",
                        "this element starts {gap} away from the end of the one before; the line is given in parts.",
                    ).format(gap=f"{gap:.4f}")
                ),
                (float(before[0]), float(before[1])),
            )
        parts.append([segment])
    return [tuple(part) for part in parts]


def _equations(node: Node) -> tuple[StationEquation, ...]:
    equations = []
    for child in (child for child in node.children if child.tag == "StaEquation"):
        ahead = attribute_number(child, "staAhead")
        internal = attribute_number(child, "staInternal")
        back = attribute_number(child, "staBack")
        if ahead is None or internal is None:
            raise child.place.error(
                translate("Core", "a station equation needs staInternal and staAhead: add them.")
            )
        increasing = child.get("staIncrement").lower() != "decreasing"
        equations.append(
            StationEquation(internal, internal if back is None else back, ahead, increasing)
        )
    return tuple(sorted(equations, key=lambda one: one.internal))


def _compare_length(record: AlignmentRecord, node: Node, chord: float, notes: Notes) -> None:
    if record.declared_length is None:
        return
    allowed = chord + printed_rounding(node.get("length"))
    if not abs(record.declared_length - record.length) <= allowed:
        x, y = record.segments[0].points[0]
        notes.add(
            "declared_length",
            node.place.say(
                translate(
                    "Core",
                    "the file declares length={declared}, but the elements add up to {computed}: check that none is missing.",
                ).format(declared=node.get("length"), computed=f"{record.length:.6f}")
            ),
            (float(x), float(y)),
        )
