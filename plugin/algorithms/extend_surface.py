"""Carry a design on beyond its edges."""

from collections.abc import Iterator
from typing import Any

import numpy as np
import shapely
from qgis.core import (
    Qgis,
    QgsGeometry,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterBoolean,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterString,
    QgsRasterLayer,
)

from ..core.errors import LengthTextError
from ..core.text import translate
from ..core.tin.extend import Extended, Pick, Rule, extend
from ..core.tolerance import Tolerance
from ..core.units import describe_length, parse_grade
from ..layers.fields import fields
from ..layers.lines import read_lines
from ..layers.meshes import write_ply
from ..layers.polygons import tin_features
from ..styles import style_depth_mesh, style_extended_faces
from .base import UndercourseAlgorithm
from .parameters import about

_WITHIN = 0.25
"""Edges are picked within this share of the distance where nothing else is asked for."""


class ExtendSurface(UndercourseAlgorithm):
    """A TIN with a strip beyond its edges."""

    name_id = "extend_surface"
    group_id = "design_intake"

    DESIGN = "DESIGN"
    DISTANCE = "DISTANCE"
    RULE = "RULE"
    GRADE = "GRADE"
    EDGES = "EDGES"
    WITHIN = "WITHIN"
    HOLES = "HOLES"
    TIN = "TIN"
    FACES = "FACES"

    def title(self) -> str:
        return translate("ExtendSurface", "Extend a surface")

    def summary(self) -> str:
        return translate(
            "ExtendSurface",
            "Adds a strip beyond the edges of a design: its slope carried on, a given grade, or level.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "ExtendSurface",
                "Each edge of the border gets a strip at right angles to it. The given vertices and faces stay as they are, to the last digit; the new faces join them without cracks and never overlap. Outside corners stand out as a mitre of up to twice the distance, sharper ones are squared off; at inside corners the strips meet.",
            ),
            translate(
                "ExtendSurface",
                "At a corner the planes of the two strips meet in a line: a crown or a flowline goes on as it ran. Where that line does not run through the corner the strips are blended, and the run says how far apart they were.",
            ),
            translate(
                "ExtendSurface",
                "Across a bay, a hole or a gap between two parts of the surface that is narrower than twice the distance the strips stop short of the middle: nothing is bridged. The run says where and how wide.",
            ),
            translate(
                "ExtendSurface",
                "What lies beyond the design has not been designed: check it with the designer before it is dug.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "ExtendSurface",
            "extend,extension,extrapolate,edge,border,beyond,outside,carry on,strip,slope,grade,level,TIN,mesh",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            self.surface(self.DESIGN, translate("ExtendSurface", "Design"), ("tin",)),
            translate(
                "ExtendSurface",
                "The surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.",
            ),
        )
        self.add(
            self.length(self.DISTANCE, translate("ExtendSurface", "Distance"), "1", plan=True),
            translate(
                "ExtendSurface",
                "How far the surface goes on, in plan and at right angles to each edge. With a unit, or in the unit of the CRS: 1 ft, 0.5 m.",
            ),
        )
        self.add(
            self.choice(
                self.RULE,
                translate("ExtendSurface", "Slope of the strip"),
                {
                    str(Rule.CARRY): translate("ExtendSurface", "Carry the slope on"),
                    str(Rule.GRADE): translate("ExtendSurface", "Given grade"),
                    str(Rule.LEVEL): translate("ExtendSurface", "Level"),
                },
                str(Rule.CARRY),
            ),
            translate(
                "ExtendSurface",
                "Carry the slope on: the plane of the face at the edge goes on. Given grade: at right angles to the edge the strip has the grade below. Level: at right angles to the edge it has none. Along the edge it always follows the edge. Faces that are upright, steeper than 10 to 1 or too thin to have a slope are carried on level.",
            ),
        )
        self.add(
            QgsProcessingParameterString(
                self.GRADE, translate("ExtendSurface", "Grade"), None, False, True
            ),
            translate(
                "ExtendSurface",
                "Grade of the strip at right angles to the edge, going away from the design: + rises outward, - falls outward. In percent (-2, -2 %), as run to rise (3:1), or as 1 in 20. For “given grade” only.",
            ),
        )
        self.add(
            QgsProcessingParameterFeatureSource(
                self.EDGES,
                translate("ExtendSurface", "Lines that pick edges"),
                [QgsProcessing.SourceType.TypeVectorLine],
                None,
                True,
            ),
            translate(
                "ExtendSurface",
                "Only edges that run along one of these lines are carried on; edges that a line merely crosses are not. Left blank, all edges around the design are.",
            ),
        )
        self.add(
            self.length(
                self.WITHIN,
                translate("ExtendSurface", "Edges lie within"),
                None,
                optional=True,
                plan=True,
            ),
            translate(
                "ExtendSurface",
                "How far, in plan, a picked edge may lie off its line. Left blank, a quarter of the distance.",
            ),
            advanced=True,
        )
        self.add(
            QgsProcessingParameterBoolean(
                self.HOLES, translate("ExtendSurface", "Carry the edges of holes on too"), False
            ),
            translate(
                "ExtendSurface",
                "Holes narrower than twice the distance stay open by a slit. Where lines pick edges, the lines alone decide.",
            ),
            advanced=True,
        )
        self.add(self.vertical_unit(), advanced=True)
        self._add_results()

    def _add_results(self) -> None:
        self.add(
            self.mesh_output(self.TIN, translate("ExtendSurface", "Extended surface")),
            translate(
                "ExtendSurface",
                "The surface as a mesh file, the given faces first, with the part (0 design, 1 extension) and the face of the design (from 1) of each face as datasets.",
            ),
        )
        self.add(
            QgsProcessingParameterFeatureSink(
                self.FACES,
                translate("ExtendSurface", "Faces"),
                QgsProcessing.SourceType.TypeVectorPolygon,
                None,
                True,
                False,
            ),
            translate(
                "ExtendSurface",
                "One triangle with heights a feature, with the fields: part (design, extension), face (face of the design from 1: the face itself, or the one whose edge the strip begins at).",
            ),
        )
        for name, label in _numbers().items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        layer = self.parameterAsLayer(parameters, self.DESIGN, context)
        if isinstance(layer, QgsRasterLayer):
            return translate(
                "ExtendSurface",
                "“{name}” is a raster: choose a mesh, or polygons with heights.",
            ).format(name=layer.name())
        given = self.text(parameters, self.GRADE, context)
        asked = self.word(parameters, self.RULE, context) == Rule.GRADE
        if asked and not given:
            return translate("ExtendSurface", "Give the grade of the strip, e.g. -2 %.")
        if given and not asked:
            return translate(
                "ExtendSurface",
                "A grade is given but the slope of the strip is not “given grade”: choose that, or leave the grade blank.",
            )
        if given:
            try:
                parse_grade(given)
            except LengthTextError as error:
                return about(self.parameterDefinition(self.GRADE), str(error))
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.design = self.layer_surface(parameters, self.DESIGN, context, feedback)
        self.job = self.units(self.design, parameters, context)
        self.distance = self.length_value(parameters, self.DISTANCE, context, self.job.plan)
        self.pick = None
        source = self.source(parameters, self.EDGES, context)
        if source is not None:
            table = read_lines(
                source,
                crs=self.design.crs,
                context=context,
                feedback=feedback,
                name=source.sourceName(),
            )
            lines = [shapely.linestrings(line[:, :2]) for line in table.coordinates]
            within = self.length_value(parameters, self.WITHIN, context, self.job.plan)
            if within is None:
                within = _WITHIN * self.distance
            self.pick = Pick(np.array(lines, dtype=object), within)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        path = self.file(parameters, self.TIN, context)
        rule = Rule(self.word(parameters, self.RULE, context))
        grade = self.text(parameters, self.GRADE, context)
        extended = extend(
            self.design.data,
            self.distance,
            rule,
            grade=parse_grade(grade) / 100.0 if grade else None,
            pick=self.pick,
            holes=self.parameterAsBoolean(parameters, self.HOLES, context),
            tolerance=Tolerance.for_unit(self.job.plan.metres),
            z_scale=self.job.vertical.to(self.job.plan),
            progress=self.progress(feedback, 0.05, 0.5),
        )
        for finding in extended.findings:
            self.warn(feedback, finding.why)
        results = figures(extended)
        if path is not None:
            values = {
                "part": extended.new.astype(float),
                "face": _given_face(extended).astype(float),
            }
            write_ply(path, extended.tin, self.design.crs, values)
            label = translate("ExtendSurface", "Extended surface, {name}")
            self.load_mesh(
                parameters,
                self.TIN,
                context,
                path,
                label.format(name=self.design.name),
                lambda layer: style_depth_mesh(layer, "part"),
            )
            results[self.TIN] = path
        results.update(self._write_faces(parameters, context, extended, feedback))
        self._tell(extended, results, feedback)
        return results

    def _write_faces(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        extended: Extended,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        columns = fields(("part", str), ("face", int))
        sink = self.sink(
            parameters, self.FACES, context, columns, Qgis.WkbType.PolygonZ, self.design.crs
        )
        if sink is None:
            return {}
        with sink:
            count = len(extended.source)
            sink.add_many(_rows(extended), count, self.progress(feedback, 0.55, 1.0))
        label = translate("ExtendSurface", "Faces, {name} extended").format(name=self.design.name)
        self.named_output(context, sink.id, label, style_extended_faces)
        return {self.FACES: sink.id}

    def _tell(
        self, extended: Extended, results: dict[str, Any], feedback: QgsProcessingFeedback
    ) -> None:
        feedback.pushInfo(
            translate(
                "ExtendSurface",
                "{count} new faces beyond {length:.2f} {unit} of edges, {area:.2f} square {unit} in plan; strips beside each other are at most {apart} apart where they were blended.",
            ).format(
                count=results["NEW_FACES"],
                length=extended.length,
                area=results["NEW_AREA"],
                unit=self.job.plan.symbol,
                apart=describe_length(extended.disagreement, self.job.vertical),
            )
        )


def _given_face(extended: Extended) -> np.ndarray:
    """Return the number, from 1, of the face of the design behind each face."""
    own = np.arange(len(extended.source))
    return np.where(extended.new, extended.source, own) + 1


def _rows(extended: Extended) -> Iterator[tuple[QgsGeometry, list[Any]]]:
    words = np.where(extended.new, "extension", "design").tolist()
    faces = _given_face(extended).tolist()
    for geometry, word, face in zip(tin_features(extended.tin), words, faces, strict=True):
        yield geometry, [word, face]


def figures(extended: Extended) -> dict[str, Any]:
    """Return the numeric results, in plan and vertical units."""
    return {
        "FACE_COUNT": len(extended.source),
        "NEW_FACES": int(extended.new.sum()),
        "NEW_AREA": float(extended.tin.plan_areas[extended.new].sum()),
        "LENGTH": extended.length,
        "DISAGREEMENT": extended.disagreement,
        "FLAG_COUNT": len(extended.findings),
    }


def _numbers() -> dict[str, str]:
    return {
        "FACE_COUNT": translate("ExtendSurface", "Number of faces"),
        "NEW_FACES": translate("ExtendSurface", "Number of new faces"),
        "NEW_AREA": translate("ExtendSurface", "Plan area of the new faces"),
        "LENGTH": translate("ExtendSurface", "Length of the edges carried on"),
        "DISAGREEMENT": translate("ExtendSurface", "How far apart blended strips were, at most"),
        "FLAG_COUNT": translate("ExtendSurface", "Things that may be wrong"),
    }
