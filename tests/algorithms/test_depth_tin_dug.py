"""depth_tin as it is really dug: bottoms carried on, batters, square thicknesses, past the edge."""

import numpy as np
import pytest
from qgis.core import QgsProcessingException

from plugin.layers.meshes import read_ply

from .test_depth_tin import Log, box, design, run, two_zones, zones  # noqa: F401 - run is a fixture

PIT = box(30, 30, 60, 60)


def pit(depth="2 ft"):
    return zones((PIT, depth, 2.0, 1))


def rows(results):
    return [feature.attributeMap() for feature in results["FACES"].getFeatures()]


def frustum(side, depth, run_out):
    top = side + 2 * run_out * depth
    return depth / 3 * (side**2 + top**2 + side * top)


def test_a_batter_for_all(run):  # noqa: F811
    """Rule design: the depth runs out over 1.5 x 2 ft on every side, by hand (frustum)."""
    results = run(
        pit(), DEPTH_FIELD="depth", BATTER="1.5:1", BATTER_RULE="design", FACES="TEMPORARY_OUTPUT"
    )
    assert results["VOLUME_BELOW"] == pytest.approx(frustum(30, 2, 1.5), rel=1e-4)
    assert results["AREA_BATTER"] == pytest.approx(36**2 - 30**2, rel=1e-4)
    assert results["AREA_BOTTOM"] == pytest.approx(900, rel=1e-4)
    assert results["PLAN_AREA"] == pytest.approx(36**2, rel=1e-4)
    assert results["LEAST_RUN"] is None and results["FLAG_COUNT"] == 0
    faces = rows(results)
    assert {row["part"] for row in faces} == {"design", "bottom", "batter"}
    for row in faces:
        assert row["depth_min"] <= row["depth"] <= row["depth_max"]
        if row["part"] == "batter":
            assert row["zone"] == 1 and row["depth_min"] > -1e-6 and row["depth_max"] < 2 + 1e-6
        else:
            assert row["depth_min"] == row["depth_max"] == (2 if row["part"] == "bottom" else 0)


def test_widths_and_batters_by_field(run):  # noqa: F811
    """Each zone its own: the fields called widen and batter are found by themselves."""
    layer = zones((box(20, 20, 40, 40), "1", 1.0, 1), (box(60, 20, 80, 40), "1", 1.0, 1))
    layer.dataProvider().renameAttributes({1: "widen", 2: "batter"})
    layer.updateFields()
    values = {1: ("0", 2), 2: ("2", 0)}
    for identifier, (batter, widen) in values.items():
        layer.dataProvider().changeAttributeValues({identifier: {1: widen, 2: batter}})
    results = run(layer, DEPTH_FIELD="depth", WIDEN_FIELD="widen", BATTER_FIELD="batter")
    assert results["AREA_BATTER"] == pytest.approx(24**2 - 20**2, rel=2e-2)
    assert results["PLAN_AREA"] == pytest.approx(24**2 + 24**2, rel=1e-2)


def test_thickness_square_to_the_slope(run, tmp_path):  # noqa: F811
    everywhere = zones((box(-1, -1, 101, 101), "1 ft", 1.0, 1))
    page = tmp_path / "report.html"
    results = run(everywhere, DEPTH_FIELD="depth", THICKNESS="square", HTML=str(page))
    factor = np.sqrt(1 + 0.02**2 + 0.01**2)
    found = read_ply(results["TIN"])
    plan = found.vertices[:, :2] - (1_500_000.0, 600_000.0)
    below = 100 + 0.02 * plan[:, 0] - 0.01 * plan[:, 1] - found.vertices[:, 2]
    assert below == pytest.approx(factor, abs=1e-8)
    assert results["LARGEST_RESIDUAL"] < 1e-8
    assert results["VOLUME_BELOW"] == pytest.approx(design().plan_area * factor)
    text = page.read_text(encoding="utf-8")
    assert "1.000 usft (12.0 in) square" in text and "right angles to each face" in text


def test_past_the_edge_of_the_design(run):  # noqa: F811
    layer = zones((box(80, 30, 110, 60), "2 ft", 2.0, 1))
    log = Log()
    stopped = run(layer, log, DEPTH_FIELD="depth", BATTER="1", WIDEN="3 ft")
    assert stopped["AREA_CARRIED"] == 0
    assert any("runs past the design" in warning for warning in log.warnings)
    log = Log()
    carried = run(layer, log, DEPTH_FIELD="depth", BATTER="1", WIDEN="3 ft", BEYOND="carry")
    assert carried["AREA_BOTTOM"] == pytest.approx(36 * 36, rel=1e-4)
    assert carried["AREA_CARRIED"] == pytest.approx(15 * 40, rel=0.05)
    assert [w for w in log.warnings if "carried on with its slope by up to" in w]
    assert carried["FLAG_COUNT"] == 1
    beyond = read_ply(carried["TIN"]).vertices[:, 0].max() - 1_500_000
    assert beyond == pytest.approx(115, abs=0.1)


def test_the_report_shows_what_was_built(run, tmp_path):  # noqa: F811
    page = tmp_path / "report.html"
    run(pit(), DEPTH_FIELD="depth", BATTER="1.5:1", WIDEN="1 ft", HTML=str(page))
    text = page.read_text(encoding="utf-8")
    for words in (
        "1.5:1",
        "1.000 usft (12.0 in)",
        "of it batters",
        "bottom carried on 1.000 usft (12.0 in) past the edge",
        "side 1.5:1, run per rise from level",
        "not a proof that the ground will stand",
        'fill="url(#batter)"',
        "stroke-dasharray",
    ):
        assert words in text
    run(two_zones(), DEPTH_FIELD="depth", HTML=str(page))
    assert "of it batters" not in page.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("parameters", "sentence"),
    [
        ({"BATTER": "steep"}, "steep"),
        ({"BATTER": "-1"}, "-1"),
        ({"WIDEN": "far"}, "far"),
        ({"WIDEN": "-1 ft"}, "0 or more"),
        ({"BATTER_RULE": "sideways"}, "sideways"),
        ({"CORNERS": "beveled"}, "beveled"),
        ({"THICKNESS": "thin"}, "thin"),
        ({"BEYOND": "infinity"}, "infinity"),
        ({"SNAP": "1 m"}, "not between 0 and"),
    ],
)
def test_what_cannot_be_is_refused_in_words(run, parameters, sentence):  # noqa: F811
    with pytest.raises(QgsProcessingException, match=sentence):
        run(pit(), DEPTH_FIELD="depth", **parameters)


class Hasty(Log):
    """Wants to stop as soon as something has been done."""

    def __init__(self, after):
        super().__init__()
        self.after = after
        self.progressChanged.connect(self.look)

    def look(self, percent):
        if percent > self.after:
            self.cancel()


def test_cancelled_in_the_middle_nothing_is_left(run, tmp_path):  # noqa: F811
    path = tmp_path / "depth.ply"
    path.write_bytes(b"older result")
    for after in (6, 30, 50):
        hasty = Hasty(after)
        results = run(pit(), hasty, DEPTH_FIELD="depth", BATTER="1.5", TIN=str(path))
        assert hasty.isCanceled() and "TIN" not in results
        assert path.read_bytes() == b"older result"
