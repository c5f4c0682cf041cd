"""What algorithms that write a GeoTIFF ask about it."""

from typing import TYPE_CHECKING, Any

from qgis.core import QgsProcessingContext, QgsProcessingParameterString

from ..core.text import translate
from ..layers.raster_strips import require_options

if TYPE_CHECKING:
    from .base import UndercourseAlgorithm

OPTIONS = "OPTIONS"


def add_creation_options(algorithm: "UndercourseAlgorithm") -> None:
    """Add the creation options of the GeoTIFF to an algorithm."""
    options = QgsProcessingParameterString(
        OPTIONS, translate("Rasters", "Creation options"), "", False, True
    )
    options.setMetadata({"widget_wrapper": {"widget_type": "rasteroptions"}})
    algorithm.add(
        options,
        translate(
            "Rasters",
            "Options of the GeoTIFF driver of GDAL, separated by |, instead of the usual ones (tiles of 256 pixels, lossless compression), e.g. COMPRESS=ZSTD|TILED=YES.",
        ),
        advanced=True,
    )


def creation_options(
    algorithm: "UndercourseAlgorithm", parameters: dict[str, Any], context: QgsProcessingContext
) -> tuple[str, ...] | None:
    """Return the creation options given, or None for the usual ones.

    Raises
    ------
    SurfaceError
        The driver does not know one of them.
    """
    text = algorithm.text(parameters, OPTIONS, context)
    options = tuple(option.strip() for option in text.split("|") if option.strip())
    require_options(options)
    return options or None
