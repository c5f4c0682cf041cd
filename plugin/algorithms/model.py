"""Models that come with the plugin, under stable ids."""

from pathlib import Path

from qgis.core import QgsProcessingModelAlgorithm
from qgis.PyQt.QtGui import QIcon

_ICON = Path(__file__).parent.parent / "icons" / "undercourse.svg"


class BundledModel(QgsProcessingModelAlgorithm):
    """A model whose id is the name of its file; people see the name that stands in it."""

    def __init__(self, path: Path) -> None:
        super().__init__()
        self.path = path
        self.loaded = self.fromFile(str(path))

    def createInstance(self) -> "BundledModel":
        made = BundledModel(self.path)
        made.setProvider(self.provider())
        return made

    def name(self) -> str:
        return self.path.stem

    def displayName(self) -> str:
        return super().name()

    def svgIconPath(self) -> str:
        return str(_ICON)

    def icon(self) -> QIcon:
        return QIcon(str(_ICON))
