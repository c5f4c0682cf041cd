"""The models that the plugin brings: one source, tidy, and run by the real ``qgis_process``."""

import itertools
import json
from pathlib import Path

import numpy as np
import pytest
import shapely
from osgeo import ogr

from plugin.layers.ply import read_ply, write_arrays
from sample_project.pellworth import figures as f
from sample_project.pellworth.dug import Dug
from sample_project.pellworth.surface import build

from .commands import link_plugin, qgis_process

ROOT = Path(__file__).resolve().parent.parent
DATA = ROOT / "sample_project" / "data"
SHIPPED = ROOT / "plugin" / "models"
NAMES = ("breaks_to_guidelines.model3", "depth_surfaces_and_guidelines.model3", "review.model3")


@pytest.fixture(scope="module")
def profile(tmp_path_factory):
    return link_plugin(tmp_path_factory.mktemp("profile") / "qgis")


@pytest.fixture(scope="module")
def site():
    return build()


def _load(name):
    from qgis.core import QgsProcessingModelAlgorithm

    model = QgsProcessingModelAlgorithm()
    assert model.fromFile(str(SHIPPED / name))
    return model


def _lines(path):
    source = ogr.Open(str(path))
    return [
        (feature.items(), np.array(feature.GetGeometryRef().GetPoints()))
        for feature in source.GetLayer(0)
    ]


def _run(profile, model, **parameters):
    arguments = [f"{name}={value}" for name, value in parameters.items()]
    done = qgis_process(profile, "--json", "run", model, "--", *arguments)
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)["results"]


def test_the_sample_has_the_models_of_the_plugin():
    for folder in (SHIPPED, ROOT / "sample_project" / "models"):
        assert tuple(sorted(path.name for path in folder.glob("*.model3"))) == NAMES
    for name in NAMES:
        copy = ROOT / "sample_project" / "models" / name
        assert copy.read_bytes() == (SHIPPED / name).read_bytes(), name


@pytest.mark.parametrize("name", NAMES)
def test_models_are_complete(provider, name):
    model = _load(name)
    fine, problems = model.validate()
    assert fine, problems
    assert model.helpContent()["ALG_DESC"]
    for parameter in model.parameterDefinitions():
        assert parameter.description(), parameter.name()
        if not parameter.isDestination():
            assert model.helpContent().get(parameter.name()), parameter.name()
    for step in model.childAlgorithms().values():
        assert step.algorithmId().startswith("undercourse:")
        assert step.algorithm() is not None
        assert step.comment().description()
        known = {each.name() for each in step.algorithm().parameterDefinitions()}
        assert set(step.parameterSources()) <= known, step.childId()


@pytest.mark.parametrize("name", NAMES)
def test_models_are_tidy_to_look_at(provider, name):
    """No box of the graph lies on another one."""
    model = _load(name)
    parts = [*model.parameterComponents().values()]
    for step in model.childAlgorithms().values():
        parts += [step, step.comment(), *step.modelOutputs().values()]
    boxes = []
    for part in parts:
        x, y, w, h = *_xy(part.position()), part.size().width() / 2, part.size().height() / 2
        boxes.append(shapely.box(x - w, y - h, x + w, y + h))
    for one, other in itertools.combinations(boxes, 2):
        assert not one.intersects(other)


def _xy(point):
    return point.x(), point.y()


def test_provider_offers_the_models(profile):
    listed = qgis_process(profile, "list").stdout
    assert "undercourse:breaks_to_guidelines" in listed
    assert "undercourse:depth_surfaces_and_guidelines" in listed
    assert "undercourse:review" in listed


def test_breaks_to_guidelines(profile, site, tmp_path):
    """A guideline 2 ft beside each toe, on its uphill side."""
    toes, guides = tmp_path / "toes.gpkg", tmp_path / "guides.gpkg"
    _run(
        profile,
        "undercourse:breaks_to_guidelines",
        DESIGN=DATA / "pellworth_design.ply",
        toes_of_slope=toes,
        guidelines=guides,
    )
    lines = [points for _, points in _lines(toes)]
    stated = [line for line in site.lines if line.name in {"strip break", "walk back"}]
    length = sum(shapely.LineString(line.points[:, :2]).length for line in stated)
    floor = next(line.points for line in site.lines if line.name == "garden floor")
    length += shapely.LinearRing(floor[:, :2]).length
    assert sum(shapely.LineString(p[:, :2]).length for p in lines) == pytest.approx(length)
    found = _lines(guides)
    assert len(found) == len(lines)
    for item, points in found:
        toe = lines[item["source_id"] - 1]
        apart = shapely.distance(shapely.points(points[:, :2]), shapely.LineString(toe[:, :2]))
        assert apart.min() == pytest.approx(2.0, abs=1e-6)
        # Uphill of these toes lie the lawns, and the sides of the garden.
        middle = shapely.LineString(points[:, :2]).interpolate([0.2, 0.5, 0.8], normalized=True)
        middle = shapely.get_coordinates(middle)
        assert set(site.sections_at(middle)) <= {"lawn", "rain garden"}
        z = site.heights(points[:, :2])
        inside = np.isfinite(z)
        assert points[inside, 2] == pytest.approx(z[inside], abs=1e-5)
        lowest = np.min(toe[:, 2])
        assert (z[inside] > lowest).all()


