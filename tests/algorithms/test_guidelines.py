"""The guidelines algorithm as a user runs it, in QGIS."""

import json
import math

import numpy as np
import pytest
import shapely
from qgis.core import (
    QgsCoordinateReferenceSystem,
    QgsFeature,
    QgsGeometry,
    QgsLineString,
    QgsPoint,
    QgsProcessingContext,
    QgsProcessingException,
    QgsProcessingFeedback,
    QgsProcessingUtils,
    QgsVectorFileWriter,
    QgsVectorLayer,
    QgsWkbTypes,
)

from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from tests.commands import link_plugin, qgis_process

FEET = "EPSG:2264"  # US survey feet
METRES = "EPSG:3875"
ALGORITHM = "undercourse:guidelines"
CURB = [(1000, 2000, 100), (1100, 2100, 101), (1200, 2200, 103)]


class Log(QgsProcessingFeedback):
    """Keeps what is said."""

    def __init__(self):
        super().__init__(False)
        self.warnings, self.infos = [], []

    def pushWarning(self, warning):
        self.warnings.append(warning)

    def pushInfo(self, info):
        self.infos.append(info)


def layer(lines, kind="LineStringZ", crs=FEET, fields="name:string", attributes=None):
    made = QgsVectorLayer(f"{kind}?crs={crs}&field={fields}", "lines", "memory")
    assert made.isValid()
    features = []
    for row, line in enumerate(lines):
        feature = QgsFeature(made.fields())
        feature.setGeometry(line if isinstance(line, QgsGeometry) else geometry(line))
        if attributes:
            feature.setAttributes(list(attributes[row]))
        features.append(feature)
    assert made.dataProvider().addFeatures(features)[0]
    return made


def geometry(line):
    width = {2: "", 3: " Z"}[len(line[0])]
    text = ", ".join(" ".join(f"{value!r}" for value in map(float, p)) for p in line)
    return QgsGeometry.fromWkt(f"LineString{width} ({text})")


def shapes(kind, wkts, crs=FEET):
    return layer([QgsGeometry.fromWkt(wkt) for wkt in wkts], kind, crs)


def rows(found):
    names = found.fields().names()
    return [dict(zip(names, f.attributes(), strict=True)) for f in found.getFeatures()]


def vertices(found):
    return [
        np.array([[v.x(), v.y(), v.z()] for v in f.geometry().vertices()])
        for f in found.getFeatures()
    ]


def plane(folder, crs=FEET, slope=(0.0, 0.05), size=(0, 0, 3000, 3000), z=50.0):
    """A plane of two triangles, rising with the grades ``slope`` to the east and north."""
    x0, y0, x1, y1 = size
    xy = np.array([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], float)
    heights = z + xy @ np.array(slope)
    tin = Tin.from_arrays(np.column_stack([xy, heights]), np.array([(0, 1, 2), (0, 2, 3)]))
    path = folder / "plane.ply"
    write_ply(str(path), tin, QgsCoordinateReferenceSystem(crs))
    return str(path)


@pytest.fixture
def run(provider):
    import processing

    def call(lines, feedback=None, **parameters):
        parameters = {
            "LINES": lines,
            "GUIDELINES": "TEMPORARY_OUTPUT",
            "FLAGGED": "TEMPORARY_OUTPUT",
            **parameters,
        }
        context = QgsProcessingContext()
        results = processing.run(ALGORITHM, parameters, context=context, feedback=feedback)
        for name in ("GUIDELINES", "FLAGGED"):
            if isinstance(results.get(name), str):
                results[name] = QgsProcessingUtils.mapLayerFromString(results[name], context)
        results["context"] = context  # it owns temporary layers
        return results

    return call


def refused(run, *arguments, **parameters):
    with pytest.raises(QgsProcessingException) as caught:
        run(*arguments, **parameters)
    return str(caught.value)


