"""What all algorithms share, tried on a probe that uses every part of it."""

import processing
import pytest
from qgis.core import (
    Qgis,
    QgsCoordinateReferenceSystem,
    QgsMeshLayer,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProcessingModelAlgorithm,
    QgsProcessingModelChildAlgorithm,
    QgsProcessingModelChildParameterSource,
    QgsProcessingModelOutput,
    QgsProcessingModelParameter,
    QgsProcessingParameterMapLayer,
    QgsProject,
    QgsVectorLayer,
)

from plugin import environment
from plugin.layers.meshes import read_ply, write_ply
from tests.algorithms.probe import Probe
from tests.layers.shapes import SURVEY_FEET, roof

PROBE = "probes:probe"


@pytest.fixture
def design(tmp_path):
    path = tmp_path / "design.ply"
    write_ply(path, roof(3), QgsCoordinateReferenceSystem(SURVEY_FEET))
    return str(path)


def run(design, **parameters):
    return processing.run(PROBE, {"DESIGN": design, "TIN": "TEMPORARY_OUTPUT", **parameters})


def test_defaults(probes, design):
    found = run(design)
    assert found["side"] == "left"
    assert found["maybe"] == ""
    assert found["kinds"] == ["left", "right"]
    assert found["depth"] == 0.2
    assert found["extra"] is None
    assert found["offsets"] == [1.0, 2.0]
    assert found["FACES"] is None
    assert read_ply(found["TIN"]).vertices.tobytes() == roof(3)[0].tobytes()


def test_a_choice_is_a_word(probes, design):
    found = run(design, SIDE="right", MAYBE="left", KINDS=["right"])
    assert (found["side"], found["maybe"], found["kinds"]) == ("right", "left", ["right"])


@pytest.mark.parametrize(
    ("text", "unit", "depth"),
    [
        ("0.3", "same", 0.3),
        (0.3, "same", 0.3),
        ("2.4 in", "same", 0.2),
        ("0.2 ft", "foot", 0.2),
        ("1 m", "foot", 1 / 0.3048),
        ("1 m", "same", 3937 / 1200),
        ("-60 mm", "metre", -0.06),
    ],
)
def test_a_length_is_in_the_unit_of_heights(probes, design, text, unit, depth):
    """The feet: EPSG 9002 and 9003. A plain foot in a job in survey feet is the job's foot."""
    assert run(design, DEPTH=text, VERTICAL_UNIT=unit)["depth"] == pytest.approx(depth, rel=1e-15)


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({"DEPTH": "3 bananas"}, "Depth: 'bananas' is not a known unit of length"),
        ({"OFFSETS": "1, x"}, "Offsets: "),
        ({"DEPTH": "13"}, "Depth: 13 brings bad luck."),
        ({"SIDE": "up"}, "Side: “up” is not one of: right, left."),
        ({"SIDE": "Right"}, "Side: “Right” is not one of: right, left."),
        ({"KINDS": ["left", "up"]}, "Kinds: .* is not one of: right, left."),
        ({"DESIGN": "none.ply"}, "Design: “none.ply” cannot be opened"),
        ({"DEPTH": "99"}, "^Depth 99 is too deep: take less.$"),
        ({"DEPTH": "98"}, "^“faces.gpkg” cannot be read or written: No space left on device.$"),
        ({"TIN": "/none/of/these/tin.ply"}, "TIN: “/none/of/these/tin.ply” cannot be written"),
    ],
)
def test_bad_input_is_one_sentence(probes, design, parameters, sentence):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(**{"design": design, **{k: v for k, v in parameters.items() if k != "DESIGN"}}
            | ({"design": parameters["DESIGN"]} if "DESIGN" in parameters else {}))  # fmt: skip


def test_a_geographic_crs_is_refused_before_anything_is_written(probes, tmp_path):
    path = tmp_path / "degrees.ply"
    write_ply(path, roof(2, 7.0, 51.0), QgsCoordinateReferenceSystem("EPSG:4326"))
    faces = tmp_path / "faces.gpkg"
    faces.write_bytes(b"precious")
    with pytest.raises(QgsProcessingException, match=r"EPSG:4326 .* is not a projected CRS"):
        run(str(path), FACES=str(faces))
    assert faces.read_bytes() == b"precious"


