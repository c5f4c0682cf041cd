"""The reviewer's question on the sample: is the schedule's topsoil room there everywhere?"""

import numpy as np
import pytest
import shapely
from qgis.core import QgsCoordinateReferenceSystem, QgsFeatureRequest, QgsVectorLayer

from plugin.core.tin import Tin
from plugin.layers.meshes import write_ply
from plugin.layers.ply import read_ply
from sample_project.pellworth import figures as f
from tests.algorithms.test_check_depth import rows, run  # noqa: F401
from tests.algorithms.test_check_design import SAMPLE

pytestmark = pytest.mark.skipif(not SAMPLE.is_dir(), reason="the sample is not built")
FEET = "EPSG:6588"
DESIGN = str(SAMPLE / "pellworth_design.ply")
STRIPS = ("Planting strip, island side", "Planting strip, school side")


def sample_zones(**depths):
    """Return the zones with other depths for some sections."""
    path = f"{SAMPLE / 'pellworth.gpkg'}|layername=zones"
    layer = QgsVectorLayer(path, "zones", "ogr").materialize(QgsFeatureRequest())
    place = layer.fields().lookupField("depth")
    for feature in layer.getFeatures():
        depth = depths.get(feature["section"].replace(" ", "_"))
        if depth is not None:
            layer.dataProvider().changeAttributeValues({feature.id(): {place: depth}})
    return layer


@pytest.fixture
def dug(provider, tmp_path):
    """Make the surface as dug; the zones' depths may be wrong."""
    import processing

    def make(**depths):
        path = str(tmp_path / "dug.ply")
        given = {"DESIGN": DESIGN, "ZONES": sample_zones(**depths), "TIN": path}
        more = {"DEPTH_FIELD": "depth", "WIDEN_FIELD": "widen", "PRIORITY_FIELD": "priority"}
        processing.run("undercourse:depth_tin", given | more)
        return path

    return make


def judged(run, actual, **parameters):  # noqa: F811
    given = {"ZONES": sample_zones(), "PRIORITY_FIELD": "priority", "TOLERANCE": "-0 / +any"}
    found = run(DESIGN=DESIGN, ACTUAL=actual, **(given | parameters))
    table = {row["zone"]: row for row in rows(found["SUMMARY"]) if row["row"] == "zone"}
    return found, table


def failing(table):
    return sorted(name for name, row in table.items() if row["result"] != "pass")


def test_the_room_for_topsoil_is_there_everywhere(run, dug):  # noqa: F811
    _, table = judged(run, dug())
    assert failing(table) == []
    for strip in STRIPS:
        assert table[strip]["share_pass"] == 100
        assert table[strip]["depth_asked"] == pytest.approx(0.60)
        # Rounding of a foot's thousandth, and the widened curb beside it, 1.15 deep.
        assert table[strip]["dev_min"] > -1e-3
        assert table[strip]["dev_max"] == pytest.approx(1.15 - 0.60, abs=1e-3)
    assert f.SECTIONS["planting strip"] == "0.60 ft"


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ("0.50 ft", "0.100 usft (1.2 in) less than asked"),
        ("0.60 in", "0.550 usft (6.6 in) less than asked"),  # inches for feet
        ("-0.60 ft", "1.200 usft (14.4 in) less than asked"),  # raised instead of lowered
    ],
)
def test_strips_dug_wrong_are_caught_and_nothing_else(run, dug, wrong, sentence):  # noqa: F811
    found, table = judged(run, dug(planting_strip=wrong))
    assert failing(table) == sorted(STRIPS)
    assert all(sentence in table[strip]["why"] for strip in STRIPS)
    assert {row["kind"] for row in rows(found["WORST"])} == {"shallow"}


def test_a_hump_left_in_one_strip_is_found_at_its_top(run, dug, tmp_path):  # noqa: F811
    read = read_ply(dug())
    xyz = read.vertices.copy()
    path = f"{SAMPLE / 'pellworth.gpkg'}|layername=zones"
    strip = next(z for z in QgsVectorLayer(path, "", "ogr").getFeatures() if z["name"] == STRIPS[0])
    shape = shapely.from_wkt(strip.geometry().asWkt(6))
    design = read_ply(DESIGN)
    depth = Tin.from_arrays(design.vertices, design.faces).sample(xyz)[0] - xyz[:, 2]
    inside = shapely.dwithin(shape, shapely.points(xyz[:, :2]), 1e-4)
    inside = np.flatnonzero(inside & (np.abs(depth - 0.60) < 1e-6))
    top = inside[len(inside) // 2]
    xyz[top, 2] += 0.25
    hump = tmp_path / "hump.ply"
    tin = Tin.from_arrays(xyz, read.faces)
    write_ply(hump, tin, QgsCoordinateReferenceSystem(FEET))
    found, table = judged(run, str(hump))
    assert STRIPS[0] in failing(table) and STRIPS[1] not in failing(table)
    worst = next(found["WORST"].getFeatures())
    place = worst.geometry().asPoint()
    assert np.hypot(place.x() - xyz[top, 0], place.y() - xyz[top, 1]) < 0.05
    assert worst["deviation"] == pytest.approx(-0.25, abs=1e-3)


def test_volumes_of_zones_with_plain_bottoms_are_area_times_depth(provider, dug):
    import processing

    found = processing.run(
        "undercourse:volumes_between",
        {
            "UPPER": DESIGN,
            "LOWER": dug(),
            "ZONES": sample_zones(),
            "PRIORITY_FIELD": "priority",
            "SUMMARY": "memory:",
        },
    )
    table = {row["zone"]: row for row in rows(found["SUMMARY"])}
    for zone, depth in (("Rain garden", 1.60), ("Walk", 8.5 / 12), ("Curb, school side", 1.15)):
        row = table[zone]
        # Steps between zones lie in one of the two with a run of 0.001.
        assert row["cut_yd3"] == pytest.approx(row["area_zone"] * depth / 27, rel=1e-4)
    assert found["FILL"] == 0
    assert found["CUT_M3"] == pytest.approx(found["CUT_YD3"] * 27 * (1200 / 3937) ** 3)
