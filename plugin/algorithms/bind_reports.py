"""Bind several reports to one."""

from typing import Any

from qgis.core import (
    QgsProcessing,
    QgsProcessingContext,
    QgsProcessingFeedback,
    QgsProcessingOutputNumber,
    QgsProcessingParameterFileDestination,
    QgsProcessingParameterMultipleLayers,
    QgsProcessingParameterString,
)

from ..core.text import translate
from ..documents.binder import bind, read_report
from ..documents.report import write_page
from .base import UndercourseAlgorithm


class BindReports(UndercourseAlgorithm):
    """Reports of several algorithms as one page, all verdicts first."""

    name_id = "bind_reports"
    group_id = "checks"

    REPORTS = "REPORTS"
    TITLE = "TITLE"
    HTML = "HTML"

    def title(self) -> str:
        return translate("BindReports", "Bind reports")

    def summary(self) -> str:
        return translate(
            "BindReports",
            "Makes one report of several: all verdicts first, then each report in the order given.",
        )

    def description(self) -> list[str]:
        return [
            self.summary(),
            translate(
                "BindReports",
                "For a review that is handed over as one file, and at the end of a model. The page holds no script and nothing from elsewhere, and each report starts on a page of its own when printed.",
            ),
        ]

    def keywords(self) -> list[str]:
        return translate("BindReports", "report,HTML,review,join,combine,summary").split(",")

    def initAlgorithm(self, configuration: dict[str, Any] | None = None) -> None:
        self.add(
            QgsProcessingParameterMultipleLayers(
                self.REPORTS,
                translate("BindReports", "Reports"),
                QgsProcessing.SourceType.TypeFile,
            ),
            translate(
                "BindReports",
                "HTML files that algorithms of Undercourse wrote, in the order in which they are to stand.",
            ),
        )
        self.add(
            QgsProcessingParameterString(
                self.TITLE,
                translate("BindReports", "Title"),
                translate("BindReports", "Review"),
            ),
            translate("BindReports", "What the whole is, such as the job and the stage it is at."),
        )
        self.add(
            QgsProcessingParameterFileDestination(
                self.HTML,
                translate("BindReports", "Report"),
                translate("Base", "HTML page") + " (*.html)",
            ),
            translate("BindReports", "The one report of them all."),
        )
        self.addOutput(
            QgsProcessingOutputNumber(
                "FLAGGED_COUNT", translate("BindReports", "Number of reports to be looked at")
            )
        )

    def work(
        self,
        parameters: dict[str, Any],
        context: QgsProcessingContext,
        feedback: QgsProcessingFeedback,
    ) -> dict[str, Any]:
        paths = self.parameterAsFileList(parameters, self.REPORTS, context)
        reports = [read_report(path) for path in paths]
        target = self.file(parameters, self.HTML, context)
        title = self.text(parameters, self.TITLE, context)
        write_page(str(target), bind(title, reports))
        for one in reports:
            if one.flagged:
                self.warn(
                    feedback,
                    translate("BindReports", "“{title}” is to be looked at.").format(
                        title=one.title
                    ),
                )
        return {self.HTML: target, "FLAGGED_COUNT": sum(one.flagged for one in reports)}
