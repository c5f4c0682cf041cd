"""Lower a design raster by a depth for each zone."""

import dataclasses
from pathlib import Path
from typing import Any

import numpy as np
import shapely
from qgis.core import (
    Qgis,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterRasterDestination,
    QgsRasterLayer,
)

from ..core.depth.grid import CARRY, FARTHEST, Lowering, Tally
from ..core.depth.manner import Beyond
from ..core.depth.widen import widen
from ..core.depth.zones import Outside, Zones, resolve, snapped
from ..core.errors import SurfaceError
from ..core.grid import Grid
from ..core.text import translate
from ..core.units import describe_length
from ..layers.raster_strips import (
    band_count,
    float_type,
    require_plain_heights,
    stream,
)
from ..layers.rasters import RasterSource, RasterTarget, small_cache
from ..layers.vectors import listed
from ..styles import style_raster_surface
from . import zone_parameters as shared
from .base import UndercourseAlgorithm
from .raster_notes import figures, notes, numbers
from .raster_parameters import OPTIONS, add_creation_options, creation_options
from .zone_inputs import read_zones
from .zone_values import (
    fault_of_zones,
    read_beyond,
    read_ends,
    read_manner,
    read_tolerance,
)

NO_VALUE = -9999.0
"""Nodata value of a result whose design has none."""


