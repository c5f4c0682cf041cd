"""Write the models of the plugin to plugin/models/, and the same to sample_project/models/.

Run with the environment of run.sh, in which the plugin is loaded.
"""

import os
import sys
from pathlib import Path

from qgis.core import (
    Qgis,
    QgsApplication,
    QgsProcessing,
    QgsProcessingModelAlgorithm,
    QgsProcessingModelChildAlgorithm,
    QgsProcessingModelChildParameterSource,
    QgsProcessingModelComment,
    QgsProcessingModelOutput,
    QgsProcessingModelParameter,
    QgsProcessingParameterCrs,
    QgsProcessingParameterEnum,
    QgsProcessingParameterExpression,
    QgsProcessingParameterFeatureSource,
    QgsProcessingParameterField,
    QgsProcessingParameterFile,
    QgsProcessingParameterMapLayer,
    QgsProcessingParameterNumber,
    QgsProcessingParameterString,
)
from qgis.PyQt.QtCore import QPointF, QSizeF, Qt
from qgis.PyQt.QtGui import QColor

HERE = Path(__file__).resolve().parent
TARGETS = (HERE.parent / "plugin" / "models", HERE / "models")
OPTIONAL = Qgis.ProcessingParameterFlag.Optional
READ, WORK = "#d9e2ec", "#ecdfc4"
BOX = QSizeF(240.0, 40.0)


def value(of):
    return QgsProcessingModelChildParameterSource.fromStaticValue(of)


def given(name):
    return QgsProcessingModelChildParameterSource.fromModelParameter(name)


def with_default(name, default):
    """Take an input of the model, or its default.

    QGIS hands only given inputs on: when a script leaves one out, the step would fall back on its
    own default and not on that of the model.
    """
    text = str(default).replace("'", "''")
    literal = text if isinstance(default, (int, float)) else f"'{text}'"
    return QgsProcessingModelChildParameterSource.fromExpression(f"coalesce(@{name}, {literal})")


def result(child, output):
    return QgsProcessingModelChildParameterSource.fromChildOutput(child, output)


class Model:
    """A model in the making: inputs in the left column, steps to the right of them."""

    def __init__(self, name, group, help_texts):
        self.model = QgsProcessingModelAlgorithm(name, group)
        self.help_texts = help_texts
        self.order = []

    def add_input(self, parameter, row, help_text):
        self.help_texts[parameter.name()] = help_text  # QGIS keeps no other help in a model
        part = QgsProcessingModelParameter(parameter.name())
        part.setPosition(QPointF(160.0, 80.0 + 75.0 * row))
        part.setSize(BOX)
        self.model.addModelParameter(parameter, part)
        self.order.append(parameter.name())

    def add_step(self, step, algorithm, title, place, parameters, outputs, colour, note):
        child = QgsProcessingModelChildAlgorithm(f"undercourse:{algorithm}")
        child.setChildId(step)
        child.setDescription(title)
        child.setPosition(QPointF(*place))
        child.setSize(BOX)
        child.setColor(QColor(colour))
        child.setLinksCollapsed(Qt.Edge.TopEdge, True)
        child.setLinksCollapsed(Qt.Edge.BottomEdge, True)
        for name, source in parameters.items():
            child.addParameterSources(name, source if isinstance(source, list) else [source])
        comment = QgsProcessingModelComment(note)
        comment.setPosition(QPointF(place[0], place[1] - 80.0))
        comment.setSize(QSizeF(BOX.width(), 44.0))
        child.setComment(comment)
        results = {}
        for row, (output, label) in enumerate(outputs.items()):
            one = QgsProcessingModelOutput(label)
            one.setDescription(label)
            one.setChildId(step)
            one.setChildOutputName(output)
            one.setPosition(QPointF(place[0] + 330.0, place[1] + 60.0 * row))
            one.setSize(BOX)
            results[label] = one
        child.setModelOutputs(results)
        self.model.addChildAlgorithm(child)

    def write(self, file_name):
        self.model.setHelpContent(self.help_texts)
        self.model.setParameterOrder(self.order)
        self.model.updateDestinationParameters()
        fine, problems = self.model.validate()
        if not fine:
            raise SystemExit(f"{file_name}: {'; '.join(problems)}")
        for folder in TARGETS:
            folder.mkdir(exist_ok=True)
            if not self.model.toFile(str(folder / file_name)):
                raise SystemExit(f"{folder / file_name} cannot be written")
        print(f"{file_name}: {len(self.model.childAlgorithms())} steps")