def test_missing_libraries_are_told_where_can_execute_is_not_asked(probes, design, monkeypatch):
    monkeypatch.setattr(environment, "problem", lambda *_: "shapely is too old: get 2.1.")
    with pytest.raises(QgsProcessingException, match=r"shapely is too old: get 2\.1\."):
        run(design)
    assert Probe().canExecute() == (False, "shapely is too old: get 2.1.")


def test_cancel_leaves_nothing(probes, design, tmp_path):
    told = QgsProcessingFeedback()
    told.cancel()
    path = tmp_path / "out.ply"
    found = processing.run(PROBE, {"DESIGN": design, "TIN": str(path)}, feedback=told)
    assert found == {}
    assert not path.exists()


def test_progress_goes_over_its_share(probes):
    told = QgsProcessingFeedback()
    report = Probe().progress(told, 0.2, 0.6)
    seen = []
    for fraction in (0.0, 0.5, 1.0, 7.0):
        report(fraction)
        seen.append(told.progress())
    assert seen == pytest.approx([20, 40, 60, 60])


def test_results_arrive_named_and_ready_for_profiles(probes, design, qgis_new_project, monkeypatch):
    # The stand-in for Desktop has no layer tree that newer releases of QGIS would take.
    monkeypatch.setattr("processing.gui.Postprocessing.iface", None)
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    processing.runAndLoadResults(
        PROBE, {"DESIGN": design, "TIN": "TEMPORARY_OUTPUT", "FACES": "TEMPORARY_OUTPUT"},
        context=context,
    )  # fmt: skip
    layers = {layer.name(): layer for layer in QgsProject.instance().mapLayers().values()}
    assert layers.keys() == {"Copy", "Copied faces"}
    mesh, faces = layers["Copy"], layers["Copied faces"]
    assert isinstance(mesh, QgsMeshLayer)
    assert mesh.crs().authid() == SURVEY_FEET
    assert mesh.elevationProperties().hasElevation()
    line = Qgis.ProfileSurfaceSymbology.Line
    assert mesh.elevationProperties().profileSymbology() == line
    assert isinstance(faces, QgsVectorLayer)
    assert faces.featureCount() == 18
    assert faces.elevationProperties().clamping() == Qgis.AltitudeClamping.Absolute


@pytest.fixture
def twice(probes):
    """A model that copies the copy."""
    model = QgsProcessingModelAlgorithm("twice", "tests")
    model.addModelParameter(
        QgsProcessingParameterMapLayer("DESIGN", "Design"), QgsProcessingModelParameter("DESIGN")
    )
    source = QgsProcessingModelChildParameterSource
    for name, origin in (
        ("first", source.fromModelParameter("DESIGN")),
        ("second", source.fromChildOutput("first", "TIN")),
    ):
        step = QgsProcessingModelChildAlgorithm(PROBE)
        step.setChildId(name)
        step.addParameterSources("DESIGN", [origin])
        if name == "second":
            output = QgsProcessingModelOutput("last", "last")
            output.setChildId(name)
            output.setChildOutputName("TIN")
            step.setModelOutputs({"last": output})
        model.addChildAlgorithm(step)
    model.updateDestinationParameters()
    return model


def test_a_mesh_goes_from_step_to_step_and_only_the_last_is_loaded(twice, design, qgis_new_project):
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    found = processing.run(twice, {"DESIGN": design, "last": "TEMPORARY_OUTPUT"}, context=context)
    assert read_ply(found["last"]).vertices.tobytes() == roof(3)[0].tobytes()
    assert list(context.layersToLoadOnCompletion()) == [found["last"]]


def test_a_mesh_result_is_offered_to_surface_parameters(twice):
    offered = twice.availableSourcesForChild("second", ["layer"], ["outputLayer"])
    assert ("first", "TIN") in [(one.outputChildId(), one.outputName()) for one in offered]


def test_the_help_says_everything_of_every_parameter(probes):
    page = probes.algorithm("probe").shortHelpString()
    for text in (
        "It copies &lt;every&gt; face.",
        "<b>Side</b>: + is right, - is left.",
        "<i>Right of the line</i> (right)",
        "Positive is below the design.",
        "underground utilities",
    ):
        assert text in page


def test_the_steps_may_not_take_names_that_qgis_calls():
    with pytest.raises(TypeError, match="must name its steps read and work"):
        type("Wrong", (Probe,), {"run": lambda _self: None})
