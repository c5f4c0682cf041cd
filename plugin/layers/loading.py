"""How results arrive in the project: names, styles, elevation settings."""

from collections.abc import Callable
from typing import ClassVar

from qgis.core import (
    Qgis,
    QgsMapLayer,
    QgsMeshLayer,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingLayerPostProcessorInterface,
    QgsProcessingUtils,
    QgsWkbTypes,
)

Style = Callable[[QgsMapLayer], None]


class _Finish(QgsProcessingLayerPostProcessorInterface):
    """Calls styles on a layer when it has been loaded.

    QGIS keeps no reference to a Python post-processor, so that this class does, until it ran.
    """

    _waiting: ClassVar[list["_Finish"]] = []
    _MOST = 500

    def __init__(self, styles: list[Style]) -> None:
        super().__init__()
        self._styles = styles
        # Those of runs that never loaded anything must not pile up.
        del self._waiting[: max(0, len(self._waiting) - self._MOST)]
        self._waiting.append(self)

    def postProcessLayer(
        self, layer: QgsMapLayer, context: QgsProcessingContext, feedback: QgsProcessingFeedback
    ) -> None:
        for style in self._styles:
            style(layer)
        layer.triggerRepaint()


def name_output(
    context: QgsProcessingContext,
    destination: str,
    name: str,
    style: Style | None = None,
    group: str = "",
) -> None:
    """Give a result its name and style, if the host is going to load it."""
    if not context.willLoadLayerOnCompletion(destination):
        return
    details = context.layerToLoadOnCompletionDetails(destination)
    details.name = name
    details.forceName = True
    if group:
        details.groupName = group
    details.setPostProcessor(_Finish([heights_in_profiles, *([style] if style else [])]))


def load_mesh(
    context: QgsProcessingContext,
    path: str,
    output: str,
    name: str,
    style: Style | None = None,
    group: str = "",
) -> None:
    """Have a mesh file loaded when the run is over, ready for the elevation profile."""
    details = QgsProcessingContext.LayerDetails(
        name, context.project(), output, QgsProcessingUtils.LayerHint.Mesh
    )
    details.forceName = True
    if group:
        details.groupName = group
    details.setPostProcessor(_Finish([heights_in_profiles, *([style] if style else [])]))
    context.addLayerToLoadOnCompletion(path, details)


def heights_in_profiles(layer: QgsMapLayer) -> None:
    """Set a layer up for QGIS's elevation profile: its own heights, as a line."""
    elevation = layer.elevationProperties()
    if elevation is None:
        return
    if isinstance(layer, QgsMeshLayer):
        elevation.setMode(Qgis.MeshElevationMode.FromVertices)
        elevation.setProfileSymbology(Qgis.ProfileSurfaceSymbology.Line)
        return
    if layer.type() == Qgis.LayerType.Vector and QgsWkbTypes.hasZ(layer.wkbType()):
        elevation.setClamping(Qgis.AltitudeClamping.Absolute)
        elevation.setBinding(Qgis.AltitudeBinding.Vertex)
    elif layer.type() == Qgis.LayerType.Raster:
        elevation.setEnabled(True)
        elevation.setMode(Qgis.RasterElevationMode.RepresentsElevationSurface)
        elevation.setProfileSymbology(Qgis.ProfileSurfaceSymbology.Line)