def sides():
    return ["toward", "away"]


def depth_surfaces_and_guidelines():
    model = Model(
        "Depth surfaces and guidelines from one design",
        "Whole jobs",
        {
            "ALG_DESC": "Reads a LandXML design, moves it down by the depth of each zone, and lays"
            " guidelines beside the lines to hold, on the side of a reference line that is stated."
            " Run it again when the design changes. Before machines are steered by the results:"
            " locate buried utilities, protect every excavation, and check height and side on a"
            " known point.",
        },
    )
    lines = QgsProcessing.SourceType.TypeVectorLine
    rows = (
        (
            QgsProcessingParameterFile("DESIGN_FILE", "Design (LandXML)", extension="xml"),
            "The file with the finished grade.",
        ),
        (
            QgsProcessingParameterString("SURFACE_NAME", "Name of the surface", None, False, True),
            "Which surface of the file; blank where it holds only one.",
        ),
        (
            QgsProcessingParameterCrs("CRS", "CRS of the design", None, True),
            "Projected; blank takes the one that the file states.",
        ),
        (
            QgsProcessingParameterFeatureSource(
                "ZONES", "Zones", [QgsProcessing.SourceType.TypeVectorPolygon]
            ),
            "One polygon for each zone. Where zones lie over each other, the priority decides.",
        ),
        (
            QgsProcessingParameterField("DEPTH_FIELD", "Field with the depth", "depth", "ZONES"),
            "Depth below the design, positive down: 0.2 ft, 2.4 in, 60 mm; or in the heights' unit.",
        ),
        (
            QgsProcessingParameterField(
                "PRIORITY_FIELD",
                "Field with the priority",
                None,
                "ZONES",
                Qgis.ProcessingFieldParameterDataType.Numeric,
                optional=True,
            ),
            "The lower number wins where zones overlap; without it an overlap is refused.",
        ),
        (
            QgsProcessingParameterFeatureSource("LINES", "Lines to hold", [lines]),
            "The lines beside which guidelines are laid.",
        ),
        (
            QgsProcessingParameterFeatureSource("REFERENCE", "Reference line", [lines]),
            "The line that the side is told by, for example the centreline of the lane.",
        ),
        (
            QgsProcessingParameterEnum(
                "SIDE", "Side", sides(), False, "toward", usesStaticStrings=True
            ),
            "toward the reference line, or away from it; it does not depend on how lines run.",
        ),
        (
            QgsProcessingParameterString("OFFSETS", "Distances", "1.5 ft"),
            "How far beside the line, in plan; several at once: 1 ft, 2 ft.",
        ),
    )
    for row, (parameter, help_text) in enumerate(rows):
        model.add_input(parameter, row, help_text)
    model.add_step(
        "read",
        "read_landxml",
        "Read the design",
        (560.0, 160.0),
        {"INPUT": given("DESIGN_FILE"), "SURFACE": given("SURFACE_NAME"), "CRS": given("CRS")},
        {"TIN": "Design"},
        READ,
        "The faces of the file as they are: nothing is triangulated anew.",
    )
    model.add_step(
        "depth",
        "depth_tin",
        "Move it down by zone",
        (960.0, 340.0),
        {
            "DESIGN": result("read", "TIN"),
            "ZONES": given("ZONES"),
            "DEPTH_FIELD": with_default("DEPTH_FIELD", "depth"),
            "PRIORITY_FIELD": given("PRIORITY_FIELD"),
        },
        {"TIN": "Depth surface", "HTML": "Report of the depth surface"},
        WORK,
        "Zone borders are cut into the faces; planes stay planes.",
    )
    model.add_step(
        "guide",
        "guidelines",
        "Lay guidelines",
        (960.0, 620.0),
        {
            "LINES": given("LINES"),
            "REFERENCE": given("REFERENCE"),
            "SIDE": with_default("SIDE", "toward"),
            "OFFSETS": with_default("OFFSETS", "1.5 ft"),
            "SURFACE": result("read", "TIN"),
            "Z_FROM": value("surface"),
        },
        {
            "GUIDELINES": "Guidelines",
            "FLAGGED": "Lines to look at",
            "HTML": "Report of the guidelines",
        },
        WORK,
        "Heights are those of the design. A line whose side is in doubt goes to the second layer.",
    )
    model.write("depth_surfaces_and_guidelines.model3")


