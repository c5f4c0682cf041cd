"""The plugin object: translations, the check of the libraries, the Processing provider."""

from pathlib import Path

from qgis.core import Qgis, QgsApplication, QgsMessageLog
from qgis.gui import QgisInterface
from qgis.PyQt.QtCore import QCoreApplication, QTranslator

from . import environment
from .core import text

_I18N = Path(__file__).parent / "i18n"


class UndercoursePlugin:
    """What QGIS loads; ``iface`` is None in ``qgis_process``."""

    def __init__(self, iface: QgisInterface | None) -> None:  # noqa: QGS105
        self.iface = iface
        self.provider = None
        self.translator: QTranslator | None = None

    def initProcessing(self) -> None:
        """Register the provider, or its stand-in where libraries are missing."""
        self._translate()
        problem = environment.problem()
        if problem is None:
            from .provider import UndercourseProvider

            self.provider = UndercourseProvider()
        else:
            self._tell(problem)
            from .unfit import UnfitProvider

            self.provider = UnfitProvider(problem)
        registry = QgsApplication.processingRegistry()
        if not registry.addProvider(self.provider):
            # Another copy of the plugin is at work; the registry has deleted ours.
            self.provider = None
            return
        # Once more, now that the steps of the models can be found.
        self.provider.refreshAlgorithms()

    def initGui(self) -> None:
        """Start in Desktop."""
        self.initProcessing()

    def unload(self) -> None:
        """Take away everything that was added."""
        if self.provider is not None:
            QgsApplication.processingRegistry().removeProvider(self.provider)
            self.provider = None
        text.use_translator(None)
        if self.translator is not None:
            QCoreApplication.removeTranslator(self.translator)
            self.translator = None

    def _translate(self) -> None:
        """Load the translation of the user's language, if there is one."""
        locale = QgsApplication.instance().locale()
        for name in dict.fromkeys((locale, locale[:2])):
            file = _I18N / f"undercourse_{name}.qm"
            translator = QTranslator()
            if file.exists() and translator.load(str(file)):
                QCoreApplication.installTranslator(translator)
                self.translator = translator
                break
        text.use_translator(QCoreApplication.translate)

    def _tell(self, problem: str) -> None:
        QgsMessageLog.logMessage(problem, "Undercourse", Qgis.MessageLevel.Critical)
        if self.iface is not None:
            self.iface.messageBar().pushMessage(
                "Undercourse", problem, Qgis.MessageLevel.Critical, 0
            )
