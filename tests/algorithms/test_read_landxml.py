"""LandXML files read as a user reads them, in QGIS."""

import math
from functools import partial

import pytest
from qgis.core import (
    QgsMeshLayer,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingOutputLayerDefinition,
    QgsProject,
    QgsWkbTypes,
)

from plugin.layers.ply import read_ply
from tests.commands import link_plugin, qgis_process
from tests.core.landxml_texts import POINTS, alignment, landxml, surface
from tests.core.tin_shapes import REAL

from .landxml_cases import (
    ALGORITHM,
    EVERYTHING,
    METRES,
    ROUTE,
    SOURCE,
    Log,
    all_outputs,
    features,
    read_text,
)


@pytest.fixture
def run(provider, tmp_path):
    return partial(read_text, tmp_path)


def test_everything_in_a_file(run, tmp_path):
    log = Log()
    results = run(landxml(EVERYTHING), log, CRS=METRES, **all_outputs(tmp_path))
    numbers = {name: value for name, value in results.items() if isinstance(value, (int, float))}
    assert numbers == {
        "SURFACE_COUNT": 1,
        "VERTEX_COUNT": 4,
        "FACE_COUNT": 2,
        "HIDDEN_COUNT": 0,
        "PLAN_AREA": 10000.0,
        "SLOPED_AREA": pytest.approx(5000 * (math.sqrt(1 + 2e-4) + math.sqrt(1 + 1e-3))),
        "BREAKLINE_COUNT": 2,
        "BOUNDARY_COUNT": 1,
        "LINE_COUNT": 3,
        "ALIGNMENT_COUNT": 1,
        "ALIGNMENT_LENGTH": pytest.approx(50 + 15 * math.pi),
        "POINT_COUNT": 2,
        "FLAG_COUNT": 1,
    }
    assert results["SURFACE_NAME"] == "FG"
    # The one flag: a breakline without heights.
    assert len(log.warnings) == 1 and "without elevation" in log.warnings[0]
    assert any("“FG”: 4 points, 2 faces" in info for info in log.infos)
    assert any("1 lines, 1 arcs, 0 spirals" in info for info in log.infos)


def test_the_tin_is_a_mesh_layer_with_its_crs(run, tmp_path):
    results = run(landxml(surface()), CRS=METRES, TIN=str(tmp_path / "design.ply"))
    layer = QgsMeshLayer(results["TIN"], "design", "mdal")
    assert layer.isValid() and layer.crs().authid() == METRES and layer.meshFaceCount() == 2
    assert read_ply(results["TIN"]).vertices.tolist() == [
        [0, 0, 10],
        [100, 0, 11],
        [100, 100, 12],
        [0, 100, 13],
    ]


def test_faces_have_heights_areas_and_grades(run, tmp_path):
    results = run(landxml(surface()), CRS=METRES, FACES=str(tmp_path / "faces.gpkg"))
    layer, (first, second) = features(results["FACES"])
    assert layer.wkbType() == QgsWkbTypes.Type.PolygonZ and layer.crs().authid() == METRES
    assert first.geometry().asWkt() == "Polygon Z ((0 0 10, 100 0 11, 100 100 12, 0 0 10))"
    assert first["plan_area"] == second["plan_area"] == 5000.0
    assert first["grade"] == pytest.approx(100 * math.sqrt(2e-4))
    assert second["area"] == pytest.approx(5000 * math.sqrt(1 + 1e-3))


def test_lines_keep_heights_texts_and_direction(run, tmp_path):
    results = run(landxml(EVERYTHING), CRS=METRES, LINES=str(tmp_path / "lines.gpkg"))
    layer, (crown, flat, boundary) = features(results["LINES"])
    assert layer.wkbType() == QgsWkbTypes.Type.LineStringZ
    assert crown.geometry().asWkt() == "LineString Z (0 0 10, 100 100 12)"
    assert (crown["kind"], crown["type"], crown["name"]) == ("breakline", "standard", "B1")
    assert (crown["description"], crown["surface"], crown["file_line"]) == ("crown", "FG", 3)
    # Heights that the file does not give are not 0.
    assert math.isnan(flat.geometry().constGet().zAt(0)) and flat["flag"] == "no_height"
    assert boundary.geometry().constGet().isClosed() and crown["flag"] in {"", None}