def test_depth_surfaces_and_guidelines(profile, site, tmp_path):
    """The surface as dug, by what the zones' fields say, and guidelines on their side."""
    depth, guides = tmp_path / "depth.ply", tmp_path / "guides.gpkg"
    store = DATA / "pellworth.gpkg"
    _run(
        profile,
        "undercourse:depth_surfaces_and_guidelines",
        DESIGN_FILE=DATA / "pellworth.xml",
        SURFACE_NAME="Finished grade",
        ZONES=f"{store}|layername=zones",
        DEPTH_FIELD="depth",
        PRIORITY_FIELD="priority",
        LINES=f"{store}|layername=back_of_curb",
        REFERENCE=f"{store}|layername=lane_centreline",
        SIDE="away",
        OFFSETS="0.75 ft",
        design=tmp_path / "design.ply",
        depth_surface=depth,
        guidelines=guides,
    )
    design = read_ply(tmp_path / "design.ply")
    assert (design.vertices == site.vertices).all()

    low = read_ply(depth)
    rng = np.random.default_rng(3)
    low_xy, high_xy = site.vertices[:, :2].min(axis=0), site.vertices[:, :2].max(axis=0)
    xy = rng.uniform(low_xy, high_xy, (1500, 2))
    stated, _, sure = Dug(site).heights(xy)
    sure &= np.isfinite(stated)
    assert sure.sum() > 800
    from plugin.core.tin import Tin

    z, _ = Tin.from_arrays(low.vertices, low.faces).sample(xy)
    assert z[sure] == pytest.approx(stated[sure], abs=2e-6)

    crown = shapely.LineString(f.place(f.stations(), 0.0))
    found = _lines(guides)
    assert len(found) == 2
    for _, points in found:
        guide = shapely.LineString(points[:, :2])
        # The back of curb lies 11.1 ft from the crown, or more beside the bus bay.
        assert crown.distance(guide) > f.CURB_BACK + 0.7


def _review(profile, tmp_path, design, actual):
    """Run the reviewer's model; return its one report, and the layers of what is wrong."""
    store = DATA / "pellworth.gpkg"
    _run(
        profile,
        "undercourse:review",
        DESIGN=design,
        ACTUAL=actual,
        ZONES=f"{store}|layername=zones",
        DEPTH_FIELD="depth",
        TOLERANCE="-0.002 / +any",
        RULE_FIELD="rule",
        TRAVEL=f"{store}|layername=walk_edge",
        PRIORITY_FIELD="priority",
        WATER="\"section\" = 'rain garden'",
        TITLE="Drop-off loop",
        report=tmp_path / "review.html",
        findings=tmp_path / "findings.gpkg",
        checked_depth=tmp_path / "depth.gpkg",
        grades_that_fail_or_nearly_fail=tmp_path / "grades.gpkg",
    )
    return (tmp_path / "review.html").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def dug(profile, tmp_path_factory):
    """The surface as dug, without bottoms that carry on past their zones."""
    path = tmp_path_factory.mktemp("dug") / "dug.ply"
    _run(
        profile,
        "undercourse:depth_tin",
        DESIGN=DATA / "pellworth_design.ply",
        ZONES=f"{DATA / 'pellworth.gpkg'}|layername=zones",
        DEPTH_FIELD="depth",
        PRIORITY_FIELD="priority",
        TIN=path,
    )
    return path


def _changed(source, target, site, section, rise):
    """Write a mesh with heights changed in the zones of a section; ``rise`` takes x, y."""
    mesh = read_ply(source)
    zones = [shapely.Polygon(z.rings[0]) for z in site.zones if z.section == section]
    inside = shapely.contains_xy(
        shapely.buffer(shapely.union_all(zones), 1e-6), mesh.vertices[:, :2]
    )
    vertices = mesh.vertices.copy()
    vertices[inside, 2] += rise(vertices[inside, :2])
    write_arrays(target, vertices, mesh.faces, mesh.crs_wkt)
    return target


def test_the_review_of_the_sample_passes(profile, dug, tmp_path):
    """Is there the topsoil room everywhere in the strips, does the walk stay under 1:48?"""
    text = _review(profile, tmp_path, DATA / "pellworth_design.ply", dug)
    verdicts = text[: text.index('<section class="bound"')]
    assert "11 of 11 zones pass" in verdicts
    assert "Planting strip, school side: PASS" in verdicts
    assert "the cross slope must be at most 2.083 % (1:48), and the worst is 1.5" in verdicts
    assert "FAIL" not in verdicts
    assert text.count('<section class="bound"') == 3


def test_the_review_catches_strips_that_are_not_deep_enough(profile, dug, site, tmp_path):
    wrong = _changed(dug, tmp_path / "high.ply", site, "planting strip", lambda _: 0.1)
    text = _review(profile, tmp_path, DATA / "pellworth_design.ply", wrong)
    verdicts = text[: text.index('<section class="bound"')]
    assert "Planting strip, school side: FAIL" in verdicts
    assert "Planting strip, island side: FAIL" in verdicts
    assert "Rain garden: PASS" in verdicts


def test_the_review_catches_a_walk_that_is_too_steep_across(profile, dug, site, tmp_path):
    """The back of the walk a tenth of a foot too high: 1.5 % becomes more than 2.083 %."""
    front = shapely.LineString(next(s.points for s in site.lines if s.name == "walk front")[:, :2])
    design = _changed(
        DATA / "pellworth_design.ply",
        tmp_path / "steep.ply",
        site,
        "walk",
        lambda xy: np.where(shapely.distance(shapely.points(xy), front) > 1.0, 0.1, 0.0),
    )
    text = _review(profile, tmp_path, design, dug)
    verdicts = text[: text.index('<section class="bound"')]
    assert "Walk: FAILS on" in verdicts and "cross slope is not at most 2.083 %" in verdicts
