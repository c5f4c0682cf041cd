"""The report of a built surface."""

from collections.abc import Sequence

from ..core.findings import Finding
from ..core.text import translate
from .build_plan import BuildPlan, draw
from .report import Report

MOST_ROWS = 400


def build_report(
    about: Sequence[tuple[str, str]],
    verdict: Sequence[str],
    figures: Sequence[tuple[str, str]],
    findings: Sequence[Finding],
    plan: BuildPlan,
) -> Report:
    """Build the report: what was built and whether it can be trusted, places, plan, figures."""
    report = Report(translate("Report", "Surface of points and breaklines"), about)
    report.verdict(*verdict, flagged=bool(findings))
    if findings:
        report.heading(translate("Report", "To be looked at"))
        report.table(
            (
                translate("Report", "No."),
                translate("Report", "Flag"),
                translate("Report", "Why"),
                translate("Report", "Where"),
            ),
            [
                (
                    number,
                    one.code,
                    one.why,
                    "{:.3f}, {:.3f}".format(*one.place) if one.place else "",
                )
                for number, one in enumerate(findings[:MOST_ROWS], 1)
            ],
            numeric=(0,),
            sentences=(2,),
        )
        if len(findings) > MOST_ROWS:
            report.paragraph(
                translate("Report", "The first {most} of {count}; the layer holds all.").format(
                    most=MOST_ROWS, count=len(findings)
                )
            )
    report.heading(translate("Report", "Plan"))
    report.svg(
        draw(plan),
        translate(
            "Report",
            "North is up. Dark: the breaklines, dotted where they were left out. Dashed: where the surface ends. Pale: its faces. Crosses: the places to be looked at, by their numbers.",
        ),
    )
    report.heading(translate("Report", "Figures"))
    report.table((translate("Report", "What"), translate("Report", "Value")), figures, numeric=(1,))
    return report