def test_defaults_give_the_right_side_with_heights_of_the_line(run):
    results = run(layer([CURB], attributes=[["back of curb"]]))
    (row,) = rows(results["GUIDELINES"])
    assert row["sentence"] == (
        "1.00 ft to the RIGHT of 'back of curb', seen driving north-east; LEFT driving south-west"
    )
    assert (row["side_line"], row["signed_offset"], row["compass_side"]) == (
        "right",
        1.0,
        "south-east",
    )
    assert (row["side_driver"], row["side_driver_back"]) == ("right", "left")
    assert row["offset"] == "1.000 usft (12.0 in)"
    assert row["travel_bearing"] == pytest.approx(45.0)
    assert row["evidence"] == 100.0
    assert row["length"] == pytest.approx(200 * math.sqrt(2))
    (xyz,) = vertices(results["GUIDELINES"])
    half = math.sqrt(0.5)
    expected = np.array(CURB) + np.array([half, -half, 0])
    assert np.abs(xyz - expected).max() < 1e-9
    assert (results["GUIDELINE_COUNT"], results["FLAGGED_COUNT"], results["LOST_COUNT"]) == (
        1,
        0,
        0,
    )
    assert results["MAX_DISTANCE_ERROR"] < 1e-6
    assert results["GUIDELINES"].wkbType() == QgsWkbTypes.Type.LineStringZM


@pytest.mark.parametrize(
    ("side", "parameters"),
    [
        ("toward", {"REFERENCE": ("Point", ["Point (1150 2000)"])}),
        ("away", {"REFERENCE": ("Point", ["Point (1000 2200)"])}),
        (
            "inside",
            {"REFERENCE": ("Polygon", ["Polygon ((1000 2000, 1200 2000, 1200 2200, 1000 2000))"])},
        ),
        (
            "outside",
            {"REFERENCE": ("Polygon", ["Polygon ((1000 2000, 1200 2200, 1000 2200, 1000 2000))"])},
        ),
        ("uphill", {"SURFACE": (0.05, 0.0)}),
        ("downhill", {"SURFACE": (0.0, 0.05)}),
        ("compass", {"COMPASS": "south"}),
    ],
)
def test_every_rule_gives_the_same_side_however_the_line_is_drawn(run, tmp_path, side, parameters):
    given = dict(parameters)
    if "REFERENCE" in given:
        given["REFERENCE"] = shapes(*given["REFERENCE"])
    if "SURFACE" in given:
        given["SURFACE"] = plane(tmp_path, slope=given["SURFACE"])
    results = run(layer([CURB, CURB[::-1]], attributes=[["a"], ["b"]]), SIDE=side, **given)
    one, other = rows(results["GUIDELINES"])
    assert (one["side_line"], other["side_line"]) == ("right", "left")
    assert one["compass_side"] == other["compass_side"] == "south-east"
    there, back = vertices(results["GUIDELINES"])
    assert np.abs(there - back[::-1]).max() < 1e-9
    assert one["evidence"] == 100.0


def test_plus_one_foot_lands_on_opposite_sides_when_the_line_is_drawn_the_other_way(run):
    results = run(layer([CURB, CURB[::-1]]), SIDE="right")
    one, other = rows(results["GUIDELINES"])
    assert (one["compass_side"], other["compass_side"]) == ("south-east", "north-west")
    there, back = vertices(results["GUIDELINES"])
    assert np.hypot(*(there[0] - back[-1])[:2]) == pytest.approx(2.0)


def test_lines_of_one_name_in_opposite_directions_are_warned_of(run):
    log = Log()
    run(layer([CURB, CURB[::-1]], attributes=[["curb"], ["curb"]]), feedback=log)
    assert any("different directions" in text for text in log.warnings)


