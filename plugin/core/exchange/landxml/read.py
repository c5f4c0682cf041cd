"""The way from a file to its records."""

from collections.abc import Iterable
from pathlib import Path

from ...progress import Progress, part, silent
from ...text import translate
from ...tolerance import Tolerance
from .alignments import read_alignment, read_feature
from .collect import CAPTURES, SKIPS, Collector
from .geometry import GeometryReader
from .lines import feature_code
from .model import AlignmentRecord, LandXmlFile, LineRecord, Part, PointRecord, SurfaceRecord
from .scan import Scanner
from .surfaces import build_surface


def read_landxml(
    path: str | Path,
    surface: str = "",
    parts: Iterable[Part] = tuple(Part),
    leave_out_broken_faces: bool = False,
    chord: float | None = None,
    progress: Progress = silent,
    in_blocks: bool = True,
) -> LandXmlFile:
    """Read a LandXML file.

    Parameters
    ----------
    path
        The file.
    surface
        Name of the only surface to read; blank reads all of them.
    parts
        What to read. The rest is not looked at, so its faults do no harm.
    leave_out_broken_faces
        Leave faces that name missing points out, and report them, instead of refusing the file.
    chord
        Largest distance between a spiral (or the arc of a plan feature) and its chords, in the
        file's unit; by default one millimetre.
    progress
        Called with the share done.
    in_blocks
        Read regular stretches of points and faces in blocks. Only slower without.

    Raises
    ------
    ExchangeError
        Something in the file cannot be read or does not fit together; the sentence names the
        element and its line.
    """
    source = Path(path)
    collector = Collector(frozenset(parts), surface)
    Scanner(source, collector, CAPTURES, SKIPS, in_blocks).run(part(progress, 0.0, 0.8))
    if not collector.unit:
        collector.notes.add(
            "no_unit",
            translate(
                "Core", "{file} does not say its linear unit: make sure which one it is."
            ).format(file=source.name),
        )
    tolerance = chord or Tolerance.for_unit(collector.unit.metres if collector.unit else 1.0).chord
    surfaces = _surfaces(collector, leave_out_broken_faces, part(progress, 0.8, 0.95))
    alignments, features = _geometry(collector, tolerance, part(progress, 0.95, 1.0))
    lines = (*collector.lines, *features)
    _note_heights(lines, source.name, collector)
    return LandXmlFile(
        name=source.name,
        version=collector.version,
        namespace=collector.namespace,
        unit=collector.unit,
        system=collector.system,
        surfaces=surfaces,
        lines=lines,
        alignments=alignments,
        points=(*_single_points(collector), *collector.points, *_unused(surfaces, collector)),
        not_read=dict(collector.not_read),
        findings=tuple(collector.notes.findings),
    )


def _surfaces(
    collector: Collector, leave_out: bool, progress: Progress
) -> tuple[SurfaceRecord, ...]:
    records = []
    total = len(collector.surfaces)
    for index, raw in enumerate(collector.surfaces):
        own = part(progress, index / total, (index + 1) / total)
        record = build_surface(raw, collector.registry, leave_out, collector.notes, own)
        raw.points = raw.faces = None
        records.append(record)
        own(1.0)
    return tuple(records)


def _geometry(
    collector: Collector, chord: float, progress: Progress
) -> tuple[tuple[AlignmentRecord, ...], list[LineRecord]]:
    reader = GeometryReader(collector.registry, chord, collector.notes)
    total = len(collector.alignments) + len(collector.features)
    alignments, lines = [], []
    for index, node in enumerate((*collector.alignments, *collector.features)):
        if node.tag == "Alignment":
            record = read_alignment(node, reader, collector.notes)
            if record is not None:
                alignments.append(record)
        else:
            lines += read_feature(node, reader, collector.notes)
        progress((index + 1) / total)
    return tuple(alignments), lines


def _single_points(collector: Collector) -> list[PointRecord]:
    points = []
    for node in collector.single_points:
        code, description = feature_code(node)
        points.append(
            PointRecord(
                "point",
                node.get("name"),
                code,
                node.get("desc") or description,
                collector.registry.position(node),
                node.place.line,
            )
        )
    return points


def _unused(surfaces: tuple[SurfaceRecord, ...], collector: Collector) -> list[PointRecord]:
    points = []
    for record in surfaces:
        if record.tin is None or not len(record.unused):
            continue
        collector.notes.add(
            "unused_point",
            translate(
                "Core",
                "{count} points of surface '{name}' are in none of its faces, so they are not in the surface; they are given as points.",
            ).format(count=len(record.unused), name=record.name),
        )
        if Part.POINTS in collector.parts:
            rows = zip(record.unused_ids.tolist(), record.unused.tolist(), strict=True)
            points += [
                PointRecord("unused", str(number), "", record.name, (x, y, z), 0)
                for number, (x, y, z) in rows
            ]
    return points


def _note_heights(lines: tuple[LineRecord, ...], file: str, collector: Collector) -> None:
    without = [line for line in lines if not line.has_heights]
    if without:
        collector.notes.add(
            "no_height",
            translate(
                "Core",
                "{file}, line {line}: {count} lines have points without elevation, and are given none; this is the first.",
            ).format(file=file, line=without[0].line, count=len(without)),
        )
    level = [line for line in lines if line.has_heights and not line.coordinates[:, 2].any()]
    if level:
        collector.notes.add(
            "zero_height",
            translate(
                "Core",
                "{file}, line {line}: {count} lines have the elevation 0 throughout, which may stand for 'not given'; this is the first.",
            ).format(file=file, line=level[0].line, count=len(level)),
        )
