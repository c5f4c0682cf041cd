"""Every dialog opens, shows labels and gives words."""

import pytest
from qgis.core import (
    QgsApplication,
    QgsCoordinateReferenceSystem,
    QgsMeshLayer,
    QgsProcessingModelAlgorithm,
    QgsProcessingModelParameter,
    QgsProcessingParameterEnum,
    QgsProject,
)
from qgis.gui import QgsCheckableComboBox
from qgis.PyQt.QtWidgets import QComboBox, QLabel, QLineEdit

from plugin.algorithms.parameters import choice_labels, is_length
from plugin.core.units import FOOT
from plugin.gui.length_widget import LengthEdit, LengthWrapper
from plugin.layers.meshes import write_ply
from plugin.provider import ALGORITHMS
from tests.layers.shapes import SURVEY_FEET, roof

PROBE = "probes:probe"


@pytest.mark.parametrize("name", [name for name, _ in ALGORITHMS])
def test_every_dialog(provider, dialogs, qgis_new_project, name):
    algorithm = provider.algorithm(name)
    assert algorithm is not None
    dialog = dialogs(f"undercourse:{name}")
    assert not dialog.grab().isNull()
    wrappers = dialog.mainWidget().wrappers
    for parameter in algorithm.parameterDefinitions():
        value = wrappers[parameter.name()].parameterValue()
        labels = choice_labels(parameter)
        if labels:
            words = value if parameter.allowMultiple() else [value]
            assert set(words) <= labels.keys() | {None}
            default = parameter.defaultValue()
            assert value == default or (not value and not default)
        elif is_length(parameter):
            assert value == (parameter.defaultValue() or "")


@pytest.mark.parametrize("name", [name for name, _ in ALGORITHMS])
def test_every_parameter_has_its_help(provider, name):
    algorithm = provider.algorithm(name)
    assert algorithm.shortDescription()
    assert algorithm.tags()
    assert not algorithm.icon().isNull()
    assert algorithm.group() != algorithm.groupId()
    for parameter in algorithm.parameterDefinitions():
        assert len(parameter.help()) > 20, parameter.name()
        assert parameter.description() != parameter.name() or parameter.name() == "CRS"


def test_a_choice_shows_labels_and_gives_words(probes, dialogs, design):
    dialog = dialogs(PROBE, {"DESIGN": design.id()})
    wrappers = dialog.mainWidget().wrappers
    side, maybe, kinds = (wrappers[name] for name in ("SIDE", "MAYBE", "KINDS"))
    box = side.wrappedWidget().findChild(QComboBox)
    assert [box.itemText(row) for row in range(box.count())] == [
        "Right of the line",
        "Left of the line",
    ]
    assert box.currentText() == "Left of the line"
    assert side.parameterValue() == "left"
    box.setCurrentText("Right of the line")
    assert side.parameterValue() == "right"
    assert maybe.parameterValue() is None
    assert sorted(kinds.parameterValue()) == ["left", "right"]
    several = kinds.wrappedWidget().findChild(QgsCheckableComboBox)
    several.deselectAllOptions()
    assert kinds.parameterValue() == []
    kinds.setParameterValue("left", dialog.processingContext())
    found = dialog.createProcessingParameters()
    assert (found["SIDE"], found["MAYBE"], found["KINDS"]) == ("right", None, ["left"])


def test_parameters_given_to_a_dialog_are_shown(probes, dialogs, design):
    given = {"SIDE": "right", "KINDS": ["left"], "DEPTH": "60 mm", "MAYBE": "left"}
    dialog = dialogs(PROBE, {"DESIGN": design.id(), **given})
    found = dialog.createProcessingParameters()
    assert {name: found[name] for name in given} == given


def line(wrapper):
    return wrapper.wrappedWidget().findChild(QLineEdit)


def told(wrapper):
    return wrapper.wrappedWidget().findChild(QLabel).text()


@pytest.fixture
def design(tmp_path, qgis_new_project):
    path = tmp_path / "design.ply"
    write_ply(path, roof(3), QgsCoordinateReferenceSystem(SURVEY_FEET))
    layer = QgsMeshLayer(str(path), "design", "mdal")
    QgsProject.instance().addMapLayer(layer)
    return layer


def test_a_length_repeats_what_it_means(probes, dialogs, design):
    dialog = dialogs(PROBE, {"DESIGN": design.id()})
    wrappers = dialog.mainWidget().wrappers
    depth, offsets = wrappers["DEPTH"], wrappers["OFFSETS"]
    assert told(depth) == "= 0.200 usft (2.4 in)"
    assert told(offsets) == "= 1.000 usft (12.0 in); 2.000 usft (24.0 in)"
    wrappers["VERTICAL_UNIT"].setParameterValue("metre", dialog.processingContext())
    assert told(depth) == "= 0.061 m (61 mm)"
    line(depth).setText("3 bananas")
    assert "'bananas' is not a known unit" in told(depth)
    line(depth).setText("")
    assert told(depth) == ""
    assert told(wrappers["EXTRA"]) == ""