def test_travel_says_what_the_driver_sees(run):
    lines = layer([CURB], attributes=[["curb"]])
    (row,) = rows(run(lines, TRAVEL="against")["GUIDELINES"])
    assert (row["side_line"], row["side_driver"], row["side_driver_back"]) == (
        "right",
        "left",
        "right",
    )
    assert row["sentence"].startswith("1.00 ft to the LEFT of 'curb', seen driving south-west")
    assert row["travel_bearing"] == pytest.approx(225.0)
    (row,) = rows(run(lines, TRAVEL="bearing", BEARING=250)["GUIDELINES"])
    assert (row["side_driver"], row["travel"]) == ("left", "south-west")
    (row,) = rows(run(lines, TRAVEL="bearing", BEARING=135)["GUIDELINES"])
    assert row["flag"] == "travel_unclear"
    assert row["side_line"] == "right" and not row["side_driver"]
    assert "square to the bearing" in row["why"]


def test_several_offsets_and_fields(run):
    lines = layer(
        [CURB, CURB[::-1]],
        fields="own:string&field=way:string",
        attributes=[["0.5 ft; 1 ft", "left"], [None, None]],
    )
    results = run(lines, OFFSETS="1..3 step 1", OFFSET_FIELD="own", SIDE_FIELD="way")
    found = [(r["source_id"], r["signed_offset"]) for r in rows(results["GUIDELINES"])]
    assert found == [(1, -0.5), (1, -1.0), (2, 1.0), (2, 2.0), (2, 3.0)]
    # A plain foot in a job in US survey feet is that foot.
    assert rows(results["GUIDELINES"])[0]["name"] == "line 1"


def test_metric_offset_in_a_job_in_feet(run):
    (row,) = rows(run(layer([CURB]), OFFSETS="300 mm")["GUIDELINES"])
    assert row["signed_offset"] == pytest.approx(0.3 * 3937 / 1200, abs=1e-12)


def test_heights_from_the_line_less_depth(run):
    (xyz,) = vertices(run(layer([CURB]), DEPTH="2.4 in")["GUIDELINES"])
    assert np.abs(xyz[:, 2] - [99.8, 100.8, 102.8]).max() < 1e-12


def test_heights_from_the_surface_follow_every_face(run, tmp_path):
    results = run(
        layer([[(10, 990), (2990, 990)]], "LineString"),
        Z_FROM="surface",
        SURFACE=plane(tmp_path, slope=(0.01, 0.05)),
        DEPTH="0.2",
    )
    (xyz,) = vertices(results["GUIDELINES"])
    assert len(xyz) == 3  # the diagonal of the plane is crossed at 989, 989
    assert np.abs(xyz[1, :2] - 989).max() < 1e-6
    assert np.abs(xyz[:, 2] - (49.8 + xyz[:, 0] * 0.01 + xyz[:, 1] * 0.05)).max() < 1e-9


def test_stretches_without_surface_are_flagged_and_not_filled(run, tmp_path):
    results = run(
        layer([[(100, 500), (900, 500)]], "LineString"),
        Z_FROM="surface",
        SURFACE=plane(tmp_path, size=(0, 0, 600, 1000)),
    )
    (row,) = rows(results["GUIDELINES"])
    assert row["station_to"] == pytest.approx(500.0)
    (lost,) = rows(results["FLAGGED"])
    assert (lost["flag"], lost["kind"], lost["side"]) == ("no_surface", "guideline", "right")
    assert (lost["station_from"], lost["station_to"]) == pytest.approx((500.0, 800.0))
    log, page = Log(), tmp_path / "g.html"
    run(
        layer([[(100, 500), (900, 500)]], "LineString"),
        feedback=log,
        Z_FROM="surface",
        SURFACE=plane(tmp_path, size=(0, 0, 600, 1000)),
        HTML=str(page),
    )
    told = "1 stretches have no heights, and no guideline was laid there."
    assert told in log.warnings and told in page.read_text(encoding="utf-8")


def test_two_heights_at_one_place_are_refused_where_heights_are_those_of_the_line(run):
    lines = layer([[(0, 0, 1), (10, 0, 2), (10, 0, 5), (20, 0, 3)]])
    assert "two heights at one place, 2.000 and 5.000 at 10.00, 0.00" in refused(run, lines)
    assert run(lines, Z_FROM="none")["GUIDELINE_COUNT"] == 1
    twice = layer([[(0, 0, 1), (10, 0, 2), (10, 0, 2), (20, 0, 3)]])
    assert run(twice)["GUIDELINE_COUNT"] == 1