def test_alignments_have_true_arcs_and_stations(run, tmp_path):
    results = run(landxml(EVERYTHING), CRS=METRES, ALIGNMENTS=str(tmp_path / "routes.gpkg"))
    layer, (route,) = features(results["ALIGNMENTS"])
    assert layer.wkbType() == QgsWkbTypes.Type.CompoundCurveM
    geometry = route.geometry()
    line, arc = (geometry.constGet().curveAt(k) for k in range(2))
    assert (line.geometryType(), arc.geometryType()) == ("LineString", "CircularString")
    assert geometry.length() == pytest.approx(50 + 15 * math.pi, rel=1e-12)
    middle = arc.pointN(1)
    assert (middle.x(), middle.y()) == pytest.approx(
        (50 + 30 * math.sin(math.pi / 4), 30 - 30 * math.cos(math.pi / 4))
    )
    assert [arc.pointN(k).m() for k in range(3)] == pytest.approx(
        [1050, 1050 + 7.5 * math.pi, 1050 + 15 * math.pi]
    )
    assert (route["sta_start"], route["from_sta"]) == (1000, "1+000.000")
    assert route["to_sta"] == "2+047.124"  # 2000 ahead at 1050
    assert route["equations"] == "1+050.000 back = 2+000.000 ahead"
    assert route["length"] == pytest.approx(route["sta_end"] - 1000)
    assert route["declared"] == 97.12


def test_points_and_those_that_no_face_uses(run, tmp_path):
    text = landxml(EVERYTHING.replace("</Pnts>", '<P id="99">1 1 1</P></Pnts>'))
    log = Log()
    results = run(
        text, log, CRS=METRES, TIN=str(tmp_path / "d.ply"), POINTS=str(tmp_path / "p.gpkg")
    )
    _, rows = features(results["POINTS"])
    assert [(row["kind"], row["name"]) for row in rows] == [
        ("point", "7"),
        ("point", "8"),
        ("unused", "99"),
    ]
    assert rows[0].geometry().asWkt() == "Point Z (6 5 7)"
    assert math.isnan(rows[1].geometry().constGet().z())
    assert any("1 points of surface 'FG' are in none of its faces" in text for text in log.warnings)
    assert results["FLAG_COUNT"] == 1 and len(read_ply(results["TIN"]).vertices) == 4


# What is asked for

TWO = landxml(surface(name="EG") + surface(POINTS.replace("13", "23")))


def test_of_several_surfaces_one_is_chosen(run, tmp_path):
    results = run(TWO, CRS=METRES, SURFACE="FG", TIN=str(tmp_path / "d.ply"))
    assert read_ply(results["TIN"]).vertices[3, 2] == 23.0
    with pytest.raises(QgsProcessingException, match=r"holds 2 surfaces.*'EG', 'FG'"):
        run(TWO, CRS=METRES, TIN=str(tmp_path / "e.ply"))
    assert not (tmp_path / "e.ply").exists()


def test_without_outputs_the_file_is_listed(run):
    log = Log()
    results = run(TWO, log, CRS=METRES, SURFACE="EG")
    assert results["SURFACE_COUNT"] == 2 and results["FACE_COUNT"] == 2
    assert any("“FG”" in info and "not read" in info for info in log.infos)
    assert "TIN" not in results


def test_a_grid_surface_is_refused_and_does_not_hide_the_rest(run, tmp_path):
    text = landxml(EVERYTHING.replace('surfType="TIN"', 'surfType="grid"'))
    with pytest.raises(QgsProcessingException, match=r"line 3.*grid surface"):
        run(text, CRS=METRES, **all_outputs(tmp_path))
    assert run(text, CRS=METRES, LINES=str(tmp_path / "l.gpkg"))["LINE_COUNT"] == 3


def test_a_file_without_surface_gives_no_tin(run, tmp_path):
    outputs = all_outputs(tmp_path)
    results = run(landxml(alignment(ROUTE)), CRS=METRES, **outputs)
    assert "TIN" not in results and not (tmp_path / "design.ply").exists()
    assert results["ALIGNMENT_COUNT"] == 1


def test_desktop_loads_what_is_not_empty(provider, tmp_path, qgis_new_project):
    path = tmp_path / "design.xml"
    path.write_text(landxml(surface(source=SOURCE)))
    context = QgsProcessingContext()
    context.setProject(QgsProject.instance())
    parameters = {"INPUT": str(path), "CRS": METRES, "TIN": str(tmp_path / "d.ply")}
    for name in ("LINES", "ALIGNMENTS"):
        target = QgsProcessingOutputLayerDefinition("TEMPORARY_OUTPUT", QgsProject.instance())
        parameters[name] = target
    results, ok = provider.algorithm("read_landxml").run(parameters, context, Log())
    assert ok
    loaded = {key: one.name for key, one in context.layersToLoadOnCompletion().items()}
    assert loaded == {results["TIN"]: "FG", results["LINES"]: "FG: lines"}
    empty = context.takeResultLayer(results["ALIGNMENTS"])
    assert empty is not None and empty.featureCount() == 0


