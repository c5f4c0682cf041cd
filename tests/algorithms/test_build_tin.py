"""Building a surface as a user does it, in QGIS and through ``qgis_process``."""

import json

import numpy as np
import pytest
from qgis.core import QgsGeometry, QgsProcessingException

from plugin.core.tin import Tin
from plugin.layers.meshes import read_ply
from tests.algorithms.test_guidelines import Log, layer, rows, shapes
from tests.commands import ROOT, link_plugin, qgis_process
from tests.core.build_shapes import assert_honoured, edge_set

ALGORITHM = "undercourse:build_tin"
EAVES = [(0, 0), (10, 0), (20, 0), (20, 10), (10, 10), (0, 10)]
RIDGE = [(0, 5, 3), (20, 5, 3)]


def spots(xyz, kind="PointZ", **more):
    """Return a layer of points; two numbers give points without Z."""
    texts = [
        f"POINT{' Z' if len(p) == 3 else ''} ({' '.join(repr(float(v)) for v in p)})" for p in xyz
    ]
    return layer([QgsGeometry.fromWkt(text) for text in texts], kind, **more)


def on_eaves():
    return spots([(*place, 0) for place in EAVES])


@pytest.fixture
def run(provider, qgis_processing, tmp_path):
    import processing

    def call(points=None, lines=None, feedback=None, **parameters):
        path = tmp_path / "built.ply"
        given = {"POINTS": points, "BREAKLINES": lines, "TIN": str(path)}
        given |= {"ISSUES": "TEMPORARY_OUTPUT", **parameters}
        results = processing.run(ALGORITHM, given, feedback=feedback)
        read = read_ply(path)
        results["surface"] = Tin.from_arrays(read.vertices, read.faces)
        return results

    return call


def test_points_and_a_ridge_make_a_roof(run):
    results = run(on_eaves(), layer([RIDGE]), FACES="TEMPORARY_OUTPUT")
    tin = results["surface"]
    assert_honoured(tin, [RIDGE])
    assert tin.sample([(7, 2.5)])[0] == pytest.approx([1.5])
    assert (results["POINT_COUNT"], results["VERTEX_COUNT"]) == (6, 8)
    assert results["FACES"].featureCount() == results["FACE_COUNT"] == len(tin.faces)
    assert (results["LINE_LENGTH"], results["LENGTH_HONOURED"]) == (20.0, 20.0)
    assert results["PLAN_AREA"] == pytest.approx(200.0)
    assert results["FLAG_COUNT"] == results["ISSUES"].featureCount() == 0
    area = sum(face.geometry().area() for face in results["FACES"].getFeatures())
    assert area == pytest.approx(200.0)


def test_what_disagrees_is_in_the_layer_the_log_and_the_report(run, tmp_path):
    log, page = Log(), tmp_path / "built.html"
    lines = layer([RIDGE, [(5, 1, 1), (5, 9, 1)]])
    points = spots([*((*place, 0) for place in EAVES), (15, 2, 1), (15, 2, 2)])
    results = run(points, lines, log, HTML=str(page))
    found = rows(results["ISSUES"])
    assert [row["flag"] for row in found] == ["crossing", "duplicate"]
    assert "1 and 2 meet at heights 1.000 and 3.000, 2.000 apart" in found[0]["why"]
    places = [f.geometry().asPoint() for f in results["ISSUES"].getFeatures()]
    assert [(p.x(), p.y()) for p in places] == [(5, 5), (15, 2)]
    assert (results["CONFLICT_COUNT"], results["DUPLICATE_COUNT"]) == (1, 1)
    assert results["LENGTH_HONOURED"] == 0.0
    assert any("2 places may be wrong, 1 of them" in text for text in log.warnings)
    text = page.read_text(encoding="utf-8")
    assert text.index("2 places may be wrong") < text.index("To be looked at")
    assert found[0]["why"] in text
    assert text.count("<svg") == 1
    assert "Before you dig" in text


def test_heights_from_a_field(run):
    table = {"fields": "h:double", "attributes": [[0.5]] * 5 + [[None]]}
    results = run(spots(EAVES, "Point", **table), layer([RIDGE]), HEIGHT_FIELD="h")
    assert results["surface"].vertices[:, 2].min() == 0.5
    (row,) = rows(results["ISSUES"])
    assert (row["flag"], row["feature"]) == ("no_height", 6)


def test_lengths_with_units_and_the_snap_distance(run):
    # 3 mm are 0.0098 ft: the heights differ by 0.2 in, which is more, and less than half an inch.
    lines = layer([RIDGE, [(5, 1, 3 + 1 / 60), (5, 9, 3 + 1 / 60)]])
    assert run(on_eaves(), lines)["CONFLICT_COUNT"] == 1
    assert run(on_eaves(), lines, SAME_HEIGHT="1/2 in")["CROSSING_COUNT"] == 1
    near = spots([*((*place, 0) for place in EAVES), (9, 5.05, 3)])
    apart, through = (
        run(near, layer([RIDGE]), SNAP=snap)["surface"] for snap in ("0.1 mm", "1 in")
    )
    # The ridge is one edge where the point beside it stays beside it.
    ends = [apart.vertices.tolist().index(list(end)) for end in RIDGE]
    assert tuple(ends) in edge_set(apart)
    assert tuple(ends) not in edge_set(through)