def test_lines_without_heights_stay_plan_lines(run):
    log = Log()
    results = run(layer([[(0, 0), (10, 0)]], "LineString"), feedback=log)
    assert results["GUIDELINES"].wkbType() == QgsWkbTypes.Type.LineStringM
    assert rows(results["GUIDELINES"])[0]["z_from"] == "none"
    assert any("no heights" in text for text in log.warnings)


def test_a_line_with_a_vertex_without_height_is_flagged(run):
    broken = QgsGeometry(
        QgsLineString([QgsPoint(0, 0, 1), QgsPoint(10, 0, math.nan), QgsPoint(20, 0, 3)])
    )
    lines = layer([broken, CURB])
    results = run(lines)
    assert [r["source_id"] for r in rows(results["GUIDELINES"])] == [2]
    assert rows(results["FLAGGED"])[0]["flag"] == "no_height"


@pytest.mark.parametrize(
    ("code", "line", "parameters"),
    [
        ("crosses", [(0, 0), (10, 0)], {"SIDE": "toward", "REFERENCE": ["LineString (5 -5, 5 5)"]}),
        ("touches", [(0, 0), (10, 0)], {"SIDE": "away", "REFERENCE": ["LineString (0 0, 10 0)"]}),
        ("tie", [(0, 0), (10, 0)], {"SIDE": "toward", "REFERENCE": ["LineString (0 4, 10 4)", "LineString (0 -4, 10 -4)"]}),
        ("beyond", [(0, 0), (10, 0)], {"SIDE": "toward", "REFERENCE": ["LineString (40 3, 50 3)"]}),
        ("swaps", [(0, 0), (10, 0)], {"SIDE": "toward", "REFERENCE": ["LineString (0 4, 4 4)", "LineString (6 -4, 10 -4)"]}),
        ("along_wind", [(0, 0), (0, 10)], {"SIDE": "compass", "COMPASS": "north"}),
        ("turns", [(0, 0), (10, 0), (10, 10), (0, 10)], {"SIDE": "compass", "COMPASS": "north"}),
    ],
)  # fmt: skip
def test_what_is_ambiguous_is_flagged_with_both_candidates(run, code, line, parameters):
    if "REFERENCE" in parameters:
        parameters = parameters | {"REFERENCE": shapes("LineString", parameters["REFERENCE"])}
    results = run(layer([line], "LineString"), **parameters)
    assert results["GUIDELINE_COUNT"] == 0 and results["FLAGGED_COUNT"] == 1
    found = rows(results["FLAGGED"])
    assert [r["flag"] for r in found] == [code] * 2
    assert [(r["kind"], r["side"], r["signed_offset"]) for r in found] == [
        ("candidate", "right", 1.0),
        ("candidate", "left", -1.0),
    ]
    assert all(len(r["why"]) > 40 for r in found)


@pytest.mark.parametrize(
    ("code", "slope", "line"),
    [("flat", (0.05, 0.0), [(10, 500), (900, 500)]), ("no_surface", (0.0, 0.05), [(10, 0.5), (900, 0.5)])],
)  # fmt: skip
def test_uphill_is_flagged_where_the_ground_does_not_say(run, tmp_path, code, slope, line):
    results = run(
        layer([line], "LineString"),
        SIDE="uphill",
        SURFACE=plane(tmp_path, slope=slope, size=(0, 0, 1000, 1000)),
    )
    assert {r["flag"] for r in rows(results["FLAGGED"])} == {code}
    assert results["GUIDELINE_COUNT"] == 0


@pytest.mark.parametrize("code", ["both_inside", "both_outside"])
def test_inside_is_flagged_away_from_the_border(run, code):
    reach = {"both_inside": 50, "both_outside": -2}[code]
    box = shapely.box(-50, -50, 60, reach)
    results = run(
        layer([[(0, 0), (10, 0)]], "LineString"),
        SIDE="inside",
        REFERENCE=shapes("Polygon", [box.wkt]),
    )
    assert {r["flag"] for r in rows(results["FLAGGED"])} == {code}


