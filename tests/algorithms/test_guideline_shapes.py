"""Stations as M, cross grades and multipart guidelines."""

import numpy as np
import pytest
from qgis.core import QgsProcessingException, QgsVectorLayer, QgsWkbTypes

from tests.algorithms.test_guidelines import CURB, Log, layer, rows, run, vertices

__all__ = ["run"]  # the fixture
HAIRPIN = [(0, 0, 0), (60, 0, 6), (60, 3, 6.3), (0, 3, 12)]


def stations(found):
    return [[v.m() for v in f.geometry().vertices()] for f in found.getFeatures()]


def test_m_is_the_station_on_the_line(run):
    bent = [(0, 0, 10), (100, 0, 12), (100, 50, 13)]
    made = run(layer([bent]), OFFSETS="2", SIDE="left", START_STATION="10+00")["GUIDELINES"]
    (m,) = stations(made)
    # On the inner side of the corner two places are square beside the tip: 98 and 102.
    assert m == pytest.approx([1000, 1096, 1100, 1104, 1150])
    (row,) = rows(made)
    assert (row["station_from"], row["station_to"]) == (m[0], m[-1])


def test_m_grows_along_every_piece_and_over_the_start_of_a_ring(run):
    ring = [(0, 0, 1), (40, 0, 1), (40, 40, 1), (0, 40, 1), (0, 0, 1)]
    for lines in ([ring], [HAIRPIN]):
        made = run(layer(lines), OFFSETS="1", SIDE="left", START_STATION="5+00")["GUIDELINES"]
        for m in stations(made):
            assert (np.diff(m) >= 0).all() and m[0] >= 500


def test_m_survives_a_geopackage_with_and_without_heights(run, tmp_path):
    for name, lines, kind in (
        ("z", layer([CURB]), QgsWkbTypes.Type.LineStringZM),
        ("flat", layer([[(0, 0), (10, 0)]], "LineString"), QgsWkbTypes.Type.LineStringM),
    ):
        path = tmp_path / f"{name}.gpkg"
        run(lines, GUIDELINES=str(path), START_STATION="100")
        back = QgsVectorLayer(str(path), "back", "ogr")
        assert back.wkbType() == kind
        assert stations(back)[0][0] == 100.0


@pytest.mark.parametrize("side", ["right", "left"])
def test_a_cross_grade_falls_away_from_the_line_on_either_side(run, side):
    made = run(
        layer([CURB]), SIDE=side, OFFSETS="1.5, 3", CROSS_GRADE="-2 %", DEPTH="0.1"
    )["GUIDELINES"]  # fmt: skip
    for xyz, offset in zip(vertices(made), (1.5, 3.0), strict=True):
        assert xyz[:, 2] == pytest.approx(np.array(CURB)[:, 2] - 0.02 * offset - 0.1)


def test_the_report_says_the_cross_grade_in_words(run, tmp_path):
    page = tmp_path / "g.html"
    run(layer([CURB]), CROSS_GRADE="-1:50", HTML=str(page))
    assert "falls 2 % away from the line" in page.read_text(encoding="utf-8")


def test_a_cross_grade_without_heights_of_the_line_is_told(run):
    log = Log()
    run(layer([CURB]), feedback=log, CROSS_GRADE="2", Z_FROM="none")
    assert any("cross grade has no effect" in text for text in log.warnings)
    with pytest.raises(QgsProcessingException, match="Cross grade away from the line: "):
        run(layer([CURB]), CROSS_GRADE="steep")


def test_pieces_of_one_line_and_offset_come_in_one_feature_when_asked_for(run):
    # Down one side of a wedge and back up: inside it the parallel is lost about the tip.
    wedge = [(0, 0, 1), (60, 4, 2), (0, 8, 3), (-30, 40, 4), (-60, 8, 5), (-4, 6, 6)]
    single = run(layer([wedge]), OFFSETS="2, 3", SIDE="left")["GUIDELINES"]
    multi = run(layer([wedge]), OFFSETS="2, 3", SIDE="left", PARTS="multi")["GUIDELINES"]
    assert multi.wkbType() == QgsWkbTypes.Type.MultiLineStringZM
    assert multi.featureCount() == 2
    assert single.featureCount() >= 2
    parts = [len(f.geometry().asMultiPolyline()) for f in multi.getFeatures()]
    assert sum(parts) == single.featureCount()
    assert sum(r["length"] for r in rows(multi)) == pytest.approx(
        sum(r["length"] for r in rows(single))
    )