@pytest.mark.parametrize("kind", ["Polygon", "LineString"])
def test_a_boundary_with_a_hole(run, kind):
    outer, hole = "2 1, 18 1, 18 9, 2 9, 2 1", "6 3, 9 3, 9 7, 6 7, 6 3"
    texts = [f"LINESTRING ({ring})" for ring in (outer, hole)]
    if kind == "Polygon":
        texts = [f"POLYGON (({outer}), ({hole}))"]
    results = run(on_eaves(), layer([RIDGE]), BOUNDARY=shapes(kind, texts))
    assert results["PLAN_AREA"] == pytest.approx(16 * 8 - 3 * 4)
    assert (results["UNCOVERED_AREA"], results["FLAG_COUNT"]) == (0.0, 0)
    assert (results["OUTSIDE_COUNT"], results["POINT_COUNT"]) == (6, 0)
    assert results["surface"].sample([(3, 2)])[0] == pytest.approx([1.2])
    assert results["LENGTH_INSIDE"] == pytest.approx(16.0 - 3.0, abs=1e-3)
    assert results["LENGTH_HONOURED"] == pytest.approx(results["LENGTH_INSIDE"])


def test_a_boundary_with_heights_is_an_edge_and_one_at_0_is_none(run):
    corners = [(-5, -5), (25, -5), (25, 15), (-5, 15), (-5, -5)]

    def ring(z):
        text = ", ".join(f"{x} {y} {z}" for x, y in corners)
        return shapes("PolygonZ", [f"POLYGON Z (({text}))"])

    results = run(on_eaves(), layer([RIDGE]), BOUNDARY=ring(-1))
    assert results["PLAN_AREA"] == pytest.approx(600.0)
    assert results["surface"].sample([(-5, 0)])[0] == pytest.approx([-1.0])
    log = Log()
    flat = run(on_eaves(), layer([RIDGE]), log, BOUNDARY=ring(0))
    assert flat["PLAN_AREA"] == pytest.approx(200.0)
    assert [row["flag"] for row in rows(flat["ISSUES"])] == ["uncovered"]
    assert any("all heights are 0" in text for text in log.warnings)


def test_an_arc_is_followed_within_a_millimetre(run):
    arc = QgsGeometry.fromWkt("CircularStringZ (0 5 3, 10 8 3, 20 5 3)")
    results = run(on_eaves(), layer([arc], "CircularStringZ"))
    radius = (10**2 + 3**2) / (2 * 3)
    assert results["LENGTH_HONOURED"] == pytest.approx(
        2 * radius * np.arcsin(10 / radius), rel=1e-4
    )
    ridge = results["surface"].vertices[results["surface"].vertices[:, 2] == 3.0]
    off = np.hypot(ridge[:, 0] - 10, ridge[:, 1] - (8 - radius)) - radius
    assert len(ridge) > 10
    assert np.abs(off).max() < 0.0033


def test_breaklines_without_heights_from_the_surface(run):
    flat = layer([[(0, 0), (20, 10)]], "LineString")
    with pytest.raises(QgsProcessingException, match="Breakline 1 has vertices without height"):
        run(on_eaves(), flat)
    results = run(on_eaves(), flat, LINE_HEIGHTS="surface")
    assert_honoured(results["surface"], [[(0, 0, 0), (20, 10, 0)]])


@pytest.mark.parametrize(
    ("given", "sentence"),
    [
        ({}, "Choose points, breaklines, or both"),
        ({"POINTS": spots(EAVES, "Point")}, "the points have no heights"),
        ({"BREAKLINES": layer([RIDGE], crs="EPSG:4326")}, "not a projected CRS"),
        ({"BREAKLINES": layer([RIDGE])}, "The points lie on one line"),
        (
            {"BREAKLINES": layer([RIDGE]), "BOUNDARY": layer([RIDGE])},
            "feature 1: a boundary must be closed",
        ),
        (
            {
                "BREAKLINES": layer([RIDGE]),
                "BOUNDARY": shapes("LineString", ["LINESTRING (0 0, 9 9, 9 0, 0 9, 0 0)"]),
            },
            "crosses or touches itself",
        ),
        ({"BREAKLINES": layer([RIDGE]), "SNAP": "-1 mm"}, "greater than 0"),
    ],
)
def test_bad_input_is_refused_in_one_sentence(run, given, sentence, tmp_path):
    with pytest.raises(QgsProcessingException, match=sentence):
        run(given.pop("POINTS", None), given.pop("BREAKLINES", None), **given)
    assert not (tmp_path / "built.ply").exists()


def test_the_sample_through_qgis_process(tmp_path):
    """Points and lines of the sample's LandXML file, as they come out of reading it."""
    profile = link_plugin(tmp_path / "profile")
    file = ROOT / "sample_project" / "data" / "pellworth.xml"
    read = {"INPUT": file, "SURFACE": "Finished grade"}
    read |= {name: tmp_path / f"{name}.gpkg" for name in ("POINTS", "LINES")}
    arguments = [f"{name}={value}" for name, value in read.items()]
    done = qgis_process(profile, "run", "undercourse:read_landxml", "--", *arguments)
    assert done.returncode == 0, done.stderr
    given = {
        "POINTS": read["POINTS"],
        "BREAKLINES": read["LINES"],
        "TIN": tmp_path / "built.ply",
        "ISSUES": tmp_path / "issues.gpkg",
        "HTML": tmp_path / "built.html",
        "MAX_EDGE": "40 ft",
    }
    arguments = [f"{name}={value}" for name, value in given.items()]
    done = qgis_process(profile, "--json", "run", ALGORITHM, "--", *arguments)
    assert done.returncode == 0, done.stderr
    results = json.loads(done.stdout)["results"]
    # The longest edge leaves the control points, which lie beside the site, without a face.
    assert results["FLAG_COUNT"] == 14 - results["POINT_COUNT"] > 0
    assert results["LENGTH_HONOURED"] == pytest.approx(results["LINE_LENGTH"])
    mesh = read_ply(given["TIN"])
    assert len(mesh.faces) == results["FACE_COUNT"]
    assert "US survey foot" in given["HTML"].read_text(encoding="utf-8")