def test_a_bend_too_tight_is_listed_with_its_stations(run):
    hairpin = [(0, 0), (100, 0), (100, 1), (0, 1)]
    results = run(layer([hairpin], "LineString"), SIDE="left", OFFSETS="0.4; 2")
    (row,) = rows(results["GUIDELINES"])
    assert row["signed_offset"] == -0.4
    (lost,) = rows(results["FLAGGED"])
    assert (lost["flag"], lost["kind"], lost["signed_offset"]) == ("lost", "stretch", -2.0)
    assert (lost["station_from"], lost["station_to"]) == (0.0, 201.0)
    assert results["LOST_COUNT"] == 1 and results["FLAGGED_COUNT"] == 0


def test_closed_lines_are_complete_with_their_corner_at_the_start(run):
    ring = [(0, 0, 1), (10, 0, 2), (10, 10, 3), (0, 10, 4), (0, 0, 1)]
    results = run(layer([ring, ring]), SIDE_FIELD="", SIDE="left")
    xyz = vertices(results["GUIDELINES"])[0]
    assert np.allclose(xyz[0], xyz[-1]) and np.allclose(xyz[0], (1, 1, 1))
    outer = vertices(run(layer([ring]), SIDE="right")["GUIDELINES"])[0]
    assert np.allclose(outer[[0, -1]], (-1, -1, 1)) and len(outer) == 5 + 8  # and their feet
    (row,) = rows(run(layer([ring]), SIDE="right")["GUIDELINES"])
    assert row["compass_side"] == "outside"
    assert "driving anticlockwise" in row["sentence"]


def test_true_arcs_keep_their_concentric_distance(run):
    lines = layer(
        [QgsGeometry.fromWkt("CircularString (0 0, 10 10, 20 0)")], "CircularString", METRES
    )
    results = run(lines, OFFSETS="0.25 m; 1", SIDE="left")
    for radius, xyz in zip((10.25, 11.0), vertices(results["GUIDELINES"]), strict=True):
        assert np.abs(np.hypot(xyz[:, 0] - 10, xyz[:, 1]) - radius).max() < 2e-4


def test_reference_in_another_crs_is_moved(run):
    from qgis.core import QgsCoordinateTransform, QgsProject

    point = QgsGeometry.fromWkt("Point (1150 2000)")
    moved = QgsGeometry(point)
    moved.transform(
        QgsCoordinateTransform(
            QgsCoordinateReferenceSystem(FEET),
            QgsCoordinateReferenceSystem("EPSG:32119"),
            QgsProject.instance(),
        )
    )
    log = Log()
    results = run(
        layer([CURB]), feedback=log, SIDE="toward", REFERENCE=layer([moved], "Point", "EPSG:32119")
    )
    assert rows(results["GUIDELINES"])[0]["side_line"] == "right"


@pytest.mark.parametrize(
    ("words", "parameters"),
    [
        (("minus sign", "Side"), {"OFFSETS": "-1"}),
        (("offset of 0",), {"OFFSETS": "0"}),
        (("at least one",), {"OFFSETS": ""}),
        (("cannot be read",), {"OFFSETS": "one"}),
        (("needs a reference",), {"SIDE": "toward"}),
        (("needs a surface",), {"SIDE": "uphill"}),
        (("need a surface",), {"Z_FROM": "surface"}),
        (("not one of", "right"), {"SIDE": "starboard"}),
    ],
)
def test_bad_parameters_get_one_sentence_before_anything_is_written(
    run, tmp_path, words, parameters
):
    path = tmp_path / "keep.gpkg"
    path.write_bytes(b"precious")
    message = refused(run, layer([CURB]), GUIDELINES=str(path), **parameters)
    for word in words:
        assert word in message
    assert path.read_bytes() == b"precious"


