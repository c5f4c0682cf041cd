"""Cut and fill between two surfaces, by zone and in total."""

from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFeatureSink,
    QgsProcessingParameterNumber,
    QgsRasterLayer,
)

from ..core.findings import Finding
from ..core.measure.fitness import overlaps_of
from ..core.measure.surfaces import Shows, combined
from ..core.measure.volumes import Factors, bands
from ..core.text import translate
from ..core.tin import Tin
from ..core.tolerance import Tolerance
from ..core.units import METRE, describe_length, parse_length
from ..documents.volumes_report import Names, Parts, sentences, volumes_report
from ..layers.comparing import RasterComparison, TinComparison, compare
from ..layers.crs import describe_crs, require_same_crs
from ..layers.fields import fields
from ..layers.meshes import write_ply
from ..styles import style_cut_fill, style_mesh
from .base import UndercourseAlgorithm
from .measured_zones import add_priority, add_zones, read_measured_zones
from .parameters import about
from .volumes_rows import (
    CELL_COLUMNS,
    SUMMARY_COLUMNS,
    cell_rows,
    number_labels,
    numbers,
    summary_rows,
)


class VolumesBetween(UndercourseAlgorithm):
    """What lies between two surfaces."""

    name_id = "volumes_between"
    group_id = "checks"

    UPPER = "UPPER"
    LOWER = "LOWER"
    BANDS = "BANDS"
    LOOSE = "LOOSE"
    COMPACTED = "COMPACTED"
    SHOWS = "SHOWS"
    CELLS = "CELLS"
    SURFACE = "SURFACE"
    SUMMARY = "SUMMARY"
    HTML = "HTML"

    def title(self) -> str:
        return translate("VolumesBetween", "Volumes between surfaces")

    def summary(self) -> str:
        return translate(
            "VolumesBetween",
            "Measures cut and fill between two surfaces, by zone and in total, exactly for TINs, with polygons of where each is.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "VolumesBetween",
                "Cut is where UPPER lies above LOWER: soil that goes when the ground is brought from UPPER down to LOWER. So UPPER is the ground as it is, LOWER the surface to be made. Fill is where UPPER lies below. Exchanged, cut and fill change places and nothing else.",
            ),
            translate(
                "VolumesBetween",
                "Two TINs: every pair of faces over one another is integrated in closed form, zones cut along their borders; nothing is sampled. With a raster: each pixel with data is a prism over its whole area; it belongs to the zone that holds its centre, a TIN has its exact height at that centre, and a second raster whose pixels do not fit is read between its centres (bilinear). Of two rasters the finer one gives the pixels.",
            ),
            translate(
                "VolumesBetween",
                "Zones must not overlap, unless a priority settles it. The total is that of the zones; what lies outside them is a row of its own. What has no data in one of the surfaces is in no volume, and its share is told.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "VolumesBetween",
            "volume,cut,fill,earthwork,quantities,difference,isopach,bank,loose,compacted,TIN,raster,zones",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            self.surface(self.UPPER, translate("VolumesBetween", "Upper surface (the ground)")),
            translate(
                "VolumesBetween",
                "The surface before the work: cut is where it lies above the lower surface. A mesh, a polygon layer with heights, or a raster, in a projected CRS.",
            ),
        )
        self.add(
            self.surface(self.LOWER, translate("VolumesBetween", "Lower surface (to be made)")),
            translate(
                "VolumesBetween",
                "The surface after the work: fill is where it lies above the upper one. In the same CRS and height unit.",
            ),
        )
        add_zones(
            self,
            translate(
                "VolumesBetween",
                "Polygons by which figures are given. Left blank, all ground that both surfaces cover is measured.",
            ),
        )
        self.add(
            self.length(
                self.BANDS, translate("VolumesBetween", "Interval of bands"), None, optional=True
            ),
            translate(
                "VolumesBetween",
                "Height of the bands of difference into which the cells are divided, e.g. 0.5 ft. Left blank, cells are cut, fill and level.",
            ),
        )
        add_priority(self)
        for name, label, help_text in (
            (
                self.LOOSE,
                translate("VolumesBetween", "Loose volume of one bank volume"),
                translate(
                    "VolumesBetween",
                    "How much soil grows when it is dug, e.g. 1.25: what is cut is a bank volume, in place. 1 leaves it as it is.",
                ),
            ),
            (
                self.COMPACTED,
                translate("VolumesBetween", "Compacted volume of one bank volume"),
                translate(
                    "VolumesBetween",
                    "How much of a bank volume is left when it is placed and compacted, e.g. 0.9: what is filled is a compacted volume. 1 leaves it as it is.",
                ),
            ),
        ):
            real = Qgis.ProcessingNumberParameterType.Double
            number = QgsProcessingParameterNumber(name, label, real, 1.0, False, 0.01, 10.0)
            self.add(number, help_text, advanced=True)
        shows = {
            str(Shows.DIFFERENCE): translate("VolumesBetween", "The difference, upper less lower"),
            str(Shows.HIGHER): translate("VolumesBetween", "The higher of both"),
            str(Shows.LOWER): translate("VolumesBetween", "The lower of both"),
        }
        label = translate("VolumesBetween", "What the surface between shows")
        self.add(
            self.choice(self.SHOWS, label, shows, str(Shows.DIFFERENCE)),
            translate("VolumesBetween", "What the heights of the surface made of both are."),
            advanced=True,
        )
        self.add(self.vertical_unit(), advanced=True)
        self.add(
            QgsProcessingParameterFeatureSink(
                self.CELLS,
                translate("VolumesBetween", "Cut and fill areas"),
                QgsProcessing.SourceType.TypeVectorPolygon,
                None,
                True,
            ),
            translate(
                "VolumesBetween",
                "Polygons, one for each zone and kind (cut, fill, level) or band: zone_id, zone, kind, diff_from and diff_to (upper less lower, in height units; of a band its limits), area, volume (plan units; negative where fill is), volume_yd3, volume_m3.",
            ),
        )
        self.add(
            QgsProcessingParameterFeatureSink(
                self.SUMMARY,
                translate("VolumesBetween", "Table by zone"),
                QgsProcessing.SourceType.TypeVector,
                None,
                True,
            ),
            translate(
                "VolumesBetween",
                "One row for each zone, the total, and what lies outside the zones: areas in plan units, no_data_share in percent, least, mean and greatest difference, cut, fill and net in yd3 and m3, loose and bank volumes by the factors, flag and why.",
            ),
        )
        made = self.mesh_output(
            self.SURFACE, translate("VolumesBetween", "Surface made of both"), optional=True
        )
        made.setCreateByDefault(False)
        self.add(
            made,
            translate(
                "VolumesBetween",
                "A TIN of the difference, the higher or the lower of two TINs over the ground they share, exact: it bends where one of them bends and where they cross. Only for two TINs; zones do not matter.",
            ),
        )
        self.add(
            self.html_output(self.HTML, translate("VolumesBetween", "Report")),
            translate(
                "VolumesBetween",
                "Page that says what cut and fill are with the names of the layers, tables in both systems of units, and a plan.",
            ),
        )
        for name, label in number_labels().items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        text = self.text(parameters, self.BANDS, context)
        if text and parse_length(text, METRE) <= 0:
            return about(
                self.parameterDefinition(self.BANDS),
                translate(
                    "VolumesBetween", "it must be greater than 0, or blank for cut and fill."
                ),
            )
        layers = [self.parameterAsLayer(parameters, n, context) for n in (self.UPPER, self.LOWER)]
        rasters = [one for one in layers if isinstance(one, QgsRasterLayer)]
        if rasters and not self.is_blank(parameters, self.SURFACE):
            return translate(
                "VolumesBetween",
                "“{name}” is a raster, and a surface is made of two TINs only: leave “{label}” blank.",
            ).format(
                name=rasters[0].name(), label=self.parameterDefinition(self.SURFACE).description()
            )
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.upper = self.layer_surface(parameters, self.UPPER, context, feedback)
        self.lower = self.layer_surface(parameters, self.LOWER, context, feedback)
        self.job = self.units(self.upper, parameters, context)
        require_same_crs(self.upper.crs, self.lower.crs, self.lower.name)
        self.measured = read_measured_zones(
            self,
            parameters,
            context,
            feedback,
            crs=self.upper.crs,
            plan=self.job.plan,
            vertical=self.job.vertical,
        )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        tolerance = Tolerance.for_unit(self.job.plan.metres)
        page = self.file(parameters, self.HTML, context)
        zones = self.measured.zones if self.measured else None
        findings = list(self.measured.findings) if self.measured else []
        for surface in (self.upper, self.lower):
            if isinstance(surface.data, Tin):
                findings += overlaps_of(surface.data, surface.name, tolerance)
        progress = self.progress(feedback, 0.05, 0.2)
        comparison = compare(self.upper, self.lower, zones, tolerance, progress)
        z_scale = self.job.vertical.to(self.job.plan)
        volumes = comparison.volumes(z_scale, self.progress(feedback, 0.2, 0.5))
        findings += self._emptiness(float(volumes.total.area[0]))
        for finding in findings:
            self.warn(feedback, finding.why)
        interval = self.length_value(parameters, self.BANDS, context, self.job.vertical)
        wants_cells = not self.is_blank(parameters, self.CELLS)
        classes = comparison.sign
        if interval and wants_cells:
            figures = volumes.figures
            least, most = np.nanmin([*figures.least, 0.0]), np.nanmax([*figures.most, 0.0])
            classes = bands(float(least), float(most), interval, volumes.level)
        sums = shapes = signs = None
        if wants_cells:
            every = np.arange(len(classes))
            share = self.progress(feedback, 0.5, 0.75)
            sums, shapes = comparison.classify(classes, group=every, progress=share)
        if page:
            signs = shapes
            if shapes is None or not classes.level:
                share = self.progress(feedback, 0.75, 0.95)
                _, signs = comparison.classify(comparison.sign, group=np.arange(3), progress=share)
        parts = Parts(
            volumes,
            Factors(
                self.parameterAsDouble(parameters, self.LOOSE, context),
                self.parameterAsDouble(parameters, self.COMPACTED, context),
            ),
            Names(
                self.upper.name,
                self.lower.name,
                self.measured.names if self.measured else (),
            ),
            self.job,
            self._method(comparison),
            findings,
            signs,
            list(zones.polygons) if zones is not None else [],
        )
        for sentence in sentences(parts):
            feedback.pushInfo(sentence)
        results: dict[str, Any] = numbers(parts)
        ids = zones.ids.tolist() if zones is not None else []
        if wants_cells:
            made = cell_rows(parts, ids, sums, shapes, classes)
            results |= self._write_cells(parameters, context, made)
        results |= self._write_summary(parameters, context, summary_rows(parts, ids))
        results |= self._write_surface(parameters, context, feedback)
        if page:
            volumes_report(self._about(), parts).write(page)
            results[self.HTML] = page
        return results

    def _emptiness(self, area: float) -> list[Finding]:
        if area > 0:
            return []
        why = translate(
            "VolumesBetween",
            "“{upper}” and “{lower}” share no ground with data in what was measured: check their place and their zones.",
        ).format(upper=self.upper.name, lower=self.lower.name)
        return [Finding("empty", why)]

    def _write_cells(self, parameters, context, rows) -> dict[str, Any]:
        kind = Qgis.WkbType.MultiPolygon
        columns = fields(*CELL_COLUMNS)
        sink = self.sink(parameters, self.CELLS, context, columns, kind, self.upper.crs)
        with sink:
            sink.add_many(rows)
        name = translate("VolumesBetween", "Cut and fill, {upper} to {lower}")
        self.named_output(
            context,
            sink.id,
            name.format(upper=self.upper.name, lower=self.lower.name),
            style_cut_fill,
        )
        return {self.CELLS: sink.id}

    def _write_summary(self, parameters, context, rows) -> dict[str, Any]:
        kind = Qgis.WkbType.NoGeometry
        columns = fields(*SUMMARY_COLUMNS)
        sink = self.sink(parameters, self.SUMMARY, context, columns, kind, self.upper.crs)
        if sink is None:
            return {}
        with sink:
            sink.add_many(rows)
        name = translate("VolumesBetween", "Volumes, {upper} to {lower}")
        self.named_output(
            context, sink.id, name.format(upper=self.upper.name, lower=self.lower.name)
        )
        return {self.SUMMARY: sink.id}

    def _write_surface(self, parameters, context, feedback) -> dict[str, Any]:
        path = self.file(parameters, self.SURFACE, context)
        if not path:
            return {}
        shows = Shows(self.word(parameters, self.SHOWS, context))
        snap = Tolerance.for_unit(self.job.plan.metres).snap
        share = self.progress(feedback, 0.95, 1.0)
        tin = combined(self.upper.data, self.lower.data, shows, snap, share)
        write_ply(path, tin, self.upper.crs)
        names = {
            Shows.DIFFERENCE: translate("VolumesBetween", "{upper} less {lower}"),
            Shows.HIGHER: translate("VolumesBetween", "Higher of {upper} and {lower}"),
            Shows.LOWER: translate("VolumesBetween", "Lower of {upper} and {lower}"),
        }
        name = names[shows].format(upper=self.upper.name, lower=self.lower.name)
        self.load_mesh(parameters, self.SURFACE, context, path, name, style_mesh)
        return {self.SURFACE: path}

    def _method(self, comparison: TinComparison | RasterComparison) -> str:
        if isinstance(comparison, TinComparison):
            return translate(
                "VolumesBetween",
                "Both surfaces are TINs: every pair of faces over one another was clipped and integrated in closed form, the zones cut along their borders. The result is exact but for the rounding of coordinates.",
            )
        text = translate(
            "VolumesBetween",
            "Prisms over pixels {pixel} wide: each pixel with data in both surfaces counts with its whole area and the difference at its centre, for the zone that holds its centre. A TIN has its exact height there.",
        ).format(pixel=describe_length(comparison.pixel, self.job.plan))
        if comparison.fits:
            return text
        return text + " " + translate("VolumesBetween", "The pixels of the two rasters do not fit: the coarser one was read between its centres, bilinear.")  # noqa: E501  # fmt: skip

    def _about(self) -> list[tuple[str, str]]:
        made = [
            (translate("VolumesBetween", "Upper surface (UPPER)"), self.upper.name),
            (translate("VolumesBetween", "Lower surface (LOWER)"), self.lower.name),
        ]
        if self.measured:
            made.append((translate("VolumesBetween", "Zones"), self.measured.layer))
        return [
            *made,
            (translate("VolumesBetween", "CRS"), describe_crs(self.upper.crs)),
            (translate("VolumesBetween", "Plan unit"), self.job.plan.name),
            (translate("VolumesBetween", "Unit of heights"), self.job.vertical.name),
        ]
