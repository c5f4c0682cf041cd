"""Reading a LandXML file into layers."""

from pathlib import Path
from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingOutputString,
    QgsProcessingParameterCrs,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFile,
    QgsProcessingParameterString,
)

from ..core.errors import ExchangeError
from ..core.exchange.landxml import LandXmlFile, Part, SurfaceRecord, no_tin_reason, read_landxml
from ..core.text import translate
from ..core.tin import Tin
from ..layers.landxml import (
    ALIGNMENT_FIELDS,
    FACE_FIELDS,
    LINE_FIELDS,
    POINT_FIELDS,
    Scale,
    alignment_rows,
    face_rows,
    line_rows,
    point_rows,
)
from ..layers.landxml_units import choose_crs, choose_scale
from ..layers.meshes import write_ply
from ..styles import (
    style_alignments,
    style_design_lines,
    style_faces,
    style_mesh,
    style_points,
)
from .base import UndercourseAlgorithm
from .landxml_listing import list_content

SINKS = {
    "FACES": (FACE_FIELDS, Qgis.WkbType.PolygonZ, style_faces),
    "LINES": (LINE_FIELDS, Qgis.WkbType.LineStringZ, style_design_lines),
    "ALIGNMENTS": (ALIGNMENT_FIELDS, Qgis.WkbType.CompoundCurveM, style_alignments),
    "POINTS": (POINT_FIELDS, Qgis.WkbType.PointZ, style_points),
}
NEEDS = {
    "TIN": Part.SURFACES,
    "FACES": Part.SURFACES,
    "LINES": Part.LINES,
    "ALIGNMENTS": Part.ALIGNMENTS,
    "POINTS": Part.POINTS,
}
"""What is read for each output. What no output needs is not looked at."""


