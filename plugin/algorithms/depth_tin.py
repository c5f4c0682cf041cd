"""Lower a design TIN by a depth for each zone."""

from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterField,
    QgsRasterLayer,
)

from ..core.depth.surface import DepthSurface, depth_surface
from ..core.depth.zones import Outside
from ..core.text import translate
from ..documents.depth_report import write_report
from ..layers.crs import JobUnits
from ..layers.fields import fields
from ..layers.meshes import write_ply
from ..layers.tables import texts_of, usual_field
from ..styles import style_depth_faces, style_depth_mesh
from . import zone_parameters as shared
from .base import UndercourseAlgorithm
from .depth_rows import COLUMNS, depths_of_faces, face_rows, figures
from .zone_inputs import read_zones
from .zone_values import fault_of_zones, read_beyond, read_ends, read_manner, read_tolerance


class DepthTin(UndercourseAlgorithm):
    """A surface some depth below a design, zone by zone."""

    name_id = "depth_tin"
    group_id = "depth_surfaces"

    DESIGN = "DESIGN"
    ZONES = shared.ZONES
    DEPTH = shared.DEPTH
    DEPTH_FIELD = shared.DEPTH_FIELD
    OUTSIDE = shared.OUTSIDE
    PRIORITY_FIELD = shared.PRIORITY_FIELD
    NAME_FIELD = "NAME_FIELD"
    TIN = "TIN"
    FACES = "FACES"
    HTML = "HTML"

    def title(self) -> str:
        return translate("DepthTin", "Depth surface (TIN)")

    def summary(self) -> str:
        return translate(
            "DepthTin",
            "Makes the surface that lies a given depth below a design, zone by zone, as a TIN that fits without cracks.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "DepthTin",
                "The borders of the zones are cut exactly into the design: every bottom keeps the planes of the design, moved straight down by the depth of its zone, or at right angles by a thickness measured square to the slope.",
            ),
            translate(
                "DepthTin",
                "Bottoms may carry on past the edge of their zone; where they meet, the deeper one wins. From the edge of a bottom the side climbs on its batter until it meets the design or a neighbour’s surface. A side without a batter is a step: a face in the deeper zone that runs 0.001 of the plan unit. It stands for an upright side, not for a slope that will hold.",
            ),
            translate(
                "DepthTin",
                "Zones must not overlap. Where they do, the run stops and names both and the place, unless a priority field settles which one wins.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "DepthTin",
            "subgrade,formation,depth,lower,offset,excavation,topsoil,strip,section,TIN,mesh,plumb,square,thickness,batter,side slope,widen,daylight,extend",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self._add_inputs()
        self.add(
            self.mesh_output(self.TIN, translate("DepthTin", "Depth surface")),
            translate(
                "DepthTin",
                "The surface as a mesh file, exact to the last digit, with the depth, the zone and the part (0 design, 1 bottom, 2 step, 3 batter) of each face as datasets.",
            ),
        )
        self.add(
            QgsProcessingParameterFeatureSink(
                self.FACES,
                translate("DepthTin", "Faces"),
                QgsProcessing.SourceType.TypeVectorPolygon,
                None,
                True,
                False,
            ),
            translate(
                "DepthTin",
                "One triangle with heights a feature, with the fields: zone (feature id, empty outside all), name, depth (plumb, mean of the corners, + below the design), depth_min and depth_max of the corners, part (design, bottom, step, batter), parent (face of the design, from 1), flag and why for faces to look at.",
            ),
        )
        self.add(
            self.html_output(self.HTML, translate("DepthTin", "Report")),
            translate(
                "DepthTin",
                "A page with depth, side, areas and volume of each zone, a plan, drawn sections, what was flagged, and the cautions.",
            ),
        )
        for name, label in _numbers().items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def _add_inputs(self) -> None:
        self.add(
            self.surface(self.DESIGN, translate("DepthTin", "Design"), ("tin",)),
            translate(
                "DepthTin",
                "The finished surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected. For a raster take “Depth surface (raster)”.",
            ),
        )
        shared.add_zone_parameters(self)
        self.add(
            QgsProcessingParameterField(
                self.NAME_FIELD,
                translate("DepthTin", "Field with the name of each zone"),
                None,
                self.ZONES,
                Qgis.ProcessingFieldParameterDataType.Any,
                False,
                True,
            ),
            translate(
                "DepthTin",
                "What people call each zone, for the report and the faces. Left blank, a field called “name” is used if there is one.",
            ),
            advanced=True,
        )
        self.add(self.vertical_unit(), advanced=True)

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        layer = self.parameterAsLayer(parameters, self.DESIGN, context)
        if isinstance(layer, QgsRasterLayer):
            return translate(
                "DepthTin",
                "“{name}” is a raster: take “Depth surface (raster)” for it, or choose a mesh or polygons with heights.",
            ).format(name=layer.name())
        return fault_of_zones(self, parameters, context)

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.design = self.layer_surface(parameters, self.DESIGN, context, feedback)
        self.job = self.units(self.design, parameters, context)
        self.depth = self.length_value(parameters, self.DEPTH, context, self.job.vertical)
        source = self.source(parameters, self.ZONES, context)
        self.zones_name = source.sourceName()
        self.zones = read_zones(
            source,
            shared.depth_field(self, parameters, context),
            self.depth,
            self.text(parameters, self.PRIORITY_FIELD, context),
            unit=self.job.vertical,
            crs=self.design.crs,
            ends=read_ends(self, parameters, context, self.job),
            context=context,
            feedback=feedback,
        )
        self.manner = read_manner(self, parameters, context, self.job)
        self.beyond = read_beyond(self, parameters, context)
        self.tolerance = read_tolerance(self, parameters, context, self.job)
        field = self.text(parameters, self.NAME_FIELD, context)
        self.names = texts_of(source, field or usual_field(source, "name"), self.zones.ids)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        mesh_path = self.file(parameters, self.TIN, context)
        html_path = self.file(parameters, self.HTML, context)
        outside = Outside(self.word(parameters, self.OUTSIDE, context))
        surface = depth_surface(
            self.design.data,
            self.zones,
            outside,
            self.depth or 0.0,
            self.tolerance,
            manner=self.manner,
            beyond=self.beyond,
            progress=self.progress(feedback, 0.05, 0.6),
        )
        for finding in surface.findings:
            self.warn(feedback, finding.why)
        depths = depths_of_faces(surface, self.zones, outside, self.depth or 0.0)
        results = figures(surface, len(self.zones))
        results.update(
            self._write_mesh(parameters, context, surface, depths, mesh_path),
        )
        if html_path:
            write_report(
                html_path,
                surface,
                self.zones,
                outside,
                self.depth or 0.0,
                self.job,
                self.manner,
                design=self.design,
                zones_name=self.zones_name,
                names=self.names,
            )
            results[self.HTML] = html_path
        sink = self.sink(
            parameters,
            self.FACES,
            context,
            fields(*COLUMNS),
            Qgis.WkbType.PolygonZ,
            self.design.crs,
        )
        if sink is not None:
            with sink:
                sink.add_many(
                    face_rows(surface, self.zones, self.names, depths),
                    len(surface.zone),
                    self.progress(feedback, 0.65, 1.0),
                )
            label = translate("DepthTin", "Depth faces, {name}").format(name=self.design.name)
            self.named_output(context, sink.id, label, style_depth_faces)
            results[self.FACES] = sink.id
        self._tell(results, self.job, feedback)
        return results

    def _write_mesh(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        surface: DepthSurface,
        depths: np.ndarray,
        path: str | None,
    ) -> dict[str, Any]:
        if path is None:
            return {}
        ids = np.append(self.zones.ids, -1)
        values = {
            "depth": depths[:, 0],
            "zone": ids[surface.zone].astype(float),
            "part": surface.part.astype(float),
        }
        write_ply(path, surface.tin, self.design.crs, values)
        label = translate("DepthTin", "Depth surface, {name}").format(name=self.design.name)
        self.load_mesh(parameters, self.TIN, context, path, label, style_depth_mesh)
        return {self.TIN: path}

    def _tell(
        self, results: dict[str, Any], units: JobUnits, feedback: QgsProcessingFeedback
    ) -> None:
        feedback.pushInfo(
            translate(
                "DepthTin",
                "{faces} faces; volume below the design {below:.2f}, above it {above:.2f} cubic {unit}; zone borders moved by at most {move:.2g} {unit}.",
            ).format(
                faces=results["FACE_COUNT"],
                below=results["VOLUME_BELOW"],
                above=results["VOLUME_ABOVE"],
                move=results["LARGEST_MOVE"],
                unit=units.plan.symbol,
            )
        )


def _numbers() -> dict[str, str]:
    return {
        "ZONE_COUNT": translate("DepthTin", "Number of zones"),
        "FACE_COUNT": translate("DepthTin", "Number of faces"),
        "PLAN_AREA": translate("DepthTin", "Plan area of the zones"),
        "SLOPED_AREA": translate("DepthTin", "Area of the zones on the slope, without steps"),
        "AREA_BOTTOM": translate("DepthTin", "Plan area of the bottoms"),
        "AREA_BATTER": translate("DepthTin", "Plan area of the batters"),
        "AREA_CARRIED": translate("DepthTin", "Plan area past the edge of the design"),
        "VOLUME_BELOW": translate("DepthTin", "Volume between the design and what lies below it"),
        "VOLUME_ABOVE": translate("DepthTin", "Volume between the design and what lies above it"),
        "LARGEST_MOVE": translate("DepthTin", "Largest move of a zone border"),
        "LEAST_RUN": translate("DepthTin", "Run of the narrowest step (empty without steps)"),
        "LARGEST_RESIDUAL": translate(
            "DepthTin", "Largest miss of a thickness square to the slope"
        ),
        "FLAG_COUNT": translate("DepthTin", "Things that may be wrong"),
    }
