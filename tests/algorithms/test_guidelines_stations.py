"""Stations of guidelines: counted from the start station, round rings, part by part."""

import pytest

from .test_guidelines import CURB, layer, refused, rows, run  # noqa: F401

RING = [(0, 0), (100, 0), (100, 100), (0, 100), (0, 0)]
HAIRPIN = [(0, 0), (100, 0), (100, 1), (0, 1)]


@pytest.fixture
def lay(run):  # noqa: F811
    return run


def test_fields_count_from_the_start_station(lay):
    (row,) = rows(
        lay(layer([[(0, 0), (100, 0)]], "LineString"), START_STATION="12+50")["GUIDELINES"]
    )
    assert (row["station_from"], row["station_to"]) == (1250.0, 1350.0)


def test_each_line_may_have_its_own_start_station(lay):
    lines = layer(
        [CURB[:2], CURB[:2]],
        fields="sta:string",
        attributes=[["2+00"], [None]],
    )
    found = rows(lay(lines, STATION_FIELD="sta", START_STATION="50")["GUIDELINES"])
    assert [r["station_from"] for r in found] == [200.0, 50.0]


def test_flagged_stretches_and_their_sentences_count_from_the_start_station(lay):
    loop = [(0, 0), (10, 0), (10, 5), (5, 5), (5, -5)]  # crosses itself at 5, 0
    results = lay(layer([loop], "LineString"), START_STATION="10+00")
    first, _ = rows(results["FLAGGED"])
    assert (first["station_from"], first["station_to"]) == pytest.approx((1004, 1006))
    assert "between stations 10+04.00 and 10+06.00" in first["why"]


def test_a_piece_over_the_start_of_a_ring_ends_at_a_smaller_station(lay):
    """A figure of eight, begun in the middle of its lower edge: its offsets end at the crossing."""
    eight = [(50, 0), (100, 0), (0, 100), (100, 100), (0, 0), (50, 0)]
    length = 200 + 200 * 2**0.5
    found = rows(lay(layer([eight], "LineString"), SIDE="left", START_STATION="1+00")["GUIDELINES"])
    over = [r for r in found if r["station_to"] < r["station_from"]]
    assert len(over) == 1
    # The crossing at 50, 50 lies 50 + 50 sqrt 2 from the start on the first and, from the end,
    # on the last way through; left of both the offset of 1 ends 1 before it.
    near = 50 + 50 * 2**0.5 - 1
    assert over[0]["station_from"] == pytest.approx(100 + length - near)
    assert over[0]["station_to"] == pytest.approx(100 + near)


def test_a_lost_stretch_over_the_start_of_a_ring_wraps(lay):
    """A slot that an offset of 2 cannot enter, with the start of the ring at its bottom."""
    slot = [(50, 50), (51, 50), (51, 0), (100, 0), (100, 100), (0, 100), (0, 0), (50, 0), (50, 50)]
    results = lay(layer([slot], "LineString"), SIDE="right", OFFSETS="2", START_STATION="10")
    (lost,) = rows(results["FLAGGED"])
    assert lost["flag"] == "tight_bend"
    # 500 round in all; the walls of 50 each are lost, and the bottom of 1 between them.
    assert (lost["station_from"], lost["station_to"]) == pytest.approx((10 + 450, 10 + 51))
    assert "between stations 4+60.00 and 0+61.00" in lost["why"]
    (row,) = rows(results["GUIDELINES"])
    # The guideline is a ring that begins and ends where it passes the slot, whose middle is the
    # middle of the lost stretch: half way along the bottom.
    assert row["station_from"] == row["station_to"] == pytest.approx(10 + 0.5)


def test_a_ring_counts_to_its_length(lay):
    (row,) = rows(lay(layer([RING], "LineString"), START_STATION="100")["GUIDELINES"])
    assert (row["station_from"], row["station_to"]) == (100.0, 500.0)


def test_lines_with_m_count_from_it_when_asked(lay):
    from qgis.core import QgsGeometry

    curve = QgsGeometry.fromWkt("LineStringM (0 0 500, 100 0 600)")
    (row,) = rows(lay(layer([curve], "LineStringM"), STATIONS="m")["GUIDELINES"])
    assert (row["station_from"], row["station_to"]) == (500.0, 600.0)
    words = refused(lay, layer([[(0, 0), (9, 0)]], "LineString"), STATIONS="m")
    assert "no M at its first vertex" in words


def test_parts_of_a_line_go_on_where_the_one_before_ended(lay):
    from qgis.core import QgsGeometry

    both = QgsGeometry.fromWkt("MultiLineString ((0 0, 100 0), (200 0, 250 0))")
    found = rows(lay(layer([both], "MultiLineString"))["GUIDELINES"])
    assert [(r["part"], r["station_from"], r["station_to"]) for r in found] == [
        (0, 0, 100),
        (1, 100, 150),
    ]