class ReadLandXml(UndercourseAlgorithm):
    """Design intake: surfaces, lines, alignments and points of a LandXML file."""

    name_id = "read_landxml"
    group_id = "design_intake"

    def title(self) -> str:
        return translate("ReadLandXml", "Read LandXML")

    def summary(self) -> str:
        return translate(
            "ReadLandXml",
            "Reads the surface, its lines, the alignments and the points of a LandXML file, and lists what the file holds.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "ReadLandXml",
                "Files of LandXML 1.0 to 2.0 and of national profiles are read. Points are northing, easting, elevation in the file and x = easting, y = northing here. Faces marked invisible are not part of the surface. Nothing is repaired in silence: what may be wrong is a warning and is counted, and what cannot be read is refused with its element and line.",
            ),
            translate(
                "ReadLandXml",
                "Arcs of alignments stay true arcs; spirals become dense points within a millimetre. M is the station without station equations, so that it always grows; the equations stand in a field. Directions (dir) in the file are never used, since files disagree on their zero and sense.",
            ),
            translate(
                "ReadLandXml",
                "Existing ground and finished grade may be on different height datums even in one file: compare a known point of both before depths are taken between them.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "ReadLandXml", "landxml,xml,import,design,surface,tin,breaklines,alignment,station"
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            QgsProcessingParameterFile(
                "INPUT",
                translate("ReadLandXml", "LandXML file"),
                Qgis.ProcessingFileParameterBehavior.File,
                # QGIS refuses without a reason what the filter leaves out.
                fileFilter=translate("ReadLandXml", "LandXML files")
                + " (*.xml *.XML *.landxml);;"
                + translate("ReadLandXml", "All files")
                + " (*.*)",
            ),
            translate("ReadLandXml", "The file. It is not changed."),
        )
        self.add(
            QgsProcessingParameterString(
                "SURFACE", translate("ReadLandXml", "Name of the surface"), None, False, True
            ),
            translate(
                "ReadLandXml",
                "Which surface to read, by its name in the file. Leave it blank if there is only one; if there are several, the message lists their names.",
            ),
        )
        self.add(
            QgsProcessingParameterCrs("CRS", translate("ReadLandXml", "CRS"), None, True),
            translate(
                "ReadLandXml",
                "Projected CRS of the coordinates. Leave it blank to take the EPSG code that the file states. Coordinates are never reprojected.",
            ),
        )
        self.add(
            self.choice(
                "UNITS",
                translate("ReadLandXml", "If the file's unit is not that of the CRS"),
                {
                    "refuse": translate("ReadLandXml", "Stop and say so"),
                    "convert": translate(
                        "ReadLandXml", "Convert from the file's unit to that of the CRS"
                    ),
                    "keep": translate(
                        "ReadLandXml", "Keep the numbers: the file states a wrong unit"
                    ),
                },
                "refuse",
            ),
            translate(
                "ReadLandXml",
                "The international foot (0.3048 m) and the US survey foot (1200/3937 m) count as different: at 2,000,000 ft the wrong one moves a point by 4 ft. Find out which is true before choosing.",
            ),
        )
        self.add(
            self.choice(
                "BROKEN_FACES",
                translate("ReadLandXml", "Faces that name missing points"),
                {
                    "refuse": translate("ReadLandXml", "Stop and say where"),
                    "leave_out": translate("ReadLandXml", "Leave them out and count them"),
                },
                "refuse",
            ),
            translate(
                "ReadLandXml",
                "A surface has a hole where a face is left out: look at it before use.",
            ),
            advanced=True,
        )
        self._add_outputs()

    def _add_outputs(self) -> None:
        self.add(
            self.mesh_output("TIN", translate("ReadLandXml", "Surface as TIN"), optional=True),
            translate("ReadLandXml", "Mesh of the visible faces, exact to the last digit."),
        )
        kinds = QgsProcessing.SourceType
        for name, label, kind, by_default, text in (
            (
                "FACES",
                translate("ReadLandXml", "Faces"),
                kinds.TypeVectorPolygon,
                False,
                translate(
                    "ReadLandXml", "One triangle a feature, with its areas and grade (percent)."
                ),
            ),
            (
                "LINES",
                translate("ReadLandXml", "Lines"),
                kinds.TypeVectorLine,
                True,
                translate(
                    "ReadLandXml",
                    "Breaklines, boundaries and contours of the surface, and plan features, in their direction in the file.",
                ),
            ),
            (
                "ALIGNMENTS",
                translate("ReadLandXml", "Alignments"),
                kinds.TypeVectorLine,
                True,
                translate(
                    "ReadLandXml",
                    "Alignments with true arcs and the station as M, drawn up-station. Vertical profiles are counted and not read.",
                ),
            ),
            (
                "POINTS",
                translate("ReadLandXml", "Points"),
                kinds.TypeVectorPoint,
                False,
                translate(
                    "ReadLandXml",
                    "Coordinate-geometry points, data points, and points of the surface that no face uses.",
                ),
            ),
        ):
            self.add(
                QgsProcessingParameterFeatureSink(name, label, kind, None, True, by_default), text
            )
        for name, label in self._figures():
            self.addOutput(QgsProcessingOutputNumber(name, label))
        self.addOutput(
            QgsProcessingOutputString("SURFACE_NAME", translate("ReadLandXml", "Surface read"))
        )

    def _figures(self) -> tuple[tuple[str, str], ...]:
        return (
            ("SURFACE_COUNT", translate("ReadLandXml", "Surfaces in the file")),
            ("VERTEX_COUNT", translate("ReadLandXml", "Points of the surface")),
            ("FACE_COUNT", translate("ReadLandXml", "Visible faces")),
            ("HIDDEN_COUNT", translate("ReadLandXml", "Invisible faces")),
            ("PLAN_AREA", translate("ReadLandXml", "Plan area")),
            ("SLOPED_AREA", translate("ReadLandXml", "Area on the slope")),
            ("BREAKLINE_COUNT", translate("ReadLandXml", "Breaklines")),
            ("BOUNDARY_COUNT", translate("ReadLandXml", "Boundaries")),
            ("LINE_COUNT", translate("ReadLandXml", "Lines of all kinds")),
            ("ALIGNMENT_COUNT", translate("ReadLandXml", "Alignments")),
            ("ALIGNMENT_LENGTH", translate("ReadLandXml", "Length of the alignments")),
            ("POINT_COUNT", translate("ReadLandXml", "Single points")),
            ("FLAG_COUNT", translate("ReadLandXml", "Things that may be wrong")),
        )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        wanted = [name for name in NEEDS if not self.is_blank(parameters, name)]
        name = (self.parameterAsString(parameters, "SURFACE", context) or "").strip()
        file = read_landxml(
            Path(self.parameterAsFile(parameters, "INPUT", context)),
            surface=name,
            parts={NEEDS[output] for output in wanted} or tuple(Part),
            leave_out_broken_faces=self.word(parameters, "BROKEN_FACES", context) == "leave_out",
            progress=self.progress(feedback, 0.0, 0.6),
        )
        surface = self._surface(file, name, wanted)
        crs = choose_crs(file, self._given_crs(parameters, context))
        scale, remarks = choose_scale(file, crs, self.word(parameters, "UNITS", context))
        tin = scale.tin(surface.tin) if surface is not None and surface.tin is not None else None
        list_content(file, surface, tin, scale, feedback)
        for sentence in (*(finding.why for finding in file.findings), *remarks):
            self.warn(feedback, sentence)
        results = self._write(parameters, context, feedback, file, surface, tin, scale, crs)
        results.update(_counts(file, surface, tin, scale))
        results["FLAG_COUNT"] = len(file.findings) + len(remarks)
        return results

    def _surface(self, file: LandXmlFile, name: str, wanted: list[str]) -> SurfaceRecord | None:
        """Return the surface to read; refuse it when it cannot be had as it is wanted."""
        if not name and len(file.surfaces) > 1 and not {"TIN", "FACES", "LINES"} & {*wanted}:
            return None
        surface = file.surface(name)
        if surface is not None and {"TIN", "FACES"} & {*wanted}:
            reason = no_tin_reason(surface, file.name)
            if reason is not None:
                raise reason
        return surface

    def _given_crs(
        self, parameters: dict[str, Any], context: QgsProcessingContext
    ) -> QgsCoordinateReferenceSystem | None:
        if self.is_blank(parameters, "CRS"):
            return None
        crs = self.parameterAsCrs(parameters, "CRS", context)
        if not crs.isValid():
            raise ExchangeError(
                translate(
                    "ReadLandXml", "CRS: “{value}” is not known, choose it from the list."
                ).format(value=parameters["CRS"])
            )
        return crs

    def _write(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
        file: LandXmlFile,
        surface: SurfaceRecord | None,
        tin: Tin | None,
        scale: Scale,
        crs: QgsCoordinateReferenceSystem,
    ) -> dict[str, Any]:
        """Write the outputs that were asked for; everything that can be wrong has been checked."""
        label = (surface.name if surface is not None else "") or Path(file.name).stem
        path = self.file(parameters, "TIN", context) if tin is not None else None
        sinks = {
            name: self.sink(parameters, name, context, columns, kind, crs)
            for name, (columns, kind, _) in SINKS.items()
        }
        results: dict[str, Any] = {}
        if path is not None and tin is not None:
            write_ply(path, tin, crs)
            self.load_mesh(parameters, "TIN", context, path, label, style_mesh)
            results["TIN"] = path
        rows = {
            "FACES": (face_rows(tin), len(tin.faces) if tin is not None else 0),
            "LINES": (line_rows(file, scale), len(file.lines)),
            "ALIGNMENTS": (alignment_rows(file, scale), len(file.alignments)),
            "POINTS": (point_rows(file, scale), len(file.points)),
        }
        titles = {
            "FACES": translate("ReadLandXml", "{name}: faces").format(name=label),
            "LINES": translate("ReadLandXml", "{name}: lines").format(name=label),
            "ALIGNMENTS": translate("ReadLandXml", "Alignments of {name}").format(
                name=Path(file.name).stem
            ),
            "POINTS": translate("ReadLandXml", "Points of {name}").format(
                name=Path(file.name).stem
            ),
        }
        for number, (name, sink) in enumerate(sinks.items()):
            if sink is None:
                continue
            start = 0.65 + 0.35 * number / len(sinks)
            progress = self.progress(feedback, start, start + 0.35 / len(sinks))
            with sink:
                sink.add_many(*rows[name], progress)
            results[name] = sink.id
            if sink.count:
                self.named_output(context, sink.id, titles[name], SINKS[name][2])
                continue
            # A model's next step gets the empty layer; Desktop need not load it.
            loading = context.layersToLoadOnCompletion()
            if loading.pop(sink.id, None) is not None:
                context.setLayersToLoadOnCompletion(loading)
            feedback.pushInfo(
                translate(
                    "ReadLandXml", "{label}: the file holds none, the layer is empty."
                ).format(label=self.parameterDefinition(name).description())
            )
        return results


def _counts(
    file: LandXmlFile, surface: SurfaceRecord | None, tin: Tin | None, scale: Scale
) -> dict[str, Any]:
    kinds = [line.kind for line in file.lines]
    areas = scale.areas(surface, tin)
    return {
        "SURFACE_NAME": surface.name if surface is not None else "",
        "SURFACE_COUNT": len(file.surfaces),
        "VERTEX_COUNT": surface.point_count if surface is not None else 0,
        "FACE_COUNT": len(tin.faces) if tin is not None else 0,
        "HIDDEN_COUNT": surface.hidden_count if surface is not None else 0,
        "PLAN_AREA": areas[0],
        "SLOPED_AREA": areas[1],
        "BREAKLINE_COUNT": kinds.count("breakline"),
        "BOUNDARY_COUNT": kinds.count("boundary"),
        "LINE_COUNT": len(kinds),
        "ALIGNMENT_COUNT": len(file.alignments),
        "ALIGNMENT_LENGTH": float(
            np.sum([alignment.length for alignment in file.alignments]) * scale.plan
        ),
        "POINT_COUNT": len(file.points),
    }