def breaks_to_guidelines():
    model = Model(
        "Breaks to guidelines",
        "Whole jobs",
        {
            "ALG_DESC": "Finds the slope breaks of a design, keeps the toes of slope, and lays a"
            " guideline beside each on the uphill side. Before machines are steered by the"
            " results, check height and side on a known point.",
        },
    )
    surfaces = [Qgis.ProcessingSourceType.Mesh, Qgis.ProcessingSourceType.VectorPolygon]
    rows = (
        (
            QgsProcessingParameterMapLayer("DESIGN", "Design", None, False, surfaces),
            "A mesh, or polygons with heights.",
        ),
        (
            QgsProcessingParameterNumber(
                "MIN_CHANGE",
                "Smallest slope change (percent)",
                Qgis.ProcessingNumberParameterType.Double,
                3.0,
                False,
                0.001,
            ),
            "Algebraic difference in grade, square to the break.",
        ),
        (
            QgsProcessingParameterString("MIN_LENGTH", "Shortest break", "1 ft"),
            "Shorter breaks are left out.",
        ),
        (
            QgsProcessingParameterString("OFFSETS", "Distances", "2 ft"),
            "How far beside the toe, in plan, on the uphill side.",
        ),
    )
    for row, (parameter, help_text) in enumerate(rows):
        model.add_input(parameter, row, help_text)
    model.add_step(
        "breaks",
        "slope_breaks",
        "Find toes of slope",
        (560.0, 160.0),
        {
            "DESIGN": given("DESIGN"),
            "MIN_CHANGE": with_default("MIN_CHANGE", 3.0),
            "MIN_LENGTH": with_default("MIN_LENGTH", "1 ft"),
            "KINDS": value(["toe"]),
        },
        {"BREAKS": "Toes of slope"},
        READ,
        "A toe rises on one side only.",
    )
    model.add_step(
        "guide",
        "guidelines",
        "Lay guidelines uphill",
        (960.0, 340.0),
        {
            "LINES": result("breaks", "BREAKS"),
            "SIDE": value("uphill"),
            "OFFSETS": with_default("OFFSETS", "2 ft"),
            "SURFACE": given("DESIGN"),
            "Z_FROM": value("surface"),
        },
        {"GUIDELINES": "Guidelines", "FLAGGED": "Lines to look at"},
        WORK,
        "Heights are those of the design.",
    )
    model.write("breaks_to_guidelines.model3")


