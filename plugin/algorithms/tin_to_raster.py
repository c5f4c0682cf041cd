"""Lay a TIN on a raster, heights at the centres of the pixels."""

from pathlib import Path
from typing import Any

import numpy as np
from qgis.core import (
    Qgis,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterExtent,
    QgsProcessingParameterRasterDestination,
    QgsProcessingParameterRasterLayer,
)

from ..core.errors import SurfaceError
from ..core.grid import Grid
from ..core.text import translate
from ..core.tin.scan import Scan
from ..core.units import describe_length
from ..layers.crs import require_same_crs
from ..layers.raster_writing import write_strips
from ..layers.rasters import RasterSource, RasterTarget
from ..styles import style_raster_surface
from .base import UndercourseAlgorithm
from .raster_parameters import OPTIONS, add_creation_options, creation_options

NO_VALUE = -9999.0
_LOWEST = float(np.finfo(np.float32).min)
_MOST_PIXELS_A_SIDE = 1_000_000


class TinToRaster(UndercourseAlgorithm):
    """The heights of a TIN at the centres of pixels."""

    name_id = "tin_to_raster"
    group_id = "depth_surfaces"

    DESIGN = "DESIGN"
    PIXEL = "PIXEL"
    TEMPLATE = "TEMPLATE"
    EXTENT = "EXTENT"
    TYPE = "TYPE"
    OPTIONS = OPTIONS
    OUTPUT = "OUTPUT"

    def title(self) -> str:
        return translate("TinToRaster", "TIN to raster")

    def summary(self) -> str:
        return translate(
            "TinToRaster",
            "Lays a TIN on a raster: each pixel gets the exact height of the surface at the centre of the pixel.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "TinToRaster",
                "A pixel has a height when its centre lies on the surface, its border included; all others, also those over holes, have no data. Heights are worked out in double precision from the plane of the face that holds the centre and rounded once to the type of the raster. Where faces lie over one another, the highest counts.",
            ),
            translate(
                "TinToRaster",
                "The pixel size is kept exactly as given. The borders of the raster are multiples of the pixel size, so that rasters of one pixel size fit each other; or the grid of a template raster is taken over, to the last digit. The raster is made strip by strip, so that its size does not matter.",
            ),
            translate(
                "TinToRaster",
                "A pixel smooths over everything smaller than itself: an upright side or a curb shows as a jump between two pixels. Where this matters to the work, keep the TIN.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate(
            "TinToRaster",
            "rasterise,rasterize,grid,DEM,DTM,mesh,GeoTIFF,elevation,heights,convert,pixel,template",
        ).split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            self.surface(self.DESIGN, translate("TinToRaster", "Surface"), ("tin",)),
            translate(
                "TinToRaster",
                "The surface: a mesh layer, or a polygon layer with heights (triangles or planar faces). Its CRS must be projected.",
            ),
        )
        self.add(
            self.length(
                self.PIXEL, translate("TinToRaster", "Pixel size"), optional=True, plan=True
            ),
            translate(
                "TinToRaster",
                "Side of the square pixels, with a unit or in the unit of the CRS: 0.5, 0.25 m, 6 in. Leave it blank where a template gives the pixels.",
            ),
        )
        self.add(
            QgsProcessingParameterRasterLayer(
                self.TEMPLATE, translate("TinToRaster", "Template raster"), None, True
            ),
            translate(
                "TinToRaster",
                "A raster whose grid is taken over exactly: the same pixels, in the same place. Only its grid counts, not its values. It must have the CRS of the surface and must not be rotated.",
            ),
        )
        self.add(
            QgsProcessingParameterExtent(
                self.EXTENT, translate("TinToRaster", "Extent"), None, True
            ),
            translate(
                "TinToRaster",
                "What the raster covers at least. It is widened to whole pixels: to multiples of the pixel size, or to the pixels of the template carried on. Left blank, it is the extent of the template, or else that of the surface.",
            ),
        )
        self.add(
            self.choice(
                self.TYPE,
                translate("TinToRaster", "Type of the heights"),
                {
                    "float32": translate("TinToRaster", "float32 (7 digits)"),
                    "float64": translate("TinToRaster", "float64 (15 digits, twice the size)"),
                },
                "float32",
            ),
            translate(
                "TinToRaster",
                "How many digits a height has. float32 keeps 0.06 mm at heights below 1,000 and is what most programs expect.",
            ),
            advanced=True,
        )
        self.add(self.vertical_unit(), advanced=True)
        add_creation_options(self)
        self.add(
            QgsProcessingParameterRasterDestination(
                self.OUTPUT, translate("TinToRaster", "Raster of heights")
            ),
            translate(
                "TinToRaster",
                "A tiled GeoTIFF in the CRS of the surface, without data where there is no surface. Its metadata say the unit and how a pixel gets its height.",
            ),
        )
        for name, label in _numbers().items():
            self.addOutput(QgsProcessingOutputNumber(name, label))

    def check(self, parameters: dict[str, Any], context: QgsProcessingContext) -> str | None:
        pixel = self.text(parameters, self.PIXEL, context)
        template = not self.is_blank(parameters, self.TEMPLATE)
        if bool(pixel) == template:
            if template:
                return translate(
                    "TinToRaster",
                    "Pixel size and template are both given: leave one of them blank, since the template has its own pixels.",
                )
            return translate("TinToRaster", "Give the pixel size, or a template raster.")
        return None

    def read(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> None:
        self.design = self.layer_surface(parameters, self.DESIGN, context, feedback)
        self.job = self.units(self.design, parameters, context)
        self.grid = self._grid(parameters, context)
        surface = self.design.data.extent
        extent = self.grid.extent
        if (
            extent[0] > surface[2]
            or extent[2] < surface[0]
            or extent[1] > surface[3]
            or extent[3] < surface[1]
        ):
            raise SurfaceError(
                translate(
                    "TinToRaster",
                    "The raster would not touch the surface, which lies between x {xmin:.2f} and {xmax:.2f}, y {ymin:.2f} and {ymax:.2f}: check extent and template.",
                ).format(xmin=surface[0], ymin=surface[1], xmax=surface[2], ymax=surface[3])
            )

    def _grid(self, parameters: dict[str, Any], context: QgsProcessingContext) -> Grid:
        rectangle = self.parameterAsExtent(parameters, self.EXTENT, context, self.design.crs)
        asked = None
        if not rectangle.isNull() and not rectangle.isEmpty():
            asked = (
                rectangle.xMinimum(),
                rectangle.yMinimum(),
                rectangle.xMaximum(),
                rectangle.yMaximum(),
            )
        layer = self.parameterAsRasterLayer(parameters, self.TEMPLATE, context)
        if layer is None and not self.is_blank(parameters, self.TEMPLATE):
            raise self.cannot_open(parameters, self.TEMPLATE)
        if layer is not None:
            require_same_crs(self.design.crs, layer.crs(), layer.name())
            source = RasterSource.from_layer(layer)
            if source.is_rotated:
                raise SurfaceError(
                    translate(
                        "TinToRaster",
                        "The template “{name}” is rotated: choose a raster whose rows run along x.",
                    ).format(name=layer.name())
                )
            left, width, _, top, _, height = source.transform
            grid = Grid(left, top, width, height, source.width, source.height)
            return grid if asked is None else _limited(grid.aligned(asked))
        pixel = self.length_value(parameters, self.PIXEL, context, self.job.plan)
        if pixel is None or pixel <= 0.0:
            raise SurfaceError(
                translate("TinToRaster", "The pixel size must be greater than zero.")
            )
        return _limited(Grid.covering(asked or self.design.data.extent, pixel))

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        path = self.raster_file(parameters, self.OUTPUT, context)
        self._refuse_path(path, parameters, context)
        tin, grid = self.design.data, self.grid
        kind = np.dtype(self.word(parameters, self.TYPE, context))
        low, high = float(tin.vertices[:, 2].min()), float(tin.vertices[:, 2].max())
        nodata = _LOWEST if low - 1.0 <= NO_VALUE <= high + 1.0 else NO_VALUE
        options = creation_options(self, parameters, context)
        target = RasterTarget(path, self._like(kind, nodata), kind, nodata, options)
        target.describe(
            translate("TinToRaster", "Heights of a TIN at pixel centres"),
            self.job.vertical.name,
            self._notes(),
        )
        progress = self.progress(feedback, 0.05, 1.0)
        progress(0.0)
        scan = Scan(tin, grid)
        count, lowest, highest = 0, np.inf, -np.inf

        def make(row: int, rows: int) -> np.ndarray:
            nonlocal count, lowest, highest
            heights = scan.heights(row, rows)
            missing = np.isnan(heights)
            some = heights.size - int(np.count_nonzero(missing))
            if some:
                count += some
                lowest = min(lowest, float(np.nanmin(heights)))
                highest = max(highest, float(np.nanmax(heights)))
            heights[missing] = nodata
            return heights.astype(kind, copy=False)

        write_strips(target, make, progress)
        self._tell(count, feedback)
        label = translate("TinToRaster", "Heights, {name}").format(name=self.design.name)
        self.named_output(context, path, label, style_raster_surface)
        return {
            self.OUTPUT: path,
            "COLUMNS": grid.columns,
            "ROWS": grid.rows,
            "PIXEL_COUNT": count,
            "COVERED_AREA": count * grid.pixel_area,
            "LOWEST": lowest if count else None,
            "HIGHEST": highest if count else None,
        }

    def _refuse_path(
        self, path: str, parameters: dict[str, Any], context: QgsProcessingContext
    ) -> None:
        if Path(path).suffix.lower() not in (".tif", ".tiff"):
            raise SurfaceError(
                translate(
                    "TinToRaster", "“{path}”: the result is a GeoTIFF, give it a name in .tif."
                ).format(path=path)
            )
        layer = self.parameterAsRasterLayer(parameters, self.TEMPLATE, context)
        given = Path("" if layer is None else layer.source())
        if given.is_file() and Path(path).exists() and given.samefile(path):
            raise SurfaceError(
                translate(
                    "TinToRaster", "“{path}” is the template itself: give the result another name."
                ).format(path=path)
            )

    def _like(self, kind: np.dtype, nodata: float) -> RasterSource:
        """Return the place of the result as a raster that does not exist yet."""
        grid = self.grid
        wkt = self.design.crs.toWkt(Qgis.CrsWktVariant.Preferred)
        place = (grid.left, grid.width, 0.0, grid.top, 0.0, grid.height)
        return RasterSource("", 1, grid.columns, grid.rows, place, nodata, kind, (256, 256), wkt)

    def _notes(self) -> dict[str, str]:
        """Return what the file says of itself; English, since programs read it."""
        return {
            "CONTENT": "heights of a triangulated surface",
            "PIXEL_RULE": "height of the surface at the centre of the pixel; nodata off the surface",
            "PIXEL_SIZE": f"{abs(self.grid.width)!r} x {abs(self.grid.height)!r}",
            "PLAN_UNIT": self.job.plan.name,
            "VERTICAL_UNIT": self.job.vertical.name,
        }

    def _tell(self, count: int, feedback: QgsProcessingFeedback) -> None:
        grid = self.grid
        feedback.pushInfo(
            translate(
                "TinToRaster", "{columns} x {rows} pixels of {pixel}, {count} of them with a height"
            ).format(
                columns=grid.columns,
                rows=grid.rows,
                pixel=describe_length(abs(grid.width), self.job.plan),
                count=count,
            )
        )
        if not count:
            self.warn(
                feedback,
                translate(
                    "TinToRaster",
                    "No pixel has its centre on the surface: take smaller pixels, or check the extent.",
                ),
            )


def _limited(grid: Grid) -> Grid:
    if max(grid.columns, grid.rows) > _MOST_PIXELS_A_SIDE:
        raise SurfaceError(
            translate(
                "TinToRaster",
                "The raster would have {columns} x {rows} pixels: give a larger pixel size or a smaller extent.",
            ).format(columns=grid.columns, rows=grid.rows)
        )
    return grid


def _numbers() -> dict[str, str]:
    return {
        "COLUMNS": translate("TinToRaster", "Number of columns"),
        "ROWS": translate("TinToRaster", "Number of rows"),
        "PIXEL_COUNT": translate("TinToRaster", "Pixels with a height"),
        "COVERED_AREA": translate("TinToRaster", "Plan area of these pixels"),
        "LOWEST": translate("TinToRaster", "Lowest height"),
        "HIGHEST": translate("TinToRaster", "Highest height"),
    }
