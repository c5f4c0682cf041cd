"""What a built surface hands on: figures, rows of layers, sentences, the report."""

from collections.abc import Iterator
from typing import Any

from qgis.core import QgsCoordinateReferenceSystem, QgsGeometry

from ..core.text import translate
from ..core.tin.build import Boundary, Breaklines, Built, Manner
from ..core.units import describe_length
from ..documents.build_plan import BuildPlan
from ..documents.build_report import build_report
from ..documents.report import Report
from ..layers.crs import JobUnits, describe_crs
from ..layers.lines import point_geometry
from ..layers.polygons import tin_features
from .build_parameters import numbers


def figures(built: Built) -> dict[str, Any]:
    """Return the numeric results."""
    return {
        "POINT_COUNT": built.points,
        "VERTEX_COUNT": len(built.tin.vertices),
        "FACE_COUNT": len(built.tin.faces),
        "PLAN_AREA": built.tin.plan_area,
        "LINE_LENGTH": built.given,
        "LENGTH_INSIDE": built.inside,
        "LENGTH_HONOURED": built.honoured,
        "MERGED_COUNT": built.merged,
        "DUPLICATE_COUNT": built.duplicates,
        "CROSSING_COUNT": built.crossings,
        "CONFLICT_COUNT": built.conflicts,
        "OUTSIDE_COUNT": built.outside,
        "DROPPED_COUNT": built.dropped,
        "UNCOVERED_AREA": built.uncovered,
        "LARGEST_MOVE": built.largest_move,
        "FLAG_COUNT": len(built.findings),
    }


def faces(built: Built) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    """Yield the faces, numbered from 1."""
    for number, geometry in enumerate(tin_features(built.tin), 1):
        yield geometry, [number]


def issues(built: Built) -> Iterator[tuple[QgsGeometry | None, list[Any]]]:
    """Yield the places to look at."""
    for finding in built.findings:
        geometry = point_geometry(finding.place) if finding.place else None
        yield geometry, [finding.code, finding.why, finding.feature]


def sentences(built: Built, boundary: Boundary | None, job: JobUnits) -> list[str]:
    """Return what was built and what may be wrong, the verdict first."""
    unit = job.plan.symbol
    told = [
        translate(
            "BuildTin",
            "{faces} faces over {area:.2f} square {unit}. {honoured:.2f} {unit} of {inside:.2f} {unit} of breaklines within it lie along edges.",
        ).format(
            faces=len(built.tin.faces),
            area=built.tin.plan_area,
            honoured=built.honoured,
            inside=built.inside,
            unit=unit,
        )
    ]
    if built.findings:
        told.append(
            translate(
                "BuildTin",
                "{count} places may be wrong, {lines} of them where breaklines disagree about the height: look at each before the surface is used.",
            ).format(count=len(built.findings), lines=built.conflicts)
        )
    else:
        told.append(translate("BuildTin", "Nothing in the points and lines disagrees."))
    if built.outside or built.given - built.inside > 1e-3 * built.given:
        told.append(
            translate(
                "BuildTin",
                "Off the boundary {points} points and {length:.2f} {unit} of breaklines were left out.",
            ).format(points=built.outside, length=built.given - built.inside, unit=unit)
        )
    if boundary is None:
        told.append(
            translate(
                "BuildTin",
                "There is no boundary: the surface reaches to the convex hull of the points, also over ground nobody measured.",
            )
            if not built.dropped
            else translate(
                "BuildTin",
                "There is no boundary: the surface ends where {count} faces with long outer edges were dropped.",
            ).format(count=built.dropped)
        )
    return told


def report(
    built: Built,
    layers: list[str],
    lines: Breaklines,
    boundary: Boundary | None,
    manner: Manner,
    job: JobUnits,
    crs: QgsCoordinateReferenceSystem,
) -> Report:
    """Return the report."""
    heads = (
        translate("BuildTin", "Points"),
        translate("BuildTin", "Breaklines"),
        translate("BuildTin", "Boundary"),
    )
    none = translate("BuildTin", "none")
    about = [(head, name or none) for head, name in zip(heads, layers, strict=True)]
    about += [
        (translate("BuildTin", "CRS"), describe_crs(crs)),
        (
            translate("BuildTin", "Units"),
            translate("BuildTin", "plan {plan}, heights {vertical}").format(
                plan=job.plan.name, vertical=job.vertical.name
            ),
        ),
        (
            translate("BuildTin", "Heights that count as one"),
            describe_length(manner.same_height, job.vertical),
        ),
        (translate("BuildTin", "Snap distance"), f"{manner.snap:g} {job.plan.symbol}"),
    ]
    labels, values = numbers(), figures(built)
    square = {"PLAN_AREA", "UNCOVERED_AREA"}
    long = {"LINE_LENGTH", "LENGTH_INSIDE", "LENGTH_HONOURED"}
    rows = []
    for name, label in labels.items():
        value = values[name]
        if name in square:
            shown = f"{value:.2f} sq {job.plan.symbol}"
        elif name in long:
            shown = f"{value:.2f} {job.plan.symbol}"
        elif name == "LARGEST_MOVE":
            shown = f"{value:.5f} {job.plan.symbol}"
        else:
            shown = str(value)
        rows.append((label, shown))
    plan = BuildPlan(
        built.tin,
        [line[:, :2] for line in lines.lines],
        built.unused[:, :, :2],
        built.findings,
        job.plan,
    )
    return build_report(about, sentences(built, boundary, job), rows, built.findings, plan)