class DepthRaster(UndercourseAlgorithm):
    """A raster some depth below a design raster, zone by zone."""

    name_id = "depth_raster"
    group_id = "depth_surfaces"

    DESIGN = "DESIGN"
    ZONES = shared.ZONES
    DEPTH = shared.DEPTH
    DEPTH_FIELD = shared.DEPTH_FIELD
    OUTSIDE = shared.OUTSIDE
    PRIORITY_FIELD = shared.PRIORITY_FIELD
    OPTIONS = OPTIONS
    OUTPUT = "OUTPUT"

    def title(self) -> str:
        return translate("DepthRaster", "Depth surface (raster)")

    def summary(self) -> str:
        return translate(
            "DepthRaster",
            "Makes the surface that lies a given depth below a design raster, zone by zone, on the grid of the design.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "DepthRaster",
                "A pixel belongs to a zone when its centre lies in the zone; a centre exactly on a border belongs to the zone left of it or, where the border runs along the row, below it. Each height becomes height less depth, rounded once to the type of the design (float32 or float64). “Depth surface (TIN)” gives the same heights at pixel centres where the design is a TIN, but for what is said below of slopes and feet taken from pixels.",
            ),
            translate(
                "DepthRaster",
                "The bottom may carry on past the edge of its zone, and its sides climb on a batter until they meet the design or a neighbour. Distances are measured from the pixel's centre to the border itself, never counted in pixels. Counted from the design, the depth lessens by 1 for each run of the ratio. Counted from the level, a side starts from the height of the bottom at the foot of its perpendicular, taken between pixel centres, and is followed pixel by pixel until it meets the surface: where the design breaks sharply at the border, such as at the face of a curb, that height is only as sharp as the pixels.",
            ),
            translate(
                "DepthRaster",
                "A depth square to the slope is turned into a plumb one by √(1 + g²), g being the slope of the design at the pixel by Horn's weights (3 × 3 pixels). This is exact on planes. Within one pixel of a break g is the mean of both sides, and the line in which the two moved planes would meet is missing: use the TIN where that matters.",
            ),
            translate(
                "DepthRaster",
                "Carried on, the design gives pixels without data, in zones and on batters only, the height of the nearest pixel with data continued with its slope, up to {most} pixels away. Nothing lies outside the raster itself.",
            ).format(most=CARRY),
            translate(
                "DepthRaster",
                "CRS, grid and nodata value are those of the design, and other pixels without data stay as they are. Whole-number heights become float32 (8 and 16 bits) or float64. The raster is worked through in windows that do not influence the result, so that its size does not matter.",
            ),
            translate(
                "DepthRaster",
                "Zones must not overlap. Where they do, the run stops and names both and the place, unless a priority field settles which one wins.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "DepthRaster",
            "subgrade,formation,depth,lower,offset,excavation,topsoil,strip,section,batter,side slope,DEM,DTM,GeoTIFF,plumb",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            self.surface(self.DESIGN, translate("DepthRaster", "Design"), ("raster",)),
            translate(
                "DepthRaster",
                "The finished surface: a raster of heights, whose first band is taken. Its CRS must be projected and its rows must not be rotated. For a mesh or polygons take “Depth surface (TIN)”.",
            ),
        )
        shared.add_zone_parameters(self)
        self.add(self.vertical_unit(), advanced=True)
        add_creation_options(self)
        self.add(
            QgsProcessingParameterRasterDestination(
                self.OUTPUT, translate("DepthRaster", "Depth surface")
            ),
            translate(
                "DepthRaster",
                "A GeoTIFF with the grid, CRS, type and nodata value of the design. Its description and metadata say the convention and the unit.",
            ),
        )
        for name, label in numbers().items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        layer = self.parameterAsLayer(parameters, self.DESIGN, context)
        if not isinstance(layer, QgsRasterLayer):
            return translate(
                "DepthRaster",
                "“{name}” is not a raster: take “Depth surface (TIN)” for it, or choose a raster.",
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
        self.raster = self._usable(self.design.data, feedback)
        self.depth = self.length_value(parameters, self.DEPTH, context, self.job.vertical)
        self.outside = Outside(self.word(parameters, self.OUTSIDE, context))
        zones = read_zones(
            self.source(parameters, self.ZONES, context),
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
        self.zones = resolve(zones, self.tolerance)
        for finding in snapped(self.zones):
            self.warn(feedback, finding.why)

    def _usable(self, raster: RasterSource, feedback: QgsProcessingFeedback) -> RasterSource:
        """Return the raster with the CRS of its layer, if its pixels are plain heights."""
        require_plain_heights(raster, self.design.name)
        if band_count(raster) > 1:
            self.warn(
                feedback,
                translate(
                    "DepthRaster", "“{name}” has several bands: the first is taken for heights."
                ).format(name=self.design.name),
            )
        if raster.crs == self.design.crs:
            return raster
        wkt = self.design.crs.toWkt(Qgis.CrsWktVariant.Preferred)
        return dataclasses.replace(raster, crs_wkt=wkt)

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        path = self._destination(parameters, context)
        nodata = self.raster.nodata
        if nodata is None and self.outside is Outside.LEAVE_OUT:
            nodata = NO_VALUE
        kind = float_type(self.raster)
        grid = self.raster.grid
        carry = CARRY if self.beyond is Beyond.CARRY else 0
        dug = widen(self.zones, self.manner, self.tolerance)
        lowering = Lowering(
            dug,
            grid,
            self.outside,
            self.depth or 0.0,
            nodata,
            kind,
            self.manner,
            self.tolerance,
            carry,
        )
        self._warn_beyond(dug, grid, feedback)
        options = creation_options(self, parameters, context)
        target = RasterTarget(path, self.raster, kind, nodata, options)
        target.describe(
            translate("DepthRaster", "Design lowered by zone depths"),
            self.job.vertical.name,
            notes(self.zones, self.outside, self.depth or 0.0, self.manner, self.beyond, self.job),
        )
        if dug.batters.any():
            with small_cache(), self.raster.opened() as source:
                lowering.survey(source.read, self.progress(feedback, 0.05, 0.3))
        progress = self.progress(feedback, 0.3 if dug.batters.any() else 0.05, 1.0)
        # Spans alone take less time than reading and writing.
        workers = 2 if lowering.is_laborious else 1
        stream(self.raster, target, lowering.window, progress, lowering.halo, workers)
        self._tell(lowering.tally, grid, feedback)
        label = translate("DepthRaster", "Depth surface, {name}").format(name=self.design.name)
        self.named_output(context, path, label, style_raster_surface)
        return {self.OUTPUT: path, **figures(lowering.tally, grid, len(self.zones))}

    def _destination(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str:
        path = Path(self.raster_file(parameters, self.OUTPUT, context))
        if path.suffix.lower() not in (".tif", ".tiff"):
            raise SurfaceError(
                translate(
                    "DepthRaster", "“{path}”: the result is a GeoTIFF, give it a name in .tif."
                ).format(path=path)
            )
        if path.exists() and Path(self.raster.uri).exists() and path.samefile(self.raster.uri):
            raise SurfaceError(
                translate(
                    "DepthRaster", "“{path}” is the design itself: give the result another name."
                ).format(path=path)
            )
        return str(path)

    def _warn_beyond(self, dug: Zones, grid: Grid, feedback: QgsProcessingFeedback) -> None:
        """Say which zones reach beyond the raster."""
        right, bottom = (
            grid.left + grid.columns * grid.width,
            grid.top + grid.rows * grid.height,
        )
        sheet = shapely.box(
            min(grid.left, right),
            min(grid.top, bottom),
            max(grid.left, right),
            max(grid.top, bottom),
        )
        polygons = dug.polygons
        beyond = dug.ids[~(shapely.covered_by(polygons, sheet) | shapely.is_empty(polygons))]
        if len(beyond):
            self.warn(
                feedback,
                translate(
                    "DepthRaster",
                    "{count} zones reach beyond the design, where there is no result: {ids}.",
                ).format(count=len(beyond), ids=listed(beyond.tolist())),
            )

    def _tell(self, tally: Tally, grid: Grid, feedback: QgsProcessingFeedback) -> None:
        for row in np.argsort(self.zones.ids, kind="stable")[:100].tolist():
            feedback.pushInfo(
                translate("DepthRaster", "Zone {zone}: depth {depth}, {count} pixels").format(
                    zone=self.zones.ids[row],
                    depth=describe_length(
                        float(self.zones.depths[row] + self.zones.squares[row]), self.job.vertical
                    ),
                    count=int(tally.pixels[row]),
                )
            )
        empty = self.zones.ids[tally.pixels[:-1] == 0]
        if len(empty):
            self.warn(
                feedback,
                translate(
                    "DepthRaster",
                    "{count} zones hold the centre of no pixel with data and changed nothing: {ids}.",
                ).format(count=len(empty), ids=listed(empty.tolist())),
            )
        if tally.sides.any():
            feedback.pushInfo(
                translate("DepthRaster", "Batters: {count} pixels").format(
                    count=int(tally.sides.sum())
                )
            )
        if tally.carried:
            feedback.pushInfo(
                translate(
                    "DepthRaster", "The design was carried on onto {count} pixels without data."
                ).format(count=tally.carried)
            )
        if tally.bare:
            self.warn(
                feedback,
                translate(
                    "DepthRaster",
                    "{count} pixels of zones lie more than {most} pixels from any data and stay without: the design is not carried on that far.",
                ).format(count=tally.bare, most=CARRY),
            )
        if tally.given_up:
            self.warn(
                feedback,
                translate(
                    "DepthRaster",
                    "At {count} places a batter had met nothing after {most} pixels and was cut off: the ground rises as steeply as the batter; make it steeper or count it from the design.",
                ).format(count=tally.given_up, most=FARTHEST),
            )
        if tally.clash is not None:
            row, column = tally.clash
            x = grid.left + (column + 0.5) * grid.width
            y = grid.top + (row + 0.5) * grid.height
            self.warn(
                feedback,
                translate(
                    "DepthRaster",
                    "{count} heights came out as the nodata value and read as missing, the first at {x:.3f}, {y:.3f}: give the design another nodata value.",
                ).format(count=tally.clashes, x=x, y=y),
            )
