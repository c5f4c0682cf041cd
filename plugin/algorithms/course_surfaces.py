"""Make the surfaces between the courses of each zone, from a schedule of sections."""

from collections.abc import Sequence
from typing import Any

from qgis.core import (
    Qgis,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputMapLayer,
    QgsProcessingOutputNumber,
    QgsRasterLayer,
)

from ..core.depth.courses.schedule import read_schedule
from ..core.depth.courses.stack import Interface, Stack, stack_courses
from ..core.depth.zones import Outside
from ..core.text import translate
from ..documents.course_report import Names, write_report
from ..layers.fields import fields
from ..layers.rows import read_rows
from ..layers.tables import texts_of, usual_field
from ..styles import style_depth_mesh, style_faces
from . import zone_parameters as shared
from .base import UndercourseAlgorithm
from .course_files import write_folder
from .course_parameters import add_inputs, add_results, numbers
from .course_rows import (
    FACE_COLUMNS,
    QUANTITY_COLUMNS,
    face_count,
    face_rows,
    figures,
    quantity_rows,
)
from .zone_inputs import read_zones
from .zone_values import read_beyond, read_manner, read_tolerance

MOST_NAMES = 3
"""Courses that the name of a layer tells; of more it says so."""


class CourseSurfaces(UndercourseAlgorithm):
    """One surface below each course, and the quantities of all courses."""

    name_id = "course_surfaces"
    group_id = "depth_surfaces"

    DESIGN = "DESIGN"
    ZONES = shared.ZONES
    SECTION_FIELD = "SECTION_FIELD"
    SCHEDULE = "SCHEDULE"
    OUTSIDE = shared.OUTSIDE
    BEYOND = shared.BEYOND
    PRIORITY_FIELD = shared.PRIORITY_FIELD
    FOLDER = "FOLDER"
    LOWEST = "LOWEST"
    FACES = "FACES"
    QUANTITIES = "QUANTITIES"
    HTML = "HTML"

    def title(self) -> str:
        return translate("CourseSurfaces", "Course surfaces")

    def summary(self) -> str:
        return translate(
            "CourseSurfaces",
            "Makes one surface below each course of the sections of a schedule, from the top down, with the area, volume and mass of every course.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "CourseSurfaces",
                "The first surface is the underside of the first course of each section, the second that of the second course, and so on; a section with fewer courses stays at its last one. Zones beside each other share their surfaces, so that a walk beside a lane leaves neither gap nor overlap.",
            ),
            translate(
                "CourseSurfaces",
                "A course may be wider than its zone and have sloping sides. Each surface is the lowest of what is dug for all courses down to it, and therefore never comes above the one over it.",
            ),
            translate(
                "CourseSurfaces",
                "Volumes are exact: they lie between two surfaces, widened floors and sides included, and all courses together are the volume between the design and the lowest surface.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "CourseSurfaces",
            "course,layer,pavement,base,subbase,subgrade,section,schedule,quantities,volume,tonnes,TIN,mesh",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        add_inputs(self)
        add_results(self)
        lowest = translate("CourseSurfaces", "Lowest surface")
        self.addOutput(QgsProcessingOutputMapLayer(self.LOWEST, lowest))
        for name, label in numbers().items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        layer = self.parameterAsLayer(parameters, self.DESIGN, context)
        if isinstance(layer, QgsRasterLayer):
            return translate(
                "CourseSurfaces",
                "“{name}” is a raster: choose a mesh or polygons with heights.",
            ).format(name=layer.name())
        if not self._section_field(parameters, context):
            return translate(
                "CourseSurfaces",
                "No field with the section of each zone is chosen, and the zones have none called “section”: choose it.",
            )
        return None

    def _section_field(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str:
        field = self.text(parameters, self.SECTION_FIELD, context)
        return field or usual_field(self.source(parameters, self.ZONES, context), "section")

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.design = self.layer_surface(parameters, self.DESIGN, context, feedback)
        self.job = self.units(self.design, parameters, context)
        self.manner = read_manner(self, parameters, context, self.job)
        self.tolerance = read_tolerance(self, parameters, context, self.job)
        table = self.source(parameters, self.SCHEDULE, context)
        self.schedule = read_schedule(read_rows(table), self.job.vertical, self.job.plan)
        source = self.source(parameters, self.ZONES, context)
        self.zones = read_zones(
            source,
            "",
            0.0,
            self.text(parameters, self.PRIORITY_FIELD, context),
            unit=self.job.vertical,
            crs=self.design.crs,
            context=context,
            feedback=feedback,
        )
        field = self._section_field(parameters, context)
        self.sections = self.schedule.of_zones(
            texts_of(source, field, self.zones.ids), self.zones.ids.tolist()
        )
        self.names = Names(
            source.sourceName(),
            table.sourceName(),
            texts_of(source, usual_field(source, "name"), self.zones.ids),
        )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        folder = self.file(parameters, self.FOLDER, context)
        html_path = self.file(parameters, self.HTML, context)
        stack = stack_courses(
            self.design.data,
            self.zones,
            self.sections,
            manner=self.manner,
            beyond=read_beyond(self, parameters, context),
            tolerance=self.tolerance,
            progress=self.progress(feedback, 0.05, 0.8),
        )
        stack.findings[:0] = self.schedule.findings + self.schedule.unused(self.sections)
        for finding in stack.findings:
            self.warn(feedback, finding.why)
        leave_out = self.word(parameters, self.OUTSIDE, context) == Outside.LEAVE_OUT
        paths = write_folder(folder, stack, self.design.crs, self.job, leave_out=leave_out)
        results = figures(stack, self.job.plan)
        results |= {self.FOLDER: folder, self.LOWEST: paths[-1]}
        if html_path:
            write_report(
                html_path,
                stack,
                self.schedule,
                self.job,
                design=self.design,
                names=self.names,
                manner=self.manner,
            )
            results[self.HTML] = html_path
        results |= self._write_quantities(parameters, context, stack)
        results |= self._write_faces(parameters, context, feedback, stack, leave_out=leave_out)
        self._load(parameters, context, stack, paths)
        feedback.pushInfo(
            translate(
                "CourseSurfaces",
                "{count} surfaces in {folder}; volume between the design and the lowest {volume:.2f} cubic {unit}.",
            ).format(
                count=len(paths),
                folder=folder,
                volume=results["VOLUME"],
                unit=self.job.plan.symbol,
            )
        )
        return results

    def _write_quantities(
        self, parameters: dict[str, Any], context: QgsProcessingContext, stack: Stack
    ) -> dict[str, Any]:
        columns = fields(*QUANTITY_COLUMNS)
        kind = Qgis.WkbType.NoGeometry
        sink = self.sink(parameters, self.QUANTITIES, context, columns, kind, self.design.crs)
        if sink is None:
            return {}
        with sink:
            sink.add_many(quantity_rows(stack, self.names.of_zones, self.job.plan))
        label = translate("CourseSurfaces", "Quantities of courses, {name}")
        self.named_output(
            context,
            sink.id,
            label.format(name=self.design.name),
            group=self._group(),
        )
        return {self.QUANTITIES: sink.id}

    def _write_faces(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
        stack: Stack,
        *,
        leave_out: bool,
    ) -> dict[str, Any]:
        columns = fields(*FACE_COLUMNS)
        kind = Qgis.WkbType.PolygonZ
        sink = self.sink(parameters, self.FACES, context, columns, kind, self.design.crs)
        if sink is None:
            return {}
        with sink:
            sink.add_many(
                face_rows(stack, self.names.of_zones, leave_out=leave_out),
                face_count(stack, leave_out=leave_out),
                self.progress(feedback, 0.85, 1.0),
            )
        label = translate("CourseSurfaces", "Faces of courses, {name}")
        self.named_output(
            context, sink.id, label.format(name=self.design.name), style_faces, self._group()
        )
        return {self.FACES: sink.id}

    def _group(self) -> str:
        return translate("CourseSurfaces", "Courses below {name}").format(name=self.design.name)

    def _load(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        stack: Stack,
        paths: Sequence[str],
    ) -> None:
        """Have the surfaces loaded as one group, the uppermost on top."""
        for interface, path in zip(stack.interfaces, paths, strict=True):
            name = _layer_name(interface, stack)
            self.load_mesh(parameters, self.FOLDER, context, path, name, style_depth_mesh)
            if context.willLoadLayerOnCompletion(path):
                details = context.layerToLoadOnCompletionDetails(path)
                details.groupName = self._group()
                # The greatest key goes on top.
                details.layerSortKey = len(paths) - interface.number + 1


def _layer_name(interface: Interface, stack: Stack) -> str:
    """Return the number of an interface and the courses it is the underside of."""
    courses = list(
        dict.fromkeys(
            section.courses[interface.number - 1].name
            for section in stack.sections
            if len(section.courses) >= interface.number
        )
    )
    told = ", ".join(courses[:MOST_NAMES]) + (", …" if len(courses) > MOST_NAMES else "")
    return translate("CourseSurfaces", "{number} below {courses}").format(
        number=interface.number, courses=told
    )
