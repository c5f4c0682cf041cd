"""What a LandXML file holds, said in the log."""

from qgis.core import QgsProcessingFeedback

from ..core.exchange.landxml import LandXmlFile, SurfaceRecord
from ..core.text import translate
from ..core.tin import Tin
from ..core.units import format_station
from ..layers.landxml import Scale


def list_content(
    file: LandXmlFile,
    surface: SurfaceRecord | None,
    tin: Tin | None,
    scale: Scale,
    feedback: QgsProcessingFeedback,
) -> None:
    """Say what the file holds and what is read of it."""
    system = file.system
    feedback.pushInfo(
        translate(
            "ReadLandXml",
            "{file}: LandXML {version}, namespace {namespace}; unit {unit}; coordinate system {name}, EPSG {code}, heights {vertical}.",
        ).format(
            file=file.name,
            version=file.version or "?",
            namespace=file.namespace or "-",
            unit=file.unit.name if file.unit is not None else "?",
            name=system.name or system.description or "?",
            code=system.epsg or "?",
            vertical=system.vertical or "?",
        )
    )
    for record in file.surfaces:
        feedback.pushInfo(_surface(record, tin if record is surface else None, scale))
    kinds = [line.kind for line in file.lines]
    if kinds:
        feedback.pushInfo(
            translate(
                "ReadLandXml",
                "Lines: {breaklines} breaklines, {boundaries} boundaries, {contours} contours, {features} plan features.",
            ).format(
                breaklines=kinds.count("breakline"),
                boundaries=kinds.count("boundary"),
                contours=kinds.count("contour"),
                features=kinds.count("feature"),
            )
        )
    for alignment in file.alignments:
        segments = [segment.kind for segment in alignment.segments]
        feedback.pushInfo(
            translate(
                "ReadLandXml",
                "Alignment “{name}”: {lines} lines, {arcs} arcs, {spirals} spirals; length {length} {symbol}; starts at station {station}; {profiles} vertical profiles, which are not read.",
            ).format(
                name=alignment.name,
                lines=segments.count("line"),
                arcs=segments.count("arc"),
                spirals=segments.count("spiral"),
                length=f"{alignment.length * scale.plan:.6f}",
                symbol=scale.unit.symbol,
                station=format_station(alignment.station_start * scale.plan, scale.unit),
                profiles=alignment.profiles,
            )
        )
    if file.points:
        feedback.pushInfo(
            translate("ReadLandXml", "Single points: {count}.").format(count=len(file.points))
        )
    for element, count in sorted(file.not_read.items()):
        feedback.pushInfo(
            translate("ReadLandXml", "Not read: {count} x {element}.").format(
                count=count, element=element
            )
        )


def _surface(record: SurfaceRecord, tin: Tin | None, scale: Scale) -> str:
    if tin is None:
        return translate("ReadLandXml", "Surface “{name}” ({kind}): not read.").format(
            name=record.name, kind=record.kind or translate("ReadLandXml", "without faces")
        )
    plan, sloped = scale.areas(record, tin)
    return translate(
        "ReadLandXml",
        "Surface “{name}”: {points} points, {faces} faces, {hidden} invisible faces; plan area {plan} {symbol}², on the slope {sloped} {symbol}².",
    ).format(
        name=record.name,
        points=record.point_count,
        faces=len(tin.faces),
        hidden=record.hidden_count,
        plan=f"{plan:.4f}",
        sloped=f"{sloped:.4f}",
        symbol=scale.unit.symbol,
    )
