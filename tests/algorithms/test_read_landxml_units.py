"""The CRS and the unit of a LandXML file against those of the results."""

import math
from functools import partial

import numpy as np
import pytest
from qgis.core import QgsMeshLayer, QgsProcessingException

from plugin.layers.ply import read_ply
from tests.core.landxml_texts import alignment, landxml, surface

from .landxml_cases import (
    FAR,
    FEET,
    METRES,
    ROUTE,
    SURVEY_FEET,
    Log,
    all_outputs,
    features,
    read_text,
)


@pytest.fixture
def run(provider, tmp_path):
    return partial(read_text, tmp_path)


def test_the_crs_is_that_of_the_file(run, tmp_path):
    text = landxml(surface(), system='<CoordinateSystem epsgCode="3875"/>')
    results = run(text, TIN=str(tmp_path / "d.ply"))
    assert QgsMeshLayer(results["TIN"], "d", "mdal").crs().authid() == METRES


@pytest.mark.parametrize(
    "system",
    ["", '<CoordinateSystem name="Site" epsgCode="-"/>', '<CoordinateSystem epsgCode="99999999"/>'],
)
def test_without_a_crs_one_is_asked_for(run, tmp_path, system):
    with pytest.raises(
        QgsProcessingException, match=r"design\.xml states no EPSG code.*choose the CRS"
    ):
        run(landxml(surface(), system=system), **all_outputs(tmp_path))
    assert [path.name for path in tmp_path.iterdir()] == ["design.xml"]


def test_another_crs_than_the_file_states_is_used_and_reported(run, tmp_path):
    text = landxml(surface(), system='<CoordinateSystem epsgCode="3875"/>')
    log = Log()
    results = run(text, log, CRS="EPSG:3067", TIN=str(tmp_path / "d.ply"))
    assert QgsMeshLayer(results["TIN"], "d", "mdal").crs().authid() == "EPSG:3067"
    assert results["FLAG_COUNT"] == 1 and "states EPSG:3875" in log.warnings[0]


def test_a_geographic_crs_is_refused(run, tmp_path):
    with pytest.raises(QgsProcessingException, match="not a projected CRS"):
        run(landxml(surface()), CRS="EPSG:4326", **all_outputs(tmp_path))
    assert [path.name for path in tmp_path.iterdir()] == ["design.xml"]


def test_the_two_feet_are_not_mixed_silently(run, tmp_path):
    # EPSG 2264 is in US survey feet; at 2,000,100 ft the other foot moves a point by 4.000 ft
    # (2,000,100 x 2e-6; National Geodetic Survey).
    with pytest.raises(QgsProcessingException) as caught:
        run(landxml(surface(FAR), FEET), CRS="EPSG:2264", **all_outputs(tmp_path))
    sentence = str(caught.value)
    assert (
        "international foot (0.3048 m)" in sentence and "US survey foot (1200/3937 m)" in sentence
    )
    assert "up to 4.000 usft" in sentence
    assert [path.name for path in tmp_path.iterdir()] == ["design.xml"]


def test_feet_are_converted_when_the_user_says_so(run, tmp_path):
    log = Log()
    text = landxml(surface(FAR) + alignment(ROUTE, 'staStart="1000"'), FEET)
    outputs = all_outputs(tmp_path)
    results = run(text, log, CRS="EPSG:2264", UNITS="convert", **outputs)
    factor = 0.3048 * 3937 / 1200  # Federal Register 2020-21902
    vertices = read_ply(results["TIN"]).vertices
    assert vertices[0] == pytest.approx(np.array([2000000, 500000, 10]) * factor, rel=1e-15)
    assert vertices[0, 0] == pytest.approx(1999996.0, abs=1e-5)
    assert results["PLAN_AREA"] == pytest.approx(10000 * factor**2, rel=1e-9)
    assert results["ALIGNMENT_LENGTH"] == pytest.approx((50 + 15 * math.pi) * factor, rel=1e-12)
    (route,) = features(results["ALIGNMENTS"])[1]
    assert route.geometry().length() == pytest.approx(results["ALIGNMENT_LENGTH"], rel=1e-9)
    assert route["sta_start"] == pytest.approx(1000 * factor, rel=1e-15)
    assert route["from_sta"] == "10+00.00"
    assert results["FLAG_COUNT"] == 1 and "multiplied by 0.999998" in log.warnings[0]


def test_numbers_are_kept_when_the_user_says_so(run, tmp_path):
    log = Log()
    outputs = {"TIN": str(tmp_path / "d.ply")}
    results = run(landxml(surface(FAR), FEET), log, CRS="EPSG:2264", UNITS="keep", **outputs)
    assert read_ply(results["TIN"]).vertices[0].tolist() == [2000000, 500000, 10]
    assert results["FLAG_COUNT"] == 1 and "taken as US survey foot" in log.warnings[0]


def test_the_same_foot_needs_no_word(run, tmp_path):
    text = landxml(surface(FAR), SURVEY_FEET)
    assert run(text, CRS="EPSG:2264", TIN=str(tmp_path / "d.ply"))["FLAG_COUNT"] == 0


def test_a_file_without_units_is_taken_in_those_of_the_crs(run, tmp_path):
    log = Log()
    results = run(landxml(surface(FAR), ""), log, CRS="EPSG:2264", TIN=str(tmp_path / "d.ply"))
    assert results["FLAG_COUNT"] == 1 and "does not say its linear unit" in log.warnings[0]