def review():
    model = Model(
        "Review of a design",
        "Whole jobs",
        {
            "ALG_DESC": "Is the design fit to work from, is the depth there that each zone asks for,"
            " and do its grades comply? One report, all verdicts first. The rules of grade come"
            " with their sources; local codes and licensed practice decide.",
        },
    )
    kinds = Qgis.ProcessingSourceType
    surfaces = [kinds.Mesh, kinds.VectorPolygon, kinds.Raster]
    rows = (
        (
            QgsProcessingParameterMapLayer("DESIGN", "Design", None, False, surfaces),
            "The finished grade.",
        ),
        (
            QgsProcessingParameterMapLayer("ACTUAL", "Surface as dug", None, False, surfaces),
            "What is checked against the design: a depth surface, or a survey as a surface.",
        ),
        (
            QgsProcessingParameterFeatureSource("ZONES", "Zones", [kinds.VectorPolygon]),
            "One polygon for each zone.",
        ),
        (
            QgsProcessingParameterField("DEPTH_FIELD", "Field with the depth", "depth", "ZONES"),
            "Depth asked for below the design, positive down.",
        ),
        (
            QgsProcessingParameterString("TOLERANCE", "Tolerance", "-0 / +0.05 ft"),
            "How much less and how much more than asked passes: -0 / +0.05 ft, or 0.05 ft both ways.",
        ),
        (
            QgsProcessingParameterField(
                "RULE_FIELD", "Field with the rules of grade", None, "ZONES", optional=True
            ),
            "Names of rules for each zone, such as ada_walk_cross; zones without are not judged.",
        ),
        (
            QgsProcessingParameterFeatureSource(
                "TRAVEL", "Lines of travel", [kinds.VectorLine], None, True
            ),
            "The lines along and across which grades count, such as the edges of a walk.",
        ),
        (
            QgsProcessingParameterField(
                "PRIORITY_FIELD",
                "Field with the priority",
                None,
                "ZONES",
                Qgis.ProcessingFieldParameterDataType.Numeric,
                optional=True,
            ),
            "The lower number wins where zones overlap; without it an overlap is refused.",
        ),
        (
            QgsProcessingParameterExpression(
                "WATER", "Zones meant to hold water", None, "ZONES", True
            ),
            "True for zones in which water is meant to stand: a pond there is no finding.",
        ),
        (
            QgsProcessingParameterString("TITLE", "Title of the report", "Review"),
            "What the report is about, such as the job and its stage.",
        ),
    )
    for row, (parameter, help_text) in enumerate(rows):
        model.add_input(parameter, row, help_text)
    zones = {"ZONES": given("ZONES"), "PRIORITY_FIELD": given("PRIORITY_FIELD")}
    model.add_step(
        "fit",
        "check_design",
        "Is the design fit to work from?",
        (560.0, 160.0),
        {"DESIGN": given("DESIGN"), "WATER": given("WATER"), **zones},
        {"ISSUES": "Findings"},
        READ,
        "Doubtful points and faces, holes, ponds, zones, units.",
    )
    model.add_step(
        "depth",
        "check_depth",
        "Is the depth there?",
        (560.0, 440.0),
        {
            "DESIGN": given("DESIGN"),
            "ACTUAL": given("ACTUAL"),
            "DEPTH_FIELD": with_default("DEPTH_FIELD", "depth"),
            "TOLERANCE": with_default("TOLERANCE", "-0 / +0.05 ft"),
            **zones,
        },
        {"OUTPUT": "Checked depth"},
        WORK,
        "Pass and fail areas by zone, exact on triangles.",
    )
    model.add_step(
        "grades",
        "check_grades",
        "Do the grades comply?",
        (560.0, 720.0),
        {
            "DESIGN": given("DESIGN"),
            "RULE_FIELD": given("RULE_FIELD"),
            "LINES": given("TRAVEL"),
            **zones,
        },
        {"OUTPUT": "Grades that fail or nearly fail"},
        WORK,
        "By named rules with their sources.",
    )
    model.add_step(
        "bind",
        "bind_reports",
        "One report",
        (1400.0, 440.0),
        {
            "REPORTS": [result(step, "HTML") for step in ("depth", "grades", "fit")],
            "TITLE": with_default("TITLE", "Review"),
        },
        {"HTML": "Report"},
        READ,
        "All verdicts first, then each report.",
    )
    model.write("review.model3")


if __name__ == "__main__":
    # Qt writes attributes in an order drawn by lot, unless told not to.
    if os.environ.get("QT_HASH_SEED") != "0":
        os.execve(sys.executable, [sys.executable, __file__], {**os.environ, "QT_HASH_SEED": "0"})
    application = QgsApplication([], True)
    application.initQgis()
    sys.path.insert(0, str(HERE.parent))
    from plugin.plugin import UndercoursePlugin

    plugin = UndercoursePlugin(None)
    plugin.initProcessing()
    breaks_to_guidelines()
    depth_surfaces_and_guidelines()
    review()
    sys.stdout.flush()
    os._exit(0)
