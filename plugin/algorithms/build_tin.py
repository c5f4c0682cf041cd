"""Build a surface of points, breaklines and a boundary."""

from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessingContext,
    QgsProcessingFeedback,
)

from ..core.text import translate
from ..core.tin.build import Built, Manner, build_tin
from ..core.units import METRE
from ..layers.fields import fields
from ..layers.meshes import write_ply
from ..styles import style_faces, style_flagged, style_mesh
from .base import UndercourseAlgorithm
from .build_inputs import BuildInputs
from .build_parameters import add_inputs, add_outputs
from .build_rows import faces, figures, issues, report, sentences
from .parameters import about

MOST_LOGGED = 20


class BuildTin(UndercourseAlgorithm):
    """A TIN of points and breaklines."""

    name_id = "build_tin"
    group_id = "design_intake"

    POINTS = "POINTS"
    HEIGHT_FIELD = "HEIGHT_FIELD"
    BREAKLINES = "BREAKLINES"
    LINE_HEIGHTS = "LINE_HEIGHTS"
    BOUNDARY = "BOUNDARY"
    MAX_EDGE = "MAX_EDGE"
    SAME_HEIGHT = "SAME_HEIGHT"
    SNAP = "SNAP"
    TIN = "TIN"
    FACES = "FACES"
    ISSUES = "ISSUES"
    HTML = "HTML"

    def title(self) -> str:
        return translate("BuildTin", "Build a surface")

    def summary(self) -> str:
        return translate(
            "BuildTin",
            "Builds a TIN of points, breaklines and a boundary, and reports where they disagree about the height.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "BuildTin",
                "Every breakline becomes a row of edges of the surface, with its vertices exactly where they are; everywhere else the triangles are those whose circles hold no other point (a constrained Delaunay triangulation). Nothing depends on the order of the features.",
            ),
            translate(
                "BuildTin",
                "Where two breaklines meet at one height they get a common vertex. Where their heights differ no one of them is picked: the segments that meet there are left out of both, and the place is flagged with both heights. Points in one place at different heights are all left out; a point on a breakline gives way to it.",
            ),
            translate(
                "BuildTin",
                "A boundary with heights is the edge of the surface. One without heights cuts it; where the points do not reach it there is no surface, and the place is flagged.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "BuildTin",
            "TIN,triangulation,triangulate,Delaunay,constrained,breakline,points,survey,surface,boundary,mesh,terrain,DTM",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_inputs(self)
        add_outputs(self)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        if self.is_blank(parameters, self.POINTS) and self.is_blank(parameters, self.BREAKLINES):
            return translate("BuildTin", "Choose points, breaklines, or both to build of.")
        for name in (self.MAX_EDGE, self.SNAP):
            given = self.length_value(parameters, name, context, METRE)
            if given is not None and given <= 0.0:
                why = translate("BuildTin", "it must be greater than 0.")
                return about(self.parameterDefinition(name), why)
        if (self.length_value(parameters, self.SAME_HEIGHT, context, METRE) or 0.0) < 0.0:
            why = translate("BuildTin", "it must not be negative.")
            return about(self.parameterDefinition(self.SAME_HEIGHT), why)
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        names = (self.POINTS, self.BREAKLINES, self.BOUNDARY)
        points, lines, boundary = (self.source(parameters, name, context) for name in names)
        self.crs = (points or lines).sourceCrs()
        self.job = self.units(self.crs, parameters, context)
        self.layers = [s.sourceName() if s else "" for s in (points, lines, boundary)]
        labels = [self.parameterDefinition(name).description() for name in names]
        inputs = BuildInputs(self.crs, 1e-3 / self.job.plan.metres, context, feedback)
        field = self.text(parameters, self.HEIGHT_FIELD, context)
        self.points = inputs.points(points, field, labels[0])
        self.lines = inputs.breaklines(lines, labels[1])
        self.boundary = inputs.boundary(boundary, labels[2])
        plan, vertical = self.job.plan, self.job.vertical
        longest = self.length_value(parameters, self.MAX_EDGE, context, plan)
        self.manner = Manner(
            snap=self.length_value(parameters, self.SNAP, context, plan),
            same_height=self.length_value(parameters, self.SAME_HEIGHT, context, vertical),
            longest_edge=np.inf if longest is None else longest,
            drape=self.word(parameters, self.LINE_HEIGHTS, context) == "surface",
        )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        path, page = (self.file(parameters, name, context) for name in (self.TIN, self.HTML))
        built = build_tin(
            self.points,
            self.lines,
            self.boundary,
            self.manner,
            self.progress(feedback, 0.05, 0.7),
        )
        self._tell(built, feedback)
        results = figures(built)
        if path is not None:
            write_ply(path, built.tin, self.crs)
            label = translate("BuildTin", "Built surface")
            self.load_mesh(parameters, self.TIN, context, path, label, style_mesh)
            results[self.TIN] = path
        results.update(self._write(parameters, context, built, feedback))
        if page is not None:
            report(
                built,
                self.layers,
                self.lines,
                self.boundary,
                self.manner,
                self.job,
                self.crs,
            ).write(page)
            results[self.HTML] = page
        return results

    def _write(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        built: Built,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        results = {}
        triangles = self.sink(
            parameters,
            self.FACES,
            context,
            fields(("face", int)),
            Qgis.WkbType.PolygonZ,
            self.crs,
        )
        if triangles is not None:
            count = len(built.tin.faces)
            with triangles:
                triangles.add_many(faces(built), count, self.progress(feedback, 0.7, 0.95))
            label = translate("BuildTin", "Faces")
            self.named_output(context, triangles.id, label, style_faces)
            results[self.FACES] = triangles.id
        columns = fields(("flag", str), ("why", str), ("feature", int))
        places = self.sink(parameters, self.ISSUES, context, columns, Qgis.WkbType.Point, self.crs)
        if places is not None:
            with places:
                places.add_many(issues(built))
            label = translate("BuildTin", "Places to look at")
            self.named_output(context, places.id, label, style_flagged)
            results[self.ISSUES] = places.id
        return results

    def _tell(self, built: Built, feedback: QgsProcessingFeedback) -> None:
        """Log what was built, and the first of what may be wrong."""
        told = sentences(built, self.boundary, self.job)
        doubtful = {told[1]} if built.findings else set()
        doubtful |= {told[-1]} if self.boundary is None else set()
        for sentence in told:
            if sentence in doubtful:
                self.warn(feedback, sentence)
            else:
                feedback.pushInfo(sentence)
        for finding in built.findings[:MOST_LOGGED]:
            where = "" if finding.place is None else "{:.3f}, {:.3f}: ".format(*finding.place)
            self.warn(feedback, where + finding.why)
        if len(built.findings) > MOST_LOGGED:
            self.warn(
                feedback,
                translate("BuildTin", "... and {count} more, in the layer and the report.").format(
                    count=len(built.findings) - MOST_LOGGED
                ),
            )
