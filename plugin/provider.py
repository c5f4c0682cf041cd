"""The list of algorithms and models that QGIS finds under "Undercourse"."""

import importlib
from pathlib import Path

from qgis.core import (
    QgsApplication,
    QgsMessageLog,
    QgsProcessingProvider,
)
from qgis.PyQt.QtGui import QIcon

from .core.text import translate

_HERE = Path(__file__).parent

ALGORITHMS = (
    ("read_landxml", "ReadLandXml"),
    ("check_design", "CheckDesign"),
    ("build_tin", "BuildTin"),
    ("extend_surface", "ExtendSurface"),
    ("depth_tin", "DepthTin"),
    ("depth_raster", "DepthRaster"),
    ("tin_to_raster", "TinToRaster"),
    ("course_surfaces", "CourseSurfaces"),
    ("orient_lines", "OrientLines"),
    ("guidelines", "Guidelines"),
    ("check_sides", "CheckSides"),
    ("pass_lines", "PassLines"),
    ("stake_points", "StakePoints"),
    ("station_offset", "StationOffset"),
    ("slope_breaks", "SlopeBreaks"),
    ("volumes_between", "VolumesBetween"),
    ("bind_reports", "BindReports"),
    ("check_depth", "CheckDepth"),
    ("check_grades", "CheckGrades"),
    ("cross_sections", "CrossSections"),
)


class UndercourseProvider(QgsProcessingProvider):
    """Gives the algorithms and models to QGIS."""

    def id(self) -> str:
        return "undercourse"

    def name(self) -> str:
        return "Undercourse"

    def longName(self) -> str:
        return translate("Base", "Undercourse: depth surfaces, guidelines and slope breaks")

    def icon(self) -> QIcon:
        return QIcon(self.svgIconPath())

    def svgIconPath(self) -> str:
        return str(_HERE / "icons" / "undercourse.svg")

    def loadAlgorithms(self) -> None:
        for module, name in ALGORITHMS:
            # Not at the head: this list is also read where numpy or shapely are missing.
            found = importlib.import_module(f".algorithms.{module}", __package__)
            self.addAlgorithm(getattr(found, name)())
        self._load_models()

    def _load_models(self) -> None:
        """Add the models of the plugin.

        A model looks its steps up in the registry, so that they load only once this provider
        is in it: the plugin refreshes the provider after adding it.
        """
        from .algorithms.model import BundledModel

        registry = QgsApplication.processingRegistry()
        if registry is None or registry.providerById(self.id()) is None:
            return
        for path in sorted((_HERE / "models").glob("*.model3")):
            model = BundledModel(path)
            if model.loaded:
                self.addAlgorithm(model)
            else:
                QgsMessageLog.logMessage(
                    translate("Base", "The model {path} cannot be loaded.").format(path=path.name),
                    self.name(),
                )