@pytest.mark.parametrize("leave_out", [False, True])
def test_broken_faces(run, tmp_path, leave_out):
    text = landxml(surface(faces="<F>1 2 3</F>\n<F>1 3 99</F>"))
    word = "leave_out" if leave_out else "refuse"
    parameters = {"CRS": METRES, "BROKEN_FACES": word, "TIN": str(tmp_path / "d.ply")}
    if leave_out:
        results = run(text, **parameters)
        assert (results["FACE_COUNT"], results["FLAG_COUNT"]) == (1, 2)
        return
    with pytest.raises(QgsProcessingException, match=r"line 10.*face 1 3 99"):
        run(text, **parameters)
    assert not (tmp_path / "d.ply").exists()


# Failures leave what was there


@pytest.mark.parametrize(
    "text",
    [
        landxml(surface(POINTS.replace("100 0 13", "100 0"))),
        landxml(surface())[:-40],
        landxml(surface()).replace("<LandXML", '<!DOCTYPE a [<!ENTITY b "c">]><LandXML'),
    ],
)
def test_a_failed_run_leaves_earlier_results_as_they_were(run, tmp_path, text):
    outputs = all_outputs(tmp_path)
    run(landxml(EVERYTHING), CRS=METRES, **outputs)
    before = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.suffix != ".xml"}
    with pytest.raises(QgsProcessingException, match=r"^design\.xml, line \d+"):
        run(text, CRS=METRES, **outputs)
    after = {path.name: path.read_bytes() for path in tmp_path.iterdir() if path.suffix != ".xml"}
    assert after == before


def test_a_missing_file_is_one_sentence(run, provider, tmp_path):
    import processing

    with pytest.raises(QgsProcessingException, match="cannot be read"):
        processing.run(ALGORITHM, {"INPUT": str(tmp_path / "no.xml"), "CRS": METRES})


def test_a_file_of_another_kind_is_refused_in_our_words(provider, tmp_path):
    import processing

    path = tmp_path / "notes.txt"
    path.write_text("northing easting")
    with pytest.raises(QgsProcessingException, match=r"notes\.txt, line 1.*not well-formed"):
        processing.run(ALGORITHM, {"INPUT": str(path), "CRS": METRES})


def test_cancel_leaves_nothing(run, tmp_path):
    log = Log()
    log.cancel()
    assert run(landxml(EVERYTHING), log, CRS=METRES, **all_outputs(tmp_path)) == {}
    assert [path.name for path in tmp_path.iterdir()] == ["design.xml"]


def test_same_input_gives_the_same_bytes(run, tmp_path):
    run(landxml(surface()), CRS=METRES, TIN=str(tmp_path / "a.ply"))
    run(landxml(surface()), CRS=METRES, TIN=str(tmp_path / "b.ply"))
    assert (tmp_path / "a.ply").read_bytes() == (tmp_path / "b.ply").read_bytes()


# As a user


def test_every_parameter_has_help(provider):
    algorithm = provider.algorithm("read_landxml")
    for parameter in algorithm.parameterDefinitions():
        assert parameter.help(), parameter.name()
    assert algorithm.group() == "Design intake" and "landxml" in algorithm.tags()


def test_on_the_command_line(tmp_path):
    profile = link_plugin(tmp_path / "profile")
    path = tmp_path / "design.xml"
    path.write_text(landxml(EVERYTHING, system='<CoordinateSystem epsgCode="3875"/>'))
    outputs = [f"{name}={value}" for name, value in all_outputs(tmp_path).items()]
    done = qgis_process(profile, "run", ALGORITHM, "--", f"INPUT={path}", *outputs)
    assert done.returncode == 0, done.stderr
    assert "FACE_COUNT:\t2" in done.stdout and "WARNING:" in done.stdout
    path.write_text(landxml(surface(POINTS.replace("100 0 13", "100 0"))))
    failed = qgis_process(profile, "run", ALGORITHM, "--", f"INPUT={path}", f"CRS={METRES}")
    assert failed.returncode == 1
    assert "line 7, LandXML/Surfaces/Surface" in failed.stderr and "Traceback" not in failed.stderr


@pytest.mark.skipif(not REAL.is_dir(), reason="the real files are not here")
def test_a_real_road(provider, tmp_path):
    import processing

    log = Log()
    outputs = all_outputs(tmp_path)
    results = processing.run(
        ALGORITHM, {"INPUT": str(REAL / "road_finished.xml"), **outputs}, feedback=log
    )
    assert (results["VERTEX_COUNT"], results["FACE_COUNT"]) == (6547, 11959)
    assert (results["BREAKLINE_COUNT"], results["FLAG_COUNT"]) == (63, 0)
    assert QgsMeshLayer(results["TIN"], "d", "mdal").crs().authid() == "EPSG:3875"
    assert features(results["FACES"])[0].featureCount() == 11959