def test_a_length_without_a_design(probes, dialogs, qgis_new_project):
    depth = dialogs(PROBE).mainWidget().wrappers["DEPTH"]
    assert told(depth) == "= 0.200 ft (2.4 in) = 0.061 m (61 mm)"
    line(depth).setText("0.2")
    assert told(depth) == "in the unit of the job"


def test_a_bundled_model_has_the_widgets_of_its_steps(provider, dialogs, design):
    assert provider.algorithm("breaks_to_guidelines").displayName() == "Breaks to guidelines"
    dialog = dialogs("undercourse:breaks_to_guidelines", {"DESIGN": design.id()})
    wrappers = dialog.mainWidget().wrappers
    assert told(wrappers["OFFSETS"]) == "= 2.000 usft (24.0 in)"
    dialog = dialogs("undercourse:depth_surfaces_and_guidelines", {"SIDE": "away"})
    side = dialog.mainWidget().wrappers["SIDE"]
    assert side.wrappedWidget().findChild(QComboBox).currentText() == "Away from the reference"
    assert side.parameterValue() == "away"


def test_a_length_of_many_is_cut_short(qgis_app):
    edit = LengthEdit(many=True, compact=False)
    edit.text.setText("1..9 step 1")
    assert edit.told.text() == "9 lengths in the unit of the job"
    edit.set_unit(FOOT)
    assert edit.told.text().startswith("= 1.000 ft (12.0 in); 2.000 ft (24.0 in)")
    assert edit.told.text().endswith("… 9 in all")


def test_batch_widgets(probes, qgis_iface, dialogs):
    """The table of a batch run: words and texts as in the dialog."""
    from processing.gui.BatchAlgorithmDialog import BatchAlgorithmDialog
    from qgis.core import QgsProcessingContext

    dialogs(PROBE)  # gives the interface its browser
    dialog = BatchAlgorithmDialog(QgsApplication.processingRegistry().createAlgorithmById(PROBE))
    panel = dialog.mainWidget()
    panel.addRow()
    names = panel.parameter_to_column
    row = panel.batchRowCount() - 1
    context = QgsProcessingContext()
    for name, value in (("SIDE", "right"), ("KINDS", ["left"]), ("DEPTH", "2 1/2 in")):
        wrapper = panel.wrappers[row][names[name]]
        assert wrapper.wrappedWidget() is not None
        wrapper.setParameterValue(value, context)
        assert wrapper.parameterValue() == value
    dialog.close()


@pytest.fixture
def model_dialog(probes, dialogs, qgis_iface):
    """The dialog of a step in the modeler, in a model with a choice and a length as inputs."""
    from processing.modeler.ModelerParametersDialog import ModelerParametersDialog

    dialogs(PROBE)
    model = QgsProcessingModelAlgorithm("m", "g")
    given = QgsProcessingParameterEnum("which", "Which", ["right", "left"], usesStaticStrings=True)
    model.addModelParameter(given, QgsProcessingModelParameter("which"))
    algorithm = QgsApplication.processingRegistry().createAlgorithmById(PROBE)
    dialog = ModelerParametersDialog(algorithm, model)
    yield dialog
    dialog.close()


def test_modeler_widgets(model_dialog):
    widgets = model_dialog.widget.widget.wrappers
    side = widgets["SIDE"]
    boxes = [box for box in side.findChildren(QComboBox) if box.findText("Left of the line") >= 0]
    assert len(boxes) == 1
    boxes[0].setCurrentIndex(boxes[0].findText("Right of the line"))
    assert side.value().staticValue() == "right"
    assert sorted(widgets["KINDS"].value().staticValue()) == ["left", "right"]
    assert widgets["DEPTH"].value().staticValue() == "0.2 ft"


def test_modeler_widgets_take_inputs_of_the_model(model_dialog):
    """What QGIS's own widgets can and a plain replacement would have lost."""
    from qgis.core import QgsProcessingModelChildParameterSource as Source

    side = model_dialog.widget.widget.wrappers["SIDE"]
    side.setWidgetValue(Source.fromModelParameter("which"))
    assert side.value().parameterName() == "which"


def test_wrapper_is_found_by_the_name_of_the_installed_package():
    assert LengthWrapper.__module__ == "plugin.gui.length_widget"
    from plugin.algorithms.parameters import LENGTH_WIDGET

    assert LENGTH_WIDGET == "plugin.gui.length_widget.LengthWrapper"