def test_bad_fields_name_the_feature(run):
    lines = layer([CURB], fields="own:double&field=way:string", attributes=[[-2.0, "up"]])
    assert "Feature 1" in refused(run, lines, SIDE_FIELD="way")
    message = refused(run, lines, OFFSET_FIELD="own")
    assert "Feature 1" in message and "minus sign" in message
    lines = layer([CURB], fields="way:string", attributes=[["toward"]])
    assert "needs a reference" in refused(run, lines, SIDE_FIELD="way")


def test_degrees_and_foreign_surfaces_are_refused(run, tmp_path):
    message = refused(run, layer([[(10, 50), (11, 50)]], "LineString", "EPSG:4326"))
    assert "projected CRS" in message
    surface = plane(tmp_path, crs=METRES)
    assert "one CRS" in refused(run, layer([CURB]), SIDE="uphill", SURFACE=surface)


def test_lines_without_length_are_refused_by_id(run):
    message = refused(run, layer([CURB, [(5, 5, 1), (5, 5, 2)]]))
    assert "feature 2" in message.lower()


def test_parts_are_lines_of_their_own(run):
    multi = QgsGeometry.fromWkt("MultiLineString ((0 0, 10 0), (0 5, 10 5))")
    results = run(layer([multi], "MultiLineString"))
    assert [(r["source_id"], r["part"]) for r in rows(results["GUIDELINES"])] == [(1, 0), (1, 1)]


def test_the_report_says_the_side_for_both_directions(run, tmp_path):
    page = tmp_path / "sides.html"
    reference = shapes(
        "LineString", ["LineString (5 -5, 5 5)", "LineString (1000 1900, 1200 2100)"]
    )
    lines = layer([CURB, [(0, 0, 5), (10, 0, 5)]], attributes=[["back of curb"], ["<walk> & edge"]])
    run(lines, SIDE="toward", REFERENCE=reference, TRAVEL="against", HTML=str(page))
    text = page.read_text(encoding="utf-8")
    assert "1.00 ft to the LEFT of &#x27;back of curb&#x27;, seen driving south-west" in text
    assert "left, unlike the line" in text
    assert "The reference crosses the line" in text and "&lt;walk&gt; &amp; edge" in text
    assert "0+00.00\N{NO-BREAK SPACE}– 2+82.84, 282.84\N{NO-BREAK SPACE}usft" in text
    assert text.count("<svg") == 2 and "<script" not in text
    assert "utilities" in text


def test_guidelines_survive_a_geopackage(run, tmp_path):
    path = tmp_path / "out.gpkg"
    results = run(layer([CURB]), GUIDELINES=str(path))
    assert QgsVectorLayer(str(path), "back", "ogr").featureCount() == 1
    (xyz,) = vertices(QgsVectorLayer(str(path), "back", "ogr"))
    assert xyz[:, 2].tolist() == [100, 101, 103]
    assert results["LENGTH"] == pytest.approx(200 * math.sqrt(2))


def test_the_command_line_runs_it(tmp_path):
    path = tmp_path / "lines.gpkg"
    options = QgsVectorFileWriter.SaveVectorOptions()
    source = layer([CURB], attributes=[["back of curb"]])
    from qgis.core import QgsProject

    QgsVectorFileWriter.writeAsVectorFormatV3(
        source, str(path), QgsProject.instance().transformContext(), options
    )
    profile = link_plugin(tmp_path / "profile")
    out, page = tmp_path / "guidelines.gpkg", tmp_path / "sides.html"
    done = qgis_process(
        profile,
        "--json",
        "run",
        ALGORITHM,
        "--",
        f"LINES={path}",
        "OFFSETS=1 ft, 2 ft",
        "SIDE=left",
        "TRAVEL=against",
        f"GUIDELINES={out}",
        f"HTML={page}",
    )
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    assert results["GUIDELINE_COUNT"] == 2
    found = rows(QgsVectorLayer(str(out), "g", "ogr"))
    assert [r["signed_offset"] for r in found] == [-1.0, -2.0]
    assert found[0]["side_driver"] == "right"
    assert page.exists()
